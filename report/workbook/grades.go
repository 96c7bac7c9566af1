package workbook

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// gradeRow is one line of a flight's sheets: a figure, or a weighted line.
type gradeRow struct {
	answers.Line
	flight *flightRow
	style  answers.RuleStyle
	figure xlsx.Value // its number, or what the weighted line is called
	label  string
	// rows is how often the figure was flown where that is several times: it has so
	// many rows, and figureMean is the figure's line in the first of them.
	rows       int
	figureMean *answers.Line
}

// gradeRows lists the lines of a flight that has rows of marks.
func gradeRows(f *flightRow) []gradeRow {
	row := gradeRow{flight: f, style: answers.StyleOf(nil)}
	if f.Style != nil {
		row.style = *f.Style
	}
	var rows []gradeRow
	for _, figure := range f.Figures {
		row.Line, row.figure, row.label = figure.Line, xlsx.Integer(figure.Number), figure.Label
		if len(figure.Rows) == 0 {
			rows = append(rows, row)
			continue
		}
		rows = append(rows, againRows(row, figure)...)
	}
	row.label = ""
	if f.Positioning != nil {
		row.Line, row.figure = *f.Positioning, xlsx.Text(words.PositioningName)
		rows = append(rows, row)
	}
	if f.Harmony != nil {
		row.Line, row.figure = *f.Harmony, xlsx.Text(words.HarmonyName)
		rows = append(rows, row)
	}
	return rows
}

// againRows are the rows of a figure that was flown several times. The figure's
// mean, points and lost stand in the first of them.
func againRows(row gradeRow, figure answers.Figure) []gradeRow {
	var rows []gradeRow
	for i, line := range figure.Rows {
		row.Line, row.rows = line, len(figure.Rows)
		if i > 0 {
			row.label = words.FlownAgain
		}
		rows = append(rows, row)
	}
	rows[0].figureMean = &figure.Line
	return rows
}

// result is what a row shows of its figure: of one that was flown several times
// the first row has it, the others what they came to themselves, and no points.
func (g gradeRow) result() (mean, points, lost report.Number) {
	switch {
	case g.figureMean != nil:
		return g.figureMean.Mean, g.figureMean.Points, g.figureMean.Lost
	case g.rows > 0 && g.Mean.Known():
		return g.Mean, report.Int(0), report.Int(0)
	default:
		return g.Mean, g.Points, g.Lost
	}
}

// k is the figure's K, which counts once.
func (g gradeRow) k() xlsx.Value {
	if g.rows > 0 && g.figureMean == nil {
		return xlsx.Value{}
	}
	return xlsx.Integer(g.K)
}

// mark is what stands in one judge's cell: a number for a grade, letters for
// the rest, nothing for a seat that the panel does not have.
func (g gradeRow) mark(seat int) xlsx.Value {
	if seat >= len(g.Cells) {
		return xlsx.Value{}
	}
	if grade := g.Cells[seat].Grade; grade.Known() {
		return number(grade)
	}
	return xlsx.Text(g.Marks[seat])
}

// count is how many marks of these kinds the row has.
func (g gradeRow) count(kinds ...answers.MarkKind) int {
	n := 0
	for _, cell := range g.Cells {
		if slices.Contains(kinds, cell.Kind) {
			n++
		}
	}
	return n
}

// What a row comes to, in the working columns.
const (
	rowZero = "zero"
	rowFill = "fill"
	rowOpen = "open"
)

// own is what the rule style makes of the row before any recorded ruling.
func (g gradeRow) own() string {
	if g.Ruling == answers.RulingResolved {
		return rowOpen
	}
	return g.outcome()
}

// outcome is what the row comes to, a recorded ruling included.
func (g gradeRow) outcome() string {
	switch g.Ruling {
	case answers.RulingUndecided:
		return rowOpen
	case answers.RulingZeroed:
		return rowZero
	case answers.RulingResolved:
		return g.Decision
	default:
		return rowFill
	}
}

// dropped is how many marks stand outside the mean.
func (g gradeRow) dropped() int { return len(g.outside()) }

// outside are the values that stand outside the mean, ascending.
func (g gradeRow) outside() []float64 {
	var values []float64
	for _, cell := range g.Cells {
		if cell.Counted == answers.DroppedMark {
			values = append(values, cell.Value.Float64())
		}
	}
	slices.Sort(values)
	return values
}

// highest and lowest are the ends of the values that stand outside the mean, 0
// where none does.
func (g gradeRow) highest() xlsx.Value {
	outside := append([]float64{0}, g.outside()...)
	return xlsx.Float(outside[len(outside)-1])
}

func (g gradeRow) lowest() xlsx.Value {
	outside := append(g.outside(), 0)
	return xlsx.Float(outside[0])
}

// Keys of the seats' columns: judge-1 and so on.
func seatKey(seat int) string { return "judge-" + strconv.Itoa(seat+1) }

// gradeColumns are the columns of Grades for panels of up to that many seats.
// The column of panels is as wide as panelWidth says.
func gradeColumns(seats int, panel float64) []xlsx.Column[gradeRow] {
	columns := []xlsx.Column[gradeRow]{
		{Key: "flight", Title: words.ColumnFlight, Width: 24, Look: xlsx.LookText, Value: func(g gradeRow) xlsx.Value { return xlsx.Text(g.flight.Flight.Flight) }},
		{Key: "date", Title: words.ColumnDate, Width: 11, Look: xlsx.LookDate, Value: func(g gradeRow) xlsx.Value { return day(g.flight.Date) }},
		{Key: "programme", Title: words.ColumnProgramme, Width: 12, Look: xlsx.LookText, Value: func(g gradeRow) xlsx.Value { return xlsx.Text(g.flight.Programme) }},
		{Key: "figure", Title: words.ColumnFigure, Width: 12, Look: xlsx.LookCentred, Value: func(g gradeRow) xlsx.Value { return g.figure }},
		{Key: "label", Title: words.ColumnLabel, Width: 32, Look: xlsx.LookWrap, Value: func(g gradeRow) xlsx.Value { return xlsx.Text(g.label) }},
		{Key: "k", Title: words.ColumnK, Width: 5.5, Look: xlsx.LookInteger, Value: gradeRow.k},
		{Key: "panel", Title: words.ColumnPanel, Width: panel, Look: xlsx.LookWrap.Indented(), Value: func(g gradeRow) xlsx.Value { return xlsx.Text(strings.Join(g.flight.Panel, " ")) }},
	}
	for seat := range seats {
		columns = append(columns, xlsx.Column[gradeRow]{
			Key: seatKey(seat), Title: fmt.Sprintf("Judge %d", seat+1), Width: 7.5, Look: xlsx.LookMark,
			Value: func(g gradeRow) xlsx.Value { return g.mark(seat) },
		})
	}
	columns = append(columns, xlsx.Column[gradeRow]{
		Key: "resolve", Title: words.ColumnResolve, Width: 8.5, Look: xlsx.LookCentred, Value: func(g gradeRow) xlsx.Value { return xlsx.Text(g.Decision) },
	})
	columns = append(columns, resultColumns()...)
	columns = append(columns, workingColumns()...)
	columns = append(columns, gradeKey()...)
	columns = append(columns, againColumn()...)
	for i := range columns {
		columns[i].Formula = strings.ReplaceAll(columns[i].Formula, "{seats}", "{"+seatKey(0)+":"+seatKey(seats-1)+"}")
	}
	return columns
}

// The widths that the column of panels may have, that up to which a panel gets one
// line, and that of a judge's capital letter.
const (
	panelLeast   = 17
	panelOneLine = 32
	panelMost    = 52
	capitalWidth = 1.25
)

// panelWidth is how wide the column of panels has to be for a panel of initials to
// stand in one line and every other in two, within limits.
func (c *content) panelWidth() float64 {
	width := float64(panelLeast)
	for _, f := range c.flights {
		names := strings.Join(f.Panel, " ")
		if line := math.Ceil(capitalWidth*float64(utf8.RuneCountInString(names))) + 1; line <= panelOneLine {
			width = max(width, line)
		}
		for width < panelMost && (xlsx.Column[int]{Width: width - 1}).Lines(names, true) > 2 {
			width++
		}
	}
	return width
}

// gradesPages is on how many pages the grades of a season are printed.
const gradesPages = 2

func gradesSheet(c *content) xlsx.Sheet {
	columns := gradeColumns(c.seats, c.panelWidth())
	p := xlsx.Place("Grades", words.GradesSheet, 1, len(c.grades), columns)
	return xlsx.Sheet{
		Name: words.GradesSheet, PagesTall: c.pagesTall(gradesPages), Tables: []xlsx.Placed{p}, FrozenRows: 1, FrozenColumns: 4, HeadRows: 1,
		LastColumn: p.Columns["ruling"], Legend: words.MarkLegend, Unprinted: len(c.grades) == 0,
		Fill: func(b *xlsx.Book) {
			xlsx.Widths(b, columns)
			xlsx.FillTable(b, p, columns, c.grades)
			b.Filter(p, "ruling")
			dressGrades(b, p, seatKey(c.seats-1))
		},
	}
}

// The grades from which one stands out on the sheet, in a formula.
const (
	lowGrade  = "5.5"
	highGrade = "8.5"
)

// dressGrades lets only marks be typed in the seats, and shades those that
// stand out: low and high grades, zeros light on dark, what nobody graded grey.
func dressGrades(b *xlsx.Book, p xlsx.Placed, lastSeat string) {
	seats := p.Area(seatKey(0), lastSeat)
	first := fmt.Sprintf("%s%d", xlsx.ColumnName(p.Columns[seatKey(0)]), p.First())
	b.Checked(seats, fmt.Sprintf("COUNTIF(%s,%s)>0", marksName, first), words.NotAMark, words.MarkAsked)
	b.Choice(p.Area("resolve", "resolve"), words.NotKnown, words.ResolveAsked, "zero", "fill")

	ruling := fmt.Sprintf("$%s%d", xlsx.ColumnName(p.Columns["ruling"]), p.First())
	b.Conditional(seats,
		xlsx.Rule{Formula: fmt.Sprintf(`OR(%[1]s="HZ",%[1]s="CHZ",%[1]s="PZ")`, first), Dress: xlsx.Dress{Bold: true, Colour: "FFFFFF", Fill: xlsx.ZeroFill}},
		xlsx.Rule{Formula: fmt.Sprintf(`OR(%[1]s="AV",%[1]s="A",%[1]s="-")`, first), Dress: xlsx.Dress{Italic: true, Colour: xlsx.Ink, Fill: xlsx.BlankFill}},
		xlsx.Rule{Formula: fmt.Sprintf("AND(ISNUMBER(%[1]s),%[1]s<=%[2]s)", first, lowGrade), Dress: xlsx.Dress{Bold: true, Fill: xlsx.LowFill}},
		xlsx.Rule{Formula: fmt.Sprintf("AND(ISNUMBER(%[1]s),%[1]s>=%[2]s)", first, highGrade), Dress: xlsx.Dress{Bold: true, Fill: xlsx.HighFill}})
	b.Conditional(p.Area("mean", "ruling"),
		xlsx.Rule{Formula: fmt.Sprintf(`OR(%[1]s="undecided",%[1]s="not a mark")`, ruling), Dress: xlsx.Dress{Bold: true, Colour: xlsx.Ink, Fill: xlsx.OpenFill}})
	b.Conditional(p.Area("flight", "ruling"),
		xlsx.Rule{Formula: fmt.Sprintf("$A%d<>$A%d", p.First(), p.Head), Dress: xlsx.Dress{LineAbove: true}})
}
