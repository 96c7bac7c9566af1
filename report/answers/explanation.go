package answers

import (
	"boxbook/report"
	"boxbook/scoring"
	"boxbook/season"
)

// Explanation is one change that would give the printed total; Text says it in
// a sentence, that of words.SayFlight.
type Explanation struct {
	// Kind is where the slip would be: ExplainedBy...
	Kind string `json:"kind"`
	Text string `json:"text"`
	// Line and Figure are the line of kinds zero, mark, figure, k, k-swapped, rows and marks
	// (the first of two): figure, positioning or harmony. Second is the figure that
	// would have the K of the first (kind k-swapped). Cells of kind rows are the two marks of
	// any one judge, or where AllSheets says so those of all judges together; of kind zero
	// the hard zeros, any one of which confirmed will do.
	Line      string       `json:"line,omitempty"`
	Figure    int          `json:"figure,omitempty"`
	Second    int          `json:"second,omitempty"`
	Cells     []CellChange `json:"cells,omitempty"`
	AllSheets bool         `json:"allSheets,omitempty"`
	// Step is by how many half points the mark, or the first of two, would be
	// higher, Last the farthest step that fits as well; SecondStep is the second
	// mark's. All are 0 where a mark is no grade.
	Step       int `json:"step,omitempty"`
	Last       int `json:"last,omitempty"`
	SecondStep int `json:"secondStep,omitempty"`
	// K would be the line's, WasK is what the sheet has.
	K    int `json:"k,omitempty"`
	WasK int `json:"wasK,omitempty"`
	// Judge is the one whose sheet was left out.
	Judge string `json:"judge,omitempty"`
	// Setting of the rules would be Value, both as a ledger types them; Without
	// are the weighted lines left out.
	Setting string   `json:"setting,omitempty"`
	Value   string   `json:"value,omitempty"`
	Without []string `json:"without,omitempty"`
	// Deducted is how a penalty was counted: DeductedNot and the like; Penalty says
	// which one, from 1, absent where it is all of them together.
	Deducted string `json:"deducted,omitempty"`
	Penalty  int    `json:"penalty,omitempty"`
	// Points are those of a penalty that is not in the ledger; PerJudge is the one
	// that, once for each judge, comes to them, 0 where none does.
	Points   int64 `json:"points,omitempty"`
	PerJudge int64 `json:"perJudge,omitempty"`
	// OnSheets says that each judge's printed total has a penalty deducted that is not in
	// the ledger, or counted otherwise.
	OnSheets bool `json:"onSheets,omitempty"`
	// Total is what the marks come to, where the official total is that, mistyped:
	// MistypedSwapped or MistypedDigit. InField says that the field has it.
	Total    report.Number `json:"total,omitzero"`
	Mistyped string        `json:"mistyped,omitempty"`
	InField  bool          `json:"inField,omitempty"`
	// Unlikely says that each mark that would do lies far from what the other judges
	// gave or, of kind k, AgainstSum: that the sum of K as typed is the printed one, where
	// nothing else that is printed has the other K.
	Unlikely   bool `json:"unlikely,omitempty"`
	AgainstSum bool `json:"againstSum,omitempty"`
	// Contradicts says that it does not give the judges' totals that were typed.
	Contradicts bool `json:"contradicts,omitempty"`
	// Rulings are assumed for undecided lines.
	Rulings []AssumedRuling `json:"rulings,omitempty"`
}

// The codes of Explanation.Kind.
const (
	ExplainedBySheet   = string(scoring.KindSheet)
	ExplainedByRules   = string(scoring.KindRules)
	ExplainedByPenalty = string(scoring.KindPenalty)
	ExplainedByZero    = string(scoring.KindZero)
	ExplainedByTotal   = string(scoring.KindTotal)
	ExplainedByMark    = string(scoring.KindMark)
	ExplainedByJudge   = string(scoring.KindJudge)
	ExplainedByFigure  = string(scoring.KindFigure)
	ExplainedByK       = string(scoring.KindK)
	ExplainedBySwapK   = string(scoring.KindSwappedK)
	ExplainedByRows    = string(scoring.KindRows)
	ExplainedByMarks   = string(scoring.KindMarks)
)

// The codes of Explanation.Setting.
const (
	SettingHardZero     = string(scoring.SettingHardZero)
	SettingHalf         = string(scoring.SettingHalf)
	SettingFillRounding = string(scoring.SettingFillRounding)
	SettingDropExtremes = string(scoring.SettingDropExtremes)
)

// The values of SettingDropExtremes.
const (
	DropYes = "yes"
	DropNo  = "no"
)

// The codes of Explanation.Deducted.
const (
	DeductedNot     = string(scoring.DeductedNot)
	DeductedTwice   = string(scoring.DeductedTwice)
	DeductedByJudge = string(scoring.DeductedByJudge)
	DeductedDivided = string(scoring.DeductedDivided)
)

// The codes of Explanation.Mistyped: two digits next to each other changed over,
// one digit typed for another.
const (
	MistypedSwapped = string(scoring.MistypedSwapped)
	MistypedDigit   = string(scoring.MistypedDigit)
)

// CellChange is one mark as typed and as it would have to be; line is
// figure, positioning or harmony. WouldGrade is the grade it would be, in grades,
// absent where it would be none.
type CellChange struct {
	Line       string        `json:"line"`
	Figure     int           `json:"figure,omitempty"`
	Judge      string        `json:"judge"`
	Was        string        `json:"was"`
	Would      string        `json:"would"`
	WouldGrade report.Number `json:"wouldGrade,omitzero"`
}

// HighestGrade is the highest grade there is.
const HighestGrade = scoring.TopGrade / 2

// AssumedRuling is a ruling on an undecided line: RuledZero or RuledFill.
type AssumedRuling struct {
	Line   string `json:"line"`
	Figure int    `json:"figure,omitempty"`
	Ruling string `json:"ruling"`
}

// explanationsOf lists the explanations of a flight's printed total.
func explanationsOf(f *season.Flight, explanations []scoring.Explanation) []Explanation {
	found := []Explanation{}
	for _, e := range explanations {
		data := Explanation{
			Kind: string(e.Kind), Figure: e.Figure, Second: e.Second, Step: e.Step, Last: e.Last, SecondStep: e.SecondStep,
			K: e.K, WasK: e.WasK, Judge: e.Judge, Setting: string(e.Setting), Value: settingValue(e),
			Deducted: string(e.Deducted), Penalty: e.Part, Rulings: assumedRulings(f, e.Rulings),
			AllSheets: e.All, Points: e.Extra, PerJudge: e.PerJudge, OnSheets: e.OnSheets,
			Mistyped: string(e.Mistyped), InField: e.InField, Unlikely: e.Unlikely, AgainstSum: e.AgainstSum, Contradicts: e.Contradicts,
		}
		switch e.Kind {
		case scoring.KindTotal:
			data.Total = report.Exact(e.Total.Rat())
		case scoring.KindMark, scoring.KindMarks, scoring.KindK, scoring.KindSwappedK, scoring.KindRows, scoring.KindZero, scoring.KindFigure:
			data.Line = e.Line.String()
		}
		for _, line := range e.Without {
			data.Without = append(data.Without, line.String())
		}
		for _, c := range e.Cells {
			data.Cells = append(data.Cells, CellChange{c.Line.String(), c.Figure, c.Judge, c.Was.String(), c.Would.String(), gradeOf(c.Would)})
		}
		found = append(found, data)
	}
	return found
}

// settingValue is what the changed setting would be.
func settingValue(e scoring.Explanation) string {
	switch {
	case e.Setting == scoring.SettingHardZero:
		return e.Style.HardZero.String()
	case e.Setting == scoring.SettingHalf:
		return e.Style.Half.String()
	case e.Setting == scoring.SettingFillRounding:
		return e.Style.FillRounding.String()
	case e.Setting == scoring.SettingDropExtremes && e.Style.DropExtremes:
		return DropYes
	case e.Setting == scoring.SettingDropExtremes:
		return DropNo
	default:
		return ""
	}
}

// assumedRulings names the lines on which a ruling is assumed.
func assumedRulings(f *season.Flight, rulings []scoring.Decision) []AssumedRuling {
	var assumed []AssumedRuling
	lines, flown := f.Sheet().Lines, f.Flown()
	for i, decision := range rulings {
		if decision == scoring.NoDecision {
			continue
		}
		ruling := AssumedRuling{Line: lines[i].Kind.String(), Ruling: decisionCode(decision)}
		if lines[i].Kind == scoring.Figure {
			ruling.Figure = flown[i] + 1
		}
		assumed = append(assumed, ruling)
	}
	return assumed
}
