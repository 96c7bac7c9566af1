package workbook

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"boxbook/report/workbook/xlsx"
	"boxbook/scoring"
	"boxbook/season"
)

// flightColumns are the columns of Flights: what was typed, what the rows of
// Grades come to, the printed total, and the record, which is the printed
// total where there is one and the computed one elsewhere.
var flightColumns = slices.Concat(flightFacts, flightSums, flightRecord, flightWorking, flightCounted, flightField)

// fact is a column of the flight's typed words.
func fact(key, title string, width float64, l xlsx.Look, words func(f *season.Flight) xlsx.Value) xlsx.Column[flightRow] {
	return xlsx.Column[flightRow]{
		Key: key, Title: title, Width: width, Look: l,
		Value: func(f flightRow) xlsx.Value { return words(f.line.Flight) },
	}
}

var flightFacts = []xlsx.Column[flightRow]{
	fact("date", "date", 10.5, xlsx.LookDate, func(f *season.Flight) xlsx.Value { return day(f.Date) }),
	fact("contest", "contest", 17, xlsx.LookWrap, func(f *season.Flight) xlsx.Value { return xlsx.Text(contestName(f.Contest)) }),
	fact("programme", "programme", 11, xlsx.LookWrap, func(f *season.Flight) xlsx.Value { return xlsx.Text(string(f.Programme)) }),
	fact("category", "category", 12, xlsx.LookWrap, func(f *season.Flight) xlsx.Value { return xlsx.Text(f.Category) }),
	fact("sequence", "sequence", 22, xlsx.LookWrap, func(f *season.Flight) xlsx.Value { return xlsx.Text(sequenceName(f.Sequence)) }),
	{Key: "counts", Title: "counts", Width: 8.5, Look: xlsx.LookCentred, Value: func(f flightRow) xlsx.Value { return xlsx.Text(f.counts()) }},
	{Key: "rules", Title: "rules", Width: 12.5, Look: xlsx.LookWrap, Value: func(f flightRow) xlsx.Value { return xlsx.Text(f.rules) }},
	fact("judges", "judges", 6.5, xlsx.LookInteger, func(f *season.Flight) xlsx.Value { return xlsx.Whole(len(f.Panel)) }),
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

var flightSums = []xlsx.Column[flightRow]{
	{
		Key: "raw", Title: "raw", Width: 8.5, Look: xlsx.LookTwo.Live(),
		Formula: `IF(OR({rows}=0,{undecided}>0),"",SUMIFS({Grades.points},{Grades.flight},{flight}))`,
		Value:   func(f flightRow) xlsx.Value { return xlsx.Exact(f.score.Raw) },
	},
	{Key: "penalty", Title: "penalty", Width: 8, Look: xlsx.LookTwo, FormulaOf: penaltySum, Value: penaltyValue},
	{
		Key: "points", Title: "points", Width: 8.5, Look: xlsx.LookTwo.Live().Strong(),
		Formula: `IF(ISNUMBER({raw}),MAX(0,{raw}-{penalty}),"")`,
		Value:   func(f flightRow) xlsx.Value { return xlsx.Exact(f.score.Points) },
	},
	{
		Key: "maximum", Title: "max.", Width: 7, Look: xlsx.LookInteger.Live(),
		Formula: `IF({rows}=0,"",10*SUMIFS({Grades.k},{Grades.flight},{flight}))`,
		Value:   func(f flightRow) xlsx.Value { return xlsx.Whole(f.score.Maximum) },
	},
	{
		Key: "percent", Title: "percent", Width: 8, Look: xlsx.LookTwo.Live(),
		Formula: `IF(ISNUMBER({points}),100*{points}/{maximum},"")`,
		Value:   func(f flightRow) xlsx.Value { return xlsx.Exact(f.score.Percent) },
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

func penaltyValue(f flightRow) xlsx.Value {
	sum := new(big.Rat)
	for _, p := range f.line.Flight.Penalties {
		sum.Add(sum, p.Points.Rat())
	}
	if sum.Sign() == 0 {
		return xlsx.Value{}
	}
	return xlsx.Exact(sum)
}

var flightRecord = []xlsx.Column[flightRow]{
	{Key: "official", Title: "official points", Width: 8.5, Look: xlsx.LookTwo, Value: func(f flightRow) xlsx.Value {
		if f.official() == nil {
			return xlsx.Value{}
		}
		return xlsx.Exact(f.official().Points.Rat())
	}},
	{Key: "official-maximum", Title: "official max.", Width: 8, Look: xlsx.LookInteger, FormulaOf: officialMaximum, Value: func(f flightRow) xlsx.Value {
		if f.official() == nil || f.official().Maximum == nil {
			return xlsx.Value{}
		}
		return xlsx.Exact(f.official().Maximum.Rat())
	}},
	{
		Key: "official-percent", Title: "official percent", Width: 8, Look: xlsx.LookTwo.Live(),
		Formula: `IF(AND(ISNUMBER({official}),N({official-maximum})>0),100*{official}/{official-maximum},"")`,
		Value: func(f flightRow) xlsx.Value {
			if f.official() == nil {
				return xlsx.Value{}
			}
			return xlsx.Exact(f.official().Percent())
		},
	},
	{
		Key: "difference", Title: "official less own", Width: 8.5, Look: xlsx.LookGap.Live(),
		Formula: `IF(AND(ISNUMBER({official}),ISNUMBER({points}),{official-maximum}={maximum}),{official}-{points},"")`,
		Value:   difference,
	},
	{
		Key: "record", Title: "record percent", Width: 8, Look: xlsx.LookTwo.Live().Strong(),
		Formula: `IF(OR({counts}="void",{source}=""),"",IF({source}="official",{official-percent},{percent}))`,
		Value:   func(f flightRow) xlsx.Value { return xlsx.Exact(f.line.Record.Percent) },
	},
	{
		Key: "source", Title: "record from", Width: 10, Look: xlsx.LookCentred.Live(),
		Formula: `IF({counts}="void","",IF(ISNUMBER({official}),"official",IF(ISNUMBER({points}),"computed","")))`,
		Value:   func(f flightRow) xlsx.Value { return xlsx.Text(string(f.line.Record.Source)) },
	},
	fact("place", "place", 6, xlsx.LookPlace, func(f *season.Flight) xlsx.Value { return xlsx.Whole(f.Rank) }),
	fact("of", "of", 5, xlsx.LookPlace, func(f *season.Flight) xlsx.Value { return xlsx.Whole(f.Of) }),
	{
		Key: "remark", Title: "remark", Width: 32, Look: xlsx.LookWrap.Live().Indented(),
		FormulaOf: remarkFormula, Value: func(f flightRow) xlsx.Value { return xlsx.Text(f.fullRemark()) },
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
func difference(f flightRow) xlsx.Value {
	if !f.sameMaximum() || f.score.Points == nil {
		return xlsx.Value{}
	}
	return xlsx.Exact(new(big.Rat).Sub(f.official().Points.Rat(), f.score.Points))
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
	formula := fmt.Sprintf(`IF({undecided}>0,"undecided rows: "&{undecided}&%s,"")`, xlsx.Quoted(after))
	for len(runes) > 0 {
		n := min(piece, len(runes))
		formula += "&" + xlsx.Quoted(string(runes[:n]))
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

func agrees(f flightRow) xlsx.Value {
	switch {
	case !difference(f).Numeric || len(f.line.Flight.Missing) > 0:
		return xlsx.Value{}
	case scoring.Agrees(f.score.Points, f.official().Points):
		return xlsx.Text("yes")
	default:
		return xlsx.Text("no")
	}
}

// flightWorking are the folded columns: the flight's name, which every row of
// Grades bears, and what the season's page adds up.
var flightWorking = xlsx.FoldedAway([]xlsx.Column[flightRow]{
	fact("flight", "flight", 24, xlsx.LookText, func(f *season.Flight) xlsx.Value { return xlsx.Text(f.Name) }),
	{Key: "contest-key", Title: "contest's name in formulas", Look: xlsx.LookText, Value: func(f flightRow) xlsx.Value { return xlsx.Text(f.contest) }},
	{
		Key: "unit", Title: "official printed to", Look: xlsx.LookInteger, Value: func(f flightRow) xlsx.Value {
			if f.official() == nil {
				return xlsx.Value{}
			}
			return xlsx.Exact(scoring.Decimal{Units: 1, Places: f.official().Points.Places}.Rat())
		},
	},
	fact("missing", "sheets missing", 11, xlsx.LookInteger, func(f *season.Flight) xlsx.Value { return xlsx.Integer(len(f.Missing)) }),
	{Key: "agrees", Title: "official agrees", Look: xlsx.LookText, Formula: agreement, Value: agrees},
	{
		Key: "rows", Title: "rows", Look: xlsx.LookInteger, Formula: `COUNTIFS({Grades.flight},{flight})`,
		Value: func(f flightRow) xlsx.Value { return xlsx.Integer(len(f.score.Lines)) },
	},
	{
		Key: "undecided", Title: "undecided", Look: xlsx.LookInteger,
		Formula: `{rows}-COUNTIFS({Grades.flight},{flight},{Grades.points},">=0")`,
		Value:   func(f flightRow) xlsx.Value { return xlsx.Integer(f.undecided()) },
	},
	{
		Key: "record-points", Title: "record points", Look: xlsx.LookTwo,
		Formula: `IF({source}="official",{official},IF({source}="computed",{points},""))`,
		Value:   func(f flightRow) xlsx.Value { return xlsx.Exact(f.line.Record.Points) },
	},
	{
		Key: "record-maximum", Title: "record maximum", Look: xlsx.LookTwo,
		Formula: `IF({source}="official",IF(ISNUMBER({official-maximum}),{official-maximum},""),IF({source}="computed",{maximum},""))`,
		Value:   func(f flightRow) xlsx.Value { return xlsx.Exact(f.line.Record.Maximum) },
	},
	{
		Key: "entered", Title: "percent that counts", Look: xlsx.LookTwo,
		Formula: `IF(AND({counts}="yes",ISNUMBER({record})),{record},"")`,
		Value: func(f flightRow) xlsx.Value {
			if !f.line.Enters() {
				return xlsx.Value{}
			}
			return xlsx.Exact(f.line.Record.Percent)
		},
	},
})
