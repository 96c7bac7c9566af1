package analysis_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
)

// A family that moves by whole contests, up and down about its rise, is not
// called on its flights: three of them at a contest count for about one. The same
// values, each a contest by itself, are called.
func TestGroupTrendsCountAlikeFlightsAsFewer(t *testing.T) {
	var alike, apart [][]analysis.TrendPoint
	contests := []float64{0, 6, 2, 11, 9}
	for g := range 6 {
		values := make([]float64, 15)
		for i := range values {
			values[i] = contests[i/3] + 0.3*math.Sin(float64(7*i+g))
		}
		points := weekly(values...)
		apart = append(apart, points)
		points = slices.Clone(points)
		for i := range points {
			points[i].Contest = fmt.Sprint("contest ", i/3)
		}
		alike = append(alike, points)
	}
	loose, _ := analysis.GroupTrends(apart)
	tight, qs := analysis.GroupTrends(alike)
	for g := range loose {
		assert.Equal(t, analysis.Improving, loose[g].Word)
		assert.InDelta(t, 1, loose[g].DesignEffect, 0)
		assert.Equal(t, loose[g].S, tight[g].S)
		assert.NotEqual(t, analysis.Improving, tight[g].Word)
		assert.InDelta(t, 2.8, tight[g].DesignEffect, 0.2)
		assert.Greater(t, tight[g].P, loose[g].P)
		assert.Greater(t, qs[g], 0.1)
		assert.Less(t, tight[g].Low, loose[g].Low)
		assert.Greater(t, tight[g].Least, loose[g].Least)
	}
}

// Groups are judged together by Benjamini and Hochberg over those that could
// reach a verdict. [derived]: six rising points give p = 2/720, eleven of fifteen
// pairs 2 x .02778; q is the smaller of 3 x 2/720 and what follows; the group
// of four points is left out, and does not dilute.
func TestGroupTrends(t *testing.T) {
	rising := weekly(60, 62, 64, 66, 68, 70)
	nearly := weekly(63, 60, 70, 66, 74, 78)
	noise := weekly(60, 70, 61, 69, 62, 68)
	short := weekly(60, 65, 70, 75)
	trends, qs := analysis.GroupTrends([][]analysis.TrendPoint{noise, rising, short, nearly, nil})
	words := make([]analysis.Word, len(trends))
	for i, trend := range trends {
		words[i] = trend.Word
	}
	assert.Equal(t, []analysis.Word{analysis.CannotTell, analysis.Improving, analysis.TooFew, analysis.Improving, analysis.TooFew}, words)
	assert.InDeltaSlice(t, []float64{trends[0].P, 3 * 2.0 / 720, 3 * trends[3].P / 2}, []float64{qs[0], qs[1], qs[3]}, 1e-12)
	assert.True(t, math.IsNaN(qs[2]) && math.IsNaN(qs[4]), "too few flights have no q")
	assert.InDelta(t, 2*.02778, trends[3].P, 1e-5)

	// Beside two groups of noise the same p is no longer firm, beside eight it is
	// what chance gives.
	many := [][]analysis.TrendPoint{nearly, noise, noise}
	trends, qs = analysis.GroupTrends(many)
	assert.InDelta(t, 3*2*.02778, qs[0], 1e-4)
	assert.Equal(t, analysis.MayImprove, trends[0].Word)
	for range 6 {
		many = append(many, noise)
	}
	trends, qs = analysis.GroupTrends(many)
	assert.Greater(t, qs[0], analysis.MayBe)
	assert.Equal(t, analysis.CannotTell, trends[0].Word)

	trends, qs = analysis.GroupTrends(nil)
	assert.Empty(t, trends)
	assert.Empty(t, qs)
}

// percentFlight is a flight with an official total, in percent.
func percentFlight(date, programme, sequence string, percent float64) string {
	return fmt.Sprintf("flight %s ines %s\n  sequence %s\n  official %g\n", date, programme, sequence, percent)
}

// One category and one sequence; the unknowns of a category together; without
// a sequence, the programme.
func TestStratum(t *testing.T) {
	l := testkit.BookOf(t, trendHead+
		percentFlight("2026-04-18", "known", "k1", 60)+percentFlight("2026-04-19", "free", "k2", 60)+
		percentFlight("2026-04-20", "unknown", "u1", 60)+percentFlight("2026-04-21", "free-unknown", "u2", 60)+
		"flight 2026-04-22 ines known\n  category sportsman\n  official 60 of 100\n"+
		"flight 2026-04-23 ines unknown\n  category sportsman\n  official 60 of 100\n"+
		percentFlight("2026-04-24", "known", "k1", 60)+"  category intermediate\n")
	var strata []string
	for _, f := range l.Flights {
		strata = append(strata, analysis.Stratum(f))
	}
	assert.Equal(t, []string{
		"sportsman k1", "sportsman k2", "sportsman unknowns", "sportsman unknowns",
		"sportsman programme known", "sportsman unknowns", "intermediate k1",
	}, strata)
}

// rows a season of percents, one flight a day.
func percentBook(sequence string, first int, percents ...float64) string {
	var b strings.Builder
	for i, p := range percents {
		b.WriteString(percentFlight(season.Date(20500+first+7*i).String(), "known", sequence, p))
	}
	return b.String()
}

// No trend is drawn across a change of category; what the move did stands
// beside. [derived]: of the six ways of dealing four contests out, exchanging one
// or both gives the shifts 4, 6, 7, 8 and 10; the lowest and the highest hold
// in 4 of 6.
func TestTrendsByCategory(t *testing.T) {
	book := trendHead + percentBook("k1", 0, 60, 62) + percentBook("i1", 100, 66, 70)
	l := testkit.BookOf(t, book)
	flights := analysis.SeasonOf(l, season.Selection{Pilot: l.Pilots[0]})
	trends := flights.Trends()
	require.Len(t, trends, 2)
	assert.Equal(t, "sportsman", trends[0].Category)
	assert.Equal(t, "intermediate", trends[1].Category)
	assert.Equal(t, 2, trends[0].Trend.N)
	moves := flights.Moves()
	require.Len(t, moves, 1)
	move := moves[0]
	assert.True(t, move.Known)
	assert.Equal(t, []int{2, 2}, []int{move.Before, move.After})
	assert.InDelta(t, 7, move.Change, 1e-9)
	assert.InDelta(t, 4, move.Low, 1e-9)
	assert.InDelta(t, 10, move.High, 1e-9)
	assert.InDelta(t, 4.0/6, move.Confidence, 1e-9)

	// One contest on a side says nothing.
	l = testkit.BookOf(t, trendHead+percentBook("k1", 0, 60, 62)+percentBook("i1", 100, 66))
	move = analysis.SeasonOf(l, season.Selection{Pilot: l.Pilots[0]}).Moves()[0]
	assert.False(t, move.Known)
	assert.Equal(t, []int{2, 1}, []int{move.Before, move.After})

	// Two flights of one contest are one mean.
	l = testkit.BookOf(t, trendHead+"contest cup 2026-06-06..2026-06-07\n"+
		percentFlight("2026-06-06", "known", "i1", 66)+"  contest cup\n"+
		percentFlight("2026-06-07", "free", "i1", 70)+"  contest cup\n"+percentBook("k1", 0, 60, 62))
	move = analysis.SeasonOf(l, season.Selection{Pilot: l.Pilots[0]}).Moves()[0]
	assert.Equal(t, 1, move.After)
}
