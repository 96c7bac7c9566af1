package workbook

import (
	"slices"
	"strconv"

	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// paymentRow is a payment that would make two parties even.
type paymentRow struct {
	answers.Payment
	look xlsx.Look
}

// withTheClub reports whether the club pays or gets it: then it is what stands
// between the two.
func (p paymentRow) withTheClub() bool { return p.From == answers.TheClub || p.To == answers.TheClub }

func (c *club) paymentColumns() []xlsx.Column[paymentRow] {
	key := func(party func(answers.Payment) string) func(paymentRow) string {
		return func(p paymentRow) string { return c.parties[party(p.Payment)] }
	}
	return append([]xlsx.Column[paymentRow]{
		textColumn("from", words.ColumnPays, 34, xlsx.LookWrap, func(p paymentRow) string { return named(p.FromName) }),
		textColumn("to", words.ColumnGets, 34, xlsx.LookWrap, func(p paymentRow) string { return named(p.ToName) }),
		{
			Key: "amount", Title: words.ColumnAmount, Width: c.amountWide + 3, Look: amountLook(2), Value: func(p paymentRow) xlsx.Value { return amountValue(p.Amount) },
			FormulaOf: c.paymentFormula, LookOf: func(p paymentRow) xlsx.Look {
				if p.withTheClub() {
					return p.look.Live()
				}
				return p.look.Stat()
			},
		},
		textColumn("cur", words.ColumnCurrency, 12, xlsx.LookCentred, func(p paymentRow) string { return p.Currency }),
		textColumn("done", words.ColumnDone, 24, xlsx.LookText, func(paymentRow) string { return "" }),
	}, xlsx.FoldedAway([]xlsx.Column[paymentRow]{
		textColumn("from-key", words.ColumnFromKey, 0, xlsx.LookText, key(payer)),
		textColumn("to-key", words.ColumnToKey, 0, xlsx.LookText, key(payee)),
	})...)
}

// paymentFormula is what stands between a party and the club.
func (c *club) paymentFormula(p paymentRow) string {
	if !p.withTheClub() {
		return ""
	}
	return c.rounded(c.between(p.To, p.From, where("cur", p.Currency), upTo(c.Year.Year)), p.Currency)
}

// paymentsSheet is who pays whom.
func paymentsSheet(c *club) xlsx.Sheet {
	columns := c.paymentColumns()
	rows := make([]paymentRow, len(c.Year.Settle))
	for i, p := range c.Year.Settle {
		rows[i] = paymentRow{p, c.moneyLook(p.Currency)}
	}
	p := xlsx.Place("Payments", words.PaymentsSheet, 1, len(rows), columns)
	return xlsx.Sheet{
		Name: words.PaymentsSheet, Tables: []xlsx.Placed{p}, FrozenRows: 1, HeadRows: 1, LastColumn: p.Columns["done"], Legend: words.PaymentsLegend,
		Fill: func(b *xlsx.Book) {
			xlsx.Widths(b, columns)
			xlsx.FillTable(b, p, columns, rows)
			b.Filter(p, "done")
		},
	}
}

// dutyRow is what somebody did for the club in the year, and flew for it.
type dutyRow struct {
	name     string
	flew     bool
	contests int
	flights  int
	places   map[string]int
	duties   map[string]int
}

// dutyRows are the pilots who flew or did a duty, and the others who did one.
func (c *club) dutyRows() []dutyRow {
	var rows []dutyRow
	for _, p := range c.Year.Pilots {
		if p.Contests+p.Flights+len(p.Duties) > 0 {
			rows = append(rows, dutyRow{p.Name, true, p.Contests, p.Flights, p.Places, p.Duties})
		}
	}
	for _, p := range c.Year.Others {
		if len(p.Duties) > 0 {
			rows = append(rows, dutyRow{name: p.Name, duties: p.Duties})
		}
	}
	return rows
}

// flown is a count of a pilot's flying, nothing for somebody who does not fly.
func (r dutyRow) flown(n int) xlsx.Value {
	if !r.flew {
		return xlsx.Value{}
	}
	return xlsx.Integer(n)
}

// sessions is how often all duties were done.
func (r dutyRow) sessions() int {
	all := 0
	for _, n := range r.duties {
		all += n
	}
	return all
}

// roles lists the duties that were done, by name.
func roles(rows []dutyRow) []string {
	var all []string
	for _, r := range rows {
		for role := range r.duties {
			all = words.Once(all, role)
		}
	}
	slices.Sort(all)
	return all
}

// countLook shows a count in the middle, a dash for none.
var countLook = xlsx.Look{Format: `0;-0;"–"`, Align: "center", Line: true}

func dutyColumns(roles []string) []xlsx.Column[dutyRow] {
	count := func(key, title string, n func(dutyRow) xlsx.Value) xlsx.Column[dutyRow] {
		return xlsx.Column[dutyRow]{Key: key, Title: title, Width: 11, Look: countLook, Value: n}
	}
	columns := []xlsx.Column[dutyRow]{
		textColumn("who", words.ColumnWho, 28, xlsx.LookWrap, func(r dutyRow) string { return r.name }),
		count("contests", words.ColumnContests, func(r dutyRow) xlsx.Value { return r.flown(r.contests) }),
		count("flights", words.ColumnFlights, func(r dutyRow) xlsx.Value { return r.flown(r.flights) }),
		count("first", words.ColumnFirst, func(r dutyRow) xlsx.Value { return r.flown(r.places["1"]) }),
		count("second", words.ColumnSecond, func(r dutyRow) xlsx.Value { return r.flown(r.places["2"]) }),
		count("third", words.ColumnThird, func(r dutyRow) xlsx.Value { return r.flown(r.places["3"]) }),
	}
	for i, role := range roles {
		columns = append(columns, count(roleKey(i), words.RoleTitle(role), func(r dutyRow) xlsx.Value { return xlsx.Integer(r.duties[role]) }))
	}
	all := count("all", words.ColumnDutySum, func(r dutyRow) xlsx.Value { return xlsx.Integer(r.sessions()) })
	all.Look = countLook.Strong()
	if len(roles) > 0 {
		all.Formula, all.Look = "SUM({"+roleKey(0)+":"+roleKey(len(roles)-1)+"})", all.Look.Live()
	}
	return append(columns, all)
}

// dutiesSheet is who flew for the club, and who did which duties.
func dutiesSheet(c *club) xlsx.Sheet {
	rows := c.dutyRows()
	columns := dutyColumns(roles(rows))
	p := xlsx.Place("Duties", words.DutiesSheet, 1, len(rows), columns)
	return xlsx.Sheet{
		Name: words.DutiesSheet, Tables: []xlsx.Placed{p}, FrozenRows: 1, FrozenColumns: 1, HeadRows: 1, LastColumn: len(columns), Legend: words.DutiesLegend,
		Fill: func(b *xlsx.Book) {
			xlsx.Widths(b, columns)
			xlsx.FillTable(b, p, columns, rows)
			b.Filter(p, "all")
			dutyTotals(b, p, columns, rows)
		},
	}
}

// dutyTotals adds up each duty beneath.
func dutyTotals(b *xlsx.Book, p xlsx.Placed, columns []xlsx.Column[dutyRow], rows []dutyRow) {
	if len(rows) == 0 {
		return
	}
	at := p.Last() + 2
	ruled(b, at, 1, p.Columns["third"])
	b.Text(1, at, words.RowAll, xlsx.LookText.Strong())
	for column := p.Columns["third"] + 1; column <= p.Columns["all"]; column++ {
		sum := 0.0
		for _, r := range rows {
			sum += columns[column-1].Value(r).Number
		}
		key := columns[column-1].Key
		b.Formula(column, at, "SUM("+p.Span(key, key)+")", xlsx.Float(sum), countLook.Strong().Live())
	}
}

// roleKey is the key of a duty's column.
func roleKey(i int) string { return "role-" + strconv.Itoa(i+1) }
