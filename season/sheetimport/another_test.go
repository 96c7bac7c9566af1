package sheetimport_test

import (
	"strings"
	"testing"

	"boxbook/season/sheetimport"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A judge with two columns and one without: the column that stands where the panel has
// that one is named first, and --panel takes it.
func TestAJudgeUnderAnothersName(t *testing.T) {
	for _, c := range []struct{ sheet, panel, said, hint, note string }{
		{
			"fig|K|A|B|A\n1|4|7|8|7.5\n2|10|6|6.5|7\n3|8|8|8|HZ", "A B C",
			"E1 error: judge A has a second column, and C of the panel has none",
			`where column E is that of C: --panel "A B C"; else leave one out: --columns leave=E`,
			"column E, headed A as another is, is C, whom --panel has there",
		},
		{
			"fig|K|B|A|B\n1|4|7|8|7.5\n2|10|6|6.5|7\n3|8|8|8|HZ", "C A B",
			"E1 error: judge B has a second column, and C of the panel has none",
			`where column C is that of C: --panel "C A B"; else leave one out: --columns leave=E`,
			"column C, headed B as another is, is C, whom --panel has there",
		},
		{
			"fig|K|B|A|B\n1|4|7|8|7.5\n2|10|6|6.5|7\n3|8|8|8|HZ", "A B C",
			"E1 error: judge B has a second column, and C of the panel has none",
			`where column E is that of C: --panel "B A C"; else leave one out: --columns leave=E`,
			"column E, headed B as another is, is C, whom --panel has there",
		},
		{
			"Judge|1|2|3\nA|7|6|8\nB|8|6.5|8\nA|7.5|7|HZ", "A B C",
			"A4 error: judge A has a second row, and C of the panel has none",
			`where row 4 is that of C: --panel "A B C"; else leave one out: --columns leave=4:4`,
			"row 4, headed A as another is, is C, whom --panel has there",
		},
	} {
		o := lowK(4, 10, 8)
		o.Panel, o.PanelOf = strings.Fields(c.panel), "spring"
		r := sheetimport.Recognise(gridOf(c.sheet), o)
		require.Equal(t, c.said+"\nhint: "+c.hint, saidOf(r))

		_, panel, _ := strings.Cut(c.hint, `"`)
		panel, _, _ = strings.Cut(panel, `"`)
		o.Panel, o.PanelOf = strings.Fields(panel), ""
		r = sheetimport.Recognise(gridOf(c.sheet), o)
		require.Empty(t, r.Problems, c.sheet)
		assert.Contains(t, saidOf(r), c.note)
		assert.Equal(t, panel+"\n1 7.0 8.0 7.5\n2 6.0 6.5 7.0\n3 8.0 8.0 HZ", rowsOf(r, o))
	}
	o := lowK(4, 10, 8)
	o.Panel = []string{"A", "B", "C", "D"}
	r := sheetimport.Recognise(gridOf("fig|A|B|A|B\n1|7|8|7.5|8\n2|6|6.5|7|6\n3|8|8|8|7"), o)
	assert.Contains(t, saidOf(r), "judge A and 1 more judge have a second column", "two of them may be another flight's")
}
