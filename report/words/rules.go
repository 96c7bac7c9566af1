package words

import (
	"fmt"

	"boxbook/report/answers"
)

// RulesTitle names the rule style: "Rule style panel-mean:".
func RulesTitle(d answers.Flight) string {
	if d.RulesDefault {
		return fmt.Sprintf("Rule style %s (nobody named one, so this is the default):", d.Style.Name)
	}
	return fmt.Sprintf("Rule style %s:", d.Style.Name)
}

// RulesFoot says what a rule style is worth.
const RulesFoot = "The rules in force at the contest decide; a rule style only says how this ledger counts."

// RulesText says in words how a rule style counts marks, on a panel of so many
// judges.
func RulesText(s answers.RuleStyle, judges int) []string {
	return []string{
		hardZeroText(s),
		halfText(s),
		"a confirmed hard zero (CHZ) makes the figure 0 from every judge, one in a row is enough",
		"a perception zero (PZ) and a grade of 0.0 are ordinary zeros in the mean",
		fillText(s),
		dropText(s, judges),
		"points are K times the mean of the marks that count, summed, less penalties, never below 0; percent is of 10 times the sum of K, positioning and harmony included",
	}
}

func hardZeroText(s answers.RuleStyle) string {
	if s.HardZero == answers.AsGiven {
		return "a hard zero (HZ) counts as a 0 on its own sheet, whatever the other judges saw"
	}
	return "a hard zero (HZ) from more than half of the judges who gave a mark makes the figure 0 from every judge; from fewer it is filled like AV"
}

func halfText(s answers.RuleStyle) string {
	switch {
	case s.HardZero == answers.AsGiven:
		return "a hard zero from exactly half of the judges is counted as given, like any other"
	case s.Half == answers.HalfZero:
		return "a hard zero from exactly half of them makes the figure 0"
	case s.Half == answers.HalfFill:
		return "a hard zero from exactly half of them is filled"
	default:
		return "a hard zero from exactly half of them leaves the figure undecided until a `resolve` line records the chief judge's ruling"
	}
}

func fillText(s answers.RuleStyle) string {
	text := "a missing mark (AV or -) is filled with the mean of the other marks of the row, "
	if s.FillRounding == answers.Unrounded {
		return text + "unrounded"
	}
	return text + "rounded half up to " + s.FillRounding
}

func dropText(s answers.RuleStyle, judges int) string {
	switch {
	case !s.DropExtremes:
		return "no mark is left out of the mean"
	case judges >= s.DropPanel:
		return fmt.Sprintf("one highest and one lowest mark of each line is left out of the mean, on this panel of %d; a judge's own total still counts all", judges)
	default:
		return fmt.Sprintf("one highest and one lowest mark of each line would be left out of the mean with %d judges or more; this panel has %d, so none is", s.DropPanel, judges)
	}
}
