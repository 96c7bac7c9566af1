package report

import (
	"encoding/json"
	"math"
	"math/big"
	"strings"

	"boxbook/report/display"
)

// Number is a value kept exact, or as a float64, until it is shown. The zero
// Number is not known: it shows as nothing and marshals as null, and a field
// tagged `omitzero` is left out.
type Number struct {
	exact *big.Rat
	float float64
	known bool
}

// Exact returns a Number for a rational; nil is not known. The value is copied.
func Exact(value *big.Rat) Number {
	if value == nil {
		return Number{}
	}
	return Number{exact: new(big.Rat).Set(value), known: true}
}

// digitsKept is how many significant digits of a float64 are kept: processors
// that add in another order, or round a product and its sum at once, differ in
// those behind, and the same ledger shall give the same bytes on each.
const digitsKept = 12

// Float returns a Number for a float64, of which 12 significant digits are kept;
// NaN and the infinities are not known.
func Float(value float64) Number {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return Number{}
	}
	return Number{float: display.Significant(value, digitsKept), known: true}
}

// Int returns a Number for a whole number.
func Int(value int64) Number {
	return Number{exact: new(big.Rat).SetInt64(value), known: true}
}

// Known reports whether there is a value.
func (n Number) Known() bool { return n.known }

// IsZero reports whether the Number is not known, which is what encoding/json
// asks for `omitzero`. The number 0 is known, hence not zero in this sense.
func (n Number) IsZero() bool { return !n.known }

// Float64 returns the nearest float64, NaN where the value is not known.
func (n Number) Float64() float64 {
	switch {
	case !n.known:
		return math.NaN()
	case n.exact != nil:
		return nearest(n.exact)
	}
	return n.float
}

// nearest is the float64 nearest to a rational. Where both its parts are floats
// exactly, as they mostly are, so is their quotient, which IEEE 754 rounds once.
func nearest(x *big.Rat) float64 {
	const exactly = 1 << 53
	if top, bottom := x.Num(), x.Denom(); top.IsInt64() && bottom.IsInt64() {
		if top, bottom := top.Int64(), bottom.Int64(); -exactly <= top && top <= exactly && bottom <= exactly {
			return float64(top) / float64(bottom)
		}
	}
	value, _ := x.Float64()
	return value
}

// Rat returns the value as a rational of its own, a float64 as its shortest
// decimal form; nil where it is not known.
func (n Number) Rat() *big.Rat {
	if !n.known {
		return nil
	}
	return new(big.Rat).Set(n.rational())
}

// Text returns the value with that many decimals (fewer than 0 count as 0),
// rounded once, halves away from zero; "" where it is not known. A float64 is
// rounded from its shortest decimal form, the one a person would read: 2.675
// gives 2.68, though the nearest float64 lies a little below. What rounds to
// zero has no sign.
func (n Number) Text(decimals int) string {
	if !n.known {
		return ""
	}
	return display.FixedRat(n.rational(), decimals)
}

// TextUp is Text for what has to be reached: rounded up, so that the value as it is
// read reaches it too.
func (n Number) TextUp(decimals int) string {
	if !n.known {
		return ""
	}
	scale := new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(max(decimals, 0))), nil))
	scaled := new(big.Rat).Mul(n.rational(), scale)
	up := new(big.Int).Neg(new(big.Int).Div(new(big.Int).Neg(scaled.Num()), scaled.Denom())) // Div rounds down
	return display.FixedRat(new(big.Rat).Quo(new(big.Rat).SetInt(up), scale), decimals)
}

// ChanceDecimals is with how many decimals a chance from 0 to 1 is shown.
const ChanceDecimals = 3

// Chance is Text for a chance from 0 to 1, which is never shown as none at all: < 0.001.
func (n Number) Chance() string {
	text := n.Text(ChanceDecimals)
	if text != "" && !strings.ContainsAny(text, "123456789") {
		return "< 0.001"
	}
	return text
}

// rational returns a known value as a rational.
func (n Number) rational() *big.Rat {
	if n.exact != nil {
		return n.exact
	}
	return display.Rat(n.float)
}

// MarshalJSON writes the value unrounded, as the shortest decimal that reads
// back as the same float64; null where it is not known or beyond a float64.
func (n Number) MarshalJSON() ([]byte, error) {
	value := n.Float64()
	switch {
	case math.IsNaN(value) || math.IsInf(value, 0):
		return []byte("null"), nil
	case value == 0: // also the negative zero
		return []byte("0"), nil
	}
	return json.Marshal(value)
}
