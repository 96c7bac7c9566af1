package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// sheetMarks is how many columns of a sheet stand before the first judge's.
const sheetMarks = 3

// SheetTable has a row a figure and a column a judge.
func SheetTable(d answers.Flight) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{
		{Title: words.ColumnFig, Align: report.Right},
		{Title: words.ColumnFigure, Wrapped: true, Min: 10},
		{Title: words.ColumnK, Align: report.Right},
	}}
	for _, name := range d.Panel {
		t.Columns = append(t.Columns, report.Column{Title: name, Align: report.Right})
	}
	for _, title := range []string{words.ColumnMean, words.ColumnPoints, words.ColumnLost} {
		t.Columns = append(t.Columns, report.Column{Title: title, Align: report.Right})
	}
	for _, figure := range d.Figures {
		t.Rows = append(t.Rows, figureRows(figure)...)
	}
	if d.Positioning != nil {
		t.Rows = append(t.Rows, sheetRow(report.Number{}, words.PositioningName, *d.Positioning))
	}
	if d.Harmony != nil {
		t.Rows = append(t.Rows, sheetRow(report.Number{}, words.HarmonyName, *d.Harmony))
	}
	return t
}

// figureRows are a figure's row, or its rows and their mean where it was flown
// several times.
func figureRows(figure answers.Figure) [][]report.Cell {
	first := sheetRow(report.Int(int64(figure.Number)), answers.FigureLabel(figure), figure.Line)
	if len(figure.Rows) == 0 {
		return [][]report.Cell{first}
	}
	var rows [][]report.Cell
	for i, line := range figure.Rows {
		label, k := words.FlownAgain, report.Empty()
		number := report.Number{}
		if i == 0 {
			label, k, number = answers.FigureLabel(figure), CountCell(figure.K), report.Int(int64(figure.Number))
		}
		row := sheetRow(number, label, line)
		row[2], row[len(row)-2], row[len(row)-1] = k, report.Empty(), report.Empty()
		rows = append(rows, row)
	}
	mean := make([]report.Cell, len(first))
	mean[1] = report.Text(words.MeanOfRows(len(figure.Rows)))
	copy(mean[len(mean)-3:], first[len(first)-3:])
	return append(rows, mean)
}

func sheetRow(number report.Number, label string, line answers.Line) []report.Cell {
	row := []report.Cell{report.Num(number, 0), report.Text(label), CountCell(line.K)}
	for j, mark := range line.Marks {
		row = append(row, markCell(mark, line.Cells[j]))
	}
	mean, points, lost := report.Num(line.Mean, words.MeanDecimals), num(line.Points), num(line.Lost)
	if line.Ruling == answers.RulingUndecided {
		mean = report.Text(words.OpenCell).Toned(report.Bad)
	}
	return append(row, mean, points, lost)
}

// markCell shows a mark; what did not count as it stands is faint and has a
// sign, a hard zero stands out.
func markCell(mark string, cell answers.MarkCell) report.Cell {
	signs := map[answers.Counting]string{
		answers.FilledMark: words.FilledSign, answers.OverruledMark: words.OverruledSign, answers.DroppedMark: words.DroppedSign,
	}
	sign := signs[cell.Counted]
	shown := report.Text(mark).Marked(sign)
	switch {
	case cell.Kind == answers.HardZero || cell.Kind == answers.ConfirmedHardZero || cell.Kind == answers.PerceptionZero:
		return shown.Toned(report.Bad)
	case sign != "":
		return shown.Toned(report.Faint)
	default:
		return shown
	}
}

// ScoreFacts goes from raw points to the record.
func ScoreFacts(d answers.Flight) *report.Facts {
	facts := &report.Facts{}
	if d.Raw.Known() {
		AddFact(facts, words.FactRaw, num(d.Raw))
	}
	for _, p := range d.Penalties {
		AddFact(facts, words.PenaltyName(p.Kind), num(p.Points))
	}
	switch {
	case d.Points.Known():
		AddFact(facts, words.FactPoints, num(d.Points).Toned(report.Strong))
		AddFact(facts, words.FactMaximum, report.Num(d.Maximum, 0))
		AddFact(facts, words.FactPercent, report.Num(d.Percent, words.PercentDecimals).Toned(report.Strong))
	case d.Range != nil:
		AddFact(facts, words.FactPointsLow, num(d.Range.Low))
		AddFact(facts, words.FactPointsHigh, num(d.Range.High))
		AddFact(facts, words.FactMaximum, report.Num(d.Maximum, 0))
	}
	if o := d.Official; o != nil {
		AddFact(facts, words.FactOfficial, num(o.Points))
		if o.Maximum.Known() && !d.Maximum.Known() {
			AddFact(facts, words.FactOfficialMaximum, report.Num(o.Maximum, 0))
		}
		if o.Difference.Known() && !*o.Agrees {
			AddFact(facts, words.FactOfficialLessOwn, report.Signed(o.LessShown, words.PointDecimals))
		}
	}
	if d.Record != nil && d.Record.Percent.Text(words.PercentDecimals) != d.Percent.Text(words.PercentDecimals) {
		AddFact(facts, words.FactRecordPercent, report.Num(d.Record.Percent, words.PercentDecimals))
	}
	if d.Place > 0 {
		AddFact(facts, words.FactPlace, PlaceCell(d.Place, d.Of))
	}
	return facts
}
