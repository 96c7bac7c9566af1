package tables

import (
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// FaultTable has a row a fault line, and a column for its place in the video
// where one was noted.
func FaultTable(faults []answers.Fault) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{
		{Title: words.ColumnFig, Align: report.Right},
		{Title: words.ColumnFault, Flexible: true, Min: 10},
		{Title: words.ColumnAmount, Align: report.Right},
		{Title: words.ColumnOn, Drop: 2},
		{Title: words.ColumnCosts, Align: report.Right},
		{Title: words.ColumnNoted},
		{Title: words.ColumnBy, Drop: 1},
	}}
	placed := placedInVideo(faults)
	if placed {
		t.Columns = append(t.Columns, report.Column{Title: words.ColumnAt, Align: report.Right})
	}
	for _, f := range faults {
		figure, noted := report.Text(words.NoFigure), words.SeenCell
		if f.Figure > 0 {
			figure = CountCell(f.Figure)
		}
		if !f.Seen {
			noted = words.FeltCell
		}
		row := []report.Cell{
			figure, report.Text(f.Kind), report.Text(f.Amount), report.Text(f.On), costsCell(f), report.Text(noted), report.Text(f.By),
		}
		if placed {
			row = append(row, report.Text(f.At).Linked(MomentLink(f)))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// placedInVideo reports whether a place in a video was noted.
func placedInVideo(faults []answers.Fault) bool {
	return slices.ContainsFunc(faults, func(f answers.Fault) bool { return f.At != "" })
}

// costsCell is what a fault takes from the grade, with a sign where that is not
// plain; empty where it takes nothing.
func costsCell(f answers.Fault) report.Cell {
	costs := report.Num(f.Deduction, words.MeanDecimals)
	switch {
	case !f.Graded:
		return report.Empty()
	case !f.Deduction.Known():
		return report.Text(words.UnknownSign)
	case !f.Counted:
		return costs.Toned(report.Faint).Marked(words.DoubledSign)
	case f.Next:
		return costs.Marked(words.NextSign)
	default:
		return costs
	}
}

// expectedCell is an expected grade, with a sign where it is only the most that it
// can be.
func expectedCell(expected report.Number, unpriced bool) report.Cell {
	cell := report.Num(expected, words.MeanDecimals)
	if unpriced {
		return cell.Marked(words.UnknownSign)
	}
	return cell
}

// ExpectedTable has a row a figure with seen faults.
func ExpectedTable(expected []answers.Expected) *report.Table {
	t := &report.Table{Title: words.ExpectedTitle, Key: 2, Columns: []report.Column{
		{Title: words.ColumnFig, Align: report.Right},
		{Title: words.ColumnFigure, Flexible: true, Min: 10},
		{Title: words.ColumnExpected, Align: report.Right},
		{Title: words.ColumnGiven, Align: report.Right},
		{Title: words.ColumnDifference, Align: report.Right},
	}}
	for _, e := range expected {
		t.Rows = append(t.Rows, []report.Cell{
			CountCell(e.Figure), report.Text(e.Label), expectedCell(e.Expected, e.Unpriced),
			report.Num(e.Given, words.MeanDecimals), report.Signed(e.Difference, words.MeanDecimals),
		})
	}
	return t
}

// FaultNotes explain the signs that stand in the tables, give the remarks, and
// say what expected is.
func FaultNotes(d answers.Flight) *report.Notes { return faultNotes(d, words.ExpectedExplained) }

// FaultNotesInShort are the same, with the grades explained in a line.
func FaultNotesInShort(d answers.Flight) *report.Notes { return faultNotes(d, words.DebriefExplained) }

func faultNotes(d answers.Flight, explained string) *report.Notes {
	doubled, next, unknown, zeroed := false, false, false, false
	for _, f := range d.Faults {
		doubled = doubled || f.Graded && !f.Counted && f.Deduction.Known()
		next = next || f.Next && f.Counted && f.Deduction.Known()
	}
	for _, e := range d.Expected {
		unknown, zeroed = unknown || e.Unpriced, zeroed || e.Zeroed
	}
	notes := &report.Notes{}
	for _, sign := range []struct {
		stands     bool
		mark, text string
	}{
		{doubled, words.DoubledSign, words.DoubledText}, {next, words.NextSign, words.NextText}, {unknown, words.UnknownSign, words.UnknownText},
	} {
		if sign.stands {
			notes.Items = append(notes.Items, report.Note{Mark: sign.mark, Text: sign.text})
		}
	}
	notes.Items = append(notes.Items, Notes(words.FaultRemarks(d)).Items...)
	if len(d.Expected) > 0 {
		AddNote(notes, "%s", explained)
	}
	if zeroed {
		AddNote(notes, words.ZeroedExplained)
	}
	return notes
}
