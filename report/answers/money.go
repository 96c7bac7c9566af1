package answers

import (
	"encoding/json"

	"boxbook/report"
	"boxbook/season"
)

// Amount is money of one currency, in its smallest unit. In JSON it is a decimal
// string with all the currency's places, such as "-35.00"; the currency stands in
// the field beside it.
type Amount struct{ money season.Money }

// AmountOf is the amount of a sum of money.
func AmountOf(m season.Money) Amount { return Amount{m} }

// Text is the amount with all the currency's places, without the currency.
func (a Amount) Text() string { return a.money.Text() }

// Number is the amount in whole units, exact; it is shown with Places decimals.
func (a Amount) Number() report.Number { return report.Exact(a.money.Rat()) }

// Places are the decimals that amounts of the currency have.
func (a Amount) Places() int { return a.money.Currency.Decimals }

// IsNothing reports whether the amount is zero.
func (a Amount) IsNothing() bool { return a.money.Minor == 0 }

// IsOwing reports whether the amount is below zero.
func (a Amount) IsOwing() bool { return a.money.Minor < 0 }

// Size is the amount without its sign.
func (a Amount) Size() Amount {
	if a.IsOwing() {
		a.money.Minor = -a.money.Minor
	}
	return a
}

// Minus is the amount less another of its currency.
func (a Amount) Minus(b Amount) Amount {
	a.money.Minor -= b.money.Minor
	return a
}

// Plus is the amount and another of its currency.
func (a Amount) Plus(b Amount) Amount {
	a.money.Minor += b.money.Minor
	return a
}

// MarshalJSON writes the decimal string.
func (a Amount) MarshalJSON() ([]byte, error) { return json.Marshal(a.Text()) }

// Sum is an amount of a currency.
type Sum struct {
	Currency string `json:"currency"`
	Amount   Amount `json:"amount"`
}

// KindSum is an amount by the kind of a cost or an income.
type KindSum struct {
	Kind     string `json:"kind"`
	Currency string `json:"currency"`
	Amount   Amount `json:"amount"`
}

func sumOf(m season.Money) Sum { return Sum{m.Currency.Code, AmountOf(m)} }

// sumsOf is a list, also of nothing.
func sumsOf(all []season.Money) []Sum {
	out := []Sum{}
	for _, m := range all {
		out = append(out, sumOf(m))
	}
	return out
}

// SumIn is the amount of a currency in a list of sums; false where there is none.
func SumIn(sums []Sum, currency string) (Amount, bool) {
	for _, s := range sums {
		if s.Currency == currency {
			return s.Amount, true
		}
	}
	return Amount{}, false
}

// KindIn is the amount of a kind in a currency; false where there is none.
func KindIn(sums []KindSum, kind, currency string) (Amount, bool) {
	for _, s := range sums {
		if s.Kind == kind && s.Currency == currency {
			return s.Amount, true
		}
	}
	return Amount{}, false
}

func currencyCodes(currencies []season.Currency) []string {
	var out []string
	for _, c := range currencies {
		out = append(out, c.Code)
	}
	return out
}

// owedTotals sums what is owed up, by currency.
func owedTotals(all []Owed) []Sum {
	var sums []Sum
	for _, o := range all {
		if last := len(sums) - 1; last >= 0 && sums[last].Currency == o.Currency { // they come by currency
			sums[last].Amount.money.Minor += o.Amount.money.Minor
			continue
		}
		sums = append(sums, Sum{o.Currency, o.Amount})
	}
	return sums
}

// AddSum adds a sum to those of a list, in which each currency stands once.
func AddSum(sums []Sum, more Sum) []Sum {
	for i, s := range sums {
		if s.Currency == more.Currency {
			sums[i].Amount.money.Minor += more.Amount.money.Minor
			return sums
		}
	}
	return append(sums, more)
}
