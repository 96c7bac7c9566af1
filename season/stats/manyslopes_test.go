package stats

import (
	"math"
	"math/rand/v2"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"
)

// manyPoints are days with ties, and values on the grid of hundredths.
func manyPoints(dice *rand.Rand, n int, grid float64) Series {
	var s Series
	for range n {
		s.X = append(s.X, float64(dice.IntN(n)))
		s.Y = append(s.Y, math.Round(grid*(60+3*dice.NormFloat64()))/grid)
	}
	return s
}

// Slopes that are counted are those that are listed, at every rank: in one
// stratum and in several, on a fine grid and on one so coarse that most are tied.
func TestCountedSlopesAreTheListedOnes(t *testing.T) {
	dice := rand.New(rand.NewPCG(21, 3))
	for _, grid := range []float64{1e9, 100, 1, 0.1} {
		for _, strata := range [][]Series{{manyPoints(dice, 150, grid)}, {manyPoints(dice, 60, grid), manyPoints(dice, 90, grid), {X: []float64{5}, Y: []float64{1}}}} {
			listed, err := listSlopes(strata)
			require.NoError(t, err)
			counted := newCountedSlopes(strata, len(listed))
			for rank := 1; rank <= len(listed); rank += 1 + dice.IntN(40) {
				require.InDelta(t, listed.at(rank), counted.at(rank), 1e-12*(1+math.Abs(listed.at(rank))), "rank %d of %d, grid %g", rank, len(listed), grid)
			}
			require.InDelta(t, listed.at(len(listed)), counted.at(len(listed)), 1e-12*counted.most)
			require.InDelta(t, medianSlope(listed), medianSlope(counted), 1e-12)
		}
	}
}

// With 7,500 points no list of 28 million slopes, or distances, is made: the bound
// is bytes a point.
func TestManyPointsListNoPairs(t *testing.T) {
	const points, most = 7500, 40_000
	s := manyPoints(rand.New(rand.NewPCG(21, 4)), points, 100)
	for name, ask := range map[string]func() error{
		"slopes": func() error { _, err := TheilSen(0.9, s); return err },
		"change": func() error { _, err := DetectableChange(0.05, s); return err },
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		require.NoError(t, ask(), name)
		runtime.ReadMemStats(&after)
		require.Less(t, int(after.TotalAlloc-before.TotalAlloc)/points, most, name)
	}
}

// The change that could be seen is the same by the powers of the distances as by
// each distance.
func TestDetectableChangeByPowers(t *testing.T) {
	dice := rand.New(rand.NewPCG(21, 5))
	for _, strata := range [][]Series{{manyPoints(dice, 1200, 100)}, {manyPoints(dice, 900, 100), manyPoints(dice, 700, 100)}} {
		gaps, span, err := pairGaps(strata)
		require.NoError(t, err)
		powers := gapPowers(strata, span)
		for _, c := range []float64{0.01, 0.1, 0.3, 0.9} {
			require.InEpsilon(t, expectedS(gaps, span, c), powers.expected(c), 1e-9, "c %g", c)
		}
	}
}
