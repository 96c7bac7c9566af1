package accountoracle

import (
	"math/big"
	"strconv"
)

// Amounts are amounts in the smallest unit, by a name made of words with a
// space between them.
type Amounts map[string]*big.Int

func (a Amounts) add(name string, amount *big.Int) {
	if a[name] == nil {
		a[name] = new(big.Int)
	}
	a[name].Add(a[name], amount)
}

// Accounts are a year's. Positive balances are owed to the party. What is not
// there is zero.
type Accounts struct {
	Opening, Closing Amounts // "ines EUR"
	Paid             Amounts // "ines EUR": costs that the party paid; a bill of the club to others is not paid
	Costs, Income    Amounts // "ines entry EUR": the party's share of costs; income from outside
	WithClub, Among  Amounts // "ines EUR": of the closing balance what stands with the club, and with all others
	Moved            Amounts // "EUR": the club's money in, less out
	Contests         Amounts // "tarn-open EUR", whatever the year of the cost, up to the day
	// Worth is the closing balance of a party in the currency of the year's
	// rates, exact and in whole units; "ines". Balances without a rate are
	// left out of it. Nil where the year has no rates.
	Worth map[string]*big.Rat
}

// Keep keeps the accounts of a ledger text for a calendar year, as of a day
// (YYYY-MM-DD): what is dated later is not entered.
func Keep(text string, year int, today string) Accounts {
	entries, rates := read(text)
	a := Accounts{Opening: Amounts{}, Closing: Amounts{}, Paid: Amounts{}, Costs: Amounts{}, Income: Amounts{}, Contests: Amounts{}, WithClub: Amounts{}, Moved: Amounts{}, Among: Amounts{}}
	name := strconv.Itoa(year)
	for _, e := range entries {
		if e.date > today { // dates sort as texts
			continue
		}
		in := e.date[:4]
		if e.contest != "" {
			a.Contests.add(e.contest+" "+e.currency, e.amount)
		}
		if in < name { // four digits each
			a.Opening.enter(e)
		}
		if in <= name {
			a.Closing.enter(e)
			a.stand(e)
		}
		if in == name {
			a.sort(e)
			a.move(e)
		}
	}
	a.Worth = a.worth(rates, name)
	return a
}

// enter changes balances by the definition: paid for others less paid by
// others for one, settlements paid less received, owed by others less owed to
// others.
func (a Amounts) enter(e entry) {
	for _, l := range loans(e) {
		a.lend(l.from, l.to, l.amount, e.currency)
	}
}

// loan is an amount that is owed to one party by another.
type loan struct {
	from, to string
	amount   *big.Int
}

// loans are what an entry makes one party owe another.
func loans(e entry) []loan {
	var all []loan
	switch e.verb {
	case "cost":
		for i, who := range e.who {
			if who != e.by {
				all = append(all, loan{e.by, who, share(e, i)})
			}
		}
	case "settle":
		all = append(all, loan{e.who[0], e.who[1], e.amount})
	case "owed":
		all = append(all, loan{e.who[1], e.who[0], e.amount})
	}
	return all
}

// stand enters an entry into what stands between each party and the club, or
// into what is among the others.
func (a Accounts) stand(e entry) {
	for _, l := range loans(e) {
		if l.from == club || l.to == club {
			a.WithClub.lend(l.from, l.to, l.amount, e.currency)
		} else {
			a.Among.lend(l.from, l.to, l.amount, e.currency)
		}
	}
}

// lend moves an amount from a party, to whom it is then owed, to another.
func (a Amounts) lend(from, to string, amount *big.Int, currency string) {
	a.add(from+" "+currency, amount)
	a.add(to+" "+currency, new(big.Int).Neg(amount))
}

// move enters what an entry put into the club's pots, or took out: what was handed
// over, whatever debt it paid.
func (a Accounts) move(e entry) {
	in := func(yes bool, amount *big.Int, currency string) {
		if yes {
			a.Moved.add(currency, amount)
		}
	}
	switch e.verb {
	case "income":
		in(e.who[0] == club, e.amount, e.currency)
	case "cost":
		in(e.toClub && e.by != club, e.amount, e.currency)
		in(!e.toClub && e.by == club, new(big.Int).Neg(e.amount), e.currency)
	case "settle":
		in(e.who[1] == club, e.paid, e.paidIn)
		in(e.who[0] == club, new(big.Int).Neg(e.paid), e.paidIn)
	}
}

// share is the part of the i-th of those a cost was for: by the numbers behind
// the names, else equal parts; the odd cents one each to the first named, a
// refund as a cost.
func share(e entry, i int) *big.Int {
	all := new(big.Int)
	for _, parts := range e.parts {
		all.Add(all, parts)
	}
	left := new(big.Int).Abs(e.amount)
	of := func(j int) *big.Int {
		product := new(big.Int).Mul(new(big.Int).Abs(e.amount), e.parts[j])
		return product.Quo(product, all)
	}
	for j := range e.who {
		left.Sub(left, of(j))
	}
	part := of(i)
	if left.Cmp(big.NewInt(int64(i))) > 0 {
		part.Add(part, big.NewInt(1))
	}
	if e.amount.Sign() < 0 {
		part.Neg(part)
	}
	return part
}

// sort enters what the year's costs and incomes were for.
func (a Accounts) sort(e entry) {
	kind := " " + e.kind + " " + e.currency
	switch e.verb {
	case "income":
		a.Income.add(e.who[0]+kind, e.amount)
	case "cost":
		itself := e.toClub && e.who[0] == club // what the club pays itself is neither
		for i, who := range e.who {
			if !itself {
				a.Costs.add(who+kind, share(e, i))
			}
		}
		if e.toClub && !itself {
			a.Income.add(club+kind, e.amount)
		}
		if !(e.toClub && e.by == club) {
			a.Paid.add(e.by+" "+e.currency, e.amount)
		}
	}
}

// worth converts the closing balances.
func (a Accounts) worth(rates []rate, year string) map[string]*big.Rat {
	prices := map[string]*big.Rat{}
	for _, r := range rates {
		if r.year == year {
			prices[r.to], prices[r.from] = big.NewRat(1, 1), r.value
		}
	}
	if len(prices) == 0 {
		return nil
	}
	worth := map[string]*big.Rat{}
	for name, balance := range a.Closing {
		cut := len(name) - len(" EUR")
		who, currency := name[:cut], name[cut+1:]
		if worth[who] == nil {
			worth[who] = new(big.Rat)
		}
		if price := prices[currency]; price != nil {
			value := new(big.Rat).SetInt(balance)
			for range decimals[currency] {
				value.Quo(value, big.NewRat(10, 1))
			}
			worth[who].Add(worth[who], value.Mul(value, price))
		}
	}
	return worth
}
