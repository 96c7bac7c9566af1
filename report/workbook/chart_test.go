package workbook

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// The noise is drawn as bars, contests are named, and a trend that chance may have
// drawn is not drawn.
func TestNoiseIsDrawn(t *testing.T) {
	l := load(t, demoLedger)
	chart := part(t, written(t, l, of(t, l, "ines"), asked{}), "xl/charts/chart1.xml")
	require.Equal(t, 3+5, strings.Count(chart, "<ser>"), "flights, the ends of the noise, a name for each contest")
	require.Equal(t, 5, strings.Count(chart, `<showSerName val="1">`), "the names of the contests")
	require.NotContains(t, chart, `<a:prstDash val="dash">`)
	require.Contains(t, chart, `<errBars><errDir val="y">`)
	require.Contains(t, chart, `<min val="50">`, "percents are seen apart")
}

// The axis of percent begins beneath the lowest of what is drawn, with room for a figure
// that is zeroed, and never below zero.
func TestPercentsHaveRoomBelow(t *testing.T) {
	drawn := func(values ...[]float64) (series []xlsx.ScatterSeries) {
		for _, y := range values {
			series = append(series, xlsx.ScatterSeries{Values: xlsx.SeriesValues{Y: y}})
		}
		return series
	}
	require.InDelta(t, 50, percentsFrom(drawn([]float64{71.2, 62.8}, []float64{math.NaN(), 61.1})), 0)
	require.InDelta(t, 55, percentsFrom(drawn([]float64{65, 70})), 0)
	require.InDelta(t, 0, percentsFrom(drawn([]float64{4, 70})), 0)
	require.InDelta(t, 90, percentsFrom(drawn([]float64{math.NaN()})), 0)
}

// A trend that is claimed is a line, between the most and the least that it may be,
// dashed; their ends stand on the sheet and are the answer's.
func TestATrendThatIsClaimedIsDrawnWithItsBand(t *testing.T) {
	text := "pilot ines\n  name \"Ines\"\nsequence s\n  category sportsman\n  programme known\n  1 7.4.1.1:10\n  2 5.2.1.1:17\n"
	for i, grade := range []float64{5, 5.5, 5.5, 6, 6.5, 6.5, 7, 7.5, 7.5, 8} {
		text += fmt.Sprintf("contest c%d 2026-%02d-10\n  name \"Contest\"\n  ladder us\n  rules panel-mean\n  panel AA BB\nflight 2026-%02d-10 ines known\n"+
			"  contest c%d\n  sequence s\n  1 %.1f %.1f\n  2 %.1f %.1f\n", i, i+1, i+1, i, grade, grade+.5, grade, grade)
	}
	l := parse(t, text)
	s := of(t, l, "ines")
	chart := part(t, written(t, l, s, asked{}), "xl/charts/chart1.xml")
	require.Equal(t, 2, strings.Count(chart, `<a:prstDash val="dash">`), "the two edges")
	book := workbookOf(t, l, "ines")
	trend := answers.SeasonOf(l, s).Trends[0]
	require.Equal(t, answers.Improving, trend.Word)
	most, least := [2]float64{}, [2]float64{}
	most[0], most[1] = trend.Line.Turned(trend.High.Float64())
	least[0], least[1] = trend.Line.Turned(trend.Low.Float64())
	require.InDelta(t, trend.High.Float64(), most[1]-most[0], 1e-9)
	for name, ends := range map[string][2]float64{words.ColumnTrendAtMost: most, words.ColumnTrendAtLeast: least} {
		column := map[string]int{words.ColumnTrendAtMost: bandColumn, words.ColumnTrendAtLeast: bandColumn + 2}[name]
		head := headOf(t, book, column, name)
		for i, want := range ends {
			got, err := strconv.ParseFloat(book.stored(words.SeasonSheet, xlsx.At(column+i, head+1)), 64)
			require.NoError(t, err)
			require.InDelta(t, want, got, 1e-9, name)
			require.Contains(t, chart, xlsx.Dollars(column, head+1, column+1, head+1), name)
		}
	}
}

// headOf is the row in which a heading stands in a column of the first sheet.
func headOf(t *testing.T, book opened, column int, heading string) int {
	t.Helper()
	for row := 1; row < 100; row++ {
		if book.stored(words.SeasonSheet, xlsx.At(column, row)) == heading {
			return row
		}
	}
	require.Fail(t, "no heading "+heading)
	return 0
}
