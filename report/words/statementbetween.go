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
	if len(s.Postings) == 0 || d.Pooled || d.SettleIn != "" {
		return said
	}
	for _, c := range nettedCurrencies(s) {
		said = append(said, nettedSaid(s, c))
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

// nettedCurrencies are those in which what stands with others comes to nothing.
func nettedCurrencies(s answers.Statement) []string {
	var all []string
	for _, n := range s.Netted {
		all = Once(all, n.Currency)
	}
	return all
}

// nettedSaid says that what a party owes and is owed in a currency cancels out.
func nettedSaid(s answers.Statement, currency string) string {
	var both []string
	owe, owes := "owe", "owes"
	if s.Since > 0 { // lines have followed
		owe, owes = "owed", "owed"
	}
	for _, n := range s.Netted {
		sum := SumSaid(answers.Sum{Currency: currency, Amount: n.Amount.Size()})
		switch {
		case n.Currency != currency:
		case n.Amount.IsOwing():
			both = append(both, fmt.Sprintf("the %s that you %s %s", sum, owe, n.Name))
		default:
			both = append(both, fmt.Sprintf("the %s that %s %s you", sum, n.Name, owes))
		}
	}
	return ListInWords(both) + " cancel out, so that nothing is left to pay or to get"
}
