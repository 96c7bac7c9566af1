package scoring

import (
	"math/big"
	"slices"
)

// Printed is what the printed result says of one flight, with the names that
// its explanations need.
type Printed struct {
	// Points is the printed total, with the decimals that were typed.
	Points Decimal
	// Maximum is the printed maximum, nil where none was typed. One of 100 beside
	// another computed maximum makes the points a percent of that.
	Maximum *Decimal
	// KnownK says of which lines the form prints the sum of K that the sheet has.
	KnownK KnownK
	// JudgeTotals are the printed totals of the judges in the panel's order,
	// penalties not yet deducted; nil where none were typed.
	JudgeTotals []Decimal
	// Missing names the judges whose sheets are not to hand; they have no
	// column in the sheet.
	Missing []string
	// Judges names the columns of the sheet.
	Judges []string
	// Numbers are the figure numbers of the sheet's figure lines, in order; nil
	// means 1, 2, 3 ...
	Numbers []int
	// Field are the printed totals of the field, as far as they are to hand.
	Field []Decimal
}

// KnownK says of which lines the sum of K is printed, and is that of the sheet: one K
// alone cannot be mistyped there.
type KnownK int

// The sums of K that a form may print.
const (
	NoKnownK    KnownK = iota
	FiguresK           // of the figures
	EveryLinesK        // of the figures and the weighted lines
)

// ExplanationKind says where an explanation looks for the slip.
type ExplanationKind string

const (
	// KindSheet: a sheet is not to hand, so nothing can disagree.
	KindSheet ExplanationKind = "sheet"
	// KindRules: another setting of the rule style, a line or a penalty
	// counted otherwise.
	KindRules ExplanationKind = "rules"
	// KindPenalty: a penalty deducted that the sheet does not have.
	KindPenalty ExplanationKind = "penalty"
	// KindZero: a hard zero of some judges confirmed, so that the figure is zero.
	KindZero ExplanationKind = "zero"
	// KindTotal: the printed total itself mistyped.
	KindTotal ExplanationKind = "total"
	// KindMark: one mark misread.
	KindMark ExplanationKind = "mark"
	// KindJudge: one judge's sheet left out of the mean.
	KindJudge ExplanationKind = "judge"
	// KindFigure: one figure left out of the sum.
	KindFigure ExplanationKind = "figure"
	// KindK: the K of one line mistyped.
	KindK ExplanationKind = "k"
	// KindSwappedK: the K of two neighbouring figures, each typed for the other.
	KindSwappedK ExplanationKind = "k-swapped"
	// KindRows: the rows of two neighbouring figures swapped.
	KindRows ExplanationKind = "rows"
	// KindMarks: two marks misread, each by half a point.
	KindMarks ExplanationKind = "marks"
)

// Reconciliation is a printed total held against the arithmetic. It changes
// nothing: it says whether they agree and what would explain it if not.
type Reconciliation struct {
	// Agrees: the own total, rounded to the decimals typed, is the printed one;
	// with an undecided line, one of its two ends is; with another maximum, the
	// percents agree. With a missing sheet it is false and says nothing.
	Agrees bool
	// Difference is printed minus own points; nil with an undecided line, a
	// missing sheet or another maximum.
	Difference *big.Rat
	// MaximumDiffers: the typed maximum is not the computed one; percents were
	// compared and, unless the printed points are a percent, nothing was searched but
	// a K that gives the typed maximum as well.
	// PercentDifference is then printed minus own percent, nil with an undecided
	// line or a missing sheet.
	MaximumDiffers    bool
	PercentDifference *big.Rat
	// Percent: the printed points are a percent of the computed maximum. Within is by
	// how many points of that its rounding may be out, either way; nil where it is none.
	Percent bool
	Within  *big.Rat
	// Supposed is the comparison, with its search, as it would be were the printed
	// maximum alone a slip for the computed one: where the maxima and the percents
	// differ, no sheet is missing, no K alone gives both as printed, and the printed points
	// are not a percent.
	Supposed *Reconciliation
	// Undecided: a line has no value. The printed total is compared with the
	// flight's two ends, Score.Low and Score.High.
	Undecided             bool
	AgreesLow, AgreesHigh bool
	// Judges compares the typed totals of the judges, in the panel's order; nil
	// where none were typed.
	Judges []JudgeDifference
	// FromJudge: by what one judge's printed total differs from the marks, and no other's
	// does, the printed points differ from the own ones: all of it lies in that sheet.
	FromJudge bool
	// OfTotals: the printed points, which are not the own ones, are the mean of the judges'
	// printed totals, less the penalties and a further one of OfTotalsLess, 0 for none.
	OfTotals     bool
	OfTotalsLess int64
	// MissingTotal is what the missing sheets together must have come to, nil
	// where no sheet is missing or it cannot be said. MissingOutside: that is
	// below 0 or above the maximum. MissingUneven: it is no multiple of one half
	// within the printed precision, so it holds a filled mark or something is
	// wrong. MissingRough: marks filled without that sheet make it a rough value.
	// MissingWithin is how far it may be out, give or take, by the precision that
	// was typed, and MissingMost the highest that the sheets can come to.
	MissingTotal                                *big.Rat
	MissingOutside, MissingUneven, MissingRough bool
	MissingWithin                               *big.Rat
	MissingMost                                 int64
	// MissingUnknown says why nothing can be said of missing sheets; "" where it
	// can.
	MissingUnknown MissingUnknown
	// Explanations are what would give the printed total, the most plausible
	// first; empty where the totals agree.
	Explanations []Explanation
	// Fits counts the marks any one of which would explain the total, misread;
	// where only two marks together do (KindMarks), it counts the pairs. Those that
	// go against typed totals of the judges do not fit.
	Fits int
	// Coarse: printed with fewer than two decimals, so that chance alone often
	// fits.
	Coarse bool
	// Chances say of each class among the explanations, in their order, how often
	// chance alone would be explained so; nil where a line is undecided, since the
	// flight has two totals then.
	Chances []Chance
}

// Chance says how often a class of explanations would fit a total that another
// cause altogether has led to, measured on the sheet at hand: Of totals could be
// printed and are not the own one, none of them farther from it than the printed
// one is, either way; Reached of them some candidate of the class gives.
type Chance struct {
	Kind        ExplanationKind
	Reached, Of int64
}

// MissingUnknown is a reason why nothing can be said of missing sheets.
type MissingUnknown string

// The reasons: the printed maximum is another, a line is undecided, extremes are
// dropped, a total of 0 may hide a larger penalty.
const (
	UnknownMaximum   MissingUnknown = "maximum"
	UnknownUndecided MissingUnknown = "undecided"
	UnknownExtremes  MissingUnknown = "extremes"
	UnknownPenalty   MissingUnknown = "penalty"
)

// JudgeDifference compares one judge's printed total with what the marks come to: Own
// as they count, filled or zeroed by the panel, nil while a line is undecided, and
// Typed as they stand on the sheet, zeros as 0 and what is missing as nothing. It
// agrees with either.
type JudgeDifference struct {
	Judge   string
	Printed Decimal
	Own     *big.Rat
	Typed   *big.Rat
	Agrees  bool
}

// Explanation is one line of candidates: a change that gives the printed
// total, or several of one figure and step.
type Explanation struct {
	Kind ExplanationKind
	// Line and Figure tell the line of kinds mark, k, k-swapped, rows and marks (the
	// first of two); Figure is its number, 0 for a weighted line and for other kinds.
	// Second is the other figure's number (kind k-swapped).
	Line           LineKind
	Figure, Second int
	// Step is by how many half points a grade would be higher (kind mark and
	// marks, the first of two); 0 where either mark is not a grade. Where steps
	// next to each other fit alike, Step is the smallest and Last the largest,
	// else Last is Step. SecondStep is that of the second of two marks.
	Step, Last, SecondStep int
	// Cells are the marks. Kind mark: any one of them alone. Kind marks: one of
	// each of two lines, or any two where all are of one line. Kind rows: the two
	// marks of any one judge, or where All is set those of all judges together;
	// of equal marks nothing is moved.
	Cells []CellChange
	All   bool
	// Judge is the sheet left out (kind judge).
	Judge string
	// K is what K would be, WasK what the sheet has (kinds k and k-swapped).
	K, WasK int
	// Style is the changed rule style and Setting what was changed of it, Without
	// the lines left out and Penalty the whole penalty deducted (kind rules, one
	// of the three). Deducted says how one of the penalties, Part, or all of them
	// were counted to come to that.
	Style    *Style
	Setting  Setting
	Without  []LineKind
	Penalty  *big.Rat
	Deducted Deducted
	Part     int // which of the sheet's penalties, from 1; 0 for all of them
	// Total is what the marks come to, as it would be printed, Mistyped how the
	// printed total came of it, and InField says that the field has it (kind total).
	Total    Decimal
	Mistyped Mistyped
	InField  bool
	// Unlikely: every mark that would do lies far from what the other judges gave
	// (kind mark), or AgainstSum: the sum of K is that of the form (kind k), and neither a
	// typed maximum nor the judges' typed totals say otherwise.
	Unlikely, AgainstSum bool
	// Extra are the points of a penalty that the sheet does not have (kind
	// penalty). PerJudge is the penalty that comes to it once for each judge, 0
	// where none does. OnSheets: each judge's typed total has it deducted (a penalty
	// counted otherwise, of kind rules, too).
	Extra, PerJudge int64
	OnSheets        bool
	// Rulings are the rulings assumed for undecided lines, one for each line of
	// the sheet; nil where none is needed.
	Rulings []Decision
	// Contradicts: judges' totals were typed and this does not give them all.
	Contradicts bool
}

// Setting is a setting of a rule style, by its word in a ledger.
type Setting string

// The settings of a rule style.
const (
	SettingHardZero     Setting = "hard-zero"
	SettingHalf         Setting = "half"
	SettingFillRounding Setting = "fill-rounding"
	SettingDropExtremes Setting = "drop-extremes"
)

// Deducted says how a penalty may have been counted wrongly.
type Deducted string

// The ways to count a penalty wrongly.
const (
	DeductedNot     Deducted = "not"        // not at all
	DeductedTwice   Deducted = "twice"      // two times
	DeductedByJudge Deducted = "each-judge" // once for each judge
	DeductedDivided Deducted = "divided"    // divided by the number of judges
)

// CellChange is one mark as the sheet has it and as it would have to be.
type CellChange struct {
	Judge      string
	Line       LineKind
	Figure     int
	Was, Would Mark
}

// Reconcile compares a printed total with the score of a sheet and, where they
// disagree, searches for what would explain the difference to the precision
// typed: a missing sheet, a penalty that the sheet does not have, another
// setting of the rules, a hard zero confirmed, the total itself mistyped, one mark misread, a sheet or a
// figure left out, a K mistyped, two K swapped, rows swapped, and only where none of these is found, two marks misread by half a
// point each. The explanations stand in this order, a mark far from
// what the other judges gave behind all others. Where judges' totals were typed, marks
// are searched on the sheets alone that differ in either reading. Marks of one row swapped
// between judges change no mean and are not searched.
//
// A printed percent is searched within what its rounding may hide.
//
// score is sheet.Score(). Nothing that is handed in is changed.
func Reconcile(sheet Sheet, score Score, printed Printed) Reconciliation {
	out := Compare(sheet, score, printed)
	switch {
	case len(printed.Missing) > 0:
		return out
	case out.MaximumDiffers && !out.Agrees && !out.Percent && out.explainMaximum(sheet, score, printed):
		return out
	case out.MaximumDiffers && !out.Agrees && supposable(score, printed):
		printed.Maximum = nil
		supposed := Reconcile(sheet, score, printed)
		out.Supposed = &supposed
		return out
	case out.MaximumDiffers && !out.Percent:
		return out
	}
	if !out.Agrees && !sheet.flownAgain() {
		out.Explanations, out.Fits = explain(sheet, score, printed)
		if !out.Undecided {
			search := newSearch(sheet, score, printed)
			out.Chances = search.chances(out.Explanations)
		}
	}
	return out
}

// Compare is Reconcile without any search for what would explain a difference.
func Compare(sheet Sheet, score Score, printed Printed) Reconciliation {
	out := Reconciliation{
		Undecided:      !score.Decided(),
		MaximumDiffers: printed.Maximum != nil && printed.Maximum.Rat().Cmp(big.NewRat(int64(score.Maximum), 1)) != 0,
		Judges:         judgeDifferences(sheet, score.JudgeTotals, printed),
		Coarse:         printed.Points.Places < 2,
	}
	if to := targetOf(score, printed); to.percent {
		out.Percent, out.Within = true, to.pointsOf(big.NewRat(1, 2*pow10(printed.Points.Places)), score.Maximum)
	}
	switch {
	case len(printed.Missing) > 0:
		out.missing(sheet, score, printed)
	case out.MaximumDiffers:
		out.comparePercents(score, printed)
	default:
		out.compare(score, printed.Points)
		if out.Difference != nil && !out.Agrees {
			out.FromJudge, out.OfTotals = out.fromJudge(score, printed.Points), ofTotals(score, printed)
			if !out.FromJudge && !out.OfTotals {
				out.OfTotalsLess = lessThanTotals(score, printed)
				out.OfTotals = out.OfTotalsLess > 0
			}
		}
	}
	return out
}

// IsPercent reports whether a printed maximum makes its points a percent.
func IsPercent(maximum Decimal) bool { return maximum.Rat().Cmp(big.NewRat(100, 1)) == 0 }

// supposable reports whether the printed points may be out of the computed maximum.
func supposable(score Score, printed Printed) bool {
	return !IsPercent(*printed.Maximum) && printed.Points.Rat().Cmp(big.NewRat(int64(score.Maximum), 1)) <= 0
}

// explain runs the searches, once for a decided sheet and once for each end of
// an undecided one.
func explain(sheet Sheet, score Score, printed Printed) ([]Explanation, int) {
	var found []candidate
	searches := newSearches(sheet, score, printed)
	for _, s := range searches {
		found = append(found, s.unknownPenalty()...)
		found = append(found, s.rules()...)
		found = append(found, s.confirmedZeros()...)
		found = append(found, s.mistypedTotal()...)
		found = append(found, s.oneMark()...)
		found = append(found, s.oneSheet()...)
		found = append(found, s.leftOutFigures()...)
		found = append(found, s.oneK()...)
		found = append(found, s.swappedK()...)
		found = append(found, s.swappedRows()...)
	}
	found = append(found, mixedRulings(sheet, score, printed)...)
	if len(found) == 0 {
		for _, s := range searches {
			found = append(found, s.twoMarks()...)
		}
	}
	arrange(found)
	return finished(found, sheet, printed)
}

// finished makes explanations of the candidates and counts what fits. Both ends
// of an undecided sheet may be explained alike: the same is said once.
func finished(found []candidate, sheet Sheet, printed Printed) ([]Explanation, int) {
	explanations := make([]Explanation, 0, len(found))
	kept := found[:0]
	for _, c := range found {
		e := c.explanation(sheet, printed)
		if slices.ContainsFunc(explanations, e.same) {
			continue
		}
		kept, explanations = append(kept, c), append(explanations, e)
	}
	return explanations, fits(kept)
}
