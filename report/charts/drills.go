package charts

import (
	"strconv"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// The measures of the squares, in pixels.
const (
	squareSide  = 11.
	squarePitch = 14.
	squaresFrom = 50.
	squareLine  = 20.
)

// Drills are the drills before and since: a square a flight for a kind of fault,
// the percent points against the rest for a family; nil where there are none.
func Drills(d answers.Drills) *report.Drawing {
	if len(d.Drills) == 0 {
		return nil
	}
	drawing := &report.Drawing{Title: words.DrillsPicture, Finding: words.DrillsFinding(d)}
	y, squares := 0.0, false
	for _, drill := range words.DrillsInOrder(d.Drills) {
		squares = squares || !drill.OnFamily()
		of := data{}
		of.text("target", drill.Target).text("date", drill.Date)
		var drawn []report.Shape
		for _, text := range wrapped(words.Whose(d, drill)+words.DrillName(drill), 0) {
			y += nameLine
			drawn = append(drawn, label("name", "0", y-4, text))
		}
		y += 5
		drawn = append(drawn, drillSide(drill, words.PictureBefore, drill.Before, y), drillSide(drill, words.PictureSince, drill.After, y+squareLine))
		y += 2*squareLine + rowGap
		drawing.Shapes = append(drawing.Shapes, group(of.attributes, drawn...))
	}
	drawing.Height = int(y - rowGap)
	if squares {
		drawing.Key = []string{words.DrillSquares}
	}
	return drawing
}

func drillSide(d answers.Drill, name string, s answers.DrillSide, y float64) report.Shape {
	of := data{}
	of.text("side", name)
	drawn := []report.Shape{label("", "0", y+squareSide-1, name)}
	if d.OnFamily() {
		of.number("mean", s.Mean)
		return group(of.attributes, append(drawn, label("number", pixels(squaresFrom), y+squareSide-1, words.DrillMean(s)))...)
	}
	of.text("seen", strconv.Itoa(s.Seen)).text("flights", strconv.Itoa(s.Flights))
	for i := range s.Flights {
		class := "open"
		if i < s.Seen {
			class = "full"
		}
		drawn = append(drawn, box(class, pixels(squaresFrom+float64(i)*squarePitch), y, pixels(squareSide), squareSide))
	}
	return group(of.attributes, append(drawn, label("number", pixels(squaresFrom+float64(s.Flights)*squarePitch+6), y+squareSide-1, words.DrillCount(s)))...)
}
