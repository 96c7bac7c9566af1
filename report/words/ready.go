package words

import (
	"cmp"
	"fmt"

	"boxbook/report/answers"
	"boxbook/season/analysis/code"
)

// Headings of a readiness page.
const (
	GatesHeading   = "Gates"
	AgainstHeading = "What speaks against"
)

// SayReady fills the sentences of an answer: what the gates rest on, ask and
// need, and what stands against.
func SayReady(d answers.Ready) answers.Ready {
	gates := make([]answers.Gate, len(d.Gates))
	d.Against = []string{}
	for i, g := range d.Gates {
		said := sayGate(d, g)
		g.Evidence, g.Asked, g.Needs = said.evidence, said.asked, said.needs
		gates[i] = g
		if g.SpeaksAgainst {
			d.Against = append(d.Against, fmt.Sprintf("%s, %s: %s", GateTitle(g.Gate), g.State, cmp.Or(said.against, said.evidence)))
		}
	}
	d.Gates = gates
	return d
}

// ReadySubtitle says by whose values the page judges.
func ReadySubtitle(d answers.Ready) string {
	return fmt.Sprintf("policy %s; no rule book has its values", d.Policy)
}

// ReadySentence is the verdict, with what stands behind it.
func ReadySentence(d answers.Ready) string {
	counts, verdict := gateCounts(d), Sentence(string(d.Verdict))
	switch {
	case d.From == "":
		return verdict + ": no contest flight with a category in the ledger."
	case d.Last:
		return verdict + ": " + d.From + " is the last category of ladder " + d.Ladder + ", with none above it. " + Sentence(counts) + "."
	case d.To == "":
		return verdict + ": no category above " + d.From + " is known; name one with --to. " + Sentence(counts) + "."
	case d.Verdict == code.Ready:
		return fmt.Sprintf("By this record, ready for %s: %s.", d.To, counts)
	default:
		return fmt.Sprintf("%s: %s.", verdict, counts)
	}
}

// gateCounts says how many gates stand how.
func gateCounts(d answers.Ready) string {
	met, not, open := 0, 0, 0
	for _, g := range d.Gates {
		switch g.State {
		case code.Met:
			met++
		case code.NotMet:
			not++
		default:
			open++
		}
	}
	return fmt.Sprintf("%d of %d gates met, %d not met, %d cannot be told", met, len(d.Gates), not, open)
}

// NeedsHeading stands over what would change the gates.
func NeedsHeading(d answers.Ready) string {
	if d.To == "" {
		return "What would change a gate"
	}
	return "What would change it"
}

// FloorNote says how low the category asked about flies; "" where that is not
// known.
func FloorNote(d answers.Ready) string {
	if d.Floor == nil {
		return ""
	}
	return fmt.Sprintf("floor of %s in ladder %s: %d %s; figures from published pages of various years, the rules in force decide",
		d.To, d.Ladder, d.Floor.Height, d.Floor.Unit)
}

// GateLine is a gate's state, what it rests on and what it asks.
func GateLine(g answers.Gate) string { return string(g.State) + ": " + GateEvidence(g) }

// GateEvidence is what a gate rests on and what it asks.
func GateEvidence(g answers.Gate) string { return g.Evidence + "; asked: " + g.Asked }
