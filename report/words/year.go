package words

import (
	"fmt"
	"strings"

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

// The notes of a year that stand for themselves.
const (
	NoCategory      = "not known" // of an entry without one
	BestAndMean     = "best and mean: percent over the contest flights; places: of contests' overall results"
	BilledExplained = "billed: owed to the club by those it was for, no money has moved yet"
)

// BesidePractice counts the practice that is in no column.
func BesidePractice(n int) string {
	return Counted(n, "practice flight", "practice flights") + " beside the contest flights"
}

// LooseFlights counts contest flights that name no contest.
func LooseFlights(n int) string {
	return fmt.Sprintf("%s no contest and %s in no count of contests", Counted(n, "contest flight names", "contest flights name"), PluralWord(n, "is", "are"))
}

// LaterMoney counts what is dated after the day that stands for today.
func LaterMoney(d answers.Year) string {
	return fmt.Sprintf("%s dated after %s %s not counted", Counted(d.Later, "entry", "entries"), d.Asof, PluralWord(d.Later, "is", "are"))
}

// ContestYearExplained says what the contests' columns count.
func ContestYearExplained(d answers.Year) string {
	return fmt.Sprintf("contests that began in %d; entries: pilots with a flight or a result; costs: all that stand with the contest", d.Year)
}

// BalanceExplained says how to read a balance, and of what parts the closing one
// is made.
func BalanceExplained(parts []string) string {
	return "a balance with + is owed to that person, one with - is owed by them; closing = " + strings.Join(parts, " ")
}

// WithoutRate names the currencies that the converted balances leave out.
func WithoutRate(d answers.Year) string {
	return fmt.Sprintf("without %s, for which %d has no rate", ListInWords(d.Unpriced), d.Year)
}

// RatesExplained names the year's rates.
func RatesExplained(d answers.Year) string {
	var rates []string
	for _, r := range d.Rates {
		rates = append(rates, fmt.Sprintf("1 %s = %s %s", r.From, r.Rate, r.To))
	}
	return strings.Join(rates, ", ") + "; each sum rounded once, so that they need not sum to zero to the last digit"
}

// PaymentsExplained says what the payments are.
func PaymentsExplained(d answers.Year) string {
	if len(d.Unproven) > 0 {
		return fmt.Sprintf("payments that bring every closing balance to zero; in %s fewer might do, with so many people", ListInWords(d.Unproven))
	}
	return "the fewest payments that bring every closing balance to zero"
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
