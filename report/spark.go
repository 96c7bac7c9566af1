package report

import (
	"math"
	"strings"
)

const (
	sparkLevels = "▁▂▃▄▅▆▇█"
	sparkGap    = '·'
)

// Sparkline draws values as a row of blocks, one a value, the lowest block for
// the least of them and the highest for the greatest; a value not known is a
// dot. Where all are equal, all are drawn at half height.
func Sparkline(values []Number) string {
	levels := []rune(sparkLevels)
	least, greatest := math.Inf(1), math.Inf(-1)
	for _, value := range values {
		if value.Known() {
			least = min(least, value.Float64())
			greatest = max(greatest, value.Float64())
		}
	}
	// Halved, so that the span of the widest float64 values is still finite.
	span := greatest/2 - least/2
	var line strings.Builder
	for _, value := range values {
		switch {
		case !value.Known():
			line.WriteRune(sparkGap)
		case !(span > 0) || math.IsInf(span, 0):
			line.WriteRune(levels[len(levels)/2-1])
		default:
			share := (value.Float64()/2 - least/2) / span
			line.WriteRune(levels[int(math.Round(share*float64(len(levels)-1)))])
		}
	}
	return line.String()
}

// known returns the first and last point whose value is known.
func (s *Series) known() (first, last Point, ok bool) {
	for _, point := range s.Points {
		if !point.Value.Known() {
			continue
		}
		if !ok {
			first, ok = point, true
		}
		last = point
	}
	return first, last, ok
}

// ends puts the first and last known value into words.
func (s *Series) ends() string {
	first, last, ok := s.known()
	if !ok {
		return "no values"
	}
	from, to := s.describe(first), s.describe(last)
	if from == to {
		return from
	}
	return "first " + from + ", last " + to
}

func (s *Series) describe(point Point) string {
	text := point.Value.Text(s.Decimals)
	if label := printable(point.Label); label != "" {
		text += " (" + label + ")"
	}
	return text
}

// latest returns the series cut to its last points.
func (s *Series) latest(count int) *Series {
	return &Series{Name: s.Name, Decimals: s.Decimals, Points: s.Points[len(s.Points)-count:]}
}

// sparkline draws the series in at most width columns: of a longer one the
// latest values, with an ellipsis in front, and the series they make up.
func (s *Series) sparkline(width int) (string, *Series) {
	front := ""
	if len(s.Points) > width {
		s, front = s.latest(width-1), ellipsis
	}
	values := make([]Number, len(s.Points))
	for i, point := range s.Points {
		values[i] = point.Value
	}
	return front + Sparkline(values), s
}
