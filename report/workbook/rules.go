package workbook

import (
	"fmt"

	"boxbook/scoring"
	"boxbook/season"
)

// styleRow is a rule style as the sheet Rules shows it.
type styleRow struct {
	name  string
	style scoring.Style
}

// styleList is every rule style of the ledger; a coach can give a flight
// another one.
type styleList struct {
	rows  []styleRow
	names map[*season.RuleStyle]string
}

func newStyleList(l *season.Ledger) styleList {
	list := styleList{names: map[*season.RuleStyle]string{}}
	taken := namesTaken{}
	for _, s := range l.Styles {
		name := taken.add(s.Name)
		list.names[s] = name
		list.rows = append(list.rows, styleRow{name: name, style: s.Style})
	}
	if !taken[season.DefaultStyle] {
		// The zero style is the default one.
		list.rows = append(list.rows, styleRow{name: season.DefaultStyle})
	}
	return list
}

// of names a flight's rule style.
func (l styleList) of(s *season.RuleStyle) string {
	if s == nil {
		return season.DefaultStyle
	}
	return l.names[s]
}

// The settings in words, as the ledger writes them. A rounding is a text, so
// that no program's decimal comma stands in its way.
func hardZeroWord(s scoring.Style) string { return s.HardZero.String() }

func halfWord(s scoring.Style) string { return s.Half.String() }

func roundingWord(s scoring.Style) string {
	if s.FillRounding == scoring.Unrounded {
		return s.FillRounding.String()
	}
	return "to " + s.FillRounding.String()
}

func dropWord(s scoring.Style) string {
	if s.DropExtremes {
		return "yes"
	}
	return "no"
}

// styleColumns are the columns of the table of rule styles.
func styleColumns(c *content) []column[styleRow] {
	return []column[styleRow]{
		{key: "rules", title: "rules", width: 24, look: lookText, value: func(s styleRow) value { return text(s.name) }},
		{key: "hard-zero", title: "hard zero", width: 14, look: lookText, value: func(s styleRow) value { return text(hardZeroWord(s.style)) }},
		{key: "half", title: "exactly half", width: 14, look: lookText, value: func(s styleRow) value { return text(halfWord(s.style)) }},
		{key: "rounding", title: "fill rounding", width: 14, look: lookText, value: func(s styleRow) value { return text(roundingWord(s.style)) }},
		{key: "drop", title: "drop extremes", width: 15, look: lookText, value: func(s styleRow) value { return text(dropWord(s.style)) }},
		{
			key: "used", title: "flights here", width: 13, look: lookInteger.live(),
			formula: `SUMPRODUCT(--({Flights.rules}={rules}))`,
			value:   func(s styleRow) value { return integer(c.flightsUnder(s.name)) },
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
	{"drop extremes", fmt.Sprintf("yes: one highest and one lowest mark of each line stand outside the mean, in panels of %d or more", scoring.DropPanel)},
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

// allMarks lists every mark that can be typed, AV also as A.
func allMarks() []value {
	var marks []value
	for half := 0; half <= scoring.TopGrade; half++ {
		marks = append(marks, value{number: float64(half) / 2, numeric: true})
	}
	for _, word := range []string{"HZ", "CHZ", "PZ", "AV", "A", "-"} {
		marks = append(marks, text(word))
	}
	return marks
}

// The settings stand in the first columns, the list of marks a spacer apart.
const (
	settingsTo = 6
	marksAt    = 8
)

const rulesName = "Rules"

func rulesSheet(c *content) sheet {
	columns := styleColumns(c)
	p := place(rulesName, rulesName, 1, len(c.styles.rows), columns)
	marks := placed{name: marksName, sheet: rulesName, head: 1, rows: len(allMarks()), columns: map[string]int{"mark": marksAt}}
	return sheet{
		name: rulesName, tables: []placed{p, marks}, frozenRows: 1, headRows: 1, lastColumn: settingsTo,
		fill: func(b *book) {
			widths(b, columns)
			fillTable(b, p, columns, c.styles.rows)
			b.choice(p.area("hard-zero", "hard-zero"), "majority or as-given.", "majority", "as-given")
			b.choice(p.area("half", "half"), "undecided, zero or fill.", "undecided", "zero", "fill")
			b.choice(p.area("rounding", "rounding"), "none, to 0.1 or to 0.5.", "none", "to 0.1", "to 0.5")
			b.choice(p.area("drop", "drop"), "yes or no.", "yes", "no")
			fillMarks(b, marks)
			row := fillTerms(b, p.last()+2, "settings", settingTerms)
			row = fillTerms(b, row, "marks", markTerms)
			fillTerms(b, row, "this workbook", sheetTerms)
		},
	}
}

// fillMarks writes the list of marks at the side and gives it a name.
func fillMarks(b *book, marks placed) {
	look := lookMark.working()
	b.text(marksAt, marks.head, "every mark", look.heading())
	for i, m := range allMarks() {
		b.put(marksAt, marks.first()+i, m, look)
	}
	b.width(marksAt, marksAt, 8)
	b.name(marksName, marks, "mark")
}

// fillTerms writes words and what they mean, and gives the row after them. A
// cell that spans columns does not grow with its text, so the row's height is
// set.
func fillTerms(b *book, row int, title string, terms []term) int {
	const perLine = 84
	b.text(1, row, title, look{bold: true, align: "left"})
	plain := look{align: "left", wrap: true}
	for _, t := range terms {
		row++
		b.text(1, row, t.word, plain)
		b.text(2, row, t.meaning, plain)
		b.merge(2, row, settingsTo, plain)
		b.heights(row, row, 1+len(t.meaning)/perLine)
	}
	return row + 2
}
