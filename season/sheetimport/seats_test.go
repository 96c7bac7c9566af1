package sheetimport_test

import (
	"strings"
	"testing"

	"boxbook/season"
	"boxbook/season/sheetimport"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// seated is a sequence with labels, and three judges who sat in their order.
func seated() sheetimport.Options {
	o := expected("AB", "CD", "EF")
	o.Lines = sheetimport.LinesOf(&season.Sequence{
		Figures: []season.Figure{
			{K: 14, Label: "half cuban"},
			{K: 23, Label: "humpty"},
			{K: 9, Label: "roll"},
			{K: 12, Label: "spin"},
		},
		Positioning: 20,
	})
	return o
}

// numbered is a sheet of three numbered seats with a mean and points beside them.
const numbered = `Fig.|Name|K|Judge 1|Judge 2|Judge 3|Mean|Points
1|half cuban|14|7,5|8,0|7,0|7,50|105,00
2|humpty|23|7,0|7,0|6,5|6,83|157,17
3|roll|9|8,0|7,5|8,5|8,00|72,00
4|spin|12|7,0|7,0|7,5|7,17|86,00
|Positioning|20|8,0|7,5|8,5|8,00|160,00`

const numberedRows = "AB CD EF\n1 7.5 8.0 7.0\n2 7.0 7.0 6.5\n3 8.0 7.5 8.5\n4 7.0 7.0 7.5\npositioning 8.0 7.5 8.5"

// The number's column may be blank where positioning stands among the labels: the
// numbers are no judge's marks.
func TestSeatsBesideLabelsThatNameMore(t *testing.T) {
	for _, heads := range []string{"Fig.|Name|K", "Fig.|Figure|K", "Fig.|Bezeichnung|K"} {
		o := seated()
		r := sheetimport.Recognise(gridOf(strings.Replace(numbered, "Fig.|Name|K", heads, 1)), o)
		require.Empty(t, r.Problems, heads)
		assert.Equal(t, numberedRows, rowsOf(r, o), heads)
		assert.Contains(t, saidOf(r), "the seats are in the order of the panel: D AB, E CD, F EF", heads)
	}
}

// A contest's panel of as many judges says who sat where, in its order.
func TestSeatsOfAContestsPanel(t *testing.T) {
	for _, heads := range []string{"Judge 1|Judge 2|Judge 3", "J1|J2|J3", "1|2|3"} {
		o := seated()
		o.PanelOf = "redbank"
		sheet := strings.Replace(numbered, "Judge 1|Judge 2|Judge 3", heads, 1)
		r := sheetimport.Recognise(gridOf(sheet), o)
		require.Empty(t, r.Problems, heads)
		assert.Equal(t, numberedRows, rowsOf(r, o), heads)
		assert.Contains(t, saidOf(r), "note: judges as the panel of redbank: AB CD EF; --panel gives another order", heads)

		o.Panel = []string{"AB", "CD", "EF", "GH"}
		r = sheetimport.Recognise(gridOf(sheet), o)
		require.Len(t, r.Problems, 1, heads)
		first, _, _ := strings.Cut(heads, "|")
		assert.Equal(t, "the headings number 3 seats, from \""+first+"\" on, and the panel of redbank has 4 judges (AB, CD, EF, GH)", r.Problems[0].Text)
		assert.Equal(t, "give the judges in the order of the seats: --panel \"JUDGE1 JUDGE2 ...\"", r.Problems[0].Hint)
	}
}

// A mean that is off hides neither seats nor judges, and is what is said.
func TestSeatsBesideAMeanThatIsOff(t *testing.T) {
	off := strings.Replace(strings.Replace(numbered, "7,17|86,00", "7,50|86,00", 1), "|Positioning", "positioning|", 1)
	for name, panel := range map[string][]string{"of a panel": seated().Panel, "of the sheet": nil} {
		o := seated()
		o.Panel = panel
		r := sheetimport.Recognise(gridOf(off), o)
		require.Len(t, r.Problems, 1, name)
		assert.Equal(t, "G5", r.Problems[0].Cell, name)
		assert.Equal(t, "the mean printed is 7,50, the marks beside it come to 7.167", r.Problems[0].Text, name)
		assert.Len(t, r.Panel, 3, name)
	}
}

// Where the columns are to be given they are those of the sheet.
func TestColumnsThatAreToBeGiven(t *testing.T) {
	o := seated()
	heads := strings.Replace(numbered, "Judge 1|Judge 2|Judge 3", "1st of all|2nd of all|3rd of all", 1)
	r := sheetimport.Recognise(gridOf(heads), o)
	require.Len(t, r.Problems, 1)
	assert.Equal(t, "give the columns: --columns figure=B,judges=D-F", r.Problems[0].Hint)
	given, err := sheetimport.ParseColumns("figure=B,judges=D-F")
	require.NoError(t, err)
	o.Columns = given
	r = sheetimport.Recognise(gridOf(heads), o)
	require.Empty(t, r.Problems)
	assert.Equal(t, numberedRows, rowsOf(r, o))
}

// A hint to leave more out keeps what is left out already, and a column takes its total
// with it.
func TestHintsKeepWhatIsLeftOut(t *testing.T) {
	off := strings.Replace(strings.Replace(numbered, "7,17|86,00", "7,50|90,00", 1), "|Positioning", "positioning|", 1) + "\n|Total|78|||||590,17\nremark"
	for leave, hints := range map[string]string{
		"":                            "leave=G-H",
		"leave=G":                     "leave=G+H",
		"leave=A8+G":                  "leave=A8+G+H",
		"leave=H+G":                   "",
		"figure=A,judges=D-F,leave=H": "figure=A,judges=D-F,leave=H+G",
	} {
		o := seated()
		columns, err := sheetimport.ParseColumns(leave)
		require.NoError(t, err)
		o.Columns = columns
		r := sheetimport.Recognise(gridOf(off), o)
		var said []string
		for _, p := range r.Problems {
			_, flag, _ := strings.Cut(p.Hint, "--columns ")
			flag, _, _ = strings.Cut(flag, " leaves ")
			said = append(said, flag)
		}
		assert.Equal(t, hints, strings.Join(said, ", "), leave)
	}
}

// The rows that a hint leaves out are those of the sheet.
func TestSecondRowsThatMayBeLeftOut(t *testing.T) {
	for sheet, hint := range map[string]string{
		"fig|A|B\n1|8|8\n2|7|7\n3|8|7\n1|8|8\n2|7|7\n3|8|7\npositioning|8|8": "leave the rows of one out: --columns leave=5:7",
		"fig|A|B\n1|8|8\n1|7|7\n2|8|7\n2|8|8\n3|7|7\n3|8|7\npositioning|8|8": "leave the rows of one out: --columns leave=3:3+5:5+7:7",
	} {
		o := expected("A", "B")
		r := sheetimport.Recognise(gridOf(sheet), o)
		require.NotEmpty(t, r.Problems)
		assert.Equal(t, hint, r.Problems[0].Hint)
		_, flag, _ := strings.Cut(hint, "--columns ")
		columns, err := sheetimport.ParseColumns(flag)
		require.NoError(t, err)
		o.Columns = columns
		assert.Empty(t, sheetimport.Recognise(gridOf(sheet), o).Problems)
	}
}

// Seats in another order are still those of their numbers, and said by column; numbers
// from another one on are no seats of the panel.
func TestSeatsOutOfOrder(t *testing.T) {
	o := seated()
	o.PanelOf = "redbank"
	r := sheetimport.Recognise(gridOf(strings.Replace(numbered, "Judge 1|Judge 2|Judge 3", "J2|J1|J3", 1)), o)
	require.Empty(t, r.Problems)
	assert.Equal(t, "AB CD EF\n1 8.0 7.5 7.0\n2 7.0 7.0 6.5\n3 7.5 8.0 8.5\n4 7.0 7.0 7.5\npositioning 7.5 8.0 8.5", rowsOf(r, o))
	assert.Contains(t, saidOf(r), "note: judges as the panel of redbank: D CD, E AB, F EF; --panel gives another order")

	for _, heads := range []string{"J2|J3|J4", "Judge 0|Judge 1|Judge 2", "J1|J2|J2", "2|3|4", "J1|J3|J4"} {
		r = sheetimport.Recognise(gridOf(strings.Replace(numbered, "Judge 1|Judge 2|Judge 3", heads, 1)), o)
		require.NotEmpty(t, r.Problems, heads)
		assert.NotContains(t, saidOf(r), "judges as the panel", heads)
	}
}
