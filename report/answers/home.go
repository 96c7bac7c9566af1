package answers

import (
	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/analysis/code"
)

// Home is what a pilot should know first, in JSON. Recurring and Without are as in
// Faults, Seasons the latest season and the one before it, Owes what the pilot owes
// and is owed. LastFlown is the day of the latest flight of any kind, DaysSince how
// long that is ago. Next is the command to look at next, NextWhy what it shows.
// Caution is what a verdict on the step cannot know, filled by words.SayHome.
type Home struct {
	Pilot    string      `json:"pilot"`
	Name     string      `json:"name"`
	Category string      `json:"category,omitempty"`
	Open     []Open      `json:"open"`
	Last     *LastFlight `json:"last,omitempty"`
	// Result is the latest contest result without a flight, absent where a contest flight
	// is later.
	Result  *LastResult `json:"result,omitempty"`
	Seasons []SeasonSum `json:"seasons"`
	// Word is the trend of the latest season, Trended, in the category flown last;
	// Chance that in which chance alone gives a word that claims or may claim a change.
	Word       TrendWord     `json:"word,omitempty"`
	WordReason TrendReason   `json:"wordReason,omitempty"`
	Chance     report.Number `json:"chance,omitzero"`
	Aircraft   int           `json:"aircraft,omitempty"` // that a change which the word names was flown in
	Trended    int           `json:"trended,omitempty"`
	// Longer is the trend over several seasons where the latest has none of its own.
	Longer    *LongTrend  `json:"longer,omitempty"`
	Recurring []FaultKind `json:"recurring"`
	Reviewed  int         `json:"reviewed"` // flights that what comes back rests on
	Without   []FaultKind `json:"without"`
	Untold    []FaultKind `json:"untold,omitempty"` // as in Faults
	Drills    []string    `json:"drills"`           // targets of the open drills, the latest first
	// Drilled is what comes back most of those with an open drill; absent where none does.
	Drilled *FaultKind `json:"drilled,omitempty"`
	Step    *Step      `json:"step,omitempty"`
	// Waits are the contest flights that have no result until a ruling is recorded, the
	// latest one apart.
	Waits     []string       `json:"waits,omitempty"`
	LastFlown string         `json:"lastFlown,omitempty"`
	LastVoid  bool           `json:"lastVoid,omitempty"`
	DaysSince *int           `json:"daysSince,omitempty"`
	Programme string         `json:"programme,omitempty"` // of the latest flight
	Contests  []ContestAhead `json:"contests"`
	Expires   []Expiry       `json:"expires"`
	Owes      []Payment      `json:"owes"`
	Warnings  int            `json:"warnings"` // of the ledger: what check lists
	Drafts    []Draft        `json:"drafts,omitempty"`
	// PlanCategory is the category to ask a plan of, where the flights of the present one
	// are too few; absent where they are enough, or none are.
	PlanCategory string     `json:"planCategory,omitempty"`
	Planned      bool       `json:"planned"` // flights with marks are enough for a plan
	Next         string     `json:"next"`
	NextWhy      string     `json:"nextWhy"`
	Limits       HomeLimits `json:"limits"`
	Caution      string     `json:"caution,omitempty"` // beside a step
	// Club is where the ledger has the club's money and no flights.
	Club *ClubHome `json:"club,omitempty"`
}

// HomeLimits are the thresholds that the sentences of a home page name: how many
// days before something runs out it is said, how far back faults are counted, and
// how many contest flights a plan needs.
type HomeLimits struct {
	ExpiryDays int `json:"expiryDays"`
	Days       int `json:"days"`
	Flights    int `json:"flights"`
}

// LastFlight is the latest contest flight that counts. Before is the percent of the
// contest flight before it, BeforeCategory its category where that is another;
// SeasonMean the mean of its season. Undecided says that a figure waits for a ruling.
type LastFlight struct {
	OfficialBeside
	Date           string        `json:"date"`
	Contest        string        `json:"contest,omitempty"`
	Programme      string        `json:"programme"`
	Percent        report.Number `json:"percent,omitzero"`
	Place          int           `json:"place,omitempty"`
	Of             int           `json:"of,omitempty"`
	Before         report.Number `json:"before,omitzero"`
	BeforeCategory string        `json:"beforeCategory,omitempty"`
	SeasonMean     report.Number `json:"seasonMean,omitzero"`
	Undecided      bool          `json:"undecided,omitempty"`
	Marked         bool          `json:"marked"` // it has marks, not a printed total alone
	// Differs are the pilot's other flights at its contest whose official total differs
	// from the marks, the earliest first; absent where none does.
	Differs []OfficialBeside `json:"differs,omitempty"`
}

// OfficialBeside says how a flight's official total lies to the marks, OfficialWhy what
// qualifies that, Difference by how much they disagree where both are out of one maximum;
// OfficialMaximum and Maximum are the printed one and the sequence's where they differ.
type OfficialBeside struct {
	Flight      string        `json:"flight"`
	Official    OfficialState `json:"official"`
	OfficialWhy OfficialWhy   `json:"officialWhy,omitempty"`
	Difference  report.Number `json:"difference,omitzero"`
	// DifferenceShown is that of the points as they are shown.
	DifferenceShown report.Number `json:"differenceShown,omitzero"`
	OfficialMaximum report.Number `json:"officialMaximum,omitzero"`
	Maximum         report.Number `json:"maximum,omitzero"`
}

// officialBeside compares a flight's official total with its marks.
func officialBeside(f *season.Flight) OfficialBeside {
	d := OfficialBeside{Flight: f.Name}
	if d.Official, d.OfficialWhy = analysis.OfficialOf(f); d.OfficialWhy == OfficialMaximum {
		d.OfficialMaximum, d.Maximum = report.Exact(f.Official.Maximum.Rat()), report.Int(int64(f.Maximum()))
	}
	if gap := f.Disputed(); gap != nil {
		d.Difference = report.Exact(gap)
		d.DifferenceShown = lessShown(f, d.Difference)
	}
	return d
}

// OfficialWhy is what qualifies the state of an official total.
type OfficialWhy = analysis.OfficialWhy

// What qualifies it.
const (
	OfficialMaximum    = analysis.OfficialMaximum
	OfficialPercent    = analysis.OfficialPercent
	OfficialOneEnd     = analysis.OfficialOneEnd
	OfficialNeitherEnd = analysis.OfficialNeitherEnd
	OfficialSheets     = analysis.OfficialSheets
	OfficialMarks      = analysis.OfficialMarks
)

// LastResult is a contest's typed result of a pilot, of which no flight is in the ledger.
type LastResult struct {
	Contest string        `json:"contest"`
	Name    string        `json:"name"`
	Date    string        `json:"date"`
	Percent report.Number `json:"percent,omitzero"`
	Place   int           `json:"place,omitempty"`
	Of      int           `json:"of,omitempty"`
}

func lastResultOf(h analysis.Home) *LastResult {
	c := h.Result
	if c == nil {
		return nil
	}
	return &LastResult{c.Contest.Handle, c.Contest.Name, c.Contest.First.String(), report.Exact(c.Result.Percent), c.Rank, c.Of}
}

// OfficialState says how an official total lies to the marks.
type OfficialState = analysis.OfficialState

// The states of an official total.
const (
	OfficialNone     = analysis.OfficialNone
	OfficialAgrees   = analysis.OfficialAgrees
	OfficialDiffers  = analysis.OfficialDiffers
	OfficialUnproven = analysis.OfficialUnproven
)

// SeasonSum is a season in a line: its contest flights with a percent, in the
// categories flown, their mean and the best, absent where there are none.
type SeasonSum struct {
	Season     int           `json:"season"`
	Flights    int           `json:"flights"`
	Mean       report.Number `json:"mean,omitzero"`
	Best       report.Number `json:"best,omitzero"`
	Categories []string      `json:"categories"`
}

// Draft is an entry that was begun at a terminal and not written into the ledger: its
// kind, the day on which it was last typed in, and what was typed of whose it is, the
// flight that it is about or its own day and pilot. One that was set aside is gone on with
// by its file alone.
type Draft struct {
	Kind   string `json:"kind"`
	Typed  string `json:"typed"`
	Flight string `json:"flight,omitempty"`
	Date   string `json:"date,omitempty"`
	Pilot  string `json:"pilot,omitempty"`
	Aside  bool   `json:"aside,omitempty"`
}

// Step is what keeps a pilot from the next category, by the house's policy: the
// gates that count and are not met, as the page of readiness has them.
type Step struct {
	From    string         `json:"from"`
	To      string         `json:"to"`
	Verdict code.GateState `json:"verdict"`
	Missing []string       `json:"missing"`
	Gates   []Gate         `json:"gates"`
}

// HomeOf is the home page of a pilot on the day that stands for today. Its
// sentences are made by words.SayHome. The error is for books that do not add up,
// which is a fault of the program.
func HomeOf(l *season.Ledger, p *season.Pilot) (Home, error) {
	h, ahead := analysis.HomeOf(l, p), analysis.AheadOf(l, p)
	var returning analysis.Returning
	var step *Step
	var drilled *FaultKind
	season.Together(func() { step = stepOf(l, p) }, func() {
		returning = analysis.ComesBackOrUntold(l, p)
		drilled = despiteOf(analysis.Despite(l, returning.Back))
	})
	back := returning.Back
	d := Home{
		Pilot: p.Handle, Name: p.Name, Category: ahead.Category, Open: openOf(analysis.OpenMatters(l, p)), Last: lastFlightOf(l, h), Result: lastResultOf(h), Seasons: []SeasonSum{},
		Recurring: kindsOf(back[:min(analysis.RecurringNamed, len(back))]), Reviewed: h.Reviewed, Waits: flightNames(h.Waits), Without: kindsOf(analysis.Without(back)), Untold: kindsOf(returning.Untold), Drills: openDrills(l, p),
		Step: step, Drilled: drilled, Owes: []Payment{},
		Limits: HomeLimits{analysis.ExpiryDays, analysis.RecurringDays, analysis.PlanFlights},
	}
	d.PlanCategory, d.Planned = analysis.PlanCategory(l, p)
	for _, s := range h.Seasons {
		d.Seasons = append(d.Seasons, SeasonSum{s.Season, s.Flights, report.Exact(s.Mean), report.Exact(s.Best), listOf(s.Categories)})
	}
	if d.Word, d.WordReason, d.Chance, d.Aircraft, d.Longer = formOf(l, p, h); d.Word != "" {
		d.Trended = l.SeasonStart.Season(h.LastFlown.Date)
	}
	if h.LastFlown != nil {
		d.LastFlown, d.Programme, d.LastVoid = h.LastFlown.Date.String(), string(h.LastFlown.Programme), !h.LastFlown.Counts()
		if l.AsOf != 0 {
			days := int(l.AsOf - h.LastFlown.Date)
			d.DaysSince = &days
		}
	}
	d.Contests, d.Expires = aheadIn(ahead)
	owing, err := analysis.Owing(l, season.Party{Pilot: p})
	for _, payment := range owing {
		d.Owes = append(d.Owes, paymentOf(payment))
	}
	return d, err
}

func lastFlightOf(l *season.Ledger, h analysis.Home) *LastFlight {
	f := h.Last
	if f == nil {
		return nil
	}
	d := &LastFlight{
		OfficialBeside: officialBeside(f), Date: f.Date.String(), Programme: string(f.Programme), Percent: report.Exact(f.Record().Percent), Place: f.Rank, Of: f.Of,
		Marked: f.HasMarks(), Undecided: f.HasMarks() && !f.Score().Decided(),
	}
	if f.Contest != nil {
		d.Contest = f.Contest.Name
	}
	for _, other := range h.Differs {
		d.Differs = append(d.Differs, officialBeside(other))
	}
	if b := h.Before; b != nil {
		d.Before = report.Exact(b.Record().Percent)
		if b.Category != f.Category {
			d.BeforeCategory = b.Category
		}
	}
	for _, s := range h.Seasons {
		if s.Season == l.SeasonStart.Season(f.Date) {
			d.SeasonMean = report.Exact(s.Mean)
		}
	}
	return d
}

// stepOf is what keeps a pilot from the next category; nil where no step is known.
func stepOf(l *season.Ledger, p *season.Pilot) *Step {
	policy := l.PolicyNamed(season.HousePolicy)
	if policy == nil {
		return nil
	}
	r := analysis.ReadinessOf(l, p, policy, nil, "")
	if r.From == "" || r.To == "" {
		return nil
	}
	d := &Step{From: r.From, To: r.To, Verdict: r.Verdict, Missing: listOf(r.Missing), Gates: []Gate{}}
	for _, g := range r.Gates {
		if g.Counts && g.State != code.Met {
			d.Gates = append(d.Gates, gateOf(g))
		}
	}
	return d
}
