package season

// EachUnowed visits the payments for which nothing was owed between the two on their day in
// the currency of the debt, but those of nothing and those that repeats says are another
// one typed again. Between two who are not the club a payment is in order too where the
// one owes and the other is owed among them all, as when debts are settled with the fewest
// payments. Between is what stood between each two then.
func EachUnowed(postings []Posting, repeats func(*Settlement) bool, visit func(s *Settlement, money Money, between Standing)) {
	between, among := Standing{}, Balances{}
	for _, p := range postings {
		c, private := p.Money.Currency, !p.Debtor.Club() && !p.Creditor.Club()
		if s := p.Settlement; s != nil && p.Money.Minor != 0 && between.Owes(s.From, s.To, c) == 0 && !repeats(s) {
			pooled := private && among[Account{Party: s.From, Currency: c}] < 0 && among[Account{Party: s.To, Currency: c}] > 0
			if !pooled {
				visit(s, p.Money, between)
			}
		}
		between.Post(p)
		if private {
			among[Account{Party: p.Creditor, Currency: c}] += p.Money.Minor
			among[Account{Party: p.Debtor, Currency: c}] -= p.Money.Minor
		}
	}
}
