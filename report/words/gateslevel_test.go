package words_test

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season"
	"boxbook/season/analysis/code"
)

// totals are contest flights of one category and programme a fortnight apart
// from 2026-07-30, known by their official percents.
func totals(percents ...float64) string {
	var b strings.Builder
	b.WriteString("pilot ines\n")
	first, _ := season.ParseDate("2026-07-30")
	for i, p := range percents {
		fmt.Fprintf(&b, "flight %s ines known\n  category sportsman\n  official %g of 100\n", first+season.Date(14*i), p)
	}
	return b.String()
}

// The ends of the count's interval are the p with (p - k/n)^2 = z^2 p(1-p)/n, z
// the 95% point of the normal: [derived].
func TestThresholdCount(t *testing.T) {
	for _, c := range []struct {
		percents []float64
		want     string
	}{
		{[]float64{60, 61, 62}, "3 of 3 results reached 60% (by that count alone at least 53% of flights, at 95% confidence);"},
		{[]float64{50, 51, 52}, "0 of 3 results reached 60% (by that count alone at most 47% of flights, at 95% confidence);"},
		{[]float64{62, 51}, "1 of 2 results reached 60% (by that count alone 12 to 88% of flights, at 90% confidence);"},
		{[]float64{62, 51, 70, 55, 66, 59, 61, 64}, "5 of 8 results reached 60% (by that count alone 35 to 84% of flights, at 90% confidence);"},
		{nil, "no result that counts;"},
	} {
		assert.True(t, strings.HasPrefix(evidenceOn(t, totals(c.percents...), "2026-11-25", "threshold").Evidence, c.want), c.want)
	}
}

// Two heaps: by their mean nine of twelve would reach the mark, and five do. Made up.
func TestThresholdOfTwoHeaps(t *testing.T) {
	heaps := evidenceOn(t, totals(58, 85, 59, 84, 58, 59, 58, 85, 59, 86, 58, 85), "2027-01-10", "threshold")
	assert.Contains(t, heaps.Evidence, "5 of 12 results reached 60%")
	assert.Contains(t, heaps.Evidence, "by the level about 9 of them would reach 60%: they are not one level with chance about it")
	assert.Equal(t, code.CannotTell, heaps.State)
}

// A level that rests on printed totals which the marks do not agree with says so. Made up.
func TestThresholdByDisputedTotals(t *testing.T) {
	book := func(official string) string {
		b := "pilot ines\nsequence five\n  category sportsman\n"
		for i := range 5 {
			b += fmt.Sprintf("  %d K 10\n", i+1)
		}
		for i := range 8 {
			b += fmt.Sprintf("flight 2026-%02d-01 ines known\n  sequence five\n  panel A B C\n%s%s", 3+i, markRows(slices.Repeat([]string{"5.5 5.5 5.5"}, 5)), official)
		}
		return b
	}
	gate := func(official string) answers.Gate { return gateOf(ready(t, book(official), ""), "threshold") }
	assert.Equal(t, code.NotMet, gate("").State)
	disputed := gate("  official 350.00\n")
	assert.Equal(t, code.Met, disputed.State, "the printed total counts, as everywhere")
	assert.True(t, disputed.SpeaksAgainst)
	const said = "8 official totals do not agree with the marks; 8 of these flights reach 60% by the total alone"
	d := ready(t, book("  official 350.00\n"), "")
	assert.Contains(t, words.AgainstLine(d), said)
	assert.Contains(t, d.Against, "level, met: "+said)
	assert.NotContains(t, gate("  official 275.00\n").Reasons, code.ByTotals)
}

// [derived]: 1 - .05^(1/n).
func TestZerosNeverSeen(t *testing.T) {
	book := func(first string, figures int) string {
		b := "pilot ines\nsequence s\n  category sportsman\n"
		for i := range figures {
			b += fmt.Sprintf("  %d K 10\n", i+1)
		}
		for i := range 6 {
			row := "7"
			if i == 0 {
				row = first
			}
			b += fmt.Sprintf("flight 2026-10-%02d ines known\n  sequence s\n  panel A\n", i+1)
			b += markRows(append([]string{row}, slices.Repeat([]string{"7"}, figures-1)...))
		}
		return b
	}
	evidence := func(first string, figures int) string {
		return evidenceOn(t, book(first, figures), "2026-11-25", "zeros").Evidence
	}
	assert.Contains(t, evidence("7", 7), "; none counted in 42 figures, up to 7% of figures not ruled out")
	assert.Contains(t, evidence("7", 10), "; none counted in 60 figures, up to 5% of figures not ruled out")
	// The first of six flights is not among the gate's four, and was seen.
	seen := evidence("HZ", 7)
	assert.Contains(t, seen, "0 figures with a zero in the last 4 flights")
	assert.NotContains(t, seen, "none counted in")
}

// steadyGoing are check value A's percents, whose days are not a fortnight apart;
// here they are, and the numbers below are the analysis's own.
var steadyGoing = []float64{68.1, 70.4, 66.9, 71.2, 69.5, 67.8, 72, 69.9}

// The gate says the level, the share and how sure it is, and nothing of another
// model.
func TestLevelSaid(t *testing.T) {
	gate := evidenceOn(t, totals(steadyGoing...), "2026-11-25", "threshold")
	assert.Regexp(t, `^8 of 8 results reached 60% \(by that count alone at least \d+% of flights, at 95% confidence\); level now 70% \(6[89] to 7\d% at 80% confidence\): at that level `+
		`(over|at least) \d+% of flights reach 60% \(at 95% confidence\); the chance that at least 50% do is over 99%; the chance that the next one does is about 99%$`, gate.Evidence)
	assert.Empty(t, gate.Needs)
	for _, percents := range [][]float64{steadyGoing, {60, 62, 61, 64, 66, 65, 68, 70}, {70, 68, 65, 66, 64, 61, 62, 60}} {
		got := evidenceOn(t, totals(percents...), "2026-11-25", "threshold").Evidence
		for _, other := range []string{"foresee", "the line", "long-run", "whole window"} {
			assert.NotContains(t, got, other)
		}
	}
}

// A fall and a rise through the same percents do not come to the same.
func TestLevelGoesByTheDates(t *testing.T) {
	rising := []float64{52, 53, 56, 57, 60, 62, 65, 66}
	falling := slices.Clone(rising)
	slices.Reverse(falling)
	assert.Equal(t, code.Met, evidenceOn(t, totals(rising...), "2026-11-25", "threshold").State)
	down := evidenceOn(t, totals(falling...), "2026-11-25", "threshold")
	assert.Equal(t, code.NotMet, down.State)
	assert.Equal(t, "a higher level: at the present one clearly fewer than 50% of flights reach 60%", down.Needs)
	assert.Contains(t, down.Evidence, "; the chance that the next one does is about ")
	late := evidenceOn(t, totals(falling...), "2027-03-25", "threshold")
	assert.Equal(t, "a higher level: at that one clearly fewer than 50% of flights reach 60%", late.Needs)
	assert.Contains(t, late.Evidence, "; the chance that a next one then does is about ")
}

// What qualifies a level is said where it is.
func TestLevelQualified(t *testing.T) {
	for _, c := range []struct {
		percents        []float64
		on, want, needs string
	}{
		{steadyGoing, "2026-12-25", "2026-12-25 is too long after the last flight; level on 2026-11-05 70% (69 to 71% at 80% confidence)", ""},
		{[]float64{70, 70, 70, 70, 70}, "2026-09-30", "(the same score each time)", ""},
		{[]float64{70, 71, 72}, "2026-09-10", "; 3 flights are too few to tell", "at least four flights at three contests"},
		{[]float64{70, 71, 72, 71}, "2026-09-15", "; level now 71% (70 to 72% at 80% confidence)", "a level as firm from 8 flights at four contests, or five contests"},
	} {
		gate := evidenceOn(t, totals(c.percents...), c.on, "threshold")
		assert.Contains(t, gate.Evidence, c.want)
		assert.Equal(t, c.needs, gate.Needs)
	}
	three := "contest a 2026-10-01\ncontest b 2026-10-20\ncontest c 2026-11-10\npilot ines\n"
	for i, day := range []string{"2026-10-01", "2026-10-20", "2026-11-10"} {
		for j := range 4 {
			three += fmt.Sprintf("flight %s ines free %d\n  contest %c\n  category sportsman\n  official %d of 100\n", day, j+1, 'a'+rune(i), 70+j)
		}
	}
	gate := evidenceOn(t, three, "2026-11-20", "threshold")
	assert.Equal(t, code.CannotTell, gate.State)
	assert.Contains(t, gate.Evidence, "(three contests cannot show a drift; the range holds 70 to 86% in simulation)")
}

// The same count is met at one level and not at another: the short form says what
// decides, the share at the level or that there are too few.
func TestLevelBriefSaysWhatDecides(t *testing.T) {
	brief := func(on string, percents ...float64) (code.GateState, string) {
		gate := evidenceOn(t, totals(percents...), on, "threshold")
		return gate.State, gate.Brief
	}
	state, said := brief("2026-11-25", steadyGoing...)
	assert.Equal(t, code.Met, state)
	assert.Regexp(t, `^\d+ of \d+ flights at 60% or more$`, said)
	state, said = brief("2026-11-25", 70, 68, 67, 66, 64.5, 63, 61.5, 60)
	assert.NotEqual(t, code.Met, state)
	assert.Regexp(t, `^8 of 8 flights at 60% or more; at the level now, [\d.]+%, (at least|at most|about)?[\d to]+% of flights do \(at 9[05]% confidence\)$`, said)
	_, late := brief("2027-02-25", 70, 68, 67, 66, 64.5, 63, 61.5, 60)
	assert.Regexp(t, `too long ago to say for today; at the level then, [\d.]+%`, late)
	state, said = brief("2026-09-15", 70, 71, 72, 71)
	assert.Equal(t, code.CannotTell, state)
	assert.Equal(t, "4 of 4 flights at 60% or more; too few for this gate: it takes 8 flights at four contests, or five contests", said)
	_, said = brief("2026-09-10", 70, 71, 72)
	assert.Equal(t, "3 of 3 flights at 60% or more; 3 flights are too few to tell", said)
}

// What was flown at the category asked about is said, and against where it is.
func TestLevelAtTheCategoryAsked(t *testing.T) {
	book := totals(steadyGoing...)
	for i := range 6 {
		book += fmt.Sprintf("flight 2026-%02d-10 ines known\n  category intermediate\n  official %d of 100\n", 1+i, 41+i%3)
	}
	d := ready(t, book+shortPolicy("window 130"), "intermediate")
	gate := gateOf(d, "threshold")
	require.Equal(t, code.NotMet, gate.State)
	const there = "at intermediate 0 of 6 reached 60% (under 1% of flights there do, at 95% confidence; the chance that at least 50% do is under 1%)"
	assert.Contains(t, gate.Evidence, "; "+there)
	assert.Contains(t, d.Against, "level, not met: "+there)
	assert.Equal(t, "flights at intermediate that reach 60%", gate.Needs)
}

// The ends of the share and the chance are never rounded to the other side of
// what decides.
func TestThresholdBesideItsShare(t *testing.T) {
	percents := []float64{59.6, 61, 61, 61, 62.4}
	ends := regexp.MustCompile(`(?:at least )?([\d.]+)(?: to ([\d.]+))?% of flights reach 60% \(at 9[05]% confidence\); the chance that at least [\d.]+% do is (?:under |over )?([\d.]+)%`)
	states := map[code.GateState]int{}
	for want := 0.50; want < 0.98; want += 0.002 {
		g := gateOf(ready(t, totals(percents...)+shortPolicy(fmt.Sprintf("share %.3f", want)), ""), "threshold")
		found := ends.FindStringSubmatch(g.Evidence)
		require.Len(t, found, 4, g.Evidence)
		low, high, sure := parsed(t, found[1]), parsed(t, cmp.Or(found[2], "100")), parsed(t, found[3])
		states[g.State]++
		assert.Equal(t, g.State == code.Met, low >= 100*want-1e-7, g.Evidence)
		assert.Equal(t, g.State == code.NotMet, high < 100*want-1e-7, g.Evidence)
		assert.Equal(t, g.State == code.Met, sure >= 95, g.Evidence)
	}
	assert.Positive(t, states[code.Met])
	assert.Positive(t, states[code.CannotTell])
}

func parsed(t *testing.T, text string) float64 {
	t.Helper()
	n, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return n
}

// A level that is too old for today has its day in short too.
func TestLevelInShortHasItsDay(t *testing.T) {
	book := readyHead + readyFlights("2026-06-01", "7", "6.5", "7.5", "7", "6.5", "8")
	assert.NotContains(t, evidenceOn(t, book, "2026-06-15", "threshold").Brief, "too long ago")
	assert.Contains(t, evidenceOn(t, book, "2026-11-25", "threshold").Brief, "; as of 2026-06-01, too long ago to say for today")
}

// Where no zero was seen, how many of the figures may have one stands beside the chance.
func TestZeroChanceInShort(t *testing.T) {
	book := readyHead + readyFlights("2026-11-01", "7", "6.5", "7.5", "7", "6.5", "8")
	assert.Contains(t, evidenceOn(t, book, "2026-11-25", "zeros").Brief, "(none in 6 flights, up to 10% of figures possible)")
}

// Flights on sequences of another catalogue are said to be left out, wherever the level is.
func TestLevelOfOneCatalogue(t *testing.T) {
	assert.Equal(t, "only on sequences of the catalogue glider (8 flights on others left out)", words.CatalogueAlone("glider", 8))
	assert.Equal(t, "only on sequences that name no catalogue (1 flight on others left out)", words.CatalogueAlone("", 1))
	d := answers.Level{Of: 4, Contests: 2, Category: "sportsman", Catalogue: "glider", Aside: 8, Reason: code.FewContests, Limits: answers.LevelLimits{Flights: 5, Contests: 3, Days: 730}}
	assert.Contains(t, words.LevelSentences(d)[0], "4 flights at 2 contests, sportsman, only on sequences of the catalogue glider (8 flights on others left out), in ")
}
