package words_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
	"boxbook/report/words"
)

// checkRows is a panel of three with a minority's hard zero and a gap: 721.33
// [derived]. tarnRows is one of five, with penalties 540.49.
var (
	checkRows = []string{"10: 8 7.5 8.5", "17: 7.5 HZ 7", "13: 7 6.5 7.5", "31: 6.5 6 7", "19: 8 AV 7.5", "positioning 10: 8 7.5 8"}
	tarnRows  = []string{"14: 8 7.5 8 8.5 7.5", "23: 7 HZ 6.5 7 AV", "14: 6.5 6 7 6.5 6", "9: 8 8 8.5 8 -", "positioning 20: 8 7.5 8 8 8.5"}
	penalties = []string{"penalty low 20", "penalty interruption 30"}
)

// Every explanation as a sentence, by the scoring's own cases.
func TestExplanationText(t *testing.T) {
	harmony := append(append([]string{}, tarnRows...), "harmony 10: 7 7 7.5 8 7")
	ruled := append([]string{"14: HZ HZ 8 9 AV"}, tarnRows[1:]...)
	tarn := sheet{rows: tarnRows, more: penalties}
	dropping := sheet{rules: []string{"drop-extremes yes"}, rows: []string{"12: 5 6 7 8 8 9", "20: 8 8 8 8 8 8"}}
	half := sheet{rows: []string{"10: HZ HZ 7 8", "13: 7 7 7.5 7"}}
	two := sheet{rows: append(append([]string{}, half.rows...), "21: HZ HZ 5 5")}
	for _, c := range []struct {
		sheet    sheet
		official string
		want     []string
	}{
		{sheet{rows: checkRows}, "726.50", []string{"half a point higher on figure 4 from A, B or C gives"}},
		{sheet{rows: checkRows}, "716.58", []string{
			"half a point lower on figure 5 from A or C gives", "AV instead of 8.0 on figure 5 from A gives", "7.0 instead of AV on figure 5 from B gives",
		}},
		{sheet{rows: checkRows}, "598.08", []string{"a hard zero confirmed for figure 2, CHZ instead of HZ from B, gives", "HZ instead of the grade on figure 2 from A or C gives"}},
		{sheet{rows: []string{"21: 7", "12: -", "12: 8"}, more: []string{"resolve 2 zero"}}, "321", []string{"6.5 instead of - on figure 2 from A gives"}},
		{dropping, "241.00", []string{
			"at least 2 points lower on figure 1 from C (5.0 or lower instead of 7.0) gives",
			"2 points lower on figure 1 from D or E gives", "3 points lower on figure 1 from F (6.0 instead of 9.0) gives",
		}},
		{dropping, "244.50", []string{"half a point lower on figure 2 from any two of A, B, C, D, E and F gives"}},
		{sheet{rows: []string{"11: 7 7.5 8", "13: 8 6.5 7", "17: 9 8 8.5"}}, "313.25", []string{"the sheet of A left out of the mean gives"}},
		{sheet{rows: []string{"11: 7 7.5 8", "13: 8 6.5 7", "17: 9 8 8.5"}}, "319.17", []string{
			"half a point higher on figure 1 from A, B or C and half a point lower on figure 3 from A, B or C together give",
		}},
		{sheet{rows: []string{"16: 5 5", "10: 8 8"}}, "168.00", []string{
			"one point higher on figure 1 from A or B gives", "figure 2 counted with K 11 instead of 10 gives",
		}},
		{sheet{rows: []string{"11: 9.5 9.5", "17: 10 10"}}, "280.00", []string{"half a point higher on figure 1 from both A and B gives"}},
		{sheet{rows: []string{"20: 7", "positioning 31: 8"}}, "140.00", []string{
			"positioning left out gives", "8 points lower on positioning from A (0.0 instead of 8.0) gives",
		}},
		{sheet{rows: []string{"10: 7 8", "20: 6 6.5"}}, "170.00", []string{
			"a penalty of 30, or of 15 once for each judge, that is not in the ledger gives",
		}},
		{sheet{rows: checkRows, more: []string{"penalty low 30"}}, "656.33", []string{"a penalty of 35 that is not in the ledger gives"}},
		{sheet{rows: []string{"11: 7 9 7", "21: 8 8 8"}}, "249.00", []string{"the rows of figures 1 and 2 swapped on the sheet of A or C give", "the K of figures 1 and 2 swapped, 21 and 11, gives"}},
		{sheet{rows: []string{"11: 7 6.5 7.5", "21: 8 9 8"}}, "238.67", []string{"the K of figures 1 and 2 swapped, 21 and 11, gives", "the rows of figures 1 and 2 swapped on all sheets give"}},
		{sheet{rows: checkRows}, "721.93", []string{"filled marks rounded to 0.1 give"}},
		{sheet{rows: checkRows}, "724.33", []string{"filled marks rounded to 0.5 give"}},
		{sheet{rows: checkRows, rules: []string{"fill-rounding 0.5"}}, "721.33", []string{"filled marks unrounded give"}},
		{tarn, "539.15", []string{"the highest and the lowest mark of each line dropped give"}},
		{sheet{rules: []string{"drop-extremes yes"}, rows: tarnRows, more: penalties}, "540.49", []string{"no mark dropped gives"}},
		{tarn, "501.20", []string{"each hard zero counted as given gives"}},
		{sheet{rules: []string{"hard-zero as-given"}, rows: tarnRows, more: penalties}, "540.49", []string{"hard zeros decided by the majority of the panel give"}},
		{sheet{rows: ruled, more: append([]string{"resolve 1 fill"}, penalties...)}, "429.89", []string{
			"a figure with a hard zero from exactly half of the panel counted as 0 gives",
		}},
		{sheet{rules: []string{"half zero"}, rows: []string{"10: HZ HZ 7 8", "13: 7 7 7.5 7"}}, "167.63", []string{"hard zeros from exactly half of the panel filled give"}},
		{sheet{rows: harmony, more: penalties}, "540.49", []string{"harmony left out gives"}},
		{sheet{rows: harmony, more: penalties}, "380.49", []string{"positioning and harmony left out give"}},
		{tarn, "590.49", []string{"the penalties not deducted give"}},
		{tarn, "490.49", []string{"the penalties deducted twice give"}},
		{tarn, "340.49", []string{"the penalties deducted 5 times, once for each judge, give"}},
		{tarn, "580.49", []string{"the penalties divided by the number of judges give"}},
		{tarn, "560.49", []string{"the penalty of 20 not deducted gives"}},
		{sheet{rows: checkRows, more: []string{"penalty low 30"}}, "721.33", []string{"the penalty not deducted gives"}},
		{half, "162.63", []string{
			"with figure 1 filled, one point lower on figure 1 from C or D gives", "6.0 instead of HZ on figure 1 from A or B gives",
		}},
		{half, "94.25", []string{"with figure 1 at 0, half a point higher on figure 2 from A, B, C or D gives"}},
		{two, "167.63", []string{"figure 1 filled and figure 3 at 0 give"}},
	} {
		o := c.sheet.answer(t, c.official).Official
		said := o.Explanations
		if said[0].Kind == answers.ExplainedByPenalty && !strings.Contains(c.want[0], "not in the ledger") {
			said = said[1:] // a multiple of 5 below the own total, whatever else it is
		}
		require.GreaterOrEqual(t, len(said), len(c.want), c.want)
		for i, want := range c.want {
			assert.Equal(t, want+" "+c.official+" as printed", said[i].Text)
		}
	}
}

// What missing sheets must have come to, and why that cannot be said.
func TestMissingText(t *testing.T) {
	plain := []string{"10: 7 7 8", "13: 7 7 7.5", "21: 6.5 5 5"} // totals 297.5, 266 and 282.5, maximum 440
	const missing = " missing D"
	for _, c := range []struct {
		sheet          sheet
		official, want string
	}{
		// 4 x 283.75 - 846 = 289.
		{sheet{rows: plain, missing: missing}, "283.75", "the sheet of D must have come to 289.00, give or take 0.02, for 283.75 as printed"},
		{sheet{rows: plain, missing: missing}, "283", "the sheet of D must have come to 286.00, give or take 2, for 283 as printed"},
		{sheet{rows: plain, missing: missing}, "283.80", "the sheet of D must have come to 289.20, give or take 0.02, for 283.80 as printed, " +
			"which is no multiple of one half: a filled mark on it, or a slip elsewhere"},
		{sheet{rows: plain, missing: missing}, "400.00", "the sheet of D must have come to 754.00, give or take 0.02, for 400.00 as printed, " +
			"which lies outside 0 to 440"},
		{sheet{rows: plain, missing: missing + " E"}, "283.60", "the sheets of D and E together must have come to 572.00, " +
			"give or take 0.025, for 283.60 as printed"},
		{sheet{rows: checkRows, missing: missing}, "721.33", "the sheet of D must have come to about 721.32, give or take 0.02, " +
			"for 721.33 as printed (marks were filled without it)"},
		{sheet{rows: tarnRows, rules: []string{"drop-extremes yes"}, missing: " missing F"}, "540.49", "what the sheet of F must have come to cannot be said: extremes are dropped"},
		{sheet{rows: []string{"10: HZ 8"}, missing: " missing C"}, "40.00", "what the sheet of C must have come to cannot be said: a line is undecided"},
		{sheet{rows: plain, missing: missing}, "0.00", "what the sheet of D must have come to cannot be said: a total of 0 may hide a larger penalty"},
		{sheet{rows: plain, missing: missing}, "64.5 of 130", "what the sheet of D must have come to cannot be said: the maximum is another"},
		{sheet{rows: plain, missing: missing}, "64.5 of 100", "the sheet of D must have come to 289.20, give or take 0.88, for 64.5% as printed"},
	} {
		o := c.sheet.answer(t, c.official).Official
		require.Len(t, o.Explanations, 1, c.want)
		assert.Equal(t, c.want, o.Explanations[0].Text)
	}
}

// Printed totals that are each other's say which columns or totals may have changed places.
func TestJudgesTotalsExchanged(t *testing.T) {
	rows := []string{"10: 7 7.5 6", "10: 7 8 7"} // 140, 155 and 130
	const each = ": their marks stand in each other's columns, or the totals in another order than the panel"
	for totals, want := range map[string]string{
		"140 155 130": "",
		"155 140 130": "the printed totals of A and B are each other's" + each,
		"155 130 140": "the printed totals of A, B and C are each other's" + each,
		"155 141 130": "",
		"139 155 130": "",
	} {
		said := words.JudgesApart(sheet{rows: rows, more: []string{"judge-totals " + totals}}.answer(t, "141.67").Official)
		found := ""
		for _, note := range said {
			if strings.Contains(note, "each other's") {
				found = note
			}
		}
		assert.Equal(t, want, found, totals)
	}
}

// A judge's total that fits neither the marks as typed nor those that count is said with
// both sums, once where they are one.
func TestJudgesTotalInTwoReadings(t *testing.T) {
	rows := []string{"10: HZ HZ 6", "10: 7 7 7"} // typed 70, 70 and 130, counted 70 each
	for totals, want := range map[string][]string{
		"70 70 70":  nil,
		"70 70 130": nil,
		"70 71 100": {"the printed total of judge B is 71.00, the marks give 70.00", "the printed total of judge C is 100.00, the marks give 130.00 as typed, 70.00 as counted"},
	} {
		o := sheet{rows: rows, more: []string{"judge-totals " + totals}}.answer(t, "70.00").Official
		assert.Equal(t, want, words.JudgesApart(o), totals)
		assert.Equal(t, want == nil, o.JudgesAgree(), totals)
	}
}

// By what a judge's printed total is not the marks', the official total differs: all of it
// lies in that sheet, whether a mark of it explains it or none does.
func TestADifferenceThatLiesInASheet(t *testing.T) {
	rows := []string{"10: 7 7 7", "10: 8 8 8"}
	said := func(official, totals string) string {
		return words.OfficialSentence(sheet{rows: rows, more: []string{"judge-totals " + totals}}.answer(t, official))
	}
	assert.Equal(t, "The official total, 148.00 (74.00%, which the season counts), is 2.00 less than the marks as typed come to, all of it in the sheet of judge C, "+
		"whose printed total is 6.00 less than its marks: a mark is typed wrongly, or the sheet was added up wrongly.", said("148.00", "150 150 144"))
	assert.NotContains(t, said("149.00", "153 150 144"), "all of it", "two that differ may do so for one reason")
	assert.NotContains(t, said("144.00", "144 144 144"), "all of it", "a penalty, on every sheet")
	one := said("148.33", "150 150 145")
	assert.Contains(t, one, "is 1.67 less than the marks as typed come to, all of it in the sheet of judge C, whose printed total is 5.00 less than its marks. ")
	assert.Contains(t, one, "half a point lower on figure 1 from C")
	assert.Contains(t, one, " If its marks are as on the paper, the sheet was added up wrongly.")
	assert.NotContains(t, said("147.00", "150 150 144"), "all of it", "the rest lies elsewhere")
	assert.NotContains(t, said("148.00", "150 150 150"), "all of it")
}
