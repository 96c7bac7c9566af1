package analysis

import (
	"math/big"
	"slices"

	"boxbook/season"
)

// priced takes what stands between members apart: what the year's rates convert where
// payments are in one currency, and what is paid in its own.
func (y YearSummary) priced(among []Stands) (priced, own []Stands) {
	for _, s := range among {
		if y.Settling.In != "" && Price(y.Rates, s.Money.Currency) != nil {
			priced = append(priced, s)
		} else {
			own = append(own, s)
		}
	}
	return priced, own
}

// netted are those of what stands between a member and others that come to nothing, though
// not with each: in a currency or, where payments are in one, in all that are converted.
func (y YearSummary) netted(among []Stands, payments []Payment) []Stands {
	priced, own := y.priced(among)
	left := slices.ContainsFunc(payments, func(p Payment) bool {
		return p.Money.Currency.Code == y.Settling.In && !p.From.Club() && !p.To.Club()
	})
	if left || len(priced) < 2 {
		priced = nil
	}
	return append(priced, nettedAlone(own)...)
}

// nettedAlone are those whose currency comes to nothing in all.
func nettedAlone(among []Stands) []Stands {
	sums := map[season.Currency]int64{}
	for _, s := range among {
		sums[s.Money.Currency] += s.Money.Minor
	}
	return slices.DeleteFunc(slices.Clone(among), func(s Stands) bool { return sums[s.Money.Currency] != 0 })
}

// direct reports whether a party's payments with other members are just what stands between
// each of them and it: nothing was netted. What is converted is that but for rounding, of
// which each may bear the others'.
func (y YearSummary) direct(p season.Party, among []Stands, payments []Payment) bool {
	priced, own := y.priced(among)
	if len(priced) == 0 {
		return directAlone(p, own, payments)
	}
	worth, into := map[season.Party]*big.Rat{}, y.Rates[0].To
	for _, s := range priced {
		if worth[s.With] == nil {
			worth[s.With] = new(big.Rat)
		}
		worth[s.With].Add(worth[s.With], new(big.Rat).Mul(Price(y.Rates, s.Money.Currency), s.Money.Rat()))
	}
	bound := season.Money{Minor: int64(len(worth)) + 1, Currency: into}.Rat()
	var others []Payment
	for _, paid := range payments {
		with, gets := paid.From, paid.Money.Rat()
		if paid.From == p {
			with, gets = paid.To, gets.Neg(gets)
		}
		switch {
		case paid.Money.Currency != into || with.Club():
			others = append(others, paid)
		case worth[with] == nil:
			return false
		default:
			worth[with].Sub(worth[with], gets)
		}
	}
	for _, left := range worth {
		if left.Abs(left).Cmp(bound) >= 0 {
			return false
		}
	}
	return directAlone(p, own, others)
}

// directAlone is that of payments each in its own currency.
func directAlone(p season.Party, among []Stands, payments []Payment) bool {
	left := slices.Clone(among)
	for _, payment := range payments {
		s := Stands{payment.From, payment.Money}
		if payment.From == p {
			s = Stands{payment.To, season.Money{Minor: -payment.Money.Minor, Currency: payment.Money.Currency}}
		}
		at := slices.Index(left, s)
		switch {
		case s.With.Club():
		case at < 0:
			return false
		default:
			left = slices.Delete(left, at, at+1)
		}
	}
	return len(left) == 0
}
