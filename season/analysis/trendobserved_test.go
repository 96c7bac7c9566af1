package analysis_test

import (
	"math"
	"slices"
	"testing"

	"boxbook/season/analysis"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Flights of three sequences, each flown within a week, from 52 to 70 %: the
// median slope, carried over the whole season, would promise far more than what
// was ever flown.
func TestTrendPromisesNoMoreThanWasFlown(t *testing.T) {
	points := slices.Concat(
		series("spring", []float64{0, 2, 5}, []float64{52, 53, 56}),
		series("summer", []float64{60, 63, 66}, []float64{60, 61, 63}),
		series("autumn", []float64{120, 121, 124}, []float64{66, 68, 70}))
	got := analysis.FlightTrend(points)
	assert.InDelta(t, 70-52, got.Season, 1e-9)
	assert.InDelta(t, 70-52, got.High, 1e-9)
	assert.InDelta(t, 30*18.0/124, got.Slope30, 1e-9, "the rate follows the change")
	assert.InDelta(t, 52, got.First, 0)
	assert.InDelta(t, 70, got.Last, 0)
}

// A rate over thirty days is carried half the observed span beyond it at most.
func TestTrendHasNoRateFromAFortnight(t *testing.T) {
	short := analysis.FlightTrend(series("known", []float64{0, 3, 6, 9, 12, 15}, []float64{60, 61, 60, 63, 62, 65}))
	assert.True(t, short.HasSlope)
	assert.True(t, math.IsNaN(short.Slope30))
	long := analysis.FlightTrend(series("known", []float64{0, 4, 8, 12, 16, 20}, []float64{60, 61, 60, 63, 62, 65}))
	assert.False(t, math.IsNaN(long.Slope30))
}

// With too few flights what is left is what was flown: first and last.
func TestTooFewFlightsHaveFirstAndLastAlone(t *testing.T) {
	got := analysis.FlightTrend(weekly(58, 64, 61, 70))
	assert.Equal(t, analysis.TooFew, got.Word)
	assert.InDelta(t, 58, got.First, 0)
	assert.InDelta(t, 70, got.Last, 0)
	for _, n := range []float64{got.Season, got.Low, got.High, got.P, got.Contests.P, got.Slope30, got.Detectable, got.WithoutZero} {
		assert.True(t, math.IsNaN(n))
	}
}

// [derived]: the days of the reference season and c = 3.93486 SDs there, printed by
// an independent computation; the scatter about the line is [derived].
func TestDetectableChangeIsInTheUnitOfTheFlights(t *testing.T) {
	days := []float64{0, 13, 14, 41, 76, 77, 118, 160}
	values := []float64{62, 66, 61, 65, 62, 67, 61, 66}
	got := analysis.FlightTrend(series("known", days, values))
	assert.Equal(t, analysis.CannotTell, got.Word)
	slope := got.Season / 160
	sum, squares := 0.0, 0.0
	for i := range values {
		sum += values[i] - slope*days[i]
	}
	for i := range values {
		rest := values[i] - slope*days[i] - sum/8
		squares += rest * rest
	}
	assert.InDelta(t, 3.93486*math.Sqrt(squares/6), got.Detectable, 1e-4)
}

// Several flights a contest show less than their number: contest means must show
// the change too.
func TestDetectableChangeAsksContestMeansToo(t *testing.T) {
	values := []float64{62, 62.5, 66, 66.5, 61, 61.5, 66, 65.5, 62, 61.5, 65, 64}
	single := weekly(values...)
	double := weekly(values...)
	for i := range double {
		double[i].Contest = string(rune('a' + i/2))
	}
	assert.Greater(t, analysis.FlightTrend(double).Detectable, analysis.FlightTrend(single).Detectable)
}

// Flights that only a change of every pair, or one beyond what percents have,
// would have shown are said to show none.
func TestDetectableChangeIsOneThatThereCanBe(t *testing.T) {
	five := analysis.FlightTrend(weekly(62, 66, 61, 65, 63))
	require.Equal(t, analysis.CannotTell, five.Word)
	assert.True(t, math.IsNaN(five.Detectable), "five flights: only a rise at each would do")
	wild := analysis.FlightTrend(weekly(30, 90, 20, 80, 25, 95))
	require.Equal(t, analysis.CannotTell, wild.Word)
	assert.True(t, math.IsNaN(wild.Detectable), "%g", wild.Detectable)
	calm := analysis.FlightTrend(weekly(62, 66, 61, 65, 62, 67))
	require.Equal(t, analysis.CannotTell, calm.Word)
	assert.Positive(t, calm.Detectable)
}

// No change printed is larger than what lies between two flights that can be
// compared.
func TestTrendStaysWithinTheObserved(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		var points []analysis.TrendPoint
		lowest, highest := 100.0, 0.0
		for i := range rapid.IntRange(5, 16).Draw(r, "flights") {
			value := float64(rapid.IntRange(40, 90).Draw(r, "percent"))
			lowest, highest = min(lowest, value), max(highest, value)
			points = append(points, analysis.TrendPoint{
				Day: float64(10 * i), Value: value, Contest: string(rune('a' + i)),
				Stratum: rapid.SampledFrom([]string{"known", "free", "unknown"}).Draw(r, "stratum"),
			})
		}
		got := analysis.FlightTrend(points)
		for _, change := range []float64{got.Season, got.Low, got.High} {
			if !math.IsNaN(change) && math.Abs(change) > highest-lowest+1e-9 {
				r.Fatalf("a change of %v where flights lie between %v and %v", change, lowest, highest)
			}
		}
	})
}

// What was beyond the observed is marked as cut to it, and nothing else is.
func TestTrendMarksWhatIsCut(t *testing.T) {
	calm := analysis.FlightTrend(weekly(62, 66, 61, 65, 62, 67))
	require.Equal(t, []float64{-6, 6}, []float64{calm.Low, calm.High}, "67 less 61")
	assert.Equal(t, []bool{false, true, true}, []bool{calm.SeasonCut, calm.LowCut, calm.HighCut})
	within := analysis.FlightTrend(weekly(60, 62, 64, 66, 68, 70, 72, 74))
	assert.Equal(t, []bool{false, false, false}, []bool{within.SeasonCut, within.LowCut, within.HighCut}, "a line gives what was observed, no more")
}
