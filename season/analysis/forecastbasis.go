package analysis

import (
	"cmp"
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
	uncoded  []*season.Flight // flights with marks and no family in any figure
	contests int
	on       season.Date
	stale    bool // on is the last flight's day: today is too far off
	lack     Lack
}

// forecastBasisOf is what there is on the ledger's AsOf for a sequence of a
// category and a catalogue, that of the latest flight for nil: the flights at the present
// category, which the pilot's level is made of, and those of that one, as far as they have
// costs. The level is told for the day, or for the last flight's where that is too long ago.
func forecastBasisOf(l *season.Ledger, p *season.Pilot, present, category string, catalogue *string, day season.Date) forecastBasis {
	of := func(category string) []*season.Flight {
		flights := presentOfAll(l, p, category, l.AsOf)
		if catalogue == nil {
			return ofCatalogue(flights, catalogueOf(flights))
		}
		return ofCatalogue(flights, catalogue)
	}
	flights := of(present)
	for _, f := range of(category) {
		if !slices.Contains(flights, f) {
			flights = append(flights, f)
		}
	}
	slices.SortStableFunc(flights, func(a, b *season.Flight) int { return cmp.Compare(a.Date, b.Date) })
	var b forecastBasis
	for _, f := range flights {
		if len(costCells(f)) > 0 {
			b.flights = append(b.flights, f)
		} else if f.HasMarks() {
			b.uncoded = append(b.uncoded, f)
		}
	}
	b.contests = contestsOf(b.flights)
	b.on, b.stale = presentDay(b.flights, day)
	switch {
	case len(b.flights) < PresentFlights:
		b.lack = b.lacking(code.FewFlights, PresentFlights)
	case b.contests < PresentContests:
		b.lack = b.lacking(code.FewContests, PresentContests)
	}
	b.lack.Uncoded = len(b.uncoded)
	return b
}

func (b forecastBasis) lacking(why code.Reason, least int) Lack {
	return Lack{Reason: why, Flights: len(b.flights), Contests: b.contests, Least: least}
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

// spoiltOf counts what a forecast leaves out. That needs no codes: flights whose
// figures have none count too.
func (b forecastBasis) spoiltOf(seq *season.Sequence) SpoiltFlights {
	flights := slices.Concat(b.flights, b.uncoded)
	s := SpoiltFlights{Flights: len(flights), ZeroChance: math.NaN(), Penalty: math.NaN()}
	zeros := countZeros(flights, flownRow.cameTo0)
	zeros.next = len(seq.Figures)
	if risk, ok := zeros.risk(); ok {
		s.ZeroChance = risk
	}
	s.Zeros, s.Figures = zeros.zeros, zeros.figures
	s.Partly = countZeros(flights, flownRow.zeroed).zeros - zeros.zeros
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
