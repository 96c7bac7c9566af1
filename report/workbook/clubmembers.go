package workbook

import (
	"fmt"
	"math/big"

	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// memberRow is a party's account in one currency.
type memberRow struct {
	party, name string
	kind        string
	account     answers.Account
	withClub    answers.Amount
	converted   *answers.Converted // of all its currencies, in the first one's row
	cells       map[string]string  // what is carried out, by currency
	key         string
	look        xlsx.Look
}

// memberRows are the accounts of everybody, the club's last.
func (c *club) memberRows() []memberRow {
	var rows []memberRow
	kinds := map[string]string{}
	for _, p := range c.Year.Parties {
		kinds[p.Party] = string(p.Kind)
	}
	add := func(party, name string, books answers.Books) {
		for i, account := range books.Accounts {
			row := memberRow{party: party, name: named(name), kind: kinds[party], account: account, key: c.parties[party], look: c.moneyLook(account.Currency)}
			for _, stands := range c.WithClub {
				if stands.Party == party && stands.Currency == account.Currency {
					row.withClub = stands.Amount
				}
			}
			if i == 0 {
				row.converted = books.Converted
			}
			rows = append(rows, row)
		}
	}
	for _, p := range c.Year.Pilots {
		add(p.Pilot, p.Name, p.Books)
	}
	for _, p := range c.Year.Others {
		add(p.Party, p.Name, p.Books)
	}
	add(answers.TheClub, "", c.Year.Club.Books)
	return rows
}

// of are the postings of the year with an entry, as conditions.
func (c *club) of(m memberRow, entry answers.EntryWord) []condition {
	return []condition{where("cur", m.account.Currency), inYear(c.Year.Year), where("entry", string(entry))}
}

// billed says whether the club has put a cost down as its income unpaid.
func (c *club) billed() []condition {
	return []condition{where("from-key", c.parties[answers.TheClub]), where("to-club", "yes")}
}

// paidOut is what a party paid for whomever: all costs that it gave but those that
// the club billed.
func (c *club) paidOut(m memberRow) string {
	paid := append(c.of(m, answers.EntryCost), where("from-key", m.key))
	sum := journalSum("amount", paid...)
	if m.party == answers.TheClub {
		sum += "-" + journalSum("amount", append(paid, where("to-club", "yes"))...)
	}
	return sum
}

// billedOut is what the club billed, which nobody else does.
func (c *club) billedOut(m memberRow) string {
	if m.party != answers.TheClub {
		return ""
	}
	return c.rounded(journalSum("amount", append(c.of(m, answers.EntryCost), c.billed()...)...), m.account.Currency)
}

// paymentSum is what a party pays, or gets, by the sheet of payments.
func paymentSum(side string) func(memberRow) string {
	return func(m memberRow) string {
		return `SUMIFS({Payments.amount},{Payments.` + side + `},` + xlsx.Quoted(m.key) + `,{Payments.cur},` + xlsx.Quoted(m.account.Currency) + `)`
	}
}

// payments is what a party pays, or gets.
func (c *club) payments(m memberRow, side func(answers.Payment) string) *big.Rat {
	sum := new(big.Rat)
	for _, p := range c.Year.Settle {
		if side(p) == m.party && p.Currency == m.account.Currency {
			sum.Add(sum, exactly(p.Amount))
		}
	}
	return sum
}

func payer(p answers.Payment) string { return p.From }

func payee(p answers.Payment) string { return p.To }

// moneyColumn is a column of amounts, or of formulas that come to them.
func (c *club) moneyColumn(key, title string, value func(memberRow) xlsx.Value, formula func(memberRow) string) xlsx.Column[memberRow] {
	column := xlsx.Column[memberRow]{Key: key, Title: title, Width: c.amountWide, Look: amountLook(2), Value: value, FormulaOf: formula}
	column.LookOf = func(m memberRow) xlsx.Look {
		if formula != nil && formula(m) != "" {
			return m.look.Live()
		}
		return m.look
	}
	return column
}

func (c *club) memberColumns() []xlsx.Column[memberRow] {
	amount := func(of func(answers.Account) answers.Amount) func(memberRow) xlsx.Value {
		return func(m memberRow) xlsx.Value { return amountValue(of(m.account)) }
	}
	exact := func(formula func(memberRow) string) func(memberRow) string {
		return func(m memberRow) string { return c.rounded(formula(m), m.account.Currency) }
	}
	moved := func(entry answers.EntryWord) func(memberRow) string {
		return exact(func(m memberRow) string { return c.between(m.party, "", c.of(m, entry)...) })
	}
	columns := []xlsx.Column[memberRow]{
		textColumn("who", words.ColumnWho, 17, xlsx.LookWrap, func(m memberRow) string { return m.name }),
		textColumn("kind", words.ColumnPartyKind, 9, xlsx.LookText, func(m memberRow) string { return m.kind }),
		textColumn("cur", words.ColumnCurrency, 9.5, xlsx.LookCentred, func(m memberRow) string { return m.account.Currency }),
		c.moneyColumn("carried-in", words.ColumnCarriedIn, amount(func(a answers.Account) answers.Amount { return a.Opening }), exact(func(m memberRow) string {
			return c.between(m.party, "", where("cur", m.account.Currency), upTo(c.Year.Year-1))
		})),
		c.moneyColumn("paid", words.ColumnPaidOut, amount(func(a answers.Account) answers.Amount { return a.Paid }), exact(c.paidOut)),
		c.moneyColumn("billed", words.ColumnBilled, amount(func(a answers.Account) answers.Amount { return a.Billed }), c.billedOut),
		c.moneyColumn("share", words.ColumnTheirShare, amount(func(a answers.Account) answers.Amount { return a.Share }), exact(func(m memberRow) string {
			return journalSum("amount", append(c.of(m, answers.EntryCost), where("to-key", m.key))...)
		})),
		c.moneyColumn("settled", words.ColumnSettled, amount(func(a answers.Account) answers.Amount { return a.Settled }), moved(answers.EntrySettle)),
		c.moneyColumn("owed", words.ColumnOldDebts, amount(func(a answers.Account) answers.Amount { return a.Owed }), moved(answers.EntryOwed)),
		c.moneyColumn("carried-out", words.ColumnCarriedOut, amount(func(a answers.Account) answers.Amount { return a.Closing }), exact(func(memberRow) string {
			return "{carried-in}+{paid}+{billed}-{share}+{settled}+{owed}"
		})),
		c.moneyColumn("with-club", words.ColumnWithClub, c.withClubValue, c.withClubFormula),
		c.moneyColumn("pays", words.ColumnPays, func(m memberRow) xlsx.Value { return xlsx.Exact(c.payments(m, payer)) }, exact(paymentSum("from-key"))),
		c.moneyColumn("gets", words.ColumnGets, func(m memberRow) xlsx.Value { return xlsx.Exact(c.payments(m, payee)) }, exact(paymentSum("to-key"))),
		c.moneyColumn("left", words.ColumnLeft, c.leftValue, exact(func(memberRow) string { return "{carried-out}+{pays}-{gets}" })),
	}
	if into := c.Year.Club.Converted; into != nil {
		columns = append(columns, c.convertedColumn(into.Currency))
	}
	return columns
}

func (c *club) withClubValue(m memberRow) xlsx.Value {
	if m.party == answers.TheClub {
		return xlsx.Value{}
	}
	return amountValue(m.withClub)
}

func (c *club) withClubFormula(m memberRow) string {
	if m.party == answers.TheClub {
		return ""
	}
	return c.rounded(c.between(m.party, answers.TheClub, where("cur", m.account.Currency), upTo(c.Year.Year)), m.account.Currency)
}

func (c *club) leftValue(m memberRow) xlsx.Value {
	left := new(big.Rat).Add(exactly(m.account.Closing), c.payments(m, payer))
	return xlsx.Exact(left.Sub(left, c.payments(m, payee)))
}

// convertedColumn is what a party's balances come to in the currency of the rates,
// in the first of its rows.
func (c *club) convertedColumn(into string) xlsx.Column[memberRow] {
	column := c.moneyColumn("converted", words.AllIn(into), func(m memberRow) xlsx.Value {
		if m.converted == nil || m.converted.Amount == nil {
			return xlsx.Value{}
		}
		return amountValue(*m.converted.Amount)
	}, func(m memberRow) string {
		if m.converted == nil || m.converted.Amount == nil {
			return ""
		}
		return c.inRates(into, m.cells)
	})
	column.LookOf = func(m memberRow) xlsx.Look {
		look := c.moneyLook(into).Live()
		if m.converted == nil {
			return c.moneyLook(into)
		}
		if len(m.converted.Without) > 0 {
			look.Format += `"` + words.FilledSign + `"`
		}
		return look
	}
	return column
}

// membersSheet has a row a party and currency, and the sum of each currency beneath.
func membersSheet(c *club) xlsx.Sheet {
	columns, rows := c.memberColumns(), c.memberRows()
	p := xlsx.Place("Members", words.MembersSheet, 1, len(rows), columns)
	c.carriedOut(rows, p)
	return xlsx.Sheet{
		Name: words.MembersSheet, Tables: []xlsx.Placed{p}, FrozenRows: 1, FrozenColumns: 1, HeadRows: 1, LastColumn: len(columns), Legend: words.MembersLegend,
		Fill: func(b *xlsx.Book) {
			xlsx.Widths(b, columns)
			xlsx.FillTable(b, p, columns, rows)
			b.Filter(p, columns[len(columns)-1].Key)
			b.Conditional(p.Area("who", columns[len(columns)-1].Key), partiesApart(p))
			c.memberTotals(b, p)
		},
	}
}

// partiesApart draws a line between the rows of two parties.
func partiesApart(p xlsx.Placed) xlsx.Rule {
	who := xlsx.ColumnName(p.Columns["who"])
	return xlsx.Rule{Formula: fmt.Sprintf("$%[1]s%[2]d<>$%[1]s%[3]d", who, p.First(), p.Head), Dress: xlsx.Dress{LineAbove: true}}
}

// carriedOut says in which cells a party's balances stand.
func (c *club) carriedOut(rows []memberRow, p xlsx.Placed) {
	for i := range rows {
		if i == 0 || rows[i].party != rows[i-1].party {
			rows[i].cells = map[string]string{}
		} else {
			rows[i].cells = rows[i-1].cells
		}
		rows[i].cells[rows[i].account.Currency] = xlsx.At(p.Columns["carried-out"], p.First()+i)
	}
}

// memberTotals adds up each currency: what all are owed is nothing.
func (c *club) memberTotals(b *xlsx.Book, p xlsx.Placed) {
	row := p.Last() + 2
	for _, total := range c.Year.Totals {
		ruled(b, row, 1, p.Columns["cur"])
		b.Text(1, row, words.AllOf(total.Currency), xlsx.LookText.Strong())
		b.Text(p.Columns["cur"], row, total.Currency, xlsx.LookCentred.Strong())
		for key, amount := range map[string]answers.Amount{
			"carried-in": total.Opening, "paid": total.Paid, "billed": total.Billed, "share": total.Share,
			"settled": total.Settled, "owed": total.Owed, "carried-out": total.Closing,
		} {
			formula := "SUMIFS(" + p.Span(key, key) + "," + p.Span("cur", "cur") + "," + xlsx.Quoted(total.Currency) + ")"
			b.Formula(p.Columns[key], row, c.rounded(formula, total.Currency), amountValue(amount), c.moneyLook(total.Currency).Strong().Live())
		}
		row++
	}
	for i, note := range words.MembersNotes() {
		b.Text(1, row+1+i, note, xlsx.LookNote)
	}
}
