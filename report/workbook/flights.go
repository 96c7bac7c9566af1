package workbook

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// flightRow is one flight of the season: its sheet, and its line of the season.
type flightRow struct {
	answers.Flight
	line    answers.SeasonLine
	rules   string // the rule style's name on the sheet Rules
	contest string // the contest's name in formulas
	remark  string
}

func newFlightRow(c *content, f answers.Flight, line answers.SeasonLine) flightRow {
	row := flightRow{Flight: f, line: line, rules: c.styles.of(f), contest: c.contests[f.Contest], remark: shortened(flightRemark(c, f))}
	if !row.marked() {
		row.Raw, row.Points, row.Maximum, row.Percent = report.Number{}, report.Number{}, report.Number{}, report.Number{}
		row.Figures, row.Positioning, row.Harmony, row.Families = nil, nil, nil, nil
	}
	return row
}

// flightRemark is what has to be known of a flight besides its numbers; its aircraft too,
// where the season's flights differ in it.
func flightRemark(c *content, f answers.Flight) string {
	said := []string{words.FlightRemark(f), words.AircraftRemark(c.book.Season, f)}
	return strings.Join(slices.DeleteFunc(said, func(s string) bool { return s == "" }), "; ")
}

// marked reports whether the flight has rows on the sheet Grades. A void flight
// enters no figure, so it has none.
func (f flightRow) marked() bool { return f.Counts != answers.CountsVoid && f.Marked }

// What a flight is to the season, as a person may type it.
const (
	countsYes      = "yes"
	countsPractice = "practice"
	countsVoid     = "void"
)

func (f flightRow) counts() string {
	switch f.Counts {
	case answers.CountsVoid:
		return countsVoid
	case answers.CountsPractice:
		return countsPractice
	default:
		return countsYes
	}
}

// undecided is how many rows of marks have no points.
func (f flightRow) undecided() int {
	n := 0
	for _, line := range f.lines() {
		if !line.Points.Known() {
			n++
		}
	}
	return n
}

// lines are the rows of marks on Grades, figures first; the points of a figure
// that was flown several times stand in the first of its rows.
func (f flightRow) lines() []answers.Line {
	var lines []answers.Line
	for _, figure := range f.Figures {
		if len(figure.Rows) == 0 {
			lines = append(lines, figure.Line)
			continue
		}
		first := figure.Rows[0]
		first.Points = figure.Points
		lines = append(append(lines, first), figure.Rows[1:]...)
	}
	for _, line := range []*answers.Line{f.Positioning, f.Harmony} {
		if line != nil {
			lines = append(lines, *line)
		}
	}
	return lines
}

// official is the printed total, the zero one where none was typed.
func (f flightRow) official() answers.Official {
	if f.Official == nil {
		return answers.Official{}
	}
	return *f.Official
}

// field is what the flight is compared with, the zero one where nothing.
func (f flightRow) field() answers.Field {
	if f.Field == nil {
		return answers.Field{}
	}
	return *f.Field
}

// sameMaximum reports whether the printed total is out of what the rows of
// marks come to, so that the two can be subtracted.
func (f flightRow) sameMaximum() bool {
	own, printed := f.Maximum, f.official().Maximum
	return own.Known() && printed.Known() && own.Float64() == printed.Float64()
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

func flightsSheet(c *content) xlsx.Sheet {
	p := xlsx.Place("Flights", words.FlightsSheet, 1, len(c.flights), flightColumns())
	return xlsx.Sheet{
		Name: words.FlightsSheet, Tables: []xlsx.Placed{p}, FrozenRows: 1, FrozenColumns: 3, HeadRows: 1,
		LastColumn: p.Columns["remark"], Unprinted: true,
		Fill: func(b *xlsx.Book) {
			xlsx.Widths(b, flightColumns())
			xlsx.FillTable(b, p, flightColumns(), c.flights)
			b.Filter(p, "remark")
			b.Listed(p.Area("rules", "rules"), words.NotKnown, words.StyleAsked, b.Tables["Rules"], "rules")
			b.Choice(p.Area("counts", "counts"), words.NotKnown, words.CountsAsked, countsYes, countsPractice, countsVoid)
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
