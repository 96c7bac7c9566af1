package analysis

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"boxbook/season"
)

// Settling is how the payments of a year are found. Without anything each party
// settles with the club what stands between the two, and the others settle among
// themselves with the fewest payments, each currency by itself.
type Settling struct {
	Fewest bool   // one pool of all balances: the fewest payments, which move debts onto others
	In     string // all in this currency, at the year's rates; "" for each by itself
}

// NoRateInto says that a year's rates do not convert into a currency. Into is
// the one that they do, "" where the year has none; Of the currencies of what is open.
type NoRateInto struct {
	Year     int
	In, Into string
	Of       []string
}

func (e NoRateInto) Error() string { return fmt.Sprint("no-rate-", e.Year, "-", e.In) }

// TooLarge says that a year's balances are more in a currency than can be kept.
type TooLarge struct {
	Year int
	In   string
}

func (e TooLarge) Error() string { return fmt.Sprint("too-large-", e.Year, "-", e.In) }

// standings are balances in minor units, apart: each party's with the club, and
// each party's among all others. Both are positive for what the party is owed. Between is
// what stands between any two.
type standings struct {
	withClub season.Balances
	among    season.Balances
	between  season.Standing
}

// owedIn is what stands between any two in a currency.
func (s standings) owedIn(c season.Currency) Owed {
	return func(debtor, creditor season.Party) float64 { return float64(s.between.Owes(debtor, creditor, c)) }
}

// owedInOne is what stands between any two in the currencies that have a price.
func (b *yearBooks) owedInOne(s standings, into season.Currency) Owed {
	unit := season.Money{Minor: 1, Currency: into}.Rat()
	return func(debtor, creditor season.Party) float64 {
		sum := b.worth(func(c season.Currency) int64 { return s.between.Owes(debtor, creditor, c) })
		minor, _ := sum.Quo(sum, unit).Float64()
		return minor
	}
}

// standingOf is what stands at the end of a year, or on the ledger's AsOf.
func standingOf(l *season.Ledger, year int) standings {
	s := standings{season.Balances{}, season.Balances{}, season.Standing{}}
	for _, p := range season.Postings(l) {
		if l.YearOf(p.Date) > year || !l.Past(p.Date) {
			continue
		}
		into := s.among
		if p.Debtor.Club() || p.Creditor.Club() {
			into = s.withClub
		}
		into[season.Account{Party: p.Creditor, Currency: p.Money.Currency}] += p.Money.Minor
		into[season.Account{Party: p.Debtor, Currency: p.Money.Currency}] -= p.Money.Minor
		s.between.Post(p)
	}
	return s
}

// open lists the balances of a currency that are not zero, in the order of
// parties.
func openIn(b season.Balances, parties []season.Party, c season.Currency) []season.Change {
	var open []season.Change
	for _, p := range parties {
		if minor := b[season.Account{Party: p, Currency: c}]; minor != 0 {
			open = append(open, season.Change{Party: p, Minor: minor})
		}
	}
	return open
}

// settle finds the payments, each currency by itself or in one.
func (y *YearSummary) settle(b *yearBooks, s standings) error {
	if y.Settling.In == "" {
		for _, c := range b.currencies() {
			y.settleIn(b, c, openIn(s.withClub, b.parties, c), openIn(s.among, b.parties, c), s.owedIn(c))
		}
		return nil
	}
	if len(b.rates) == 0 || b.rates[0].To.Code != y.Settling.In {
		refused := NoRateInto{Year: y.Year, In: y.Settling.In, Of: b.openIn(s)}
		if len(b.rates) > 0 {
			refused.Into = b.rates[0].To.Code
		}
		return refused
	}
	into := b.rates[0].To
	clubs, left, kept := b.inOne(s.withClub, into, true)
	others, more, all := b.inOne(s.among, into, false)
	if !kept || !all {
		return TooLarge{y.Year, into.Code}
	}
	y.settleIn(b, into, clubs, others, b.owedInOne(s, into))
	if left+more != 0 {
		y.Left = append(y.Left, season.Money{Minor: left + more, Currency: into})
	}
	for _, c := range b.currencies() {
		if b.price(c) == nil {
			y.settleIn(b, c, openIn(s.withClub, b.parties, c), openIn(s.among, b.parties, c), s.owedIn(c))
		}
	}
	return nil
}

// openIn are the currencies in which anything is to be settled.
func (b *yearBooks) openIn(s standings) []string {
	var codes []string
	for _, c := range b.currencies() {
		if len(openIn(s.withClub, b.parties, c))+len(openIn(s.among, b.parties, c)) > 0 {
			codes = append(codes, c.Code)
		}
	}
	return codes
}

// settleIn adds the payments of one currency.
func (y *YearSummary) settleIn(b *yearBooks, c season.Currency, clubs, others []season.Change, owed Owed) {
	pool, payments := others, []Payment(nil)
	if y.Settling.Fewest {
		pool = together(b.parties, clubs, others)
	} else {
		payments = withClub(c, clubs)
	}
	among, fewest := SettleUp(c, pool, owed)
	payments = append(payments, among...)
	order := func(p season.Party) int { return slices.Index(b.parties, p) }
	slices.SortStableFunc(payments, func(p, q Payment) int {
		return cmp.Or(order(p.From)-order(q.From), order(p.To)-order(q.To))
	})
	y.Payments = append(y.Payments, payments...)
	if !fewest {
		y.Unproven = append(y.Unproven, c)
	}
}

// withClub is what stands between each and the club, a payment each.
func withClub(c season.Currency, changes []season.Change) []Payment {
	var payments []Payment
	for _, p := range changes {
		switch {
		case p.Party.Club():
		case p.Minor < 0:
			payments = append(payments, Payment{p.Party, season.Party{}, season.Money{Minor: -p.Minor, Currency: c}})
		default:
			payments = append(payments, Payment{season.Party{}, p.Party, season.Money{Minor: p.Minor, Currency: c}})
		}
	}
	return payments
}

// together adds two lists of balances up.
func together(parties []season.Party, lists ...[]season.Change) []season.Change {
	var all []season.Change
	for _, p := range parties {
		sum := season.Change{Party: p}
		for _, change := range slices.Concat(lists...) {
			if change.Party == p {
				sum.Minor += change.Minor
			}
		}
		if sum.Minor != 0 {
			all = append(all, sum)
		}
	}
	return all
}

// inOne converts balances that have a price into one currency, each party's sum
// rounded to its smallest unit. They sum to zero again: where rounding leaves
// some over, the club bears it where the balances are with it, else those whose sums it
// moved most, one unit each; how many units these are is the second result. The
// third is false where a sum is too large to keep.
func (b *yearBooks) inOne(balances season.Balances, into season.Currency, withClub bool) (changes []season.Change, left int64, ok bool) {
	var all []*converted
	sum, scale := int64(0), season.Money{Minor: 1, Currency: into}.Rat()
	for _, p := range b.parties {
		exact := b.worth(func(c season.Currency) int64 { return balances[season.Account{Party: p, Currency: c}] })
		money, kept := season.RoundMoney(exact, into)
		if !kept {
			return nil, 0, false
		}
		if exact.Sign() == 0 && !p.Club() || p.Club() && !withClub {
			continue
		}
		moved := new(big.Rat).SetInt64(money.Minor)
		all = append(all, &converted{season.Change{Party: p, Minor: money.Minor}, moved.Sub(moved, exact.Quo(exact, scale))})
		sum += money.Minor
	}
	bearLeft(all, sum)
	for _, s := range all {
		if s.Minor != 0 {
			changes = append(changes, s.Change)
		}
	}
	return changes, max(sum, -sum), true
}

// converted is a party's balance in another currency, rounded, and by how many
// smallest units the rounding moved it.
type converted struct {
	season.Change
	moved *big.Rat
}

// bearLeft takes what rounding left over from the club or, among others, from
// those whose sums it moved that way most.
func bearLeft(all []*converted, sum int64) {
	if i := slices.IndexFunc(all, func(c *converted) bool { return c.Party.Club() }); i >= 0 {
		all[i].Minor -= sum
		return
	}
	byMoved := slices.Clone(all)
	slices.SortStableFunc(byMoved, func(x, y *converted) int { return y.moved.Cmp(x.moved) })
	one := int64(1)
	if sum < 0 {
		slices.Reverse(byMoved)
		one = -1
	}
	for ; sum != 0; sum -= one {
		byMoved[0].Minor -= one
		byMoved = byMoved[1:]
	}
}

// worth is the sum of what there is of each currency that has a price in that of the
// year's rates, exact.
func (b *yearBooks) worth(of func(season.Currency) int64) *big.Rat {
	sum := new(big.Rat)
	for _, c := range b.currencies() {
		if price := b.price(c); price != nil {
			sum.Add(sum, price.Mul(price, season.Money{Minor: of(c), Currency: c}.Rat()))
		}
	}
	return sum
}
