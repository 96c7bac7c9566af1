package ledger

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data"
)

// Tens of thousands of unknown names are not all held against every known one: the
// first are, all are counted. What is counted is comparisons, not time.
func TestNearNamesAreBounded(t *testing.T) {
	const known, unknown = 500, 10_000 // and a thousand are shown
	var b strings.Builder
	for i := range known {
		fmt.Fprintf(&b, "pilot abc%dxyz\n", i)
	}
	for i := range unknown {
		fmt.Fprintf(&b, "flight 2026-01-01 abc%dxy known\n", i)
	}
	opts := Options{Files: Memory{"test.boxbook": b.String()}, Main: "test.boxbook", Builtin: data.Builtin(), AsOf: day(t, "2026-11-25")}
	r, err := loadWhole(opts)
	require.NoError(t, err)
	assert.LessOrEqual(t, r.guesses.compared, mostCompared)
	list := r.result().Diagnostics
	assert.Equal(t, unknown, list.Errors())
	assert.Contains(t, list[0].Message, `did you mean "abc0xyz"?`)
	assert.Contains(t, list[1000-1].Message, "did you mean")
	assert.NotContains(t, list[unknown-1].Message, "did you mean")
}

// A known name of another length by more letters than may differ is not near, and
// those that are stand in the order of their distance.
func TestNearNamesByLength(t *testing.T) {
	assert.Equal(t, []string{"marck", "marrekk"}, near("marek", []string{"marrekk", "marek-the-coach", "ma", "marck", "marck"}))
	assert.Equal(t, []string{"marek"}, near("Marek", []string{"marck", "marek"}))
	assert.Equal(t, []string{"marek-the-coach"}, near("marek-th", []string{"x", "marek-the-coach", "marek-the-coach"}))
}

// Names that are equally near are all named, up to three.
func TestEquallyNearNames(t *testing.T) {
	for typed, test := range map[string]struct {
		known []string
		want  string
	}{
		"bard":    {[]string{"card", "yard", "bark", "farm"}, `did you mean "card", "yard" or "bark"?`},
		"heading": {[]string{"headings", "reading", "heeding-off"}, `did you mean "headings" or "reading"?`},
		"line":    {[]string{"line-angle", "line-length", "radius"}, `did you mean "line-angle" or "line-length"?`},
		"radus":   {[]string{"radius", "ragas"}, `did you mean "radius"?`},
	} {
		assert.Equal(t, test.want, DidYouMean(Near(typed, test.known)), typed)
	}
	assert.Empty(t, Near("x", []string{"radius"}))
}

// Words that are one apart are told without measuring how far others are.
func TestOneApart(t *testing.T) {
	random, words := rand.New(rand.NewPCG(26, 11)), 0
	word := func() string {
		letters := make([]rune, random.IntN(6))
		for i := range letters {
			letters[i] = []rune("abéè")[random.IntN(4)]
		}
		return string(letters)
	}
	for range 20_000 {
		a, b := word(), word()
		require.Equal(t, distance(a, b) == 1, oneApart(a, b), "%q, %q", a, b)
		if oneApart(a, b) {
			words++
		}
	}
	assert.Greater(t, words, 1000)
}
