package sheetimport_test

import (
	"strings"
	"testing"

	"boxbook/season/sheetimport"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Numbers that could be figures or seats: the K, all of the figures, a word or the
// panel says which of them are the figures.
func TestNumbersOfFiguresOrSeats(t *testing.T) {
	const upright = "\n1 7.5 8.0 7.0\n2 7.0 6.5 7.5\n3 8.0 7.5 8.0\n4 8.0 7.0 8.0"
	const rows = "\n1|7,5|8,0|7,0\n2|7,0|6,5|7,5\n3|8,0|7,5|8,0\n4|8,0|7,0|8,0"
	const withK = "\n1|4|7,5|8,0|7,0\n2|10|7,0|6,5|7,5\n3|8|8,0|7,5|8,0\n4|7|8,0|7,0|8,0"
	turned := "B C D\n1 7.5 7.0 8.0\n2 8.0 6.5 7.5\n3 7.0 7.5 8.0"
	for _, c := range []struct {
		name, sheet, panel string
		figures            int
		read               string // whole, or what is said
	}{
		{"all figures, of no panel", "Nr|2|3|4" + rows, "", 4, "J2 J3 J4" + upright},
		{"all figures, of a panel given for it", "Nr|2|3|4" + rows, "B C D", 4, "B C D" + upright},
		{"the K", "Nr|K|2|3|4" + withK, "B C D", 4, "B C D" + upright},
		{"the K turned", "Nr|1|2|3\nK|4|10|8\n1|7,5|8,0|7,0\n2|7,0|6,5|7,5\n3|8,0|7,5|8,0", "B C D", 3, turned},
		{"the K turned, of no panel", "Nr|1|2|3\nK|4|10|8\n1|7,5|8,0|7,0\n2|7,0|6,5|7,5\n3|8,0|7,5|8,0", "", 3, strings.Replace(turned, "B C D", "J1 J2 J3", 1)},
		{"the panel turned", "Nr|1|2|3\n1|7,5|8,0|7,0\n2|7,0|6,5|7,5\n3|8,0|7,5|8,0\n4|8,0|7,0|8,0", "A B C D", 3, "A B C D\n1 7.5 7.0 8.0 8.0\n2 8.0 6.5 7.5 7.0\n3 7.0 7.5 8.0 8.0"},
		{"a word for judges", "Judge|1|2|3\n1|7,5|8,0|7,0\n2|7,0|6,5|7,5\n3|8,0|7,5|8,0", "B C D", 3, turned},
		{"nothing", "Nr|1|2|3\n1|7,5|8,0|7,0\n2|7,0|6,5|7,5\n3|8,0|7,5|8,0", "B C D", 3, "the numbers in row 1 and in column A can both be those of the figures"},
		{"nothing, of no panel", "|1|2|3\n1|7,5|8,0|7,0\n2|7,0|6,5|7,5\n3|8,0|7,5|8,0", "", 3, "the numbers in row 1 and in column A can both be those of the figures"},
	} {
		o := lowK([]int{4, 10, 8, 7}[:c.figures]...)
		if c.panel != "" {
			o.Panel = strings.Fields(c.panel)
		}
		r := sheetimport.Recognise(gridOf(c.sheet), o)
		if len(r.Problems) == 1 {
			assert.Equal(t, c.read, r.Problems[0].Text, c.name)
			assert.Equal(t, "where each row is a figure: --columns figure=A,judges=B-D; where each row is a judge: --columns figure=1,judges=2-4", r.Problems[0].Hint, c.name)
			continue
		}
		require.Empty(t, r.Problems, c.name)
		assert.Equal(t, c.read, rowsOf(r, o), c.name)
	}
}

// What is asked about is read either way by the flags of the hint.
func TestTheFlagsOfATurnedSheet(t *testing.T) {
	for flag, read := range map[string]string{
		"figure=A,judges=B-D": "B C D\n1 7.5 8.0 7.0\n2 7.0 6.5 7.5\n3 8.0 7.5 8.0",
		"figure=1,judges=2-4": "B C D\n1 7.5 7.0 8.0\n2 8.0 6.5 7.5\n3 7.0 7.5 8.0",
	} {
		o := lowK(4, 10, 8)
		o.Panel = []string{"B", "C", "D"}
		var err error
		o.Columns, err = sheetimport.ParseColumns(flag)
		require.NoError(t, err)
		r := sheetimport.Recognise(gridOf("Nr|1|2|3\n1|7,5|8,0|7,0\n2|7,0|6,5|7,5\n3|8,0|7,5|8,0"), o)
		require.Empty(t, r.Problems, flag)
		assert.Equal(t, read, rowsOf(r, o), flag)
	}
}

// Seats from another one on are no panel of a contest: they are asked for, and the
// figures are not taken for judges, nor those for figures.
func TestSeatsFromAnotherOneOn(t *testing.T) {
	for _, heads := range []string{"Nr|2|3|4", "Nr|2|3|4|Mittel"} {
		for _, panel := range []string{"A B C", "A B C D"} {
			for _, partial := range []bool{false, true} {
				o := lowK(4, 10, 8, 7)
				o.Panel, o.PanelOf, o.Partial = strings.Fields(panel), "redbank", partial
				sheet := heads + "\n1|7,5|8,0|7,0|7,5\n2|7,0|6,5|7,5|7,0\n3|8,0|7,5|8,0|8,0\n4|8,0|7,0|8,0|7,5"
				r := sheetimport.Recognise(gridOf(sheet), o)
				require.NotEmpty(t, r.Problems, heads)
				assert.Contains(t, r.Problems[0].Text, "the headings number 3 seats, from \"2\" on, and the panel of redbank has", heads)
				assert.NotContains(t, saidOf(r), "judges as the panel", heads)
			}
		}
	}
}
