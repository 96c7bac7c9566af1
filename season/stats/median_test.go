package stats

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// All derived.
func TestMedians(t *testing.T) {
	m, ok := Median([]float64{4, 1, 3, 2})
	assert.True(t, ok)
	assert.Equal(t, 2.5, m)
	m, ok = Median([]float64{9, 1, 3})
	assert.True(t, ok)
	assert.Equal(t, 3.0, m)
	mad, ok := MAD([]float64{1, 1, 2, 2, 4, 6, 9})
	assert.True(t, ok)
	assert.Equal(t, 1.0, mad)
	assert.Equal(t, 2.0, weightedMedian([]float64{3, 1, 2}, []float64{1, 1, 5}))
	assert.Equal(t, 2.0, weightedMedian([]float64{3, 1}, []float64{.1, .1}), "exactly half: the mean of the two")
	x := []float64{2, 1}
	Median(x)
	assert.Equal(t, []float64{2, 1}, x, "the values stay in their order")
}

func TestMedianEdges(t *testing.T) {
	for _, x := range [][]float64{nil, {}, {1, math.NaN()}, {math.Inf(1)}} {
		_, ok := Median(x)
		assert.False(t, ok)
		_, ok = MAD(x)
		assert.False(t, ok)
	}
}

func TestMedianProperties(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		x := rapid.SliceOfN(rapid.Float64Range(-100, 100), 1, 30).Draw(rt, "x")
		m, ok := Median(x)
		require.True(rt, ok)
		below, above := 0, 0
		equal := make([]float64, len(x))
		for i, v := range x {
			equal[i] = 3
			if v < m {
				below++
			}
			if v > m {
				above++
			}
		}
		assert.LessOrEqual(rt, 2*below, len(x))
		assert.LessOrEqual(rt, 2*above, len(x))
		assert.InDelta(rt, m, weightedMedian(x, equal), 1e-12)
	})
}
