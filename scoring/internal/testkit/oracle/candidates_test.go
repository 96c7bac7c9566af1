package oracle

import (
	"math/big"
	"testing"
)

// twoFigures is a sheet of two judges: (7+8)/2 x 10 + (6+6.5)/2 x 20 = 200.
// All values below: [derived].
func twoFigures() Sheet {
	return Sheet{Judges: 2, Style: panelMean, Lines: []Line{figure(10, "7.0 8.0"), figure(20, "6.0 6.5")}}
}

func pointsOf(t *testing.T, sheet Sheet, class, what string) string {
	t.Helper()
	for _, candidate := range Candidates(sheet, class, 2) {
		if candidate.What == what {
			return candidate.Points.FloatString(2)
		}
	}
	return "none"
}

func TestCandidates(t *testing.T) {
	for _, c := range []struct{ class, what, points string }{
		{SlipPenalty, "penalty 5", "195.00"},
		{SlipPenalty, "penalty 7", "none"},
		{SlipRows, "rows 0 1 of 0", "205.00"},   // 7 and 6 change over: -5 and +10
		{SlipRows, "rows 0 1 of 1", "207.50"},   // 8 and 6.5: -7.5 and +15
		{SlipRows, "rows 0 1 of all", "212.50"}, // 62.5 + 150
		{SlipMark, "mark 1 0 HZ", "none"},       // one of two: undecided
		{SlipMark, "mark 1 0 AV", "205.00"},
		{SlipJudge, "judge 0", "210.00"},
		{SlipFigure, "figure 1", "75.00"},
		{SlipZero, "zero 1", "none"},
		{SlipK, "k 1 12", "150.00"},
		{SlipTwoK, "two k 0 1", "212.50"}, // 150 + 62.5
		{SlipMarks, "marks 0 +1 and 3 -1", "197.50"},
		{SlipMarks, "marks 0 +1 and 1 +1", "205.00"},
	} {
		equal(t, c.points, pointsOf(t, twoFigures(), c.class, c.what), c.what)
	}
	equal(t, "none", pointsOf(t, twoFigures(), SlipTotal, "total"), "020.00 is not typed for 200.00")
	equal(t, "200.50", pointsOf(t, Sheet{Judges: 1, Style: panelMean, Lines: []Line{figure(41, "5.0")}}, SlipTotal, "total"), "205.00")
	one := Sheet{Judges: 3, Style: panelMean, Lines: []Line{figure(10, "7.0 8.0 6.0"), figure(20, "6.0 HZ 7.0")}}
	equal(t, "70.00", pointsOf(t, one, SlipZero, "zero 1"), "one of three was filled")
	equal(t, "none", pointsOf(t, one, SlipFigure, "figure 1"), "that is a confirmed zero")
	five := Sheet{Judges: 5, Style: panelMean, Lines: []Line{figure(10, "7.0 7.0 7.0 7.0 7.0")}}
	equal(t, "none", pointsOf(t, five, SlipPenalty, "penalty 7"), "no multiple of 5")
	equal(t, 14, len(Candidates(five, SlipPenalty, 2)), "5 to the whole 70")
	equal(t, 1, len(Candidates(Sheet{Judges: 1, Style: panelMean, Lines: []Line{figure(10, "7.0"), figure(20, "6.0")}}, SlipRows, 2)), "one sheet is all sheets")
	weightedBelow := Sheet{Judges: 2, Style: panelMean, Lines: []Line{figure(10, "7.0 8.0"), weighted(20, "6.0 6.5")}}
	equal(t, 0, len(Candidates(weightedBelow, SlipRows, 2)), "a weighted line is no figure")
}

func TestRulesCandidates(t *testing.T) {
	sheet := twoFigures()
	equal(t, 0, len(rulesThatChange(sheet)))
	sheet.Penalties = []*big.Rat{whole(20), whole(30)}
	// 150 own: 200, 100 (both penalties, and twice), 175 (halved); 20 alone 170, 130, 160; 30 alone 180, 120, 165.
	equal(t, 9, len(rulesThatChange(sheet)))
}

// rulesThatChange are the totals that other rules give and the own do not.
func rulesThatChange(sheet Sheet) map[string]bool {
	totals := map[string]bool{}
	for _, candidate := range Candidates(sheet, SlipRules, 2) {
		if candidate.Points.Cmp(Score(sheet).Points) != 0 {
			totals[candidate.Points.FloatString(2)] = true
		}
	}
	return totals
}

func TestFits(t *testing.T) {
	half := big.NewRat(2001, 2) // 1000.5
	holds(t, Fits(half, 1000, 0))
	equal(t, true, Fits(half, 1001, 0))
	equal(t, false, Fits(big.NewRat(2003, 2), 1001, 0), "neither half up nor half to even")
	equal(t, true, Fits(big.NewRat(2003, 2), 1002, 0))
	equal(t, false, Fits(half, 1002, 0))
}

func TestChance(t *testing.T) {
	// 190 printed without decimals: 190 to 210 but for 200, of which 195 and 190
	// are penalties of 5 and 10.
	reached, of := Chance(twoFigures(), SlipPenalty, 190, 0, false)
	equal(t, 2, reached)
	equal(t, 20, of)
	// Rows: 205, 207.5 (prints as 208) of the same.
	reached, of = Chance(twoFigures(), SlipRows, 190, 0, false)
	equal(t, 2, reached)
	equal(t, 20, of)
	// Above the maximum of 300 nothing is printed: 0 to 300 but for 200.
	_, of = Chance(twoFigures(), SlipRows, 0, 0, false)
	equal(t, 300, of)
}
