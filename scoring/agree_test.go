package scoring_test

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"boxbook/scoring"
)

// [derived]: what a printed total may stand for, rounding half up or half to
// even. The first rows are the exact points 64859/120 = 540.4917 of a flight.
func TestAgrees(t *testing.T) {
	for _, test := range []struct {
		own, printed string
		want         bool
	}{
		{"64859/120", "540.5", true},
		{"64859/120", "540.4", false},
		{"64859/120", "540.6", false},
		{"64859/120", "540.49", true},
		{"64859/120", "540.50", false}, // two decimals claim more than one
		{"64859/120", "540.48", false},
		{"64859/120", "540.4917", true},
		{"64859/120", "540.491667", true},
		{"64859/120", "540.491666", false},
		{"64859/120", "540", true},
		{"64859/120", "541", false},

		{"1/8", "0.12", true}, // half to even
		{"1/8", "0.13", true}, // half up
		{"1/8", "0.11", false},
		{"1/8", "0.14", false},
		{"1/8", "0.125", true},
		{"3/8", "0.38", true},  // both
		{"3/8", "0.37", false}, // neither: 37 is odd
		{"5/2", "2", true},
		{"5/2", "3", true},
		{"7/2", "4", true},
		{"7/2", "3", false},
		{"1/2", "0", true},
		{"1/2", "1", true},
		{"1/4", "0.2", true},
		{"1/4", "0.3", true},
		{"7/20", "0.4", true},
		{"7/20", "0.3", false},

		{"12499/100000", "0.12", true}, // just below the half
		{"12499/100000", "0.13", false},
		{"12501/100000", "0.12", false}, // just above
		{"12501/100000", "0.13", true},
		{"2164/3", "721.33", true},
		{"2164/3", "721.34", false},
		{"0", "0", true},
		{"0", "0.00", true},
		{"0", "0.01", false},
		{"600", "600.0", true},
		{"600", "599.9", false},
	} {
		own, ok := new(big.Rat).SetString(test.own)
		require.True(t, ok, test.own)
		printed, ok := scoring.ParseDecimal(test.printed)
		require.True(t, ok, test.printed)
		assert.Equal(t, test.want, scoring.Agrees(own, printed), "%s printed as %s", test.own, test.printed)
		assert.Equal(t, test.own, own.RatString(), "the total itself is left alone")
	}
}

// Of all numbers with so many decimals, one or two agree: the nearest ones, and
// of two equally near ones the upper always, the lower where it is even.
func TestAgreesWithTheNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		places := rapid.IntRange(0, 3).Draw(t, "places")
		steps := whole([]int{1, 10, 100, 1000}[places])
		denominator := rapid.SampledFrom([]int64{1, 2, 3, 4, 8, 20, 24, 120, 200, 2000}).Draw(t, "denominator")
		own := big.NewRat(rapid.Int64Range(0, 5000).Draw(t, "numerator"), denominator)
		scaled := new(big.Rat).Mul(own, steps)
		below := new(big.Int).Quo(scaled.Num(), scaled.Denom()).Int64()
		rest := new(big.Rat).Sub(scaled, big.NewRat(below, 1)).Cmp(big.NewRat(1, 2))
		want := map[int64]bool{
			below:     rest < 0 || rest == 0 && below%2 == 0,
			below + 1: rest >= 0,
		}
		for units := max(0, below-2); units <= below+3; units++ {
			got := scoring.Agrees(own, scoring.Decimal{Units: units, Places: places})
			assert.Equal(t, want[units], got, "%s with %d places printed as %d units", own, places, units)
		}
	})
}
