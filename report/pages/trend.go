package pages

import (
	"fmt"
	"math"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// trendDecimals are the decimals of a change in percent points.
const trendDecimals = 1

// TrendData is what points in order of time can show, in JSON. Tau is S over
// the largest it could be, ties allowed for (Kendall's tau-b). Slope30 is in
// percent points per 30 days; season, low and high over the span of the flights,
// at the confidence that the interval achieves. All of these and p are absent
// where the flights are too few for a verdict.
type TrendData struct {
	N          int               `json:"n"`
	S          int               `json:"s"`
	Tau        report.Number     `json:"tau,omitzero"`
	P          report.Number     `json:"p,omitzero"`
	Slope30    report.Number     `json:"slope30,omitzero"`
	Season     report.Number     `json:"season,omitzero"`
	Low        report.Number     `json:"low,omitzero"`
	High       report.Number     `json:"high,omitzero"`
	Confidence report.Number     `json:"confidence,omitzero"`
	Word       string            `json:"word"`
	Contests   *ContestTrendData `json:"contests,omitempty"`
	// WithoutZeros is season without the flights that have a zeroed figure.
	WithoutZeros report.Number `json:"withoutZeros,omitzero"`

	gap float64
}

// ContestTrendData is the second test, on contest means.
type ContestTrendData struct {
	N    int           `json:"n"`
	S    int           `json:"s"`
	P    report.Number `json:"p,omitzero"`
	Word string        `json:"word"`
}

func trendData(t analysis.Trend, contests bool) TrendData {
	d := TrendData{
		N: t.N, S: t.S, Tau: report.Float(t.Tau), P: report.Float(t.P), Slope30: report.Float(t.Slope30), Season: report.Float(t.Season),
		Low: report.Float(t.Low), High: report.Float(t.High), Confidence: report.Float(t.Confidence),
		WithoutZeros: report.Float(t.WithoutZero), Word: string(t.Word), gap: t.LongestGap,
	}
	if contests {
		d.Contests = &ContestTrendData{t.Contests.N, t.Contests.S, report.Float(t.Contests.P), string(t.Contests.Word)}
	}
	return d
}

// change writes a change of percent points, signed.
func change(n report.Number) string { return report.Signed(n, trendDecimals).String() }

// trendSentence is the verdict as a plain sentence, the figures behind it.
func trendSentence(d TrendData) string {
	over := "over these flights"
	interval := fmt.Sprintf("%s to %s, %s sure", change(d.Low), change(d.High), surety(d.Confidence))
	switch analysis.Word(d.Word) {
	case analysis.TooFew:
		return "Too few flights to tell a trend: " + trendCounts(d) + "."
	case analysis.Improving, analysis.Declining:
		return fmt.Sprintf("%s: %s points %s (%s). Chance alone gives this in %s.",
			Sentence(d.Word), change(d.Season), over, interval, trendChance(d))
	case analysis.MayImprove, analysis.MayDecline:
		return fmt.Sprintf("%s: %s points %s (%s), but chance alone gives this %s.",
			Sentence(d.Word), change(d.Season), over, interval, trendChance(d))
	case analysis.Flat:
		return fmt.Sprintf("Flat: %s points %s, within %s either way (%s).", change(d.Season), over,
			report.Float(analysis.SmallChange).Text(0), interval)
	default:
		if !d.Season.Known() {
			return "Cannot tell: all flights were on one day."
		}
		return fmt.Sprintf("Cannot tell: between %s and %s points %s (%s sure)%s.",
			change(d.Low), change(d.High), over, surety(d.Confidence), bothFit(d))
	}
}

// trendCounts says what a verdict would need more of.
func trendCounts(d TrendData) string {
	text := season.Counted(d.N, "flight that can be compared", "flights that can be compared")
	if d.Contests != nil {
		text += " in " + season.Counted(d.Contests.N, "contest", "contests")
	}
	if d.N >= 5 && d.Contests != nil && d.Contests.N >= 5 {
		return text + ", too few of them of one sequence"
	}
	return text + "; nothing can be said with fewer than five of each"
}

// bothFit names what an interval leaves open.
func bothFit(d TrendData) string {
	low, high := d.Low.Float64(), d.High.Float64()
	up, down := high > analysis.SmallChange, low < -analysis.SmallChange
	switch {
	case up && down:
		return "; improving, flat and declining all fit"
	case up:
		return "; flat and improving both fit"
	case down:
		return "; flat and declining both fit"
	default:
		return ""
	}
}

// trendChance says the larger chance of the tests.
func trendChance(d TrendData) string {
	p := d.P.Float64()
	if d.Contests != nil {
		p = max(p, d.Contests.P.Float64())
	}
	return chanceWords(p, "one season")
}

// mostIn is the largest N of "one in N": beyond it the number says nothing more.
const mostIn = 1000

// chanceWords turn a chance into "about once in N".
func chanceWords(p float64, once string) string {
	if p < 1.0/mostIn {
		return fmt.Sprintf("less than %s in %d", once, mostIn)
	}
	return fmt.Sprintf("about %s in %s", once, report.Float(1/p).Text(0))
}

// surety writes a confidence as whole percent, never 100.
func surety(n report.Number) string { return wholeSurety(n).Text(0) + " %" }

// wholeSurety is a confidence in whole percent, never rounded up, at most 99.
func wholeSurety(n report.Number) report.Number {
	return report.Float(math.Min(99, math.Floor(100*n.Float64()+1e-9)))
}

// trendFigures are the numbers behind the sentence.
func trendFigures(d TrendData) *report.Facts {
	facts := &report.Facts{}
	if !d.P.Known() {
		return facts // the scores say all there is
	}
	if d.Slope30.Known() {
		addFact(facts, "points per 30 days", report.Signed(d.Slope30, gradeDecimals))
	}
	addFact(facts, "test on flights", report.Text(testText(d.N, d.S, d.P)))
	if d.Contests != nil {
		addFact(facts, "test on contest means", report.Text(testText(d.Contests.N, d.Contests.S, d.Contests.P)))
	}
	if d.WithoutZeros.Known() {
		addFact(facts, "without zeroed flights", report.Signed(d.WithoutZeros, trendDecimals))
	}
	return facts
}

func testText(n, s int, p report.Number) string {
	return fmt.Sprintf("n %d, S %d, p %s", n, s, p.Text(3))
}

// trendNotes say what a reader must know beside the verdict.
func trendNotes(d TrendData) []report.Note {
	var notes []report.Note
	if d.N == analysis.LeastPoints && d.Word != string(analysis.TooFew) {
		notes = append(notes, report.Note{Text: fmt.Sprintf("of %d flights only a near-perfect run would show", analysis.LeastPoints)})
	}
	if d.Season.Known() && d.gap > analysis.LongGap {
		notes = append(notes, report.Note{Text: fmt.Sprintf("the trend is drawn across a gap of %s days without a flight", report.Float(d.gap).Text(0))})
	}
	return notes
}
