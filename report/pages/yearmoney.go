package pages

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/season"
)

// yearMoney is everything about money but the payments: balances, what they
// are in one currency, costs by kind, the club's costs and income.
func yearMoney(d YearData) []report.Block {
	var blocks []report.Block
	for _, currency := range accountCurrencies(d) {
		blocks = append(blocks, balanceTable(d, currency))
	}
	if len(blocks) > 0 {
		blocks = append(blocks, balanceNotes(d))
	}
	if d.Club.Converted != nil && len(blocks) > 0 {
		blocks = append(blocks, convertedTable(d), convertedNotes(d))
	}
	for _, currency := range kindCurrencies(pilotCosts(d)) {
		blocks = append(blocks, costTable(d, currency))
	}
	if table := pilotIncomeTable(d); len(table.Rows) > 0 {
		blocks = append(blocks, table)
	}
	club := slices.Concat(d.Club.Costs, d.Club.Income)
	for _, currency := range kindCurrencies(club) {
		blocks = append(blocks, clubTable(d, currency))
	}
	if d.later > 0 {
		blocks = append(blocks, &report.Notes{Items: []report.Note{{Text: fmt.Sprintf(
			"%s dated after %s %s not counted", season.Counted(d.later, "entry", "entries"), d.asof, pluralWord(d.later, "is", "are"))}}})
	}
	return blocks
}

// yearHolder is a party with its books, as the tables list them.
type yearHolder struct {
	name  string
	books BooksData
}

// holders are the pilots, then the club.
func yearHolders(d YearData) []yearHolder {
	var all []yearHolder
	for _, p := range d.Pilots {
		all = append(all, yearHolder{p.name, p.BooksData})
	}
	return append(all, yearHolder{theClub, d.Club})
}

func accountCurrencies(d YearData) []string {
	var currencies []string
	for _, h := range yearHolders(d) {
		for _, a := range h.books.Accounts {
			currencies = addName(currencies, a.Currency)
		}
	}
	slices.Sort(currencies)
	return currencies
}

func (h yearHolder) account(currency string) (AccountData, bool) {
	i := slices.IndexFunc(h.books.Accounts, func(a AccountData) bool { return a.Currency == currency })
	if i < 0 {
		return AccountData{}, false
	}
	return h.books.Accounts[i], true
}

// balancePart is a column of the balances. Some are shown only where there is
// something in them.
type balancePart struct {
	title   string
	says    string // how it enters the closing balance, "" for the balance itself
	of      func(AccountData) string
	signed  bool
	whereIn bool // only where it is not all zero
}

var balanceParts = []balancePart{
	{title: "opening", says: "opening", of: func(a AccountData) string { return a.Opening }, signed: true},
	{title: "paid", says: "+ paid", of: func(a AccountData) string { return a.Paid }},
	{title: "billed", says: "+ billed", of: func(a AccountData) string { return a.Billed }, whereIn: true},
	{title: "own costs", says: "- own costs", of: func(a AccountData) string { return a.Share }},
	{title: "settled", says: "+ settled", of: func(a AccountData) string { return a.Settled }, signed: true, whereIn: true},
	{title: "old debts", says: "+ old debts", of: func(a AccountData) string { return a.Owed }, signed: true, whereIn: true},
	{title: "closing", of: func(a AccountData) string { return a.Closing }, signed: true},
}

func (p balancePart) cell(text string) report.Cell {
	if p.signed {
		return balanceCell(text)
	}
	return amountCell(text)
}

// shownParts are the columns that have something in them in a currency, in any
// where it is "".
func shownParts(d YearData, currency string) []balancePart {
	var parts []balancePart
	for _, part := range balanceParts {
		used := !part.whereIn
		for _, h := range yearHolders(d) {
			for _, a := range h.books.Accounts {
				used = used || ((currency == "" || a.Currency == currency) && strings.Trim(part.of(a), "-0.") != "")
			}
		}
		if used {
			parts = append(parts, part)
		}
	}
	return parts
}

// balanceTable shows how each closing balance comes about.
func balanceTable(d YearData, currency string) *report.Table {
	t := &report.Table{Title: currency + ", who is owed what", Key: 1, Columns: []report.Column{{Title: "who", Flexible: true, Min: 12}}}
	parts := shownParts(d, currency)
	sums := make([]amountSum, len(parts))
	for _, part := range parts {
		t.Columns = append(t.Columns, report.Column{Title: part.title, Align: report.Right})
	}
	for _, h := range yearHolders(d) {
		a, ok := h.account(currency)
		if !ok {
			continue
		}
		row := []report.Cell{report.Text(h.name)}
		for i, part := range parts {
			sums[i].add(part.of(a))
			row = append(row, part.cell(part.of(a)))
		}
		t.Rows = append(t.Rows, row)
	}
	footer := []report.Cell{report.Text("sum")}
	for i, part := range parts {
		footer = append(footer, part.cell(sums[i].text()))
	}
	t.Footer = append(t.Footer, footer)
	return t
}

func balanceNotes(d YearData) *report.Notes {
	var formula []string
	billed := false
	for _, part := range shownParts(d, "") {
		if part.says != "" {
			formula = append(formula, part.says)
		}
		billed = billed || part.title == "billed"
	}
	notes := &report.Notes{Items: []report.Note{
		{Text: "a balance with + is owed to that person, one with - is owed by them; closing = " + strings.Join(formula, " ")},
	}}
	if billed {
		addNote(notes, "billed: owed to the club by those it was for, no money has moved yet")
	}
	return notes
}

// amountSum adds decimal strings of one currency, exactly.
type amountSum struct {
	sum      big.Rat
	decimals int
}

func (s *amountSum) add(text string) {
	value, decimals := parseAmount(text)
	s.sum.Add(&s.sum, value)
	s.decimals = decimals
}

// text is the sum with the decimals of what was added.
func (s *amountSum) text() string { return report.Exact(&s.sum).Text(s.decimals) }

// convertedTable shows closing balances beside what they are in the currency
// of the year's rates.
func convertedTable(d YearData) *report.Table {
	into := d.Club.Converted.Currency
	t := &report.Table{Title: fmt.Sprintf("closing balances, converted at the rates of %d", d.Year), Key: 1, Columns: []report.Column{{Title: "who", Flexible: true, Min: 12}}}
	currencies := accountCurrencies(d)
	for _, currency := range currencies {
		t.Columns = append(t.Columns, report.Column{Title: currency, Align: report.Right})
	}
	t.Columns = append(t.Columns, report.Column{Title: "all in " + into, Align: report.Right})
	for _, h := range yearHolders(d) {
		if len(h.books.Accounts) == 0 {
			continue
		}
		row := []report.Cell{report.Text(h.name)}
		for _, currency := range currencies {
			cell := report.Empty()
			if a, ok := h.account(currency); ok {
				cell = balanceCell(a.Closing)
			}
			row = append(row, cell)
		}
		all := balanceCell(h.books.Converted.Amount)
		if len(h.books.Converted.Without) > 0 {
			all = all.Marked(filledSign)
		}
		t.Rows = append(t.Rows, append(row, all))
	}
	return t
}

func convertedNotes(d YearData) *report.Notes {
	notes := &report.Notes{}
	if len(d.Unpriced) > 0 {
		notes.Items = append(notes.Items, report.Note{
			Mark: filledSign, Text: fmt.Sprintf("without %s, for which %d has no rate", listInWords(d.Unpriced), d.Year),
		})
	}
	var rates []string
	for _, r := range d.Rates {
		rates = append(rates, fmt.Sprintf("1 %s = %s %s", r.From, r.Rate, r.To))
	}
	addNote(notes, "%s; each sum rounded once, so that they need not sum to zero to the last digit", strings.Join(rates, ", "))
	return notes
}

func pilotCosts(d YearData) []KindAmount {
	var all []KindAmount
	for _, p := range d.Pilots {
		all = append(all, p.Costs...)
	}
	return all
}

func kindCurrencies(sums []KindAmount) []string {
	var currencies []string
	for _, s := range sums {
		currencies = addName(currencies, s.Currency)
	}
	slices.Sort(currencies)
	return currencies
}

// kindsIn lists the kinds that have an amount in a currency.
func kindsIn(sums []KindAmount, currency string) []string {
	var kinds []string
	for _, s := range sums {
		if s.Currency == currency {
			kinds = addName(kinds, s.Kind)
		}
	}
	slices.Sort(kinds)
	return kinds
}

// kindAmount finds the amount of a kind in a currency.
func kindAmount(sums []KindAmount, kind, currency string) (string, bool) {
	for _, s := range sums {
		if s.Kind == kind && s.Currency == currency {
			return s.Amount, true
		}
	}
	return "", false
}

// costTable has a row a pilot and a column a kind.
func costTable(d YearData, currency string) *report.Table {
	kinds := kindsIn(pilotCosts(d), currency)
	t := &report.Table{Title: currency + ", pilots' costs by kind", Key: 1, Columns: []report.Column{{Title: "pilot", Flexible: true, Min: 12}}}
	for _, kind := range kinds {
		t.Columns = append(t.Columns, report.Column{Title: kind, Align: report.Right})
	}
	t.Columns = append(t.Columns, report.Column{Title: "sum", Align: report.Right})
	sums := make([]amountSum, len(kinds)+1)
	for _, p := range d.Pilots {
		row, own, any := []report.Cell{report.Text(p.name)}, amountSum{}, false
		for i, kind := range kinds {
			cell := report.Empty()
			if amount, ok := kindAmount(p.Costs, kind, currency); ok {
				cell, any = amountCell(amount), true
				own.add(amount)
				sums[i].add(amount)
			}
			row = append(row, cell)
		}
		if any {
			sums[len(kinds)].add(own.text())
			t.Rows = append(t.Rows, append(row, amountCell(own.text())))
		}
	}
	if len(t.Rows) > 1 {
		t.Footer = [][]report.Cell{footerOf(sums)}
	}
	return t
}

func footerOf(sums []amountSum) []report.Cell {
	footer := []report.Cell{report.Text("sum")}
	for i := range sums {
		footer = append(footer, amountCell(sums[i].text()))
	}
	return footer
}

// pilotIncomeTable lists what pilots received from outside.
func pilotIncomeTable(d YearData) *report.Table {
	t := &report.Table{Title: "pilots' income, in nobody's balance", Key: 1, Columns: []report.Column{
		{Title: "pilot", Flexible: true, Min: 12},
		{Title: "kind"},
		{Title: "amount", Align: report.Right},
		{Title: "currency"},
	}}
	for _, p := range d.Pilots {
		for _, s := range p.Income {
			t.Rows = append(t.Rows, []report.Cell{report.Text(p.name), report.Text(s.Kind), amountCell(s.Amount), report.Text(s.Currency)})
		}
	}
	return t
}

// clubTable shows the club's costs and income by kind, and what is left.
func clubTable(d YearData, currency string) *report.Table {
	t := &report.Table{Title: currency + ", the club by kind", Key: 1, Columns: []report.Column{
		{Title: "kind"},
		{Title: "income", Align: report.Right},
		{Title: "costs", Align: report.Right},
	}}
	var income, costs amountSum
	for _, kind := range kindsIn(slices.Concat(d.Club.Costs, d.Club.Income), currency) {
		row := []report.Cell{report.Text(kind), report.Empty(), report.Empty()}
		if amount, ok := kindAmount(d.Club.Income, kind, currency); ok {
			income.add(amount)
			row[1] = amountCell(amount)
		}
		if amount, ok := kindAmount(d.Club.Costs, kind, currency); ok {
			costs.add(amount)
			row[2] = amountCell(amount)
		}
		t.Rows = append(t.Rows, row)
	}
	decimals := max(income.decimals, costs.decimals)
	income.decimals, costs.decimals = decimals, decimals
	left := new(big.Rat).Sub(&income.sum, &costs.sum)
	t.Footer = [][]report.Cell{
		{report.Text("sum"), amountCell(income.text()), amountCell(costs.text())},
		{report.Text("income less costs"), report.Signed(report.Exact(left), decimals)},
	}
	return t
}
