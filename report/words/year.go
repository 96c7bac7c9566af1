package words

import (
	"fmt"

	"boxbook/report/answers"
)

// theClub is what people call the club among the parties.
const theClub = "the club"

// PartyName is a pilot's name, the club's where there is none.
func PartyName(pilot string) string {
	if pilot == "" {
		return theClub
	}
	return pilot
}

// PrintedResult is a result as printed: "1105.350 of 1600", "" where none is.
func PrintedResult(r answers.ResultYear) string {
	if r.PrintedPoints == "" || r.PrintedMaximum == "" {
		return r.PrintedPoints + r.PrintedMaximum
	}
	return r.PrintedPoints + " of " + r.PrintedMaximum
}

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
	case !open && len(d.Totals) == 0:
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
			debts = append(debts, owingIn([]answers.Payment{p}, p.Currency, p.Amount))
		}
		return ListInWords(debts)
	}
	for _, total := range d.SettleTotals {
		var payments []answers.Payment
		for _, p := range d.Settle {
			if p.Currency == total.Currency {
				payments = append(payments, p)
			}
		}
		debts = append(debts, owingIn(payments, total.Currency, total.Amount))
	}
	return fmt.Sprintf("%s: %d payments settle it, at the foot", ListInWords(debts), len(d.Settle))
}

// owingIn says payments of one currency with their sum: "a owes b 5.00 EUR".
func owingIn(payments []answers.Payment, currency string, sum answers.Amount) string {
	var from, to []string
	for _, p := range payments {
		from, to = Once(from, PartyName(p.FromName)), Once(to, PartyName(p.ToName))
	}
	return fmt.Sprintf("%s %s %s %s %s", people(from), PluralWord(len(from), "owes", "owe"), people(to), sum.Text(), currency)
}

// people names people, or counts them where they are many.
func people(names []string) string {
	const most = 4
	if len(names) > most {
		return fmt.Sprintf("%d people", len(names))
	}
	return ListInWords(names)
}
