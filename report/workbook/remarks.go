package workbook

import (
	"cmp"
	"fmt"
	"slices"

	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// remarkRow is what somebody said of a flight: a fault as noted, or a note of the
// video or of the flight. What a fault has not is absent.
type remarkRow struct {
	flight   flightRow
	fault    answers.Fault
	label    string
	kind     string
	noted    string
	by       string
	remark   string
	expected answers.Expected // of the figure, the zero one where there is none
	key      string           // of the figure's row on Grades, "" where it has none
}

// remarkRows are those of all flights, each flight's faults by figure and then its
// notes.
func (c *content) remarkRows() []remarkRow {
	var rows []remarkRow
	for _, f := range c.flights {
		faults := make([]remarkRow, len(f.Faults))
		for i, fault := range f.Faults {
			faults[i] = faultRemark(f, fault)
		}
		slices.SortStableFunc(faults, func(a, b remarkRow) int { return cmp.Compare(a.fault.Figure, b.fault.Figure) })
		rows = append(rows, faults...)
		for _, review := range f.Reviews {
			for _, note := range review.Notes {
				rows = append(rows, remarkRow{flight: f, kind: words.RemarkReview, by: review.By, remark: note})
			}
		}
		for _, note := range f.Notes {
			rows = append(rows, remarkRow{flight: f, kind: words.RemarkNote, remark: note})
		}
	}
	return rows
}

func faultRemark(f flightRow, fault answers.Fault) remarkRow {
	row := remarkRow{flight: f, fault: fault, label: fault.Label, kind: fault.Kind, noted: words.FeltCell, by: fault.By, remark: fault.Remark}
	if fault.Seen {
		row.noted = words.SeenCell
	}
	for _, e := range f.Expected {
		if e.Figure == fault.Figure {
			row.expected = e
		}
	}
	for _, figure := range f.Figures {
		if figure.Number == fault.Figure {
			row.label, row.key = figure.Label, figureKey(f.Flight.Flight, xlsx.Integer(figure.Number))
		}
	}
	return row
}

// given is the formula of the panel's mean, none where the figure has no row.
func (r remarkRow) given() string {
	if !r.hasGiven() {
		return ""
	}
	return `INDEX({Grades.mean},MATCH({key},{Grades.key},0))`
}

func (r remarkRow) hasGiven() bool { return r.key != "" && r.expected.Given.Known() }

// costs is what a judge takes for it, nothing where that is not known or no judge
// does.
func (r remarkRow) costs() xlsx.Value {
	if !r.fault.Graded {
		return xlsx.Value{}
	}
	return number(r.fault.Deduction)
}

func remarkColumns() []xlsx.Column[remarkRow] {
	return append([]xlsx.Column[remarkRow]{
		{Key: "date", Title: words.ColumnDate, Width: 11, Look: xlsx.LookDate, Value: func(r remarkRow) xlsx.Value { return day(r.flight.Date) }},
		{Key: "contest", Title: words.ColumnContest, Width: 23, Look: xlsx.LookWrap.Indented(), Value: func(r remarkRow) xlsx.Value { return xlsx.Text(r.flight.ContestName) }},
		{Key: "programme", Title: words.ColumnProgramme, Width: 12, Look: xlsx.LookText, Value: func(r remarkRow) xlsx.Value { return xlsx.Text(r.flight.Programme) }},
		{Key: "figure", Title: words.ColumnFigure, Width: 7.5, Look: xlsx.LookCentred, Value: func(r remarkRow) xlsx.Value { return xlsx.Whole(r.fault.Figure) }},
		{Key: "label", Title: words.ColumnLabel, Width: 30, Look: xlsx.LookWrap, Value: func(r remarkRow) xlsx.Value { return xlsx.Text(r.label) }},
		{Key: "kind", Title: words.ColumnKind, Width: 16, Look: xlsx.LookText, Value: func(r remarkRow) xlsx.Value { return xlsx.Text(r.kind) }},
		{Key: "amount", Title: words.ColumnAmount, Width: 9, Look: xlsx.LookCentred, Value: func(r remarkRow) xlsx.Value { return xlsx.Text(r.fault.Amount) }},
		{Key: "on", Title: words.ColumnOn, Width: 13, Look: xlsx.LookText.Indented(), Value: func(r remarkRow) xlsx.Value { return xlsx.Text(r.fault.On) }},
		{Key: "costs", Title: words.ColumnCosts, Width: 7.5, Look: xlsx.LookTwo, Value: remarkRow.costs},
		{Key: "expected", Title: words.ColumnExpected, Width: 9.5, Look: xlsx.LookTwo, Value: func(r remarkRow) xlsx.Value { return number(r.expected.Expected) }},
		{
			Key: "given", Title: words.ColumnGiven, Width: 8.5, Look: xlsx.LookTwo.Live(), FormulaOf: remarkRow.given,
			Value: func(r remarkRow) xlsx.Value {
				if !r.hasGiven() {
					return xlsx.Value{}
				}
				return number(r.expected.Given)
			},
		},
		{Key: "noted", Title: words.ColumnNoted, Width: 8, Look: xlsx.LookCentred, Value: func(r remarkRow) xlsx.Value { return xlsx.Text(r.noted) }},
		{Key: "at", Title: words.ColumnAt, Width: 7.5, Look: xlsx.LookCentred, Value: func(r remarkRow) xlsx.Value { return xlsx.Text(r.fault.At) }},
		{Key: "by", Title: words.ColumnBy, Width: 13, Look: xlsx.LookText, Value: func(r remarkRow) xlsx.Value { return xlsx.Text(r.by) }},
		{Key: "remark", Title: words.ColumnRemark, Width: 52, Look: xlsx.LookWrap, Value: func(r remarkRow) xlsx.Value { return xlsx.Text(r.remark) }},
	}, xlsx.FoldedAway([]xlsx.Column[remarkRow]{
		{Key: "key", Title: words.ColumnFiguresNameInFormulas, Look: xlsx.LookText, Value: func(r remarkRow) xlsx.Value { return xlsx.Text(r.key) }},
		{Key: "flight", Title: words.ColumnFlight, Look: xlsx.LookText, Value: func(r remarkRow) xlsx.Value { return xlsx.Text(r.flight.Flight.Flight) }},
	})...)
}

// remarksSheet is what coach and pilot said, a row a fault or a note; where nobody said
// anything no page of it is printed.
func remarksSheet(c *content) xlsx.Sheet {
	rows := c.remarkRows()
	p := xlsx.Place("Remarks", words.RemarksSheet, 1, len(rows), remarkColumns())
	return xlsx.Sheet{
		Name: words.RemarksSheet, Tables: []xlsx.Placed{p}, FrozenRows: 1, FrozenColumns: 4, HeadRows: 1, PagesTall: c.pagesTall(1),
		LastColumn: p.Columns["remark"], Legend: words.RemarksLegend, Unprinted: len(rows) == 0,
		Fill: func(b *xlsx.Book) {
			xlsx.Widths(b, remarkColumns())
			xlsx.FillTable(b, p, remarkColumns(), rows)
			b.Filter(p, "remark")
			dressFlightsApart(b, p, "flight", "remark")
		},
	}
}

// dressFlightsApart draws a line between the rows of two flights, which a working
// column names.
func dressFlightsApart(b *xlsx.Book, p xlsx.Placed, flight, last string) {
	formula := fmt.Sprintf("$%[1]s%[2]d<>$%[1]s%[3]d", xlsx.ColumnName(p.Columns[flight]), p.First(), p.Head)
	b.Conditional(p.Area("date", last), xlsx.Rule{Formula: formula, Dress: xlsx.Dress{LineAbove: true}})
}
