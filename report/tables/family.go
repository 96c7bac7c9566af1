package tables

import (
	"slices"

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
	for _, f := range latestOf(d, most) {
		percent, rest := report.Num(f.Percent, words.PercentDecimals), report.Signed(f.VersusRest, 1)
		if f.Flight == d.BestFlight {
			percent = percent.Toned(report.Strong)
		}
		if f.OwnZero() {
			percent = percent.Marked(words.ZeroSign)
		}
		if f.RestZero() {
			rest = rest.Marked(words.ZeroSign)
		}
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(f.Date), report.Text(f.ContestName), report.Text(f.Programme), report.Text(words.FamilyGrades(d, f)), percent,
			report.Text(words.FamilyFaults(f)), rest,
		})
	}
	return t
}

// latestOf are the latest flights, so many at the most.
func latestOf(d answers.Family, most int) []answers.FamilyFlight {
	return d.Flights[max(0, len(d.Flights)-most):]
}

// FamilyNotes explain the table of so many flights: its zeros, and its columns where
// all is asked for.
func FamilyNotes(d answers.Family, most int, all bool) *report.Notes {
	notes := &report.Notes{}
	if all {
		notes = Notes(words.FamilyNotes(d))
	}
	if slices.ContainsFunc(latestOf(d, most), func(f answers.FamilyFlight) bool { return f.OwnZero() || f.RestZero() }) {
		notes.Items = append([]report.Note{{Mark: words.ZeroSign, Text: words.FamilyZero(d)}}, notes.Items...)
	}
	return notes
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
