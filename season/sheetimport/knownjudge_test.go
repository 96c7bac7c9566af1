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

// A word for the numbers of figures that is a judge's name is that judge, in every layout,
// but at the head of the figures.
func TestAJudgeCalledLikeTheNumbers(t *testing.T) {
	const want = "LB NO SK\n1 7.0 7.5 7.5\n2 6.5 6.0 HZ\n3 8.0 8.0 7.0"
	for _, name := range []string{"NO", "Nr", "Fig", "Number"} {
		for _, sheet := range []string{
			"Judge|1|2|3\nLB|7|6.5|8\nNO|7.5|6|8\nSK|7.5|HZ|7",
			"Fig|LB|NO|SK\n1|7|7.5|7.5\n2|6.5|6|HZ\n3|8|8|7",
			"No|LB|NO|SK\n1|7|7.5|7.5\n2|6.5|6|HZ\n3|8|8|7",
			"|K|LB|NO|SK|Moyenne|Total\n1|4|70|75|75|7.33|29.33\n2|10|65|60|HZ|0.00|0.00\n3|8|80|80|70|7.67|61.33",
			"Figur|Richter|Note\n1|LB|7\n1|NO|7,5\n1|SK|7,5\n2|LB|6,5\n2|NO|6\n2|SK|HZ\n3|LB|8\n3|NO|8\n3|SK|7",
			"Figure|Judge|Mark\n1|LB|7\n1|NO|7.5\n1|SK|7.5\n2|LB|6.5\n2|NO|6\n2|SK|HZ\n3|LB|8\n3|NO|8\n3|SK|7",
		} {
			o := lowK(4, 10, 8)
			o.Panel = []string{"LB", name, "SK"}
			r := sheetimport.Recognise(gridOf(strings.ReplaceAll(sheet, "NO", name)), o)
			require.Empty(t, r.Problems, name+"\n"+sheet)
			assert.Equal(t, strings.ReplaceAll(want, "NO", name), rowsOf(r, o), sheet)
		}
	}
}

// Where nobody is the panel, a judge whom the ledger knows is none the less.
func TestAKnownJudgeCalledLikeTheNumbers(t *testing.T) {
	o := lowK(4, 10, 8)
	o.Known = []string{"NO"}
	for _, sheet := range []string{
		"Judge|1|2|3\nLB|7|6.5|8\nNO|7.5|6|8\nSK|7.5|HZ|7",
		"Nr|LB|NO|SK\n1|7|7.5|7.5\n2|6.5|6|HZ\n3|8|8|7",
		"No|LB|NO|SK\n1|7|7.5|7.5\n2|6.5|6|HZ\n3|8|8|7",
	} {
		r := sheetimport.Recognise(gridOf(sheet), o)
		require.Empty(t, r.Problems, sheet)
		assert.Equal(t, []string{"LB", "NO", "SK"}, r.Panel)
	}
}
