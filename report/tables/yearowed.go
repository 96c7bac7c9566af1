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
	for _, o := range owedByAge(d.Club.Owed) {
		t.Rows = append(t.Rows, s.rows([]report.Cell{report.Text(words.PartyName(o.Name))}, []answers.Sum{{Currency: o.Currency, Amount: o.Amount}},
			report.Text(words.DayIn(o.Since, d.Year)), CountCell(o.Days), report.Text(words.OwedFor(o)))...)
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
