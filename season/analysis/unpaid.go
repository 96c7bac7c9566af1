package analysis

import (
	"cmp"
	"slices"

	"boxbook/season"
)

// UnpaidBill is what a party has not paid of a line that the club billed it.
type UnpaidBill struct {
	Party season.Party
	Money season.Money
	Cost  *season.Cost
}

// OpenDebt is what of a posting a party has not paid the club.
type OpenDebt struct {
	Posting season.Posting
	Money   season.Money
}

// openDebts are what a party's debt to the club in a currency is made of at the
// close of a year, oldest first, by its postings with the club.
//
// They are gone through day by day, so that what was entered with a later date never
// changes what a payment paid. A payment of exactly what was open of a debt paid
// that debt, a bill before others; one of exactly what was open of all bills and older
// debts paid those; every other paid what was oldest. A refund takes away the charge
// of its amount. What was paid too much, laid out by the party or refunded otherwise is
// its credit. A payment by the club uses credit up and makes no bill unpaid; what it
// comes to beyond that is a debt of its own. Credit left at the close goes to what is
// oldest.
func openDebts(l *season.Ledger, year int, p season.Party, c season.Currency, postings []season.Posting) []OpenDebt {
	return openDebtsUpTo(l, l.YearStart.Begin(year+1)-1, p, c, postings)
}

// openDebtsUpTo are those at the end of a day.
func openDebtsUpTo(l *season.Ledger, last season.Date, p season.Party, c season.Currency, postings []season.Posting) []OpenDebt {
	var lines []season.Posting
	for _, post := range postings {
		if post.Money.Currency == c && l.Past(post.Date) && post.Date <= last && owesClub(post, p) != 0 {
			lines = append(lines, post)
		}
	}
	slices.SortStableFunc(lines, func(a, b season.Posting) int {
		return cmp.Or(cmp.Compare(a.Date, b.Date), cmp.Compare(rankInDay(a, p), rankInDay(b, p)))
	})
	account := clubAccount{party: p}
	for _, post := range lines {
		account.enter(post)
	}
	return account.close(c)
}

// rankInDay is the order of a day: what was charged, what the party is owed, what it
// paid, and what the club paid it.
func rankInDay(post season.Posting, p season.Party) int {
	rank := 0
	if post.Settlement != nil {
		rank = 2
	}
	if owes := owesClub(post, p); (owes < 0) != (post.Settlement != nil) {
		rank++
	}
	return rank
}

// clubAccount is what stands between a party and the club in a currency: what it was
// charged and what of that is open, what the club paid it beyond its credit, and its
// credit. Loose are payments that paid no debt exactly.
type clubAccount struct {
	party   season.Party
	debts   []*clubDebt
	payouts []*clubDebt
	loose   []*clubPayment
	credit  int64
}

type clubDebt struct {
	posting      season.Posting
	amount, open int64
}

// clubPayment is a payment and what it paid of which debts; the rest was credit.
type clubPayment struct {
	amount int64
	parts  []paidPart
}

type paidPart struct {
	debt  *clubDebt
	minor int64
}

func (a *clubAccount) enter(post season.Posting) {
	switch owes := owesClub(post, a.party); {
	case owes > 0 && post.Settlement != nil:
		a.payOut(post, owes)
	case owes > 0:
		a.debts = append(a.debts, &clubDebt{post, owes, owes})
	case post.Settlement != nil:
		a.pay(-owes)
	case !a.refund(post):
		// what is laid out after an advance is what the advance was for
		a.credit += payOldest(a.payouts, -owes, nil)
	}
}

// refund takes out the charge that a refund gives back whole, the latest one of its
// kind and contest, and reports whether there was one. What was paid of it is credit.
func (a *clubAccount) refund(credit season.Posting) bool {
	if credit.Cost == nil || credit.Debtor != a.party {
		return false
	}
	for i, debt := range slices.Backward(a.debts) {
		of := debt.posting
		same := of.Cost != nil && of.Debtor == a.party && of.Cost.Kind == credit.Cost.Kind && of.Cost.Contest == credit.Cost.Contest
		if !same || of.Money.Minor != -credit.Money.Minor {
			continue
		}
		a.credit += debt.amount - debt.open
		a.debts = slices.Delete(a.debts, i, i+1)
		for _, s := range a.loose {
			s.parts = slices.DeleteFunc(s.parts, func(part paidPart) bool { return part.debt == debt })
		}
		return true
	}
	return false
}

// pay enters a payment by the party.
func (a *clubAccount) pay(amount int64) {
	if a.payExactly(amount) || a.payTogether(amount) {
		return
	}
	paid := &clubPayment{amount: amount}
	a.credit += payOldest(a.payouts, payOldest(a.debts, amount, paid), paid)
	a.loose = append(a.loose, paid)
}

// payExactly pays the debt of which an amount is open, the oldest of several: a bill
// before another debt, and that before what the club paid out. Whoever was never billed
// and pays enough for what is older than the ledger pays that first: answers of version 1
// hold it.
func (a *clubAccount) payExactly(amount int64) bool {
	fits := func(d *clubDebt) bool { return d.open == amount }
	bills := debtsThat(a.debts, func(d *clubDebt) bool { return billed(d.posting) })
	for _, of := range [][]*clubDebt{bills, a.debts, a.payouts} {
		i := slices.IndexFunc(of, fits)
		if i < 0 {
			continue
		}
		older := openOf(debtsThat(a.debts, func(d *clubDebt) bool { return d.posting.Debt != nil }))
		if len(bills) == 0 && of[i].posting.Debt == nil && older > 0 && older <= amount {
			return false
		}
		of[i].open = 0
		return true
	}
	return false
}

// payTogether pays all that is left of bills and of debts from before the ledger, where
// a payment is of exactly that.
func (a *clubAccount) payTogether(amount int64) bool {
	left := debtsThat(a.debts, func(d *clubDebt) bool {
		return d.open > 0 && (billed(d.posting) || d.posting.Debt != nil)
	})
	if openOf(left) != amount || !slices.ContainsFunc(left, func(d *clubDebt) bool { return billed(d.posting) }) {
		return false
	}
	payOldest(left, amount, nil)
	return true
}

// payOut enters a payment by the club: out of the party's credit; where that is not
// enough, a loose payment of its amount is taken as given back.
func (a *clubAccount) payOut(post season.Posting, amount int64) {
	left := amount
	i := slices.IndexFunc(a.loose, func(s *clubPayment) bool { return s.amount == amount })
	if a.credit < amount && i >= 0 {
		for _, part := range a.loose[i].parts {
			part.debt.open += part.minor
			left -= part.minor
		}
		a.loose = slices.Delete(a.loose, i, i+1)
	}
	used := min(a.credit, left)
	a.credit, left = a.credit-used, left-used
	if left > 0 {
		a.payouts = append(a.payouts, &clubDebt{post, left, left})
	}
}

// close lists what is open once the credit that is left has gone to what is oldest.
func (a *clubAccount) close(c season.Currency) []OpenDebt {
	payOldest(a.payouts, payOldest(a.debts, a.credit, nil), nil)
	var open []OpenDebt
	for _, d := range slices.Concat(a.debts, a.payouts) {
		if d.open > 0 {
			open = append(open, OpenDebt{d.posting, season.Money{Minor: d.open, Currency: c}})
		}
	}
	slices.SortStableFunc(open, func(a, b OpenDebt) int { return cmp.Compare(a.Posting.Date, b.Posting.Date) })
	return open
}

// payOldest pays debts one after the other, notes in a payment what it paid, where there
// is one, and gives back what is left of the amount.
func payOldest(debts []*clubDebt, amount int64, paid *clubPayment) int64 {
	for _, d := range debts {
		minor := min(d.open, amount)
		if minor == 0 {
			continue
		}
		d.open, amount = d.open-minor, amount-minor
		if paid != nil {
			paid.parts = append(paid.parts, paidPart{d, minor})
		}
	}
	return amount
}

func openOf(debts []*clubDebt) int64 {
	sum := int64(0)
	for _, d := range debts {
		sum += d.open
	}
	return sum
}

func debtsThat(debts []*clubDebt, are func(*clubDebt) bool) []*clubDebt {
	var all []*clubDebt
	for _, d := range debts {
		if are(d) {
			all = append(all, d)
		}
	}
	return all
}

// unpaidBills lists what is billed and not paid, by party as owed has them, the
// oldest first.
func unpaidBills(owed []OwedClub) []UnpaidBill {
	var all []UnpaidBill
	for _, o := range owed {
		for _, d := range o.Debts {
			if billed(d.Posting) {
				all = append(all, UnpaidBill{o.Party, d.Money, d.Posting.Cost})
			}
		}
	}
	return all
}

// billed reports whether a posting is of a line that the club billed.
func billed(p season.Posting) bool {
	return p.Cost != nil && p.Cost.ToClub && p.Cost.By.Club() && p.Money.Minor > 0
}

// postingsWithClub are the postings between each party and the club, by date: what
// is asked of every party is looked up once.
func postingsWithClub(l *season.Ledger) map[season.Party][]season.Posting {
	by := map[season.Party][]season.Posting{}
	for _, p := range season.Postings(l) {
		if p.Creditor.Club() {
			by[p.Debtor] = append(by[p.Debtor], p)
		} else if p.Debtor.Club() {
			by[p.Creditor] = append(by[p.Creditor], p)
		}
	}
	return by
}
