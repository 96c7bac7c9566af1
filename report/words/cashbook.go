package words

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/report/answers"
)

// WhomSaid says whom a line of the cash book is with: whose money it is, or for whom
// the club paid.
func WhomSaid(p answers.StatementPosting) string {
	switch {
	case p.Pot != "":
		return p.Pot
	case len(p.WhomNames) == 0:
		return ""
	case p.ForWhom:
		return "for " + ListInWords(peopleSaid(p.WhomNames))
	default:
		return ListInWords(peopleSaid(p.WhomNames))
	}
}

// CashSaid says what a line of the cash book is.
func CashSaid(p answers.StatementPosting) string {
	var text string
	switch {
	case p.Entry == answers.EntrySettle && p.Debt != nil:
		text = "payment, for " + SumSaid(*p.Debt)
	case p.Entry == answers.EntrySettle:
		text = "payment"
	case p.Entry == answers.EntryInHand:
		text = "in hand " + AmountSaid(p.Amount) + countSaid(p)
	default:
		text = strings.TrimSpace(p.ContestName + " " + p.Kind)
	}
	return text + noted(p)
}

// countSaid compares a count with what should have been there.
func countSaid(p answers.StatementPosting) string {
	switch {
	case p.Found != nil:
		return ", counted for the first time and added"
	case p.Own == nil:
		return ", the first count"
	case p.Difference.IsNothing():
		return ", as the ledger has it since the count before"
	default:
		return ", " + moreOrLess(*p.Difference)
	}
}

// moreOrLess says a difference of what was counted from what should have been there.
func moreOrLess(difference answers.Amount) string {
	if difference.IsOwing() {
		return AmountSaid(difference.Size()) + " less than the ledger says"
	}
	return AmountSaid(difference) + " more than the ledger says"
}

// cashThought says what came in and went out, what should be in hand, and what the
// latest count found.
func cashThought(d answers.Statements, s answers.Statement) string {
	if len(s.Accounts) == 0 {
		return fmt.Sprintf("No money of the club moved in %d, and none is in hand.", d.Year)
	}
	said := append([]string{cashMoved(d, s), cashInHand(s), cashCounted(s)}, overtaken(countsOf(s), func(date string) string { return date })...)
	return strings.Join(slices.DeleteFunc(said, func(s string) bool { return s == "" }), " ")
}

func cashMoved(d answers.Statements, s answers.Statement) string {
	var came, went []answers.Sum
	for _, a := range s.Accounts {
		if !a.In.IsNothing() {
			came = append(came, answers.Sum{Currency: a.Currency, Amount: a.In})
		}
		if !a.Out.IsNothing() {
			went = append(went, answers.Sum{Currency: a.Currency, Amount: a.Out})
		}
	}
	switch {
	case len(came)+len(went) == 0:
		return fmt.Sprintf("No money of the club moved in %d.", d.Year)
	case len(went) == 0:
		return sumsAsRead(came) + " came in."
	case len(came) == 0:
		return sumsAsRead(went) + " went out."
	default:
		return fmt.Sprintf("%s came in and %s went out.", sumsAsRead(came), sumsAsRead(went))
	}
}

func cashInHand(s answers.Statement) string {
	var held []answers.Sum
	var moved []string
	for _, a := range s.Accounts {
		sum := answers.Sum{Currency: a.Currency, Amount: a.Closing}
		if a.Since != "" {
			held = append(held, sum)
			continue
		}
		way := "more came in than went out"
		if a.Closing.IsOwing() {
			way = "more went out than came in"
		}
		sum.Amount = sum.Amount.Size()
		moved = append(moved, SumSaid(sum)+" "+way)
	}
	var parts []string
	if len(held) > 0 {
		parts = append(parts, sumsAsRead(held)+" should be in hand")
	}
	if len(moved) > 0 {
		parts = append(parts, "since the ledger began "+ListInWords(moved)+", and no count says what is there")
	}
	return Sentence(strings.Join(parts, "; ")) + "."
}

// cashCounted says what the latest count that can be compared found; with it the
// other pots of its currency that were counted on that day, since they are compared
// together and what differs is there once.
func cashCounted(s answers.Statement) string {
	for _, p := range slices.Backward(s.Postings) {
		if p.Own == nil {
			continue
		}
		var held []string
		for _, o := range s.Postings {
			if o.Own != nil && o.Date == p.Date && o.Currency == p.Currency && AmountSaid(*o.Difference) == AmountSaid(*p.Difference) {
				held = append(held, PotHeld(o.Pot, answers.Sum{Currency: o.Currency, Amount: o.Amount}))
			}
		}
		switch {
		case len(held) > 1 && p.Difference.IsNothing():
			return fmt.Sprintf("On %s there was %s%s.", p.Date, ListInWords(held), countSaid(p))
		case len(held) > 1:
			return fmt.Sprintf("On %s there was %s, together %s.", p.Date, ListInWords(held), moreOrLess(*p.Difference))
		default:
			return fmt.Sprintf("In the %s were %s %s on %s%s.", p.Pot, AmountSaid(p.Amount), p.Currency, p.Date, countSaid(p))
		}
	}
	return ""
}

// countsOf are the counts among the lines of a cash book.
func countsOf(s answers.Statement) []answers.InHand {
	var counts []answers.InHand
	for _, p := range s.Postings {
		if p.Own != nil {
			counts = append(counts, answers.InHand{Date: p.Date, Pot: p.Pot, Currency: p.Currency, Amount: p.Amount, Own: p.Own, Difference: p.Difference})
		}
	}
	return counts
}

// CashExplained says of each count which lines would each alone explain how it
// differs.
func CashExplained(d answers.Statements, s answers.Statement) []string {
	var said []string
	for _, p := range s.Postings {
		var lines []string
		for _, slip := range p.Explained {
			lines = append(lines, SlipSaid(slip, thePot(p.Pot), d.Year))
		}
		if len(lines) > 0 {
			said = append(said, fmt.Sprintf("%s of %s, %s %s: %s", p.Pot, DayIn(p.Date, d.Year), AmountSaid(p.Difference.Size()), p.Currency, strings.Join(lines, "; or ")))
		}
	}
	return said
}

// CashSince says what the balances of the cash book go by.
func CashSince(a answers.StatementAccount) string {
	if a.Since == "" {
		return a.Currency + ": never counted, so the balance is what has moved since the ledger began"
	}
	return a.Currency + ": the balance starts from the count of " + a.Since + "; later counts do not change it"
}
