package words_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// A flight's page answers first: the score, the official total, where most was
// lost and to which fault. No fault is named that is not noted.
func TestFlightSentences(t *testing.T) {
	const ours = "No official total is typed: this is calculated from the marks."
	for name, c := range map[string]struct {
		sheet sheet
		want  []string
	}{
		"no fault noted": {sheet{rows: []string{"10: 7", "12: 6"}}, []string{
			"64.55%: 142.00 of 220 points.", ours, "Most was lost on figure 2: 48.00 of the 78.00 points lost; no faults are noted for this flight.",
		}},
		"noted there": {sheet{rows: []string{"10: 7", "12: 6"}, more: []string{"fault 2 radius 2x", "fault 1 line-angle 5deg"}}, []string{
			"64.55%: 142.00 of 220 points.", ours, "Most was lost on figure 2: 48.00 of the 78.00 points lost; noted there: radius changed.",
		}},
		"noted elsewhere": {sheet{rows: []string{"10: 7", "12: 6"}, more: []string{"fault 1 radius 2x"}}, []string{
			"64.55%: 142.00 of 220 points.", ours,
			"Most was lost on figure 2: 48.00 of the 78.00 points lost, with no fault noted there; the costliest fault noted is radius changed on figure 1, 20.00 points.",
		}},
		"a fault that takes nothing": {sheet{rows: []string{"10: 7", "12: 6"}, more: []string{"fault 1 radius felt"}}, []string{
			"64.55%: 142.00 of 220 points.", ours, "Most was lost on figure 2: 48.00 of the 78.00 points lost, with no fault noted there.",
		}},
		"nothing lost, a place, a penalty": {sheet{rows: []string{"10: 10"}, more: []string{"penalty low 20", "place 2 of 7", "official 80"}}, []string{
			"80.00%: 80.00 of 100 points, after 20 for low, place 2 of 7.", "The official total agrees with the marks.", "No points were lost.",
		}},
		"an official total apart": {sheet{rows: []string{"10: 7", "12: 6"}, more: []string{"official 141.00"}}, []string{
			"64.55%: 142.00 of 220 points.",
			"The official total, 141.00 (64.09%, which the season counts), is 1.00 less than the marks as typed come to. Best explanation: half a point higher on figure 1 from A and half a point lower on figure 2 from A together give 141.00 as printed.",
			"Most was lost on figure 2: 48.00 of the 78.00 points lost; no faults are noted for this flight.",
		}},
		"an official total with two digits swapped": {sheet{rows: []string{"10: 7", "12: 6"}, more: []string{"official 124.00"}}, []string{
			"64.55%: 142.00 of 220 points.",
			"The official total, 124.00 (56.36%, which the season counts), is 18.00 less than the marks as typed come to. Best explanation: 142.00, which the marks come to, with two digits swapped gives 124.00 as printed.",
			"Most was lost on figure 2: 48.00 of the 78.00 points lost; no faults are noted for this flight.",
		}},
		"an official total a digit from the field's": {sheet{rows: []string{"10: 7", "12: 6"}, more: []string{"official 148.00", "field 142.00 150.00"}}, []string{
			"64.55%: 142.00 of 220 points.",
			"The official total, 148.00 (67.27%, which the season counts), is 6.00 more than the marks as typed come to. Best explanation: 142.00, which the marks come to and the field has, with one digit mistyped gives 148.00 as printed.",
			"Most was lost on figure 2: 48.00 of the 78.00 points lost; no faults are noted for this flight.",
		}},
		"only a grade far from the others": {sheet{rows: []string{"10: 7 7.5 -", "11: 7 7 7"}, more: []string{"official 130.33"}}, []string{
			"71.19%: 149.50 of 210 points.",
			"The official total, 130.33 (62.06%, which the season counts), is 19.17 less than the marks as typed come to. No likely slip explains it: 1.5 instead of - on figure 1 from C gives 130.33 as printed, but is unlikely, far from what the other judges gave.",
			"Most was lost on figure 2: 33.00 of the 60.50 points lost; no faults are noted for this flight.",
		}},
		"void": {sheet{rows: []string{"10: 7"}, more: []string{`void "cloud"`}}, []string{
			"Void (cloud), so left out of every statistic; the marks alone: 70.00%: 70.00 of 100 points.",
			"The 30.00 points lost all went on figure 1; no faults are noted for this flight.",
		}},
		"undecided": {sheet{rules: []string{"half undecided"}, rows: []string{"10: HZ HZ 7 8"}}, []string{
			"Undecided: 0.00 to 75.00 of 100 points, until a ruling is recorded with `boxbook log official --flight 2026-05-01/ines/known`.", ours,
		}},
	} {
		assert.Equal(t, c.want, words.FlightSentences(c.sheet.answer(t, "")), name)
	}
}

// The judges' totals stand beneath their columns where there is room; else they are
// told in a line.
func TestTotalsBeneathTheSheet(t *testing.T) {
	d := answers.Flight{Panel: []string{"A", "B"}, Raw: report.Float(10), Lost: &answers.Lost{}, Judges: []answers.Judge{
		{Name: "A", Total: report.Int(12)}, {Name: "B", Total: report.Int(8)},
	}}
	assert.True(t, words.TotalsBeneath(d))
	assert.Empty(t, words.JudgesTotals(d))
	d.Judges[1].Total = report.Float(8.5) // beneath it would be 9, which the paper has not
	assert.False(t, words.TotalsBeneath(d))
	assert.Equal(t, []string{"totals: A 12.00, B 8.50"}, words.JudgesTotals(d))
	d.Judges[1].Total = report.Int(8)
	d.Panel = []string{"A", "B", "C", "D", "E", "F"}
	assert.False(t, words.TotalsBeneath(d))
	assert.Equal(t, []string{"totals: A 12.00, B 8.00"}, words.JudgesTotals(d))
}

// Judges' totals are compared with the marks without an official total too.
func TestJudgesTotalsWithoutAnOfficialOne(t *testing.T) {
	said := func(totals string) string {
		return strings.Join(words.FlightSentences(sheet{rows: []string{"10: 7 7.5", "10: 8 8"}, more: []string{"judge-totals " + totals}}.answer(t, "")), " ")
	}
	const none = "No official total is typed: this is calculated from the marks."
	assert.Contains(t, said("150 155"), none+" The printed totals of the judges agree with them.")
	assert.Contains(t, said("151 155"), none+" The printed total of judge A is 151.00, the marks give 150.00. Compare with your paper sheets: your own typing is the likelier slip.")
}
