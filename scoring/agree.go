package scoring

import "math/big"

// Agrees reports whether an exact total, rounded to the decimals of a printed
// one, gives the printed one: half up or half to even, since programs that
// print results do either. 540.4917 agrees with a printed 540.5 and 540.49.
func Agrees(own *big.Rat, printed Decimal) bool {
	scaled := new(big.Rat).Mul(own, big.NewRat(pow10(printed.Places), 1))
	gap := scaled.Sub(scaled, big.NewRat(printed.Units, 1))
	half := big.NewRat(1, 2)
	switch gap.Cmp(half) {
	case 1:
		return false
	case 0: // own lies half a unit above what was printed: half to even may round down
		return printed.Units%2 == 0
	}
	return gap.Cmp(half.Neg(half)) >= 0
}
