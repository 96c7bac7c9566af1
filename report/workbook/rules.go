package workbook

import (
	"boxbook/report/answers"
	"boxbook/report/words"
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
		{Key: "rules", Title: words.ColumnRules, Width: 24, Look: xlsx.LookText, Value: func(s styleRow) xlsx.Value { return xlsx.Text(s.name) }},
		{Key: "hard-zero", Title: words.ColumnHardZero, Width: 14, Look: xlsx.LookText, Value: func(s styleRow) xlsx.Value { return xlsx.Text(s.HardZero) }},
		{Key: "half", Title: words.ColumnExactlyHalf, Width: 14, Look: xlsx.LookText, Value: func(s styleRow) xlsx.Value { return xlsx.Text(s.Half) }},
		{Key: "rounding", Title: words.ColumnFillRounding, Width: 14, Look: xlsx.LookText, Value: func(s styleRow) xlsx.Value { return xlsx.Text(roundingWord(s.RuleStyle)) }},
		{Key: "drop", Title: words.ColumnDropExtremes, Width: 15, Look: xlsx.LookText, Value: func(s styleRow) xlsx.Value { return xlsx.Text(dropWord(s.RuleStyle)) }},
		{
			Key: "used", Title: words.ColumnFlightsHere, Width: 13, Look: xlsx.LookInteger.Live(),
			Formula: `SUMPRODUCT(--({Flights.rules}={rules}))`,
			Value:   func(s styleRow) xlsx.Value { return xlsx.Integer(c.flightsUnder(s.name)) },
		},
	}
}

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

func rulesSheet(c *content) xlsx.Sheet {
	columns := styleColumns(c)
	p := xlsx.Place("Rules", words.RulesSheet, 1, len(c.styles.rows), columns)
	marks := xlsx.Placed{Name: marksName, Sheet: words.RulesSheet, Head: 1, Rows: len(allMarks()), Columns: map[string]int{"mark": marksAt}}
	return xlsx.Sheet{
		Name: words.RulesSheet, Unprinted: true, Tables: []xlsx.Placed{p, marks}, FrozenRows: 1, HeadRows: 1, LastColumn: settingsTo,
		Fill: func(b *xlsx.Book) {
			xlsx.Widths(b, columns)
			xlsx.FillTable(b, p, columns, c.styles.rows)
			b.Choice(p.Area("hard-zero", "hard-zero"), words.NotKnown, words.HardAsked, answers.Majority, answers.AsGiven)
			b.Choice(p.Area("half", "half"), words.NotKnown, words.HalfAsked, answers.HalfUndecided, answers.HalfZero, answers.HalfFill)
			b.Choice(p.Area("rounding", "rounding"), words.NotKnown, words.RoundAsked, "none", "to 0.1", "to 0.5")
			b.Choice(p.Area("drop", "drop"), words.NotKnown, words.DropAsked, "yes", "no")
			fillMarks(b, marks)
			row := fillTerms(b, p.Last()+2, words.SettingsHeading, words.SettingTerms(answers.StyleOf(nil).DropPanel))
			row = fillTerms(b, row, words.MarksHeading, words.MarkTerms())
			fillTerms(b, row, words.WorkbookHeading, words.SheetTerms())
		},
	}
}

// fillMarks writes the list of marks at the side and gives it a name.
func fillMarks(b *xlsx.Book, marks xlsx.Placed) {
	look := xlsx.LookMark.Working()
	b.Text(marksAt, marks.Head, words.EveryMark, look.Heading())
	for i, m := range allMarks() {
		b.Put(marksAt, marks.First()+i, m, look)
	}
	b.Width(marksAt, marksAt, 8)
	b.Name(marksName, marks, "mark")
}

// fillTerms writes words and what they mean, and gives the row after them. A
// cell that spans columns does not grow with its text, so the row's height is
// set.
func fillTerms(b *xlsx.Book, row int, title string, terms []words.Term) int {
	const perLine = 84
	b.Text(1, row, title, xlsx.Look{Bold: true, Align: "left"})
	plain := xlsx.Look{Align: "left", Wrap: true}
	for _, t := range terms {
		row++
		b.Text(1, row, t.Word, plain)
		b.Text(2, row, t.Meaning, plain)
		b.Merge(2, row, settingsTo, plain)
		b.Heights(row, row, 1+len(t.Meaning)/perLine)
	}
	return row + 2
}
