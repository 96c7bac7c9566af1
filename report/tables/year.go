package tables

import (
	"fmt"
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// YearPilotTable lists those who flew or had a result.
func YearPilotTable(d answers.Year) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: "pilot", Flexible: true, Min: 12},
		{Title: "contests", Align: report.Right},
		{Title: "flights", Align: report.Right},
		{Title: "best", Align: report.Right},
		{Title: "mean", Align: report.Right},
		{Title: "1st", Align: report.Right},
		{Title: "2nd", Align: report.Right},
		{Title: "3rd", Align: report.Right},
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

// DutyTable has a row a pilot and a column a role.
func DutyTable(d answers.Year) *report.Table {
	var roles []string
	for _, p := range d.Pilots {
		for role := range p.Duties {
			roles = answers.AddName(roles, role)
		}
	}
	slices.Sort(roles)
	t := &report.Table{Title: "duties, in sessions", Key: 1, Columns: []report.Column{{Title: "pilot", Flexible: true, Min: 12}}}
	for _, role := range roles {
		t.Columns = append(t.Columns, report.Column{Title: role, Align: report.Right})
	}
	for _, p := range d.Pilots {
		if len(p.Duties) == 0 {
			continue
		}
		row := []report.Cell{report.Text(p.Name)}
		for _, role := range roles {
			cell := report.Empty()
			if sessions := p.Duties[role]; sessions > 0 {
				cell = CountCell(sessions)
			}
			row = append(row, cell)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func YearPilotNotes(d answers.Year) *report.Notes {
	notes := &report.Notes{}
	flown, practice := false, 0
	for _, p := range d.Pilots {
		flown, practice = flown || p.Contests+p.Flights > 0, practice+p.Practice
	}
	if flown {
		AddNote(notes, "best and mean: percent over the contest flights; places: of contests' overall results")
	}
	if practice > 0 {
		AddNote(notes, "%s beside the contest flights", words.Counted(practice, "practice flight", "practice flights"))
	}
	if d.Loose > 0 {
		AddNote(notes, "%s no contest and %s in no count of contests", words.Counted(d.Loose, "contest flight names", "contest flights name"), words.PluralWord(d.Loose, "is", "are"))
	}
	return notes
}

// YearContestTable has a column of costs for every currency of them.
func YearContestTable(d answers.Year) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{
		{Title: "date"},
		{Title: "contest", Flexible: true, Min: 16},
		{Title: "entries", Align: report.Right},
		{Title: "flights", Align: report.Right},
	}}
	var currencies []string
	for _, c := range d.Contests {
		for _, cost := range c.Costs {
			currencies = answers.AddName(currencies, cost.Currency)
		}
	}
	slices.Sort(currencies)
	for _, currency := range currencies {
		t.Columns = append(t.Columns, report.Column{Title: "costs " + currency, Align: report.Right})
	}
	for _, c := range d.Contests {
		row := []report.Cell{report.Text(c.Date), report.Text(c.Name), CountCell(c.Entries), CountCell(c.Flights)}
		for _, currency := range currencies {
			row = append(row, amountIn(c.Costs, currency))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// amountIn shows the amount of a currency, nothing where there is none.
func amountIn(amounts []answers.Amount, currency string) report.Cell {
	for _, a := range amounts {
		if a.Currency == currency {
			return amountCell(a.Amount)
		}
	}
	return report.Empty()
}

// amountCell shows a decimal string as the number that it is.
func amountCell(text string) report.Cell {
	value, decimals := answers.ParseAmount(text)
	return report.Num(report.Exact(value), decimals)
}

// balanceCell shows a balance with its sign.
func balanceCell(text string) report.Cell {
	value, decimals := answers.ParseAmount(text)
	return report.Signed(report.Exact(value), decimals)
}

func YearCategoryTable(d answers.Year) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: "category", Flexible: true, Min: 12},
		{Title: "entries", Align: report.Right},
		{Title: "flights", Align: report.Right},
		{Title: "best", Align: report.Right},
		{Title: "mean", Align: report.Right},
	}}
	for _, c := range d.Categories {
		name := report.Text(c.Category)
		if c.Category == "" {
			name = report.Text("not known")
		}
		t.Rows = append(t.Rows, []report.Cell{
			name, CountCell(c.Entries), CountCell(c.Flights), report.Num(c.Best, words.PercentDecimals), report.Num(c.Mean, words.PercentDecimals),
		})
	}
	return t
}

func YearPaymentTable(d answers.Year) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{
		{Title: "who pays", Flexible: true, Min: 12},
		{Title: "whom", Flexible: true, Min: 12},
		{Title: "amount", Align: report.Right},
		{Title: "currency"},
	}}
	for _, p := range d.Settle {
		t.Rows = append(t.Rows, []report.Cell{report.Text(p.FromName), report.Text(p.ToName), amountCell(p.Amount), report.Text(p.Currency)})
	}
	return t
}

func YearPaymentNotes(d answers.Year) *report.Notes {
	text := "the fewest payments that bring every closing balance to zero"
	if len(d.Unproven) > 0 {
		text = fmt.Sprintf("payments that bring every closing balance to zero; in %s fewer might do, with so many people", words.ListInWords(d.Unproven))
	}
	return &report.Notes{Items: []report.Note{{Text: text}}}
}
