package oracle

import (
	"fmt"
	"math/big"
	"math/rand/v2"
)

// panelSizes holds each size of panel as often as it is to be drawn: contests
// mostly have three to five judges.
var panelSizes = []int{1, 2, 3, 3, 3, 3, 4, 4, 4, 4, 5, 5, 5, 5, 5, 6, 7, 8, 9, 10}

// Generate gives a realistic sheet: 1 to 10 judges, 1 to 15 figures, then
// positioning and harmony on some, any style. Rows that the rules treat apart
// (see Classes) are far more frequent than in life.
func Generate(rng *rand.Rand) Sheet {
	sheet := Sheet{Judges: pick(rng, panelSizes), Style: generateStyle(rng)}
	figures := 1 + rng.IntN(15)
	habit := generateHabit(rng)
	for range figures {
		sheet.Lines = append(sheet.Lines, Line{K: generateK(rng), Marks: habit.row(rng, sheet.Judges, true)})
	}
	plantHardZeros(rng, sheet.Lines)
	for range pick(rng, []int{0, 0, 0, 1, 1, 2}) {
		row := habit.row(rng, sheet.Judges, false)
		sheet.Lines = append(sheet.Lines, Line{K: generateK(rng), Weighted: true, Marks: row})
	}
	if chance(rng, 10) {
		emptyRow(rng, pick(rng, sheet.Lines).Marks)
	}
	addResolves(rng, sheet.Lines)
	sheet.Penalties = generatePenalties(rng)
	return sheet
}

func generateStyle(rng *rand.Rand) Style {
	return Style{
		HardZero:     pick(rng, []string{Majority, Majority, Majority, AsGiven}),
		Half:         pick(rng, []string{Undecided, Undecided, Zero, Fill}),
		FillRounding: pick(rng, []string{"none", "none", "0.1", "0.5"}),
		DropExtremes: chance(rng, 50),
	}
}

// generateK gives a figure's K: 1 to 60, seldom up to 200.
func generateK(rng *rand.Rand) int {
	if chance(rng, 3) {
		return 61 + rng.IntN(140)
	}
	return 1 + rng.IntN(60)
}

// habit says how often, in percent of its marks, a sheet has those that are
// neither HZ nor CHZ nor a grade from the middle of the scale.
type habit struct {
	average, noMark, perceptionZero, zero, ten int
}

func generateHabit(rng *rand.Rand) habit {
	return habit{
		average:        pick(rng, []int{0, 1, 2, 10}),
		noMark:         pick(rng, []int{0, 0, 1, 5}),
		perceptionZero: pick(rng, []int{0, 0, 1, 4}),
		zero:           pick(rng, []int{0, 0, 1, 4}),
		ten:            pick(rng, []int{0, 1, 2, 6}),
	}
}

// row gives a row without hard zeros: the judges agree on about how well the
// figure was flown.
func (h habit) row(rng *rand.Rand, judges int, figure bool) []string {
	quality := generateQuality(rng)
	marks := make([]string, judges)
	for i := range marks {
		marks[i] = grade(rng, quality)
		switch {
		case chance(rng, h.average):
			marks[i] = Average
		case chance(rng, h.noMark):
			marks[i] = NoMark
		case figure && chance(rng, h.perceptionZero):
			marks[i] = PerceptionZero
		case chance(rng, h.zero):
			marks[i] = gradeText(0)
		case chance(rng, h.ten):
			marks[i] = gradeText(20)
		}
	}
	return marks
}

// generateQuality gives what a figure deserves, in half points: 4.0 to 9.5.
func generateQuality(rng *rand.Rand) int { return 8 + rng.IntN(12) }

// grade gives a grade of at most one point beside what the figure deserves,
// from 4.0 to 9.5.
func grade(rng *rand.Rand, quality int) string {
	return gradeText(min(max(quality-2+rng.IntN(5), 8), 19))
}

// plantHardZeros lays rows with hard zeros over some of the figures, no two of
// them over the same one.
func plantHardZeros(rng *rand.Rand, figures []Line) {
	plants := []func(*rand.Rand, []string){majorityRow, minorityRow, halfRow, confirmedRow}
	shuffle(rng, plants)
	free := rng.Perm(len(figures))
	for _, plant := range plants {
		if len(free) > 0 && chance(rng, 35) {
			plant(rng, figures[free[0]].Marks)
			free = free[1:]
		}
	}
}

// majorityRow: hard zeros from more than half of the judges who gave a mark.
func majorityRow(rng *rand.Rand, row []string) {
	given := len(row)
	if chance(rng, 30) {
		given = 1 + rng.IntN(len(row))
	}
	fewest := given/2 + 1
	hardZeroRow(rng, row, fewest+rng.IntN(given-fewest+1), given)
}

// minorityRow: hard zeros from fewer than half, which needs three judges.
func minorityRow(rng *rand.Rand, row []string) {
	if len(row) < 3 {
		return
	}
	given := len(row)
	if chance(rng, 30) {
		given = 3 + rng.IntN(len(row)-2)
	}
	most := (given - 1) / 2
	hardZeroRow(rng, row, 1+rng.IntN(most), given)
}

// halfRow: hard zeros from exactly half, which needs two judges.
func halfRow(rng *rand.Rand, row []string) {
	if len(row) < 2 {
		return
	}
	half := len(row) / 2
	if chance(rng, 30) {
		half = 1 + rng.IntN(half)
	}
	hardZeroRow(rng, row, half, 2*half)
}

// hardZeroRow lays a row anew in which so many judges gave a mark, so many of
// them a hard zero; the seats are drawn.
func hardZeroRow(rng *rand.Rand, row []string, hardZeros, given int) {
	quality := generateQuality(rng)
	for place, seat := range rng.Perm(len(row)) {
		switch {
		case place < hardZeros:
			row[seat] = HardZero
		case place < given:
			row[seat] = pick(rng, []string{
				grade(rng, quality), grade(rng, quality), grade(rng, quality), grade(rng, quality),
				grade(rng, quality), grade(rng, quality), PerceptionZero, gradeText(0),
			})
		default:
			row[seat] = pick(rng, []string{Average, NoMark})
		}
	}
}

// confirmedRow: one confirmed hard zero, on some rows with other marks beside
// it that would matter without it.
func confirmedRow(rng *rand.Rand, row []string) {
	for _, beside := range []string{HardZero, Average, NoMark, ConfirmedHardZero} {
		if chance(rng, 25) {
			row[rng.IntN(len(row))] = beside
		}
	}
	row[rng.IntN(len(row))] = ConfirmedHardZero
}

// emptyRow: no judge gave a mark.
func emptyRow(rng *rand.Rand, row []string) {
	for seat := range row {
		row[seat] = pick(rng, []string{Average, NoMark})
	}
}

// addResolves gives some figures the chief judge's ruling, mostly where one
// could be needed, seldom where it is without effect.
func addResolves(rng *rand.Rand, lines []Line) {
	for i, line := range lines {
		percent := 1
		if 2*count(line.Marks, HardZero) == marksGiven(line.Marks) {
			percent = 50
		}
		if !line.Weighted && chance(rng, percent) {
			lines[i].Resolve = pick(rng, []string{Zero, Fill})
		}
	}
}

// generatePenalties gives none to half of the sheets, else one to three, of
// which a few are large.
func generatePenalties(rng *rand.Rand) []*big.Rat {
	var penalties []*big.Rat
	for range pick(rng, []int{0, 0, 0, 0, 0, 1, 1, 1, 2, 3}) {
		points := big.NewRat(int64(5*(1+rng.IntN(20))), 1)
		if chance(rng, 10) {
			points = big.NewRat(int64(1+rng.IntN(99)), 2)
		} else if chance(rng, 10) {
			points = big.NewRat(int64(500*(1+rng.IntN(10))), 1)
		}
		penalties = append(penalties, points)
	}
	return penalties
}

// gradeText writes a number of half points as a grade: 15 is "7.5".
func gradeText(halfPoints int) string {
	return fmt.Sprintf("%d.%d", halfPoints/2, halfPoints%2*5)
}

func chance(rng *rand.Rand, percent int) bool { return rng.IntN(100) < percent }

func pick[T any](rng *rand.Rand, from []T) T { return from[rng.IntN(len(from))] }

func shuffle[T any](rng *rand.Rand, list []T) {
	rng.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
}
