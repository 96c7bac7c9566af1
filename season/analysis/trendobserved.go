package analysis

import (
	"math"
	"slices"

	"boxbook/season/stats"
)

// leastCut is how far beyond what was observed a change counts as cut to it, in percent
// points: less is seen on no page.
const leastCut = 0.05

// mostBeyond is how much of the observed span a rate may be carried beyond it.
const mostBeyond = 0.5

// flown sets the values of the first and the last point.
func (t *Trend) flown(points []TrendPoint) {
	if len(points) > 0 {
		first, last := points[0], points[len(points)-1]
		t.First, t.Last, t.EndsApart = first.Value, last.Value, first.Stratum != last.Stratum
	}
}

// withinObserved keeps every change within what lies between the lowest and the
// highest value of the points that were compared: a line through flights of
// several sequences, each flown for a short while, would else promise what nobody
// flew. The rate follows; where 30 days are far more than the points span there
// is none.
func (t *Trend) withinObserved(points []TrendPoint) {
	widest := observed(points)
	cut := func(change *float64) bool {
		was := *change
		*change = min(max(was, -widest), widest) // what there is not stays NaN
		return math.Abs(was-*change) > leastCut
	}
	t.SeasonCut, t.LowCut, t.HighCut = cut(&t.Season), cut(&t.Low), cut(&t.High)
	cut(&t.WithoutZero)
	if t.Span*(1+mostBeyond) >= daysPerMonth {
		t.Slope30 = daysPerMonth * t.Season / t.Span
	}
}

// observed is what lies between the lowest and the highest value of the points
// that have another to be compared with.
func observed(points []TrendPoint) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, stratum := range split(points) {
		if len(stratum.Y) > 1 {
			low, high = min(low, slices.Min(stratum.Y)), max(high, slices.Max(stratum.Y))
		}
	}
	return max(high-low, 0)
}

// detectable is the change over the days that both tests of a whole flight could
// have been expected to show: the larger of what flights and contest means can,
// each in its own scatter about a line.
func detectable(flights, means []stats.Series) float64 {
	return max(detectableBy(flights), detectableBy(means))
}

// mostPercent is the largest change that a percent can make.
const mostPercent = 100

// detectableBy is what one test could have shown, NaN where it could show
// nothing, or only a change that there cannot be.
func detectableBy(strata []stats.Series) float64 {
	c, err := stats.DetectableChange(FirmFlight, strata...)
	if err != nil {
		return math.NaN()
	}
	if change := c * scatterAboutLine(strata); change <= mostPercent {
		return change
	}
	return math.NaN()
}

// scatterAboutLine is the standard deviation of values about one slope and each
// stratum's own level, NaN where nothing is left to estimate it by.
func scatterAboutLine(strata []stats.Series) float64 {
	slope, err := stats.TheilSen(TrendConfidence, strata...)
	if err != nil {
		return math.NaN()
	}
	squares, free := 0.0, -1.0
	for _, s := range strata {
		if len(s.X) < 2 {
			continue
		}
		rests := make([]float64, len(s.Y))
		for i, y := range s.Y {
			rests[i] = y - slope.Slope*s.X[i]
		}
		level := average(rests)
		for _, r := range rests {
			squares += (r - level) * (r - level)
		}
		free += float64(len(rests) - 1)
	}
	return math.Sqrt(squares / free)
}
