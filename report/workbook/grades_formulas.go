package workbook

import "boxbook/scoring"

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

var resultColumns = []column[gradeRow]{
	{
		key: "mean", title: "mean", width: 8, look: lookTwo.live(),
		formula: `IF({outcome}="zero",0,IF(ISNUMBER({sum}),{sum}/({seats-n}-{dropped}),""))`,
		value:   func(g gradeRow) value { return exact(g.score.Mean) },
	},
	{
		key: "points", title: "points", width: 9, look: lookTwo.live().strong(),
		formula: `IF(ISNUMBER({mean}),{k}*{mean},"")`,
		value:   func(g gradeRow) value { return exact(g.score.Points) },
	},
	{
		key: "lost", title: "lost", width: 9, look: lookTwo.live(),
		formula: `IF(ISNUMBER({mean}),{k}*(10-{mean}),"")`,
		value:   func(g gradeRow) value { return exact(g.score.Lost) },
	},
	{
		key: "ruling", title: "ruling", width: 12, look: lookText.live().indented(),
		formula: `IF({outcome}="not a mark",{outcome},IF({outcome}="open","undecided",IF({own}="open","resolved",` +
			`IF({outcome}="zero","zeroed",IF({numbers}<{seats-n},"filled","")))))`,
		value: func(g gradeRow) value { return text(string(g.score.Ruling)) },
	},
}

// setting looks a rule style's setting up.
func setting(key string) string {
	return `INDEX({Rules.` + key + `},MATCH({rules},{Rules.rules},0))`
}

var workingColumns = foldedAway([]column[gradeRow]{
	{
		key: "rules", title: "rules", look: lookText,
		formula: `INDEX({Flights.rules},MATCH({flight},{Flights.flight},0))`,
		value:   func(g gradeRow) value { return text(g.rules) },
	},
	{
		key: "hard-zero", title: "hard zero", look: lookText, formula: setting("hard-zero"),
		value: func(g gradeRow) value { return text(hardZeroWord(g.style)) },
	},
	{
		key: "half", title: "exactly half", look: lookText, formula: setting("half"),
		value: func(g gradeRow) value { return text(halfWord(g.style)) },
	},
	{
		key: "rounding", title: "fill rounding", look: lookText, formula: setting("rounding"),
		value: func(g gradeRow) value { return text(roundingWord(g.style)) },
	},
	{
		key: "drop", title: "drop extremes", look: lookText, formula: setting("drop"),
		value: func(g gradeRow) value { return text(dropWord(g.style)) },
	},
	{
		key: "seats-n", title: "seats", look: lookInteger,
		formula: `MAX(COUNTA({seats}),INDEX({Flights.judges},MATCH({flight},{Flights.flight},0)))`,
		value:   func(g gradeRow) value { return integer(len(g.line.Marks)) },
	},
	{
		key: "hz", title: "HZ", look: lookInteger, formula: `COUNTIF({seats},"HZ")`,
		value: func(g gradeRow) value { return integer(g.count(scoring.HardZero)) },
	},
	{
		key: "chz", title: "CHZ", look: lookInteger, formula: `COUNTIF({seats},"CHZ")`,
		value: func(g gradeRow) value { return integer(g.count(scoring.ConfirmedHardZero)) },
	},
	{
		key: "pz", title: "PZ", look: lookInteger, formula: `COUNTIF({seats},"PZ")`,
		value: func(g gradeRow) value { return integer(g.count(scoring.PerceptionZero)) },
	},
	{
		key: "none", title: "AV and -", look: lookInteger,
		formula: `COUNTIF({seats},"AV")+COUNTIF({seats},"A")+COUNTIF({seats},"-")`,
		value:   func(g gradeRow) value { return integer(g.count(scoring.NotSeen, scoring.Absent)) },
	},
	{
		key: "unread", title: "not a mark", look: lookInteger,
		formula: `ABS(COUNTA({seats})-COUNT({seats})-{hz}-{chz}-{pz}-{none})+ABS(COUNTA({seats})-SUMPRODUCT(COUNTIF({seats},{Marks.mark})))`,
		value:   func(gradeRow) value { return integer(0) },
	},
	{
		key: "given", title: "given", look: lookInteger, formula: `COUNT({seats})+{hz}+{chz}+{pz}`,
		value: func(g gradeRow) value {
			return integer(len(g.line.Marks) - g.count(scoring.NotSeen, scoring.Absent))
		},
	},
	{
		key: "numbers", title: "numbers", look: lookInteger, formula: `COUNT({seats})+{pz}+IF({hard-zero}="as-given",{hz},0)`,
		value: func(g gradeRow) value {
			n := g.count(scoring.Grade, scoring.PerceptionZero)
			if g.style.HardZero == scoring.AsGiven {
				n += g.count(scoring.HardZero)
			}
			return integer(n)
		},
	},
	{
		key: "own", title: "own", look: lookText,
		formula: `IF({unread}>0,"not a mark",IF({chz}>0,"zero",IF({given}=0,"open",IF(OR({hard-zero}="as-given",2*{hz}<{given}),"fill",` +
			`IF(OR(2*{hz}>{given},{half}="zero"),"zero",IF({half}="fill","fill","open"))))))`,
		value: func(g gradeRow) value { return text(g.own()) },
	},
	{
		key: "outcome", title: "outcome", look: lookText,
		formula: `IF({own}<>"open",{own},IF({resolve}="zero","zero",IF(AND({resolve}="fill",{numbers}>0),"fill","open")))`,
		value:   func(g gradeRow) value { return text(g.outcome()) },
	},
	{
		key: "fill", title: "fill", look: lookTwo,
		formula: `IF(AND({outcome}="fill",{numbers}<{seats-n}),IF({rounding}="to 0.1",ROUND(SUM({seats})*10/{numbers},0)/10,` +
			`IF({rounding}="to 0.5",ROUND(SUM({seats})*2/{numbers},0)/2,SUM({seats})/{numbers})),"")`,
		value: func(g gradeRow) value { return g.filled() },
	},
	{
		key: "dropped", title: "dropped", look: lookInteger,
		formula: `IF(AND({outcome}="fill",{drop}="yes",{seats-n}>=5),2,0)`,
		value:   func(g gradeRow) value { return integer(g.dropped()) },
	},
	{
		key: "highest", title: "highest dropped", look: lookTwo, formula: `IF({dropped}=2,MAX({seats}),0)`,
		value: func(g gradeRow) value { return g.extreme(1) },
	},
	{
		key: "lowest", title: "lowest dropped", look: lookTwo,
		formula: `IF({dropped}=2,IF({numbers}>COUNT({seats}),0,MIN({seats})),0)`,
		value:   func(g gradeRow) value { return g.extreme(-1) },
	},
	{
		key: "sum", title: "sum in the mean", look: lookTwo,
		formula: `IF({outcome}="fill",SUM({seats})+N({fill})*({seats-n}-{numbers})-{highest}-{lowest},"")`,
		value: func(g gradeRow) value {
			if g.outcome() != rowFill {
				return value{}
			}
			return g.sum()
		},
	},
})
