package analysis_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/analysis/code"
	"boxbook/season/internal/testkit"
)

// allMet is a book in which every gate that is asked from sportsman is met.
func allMet() string {
	return readyHead + readyFlights("2026-11-01", "7", "6.5", "7.5", "7", "6.5", "8") +
		"flight 2024-11-02 ines known\n  sequence inter-known\n  panel marek\n  1 7\n  2 7\n  3 6.5\n" +
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

// against are the gates that have something against.
func against(r analysis.Readiness) []string {
	var list []string
	for _, g := range r.Gates {
		if g.Against {
			list = append(list, g.Name)
		}
	}
	return list
}

// all are the facts of a kind.
func all(g analysis.Gate, what code.Fact) []analysis.Fact {
	return slices.DeleteFunc(slices.Clone(g.Facts), func(f analysis.Fact) bool { return f.Code != what })
}

// number is that of the first fact of a kind, NaN where there is none.
func number(g analysis.Gate, what code.Fact) float64 {
	for _, f := range all(g, what) {
		return f.Number
	}
	return math.NaN()
}

// Ready when every gate that counts is met, not yet when one is not met, else
// cannot tell; what speaks against is every gate that is not met.
func TestReadinessVerdict(t *testing.T) {
	r := ready(t, allMet(), "")
	assert.Equal(t, code.Ready, r.Verdict, states(r))
	assert.Equal(t, "sportsman", r.From)
	assert.Equal(t, "intermediate", r.To)
	assert.Equal(t, "us", r.Ladder.Name)
	assert.Equal(t, 1200, r.Floor.Floor)
	assert.Equal(t, []string{"flights", "steps", "threshold", "figure-floor", "zeros", "lows", "new-families", "forecast", "signoff", "open-matters", "current"}, gateNames(r))
	for _, g := range r.Gates {
		assert.False(t, g.Against, g.Name)
		assert.NotEmpty(t, g.Settings, g.Name)
		assert.True(t, g.Counts, g.Name)
	}

	never := strings.Replace(allMet(), "2024-11-02 ines known", "2024-11-02 ines practice", 1)
	r = ready(t, never, "")
	assert.Equal(t, code.Ready, r.Verdict, states(r))
	assert.Equal(t, []string{"forecast"}, against(r))
	assert.False(t, gate(r, "forecast").Counts)
	assert.Empty(t, r.Missing)
	assert.Equal(t, []code.Reason{code.NeverFlown}, gate(r, "forecast").Reasons)

	r = ready(t, allMet()+shortPolicy("zeros 0 in 9"), "")
	assert.Equal(t, code.CannotTell, r.Verdict, states(r))
	assert.Equal(t, []string{"zeros"}, r.Missing)
	r = ready(t, strings.Replace(allMet(), "signoff 2026-11-10 ines", "signoff 2026-11-10 yuki", 1)+shortPolicy("zeros 0 in 9"), "")
	assert.Equal(t, code.NotYet, r.Verdict, "one not met outweighs one that cannot tell")
	assert.Equal(t, []string{"zeros", "signoff"}, r.Missing)
}

// policyKey is the key that asks for a gate: of the gate's name, one apart.
func policyKey(gate string) string {
	if gate == "open-matters" {
		return "safety"
	}
	return gate
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
		r := ready(t, allMet()+shortPolicy(policyKey(name)+" off"), "")
		got := gateNames(r)
		assert.Equal(t, []string{name}, r.Off)
		want := []string{}
		for _, other := range all {
			if other != name {
				want = append(want, other)
			}
		}
		assert.Equal(t, want, got, name)
	}
	assert.Equal(t, all, gateNames(ready(t, allMet()+shortPolicy("signoff no"), "")), "no more than off")
	for _, name := range []string{"share", "floor-share", "floor-flights"} {
		assert.Equal(t, states(ready(t, allMet(), "")), states(ready(t, allMet()+shortPolicy(name+" off"), "")), name)
	}
	var off []string
	for _, name := range append(all, "unknowns") {
		off = append(off, policyKey(name)+" off")
	}
	r := ready(t, allMet()+shortPolicy(off...), "")
	assert.Equal(t, kept, gateNames(r))
	assert.Len(t, r.Off, len(all)+1-len(kept))
}

// Another policy of the ledger keeps the house value of every key left out.
func TestReadinessPolicyOfTheLedger(t *testing.T) {
	l := testkit.BookOf(t, allMet()+"policy strict\n  flights 7\n")
	for _, p := range l.Policies {
		r := analysis.ReadinessOf(l, l.PilotNamed("ines"), p, nil, "")
		assert.Equal(t, p.Name, r.Policy.Name)
		assert.Len(t, r.Gates, 11)
		assert.Equal(t, p.Name == "strict", gate(r, "flights").State == code.NotMet)
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
	graded := all(gate(r, "new-families"), code.Graded)
	require.Len(t, graded, 2)
	assert.Equal(t, []string{"6", "7"}, []string{graded[0].Name, graded[1].Name})
	assert.Zero(t, graded[0].Number+graded[1].Number)
}

// The present category is the highest flown in the window, whatever was flown
// last; of the categories asked about those above it are steps.
func TestReadinessPresentCategory(t *testing.T) {
	higher := "flight 2026-06-08 ines known\n  sequence inter-known\n  panel marek\n  1 7\n  2 7\n  3 6.5\n"
	book := readyHead + readyFlights("2026-11-01", "7", "6.5", "7.5", "7", "6.5", "8")
	r := ready(t, book+higher, "")
	assert.Equal(t, []string{"intermediate", "advanced"}, []string{r.From, r.To})
	r = ready(t, book+higher+shortPolicy("window 150"), "")
	assert.Equal(t, "sportsman", r.From, "intermediate was flown before the window")
	r = ready(t, book+higher+"  void \"cloud\"\n", "")
	assert.Equal(t, "sportsman", r.From, "a void flight makes no category")
	l := testkit.BookOf(t, book+higher)
	for to, want := range map[string]bool{"primary": false, "sportsman": false, "intermediate": false, "advanced": true, "unlimited": true, "lakesman": true} {
		from, up := analysis.StepsUp(l, l.PilotNamed("ines"), l.Policies[0], nil, to)
		assert.Equal(t, want, up, to)
		assert.Equal(t, "intermediate", from)
	}
}

// At the top of the ladder nothing is asked for, whatever the gates say.
func TestReadinessAtTheTop(t *testing.T) {
	top := strings.ReplaceAll(readyHead, "sportsman", "unlimited") + readyFlights("2026-11-01", "7", "6.5", "7.5", "7", "6.5", "8")
	r := ready(t, top, "")
	assert.Equal(t, code.CannotTell, r.Verdict)
	assert.Equal(t, code.NotMet, gate(r, "unknowns").State)
	assert.Empty(t, r.Missing)
	for _, name := range []string{"steps", "new-families", "forecast", "signoff"} {
		assert.NotContains(t, gateNames(r), name)
	}
}

// A pilot without a flight, with one, with two: no gate panics, and no verdict
// says more than is known.
func TestReadinessOfFewFlights(t *testing.T) {
	r := ready(t, readyHead, "")
	assert.Empty(t, r.From)
	assert.Empty(t, r.To)
	assert.Nil(t, r.Ladder)
	assert.NotEqual(t, code.Ready, r.Verdict)
	assert.Equal(t, []code.Reason{code.NoFlight}, gate(r, "current").Reasons)
	for _, name := range []string{"threshold", "figure-floor", "zeros", "lows"} {
		assert.Equal(t, code.CannotTell, gate(r, name).State, name)
	}
	assert.Equal(t, []string{"flights", "threshold", "figure-floor", "zeros", "lows", "open-matters", "current"}, gateNames(r), "none that asks for a next step")
	for n := range 3 {
		r = ready(t, readyHead+readyFlights("2026-11-01", strings.Fields("7 8 7")[:n+1]...), "")
		assert.Equal(t, code.NotYet, r.Verdict, states(r))
		assert.Equal(t, code.NotMet, gate(r, "flights").State)
		assert.NotEqual(t, code.Met, gate(r, "forecast").State)
	}
	// Practice alone is no category.
	r = ready(t, readyHead+strings.Replace(readyFlights("2026-11-01", "7"), "known", "practice", 1), "")
	assert.Empty(t, r.From)
	assert.Equal(t, code.Met, gate(r, "current").State)
	r = ready(t, readyHead, "intermediate")
	assert.NotEqual(t, code.Ready, r.Verdict)
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
	assert.Equal(t, 200.0, number(gate(r, "flights"), code.Have))
	assert.Equal(t, code.Met, gate(r, "threshold").State)
}
