package analysis

import (
	"math"
	"slices"

	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis/code"
)

// forecastBasis is what a forecast rests on: flights that have costs, the day it is
// made for, and what is lacking, if anything.
type forecastBasis struct {
	flights  []*season.Flight
	contests int
	on       season.Date
	stale    bool // on is the last flight's day: today is too far off
	lack     Lack
}

// forecastBasisOf is what there is for a category on a day.
func forecastBasisOf(l *season.Ledger, p *season.Pilot, category string, day season.Date) forecastBasis {
	return newForecastBasis(forecastFlights(l, p, category, day), day)
}

// newForecastBasis keeps the flights that have costs and sees whether they do.
func newForecastBasis(flights []*season.Flight, day season.Date) forecastBasis {
	b := forecastBasis{on: day}
	uncoded := 0
	for _, f := range flights {
		if len(costCells(f)) > 0 {
			b.flights = append(b.flights, f)
		} else if f.HasMarks() {
			uncoded++
		}
	}
	b.contests = countContests(b.flights)
	switch {
	case len(b.flights) < ForecastLeast:
		b.lack = b.lacking(code.FewFlights, ForecastLeast)
	case b.contests < LeastContests:
		b.lack = b.lacking(code.FewContests, LeastContests)
	}
	b.lack.Uncoded = uncoded
	b.on, b.stale = presentDay(b.flights, day)
	return b
}

func (b forecastBasis) lacking(why code.Reason, least int) Lack {
	return Lack{Reason: why, Flights: len(b.flights), Contests: b.contests, Least: least}
}

func countContests(flights []*season.Flight) int {
	var contests []string
	for _, f := range flights {
		if key := ContestKey(f); !slices.Contains(contests, key) {
			contests = append(contests, key)
		}
	}
	return len(contests)
}

// lineForecasts are a sequence's weighted lines.
func lineForecasts(flights []*season.Flight, seq *season.Sequence) []LineForecast {
	var lines []LineForecast
	for _, of := range []struct {
		kind scoring.LineKind
		k    int
	}{{scoring.Positioning, seq.Positioning}, {scoring.Harmony, seq.Harmony}} {
		if of.k > 0 {
			line := LineForecast{Line: of.kind, K: of.k}
			line.Percent, line.Flights = linePercent(flights, of.kind)
			lines = append(lines, line)
		}
	}
	return lines
}

// linePercent is the mean percent of a weighted line over the flights that have a
// decided one, and how many have; NaN where none has.
func linePercent(flights []*season.Flight, kind scoring.LineKind) (percent float64, n int) {
	sum := 0.0
	for _, f := range flights {
		at := slices.IndexFunc(f.Sheet().Lines, func(line scoring.Line) bool { return line.Kind == kind })
		if at < 0 || f.Score().Lines[at].Mean == nil {
			continue
		}
		mean, _ := f.Score().Lines[at].Mean.Float64()
		sum, n = sum+100/fullMarks*mean, n+1
	}
	return sum / float64(n), n
}

// spoiltOf counts what a forecast leaves out.
func spoiltOf(flights []*season.Flight, seq *season.Sequence) SpoiltFlights {
	s := SpoiltFlights{ZeroChance: math.NaN(), Penalty: math.NaN()}
	zeros := countZeros(flights)
	zeros.next = len(seq.Figures)
	if risk, ok := zeros.risk(); ok {
		s.ZeroChance = risk
	}
	s.Zeros, s.Figures = zeros.zeros, zeros.figures
	points := 0.0
	for _, f := range flights {
		if penalty, _ := f.Score().Penalty.Float64(); penalty > 0 {
			s.Penalised++
			points += penalty
		}
	}
	if s.Penalised > 0 {
		s.Penalty = points / float64(s.Penalised)
	}
	return s
}
