package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// TrendFigures are the numbers behind the sentence.
func TrendFigures(d answers.Trend) *report.Facts {
	facts := &report.Facts{}
	if !d.P.Known() {
		return facts // the scores say all there is
	}
	if d.Slope30.Known() {
		AddFact(facts, words.ColumnPointsPer30Days, report.Signed(d.Slope30, words.GradeDecimals))
	}
	AddFact(facts, "test on flights", report.Text(words.TestText(words.Counted(d.N, "flight", "flights"), d.S, d.P)))
	if d.Contests != nil {
		AddFact(facts, "test on contest means", report.Text(words.TestText(words.Counted(d.Contests.N, "contest", "contests"), d.Contests.S, d.Contests.P)))
	}
	if d.WithoutZeros.Known() {
		AddFact(facts, "without zeroed flights", report.Text(words.TrendWithoutZeros(d)))
	}
	return facts
}
