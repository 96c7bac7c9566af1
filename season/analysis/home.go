package analysis

import (
	"cmp"
	"math/big"
	"slices"

	"boxbook/season"
)

// ReviewDays is how many days back a flight that nobody has reviewed is still
// worth a review: those whose faults say what comes back.
const ReviewDays = RecurringDays

// Home is where a pilot's matters stand on the ledger's AsOf, beside what pages
// of their own answer. Last is the latest contest flight that counts, Before the
// one before it with a percent; nil where there is none. Seasons are the latest
// season with a flight and the latest before it with a contest flight, newest
// first. LastFlown is the latest flight of any kind, Flights how many contest
// flights count, Review are those that wait for a review, the earliest first. Result
// is the latest contest with a typed result and no contest flight that counts, nil
// where a contest flight is later. Differs are the other flights at the contest of Last
// whose official total differs from the marks, the earliest first.
type Home struct {
	Pilot        *season.Pilot
	Last, Before *season.Flight
	Seasons      []SeasonSum
	LastFlown    *season.Flight
	Flights      int
	Review       []*season.Flight
	Waits        []*season.Flight // of these days, without a result until a ruling, the latest contest flight apart
	Reviewed     int              // flights that were gone through within ReviewDays, practice too
	Result       *ContestLine
	Differs      []*season.Flight
}

// SeasonSum is a season in a line: its contest flights with a percent, their mean
// and the best, nil where there are none, and the categories flown in it.
type SeasonSum struct {
	Season     int
	Flights    int
	Mean, Best *big.Rat
	Categories []string
}

// HomeOf answers for a pilot.
func HomeOf(l *season.Ledger, p *season.Pilot) Home {
	out := Home{Pilot: p}
	flights := l.Select(season.Selection{Pilot: p})
	if len(flights) == 0 {
		out.result(l, nil)
		return out
	}
	out.LastFlown = flights[len(flights)-1]
	today := cmp.Or(l.AsOf, out.LastFlown.Date)
	var contested []*season.Flight
	for _, f := range flights {
		if !f.Counts() {
			continue
		}
		if f.Contested() {
			contested = append(contested, f)
		}
		if f.Date > today-ReviewDays && f.FiguresWatched() {
			out.Reviewed++
		}
		if f.Date > today-ReviewDays && f.WaitsForReview() {
			out.Review = append(out.Review, f)
		}
	}
	out.Flights = len(contested)
	for _, f := range contested[:max(0, len(contested)-1)] {
		if f.Date > today-ReviewDays && f.Official == nil && f.HasMarks() && !f.Total().Decided() && len(f.Undecided()) > 0 {
			out.Waits = append(out.Waits, f)
		}
	}
	out.latest(contested)
	for _, f := range contested {
		if f != out.Last && f.Contest != nil && f.Contest == out.Last.Contest {
			if state, _ := OfficialOf(f); state == OfficialDiffers {
				out.Differs = append(out.Differs, f)
			}
		}
	}
	out.seasons(l, contested)
	out.result(l, contested)
	return out
}

// result finds the latest contest result without a flight, where no contest flight is
// later.
func (o *Home) result(l *season.Ledger, contested []*season.Flight) {
	for _, c := range l.Contests {
		flown := slices.ContainsFunc(contested, func(f *season.Flight) bool { return f.Contest == c })
		if flown || o.Last != nil && c.Last < o.Last.Date || o.Result != nil && c.First < o.Result.Contest.First {
			continue
		}
		line := ContestLine{Contest: c}
		if printedResult(l, season.Selection{Pilot: o.Pilot}, c, &line) {
			o.Result = &line
		}
	}
}

// latest finds the latest contest flight and the one to hold it against.
func (o *Home) latest(contested []*season.Flight) {
	for _, f := range slices.Backward(contested) {
		switch {
		case o.Last == nil:
			o.Last = f
		case f.HasPercent():
			o.Before = f
			return
		}
	}
}

// seasons sums up the latest season flown, and the latest before it with a
// contest flight.
func (o *Home) seasons(l *season.Ledger, contested []*season.Flight) {
	years, of := []int{l.SeasonStart.Season(o.LastFlown.Date)}, [][]*season.Flight{nil}
	for _, f := range slices.Backward(contested) {
		year := l.SeasonStart.Season(f.Date)
		if at := len(years) - 1; year != years[at] {
			if at > 0 {
				break
			}
			years, of = append(years, year), append(of, nil)
		}
		of[len(of)-1] = append(of[len(of)-1], f)
	}
	for i, flights := range of {
		sum := sumOf(flights)
		sum.Season = years[i]
		o.Seasons = append(o.Seasons, sum)
	}
}

// Sum is what the lines come to that enter the season's figures.
func (o Flights) Sum() SeasonSum {
	var entered []*season.Flight
	for _, line := range o.Lines {
		if line.Enters() {
			entered = append(entered, line.Flight)
		}
	}
	return sumOf(entered)
}

// AircraftSum is what the flights in one aircraft come to.
type AircraftSum struct {
	Aircraft string
	SeasonSum
}

// AircraftSums are what the lines that enter the season's figures come to by aircraft, in
// the order flown; none where all of a known one had the same. Those that name none are
// among them, under "", where they all came before or after the others.
func (o Flights) AircraftSums() []AircraftSum {
	names, of := o.byAircraft(func(*season.Flight) bool { return true })
	var entered []*season.Flight
	for _, line := range o.Lines {
		if line.Enters() {
			entered = append(entered, line.Flight)
		}
	}
	if aircraftMix(entered).Unnamed > 0 {
		unnamed := slices.DeleteFunc(slices.Clone(entered), func(f *season.Flight) bool { return f.Aircraft != "" })
		at := len(names)
		if entered[0].Aircraft == "" {
			at = 0
		}
		names, of[""] = slices.Insert(names, at, ""), unnamed
	}
	if len(names) < 2 {
		return nil
	}
	sums := make([]AircraftSum, len(names))
	for i, name := range names {
		sums[i] = AircraftSum{name, sumOf(of[name])}
	}
	return sums
}

// AircraftIn counts the aircraft of the lines of a category that enter the figures.
func (o Flights) AircraftIn(category string) int {
	names, _ := o.byAircraft(func(f *season.Flight) bool { return f.Category == category })
	return len(names)
}

// byAircraft are the flights that fit and enter the season's figures by their aircraft, in
// the order in which these were first flown; those of an unknown one are left out.
func (o Flights) byAircraft(fits func(*season.Flight) bool) (names []string, of map[string][]*season.Flight) {
	of = map[string][]*season.Flight{}
	for _, line := range o.Lines {
		name := line.Flight.Aircraft
		if name == "" || !line.Enters() || !fits(line.Flight) {
			continue
		}
		if of[name] == nil {
			names = append(names, name)
		}
		of[name] = append(of[name], line.Flight)
	}
	return names, of
}

// sumOf sums up the flights that have a percent.
func sumOf(flights []*season.Flight) SeasonSum {
	var s SeasonSum
	total := new(big.Rat)
	for _, f := range flights {
		percent := f.Record().Percent
		if percent == nil {
			continue
		}
		s.Flights++
		total.Add(total, percent)
		if s.Best == nil || percent.Cmp(s.Best) > 0 {
			s.Best = percent
		}
		if f.Category != "" && !slices.Contains(s.Categories, f.Category) {
			s.Categories = append(s.Categories, f.Category)
		}
	}
	if s.Flights > 0 {
		s.Mean = total.Quo(total, big.NewRat(int64(s.Flights), 1))
	}
	return s
}

// OpenDrills are the drills of a pilot that were set and not ended up to AsOf, the
// latest first, one for each target.
func OpenDrills(l *season.Ledger, p *season.Pilot) []*season.Drill {
	var open []*season.Drill
	for _, d := range l.Drills {
		if ended := d.Ended != 0 && l.Past(d.Ended); d.Pilot == p && l.Past(d.Date) && !ended {
			open = append(open, d)
		}
	}
	slices.SortStableFunc(open, func(a, b *season.Drill) int { return int(b.Date - a.Date) })
	seen := map[string]bool{}
	return slices.DeleteFunc(open, func(d *season.Drill) bool {
		again := seen[d.Target]
		seen[d.Target] = true
		return again
	})
}

// OfficialState says how a flight's official total lies to the own one.
type OfficialState string

// The states: none was typed; it agrees with the marks or does not; there is
// nothing to hold it against, or not all of it.
const (
	OfficialNone     OfficialState = "none"
	OfficialAgrees   OfficialState = "agrees"
	OfficialDiffers  OfficialState = "differs"
	OfficialUnproven OfficialState = "unproven"
)

// OfficialWhy is what qualifies the state of an official total, "" for nothing.
type OfficialWhy string

// What qualifies it: the maximum was typed and is not the sequence's, so that percents
// were compared; a figure is undecided, and the total is one end of the range that it
// leaves open, or neither; sheets are missing; there is no mark; typed as points, it is
// likelier a percent.
const (
	OfficialMaximum    OfficialWhy = "maximum"
	OfficialOneEnd     OfficialWhy = "one-end"
	OfficialNeitherEnd OfficialWhy = "neither-end"
	OfficialSheets     OfficialWhy = "sheets"
	OfficialMarks      OfficialWhy = "marks"
	OfficialPercent    OfficialWhy = "percent"
)

// OfficialOf is the state of a flight's official total, and what qualifies it.
func OfficialOf(f *season.Flight) (OfficialState, OfficialWhy) {
	if f.Official == nil {
		return OfficialNone, ""
	}
	r, ok := f.Compare()
	percent := f.PercentDoubt() != season.NoPercentDoubt
	switch {
	case percent && ok:
		return OfficialDiffers, OfficialPercent
	case percent:
		return OfficialUnproven, OfficialPercent
	case !ok:
		return OfficialUnproven, OfficialMarks
	case len(f.Missing) > 0:
		return OfficialUnproven, OfficialSheets
	case r.Undecided && r.Agrees:
		return OfficialUnproven, OfficialOneEnd
	case r.Undecided:
		return OfficialUnproven, OfficialNeitherEnd
	case r.MaximumDiffers && r.Agrees:
		return OfficialAgrees, OfficialMaximum
	case r.MaximumDiffers:
		return OfficialDiffers, OfficialMaximum
	case r.Agrees:
		return OfficialAgrees, ""
	default:
		return OfficialDiffers, ""
	}
}
