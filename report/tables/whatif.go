package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// WhatIfTable has a row for points, percent and place, before and after.
func WhatIfTable(d answers.WhatIf) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{}, {Title: words.ColumnBefore, Align: report.Right}, {Title: words.ColumnAfter, Align: report.Right}, {Title: words.ColumnMore, Align: report.Right},
	}}
	add := func(label string, before, after, more report.Number, decimals int) {
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(label), report.Num(before, decimals), report.Num(after, decimals).Toned(report.Strong), report.Signed(more, decimals),
		})
	}
	add(words.FactPoints, d.Before.Points, d.After.Points, d.More.Points, words.PointDecimals)
	add(words.FactPercent, d.Before.Percent, d.After.Percent, d.More.Percent, words.PercentDecimals)
	if d.Before.Place > 0 || d.After.Place > 0 {
		row := []report.Cell{report.Text(words.FactPlace), report.Empty(), report.Empty(), report.Empty()}
		if d.Before.Place > 0 {
			row[1] = CountCell(d.Before.Place)
		}
		if d.After.Place > 0 {
			row[2] = CountCell(d.After.Place).Toned(report.Strong)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// WhatIfLines has a row a line of the sheet that counts otherwise.
func WhatIfLines(d answers.WhatIf) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{
		{Title: words.ColumnFig, Align: report.Right},
		{Title: words.ColumnFigure, Flexible: true, Min: 10},
		{Title: words.ColumnK, Align: report.Right},
		{Title: words.ColumnBefore, Align: report.Right},
		{Title: words.ColumnAfter, Align: report.Right},
		{Title: words.ColumnPoints, Align: report.Right},
	}}
	for _, line := range d.Lines {
		number, label := report.Empty(), line.Line
		if line.Figure > 0 {
			number, label = CountCell(line.Figure), line.Label
		}
		t.Rows = append(t.Rows, []report.Cell{
			number, report.Text(label), CountCell(line.K), report.Num(line.Before, words.MeanDecimals), report.Num(line.After, words.MeanDecimals), report.Signed(line.Gained, words.PointDecimals),
		})
	}
	return t
}

// ReachTable has a row a figure: its mean, and the grade that it alone would need.
func ReachTable(r answers.WhatItTakes) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{
		{Title: words.ColumnFig, Align: report.Right},
		{Title: words.ColumnFigure, Flexible: true, Min: 10},
		{Title: words.ColumnNow, Align: report.Right},
		{Title: words.ColumnAlone, Align: report.Right},
	}}
	for _, f := range r.Figures {
		alone := report.Text(words.NoneSign).Toned(report.Faint)
		if f.Grade.Known() {
			alone = report.Num(f.Grade, 1)
		}
		t.Rows = append(t.Rows, []report.Cell{CountCell(f.Number), report.Text(f.Label), report.Num(f.Have, words.MeanDecimals), alone})
	}
	return t
}

// WhatIfNotes say what a reader must know beside the numbers.
func WhatIfNotes(d answers.WhatIf) *report.Notes { return Notes(words.WhatIfNotes(d)) }

// ReachNotes explain the table of what a target takes.
func ReachNotes(r answers.WhatItTakes) *report.Notes { return Notes(words.ReachNotes(r)) }
