// Package display says how numbers and texts come out for people: one rounding
// and one width, whoever writes them.
package display

import (
	"bytes"
	"math"
	"math/big"
	"strconv"
	"strings"
)

// Rat gives a float64 as the decimal that a person would read, its shortest:
// 2.675, though the nearest float64 lies a little below. NaN and the infinities
// give nil.
func Rat(x float64) *big.Rat {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	// FormatFloat of a finite value is always a number that SetString reads.
	value, _ := new(big.Rat).SetString(strconv.FormatFloat(x, 'g', -1, 64))
	return value
}

// Fixed writes a float64 with that many decimals, rounded once from its shortest
// decimal form, halves away from zero; "" for NaN and the infinities.
func Fixed(x float64, decimals int) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return ""
	}
	var room [32]byte
	return roundedText(strconv.AppendFloat(room[:0], x, 'f', -1, 64), max(decimals, 0))
}

// roundedText rounds the digits of a decimal, halves away from zero.
func roundedText(digits []byte, decimals int) string {
	point := bytes.IndexByte(digits, '.')
	if point < 0 {
		point = len(digits)
		digits = append(digits, '.')
	}
	for len(digits) < point+2+decimals { // the digit behind the last one too
		digits = append(digits, '0')
	}
	up := digits[point+1+decimals] >= '5'
	digits = digits[:point+1+decimals]
	if decimals == 0 {
		digits = digits[:point]
	}
	for i := len(digits) - 1; up && i >= 0 && digits[i] != '-'; i-- {
		switch {
		case digits[i] == '.':
		case digits[i] == '9':
			digits[i] = '0'
		default:
			digits[i]++
			up = false
		}
	}
	text := string(digits)
	if up { // nines throughout
		sign := len(text) - len(strings.TrimPrefix(text, "-"))
		text = text[:sign] + "1" + text[sign:]
	}
	return unsigned(text)
}

// unsigned takes the sign from what rounds to zero.
func unsigned(text string) string {
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// FixedRat writes a rational with that many decimals (fewer than 0 count as 0),
// rounded once, halves away from zero; "" for nil. What rounds to zero has no
// sign.
func FixedRat(x *big.Rat, decimals int) string {
	if x == nil {
		return ""
	}
	return unsigned(x.FloatString(max(decimals, 0)))
}

// Significant keeps that many digits (at least 1) of a float64, rounded once from
// its shortest decimal form, halves away from zero; a value that is none, or that
// no float64 holds when it is rounded, comes back as it is.
func Significant(x float64, digits int) float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return x
	}
	mantissa, exponent, _ := strings.Cut(strconv.FormatFloat(x, 'e', -1, 64), "e")
	switch {
	case x == 0: // of no sign
		return 0
	case len(mantissa) <= digits: // no more digits than that: with a point, one fewer
		return x
	}
	var room [32]byte
	kept, err := strconv.ParseFloat(roundedText(append(room[:0], mantissa...), max(digits-1, 0))+"e"+exponent, 64)
	if err != nil { // the largest of all, rounded up
		return x
	}
	return kept
}

// Trimmed is Fixed without the zeros at the end: 12.5, 50.
func Trimmed(x float64, decimals int) string {
	text := Fixed(x, decimals)
	if !strings.Contains(text, ".") {
		return text
	}
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// Grouped sets the whole digits of a plain decimal off in threes: 12345.60 is
// 12,345.60. It is for people alone: no program reads it back.
func Grouped(decimal string) string {
	begin := len(decimal) - len(strings.TrimLeft(decimal, "+-"))
	whole, rest := decimal, ""
	if point := strings.IndexByte(decimal, '.'); point >= 0 {
		whole, rest = decimal[:point], decimal[point:]
	}
	for at := len(whole) - 3; at > begin; at -= 3 {
		whole = whole[:at] + "," + whole[at:]
	}
	return whole + rest
}
