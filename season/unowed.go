package season

// EachUnowed visits the payments for which nothing was owed between the two on their day in
// the currency of the debt, but those of nothing and those that repeats says are another
// one typed again. Between two who are not the club a payment is in order too where the
// one owes and the other is owed among them all, as when debts are settled with the fewest
// payments; and between any where lines of both ways are open that come to the same, of
// which it pays one, or all of one way. Between is what stood between each two then.
func EachUnowed(postings []Posting, repeats func(*Settlement) bool, visit func(s *Settlement, money Money, between Standing)) {
	between, among, lines := Standing{}, Balances{}, grossLines{}
	for _, p := range postings {
		c, private := p.Money.Currency, !p.Debtor.Club() && !p.Creditor.Club()
		if s := p.Settlement; s != nil && p.Money.Minor != 0 && between.Owes(s.From, s.To, c) == 0 && !repeats(s) {
			pooled := private && among[Account{Party: s.From, Currency: c}] < 0 && among[Account{Party: s.To, Currency: c}] > 0
			if !pooled && !lines.pays(s, p.Money) {
				visit(s, p.Money, between)
			}
		}
		between.Post(p)
		lines.post(p, between)
		if private {
			among[Account{Party: p.Creditor, Currency: c}] += p.Money.Minor
			among[Account{Party: p.Debtor, Currency: c}] -= p.Money.Minor
		}
	}
}

// openDays is how long a line of the one way may be paid by itself though one of the other
// way makes up for it.
const openDays = 366

// grossLines are the lines by which one owes another, whatever is owed the other way, since
// a payment made the two even.
type grossLines map[standing]*grossSide

// grossSide is what its lines come to, less what was paid, with the day of the last line of
// each amount that no payment of as much has paid, and of the last of all.
type grossSide struct {
	sum  int64
	days map[int64]Date
	last Date
}

// pays reports whether a payment is of a line that is open, or of all that are.
func (g grossLines) pays(s *Settlement, money Money) bool {
	side := g[standing{s.From, s.To, money.Currency}]
	if side == nil {
		return false
	}
	day, open := side.days[money.Minor]
	return open && s.Date-day <= openDays || side.sum == money.Minor && s.Date-side.last <= openDays
}

// post adds a posting; between has it already.
func (g grossLines) post(p Posting, between Standing) {
	key, other := standing{p.Debtor, p.Creditor, p.Money.Currency}, standing{p.Creditor, p.Debtor, p.Money.Currency}
	switch s := p.Settlement; {
	case s == nil && p.Money.Minor > 0:
		if g[key] == nil {
			g[key] = &grossSide{days: map[int64]Date{}}
		}
		side := g[key]
		side.sum, side.days[p.Money.Minor], side.last = side.sum+p.Money.Minor, p.Date, p.Date
	case s != nil && p.Money.Minor != 0 && between.Owes(p.Debtor, p.Creditor, p.Money.Currency) == 0:
		delete(g, key)
		delete(g, other)
	case s != nil && g[other] != nil:
		delete(g[other].days, p.Money.Minor)
		g[other].sum -= p.Money.Minor
	}
}
