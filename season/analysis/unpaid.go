package analysis

import (
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
// close of a year, oldest first, by its postings and payments with the club.
//
// A refund takes away the charge of its amount; a later payment of exactly a bill's
// amount paid that bill, and one of exactly all bills and older debts that are left on
// its day paid those; beside unpaid bills, one of another debt's amount paid that
// debt (without one it pays what is oldest: answers of version 1 hold that). What the club
// paid out went to what the party had laid out, or had paid too much, and makes no bill
// unpaid; what is paid out beyond that is a debt of its own. Every other payment paid
// what was oldest: of what is left the latest is open, bill or not, until what is
// owed is all accounted for.
func openDebts(l *season.Ledger, year int, p season.Party, owed season.Money, postings []season.Posting, payments []*season.Settlement) []OpenDebt {
	w := clubLines{party: p, currency: owed.Currency, counts: func(d season.Date) bool { return l.Past(d) && l.YearOf(d) <= year }}
	w.read(postings, payments)
	w.takeRefunds()
	w.payExactly(true)
	w.payTogether()
	if slices.ContainsFunc(w.debts, billed) {
		w.payExactly(false)
	}
	w.returnPayments()
	debts, payouts := w.open(owed.Minor)
	open := append(latestOf(w.debts, debts, owed.Currency), latestOf(w.payouts, payouts, owed.Currency)...)
	slices.SortStableFunc(open, func(a, b OpenDebt) int { return int(a.Posting.Date - b.Posting.Date) })
	return open
}

// clubLines are what stands between a party and the club in a currency, line by line:
// what it was charged and owed since before, what the club paid it, what it paid the club,
// and what else it is owed, what it laid out or was refunded. Lines that belong
// together are taken out.
type clubLines struct {
	party    season.Party
	currency season.Currency
	counts   func(season.Date) bool
	debts    []season.Posting
	payouts  []season.Posting
	payments []*season.Settlement
	credits  []season.Posting
}

func (w *clubLines) read(postings []season.Posting, payments []*season.Settlement) {
	for _, post := range postings {
		if post.Money.Currency != w.currency || !w.counts(post.Date) {
			continue
		}
		switch owes := owesClub(post, w.party); {
		case owes > 0 && post.Settlement != nil:
			w.payouts = append(w.payouts, post)
		case owes > 0:
			w.debts = append(w.debts, post)
		case owes < 0 && post.Settlement == nil:
			w.credits = append(w.credits, post)
		}
	}
	for _, s := range payments {
		if s.Money.Currency == w.currency && w.counts(s.Date) {
			w.payments = append(w.payments, s)
		}
	}
}

// takeRefunds takes out charges that were refunded whole, with the refund: the latest
// one before it of its kind and contest.
func (w *clubLines) takeRefunds() {
	w.credits = slices.DeleteFunc(w.credits, func(credit season.Posting) bool {
		if credit.Cost == nil || credit.Debtor != w.party {
			return false
		}
		for i, debt := range slices.Backward(w.debts) {
			same := debt.Cost != nil && debt.Debtor == w.party && debt.Cost.Kind == credit.Cost.Kind && debt.Cost.Contest == credit.Cost.Contest
			if same && debt.Money.Minor == -credit.Money.Minor && debt.Date <= credit.Date {
				w.debts = slices.Delete(w.debts, i, i+1)
				return true
			}
		}
		return false
	})
}

// payExactly takes out bills, or the other debts, that a later payment of their amount
// paid, each with a payment of its own.
func (w *clubLines) payExactly(bills bool) {
	w.debts = slices.DeleteFunc(w.debts, func(debt season.Posting) bool {
		if billed(debt) != bills {
			return false
		}
		owes := owesClub(debt, w.party)
		return w.takePayment(func(s *season.Settlement) bool { return s.Money.Minor == owes && s.Date >= debt.Date })
	})
}

// payTogether takes out the bills and the debts from before the ledger that one payment
// paid, all that were left on its day.
func (w *clubLines) payTogether() {
	w.payments = slices.DeleteFunc(w.payments, func(s *season.Settlement) bool {
		left := func(debt season.Posting) bool { return debt.Date <= s.Date && (billed(debt) || debt.Debt != nil) }
		sum, bills := int64(0), 0
		for _, debt := range w.debts {
			if left(debt) {
				sum += owesClub(debt, w.party)
			}
			if left(debt) && billed(debt) {
				bills++
			}
		}
		if bills == 0 || sum != s.Money.Minor {
			return false
		}
		w.debts = slices.DeleteFunc(w.debts, left)
		return true
	})
}

// returnPayments takes out payments that paid nothing exactly and that the club gave
// back, with what it paid for that: unless the party had laid out the same.
func (w *clubLines) returnPayments() {
	w.payouts = slices.DeleteFunc(w.payouts, func(payout season.Posting) bool {
		for i, credit := range w.credits {
			if -owesClub(credit, w.party) == payout.Money.Minor {
				w.credits = slices.Delete(w.credits, i, i+1)
				return true
			}
		}
		return w.takePayment(func(s *season.Settlement) bool { return s.Money == payout.Money && s.Date <= payout.Date })
	})
}

// takePayment takes out the first payment that fits, and reports whether there was one.
func (w *clubLines) takePayment(fits func(*season.Settlement) bool) bool {
	i := slices.IndexFunc(w.payments, fits)
	if i >= 0 {
		w.payments = slices.Delete(w.payments, i, i+1)
	}
	return i >= 0
}

// open divides what is owed into what is open of debts and of what the club paid out:
// that went to what the party had laid out before that pays a debt, and payments pay
// debts before they do.
func (w *clubLines) open(owed int64) (debts, payouts int64) {
	for _, post := range w.payouts {
		payouts += owesClub(post, w.party)
	}
	for _, post := range w.credits {
		payouts += owesClub(post, w.party)
	}
	payouts = min(max(payouts, 0), owed)
	return owed - payouts, payouts
}

// latestOf are the latest of some postings that come to so much, the oldest in part.
func latestOf(postings []season.Posting, left int64, c season.Currency) []OpenDebt {
	var open []OpenDebt
	for _, post := range slices.Backward(postings) {
		if left <= 0 {
			break
		}
		minor := min(max(post.Money.Minor, -post.Money.Minor), left)
		open = append(open, OpenDebt{post, season.Money{Minor: minor, Currency: c}})
		left -= minor
	}
	slices.Reverse(open)
	return open
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

// paymentsToClub are each party's, by date.
func paymentsToClub(l *season.Ledger) map[season.Party][]*season.Settlement {
	by := map[season.Party][]*season.Settlement{}
	for _, s := range l.Settlements {
		if s.To.Club() {
			by[s.From] = append(by[s.From], s)
		}
	}
	for _, paid := range by {
		slices.SortStableFunc(paid, func(a, b *season.Settlement) int { return int(a.Date - b.Date) })
	}
	return by
}
