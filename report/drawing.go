package report

import (
	"fmt"
	"html"
	"html/template"
	"strings"
)

// Drawing is a picture of numbers that stand elsewhere in the document too; a
// writer that cannot draw leaves it out. It is as wide as the page: what goes
// across is in percents of that, what goes down and the size of text in pixels, so
// that text stays legible on a phone.
type Drawing struct {
	// Title names the picture, Finding says in a sentence what it shows.
	Title, Finding string
	// Height is in pixels.
	Height int
	Shapes []Shape
	// Key are remarks that stand beneath it.
	Key []string
}

func (*Drawing) block() {}

// Picture makes a drawing for a writer that can draw; nil where there is nothing to
// draw. For the others none is made.
type Picture func() *Drawing

func (Picture) block() {}

// drawn are blocks with the drawings in place of what makes them.
func drawn(blocks []Block) []Block {
	var out []Block
	for _, block := range blocks {
		if picture, is := block.(Picture); is {
			if drawing := picture(); drawing != nil {
				out = append(out, drawing)
			}
			continue
		}
		out = append(out, block)
	}
	return out
}

// Shape is one element of a Drawing, of the vocabulary of SVG. Name, Class and the
// names of attributes are the program's own words; values and Text may be anybody's.
type Shape struct {
	Name, Class string
	Attributes  []Attribute
	Text        string
	Shapes      []Shape
}

// Attribute is a name and its value.
type Attribute struct{ Name, Value string }

// htmlDrawing is a drawing in SVG.
type htmlDrawing struct {
	Drawn template.HTML
	Key   []string
}

func (h *htmlWriter) drawing(d *Drawing) *htmlDrawing {
	out := &htmlDrawing{Drawn: template.HTML(d.svg(h.name("p")))} //nolint:gosec // every value is escaped
	for _, text := range d.Key {
		out.Key = append(out.Key, printable(text))
	}
	return out
}

// svg writes the picture, named for who does not see it.
func (d *Drawing) svg(id string) string {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg class="picture" role="img" aria-labelledby="%st %sd" width="100%%" height="%d">`, id, id, d.Height)
	fmt.Fprintf(&b, `<title id="%st">%s</title><desc id="%sd">%s</desc>`, id, escaped(d.Title), id, escaped(d.Finding))
	writeShapes(&b, d.Shapes)
	b.WriteString("</svg>")
	return b.String()
}

func writeShapes(b *strings.Builder, shapes []Shape) {
	for _, s := range shapes {
		b.WriteString("<" + s.Name)
		if s.Class != "" {
			b.WriteString(` class="` + s.Class + `"`)
		}
		for _, a := range s.Attributes {
			b.WriteString(" " + a.Name + `="` + escaped(a.Value) + `"`)
		}
		b.WriteString(">" + escaped(s.Text))
		writeShapes(b, s.Shapes)
		b.WriteString("</" + s.Name + ">")
	}
}

func escaped(text string) string { return html.EscapeString(printable(text)) }

// A series is drawn this large, in pixels.
const (
	seriesWidth, seriesHeight = 120, 24
	seriesDot                 = 2
)

// series draws a series as a line, a value not known as a gap.
func (h *htmlWriter) series(s *Series) *htmlSeries {
	out := &htmlSeries{Name: printable(s.Name), Ends: s.ends()}
	least, greatest, known := s.span()
	if known < 2 {
		return out
	}
	var run []string
	var shapes []Shape
	flush := func() {
		if len(run) > 1 {
			shapes = append(shapes, Shape{Name: "polyline", Class: "level", Attributes: []Attribute{{"points", strings.Join(run, " ")}}})
		}
		run = nil
	}
	for i, p := range s.Points {
		if !p.Value.Known() {
			flush()
			continue
		}
		x := seriesDot + float64(i)*(seriesWidth-2*seriesDot)/float64(len(s.Points)-1)
		y := seriesHeight / 2.
		if greatest > least {
			y = seriesDot + (seriesHeight-2*seriesDot)*(greatest-p.Value.Float64())/(greatest-least)
		}
		run = append(run, Float(x).Text(1)+","+Float(y).Text(1))
	}
	flush()
	var b strings.Builder
	fmt.Fprintf(&b, `<svg class="spark" aria-hidden="true" width="%d" height="%d">`, seriesWidth, seriesHeight)
	writeShapes(&b, shapes)
	b.WriteString("</svg>")
	out.Drawn = template.HTML(b.String()) //nolint:gosec // numbers alone
	return out
}

// span is the least and the greatest known value, and how many are known.
func (s *Series) span() (least, greatest float64, known int) {
	for _, p := range s.Points {
		if !p.Value.Known() {
			continue
		}
		v := p.Value.Float64()
		if known == 0 {
			least, greatest = v, v
		}
		least, greatest, known = min(least, v), max(greatest, v), known+1
	}
	return least, greatest, known
}
