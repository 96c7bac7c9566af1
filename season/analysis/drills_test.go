package analysis_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
)

// drillHead is a pilot with a sequence of ten figures.
const drillHead = `
pilot ines
pilot yuki
coach marek
sequence ten
  category sportsman
  1 7.4.1.1:10
  2 5.2.1.1:17
  3 1.2.1.1:8
  4 2.2.1.1:4
  5 K 9
  6 K 9
  7 K 9
  8 K 9
  9 K 9
  10 K 9
`

// watched are flights a week apart that were looked at: "r" with a fault of the
// radius, "o" with another, "b" with both, "." with none, "-" not looked at.
func watched(first string, pattern string) string {
	day, _ := season.ParseDate(first)
	var b strings.Builder
	for i, sign := range pattern {
		fmt.Fprintf(&b, "flight %s ines known\n  sequence ten\n", day+season.Date(7*i))
		switch sign {
		case 'r':
			b.WriteString("  fault 1 radius\n")
		case 'o':
			b.WriteString("  fault 2 pitch\n")
		case 'b':
			b.WriteString("  fault 1 radius\n  fault 2 pitch\n")
		case '.':
			b.WriteString("  reviewed by marek\n")
		default:
			b.WriteString("  note \"nobody watched\"\n")
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

// The flights that prompted a drill are left out of the window before: those
// named, else the last four looked at. Flights of the day itself are in
// neither window.
func TestDrillWindows(t *testing.T) {
	before := watched("2026-01-03", "r.rr.rr") // the last on 2026-02-14
	after := watched("2026-03-07", ".r-.")
	const drill = "drill 2026-02-20 ines radius \"four loops a leg\"\n"

	a := drillAnswer(t, drillHead+before+after+drill)
	assert.Equal(t, []string{"2026-01-24/ines/known", "2026-01-31/ines/known", "2026-02-07/ines/known", "2026-02-14/ines/known"}, testkit.Names(a.Prompted))
	assert.Equal(t, "2 of 3", sideText(a.Before))
	assert.Equal(t, "1 of 3", sideText(a.After), "a flight that nobody looked at is none")

	a = drillAnswer(t, drillHead+before+after+drill+"  prompted-by 2026-01-17/ines/known\n  prompted-by 2026-02-14/ines/known\n")
	assert.Equal(t, []string{"2026-01-17/ines/known", "2026-02-14/ines/known"}, testkit.Names(a.Prompted))
	assert.Equal(t, "3 of 5", sideText(a.Before))
	assert.Equal(t, "1 of 3", sideText(a.After))

	day := "flight 2026-02-20 ines practice\n  fault 1 radius\n"
	b := drillAnswer(t, drillHead+before+day+after+drill+"  prompted-by 2026-01-17/ines/known\n  prompted-by 2026-02-14/ines/known\n")
	assert.Equal(t, a.Before, b.Before, "flown on the day of the drill")
	assert.Equal(t, a.After, b.After)

	next := "flight 2026-02-21 ines practice\n  fault 1 radius\n"
	b = drillAnswer(t, drillHead+before+next+after+drill+"  prompted-by 2026-01-17/ines/known\n  prompted-by 2026-02-14/ines/known\n")
	assert.Equal(t, "2 of 4", sideText(b.After), "practice counts, from the next day on")
}

// Void flights, flights of others and flights after the day that counts as
// today are in no window; fewer than four flights before prompt as many.
func TestDrillWindowsOfThePilot(t *testing.T) {
	a := drillAnswer(t, drillHead+watched("2026-01-03", "rrrrr")+watched("2026-03-07", "...")+
		"drill 2026-02-20 ines radius\n"+
		"flight 2026-03-20 ines known\n  sequence ten\n  fault 1 radius\n  void \"cloud\"\n"+
		"flight 2026-03-21 yuki known\n  sequence ten\n  fault 1 radius\n"+
		"flight 2026-12-24 ines known\n  sequence ten\n  fault 1 radius\n"+
		"drill 2026-02-20 yuki radius\ndrill 2026-12-20 ines pitch\n")
	assert.Equal(t, "1 of 1", sideText(a.Before))
	assert.Equal(t, "0 of 3", sideText(a.After))

	a = drillAnswer(t, drillHead+watched("2026-01-03", "rr")+"drill 2026-02-20 ines radius\n")
	assert.Len(t, a.Prompted, 2)
	assert.Equal(t, "0 of 0", sideText(a.Before))
	assert.Equal(t, analysis.DrillTooFew, a.Word)
	assert.Equal(t, 1.0, a.P)

	l := testkit.BookOf(t, drillHead+"drill 2026-02-20 ines radius\ndrill 2026-02-01 yuki radius\n")
	answers := analysis.DrillsOf(l, season.Selection{})
	require.Len(t, answers, 2, "of everybody")
	assert.Equal(t, "yuki", answers[0].Drill.Pilot.Handle, "in the order in which they were set")
}

// The next drill on the same target ends the window after, and begins its own
// window before; a drill on another target does neither.
func TestDrillEndsAtTheNext(t *testing.T) {
	book := drillHead + watched("2026-01-03", "rrrrrrrr") + watched("2026-03-07", ".r.r") + watched("2026-04-18", "....") +
		"drill 2026-03-01 ines radius\n"
	first := drillAnswer(t, book)
	assert.Equal(t, "2 of 8", sideText(first.After))
	answers := drillAnswers(t, book+"drill 2026-03-20 ines pitch\ndrill 2026-04-10 ines radius \"again\"\n  prompted-by 2026-03-28/ines/known\n")
	require.Len(t, answers, 3)
	assert.Equal(t, "2 of 4", sideText(answers[0].After))
	assert.Equal(t, "4 of 4", sideText(answers[0].Before))
	assert.Equal(t, "1 of 3", sideText(answers[2].Before), "since the drill before, without what prompted it")
	assert.Equal(t, "0 of 4", sideText(answers[2].After))
}

// Fisher's exact test, one-sided. Derived, by the hypergeometric distribution:
// before 5 of 10, since 0 of 6 p .058, 0 of 8 .029; before 8 of 10, 0 of 3 .035;
// before 4 of 12, 0 of 10 .068; before 3 of 6, 0 of 8 .055; 3 of 3 and 0 of 3 is
// one of 20, the least that three flights a side can give.
func TestDrillWords(t *testing.T) {
	for _, test := range []struct {
		before, after string
		p             float64
		word          analysis.DrillWord
		reason        analysis.DrillReason
	}{
		{"r.r.r.r.r.", "......", .058, analysis.MayHaveWorked, ""},
		{"r.r.r.r.r.", "........", .029, analysis.Worked, ""},
		{"rrrr.rrrr.", "...", .035, analysis.Worked, ""},
		{"r..r..r..r..", "..........", .068, analysis.MayHaveWorked, ""},
		{"r.r.r.", "........", .055, analysis.MayHaveWorked, ""},
		{"r.r.r.", "r.......", .1748, analysis.DrillOpen, analysis.DrillByChance},
		{"rrr", "...", .05, analysis.Worked, ""},
		{"rr", ".........", .018, analysis.DrillTooFew, analysis.DrillFewFlights},
		{"rrrrrrrrr", "..", .018, analysis.DrillTooFew, analysis.DrillFewFlights},
		{"...", "...", 1, analysis.DrillOpen, analysis.DrillByChance},
		{"..........", "rrrrrr", 1, analysis.DrillOpen, analysis.DrillByChance},
		{"rrrrrr", "rrrrrr", 1, analysis.DrillOpen, analysis.DrillByChance},
	} {
		a := drillAnswer(t, drillHead+watched("2025-01-03", test.before)+watched("2025-06-06", "r")+watched("2025-07-04", test.after)+
			"drill 2025-06-20 ines radius\n  prompted-by 2025-06-06/ines/known\n")
		name := test.before + " | " + test.after
		assert.Equal(t, test.word, a.Word, name)
		assert.Equal(t, test.reason, a.Reason, name)
		assert.InDelta(t, test.p, a.P, 0.0006, name)
		assert.Equal(t, strings.Count(test.before, "r"), a.Before.Seen)
		assert.Equal(t, len(test.after), a.After.Flights)
	}
}

// A drill that is set after the day that counts as today is not known yet: its
// fault is still one of the others.
func TestDrillsToCome(t *testing.T) {
	book := drillHead + watched("2026-01-03", "bbbbbbbb") + "drill 2026-02-27 ines radius\n" + watched("2026-03-07", "........")
	now := drillAnswers(t, book)[0]
	later := drillAnswers(t, book+"drill 2026-11-26 ines pitch\n")[0]
	assert.InDelta(t, 1, now.Before.Others, 0)
	assert.InDelta(t, 1, later.Before.Others, 0)
	assert.Equal(t, now.Word, later.Word)
	assert.Zero(t, drillAnswers(t, book+"drill 2026-11-25 ines pitch\n")[0].Before.Others)
}

// Where the other, undrilled faults got rarer by as large a ratio, the drill
// has not been shown to matter. Faults that another drill is set on are none of
// the others.
func TestDrillBesideUndrilledFaults(t *testing.T) {
	answer := func(before, after, more string) analysis.DrillAnswer {
		return drillAnswers(t, drillHead+watched("2025-01-03", before)+watched("2025-06-06", "r")+watched("2025-07-04", after)+
			"drill 2025-06-20 ines radius\n  prompted-by 2025-06-06/ines/known\n"+more)[0]
	}
	a := answer("bbbbbbbb", "........", "")
	assert.Less(t, a.P, 0.001)
	assert.InDelta(t, 1, a.Before.Others, 0)
	assert.Zero(t, a.After.Others)
	assert.Equal(t, analysis.DrillOpen, a.Word, "everything fell to nothing")
	assert.Equal(t, analysis.DrillOthersFell, a.Reason)

	a = answer("bbbbbbbb", "......oo", "")
	assert.InDelta(t, 0.25, a.After.Others, 0)
	assert.Equal(t, analysis.Worked, a.Word, "to nothing, beside a fall to a quarter")
	a = answer("bbbbbbbb", "......rb", "")
	assert.Equal(t, analysis.DrillOpen, a.Word, "to a quarter, beside a fall to an eighth")
	a = answer("bbbbbbbb", "......rr", "")
	assert.Equal(t, analysis.DrillOpen, a.Word)
	a = answer("rrrrrrrr", "......oo", "")
	assert.Equal(t, analysis.Worked, a.Word, "there was nothing else to fall")
	a = answer("bbbbbbbb", "........", "drill 2025-06-20 ines pitch\n  prompted-by 2025-06-06/ines/known\n")
	assert.Zero(t, a.Before.Others)
	assert.Equal(t, analysis.Worked, a.Word, "the other fault is drilled as well")
}

// Faults per figure flown. Computed by R and statsmodels: 3 in 60 against 14 in
// 110 is a ratio of .39285714. A fault seen and felt in one flight is one
// flight; `2x` is two faults.
func TestDrillRates(t *testing.T) {
	book := drillHead + watched("2025-01-03", "rrrrrrrrrr.") + watched("2025-06-06", "r") + watched("2025-07-04", "rr....") +
		"drill 2025-06-20 ines radius\n  prompted-by 2025-06-06/ines/known\n"
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

	// Nothing ever seen, or no figures known: no rate.
	a = drillAnswer(t, drillHead+watched("2025-01-03", "....")+watched("2025-06-06", "r")+watched("2025-07-04", "....")+
		"drill 2025-06-20 ines radius\n  prompted-by 2025-06-06/ines/known\n")
	assert.False(t, a.HasRate)

	// A flight whose figures are not known has its say by flights, and none in the
	// rate: 5 in 50 would be 9 in 50 with the two before.
	a = drillAnswer(t, drillHead+"flight 2025-01-01 ines practice\n  fault 1 radius 3x\nflight 2025-01-02 ines practice\n  fault 1 radius\n"+
		watched("2025-01-03", "rrrrr")+watched("2025-06-06", "r")+watched("2025-07-04", "....")+
		"drill 2025-06-20 ines radius\n  prompted-by 2025-06-06/ines/known\n")
	assert.Equal(t, "7 of 7", sideText(a.Before))
	assert.Equal(t, []int{5, 50}, []int{a.Before.Faults, a.Before.Figures})
}

// A drill on a family: the family against the rest of the same flight. Computed
// by R exactRankTests and SciPy: 7 7.5 6.5 8 7 against 6 6.5 5.5 6.5 7 5 is 10 of
// 462 splits, .021645.
func TestDrillOnAFamily(t *testing.T) {
	flights := func(first, programme string, grades ...string) string {
		day, _ := season.ParseDate(first)
		text := ""
		for i, grade := range grades {
			text += fmt.Sprintf("flight %s ines %s\n  sequence ten\n  panel marek\n", day+season.Date(7*i), programme) +
				markRows([]string{grade, "6", "6", "6", "6", "6", "6", "6", "6", "6"})
		}
		return text
	}
	before := flights("2025-01-03", "known", "6", "6.5", "5.5", "6.5", "7", "5")
	prompting := flights("2025-05-02", "known", "3")
	after := flights("2025-07-04", "known", "7", "7.5", "6.5", "8", "7")
	const drill = "drill 2025-06-20 ines 7 \"four loops a leg\"\n  prompted-by 2025-05-02/ines/known\n"
	a := drillAnswer(t, drillHead+before+prompting+after+drill)
	assert.InDelta(t, 10.0/462, a.P, 1e-12)
	assert.Equal(t, analysis.Worked, a.Word)
	require.True(t, a.HasChange)
	assert.InDelta(t, 10*(7.2-36.5/6), a.Change, 1e-9)
	assert.Less(t, a.Low, a.Change)
	assert.Greater(t, a.High, a.Change)
	assert.GreaterOrEqual(t, a.Confidence, 0.9)
	assert.InDeltaSlice(t, []float64{0, 5, -5, 5, 10, -10}, a.Before.Values, 1e-9)

	// Practice says nothing of a family against the rest.
	b := drillAnswer(t, drillHead+before+prompting+after+flights("2025-09-05", "practice", "1", "1", "1")+drill)
	assert.InDelta(t, a.P, b.P, 1e-12)

	for _, test := range []struct {
		before, after []string
		p             float64
		word          analysis.DrillWord
	}{
		{[]string{"6", "6.5", "5"}, []string{"7", "7.5", "8"}, 1.0 / 20, analysis.Worked},
		{[]string{"6", "6.5", "7.5"}, []string{"7", "8", "8.5"}, 2.0 / 20, analysis.MayHaveWorked},
		{[]string{"6", "6.5"}, []string{"7", "7.5", "8", "8", "8"}, 1, analysis.DrillTooFew},
		{[]string{"6", "6.5", "5"}, []string{"7", "7.5"}, 1, analysis.DrillTooFew},
		{[]string{"6", "6", "6"}, []string{"6", "6", "6"}, 1, analysis.DrillOpen},
		{[]string{"7", "7.5", "8"}, []string{"6", "6.5", "5"}, 1, analysis.DrillOpen},
	} {
		a := drillAnswer(t, drillHead+flights("2025-01-03", "known", test.before...)+prompting+flights("2025-07-04", "known", test.after...)+drill)
		assert.Equal(t, test.word, a.Word, "%v %v", test.before, test.after)
		assert.InDelta(t, test.p, a.P, 1e-12, "%v %v", test.before, test.after)
	}
}

// Whatever was flown, a word keeps its rule.
func TestDrillProperties(t *testing.T) {
	pattern := rapid.StringOfN(rapid.SampledFrom([]rune("ro.b-")), 0, 9, -1)
	rapid.Check(t, func(r *rapid.T) {
		before, after := pattern.Draw(r, "before"), pattern.Draw(r, "after")
		a := drillAnswer(t, drillHead+watched("2025-01-03", before)+watched("2025-07-04", after)+"drill 2025-06-20 ines radius\n")
		require.LessOrEqual(r, len(a.Prompted), 4)
		require.Equal(r, len(strings.ReplaceAll(before, "-", "")), len(a.Prompted)+a.Before.Flights)
		require.True(r, a.P > 0 && a.P <= 1)
		switch a.Word {
		case analysis.Worked:
			require.LessOrEqual(r, a.P, 0.05)
		case analysis.MayHaveWorked:
			require.True(r, a.P > 0.05 && a.P <= 0.10)
		case analysis.DrillTooFew:
			require.True(r, a.Before.Flights < 3 || a.After.Flights < 3)
		}
	})
}

// Sequences differ in how hard a family is: flights before on one and since on
// another are not compared, and of several only those flown on both sides.
func TestDrillOnAFamilyWithinSequences(t *testing.T) {
	flights := func(first, sequence string, grades ...string) string {
		day, _ := season.ParseDate(first)
		text := ""
		for i, grade := range grades {
			text += fmt.Sprintf("flight %s ines known\n  sequence %s\n  panel marek\n", day+season.Date(7*i), sequence) +
				markRows([]string{grade, "6", "6", "6", "6", "6", "6", "6", "6", "6"})
		}
		return text
	}
	another := strings.Replace(drillHead[strings.Index(drillHead, "sequence ten"):], "ten", "other", 1)
	const drill = "drill 2025-06-20 ines 7 \"four loops a leg\"\n  prompted-by 2025-05-02/ines/known\n"
	before := flights("2025-01-03", "ten", "6", "6.5", "5.5", "6.5", "7", "5") + flights("2025-05-02", "ten", "3")
	easier := flights("2025-07-04", "other", "9", "9.5", "9", "9", "9.5")
	a := drillAnswer(t, drillHead+another+before+easier+drill)
	assert.Equal(t, analysis.DrillTooFew, a.Word)
	assert.Equal(t, 11, a.Apart)
	assert.False(t, a.HasChange)

	b := drillAnswer(t, drillHead+another+before+easier+flights("2025-09-05", "ten", "7", "7.5", "6.5", "8", "7")+drill)
	assert.InDelta(t, 10.0/462, b.P, 1e-12, "as if the other sequence had not been flown")
	assert.Equal(t, 5, b.Apart)
	assert.Equal(t, analysis.Worked, b.Word)
}
