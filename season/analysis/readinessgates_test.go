package analysis_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/analysis/code"
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
	for n, want := range map[int]code.GateState{0: code.NotMet, 1: code.NotMet, 5: code.NotMet, 6: code.Met, 7: code.Met} {
		book := readyHead + readyFlights("2026-11-01", strings.Fields("7 6 8 7 6 7 8")[:n]...)
		g := gate(ready(t, book, ""), "flights")
		assert.Equal(t, want, g.State, n)
		assert.Equal(t, float64(n), number(g, code.Have))
	}
	five := readyHead + readyFlights("2026-11-01", "7", "6", "8", "7", "6")
	const more = "flight 2026-11-08 ines %s\n  sequence five\n  panel marek\n  1 7\n  2 7\n  3 7\n  4 7\n  5 7\n"
	assert.Equal(t, code.Met, gate(ready(t, five+fmt.Sprintf(more, "known"), ""), "flights").State)
	assert.Equal(t, code.NotMet, gate(ready(t, five+fmt.Sprintf(more, "practice"), ""), "flights").State)
	assert.Equal(t, code.NotMet, gate(ready(t, five+fmt.Sprintf(more, "known")+"  void \"cloud\"\n", ""), "flights").State)
	assert.Equal(t, code.NotMet, gate(ready(t, five+"flight 2026-11-08 ines known\n  sequence five\n  place 1\n", ""), "flights").State, "no percent")
	assert.Equal(t, code.Met, gate(ready(t, five+"flight 2026-11-08 ines known\n  sequence five\n  official 300\n", ""), "flights").State)
	assert.Equal(t, code.Met, gate(ready(t, five+shortPolicy("flights 5"), ""), "flights").State)

	// The window is to the day.
	for ago, want := range map[int]code.GateState{730: code.Met, 731: code.NotMet} {
		old := (testkit.Day(t, "2026-11-25") - season.Date(ago)).String()
		assert.Equal(t, want, gate(ready(t, five+strings.Replace(fmt.Sprintf(more, "known"), "2026-11-08", old, 1), ""), "flights").State, ago)
	}
	assert.Equal(t, code.NotMet, gate(ready(t, five+fmt.Sprintf(more, "known")+shortPolicy("window 60"), ""), "flights").State)
}

// reached says how many of the results reached the mark.
func reached(g analysis.Gate) string {
	return fmt.Sprintf("%g of %g", number(g, code.Have), number(g, code.Results))
}

func TestThresholdGate(t *testing.T) {
	answer := func(grades string, more ...string) analysis.Gate {
		return gate(ready(t, readyHead+readyFlights("2026-11-01", strings.Fields(grades)...)+strings.Join(more, ""), ""), "threshold")
	}
	assert.Equal(t, code.Met, answer("7 7.5 8 7 7.5 8").State)
	assert.Equal(t, code.NotMet, answer("4 4.5 5 4 4.5 5").State)
	assert.Equal(t, code.CannotTell, answer("5 7 5.5 6.5 6 6").State)
	g := answer("7 8")
	assert.Equal(t, code.CannotTell, g.State)
	assert.Equal(t, []code.Reason{code.FewFlights}, g.Reasons)
	assert.Equal(t, []float64{2, 4, 3}, []float64{number(g, code.Contests), number(g, code.LeastFlights), number(g, code.LeastContests)})
	g = answer("7 7 7 7 7 7")
	assert.Equal(t, code.Met, g.State, "the numbers exist")
	assert.Equal(t, []code.Reason{code.SameScore}, g.Reasons)
	assert.Equal(t, "3 of 3", reached(answer("6 6 7")), "the mark itself is reached")
	assert.Equal(t, "1 of 3", reached(answer("6 6 7", shortPolicy("threshold 62.5"))))

	// A contest known by its result alone is no flight.
	assert.Equal(t, "2 of 2", reached(answer("7 8", "contest cup 2026-10-03\n  result ines 300 of 500\n")))
}

// What was flown at the category asked about, here before the policy's window, is
// judged by itself: what it surely does not reach counts, what it leaves open is
// only said.
func TestThresholdAtTheCategoryAsked(t *testing.T) {
	answer := func(above ...string) analysis.Gate {
		book := readyHead + shortPolicy("window 200") + readyFlights("2026-11-01", "7", "7.5", "8", "7", "7.5", "8")
		for i, percent := range above {
			book += fmt.Sprintf("flight 2026-02-%02d ines known\n  category intermediate\n  official %s of 100\n", 1+5*i, percent)
		}
		l := testkit.BookOf(t, book)
		r := analysis.ReadinessOf(l, l.PilotNamed("ines"), l.PolicyNamed(season.HousePolicy), nil, "intermediate")
		require.Equal(t, []string{"sportsman", "intermediate"}, []string{r.From, r.To})
		return gate(r, "threshold")
	}
	assert.Equal(t, code.Met, answer().State)
	g := answer("40", "45", "42", "41", "44", "43")
	assert.Equal(t, code.NotMet, g.State)
	assert.Equal(t, []code.Reason{code.AskedNotMet}, g.Reasons)
	assert.Equal(t, []float64{0, 6}, []float64{number(g, code.AskedHave), number(g, code.AskedResults)})
	assert.Less(t, number(g, code.AskedSure), .05)
	g = answer("40", "45")
	assert.Equal(t, code.Met, g.State)
	assert.Equal(t, 2.0, number(g, code.AskedResults))
	assert.Equal(t, code.Met, answer("40", "75", "52", "61").State)
}

func TestFigureFloorGate(t *testing.T) {
	flight := func(date string, grades ...string) string {
		return fmt.Sprintf("flight %s ines known\n  sequence five\n  panel A B\n", date) + markRows(grades)
	}
	good := flight("2026-09-01", "5 5", "7 7", "8 8", "6 6", "9 9")
	all := shortPolicy("floor-share 1", "floor-flights 1")
	assert.Equal(t, code.Met, gate(ready(t, readyHead+good+all, ""), "figure-floor").State)
	bad := strings.Replace(good, "1 5 5", "1 4.5 4.5", 1)
	g := gate(ready(t, readyHead+bad+all, ""), "figure-floor")
	assert.Equal(t, code.NotMet, g.State)
	assert.Equal(t, []float64{4, 5, 1}, []float64{number(g, code.Have), number(g, code.Figures), number(g, code.Flights)})
	assert.Equal(t, code.Met, gate(ready(t, readyHead+strings.Replace(good, "1 5 5", "1 4.5 5.5", 1)+all, ""), "figure-floor").State, "the mean counts")
	assert.Equal(t, code.NotMet, gate(ready(t, readyHead+strings.Replace(good, "1 5 5", "1 4.5 5", 1)+all, ""), "figure-floor").State, "4.75 is below")
	assert.Equal(t, code.NotMet, gate(ready(t, readyHead+strings.Replace(good, "1 5 5", "1 HZ HZ", 1)+all, ""), "figure-floor").State, "a zero is below")

	book := readyHead
	for _, date := range []string{"2026-09-08", "2026-09-15", "2026-09-22"} {
		book += flight(date, "5 5", "7 7", "8 8", "6 6", "9 9")
	}
	assert.Equal(t, code.Met, gate(ready(t, book+bad, ""), "figure-floor").State, "19 of 20")
	worse := strings.Replace(bad, "2 7 7", "2 4 4", 1)
	assert.Equal(t, code.NotMet, gate(ready(t, book+worse, ""), "figure-floor").State, "18 of 20")
	assert.Equal(t, code.Met, gate(ready(t, book+strings.Replace(worse, "2026-09-01", "2026-08-01", 1)+flight("2026-09-29", "6 6", "7 7", "8 8", "6 6", "9 9"), ""), "figure-floor").State,
		"the last four flights alone")
	assert.Equal(t, code.NotMet, gate(ready(t, book+worse+shortPolicy("floor-flights 100"), ""), "figure-floor").State)
	g = gate(ready(t, readyHead+"flight 2026-09-01 ines known\n  sequence five\n  official 300\n", ""), "figure-floor")
	assert.Equal(t, code.CannotTell, g.State)
}

func TestZerosGate(t *testing.T) {
	flight := func(date, first string) string {
		return fmt.Sprintf("flight %s ines known\n  sequence five\n  panel A B C\n", date) + markRows([]string{first, "7 7 7", "8 8 8", "6 6 6", "9 9 9"})
	}
	state := func(more string) code.GateState { return gate(ready(t, readyHead+more, ""), "zeros").State }
	one := shortPolicy("zeros 0 in 1")
	for marks, want := range map[string]code.GateState{
		"7 7 7": code.Met, "HZ HZ 7": code.NotMet, "CHZ 7 7": code.NotMet, "7 PZ 7": code.NotMet,
		"HZ 7 7": code.NotMet, "0 0 0": code.Met, "AV 7 -": code.Met,
	} {
		assert.Equal(t, want, state(flight("2026-09-01", marks)+one), marks)
	}
	// Where each hard zero counts as given, none is overruled: one that stood is a
	// zero, whatever the other judges gave.
	for marks, want := range map[string]code.GateState{
		"7 7 7": code.Met, "HZ HZ HZ": code.NotMet, "HZ HZ 7": code.NotMet, "HZ 7 7": code.NotMet, "PZ PZ PZ": code.NotMet, "0 0 0": code.Met,
	} {
		assert.Equal(t, want, state(flight("2026-09-01", marks)+"  rules as-graded\n"+one), marks)
	}
	assert.Equal(t, code.NotMet, state(flight("2026-09-01", "HZ 7 AV")+"  resolve 1 zero\n"), "ruled a zero")
	assert.Equal(t, code.NotMet, state(flight("2026-09-01", "HZ 7 AV")+"  resolve 1 fill\n"+one), "the judge's zero stays on the sheet")
	assert.Equal(t, code.NotMet, state(flight("2026-09-01", "HZ 7 AV")+one), "not ruled yet")
	assert.Equal(t, code.CannotTell, state(flight("2026-09-01", "- - -")+one), "no mark of a figure")

	old := flight("2026-08-01", "HZ HZ HZ")
	three := flight("2026-09-01", "7 7 7") + flight("2026-09-08", "7 7 7") + flight("2026-09-15", "7 7 7")
	assert.Equal(t, code.NotMet, state(old+three), "fourth from the end")
	assert.Equal(t, code.Met, state(old+three+flight("2026-09-22", "7 7 7")), "fifth from the end")
	assert.Equal(t, code.Met, state(old+three+shortPolicy("zeros 1 in 4")))
	assert.Equal(t, code.NotMet, state(old+strings.Replace(three, "1 7 7 7", "1 HZ HZ 7", 1)+shortPolicy("zeros 1 in 4")))
	assert.Equal(t, code.CannotTell, state(""))
	assert.Equal(t, code.CannotTell, state(strings.Replace(old, "known", "practice", 1)+three), "practice is not among them")
	assert.Equal(t, code.CannotTell, state(three), "three of four")

	// [derived: r, lbeta] (Jeffreys): 0 zeros in 60 figures, the next 12:
	// .086812056; by flight, 0 of 12 flights: 1/26 [derived].
	book := "pilot ines\nsequence twelve\n  category sportsman\n"
	for i := range 12 {
		book += fmt.Sprintf("  %d K 10\n", i+1)
	}
	for i := range 5 {
		book += fmt.Sprintf("flight 2026-09-%02d ines known\n  sequence twelve\n  panel A\n", i+1) + markRows(strings.Fields("7 7 7 7 7 7 7 7 7 7 7 7"))
	}
	assert.InDelta(t, .086812056, number(gate(ready(t, book, ""), "zeros"), code.ZeroRisk), 1e-8)
}

func TestLowsGate(t *testing.T) {
	found := func(lows ...string) analysis.Gate {
		book := readyHead
		for i, low := range lows {
			book += readyFlights(fmt.Sprintf("2026-09-%02d", i+1), "7")
			if low != "" {
				book += "  penalty " + low + "\n"
			}
		}
		return gate(ready(t, book, ""), "lows")
	}
	state := func(lows ...string) code.GateState { return found(lows...).State }
	assert.Equal(t, code.CannotTell, state(""), "one of six")
	assert.Equal(t, code.NotMet, state("low 20"))
	assert.Equal(t, code.Met, state("out 20", "interruption 30", "time 5", "other 5", "", ""))
	assert.Equal(t, code.NotMet, state("low 20", "", "", "", "", ""), "sixth from the end")
	assert.Equal(t, code.Met, state("low 20", "", "", "", "", "", ""), "seventh from the end")
	assert.Equal(t, code.CannotTell, state())

	// how many more flights without one take the last of them out of the six
	more := func(lows ...string) float64 { return number(found(lows...), code.More) }
	assert.Equal(t, []float64{6, 3, 1, 6}, []float64{
		more("low 20"), more("", "low 20", "", "", ""), more("low 20", "", "", "", "", ""), more("low 20", "", "", "", "", "low 20"),
	})
	practice := readyHead + readyFlights("2026-09-01", "7", "7", "7") + "flight 2026-09-02 ines practice\n  sequence five\n  panel marek\n" + markRows([]string{"7", "7", "7", "7", "7"}) + "  penalty low 20\n"
	assert.InDelta(t, 6, number(gate(ready(t, practice, ""), "lows"), code.More), 0, "one in practice goes when all contest flights before it have")
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
	assert.Equal(t, code.NotMet, inter("known", "unknown").State)
	assert.Equal(t, 1.0, number(inter("known", "unknown"), code.Have))
	assert.Equal(t, code.Met, inter("unknown", "free-unknown").State)
	assert.Equal(t, code.NotMet, inter("free", "known", "free-known", "final").State)
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
	assert.Equal(t, code.NotMet, flicks().State)
	assert.Equal(t, 0.0, number(flicks(), code.Graded))
	assert.Equal(t, []float64{2, 6}, []float64{number(flicks(), code.More), number(flicks(), code.MoreAt)})
	assert.Equal(t, code.NotMet, flicks("9").State)
	assert.Equal(t, code.Met, flicks("6", "6").State)
	assert.Equal(t, code.Met, flicks("5.5", "6.5").State)
	assert.Equal(t, code.NotMet, flicks("5.5", "6").State, "5.75")
	assert.Equal(t, code.Met, gate(ready(t, book+"flight 2026-10-01 ines practice\n  sequence flicks\n  panel marek\n  1 6\n  2 7\n", ""), "new-families").State, "two in one flight")
	assert.Equal(t, code.NotMet, gate(ready(t, book+"flight 2026-10-01 ines practice\n  sequence flicks\n  panel marek\n  1 6\n  2 7\n  void \"cloud\"\n", ""), "new-families").State)
	assert.Equal(t, code.NotMet, gate(ready(t, book+"flight 2026-10-01 yuki practice\n  sequence flicks\n  panel marek\n  1 6\n  2 7\n", ""), "new-families").State)

	// From primary nothing is new at sportsman.
	primary := readyHead + "flight 2026-09-01 ines known\n  category primary\n  official 60 of 100\n"
	g := gate(ready(t, primary, ""), "new-families")
	assert.Equal(t, code.Met, g.State)
	assert.Equal(t, []code.Reason{code.NoneNew}, g.Reasons)
	// A category of another ladder, or of none: nobody knows what is new there.
	for _, to := range []string{"club", "lakesman"} {
		assert.Equal(t, code.CannotTell, gate(ready(t, book, to), "new-families").State, to)
	}
}

// The lower end of the forecast on the next category's known sequence; of
// several the lowest; in a category never flown it counts for nothing.
func TestForecastGate(t *testing.T) {
	book := readyHead + readyFlights("2026-11-01", "7", "6.5", "7.5", "7", "6.5", "8") // grades differ by flight
	g := gate(ready(t, book, ""), "forecast")
	assert.Equal(t, code.CannotTell, g.State)
	assert.Equal(t, []code.Reason{code.NeverFlown}, g.Reasons)
	assert.False(t, g.Counts)
	assert.Equal(t, code.CannotTell, gate(ready(t, book+shortPolicy("forecast 90"), ""), "forecast").State)
	flown := "flight 2024-11-08 ines known\n  sequence inter-known\n  panel marek\n  1 7\n  2 7\n  3 6.5\n"
	back := readyFlights("2026-11-15", "7")
	assert.Equal(t, code.Met, gate(ready(t, book+flown+back, ""), "forecast").State, "flown before, and back at sportsman")
	assert.True(t, gate(ready(t, book+flown+back, ""), "forecast").Counts)
	assert.False(t, gate(ready(t, book+strings.Replace(flown, "known", "practice", 1)+back, ""), "forecast").Counts, "practice is not contest judging")

	// At the edge: exactly the lower end.
	low := forecast(t, book+flown+back, "inter-known").Low
	for _, test := range []struct {
		want  string
		state code.GateState
	}{{fmt.Sprintf("%.9f", low-1e-8), code.Met}, {fmt.Sprintf("%.9f", low+1e-8), code.NotMet}} {
		assert.Equal(t, test.state, gate(ready(t, book+flown+back+shortPolicy("forecast "+test.want), ""), "forecast").State)
	}

	none := strings.Replace(book, "  programme known\n", "  programme free\n", 1)
	assert.Equal(t, code.CannotTell, gate(ready(t, none, ""), "forecast").State, "a free is nobody's known")
	assert.Contains(t, gate(ready(t, none, ""), "forecast").Reasons, code.NoKnown)
	assert.Equal(t, code.CannotTell, gate(ready(t, readyHead+readyFlights("2026-11-01", "7", "6.5", "8"), ""), "forecast").State, "three flights")
	harder := "sequence inter-second\n  category intermediate\n  1 9.10.3.4:10\n  2 6.2.1.1:15\n"
	g = gate(ready(t, book+harder, ""), "forecast")
	assert.Equal(t, "inter-second", all(g, code.Forecast)[0].Name)
	assert.Equal(t, 2.0, number(g, code.KnownOnes))
	unseen := all(g, code.Unseen)
	require.Len(t, unseen, 2)
	assert.Equal(t, []string{"6", "9.10"}, []string{unseen[0].Name, unseen[1].Name})
}

// A family that no contest flight had is a missing piece of evidence: the gate
// is open at best, though the category was flown and the range is high enough,
// and the evidence stands against.
func TestForecastGateNeverFlown(t *testing.T) {
	book := readyHead + readyFlights("2026-11-01", "7", "6.5", "7.5", "7", "6.5", "8") +
		"flight 2024-11-08 ines known\n  sequence inter-known\n  panel marek\n  1 7\n  2 7\n  3 6.5\n" + readyFlights("2026-11-15", "7")
	slides := "sequence inter-slides\n  category intermediate\n  1 6.2.1.1:15\n  2 7.4.1.1:10\n"
	require.Equal(t, code.Met, gate(ready(t, book, ""), "forecast").State)
	r := ready(t, book+slides+shortPolicy("forecast 20"), "")
	g := gate(r, "forecast")
	assert.Equal(t, code.CannotTell, g.State)
	assert.NotEqual(t, code.Ready, r.Verdict)
	assert.Equal(t, "6", all(g, code.Unseen)[0].Name)
	bare := "sequence inter-bare\n  category intermediate\n  1 7.4.1.1:10\n  2 5.2.1.1:10\n  3 K 10\n"
	g = gate(ready(t, strings.Replace(book, "  programme known\n", "  programme free\n", 1)+bare+shortPolicy("forecast 20"), ""), "forecast")
	assert.Equal(t, code.CannotTell, g.State)
	assert.Equal(t, 3.0, all(g, code.BareFigure)[0].Number)
	g = gate(ready(t, book+slides+shortPolicy("forecast 99"), ""), "forecast")
	assert.Equal(t, code.NotMet, g.State)

	// No sequence, and one that cannot be forecast, are told apart.
	g = gate(ready(t, strings.Replace(book, "  programme known\n", "  programme free\n", 1), ""), "forecast")
	assert.Equal(t, []code.Reason{code.NoKnown}, g.Reasons)
	g = gate(ready(t, readyHead+readyFlights("2026-11-01", "7", "8"), ""), "forecast")
	assert.Equal(t, []code.Reason{code.NoForecast, code.FewFlights, code.NeverFlown}, g.Reasons)
	assert.Equal(t, []float64{2, 4}, []float64{number(g, code.Flights), number(g, code.LeastFlights)})
}

func TestSignoffGate(t *testing.T) {
	low := readyFlights("2026-09-01", "7") + "  penalty low 20\n"
	state := func(more string) code.GateState { return gate(ready(t, readyHead+low+more, ""), "signoff").State }
	assert.Equal(t, code.NotMet, state(""))
	assert.Equal(t, code.Met, state("signoff 2026-09-12 ines intermediate by marek\n"))
	assert.Equal(t, code.NotMet, state("signoff 2026-09-01 ines intermediate by marek\n"), "on its day, which is not after it")
	assert.Equal(t, code.Met, state("signoff 2026-09-02 ines intermediate by marek\n"))
	assert.Equal(t, code.NotMet, state("signoff 2026-08-31 ines intermediate by marek\n"), "before the low penalty")
	assert.Equal(t, code.Met, state("signoff 2026-08-31 ines intermediate by marek\nsignoff 2026-09-12 ines intermediate by marek \"again\"\n"))
	assert.Equal(t, code.NotMet, state("signoff 2026-09-12 ines advanced by marek\n"), "for another category")
	assert.Equal(t, code.NotMet, state("signoff 2026-09-12 yuki intermediate by marek\n"))
	assert.Equal(t, code.NotMet, state("signoff 2026-12-12 ines intermediate by marek\n"), "later than today")
	r := ready(t, readyHead+low+"signoff 2026-09-12 ines advanced by marek\n", "advanced")
	assert.Equal(t, code.Met, gate(r, "signoff").State)
}

func TestSafetyGate(t *testing.T) {
	open := readyFlights("2026-09-01", "7") + "  fault - loose-article \"canopy catch not latched\"\n"
	state := func(more string) code.GateState {
		return gate(ready(t, readyHead+open+more, ""), "open-matters").State
	}
	assert.Equal(t, code.NotMet, state(""))
	assert.Equal(t, code.Met, state(readyFlights("2026-09-08", "7")+"  closed loose-article\n"))
	assert.Equal(t, code.NotMet, state("signoff 2026-09-02 ines sportsman by marek\n"), "a sign-off closes nothing")
	assert.Equal(t, code.Met, state("closed 2026-09-01 ines loose-article by marek\n"))
	assert.Equal(t, code.Met, state(shortPolicy("safety 1")))
}

func TestCurrentGate(t *testing.T) {
	for ago, want := range map[int]code.GateState{0: code.Met, 59: code.Met, 60: code.Met, 61: code.NotMet} {
		date := (testkit.Day(t, "2026-11-25") - season.Date(ago)).String()
		assert.Equal(t, want, gate(ready(t, readyHead+readyFlights(date, "7"), ""), "current").State, ago)
		practice := readyFlights("2026-01-01", "7") + "flight " + date + " ines practice\n  reviewed\n"
		assert.Equal(t, want, gate(ready(t, readyHead+practice, ""), "current").State, ago)
	}
	assert.Equal(t, code.NotMet, gate(ready(t, readyHead+readyFlights("2026-01-01", "7")+"flight 2026-12-24 ines practice\n  reviewed\n", ""), "current").State)
}

// Of a new family's graded elements those by a contest's panel are counted apart:
// practice in front of a coach counts, and is said to be that.
func TestNewFamilyByPanel(t *testing.T) {
	of := func(programme, panel string) float64 {
		return number(gate(ready(t, allMet()+"flight 2026-11-04 ines "+programme+"\n  sequence flicks\n  panel "+panel+"\n  1 6\n  2 7\n", ""), "new-families"), code.ByPanel)
	}
	assert.Zero(t, of("practice", "marek"))
	assert.Equal(t, 2.0, of("known", "A"))
}

// Clean flights of an easier category outweigh none of those at the present one, and
// say nothing of how likely a zero there is. Made up.
func TestZerosAreNotFlownAwayLowerDown(t *testing.T) {
	book := readyHead
	for i := range 8 {
		first := "7"
		if i >= 6 {
			first = "HZ"
		}
		book += fmt.Sprintf("flight 2026-0%d-%02d ines known\n  sequence inter-known\n  panel marek\n", 6+i/4, 1+7*(i%4)) + markRows([]string{first, "7", "7"})
	}
	before := ready(t, book, "")
	require.Equal(t, "intermediate", before.From)
	after := ready(t, book+readyFlights("2026-10-15", "7", "7", "7", "7"), "")
	require.Equal(t, "intermediate", after.From)
	for _, name := range []string{"zeros", "figure-floor"} {
		assert.Equal(t, code.NotMet, gate(before, name).State, name)
		assert.Empty(t, gate(before, name).Reasons, name)
		assert.Equal(t, code.NotMet, gate(after, name).State, name)
		assert.Equal(t, []code.Reason{code.AtPresent}, gate(after, name).Reasons, name)
		assert.Equal(t, 4.0, number(gate(after, name), code.Flights), name)
	}
	assert.InDelta(t, number(gate(before, "zeros"), code.ZeroRisk), number(gate(after, "zeros"), code.ZeroRisk), 0)
	assert.Equal(t, "intermediate", all(gate(after, "zeros"), code.ZerosOf)[0].Name)
	assert.Empty(t, all(gate(before, "zeros"), code.ZerosOf)[0].Name, "there are no others")

	l := testkit.BookOf(t, book+readyFlights("2026-10-15", "7", "7", "7", "7"))
	forecast := analysis.ForecastOf(l, l.PilotNamed("ines"), l.SequenceNamed("inter-known"))
	assert.InDelta(t, forecast.Spoilt.ZeroChance, number(gate(after, "zeros"), code.ZeroRisk), 1e-12, "one chance on both pages")

	t.Run("what is clean there is not held against the pilot", func(t *testing.T) {
		clean := ready(t, strings.ReplaceAll(book, "1 HZ", "1 7")+readyFlights("2026-10-15", "7", "7", "7", "7"), "")
		assert.Equal(t, code.Met, gate(clean, "zeros").State)
		assert.Empty(t, gate(clean, "zeros").Reasons)
	})
	t.Run("a zero lower down counts as it did", func(t *testing.T) {
		low := strings.ReplaceAll(book, "1 HZ", "1 7") + readyFlights("2026-10-15", "7", "7", "7", "HZ")
		g := gate(ready(t, low, ""), "zeros")
		assert.Equal(t, code.NotMet, g.State)
		assert.Empty(t, g.Reasons)
	})
}

// A void flight was flown all the same, by the contract of the page, and is told from
// the others.
func TestCurrentByAVoidFlight(t *testing.T) {
	void := "flight 2026-11-20 ines unknown\n  category sportsman\n  void \"thunder\"\n"
	g := gate(ready(t, readyHead+readyFlights("2026-09-01", "7")+void, ""), "current")
	assert.Equal(t, []any{code.Met, 1.0}, []any{g.State, number(g, code.LastVoid)})
	assert.Empty(t, all(gate(ready(t, readyHead+void+readyFlights("2026-11-21", "7"), ""), "current"), code.LastVoid))
}
