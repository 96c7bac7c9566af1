package sheetimport_test

import (
	"strings"
	"testing"

	"boxbook/scoring"
	"boxbook/season/sheetimport"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// pointsHeads are headings of points as offices write them.
var pointsHeads = []string{"Pkt", "Pkt.", "Pkte", "Pts", "Points", "Punkte"}

// Points are compared with the marks by their heading, though each could be a mark.
func TestPointsThatCouldBeMarks(t *testing.T) {
	for _, head := range pointsHeads {
		for _, panel := range [][]string{nil, {"Meier", "Huber"}} {
			o := lowK(1, 1, 1)
			o.Panel = panel
			r := sheetimport.Recognise(gridOf("Nr|K|Meier|Huber|"+head+"\n1|1|7,5|8,5|8,0\n2|1|7,0|6,0|6,5\n3|1|8,0|7,0|7,5"), o)
			require.Empty(t, r.Problems, head)
			assert.Equal(t, []string{"Meier", "Huber"}, r.Panel)
			assert.Contains(t, saidOf(r), "note: compared with the marks: column E \""+head+"\"")
		}
	}
}

// Points that the marks do not come to are asked about, and read either way by the flags.
func TestPointsThatDoNotFit(t *testing.T) {
	for _, head := range pointsHeads {
		for _, c := range []struct{ points, hint string }{
			{"7,5 8,5 9,0", "where it is a judge's: --columns figure=A,k=B,judges=C-E; where it is none: --columns leave=E"},
			{"130 180 19,5", "where it is none: --columns leave=E"},
		} {
			points := strings.Fields(c.points)
			sheet := gridOf("Nr|K|Meier|Huber|" + head + "\n1|4|7,5|8,0|" + points[0] + "\n2|10|7,0|6,5|" + points[1] + "\n3|8|8,0|7,5|" + points[2])
			o := lowK(4, 10, 8)
			r := sheetimport.Recognise(sheet, o)
			require.Len(t, r.Problems, 1, head)
			assert.Equal(t, "E1", r.Problems[0].Cell)
			assert.Equal(t, "column E, \""+head+"\", is headed as points, and the marks do not come to them: a judge's marks, or points worked out otherwise?", r.Problems[0].Text)
			assert.Equal(t, c.hint, r.Problems[0].Hint)

			var err error
			o.Columns, err = sheetimport.ParseColumns("leave=E")
			require.NoError(t, err)
			assert.Empty(t, sheetimport.Recognise(sheet, o).Problems)
			o.Columns, o.Panel = sheetimport.Columns{}, []string{"Meier", "Huber"}
			r = sheetimport.Recognise(sheet, o)
			require.Len(t, r.Problems, 1, head)
			assert.Equal(t, "where it is none: --columns leave=E", r.Problems[0].Hint)
		}
	}
}

// Points with the extremes dropped, as the rules of the contest have it, agree.
func TestPointsByTheRules(t *testing.T) {
	o := lowK(4, 10, 8)
	o.Style = scoring.Style{DropExtremes: true}
	r := sheetimport.Recognise(gridOf("Nr|K|A|B|C|D|E|Pkt\n1|4|7,5|8,0|2,5|7,5|7,5|30\n2|10|7,0|6,5|7,0|9,5|7,0|70\n3|8|8,0|4,5|8,5|8,0|8,0|64"), o)
	require.Empty(t, r.Problems)
	assert.Contains(t, saidOf(r), "compared with the marks: column H \"Pkt\"")
}

// A text among points keeps the others from nothing: it is named, and they are compared.
func TestATextAmongPoints(t *testing.T) {
	r := sheetimport.Recognise(gridOf("Nr|K|A|B|Points\n1|4|7,5|8,0|31\n2|10|7,0|6,5|9,99\n3|8|8,0|7,5|DQ!\n4|5|7|7|35"), lowK(4, 10, 8, 5))
	said := saidOf(r)
	assert.Contains(t, said, `E4 note: not read: "DQ!", where the points would stand`)
	assert.Contains(t, said, "E3 error: the points printed is 9,99, the marks beside it come to 67.5")

	r = sheetimport.Recognise(gridOf("Nr|K|A|B|Points\n1|4|7,5|8,0|see\n2|10|7,0|6,5|the\n3|8|8,0|7,5|list"), lowK(4, 10, 8))
	assert.Empty(t, r.Problems, "nothing to compare")
	assert.Contains(t, saidOf(r), `not read: column E "Points"`)
}
