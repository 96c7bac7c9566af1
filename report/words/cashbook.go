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
		text = inHandOf(p.Amount) + countSaid(p)
	default:
		text = BillName(p.ContestName, p.Kind)
	}
	return text + noted(p)
}

// inHandOf says what a count found.
func inHandOf(amount answers.Amount) string {
	if amount.IsOwing() {
		return heldSaid(amount)
	}
	return "in hand " + AmountSaid(amount)
}

// countSaid compares a count with what should have been there; pots that are compared
// together are, with the last of them that was counted on a day.
func countSaid(p answers.StatementPosting) string {
	switch {
	case p.Stands != nil && p.Together != nil && !p.Stands.Unsure():
		return fmt.Sprintf(", %s together %s", ListInWords(potNames(p.Together, strings.TrimSpace)), bookSaid(p, "agree"))
	case p.Stands != nil:
		return ", " + bookSaid(p, "agrees")
	case p.Joined:
		return ""
	case p.Found != nil:
		return ", counted for the first time and added"
	default:
		return ", the first count"
	}
}

// bookSaid says whether a count is what the cash book has; agrees is the verb's form.
func bookSaid(p answers.StatementPosting, agrees string) string {
	if p.Stands.Difference.IsNothing() && !p.Stands.Unsure() {
		return agrees + " with the book"
	}
	return StandsSaid(*p.Stands, p.Currency, isoDay)
}

// MoreOrLess says a difference of what was counted from what should have been there.
func MoreOrLess(difference answers.Amount) string {
	if difference.IsNothing() {
		return "as the ledger says"
	}
	return fmt.Sprintf("%s %s than the ledger says", AmountSaid(difference.Size()), lessOrMore(difference))
}

// lessOrMore is the way in which what was counted is off what the ledger says.
func lessOrMore(difference answers.Amount) string {
	if difference.IsOwing() {
		return "less"
	}
	return "more"
}

// cashThought says where a count disagrees, then what came in and went out, what should
// be in hand, and where it agrees.
func cashThought(d answers.Statements, s answers.Statement) string {
	if len(s.Accounts) == 0 {
		return fmt.Sprintf("No money of the club moved in %d, and none is in hand.", d.Year)
	}
	wrong, right := cashCounted(s, d.Year)
	counts := countsOf(s)
	said := append([]string{otherCurrencies(potCounts(s), isoDay)}, wrong...)
	said = append(said, overtaken(counts, d.Year, isoDay, seeBelow, s.MissingReceipts)...)
	said = append(said, maybeMissing(countsOff(counts), s.MissingReceipts), Sentence(elsewhereSaid(notNamed(s.ReceiptsElsewhere, counts), d.Year)))
	said = append(said, cashMoved(d, s), cashInHand(s), countedBefore(s.CountedBefore, d.Year))
	said = append(append(said, right...), warnedSaid(s.Warned, d.Year, len(countsOff(counts))+len(s.CountedBefore) > 0))
	if s.Since > 0 {
		said = append(said, stoodThen(d.Year, s.Since, " of the club's"))
	}
	return joined(said...)
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
	over := slices.ContainsFunc(held, func(s answers.Sum) bool { return s.Amount.IsOwing() })
	doubted := ""
	for _, sum := range held {
		doubted += withDoubted(potCounts(s), sum.Currency)
	}
	switch {
	case over:
		parts = append(parts, "what is in hand should be "+heldSums(held)+doubted)
	case len(held) > 0:
		parts = append(parts, sumsAsRead(held)+" should be in hand"+doubted)
	}
	if len(moved) > 0 {
		parts = append(parts, "since the ledger began "+ListInWords(moved)+", and no count says what is there")
	}
	return Sentence(strings.Join(parts, "; ")) + "."
}

// isoDay is a date as the cash book has it.
func isoDay(date string) string { return date }

// cashCounted says what the latest count of each pot found, or of the pots of a currency
// together: those that differ from the ledger, and those that agree.
func cashCounted(s answers.Statement, year int) (wrong, right []string) {
	for _, h := range latestCounts(countsOf(s)) {
		held := PotHeld(h.Pot, answers.Sum{Currency: h.Currency, Amount: h.Amount})
		if h.Together != nil {
			held = potsHeld(h, isoDay)
		}
		text := fmt.Sprintf("On %s there was %s, ", h.Date, held)
		var pots []string
		if h.Together != nil {
			pots = doubtedPots(h, potCounts(s))
		}
		switch {
		case len(pots) > 0 && agreesWithLedger(h) && !h.Stands.Unsure():
			wrong = append(wrong, text+newMoney(pots)+", which nothing checks; the rest agrees."+explained(h, year, seeBelow, s.MissingReceipts))
		case agreesWithLedger(h) && !h.Stands.Unsure() && h.Together != nil:
			right = append(right, text+"which together agree with the book."+explained(h, year, seeBelow, s.MissingReceipts))
		case agreesWithLedger(h) && !h.Stands.Unsure():
			right = append(right, text+"which agrees with the book."+explained(h, year, seeBelow, s.MissingReceipts))
		default:
			wrong = append(wrong, text+together(h)+StandsSaid(*h.Stands, h.Currency, isoDay)+"."+explained(h, year, seeBelow, s.MissingReceipts))
		}
	}
	return wrong, right
}

// countsOf are the counts among the lines of a cash book.
func countsOf(s answers.Statement) []answers.InHand {
	var counts []answers.InHand
	for _, p := range s.Postings {
		if p.Own != nil {
			counts = append(counts, potCount(p))
		}
	}
	return counts
}

// potCounts are all counts among the lines of a cash book, the first of a pot too.
func potCounts(s answers.Statement) []answers.InHand {
	var counts []answers.InHand
	for _, p := range s.Postings {
		if p.Entry == answers.EntryInHand {
			counts = append(counts, potCount(p))
		}
	}
	return counts
}

// potCount is a count as a year has it.
func potCount(p answers.StatementPosting) answers.InHand {
	return answers.InHand{Date: p.Date, Pot: p.Pot, Currency: p.Currency, Amount: p.Amount, Counted: p.Counted}
}

// CashExplained says of each count which lines would each alone explain how it
// differs.
func CashExplained(d answers.Statements, s answers.Statement) []string {
	var said []string
	for _, p := range s.Postings {
		h := potCount(p)
		if lines := slipsListed(h, d.Year); lines != "" {
			off := h.Stands.New
			if off.IsNothing() {
				off = h.Stands.Difference
			}
			said = append(said, fmt.Sprintf("%s of %s, %s %s: %s", strings.TrimPrefix(PotsOf(h), "the "), DayIn(p.Date, d.Year), AmountSaid(off.Size()), p.Currency, lines))
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
