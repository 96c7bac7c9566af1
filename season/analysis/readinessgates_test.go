package analysis_test

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
)

// readyHead is a pilot, a coach, a sequence of five figures at sportsman, one
// at intermediate, and the known sequence of the next step.
const readyHead = `
pilot ines
pilot yuki
coach marek
  name "Marek Oduya"
sequence five
  category sportsman
  1 7.4.1.1:10
  2 5.2.1.1:10
  3 1.2.1.1:10
  4 2.2.1.1:10
  5 8.5.2.1:10
sequence flicks
  category sportsman
  1 9.9.3.4:10
  2 9.9.2.4:10
sequence inter-known
  category intermediate
  programme known
  1 7.4.1.1:10
  2 5.2.1.1:10
  3 1.2.1.1:10
`

// ready answers for ines by the policy move-up as the book has it.
func ready(t testing.TB, book, to string) analysis.Readiness {
	t.Helper()
	l := testkit.BookOf(t, book)
	policy := l.PolicyNamed(season.HousePolicy)
	require.NotNil(t, policy)
	return analysis.ReadinessOf(l, l.PilotNamed("ines"), policy, nil, to)
}

// gate is one gate of a page, the zero Gate where it was not asked.
func gate(r analysis.Readiness, name string) analysis.Gate {
	for _, g := range r.Gates {
		if g.Name == name {
			return g
		}
	}
	return analysis.Gate{}
}

func gateNames(r analysis.Readiness) []string {
	var list []string
	for _, g := range r.Gates {
		list = append(list, g.Name)
	}
	return list
}

// readyFlights are flights of sequence five, a fortnight apart, the last on
// the day given, all figures with one grade each.
func readyFlights(last string, grades ...string) string {
	end, _ := season.ParseDate(last)
	var b strings.Builder
	for i, grade := range grades {
		day := end - season.Date(14*(len(grades)-1-i))
		fmt.Fprintf(&b, "flight %s ines known\n  sequence five\n  panel marek\n%s", day, markRows([]string{grade, grade, grade, grade, grade}))
	}
	return b.String()
}

// shortPolicy changes single keys of the house policy.
func shortPolicy(lines ...string) string {
	return "policy move-up\n  " + strings.Join(lines, "\n  ") + "\n"
}

func TestFlightsGate(t *testing.T) {
	for n, want := range map[int]analysis.GateState{0: analysis.NotMet, 1: analysis.NotMet, 5: analysis.NotMet, 6: analysis.Met, 7: analysis.Met} {
		book := readyHead + readyFlights("2026-11-01", strings.Fields("7 6 8 7 6 7 8")[:n]...)
		g := gate(ready(t, book, ""), "flights")
		assert.Equal(t, want, g.State, n)
		assert.Equal(t, want == analysis.Met, g.Needs == "", "what is met needs nothing")
	}
	five := readyHead + readyFlights("2026-11-01", "7", "6", "8", "7", "6")
	const more = "flight 2026-11-08 ines %s\n  sequence five\n  panel marek\n  1 7\n  2 7\n  3 7\n  4 7\n  5 7\n"
	assert.Equal(t, analysis.Met, gate(ready(t, five+fmt.Sprintf(more, "known"), ""), "flights").State)
	assert.Equal(t, analysis.NotMet, gate(ready(t, five+fmt.Sprintf(more, "practice"), ""), "flights").State)
	assert.Equal(t, analysis.NotMet, gate(ready(t, five+fmt.Sprintf(more, "known")+"  void \"cloud\"\n", ""), "flights").State)
	assert.Equal(t, analysis.NotMet, gate(ready(t, five+"flight 2026-11-08 ines known\n  sequence five\n  place 1\n", ""), "flights").State, "no percent")
	assert.Equal(t, analysis.Met, gate(ready(t, five+"flight 2026-11-08 ines known\n  sequence five\n  official 300\n", ""), "flights").State)
	assert.Equal(t, analysis.Met, gate(ready(t, five+shortPolicy("flights 5"), ""), "flights").State)

	// The window is to the day.
	for ago, want := range map[int]analysis.GateState{730: analysis.Met, 731: analysis.NotMet} {
		old := (testkit.Day(t, "2026-11-25") - season.Date(ago)).String()
		assert.Equal(t, want, gate(ready(t, five+strings.Replace(fmt.Sprintf(more, "known"), "2026-11-08", old, 1), ""), "flights").State, ago)
	}
	assert.Equal(t, analysis.NotMet, gate(ready(t, five+fmt.Sprintf(more, "known")+shortPolicy("window 60"), ""), "flights").State)
}

// Computed by R pt with a noncentrality: six scores and a mark of 70 give the
// next one with .37852217 and a share of .15116182 to .63991347; n values of
// mean k standard deviations above the mark (n 3, k 1) .38345 to .98371, (5, 1)
// .51188 to .96994, (8, .5) .44576 to .86521.
func TestThresholdState(t *testing.T) {
	single := func(values ...float64) [][]float64 {
		var clusters [][]float64
		for _, v := range values {
			clusters = append(clusters, []float64{v})
		}
		return clusters
	}
	state, low, high, next, ok := analysis.ThresholdState(single(66.4, 68.1, 70.2, 69.0, 71.5, 70.8), 70, 0.5)
	require.True(t, ok)
	assert.Equal(t, analysis.GateOpen, state)
	assert.InDelta(t, .37852217, next, 1e-8)
	assert.InDelta(t, .15116182, low, 1e-6)
	assert.InDelta(t, .63991347, high, 1e-6)

	const root2 = 1.4142135623730951
	const a = 0.9354143466934853 // eight values of -a and a: sd^2 = 8 a^2/7 = 1
	for _, test := range []struct {
		values    []float64
		low, high float64
		state     analysis.GateState
	}{
		{[]float64{60, 61, 62}, .38345, .98371, analysis.GateOpen},
		{[]float64{61 - root2, 61, 61, 61, 61 + root2}, .51188, .96994, analysis.Met},
		{[]float64{60.5 - a, 60.5 + a, 60.5 - a, 60.5 + a, 60.5 - a, 60.5 + a, 60.5 - a, 60.5 + a}, .44576, .86521, analysis.GateOpen},
		{[]float64{59 - root2, 59, 59, 59, 59 + root2}, 1 - .96994, 1 - .51188, analysis.NotMet},
	} {
		state, low, high, _, ok = analysis.ThresholdState(single(test.values...), 60, 0.5)
		require.True(t, ok)
		assert.InDelta(t, test.low, low, 1e-5)
		assert.InDelta(t, test.high, high, 1e-5)
		assert.Equal(t, test.state, state)
		// The wanted share at the interval's ends: the lower one is met, the
		// upper one cannot be told, beyond it is not met.
		for want, state := range map[float64]analysis.GateState{low: analysis.Met, high: analysis.GateOpen, high + 1e-9: analysis.NotMet} {
			got, _, _, _, _ := analysis.ThresholdState(single(test.values...), 60, want)
			assert.Equal(t, state, got)
		}
	}
	for _, clusters := range [][][]float64{nil, single(66), single(66, 70), single(66, 66, 66), {{60, 70}, {65, 66, 67}}} {
		_, _, _, _, ok := analysis.ThresholdState(clusters, 60, 0.5)
		assert.False(t, ok, "%v", clusters)
	}
}

func TestThresholdGate(t *testing.T) {
	answer := func(grades string, more ...string) analysis.Gate {
		return gate(ready(t, readyHead+readyFlights("2026-11-01", strings.Fields(grades)...)+strings.Join(more, ""), ""), "threshold")
	}
	assert.Equal(t, analysis.Met, answer("7 7.5 8 7 7.5 8").State)
	assert.Equal(t, analysis.NotMet, answer("4 4.5 5 4 4.5 5").State)
	assert.Equal(t, analysis.GateOpen, answer("5 7 5.5 6.5 6 6").State)
	g := answer("7 8")
	assert.Equal(t, analysis.GateOpen, g.State)
	assert.Contains(t, g.Evidence, "2 contests are too few to tell")
	g = answer("7 7 7 7 7 7")
	assert.Equal(t, analysis.GateOpen, g.State)
	assert.Contains(t, g.Evidence, "the same score each time")
	assert.NotContains(t, g.Needs, "three contests", "there were six")
	assert.Contains(t, answer("6 6 7").Evidence, "3 of 3 results reached 60 %", "the mark itself is reached")
	assert.Contains(t, answer("6 6 7", shortPolicy("threshold 62.5")).Evidence, "1 of 3 results reached 62.5 %", "the setting as it is")

	// A contest known by its result alone is one contest more, where the pilot
	// flew one category only.
	result := "contest cup 2026-10-03\n  result ines 300 of 500\n"
	assert.Contains(t, answer("7 8", result).Evidence, "3 of 3 results reached")
	other := "flight 2026-10-10 yuki known\n  category advanced\n  official 60 of 100\n"
	assert.Contains(t, answer("7 8", result, other).Evidence, "3 of 3")
	mixed := "flight 2026-01-10 ines known\n  category primary\n  official 60 of 100\n"
	assert.Contains(t, answer("7 8", result, mixed).Evidence, "2 of 2")
}

// Published: EAA, In the Loop 2011, achievement awards: each figure 5.0 or
// better; 5.0 passes, 4.5 does not. The share of figures is the house's: 19 of
// 20 figures are 95 %.
func TestFigureFloorGate(t *testing.T) {
	flight := func(date string, grades ...string) string {
		return fmt.Sprintf("flight %s ines known\n  sequence five\n  panel A B\n", date) + markRows(grades)
	}
	good := flight("2026-09-01", "5 5", "7 7", "8 8", "6 6", "9 9")
	all := shortPolicy("floor-share 1")
	assert.Equal(t, analysis.Met, gate(ready(t, readyHead+good+all, ""), "figure-floor").State)
	bad := strings.Replace(good, "1 5 5", "1 4.5 4.5", 1)
	g := gate(ready(t, readyHead+bad+all, ""), "figure-floor")
	assert.Equal(t, analysis.NotMet, g.State)
	assert.Equal(t, "4 of 5 figures at 5.0 or better in the last 1 flight", g.Evidence)
	assert.Equal(t, analysis.Met, gate(ready(t, readyHead+strings.Replace(good, "1 5 5", "1 4.5 5.5", 1)+all, ""), "figure-floor").State, "the mean counts")
	assert.Equal(t, analysis.NotMet, gate(ready(t, readyHead+strings.Replace(good, "1 5 5", "1 4.5 5", 1)+all, ""), "figure-floor").State, "4.75 is below")
	assert.Equal(t, analysis.NotMet, gate(ready(t, readyHead+strings.Replace(good, "1 5 5", "1 HZ HZ", 1)+all, ""), "figure-floor").State, "a zero is below")

	book := readyHead
	for _, date := range []string{"2026-09-08", "2026-09-15", "2026-09-22"} {
		book += flight(date, "5 5", "7 7", "8 8", "6 6", "9 9")
	}
	assert.Equal(t, analysis.Met, gate(ready(t, book+bad, ""), "figure-floor").State, "19 of 20")
	worse := strings.Replace(bad, "2 7 7", "2 4 4", 1)
	assert.Equal(t, analysis.NotMet, gate(ready(t, book+worse, ""), "figure-floor").State, "18 of 20")
	assert.Equal(t, analysis.Met, gate(ready(t, book+strings.Replace(worse, "2026-09-01", "2026-08-01", 1)+flight("2026-09-29", "6 6", "7 7", "8 8", "6 6", "9 9"), ""), "figure-floor").State,
		"the last four flights alone")
	assert.Equal(t, analysis.NotMet, gate(ready(t, book+worse+shortPolicy("floor-flights 100"), ""), "figure-floor").State)
	g = gate(ready(t, readyHead+"flight 2026-09-01 ines known\n  sequence five\n  official 300\n", ""), "figure-floor")
	assert.Equal(t, analysis.GateOpen, g.State)
	assert.Contains(t, gate(ready(t, readyHead+good+shortPolicy("figure-floor 5.25"), ""), "figure-floor").Evidence, "at 5.25 or better")
}

func TestZerosGate(t *testing.T) {
	flight := func(date, first string) string {
		return fmt.Sprintf("flight %s ines known\n  sequence five\n  panel A B C\n", date) + markRows([]string{first, "7 7 7", "8 8 8", "6 6 6", "9 9 9"})
	}
	state := func(more string) analysis.GateState { return gate(ready(t, readyHead+more, ""), "zeros").State }
	for marks, want := range map[string]analysis.GateState{
		"7 7 7": analysis.Met, "HZ HZ 7": analysis.NotMet, "CHZ 7 7": analysis.NotMet, "7 PZ 7": analysis.NotMet,
		"HZ 7 7": analysis.Met, "0 0 0": analysis.Met, "AV 7 -": analysis.Met,
	} {
		assert.Equal(t, want, state(flight("2026-09-01", marks)), marks)
	}
	// Where each hard zero counts as given, none is overruled: one that stood is a
	// zero, whatever the other judges gave.
	for marks, want := range map[string]analysis.GateState{
		"7 7 7": analysis.Met, "HZ HZ HZ": analysis.NotMet, "HZ HZ 7": analysis.NotMet, "HZ 7 7": analysis.NotMet, "PZ PZ PZ": analysis.NotMet, "0 0 0": analysis.Met,
	} {
		assert.Equal(t, want, state(flight("2026-09-01", marks)+"  rules as-graded\n"), marks)
	}
	assert.Equal(t, analysis.NotMet, state(flight("2026-09-01", "HZ 7 AV")+"  resolve 1 zero\n"), "ruled a zero")
	assert.Equal(t, analysis.Met, state(flight("2026-09-01", "HZ 7 AV")+"  resolve 1 fill\n"))

	old := flight("2026-08-01", "HZ HZ HZ")
	three := flight("2026-09-01", "7 7 7") + flight("2026-09-08", "7 7 7") + flight("2026-09-15", "7 7 7")
	assert.Equal(t, analysis.NotMet, state(old+three), "fourth from the end")
	assert.Equal(t, analysis.Met, state(old+three+flight("2026-09-22", "7 7 7")), "fifth from the end")
	assert.Equal(t, analysis.Met, state(old+three+shortPolicy("zeros 1 in 4")))
	assert.Equal(t, analysis.NotMet, state(old+strings.Replace(three, "1 7 7 7", "1 HZ HZ 7", 1)+shortPolicy("zeros 1 in 4")))
	assert.Equal(t, analysis.GateOpen, state(""))
	assert.Equal(t, analysis.Met, state(strings.Replace(old, "known", "practice", 1)+three), "practice is not among them")

	// Computed by R lbeta (Jeffreys): 0 zeros in 60 figures, the next 12:
	// .086812056; by flight, 0 of 12 flights: 1/26, derived.
	book := "pilot ines\nsequence twelve\n  category sportsman\n"
	for i := range 12 {
		book += fmt.Sprintf("  %d K 10\n", i+1)
	}
	for i := range 5 {
		book += fmt.Sprintf("flight 2026-09-%02d ines known\n  sequence twelve\n  panel A\n", i+1) + markRows(strings.Fields("7 7 7 7 7 7 7 7 7 7 7 7"))
	}
	assert.Contains(t, gate(ready(t, book, ""), "zeros").Evidence, "one in the next sequence with about 9 %")
}

func TestLowsGate(t *testing.T) {
	state := func(lows ...string) analysis.GateState {
		book := readyHead
		for i, low := range lows {
			book += readyFlights(fmt.Sprintf("2026-09-%02d", i+1), "7")
			if low != "" {
				book += "  penalty " + low + "\n"
			}
		}
		return gate(ready(t, book, ""), "lows").State
	}
	assert.Equal(t, analysis.Met, state(""))
	assert.Equal(t, analysis.NotMet, state("low 20"))
	assert.Equal(t, analysis.Met, state("out 20", "interruption 30", "time 5", "other 5"))
	assert.Equal(t, analysis.NotMet, state("low 20", "", "", "", "", ""), "sixth from the end")
	assert.Equal(t, analysis.Met, state("low 20", "", "", "", "", "", ""), "seventh from the end")
	assert.Equal(t, analysis.GateOpen, state())
}

func TestUnknownsGate(t *testing.T) {
	book := readyHead + readyFlights("2026-09-01", "7", "8", "7")
	assert.NotContains(t, gateNames(ready(t, book, "")), "unknowns", "sportsman flies none")
	inter := func(programmes ...string) analysis.Gate {
		text := book
		for i, p := range programmes {
			text += fmt.Sprintf("flight 2026-10-%02d ines %s\n  category intermediate\n  official 60 of 100\n", i+1, p)
		}
		return gate(ready(t, text, ""), "unknowns")
	}
	assert.Equal(t, analysis.NotMet, inter("known", "unknown").State)
	assert.Equal(t, "1 more at intermediate", inter("known", "unknown").Needs)
	assert.Equal(t, analysis.Met, inter("unknown", "free-unknown").State)
	assert.Equal(t, analysis.NotMet, inter("free", "known", "free-known", "final").State)
}

// New at intermediate in the ladder us: 9.9. Two graded elements at 6.0 on
// average, in practice too.
func TestNewFamiliesGate(t *testing.T) {
	book := readyHead + readyFlights("2026-09-01", "7", "8", "7")
	flicks := func(grades ...string) analysis.Gate {
		text := book
		for i, g := range grades {
			text += fmt.Sprintf("flight 2026-10-%02d ines practice\n  sequence flicks\n  panel marek\n  1 %s\n", i+1, g)
		}
		return gate(ready(t, text, ""), "new-families")
	}
	assert.Equal(t, analysis.NotMet, flicks().State)
	assert.Equal(t, "9.9 flick rolls, positive never graded", flicks().Evidence)
	assert.Equal(t, analysis.NotMet, flicks("9").State)
	assert.Equal(t, analysis.Met, flicks("6", "6").State)
	assert.Equal(t, analysis.Met, flicks("5.5", "6.5").State)
	assert.Equal(t, analysis.NotMet, flicks("5.5", "6").State, "5.75")
	assert.Equal(t, analysis.Met, gate(ready(t, book+"flight 2026-10-01 ines practice\n  sequence flicks\n  panel marek\n  1 6\n  2 7\n", ""), "new-families").State, "two in one flight")
	assert.Equal(t, analysis.NotMet, gate(ready(t, book+"flight 2026-10-01 ines practice\n  sequence flicks\n  panel marek\n  1 6\n  2 7\n  void \"cloud\"\n", ""), "new-families").State)
	assert.Equal(t, analysis.NotMet, gate(ready(t, book+"flight 2026-10-01 yuki practice\n  sequence flicks\n  panel marek\n  1 6\n  2 7\n", ""), "new-families").State)

	// From primary nothing is new at sportsman.
	primary := readyHead + "flight 2026-09-01 ines known\n  category primary\n  official 60 of 100\n"
	g := gate(ready(t, primary, ""), "new-families")
	assert.Equal(t, analysis.Met, g.State)
	assert.Equal(t, "no family is new at sportsman", g.Evidence)
	// A category of another ladder, or of none: nobody knows what is new there.
	for _, to := range []string{"club", "lakesman"} {
		assert.Equal(t, analysis.GateOpen, gate(ready(t, book, to), "new-families").State, to)
	}
}

// The lower end of the forecast on the next category's known sequence; of
// several the lowest; in a category never flown cannot tell at best.
func TestForecastGate(t *testing.T) {
	book := readyHead + readyFlights("2026-11-01", "7", "6.5", "7.5", "7", "6.5", "8") // grades differ by flight
	g := gate(ready(t, book, ""), "forecast")
	assert.Equal(t, analysis.GateOpen, g.State)
	assert.Contains(t, g.Evidence, "intermediate was never flown in a contest")
	assert.Equal(t, analysis.NotMet, gate(ready(t, book+shortPolicy("forecast 90"), ""), "forecast").State)
	flown := "flight 2026-11-08 ines known\n  sequence inter-known\n  panel marek\n  1 7\n  2 7\n  3 6.5\n"
	back := readyFlights("2026-11-15", "7")
	assert.Equal(t, analysis.Met, gate(ready(t, book+flown+back, ""), "forecast").State, "flown before, and back at sportsman")
	assert.Equal(t, analysis.GateOpen, gate(ready(t, book+strings.Replace(flown, "known", "practice", 1)+back, ""), "forecast").State, "practice is not contest judging")

	// At the edge: exactly the lower end.
	low := forecast(t, book+flown+back, "inter-known").Low
	for _, test := range []struct {
		want  string
		state analysis.GateState
	}{{fmt.Sprintf("%.9f", low-1e-8), analysis.Met}, {fmt.Sprintf("%.9f", low+1e-8), analysis.NotMet}} {
		assert.Equal(t, test.state, gate(ready(t, book+flown+back+shortPolicy("forecast "+test.want), ""), "forecast").State)
	}

	none := strings.Replace(book, "  programme known\n", "  programme free\n", 1)
	assert.Equal(t, analysis.GateOpen, gate(ready(t, none, ""), "forecast").State, "a free is nobody's known")
	assert.Contains(t, gate(ready(t, none, ""), "forecast").Evidence, "no known sequence of intermediate")
	assert.Equal(t, analysis.GateOpen, gate(ready(t, readyHead+readyFlights("2026-11-01", "7", "6.5", "8"), ""), "forecast").State, "three flights")
	harder := "sequence inter-second\n  category intermediate\n  1 9.10.3.4:10\n  2 6.2.1.1:15\n"
	assert.Contains(t, gate(ready(t, book+harder, ""), "forecast").Evidence, "inter-second: ")
	assert.Contains(t, gate(ready(t, book+harder, ""), "forecast").Evidence, "not graded in a contest in the last two years: 6 tailslides, 9.10 flick rolls, negative")
}

// A family that no contest flight had is a missing piece of evidence: the gate
// is open at best, though the category was flown and the range is high enough,
// and the evidence stands against.
func TestForecastGateNeverFlown(t *testing.T) {
	book := readyHead + readyFlights("2026-11-01", "7", "6.5", "7.5", "7", "6.5", "8") +
		"flight 2026-11-08 ines known\n  sequence inter-known\n  panel marek\n  1 7\n  2 7\n  3 6.5\n" + readyFlights("2026-11-15", "7")
	slides := "sequence inter-slides\n  category intermediate\n  1 6.2.1.1:15\n  2 7.4.1.1:10\n"
	require.Equal(t, analysis.Met, gate(ready(t, book, ""), "forecast").State)
	r := ready(t, book+slides+shortPolicy("forecast 20"), "")
	g := gate(r, "forecast")
	assert.Equal(t, analysis.GateOpen, g.State)
	assert.NotEqual(t, analysis.Ready, r.Verdict)
	assert.Equal(t, "contest flights with 6 tailslides", g.Needs)
	assert.Contains(t, r.Against, "forecast, cannot tell: not graded in a contest in the last two years: 6 tailslides")
	g = gate(ready(t, book+slides+shortPolicy("forecast 99"), ""), "forecast")
	assert.Equal(t, analysis.NotMet, g.State)
	assert.Equal(t, "a lower end of 99 %; and contest flights with 6 tailslides", g.Needs)

	// No sequence, and one that cannot be forecast, are told apart.
	g = gate(ready(t, strings.Replace(book, "  programme known\n", "  programme free\n", 1), ""), "forecast")
	assert.Equal(t, "no known sequence of intermediate is in the ledger", g.Evidence)
	assert.Equal(t, "the known sequence of intermediate in the ledger", g.Needs)
	g = gate(ready(t, readyHead+readyFlights("2026-11-01", "7", "8"), ""), "forecast")
	assert.Equal(t, "no known sequence of intermediate can be forecast: 2 contest flights with marks in the last two years; at least four are needed; "+
		"intermediate was never flown in a contest, and is judged by its own standard", g.Evidence)
	assert.True(t, strings.HasPrefix(g.Needs, "flights with marks to forecast from; and a contest flight at intermediate, "), g.Needs)
}

// What the new families need is true: made, it meets the gate; with half a grade
// less, or one element fewer, it does not.
func TestNewFamiliesNeed(t *testing.T) {
	needed := regexp.MustCompile(`positive: (\d+) (?:more|graded) at (\d+\.\d)`)
	book := func(grades []string) string {
		text := readyHead + readyFlights("2026-09-01", "7", "8", "7")
		for i, g := range grades {
			text += fmt.Sprintf("flight %s ines practice\n  sequence flicks\n  panel marek\n  1 %s\n", testkit.Day(t, "2026-10-01")+season.Date(i), g)
		}
		return text
	}
	for grades, want := range map[string]string{
		"":          "9.9 flick rolls, positive: 2 graded at 6.0 (practice counts)",
		"4 4":       "9.9 flick rolls, positive: 2 more at 8.0 would bring the mean to 6.0 (practice counts)",
		"5.5 6":     "9.9 flick rolls, positive: 1 more at 6.5 would bring the mean to 6.0 (practice counts)",
		"6.5":       "9.9 flick rolls, positive: 1 more at 5.5 or better would make 2 and keep the mean at 6.0 (practice counts)",
		"6.5 6.5 2": "9.9 flick rolls, positive: 2 more at 7.5 would bring the mean to 6.0 (practice counts)",
		"0 0 0 0":   "9.9 flick rolls, positive: 12 more at 8.0 would bring the mean to 6.0 (practice counts)",
		"10":        "9.9 flick rolls, positive: 1 more at 2.0 or better would make 2 and keep the mean at 6.0 (practice counts)",
		"3":         "9.9 flick rolls, positive: 2 more at 7.5 would bring the mean to 6.0 (practice counts)",
		"5.5 5.5 4": "9.9 flick rolls, positive: 2 more at 7.5 would bring the mean to 6.0 (practice counts)",
	} {
		have := strings.Fields(grades)
		g := gate(ready(t, book(have), ""), "new-families")
		require.Equal(t, want, g.Needs, grades)
		found := needed.FindStringSubmatch(g.Needs)
		more, err := strconv.Atoi(found[1])
		require.NoError(t, err)
		grade, err := strconv.ParseFloat(found[2], 64)
		require.NoError(t, err)
		state := func(more int, grade float64) analysis.GateState {
			return gate(ready(t, book(append(slices.Clone(have), slices.Repeat([]string{fmt.Sprint(grade)}, more)...)), ""), "new-families").State
		}
		assert.Equal(t, analysis.Met, state(more, grade), grades)
		assert.Equal(t, analysis.NotMet, state(more, grade-0.5), grades)
		if more > 1 {
			assert.Equal(t, analysis.NotMet, state(more-1, grade), grades)
		}
	}
	g := gate(ready(t, book([]string{"9"})+shortPolicy("new-families 2 at 10"), ""), "new-families")
	assert.Equal(t, "9.9 flick rolls, positive: the mean stays below 10 whatever comes (practice counts)", g.Needs)
	// A mean just below is not written as if it were there.
	g = gate(ready(t, book(append(slices.Repeat([]string{"6"}, 12), "5.5")), ""), "new-families")
	assert.Equal(t, "9.9 flick rolls, positive graded 13 times at 5.96", g.Evidence)
	assert.Equal(t, analysis.NotMet, g.State)
}

func TestSignoffGate(t *testing.T) {
	low := readyFlights("2026-09-01", "7") + "  penalty low 20\n"
	state := func(more string) analysis.GateState { return gate(ready(t, readyHead+low+more, ""), "signoff").State }
	assert.Equal(t, analysis.NotMet, state(""))
	assert.Equal(t, analysis.Met, state("signoff 2026-09-12 ines intermediate by marek\n"))
	assert.Equal(t, analysis.NotMet, state("signoff 2026-09-01 ines intermediate by marek\n"), "on its day, which is not after it")
	assert.Equal(t, analysis.Met, state("signoff 2026-09-02 ines intermediate by marek\n"))
	assert.Equal(t, analysis.NotMet, state("signoff 2026-08-31 ines intermediate by marek\n"), "before the low penalty")
	assert.Equal(t, analysis.Met, state("signoff 2026-08-31 ines intermediate by marek\nsignoff 2026-09-12 ines intermediate by marek \"again\"\n"))
	assert.Equal(t, analysis.NotMet, state("signoff 2026-09-12 ines advanced by marek\n"), "for another category")
	assert.Equal(t, analysis.NotMet, state("signoff 2026-09-12 yuki intermediate by marek\n"))
	assert.Equal(t, analysis.NotMet, state("signoff 2026-12-12 ines intermediate by marek\n"), "later than today")
	r := ready(t, readyHead+low+"signoff 2026-09-12 ines advanced by marek\n", "advanced")
	assert.Equal(t, analysis.Met, gate(r, "signoff").State)
}

func TestSafetyGate(t *testing.T) {
	open := readyFlights("2026-09-01", "7") + "  fault - loose-article \"canopy catch not latched\"\n"
	state := func(more string) analysis.GateState {
		return gate(ready(t, readyHead+open+more, ""), "open-matters").State
	}
	assert.Equal(t, analysis.NotMet, state(""))
	assert.Equal(t, analysis.Met, state(readyFlights("2026-09-08", "7")+"  closed loose-article\n"))
	assert.Equal(t, analysis.NotMet, state("signoff 2026-09-02 ines sportsman by marek\n"), "a sign-off closes nothing")
	assert.Equal(t, analysis.Met, state("closed 2026-09-01 ines loose-article by marek\n"))
	assert.Equal(t, analysis.Met, state(shortPolicy("safety 1")))
}

func TestCurrentGate(t *testing.T) {
	for ago, want := range map[int]analysis.GateState{0: analysis.Met, 59: analysis.Met, 60: analysis.Met, 61: analysis.NotMet} {
		date := (testkit.Day(t, "2026-11-25") - season.Date(ago)).String()
		assert.Equal(t, want, gate(ready(t, readyHead+readyFlights(date, "7"), ""), "current").State, ago)
		practice := readyFlights("2026-01-01", "7") + "flight " + date + " ines practice\n  reviewed\n"
		assert.Equal(t, want, gate(ready(t, readyHead+practice, ""), "current").State, ago)
	}
	assert.Equal(t, analysis.NotMet, gate(ready(t, readyHead+readyFlights("2026-01-01", "7")+"flight 2026-12-24 ines practice\n  reviewed\n", ""), "current").State)
}
