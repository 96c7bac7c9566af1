package sheetimport_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"boxbook/season"
	"boxbook/season/sheetimport"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// lowK is a sequence of a few figures whose K could be marks.
func lowK(k ...int) sheetimport.Options {
	o := expected()
	figures := make([]season.Figure, len(k))
	for i := range k {
		figures[i].K = k[i]
	}
	o.Lines = sheetimport.LinesOf(&season.Sequence{Figures: figures})
	return o
}

// kHeads are headings of the K in languages of offices, and some that nobody knows.
var kHeads = []string{
	"Koeff", "Koeff.", "Koef", "Coef", "Coeff", "Coefficient", "Factor", "Faktor", "KF", "Koeffizient", "Schwierigkeit", "Coeficiente", "Facteur",
	"Koeff. (K)", "Wertung", "Zahl", "XY",
}

// A column with the K of every line is the K, whatever its heading: no judge.
func TestKWhateverItsHeading(t *testing.T) {
	for _, head := range kHeads {
		for _, panel := range [][]string{nil, {"Meier", "Huber", "Schmid"}} {
			o := lowK(4, 10, 8)
			o.Panel = panel
			r := sheetimport.Recognise(gridOf("Nr|"+head+"|Meier|Huber|Schmid\n1|4|7,5|8,0|7,0\n2|10|7,0|6,5|7,5\n3|8|8,0|7,5|8,0"), o)
			require.Empty(t, r.Problems, head)
			assert.Equal(t, "Meier Huber Schmid\n1 7.5 8.0 7.0\n2 7.0 6.5 7.5\n3 8.0 7.5 8.0", rowsOf(r, o), head)
			if head == "XY" && panel == nil {
				assert.Contains(t, saidOf(r), `note: column B, "XY", is the K: it has that of known-26 in 3 rows`)
			}
		}
	}
}

// A column with the K but for a slip is asked about, or is the K by its heading; in
// whole numbers among marks with halves it is asked about even where no K is right.
func TestKWithASlip(t *testing.T) {
	for _, c := range []struct{ k, said string }{
		{"4 10 9", "has the K of known-26 in 2 of 3 rows: the K, or a judge's marks?"},
		{"5 9 9", "has whole numbers alone, unlike the marks beside it: a judge's marks, the K or something else?"},
	} {
		k := strings.Fields(c.k)
		for _, head := range kHeads {
			o := lowK(4, 10, 8)
			r := sheetimport.Recognise(gridOf(fmt.Sprintf("Nr|%s|Meier|Huber|Schmid\n1|%s|7,5|8,0|7,0\n2|%s|7,0|6,5|7,5\n3|%s|8,0|7,5|8,0", head, k[0], k[1], k[2])), o)
			require.NotEmpty(t, r.Problems, head)
			assert.Equal(t, []string{"Meier", "Huber", "Schmid"}, r.Panel, head)
			if head == "XY" {
				assert.Equal(t, "column B, \"XY\", "+c.said, r.Problems[0].Text)
				assert.Equal(t, "where it is a judge's: --columns figure=A,judges=B-E; where it is none: --columns leave=B; where it is the K: --columns figure=A,k=B,judges=C-E", r.Problems[0].Hint)
			}
		}
	}
}

// What is asked about is read in every way that the hint has.
func TestTheFlagsOfADoubt(t *testing.T) {
	const sheet = "Nr|XY|Meier|Huber|Schmid\n1|4|7,5|8,0|7,0\n2|10|7,0|6,5|7,5\n3|9|8,0|7,5|8,0"
	for flag, judges := range map[string]int{"figure=A,judges=B-E": 4, "leave=B": 3, "figure=A,k=B,judges=C-E": 3} {
		o := lowK(4, 10, 8)
		var err error
		o.Columns, err = sheetimport.ParseColumns(flag)
		require.NoError(t, err)
		assert.Equal(t, flag, o.Columns.String())
		r := sheetimport.Recognise(gridOf(sheet), o)
		assert.Len(t, r.Panel, judges, flag)
		if strings.Contains(flag, "k=") {
			require.Len(t, r.Problems, 1)
			assert.Equal(t, "figure 3 has K 9 on the sheet, K 8 in known-26", r.Problems[0].Text)
		} else {
			assert.Empty(t, r.Problems, flag)
		}
	}
}

// A K that its heading does not say stays the K in the flags of another doubt.
func TestTheFlagsOfADoubtKeepTheK(t *testing.T) {
	r := sheetimport.Recognise(gridOf("No|Value|Ann|Bob|Cy\n1|8|7.5|7.0|7.5\n2|7|8.0|7.0|7.5\n3|9|6.0|6.5|6.5\n4|10|8.0|8.0|8.0"), lowK(8, 7, 9, 10))
	require.Len(t, r.Problems, 1)
	assert.Equal(t, "where it is a judge's: --columns figure=A,k=B,judges=C-E; where it is none: --columns leave=E", r.Problems[0].Hint)
}

// What a mean shows is rounded or cut off there: a mark that is half a point off lies by
// a whole last place beside it.
func TestAMeanWithAMarkHalfAPointOff(t *testing.T) {
	for mean, wrong := range map[string]bool{"6,1": false, "6,0": true, "6,2": true, "6,10": false, "6,11": true} {
		o := lowK(4, 10, 8)
		r := sheetimport.Recognise(gridOf("Nr|K|A|B|C|D|E|Mean\n1|4|6,5|5,5|6,0|6,5|6,0|"+mean+"\n2|10|7,0|7,0|7,0|7,0|7,0|7,0\n3|8|7,0|7,0|7,5|7,0|7,0|7,1"), o)
		assert.Equal(t, wrong, len(r.Problems) == 1, mean)
	}
	cut := sheetimport.Recognise(gridOf("Nr|K|A|B|C|Mean\n1|4|7,0|7,0|7,5|7,1\n2|10|7,0|7,0|7,5|7,2\n3|8|7,0|7,0|7,0|7,0"), lowK(4, 10, 8))
	assert.Empty(t, cut.Problems, "7.17 is 7.1 cut off and 7.2 rounded")
}

// A whole column of marks is a judge's where the office's means or points have it in them,
// and where it is no other kind of number.
func TestWholeMarksOfAJudge(t *testing.T) {
	for _, sheet := range []string{
		"Nr|K|Meier|Huber|Mean\n1|4|7,5|8|7,75\n2|10|7,0|9|8,00\n3|8|8,0|8|8,00",
		"Nr|Huber|Meier|Pkt\n1|4|7,5|23,00\n2|10|7,0|85,00\n3|9|8,0|68,00",
		"Nr|Meier|Huber\n1|7.5|8\n2|7|6\n3|8|8",
	} {
		r := sheetimport.Recognise(gridOf(sheet), lowK(4, 10, 8))
		require.Empty(t, r.Problems, sheet)
		assert.ElementsMatch(t, []string{"Meier", "Huber"}, r.Panel)
	}
}

// A mean with a slip is compared with the marks and is no judge, by its heading; under a
// heading that nobody knows it is asked about.
func TestAMeanWithASlip(t *testing.T) {
	const sheet = "Nr|K|Meier|Huber|Schmid|HEAD\n1|4|7,5|8,0|7,0|7,5\n2|10|7,0|6,5|7,5|7,5\n3|8|8,0|7,5|8,0|8,0"
	for _, head := range []string{"Durchschnitt", "Mittel", "Schnitt", "Moyenne", "Media", "Mean", "Average", "Ø", "Gemiddelde"} {
		for _, panel := range [][]string{nil, {"Meier", "Huber", "Schmid"}} {
			o := lowK(4, 10, 8)
			o.Panel = panel
			r := sheetimport.Recognise(gridOf(strings.Replace(sheet, "HEAD", head, 1)), o)
			require.Len(t, r.Problems, 1, head)
			assert.Equal(t, []string{"Meier", "Huber", "Schmid"}, r.Panel)
			assert.Equal(t, "F3", r.Problems[0].Cell)
			assert.Equal(t, "the mean printed is 7,5, the marks beside it come to 7", r.Problems[0].Text)
		}
	}
	r := sheetimport.Recognise(gridOf(strings.Replace(sheet, "HEAD", "XY", 1)), lowK(4, 10, 8))
	require.Len(t, r.Problems, 1)
	assert.Equal(t, "column F, \"XY\", has the mean of the others, rounded to halves, in 2 of 3 rows: a mean, or a judge's marks?", r.Problems[0].Text)

	// without halves nothing but a mean can be meant
	r = sheetimport.Recognise(gridOf(strings.NewReplacer("HEAD", "XY", "|8,0|8,0", "|8,0|7,83").Replace(sheet)), lowK(4, 10, 8))
	require.Len(t, r.Problems, 1)
	assert.Equal(t, "the mean printed is 7,5, the marks beside it come to 7", r.Problems[0].Text)
}

// Points under any heading are compared with the marks, a slip among them too, even where
// each could be a mark without its point.
func TestPointsWithASlip(t *testing.T) {
	for _, head := range []string{"Pkt", "XY"} {
		r := sheetimport.Recognise(gridOf("Nr|K|Meier|Huber|Schmid|"+head+"\n1|4|7,5|8,0|7,0|30\n2|10|7,0|6,5|7,5|75\n3|8|8,0|7,5|8,0|62,67"), lowK(4, 10, 8))
		require.Len(t, r.Problems, 1, head)
		assert.Equal(t, "F3", r.Problems[0].Cell)
		assert.Equal(t, "the points printed is 75, the marks beside it come to 70", r.Problems[0].Text)

		r = sheetimport.Recognise(gridOf("Nr|K|Meier|Huber|"+head+"\n1|5|7|8|45\n2|10|7|7|70\n3|5|8|8|40"), lowK(5, 10, 5))
		require.Len(t, r.Problems, 1, head)
		assert.Equal(t, []string{"Meier", "Huber"}, r.Panel)
		assert.Equal(t, "the points printed is 45, the marks beside it come to 37.5", r.Problems[0].Text)
	}
}

// A judge's own marks are never taken for a mean or the K, and seldom asked about: of
// few rows sometimes, of a sequence's ten hardly ever.
func TestTrueJudgesAreSeldomAskedAbout(t *testing.T) {
	const sheets = 400
	for _, c := range []struct{ rows, most int }{{3, sheets / 3}, {5, sheets / 10}, {10, sheets / 50}} {
		random := rand.New(rand.NewPCG(7, uint64(c.rows)))
		asked := 0
		for range sheets {
			k := make([]int, c.rows)
			text := "Nr|K|Meier|Huber|Schmid"
			for i := range k {
				k[i] = 5 + random.IntN(20)
				text += fmt.Sprintf("\n%d|%d", i+1, k[i])
				flown := 7 + 0.8*random.NormFloat64()
				for range 3 {
					text += fmt.Sprintf("|%.1f", math.Round(2*min(10, max(0, flown+0.6*random.NormFloat64())))/2)
				}
			}
			r := sheetimport.Recognise(gridOf(text), lowK(k...))
			if len(r.Problems) > 0 {
				asked++
				continue
			}
			require.Equal(t, []string{"Meier", "Huber", "Schmid"}, r.Panel, text)
		}
		assert.LessOrEqual(t, asked, c.most, "%d rows", c.rows)
		t.Logf("%d rows: %d of %d asked about", c.rows, asked, sheets)
	}
}

// A mean that an office rounded to halves, with slips, is asked about or said, and never a judge's in silence.
func TestRoundedMeansAreNeverJudges(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 3))
	for range 300 {
		rows := 3 + random.IntN(10)
		k, slip := make([]int, rows), random.IntN(rows)
		text := "Nr|Meier|Huber|Schmid|XY"
		for i := range k {
			k[i] = 5 + random.IntN(20)
			text += fmt.Sprint("\n", i+1)
			sum := 0.0
			for range 3 {
				mark := float64(10+random.IntN(11)) / 2
				sum += mark
				text += fmt.Sprintf("|%.1f", mark)
			}
			mean := math.Round(2*sum/3) / 2
			if i == slip {
				mean = 10.5 - mean
			}
			text += fmt.Sprintf("|%.1f", min(10, mean))
		}
		r := sheetimport.Recognise(gridOf(text), lowK(k...))
		require.NotEmpty(t, r.Problems, text)
	}
}
