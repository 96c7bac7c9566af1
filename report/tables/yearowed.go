package tables

import (
	"cmp"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// YearOwed has a row a debt to the club and currency: who owes it, since when, and
// the oldest of it; those of who owes the longest first. Nothing where there is none.
func YearOwed(d answers.Year) []report.Block {
	if len(d.Club.Owed) == 0 {
		return nil
	}
	s := spread{currenciesOf(d.Club.OwedTotals)}
	t := &report.Table{Key: 1, Columns: slices.Concat(
		[]report.Column{{Title: words.ColumnWho, Wrapped: true, Min: 12}}, s.columns(),
		[]report.Column{{Title: words.ColumnSince}, {Title: words.ColumnDays, Align: report.Right}, {Title: words.ColumnOldest, Wrapped: true, Min: 12}},
	)}
	var since []string
	for _, o := range d.Club.Owed {
		since = append(since, o.Since)
	}
	day := words.DaysOf(since, d.Year)
	for _, o := range owedByAge(d.Club.Owed) {
		t.Rows = append(t.Rows, s.rows([]report.Cell{report.Text(words.PartyName(o.Name))}, []answers.Sum{{Currency: o.Currency, Amount: o.Amount}},
			report.Text(day(o.Since)), CountCell(o.Days), report.Text(words.OwedFor(o)))...)
	}
	all := []report.Cell{report.Text(words.ColumnAll)}
	t.Footer = s.rows(all, d.Club.OwedTotals, report.Empty(), report.Empty(), report.Text(words.ConvertedOwed(d)))
	return []report.Block{t}
}

// owedByAge are debts by the oldest of each party, and of one party by their own age.
func owedByAge(owed []answers.Owed) []answers.Owed {
	oldest, place := map[string]string{}, map[string]int{}
	for i, o := range owed {
		if since, known := oldest[o.Party]; !known || o.Since < since {
			oldest[o.Party] = o.Since
		}
		if _, known := place[o.Party]; !known {
			place[o.Party] = i
		}
	}
	all := slices.Clone(owed)
	slices.SortStableFunc(all, func(a, b answers.Owed) int {
		return cmp.Or(strings.Compare(oldest[a.Party], oldest[b.Party]), cmp.Compare(place[a.Party], place[b.Party]), strings.Compare(a.Since, b.Since))
	})
	return all
}

// YearUnpaid is what of it was billed and is not paid, kind by kind; nothing where
// the rows of what is owed say it all.
func YearUnpaid(d answers.Year) []report.Block {
	if !slices.ContainsFunc(d.Club.Unpaid, func(u answers.Unpaid) bool { return !isAllOwed(d, u) }) {
		return nil
	}
	t := &report.Table{Title: words.UnpaidTitle, Key: 1, Columns: []report.Column{
		{Title: words.ColumnKind, Wrapped: true, Min: 12},
		{Title: words.ColumnWho, Wrapped: true, Min: 12},
		{Title: words.ColumnAmount, Align: report.Right},
		{Title: words.ColumnCurrency},
		{Title: words.ColumnDay},
	}}
	var dates []string
	for _, u := range d.Club.Unpaid {
		dates = append(dates, u.Date)
	}
	day := words.DaysOf(dates, d.Year)
	for _, u := range answers.UnpaidByKind(d) {
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(words.BillName(u.Contest, u.Kind)), report.Text(words.PartyName(u.Name)), amountCell(u.Amount), report.Text(u.Currency), report.Text(day(u.Date)),
		})
	}
	return []report.Block{t}
}

// isAllOwed reports whether a bill is all that its party owes, so that it is the
// oldest of it.
func isAllOwed(d answers.Year, u answers.Unpaid) bool {
	owed := 0
	for _, o := range d.Club.Owed {
		if o.Party == u.Party {
			owed++
			if !u.IsOldest(o) || o.Amount.Text() != u.Amount.Text() {
				return false
			}
		}
	}
	return owed == 1
}
