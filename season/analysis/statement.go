package analysis

import (
	"cmp"
	"fmt"
	"slices"

	"boxbook/season"
)

// Statement is one party's money in a financial year: every line of the ledger
// that is about it, how one balance comes from the other, and what makes it even.
// The balances and the payments are the year's own.
type Statement struct {
	Party    season.Party
	Lines    []StatementLine    // by date; on one day costs and debts before settlements
	Accounts []StatementAccount // by currency
	Payments []Payment          // that it pays or gets
	Owed     []OwedClub         // what it owes the club
	Club     []StandsWithClub   // how that came about, by currency
	// Transfers are what of settlements of the year settled debts in a chain of which the
	// party is one; Netted what stands with others and comes to nothing.
	Transfers []Transfer
	Netted    []Stands
	// Among is what stands between it and other members; Direct: its payments with them are
	// just that, in one currency converted and rounded.
	Among  []Stands
	Direct bool
	// InQuestion are payments with which may have been paid what the party is asked for.
	InQuestion []Unowed
	Since      int // lines with others after the year, up to the ledger's AsOf
}

// StatementLine is a line of the ledger as a party has it. One of Cost,
// Settlement and Debt is set. Share is what the line was for the party, Out what
// the party paid, In what it received; Change is what the line did to its balance,
// and Running the balance of that currency afterwards. With are the others that the
// line is about; where there are none it is in nobody's balance. Unpaid says that the
// party still owes the club something of it, what it paid taken for what was oldest;
// Open is how much that is of a bill of the club.
type StatementLine struct {
	Date       season.Date
	Cost       *season.Cost
	Settlement *season.Settlement
	Debt       *season.Debt
	With       []season.Party
	Amount     season.Money // of the whole line
	Share      int64
	Out        int64
	In         int64
	Change     int64
	Running    int64
	Unpaid     bool
	Open       int64
}

// Alone reports whether the line is about nobody else.
func (s StatementLine) Alone() bool { return len(s.With) == 0 }

// StatementAccount is how a party's balance in a currency came about, in minor
// units; positive is owed to the party. Own and OwnIncome are of lines about nobody
// else, which no balance has; the others are of all the rest.
//
//	Closing = Opening - Share + Out - In + Owed
type StatementAccount struct {
	Currency season.Currency
	Opening  int64
	Share    int64
	Out      int64
	In       int64
	Owed     int64 // older debts entered in the year
	Closing  int64
	Own      int64
	Income   int64
}

// Statements are those of the parties named, in their order. The error is for
// statements that do not add up to the year's balances, which is a fault of the
// program.
func Statements(l *season.Ledger, y YearSummary, parties []season.Party) ([]Statement, error) {
	var all []Statement
	transfers, book := transfersOf(l, y.Year)
	unowed, lines := unowedPayments(l), linesOf(l)
	for _, p := range parties {
		s, err := lines.statementOf(l, y, p)
		if err != nil {
			return nil, err
		}
		if !p.Club() {
			s.Transfers = slices.DeleteFunc(slices.Clone(transfers), func(t Transfer) bool { return !slices.Contains(t.Parties(), p) })
			s.Among = book.among(l, p)
			s.Netted, s.Direct = y.netted(s.Among, s.Payments), y.direct(p, s.Among, s.Payments)
			s.InQuestion = s.inQuestion(unowed, l, y)
		}
		all = append(all, s)
	}
	return all, nil
}

// Stated are the parties but the club with a line in a year or an open balance, in
// the order of parties.
func Stated(l *season.Ledger, y YearSummary) []season.Party {
	var found []season.Party
	lines := linesOf(l)
	for _, p := range l.Parties() {
		if !p.Club() && (len(y.accountsOf(p)) > 0 || len(lines.in(l, y.Year, p)) > 0) {
			found = append(found, p)
		}
	}
	return found
}

// statementBook is a ledger's money by line, worked out once for the statements of all.
type statementBook struct {
	movements []season.Movement
	postings  []season.Posting
}

func linesOf(l *season.Ledger) statementBook {
	return statementBook{season.Movements(l), season.Postings(l)}
}

func (b statementBook) statementOf(l *season.Ledger, y YearSummary, p season.Party) (Statement, error) {
	s := Statement{Party: p, Lines: b.in(l, y.Year, p)}
	accounts := map[season.Currency]*StatementAccount{}
	in := func(c season.Currency) *StatementAccount {
		if accounts[c] == nil {
			accounts[c] = &StatementAccount{Currency: c}
		}
		return accounts[c]
	}
	for _, a := range y.accountsOf(p) {
		at := in(a.Currency)
		at.Opening, at.Closing = a.Opening, a.Opening
	}
	for i := range s.Lines {
		s.Lines[i].enter(in(s.Lines[i].Amount.Currency))
	}
	for _, a := range y.accountsOf(p) {
		if at := in(a.Currency); at.Closing != a.Closing {
			return s, fmt.Errorf("internal error in the statement of %s: %s carried out %d, the year has %d", p.Name(), a.Currency.Code, at.Closing, a.Closing)
		}
	}
	for _, a := range accounts {
		s.Accounts = append(s.Accounts, *a)
	}
	slices.SortFunc(s.Accounts, func(a, b StatementAccount) int { return compareCurrencies(a.Currency, b.Currency) })
	s.Payments, s.Since = paymentsOf(y.Payments, p), b.since(l, y, p)
	s.Club = standsWithClub(l, b.postings, y.Year, p)
	for _, o := range y.Owed {
		if o.Party == p {
			s.Owed = append(s.Owed, o)
			s.markUnpaid(o)
		}
	}
	return s, nil
}

// markUnpaid marks the lines of which something is not paid, and says of the club's
// bills how much.
func (s *Statement) markUnpaid(o OwedClub) {
	for _, d := range o.Debts {
		for i := range s.Lines {
			line := &s.Lines[i]
			if d.Posting.Cost == nil || line.Cost != d.Posting.Cost {
				continue
			}
			if line.Unpaid = true; billed(d.Posting) {
				line.Open = d.Money.Minor
			}
		}
	}
}

// since counts the lines after a year that change a party's balance.
func (b statementBook) since(l *season.Ledger, y YearSummary, p season.Party) int {
	n := 0
	for _, m := range b.movements {
		if !y.followedBy(l, m.Date) {
			continue
		}
		if line, about := lineOf(m, p); about && !line.Alone() {
			n++
		}
	}
	return n
}

// LinesAfter counts the costs, incomes, settlements and debts after a year, up to the
// ledger's AsOf.
func LinesAfter(l *season.Ledger, y YearSummary) int {
	n := 0
	EachMoneyLine(l, func(m MoneyLine) {
		if m.Count == nil && y.followedBy(l, m.Date) {
			n++
		}
	})
	return n
}

// followedBy reports whether a day is after the year, and not after the ledger's AsOf.
func (y YearSummary) followedBy(l *season.Ledger, d season.Date) bool { return d > y.Last && l.Past(d) }

// enter adds the line to its account.
func (s *StatementLine) enter(a *StatementAccount) {
	a.Closing += s.Change
	s.Running = a.Closing
	switch {
	case s.Alone():
		a.Own += s.Share
		a.Income += s.In
	case s.Debt != nil:
		a.Owed += s.Change
	default:
		a.Share += s.Share
		a.Out += s.Out
		a.In += s.In
	}
}

// paymentsOf are those that a party pays or gets.
func paymentsOf(all []Payment, p season.Party) []Payment {
	return slices.DeleteFunc(slices.Clone(all), func(q Payment) bool { return q.From != p && q.To != p })
}

// accountsOf are the year's accounts of a party.
func (y YearSummary) accountsOf(p season.Party) []YearAccount {
	if p.Club() {
		return y.Club.Accounts
	}
	for _, pilot := range y.Pilots {
		if pilot.Pilot == p.Pilot {
			return pilot.Accounts
		}
	}
	for _, other := range y.Others {
		if other.Party == p {
			return other.Accounts
		}
	}
	return nil
}

// in are the lines of a year that are about a party.
func (b statementBook) in(l *season.Ledger, year int, p season.Party) []StatementLine {
	var lines []StatementLine
	for _, m := range b.movements {
		if !pastIn(l, year, m.Date) {
			continue
		}
		if line, about := lineOf(m, p); about {
			lines = append(lines, line)
		}
	}
	for _, c := range l.Costs {
		if c.Income && c.For[0] == p && pastIn(l, year, c.Date) {
			lines = append(lines, StatementLine{Date: c.Date, Cost: c, Amount: c.Money, In: c.Money.Minor})
		}
	}
	slices.SortStableFunc(lines, func(a, b StatementLine) int { return cmp.Compare(a.Date, b.Date) })
	return lines
}

// lineOf is a movement as a party has it; false where it is not about the party.
func lineOf(m season.Movement, p season.Party) (line StatementLine, about bool) {
	line = StatementLine{Date: m.Date, Cost: m.Cost, Settlement: m.Settlement, Debt: m.Debt}
	for _, c := range m.Changes {
		if c.Party == p {
			line.Change += c.Minor
			about = true
		}
	}
	switch {
	case m.Cost != nil:
		line.ofCost(m.Cost, p)
	case m.Settlement != nil:
		line.Amount = m.Settlement.Money
		line.between(m.Settlement.From, m.Settlement.To, p)
		if m.Settlement.From == p {
			line.Out = line.Amount.Minor
		} else {
			line.In = line.Amount.Minor
		}
	default:
		line.Amount = m.Debt.Money
		line.between(m.Debt.From, m.Debt.To, p)
	}
	return line, about
}

// between names the other of two.
func (s *StatementLine) between(a, b, p season.Party) {
	if a == p {
		a = b
	}
	s.With = []season.Party{a}
}

// ofCost is a party's part of a cost: with who paid it or, where that is the party,
// with those it was for and with the club that received it.
func (s *StatementLine) ofCost(c *season.Cost, p season.Party) {
	s.Amount = c.Money
	for i, share := range c.Shares() {
		if c.For[i] == p {
			s.Share += share
		}
	}
	if c.By != p {
		s.With = []season.Party{c.By}
		return
	}
	s.Out = c.Money.Minor
	for _, other := range c.For {
		if other != p {
			s.With = append(s.With, other)
		}
	}
	if club := (season.Party{}); c.ToClub && p != club && !slices.Contains(s.With, club) {
		s.With = append(s.With, club)
	}
}
