package charts

import (
	"encoding/json"
	"math"
	"strings"

	"boxbook/report"
	"boxbook/report/display"
)

// narrowPage is the width in pixels that labels must have room in.
const narrowPage = 288

// letter is the mean width of a character of a label, a little wide.
const letter = 7

// across is a place in percent of the width.
func across(share float64) string { return display.Fixed(100*share, 2) + "%" }

// pixels is a length in pixels.
func pixels(x float64) string { return display.Trimmed(x, 1) }

func at(pairs ...string) []report.Attribute {
	var out []report.Attribute
	for i := 0; i+1 < len(pairs); i += 2 {
		out = append(out, report.Attribute{Name: pairs[i], Value: pairs[i+1]})
	}
	return out
}

// label is a text whose baseline begins at x and y.
func label(class, x string, y float64, text string) report.Shape {
	return report.Shape{Name: "text", Class: class, Attributes: at("x", x, "y", pixels(y)), Text: text}
}

func line(class, x1 string, y1 float64, x2 string, y2 float64) report.Shape {
	return report.Shape{Name: "line", Class: class, Attributes: at("x1", x1, "y1", pixels(y1), "x2", x2, "y2", pixels(y2))}
}

// box is a rectangle.
func box(class, x string, y float64, width string, height float64) report.Shape {
	return report.Shape{Name: "rect", Class: class, Attributes: at("x", x, "y", pixels(y), "width", width, "height", pixels(height))}
}

// placed are shapes around a point, in pixels from it.
func placed(x string, y float64, shapes ...report.Shape) report.Shape {
	return report.Shape{Name: "svg", Attributes: at("x", x, "y", pixels(y), "overflow", "visible"), Shapes: shapes}
}

// group holds shapes that show one thing, with its numbers.
func group(data []report.Attribute, shapes ...report.Shape) report.Shape {
	return report.Shape{Name: "g", Attributes: data, Shapes: shapes}
}

// data names values for whoever reads the picture back: unrounded, as in the JSON;
// what is not known is left out.
type data struct{ attributes []report.Attribute }

func (d *data) text(name, value string) *data {
	d.attributes = append(d.attributes, report.Attribute{Name: "data-" + name, Value: value})
	return d
}

func (d *data) number(name string, n report.Number) *data {
	if !n.Known() {
		return d
	}
	value, err := json.Marshal(n)
	if err != nil {
		return d // no number: nothing to read back
	}
	return d.text(name, string(value))
}

// scale lays values along a picture.
type scale struct{ low, high, from, to float64 }

func (s scale) place(value float64) float64 {
	if s.high <= s.low {
		return (s.from + s.to) / 2
	}
	return s.from + (s.to-s.from)*(value-s.low)/(s.high-s.low)
}

// ticks are round values within a span, at most so many.
func ticks(low, high float64, most int) []float64 {
	for scale := math.Pow(10, math.Floor(math.Log10(max(high-low, 1e-6)))-1); ; scale *= 10 {
		for _, step := range []float64{scale, 2 * scale, 5 * scale} {
			first, last := math.Ceil(low/step), math.Floor(high/step)
			if int(last-first)+1 > most {
				continue
			}
			var out []float64
			for i := first; i <= last; i++ {
				out = append(out, i*step)
			}
			return out
		}
	}
}

// axisTall is what a scale's labels take beneath a picture, in pixels.
const axisTall = 20

// axis is a scale beneath a picture: a line down to y at each round value, the last
// of them with the unit.
func axis(s scale, y float64, unit string, most int) []report.Shape {
	var shapes []report.Shape
	values := ticks(s.low, s.high, most)
	for i, value := range values {
		x, text, class := s.place(value), tickText(value), "middle"
		if i == len(values)-1 {
			text += unit
		}
		wide := letter * float64(display.Width(text)) / narrowPage
		switch {
		case x < wide/2:
			class = ""
		case x+wide/2 > 1:
			class = "end"
		}
		shapes = append(shapes, line("grid", across(x), 0, across(x), y), label(class, across(x), y+15, text))
	}
	return shapes
}

// tickText is a round value in as few decimals as it needs.
func tickText(value float64) string { return display.Trimmed(value, 2) }

// fitting is a text, cut with an ellipsis where the narrow page has no room for it.
func fitting(text string) string {
	const room = int(narrowPage/letter) - 1
	if display.Width(text) <= room {
		return text
	}
	return display.Cut(text, room-1) + "…"
}

// wrapped cuts a label into lines that the narrow page has room for, beside so
// many pixels for something else. What stands in brackets at its end stays in one
// line, where it can.
func wrapped(text string, beside float64) []string {
	room := int((narrowPage - beside) / letter)
	if display.Width(text) <= room {
		return []string{text}
	}
	if before, after, found := strings.Cut(text, " ("); found && max(display.Width(before), display.Width(after)+1) <= room {
		return []string{before, "(" + after}
	}
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && display.Width(line)+1+display.Width(word) > room {
			lines, line = append(lines, line), ""
		}
		line = strings.TrimSpace(line + " " + word)
	}
	return append(lines, line)
}
