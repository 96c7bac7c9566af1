package stats

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// eightFigures are invented; the numbers that come of them were computed by two
// independent programs, in Python by V^-1 and in R by the mixed model's equations,
// which agree as printed [derived: two-programs, Python and R].
func eightFigures() ShareData {
	return ShareData{
		Z:     []float64{-3.2, -5, 2.1, 1.5, 3.4, .6, -.4, 1.2},
		Times: []float64{6, 6, 6, 6, 4, 4, 4, 1},
		Shares: [][]float64{
			{.6, .4, 0, 0},
			{1, 0, 0, 0},
			{0, 1, 0, 0},
			{0, 0, .7, .3},
			{0, 0, 1, 0},
			{0, 0, 0, 1},
			{0, .5, 0, .5},
			{.5, 0, .5, 0},
		},
		Variance: 90, DF: 29, Step: 1,
	}
}

func TestShareModelReference(t *testing.T) {
	f, err := FitShares(eightFigures())
	require.NoError(t, err)
	checks := []check{
		{"tau", 3.0449013099, f.Tau, 1e-10}, {"sa", 1.9726236891, f.Unit, 1e-10}, {"mu", -.2394526833, f.Levels[0], 1e-10},
	}
	checks = append(checks, gapChecks(t, f,
		[]float64{-2.1950303181, .5674258181, 1.4141075988, .2134969011},
		[]float64{.7581214721, .4276890971, .3219505525, .4688087349},
		[]float64{2.4558396413, .7109336356, .4284048368, .9044228117})...)
	means := []float64{-1.2977533076, -2.3569820135, .8378397729, 1.0017876562, 1.4980758000, .2681556518, .2212289979, -.1994451634}
	below := []float64{.6795914384, .7727131672, .3952945597, .3595048391, .3234489764, .4650246719, .4661552933, .5306862425}
	for i := range means {
		unit, err := f.OfUnit(i)
		require.NoError(t, err)
		checks = append(checks, check{"f", means[i], unit.Mean(), 1e-10}, check{"P(f<0)", below[i], unit.Below(0), 1e-10})
	}
	runChecks(t, checks)
}

// As eightFigures; the branch for fewer than five degrees of freedom.
func TestShareModelReferenceWithoutVariance(t *testing.T) {
	data := eightFigures()
	data.DF = 4
	f, err := FitShares(data)
	require.NoError(t, err)
	assert.False(t, f.Pooled)
	checks := []check{{"tau", 3.8119205661, f.Tau, 1e-10}, {"sa", 2.1918943891, f.Unit, 1e-10}}
	checks = append(checks, gapChecks(t, f,
		[]float64{-4.4642380455, 1.0432577525, 3.4320796991, -.0110994061},
		[]float64{.9514055606, .2702928300, .0653561632, .5029889997},
		[]float64{4.5057397648, .3084439670, .0600626117, .6860670597})...)
	runChecks(t, checks)
}

func gapChecks(t *testing.T, f *ShareFit, means, below, short []float64) []check {
	t.Helper()
	var checks []check
	for g := range means {
		gap, err := f.Gap(g)
		require.NoError(t, err)
		checks = append(checks, check{"gap", means[g], gap.Mean(), 1e-10}, check{"P(weak)", below[g], gap.Below(0), 1e-10},
			check{"E[max(0,-gap)]", short[g], gap.Shortfall(), 1e-10})
	}
	return checks
}

// threeSequences are six invented flights of two sequences and a third one not
// flown: parts p q r s t, the last of which no flight has; three judges.
func threeSequences() (cells []ShareCell, asked [][]ShareCell) {
	p, q, r, s, u := 0, 1, 2, 3, 4
	sequences := [][][2][2]float64{}
	add := func(figures ...[]int) {
		var list [][2][2]float64
		for _, f := range figures {
			pair := [2][2]float64{{float64(f[0]), float64(f[1])}}
			if len(f) > 2 {
				pair[1] = [2]float64{float64(f[2]), float64(f[3])}
			}
			list = append(list, pair)
		}
		sequences = append(sequences, list)
	}
	add([]int{p, 14}, []int{p, 10, q, 6}, []int{q, 18}, []int{r, 12, s, 8}, []int{r, 15}, []int{s, 20}, []int{p, 9, r, 11}, []int{q, 8, s, 12})
	add([]int{p, 16}, []int{q, 12, r, 4}, []int{r, 20}, []int{s, 10}, []int{s, 14, p, 6}, []int{q, 15}, []int{p, 8, s, 8}, []int{r, 9, q, 11})
	add([]int{p, 12, q, 8}, []int{q, 16}, []int{r, 14, p, 6}, []int{s, 18}, []int{u, 15}, []int{u, 10, r, 10}, []int{s, 9, q, 9}, []int{p, 13})
	zero := math.NaN()
	flights := []struct {
		sequence int
		marks    []float64
	}{
		{0, []float64{6.5, 7, 8, 6, 6.5, 5.5, 7, 6.5}},
		{0, []float64{7, 7.5, 7.5, 6.5, 5.5, 6, 6.5, 7}},
		{0, []float64{6.5, 7, 8.5, 6, zero, 6, 7, 6}},
		{1, []float64{8, 7.5, 6.5, 6.5, 7, 8, 7.5, 7.5}},
		{1, []float64{8.5, 8, 6, 7, 6, 8, 7, 8}},
		{1, []float64{8, 8.5, 7, 6.5, 7.5, 8, 8, 7.5}},
	}
	cell := func(sequence, figure int) ShareCell {
		c := ShareCell{Unit: 8*sequence + figure, Shares: make([]float64, 5)}
		for _, part := range sequences[sequence][figure] {
			c.Weight += part[1]
		}
		for _, part := range sequences[sequence][figure] {
			c.Shares[int(part[0])] += part[1] / c.Weight
		}
		return c
	}
	for i, flight := range flights {
		for figure, mark := range flight.marks {
			if c := cell(flight.sequence, figure); !math.IsNaN(mark) {
				c.Group, c.Value = i, 10-mark
				cells = append(cells, c)
			}
		}
	}
	for sequence := range sequences {
		var list []ShareCell
		for figure := range sequences[sequence] {
			list = append(list, cell(sequence, figure))
		}
		asked = append(asked, list)
	}
	return cells, asked
}

// rowOf is the row of a whole sequence: shares of K.
func rowOf(cells []ShareCell) ShareRow {
	row, k := ShareRow{Parts: make([]float64, len(cells[0].Shares))}, 0.0
	for _, c := range cells {
		k += c.Weight
	}
	for _, c := range cells {
		addScaled(row.Parts, c.Shares, c.Weight/k)
		row.Units = append(row.Units, UnitShare{c.Unit, c.Weight / k})
	}
	return row
}

// Computed by two independent programs, in Python by V^-1 and in R by the mixed
// model's equations, which agree in ten decimals [derived: two-programs,
// Python and R].
func TestShareModelOfSequencesReference(t *testing.T) {
	cells, asked := threeSequences()
	pool, err := PoolShares(cells, 5, true)
	require.NoError(t, err)
	runChecks(t, []check{{"sigma^2", .1616094012, pool.Variance, 1e-10}, {"df", 31, float64(pool.DF), 0}})
	data := pool.ShareData
	data.Step = 0.1
	for i := range data.Z {
		data.Level = append(data.Level, i/8)
	}
	f, err := FitShares(data)
	require.NoError(t, err)
	checks := []check{{"tau", .7402490910, f.Tau, 1e-10}, {"sa", .1886413986, f.Unit, 1e-10}}
	for g, b := range []float64{-.4070687208, -.8754995754, .5723625338, .7102057624, 0} {
		checks = append(checks, check{"b", b, f.Parts[g], 1e-10})
	}
	rows := append([]ShareRow{rowOf(asked[2]), rowOf(asked[1])}, pool.Rows...)
	means, covariance, err := f.Ask(rows)
	require.NoError(t, err)
	for i, want := range []float64{-.0614168567, -.0251052980, .0548849742, .0548849742, -.0102152194, -.0251052980, -.0251052980, -.0251052980} {
		checks = append(checks, check{"T and F", want, means[i], 1e-10})
	}
	runChecks(t, checks)
	assert.InDelta(t, 0, covariance.At(1, 1)-covariance.At(1, 5), 1e-12, "a sequence that was flown is asked as it was flown")
}

// A season: 60 distinct figures of 10 families; and the 2,000 figures of an ample one.
func BenchmarkFitShares(b *testing.B) {
	for _, size := range []int{60, 2000} {
		d := ShareData{Variance: 60, DF: 100, Step: 1}
		for i := range size {
			shares := make([]float64, 10)
			shares[i%10], shares[(i*7+3)%10] = .6, .4
			d.Z, d.Times, d.Shares = append(d.Z, float64(i%17)-8), append(d.Times, float64(1+i%9)), append(d.Shares, shares)
		}
		b.Run(strconv.Itoa(size), func(b *testing.B) {
			for b.Loop() {
				if _, err := FitShares(d); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
