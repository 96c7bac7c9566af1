package stats

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Benjamini and Hochberg 1995, table 1 [published: bh-suites, table 1] [derived:
// r, p.adjust; statsmodels, fdr_bh].
func TestBenjaminiHochberg(t *testing.T) {
	p := []float64{.0001, .0004, .0019, .0095, .0201, .0278, .0298, .0344, .0459, .3240, .4262, .5719, .6528, .7590, 1}
	want := []float64{.0015, .003, .0095, .035625, .0603, .063857142857, .063857142857, .0645, .0765, .486, .581181818, .714875, .75323077, .81321429, 1}
	q, err := BenjaminiHochberg(p)
	require.NoError(t, err)
	rejected := 0
	for i := range q {
		assert.InDelta(t, want[i], q[i], 6e-9)
		if q[i] <= .05 {
			rejected++
		}
	}
	assert.Equal(t, 4, rejected)
	rejected = 0
	for _, v := range bonferroni(p) {
		if v <= .05 {
			rejected++
		}
	}
	assert.Equal(t, 3, rejected)
}

func TestMultiplicityEdges(t *testing.T) {
	q, err := BenjaminiHochberg(nil)
	require.NoError(t, err)
	assert.Empty(t, q)
	for _, bad := range []float64{-.1, 1.1, math.NaN()} {
		_, err := BenjaminiHochberg([]float64{.5, bad})
		assert.ErrorIs(t, err, ErrRange)
	}
}

func TestMultiplicityProperties(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := rapid.SliceOfN(rapid.Float64Range(0, 1), 1, 20).Draw(rt, "p")
		q, err := BenjaminiHochberg(p)
		require.NoError(rt, err)
		b := bonferroni(p)
		for i := range p {
			assert.True(rt, q[i] >= p[i] && q[i] <= b[i]+1e-15, "between p and Bonferroni")
			for j := range p {
				if p[i] < p[j] {
					assert.LessOrEqual(rt, q[i], q[j], "the order is kept")
				}
			}
		}
		// As the step-up rule has it: i is called at the level when some rank at or
		// above its own has p_(k) <= level k/m.
		level := rapid.Float64Range(.01, .5).Draw(rt, "level")
		s := sorted(p)
		last := -1.0
		for k, v := range s {
			if v <= level*float64(k+1)/float64(len(s)) {
				last = v
			}
		}
		for i := range p {
			if math.Abs(q[i]-level) > 1e-12 {
				assert.Equal(rt, p[i] <= last, q[i] <= level)
			}
		}
	})
}
