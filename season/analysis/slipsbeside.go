package analysis

import (
	"slices"
	"strings"

	"boxbook/season"
)

// slipsBeside lists the lines of which one would explain what is missing over some days, of
// several kinds of slips, those first for which more speaks: lines turned round, of another
// year that is still to come, or that an agreed result says as well; those of whose other
// year both it and a later count would be explained; lines that moved exactly what is
// missing; and lines of the year before or after. Where a line stands twice, the weaker
// ones are left out.
func slipsBeside(moved moneyMoved, c season.Currency, missing int64, days span, both []Slip) []Slip {
	lines := turnedRound(moved, c, missing, days)
	var sure, weak []Slip
	for _, s := range misdated(moved, c, missing, days.after, days.upTo) {
		switch {
		case s.FitsAgreed != 0 || !moved.l.Past(s.Date):
			sure = append(sure, s)
		case yearsApart(s.Date, s.Meant) == 1:
			weak = append(weak, s)
		}
	}
	same := slices.DeleteFunc(slipsMoved(moved.past(c), missing, days.after, days.upTo), func(s Slip) bool {
		return slices.ContainsFunc(both, func(o Slip) bool { return o.At() == s.At() })
	})
	lines = append(append(append(lines, sure...), both...), same...)
	twice := slices.ContainsFunc(same, func(s Slip) bool { return s.Twice })
	if len(lines) > 0 && !twice && len(weak) <= mostBeside {
		lines = append(lines, weak...)
	}
	return lines
}

// mostBeside is up to how many lines of another year are named beside others, which more of
// them would drown, a house choice.
const mostBeside = 2

// fromOtherPots lists the first counts of pots since all others were known, of exactly what
// is missing: their content came from those, if they had nothing before.
func fromOtherPots(l *season.Ledger, t season.Compared) []Slip {
	var found []Slip
	for _, h := range l.OpenedPots(t.Money.Currency) {
		of := func(o *season.InHand) bool { return o.Pot == h.Pot }
		if h.Date > t.After && h.Money.Minor == -t.New().Minor && slices.ContainsFunc(t.Counts, of) {
			found = append(found, Slip{Date: h.Date, Moved: season.Money{Currency: h.Money.Currency}, Typed: h.Money, Count: h, ZeroOn: t.After})
		}
	}
	return found
}

// turnedRound lists the lines of some days that would explain what is missing, if they moved
// as much the other way, where more speaks for that than the amount; none where many would.
func turnedRound(moved moneyMoved, c season.Currency, missing int64, days span) []Slip {
	var found []Slip
	for _, s := range moved.past(c) {
		if 2*s.Moved.Minor == missing && days.has(s.Date) {
			s.Turned = true
			found = append(found, s)
		}
	}
	if len(found) > mostTurned {
		return nil
	}
	return slices.DeleteFunc(found, func(s Slip) bool { return !s.looksTurned(moved.l) })
}

// mostTurned is up to how many lines of an amount it is a clue that one may be the other way
// round, a house choice.
const mostTurned = 20

// looksTurned reports whether a line is likelier one the other way round: a payment where
// the one who was paid owed as much, a refund without its minus, or the only cost of a kind
// that is income elsewhere, and the reverse.
func (s Slip) looksTurned(l *season.Ledger) bool {
	if p := s.Settlement; p != nil {
		owed := owedClubBefore(l, p)
		if p.From.Club() {
			return owed >= p.Money.Minor
		}
		return owed <= -p.Money.Minor
	}
	if refundKind(s.Cost.Kind) {
		return !s.Cost.Income && s.Cost.Money.Minor > 0
	}
	other := false
	for _, c := range l.Costs {
		switch {
		case c == s.Cost || c.Kind != s.Cost.Kind:
		case c.Income == s.Cost.Income:
			return false
		default:
			other = true
		}
	}
	return other
}

// refundKind reports whether a kind says that money came back.
func refundKind(kind string) bool {
	return slices.ContainsFunc(strings.FieldsFunc(kind, func(r rune) bool { return r == '-' || r == '_' }), func(word string) bool {
		return slices.Contains([]string{"refund", "refunds", "rebate", "repayment"}, strings.ToLower(word))
	})
}

// owedClubBefore is what the other side of a payment with the club owed it before, in the
// currency of the debt that the payment is for.
func owedClubBefore(l *season.Ledger, p *season.Settlement) int64 {
	who := p.From
	if who.Club() {
		who = p.To
	}
	owed := int64(0)
	for _, post := range season.Postings(l) {
		if post.Money.Currency == p.Money.Currency && post.Date <= p.Date && post.Settlement != p {
			owed += owesClub(post, who)
		}
	}
	return owed
}
