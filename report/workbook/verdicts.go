package workbook

import (
	"strings"

	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// verdict is one line of the page to read first.
type verdict struct{ label, words string }

// verdicts are the season in words, a line a question.
func (c *content) verdicts() []verdict {
	d := c.book
	ready := words.NoPolicy
	if d.Ready != nil {
		ready = words.ReadySentence(words.SayReady(*d.Ready))
	}
	return []verdict{
		{words.VerdictTrend, seasonVerdict(d.Season)},
		{words.VerdictLevel, levelVerdict(d.Season)},
		{words.VerdictFamilies, lines([]string{words.WeakSentence(d.Families), words.MovingSentence(d.Families)})},
		{words.VerdictPlan, words.PlanSentence(words.SayPlan(d.Plan))},
		{words.VerdictFaults, faultsVerdict(d.Faults)},
		{words.VerdictDrills, lines(words.DrillSentences(d.Drills))},
		{words.VerdictReady, ready},
		{words.VerdictCaution, words.SeasonCaution},
	}
}

func lines(said []string) string { return strings.Join(said, "\n") }

// seasonVerdict is each category's trend, then what a change of category did.
func seasonVerdict(d answers.Season) string {
	if len(d.Trends) == 0 {
		return words.NoRecord
	}
	said := words.TrendSentences(d)
	if longer := words.LongerSentence(d); longer != "" {
		said = append(said, longer)
	}
	for _, m := range d.Moves {
		said = append(said, words.MoveSentence(m, d.Limits))
	}
	return lines(said)
}

// levelVerdict is where the pilot stands now.
func levelVerdict(d answers.Season) string {
	if said := words.SeasonLevel(d); len(said) > 0 {
		return strings.Join(said, " ")
	}
	return words.NoLevel(d.Level)
}

// faultsVerdict is what comes back, each with its drill, after what is
// open and comes first.
func faultsVerdict(d answers.Faults) string {
	var said []string
	for _, o := range d.Open {
		said = append(said, words.OpenNow(o))
	}
	if len(d.Recurring) > 0 {
		if d.Season != 0 {
			said = append(said, words.BackSpan(d))
		}
		for _, n := range tables.RecurringNotes(d).Items {
			if n.Mark != "" {
				n.Text = n.Mark + ". " + n.Text
			}
			said = append(said, n.Text)
		}
	}
	if len(said) == 0 {
		return lines(words.FaultsSentences(d))
	}
	return lines(said)
}
