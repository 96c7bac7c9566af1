package analysis_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
)

// series are points of one stratum, each a contest by itself.
func series(stratum string, days, values []float64) []analysis.TrendPoint {
	points := make([]analysis.TrendPoint, len(days))
	for i := range days {
		points[i] = analysis.TrendPoint{Day: days[i], Value: values[i], Stratum: stratum, Contest: fmt.Sprintf("%s %g", stratum, days[i])}
	}
	return points
}

// weekly are points a week apart.
func weekly(values ...float64) []analysis.TrendPoint {
	days := make([]float64, len(values))
	for i := range days {
		days[i] = 7 * float64(i)
	}
	return series("known", days, values)
}

// [derived], by going through all 144 arrangements of two strata: S = 5, 19 of
// them reach it, two-sided p = .26388889; the median of the 9 slopes, and the
// ends at ranks 2 and 8, which hold at 91.67 %. With ties 16 of 144 reach 5.
func TestTrendTwoStrata(t *testing.T) {
	points := slices.Concat(
		series("known", []float64{0, 21, 48, 90}, []float64{62, 64.5, 63, 66}),
		series("free", []float64{1, 22, 91}, []float64{58, 61, 60.5}))
	got := analysis.FlightTrend(points)
	assert.Equal(t, 7, got.N)
	assert.Equal(t, 5, got.S)
	assert.InDelta(t, 5.0/9, got.Tau, 1e-12, "of nine pairs")
	assert.InDelta(t, 2.0*19/144, got.P, 1e-12)
	assert.InDelta(t, 91, got.Span, 0)
	assert.InDelta(t, 30*.0277777778, got.Slope30, 1e-8)
	assert.InDelta(t, 91*.0277777778, got.Season, 1e-7)
	assert.InDelta(t, 91*-.0072463768, got.Low, 1e-7)
	assert.InDelta(t, 66-58, got.High, 1e-9, "91 days of .1190476190 are more than lies between the lowest and the highest")
	assert.InDelta(t, .9167, got.Confidence, 5e-5)
	assert.Equal(t, 7, got.Contests.N)

	points[2].Value, points[6].Value = 62, 61
	got = analysis.FlightTrend(points)
	assert.Equal(t, 5, got.S)
	assert.InDelta(t, 5/math.Sqrt(9*7), got.Tau, 1e-12, "two of nine pairs tied")
	assert.InDelta(t, 2.0*16/144, got.P, 1e-12)
}

// S = 22 of 11 values with ties [published: epa-g9s, p. 109]. The exact two-sided
// p of .092136 is [derived], by going through all 831,600 arrangements.
func TestTrendWithTies(t *testing.T) {
	got := analysis.FlightTrend(weekly(10, 10, 10, 5, 10, 20, 18, 17, 15, 24, 15))
	assert.Equal(t, 22, got.S)
	assert.InDelta(t, 2*38310.0/831600, got.P, 1e-9)
	assert.Equal(t, 22, got.Contests.S, "one flight a contest in one stratum: the same test")
	assert.InDelta(t, got.P, got.Contests.P, 1e-12)
	assert.Equal(t, analysis.MayImprove, got.Word)
}

// Exact tails [derived: r, C_pKendall]: P(S >= s) at n = 5: 8
// .04167, 10 .008333; n = 6: 9 .06806, 11 .02778, 13 .008333; n = 9: 18 .03759,
// 20 .02231. A firm word needs twice the tail at or below 0.05, a soft one 0.20.
func TestTrendWordsAtTheEdges(t *testing.T) {
	for _, test := range []struct {
		name   string
		values []float64
		s      int
		word   analysis.Word
	}{
		{"nothing", nil, 0, analysis.TooFew},
		{"one", []float64{60}, 0, analysis.TooFew},
		{"two", []float64{60, 70}, 1, analysis.TooFew},
		{"four rising", []float64{60, 63, 66, 70}, 6, analysis.TooFew},
		{"five rising", []float64{60, 63, 66, 70, 74}, 10, analysis.Improving},
		{"five falling", []float64{74, 70, 66, 63, 60}, -10, analysis.Declining},
		{"five, one pair the other way", []float64{60, 66, 63, 70, 74}, 8, analysis.MayImprove},
		{"five, two the other way: .2333", []float64{63, 60, 70, 66, 74}, 6, analysis.CannotTell},
		{"five falling, one the other way", []float64{74, 70, 63, 66, 60}, -8, analysis.MayDecline},
		{"six: S 9, .1361", []float64{66, 63, 60, 70, 74, 78}, 9, analysis.MayImprove},
		{"six: S 11, .0556", []float64{63, 60, 70, 66, 74, 78}, 11, analysis.MayImprove},
		{"six: S 13, .0167", []float64{63, 60, 66, 70, 74, 78}, 13, analysis.Improving},
		{"nine: S 18, .0752", []float64{72, 68, 64, 60, 84, 80, 76, 88, 92}, 18, analysis.MayImprove},
		{"nine: S 20, .0446", []float64{72, 68, 64, 60, 80, 76, 88, 84, 92}, 20, analysis.Improving},
		{"five, a rise of 3.0 points", []float64{60, 60.75, 61.5, 62.25, 63}, 10, analysis.Flat},
		{"five, a rise of 3.2", []float64{60, 60.8, 61.6, 62.4, 63.2}, 10, analysis.Improving},
		{"eight within a point", []float64{65, 65.5, 65.2, 65.4, 65.1, 65.3, 65.6, 65}, 0, analysis.Flat},
		{"eight, up and down by ten", []float64{60, 70, 61, 69, 62, 68, 63, 67}, 4, analysis.CannotTell},
	} {
		got := analysis.FlightTrend(weekly(test.values...))
		if test.s != 0 {
			assert.Equal(t, test.s, got.S, test.name)
		}
		assert.Equal(t, test.word, got.Word, "%s: p %.4f, season %.2f (%.2f to %.2f)", test.name, got.P, got.Season, got.Low, got.High)
		assert.Equal(t, test.word == analysis.TooFew, math.IsNaN(got.P+got.Season+got.Low+got.High+got.Slope30), test.name)
	}
}

// Equal scores all through: p is 1, nothing is divided by 0, and with enough
// flights that is flat, not too few.
func TestTrendOfEqualValues(t *testing.T) {
	got := analysis.FlightTrend(weekly(slices.Repeat([]float64{65}, 8)...))
	assert.Zero(t, got.S)
	assert.Equal(t, 1.0, got.P)
	assert.True(t, got.HasSlope)
	assert.Zero(t, got.Season)
	assert.Equal(t, analysis.Flat, got.Word)
	assert.Empty(t, got.Reason)
	few := analysis.FlightTrend(weekly(65, 65, 65, 65))
	assert.Equal(t, analysis.TooFew, few.Word)
	assert.Equal(t, analysis.TrendFewFlights, few.Reason)
	trends, qs := analysis.GroupTrends([][]analysis.TrendPoint{weekly(slices.Repeat([]float64{0}, 8)...)})
	assert.Equal(t, analysis.Flat, trends[0].Word)
	assert.Equal(t, 1.0, qs[0])
}

// On one day there is an order and no slope; two flights of one day give no
// slope between them.
func TestTrendOnOneDay(t *testing.T) {
	points := weekly(60, 63, 66, 70, 74, 78)
	for i := range points {
		points[i].Day = 100
		points[i].Contest = fmt.Sprint(i)
	}
	got := analysis.FlightTrend(points)
	assert.False(t, got.HasSlope)
	assert.Zero(t, got.Span)
	assert.Equal(t, analysis.CannotTell, got.Word, "a rise without a size")
	assert.Equal(t, analysis.TrendOneDay, got.Reason)
	assert.Equal(t, 15, got.S)

	points = weekly(60, 63, 66, 70, 74, 78)
	points[1].Day = 0
	got = analysis.FlightTrend(points)
	assert.True(t, got.HasSlope)
	assert.Less(t, got.Confidence, 1.0)
	assert.Equal(t, analysis.Improving, got.Word)
}

// Pairs are never formed across strata, and a stratum of one point is none.
func TestTrendStrata(t *testing.T) {
	points := series("known", []float64{0, 14, 28, 42, 56}, []float64{60, 61, 62, 63, 64})
	for i := range points {
		points[i].Stratum = fmt.Sprint("s", i)
	}
	got := analysis.FlightTrend(points)
	assert.Zero(t, got.N)
	assert.Zero(t, got.Contests.N, "strata of one flight are left out of the contest means")
	assert.Equal(t, analysis.TooFew, got.Word)
	assert.False(t, got.HasSlope)

	// Three pairs of two: six flights, and yet no data could reach 5 %.
	points = slices.Concat(series("a", []float64{0, 7}, []float64{60, 70}), series("b", []float64{14, 21}, []float64{50, 60}),
		series("c", []float64{28, 35}, []float64{40, 50}))
	got = analysis.FlightTrend(points)
	assert.Equal(t, 6, got.N)
	assert.InDelta(t, 0.25, got.Least, 1e-12, "derived: twice one of eight")
	assert.Equal(t, analysis.TooFew, got.Word)
	assert.Equal(t, analysis.TrendFewAlike, got.Reason)
	groups, _ := analysis.GroupTrends([][]analysis.TrendPoint{points, weekly(1, 2, 3, 4)})
	assert.Equal(t, analysis.TrendFewAlike, groups[0].Reason)
	assert.Equal(t, analysis.TrendFewFlights, groups[1].Reason)
}

// Both tests must agree: six flights at three contests rise without an
// exception, and three contests can say nothing.
func TestTrendNeedsContestMeans(t *testing.T) {
	points := weekly(60, 63, 66, 70, 74, 78)
	for i := range points {
		points[i].Contest = fmt.Sprint(i / 2)
	}
	got := analysis.FlightTrend(points)
	assert.InDelta(t, 2.0/720, got.Least, 1e-12, "derived: one of 6!")
	assert.Equal(t, 15, got.S)
	assert.Equal(t, 3, got.Contests.N)
	assert.Equal(t, analysis.TooFew, got.Contests.Word)
	assert.Equal(t, analysis.TooFew, got.Word)
	assert.Equal(t, analysis.TrendFewContests, got.Reason)

	// Ten flights at five contests: firm on both.
	points = weekly(60, 61, 63, 64, 66, 67, 70, 71, 74, 75)
	for i := range points {
		points[i].Contest = fmt.Sprint(i / 2)
	}
	got = analysis.FlightTrend(points)
	assert.Equal(t, 10, got.Contests.S)
	assert.Equal(t, analysis.Improving, got.Contests.Word)
	assert.Equal(t, analysis.Improving, got.Word)

	// The last contest's second flight lost: the flights still say so (S 28,
	// p .012), the contests no longer firmly.
	points[9].Value = 50
	got = analysis.FlightTrend(points)
	assert.LessOrEqual(t, got.P, 0.05)
	assert.Greater(t, got.Contests.P, 0.05)
	assert.NotEqual(t, analysis.Improving, got.Word)
}

// Two seasons whose sequences differ: each rises, and what taking the sequences' means
// away leaves says nothing of one season against the other. [derived]: S of the contest
// means 6 of 6 pairs a season, 2/(4! 4!) two-sided; 28 pairs across both would come to 12.
func TestTrendOfSeasonsOfOtherSequences(t *testing.T) {
	for _, first := range []float64{0, -2000} { // days before 1970 too
		var points []analysis.TrendPoint
		for i := range 8 {
			name := string(rune('a' + i))
			day := first + float64(30*i+245*(i/4))
			points = append(points, analysis.TrendPoint{Day: day, Value: 50 + 3*float64(i), Stratum: "free " + string(rune('1'+i/4)), Contest: name})
		}
		got := analysis.FlightTrend(points)
		assert.Equal(t, 8, got.Contests.N)
		assert.Equal(t, 12, got.Contests.S)
		assert.InDelta(t, 2.0/(24*24), got.Contests.P, 1e-12)
		assert.Equal(t, analysis.Improving, got.Word)
	}
}

// Two seasons of other sequences without a trend, contests 2 to 4 points apart by judges
// and weather: a firm word in no more than 6 of 100, as of one season.
func TestTwoTrendlessSeasonsOfOtherSequences(t *testing.T) {
	dice := rand.New(rand.NewPCG(7, 9))
	for _, contests := range []float64{0, 2, 4} {
		const draws = 600
		firm := 0
		for range draws {
			var points []analysis.TrendPoint
			for i := range 8 {
				luck := contests * dice.NormFloat64()
				for f := range 2 {
					points = append(points, analysis.TrendPoint{
						Day: float64(365*(i/4) + 30*(i%4)), Value: 60 + luck + 3*dice.NormFloat64(),
						Stratum: string(rune('a' + 2*(i/4) + f)), Contest: string(rune('a' + i)),
					})
				}
			}
			if word := analysis.FlightTrend(points).Word; word == analysis.Improving || word == analysis.Declining {
				firm++
			}
		}
		assert.LessOrEqual(t, firm, draws*6/100, "contests %g apart", contests)
	}
}

// Contest means are of each flight less its stratum's mean, so that a hard
// sequence is no bad contest. [derived]: strata means 61 and 51; contests at -1,
// -1, +1 and +1; a stratum of one flight is left out.
func TestTrendContestMeansBySequence(t *testing.T) {
	points := []analysis.TrendPoint{
		{Day: 0, Value: 60, Stratum: "known", Contest: "a"},
		{Day: 30, Value: 50, Stratum: "unknowns", Contest: "b"},
		{Day: 60, Value: 62, Stratum: "known", Contest: "c"},
		{Day: 90, Value: 52, Stratum: "unknowns", Contest: "d"},
		{Day: 120, Value: 99, Stratum: "free", Contest: "e"},
	}
	got := analysis.FlightTrend(points)
	assert.Equal(t, 4, got.Contests.N)
	assert.Equal(t, 4, got.Contests.S)

	// The mean of a contest's flights: +1 and -3, against -1 and +3.
	points = []analysis.TrendPoint{
		{Day: 0, Value: 62, Stratum: "known", Contest: "a"},
		{Day: 0, Value: 47, Stratum: "unknowns", Contest: "a"},
		{Day: 30, Value: 60, Stratum: "known", Contest: "b"},
		{Day: 31, Value: 53, Stratum: "unknowns", Contest: "b"},
	}
	got = analysis.FlightTrend(points)
	assert.Equal(t, 2, got.Contests.N)
	assert.Equal(t, 1, got.Contests.S)
}

// A zeroed flight stays in the ranks; the slope without it is shown beside.
func TestTrendWithoutZeros(t *testing.T) {
	points := weekly(60, 62, 64, 66, 68, 40)
	got := analysis.FlightTrend(points)
	assert.False(t, got.HasZero)
	points[5].Zero = true
	marked := analysis.FlightTrend(points)
	assert.True(t, marked.HasZero)
	assert.Equal(t, got.S, marked.S)
	assert.InDelta(t, 10, marked.WithoutZero, 1e-9, "derived: 2 points a week over the five weeks of all flights")
}

// A flight has a zero whichever way a figure came to count 0: the slope without
// it stands beside under every rule style.
func TestSeasonTrendWithoutZeros(t *testing.T) {
	book := func(first string) string {
		b := readyHead + readyFlights("2026-11-01", "6", "6.5", "7", "7", "7.5", "8")
		return b + "flight 2026-11-15 ines known\n  sequence five\n  panel A B\n" + markRows([]string{first, "7 7", "7 7", "7 7", "7 7"})
	}
	hasZero := func(text string) bool {
		l := testkit.BookOf(t, text)
		return analysis.SeasonOf(l, season.Selection{Pilot: l.PilotNamed("ines")}).Trends()[0].Trend.HasZero
	}
	assert.True(t, hasZero(book("HZ HZ")))
	assert.True(t, hasZero(book("HZ HZ")+"  rules as-graded\n"))
	assert.True(t, hasZero(book("PZ PZ")))
	assert.False(t, hasZero(book("0 0")))
	assert.False(t, hasZero(book("PZ 7")))
}

// The longest stretch without a flight is known.
func TestTrendGap(t *testing.T) {
	got := analysis.FlightTrend(series("known", []float64{0, 20, 171, 190, 200}, []float64{60, 61, 62, 63, 64}))
	assert.InDelta(t, 151, got.LongestGap, 0)
	assert.Greater(t, got.LongestGap, float64(analysis.LongGap))
	assert.InDelta(t, 200, got.Span, 0)
}

// trendHead is a pilot with two known sequences and an unknown one in each of
// two categories.
const trendHead = `
pilot ines
sequence k1
  category sportsman
  programme known
  1 K 10
sequence k2
  category sportsman
  1 K 10
sequence u1
  category sportsman
  programme unknown
  1 K 10
sequence u2
  category sportsman
  programme free-unknown
  1 K 10
sequence i1
  category intermediate
  1 K 10
`

// Each change of category is a step of its own, between the contests since the
// last change and those up to the next: a return is one, and what follows it is
// not before the first.
func TestMovesThereAndBack(t *testing.T) {
	l := testkit.BookOf(t, trendHead+percentBook("k1", 0, 68, 70, 69)+percentBook("i1", 100, 50, 49, 51)+
		percentBook("k1", 200, 80, 79, 81))
	moves := analysis.SeasonOf(l, season.Selection{Pilot: l.Pilots[0]}).Moves()
	var said []string
	for _, m := range moves {
		said = append(said, fmt.Sprintf("%s to %s %+.1f (%d, %d)", m.From, m.To, m.Change, m.Before, m.After))
	}
	assert.Equal(t, []string{"sportsman to intermediate -19.0 (3, 3)", "intermediate to sportsman +30.0 (3, 3)"}, said)
}

// Practice and void flights, and flights without a percent, are in no trend;
// the record is the official total.
func TestTrendsOfRecords(t *testing.T) {
	l := testkit.BookOf(t, trendHead+percentBook("k1", 0, 60, 62, 64, 66, 68)+
		"flight 2026-09-01 ines practice\n  sequence k1\n  panel A\n  1 1\n"+
		percentFlight("2026-09-02", "known", "k1", 10)+"  void \"cloud\"\n"+
		"flight 2026-09-03 ines known\n  sequence k1\n  place 1\n"+
		"flight 2026-09-04 ines known\n  sequence k1\n  panel A B\n  1 HZ 7\n")
	trends := analysis.SeasonOf(l, season.Selection{Pilot: l.Pilots[0]}).Trends()
	require.Len(t, trends, 1)
	assert.Equal(t, 5, trends[0].Trend.N)
	assert.Equal(t, analysis.Improving, trends[0].Trend.Word)
	assert.InDelta(t, 8, trends[0].Trend.Season, 1e-9)
}

// Whatever the points, the word keeps its rule.
func TestTrendProperties(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		n := rapid.IntRange(0, 12).Draw(r, "n")
		points := make([]analysis.TrendPoint, n)
		day := 0.0
		for i := range points {
			day += float64(rapid.IntRange(0, 40).Draw(r, "gap"))
			points[i] = analysis.TrendPoint{
				Day: day, Value: float64(rapid.IntRange(100, 140).Draw(r, "value")) / 2,
				Stratum: rapid.SampledFrom([]string{"a", "a", "b"}).Draw(r, "stratum"),
				Contest: fmt.Sprint(rapid.IntRange(0, 8).Draw(r, "contest")),
				Zero:    rapid.IntRange(0, 9).Draw(r, "zero") == 0,
			}
		}
		got := analysis.FlightTrend(points)
		requireShown(r, got)
		switch got.Word {
		case analysis.Improving, analysis.Declining:
			require.True(r, got.P <= 0.05 && got.Contests.P <= 0.05 && math.Abs(got.Season) > 3 && got.N >= 5 && got.Contests.N >= 5)
			require.Equal(r, got.Word == analysis.Improving, got.S > 0 && got.Contests.S > 0 && got.Season > 0)
		case analysis.MayImprove, analysis.MayDecline:
			require.True(r, got.P <= 0.2 && got.Contests.P <= 0.2 && math.Abs(got.Season) > 3)
		case analysis.Flat:
			require.True(r, got.Low >= -3 && got.High <= 3 && got.Confidence >= 0.9)
		case analysis.TooFew:
			require.False(r, got.N >= 8 && got.Contests.N >= 8)
		}
		if got.HasSlope {
			require.True(r, got.Low <= got.Season && got.Season <= got.High)
		}
		// Turned upside down, everything changes sign.
		for i := range points {
			points[i].Value = -points[i].Value
		}
		down := analysis.FlightTrend(points)
		require.Equal(r, -got.S, down.S)
		require.Equal(r, got.Word == analysis.TooFew, down.Word == analysis.TooFew)
		if got.Word != analysis.TooFew {
			require.InDelta(r, got.P, down.P, 1e-9)
		}
		if got.HasSlope {
			require.InDelta(r, -got.Season, down.Season, 1e-9)
		}
	})
}

// requireShown checks that a trend has its numbers where there is a verdict, and
// none where the flights are too few for one.
func requireShown(r *rapid.T, got analysis.Trend) {
	tests := []float64{got.Tau, got.P, got.Contests.P}
	sizes := []float64{got.Season, got.Low, got.High, got.Confidence}
	for _, v := range tests {
		require.Equal(r, got.Word == analysis.TooFew, math.IsNaN(v))
		require.False(r, math.IsInf(v, 0))
	}
	for _, v := range sizes {
		require.Equal(r, !got.HasSlope, math.IsNaN(v))
		require.False(r, math.IsInf(v, 0))
	}
	require.Equal(r, got.HasSlope && got.Span >= 20, !math.IsNaN(got.Slope30), "a rate over 30 days needs 20")
	require.Equal(r, !got.HasZero, math.IsNaN(got.WithoutZero))
	require.False(r, got.HasSlope && got.Word == analysis.TooFew)
	require.Equal(r, !got.HasSlope, got.Reason != "", "what there is not has a reason")
}
