package answers

import (
	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// Trend is what points in order of time can show, in JSON. Tau is S over
// the largest it could be, ties allowed for (Kendall's tau-b). Slope30 is in
// percent points per 30 days; season, low and high over the span of the flights,
// at the confidence that the interval achieves, within what lies between the
// lowest and the highest value. All of these and p are absent where the flights
// are too few for a verdict; Reason says which lack it is, or why there is no
// change. Of whole flights alone, First and Last are the percents of the first and
// the last, as flown, which EndsApart says are of two sequences, Sequences of how
// many the flights compared are, each with its own, Detectable the change that both tests could have been
// expected to show.
type Trend struct {
	N          int           `json:"n"`
	S          int           `json:"s"`
	Tau        report.Number `json:"tau,omitzero"`
	P          report.Number `json:"p,omitzero"`
	Slope30    report.Number `json:"slope30,omitzero"`
	Season     report.Number `json:"season,omitzero"`
	Low        report.Number `json:"low,omitzero"`
	High       report.Number `json:"high,omitzero"`
	Confidence report.Number `json:"confidence,omitzero"`
	Word       TrendWord     `json:"word"`
	Reason     TrendReason   `json:"reason,omitempty"`
	Contests   *ContestTrend `json:"contests,omitempty"`
	First      report.Number `json:"first,omitzero"`
	Last       report.Number `json:"last,omitzero"`
	EndsApart  bool          `json:"endsApart,omitempty"`
	Sequences  int           `json:"sequences,omitempty"`
	Detectable report.Number `json:"detectable,omitzero"`
	// SeasonCut, LowCut and HighCut say which of season, low and high were beyond what was
	// observed, and are cut to it.
	SeasonCut bool `json:"seasonCut,omitempty"`
	LowCut    bool `json:"lowCut,omitempty"`
	HighCut   bool `json:"highCut,omitempty"`
	// WithoutZeros is season without the flights that have a zeroed figure.
	WithoutZeros report.Number `json:"withoutZeros,omitzero"`
	// HangsOnZeros are the days of the flights with a zeroed figure, where without them
	// there would be no verdict of a change this way.
	HangsOnZeros []string `json:"hangsOnZeros,omitempty"`
	// LongestGap is in days, between neighbouring flights.
	LongestGap report.Number `json:"longestGap,omitzero"`
}

// ContestTrend is the second test, on contest means.
type ContestTrend struct {
	N    int           `json:"n"`
	S    int           `json:"s"`
	P    report.Number `json:"p,omitzero"`
	Word TrendWord     `json:"word"`
}

// TrendWord is the verdict on a trend.
type TrendWord = analysis.Word

// The verdicts on a trend.
const (
	TooFew     = analysis.TooFew
	Improving  = analysis.Improving
	Declining  = analysis.Declining
	MayImprove = analysis.MayImprove
	MayDecline = analysis.MayDecline
	Flat       = analysis.Flat
	CannotTell = analysis.CannotTell
)

// TrendReason says why a trend has no verdict, or none with a change.
type TrendReason = analysis.TrendReason

// The reasons of a trend.
const (
	TrendFewFlights  = analysis.TrendFewFlights
	TrendFewContests = analysis.TrendFewContests
	TrendFewAlike    = analysis.TrendFewAlike
	TrendOneDay      = analysis.TrendOneDay
)

// TrendLimits are the thresholds that a verdict on a trend rests on: Flights
// are the least that can be compared, of as many contests where those are asked
// for; Change is in percent points, the least that counts; a gap longer than
// GapDays is said.
type TrendLimits struct {
	Flights int           `json:"flights"`
	Change  report.Number `json:"change"`
	GapDays int           `json:"gapDays"`
	// Span says that the flights are of days that were chosen, not of one season.
	Span bool `json:"span,omitempty"`
}

// trendLimitsOf are the house's, of the flights of a selection.
func trendLimitsOf(s season.Selection) TrendLimits {
	limits := trendLimits()
	limits.Span = s.Season == 0 && (s.Since != 0 || s.Until != 0)
	return limits
}

// trendLimits are the house's.
func trendLimits() TrendLimits {
	return TrendLimits{Flights: analysis.LeastPoints, Change: report.Float(analysis.SmallChange), GapDays: analysis.LongGap}
}

// trendOf collects the numbers of a trend, those on contest means where they
// were asked for.
func trendOf(t analysis.Trend, contests bool) Trend {
	d := Trend{
		N: t.N, S: t.S, Tau: report.Float(t.Tau), P: report.Float(t.P), Slope30: report.Float(t.Slope30), Season: report.Float(t.Season),
		Low: report.Float(t.Low), High: report.Float(t.High), Confidence: report.Float(t.Confidence),
		SeasonCut: t.SeasonCut, LowCut: t.LowCut, HighCut: t.HighCut, WithoutZeros: report.Float(t.WithoutZero), Word: t.Word, Reason: t.Reason,
	}
	for _, day := range t.HangsOn {
		d.HangsOnZeros = append(d.HangsOnZeros, season.Date(day).String())
	}
	if t.LongestGap > 0 {
		d.LongestGap = report.Float(t.LongestGap)
	}
	if contests {
		d.First, d.Last, d.Detectable = report.Float(t.First), report.Float(t.Last), report.Float(t.Detectable)
		d.EndsApart, d.Sequences = t.EndsApart, t.Strata
		d.Contests = &ContestTrend{t.Contests.N, t.Contests.S, report.Float(t.Contests.P), t.Contests.Word}
	}
	return d
}

// TrendChance is the larger chance of a trend's tests: that chance alone gives it.
func TrendChance(d Trend) report.Number {
	if ByContests(d) {
		return d.Contests.P
	}
	return d.P
}

// ByContests reports whether that chance is that of contest means.
func ByContests(d Trend) bool {
	return d.Contests != nil && d.Contests.P.Float64() > d.P.Float64()
}
