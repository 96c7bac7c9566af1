package oracle

import "math/big"

// Classes of sheets. The first three are those of a style that looks at the
// majority; a row with a confirmed hard zero belongs to none of them.
const (
	ClassMajority     = "majority hard zero"          // from more than half of the judges who gave a mark
	ClassMinority     = "minority hard zero"          // from fewer
	ClassHalf         = "exactly half hard zeros"     // from exactly half
	ClassConfirmed    = "confirmed hard zero"         // CHZ in a row, any style
	ClassAsGiven      = "hard zero as given"          // HZ where each counts as given
	ClassResolved     = "resolve that decides"        // resolve on a row that is undecided without it
	ClassIdleResolve  = "resolve without effect"      // resolve on any other row, or fill on an empty one
	ClassUndecided    = "undecided"                   // a row that stays undecided
	ClassEmptyRow     = "no numeric mark"             // a row of AV and - only
	ClassZeroGrade    = "grade 0.0"                   // an ordinary 0
	ClassTen          = "grade 10.0"                  // the highest grade
	ClassPerception   = "perception zero"             // PZ
	ClassAverage      = "AV"                          // AV
	ClassNoMark       = "no mark"                     // -
	ClassWeighted     = "weighted line"               // positioning or harmony
	ClassPenalty      = "penalty"                     // at least one
	ClassPenaltyFloor = "penalty above the raw score" // points held at 0, certainly or at the low end
	ClassDropped      = "extremes dropped"            // drop-extremes with 5 judges or more
	ClassSmallPanel   = "too few judges to drop"      // drop-extremes with fewer
)

// Classes gives the classes that a sheet belongs to, each once, in the order of
// the constants above.
func Classes(sheet Sheet) []string {
	checks := []struct {
		class string
		holds bool
	}{
		{ClassMajority, anyLine(sheet, func(l Line) bool { return panelRule(l, sheet.Style) && hardZeroShare(l) > 0 })},
		{ClassMinority, anyLine(sheet, func(l Line) bool { return panelRule(l, sheet.Style) && hardZeroShare(l) < 0 })},
		{ClassHalf, anyLine(sheet, func(l Line) bool { return panelRule(l, sheet.Style) && hardZeroShare(l) == 0 })},
		{ClassConfirmed, anyMark(sheet, ConfirmedHardZero)},
		{ClassAsGiven, sheet.Style.HardZero == AsGiven && anyMark(sheet, HardZero)},
		{ClassResolved, anyRuling(sheet, Resolved)},
		{ClassIdleResolve, idleResolve(sheet)},
		{ClassUndecided, anyRuling(sheet, Undecided)},
		{ClassEmptyRow, anyLine(sheet, func(l Line) bool { return marksGiven(l.Marks) == 0 })},
		{ClassZeroGrade, anyMark(sheet, gradeText(0))},
		{ClassTen, anyMark(sheet, gradeText(20))},
		{ClassPerception, anyMark(sheet, PerceptionZero)},
		{ClassAverage, anyMark(sheet, Average)},
		{ClassNoMark, anyMark(sheet, NoMark)},
		{ClassWeighted, anyLine(sheet, func(l Line) bool { return l.Weighted })},
		{ClassPenalty, len(sheet.Penalties) > 0},
		{ClassPenaltyFloor, penaltyAboveRaw(sheet)},
		{ClassDropped, sheet.Style.DropExtremes && sheet.Judges >= 5},
		{ClassSmallPanel, sheet.Style.DropExtremes && sheet.Judges < 5},
	}
	var classes []string
	for _, check := range checks {
		if check.holds {
			classes = append(classes, check.class)
		}
	}
	return classes
}

// panelRule says whether the panel rule has hard zeros to look at in a row.
func panelRule(line Line, style Style) bool {
	return style.HardZero == Majority && count(line.Marks, HardZero) > 0 &&
		count(line.Marks, ConfirmedHardZero) == 0
}

// hardZeroShare is above 0 where more than half of the judges who gave a mark
// gave a hard zero, below 0 where fewer did, 0 at exactly half.
func hardZeroShare(line Line) int {
	return 2*count(line.Marks, HardZero) - marksGiven(line.Marks)
}

func anyLine(sheet Sheet, holds func(Line) bool) bool {
	for _, line := range sheet.Lines {
		if holds(line) {
			return true
		}
	}
	return false
}

func anyMark(sheet Sheet, mark string) bool {
	return anyLine(sheet, func(l Line) bool { return count(l.Marks, mark) > 0 })
}

func anyRuling(sheet Sheet, ruling string) bool {
	return anyLine(sheet, func(l Line) bool { return scoreLine(l, sheet.Style).Ruling == ruling })
}

func idleResolve(sheet Sheet) bool {
	return anyLine(sheet, func(l Line) bool {
		return l.Resolve != "" && scoreLine(l, sheet.Style).Ruling != Resolved
	})
}

func penaltyAboveRaw(sheet Sheet) bool {
	var lows []*big.Rat
	for _, line := range sheet.Lines {
		lows = append(lows, scoreLine(line, sheet.Style).Low)
	}
	return sum(sheet.Penalties).Cmp(sum(lows)) > 0
}
