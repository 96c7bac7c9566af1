package stats

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// [derived], by hand: two groups, a unit seen in both, one in the second alone, and
// a cell of no unit, which weighs in its group's mean.
func TestPoolShares(t *testing.T) {
	cells := []ShareCell{
		{Group: 0, Unit: 0, Value: 60, Weight: 10, Shares: []float64{1, 0}},
		{Group: 0, Unit: -1, Value: 80, Weight: 30},
		{Group: 1, Unit: 0, Value: 70, Weight: 10, Shares: []float64{1, 0}},
		{Group: 1, Unit: 1, Value: 74, Weight: 30, Shares: []float64{.25, .75}},
	}
	p, err := PoolShares(cells, 2, false)
	require.NoError(t, err)
	assert.InDeltaSlice(t, []float64{75, 73}, p.Means, 1e-12)
	assert.InDeltaSlice(t, []float64{-9, 1}, p.Z, 1e-12, "(-15 - 3)/2, and 74 - 73")
	assert.Equal(t, []float64{2, 1}, p.Times)
	assert.Equal(t, 1, p.DF)
	assert.InDelta(t, 72, p.Variance, 1e-12, "6 and 6 about -9")
	assert.InDeltaSlice(t, []float64{.25 + .75*.25, .75 * .75}, p.Rows[1].Parts, 1e-12)
	assert.Equal(t, []UnitShare{{0, .25}}, p.Rows[0].Units)

	centred, err := PoolShares(cells, 2, true)
	require.NoError(t, err)
	assert.InDeltaSlice(t, []float64{1 - (.25+.4375)/2, -.5625 / 2}, centred.Shares[0], 1e-12)
	assert.Equal(t, p.Z, centred.Z)
}

func TestPoolSharesRefuses(t *testing.T) {
	one := func(change func(c *ShareCell)) []ShareCell {
		c := ShareCell{Value: 60, Weight: 10, Shares: []float64{1}}
		change(&c)
		return []ShareCell{c}
	}
	for want, cells := range map[error][][]ShareCell{
		ErrTooFew: {nil, one(func(c *ShareCell) { c.Unit = -1 })},
		ErrShape: {
			one(func(c *ShareCell) { c.Unit = 1 }), one(func(c *ShareCell) { c.Group = 1 }), one(func(c *ShareCell) { c.Group = -1 }),
			one(func(c *ShareCell) { c.Shares = nil }),
		},
		ErrRange: {one(func(c *ShareCell) { c.Weight = 0 }), one(func(c *ShareCell) { c.Value = 1e80 })},
	} {
		for _, list := range cells {
			_, err := PoolShares(list, 1, false)
			require.ErrorIs(t, err, want)
		}
	}
}

func TestFitSharesRefuses(t *testing.T) {
	for want, change := range map[error]func(d *ShareData){
		ErrTooFew: func(d *ShareData) { *d = ShareData{Step: 1} },
		ErrShape:  func(d *ShareData) { d.Level = []int{0, 0, 0, 0, 0, 0, 0, 2} },
		ErrRange:  func(d *ShareData) { d.Variance = -1 },
	} {
		d := eightFigures()
		change(&d)
		_, err := FitShares(d)
		require.ErrorIs(t, err, want)
	}
	d := eightFigures()
	d.Shares = d.Shares[1:]
	_, err := FitShares(d)
	require.ErrorIs(t, err, ErrShape)
	d = eightFigures()
	d.Step = 0
	_, err = FitShares(d)
	require.ErrorIs(t, err, ErrRange)

	f, err := FitShares(eightFigures())
	require.NoError(t, err)
	_, err = f.Of(ShareRow{Parts: []float64{1}})
	require.ErrorIs(t, err, ErrShape)
	_, err = f.OfUnit(8)
	require.ErrorIs(t, err, ErrShape)
	_, err = f.Gap(4)
	require.ErrorIs(t, err, ErrShape)
	_, _, err = f.Ask(nil)
	require.ErrorIs(t, err, ErrTooFew)
}

// Quantile and Below undo each other, and the means of all units are those of each.
func TestShareDistributions(t *testing.T) {
	f, err := FitShares(eightFigures())
	require.NoError(t, err)
	rapid.Check(t, func(rt *rapid.T) {
		gap, err := f.Gap(rapid.IntRange(0, 3).Draw(rt, "part"))
		require.NoError(rt, err)
		p := rapid.Float64Range(.001, .999).Draw(rt, "p")
		assert.InDelta(rt, p, gap.Below(gap.Quantile(p)), 1e-5)
	})
	for i, mean := range f.UnitMeans() {
		unit, err := f.OfUnit(i)
		require.NoError(t, err)
		assert.InDelta(t, unit.Mean(), mean, 1e-10)
	}
	parts, units := f.SpreadHigh(.95)
	assert.Greater(t, parts, f.Tau)
	assert.Greater(t, units, f.Unit)
	least, _ := f.SpreadHigh(.01)
	assert.Less(t, least, parts)
}

// What is certain is a jump.
func TestMixtureWithoutSpread(t *testing.T) {
	m := Mixture{weights: []float64{1}, means: []float64{-2}, sds: []float64{0}}
	assert.InDelta(t, 0, m.Below(-3), 0)
	assert.InDelta(t, .5, m.Below(-2), 0)
	assert.InDelta(t, 1, m.Below(0), 0)
	assert.InDelta(t, 2, m.Shortfall(), 1e-15)
	assert.InDelta(t, -2, m.Quantile(.3), 1e-6)
}
