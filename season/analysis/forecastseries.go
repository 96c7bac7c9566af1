package analysis

import (
	"slices"

	"boxbook/season"
	"boxbook/season/stats"
)

func forecastFlights(l *season.Ledger, p *season.Pilot, category string, day season.Date) []*season.Flight {
	recent := slices.DeleteFunc(l.Select(season.Selection{Pilot: p}), func(f *season.Flight) bool {
		return f.Date > day || day-f.Date > ForecastDays
	})
	return gradedFlights(recent)
}

func forecastBasisBefore(l *season.Ledger, f *season.Flight) forecastBasis {
	return newForecastBasis(forecastFlights(l, f.Pilot, f.Category, f.Date-1), f.Date)
}

func presentDay(flights []*season.Flight, day season.Date) (season.Date, bool) {
	if len(flights) == 0 {
		return day, false
	}
	first, last := flights[0].Date, flights[len(flights)-1].Date
	if past := day - last; 2*past > last-first || past > 90 {
		return last, true
	}
	return day, false
}

func presentSeries(flights []*season.Flight, values []float64, day season.Date) stats.PresentSeries {
	s := stats.PresentSeries{Values: values}
	var contests []string
	var days []int
	for _, f := range flights {
		at := slices.Index(contests, ContestKey(f))
		if at < 0 {
			at = len(contests)
			contests = append(contests, ContestKey(f))
		}
		s.Groups, days = append(s.Groups, at), append(days, int(f.Date))
	}
	s.Walk, s.Slope = stats.PresentClock(days, int(day))
	return s
}

func sameScore(flights []*season.Flight) bool { return false }

const LeastContests = 3
