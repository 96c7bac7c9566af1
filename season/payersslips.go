package season

import "slices"

// PayersSlip is a payment that what was owed on its day shows to be a slip.
type PayersSlip struct {
	Settlement *Settlement
	// Owed is what was to be paid: by who was paid, where the payment is typed the
	// wrong way round, else by who paid.
	Owed     Money
	WrongWay bool
	side     Side
	count    int
	before   int64
}

// PayersSlips finds payments, but those that repeats says are another one typed again,
//
//   - by somebody who was owed exactly as much by the one paid, or a charge of as much, as
//     when the two are in the wrong order, unless the one paid owed no more later than
//     before: money that was lent, or for what was to come;
//   - of more than all that was owed, which is ten times that or a charge of it, or that
//     with its point elsewhere or two digits swapped, unless the two were even later, or
//     the payer had paid ahead before.
//
// Who paid among others as fewest payments would have it made neither.
func PayersSlips(postings []Posting, repeats func(*Settlement) bool) []PayersSlip {
	accounts, among, ahead := NewAccounts(), Balances{}, map[standing]bool{}
	var found []PayersSlip
	for _, p := range postings {
		c, private := p.Money.Currency, !p.Debtor.Club() && !p.Creditor.Club()
		if s := p.Settlement; s != nil && p.Money.Minor > 0 {
			side := accounts.Between(s.From, s.To, c)
			pooled := private && -among[Account{s.From, c}] >= p.Money.Minor && among[Account{s.To, c}] >= p.Money.Minor
			key := standing{s.From, s.To, c}
			slip, is := payersSlip(s, p.Money, side)
			if is && !pooled && !repeats(s) && (slip.WrongWay || !ahead[key]) {
				found = append(found, slip)
			}
			ahead[key] = ahead[key] || side.Owes() < p.Money.Minor && !is
		}
		accounts.Post(p)
		if private {
			among[Account{Party: p.Creditor, Currency: c}] += p.Money.Minor
			among[Account{Party: p.Debtor, Currency: c}] -= p.Money.Minor
		}
	}
	return slices.DeleteFunc(found, PayersSlip.explained)
}

// payersSlip is the slip that a payment of some money looks like before it is posted.
func payersSlip(s *Settlement, money Money, payer Side) (PayersSlip, bool) {
	slip := PayersSlip{Settlement: s, Owed: money, side: payer, count: payer.Count() + 1, before: payer.Owes()}
	paid := Side{payer.of, -payer.sign}
	switch owes := payer.Owes(); {
	case owes < 0:
		slip.WrongWay = true
		return slip, -owes == money.Minor || -owes > money.Minor && len(paid.Open(money.Minor)) > 0
	case owes == 0 || owes >= money.Minor || s.Paid.Currency != money.Currency:
		return slip, false
	}
	meant := append(money.DigitsSwapped(), money.PointMoved()...)
	if money.Minor%10 == 0 {
		meant = append(meant, Money{money.Minor / 10, money.Currency})
	}
	for _, whole := range []bool{true, false} {
		for _, m := range meant {
			if m.Minor == payer.Owes() || !whole && m.Minor < payer.Owes() && len(payer.Open(m.Minor)) > 0 {
				slip.Owed = m
				return slip, true
			}
		}
	}
	return slip, false
}

// explained reports whether what came later shows that a payment was none.
func (p PayersSlip) explained() bool {
	if !p.WrongWay {
		return p.side.EvenSince(p.count)
	}
	paid := Side{p.side.of, -p.side.sign}
	least, more := paid.LeastSince(p.count)
	return more && least <= -p.before
}
