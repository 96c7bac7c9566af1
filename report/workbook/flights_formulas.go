package workbook

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"boxbook/scoring"
	"boxbook/season"
)

// flightColumns are the columns of Flights: what was typed, what the rows of
// Grades come to, the printed total, and the record, which is the printed
// total where there is one and the computed one elsewhere.
var flightColumns = slices.Concat(flightFacts, flightSums, flightRecord, flightWorking, flightCounted, flightField)

// fact is a column of the flight's typed words.
func fact(key, title string, width float64, l look, words func(f *season.Flight) value) column[flightRow] {
	return column[flightRow]{
		key: key, title: title, width: width, look: l,
		value: func(f flightRow) value { return words(f.line.Flight) },
	}
}

var flightFacts = []column[flightRow]{
	fact("date", "date", 10.5, lookDate, func(f *season.Flight) value { return day(f.Date) }),
	fact("contest", "contest", 17, lookWrap, func(f *season.Flight) value { return text(contestName(f.Contest)) }),
	fact("programme", "programme", 11, lookWrap, func(f *season.Flight) value { return text(string(f.Programme)) }),
	fact("category", "category", 12, lookWrap, func(f *season.Flight) value { return text(f.Category) }),
	fact("sequence", "sequence", 22, lookWrap, func(f *season.Flight) value { return text(sequenceName(f.Sequence)) }),
	{key: "counts", title: "counts", width: 8.5, look: lookCentred, value: func(f flightRow) value { return text(f.counts()) }},
	{key: "rules", title: "rules", width: 12.5, look: lookWrap, value: func(f flightRow) value { return text(f.rules) }},
	fact("judges", "judges", 6.5, lookInteger, func(f *season.Flight) value { return whole(len(f.Panel)) }),
}

func contestName(c *season.Contest) string {
	if c == nil {
		return ""
	}
	return c.Name
}

func sequenceName(s *season.Sequence) string {
	if s == nil {
		return ""
	}
	return s.Handle
}

var flightSums = []column[flightRow]{
	{
		key: "raw", title: "raw", width: 8.5, look: lookTwo.live(),
		formula: `IF(OR({rows}=0,{undecided}>0),"",SUMIFS({Grades.points},{Grades.flight},{flight}))`,
		value:   func(f flightRow) value { return exact(f.score.Raw) },
	},
	{key: "penalty", title: "penalty", width: 8, look: lookTwo, formulaOf: penaltySum, value: penaltyValue},
	{
		key: "points", title: "points", width: 8.5, look: lookTwo.live().strong(),
		formula: `IF(ISNUMBER({raw}),MAX(0,{raw}-{penalty}),"")`,
		value:   func(f flightRow) value { return exact(f.score.Points) },
	},
	{
		key: "maximum", title: "max.", width: 7, look: lookInteger.live(),
		formula: `IF({rows}=0,"",10*SUMIFS({Grades.k},{Grades.flight},{flight}))`,
		value:   func(f flightRow) value { return whole(f.score.Maximum) },
	},
	{
		key: "percent", title: "percent", width: 8, look: lookTwo.live(),
		formula: `IF(ISNUMBER({points}),100*{points}/{maximum},"")`,
		value:   func(f flightRow) value { return exact(f.score.Percent) },
	},
}

// penaltySum adds what was typed, where it is more than one penalty.
func penaltySum(f flightRow) string {
	penalties := f.line.Flight.Penalties
	if len(penalties) < 2 {
		return ""
	}
	parts := make([]string, len(penalties))
	for i, p := range penalties {
		parts[i] = p.Points.String()
	}
	return strings.Join(parts, "+")
}

func penaltyValue(f flightRow) value {
	sum := new(big.Rat)
	for _, p := range f.line.Flight.Penalties {
		sum.Add(sum, p.Points.Rat())
	}
	if sum.Sign() == 0 {
		return value{}
	}
	return exact(sum)
}

var flightRecord = []column[flightRow]{
	{key: "official", title: "official points", width: 8.5, look: lookTwo, value: func(f flightRow) value {
		if f.official() == nil {
			return value{}
		}
		return exact(f.official().Points.Rat())
	}},
	{key: "official-maximum", title: "official max.", width: 8, look: lookInteger, formulaOf: officialMaximum, value: func(f flightRow) value {
		if f.official() == nil || f.official().Maximum == nil {
			return value{}
		}
		return exact(f.official().Maximum.Rat())
	}},
	{
		key: "official-percent", title: "official percent", width: 8, look: lookTwo.live(),
		formula: `IF(AND(ISNUMBER({official}),N({official-maximum})>0),100*{official}/{official-maximum},"")`,
		value: func(f flightRow) value {
			if f.official() == nil {
				return value{}
			}
			return exact(f.official().Percent())
		},
	},
	{
		key: "difference", title: "official less own", width: 8.5, look: lookGap.live(),
		formula: `IF(AND(ISNUMBER({official}),ISNUMBER({points}),{official-maximum}={maximum}),{official}-{points},"")`,
		value:   difference,
	},
	{
		key: "record", title: "record percent", width: 8, look: lookTwo.live().strong(),
		formula: `IF(OR({counts}="void",{source}=""),"",IF({source}="official",{official-percent},{percent}))`,
		value:   func(f flightRow) value { return exact(f.line.Record.Percent) },
	},
	{
		key: "source", title: "record from", width: 10, look: lookCentred.live(),
		formula: `IF({counts}="void","",IF(ISNUMBER({official}),"official",IF(ISNUMBER({points}),"computed","")))`,
		value:   func(f flightRow) value { return text(string(f.line.Record.Source)) },
	},
	fact("place", "place", 6, lookPlace, func(f *season.Flight) value { return whole(f.Rank) }),
	fact("of", "of", 5, lookPlace, func(f *season.Flight) value { return whole(f.Of) }),
	{
		key: "remark", title: "remark", width: 32, look: lookWrap.live().indented(),
		formulaOf: remarkFormula, value: func(f flightRow) value { return text(f.fullRemark()) },
	},
}

// officialMaximum is that of the rows of marks, where the printed total came
// without one.
func officialMaximum(f flightRow) string {
	if o := f.official(); o != nil && !o.Typed && f.sameMaximum() {
		return "{maximum}"
	}
	return ""
}

// difference is the printed total less the computed one, where both are out
// of the same maximum.
func difference(f flightRow) value {
	if !f.sameMaximum() || f.score.Points == nil {
		return value{}
	}
	return exact(new(big.Rat).Sub(f.official().Points.Rat(), f.score.Points))
}

// fullRemark is the remark with the rows that are undecided.
func (f flightRow) fullRemark() string {
	n := f.undecided()
	if n == 0 {
		return f.remark
	}
	words := fmt.Sprintf("undecided rows: %d", n)
	if f.remark != "" {
		words += "; " + f.remark
	}
	return words
}

// remarkFormula puts the number of undecided rows, which can change, before
// what was typed. A formula's texts are short, so a long remark is several,
// and a very long one is cut.
func remarkFormula(f flightRow) string {
	const piece = 120 // characters; formulas allow 255 units, two a character at the most
	runes := []rune(f.remark)
	after := ""
	if len(runes) > 0 {
		after = "; "
	}
	formula := fmt.Sprintf(`IF({undecided}>0,"undecided rows: "&{undecided}&%s,"")`, quoted(after))
	for len(runes) > 0 {
		n := min(piece, len(runes))
		formula += "&" + quoted(string(runes[:n]))
		runes = runes[n:]
	}
	return formula
}

// agreement says whether the computed total, rounded to the decimals of the
// printed one half up or half to even, gives the printed one. Half a unit
// apart it does where the computed one lies below, or the printed one is even.
// Where a judge's sheet is missing there is nothing to disagree.
const agreement = `IF(OR(NOT(ISNUMBER({difference})),{missing}>0),"",IF(ABS(ABS({difference})-{unit}/2)<{unit}/10000,` +
	`IF(OR({difference}>0,MOD(ROUND({official}/{unit},0),2)=0),"yes","no"),IF(ABS({difference})<{unit}/2,"yes","no")))`

func agrees(f flightRow) value {
	switch {
	case !difference(f).numeric || len(f.line.Flight.Missing) > 0:
		return value{}
	case scoring.Agrees(f.score.Points, f.official().Points):
		return text("yes")
	default:
		return text("no")
	}
}

// flightWorking are the folded columns: the flight's name, which every row of
// Grades bears, and what the season's page adds up.
var flightWorking = foldedAway([]column[flightRow]{
	fact("flight", "flight", 24, lookText, func(f *season.Flight) value { return text(f.Name) }),
	{key: "contest-key", title: "contest's name in formulas", look: lookText, value: func(f flightRow) value { return text(f.contest) }},
	{
		key: "unit", title: "official printed to", look: lookInteger, value: func(f flightRow) value {
			if f.official() == nil {
				return value{}
			}
			return exact(scoring.Decimal{Units: 1, Places: f.official().Points.Places}.Rat())
		},
	},
	fact("missing", "sheets missing", 11, lookInteger, func(f *season.Flight) value { return integer(len(f.Missing)) }),
	{key: "agrees", title: "official agrees", look: lookText, formula: agreement, value: agrees},
	{
		key: "rows", title: "rows", look: lookInteger, formula: `COUNTIFS({Grades.flight},{flight})`,
		value: func(f flightRow) value { return integer(len(f.score.Lines)) },
	},
	{
		key: "undecided", title: "undecided", look: lookInteger,
		formula: `{rows}-COUNTIFS({Grades.flight},{flight},{Grades.points},">=0")`,
		value:   func(f flightRow) value { return integer(f.undecided()) },
	},
	{
		key: "record-points", title: "record points", look: lookTwo,
		formula: `IF({source}="official",{official},IF({source}="computed",{points},""))`,
		value:   func(f flightRow) value { return exact(f.line.Record.Points) },
	},
	{
		key: "record-maximum", title: "record maximum", look: lookTwo,
		formula: `IF({source}="official",IF(ISNUMBER({official-maximum}),{official-maximum},""),IF({source}="computed",{maximum},""))`,
		value:   func(f flightRow) value { return exact(f.line.Record.Maximum) },
	},
	{
		key: "entered", title: "percent that counts", look: lookTwo,
		formula: `IF(AND({counts}="yes",ISNUMBER({record})),{record},"")`,
		value: func(f flightRow) value {
			if !f.line.Enters() {
				return value{}
			}
			return exact(f.line.Record.Percent)
		},
	},
})
