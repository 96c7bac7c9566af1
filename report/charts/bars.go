package charts

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// The measures of a row with a bar, in pixels.
const (
	nameLine   = 17.
	barGap     = 6.
	barTall    = 8.
	rowGap     = 16.
	numberRoom = 44.
)

// barRow is one row: a name, a number beside it, a bar beneath.
type barRow struct {
	name   string
	number report.Number
	data   data
}

// bars are rows of bars, the greatest number at full length.
func bars(rows []barRow, decimals int) (shapes []report.Shape, height int) {
	greatest := 0.0
	for _, r := range rows {
		greatest = max(greatest, r.number.Float64())
	}
	y := 0.0
	for _, r := range rows {
		var drawn []report.Shape
		first := y + nameLine - 4
		for _, text := range wrapped(r.name, numberRoom) {
			y += nameLine
			drawn = append(drawn, label("name", "0", y-4, text))
		}
		y += barGap - 4
		drawn = append(drawn, label("number end", "100%", first, r.number.Text(decimals)), box("track", "0", y, "100%", barTall))
		if greatest > 0 && r.number.Float64() > 0 {
			drawn = append(drawn, box("full", "0", y, across(r.number.Float64()/greatest), barTall))
		}
		shapes = append(shapes, group(r.data.attributes, drawn...))
		y += barTall + rowGap
	}
	return shapes, int(y)
}

// mostKinds is how many kinds a picture shows.
const mostKinds = 8

// Stake is the points at stake by kind of fault and family, the dearest rows of
// the answer first; nil where none are known.
func Stake(d answers.Faults) *report.Drawing {
	var rows []barRow
	var most answers.FaultKind
	for _, k := range d.Kinds {
		if !k.Points.Known() || k.Points.Float64() <= 0 || len(rows) == mostKinds {
			continue
		}
		row := barRow{name: words.StakeName(k), number: k.Points}
		row.data.text("kind", k.Kind).text("group", k.Group).number("points", k.Points)
		rows = append(rows, row)
		if !most.Points.Known() || k.Points.Float64() > most.Points.Float64() {
			most = k
		}
	}
	if len(rows) == 0 {
		return nil
	}
	drawing := &report.Drawing{Title: words.StakePicture, Finding: words.StakeFinding(most)}
	drawing.Shapes, drawing.Height = bars(rows, 0)
	return drawing
}

// Losses are the points that each figure of a flight lost, the most first; nil
// where none were.
func Losses(d *answers.Lost) *report.Drawing {
	if d == nil || !words.AnyLost(d) {
		return nil
	}
	var rows []barRow
	for _, r := range words.FigureRows(d) {
		row := barRow{name: words.LossName(r), number: r.Part.Lost}
		row.data.text("figure", r.Key).number("lost", r.Part.Lost)
		rows = append(rows, row)
	}
	drawing := &report.Drawing{Title: words.LossesPicture, Finding: words.LossesFinding(d)}
	drawing.Shapes, drawing.Height = bars(rows, words.PointDecimals)
	return drawing
}
