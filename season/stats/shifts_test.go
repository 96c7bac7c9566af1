package stats

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/combin"
	"pgregory.net/rapid"
)

// levels are observations of one stratum, each a cluster by itself from a number
// on, every group with a value.
func levels(first int, rows ...[]float64) []Levels {
	var out []Levels
	for i, values := range rows {
		out = append(out, Levels{Values: values, Has: slices.Repeat([]bool{true}, len(values)), Cluster: first + i})
	}
	return out
}

// Computed by two independent programs, in Python and R [derived: two-programs,
// Python and R].
func TestShiftOfGroup(t *testing.T) {
	g, err := ShiftOfGroup(Shifts{
		Left:   levels(0, []float64{1.5, -2, .5}, []float64{-6, 1, 4}, []float64{-3.5, 2.5, 1}, []float64{-5, .5, 3}),
		Before: levels(10, []float64{-4, 1, 2}, []float64{-1, -3, 3.5}, []float64{-7.5, 2, 4.5}, []float64{-3, 1.5, 1}, []float64{.5, -1, 0}),
		After:  levels(20, []float64{3, -2.5, -1}, []float64{-.5, .5, 1.5}, []float64{5.5, -1, -4}, []float64{2, 1, -2.5}, []float64{4.5, -2, .5}),
	})
	require.NoError(t, err)
	runChecks(t, []check{
		{"change", 5.9, g.Change, 1e-12},
		{"t", 3.4293053429, g.T, 5e-11},
		{"plain", .0079365079, g.P, 5e-11},
		{"plain, of 252", 2, g.P * 252, 1e-12},
		{"rank-matched", .0119047619, g.PRanked, 5e-11},
		{"rank-matched, of 252", 3, g.PRanked * 252, 1e-12},
	})
	assert.Equal(t, []int{1, 252, 8}, []int{g.Rank, g.Arrangements, g.DF})
	assert.Equal(t, 1.0, g.Effect)
	assert.InDelta(t, 5.9/3.4293053429, g.SE, 1e-9)
}

// One group alone is the plain permutation test. [derived: r,
// exactRankTests; scipy, permutation_test]: 10 of 462.
func TestShiftOfOneGroup(t *testing.T) {
	var before, after [][]float64
	for _, x := range []float64{6, 6.5, 5.5, 6.5, 7, 5} {
		before = append(before, []float64{x})
	}
	for _, x := range []float64{7, 7.5, 6.5, 8, 7} {
		after = append(after, []float64{x})
	}
	g, err := ShiftOfGroup(Shifts{Before: levels(0, before...), After: levels(10, after...)})
	require.NoError(t, err)
	runChecks(t, []check{
		{"two samples", 10.0 / 462, g.P, 1e-15},
		{"two samples", .021645, g.P, 5e-7},
		{"rank-matched, with nothing to match", g.P, g.PRanked, 1e-15},
		{"splits", 462, float64(g.Arrangements), 0},
		{"least", 1.0 / 462, g.Least, 1e-15},
		{"difference", 7.2 - 36.5/6, g.Change, 1e-14},
	})
}

// drawnShifts draws a few groups in strata and clusters.
func drawnShifts(rt *rapid.T) Shifts {
	groups := rapid.IntRange(1, 4).Draw(rt, "groups")
	target := rapid.IntRange(0, groups-1).Draw(rt, "target")
	side := func(name string, most int) []Levels {
		out := []Levels{}
		for range rapid.IntRange(0, most).Draw(rt, name) {
			o := Levels{Stratum: rapid.IntRange(0, 1).Draw(rt, "stratum"), Cluster: rapid.IntRange(0, 5).Draw(rt, "cluster")}
			for g := range groups {
				o.Values = append(o.Values, float64(rapid.IntRange(-8, 8).Draw(rt, "half"))/2)
				o.Has = append(o.Has, g == target && name != "left" || rapid.IntRange(0, 5).Draw(rt, "gap") > 0)
			}
			out = append(out, o)
		}
		return out
	}
	return Shifts{Target: target, Left: side("left", 3), Before: side("before", 6), After: side("after", 5)}
}

// The slow way says the same of whatever was observed.
func TestShiftOfGroupAgainstTheSlowWay(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := drawnShifts(rt)
		g, err := ShiftOfGroup(s)
		if err != nil {
			require.ErrorIs(rt, err, ErrTooFew)
			return
		}
		plain, matched, rank, count := slowShift(s)
		require.Equal(rt, []int{rank, count}, []int{g.Rank, g.Arrangements})
		widened := func(p float64) float64 {
			wide, err := WidenedP(p, g.Effect)
			require.NoError(rt, err)
			return wide
		}
		require.InDelta(rt, widened(plain), g.P, 1e-9)
		require.InDelta(rt, widened(matched), g.PRanked, 1e-9)
	})
}

// slowShift is the definition as it reads: every arrangement a list of labels, t
// by the two samples about their strata.
func slowShift(s Shifts) (plain, matched float64, rank, count int) {
	rows := slices.Concat(s.Before, s.After)
	seen := make([]bool, len(rows))
	for i := range s.Before {
		seen[i] = true
	}
	change, t, scores := slowLevels(s, rows, seen)
	rank = 1
	for _, score := range scores {
		if score < scores[s.Target]-1e-12 {
			rank++
		}
	}
	for _, labels := range slowLabels(rows, seen) {
		changes, ts, scores := slowLevels(s, rows, labels)
		if changes[s.Target] >= change[s.Target]-1e-9 {
			plain++
		}
		sorted := slices.Clone(scores)
		slices.Sort(sorted)
		var tied, high float64
		for g := range scores {
			if scores[g] == sorted[rank-1] || math.Abs(scores[g]-sorted[rank-1]) <= 1e-9 {
				tied++
				if ts[g] >= t[s.Target]-1e-9 {
					high++
				}
			}
		}
		matched, count = matched+high/tied, count+1
	}
	return plain / float64(count), matched / float64(count), rank, count
}

// slowLabels lists the arrangements: stratum by stratum, as many before as there
// were.
func slowLabels(rows []Levels, seen []bool) [][]bool {
	all := [][]bool{slices.Clone(seen)}
	for _, stratum := range []int{0, 1} {
		var at []int
		before := 0
		for i, o := range rows {
			if o.Stratum == stratum {
				at = append(at, i)
				if seen[i] {
					before++
				}
			}
		}
		if before == 0 || before == len(at) {
			continue
		}
		var next [][]bool
		for _, labels := range all {
			for _, chosen := range combin.Combinations(len(at), before) {
				moved := slices.Clone(labels)
				for i, place := range at {
					moved[place] = slices.Contains(chosen, i)
				}
				next = append(next, moved)
			}
		}
		all = next
	}
	return all
}

func slowLevels(s Shifts, rows []Levels, before []bool) (changes, ts, scores []float64) {
	for g := range rows[0].Values {
		var total, weights, squares, df float64
		df = -1
		sums := 0.0
		n := 0.0
		for stratum := range 2 {
			var b, a []float64
			for i, o := range rows {
				switch {
				case !o.Has[g] || o.Stratum != stratum:
				case before[i]:
					b = append(b, o.Values[g])
				default:
					a = append(a, o.Values[g])
				}
			}
			for _, x := range b {
				sums, n = sums+x, n+1
			}
			if len(a) == 0 || len(b) == 0 {
				continue
			}
			w := float64(len(a)*len(b)) / float64(len(a)+len(b))
			total, weights = total+w*(mean(a)-mean(b)), weights+w
			pooled := slices.Concat(a, b)
			squares += sumSquares(pooled, mean(pooled))
			df += float64(len(pooled)) - 1
		}
		for _, o := range s.Left {
			if o.Has[g] {
				sums, n = sums+o.Values[g], n+1
			}
		}
		change := 0.0
		if weights > 0 {
			change = total / weights
		}
		t := change / math.Sqrt((squares-weights*change*change)/df/weights)
		if residual := squares - weights*change*change; residual <= 1e-12*squares {
			t = math.Inf(1) * change
		}
		if change == 0 {
			t = 0
		}
		if df < 1 {
			t = math.Inf(-1)
		}
		score := math.Inf(1)
		if n > 0 {
			score = sums / n
		}
		changes, ts, scores = append(changes, change), append(ts, t), append(scores, score)
	}
	return changes, ts, scores
}

// With one stratum t is the pooled two-sample one. [derived], by hand: 1 2 3 against
// 3 5 7 differ by 3, with 2 + 8 of squares on 4 degrees of freedom.
func TestShiftByHand(t *testing.T) {
	g, err := ShiftOfGroup(Shifts{Before: levels(0, []float64{1}, []float64{2}, []float64{3}), After: levels(9, []float64{3}, []float64{5}, []float64{7})})
	require.NoError(t, err)
	assert.InDelta(t, 3/math.Sqrt(10.0/4*2/3), g.T, 1e-12)
	assert.Equal(t, 4, g.DF)
	// Student's t of .95 on 4 degrees of freedom, 2.131847, of any table.
	wide, err := g.Interval(.9)
	require.NoError(t, err)
	assert.InDelta(t, 3-2.131847*g.SE, wide.Low, 1e-5)
	assert.InDelta(t, 3+2.131847*g.SE, wide.High, 1e-5)
	_, err = g.Interval(1)
	require.ErrorIs(t, err, ErrRange)
	g.Effect = 4
	doubled, err := g.Interval(.9)
	require.NoError(t, err)
	assert.InDelta(t, 2*(wide.High-3), doubled.High-3, 1e-12)
	assert.InDelta(t, 2.0/20, g.P, 1e-12, "the split seen, and the one with the two 3 exchanged")
}

// The share of variance between clusters is that of a one-way analysis of
// variance: that of the yields of dyestuff. With 5 values a cluster the test is
// widened by 1 + 4 r. [derived: lme4, Dyestuff] from the mean squares 11 271.5 on 5 and
// 2 451.25 on 24 degrees of freedom.
func TestShiftEffect(t *testing.T) {
	var rows []Levels
	for i, y := range dyestuff {
		for _, x := range y {
			rows = append(rows, Levels{Values: []float64{x}, Has: []bool{true}, Cluster: i})
		}
	}
	share := (11271.5 - 2451.25) / (11271.5 + 4*2451.25)
	assert.InDelta(t, share, betweenShare(rows), 1e-9)
	g, err := ShiftOfGroup(Shifts{Before: rows[:15], After: rows[15:]})
	require.NoError(t, err)
	assert.InDelta(t, 1+4*share, g.Effect, 1e-9)
	assert.Equal(t, 0.0, betweenShare(rows[:3]), "one cluster tells nothing")
}

// manyLevels are observations of 13 groups; the target lies low.
func manyLevels(before, after int) Shifts {
	r := rand.New(rand.NewPCG(5, 5))
	side := func(first, n int) []Levels {
		rows := make([][]float64, n)
		for i := range rows {
			for range 13 {
				rows[i] = append(rows[i], r.NormFloat64())
			}
			rows[i][0]--
		}
		return levels(first, rows...)
	}
	return Shifts{Left: side(0, 4), Before: side(100, before), After: side(200, after)}
}

func TestShiftOfGroupSampled(t *testing.T) {
	s := manyLevels(9, 8)
	g, err := ShiftOfGroup(s)
	require.NoError(t, err)
	assert.Equal(t, 20_000, g.Arrangements)
	assert.False(t, g.Exact)
	plain, matched, _, _ := slowShift(s)
	assert.InDelta(t, plain, g.P, .015)
	assert.InDelta(t, matched, g.PRanked, .015)
	assert.InDelta(t, 1.0/24_310, g.Least, 1e-12)
}

func BenchmarkShiftOfGroup(b *testing.B) {
	for _, sides := range [][2]int{{5, 5}, {12, 11}, {24, 24}} {
		s := manyLevels(sides[0], sides[1])
		b.Run(fmt.Sprintf("%d before, %d after", sides[0], sides[1]), func(b *testing.B) {
			for b.Loop() {
				if _, err := ShiftOfGroup(s); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func TestShiftsOfNoUse(t *testing.T) {
	one := levels(0, []float64{1})
	for _, s := range []Shifts{{}, {Before: one}, {Before: one, After: one}, {After: levels(0, []float64{1}, []float64{2})}} {
		_, err := ShiftOfGroup(s)
		assert.ErrorIs(t, err, ErrTooFew)
	}
	for _, s := range []Shifts{
		{Before: levels(0, []float64{1, 2}), After: one},
		{Target: 1, Before: one, After: one},
		{Target: -1, Before: one, After: one},
		{Before: []Levels{{Values: []float64{1}, Has: []bool{false}}}, After: one},
		{Before: []Levels{{Values: []float64{1}}}, After: one},
	} {
		_, err := ShiftOfGroup(s)
		assert.ErrorIs(t, err, ErrShape)
	}
	for _, s := range []Shifts{{Before: levels(0, []float64{math.NaN()}), After: one}, {Before: levels(0, slices.Repeat([][]float64{{1}}, 65)...)}} {
		_, err := ShiftOfGroup(s)
		assert.ErrorIs(t, err, ErrRange)
	}
	flat, err := ShiftOfGroup(Shifts{Before: levels(0, []float64{1}, []float64{1}), After: levels(5, []float64{1}, []float64{1})})
	require.NoError(t, err)
	assert.Equal(t, []float64{1, 0, 1}, []float64{flat.P, flat.T, flat.PRanked})
}
