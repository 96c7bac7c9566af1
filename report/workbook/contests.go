package workbook

import (
	"math/big"
	"slices"
	"strings"

	"boxbook/report/workbook/xlsx"
	"boxbook/season"
	"boxbook/season/analysis"
)

// contestRow is a contest, or the flights of one category in it where the pilot
// flew several.
type contestRow struct {
	analysis.ContestLine
	apart bool
}

// contestRows are the contests of the season. Flights of two categories are not
// added up, unless a result was printed for the whole.
func (c *content) contestRows() []contestRow {
	var rows []contestRow
	for _, line := range c.season.Contests {
		parts, names := c.byCategory(line)
		if len(parts) < 2 {
			rows = append(rows, contestRow{line, false})
			continue
		}
		rows = append(rows, parts...)
		if line.Result.Source == season.Printed || line.Rank != 0 {
			line.Category = strings.Join(names, ", ")
			rows = append(rows, contestRow{line, false})
		}
	}
	return rows
}

// byCategory takes a contest apart, in the order in which the categories were
// flown.
func (c *content) byCategory(line analysis.ContestLine) (rows []contestRow, names []string) {
	for _, f := range c.contested() {
		if f.line.Flight.Contest != line.Contest {
			continue
		}
		i := slices.Index(names, f.line.Flight.Category)
		if i < 0 {
			i = len(names)
			names = append(names, f.line.Flight.Category)
			rows = append(rows, contestRow{analysis.ContestLine{
				Contest: line.Contest, Category: f.line.Flight.Category, Sum: season.Record{Points: new(big.Rat), Maximum: new(big.Rat), Source: season.Computed},
			}, true})
		}
		rows[i].add(f.line.Record)
	}
	for i := range rows {
		rows[i].Result = rows[i].Sum
	}
	return rows, names
}

// add takes another flight's record in; one that is not known leaves the row
// without a sum.
func (l *contestRow) add(r season.Record) {
	l.Flights++
	sum := &l.Sum
	if sum.Points == nil || r.Points == nil || r.Maximum == nil {
		*sum = season.Record{}
		return
	}
	sum.Points.Add(sum.Points, r.Points)
	sum.Maximum.Add(sum.Maximum, r.Maximum)
	if sum.Maximum.Sign() > 0 {
		sum.Percent = new(big.Rat).Mul(big.NewRat(100, 1), new(big.Rat).Quo(sum.Points, sum.Maximum))
	}
}

// contestColumns are the contests: the result as it was printed, and beside it
// the sum of the flights' records.
func contestColumns(c *content) []xlsx.Column[contestRow] {
	printed := func(l contestRow) bool { return l.Result.Source == season.Printed }
	return []xlsx.Column[contestRow]{
		{Key: "contest", Title: "contest", Look: xlsx.LookWrap, Value: func(l contestRow) xlsx.Value { return xlsx.Text(l.Contest.Name) }},
		{Key: "date", Title: "first day", Look: xlsx.LookDate, Value: func(l contestRow) xlsx.Value { return day(l.Contest.First) }},
		{Key: "category", Title: "category", Look: xlsx.LookWrap, Value: func(l contestRow) xlsx.Value { return xlsx.Text(l.Category) }},
		{
			Key: "flights", Title: "flights", Look: xlsx.LookInteger.Live(),
			FormulaOf: func(l contestRow) string { return "COUNTIFS(" + l.flights() + ")" },
			Value:     func(l contestRow) xlsx.Value { return xlsx.Integer(l.Flights) },
		},
		{Key: "points", Title: "printed result", Look: xlsx.LookTwo, Value: func(l contestRow) xlsx.Value {
			if !printed(l) {
				return xlsx.Value{}
			}
			return xlsx.Exact(l.Result.Points)
		}},
		{Key: "of-points", Title: "out of", Look: xlsx.LookInteger, FormulaOf: resultMaximum, Value: func(l contestRow) xlsx.Value {
			if !printed(l) {
				return xlsx.Value{}
			}
			return xlsx.Exact(l.Result.Maximum)
		}},
		{
			Key: "percent", Title: "percent", Look: xlsx.LookTwo.Live().Strong(),
			Formula: `IF(AND(ISNUMBER({points}),N({of-points})>0),100*{points}/{of-points},"")`,
			Value: func(l contestRow) xlsx.Value {
				if !printed(l) {
					return xlsx.Value{}
				}
				return xlsx.Exact(l.Result.Percent)
			},
		},
		{Key: "place", Title: "place", Look: xlsx.LookPlace, Value: func(l contestRow) xlsx.Value { return xlsx.Whole(l.Rank) }},
		{Key: "of", Title: "of", Look: xlsx.LookPlace, Value: func(l contestRow) xlsx.Value { return xlsx.Whole(l.Of) }},
		{
			Key: "sum", Title: "sum of flights", Look: xlsx.LookTwo.Live(), FormulaOf: contestSum("record-points"),
			Value: func(l contestRow) xlsx.Value { return xlsx.Exact(l.Sum.Points) },
		},
		{
			Key: "sum-maximum", Title: "out of", Look: xlsx.LookInteger.Live(), FormulaOf: contestSum("record-maximum"),
			Value: func(l contestRow) xlsx.Value { return xlsx.Exact(l.Sum.Maximum) },
		},
		{
			Key: "sum-percent", Title: "percent of the sum", Look: xlsx.LookTwo.Live(),
			Formula: `IF(ISNUMBER({sum}),100*{sum}/{sum-maximum},"")`,
			Value:   func(l contestRow) xlsx.Value { return xlsx.Exact(l.Sum.Percent) },
		},
		xlsx.Blank[contestRow]("unused-1"), xlsx.Blank[contestRow]("unused-2"),
		xlsx.Blank[contestRow]("unused-3"), xlsx.Blank[contestRow]("unused-4"),
		{Key: "key", Title: "contest's name in formulas", Look: xlsx.LookText.Working(), Value: func(l contestRow) xlsx.Value {
			return xlsx.Text(c.contest[l.Contest])
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
	if l.Result.Source != season.Printed || l.Result.Maximum == nil || l.Sum.Maximum == nil {
		return ""
	}
	if l.Result.Maximum.Cmp(l.Sum.Maximum) == 0 && !typedMaximum(l) {
		return `{sum-maximum}`
	}
	return ""
}

func typedMaximum(l contestRow) bool {
	for _, r := range l.Contest.Results {
		if r.Maximum != nil && r.Maximum.Rat().Cmp(l.Result.Maximum) == 0 {
			return true
		}
	}
	return false
}
