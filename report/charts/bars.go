package charts

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// The measures of a row with a bar, in pixels.
const (
	nameLine   = 17.
	barTall    = 8.
	barGap     = 3. // between a name and the bar beneath it
	rowGap     = 11.
	numberRoom = 44.
	// besideLine and besideGap are of a row whose bar stands beside its name.
	besideLine = 15.
	besideGap  = 7.
)

// Where a bar beside its name begins and ends, in shares of the width: the name is
// at the left, the number at the right.
const besideFrom, besideTo = .5, .83

// So many round values are at the most on the scale of bars.
const mostBarTicks, mostBesideTicks = 5, 3

// barRow is one row: a name, a number, a bar.
type barRow struct {
	name   string
	number report.Number
	data   data
}

// greatest is the greatest number of the rows, at least 0.
func greatest(rows []barRow) float64 {
	most := 0.0
	for _, r := range rows {
		most = max(most, r.number.Float64())
	}
	return most
}

// bars are rows of bars beneath their names, over a scale of points.
func bars(rows []barRow, decimals int) (shapes []report.Shape, height int) {
	s := scale{0, greatest(rows), 0, 1}
	y := 0.0
	for _, r := range rows {
		var drawn []report.Shape
		first := y + nameLine - 4
		for _, text := range wrapped(r.name, numberRoom) {
			y += nameLine
			drawn = append(drawn, label("name", "0", y-4, text))
		}
		y += barGap
		drawn = append(drawn, label("number end", "100%", first, r.number.Text(decimals)), box("track", "0", y, "100%", barTall))
		shapes = append(shapes, group(r.data.attributes, append(drawn, bar(s, r.number, y)...)...))
		y += barTall + rowGap
	}
	y -= rowGap / 2
	return append(axis(s, y, words.PictureUnitPoints, mostBarTicks), shapes...), int(y) + axisTall
}

// barsBeside are rows of bars beside their names, over a scale of points: for many
// rows, of which each is short.
func barsBeside(rows []barRow, decimals int) (shapes []report.Shape, height int) {
	s := scale{0, greatest(rows), besideFrom, besideTo}
	y := 0.0
	for _, r := range rows {
		lines := wrapped(r.name, narrowPage*(1-besideFrom))
		tall := besideLine * float64(len(lines))
		var drawn []report.Shape
		for i, text := range lines {
			drawn = append(drawn, label("name", "0", y+besideLine*float64(i+1)-3, text))
		}
		drawn = append(drawn, label("number end", "100%", y+tall/2+4.5, r.number.Text(decimals)))
		shapes = append(shapes, group(r.data.attributes, append(drawn, bar(s, r.number, y+(tall-barTall)/2)...)...))
		y += tall + besideGap
	}
	return append(axis(s, y, words.PictureUnitPoints, mostBesideTicks), shapes...), int(y) + axisTall
}

// bar is a number from the scale's beginning, nothing where it is 0.
func bar(s scale, n report.Number, y float64) []report.Shape {
	if n.Float64() <= 0 {
		return nil
	}
	return []report.Shape{box("full", across(s.from), y, across(s.place(n.Float64())-s.from), barTall)}
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
		row := barRow{name: words.StakeName(k, d.Kinds), number: k.Points}
		row.data.text("kind", k.Kind).text("group", k.Group).number("points", k.Points)
		rows = append(rows, row)
		if !most.Points.Known() || k.Points.Float64() > most.Points.Float64() {
			most = k
		}
	}
	if len(rows) == 0 {
		return nil
	}
	drawing := &report.Drawing{Title: words.StakePicture, Finding: words.StakeFinding(most, d.Kinds)}
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
	drawing.Shapes, drawing.Height = barsBeside(rows, words.PointDecimals)
	return drawing
}
