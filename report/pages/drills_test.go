package pages

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season"
)

// watchedFlights are flights a week apart that were looked at: "r" with a fault
// of the radius, "b" with another beside it, "." with none.
func watchedFlights(first, pattern string) string {
	day, _ := season.ParseDate(first)
	var b strings.Builder
	for i, sign := range pattern {
		body := map[rune]string{'r': "fault 1 radius", 'b': "fault 1 radius\n  fault 2 pitch", '.': "reviewed"}[sign]
		fmt.Fprintf(&b, "flight %s ines known\n  sequence known-26\n  %s\n", day+season.Date(7*i), body)
	}
	return b.String()
}

func drillsPage(t testing.TB, book string) (string, answers.Drills) {
	t.Helper()
	doc := Drills(answers.DrillsOf(faultBook(t, book), season.Selection{}))
	return oneLine(textOf(t, doc)), doc.Data.(answers.Drills)
}

// Each drill is a sentence in plain counts. Derived p: before 5 of 10, since 0
// of 8 .029, 0 of 6 .058.
func TestDrillSentences(t *testing.T) {
	const drill = "drill 2025-06-20 ines radius \"four loops a leg\"\n  prompted-by 2025-06-06/ines/known\n"
	for _, test := range []struct{ before, after, want string }{
		{"r.r.r.r.r.", "........", "Radius, since 2025-06-20: worked: noted in 5 of 10 flights before, in 0 of 8 flights since; chance alone gives this about once in 34."},
		{"r.r.r.r.r.", "......", "Radius, since 2025-06-20: may have worked: noted in 5 of 10 flights before, in 0 of 6 flights since; chance alone gives this about once in 17."},
		{"r.r.r.", "r.......", "Radius, since 2025-06-20: cannot tell: noted in 3 of 6 flights before, in 1 of 8 flights since; a drill that did nothing gives this easily."},
		{"rr", "...", "Radius, since 2025-06-20: too few to tell: noted in 2 of 2 flights before, in 0 of 3 flights since; at least 3 flights looked at are needed on each side."},
		{"bbbbbbbb", "........", "Radius, since 2025-06-20: cannot tell: noted in 8 of 8 flights before, in 0 of 8 flights since; the other faults got rarer as well, so that the drill has not been shown to matter."},
		{strings.Repeat("r", 20), strings.Repeat(".", 20), "chance alone gives this less than once in 1000."},
	} {
		text, d := drillsPage(t, familyHead+watchedFlights("2025-01-03", test.before)+watchedFlights("2025-06-06", "r")+watchedFlights("2025-07-04", test.after)+drill)
		assert.Contains(t, text, test.want)
		assert.Contains(t, text, "radius: left out of before, because the drill was set on them: 2025-06-06/ines/known")
		assert.Contains(t, text, "radius: four loops a leg")
		require.Len(t, d.Drills, 1)
		assert.Equal(t, []string{"2025-06-06/ines/known"}, d.Drills[0].Prompted)
	}
}

// In JSON p is absent where nothing can be tested, and a ratio without an end
// has none.
func TestDrillsData(t *testing.T) {
	_, d := drillsPage(t, familyHead+watchedFlights("2025-01-03", "rr")+"drill 2025-06-20 ines radius\n")
	require.Len(t, d.Drills, 1)
	assert.False(t, d.Drills[0].P.Known())
	assert.Nil(t, d.Drills[0].Rate)
	assert.Nil(t, d.Drills[0].Change)
	assert.Equal(t, answers.DrillSide{}, d.Drills[0].Before)
	assert.Nil(t, d.Drills[0].Undrilled, "no flight on either side")

	_, d = drillsPage(t, familyHead+watchedFlights("2025-01-03", "...rrrr")+watchedFlights("2025-07-04", "rrr")+"drill 2025-06-20 ines radius\n")
	require.NotNil(t, d.Drills[0].Rate, "nothing before, something since")
	assert.False(t, d.Drills[0].Rate.Ratio.Known())
	assert.False(t, d.Drills[0].Rate.High.Known())
	assert.True(t, d.Drills[0].Rate.Low.Known())
	assert.Equal(t, 1.0, d.Drills[0].Rate.P.Float64(), "no more could be seen since")
	assert.Less(t, d.Drills[0].Rate.MidP.Float64(), 1.0)

	// Where nothing was looked at since, nobody knows of other faults since.
	text, d := drillsPage(t, familyHead+watchedFlights("2025-01-03", "bbbbbbbb")+"drill 2025-06-20 ines radius\n")
	assert.Equal(t, 1.0, d.Drills[0].Undrilled.Before.Float64())
	assert.False(t, d.Drills[0].Undrilled.After.Known())
	assert.NotContains(t, text, "1.0 to")
	assert.Contains(t, text, "noted in 4 of 4 flights before, no flight looked at since; at least 3")
}

// Of several pilots each sentence, row and note says whose drill it is.
func TestDrillsOfSeveralPilots(t *testing.T) {
	const drill = "drill 2025-06-20 ines radius \"four loops\"\n"
	book := familyHead + "pilot yuki\n  name \"Yuki Lindqvist\"\n" + watchedFlights("2025-01-03", "rrrrrrrr")
	text, d := drillsPage(t, book+drill)
	assert.NotContains(t, text, "Ines Halloran:")
	assert.Len(t, Drills(answers.DrillsOf(faultBook(t, book+drill), season.Selection{})).Sections[1].Blocks[0].(*report.Table).Columns, 8)

	both := book + drill + strings.Replace(drill, "ines", "yuki", 1)
	text, d = drillsPage(t, both)
	require.Len(t, d.Drills, 2)
	for _, name := range []string{"Ines Halloran", "Yuki Lindqvist"} {
		assert.Contains(t, text, name+": Radius, since 2025-06-20: ")
		assert.Contains(t, text, name+": radius: four loops")
	}
	table := Drills(answers.DrillsOf(faultBook(t, both), season.Selection{})).Sections[1].Blocks[0].(*report.Table)
	assert.Equal(t, "pilot", table.Columns[0].Title)
	assert.Equal(t, report.Text("ines"), table.Rows[0][0])
	assert.Equal(t, report.Text("yuki"), table.Rows[1][0])
}

// What was only felt is noted, not seen.
func TestDrillOnWhatWasFelt(t *testing.T) {
	felt := strings.ReplaceAll(watchedFlights("2025-01-03", "rrrrrrrr"), "radius", "radius felt")
	text, _ := drillsPage(t, familyHead+felt+"drill 2025-06-20 ines radius\n")
	assert.Contains(t, text, "noted in 4 of 4 flights before")
	assert.Contains(t, text, "flights in which the fault was noted, seen or felt, of the flights looked at")
	assert.NotContains(t, text, "seen in")
}

// A family's drill is told in percent points against the rest of the flight.
func TestDrillOnAFamilySentence(t *testing.T) {
	rows := func(first string, loops ...string) string {
		day, _ := season.ParseDate(first)
		text := ""
		for i, loop := range loops {
			text += strings.Replace(flownRows(loop+" 6 6 6 6 6"), "2026-03-18", (day + season.Date(7*i)).String(), 1)
		}
		return text
	}
	const drill = "drill 2025-06-20 ines 7\n  prompted-by 2025-06-06/ines/known\n"
	text, d := drillsPage(t, familyHead+rows("2025-01-03", "6", "6.5", "5")+rows("2025-06-06", "3")+rows("2025-07-04", "7", "7.5", "8")+drill)
	// Derived: the means 5.83 and 7.5; one of twenty splits.
	assert.Contains(t, text, "7 loops, part loops and eights, since 2025-06-20: worked: +16.7 points against the rest of the flight (")
	assert.Contains(t, text, "3 flights before, 3 since; chance alone gives this about once in 20.")
	assert.InDelta(t, 0.05, d.Drills[0].P.Float64(), 1e-12)
	assert.Nil(t, d.Drills[0].Undrilled)
	assert.InDelta(t, -10.0/6, d.Drills[0].Before.Mean.Float64(), 1e-9)

	text, _ = drillsPage(t, familyHead+rows("2025-01-03", "6", "6.5")+rows("2025-06-06", "3")+drill)
	assert.Contains(t, text, "7 loops, part loops and eights, since 2025-06-20: too few to tell: 2 contest flights before, 0 contest flights since; at least three of each are needed.")
}

// Without a drill the page says so, with its caution.
func TestDrillsPageWithoutDrills(t *testing.T) {
	text, d := drillsPage(t, familyHead)
	assert.Equal(t, "Drills No drill is set. "+words.DrillsCaution, text)
	assert.NotNil(t, d.Drills)
}
