package analysis

import "boxbook/season"

// agreedResults are the results that were agreed, and how far from each the lines come.
type agreedResults struct {
	l   *season.Ledger
	off []int64 // of each of the ledger's
}

// resultsAgreed works out once how far all of a ledger's results are from those agreed.
func resultsAgreed(l *season.Ledger) agreedResults {
	r := agreedResults{l, make([]int64, len(l.Agreed))}
	for i, a := range l.Agreed {
		r.off[i] = l.ClubResult(a.Year, a.Money.Currency) - a.Money.Minor
	}
	return r
}

// say says of which year the agreed result fits if a line is of another day, 0 for none,
// and whether one fits that would not.
func (r agreedResults) say(s Slip, meant season.Date) (fits int, against bool) {
	if s.Cost == nil || s.Cost.ClubResult() == 0 {
		return 0, false
	}
	own, other := r.l.YearOf(s.Date), r.l.YearOf(meant)
	if own == other {
		return 0, false
	}
	for i, a := range r.l.Agreed {
		alone := s.Cost.ClubResult()
		switch {
		case a.Money.Currency != s.Cost.Money.Currency || a.Year != own && a.Year != other:
			continue
		case a.Year == other:
			alone = -alone
		}
		switch r.off[i] {
		case 0:
			return 0, true
		case alone:
			fits = a.Year
		}
	}
	return fits, false
}
