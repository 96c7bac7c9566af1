package workbook

import (
	"fmt"
	"strings"

	"boxbook/report/workbook/xlsx"
	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis"
)

// flightRow is one flight of the season.
type flightRow struct {
	line    analysis.FlightLine
	score   scoring.Score // the zero Score where there are no marks, or the flight is void
	rules   string
	contest string // the contest's name in formulas
	remark  string
	// panelNoise is nil where it is not known.
	panelNoise *float64
}

func newFlightRow(c *content, line analysis.FlightLine) flightRow {
	f := line.Flight
	row := flightRow{line: line, rules: c.styles.of(f.Style)}
	if f.Contest != nil {
		row.contest = c.contest[f.Contest]
	}
	if row.marked() {
		row.score = f.Score()
	}
	row.remark, row.panelNoise = remarkOn(f), line.PanelNoise()
	return row
}

// marked reports whether the flight has rows on the sheet Grades.
func (f flightRow) marked() bool { return f.line.Flight.Counts() && f.line.Flight.HasMarks() }

// What a flight is to the season.
const (
	countsYes      = "yes"
	countsPractice = "practice"
	countsVoid     = "void"
)

func (f flightRow) counts() string {
	switch {
	case !f.line.Flight.Counts():
		return countsVoid
	case !f.line.Flight.Contested():
		return countsPractice
	default:
		return countsYes
	}
}

// undecided is how many rows of marks have no points.
func (f flightRow) undecided() int {
	n := 0
	for _, line := range f.score.Lines {
		if line.Points == nil {
			n++
		}
	}
	return n
}

// official is the printed total, nil where none was typed.
func (f flightRow) official() *season.Official { return f.line.Flight.Official }

// sameMaximum reports whether the printed total is out of what the rows of
// marks come to, so that the two can be subtracted.
func (f flightRow) sameMaximum() bool {
	o := f.official()
	return f.marked() && o != nil && o.Maximum != nil && xlsx.Exact(o.Maximum.Rat()) == xlsx.Integer(f.score.Maximum)
}

// remarkOn says what a reader has to know of a flight besides its numbers.
func remarkOn(f *season.Flight) string {
	var parts []string
	if f.Void != nil {
		parts = append(parts, "void: "+*f.Void)
	}
	if len(f.Missing) > 0 {
		parts = append(parts, "sheet missing: "+strings.Join(f.Missing, " "))
	}
	for _, p := range f.Penalties {
		words := string(p.Kind) + " " + p.Points.String()
		if p.Remark != "" {
			words += " (" + p.Remark + ")"
		}
		parts = append(parts, words)
	}
	if !f.HasMarks() && f.Official != nil {
		parts = append(parts, "the printed total alone")
	}
	if o := f.Official; f.HasMarks() && o != nil && o.Typed && xlsx.Exact(o.Maximum.Rat()) != xlsx.Integer(f.Maximum()) {
		parts = append(parts, "printed out of another maximum: compare the percents")
	}
	if f.HasMarks() && f.Contested() && f.StyleDefault {
		parts = append(parts, "rules by default")
	}
	return shortened(strings.Join(parts, "; "))
}

// shortened cuts a text to what a formula has room for.
func shortened(s string) string {
	const most = 2000
	if runes := []rune(s); len(runes) > most {
		return string(runes[:most]) + "…"
	}
	return s
}

// flightsUnder counts the flights under a rule style.
func (c *content) flightsUnder(rules string) int {
	n := 0
	for _, f := range c.flights {
		if f.rules == rules {
			n++
		}
	}
	return n
}

const flightsName = "Flights"

func flightsSheet(c *content) xlsx.Sheet {
	p := xlsx.Place(flightsName, flightsName, 1, len(c.flights), flightColumns)
	return xlsx.Sheet{
		Name: flightsName, Tables: []xlsx.Placed{p}, FrozenRows: 1, FrozenColumns: 3, HeadRows: 1,
		LastColumn: p.Columns["remark"], PagesWide: 2, HeadColumns: p.Columns["programme"],
		Fill: func(b *xlsx.Book) {
			xlsx.Widths(b, flightColumns)
			xlsx.FillTable(b, p, flightColumns, c.flights)
			b.Filter(p, "remark")
			b.Listed(p.Area("rules", "rules"), "One of the styles of the sheet Rules.", b.Tables[rulesName], "rules")
			b.Choice(p.Area("counts", "counts"), "yes, practice or void.", countsYes, countsPractice, countsVoid)
			dressFlights(b, p)
		},
	}
}

// dressFlights greys what does not count, and says of a printed total whether
// it agrees.
func dressFlights(b *xlsx.Book, p xlsx.Placed) {
	counts := fmt.Sprintf("$%s%d", xlsx.ColumnName(p.Columns["counts"]), p.First())
	b.Conditional(p.Area("date", "remark"), xlsx.Rule{Formula: counts + `<>"yes"`, Dress: xlsx.Dress{Italic: true, Colour: xlsx.FaintInk}})
	dressDifference(b, p)
}

// dressDifference shows the word in the place of a difference that rounding
// explains, and others in bold. The cell keeps the number.
func dressDifference(b *xlsx.Book, p xlsx.Placed) {
	agrees := fmt.Sprintf("$%s%d", xlsx.ColumnName(p.Columns["agrees"]), p.First())
	b.Conditional(p.Area("difference", "difference"),
		xlsx.Rule{Formula: agrees + `="yes"`, Dress: xlsx.Dress{Format: `"agrees";"agrees";"agrees"`}},
		xlsx.Rule{Formula: agrees + `="no"`, Dress: xlsx.Dress{Bold: true, Colour: xlsx.Ink}})
}
