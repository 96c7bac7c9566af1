package pages

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
	"boxbook/season"
)

// percentBook is a pilot with flights a fortnight apart, in percent, of one
// sequence.
func percentBook(percents ...float64) string {
	var b strings.Builder
	b.WriteString("pilot ines\n  name \"Ines Halloran\"\nsequence known-26\n  category intermediate\n  1 K 10\n")
	b.WriteString(percentFlights("2026-02-01", "known-26", percents...))
	return b.String()
}

func percentFlights(first, sequence string, percents ...float64) string {
	var b strings.Builder
	day, _ := season.ParseDate(first)
	for i, percent := range percents {
		fmt.Fprintf(&b, "flight %s ines known\n  sequence %s\n  official %g\n", day+season.Date(14*i), sequence, percent)
	}
	return b.String()
}

// seasonText is a season's page.
func seasonText(t testing.TB, book string) string {
	t.Helper()
	l := faultBook(t, book)
	return textOf(t, Season(answers.SeasonOf(l, season.Selection{Pilot: l.Pilots[0]}), true))
}

// verdictText is what a season's page says first.
func verdictText(t testing.TB, book string) string {
	t.Helper()
	verdict, _, found := strings.Cut(seasonText(t, book), "\nFlights\n\n")
	require.True(t, found, verdict)
	return verdict
}

// trendText is the trend section of a season's page, "" where it has none.
func trendText(t testing.TB, book string) string {
	t.Helper()
	_, trend, _ := strings.Cut(seasonText(t, book), "\nTrend\n\n")
	trend, _, _ = strings.Cut(trend, "\n\nContests")
	return trend
}

// Every verdict is a sentence with what it rests on; none says "no change".
// [derived]: the median of the slopes and the ranks of the exact null, by hand.
func TestTrendSentences(t *testing.T) {
	for _, test := range []struct {
		name     string
		percents []float64
		want     string
	}{
		{"two", []float64{60, 64}, "2 flights that can be compared: no trend can be judged with fewer than five."},
		{"three", []float64{60, 64, 62}, "3 flights that can be compared: no trend can be judged with fewer than five."},
		{"four", []float64{60, 64, 62, 66}, "4 flights that can be compared: no trend can be judged with fewer than five (first 60.00%, last 66.00%, as flown)."},
		{"five rising", []float64{60, 63, 66, 70, 74}, "Improving: +14 percentage points by the trend of these flights (+12 to +14 at 91% confidence, +14 cut to what was observed). Chance alone gives as much in about one season in 50."},
		{"five falling", []float64{74, 70, 66, 63, 60}, "Declining: -14 percentage points by the trend of these flights (-14 to -12 at 91% confidence, -14 cut to what was observed). Chance alone gives as much in about one season in 50."},
		{"may be", []float64{60, 66, 63, 70, 74}, "May be improving: +14 percentage points by the trend of these flights (+6 to +14 at 91% confidence, +14 cut to what was observed), but chance alone gives as much in about one season in ten."},
		{"flat", []float64{65, 65.5, 65.2, 65.4, 65.1, 65.3, 65.6, 65}, "Flat: +0.1 percentage points by the trend of these flights, within 3 either way (-0.6 to +0.6 at 93% confidence, +0.6 cut to what was observed)."},
		{"equal", []float64{65, 65, 65, 65, 65, 65}, "Flat: 0.0 percentage points by the trend of these flights, within 3 either way (0.0 to 0.0 at 94% confidence)."},
		{"everything fits", []float64{60, 70, 61, 69, 62, 68, 63, 67}, "Cannot tell: -4 to +10 percentage points by the trend of these flights (93% confidence, +10 cut to what was observed); improving, flat and declining all fit. Flights like these would have shown a change of about 15 percentage points."},
	} {
		got := oneLine(verdictText(t, percentBook(test.percents...)))
		assert.Contains(t, got, fmt.Sprintf("%d contest flights with a counted result Mean ", len(test.percents)), test.name)
		assert.Regexp(t, `[\ds]\. `+regexp.QuoteMeta(test.want)+` Level `, got, test.name)
		assert.NotContains(t, got, "no change")
		n := len(test.percents)
		assert.Equal(t, n == 5, strings.Contains(got, "with 5 flights only a near-perfect run would show"), test.name)
		// Of four flights the scores are all there is: no slope, no test.
		figures := oneLine(trendText(t, percentBook(test.percents...)))
		assert.Equal(t, n >= 5, strings.Contains(figures, fmt.Sprintf("test on flights %d flights, S ", n)), test.name)
		assert.Equal(t, n >= 5, strings.Contains(figures, "percentage points per 30 days"), test.name)
	}
}

// The season before stands beside the mean, where of one category alone; the page
// has its tests, contests and level's making where all is asked for.
func TestSeasonBesideInWords(t *testing.T) {
	before := percentFlights("2025-02-01", "known-26", 60, 62)
	for book, want := range map[string]string{
		percentBook(70, 71, 69):   "Mean 70.00% over 3 contest flights; 2025: 61.00% (sequences, panels may vary).",
		percentBook(61, 61.2, 61): "Mean 61.07% over 3 contest flights; 2025: 61.00% (sequences, panels may vary).",
	} {
		l := faultBook(t, book+before)
		d := answers.SeasonBeside(l, season.Selection{Pilot: l.Pilots[0], Season: 2026}, 2025)
		assert.Contains(t, oneLine(textOf(t, Season(d, false))), want)
	}
	other := strings.ReplaceAll(before, "known-26", "known-25") + "sequence known-25\n  category sportsman\n  1 K 10\n"
	l := faultBook(t, percentBook(70, 71, 69, 72, 73)+other)
	d := answers.SeasonBeside(l, season.Selection{Pilot: l.Pilots[0], Season: 2026}, 2025)
	brief, all := oneLine(textOf(t, Season(d, false))), oneLine(textOf(t, Season(d, true)))
	assert.Contains(t, brief, "; 2025: 61.00% at sportsman, which cannot be compared.")
	for _, method := range []string{"test on flights", "Drift by", "percentage points per 30 days", "noise"} {
		assert.NotContains(t, brief, method)
	}
	assert.Contains(t, all, "test on flights")
	assert.Contains(t, oneLine(all), "S: pairs of flights that can be compared, those that rose minus those that fell; p: ")
	assert.NotContains(t, all, "not shown at this width: category")
	assert.NotContains(t, all, "--all")
	assert.Contains(t, brief, "Where practice pays: boxbook plan ines Other numbers: boxbook season ines --all")
}

// Each category has a line of its own, and the move between them its own
// interval; across a winter that is said.
func TestTrendSectionOfTwoCategories(t *testing.T) {
	book := percentBook(70, 71, 69) + "sequence advanced-26\n  category advanced\n  1 K 10\n" + percentFlights("2026-09-05", "advanced-26", 60, 62)
	got := seasonText(t, book)
	assert.Contains(t, got, "intermediate: 3 flights that can be compared: no trend")
	assert.Contains(t, got, "advanced: 2 flights that can be compared: no trend")
	// [derived]: means 70 and 61; ten ways of dealing five contests out.
	assert.Contains(t, oneLine(got), "From intermediate to advanced: -9 percentage points between contest means (-11 to -7 at 80% confidence; 3 contests before, 2 after).")
	assert.Contains(t, oneLine(trendText(t, percentBook(70, 71, 69)+"sequence a\n  category advanced\n  1 K 10\n"+percentFlights("2026-09-05", "a", 60))),
		"From intermediate to advanced: too few contests to tell what the move cost (3 before, 1 after; at least two of each).")

	winter := percentBook(70, 71, 69, 70) + percentFlights("2026-11-15", "known-26", 75)
	assert.Contains(t, oneLine(verdictText(t, winter)), "the trend is drawn across a gap of 245 days without a flight that can be compared")
}

// Where several categories were flown the figures say whose they are.
func TestTrendFiguresOfTwoCategories(t *testing.T) {
	book := percentBook(70, 71, 69, 72, 71) + "sequence advanced-26\n  category advanced\n  1 K 10\n" + percentFlights("2026-09-05", "advanced-26", 60, 62)
	got := oneLine(trendText(t, book))
	assert.Contains(t, got, "category intermediate percentage points per 30 days")
	assert.NotContains(t, got, "category advanced", "two flights have no figures")
	assert.Contains(t, oneLine(verdictText(t, book)), "- intermediate: with 5 flights only a near-perfect run would show")
}

// In JSON `trend` is of the category flown last, though another was flown for
// the first time later.
func TestTrendOfTheCategoryFlownLast(t *testing.T) {
	book := percentBook(70, 71, 69) + "sequence advanced-26\n  category advanced\n  1 K 10\n" +
		percentFlights("2026-06-01", "advanced-26", 60, 62) + percentFlights("2026-09-05", "known-26", 72)
	l := faultBook(t, book)
	d := Season(answers.SeasonOf(l, season.Selection{Pilot: l.Pilots[0]}), true).Data.(answers.Season)
	require.Len(t, d.Trends, 2)
	assert.Equal(t, 4, d.Trend.N)
	assert.Equal(t, d.Trends[0].Trend, *d.Trend)
	assert.False(t, d.Trend.Tau.Known(), "of four flights")

	void := percentFlights("2026-10-05", "advanced-26", 50) + "  void \"cloud\"\n"
	l = faultBook(t, book+void)
	assert.Equal(t, 4, Season(answers.SeasonOf(l, season.Selection{Pilot: l.Pilots[0]}), true).Data.(answers.Season).Trend.N)
}

// A zeroed flight stays in, and the change without it is shown beside.
func TestTrendWithoutZeroedFlights(t *testing.T) {
	book := "pilot ines\nsequence s\n  category sportsman\n  1 K 10\n  2 K 10\n"
	for i, marks := range []string{"6 7", "6.5 7", "HZ 7", "7 7.5", "7.5 7.5"} {
		first, second, _ := strings.Cut(marks, " ")
		book += fmt.Sprintf("flight 2026-0%d-01 ines known\n  sequence s\n  panel A\n  1 %s\n  2 %s\n", i+3, first, second)
	}
	assert.Regexp(t, `without zeroed flights [-+0-9.]+ percentage points over the season`, oneLine(trendText(t, book)))
	assert.NotContains(t, trendText(t, strings.Replace(book, "HZ", "6", 1)), "without zeroed flights")
}
