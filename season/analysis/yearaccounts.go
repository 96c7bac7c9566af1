package analysis

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"boxbook/season"
)

// Books are the money of one party in a calendar year. Costs are the party's
// share of what was spent, Income what it received from outside; both by kind,
// then currency, refunds taken off. What was paid "to the club" is the club's
// income, paid already or not.
type Books struct {
	Costs    []KindMoney
	Income   []KindMoney
	Accounts []YearAccount // by currency
	// CostTotals and IncomeTotals sum Costs and Income up: an amount for every
	// currency of either, by code.
	CostTotals   []season.Money
	IncomeTotals []season.Money
	// Converted is the closing balance in the currency of the year's rates;
	// nil where the year has none.
	Converted *Converted
}

// KindMoney is an amount by the kind of a cost or an income.
type KindMoney struct {
	Kind  string
	Money season.Money
}

// YearAccount is one party's balance in one currency over a year, in minor
// units; a positive balance is owed to the party.
//
//	Closing = Opening + Paid + Billed - Share + Settled + Owed
type YearAccount struct {
	Currency season.Currency
	Opening  int64 // everything before the year
	Paid     int64 // costs the party paid, for whomever
	Billed   int64 // the club's alone: owed to it and not paid yet ("by club to club")
	Share    int64 // costs that were for the party
	Settled  int64 // settlements it paid, less those it received
	Owed     int64 // older debts entered in the year: owed to it, less owed by it
	Closing  int64
}

// Movement is what the year added to the balance.
func (a YearAccount) Movement() int64 { return a.Closing - a.Opening }

// Converted is a closing balance in another currency. Amount is exact, in
// whole units of Currency (not minor ones); Without lists the currencies of
// the balance that have no rate and are not in it.
type Converted struct {
	Currency season.Currency
	Amount   *big.Rat
	Without  []season.Currency
}

// yearBooks are the books of everybody for one year.
type yearBooks struct {
	parties  []season.Party // the club last
	rates    []*season.Rate
	accounts map[season.Account]*YearAccount
	costs    map[season.Party][]KindMoney
	income   map[season.Party][]KindMoney
}

// keepBooks enters everything up to the end of the year, and nothing that is
// dated after the ledger's AsOf. Balances come from
// the movements, which warnings about settlements use too; what they are made
// of is summed apart, and must give the same.
func keepBooks(l *season.Ledger, year int) (*yearBooks, error) {
	b := &yearBooks{
		rates: RatesOf(l, year), accounts: map[season.Account]*YearAccount{},
		costs: map[season.Party][]KindMoney{}, income: map[season.Party][]KindMoney{},
	}
	b.parties = l.Parties()
	touched := b.enterMovements(l, year)
	b.enterParts(l, year)
	for account, a := range b.accounts {
		if a.Opening == 0 && !touched[account] {
			delete(b.accounts, account) // closed in an earlier year
		}
	}
	return b, b.check()
}

func (b *yearBooks) account(p season.Party, c season.Currency) *YearAccount {
	key := season.Account{Party: p, Currency: c}
	if b.accounts[key] == nil {
		b.accounts[key] = &YearAccount{Currency: c}
	}
	return b.accounts[key]
}

// enterMovements fills the opening and closing balances, and says which
// accounts the year moved.
func (b *yearBooks) enterMovements(l *season.Ledger, year int) map[season.Account]bool {
	touched := map[season.Account]bool{}
	for _, m := range season.Movements(l) {
		in := l.YearOf(m.Date)
		if in > year || !l.Past(m.Date) {
			continue
		}
		for _, c := range m.Changes {
			a := b.account(c.Party, m.Currency)
			a.Closing += c.Minor
			if in < year {
				a.Opening += c.Minor
			} else {
				touched[season.Account{Party: c.Party, Currency: m.Currency}] = true
			}
		}
	}
	return touched
}

// enterParts fills what the year's movements are made of, and the sums by
// kind.
func (b *yearBooks) enterParts(l *season.Ledger, year int) {
	for _, c := range l.Costs {
		if !pastIn(l, year, c.Date) {
			continue
		}
		if c.Income {
			b.addKind(b.income, c.For[0], c.Kind, c.Money)
			continue
		}
		b.enterCost(c)
	}
	for _, s := range l.Settlements {
		if pastIn(l, year, s.Date) {
			b.account(s.From, s.Money.Currency).Settled += s.Money.Minor
			b.account(s.To, s.Money.Currency).Settled -= s.Money.Minor
		}
	}
	for _, d := range l.Debts {
		if pastIn(l, year, d.Date) {
			b.account(d.To, d.Money.Currency).Owed += d.Money.Minor
			b.account(d.From, d.Money.Currency).Owed -= d.Money.Minor
		}
	}
}

func (b *yearBooks) enterCost(c *season.Cost) {
	payer := b.account(c.By, c.Money.Currency)
	if c.ToClub && c.By.Club() {
		payer.Billed += c.Money.Minor // no money has moved: a bill to whom it is for
	} else {
		payer.Paid += c.Money.Minor
	}
	for i, share := range c.Shares() {
		b.account(c.For[i], c.Money.Currency).Share += share
		if !c.ForItself() {
			b.addKind(b.costs, c.For[i], c.Kind, season.Money{Minor: share, Currency: c.Money.Currency})
		}
	}
	if c.ToClub && !c.ForItself() {
		b.addKind(b.income, season.Party{}, c.Kind, c.Money)
	}
}

// addKind adds to a party's sum of a kind and currency.
func (b *yearBooks) addKind(sums map[season.Party][]KindMoney, p season.Party, kind string, m season.Money) {
	at, found := slices.BinarySearchFunc(sums[p], KindMoney{kind, m}, func(a, b KindMoney) int {
		return cmp.Or(strings.Compare(a.Kind, b.Kind), compareCurrencies(a.Money.Currency, b.Money.Currency))
	})
	if !found {
		sums[p] = slices.Insert(sums[p], at, KindMoney{kind, m})
		return
	}
	sums[p][at].Money.Minor += m.Minor
}

// check holds the books to what they must be: balances that sum to zero in
// every currency, and movements that are the sum of their parts.
func (b *yearBooks) check() error {
	for _, c := range b.currencies() {
		opening, closing := int64(0), int64(0)
		for _, p := range b.parties {
			a := b.accounts[season.Account{Party: p, Currency: c}]
			if a == nil {
				continue
			}
			opening += a.Opening
			closing += a.Closing
			if parts := a.Paid + a.Billed - a.Share + a.Settled + a.Owed; parts != a.Movement() {
				return fmt.Errorf("%s of %s moved by %d, the parts sum to %d", c.Code, p.Name(), a.Movement(), parts)
			}
		}
		if opening != 0 || closing != 0 {
			return fmt.Errorf("balances in %s do not sum to zero: opening %d, closing %d", c.Code, opening, closing)
		}
	}
	return nil
}

// currencies lists the currencies of all accounts, by code.
func (b *yearBooks) currencies() []season.Currency {
	var all []season.Currency
	for account := range b.accounts {
		if !slices.Contains(all, account.Currency) {
			all = append(all, account.Currency)
		}
	}
	slices.SortFunc(all, compareCurrencies)
	return all
}

// closing lists the open closing balances of a currency.
func (b *yearBooks) closing(c season.Currency) []season.Change {
	var open []season.Change
	for _, p := range b.parties {
		if a := b.accounts[season.Account{Party: p, Currency: c}]; a != nil && a.Closing != 0 {
			open = append(open, season.Change{Party: p, Minor: a.Closing})
		}
	}
	return open
}

// of gives one party's books.
func (b *yearBooks) of(p season.Party) Books {
	out := Books{Costs: b.costs[p], Income: b.income[p]}
	out.CostTotals, out.IncomeTotals = kindTotals(out.Costs, out.Income), kindTotals(out.Income, out.Costs)
	for _, c := range b.currencies() {
		if a := b.accounts[season.Account{Party: p, Currency: c}]; a != nil {
			out.Accounts = append(out.Accounts, *a)
		}
	}
	if len(b.rates) > 0 {
		out.Converted = b.convert(out.Accounts)
	}
	return out
}

// kindTotals sums amounts of all kinds up by currency, also in the currencies
// that only the others have.
func kindTotals(sums, others []KindMoney) []season.Money {
	var totals []season.Money
	for _, s := range others {
		totals = addMoney(totals, season.Money{Currency: s.Money.Currency})
	}
	for _, s := range sums {
		totals = addMoney(totals, s.Money)
	}
	return totals
}

// Result is income less costs, by currency.
func (b Books) Result() []season.Money {
	var left []season.Money
	for i, income := range b.IncomeTotals {
		left = append(left, season.Money{Minor: income.Minor - b.CostTotals[i].Minor, Currency: income.Currency})
	}
	return left
}

// totals are the accounts of everybody together, by currency.
func (b *yearBooks) totals() []YearAccount {
	var all []YearAccount
	for _, c := range b.currencies() {
		sum := YearAccount{Currency: c}
		for _, p := range b.parties {
			if a := b.accounts[season.Account{Party: p, Currency: c}]; a != nil {
				sum.add(*a)
			}
		}
		all = append(all, sum)
	}
	return all
}

// add adds another account of the same currency.
func (a *YearAccount) add(o YearAccount) {
	a.Opening += o.Opening
	a.Paid += o.Paid
	a.Billed += o.Billed
	a.Share += o.Share
	a.Settled += o.Settled
	a.Owed += o.Owed
	a.Closing += o.Closing
}

// costsOf sums the costs of all parties that fit up by kind and currency.
func (b *yearBooks) costsOf(fits func(season.Party) bool) []KindMoney {
	sums := map[season.Party][]KindMoney{} // under one party
	for _, p := range b.parties {
		if !fits(p) {
			continue
		}
		for _, s := range b.costs[p] {
			b.addKind(sums, season.Party{}, s.Kind, s.Money)
		}
	}
	return sums[season.Party{}]
}

func isPilot(p season.Party) bool { return p.Pilot != nil }

func isMember(p season.Party) bool { return !p.Club() }

// convert sums closing balances in the currency of the year's rates, exactly.
func (b *yearBooks) convert(accounts []YearAccount) *Converted {
	out := &Converted{Currency: b.rates[0].To, Amount: new(big.Rat)}
	for _, a := range accounts {
		price := b.price(a.Currency)
		switch {
		case a.Closing == 0:
		case price == nil:
			out.Without = append(out.Without, a.Currency)
		default:
			out.Amount.Add(out.Amount, price.Mul(price, season.Money{Minor: a.Closing, Currency: a.Currency}.Rat()))
		}
	}
	return out
}

// price is what one unit of a currency is worth by the year's rates, nil where
// they do not say.
func (b *yearBooks) price(c season.Currency) *big.Rat { return Price(b.rates, c) }

// Price is what one unit of a currency is worth by a year's rates, of which there
// is one at least: nil where they do not say.
func Price(rates []*season.Rate, c season.Currency) *big.Rat {
	if c == rates[0].To {
		return big.NewRat(1, 1)
	}
	for _, r := range rates {
		if r.From == c {
			return r.Rate.Rat()
		}
	}
	return nil
}

// unpriced lists the currencies of open balances that the year's rates leave
// out; none where the year has no rates.
func (b *yearBooks) unpriced() []season.Currency {
	if len(b.rates) == 0 {
		return nil
	}
	var left []season.Currency
	for _, c := range b.currencies() {
		if len(b.closing(c)) > 0 && b.price(c) == nil {
			left = append(left, c)
		}
	}
	return left
}
