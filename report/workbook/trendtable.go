package workbook

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// trendRow is the trend of one category, and the line that may be drawn.
type trendRow struct {
	answers.CategoryTrend
}

func (c *content) trendRows() []trendRow {
	var rows []trendRow
	for _, t := range c.book.Season.Trends {
		rows = append(rows, trendRow{t})
	}
	return rows
}

// onMeans is the test on contest means.
func (r trendRow) onMeans() answers.ContestTrend {
	if r.Contests == nil {
		return answers.ContestTrend{}
	}
	return *r.Contests
}

// sloped is a number of the trend, where there are flights enough for it.
func sloped(key, title, format string, of func(trendRow) report.Number) xlsx.Column[trendRow] {
	return zeroBare(xlsx.Column[trendRow]{
		Key: key, Title: title, Look: xlsx.Look{Format: format, Align: "right", Line: true}.Stat(),
		Value: func(r trendRow) xlsx.Value { return number(of(r)) },
	})
}

// compared is the S of so many points, which one alone does not have.
func compared(n, s int) xlsx.Value {
	if n < 2 {
		return xlsx.Value{}
	}
	return xlsx.Integer(s)
}

// ofLine is an end of the line, where one may be drawn.
func ofLine(key, title string, l xlsx.Look, of func(answers.TrendLine) xlsx.Value) xlsx.Column[trendRow] {
	return xlsx.Column[trendRow]{Key: key, Title: title, Look: l, Value: func(r trendRow) xlsx.Value {
		if r.Line == nil {
			return xlsx.Value{}
		}
		return of(*r.Line)
	}}
}

func trendColumns() []xlsx.Column[trendRow] {
	return []xlsx.Column[trendRow]{
		{Key: "name", Title: words.ColumnTrendOfTheCategory, Look: xlsx.LookWrap, Value: func(r trendRow) xlsx.Value { return xlsx.Text(words.TrendOf(r.Category)) }},
		ofLine("first", words.ColumnFirstDay, xlsx.LookDate, func(l answers.TrendLine) xlsx.Value { return day(l.First) }),
		ofLine("last", words.ColumnLastDay, xlsx.LookDate, func(l answers.TrendLine) xlsx.Value { return day(l.Last) }),
		ofLine("line-first", words.ColumnLineFirstDay, xlsx.LookTwo.Stat(), func(l answers.TrendLine) xlsx.Value { return number(l.AtFirst) }),
		ofLine("line-last", words.ColumnLineLastDay, xlsx.LookTwo.Stat(), func(l answers.TrendLine) xlsx.Value { return number(l.AtLast) }),
		sloped("slope", words.ColumnChangeIn30Days, "+0.00;-0.00;0.00", func(r trendRow) report.Number { return r.Slope30 }),
		ranged(sloped("change", words.ColumnChange, signedOne, func(r trendRow) report.Number { return r.Season }), seasonChange),
		ranged(sloped("low", words.ColumnFrom, signedOne, func(r trendRow) report.Number { return r.Low }), seasonChange),
		ranged(sloped("high", words.ColumnTo, signedOne, func(r trendRow) report.Number { return r.High }), seasonChange),
		sloped("sure", words.ColumnSure, "0.0%", func(r trendRow) report.Number { return r.Confidence }),
		sloped("without", words.ColumnWithoutZeroed, signedOne, func(r trendRow) report.Number { return r.WithoutZeros }),
		{Key: "word", Title: words.ColumnVerdict, Look: xlsx.LookText.Stat().Indented(), Value: func(r trendRow) xlsx.Value { return xlsx.Text(words.TrendSaid(r.Trend)) }},
	}
}

var lookP = xlsx.Look{Format: lookChance, Align: "right", Line: true}.Stat()

func testColumns() []xlsx.Column[trendRow] {
	return []xlsx.Column[trendRow]{
		{Key: "name", Title: words.ColumnTestsOfTheTrend, Look: xlsx.LookWrap, Value: func(r trendRow) xlsx.Value { return xlsx.Text(r.Category) }},
		{Key: "n", Title: words.ColumnFlightsCompared, Look: xlsx.LookInteger.Stat(), Value: func(r trendRow) xlsx.Value { return xlsx.Integer(r.N) }},
		{Key: "s", Title: words.ColumnSOnFlights, Look: xlsx.LookInteger.Stat(), Value: func(r trendRow) xlsx.Value { return compared(r.N, r.S) }},
		{Key: "p", Title: words.ColumnPOnFlights, Look: lookP, Value: func(r trendRow) xlsx.Value { return number(r.P) }},
		{Key: "contests-n", Title: words.ColumnContests, Look: xlsx.LookInteger.Stat(), Value: func(r trendRow) xlsx.Value { return xlsx.Integer(r.onMeans().N) }},
		{Key: "contests-s", Title: words.ColumnSOnContests, Look: xlsx.LookInteger.Stat(), Value: func(r trendRow) xlsx.Value { return compared(r.onMeans().N, r.onMeans().S) }},
		{Key: "contests-p", Title: words.ColumnPOnContests, Look: lookP, Value: func(r trendRow) xlsx.Value { return number(r.onMeans().P) }},
		{Key: "tau", Title: words.ColumnTauOnFlights, Look: xlsx.LookTwo.Stat(), Value: func(r trendRow) xlsx.Value {
			return number(r.Tau)
		}},
	}
}

// moved is a number of a change of category, where enough contests can tell.
func moved(key, title, format string, of func(answers.Move) report.Number) xlsx.Column[answers.Move] {
	return xlsx.Column[answers.Move]{
		Key: key, Title: title, Look: xlsx.Look{Format: format, Align: "right", Line: true}.Stat(), Value: func(m answers.Move) xlsx.Value { return number(of(m)) },
	}
}

func moveColumns() []xlsx.Column[answers.Move] {
	return []xlsx.Column[answers.Move]{
		{Key: "from", Title: words.ColumnChangeOfCategory, Look: xlsx.LookWrap, Value: func(m answers.Move) xlsx.Value { return xlsx.Text(words.MoveOf(m)) }},
		{Key: "before", Title: words.ColumnContestsBefore, Look: xlsx.LookInteger.Stat(), Value: func(m answers.Move) xlsx.Value { return xlsx.Integer(m.Before) }},
		{Key: "after", Title: words.ColumnContestsAfter, Look: xlsx.LookInteger.Stat(), Value: func(m answers.Move) xlsx.Value { return xlsx.Integer(m.After) }},
		ranged(moved("change", words.ColumnChange, signedOne, func(m answers.Move) report.Number { return m.Change }), words.MoveRange),
		ranged(moved("low", words.ColumnFrom, signedOne, func(m answers.Move) report.Number { return m.Low }), words.MoveRange),
		ranged(moved("high", words.ColumnTo, signedOne, func(m answers.Move) report.Number { return m.High }), words.MoveRange),
		moved("sure", words.ColumnSure, "0.0%", func(m answers.Move) report.Number { return m.Confidence }),
	}
}
