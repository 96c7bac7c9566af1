package words

import (
	"fmt"
	"strings"

	"boxbook/season/analysis/code"
)

// sayLevel says how many results reached the mark, and how the share of flights
// that would lies to the one asked for.
func sayLevel(g gateFacts) gateSaid {
	_, typed := g.set("threshold", 0)
	want, _ := g.set("share", 0)
	mark := typed + " %"
	said := gateSaid{
		evidence: fmt.Sprintf("%d of %d results reached %s", g.count(code.Have), g.count(code.Results), mark),
		asked:    g.asked(mark+" or more", "in at least "+percentWords(want)+" of flights"),
		brief:    fmt.Sprintf("%d of %d flights at %s or up", g.count(code.Have), g.count(code.Results), mark),
		wants:    fmt.Sprintf("%s in %s, surely", mark, percentWords(want)),
		lacks:    fmt.Sprintf("a level surely at %s in %s of flights", mark, percentWords(want)),
	}
	if count := g.fact(code.ResultsShare); count.Low.Known() {
		said.evidence += fmt.Sprintf(" (between %s and %s)", share(count.Low.Float64()), share(count.High.Float64()))
	}
	span := g.fact(code.LongRun)
	if !span.Low.Known() {
		return sayNoLevel(g, said)
	}
	lies := between(span.Low, span.High, want)
	evidence, against := g.nextFlight(mark, "the long-run share "+lies)
	said.evidence += "; " + evidence
	said.against = against
	if g.State != code.Met {
		long := fmt.Sprintf("the long-run share of flights at %s or more %s, and %s is asked", mark, lies, percentWords(want))
		said.against = strings.TrimSuffix(long+"; "+against, "; ")
	}
	switch g.State {
	case code.NotMet:
		said.needs = fmt.Sprintf("a mean that leaves %s behind: the share above it is below %s", mark, percentWords(want))
	case code.CannotTell:
		said.needs = fmt.Sprintf("a long-run share surely above %s: more flights, or a mean further above %s", percentWords(want), mark)
	}
	return said
}

// sayNoLevel says why no share can be told.
func sayNoLevel(g gateFacts, said gateSaid) gateSaid {
	if g.because(code.FewContests) {
		said.evidence += "; " + Counted(g.count(code.Contests), "contest is", "contests are") + " too few to tell"
		said.needs = "flights at " + NumberWord(g.count(code.LeastContests)) + " contests at the least"
		return said
	}
	said.evidence += "; the same score each time, which allows no forecast"
	said.needs = "more flights"
	return said
}

// nextFlight says what is expected of the next flight, beside the long run, and
// what of it speaks against.
func (g gateFacts) nextFlight(mark, longRun string) (evidence, against string) {
	switch {
	case g.because(code.Improving):
		return "improving: " + g.alongTheLine(mark) + "; " + longRun + " over the whole window, from before the rise, and the gate goes by that", ""
	case g.because(code.Declining):
		against = "declining: " + g.alongTheLine(mark)
		return against + "; " + longRun + " over the whole window, from before the fall, and the gate goes by that", against
	default:
		return fmt.Sprintf("the next one does with about %s, %s", share(g.fact(code.NextReaches).Number.Float64()), longRun), ""
	}
}

// alongTheLine says where the line through the flights leads.
func (g gateFacts) alongTheLine(mark string) string {
	switch {
	case g.because(code.TooLongAfter):
		return g.ready.AsOf + " is too long after the last flight to foresee the next one"
	case g.because(code.NoLine):
		return "no line can be drawn to foresee the next one"
	case g.because(code.OtherWay):
		return "so within each sequence, while the line through all of them goes the other way, and the next one is not foreseen"
	}
	next := g.fact(code.NextPercent)
	said := fmt.Sprintf("by the line through them the next one, on %s, comes to %s %% (%s range %s to %s)",
		next.On, next.Number.Text(1), Confidence(next.Confidence), next.Low.Text(1), next.High.Text(1))
	if p := g.fact(code.NextReaches).Number; p.Known() {
		said += fmt.Sprintf(" and reaches %s with about %s", mark, share(p.Float64()))
	}
	if gap := g.fact(code.Gap).Number; gap.Known() {
		said += fmt.Sprintf("; the line is drawn across a gap of %s days without a contest flight at %s", gap.Text(0), g.ready.From)
	}
	return said
}
