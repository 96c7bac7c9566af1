package analysis_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
)

// allMet is a book in which every gate that is asked from sportsman is met.
func allMet() string {
	return readyHead + readyFlights("2026-11-01", "7", "6.5", "7.5", "7", "6.5", "8") +
		"flight 2025-11-02 ines known\n  sequence inter-known\n  panel marek\n  1 7\n  2 7\n  3 6.5\n" +
		"flight 2026-11-03 ines practice\n  sequence flicks\n  panel marek\n  1 6\n  2 7\n" +
		"signoff 2026-11-10 ines intermediate by marek\n"
}

func states(r analysis.Readiness) string {
	var list []string
	for _, g := range r.Gates {
		list = append(list, g.Name+" "+string(g.State))
	}
	return strings.Join(list, ", ")
}

// Ready when every gate is met, not yet when one is not met, else cannot tell;
// what speaks against is every gate that is not met.
func TestReadinessVerdict(t *testing.T) {
	r := ready(t, allMet(), "")
	assert.Equal(t, analysis.Ready, r.Verdict, states(r))
	assert.Equal(t, "sportsman", r.From)
	assert.Equal(t, "intermediate", r.To)
	assert.Equal(t, "us", r.Ladder.Name)
	assert.Equal(t, 1200, r.Floor.Floor)
	assert.Empty(t, r.Against)
	assert.Equal(t, []string{"flights", "threshold", "figure-floor", "zeros", "lows", "new-families", "forecast", "signoff", "open-matters", "current"}, gateNames(r))
	for _, g := range r.Gates {
		assert.Empty(t, g.Needs, g.Name)
		assert.NotEmpty(t, g.Evidence, g.Name)
	}

	r = ready(t, strings.Replace(allMet(), "2025-11-02 ines known", "2025-11-02 ines practice", 1), "")
	assert.Equal(t, analysis.GateOpen, r.Verdict, states(r))
	require.Len(t, r.Against, 1)
	assert.True(t, strings.HasPrefix(r.Against[0], "forecast, cannot tell: "), r.Against[0])

	r = ready(t, strings.Replace(strings.Replace(allMet(), "2025-11-02 ines known", "2025-11-02 ines practice", 1), "signoff 2026-11-10 ines", "signoff 2026-11-10 yuki", 1), "")
	assert.Equal(t, analysis.NotYet, r.Verdict, "one not met outweighs one that cannot be told")
	assert.Len(t, r.Against, 2)
}

// policyKey is the key that asks for a gate: of the gate's name, one apart.
func policyKey(gate string) string {
	if gate == "open-matters" {
		return "safety"
	}
	return gate
}

// People read titles in plain words; what speaks against is listed by them.
func TestGateTitles(t *testing.T) {
	var titles []string
	r := ready(t, readyHead+readyFlights("2026-11-01", "7")+"  fault - loose-article\n", "")
	for _, g := range r.Gates {
		titles = append(titles, g.Title)
	}
	assert.Equal(t, []string{
		"flights", "level", "figures", "zeros", "low penalties", "new families", "forecast", "sign-off", "open matters", "recency",
	}, titles)
	assert.Contains(t, r.Against, "open matters, not met: 1 open matter of safety; loose-article since 2026-11-01")
}

// `KEY off` drops a gate, and that gate alone; keys that only hold a number
// leave it at its default.
func TestReadinessKeysOff(t *testing.T) {
	all := gateNames(ready(t, allMet(), ""))
	kept := []string{"lows", "signoff", "open-matters"} // these cannot be off
	for _, name := range all {
		if slices.Contains(kept, name) {
			assert.Equal(t, all, gateNames(ready(t, allMet()+shortPolicy(policyKey(name)+" off"), "")), name)
			continue
		}
		got := gateNames(ready(t, allMet()+shortPolicy(policyKey(name)+" off"), ""))
		want := []string{}
		for _, other := range all {
			if other != name {
				want = append(want, other)
			}
		}
		assert.Equal(t, want, got, name)
	}
	assert.Equal(t, all, gateNames(ready(t, allMet()+shortPolicy("signoff no"), "")), "no more than off")
	for _, name := range []string{"window", "share", "floor-share", "floor-flights"} {
		assert.Equal(t, states(ready(t, allMet(), "")), states(ready(t, allMet()+shortPolicy(name+" off"), "")), name)
	}
	var off []string
	for _, name := range all {
		off = append(off, policyKey(name)+" off")
	}
	r := ready(t, allMet()+shortPolicy(off...), "")
	assert.Equal(t, kept, gateNames(r))
}

// Another policy of the ledger keeps the house value of every key left out.
func TestReadinessPolicyOfTheLedger(t *testing.T) {
	l := testkit.BookOf(t, allMet()+"policy strict\n  flights 7\n")
	for _, p := range l.Policies {
		r := analysis.ReadinessOf(l, l.PilotNamed("ines"), p, nil, "")
		assert.Equal(t, p.Name, r.Policy.Name)
		assert.Len(t, r.Gates, 10)
		assert.Equal(t, p.Name == "strict", gate(r, "flights").State == analysis.NotMet)
	}
	assert.Len(t, l.Policies, 2)
}

// The present category is that of the latest contest flight, practice apart;
// the ladder is that flight's, or the one asked for; the last step has none
// above it, nor has a category of no ladder.
func TestReadinessPlace(t *testing.T) {
	place := func(r analysis.Readiness) string { return r.From + " " + r.To }
	flight := func(date, what, category string) string {
		return fmt.Sprintf("flight %s ines %s\n  category %s\n  official 60 of 100\n", date, what, category)
	}
	book := "pilot ines\n" + flight("2026-05-01", "known", "sportsman")
	assert.Equal(t, "sportsman intermediate", place(ready(t, book, "")))
	assert.Equal(t, "sportsman advanced", place(ready(t, book, "advanced")))
	assert.Equal(t, "sportsman intermediate", place(ready(t, book+flight("2026-06-01", "practice", "advanced"), "")))
	assert.Equal(t, "sportsman intermediate", place(ready(t, book+flight("2026-12-24", "known", "advanced"), "")), "later than today")
	assert.Equal(t, "advanced unlimited", place(ready(t, book+flight("2026-06-01", "known", "advanced"), "")))
	assert.Equal(t, "unlimited ", place(ready(t, book+flight("2026-06-01", "known", "unlimited"), "")))
	assert.Equal(t, "lakesman ", place(ready(t, book+flight("2026-06-01", "known", "lakesman"), "")))
	assert.Equal(t, "lakesman advanced", place(ready(t, book+flight("2026-06-01", "known", "lakesman"), "advanced")))

	uk := book + "contest cup 2026-06-01\n  ladder uk\n" + flight("2026-06-01", "known", "club") + "  contest cup\n"
	r := ready(t, uk, "")
	assert.Equal(t, "club sports", place(r))
	assert.Equal(t, 1000, r.Floor.Floor)
	l := testkit.BookOf(t, book+flight("2026-06-01", "known", "intermediate"))
	for _, ladder := range l.Ladders {
		r := analysis.ReadinessOf(l, l.PilotNamed("ines"), l.Policies[0], ladder, "")
		assert.Equal(t, "intermediate advanced", place(r), ladder.Name)
		assert.Equal(t, ladder, r.Ladder)
	}

	own := "ladder lakes\n  category lakesman\n  category lakesmaster floor 900ft unknowns new 6 7\n" + "pilot ines\ncontest cup 2026-06-01\n  ladder lakes\n" +
		flight("2026-06-01", "known", "lakesman") + "  contest cup\n"
	r = ready(t, own, "")
	assert.Equal(t, "lakesman lakesmaster", place(r))
	assert.Equal(t, "6 tailslides never graded; 7 loops, part loops and eights never graded", gate(r, "new-families").Evidence)
}

// Asked about the category flown last, the record is that of the nearest step
// below it that was flown in the window: one contest flight higher up does not
// empty it. With nothing below, the category flown last stays.
func TestReadinessPlaceOfTheCategoryAsked(t *testing.T) {
	higher := "flight 2026-11-08 ines known\n  sequence inter-known\n  panel marek\n  1 7\n  2 7\n  3 6.5\n"
	book := readyHead + readyFlights("2026-11-01", "7", "6.5", "7.5", "7", "6.5", "8")
	r := ready(t, book+higher, "intermediate")
	assert.Equal(t, []string{"sportsman", "intermediate"}, []string{r.From, r.To})
	assert.Equal(t, "6 contest flights at sportsman in the window; those at intermediate stand apart", gate(r, "flights").Evidence)
	assert.Equal(t, analysis.Met, gate(r, "forecast").State, gate(r, "forecast").Evidence)
	r = ready(t, book+higher, "")
	assert.Equal(t, []string{"intermediate", "advanced"}, []string{r.From, r.To})
	assert.NotContains(t, gate(r, "flights").Evidence, "apart")
	r = ready(t, readyHead+higher, "intermediate")
	assert.Equal(t, []string{"intermediate", "intermediate"}, []string{r.From, r.To}, "nothing below was flown")
	r = ready(t, book+higher+shortPolicy("window 20"), "intermediate")
	assert.Equal(t, "intermediate", r.From, "sportsman was flown before the window")

	// What the forecast gate needs, done, leaves the other gates as they were.
	before := ready(t, book, "intermediate")
	assert.Contains(t, gate(before, "forecast").Needs, "a contest flight at intermediate, after which the page asks for the step beyond unless it is given --to intermediate")
	after := ready(t, book+higher, "intermediate")
	for _, name := range []string{"flights", "threshold", "figure-floor", "zeros", "lows", "new-families", "signoff"} {
		assert.Equal(t, gate(before, name).State, gate(after, name).State, name)
	}
}

// At the top of the ladder nothing is asked for, whatever the gates say.
func TestReadinessAtTheTop(t *testing.T) {
	top := strings.ReplaceAll(readyHead, "sportsman", "unlimited") + readyFlights("2026-11-01", "7", "6.5", "7.5", "7", "6.5", "8")
	r := ready(t, top, "")
	assert.Equal(t, analysis.GateOpen, r.Verdict)
	assert.Equal(t, analysis.NotMet, gate(r, "unknowns").State)
	for _, name := range []string{"new-families", "forecast", "signoff"} {
		assert.NotContains(t, gateNames(r), name)
	}
}

// Every gate says what is asked and who set it.
func TestReadinessAsked(t *testing.T) {
	r := ready(t, allMet(), "")
	for _, g := range r.Gates {
		assert.True(t, strings.HasSuffix(g.Asked, " (house default)"), "%s: %s", g.Name, g.Asked)
	}
	asked := func(name string, policy ...string) string {
		return gate(ready(t, allMet()+shortPolicy(policy...), ""), name).Asked
	}
	assert.Equal(t, "6 in the last 730 days (house default)", asked("flights", "current 90"))
	assert.Equal(t, "7 (set in the ledger) in the last 730 days (house default)", asked("flights", "flights 7"))
	assert.Equal(t, "6 (house default) in the last 1 day (set in the ledger)", asked("flights", "window 1"))
	assert.Equal(t, "6 at any time (house default)", asked("flights", "window off"))
	assert.Equal(t, "60 % or more in at least 50 % of flights (house default)", asked("threshold", "flights 7"))
	assert.Equal(t, "60 % or more (house default) in at least 97.5 % of flights (set in the ledger)", asked("threshold", "share 0.975"))
	assert.Equal(t, "62.5 % or more in at least 90 % of flights (set in the ledger)", asked("threshold", "threshold 62.5", "share 0.9"))
	assert.Equal(t, "5.0 or better (house default) for 100 % of the figures (set in the ledger) in the last 4 flights (house default)", asked("figure-floor", "floor-share 1"))
	assert.Equal(t, "at most 1 in the last 8 flights (set in the ledger)", asked("zeros", "zeros 1 in 8"))
	assert.Equal(t, "3 graded elements of each at 6.5 on average (set in the ledger)", asked("new-families", "new-families 3 at 6.5"))
	assert.Equal(t, "a lower end of 55 % (set in the ledger)", asked("forecast", "forecast 55"))

	// A floor over no flight is no lack of marks.
	g := gate(ready(t, allMet()+shortPolicy("floor-flights 0"), ""), "figure-floor")
	assert.Equal(t, analysis.GateOpen, g.State)
	assert.Equal(t, "the policy looks at no flight", g.Evidence)
	assert.Equal(t, "`floor-flights` of 1 at the least in the policy", g.Needs)
}

// A pilot without a flight, with one, with two: no gate panics, and no verdict
// says more than is known.
func TestReadinessOfFewFlights(t *testing.T) {
	r := ready(t, readyHead, "")
	assert.Empty(t, r.From)
	assert.Empty(t, r.To)
	assert.Nil(t, r.Ladder)
	assert.NotEqual(t, analysis.Ready, r.Verdict)
	assert.Equal(t, "no flight in the ledger", gate(r, "current").Evidence)
	for _, name := range []string{"threshold", "figure-floor", "zeros", "lows"} {
		assert.Equal(t, analysis.GateOpen, gate(r, name).State, name)
	}
	assert.Equal(t, []string{"flights", "threshold", "figure-floor", "zeros", "lows", "open-matters", "current"}, gateNames(r), "none that asks for a next step")
	assert.Equal(t, "6 contest flights at one category", gate(r, "flights").Needs)
	for n := range 3 {
		r = ready(t, readyHead+readyFlights("2026-11-01", strings.Fields("7 8 7")[:n+1]...), "")
		assert.Equal(t, analysis.NotYet, r.Verdict, states(r))
		assert.Equal(t, analysis.NotMet, gate(r, "flights").State)
		assert.NotEqual(t, analysis.Met, gate(r, "forecast").State)
	}
	// Practice alone is no category.
	r = ready(t, readyHead+strings.Replace(readyFlights("2026-11-01", "7"), "known", "practice", 1), "")
	assert.Empty(t, r.From)
	assert.Equal(t, analysis.Met, gate(r, "current").State)
	r = ready(t, readyHead, "intermediate")
	assert.NotEqual(t, analysis.Ready, r.Verdict)
}

// Two hundred flights are read in good time.
func TestReadinessOfManyFlights(t *testing.T) {
	end := testkit.Day(t, "2026-11-20")
	var b strings.Builder
	b.WriteString(readyHead)
	for i := range 200 {
		grades := strings.Fields("6 6.5 7 7.5 8 7 6.5 7.5 6 8")
		row := []string{grades[i%10], grades[(i+3)%10], grades[(i*7+1)%10], grades[(i+5)%10], grades[(i*3+2)%10]}
		fmt.Fprintf(&b, "flight %s ines known\n  sequence five\n  panel marek\n%s", end-season.Date(3*(199-i)), markRows(row))
	}
	start := time.Now()
	r := ready(t, b.String(), "")
	assert.Less(t, time.Since(start), 10*time.Second)
	assert.Contains(t, gate(r, "flights").Evidence, "200 contest flights")
	assert.Equal(t, analysis.Met, gate(r, "threshold").State, gate(r, "threshold").Evidence)
	assert.NotContains(t, fmt.Sprint(r.Gates), "NaN")
}
