package analysis_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
	"boxbook/season/stats"
	"boxbook/season/testkit/longledger"
)

// drillHead is a pilot with a sequence of loops, lines and a spin, and one of
// turns and rolls in which neither radius nor spin can show.
const drillHead = `
pilot ines
pilot yuki
coach marek
sequence ten
  category sportsman
  1 7.4.1.1:10
  2 5.2.1.1:17
  3 1.2.6.3:8 9.11.1.4:5
  4 2.2.1.1:4
  5 2.3.1.1:5
  6 8.4.1.1:13
  7 3.3.1.1:9
  8 9.1.3.4:9
  9 9.2.3.4:9
  10 9.4.3.4:11
sequence turns
  category sportsman
  1 2.2.1.1:4
  2 9.1.3.4:9
`

// drillKinds are the signs of faults in [watched].
var drillKinds = map[rune]string{'r': "1 radius", 'p': "2 pitch", 'h': "2 heading", 'a': "4 axis", 's': "3 spin-stop", 'l': "2 line-angle", 't': "4 turn-rate", 'o': "- loose-article"}

// watched are flights a week apart that were looked at, a word each: a sign for
// each fault noted, "." for none, "-" not looked at, "T" in front where the
// sequence of turns was flown.
func watched(first, words string) string {
	day, _ := season.ParseDate(first)
	var b strings.Builder
	for i, word := range strings.Fields(words) {
		rest, turns := strings.CutPrefix(word, "T")
		sequence := "ten"
		if turns {
			sequence = "turns"
		}
		fmt.Fprintf(&b, "flight %s ines known\n  sequence %s\n", day+season.Date(7*i), sequence)
		for _, sign := range rest {
			switch sign {
			case '.':
				b.WriteString("  reviewed by marek\n")
			case '-':
				b.WriteString("  note \"nobody watched\"\n")
			default:
				b.WriteString("  fault " + drillKinds[sign] + "\n")
			}
		}
	}
	return b.String()
}

func drillAnswers(t testing.TB, book string) []analysis.DrillAnswer {
	t.Helper()
	l := testkit.BookOf(t, book)
	return analysis.DrillsOf(l, season.Selection{Pilot: l.PilotNamed("ines")})
}

func drillAnswer(t testing.TB, book string) analysis.DrillAnswer {
	t.Helper()
	answers := drillAnswers(t, book)
	require.Len(t, answers, 1)
	return answers[0]
}

func sideText(s analysis.DrillSide) string { return fmt.Sprintf("%d of %d", s.Seen, s.Flights) }

func sidesText(a analysis.DrillAnswer) string {
	return sideText(a.Before) + ", " + sideText(a.After)
}

// prompting are four flights that a drill is set on, the day before it.
const prompting = "flight 2025-06-16 ines known\n  sequence ten\n  fault 1 radius\n" +
	"flight 2025-06-17 ines known\n  sequence ten\n  fault 1 radius\n" +
	"flight 2025-06-18 ines known\n  sequence ten\n  fault 1 radius\n" +
	"flight 2025-06-19 ines known\n  sequence ten\n  fault 1 radius\n"

const radiusDrill = "drill 2025-06-20 ines radius \"four loops a leg\"\n"

// drilled is a drill on the radius between flights before and since.
func drilled(before, since string) string {
	return drillHead + watched("2025-01-03", before) + prompting + radiusDrill + watched("2025-07-04", since)
}

// The last four reviewed flights before a drill, those of its own day and those
// it names are in neither window; nor is what nobody looked at.
func TestDrillWindows(t *testing.T) {
	before := watched("2026-01-03", "r . r r . r r") // the last on 2026-02-14
	after := watched("2026-03-07", ". r - .")
	const drill = "drill 2026-02-20 ines radius \"four loops a leg\"\n"

	a := drillAnswer(t, drillHead+before+after+drill)
	assert.Equal(t, []string{"2026-01-24/ines/known", "2026-01-31/ines/known", "2026-02-07/ines/known", "2026-02-14/ines/known"}, testkit.Names(a.Left))
	assert.Equal(t, "2 of 3, 1 of 3", sidesText(a))

	a = drillAnswer(t, drillHead+before+after+drill+"  prompted-by 2026-01-17/ines/known\n  prompted-by 2026-02-14/ines/known\n")
	assert.Equal(t, []string{"2026-01-17/ines/known", "2026-01-24/ines/known", "2026-01-31/ines/known", "2026-02-07/ines/known", "2026-02-14/ines/known"}, testkit.Names(a.Left))
	assert.Equal(t, "1 of 2, 1 of 3", sidesText(a), "the flight that is named as well as the last four")

	day := "flight 2026-02-20 ines known\n  sequence ten\n  fault 1 radius\n"
	b := drillAnswer(t, drillHead+before+day+after+drill)
	assert.Equal(t, "2 of 3, 1 of 3", sidesText(b), "flown on the day of the drill")
	assert.Len(t, b.Left, 5)

	next := "flight 2026-02-21 ines practice\n  fault 1 radius\n"
	b = drillAnswer(t, drillHead+before+next+after+drill)
	assert.Equal(t, "2 of 3, 2 of 4", sidesText(b), "practice counts, from the next day on")
}

// A safety matter says nothing of the figures: a flight on which nothing else is
// noted was not reviewed, and moves no verdict.
func TestDrillsLeaveSafetyMattersOut(t *testing.T) {
	const before, since = "rp rh rp rp ra rp rp .", "p . . r . . . a . ."
	plain, alone := drillAnswer(t, drilled(before, since)), drillAnswer(t, drilled(before+" o", since+" o o o o"))
	assert.Equal(t, sidesText(plain), sidesText(alone))
	assert.InDelta(t, plain.P, alone.P, 1e-12)
	assert.Equal(t, plain.Word, alone.Word)
}

// At most 24 flights a side, within 730 days of the drill.
func TestDrillWindowsAreBounded(t *testing.T) {
	a := drillAnswer(t, drillHead+watched("2024-06-22", strings.Repeat("r . ", 24))+"drill 2025-06-20 ines radius\n"+watched("2025-06-21", strings.Repeat(". ", 30)+"r r r"))
	assert.Equal(t, "12 of 24, 0 of 24", sidesText(a))
	a = drillAnswer(t, drillHead+watched("2023-06-20", "r r r")+watched("2023-07-01", "r r r r r")+"drill 2025-06-20 ines radius\n")
	assert.Equal(t, "3 of 3, 0 of 0", sidesText(a), "the 20th of June is the 731st day before, and the 27th and 4th are of its time")
}

// Behind so many flights no further one changes the word: it says so, and counts them.
func TestDrillSaysWhenItsWindowIsFull(t *testing.T) {
	book := drillHead + watched("2025-01-04", strings.Repeat("r . ", 12)) + "drill 2025-07-20 ines radius\n" + watched("2025-07-21", strings.Repeat("r . ", 11)+"r")
	a := drillAnswer(t, book)
	assert.Equal(t, []any{false, 0}, []any{a.Full, a.Later.Flights})
	book += watched("2026-01-05", ". . r .")
	a = drillAnswer(t, book)
	assert.Equal(t, []any{true, 1, 3}, []any{a.Full, a.Later.Seen, a.Later.Flights})
	assert.Equal(t, analysis.DrillOpen, a.Word)
	assert.Zero(t, a.More)
}

// What a drill was set on may be all that could show it before.
func TestDrillCountsWhatItWasSetOn(t *testing.T) {
	a := drillAnswer(t, drillHead+watched("2026-01-03", "r . r")+"drill 2026-02-20 ines radius\n"+watched("2026-03-07", "r r r"))
	assert.Equal(t, []int{0, 3, 3}, []int{a.Before.Flights, a.LeftShown, len(a.Left)})
}

// Void flights, flights of others and flights after the day that counts as today
// are in no window.
func TestDrillWindowsOfThePilot(t *testing.T) {
	a := drillAnswer(t, drillHead+watched("2026-01-03", "r r r r r")+watched("2026-03-07", ". . .")+
		"drill 2026-02-20 ines radius\n"+
		"flight 2026-03-20 ines known\n  sequence ten\n  fault 1 radius\n  void \"cloud\"\n"+
		"flight 2026-03-21 yuki known\n  sequence ten\n  fault 1 radius\n"+
		"flight 2026-12-24 ines known\n  sequence ten\n  fault 1 radius\n"+
		"drill 2026-02-20 yuki radius\ndrill 2026-12-20 ines pitch\n")
	assert.Equal(t, "1 of 1, 0 of 3", sidesText(a))

	l := testkit.BookOf(t, drillHead+"drill 2026-02-20 ines radius\ndrill 2026-02-01 yuki radius\n")
	answers := analysis.DrillsOf(l, season.Selection{})
	require.Len(t, answers, 2, "of everybody")
	assert.Equal(t, "yuki", answers[0].Drill.Pilot.Handle, "in the order in which they were set")
}

// The next drill on the same target ends the time of the one before, and so does
// `ended`, each from the next day on; a drill on another target does neither.
func TestDrillEnds(t *testing.T) {
	book := drillHead + watched("2026-01-03", "r r r r r r r r") + watched("2026-03-07", ". r . r") + watched("2026-04-18", ". . . .") +
		"drill 2026-03-01 ines radius\n"
	assert.Equal(t, "4 of 4, 2 of 8", sidesText(drillAnswer(t, book)))
	answers := drillAnswers(t, book+"drill 2026-03-20 ines pitch\ndrill 2026-04-10 ines radius \"again\"\n")
	require.Len(t, answers, 3)
	assert.Equal(t, "4 of 4, 2 of 4", sidesText(answers[0]))
	assert.Equal(t, "2026-04-10", answers[0].UpTo.String())
	assert.Zero(t, answers[1].UpTo+answers[2].UpTo)
	assert.Zero(t, drillAnswers(t, book+"  ended 2026-04-09\ndrill 2026-04-10 ines radius\n")[0].UpTo, "it had ended")
	assert.Equal(t, "8 of 8, 0 of 4", sidesText(answers[2]), "the flights before the drill before it are before this one too")
	assert.Equal(t, "4 of 4, 1 of 3", sidesText(drillAnswer(t, book+"  ended 2026-03-21\n")), "that day's flight is the last")
	assert.Equal(t, "4 of 4, 2 of 8", sidesText(drillAnswer(t, book+"  ended 2026-12-21\n")), "not ended yet")
}

// A flight in which no figure was flown that could show the fault counts on no
// side and is counted as left out, unless the fault was noted all the same.
func TestDrillExposure(t *testing.T) {
	a := drillAnswer(t, drilled("r Tp r T. . Tr", "T. Tp . T. r"))
	assert.Equal(t, "3 of 4, 1 of 2", sidesText(a))
	assert.Equal(t, 5, a.Unexposed)

	// Figures that are not known can show anything, in whatever sequence; a
	// practice flight without rows shows what its sequence can if it was gone
	// through to the end, else what was noted and nothing else.
	const unknown = "sequence loose\n  category sportsman\n  1 2.2.1.1:4\n  2 K 9\n"
	for body, want := range map[string]string{
		"known\n  sequence loose\n  reviewed\n":                               "0 of 1",
		"known\n  sequence turns\n  reviewed\n":                               "0 of 0",
		"known\n  category sportsman\n  reviewed\n":                           "0 of 1",
		"practice\n  reviewed\n":                                              "0 of 0",
		"practice\n  sequence ten\n  reviewed\n":                              "0 of 1",
		"practice\n  sequence turns\n  reviewed\n":                            "0 of 0",
		"practice\n  sequence ten\n  fault 4 axis\n":                          "0 of 0",
		"practice\n  sequence ten\n  panel marek\n  1 7\n  reviewed\n":        "0 of 1",
		"practice\n  sequence ten\n  panel marek\n  4 7\n  reviewed\n":        "0 of 0",
		"practice\n  sequence ten\n  panel marek\n  4 7\n  fault 1 radius\n":  "1 of 1",
		"practice\n  fault 1 radius\n":                                        "1 of 1",
		"practice\n  sequence ten\n  panel marek\n  1 7\n  fault 4 axis\n":    "0 of 1",
		"practice\n  sequence loose\n  panel marek\n  2 7\n  fault 2 pitch\n": "0 of 1",
	} {
		a := drillAnswer(t, drillHead+unknown+radiusDrill+"flight 2025-07-01 ines "+body)
		assert.Equal(t, want, sideText(a.After), body)
	}
}

// The words. The counts are so that all other faults stay as they are.
func TestDrillWords(t *testing.T) {
	steady := func(target string, n int, more string) string {
		var words []string
		for i := range n {
			words = append(words, strings.TrimSuffix(target[i%len(target):i%len(target)+1], ".")+more[i%len(more):i%len(more)+1])
		}
		return strings.Join(words, " ")
	}
	for _, test := range []struct {
		name          string
		before, after string
		word          analysis.DrillWord
		reason        analysis.DrillReason
	}{
		{"gone, the others as before", steady("rrrrrrrrr.", 10, "ph"), steady(".", 10, "ph"), analysis.Worked, ""},
		{"as before", steady("rr.", 9, "ph"), steady("rr.", 9, "ph"), analysis.DrillOpen, analysis.DrillByChance},
		{"gone, and all others with it", steady("r", 10, "ph"), steady(".", 10, "."), analysis.DrillOpen, analysis.DrillOthersFell},
		{"more than before", steady(".", 10, "ph"), steady("r", 6, "ph"), analysis.DrillOpen, analysis.DrillByChance},
		{"two flights before", "rp rp", steady(".", 9, "ph"), analysis.DrillTooFew, analysis.DrillFewFlights},
		{"two flights since", steady("r", 9, "ph"), "p h", analysis.DrillTooFew, analysis.DrillFewFlights},
		{"too few that could show it", steady("r", 9, "ph"), "p h Tp Th Tp Th Tp", analysis.DrillTooFew, analysis.DrillFewFlights},
		{"three and three, the least that can tell", "rp rh rp", "p h p", analysis.Worked, ""},
		{"the worst of several that come and go", "ha ha a r ra pa rp", ". pa ha ph ph p ha", analysis.DrillOpen, analysis.DrillPicked},
		{"nothing else noted", steady("r", 10, "r"), steady(".", 10, "."), analysis.MayHaveWorked, ""},
	} {
		a := drillAnswer(t, drilled(test.before, test.after))
		assert.Equal(t, test.word, a.Word, "%s: %+v", test.name, a)
		assert.Equal(t, test.reason, a.Reason, test.name)
		if test.word == analysis.DrillTooFew {
			assert.True(t, math.IsNaN(a.P) && math.IsNaN(a.Tests.Z) && math.IsNaN(a.Tests.Fall) && math.IsNaN(a.Tests.Faults) && !a.HasRate, "no number where nothing can be told")
		}
	}
}

// The first example of the test, flown: computed by two independent programs, in
// Python and R [derived: two-programs, Python and R]. Kinds 1 to 4 are turn rates, which the roll alone cannot show,
// and three that any figure can.
func TestDrillCheckValues(t *testing.T) {
	signs := []string{"t", "p", "h", "a"}
	const rolls = "sequence rolls\n  category sportsman\n  1 9.1.3.4:9\n"
	flights := func(first, text string) string {
		day, _ := season.ParseDate(first)
		var b strings.Builder
		for i, word := range strings.Fields(text) {
			sequence := "ten"
			if word[0] == '-' {
				sequence = "rolls"
			}
			fmt.Fprintf(&b, "flight %s ines known\n  sequence %s\n  reviewed\n", day+season.Date(7*i), sequence)
			for k, sign := range word {
				if sign == '1' {
					b.WriteString("  fault 1 " + strings.Fields(drillKinds[rune(signs[k][0])])[1] + "\n")
				}
			}
		}
		return b.String()
	}
	// Missing values of kinds that any figure can show are absent here: the others
	// are 10 of 21 and 9 of 18.
	a := drillAnswer(t, drillHead+rolls+flights("2025-01-03", "1100 1011 1110 0100 1001 1110 1010 1101 1010 1100 1000")+
		"drill 2025-05-01 ines turn-rate\n"+flights("2025-07-04", "0110 1001 0110 0100 0011 0100"))
	assert.Equal(t, "6 of 7, 1 of 6", sidesText(a))
	assert.InDelta(t, .0250582751, a.P, 5e-11)
	assert.InDelta(t, .1391304348, a.Tests.Faults, 5e-11)
	assert.Equal(t, analysis.MayHaveWorked, a.Word)
	a = drillAnswer(t, drillHead+rolls+flights("2025-01-03", "1100 1011 1110 0100 1001 1110 1010 1101 1010 1100 1000")+
		"drill 2025-05-01 ines turn-rate\n"+flights("2025-07-04", "0110 0001 0110 0100 0011 0100"))
	assert.InDelta(t, .0040792541, a.P, 5e-11)
	assert.InDelta(t, .0452173913, a.Tests.Faults, 5e-11)
	assert.Equal(t, analysis.Worked, a.Word)
}

// A drill that is set after the day that counts as today is not known yet: its
// fault is still one of the others. A drill set between the flights compared takes
// its fault out of them; one of another time does not.
func TestDrillsBesideADrill(t *testing.T) {
	book := drilled("rp rp rp rp rp rp rp rp", "p . . . . . . .")
	others := func(more string) []float64 {
		a := drillAnswers(t, book+more)[0]
		return []float64{a.Before.Others, a.After.Others}
	}
	assert.Equal(t, []float64{1, .125}, others(""))
	assert.Equal(t, []float64{1, .125}, others("drill 2026-11-26 ines pitch\n"), "to come")
	assert.Equal(t, []float64{0, 0}, others("drill 2025-07-10 ines pitch\n"))
	assert.Equal(t, []float64{1, .125}, others("drill 2025-12-10 ines pitch\n"), "after the last flight compared")
}

// What was found: a fault that fell for eighteen flights and was in each of the last six was
// said to have fallen, and the pages on what comes back left it out.
func TestDrillSaysWhatIsThereAgain(t *testing.T) {
	before, clean := strings.Repeat("rp ", 16), strings.Repeat("p ", 18)
	for _, c := range []struct {
		since string
		again int
	}{
		{clean, 0},
		{clean + "rp rp", 0},
		{clean + "rp rp rp", 3},
		{clean + "rp rp rp rp rp rp", 6},
		{clean + "rp rp rp p rp", 0},
		{clean + "rp rp rp Tp Tp", 3},              // turns cannot show it
		{strings.Repeat(clean, 2) + "rp rp rp", 3}, // behind the window
	} {
		a := drillAnswer(t, drilled(before, c.since))
		require.True(t, a.Word.Told(), "%s: %s", c.since, a.Word)
		assert.Equal(t, c.again, a.Again, c.since)
	}
	assert.Zero(t, drillAnswer(t, drilled("r r . r", "r r r r")).Again, "nothing fell")
	halved := drillAnswer(t, drilled(strings.Repeat("rp ", 24), "p p rp p rp p rp rp rp rp p p p p p rp rp rp"))
	require.True(t, halved.Word.Told(), halved.Word)
	assert.Zero(t, halved.Again, "three at the end of nine in eighteen is what any order has")

	l := testkit.BookOf(t, drilled(before, clean+"rp rp rp"))
	back := analysis.ComesBack(l, l.PilotNamed("ines"))
	despite, drill := analysis.Despite(l, back)
	require.NotNil(t, despite)
	assert.Equal(t, "radius 3", fmt.Sprintf("%s %d", despite.Kind.Name, drill.Again))
}

// What was found: drills that did nothing and were said to have worked.
func TestDrillsThatDidNothing(t *testing.T) {
	t.Run("all faults fall alike", func(t *testing.T) {
		// Every kind falls to about a third; the drilled one no further.
		a := drillAnswer(t, drilled("rpha rph rpa rha rph rpha pha rph ra rph", "p h . ra . . a . ph ."))
		assert.LessOrEqual(t, a.P, analysis.DrillFirm)
		assert.Equal(t, analysis.DrillOpen, a.Word)
	})
	t.Run("set on the worst kind, one flight named", func(t *testing.T) {
		// A bad spell in the last flights, of which one is named: the others of the
		// last four are left out as well.
		book := drillHead + watched("2025-01-03", "p h . r a . p") + prompting + radiusDrill + "  prompted-by 2025-06-19/ines/known\n" + watched("2025-07-04", "p h . a . p . h . .")
		a := drillAnswer(t, book)
		assert.Equal(t, "1 of 7, 0 of 10", sidesText(a))
		assert.Equal(t, analysis.DrillOpen, a.Word)
	})
	t.Run("the figure that could show it flown less often", func(t *testing.T) {
		a := drillAnswer(t, drilled("rp rh rp h rp rh rp rh", "Tp Th Tp Th rp Th rp Th Tp h"))
		assert.Equal(t, "7 of 8, 2 of 3", sidesText(a))
		assert.Equal(t, 7, a.Unexposed)
		assert.Equal(t, analysis.DrillOpen, a.Word)
	})
	t.Run("a spin drill after which no spin was flown", func(t *testing.T) {
		a := drillAnswer(t, drillHead+watched("2025-01-03", "sp sh sp sh sp sh sp sh sp sh sp sh")+"drill 2025-06-20 ines spin-stop\n"+watched("2025-07-04", "Tp Th Tp Th Tp Th"))
		assert.Equal(t, "8 of 8, 0 of 0", sidesText(a))
		assert.Equal(t, analysis.DrillTooFew, a.Word)
	})
	t.Run("flights after its end", func(t *testing.T) {
		a := drillAnswer(t, drillHead+watched("2025-01-03", "rp rh rp rh rp rh rp rh")+prompting+radiusDrill+"  ended 2025-07-20\n"+watched("2025-07-04", "rp rh rp h p h p h p h p h"))
		assert.Equal(t, "8 of 8, 3 of 3", sidesText(a))
		assert.Equal(t, analysis.DrillOpen, a.Word)
	})
}

// How many clean flights more could show it, by Fisher's test alone: [derived],
// before 5 of 10, 0 of 6 gives .058 and 0 of 7 .041.
func TestDrillFlightsMore(t *testing.T) {
	a := drillAnswer(t, drilled("rp h rp h rp h rp h rp h", "p h p h p"))
	assert.Equal(t, analysis.DrillOpen, a.Word)
	assert.Equal(t, 2, a.More)
	a = drillAnswer(t, drilled("rp h p h p h", "p h p h p"))
	assert.Zero(t, a.More, "not within 24 flights")
}

// Faults per figure flown. [derived: r, poisson.test; statsmodels,
// exact-cond, cond-midp]: 3 in 60 against 14 in
// 110 is a ratio of .39285714. A fault seen and felt in one flight is one
// flight; `2x` is two faults.
func TestDrillRates(t *testing.T) {
	book := drillHead + watched("2025-01-03", "r r r r r r r r r r .") + prompting + watched("2025-07-04", "r r . . . .") + radiusDrill
	for _, day := range []string{"2025-01-03", "2025-01-10", "2025-01-17", "2025-01-24", "2025-07-04"} {
		book += "review " + day + "/ines/known by marek\n  fault 1 radius 2x seen\n"
	}
	a := drillAnswer(t, book)
	assert.Equal(t, []int{14, 110, 3, 60}, []int{a.Before.Faults, a.Before.Figures, a.After.Faults, a.After.Figures},
		"noted by two, the larger counts, once")
	require.True(t, a.HasRate)
	assert.InDelta(t, .39285714, a.Rate.Ratio, 1e-8)
	assert.Less(t, a.Rate.Interval.Low, a.Rate.Ratio)
	assert.Greater(t, a.Rate.Interval.High, a.Rate.Ratio)

	// Nothing ever seen: no rate. A flight whose figures are not known has its say by
	// flights, and none in the rate.
	assert.False(t, drillAnswer(t, drilled(". . . .", ". . . .")).HasRate)
	a = drillAnswer(t, drillHead+"flight 2025-01-01 ines practice\n  fault 1 radius 3x\nflight 2025-01-02 ines practice\n  fault 1 radius\n"+
		watched("2025-01-03", "r r r r r")+prompting+watched("2025-07-04", ". . . .")+radiusDrill)
	assert.Equal(t, "7 of 7", sideText(a.Before))
	assert.Equal(t, []int{5, 50}, []int{a.Before.Faults, a.Before.Figures})
}

// Whatever was flown, a word keeps its rule.
func TestDrillProperties(t *testing.T) {
	flight := rapid.SampledFrom([]string{"r", "rp", "p", ".", "-", "Tp", "T.", "ph", "rh"})
	side := rapid.SliceOfN(flight, 0, 12)
	rapid.Check(t, func(r *rapid.T) {
		before, after := side.Draw(r, "before"), side.Draw(r, "after")
		a := drillAnswer(t, drillHead+watched("2025-01-03", strings.Join(before, " "))+watched("2025-07-04", strings.Join(after, " "))+radiusDrill)
		looked := 0
		for _, word := range append(before, after...) {
			if word != "-" {
				looked++
			}
		}
		require.Equal(r, looked, len(a.Left)+a.Unexposed+a.Before.Flights+a.After.Flights, "no flight is lost")
		require.LessOrEqual(r, len(a.Left), 4)
		require.Equal(r, a.Word == analysis.DrillTooFew, math.IsNaN(a.P))
		switch a.Word {
		case analysis.Worked:
			require.True(r, a.P <= .05 && a.Tests.Z <= .08 && a.Tests.Fall <= .08 && a.Tests.Faults <= .25)
		case analysis.MayHaveWorked:
			require.True(r, a.P <= .10 && a.Tests.Z <= .12)
		case analysis.DrillOpen:
			require.True(r, a.P > .10 || a.Tests.Z > .12)
			require.NotEmpty(r, a.Reason)
		}
	})
}

// Verdicts without the tests are those with them, of drills that worked, that may
// have and that did nothing: only what no word leans on is not tested.
func TestDrillVerdictsAreTheWholeAnswersWords(t *testing.T) {
	left := 0
	for _, pilots := range []int{1, 3} {
		l := loadYear(t, longledger.Text(longledger.Ten(pilots)))
		whole, short := analysis.DrillsOf(l, season.Selection{}), analysis.DrillVerdicts(l, season.Selection{})
		require.Len(t, short, len(whole))
		for i := range whole {
			if math.IsNaN(short[i].Tests.Z) && !math.IsNaN(whole[i].Tests.Z) {
				left++
				short[i].Tests.Z, short[i].Tests.Fall = whole[i].Tests.Z, whole[i].Tests.Fall
			}
			require.Equal(t, fmt.Sprintf("%+v", whole[i]), fmt.Sprintf("%+v", short[i])) // NaN is no NaN's equal
		}
	}
	require.Positive(t, left)
}

// A fault of contests does not fall in a winter of practice: contest flights are held
// against contest flights, and practice against practice. Chances by R's
// mantelhaen.test [derived: r, mantelhaen.test].
func TestDrillWithinContestsAndPractice(t *testing.T) {
	practice := func(first, words string) string {
		text := strings.ReplaceAll(watched(first, words), "  reviewed by marek\n", "")
		return strings.ReplaceAll(text, "known\n  sequence ten\n", "practice\n  sequence ten\n  reviewed by marek\n")
	}
	drill := func(contestsBefore, practiceBefore, contestsSince, practiceSince string) analysis.DrillAnswer {
		return drillAnswer(t, drillHead+watched("2025-01-03", contestsBefore)+practice("2025-01-05", practiceBefore)+prompting+radiusDrill+
			watched("2025-07-04", contestsSince)+practice("2025-07-06", practiceSince))
	}
	a := drill("rp r rh rp r rp rh r", "p h", "", "p . h p . . h p . .")
	assert.Equal(t, "8 of 10, 0 of 10", sidesText(a))
	assert.LessOrEqual(t, a.P, analysis.DrillFirm)
	assert.LessOrEqual(t, max(a.Tests.Z, a.Tests.Fall), analysis.DrillRanked)
	assert.InDelta(t, 1, a.Tests.Within, 1e-12)
	assert.Equal(t, []any{analysis.DrillOpen, analysis.DrillMixed}, []any{a.Word, a.Reason})
	assert.Equal(t, []stats.Tally{{Seen: 8, Exposed: 8}, {}}, []stats.Tally{a.Before.Contests, a.After.Contests})

	// Two contest flights since are as few as none.
	a = drill("rp r rh rp r rp rh r r", "p h", ". p", "p . h p . . h p")
	assert.Equal(t, "9 of 11, 0 of 10", sidesText(a))
	assert.LessOrEqual(t, a.Tests.Within, analysis.DrillFirm)
	assert.Equal(t, []any{analysis.DrillOpen, analysis.DrillMixed}, []any{a.Word, a.Reason})

	// It fell in practice, and in contests not at all.
	a = drill("rp . rh . r . h r", "r rp r rh r r r r", "r . rh r . p r .", "p . h p . . h p . .")
	assert.Equal(t, "12 of 16, 4 of 18", sidesText(a))
	assert.LessOrEqual(t, a.Tests.Within, analysis.DrillFirm)
	assert.Equal(t, []any{analysis.DrillOpen, analysis.DrillPractice}, []any{a.Word, a.Reason})

	// The same counts, with the fault in both: it fell in both.
	a = drill("rp r rh rp", "rp rh r rp p h", ". p . h .", "p . h p .")
	assert.Equal(t, "8 of 10, 0 of 10", sidesText(a))
	assert.InDelta(t, .0003607504, a.Tests.Within, 5e-11)
	assert.Equal(t, analysis.Worked, a.Word)
	// All flights of one sort: within it, and over all, is the same.
	a = drill("rp r rh rp r rp rh r p h", "", ". p . h . p . h p .", "")
	assert.InDelta(t, a.P, a.Tests.Within, 1e-12)
	assert.Equal(t, analysis.Worked, a.Word)
}
