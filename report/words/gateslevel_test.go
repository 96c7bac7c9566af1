package words_test

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/analysis/code"
)

// totals are contest flights of one category and programme a fortnight apart
// from 2026-07-30, known by their official percents.
func totals(percents ...float64) string {
	var b strings.Builder
	b.WriteString("pilot ines\n")
	first, _ := season.ParseDate("2026-07-30")
	for i, p := range percents {
		fmt.Fprintf(&b, "flight %s ines known\n  category sportsman\n  official %g of 100\n", first+season.Date(14*i), p)
	}
	return b.String()
}

// The ends of the count's interval are the p with (p - k/n)^2 = z^2 p(1-p)/n, z
// the 95 % point of the normal: derived.
func TestThresholdCount(t *testing.T) {
	for _, c := range []struct {
		percents []float64
		want     string
	}{
		{[]float64{60, 61, 62}, "3 of 3 results reached 60 % (between 53 % and 99 %);"},
		{[]float64{50, 51, 52}, "0 of 3 results reached 60 % (between 1 % and 47 %);"},
		{[]float64{62, 51}, "1 of 2 results reached 60 % (between 12 % and 88 %);"},
		{[]float64{62, 51, 70, 55, 66, 59, 61, 64}, "5 of 8 results reached 60 % (between 35 % and 84 %);"},
		{nil, "0 of 0 results reached 60 %;"},
	} {
		assert.True(t, strings.HasPrefix(evidenceOn(t, totals(c.percents...), "2026-11-25", "threshold").Evidence, c.want), c.want)
	}
}

// Derived: 1 - .05^(1/n).
func TestZerosNeverSeen(t *testing.T) {
	book := func(first string, figures int) string {
		b := "pilot ines\nsequence s\n  category sportsman\n"
		for i := range figures {
			b += fmt.Sprintf("  %d K 10\n", i+1)
		}
		for i := range 6 {
			row := "7"
			if i == 0 {
				row = first
			}
			b += fmt.Sprintf("flight 2026-10-%02d ines known\n  sequence s\n  panel A\n", i+1)
			b += markRows(append([]string{row}, slices.Repeat([]string{"7"}, figures-1)...))
		}
		return b
	}
	evidence := func(first string, figures int) string {
		return evidenceOn(t, book(first, figures), "2026-11-25", "zeros").Evidence
	}
	assert.Contains(t, evidence("7", 7), "; none that counted in 42 figures: at most 7 % of figures")
	assert.Contains(t, evidence("7", 10), "; none that counted in 60 figures: at most 5 % of figures")
	// The first of six flights is not among the gate's four, and was seen.
	seen := evidence("HZ", 7)
	assert.Contains(t, seen, "0 figures with a zero in the last 4 flights")
	assert.NotContains(t, seen, "none that counted in")
}

// rising are eight percents with a firm trend: 26 pairs of 28 rise.
var rising = []float64{60, 62, 61, 64, 66, 65, 68, 70}

// The line of least squares through them is 59.75 + 0.0969388 a day with a
// scatter of 1.0522086 on six degrees of freedom; 20 days after the last it
// stands at 71.18878, t(.90, 6) = 1.439756 and the distance from the middle make
// 69.21161 to 73.16594; 49 days after it at 74.0, 71.70667 to 76.29333. Turned
// round it stands at 57.81122, and 60 lies 1.5937 standard deviations of 1.37329
// above that: 8.1 %. Derived (closed form of one regressor; Student's t).
func TestThresholdTrend(t *testing.T) {
	falling := slices.Clone(rising)
	slices.Reverse(falling)
	const rise, fall = " over the whole window, from before the rise, and the gate goes by that", " over the whole window, from before the fall, and the gate goes by that"
	for _, c := range []struct {
		percents       []float64
		on, want, ends string
	}{
		{rising, "2026-11-25", "; improving: by the line through them the next one, on 2026-11-25, comes to 71.2 % (80 % range 69.2 to 73.2) and reaches 60 % with about 99 %; ", rise},
		{falling, "2026-11-25", "; declining: by the line through them the next one, on 2026-11-25, comes to 57.8 % (80 % range 55.8 to 59.8) and reaches 60 % with about 8 %; ", fall},
		// Half the span of 98 days is as far as the line is followed.
		{rising, "2026-12-24", " on 2026-12-24, comes to 74.0 % (80 % range 71.7 to 76.3) and", rise},
		{rising, "2026-12-25", "; improving: 2026-12-25 is too long after the last flight to foresee the next one; ", rise},
		{[]float64{93, 94, 95, 96, 97, 98, 99, 99.5}, "2026-12-20", " comes to 100.0 % (80 % range 100.0 to 100.0) and reaches 60 % with about 99 %; ", rise},
	} {
		got := evidenceOn(t, totals(c.percents...), c.on, "threshold").Evidence
		assert.Contains(t, got, c.want)
		assert.True(t, strings.HasSuffix(got, c.ends), got)
		assert.NotContains(t, got, "the next one does with", "one sentence on the next flight, from the line")
		assert.NotContains(t, got, "a gap of")
	}
	for _, none := range [][]float64{
		{60, 70, 61, 64, 66, 65, 68, 62},         // no trend
		{60, 62, 64, 66},                         // too few
		{64, 64.1, 64.2, 64.3, 64.4, 64.5, 64.6}, // too small to matter
		{60, 61, 65, 62, 66, 63},                 // may be improving
	} {
		got := evidenceOn(t, totals(none...), "2026-11-25", "threshold").Evidence
		assert.NotContains(t, got, "improving", "%v", none)
		assert.NotContains(t, got, "the line", "%v", none)
		assert.Contains(t, got, "; the next one does with about ", "%v", none)
	}
}

// A line across a winter says so.
func TestThresholdTrendAcrossAGap(t *testing.T) {
	book := func(winter int) string {
		b, date := "pilot ines\n", day(t, "2026-10-01")
		for i := range slices.Backward(rising) {
			b += fmt.Sprintf("flight %s ines known\n  category sportsman\n  official %g of 100\n", date, rising[i])
			date -= 14
			if i == 4 {
				date -= season.Date(winter - 14)
			}
		}
		return b
	}
	assert.Contains(t, evidenceOn(t, book(151), "2026-10-10", "threshold").Evidence, "; the line is drawn across a gap of 151 days without a contest flight at sportsman; the long-run")
	assert.NotContains(t, evidenceOn(t, book(150), "2026-10-10", "threshold").Evidence, "a gap of")
}

// The trend is judged within sequences: where the line through all flights runs
// against it, the next one is not foreseen by that line.
func TestThresholdTrendAgainstTheLine(t *testing.T) {
	book := "pilot ines\nsequence easy\n  category sportsman\n  1 K 10\nsequence hard\n  category sportsman\n  1 K 10\n"
	date := day(t, "2026-06-01")
	for i, hard := range []bool{false, false, false, true, false, true, false, true, false, true, false, true, true, true} {
		sequence, p := "easy", 80+i
		if hard {
			sequence, p = "hard", 60+i
		}
		book += fmt.Sprintf("flight %s ines known\n  sequence %s\n  official %d of 100\n", date+season.Date(10*i), sequence, p)
	}
	got := evidenceOn(t, book, "2026-10-10", "threshold").Evidence
	require.Contains(t, got, "; improving: ")
	assert.Contains(t, got, "the line through all of them goes the other way, and the next one is not foreseen")
}

// The trend is told, and moves nothing: in any order the same percents leave the
// state and the need as they are. A gate that is met has a decline against it.
func TestThresholdTrendMovesNothing(t *testing.T) {
	mixed := []float64{65, 60, 68, 62, 70, 61, 66, 64}
	falling := slices.Clone(rising)
	slices.Reverse(falling)
	a := evidenceOn(t, totals(rising...), "2026-11-25", "threshold")
	b := evidenceOn(t, totals(mixed...), "2026-11-25", "threshold")
	require.Contains(t, a.Evidence, "the line")
	require.NotContains(t, b.Evidence, "the line")
	assert.Equal(t, b.State, a.State)
	assert.Equal(t, b.Needs, a.Needs)
	assert.Equal(t, code.Met, a.State)

	against := func(percents []float64) string { return strings.Join(ready(t, totals(percents...), "").Against, "\n") }
	assert.Contains(t, against(falling), "level, met: declining: by the line through them")
	assert.NotContains(t, against(rising), "level, met")
	assert.NotContains(t, against(mixed), "level, met")
}

// The ends of the share are never rounded to the other side of the one asked.
func TestThresholdBesideItsShare(t *testing.T) {
	percents := []float64{59.6, 61, 61, 61, 62.4}
	_, low, high, _, ok := analysis.ThresholdState([][]float64{{59.6}, {61}, {61}, {61}, {62.4}}, 60, 0.5)
	require.True(t, ok)
	ends := regexp.MustCompile(`lies between ([\d.]+) % and ([\d.]+) %`)
	decimals := 0
	for want := 0.50; want < 0.98; want += 0.002 {
		g := gateOf(ready(t, totals(percents...)+shortPolicy(fmt.Sprintf("share %.3f", want)), ""), "threshold")
		found := ends.FindStringSubmatch(g.Evidence)
		require.Len(t, found, 3, g.Evidence)
		for i, end := range []float64{low, high} {
			shown, err := strconv.ParseFloat(found[i+1], 64)
			require.NoError(t, err)
			assert.Equal(t, end < want-1e-9, shown < 100*want-1e-7, "%g: %s", want, g.Evidence)
			if strings.Contains(found[i+1], ".") {
				decimals++
			}
		}
	}
	assert.Positive(t, decimals)
	assert.Less(t, decimals, 10, "decimals only where they are needed")
}
