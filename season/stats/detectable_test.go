package stats

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The days of the season that the reference values of the trend are given for.
var demoDays = []float64{0, 13, 14, 41, 76, 77, 118, 160}

// [derived: r, C_pKendall] from the pairs of the days and the exact null (for
// eight points: P(S >= 18) is .01558, P(S >= 16) .03051), printed by an
// independent computation as 3.93486.
func TestDetectableChangeOfTheReferenceDays(t *testing.T) {
	days := Series{X: demoDays, Y: make([]float64, len(demoDays))}
	critical, ok := criticalS(.05, []Series{days})
	require.True(t, ok)
	assert.Equal(t, 18, critical)
	got, err := DetectableChange(.05, days)
	require.NoError(t, err)
	assert.InDelta(t, 3.93486, got, 5e-6)
}

func TestDetectableChangeNeedsPairsThatCouldShowIt(t *testing.T) {
	four := Series{X: []float64{0, 1, 2, 3}, Y: make([]float64, 4)}
	_, err := DetectableChange(.05, four)
	require.ErrorIs(t, err, ErrTooFew, "no order of four values is rare enough")

	// Five values: an S of 10 alone is rare enough, which is every one of the ten
	// pairs; four and three: 9, all of theirs. No finite change makes all certain.
	five := Series{X: []float64{0, 1, 2, 3, 4}, Y: make([]float64, 5)}
	_, err = DetectableChange(.05, five)
	require.ErrorIs(t, err, ErrNoSpread, "only all pairs together would do")
	_, err = DetectableChange(.05, four, Series{X: []float64{5, 6, 7}, Y: make([]float64, 3)})
	require.ErrorIs(t, err, ErrNoSpread, "only all pairs of both strata together would do")

	oneDay := Series{X: []float64{5, 5, 5, 5, 5}, Y: make([]float64, 5)}
	_, err = DetectableChange(.05, oneDay)
	require.ErrorIs(t, err, ErrNoSpread)

	twoDays := Series{X: []float64{0, 0, 0, 0, 0, 9}, Y: make([]float64, 6)}
	_, err = DetectableChange(.05, twoDays)
	require.ErrorIs(t, err, ErrNoSpread, "five pairs at different days never reach the S asked for")

	_, err = DetectableChange(.05, Series{X: []float64{1, 2}, Y: []float64{1}})
	require.ErrorIs(t, err, ErrShape)
	_, err = DetectableChange(1, four)
	require.ErrorIs(t, err, ErrRange)
}

// More flights, or the same flights in one stratum instead of two, show less of a
// change. [derived].
func TestDetectableChangeShrinksWithPairs(t *testing.T) {
	even := func(n int) Series {
		s := Series{Y: make([]float64, n)}
		for i := range n {
			s.X = append(s.X, float64(i*10))
		}
		return s
	}
	last := 100.0
	for n := 6; n <= 30; n++ {
		got, err := DetectableChange(.05, even(n))
		require.NoError(t, err)
		assert.Less(t, got, last*1.12, "the exact test's steps may let it rise a little")
		last = got
	}
	whole, err := DetectableChange(.05, even(12))
	require.NoError(t, err)
	twelve := even(12)
	split, err := DetectableChange(.05, Series{twelve.X[:6], twelve.Y[:6]}, Series{twelve.X[6:], twelve.Y[6:]})
	require.NoError(t, err)
	assert.Greater(t, split, whole)
}
