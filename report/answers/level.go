package answers

import (
	"cmp"
	"slices"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/analysis/code"
	"boxbook/season/stats"
)

// Level is where a pilot stands now, in percents: the level of the contest
// flights of Category on the day On, which is AsOf or the last flight's where that
// is too long after it, with its range, the drift in points, the
// chance from 0 to 1 that there is none, and the range of the next flight. All of
// them are absent, with the reason, where too little was flown: Of flights at
// Contests. Reasons also has what qualifies the numbers.
type Level struct {
	Percent    report.Number `json:"percent,omitzero"`
	Low        report.Number `json:"low,omitzero"`
	High       report.Number `json:"high,omitzero"`
	Drift      report.Number `json:"drift,omitzero"`
	Steady     report.Number `json:"steady,omitzero"`
	Next       *Range        `json:"next,omitempty"`
	Of         int           `json:"of"`
	Contests   int           `json:"contests"`
	Category   string        `json:"category,omitempty"`
	AsOf       string        `json:"asof,omitempty"`
	On         string        `json:"on,omitempty"`
	Confidence report.Number `json:"confidence,omitzero"`
	Reason     code.Reason   `json:"reason,omitempty"`
	Qualified  []code.Reason `json:"qualified,omitempty"`
	Limits     LevelLimits   `json:"limits"`
}

// LevelLimits are the numbers that a level's sentences name: the days that are
// looked at, the least flights and contests, the days that a drift is for, and
// how often a range from the least contests held in simulation, from 0 to 1.
type LevelLimits struct {
	Days      int           `json:"days"`
	Flights   int           `json:"flights"`
	Contests  int           `json:"contests"`
	DriftDays int           `json:"driftDays"`
	HoldsLow  report.Number `json:"holdsLow"`
	HoldsHigh report.Number `json:"holdsHigh"`
}

func levelLimits() LevelLimits {
	holds := analysis.ThreeContestsHold
	return LevelLimits{
		Days: analysis.PresentDays, Flights: analysis.PresentFlights, Contests: analysis.PresentContests,
		DriftDays: stats.PresentUnit, HoldsLow: report.Float(holds.Low), HoldsHigh: report.Float(holds.High),
	}
}

// LevelOf is where a pilot stands on the day that stands for today.
func LevelOf(l *season.Ledger, p *season.Pilot) Level {
	return levelOf(analysis.PresentOf(l, p), l.AsOf)
}

// seasonLevel is where the pilot of a selection stands, for a season that is over
// on its last day; what else the selection leaves out changes nothing.
func seasonLevel(l *season.Ledger, s season.Selection) Level {
	return LevelOf(analysis.PresentAtEnd(l.KnownTo(s), s.Season), s.Pilot)
}

func levelOf(present analysis.Present, day season.Date) Level {
	d := Level{
		Of: len(present.Flights), Contests: present.Contests, Category: present.Category,
		Reason: present.Reason, Qualified: slices.Clone(present.Qualified()), Limits: levelLimits(),
	}
	level, known := present.Level()
	if !known {
		return d
	}
	d.Percent, d.Low, d.High = report.Float(level.Percent), report.Float(level.Low), report.Float(level.High)
	d.Drift, d.Steady = report.Float(level.Drift), report.Float(level.Steady)
	d.Next = &Range{report.Float(level.Next.Low), report.Float(level.Next.High)}
	d.AsOf = cmp.Or(day, present.On).String()
	d.On, d.Confidence = present.On.String(), report.Float(analysis.LevelConfidence)
	return d
}
