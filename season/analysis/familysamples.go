package analysis

import (
	"math"
	"math/big"
	"slices"

	"boxbook/season"
)

// flownFigure is one figure of a flight with its mean, for questions over time.
type flownFigure struct {
	figure  season.Figure
	number  int
	percent float64
	zeroed  bool
}

// familySamples are what the flights say of each of the Groups.
func familySamples(flights []*season.Flight) []familySample {
	samples := make([]familySample, len(season.Groups))
	for _, f := range flights {
		figures := decidedFigures(f)
		for i, group := range season.Groups {
			samples[i].add(f, figures, group)
		}
	}
	return samples
}

// gradedFlights keeps what enters questions about grades: contest flights with
// marks, not void, and decided or with an official total.
func gradedFlights(flights []*season.Flight) []*season.Flight {
	var kept []*season.Flight
	for _, f := range flights {
		if f.Counts() && f.Contested() && f.HasMarks() && f.HasPercent() {
			kept = append(kept, f)
		}
	}
	return kept
}

// decidedFigures lists the flight's figures that have a mean.
func decidedFigures(f *season.Flight) []flownFigure {
	var figures []flownFigure
	score, flown := f.Score(), f.Flown()
	for i, index := range flown {
		line := score.Lines[i]
		if line.Mean == nil {
			continue
		}
		mean, _ := line.Mean.Float64()
		figures = append(figures, flownFigure{f.Sequence.Figures[index], index + 1, 10 * mean, season.Zeroed(f.Rows.Marks(index), line)})
	}
	return figures
}

// ZeroedFigure is a figure that counts 0 as a matter of fact, with the points lost.
type ZeroedFigure struct {
	Figure int
	Lost   *big.Rat
}

// ZeroedFigures lists the flight's figures that count 0 as a matter of fact.
func ZeroedFigures(f *season.Flight) []ZeroedFigure {
	if !f.HasMarks() {
		return nil
	}
	var zeroed []ZeroedFigure
	score := f.Score()
	for i, index := range f.Flown() {
		if line := score.Lines[i]; season.Zeroed(f.Rows.Marks(index), line) {
			zeroed = append(zeroed, ZeroedFigure{index + 1, line.Lost})
		}
	}
	return zeroed
}

// figureHas reports whether the figure has an element of a group.
func figureHas(f season.Figure, group string) bool {
	return slices.ContainsFunc(f.Elements, func(e season.Element) bool { return e.Group == group && e.K > 0 })
}

// sequenceHas reports whether a figure of the sequence has an element of a group.
func sequenceHas(s *season.Sequence, group string) bool {
	return slices.ContainsFunc(s.Figures, func(f season.Figure) bool { return figureHas(f, group) })
}

// groupK is the K of a figure's elements of a group.
func groupK(f season.Figure, group string) kSum {
	var k kSum
	for _, e := range f.Elements {
		if e.Group == group {
			k.add(e)
		}
	}
	return k
}

// familySample is what one group's figures were, over the flights.
type familySample struct {
	figures  int
	flights  []*season.Flight
	k        kSum
	percents []float64 // by figure
	gaps     []float64 // figure less its flight
	weights  []float64 // the group's K in the figure
	zeroed   []bool
	owns     []float64 // by flight: the group's own percent
	graded   []float64 // by flight with one: that of the figures that were not zeroed
	rests    []float64 // by flight: group less the rest
	points   []TrendPoint
	compared []*season.Flight // those of rests and points
}

// add takes one flight's figures of the group.
func (s *familySample) add(f *season.Flight, figures []flownFigure, group string) {
	own, rest := ownAndRest(figures, func(fig flownFigure) float64 { return groupK(fig.figure, group).float64() })
	if own.weight == 0 {
		return
	}
	var all, graded weightedMean
	zero := false
	for _, fig := range figures {
		all.add(fig.percent, float64(fig.figure.K))
		zero = zero || fig.zeroed && figureHas(fig.figure, group)
	}
	s.flights, s.owns = append(s.flights, f), append(s.owns, own.mean())
	for _, fig := range figures {
		if !figureHas(fig.figure, group) {
			continue
		}
		k := groupK(fig.figure, group)
		s.k.plus(k)
		s.figures++
		s.percents = append(s.percents, fig.percent)
		s.gaps = append(s.gaps, fig.percent-all.mean())
		s.weights = append(s.weights, k.float64())
		s.zeroed = append(s.zeroed, fig.zeroed)
		if !fig.zeroed {
			graded.add(fig.percent, k.float64())
		}
	}
	if graded.weight > 0 {
		s.graded = append(s.graded, graded.mean())
	}
	if rest.count >= restFigures {
		gap := own.mean() - rest.mean()
		s.rests = append(s.rests, gap)
		s.points = append(s.points, trendPoint(f, gap, zero))
		s.compared = append(s.compared, f)
	}
}

// endsOf are the means of percents by flight over the first and the last flights, and
// how many each is of.
func endsOf(percents []float64) (first, last float64, n int) {
	if len(percents) < 2 {
		return math.NaN(), math.NaN(), 0
	}
	n = (len(percents) + ownEnds - 1) / ownEnds
	return average(percents[:n]), average(percents[len(percents)-n:]), n
}

// ownAndRest are the means of the figures that have a share of what is asked
// about, weighed by it, and of those that have none, weighed by their K.
func ownAndRest(figures []flownFigure, share func(flownFigure) float64) (own, rest weightedMean) {
	for _, fig := range figures {
		if k := share(fig); k > 0 {
			own.add(fig.percent, k)
		} else {
			rest.add(fig.percent, float64(fig.figure.K))
		}
	}
	return own, rest
}

// weightedMean is a weighted mean under way.
type weightedMean struct {
	sum, weight float64
	count       int
}

func (m *weightedMean) add(value, weight float64) {
	m.count++
	m.sum += value * weight
	m.weight += weight
}

func (m *weightedMean) mean() float64 { return m.sum / m.weight }

// trendPoint is a flight's value in a trend.
func trendPoint(f *season.Flight, value float64, zero bool) TrendPoint {
	return TrendPoint{Day: float64(f.Date), Value: value, Stratum: Stratum(f), Contest: ContestKey(f), Zero: zero}
}

// Stratum names the flights that can be compared in a trend: one category and
// one sequence; the unknowns of a category together; without a sequence, the
// programme.
func Stratum(f *season.Flight) string {
	switch {
	case f.Programme == season.Unknown || f.Programme == season.FreeUnknown:
		return f.Category + " unknowns"
	case f.Sequence != nil:
		return f.Category + " " + f.Sequence.Handle
	default:
		return f.Category + " programme " + string(f.Programme)
	}
}

// ContestKey names the flight's contest; a flight without one is a contest by
// itself.
func ContestKey(f *season.Flight) string {
	if f.Contest != nil {
		return f.Contest.Handle
	}
	return f.Name
}

// lostPerFlight is the points each group lost, by flight; 0 for a group that
// lost none.
func lostPerFlight(flights []*season.Flight) map[string]*big.Rat {
	lost := make(map[string]*big.Rat, len(season.Groups))
	for _, group := range season.Groups {
		lost[group] = new(big.Rat)
	}
	season.SideBySide(len(flights), func(i int) { LossesOf(flights[i]) })
	for _, f := range flights {
		for _, part := range LossesOf(f).Groups {
			if total, ok := lost[part.Group]; ok {
				total.Add(total, part.Lost)
			}
		}
	}
	for _, total := range lost {
		total.Mul(total, big.NewRat(1, int64(max(1, len(flights)))))
	}
	return lost
}
