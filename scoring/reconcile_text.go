package scoring

import (
	"math/big"
	"strconv"
	"strings"
)

// judge names a column of the sheet.
func (p Printed) judge(j int) string {
	if j < len(p.Judges) {
		return p.Judges[j]
	}
	return "judge " + strconv.Itoa(j+1)
}

// number gives the figure number of a line, 0 for a weighted one.
func (p Printed) number(lines []Line, at int) int {
	if lines[at].Kind != Figure {
		return 0
	}
	figures := 0
	for _, line := range lines[:at] {
		if line.Kind == Figure {
			figures++
		}
	}
	if figures < len(p.Numbers) {
		return p.Numbers[figures]
	}
	return figures + 1
}

// lineName names a line as in "figure 4" or "positioning".
func (p Printed) lineName(lines []Line, at int) string {
	switch lines[at].Kind {
	case Positioning:
		return "positioning"
	case Harmony:
		return "harmony"
	default:
		return "figure " + strconv.Itoa(p.number(lines, at))
	}
}

// explanation puts a candidate into words.
func (c candidate) explanation(sheet Sheet, printed Printed) Explanation {
	e := Explanation{
		Kind: c.kind, Step: c.step, Last: c.last, K: c.k, Style: c.style, Without: c.without, Penalty: c.penalty,
		Rulings: c.rulings, Contradicts: c.contradicts,
	}
	switch c.kind {
	case KindMark, KindMarks, KindK:
		e.Line, e.Figure = sheet.Lines[c.line].Kind, printed.number(sheet.Lines, c.line)
	case KindJudge:
		e.Judge = printed.judge(c.judge)
	}
	for _, cell := range c.cells {
		e.Cells = append(e.Cells, CellChange{
			Judge: printed.judge(cell.judge), Line: sheet.Lines[cell.line].Kind, Figure: printed.number(sheet.Lines, cell.line),
			Was: cell.was, Would: cell.would,
		})
	}
	e.Text = c.phrase(sheet, printed) + " " + printed.Points.String() + " as printed"
	if c.rulings != nil && !c.onlyRulings() {
		e.Text = "with " + rulingWords(c.rulings, sheet, printed) + ", " + e.Text
	}
	return e
}

// phrase says what is changed, up to the verb.
func (c candidate) phrase(sheet Sheet, printed Printed) string {
	switch c.kind {
	case KindMark:
		return c.markPhrase(sheet, printed) + ", gives"
	case KindMarks:
		return c.pairPhrase(sheet, printed)
	case KindK:
		return printed.lineName(sheet.Lines, c.line) + " counted with K " + strconv.Itoa(c.k) + " instead of " +
			strconv.Itoa(sheet.Lines[c.line].K) + " gives"
	case KindJudge:
		return "the sheet of " + printed.judge(c.judge) + " left out of the mean gives"
	default:
		if c.onlyRulings() {
			return rulingWords(c.rulings, sheet, printed) + " give"
		}
		return c.words
	}
}

// onlyRulings reports whether a candidate is the rulings themselves.
func (c candidate) onlyRulings() bool { return c.kind == KindRules && c.words == "" }

// markPhrase is "figure 4, half a point higher from A, C or D" or "figure 4,
// HZ instead of 7.0 from B".
func (c candidate) markPhrase(sheet Sheet, printed Printed) string {
	name, judges := printed.lineName(sheet.Lines, c.line), printed.judges(c.cells)
	was, would := c.cells[0].was.String(), []Mark{}
	for _, cell := range c.cells {
		if cell.was.String() != was {
			was = "the grade"
		}
		if cell.judge == c.cells[0].judge {
			would = append(would, cell.would)
		}
	}
	if c.step == 0 {
		return name + ", " + markWords(would) + " instead of " + was + " from " + list(judges, "or")
	}
	text := name + ", " + stepsWords(c.step, c.last, would) + " from " + list(judges, "or")
	if len(judges) == 1 {
		text += " (" + markWords(would) + " instead of " + was + ")"
	}
	return text
}

// markWords lists marks, a run of grades as "5.0 to 6.5" and one that ends at
// 0.0 or 10.0 as "5.0 or lower".
func markWords(marks []Mark) string {
	var lowest, highest Mark
	grades, others := 0, []Mark{}
	for _, m := range marks {
		switch {
		case m.Kind != Grade:
			others = append(others, m)
			continue
		case grades == 0:
			lowest = m
		}
		highest = m
		grades++
	}
	switch {
	case grades < 2:
		return names(marks)
	case lowest.Half == 0: // a perception zero is said with it
		return highest.String() + " or lower"
	case highest.Half == TopGrade:
		return lowest.String() + " or higher"
	default:
		return lowest.String() + " to " + highest.String() + names(others)
	}
}

// stepsWords is "one point lower", "at least one point lower" or "1 to 2.5
// points lower".
func stepsWords(step, last int, would []Mark) string {
	if step == last {
		return stepWords(step)
	}
	for _, m := range would {
		if m.Kind == Grade && (m.Half == 0 || m.Half == TopGrade) {
			return "at least " + stepWords(step)
		}
	}
	near := max(step, -step)
	return strings.TrimSuffix(GradeOf(near).String(), ".0") + " to " + stepWords(last)
}

// pairPhrase says which two marks move by half a point.
func (c candidate) pairPhrase(sheet Sheet, printed Printed) string {
	name := printed.lineName(sheet.Lines, c.line)
	second := c.partner()
	if c.line != c.second {
		at := 0
		for c.cells[at].line == c.line {
			at++
		}
		return name + ", " + stepWords(c.step) + " from " + printed.anyOf(c.cells[:at]) + ", and " +
			printed.lineName(sheet.Lines, c.second) + ", " + stepWords(stepOf(second)) + " from " + printed.anyOf(c.cells[at:]) + ", together give"
	}
	first := printed.judge(c.cells[0].judge)
	switch {
	case len(c.cells) > 2:
		return name + ", " + stepWords(c.step) + " from any two of " + list(printed.judges(c.cells), "and") + ", gives"
	case c.step == stepOf(second):
		return name + ", " + stepWords(c.step) + " from both " + first + " and " + printed.judge(second.judge) + ", gives"
	default:
		return name + ", " + stepWords(c.step) + " from " + first + " and " + stepWords(stepOf(second)) + " from " +
			printed.judge(second.judge) + ", gives"
	}
}

// rulingWords is "figure 2 at 0 and figure 5 filled".
func rulingWords(rulings []Decision, sheet Sheet, printed Printed) string {
	var parts []string
	for i, ruling := range rulings {
		switch ruling {
		case RuledZero:
			parts = append(parts, printed.lineName(sheet.Lines, i)+" at 0")
		case RuledFill:
			parts = append(parts, printed.lineName(sheet.Lines, i)+" filled")
		}
	}
	return list(parts, "and")
}

// stepWords is "half a point higher" or "1.5 points lower".
func stepWords(step int) string {
	direction, size := "higher", step
	if step < 0 {
		direction, size = "lower", -step
	}
	switch size {
	case 1:
		return "half a point " + direction
	case 2:
		return "one point " + direction
	}
	points := strings.TrimSuffix(GradeOf(size).String(), ".0")
	return points + " points " + direction
}

// judges names the judges of some cells, each once.
func (p Printed) judges(cells []cellChange) []string {
	var out []string
	last := -1
	for _, cell := range cells {
		if cell.judge != last {
			out = append(out, p.judge(cell.judge))
			last = cell.judge
		}
	}
	return out
}

func (p Printed) anyOf(cells []cellChange) string { return list(p.judges(cells), "or") }

// list joins words as "A, C or D".
func list(words []string, last string) string {
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " " + last + " " + words[n-1]
	}
	return strings.Join(words, "")
}

// missingText says what the missing sheets must have come to.
func (r *Reconciliation) missingText(score Score, printed Printed, slack *big.Rat) string {
	about, within := "", slack.FloatString(printed.Points.Places+1)
	if r.MissingRough {
		about = "about "
	}
	text := sheetWords(printed) + " must have come to " + about + r.MissingTotal.FloatString(2) + ", give or take " +
		strings.TrimSuffix(strings.TrimRight(within, "0"), ".") + ", for " + printed.Points.String() + " as printed"
	most := big.NewInt(int64(score.Maximum) * int64(len(printed.Missing)))
	switch {
	case r.MissingOutside:
		text += ", which lies outside 0 to " + most.String()
	case r.MissingUneven:
		text += ", which is no multiple of one half: a filled mark on it, or a slip elsewhere"
	}
	if r.MissingRough {
		text += " (marks were filled without it)"
	}
	return text
}

// missingUnknown says why nothing can be said of the missing sheets.
func missingUnknown(printed Printed, why string) string {
	return "what " + sheetWords(printed) + " must have come to cannot be said: " + why
}

func sheetWords(printed Printed) string {
	if len(printed.Missing) == 1 {
		return "the sheet of " + printed.Missing[0]
	}
	return "the sheets of " + list(printed.Missing, "and") + " together"
}
