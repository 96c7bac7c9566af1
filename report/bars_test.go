package report

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// By hand: eighths of a column, and something for what is more than nothing.
func TestBar(t *testing.T) {
	for _, c := range []struct {
		part float64
		want string
	}{{0, ""}, {-1, ""}, {1, "██████████"}, {2, "██████████"}, {.5, "█████"}, {.51, "█████▏"}, {.0001, "▏"}, {.0875, "▉"}} {
		require.Equal(t, c.want, Bar(c.part, 10), c.part)
	}
	require.Empty(t, Bar(.5, 0))
}

func barTable() *Table {
	return &Table{Key: 1, Columns: []Column{{Title: "kind"}, {Title: "points", Align: Right, Bars: true}, {Title: "since"}}, Rows: [][]Cell{
		{Text("radius"), Num(Float(4), 1), Text("May")}, {Text("line"), Num(Float(1), 1), Text("June")}, {Text("none"), Empty(), Text("-")},
	}, Footer: [][]Cell{{Text("all"), Num(Float(5), 1)}}}
}

// Bars stand beside the numbers where the whole table has room, and nowhere
// else: nothing is shortened for them, and no other writer has them.
func TestBarsInText(t *testing.T) {
	doc := Document{Sections: []Section{{Blocks: []Block{barTable()}}}}
	var out bytes.Buffer
	require.NoError(t, WriteText(&out, doc, TextOptions{Width: 80}))
	require.Equal(t, strings.Join([]string{
		"kind    points              since",
		"─────────────────────────────────",
		"radius     4.0  ██████████  May",
		"line       1.0  ██▌         June",
		"none                        -",
		"─────────────────────────────────",
		"all        5.0",
		"",
	}, "\n"), out.String())
	wide := barTable()
	wide.Columns[0].Flexible, wide.Rows[0][0] = true, Text(strings.Repeat("radius ", 3))
	require.Equal(t, newGrid(wide).lines(40, 0, false), barredGrid(wide, 40).lines(40, 0, false))
	for _, write := range []func(*bytes.Buffer) error{
		func(b *bytes.Buffer) error { return WriteMarkdown(b, doc) },
		func(b *bytes.Buffer) error { return WriteCSV(b, doc) },
	} {
		var out bytes.Buffer
		require.NoError(t, write(&out))
		require.NotContains(t, out.String(), "█")
	}
	summed := barTable()
	summed.Rows = append(summed.Rows, []Cell{Text("3 more"), Num(Float(9), 1).Summed(), Text("-")})
	require.Equal(t, "██████████", withBars(summed).Rows[0][2].String(), "rows that are added up are not compared with")
	require.Empty(t, withBars(summed).Rows[3][2].String())
	require.Nil(t, withBars(&Table{Columns: []Column{{Title: "points", Bars: true}}, Rows: [][]Cell{{Num(Float(-1), 0)}, {}}}))
}

// A table longer than the terminal has its heading again for each; a short one,
// one in a file, and one on a tiny terminal have one.
func TestLongTablesRepeatTheirHeading(t *testing.T) {
	long := &Table{Columns: []Column{{Title: "flight"}}, Footer: [][]Cell{{Text("all")}}}
	for range 40 {
		long.Rows = append(long.Rows, []Cell{Text("2026-04-18")})
	}
	count := func(height int) (headings, rows int) {
		for _, line := range newGrid(long).lines(80, height, false) {
			switch strings.TrimSpace(line) {
			case "flight":
				headings++
			case "2026-04-18":
				rows++
			}
		}
		return headings, rows
	}
	for height, want := range map[int]int{0: 1, 10: 1, 24: 2, 43: 1, 42: 2, 15: 4} {
		headings, rows := count(height)
		require.Equal(t, want, headings, "%d lines", height)
		require.Equal(t, 40, rows)
	}
	require.Len(t, newGrid(&Table{Columns: []Column{{Title: "flight"}}}).lines(80, 24, false), 2)
}

// Text beneath rows stays where the table has bars.
func TestBarsKeepTheTextBelow(t *testing.T) {
	table := &Table{Columns: []Column{{Title: "figure"}, {Title: "share", Bars: true}}, Rows: [][]Cell{{Text("spin"), Num(Int(3), 0)}}, Below: []string{"a zero"}}
	var text strings.Builder
	require.NoError(t, WriteText(&text, Document{Sections: []Section{{Blocks: []Block{table}}}}, TextOptions{Width: 40}))
	require.Contains(t, text.String(), "█\n  a zero\n")
}
