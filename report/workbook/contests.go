package workbook

import (
	"math/big"
	"slices"
	"strings"

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
func contestColumns(c *content) []column[contestRow] {
	printed := func(l contestRow) bool { return l.Result.Source == season.Printed }
	return []column[contestRow]{
		{key: "contest", title: "contest", look: lookWrap, value: func(l contestRow) value { return text(l.Contest.Name) }},
		{key: "date", title: "first day", look: lookDate, value: func(l contestRow) value { return day(l.Contest.First) }},
		{key: "category", title: "category", look: lookWrap, value: func(l contestRow) value { return text(l.Category) }},
		{
			key: "flights", title: "flights", look: lookInteger.live(),
			formulaOf: func(l contestRow) string { return "COUNTIFS(" + l.flights() + ")" },
			value:     func(l contestRow) value { return integer(l.Flights) },
		},
		{key: "points", title: "printed result", look: lookTwo, value: func(l contestRow) value {
			if !printed(l) {
				return value{}
			}
			return exact(l.Result.Points)
		}},
		{key: "of-points", title: "out of", look: lookInteger, formulaOf: resultMaximum, value: func(l contestRow) value {
			if !printed(l) {
				return value{}
			}
			return exact(l.Result.Maximum)
		}},
		{
			key: "percent", title: "percent", look: lookTwo.live().strong(),
			formula: `IF(AND(ISNUMBER({points}),N({of-points})>0),100*{points}/{of-points},"")`,
			value: func(l contestRow) value {
				if !printed(l) {
					return value{}
				}
				return exact(l.Result.Percent)
			},
		},
		{key: "place", title: "place", look: lookPlace, value: func(l contestRow) value { return whole(l.Rank) }},
		{key: "of", title: "of", look: lookPlace, value: func(l contestRow) value { return whole(l.Of) }},
		{
			key: "sum", title: "sum of flights", look: lookTwo.live(), formulaOf: contestSum("record-points"),
			value: func(l contestRow) value { return exact(l.Sum.Points) },
		},
		{
			key: "sum-maximum", title: "out of", look: lookInteger.live(), formulaOf: contestSum("record-maximum"),
			value: func(l contestRow) value { return exact(l.Sum.Maximum) },
		},
		{
			key: "sum-percent", title: "percent of the sum", look: lookTwo.live(),
			formula: `IF(ISNUMBER({sum}),100*{sum}/{sum-maximum},"")`,
			value:   func(l contestRow) value { return exact(l.Sum.Percent) },
		},
		blank[contestRow]("unused-1"), blank[contestRow]("unused-2"),
		blank[contestRow]("unused-3"), blank[contestRow]("unused-4"),
		{key: "key", title: "contest's name in formulas", look: lookText.working(), value: func(l contestRow) value {
			return text(c.contest[l.Contest])
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
