package analysis

import (
	"math"
	"slices"

	"boxbook/season"
	"boxbook/season/analysis/code"
	"boxbook/season/stats"
)

// The rules of where a pilot stands now.
const (
	// PresentDays are looked at: two seasons, up to the day that it is for.
	PresentDays = 730
	// PresentFlights and PresentContests are the least that a level is told from.
	PresentFlights  = stats.PresentLeast
	PresentContests = 3
	// LeastDriftContests are the fewest that can show a drift; with that many, a
	// gate is met from LeastMetFlights on.
	LeastDriftContests = 4
	LeastMetFlights    = 8
	// StaleDays after the last flight, or more than half of what lies between the
	// first and the last, a level is told as it was on the day of the last.
	StaleDays = 90
	// LevelConfidence is that of the ranges of a level and of the next flight.
	LevelConfidence = 0.80
)

// ThreeContestsHold is how often, in simulated seasons, the 80 % range of the
// next flight held it where it rested on three contests: from and to.
var ThreeContestsHold = stats.Interval{Low: .70, High: .86}

// Present is where a pilot stands now: one series of flights and one fit of it,
// read by whoever asks for the level, the next flight or a share of flights.
type Present struct {
	// Category is the series' own; Flights are it, in order of time, of so many
	// Contests, a flight without one being a contest by itself.
	Category string
	Flights  []*season.Flight
	Contests int
	// Catalogue is that of the series' sequences, and Aside counts the flights that would be
	// of it but for theirs.
	Catalogue string
	Aside     int
	// On is the day that it is for. Stale says that today is too long after the
	// last flight, and that it is that flight's.
	On    season.Date
	Stale bool
	// Same says that every flight scored the same.
	Same bool
	// Reason is why nothing is known: FewFlights or FewContests; "" where Fit is.
	Reason code.Reason
	Fit    *stats.Present
}

// PresentOf is where a pilot stands on the ledger's AsOf, in the present category.
func PresentOf(l *season.Ledger, p *season.Pilot) Present {
	return PresentIn(l, p, PresentCategory(l, p))
}

// PresentFor is the same by the flights of a sequence's catalogue.
func PresentFor(l *season.Ledger, p *season.Pilot, seq *season.Sequence) Present {
	return presentIn(l, p, PresentCategory(l, p), &seq.Catalogue)
}

// PresentIn is the same in any category: no flag that narrows a page narrows it.
func PresentIn(l *season.Ledger, p *season.Pilot, category string) Present {
	return presentIn(l, p, category, nil)
}

// presentIn is the same in a catalogue, for nil in that of the latest flight.
func presentIn(l *season.Ledger, p *season.Pilot, category string, catalogue *string) Present {
	all := presentOfAll(l, p, category, l.AsOf)
	if catalogue == nil {
		catalogue = catalogueOf(all)
	}
	flights := ofCatalogue(all, catalogue)
	o := Present{Category: category, Flights: flights, Contests: contestsOf(flights), Aside: len(all) - len(flights)}
	if catalogue != nil {
		o.Catalogue = *catalogue
	}
	o.On, o.Stale = presentDay(flights, l.AsOf)
	switch {
	case len(flights) < PresentFlights:
		o.Reason = code.FewFlights
		return o
	case o.Contests < PresentContests:
		o.Reason = code.FewContests
		return o
	}
	percents := recordPercents(flights)
	o.Same = slices.Min(percents) == slices.Max(percents)
	fit, err := stats.NewPresent(presentSeries(flights, percents, o.On))
	if err != nil {
		o.Reason = code.NoRange
		return o
	}
	o.Fit = fit
	return o
}

// PresentCategory is the category that stands highest, in the ladder of the
// latest contest flight, of those flown in a contest in PresentDays up to the
// ledger's AsOf; of those that are in no ladder the latest, "" where none is.
func PresentCategory(l *season.Ledger, p *season.Pilot) string {
	var ladder *season.Ladder
	flown := slices.DeleteFunc(l.Select(presentDays(p, l.AsOf)), func(f *season.Flight) bool {
		return !f.Counts() || !f.Contested() || f.Category == "" || l.AsOf != 0 && l.AsOf-f.Date > PresentDays
	})
	if len(flown) > 0 {
		ladder = flown[len(flown)-1].Ladder
	}
	return highestFlown(flown, ladder)
}

// presentDays are a pilot's flights in PresentDays up to a day, all of them for 0.
func presentDays(p *season.Pilot, day season.Date) season.Selection {
	s := season.Selection{Pilot: p, Until: day}
	if day != 0 {
		s.Since = day - PresentDays
	}
	return s
}

// highestFlown is the category of flights that stands highest in a ladder; of
// those that are in no ladder the latest, "" without a flight.
func highestFlown(flights []*season.Flight, ladder *season.Ladder) string {
	category, highest := "", -1
	for _, f := range flights {
		if step := stepOf(ladder, f.Category); step >= highest {
			category, highest = f.Category, step
		}
	}
	return category
}

// stepOf is where a category stands in a ladder, -1 where it does not.
func stepOf(ladder *season.Ladder, category string) int {
	if ladder == nil {
		return -1
	}
	return slices.IndexFunc(ladder.Categories, func(c season.Category) bool { return c.Name == category })
}

// catalogueOf is that of the latest flight whose sequence is known, nil where none's is.
func catalogueOf(flights []*season.Flight) *string {
	for _, f := range slices.Backward(flights) {
		if f.Sequence != nil {
			return &f.Sequence.Catalogue
		}
	}
	return nil
}

// ofCatalogue are the flights of a catalogue, all for nil; one without a sequence is of no
// other. What flies power and gliders at one category flies two.
func ofCatalogue(flights []*season.Flight, catalogue *string) []*season.Flight {
	return slices.DeleteFunc(slices.Clone(flights), func(f *season.Flight) bool {
		return catalogue != nil && f.Sequence != nil && f.Sequence.Catalogue != *catalogue
	})
}

// presentOfAll are the series of all catalogues on a day, 0 for that of the last flight: the
// contest flights of a category that have a result, in PresentDays up to it.
func presentOfAll(l *season.Ledger, p *season.Pilot, category string, day season.Date) []*season.Flight {
	flights := slices.DeleteFunc(l.Select(presentDays(p, day)), func(f *season.Flight) bool {
		return f.Category != category || category == "" || !f.Counts() || !f.Contested() || !f.HasPercent()
	})
	if len(flights) == 0 {
		return nil
	}
	if day == 0 {
		day = flights[len(flights)-1].Date
	}
	return slices.DeleteFunc(flights, func(f *season.Flight) bool { return day-f.Date > PresentDays })
}

// presentDay is the day that a level of these flights is told for on a day, and
// whether it is that of the last flight because the day itself is too long after
// it.
func presentDay(flights []*season.Flight, day season.Date) (on season.Date, stale bool) {
	if len(flights) == 0 {
		return day, false
	}
	first, last := flights[0].Date, flights[len(flights)-1].Date
	after := day - last
	switch {
	case day == 0:
		return last, false
	case after > StaleDays || 2*after > last-first:
		return last, true
	}
	return day, false
}

// presentSeries are values of flights, one each, as the model of the present
// takes them on a day.
func presentSeries(flights []*season.Flight, values []float64, day season.Date) stats.PresentSeries {
	s := stats.PresentSeries{Values: values}
	var days []int
	groups := map[string]int{}
	for _, f := range flights {
		key := ContestKey(f)
		if _, seen := groups[key]; !seen {
			groups[key] = len(groups)
		}
		s.Groups, days = append(s.Groups, groups[key]), append(days, int(f.Date))
	}
	s.Walk, s.Slope = stats.PresentClock(days, int(day))
	return s
}

// contestsOf counts the contests of flights.
func contestsOf(flights []*season.Flight) int {
	contests := map[string]bool{}
	for _, f := range flights {
		contests[ContestKey(f)] = true
	}
	return len(contests)
}

// recordPercents are the percents of the flights' records.
func recordPercents(flights []*season.Flight) []float64 {
	percents := make([]float64, len(flights))
	for i, f := range flights {
		percents[i], _ = f.Record().Percent.Float64()
	}
	return percents
}

// Level is what a Present comes to in percents, each within 0..100: the level
// with its range, the drift in points for stats.PresentUnit days, the chance that
// there is none, and the range of the next flight.
type Level struct {
	Percent, Low, High, Drift, Steady float64
	Next                              stats.Interval
}

// Level is where the pilot stands; it reports false where nothing is known.
func (o Present) Level() (Level, bool) {
	if o.Fit == nil {
		return Level{}, false
	}
	level, err := o.Fit.Level().Central(LevelConfidence)
	if err != nil {
		return Level{}, false
	}
	next, err := o.Fit.Next().Central(LevelConfidence)
	if err != nil {
		return Level{}, false
	}
	level = level.Clip(0, 100)
	return Level{
		Percent: clip(o.Fit.Level().Mean(), 0, 100), Low: level.Low, High: level.High,
		Drift: o.Fit.Drift, Steady: o.Fit.Steady, Next: next.Clip(0, 100),
	}, true
}

// Qualified are the reasons that qualify what is known.
func (o Present) Qualified() []code.Reason {
	var reasons []code.Reason
	for _, of := range []struct {
		holds bool
		why   code.Reason
	}{
		{o.Fit != nil && o.Contests < LeastDriftContests, code.NoDriftSeen},
		{o.Fit != nil && o.Stale, code.TooLongAfter},
		{o.Fit != nil && o.Same, code.SameScore},
	} {
		if of.holds {
			reasons = append(reasons, of.why)
		}
	}
	return reasons
}

// Share is how a Present lies to a mark: the chance that the next flight reaches
// it, the ends of the share of flights that do at the present level, and the
// chance that this share is at least the one wanted.
type Share struct {
	Next      float64
	Low, High float64
	Sure      float64
	State     code.GateState
	// Few says that too few contests and flights keep the state from being met.
	Few bool
	// CountDiffers says that the plain count keeps the state open: of so many flights
	// Expected would reach the mark by the level, and clearly more or fewer did.
	CountDiffers bool
	Expected     int
	// SureMoving is, of a state that is met, how sure it would be if the form is
	// known not to be steady: a fall that is only beginning hides among the weight
	// that steady form has before any flight. NaN where it was not asked.
	SureMoving float64
}

// Doubted reports whether what is met would not be, were the form known to move.
func (s Share) Doubted() bool { return s.SureMoving < 1-(1-ShareConfidence)/2-roundedAway }

// ShareAt asks for the share at a mark; it reports false where nothing is known.
// The state is met where the share is surely the one wanted, not met where it is
// surely less.
func (o Present) ShareAt(mark, want float64) (Share, bool) {
	s, above, known := o.stateAt(mark, want)
	if !known {
		return Share{}, false
	}
	ends, err := above.Ends(ShareConfidence)
	s.Low, s.High = ends.Low, ends.High
	return s, err == nil
}

// stateAt is ShareAt without the ends of the share, which its state does not lean
// on and which cost most of it.
func (o Present) stateAt(mark, want float64) (Share, stats.PresentShare, bool) {
	if o.Fit == nil {
		return Share{}, stats.PresentShare{}, false
	}
	above, err := o.Fit.ShareAbove(mark)
	if err != nil {
		return Share{}, above, false
	}
	sure, err := above.AtLeast(want)
	if err != nil {
		return Share{}, above, false
	}
	s := Share{Next: o.Fit.Next().AtLeast(mark), Low: math.NaN(), High: math.NaN(), Sure: sure, State: code.CannotTell, SureMoving: math.NaN()}
	beyond := (1 - ShareConfidence) / 2
	switch {
	case sure <= beyond+roundedAway:
		s.State = code.NotMet
	case sure >= 1-beyond-roundedAway && o.fewToBeMet():
		s.Few = true
	case sure >= 1-beyond-roundedAway:
		s.State = code.Met
		s.SureMoving = o.sureMoving(mark, want)
	}
	if s.State != code.CannotTell && o.countDiffers(mark, want, above.Expected(), s.State) {
		s.State, s.CountDiffers, s.SureMoving = code.CannotTell, true, math.NaN()
		s.Expected = int(math.Round(above.Expected() * float64(len(o.Flights))))
	}
	return s, above, true
}

// CountOdd is how rarely so far a count lies from what a level lets expect, one-sided,
// for the count to stand against it.
const CountOdd = 0.2

// countDiffers reports whether the count of the flights does not bear a state out,
// and lies beyond what the level lets expect: flights in two heaps, half of them with
// a zero, say, have a mean that few of them are near. A count over a form that moves
// is none of the present and says nothing. In simulated seasons of two heaps, 3 points
// below and 23 above the mark, it brings the gates met at a true half from 35 to 95 %
// down to 3 to 12 %; of those met at a steady 85 % it costs 2 in 100 [derived].
func (o Present) countDiffers(mark, want, expected float64, state code.GateState) bool {
	if o.Fit.Steady < .5 || want <= 0 || want >= 1 {
		return false
	}
	together := 1 + (float64(len(o.Flights))/float64(o.Contests)-1)*o.Fit.Rho // flights of a contest are alike
	n, reached := float64(len(o.Flights))/together, float64(o.reached(mark))/together
	if state == code.NotMet { // the same, of the flights that fall short
		reached, want, expected = n-reached, 1-want, 1-expected
	}
	return stats.AtMostOf(reached, n, expected) <= CountOdd && stats.AtLeastOf(reached, n, want) > (1-ShareConfidence)/2
}

// sureMoving is the chance of the share if the form is not steady.
func (o Present) sureMoving(mark, want float64) float64 {
	moving, ok := o.Fit.Moving()
	if !ok {
		return math.NaN()
	}
	above, err := moving.ShareAbove(mark)
	if err != nil {
		return math.NaN()
	}
	sure, err := above.AtLeast(want)
	if err != nil {
		return math.NaN()
	}
	return sure
}

// roundedAway is what the arithmetic of a chance may lose.
const roundedAway = 1e-9

// fewToBeMet reports whether a gate may not be met by so few contests.
func (o Present) fewToBeMet() bool {
	return o.Contests < LeastDriftContests || o.Contests == LeastDriftContests && len(o.Flights) < LeastMetFlights
}

// reached counts the flights of the series at or above a mark.
func (o Present) reached(mark float64) int {
	n := 0
	for _, percent := range recordPercents(o.Flights) {
		if percent >= mark {
			n++
		}
	}
	return n
}

// PresentAtEnd is the ledger as of a season's last day, the ledger itself where
// the season is not over or is 0: where a pilot stood then.
func PresentAtEnd(l *season.Ledger, year int) *season.Ledger {
	if year == 0 {
		return l
	}
	return l.KnownTo(season.Selection{Until: l.SeasonStart.Begin(year+1) - 1})
}
