package words

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
)

// SayFlight completes an answer on a flight with its sentences: what would explain
// the official total.
func SayFlight(d answers.Flight) answers.Flight {
	if d.Official == nil {
		return d
	}
	official := *d.Official
	official.Explanations = slices.Clone(official.Explanations)
	for i, e := range official.Explanations {
		official.Explanations[i].Text = ExplanationText(d, e)
	}
	if supposing, ok := Supposing(d); ok {
		official.Supposed = SayFlight(supposing).Official
	}
	d.Official = &official
	return d
}

// Supposing is a flight as it would be held against its official total were the printed
// maximum alone a slip; false where that is not supposed.
func Supposing(d answers.Flight) (answers.Flight, bool) {
	if d.Official == nil || d.Official.Supposed == nil {
		return d, false
	}
	d.Official = d.Official.Supposed
	return d, true
}

// ExplanationText is an explanation as one plain sentence for the contest's
// office, without a full stop.
func ExplanationText(d answers.Flight, e answers.Explanation) string {
	if e.Kind == answers.ExplainedBySheet {
		return missingText(d)
	}
	text := explanationPhrase(d, e) + " " + printedText(d) + " as printed" + givesToo(d, e)
	but := "but"
	switch {
	case e.AgainstSum && !e.Unlikely:
		text += ", though the K as typed come to the printed sum"
	case e.AgainstSum:
		text += ", but is unlikely: the K as typed come to the printed sum"
		but = "and"
	case e.Unlikely:
		text += ", but is unlikely, far from what the other judges gave"
		but = "and"
	}
	if e.Contradicts {
		text += ", " + but + " does not give the judges' printed totals"
	}
	if len(e.Rulings) > 0 && !onlyRulings(e) {
		return "with " + assumedText(e.Rulings) + ", " + text
	}
	return text
}

// givesToo says what else that is printed another K gives: another maximum and, where the
// printed sum speaks against it, the judges' totals; "" for what is no K.
func givesToo(d answers.Flight, e answers.Explanation) string {
	var too []string
	if e.Kind == answers.ExplainedByK && maximaDiffer(d) && !isPercent(d.Official.Maximum) {
		too = append(too, "the printed maximum")
	}
	if e.AgainstSum && !e.Contradicts && len(d.Official.Judges) > 0 {
		too = append(too, "the judges' printed totals")
	}
	if len(too) == 0 {
		return ""
	}
	return ", with " + ListInWords(too)
}

// printedText is the official total as it is printed.
func printedText(d answers.Flight) string { return asPrinted(d, d.Official.Points) }

// asPrinted is a total with the decimals of the official one, a percent where that is one.
func asPrinted(d answers.Flight, total report.Number) string {
	text := total.Text(d.Official.Decimals)
	if maximaDiffer(d) && isPercent(d.Official.Maximum) {
		text += "%"
	}
	return text
}

// explanationPhrase says what is changed, up to the verb.
func explanationPhrase(d answers.Flight, e answers.Explanation) string {
	switch e.Kind {
	case answers.ExplainedByPenalty:
		return unknownPenaltyPhrase(e)
	case answers.ExplainedByZero:
		return "a hard zero confirmed for " + LineName(e.Line, e.Figure) + ", CHZ instead of HZ from " + AnyInWords(judgesOf(e.Cells)) + ", gives"
	case answers.ExplainedByFigure:
		return LineName(e.Line, e.Figure) + " left out of the sum, or counted as 0, gives"
	case answers.ExplainedByTotal:
		return totalPhrase(d, e)
	case answers.ExplainedByRows:
		return rowsPhrase(e)
	case answers.ExplainedByMark:
		return markPhrase(e, e.BroughtBack(d.Alone())) + " gives"
	case answers.ExplainedByMarks:
		return pairPhrase(e)
	case answers.ExplainedByK:
		return LineName(e.Line, e.Figure) + " counted with K " + strconv.Itoa(e.K) + " instead of " + strconv.Itoa(e.WasK) + " gives"
	case answers.ExplainedBySwapK:
		return fmt.Sprintf("the K of figures %d and %d swapped, %d and %d, gives", e.Figure, e.Second, e.K, e.WasK)
	case answers.ExplainedByJudge:
		return "the sheet of " + e.Judge + " left out of the mean gives"
	default:
		return rulesPhrase(d, e)
	}
}

// unknownPenaltyPhrase is "a penalty of 30, or of 15 once for each judge, that is
// not in the ledger gives".
func unknownPenaltyPhrase(e answers.Explanation) string {
	penalty := "a penalty of " + strconv.FormatInt(e.Points, 10)
	if e.PerJudge > 0 {
		penalty += ", or of " + strconv.FormatInt(e.PerJudge, 10) + " once for each judge,"
	}
	return penalty + " that is not in the ledger" + onSheets(e) + " gives"
}

// onSheets says that a penalty is deducted on the sheets; "" where the judges' printed totals
// do not say so.
func onSheets(e answers.Explanation) string {
	if !e.OnSheets {
		return ""
	}
	return ", deducted on every judge's sheet,"
}

// totalPhrase is "951.10, which the marks come to and the field has, with two digits
// swapped gives".
func totalPhrase(d answers.Flight, e answers.Explanation) string {
	total := asPrinted(d, e.Total) + ", which the marks come to"
	if e.InField {
		total += " and the field has"
	}
	if e.Mistyped == answers.MistypedDigit {
		return total + ", with one digit mistyped gives"
	}
	return total + ", with two digits swapped gives"
}

// rowsPhrase is "the rows of figures 3 and 4 swapped on the sheet of A or C give".
func rowsPhrase(e answers.Explanation) string {
	rows := fmt.Sprintf("the rows of figures %d and %d swapped on ", e.Figure, e.Cells[1].Figure)
	if e.AllSheets {
		return rows + "all sheets give"
	}
	return rows + "the sheet of " + AnyInWords(judgesOf(e.Cells)) + " give"
}

// rulesPhrase says how the rules, or something beside the marks, were counted.
func rulesPhrase(d answers.Flight, e answers.Explanation) string {
	switch {
	case onlyRulings(e):
		return assumedText(e.Rulings) + " give"
	case len(e.Without) > 0:
		return ListInWords(e.Without) + " left out " + PluralWord(len(e.Without), "gives", "give")
	case e.Deducted != "":
		return penaltyPhrase(d, e)
	default:
		return settingPhrase(e)
	}
}

// onlyRulings reports whether an explanation is the assumed rulings themselves.
func onlyRulings(e answers.Explanation) bool {
	return e.Kind == answers.ExplainedByRules && e.Setting == "" && len(e.Without) == 0 && e.Deducted == ""
}

func settingPhrase(e answers.Explanation) string {
	switch e.Setting + " " + e.Value {
	case answers.SettingFillRounding + " " + answers.Unrounded:
		return "filled marks unrounded give"
	case answers.SettingHardZero + " " + answers.Majority:
		return "hard zeros decided by the majority of the panel give"
	case answers.SettingHardZero + " " + answers.AsGiven:
		return "each hard zero counted as given gives"
	case answers.SettingHalf + " " + answers.HalfZero:
		return "a figure with a hard zero from exactly half of the panel counted as 0 gives"
	case answers.SettingHalf + " " + answers.HalfFill:
		return "hard zeros from exactly half of the panel filled give"
	case answers.SettingDropExtremes + " " + answers.DropNo:
		return "no mark dropped gives"
	case answers.SettingDropExtremes + " " + answers.DropYes:
		return "the highest and the lowest mark of each line dropped give"
	default:
		return "filled marks rounded to " + e.Value + " give"
	}
}

// penaltyPhrase is "the penalty of 20 not deducted gives".
func penaltyPhrase(d answers.Flight, e answers.Explanation) string {
	name, verb := "the penalty", "gives"
	switch {
	case e.Penalty > 0:
		penalty := d.Penalties[e.Penalty-1]
		name += " of " + penalty.Points.Text(penalty.Decimals)
	case len(d.Penalties) > 1:
		name, verb = "the penalties", "give"
	}
	way := "divided by the number of judges"
	switch e.Deducted {
	case answers.DeductedNot:
		way = "not deducted"
	case answers.DeductedTwice:
		way = "deducted twice"
	case answers.DeductedByJudge:
		way = "deducted " + strconv.Itoa(len(d.Panel)) + " times, once for each judge,"
	}
	if e.OnSheets {
		way = strings.TrimSuffix(way, ",") + ", once on every judge's sheet,"
	}
	return name + " " + way + " " + verb
}

// assumedText is "figure 2 at 0 and figure 5 filled".
func assumedText(rulings []answers.AssumedRuling) string {
	parts := make([]string, len(rulings))
	for i, r := range rulings {
		parts[i] = LineName(r.Line, r.Figure) + " filled"
		if r.Ruling == answers.RuledZero {
			parts[i] = LineName(r.Line, r.Figure) + " at 0"
		}
	}
	return ListInWords(parts)
}

// missingText says what the missing sheets must have come to, or why that cannot
// be said.
func missingText(d answers.Flight) string {
	m := d.Official.MissingSheets
	sheets := "the sheets of " + ListInWords(d.Missing) + " together"
	if len(d.Missing) == 1 {
		sheets = "the sheet of " + d.Missing[0]
	}
	if m.Reason != "" {
		return "what " + sheets + " must have come to cannot be said: " + unknownText(m.Reason)
	}
	about, after := "", ""
	switch {
	case m.Outside:
		after = ", which lies outside 0 to " + m.Most.Text(0)
	case m.Uneven:
		after = ", which is no multiple of one half: a filled mark on it, or a slip elsewhere"
	}
	if m.Rough {
		about, after = "about ", after+" (marks were filled without it)"
	}
	return sheets + " must have come to " + about + d.Official.MissingTotal.Text(PointDecimals) + ", give or take " +
		shortest(m.Within, d.Official.Decimals+1) + ", for " + printedText(d) + " as printed" + after
}

func unknownText(reason string) string {
	switch reason {
	case answers.UnknownMaximum:
		return "the maximum is another"
	case answers.UnknownUndecided:
		return "a line is undecided"
	case answers.UnknownExtremes:
		return "extremes are dropped"
	default:
		return "a total of 0 may hide a larger penalty"
	}
}

// shortest is a number with at most that many decimals, zeros at the end left
// out; at least one decimal is asked for.
func shortest(n report.Number, decimals int) string {
	return strings.TrimSuffix(strings.TrimRight(n.Text(decimals), "0"), ".")
}
