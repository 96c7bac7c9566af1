package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The text of a wrapped column goes on in further lines, whole, a word that is wider
// than its column too.
func TestWrappedColumn(t *testing.T) {
	table := &Table{Key: 1, Columns: []Column{{Title: "gate"}, {Title: "in the ledger", Wrapped: true, Min: 20}, {Title: "asked", Wrapped: true, Min: 8}}, Rows: [][]Cell{
		{Text("zeros"), Text("one in the last four flights, and what a judge gave for it"), Text("none")},
		{Text("lows"), Text("none"), Text("at most none in the last six flights")},
	}}
	write := func(width int) string {
		var b strings.Builder
		require.NoError(t, WriteText(&b, Document{Sections: []Section{{Blocks: []Block{table}}}}, TextOptions{Width: width}))
		return b.String()
	}
	assert.Equal(t, strings.Join([]string{
		"gate   in the ledger         asked",
		"──────────────────────────────────────────────",
		"zeros  one in the last four  none",
		"       flights, and what a",
		"       judge gave for it",
		"lows   none                  at most none in",
		"                             the last six",
		"                             flights",
		"",
	}, "\n"), write(46))
	wide := write(140)
	assert.Equal(t, 4, strings.Count(wide, "\n"), wide)
	assert.NotContains(t, write(46), "…")
	table.Rows[0][1] = Text(strings.Repeat("#", 60))
	assert.NotContains(t, write(46), "…")
	assert.Equal(t, 60, strings.Count(write(46), "#"))
}

// A heading that breaks goes on in a second line, the others at its foot; where its
// column has room for it, it takes one line as ever.
func TestHeadingThatBreaks(t *testing.T) {
	table := &Table{Key: 1, Columns: []Column{{Title: "target"}, {Title: "other faults per flight", Align: Right, Wrapped: true, Breaks: true, Min: 12}, {Title: "rate ratio", Align: Right, Breaks: true}}, Rows: [][]Cell{
		{Text("radius"), Text("2.2 before, 2.1 since"), Num(Float(.15), 2)},
	}, Below: []string{"beneath"}}
	write := func(width int) string {
		var b strings.Builder
		require.NoError(t, WriteText(&b, Document{Sections: []Section{{Blocks: []Block{table}}}}, TextOptions{Width: width}))
		return b.String()
	}
	assert.Equal(t, strings.Join([]string{
		"target  other faults per flight  rate ratio",
		"───────────────────────────────────────────",
		"radius    2.2 before, 2.1 since        0.15",
		"  beneath",
		"",
	}, "\n"), write(43))
	table.Rows[0][0] = Text("entry-of-the-long-roll")
	assert.Equal(t, strings.Join([]string{
		"                        other faults   rate",
		"target                    per flight  ratio",
		"───────────────────────────────────────────",
		"entry-of-the-long-roll   2.2 before,   0.15",
		"                           2.1 since",
		"  beneath",
		"",
	}, "\n"), write(43))
}
