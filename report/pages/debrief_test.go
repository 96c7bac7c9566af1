package pages

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// A figure that came to 0 is said by its marks: a hard zero, a perception zero, or
// 0.0, which is a grade.
func TestDebriefTellsZerosApart(t *testing.T) {
	for marks, want := range map[string]string{
		"0 0 0":    "graded 0.0 by every judge, which is not a hard zero",
		"PZ PZ PZ": "perception zero from every judge",
		"HZ HZ HZ": "hard zero from every judge who gave a mark",
		"HZ HZ 7":  "hard zero from 2 of the 3 judges who gave a mark, more than half: 0 from every judge",
		"PZ 0 0":   "0 from every judge, not all of them the same kind of zero",
	} {
		l := faultBook(t, "pilot ines\nsequence s\n  1 K 10\n  2 K 12\nflight 2026-04-18 ines known\n  sequence s\n  panel A B C\n  1 7 7 7\n  2 "+marks+"\n")
		text := textOf(t, Debrief(answers.DebriefOf(l, l.Flights[0])))
		assert.Contains(t, strings.Join(strings.Fields(text), " "), "figure 2: all 120.00 points lost; "+want+"; the reason is not in the ledger", marks)
	}
}

// What was noted of the chief judge's ruling is a reason that the ledger has.
func TestDebriefHasTheRulingsRemark(t *testing.T) {
	l := faultBook(t, "pilot ines\nsequence s\n  1 K 10\n  2 K 12\nrules own\n  half undecided\nflight 2026-04-18 ines known\n  sequence s\n  rules own\n  panel A B\n  1 7 7\n  2 HZ 7\n  resolve 2 zero \"the jury confirmed it\"\n")
	text := strings.Join(strings.Fields(textOf(t, Debrief(answers.DebriefOf(l, l.Flights[0])))), " ")
	assert.Contains(t, text, "ruled a zero; noted: \"the jury confirmed it\"")
	assert.NotContains(t, text, "not in the ledger")
}

// A figure that waits for a ruling is talked about, with why it does.
func TestDebriefTalksOfAnUndecidedFigure(t *testing.T) {
	const half = "figure 2: hard zero from 1 of the 2 judges who gave a mark, exactly half: undecided until `resolve` records the chief judge's ruling"
	for marks, want := range map[string]string{
		"HZ 7":  half,
		"AV AV": "figure 2: no judge gave a mark: undecided, from 0 to full marks, until `resolve` rules it zero",
	} {
		l := faultBook(t, "pilot ines\nsequence s\n  1 K 10\n  2 K 12\nrules own\n  half undecided\nflight 2026-04-18 ines known\n  sequence s\n  rules own\n  panel A B\n  1 7 7\n  2 "+marks+"\n")
		d := words.SayDebrief(answers.DebriefOf(l, l.Flights[0]))
		assert.Equal(t, []string{want, "figure 1: 30.00 points lost, the largest loss of what is decided"}, d.Agenda, marks)
	}
}

// A penalty for flying too low is talked about before what only cost points; marks
// that did not count as given, and one that stands alone, have their sign.
func TestDebriefOfALowFlight(t *testing.T) {
	rows := ""
	for i, marks := range []string{"7 7.5 7 7 7", "7 7 AV 7.5 7", "6.5 7 6.5 6.5 7", "2 7.5 7 7 7", "7 7 7 7.5 7", "7.5 7 7 7 7", "6 6 6.5 6 6", "7 7 7 7 7.5"} {
		rows += fmt.Sprintf("  %d %s\n", i+1, marks)
	}
	figures := ""
	for i := range 8 {
		figures += fmt.Sprintf("  %d 7.4.1.1:10\n", i+1)
	}
	l := faultBook(t, "pilot tobias\ncoach marek\nsequence eight\n"+figures+"flight 2026-05-16 tobias known\n  sequence eight\n  panel A B C D E\n"+rows+
		"  penalty out 5\n  penalty low 20 \"near the floor\"\n  fault 3 line-angle 10deg by marek\n")
	page := textOf(t, Debrief(answers.DebriefOf(l, l.Flights[0])))
	assert.Contains(t, page, "1 flown too low: penalty of 20.00 points; noted: \"near the floor\"\n2 figure 3: ")
	assert.Regexp(t, `(?m)^  2 +7\.4\.1\.1 +7\.0 +7\.0 +AV\* `, page)
	assert.Regexp(t, `(?m)^  4 .* 2\.0! +7\.5 `, page)
	assert.Contains(t, page, "! 2.0 by A stands alone on figure 4, where about 7")
}

// What comes back would fill the points of any flight: it leaves room for what only
// this flight has, a lone grade and a disputed total, and keeps a place itself.
func TestDebriefLeavesRoomForADisputedTotal(t *testing.T) {
	const head = "pilot ines\nsequence s\n  1 7.4.1.1:10\n  2 7.4.1.1:12\n  3 5.2.1.1:17\n"
	book := head
	for day := range 4 {
		book += fmt.Sprintf("flight 2026-04-0%d ines practice\n  sequence s\n  fault 1 radius 1x\n  fault 2 line-angle 5deg\n  fault 3 bridging\n", day+1)
	}
	flight := "flight 2026-04-18 ines known\n  sequence s\n  panel A B C\n  1 7 7 7\n  2 7 8 7\n  3 7 7 7.5\n  official 300\n"
	abouts := func(d answers.Debrief) (said []answers.TalkAbout) {
		for _, p := range d.Talk {
			said = append(said, p.About)
		}
		return said
	}
	of := func(text string) answers.Debrief {
		l := faultBook(t, text)
		return answers.DebriefOf(l, l.Flights[len(l.Flights)-1])
	}
	loss, back, total := answers.TalkLoss, answers.TalkBack, answers.TalkOfficial
	d := of(book + flight)
	assert.Len(t, d.Recurring, 3)
	l := faultBook(t, book+flight)
	require.NotEmpty(t, d.RecurringOn, "long after the flight")
	assert.Contains(t, strings.Join(strings.Fields(textOf(t, Debrief(d))), " "), "what comes back now: ")
	l.AsOf = l.Flights[len(l.Flights)-1].Date + answers.LongAfter
	soon := answers.DebriefOf(l, l.Flights[len(l.Flights)-1])
	assert.Empty(t, soon.RecurringOn)
	assert.Contains(t, strings.Join(strings.Fields(textOf(t, Debrief(soon))), " "), "what comes back: ")
	assert.Equal(t, []answers.TalkAbout{loss, back, total}, abouts(d), "what this flight lost, then what comes back")
	assert.Equal(t, []answers.TalkAbout{loss, back, back}, abouts(of(book+strings.Replace(flight, "  official 300\n", "", 1))))
	assert.Equal(t, []answers.TalkAbout{answers.TalkFault, answers.TalkFault, back}, abouts(of(book+flight+"  fault 1 heading 5deg\n  fault 2 heading 5deg\n")), "the dearest faults first, then what comes back")
	assert.Equal(t, []answers.TalkAbout{loss, total}, abouts(of(head+flight)))
	low := strings.Replace(flight, "  official 300\n", "  penalty low 20\n", 1)
	assert.Equal(t, []answers.TalkAbout{answers.TalkLow, loss}, abouts(of(head+low)), "a penalty leaves room for what was lost")
	assert.Equal(t, []answers.TalkAbout{loss}, abouts(of(head+strings.Replace(flight, "  official 300\n", "", 1))), "nothing else is there")
	assert.Equal(t, []answers.TalkPoint{}, of(head+"flight 2026-04-18 ines known\n  sequence s\n  panel A\n  1 10\n  2 10\n  3 10\n").Talk, "an empty list in JSON too")
}

// A debrief has no empty column of expected grades, and has the judges without room in a
// second table.
func TestANarrowDebriefShowsEveryJudge(t *testing.T) {
	l := faultBook(t, "pilot ines\nsequence s\n  1 K 10 \"half Cuban eight\"\n  2 K 12 \"roll\"\nflight 2026-04-18 ines known\n  sequence s\n  panel AA BB CC DD EE FF GG HH\n"+
		"  1 7 7 7 7 7 7 7 8.5\n  2 7 7 7 7 7 7 7 7\n")
	doc := Debrief(answers.DebriefOf(l, l.Flights[0]))
	var b strings.Builder
	require.NoError(t, report.WriteText(&b, doc, report.TextOptions{Width: 60}))
	assert.Contains(t, b.String(), "HH")
	assert.NotContains(t, b.String(), "expected")
}

// Hard zeros of some judges are talked about, and so is the largest loss behind what is
// noted on another figure; a drill set on the day has its text.
func TestDebriefTalksOfSomeZerosAndTheLargestLoss(t *testing.T) {
	l := faultBook(t, "pilot ines\nsequence s\n  1 K 10 \"loop\"\n  2 K 30 \"spin\"\n  3 K 10 \"roll\"\nflight 2026-04-18 ines known\n  sequence s\n  panel AA BB CC DD EE\n"+
		"  1 HZ 7 7 HZ 7\n  2 6 6 6 6 6\n  3 7 7 7 7 7\n  fault 3 heading 5deg\ndrill 2026-04-18 ines spins \"count to three\"\n")
	d := words.SayDebrief(answers.DebriefOf(l, l.Flights[0]))
	assert.Equal(t, []string{
		"figure 3: off heading, noted 10 points, lost 30",
		"figure 1: hard zero from AA and DD, 2 of the 5 judges who gave a mark; compare with the paper",
		"figure 2: 120.00 points lost, the largest loss",
	}, d.Agenda)
	page := textOf(t, Debrief(d))
	assert.Contains(t, page, "\n\nDrill set on this day: spins (\"count to three\").\n")
	assert.Contains(t, page, "  expected\n")
}

// A figure that was flown several times in practice has each time in a debrief, then
// their mean with what was lost: one mark cannot have the mean of three.
func TestDebriefShowsEveryTimeAFigureWasFlown(t *testing.T) {
	l := faultBook(t, "pilot nora\nsequence s\n  1 K 10 \"loop\"\n  2 K 15 \"spin\"\nflight 2026-10-10 nora practice\n  sequence s\n  panel me\n  1 7\n  2 6\n  2 6.5\n  2 7\n  fault 2 spin-stop 5deg\n")
	d := answers.DebriefOf(l, l.Flights[0])
	page := textOf(t, Debrief(d))
	assert.Regexp(t, `(?m)^  1  loop +7\.0 +7\.00 +30\.00`, page)
	assert.Regexp(t, `(?m)^  2  spin +6\.0 +6\.00$\n     again +6\.5 +6\.50$\n     again +7\.0 +7\.00$\n     mean of 3 +6\.50 +52\.50`, page)
	assert.Equal(t, 1, strings.Count(page, "spin-stop"), "the faults of a figure stand once")
	var b strings.Builder
	require.NoError(t, report.WriteCSV(&b, Debrief(d)))
	assert.Contains(t, b.String(), "2,spin,15,6.0,6,,,,\n,again,,6.5,6.5,,,,\n,again,,7.0,7,,,,\n,mean of 3,,,6.5,52.5,")
}

// A grade that stands alone has its sign on its own row, not on those of the times
// after it.
func TestDebriefSignsALoneGradeOnce(t *testing.T) {
	d := answers.Debrief{Flight: answers.Flight{Panel: []string{"A", "B"}, Flags: []answers.Flag{{Figure: 1, Judge: "A", Mark: "3.0"}}}}
	row := func(marks ...string) answers.Line { return answers.Line{Marks: marks} }
	d.Rows = []answers.DebriefRow{{Line: "figure", Figure: 1, Label: "loop", Marks: []string{"3.0", "7.0"}, Rows: []answers.Line{row("3.0", "7.0"), row("7.5", "7.0")}}}
	var b strings.Builder
	require.NoError(t, report.WriteText(&b, report.Document{Sections: []report.Section{{Blocks: []report.Block{tables.DebriefSheet(d)}}}}, report.TextOptions{Width: 80}))
	assert.Contains(t, b.String(), "3.0!")
	assert.Equal(t, 1, strings.Count(b.String(), "!"))
}
