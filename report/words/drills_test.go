package words_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// What a drill's words need more of comes with the answer.
func TestDrillWordsFollowTheLimits(t *testing.T) {
	limits := answers.DrillLimits{Flights: 4, LeftOut: 6, OnceIn: 7, Window: 30, Days: 365}
	d := answers.Drill{Target: "radius", Date: "2026-02-20", Word: answers.DrillTooFew, Reason: answers.DrillFewFlights}
	assert.Equal(t, "at least four flights that could show it are needed on each side", words.DrillWhy(d, limits))
	d.Target = "7"
	assert.Equal(t, "at least four contest flights are needed on each side", words.DrillWhy(d, limits))
	d.Apart = 2
	assert.Equal(t, "at least four contest flights are needed on each side, on sequences flown on both", words.DrillWhy(d, limits))
	d.Word = answers.MayHaveWorked
	assert.Equal(t, "may have fallen (a drill that did nothing gives this about once in seven)", words.DrillSaid(d, limits))
	d.Undrilled = &answers.Undrilled{Before: report.Float(0), After: report.Float(0)}
	assert.Equal(t, "may have fallen (no other fault was noted to hold it against; a drill that did nothing gives this about once in seven)", words.DrillSaid(d, limits))
	d.Undrilled, d.Again = &answers.Undrilled{Before: report.Float(.5), After: report.Float(0)}, 6
	assert.Equal(t, "may have fallen (a drill that did nothing gives this about once in seven), but is there again, in each of the last 6 flights", words.DrillSaid(d, limits))
	assert.Equal(t, "may have fallen, then there again", words.DrillShort(d, limits))
	d.Target, d.Word = "radius", answers.Worked
	assert.Equal(t, "fell, then there again", words.DrillShort(d, limits))
	assert.Contains(t, words.DrillNotes(answers.Drills{Limits: limits})[0], "the last six flights before a drill")
	assert.Contains(t, words.DrillColumns(limits)[0], "at most 30 within 365 days")
}

// The reason decides what stands behind the verdict.
func TestDrillReasons(t *testing.T) {
	for reason, want := range map[answers.DrillReason]string{
		answers.DrillFewCounts:  "too few flights for any count to tell",
		answers.DrillFewWays:    "too few contests to tell, whatever was noted",
		answers.DrillOthersFell: "the other faults became rarer too",
		answers.DrillPicked:     "whatever is worst moves this much by chance",
		answers.DrillByChance:   "a drill that did nothing would look like this about once in four; 2 more flights without the fault could be enough to tell",
		answers.DrillMixed:      "it may be the kind of flight: contest flights and practice flights, each by themselves, show no such fall",
		answers.DrillPractice:   "practice flights alone show a fall, those of contests do not",
		"":                      "",
	} {
		d := answers.Drill{Target: "radius", Word: answers.DrillOpen, Reason: reason, P: report.Float(.25), More: 2}
		assert.Equal(t, want, words.DrillWhy(d, answers.DrillLimits{Flights: 3}))
	}
	fell := answers.Drill{Reason: answers.DrillPicked, Tests: &answers.DrillTests{Z: report.Float(.2), Fall: report.Float(.03)}}
	assert.Equal(t, "it fell further than the worst one does by chance, but that it did so by more than the other faults is not clear",
		words.DrillWhy(fell, answers.DrillLimits{Ranked: report.Float(.08)}), "the test that failed is the one that is named")
	ended := answers.Drill{Target: "radius", Reason: answers.DrillByChance, P: report.Float(.25), More: 2, Ended: "2026-11-07"}
	assert.Equal(t, "a drill that did nothing would look like this about once in four", words.DrillWhy(ended, answers.DrillLimits{}), "later flights do not count")
	often := answers.Drill{Target: "radius", Reason: answers.DrillByChance, P: report.Float(.7)}
	assert.Equal(t, "a drill that did nothing would easily look like this", words.DrillWhy(often, answers.DrillLimits{}))
}

// A fall that may be the kind of flight is counted by it.
func TestDrillOfMixedFlights(t *testing.T) {
	d := answers.Drill{
		Target: "axis", Date: "2026-10-25", Word: answers.DrillOpen, Reason: answers.DrillMixed,
		Before: answers.DrillSide{Seen: 11, Flights: 24, Contests: &answers.DrillCount{Seen: 11, Flights: 11}},
		After:  answers.DrillSide{Seen: 0, Flights: 20, Contests: &answers.DrillCount{}},
	}
	assert.Equal(t, `Fault "axis" (drill of 2026-10-25): cannot tell yet; since, noted in no reviewed contest flight that could show it, 0 of 20 practice flights; before, in 11 of 11 contest flights, 0 of 13 practice flights.`,
		words.DrillSentence(d, answers.DrillLimits{}))
}

// No sentence says that a drill was the cause.
func TestDrillSentencesClaimNoCause(t *testing.T) {
	d := answers.Drill{Target: "radius", Says: "radius changed", Date: "2026-05-23", Before: answers.DrillSide{Seen: 9, Flights: 10}, After: answers.DrillSide{Seen: 3, Flights: 11}, Word: answers.Worked}
	assert.Equal(t, "Fault \"radius changed\" (drill of 2026-05-23): fell, and the other faults did not as much; noted in 3 of 11 flights since, in 9 of 10 before.",
		words.DrillSentence(d, answers.DrillLimits{}))
	d.Ended, d.Word, d.Unexposed, d.In = "2026-11-07", answers.DrillOpen, 6, []string{"spins"}
	assert.Equal(t, "Fault \"radius changed\" (drill of 2026-05-23, ended 2026-11-07): cannot tell; noted in 3 of 11 flights with spins since, in 9 of 10 before.",
		words.DrillSentence(d, answers.DrillLimits{}), "no later flight counts, so nothing more is to come")
	assert.Contains(t, words.DrillNotes(answers.Drills{Drills: []answers.Drill{d}})[0], "for radius also 6 flights without spins")
	d.After = answers.DrillSide{}
	assert.Contains(t, words.DrillSentence(d, answers.DrillLimits{}), "no reviewed flight since could show it; noted in 9 of 10 before.")
}

// Of what can be told is said first, of an open drill before one that was ended; then of
// a drill just set before an older one. The table has the open ones first, the newest on
// top, however firm another's verdict.
func TestToldDrillsComeFirst(t *testing.T) {
	side := func(seen, flights int) answers.DrillSide { return answers.DrillSide{Seen: seen, Flights: flights} }
	d := answers.Drills{
		Drills: []answers.Drill{
			{Target: "radius", Date: "2026-05-23", Ended: "2026-11-07", Word: answers.Worked},
			{Target: "pitch", Date: "2026-06-01", Ended: "2026-07-07", Word: answers.DrillOpen},
			{Target: "axis", Date: "2026-07-04", Word: answers.MayHaveWorked},
			{Target: "heading", Date: "2026-11-20", Word: answers.DrillTooFew, Before: side(7, 12), After: side(0, 1)},
		},
		Without: []answers.FaultKind{{Kind: "bank"}}, Limits: answers.DrillLimits{Flights: 4},
	}
	said := words.DrillAnswers(d)
	assert.Regexp(t, `^Fault "axis"`, said[0])
	assert.Regexp(t, `^Fault "radius".* 2 more drills: in the table\.$`, said[1])
	assert.Regexp(t, "^Comes back", said[2])
	all := words.DrillSentences(d)
	assert.Equal(t, `Fault "heading" (drill of 2026-11-20): too few flights to tell yet; noted in 0 of 1 flight since, in 7 of 12 before.`, all[0])
	var targets []string
	for _, drill := range words.DrillsInOrder(d.Drills) {
		targets = append(targets, drill.Target)
	}
	assert.Equal(t, []string{"heading", "axis", "pitch", "radius"}, targets)
	assert.Equal(t, "radius", d.Drills[0].Target, "the answer keeps its order")

	few := d.Drills[3]
	few.Before = side(1, 2)
	assert.Contains(t, words.DrillSentence(few, d.Limits), "too few flights to tell;", "no flight before is yet to come")
	few.Before, few.Ended = side(7, 12), "2026-11-22"
	assert.Contains(t, words.DrillSentence(few, d.Limits), "too few flights to tell;")
}

// At most three sentences answer: the firmest drills of a day, and what has no drill.
func TestDrillAnswers(t *testing.T) {
	drill := func(target string, word answers.DrillWord) answers.Drill {
		return answers.Drill{Target: target, Date: "2026-05-23", Word: word}
	}
	d := answers.Drills{
		Drills:  []answers.Drill{drill("pitch", answers.DrillTooFew), drill("axis", answers.DrillOpen), drill("radius", answers.Worked), drill("heading", answers.MayHaveWorked)},
		Without: []answers.FaultKind{{Kind: "bank", Says: "bank off", Flights: 3, Exposed: 4}},
	}
	said := words.DrillAnswers(d)
	assert.Len(t, said, 3)
	assert.Regexp(t, "^Fault .radius. .*fell, and", said[0])
	assert.Regexp(t, "^Fault .heading. .*may have fallen.* 2 more drills: in the table\\.$", said[1])
	assert.Equal(t, "Comes back most often without an open drill: bank off, 3 of 4 flights, practice included.", said[2])
	alone := []answers.FaultKind{{Kind: "bank", Says: "bank off", Flights: 3, Exposed: 10, Alone: answers.ContestsAlone, Contests: &answers.FaultContests{Flights: 3, Exposed: 4}}}
	assert.Equal(t, "Comes back most often without an open drill: bank off, 3 of 4 contest flights, none of 6 practice flights.", words.BackWithout(alone))
	alone[0].Alone, alone[0].Contests.Flights = answers.PracticeAlone, 0
	assert.Equal(t, "Comes back most often without an open drill: bank off, 3 of 6 practice flights, none of 4 contest flights.", words.BackWithout(alone))
	d.Without = append(d.Without, answers.FaultKind{Kind: "pitch"})
	assert.Equal(t, "Comes back most often without an open drill: bank off, 3 of 4 flights, practice included; 1 other fault has no open drill.", words.DrillAnswers(d)[2])
	d.Without = append(d.Without, answers.FaultKind{Kind: "axis"})
	assert.Contains(t, words.BackWithout(d.Without), "; 2 other faults have no open drill.")
	assert.Equal(t, words.BackWithout(d.Without), words.DrillAnswers(d)[2], "plan and drills say the same")
	d.Without = nil
	assert.Regexp(t, "^Fault .axis. .*cannot tell yet.* 1 more drill: in the table\\.$", words.DrillAnswers(d)[2])
	d.Drills = d.Drills[1:]
	assert.NotContains(t, strings.Join(words.DrillAnswers(d), " "), "in the table", "none is left out")
	assert.Equal(t, []string{"No drill is set."}, words.DrillAnswers(answers.Drills{}))
	assert.Equal(t, []string{"No drill was set in season 2025."}, words.DrillAnswers(answers.Drills{Season: 2025}))
}

// Notes on columns begin with the titles that the columns have.
func TestDrillNotesNameTheirColumns(t *testing.T) {
	notes := append(words.DrillColumns(answers.DrillLimits{}), words.DrillTests...)
	for _, title := range []string{words.ColumnOthers, words.ColumnRateRatio} {
		assert.True(t, slices.ContainsFunc(notes, func(note string) bool {
			return strings.HasPrefix(note, title+":") || strings.HasPrefix(note, title+",")
		}), title)
	}
}

// A window that is full says so: the first flights, those after them, and no "yet".
func TestDrillOfFullWindow(t *testing.T) {
	d := answers.Drill{
		Target: "radius", Date: "2025-07-20", Word: answers.DrillOpen, Reason: answers.DrillByChance, P: report.Float(.5), Full: true,
		Before: answers.DrillSide{Seen: 10, Flights: 20}, After: answers.DrillSide{Seen: 16, Flights: 24}, Later: &answers.DrillCount{Seen: 1, Flights: 18},
	}
	assert.Equal(t, `Fault "radius" (drill of 2025-07-20): cannot tell; noted in 16 of the first 24 flights since, in 1 of 18 after those, in 10 of 20 before.`,
		words.DrillSentence(d, answers.DrillLimits{}))
	assert.Contains(t, words.DrillDetails(d, answers.DrillLimits{}), "the flights since are as many as a verdict looks at: end the drill, or set it anew")
	d.Later, d.Full, d.After.Flights = nil, false, 20
	assert.Contains(t, words.DrillSentence(d, answers.DrillLimits{}), "cannot tell yet; noted in 16 of 20 flights since, in 10 of 20 before.")
}

// Flights that a drill was set on could have shown it, and do not count.
func TestDrillWithNothingBefore(t *testing.T) {
	d := answers.Drill{Target: "radius", Date: "2025-07-20", Word: answers.DrillTooFew, After: answers.DrillSide{Seen: 3, Flights: 3}, LeftOut: []string{"a"}, LeftOutShown: 1}
	assert.Contains(t, words.DrillSentence(d, answers.DrillLimits{}), "noted in 3 of 3 flights since; the flights before that could show it are those that it was set on, which are left out.")
	d.LeftOutShown = 0
	assert.Contains(t, words.DrillSentence(d, answers.DrillLimits{}), "noted in 3 of 3 flights since, none before that could show it.")
}

// What was found: of a drill that another coach set anew, two weeks later, the page said that
// no flight since could show its fault, and that it was too early to tell.
func TestADrillSetAnewSaysUpToWhenItCounts(t *testing.T) {
	limits := answers.DrillLimits{Flights: 3}
	d := answers.Drill{
		Target: "radius", Date: "2025-07-06", UpTo: "2025-07-20", Word: answers.DrillTooFew, Reason: answers.DrillFewFlights,
		Before: answers.DrillSide{Seen: 2, Flights: 3}, More: 6,
	}
	assert.Equal(t, `Fault "radius" (drill of 2025-07-06, counted up to the next one on it, of 2025-07-20): too few flights to tell; no reviewed flight up to 2025-07-20 could show it; noted in 2 of 3 before.`,
		words.DrillSentence(d, limits))
	d.After, d.Ended, d.Word, d.Reason = answers.DrillSide{Seen: 5, Flights: 8}, "2026-10-05", answers.DrillOpen, answers.DrillByChance
	assert.Equal(t, `Fault "radius" (drill of 2025-07-06, ended 2026-10-05, counted up to the next one on it, of 2025-07-20): cannot tell; noted in 5 of 8 flights up to 2025-07-20, in 2 of 3 before.`,
		words.DrillSentence(d, limits))
	d.P, d.Ended = report.Float(.25), ""
	assert.NotContains(t, words.DrillWhy(d, limits), "more flights")
	assert.Equal(t, "12 contest flights up to 2025-07-20, 4 before", strings.TrimSuffix(strings.Split(words.DrillSentence(answers.Drill{Target: "7", UpTo: "2025-07-20", After: answers.DrillSide{Flights: 12}, Before: answers.DrillSide{Flights: 4}}, limits), "; ")[1], "."))
}
