package analysis

import (
	"slices"

	"boxbook/season"
	"boxbook/season/analysis/code"
	"boxbook/season/stats"
)

// zerosGate counts the figures with a hard or perception zero in the last
// contest flights, of any category, names each judge's, and says how likely one
// that counts is in the next sequence: by figure and by flight, the worse one.
func (s *readinessState) zerosGate(g *Gate) bool {
	look := s.lately(s.whole("zeros", 1))
	if len(look.flights) == 0 {
		g.open(code.NoMarks)
		return true
	}
	zeros, open := 0, 0
	for _, row := range look.rows() {
		switch {
		case row.zero():
			zeros++
			g.add(row.zeroBy()...)
		case !row.graded():
			open++
		}
	}
	g.State = atMost(zeros, open, s.whole("zeros", 0))
	if g.State == code.CannotTell {
		g.because(code.NotDecided)
	}
	g.count(code.Have, zeros)
	g.lookedAt(look)
	flights := s.graded()
	g.zeroChance(countZeros(flights, flownRow.zeroed), countZeros(flights, flownRow.cameTo0))
	return true
}

// zeroChance notes how likely a zero that counts is in the next sequence, how many of
// those seen made a figure 0, which alone a forecast counts, and the most that the
// share of figures with one can be where none was seen.
func (g *Gate) zeroChance(seen, whole zeroCount) {
	if risk, ok := seen.risk(); ok {
		g.add(fact(code.ZeroRisk, "", risk))
		g.count(code.ZerosSeen, seen.zeros)
		g.count(code.ZerosWhole, whole.zeros)
		g.count(code.ZerosOf, seen.flights)
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

// graded are the contest flights in the window that have grades, of any category.
func (s *readinessState) graded() []*season.Flight {
	return slices.DeleteFunc(slices.Clone(s.contests), func(f *season.Flight) bool { return !s.recent(f) || !hasGrades(f) })
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
