package words

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/report/answers"
)

// unpaidThought says all bills that are not paid, and whether more is owed than them,
// where a debt that is older hides one of them from the rows of what is owed: by name
// where they are of two people at most and few, else their number and sum.
func unpaidThought(d answers.Year) string {
	bills := d.Club.Unpaid
	hidden := func(u answers.Unpaid) bool { return !slices.ContainsFunc(d.Club.Owed, u.IsOldest) }
	if !slices.ContainsFunc(bills, hidden) {
		return ""
	}
	var parties, said []string
	var sums []answers.Sum
	for _, u := range bills {
		parties = Once(parties, u.Party)
		sums = answers.AddSum(sums, answers.Sum{Currency: u.Currency, Amount: u.Amount})
	}
	if len(parties) > mostNamed || len(bills) > fewBills {
		of := Counted(len(parties), "member", "members")
		if slices.ContainsFunc(bills, func(u answers.Unpaid) bool { return !isPilot(d, u.Party) }) {
			of = Counted(len(parties), "person", "people")
		}
		return fmt.Sprintf("Of what the club is owed, billed and not paid: %s, %s to %s.", sumsSaid(sums), Counted(len(bills), "charge", "charges"), of)
	}
	for _, party := range parties {
		said = append(said, billsSaid(slices.DeleteFunc(slices.Clone(bills), func(u answers.Unpaid) bool { return u.Party != party })))
	}
	begin := "Unpaid charges"
	if !slices.Equal(sums, d.Club.OwedTotals) {
		begin = "Of debts, billed" // and the rest was advanced, or is older than the ledger
	}
	return begin + ": " + strings.Join(said, "; ") + "."
}

// unbilledThought names who paid the club, though nothing stands against it; "" where
// nobody did.
func unbilledThought(d answers.Year) string {
	paid := d.Club.PaidUnbilled
	var said []string
	for _, p := range paid[:min(len(paid), mostNamed)] {
		said = append(said, p.Name+" "+SumSaid(p.Sum))
	}
	if more := len(paid) - len(said); more > 0 {
		said = append(said, fmt.Sprintf("%d more", more))
	}
	if len(said) == 0 {
		return ""
	}
	return "Paid, but nothing was ever billed against it: " + ListInWords(said) + "."
}

// fewBills are as many as a sentence lists.
const fewBills = 4

// billsSaid lists one party's bills, a currency once where it is that of all.
func billsSaid(bills []answers.Unpaid) string {
	one := !slices.ContainsFunc(bills, func(u answers.Unpaid) bool { return u.Currency != bills[0].Currency })
	var said []string
	for i, u := range bills {
		text := BillName(u.Contest, u.Kind) + " " + AmountSaid(u.Amount)
		if !one || i == len(bills)-1 {
			text += " " + u.Currency
		}
		said = append(said, text)
	}
	return owners(PartyName(bills[0].Name)) + " " + ListInWords(said)
}

// owners is the name of whose something is: "Yuki's".
func owners(name string) string { return name + "'s" }

// BillName says what a bill is for, with its contest where it has one.
func BillName(contest, kind string) string { return strings.TrimSpace(contest + " " + KindSaid(kind)) }

// KindSaid is a kind of cost as people read it: the ledger's word "hall-hire" is
// "hall hire". Files for other programs keep the word.
func KindSaid(kind string) string {
	if strings.Trim(kind, "-") != kind {
		return kind // a dash at an end joins nothing
	}
	return strings.ReplaceAll(kind, "-", " ")
}

// betweenMembers says whether all are even, and the only payment among others than
// the club.
func betweenMembers(d answers.Year) string {
	among := AmongMembers(d)
	switch {
	case len(d.Settle) == 0:
		return "Everybody is even."
	case len(among) == 1:
		return owes(among[0]) + "."
	default: // below
		return ""
	}
}

// AmongMembers are the payments in which the club has no part.
func AmongMembers(d answers.Year) []answers.Payment {
	var among []answers.Payment
	for _, p := range d.Settle {
		if p.FromName != "" && p.ToName != "" {
			among = append(among, p)
		}
	}
	return among
}

// owing says who owes whom, or counts the payments.
func owing(d answers.Year) string {
	if len(d.Settle) == 1 {
		return owes(d.Settle[0])
	}
	return fmt.Sprintf("%d payments settle what is owed, below", len(d.Settle))
}

func owes(p answers.Payment) string {
	return fmt.Sprintf("%s owes %s %s", PartyName(p.FromName), PartyName(p.ToName), SumSaid(answers.Sum{Currency: p.Currency, Amount: p.Amount}))
}

// OwedFor says what the oldest of a debt with the club is, with its own amount; where
// a part of it is paid the rest, whose amount is that of the debt where it is all.
func OwedFor(o answers.Owed) string {
	switch {
	case !isPart(o):
		return oldestItem(o, " "+AmountSaid(o.OldestAmount))
	case o.OldestOpen.Minus(o.Amount).IsNothing():
		return "rest of " + oldestItem(o, "")
	default:
		return "rest of " + oldestItem(o, " "+AmountSaid(o.OldestOpen))
	}
}

// isPart reports whether the oldest of a debt is paid in part.
func isPart(o answers.Owed) bool { return o.OldestOpen.Minus(o.OldestAmount).IsOwing() }

// oldestItem names the oldest of a debt by its contest and kind, and has an amount
// after a space and a remark beside it.
func oldestItem(o answers.Owed, amount string) string {
	text := BillName(o.Contest, o.Kind)
	switch {
	case o.Entry == answers.EntrySettle:
		text = "payment by the club"
	case text == "":
		text = "older debt"
	}
	text += amount
	if o.Remark != "" && o.Contest == "" {
		text += fmt.Sprintf(", %q", o.Remark)
	}
	return text
}
