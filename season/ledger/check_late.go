package ledger

import (
	"cmp"
	"slices"

	"boxbook/season"
)

// checkLatePayments warns of a payment between a member and the club that is dated back into
// a year whose result is agreed: it stands right behind a line of a later year, in a file
// with payments before it, or at its end. A remark says that it is right. Where the lines
// of a file are not by date, nothing is said.
func (r *reader) checkLatePayments() {
	if len(r.agreedAs) == 0 {
		return
	}
	lines := slices.DeleteFunc(slices.Clone(r.money), func(line *moneyLine) bool { return !line.typed })
	slices.SortFunc(lines, func(a, b *moneyLine) int {
		return cmp.Or(cmp.Compare(a.at.File, b.at.File), cmp.Compare(a.at.Line, b.at.Line))
	})
	var file string
	paid := false // a payment of the file was seen
	for i, line := range lines {
		if line.at.File != file {
			file, paid = line.at.File, false
		}
		s := line.settlement
		if s == nil {
			continue
		}
		last := i+1 == len(lines) || lines[i+1].at.File != file
		behind := i > 0 && lines[i-1].at.File == file && r.out.YearOf(lines[i-1].date) > r.out.YearOf(s.Date)
		if agreed, is := r.agreedBefore(line); is && behind && (paid || last) && !line.repeats && !r.explains(s.Remark) && (s.From.Club() || s.To.Club()) {
			r.at(line.f, line.dateOrHead(), latePayment, s.Date, agreed.Year, lineText(agreed.At, line.f)).hinted(messages[latePayment].hint, agreed.Year)
		}
		paid = true
	}
}

// agreedBefore is the agreed result of a payment's year, in its currency, that does not stand
// behind it.
func (r *reader) agreedBefore(line *moneyLine) (*season.Agreed, bool) {
	for _, agreed := range r.agreedAs {
		s, behind := line.settlement, agreed.at.File == line.at.File && agreed.at.Line > line.at.Line
		if agreed.Year == r.out.YearOf(s.Date) && (agreed.Money.Currency == s.Money.Currency || agreed.Money.Currency == s.Paid.Currency) && !behind {
			return agreed.Agreed, true
		}
	}
	return nil, false
}
