package commands

import (
	"strings"
	"testing"

	"boxbook/scoring"
	"boxbook/season"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A sheet's penalty is added where the flight has none of it; one whose kind either does
// not know is the same where the points are.
func TestPenaltiesApart(t *testing.T) {
	penalties := func(text string) (list []season.Penalty) {
		words := strings.Fields(text)
		for i := 0; i < len(words); i += 2 {
			points, ok := scoring.ParseDecimal(words[i+1])
			require.True(t, ok)
			list = append(list, season.Penalty{Kind: season.PenaltyKind(words[i]), Points: points})
		}
		return list
	}
	for _, c := range []struct{ was, is, has, here, lacking string }{
		{was: "", is: "low 20", lacking: "low 20"},
		{was: "low 20", is: ""},
		{was: "low 20", is: "low 20.0"},
		{was: "low 20", is: "low 30", has: "low 20", here: "low 30"},
		{was: "low 20", is: "low 20 out 10", lacking: "out 10"},
		{was: "out 10", is: "out 10 out 10", has: "out 10", here: "out 10 and out 10"},
		{was: "out 20", is: "out 10 out 10"},
		{was: "low 20", is: "other 20"},
		{was: "other 20", is: "low 20"},
		{was: "low 20", is: "other 30", has: "low 20", here: "other 30"},
		{was: "low 20 out 10", is: "low 20 other 10"},
	} {
		has, here, lacking := penaltiesApart(penalties(c.was), penalties(c.is))
		assert.Equal(t, []string{c.has, c.here, c.lacking}, []string{has, here, penaltiesSaid(lacking)}, "%s; on the sheet %s", c.was, c.is)
	}
}
