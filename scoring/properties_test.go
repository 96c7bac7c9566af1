package scoring_test

import (
	"math/big"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"boxbook/scoring"
)

// The order in which the judges sit changes nothing but the order of their
// own totals.
func TestJudgesOrderDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sheet := drawSheet(t)
		seats := make([]int, sheet.Judges)
		for i := range seats {
			seats[i] = i
		}
		seats = rapid.Permutation(seats).Draw(t, "seats")
		moved := copyOf(sheet)
		for i := range moved.Lines {
			for to, from := range seats {
				moved.Lines[i].Marks[to] = sheet.Lines[i].Marks[from]
			}
		}
		before, after := sheet.Score(), moved.Score()
		sameWorth(t, before, after)
		for to, from := range seats {
			if before.Decided() {
				equalRat(t, before.JudgeTotals[from], after.JudgeTotals[to], "judge total")
			}
			for i := range sheet.Lines {
				equalRat(t, before.Lines[i].Cells[from].Used, after.Lines[i].Cells[to].Used, "filled mark")
			}
		}
	})
}

// sameWorth compares two scores but for what each judge has in them.
func sameWorth(t tester, want, got scoring.Score) {
	t.Helper()
	for i, line := range want.Lines {
		assert.Equal(t, line.Ruling, got.Lines[i].Ruling)
		equalRat(t, line.Mean, got.Lines[i].Mean, "mean")
		equalRat(t, line.Points, got.Lines[i].Points, "line points")
		equalRat(t, line.Lost, got.Lines[i].Lost, "lost")
		equalRat(t, line.Low, got.Lines[i].Low, "line low")
		equalRat(t, line.High, got.Lines[i].High, "line high")
	}
	equalRat(t, want.Raw, got.Raw, "raw")
	equalRat(t, want.Penalty, got.Penalty, "penalty")
	equalRat(t, want.Points, got.Points, "points")
	equalRat(t, want.Percent, got.Percent, "percent")
	equalRat(t, want.Low, got.Low, "low")
	equalRat(t, want.High, got.High, "high")
	assert.Equal(t, want.Maximum, got.Maximum)
	assert.Equal(t, len(want.JudgeTotals), len(got.JudgeTotals))
}

// drawReplaced draws a sheet that has a grade at one place, and the same sheet
// with a hard zero of the given kind there.
func drawReplaced(t *rapid.T, rule scoring.HardZeroRule, kind scoring.MarkKind) (before, after scoring.Sheet, line int) {
	before = drawSheet(t)
	before.Style.HardZero = rule
	line, judge := drawPlace(t, before)
	before.Lines[line].Marks[judge] = drawGrade(t)
	after = copyOf(before)
	after.Lines[line].Marks[judge] = scoring.Mark{Kind: kind}
	return before, after, line
}

// neverRaised checks a line and its flight at both ends; where they are
// decided the ends are the points.
func neverRaised(t tester, before, after scoring.Score, line int) {
	t.Helper()
	notAbove(t, after.Lines[line].Low, before.Lines[line].Low, "low end of the line")
	notAbove(t, after.Lines[line].High, before.Lines[line].High, "high end of the line")
	notAbove(t, after.Low, before.Low, "low end of the flight")
	notAbove(t, after.High, before.High, "high end of the flight")
}

func TestHardZeroNeverRaisesAsGiven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		before, after, line := drawReplaced(t, scoring.AsGiven, scoring.HardZero)
		neverRaised(t, before.Score(), after.Score(), line)
	})
}

// Where the hard zero makes or keeps a majority. The rows are made so: enough
// of the other judges who gave a mark have a hard zero on both sheets.
func TestHardZeroNeverRaisesByMajority(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		before, after, line := drawReplaced(t, scoring.ByMajority, scoring.HardZero)
		marks := after.Lines[line].Marks
		for j := range marks {
			if majorityOf(marks) {
				break
			}
			if marks[j].Kind == scoring.Grade || marks[j].Kind == scoring.PerceptionZero {
				hard := scoring.Mark{Kind: scoring.HardZero}
				marks[j], before.Lines[line].Marks[j] = hard, hard
			}
		}
		scored := after.Score()
		assert.Equal(t, scoring.Zeroed, scored.Lines[line].Ruling)
		neverRaised(t, before.Score(), scored, line)
	})
}

// majorityOf says whether more than half of the marks that were given, AV and
// "-" apart, are hard zeros, or one is confirmed.
func majorityOf(marks []scoring.Mark) bool {
	hard, given := 0, 0
	for _, mark := range marks {
		switch mark.Kind {
		case scoring.ConfirmedHardZero:
			return true
		case scoring.HardZero:
			hard, given = hard+1, given+1
		case scoring.Grade, scoring.PerceptionZero:
			given++
		}
	}
	return 2*hard > given
}

func TestConfirmedHardZeroNeverRaises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rule := rapid.SampledFrom([]scoring.HardZeroRule{scoring.ByMajority, scoring.AsGiven}).Draw(t, "rule")
		before, after, line := drawReplaced(t, rule, scoring.ConfirmedHardZero)
		scored := after.Score()
		equalRat(t, new(big.Rat), scored.Lines[line].Points, "a confirmed hard zero is 0")
		neverRaised(t, before.Score(), scored, line)
	})
}

// A minority's hard zero is filled, so there it can raise: the properties above
// are not about it. [derived].
func TestMinorityHardZeroCanRaise(t *testing.T) {
	low := sheetWith(panelMean, figure(10, "8.0 5.0 8.0")).Score()
	hard := sheetWith(panelMean, figure(10, "8.0 HZ 8.0")).Score()
	assert.Equal(t, "70 80", exactly(low.Points, hard.Points))
}

func TestDoubledKKeepsPercent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sheet := drawDecided(t)
		sheet.Penalties = nil
		doubled := copyOf(sheet)
		for i := range doubled.Lines {
			doubled.Lines[i].K *= 2
		}
		before, after := sheet.Score(), doubled.Score()
		equalRat(t, before.Percent, after.Percent, "percent")
		equalRat(t, new(big.Rat).Add(before.Raw, before.Raw), after.Raw, "raw")
		assert.Equal(t, 2*before.Maximum, after.Maximum)
	})
}

func TestPartsSumToTheTotal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sheet := drawDecided(t)
		score := sheet.Score()
		points, lost := new(big.Rat), new(big.Rat)
		for i, line := range score.Lines {
			equalRat(t, whole(10*sheet.Lines[i].K), new(big.Rat).Add(line.Points, line.Lost), "one line")
			points.Add(points, line.Points)
			lost.Add(lost, line.Lost)
		}
		equalRat(t, score.Raw, points, "the lines' points")
		equalRat(t, whole(score.Maximum), lost.Add(lost, score.Raw), "the losses and the raw score")
		if score.Points.Sign() > 0 {
			equalRat(t, score.Raw, new(big.Rat).Add(score.Points, score.Penalty), "points and penalty")
		}
		if !sheet.Style.DropExtremes {
			judges := new(big.Rat).Quo(sumOf(score.JudgeTotals), whole(sheet.Judges))
			equalRat(t, score.Raw, judges, "the mean of the judges' totals")
		}
	})
}

// The percent of a decided sheet is from 0 to 100, and both ends of any sheet
// are from 0 to its maximum.
func TestPercentWithinBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		score := drawDecided(t).Score()
		notAbove(t, new(big.Rat), score.Percent, "from 0")
		notAbove(t, score.Percent, whole(100), "to 100")
		equalRat(t, score.Points, score.Low, "the low end of a decided sheet")
		equalRat(t, score.Points, score.High, "the high end of a decided sheet")
	})
	rapid.Check(t, func(t *rapid.T) {
		score := drawSheet(t).Score()
		notAbove(t, new(big.Rat), score.Low, "from 0")
		notAbove(t, score.Low, score.High, "in order")
		notAbove(t, score.High, whole(score.Maximum), "to the maximum")
	})
}

// drawOpen draws a sheet with at least one figure that has hard zeros from
// exactly half of the judges who gave a mark and no ruling.
func drawOpen(t *rapid.T) scoring.Sheet {
	sheet := drawSheet(t)
	sheet.Style.HardZero, sheet.Style.Half = scoring.ByMajority, scoring.HalfUndecided
	pairs := rapid.IntRange(1, 3).Draw(t, "pairs")
	sheet.Judges = 2*pairs + rapid.IntRange(0, 2).Draw(t, "without a mark")
	for i := range sheet.Lines {
		sheet.Lines[i] = drawLine(t, sheet.Lines[i].Kind, sheet.Judges)
	}
	marks := make([]scoring.Mark, sheet.Judges)
	for j := range marks {
		switch {
		case j < pairs:
			marks[j] = scoring.Mark{Kind: scoring.HardZero}
		case j < 2*pairs:
			marks[j] = drawGrade(t)
		default:
			marks[j] = scoring.Mark{Kind: scoring.NotSeen}
		}
	}
	line, _ := drawPlace(t, sheet)
	sheet.Lines[line].Marks, sheet.Lines[line].Decision = marks, scoring.NoDecision
	return sheet
}

// The ends of a range are the scores under the two rulings; a row without any
// number, which cannot be filled, is 10 from every judge at the high end.
func TestRangeEndsAreTheTwoRulings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sheet := drawOpen(t)
		open := sheet.Score()
		assert.False(t, open.Decided())
		zero, fill := copyOf(sheet), copyOf(sheet)
		for i, line := range open.Lines {
			if line.Ruling != scoring.Undecided {
				continue
			}
			zero.Lines[i].Decision, fill.Lines[i].Decision = scoring.RuledZero, scoring.RuledFill
			if !scoring.HasNumber(sheet.Lines[i].Marks, sheet.Style) {
				fill.Lines[i].Marks = slices.Repeat([]scoring.Mark{scoring.GradeOf(scoring.TopGrade)}, sheet.Judges)
			}
		}
		low, high := zero.Score(), fill.Score()
		equalRat(t, open.Low, low.Points, "low end")
		equalRat(t, open.High, high.Points, "high end")
		for i, line := range open.Lines {
			equalRat(t, line.Low, low.Lines[i].Points, "low end of a line")
			equalRat(t, line.High, high.Lines[i].Points, "high end of a line")
		}
	})
}

// A panel of fewer than five drops nothing.
func TestSmallPanelDropsNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sheet := drawSheet(t)
		sheet.Judges = rapid.IntRange(1, 4).Draw(t, "few judges")
		for i := range sheet.Lines {
			sheet.Lines[i] = drawLine(t, sheet.Lines[i].Kind, sheet.Judges)
		}
		sheet.Style = dropExtremes
		dropped := sheet.Score()
		sheet.Style = panelMean
		kept := sheet.Score()
		sameWorth(t, kept, dropped)
		assert.Equal(t, exactly(kept.JudgeTotals...), exactly(dropped.JudgeTotals...))
		for _, line := range dropped.Lines {
			assert.False(t, slices.ContainsFunc(line.Cells, func(c scoring.Cell) bool { return c.Dropped }))
		}
	})
}
