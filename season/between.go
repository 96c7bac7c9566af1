package season

import "slices"

// Accounts are what stands between each two, in each currency, as postings come.
type Accounts struct {
	of    map[standing]*account
	sides map[standing]*account // seen from the other one
}

// account is what a debtor owes a creditor. Steps are what that was after each posting;
// open are the charges, by amount, that no payment of exactly as much has paid yet, those
// of the other way round below zero.
type account struct {
	owes  int64
	steps []int64
	open  map[int64][]Posting
	least []int64 // of each step and all behind it, once that was asked
	most  []int64
	even  int // after how many postings nothing stood between the two, the last time
}

// Side is an account as seen from one of the two.
type Side struct {
	of   *account
	sign int64
}

// NewAccounts are accounts without a posting.
func NewAccounts() Accounts { return Accounts{map[standing]*account{}, map[standing]*account{}} }

// Between is what a debtor owes a creditor in a currency.
func (a Accounts) Between(debtor, creditor Party, c Currency) Side {
	key := standing{debtor, creditor, c}
	if of := a.of[key]; of != nil {
		return Side{of, 1}
	}
	if of := a.sides[key]; of != nil {
		return Side{of, -1}
	}
	of := &account{open: map[int64][]Posting{}}
	a.of[key], a.sides[standing{creditor, debtor, c}] = of, of
	return Side{of, 1}
}

// Post adds a posting.
func (a Accounts) Post(p Posting) {
	s := a.Between(p.Debtor, p.Creditor, p.Money.Currency)
	of, minor := s.of, s.sign*p.Money.Minor
	switch open := of.open[-minor]; {
	case len(open) > 0:
		of.open[-minor] = open[1:]
	case p.Settlement == nil && minor != 0:
		of.open[minor] = append(of.open[minor], p)
	}
	of.owes += minor
	of.steps = append(of.steps, of.owes)
	if of.owes == 0 {
		of.even = len(of.steps)
	}
}

// Owes is what the debtor owes, below zero where the other one does.
func (s Side) Owes() int64 { return s.sign * s.of.owes }

// Open are the charges of an amount that the debtor has not paid by a payment of as much,
// the oldest first.
func (s Side) Open(minor int64) []Posting { return s.of.open[s.sign*minor] }

// Count is how many postings there were.
func (s Side) Count() int { return len(s.of.steps) }

// LeastSince is the least that the debtor owed after more than so many postings, now that
// all are there; false where there were no more.
func (s Side) LeastSince(count int) (int64, bool) {
	of := s.of
	if count >= len(of.steps) {
		return 0, false
	}
	if len(of.least) != len(of.steps) {
		of.least, of.most = slices.Clone(of.steps), slices.Clone(of.steps)
		for i := len(of.steps) - 2; i >= 0; i-- {
			of.least[i] = min(of.least[i], of.least[i+1])
			of.most[i] = max(of.most[i], of.most[i+1])
		}
	}
	if s.sign < 0 {
		return -of.most[count], true
	}
	return of.least[count], true
}

// EvenSince reports whether nothing stood between the two after more than so many postings.
func (s Side) EvenSince(count int) bool { return s.of.even > count }
