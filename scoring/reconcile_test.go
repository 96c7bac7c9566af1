package scoring

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// checkFlight is a panel of three with a minority's hard zero and a gap.
// Its values [derived]: filled 7.25 and 7.75; totals 732.0, 691.0, 741.0;
// mean 721.3333.
func checkFlight(t *testing.T) Sheet {
	return Sheet{Judges: 3, Lines: []Line{
		row(t, Figure, 10, "8.0 7.5 8.5"),
		row(t, Figure, 17, "7.5 HZ 7.0"),
		row(t, Figure, 13, "7.0 6.5 7.5"),
		row(t, Figure, 31, "6.5 6.0 7.0"),
		row(t, Figure, 19, "8.0 AV 7.5"),
		row(t, Positioning, 10, "8.0 7.5 8.0"),
	}}
}

// tarnFlight is a panel of five with penalties of 50. [derived]: raw 590.4917,
// points 540.4917, maximum 800; with dropped extremes points 539.15.
func tarnFlight(t *testing.T) Sheet {
	return Sheet{Judges: 5, Penalties: []Decimal{{Units: 20}, {Units: 30}}, Lines: []Line{
		row(t, Figure, 14, "8.0 7.5 8.0 8.5 7.5"),
		row(t, Figure, 23, "7.0 HZ 6.5 7.0 AV"),
		row(t, Figure, 14, "6.5 6.0 7.0 6.5 6.0"),
		row(t, Figure, 9, "8 8 8.5 8 -"),
		row(t, Positioning, 20, "8.0 7.5 8.0 8.0 8.5"),
	}}
}

// reconcile compares a sheet with a printed total, judges named A, B, C ...
func reconcile(t *testing.T, sheet Sheet, points string, more ...func(*Printed)) Reconciliation {
	t.Helper()
	printed := Printed{Points: decimalOf(t, points), Judges: panelNames[:sheet.Judges]}
	for _, change := range more {
		change(&printed)
	}
	r := Reconcile(sheet, sheet.Score(), printed)
	if !r.Percent { // of those TestReconcileEqualsOracle
		requireTrue(t, sheet, printed, r)
	}
	return r
}

func withMaximum(t *testing.T, text string) func(*Printed) {
	maximum := decimalOf(t, text)
	return func(p *Printed) { p.Maximum = &maximum }
}

func withTotals(t *testing.T, texts ...string) func(*Printed) {
	return func(p *Printed) {
		for _, text := range texts {
			p.JudgeTotals = append(p.JudgeTotals, decimalOf(t, text))
		}
	}
}

func missing(names ...string) func(*Printed) { return func(p *Printed) { p.Missing = names } }

func TestReconcileAgrees(t *testing.T) {
	// [derived]: 540.5 agrees with 540.4917, 540.4 does not.
	for points, agrees := range map[string]bool{
		"540.49": true, "540.5": true, "540": true, "540.4917": true, "540.4": false, "540.48": false, "540.50": false, "541": false,
	} {
		r := reconcile(t, tarnFlight(t), points)
		assert.Equal(t, agrees, r.Agrees, points)
		if agrees {
			assert.Empty(t, r.Explanations, points)
			assert.Zero(t, r.Fits, points)
		}
	}
	r := reconcile(t, tarnFlight(t), "540.48")
	assert.Equal(t, "-0.0117", r.Difference.FloatString(4), "printed minus own")
	assert.False(t, r.Coarse)
	assert.True(t, reconcile(t, tarnFlight(t), "540.4").Coarse)
}

func TestReconcileRules(t *testing.T) {
	glider := tarnFlight(t)
	glider.Lines = append(glider.Lines, row(t, Harmony, 10, "7 7 7.5 8 7"))
	asGiven := tarnFlight(t)
	asGiven.Style.HardZero = AsGiven
	dropping := tarnFlight(t)
	dropping.Style.DropExtremes = true
	ruled := tarnFlight(t)
	ruled.Lines[0] = row(t, Figure, 14, "HZ HZ 8 9 AV")
	ruled.Lines[0].Decision = RuledFill
	single := checkFlight(t)
	single.Penalties = []Decimal{{Units: 30}}
	for _, c := range []struct {
		name, points, want string
		sheet              Sheet
	}{
		// [derived]: fill rounding 0.1, half up, 721.93; 0.5: 724.33.
		{"to 0.1", "721.93", "rules fill-rounding 0.1", checkFlight(t)},
		{"to 0.5", "724.33", "rules fill-rounding 0.5", checkFlight(t)},
		{"dropped", "539.15", "rules drop-extremes true", tarnFlight(t)},
		{"not dropped", "540.49", "rules drop-extremes false", dropping},
		{"as given", "501.20", "rules hard-zero as-given", tarnFlight(t)},
		{"majority", "540.49", "rules hard-zero majority", asGiven},
		{"zero", "429.89", "rules half zero", ruled},
		{"positioning", "380.49", "rules without [positioning]", tarnFlight(t)},
		{"harmony", "540.49", "rules without [harmony]", glider},
		{"both", "380.49", "rules without [positioning harmony]", glider},
		{"not deducted", "590.49", "rules penalty 0 not, in all 0.00", tarnFlight(t)},
		{"twice", "490.49", "rules penalty 0 twice, in all 100.00", tarnFlight(t)},
		{"times judges", "340.49", "rules penalty 0 each-judge, in all 250.00", tarnFlight(t)},
		{"by judges", "580.49", "rules penalty 0 divided, in all 10.00", tarnFlight(t)},
		{"one of two", "560.49", "rules penalty 1 not, in all 30.00", tarnFlight(t)},
		{"the only one", "721.33", "rules penalty 0 not, in all 0.00", single},
	} {
		r := reconcile(t, c.sheet, c.points)
		require.NotEmpty(t, r.Explanations, c.name)
		first := r.Explanations[0]
		if first.Kind == KindPenalty { // a multiple of 5 below the own total, whatever else it is
			first = r.Explanations[1]
		}
		assert.Equal(t, c.want, brief(first), c.name)
		assert.Equal(t, KindRules, first.Kind, c.name)
	}
	// [derived] Of 30 and 15 from two judges, 30 divided and 15 left out both come to
	// 15 less than 45; of 20 and 20, one left out and both divided, and the two are
	// equal.
	two := func(points string, penalties ...int64) []string {
		sheet := Sheet{Judges: 2, Lines: []Line{row(t, Figure, 23, "7 7")}}
		for _, p := range penalties {
			sheet.Penalties = append(sheet.Penalties, Decimal{Units: p})
		}
		return briefs(reconcile(t, sheet, points))
	}
	assert.Equal(t, []string{
		"rules penalty 2 not, in all 32.00", "rules penalty 1 divided, in all 32.00",
	}, two("129.00", 32, 16))
	assert.Equal(t, []string{
		"rules penalty 1 not, in all 22.00", "rules penalty 0 divided, in all 22.00",
	}, two("139.00", 22, 22))
	// From two judges, twice and once for each judge are the same.
	pair := Sheet{Judges: 2, Penalties: []Decimal{{Units: 31}}, Lines: []Line{row(t, Figure, 23, "7 7")}}
	assert.Equal(t, []string{"rules penalty 0 twice, in all 62.00"}, briefs(reconcile(t, pair, "99.00")))
}

func TestReconcileExplanationFields(t *testing.T) {
	numbered := func(p *Printed) { p.Numbers = []int{2, 3, 5, 8, 9} } // a practice flight, some figures not flown
	r := reconcile(t, checkFlight(t), "726.50", numbered)
	require.Len(t, r.Explanations, 1)
	assert.Equal(t, Explanation{
		Kind: KindMark, Line: Figure, Figure: 8, Step: 1, Last: 1,
		Cells: []CellChange{
			{Judge: "A", Figure: 8, Was: markOf(t, "6.5"), Would: markOf(t, "7")},
			{Judge: "B", Figure: 8, Was: markOf(t, "6"), Would: markOf(t, "6.5")},
			{Judge: "C", Figure: 8, Was: markOf(t, "7"), Would: markOf(t, "7.5")},
		},
	}, r.Explanations[0])
	lower := reconcile(t, checkFlight(t), "719.67", numbered).Explanations // figure 1 has the same K
	assert.Equal(t, []any{Figure, 2, -1}, []any{lower[0].Line, lower[0].Figure, lower[0].Step})
	assert.Equal(t, []any{Positioning, 0, -1}, []any{lower[1].Line, lower[1].Figure, lower[1].Step})
	k := Reconcile(checkFlight(t), checkFlight(t).Score(), Printed{Points: decimalOf(t, "785.33")})
	assert.Contains(t, briefs(k), "k 1 18 for 10", "numbers 1, 2, 3 where none are given")
	nameless := Reconcile(checkFlight(t), checkFlight(t).Score(), Printed{Points: decimalOf(t, "726.50")})
	assert.Equal(t, "2", nameless.Explanations[0].Cells[1].Judge)
}

// TestReconcileJudgeTotals: the typed totals confine the search to the sheets
// that differ, and what gives them all comes first.
func TestReconcileJudgeTotals(t *testing.T) {
	// [derived]: the own totals are 732, 691 and 741.
	r := reconcile(t, checkFlight(t), "721.33", withTotals(t, "732.0", "691", "741.00"))
	assert.True(t, r.Agrees)
	for j, d := range r.Judges {
		assert.True(t, d.Agrees, j)
	}
	assert.Equal(t, "691", r.Judges[1].Own.RatString())

	r = reconcile(t, checkFlight(t), "726.50", withTotals(t, "732.0", "706.50", "741.0"))
	assert.Equal(t, []bool{true, false, true}, []bool{r.Judges[0].Agrees, r.Judges[1].Agrees, r.Judges[2].Agrees})
	assert.Equal(t, []string{"mark 4 +1 B"}, briefs(r))
	assert.False(t, r.Explanations[0].Contradicts)

	// All sheets agree: no mark and no K is out, so the total is.
	r = reconcile(t, checkFlight(t), "726.50", withTotals(t, "732", "691", "741"))
	assert.Empty(t, r.Explanations)

	// K 11 for 10 at figure 2 and a point more from one judge at figure 1 are both
	// 8 points, but only the K gives the judges' totals too.
	sheet := Sheet{Judges: 2, Lines: []Line{row(t, Figure, 16, "5 5"), row(t, Figure, 10, "8 8")}}
	mark := "mark 1 +2 A B"
	k := "k 2 11 for 10"
	assert.Equal(t, []string{mark, k}, briefs(reconcile(t, sheet, "168.00")))
	r = reconcile(t, sheet, "168.00", withTotals(t, "168", "168"))
	assert.Equal(t, []string{k, mark}, briefs(r))
	assert.Equal(t, []bool{false, true}, []bool{r.Explanations[0].Contradicts, r.Explanations[1].Contradicts})
	assert.Zero(t, r.Fits, "a mark that goes against the judges' totals does not fit")
	assert.Equal(t, 2, reconcile(t, sheet, "168.00").Fits)

	// Sheets that agree contain no wrong K; one of them may have been left out.
	assert.Empty(t, reconcile(t, sheet, "168.00", withTotals(t, "160", "160")).Explanations)
	left := reconcile(t, checkFlight(t), "736.50", withTotals(t, "732", "691", "741"))
	assert.Equal(t, []string{"judge B"}, briefs(left))
	assert.False(t, left.Explanations[0].Contradicts)

	// [derived]: of B and E the totals as they count hold filled marks, as typed those
	// are nothing: 105 + 84 + 72 + 150, and 105 + 84 + 170. Either agrees, and where
	// neither does no other sheet is searched.
	r = reconcile(t, tarnFlight(t), "540.49", withTotals(t, "596", "411", "596", "603", "589.29"))
	assert.True(t, r.Judges[1].Agrees && r.Judges[4].Agrees)
	assert.Equal(t, []string{"3409/6", "411"}, []string{r.Judges[1].Own.RatString(), r.Judges[1].Typed.RatString()})
	r = reconcile(t, tarnFlight(t), "541.89", withTotals(t, "596", "411", "603", "603", "359"))
	assert.Equal(t, []string{"mark 1 +1 C", "mark 3 +1 C"}, briefs(r))
	assert.False(t, r.Explanations[0].Contradicts, "a sheet as typed contradicts nothing")

	// A figure zeroed by the panel counts nothing, and is a grade on its sheet.
	zeroed := Sheet{Judges: 3, Lines: []Line{row(t, Figure, 10, "HZ HZ 6"), row(t, Figure, 10, "7 7 7")}}
	for _, total := range []string{"70", "130"} {
		assert.True(t, reconcile(t, zeroed, "70", withTotals(t, "70", "70", total)).Judges[2].Agrees, total)
	}
	assert.False(t, reconcile(t, zeroed, "70", withTotals(t, "70", "70", "100")).Judges[2].Agrees)

	// While a figure is not decided, the sheets as typed are what there is.
	open := Sheet{Judges: 2, Lines: []Line{row(t, Figure, 10, "HZ 6"), row(t, Figure, 10, "7 7")}}
	r = reconcile(t, open, "70", withTotals(t, "70", "130"))
	assert.True(t, r.Judges[0].Agrees && r.Judges[1].Agrees)

	wrong := reconcile(t, checkFlight(t), "721.33", withTotals(t, "732"))
	assert.Nil(t, wrong.Judges, "not one for each judge")
}

// TestReconcileSupposedMaximum: with another maximum nothing is searched but under the
// supposition that it alone is a slip.
func TestReconcileSupposedMaximum(t *testing.T) {
	// [derived]: half a point more from B on figure 4 is 726.50 of 1000 for 721.33.
	r := reconcile(t, checkFlight(t), "726.50", withMaximum(t, "1010"))
	assert.Empty(t, r.Explanations)
	require.NotNil(t, r.Supposed)
	plain := reconcile(t, checkFlight(t), "726.50")
	assert.Equal(t, briefs(plain), briefs(*r.Supposed))
	assert.Equal(t, plain.Chances, r.Supposed.Chances)
	assert.Equal(t, plain.Difference, r.Supposed.Difference)
	agreeing := reconcile(t, checkFlight(t), "721.33", withMaximum(t, "1010"))
	assert.Equal(t, []bool{false, true}, []bool{agreeing.Agrees, agreeing.Supposed.Agrees})
	for printed, maximum := range map[string]string{"72.00": "100", "721.33": "1000", "757.40": "1050", "1000.01": "1010"} {
		assert.Nil(t, reconcile(t, checkFlight(t), printed, withMaximum(t, maximum)).Supposed, printed)
	}
	assert.Nil(t, Compare(checkFlight(t), checkFlight(t).Score(), Printed{Points: decimalOf(t, "700"), Maximum: &Decimal{Units: 1010}}).Supposed)
}

func TestReconcileMaximum(t *testing.T) {
	same := reconcile(t, tarnFlight(t), "540.49", withMaximum(t, "800.0"))
	assert.False(t, same.MaximumDiffers)
	assert.True(t, same.Agrees)
	// [derived]: 540.4917 of 800 is 67.56 %, 1080.98 of 1600.
	for printed, agrees := range map[string]bool{"67.56": true, "67.6": true, "67.55": false} {
		r := reconcile(t, tarnFlight(t), printed, withMaximum(t, "100"))
		assert.True(t, r.MaximumDiffers, printed)
		assert.Equal(t, agrees, r.Agrees, printed)
		assert.Nil(t, r.Difference, printed)
		assert.True(t, r.Percent, printed)
		assert.Equal(t, agrees, len(r.Explanations) == 0, printed)
	}
	r := reconcile(t, tarnFlight(t), "1080.98", withMaximum(t, "1600"))
	assert.True(t, r.Agrees)
	assert.Equal(t, "-0.0002", r.PercentDifference.FloatString(4), "printed minus own")
	assert.False(t, reconcile(t, tarnFlight(t), "5", withMaximum(t, "0")).Agrees)
}

func TestReconcileMissing(t *testing.T) {
	plain := Sheet{Judges: 3, Lines: []Line{
		row(t, Figure, 10, "7 7 8"), row(t, Figure, 13, "7 7 7.5"), row(t, Figure, 21, "6.5 5 5"),
	}} // totals 297.5, 266 and 282.5, maximum 440
	dropping := tarnFlight(t)
	dropping.Style.DropExtremes = true
	open := Sheet{Judges: 2, Lines: []Line{row(t, Figure, 10, "HZ 8")}}
	penalised := plain
	penalised.Penalties = []Decimal{{Units: 20}}
	for _, c := range []struct {
		sheet   Sheet
		points  string
		names   []string
		total   string // "" where nothing can be said
		within  string
		notes   [3]bool // outside, uneven, rough
		most    int64
		unknown MissingUnknown
	}{
		// 4 x 283.75 - 846 = 289.
		{plain, "283.75", []string{"D"}, "289", "1/50", [3]bool{}, 440, ""},
		{penalised, "263.75", []string{"D"}, "289", "1/50", [3]bool{}, 440, ""},
		{plain, "283.80", []string{"D"}, "1446/5", "1/50", [3]bool{false, true, false}, 440, ""},
		{plain, "283", []string{"D"}, "286", "2", [3]bool{}, 440, ""},
		{plain, "400.00", []string{"D"}, "754", "1/50", [3]bool{true, false, false}, 440, ""},
		{plain, "200.00", []string{"D"}, "-46", "1/50", [3]bool{true, false, false}, 440, ""},
		{plain, "283.60", []string{"D", "E"}, "572", "1/40", [3]bool{}, 880, ""},
		{checkFlight(t), "721.33", []string{"D"}, "18033/25", "1/50", [3]bool{false, false, true}, 1000, ""},
		{dropping, "540.49", []string{"F"}, "", "", [3]bool{}, 0, UnknownExtremes},
		{open, "40.00", []string{"C"}, "", "", [3]bool{}, 0, UnknownUndecided},
		{plain, "0.00", []string{"D"}, "", "", [3]bool{}, 0, UnknownPenalty},
	} {
		r := reconcile(t, c.sheet, c.points, missing(c.names...))
		require.Len(t, r.Explanations, 1, c.points)
		assert.Equal(t, Explanation{Kind: KindSheet}, r.Explanations[0])
		assert.False(t, r.Agrees, c.points)
		assert.Nil(t, r.Difference, c.points)
		assert.Equal(t, c.unknown, r.MissingUnknown)
		assert.Equal(t, c.most, r.MissingMost, c.points)
		if c.total == "" {
			assert.Nil(t, r.MissingTotal, c.points)
			continue
		}
		assert.Equal(t, []string{c.total, c.within}, []string{r.MissingTotal.RatString(), r.MissingWithin.RatString()}, c.points)
		assert.Equal(t, c.notes, [3]bool{r.MissingOutside, r.MissingUneven, r.MissingRough}, c.points)
	}
	other := reconcile(t, plain, "64.5", missing("D"), withMaximum(t, "130"))
	assert.Equal(t, UnknownMaximum, other.MissingUnknown)
	// 64.5 of 100 is 283.8 of 440, give or take 0.22: 4 x 283.8 - 846.
	percent := reconcile(t, plain, "64.5", missing("D"), withMaximum(t, "100"))
	assert.Equal(t, []string{"1446/5", "22/25"}, []string{percent.MissingTotal.RatString(), percent.MissingWithin.RatString()})
	assert.False(t, percent.MissingUneven)
}

func TestReconcileUndecided(t *testing.T) {
	// [derived]: two of four hard zeros at K 10 is 0 or 75; with 92.625 beside it.
	one := Sheet{Judges: 4, Lines: []Line{row(t, Figure, 10, "HZ HZ 7 8"), row(t, Figure, 13, "7 7 7.5 7")}}
	for points, ends := range map[string][2]bool{"92.63": {true, false}, "167.62": {false, true}, "120.00": {}} {
		r := reconcile(t, one, points)
		assert.True(t, r.Undecided)
		assert.Nil(t, r.Difference)
		assert.Equal(t, ends, [2]bool{r.AgreesLow, r.AgreesHigh}, points)
		assert.Equal(t, ends[0] || ends[1], r.Agrees, points)
		if r.Agrees {
			assert.Empty(t, r.Explanations, points)
		}
	}
	// A mark that decides the figure needs no ruling: (6 + 7 + 8) / 3 filled is 70.
	// It is said once, though it comes from either end.
	assert.Equal(t, []string{
		"penalty 5, 0 each ruled [2 0]",
		"mark 1 -2 C D ruled [2 0]",
		"mark 1 6.0 for HZ A B",
	}, briefs(reconcile(t, one, "162.63")))
	// Half of one of four at K 13 is 1.625, under either ruling.
	assert.Equal(t, []string{
		"mark 2 +1 A B C D ruled [1 0]",
	}, briefs(reconcile(t, one, "94.25")))
	assert.Equal(t, []string{
		"mark 2 +1 A B C D ruled [2 0]",
	}, briefs(reconcile(t, one, "169.25")))

	two := one
	two.Lines = append(append([]Line(nil), one.Lines...), row(t, Figure, 21, "HZ HZ 5 5"))
	assert.Equal(t, "rules ruled [2 0 1]", briefs(reconcile(t, two, "167.63"))[0])
	// [derived]: A and B 75 + 91, C 70 + 97.5, D 80 + 91.
	for totals, contradicts := range map[string]bool{"166 166 167.5 171": false, "166 166 167.5 172": true, "91 91 97.5 91": true} {
		r := reconcile(t, two, "167.63", withTotals(t, strings.Fields(totals)...))
		i := slices.IndexFunc(r.Explanations, func(e Explanation) bool { return brief(e) == "rules ruled [2 0 1]" })
		require.GreaterOrEqual(t, i, 0, totals)
		assert.Equal(t, contradicts, r.Explanations[i].Contradicts, totals)
	}
	ends := reconcile(t, two, "16.1", withMaximum(t, "100"))
	assert.Equal(t, []bool{true, false}, []bool{ends.MaximumDiffers, ends.Agrees})
	// 92.625 of 440 is 21.05 %, 272.625 is 61.96 %.
	assert.True(t, reconcile(t, two, "21.05", withMaximum(t, "100")).AgreesLow)
	assert.True(t, reconcile(t, two, "61.96", withMaximum(t, "100")).AgreesHigh)
}

// TestReconcilePenaltyToZero: a total cut off at 0 fits any raw score below
// the penalty.
func TestReconcilePenaltyToZero(t *testing.T) {
	sheet := Sheet{Judges: 1, Penalties: []Decimal{{Units: 70}}, Lines: []Line{row(t, Figure, 10, "8")}}
	assert.Equal(t, []string{
		"penalty 10, 0 each",
		"rules penalty 0 twice, in all 140.00",
		"mark 1 -2..-16 A",
	}, briefs(reconcile(t, sheet, "0.00"))[:3])
	assert.True(t, Reconcile(sheet, sheet.Score(), Printed{Points: decimalOf(t, "10.00")}).Agrees)
}

// Where the highest and the lowest of a row are dropped, the mean of the judges' totals is
// not the raw score: what their printed totals differ by says nothing of the flight's.
func TestFromJudgeNeedsTheMeanOfTheTotals(t *testing.T) {
	half := func(marks ...uint8) []Mark {
		row := make([]Mark, len(marks))
		for i, m := range marks {
			row[i] = Mark{Kind: Grade, Half: m}
		}
		return row
	}
	sheet := Sheet{Judges: 5, Lines: []Line{{K: 10, Marks: half(14, 15, 16, 14, 13)}, {K: 10, Marks: half(12, 13, 14, 12, 15)}}}
	totals := func(third int64) (typed []Decimal) {
		for _, units := range []int64{130, 140, third, 130, 140} {
			typed = append(typed, Decimal{Units: units})
		}
		return typed
	}
	printed := Printed{Points: Decimal{Units: 13660, Places: 2}, JudgeTotals: totals(143)}
	assert.True(t, Reconcile(sheet, sheet.Score(), printed).FromJudge, "138 less 7 of 5")
	printed.JudgeTotals = totals(144)
	assert.False(t, Reconcile(sheet, sheet.Score(), printed).FromJudge)
	sheet.Style = Style{DropExtremes: true}
	printed.JudgeTotals = totals(143)
	assert.False(t, Reconcile(sheet, sheet.Score(), printed).FromJudge)
}
