package answers

import (
	"slices"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/analysis/code"
)

// Plan is where practice pays, in JSON. Gains are percentage points of the sequence,
// their intervals of the confidence. Why says in words what was lacking where
// there are no items, which lack gives as it is.
type Plan struct {
	Pilot    string `json:"pilot"`
	Category string `json:"category,omitempty"`
	Flights  int    `json:"flights"`
	Days     int    `json:"days"`
	To       string `json:"to,omitempty"` // the last of them, where it is not today
	Sequence string `json:"sequence,omitempty"`
	// LatestKnown says that no sequence was asked for, and that this is the latest
	// known one of the category.
	LatestKnown bool          `json:"latestKnown,omitempty"`
	Confidence  report.Number `json:"confidence"`
	Items       []PlanItem    `json:"items"`
	// Folded are families that lie low only in figures of an item's family.
	Folded []PlanItem `json:"folded,omitempty"`
	// Catalogue is that of the flights' sequences where others of the category, LeftOut of
	// them, are left out since they are of another; absent with them.
	Catalogue string `json:"catalogue,omitempty"`
	LeftOut   int    `json:"leftOut,omitempty"`
	Why       string `json:"why,omitempty"`
	Lack      *Lack  `json:"lack,omitempty"`
	// Elsewhere is the category whose flights would be enough for a plan, where these
	// are too few; absent where none is.
	Elsewhere string    `json:"elsewhere,omitempty"`
	Zeros     PlanZeros `json:"zeros"`
	// Aside are the weak families that are none of the items.
	Aside []PlanAside `json:"aside,omitempty"`
	// LowFigures are the sequence's figures that lie below the pilot's other figures by
	// themselves and have the family of none of the items, lowest first.
	LowFigures []LowFigure `json:"lowFigures,omitempty"`
	// LowInItems are those of the low figures that have the family of an item, lowest first.
	LowInItems []LowFigure `json:"lowInItems,omitempty"`
	// Drilled is the fault that comes back most of those with an open drill: absent where
	// none does, and where an item says the same of it, not of a part of the flights.
	Drilled *FaultKind `json:"drilled,omitempty"`
	// Without are the faults that come back on which no drill is open.
	Without []FaultKind `json:"without"`
	// Unseen are the sequence's families that none of the flights has graded.
	Unseen []string `json:"unseen,omitempty"`
	// Uncoded are the numbers of the sequence's figures without a family, uncodedLost the
	// part between 0 and 1 that such figures have in the points lost in these flights.
	Uncoded     []int         `json:"uncoded,omitempty"`
	UncodedLost report.Number `json:"uncodedLost,omitzero"`
	NotFlown
	Open   []Open     `json:"open"`
	Limits PlanLimits `json:"limits"`
}

// PlanLimits are the thresholds that the sentences of a plan name: the chance from
// which a family may be weaker, the share of a sequence's K that is little, the
// confidence of the families' levels, and how many flights can tell a weaker family, as
// on the families' page.
type PlanLimits struct {
	MayBeWeak       report.Number `json:"mayBeWeak"`
	LittleK         report.Number `json:"littleK"`
	LevelConfidence report.Number `json:"levelConfidence"`
	Flights         int           `json:"flights"`
}

// PlanItem is one recommendation. Evidence is in words. Level, levelLow and
// levelHigh are the family's percent, gap what it lies above the pilot's other
// families and weakChance the chance that it lies below them, share its part of
// the sequence's K between 0 and 1, weakFigure a figure of the sequence that lies
// low by itself, last its own percent over the last ends flights with it, without
// zeroed figures as the level is, lostPerFlight points.
type PlanItem struct {
	Group     string        `json:"group"`
	Gain      report.Number `json:"gain"`
	Low       report.Number `json:"low"`
	High      report.Number `json:"high"`
	Evidence  string        `json:"evidence"`
	Level     report.Number `json:"level"`
	LevelLow  report.Number `json:"levelLow"`
	LevelHigh report.Number `json:"levelHigh"`
	Gap       report.Number `json:"gap"`
	Weak      bool          `json:"weak"`
	// WeakOne says that it lies as low, but is one figure of several sequences.
	WeakOne    bool          `json:"weakOne,omitempty"`
	WeakChance report.Number `json:"weakChance"`
	Of         []string      `json:"of"`
	// Different counts those of them that differ in what is flown.
	Different     int           `json:"different"`
	WeakFigure    string        `json:"weakFigure,omitempty"`
	Share         report.Number `json:"share"`
	Last          report.Number `json:"last,omitzero"`
	Ends          int           `json:"ends,omitempty"`
	Rising        bool          `json:"rising"`
	LostPerFlight report.Number `json:"lostPerFlight"`
	Figures       int           `json:"figures"`
	Fault         string        `json:"fault,omitempty"`
	// Untold is the fault of which too few flights since its drill tell whether it comes
	// back in the family, where nothing else does there; absent where there is none.
	Untold *FaultKind `json:"untold,omitempty"`
	Drill  string     `json:"drill,omitempty"`
	// SeenInFamily says in how many of the flights that could show it there, which
	// exposedInFamily counts, the fault was noted in the family since its latest
	// drill; seen and exposed the same of all families; since and text what the
	// drill is.
	SeenInFamily    int    `json:"seenInFamily,omitempty"`
	ExposedInFamily int    `json:"exposedInFamily,omitempty"`
	Seen            int    `json:"seen,omitempty"`
	Exposed         int    `json:"exposed,omitempty"`
	Since           string `json:"since,omitempty"`
	Text            string `json:"text,omitempty"`
	// BeforeDrill says that those flights are before the fault's latest drill: too few
	// since could show it.
	BeforeDrill bool `json:"beforeDrill,omitempty"`
	// Ended is the day on which the drill was ended, absent while it is open.
	Ended string `json:"ended,omitempty"`
	Apart bool   `json:"apart"`
	// Alike are the families with the same figures, LowWith those that it lies low with:
	// by the figures that have both.
	Alike   []string `json:"alike,omitempty"`
	LowWith []string `json:"lowWith,omitempty"`
}

// PlanZeros are the figures zeroed, in how many of the flights, and the points a
// flight that they cost, unknown where a flight has no other figure to go by.
type PlanZeros struct {
	Figures int           `json:"figures"`
	Flights int           `json:"flights"`
	Points  report.Number `json:"points,omitzero"`
	// Cost is the same over all these flights, in points, Percent in percent of the maximum
	// of each of the flights with one, on average, and Each over all the plan's flights.
	Cost    report.Number `json:"cost,omitzero"`
	Percent report.Number `json:"percent,omitzero"`
	Each    report.Number `json:"each,omitzero"`
	// Of are these figures by sequence, the one that was zeroed most often first.
	Of []OftenZeroed `json:"of,omitempty"`
}

// OftenZeroed is a figure of a sequence, as in known-26/8, that was zeroed so many times.
type OftenZeroed struct {
	Figure string `json:"figure"`
	Times  int    `json:"times"`
}

// PlanAside is a weak family that is none of the items, with its part of the
// sequence's K and the reason; why says it in words.
type PlanAside struct {
	Group      string        `json:"group"`
	Level      report.Number `json:"level"`
	WeakChance report.Number `json:"weakChance"`
	Share      report.Number `json:"share"`
	Reason     code.Reason   `json:"reason"`
	Why        string        `json:"why"`
}

// PlanItems is how many recommendations a plan has at the most.
const PlanItems = analysis.PlanItems

// PlanDays is how many days back the flights of a plan go.
const PlanDays = analysis.PresentDays

// PlanOf answers for a sequence, the latest known one of the pilot's category
// where none is given; of the selection the last day and the category count. Its
// sentences are made by words.SayPlan.
func PlanOf(l *season.Ledger, s season.Selection, sequence *season.Sequence) Plan {
	p := analysis.PlanOf(l, s, sequence)
	d := Plan{
		Pilot: p.Pilot.Handle, Category: p.Category, Flights: p.Flights, Days: PlanDays, To: seasonsEnd(l, s),
		Confidence: report.Float(analysis.PlanConfidence), Items: []PlanItem{},
		Zeros:   planZeros(p.Zeros),
		Without: kindsOf(p.Without), Unseen: p.Unseen, NotFlown: notFlownOf(p.NotFlown), Open: openOf(p.Open),
		Limits: PlanLimits{report.Float(analysis.MayBeWeak), report.Float(analysis.PlanLittleK), report.Float(analysis.FamilyConfidence), trendLimits().Flights},
	}
	if p.Sequence != nil {
		d.Sequence = p.Sequence.Handle
		d.Uncoded, d.UncodedLost = p.Bare, report.Float(p.BareLost)
		d.LatestKnown = sequence == nil && p.Sequence.Programme == season.Known
	}
	for _, item := range p.Items {
		d.Items = append(d.Items, planItemOf(item))
	}
	for _, item := range p.Folded {
		d.Folded = append(d.Folded, planItemOf(item))
	}
	if d.LeftOut = p.LeftOut; d.LeftOut > 0 {
		d.Catalogue = p.Catalogue
	}
	if p.Drilled != nil {
		said := func(i PlanItem) bool {
			return i.Fault == p.Drilled.Kind.Name && i.SeenInFamily == p.Drilled.Flights && i.ExposedInFamily == p.Drilled.Exposed
		}
		if !slices.ContainsFunc(d.Items, said) {
			d.Drilled = despiteOf(p.Drilled, p.DrilledBy)
		}
	}
	d.LowFigures, d.LowInItems = lowFiguresOf(p.LowElse), lowFiguresOf(p.LowItems)
	for _, a := range p.Aside {
		d.Aside = append(d.Aside, PlanAside{
			Group: a.Group, Level: report.Float(a.Shrunken), WeakChance: report.Float(a.WeakChance), Share: report.Float(a.Share), Reason: a.Reason,
		})
	}
	if len(d.Items) == 0 {
		d.Lack, d.Elsewhere = lackOf(p.Lack), p.Elsewhere
	}
	return d
}

// seasonsEnd is the last day of the selection's season where that is over, "" elsewhere.
func seasonsEnd(l *season.Ledger, s season.Selection) string {
	known := l.KnownTo(s)
	if end := analysis.PresentAtEnd(known, s.Season).AsOf; end != known.AsOf {
		return end.String()
	}
	return ""
}

func planItemOf(i analysis.PlanItem) PlanItem {
	g := groupOf(i.FamilyLine)
	d := PlanItem{
		Group: i.Group, Gain: report.Float(i.Gain), Low: report.Float(i.GainLow), High: report.Float(i.GainHigh),
		Level: g.Shrunken, LevelLow: g.Low, LevelHigh: g.High, Gap: g.Gap, Weak: g.Weak, WeakOne: g.WeakOne, WeakChance: g.WeakChance,
		Of: g.Of, Different: g.Different, Share: report.Float(i.Share), Last: report.Float(i.LastGraded), Ends: i.EndsGraded, Rising: i.Rising,
		LostPerFlight: g.LostPerFlight, Figures: i.Figures, Apart: i.Apart, Alike: g.Alike, LowWith: g.LowWith,
	}
	if i.LowHere != nil {
		d.WeakFigure = figureName(*i.LowHere)
	}
	if i.Recurring != nil {
		d.Fault, d.SeenInFamily, d.ExposedInFamily = i.Recurring.Kind.Name, i.Recurring.Flights, i.Recurring.Exposed
		d.BeforeDrill = i.Recurring.BeforeDrill
	}
	if i.Untold != nil {
		d.Untold = &kindsOf([]analysis.RecurringKind{*i.Untold})[0]
	}
	if i.Anywhere != nil {
		d.Seen, d.Exposed = i.Anywhere.Flights, i.Anywhere.Exposed
	}
	if i.Drill != nil {
		d.Drill, d.Since, d.Text = i.Drill.Target, i.Drill.Date.String(), i.Drill.Text
		d.Ended = dayOf(i.Ended)
	}
	return d
}

func planZeros(z analysis.PlanZeros) PlanZeros {
	d := PlanZeros{Figures: z.Figures, Flights: z.Flights, Points: report.Float(z.Points)}
	if z.Figures > 0 {
		d.Cost, d.Percent, d.Each = report.Float(z.Cost), report.Float(z.Percent), report.Float(z.Each)
	}
	for _, f := range z.Of {
		d.Of = append(d.Of, OftenZeroed{figureOf(f.Sequence, f.Number), f.Times})
	}
	return d
}
