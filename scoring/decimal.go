package scoring

import (
	"cmp"
	"math/big"
	"math/bits"
	"strconv"
	"strings"
)

// Decimal is a non-negative number as a person typed it: Units / 10^Places.
// The number of decimals is kept, because "540.5" and "540.50" claim different
// precision when an official total is compared with the arithmetic.
type Decimal struct {
	Units  int64
	Places int
}

// maxDecimalPlaces bounds the decimals of a typed number; 10^9 still leaves
// nine digits before the point in an int64.
const maxDecimalPlaces = 9

// ParseDecimal reads digits with an optional point or comma and further
// digits: no sign, no exponent. It reports false for anything else and for
// numbers of more than 18 digits or 9 decimals.
func ParseDecimal(text string) (Decimal, bool) {
	whole, part, pointed := strings.Cut(strings.Replace(text, ",", ".", 1), ".")
	if whole == "" || (pointed && part == "") || len(whole)+len(part) > 18 || len(part) > maxDecimalPlaces {
		return Decimal{}, false
	}
	for _, r := range whole + part {
		if r < '0' || r > '9' {
			return Decimal{}, false
		}
	}
	units, err := strconv.ParseInt(whole+part, 10, 64)
	return Decimal{Units: units, Places: len(part)}, err == nil
}

// Rat gives the exact value.
func (d Decimal) Rat() *big.Rat {
	return big.NewRat(d.Units, pow10(d.Places))
}

// Short is the same number without zeros at its end: equal values are alike.
func (d Decimal) Short() Decimal {
	for d.Places > 0 && d.Units%10 == 0 {
		d.Units, d.Places = d.Units/10, d.Places-1
	}
	return d
}

// Cmp is -1, 0 or 1 where the value is below another one, the same, or above it.
func (d Decimal) Cmp(o Decimal) int {
	if d.Units < 0 || o.Units < 0 {
		return d.Rat().Cmp(o.Rat())
	}
	high, low := bits.Mul64(uint64(d.Units), uint64(pow10(o.Places)))
	otherHigh, otherLow := bits.Mul64(uint64(o.Units), uint64(pow10(d.Places)))
	return cmp.Or(cmp.Compare(high, otherHigh), cmp.Compare(low, otherLow))
}

// Positive reports whether the value is above zero.
func (d Decimal) Positive() bool { return d.Units > 0 }

// String prints the number with the decimals that were typed and a point.
func (d Decimal) String() string {
	digits := strconv.FormatInt(d.Units, 10)
	if d.Places == 0 {
		return digits
	}
	if missing := d.Places + 1 - len(digits); missing > 0 {
		digits = strings.Repeat("0", missing) + digits
	}
	cut := len(digits) - d.Places
	return digits[:cut] + "." + digits[cut:]
}

func pow10(n int) int64 {
	p := int64(1)
	for range n {
		p *= 10
	}
	return p
}
