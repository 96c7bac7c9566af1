package sheetimport_test

import (
	"strings"
	"testing"

	"boxbook/season/sheetimport"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// namedLikeAWord has a judge whose name, HEAD, is also a word of offices.
const namedLikeAWord = "Nr|K|Meier|HEAD|Schmid\n1|4|7,5|8,0|7,0\n2|10|7,0|6,5|7,5\n3|8|8,0|7,5|8,0"

// A word for a mean, points or the K that is the name of somebody in the ledger is that
// judge, with a panel and without.
func TestAJudgeCalledLikeAWord(t *testing.T) {
	for _, name := range []string{"Mittel", "Schnitt", "Average", "Koch", "Kay", "Summer", "Summe", "Total", "Faktor", "K"} {
		for _, panel := range [][]string{nil, {"Meier", name, "Schmid"}} {
			o := lowK(4, 10, 8)
			o.Panel, o.Known = panel, []string{"Huber", name}
			r := sheetimport.Recognise(gridOf(strings.Replace(namedLikeAWord, "HEAD", name, 1)), o)
			require.Empty(t, r.Problems, name)
			assert.Equal(t, "Meier "+name+" Schmid\n1 7.5 8.0 7.0\n2 7.0 6.5 7.5\n3 8.0 7.5 8.0", rowsOf(r, o))
			if panel == nil {
				assert.Contains(t, saidOf(r), "the judges are those of the sheet: Meier "+name+" Schmid")
			}
		}
	}
}

// What has the K of every line, or the mean of the others, is no judge's for being called
// like one.
func TestAWordThatIsAJudgesNameMayMeanTheWord(t *testing.T) {
	o := lowK(4, 10, 8)
	o.Known = []string{"Mittel", "Faktor", "K"}
	for _, sheet := range []string{
		"Nr|Faktor|Meier|Huber|Schmid|Mittel\n1|4|7,5|8,0|7,0|7,50\n2|10|7,0|6,5|7,5|7,00\n3|8|8,0|7,5|8,0|7,83",
		"Nr|K|Meier|Huber|Schmid\n1|4|7,5|8,0|7,0\n2|10|7,0|6,5|7,5\n3|8|8,0|7,5|8,0",
	} {
		r := sheetimport.Recognise(gridOf(sheet), o)
		require.Empty(t, r.Problems, sheet)
		assert.Equal(t, []string{"Meier", "Huber", "Schmid"}, r.Panel)
	}
	o.Panel = []string{"Meier", "K", "Huber", "Schmid"}
	r := sheetimport.Recognise(gridOf("Nr|K|Meier|Huber|Schmid\n1|4|7,5|8,0|7,0\n2|10|7,0|6,5|7,5\n3|8|8,0|7,5|8,0"), o)
	require.Len(t, r.Problems, 1)
	assert.Equal(t, "judge K of the panel has no column", r.Problems[0].Text)
}

// A worksheet a judge, one of them called like a word.
func TestAWorksheetCalledLikeAWord(t *testing.T) {
	o := lowK(4, 10, 8)
	o.Known = []string{"Mittel"}
	var grids []sheetimport.Grid
	for _, name := range []string{"Meier", "Mittel"} {
		g := gridOf("Nr|Mark\n1|7,5\n2|7,0\n3|8,0")
		g.Name = name
		grids = append(grids, g)
	}
	r, ok := sheetimport.RecogniseBook(grids, o)
	require.True(t, ok)
	assert.Empty(t, r.Problems)
	assert.Equal(t, []string{"Meier", "Mittel"}, r.Panel)
}
