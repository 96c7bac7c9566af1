package display_test

import (
	"math"
	"math/big"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"boxbook/report/display"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Halves go away from zero, from the decimal that a person reads.
func TestFixed(t *testing.T) {
	for _, test := range []struct {
		x        float64
		decimals int
		want     string
	}{
		{6.25, 1, "6.3"},
		{6.35, 1, "6.4"},
		{-6.25, 1, "-6.3"},
		{2.675, 2, "2.68"},
		{0.5, 0, "1"},
		{1.5, 0, "2"},
		{2.5, 0, "3"},
		{-0.04, 1, "0.0"},
		{0, 2, "0.00"},
		{1e21, 0, "1000000000000000000000"},
		{9.995, 2, "10.00"},
		{7, -1, "7"},
		{math.NaN(), 1, ""},
		{math.Inf(-1), 1, ""},
	} {
		assert.Equal(t, test.want, display.Fixed(test.x, test.decimals), "%v to %d", test.x, test.decimals)
	}
	assert.Equal(t, "0.13", display.FixedRat(big.NewRat(1, 8), 2))
	assert.Equal(t, "", display.FixedRat(nil, 2))
	for x, want := range map[float64]string{12.5: "12.5", 50: "50", 0.1234567: "0.123457", 100: "100"} {
		assert.Equal(t, want, display.Trimmed(x, 6))
	}
	assert.Equal(t, "100", display.Trimmed(100, 0))
}

// Digits that are kept are rounded once, halves away from zero, at any size.
func TestSignificant(t *testing.T) {
	for _, test := range []struct {
		x      float64
		digits int
		want   float64
	}{
		{0.6544128572801079, 12, 0.65441285728},
		{2.675, 3, 2.68},
		{-2.675, 3, -2.68},
		{9.996, 3, 10},
		{123456, 2, 120000},
		{1.25e-300, 2, 1.3e-300},
		{1.25e300, 2, 1.3e300},
		{0, 12, 0},
		{math.MaxFloat64, 2, math.MaxFloat64},
		{math.Inf(1), 2, math.Inf(1)},
	} {
		assert.InDelta(t, test.want, display.Significant(test.x, test.digits), 0, "%v to %d", test.x, test.digits)
	}
	assert.True(t, math.IsNaN(display.Significant(math.NaN(), 3)))
}

// Digits are set off in threes before the point, never behind it.
// The same as math/big has it from the shortest decimal.
func TestSignificantIsTheRoundingOfTheShortestDecimal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, digits := rapid.Float64().Draw(t, "x"), rapid.IntRange(1, 18).Draw(t, "digits")
		if rapid.Bool().Draw(t, "few digits") {
			x = float64(rapid.IntRange(-99999, 99999).Draw(t, "whole")) / math.Pow10(rapid.IntRange(0, 300).Draw(t, "tenths"))
		}
		if math.IsInf(x, 0) || math.IsNaN(x) {
			t.Skip()
		}
		mantissa, exponent, _ := strings.Cut(strconv.FormatFloat(x, 'e', -1, 64), "e")
		value, _ := new(big.Rat).SetString(mantissa)
		want, err := strconv.ParseFloat(value.FloatString(digits-1)+"e"+exponent, 64)
		if err != nil {
			want = x
		}
		assert.InDelta(t, want, display.Significant(x, digits), 0)
		assert.False(t, math.Signbit(display.Significant(math.Copysign(0, -1), digits)))
	})
}

func TestGrouped(t *testing.T) {
	for text, want := range map[string]string{
		"": "", "0.00": "0.00", "999.99": "999.99", "1000": "1,000", "-999": "-999", "+999.1234": "+999.1234", "-1085.00": "-1,085.00",
		"+123456.7891": "+123,456.7891", "1234567": "1,234,567", "-92233720368547758.07": "-92,233,720,368,547,758.07",
	} {
		assert.Equal(t, want, display.Grouped(text))
	}
}

// Whatever the number, the rounding is that of math/big on the shortest decimal form.
func TestFixedIsTheRoundingOfTheShortestDecimal(t *testing.T) {
	dice := rand.New(rand.NewPCG(1, 2))
	numbers := []float64{0, math.Copysign(0, -1), 9.95, -9.995, 0.05, -0.05, 99.5, 1e22, 1e300, 5e-324, -5e-324, math.MaxFloat64}
	for range 20_000 {
		numbers = append(numbers,
			float64(dice.IntN(2_000_001)-1_000_000)/1000,               // halves of the last digit
			math.Round(dice.NormFloat64()*1e4)/1e4, dice.NormFloat64(), // of any length
			math.Float64frombits(dice.Uint64()))
	}
	for _, x := range numbers {
		for decimals := -1; decimals < 5; decimals++ {
			require.Equal(t, display.FixedRat(display.Rat(x), decimals), display.Fixed(x, decimals), "%v to %d", x, decimals)
		}
	}
}
