package stats

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// presentCase is a check value: all numbers computed by two independent
// programs, in Python and R, which agree in 8 decimals [derived: two-programs,
// Python and R].
type presentCase struct {
	name            string
	days, groups    []int
	values          []float64
	now             int
	mark            float64
	level           [3]float64 // mean, 80 %
	drift, variance float64
	steady, rho     float64
	next            Interval
	reach           float64
	share           Interval
	sure            float64
}

func presentCases() []presentCase {
	return []presentCase{
		{
			name: "one value a group, level",
			days: []int{0, 14, 35, 56, 77, 98, 119, 140}, groups: []int{1, 2, 3, 4, 5, 6, 7, 8},
			values: []float64{68.1, 70.4, 66.9, 71.2, 69.5, 67.8, 72.0, 69.9}, now: 154, mark: 67,
			level: [3]float64{69.68696585, 68.53233701, 70.98862928}, drift: .24342629, variance: 4.32830666,
			steady: .73318634, rho: 0, next: Interval{66.86596154, 72.53840288}, reach: .88999120,
			share: Interval{.68178036, .99777514}, sure: .99013492,
		},
		{
			name:   "two values a group, rising over two seasons",
			days:   []int{0, 0, 40, 40, 90, 90, 365, 365, 410, 410, 455, 455},
			groups: []int{1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6},
			values: []float64{60.2, 58.9, 63.5, 61.0, 62.8, 65.1, 66.0, 68.3, 69.9, 67.2, 72.4, 70.8}, now: 475, mark: 70,
			level: [3]float64{71.73376215, 70.47371560, 72.98357276}, drift: 5.72472583, variance: 2.66194150,
			steady: .00056438, rho: .12770217, next: Interval{69.33844173, 74.11165747}, reach: .83128864,
			share: Interval{.49376521, .99091164}, sure: .94809791,
		},
		{
			name:   "one to three values a group, falling",
			days:   []int{0, 30, 30, 61, 61, 61, 95, 95, 130},
			groups: []int{1, 2, 2, 3, 3, 3, 4, 4, 5},
			values: []float64{74.8, 73.0, 75.1, 70.2, 72.9, 71.1, 67.0, 69.4, 66.2}, now: 150, mark: 68,
			level: [3]float64{65.62240027, 63.23666893, 68.52018528}, drift: -8.02986773, variance: 3.56800606,
			steady: .02973154, rho: .17086700, next: Interval{62.33838002, 69.23041390}, reach: .17233687,
			share: Interval{.00007789, .80754250}, sure: .12715726,
		},
	}
}

func (c presentCase) series() PresentSeries {
	walk, slope := PresentClock(c.days, c.now)
	return PresentSeries{Values: c.values, Groups: c.groups, Walk: walk, Slope: slope}
}

func TestPresent(t *testing.T) {
	for _, c := range presentCases() {
		t.Run(c.name, func(t *testing.T) {
			p, err := NewPresent(c.series())
			require.NoError(t, err)
			level, err := p.Level().Central(.8)
			require.NoError(t, err)
			next, err := p.Next().Central(.8)
			require.NoError(t, err)
			share, err := p.ShareAbove(c.mark)
			require.NoError(t, err)
			ends, err := share.Ends(.9)
			require.NoError(t, err)
			sure, err := share.AtLeast(.5)
			require.NoError(t, err)
			runChecks(t, []check{
				{"level", c.level[0], p.Level().Mean(), 1e-8},
				{"level's lower end", c.level[1], level.Low, 1e-8},
				{"level's upper end", c.level[2], level.High, 1e-8},
				{"drift", c.drift, p.Drift, 1e-8},
				{"variance", c.variance, p.Variance, 1e-8},
				{"steady", c.steady, p.Steady, 1e-8},
				{"rho", c.rho, p.Rho, 1e-8},
				{"next, lower end", c.next.Low, next.Low, 1e-8},
				{"next, upper end", c.next.High, next.High, 1e-8},
				{"next at least the mark", c.reach, p.Next().AtLeast(c.mark), 1e-8},
				{"share, lower end", c.share.Low, ends.Low, 1e-8},
				{"share, upper end", c.share.High, ends.High, 1e-8},
				{"share at least a half", c.sure, sure, 1e-8},
			})
		})
	}
}

// A prior that has steady alone, and R without its 1, is a plain sample: check
// values [derived: r, pt, qt] with ncp.
func TestPresentOfSteadyAlone(t *testing.T) {
	walk := []float64{-1, -.8, -.6, -.4, -.2, 0}
	p, err := newPresent(PresentSeries{
		Values: []float64{66.4, 68.1, 70.2, 69.0, 71.5, 70.8}, Groups: []int{1, 2, 3, 4, 5, 6}, Walk: walk, Slope: walk,
	}, steadyPrior())
	require.NoError(t, err)
	next, err := p.Next().Central(.8)
	require.NoError(t, err)
	share, err := p.ShareAbove(70)
	require.NoError(t, err)
	ends, err := share.Ends(.9)
	require.NoError(t, err)
	runChecks(t, []check{
		{"next at least the mark", .37852217, p.Next().AtLeast(70), 1e-8},
		{"next, lower end", 66.322707, next.Low, 1e-6},
		{"next, upper end", 72.34396, next.High, 1e-5},
		{"share, lower end", .15116182, ends.Low, 1e-8},
		{"share, upper end", .63991347, ends.High, 1e-8},
	})
}

// Gosset's sleep data, group 1: [derived: r, lm].
func TestPresentOfSleep(t *testing.T) {
	values := []float64{.7, -1.6, -.2, -1.2, -.1, 3.4, 3.7, .8, 0, 2}
	times := make([]float64, len(values))
	p, err := newPresent(PresentSeries{Values: values, Groups: []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}, Walk: times, Slope: times}, steadyPrior())
	require.NoError(t, err)
	next, err := p.Next().Central(.95)
	require.NoError(t, err)
	runChecks(t, []check{
		{"mean", .75, p.Level().Mean(), 1e-12},
		{"low", -3.4945514, next.Low, 5e-8},
		{"high", 4.9945514, next.High, 5e-8},
		{"P(next > 2)", .26099749, p.Next().AtLeast(2), 5e-9},
	})
}

// steadyPrior has steady alone, and R without its 1.
func steadyPrior() presentPrior {
	return presentPrior{rho: []presentChoice{{0, 1}}, slope: []presentChoice{{0, 1}}, walk: []presentChoice{{0, 1}}}
}

func BenchmarkPresent(b *testing.B) {
	s := randomPresent(rand.New(rand.NewPCG(40, 1)), 40, 2)
	for b.Loop() {
		p, err := NewPresent(s)
		require.NoError(b, err)
		_, err = p.Level().Central(.8)
		require.NoError(b, err)
		_, err = p.Next().Central(.8)
		require.NoError(b, err)
		share, err := p.ShareAbove(60)
		require.NoError(b, err)
		_, err = share.Ends(.9)
		require.NoError(b, err)
		_, err = share.AtLeast(.6)
		require.NoError(b, err)
	}
}

func BenchmarkPresentFit(b *testing.B) {
	s := randomPresent(rand.New(rand.NewPCG(40, 1)), 40, 2)
	for b.Loop() {
		_, err := NewPresent(s)
		require.NoError(b, err)
	}
}

// randomPresent is a series of n values, up to a number of them in a group.
func randomPresent(r *rand.Rand, n, size int) PresentSeries {
	var days, groups []int
	var values []float64
	day, group := 0, 0
	for len(values) < n {
		day += 1 + r.IntN(60)
		group++
		effect := r.NormFloat64()
		for range min(1+r.IntN(size), n-len(values)) {
			days, groups = append(days, day), append(groups, group)
			values = append(values, 60+float64(day)/60+effect+3*r.NormFloat64())
			day += r.IntN(2)
		}
	}
	walk, slope := PresentClock(days, day+r.IntN(120))
	return PresentSeries{values, groups, walk, slope}
}
