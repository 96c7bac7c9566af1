package tables

import (
	"fmt"
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season"
)

// SeasonTable has a row a flight.
func SeasonTable(d answers.Season) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Key: "date", Title: words.ColumnDate},
		{Key: "contest", Title: words.ColumnContest, Wrapped: true, Min: 16},
		{Key: "programme", Title: words.ColumnProgramme},
		{Key: "category", Title: words.ColumnCategory, Drop: 3},
		{Title: words.ColumnPoints, Align: report.Right, Drop: 2},
		{Title: words.ColumnMaximumTitle, Align: report.Right, Drop: 4},
		{Key: "percent", Title: words.ColumnPercent, Align: report.Right},
		{Title: words.ColumnNoise, Align: report.Right},
		{Key: "place", Title: words.ColumnPlace, Align: report.Right},
		{Key: "toWinner", Title: words.ColumnToWinner, Align: report.Right},
		{Key: "toMedian", Title: words.ColumnToMedian, Align: report.Right, Drop: 1},
	}}
	for _, f := range d.Flights {
		percent := report.Num(f.Percent, words.PercentDecimals)
		switch {
		case f.Void != "":
			percent = report.Text("void")
		case f.Undecided && !f.Percent.Known():
			percent = report.Text("open")
		case f.Source == string(season.Printed):
			percent = percent.Marked(words.OfficialSign)
		}
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(f.Date), report.Text(f.ContestName), report.Text(f.Programme), report.Text(f.Category),
			num(f.Points), report.Num(f.Maximum, 0), percent, report.Num(f.Noise, 1), PlaceCell(f.Place, f.Of),
			report.Signed(f.ToWinner, words.PointDecimals), report.Signed(f.ToMedian, words.PointDecimals),
		})
	}
	return t
}

// SeasonData is the table for programs: what a sign says to people is a column.
func SeasonData(d answers.Season) *report.Table {
	t := SeasonTable(d)
	t.Columns = append(t.Columns, report.Column{Key: "sequence", Title: words.ColumnSequence}, report.Column{Key: "source", Title: words.ColumnSource})
	for i, f := range d.Flights {
		t.Rows[i] = append(t.Rows[i], report.Text(f.Sequence), report.Text(f.Source))
	}
	return t
}

// SeasonBrief has a row a flight without what only explains it.
func SeasonBrief(d answers.Season) *report.Table {
	keys := []string{"date", "contest", "programme", "percent", "place", "toWinner", "toMedian"}
	if len(d.Categories) > 1 {
		keys = append(keys, "category")
	}
	return only(SeasonShown(d), keys...)
}

// SeasonShown is the table for people: of several flights of a day and programme all
// but the first have their number, and of each stands last of which sequence it is. Where
// a day has several, the programme tells them apart in each part of a table that is split.
func SeasonShown(d answers.Season) *report.Table {
	t := SeasonTable(d)
	at := slices.IndexFunc(t.Columns, func(c report.Column) bool { return c.Key == "programme" })
	t.Columns = append(t.Columns, report.Column{Key: "sequence", Title: words.ColumnSequence})
	for i, f := range d.Flights {
		t.Columns[at].Names = t.Columns[at].Names || i > 0 && d.Flights[i-1].Date == f.Date
		t.Rows[i][at] = report.Text(words.ProgrammeNumbered(f.Programme, f.Label))
		t.Rows[i] = append(t.Rows[i], report.Text(f.Sequence))
	}
	return t
}

// PlaceCell writes "3 of 9", "3", or nothing.
func PlaceCell(place, of int) report.Cell {
	switch {
	case place == 0:
		return report.Empty()
	case of == 0:
		return report.Text(fmt.Sprint(place))
	default:
		return report.Text(fmt.Sprintf("%d of %d", place, of))
	}
}

// SeasonNotes explain what the table shows by signs; all of its columns or those
// of the brief one.
func SeasonNotes(d answers.Season, all bool) *report.Notes {
	notes := &report.Notes{}
	official, distances, medians, noise := false, false, false, false
	for _, f := range d.Flights {
		official = official || f.Source == string(season.Printed)
		distances = distances || f.ToWinner.Known()
		medians = medians || f.ToMedian.Known()
		noise = noise || f.Noise.Known()
		if f.Void != "" {
			AddNote(notes, "%s: %s", f.Flight, words.VoidFlight(f))
		}
		switch {
		case f.MayBePercent:
			AddNote(notes, "%s: %s", f.Flight, words.MayBePercent(f))
		case f.Difference.Known():
			AddNote(notes, "%s: %s", f.Flight, words.OfficialDiffers(f.Flight, f.DifferenceShown))
		}
		if f.OtherMaximum.Known() {
			AddNote(notes, "%s: %s", f.Flight, words.OtherMaximum(f))
		}
		if f.Undecided && !f.Percent.Known() {
			AddNote(notes, "%s: %s", f.Flight, words.UndecidedFlight(f))
		}
		if f.Source == string(season.Printed) && f.Void == "" && !f.Percent.Known() {
			AddNote(notes, "%s: %s", f.Flight, words.TotalAlone)
		}
	}
	var first []report.Note
	if official {
		first = append(first, report.Note{Mark: words.OfficialSign, Text: words.OfficialExplained})
	}
	if noise && all {
		first = append(first, report.Note{Text: words.NoiseExplained})
	}
	if distances {
		first = append(first, report.Note{Text: words.DistancesExplained(medians)})
	}
	alone := ""
	if all {
		alone = words.ContestsUnnamed(d.Flights)
	}
	for _, said := range []string{words.ZerosAndPenalties(d.Flights, all), words.SequencesFlown(d.Flights), words.AircraftChange(d), alone} {
		if said != "" {
			first = append(first, report.Note{Text: said})
		}
	}
	notes.Items = append(first, notes.Items...)
	return notes
}

// PercentSeries draws the percents of the flights that enter figures.
func PercentSeries(d answers.Season) *report.Series {
	series := &report.Series{Name: "percent", Decimals: words.PercentDecimals}
	for _, f := range d.Flights {
		if f.Enters {
			series.Points = append(series.Points, report.Point{Label: f.Date, Value: f.Percent})
		}
	}
	return series
}

// SeasonFacts are the best and the worst flight, none where no flight has a
// percent.
func SeasonFacts(d answers.Season) *report.Facts {
	facts := &report.Facts{}
	add := func(label, flight string) {
		for _, f := range d.Flights {
			if f.Flight == flight {
				AddFact(facts, label, report.Text(fmt.Sprintf("%s%%  %s", f.Percent.Text(words.PercentDecimals), f.Flight)))
			}
		}
	}
	add("best", d.Best)
	if d.Worst != d.Best {
		add("worst", d.Worst)
	}
	return facts
}

// ContestTable has a row a contest.
func ContestTable(d answers.Season) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: words.ColumnDate},
		{Title: words.ColumnContest, Wrapped: true, Min: 16},
		{Title: words.ColumnCategory, Drop: 1},
		{Title: words.ColumnFlights, Align: report.Right},
		{Title: words.ColumnPrinted, Align: report.Right},
		{Title: words.ColumnSum, Align: report.Right},
		{Title: words.ColumnMaximumTitle, Align: report.Right, Drop: 2},
		{Title: words.ColumnPercent, Align: report.Right},
		{Title: words.ColumnPlace, Align: report.Right},
	}}
	for _, c := range d.Contests {
		printed := report.Empty()
		if c.Source == string(season.Printed) {
			printed = num(c.Points)
		}
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(c.Date), report.Text(c.Name), report.Text(c.Category), CountCell(c.Flights),
			printed, num(c.Sum.Points), report.Num(c.Maximum, 0), report.Num(c.Percent, words.PercentDecimals), PlaceCell(c.Place, c.Of),
		})
	}
	return t
}

// ContestNotes explain the columns.
func ContestNotes(d answers.Season) *report.Notes {
	notes := &report.Notes{}
	for _, c := range d.Contests {
		if c.Source == string(season.Printed) {
			AddNote(notes, "%s", words.ContestPercent)
			break
		}
	}
	return notes
}
