package answers

import (
	"strings"

	"boxbook/report"
	"boxbook/season"
)

// FigureLabel is the figure's label, or its codes where it has none.
func FigureLabel(f Figure) string {
	if f.Label != "" {
		return f.Label
	}
	codes := make([]string, len(f.Elements))
	for i, e := range f.Elements {
		codes[i] = e.Code
	}
	return strings.Join(codes, " ")
}

// Flight is a score sheet in JSON. What is not known is absent: the tool's
// own points and percent of a flight that is undecided, or has no marks.
type Flight struct {
	Flight      string `json:"flight"`
	Pilot       string `json:"pilot"`
	PilotName   string `json:"pilotName"`
	Contest     string `json:"contest,omitempty"`
	ContestName string `json:"contestName,omitempty"`
	// ContestDate is the first day of the contest.
	ContestDate string `json:"contestDate,omitempty"`
	Date        string `json:"date"`
	Category    string `json:"category,omitempty"`
	Programme   string `json:"programme"`
	// Label tells flights of one day, pilot and programme apart, from 1.
	Label    int    `json:"label"`
	Sequence string `json:"sequence,omitempty"`
	Aircraft string `json:"aircraft,omitempty"`
	// Counts is what the flight is to a season; Enters says that it enters the
	// season's and the trend's figures: a contest flight with a percent.
	Counts Counts `json:"counts"`
	Enters bool   `json:"enters"`
	Rules  string `json:"rules,omitempty"`
	// RulesDefault says that nobody named the rule style.
	RulesDefault bool       `json:"rulesDefault,omitempty"`
	Style        *RuleStyle `json:"style,omitempty"`
	// Marked says that a judge's mark is in the ledger.
	Marked      bool          `json:"marked"`
	Panel       []string      `json:"panel"`
	Missing     []string      `json:"missing"`
	Figures     []Figure      `json:"figures"`
	Positioning *Line         `json:"positioning,omitempty"`
	Harmony     *Line         `json:"harmony,omitempty"`
	Judges      []Judge       `json:"judges"`
	Raw         report.Number `json:"raw,omitzero"`
	Penalties   []Penalty     `json:"penalties"`
	Penalty     report.Number `json:"penalty,omitzero"`
	Points      report.Number `json:"points,omitzero"`
	Maximum     report.Number `json:"maximum,omitzero"`
	Percent     report.Number `json:"percent,omitzero"`
	Undecided   bool          `json:"undecided"`
	Range       *Range        `json:"range,omitempty"`
	Official    *Official     `json:"official,omitempty"`
	// PrintedJudges are the judges' printed totals of a flight without an official one.
	PrintedJudges []OfficialJudge `json:"printedJudges,omitempty"`
	Record        *Record         `json:"record,omitempty"`
	Place         int             `json:"place,omitempty"`
	Of            int             `json:"of,omitempty"`
	Field         *Field          `json:"field,omitempty"`
	Lost          *Lost           `json:"lost,omitempty"`
	// Families are the decided figures' elements by trend group, in the order flown.
	Families []FlightFamily `json:"families,omitempty"`
	Faults   []Fault        `json:"faults"`
	Expected []Expected     `json:"expected"`
	// ExpectedAbove is how far the expected grades lie above the panel's on
	// average, over the figures that have a difference.
	ExpectedAbove report.Number `json:"expectedAbove,omitzero"`
	Flags         []Flag        `json:"flags"`
	Scatter       report.Number `json:"scatter,omitzero"`
	Noise         report.Number `json:"noise,omitzero"`
	// Refit says that leniency and scatter leave out the flagged grades.
	Refit bool   `json:"refit,omitempty"`
	Void  string `json:"void,omitempty"`
	// Notes are the flight's own, Videos too; a review has its own.
	Notes   []string `json:"notes,omitempty"`
	Videos  []string `json:"videos"`
	Reviews []Review `json:"reviews"`
	// Matters are those of safety that the flight brought to light, Closes its lines
	// that close one.
	Matters []Matter `json:"matters,omitempty"`
	Closes  []Closes `json:"closes,omitempty"`
}

// Review is a look through the video. By is a coach, Name the coach's name; both
// are absent where nobody said who looked.
type Review struct {
	By     string   `json:"by,omitempty"`
	Name   string   `json:"name,omitempty"`
	Notes  []string `json:"notes"`
	Videos []string `json:"videos,omitempty"`
}

// Counts is what a flight is to a season.
type Counts string

// A flight counts as one of a contest, is shown as practice, or is void: kept
// and shown, and part of no figure.
const (
	CountsContest  Counts = "contest"
	CountsPractice Counts = "practice"
	CountsVoid     Counts = "void"
)

// Practice is the programme of a flight that was flown for no result.
const Practice = string(season.Practice)

func countsOf(f *season.Flight) Counts {
	switch {
	case !f.Counts():
		return CountsVoid
	case !f.Contested():
		return CountsPractice
	default:
		return CountsContest
	}
}

// Field compares the record with the field: totals ascending, the own one among
// them; the median is there only where the whole field is. ToWinner and ToMedian
// are the record's points less theirs.
type Field struct {
	Totals   []report.Number `json:"totals"`
	Winner   report.Number   `json:"winner"`
	Median   report.Number   `json:"median,omitzero"`
	ToWinner report.Number   `json:"toWinner"`
	ToMedian report.Number   `json:"toMedian,omitzero"`
}

// FlightFamily is one trend group in a flight: the K of its elements and their
// percent of the top grade, weighed by it. Group is absent for elements of none.
type FlightFamily struct {
	Group   string        `json:"group,omitempty"`
	K       report.Number `json:"k"`
	Percent report.Number `json:"percent"`
}

// Figure is a figure's line. Of one that was flown several times the marks are
// those of the first row, what counted is each judge's mean over the rows, and Rows
// has every row by itself; mean, points and lost are the means of theirs.
type Figure struct {
	Number   int       `json:"number"`
	Label    string    `json:"label,omitempty"`
	Elements []Element `json:"elements"`
	Line
	Rows []Line `json:"rows,omitempty"`
}

// Element is a part of a figure; K may be a fraction where hints share
// the figure's K. Deducted is what the faults noted on it take, in grades;
// Charged what of it is charged to the element and Lost the whole of its loss,
// in points, both absent where the figure is undecided.
type Element struct {
	Code     string        `json:"code"`
	K        report.Number `json:"k"`
	Group    string        `json:"group,omitempty"`
	Deducted report.Number `json:"deducted,omitzero"`
	Charged  report.Number `json:"charged,omitzero"`
	Lost     report.Number `json:"lost,omitzero"`
}

// Judge is one judge of the panel: the total of the sheet in points;
// leniency, its standard error and scatter in grades, absent where there are
// too few judges or figures to say.
type Judge struct {
	Name     string        `json:"name"`
	Total    report.Number `json:"total,omitzero"`
	Leniency report.Number `json:"leniency,omitzero"`
	SE       report.Number `json:"se,omitzero"`
	Scatter  report.Number `json:"scatter,omitzero"`
}

// Penalty is points taken off, typed with that many decimals.
type Penalty struct {
	Kind     string        `json:"kind"`
	Points   report.Number `json:"points"`
	Decimals int           `json:"decimals"`
	Remark   string        `json:"remark,omitempty"`
}

// Range is a number at both ends: an undecided flight's points, a percent to come.
type Range struct {
	Low  report.Number `json:"low"`
	High report.Number `json:"high"`
}
