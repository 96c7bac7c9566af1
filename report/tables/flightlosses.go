package tables

import (
	"fmt"
	"math/big"
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// AddTotals sets the sums off beneath a sheet: what the lines come to, then what
// penalties leave of it.
func AddTotals(t *report.Table, d answers.Flight) {
	if !d.Raw.Known() || d.Lost == nil {
		return
	}
	total := func(name string, points, lost report.Cell) {
		row := make([]report.Cell, len(t.Columns))
		row[1], row[len(row)-2], row[len(row)-1] = report.Text(name), points, lost
		t.Footer = append(t.Footer, row)
	}
	if words.TotalsBeneath(d) {
		total(words.TotalsCell, num(d.Raw), num(d.Lost.Total))
		addJudges(t.Footer[0], d)
	} else {
		total(words.AllCell, num(d.Raw), num(d.Lost.Total))
	}
	for _, p := range d.Penalties {
		total(words.LessPenalty(p.Kind), num(p.Points), report.Empty())
	}
	if len(d.Penalties) > 0 {
		total(words.FactPoints, num(d.Points), report.Empty())
	}
}

// addJudges sets each judge's total into the row of sums, beneath the judge's marks.
func addJudges(row []report.Cell, d answers.Flight) {
	for _, j := range d.Judges {
		if at := slices.Index(d.Panel, j.Name); at >= 0 {
			row[sheetMarks+at] = report.Num(j.Total, 0)
		}
	}
}

// FlightSheetNotes are the judges' totals, what must be known of the marks, and
// the lone grades.
func FlightSheetNotes(d answers.Flight) *report.Notes {
	return &report.Notes{Items: slices.Concat(Notes(words.JudgesTotals(d)).Items, SheetNotes(d).Items, Notes(words.FlagNotes(d.Flags)).Items)}
}

// BriefSheetNotes are what must be known of the marks, and the lone grades.
func BriefSheetNotes(d answers.Flight) *report.Notes {
	return &report.Notes{Items: slices.Concat(SheetNotes(d).Items, Notes(words.FlagNotes(d.Flags)).Items)}
}

// leastLosses is how many figures a flight's page names as those that lost most,
// whether a fault is noted on them or not.
const leastLosses = 3

// LossFaultTable has the figures that lost most and those with a fault noted, the
// greatest loss first, a row a fault; the rest are summed up. It has no row where
// nothing was lost and no fault is noted.
func LossFaultTable(d answers.Flight) *report.Table {
	t := &report.Table{Key: 1, Columns: lossFaultColumns(d)}
	width := len(t.Columns)
	done := map[string]bool{}
	more, rest := 0, new(big.Rat)
	for i, row := range lossRows(d) {
		noted := faultsOn(d, row.Key)
		done[row.Key] = true
		if i >= leastLosses && len(noted) == 0 {
			more, rest = more+1, rest.Add(rest, row.Part.Lost.Rat())
			continue
		}
		t.Rows = append(t.Rows, lossRow(d, row, noted, width)...)
	}
	for _, f := range d.Faults {
		key := figureKey(f.Figure)
		if !done[key] {
			done[key] = true
			t.Rows = append(t.Rows, lossRow(d, words.LostRow{Key: key}, faultsOn(d, key), width)...)
		}
	}
	if more > 0 {
		row := make([]report.Cell, width)
		row[0], row[1] = report.Text(words.MoreRows(more)), num(report.Exact(rest)).Summed()
		t.Rows = append(t.Rows, row)
	}
	return t
}

// TopLossTable has the figures that lost most; the rest are summed up.
func TopLossTable(d *answers.Lost) *report.Table {
	t := lostTable(d, words.LostByFigure, words.FigureRows(d), leastLosses)
	t.Title, t.Footer = "", nil
	return t
}

// lossFaultColumns has a column for places in a video where one was noted.
func lossFaultColumns(d answers.Flight) []report.Column {
	columns := []report.Column{
		{Title: words.ColumnFig, Align: report.Right},
		{Title: words.ColumnLost, Align: report.Right},
		{Title: words.ColumnGiven, Align: report.Right},
		{Title: words.ColumnExpected, Align: report.Right},
		{Title: words.ColumnFault, Wrapped: true, Min: 12},
		{Title: words.ColumnAmount, Align: report.Right},
		{Title: words.ColumnCosts, Align: report.Right},
		{Title: words.ColumnNoted},
	}
	if placedInVideo(d.Faults) {
		columns = append(columns, report.Column{Title: words.ColumnAt, Align: report.Right})
	}
	return columns
}

// lossRows are the lines of a sheet that was marked, the greatest loss first.
func lossRows(d answers.Flight) []words.LostRow {
	if d.Lost == nil {
		return nil
	}
	return words.FigureRows(d.Lost)
}

// figureKey is a figure's number as a row of losses has it.
func figureKey(figure int) string {
	if figure == 0 {
		return words.NoFigure
	}
	return fmt.Sprint(figure)
}

// faultsOn are the faults noted on a figure, in the order noted.
func faultsOn(d answers.Flight, key string) []answers.Fault {
	return slices.DeleteFunc(slices.Clone(d.Faults), func(f answers.Fault) bool { return figureKey(f.Figure) != key })
}

// lossRow is a figure with its faults, the first of them beside it.
func lossRow(d answers.Flight, row words.LostRow, noted []answers.Fault, width int) [][]report.Cell {
	rows := make([][]report.Cell, max(1, len(noted)))
	for i := range rows {
		rows[i] = make([]report.Cell, width)
	}
	first := rows[0]
	first[0], first[1] = report.Text(row.Key), num(row.Part.Lost)
	if row.Key == "" { // a weighted line, which has no fault
		first[0] = report.Text(row.Name)
	}
	for _, figure := range d.Figures {
		if figureKey(figure.Number) == row.Key {
			first[2] = report.Num(figure.Mean, words.MeanDecimals)
		}
	}
	for _, e := range d.Expected {
		if figureKey(e.Figure) == row.Key {
			first[3] = expectedCell(e.Expected, e.Unpriced)
		}
	}
	for i, f := range noted {
		rows[i][4], rows[i][5], rows[i][6], rows[i][7] = report.Text(f.Kind), report.Text(f.Amount), costsCell(f), report.Text(words.NotedBy(f))
		if width > 8 {
			rows[i][8] = report.Text(f.At).Linked(MomentLink(f))
		}
	}
	return rows
}
