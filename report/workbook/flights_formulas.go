package workbook

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// flightColumns are the columns of Flights: what was typed, what the rows of
// Grades come to, the printed total, and the record, which is the printed
// total where there is one and the computed one elsewhere.
func flightColumns() []xlsx.Column[flightRow] {
	return slices.Concat(flightFacts(), flightSums(), flightRecord(), flightWorking(), flightCounted(), flightField())
}

// fact is a column of the flight's typed words.
func fact(key, title string, width float64, l xlsx.Look, of func(f flightRow) xlsx.Value) xlsx.Column[flightRow] {
	return xlsx.Column[flightRow]{
		Key: key, Title: title, Width: width, Look: l, Value: of,
	}
}

func flightFacts() []xlsx.Column[flightRow] {
	return []xlsx.Column[flightRow]{
		fact("date", words.ColumnDate, 10.5, xlsx.LookDate, func(f flightRow) xlsx.Value { return day(f.Date) }),
		fact("contest", words.ColumnContest, 17, xlsx.LookWrap, func(f flightRow) xlsx.Value { return xlsx.Text(f.ContestName) }),
		fact("programme", words.ColumnProgramme, 11, xlsx.LookWrap, func(f flightRow) xlsx.Value { return xlsx.Text(f.Programme) }),
		fact("category", words.ColumnCategory, 12, xlsx.LookWrap, func(f flightRow) xlsx.Value { return xlsx.Text(f.Category) }),
		fact("sequence", words.ColumnSequence, 22, xlsx.LookWrap, func(f flightRow) xlsx.Value { return xlsx.Text(f.Sequence) }),
		{Key: "counts", Title: words.ColumnCounts, Width: 8.5, Look: xlsx.LookCentred, Value: func(f flightRow) xlsx.Value { return xlsx.Text(f.counts()) }},
		{Key: "rules", Title: words.ColumnRules, Width: 12.5, Look: xlsx.LookWrap, Value: func(f flightRow) xlsx.Value { return xlsx.Text(f.rules) }},
		fact("judges", words.ColumnJudges, 6.5, xlsx.LookInteger, func(f flightRow) xlsx.Value { return xlsx.Whole(len(f.Panel)) }),
	}
}

func flightSums() []xlsx.Column[flightRow] {
	return []xlsx.Column[flightRow]{
		{
			Key: "raw", Title: words.ColumnRaw, Width: 8.5, Look: xlsx.LookTwo.Live(),
			Formula: `IF(OR({rows}=0,{undecided}>0),"",SUMIFS({Grades.points},{Grades.flight},{flight}))`,
			Value:   func(f flightRow) xlsx.Value { return number(f.Raw) },
		},
		{Key: "penalty", Title: words.ColumnPenalty, Width: 8, Look: xlsx.LookTwo, FormulaOf: penaltySum, Value: func(f flightRow) xlsx.Value { return unlessZero(f.Penalty) }},
		{
			Key: "points", Title: words.ColumnPoints, Width: 8.5, Look: xlsx.LookTwo.Live().Strong(),
			Formula: `IF(ISNUMBER({raw}),MAX(0,{raw}-{penalty}),"")`,
			Value:   func(f flightRow) xlsx.Value { return number(f.Points) },
		},
		{
			Key: "maximum", Title: words.ColumnMaximum, Width: 8.5, Look: xlsx.LookInteger.Live(),
			Formula: `IF({rows}=0,"",10*SUMIFS({Grades.k},{Grades.flight},{flight}))`,
			Value:   func(f flightRow) xlsx.Value { return unlessZero(f.Maximum) },
		},
		{
			Key: "percent", Title: words.ColumnPercent, Width: 8, Look: xlsx.LookTwo.Live(),
			Formula: `IF(ISNUMBER({points}),100*{points}/{maximum},"")`,
			Value:   func(f flightRow) xlsx.Value { return number(f.Percent) },
		},
	}
}

// penaltySum adds what was typed, where it is more than one penalty.
func penaltySum(f flightRow) string {
	if len(f.Penalties) < 2 {
		return ""
	}
	parts := make([]string, len(f.Penalties))
	for i, p := range f.Penalties {
		parts[i] = p.Points.Text(p.Decimals)
	}
	return strings.Join(parts, "+")
}

func flightRecord() []xlsx.Column[flightRow] {
	return []xlsx.Column[flightRow]{
		{Key: "official", Title: words.ColumnOfficialPoints, Width: 8.5, Look: xlsx.LookTwo, Value: func(f flightRow) xlsx.Value { return number(f.official().Points) }},
		{Key: "official-maximum", Title: words.ColumnOfficialMaximum, Width: 8.5, Look: xlsx.LookInteger, FormulaOf: officialMaximum, Value: func(f flightRow) xlsx.Value { return number(f.official().Maximum) }},
		{
			Key: "official-percent", Title: words.ColumnOfficialPercent, Width: 8, Look: xlsx.LookTwo.Live(),
			Formula: `IF(AND(ISNUMBER({official}),N({official-maximum})>0),100*{official}/{official-maximum},"")`,
			Value:   func(f flightRow) xlsx.Value { return number(f.official().Percent) },
		},
		{
			Key: "difference", Title: words.ColumnOfficialLessOwn, Width: 8.5, Look: xlsx.LookGap.Live(),
			Formula: `IF(AND(ISNUMBER({official}),ISNUMBER({points}),{official-maximum}={maximum}),{official}-{points},"")`,
			Value:   difference,
		},
		{
			Key: "record", Title: words.ColumnRecordPercent, Width: 8, Look: xlsx.LookTwo.Live().Strong(),
			Formula: `IF(OR({counts}="void",{source}=""),"",IF({source}="official",{official-percent},{percent}))`,
			Value:   func(f flightRow) xlsx.Value { return number(f.line.Percent) },
		},
		{
			Key: "source", Title: words.ColumnRecordFrom, Width: 10, Look: xlsx.LookCentred.Live(),
			Formula: `IF({counts}="void","",IF(ISNUMBER({official}),"official",IF(ISNUMBER({points}),"computed","")))`,
			Value:   func(f flightRow) xlsx.Value { return xlsx.Text(f.line.Source) },
		},
		fact("place", words.ColumnPlace, 6, xlsx.LookPlace, func(f flightRow) xlsx.Value { return xlsx.Whole(f.Place) }),
		fact("of", words.ColumnOf, 5, xlsx.LookPlace, func(f flightRow) xlsx.Value { return xlsx.Whole(f.Of) }),
		{
			Key: "remark", Title: words.ColumnRemark, Width: 32, Look: xlsx.LookWrap.Live().Indented(),
			FormulaOf: remarkFormula, Value: func(f flightRow) xlsx.Value { return xlsx.Text(f.fullRemark()) },
		},
	}
}

// officialMaximum is that of the rows of marks, where the printed total came
// without one.
func officialMaximum(f flightRow) string {
	if f.Official != nil && !f.Official.MaximumTyped && f.sameMaximum() {
		return "{maximum}"
	}
	return ""
}

// difference is the printed total less the computed one, where both are out
// of the same maximum.
func difference(f flightRow) xlsx.Value {
	if !f.marked() {
		return xlsx.Value{}
	}
	return number(f.official().LessOwn)
}

// fullRemark is the remark with the rows that are undecided.
func (f flightRow) fullRemark() string {
	n := f.undecided()
	if n == 0 {
		return f.remark
	}
	remark := words.UndecidedRows(n)
	if f.remark != "" {
		remark += "; " + f.remark
	}
	return remark
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
	formula := fmt.Sprintf(`IF({undecided}>0,%s&{undecided}&%s,"")`, xlsx.Quoted(words.UndecidedRowsBefore), xlsx.Quoted(after))
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
	agrees := f.official().Agrees
	switch {
	case !difference(f).Numeric || agrees == nil:
		return xlsx.Value{}
	case *agrees:
		return xlsx.Text("yes")
	default:
		return xlsx.Text("no")
	}
}

// printedUnit is one of the last decimal that the official total was printed to.
func printedUnit(f flightRow) xlsx.Value {
	if f.Official == nil {
		return xlsx.Value{}
	}
	return xlsx.Float(math.Pow10(-f.Official.Decimals))
}

// flightWorking are the folded columns: the flight's name, which every row of
// Grades bears, and what the season's page adds up.
func flightWorking() []xlsx.Column[flightRow] {
	return xlsx.FoldedAway([]xlsx.Column[flightRow]{
		fact("flight", words.ColumnFlight, 24, xlsx.LookText, func(f flightRow) xlsx.Value { return xlsx.Text(f.Flight.Flight) }),
		{Key: "contest-key", Title: words.ColumnContestsNameInFormulas, Look: xlsx.LookText, Value: func(f flightRow) xlsx.Value { return xlsx.Text(f.contest) }},
		{
			Key: "unit", Title: words.ColumnOfficialPrintedTo, Look: xlsx.LookInteger, Value: printedUnit,
		},
		fact("missing", words.ColumnSheetsMissing, 11, xlsx.LookInteger, func(f flightRow) xlsx.Value { return xlsx.Integer(len(f.Missing)) }),
		{Key: "agrees", Title: words.ColumnOfficialAgrees, Look: xlsx.LookText, Formula: agreement, Value: agrees},
		{
			Key: "rows", Title: words.ColumnRows, Look: xlsx.LookInteger, Formula: `COUNTIFS({Grades.flight},{flight})`,
			Value: func(f flightRow) xlsx.Value { return xlsx.Integer(len(f.lines())) },
		},
		{
			Key: "undecided", Title: words.ColumnUndecided, Look: xlsx.LookInteger,
			Formula: `{rows}-COUNTIFS({Grades.flight},{flight},{Grades.points},">=0")`,
			Value:   func(f flightRow) xlsx.Value { return xlsx.Integer(f.undecided()) },
		},
		{
			Key: "record-points", Title: words.ColumnRecordPoints, Look: xlsx.LookTwo,
			Formula: `IF({source}="official",{official},IF({source}="computed",{points},""))`,
			Value:   func(f flightRow) xlsx.Value { return number(f.line.Points) },
		},
		{
			Key: "record-maximum", Title: words.ColumnRecordMaximum, Look: xlsx.LookTwo,
			Formula: `IF({source}="official",IF(ISNUMBER({official-maximum}),{official-maximum},""),IF({source}="computed",{maximum},""))`,
			Value:   func(f flightRow) xlsx.Value { return number(f.line.Maximum) },
		},
		{
			Key: "entered", Title: words.ColumnPercentThatCounts, Look: xlsx.LookTwo,
			Formula: `IF(AND({counts}="yes",ISNUMBER({record})),{record},"")`,
			Value: func(f flightRow) xlsx.Value {
				if !f.line.Enters {
					return xlsx.Value{}
				}
				return number(f.line.Percent)
			},
		},
	})
}

// flightField are the working columns that compare a flight with its field:
// the totals as typed, and the record's points less each.
func flightField() []xlsx.Column[flightRow] {
	return xlsx.FoldedAway([]xlsx.Column[flightRow]{
		{Key: "winner", Title: words.ColumnWinnersPoints, Look: xlsx.LookTwo, Value: func(f flightRow) xlsx.Value { return number(f.field().Winner) }},
		{Key: "median", Title: words.ColumnFieldsMedian, Look: xlsx.LookTwo, Value: func(f flightRow) xlsx.Value { return number(f.field().Median) }},
		{
			Key: "to-winner", Title: words.ColumnToWinner, Look: xlsx.LookGap, Formula: `IF(AND(ISNUMBER({record-points}),ISNUMBER({winner})),{record-points}-{winner},"")`,
			Value: func(f flightRow) xlsx.Value { return number(f.line.ToWinner) },
		},
		{
			Key: "to-median", Title: words.ColumnToMedian, Look: xlsx.LookGap, Formula: `IF(AND(ISNUMBER({record-points}),ISNUMBER({median})),{record-points}-{median},"")`,
			Value: func(f flightRow) xlsx.Value { return number(f.line.ToMedian) },
		},
		{Key: "noise", Title: words.ColumnPanelNoisePercent, Look: xlsx.LookTwo, Value: func(f flightRow) xlsx.Value { return number(f.line.Noise) }},
	})
}

// flightCounted is the working column of Flights that says in which category's
// figures a flight counts: contest flights with marks and a percent, of which an
// element has a family.
func flightCounted() []xlsx.Column[flightRow] {
	return xlsx.FoldedAway([]xlsx.Column[flightRow]{{
		Key: "counted", Title: words.ColumnCountsForFamiliesOf, Look: xlsx.LookText,
		Formula: `IF(AND({counts}="yes",{rows}>0,ISNUMBER({record}),SUMIFS({Elements.first},{Elements.flight},{flight})>0),{category},"")`,
		Value:   func(f flightRow) xlsx.Value { return xlsx.Text(f.counted()) },
	}})
}
