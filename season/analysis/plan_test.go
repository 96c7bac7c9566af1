package analysis_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/analysis/code"
	"boxbook/season/internal/testkit"
)

func planOf(t testing.TB, book string) analysis.Plan {
	t.Helper()
	return planOn(t, book, "")
}

// planOn plans for a sequence, the likeliest where none is named.
func planOn(t testing.TB, book, sequence string) analysis.Plan {
	t.Helper()
	l := testkit.BookOf(t, book)
	return analysis.PlanOf(l, season.Selection{Pilot: l.PilotNamed("ines")}, l.SequenceNamed(sequence))
}

func requireSoundPlan(t require.TestingT, p analysis.Plan) {
	require.LessOrEqual(t, len(p.Items), analysis.PlanItems)
	for i, item := range p.Items {
		for _, v := range []float64{item.Gain, item.GainLow, item.GainHigh, item.Shrunken, item.Gap, item.Share} {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0))
		}
		require.True(t, item.GainLow >= 0 && item.GainLow <= item.GainHigh && item.Gain >= analysis.PlanLeastGain)
		require.True(t, item.WeakChance >= 0 && item.WeakChance <= 1)
		if i > 0 {
			require.LessOrEqual(t, item.Gain, p.Items[i-1].Gain)
		}
	}
	require.False(t, math.IsNaN(p.Zeros.Points))
	require.Equal(t, len(p.Items) == 0, p.Lack.Reason != "")
}

// Never more than three, the greatest gain first, with the K share of the known
// flown last; levels and words are those of the families of the same flights.
func TestPlan(t *testing.T) {
	p := planOf(t, forecastHead+flownMonthly(8))
	requireSoundPlan(t, p)
	require.Len(t, p.Items, 3)
	assert.Equal(t, "sportsman", p.Category)
	assert.Equal(t, 8, p.Flights)
	assert.Equal(t, "known-26", p.Sequence.Handle)
	k := map[string]float64{"1": 16, "2": 4, "5": 17, "7": 10, "9.1": 10, "spins": 5}
	families := familiesOf(t, forecastHead+flownMonthly(8))
	for _, item := range p.Items {
		assert.InDelta(t, k[item.Group]/71, item.Share, 1e-12, item.Group)
		line := familyLine(t, families, item.Group)
		assert.Equal(t, []any{line.Shrunken, line.WeakChance, line.Weak, line.Figures}, []any{item.Shrunken, item.WeakChance, item.Weak, item.FamilyLine.Figures})
	}
}

// Figures without a family are named, with their part of the points lost in the plan's
// flights, on whatever sequence.
func TestPlanNamesBareFigures(t *testing.T) {
	book := seasonOf([]string{"7.4.1.1", "7.4.1.1", "5.2.1.1:30", "1.2.1.1:20", "2.2.1.1"}, []float64{8, 8, 8, 8, 8})
	p := planOf(t, book)
	assert.Empty(t, p.Bare)
	assert.Zero(t, p.BareLost)
	p = planOf(t, strings.NewReplacer("5.2.1.1:30", "K 30").Replace(book))
	requireSoundPlan(t, p)
	assert.Equal(t, []int{3}, p.Bare)
	lost, bare := 0.0, 0.0
	l := testkit.BookOf(t, strings.NewReplacer("5.2.1.1:30", "K 30").Replace(book))
	for _, f := range l.Flights {
		for i, line := range f.Score().Lines {
			points, _ := line.Lost.Float64()
			lost += points
			if i == 2 {
				bare += points
			}
		}
	}
	assert.InDelta(t, bare/lost, p.BareLost, 1e-12)
	assert.Greater(t, p.BareLost, 0.1)
}

// Where two families are a grade and a half lower, they come first, whatever K the
// others carry; what families says of them, plan says.
func TestPlanRanksTheWeakFirst(t *testing.T) {
	book := seasonOf([]string{"7.4.1.1", "7.4.1.1", "5.2.1.1:30", "5.2.1.1:30", "1.2.1.1:20", "1.2.1.1:20", "2.2.1.1", "2.2.1.1"},
		[]float64{5.5, 5.5, 7, 7, 7, 7, 7, 7})
	p := planOf(t, book)
	requireSoundPlan(t, p)
	require.NotEmpty(t, p.Items)
	assert.Equal(t, "7", p.Items[0].Group)
	assert.True(t, p.Items[0].Weak)
	for _, line := range familiesOf(t, book).Groups {
		for _, item := range p.Items {
			if item.Group == line.Group {
				assert.Equal(t, line.Weak, item.Weak, line.Group)
			}
		}
	}
}

// A figure that lies low by itself is named though its family is none of the items, and
// not twice where it is.
func TestPlanNamesALowFigure(t *testing.T) {
	codes := []string{"7.4.1.1:20", "7.4.1.1:20", "5.2.1.1:20", "5.2.1.1:20", "1.2.1.1:20", "1.2.1.1:20", "2.2.1.1:20", "2.2.1.1:20", "9.9.1.1:4", "9.9.1.1:4"}
	grades := []float64{6, 6, 6.5, 6.5, 6.5, 6.5, 7, 7, 9, 3.5}
	book := seasonOf(codes, grades)
	low := familiesOf(t, book).Low
	require.Len(t, low, 1)
	assert.Equal(t, 10, low[0].Number)
	p := planOf(t, book)
	for _, item := range p.Items {
		require.NotEqual(t, "9.9", item.Group)
	}
	require.Len(t, p.LowElse, 1)
	assert.Equal(t, 10, p.LowElse[0].Number)
	assert.Empty(t, p.LowItems, "no item has its family")
	codes[8], codes[9] = "9.9.1.1:60", "9.9.1.1:60"
	other := planOf(t, seasonOf(codes, grades))
	assert.NotEmpty(t, other.LowItems)
	for _, f := range other.LowElse {
		assert.NotContains(t, f.Groups, "9.9")
	}
}

// A weak family that the sequence lacks, or has little of, is named with the
// reason, and one that is an item is not.
func TestPlanNamesTheWeakThatAreNotChosen(t *testing.T) {
	book := seasonOf(fourFamilies, []float64{5.5, 5.5, 7, 7, 7, 7, 7, 7}) +
		"sequence without\n  category sportsman\n  1 5.2.1.1:20\n  2 1.2.1.1:20\nsequence little\n  category sportsman\n  1 5.2.1.1:190\n  2 1.2.1.1:190\n  3 2.2.1.1:190\n  4 7.4.1.1:1\n"
	for sequence, want := range map[string]code.Reason{"without": code.NotInSequence, "little": code.LittleK} {
		p := planOn(t, book, sequence)
		requireSoundPlan(t, p)
		require.Len(t, p.Aside, 1, sequence)
		assert.Equal(t, "7", p.Aside[0].Group)
		assert.Equal(t, want, p.Aside[0].Reason, sequence)
	}
	assert.Empty(t, planOf(t, book).Aside)
}

// A family that the asked sequence lacks has no gain on it; weighted lines are in
// its K; what no flight has graded is named.
func TestPlanForASequence(t *testing.T) {
	book := forecastHead + "sequence short\n  category sportsman\n  1 7.4.1.1:10\n  2 5.2.1.1:17\n  3 9.9.1.4:3\n  positioning K 10\n" + flownMonthly(8)
	p := planOn(t, book, "short")
	requireSoundPlan(t, p)
	for _, item := range p.Items {
		assert.InDelta(t, map[string]float64{"7": 10, "5": 17}[item.Group]/40, item.Share, 1e-12, item.Group)
	}
	assert.Equal(t, []string{"9.9"}, p.Unseen)
	none := planOn(t, book+"sequence other\n  category sportsman\n  1 9.9.1.4:3\n", "other")
	assert.Empty(t, none.Items)
	assert.Equal(t, code.NoGain, none.Lack.Reason)
	assert.Zero(t, none.Lack.Families)
	assert.Equal(t, code.NoGain, planOn(t, forecastHead+flownMonthly(8), "uncoded").Lack.Reason)
}

// Without a sequence it is the known flown last, or one typed behind it that
// nobody has flown; practice, void flights and unknowns are none.
func TestPlanForTheLatestKnown(t *testing.T) {
	known := "sequence known-27\n  category sportsman\n  programme known\n  1 7.4.1.1:10\n  2 5.2.1.1:17\n"
	book := forecastHead + flownMonthly(8)
	assert.Equal(t, "known-27", planOf(t, book+known).Sequence.Handle)
	assert.Equal(t, "known-26", planOf(t, known+strings.TrimPrefix(book, "\n")).Sequence.Handle, "it stands before the one that was flown")
	assert.Equal(t, "known-26", planOf(t, book+strings.Replace(known, "sportsman", "intermediate", 1)).Sequence.Handle)
	assert.Equal(t, "known-26", planOf(t, book+"flight 2026-11-01 ines unknown\n  sequence short\n  panel marek\n  1 7\n  2 6\n"+
		"sequence short\n  category sportsman\n  1 7.4.1.1:10\n  2 5.2.1.1:17\n").Sequence.Handle)
	yuki := "pilot yuki\nflight 2026-04-18 yuki known\n  sequence known-27\n  panel marek\n  1 7\n  2 7\n"
	assert.Equal(t, "known-26", planOf(t, book+known+yuki).Sequence.Handle, "somebody has flown it")
	assert.Equal(t, "known-26", planOf(t, book+known+strings.Replace(yuki, "2026-04-18", "2027-04-18", 1)).Sequence.Handle, "somebody will: it was not known on the day asked about")
}

// The flights are those of the last two years up to the day asked about, of the
// category of the latest; what chooses flights of a page narrows nothing.
func TestPlanFlights(t *testing.T) {
	old := gradedFlight("2023-04-18 ines known", "1", "9", "9", "9", "9", "9")
	assert.Equal(t, 8, planOf(t, forecastHead+old+flownMonthly(8)).Flights)
	l := testkit.BookOf(t, forecastHead+flownMonthly(8))
	ines := l.PilotNamed("ines")
	contestless := analysis.PlanOf(l, season.Selection{Pilot: ines, Season: 2026, Since: l.Flights[5].Date}, nil)
	assert.Equal(t, 8, contestless.Flights)
	until := analysis.PlanOf(l, season.Selection{Pilot: ines, Until: l.Flights[5].Date}, nil)
	assert.Equal(t, 6, until.Flights)
	assert.Zero(t, analysis.PlanOf(l, season.Selection{Pilot: ines, Season: 2025}, nil).Flights, "as of the last day of 2025")
}

// Too little flown, or nothing to tell families apart by: no recommendation.
func TestPlanOfTooLittle(t *testing.T) {
	for name, book := range map[string]string{
		"nothing":      forecastHead,
		"two families": "pilot ines\nsequence known-26\n  category sportsman\n  1 7.4.1.1:10\n  2 5.2.1.1:17\n" + gradedFlight("2026-04-18 ines known", "6", "7"),
		"few":          forecastHead + flownMonthly(3),
		"no codes":     forecastHead + "flight 2026-04-18 ines known\n  sequence uncoded\n  panel marek\n" + markRows([]string{"6", "7", "8"}),
		"no marks":     forecastHead + "flight 2026-04-18 ines known\n  sequence known-26\n  official 400\n",
	} {
		p := planOf(t, book)
		assert.Empty(t, p.Items, name)
		requireSoundPlan(t, p)
	}
}

// After a move the category left has the flights that a plan needs: it is named, while
// the new one is too thin, and no other time.
func TestPlanElsewhere(t *testing.T) {
	moved := "flight 2026-11-18 ines known\n  sequence known-26\n  category advanced\n  panel marek\n" + markRows([]string{"6", "7", "8", "5", "6.5", "9"})
	book := forecastHead + flownMonthly(4)
	p := planOf(t, book)
	assert.Empty(t, p.Elsewhere)
	l := testkit.BookOf(t, book+moved)
	ines := l.PilotNamed("ines")
	p = analysis.PlanOf(l, season.Selection{Pilot: ines}, nil)
	assert.Equal(t, "advanced", p.Category)
	assert.Equal(t, "sportsman", p.Elsewhere)
	category, enough := analysis.PlanCategory(l, ines)
	assert.Equal(t, "sportsman", category)
	assert.True(t, enough)
	assert.Empty(t, analysis.PlanOf(l, season.Selection{Pilot: ines, Category: "sportsman"}, nil).Elsewhere)
	few := testkit.BookOf(t, forecastHead+flownMonthly(3)+moved)
	category, enough = analysis.PlanCategory(few, few.PilotNamed("ines"))
	assert.Empty(t, category)
	assert.False(t, enough)
}

// A hard zero for rolling the wrong way is no lack of skill: it moves no level,
// and stands by itself with what it cost, K times the flight's other grades.
func TestPlanKeepsZerosApart(t *testing.T) {
	book := seasonOf(fourFamilies, []float64{7, 7, 7, 7, 7, 7, 7, 7})
	zeroed := strings.Replace(book, "  3 7\n", "  3 HZ\n", 3)
	require.NotEqual(t, book, zeroed)
	clean, p := planOf(t, book), planOf(t, zeroed)
	assert.Equal(t, analysis.PlanZeros{}, clean.Zeros)
	assert.Equal(t, []int{3, 3}, []int{p.Zeros.Figures, p.Zeros.Flights})
	require.Len(t, p.Zeros.Of, 1)
	assert.Equal(t, []int{3, 3}, []int{p.Zeros.Of[0].Number, p.Zeros.Of[0].Times}, "the third figure, three times")
	assert.InDelta(t, 3*12*7/12.0, p.Zeros.Points, 1)
	assert.InDelta(t, 12*p.Zeros.Points, p.Zeros.Cost, 1e-9, "over all twelve flights")
	cost, percent := 0.0, 0.0
	l := testkit.BookOf(t, zeroed)
	for _, f := range l.Flights {
		if points, of, ok := analysis.ZerosCost(f); ok {
			cost, percent = cost+points, percent+of/3
		}
	}
	assert.InDelta(t, cost, p.Zeros.Cost, 1e-9, "as the season says of each flight")
	assert.InDelta(t, percent, p.Zeros.Percent, 1e-9)
	nothingElse := planOf(t, regexp.MustCompile(`(?m)^(  \d) [\d.]+$`).ReplaceAllString(book, "$1 HZ"))
	assert.Equal(t, []int{12 * 8, 12}, []int{nothingElse.Zeros.Figures, nothingElse.Zeros.Flights})
	assert.True(t, math.IsNaN(nothingElse.Zeros.Points), "no figure to tell the cost by")
	for _, item := range p.Items {
		assert.False(t, item.Weak, item.Group)
		assert.InDelta(t, 70, item.Shrunken, 1)
	}
}

// Nobody is sent to what is not flown, nor told that it was weak and left out.
func TestPlanWithoutWhatIsNotFlown(t *testing.T) {
	book := strings.Replace(seasonOf(fourFamilies, []float64{5.5, 5.5, 7, 7, 7, 7, 7, 7}), "pilot ines\n", "pilot ines\n  not-flown 7 \"engine mount\"\n", 1)
	p := planOf(t, book)
	requireSoundPlan(t, p)
	assert.Empty(t, p.Aside)
	for _, item := range p.Items {
		assert.NotEqual(t, "7", item.Group)
	}
	require.Len(t, p.NotFlown, 1)
}

// What comes back in the family, by the one rule of what comes back, and the
// latest drill on it or on the family stand beside the gain; matters of safety do
// not, and a fault that a drill has mended comes back no more.
func TestPlanWithFaultAndDrill(t *testing.T) {
	book := strings.Replace(forecastHead+flownMonthly(8), "pilot ines", "coach marek\npilot yuki\npilot ines", 1)
	l := testkit.BookOf(t, book)
	review := func(i int, faults string) string { return "review " + l.Flights[i].Name + " by marek\n" + faults }
	for i := range 4 {
		book += review(i, "  fault 1 radius 2x\n  fault 2 loose-article\n")
	}
	item := func(book, group string) analysis.PlanItem {
		for _, item := range planOn(t, book, "same-again").Items {
			if item.Group == group {
				return item
			}
		}
		require.Fail(t, "no item "+group)
		return analysis.PlanItem{}
	}
	loop := item(book, "7")
	require.NotNil(t, loop.Recurring)
	assert.Equal(t, "radius", loop.Recurring.Kind.Name)
	assert.Equal(t, []int{4, 4}, []int{loop.Recurring.Flights, loop.Recurring.Exposed})
	assert.Nil(t, loop.Drill)
	without := planOf(t, book).Without
	require.Len(t, without, 1)
	assert.Equal(t, "radius", without[0].Kind.Name)

	assert.Nil(t, planOf(t, book).Drilled, "no drill on it")
	failing := book + "drill 2026-01-01 ines radius\n"
	require.NotNil(t, planOf(t, failing).Drilled, "what comes back most has an open drill")
	assert.Equal(t, "radius", planOf(t, failing).Drilled.Kind.Name)
	assert.Nil(t, planOf(t, failing+"  ended 2026-01-02\n").Drilled)
	rarer := failing
	for i := range 4 {
		faults := "  fault 1 pitch 5deg\n"
		if i > 0 {
			faults = "  fault 1 radius\n" + faults
		}
		rarer = strings.Replace(rarer, "  fault 1 radius 2x\n", faults, 1)
	}
	behind := planOf(t, rarer)
	assert.Equal(t, "pitch", behind.Without[0].Kind.Name, "comes back more often")
	require.NotNil(t, behind.Drilled, "what comes back less often does so in spite of its drill")
	assert.Equal(t, []int{3, 4}, []int{behind.Drilled.Flights, behind.Drilled.Exposed})
	assert.Equal(t, analysis.DrillTooFew, behind.DrilledBy.Word)

	mended := book + "drill " + l.Flights[3].Date.String() + " ines radius \"one\"\n" + review(4, "  fault 1 pitch 5deg\n") + review(5, "  note \"clean\"\n") + review(6, "  note \"clean\"\n") + review(7, "  note \"clean\"\n")
	loop = item(mended, "7")
	assert.Nil(t, loop.Recurring, "none since the drill; pitch came once")
	assert.Empty(t, planOf(t, mended).Without)

	book += "drill 2026-05-01 ines radius \"one\"\ndrill 2026-06-01 ines 7 \"two\"\ndrill 2026-07-01 yuki 7 \"hers\"\ndrill 2026-12-20 ines 7 \"to come\"\n"
	loop = item(book, "7")
	require.NotNil(t, loop.Drill)
	assert.Equal(t, "two", loop.Drill.Text)
}

// A fault of several families is counted in the family of its line: what was noted
// in other figures is none of its flights, and the one that comes back most there
// is named, whatever comes back more elsewhere.
func TestPlanCountsAFaultInItsFamily(t *testing.T) {
	book := strings.Replace(forecastHead+flownMonthly(8), "pilot ines", "coach marek\npilot ines", 1)
	l := testkit.BookOf(t, book)
	for i, faults := range []string{"1 heading 5deg|2 heading 5deg|1 radius", "2 heading 5deg|1 radius", "2 heading 5deg|1 radius", "1 heading 5deg|2 heading 5deg"} {
		book += "review " + l.Flights[i].Name + " by marek\n  fault " + strings.ReplaceAll(faults, "|", "\n  fault ") + "\n"
	}
	loops := func(book string) analysis.PlanItem {
		items := planOn(t, book, "same-again").Items
		at := slices.IndexFunc(items, func(i analysis.PlanItem) bool { return i.Group == "7" })
		require.GreaterOrEqual(t, at, 0)
		require.NotNil(t, items[at].Recurring)
		return items[at]
	}
	item := loops(book)
	assert.Equal(t, "radius", item.Recurring.Kind.Name, "heading comes back more, in others")
	assert.Equal(t, []int{3, 4}, []int{item.Recurring.Flights, item.Recurring.Exposed})
	item = loops(strings.ReplaceAll(book, "  fault 1 radius\n", ""))
	assert.Equal(t, "heading", item.Recurring.Kind.Name)
	assert.Equal(t, []int{2, 4, 4, 4}, []int{item.Recurring.Flights, item.Recurring.Exposed, item.Anywhere.Flights, item.Anywhere.Exposed})
}

// Neighbours whose intervals overlap by more than half of the shorter one are
// not told apart; the last of all is apart from nothing.
func TestPlanApart(t *testing.T) {
	p := planOf(t, forecastHead+flownMonthly(8))
	for i := 0; i+1 < len(p.Items); i++ {
		a, b := p.Items[i], p.Items[i+1]
		overlap := min(a.GainHigh, b.GainHigh) - max(a.GainLow, b.GainLow)
		assert.Equal(t, overlap <= min(a.GainHigh-a.GainLow, b.GainHigh-b.GainLow)/2, a.Apart, i)
	}
}

// Whatever was flown, the plan is sound.
func TestPlanProperties(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		book := forecastHead
		marks := rapid.SampledFrom([]string{"0", "5", "6", "6.5", "7", "7.5", "10", "HZ", "AV"})
		for i := range rapid.IntRange(0, 5).Draw(r, "n") {
			book += gradedFlight(season.Date(20480+20*i).String()+" ines known", rapid.SliceOfN(marks, 6, 6).Draw(r, "row")...)
		}
		requireSoundPlan(r, planOf(t, book))
	})
}

// A rise that hangs on one zero early in the season is none for a plan.
func TestPlanTakesNoRiseFromAZero(t *testing.T) {
	book := func(first string) string {
		b := "pilot ines\nsequence known-26\n  category sportsman\n  1 7.4.1.1:10\n  2 5.2.1.1:10\n  3 2.2.1.1:10\n  4 9.1.1.1:10\n"
		for i, loop := range []string{first, "6", "5.5", "6", "6.5", "6", "6.5"} {
			b += fmt.Sprintf("contest c%d 2026-%02d-11\nflight 2026-%02d-11 ines known\n  contest c%d\n  sequence known-26\n  panel A\n", i, i+4, i+4, i) + markRows([]string{loop, "7", "7", "7"})
		}
		return b
	}
	loops := func(first string) analysis.PlanItem {
		p := planOf(t, book(first))
		at := slices.IndexFunc(p.Items, func(i analysis.PlanItem) bool { return i.Group == "7" })
		require.GreaterOrEqual(t, at, 0)
		return p.Items[at]
	}
	low := loops("0")
	require.Equal(t, analysis.Improving, low.Trend.Word)
	assert.True(t, low.Rising, "a grade of 0.0 is no zero")
	zero := loops("HZ")
	require.Equal(t, analysis.Improving, zero.Trend.Word)
	assert.False(t, zero.Rising)
	assert.Len(t, zero.Trend.HangsOn, 1)
}

// What was found: of a pilot who has flown frees alone at a category the plan was for a free,
// though a known of it stands in the ledger and others fly it.
func TestPlanForTheKnownThatOthersFly(t *testing.T) {
	book := strings.ReplaceAll(seasonOf(fourFamilies, []float64{6, 6, 7, 7, 7, 7, 7, 7}), "programme known", "programme free")
	book = strings.ReplaceAll(strings.ReplaceAll(book, "ines known", "ines free"), "known-26", "free-26")
	require.Equal(t, "free-26", planOf(t, book).Sequence.Handle)
	others := "pilot yuki\nsequence known-26\n  category sportsman\n  programme known\n  1 7.4.1.1:10\n  2 5.2.1.1:17\n" +
		"flight 2026-03-01 yuki known\n  sequence known-26\n  panel AK\n  1 7\n  2 7\n"
	assert.Equal(t, "known-26", planOf(t, book+others).Sequence.Handle)
	assert.Equal(t, "free-26", planOf(t, book+strings.Replace(others, "category sportsman", "category advanced", 1)).Sequence.Handle)
}

// What was found: the plan sent a pilot with poor spins to practise lines, by the figures that
// both have.
func TestPlanFoldsWhatLiesLowWithAnother(t *testing.T) {
	folded := 0
	for seed := range uint64(40) {
		book := twoSequences(rand.New(rand.NewPCG(seed, 1)), map[string]float64{"spins": -2.5})
		p := planOf(t, book)
		groups := map[string]bool{}
		for _, item := range p.Items {
			groups[item.Group] = true
		}
		for _, item := range p.Folded {
			folded++
			assert.False(t, groups[item.Group], item.Group)
			assert.True(t, slices.ContainsFunc(item.LowWith, func(other string) bool { return groups[other] }), item.Group)
		}
	}
	assert.GreaterOrEqual(t, folded, 5)
}
