package report

import (
	"math"
	"slices"
	"strings"
)

// barWidth is the length of the longest bar, in display columns.
const barWidth = 10

// eighths are the ends of bars, an eighth of a column to seven.
const eighths = "▏▎▍▌▋▊▉"

// Bar draws a part of a whole, 0..1, as a bar of at most width display columns,
// to an eighth of one; what is more than nothing is at least that.
func Bar(part float64, width int) string {
	if !(part > 0) || width < 1 {
		return ""
	}
	steps := max(1, int(math.Round(math.Min(part, 1)*float64(8*width))))
	bar := strings.Repeat("█", steps/8)
	if rest := steps % 8; rest > 0 {
		bar += string([]rune(eighths)[rest-1])
	}
	return bar
}

// withBars is a copy of a table with its bars as columns of their own; nil where
// it asks for none, or has no number above 0 to draw.
func withBars(t *Table) *Table {
	out := &Table{Title: t.Title, Key: t.Key, Below: t.Below}
	drawn := false
	greatest := make([]float64, len(t.Columns))
	for i, c := range t.Columns {
		out.Columns = append(out.Columns, c)
		if greatest[i] = t.greatest(i); c.Bars && greatest[i] > 0 {
			out.Columns, drawn = append(out.Columns, Column{}), true
		}
	}
	if !drawn {
		return nil
	}
	for _, row := range t.Rows {
		out.Rows = append(out.Rows, barred(t.Columns, greatest, row, true))
	}
	for _, row := range t.Footer {
		out.Footer = append(out.Footer, barred(t.Columns, greatest, row, false))
	}
	return out
}

// greatest is the greatest number in the rows of column i, 0 where there is none.
func (t *Table) greatest(i int) float64 {
	most := 0.0
	for _, row := range t.Rows {
		if i < len(row) {
			if n, ok := row[i].Number(); ok && n.Known() && !row[i].summed {
				most = max(most, n.Float64())
			}
		}
	}
	return most
}

// barred is a row with its bars, or with the room for them.
func barred(columns []Column, greatest []float64, row []Cell, draw bool) []Cell {
	var out []Cell
	for i, cell := range slices.Concat(row, make([]Cell, max(0, len(columns)-len(row))))[:len(columns)] {
		out = append(out, cell)
		if !columns[i].Bars || greatest[i] <= 0 {
			continue
		}
		bar := Empty()
		if n, ok := cell.Number(); ok && n.Known() && draw && !cell.summed {
			bar = Text(Bar(n.Float64()/greatest[i], barWidth))
		}
		out = append(out, bar)
	}
	return out
}
