package ledger

import (
	"slices"
	"strings"

	"boxbook/season"
)

// cost reads `cost DATE KIND AMOUNT CUR [each] for WHO... [by WHO] [to club]
// [receipt WORD]`.
func (r *reader) cost(b *block) {
	r.body(b)
	w := r.header(b)
	line := &moneyLine{f: b.f, at: place(b.f, b.head), verb: b.kind, head: b.headToken(0)}
	if !w.typedDate(line) || !w.costRest(line, nil) {
		r.lostMoney = true
	}
}

// contestCost reads a cost inside a contest: without a date the contest's
// first day is taken.
func (r *reader) contestCost(contest *season.Contest, l bodyLine) {
	line := &moneyLine{f: l.f, at: place(l.f, l.line), verb: l.name(), head: l.key, date: contest.First}
	if startsLikeDate(l.peek()) && !l.typedDate(line) || !l.costRest(line, contest) {
		r.lostMoney = true
	}
}

// typedDate takes the date of a line about money. ok is false where the line
// cannot be read on: a date that is written badly was one, and spoils no more.
func (w *words) typedDate(line *moneyLine) (ok bool) {
	line.date, line.dated, line.typed = w.date()
	return line.typed || w.badDay(line.dated)
}

// badDay reports whether a word that is no date stands where it was to be, by
// itself: the rest of the line is then read as behind a date.
func (w *words) badDay(tok token) bool {
	text := w.text(tok)
	if !startsLikeDate(text) || strings.Trim(text, "0123456789-./") != "" {
		return false
	}
	w.failed, w.spoilt = false, true
	return true
}

// costRest reads a cost from its kind on.
func (w *words) costRest(line *moneyLine, contest *season.Contest) bool {
	c := &season.Cost{Date: line.date, Contest: contest, At: line.at}
	var ok bool
	if line.kind, c.Kind, ok = w.handle("what it was for (entry, fuel ...)"); !ok {
		return false
	}
	if c.Money, ok = w.lineMoney(line, refundSign); !ok {
		return false
	}
	c.Each = w.accept(eachWord)
	if !w.accept("for") {
		w.absent("`for` and who it was for")
		return false
	}
	if !w.costPeople(c) {
		return false
	}
	c.Receipt = w.receipt()
	w.late([]string{eachWord, "for", "by", "to", receiptWord}, "each, for, by, to club, receipt WORD")
	w.ahead = []string{receiptWord}
	c.Remark = w.end()
	if w.failed {
		return false
	}
	if c.ForItself() {
		w.r.at(line.f, line.head, clubToClub)
	}
	line.cost, line.kindName = c, c.Kind
	w.r.out.Costs = append(w.r.out.Costs, c)
	w.r.money = append(w.r.money, line)
	return true
}

// lineMoney takes the amount of a line about money.
func (w *words) lineMoney(line *moneyLine, signed sign) (season.Money, bool) {
	at := w.i
	money, ok := w.money(signed)
	if ok && money.Minor == 0 {
		line.zeros = append(line.zeros, w.f.tokens[at])
	}
	return money, ok
}

// receiptWord stands before the number of a slip.
const receiptWord = "receipt"

// receipt takes `receipt WORD` where it stands.
func (w *words) receipt() string {
	if !w.accept(receiptWord) {
		return ""
	}
	tok, ok := w.word("the slip's number")
	if !ok {
		return ""
	}
	if _, known := w.r.partyNamed(w.text(tok)); known && !strings.ContainsAny(w.text(tok), "0123456789") {
		w.r.at(w.f, tok, receiptName, w.text(tok))
	}
	return w.text(tok)
}

// late reports a word of the line that stands behind what it should precede.
func (w *words) late(known []string, order string) {
	if word := w.peek(); slices.Contains(known, word) {
		w.fail(w.next(), tooLate, word, order)
	}
}

// income reads `income DATE KIND AMOUNT CUR [for WHO] [receipt WORD]`.
func (r *reader) income(b *block) {
	r.lostIncome = !r.readIncome(b) || r.lostIncome
}

func (r *reader) readIncome(b *block) bool {
	r.body(b)
	w := r.header(b)
	line := &moneyLine{f: b.f, at: place(b.f, b.head), verb: b.kind, head: b.headToken(0)}
	if !w.typedDate(line) {
		return false
	}
	c := &season.Cost{Date: line.date, Income: true, At: line.at, For: []season.Party{{}}}
	var ok bool
	if line.kind, c.Kind, ok = w.handle("what it was (sponsorship ...)"); !ok {
		return false
	}
	if c.Money, ok = w.lineMoney(line, noSign); !ok {
		return false
	}
	if w.accept("for") {
		if c.For[0], _, ok = w.party("who received it"); !ok {
			return false
		}
	}
	c.By = c.For[0]
	c.Receipt = w.receipt()
	w.ahead = []string{receiptWord}
	c.Remark = w.end()
	if w.failed {
		return false
	}
	line.cost, line.kindName = c, c.Kind
	r.out.Costs = append(r.out.Costs, c)
	r.money = append(r.money, line)
	return true
}

// transfer is the beginning of a line on which money stands between two.
type transfer struct {
	*words
	line     *moneyLine
	from, to season.Party
	money    season.Money
}

// transfer reads `DATE FROM TO AMOUNT CUR`.
func (r *reader) transfer(b *block, from, to string) (t transfer, ok bool) {
	r.body(b)
	t = transfer{words: r.header(b), line: &moneyLine{f: b.f, at: place(b.f, b.head), verb: b.kind, head: b.headToken(0)}}
	if !t.typedDate(t.line) {
		return t, false
	}
	if t.from, _, ok = t.partyOf(from); !ok {
		return t, false
	}
	var tok token
	if t.to, tok, ok = t.partyOf(to); !ok {
		return t, false
	}
	if t.from == t.to {
		t.fail(tok, sameParty, t.text(tok))
	}
	t.money, ok = t.lineMoney(t.line, noSign)
	return t, ok
}

// partyOf takes one of the two; an amount in the place of one is no name, nor is a currency,
// and a word between them is none.
func (t *transfer) partyOf(want string) (season.Party, token, bool) {
	word := t.peek()
	if _, known := t.r.partyNamed(word); word == "" || known {
		return t.party(want)
	}
	switch {
	case t.i < t.last && readsAsNumber(word), isCurrency(word):
		t.missing(want).advise(t.form(""))
	case slices.Contains(betweenTwo, word):
		first := ""
		if slices.Contains(turnsRound, word) && t.nth(1) != t.f.tokens[t.i-1] {
			first = "who " + t.pays() + " comes first: "
		}
		t.fail(t.f.tokens[t.i], unknownName, anyParty, word).advise(t.form(first))
	default:
		return t.party(want)
	}
	return season.Party{}, token{}, false
}

// betweenTwo are words that people write before or between the two of a payment; of those
// that turn it round who was paid stands first.
var (
	betweenTwo = append([]string{"->", "=>", "→", "paid", "pays", "owes", "for"}, slices.Concat(turnsRound, joiners)...)
	turnsRound = []string{"from", "by"}
)

// form says how the line is written.
func (t *transfer) form(first string) advice {
	if first == "" {
		first = "two names and nothing between: "
	}
	return hint(first + t.line.verb + " DATE WHO WHOM AMOUNT CUR")
}

// pays is what the first of the two does.
func (t *transfer) pays() string {
	if t.line.verb == "owed" {
		return "owes"
	}
	return "pays"
}

// settle reads `settle DATE PAYER RECEIVER AMOUNT CUR [for AMOUNT CUR] [receipt
// WORD]`.
func (r *reader) settle(b *block) {
	t, ok := r.transfer(b, "who paid", "who was paid")
	if !ok {
		r.lostMoney = true
		return
	}
	s := &season.Settlement{Date: t.line.date, From: t.from, To: t.to, Money: t.money, Paid: t.money, At: t.line.at}
	if t.accept("for") {
		s.Money = t.debtPaid(t.line, s.Paid)
	}
	s.Receipt = t.receipt()
	t.late([]string{"for", receiptWord}, "for Y CUR, receipt WORD")
	t.ahead = []string{receiptWord}
	s.Remark = t.end()
	if t.failed {
		r.lostMoney = true
		return
	}
	t.line.settlement = s
	r.out.Settlements = append(r.out.Settlements, s)
	r.money = append(r.money, t.line)
}

// debtPaid takes the debt that a settlement in another currency pays.
func (w *words) debtPaid(line *moneyLine, paid season.Money) season.Money {
	at := w.i
	debt, ok := w.lineMoney(line, noSign)
	if ok && debt.Currency == paid.Currency {
		w.fail(w.f.tokens[at+1], sameParty, debt.Currency.Code)
	}
	return debt
}

// owed reads `owed DATE DEBTOR CREDITOR AMOUNT CUR`.
func (r *reader) owed(b *block) {
	t, ok := r.transfer(b, "who owes", "who is owed")
	if !ok {
		r.lostMoney = true
		return
	}
	d := &season.Debt{Date: t.line.date, From: t.from, To: t.to, Money: t.money, Remark: t.end(), At: t.line.at}
	if t.failed {
		r.lostMoney = true
		return
	}
	r.out.Debts = append(r.out.Debts, d)
	r.money = append(r.money, t.line)
}

// rate reads `rate YEAR CUR x CUR`: one of the first is x of the second.
func (r *reader) rate(b *block) {
	r.body(b)
	w := r.header(b)
	year, yearTok, ok := w.integer("a year", firstYear, lastYear)
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
	r.checkRate(b, numTok, season.Rate{Year: year, From: from, To: to, Rate: number})
	if r.addRate(b, fromTok, toTok, &season.Rate{Year: year, From: from, To: to, Rate: number, At: place(b.f, b.head)}) {
		r.namesYear(b, yearTok, year)
	}
}

// addRate enters a rate, or reports false: one target currency a year, one rate a currency.
func (r *reader) addRate(b *block, fromTok, toTok int32, rate *season.Rate) bool {
	for _, other := range r.out.Rates {
		switch {
		case other.Year != rate.Year:
		case other.To != rate.To:
			r.at(b.f, b.f.tokens[toTok], rateTarget, rate.Year, other.To.Code, lineText(other.At, b.f))
			return false
		case other.From == rate.From:
			r.at(b.f, b.f.tokens[fromTok], rateTwice, rate.Year, rate.From.Code, lineText(other.At, b.f))
			return false
		}
	}
	r.out.Rates = append(r.out.Rates, rate)
	return true
}
