package workbook

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/workbook/xlsx"
	"boxbook/season"
)

// fewFlights is a ledger of so many flights, a month apart or all of one contest.
func fewFlights(t *testing.T, flights int, oneContest bool) *season.Ledger {
	var b strings.Builder
	b.WriteString("pilot ines\n  name \"Ines\"\nsequence known\n  category sportsman\n  1 5.2.1.1:17 9.1.1.1:6\n  2 7.4.1.1:10\n")
	b.WriteString("contest tarn 2026-04-01..2026-04-09\n  panel A\n")
	for i := range flights {
		if oneContest {
			fmt.Fprintf(&b, "flight 2026-04-%02d ines known\n  contest tarn\n", i+1)
		} else {
			fmt.Fprintf(&b, "flight 2026-%02d-18 ines known\n  panel A\n", i+3)
		}
		second := fmt.Sprint(5 + i*i%4)
		if i == 1 {
			second = "HZ"
		}
		fmt.Fprintf(&b, "  sequence known\n  1 %g\n  2 %s\n", 6+float64(i)/2, second)
	}
	path := filepath.Join(t.TempDir(), "few.boxbook")
	require.NoError(t, os.WriteFile(path, []byte(b.String()), 0o600))
	return load(t, path)
}

// inJSON names what a trend's column shows by the JSON's fields.
var inJSON = map[string]func(answers.Trend) report.Number{
	"line-first": func(d answers.Trend) report.Number { return d.Season },
	"line-last":  func(d answers.Trend) report.Number { return d.Season },
	"first":      func(d answers.Trend) report.Number { return d.Season },
	"last":       func(d answers.Trend) report.Number { return d.Season },
	"slope":      func(d answers.Trend) report.Number { return d.Slope30 },
	"change":     func(d answers.Trend) report.Number { return d.Season },
	"low":        func(d answers.Trend) report.Number { return d.Low },
	"high":       func(d answers.Trend) report.Number { return d.High },
	"sure":       func(d answers.Trend) report.Number { return d.Confidence },
	"without":    func(d answers.Trend) report.Number { return d.WithoutZeros },
	"p":          func(d answers.Trend) report.Number { return d.P },
	"tau":        func(d answers.Trend) report.Number { return d.Tau },
	"contests-p": func(d answers.Trend) report.Number { return d.Contests.P },
}

// counted are the columns of a trend that only count or name.
var countedKeys = []string{"name", "word", "n", "s", "contests-n", "contests-s", "family", "flights", "rest"}

// The workbook shows of a trend what the JSON has, and nothing that it leaves
// out, however few the flights are.
func TestNothingIsShownThatTheJSONLeavesOut(t *testing.T) {
	shown := 0
	for flights := 1; flights <= 6; flights++ {
		for _, oneContest := range []bool{false, true} {
			l := fewFlights(t, flights, oneContest)
			c := contentOf(l, of(t, l, "ines"))
			name := fmt.Sprintf("%d flights, one contest %v", flights, oneContest)
			d := c.book.Season
			for i, row := range c.trendRows() {
				for _, column := range slices.Concat(trendColumns(), testColumns()) {
					shown += sameAsJSON(t, name, column.Key, column.Value(row), d.Trends[i].Trend)
				}
				require.Equal(t, d.Trends[i].Season.Known(), row.Line != nil, name)
			}
			families := c.book.Families
			require.NotEmpty(t, families.Groups)
			for i, row := range c.familyRows() {
				for _, column := range familyTrend(answers.Families{}) {
					key := strings.TrimPrefix(column.Key, "change-")
					if key == "q" {
						require.Equal(t, families.Groups[i].Q.Known(), column.Value(row).Numeric, name)
						continue
					}
					shown += sameAsJSON(t, name, key, column.Value(row), families.Groups[i].Trend)
				}
			}
		}
	}
	require.Greater(t, shown, 10)
}

// sameAsJSON checks one cell, and counts it where it shows something.
func sameAsJSON(t *testing.T, name, key string, cell xlsx.Value, d answers.Trend) int {
	t.Helper()
	if slices.Contains(countedKeys, key) {
		return 0
	}
	field := inJSON[key]
	require.NotNil(t, field, key)
	require.Equal(t, field(d).Known(), cell.Numeric, "%s: %s", name, key)
	if !cell.Numeric {
		require.Equal(t, xlsx.Value{}, cell)
		return 0
	}
	return 1
}
