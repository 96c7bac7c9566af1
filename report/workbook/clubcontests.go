package workbook

import (
	"fmt"
	"math/big"
	"slices"

	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// contestCost is a contest and what it cost in one currency, "" for one that cost
// nothing.
type contestCost struct {
	answers.ContestYear
	currency string
	amount   answers.Amount
	shares   map[string]answers.Amount // by pilot
	look     xlsx.Look
}

func (c *club) contestCosts() []contestCost {
	var rows []contestCost
	for _, contest := range c.Year.Contests {
		if len(contest.Costs) == 0 {
			rows = append(rows, contestCost{ContestYear: contest, look: amountLook(0)})
		}
		for _, cost := range contest.Costs {
			row := contestCost{contest, cost.Currency, cost.Amount, map[string]answers.Amount{}, c.moneyLook(cost.Currency)}
			for _, p := range contest.Pilots {
				if share, ok := answers.SumIn(p.Costs, cost.Currency); ok {
					row.shares[p.Pilot] = share
				}
			}
			rows = append(rows, row)
		}
	}
	return rows
}

// sharing lists the pilots with a share in the costs of a contest.
func (c *club) sharing() []answers.PilotYear {
	return slices.DeleteFunc(slices.Clone(c.Year.Pilots), func(p answers.PilotYear) bool {
		return !slices.ContainsFunc(c.Year.Contests, func(contest answers.ContestYear) bool {
			return slices.ContainsFunc(contest.Pilots, func(s answers.ContestCosts) bool { return s.Pilot == p.Pilot && len(s.Costs) > 0 })
		})
	})
}

// of are the costs of the row in the journal.
func (r contestCost) of(c *club) []condition {
	return []condition{where("contest-key", c.contests[r.Contest]), where("cur", r.currency), where("entry", string(answers.EntryCost))}
}

// others is what remains of the costs beside the pilots' shares.
func (r contestCost) others(pilots []answers.PilotYear) xlsx.Value {
	if r.currency == "" {
		return xlsx.Value{}
	}
	left := exactly(r.amount)
	for _, p := range pilots {
		if share, ok := r.shares[p.Pilot]; ok {
			left.Sub(left, exactly(share))
		}
	}
	return xlsx.Exact(left)
}

func (c *club) contestColumns(pilots []answers.PilotYear) []xlsx.Column[contestCost] {
	amount := func(key, title string, value func(contestCost) xlsx.Value, formula func(contestCost) string) xlsx.Column[contestCost] {
		return xlsx.Column[contestCost]{
			Key: key, Title: title, Width: 13, Look: amountLook(2), Value: value,
			LookOf: func(r contestCost) xlsx.Look { return r.look.Live() },
			FormulaOf: func(r contestCost) string {
				if r.currency == "" {
					return ""
				}
				return c.rounded(formula(r), r.currency)
			},
		}
	}
	columns := []xlsx.Column[contestCost]{
		{Key: "date", Title: words.ColumnDate, Width: 11.5, Look: xlsx.LookDate, Value: func(r contestCost) xlsx.Value { return day(r.Date) }},
		textColumn("contest", words.ColumnContest, 30, xlsx.LookWrap.Indented(), func(r contestCost) string { return r.Name }),
		{Key: "entries", Title: words.ColumnEntries, Width: 9, Look: xlsx.LookPlace, Value: func(r contestCost) xlsx.Value { return xlsx.Integer(r.Entries) }},
		{Key: "flights", Title: words.ColumnFlights, Width: 9, Look: xlsx.LookPlace, Value: func(r contestCost) xlsx.Value { return xlsx.Integer(r.Flights) }},
		textColumn("cur", words.ColumnCurrency, 9.5, xlsx.LookCentred, func(r contestCost) string { return r.currency }),
		amount("costs", words.ColumnCosts, func(r contestCost) xlsx.Value {
			if r.currency == "" {
				return xlsx.Value{}
			}
			return amountValue(r.amount)
		}, func(r contestCost) string { return journalSum("amount", r.of(c)...) }),
	}
	for i, p := range pilots {
		columns = append(columns, amount(pilotKey(i), p.Name, func(r contestCost) xlsx.Value {
			if share, ok := r.shares[p.Pilot]; ok || r.currency == "" {
				return number(share.Number())
			}
			return xlsx.Integer(0)
		}, func(r contestCost) string {
			return journalSum("amount", append(r.of(c), where("to-key", c.parties[p.Pilot]))...)
		}))
	}
	return append(columns, amount("others", words.ColumnOtherShares, func(r contestCost) xlsx.Value { return r.others(pilots) }, func(contestCost) string {
		if len(pilots) == 0 {
			return "{costs}"
		}
		return fmt.Sprintf("{costs}-SUM({%s:%s})", pilotKey(0), pilotKey(len(pilots)-1))
	}))
}

// pilotKey is the key of a pilot's column.
func pilotKey(i int) string { return fmt.Sprint("pilot-", i+1) }

// clubContestsSheet has a row a contest and currency, and a column a pilot.
func clubContestsSheet(c *club) xlsx.Sheet {
	pilots, rows := c.sharing(), c.contestCosts()
	columns := c.contestColumns(pilots)
	p := xlsx.Place("Contests", words.ClubContests, 1, len(rows), columns)
	return xlsx.Sheet{
		Name: words.ClubContests, Tables: []xlsx.Placed{p}, FrozenRows: 1, FrozenColumns: 2, HeadRows: 1, LastColumn: len(columns), Legend: words.ContestLegend,
		Fill: func(b *xlsx.Book) {
			xlsx.Widths(b, columns)
			xlsx.FillTable(b, p, columns, rows)
			b.Filter(p, "others")
			c.contestTotals(b, p, columns, rows)
		},
	}
}

// contestTotals adds up each currency beneath the contests.
func (c *club) contestTotals(b *xlsx.Book, p xlsx.Placed, columns []xlsx.Column[contestCost], rows []contestCost) {
	at := p.Last() + 2
	for _, currency := range currenciesOf(rows) {
		look := c.moneyLook(currency).Strong().Live()
		b.Text(p.Columns["contest"], at, words.AllOf(currency), xlsx.LookText.Strong())
		b.Text(p.Columns["cur"], at, currency, xlsx.LookCentred.Strong())
		for column := p.Columns["costs"]; column <= p.Columns["others"]; column++ {
			key := columns[column-1].Key
			formula := "SUMIFS(" + p.Span(key, key) + "," + p.Span("cur", "cur") + "," + xlsx.Quoted(currency) + ")"
			b.Formula(column, at, c.rounded(formula, currency), sumIn(rows, currency, columns[column-1].Value), look)
		}
		at++
	}
}

func currenciesOf(rows []contestCost) []string {
	var all []string
	for _, r := range rows {
		if r.currency != "" {
			all = words.Once(all, r.currency)
		}
	}
	slices.Sort(all)
	return all
}

// sumIn adds a column's values in a currency up, as decimals.
func sumIn(rows []contestCost, currency string, value func(contestCost) xlsx.Value) xlsx.Value {
	sum := new(big.Rat)
	for _, r := range rows {
		if r.currency != currency {
			continue
		}
		text := fmt.Sprintf("%.*f", r.amount.Places(), value(r).Number) // what was a decimal is one again
		amount, _ := new(big.Rat).SetString(text)
		sum.Add(sum, amount)
	}
	return xlsx.Exact(sum)
}
