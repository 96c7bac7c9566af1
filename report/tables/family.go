package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// The least widths of the columns of one family that go on in further lines.
const (
	familyGrades = 12
	familyFaults = 12
)

// FamilyTable has a row a flight, the latest ones or all of them: own grades and
// faults, then the comparison with the rest of the flight.
func FamilyTable(d answers.Family, most int) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: words.ColumnDate},
		{Title: words.ColumnContest, Wrapped: true, Min: 10, Drop: 1},
		{Title: words.ColumnProgramme},
		{Title: words.FamilyGradesTitle(d), Wrapped: true, Breaks: true, Min: familyGrades},
		{Title: words.ColumnPercent, Align: report.Right},
		{Title: words.ColumnOfFaults, Wrapped: true, Min: familyFaults},
		{Title: words.ColumnVsRest, Align: report.Right},
	}}
	for _, f := range d.Flights[max(0, len(d.Flights)-most):] {
		percent := report.Num(f.Percent, words.PercentDecimals)
		if f.Flight == d.BestFlight {
			percent = percent.Toned(report.Strong)
		}
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(f.Date), report.Text(f.ContestName), report.Text(f.Programme), report.Text(words.FamilyGrades(d, f)), percent,
			report.Text(words.FamilyFaults(f)), report.Signed(f.VersusRest, 1),
		})
	}
	return t
}

// FamilySeries draws the percents.
func FamilySeries(d answers.Family) *report.Series {
	series := &report.Series{Name: words.ColumnPercent, Decimals: words.PercentDecimals}
	for _, f := range d.Flights {
		series.Points = append(series.Points, report.Point{Label: f.Date, Value: f.Percent})
	}
	return series
}

// FamilyDrills are the drills on it, with what became of each.
func FamilyDrills(d answers.Family) *report.Notes {
	notes := &report.Notes{}
	for _, drill := range words.DrillsInOrder(d.Drills) {
		AddNote(notes, "%s", words.FamilyDrill(drill, d.Limits))
	}
	return notes
}
