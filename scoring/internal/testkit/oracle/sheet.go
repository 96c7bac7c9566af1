// Package oracle scores a flight the slow and plain way, so that the scoring
// package has something to be checked against. It reads like the rule text,
// counts in exact rationals throughout, rounds nothing but a filled mark where
// the style says so, and shares no code with what it checks. Only tests
// import it.
package oracle

import (
	"fmt"
	"math/big"
)

// Marks that are not grades. A grade is written in half points, "0.0" to "10.0".
const (
	HardZero          = "HZ"  // a matter of fact, subject to the panel rule
	ConfirmedHardZero = "CHZ" // confirmed by the chief judge: 0 from every judge
	PerceptionZero    = "PZ"  // an ordinary grade of 0
	Average           = "AV"  // the judge saw no figure: to be filled
	NoMark            = "-"   // nothing on the sheet: to be filled
)

// Words of a Style and of a Line's Resolve.
const (
	Majority  = "majority"
	AsGiven   = "as-given"
	Undecided = "undecided" // also a ruling
	Zero      = "zero"
	Fill      = "fill"
)

// Rulings on a line, beside Undecided and "" (the marks stand as given).
const (
	Filled   = "filled"   // at least one mark of the row was filled
	Zeroed   = "zeroed"   // 0 from every judge, by the chief judge or by the panel rule
	Resolved = "resolved" // undecided by the style, decided by Resolve
)

// Sheet is one flight as judged: every line holds one mark per judge.
type Sheet struct {
	Judges    int
	Lines     []Line
	Style     Style
	Penalties []*big.Rat // points, not negative
}

// Line is one row of marks: a figure, or a weighted line (positioning, harmony).
type Line struct {
	K        int      // 1 or more
	Weighted bool     // a weighted line has no HZ, CHZ or PZ
	Marks    []string // one per judge: "8.0", "0.0", "HZ", "CHZ", "PZ", "AV" or "-"
	Resolve  string   // the chief judge's ruling: "", "zero" or "fill"
}

// Style holds the settings of a rule style.
type Style struct {
	HardZero     string // "majority" or "as-given"
	Half         string // exactly half of the judges gave HZ: "undecided", "zero" or "fill"
	FillRounding string // of a filled mark, half up: "none", "0.1" or "0.5"
	DropExtremes bool   // one highest and one lowest of each line, panels of 5 or more
}

// Result is what a sheet is worth, in points and exact. Where any line is
// undecided, JudgeTotals, Raw, Points and Percent are nil and only the range
// from Low to High is known; otherwise Low and High equal Points.
type Result struct {
	Lines       []LineResult
	JudgeTotals []*big.Rat // per judge: sum of K x filled mark, dropped marks included
	Raw         *big.Rat   // sum of the lines' points
	Penalty     *big.Rat   // sum of the penalties
	Points      *big.Rat   // raw - penalty, never below 0
	Maximum     *big.Rat   // 10 x sum of K
	Percent     *big.Rat   // 100 x points / maximum; nil also where the maximum is 0
	Low, High   *big.Rat   // range of Points
}

// LineResult is what one line is worth. Where the ruling is "undecided", Filled,
// Mean, Points and Lost are nil and only the range from Low to High is known;
// otherwise Low and High equal Points.
type LineResult struct {
	Ruling    string
	Filled    []*big.Rat // the number that stands for each judge's mark
	Used      []*big.Rat // the same; an entry is nil where dropped, every entry where undecided
	Mean      *big.Rat   // mean of the used marks
	Points    *big.Rat   // K x mean
	Lost      *big.Rat   // 10 x K - points
	Low, High *big.Rat   // range of Points
}

// mustBeValid panics on a sheet that no ledger could give: an oracle must not
// guess what was meant.
func (s Sheet) mustBeValid() {
	must(s.Judges >= 1, "a panel of %d judges", s.Judges)
	s.Style.mustBeValid()
	for _, line := range s.Lines {
		line.mustBeValid(s.Judges)
	}
	for _, penalty := range s.Penalties {
		must(penalty.Sign() >= 0, "a negative penalty %s", penalty)
	}
}

func (s Style) mustBeValid() {
	must(oneOf(s.HardZero, Majority, AsGiven), "hard-zero %q", s.HardZero)
	must(oneOf(s.Half, Undecided, Zero, Fill), "half %q", s.Half)
	must(oneOf(s.FillRounding, "none", "0.1", "0.5"), "fill-rounding %q", s.FillRounding)
}

func (l Line) mustBeValid(judges int) {
	must(l.K >= 1, "K %d", l.K)
	must(len(l.Marks) == judges, "%d marks from %d judges", len(l.Marks), judges)
	must(oneOf(l.Resolve, "", Zero, Fill), "resolve %q", l.Resolve)
	for _, mark := range l.Marks {
		factual := oneOf(mark, HardZero, ConfirmedHardZero, PerceptionZero)
		must(!l.Weighted || !factual, "%s on a weighted line", mark)
		if !factual && !oneOf(mark, Average, NoMark) {
			must(isGrade(mark), "mark %q", mark)
		}
	}
}

// isGrade says whether a mark is a grade from 0 to 10 in half points.
func isGrade(mark string) bool {
	return oneOf(mark,
		"0.0", "0.5", "1.0", "1.5", "2.0", "2.5", "3.0", "3.5", "4.0", "4.5",
		"5.0", "5.5", "6.0", "6.5", "7.0", "7.5", "8.0", "8.5", "9.0", "9.5", "10.0")
}

func oneOf(word string, words ...string) bool {
	for _, w := range words {
		if word == w {
			return true
		}
	}
	return false
}

func must(ok bool, format string, args ...any) {
	if !ok {
		panic("oracle: " + fmt.Sprintf(format, args...))
	}
}
