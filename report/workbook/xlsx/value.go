package xlsx

import (
	"math"
	"math/big"
)

// Value is what a cell holds, or what a formula comes to. The zero value is
// nothing: an empty cell, or a formula's empty text.
type Value struct {
	Text    string
	Number  float64
	Numeric bool
}

// NotAvailable is what NA() comes to.
var NotAvailable = Text("#N/A")

// Text is a text.
func Text(s string) Value { return Value{Text: s} }

// Integer is a whole number.
func Integer(n int) Value { return Value{Number: float64(n), Numeric: true} }

// Whole is an integer that is not known where it is 0.
func Whole(n int) Value {
	if n == 0 {
		return Value{}
	}
	return Integer(n)
}

// Exact is the float64 nearest to a rational, nothing for nil.
func Exact(r *big.Rat) Value {
	if r == nil {
		return Value{}
	}
	f, _ := r.Float64()
	return Value{Number: f, Numeric: true}
}

// Float is a number that may not be known: NaN is not.
func Float(x float64) Value {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return Value{}
	}
	return Value{Number: x, Numeric: true}
}
