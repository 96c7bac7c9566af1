package analysis_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/analysis/code"
	"boxbook/season/internal/testkit"
	"boxbook/season/stats"
)

// forecastHead is a pilot with the sequence flown, and sequences that ask for
// what was never flown.
const forecastHead = familyHead + `
sequence same-again
  category sportsman
  1 7.4.1.1:10
  2 5.2.1.1:17
  3 1.2.1.1:8 9.1.2.4:10
sequence with-flick
  category sportsman
  1 7.4.1.1:10
  2 5.2.1.1:17
  3 1.2.1.1:8 9.9.2.4:10
sequence with-flicks
  category sportsman
  1 2.2.3.1:10
  2 9.10.3.4:17
  3 1.2.1.1:8 9.9.2.4:10
sequence uncoded
  category sportsman
  1 K 10
  2 K 17
  3 K 18
sequence next
  category intermediate
  1 7.4.1.1:10
  2 5.2.1.1:17
  positioning K 10
`

// flownMonthly are flights of known-26, a month apart, from a table of grades.
func flownMonthly(n int) string {
	table := [][]string{
		{"6", "7.5", "8", "7", "5", "7"},
		{"7", "7", "7.5", "8", "5.5", "8"},
		{"6.5", "8", "7.5", "7.5", "5", "7"},
		{"7", "7.5", "7", "7", "6.5", "7.5"},
		{"6", "7", "7.5", "7", "6", "7"},
		{"7.5", "8", "8", "7", "5.5", "6.5"},
		{"6.5", "7.5", "7", "8", "6", "7"},
		{"7", "7", "8", "7.5", "5", "7.5"},
	}
	var b strings.Builder
	for i := range n {
		day := season.Date(20480 + 20*i)
		b.WriteString(gradedFlight(day.String()+" ines known", table[i%len(table)]...))
	}
	return b.String()
}

func forecast(t testing.TB, book, sequence string) analysis.ForecastAnswer {
	t.Helper()
	l := testkit.BookOf(t, book)
	seq := l.SequenceNamed(sequence)
	require.NotNil(t, seq)
	return analysis.ForecastOf(l, l.PilotNamed("ines"), seq)
}

func requireSound(t require.TestingT, a analysis.ForecastAnswer) {
	for _, v := range []float64{a.Percent, a.Low, a.High} {
		require.False(t, math.IsNaN(v))
		require.True(t, v >= 0 && v <= 100)
	}
	require.True(t, a.Low <= a.Percent && a.Percent <= a.High)
	for _, f := range a.Figures {
		require.True(t, f.Low >= 0 && f.Low <= f.Mean && f.Mean <= f.High && f.High <= 10)
	}
	require.Equal(t, a.Told, a.Lack.Reason == "")
}

// A sequence of families that were flown, one with a family never flown, one
// of nothing else: the unseen groups are named and make the range wider.
func TestForecastNamesWhatWasNeverFlown(t *testing.T) {
	book := forecastHead + flownMonthly(8)
	known, flick, flicks := forecast(t, book, "same-again"), forecast(t, book, "with-flick"), forecast(t, book, "with-flicks")
	for _, a := range []analysis.ForecastAnswer{known, flick, flicks} {
		require.True(t, a.Told, a.Lack)
		requireSound(t, a)
		assert.False(t, a.NewCategory)
		assert.Equal(t, 8, a.Flights)
		assert.Len(t, a.Figures, 3)
	}
	assert.Empty(t, known.Unseen)
	assert.Empty(t, known.Bare)
	assert.Equal(t, []string{"9.9"}, flick.Unseen)
	assert.Equal(t, []string{"2-rolling", "9.9", "9.10"}, flicks.Unseen)
	assert.Equal(t, flicks.Unseen, flicks.NeverFlown)
	assert.Greater(t, flick.High-flick.Low, known.High-known.Low)
	assert.Greater(t, flicks.High-flicks.Low, flick.High-flick.Low)
	// Figures the pilot flies well pull up: stall turns at about 7.5, spins at 5.5.
	assert.InDelta(t, 70, known.Percent, 4)
	// One figure alone is less certain than the sum.
	for _, f := range known.Figures {
		assert.Greater(t, f.High-f.Low, (known.High-known.Low)/10)
	}
}

// Four flights are needed; what is lacking is said.
func TestForecastOfTooFewFlights(t *testing.T) {
	for n := range 5 {
		a := forecast(t, forecastHead+flownMonthly(n), "same-again")
		assert.Equal(t, n == 4, a.Told, n)
		if n < 4 {
			assert.Equal(t, []any{code.FewFlights, n, 4}, []any{a.Lack.Reason, a.Lack.Flights, a.Lack.Least})
		}
		requireSound(t, a)
	}
}

// The record of past forecasts: each flight from those before it, the fifth
// from four. A flight far off is outside.
func TestForecastRecord(t *testing.T) {
	record := func(book string) analysis.ForecastPast {
		l := testkit.BookOf(t, book)
		return analysis.ForecastRecord(l, l.PilotNamed("ines"), "sportsman", nil)
	}
	assert.Empty(t, record(forecastHead+flownMonthly(4)))
	assert.Equal(t, analysis.ForecastPast{Inside: 1, Of: 1}, record(forecastHead+flownMonthly(5)))
	assert.Equal(t, 4, record(forecastHead+flownMonthly(8)).Of)
	off := gradedFlight("2026-11-20 ines known", "1", "1", "1", "1", "1", "1")
	assert.Equal(t, analysis.ForecastPast{Inside: 1, Below: 1, Of: 2}, record(forecastHead+flownMonthly(5)+off))
	assert.Equal(t, 1, record(forecastHead+flownMonthly(5)+off+"  void \"cloud\"\n").Of)
	// Undecided, with an official total: it is held to its decided figures.
	undecided := strings.Replace(off, "panel marek", "panel A B", 1)
	undecided = strings.Replace(strings.ReplaceAll(undecided, " 1\n", " 7 7\n"), "1 7 7", "1 HZ 7", 1) + "  official 400\n"
	assert.Equal(t, analysis.ForecastPast{Inside: 2, Of: 2}, record(forecastHead+flownMonthly(5)+undecided))
}

// The same score each time is said, and the numbers exist.
func TestForecastOfTheSameScoreEachTime(t *testing.T) {
	for name, row := range map[string][]string{
		"figures differ": {"8", "5", "8", "8", "5", "7"},
		"all the same":   {"7", "7", "7", "7", "7", "7"},
	} {
		book := forecastHead
		for i := range 8 {
			book += gradedFlight(season.Date(20480+20*i).String()+" ines known", row...)
		}
		for _, sequence := range []string{"same-again", "with-flicks", "uncoded"} {
			a := forecast(t, book, sequence)
			require.True(t, a.Told, name)
			requireSound(t, a)
			assert.True(t, a.Same, name)
			assert.Less(t, a.Low, a.High)
		}
	}
	assert.False(t, forecast(t, forecastHead+flownMonthly(8), "same-again").Same)
}

// A figure without codes is like one of a family never flown: named, and the range
// is wide because of it. Flights of such sequences alone are no evidence.
func TestForecastWithoutCodes(t *testing.T) {
	a := forecast(t, forecastHead+flownMonthly(8), "uncoded")
	require.True(t, a.Told)
	requireSound(t, a)
	assert.Empty(t, a.Unseen)
	assert.Equal(t, []int{1, 2, 3}, a.Bare)
	assert.InDelta(t, 70, a.Percent, 5)
	known := forecast(t, forecastHead+flownMonthly(8), "same-again")
	assert.Greater(t, a.High-a.Low, known.High-known.Low)

	book := forecastHead
	for i, grade := range []string{"6", "7", "6.5", "7.5", "7"} {
		book += "flight " + season.Date(20480+20*i).String() + " ines known\n  sequence uncoded\n  panel marek\n" + markRows([]string{grade, "7", "6.5"})
	}
	a = forecast(t, book, "uncoded")
	assert.Equal(t, analysis.Lack{Reason: code.FewFlights, Least: 4, Uncoded: 5}, a.Lack)
	assert.False(t, a.Told)
	assert.Equal(t, []string{"1", "5", "7", "9.1"}, forecast(t, book, "same-again").Unseen)
}

// A category never flown is said; practice does not make it flown.
func TestForecastNewCategory(t *testing.T) {
	book := forecastHead + flownMonthly(6)
	assert.True(t, forecast(t, book, "next").NewCategory)
	next := "  sequence next\n  panel marek\n  1 7\n  2 7\n"
	assert.True(t, forecast(t, book+"flight 2026-11-01 ines practice\n"+next, "next").NewCategory)
	assert.False(t, forecast(t, book+"flight 2026-11-01 ines known\n"+next+"  positioning 7\n", "next").NewCategory)
	assert.True(t, forecast(t, book+"flight 2026-11-01 ines known\n"+next+"  positioning 7\n  void \"cloud\"\n", "next").NewCategory)
	assert.True(t, forecast(t, book+"flight 2026-12-24 ines known\n"+next+"  positioning 7\n", "next").NewCategory, "later than today")
}

// Contest flights of the last two years alone: 730 days, to the day.
func TestForecastOfTwoYears(t *testing.T) {
	today := testkit.Day(t, "2026-11-25")
	flight := func(ago int) string {
		return gradedFlight((today-season.Date(ago)).String()+" ines known", "6", "7.5", "8", "7", "5", "7")
	}
	book := forecastHead + flownMonthly(4)
	assert.Equal(t, 5, forecast(t, book+flight(730), "same-again").Flights)
	assert.Equal(t, 4, forecast(t, book+flight(731), "same-again").Flights)
	assert.Equal(t, 5, forecast(t, book+flight(0), "same-again").Flights)
	assert.Equal(t, 4, forecast(t, book+strings.Replace(flight(3), "known\n", "practice\n", 1), "same-again").Flights)
	assert.Equal(t, 4, forecast(t, book+flight(3)+"  void \"cloud\"\n", "same-again").Flights)
	assert.Equal(t, 4, forecast(t, book+"flight 2026-11-02 ines known\n  sequence known-26\n  official 400\n", "same-again").Flights, "without marks")
}

// What was flown longer ago, or has an official total only, is not graded in the
// two years; neither is a figure that waits for a ruling.
func TestForecastUnseenIsNotGraded(t *testing.T) {
	tail := "sequence tail\n  category sportsman\n  1 7.4.1.1:10\n  2 6.2.1.1:15\n"
	flown := func(date, body string) string {
		return "flight " + date + " ines known\n  sequence tail\n" + body
	}
	marks := "  panel marek\n  1 7\n  2 7\n"
	for name, test := range map[string]struct {
		flight string
		want   []string
	}{
		"never":           {"", []string{"6"}},
		"in time":         {flown("2026-11-01", marks), nil},
		"long ago":        {flown("2023-11-01", marks), []string{"6"}},
		"total only":      {flown("2026-11-01", "  official 180\n"), []string{"6"}},
		"not in practice": {strings.Replace(flown("2026-11-01", marks), "known", "practice", 1), []string{"6"}},
		"undecided":       {flown("2026-11-01", "  panel A B\n  1 7 7\n  2 HZ 7\n  official 180\n"), []string{"6"}},
	} {
		assert.Equal(t, test.want, forecast(t, forecastHead+tail+flownMonthly(6)+test.flight, "tail").Unseen, name)
	}
}

// Where every grade of a flight is the same, figures tell nothing apart: the
// forecast is where the flights' own percents stand, but for what an own figure may
// differ by.
func TestForecastOfFlightsInLockstep(t *testing.T) {
	book := forecastHead
	var percents []float64
	var days, contests []int
	for i, grade := range []string{"6", "5", "7", "7.5", "4", "8", "6.5", "7", "6", "5"} {
		book += gradedFlight(season.Date(20480+20*i).String()+" ines known", grade, grade, grade, grade, grade, grade)
		percent, err := strconv.ParseFloat(grade, 64)
		require.NoError(t, err)
		percents, days, contests = append(percents, 10*percent), append(days, 20480+20*i), append(contests, i)
	}
	a := forecast(t, book, "same-again")
	require.True(t, a.Told, a.Lack)
	requireSound(t, a)
	walk, slope := stats.PresentClock(days, int(a.On))
	present, err := stats.NewPresent(stats.PresentSeries{Values: percents, Groups: contests, Walk: walk, Slope: slope})
	require.NoError(t, err)
	span, err := present.Next().Central(analysis.ForecastConfidence)
	require.NoError(t, err)
	assert.InDelta(t, present.Next().Mean(), a.Percent, 1e-9)
	assert.InDelta(t, span.Low, a.Low, .1)
	assert.InDelta(t, span.High, a.High, .1)
	assert.LessOrEqual(t, a.Low, span.Low)
	assert.GreaterOrEqual(t, a.High, span.High)
}

// Several flights of a contest are one contest; three are needed.
func TestForecastOfContests(t *testing.T) {
	var b strings.Builder
	b.WriteString(forecastHead)
	for c := range 5 {
		day := season.Date(20480 + 20*c)
		fmt.Fprintf(&b, "contest c%d %s\n", c, day)
		for f := range 2 {
			row := [][]string{{"6", "7.5", "8", "7", "5", "7"}, {"7", "7", "7.5", "8", "5.5", "8"}, {"6.5", "8", "7.5", "7.5", "5", "7"}}[(c+f)%3]
			b.WriteString(strings.Replace(gradedFlight(fmt.Sprintf("%s ines %s", day, []string{"known", "free"}[f]), row...), "\n", fmt.Sprintf("\n  contest c%d\n", c), 1))
		}
	}
	a := forecast(t, b.String(), "same-again")
	require.True(t, a.Told, a.Lack)
	requireSound(t, a)
	assert.Equal(t, 10, a.Flights)
	assert.Equal(t, 5, a.Contests)
	two := strings.NewReplacer("contest c2\n", "contest c1\n", "contest c3\n", "contest c1\n", "contest c4\n", "contest c1\n").Replace(b.String())
	assert.Equal(t, analysis.Lack{Reason: code.FewContests, Flights: 10, Contests: 2, Least: 3}, forecast(t, two, "same-again").Lack)
}

// Whatever was flown, a forecast is told with sound numbers or says why not.
func TestForecastProperties(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		book := forecastHead
		n := rapid.IntRange(0, 6).Draw(r, "n")
		marks := rapid.SampledFrom([]string{"0", "5", "6", "6.5", "7", "10", "HZ", "AV", "PZ"})
		for i := range n {
			row := rapid.SliceOfN(marks, 6, 6).Draw(r, "row")
			book += gradedFlight(season.Date(20480+20*i).String()+" ines known", row...)
		}
		requireSound(r, forecast(t, book, rapid.SampledFrom([]string{"same-again", "with-flicks", "uncoded", "next"}).Draw(r, "sequence")))
	})
}

// Weighted lines are in it with their mean over the flights that had them, by K;
// a line never graded counts as the figures do.
func TestForecastOfWeightedLines(t *testing.T) {
	lined := "sequence lined\n  category sportsman\n  1 7.4.1.1:10\n  2 5.2.1.1:17\n  3 1.2.1.1:8 9.1.2.4:10\n  positioning K 15\n"
	plain := forecast(t, forecastHead+flownMonthly(8), "same-again")
	a := forecast(t, forecastHead+lined+flownMonthly(8), "lined")
	assert.InDelta(t, plain.Percent, a.Percent, 1e-9)
	require.Len(t, a.Lines, 1)
	assert.Equal(t, []any{scoring.Positioning, 15, 0}, []any{a.Lines[0].Line, a.Lines[0].K, a.Lines[0].Flights})
	assert.True(t, math.IsNaN(a.Lines[0].Percent))

	flown := func(date, mark string) string {
		return "flight " + date + " ines known\n  sequence lined\n  panel marek\n  1 6.5\n  2 7.5\n  3 7.5\n  positioning " + mark + "\n"
	}
	book := forecastHead + strings.Replace(lined, "positioning K 15", "positioning K 15\nsequence bare\n  category sportsman\n  1 7.4.1.1:10\n  2 5.2.1.1:17\n  3 1.2.1.1:8 9.1.2.4:10", 1) +
		flownMonthly(8) + flown("2026-11-01", "5") + flown("2026-11-08", "6")
	a, bare := forecast(t, book, "lined"), forecast(t, book, "bare")
	assert.Equal(t, 2, a.Lines[0].Flights)
	assert.InDelta(t, 55, a.Lines[0].Percent, 1e-12)
	assert.Less(t, a.Percent, bare.Percent)
	// 45 of 60 K are figures: the figures' percent is what the whole one leaves.
	figures := (a.Percent - .25*55) / .75
	reach := a.Reach(.75*72 + .25*55)
	assert.InDelta(t, 7.2, reach.Mean, 1e-12)
	assert.InDelta(t, bare.Percent, figures, 3)
	assert.Greater(t, a.Reach(a.Low).Chance, .89)
	assert.InDelta(t, .1, a.Reach(a.High).Chance, 1e-6)
	assert.True(t, math.IsNaN(a.Reach(99).Mean), "not even by tens")
	assert.Zero(t, a.Reach(99).Chance)
}

// Flights of the present category and of the asked one; no other.
func TestForecastOfTwoCategories(t *testing.T) {
	step := "sequence up\n  category advanced\n  1 7.4.1.1:10\n  2 5.2.1.1:17\nsequence down\n  category primary\n  1 7.4.1.1:10\n  2 5.2.1.1:17\n"
	flown := func(date, sequence string) string {
		return "flight " + date + " ines known\n  sequence " + sequence + "\n  panel marek\n  1 6\n  2 7\n"
	}
	book := forecastHead + step + flownMonthly(6) + flown("2026-11-01", "down")
	assert.Equal(t, 6, forecast(t, book, "same-again").Flights)
	assert.Equal(t, 7, forecast(t, book, "down").Flights)
	assert.Equal(t, 6, forecast(t, book, "up").Flights)
}

// Too long after the last flight, it is told for the day of that flight.
func TestForecastLongAfterTheLastFlight(t *testing.T) {
	l := testkit.BookOf(t, forecastHead+flownMonthly(8))
	p, seq := l.PilotNamed("ines"), l.SequenceNamed("same-again")
	last := l.Flights[7].Date
	l.AsOf = last + 70
	a := analysis.ForecastOf(l, p, seq)
	assert.False(t, a.Stale)
	assert.Equal(t, l.AsOf, a.On)
	l.AsOf = last + 71
	a = analysis.ForecastOf(l, p, seq)
	require.True(t, a.Told)
	assert.True(t, a.Stale)
	assert.Equal(t, last, a.On)
	l.AsOf = last + 300
	assert.Equal(t, a.Percent, analysis.ForecastOf(l, p, seq).Percent)
}

// A judge's zero that only lowers a mean leaves the figure in the forecast, and is not
// among those left out; a chance of a zero counts it.
func TestForecastCountsFiguresThatWereZeroed(t *testing.T) {
	book := forecastHead + flownMonthly(8)
	low := "flight 2026-11-01 ines known\n  sequence known-26\n  panel A B C D E\n" + markRows([]string{"PZ 7 7 7 7", "7 7 7 7 7", "7 7 7 7 7", "7 7 7 7 7", "7 7 7 7 7", "7 7 7 7 7"})
	partly := forecast(t, book+low, "same-again")
	assert.Equal(t, []int{0, 1}, []int{partly.Spoilt.Zeros, partly.Spoilt.Partly})
	zeroed := forecast(t, book+strings.Replace(low, "PZ 7 7 7 7", "HZ HZ HZ 7 7", 1), "same-again")
	assert.Equal(t, []int{1, 0}, []int{zeroed.Spoilt.Zeros, zeroed.Spoilt.Partly})
	one := gate(ready(t, book+low, ""), "zeros")
	assert.Equal(t, 1.0, number(one, code.ZerosSeen), "it is in the figure's mean")
	assert.Zero(t, number(one, code.ZerosWhole), "which is not 0")
	dropped := gate(ready(t, book+low+"  rules drop-extremes\n", ""), "zeros")
	assert.Zero(t, number(dropped, code.ZerosSeen), "dropped as the lowest")
}

// A figure's range is called wide where something in it was never graded and it is, in tenths,
// wider than those of the figures in which all was.
func TestForecastMarksWideFigures(t *testing.T) {
	wide := func(sequence string) (numbers []int) {
		for _, f := range forecast(t, forecastHead+flownMonthly(8), sequence).Figures {
			if f.Wide {
				numbers = append(numbers, f.Number)
			}
		}
		return numbers
	}
	assert.Empty(t, wide("same-again"))
	assert.Empty(t, wide("with-flick"), "wider by less than the tenths that a reader has")
	assert.Equal(t, []int{1, 2, 3}, wide("with-flicks"), "none to hold them against")
}

// How many flights came to a percent is counted as they were flown, zeros and all.
func TestForecastCountsWhatCameToIt(t *testing.T) {
	book := forecastHead + flownMonthly(8)
	least := 100.0
	l := testkit.BookOf(t, book)
	for _, f := range l.Flights {
		percent, _ := f.Record().Percent.Float64()
		least = min(least, percent)
	}
	came := func(book string) []int {
		a := forecast(t, book, "same-again")
		r := a.Reach(least)
		return []int{r.Came, r.Of}
	}
	assert.Equal(t, []int{8, 8}, came(book))
	zeroed := "flight 2026-11-01 ines known\n  sequence known-26\n  panel A\n" + markRows([]string{"HZ", "7", "7", "7", "7", "7"})
	assert.Equal(t, []int{8, 9}, came(book+zeroed))
}

// Nothing zeroed is what it speaks of: a zero moves neither forecast nor record,
// and is counted beside it; so are penalties.
func TestForecastApartFromZeros(t *testing.T) {
	clean := forecast(t, forecastHead+flownMonthly(8), "same-again")
	assert.Equal(t, []any{0, 48, 0}, []any{clean.Spoilt.Zeros, clean.Spoilt.Figures, clean.Spoilt.Penalised})
	book := forecastHead + flownMonthly(8) + gradedFlight("2026-11-01 ines known", "6", "7.5", "HZ", "7", "5.5", "7") + "  penalty low 20\n"
	a := forecast(t, book, "same-again")
	assert.Equal(t, []any{1, 54, 1}, []any{a.Spoilt.Zeros, a.Spoilt.Figures, a.Spoilt.Penalised})
	assert.Equal(t, 20.0, a.Spoilt.Penalty)
	assert.InDelta(t, clean.Percent, a.Percent, 2)
	assert.Greater(t, a.Spoilt.ZeroChance, clean.Spoilt.ZeroChance)
	record := func(book string) analysis.ForecastPast {
		l := testkit.BookOf(t, book)
		return analysis.ForecastRecord(l, l.PilotNamed("ines"), "sportsman", nil)
	}
	want := record(forecastHead + flownMonthly(8))
	want.Inside, want.Of = want.Inside+1, want.Of+1
	assert.Equal(t, want, record(book))
}

// A flight of a sequence without codes says nothing of figures, and as much as any
// other of zeros and penalties.
func TestForecastCountsZerosOfFlightsWithoutCodes(t *testing.T) {
	bare := "flight 2026-11-01 ines known\n  sequence uncoded\n  panel A B C\n" + markRows([]string{"HZ HZ HZ", "7 7 7", "6 6 6"}) + "  penalty low 30\n"
	clean := forecast(t, forecastHead+flownMonthly(8), "same-again")
	a := forecast(t, forecastHead+flownMonthly(8)+bare, "same-again")
	require.Len(t, a.Uncoded, 1)
	assert.Equal(t, 8, a.Flights)
	assert.Equal(t, analysis.SpoiltFlights{Flights: 9, Zeros: 1, Figures: 51, ZeroChance: a.Spoilt.ZeroChance, Penalised: 1, Penalty: 30}, a.Spoilt)
	assert.Greater(t, a.Spoilt.ZeroChance, clean.Spoilt.ZeroChance)
}

// Three misses on one side and none on the other are leaning; one on the other side
// is not.
func TestForecastPastLeaning(t *testing.T) {
	for past, want := range map[analysis.ForecastPast]int{
		{Inside: 9, Above: 2, Of: 11}: 0, {Inside: 8, Above: 3, Of: 11}: 1, {Inside: 8, Below: 3, Of: 11}: -1,
		{Above: 3, Below: 1, Of: 4}: 0, {Above: 1, Below: 5, Of: 6}: 0, {}: 0,
	} {
		assert.Equal(t, want, past.Leaning(), past)
	}
}

// Below their ranges are more flights than chance gives only where the exact binomial says
// so at one in twenty [derived]: of 15, P(X >= 4) is .0556, P(X >= 5) .0127. Flights above
// count for nothing.
func TestForecastsOftenBelow(t *testing.T) {
	assert.False(t, analysis.ForecastPast{Inside: 11, Below: 4, Of: 15}.OftenBelow())
	assert.True(t, analysis.ForecastPast{Inside: 10, Below: 5, Of: 15}.OftenBelow())
	assert.False(t, analysis.ForecastPast{Inside: 5, Above: 10, Of: 15}.OftenBelow())
	assert.False(t, analysis.ForecastPast{}.OftenBelow())
	assert.InDelta(t, 1.5, analysis.ForecastPast{Of: 15}.BelowExpected(), 1e-12)
	assert.InDelta(t, .0555563, stats.BinomialAtLeast(4, 15, .1), 1e-6)
}
