package tables

import (
	"fmt"
	"math/big"
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season"
)

// Table shows the greatest losses, and the sum of the others.
func Table(d *answers.Lost, title, key, name string, rows []words.LostRow) *report.Table {
	t := &report.Table{Title: title, Key: 2, Columns: []report.Column{
		{Title: key, Align: keyAlign(key)},
		{Title: name, Flexible: true, Min: 12},
		{Title: "lost", Align: report.Right},
		{Title: "share %", Align: report.Right, Bars: true},
	}}
	cut := len(rows) > words.TopLosses+1
	if cut {
		rest := new(big.Rat)
		for _, row := range rows[words.TopLosses:] {
			rest.Add(rest, row.Part.Exact)
		}
		more := words.LostRow{Name: fmt.Sprintf("%d more", len(rows)-words.TopLosses), Part: answers.LostPartOf(rest, d.Whole)}
		rows = append(slices.Clone(rows[:words.TopLosses]), more)
	}
	for i, row := range rows {
		share := report.Num(row.Part.Percent, words.ShareDecimals)
		if cut && i == words.TopLosses {
			share = share.Summed()
		}
		t.Rows = append(t.Rows, []report.Cell{report.Text(row.Key), report.Text(row.Name), num(row.Part.Lost), share})
	}
	t.Footer = [][]report.Cell{{report.Empty(), report.Text("all"), num(d.Total), report.Num(answers.LostPartOf(d.Whole, d.Whole).Percent, words.ShareDecimals)}}
	return t
}

// keyAlign puts figure numbers right.
func keyAlign(key string) report.Align {
	if key == "fig" {
		return report.Right
	}
	return report.Left
}

// LostNotes say how the loss was shared out.
func LostNotes(d *answers.Lost) *report.Notes {
	notes := &report.Notes{}
	if d.Undecided > 0 {
		AddNote(notes, "%s undecided and left out: the shares are of the decided ones", season.Counted(d.Undecided, "line is", "lines are"))
	}
	if d.Whole.Sign() == 0 {
		return notes
	}
	if d.Charged {
		AddNote(notes, "a fault noted on an element is charged to it first; the rest of a figure's loss is shared in proportion to K")
	} else {
		AddNote(notes, "a figure's loss is shared among its elements in proportion to K")
	}
	return notes
}
