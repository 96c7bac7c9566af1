package words

import (
	"fmt"
	"slices"

	"boxbook/report/answers"
)

// The columns and titles of the club's books.
const (
	ColumnPot      = "pot"
	ColumnCurrency = "currency"
	ColumnCounted  = "counted"
	ColumnByLedger = "by the ledger"
	ColumnIs       = "cost or income"
	ColumnBudget   = "budget"
	ColumnActual   = "actual"
	ColumnOver     = "over (+), under (-)"
	ColumnAgreed   = "agreed"
	ColumnOldest   = "oldest unpaid item"
	OverOrUnder    = "over (+) or under (-) budget"
	OwedHeading    = "Owed to the club"
	UnpaidTitle    = "of that, billed and not paid"
	InHandTitle    = "in hand"
)

// notBegun stands behind the title of a table of a year to come.
const notBegun = "; the year has not begun"

// BudgetTitle stands above the budget.
func BudgetTitle(d answers.Year) string {
	title := fmt.Sprintf("the club's budget for %d", d.Year)
	switch {
	case d.Running:
		title += ", the year so far less the whole year's budget"
	case d.NotBegun():
		title += notBegun
	}
	return title
}

// AgreedTitle stands above the result as the assembly agreed it.
func AgreedTitle(d answers.Year) string {
	title := fmt.Sprintf("the club's result of %d, as the assembly agreed it", d.Year)
	switch {
	case d.Running:
		title += "; the year is not over, and its own result is so far"
	case d.NotBegun():
		title += notBegun
	}
	return title
}

// CostOrIncome says which of both a line of the budget is.
func CostOrIncome(b answers.Budget) string {
	if b.Income {
		return "income"
	}
	return "cost"
}

// CostTitle is the title above costs by kind, and that of the column of whose
// they are; others says that there are some of people who do not fly.
func CostTitle(currency string, others bool) (title, who string) {
	if others {
		return currency + ", members' costs by kind", WhoColumn(others)
	}
	return currency + ", pilots' costs by kind", WhoColumn(others)
}

// WhoColumn is the title of a column of people; others says that some
// of them do not fly.
func WhoColumn(others bool) string {
	if others {
		return "who"
	}
	return "pilot"
}

// YearSpan are the days of a year that is not the calendar's, and how far one has
// come that is not over; "" for a calendar year that is.
func YearSpan(d answers.Year) string {
	switch {
	case d.Running && d.Calendar:
		return "so far, to " + d.Asof
	case d.Running:
		return d.First + " to " + d.Last + ", so far to " + d.Asof
	case d.Calendar:
		return ""
	default:
		return d.First + " to " + d.Last
	}
}

// OverMark marks a budget that was gone over, or not used up; "" where it was kept
// to the last unit, where the year may still use it up, and for more income than was
// hoped for so far, which is no warning.
func OverMark(d answers.Year, b answers.Budget) string {
	switch over := b.Actual.Minus(b.Amount); {
	case over.IsNothing():
		return ""
	case (d.Running || d.NotBegun()) && (b.Income || over.IsOwing()):
		return ""
	case over.IsOwing():
		return " -"
	default:
		return " +"
	}
}

// BudgetNotes say what result the budget comes to, and of what was budgeted and is no
// cost of the club that others bore it.
func BudgetNotes(d answers.Year) []string {
	var said []string
	for _, s := range d.Club.BudgetResult {
		in, _ := answers.SumIn(d.Club.IncomeBudgetTotals, s.Currency)
		out, _ := answers.SumIn(d.Club.CostBudgetTotals, s.Currency)
		result := ProfitOrLoss(s.Amount) + " " + s.Currency
		said = append(said, fmt.Sprintf("the budget comes to %s: income %s less costs %s", result, AmountSaid(in), AmountSaid(out)))
	}
	for _, b := range d.Club.Budget {
		if b.Others != nil && b.Actual.IsNothing() {
			sum := SumSaid(answers.Sum{Currency: b.Currency, Amount: *b.Others})
			said = append(said, fmt.Sprintf("%s: %s was borne by others, and what members bear is no cost of the club", KindSaid(b.Kind), sum))
		}
	}
	return said
}

// BudgetBorne says in a line of which budgeted kinds nothing is a cost of the club because
// others bore it; "" for none.
func BudgetBorne(d answers.Year) string {
	var kinds []string
	for _, b := range d.Club.Budget {
		if b.Others != nil && b.Actual.IsNothing() {
			kinds = Once(kinds, KindSaid(b.Kind))
		}
	}
	if len(kinds) == 0 {
		return ""
	}
	return ListInWords(kinds) + ": borne by members, so that none of it is a cost of the club"
}

// IncomeAndCosts is the heading of income and costs, with what the marks mean where
// there are any, and of what the marked sums are.
func IncomeAndCosts(d answers.Year) string {
	for _, b := range d.Club.Budget {
		switch {
		case OverMark(d, b) == "" && !sumsUnbudgeted(d):
		case d.Running:
			return incomeAndCosts + "; costs over budget already (+)" + sumsOf(d)
		default:
			return incomeAndCosts + "; " + OverOrUnder + sumsOf(d)
		}
	}
	return incomeAndCosts
}

// sumsOf says that the sums are of kinds without a budget too, "" where none is among them.
func sumsOf(d answers.Year) string {
	if sumsUnbudgeted(d) {
		return "; all: budgeted or not"
	}
	return ""
}

// sumsUnbudgeted reports whether a sum that is marked beside its budget has kinds in it that
// have none.
func sumsUnbudgeted(d answers.Year) bool {
	for _, income := range []bool{true, false} {
		kinds := d.Club.Costs
		if income {
			kinds = d.Club.Income
		}
		for _, k := range kinds {
			all, found := d.Club.BudgetInAll(income, k.Currency)
			if found && OverMark(d, all) != "" && !slices.ContainsFunc(d.Club.Budget, func(b answers.Budget) bool {
				return b.Income == income && b.Kind == k.Kind && b.Currency == k.Currency
			}) {
				return true
			}
		}
	}
	return false
}
