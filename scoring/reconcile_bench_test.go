package scoring

import (
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// bigFlight is as large as flights get: 15 figures and positioning, a panel of
// 10, a few marks that are not grades.
func bigFlight(style Style) Sheet {
	random := rand.New(rand.NewPCG(15, 10))
	sheet := Sheet{Judges: 10, Style: style, Penalties: []Decimal{{Units: 30}}}
	for i := range 16 {
		line := Line{K: 8 + random.IntN(40)}
		if i == 15 {
			line.Kind = Positioning
		}
		for range 10 {
			line.Marks = append(line.Marks, GradeOf(9+random.IntN(8)))
		}
		sheet.Lines = append(sheet.Lines, line)
	}
	sheet.Lines[3].Marks[2] = Mark{Kind: HardZero}
	sheet.Lines[7].Marks[5] = Mark{Kind: NotSeen}
	sheet.Lines[11].Marks[0] = Mark{Kind: PerceptionZero}
	return sheet
}

// oneMarkOut prints the total of the sheet with one grade half a point higher.
func oneMarkOut(sheet Sheet) Printed {
	lines := append([]Line(nil), sheet.Lines...)
	lines[4].Marks = append([]Mark(nil), lines[4].Marks...)
	lines[4].Marks[6].Half++
	sheet.Lines = lines
	return Printed{Points: printedWith(sheet.Score().Points, 2)}
}

// printedFor looks for a printed total above the own one of which the
// reconciliation is as wanted.
func printedFor(tb testing.TB, sheet Sheet, score Score, wanted func(Reconciliation) bool) Printed {
	own := printedWith(score.Points, 2)
	for off := int64(1); off < 2000; off++ {
		printed := Printed{Points: Decimal{Units: own.Units + off, Places: 2}}
		if wanted(Reconcile(sheet, score, printed)) {
			return printed
		}
	}
	tb.Fatal("no such total nearby")
	return Printed{}
}

// nothingFits: every search ran to its end.
func nothingFits(r Reconciliation) bool { return !r.Agrees && len(r.Explanations) == 0 }

// onlyPairsFit: two marks explain the total and nothing less does.
func onlyPairsFit(r Reconciliation) bool {
	return len(r.Explanations) > 0 && r.Explanations[0].Kind == KindMarks
}

var benchStyles = map[string]Style{
	"mean":    {},
	"dropped": {DropExtremes: true},
}

func BenchmarkReconcileOneMark(b *testing.B) {
	for _, name := range []string{"mean", "dropped"} {
		b.Run(name, func(b *testing.B) {
			sheet := bigFlight(benchStyles[name])
			bench(b, sheet, oneMarkOut(sheet))
		})
	}
}

func BenchmarkReconcileOnlyPairs(b *testing.B) {
	for _, name := range []string{"mean", "dropped"} {
		b.Run(name, func(b *testing.B) {
			sheet := bigFlight(benchStyles[name])
			bench(b, sheet, printedFor(b, sheet, sheet.Score(), onlyPairsFit))
		})
	}
}

func BenchmarkReconcileNothing(b *testing.B) {
	for _, name := range []string{"mean", "dropped"} {
		b.Run(name, func(b *testing.B) {
			sheet := bigFlight(benchStyles[name])
			bench(b, sheet, printedFor(b, sheet, sheet.Score(), nothingFits))
		})
	}
}

// BenchmarkReconcileCoarse has a total without decimals, which very many marks
// explain.
func BenchmarkReconcileCoarse(b *testing.B) {
	sheet := bigFlight(Style{})
	printed := oneMarkOut(sheet)
	printed.Points = Decimal{Units: (printed.Points.Units + 300) / 100}
	bench(b, sheet, printed)
}

// BenchmarkReconcileJudgeTotals has the judges' totals typed, all of them out.
func BenchmarkReconcileJudgeTotals(b *testing.B) {
	sheet := bigFlight(Style{})
	printed := oneMarkOut(sheet)
	for _, total := range sheet.Score().JudgeTotals {
		d := printedWith(total, 2)
		d.Units += 500
		printed.JudgeTotals = append(printed.JudgeTotals, d)
	}
	bench(b, sheet, printed)
}

func bench(b *testing.B, sheet Sheet, printed Printed) {
	score := sheet.Score()
	b.ReportAllocs()
	for b.Loop() {
		Reconcile(sheet, score, printed)
	}
}

// TestReconcileIsQuick holds the search to 5 ms for 15 figures and positioning
// from 10 judges, pairs included. The median of several runs counts, and the
// best of several medians, so that a busy computer does not fail it.
func TestReconcileIsQuick(t *testing.T) {
	if raceDetector {
		t.Skip("the race detector slows the search down")
	}
	for _, name := range []string{"mean", "dropped"} {
		sheet := bigFlight(benchStyles[name])
		score := sheet.Score()
		for what, printed := range map[string]Printed{
			"one mark": oneMarkOut(sheet),
			"pairs":    printedFor(t, sheet, score, onlyPairsFit),
			"nothing":  printedFor(t, sheet, score, nothingFits),
		} {
			median := medianTime(sheet, score, printed)
			for tries := 0; tries < 20 && median >= quickEnough; tries++ {
				time.Sleep(20 * time.Millisecond)
				median = min(median, medianTime(sheet, score, printed))
			}
			require.Less(t, median, quickEnough, "%s, %s", name, what)
		}
	}
}

const quickEnough = 5 * time.Millisecond

func medianTime(sheet Sheet, score Score, printed Printed) time.Duration {
	took := make([]time.Duration, 21)
	for i := range took {
		start := time.Now()
		Reconcile(sheet, score, printed)
		took[i] = time.Since(start)
	}
	slices.Sort(took)
	return took[len(took)/2]
}
