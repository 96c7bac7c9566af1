package analysis_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
)

// threeSeasons has so many contests a season of 2024 to 2026, each with two flights on
// sequences that stay; a flight has a standard deviation of 3 percentage points, of which
// a contest makes three tenths of the variance, and form rises by so much a season.
func threeSeasons(contests int, rise float64, seed uint64) string {
	draw := rand.New(rand.NewPCG(seed, 3))
	var b strings.Builder
	b.WriteString("pilot ines\nsequence k\n  category sportsman\n  programme known\n  1 K 10\nsequence f\n  category sportsman\n  programme free\n  1 K 10\n")
	for year := range 3 {
		for n := range contests {
			contest := 3 * math.Sqrt(.3) * draw.NormFloat64()
			for day, programme := range []string{"known", "free"} {
				date := fmt.Sprintf("%d-%02d-%02d", 2024+year, n+4, 10+day)
				if day == 0 {
					fmt.Fprintf(&b, "contest c%d-%d %s\n", year, n, date)
				}
				percent := 70 - 4*float64(day) + rise*(float64(year)+float64(n)/float64(contests)) + contest + 3*math.Sqrt(.7)*draw.NormFloat64()
				fmt.Fprintf(&b, "flight %s ines %s\n  contest c%d-%d\n  sequence %s\n  official %.2f of 100\n", date, programme, year, n, programme[:1], percent)
			}
		}
	}
	return b.String()
}

func longTrend(t testing.TB, book string, year int) (analysis.LongTrend, bool) {
	t.Helper()
	l := testkit.BookOf(t, book)
	s := season.Selection{Pilot: l.Pilots[0], Season: year}
	flown := analysis.SeasonOf(l, s)
	return analysis.LongTrendOf(l, s, flown, flown.Trends())
}

// Of form that does not move, three seasons of too few contests each are called improving
// or declining in at most one span in twenty, and "may be" in no more than it says.
func TestLongTrendOfFlatForm(t *testing.T) {
	const pilots = 400
	for _, contests := range []int{2, 4} {
		firm, soft := 0, 0
		for seed := range pilots {
			long, ok := longTrend(t, threeSeasons(contests, 0, uint64(seed)), 2026)
			require.True(t, ok)
			switch long.Trend.Word {
			case analysis.Improving, analysis.Declining:
				firm++
			case analysis.MayImprove, analysis.MayDecline:
				soft++
			}
		}
		t.Logf("%d contests a season: %.1f%% called, %.1f%% may be", contests, 100*float64(firm)/pilots, 100*float64(soft)/pilots)
		assert.LessOrEqual(t, firm, int(pilots*analysis.FirmFlight), "%d contests a season", contests)
		assert.LessOrEqual(t, firm+soft, int(pilots*analysis.MayBe), "%d contests a season", contests)
	}
}

// A clear rise over seasons of four contests is found, with its first day; where a later
// season was flown the span ends.
func TestLongTrendFindsARise(t *testing.T) {
	book := threeSeasons(4, 4, 1)
	long, ok := longTrend(t, book, 2026)
	require.True(t, ok)
	assert.Equal(t, analysis.Improving, long.Trend.Word)
	assert.Equal(t, "2024-01-01", long.Since.String())
	assert.Equal(t, "2024-04-10", long.First.String())
	assert.Zero(t, long.Until)
	assert.Equal(t, 12, long.Trend.Contests.N)
	assert.Equal(t, "sportsman", long.Category)

	long, ok = longTrend(t, book, 2025)
	require.True(t, ok)
	assert.Equal(t, "2025-12-31", long.Until.String())
	assert.Equal(t, 8, long.Trend.Contests.N)
}

// A trend over seasons begins with the first flight that it compares, however long before
// it the span begins: a sequence flown once is compared with nothing.
func TestLongTrendBeginsWithAFlight(t *testing.T) {
	year := strings.Index(threeSeasons(4, 4, 1), "contest c1-0")
	head := "pilot ines\nsequence k\n  category sportsman\n  programme known\n  1 K 10\nsequence f\n  category sportsman\n  programme free\n  1 K 10\n"
	late := threeSeasons(4, 4, 1)[year:]
	long, ok := longTrend(t, head+late, 2026)
	require.True(t, ok)
	assert.Equal(t, "2024-01-01", long.Since.String())
	assert.Equal(t, "2025-04-10", long.First.String())
	once := "sequence once\n  category sportsman\n  programme known\n  1 K 10\nflight 2024-06-01 ines known\n  sequence once\n  official 60 of 100\n"
	long, _ = longTrend(t, head+once+late, 2026)
	assert.Equal(t, "2025-04-10", long.First.String())
}

// A season with a verdict of its own has no second one; nor has a span chosen by days, or
// seasons with too few contests together.
func TestLongTrendStandsInForOne(t *testing.T) {
	_, ok := longTrend(t, threeSeasons(5, 4, 1), 2026)
	assert.False(t, ok, "the season has its own")
	_, ok = longTrend(t, threeSeasons(1, 4, 1), 2026)
	assert.False(t, ok, "three contests in all")
	_, ok = longTrend(t, threeSeasons(4, 4, 1), 0)
	assert.False(t, ok, "no season")
	_, ok = longTrend(t, "pilot ines\n", 2026)
	assert.False(t, ok, "nothing flown")
}
