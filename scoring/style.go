package scoring

import "math/big"

// HardZeroRule says what a hard zero (HZ) does.
type HardZeroRule uint8

const (
	// ByMajority: the figure is 0 from every judge when more than half of the
	// judges who gave a mark saw a hard zero; fewer are filled like AV
	// [memory]: the majority principle of the rule books.
	ByMajority HardZeroRule = iota
	// AsGiven: each hard zero counts as a 0 on its own sheet.
	AsGiven
)

// HardZeroWords are the words of a ledger for the hard zero rules, by rule.
var HardZeroWords = []string{ByMajority: "majority", AsGiven: "as-given"}

// String is the rule's word in a ledger.
func (r HardZeroRule) String() string { return HardZeroWords[r] }

// HalfRule says what happens when exactly half of the judges who gave a mark
// saw a hard zero, and no ruling is recorded.
type HalfRule uint8

const (
	// HalfUndecided leaves the figure open: the score is a range.
	HalfUndecided HalfRule = iota
	// HalfZero makes the figure 0.
	HalfZero
	// HalfFill fills the hard zeros.
	HalfFill
)

// HalfWords are the words of a ledger for the half rules, by rule.
var HalfWords = []string{HalfUndecided: "undecided", HalfZero: "zero", HalfFill: "fill"}

// String is the rule's word in a ledger.
func (r HalfRule) String() string { return HalfWords[r] }

// FillRounding says to what a filled mark is rounded, half up.
type FillRounding uint8

const (
	// Unrounded keeps the mean exact.
	Unrounded FillRounding = iota
	// ToTenth rounds to 0.1.
	ToTenth
	// ToHalf rounds to 0.5.
	ToHalf
)

// FillRoundingWords are the words of a ledger for the roundings, by rounding.
var FillRoundingWords = []string{Unrounded: "none", ToTenth: "0.1", ToHalf: "0.5"}

// String is the rounding's word in a ledger.
func (r FillRounding) String() string { return FillRoundingWords[r] }

// DropPanel is the smallest panel from which extremes are dropped: of a smaller
// one fewer than three marks would be left [derived, a house choice].
const DropPanel = 5

// Style is a rule style with every setting decided. The zero Style is
// panel-mean: majority, half undecided, fills unrounded, nothing dropped.
type Style struct {
	Name         string
	HardZero     HardZeroRule
	Half         HalfRule
	FillRounding FillRounding
	DropExtremes bool
}

// steps gives the rounding as parts of a point: 10 for a tenth, 2 for a half.
func (r FillRounding) steps() int64 {
	switch r {
	case ToTenth:
		return 10
	case ToHalf:
		return 2
	default:
		return 0
	}
}

// round rounds a non-negative value half up to the step.
func (r FillRounding) round(value *big.Rat) *big.Rat {
	steps := r.steps()
	if steps == 0 {
		return value
	}
	num := new(big.Int).Mul(value.Num(), big.NewInt(2*steps))
	num.Add(num, value.Denom())
	den := new(big.Int).Mul(value.Denom(), big.NewInt(2))
	return new(big.Rat).SetFrac(num.Quo(num, den), big.NewInt(steps))
}
