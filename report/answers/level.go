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

// Level is where a pilot stands now, in percents: the level of the contest flights
// of Category on the day On with its range, the drift in points, the chance from 0
// to 1 that the form is steady, and the range of the next flight. On is AsOf, or the
// last flight's day where that is too long ago. All of them are absent, with the
// reason, where too little was flown: Of flights at Contests. Qualified is what
// qualifies the numbers that there are.
type Level struct {
	Percent  report.Number `json:"percent,omitzero"`
	Low      report.Number `json:"low,omitzero"`
	High     report.Number `json:"high,omitzero"`
	Drift    report.Number `json:"drift,omitzero"`
	Steady   report.Number `json:"steady,omitzero"`
	Next     *Range        `json:"next,omitempty"`
	Of       int           `json:"of"`
	Contests int           `json:"contests"`
	Category string        `json:"category,omitempty"`
	// Catalogue is that of the sequences of these flights where others of the category,
	// Aside of them, are left out since they are of another; absent with them.
	Catalogue  string        `json:"catalogue,omitempty"`
	Aside      int           `json:"aside,omitempty"`
	AsOf       string        `json:"asof,omitempty"`
	Then       string        `json:"then,omitempty"` // the last day of the season that it is of, where that is an earlier one
	On         string        `json:"on,omitempty"`
	Confidence report.Number `json:"confidence,omitzero"`
	// Aircraft are those named by its flights, Unnamed the flights that name none, where
	// one aircraft gave way to another.
	Aircraft  int           `json:"aircraft,omitempty"`
	Unnamed   int           `json:"unnamed,omitempty"`
	Reason    code.Reason   `json:"reason,omitempty"`
	Qualified []code.Reason `json:"qualified,omitempty"`
	Limits    LevelLimits   `json:"limits"`
}

// LevelLimits are the numbers that a level's sentences name: the days that are
// looked at, the least flights and contests, the days that a drift is for, the
// most that a break counts and that a drift runs on, the days after which it is
// told for the last flight, the contests that need so many flights for a gate to
// be met, and how often a range from the least contests held in simulation, from
// 0 to 1.
type LevelLimits struct {
	Days        int           `json:"days"`
	Flights     int           `json:"flights"`
	Contests    int           `json:"contests"`
	DriftDays   int           `json:"driftDays"`
	BreakDays   int           `json:"breakDays"`
	RunOnDays   int           `json:"runOnDays"`
	StaleDays   int           `json:"staleDays"`
	MetContests int           `json:"metContests"`
	MetFlights  int           `json:"metFlights"`
	HoldsLow    report.Number `json:"holdsLow"`
	HoldsHigh   report.Number `json:"holdsHigh"`
}

// LevelDays are the days that a level is made of.
const LevelDays = analysis.PresentDays

func levelLimits() LevelLimits {
	holds := analysis.ThreeContestsHold
	return LevelLimits{
		Days: LevelDays, Flights: analysis.PresentFlights, Contests: analysis.PresentContests,
		DriftDays: stats.PresentUnit, BreakDays: stats.PresentBreak, RunOnDays: stats.PresentRunOn, StaleDays: analysis.StaleDays,
		MetContests: analysis.LeastDriftContests, MetFlights: analysis.LeastMetFlights, HoldsLow: report.Float(holds.Low), HoldsHigh: report.Float(holds.High),
	}
}

// LevelOf is where a pilot stands on the day that stands for today.
func LevelOf(l *season.Ledger, p *season.Pilot) Level {
	return levelOf(analysis.PresentOf(l, p), l.AsOf)
}

// seasonLevel is where the pilot of a selection stands: for an earlier season than
// the latest flown on its last day, else on the day that stands for today. What
// the selection leaves out changes nothing.
func seasonLevel(l *season.Ledger, s season.Selection) Level {
	l = l.KnownTo(s)
	if s.Season >= l.LatestSeason(season.Selection{Pilot: s.Pilot}) {
		return LevelOf(l, s.Pilot)
	}
	end := analysis.PresentAtEnd(l, s.Season)
	d := LevelOf(end, s.Pilot)
	if end.AsOf != l.AsOf {
		d.Then = end.AsOf.String()
	}
	return d
}

func levelOf(present analysis.Present, day season.Date) Level {
	d := Level{
		Of: len(present.Flights), Contests: present.Contests, Category: present.Category,
		Reason: present.Reason, Qualified: slices.Clone(present.Qualified()), Limits: levelLimits(),
	}
	m := present.Aircraft()
	d.Aircraft, d.Unnamed = m.Named, m.Unnamed
	d.AsOf = dayOf(cmp.Or(day, present.On))
	if d.Aside = present.Aside; d.Aside > 0 {
		d.Catalogue = present.Catalogue
	}
	level, known := present.Level()
	if !known {
		return d
	}
	d.Percent, d.Low, d.High = report.Float(level.Percent), report.Float(level.Low), report.Float(level.High)
	d.Drift, d.Steady = report.Float(level.Drift), report.Float(level.Steady)
	d.Next = &Range{report.Float(level.Next.Low), report.Float(level.Next.High)}
	d.On, d.Confidence = present.On.String(), report.Float(analysis.LevelConfidence)
	return d
}
