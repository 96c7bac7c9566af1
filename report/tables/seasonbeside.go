package tables

import (
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// BesideBrief has a row a season without the levels.
func BesideBrief(d answers.Season) *report.Table {
	return only(BesideTable(d), "season", "category", "flights", "mean", "best")
}

// BesideTable has a row a season: the one that the page is of, then the one
// beside it.
func BesideTable(d answers.Season) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Key: "season", Title: words.ColumnSeason},
		{Key: "category", Title: words.ColumnCategory, Wrapped: true, Min: 12},
		{Key: "flights", Title: words.ColumnFlights, Align: report.Right},
		{Key: "mean", Title: words.ColumnMean, Align: report.Right},
		{Key: "best", Title: words.ColumnBest, Align: report.Right},
		{Title: words.ColumnLevel, Align: report.Right},
		{Title: words.LevelRangeTitle(d), Align: report.Right, Drop: 1},
	}}
	for _, s := range []answers.Season{d, *d.Beside} {
		_, level, _ := words.LevelRangeOf(s.Level).Cells()
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(words.SeasonNumber(s)), report.Text(strings.Join(s.Categories, ", ")), CountCell(s.Entered), report.Num(s.Mean, words.PercentDecimals),
			report.Num(bestPercent(s), words.PercentDecimals), level, report.Text(words.LevelRange(s.Level)),
		})
	}
	return t
}

// bestPercent is the percent of the best flight, not known where there is none.
func bestPercent(d answers.Season) report.Number {
	for _, f := range d.Flights {
		if f.Flight == d.Best {
			return f.Percent
		}
	}
	return report.Number{}
}
