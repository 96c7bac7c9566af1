package scoring_test

import (
	"math/big"
	"slices"
	"strings"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"boxbook/scoring"
)

// What the tests of this package share: sheets typed in, exact numbers
// compared, and sheets drawn for the properties.

// The rule styles that are shipped. The majority principle in the first two:
// [memory].
var (
	panelMean    = scoring.Style{Name: "panel-mean"}
	dropExtremes = scoring.Style{Name: "drop-extremes", DropExtremes: true}
	asGraded     = scoring.Style{Name: "as-graded", HardZero: scoring.AsGiven}
)

// figure reads a figure's row as typed: its K and its marks, "8.0 HZ AV".
func figure(k int, marks string) scoring.Line {
	return scoring.Line{K: k, Marks: marksOf(strings.Fields(marks))}
}

// positioning reads the weighted line beneath the figures.
func positioning(k int, marks string) scoring.Line {
	return scoring.Line{Kind: scoring.Positioning, K: k, Marks: marksOf(strings.Fields(marks))}
}

// sheetWith puts lines into a sheet; the first says how many judges there are.
func sheetWith(style scoring.Style, lines ...scoring.Line) scoring.Sheet {
	return scoring.Sheet{Judges: len(lines[0].Marks), Lines: lines, Style: style}
}

// printed gives an exact number to as many decimals as a printed one has, half
// away from zero; "absent" for nil.
func printed(number *big.Rat, decimals int) string {
	if number == nil {
		return "absent"
	}
	return number.FloatString(decimals)
}

// exactly writes numbers as whole numbers or fractions in lowest terms.
func exactly(numbers ...*big.Rat) string {
	texts := make([]string, len(numbers))
	for i, number := range numbers {
		texts[i] = ratText(number)
	}
	return strings.Join(texts, " ")
}

// usedMarks gives what stands for each mark of a line.
func usedMarks(line scoring.LineScore) []*big.Rat {
	used := make([]*big.Rat, len(line.Cells))
	for i, cell := range line.Cells {
		used[i] = cell.Used
	}
	return used
}

// tester is a test or one run of a property.
type tester interface {
	assert.TestingT
	Helper()
}

// equalRat fails the test where two exact numbers differ.
func equalRat(t tester, want, got *big.Rat, message string) {
	t.Helper()
	assert.Equal(t, ratText(want), ratText(got), message)
}

// notAbove fails the test where the first number is above the second.
func notAbove(t tester, low, high *big.Rat, message string) {
	t.Helper()
	assert.LessOrEqual(t, low.Cmp(high), 0, "%s: %s above %s", message, ratText(low), ratText(high))
}

func whole(n int) *big.Rat { return big.NewRat(int64(n), 1) }

func sumOf(numbers []*big.Rat) *big.Rat {
	total := new(big.Rat)
	for _, number := range numbers {
		total.Add(total, number)
	}
	return total
}

// copyOf gives a sheet whose lines and marks can be changed apart.
func copyOf(sheet scoring.Sheet) scoring.Sheet {
	sheet.Lines = slices.Clone(sheet.Lines)
	for i := range sheet.Lines {
		sheet.Lines[i].Marks = slices.Clone(sheet.Lines[i].Marks)
	}
	return sheet
}

// drawSheet draws any valid sheet: 1 to 8 judges, 1 to 6 figures, up to two
// weighted lines (which have no hard or perception zeros), rulings, penalties.
func drawSheet(t *rapid.T) scoring.Sheet {
	sheet := scoring.Sheet{Judges: rapid.IntRange(1, 8).Draw(t, "judges"), Style: drawStyle(t)}
	for range rapid.IntRange(1, 6).Draw(t, "figures") {
		sheet.Lines = append(sheet.Lines, drawLine(t, scoring.Figure, sheet.Judges))
	}
	for _, kind := range []scoring.LineKind{scoring.Positioning, scoring.Harmony} {
		if rapid.Bool().Draw(t, "weighted") {
			sheet.Lines = append(sheet.Lines, drawLine(t, kind, sheet.Judges))
		}
	}
	for range rapid.IntRange(0, 2).Draw(t, "penalties") {
		sheet.Penalties = append(sheet.Penalties, scoring.Decimal{
			Units: int64(rapid.IntRange(0, 5000).Draw(t, "penalty")), Places: rapid.IntRange(0, 2).Draw(t, "decimals"),
		})
	}
	return sheet
}

func drawStyle(t *rapid.T) scoring.Style {
	return scoring.Style{
		HardZero:     rapid.SampledFrom([]scoring.HardZeroRule{scoring.ByMajority, scoring.AsGiven}).Draw(t, "hard zero"),
		Half:         rapid.SampledFrom([]scoring.HalfRule{scoring.HalfUndecided, scoring.HalfZero, scoring.HalfFill}).Draw(t, "half"),
		FillRounding: rapid.SampledFrom([]scoring.FillRounding{scoring.Unrounded, scoring.ToTenth, scoring.ToHalf}).Draw(t, "rounding"),
		DropExtremes: rapid.Bool().Draw(t, "drop"),
	}
}

func drawLine(t *rapid.T, kind scoring.LineKind, judges int) scoring.Line {
	line := scoring.Line{Kind: kind, K: rapid.IntRange(1, 99).Draw(t, "K"), Marks: make([]scoring.Mark, judges)}
	for i := range line.Marks {
		line.Marks[i] = drawMark(t, kind == scoring.Figure)
	}
	if kind == scoring.Figure {
		line.Decision = rapid.SampledFrom([]scoring.Decision{
			scoring.NoDecision, scoring.NoDecision, scoring.RuledZero, scoring.RuledFill,
		}).Draw(t, "ruling")
	}
	return line
}

// drawMark draws a grade mostly, and of the other marks HZ most often.
func drawMark(t *rapid.T, figure bool) scoring.Mark {
	kinds := []scoring.MarkKind{
		scoring.Grade, scoring.Grade, scoring.Grade, scoring.Grade, scoring.Grade, scoring.NotSeen, scoring.Absent,
	}
	if figure {
		kinds = append(kinds, scoring.HardZero, scoring.HardZero, scoring.HardZero,
			scoring.PerceptionZero, scoring.ConfirmedHardZero)
	}
	kind := rapid.SampledFrom(kinds).Draw(t, "mark")
	if kind != scoring.Grade {
		return scoring.Mark{Kind: kind}
	}
	return drawGrade(t)
}

func drawGrade(t *rapid.T) scoring.Mark {
	return scoring.GradeOf(rapid.IntRange(0, scoring.TopGrade).Draw(t, "half points"))
}

// drawPlace draws a figure and a judge of a sheet.
func drawPlace(t *rapid.T, sheet scoring.Sheet) (line, judge int) {
	figures := 0
	for _, l := range sheet.Lines {
		if l.Kind == scoring.Figure {
			figures++
		}
	}
	return rapid.IntRange(0, figures-1).Draw(t, "figure"), rapid.IntRange(0, sheet.Judges-1).Draw(t, "judge")
}

// drawDecided draws a sheet on which every line is decided, by a drawn ruling
// where the style leaves it open.
func drawDecided(t *rapid.T) scoring.Sheet {
	sheet := drawSheet(t)
	for i, line := range sheet.Lines {
		if !scoring.Open(line.Marks, sheet.Style) {
			continue
		}
		sheet.Lines[i].Decision = scoring.RuledZero
		if scoring.HasNumber(line.Marks, sheet.Style) && rapid.Bool().Draw(t, "fill") {
			sheet.Lines[i].Decision = scoring.RuledFill
		}
	}
	return sheet
}
