package analysis_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
)

// exampleBook is an invented ledger of six flights of two sequences and a third
// sequence not flown, families p q r s t standing for 7, 5, 1, 9.1 and 9.9, the last
// of which no flight has; three judges of one mind, the first flight on day 0.
func exampleBook(t testing.TB) *season.Ledger {
	t.Helper()
	var b strings.Builder
	b.WriteString("pilot ines\n")
	codes := strings.NewReplacer("p", "7.4.1.1:", "q", "5.2.1.1:", "r", "1.2.1.1:", "s", "9.1.2.4:", "t", "9.9.2.4:", "+", " ")
	for name, figures := range map[string]string{
		"a": "p14 p10+q6 q18 r12+s8 r15 s20 p9+r11 q8+s12",
		"b": "p16 q12+r4 r20 s10 s14+p6 q15 p8+s8 r9+q11",
		"c": "p12+q8 q16 r14+p6 s18 t15 t10+r10 s9+q9 p13",
	} {
		fmt.Fprintf(&b, "sequence %s\n  category sportsman\n", name)
		for i, figure := range strings.Fields(figures) {
			fmt.Fprintf(&b, "  %d %s\n", i+1, codes.Replace(figure))
		}
	}
	for contest, day := range []int{0, 35, 77, 112} {
		fmt.Fprintf(&b, "contest c%d %s\n  panel A B C\n", contest+1, season.Date(exampleDay+day))
	}
	for _, f := range []struct {
		day, contest    int
		programme, name string
		marks           string
	}{
		{0, 1, "known", "a", "6.5 7 8 6 6.5 5.5 7 6.5"},
		{0, 1, "free", "a", "7 7.5 7.5 6.5 5.5 6 6.5 7"},
		{35, 2, "known", "a", "6.5 7 8.5 6 HZ 6 7 6"},
		{77, 3, "known", "b", "8 7.5 6.5 6.5 7 8 7.5 7.5"},
		{77, 3, "free", "b", "8.5 8 6 7 6 8 7 8"},
		{112, 4, "known", "b", "8 8.5 7 6.5 7.5 8 8 7.5"},
	} {
		fmt.Fprintf(&b, "flight %s ines %s\n  contest c%d\n  sequence %s\n", season.Date(exampleDay+f.day), f.programme, f.contest, f.name)
		for i, mark := range strings.Fields(f.marks) {
			fmt.Fprintf(&b, "  %d %[2]s %[2]s %[2]s\n", i+1, mark)
		}
	}
	l := testkit.BookOf(t, b.String())
	l.AsOf = exampleDay + 133
	return l
}

const exampleDay = 20560

// The forecast of a sequence not flown and of one flown, and of figures of both.
// Computed by two independent programs, in Python by V^-1 and in R by the mixed
// model's equations, which agree in ten decimals [derived: two-programs, Python
// and R].
func TestForecastReference(t *testing.T) {
	l := exampleBook(t)
	for _, want := range []struct {
		sequence           string
		percent, low, high float64
		fourth, fifth      analysis.FigureForecast
		unseen             []string
	}{
		{
			"c", 76.4568596718, 70.9351390152, 81.6302628463,
			analysis.FigureForecast{Number: 4, Mean: 6.8740633481, Low: 6.0285786770, High: 7.7005075043},
			analysis.FigureForecast{Number: 5, Mean: 7.5842691105, Low: 6.0822428371, High: 9.0791642063},
			[]string{"9.9"},
		},
		{
			"b", 76.0937440850, 71.4107986822, 80.3221124583,
			analysis.FigureForecast{Number: 4, Mean: 6.8626189042, Low: 6.0894289491, High: 7.6134112340},
			analysis.FigureForecast{Number: 5, Mean: 7.1393151372, Low: 6.3769352718, High: 7.8786150693},
			nil,
		},
	} {
		a := analysis.ForecastOf(l, l.PilotNamed("ines"), l.SequenceNamed(want.sequence))
		require.True(t, a.Told, a.Lack)
		assert.InDelta(t, want.percent, a.Percent, 1e-8)
		assert.InDelta(t, want.low, a.Low, 1e-8)
		assert.InDelta(t, want.high, a.High, 1e-8)
		for i, figure := range []analysis.FigureForecast{want.fourth, want.fifth} {
			got := a.Figures[3+i]
			assert.Equal(t, figure.Number, got.Number)
			assert.InDeltaSlice(t, []float64{figure.Mean, figure.Low, figure.High}, []float64{got.Mean, got.Low, got.High}, 1e-9)
		}
		assert.Equal(t, want.unseen, a.Unseen)
		assert.Equal(t, want.unseen, a.NeverFlown)
		assert.False(t, a.Stale)
	}
}

// The steps in between, of the same source.
func TestForecastStepsReference(t *testing.T) {
	l := exampleBook(t)
	for _, want := range []struct {
		sequence        string
		effect, widened float64
		percents        []float64
	}{
		{"c", -.0614168567, 3.7704672495, []float64{67.2119693578, 67.9812001270, 67.3870163732, 73.5210103236, 72.9946945342, 76.8292810003}},
		{"b", -.0251052980, .0730061347, []float64{66.8488537710, 67.6180845402, 67.0239007864, 73.1578947368, 72.6315789474, 76.4661654135}},
	} {
		effect, percents, widened, err := analysis.ForecastParts(l, l.PilotNamed("ines"), l.SequenceNamed(want.sequence))
		require.NoError(t, err)
		assert.InDelta(t, want.effect, effect, 1e-9)
		assert.InDelta(t, want.widened, widened, 1e-8)
		assert.InDeltaSlice(t, want.percents, percents, 1e-8)
	}
}
