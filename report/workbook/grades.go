package workbook

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"

	"boxbook/report/workbook/xlsx"
	"boxbook/scoring"
	"boxbook/season"
)

// gradeRow is one line of a flight's sheets: a figure, or a weighted line.
type gradeRow struct {
	flight *season.Flight
	line   scoring.Line
	score  scoring.LineScore
	style  scoring.Style
	rules  string     // the style's name on the sheet Rules
	figure xlsx.Value // its number, or "positioning" or "harmony"
	label  string
}

// gradeRows lists the lines of a flight that has marks. A void flight enters
// no figure, so it has none.
func gradeRows(f flightRow) []gradeRow {
	flight := f.line.Flight
	if !f.marked() {
		return nil
	}
	sheet, score, flown := flight.Sheet(), flight.Score(), flight.Flown()
	rows := make([]gradeRow, 0, len(sheet.Lines))
	for i, line := range sheet.Lines {
		row := gradeRow{flight: flight, line: line, score: score.Lines[i], style: sheet.Style, rules: f.rules}
		switch line.Kind {
		case scoring.Positioning:
			row.figure = xlsx.Text("positioning")
		case scoring.Harmony:
			row.figure = xlsx.Text("harmony")
		default:
			row.figure = xlsx.Integer(flown[i] + 1)
			row.label = flight.Sequence.Figures[flown[i]].Label
		}
		rows = append(rows, row)
	}
	return rows
}

// mark is what stands in one judge's cell: a number for a grade, letters for
// the rest, nothing for a seat that the panel does not have.
func (g gradeRow) mark(seat int) xlsx.Value {
	if seat >= len(g.line.Marks) {
		return xlsx.Value{}
	}
	m := g.line.Marks[seat]
	if m.Kind == scoring.Grade {
		return xlsx.Value{Number: float64(m.Half) / 2, Numeric: true}
	}
	return xlsx.Text(m.String())
}

// count is how many marks of these kinds the row has.
func (g gradeRow) count(kinds ...scoring.MarkKind) int {
	n := 0
	for _, m := range g.line.Marks {
		for _, k := range kinds {
			if m.Kind == k {
				n++
			}
		}
	}
	return n
}

// resolve is the chief judge's ruling as the ledger words it.
func (g gradeRow) resolve() string {
	switch g.line.Decision {
	case scoring.RuledZero:
		return "zero"
	case scoring.RuledFill:
		return "fill"
	default:
		return ""
	}
}

// What a row comes to, in the working columns.
const (
	rowZero = "zero"
	rowFill = "fill"
	rowOpen = "open"
)

// own is what the rule style makes of the row before any recorded ruling.
func (g gradeRow) own() string {
	if scoring.Open(g.line.Marks, g.style) {
		return rowOpen
	}
	return g.outcome()
}

// outcome is what the row comes to, a recorded ruling included.
func (g gradeRow) outcome() string {
	switch g.score.Ruling {
	case scoring.Undecided:
		return rowOpen
	case scoring.Zeroed:
		return rowZero
	case scoring.Resolved:
		return g.resolve()
	default:
		return rowFill
	}
}

// filled is the value that a filled mark was given, nothing where none was.
func (g gradeRow) filled() xlsx.Value {
	for _, cell := range g.score.Cells {
		if cell.Fill {
			return xlsx.Exact(cell.Used)
		}
	}
	return xlsx.Value{}
}

// dropped is how many marks stand outside the mean.
func (g gradeRow) dropped() int {
	n := 0
	for _, cell := range g.score.Cells {
		if cell.Dropped {
			n++
		}
	}
	return n
}

// extreme is the highest (1) or the lowest (-1) of the values that stand
// outside the mean, 0 where none does.
func (g gradeRow) extreme(direction int) xlsx.Value {
	found := new(big.Rat)
	first := true
	for _, cell := range g.score.Cells {
		if cell.Dropped && (first || cell.Used.Cmp(found) == direction) {
			found, first = cell.Used, false
		}
	}
	return xlsx.Exact(found)
}

// sum adds up the values that make the mean.
func (g gradeRow) sum() xlsx.Value {
	sum := new(big.Rat)
	for _, cell := range g.score.Cells {
		if cell.Used != nil && !cell.Dropped {
			sum.Add(sum, cell.Used)
		}
	}
	return xlsx.Exact(sum)
}

// Keys of the seats' columns: judge-1 and so on.
func seatKey(seat int) string { return "judge-" + strconv.Itoa(seat+1) }

// gradeColumns are the columns of Grades for panels of up to that many seats.
// The column of panels is as wide as panelWidth says.
func gradeColumns(seats int, panel float64) []xlsx.Column[gradeRow] {
	columns := []xlsx.Column[gradeRow]{
		{Key: "flight", Title: "flight", Width: 24, Look: xlsx.LookText, Value: func(g gradeRow) xlsx.Value { return xlsx.Text(g.flight.Name) }},
		{Key: "date", Title: "date", Width: 11, Look: xlsx.LookDate, Value: func(g gradeRow) xlsx.Value { return day(g.flight.Date) }},
		{Key: "programme", Title: "programme", Width: 12, Look: xlsx.LookText, Value: func(g gradeRow) xlsx.Value { return xlsx.Text(string(g.flight.Programme)) }},
		{Key: "figure", Title: "figure", Width: 12, Look: xlsx.LookCentred, Value: func(g gradeRow) xlsx.Value { return g.figure }},
		{Key: "label", Title: "label", Width: 32, Look: xlsx.LookWrap, Value: func(g gradeRow) xlsx.Value { return xlsx.Text(g.label) }},
		{Key: "k", Title: "K", Width: 5.5, Look: xlsx.LookInteger, Value: func(g gradeRow) xlsx.Value { return xlsx.Integer(g.line.K) }},
		{Key: "panel", Title: "panel", Width: panel, Look: xlsx.LookWrap.Indented(), Value: func(g gradeRow) xlsx.Value { return xlsx.Text(strings.Join(g.flight.Panel, " ")) }},
	}
	for seat := range seats {
		columns = append(columns, xlsx.Column[gradeRow]{
			Key: seatKey(seat), Title: fmt.Sprintf("Judge %d", seat+1), Width: 7.5, Look: xlsx.LookMark,
			Value: func(g gradeRow) xlsx.Value { return g.mark(seat) },
		})
	}
	columns = append(columns, xlsx.Column[gradeRow]{
		Key: "resolve", Title: "resolve", Width: 8.5, Look: xlsx.LookCentred, Value: func(g gradeRow) xlsx.Value { return xlsx.Text(g.resolve()) },
	})
	columns = append(columns, resultColumns...)
	columns = append(columns, workingColumns...)
	columns = append(columns, gradeKey...)
	for i := range columns {
		columns[i].Formula = strings.ReplaceAll(columns[i].Formula, "{seats}", "{"+seatKey(0)+":"+seatKey(seats-1)+"}")
	}
	return columns
}

// The widths that the column of panels may have.
const (
	panelLeast = 17
	panelMost  = 52
)

// panelWidth is how wide the column of panels has to be for every panel to
// stand in two lines, within limits.
func (c *content) panelWidth() float64 {
	width := float64(panelLeast)
	for _, f := range c.flights {
		words := strings.Join(f.line.Flight.Panel, " ")
		for width < panelMost && (xlsx.Column[int]{Width: width - 1}).Lines(words, true) > 2 {
			width++
		}
	}
	return width
}

const gradesName = "Grades"

func gradesSheet(c *content) xlsx.Sheet {
	columns := gradeColumns(c.seats, c.panelWidth())
	p := xlsx.Place(gradesName, gradesName, 1, len(c.grades), columns)
	return xlsx.Sheet{
		Name: gradesName, Tables: []xlsx.Placed{p}, FrozenRows: 1, FrozenColumns: 4, HeadRows: 1,
		LastColumn: p.Columns["ruling"], Legend: markLegend,
		Fill: func(b *xlsx.Book) {
			xlsx.Widths(b, columns)
			xlsx.FillTable(b, p, columns, c.grades)
			b.Filter(p, "ruling")
			dressGrades(b, p, seatKey(c.seats-1))
		},
	}
}

// dressGrades lets only marks be typed in the seats, and shades them: the
// lower a grade the darker, zeros light on dark, what nobody graded grey.
func dressGrades(b *xlsx.Book, p xlsx.Placed, lastSeat string) {
	seats := p.Area(seatKey(0), lastSeat)
	first := fmt.Sprintf("%s%d", xlsx.ColumnName(p.Columns[seatKey(0)]), p.First())
	b.Checked(seats, fmt.Sprintf("COUNTIF(%s,%s)>0", marksName, first), "not a mark", "A grade from 0 to 10 in half points, or HZ, CHZ, PZ, AV or -.")
	b.Choice(p.Area("resolve", "resolve"), "zero or fill, or nothing where the chief judge ruled nothing.", "zero", "fill")

	ruling := fmt.Sprintf("$%s%d", xlsx.ColumnName(p.Columns["ruling"]), p.First())
	b.Conditional(seats,
		xlsx.Rule{Formula: fmt.Sprintf(`OR(%[1]s="HZ",%[1]s="CHZ",%[1]s="PZ")`, first), Dress: xlsx.Dress{Bold: true, Colour: "FFFFFF", Fill: xlsx.ZeroFill}},
		xlsx.Rule{Formula: fmt.Sprintf(`OR(%[1]s="AV",%[1]s="A",%[1]s="-")`, first), Dress: xlsx.Dress{Italic: true, Colour: xlsx.Ink, Fill: xlsx.BlankFill}},
		xlsx.Rule{Low: "4", High: "8.5"})
	b.Conditional(p.Area("mean", "ruling"),
		xlsx.Rule{Formula: fmt.Sprintf(`OR(%[1]s="undecided",%[1]s="not a mark")`, ruling), Dress: xlsx.Dress{Bold: true, Colour: xlsx.Ink, Fill: xlsx.OpenFill}})
	b.Conditional(p.Area("flight", "ruling"),
		xlsx.Rule{Formula: fmt.Sprintf("$A%d<>$A%d", p.First(), p.Head), Dress: xlsx.Dress{LineAbove: true}})
}
