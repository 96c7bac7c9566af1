package sheetimport_test

import (
	"strings"
	"testing"

	"boxbook/season/sheetimport"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// fourJudges is a sheet of four judges, its means, points and total worked out of all.
const fourJudges = `Fig|K|AB|CD|EF|GH|Mean|Points
1|14|7.5|8.0|7.0|6.0|7.125|99.75
2|23|7.0|7.0|6.5|8.0|7.125|163.88
3|9|8.0|7.5|8.5|7.0|7.75|69.75
4|12|7.0|7.0|7.5|9.0|7.625|91.50
positioning|20|8.0|7.5|8.5|8.0|8.00|160.00
Total|78||||||584.88`

// Where a judge is left out the printed means, points and total that include the marks are
// said to, and not judged, whatever heads them.
func TestMeansThatIncludeAJudgeWhoIsLeftOut(t *testing.T) {
	const said = "note: left out, as was asked: column F \"GH\", a judge's marks; the printed columns G \"Mean\", H \"Points\" and the total 584.88 include it and are not compared"
	for name, c := range map[string]struct{ heads, leave, said string }{
		"known headings":   {"Mean|Points", "leave=F", said},
		"by its heading":   {"Mean|Points", "leave=GH", said},
		"given columns":    {"Mean|Points", "figure=A,judges=C-E,leave=F", said},
		"unknown headings": {"MW|Pkt", "leave=F", strings.NewReplacer("Mean", "MW", "Points", "Pkt").Replace(said)},
	} {
		t.Run(name, func(t *testing.T) {
			o := seated()
			var err error
			o.Columns, err = sheetimport.ParseColumns(c.leave)
			require.NoError(t, err)
			r := sheetimport.Recognise(gridOf(strings.Replace(fourJudges, "Mean|Points", c.heads, 1)), o)
			require.Empty(t, r.Problems)
			assert.Equal(t, numberedRows, rowsOf(r, o))
			assert.Equal(t, c.said, saidOf(r))
		})
	}
	o := seated()
	o.Panel = nil
	o.Columns.Leave = []string{"F"}
	r := sheetimport.Recognise(gridOf(strings.Replace(fourJudges, "Mean|Points", "MW|Points", 1)), o)
	require.Empty(t, r.Problems, "a mean is no judge")
	assert.Equal(t, []string{"AB", "CD", "EF"}, r.Panel)
}

// A mean of the judges who are read is judged as ever, whoever is left out.
func TestMeansWithoutAJudgeWhoIsLeftOut(t *testing.T) {
	o := seated()
	o.Columns.Leave = []string{"F"}
	const own = `Fig|K|AB|CD|EF|Guest|Mean
1|14|7.5|8.0|7.0|6.0|7.50
2|23|7.0|7.0|6.5|8.0|6.83
3|9|8.0|7.5|8.5|7.0|8.00
4|12|7.0|7.0|7.5|9.0|7.50
positioning|20|8.0|7.5|8.5|8.0|8.00`
	r := sheetimport.Recognise(gridOf(own), o)
	require.Len(t, r.Problems, 1)
	assert.Equal(t, "the mean printed is 7.50, the marks beside it come to 7.167", r.Problems[0].Text)
	r = sheetimport.Recognise(gridOf(strings.Replace(own, "9.0|7.50", "9.0|7.17", 1)), o)
	require.Empty(t, r.Problems)
	assert.Equal(t, "note: compared with the marks: column G \"Mean\"\nnote: not read: column F \"Guest\"", saidOf(r))
}
