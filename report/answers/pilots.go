package answers

import (
	"slices"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/analysis/code"
)

// Pilots is a line a pilot for a coach, in JSON. Caution is what gates cannot know,
// filled by words.SayPilots.
type Pilots struct {
	Pilots []PilotLine  `json:"pilots"`
	Limits PilotsLimits `json:"limits"`
	// Warnings are the ledger's: what check lists.
	Warnings int     `json:"warnings"`
	Drafts   []Draft `json:"drafts,omitempty"`  // on the home page alone
	Caution  string  `json:"caution,omitempty"` // where a pilot has a step
	// Club is on the home page of a ledger with the club's money and no flights.
	Club *ClubHome `json:"club,omitempty"`
}

// PilotsLimits are the thresholds that the notes of the page name: how many days
// back a flight waits for a review, and how many before something runs out it is
// said; and how many flights must have been reviewed to tell what comes back.
type PilotsLimits struct {
	ReviewDays  int `json:"reviewDays"`
	ExpiryDays  int `json:"expiryDays"`
	BackFlights int `json:"backFlights"`
}

// RecurringDays are how many days back what comes back is looked for.
const RecurringDays = analysis.RecurringDays

// PilotLine is one pilot. Review counts the flights with marks or a video that
// nobody went through, ToReview names them, the latest first, Flights the contest flights that count; Open counts the
// open matters. Word is the trend of the latest season in the category flown last,
// absent where no flight has a percent, Chance that in which chance alone gives a
// word that claims or may claim a change, absent with any other. Recurring is the kind of fault that comes
// back most, Says it in words, noted in Seen of Exposed flights since its latest
// drill; Drill is the target of the latest drill that is open, Drills those of all that are. Missing are the
// gates that keep the pilot, at From, from To, absent where no step is known; Titles are
// these gates in words, Untold those of them that cannot be told yet, InTheWay
// all of it in words. Reviewed counts the flights that what comes back rests on.
type PilotLine struct {
	Pilot     string    `json:"pilot"`
	Name      string    `json:"name"`
	Review    int       `json:"review"`
	ToReview  []string  `json:"toReview"`
	Category  string    `json:"category,omitempty"`
	Flights   int       `json:"flights"`
	LastFlown string    `json:"lastFlown,omitempty"`
	Word      TrendWord `json:"word,omitempty"`
	// WordReason says which lack a trend with too little to tell has.
	WordReason TrendReason   `json:"wordReason,omitempty"`
	Chance     report.Number `json:"chance,omitzero"`
	Aircraft   int           `json:"aircraft,omitempty"` // that a change which the word names was flown in
	// Longer is the trend over several seasons where the latest has none of its own;
	// Form is the trend in words, filled by words.SayPilots.
	Longer *LongTrend `json:"longer,omitempty"`
	Form   string     `json:"form,omitempty"`
	// Level is where the pilot stands now, as on the season's page.
	Level     Level  `json:"level"`
	Recurring string `json:"recurring,omitempty"`
	Says      string `json:"says,omitempty"`
	Seen      int    `json:"seen,omitempty"`
	Exposed   int    `json:"exposed,omitempty"`
	// BeforeDrill says that these are flights before its latest drill: too few since
	// could show it.
	BeforeDrill bool `json:"beforeDrill,omitempty"`
	// Undrilled says that no drill is open on it, whatever Drills are; DrillEnded is the day
	// on which the latest ended.
	Undrilled  bool   `json:"undrilled,omitempty"`
	DrillEnded string `json:"drillEnded,omitempty"`
	// TooEarly is the fault of which too few flights since its drill tell whether it comes
	// back, where nothing else does; absent where there is none.
	TooEarly *FaultKind `json:"tooEarly,omitempty"`
	Drill    string     `json:"drill,omitempty"`
	Drills   []string   `json:"drills"`
	From     string     `json:"from,omitempty"`
	To       string     `json:"to,omitempty"`
	Missing  []string   `json:"missing"`
	Titles   []string   `json:"titles"`
	Untold   []string   `json:"untold"`
	InTheWay string     `json:"inTheWay,omitempty"`
	Reviewed int        `json:"reviewed"`
	Open     int        `json:"open"`
	Expires  []Expiry   `json:"expires"`
	// Result is as on the home page.
	Result *LastResult `json:"result,omitempty"`
}

// PilotsOf has a line for every pilot of the ledger, in the order of definition.
// The gates' titles are filled by words.SayPilots.
func PilotsOf(l *season.Ledger) Pilots {
	d := Pilots{Pilots: make([]PilotLine, len(l.Pilots)), Limits: PilotsLimits{analysis.ReviewDays, analysis.ExpiryDays, analysis.RecurringFlights}}
	season.SideBySide(len(l.Pilots), func(i int) { d.Pilots[i] = pilotLineOf(l, l.Pilots[i]) })
	return d
}

func pilotLineOf(l *season.Ledger, p *season.Pilot) PilotLine {
	h, ahead := analysis.HomeOf(l, p), analysis.AheadOf(l, p)
	d := PilotLine{
		Pilot: p.Handle, Name: p.Name, Review: len(h.Review), ToReview: []string{}, Category: ahead.Category, Flights: h.Flights,
		Open: len(analysis.OpenMatters(l, p)), Result: lastResultOf(h), Missing: []string{}, Titles: []string{}, Untold: []string{}, Reviewed: h.Reviewed, Level: LevelOf(l, p),
	}
	d.Word, d.WordReason, d.Chance, d.Aircraft, d.Longer = formOf(l, p, h)
	for _, f := range slices.Backward(h.Review) {
		d.ToReview = append(d.ToReview, f.Name)
	}
	if h.LastFlown != nil {
		d.LastFlown = h.LastFlown.Date.String()
	}
	returning := analysis.ComesBackOrUntold(l, p)
	if back := returning.Back; len(back) > 0 {
		d.Recurring, d.Says, d.Seen, d.Exposed = back[0].Kind.Name, back[0].Kind.Says, back[0].Flights, back[0].Exposed
		d.BeforeDrill, d.Undrilled = back[0].BeforeDrill, len(analysis.Without(back[:1])) > 0
		d.DrillEnded = dayOf(back[0].Ended)
	} else if len(returning.Untold) > 0 {
		d.TooEarly = &kindsOf(returning.Untold)[0]
	}
	if d.Drills = openDrills(l, p); len(d.Drills) > 0 {
		d.Drill = d.Drills[0]
	}
	d.missing(l, p)
	_, d.Expires = aheadIn(ahead)
	return d
}

// openDrills are the targets of a pilot's open drills, the latest first.
func openDrills(l *season.Ledger, p *season.Pilot) []string {
	targets := []string{}
	for _, drill := range analysis.OpenDrills(l, p) {
		targets = append(targets, drill.Target)
	}
	return targets
}

// missing fills in what keeps a pilot from the next category, by the house's
// policy: the states of the gates alone.
func (d *PilotLine) missing(l *season.Ledger, p *season.Pilot) {
	policy := l.PolicyNamed(season.HousePolicy)
	if policy == nil {
		return
	}
	if r := analysis.GateStatesOf(l, p, policy); r.From != "" && r.To != "" {
		d.From, d.To, d.Missing = r.From, r.To, listOf(r.Missing)
		for _, g := range r.Gates {
			if g.State == code.CannotTell && slices.Contains(r.Missing, g.Name) {
				d.Untold = append(d.Untold, g.Name)
			}
		}
	}
}

// formOf is the trend's word of the latest season, in the category flown last of
// those with a percent, "" where none has one; why there is no more to it; the chance
// of a change that it names, with the number of aircraft that it was flown in; and the trend
// over several seasons where it names none.
func formOf(l *season.Ledger, p *season.Pilot, h analysis.Home) (word TrendWord, why TrendReason, chance report.Number, aircraft int, longer *LongTrend) {
	if h.LastFlown == nil {
		return "", "", report.Number{}, 0, nil
	}
	chosen := season.Selection{Pilot: p, Season: l.SeasonStart.Season(h.LastFlown.Date)}
	flown := analysis.SeasonOf(l, chosen)
	trends := flown.Trends()
	category := ""
	for _, line := range flown.Lines {
		for _, t := range trends {
			if line.Enters() && t.Category == line.Flight.Category {
				word, why, chance, category = t.Trend.Word, t.Trend.Reason, chanceOf(t.Trend), t.Category
			}
		}
	}
	if chance.Known() {
		aircraft = flown.AircraftIn(category)
	}
	return word, why, chance, aircraft, longTrendOf(l, chosen, flown, trends)
}

// chanceOf is the larger chance of a trend's tests, not known where it names no
// change.
func chanceOf(t analysis.Trend) report.Number {
	switch t.Word {
	case analysis.Improving, analysis.Declining, analysis.MayImprove, analysis.MayDecline:
		return TrendChance(trendOf(t, true))
	default:
		return report.Number{}
	}
}
