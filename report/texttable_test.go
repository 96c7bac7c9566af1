package report

import (
	"testing"

	"github.com/jedib0t/go-pretty/v6/text"
	"github.com/mattn/go-runewidth"
	"github.com/stretchr/testify/assert"
)

func TestTableMarksDoNotMoveNumbers(t *testing.T) {
	table := &Table{
		Title:   "Score sheet",
		Columns: []Column{{Title: "Figure"}, {Title: "J1", Align: Right}, {Title: "Mean", Align: Right}, {Title: "Lost", Align: Right}},
		Rows: [][]Cell{
			{Text("loop"), Text("8.0"), Num(Float(8.25), 2), Num(Int(17), 1)},
			{Text("spin").Marked("a"), Text("7.5").Marked("*"), Num(Float(10), 2), Num(Float(2.5), 1).Marked("*")},
			{Text("hammer"), Text("HZ"), Num(Float(-0.5), 2), Empty().Marked("ab")},
		},
		Footer: [][]Cell{{Text("total"), Empty(), Num(Float(17.75), 2).Marked("ab"), Num(Float(19.5), 1)}},
	}
	assert.Equal(t, `Score sheet
Figure   J1    Mean    Lost
─────────────────────────────
loop    8.0    8.25    17.0
spina   7.5*  10.00     2.5*
hammer   HZ   -0.50        ab
─────────────────────────────
total         17.75ab  19.5
`, written(t, blocks(table), TextOptions{}))
}

func TestTableOfWideScripts(t *testing.T) {
	table := &Table{
		Columns: []Column{{Title: "選手"}, {Title: "Club"}, {Title: "%", Align: Right}},
		Rows: [][]Cell{
			{Text("山田 花子"), Text("한국 클럽"), Num(Float(70), 1)},
			{Text("Zoe\u0308"), Text("الياس"), Num(Float(7), 1)},
			{Text("🇬🇧👍🏽"), Text("👩‍✈️"), Num(Float(100), 1)},
		},
	}
	assert.Equal(t, "選手       Club           %\n"+
		"───────────────────────────\n"+
		"山田 花子  한국 클럽   70.0\n"+
		"Zoe\u0308        الياس        7.0\n"+
		"🇬🇧👍🏽       👩‍✈️         100.0\n", written(t, blocks(table), TextOptions{}))
}

// The layout must not depend on the locale: characters of ambiguous width (é,
// Ł, the ellipsis and the rule among them) count two in some, for the table
// library too.
func TestTableInAnEastAsianLocale(t *testing.T) {
	want := written(t, season(), TextOptions{Width: 80})
	t.Cleanup(func() { text.OverrideRuneWidthEastAsianWidth(runewidth.EastAsianWidth) })
	text.OverrideRuneWidthEastAsianWidth(true)
	assert.Equal(t, want, written(t, season(), TextOptions{Width: 80}))
}

func TestTableLeavesColumnsOutByRank(t *testing.T) {
	table := &Table{
		Key: 1,
		Columns: []Column{
			{Title: "Family", Drop: 9},
			{Title: "Observed", Align: Right, Drop: 2},
			{Title: "Shrunken", Align: Right},
			{Title: "Against the rest", Align: Right, Drop: 1},
			{Drop: 3},
			{Title: "Trend"},
		},
		Rows: [][]Cell{{Text("loops"), Num(Float(70), 1), Num(Float(68.5), 1), Signed(Float(1.5), 1), Text("remark"), Text("rising")}},
	}
	assert.Equal(t, `Family  Observed  Shrunken  Against the rest          Trend
────────────────────────────────────────────────────────────
loops       70.0      68.5              +1.5  remark  rising
`, written(t, blocks(table), TextOptions{Width: 80}))
	assert.Equal(t, `Family  Shrunken  Against the rest  Trend
──────────────────────────────────────────
loops       68.5              +1.5  rising
not shown at this width: Observed,
column 5
`, written(t, blocks(table), TextOptions{Width: 42}))
}

func TestTableSplitsWithItsKeyRepeated(t *testing.T) {
	table := &Table{
		Title: "Marks", Key: 2,
		Columns: []Column{
			{Title: "No", Align: Right},
			{Title: "Figure"},
			{Title: "Halloran", Align: Right},
			{Title: "Okonkwo", Align: Right},
			{Title: "Lindqvist", Align: Right},
			{Title: "Mean", Align: Right},
		},
		Rows: [][]Cell{
			{Num(Int(1), 0), Text("loop"), Text("8.0"), Text("7.5"), Text("8.5"), Num(Int(8), 2)},
			{Num(Int(10), 0), Text("half Cuban"), Text("7.0"), Text("HZ"), Text("7.5").Marked("*"), Num(Float(7.25), 2)},
		},
	}
	assert.Equal(t, `Marks
No  Figure      Halloran  Okonkwo
─────────────────────────────────
 1  loop             8.0      7.5
10  half Cuban       7.0       HZ

No  Figure      Lindqvist  Mean
───────────────────────────────
 1  loop             8.5   8.00
10  half Cuban       7.5*  7.25
`, written(t, blocks(table), TextOptions{Width: 40}))
}

// A part that begins behind the column which names what it is about has that in front, and
// a part does not end with a name of nothing.
func TestTableSplitsWithItsNames(t *testing.T) {
	table := &Table{
		Key: 1,
		Columns: []Column{
			{Title: "currency"}, {Title: "income", Names: true}, {Title: "2026", Align: Right}, {Title: "costs", Names: true}, {Title: "2026", Align: Right}, {Title: "budget", Align: Right},
		},
		Rows: [][]Cell{{Text("EUR"), Text("membership"), Text("720.00"), Text("hall hire"), Text("425.50"), Text("350.00")}},
	}
	assert.Equal(t, `currency  income        2026  costs        2026
───────────────────────────────────────────────
EUR       membership  720.00  hall hire  425.50

currency  costs      budget
───────────────────────────
EUR       hall hire  350.00
`, written(t, blocks(table), TextOptions{Width: 50}))
	assert.Equal(t, `currency  income        2026
────────────────────────────
EUR       membership  720.00

currency  costs        2026  budget
───────────────────────────────────
EUR       hall hire  425.50  350.00
`, written(t, blocks(table), TextOptions{Width: 42}))
}

func TestTableCutsWhatCannotFitOtherwise(t *testing.T) {
	table := &Table{
		Key:     1,
		Columns: []Column{{Title: "Contest"}, {Title: "Percent of the maximum", Align: Right}},
		Rows:    [][]Cell{{Text("The Longmere Spring Trophy of the Kestrel Aero Club"), Num(Float(67.565), 2).Marked("*")}},
	}
	assert.Equal(t, `                         Percent of the
Contest                         maximum
────────────────────────────────────────
The Longmere Sprin…               67.57*
`, written(t, blocks(table), TextOptions{Width: 40}))
}

func TestTableShapes(t *testing.T) {
	columns := []Column{{Title: "a"}, {Title: "b", Align: Right}}
	for _, test := range []struct {
		name  string
		table *Table
		want  string
	}{
		{"no rows", &Table{Columns: columns}, "a  b\n────\n"},
		{"no headings", &Table{Columns: make([]Column, 2), Rows: [][]Cell{{Text("x"), Text("y")}}}, "x  y\n"},
		{"no columns", &Table{Title: "Flights", Rows: [][]Cell{{Text("x")}}}, "Flights\n"},
		{"short and long rows", &Table{Columns: columns, Rows: [][]Cell{{}, {Text("x")}, {Text("x"), Text("y"), Text("z")}}}, "a  b\n────\n\nx\nx  y\n"},
		{"two footers", &Table{Columns: columns, Rows: [][]Cell{{Text("x")}}, Footer: [][]Cell{{Text("t")}, {Text("u")}}}, "a  b\n────\nx\n────\nt\nu\n"},
		{"headings as typed", &Table{Columns: []Column{{Title: "toMedian <b>"}}, Footer: [][]Cell{{Text("mean")}}}, "toMedian <b>\n────────────\nmean\n"},
		{"the character of the stand-in", &Table{Columns: []Column{{Title: "▒"}, {}}, Rows: [][]Cell{{Text("▒▒ ▒"), Text("▒")}}}, "▒\n───────\n▒▒ ▒  ▒\n"},
	} {
		t.Run(test.name, func(t *testing.T) {
			assert.Equal(t, test.want, written(t, blocks(test.table), TextOptions{}))
		})
	}
}

func TestTableTextCannotReachTheTerminal(t *testing.T) {
	table := &Table{Columns: []Column{{Title: "Pi\x1b[5mlot"}}, Rows: [][]Cell{{Text("a\x1b]0;title\ab\nc").Marked("\x1b")}}}
	assert.Equal(t, "Pi�[5mlot\n───────────────\na�]0;title�b c�\n", written(t, blocks(table), TextOptions{}))
}
