package scoring

import (
	"math/big"
	"sync/atomic"
)

// The fractions that are kept: marks are halves, so that the numbers of a row of
// n judges are whole numbers of 1/(2n), and the same few come back in row after
// row. Of larger ones each is made anew.
const (
	keptDenominator = 2 * 12 // of a panel of twelve
	keptNumerator   = 1 << 12
)

// kept are the fractions made so far, by denominator and numerator.
var kept [keptDenominator + 1]atomic.Pointer[[keptNumerator]atomic.Pointer[big.Rat]]

// fraction is num / den, a rational that several scores share: nobody writes to
// a rational that a Score holds.
func fraction(num, den int64) *big.Rat {
	if num < 0 || num >= keptNumerator || den > keptDenominator {
		return big.NewRat(num, den)
	}
	table := kept[den].Load()
	if table == nil {
		kept[den].CompareAndSwap(nil, new([keptNumerator]atomic.Pointer[big.Rat]))
		table = kept[den].Load()
	}
	made := table[num].Load()
	if made == nil {
		made = big.NewRat(num, den)
		table[num].Store(made)
	}
	return made
}

// total adds rationals up. Small ones of one denominator, which those of a sheet
// mostly are, are added as whole numbers.
type total struct {
	rest     *big.Rat // what is in no whole number
	num, den int64    // 0, 0 for nothing
}

// mostWhole bounds the whole numbers that are added, far from where they overflow.
const mostWhole = 1 << 40

func (t *total) add(r *big.Rat) {
	num, den := r.Num(), r.Denom()
	if !num.IsInt64() || !den.IsInt64() || !t.addWhole(num.Int64(), den.Int64()) {
		if t.rest == nil {
			t.rest = new(big.Rat)
		}
		t.rest.Add(t.rest, r)
	}
}

// addWhole adds num / den where one of the two denominators divides the other.
func (t *total) addWhole(num, den int64) bool {
	if t.den == 0 {
		t.den = 1
	}
	larger := max(den, t.den)
	if larger%den != 0 || larger%t.den != 0 || larger > mostWhole || num > mostWhole/larger || t.num > mostWhole/larger {
		return false
	}
	t.num, t.den = t.num*(larger/t.den)+num*(larger/den), larger
	return true
}

// sum is a rational of its own.
func (t *total) sum() *big.Rat {
	whole := new(big.Rat)
	if t.den != 0 {
		whole.SetFrac64(t.num, t.den)
	}
	if t.rest != nil {
		whole.Add(whole, t.rest)
	}
	return whole
}
