package words

import (
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"boxbook/report"

	"github.com/stretchr/testify/require"
)

func rangeOf(low, middle, high float64) Range {
	return Range{report.Float(low), report.Float(middle), report.Float(high), report.Float(.9)}
}

func TestRangesAreWhole(t *testing.T) {
	for _, c := range []struct {
		low, middle, high float64
		about, ends       string
	}{
		{64.4, 68.1, 70.9, "68", "64 to 71"},
		{0.5, 0.8, 1.1, "0.8", "0.5 to 1.1"},
		{63, 64, 65, "64", "63 to 65"},                 // as wide as it takes
		{63, 64, 64.99, "64.0", "63.0 to 65.0"},        // a little narrower
		{63.5, 63.7, 66, "63.7", "63.5 to 66.0"},       // whole, it would begin above its middle
		{63.56, 63.561, 64, "63.56", "63.56 to 64.00"}, // so would one decimal
		{-2.2, 0.3, 6.6, "0", "-2 to 7"},
		{65, 65, 65, "65.0", "65.0 to 65.0"},
	} {
		r := rangeOf(c.low, c.middle, c.high)
		require.Equal(t, c.about, r.About())
		require.Equal(t, c.ends, r.Ends())
		require.Equal(t, c.ends+" at 90% confidence", r.EndsAt())
	}
	changes := rangeOf(-2.2, 4.7, 6.6)
	require.Equal(t, "+5", changes.Change())
	require.Equal(t, "-2 to +7 at 90% confidence", changes.ChangesAt())
	require.Equal(t, 0, Range{Low: report.Int(60), High: report.Int(70)}.Decimals(), "a range may have no middle")
	require.Equal(t, 1, Range{Middle: report.Int(60)}.Decimals(), "a middle may have no range")
}

// TestRangesHoldTheirMiddle: of ranges by chance, wide ones are whole, and none
// leaves its middle out, as it is and as it is written.
func TestRangesHoldTheirMiddle(t *testing.T) {
	random := rand.New(rand.NewPCG(19, 7))
	kept := 0
	for range 20_000 {
		low, width := 120*random.Float64()-20, 6*random.Float64()*random.Float64()
		middle := low + width*random.Float64()
		if random.IntN(3) == 0 {
			middle = low + .01*width*random.Float64() // close to an end
		}
		r := rangeOf(low, middle, low+width)
		begin, end := written(t, r.Begin()), written(t, r.End())
		about := written(t, r.About())
		require.True(t, begin <= about && about <= end, "%v", r)
		decimals := r.Decimals()
		if decimals < mostRangeDecimals {
			require.True(t, begin <= middle && middle <= end, "%v", r)
		}
		switch wide := width >= wideRange+1e-6; {
		case wide && decimals == 0:
		case wide:
			kept++
			require.False(t, written(t, r.Low.Text(0)) <= middle && middle <= written(t, r.High.Text(0)), "%v: whole would do", r)
		case width < wideRange-1e-6:
			require.Positive(t, decimals)
		}
		require.Equal(t, strings.Contains(r.Ends(), "."), decimals > 0)
	}
	require.Positive(t, kept)
}

func written(t *testing.T, text string) float64 {
	value, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return value
}

func TestColumnOfRangesNamesItsConfidence(t *testing.T) {
	require.Equal(t, "90% from", RangeFrom(report.Float(.9)))
	require.Equal(t, "90% from", RangeFrom(report.Float(.9), report.Number{}, report.Float(.903)))
	require.Equal(t, "87-92% from", RangeFrom(report.Float(.921), report.Float(.87), report.Float(.9)))
	require.Equal(t, "from", RangeFrom())
}
