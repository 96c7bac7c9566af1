package words

import (
	"fmt"
	"slices"

	"boxbook/report/answers"
)

// BetweenSaid says what became of debts of a party by payments between others, or by its own
// to somebody else, and why what stands with others needs no payment.
func BetweenSaid(d answers.Statements, s answers.Statement) []string {
	var said []string
	for _, t := range s.Transfers {
		said = append(said, transferSaid(s.Party, t))
	}
	if len(s.Postings) == 0 || d.Pooled {
		return said
	}
	var converted []answers.StandsWith
	apart := map[string][]answers.StandsWith{}
	var order []string
	for _, n := range s.Netted {
		if d.SettleIn != "" && !slices.Contains(d.Unpriced, n.Currency) {
			converted = append(converted, n)
			continue
		}
		apart[n.Currency], order = append(apart[n.Currency], n), Once(order, n.Currency)
	}
	if len(converted) > 0 {
		said = append(said, nettedSaid(s, converted))
	}
	for _, c := range order {
		said = append(said, nettedSaid(s, apart[c]))
	}
	return said
}

// transferSaid says what of a payment settled which debt of a party, and who owed as much.
func transferSaid(party string, t answers.Transfer) string {
	sum := SumSaid(answers.Sum{Currency: t.Currency, Amount: t.Amount})
	at, last := slices.Index(t.Chain, party), len(t.Chain)-1
	who := slices.Clone(t.ChainNames)
	who[at] = "you"
	var owed []string // but for the debt that is said itself
	for i := range last {
		if i != at && (at < last || i != last-1) {
			owed = append(owed, fmt.Sprintf("%s owed %s", who[i], who[i+1]))
		}
	}
	asMuch := ListInWords(owed) + " as much"
	switch at {
	case 0:
		return fmt.Sprintf("%s of your payment to %s of %s settled what you owed %s: %s", sum, who[last], t.Date, who[1], asMuch)
	case last:
		return fmt.Sprintf("%s of the payment from %s of %s settled what %s owed you: %s", sum, who[0], t.Date, who[last-1], asMuch)
	default:
		return fmt.Sprintf("your %s for %s was settled by the payment from %s to %s of %s: %s", sum, who[at+1], who[0], who[last], t.Date, asMuch)
	}
}

// nettedSaid says that what a party owes and is owed cancels out.
func nettedSaid(s answers.Statement, netted []answers.StandsWith) string {
	var both, currencies []string
	owe, owes, is := "owe", "owes", "is"
	if s.Since > 0 { // lines have followed
		owe, owes, is = "owed", "owed", "was"
	}
	for _, n := range netted {
		sum := SumSaid(answers.Sum{Currency: n.Currency, Amount: n.Amount.Size()})
		currencies = Once(currencies, n.Currency)
		if n.Amount.IsOwing() {
			both = append(both, fmt.Sprintf("the %s that you %s %s", sum, owe, n.Name))
		} else {
			both = append(both, fmt.Sprintf("the %s that %s %s you", sum, n.Name, owes))
		}
	}
	at := ""
	if len(currencies) > 1 {
		at = " at the rates of the year"
	}
	return ListInWords(both) + " cancel out" + at + ", so that nothing " + is + " left to pay or to get"
}
