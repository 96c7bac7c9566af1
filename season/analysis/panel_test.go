package analysis_test

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
	"boxbook/season/stats"
)

// panelHead is a pilot with sequences of so many figures of K 10, s1 to s12.
func panelHead() string {
	var b strings.Builder
	b.WriteString("pilot ines\npilot yuki\n")
	for n := 1; n <= 12; n++ {
		fmt.Fprintf(&b, "sequence s%d\n  category sportsman\n", n)
		for i := 1; i <= n; i++ {
			fmt.Fprintf(&b, "  %d K 10\n", i)
		}
	}
	return b.String()
}

// sheetOf is a flight with a row of marks a figure: "7 7.5 HZ".
func sheetOf(head, panel string, rows ...string) string {
	return fmt.Sprintf("flight %s\n  sequence s%d\n  panel %s\n%s", head, len(rows), panel, markRows(rows))
}

func markRows(rows []string) string {
	var b strings.Builder
	for i, row := range rows {
		fmt.Fprintf(&b, "  %d %s\n", i+1, row)
	}
	return b.String()
}

// twoWay is the reference table of marks: rows of figures, gaps as marks that
// are no grades.
func twoWay(t testing.TB) (rows []string, grades [][]float64) {
	t.Helper()
	raw, err := os.ReadFile("../../testdata/reference/two_way.json")
	require.NoError(t, err)
	var table struct {
		Rows [][]*float64 `json:"rows"`
	}
	require.NoError(t, json.Unmarshal(raw, &table))
	gaps := []string{"AV", "HZ", "-"}
	for _, row := range table.Rows {
		var marks []string
		var values []float64
		for _, v := range row {
			if v == nil {
				marks, values, gaps = append(marks, gaps[0]), append(values, math.NaN()), gaps[1:]
				continue
			}
			marks, values = append(marks, fmt.Sprint(*v)), append(values, *v)
		}
		rows, grades = append(rows, strings.Join(marks, " ")), append(grades, values)
	}
	return rows, grades
}

// alternating fits mean, figures and judges the slow way, by alternating means
// over the cells that are there (NaN is a gap), and gives sigma.
func alternating(grades [][]float64) (mu float64, figures, judges []float64, sigma float64) {
	figures, judges = make([]float64, len(grades)), make([]float64, len(grades[0]))
	n := 0
	for range 10_000 {
		for i, row := range grades {
			figures[i] = meanOver(len(row), func(j int) float64 { return row[j] - judges[j] })
		}
		for j := range judges {
			judges[j] = meanOver(len(grades), func(i int) float64 { return grades[i][j] - figures[i] })
		}
	}
	centre := func(x []float64) float64 {
		m := meanOver(len(x), func(i int) float64 { return x[i] })
		for i := range x {
			x[i] -= m
		}
		return m
	}
	rss := 0.0
	for i, row := range grades {
		for j, y := range row {
			if !math.IsNaN(y) {
				rss += math.Pow(y-figures[i]-judges[j], 2)
				n++
			}
		}
	}
	mu = centre(figures) + centre(judges)
	return mu, figures, judges, math.Sqrt(rss / float64(n-len(figures)-len(judges)+1))
}

func meanOver(n int, value func(int) float64) float64 {
	sum, count := 0.0, 0
	for i := range n {
		if v := value(i); !math.IsNaN(v) {
			sum += v
			count++
		}
	}
	return sum / float64(count)
}

func panelCheck(t testing.TB, book string) analysis.PanelCheck {
	t.Helper()
	check, ok := analysis.CheckPanel(testkit.BookOf(t, book).Flights[0])
	require.True(t, ok)
	return check
}

func leniencies(judges []analysis.JudgeCheck) []float64 {
	var list []float64
	for _, j := range judges {
		list = append(list, j.Leniency)
	}
	return list
}

// The two-way table of 6 figures and 5 judges with three gaps and a wild 4.0.
// [derived: r, lm; r, rstudent]: the effects, sigma on 17 degrees of
// freedom, the deleted residual of the 4.0 and its Bonferroni p. The slow fit
// that the panel check is held against is held against R first.
func TestPanelTwoWay(t *testing.T) {
	rows, grades := twoWay(t)
	mu, figures, judges, sigma := alternating(grades)
	assert.InDelta(t, 6.9674242, mu, 1e-7)
	assert.InDeltaSlice(t, []float64{0.28257576, -0.24832536, 0.19924242, -0.48516746, 0.25167464}, judges, 1e-8)
	assert.InDeltaSlice(t, []float64{0.33257576, -0.58871611, 0.93257576, -0.86742424, -1.4045056, 1.5954944}, figures, 1e-7)
	assert.InDelta(t, 0.70537238, sigma, 1e-8)

	check := panelCheck(t, panelHead()+sheetOf("2026-04-18 ines known", "A B C D E", rows...))
	require.Len(t, check.Flags, 1, "the next largest deleted residual is 1.3613722: no flag")
	flag := check.Flags[0]
	assert.Equal(t, 4, flag.Figure)
	assert.Equal(t, "C", flag.Judge)
	assert.Equal(t, "4.0", flag.Mark.String())
	assert.InDelta(t, -16.4142804, flag.T, 1e-6)
	assert.InDelta(t, 5.303306e-10, flag.P, 1e-15)

	// Without the flagged grade: [derived], by the slow fit. An unflagged wild
	// grade would drag judge C from +0.5 (R medpolish) to +0.20.
	assert.True(t, check.Refit)
	grades[3][2] = math.NaN()
	mu, figures, judges, sigma = alternating(grades)
	assert.InDeltaSlice(t, judges, leniencies(check.Judges), 1e-9)
	assert.InDelta(t, sigma, check.Scatter, 1e-9)
	assert.InDelta(t, mu+figures[3]+judges[2], flag.Fitted, 1e-9, "what the rest of the panel says")
	assert.Greater(t, check.Judges[2].Leniency, 0.4)
}

// panelNoise is the formula: percent, K by line.
func panelNoise(k []float64, judges int, scatter, between float64) float64 {
	sum, squares := 0.0, 0.0
	for _, v := range k {
		sum, squares = sum+v, squares+v*v
	}
	j := float64(judges)
	return 10 * math.Sqrt(scatter*scatter*squares/(j*sum*sum)+between*between/j)
}

// [derived]: 12 figures of equal K, 5 judges, scatter 0.7, levels 0.4 give 2.0
// points, 0.9 of them from scatter alone; 10 figures and 3 judges 2.6; 12
// figures and 10 judges 1.4.
func TestPanelNoise(t *testing.T) {
	for _, test := range []struct {
		figures, judges  int
		scatter, between float64
		want             string
	}{
		{12, 5, 0.7, 0.4, "2.0"},
		{12, 5, 0.7, 0, "0.9"},
		{10, 3, 0.7, 0.4, "2.6"},
		{12, 10, 0.7, 0.4, "1.4"},
	} {
		k := slices.Repeat([]float64{10}, test.figures)
		assert.Equal(t, test.want, fmt.Sprintf("%.1f", panelNoise(k, test.judges, test.scatter, test.between)))
		noise, ok := stats.WeightedMeanNoise(k, test.judges, test.scatter, test.between)
		assert.True(t, ok)
		assert.InDelta(t, panelNoise(k, test.judges, test.scatter, test.between), 10*noise, 1e-12)
	}

	rows, _ := twoWay(t)
	book := "pilot ines\nsequence s6\n  category sportsman\n  1 K 10\n  2 K 23\n  3 K 14\n  4 K 9\n  5 K 31\n  6 K 5\n  positioning K 20\n  harmony K 7\n" +
		sheetOf("2026-04-18 ines known", "A B C D E", rows...) + "  positioning 8 7.5 8 8 8.5\n  harmony 6 6 6 6.5 6\n"
	check := panelCheck(t, book)
	assert.InDelta(t, panelNoise([]float64{10, 23, 14, 9, 31, 5, 20, 7}, 5, check.Scatter, check.Between), check.Noise, 1e-12,
		"the weighted lines weigh too")
	assert.Positive(t, check.Between)
}

// One judge, or fewer than four figures with a grade, and nothing is said; two
// judges, and nobody can say which one is off.
func TestPanelTooSmall(t *testing.T) {
	speaks := func(panel string, rows ...string) bool {
		_, ok := analysis.CheckPanel(testkit.BookOf(t, panelHead()+sheetOf("2026-04-18 ines known", panel, rows...)).Flights[0])
		return ok
	}
	assert.False(t, speaks("A", "7", "6", "8", "7", "6.5", "8"), "one judge")
	assert.False(t, speaks("A B C", "7 7 7.5", "6 6.5 6", "8 8 8"), "three figures")
	assert.True(t, speaks("A B C", "7 7 7.5", "6 6.5 6", "8 8 8", "7 6.5 7"), "four figures")
	assert.False(t, speaks("A B C", "7 7 7.5", "6 6.5 6", "8 8 8", "HZ AV -"), "three figures with a grade")
	assert.False(t, speaks("A B C", "7 7 7.5", "6 6.5 6", "8 8 8", "CHZ PZ PZ"), "a perception zero is no grade")

	for _, rows := range [][]string{
		{"7 7", "6 6", "8 8", "7 2", "6.5 6.5", "8 7.5"},
		{"7 7.5", "6 6.5", "8 0", "7 7", "6.5 7", "8 8.5", "7 7.5"},
	} {
		check := panelCheck(t, panelHead()+sheetOf("2026-04-18 ines known", "A B", rows...))
		assert.Empty(t, check.Flags, "two judges")
		assert.False(t, check.Refit)
		assert.InDelta(t, -check.Judges[0].Leniency, check.Judges[1].Leniency, 1e-9, "mirror images")
	}
}

// A row of zeros is not on the scale of the grades: hard zeros and perception
// zeros change nothing of what is said of the judges; an ordinary 0.0 does.
func TestPanelLeavesZerosOut(t *testing.T) {
	rows := []string{"7 6.5 7.5", "6 6 7", "8 7 8", "7 6 7", "6.5 6.5 7"}
	flight := func(more ...string) analysis.PanelCheck {
		return panelCheck(t, panelHead()+sheetOf("2026-04-18 ines known", "A B C", append(slices.Clone(rows), more...)...))
	}
	base := flight()
	for _, row := range []string{"HZ HZ HZ", "CHZ - AV", "PZ PZ PZ"} {
		check := flight(row)
		assert.InDeltaSlice(t, leniencies(base.Judges), leniencies(check.Judges), 1e-12, row)
		assert.InDelta(t, base.Scatter, check.Scatter, 1e-12, row)
	}
	assert.Greater(t, flight("0 7 7").Scatter, base.Scatter)
}

// With no scatter at all nothing is flagged and nothing divided by 0.
func TestPanelWithoutScatter(t *testing.T) {
	for name, rows := range map[string][]string{
		"all alike":       {"7 7 7", "6 6 6", "8 8 8", "7.5 7.5 7.5"},
		"all the same":    {"7 7 7", "7 7 7", "7 7 7", "7 7 7"},
		"one judge lower": {"7 7 6.5", "6 6 5.5", "8 8 7.5", "7.5 7.5 7"},
	} {
		check := panelCheck(t, panelHead()+sheetOf("2026-04-18 ines known", "A B C", rows...))
		assert.Empty(t, check.Flags, name)
		assert.Zero(t, check.Scatter, name)
		for _, j := range check.Judges {
			assert.Zero(t, j.SE, name)
			assert.False(t, math.IsNaN(j.Leniency+j.Scatter), name)
		}
		if name == "one judge lower" {
			assert.InDeltaSlice(t, []float64{1.0 / 6, 1.0 / 6, -1.0 / 3}, leniencies(check.Judges), 1e-12, "derived")
			assert.InDelta(t, math.Sqrt(1.0/12), check.Between, 1e-12, "derived: the variance of 0, 0 and -1/2")
		} else {
			assert.Zero(t, check.Noise, name)
		}
	}
	// A lone wild grade among grades without scatter is flagged, and finite.
	check := panelCheck(t, panelHead()+sheetOf("2026-04-18 ines known", "A B C", "7 7 7", "6 6 6", "8 8 3", "7.5 7.5 7.5", "7 7 7"))
	require.Len(t, check.Flags, 1)
	assert.InDelta(t, 8, check.Flags[0].Fitted, 1e-9)
	assert.False(t, math.IsInf(check.Flags[0].T, 0))
	assert.Zero(t, check.Scatter, "the rest has none")
}

// A grade a little below the others is no lone grade: it needs both a small p
// and two grades of distance.
func TestPanelFlagNeedsTwoGrades(t *testing.T) {
	rows := func(grade string) []string {
		return []string{"7 7 7 7", "6 6 6 6", "8 8 8 " + grade, "7.5 7.5 7.5 7.5", "7 7 7 7"}
	}
	assert.Empty(t, panelCheck(t, panelHead()+sheetOf("2026-04-18 ines known", "A B C D", rows("6.5")...)).Flags)
	assert.Len(t, panelCheck(t, panelHead()+sheetOf("2026-04-18 ines known", "A B C D", rows("6")...)).Flags, 1)
}

// Two wild grades that hide each other from the deleted residual are seen by
// the second look, which gives no t and no p.
func TestPanelSecondLook(t *testing.T) {
	check := panelCheck(t, panelHead()+sheetOf("2026-04-18 ines known", "A B C D E",
		"7 7 7 7.5 7", "6 6 6.5 6 6", "8 7.5 8 8 8", "7 7 7.5 3.5 3.5", "7.5 7.5 7 7.5 7"))
	require.Len(t, check.Flags, 2)
	for i, flag := range check.Flags {
		assert.Equal(t, 4, flag.Figure)
		assert.Equal(t, []string{"D", "E"}[i], flag.Judge)
		assert.InDelta(t, 7, flag.Fitted, 0.5)
		assert.Zero(t, flag.T)
		assert.Zero(t, flag.P)
	}
	assert.True(t, check.Refit)
	assert.Less(t, check.Scatter, 0.5)
}

// A grade exactly so far off as asks for a flag has one in whatever order the judges sit.
func TestPanelFlagsAtTheGapInAnyOrder(t *testing.T) {
	marks := [][]string{{"0", "5.5", "0"}, {"4", "7.5", "4"}, {"0", "5.5", "0"}, {"4", "HZ", "4"}}
	for _, order := range [][]int{{0, 1, 2}, {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}} {
		rows := make([]string, len(marks))
		for i, row := range marks {
			rows[i] = row[order[0]] + " " + row[order[1]] + " " + row[order[2]]
		}
		check := panelCheck(t, panelHead()+sheetOf("2026-04-18 ines known", "AK BM CT", rows...))
		require.Len(t, check.Flags, 1, order)
		assert.Equal(t, 2, check.Flags[0].Figure)
	}
}

// Whatever the marks: every number is finite, leniencies add up to 0, and the
// order of the judges means nothing.
func TestPanelProperties(t *testing.T) {
	head := panelHead()
	rapid.Check(t, func(r *rapid.T) {
		judges, figures := rapid.IntRange(1, 5).Draw(r, "judges"), rapid.IntRange(1, 7).Draw(r, "figures")
		marks := make([][]string, figures)
		for i := range marks {
			marks[i] = rapid.SliceOfN(rapid.SampledFrom([]string{"0", "4", "5.5", "6", "6.5", "7", "7.5", "10", "HZ", "AV", "-", "PZ", "CHZ"}), judges, judges).Draw(r, "row")
		}
		order := rapid.Permutation([]int{0, 1, 2, 3, 4}[:judges]).Draw(r, "order")
		flight := func(order []int) *season.Flight {
			rows := make([]string, figures)
			for i := range marks {
				for _, j := range order {
					rows[i] += " " + marks[i][j]
				}
			}
			panel := ""
			for _, j := range order {
				panel += " " + []string{"AK", "BM", "CT", "DW", "EV"}[j]
			}
			return testkit.BookOf(t, head+sheetOf("2026-04-18 ines known", panel, rows...)).Flights[0]
		}
		check, ok := analysis.CheckPanel(flight([]int{0, 1, 2, 3, 4}[:judges]))
		mixed, ok2 := analysis.CheckPanel(flight(order))
		require.Equal(r, ok, ok2)
		if !ok {
			return
		}
		require.Len(r, mixed.Flags, len(check.Flags))
		require.InDelta(r, check.Noise, mixed.Noise, 1e-9)
		require.Len(r, mixed.Judges, len(check.Judges))
		leniency := map[string]float64{}
		for _, judge := range mixed.Judges {
			leniency[judge.Name] = judge.Leniency
		}
		sum := 0.0
		for _, judge := range check.Judges {
			require.Contains(r, leniency, judge.Name)
			require.InDelta(r, judge.Leniency, leniency[judge.Name], 1e-9)
			sum += judge.Leniency
			for _, v := range []float64{judge.Leniency, judge.SE, judge.Scatter, check.Scatter, check.Noise} {
				require.False(r, math.IsNaN(v) || math.IsInf(v, 0))
			}
		}
		require.InDelta(r, 0, sum, 1e-9)
	})
}
