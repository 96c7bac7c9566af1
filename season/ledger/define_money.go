package ledger

import (
	"fmt"

	"boxbook/season"
)

// cost reads `cost DATE KIND AMOUNT CUR for WHO... [by WHO] [to club]`.
func (r *reader) cost(b *block) {
	r.body(b)
	w := r.header(b)
	date, _, ok := w.date()
	if !ok {
		r.lostMoney = true
		return
	}
	if c, ok := w.costRest(date, b.head); ok {
		r.out.Costs = append(r.out.Costs, c)
	} else {
		r.lostMoney = true
	}
}

// contestCost reads a cost inside a contest: without a date the contest's
// first day is taken.
func (r *reader) contestCost(contest *season.Contest, line bodyLine) {
	date := contest.First
	if startsLikeDate(line.peek()) {
		var ok bool
		if date, _, ok = line.date(); !ok {
			r.lostMoney = true
			return
		}
	}
	if c, ok := line.costRest(date, line.line); ok {
		c.Contest = contest
		r.out.Costs = append(r.out.Costs, c)
	} else {
		r.lostMoney = true
	}
}

func (w *words) costRest(date season.Date, line int32) (*season.Cost, bool) {
	c := &season.Cost{Date: date, At: place(w.f, line)}
	var ok bool
	if _, c.Kind, ok = w.handle("what it was for (entry, fuel ...)"); !ok {
		return nil, false
	}
	if c.Money, ok = w.money(true); !ok {
		return nil, false
	}
	if !w.accept("for") {
		w.absent("`for` and who it was for")
		return nil, false
	}
	if c.For, ok = w.parties(); !ok {
		return nil, false
	}
	c.By = c.For[0]
	if w.accept("by") {
		if c.By, _, ok = w.party("who paid"); !ok {
			return nil, false
		}
	}
	if w.accept("to") {
		if !w.accept("club") {
			w.absent("`club`")
			return nil, false
		}
		c.ToClub = true
	}
	c.Remark = w.end()
	return c, !w.failed
}

// parties takes one or more of those a cost was for.
func (w *words) parties() ([]season.Party, bool) {
	var all []season.Party
	lost := false
	for len(all) == 0 || (w.peek() != "" && w.peek() != "by" && w.peek() != "to") {
		before := len(w.r.list)
		p, tok, ok := w.party("a pilot, or club")
		if !ok && len(w.r.list) > before && w.r.list[before].Code == unknownName {
			lost, w.failed = true, false // the other names may be wrong, too
			all = append(all, season.Party{Pilot: &season.Pilot{Handle: w.text(tok)}})
			continue
		}
		if !ok {
			return nil, false
		}
		if !lost && !w.joins(all, p, tok) { // behind an unknown name it may be none of the list
			return nil, false
		}
		all = append(all, p)
	}
	w.failed = w.failed || lost
	return all, !lost
}

// joins reports whether one more can share a cost, and says why not.
func (w *words) joins(all []season.Party, p season.Party, tok token) bool {
	for _, earlier := range all {
		switch {
		case earlier == p:
			w.fail(tok, nameListed, w.text(tok))
			return false
		case earlier.Pilot == nil || p.Pilot == nil:
			w.fail(tok, pilotsOrClub)
			return false
		}
	}
	return true
}

// income reads `income DATE KIND AMOUNT CUR [for PILOT]`.
func (r *reader) income(b *block) {
	r.body(b)
	w := r.header(b)
	date, _, ok := w.date()
	if !ok {
		return
	}
	c := &season.Cost{Date: date, Income: true, At: place(b.f, b.head), For: []season.Party{{}}}
	if _, c.Kind, ok = w.handle("what it was (sponsorship ...)"); !ok {
		return
	}
	if c.Money, ok = w.money(false); !ok {
		return
	}
	if w.accept("for") {
		if c.For[0], _, ok = w.party("a pilot, or club"); !ok {
			return
		}
	}
	c.Remark = w.end()
	if !w.failed {
		r.out.Costs = append(r.out.Costs, c)
	}
}

// transfer reads `DATE FROM TO AMOUNT CUR`.
func (r *reader) transfer(b *block, from, to string) (date season.Date, a, c season.Party, m season.Money, remark string, ok bool) {
	r.body(b)
	w := r.header(b)
	if date, _, ok = w.date(); !ok {
		return
	}
	if a, _, ok = w.party(from); !ok {
		return
	}
	var tok token
	if c, tok, ok = w.party(to); !ok {
		return
	}
	if a == c {
		w.fail(tok, sameParty, w.text(tok))
	}
	if m, ok = w.money(false); !ok {
		return
	}
	remark = w.end()
	return date, a, c, m, remark, !w.failed
}

// settle reads `settle DATE PAYER RECEIVER AMOUNT CUR`.
func (r *reader) settle(b *block) {
	date, from, to, money, remark, ok := r.transfer(b, "who paid", "who was paid")
	if ok {
		s := &season.Settlement{Date: date, From: from, To: to, Money: money, Remark: remark, At: place(b.f, b.head)}
		r.out.Settlements = append(r.out.Settlements, s)
		r.settles[s] = b
	}
	r.lostMoney = r.lostMoney || !ok
}

// owed reads `owed DATE DEBTOR CREDITOR AMOUNT CUR`.
func (r *reader) owed(b *block) {
	date, from, to, money, remark, ok := r.transfer(b, "who owes", "who is owed")
	if ok {
		r.out.Debts = append(r.out.Debts, &season.Debt{
			Date: date, From: from, To: to, Money: money, Remark: remark, At: place(b.f, b.head),
		})
	}
	r.lostMoney = r.lostMoney || !ok
}

// rate reads `rate YEAR CUR x CUR`: one of the first is x of the second.
func (r *reader) rate(b *block) {
	r.body(b)
	w := r.header(b)
	year, _, ok := w.integer("a year", 1900, 2999)
	if !ok {
		return
	}
	fromTok := w.i
	from, ok := w.currency()
	if !ok {
		return
	}
	number, numTok, ok := w.decimal("a rate")
	if !ok {
		return
	}
	toTok := w.i
	to, ok := w.currency()
	w.end()
	if !ok || w.failed {
		return
	}
	if !number.Positive() {
		w.fail(numTok, rateZero)
		return
	}
	if from == to {
		w.fail(b.f.tokens[toTok], sameParty, to.Code)
		return
	}
	r.addRate(b, fromTok, toTok, &season.Rate{Year: year, From: from, To: to, Rate: number, At: place(b.f, b.head)})
}

// addRate enters a rate: one target currency a year, one rate a currency.
func (r *reader) addRate(b *block, fromTok, toTok int32, rate *season.Rate) {
	for _, other := range r.out.Rates {
		switch {
		case other.Year != rate.Year:
		case other.To != rate.To:
			r.at(b.f, b.f.tokens[toTok], rateTarget, rate.Year, other.To.Code, lineText(other.At, b.f))
			return
		case other.From == rate.From:
			r.at(b.f, b.f.tokens[fromTok], rateTwice, rate.Year, rate.From.Code, lineText(other.At, b.f))
			return
		}
	}
	r.out.Rates = append(r.out.Rates, rate)
}

// checkSettlements warns of payments after which somebody is further from
// even than before.
func (r *reader) checkSettlements() {
	if r.lostMoney || r.lostFile {
		return
	}
	balances := season.Balances{}
	for _, m := range season.Movements(r.out) {
		if s := m.Settlement; s != nil {
			from := balances[season.Account{Party: s.From, Currency: m.Currency}]
			to := balances[season.Account{Party: s.To, Currency: m.Currency}]
			// The club stands between its members: that it owes more after it was
			// paid says nothing.
			if enlarges(from, s.Money.Minor) || (s.To.Pilot != nil && enlarges(to, -s.Money.Minor)) {
				b := r.settles[s]
				r.at(b.f, b.headToken(0), debtGrows,
					balanceWords(s, from, to), balanceWords(s, from+s.Money.Minor, to-s.Money.Minor))
			}
		}
		balances.Apply(m)
	}
}

// enlarges reports whether a movement takes a balance further from zero.
func enlarges(before, change int64) bool {
	return max(before+change, -before-change) > max(before, -before)
}

func balanceWords(s *season.Settlement, from, to int64) string {
	say := func(p season.Party, minor int64) string {
		m := season.Money{Minor: minor, Currency: s.Money.Currency}
		switch {
		case minor < 0:
			m.Minor = -minor
			return fmt.Sprintf("%s owes %s %s", p.Name(), m.Text(), m.Currency.Code)
		case minor > 0:
			return fmt.Sprintf("%s is owed %s %s", p.Name(), m.Text(), m.Currency.Code)
		default:
			return p.Name() + " is even"
		}
	}
	return say(s.From, from) + ", " + say(s.To, to)
}
