package workbook

import (
	"math"
	"strings"

	"boxbook/report"
	"boxbook/report/workbook/xlsx"
)

// number is an answer's number in a cell, nothing where it is not known.
func number(n report.Number) xlsx.Value { return xlsx.Float(n.Float64()) }

// unlessZero is an answer's number in a cell, nothing where it is 0 or not known.
func unlessZero(n report.Number) xlsx.Value {
	if n.Float64() == 0 {
		return xlsx.Value{}
	}
	return number(n)
}

// zeroBare shows what rounds to 0 in a signed column as 0, as a page does: the number
// format alone would leave it its sign. The cells keep the whole number.
func zeroBare[R any](c xlsx.Column[R]) xlsx.Column[R] {
	look := c.LookOf
	if look == nil {
		look = func(R) xlsx.Look { return c.Look }
	}
	c.LookOf = func(r R) xlsx.Look {
		l, v := look(r), c.Value(r)
		plain, signed := strings.CutPrefix(strings.Split(l.Format, ";")[0], "+")
		if _, decimals, _ := strings.Cut(plain, "."); signed && v.Numeric && roundsAway(v.Number, len(decimals)) {
			l.Format = bare(plain)
		}
		return l
	}
	return c
}

// roundsAway reports whether a number that is not 0 is shown as 0 with so many decimals.
func roundsAway(n float64, decimals int) bool { return n != 0 && math.Abs(n) < math.Pow10(-decimals)/2 }

// bare is a format that shows a number without its sign.
func bare(plain string) string { return plain + ";" + plain + ";" + plain }
