package report

import (
	"strings"
	"testing"
	"unicode"

	"boxbook/report/display"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// scraps are what random texts are put together from: several scripts,
// clusters of several runes, white space, and what must not reach a terminal.
var scraps = []string{
	"a", "Longmere", "é", "e\u0301", "山", "田花子", "한", "\u1112\u1161", "👩‍✈️", "👍🏽", "🇬🇧", "ﾔ", "الياس", "नमस्ते", "…", "▒", "─",
	" ", " ", " ", "\u00a0", "\u3000", "\t", "\n", "\x1b[31m", "\u009b", "\u202e", "\u200b", "\xff", "\ue000", "https://longmere.example/2026",
}

func anyText(most int) *rapid.Generator[string] {
	return rapid.Map(rapid.SliceOfN(rapid.SampledFrom(scraps), 0, most), func(parts []string) string {
		return strings.Join(parts, "")
	})
}

func anyCell() *rapid.Generator[Cell] {
	return rapid.Custom(func(t *rapid.T) Cell {
		cell := rapid.OneOf(
			rapid.Map(anyText(12), Text),
			rapid.Map(rapid.Float64Range(-1e6, 1e6), func(value float64) Cell { return Num(Float(value), 2) }),
			rapid.Map(rapid.Int64Range(-99, 99), func(value int64) Cell { return Signed(Int(value), 0) }),
			rapid.Just(Empty()),
		).Draw(t, "cell")
		cell.Tone = Tone(rapid.IntRange(0, 4).Draw(t, "tone"))
		return cell.Marked(rapid.SampledFrom([]string{"", "", "*", "ab"}).Draw(t, "mark"))
	})
}

func anyTable() *rapid.Generator[*Table] {
	column := rapid.Custom(func(t *rapid.T) Column {
		return Column{
			Title:    anyText(3).Draw(t, "title"),
			Align:    Align(rapid.IntRange(0, 2).Draw(t, "align")),
			Flexible: rapid.Bool().Draw(t, "flexible"),
			Min:      rapid.IntRange(0, 12).Draw(t, "min"),
			Drop:     rapid.IntRange(0, 2).Draw(t, "drop"),
		}
	})
	rows := rapid.SliceOfN(rapid.SliceOfN(anyCell(), 0, 8), 0, 4)
	return rapid.Custom(func(t *rapid.T) *Table {
		return &Table{
			Title:   anyText(20).Draw(t, "title"),
			Columns: rapid.SliceOfN(column, 0, 8).Draw(t, "columns"),
			Rows:    rows.Draw(t, "rows"),
			Footer:  rows.Draw(t, "footer"),
			Key:     rapid.IntRange(0, 3).Draw(t, "key"),
		}
	})
}

func anyBlock() *rapid.Generator[Block] {
	return rapid.OneOf(
		rapid.Map(anyTable(), func(table *Table) Block { return table }),
		rapid.Custom(func(t *rapid.T) Block {
			return &Facts{rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Fact {
				return Fact{anyText(8).Draw(t, "label"), anyCell().Draw(t, "value")}
			}), 0, 4).Draw(t, "facts")}
		}),
		rapid.Map(anyText(60), func(text string) Block { return &Paragraph{Text: text} }),
		rapid.Custom(func(t *rapid.T) Block {
			return &Notes{rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Note {
				return Note{rapid.SampledFrom([]string{"", "*", "ab"}).Draw(t, "mark"), anyText(40).Draw(t, "text")}
			}), 0, 4).Draw(t, "notes")}
		}),
		rapid.Custom(func(t *rapid.T) Block {
			return &Series{Name: anyText(6).Draw(t, "name"), Points: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Point {
				return Point{anyText(3).Draw(t, "label"), Float(rapid.Float64().Draw(t, "value"))}
			}), 0, 150).Draw(t, "points")}
		}),
	)
}

func TestEveryLineStaysWithinTheWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		document := Document{Title: anyText(20).Draw(t, "title"), Subtitle: anyText(20).Draw(t, "subtitle"), Caution: anyText(40).Draw(t, "caution"), Sections: []Section{
			{Heading: anyText(20).Draw(t, "heading"), Blocks: rapid.SliceOfN(anyBlock(), 0, 4).Draw(t, "blocks")},
		}}
		width := rapid.IntRange(40, 140).Draw(t, "width")
		var out strings.Builder
		require.NoError(t, WriteText(&out, document, TextOptions{Width: width}))
		for line := range strings.SplitSeq(out.String(), "\n") {
			assert.Equal(t, strings.TrimRightFunc(line, unicode.IsSpace), line, "white space at the end")
			assert.False(t, strings.ContainsFunc(line, unicode.IsControl), "a control character in %q", line)
			if strings.Contains(strings.TrimSpace(line), " ") {
				assert.LessOrEqual(t, display.Width(line), width, "%q", line)
			}
		}
	})
}

func TestNoTableIsWiderThanTheWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		table := anyTable().Draw(t, "table")
		table.Title = ""
		width := rapid.IntRange(40, 140).Draw(t, "width")
		for _, line := range barredGrid(table, width).lines(width, 0, false) {
			assert.LessOrEqual(t, display.Width(line), width, "%q", line)
		}
	})
}

// positions returns the display columns at which a line has an anchor.
func positions(line, anchor string) []int {
	var found []int
	for at := 0; ; {
		next := strings.Index(line[at:], anchor)
		if next < 0 {
			return found
		}
		at += next
		found = append(found, display.Width(line[:at]))
		at += len(anchor)
	}
}

// anchored makes a table whose cells all begin with « and have » where their
// mark begins.
func anchored(t *rapid.T, column Column, most int) *Table {
	table := &Table{Key: 1, Columns: make([]Column, rapid.IntRange(1, 7).Draw(t, "columns"))}
	row := func(name string) []Cell {
		cells := make([]Cell, len(table.Columns))
		for i := range cells {
			cells[i] = Text("«" + printable(anyText(most).Draw(t, name)) + "»").Marked(rapid.SampledFrom([]string{"", "*", "ab"}).Draw(t, "mark"))
		}
		return cells
	}
	for i := range table.Columns {
		table.Columns[i] = column
	}
	for range rapid.IntRange(1, 5).Draw(t, "rows") {
		table.Rows = append(table.Rows, row("cell"))
	}
	table.Footer = [][]Cell{row("footer")}
	return table
}

// sameInEveryRow requires the anchors to stand in the same display columns in
// all rows of a part, and returns how many parts there were.
func sameInEveryRow(t *rapid.T, lines []string, anchor string) int {
	parts := 0
	var want []int
	for _, line := range lines {
		if line == "" {
			want = nil
		}
		if !strings.Contains(line, "«") {
			continue
		}
		got := positions(line, anchor)
		if want == nil {
			want = got
			parts++
		}
		assert.Equal(t, want, got, "%q", line)
	}
	return parts
}

func TestColumnsBeginAtTheSamePlaceInEveryRow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		table := anchored(t, Column{Flexible: true, Min: 4}, 12)
		lines := newGrid(table).lines(rapid.IntRange(40, 120).Draw(t, "width"), rapid.IntRange(0, 30).Draw(t, "height"), rapid.Bool().Draw(t, "color"))
		assert.NotZero(t, sameInEveryRow(t, lines, "«"))
	})
}

func TestValuesEndAtTheSamePlaceWhateverTheirMarks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		table := anchored(t, Column{Align: Right}, 2)
		lines := newGrid(table).lines(600, 0, false)
		assert.Equal(t, 1, sameInEveryRow(t, lines, "»"))
	})
}
