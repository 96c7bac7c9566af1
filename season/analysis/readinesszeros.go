package analysis

import (
	"slices"

	"boxbook/season"
	"boxbook/season/analysis/code"
	"boxbook/season/stats"
)

// zerosGate counts the figures with a hard or perception zero in the last contest
// flights, of any category and of the present one, whichever have too many, names each
// judge's, and says how likely one that counts is in the next sequence: by figure and
// by flight, the worse one.
func (s *readinessState) zerosGate(g *Gate) bool {
	look := s.lately(s.whole("zeros", 1))
	if len(look.flights) == 0 {
		g.open(code.NoMarks)
		return true
	}
	most := s.whole("zeros", 0)
	zeros, open, by := look.zeros()
	if own, ok := s.atPresent(look); ok && zeros <= most {
		if there, undecided, whose := own.zeros(); there > most {
			look, zeros, open, by = own, there, undecided, whose
			g.because(code.AtPresent)
		}
	}
	g.add(by...)
	g.State = atMost(zeros, open, most)
	if g.State == code.CannotTell {
		g.because(code.NotDecided)
	}
	g.count(code.Have, zeros)
	g.lookedAt(look)
	flights, category := s.zeroFlights()
	g.zeroChance(category, countZeros(flights, flownRow.zeroed), countZeros(flights, flownRow.cameTo0), countZeros(flights, flownRow.zero))
	return true
}

// zeros are the figures with a zero, those not decided, and whose zeros they are.
func (look lately) zeros() (zeros, open int, by []Fact) {
	for _, row := range look.rows() {
		switch {
		case row.zero():
			zeros++
			by = append(by, row.zeroBy()...)
		case !row.graded():
			open++
		}
	}
	return zeros, open, by
}

// zeroChance notes how likely a zero that counts is in the next sequence by the flights
// of a category, "" for those of any, how many of those seen made a figure 0, which alone
// a forecast counts, how many figures had one that does not count, and the most that the
// share of figures with one can be where none was seen.
func (g *Gate) zeroChance(category string, seen, whole, given zeroCount) {
	g.count(code.LeastFlights, LeastForChance)
	if risk, ok := seen.risk(); ok {
		g.add(fact(code.ZeroRisk, "", risk))
		g.count(code.ZerosSeen, seen.zeros)
		g.count(code.ZerosWhole, whole.zeros)
		if given.zeros > seen.zeros {
			g.count(code.ZerosWaived, given.zeros-seen.zeros)
		}
		g.add(fact(code.ZerosOf, category, float64(seen.flights)))
	}
	if bound, ok := seen.bound(); ok {
		f := fact(code.ZeroBound, "", bound)
		f.Confidence = noneConfidence
		g.add(f)
		g.count(code.ZeroFigures, seen.figures)
	}
}

// zeroCount is what flights show of zeros: how many of the figures and of the
// flights had one, and how many figures the last flight had.
type zeroCount struct{ zeros, figures, bad, flights, next int }

func countZeros(flights []*season.Flight, had func(flownRow) bool) zeroCount {
	c := zeroCount{flights: len(flights)}
	for _, f := range flights {
		rows, zeros := flownRows(f), 0
		for _, row := range rows {
			if had(row) {
				zeros++
			}
		}
		c.zeros, c.figures, c.next = c.zeros+zeros, c.figures+len(rows), len(rows)
		if zeros > 0 {
			c.bad++
		}
	}
	return c
}

// LeastForChance is how many flights the chance of a zero is told from.
const LeastForChance = 4

// zeroFlights are the contest flights in the window that have grades and tell how
// likely a zero is: those at the present category, as a forecast there has it, or
// where these are too few those of any, "".
func (s *readinessState) zeroFlights() (flights []*season.Flight, category string) {
	all := slices.DeleteFunc(slices.Clone(s.contests), func(f *season.Flight) bool { return !s.recent(f) || !hasGrades(f) })
	own := slices.DeleteFunc(slices.Clone(all), func(f *season.Flight) bool { return f.Category != s.r.From })
	if len(own) >= LeastForChance && len(own) < len(all) {
		return own, s.r.From
	}
	return all, ""
}

// risk is the probability of at least one zero in a sequence as long as the
// last one. Zeros cluster, so it is worked out by figure and by flight, and the
// more pessimistic is given.
func (c zeroCount) risk() (float64, bool) {
	byFigure, err1 := stats.AtLeastOne(c.zeros, c.figures, c.next, stats.Jeffreys)
	byFlight, err2 := stats.AtLeastOne(c.bad, c.flights, 1, stats.Jeffreys)
	if err1 != nil || err2 != nil {
		return 0, false
	}
	return max(byFigure, byFlight), true
}

// noneConfidence is that of the bound on what was never seen.
const noneConfidence = 0.95

// bound is the most that the share of figures with a zero can be where none was
// seen; false where one was.
func (c zeroCount) bound() (float64, bool) {
	if c.zeros > 0 {
		return 0, false
	}
	upper, err := stats.NoneUpper(c.figures, noneConfidence)
	return upper, err == nil
}
