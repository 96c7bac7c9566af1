package words

import (
	"fmt"

	"boxbook/report/answers"
)

// saidPayments is up to how many payments the first sentence names.
const saidPayments = 3

// YearThought says in a sentence who owes whom.
func YearThought(d answers.Year) string {
	nothing, open := fmt.Sprintf("Nothing in %d", d.Year), len(d.Settle) > 0
	switch {
	case d.Quiet && !open:
		return nothing + "."
	case d.Quiet:
		return nothing + "; as before, " + owing(d) + "."
	case !open && len(answers.AccountCurrencies(d)) == 0:
		return fmt.Sprintf("No money was written down in %d.", d.Year)
	case !open:
		return fmt.Sprintf("At the close of %d everybody is even.", d.Year)
	default:
		return fmt.Sprintf("At the close of %d %s.", d.Year, owing(d))
	}
}

// owing says who owes whom: each payment where they are few, else a sum for
// each currency.
func owing(d answers.Year) string {
	var debts []string
	if len(d.Settle) <= saidPayments {
		for _, p := range d.Settle {
			debts = append(debts, owingIn([]answers.Payment{p}))
		}
		return ListInWords(debts)
	}
	for i := 0; i < len(d.Settle); {
		first := i
		for i < len(d.Settle) && d.Settle[i].Currency == d.Settle[first].Currency {
			i++
		}
		debts = append(debts, owingIn(d.Settle[first:i]))
	}
	return fmt.Sprintf("%s: %d payments settle it, at the foot", ListInWords(debts), len(d.Settle))
}

// owingIn sums payments of one currency: "a owes b 5.00 EUR".
func owingIn(payments []answers.Payment) string {
	var from, to []string
	var sum answers.AmountSum
	for _, p := range payments {
		from, to = answers.AddName(from, p.FromName), answers.AddName(to, p.ToName)
		sum.Add(p.Amount)
	}
	return fmt.Sprintf("%s %s %s %s %s", people(from), PluralWord(len(from), "owes", "owe"), people(to), sum.Text(), payments[0].Currency)
}

// people names people, or counts them where they are many.
func people(names []string) string {
	const most = 4
	if len(names) > most {
		return fmt.Sprintf("%d people", len(names))
	}
	return ListInWords(names)
}
