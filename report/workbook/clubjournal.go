package workbook

import (
	"strconv"
	"strings"

	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// journalLine is a posting as the journal has it.
type journalLine struct {
	answers.JournalRow
	from, to, kind, contest string // in formulas; an income from outside has no parties
	forClub                 bool   // it is the club's income
	look                    xlsx.Look
}

func (c *club) journalLines() []journalLine {
	lines := make([]journalLine, len(c.Journal))
	for i, r := range c.Journal {
		lines[i] = journalLine{
			JournalRow: r, from: c.parties[r.From], to: c.parties[r.To], kind: c.kinds[r.Kind], contest: c.contests[r.Contest],
			forClub: r.ToClub || r.Entry == answers.EntryIncome && r.For == answers.TheClub, look: c.moneyLook(r.Currency),
		}
	}
	return lines
}

// fromWords and toWords are the parties as people read them, in the direction of
// export money: a bill goes from the club to who owes it, as an older debt does.
func (l journalLine) fromWords() string {
	if l.Entry == answers.EntryIncome {
		return words.Outside
	}
	return named(l.FromName)
}

func (l journalLine) toWords() string {
	switch {
	case !l.toTheClub(), l.itself(), l.billed():
		return named(l.ToName)
	case l.From == l.To:
		return named("")
	default:
		return words.PaidToClubFor(named(l.ToName))
	}
}

// toTheClub reports whether a cost is what the club receives, billed whether it has
// not been paid.
func (l journalLine) toTheClub() bool { return l.Entry == answers.EntryCost && l.forClub }

func (l journalLine) billed() bool {
	return l.toTheClub() && l.From == answers.TheClub && !l.itself()
}

// typeWords is what people call such a posting.
func (l journalLine) typeWords() string {
	switch {
	case l.billed():
		return words.TypeBilled
	case l.Entry == answers.EntryIncome, l.toTheClub() && !l.itself():
		return words.TypeIncome
	case l.Entry == answers.EntrySettle:
		return words.TypePayment
	case l.Entry == answers.EntryOwed:
		return words.TypeDebt
	default:
		return words.TypeCost
	}
}

// handed is what was handed over, and in which currency.
func (l journalLine) handed() (answers.Amount, string) {
	if l.Paid != nil {
		return *l.Paid, l.PaidCurrency
	}
	return l.Amount, l.Currency
}

// income is what the posting adds to the club's income, costs to its costs.
func (l journalLine) income() xlsx.Value {
	if l.forClub && !l.itself() {
		return amountValue(l.Amount)
	}
	return xlsx.Value{}
}

// itself reports whether the club had what it received: that is neither income of
// it nor a cost.
func (l journalLine) itself() bool { return l.forClub && l.To == answers.TheClub }

func (l journalLine) costs() xlsx.Value {
	if l.Entry == answers.EntryCost && l.To == answers.TheClub && !l.itself() {
		return amountValue(l.Amount)
	}
	return xlsx.Value{}
}

// money is what the posting moved into the club's pots, or out of them.
func (l journalLine) money() xlsx.Value {
	amount, _ := l.handed()
	in, out := amountValue(amount), amountValue(amount)
	out.Number = -out.Number
	switch {
	case l.Entry == answers.EntryIncome && l.forClub,
		l.Entry == answers.EntryCost && l.forClub && l.From != answers.TheClub,
		l.Entry == answers.EntrySettle && l.To == answers.TheClub:
		return in
	case l.Entry == answers.EntryCost && !l.forClub && l.From == answers.TheClub,
		l.Entry == answers.EntrySettle && l.From == answers.TheClub:
		return out
	default:
		return xlsx.Value{}
	}
}

// The formulas of what a posting is for the club: CLUB stands for its name in
// formulas.
const (
	incomeFormula = `IF(AND({to-club}="yes",{to-key}<>CLUB),{amount},"")`
	costsFormula  = `IF(AND({entry}="cost",{to-key}=CLUB,{to-club}<>"yes"),{amount},"")`
	moneyFormula  = `IF({entry}="income",IF({to-club}="yes",{amount},""),` +
		`IF({entry}="cost",IF({to-club}="yes",IF({from-key}=CLUB,"",{amount}),IF({from-key}=CLUB,-{amount},"")),` +
		`IF({entry}="settle",IF({from-key}=CLUB,-{paid},IF({to-key}=CLUB,{paid},"")),"")))`
)

// yes stands in a working column.
func yes(holds bool) xlsx.Value {
	if holds {
		return xlsx.Text("yes")
	}
	return xlsx.Value{}
}

// textColumn is a column of texts.
func textColumn[R any](key, title string, width float64, look xlsx.Look, text func(R) string) xlsx.Column[R] {
	return xlsx.Column[R]{Key: key, Title: title, Width: width, Look: look, Value: func(r R) xlsx.Value { return xlsx.Text(text(r)) }}
}

func (c *club) journalColumns() []xlsx.Column[journalLine] {
	own, folder := xlsx.Quoted(c.parties[answers.TheClub]), c.folder()
	amount := func(key, title string, value func(journalLine) xlsx.Value, formula string) xlsx.Column[journalLine] {
		column := xlsx.Column[journalLine]{
			Key: key, Title: title, Width: c.postingWide, Look: amountLook(0), Value: value,
			LookOf: func(l journalLine) xlsx.Look { return l.look },
		}
		if formula != "" {
			column.Formula = strings.ReplaceAll(formula, "CLUB", own)
			column.LookOf = func(l journalLine) xlsx.Look { return l.look.Live() }
		}
		return column
	}
	wrapped := xlsx.LookWrap.Indented()
	return append([]xlsx.Column[journalLine]{
		{Key: "number", Title: words.ColumnNumber, Width: 5, Look: xlsx.LookInteger, Value: func(l journalLine) xlsx.Value { return xlsx.Integer(l.Number) }},
		{Key: "date", Title: words.ColumnDate, Width: 11, Look: xlsx.LookDate, Value: func(l journalLine) xlsx.Value { return day(l.Date) }},
		textColumn("type", words.ColumnPosting, 9, xlsx.LookText, journalLine.typeWords),
		textColumn("from", words.ColumnFrom, 14, xlsx.LookWrap, journalLine.fromWords),
		textColumn("to", words.ColumnTo, 14, xlsx.LookWrap, journalLine.toWords),
		amount("amount", words.ColumnAmount, func(l journalLine) xlsx.Value { return amountValue(l.Amount) }, ""),
		textColumn("cur", words.ColumnCurrency, 9, xlsx.LookCentred, func(l journalLine) string { return l.Currency }),
		textColumn("kind", words.ColumnKind, 13.5, wrapped, func(l journalLine) string { return words.KindSaid(l.Kind) }),
		textColumn("contest", words.ColumnContest, 13, xlsx.LookWrap, func(l journalLine) string { return l.ContestName }),
		textColumn("receipt", words.ColumnReceipt, 7.5, xlsx.LookCentred, func(l journalLine) string { return l.Receipt }),
		textColumn("remark", words.ColumnRemark, 24, xlsx.LookWrap, func(l journalLine) string { return l.Remark }),
		amount("income", words.ColumnClubIncome, journalLine.income, incomeFormula),
		amount("costs", words.ColumnClubCosts, journalLine.costs, costsFormula),
		amount("money", words.ColumnClubMoney, journalLine.money, moneyFormula),
		{
			Key: "paid", Title: words.ColumnPaidAmount, Width: c.postingWide, Look: amountLook(2), FormulaOf: paidFormula,
			LookOf: func(l journalLine) xlsx.Look { return paidLook(l, c) }, Value: func(l journalLine) xlsx.Value {
				amount, _ := l.handed()
				return amountValue(amount)
			},
		},
		textColumn("money-in", words.ColumnMoneyIn, 7, xlsx.LookCentred, func(l journalLine) string { return l.PaidCurrency }),
		{Key: "year", Title: words.ColumnYear, Width: 7, Look: xlsx.LookPlace, Value: func(l journalLine) xlsx.Value { return xlsx.Integer(l.FinancialYear) }},
		textColumn("line", words.ColumnLedgerLine, 24, xlsx.LookWrap, func(l journalLine) string { return words.LedgerLine(strings.TrimPrefix(l.File, folder), l.Line) }),
	}, xlsx.FoldedAway([]xlsx.Column[journalLine]{
		textColumn("entry", words.ColumnEntryKey, 0, xlsx.LookText, func(l journalLine) string { return string(l.Entry) }),
		textColumn("from-key", words.ColumnFromKey, 0, xlsx.LookText, func(l journalLine) string { return l.from }),
		textColumn("to-key", words.ColumnToKey, 0, xlsx.LookText, func(l journalLine) string { return l.to }),
		textColumn("kind-key", words.ColumnKindKey, 0, xlsx.LookText, func(l journalLine) string { return l.kind }),
		textColumn("contest-key", words.ColumnContestKey, 0, xlsx.LookText, func(l journalLine) string { return l.contest }),
		{
			Key: "money-cur", Title: words.ColumnMoneyKey, Look: xlsx.LookCentred, Formula: `IF(ISTEXT({money-in}),{money-in},{cur})`,
			Value: func(l journalLine) xlsx.Value {
				_, currency := l.handed()
				return xlsx.Text(currency)
			},
		},
		{Key: "to-club", Title: words.ColumnToClub, Look: xlsx.LookCentred, Value: func(l journalLine) xlsx.Value { return yes(l.forClub) }},
	})...)
}

// folder is what the paths of the ledger's files begin with, up to its last slash:
// where they lie on this machine is of no interest.
func (c *club) folder() string {
	if len(c.Journal) == 0 {
		return ""
	}
	common := c.Journal[0].File
	for _, r := range c.Journal {
		for !strings.HasPrefix(r.File, common) {
			common = common[:len(common)-1]
		}
	}
	return common[:strings.LastIndexAny(common, `/\`)+1]
}

// paidLook shows what was handed over where that is another currency: else it is the
// amount, which stands in the row already.
func paidLook(l journalLine, c *club) xlsx.Look {
	if l.Paid != nil {
		return c.moneyLook(l.PaidCurrency)
	}
	look := l.look
	look.Format = hidden
	return look
}

// hidden is the number format of what is not shown.
const hidden = ";;;"

// paidFormula is that of what was handed over: the amount, but for a debt that was
// paid in another currency.
func paidFormula(l journalLine) string {
	if l.Paid != nil {
		return ""
	}
	return "{amount}"
}

// journalSheet has a row a posting: the year's, which are printed, and beneath them
// the others that the sums rest on.
func journalSheet(c *club) xlsx.Sheet {
	columns, lines := c.journalColumns(), c.journalLines()
	p := xlsx.Place("Journal", words.JournalSheet, 1, len(lines), columns)
	ofYear := 0
	for _, l := range lines {
		if l.FinancialYear == c.Year.Year {
			ofYear++
		}
	}
	return xlsx.Sheet{
		Name: words.JournalSheet, Tables: []xlsx.Placed{p}, FrozenRows: 1, FrozenColumns: 2, HeadRows: 1,
		LastColumn: p.Columns["money-in"], LastRow: p.Head + max(ofYear, 1), Legend: words.JournalLegend,
		Fill: func(b *xlsx.Book) {
			xlsx.Widths(b, columns)
			xlsx.FillTable(b, p, columns, lines)
			b.Filter(p, "line")
			if ofYear < len(lines) {
				older := xlsx.Rule{Formula: "$" + xlsx.At(p.Columns["year"], p.First()) + "<>" + strconv.Itoa(c.Year.Year), Dress: xlsx.Dress{Italic: true, Colour: xlsx.FaintInk}}
				b.Conditional(p.Area("number", "line"), older)
			}
		},
	}
}
