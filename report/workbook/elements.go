package workbook

import (
	"fmt"
	"math/big"
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// elementRow is one element of one figure flown; a figure without elements is
// a row without a code.
type elementRow struct {
	answers.Element
	flight   string
	figure   answers.Figure
	key      string // the figure's row on the sheet Grades
	at       int    // which row of its table that is, from 1
	group    string
	elementK report.Number // K of all elements of the figure
	deducted report.Number // deductions noted on any of them, in grades
	count    int           // elements of the figure
	first    bool          // the first of its group in the figure that weighs anything
	counted  string        // the category in whose figures it counts, "" for none
}

// figureKey names a row of Grades: no two are alike.
func figureKey(flight string, figure xlsx.Value) string {
	name := figure.Text
	if figure.Numeric {
		name = fmt.Sprintf("figure %d", int(figure.Number))
	}
	return flight + " " + name
}

// gradeKey is the working column of Grades by which Elements finds a row.
func gradeKey() []xlsx.Column[gradeRow] {
	return xlsx.FoldedAway([]xlsx.Column[gradeRow]{{
		Key: "key", Title: words.ColumnRowsNameInFormulas, Look: xlsx.LookText,
		Value: func(g gradeRow) xlsx.Value { return xlsx.Text(figureKey(g.flight.Flight.Flight, g.figure)) },
	}})
}

// counted is the category for whose families the flight counts.
func (f flightRow) counted() string {
	if f.Counts != answers.CountsContest || !f.marked() || !f.line.Percent.Known() || !f.coded() {
		return ""
	}
	return f.Category
}

// coded reports whether any element has K of a family.
func (f flightRow) coded() bool {
	weighed := func(e answers.Element) bool { return e.K.Float64() > 0 }
	return slices.ContainsFunc(f.Figures, func(figure answers.Figure) bool { return slices.ContainsFunc(figure.Elements, weighed) })
}

// elementRows lists the elements of a flight that has rows on Grades, the first
// of which is that row of the table, from 1.
func elementRows(f *flightRow, firstRow int) []elementRow {
	var rows []elementRow
	for _, figure := range f.Figures {
		of := elementRow{
			flight: f.Flight.Flight, figure: figure, key: figureKey(f.Flight.Flight, xlsx.Integer(figure.Number)), at: firstRow,
			group: words.NoFamily, count: 1,
		}
		firstRow += max(1, len(figure.Rows))
		if figure.Mean.Known() {
			of.counted = f.counted()
		}
		if len(figure.Elements) == 0 {
			of.K, of.elementK, of.deducted, of.Lost = report.Int(0), report.Int(0), report.Int(0), figure.Lost
			rows = append(rows, of)
			continue
		}
		rows = append(rows, of.elements(figure.Elements)...)
	}
	return rows
}

// elements makes a row of each of the figure's elements.
func (e elementRow) elements(elements []answers.Element) []elementRow {
	rows := make([]elementRow, len(elements))
	k, deducted := new(big.Rat), new(big.Rat)
	for _, element := range elements {
		k.Add(k, element.K.Rat())
		if element.Deducted.Known() {
			deducted.Add(deducted, element.Deducted.Rat())
		}
	}
	e.count, e.elementK, e.deducted = len(elements), report.Exact(k), report.Exact(deducted)
	weighed := map[string]bool{}
	for i, element := range elements {
		row := e
		row.Element, row.group = element, words.FamilyTitle(element.Group)
		if element.K.Float64() > 0 && !weighed[row.group] {
			row.first, weighed[row.group] = true, true
		}
		rows[i] = row
	}
	return rows
}

// noted reports whether any fault names an element of the figure.
func (e elementRow) noted() bool { return e.deducted.Float64() > 0 }

// charged is what the noted faults take of the element's points.
func (e elementRow) charged() xlsx.Value {
	switch {
	case e.noted() && !e.figure.Lost.Known():
		return xlsx.Value{}
	case !e.Charged.Known():
		return xlsx.Integer(0)
	}
	return number(e.Charged)
}

// kTimesMean weighs the mean.
func (e elementRow) kTimesMean() xlsx.Value {
	if !e.figure.Mean.Known() {
		return xlsx.Value{}
	}
	return xlsx.Exact(new(big.Rat).Mul(e.K.Rat(), e.figure.Mean.Rat()))
}
