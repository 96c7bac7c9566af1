package analysis_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
)

// backTexts write what comes back: kind flights/exposed, and its drill's day.
func backTexts(t testing.TB, book string, s season.Selection) []string {
	t.Helper()
	l := testkit.BookOf(t, book)
	s.Pilot = l.PilotNamed("ines")
	texts := []string{}
	for _, r := range analysis.ComesBack(l.KnownTo(s), s.Pilot) {
		text := fmt.Sprintf("%s/%s %d/%d", r.Kind.Name, r.Group, r.Flights, r.Exposed)
		if r.Drill != nil {
			text += " drill " + r.Drill.Date.String()
			if r.BeforeDrill {
				text += ", before it"
			}
			if r.SinceExposed > 0 {
				text += fmt.Sprintf(" (%d/%d since)", r.SinceFlights, r.SinceExposed)
			}
		}
		texts = append(texts, text)
	}
	return texts
}

// The ledger's sequence four has a stall turn, two loops and a spin. Where few
// flights had a spin, a fault of spins is counted in those: in three of three it
// comes back more than a heading that was off in four of six.
func TestComesBackByExposure(t *testing.T) {
	const short = "sequence short\n  category intermediate\n  1 7.4.1.1:10\n  2 5.2.1.1:17\n"
	book := testkit.FaultBook + short
	for i, line := range []string{
		"four|fault 3 spin-stop 10deg on 9.11.1.5", "four|fault 3 spin-stop 10deg on 9.11.1.5", "four|fault 3 spin-stop 10deg on 9.11.1.5",
		"short|fault 1 radius", "short|fault 2 heading 5deg", "short|reviewed",
	} {
		sequence, fault, _ := strings.Cut(line, "|")
		more := ""
		if i < 3 {
			more = "  fault 1 heading 5deg\n"
		}
		book += fmt.Sprintf("flight 2026-04-%02d ines known\n  sequence %s\n  %s\n%s", 10+i, sequence, fault, more)
	}
	assert.Equal(t, []string{"spin-stop/spins 3/3", "heading/ 4/6"}, backTexts(t, book, season.Selection{}), "the radius was noted once: it has not come back")
}

// Since the latest drill on it, ended or not; the flight of the drill's own day is
// not since; a kind with fewer than three flights since has its rate before.
func TestComesBackSinceItsDrill(t *testing.T) {
	flights := testkit.FaultBook
	for i, faults := range []string{"radius heading", "radius heading", "radius", "radius heading", "heading", "radius", "reviewed", "radius"} {
		var lines []string
		for _, kind := range strings.Fields(faults) {
			if kind == "reviewed" {
				lines = append(lines, kind)
				continue
			}
			lines = append(lines, "fault 2 "+kind)
		}
		flights += testkit.FlightText(fmt.Sprintf("2026-05-%02d ines known", 1+i), lines...)
	}
	assert.Equal(t, []string{"radius/7 6/8", "heading/7 4/8"}, backTexts(t, flights, season.Selection{}))
	assert.Equal(t, []string{"heading/7 4/8", "radius/7 2/4 drill 2026-05-04"}, backTexts(t, flights+"drill 2026-05-04 ines radius\n", season.Selection{}),
		"of equal shares the one noted in more flights comes first")
	assert.Equal(t, []string{"radius/7 4/5 drill 2026-05-06, before it (1/2 since)", "heading/7 4/8"}, backTexts(t, flights+"drill 2026-05-05 ines radius\n  ended 2026-05-06\n  note \"x\"\ndrill 2026-05-06 ines radius\n", season.Selection{}))
	assert.Equal(t, []string{"radius/7 4/4", "heading/7 3/4"}, backTexts(t, flights+"drill 2026-05-05 ines radius\n", season.Selection{Until: testkit.Day(t, "2026-05-04")}),
		"asked about an earlier day, neither drill nor flight is known")
}

// What was found: a drill set on a family made a fault come back that nothing had named the
// day before, from flights on both sides of an earlier drill on the fault.
func TestADrillSetTodayMovesNothing(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		book := testkit.FaultBook
		for i := range rapid.IntRange(1, 9).Draw(rt, "flights") {
			lines := []string{rapid.SampledFrom([]string{"reviewed", "fault 2 radius", "fault 2 heading"}).Draw(rt, "noted")}
			if rapid.Bool().Draw(rt, "both") {
				lines = append(lines, "fault 1 radius")
			}
			book += testkit.FlightText(fmt.Sprintf("2026-05-%02d ines %s", 1+i, rapid.SampledFrom([]string{"known", "practice"}).Draw(rt, "programme")), lines...)
		}
		target := rapid.SampledFrom([]string{"radius", "7", "heading"})
		for day := range rapid.IntRange(0, 2).Draw(rt, "drills") {
			book += fmt.Sprintf("drill 2026-05-%02d ines %s\n", 3+3*day, target.Draw(rt, "target"))
		}
		counts := func(book string) []string {
			l := testkit.BookOf(t, book).KnownTo(season.Selection{Until: testkit.Day(t, "2026-05-10")})
			said := []string{}
			for _, row := range analysis.ComesBack(l, l.PilotNamed("ines")) {
				said = append(said, fmt.Sprintf("%s %d/%d", row.Kind.Name, row.Flights, row.Exposed))
			}
			return said
		}
		assert.Equal(rt, counts(book), counts(book+"drill 2026-05-10 ines "+target.Draw(rt, "today")+"\n"), book)
	})
}

// Flights of more than 730 days ago, void ones and matters of safety are in none.
func TestComesBackOverTwoYears(t *testing.T) {
	book := testkit.FaultBook
	for _, day := range []string{"2024-05-09", "2024-05-10", "2024-05-11", "2026-05-08", "2026-05-09"} {
		book += testkit.FlightText(day+" ines known", "fault 2 radius", "fault - loose-article")
	}
	book += testkit.FlightText("2026-05-07 ines known", "fault 2 radius", `void "cloud"`)
	assert.Equal(t, []string{"radius/7 3/3"}, backTexts(t, book, season.Selection{Until: testkit.Day(t, "2026-05-10")}),
		"2024-05-11 is the 730th day back")
	assert.Empty(t, backTexts(t, book, season.Selection{Until: testkit.Day(t, "2026-05-11")}))
	assert.Empty(t, backTexts(t, testkit.FaultBook, season.Selection{}))
}

// One rule whatever is selected: a page of last season names the same.
func TestComesBackWhateverIsSelected(t *testing.T) {
	book := testkit.FaultBook
	for i := range 4 {
		book += testkit.FlightText(fmt.Sprintf("2026-05-%02d ines known", 1+i), "fault 2 radius", "fault 1 heading 5deg", "fault 1 timing", "fault 2 pitch")
	}
	book += testkit.FlightText("2025-05-01 ines known", "fault 2 radius") + "drill 2025-04-01 ines radius\n  ended 2025-06-01\n"
	for _, s := range []season.Selection{{}, {Season: 2025}, {Season: 2026}, {Category: "advanced"}} {
		got := recurringOf(t, book, s)
		assert.Equal(t, []string{"radius", "heading", "pitch"}, kindNames(got.Back), "three are named")
		assert.Equal(t, []string{"radius", "heading", "pitch", "timing"}, kindNames(got.Without), "an ended drill is none that is open")
	}
}

func kindNames(rows []analysis.RecurringKind) []string {
	names := []string{}
	for _, row := range rows {
		names = append(names, row.Kind.Name)
	}
	return names
}

// A drill set days ago ends nothing: until three reviewed flights that could show the
// fault come after it, the rate that stood before it stands, as of the drill before, in
// families too.
func TestComesBackBeforeEnoughFlightsSinceItsDrill(t *testing.T) {
	book := testkit.FaultBook + "sequence loops\n  category intermediate\n  1 7.4.1.1:10\n"
	for i := range 4 {
		book += testkit.FlightText(fmt.Sprintf("2026-05-%02d ines known", 1+i), "fault 3 spin-stop 10deg on 9.11.1.5")
	}
	drill := "drill 2026-05-04 ines spin-stop\n"
	assert.Equal(t, []string{"spin-stop/spins 4/4 drill 2026-05-04, before it"}, backTexts(t, book+drill, season.Selection{}), "nothing was flown since")
	unshown := "flight 2026-05-06 ines known\n  sequence loops\n  reviewed\n"
	assert.Equal(t, []string{"spin-stop/spins 4/4 drill 2026-05-04, before it"}, backTexts(t, book+drill+unshown, season.Selection{}), "no spin was flown since")
	unreviewed := testkit.FlightText("2026-05-06 ines known")
	assert.Equal(t, []string{"spin-stop/spins 4/4 drill 2026-05-04, before it"}, backTexts(t, book+drill+unreviewed, season.Selection{}), "nobody has reviewed it")
	shown := testkit.FlightText("2026-05-07 ines known", "reviewed")
	assert.Equal(t, []string{"spin-stop/spins 4/4 drill 2026-05-04, before it (0/1 since)"}, backTexts(t, book+drill+shown, season.Selection{}), "one clean flight ends nothing")
	for i := range 2 {
		shown += testkit.FlightText(fmt.Sprintf("2026-05-%02d ines known", 8+i), "reviewed")
	}
	assert.Empty(t, backTexts(t, book+drill+shown, season.Selection{}), "three do")

	ended := "drill 2026-05-04 ines spins\n  ended 2026-05-05\n  note \"x\"\n"
	assert.Equal(t, []string{"spin-stop/spins 4/4 drill 2026-05-04, before it"}, backTexts(t, book+ended, season.Selection{}))
	earlier := "drill 2026-05-01 ines spins\n"
	assert.Equal(t, []string{"spin-stop/spins 3/3 drill 2026-05-04, before it"}, backTexts(t, book+earlier+drill, season.Selection{}),
		"as it stood on the day of the drill: since the drill before")

	old := strings.ReplaceAll(book, "flight 2026-05-", "flight 2024-05-")
	assert.Empty(t, backTexts(t, old+drill, season.Selection{Until: testkit.Day(t, "2026-05-10")}), "the same 730 days")
}

// A fault that was noted in contest flights alone is said so, and practice flights
// since its drill end nothing; the other way round as well.
func TestComesBackInContestsAlone(t *testing.T) {
	book := testkit.FaultBook
	for i := range 4 {
		book += testkit.FlightText(fmt.Sprintf("2026-05-%02d ines known", 1+2*i), "fault 2 heading") + testkit.FlightText(fmt.Sprintf("2026-05-%02d ines practice", 2+2*i), "fault 2 radius")
	}
	alone := func(book string) map[string]analysis.Alone {
		l := testkit.BookOf(t, book)
		out := map[string]analysis.Alone{}
		for _, r := range analysis.ComesBack(l, l.PilotNamed("ines")) {
			out[r.Kind.Name] = r.Alone()
		}
		return out
	}
	assert.Equal(t, map[string]analysis.Alone{"heading": analysis.ContestsAlone, "radius": analysis.PracticeAlone}, alone(book))
	once := testkit.FlightText("2026-05-09 ines practice", "fault 2 heading")
	assert.Equal(t, map[string]analysis.Alone{"heading": analysis.Anywhere, "radius": analysis.PracticeAlone}, alone(book+once))
	assert.Equal(t, map[string]analysis.Alone{"heading": analysis.Anywhere}, alone(testkit.FaultBook+testkit.FlightText("2026-05-01 ines known", "fault 2 heading")+
		testkit.FlightText("2026-05-02 ines known", "fault 2 heading")+testkit.FlightText("2026-05-03 ines practice", "reviewed")), "one practice flight is too few to tell")

	drills := "drill 2026-05-10 ines heading\ndrill 2026-05-10 ines radius\n"
	since := func(programme string) string {
		text := ""
		for i := range 3 {
			text += testkit.FlightText(fmt.Sprintf("2026-05-%02d ines %s", 11+i, programme), "reviewed")
		}
		return text
	}
	assert.Equal(t, []string{"heading/7 4/8 drill 2026-05-10, before it (0/3 since)"}, backTexts(t, book+drills+since("practice"), season.Selection{}))
	assert.Equal(t, []string{"radius/7 4/8 drill 2026-05-10, before it (0/3 since)"}, backTexts(t, book+drills+since("known"), season.Selection{}))

	// However few the other flights before were, and however often the drill is set anew.
	contests := testkit.FaultBook
	for i := range 4 {
		contests += testkit.FlightText(fmt.Sprintf("2026-05-%02d ines known", 1+i), "fault 2 heading")
	}
	assert.Equal(t, []string{"heading/7 4/4 drill 2026-05-10, before it (0/3 since)"}, backTexts(t, contests+drills+since("practice"), season.Selection{}))
	anew := "drill 2026-05-14 ines heading\n" + strings.ReplaceAll(since("practice"), "2026-05-1", "2026-05-2")
	assert.Equal(t, []string{"heading/7 4/4 drill 2026-05-14, before it (0/3 since)"}, backTexts(t, contests+drills+since("practice")+anew, season.Selection{}))
	assert.Empty(t, backTexts(t, contests+drills+since("known"), season.Selection{}), "three contest flights end it")
}
