package tables

import (
	"fmt"
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// holder is a party with its books, as the tables list them.
type holder struct {
	name  string
	books answers.Books
}

// holders are the pilots, then the coaches and persons, then the club.
func holders(d answers.Year) []holder {
	var all []holder
	for _, p := range d.Pilots {
		all = append(all, holder{p.Name, p.Books})
	}
	for _, p := range d.Others {
		all = append(all, holder{p.Name, p.Books})
	}
	return append(all, holder{words.PartyName(""), d.Club.Books})
}

// balancePart is a column of the balances. Some are shown only where there is
// something in them.
type balancePart struct {
	key     string
	title   string
	says    string // how it enters the closing balance, "" for the balance itself
	of      func(answers.Account) answers.Amount
	signed  bool
	whereIn bool // only where it is not all zero
}

// Keys of the columns that others add up, or are added up from. In the balances
// every column before the closing one enters it, the own share of costs with a
// minus.
const (
	BalanceShare   = "share"
	BalanceClosing = "closing"
	CostSum        = "sum"
	ClubIncome     = "income"
	ClubCosts      = "costs"
)

var balanceParts = []balancePart{
	{key: "opening", title: words.ColumnCarriedIn, says: words.ColumnCarriedIn, of: func(a answers.Account) answers.Amount { return a.Opening }, signed: true},
	{key: "paid", title: "paid out", says: "+ paid out", of: func(a answers.Account) answers.Amount { return a.Paid }},
	{key: "billed", title: words.ColumnBilled, says: "+ " + words.ColumnBilled, of: func(a answers.Account) answers.Amount { return a.Billed }, whereIn: true},
	{key: BalanceShare, title: "their share", says: "- their share", of: func(a answers.Account) answers.Amount { return a.Share }},
	{key: "settled", title: "settled", says: "+ settled", of: func(a answers.Account) answers.Amount { return a.Settled }, signed: true, whereIn: true},
	{key: "owed", title: "old debts", says: "+ old debts", of: func(a answers.Account) answers.Amount { return a.Owed }, signed: true, whereIn: true},
	{key: BalanceClosing, title: words.ColumnCarriedOut, of: func(a answers.Account) answers.Amount { return a.Closing }, signed: true},
}

func (p balancePart) cell(a answers.Account) report.Cell {
	if p.signed {
		return balanceCell(p.of(a))
	}
	return amountCell(p.of(a))
}

// shownParts are the columns that have something in them in a currency, in any
// where it is "".
func shownParts(d answers.Year, currency string) []balancePart {
	var parts []balancePart
	for _, part := range balanceParts {
		used := !part.whereIn
		for _, h := range holders(d) {
			for _, a := range h.books.Accounts {
				used = used || ((currency == "" || a.Currency == currency) && !part.of(a).IsNothing())
			}
		}
		if used {
			parts = append(parts, part)
		}
	}
	return parts
}

// BalanceTable shows how each closing balance comes about; total is that of
// everybody in the currency.
func BalanceTable(d answers.Year, total answers.Account) *report.Table {
	t := &report.Table{Title: total.Currency + ", who is owed what", Key: 1, Columns: []report.Column{{Title: words.ColumnWho, Wrapped: true, Min: 12}}}
	parts := shownParts(d, total.Currency)
	for _, part := range parts {
		t.Columns = append(t.Columns, report.Column{Key: part.key, Title: part.title, Align: report.Right})
	}
	row := func(name string, a answers.Account) []report.Cell {
		cells := []report.Cell{report.Text(name)}
		for _, part := range parts {
			cells = append(cells, part.cell(a))
		}
		return cells
	}
	for _, h := range holders(d) {
		if a, ok := h.books.AccountIn(total.Currency); ok {
			t.Rows = append(t.Rows, row(h.name, a))
		}
	}
	t.Footer = [][]report.Cell{row("sum", total)}
	return t
}

// BalanceNotes say how a closing balance comes about.
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
		{Text: words.BalanceExplained(formula)},
	}}
	if billed {
		AddNote(notes, "%s", words.BilledExplained)
	}
	return notes
}

// ConvertedTable shows closing balances beside what they are in the currency
// of the year's rates.
func ConvertedTable(d answers.Year) *report.Table {
	var currencies []string
	for _, total := range d.Totals {
		currencies = append(currencies, total.Currency)
	}
	s := spread{currencies}
	t := &report.Table{Title: fmt.Sprintf("closing balances, converted at the rates of %d", d.Year), Key: 1, Columns: slices.Concat(
		[]report.Column{{Title: words.ColumnWho, Wrapped: true, Min: 12}}, s.columns(),
		[]report.Column{{Title: "all in " + d.Club.Converted.Currency, Align: report.Right}},
	)}
	for _, h := range holders(d) {
		t.Rows = append(t.Rows, s.signed([]report.Cell{report.Text(h.name)}, h.books.Balance, convertedCell(h))...)
	}
	return t
}

// convertedCell is what one party's closing balances come to.
func convertedCell(h holder) report.Cell {
	all := report.Empty()
	if h.books.Converted.Amount != nil {
		all = balanceCell(*h.books.Converted.Amount)
	}
	if len(h.books.Converted.Without) > 0 {
		all = all.Marked(words.FilledSign)
	}
	return all
}

// ConvertedNotes name the rates and what they leave out.
func ConvertedNotes(d answers.Year) *report.Notes {
	notes := &report.Notes{}
	if len(d.Unpriced) > 0 {
		notes.Items = append(notes.Items, report.Note{
			Mark: words.FilledSign, Text: words.WithoutRate(d),
		})
	}
	AddNote(notes, "%s", words.RatesExplained(d))
	return notes
}

// CostTable has a row a party but the club and a column a kind; total is that of
// all of them in the currency.
func CostTable(d answers.Year, total answers.Sum) *report.Table {
	title, who := words.CostTitle(total.Currency, costsOfOthers(d))
	t := &report.Table{Title: title, Key: 1, Columns: []report.Column{{Title: who, Wrapped: true, Min: 12}}}
	kinds := kindsIn(d.Costs, total.Currency)
	for _, kind := range kinds {
		t.Columns = append(t.Columns, report.Column{Title: words.KindSaid(kind), Align: report.Right})
	}
	t.Columns = append(t.Columns, report.Column{Key: CostSum, Title: words.ColumnSum, Align: report.Right})
	row := func(name string, costs []answers.KindSum, sum answers.Amount) []report.Cell {
		cells := []report.Cell{report.Text(name)}
		for _, kind := range kinds {
			cells = append(cells, amountOfKind(costs, kind, total.Currency))
		}
		return append(cells, amountCell(sum))
	}
	for _, h := range members(d) {
		if sum, ok := answers.SumIn(h.books.CostTotals, total.Currency); ok && len(kindsIn(h.books.Costs, total.Currency)) > 0 {
			t.Rows = append(t.Rows, row(h.name, h.books.Costs, sum))
		}
	}
	if len(t.Rows) > 1 {
		t.Footer = [][]report.Cell{row("sum", d.Costs, total.Amount)}
	}
	return t
}

// members are the holders but the club.
func members(d answers.Year) []holder {
	all := holders(d)
	return all[:len(all)-1]
}

// costsOfOthers reports whether anything was for a coach or a person.
func costsOfOthers(d answers.Year) bool {
	return slices.ContainsFunc(d.Others, func(p answers.PartyYear) bool { return len(p.Costs) > 0 })
}

// kindsIn lists the kinds that have an amount in a currency.
func kindsIn(sums []answers.KindSum, currency string) []string {
	var kinds []string
	for _, s := range sums {
		if s.Currency == currency {
			kinds = words.Once(kinds, s.Kind)
		}
	}
	slices.Sort(kinds)
	return kinds
}

// PilotIncomeTable lists what pilots received from outside.
func PilotIncomeTable(d answers.Year) *report.Table {
	t := &report.Table{Title: "pilots' income, in nobody's balance", Key: 1, Columns: []report.Column{
		{Title: words.ColumnPilot, Wrapped: true, Min: 12},
		{Title: words.ColumnKind},
		{Title: words.ColumnAmount, Align: report.Right},
		{Title: words.ColumnCurrency},
	}}
	for _, p := range d.Pilots {
		for _, s := range p.Income {
			t.Rows = append(t.Rows, []report.Cell{report.Text(p.Name), report.Text(words.KindSaid(s.Kind)), amountCell(s.Amount), report.Text(s.Currency)})
		}
	}
	return t
}

// ClubTable shows the club's costs and income by kind, and what is left: its
// result in the currency.
func ClubTable(club answers.Books, result answers.Sum) *report.Table {
	currency := result.Currency
	t := &report.Table{Title: currency + ", the club by kind", Key: 1, Columns: []report.Column{
		{Title: words.ColumnKind},
		{Key: ClubIncome, Title: words.ColumnIncome, Align: report.Right},
		{Key: ClubCosts, Title: words.ColumnCosts, Align: report.Right},
	}}
	for _, kind := range kindsIn(slices.Concat(club.Costs, club.Income), currency) {
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(words.KindSaid(kind)), amountOfKind(club.Income, kind, currency), amountOfKind(club.Costs, kind, currency),
		})
	}
	t.Footer = [][]report.Cell{
		{report.Text("sum"), amountIn(club.IncomeTotals, currency), amountIn(club.CostTotals, currency)},
		{report.Text("income less costs"), balanceCell(result.Amount)},
	}
	return t
}
