package sheetimport_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season/sheetimport"
)

// A sheet whose judges are all others than the panel's is read by its heads, and
// they are the one thing said.
func TestJudgesOfAnotherPanel(t *testing.T) {
	o := expected()
	o.Panel = []string{"J1", "J2", "J3"}
	r := sheetimport.Recognise(gridOf("Figure|Jones|Smith|Brown\n1|7.5|8|8\n2|7|7|6.5\n3|8|8|7\npositioning|8|7.5|8"), o)
	require.Len(t, r.Problems, 1)
	assert.Equal(t, "the judges at the heads are Jones, Smith, Brown; none of them is on the panel (J1, J2, J3)", r.Problems[0].Text)
	assert.Contains(t, r.Problems[0].Hint, `--panel "Jones Smith Brown"`)
	for _, row := range r.Rows {
		assert.Empty(t, row)
	}
}

// Commas between the columns and in the marks too divide every mark, or those with
// a half; to leave out what stands behind would keep wrong marks.
func TestCommasDivideTheMarks(t *testing.T) {
	for _, sheet := range []string{
		"fig|A|B|C\n1|7|5|8|0|8|0\n2|7|0|7|0|6|5\n3|8|0|8|0|7|0\npositioning|8|0|7|5|8|0",
		"fig|A|B|C\n1|7|5|8|8\n2|7|7|6|5\n3|8|8|7\npositioning|8|7|5|8",
	} {
		r := sheetimport.Recognise(gridOf(sheet), expected())
		require.NotEmpty(t, r.Problems, sheet)
		said := 0
		for _, p := range r.Problems {
			assert.NotContains(t, p.Hint, "leave=", sheet)
			if p.Text == "commas stand between the columns and in the marks too (7,5 is read as 7 and 5)" {
				said++
			}
		}
		assert.Equal(t, 1, said, sheet)
	}
	r := sheetimport.Recognise(gridOf("fig|A|B|C\n1|8|8|8|6\n2|7|7|7|7\n3|8|8|7|9\npositioning|8|7|7|8"), expected())
	require.Len(t, r.Problems, 1)
	assert.Contains(t, r.Problems[0].Hint, "leave=E", "a column of marks that nobody heads")
}
