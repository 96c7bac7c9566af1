package analysis_test

import (
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
)

// recurringOf answers for a pilot's flights.
func recurringOf(t testing.TB, book string, s season.Selection) analysis.Recurring {
	t.Helper()
	l := testkit.BookOf(t, book)
	if s.Pilot == nil {
		s.Pilot = l.PilotNamed("ines")
	}
	return analysis.FaultsOf(l, s)
}

// recurringTexts write the rows: kind/group flights/exposed count = seen + felt,
// points, since, drill.
func recurringTexts(rows []analysis.RecurringKind) []string {
	texts := []string{}
	for _, r := range rows {
		text := fmt.Sprintf("%s/%s %d/%d %d=%d+%d %s %s", r.Kind.Name, r.Group, r.Flights, r.Exposed, r.Count, r.Seen, r.Felt, testkit.ExactText(r.Points), r.Since)
		if r.Unknown > 0 {
			text += fmt.Sprintf(" unknown %d", r.Unknown)
		}
		if r.Drill != nil {
			text += " drill " + r.Drill.Date.String()
		}
		texts = append(texts, text)
	}
	return texts
}

// season26 has three flights with faults, one reviewed and clean, one never
// looked at, one void and one of another pilot.
var season26 = testkit.FaultBook +
	testkit.FlightText("2026-04-18 ines known", "fault 3 spin-stop 10deg on 9.11.1.5", "fault 3 spin-stop 12deg on 9.11.1.5 by marek",
		"fault 2 radius 3x by marek", "fault 1 timing", "fault - loose-article \"canopy catch not latched\"", "reviewed by marek") +
	testkit.FlightText("2026-05-02 ines practice", "fault 3 spin-stop 5deg on 9.11.1.5", "fault 2 radius felt") +
	testkit.FlightText("2026-05-09 ines known", `void "cloud"`, "fault 3 spin-stop 45deg on 9.11.1.5") +
	testkit.FlightText("2026-06-06 ines known", "fault 3 spin-stop 3deg on 9.11.1.5", "fault 1 no-line", "fault 1 heading 5deg") +
	testkit.FlightText("2026-06-07 ines known", "reviewed") +
	testkit.FlightText("2026-06-08 ines known", `note "nobody watched"`) +
	testkit.FlightText("2026-06-09 yuki known", "fault 3 spin-stop 10deg on 9.11.1.5") +
	"drill 2026-04-20 ines radius \"four loops a leg\"\ndrill 2026-05-03 ines spins \"stop on the number\"\ndrill 2026-05-20 ines spin-stop\ndrill 2026-05-21 yuki radius\n"

// [derived], by the rules of the deductions: spin stops 2.5, 1 and 0.5 on K 14;
// the radius 3 on K 10; no line a point on K 23 and one on the K 10 after it.
func TestRecurring(t *testing.T) {
	got := recurringOf(t, season26, season.Selection{})
	assert.Equal(t, 4, got.Watched)
	assert.Equal(t, []string{
		"spin-stop/spins 3/4 3=3+0 56 2026-04-18 drill 2026-05-20",
		"no-line/ 1/4 1=1+0 33 2026-06-06",
		"radius/7 2/4 4=3+1 30 2026-04-18 drill 2026-04-20",
		"heading/ 1/4 1=1+0 23 2026-06-06",
		"loose-article/ 1/4 1=1+0 0 2026-04-18",
		"timing/ 1/4 1=0+1 0 2026-04-18",
	}, recurringTexts(got.Rows))
}

// A kind that comes back on figures of several groups is named once, though it
// has a row in each (derived: 2 x 23, 1 x 10 and 2 x 14 of K).
func TestKindsOverGroups(t *testing.T) {
	got := recurringOf(t, testkit.FaultBook+
		testkit.FlightText("2026-04-18 ines known", "fault 1 heading 10deg on 9.1.1.1", "fault 2 heading 5deg")+
		testkit.FlightText("2026-04-19 ines known", "fault 3 heading 10deg", "fault 2 radius 7x")+
		"drill 2026-04-20 ines 7\n", season.Selection{})
	assert.Equal(t, []string{
		"radius/7 1/2 7=7+0 70 2026-04-19 drill 2026-04-20", "heading/9.1 1/2 1=1+0 46 2026-04-18",
		"heading/ 1/2 1=1+0 28 2026-04-19", "heading/7 1/2 1=1+0 10 2026-04-18 drill 2026-04-20",
	}, recurringTexts(got.Rows))
	assert.Equal(t, []string{"heading/ 2/2 3=3+0 84 2026-04-18", "radius/7 1/2 7=7+0 70 2026-04-19 drill 2026-04-20"}, recurringTexts(got.Kinds))
}

// A kind that shows in some families alone is of the one of them that its figure has;
// a drill on a family where some of a kind was noted stands beside the kind.
func TestRecurringInTheFamilyThatCanShowIt(t *testing.T) {
	got := recurringOf(t, testkit.FaultBook+testkit.FlightText("2026-04-18 ines known", "fault 1 drift", "fault 3 spin-stop 10deg", "fault 4 heading 5deg")+
		testkit.FlightText("2026-04-19 ines known", "fault 1 heading 5deg on 9.1.1.1")+"drill 2026-04-20 ines 9.1\n", season.Selection{})
	assert.Equal(t, []string{
		"spin-stop/spins 1/2 1=1+0 28 2026-04-18", "heading/9.1 1/2 1=1+0 23 2026-04-19 drill 2026-04-20", "heading/ 1/2 1=1+0 9 2026-04-18",
		"bridging/5 1/2 1=1+0 0 2026-04-18 unknown 1",
	}, recurringTexts(got.Rows))
	for _, kind := range got.Kinds {
		assert.Equal(t, kind.Kind.Name == "heading", kind.Beside != nil, kind.Kind.Name)
		assert.Nil(t, kind.Drill)
	}
}

// Since when is asked of all seasons, whatever is selected.
func TestRecurringOfASelection(t *testing.T) {
	until := recurringOf(t, season26, season.Selection{Since: testkit.Day(t, "2026-05-01"), Until: testkit.Day(t, "2026-05-15")})
	assert.Equal(t, 1, until.Watched)
	assert.Equal(t, []string{
		"spin-stop/spins 1/1 1=1+0 14 2026-04-18 drill 2026-05-03",
		"radius/7 1/1 1=0+1 0 2026-04-18 drill 2026-04-20",
	}, recurringTexts(until.Rows))
}

// Without K, or without an amount where the kind has no plain price, the points
// are not known.
func TestRecurringWithoutPoints(t *testing.T) {
	book := testkit.FaultBook + "flight 2026-04-18 ines free\n  category intermediate\n  fault 2 spin-stop 10deg on 9.11.1.4\n  fault 12 radius\n" +
		testkit.FlightText("2026-05-18 ines known", "fault 3 spin-stop 10deg on 9.11.1.5", "fault 1 drift on 5.2.1.1", "fault 1 drift felt")
	assert.Equal(t, []string{
		"spin-stop/spins 2/2 2=2+0 28 2026-04-18 unknown 1",
		"bridging/5 1/2 2=1+1 0 2026-05-18 unknown 1",
		"radius/ 1/2 1=1+0 0 2026-04-18 unknown 1",
	}, recurringTexts(recurringOf(t, book, season.Selection{}).Rows))
}

// The group is that of the code, or of the figure where it has only one.
func TestRecurringGroups(t *testing.T) {
	const sequence = "sequence more\n  1  9.1.1.1:3 9.1.5.1:2\n  2  K 8 spins\n  3  4.1:5\n  4  9.1.1.1:3 4.1:5\n"
	for fault, want := range map[string]string{
		"1 roll-stop": "9.1", "2 spin-stop": "spins", "3 heading": "", "4 heading": "", "4 heading 5deg on 9.1.1.1": "9.1",
		"4 heading 5deg on 4.1": "", "- heading": "",
	} {
		got := recurringOf(t, testkit.FaultBook+sequence+"flight 2026-04-18 ines practice\n  sequence more\n  fault "+fault+"\n", season.Selection{})
		require.Len(t, got.Rows, 1, fault)
		assert.Equal(t, want, got.Rows[0].Group, fault)
	}
}

// openTexts write what is open.
func openTexts(open []analysis.OpenMatter) []string {
	texts := []string{}
	for _, m := range open {
		texts = append(texts, m.Flight.Name+" "+m.Fault.Kind.Name)
	}
	return texts
}

func TestOpenMatters(t *testing.T) {
	loose := testkit.FlightText("2026-04-18 ines known", "fault - loose-article")
	const strap = "fault-kind loose-strap\n  safety\n"
	for _, test := range []struct {
		name, book string
		want       []string
	}{
		{"open", loose, []string{"2026-04-18/ines/known loose-article"}},
		{"closed in a later flight", loose + testkit.FlightText("2026-04-19 ines known", "closed loose-article"), []string{}},
		{"not by another pilot's", loose + testkit.FlightText("2026-04-19 yuki known", "closed loose-article"), []string{"2026-04-18/ines/known loose-article"}},
		{"not by an earlier one", testkit.FlightText("2026-04-17 ines known", "closed loose-article") + loose, []string{"2026-04-18/ines/known loose-article"}},
		{"not by the flight itself", testkit.FlightText("2026-04-18 ines known", "fault - loose-article", "closed loose-article"), []string{"2026-04-18/ines/known loose-article"}},
		{"open again", loose + testkit.FlightText("2026-04-19 ines known", "closed loose-article", "fault 1 loose-article"), []string{"2026-04-19/ines/known loose-article"}},
		{"another kind stays open", strap + loose + testkit.FlightText("2026-04-19 ines known", "fault - loose-strap") + testkit.FlightText("2026-04-20 ines known", "closed loose-strap"), []string{"2026-04-18/ines/known loose-article"}},
		{"a sign-off closes nothing", loose + "signoff 2026-04-20 ines intermediate by marek\n", []string{"2026-04-18/ines/known loose-article"}},
		{"closed by a line of that day", loose + "closed 2026-04-18 ines loose-article by marek\n", []string{}},
		{"closed by a later line, its own kind alone", strap + loose + testkit.FlightText("2026-04-19 ines known", "fault - loose-strap") + "closed 2026-05-01 ines loose-article\n", []string{"2026-04-19/ines/known loose-strap"}},
		{"not by an earlier line", loose + "closed 2026-04-17 ines loose-article\n", []string{"2026-04-18/ines/known loose-article"}},
		{"nor by one of another pilot", loose + "closed 2026-04-20 yuki loose-article\n", []string{"2026-04-18/ines/known loose-article"}},
		{"nor by one after today", loose + "closed 2026-11-26 ines loose-article\n", []string{"2026-04-18/ines/known loose-article"}},
		{"noted by two, one matter", testkit.FlightText("2026-04-18 ines known", "fault - loose-article", "fault - loose-article by marek"), []string{"2026-04-18/ines/known loose-article"}},
		{"of two figures, two", testkit.FlightText("2026-04-18 ines known", "fault 1 loose-article", "fault 2 loose-article by marek"), []string{"2026-04-18/ines/known loose-article", "2026-04-18/ines/known loose-article"}},
		{"a flight after today closes nothing", loose + testkit.FlightText("2026-11-26 ines known", "closed loose-article"), []string{"2026-04-18/ines/known loose-article"}},
		{"of a void flight too", testkit.FlightText("2026-04-18 ines known", "fault - loose-article", `void "cloud"`), []string{"2026-04-18/ines/known loose-article"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			// Asked about a time without flights: what is open is always told.
			got := recurringOf(t, testkit.FaultBook+test.book, season.Selection{Season: 2025})
			assert.Equal(t, test.want, openTexts(got.Open))
		})
	}
	both := testkit.BookOf(t, testkit.FaultBook+loose+testkit.FlightText("2026-04-19 yuki known", "closed loose-article", "fault - loose-article"))
	assert.Equal(t, []string{"2026-04-18/ines/known loose-article", "2026-04-19/yuki/known loose-article"}, openTexts(analysis.OpenMatters(both, nil)))
}

// [derived]: every figure was given 8.0; expected 7.5, 7, 9.5 and so on. Of
// practice nothing counts: the grades there are the coach's own.
func TestCalibration(t *testing.T) {
	got := recurringOf(t, season26, season.Selection{}).Calibration
	// 2026-04-18: 7.5 and 7; 06-06: 9.5 on figure 3, 8 on 1, 9 on 2.
	assert.Equal(t, 5, got.N, "without the 9 of the practice of 05-02")
	assert.Equal(t, "1/5", testkit.ExactText(got.Bias), "(-0.5 - 1 + 1.5 + 0 + 1) / 5")
	assert.InDelta(t, math.Sqrt((0.25+1+2.25+0+1-5/25.0)/4), got.Spread, 1e-12)
	assert.Zero(t, got.Zeroed)

	one := recurringOf(t, testkit.FaultBook+testkit.FlightText("2026-04-18 ines known", "fault 3 heading 5deg by marek", "fault 1 drift"), season.Selection{}).Calibration
	assert.Equal(t, 1, one.N, "a fault without a price says nothing of the coach")
	assert.Equal(t, "1", testkit.ExactText(one.Bias))
	assert.True(t, math.IsNaN(one.Spread))

	none := recurringOf(t, testkit.FaultBook+testkit.FlightText("2026-04-18 ines known", "reviewed"), season.Selection{}).Calibration
	assert.Nil(t, none.Bias)
	assert.True(t, math.IsNaN(none.Spread))

	hard := testkit.FaultBook + "flight 2026-04-18 ines known\n  sequence four\n  panel A B\n  1 HZ HZ\n  2 7 8\n  3 8 8\n  4 8 8\n  positioning 8 8\n  fault 1 heading 5deg\n  fault 2 radius\n  reviewed by marek\n"
	zeroed := recurringOf(t, hard, season.Selection{}).Calibration
	assert.Equal(t, []int{2, 1}, []int{zeroed.N, zeroed.Zeroed})

	// Without a coach there is nobody to compare, whoever watched practice.
	alone := recurringOf(t, strings.Replace(hard, "  reviewed by marek\n", "", 1)+testkit.FlightText("2026-05-02 ines practice", "fault 1 heading 5deg by marek"), season.Selection{}).Calibration
	assert.Equal(t, []int{0, 0}, []int{alone.N, alone.Zeroed})
	assert.Nil(t, alone.Bias)
}

// Whatever was noted, the rows count it once each and are in order of points.
func TestRecurringAddsUp(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		book, watched, times := testkit.FaultBook, 0, 0
		for i := range rapid.IntRange(1, 4).Draw(rt, "flights") {
			lines := rapid.SliceOfN(testkit.FaultLine(), 0, 5).Draw(rt, "faults")
			if len(lines) > 0 {
				watched++
			}
			book += testkit.FlightText(fmt.Sprintf("2026-05-0%d ines known", i+1), append([]string{`note "flown"`}, lines...)...)
		}
		l := testkit.BookOf(t, book)
		got := analysis.FaultsOf(l, season.Selection{Pilot: l.Pilots[0]})
		for _, f := range l.Flights {
			for _, n := range f.Noted() {
				times += n.Times
			}
		}
		require.Equal(rt, watched, got.Watched)
		count, last := 0, (*big.Rat)(nil)
		for _, row := range got.Rows {
			count += row.Count
			require.Equal(rt, row.Count, row.Seen+row.Felt)
			require.LessOrEqual(rt, row.Flights, row.Exposed)
			require.LessOrEqual(rt, row.Exposed, got.Watched)
			require.GreaterOrEqual(rt, row.Points.Sign(), 0)
			require.True(rt, last == nil || row.Points.Cmp(last) <= 0, "most points first")
			last = row.Points
		}
		require.Equal(rt, times, count)
		keys := map[string]bool{}
		for _, row := range got.Rows {
			keys[row.Kind.Name+"/"+row.Group] = true
		}
		require.Len(rt, keys, len(got.Rows), "one row per kind and group")
		kinds := 0
		for _, kind := range got.Kinds {
			kinds += kind.Count
		}
		require.Equal(rt, count, kinds)
		require.True(rt, slices.IsSortedFunc(got.Open, func(a, b analysis.OpenMatter) int { return int(a.Flight.Date - b.Flight.Date) }))
	})
}
