package analysis

import (
	"math"
	"slices"

	"boxbook/season"
	"boxbook/season/analysis/code"
)

// stepsGate asks that no step of the ladder is skipped, and names those that
// are. It is not asked where no next step is known.
func (s *readinessState) stepsGate(g *Gate) bool {
	at, asked := s.r.step(s.r.From), s.r.step(s.r.To)
	switch {
	case s.r.To == "":
		return false
	case asked < 0 || at < 0 && s.r.From != "":
		g.open(code.NoStep)
		return true
	}
	g.State = stateOf(asked == at+1)
	for _, skipped := range s.r.Ladder.Categories[at+1 : max(asked, at+1)] {
		g.add(fact(code.Skipped, skipped.Name, math.NaN()))
	}
	return true
}

// forecastGate looks at the next category's known sequence: of several, the
// one with the lowest end. In a category never flown it stands as evidence alone
// and has no part in the verdict: the judging is another standard. A family that
// no contest flight had is a missing piece of evidence: the gate is open at best.
// It is not asked where no next step is known.
func (s *readinessState) forecastGate(g *Gate) bool {
	if s.r.To == "" {
		return false
	}
	worst, lack, known := s.worstForecast()
	if known > 1 {
		g.count(code.KnownOnes, known)
	}
	switch {
	case known == 0:
		g.open(code.NoKnown)
	case worst == nil:
		g.open(code.NoForecast)
		g.lacks(lack)
	default:
		g.State = stateOf(worst.Low >= s.number("forecast", 0))
		g.add(Fact{Code: code.Forecast, Name: worst.Sequence.Handle, Number: worst.Percent, Low: worst.Low, High: worst.High, Confidence: ForecastConfidence})
		g.unseen(worst.Unseen)
		g.bare(worst.Bare)
		g.unflown(worst.NotFlown)
	}
	if !s.hasFlown(s.r.To) {
		g.because(code.NeverFlown)
		g.State, g.Counts = code.CannotTell, false
	}
	return true
}

// unseen notes the families that no contest flight had.
func (g *Gate) unseen(groups []string) {
	if len(groups) == 0 {
		return
	}
	for _, group := range groups {
		g.add(fact(code.Unseen, group, math.NaN()))
	}
	g.count(code.OfLate, ForecastDays)
	g.incomplete()
}

// bare notes the figures that have no family to go by.
func (g *Gate) bare(figures []int) {
	for _, number := range figures {
		g.add(fact(code.BareFigure, "", float64(number)))
		g.incomplete()
	}
}

// unflown notes the families that the pilot does not fly: what flights without
// them show is no evidence for a sequence that has them.
func (g *Gate) unflown(groups []NotFlownGroup) {
	for _, n := range groups {
		g.add(unflown(n))
		g.incomplete()
	}
}

// lacks notes why nothing could be forecast.
func (g *Gate) lacks(lack Lack) {
	g.because(lack.Reason)
	g.count(code.Flights, lack.Flights)
	g.count(code.Contests, lack.Contests)
	g.count(code.LeastFlights, lack.Least)
	g.count(code.Uncoded, lack.Uncoded)
	g.count(code.OfLate, ForecastDays)
}

// worstForecast is the forecast with the lowest end of the next category's
// known sequences, or what the last of them lacks where none can be forecast;
// known counts the sequences.
func (s *readinessState) worstForecast() (worst *ForecastAnswer, lack Lack, known int) {
	for _, seq := range s.l.Sequences {
		if seq.Category != s.r.To || !mayBeKnown(s.l, seq) {
			continue
		}
		known++
		answer := forecastFrom(s.l, s.r.Pilot, s.r.From, seq)
		if !answer.Told {
			lack = answer.Lack
		} else if worst == nil || answer.Low < worst.Low {
			worst = &answer
		}
	}
	return worst, lack, known
}

func (s *readinessState) hasFlown(category string) bool {
	return slices.ContainsFunc(s.contests, func(f *season.Flight) bool { return f.Category == category })
}
