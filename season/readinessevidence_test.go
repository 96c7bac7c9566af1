package season_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"boxbook/season"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// evidenceOn is a gate of ines by the house policy on a day.
func evidenceOn(t testing.TB, book, date, name string) season.Gate {
	t.Helper()
	l := bookOf(t, book)
	l.AsOf = day(t, date)
	policy := l.PolicyNamed(season.HousePolicy)
	require.NotNil(t, policy)
	for _, g := range l.ReadinessOf(l.PilotNamed("ines"), policy, nil, "").Gates {
		if g.Name == name {
			return g
		}
	}
	require.Fail(t, "no gate "+name)
	return season.Gate{}
}

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
	assert.Contains(t, evidence("7", 7), "; no zero in 42 figures: at most 7 % of figures")
	assert.Contains(t, evidence("7", 10), "; no zero in 60 figures: at most 5 % of figures")
	// The first of six flights is not among the gate's four, and was seen.
	seen := evidence("HZ", 7)
	assert.Contains(t, seen, "0 figures with a zero in the last 4 flights")
	assert.NotContains(t, seen, "no zero in")
}

// rising are eight percents with a firm trend: 26 pairs of 28 rise.
var rising = []float64{60, 62, 61, 64, 66, 65, 68, 70}

// The line of least squares through them is 59.75 + 0.0969388 a day with a
// scatter of 1.0522086 on six degrees of freedom; 20 days after the last it
// stands at 71.18878, t(.90, 6) = 1.439756 and the distance from the middle make
// 69.21161 to 73.16594; 49 days after it at 74.0, 71.70667 to 76.29333. Derived
// (closed form of one regressor).
func TestThresholdTrend(t *testing.T) {
	falling := slices.Clone(rising)
	slices.Reverse(falling)
	for _, c := range []struct {
		percents []float64
		on, want string
	}{
		{rising, "2026-11-25", "; improving: a line through them stands at 71.2 % on 2026-11-25 (80 % range 69.2 to 73.2)"},
		{falling, "2026-11-25", "; declining: a line through them stands at 57.8 % on 2026-11-25 (80 % range 55.8 to 59.8)"},
		// Half the span of 98 days is as far as the line is followed.
		{rising, "2026-12-24", "; improving: a line through them stands at 74.0 % on 2026-12-24 (80 % range 71.7 to 76.3)"},
		{rising, "2026-12-25", "; improving, but 2026-12-25 is too long after the last flight to foresee"},
		{[]float64{93, 94, 95, 96, 97, 98, 99, 99.5}, "2026-12-20", " stands at 100.0 % on 2026-12-20 (80 % range 100.0 to 100.0)"},
	} {
		got := evidenceOn(t, totals(c.percents...), c.on, "threshold").Evidence
		assert.True(t, strings.HasSuffix(got, c.want), got)
	}
	for _, none := range [][]float64{
		{60, 70, 61, 64, 66, 65, 68, 62},         // no trend
		{60, 62, 64, 66},                         // too few
		{64, 64.1, 64.2, 64.3, 64.4, 64.5, 64.6}, // too small to matter
		{60, 61, 65, 62, 66, 63},                 // may be improving
	} {
		got := evidenceOn(t, totals(none...), "2026-11-25", "threshold").Evidence
		assert.NotContains(t, got, "improving", "%v", none)
		assert.NotContains(t, got, "a line", "%v", none)
	}
}

// The trend is told, and moves nothing: in any order the same percents leave the
// gate as it is.
func TestThresholdTrendMovesNothing(t *testing.T) {
	mixed := []float64{65, 60, 68, 62, 70, 61, 66, 64}
	a := evidenceOn(t, totals(rising...), "2026-11-25", "threshold")
	b := evidenceOn(t, totals(mixed...), "2026-11-25", "threshold")
	require.Contains(t, a.Evidence, "a line")
	require.NotContains(t, b.Evidence, "a line")
	assert.Equal(t, b.State, a.State)
	assert.Equal(t, b.Needs, a.Needs)
	assert.True(t, strings.HasPrefix(a.Evidence, b.Evidence))
}
