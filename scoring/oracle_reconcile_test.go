package scoring_test

import (
	"fmt"
	"math/big"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/scoring"
	"boxbook/scoring/internal/testkit/oracle"
)

// slipClasses are the classes of explanations, in the order of the printed lists.
var slipClasses = []string{
	oracle.SlipPenalty, oracle.SlipRules, oracle.SlipZero, oracle.SlipTotal, oracle.SlipMark, oracle.SlipJudge, oracle.SlipFigure, oracle.SlipK, oracle.SlipTwoK,
	oracle.SlipRows, oracle.SlipMarks,
}

// TestReconcileEqualsOracle: everything that explains a printed total by the
// oracle's plain trial is found and nothing else, and chance is measured alike.
func TestReconcileEqualsOracle(t *testing.T) {
	const sheets = 40
	parts := 1 // four where more sheets are asked for than by the README's command
	if *oracleSheets > fewSheets {
		parts = 4
	}
	for part := range parts {
		t.Run(strconv.Itoa(part), func(t *testing.T) {
			t.Parallel()
			rng := rand.New(rand.NewPCG(*oracleSeed, uint64(1000+part)))
			met := map[string]int{}
			for n := range sheets {
				class := slipClasses[n%len(slipClasses)]
				sheet := sheetForSlips(rng)
				for class == oracle.SlipZero && !confirmsOne(sheet) {
					sheet = sheetForSlips(rng)
				}
				if units, ok := slipTotal(rng, sheet, class, n%3); ok {
					compareSlips(t, sheet, units, n%3, met, false)
				}
				if units, ok := slipPercent(rng, sheet, class, n%3); ok {
					compareSlips(t, sheet, units, n%3, met, true)
				}
			}
			assert.Greater(t, met[oracle.SlipPenalty], 0)
			assert.Greater(t, met[oracle.SlipZero], 0)
			assert.Greater(t, met[oracle.SlipFigure], 0)
			assert.Greater(t, met[oracle.SlipRows], 0)
			assert.Greater(t, met[oracle.SlipTwoK], 0)
			assert.Greater(t, met[oracle.SlipTotal], 0)
		})
	}
}

// sheetForSlips draws a decided sheet that is small enough for plain trial.
func sheetForSlips(rng *rand.Rand) oracle.Sheet {
	for {
		sheet := oracle.Generate(rng)
		own := oracle.Score(sheet)
		if len(sheet.Lines) > 1 && len(sheet.Lines)*sheet.Judges <= 16 && own.Points != nil && own.Points.Sign() > 0 {
			return sheet
		}
	}
}

// confirmsOne reports whether confirming a hard zero would change a sheet's points.
func confirmsOne(sheet oracle.Sheet) bool {
	own := oracle.Score(sheet).Points
	return slices.ContainsFunc(oracle.Candidates(sheet, oracle.SlipZero, 2), func(c oracle.Candidate) bool { return c.Points.Cmp(own) != 0 })
}

// slipTotal draws what a change of a class would print, or now and then a
// total that is merely near; false where it would be the own one.
func slipTotal(rng *rand.Rand, sheet oracle.Sheet, class string, places int) (int64, bool) {
	own := oracle.Score(sheet)
	points := new(big.Rat).Add(own.Points, big.NewRat(int64(rng.IntN(6001)-3000), 100))
	if candidates := oracle.Candidates(sheet, class, places); len(candidates) > 0 && rng.IntN(5) > 0 {
		points = candidates[rng.IntN(len(candidates))].Points
	}
	scale := int64(1)
	for range places {
		scale *= 10
	}
	units := new(big.Rat).Mul(points, big.NewRat(scale, 1))
	whole := new(big.Int).Div(units.Num(), units.Denom()).Int64()
	if !oracle.Fits(points, whole, places) {
		whole++
	}
	most := new(big.Rat).Mul(own.Maximum, big.NewRat(scale, 1)).Num().Int64()
	return whole, whole >= 0 && whole <= most && !oracle.Fits(own.Points, whole, places)
}

// slipPercent draws what a change of a class would print as a percent of the maximum;
// false where it would be the own one, or the maximum is 100.
func slipPercent(rng *rand.Rand, sheet oracle.Sheet, class string, places int) (int64, bool) {
	own := oracle.Score(sheet)
	candidates := oracle.Candidates(sheet, class, places)
	if len(candidates) == 0 || class == oracle.SlipTotal || own.Maximum.Cmp(big.NewRat(100, 1)) == 0 {
		return 0, false
	}
	drawn := candidates[rng.IntN(len(candidates))].Percent()
	percent, _ := drawn.Points.Float64()
	units, _ := strconv.ParseInt(strings.ReplaceAll(strconv.FormatFloat(percent, 'f', places, 64), ".", ""), 10, 64)
	return units, percent <= 100 && !oracle.Fits(oracle.Candidate{Points: own.Points, Maximum: own.Maximum}.Percent().Points, units, places)
}

func compareSlips(t *testing.T, from oracle.Sheet, units int64, places int, met map[string]int, percent bool) {
	t.Helper()
	sheet := sheetOf(from)
	printed := scoring.Printed{Points: scoring.Decimal{Units: units, Places: places}}
	if percent {
		printed.Maximum = &scoring.Decimal{Units: 100}
	}
	for j := range from.Judges {
		printed.Judges = append(printed.Judges, strconv.Itoa(j))
	}
	r := scoring.Reconcile(sheet, sheet.Score(), printed)
	said := saidSlips(sheet, r)
	single := false
	for _, class := range slipClasses {
		if class == oracle.SlipMarks && single {
			require.Empty(t, said[class], "two marks only where nothing less fits")
			continue
		}
		if percent && class == oracle.SlipTotal {
			continue // as it would be printed in points
		}
		fitting := fittingSlips(from, class, units, places, percent)
		single = single || len(fitting) > 0
		if class == oracle.SlipMarks || class == oracle.SlipRules || class == oracle.SlipTotal {
			require.Equal(t, len(fitting) > 0, len(said[class]) > 0, "%s is explained: %v, the oracle says %v\n%s", class, said[class], fitting, describe(from))
		} else {
			require.Equal(t, fitting, said[class], "%v\n%s", printed.Points, describe(from))
		}
		compareChance(t, from, class, r, units, places, len(fitting) > 0, percent)
		met[class] += min(len(fitting), 1)
	}
}

// compareChance: a class that explains has its chance, any other has none.
func compareChance(t *testing.T, from oracle.Sheet, class string, r scoring.Reconciliation, units int64, places int, explains, percent bool) {
	t.Helper()
	at := slices.IndexFunc(r.Chances, func(c scoring.Chance) bool { return string(c.Kind) == class })
	require.Equal(t, explains, at >= 0, class)
	if explains {
		reached, of := oracle.Chance(from, class, units, places, percent)
		got := r.Chances[at]
		require.Equal(t, [2]int64{reached, of}, [2]int64{got.Reached, got.Of}, "chance of %s for %d at %d decimals\n%s", class, units, places, describe(from))
	}
}

func fittingSlips(from oracle.Sheet, class string, units int64, places int, percent bool) []string {
	var fitting []string
	for _, c := range oracle.Candidates(from, class, places) {
		if percent {
			c = c.Percent()
		}
		if oracle.Fits(c.Points, units, places) {
			fitting = append(fitting, c.What)
		}
	}
	slices.Sort(fitting)
	return fitting
}

// saidSlips puts the explanations into the oracle's words, by class; of two
// marks, the rules and the total it has one word for each.
func saidSlips(sheet scoring.Sheet, r scoring.Reconciliation) map[string][]string {
	said := map[string][]string{}
	add := func(kind scoring.ExplanationKind, format string, args ...any) {
		said[string(kind)] = append(said[string(kind)], fmt.Sprintf(format, args...))
	}
	for _, e := range r.Explanations {
		switch e.Kind {
		case scoring.KindPenalty:
			add(e.Kind, "penalty %d", e.Extra)
		case scoring.KindMark:
			for _, c := range e.Cells {
				add(e.Kind, "mark %d %s %s", lineOf(sheet, c.Line, c.Figure), c.Judge, c.Would)
			}
		case scoring.KindZero, scoring.KindFigure:
			add(e.Kind, "%s %d", e.Kind, lineOf(sheet, e.Line, e.Figure))
		case scoring.KindK:
			add(e.Kind, "k %d %d", lineOf(sheet, e.Line, e.Figure), e.K)
		case scoring.KindSwappedK:
			add(e.Kind, "two k %d %d", lineOf(sheet, e.Line, e.Figure), lineOf(sheet, e.Line, e.Second))
		case scoring.KindJudge:
			add(e.Kind, "judge %s", e.Judge)
		case scoring.KindRows:
			whose := []string{"all"}
			if !e.All {
				whose = nil
				for _, c := range e.Cells {
					whose = append(whose, c.Judge)
				}
			}
			for _, judge := range slices.Compact(whose) {
				add(e.Kind, "rows %d %d of %s", e.Figure-1, e.Figure, judge)
			}
		default:
			add(e.Kind, "%s", e.Kind)
		}
	}
	for _, list := range said {
		slices.Sort(list)
	}
	return said
}

func lineOf(sheet scoring.Sheet, kind scoring.LineKind, figure int) int {
	figures := 0
	for i, line := range sheet.Lines {
		if line.Kind == scoring.Figure {
			figures++
		}
		if line.Kind == kind && (kind != scoring.Figure || figures == figure) {
			return i
		}
	}
	panic("no such line")
}
