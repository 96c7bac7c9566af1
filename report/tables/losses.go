package tables

import (
	"math/big"
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// LostTable shows the greatest losses, and the sum of the others.
func LostTable(d *answers.Lost, columns words.LostColumns, rows []words.LostRow) *report.Table {
	return lostTable(d, columns, rows, words.TopLosses)
}

// lostTable shows so many of the greatest losses.
func lostTable(d *answers.Lost, columns words.LostColumns, rows []words.LostRow, most int) *report.Table {
	t := &report.Table{Title: columns.Title, Key: 2, Columns: []report.Column{
		{Title: columns.Key, Align: keyAlign(columns)},
		{Title: columns.Name, Flexible: true, Min: 12},
		{Title: words.ColumnLost, Align: report.Right},
		{Title: words.ColumnShare, Align: report.Right, Bars: true},
	}}
	cut := len(rows) > most+1
	among := ""
	if cut {
		among = words.ZerosAmong(rows[most:])
		more := words.LostRow{Name: words.MoreRows(len(rows) - most), Part: sumOf(rows[most:], d.Total)}
		rows = append(slices.Clone(rows[:most]), more)
	}
	for i, row := range rows {
		share := shareCell(row.Part.Share)
		if cut && i == most {
			share = share.Summed()
		}
		t.Rows = append(t.Rows, []report.Cell{report.Text(row.Key), report.Text(row.Name), num(row.Part.Lost), share})
		t.Below = append(t.Below, row.Zeros())
	}
	if cut {
		t.Below[most] = among
	}
	t.Footer = [][]report.Cell{{report.Empty(), report.Text(words.AllCell), num(d.Total), shareCell(report.Int(1))}}
	return t
}

// sumOf adds up rows that are shown as one.
func sumOf(rows []words.LostRow, total report.Number) answers.LostPart {
	sum := new(big.Rat)
	for _, row := range rows {
		sum.Add(sum, row.Part.Lost.Rat())
	}
	return answers.LostPart{Lost: report.Exact(sum), Share: report.Exact(new(big.Rat).Quo(sum, total.Rat()))}
}

// shareCell shows a share in percent.
func shareCell(share report.Number) report.Cell {
	return report.Num(words.Percent(share), words.ShareDecimals)
}

// keyAlign puts figure numbers right.
func keyAlign(columns words.LostColumns) report.Align {
	if columns == words.LostByFigure {
		return report.Right
	}
	return report.Left
}
