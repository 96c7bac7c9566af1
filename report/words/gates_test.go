package words_test

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season/analysis/code"
)

// People read titles in plain words; what speaks against is listed by them.
func TestGateTitles(t *testing.T) {
	var titles []string
	r := ready(t, readyHead+readyFlights("2026-11-01", "7")+"  fault - loose-article\n", "")
	for _, g := range r.Gates {
		titles = append(titles, words.GateTitle(g.Gate))
	}
	assert.Equal(t, []string{
		"flights", "no step skipped", "level", "figures", "zeros", "low penalties", "new families", "forecast", "sign-off", "open matters", "recency",
	}, titles)
	assert.Contains(t, r.Against, "open matters, not met: 1 open matter of safety; loose-article since 2026-11-01")
}

// Every gate says what is asked and who set it.
func TestReadinessAsked(t *testing.T) {
	r := ready(t, allMet(), "")
	for _, g := range r.Gates {
		assert.True(t, strings.HasSuffix(g.Asked, " (house default)"), "%s: %s", g.Gate, g.Asked)
	}
	asked := func(name string, policy ...string) string {
		return gateOf(ready(t, allMet()+shortPolicy(policy...), ""), name).Asked
	}
	assert.Equal(t, "6 in the last 730 days (house default)", asked("flights", "current 90"))
	assert.Equal(t, "7 (set in the ledger) in the last 730 days (house default)", asked("flights", "flights 7"))
	assert.Equal(t, "6 (house default) in the last day (set in the ledger)", asked("flights", "window 1"))
	assert.Equal(t, "6 (house default) at any time (set in the ledger)", asked("flights", "window off"))
	assert.Equal(t, "60% or more in at least 50% of flights (house default)", asked("threshold", "flights 7"))
	assert.Equal(t, "60% or more (house default) in at least 97.5% of flights (set in the ledger)", asked("threshold", "share 0.975"))
	assert.Equal(t, "62.5% or more in at least 90% of flights (set in the ledger)", asked("threshold", "threshold 62.5", "share 0.9"))
	assert.Equal(t, "5.0 or better (house default) for 100% of the figures (set in the ledger) in the last 4 flights (house default)", asked("figure-floor", "floor-share 1"))
	assert.Equal(t, "at most 1 in the last 8 flights (set in the ledger)", asked("zeros", "zeros 1 in 8"))
	assert.Equal(t, "3 graded elements of each at 6.5 on average (set in the ledger)", asked("new-families", "new-families 3 at 6.5"))
	assert.Equal(t, "a lower end of 55% (set in the ledger)", asked("forecast", "forecast 55"))

	// A floor over no flight is no lack of marks.
	g := gateOf(ready(t, allMet()+shortPolicy("floor-flights 0"), ""), "figure-floor")
	assert.Equal(t, code.CannotTell, g.State)
	assert.Equal(t, "the policy counts no flight", g.Evidence)
	assert.Equal(t, "`floor-flights` of at least 1 in the policy", g.Needs)
}

// What is counted is said as it is, by every gate that has words of its own.
func TestGateEvidence(t *testing.T) {
	book := readyHead + readyFlights("2026-11-01", "7", "6.5", "7.5", "7", "6.5", "8")
	d := ready(t, book, "intermediate")
	assert.Equal(t, "6 contest flights at sportsman in the window", gateOf(d, "flights").Evidence)
	assert.Contains(t, gateOf(d, "forecast").Evidence, "from grades at sportsman, since no panel at intermediate has graded the pilot")
	assert.Empty(t, gateOf(d, "forecast").Needs)
	assert.Equal(t, "intermediate is the next step", gateOf(d, "steps").Evidence)
	assert.Equal(t, "skips intermediate", gateOf(ready(t, book, "advanced"), "steps").Evidence)
	assert.Equal(t, "ladder us does not say how club follows on sportsman", gateOf(ready(t, book, "club"), "steps").Evidence)
	assert.Equal(t, "no ladder is known that has advanced", gateOf(ready(t, readyHead, "advanced"), "steps").Evidence)
	d = ready(t, readyHead, "")
	assert.Equal(t, "no contest flight with a category in the window", gateOf(d, "flights").Evidence)
	assert.Equal(t, "6 contest flights at one category", gateOf(d, "flights").Needs)
	assert.Equal(t, "no marks of a contest flight", gateOf(d, "figure-floor").Evidence)
	assert.Equal(t, "no contest flight flown, of 6 needed", gateOf(d, "lows").Evidence)
	assert.Equal(t, "no flight in the ledger", gateOf(d, "current").Evidence)
	assert.Equal(t, "a flight, practice too", gateOf(d, "current").Needs)

	d = ready(t, readyHead+readyFlights("2026-09-01", "7")+"  penalty low 20\nsignoff 2026-08-31 ines intermediate by marek\n", "")
	assert.Equal(t, "5 more at sportsman", gateOf(d, "flights").Needs)
	assert.Equal(t, "1 low penalty in the 1 flight flown, of 6 needed: 2026-09-01/ines/known", gateOf(d, "lows").Evidence)
	assert.Equal(t, "1 in the 1 flown: 2026-09-01/ines/known", gateOf(d, "lows").Brief)
	assert.Equal(t, "6 more contest flights without one", gateOf(d, "lows").Needs)
	assert.Equal(t, "no sign-off for intermediate; the one by Marek Oduya, 2026-08-31 is not after the low penalty of 2026-09-01", gateOf(d, "signoff").Evidence)
	assert.Equal(t, "a `signoff` line for intermediate by a coach after 2026-09-01", gateOf(d, "signoff").Needs)
	assert.Equal(t, "85 days since the last flight in the ledger", gateOf(d, "current").Evidence)
	assert.Equal(t, "a flight within 60 days, practice too", gateOf(d, "current").Needs)
	assert.Equal(t, "a `signoff` line for intermediate by a coach", gateOf(ready(t, readyHead+readyFlights("2026-09-01", "7"), ""), "signoff").Needs)
}

// One figure in five falls short: the count, the floor as it was typed, and what
// would do.
func TestFiguresEvidence(t *testing.T) {
	flight := "flight 2026-11-01 ines known\n  sequence five\n  panel marek\n" + markRows([]string{"7", "7", "4.5", "5", "6"})
	g := gateOf(ready(t, readyHead+flight, ""), "figure-floor")
	assert.Equal(t, "4 of 5 figures at 5.0 or better in the 1 flight flown, of 4 needed; 2026-11-01/ines/known figure 3: 4.5", g.Evidence)
	assert.Equal(t, "contest flights with figures at 5.0 or better, until 95% of those in the last 4 flights are", g.Needs)
	assert.Contains(t, gateOf(ready(t, readyHead+flight+shortPolicy("figure-floor 5.25"), ""), "figure-floor").Evidence, "3 of 5 figures at 5.25 or better")
}

// In short the figures that are not named are counted, and not their flights.
func TestFiguresNotNamedAreCounted(t *testing.T) {
	book := readyHead
	for i := range 4 {
		book += fmt.Sprintf("flight 2026-11-%02d ines known\n  sequence five\n  panel marek\n", i+1) + markRows([]string{"7", "4.5", "4", "5", "6"})
	}
	g := gateOf(ready(t, book, ""), "figure-floor")
	assert.Contains(t, g.Brief, "12 of 20 figures at 5.0 or better; 2026-11-01/ines/known figure 2: 4.5, figure 3: 4.0; 2026-11-02/ines/known figure 2: 4.5, figure 3: 4.0; and 4 more figures")
}

// Computed by R lbeta (Jeffreys): 0 zeros in 60 figures, the next 12:
// .086812056; by flight, 0 of 12 flights: 1/26, derived.
func TestZerosRisk(t *testing.T) {
	book := "pilot ines\nsequence twelve\n  category sportsman\n"
	for i := range 12 {
		book += fmt.Sprintf("  %d K 10\n", i+1)
	}
	for i := range 5 {
		book += fmt.Sprintf("flight 2026-09-%02d ines known\n  sequence twelve\n  panel A\n", i+1) + markRows(strings.Fields("7 7 7 7 7 7 7 7 7 7 7 7"))
	}
	assert.Contains(t, gateOf(ready(t, book, ""), "zeros").Evidence, "chance of one that counts in the next sequence: about 9%")
}

// Where a zero is only part of a mean, the chance of one is not the forecast's, and
// says so.
func TestZerosRiskIsNotTheForecasts(t *testing.T) {
	row := func(day, first string) string {
		return "flight 2026-" + day + " ines known\n  sequence five\n  panel A B C\n" + markRows([]string{first, "7 7 7", "7 7 7", "7 7 7", "7 7 7"}) + "  rules as-graded\n"
	}
	said := func(first string) string {
		d := ready(t, readyHead+row("10-01", "7 7 7")+row("10-08", "7 7 7")+row("10-15", "7 7 7")+row("11-01", first), "")
		return words.GateBrief(d, gateOf(d, "zeros"))
	}
	assert.Contains(t, said("HZ 7 7"), "(1 figure with one in 4 flights, allowing for so few; none came to 0, and a forecast counts only such)")
	assert.Contains(t, said("HZ HZ HZ"), "(1 figure with one in 4 flights, allowing for so few)")

	d := ready(t, readyHead+row("10-15", "7 7 7")+row("11-01", "HZ HZ HZ"), "")
	assert.Contains(t, words.GateBrief(d, gateOf(d, "zeros")), "; too few flights to tell the chance of one in the next;")
	assert.NotContains(t, words.GateBrief(d, gateOf(d, "zeros")), "chance of a zero")
}

// The gate asks for any judge's zero and the chance is of one that counts: where the
// rules overruled one before the last flights, every form says which is which.
func TestZerosThatDoNotCountAreApart(t *testing.T) {
	row := func(day, first string) string {
		return "flight 2026-" + day + " ines known\n  sequence five\n  panel A B C\n" + markRows([]string{first, "7 7 7", "7 7 7", "7 7 7", "7 7 7"})
	}
	zeros := func(first string) (g answers.Gate, brief string) {
		d := ready(t, readyHead+row("09-05", first)+row("10-01", "7 7 7")+row("10-08", "7 7 7")+row("10-15", "7 7 7")+row("11-01", "7 7 7"), "")
		g = gateOf(d, "zeros")
		return g, words.GateBrief(d, g)
	}
	g, brief := zeros("HZ 7 7")
	assert.Contains(t, brief, "none in the last 4 flights; chance of one that counts in the next: 9%"+
		" (in 5 flights no figure had one, 1 had one that does not; up to 11% of figures possible)")
	assert.Contains(t, g.Brief, "one that counts")
	assert.Contains(t, g.Evidence, "none counted in 25 figures, up to 11% of figures not ruled out; 1 figure had a judge's zero that did not count")
	g, brief = zeros("7 7 7")
	assert.Contains(t, brief, "none in the last 4 flights; chance of one in the next flight: 9% (none in 5 flights, up to 11% of figures possible)")
	assert.NotContains(t, g.Evidence, "did not count")
	_, brief = zeros("HZ HZ 7")
	assert.Contains(t, brief, "none in the last 4 flights; chance of one in the next flight: 25% (1 figure with one in 5 flights, allowing for so few)", "it counts")
}

func TestUnknownsNeed(t *testing.T) {
	book := readyHead + readyFlights("2026-09-01", "7", "8", "7") + "flight 2026-10-01 ines known\n  category intermediate\n  official 60 of 100\n" +
		"flight 2026-10-02 ines unknown\n  category intermediate\n  official 60 of 100\n"
	g := gateOf(ready(t, book, ""), "unknowns")
	assert.Equal(t, "1 unknown flown at intermediate in the window", g.Evidence)
	assert.Equal(t, "1 more at intermediate", g.Needs)
}

// A gate that has no words of its own is said by what it has and asks for.
func TestAnyGate(t *testing.T) {
	g := answers.Gate{
		Gate: "night-flights", State: code.NotMet, Numbers: map[code.Fact][]answers.Number{code.Have: {{Number: report.Float(2)}}}, SpeaksAgainst: true,
		Settings: []answers.Setting{{Key: "night-flights", Values: []report.Number{report.Float(3)}, Typed: []string{"3"}, House: true}},
	}
	d := words.SayReady(answers.Ready{Gates: []answers.Gate{g}})
	assert.Equal(t, "night flights", words.GateTitle("night-flights"))
	assert.Equal(t, []string{"have 2", "3 (house default)", "have 2, needs 3"}, []string{d.Gates[0].Evidence, d.Gates[0].Asked, d.Gates[0].Needs})
	assert.Equal(t, []string{"night flights, not met: have 2"}, d.Against)
	g.State, g.SpeaksAgainst = code.Met, false
	d = words.SayReady(answers.Ready{Gates: []answers.Gate{g}})
	assert.Empty(t, d.Gates[0].Needs)
	assert.Empty(t, d.Against)
}

// The sentences follow from the facts alone: said twice, they are as said once,
// and the answer that was given stays as it was.
func TestSayReadyTwice(t *testing.T) {
	l := bookOn(t, data.Builtin(), allMet(), "2026-12-24")
	bare := answers.ReadyOf(l, l.PilotNamed("ines"), l.Policies[0], nil, "")
	said := words.SayReady(bare)
	assert.Equal(t, said, words.SayReady(said))
	for i, g := range bare.Gates {
		assert.Empty(t, g.Evidence+g.Asked+g.Needs, g.Gate)
		assert.NotEmpty(t, said.Gates[i].Evidence, g.Gate)
		assert.NotEmpty(t, said.Gates[i].Asked, g.Gate)
	}
}

// shippedWith are the shipped definitions with lines of the policy changed.
func shippedWith(t *testing.T, changes ...string) fs.FS {
	t.Helper()
	shipped := fstest.MapFS{}
	files, err := fs.Glob(data.Builtin(), "*.boxbook")
	require.NoError(t, err)
	for _, name := range files {
		text, err := fs.ReadFile(data.Builtin(), name)
		require.NoError(t, err)
		shipped[name] = &fstest.MapFile{Data: []byte(text)}
	}
	policy := string(shipped["policy.boxbook"].Data)
	for i := 0; i < len(changes); i += 2 {
		require.Contains(t, policy, changes[i])
		policy = strings.Replace(policy, changes[i], changes[i+1], 1)
	}
	shipped["policy.boxbook"] = &fstest.MapFile{Data: []byte(policy)}
	return shipped
}

// A default that the program ships stands in its data alone: changed there, the
// gates, their words and the JSON follow, also in a ledger's own policy and where
// a key that only holds a number is off.
func TestShippedDefaults(t *testing.T) {
	shipped := shippedWith(t, "flights        6", "flights        7", "share          0.5", "share          0.9", "floor-share    0.95", "floor-share    0.4",
		"floor-flights  4", "floor-flights  3", "zeros          0 in 4", "zeros          1 in 5", "new-families   2 at 6.0", "new-families   3 at 7.5",
		"forecast       50", "forecast       85", "current        60", "current        21", "window         730", "window         400")
	for name, policy := range map[string]string{
		"shipped": "", "one key set": shortPolicy("lows 1 in 6"), "numbers off": shortPolicy("share off", "floor-share off", "floor-flights off"),
	} {
		d := readyBy(t, bookOn(t, shipped, allMet()+policy, "2026-11-25"), "")
		asked := map[string]string{
			"flights": "7 in the last 400 days (house default)", "threshold": "60% or more in at least 90% of flights (house default)",
			"figure-floor": "5.0 or better for 40% of the figures in the last 3 flights (house default)",
			"zeros":        "at most 1 in the last 5 flights (house default)", "new-families": "3 graded elements of each at 7.5 on average (house default)",
			"forecast": "a lower end of 85% (house default)", "current": "at most 21 days (house default)",
		}
		for gate, want := range asked {
			assert.Equal(t, want, gateOf(d, gate).Asked, "%s: %s", name, gate)
		}
		for _, gate := range []string{"flights", "new-families", "forecast", "current"} {
			assert.Equal(t, code.NotMet, gateOf(d, gate).State, "%s: %s", name, gate)
		}
		assert.NotEqual(t, code.Met, gateOf(d, "threshold").State, name)
		raw, err := json.Marshal(d)
		require.NoError(t, err)
		for _, want := range []string{
			`{"key":"flights","values":[7],"typed":["7"],"house":true}`, `{"key":"share","values":[0.9],"typed":["0.9"],"house":true}`,
			`{"key":"new-families","values":[3,7.5],"typed":["3","7.5"],"house":true}`, `"needs":"1 more at sportsman"`,
		} {
			assert.Contains(t, string(raw), want, name)
		}
	}
}

// A policy that has no number for what a gate goes by leaves the gate open: no
// number but the policy's is taken.
func TestPolicyWithoutANumber(t *testing.T) {
	shipped := shippedWith(t, "  share          0.5", "  # share", "  floor-share    0.95", "  # floor-share", "  floor-flights  4", "  # floor-flights")
	d := readyBy(t, bookOn(t, shipped, allMet(), "2026-11-25"), "")
	g := gateOf(d, "threshold")
	assert.Equal(t, code.CannotTell, g.State)
	assert.Equal(t, []code.Reason{code.Unset}, g.Reasons)
	assert.Equal(t, "the policy has no number for `share`", g.Evidence)
	assert.Equal(t, "`share` in the policy", g.Needs)
	assert.Equal(t, "the policy has no number for `floor-share`, `floor-flights`", gateOf(d, "figure-floor").Evidence)
	assert.Equal(t, code.Met, gateOf(d, "flights").State)
}
