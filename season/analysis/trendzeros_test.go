package analysis_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/season/analysis"
)

// A rise that one zero early in the season makes names its day; one that stands
// without the zero, or that rises as far with too few flights left to tell, does not.
func TestTrendThatHangsOnAZero(t *testing.T) {
	zeroed := func(at int, values ...float64) [][]analysis.TrendPoint {
		points := weekly(values...)
		points[at].Zero = true
		return [][]analysis.TrendPoint{points}
	}
	family := func(groups [][]analysis.TrendPoint) analysis.Trend {
		trends, _ := analysis.GroupTrends(groups)
		return trends[0]
	}
	// [derived] The median of 15 slopes is a point a week, that of the 10 without the
	// zero .5625, or 2.8 points over five weeks.
	made := zeroed(0, -30, -4, -5, -2, -3.5, -2.5)
	got := family(made)
	assert.Equal(t, analysis.MayImprove, got.Word)
	assert.Equal(t, []float64{0}, got.HangsOn)
	made[0][0].Zero = false
	assert.Empty(t, family(made).HangsOn, "no zero to hang on")

	stands := family(zeroed(0, -30, -9, -6, -3, 0, 3))
	assert.Equal(t, analysis.Improving, stands.Word)
	assert.Empty(t, stands.HangsOn, "it rises without the zero too")

	// [derived] Of four flights nothing can be told, but they rise as the five did.
	assert.Empty(t, family(zeroed(0, -12, -9, -6, -3, 0)).HangsOn, "fewer flights alone")

	falls := family(zeroed(5, -2.5, -3.5, -2, -5, -4, -30))
	assert.Equal(t, analysis.MayDecline, falls.Word)
	assert.Equal(t, []float64{35}, falls.HangsOn)
}

// Of whole flights the same holds, with both their tests.
func TestFlightTrendThatHangsOnAZero(t *testing.T) {
	points := weekly(40, 66, 65, 68, 66.5, 67.5)
	assert.Equal(t, analysis.MayImprove, analysis.FlightTrend(points).Word)
	assert.Empty(t, analysis.FlightTrend(points).HangsOn)
	points[0].Zero = true
	assert.Equal(t, []float64{0}, analysis.FlightTrend(points).HangsOn)
	// A zero in a flight that nothing is compared with is no part of the trend.
	alone := analysis.TrendPoint{Day: 50, Value: 20, Stratum: "free", Contest: "z", Zero: true}
	assert.Equal(t, []float64{0}, analysis.FlightTrend(append(points, alone)).HangsOn)
}
