package words_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// The end of a reconciliation: how many marks fit, how often chance would, and
// what to do, one's own paper first.
func TestOfficialFoot(t *testing.T) {
	const end = "First compare these marks with your paper sheets: your own typing is the likelier slip. " +
		"Then ask the contest's office at once; time limits for protests are short and set by the rules in force."
	chance := func(kind string, share float64) answers.Chance {
		return answers.Chance{Kind: kind, Share: report.Float(share)}
	}
	for _, c := range []struct {
		official answers.Official
		want     string
	}{
		{answers.Official{}, end},
		{
			answers.Official{Fits: 1, Explanations: []answers.Explanation{{Kind: answers.ExplainedByMark}}, Chances: []answers.Chance{chance("mark", .02)}},
			"1 mark would fit. By chance alone a single misread mark would explain about one in 50 of the wrong totals that are this near: the rarer, the better the clue. " + end,
		},
		{answers.Official{
			Fits: 5, Coarse: true, Explanations: []answers.Explanation{{Kind: answers.ExplainedByMark}},
			Chances: []answers.Chance{chance("penalty", .1), chance("mark", .72), chance("k", 1)},
		}, "5 marks would fit, each alone. Printed too coarsely to tell; chance alone often fits. By chance alone a penalty would explain about one in ten, " +
			"a single misread mark about seven in ten and another K nearly all of the wrong totals that are this near: the rarer, the better the clue. " + end},
		{
			answers.Official{Coarse: true, Explanations: []answers.Explanation{{Kind: answers.ExplainedByRows}}},
			"Printed too coarsely to tell; chance alone often fits. " + end,
		},
		{
			answers.Official{Fits: 15, Explanations: []answers.Explanation{{Kind: answers.ExplainedByMarks}}, Chances: []answers.Chance{chance("marks", .0001)}},
			"15 pairs of marks would fit. By chance alone two misread marks would explain less than one in 1000 of the wrong totals that are this near: the rarer, the better the clue. " + end,
		},
		{
			answers.Official{Coarse: true, Fits: 9, Explanations: []answers.Explanation{{Kind: answers.ExplainedByMarks}}, Chances: []answers.Chance{chance("marks", .99)}},
			"9 pairs of marks would fit. Printed too coarsely to tell; chance alone often fits. By chance alone two misread marks would explain nearly all of the wrong totals that are this near: a weak clue. " + end,
		},
		{
			answers.Official{Explanations: []answers.Explanation{{Kind: answers.ExplainedByK}, {Kind: answers.ExplainedByRows}}, Chances: []answers.Chance{chance("k", .5), chance("rows", .3)}},
			"By chance alone another K would explain about five in ten and swapped rows about one in three of the wrong totals that are this near: weak clues. First compare each K of the sequence with the printed result, then" + strings.TrimPrefix(end, "First compare"),
		},
		{
			answers.Official{Explanations: []answers.Explanation{{Kind: answers.ExplainedByRows}, {Kind: answers.ExplainedByMark, Contradicts: true}}, Chances: []answers.Chance{chance("rows", .01), chance("mark", .1)}},
			"By chance alone swapped rows would explain about one in 100 of the wrong totals that are this near: the rarer, the better the clue. " + end,
		},
	} {
		assert.Equal(t, c.want, words.OfficialFoot(&c.official))
	}
}

// Until a protest is probably out of time the office is asked at once; then the
// page says so.
func TestProtestProbablyTooLate(t *testing.T) {
	for days, late := range map[int]bool{0: false, answers.ProtestDays: false, answers.ProtestDays + 1: true} {
		foot := words.OfficialFoot(&answers.Official{Days: &days})
		assert.Equal(t, !late, strings.Contains(foot, "office at once"), days)
		assert.Equal(t, late, strings.Contains(foot, fmt.Sprintf("after %d days the time limits for protests, set by the rules in force, have probably passed", days)), days)
		assert.Contains(t, foot, "your own typing is the likelier slip")
	}
}

// [derived], by hand: 10 x 7.25 and 11 x 6.125 are 139.875, shown as 139.88. Cut off
// it is 139.87, and two lines rounded each may leave a cent; two cents are too many.
func TestRoundingIsNoSlip(t *testing.T) {
	s := sheet{rows: []string{"10: 7 7.5 7 7.5", "11: 6 6 6 6.5"}}
	const said = "a rounding of each figure's points, or decimals cut off, can leave as much"
	for official, rounded := range map[string]bool{"139.87": true, "139.89": true, "139.86": true, "139.85": false, "139.91": false, "139.7": false} {
		d := s.answer(t, official)
		assert.False(t, *d.Official.Agrees, official)
		assert.Equal(t, rounded, strings.Contains(words.OfficialSentence(d), said), "%s: %s", official, words.OfficialSentence(d))
	}
	assert.Contains(t, words.OfficialSentence(s.answer(t, "139.88")), "agrees")
}

// What is to be looked at first is what the difference may lie in: marks that the
// judges' own totals confirm are not it, nor is a mark where a penalty explains it.
func TestWhatToCompareFirst(t *testing.T) {
	assert.Contains(t, words.OfficialFoot(&answers.Official{Judges: []answers.OfficialJudge{{Agrees: true}}}),
		"The printed totals of the judges confirm the marks as typed: look at the sum, the penalties and the total as you typed it. Then ask")
	assert.Contains(t, words.OfficialFoot(&answers.Official{Judges: []answers.OfficialJudge{{Agrees: true}, {}}}), "your own typing is the likelier slip")
	assert.Contains(t, words.OfficialFoot(&answers.Official{Explanations: []answers.Explanation{{Kind: answers.ExplainedByPenalty}}}),
		"First compare the penalties with your paper sheets. Then ask")
}

// The difference is that of the two totals as they are shown: 112.875 is 112.88, and
// 116.88 is 4.00 more, though 4.005 exactly [derived].
func TestDifferenceOfShownTotals(t *testing.T) {
	d := sheet{rows: []string{"21: 5 5.5 HZ 5 6"}}.answer(t, "116.88")
	assert.Equal(t, "112.88", d.Points.Text(words.PointDecimals))
	assert.Contains(t, words.OfficialSentence(d), ", is 4.00 more than the marks as typed come to")
	assert.Contains(t, words.OfficialDisagrees(d), ", is 4.00 more than")
	assert.Equal(t, "4.005", d.Official.LessOwn.Text(3), "the exact one stays")
}

// A grade that stands alone in its row is looked at first, by whatever step, also where
// the panel's page does not flag it.
func TestOddGradeComesFirst(t *testing.T) {
	d := sheet{rows: []string{"10: 7 7 7.5 7 5.5", "12: 7.5 7 7 7 7.5", "positioning 20: 7 7.5 7 8 7"}}.answer(t, "304.40")
	require.Empty(t, d.Flags)
	assert.Contains(t, d.Official.Explanations[0].Text, "2 points higher on figure 1 from E, whose 5.5 stands alone")
}

// pilotsRows is a panel of five with a hard zero from all and, on figure 8, a lone 4.0:
// 763.00 [derived]. The maximum is 1210.
func pilotsRows(lone string) []string {
	return []string{
		"10: 7.5 8 7 7.5 8", "14: 7 7.5 7 6.5 7", "17: 8 8.5 8 7.5 8", "10: 6.5 7 6 7 6.5", "14: HZ HZ HZ HZ HZ",
		"4: 8 8 7.5 A 8.5", "16: 7 6.5 7 7.5 7", "16: 6 " + lone + " 6.5 6.5 7", "10: 7.5 7 7.5 8 7", "positioning 10: 7 7.5 7 8 7",
	}
}

// Of what fits equally well, that comes first which brings a lone grade back to its
// panel, and names its judge; nothing is called best of several.
func TestLoneGradeComesFirst(t *testing.T) {
	more := []string{"penalty low 20"}
	d := sheet{rows: pilotsRows("4"), more: more}.answer(t, "752.60")
	said := d.Official.Explanations
	require.Len(t, said, 2)
	assert.Equal(t, "3 points higher on figure 8 from B, whose 4.0 stands alone, or from A, C, D or E gives 752.60 as printed", said[0].Text)
	assert.Equal(t, "3 points higher on figure 7 from A, B, C or E gives 752.60 as printed, but is unlikely, far from what the other judges gave", said[1].Text)
	assert.Contains(t, words.OfficialSentence(d), " come to. Best explanation: 3 points higher on figure 8 from B, whose 4.0 stands alone")

	none := sheet{rows: pilotsRows("5.5"), more: more}.answer(t, "752.60")
	assert.Contains(t, words.OfficialSentence(none), " come to. 10 marks would fit, each alone: 1.5 points higher on figure 7 from A,")

	// A slip that takes the lone grade farther from its panel is not put first.
	away := sheet{rows: pilotsRows("4"), more: more}.answer(t, "733.40")
	for _, e := range away.Official.Explanations {
		assert.NotContains(t, e.Text, "stands alone")
	}
}

// Where nothing fits as well as the first it is the best.
func TestBestExplanationAlone(t *testing.T) {
	d := sheet{rows: checkRows}.answer(t, "726.50")
	assert.Contains(t, words.OfficialSentence(d), "Best explanation: half a point higher on figure 4 from A, B or C gives")
}

// The explanations behind the first are introduced by a sentence.
func TestOtherExplanations(t *testing.T) {
	o := &answers.Official{Explanations: make([]answers.Explanation, 1)}
	assert.Empty(t, words.OtherExplanations(o, true))
	o.Explanations = make([]answers.Explanation, 2)
	assert.Equal(t, "The first explanation is given above the marks; the other that fits:", words.OtherExplanations(o, true))
	o.Explanations = make([]answers.Explanation, 4)
	assert.Equal(t, "The others that fit:", words.OtherExplanations(o, false))
}

// An explanation that chance alone often gives is no best one: its first words agree with
// the share beneath, and so do those of a total printed too coarsely.
func TestAWeakClueIsNotTheBestExplanation(t *testing.T) {
	d := sheet{rows: checkRows}.answer(t, "726.50")
	kind := d.Official.Explanations[0].Kind
	at := slices.IndexFunc(d.Official.Chances, func(c answers.Chance) bool { return c.Kind == kind })
	require.GreaterOrEqual(t, at, 0)
	require.Equal(t, 1, d.Official.Alike())
	for share, want := range map[float64]string{.05: "Best explanation: ", .19: "Best explanation: ", .2: "A weak clue, since chance alone often fits: ", .9: "A weak clue, since chance alone often fits: "} {
		d.Official.Chances[at].Share = report.Float(share)
		assert.Contains(t, words.OfficialSentence(d), " come to. "+want, share)
	}
	d.Official.Chances[at].Share = report.Float(.05)
	d.Official.Coarse = true
	assert.Contains(t, words.OfficialSentence(d), " come to. A weak clue, since chance alone often fits: ")
	d.Official.Coarse, d.Official.Chances = false, nil
	assert.Contains(t, words.OfficialSentence(d), " come to. Best explanation: ", "not measured")
}

// swapped is a sheet whose rows 1 and 2 were swapped [derived]: 17 x 6 + 10 x 6.6 + 98 is
// 266, 17 x 6.6 + 10 x 6 + 98 is 270.2; 1.5 points of one judge on figure 3 are 4.2 too.
func swapped(t *testing.T, official string, more ...string) answers.Flight {
	t.Helper()
	return sheet{rows: []string{"17: 6 6.5 5.5 6 6", "10: 6.5 7 6.5 6.5 6.5", "14: 7 7 7 7 7"}, more: more}.answer(t, official)
}

// TestBetterClue: the first explanation stays the more plausible kind of slip, and one
// that chance gives clearly less often is named with it.
func TestBetterClue(t *testing.T) {
	d := swapped(t, "270.20")
	sentence := words.OfficialSentence(d)
	assert.Contains(t, sentence, "A plausible slip: ")
	assert.Contains(t, sentence, " The better clue, which chance alone gives less often: the K of figures 1 and 2 swapped, 10 and 17, gives 270.20 as printed.")
	const rows = "the rows of figures 1 and 2 swapped on all sheets give 270.20 as printed"
	assert.Equal(t, []string{rows}, words.OfficialNotes(d.Official), "each said once")
	d = swapped(t, "270.20", "judge-totals 268.5 282 263.5 268.5 268.5")
	sentence = words.OfficialSentence(d)
	assert.Contains(t, sentence, "Best explanation: the K of figures 1 and 2 swapped, 10 and 17, gives 270.20 as printed.")
	assert.NotContains(t, sentence, "better clue")
	assert.NotEmpty(t, words.OfficialNotes(d.Official))
	notes := words.OfficialNotes(d.Official)
	assert.Equal(t, rows, notes[0])
	for _, note := range notes[1:] {
		assert.Contains(t, note, "does not give the judges' printed totals")
	}
	assert.NotContains(t, words.OfficialFoot(d.Official), "would fit")
}

// TestPrintedSumOfK: a K alone is no clue where the form's sum of K, or the printed
// maximum, is that of the K as typed; the mark is.
func TestPrintedSumOfK(t *testing.T) {
	// [derived]: half a point more on figure 2 from one of five is 17 x 0.1, as K 10 for 9.75
	// would be; one grade more from one of five on figure 1, K 16, is 3.2, which is 20 x .16.
	rows := []string{"16: 8 8 8 8 4", "10: 8 8 8 8 8", "14: 7 7 7 7 7"} // 115.2 + 80 + 98
	d := sheet{rows: rows}.answer(t, "301.20")
	assert.Contains(t, words.OfficialSentence(d), "figure 2 counted with K 11 instead of 10 gives 301.20")
	d = sheet{rows: rows}.answer(t, "301.20 of 400")
	assert.NotContains(t, words.OfficialSentence(d), "counted with K")
	assert.Contains(t, words.OfficialNotes(d.Official), "figure 2 counted with K 11 instead of 10 gives 301.20 as printed, but is unlikely: the K as typed come to the printed sum")
	assert.NotContains(t, words.OfficialFoot(d.Official), "another K")
}

// TestOfficialPercent: a printed percent is held against the marks as one.
func TestOfficialPercent(t *testing.T) {
	d := swapped(t, "64.88 of 100") // 266 of 410
	assert.Equal(t, "The official percent agrees with the marks.", words.OfficialSentence(d))
	d = swapped(t, "65.90 of 100")
	assert.Contains(t, words.OfficialSentence(d), "The official percent, 65.90%, which the season counts, is 1.02 percentage points more than the marks as typed come to: "+
		"4.19 points, give or take 0.02 by its rounding. ")
	assert.Contains(t, words.OfficialSentence(d), " gives 65.90% as printed.")
	assert.NotContains(t, words.OfficialSentence(d), "maximum")
	d = swapped(t, "12.34 of 100")
	assert.Contains(t, words.OfficialSentence(d), "by its rounding, and no single slip explains it.")
}

// TestSupposedMaximum: with another maximum the points are looked into under the
// supposition that it alone is a slip.
func TestSupposedMaximum(t *testing.T) {
	d := swapped(t, "270.20 of 400")
	sentence := words.OfficialSentence(d)
	assert.True(t, strings.HasPrefix(sentence, "The printed maximum is 400, that of the sequence 410, and the percents differ: a K may be mistyped. If the maximum alone is a slip, the official total, 270.20 ("), sentence)
	assert.Contains(t, sentence, "the K of figures 1 and 2 swapped, 10 and 17, gives 270.20 as printed")
	assert.Equal(t, []string{"the rows of figures 1 and 2 swapped on all sheets give 270.20 as printed"}, words.OfficialNotes(d.Official), "the others are in the sentence")
	assert.Contains(t, words.OfficialFoot(d.Official), "First compare the maximum, and each K of the sequence, with the printed result, then these marks")
	d = swapped(t, "266.00 of 400")
	assert.Contains(t, words.OfficialSentence(d), " If the maximum alone is a slip, the official total agrees with the marks; its points make 66.50%, which the season counts.")
}

// TestPenaltyIsNoRule: what counts a penalty otherwise is not called a rule.
func TestPenaltyIsNoRule(t *testing.T) {
	o := answers.Official{Explanations: []answers.Explanation{{Kind: answers.ExplainedByRules, Deducted: answers.DeductedNot}}, Chances: []answers.Chance{{Kind: answers.ExplainedByRules}}}
	assert.Contains(t, words.OfficialFoot(&o), "By chance alone a rule or a penalty counted otherwise would explain ")
	o.Explanations[0].Deducted = ""
	assert.Contains(t, words.OfficialFoot(&o), "By chance alone another rule would explain ")
}

// TestOfficialOfJudgesTotals: an official total that is the mean of the judges' printed
// totals is said to be theirs, and why it is another than that of the marks; nothing beside
// it says otherwise.
func TestOfficialOfJudgesTotals(t *testing.T) {
	grades := []string{"10: 7 7.5 7", "13: 6.5 7 8", "15: 7 7.5 8.5"} // 259.5, 278.5, 301.5
	absent := []string{"10: 7 A 7", "13: 6.5 7 8", "15: 7 7.5 8.5"}   // 259.5, 203.5 or 273.5, 301.5
	zero := []string{"10: 7 HZ 7", "13: 6.5 7 8", "15: 7 7.5 8.5"}
	const (
		rounded  = "which are rounded"
		unfilled = "which count marks as they stand on the sheets, neither filled nor zeroed"
		both     = "which are rounded and count marks as they stand on the sheets, neither filled nor zeroed"
	)
	for _, c := range []struct {
		rows             []string
		totals, official string
		more             []string
		why, best        string
	}{
		{rows: grades, totals: "260 279 302", official: "280.33", why: rounded},
		{rows: absent, totals: "259.5 203.5 301.5", official: "254.83", why: unfilled},
		{rows: absent, totals: "259.5 203.5 301.5", official: "234.83", more: []string{"penalty low 20"}, why: unfilled + ", less the penalty"},
		{rows: zero, totals: "259.5 203.5 301.5", official: "254.83", why: unfilled, best: " Best explanation: each hard zero counted as given gives 254.83 as printed."},
		{rows: zero, totals: "260 204 302", official: "255.33", why: both},
	} {
		d := sheet{rows: c.rows, more: append(c.more, "judge-totals "+c.totals)}.answer(t, c.official)
		said := words.OfficialSentence(d)
		assert.True(t, strings.HasSuffix(said, " than the marks come to by the rules: it is the mean of the judges' printed totals, "+c.why+"."+c.best), said)
		assert.Contains(t, words.OfficialFoot(d.Official), "Ask the contest's office at once")
		assert.NotContains(t, words.OfficialFoot(d.Official), "your own typing")
		assert.Contains(t, words.OfficialDisagrees(d), " than the marks come to by the rules.")
	}

	// [derived] The mean is 20 less, as a penalty would make it, which the printed totals go against.
	d := sheet{rows: []string{"10: 8 8 A 8", "10: 8 8 8 8"}, more: []string{"judge-totals 160 160 80 160"}}.answer(t, "140.00")
	assert.True(t, strings.HasSuffix(words.OfficialSentence(d), "it is the mean of the judges' printed totals, "+unfilled+"."), words.OfficialSentence(d))
	require.NotEmpty(t, d.Official.Explanations)
	for _, e := range d.Official.Explanations {
		assert.True(t, e.Contradicts, e.Text)
	}

	// Totals that are neither the marks' nor explained by one slip.
	d = sheet{rows: grades, more: []string{"judge-totals 262 278.5 305"}}.answer(t, "281.83")
	assert.True(t, strings.HasSuffix(words.OfficialSentence(d), " than the marks as typed come to: it is the mean of the judges' printed totals, which are not those of the marks."), words.OfficialSentence(d))
	d = sheet{rows: grades, more: []string{"judge-totals 259.5 278.5 301.5"}}.answer(t, "280.33")
	assert.Contains(t, words.OfficialSentence(d), "although the printed totals of the judges agree with the marks")
}

// TestPenaltyOnEverySheet: a penalty by which each judge's printed total is off explains them.
func TestPenaltyOnEverySheet(t *testing.T) {
	grades := []string{"10: 7 7.5 7", "13: 6.5 7 8", "15: 7 7.5 8.5"}
	d := sheet{rows: grades, more: []string{"judge-totals 239.5 258.5 281.5"}}.answer(t, "259.83")
	assert.Contains(t, words.OfficialSentence(d), "Best explanation: a penalty of 20 that is not in the ledger, deducted on every judge's sheet, gives 259.83 as printed.")
	for _, e := range d.Official.Explanations {
		assert.Equal(t, e.Kind != answers.ExplainedByPenalty, e.Contradicts, e.Text)
	}
	d = sheet{rows: grades, more: []string{"judge-totals 239.5 258.5 281.5", "penalty low 20"}}.answer(t, "239.83")
	assert.Contains(t, words.OfficialNotes(d.Official), "the penalty deducted twice, once on every judge's sheet, gives 239.83 as printed")
	d = sheet{rows: grades, more: []string{"judge-totals 239.5 258.5 301.5"}}.answer(t, "259.83")
	assert.Contains(t, words.OfficialSentence(d), "does not give the judges' printed totals", "not on every sheet")
}

// TestAnotherKAgainstThePrintedSum: the printed sum of K alone does not clear a K that gives
// the printed maximum, the total and the judges' totals; both are said.
func TestAnotherKAgainstThePrintedSum(t *testing.T) {
	s := sheet{rows: []string{"10: 7 7.5 7", "13: 6.5 7 8", "15: 7 7.5 8.5"}, total: "total K 38"}
	const (
		k     = "figure 2 counted with K 14 instead of 13 gives 287.00 as printed"
		sum   = ", though the K as typed come to the printed sum."
		first = "First compare each K of the sequence with the printed result, then these marks"
	)
	assert.Contains(t, words.OfficialSentence(s.answer(t, "287.00")), "No likely slip explains it: ")
	d := s.answer(t, "287.00 of 390")
	assert.Contains(t, words.OfficialNotes(d.Official), k+", with the printed maximum"+strings.TrimSuffix(sum, "."))
	s.more = []string{"judge-totals 266 285.5 309.5"}
	d = s.answer(t, "287.00")
	assert.Contains(t, words.OfficialSentence(d), "Best explanation: "+k+", with the judges' printed totals"+sum)
	assert.Contains(t, words.OfficialFoot(d.Official), first)
	d = s.answer(t, "287.00 of 390")
	assert.True(t, strings.HasSuffix(words.OfficialSentence(d), "a K may be mistyped. Best explanation: "+k+", with the printed maximum and the judges' printed totals"+sum), words.OfficialSentence(d))
	assert.Nil(t, d.Official.Supposed)
	assert.Contains(t, words.OfficialFoot(d.Official), first)
	s.more = []string{"judge-totals 266 285.5 312"}
	assert.NotNil(t, s.answer(t, "287.00 of 390").Official.Supposed)
}

// TestOneSheetAndAPenalty: a difference of which a part lies in sheets and the rest is a
// penalty is said as both; one that a penalty alone explains stays that.
func TestOneSheetAndAPenalty(t *testing.T) {
	grades := []string{"10: 7 7.5 7", "13: 6.5 7 8", "15: 7 7.5 8.5"} // 259.5, 278.5, 301.5
	d := sheet{rows: grades, more: []string{"judge-totals 259.5 278.5 308"}}.answer(t, "262.00")
	assert.True(t, strings.HasSuffix(words.OfficialSentence(d), " come to: it is the mean of the judges' printed totals, which are not those of the marks, less a penalty of 20 that is not in the ledger."), words.OfficialSentence(d))
	assert.Contains(t, words.OfficialFoot(d.Official), "First compare the penalties, then these marks, with your paper sheets")
	d = sheet{rows: grades, more: []string{"judge-totals 259.5 278.5 308", "penalty low 10"}}.answer(t, "252.00")
	assert.Contains(t, words.OfficialSentence(d), ", less the penalty and a penalty of 20 that is not in the ledger.")
	d = sheet{rows: grades, more: []string{"judge-totals 260 279 302"}}.answer(t, "260.33")
	assert.Contains(t, words.OfficialSentence(d), "which are rounded, less a penalty of 20 that is not in the ledger.")
	assert.Contains(t, words.OfficialFoot(d.Official), "First compare the penalties with your paper sheets.")

	d = sheet{rows: grades, more: []string{"judge-totals 259.5 278.5 301.5"}}.answer(t, "259.83")
	assert.Contains(t, words.OfficialSentence(d), " than the marks as typed come to. Best explanation: a penalty of 20 that is not in the ledger gives 259.83 as printed.")
	d = sheet{rows: grades, more: []string{"judge-totals 259.5 278.5 308"}}.answer(t, "262")
	assert.NotContains(t, words.OfficialSentence(d), "mean of the judges' printed totals", "too coarse")
}
