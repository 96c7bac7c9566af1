package season

import (
	"fmt"
	"math/big"
	"strconv"
	"sync/atomic"

	"boxbook/scoring"
)

// Flight is one programme flown by one pilot.
type Flight struct {
	Name      string // DATE/PILOT/PROGRAMME, with /N where a label was typed
	Date      Date
	Pilot     *Pilot
	Programme Programme
	Label     int // 1 where none was typed

	Contest  *Contest // nil: a contest by itself
	Sequence *Sequence
	Category string // its own, else the sequence's; "" where neither says
	Aircraft string
	Ladder   *Ladder // its own, else the contest's, else the first shipped that has the category
	Style    *RuleStyle
	// StyleDefault says that nobody named the rule style.
	StyleDefault bool

	Panel   []string // the judges whose sheets are here, in order
	Missing []string // judges whose sheets are not to hand

	Rows        Rows // by figure of the sequence; no marks where not flown (practice)
	Positioning *Row
	Harmony     *Row
	Rulings     []Ruling

	Penalties   []Penalty
	Official    *Official
	JudgeTotals []scoring.Decimal
	Rank, Of    int // 0 where not typed
	Field       []scoring.Decimal

	Faults   []Fault  // its own and its reviews', in order
	Reviewed []Review // who went through the video; a review block counts
	Closed   []Closed
	Void     *string // why it enters no figure; nil for a flight that counts
	Videos   []string
	Notes    []string
	At       Place

	score atomic.Pointer[scoring.Score] // what the marks are worth, nil until it is asked
	memo  Memo                          // what else was worked out about it
}

// Ruling is the chief judge's decision on a figure, or on a weighted line
// (Figure is then 0). At is its line in the file, from 0.
type Ruling struct {
	Figure   int
	Line     scoring.LineKind
	Decision scoring.Decision
	Remark   string
	At       int
}

// Name names the line as a ledger does: "figure 3", "positioning", "harmony".
func (r Ruling) Name() string {
	if r.Line != scoring.Figure {
		return r.Line.String()
	}
	return r.Line.String() + " " + strconv.Itoa(r.Figure)
}

// PenaltyKind is the reason of a penalty.
type PenaltyKind string

// PenaltyLow is for flying below the box.
const PenaltyLow PenaltyKind = "low"

// PenaltyKinds are the words a penalty line knows.
var PenaltyKinds = []PenaltyKind{PenaltyLow, "interruption", "out", "time", "other"}

// Penalty is points taken off.
type Penalty struct {
	Kind   PenaltyKind
	Points scoring.Decimal
	Remark string
}

// Official is the total on the printed result, as printed. Maximum is nil
// where it was not typed and no sequence says it.
type Official struct {
	Points  scoring.Decimal
	Maximum *scoring.Decimal
	Typed   bool // the maximum was typed, not taken from the sequence
}

// Percent is 100 x points / maximum, nil where the maximum is not known.
func (o *Official) Percent() *big.Rat {
	if o.Maximum == nil || !o.Maximum.Positive() {
		return nil
	}
	percent := new(big.Rat).Quo(o.Points.Rat(), o.Maximum.Rat())
	return percent.Mul(percent, big.NewRat(100, 1))
}

// Fault is something seen or felt. Figure is 0 for the flight as a whole.
type Fault struct {
	Figure int
	Kind   *FaultKind
	Amount Amount
	On     string // code as typed in the figure's row, "" for the figure
	Felt   bool
	At     *Moment // nil where no place in the video was typed
	Video  string  // the one in which At counts; "" where none was typed
	By     *Coach  // nil: the pilot, or nobody said
	Remark string
	Safety bool
}

// Moment is a place in a video, in seconds from its beginning.
type Moment int

// String prints M:SS, from an hour on H:MM:SS.
func (m Moment) String() string {
	if m < 3600 {
		return fmt.Sprintf("%d:%02d", m/60, m%60)
	}
	return fmt.Sprintf("%d:%02d:%02d", m/3600, m/60%60, m%60)
}

// Unit is what a fault's amount is measured in.
type Unit string

// The units of a fault's amount; NoUnit where nothing was typed.
const (
	NoUnit  Unit = ""
	Degrees Unit = "deg"
	Ratio   Unit = "ratio"
	Span    Unit = "span"
	Count   Unit = "count"
	Points  Unit = "pt"
)

// Amount is a fault's size: Value Units (for Ratio: Value to Second), Times
// over. A typed `3x` alone has no unit.
type Amount struct {
	Unit   Unit
	Value  scoring.Decimal
	Second scoring.Decimal
	Times  int // 1 where not typed
	Text   string
}

// FaultKind says what a kind of fault costs.
type FaultKind struct {
	Name    string
	Unit    Unit
	Per     *Step  // each full step, half for a rest
	At      []Step // from there on, ascending
	Free    *Amount
	Zero    *Amount // expected grade 0.0 from there
	Plain   *scoring.Decimal
	Felt    bool
	Safety  bool
	Next    bool     // costs the next figure the same
	In      []string // groups in which it can show; none: any figure
	Says    string
	Shipped bool
}

// Step is points for an amount.
type Step struct {
	Amount Amount
	Points scoring.Decimal
}

// Review is a look through the video, to the end.
type Review struct {
	By     *Coach // nil where not said
	Videos []string
	Notes  []string
}

// Closed is a safety matter that was put right.
type Closed struct {
	Kind   *FaultKind
	Remark string
	At     Place
}
