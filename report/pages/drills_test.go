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
// of the radius, "b" with another beside it, "o" with the other alone, "." with
// none.
func watchedFlights(first, pattern string) string {
	day, _ := season.ParseDate(first)
	var b strings.Builder
	for i, sign := range pattern {
		body := map[rune]string{'r': "fault 1 radius", 'b': "fault 1 radius\n  fault 2 pitch", 'o': "fault 2 pitch", '.': "reviewed"}[sign]
		fmt.Fprintf(&b, "flight %s ines known\n  sequence known-26\n  %s\n", day+season.Date(7*i), body)
	}
	return b.String()
}

func drillsPage(t testing.TB, book string) (string, answers.Drills) {
	t.Helper()
	doc := Drills(answers.DrillsOf(faultBook(t, book), season.Selection{}), false)
	return oneLine(textOf(t, doc)), doc.Data.(answers.Drills)
}

// setOn are four flights that a drill on the radius is set on.
var setOn = watchedFlights("2025-05-23", "rrrr") + "drill 2025-06-20 ines radius \"four loops a leg\"\n"

// Each drill is answered in plain counts, with what the verdict lacks. [derived]: p
// before 3 of 6, since 1 of 8 .17.
func TestDrillSentences(t *testing.T) {
	for _, test := range []struct {
		before, after string
		want          []string
	}{
		{"obobobobob", "oooooooooo", []string{"Fault \"radius changed\" (drill of 2025-06-20): fell, and the other faults did not as much; noted in 0 of 10 flights since, in 5 of 10 before."}},
		{"r.r.r.", "r.......", []string{"Fault \"radius changed\" (drill of 2025-06-20): cannot tell yet; noted in 1 of 8 flights since, in 3 of 6 before.", "radius: a drill that did nothing would look like this about once in six; 8 more flights without the fault could be enough to tell; \"four loops a leg\""}},
		{"rr", "...", []string{"Fault \"radius changed\" (drill of 2025-06-20): too few flights to tell; noted in 0 of 3 flights since, in 2 of 2 before.", "radius: at least three flights that could show it are needed on each side; \"four loops a leg\""}},
		{"bbbbbbbb", "........", []string{"Fault \"radius changed\" (drill of 2025-06-20): cannot tell yet; noted in 0 of 8 flights since, in 8 of 8 before.", "radius: the other faults became rarer too"}},
	} {
		text, d := drillsPage(t, familyHead+watchedFlights("2025-01-03", test.before)+setOn+watchedFlights("2025-07-04", test.after))
		for _, want := range test.want {
			assert.Contains(t, text, want)
		}
		assert.Contains(t, text, "Not counted: the last four flights before a drill")
		assert.Contains(t, text, words.NoCause)
		require.Len(t, d.Drills, 1)
		assert.Len(t, d.Drills[0].LeftOut, 4)
	}
}

// No page without --all shows a p; with too few flights there is none anywhere.
func TestDrillsWithoutTests(t *testing.T) {
	book := familyHead + watchedFlights("2025-01-03", "obobobobob") + setOn + watchedFlights("2025-07-04", "oooooooooo")
	answer := answers.DrillsOf(faultBook(t, book), season.Selection{})
	plain, all := textOf(t, Drills(answer, false)), textOf(t, Drills(answer, true))
	assert.Contains(t, plain, "Other numbers: boxbook drills ines --all")
	assert.NotRegexp(t, `(?m)\d\.\d{3}|Fisher|permutation`, plain)
	assert.Regexp(t, `(?m)^radius +2025-06-20 +0\.016 +0\.\d{3} +0\.\d{3} +0\.\d{3} `, all)
	assert.Contains(t, all, "Fisher's exact test")
	assert.NotContains(t, all, "--all")
	assert.Less(t, strings.Count(plain, "\n"), 45)

	few := answers.DrillsOf(faultBook(t, familyHead+watchedFlights("2025-01-03", "rr")+setOn+watchedFlights("2025-07-04", ".........")), season.Selection{})
	var b strings.Builder
	require.NoError(t, report.WriteJSON(&b, Drills(few, true)))
	for _, field := range []string{`"p"`, `"tests"`, `"rate"`, `"z"`} {
		assert.NotContains(t, b.String(), field)
	}
	assert.Contains(t, b.String(), `"word": "too few to tell"`)
}

// In JSON what is not known is absent, and a ratio without an end has none.
func TestDrillsData(t *testing.T) {
	_, d := drillsPage(t, familyHead+watchedFlights("2025-01-03", "rr")+"drill 2025-06-20 ines radius\n")
	require.Len(t, d.Drills, 1)
	assert.False(t, d.Drills[0].P.Known())
	assert.Nil(t, d.Drills[0].Tests)
	assert.Nil(t, d.Drills[0].Rate)
	assert.Nil(t, d.Drills[0].Change)
	assert.Equal(t, answers.DrillSide{}, d.Drills[0].Before)
	assert.Nil(t, d.Drills[0].Undrilled, "no flight on either side")

	_, d = drillsPage(t, familyHead+watchedFlights("2025-01-03", "...rrrr")+watchedFlights("2025-07-04", "rrr")+"drill 2025-06-20 ines radius\n")
	require.NotNil(t, d.Drills[0].Rate, "nothing before, something since")
	assert.False(t, d.Drills[0].Rate.Ratio.Known())
	assert.False(t, d.Drills[0].Rate.High.Known())
	assert.True(t, d.Drills[0].Rate.Low.Known())

	// Where nothing was looked at since, nobody knows of other faults since.
	text, d := drillsPage(t, familyHead+watchedFlights("2025-01-03", "bbbbbbbb")+"drill 2025-06-20 ines radius\n")
	assert.Equal(t, 1.0, d.Drills[0].Undrilled.Before.Float64())
	assert.False(t, d.Drills[0].Undrilled.After.Known())
	assert.NotContains(t, text, "1.0 to")
	assert.Contains(t, text, "too few flights to tell yet; no reviewed flight since could show it; noted in 4 of 4 before.")
}

// Of several pilots each sentence, row and note says whose drill it is.
func TestDrillsOfSeveralPilots(t *testing.T) {
	const drill = "drill 2025-06-20 ines radius \"four loops\"\n"
	book := familyHead + "pilot yuki\n  name \"Yuki Lindqvist\"\n" + watchedFlights("2025-01-03", "bbbbbbbb")
	text, d := drillsPage(t, book+drill)
	assert.NotContains(t, text, "Ines Halloran:")
	assert.NotEmpty(t, d.Without)
	table := func(book string) *report.Table {
		return Drills(answers.DrillsOf(faultBook(t, book), season.Selection{}), false).Sections[1].Blocks[0].(*report.Table)
	}
	assert.Len(t, table(book+drill).Columns, 6)

	both := book + drill + strings.Replace(drill, "ines", "yuki", 1)
	text, d = drillsPage(t, both)
	require.Len(t, d.Drills, 2)
	assert.Empty(t, d.Without, "of whom?")
	for _, name := range []string{"Ines Halloran", "Yuki Lindqvist"} {
		assert.Contains(t, text, name+": Fault \"radius changed\" (drill of 2025-06-20): ")
		assert.Contains(t, text, name+": radius: ")
	}
	assert.Equal(t, "pilot", table(both).Columns[0].Title)
	assert.Equal(t, report.Text("ines"), table(both).Rows[0][0])
	assert.Equal(t, report.Text("yuki"), table(both).Rows[1][0])
}

// What was only felt is noted, not seen.
func TestDrillOnWhatWasFelt(t *testing.T) {
	felt := strings.ReplaceAll(watchedFlights("2025-01-03", "rrrrrrrr"), "radius", "radius felt")
	text, _ := drillsPage(t, familyHead+felt+"drill 2025-06-20 ines radius\n")
	assert.Contains(t, text, "in 4 of 4 before")
	assert.NotContains(t, text, "seen in")
}

// A family's drill is told in percentage points against the rest of the flight.
func TestDrillOnAFamilySentence(t *testing.T) {
	rows := func(first string, loops ...string) string {
		day, _ := season.ParseDate(first)
		text := ""
		for i, loop := range loops {
			text += strings.Replace(flownRows(loop+" 6 6 6 6 6"), "2026-03-18", (day + season.Date(7*i)).String(), 1)
		}
		return text
	}
	low := rows("2025-05-16", "3", "3", "3", "3")
	const drill = "drill 2025-06-20 ines 7\n"
	text, d := drillsPage(t, familyHead+rows("2025-01-03", "6", "6.5", "5")+low+rows("2025-07-04", "7", "7.5", "8")+drill)
	// [derived]: the means 5.83 and 7.5; one of twenty splits.
	assert.Contains(t, text, "oops, part loops and eights (drill of 2025-06-20): rose against the rest of the flight, by more than the lowest family does by chance; +17 percentage points (+5 to +28 at 90% confidence), 3 contest flights since, 3 before.")
	assert.InDelta(t, 0.05, d.Drills[0].P.Float64(), 1e-12)
	assert.True(t, d.Drills[0].Tests.T.Known())
	assert.False(t, d.Drills[0].Tests.Z.Known())
	assert.Nil(t, d.Drills[0].Undrilled)
	assert.InDelta(t, -10.0/6, d.Drills[0].Before.Mean.Float64(), 1e-9)

	text, _ = drillsPage(t, familyHead+rows("2025-01-03", "6", "6.5")+low+drill)
	assert.Contains(t, text, "oops, part loops and eights (drill of 2025-06-20): too few flights to tell; 0 contest flights since, 2 before.")
	assert.Contains(t, text, "at least three contest flights are needed on each side")
}

// Without a drill the page says so, with its caution.
func TestDrillsPageWithoutDrills(t *testing.T) {
	text, d := drillsPage(t, familyHead)
	assert.Equal(t, "Drills No drill is set. "+words.DrillsCaution, text)
	assert.NotNil(t, d.Drills)
}

// At 80 columns no column of the drills is left out, nor split off, however long a
// kind's name and the verdict are: the verdict rests on the other faults.
func TestDrillTablesLeaveNothingOut(t *testing.T) {
	d := answers.DrillsOf(faultBook(t, familyHead+watchedFlights("2025-01-03", "r.r.r.b.bb")+setOn+watchedFlights("2025-07-04", "...o....")), season.Selection{})
	drill := &d.Drills[0]
	drill.Target, drill.Before.Seen, drill.Before.Flights, drill.After.Flights = "entry-of-the-roll", 12, 24, 24
	drill.Word, d.Limits.OnceIn = answers.MayHaveWorked, 20
	brief, all := textOf(t, Drills(d, false)), textOf(t, Drills(d, true))
	for _, page := range []string{brief, all} {
		assert.NotContains(t, page, "not shown at this width")
		assert.Regexp(t, `(?m)^ +other faults\ntarget +set +before +since +.*per flight +verdict$`, page)
	}
	narrow := func(all bool) string {
		var out strings.Builder
		doc := Drills(d, all)
		require.NoError(t, report.WriteText(&out, doc, report.TextOptions{Width: 60}))
		return out.String()
	}
	drill.Target = "spin-stop"
	assert.Regexp(t, `(?m)^target +set +before +since +verdict$`, narrow(false), "one table where the terminal is narrow, and the verdict in it")
	assert.Contains(t, narrow(false), "not shown at this width: other faults per flight")
	assert.NotContains(t, narrow(true), "not shown at this width")
	assert.Regexp(t, `(?m)^ +rate +90%\ntarget +set +p +z +fall +faults +within +ratio +from +to$`, all)
}

// A narrow page with all on it has the verdict in the row of its counts: the other faults
// go on in further lines, and the drill is not named again for a column alone.
func TestNarrowDrillsHaveOneTableOfCounts(t *testing.T) {
	book := faultBook(t, familyHead+watchedFlights("2025-01-03", "rorrbrrrrrrrrrr")+setOn+watchedFlights("2025-07-04", ".orrrbrrrrrrrrrrrr"))
	var b strings.Builder
	require.NoError(t, report.WriteText(&b, Drills(answers.DrillsOf(book, season.Selection{}), true), report.TextOptions{Width: 60}))
	counts, _, _ := strings.Cut(b.String(), "\n"+words.TestsHeading+"\n")
	assert.Equal(t, 1, strings.Count(counts, "\ntarget "), counts)
	assert.Regexp(t, `(?m)^radius +2025-06-20 +\d+ of \d+ +\d+ of \d+ +[\d.]+ +[a-z]`, counts)
	assert.NotContains(t, counts, "not shown")
}
