package words

import (
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
		asked: g.asked("one by somebody else after the last low penalty"), wants: "one, from somebody other than the pilot", lacks: "a coach's sign-off",
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
