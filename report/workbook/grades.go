package workbook

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"

	"boxbook/scoring"
	"boxbook/season"
)

// gradeRow is one line of a flight's sheets: a figure, or a weighted line.
type gradeRow struct {
	flight *season.Flight
	line   scoring.Line
	score  scoring.LineScore
	style  scoring.Style
	rules  string // the style's name on the sheet Rules
	figure value  // its number, or "positioning" or "harmony"
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
			row.figure = text("positioning")
		case scoring.Harmony:
			row.figure = text("harmony")
		default:
			row.figure = integer(flown[i] + 1)
			row.label = flight.Sequence.Figures[flown[i]].Label
		}
		rows = append(rows, row)
	}
	return rows
}

// mark is what stands in one judge's cell: a number for a grade, letters for
// the rest, nothing for a seat that the panel does not have.
func (g gradeRow) mark(seat int) value {
	if seat >= len(g.line.Marks) {
		return value{}
	}
	m := g.line.Marks[seat]
	if m.Kind == scoring.Grade {
		return value{number: float64(m.Half) / 2, numeric: true}
	}
	return text(m.String())
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
func (g gradeRow) filled() value {
	for _, cell := range g.score.Cells {
		if cell.Fill {
			return exact(cell.Used)
		}
	}
	return value{}
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
func (g gradeRow) extreme(direction int) value {
	found := new(big.Rat)
	first := true
	for _, cell := range g.score.Cells {
		if cell.Dropped && (first || cell.Used.Cmp(found) == direction) {
			found, first = cell.Used, false
		}
	}
	return exact(found)
}

// sum adds up the values that make the mean.
func (g gradeRow) sum() value {
	sum := new(big.Rat)
	for _, cell := range g.score.Cells {
		if cell.Used != nil && !cell.Dropped {
			sum.Add(sum, cell.Used)
		}
	}
	return exact(sum)
}

// Keys of the seats' columns: judge-1 and so on.
func seatKey(seat int) string { return "judge-" + strconv.Itoa(seat+1) }

// gradeColumns are the columns of Grades for panels of up to that many seats.
// The column of panels is as wide as panelWidth says.
func gradeColumns(seats int, panel float64) []column[gradeRow] {
	columns := []column[gradeRow]{
		{key: "flight", title: "flight", width: 24, look: lookText, value: func(g gradeRow) value { return text(g.flight.Name) }},
		{key: "date", title: "date", width: 11, look: lookDate, value: func(g gradeRow) value { return day(g.flight.Date) }},
		{key: "programme", title: "programme", width: 12, look: lookText, value: func(g gradeRow) value { return text(string(g.flight.Programme)) }},
		{key: "figure", title: "figure", width: 12, look: lookCentred, value: func(g gradeRow) value { return g.figure }},
		{key: "label", title: "label", width: 32, look: lookWrap, value: func(g gradeRow) value { return text(g.label) }},
		{key: "k", title: "K", width: 5.5, look: lookInteger, value: func(g gradeRow) value { return integer(g.line.K) }},
		{key: "panel", title: "panel", width: panel, look: lookWrap.indented(), value: func(g gradeRow) value { return text(strings.Join(g.flight.Panel, " ")) }},
	}
	for seat := range seats {
		columns = append(columns, column[gradeRow]{
			key: seatKey(seat), title: fmt.Sprintf("Judge %d", seat+1), width: 7.5, look: lookMark,
			value: func(g gradeRow) value { return g.mark(seat) },
		})
	}
	columns = append(columns, column[gradeRow]{
		key: "resolve", title: "resolve", width: 8.5, look: lookCentred, value: func(g gradeRow) value { return text(g.resolve()) },
	})
	columns = append(columns, resultColumns...)
	columns = append(columns, workingColumns...)
	columns = append(columns, gradeKey...)
	for i := range columns {
		columns[i].formula = strings.ReplaceAll(columns[i].formula, "{seats}", "{"+seatKey(0)+":"+seatKey(seats-1)+"}")
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
		for width < panelMost && (column[int]{width: width - 1}).lines(words, true) > 2 {
			width++
		}
	}
	return width
}

const gradesName = "Grades"

func gradesSheet(c *content) sheet {
	columns := gradeColumns(c.seats, c.panelWidth())
	p := place(gradesName, gradesName, 1, len(c.grades), columns)
	return sheet{
		name: gradesName, tables: []placed{p}, frozenRows: 1, frozenColumns: 4, headRows: 1,
		lastColumn: p.columns["ruling"], legend: markLegend,
		fill: func(b *book) {
			widths(b, columns)
			fillTable(b, p, columns, c.grades)
			b.filter(p, "ruling")
			dressGrades(b, p, seatKey(c.seats-1))
		},
	}
}

// dressGrades lets only marks be typed in the seats, and shades them: the
// lower a grade the darker, zeros light on dark, what nobody graded grey.
func dressGrades(b *book, p placed, lastSeat string) {
	seats := p.area(seatKey(0), lastSeat)
	first := fmt.Sprintf("%s%d", columnName(p.columns[seatKey(0)]), p.first())
	b.checked(seats, fmt.Sprintf("COUNTIF(%s,%s)>0", marksName, first), "not a mark", "A grade from 0 to 10 in half points, or HZ, CHZ, PZ, AV or -.")
	b.choice(p.area("resolve", "resolve"), "zero or fill, or nothing where the chief judge ruled nothing.", "zero", "fill")

	ruling := fmt.Sprintf("$%s%d", columnName(p.columns["ruling"]), p.first())
	b.conditional(seats,
		rule{formula: fmt.Sprintf(`OR(%[1]s="HZ",%[1]s="CHZ",%[1]s="PZ")`, first), dress: dress{bold: true, colour: "FFFFFF", fill: zeroFill}},
		rule{formula: fmt.Sprintf(`OR(%[1]s="AV",%[1]s="A",%[1]s="-")`, first), dress: dress{italic: true, colour: ink, fill: blankFill}},
		rule{low: "4", high: "8.5"})
	b.conditional(p.area("mean", "ruling"),
		rule{formula: fmt.Sprintf(`OR(%[1]s="undecided",%[1]s="not a mark")`, ruling), dress: dress{bold: true, colour: ink, fill: openFill}})
	b.conditional(p.area("flight", "ruling"),
		rule{formula: fmt.Sprintf("$A%d<>$A%d", p.first(), p.head), dress: dress{lineAbove: true}})
}
