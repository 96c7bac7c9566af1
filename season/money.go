package season

import (
	"maps"
	"math/big"
	"slices"
	"strconv"

	"boxbook/scoring"
)

// Money is an amount in a currency's smallest unit: 9500 EUR with two decimals
// is 95.00 EUR. Currencies are never mixed.
type Money struct {
	Minor    int64
	Currency Currency
}

// Currency is an ISO 4217 code and the decimals its amounts have.
type Currency struct {
	Code     string
	Decimals int
}

// Text prints the amount with its currency's decimals, without the code.
func (m Money) Text() string {
	minor, sign := m.Minor, ""
	if minor < 0 {
		minor, sign = -minor, "-"
	}
	digits := strconv.FormatInt(minor, 10)
	for len(digits) <= m.Currency.Decimals {
		digits = "0" + digits
	}
	if m.Currency.Decimals == 0 {
		return sign + digits
	}
	cut := len(digits) - m.Currency.Decimals
	return sign + digits[:cut] + "." + digits[cut:]
}

// DigitsSwapped are the amounts that an amount becomes when two neighbouring digits of it
// are swapped, those on both sides of the point too. The point stays in its place, and no
// amount of several digits begins with a zero by it.
func (m Money) DigitsSwapped() []Money {
	whole := smallestUnits(m.Currency).Int64()
	size, sign := m.Minor, int64(1)
	if size < 0 {
		size, sign = -size, -1
	}
	var all []Money
	for place := int64(1); place <= size/10; place *= 10 {
		low, high := size/place%10, size/place/10%10
		leads := size/place < 100 && place >= whole
		if low != high && (low != 0 || !leads) {
			all = append(all, Money{sign * (size + (low-high)*9*place), m.Currency})
		}
	}
	return all
}

// Rat is the amount in whole units, exact.
func (m Money) Rat() *big.Rat {
	return new(big.Rat).SetFrac(big.NewInt(m.Minor), smallestUnits(m.Currency))
}

// RoundMoney is an exact number of whole units as money, to the currency's
// smallest unit, halves away from zero; false where that is too large to keep.
func RoundMoney(units *big.Rat, c Currency) (Money, bool) {
	minor := new(big.Rat).Mul(units, new(big.Rat).SetInt(smallestUnits(c)))
	half := big.NewRat(1, 2)
	if minor.Sign() < 0 {
		half.Neg(half)
	}
	minor.Add(minor, half)
	whole := new(big.Int).Quo(minor.Num(), minor.Denom()) // towards zero
	return Money{Minor: whole.Int64(), Currency: c}, whole.IsInt64()
}

// smallestUnits is how many of a currency's smallest unit make a whole one.
func smallestUnits(c Currency) *big.Int {
	return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(c.Decimals)), nil)
}

// Cost is money spent for somebody, or received.
type Cost struct {
	Date Date
	Kind string
	// Money is the whole amount, negative for a refund; where Each was typed it is
	// as many times the amount typed as there are in For.
	Money   Money
	For     []Party
	Weights []int64 // how For share it; nil: equally
	Each    bool    // the amount was typed for each
	All     bool    // For was typed as all who were at the contest
	By      Party   // who paid
	ToClub  bool    // the club received it
	Income  bool    // received by For[0], spent by nobody in the pool
	Contest *Contest
	Receipt string // the slip's number, "" where none was typed
	Remark  string
	At      Place
}

// PointMoved are the amounts that an amount becomes when its point is one or two places
// elsewhere, of those that the currency has.
func (m Money) PointMoved() []Money {
	var all []Money
	for _, times := range []int64{10, 100} {
		if m.Minor != 0 && m.Minor%times == 0 {
			all = append(all, Money{m.Minor / times, m.Currency})
		}
		if size := max(m.Minor, -m.Minor); size != 0 && size <= mostPointMoved {
			all = append(all, Money{m.Minor * times, m.Currency})
		}
	}
	return all
}

// mostPointMoved is beyond any amount of a club.
const mostPointMoved = 1_000_000_000_000

// SwapMaking is the amount that two swapped digits make of this one, if so many times
// this one less that come to a difference; false where no two digits do.
func (m Money) SwapMaking(times, difference int64) (Money, bool) {
	for _, meant := range m.DigitsSwapped() {
		if times*(m.Minor-meant.Minor) == difference {
			return meant, true
		}
	}
	return Money{}, false
}

// Typed is the amount as it was typed, of one where that was for each.
func (c *Cost) Typed() Money {
	if c.Each {
		return Money{c.Money.Minor / int64(len(c.For)), c.Money.Currency}
	}
	return c.Money
}

// Settlement is money that changed hands. Money is the debt that it pays, Paid
// what was handed over: another currency's amount where that was typed.
type Settlement struct {
	Date     Date
	From, To Party
	Money    Money
	Paid     Money
	Receipt  string
	Remark   string
	At       Place
}

// Debt is an amount owed since before the ledger began.
type Debt struct {
	Date     Date
	From, To Party // From owes To
	Money    Money
	Remark   string
	At       Place
}

// Rate converts one currency into another for one year's summary: one From is
// Rate of To.
type Rate struct {
	Year     int
	From, To Currency
	Rate     scoring.Decimal
	At       Place
}

// InHand is what the club really had on a day in a pot, as typed.
type InHand struct {
	Date   Date
	Pot    string // bank, cash-box ...
	Money  Money
	Remark string
	At     Place
}

// OnlyIncome are the kinds of which the club got something, never had a cost and budgeted
// no income, each with the first line by which it got any.
func (l *Ledger) OnlyIncome() map[string]*Cost {
	first, other := map[string]*Cost{}, map[string]bool{}
	for _, b := range l.Budgets {
		other[b.Kind] = other[b.Kind] || b.Income
	}
	for _, c := range l.Costs {
		switch {
		case c.ForItself():
		case !c.Income && slices.Contains(c.For, Party{}):
			other[c.Kind] = true
		case first[c.Kind] == nil && c.ClubResult() > 0:
			first[c.Kind] = c
		}
	}
	maps.DeleteFunc(first, func(kind string, _ *Cost) bool { return other[kind] })
	return first
}

// Budget is what the club means to spend, or to take in, on a kind in a year.
type Budget struct {
	Year   int
	Kind   string
	Money  Money
	Income bool
	Remark string
	At     Place
}

// Agreed is a year's result as the club's assembly agreed it.
type Agreed struct {
	Year   int
	Money  Money
	Remark string
	At     Place
}

// ForItself reports whether a cost was for the club and the club received it: it
// is neither income of the club nor a cost.
func (c *Cost) ForItself() bool { return c.ToClub && !c.Income && slices.Contains(c.For, Party{}) }

// ClubResult is what a cost or an income adds to the club's result, in minor
// units: income of the club and what was paid to it count for it, its share of a
// cost against it.
func (c *Cost) ClubResult() int64 {
	if c.Income {
		if c.For[0].Club() {
			return c.Money.Minor
		}
		return 0
	}
	result := int64(0)
	if c.ToClub {
		result = c.Money.Minor
	}
	for i, share := range c.Shares() {
		if c.For[i].Club() {
			result -= share
		}
	}
	return result
}
