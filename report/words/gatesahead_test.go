package words_test

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
	"boxbook/season"
	"boxbook/season/analysis/code"
)

// What the new families need is true: made, it meets the gate; with half a grade
// less, or one element fewer, it does not.
func TestNewFamiliesNeed(t *testing.T) {
	needed := regexp.MustCompile(`9\.9\): (\d+) (?:more|graded) at (\d+\.\d)`)
	book := func(grades []string) string {
		text := readyHead + readyFlights("2026-09-01", "7", "8", "7")
		for i, g := range grades {
			text += fmt.Sprintf("flight %s ines practice\n  sequence flicks\n  panel marek\n  1 %s\n", day(t, "2026-10-01")+season.Date(i), g)
		}
		return text
	}
	for grades, want := range map[string]string{
		"":          "positive flick rolls (family 9.9): 2 graded at 6.0 (practice in front of a coach counts)",
		"4 4":       "positive flick rolls (family 9.9): 2 more at 8.0 would bring the mean to 6.0 (practice in front of a coach counts)",
		"5.5 6":     "positive flick rolls (family 9.9): 1 more at 6.5 would bring the mean to 6.0 (practice in front of a coach counts)",
		"6.5":       "positive flick rolls (family 9.9): 1 more at 5.5 or better would make 2 and keep the mean at 6.0 (practice in front of a coach counts)",
		"6.5 6.5 2": "positive flick rolls (family 9.9): 2 more at 7.5 would bring the mean to 6.0 (practice in front of a coach counts)",
		"0 0 0 0":   "positive flick rolls (family 9.9): 12 more at 8.0 would bring the mean to 6.0 (practice in front of a coach counts)",
		"10":        "positive flick rolls (family 9.9): 1 more at 2.0 or better would make 2 and keep the mean at 6.0 (practice in front of a coach counts)",
		"3":         "positive flick rolls (family 9.9): 2 more at 7.5 would bring the mean to 6.0 (practice in front of a coach counts)",
		"5.5 5.5 4": "positive flick rolls (family 9.9): 2 more at 7.5 would bring the mean to 6.0 (practice in front of a coach counts)",
	} {
		have := strings.Fields(grades)
		g := gateOf(ready(t, book(have), ""), "new-families")
		require.Equal(t, want, g.Needs, grades)
		found := needed.FindStringSubmatch(g.Needs)
		more, err := strconv.Atoi(found[1])
		require.NoError(t, err)
		grade, err := strconv.ParseFloat(found[2], 64)
		require.NoError(t, err)
		state := func(more int, grade float64) code.GateState {
			return gateOf(ready(t, book(append(slices.Clone(have), slices.Repeat([]string{fmt.Sprint(grade)}, more)...)), ""), "new-families").State
		}
		assert.Equal(t, code.Met, state(more, grade), grades)
		assert.Equal(t, code.NotMet, state(more, grade-0.5), grades)
		if more > 1 {
			assert.Equal(t, code.NotMet, state(more-1, grade), grades)
		}
	}
	zeroed := gateOf(ready(t, book([]string{"10", "10", "10", "HZ", "10"}), ""), "new-families")
	assert.Regexp(t, `^1 more graded element of positive flick rolls \(family 9\.9\) without a zero, at \d\.\d or better$`, zeroed.Lacks, "enough were graded, but for the zero")
	assert.Contains(t, zeroed.Needs, "1 more without a zero, at ")
	g := gateOf(ready(t, book([]string{"9"})+shortPolicy("new-families 2 at 10"), ""), "new-families")
	assert.Equal(t, "positive flick rolls (family 9.9): the mean stays below 10 whatever comes (practice in front of a coach counts)", g.Needs)
	// A mean just below is not written as if it were there.
	g = gateOf(ready(t, book(append(slices.Repeat([]string{"6"}, 12), "5.5")), ""), "new-families")
	assert.Equal(t, "positive flick rolls (family 9.9) graded 13 times, mean 5.96, latest 5.5 on 2026-10-13 by Marek Oduya, worst 5.5", g.Evidence)
	assert.Equal(t, code.NotMet, g.State)
}

// A family that no contest flight had is a missing piece of evidence: the gate
// is open at best, though the category was flown and the range is high enough,
// and the evidence stands against.
func TestForecastGateNeverFlown(t *testing.T) {
	book := readyHead + readyFlights("2026-11-01", "7", "6.5", "7.5", "7", "6.5", "8") +
		"flight 2024-11-08 ines known\n  sequence inter-known\n  panel marek\n  1 7\n  2 7\n  3 6.5\n" + readyFlights("2026-11-15", "7")
	slides := "sequence inter-slides\n  category intermediate\n  1 6.2.1.1:15\n  2 7.4.1.1:10\n"
	require.Equal(t, code.Met, gateOf(ready(t, book, ""), "forecast").State)
	r := ready(t, book+slides+shortPolicy("forecast 20"), "")
	g := gateOf(r, "forecast")
	assert.Equal(t, code.CannotTell, g.State)
	assert.NotEqual(t, code.Ready, r.Verdict)
	assert.Equal(t, "contest flights with tailslides (family 6)", g.Needs)
	assert.Contains(t, r.Against, "forecast, cannot tell: not graded in a contest in the last two years: tailslides (family 6)")
	r = ready(t, book+slides+shortPolicy("forecast 99"), "")
	g = gateOf(r, "forecast")
	assert.Equal(t, code.NotMet, g.State)
	assert.Equal(t, "a lower end of 99%; and contest flights with tailslides (family 6)", g.Needs)
	assert.Contains(t, strings.Join(r.Against, "\n"), "forecast, not met: the range on ")

	// No sequence, and one that cannot be forecast, are told apart.
	g = gateOf(ready(t, strings.Replace(book, "  programme known\n", "  programme free\n", 1), ""), "forecast")
	assert.Equal(t, "no known sequence of intermediate is in the ledger", g.Evidence)
	const counts = " (it counts only once a panel at intermediate has graded the pilot)"
	assert.Equal(t, "the known sequence of intermediate in the ledger", g.Needs)
	g = gateOf(ready(t, readyHead+readyFlights("2026-11-01", "7", "8"), ""), "forecast")
	assert.Equal(t, "no known sequence of intermediate can be forecast: 2 contest flights with graded figures and codes in the last two years; at least four are needed; "+
		"from grades at sportsman, since no panel at intermediate has graded the pilot", g.Evidence)
	assert.Equal(t, "flights with marks to forecast from"+counts, g.Needs)
}

// A figure without codes is a missing piece of evidence, and what would bring it
// are its codes.
func TestForecastGateOfFiguresWithoutCodes(t *testing.T) {
	book := strings.Replace(readyHead, "  programme known\n", "  programme free\n", 1) + readyFlights("2026-11-01", "7", "6.5", "7.5", "7", "6.5", "8")
	g := gateOf(ready(t, book+"sequence inter-bare\n  category intermediate\n  1 7.4.1.1:10\n  2 K 10\n  3 K 12\n", ""), "forecast")
	assert.Contains(t, g.Evidence, "; without codes: figures 2 and 3; ")
	assert.Contains(t, g.Needs, "the codes of those figures")
}

// In short a family says who graded it where that was the coach alone, and what is
// missing is the mean where elements enough were graded.
func TestNewFamiliesInShort(t *testing.T) {
	flicks := func(grades string) answers.Gate {
		return gateOf(ready(t, readyHead+readyFlights("2026-11-01", "7", "6.5", "7.5", "7", "6.5", "8")+"flight 2026-11-03 ines practice\n  sequence flicks\n  panel marek\n"+markRows(strings.Fields(grades)), ""), "new-families")
	}
	assert.Equal(t, "positive flick rolls: met, 2 graded by the coach alone, mean 6.5, latest 7.0, worst 6.0", flicks("6 7").Brief)
	low := flicks("5.5 6")
	assert.Equal(t, "positive flick rolls: not met, 2 graded by the coach alone, mean 5.8, latest 6.0, worst 5.5", low.Brief)
	assert.Equal(t, "graded elements of positive flick rolls (family 9.9) with a mean of 6.0, now 5.8", low.Lacks)
	assert.Equal(t, "2 of each, mean 6.0 or more", low.Wants)
	assert.Equal(t, "1 more graded element of positive flick rolls (family 9.9)", flicks("7").Lacks)
}

// A forecast for a category never flown stands without its range in short: what is
// missing is said instead.
func TestForecastGateOfCategoryNeverFlown(t *testing.T) {
	book := readyHead + readyFlights("2026-11-01", "7", "6.5", "7.5", "7", "6.5", "8")
	g := gateOf(ready(t, book, ""), "forecast")
	assert.Equal(t, "inter-known: not known before the first flight there: no panel has graded the pilot at intermediate", g.Brief)
	assert.Contains(t, g.Evidence, "inter-known: not known before the first flight there; by grades given at sportsman about ")
	assert.Contains(t, g.Evidence, "at 80% confidence")
	g = gateOf(ready(t, book+"sequence inter-slides\n  category intermediate\n  programme known\n  1 6.2.1.1:15\n  2 7.4.1.1:10\n"+shortPolicy("forecast 20"), ""), "forecast")
	assert.Contains(t, g.Brief, ", nor tailslides in the last two years")
	assert.Contains(t, g.Brief, "inter-slides: not known before the first flight there: ", "which of them it is")
	assert.Contains(t, g.Evidence, "inter-slides, the lowest of two known sequences: ")
}
