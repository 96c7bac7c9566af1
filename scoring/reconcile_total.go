package scoring

import (
	"slices"
	"strconv"
	"strings"
)

// Mistyped says how a total may have been typed for another.
type Mistyped string

// The ways to mistype a total.
const (
	MistypedSwapped Mistyped = "swapped" // two digits next to each other changed over
	MistypedDigit   Mistyped = "digit"   // one digit typed for another
)

// typedTotal is what the marks come to, as it would be printed, with the way in
// which the printed total came of it.
type typedTotal struct {
	own      Decimal
	mistyped Mistyped
	inField  bool
}

// mistypedTotal finds whether the printed total is the own one with two digits
// next to each other changed over or, where the field has the own one, with one
// digit typed for another. Without the field too many totals are a digit away.
func (s *search) mistypedTotal() []candidate {
	var found []candidate
	for _, t := range s.ownTotals() {
		t.eachSlip(func(units int64, way Mistyped) {
			if units == s.printed.Points.Units && len(found) == 0 {
				t.mistyped = way
				found = append(found, candidate{kind: KindTotal, total: t})
			}
		})
	}
	return s.settle(found)
}

// ownTotals gives the own total as it may be printed.
func (s *search) ownTotals() []typedTotal {
	var totals []typedTotal
	own := s.target.value(s.score.Points, s.score.Maximum)
	inField := slices.ContainsFunc(s.printed.Field, func(d Decimal) bool { return Agrees(own, d) })
	for _, units := range printedUnits(own, s.printed.Points.Places) {
		totals = append(totals, typedTotal{own: Decimal{Units: units, Places: s.printed.Points.Places}, inField: inField})
	}
	return totals
}

// eachSlip gives the totals, in units, that typing this one wrongly leads to. The
// number of digits stays.
func (t typedTotal) eachSlip(try func(units int64, way Mistyped)) {
	digits := strconv.FormatInt(t.own.Units, 10)
	digits = strings.Repeat("0", max(0, t.own.Places+1-len(digits))) + digits
	for i := range len(digits) - 1 {
		if digits[i] != digits[i+1] {
			t.slip(digits[:i]+digits[i+1:i+2]+digits[i:i+1]+digits[i+2:], MistypedSwapped, try)
		}
	}
	for i := 0; t.inField && i < len(digits); i++ {
		for digit := byte('0'); digit <= '9'; digit++ {
			if digit != digits[i] {
				t.slip(digits[:i]+string(digit)+digits[i+1:], MistypedDigit, try)
			}
		}
	}
}

// slip hands on one wrong total; nobody types a 0 in front of other whole numbers.
func (t typedTotal) slip(digits string, way Mistyped, try func(int64, Mistyped)) {
	if digits[0] == '0' && len(digits) > t.own.Places+1 {
		return
	}
	if units, err := strconv.ParseInt(digits, 10, 64); err == nil {
		try(units, way)
	}
}
