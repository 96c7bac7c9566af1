package stats

import (
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// anyFloat draws any finite number: everyday ones, the largest and the smallest,
// and, seldom, one that is not finite.
func anyFloat() *rapid.Generator[float64] {
	return rapid.OneOf(
		rapid.Custom(func(rt *rapid.T) float64 { return float64(rapid.IntRange(-4, 20).Draw(rt, "half")) / 2 }),
		rapid.Float64Range(-100, 100),
		rapid.Float64(),
		rapid.SampledFrom([]float64{
			0, math.Copysign(0, -1), 1e75, -1e75, 1e-75, 1e-300, 5e-324, 1e300, -math.MaxFloat64,
			largestConfidence, .5, .9, .95, 1, 1e-9, math.NaN(), math.Inf(1),
		}),
	)
}

func anyFloats(rt *rapid.T, name string) []float64 {
	return rapid.SliceOfN(anyFloat(), 0, 9).Draw(rt, name)
}

// likeFloats draws as many as x has, most of the time.
func likeFloats(rt *rapid.T, x []float64, name string) []float64 {
	n := len(x)
	if rapid.IntRange(0, 19).Draw(rt, "other length") == 0 {
		n = rapid.IntRange(0, 9).Draw(rt, "length")
	}
	return rapid.SliceOfN(anyFloat(), n, n).Draw(rt, name)
}

func anyCount() *rapid.Generator[int] {
	return rapid.OneOf(rapid.IntRange(0, 40), rapid.SampledFrom([]int{-1, 999_999, 1_000_000, math.MaxInt, math.MinInt, 2000}))
}

func anyTable(rt *rapid.T) Table {
	size := rapid.OneOf(rapid.IntRange(0, 6), rapid.IntRange(2, 4))
	t := Table{Rows: size.Draw(rt, "rows"), Columns: size.Draw(rt, "columns")}
	for r := range t.Rows {
		for c := range t.Columns {
			if rapid.IntRange(0, 5).Draw(rt, "gap") > 0 {
				t.Cells = append(t.Cells, Cell{r, c, anyFloat().Draw(rt, "value")})
			}
		}
	}
	return t
}

// finite walks a result and fails on NaN, and on infinities unless allowed. The
// results of calls that gave an error or a false ok are not read.
func finite(rt *rapid.T, allowInf bool, results ...any) {
	switch last := results[len(results)-1].(type) {
	case error:
		return
	case bool:
		if !last {
			return
		}
	}
	for _, r := range results {
		walkFinite(rt, allowInf, reflect.ValueOf(r))
	}
}

func walkFinite(rt *rapid.T, allowInf bool, v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		f := v.Float()
		require.False(rt, math.IsNaN(f), "NaN in a result")
		require.True(rt, allowInf || !math.IsInf(f, 0), "infinity in a result")
	case reflect.Slice:
		for i := range v.Len() {
			walkFinite(rt, allowInf, v.Index(i))
		}
	case reflect.Pointer:
		if !v.IsNil() {
			walkFinite(rt, allowInf, v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				walkFinite(rt, allowInf, v.Field(i))
			}
		}
	}
}

// results turns the values of a call into a list.
func results(values ...any) []any { return values }

func TestFiniteTrend(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		x := anyFloats(rt, "x")
		y, w := likeFloats(rt, x, "y"), likeFloats(rt, x, "w")
		c := anyFloat().Draw(rt, "confidence")
		if rapid.Bool().Draw(rt, "usual confidence") {
			c = .9
		}
		finite(rt, false, results(MannKendall(x, y))...)
		finite(rt, false, results(TheilSen(c, Series{x, y}, Series{y, x}))...)
		finite(rt, false, results(GilbertInterval(1, c, Series{x, y}))...)
		finite(rt, false, results(Median(x))...)
		finite(rt, false, results(MAD(x))...)
		for _, weights := range [][]float64{nil, w} {
			f, err := Line(x, y, weights)
			if err == nil {
				finite(rt, false, f, nil)
				finite(rt, false, results(f.Predict([]float64{1, c}, 1, .9))...)
			}
		}
	})
}

func TestFiniteTables(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		table := anyTable(rt)
		finite(rt, false, results(table.Parts())...)
		finite(rt, false, results(ColumnScatter(table, .9))...)
		if p, err := MedianPolish(table); err == nil {
			finite(rt, false, p, nil)
			p.WildCells(2, 3.5, .5)
		}
		f, err := FitTwoWay(table)
		if err != nil {
			return
		}
		finite(rt, false, f, nil)
		finite(rt, false, results(f.Outliers(table, .05, 2))...)
		c, err := VarianceComponents(table, f)
		finite(rt, false, c, err)
		finite(rt, false, results(c.ShrinkColumns(f))...)
	})
}

func TestFiniteMeans(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		y := anyFloats(rt, "y")
		v := likeFloats(rt, y, "v")
		if rapid.Bool().Draw(rt, "positive") {
			for i := range v {
				v[i] = math.Abs(v[i])
			}
		}
		c := anyFloat().Draw(rt, "c")
		finite(rt, false, results(WeightedMeanNoise(v, len(y), c, 1))...)
		finite(rt, false, results(SDInterval(c, anyCount().Draw(rt, "df"), .9))...)
	})
}

func TestFinitePresent(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		y := rapid.SliceOfN(anyFloat(), 3, 9).Draw(rt, "values")
		series := PresentSeries{Values: y, Groups: rapid.SliceOfN(rapid.IntRange(0, 4), len(y), len(y)).Draw(rt, "groups")}
		series.Walk, series.Slope = likeFloats(rt, y, "walk"), likeFloats(rt, y, "slope")
		if rapid.Bool().Draw(rt, "times") {
			series.Walk = rapid.SliceOfN(rapid.Float64Range(-3, 0), len(y), len(y)).Draw(rt, "ago")
			series.Slope = series.Walk
		}
		p, err := NewPresent(series)
		if err != nil {
			return
		}
		finite(rt, false, p.Drift, p.Steady, p.Variance, p.Rho, nil)
		level, c, want := anyFloat().Draw(rt, "level"), anyFloat().Draw(rt, "confidence"), anyFloat().Draw(rt, "want")
		for _, m := range []StudentMixture{p.Level(), p.Next(), p.NextOf(mat.NewSymDense(1, []float64{1}), 0, make([]int, len(y)), .5)} {
			finite(rt, false, m, nil)
			finite(rt, false, m.Mean(), m.AtMost(60), m.AtLeast(60), nil)
			finite(rt, false, results(m.Quantile(c))...)
			finite(rt, false, results(m.Central(c))...)
		}
		share, err := p.ShareAbove(level)
		if err != nil {
			return
		}
		finite(rt, false, results(share.AtLeast(want))...)
		finite(rt, false, results(share.Ends(.9))...)
	})
}

func TestFiniteCounts(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		a, b := anyCount().Draw(rt, "a"), anyCount().Draw(rt, "b")
		c, d := anyCount().Draw(rt, "c"), anyCount().Draw(rt, "d")
		x, y := anyFloat().Draw(rt, "x"), anyFloat().Draw(rt, "y")
		finite(rt, false, results(Wilson(a, b, x))...)
		finite(rt, false, results(ClopperPearson(a, b, x))...)
		finite(rt, false, results(ClopperPearson(a, b, .95))...)
		finite(rt, false, results(NoneUpper(a, x))...)
		finite(rt, false, results(AtLeastOne(a, b, min(c, 5000), x))...)
		finite(rt, false, results(Fisher(a, b, c, d))...)
		finite(rt, true, results(CompareRates(a, x, b, y, .95))...)
		finite(rt, false, SmallestFisherP(c%3000, d%3000), SmallestTrendP(a, b))
		finite(rt, false, ShrinkEffect(1, x, y, a))
	})
}

func TestFinitePermutations(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		a, b := rapid.SliceOfN(anyFloat(), 0, 5).Draw(rt, "a"), rapid.SliceOfN(anyFloat(), 0, 5).Draw(rt, "b")
		finite(rt, false, results(TwoSampleShift(a, b, .9))...)
	})
}

// T is infinite where nothing else varies, Fall where a side could show nothing.
func TestFiniteShifts(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := drawnShifts(rt)
		for _, side := range [][]Levels{s.Left, s.Before, s.After} {
			for i := range side {
				for g := range side[i].Values {
					side[i].Values[g] = anyFloat().Draw(rt, "value")
				}
			}
		}
		g, err := ShiftOfGroup(s)
		finite(rt, true, results(g, err)...)
		if err == nil {
			finite(rt, false, g.P, g.PRanked, g.Least, g.Effect, g.Change)
			require.True(rt, g.P > 0 && g.P <= 1 && g.PRanked >= 0 && g.PRanked <= 1)
		}
		f, err := FallOfNotices(drawnNotices(rt))
		finite(rt, true, results(f, err)...)
		if err == nil {
			finite(rt, false, f.PZ, f.PFall, f.PFisher, f.PBeside, f.Z, f.SE)
		}
	})
}

func TestFiniteShares(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		d := ShareData{Z: anyFloats(rt, "z"), Variance: anyFloat().Draw(rt, "variance"), DF: rapid.IntRange(0, 9).Draw(rt, "df"), Step: anyFloat().Draw(rt, "step")}
		for range d.Z {
			d.Times = append(d.Times, float64(rapid.IntRange(1, 9).Draw(rt, "times")))
			d.Shares = append(d.Shares, rapid.SliceOfN(anyFloat(), 2, 2).Draw(rt, "shares"))
		}
		f, err := FitShares(d)
		if err != nil {
			return
		}
		finite(rt, false, []float64{f.Tau, f.Unit, f.TauSquared, f.UnitSquared}, nil)
		finite(rt, false, f.UnitMeans(), nil)
		gap, err := f.Gap(0)
		require.NoError(rt, err)
		finite(rt, false, []float64{gap.Mean(), gap.Below(0), gap.Shortfall(), gap.Quantile(.05)}, nil)
	})
}

// A deviation of very many steps has no weight that is a number on any point of the
// grid: it is refused.
func TestSharesBeyondTheGrid(t *testing.T) {
	_, err := FitShares(ShareData{Z: []float64{3351.96875}, Times: []float64{1}, Shares: [][]float64{{0, 0}}, Step: 1e-75})
	require.ErrorIs(t, err, ErrSingular)
}
