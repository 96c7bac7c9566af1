package tables

import (
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// YearPilotTable lists those who flew or had a result.
func YearPilotTable(d answers.Year) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: words.ColumnPilot, Wrapped: true, Min: 12},
		{Title: words.ColumnContests, Align: report.Right},
		{Title: words.ColumnFlights, Align: report.Right},
		{Title: words.ColumnBest, Align: report.Right},
		{Title: words.ColumnMean, Align: report.Right},
		{Title: words.ColumnFirst, Align: report.Right},
		{Title: words.ColumnSecond, Align: report.Right},
		{Title: words.ColumnThird, Align: report.Right},
	}}
	for _, p := range d.Pilots {
		if p.Contests+p.Flights+p.Practice == 0 {
			continue // duties or money alone
		}
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(p.Name), CountCell(p.Contests), CountCell(p.Flights),
			report.Num(p.Best, words.PercentDecimals), report.Num(p.Mean, words.PercentDecimals),
			CountCell(p.Places["1"]), CountCell(p.Places["2"]), CountCell(p.Places["3"]),
		})
	}
	return t
}

// duty is who did duties, and in how many sessions by role.
type duty struct {
	name     string
	sessions map[string]int
}

// dutiesOf lists who did any: the pilots, then the coaches and persons.
func dutiesOf(d answers.Year) (all []duty, others bool) {
	for _, p := range d.Pilots {
		if len(p.Duties) > 0 {
			all = append(all, duty{p.Name, p.Duties})
		}
	}
	for _, p := range d.Others {
		if len(p.Duties) > 0 {
			all, others = append(all, duty{p.Name, p.Duties}), true
		}
	}
	return all, others
}

// DutyTable has a row a party and a column a role.
func DutyTable(d answers.Year) *report.Table {
	all, others := dutiesOf(d)
	var roles []string
	for _, done := range all {
		for role := range done.sessions {
			roles = words.Once(roles, role)
		}
	}
	slices.Sort(roles)
	t := &report.Table{Title: "duties, in sessions", Key: 1, Columns: []report.Column{{Title: words.WhoColumn(others), Wrapped: true, Min: 12}}}
	for _, role := range roles {
		t.Columns = append(t.Columns, report.Column{Title: words.RoleTitle(role), Align: report.Right})
	}
	for _, done := range all {
		row := []report.Cell{report.Text(done.name)}
		for _, role := range roles {
			cell := report.Empty()
			if sessions := done.sessions[role]; sessions > 0 {
				cell = CountCell(sessions)
			}
			row = append(row, cell)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// YearPilotNotes explain the columns, and what is in none.
func YearPilotNotes(d answers.Year) *report.Notes {
	notes := &report.Notes{}
	flown, practice := false, 0
	for _, p := range d.Pilots {
		flown, practice = flown || p.Contests+p.Flights > 0, practice+p.Practice
	}
	if flown {
		AddNote(notes, "%s", words.BestAndMean)
	}
	if practice > 0 {
		AddNote(notes, "%s", words.BesidePractice(practice))
	}
	if d.Loose > 0 {
		AddNote(notes, "%s", words.LooseFlights(d.Loose))
	}
	return notes
}

// YearContestTable has a column of costs, and one of income, for every currency of
// them.
func YearContestTable(d answers.Year) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{
		{Title: words.ColumnDate},
		{Title: words.ColumnContest, Wrapped: true, Min: 16},
		{Title: words.ColumnEntries, Align: report.Right},
		{Title: words.ColumnFlights, Align: report.Right},
	}}
	costs := func(c answers.ContestYear) []answers.Sum { return c.Costs }
	income := func(c answers.ContestYear) []answers.Sum { return c.Income }
	spent, earned := contestCurrencies(d, costs), contestCurrencies(d, income)
	for _, currency := range spent {
		t.Columns = append(t.Columns, report.Column{Title: words.ColumnCosts + " " + currency, Align: report.Right})
	}
	for _, currency := range earned {
		t.Columns = append(t.Columns, report.Column{Title: words.ColumnIncome + " " + currency, Align: report.Right})
	}
	for _, c := range d.Contests {
		row := []report.Cell{report.Text(c.Date), report.Text(c.Name), CountCell(c.Entries), CountCell(c.Flights)}
		for _, currency := range spent {
			row = append(row, amountIn(c.Costs, currency))
		}
		for _, currency := range earned {
			row = append(row, amountIn(c.Income, currency))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// contestCurrencies are the currencies of the contests' sums, in the order of their
// codes.
func contestCurrencies(d answers.Year, sums func(answers.ContestYear) []answers.Sum) []string {
	var currencies []string
	for _, c := range d.Contests {
		for _, sum := range sums(c) {
			currencies = words.Once(currencies, sum.Currency)
		}
	}
	slices.Sort(currencies)
	return currencies
}

// amountIn shows the amount of a currency, nothing where there is none.
func amountIn(sums []answers.Sum, currency string) report.Cell {
	if amount, ok := answers.SumIn(sums, currency); ok {
		return amountCell(amount)
	}
	return report.Empty()
}

// amountOfKind shows the amount of a kind in a currency, nothing where there is
// none.
func amountOfKind(sums []answers.KindSum, kind, currency string) report.Cell {
	if amount, ok := answers.KindIn(sums, kind, currency); ok {
		return amountCell(amount)
	}
	return report.Empty()
}

// amountCell shows an amount with its currency's decimals, thousands set off.
func amountCell(a answers.Amount) report.Cell {
	return report.Num(a.Number(), a.Places()).Grouped().InFull()
}

// balanceCell shows a balance with its sign.
func balanceCell(a answers.Amount) report.Cell {
	return report.Signed(a.Number(), a.Places()).Grouped().InFull()
}

// YearResultTable lists the contests' results as typed.
func YearResultTable(d answers.Year) *report.Table {
	t := &report.Table{Title: "results as printed", Key: 2, Columns: []report.Column{
		{Title: words.ColumnContest, Wrapped: true, Min: 16},
		{Title: words.ColumnPilot, Wrapped: true, Min: 12},
		{Title: words.ColumnResult, Align: report.Right},
		{Title: words.ColumnPlace, Align: report.Right},
	}}
	for _, c := range d.Contests {
		for _, r := range c.Results {
			t.Rows = append(t.Rows, []report.Cell{report.Text(c.Name), report.Text(r.Name), report.Text(words.PrintedResult(r)), PlaceCell(r.Place, r.Of)})
		}
	}
	return t
}

// YearContestNotes say what the contests' columns count.
func YearContestNotes(d answers.Year) *report.Notes {
	return &report.Notes{Items: []report.Note{{Text: words.ContestYearExplained(d)}}}
}

// YearCategoryTable has a row a category.
func YearCategoryTable(d answers.Year) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: words.ColumnCategory, Flexible: true, Min: 12},
		{Title: words.ColumnEntries, Align: report.Right},
		{Title: words.ColumnFlights, Align: report.Right},
		{Title: words.ColumnBest, Align: report.Right},
		{Title: words.ColumnMean, Align: report.Right},
	}}
	for _, c := range d.Categories {
		name := report.Text(c.Category)
		if c.Category == "" {
			name = report.Text(words.NoCategory)
		}
		t.Rows = append(t.Rows, []report.Cell{
			name, CountCell(c.Entries), CountCell(c.Flights), report.Num(c.Best, words.PercentDecimals), report.Num(c.Mean, words.PercentDecimals),
		})
	}
	return t
}

// YearPaymentTable lists what would make everybody even.
func YearPaymentTable(d answers.Year) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{
		{Title: words.ColumnWhoPays, Wrapped: true, Min: 12},
		{Title: words.ColumnWhom, Wrapped: true, Min: 12},
		{Title: words.ColumnAmount, Align: report.Right},
		{Title: words.ColumnCurrency},
	}}
	for _, p := range d.Settle {
		t.Rows = append(t.Rows, []report.Cell{report.Text(words.PartyName(p.FromName)), report.Text(words.PartyName(p.ToName)), amountCell(p.Amount), report.Text(p.Currency)})
	}
	return t
}

// YearPaymentNotes say what the payments are.
func YearPaymentNotes(d answers.Year) *report.Notes {
	notes := &report.Notes{Items: []report.Note{{Text: words.PaymentsExplained(d)}}}
	if in := words.PaymentsInOne(d); in != "" {
		AddNote(notes, "%s", in)
	}
	return notes
}

// LaterNotes say what is not counted yet.
func LaterNotes(d answers.Year) *report.Notes {
	return &report.Notes{Items: []report.Note{{Text: words.LaterMoney(d)}}}
}
