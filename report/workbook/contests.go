package workbook

import (
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// contestRow is a contest, or the flights of one category in it where the pilot
// flew several.
type contestRow struct {
	answers.Contest
	apart bool
}

// contestRows are the contests of the season. Flights of two categories are not
// added up, unless a result was printed for the whole.
func (c *content) contestRows() []contestRow {
	var rows []contestRow
	for _, contest := range c.book.Season.Contests {
		if len(contest.Parts) < 2 {
			rows = append(rows, contestRow{contest, false})
			continue
		}
		var names []string
		for _, part := range contest.Parts {
			names = append(names, part.Category)
			rows = append(rows, contestRow{answers.Contest{
				Contest: contest.Contest, Name: contest.Name, Date: contest.Date, Category: part.Category, Flights: part.Flights, Sum: part.Sum,
			}, true})
		}
		if contest.Source == answers.FromOfficial || contest.Place != 0 {
			contest.Category = strings.Join(names, ", ")
			rows = append(rows, contestRow{contest, false})
		}
	}
	return rows
}

// printed is a number of the result as it was printed, nothing where it was not.
func (r contestRow) printed(n report.Number) xlsx.Value {
	if r.Source != answers.FromOfficial {
		return xlsx.Value{}
	}
	return number(n)
}

// contestColumns are the contests: the result as it was printed, and beside it
// the sum of the flights' records.
func contestColumns(c *content) []xlsx.Column[contestRow] {
	return []xlsx.Column[contestRow]{
		{Key: "contest", Title: words.ColumnContest, Look: xlsx.LookWrap, Value: func(l contestRow) xlsx.Value { return xlsx.Text(l.Name) }},
		{Key: "date", Title: words.ColumnFirstDay, Look: xlsx.LookDate, Value: func(l contestRow) xlsx.Value { return day(l.Date) }},
		{Key: "category", Title: words.ColumnCategory, Look: xlsx.LookWrap, Value: func(l contestRow) xlsx.Value { return xlsx.Text(l.Category) }},
		{
			Key: "flights", Title: words.ColumnFlights, Look: xlsx.LookInteger.Live(),
			FormulaOf: func(l contestRow) string { return "COUNTIFS(" + l.flights() + ")" },
			Value:     func(l contestRow) xlsx.Value { return xlsx.Integer(l.Flights) },
		},
		{Key: "points", Title: words.ColumnPrintedResult, Look: xlsx.LookTwo, Value: func(l contestRow) xlsx.Value { return l.printed(l.Points) }},
		{Key: "of-points", Title: words.ColumnOutOf, Look: xlsx.LookInteger, FormulaOf: resultMaximum, Value: func(l contestRow) xlsx.Value { return l.printed(l.Maximum) }},
		{
			Key: "percent", Title: words.ColumnPercent, Look: xlsx.LookTwo.Live().Strong(),
			Formula: `IF(AND(ISNUMBER({points}),N({of-points})>0),100*{points}/{of-points},"")`,
			Value:   func(l contestRow) xlsx.Value { return l.printed(l.Percent) },
		},
		{Key: "place", Title: words.ColumnPlace, Look: xlsx.LookPlace, Value: func(l contestRow) xlsx.Value { return xlsx.Whole(l.Place) }},
		{Key: "of", Title: words.ColumnOf, Look: xlsx.LookPlace, Value: func(l contestRow) xlsx.Value { return xlsx.Whole(l.Of) }},
		{
			Key: "sum", Title: words.ColumnSumOfFlights, Look: xlsx.LookTwo.Live(), FormulaOf: contestSum("record-points"),
			Value: func(l contestRow) xlsx.Value { return number(l.Sum.Points) },
		},
		{
			Key: "sum-maximum", Title: words.ColumnOutOf, Look: xlsx.LookInteger.Live(), FormulaOf: contestSum("record-maximum"),
			Value: func(l contestRow) xlsx.Value { return number(l.Sum.Maximum) },
		},
		{
			Key: "sum-percent", Title: words.ColumnPercentOfTheSum, Look: xlsx.LookTwo.Live(),
			Formula: `IF(ISNUMBER({sum}),100*{sum}/{sum-maximum},"")`,
			Value:   func(l contestRow) xlsx.Value { return number(l.Sum.Percent) },
		},
		xlsx.Blank[contestRow]("unused-1"), xlsx.Blank[contestRow]("unused-2"),
		xlsx.Blank[contestRow]("unused-3"), xlsx.Blank[contestRow]("unused-4"),
		{Key: "key", Title: words.ColumnContestsNameInFormulas, Look: xlsx.LookText.Working(), Value: func(l contestRow) xlsx.Value {
			return xlsx.Text(c.contests[l.Contest.Contest])
		}},
	}
}

// flights are a sum's conditions: the row's flights that count.
func (l contestRow) flights() string {
	of := `{Flights.contest-key},{key},{Flights.counts},"yes"`
	if l.apart {
		of += `,{Flights.category},{category}`
	}
	return of
}

// contestSum adds up the row's flights; a flight without a record leaves the
// row without a sum.
func contestSum(key string) func(contestRow) string {
	return func(l contestRow) string {
		return `IF({flights}=0,"",IF(COUNTIFS(` + l.flights() + `,{Flights.record-points},">=0",{Flights.record-maximum},">=0")={flights},` +
			`SUMIFS({Flights.` + key + `},` + l.flights() + `),""))`
	}
}

// resultMaximum is that of the flights' sum, where the printed result came
// without one.
func resultMaximum(l contestRow) string {
	if l.Source != answers.FromOfficial || l.MaximumTyped || !l.Maximum.Known() || l.Maximum.Float64() != l.Sum.Maximum.Float64() {
		return ""
	}
	return `{sum-maximum}`
}
