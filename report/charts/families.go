package charts

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/display"
	"boxbook/report/words"
)

// The measures of a family's row and of the head above the first, in pixels.
const (
	familyRow  = 22.
	familyHead = 20.
)

// Families are the families' levels, each with its range, and all of them
// together as a line; nil where there are none.
func Families(d answers.Families) *report.Drawing {
	if len(d.Groups) == 0 {
		return nil
	}
	across := familyScale(d)
	drawing := &report.Drawing{Title: words.FamiliesPicture, Finding: words.FamiliesFinding(d)}
	var rows []report.Shape
	y := 0.0
	if d.Percent.Known() {
		y = familyHead
	}
	for _, g := range d.Groups {
		var row report.Shape
		row, y = familyShape(g, across, y)
		rows = append(rows, row)
	}
	drawing.Shapes = append(familyAxis(d, across, y), rows...)
	drawing.Height = int(y) + axisTall
	if d.Tau2.Known() {
		drawing.Key = words.LevelKey(d)
	}
	return drawing
}

// familyLevel is a family's level, or its own percent where levels are not
// compared.
func familyLevel(g answers.Group) report.Number {
	if g.Shrunken.Known() {
		return g.Shrunken
	}
	return g.Percent
}

func familyScale(d answers.Families) scale {
	s := scale{from: .02, to: .98, low: familyLevel(d.Groups[0]).Float64(), high: familyLevel(d.Groups[0]).Float64()}
	for _, g := range d.Groups {
		for _, n := range []report.Number{familyLevel(g), g.Low, g.High, d.Percent} {
			if n.Known() {
				s.low, s.high = min(s.low, n.Float64()), max(s.high, n.Float64())
			}
		}
	}
	if s.high-s.low < 1 {
		s.low, s.high = s.low-1, s.high+1
	}
	return s
}

// familyAxis is the scale beneath the rows, and all families together, named at the
// head of their line.
func familyAxis(d answers.Families, s scale, y float64) []report.Shape {
	shapes := axis(s, y, words.PictureUnitPercent, 6)
	if d.Percent.Known() {
		at := s.place(d.Percent.Float64())
		x, text, class := across(at), words.AllFamilies(d), "middle"
		if wide := letter * float64(display.Width(text)) / narrowPage; at < wide/2 {
			class = ""
		} else if at+wide/2 > 1 {
			class = "end"
		}
		all := data{}
		all.number("mean", d.Percent)
		shapes = append(shapes, group(all.attributes, line("leader", x, familyHead-2, x, y), label(class, x, familyHead-6, text)))
	}
	return shapes
}

func familyShape(g answers.Group, s scale, y float64) (report.Shape, float64) {
	level := familyLevel(g)
	of := data{}
	of.text("group", g.Group).number("level", level).number("low", g.Low).number("high", g.High)
	var drawn []report.Shape
	drawn = append(drawn, label("number end", "100%", y+nameLine-4, words.LevelShown(g)))
	for _, text := range wrapped(words.GroupTitle(g.Group), numberRoom) {
		y += nameLine
		drawn = append(drawn, label("name", "0", y-4, text))
	}
	middle := y + familyRow/2 - 5
	if g.Low.Known() && g.High.Known() {
		drawn = append(drawn, line("span", across(s.place(g.Low.Float64())), middle, across(s.place(g.High.Float64())), middle))
	}
	drawn = append(drawn, placed(across(s.place(level.Float64())), middle, sign("", true)))
	return group(of.attributes, drawn...), y + familyRow
}
