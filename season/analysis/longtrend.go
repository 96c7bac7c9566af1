package analysis

import "boxbook/season"

// LongSeasons is over how many seasons, the asked one the last of them, a trend is
// judged where that one alone has too few contests. It is the same for everybody, so
// that no span is picked by what it shows.
const LongSeasons = 3

// LongTrend is a trend over several seasons, of flights in one category. Until is 0
// where nothing was flown since; First is the day of the first flight that is compared.
type LongTrend struct {
	Category     string
	Since, Until season.Date
	First        season.Date
	Aircraft     AircraftMix // of the flights at the category
	Trend        Trend
}

// LongTrendOf judges the category flown last in a season over that season and those
// before it, by the same tests as a season ([FlightTrend]: of form that does not move at
// most one span in twenty is called improving or declining, and a "may be" says its own
// chance). It takes the place of the season's own test, never beside one: false where the
// season alone has a verdict, where the selection is no whole season, or where these
// seasons do not give one either.
func LongTrendOf(l *season.Ledger, s season.Selection, flown Flights, trends []CategoryTrend) (LongTrend, bool) {
	if s.Season == 0 || s.Since != 0 || s.Contest != nil {
		return LongTrend{}, false
	}
	l = l.KnownTo(s)
	category, known := flown.lastCategory()
	if !known {
		return LongTrend{}, false
	}
	for _, t := range trends {
		if t.Category == category && t.Trend.Word != TooFew {
			return LongTrend{}, false
		}
	}
	long := LongTrend{Category: category, Since: l.SeasonStart.Begin(s.Season - LongSeasons + 1)}
	end := l.SeasonStart.Begin(s.Season+1) - 1
	if len(l.Select(season.Selection{Pilot: s.Pilot, Since: end + 1})) > 0 {
		long.Until = end
	}
	over := SeasonOf(l, season.Selection{Pilot: s.Pilot, Since: long.Since, Until: long.Until})
	points := over.points(category)
	long.Trend = FlightTrend(points)
	long.First, long.Aircraft = firstCompared(points), aircraftMix(over.enteredAt(category))
	return long, long.Trend.Word != TooFew
}

// firstCompared is the day of the first point that has another to be compared with, 0
// where none has.
func firstCompared(points []TrendPoint) season.Date {
	first := 0.0
	for _, s := range split(points) {
		if len(s.X) > 1 && (first == 0 || s.X[0] < first) {
			first = s.X[0]
		}
	}
	return season.Date(first)
}

// lastCategory is that of the latest flight that enters.
func (o Flights) lastCategory() (category string, ok bool) {
	for _, line := range o.Lines {
		if line.Enters() {
			category, ok = line.Flight.Category, true
		}
	}
	return category, ok
}
