package ledger

import (
	"slices"

	"boxbook/season"
)

// The years that the language knows.
const (
	firstYear = 1900
	lastYear  = 2999
)

// inHand reads `in-hand DATE POT AMOUNT CUR`; an overdraft is below zero.
func (r *reader) inHand(b *block) {
	r.body(b)
	w := r.header(b)
	line := &moneyLine{f: b.f, at: place(b.f, b.head), verb: b.kind, head: b.headToken(0)}
	if !w.typedDate(line) {
		return
	}
	h := &season.InHand{Date: line.date, At: line.at}
	tok, pot, ok := w.handle("a pot (bank, cash-box ...)")
	if !ok {
		return
	}
	line.pot, line.kind = pot, tok
	if h.Pot, ok = pot, w.fills(&h.Money, belowZero); !ok {
		return
	}
	h.Remark = w.end()
	if i := slices.IndexFunc(r.out.InHand, func(o *season.InHand) bool {
		return o.Date == h.Date && o.Pot == h.Pot && o.Money.Currency == h.Money.Currency
	}); i >= 0 && !w.failed {
		w.fail(tok, definedTwice, "the amount in hand in", pot, placeText(r.out.InHand[i].At))
	}
	if !w.failed {
		line.count = h
		r.out.InHand = append(r.out.InHand, h)
		r.money = append(r.money, line)
	}
}

// fills takes an amount.
func (w *words) fills(m *season.Money, signed sign) bool {
	money, ok := w.money(signed)
	*m = money
	return ok
}

// budget reads `budget YEAR KIND AMOUNT CUR [income]`.
func (r *reader) budget(b *block) {
	r.body(b)
	w := r.header(b)
	budget := &season.Budget{At: place(b.f, b.head)}
	year, yearTok, ok := w.integer("a year", firstYear, lastYear)
	if budget.Year = year; !ok {
		return
	}
	tok, kind, ok := w.handle("what it is for (hall-hire ...)")
	if budget.Kind = kind; !ok || !w.fills(&budget.Money, noSign) {
		return
	}
	budget.Income = w.accept("income")
	w.ahead = []string{"income"}
	budget.Remark = w.end()
	if i := slices.IndexFunc(r.out.Budgets, func(o *season.Budget) bool {
		return o.Year == budget.Year && o.Kind == kind && o.Income == budget.Income && o.Money.Currency == budget.Money.Currency
	}); i >= 0 && !w.failed {
		w.fail(tok, definedTwice, "the budget of", kind, placeText(r.out.Budgets[i].At))
	}
	if !w.failed {
		r.out.Budgets = append(r.out.Budgets, budget)
		r.namesYear(b, yearTok, year)
		r.money = append(r.money, &moneyLine{f: b.f, at: budget.At, verb: b.kind, head: b.headToken(0), kind: tok, kindName: kind, budget: budget})
	}
}

// agreed reads `agreed YEAR AMOUNT CUR`; a loss is below zero.
func (r *reader) agreed(b *block) {
	r.body(b)
	w := r.header(b)
	a := &season.Agreed{At: place(b.f, b.head)}
	year, tok, ok := w.integer("a year", firstYear, lastYear)
	if a.Year = year; !ok || !w.fills(&a.Money, belowZero) {
		return
	}
	a.Remark = w.end()
	if i := slices.IndexFunc(r.out.Agreed, func(o *season.Agreed) bool { return o.Year == year && o.Money.Currency == a.Money.Currency }); i >= 0 && !w.failed {
		w.fail(tok, definedTwice, "the agreed result of", w.text(tok), placeText(r.out.Agreed[i].At))
	}
	if !w.failed {
		r.out.Agreed = append(r.out.Agreed, a)
		r.namesYear(b, tok, year)
		r.agreedAs = append(r.agreedAs, agreedLine{a, &moneyLine{f: b.f, at: a.At, verb: b.kind, head: b.headToken(0)}})
	}
}
