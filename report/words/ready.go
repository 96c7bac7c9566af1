package words

import (
	"fmt"

	"boxbook/report/answers"
	"boxbook/season/analysis"
)

// ReadySentence is the verdict, with what stands behind it.
func ReadySentence(d answers.Ready) string {
	met, not, open := 0, 0, 0
	for _, g := range d.Gates {
		switch analysis.GateState(g.State) {
		case analysis.Met:
			met++
		case analysis.NotMet:
			not++
		default:
			open++
		}
	}
	counts := fmt.Sprintf("%d of %d gates met, %d not met, %d cannot be told", met, len(d.Gates), not, open)
	switch {
	case d.From == "":
		return Sentence(d.Verdict) + ": no contest flight with a category in the ledger."
	case d.Last:
		return Sentence(d.Verdict) + ": " + d.From + " is the last category of ladder " + d.Ladder + ", with none above it. " + Sentence(counts) + "."
	case d.To == "":
		return Sentence(d.Verdict) + ": no category above " + d.From + " is known; name one with --to. " + Sentence(counts) + "."
	case d.Verdict == string(analysis.Ready):
		return fmt.Sprintf("By this record, ready for %s: %s.", d.To, counts)
	default:
		return fmt.Sprintf("%s: %s.", Sentence(d.Verdict), counts)
	}
}

// ReadySubtitle says what the verdict goes by.
func ReadySubtitle(d answers.Ready) string {
	return fmt.Sprintf("policy %s; no rule book has its values", d.Policy)
}

// NeedsHeading heads what would change the verdict, or a gate where there is
// nothing to move up to.
func NeedsHeading(d answers.Ready) string {
	if d.To == "" {
		return "What would change a gate"
	}
	return "What would change it"
}

// FloorNote says the least height of the category, "" where none is known.
func FloorNote(d answers.Ready) string {
	if d.Floor == nil {
		return ""
	}
	return fmt.Sprintf("floor of %s in ladder %s: %d %s; figures from published pages of various years, the rules in force decide",
		d.To, d.Ladder, d.Floor.Height, d.Floor.Unit)
}

// Headings of a readiness page.
const (
	GatesHeading   = "Gates"
	AgainstHeading = "What speaks against"
)
