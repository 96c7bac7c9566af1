package words

import (
	"cmp"
	"fmt"
	"strings"

	"boxbook/report/answers"
	"boxbook/season/analysis/code"
)

// saySignoff says every sign-off that counts with its remark, a condition of it,
// or why those that there are do not.
func saySignoff(g gateFacts) gateSaid {
	to := g.ready.To
	said := gateSaid{
		asked: g.asked("one by somebody else after the last low penalty"), wants: "one, by another", lacks: "a coach's sign-off for " + to,
	}
	if signed := g.Numbers[code.SignedOff]; len(signed) > 0 {
		all := make([]string, len(signed))
		for i, so := range signed {
			all[i] = signedBy(so)
		}
		said.evidence = "signed off " + strings.Join(all, "; ")
		said.brief = strings.Join(all, "; ")
		return said
	}
	idle := g.idleSignoffs()
	said.evidence = "no sign-off for " + to + after(strings.Join(idle, "; "))
	said.brief = "none for " + to + after(strings.Join(idle, "; "))
	said.needs = "a `signoff` line for " + to + " by a coach"
	if low := g.fact(code.LowPenalty); low.On != "" {
		said.needs += " after " + low.On
	}
	return said
}

// signedBy says a sign-off: by whom, when, on what condition.
func signedBy(so answers.Number) string {
	text := "by " + so.Name + ", " + so.On
	if so.Text != "" {
		text += ": " + Quoted(so.Text)
	}
	return text
}

// Quoted puts somebody's words in quotes.
func Quoted(text string) string { return "\"" + text + "\"" }

// idleSignoffs say which sign-offs do not count, and why.
func (g gateFacts) idleSignoffs() []string {
	var said []string
	if so := g.fact(code.SignedBefore); so.On != "" {
		said = append(said, fmt.Sprintf("the one %s is not after the low penalty of %s", signedBy(so), g.fact(code.LowPenalty).On))
	}
	if so := g.fact(code.SignedLongAgo); so.On != "" {
		said = append(said, fmt.Sprintf("the one %s is older than the window", signedBy(so)))
	}
	if so := g.fact(code.SignedBySelf); so.On != "" {
		said = append(said, "the one of "+so.On+" is the pilot's own")
	}
	if so := g.fact(code.SignedElsewhere); so.On != "" {
		said = append(said, "the one of "+so.On+" is for "+so.Name)
	}
	return said
}

// saySteps says which steps of the ladder would be skipped.
func saySteps(g gateFacts) gateSaid {
	from, to := g.ready.From, g.ready.To
	said := gateSaid{asked: g.asked("the next step"), wants: "the next step", folded: "no step skipped"}
	skipped := namesOf(g.Numbers[code.Skipped])
	switch {
	case g.because(code.NoStep):
		said.evidence = "no ladder is known that has " + to
		if ladder := g.ready.Ladder; ladder != "" {
			said.evidence = fmt.Sprintf("ladder %s does not say how %s follows on %s", ladder, to, cmp.Or(from, "what was flown"))
		}
		said.needs = "a ladder that has the steps up to " + to
		said.lacks = said.needs
	case len(skipped) > 0:
		said.evidence = "skips " + ListInWords(skipped)
		said.needs = "--to " + skipped[0]
		said.lacks = ListInWords(skipped) + ", skipped on the way"
	case g.State != code.Met:
		said.evidence = to + " is no step above " + from
		said.lacks = "a step above " + from
	default:
		said.evidence = to + " is the next step"
	}
	return said
}
