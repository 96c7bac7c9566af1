package workbook

import (
	"fmt"
	"strconv"

	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// The formulas of a row of marks, in two parts: what stands in sight, and the
// working columns that lead to it, folded away at the right. They say what
// package scoring does, step by step:
//
//   - rules, seats: the flight's rule style and the size of its panel, as typed
//     on the sheet Flights. A mark added to a seat that the panel lacks counts
//     as one judge more.
//   - hard-zero, half, rounding, drop: the settings of that style, from the
//     sheet Rules.
//   - given: how many judges gave a mark, AV and - apart. numbers: how many
//     marks are numbers of their own: grades, perception zeros, and hard zeros
//     where they count as given.
//   - own: what the rule style makes of the row. A confirmed hard zero makes it
//     zero; so do hard zeros from more than half of the judges who gave a mark;
//     fewer are filled; exactly half goes by the setting; no mark is open.
//   - outcome: own, or where that is open what the chief judge ruled; a ruling
//     to fill needs a number.
//   - fill: the mean of the row's own numbers, rounded half up as the style
//     says. Grades times ten, or times two, are whole numbers, so that a half
//     is met exactly. It lies between the lowest and the highest number, also
//     when rounded, for those are half points: an extreme is never a fill alone.
//   - dropped, highest, lowest: how many marks stand outside the mean in panels
//     of that size, and which. A zero that is no grade is the lowest there is.
//   - sum: the numbers and the fills that make the mean.

func resultColumns() []xlsx.Column[gradeRow] {
	return []xlsx.Column[gradeRow]{
		{
			Key: "mean", Title: words.ColumnMean, Width: 8, Look: xlsx.LookTwo.Live(),
			FormulaOf: gradeRow.meanFormula,
			Value:     func(g gradeRow) xlsx.Value { mean, _, _ := g.result(); return number(mean) },
		},
		{
			Key: "points", Title: words.ColumnPoints, Width: 9, Look: xlsx.LookTwo.Live().Strong(),
			Formula: `IF(ISNUMBER({mean}),{k}*{mean},"")`,
			Value:   func(g gradeRow) xlsx.Value { _, points, _ := g.result(); return number(points) },
		},
		{
			Key: "lost", Title: words.ColumnLost, Width: 9, Look: xlsx.LookTwo.Live(),
			Formula: `IF(ISNUMBER({mean}),{k}*(10-{mean}),"")`,
			Value:   func(g gradeRow) xlsx.Value { _, _, lost := g.result(); return number(lost) },
		},
		{
			Key: "ruling", Title: words.ColumnRuling, Width: 12, Look: xlsx.LookText.Live().Indented(),
			Formula: `IF({outcome}="not a mark",{outcome},IF({outcome}="open","undecided",IF({own}="open","resolved",` +
				`IF({outcome}="zero","zeroed",IF({numbers}<{seats-n},"filled","")))))`,
			Value: func(g gradeRow) xlsx.Value { return xlsx.Text(g.Ruling) },
		},
	}
}

// rowMean is the mean of a row by itself.
const rowMean = `IF({outcome}="zero",0,IF(ISNUMBER({sum}),{sum}/({seats-n}-{dropped}),""))`

// meanFormula is a row's mean, or that of all rows of its figure in the first of
// several.
func (g gradeRow) meanFormula() string {
	if g.figureMean == nil {
		return rowMean
	}
	return fmt.Sprintf(`IF(COUNTIFS({Grades.key},{key},{Grades.row-mean},">=0")=%[1]d,SUMIFS({Grades.row-mean},{Grades.key},{key})/%[1]d,"")`, g.rows)
}

// againColumn is the working column that the mean of several rows is made from;
// it is empty for a figure that was flown once.
func againColumn() []xlsx.Column[gradeRow] {
	return xlsx.FoldedAway([]xlsx.Column[gradeRow]{{
		Key: "row-mean", Title: words.ColumnRowMean, Look: xlsx.LookTwo,
		FormulaOf: func(g gradeRow) string {
			if g.rows == 0 {
				return ""
			}
			return rowMean
		},
		Value: func(g gradeRow) xlsx.Value {
			if g.rows == 0 {
				return xlsx.Value{}
			}
			return number(g.Mean)
		},
	}})
}

// setting looks a rule style's setting up.
func setting(key string) string {
	return `INDEX({Rules.` + key + `},MATCH({rules},{Rules.rules},0))`
}

func workingColumns() []xlsx.Column[gradeRow] {
	return xlsx.FoldedAway([]xlsx.Column[gradeRow]{
		{
			Key: "rules", Title: words.ColumnRules, Look: xlsx.LookText,
			Formula: `INDEX({Flights.rules},MATCH({flight},{Flights.flight},0))`,
			Value:   func(g gradeRow) xlsx.Value { return xlsx.Text(g.flight.rules) },
		},
		{
			Key: "hard-zero", Title: words.ColumnHardZero, Look: xlsx.LookText, Formula: setting("hard-zero"),
			Value: func(g gradeRow) xlsx.Value { return xlsx.Text(g.style.HardZero) },
		},
		{
			Key: "half", Title: words.ColumnExactlyHalf, Look: xlsx.LookText, Formula: setting("half"),
			Value: func(g gradeRow) xlsx.Value { return xlsx.Text(g.style.Half) },
		},
		{
			Key: "rounding", Title: words.ColumnFillRounding, Look: xlsx.LookText, Formula: setting("rounding"),
			Value: func(g gradeRow) xlsx.Value { return xlsx.Text(roundingWord(g.style)) },
		},
		{
			Key: "drop", Title: words.ColumnDropExtremes, Look: xlsx.LookText, Formula: setting("drop"),
			Value: func(g gradeRow) xlsx.Value { return xlsx.Text(dropWord(g.style)) },
		},
		{
			Key: "seats-n", Title: words.ColumnSeats, Look: xlsx.LookInteger,
			Formula: `MAX(COUNTA({seats}),INDEX({Flights.judges},MATCH({flight},{Flights.flight},0)))`,
			Value:   func(g gradeRow) xlsx.Value { return xlsx.Integer(len(g.Marks)) },
		},
		{
			Key: "hz", Title: words.ColumnHZ, Look: xlsx.LookInteger, Formula: `COUNTIF({seats},"HZ")`,
			Value: func(g gradeRow) xlsx.Value { return xlsx.Integer(g.count(answers.HardZero)) },
		},
		{
			Key: "chz", Title: words.ColumnCHZ, Look: xlsx.LookInteger, Formula: `COUNTIF({seats},"CHZ")`,
			Value: func(g gradeRow) xlsx.Value { return xlsx.Integer(g.count(answers.ConfirmedHardZero)) },
		},
		{
			Key: "pz", Title: words.ColumnPZ, Look: xlsx.LookInteger, Formula: `COUNTIF({seats},"PZ")`,
			Value: func(g gradeRow) xlsx.Value { return xlsx.Integer(g.count(answers.PerceptionZero)) },
		},
		{
			Key: "none", Title: words.ColumnAVAndNone, Look: xlsx.LookInteger,
			Formula: `COUNTIF({seats},"AV")+COUNTIF({seats},"A")+COUNTIF({seats},"-")`,
			Value:   func(g gradeRow) xlsx.Value { return xlsx.Integer(g.count(answers.NotSeen, answers.NoMark)) },
		},
		{
			Key: "unread", Title: words.ColumnNotAMark, Look: xlsx.LookInteger,
			Formula: `ABS(COUNTA({seats})-COUNT({seats})-{hz}-{chz}-{pz}-{none})+ABS(COUNTA({seats})-SUMPRODUCT(COUNTIF({seats},{Marks.mark})))`,
			Value:   func(gradeRow) xlsx.Value { return xlsx.Integer(0) },
		},
		{
			Key: "given", Title: words.ColumnGiven, Look: xlsx.LookInteger, Formula: `COUNT({seats})+{hz}+{chz}+{pz}`,
			Value: func(g gradeRow) xlsx.Value {
				return xlsx.Integer(len(g.Marks) - g.count(answers.NotSeen, answers.NoMark))
			},
		},
		{
			Key: "numbers", Title: words.ColumnNumbers, Look: xlsx.LookInteger, Formula: `COUNT({seats})+{pz}+IF({hard-zero}="as-given",{hz},0)`,
			Value: func(g gradeRow) xlsx.Value {
				n := g.count(answers.Grade, answers.PerceptionZero)
				if g.style.HardZero == answers.AsGiven {
					n += g.count(answers.HardZero)
				}
				return xlsx.Integer(n)
			},
		},
		{
			Key: "own", Title: words.ColumnOwn, Look: xlsx.LookText,
			Formula: `IF({unread}>0,"not a mark",IF({chz}>0,"zero",IF({given}=0,"open",IF(OR({hard-zero}="as-given",2*{hz}<{given}),"fill",` +
				`IF(OR(2*{hz}>{given},{half}="zero"),"zero",IF({half}="fill","fill","open"))))))`,
			Value: func(g gradeRow) xlsx.Value { return xlsx.Text(g.own()) },
		},
		{
			Key: "outcome", Title: words.ColumnOutcome, Look: xlsx.LookText,
			Formula: `IF({own}<>"open",{own},IF({resolve}="zero","zero",IF(AND({resolve}="fill",{numbers}>0),"fill","open")))`,
			Value:   func(g gradeRow) xlsx.Value { return xlsx.Text(g.outcome()) },
		},
		{
			Key: "fill", Title: words.ColumnFill, Look: xlsx.LookTwo,
			Formula: `IF(AND({outcome}="fill",{numbers}<{seats-n}),IF({rounding}="to 0.1",ROUND(SUM({seats})*10/{numbers},0)/10,` +
				`IF({rounding}="to 0.5",ROUND(SUM({seats})*2/{numbers},0)/2,SUM({seats})/{numbers})),"")`,
			Value: func(g gradeRow) xlsx.Value { return number(g.Fill) },
		},
		{
			Key: "dropped", Title: words.ColumnDropped, Look: xlsx.LookInteger,
			Formula: `IF(AND({outcome}="fill",{drop}="yes",{seats-n}>=` + strconv.Itoa(answers.StyleOf(nil).DropPanel) + `),2,0)`,
			Value:   func(g gradeRow) xlsx.Value { return xlsx.Integer(g.dropped()) },
		},
		{
			Key: "highest", Title: words.ColumnHighestDropped, Look: xlsx.LookTwo, Formula: `IF({dropped}=2,MAX({seats}),0)`,
			Value: func(g gradeRow) xlsx.Value { return g.highest() },
		},
		{
			Key: "lowest", Title: words.ColumnLowestDropped, Look: xlsx.LookTwo,
			Formula: `IF({dropped}=2,IF({numbers}>COUNT({seats}),0,MIN({seats})),0)`,
			Value:   func(g gradeRow) xlsx.Value { return g.lowest() },
		},
		{
			Key: "sum", Title: words.ColumnSumInTheMean, Look: xlsx.LookTwo,
			Formula: `IF({outcome}="fill",SUM({seats})+N({fill})*({seats-n}-{numbers})-{highest}-{lowest},"")`,
			Value: func(g gradeRow) xlsx.Value {
				if g.outcome() != rowFill {
					return xlsx.Value{}
				}
				return number(g.Sum)
			},
		},
	})
}
