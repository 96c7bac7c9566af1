package sheetimport_test

import (
	"testing"

	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/sheetimport"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Judges in rows of their own, and figures in others, are no list of marks.
func TestJudgesAndFiguresShareNoRow(t *testing.T) {
	sheet := "A\nB\nC\nA\nB\nC\nA\nB\n|1|7\n|2|8\n|3|8\n|positioning|8"
	r := sheetimport.Recognise(gridOf(sheet), expected("A", "B", "C"))
	assert.Equal(t, "error: no row of headings: none names a column of figures and judges of the panel (A, B, C)\nhint: give the columns: --columns figure=COLUMN,judges=COLUMN-COLUMN", saidOf(r))
}

// labelled is expected with labels for its figures.
func labelled(panel ...string) sheetimport.Options {
	o := expected(panel...)
	o.Lines = sheetimport.LinesOf(&season.Sequence{
		Figures:     []season.Figure{{K: 14, Label: "half cuban"}, {K: 23, Label: "humpty"}, {K: 9, Label: "roll"}},
		Positioning: 20,
	})
	return o
}

// The ledger's labels name the figures in every layout, without numbers too.
func TestFiguresByLabelsAlone(t *testing.T) {
	for name, sheet := range map[string]string{
		"a column a judge": "fig|A|B\nhalf cuban|7|8\nhumpty|6.5|7\nroll|8|9\npositioning|7|7",
		"seats":            "|1|2\nhalf cuban|7|8\nhumpty|6.5|7\nroll|8|9\npositioning|7|7",
		"a row a mark":     "half cuban|A|7\nhalf cuban|B|8\nhumpty|A|6.5\nhumpty|B|7\nroll|A|8\nroll|B|9\npositioning|A|7\npositioning|B|7",
	} {
		t.Run(name, func(t *testing.T) {
			o := labelled("A", "B")
			r := sheetimport.Recognise(gridOf(sheet), o)
			require.Empty(t, r.Problems)
			assert.Equal(t, "A B\n1 7.0 8.0\n2 6.5 7.0\n3 8.0 9.0\npositioning 7.0 7.0", rowsOf(r, o))
		})
	}
}

// A worksheet a judge may have the labels alone as well.
func TestWorksheetsByLabelsAlone(t *testing.T) {
	a := gridOf("half cuban|7\nhumpty|6.5\nroll|8\npositioning|7")
	b := gridOf("half cuban|8\nhumpty|7\nroll|9\npositioning|7")
	a.Name, b.Name = "A", "B"
	o := labelled("A", "B")
	r, ok := sheetimport.RecogniseBook([]sheetimport.Grid{a, b}, o)
	require.True(t, ok)
	require.Empty(t, r.Problems)
	assert.Equal(t, "A B\n1 7.0 8.0\n2 6.5 7.0\n3 8.0 9.0\npositioning 7.0 7.0", rowsOf(r, o))
}

// Where labels alone name the figures no column of marks is passed over for its
// heading, and one that numbers the figures is none of marks.
func TestColumnsBesideLabels(t *testing.T) {
	o := labelled("A", "B")
	r := sheetimport.Recognise(gridOf("fig|A|B|page\nhalf cuban|7|8|7.5\nhumpty|6.5|7|8\nroll|8|9|7\npositioning|7|7|7"), o)
	require.Len(t, r.Problems, 1)
	assert.Contains(t, r.Problems[0].Text, "column D, \"page\", is neither a judge's column")
	r = sheetimport.Recognise(gridOf("fig|A|B|no\nhalf cuban|7|8|1\nhumpty|6.5|7|2\nroll|8|9|3\npositioning|7|7|"), o)
	require.Empty(t, r.Problems)
	require.Equal(t, scoring.Mark{Half: 14, Kind: scoring.Grade}, r.Rows[0][0].Mark)
}
