package season

import (
	"math/big"
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

// Party is a pilot or, with Pilot nil, the club.
type Party struct{ Pilot *Pilot }

// Name is the pilot's handle, or "club".
func (p Party) Name() string {
	if p.Pilot == nil {
		return "club"
	}
	return p.Pilot.Handle
}

// Cost is money spent for somebody, or received.
type Cost struct {
	Date    Date
	Kind    string
	Money   Money // negative for a refund
	For     []Party
	By      Party // who paid
	ToClub  bool  // the club received it
	Income  bool  // received by For[0], spent by nobody in the pool
	Contest *Contest
	Remark  string
	At      Place
}

// Settlement is money that changed hands.
type Settlement struct {
	Date     Date
	From, To Party
	Money    Money
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
