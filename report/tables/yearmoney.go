package tables

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// balancePart is a column of the balances. Some are shown only where there is
// something in them.
type balancePart struct {
	key     string
	title   string
	says    string // how it enters the closing balance, "" for the balance itself
	of      func(answers.Account) string
	signed  bool
	whereIn bool // only where it is not all zero
}

// Keys of the columns that others add up, or are added up from. In the balances
// every column before the closing one enters it, the pilot's own share of costs
// with a minus.
const (
	BalanceShare   = "share"
	BalanceClosing = "closing"
	CostSum        = "sum"
	ClubIncome     = "income"
	ClubCosts      = "costs"
)

var balanceParts = []balancePart{
	{key: "opening", title: "opening", says: "opening", of: func(a answers.Account) string { return a.Opening }, signed: true},
	{key: "paid", title: "paid", says: "+ paid", of: func(a answers.Account) string { return a.Paid }},
	{key: "billed", title: "billed", says: "+ billed", of: func(a answers.Account) string { return a.Billed }, whereIn: true},
	{key: BalanceShare, title: "own costs", says: "- own costs", of: func(a answers.Account) string { return a.Share }},
	{key: "settled", title: "settled", says: "+ settled", of: func(a answers.Account) string { return a.Settled }, signed: true, whereIn: true},
	{key: "owed", title: "old debts", says: "+ old debts", of: func(a answers.Account) string { return a.Owed }, signed: true, whereIn: true},
	{key: BalanceClosing, title: "closing", of: func(a answers.Account) string { return a.Closing }, signed: true},
}

func (p balancePart) cell(text string) report.Cell {
	if p.signed {
		return balanceCell(text)
	}
	return amountCell(text)
}

// shownParts are the columns that have something in them in a currency, in any
// where it is "".
func shownParts(d answers.Year, currency string) []balancePart {
	var parts []balancePart
	for _, part := range balanceParts {
		used := !part.whereIn
		for _, h := range answers.YearHolders(d) {
			for _, a := range h.Books.Accounts {
				used = used || ((currency == "" || a.Currency == currency) && strings.Trim(part.of(a), "-0.") != "")
			}
		}
		if used {
			parts = append(parts, part)
		}
	}
	return parts
}

// BalanceTable shows how each closing balance comes about.
func BalanceTable(d answers.Year, currency string) *report.Table {
	t := &report.Table{Title: currency + ", who is owed what", Key: 1, Columns: []report.Column{{Title: "who", Flexible: true, Min: 12}}}
	parts := shownParts(d, currency)
	sums := make([]answers.AmountSum, len(parts))
	for _, part := range parts {
		t.Columns = append(t.Columns, report.Column{Key: part.key, Title: part.title, Align: report.Right})
	}
	for _, h := range answers.YearHolders(d) {
		a, ok := h.Account(currency)
		if !ok {
			continue
		}
		row := []report.Cell{report.Text(h.Name)}
		for i, part := range parts {
			sums[i].Add(part.of(a))
			row = append(row, part.cell(part.of(a)))
		}
		t.Rows = append(t.Rows, row)
	}
	footer := []report.Cell{report.Text("sum")}
	for i, part := range parts {
		footer = append(footer, part.cell(sums[i].Text()))
	}
	t.Footer = append(t.Footer, footer)
	return t
}

func BalanceNotes(d answers.Year) *report.Notes {
	var formula []string
	billed := false
	for _, part := range shownParts(d, "") {
		if part.says != "" {
			formula = append(formula, part.says)
		}
		billed = billed || part.key == "billed"
	}
	notes := &report.Notes{Items: []report.Note{
		{Text: "a balance with + is owed to that person, one with - is owed by them; closing = " + strings.Join(formula, " ")},
	}}
	if billed {
		AddNote(notes, "billed: owed to the club by those it was for, no money has moved yet")
	}
	return notes
}

// ConvertedTable shows closing balances beside what they are in the currency
// of the year's rates.
func ConvertedTable(d answers.Year) *report.Table {
	into := d.Club.Converted.Currency
	t := &report.Table{Title: fmt.Sprintf("closing balances, converted at the rates of %d", d.Year), Key: 1, Columns: []report.Column{{Title: "who", Flexible: true, Min: 12}}}
	currencies := answers.AccountCurrencies(d)
	for _, currency := range currencies {
		t.Columns = append(t.Columns, report.Column{Title: currency, Align: report.Right})
	}
	t.Columns = append(t.Columns, report.Column{Title: "all in " + into, Align: report.Right})
	for _, h := range answers.YearHolders(d) {
		if len(h.Books.Accounts) == 0 {
			continue
		}
		row := []report.Cell{report.Text(h.Name)}
		for _, currency := range currencies {
			cell := report.Empty()
			if a, ok := h.Account(currency); ok {
				cell = balanceCell(a.Closing)
			}
			row = append(row, cell)
		}
		all := balanceCell(h.Books.Converted.Amount)
		if len(h.Books.Converted.Without) > 0 {
			all = all.Marked(words.FilledSign)
		}
		t.Rows = append(t.Rows, append(row, all))
	}
	return t
}

func ConvertedNotes(d answers.Year) *report.Notes {
	notes := &report.Notes{}
	if len(d.Unpriced) > 0 {
		notes.Items = append(notes.Items, report.Note{
			Mark: words.FilledSign, Text: fmt.Sprintf("without %s, for which %d has no rate", words.ListInWords(d.Unpriced), d.Year),
		})
	}
	var rates []string
	for _, r := range d.Rates {
		rates = append(rates, fmt.Sprintf("1 %s = %s %s", r.From, r.Rate, r.To))
	}
	AddNote(notes, "%s; each sum rounded once, so that they need not sum to zero to the last digit", strings.Join(rates, ", "))
	return notes
}

// CostTable has a row a pilot and a column a kind.
func CostTable(d answers.Year, currency string) *report.Table {
	kinds := answers.KindsIn(answers.PilotCosts(d), currency)
	t := &report.Table{Title: currency + ", pilots' costs by kind", Key: 1, Columns: []report.Column{{Title: "pilot", Flexible: true, Min: 12}}}
	for _, kind := range kinds {
		t.Columns = append(t.Columns, report.Column{Title: kind, Align: report.Right})
	}
	t.Columns = append(t.Columns, report.Column{Key: CostSum, Title: "sum", Align: report.Right})
	sums := make([]answers.AmountSum, len(kinds)+1)
	for _, p := range d.Pilots {
		row, own, any := []report.Cell{report.Text(p.Name)}, answers.AmountSum{}, false
		for i, kind := range kinds {
			cell := report.Empty()
			if amount, ok := answers.AmountOfKind(p.Costs, kind, currency); ok {
				cell, any = amountCell(amount), true
				own.Add(amount)
				sums[i].Add(amount)
			}
			row = append(row, cell)
		}
		if any {
			sums[len(kinds)].Add(own.Text())
			t.Rows = append(t.Rows, append(row, amountCell(own.Text())))
		}
	}
	if len(t.Rows) > 1 {
		t.Footer = [][]report.Cell{footerOf(sums)}
	}
	return t
}

func footerOf(sums []answers.AmountSum) []report.Cell {
	footer := []report.Cell{report.Text("sum")}
	for i := range sums {
		footer = append(footer, amountCell(sums[i].Text()))
	}
	return footer
}

// PilotIncomeTable lists what pilots received from outside.
func PilotIncomeTable(d answers.Year) *report.Table {
	t := &report.Table{Title: "pilots' income, in nobody's balance", Key: 1, Columns: []report.Column{
		{Title: "pilot", Flexible: true, Min: 12},
		{Title: "kind"},
		{Title: "amount", Align: report.Right},
		{Title: "currency"},
	}}
	for _, p := range d.Pilots {
		for _, s := range p.Income {
			t.Rows = append(t.Rows, []report.Cell{report.Text(p.Name), report.Text(s.Kind), amountCell(s.Amount), report.Text(s.Currency)})
		}
	}
	return t
}

// ClubTable shows the club's costs and income by kind, and what is left.
func ClubTable(d answers.Year, currency string) *report.Table {
	t := &report.Table{Title: currency + ", the club by kind", Key: 1, Columns: []report.Column{
		{Title: "kind"},
		{Key: ClubIncome, Title: "income", Align: report.Right},
		{Key: ClubCosts, Title: "costs", Align: report.Right},
	}}
	var income, costs answers.AmountSum
	for _, kind := range answers.KindsIn(slices.Concat(d.Club.Costs, d.Club.Income), currency) {
		row := []report.Cell{report.Text(kind), report.Empty(), report.Empty()}
		if amount, ok := answers.AmountOfKind(d.Club.Income, kind, currency); ok {
			income.Add(amount)
			row[1] = amountCell(amount)
		}
		if amount, ok := answers.AmountOfKind(d.Club.Costs, kind, currency); ok {
			costs.Add(amount)
			row[2] = amountCell(amount)
		}
		t.Rows = append(t.Rows, row)
	}
	decimals := max(income.Decimals, costs.Decimals)
	income.Decimals, costs.Decimals = decimals, decimals
	left := new(big.Rat).Sub(&income.Sum, &costs.Sum)
	t.Footer = [][]report.Cell{
		{report.Text("sum"), amountCell(income.Text()), amountCell(costs.Text())},
		{report.Text("income less costs"), report.Signed(report.Exact(left), decimals)},
	}
	return t
}
