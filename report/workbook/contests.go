package workbook

import "boxbook/season"

// contestColumns are the contests: the result as it was printed, and beside it
// the sum of the flights' records.
func contestColumns(c *content) []column[season.ContestLine] {
	printed := func(l season.ContestLine) bool { return l.Result.Source == season.Printed }
	return []column[season.ContestLine]{
		{key: "contest", title: "contest", look: lookWrap, value: func(l season.ContestLine) value { return text(l.Contest.Name) }},
		{key: "date", title: "first day", look: lookDate, value: func(l season.ContestLine) value { return day(l.Contest.First) }},
		{key: "category", title: "category", look: lookWrap, value: func(l season.ContestLine) value { return text(l.Category) }},
		{
			key: "flights", title: "flights", look: lookInteger.live(),
			formula: `COUNTIFS({Flights.contest-key},{key},{Flights.counts},"yes")`,
			value:   func(l season.ContestLine) value { return integer(l.Flights) },
		},
		{key: "points", title: "printed result", look: lookTwo, value: func(l season.ContestLine) value {
			if !printed(l) {
				return value{}
			}
			return exact(l.Result.Points)
		}},
		{key: "of-points", title: "out of", look: lookInteger, formulaOf: resultMaximum, value: func(l season.ContestLine) value {
			if !printed(l) {
				return value{}
			}
			return exact(l.Result.Maximum)
		}},
		{
			key: "percent", title: "percent", look: lookTwo.live().strong(),
			formula: `IF(AND(ISNUMBER({points}),N({of-points})>0),100*{points}/{of-points},"")`,
			value: func(l season.ContestLine) value {
				if !printed(l) {
					return value{}
				}
				return exact(l.Result.Percent)
			},
		},
		{key: "place", title: "place", look: lookPlace, value: func(l season.ContestLine) value { return whole(l.Rank) }},
		{key: "of", title: "of", look: lookPlace, value: func(l season.ContestLine) value { return whole(l.Of) }},
		{
			key: "sum", title: "sum of flights", look: lookTwo.live(), formula: contestSum("record-points"),
			value: func(l season.ContestLine) value { return exact(l.Sum.Points) },
		},
		{
			key: "sum-maximum", title: "out of", look: lookInteger.live(), formula: contestSum("record-maximum"),
			value: func(l season.ContestLine) value { return exact(l.Sum.Maximum) },
		},
		{
			key: "sum-percent", title: "percent of the sum", look: lookTwo.live(),
			formula: `IF(ISNUMBER({sum}),100*{sum}/{sum-maximum},"")`,
			value:   func(l season.ContestLine) value { return exact(l.Sum.Percent) },
		},
		blank[season.ContestLine]("unused-1"), blank[season.ContestLine]("unused-2"),
		blank[season.ContestLine]("unused-3"), blank[season.ContestLine]("unused-4"),
		{key: "key", title: "contest's name in formulas", look: lookText.working(), value: func(l season.ContestLine) value {
			return text(c.contest[l.Contest])
		}},
	}
}

// contestSum adds up the contest's flights; a flight without a record leaves
// the contest without a sum.
func contestSum(key string) string {
	return `IF({flights}=0,"",IF(COUNTIFS({Flights.contest-key},{key},{Flights.counts},"yes",` +
		`{Flights.record-points},">=0",{Flights.record-maximum},">=0")={flights},` +
		`SUMIFS({Flights.` + key + `},{Flights.contest-key},{key},{Flights.counts},"yes"),""))`
}

// resultMaximum is that of the flights' sum, where the printed result came
// without one.
func resultMaximum(l season.ContestLine) string {
	if l.Result.Source != season.Printed || l.Result.Maximum == nil || l.Sum.Maximum == nil {
		return ""
	}
	if l.Result.Maximum.Cmp(l.Sum.Maximum) == 0 && !typedMaximum(l) {
		return `{sum-maximum}`
	}
	return ""
}

func typedMaximum(l season.ContestLine) bool {
	for _, r := range l.Contest.Results {
		if r.Maximum != nil && r.Maximum.Rat().Cmp(l.Result.Maximum) == 0 {
			return true
		}
	}
	return false
}
