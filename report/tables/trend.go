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
		AddFact(facts, "points per 30 days", report.Signed(d.Slope30, words.GradeDecimals))
	}
	AddFact(facts, "test on flights", report.Text(words.TestText(d.N, d.S, d.P)))
	if d.Contests != nil {
		AddFact(facts, "test on contest means", report.Text(words.TestText(d.Contests.N, d.Contests.S, d.Contests.P)))
	}
	if d.WithoutZeros.Known() {
		AddFact(facts, "without zeroed flights", report.Signed(d.WithoutZeros, words.TrendDecimals))
	}
	return facts
}

// TrendNotes say what a reader must know beside the verdict.
func TrendNotes(d answers.Trend, limits answers.TrendLimits) []report.Note {
	var notes []report.Note
	if d.N == limits.Flights && d.Word != answers.TooFew {
		notes = append(notes, report.Note{Text: words.LeastFlights(limits)})
	}
	if words.LongGap(d, limits) {
		notes = append(notes, report.Note{Text: words.AcrossGap(d)})
	}
	return notes
}
