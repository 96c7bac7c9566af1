package analysis_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
	"boxbook/season/internal/testkit/simulate"
	"boxbook/season/stats"
)

// textSeasons is how many simulated seasons of each kind go through the whole
// program as ledger text.
const textSeasons = 10

const (
	textHead = "pilot ines\n"
	// flightSD is the standard deviation of a single flight in percent points.
	flightSD     = 3.0
	simulateSeed = 20261125
)

func randomness(cell int) *rand.Rand { return rand.New(rand.NewPCG(simulateSeed, uint64(cell))) }

// points turns flights into what a trend is judged on.
func points(flights []simulate.Flight) []analysis.TrendPoint {
	list := make([]analysis.TrendPoint, len(flights))
	for i, f := range flights {
		list[i] = analysis.TrendPoint{Day: f.Day, Value: f.Value, Stratum: "sequence", Contest: fmt.Sprint("contest ", f.Contest)}
	}
	return list
}

// dayText is a day of the simulated season.
func dayText(days float64) string { return season.Date(19700 + int(math.Round(days))).String() }

// printedSeason writes flights as printed totals of 100, four decimals each, and
// gives the flights back with the values that were written.
func printedSeason(flights []simulate.Flight) (string, []simulate.Flight) {
	var b strings.Builder
	b.WriteString(textHead)
	written := map[int]bool{}
	kept := make([]simulate.Flight, len(flights))
	for i, f := range flights {
		if !written[f.Contest] {
			written[f.Contest] = true
			fmt.Fprintf(&b, "contest c%d %s..%s\n", f.Contest, dayText(f.Day), dayText(f.Day+9))
		}
		kept[i] = f
		kept[i].Value = math.Round(f.Value*1e4) / 1e4
		kept[i].Day = math.Round(f.Day)
		fmt.Fprintf(&b, "flight %s ines known\n  contest c%d\n  category intermediate\n  official %.4f of 100\n", dayText(f.Day), f.Contest, f.Value)
	}
	return b.String(), kept
}

// Trend and level say the same of a season as values and as text.
func TestSimulatedTrendsAsText(t *testing.T) {
	for i := range textSeasons {
		r := randomness(700 + i)
		text, kept := printedSeason(simulate.Season{Flights: 12, PerContest: 1 + i%2, ContestShare: 0.2, SD: flightSD, Rise: float64(i % 4), Mean: 61}.Make(r))
		l := testkit.BookOf(t, text)
		l.AsOf = testkit.Day(t, dayText(200))
		want := analysis.FlightTrend(points(kept))
		got := analysis.SeasonOf(l, season.Selection{Pilot: l.Pilots[0]}).Trends()
		require.Len(t, got, 1)
		assert.Equal(t, want.Word, got[0].Trend.Word)
		assert.Equal(t, want.S, got[0].Trend.S)
		assert.InDelta(t, want.P, got[0].Trend.P, 1e-12)
		assert.InDelta(t, want.Season, got[0].Trend.Season, 1e-9)
		assert.InDelta(t, want.Contests.P, got[0].Trend.Contests.P, 1e-12)

		present, sure := analysis.PresentOf(l, l.Pilots[0]), sureOf(t, kept, l.AsOf)
		share, ok := present.ShareAt(60, .5)
		require.True(t, ok)
		assert.InDelta(t, sure, share.Sure, 1e-9)
		for _, gate := range analysis.ReadinessOf(l, l.Pilots[0], l.Policies[0], nil, "").Gates {
			if gate.Name == "threshold" {
				assert.Equal(t, share.State, gate.State)
			}
		}
	}
}

// sureOf is the chance that at least half of flights reach 60 % on a day, of
// values alone.
func sureOf(t *testing.T, flights []simulate.Flight, day season.Date) float64 {
	t.Helper()
	var s stats.PresentSeries
	var days []int
	for _, f := range flights {
		on, err := season.ParseDate(dayText(f.Day))
		require.True(t, err)
		s.Values, s.Groups, days = append(s.Values, f.Value), append(s.Groups, f.Contest), append(days, int(on))
	}
	s.Walk, s.Slope = stats.PresentClock(days, int(day))
	p, fitErr := stats.NewPresent(s)
	require.NoError(t, fitErr)
	return p.Level().AtLeast(60)
}

func writeRow(b *strings.Builder, name string, row season.Row) {
	b.WriteString("  " + name)
	for _, m := range row.Marks {
		b.WriteString(" " + m.String())
	}
	b.WriteString("\n")
}

// markedText writes flights with marks, each with a sequence of its own name
// where sequences differ.
func markedText(flights []*season.Flight, extra *season.Sequence) string {
	var b strings.Builder
	b.WriteString(textHead)
	names, contests := map[*season.Sequence]string{}, map[*season.Contest]bool{}
	sequence := func(s *season.Sequence) string {
		if name, ok := names[s]; ok {
			return name
		}
		names[s] = fmt.Sprintf("s%d", len(names))
		fmt.Fprintf(&b, "sequence %s\n  category intermediate\n", names[s])
		for i, figure := range s.Figures {
			fmt.Fprintf(&b, "  %d", i+1)
			for _, e := range figure.Elements {
				fmt.Fprintf(&b, " %s:%d", e.Code, e.K)
			}
			b.WriteString("\n")
		}
		fmt.Fprintf(&b, "  positioning K %d\n", s.Positioning)
		return names[s]
	}
	for _, f := range flights {
		name := sequence(f.Sequence)
		if !contests[f.Contest] {
			contests[f.Contest] = true
			fmt.Fprintf(&b, "contest %s %s..%s\n  panel %s\n", f.Contest.Handle, f.Date, f.Date+40, strings.Join(f.Panel, " "))
		}
		fmt.Fprintf(&b, "flight %s ines known\n  contest %s\n  sequence %s\n", f.Date, f.Contest.Handle, name)
		for i, row := range f.Rows.All() {
			writeRow(&b, fmt.Sprint(i+1), row)
		}
		writeRow(&b, "positioning", *f.Positioning)
	}
	if extra != nil {
		sequence(extra)
	}
	return b.String()
}

// textCareer is how the pilots of the text fly: judges five, noise in grades.
func textCareer(i int) simulate.Career {
	never := -1
	if i%3 == 0 {
		never = 11
	}
	noise := simulate.Noise{Levels: .4, Contest: .2, Flight: .3, Figure: .8, Judge: .5}
	return simulate.Career{Flights: 8 + i%5, PerContest: 1 + i%2, MeanCost: 2.5, Never: never, Judges: 5, Noise: noise}
}

// Forecasts and families say the same of pilots made in code and of their text.
func TestSimulatedForecastsAsText(t *testing.T) {
	for i := range textSeasons {
		_, flights, drawn := textCareer(i).Make(rand.New(rand.NewPCG(simulateSeed, uint64(740+i))))
		made, pilot := modelLedger(flights)
		next := modelSequence(drawn)
		want := analysis.ForecastOf(made, pilot, next)
		l := testkit.BookOf(t, markedText(made.Flights, next))
		l.AsOf = made.AsOf
		got := analysis.ForecastOf(l, l.Pilots[0], l.Sequences[len(l.Sequences)-1])
		require.True(t, want.Told)
		require.True(t, got.Told)
		assert.InDelta(t, want.Percent, got.Percent, 1e-6)
		assert.InDelta(t, want.Low, got.Low, 1e-6)
		assert.InDelta(t, want.High, got.High, 1e-6)
		assert.Equal(t, want.Unseen, got.Unseen)
		assert.Equal(t, i%3 == 0, slices.Contains(got.Unseen, simulate.Groups[11]))

		families, again := analysis.FamiliesOf(made, season.Selection{Pilot: pilot}), analysis.FamiliesOf(l, season.Selection{Pilot: l.Pilots[0]})
		require.Equal(t, len(families.Groups), len(again.Groups))
		for g := range families.Groups {
			assert.InDelta(t, families.Groups[g].Percent, again.Groups[g].Percent, 1e-9)
			assert.InDelta(t, families.Groups[g].Shrunken, again.Groups[g].Shrunken, 1e-6)
			assert.Equal(t, families.Groups[g].Trend.Word, again.Groups[g].Trend.Word)
			assert.InDelta(t, families.Groups[g].Trend.P, again.Groups[g].Trend.P, 1e-12)
		}
		requireGroupTrends(t, flights, again)
	}
}

// modelSequence is a sequence as the program's model has it.
func modelSequence(s *simulate.Sequence) *season.Sequence {
	out := &season.Sequence{Handle: s.Handle, Category: "intermediate", Positioning: s.Positioning}
	for _, f := range s.Figures {
		figure := season.Figure{K: f.K()}
		for _, e := range f {
			figure.Elements = append(figure.Elements, season.Element{Code: e.Code, Group: season.GroupOf(e.Code), K: e.K, Parts: 1})
		}
		out.Figures = append(out.Figures, figure)
	}
	return out
}

// modelFlight is a flight of a model's sequence.
func modelFlight(pilot *season.Pilot, f simulate.Flown, sequence *season.Sequence, contest *season.Contest) *season.Flight {
	row := func(grades []int) season.Row {
		var marks []scoring.Mark
		for _, half := range grades {
			marks = append(marks, scoring.GradeOf(half))
		}
		return season.Row{Marks: marks}
	}
	out := &season.Flight{
		Name: fmt.Sprint("flight-", f.Day), Date: season.Date(20000 + f.Day), Pilot: pilot, Programme: season.Known, Label: 1,
		Contest: contest, Sequence: sequence, Category: "intermediate", Style: &season.RuleStyle{},
		Panel: []string{"A", "B", "C", "D", "E"},
	}
	last := len(f.Grades) - 1
	var rows []season.Row
	for _, grades := range f.Grades[:last] {
		rows = append(rows, row(grades))
	}
	out.Rows = season.RowsOf(rows...)
	positioning := row(f.Grades[last])
	out.Positioning = &positioning
	return out
}

// modelLedger is a ledger of flights, made without any text.
func modelLedger(flights []simulate.Flown) (*season.Ledger, *season.Pilot) {
	pilot, sequences := &season.Pilot{Handle: "ines"}, map[*simulate.Sequence]*season.Sequence{}
	l := &season.Ledger{Pilots: []*season.Pilot{pilot}, AsOf: 20000 + season.Date(flights[len(flights)-1].Day) + 1}
	for _, f := range flights {
		for len(l.Contests) <= f.Contest {
			l.Contests = append(l.Contests, &season.Contest{Handle: fmt.Sprint("contest-", len(l.Contests))})
		}
		if sequences[f.Sequence] == nil {
			sequences[f.Sequence] = modelSequence(f.Sequence)
		}
		l.Flights = append(l.Flights, modelFlight(pilot, f, sequences[f.Sequence], l.Contests[f.Contest]))
	}
	return l, pilot
}

// requireGroupTrends judges each family by gaps worked out by the generator.
func requireGroupTrends(t *testing.T, flights []simulate.Flown, got analysis.Families) {
	t.Helper()
	require.Equal(t, season.Groups, simulate.Groups)
	var flown []int
	var groups [][]analysis.TrendPoint
	for g := range simulate.Groups {
		var list []analysis.TrendPoint
		seen := false
		for _, f := range flights {
			seen = seen || f.Sequence.Has(g)
			if gap, ok := f.Gap(g); ok {
				list = append(list, analysis.TrendPoint{Day: float64(f.Day), Value: gap, Stratum: f.Sequence.Handle, Contest: fmt.Sprint(f.Contest)})
			}
		}
		if seen {
			flown, groups = append(flown, g), append(groups, list)
		}
	}
	trends, qs := analysis.GroupTrends(groups)
	require.Len(t, got.Groups, len(flown))
	for i, line := range got.Groups {
		require.Equal(t, simulate.Groups[flown[i]], line.Group)
		assert.Equal(t, trends[i].Word, line.Trend.Word, line.Group)
		assert.Equal(t, trends[i].S, line.Trend.S, line.Group)
		assert.InDelta(t, trends[i].P, line.Trend.P, 1e-12, line.Group)
		assert.InDelta(t, trends[i].Season, line.Trend.Season, 1e-6, line.Group)
		assert.InDelta(t, qs[i], line.Q, 1e-12, line.Group)
	}
}
