package analysis_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/analysis/code"
	"boxbook/season/stats"
)

// Levels, chances and intervals are those of the model of distinct figures, which
// is held against two independent programs; the cells are made here again.
func TestFamilyLevelsOfTheModel(t *testing.T) {
	grades := [][]float64{{6, 7.5, 8, 7, 4.5, 7}, {7, 7, 7.5, 8, 5, 8}, {6.5, 8, 7.5, 7.5, 5, 7}, {7, 7.5, 7, 7, 5.5, 7.5}}
	k := []float64{10, 17, 18, 4, 13, 9}
	shares := [][]float64{{0, 0, 0, 1, 0, 0}, {0, 0, 1, 0, 0, 0}, {8. / 18, 0, 0, 0, 10. / 18, 0}, {0, 1, 0, 0, 0, 0}, {8. / 13, 0, 0, 0, 0, 5. / 13}, nil}
	book, total := familyHead, 0.0
	var cells []stats.ShareCell
	for i, row := range grades {
		var texts []string
		for figure, grade := range row {
			texts = append(texts, strconv.FormatFloat(grade, 'f', -1, 64))
			cell := stats.ShareCell{Group: i, Unit: figure, Value: 10 * grade, Weight: k[figure], Shares: shares[figure]}
			if shares[figure] == nil {
				cell.Unit = -1
			}
			cells = append(cells, cell)
			total += 10 * grade * k[figure] / (4 * 71)
		}
		book += gradedFlight(fmt.Sprintf("2026-0%d-18 ines known", i+4), texts...)
	}
	pool, err := stats.PoolShares(cells, 6, false)
	require.NoError(t, err)
	pool.Step = 1
	fit, err := stats.FitShares(pool.ShareData)
	require.NoError(t, err)

	f := familiesOf(t, book)
	require.True(t, f.Known)
	assert.InDelta(t, fit.TauSquared, f.Tau2, 1e-9)
	assert.InDelta(t, fit.UnitSquared, f.FigureTau2, 1e-9)
	assert.Equal(t, 5, f.FamilySpread.Figures, "the one without a family is none")
	for i, line := range f.Groups {
		row := stats.ShareRow{Levels: []float64{1}, Parts: make([]float64, 6)}
		row.Parts[i] = 1
		level, err := fit.Of(row)
		require.NoError(t, err)
		gap, err := fit.Gap(i)
		require.NoError(t, err)
		assert.InDelta(t, total+fit.Levels[0]+fit.Parts[i], line.Shrunken, 1e-8, line.Group)
		assert.InDelta(t, total+level.Quantile(.05), line.Low, 1e-6, line.Group)
		assert.InDelta(t, total+level.Quantile(.95), line.High, 1e-6, line.Group)
		assert.InDelta(t, gap.Mean(), line.Gap, 1e-8, line.Group)
		assert.InDelta(t, gap.Below(0), line.WeakChance, 1e-8, line.Group)
	}
	spins := familyLine(t, f, "spins")
	assert.Len(t, spins.Distinct, 1)
	assert.Len(t, familyLine(t, f, "1").Distinct, 2)
}

// seasonOf are twelve flights of a known of the given figures, twelve of K where
// none is given, with the given mean grades; chance is of half grades, by a
// pattern.
func seasonOf(families []string, means []float64) string {
	var book strings.Builder
	book.WriteString("pilot ines\nsequence known-26\n  category sportsman\n  programme known\n")
	for i, code := range families {
		if !strings.Contains(code, ":") {
			code += ":12"
		}
		fmt.Fprintf(&book, "  %d %s\n", i+1, code)
	}
	for flight := range 12 {
		var row []string
		for i, mean := range means {
			off := []float64{0, .5, -.5, 0, .5, -.5, .5}[(flight*3+i*5)%7]
			row = append(row, strconv.FormatFloat(math.Round(2*(mean+off))/2, 'f', -1, 64))
		}
		book.WriteString(gradedFlight(season.Date(20480+14*flight).String()+" ines known", row...))
	}
	return book.String()
}

// Eight figures of eight families, and of four.
var (
	eightFamilies = []string{"7.4.1.1", "5.2.1.1", "1.2.1.1", "2.2.1.1", "9.1.2.4", "9.2.1.4", "9.9.1.4", "9.11.1.4"}
	fourFamilies  = []string{"7.4.1.1", "7.4.1.1", "5.2.1.1", "5.2.1.1", "1.2.1.1", "1.2.1.1", "2.2.1.1", "2.2.1.1"}
)

// One figure flown twelve times is one figure: it lies low, and of its family
// nothing is said. Two distinct figures speak of the family.
func TestOneFigureIsNoFamily(t *testing.T) {
	f := familiesOf(t, seasonOf(eightFamilies, []float64{5.5, 7, 7, 7, 7, 7, 7, 7}))
	for _, line := range f.Groups {
		assert.False(t, line.Weak, line.Group)
	}
	require.Len(t, f.Low, 1)
	assert.Equal(t, []any{"known-26", 1, 12}, []any{f.Low[0].Sequence.Handle, f.Low[0].Number, f.Low[0].Flights})
	assert.GreaterOrEqual(t, f.Low[0].LowChance, analysis.LowSure)
	require.NotNil(t, familyLine(t, f, "7").WeakFigure)
	assert.Nil(t, familyLine(t, f, "5").WeakFigure)

	f = familiesOf(t, seasonOf(fourFamilies, []float64{5.5, 5.5, 7, 7, 7, 7, 7, 7}))
	loop := familyLine(t, f, "7")
	assert.True(t, loop.Weak)
	assert.GreaterOrEqual(t, loop.WeakChance, analysis.WeakSure)
	assert.False(t, familyLine(t, f, "5").Weak)
}

// A family that is lower without doubt, and by less than two points, is not worth
// the word; nor is a figure that was flown twice, or one of a season in which no
// figure was flown twice.
func TestFamilyLittleLower(t *testing.T) {
	f := familiesOf(t, seasonOf(fourFamilies, []float64{6.8, 6.8, 7, 7, 7, 7, 7, 7}))
	assert.False(t, familyLine(t, f, "7").Weak)
	assert.Empty(t, f.Low)

	once := strings.Join(strings.SplitAfterN(seasonOf(eightFamilies, []float64{4, 7, 7, 7, 7, 7, 7, 7}), "flight ", 3)[:2], "")
	f = familiesOf(t, strings.TrimSuffix(once, "flight "))
	assert.Equal(t, 1, f.Flights)
	assert.False(t, f.Pooled)
	assert.Empty(t, f.Low, "nothing says what a flight of a figure varies by")
	assert.True(t, f.Known)
}

// Families in the same figures cannot be told from each other, whatever their
// shares are.
func TestFamiliesOfTheSameFigures(t *testing.T) {
	f := familiesOf(t, seasonOf([]string{"7.4.1.1:8 9.1.2.4:12", "7.4.1.1:4 9.1.2.4:12", "5.2.1.1", "5.2.1.1", "1.2.1.1", "1.2.1.1"},
		[]float64{5.5, 5.5, 7, 7, 7, 7}))
	assert.Equal(t, []string{"9.1"}, familyLine(t, f, "7").Alike)
	assert.Equal(t, []string{"7"}, familyLine(t, f, "9.1").Alike)
	assert.Empty(t, familyLine(t, f, "5").Alike)
}

// twoSequences are six flights of a known and six of an unknown, whose figures' grades are
// 7.3 and by each part's share of the K what its family is lower, and chance.
func twoSequences(r *rand.Rand, lower map[string]float64) string {
	var book strings.Builder
	book.WriteString("pilot ines\n")
	figures := map[string][]string{
		"known": {"1.2.6.3:8 9.11.1.5:6", "7.2.2.1:6 9.1.3.2:4", "8.5.2.1:10 9.4.4.2:5", "5.2.1.1:17 9.1.1.1:6", "7.4.1.1:10", "2.3.1.1:5", "8.4.1.1:13 9.1.1.2:8", "1.1.1.1:2 9.9.3.4:11", "7.4.3.1:14", "1.1.1.1:2 9.2.3.4:9"},
		"free":  {"1.2.1.1:8 9.1.2.4:10", "7.2.3.3:7 9.1.3.2:4", "5.2.1.1:17 9.1.1.1:6", "8.4.1.1:13 9.1.5.2:4", "7.4.1.1:10 9.1.3.4:8", "1.2.6.3:8 9.11.1.6:7", "2.2.1.1:4", "1.1.1.1:2 9.9.3.4:11"},
	}
	for _, programme := range []string{"known", "free"} {
		fmt.Fprintf(&book, "sequence %s-26\n  category sportsman\n  programme %s\n", programme, programme)
		for i, code := range figures[programme] {
			fmt.Fprintf(&book, "  %d %s\n", i+1, code)
		}
	}
	for flight := range 12 {
		programme := []string{"known", "free"}[flight%2]
		fmt.Fprintf(&book, "flight %s ines %s\n  sequence %s-26\n  panel AK\n", season.Date(20480+14*flight), programme, programme)
		for i, code := range figures[programme] {
			grade, k := 0.0, 0.0
			for _, element := range strings.Fields(code) {
				number, weight, _ := strings.Cut(element, ":")
				w, _ := strconv.ParseFloat(weight, 64)
				family := strings.SplitN(number, ".", 2)[0]
				if strings.HasPrefix(number, "9.11") {
					family = "spins"
				}
				grade, k = grade+w*lower[family], k+w
			}
			fmt.Fprintf(&book, "  %d %.1f\n", i+1, math.Round(2*(7.3+grade/k+.5*r.NormFloat64()))/2)
		}
	}
	return book.String()
}

// What was found: lines were called weak by the two spins that begin with one, though the
// other lines were as good as anything. A family stands by its figures without the other;
// one that has none, where those of the other do not lie low.
func TestFamiliesThatLieLowTogether(t *testing.T) {
	called := func(lower map[string]float64) (weak, with map[string]int) {
		weak, with = map[string]int{}, map[string]int{}
		for seed := range uint64(40) {
			for _, g := range familiesOf(t, twoSequences(rand.New(rand.NewPCG(seed, 1)), lower)).Groups {
				if g.Weak {
					weak[g.Group]++
				}
				if len(g.LowWith) > 0 {
					with[g.Group]++
					require.False(t, g.Weak)
					require.GreaterOrEqual(t, g.WeakChance, analysis.WeakSure, g.Group)
				}
			}
		}
		return weak, with
	}
	weak, with := called(map[string]float64{"spins": -2.5})
	t.Log(weak, with)
	assert.LessOrEqual(t, weak["1"], 4, "of forty")
	assert.GreaterOrEqual(t, with["1"], 8)
	assert.GreaterOrEqual(t, weak["spins"], 25)
	weak, with = called(map[string]float64{"1": -1.5})
	t.Log(weak, with)
	assert.GreaterOrEqual(t, weak["1"], 28, "by the lines without a spin")
	assert.LessOrEqual(t, weak["spins"], 2)
}

// Zeroed figures say nothing of a level.
func TestZerosAreNoLevel(t *testing.T) {
	book := seasonOf(fourFamilies, []float64{7, 7, 7, 7, 7, 7, 7, 7})
	zeroed := strings.Replace(book, "  1 7\n", "  1 HZ\n", 2)
	require.NotEqual(t, book, zeroed)
	f := familiesOf(t, zeroed)
	loop := familyLine(t, f, "7")
	assert.Equal(t, 2, loop.Zeros)
	assert.Less(t, loop.Percent, 66.0)
	assert.InDelta(t, 70, loop.Shrunken, 1)
	assert.Equal(t, 10, loop.Distinct[0].Flights, "of twelve")
}

// Under three families nothing is compared.
func TestFamiliesTooFewToCompare(t *testing.T) {
	two := familiesOf(t, "pilot ines\nsequence known-26\n  category sportsman\n  1 7.4.1.1:10\n  2 5.2.1.1:17\n  3 K 9\n  4 K 9\n  5 K 9\n"+
		gradedFlight("2026-04-18 ines known", "6", "7", "8", "5", "6.5")+gradedFlight("2026-05-18 ines known", "8", "7", "6", "9", "7.5"))
	assert.False(t, two.Known)
	assert.Equal(t, code.FewFamilies, two.Reason)
	require.Len(t, two.Groups, 2)
	assert.True(t, math.IsNaN(two.Groups[0].Shrunken))
	assert.True(t, two.Groups[0].HasRest)

	same := familiesOf(t, familyHead+gradedFlight("2026-04-18 ines known", "7", "7", "7", "7", "7", "7")+
		gradedFlight("2026-05-18 ines known", "7", "7", "7", "7", "7", "7"))
	assert.True(t, same.Known)
	for _, line := range same.Groups {
		assert.InDelta(t, 70, line.Shrunken, 1e-9)
		assert.False(t, line.Weak)
	}
}

// A family's own ends are the first and the last quarter of the flights with it.
func TestFamilyOwnEnds(t *testing.T) {
	book := familyHead
	for i, loop := range []string{"5", "5.5", "6", "6.5", "7"} {
		book += gradedFlight(fmt.Sprintf("2026-0%d-18 ines known", i+4), loop, "7", "7", "7", "7", "7")
	}
	loop := familyLine(t, familiesOf(t, book), "7")
	assert.Equal(t, 2, loop.Ends, "a quarter of five, rounded up")
	assert.InDelta(t, 52.5, loop.First, 1e-9)
	assert.InDelta(t, 67.5, loop.Last, 1e-9)
	one := familyLine(t, familiesOf(t, familyHead+gradedFlight("2026-04-18 ines known", "6", "7", "8", "5", "6.5", "9")), "7")
	assert.True(t, math.IsNaN(one.First))
}

// Of twelve families one falls by p = .13: alone it may be declining, among twelve
// chance gives such a one in every second season, and nothing is said.
func TestMayBeAllowsForTheFamiliesLookedAt(t *testing.T) {
	points := func(values ...float64) []analysis.TrendPoint {
		var list []analysis.TrendPoint
		for i, v := range values {
			list = append(list, analysis.TrendPoint{Day: float64(30 * i), Value: v, Stratum: "s", Contest: strconv.Itoa(i)})
		}
		return list
	}
	falling := points(10, 5, 6, -2, 1, -1)
	alone, _ := analysis.GroupTrends([][]analysis.TrendPoint{falling})
	require.Equal(t, analysis.MayDecline, alone[0].Word)
	groups := [][]analysis.TrendPoint{falling}
	for i := range 11 {
		up := float64(i%3 - 1)
		groups = append(groups, points(up, -up, 2*up, -2*up, up, -up))
	}
	trends, qs := analysis.GroupTrends(groups)
	assert.Greater(t, qs[0], analysis.MayBe)
	assert.Equal(t, analysis.CannotTell, trends[0].Word)
}

// The same figure in several sequences is one figure, and of its family nothing is
// said; others of the family, or two of one sequence, are two.
func TestOneFigureOfSeveralSequences(t *testing.T) {
	known := seasonOf(eightFamilies, []float64{5, 7, 7, 7, 7, 7, 7, 7})
	turned := slices.Clone(eightFamilies)
	turned[0], turned[1] = turned[1], turned[0]
	free := seasonOf(turned, []float64{7, 5, 7, 7, 7, 7, 7, 7})
	both := func(free string) analysis.FamilyLine {
		free = strings.NewReplacer("known-26", "free-26", "programme known", "programme free", " known\n", " free\n", "pilot ines\n", "").Replace(free)
		return familyLine(t, familiesOf(t, known+free), "7")
	}
	loop := both(free)
	assert.Len(t, loop.Distinct, 2)
	assert.Equal(t, 1, loop.Different)
	assert.GreaterOrEqual(t, loop.WeakChance, analysis.WeakSure)
	assert.False(t, loop.Weak)
	require.NotNil(t, loop.WeakFigure, "the figure lies low")
	loop = both(strings.Replace(free, "7.4.1.1", "7.4.1.3", 1))
	assert.Equal(t, 2, loop.Different)
	assert.True(t, loop.Weak)
	assert.Equal(t, 2, both(strings.Replace(free, "7.4.1.1:12", "7.4:12", 1)).Different, "which figure of the family is not known")
}

// What a family scored last is told without zeros, as its level is.
func TestLastGradedLeavesZerosOut(t *testing.T) {
	book := familyHead
	for i, loop := range []string{"5", "6", "7", "HZ", "6"} {
		book += gradedFlight(fmt.Sprintf("2026-0%d-18 ines known", i+4), loop, "7", "7", "7", "7", "7")
	}
	loop := familyLine(t, familiesOf(t, book), "7")
	assert.InDelta(t, 30, loop.Last, 1e-9, "as flown")
	assert.Equal(t, []any{60.0, 1}, []any{loop.LastGraded, loop.EndsGraded}, "of four flights with a grade")
}

// The zero of one judge counts in a grade without zeroing the figure: a figure that
// lies low says in how many of its flights.
func TestLowFigureSaysAJudgesZero(t *testing.T) {
	book := seasonOf(eightFamilies, []float64{5.5, 7, 7, 7, 7, 7, 7, 7})
	f := familiesOf(t, book)
	require.Len(t, f.Low, 1)
	assert.Zero(t, f.Low[0].WithZero)
	five := regexp.MustCompile(`(?m)^(  \d) ([\d.]+)$`).ReplaceAllString(strings.ReplaceAll(book, "panel marek", "panel a b c d e"), "$1 $2 $2 $2 $2 $2")
	five = strings.Replace(five, "  1 5.5 5.5 5.5 5.5 5.5\n", "  1 5.5 5.5 5.5 5.5 PZ\n", 1)
	five = strings.Replace(five, "  2 7 7 7 7 7\n", "  2 7 7 7 7 PZ\n", 1)
	f = familiesOf(t, five)
	require.Len(t, f.Low, 1)
	assert.Equal(t, []any{12, 1}, []any{f.Low[0].Flights, f.Low[0].WithZero})
}
