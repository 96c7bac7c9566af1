package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Text beneath a row goes across the table, also where a row takes several lines,
// the heading stands again, or the table is split; programs do not get it.
func TestTextBelowRows(t *testing.T) {
	table := &Table{Key: 2, Columns: []Column{{Title: "fig", Align: Right}, {Title: "figure", Wrapped: true, Min: 8}, {Title: "mean", Align: Right}}}
	table.Rows = [][]Cell{
		{Num(Int(1), 0), Text("square loop with a long name"), Num(Int(7), 2)},
		{Num(Int(2), 0), Text("roll"), Num(Int(8), 2)},
		{Num(Int(3), 0), Text("flick"), Num(Int(6), 2)},
	}
	table.Footer = [][]Cell{{Empty(), Text("all"), Num(Int(21), 2)}}
	table.Below = []string{"radius <b>2x</b>\x1b", "", "seen by everybody but the judge who sat in the sun"}
	doc := Document{Sections: []Section{{Heading: "Sheet", Blocks: []Block{table}}}}
	var text, page, markdown, csv strings.Builder
	require.NoError(t, WriteText(&text, doc, TextOptions{Width: 40}))
	assert.Equal(t, `Sheet

fig  figure                         mean
────────────────────────────────────────
  1  square loop with a long name   7.00
     radius <b>2x</b>�
  2  roll                           8.00
  3  flick                          6.00
     seen by everybody but the judge who
     sat in the sun
────────────────────────────────────────
     all                           21.00
`, text.String())
	require.NoError(t, WriteHTML(&page, doc))
	assert.Contains(t, page.String(), `<tr class="below"><td></td><td colspan="2"><span>radius &lt;b&gt;2x&lt;/b&gt;`)
	assert.Equal(t, 2, strings.Count(page.String(), `<tr class="below">`))
	require.NoError(t, WriteMarkdown(&markdown, doc))
	assert.Contains(t, markdown.String(), "|  | seen by everybody but the judge who sat in the sun |  |")
	require.NoError(t, WriteCSV(&csv, doc))
	assert.NotContains(t, csv.String(), "radius")

	table.Rows[0][1] = Text("square loop with a name that is wrapped here")
	text.Reset()
	require.NoError(t, WriteText(&text, doc, TextOptions{Width: 40, Height: leastHeight}))
	assert.Contains(t, text.String(), "wrapped here\n     radius")
	for range 20 {
		table.Rows, table.Below = append(table.Rows, table.Rows[1]), append(table.Below, "")
	}
	table.Below[len(table.Below)-1] = "at the very end"
	text.Reset()
	require.NoError(t, WriteText(&text, doc, TextOptions{Width: 40, Height: leastHeight}))
	assert.Equal(t, 2, strings.Count(text.String(), "fig  figure"))
	assert.Contains(t, text.String(), "8.00\n     at the very end\n──")
}
