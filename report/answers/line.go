package answers

import (
	"math/big"

	"boxbook/report"
	"boxbook/scoring"
)

// Line is one line of a score sheet: marks as typed; used in grades, what
// counted, null where undecided or dropped.
type Line struct {
	K     int             `json:"k"`
	Marks []string        `json:"marks"`
	Used  []report.Number `json:"used"`
	Cells []MarkCell      `json:"cells"`
	Fill  report.Number   `json:"fill,omitzero"`
	// Sum adds up the values that make the mean, absent while the line is undecided.
	Sum    report.Number `json:"sum,omitzero"`
	Mean   report.Number `json:"mean,omitzero"`
	Points report.Number `json:"points,omitzero"`
	Lost   report.Number `json:"lost,omitzero"`
	// Ruling is what the rule style made of the line; Decision the recorded
	// ruling of the chief judge, RuledZero or RuledFill, "" where there is none, and
	// DecisionRemark what was noted of it.
	Ruling         string `json:"ruling"`
	Decision       string `json:"decision,omitempty"`
	DecisionRemark string `json:"decisionRemark,omitempty"`
	Vote           *Vote  `json:"vote,omitempty"`
	Remark         string `json:"remark,omitempty"`
}

// MarkCell is one judge's mark of a line. Grade is the grade as marked, absent
// where the mark is none; Value is what stands for it on the judge's own sheet,
// in grades, dropped ones too, absent while the line is undecided.
type MarkCell struct {
	Kind    MarkKind      `json:"kind"`
	Grade   report.Number `json:"grade,omitzero"`
	Value   report.Number `json:"value,omitzero"`
	Counted Counting      `json:"counted"`
}

// MarkKind tells grades from the marks that are none.
type MarkKind string

// The kinds of a mark.
const (
	Grade             MarkKind = "grade"
	HardZero          MarkKind = "hard zero"
	ConfirmedHardZero MarkKind = "confirmed hard zero"
	PerceptionZero    MarkKind = "perception zero"
	NotSeen           MarkKind = "not seen"
	NoMark            MarkKind = "no mark"
)

// markKindOf names the kind of a mark.
func markKindOf(m scoring.Mark) MarkKind {
	return [...]MarkKind{
		scoring.Grade: Grade, scoring.HardZero: HardZero, scoring.ConfirmedHardZero: ConfirmedHardZero,
		scoring.PerceptionZero: PerceptionZero, scoring.NotSeen: NotSeen, scoring.Absent: NoMark,
	}[m.Kind]
}

// Counting says what became of a mark.
type Counting string

// How a mark counts: as it stands; filled with the mean of the others; replaced
// by the zero of the whole panel; left out of the mean as an extreme (it may be
// a filled one); not yet, while the line is undecided.
const (
	AsMarked      Counting = "as-marked"
	FilledMark    Counting = "filled"
	OverruledMark Counting = "overruled"
	DroppedMark   Counting = "dropped"
	OpenMark      Counting = "open"
)

func countingOf(cell scoring.Cell) Counting {
	switch {
	case cell.Used == nil:
		return OpenMark
	case cell.Dropped:
		return DroppedMark
	case cell.Fill:
		return FilledMark
	case cell.Overruled:
		return OverruledMark
	default:
		return AsMarked
	}
}

// The codes of Line.Ruling: what the rule style made of a line; "" where every
// mark stands as it is.
const (
	RulingFilled    = string(scoring.Filled)
	RulingZeroed    = string(scoring.Zeroed)
	RulingUndecided = string(scoring.Undecided)
	RulingResolved  = string(scoring.Resolved)
)

// The codes of a recorded ruling.
const (
	RuledZero = "zero"
	RuledFill = "fill"
)

func decisionCode(d scoring.Decision) string {
	return [...]string{scoring.NoDecision: "", scoring.RuledZero: RuledZero, scoring.RuledFill: RuledFill}[d]
}

// Vote counts the hard zeros of a line; it is there where any judge put one, or
// where nobody gave a mark. Given are the judges who gave a mark at all.
type Vote struct {
	HardZeros int  `json:"hardZeros"`
	Given     int  `json:"given"`
	Side      Side `json:"side"`
	Confirmed bool `json:"confirmed,omitempty"`
}

// Side says on which side of half the judges with a hard zero stand.
type Side string

// The sides of a vote; Silent where nobody gave a mark.
const (
	MinorityOf Side = "minority"
	HalfOf     Side = "half"
	MajorityOf Side = "majority"
	Silent     Side = "silent"
)

// voteOf counts a line's hard zeros; nil where there is nothing to vote on.
func voteOf(marks []scoring.Mark) *Vote {
	v := scoring.VoteOn(marks)
	if v.Hard == 0 && !v.Confirmed && v.Side != scoring.Silent {
		return nil
	}
	side := [...]Side{scoring.Minority: MinorityOf, scoring.HalfOf: HalfOf, scoring.Majority: MajorityOf, scoring.Silent: Silent}[v.Side]
	return &Vote{HardZeros: v.Hard, Given: v.Given, Side: side, Confirmed: v.Confirmed}
}

// lineOf is a line and what it came to.
func lineOf(line scoring.Line, score scoring.LineScore) Line {
	data := Line{
		K: line.K, Mean: report.Exact(score.Mean), Points: report.Exact(score.Points), Lost: report.Exact(score.Lost),
		Ruling: string(score.Ruling), Decision: decisionCode(line.Decision), Vote: voteOf(line.Marks),
	}
	sum := new(big.Rat)
	for j, mark := range line.Marks {
		cell := score.Cells[j]
		if cell.Used != nil && !cell.Dropped {
			sum.Add(sum, cell.Used)
		}
		used := report.Exact(cell.Used)
		if cell.Dropped {
			used = report.Number{}
		}
		if cell.Fill {
			data.Fill = report.Exact(cell.Used)
		}
		data.Marks, data.Used = append(data.Marks, mark.String()), append(data.Used, used)
		data.Cells = append(data.Cells, MarkCell{markKindOf(mark), gradeOf(mark), report.Exact(cell.Used), countingOf(cell)})
	}
	if score.Mean != nil {
		data.Sum = report.Exact(sum)
	}
	return data
}

// gradeOf is a grade as marked, not known where the mark is none.
func gradeOf(m scoring.Mark) report.Number {
	if m.Kind != scoring.Grade {
		return report.Number{}
	}
	return report.Exact(big.NewRat(int64(m.Half), 2))
}
