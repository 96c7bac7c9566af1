package oracle

import (
	"math/big"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"
)

const sheets = 10_000

// eachSheet hands over generated sheets, the same ones in every run.
func eachSheet(n int, check func(Sheet)) {
	rng := rand.New(rand.NewPCG(2026, 4))
	for range n {
		check(Generate(rng))
	}
}

// Every class has its share, so that a comparison over generated sheets meets
// each rule often; the hard-zero classes, most likely to trip it, have more.
func TestClassShares(t *testing.T) {
	shares := map[string]int{}
	eachSheet(sheets, func(sheet Sheet) {
		for _, class := range Classes(sheet) {
			shares[class]++
		}
	})
	for _, class := range []string{
		ClassMajority, ClassMinority, ClassHalf, ClassConfirmed, ClassAsGiven,
		ClassResolved, ClassIdleResolve, ClassUndecided, ClassEmptyRow,
		ClassZeroGrade, ClassTen, ClassPerception, ClassAverage, ClassNoMark,
		ClassWeighted, ClassPenalty, ClassPenaltyFloor, ClassDropped, ClassSmallPanel,
	} {
		t.Logf("%-30s %5.1f %%", class, 100*float64(shares[class])/sheets)
		holds(t, shares[class] > sheets*5/100, class)
	}
	equal(t, 19, len(shares), "every class is checked", shares)
	for _, class := range []string{ClassMajority, ClassMinority, ClassHalf, ClassConfirmed} {
		holds(t, shares[class] > sheets*15/100, class)
	}
	for _, class := range []string{ClassWeighted, ClassPenalty} {
		holds(t, shares[class] > sheets*45/100 && shares[class] < sheets*55/100, class)
	}
}

// Sizes and settings: all of them occur, and panels of three to five lead.
func TestGeneratedSizesAndSettings(t *testing.T) {
	styles, panels, figures, largest, large := map[Style]int{}, map[int]int{}, map[int]int{}, 0, 0
	eachSheet(sheets, func(sheet Sheet) {
		styles[sheet.Style]++
		panels[sheet.Judges]++
		n := 0
		for _, line := range sheet.Lines {
			largest = max(largest, line.K)
			if line.K > 60 {
				large++
			}
			if !line.Weighted {
				n++
			}
		}
		figures[n]++
	})
	equal(t, 2*3*3*2, len(styles), "styles")
	equal(t, 10, len(panels), "sizes of panel")
	equal(t, 15, len(figures), "numbers of figures")
	equal(t, 0, figures[0], "sheets without a figure")
	holds(t, panels[3]+panels[4]+panels[5] > sheets*55/100, "panels of three to five lead")
	holds(t, largest <= 200, "largest K", largest)
	holds(t, large > 0, "some K above 60")
}

// Grades are mostly from 4.0 to 9.5.
func TestGeneratedMarks(t *testing.T) {
	marks, middle := 0, 0
	eachSheet(sheets/10, func(sheet Sheet) {
		for _, line := range sheet.Lines {
			marks += len(line.Marks)
			for half := 8; half <= 19; half++ {
				middle += count(line.Marks, gradeText(half))
			}
		}
	})
	holds(t, middle > marks*75/100, middle, marks)
	holds(t, middle < marks, middle, marks)
}

func TestGenerateRepeats(t *testing.T) {
	first, second := rand.New(rand.NewPCG(1, 2)), rand.New(rand.NewPCG(1, 2))
	for range 100 {
		holds(t, reflect.DeepEqual(Generate(first), Generate(second)), "same seed, same sheet")
	}
	other := rand.New(rand.NewPCG(1, 3))
	holds(t, !reflect.DeepEqual(Generate(first), Generate(other)), "another seed, another sheet")
}

// What is decided adds up; what is not is a range.
func TestPartsSumToTheWhole(t *testing.T) {
	eachSheet(sheets/4, func(sheet Sheet) {
		result := Score(sheet)
		if result.Raw == nil {
			holds(t, slices.Contains(Classes(sheet), ClassUndecided), sheet)
			holds(t, result.Low.Cmp(result.High) <= 0, sheet)
			holds(t, result.High.Cmp(result.Maximum) <= 0, sheet)
			return
		}
		points, lost := whole(0), whole(0)
		for i, line := range result.Lines {
			full := times(sheet.Lines[i].K, whole(10))
			same(t, full, new(big.Rat).Add(line.Points, line.Lost))
			holds(t, line.Lost.Sign() >= 0, sheet)
			holds(t, line.Points.Sign() >= 0, sheet)
			points.Add(points, line.Points)
			lost.Add(lost, line.Lost)
		}
		same(t, result.Raw, points)
		same(t, result.Maximum, new(big.Rat).Add(points, lost))
		same(t, result.Low, result.Points)
		same(t, result.High, result.Points)
		holds(t, result.Percent.Sign() >= 0, sheet)
		holds(t, result.Percent.Cmp(whole(100)) <= 0, sheet)
	})
}

// Without dropped marks the raw score is the mean of the judges' totals.
func TestRawIsMeanOfJudgeTotals(t *testing.T) {
	checked := 0
	eachSheet(sheets/4, func(sheet Sheet) {
		sheet.Style.DropExtremes = false
		result := Score(sheet)
		if result.Raw != nil {
			same(t, result.Raw, meanOf(result.JudgeTotals))
			checked++
		}
	})
	holds(t, checked > sheets/8, checked)
}

// The judges' order changes no points.
func TestJudgesOrder(t *testing.T) {
	eachSheet(sheets/10, func(sheet Sheet) {
		turned := sheet
		turned.Lines = nil
		for _, line := range sheet.Lines {
			line.Marks = append(append([]string{}, line.Marks[1:]...), line.Marks[0])
			turned.Lines = append(turned.Lines, line)
		}
		before, after := Score(sheet), Score(turned)
		same(t, before.Low, after.Low)
		same(t, before.High, after.High)
	})
}

// The two ends of an undecided flight are what the chief judge's two rulings
// would make of it, where every row has a numeric mark.
func TestRangeIsThatOfTheRulings(t *testing.T) {
	checked := 0
	eachSheet(sheets/4, func(sheet Sheet) {
		before := Score(sheet)
		for _, line := range sheet.Lines {
			if marksGiven(line.Marks) == 0 {
				return
			}
		}
		if before.Raw == nil {
			same(t, before.Low, Score(resolveAll(sheet, before, Zero)).Points)
			same(t, before.High, Score(resolveAll(sheet, before, Fill)).Points)
			checked++
		}
	})
	holds(t, checked > sheets/100, checked)
}

// resolveAll gives every undecided line of a sheet the same ruling.
func resolveAll(sheet Sheet, result Result, ruling string) Sheet {
	sheet.Lines = append([]Line{}, sheet.Lines...)
	for i := range sheet.Lines {
		if result.Lines[i].Ruling == Undecided {
			sheet.Lines[i].Resolve = ruling
		}
	}
	return sheet
}

// Doubling every K keeps the percent of a flight without penalties.
func TestDoubledK(t *testing.T) {
	eachSheet(sheets/10, func(sheet Sheet) {
		sheet.Penalties = nil
		before := Score(sheet)
		doubled := sheet
		doubled.Lines = append([]Line{}, sheet.Lines...)
		for i := range doubled.Lines {
			doubled.Lines[i].K *= 2
		}
		after := Score(doubled)
		same(t, times(2, before.Low), after.Low)
		if before.Percent != nil {
			same(t, before.Percent, after.Percent)
		}
	})
}
