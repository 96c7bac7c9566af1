package words

import (
	"fmt"

	"boxbook/report/answers"
)

// WithClubSaid says of each currency in which something is open with the club of
// what that is made, where it is of more than one thing.
func WithClubSaid(s answers.Statement) []string {
	var said []string
	for _, a := range s.Accounts {
		if a.WithClub == nil || a.WithClub.Closing.IsNothing() {
			continue
		}
		if more, less := clubParts(*a.WithClub); len(more)+len(less) > 1 {
			said = append(said, clubPartsSaid(answers.Sum{Currency: a.Currency, Amount: a.WithClub.Closing}, more, less))
		}
	}
	return said
}

// clubParts are what makes a debt to the club more, and what makes it less.
func clubParts(w answers.StandsWithClub) (more, less []string) {
	add := func(a answers.Amount, raises bool, adds, takes string) {
		switch {
		case a.IsNothing():
		case a.IsOwing() != raises:
			more = append(more, AmountSaid(a.Size())+" "+adds)
		default:
			less = append(less, AmountSaid(a.Size())+" "+takes)
		}
	}
	add(w.Opening, true, "carried in", "carried in for you")
	const billed, credited = "that the club paid or billed for you", "that the club gave back or credited to you"
	charged := w.Charged
	if w.Credited != nil {
		charged = charged.Plus(*w.Credited)
		add(w.Charged.Minus(charged), true, billed, credited)
	}
	add(charged, true, billed, credited)
	add(w.Received, true, "that the club paid to you", "that the club took back")
	add(w.Owed, true, "of older debts", "of the club's older debts")
	add(w.PaidFor, false, "that came back to you for the club", "that you paid for the club")
	add(w.Paid, false, "that came back to you", "that you paid to the club")
	return more, less
}

// clubPartsSaid says what is open as the sum of its parts.
func clubPartsSaid(open answers.Sum, more, less []string) string {
	text := "the %s that you owe the club: "
	if open.Amount.IsOwing() {
		text, more, less = "the %s that the club owes you: ", less, more
	}
	text = fmt.Sprintf(text, SumSaid(answers.Sum{Currency: open.Currency, Amount: open.Amount.Size()})) + ListInWords(more)
	if len(less) > 0 {
		text += ", less " + ListInWords(less)
	}
	return text
}
