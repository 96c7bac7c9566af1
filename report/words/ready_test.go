package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season/analysis/code"
)

// Ready is said of the record, and of nothing else; the headline names what is
// missing, what cannot be told, what has no part in it and what is not asked.
func TestReadySentence(t *testing.T) {
	gates := []answers.Gate{{Gate: "flights", State: code.Met, Counts: true}, {Gate: "zeros", State: code.Met, Counts: true}}
	d := answers.Ready{Name: "Ines Halloran", From: "sportsman", To: "intermediate", Verdict: code.Ready, Gates: gates}
	assert.Equal(t, "By the ledger, ready for intermediate: all 2 gates that count are met.", words.ReadySentence(d))
	d.Gates = append(d.Gates, answers.Gate{Gate: "forecast", State: code.CannotTell})
	assert.Equal(t, "By the ledger, ready for intermediate: all 2 gates that count are met. Left out of the verdict: the forecast, since no panel has graded Ines Halloran at intermediate.", words.ReadySentence(d))
	d.Gates = append(d.Gates[:2:2], answers.Gate{Gate: "lows", State: code.CannotTell, Counts: true, Lacks: "six flights"})
	d.Verdict, d.Off = code.CannotTell, []string{"zeros", "current"}
	assert.Equal(t, "Cannot tell yet: low penalties. Not needed under this policy: zeros, recency.", words.ReadySentence(d))
	signed := answers.Gate{Gate: "signoff", State: code.Met, Counts: true, Numbers: map[code.Fact][]answers.Number{code.SignedOff: {{Name: "Marek", On: "2026-10-01", Text: "dual only"}, {Name: "Rolf", On: "2026-09-01"}}}}
	d.Gates = append(d.Gates, answers.Gate{Gate: "current", State: code.NotMet, Counts: true, Lacks: "a flight"}, signed)
	d.Verdict, d.Off = code.NotYet, nil
	assert.Equal(t, `Not yet. Missing: a flight. Cannot tell yet: low penalties. Signed off by Marek, 2026-10-01: "dual only".`, words.ReadySentence(d))
}

// The headline tells everything that is missing as a thing to obtain, never a fault
// as one.
func TestReadySentenceTellsAllThatIsMissing(t *testing.T) {
	d := answers.Ready{Name: "Ines", From: "sportsman", To: "intermediate", Verdict: code.NotYet}
	for _, gate := range []string{"flights", "zeros", "lows", "unknowns", "current"} {
		d.Gates = append(d.Gates, answers.Gate{Gate: gate, State: code.NotMet, Counts: true, Lacks: "what " + gate + " lacks"})
	}
	assert.Equal(t, "Not yet. Missing: what flights lacks; what zeros lacks; what lows lacks; what unknowns lacks; what current lacks.", words.ReadySentence(d))
	d = ready(t, allMet()+shortPolicy("current 10"), "")
	assert.Equal(t, "a flight within 10 days", gateOf(words.SayReady(d), "current").Lacks)
}

// What is not met comes first, then what cannot be told; of what is met, gates
// with nothing to say are told in one row.
func TestReadyOrder(t *testing.T) {
	d := ready(t, allMet()+shortPolicy("zeros 0 in 9"), "")
	var order []string
	rows, folded := words.Folded(d)
	for _, g := range rows {
		order = append(order, words.GateTitle(g.Gate))
	}
	assert.Equal(t, []string{"zeros", "sign-off", "forecast", "new families", "level", "figures"}, order)
	assert.Equal(t, []string{"6 contest flights at sportsman", "no low penalties in the last 6 flights", "no step skipped", "no open matter noted", "last flown 22 days ago"}, folded)
}

// The column of what is asked is the house's, or says of each gate whose it is.
func TestGateWants(t *testing.T) {
	d := ready(t, allMet(), "")
	assert.Equal(t, "needed by house default", words.WantsTitle(d))
	assert.Equal(t, "at most 60 days", words.GateWants(d, gateOf(d, "current")))
	d = ready(t, allMet()+shortPolicy("current 90"), "")
	assert.Equal(t, "needed", words.WantsTitle(d))
	assert.Equal(t, "at most 90 days (set in the ledger)", words.GateWants(d, gateOf(d, "current")))
	assert.Equal(t, "none in 4 flights (house default)", words.GateWants(d, gateOf(d, "zeros")))
}

// Forecasts that held as often as they should speak against nothing.
func TestReadyAgainst(t *testing.T) {
	d := answers.Ready{Name: "Ines", To: "advanced", Past: &answers.Past{Inside: 7, Below: 4, Of: 11, OftenBelow: true, BelowExpected: report.Float(1.1)}}
	assert.Equal(t, "Against: 4 of 11 flights came out below what was forecast, more than chance gives in one pilot of twenty (about 1.1 expected).", words.AgainstLine(d))
	d.Past = &answers.Past{Inside: 7, Above: 3, Below: 1, Of: 11}
	assert.Empty(t, words.AgainstLine(d), "chance gives as much")
	d.Gates = []answers.Gate{{Gate: "forecast", Reasons: []code.Reason{code.NeverFlown}, State: code.CannotTell, SpeaksAgainst: true, Settings: []answers.Setting{{Key: "forecast"}}}}
	assert.Equal(t, []string{"no contest panel has graded Ines at advanced"}, words.SayReady(d).Against[1:])
}

// A shipped floor is said to be from where its mark has it from; an own ladder's is
// nobody else's figure.
func TestFloorNote(t *testing.T) {
	d := answers.Ready{To: "intermediate", Ladder: "us", Floor: &answers.Floor{Height: 1200, Unit: "ft"}}
	assert.Contains(t, words.FloorNote(d), "published pages")
	for _, recalled := range []struct{ ladder, to string }{{"uk", "advanced"}, {"uk", "unlimited"}, {"fai", "unlimited"}} {
		said := words.FloorNote(answers.Ready{To: recalled.to, Ladder: recalled.ladder, Floor: &answers.Floor{Height: 100, Unit: "m"}})
		assert.Contains(t, said, "100 m; a figure from memory and seen in no source, the rules in force decide", recalled)
	}
	assert.Contains(t, words.FloorNote(answers.Ready{To: "sports", Ladder: "uk", Floor: &answers.Floor{Height: 1000, Unit: "ft"}}), "published pages")
	d.OwnLadder = true
	assert.Equal(t, "floor of intermediate in ladder us, as this ledger has it: 1200 ft; a figure of its own, the rules in force decide", words.FloorNote(d))
}
