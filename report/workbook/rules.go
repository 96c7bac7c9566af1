package workbook

import (
	"fmt"

	"boxbook/report/answers"
	"boxbook/report/workbook/xlsx"
)

// styleRow is a rule style as the sheet Rules shows it.
type styleRow struct {
	answers.RuleStyle
	name string
}

// styleList is every rule style of the ledger; a coach can give a flight
// another one.
type styleList struct {
	rows  []styleRow
	names map[string]string // by the style's own
}

func newStyleList(styles []answers.RuleStyle) styleList {
	list := styleList{names: map[string]string{}}
	taken := namesTaken{}
	for _, s := range styles {
		name := taken.add(s.Name)
		list.names[s.Name] = name
		list.rows = append(list.rows, styleRow{s, name})
	}
	return list
}

// of names a flight's rule style.
func (l styleList) of(f answers.Flight) string {
	if f.Style == nil {
		return l.names[answers.StyleOf(nil).Name]
	}
	return l.names[f.Style.Name]
}

// roundingWord is a rounding as a text, so that no program's decimal comma stands
// in its way.
func roundingWord(s answers.RuleStyle) string {
	if s.FillRounding == answers.Unrounded {
		return s.FillRounding
	}
	return "to " + s.FillRounding
}

func dropWord(s answers.RuleStyle) string {
	if s.DropExtremes {
		return "yes"
	}
	return "no"
}

// styleColumns are the columns of the table of rule styles.
func styleColumns(c *content) []xlsx.Column[styleRow] {
	return []xlsx.Column[styleRow]{
		{Key: "rules", Title: "rules", Width: 24, Look: xlsx.LookText, Value: func(s styleRow) xlsx.Value { return xlsx.Text(s.name) }},
		{Key: "hard-zero", Title: "hard zero", Width: 14, Look: xlsx.LookText, Value: func(s styleRow) xlsx.Value { return xlsx.Text(s.HardZero) }},
		{Key: "half", Title: "exactly half", Width: 14, Look: xlsx.LookText, Value: func(s styleRow) xlsx.Value { return xlsx.Text(s.Half) }},
		{Key: "rounding", Title: "fill rounding", Width: 14, Look: xlsx.LookText, Value: func(s styleRow) xlsx.Value { return xlsx.Text(roundingWord(s.RuleStyle)) }},
		{Key: "drop", Title: "drop extremes", Width: 15, Look: xlsx.LookText, Value: func(s styleRow) xlsx.Value { return xlsx.Text(dropWord(s.RuleStyle)) }},
		{
			Key: "used", Title: "flights here", Width: 13, Look: xlsx.LookInteger.Live(),
			Formula: `SUMPRODUCT(--({Flights.rules}={rules}))`,
			Value:   func(s styleRow) xlsx.Value { return xlsx.Integer(c.flightsUnder(s.name)) },
		},
	}
}

// term is a word and what it means.
type term struct{ word, meaning string }

var markTerms = []term{
	{"0.0 to 10.0", "grade in half points; 0.0 is the right figure with ten or more points of faults"},
	{"HZ", "hard zero: a matter of fact; what it does depends on the panel and the rules"},
	{"CHZ", "hard zero confirmed by the chief judge: the figure is zero from every judge"},
	{"PZ", "perception zero: counts as an ordinary 0 in the mean"},
	{"AV (or A)", "the judge did not see the figure: filled with the mean of the row's other numbers"},
	{"-", "nothing on the sheet: filled likewise; so is a seat of the panel left empty"},
}

var settingTerms = []term{
	{"hard zero", "majority: zero from all when more than half of the judges who gave a mark saw one, fewer are filled; as-given: each counts as 0"},
	{"exactly half", "what follows when exactly half saw a hard zero: undecided until the column resolve says zero or fill, or zero, or fill"},
	{"fill rounding", "none, to 0.1 or to 0.5, half up"},
	{"drop extremes", fmt.Sprintf("yes: one highest and one lowest mark of each line stand outside the mean, in panels of %d or more", answers.StyleOf(nil).DropPanel)},
}

var sheetTerms = []term{
	{"Grades", "change a grade, type HZ or AV, and every number that hangs on it follows; tinted cells are formulas"},
	{"working columns", "folded away at the right of Grades and Flights: open them with the + above the sheet to see the steps"},
	{"italic numbers", statNote + ": statistics, and all numbers of the sheets Panel and Faults and drills"},
	{"grey italic rows", "on Flights: practice and void flights, which enter no figure of the season"},
	{"Accounts", "where there is one: its numbers are upright and follow no mark; tinted sums follow the amounts that they add up, a payment or a converted balance does not"},
	{"Elements", "each figure's loss shared out among its elements, which the sheet Families adds up"},
	{"undecided", "a row without points; its flight then has no points and no percent either"},
	{"record", "what the season counts: the official total where one was typed, else the sum of the marks"},
}

// markLegend is the legend at the foot of printed pages.
const markLegend = "HZ hard zero · CHZ confirmed · PZ perception zero · AV not seen · - nothing on the sheet"

// marksName is the workbook's name for the list of every mark there is.
const marksName = "Marks"

// allMarks lists every mark that can be typed.
func allMarks() []xlsx.Value {
	var marks []xlsx.Value
	for _, grade := range answers.EveryGrade() {
		marks = append(marks, number(grade))
	}
	for _, mark := range answers.EveryOtherMark() {
		marks = append(marks, xlsx.Text(mark))
	}
	return marks
}

// The settings stand in the first columns, the list of marks a spacer apart.
const (
	settingsTo = 6
	marksAt    = 8
)

const rulesName = "Rules"

func rulesSheet(c *content) xlsx.Sheet {
	columns := styleColumns(c)
	p := xlsx.Place(rulesName, rulesName, 1, len(c.styles.rows), columns)
	marks := xlsx.Placed{Name: marksName, Sheet: rulesName, Head: 1, Rows: len(allMarks()), Columns: map[string]int{"mark": marksAt}}
	return xlsx.Sheet{
		Name: rulesName, Tables: []xlsx.Placed{p, marks}, FrozenRows: 1, HeadRows: 1, LastColumn: settingsTo,
		Fill: func(b *xlsx.Book) {
			xlsx.Widths(b, columns)
			xlsx.FillTable(b, p, columns, c.styles.rows)
			b.Choice(p.Area("hard-zero", "hard-zero"), "majority or as-given.", "majority", "as-given")
			b.Choice(p.Area("half", "half"), "undecided, zero or fill.", "undecided", "zero", "fill")
			b.Choice(p.Area("rounding", "rounding"), "none, to 0.1 or to 0.5.", "none", "to 0.1", "to 0.5")
			b.Choice(p.Area("drop", "drop"), "yes or no.", "yes", "no")
			fillMarks(b, marks)
			row := fillTerms(b, p.Last()+2, "settings", settingTerms)
			row = fillTerms(b, row, "marks", markTerms)
			fillTerms(b, row, "this workbook", sheetTerms)
		},
	}
}

// fillMarks writes the list of marks at the side and gives it a name.
func fillMarks(b *xlsx.Book, marks xlsx.Placed) {
	look := xlsx.LookMark.Working()
	b.Text(marksAt, marks.Head, "every mark", look.Heading())
	for i, m := range allMarks() {
		b.Put(marksAt, marks.First()+i, m, look)
	}
	b.Width(marksAt, marksAt, 8)
	b.Name(marksName, marks, "mark")
}

// fillTerms writes words and what they mean, and gives the row after them. A
// cell that spans columns does not grow with its text, so the row's height is
// set.
func fillTerms(b *xlsx.Book, row int, title string, terms []term) int {
	const perLine = 84
	b.Text(1, row, title, xlsx.Look{Bold: true, Align: "left"})
	plain := xlsx.Look{Align: "left", Wrap: true}
	for _, t := range terms {
		row++
		b.Text(1, row, t.word, plain)
		b.Text(2, row, t.meaning, plain)
		b.Merge(2, row, settingsTo, plain)
		b.Heights(row, row, 1+len(t.meaning)/perLine)
	}
	return row + 2
}
