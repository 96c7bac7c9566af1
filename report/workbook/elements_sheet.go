package workbook

import (
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// The formulas of a row of Elements: where its figure stands on Grades, what
// that lost, and the element's part, as package season shares it out. Faults
// noted on the element are charged first, up to the figure's whole loss; the
// rest goes by K, or evenly among elements without any.
const (
	elementShare  = `IF({elements-k}=0,1/{elements},{k}/{elements-k})`
	plainLoss     = `IF(ISNUMBER({figure-lost}),{figure-lost}*` + elementShare + `,"")`
	chargedPoints = `IF(ISNUMBER({figure-lost}),IF({deductions}*{figure-k}>{figure-lost},` +
		`{deduction}/{deductions}*{figure-lost},{deduction}*{figure-k}),"")`
	chargedLoss = `IF(ISNUMBER({figure-lost}),{charged}+MAX(0,{figure-lost}-{deductions}*{figure-k})*` + elementShare + `,"")`
)

// lookSome shows nothing for nothing.
var lookSome = xlsx.Look{Format: "0.00;-0.00;", Align: "right", Line: true}

func elementColumns() []xlsx.Column[elementRow] {
	return append([]xlsx.Column[elementRow]{
		{Key: "flight", Title: words.ColumnFlight, Width: 26, Look: xlsx.LookText, Value: func(e elementRow) xlsx.Value { return xlsx.Text(e.flight) }},
		{Key: "figure", Title: words.ColumnFigure, Width: 7.5, Look: xlsx.LookCentred, Value: func(e elementRow) xlsx.Value { return xlsx.Integer(e.figure.Number) }},
		{Key: "code", Title: words.ColumnElement, Width: 12, Look: xlsx.LookText, Value: func(e elementRow) xlsx.Value { return xlsx.Text(e.Code) }},
		{Key: "group", Title: words.ColumnFamily, Width: 38, Look: xlsx.LookText, Value: func(e elementRow) xlsx.Value { return xlsx.Text(e.group) }},
		{Key: "k", Title: words.ColumnK, Width: 7, Look: xlsx.LookTwo, Value: func(e elementRow) xlsx.Value { return number(e.K) }},
		{
			Key: "mean", Title: words.ColumnFiguresMean, Width: 9, Look: xlsx.LookTwo.Live(), Formula: `INDEX({Grades.mean},{at})`,
			Value: func(e elementRow) xlsx.Value { return number(e.figure.Mean) },
		},
		{
			Key: "figure-lost", Title: words.ColumnFiguresLost, Width: 9, Look: xlsx.LookTwo.Live(), Formula: `INDEX({Grades.lost},{at})`,
			Value: func(e elementRow) xlsx.Value { return number(e.figure.Lost) },
		},
		{Key: "deduction", Title: words.ColumnNotedDeduction, Width: 10.5, Look: lookSome, Value: func(e elementRow) xlsx.Value { return xlsx.Float(orZero(e.Deducted)) }},
		{
			Key: "charged", Title: words.ColumnChargedPoints, Width: 10, Look: lookSome.Live(),
			FormulaOf: func(e elementRow) string { return whereNoted(e, chargedPoints, "") },
			Value:     elementRow.charged,
		},
		{
			Key: "lost", Title: words.ColumnLost, Width: 10, Look: xlsx.LookTwo.Live().Strong(),
			FormulaOf: func(e elementRow) string { return whereNoted(e, chargedLoss, plainLoss) },
			Value:     func(e elementRow) xlsx.Value { return number(e.Lost) },
		},
	}, xlsx.FoldedAway([]xlsx.Column[elementRow]{
		{Key: "key", Title: words.ColumnFiguresNameInFormulas, Look: xlsx.LookText, Value: func(e elementRow) xlsx.Value { return xlsx.Text(e.key) }},
		{Key: "elements-k", Title: words.ColumnElementsK, Look: xlsx.LookTwo, Value: func(e elementRow) xlsx.Value { return number(e.elementK) }},
		{Key: "elements", Title: words.ColumnElementsOfTheFigure, Look: xlsx.LookInteger, Value: func(e elementRow) xlsx.Value { return xlsx.Integer(e.count) }},
		{Key: "deductions", Title: words.ColumnNotedOnTheFiguresElements, Look: xlsx.LookTwo, Value: func(e elementRow) xlsx.Value { return number(e.deducted) }},
		{Key: "first", Title: words.ColumnFirstOfItsFamilyInTheFigure, Look: xlsx.LookInteger, Value: func(e elementRow) xlsx.Value {
			if e.first {
				return xlsx.Integer(1)
			}
			return xlsx.Integer(0)
		}},
		{
			Key: "figure-k", Title: words.ColumnFiguresK, Look: xlsx.LookInteger,
			FormulaOf: func(e elementRow) string { return whereNoted(e, `INDEX({Grades.k},{at})`, "") },
			Value:     func(e elementRow) xlsx.Value { return xlsx.Integer(e.figure.K) },
		},
		{Key: "at", Title: words.ColumnRowOnGrades, Look: xlsx.LookInteger, Formula: `MATCH({key},{Grades.key},0)`, Value: func(e elementRow) xlsx.Value { return xlsx.Integer(e.at) }},
		{
			Key: "counted", Title: words.ColumnCountsForFamiliesOf, Look: xlsx.LookText,
			Formula: `IF(ISNUMBER({mean}),INDEX({Flights.counted},MATCH({flight},{Flights.flight},0)),"")`,
			Value:   func(e elementRow) xlsx.Value { return xlsx.Text(e.counted) },
		},
		{Key: "k-mean", Title: words.ColumnKTimesMean, Look: xlsx.LookTwo, Formula: `IF(ISNUMBER({mean}),{k}*{mean},"")`, Value: elementRow.kTimesMean},
	})...)
}

// whereNoted chooses a formula: one row in many has a noted fault.
func whereNoted(e elementRow, noted, plain string) string {
	if e.noted() {
		return noted
	}
	return plain
}

// elementsSheet is a helper: families add up its rows.
func elementsSheet(c *content) xlsx.Sheet {
	p := xlsx.Place("Elements", words.ElementsSheet, 1, len(c.elements), elementColumns())
	return xlsx.Sheet{
		Name: words.ElementsSheet, Unprinted: true, Tables: []xlsx.Placed{p}, FrozenRows: 1, FrozenColumns: 3, HeadRows: 1, LastColumn: p.Columns["lost"],
		Legend: words.ElementsLegend,
		Fill: func(b *xlsx.Book) {
			xlsx.Widths(b, elementColumns())
			xlsx.FillTable(b, p, elementColumns(), c.elements)
			b.Filter(p, "lost")
		},
	}
}
