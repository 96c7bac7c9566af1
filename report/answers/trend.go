package answers

import (
	"boxbook/report"
	"boxbook/season/analysis"
)

// Trend is what points in order of time can show, in JSON. Tau is S over
// the largest it could be, ties allowed for (Kendall's tau-b). Slope30 is in
// percent points per 30 days; season, low and high over the span of the flights,
// at the confidence that the interval achieves. All of these and p are absent
// where the flights are too few for a verdict.
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
	Word       string        `json:"word"`
	Contests   *ContestTrend `json:"contests,omitempty"`
	// WithoutZeros is season without the flights that have a zeroed figure.
	WithoutZeros report.Number `json:"withoutZeros,omitzero"`

	Gap float64
}

// ContestTrend is the second test, on contest means.
type ContestTrend struct {
	N    int           `json:"n"`
	S    int           `json:"s"`
	P    report.Number `json:"p,omitzero"`
	Word string        `json:"word"`
}

func TrendOf(t analysis.Trend, contests bool) Trend {
	d := Trend{
		N: t.N, S: t.S, Tau: report.Float(t.Tau), P: report.Float(t.P), Slope30: report.Float(t.Slope30), Season: report.Float(t.Season),
		Low: report.Float(t.Low), High: report.Float(t.High), Confidence: report.Float(t.Confidence),
		WithoutZeros: report.Float(t.WithoutZero), Word: string(t.Word), Gap: t.LongestGap,
	}
	if contests {
		d.Contests = &ContestTrend{t.Contests.N, t.Contests.S, report.Float(t.Contests.P), string(t.Contests.Word)}
	}
	return d
}
