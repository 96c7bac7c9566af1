package workbook

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// into is the currency of the year's rates, "" where it has none.
func (c *club) into() string {
	if len(c.Year.Rates) == 0 {
		return ""
	}
	return c.Year.Rates[0].To
}

// moneyCurrencies are those in which the club has a result or money moved, in the
// year or the one beside it.
func (p *yearPage) moneyCurrencies() []string {
	var all []string
	for _, y := range p.years() {
		for _, sums := range [][]answers.Sum{y.Club.Moved, y.Club.Result} {
			for _, s := range sums {
				all = words.Once(all, s.Currency)
			}
		}
	}
	slices.SortFunc(all, p.byCurrency)
	return all
}

// byCurrency puts the currency that the year's rates convert into first, the others
// by their code.
func (p *yearPage) byCurrency(a, b string) int {
	if a != b && a == p.c.into() {
		return -1
	}
	if a != b && b == p.c.into() {
		return 1
	}
	return strings.Compare(a, b)
}

// resultRow is a row of the result: its value and formula in a currency of a year,
// at a column of the sheet, and what all of it is in one currency.
type resultRow struct {
	title  string
	value  func(y answers.Year, currency string) xlsx.Value
	form   func(y answers.Year, currency string, column int) string
	inOne  *answers.Sum
	strong bool
}

// The rows of the result by their place, from 0. The last of them stand one higher
// where no debt was paid in another currency.
const (
	atIncome = iota
	atCosts
	atResult
	atThen
	atNow
	atExchanged
	atMoved
	atCounted
)

// exchanges reports whether debts with the club were paid in another currency.
func (p *yearPage) exchanges() bool {
	return slices.ContainsFunc(p.years(), func(y answers.Year) bool {
		return slices.ContainsFunc(y.Club.Exchanged, func(s answers.Sum) bool { return !s.Amount.IsNothing() })
	})
}

// result is what became of the club's result, a column a currency and year.
func (p *yearPage) result() {
	currencies, years, into := p.moneyCurrencies(), p.years(), p.c.into()
	if p.c.ResultInOne == nil && p.c.MovedInOne == nil {
		into = "" // a currency has no rate
	}
	titles := []yearCell{title("", xlsx.LookText)}
	for _, currency := range currencies {
		for _, y := range years {
			titles = append(titles, title(words.CurrencyYear(currency, y.Year), p.c.moneyLook(currency)))
		}
	}
	if into != "" {
		titles = append(titles, title(words.CurrencyYear(words.AllIn(into), p.c.Year.Year), p.c.moneyLook(into)))
	}
	t := p.begin(words.ResultHeading, titles...)
	for _, row := range p.resultRows(t.first()) {
		cells, converted := []yearCell{said(row.title)}, map[string]string{}
		for _, currency := range currencies {
			for i, y := range years {
				column := len(cells) + 1
				cells = append(cells, p.amountCell(currency, row.value(y, currency), row.form(y, currency, column)))
				if i == 0 {
					converted[currency] = xlsx.At(column, t.next())
				}
			}
		}
		if row.inOne != nil {
			cells = append(cells, p.amountCell(into, amountValue(row.inOne.Amount), p.c.inRates(into, converted)))
		} else if into != "" {
			cells = append(cells, empty())
		}
		if row.strong {
			for i := range cells {
				cells[i] = cells[i].strong()
			}
		}
		t.add(cells...)
	}
}

func (p *yearPage) resultRows(first int) []resultRow {
	exchanges := p.exchanges()
	cell := func(column, row int) string {
		if row > atExchanged && !exchanges {
			row--
		}
		return xlsx.At(column, first+row)
	}
	of := func(sums func(answers.ClubYear) []answers.Sum) func(answers.Year, string) xlsx.Value {
		return func(y answers.Year, currency string) xlsx.Value { return amountIn(sums(y.Club), currency) }
	}
	posted := func(column string) func(answers.Year, string, int) string {
		return func(y answers.Year, currency string, _ int) string {
			return journalSum(column, where("cur", currency), inYear(y.Year))
		}
	}
	rows := []resultRow{
		{title: words.RowIncome, value: of(func(d answers.ClubYear) []answers.Sum { return d.IncomeTotals }), form: posted("income")},
		{title: words.RowCosts, value: of(func(d answers.ClubYear) []answers.Sum { return d.CostTotals }), form: posted("costs")},
		{
			title: words.RowResult, value: of(func(d answers.ClubYear) []answers.Sum { return d.Result }), strong: true, inOne: p.c.ResultInOne,
			form: func(_ answers.Year, _ string, column int) string {
				return cell(column, atIncome) + "-" + cell(column, atCosts)
			},
		},
		{title: words.RowClaimsThen, value: of(func(d answers.ClubYear) []answers.Sum { return d.ClaimsOpening }), form: p.claimsThen},
		{title: words.RowClaimsNow, value: of(func(d answers.ClubYear) []answers.Sum { return d.Claims }), form: p.claimsNow},
		{title: words.RowExchanged, value: of(func(d answers.ClubYear) []answers.Sum { return d.Exchanged }), form: exchanged(p.c)},
		{
			title: words.RowMoved, value: of(func(d answers.ClubYear) []answers.Sum { return d.Moved }), strong: true, inOne: p.c.MovedInOne,
			form: func(_ answers.Year, _ string, column int) string {
				moved := fmt.Sprintf("%s-(%s-%s)", cell(column, atResult), cell(column, atNow), cell(column, atThen))
				if exchanges {
					moved += "+" + cell(column, atExchanged)
				}
				return moved
			},
		},
		{
			title: words.RowCounted, value: of(func(d answers.ClubYear) []answers.Sum { return d.Moved }),
			form: func(y answers.Year, currency string, _ int) string {
				return journalSum("money", where("money-cur", currency), inYear(y.Year))
			},
		},
		{
			title: words.RowDifference, value: func(answers.Year, string) xlsx.Value { return xlsx.Integer(0) },
			form: func(_ answers.Year, _ string, column int) string {
				return cell(column, atMoved) + "-" + cell(column, atCounted)
			},
		},
	}
	if !exchanges {
		rows = slices.Delete(rows, atExchanged, atExchanged+1)
	}
	return append(rows, p.agreed()...)
}

// claimsThen is what the club was owed at the start: all postings before the year,
// and older debts that were written down in it.
func (p *yearPage) claimsThen(y answers.Year, currency string, _ int) string {
	return p.c.between(answers.TheClub, "", where("cur", currency), upTo(y.Year-1)) + "+" +
		p.c.between(answers.TheClub, "", where("cur", currency), inYear(y.Year), where("entry", string(answers.EntryOwed)))
}

func (p *yearPage) claimsNow(y answers.Year, currency string, _ int) string {
	return p.c.between(answers.TheClub, "", where("cur", currency), upTo(y.Year))
}

// exchanged is what debts in another currency brought, less what those of this one
// that were paid in another would have brought.
func exchanged(c *club) func(answers.Year, string, int) string {
	return func(y answers.Year, currency string, _ int) string {
		settled := []condition{inYear(y.Year), where("entry", string(answers.EntrySettle))}
		own, other := where("cur", currency), where("cur", "<>"+currency)
		paidIn, paidElse := where("money-cur", currency), where("money-cur", "<>"+currency)
		return journalSum("money", append(settled, paidIn, other)...) + "+" + c.between(answers.TheClub, "", append(settled, own, paidElse)...)
	}
}

// agreed is the result as the assembly agreed it, where it did.
func (p *yearPage) agreed() []resultRow {
	found := false
	value := func(y answers.Year, currency string) xlsx.Value {
		for _, a := range words.AllAgreed(y) {
			if a.Currency == currency {
				return amountValue(a.Amount)
			}
		}
		return xlsx.Value{}
	}
	for _, y := range p.years() {
		found = found || y.Agreed != nil
	}
	if !found {
		return nil
	}
	return []resultRow{{title: words.RowAgreed, value: value, form: func(answers.Year, string, int) string { return "" }}}
}

// owed is who owes the club what, since when and what for.
func (p *yearPage) owed() {
	club, c := p.c.Year.Club, p.c
	if len(club.Owed) == 0 {
		return
	}
	t := p.begin(words.ClubOwedHeading, title(words.ColumnWho, xlsx.LookText), title(words.ColumnAmount, amountLook(0)),
		title(words.ColumnCurrency, xlsx.LookCentred), title(words.ColumnSince, xlsx.LookDate), title(words.ColumnOldest, xlsx.LookText.Indented()).goesOn())
	for _, o := range club.Owed {
		formula := c.between(answers.TheClub, o.Party, where("cur", o.Currency), upTo(c.Year.Year))
		t.add(said(named(o.Name)), p.amountCell(o.Currency, amountValue(o.Amount), formula), centred(o.Currency), dated(o.Since), yearCell{value: xlsx.Text(words.OwedFor(o)), look: xlsx.LookText.Indented()}.goesOn())
	}
	last, cells := t.next()-1, map[string]string{}
	for _, total := range club.OwedTotals {
		formula := sumWhere(t.first(), last, 2, 3, total.Currency)
		cells[total.Currency] = xlsx.At(2, t.next())
		t.add(said(words.RowAll).strong(), p.amountCell(total.Currency, amountValue(total.Amount), formula).strong(), centred(total.Currency).strong())
	}
	if c.OwedInOne != nil && len(cells) > 1 {
		into := c.OwedInOne.Currency
		t.add(said(words.TogetherIn(into)).strong(), p.amountCell(into, amountValue(c.OwedInOne.Amount), c.inRates(into, cells)).strong(), centred(into).strong())
	}
}

// unpaid is what of it was billed and is not paid, as the first page of the year
// has it.
func (p *yearPage) unpaid() {
	bills := answers.UnpaidByKind(p.c.Year)
	if len(bills) == 0 {
		return
	}
	t := p.begin(words.Sentence(words.UnpaidTitle), title(words.ColumnWho, xlsx.LookText), title(words.ColumnAmount, amountLook(0)),
		title(words.ColumnCurrency, xlsx.LookCentred), title(words.ColumnDate, xlsx.LookDate), title(words.ColumnKind, xlsx.LookText.Indented()).goesOn())
	for _, u := range bills {
		bill := yearCell{value: xlsx.Text(words.BillName(u.Contest, u.Kind)), look: xlsx.LookText.Indented()}
		t.add(said(named(u.Name)), p.amountCell(u.Currency, amountValue(u.Amount), ""), centred(u.Currency), dated(u.Date), bill.goesOn())
	}
}

// sumWhere adds up a column from one row to another, where another column has a
// currency.
func sumWhere(first, last, column, currencies int, currency string) string {
	return "SUMIFS(" + xlsx.Dollars(column, first, column, last) + "," + xlsx.Dollars(currencies, first, currencies, last) + "," + xlsx.Quoted(currency) + ")"
}

// kindLine is a kind of income or costs in a currency.
type kindLine struct{ currency, kind string }

// kindLines are those of the year, of the one beside it and of the budget, by
// currency, then kind.
func (p *yearPage) kindLines(income bool) []kindLine {
	var all []kindLine
	add := func(l kindLine) {
		if !slices.Contains(all, l) {
			all = append(all, l)
		}
	}
	for _, y := range p.years() {
		for _, s := range kindsOfClub(y, income) {
			add(kindLine{s.Currency, s.Kind})
		}
	}
	for _, b := range p.c.Year.Club.Budget {
		if b.Income == income {
			add(kindLine{b.Currency, b.Kind})
		}
	}
	slices.SortFunc(all, func(a, b kindLine) int {
		return cmp.Or(p.byCurrency(a.currency, b.currency), strings.Compare(a.kind, b.kind))
	})
	return all
}

// kindsOfClub are the club's income or costs by kind.
func kindsOfClub(y answers.Year, income bool) []answers.KindSum {
	if income {
		return y.Club.Income
	}
	return y.Club.Costs
}

// kinds is a table of income or costs by kind beside the year before and the
// budget.
func (p *yearPage) kinds(heading, column string, income bool) {
	lines, years := p.kindLines(income), p.years()
	if len(lines) == 0 {
		return
	}
	titles := []yearCell{title(words.ColumnKind, xlsx.LookText), title(words.ColumnCurrency, xlsx.LookCentred)}
	for _, y := range years {
		titles = append(titles, title(fmt.Sprint(y.Year), amountLook(0)))
	}
	titles = append(titles, title(words.CurrencyBudget(p.c.Year.Year), amountLook(0)), title(words.OverOrUnder, amountLook(0)))
	t := p.begin(heading, titles...)
	for _, l := range lines {
		t.add(p.kindCells(l, column, income, t.next())...)
	}
	p.kindTotals(t, income)
}

func (p *yearPage) kindCells(l kindLine, column string, income bool, row int) []yearCell {
	cells := []yearCell{said(words.KindSaid(l.kind)), centred(l.currency)}
	for _, y := range p.years() {
		value := xlsx.Integer(0)
		amount, found := answers.KindIn(kindsOfClub(y, income), l.kind, l.currency)
		if found {
			value = amountValue(amount)
		}
		cell := p.amountCell(l.currency, value, journalSum(column, where("kind-key", p.c.kinds[l.kind]), where("cur", l.currency), inYear(y.Year)))
		cell.look = noneIsBlank(cell.look, !found)
		cells = append(cells, cell)
	}
	for _, b := range p.c.Year.Club.Budget {
		if b.Kind == l.kind && b.Currency == l.currency && b.Income == income {
			budget := len(cells) + 1
			return append(cells, p.amountCell(l.currency, amountValue(b.Amount), ""),
				p.amountCell(l.currency, less(b.Actual, b.Amount), xlsx.At(3, row)+"-"+xlsx.At(budget, row)))
		}
	}
	none := empty()
	if _, some := answers.KindIn(kindsOfClub(p.c.Year, income), l.kind, l.currency); some {
		if _, found := p.c.Year.Club.BudgetInAll(income, l.currency); found {
			none.value = xlsx.Text(words.NoBudget)
			none.look.Align = "right"
		}
	}
	return append(cells, none, empty())
}

// kindTotals adds up each currency beneath.
func (p *yearPage) kindTotals(t *yearTable, income bool) {
	last := t.next() - 1
	for _, currency := range p.kindCurrencies(income) {
		cells := []yearCell{said(words.RowAll).strong(), centred(currency).strong()}
		add := func(v xlsx.Value) {
			formula := sumWhere(t.first(), last, len(cells)+1, 2, currency)
			cells = append(cells, p.amountCell(currency, v, formula).strong())
		}
		for _, y := range p.years() {
			if income {
				add(amountIn(y.Club.IncomeTotals, currency))
			} else {
				add(amountIn(y.Club.CostTotals, currency))
			}
		}
		all, found := p.c.Year.Club.BudgetInAll(income, currency)
		if !found {
			t.add(append(cells, empty(), empty())...)
			continue
		}
		add(amountValue(all.Amount))
		t.add(append(cells, p.amountCell(currency, less(all.Actual, all.Amount), xlsx.At(3, t.next())+"-"+xlsx.At(len(cells), t.next())).strong())...)
	}
}

// kindCurrencies are the currencies of the lines of income or costs, in their
// order.
func (p *yearPage) kindCurrencies(income bool) []string {
	var all []string
	for _, l := range p.kindLines(income) {
		all = words.Once(all, l.currency)
	}
	return all
}

// ratesTable has a row a rate, which is typed.
func (p *yearPage) ratesTable() {
	if len(p.c.Year.Rates) == 0 {
		return
	}
	t := p.begin(words.RatesHeading, title(words.ColumnRateOf, xlsx.LookText), title(words.ColumnRateIs, xlsx.LookTwo), title(words.ColumnCurrency, xlsx.LookCentred))
	for _, r := range p.c.Year.Rates {
		exact, _ := new(big.Rat).SetString(r.Rate) // a decimal, as the ledger wrote it
		p.names = append(p.names, namedRate{rateName(r.From), t.next()})
		t.add(said("1 "+r.From), yearCell{value: number(report.Exact(exact)), look: xlsx.Look{Format: "0.######", Align: "right", Line: true}}, centred(r.To))
	}
}

// namedRate is a cell of a rate that formulas know by a name.
type namedRate struct {
	name string
	row  int
}

// rateName is what the rate of a currency is called in formulas.
func rateName(currency string) string { return "Rate_" + currency }

// ratesByName are the names of the year's rates.
func ratesByName(y answers.Year) map[string]string {
	names := map[string]string{}
	for _, r := range y.Rates {
		names[r.From] = rateName(r.From)
	}
	return names
}
