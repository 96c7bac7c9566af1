package entry

import (
	"fmt"
	"strings"

	"boxbook/season"
	"boxbook/season/ledger"
)

// rateKind is what one currency is worth in another, for a year's summary.
func rateKind() Kind {
	return Kind{
		Name: "rate", Short: "add a year's rate of one currency in another",
		Fields: []Field{
			yearField(),
			{Name: "from", Asks: "the currency to be valued", Holds: "CURRENCY", Example: "CHF", Others: []string{"EUR", "USD", "GBP"}},
			{Name: "rate", Asks: "what one of it is", Example: "1.04", Read: bareRate},
			{
				Name: "to", Asks: "in the year's own currency", Holds: "CURRENCY", Example: "EUR", Others: []string{"CHF", "EUR", "EUR"},
				Help: "one currency a year, into which the others are converted",
			},
		},
		Write: func(s Scene) (Addition, error) {
			return oneLine("a rate", "rate", s.One("year"), s.One("from"), s.One("rate"), s.One("to"))
		},
	}
}

// bareRate refuses a rate with the currency that it is in, which is asked for next.
func bareRate(text string) (answer, problem string) {
	words := strings.Fields(ledger.AmountMeant(text))
	if len(words) != 2 || strings.Trim(words[0], "0123456789.,") != "" {
		return text, ""
	}
	return "", fmt.Sprintf("%q has its currency: the number alone is meant, %s", text, strings.Replace(words[0], ",", ".", 1))
}

// inHandKind is what the club really had.
func inHandKind() Kind {
	return Kind{
		Name: "in-hand", Short: "add what the club had in the bank or cash-box on a day",
		Fields: []Field{
			dateField(),
			{Name: "pot", Asks: "where it was", Example: "bank", Propose: Pots, Open: true, Help: "bank, cash-box, or any word"},
			heldField(), remarkField("statement 12"),
		},
		Write: func(s Scene) (Addition, error) {
			return oneLine("what was in hand", "in-hand", s.One("date"), s.One("pot"), s.One("amount"), quoted(s.One("remark")))
		},
	}
}

// heldField asks for what was counted, which may be an overdraft.
func heldField() Field {
	held := amountField()
	held.Help = "with a minus before it where the account was overdrawn: -40.00 EUR"
	return held
}

// budgetKind is what the club means to spend or to take in.
func budgetKind() Kind {
	income := yesField("income", "whether it is income", "otherwise it is a cost")
	income.Default = func(s Scene) string {
		if s.Ledger.OnlyIncome()[s.One("kind")] != nil {
			return "yes"
		}
		return ""
	}
	return Kind{
		Name: "budget", Short: "add what the club plans to spend or take in, in a year",
		Fields: []Field{
			yearField(), moneyKindField("what it is for", "hall-hire", MoneyKinds), amountField(),
			income, remarkField("as last year"),
		},
		Write: func(s Scene) (Addition, error) {
			return oneLine("a line of the budget", "budget", s.One("year"), s.One("kind"), s.One("amount"), s.ifYes("income", "income"), quoted(s.One("remark")))
		},
	}
}

// agreedKind is a year's result as the assembly agreed it.
func agreedKind() Kind {
	result := amountField()
	result.Asks, result.Help = "the result with its currency", "a loss has a minus before it: -120.00 EUR"
	year := yearField()
	year.Default = func(s Scene) string { return fmt.Sprint(yearToAgree(s.Ledger)) }
	return Kind{
		Name: "agreed", Short: "add a year's result as the assembly agreed it",
		Fields: []Field{year, result, remarkField("general assembly")},
		Write: func(s Scene) (Addition, error) {
			return oneLine("an agreed result", "agreed", s.One("year"), s.One("amount"), quoted(s.One("remark")))
		},
	}
}

// yearToAgree is the latest year of the club that is over, or ends today, and has money;
// the one before today's where none has.
func yearToAgree(l *season.Ledger) int {
	latest, found := 0, false
	see := func(day season.Date) {
		year := l.YearOf(day)
		if l.YearStart.Begin(year+1)-1 <= l.AsOf && (!found || year > latest) {
			latest, found = year, true
		}
	}
	for _, c := range l.Costs {
		see(c.Date)
	}
	for _, s := range l.Settlements {
		see(s.Date)
	}
	if !found {
		return l.YearOf(l.AsOf) - 1
	}
	return latest
}
