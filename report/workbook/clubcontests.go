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

// share is what a pilot bears of it, nothing where that is none.
func (r contestCost) share(pilot string) *big.Rat {
	if share, ok := r.shares[pilot]; ok {
		return exactly(share)
	}
	return new(big.Rat)
}

// contestAmount is a column of amounts: what stands in a row that has costs, and the
// formula that comes to it.
type contestAmount struct {
	key, title string
	exact      func(contestCost) *big.Rat
	formula    func(contestCost) string
	none       func(contestCost) bool // nobody bears any of it
}

// contestAmounts are the costs, each pilot's share of them, and what remains.
func (c *club) contestAmounts(pilots []answers.PilotYear) []contestAmount {
	all := []contestAmount{{
		"costs", words.ColumnCosts, func(r contestCost) *big.Rat { return exactly(r.amount) },
		func(r contestCost) string { return journalSum("amount", r.of(c)...) }, func(contestCost) bool { return false },
	}}
	for i, p := range pilots {
		all = append(all, contestAmount{
			pilotKey(i), p.Name, func(r contestCost) *big.Rat { return r.share(p.Pilot) },
			func(r contestCost) string {
				return journalSum("amount", append(r.of(c), where("to-key", c.parties[p.Pilot]))...)
			},
			func(r contestCost) bool {
				_, bears := r.shares[p.Pilot]
				return !bears
			},
		})
	}
	return append(all, contestAmount{
		"others", words.ColumnOtherShares, func(r contestCost) *big.Rat {
			left := exactly(r.amount)
			for _, p := range pilots {
				left.Sub(left, r.share(p.Pilot))
			}
			return left
		}, func(contestCost) string {
			if len(pilots) == 0 {
				return "{costs}"
			}
			return fmt.Sprintf("{costs}-SUM({%s:%s})", pilotKey(0), pilotKey(len(pilots)-1))
		}, func(r contestCost) bool {
			return !slices.ContainsFunc(r.Others, func(p answers.PartyCosts) bool {
				_, bears := answers.SumIn(p.Costs, r.currency)
				return bears
			})
		},
	})
}

// column is the amount's column in the table.
func (a contestAmount) column(c *club) xlsx.Column[contestCost] {
	return xlsx.Column[contestCost]{
		Key: a.key, Title: a.title, Width: c.amountWide + 1, Look: amountLook(2),
		LookOf: func(r contestCost) xlsx.Look { return noneIsBlank(r.look.Live(), a.none(r)) },
		Value: func(r contestCost) xlsx.Value {
			if r.currency == "" {
				return xlsx.Value{}
			}
			return xlsx.Exact(a.exact(r))
		},
		FormulaOf: func(r contestCost) string {
			if r.currency == "" {
				return ""
			}
			return c.rounded(a.formula(r), r.currency)
		},
	}
}

func (c *club) contestColumns(amounts []contestAmount) []xlsx.Column[contestCost] {
	columns := []xlsx.Column[contestCost]{
		{Key: "date", Title: words.ColumnDate, Width: 11.5, Look: xlsx.LookDate, Value: func(r contestCost) xlsx.Value { return day(r.Date) }},
		textColumn("contest", words.ColumnContest, 30, xlsx.LookWrap.Indented(), func(r contestCost) string { return r.Name }),
		{Key: "entries", Title: words.ColumnEntries, Width: 9, Look: xlsx.LookPlace, Value: func(r contestCost) xlsx.Value { return xlsx.Integer(r.Entries) }},
		{Key: "flights", Title: words.ColumnFlights, Width: 9, Look: xlsx.LookPlace, Value: func(r contestCost) xlsx.Value { return xlsx.Integer(r.Flights) }},
		textColumn("cur", words.ColumnCurrency, 9.5, xlsx.LookCentred, func(r contestCost) string { return r.currency }),
	}
	for _, a := range amounts {
		columns = append(columns, a.column(c))
	}
	return columns
}

// pilotKey is the key of a pilot's column.
func pilotKey(i int) string { return fmt.Sprint("pilot-", i+1) }

// clubContestsSheet has a row a contest and currency, and a column a pilot.
func clubContestsSheet(c *club) xlsx.Sheet {
	amounts, rows := c.contestAmounts(c.sharing()), c.contestCosts()
	columns := c.contestColumns(amounts)
	p := xlsx.Place("Contests", words.ClubContests, 1, len(rows), columns)
	return xlsx.Sheet{
		Name: words.ClubContests, Tables: []xlsx.Placed{p}, FrozenRows: 1, FrozenColumns: 2, HeadRows: 1, LastColumn: len(columns), Legend: words.ContestLegend,
		Fill: func(b *xlsx.Book) {
			xlsx.Widths(b, columns)
			xlsx.FillTable(b, p, columns, rows)
			b.Filter(p, "others")
			c.contestTotals(b, p, amounts, rows)
		},
	}
}

// contestTotals adds up each currency beneath the contests.
func (c *club) contestTotals(b *xlsx.Book, p xlsx.Placed, amounts []contestAmount, rows []contestCost) {
	at := p.Last() + 2
	for _, currency := range currenciesOf(rows) {
		ruled(b, at, 1, p.Columns["cur"])
		b.Text(p.Columns["contest"], at, words.AllOf(currency), xlsx.LookText.Strong().Indented())
		b.Text(p.Columns["cur"], at, currency, xlsx.LookCentred.Strong())
		for _, a := range amounts {
			sum := new(big.Rat)
			for _, r := range rows {
				if r.currency == currency {
					sum.Add(sum, a.exact(r))
				}
			}
			formula := "SUMIFS(" + p.Span(a.key, a.key) + "," + p.Span("cur", "cur") + "," + xlsx.Quoted(currency) + ")"
			b.Formula(p.Columns[a.key], at, c.rounded(formula, currency), xlsx.Exact(sum), c.moneyLook(currency).Strong().Live())
		}
		at++
	}
}

// currenciesOf lists the currencies of the contests' costs, by code.
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
