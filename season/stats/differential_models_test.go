//go:build differential

package stats_test

import (
	"slices"

	"github.com/stretchr/testify/require"

	"boxbook/season/stats"
)

// drawSeries draws a series of 4 to 14 values in contests of one to three flights.
func drawSeries(d *differential) (values []float64, days, groups []int, now int) {
	n := 4 + d.IntN(11)
	values = d.normals(n, 68, 3)
	for group := 0; len(days) < n; group++ {
		now += 1 + d.IntN(120)
		for range 1 + d.IntN(3) {
			days, groups = append(days, now), append(groups, group)
		}
	}
	return values, days[:n], groups[:n], days[n-1] + d.IntN(60)
}

func presentOf(d *differential, values []float64, days, groups []int, now int) *stats.Present {
	s := stats.PresentSeries{Values: values, Groups: groups}
	s.Walk, s.Slope = stats.PresentClock(days, now)
	p, err := stats.NewPresent(s)
	require.NoError(d.t, err)
	return p
}

// drawPresent is the mixed model of where a series stands now: a contest's effect,
// a slope and a walk.
func drawPresent(d *differential) (data, says []numbers) {
	values, days, groups, now := drawSeries(d)
	mark := float64(60 + d.IntN(16))
	p := presentOf(d, values, days, groups, now)
	next, err := p.Next().Central(.8)
	require.NoError(d.t, err)
	level, err := p.Level().Central(.8)
	require.NoError(d.t, err)
	return []numbers{many("y", values...), count("days", days...), count("groups", groups...), count("now", now), one("mark", mark)}, []numbers{
		one("level", p.Level().Mean()), one("drift", p.Drift), one("steady", p.Steady), one("variance", p.Variance),
		one("rho", p.Rho), many("now-80", level.Low, level.High), many("next-80", next.Low, next.High),
		one("next-reaches", p.Next().AtLeast(mark)),
	}
}

// drawNoncentralT asks the same model for the share of flights that reach a mark,
// which is a sum of noncentral t distributions: at every point of the grid, where
// the model's own numbers are the data.
func drawNoncentralT(d *differential) (data, says []numbers) {
	values, days, groups, now := drawSeries(d)
	mark, want := float64(60+d.IntN(16)), d.oneOf(.2, .5, .7, .8, .9)
	p := presentOf(d, values, days, groups, now)
	share, err := p.ShareAbove(mark)
	require.NoError(d.t, err)
	chance, err := share.AtLeast(want)
	require.NoError(d.t, err)
	ends, err := share.Ends(.9)
	require.NoError(d.t, err)
	var weight, mean, v, s2 []float64
	for _, q := range p.Points {
		weight, mean, v, s2 = append(weight, q.Weight), append(mean, q.Mean), append(v, q.V), append(s2, q.S2)
	}
	return []numbers{
		many("weight", weight...), many("mean", mean...), many("v", v...), many("s2", s2...),
		count("df", p.DF), one("mark", mark), one("want", want),
	}, []numbers{
		one("chance", chance), many("ends", ends.Low, ends.High),
	}
}

// drawShares is the mixed model of families and figures.
func drawShares(d *differential) (data, says []numbers) {
	units, parts, levels := 4+d.IntN(11), 3+d.IntN(3), 1+d.IntN(2)
	s := stats.ShareData{Variance: 40 + 80*d.Float64(), DF: d.IntN(12), Step: d.oneOf(1, .1)}
	s.Variance *= s.Step * s.Step
	var flat []float64
	for i := range units {
		row := make([]float64, parts)
		row[d.IntN(parts)] += .6
		row[d.IntN(parts)] += .4
		s.Shares, flat = append(s.Shares, row), append(flat, row...)
		s.Z = append(s.Z, 4*s.Step*d.NormFloat64())
		s.Times = append(s.Times, float64(1+d.IntN(12)))
		s.Level = append(s.Level, i%levels)
	}
	f, err := stats.FitShares(s)
	require.NoError(d.t, err)
	var gap, weak, shortfall, below []float64
	for part := range parts {
		m, err := f.Gap(part)
		require.NoError(d.t, err)
		gap, weak, shortfall = append(gap, m.Mean()), append(weak, m.Below(0)), append(shortfall, m.Shortfall())
	}
	for unit := range units {
		m, err := f.OfUnit(unit)
		require.NoError(d.t, err)
		below = append(below, m.Below(0))
	}
	return []numbers{
		many("z", s.Z...), many("times", s.Times...), many("shares", flat...), count("level", s.Level...),
		one("variance", s.Variance), count("df", s.DF), one("step", s.Step),
	}, []numbers{
		one("tau", f.Tau), one("unit", f.Unit), many("levels", f.Levels...), many("parts", f.Parts...),
		many("gap", gap...), many("weak", weak...), many("shortfall", shortfall...),
		many("units", slices.Clone(f.UnitMeans())...), many("units-below", below...),
	}
}
