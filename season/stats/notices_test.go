package stats

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/combin"
	"pgregory.net/rapid"
)

// notices reads observations such as 1-01: present, missing, absent, present.
func notices(text string) [][]Notice {
	var out [][]Notice
	for _, word := range strings.Fields(text) {
		row := make([]Notice, len(word))
		for i, sign := range word {
			row[i] = map[rune]Notice{'-': Unseeable, '0': Unnoticed, '1': Noticed}[sign]
		}
		out = append(out, row)
	}
	return out
}

var noticed = Notices{
	Left:   notices("1101 1010 110- 1000"),
	Before: notices("1100 1011 1110 0100 1-01 1110 1010"),
	After:  notices("0110 1001 0110 01-0 0011 0100"),
}

// Computed by two independent programs, in Python and R [derived: two-programs,
// Python and R].
func TestFallOfNotices(t *testing.T) {
	f, err := FallOfNotices(noticed)
	require.NoError(t, err)
	runChecks(t, []check{
		{"lambda", 1.3868728974, f.Lambda, 5e-11},
		{"s", .8678461447, f.SE, 5e-11},
		{"z", 1.5980630968, f.Z, 5e-11},
		{"fall", .6904761905, f.Fall, 5e-11},
		{"p of z", .0805167055, f.PZ, 5e-11},
		{"sum of z", 138.1666667, f.PZ * 1716, 5e-8},
		{"p of fall", .0323426573, f.PFall, 5e-11},
		{"sum of fall", 55.5, f.PFall * 1716, 1e-9},
		{"Fisher", .0250582751, f.PFisher, 5e-11},
		{"Fisher on events", .1391304348, f.PBeside, 5e-11},
	})
	assert.Equal(t, [2]Tally{{6, 7}, {1, 6}}, f.Target)
	assert.Equal(t, [2]Tally{{10, 20}, {9, 17}}, f.Others)
	assert.Equal(t, [2]Tally{{6, 16}, {1, 10}}, f.Beside)
	assert.Equal(t, []int{1, 1716}, []int{f.Rank, f.Arrangements})
	assert.True(t, f.Exact)

	other := noticed
	other.After = slices.Clone(noticed.After)
	other.After[1] = notices("0001")[0]
	f, err = FallOfNotices(other)
	require.NoError(t, err)
	runChecks(t, []check{
		{"z", 1.7206914381, f.Z, 5e-11},
		{"p of z", .0477855478, f.PZ, 5e-11},
		{"p of fall", .0043706294, f.PFall, 5e-11},
		{"Fisher", .0040792541, f.PFisher, 5e-11},
		{"Fisher on events", .0452173913, f.PBeside, 5e-11},
	})
}

// drawnNotices draws observations with a few kinds and clusters.
func drawnNotices(rt *rapid.T) Notices {
	kinds := rapid.IntRange(1, 5).Draw(rt, "kinds")
	side := func(name string, most int) [][]Notice {
		out := [][]Notice{}
		for range rapid.IntRange(0, most).Draw(rt, name) {
			row := make([]Notice, kinds)
			for k := range row {
				row[k] = Notice(rapid.SampledFrom([]int{0, 1, 1, 2, 2}).Draw(rt, "notice"))
			}
			out = append(out, row)
		}
		return out
	}
	n := Notices{Target: rapid.IntRange(0, kinds-1).Draw(rt, "target"), Left: side("left", 4), Before: side("before", 6), After: side("after", 5)}
	if rapid.Bool().Draw(rt, "clusters") {
		n.Cluster = []int{}
		for i := range len(n.Before) + len(n.After) {
			if i > 0 && rapid.IntRange(0, 2).Draw(rt, "same") == 0 {
				n.Cluster = append(n.Cluster, n.Cluster[i-1])
			} else {
				n.Cluster = append(n.Cluster, i)
			}
		}
	}
	return n
}

// The slow way says the same of whatever was noticed.
func TestFallOfNoticesAgainstTheSlowWay(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := drawnNotices(rt)
		f, err := FallOfNotices(n)
		if len(n.Before)+len(n.After)+len(n.Left) == 0 {
			require.ErrorIs(rt, err, ErrTooFew)
			return
		}
		require.NoError(rt, err)
		pz, pfall, rank, count := slowFall(n)
		require.Equal(rt, []int{rank, count}, []int{f.Rank, f.Arrangements})
		require.InDelta(rt, pz, f.PZ, 1e-12)
		require.InDelta(rt, pfall, f.PFall, 1e-12)
	})
}

// slowFall is the definition as it reads: no masks, no tables, every arrangement
// made of names.
func slowFall(n Notices) (pz, pfall float64, rank, count int) {
	rows := slices.Concat(n.Before, n.After)
	cluster := n.Cluster
	if cluster == nil {
		for i := range rows {
			cluster = append(cluster, i)
		}
	}
	isBefore := make([]bool, len(rows))
	for i := range n.Before {
		isBefore[i] = true
	}
	z, fall, score := slowStatistics(n, rows, isBefore)
	rank = 1
	for k := range score {
		if score[k] > score[n.Target]+1e-12 {
			rank++
		}
	}
	var movable []int
	wholeBefore := 0
	for i, c := range cluster {
		if slices.Index(cluster, c) != i {
			continue
		}
		sides := map[bool]bool{}
		for j := range rows {
			if cluster[j] == c {
				sides[isBefore[j]] = true
			}
		}
		if len(sides) == 1 {
			movable = append(movable, c)
			if isBefore[i] {
				wholeBefore++
			}
		}
	}
	for _, chosen := range combinations(len(movable), wholeBefore) {
		labels := make([]bool, len(rows))
		for i, c := range cluster {
			at := slices.Index(movable, c)
			labels[i] = at < 0 && isBefore[i] || at >= 0 && slices.Contains(chosen, at)
		}
		zs, falls, scores := slowStatistics(n, rows, labels)
		sorted := slices.Clone(scores)
		slices.Sort(sorted)
		want := sorted[len(sorted)-rank]
		var tied, highZ, highFall float64
		for k := range scores {
			if math.Abs(scores[k]-want) > 1e-9 {
				continue
			}
			tied++
			if zs[k] >= z[n.Target]-1e-9 {
				highZ++
			}
			if falls[k] >= fall[n.Target]-1e-9 {
				highFall++
			}
		}
		pz, pfall, count = pz+highZ/tied, pfall+highFall/tied, count+1
	}
	return pz / float64(count), pfall / float64(count), rank, count
}

func combinations(n, k int) [][]int {
	if n == 0 || k == 0 {
		return [][]int{nil}
	}
	return combin.Combinations(n, k)
}

func slowStatistics(n Notices, rows [][]Notice, before []bool) (z, fall, score []float64) {
	kinds := len(slices.Concat(rows, n.Left)[0])
	count := func(k int, side, present bool) (c float64) {
		for i, row := range rows {
			if before[i] == side && row[k] != Unseeable && (!present || row[k] == Noticed) {
				c++
			}
		}
		return c
	}
	for k := range kinds {
		t1, e1, t2, e2 := count(k, true, true), count(k, true, false), count(k, false, true), count(k, false, false)
		var o1, g1, o2, g2 float64
		for j := range kinds {
			if j != k {
				o1, g1 = o1+count(j, true, true), g1+count(j, true, false)
				o2, g2 = o2+count(j, false, true), g2+count(j, false, false)
			}
		}
		lambda := math.Log((t1+.5)/(e1+1)) - math.Log((t2+.5)/(e2+1)) - math.Log((o1+.5)/(g1+1)) + math.Log((o2+.5)/(g2+1))
		variance := 1/(t1+.5) - 1/(e1+1) + 1/(t2+.5) - 1/(e2+1) + 1/(o1+.5) + 1/(o2+.5)
		z = append(z, lambda/math.Sqrt(variance))
		if e1 == 0 || e2 == 0 {
			fall = append(fall, math.Inf(-1))
		} else {
			fall = append(fall, t1/e1-t2/e2)
		}
		s, e := t1, e1
		for _, row := range n.Left {
			if row[k] != Unseeable {
				e++
			}
			if row[k] == Noticed {
				s++
			}
		}
		score = append(score, s/max(1, e))
	}
	return z, fall, score
}

// manyNotices are observations of 15 kinds, some often and some seldom noticed;
// the target is the one noticed most.
func manyNotices(before, after int) Notices {
	r := rand.New(rand.NewPCG(3, 3))
	side := func(n int) [][]Notice {
		rows := make([][]Notice, n)
		for i := range rows {
			for kind := range 15 {
				notice := Unnoticed
				switch {
				case r.IntN(8) == 0:
					notice = Unseeable
				case r.IntN(20) < 14-kind:
					notice = Noticed
				}
				rows[i] = append(rows[i], notice)
			}
		}
		return rows
	}
	return Notices{Left: side(4), Before: side(before), After: side(after)}
}

// Of more arrangements than are enumerated some are drawn: near what all would
// give, and the same every time.
func TestFallOfNoticesSampled(t *testing.T) {
	n := manyNotices(9, 8) // 24 310
	f, err := FallOfNotices(n)
	require.NoError(t, err)
	again, err := FallOfNotices(n)
	require.NoError(t, err)
	assert.Equal(t, f, again)
	assert.False(t, f.Exact)
	assert.Equal(t, 20_000, f.Arrangements)
	pz, pfall, _, all := slowFall(n)
	assert.Equal(t, 24_310, all)
	assert.InDelta(t, pz, f.PZ, .015)
	assert.InDelta(t, pfall, f.PFall, .015)
	assert.Greater(t, f.PZ, 0.0)
}

func BenchmarkFallOfNotices(b *testing.B) {
	for _, sides := range [][2]int{{7, 6}, {12, 11}, {24, 24}} {
		n := manyNotices(sides[0], sides[1])
		b.Run(fmt.Sprintf("%d before, %d after", sides[0], sides[1]), func(b *testing.B) {
			for b.Loop() {
				if _, err := FallOfNotices(n); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func TestNoticesOfNoUse(t *testing.T) {
	for _, n := range []Notices{{}, {Left: [][]Notice{{}}}} {
		_, err := FallOfNotices(n)
		assert.ErrorIs(t, err, ErrTooFew)
	}
	for _, n := range []Notices{
		{Target: 1, Before: notices("1 0")},
		{Target: -1, Before: notices("1 0")},
		{Before: notices("1 01")},
		{Before: notices("1 0"), Cluster: []int{1}},
	} {
		_, err := FallOfNotices(n)
		assert.ErrorIs(t, err, ErrShape)
	}
	_, err := FallOfNotices(Notices{Before: notices(strings.Repeat("1 ", 60)), After: notices(strings.Repeat("0 ", 5))})
	assert.ErrorIs(t, err, ErrRange)
	f, err := FallOfNotices(Notices{Before: notices(strings.Repeat("1 ", 60)), After: notices(strings.Repeat("0 ", 4))})
	require.NoError(t, err)
	assert.Equal(t, [2]Tally{{60, 60}, {0, 4}}, f.Target, "64 fit")

	// Nothing else was noticed: nothing fell less, so nothing is shown.
	f, err = FallOfNotices(Notices{Before: notices("1 1 1 1"), After: notices("0 0 0 0")})
	require.NoError(t, err)
	assert.Equal(t, 1.0, f.PBeside)
	// Nothing after could show it.
	f, err = FallOfNotices(Notices{Before: notices("11 11 11"), After: notices("-1 -1 -1")})
	require.NoError(t, err)
	assert.True(t, math.IsInf(f.Fall, -1))
	assert.Equal(t, []float64{1, 1}, []float64{f.PFall, f.PFisher})
}
