package calibration

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/stat/distuv"
)

// FlightSD is the standard deviation of a single flight about the pilot's level,
// its contest included, in percent points.
const FlightSD = 3.0

const baseLevel = 65.0

// Shape is how single flights scatter about the level.
type Shape int

// Normal errors; heavy tails (Student's t with 3 degrees of freedom, of the same
// variance); normal ones of which a tenth lose 5 to 9 points by a zero; two heaps of
// them, half of the flights in the lower one, just below the mark that half reach.
const (
	Normal Shape = iota
	Heavy
	Zeros
	Heaps
)

func (s Shape) String() string { return [...]string{"", "heavy tails", "zeros", "two heaps"}[s] }

const (
	zeroChance = 0.1
	// heapsApart lie the heaps, each with the standard deviation heapSD; the mark that
	// half of the flights reach lies heapMargin above the middle of the lower one.
	heapsApart, heapSD, heapMargin = 26.0, 1.5, 3.0
)

// draw gives a flight's own error of a standard deviation.
func (s Shape) draw(r *rand.Rand, sd float64) float64 {
	switch e := sd * r.NormFloat64(); {
	case s == Heavy:
		chi := 0.0
		for range 3 {
			z := r.NormFloat64()
			chi += z * z
		}
		return e / math.Sqrt(chi)
	case s == Heaps:
		e = heapSD * r.NormFloat64()
		if r.IntN(2) == 0 {
			return e + heapsApart/2
		}
		return e - heapsApart/2
	case s == Zeros && r.Float64() < zeroChance:
		return e - 5 - 4*r.Float64()
	default:
		return e
	}
}

// Totals makes records of printed totals.
type Totals struct {
	Structure
	Path  Path
	Shape Shape
}

// Record is a pilot's record as totals, and the truth about it.
type Record struct {
	Calendar
	Percents []float64
	Level    float64 // at the contest ahead
	Next     float64 // a flight there
	shape    Shape
}

// Make draws one record.
func (t Totals) Make(r *rand.Rand) Record {
	out := Record{Calendar: t.Calendar(r)}
	level := t.Path.Make(r, out.At)
	contestSD, ownSD := FlightSD*math.Sqrt(t.ContestShare), FlightSD*math.Sqrt(1-t.ContestShare)
	contest := make([]float64, len(level))
	for i := range contest {
		contest[i] = contestSD * r.NormFloat64()
	}
	flight := func(c int) float64 {
		return min(100, max(0, baseLevel+level[c]+contest[c]+t.Shape.draw(r, ownSD)))
	}
	for _, slot := range out.Slots {
		out.Percents = append(out.Percents, flight(slot.Contest))
	}
	ahead := len(level) - 1
	out.Level, out.Next = baseLevel+level[ahead], flight(ahead)
	out.shape = t.Shape
	return out
}

// Mark is the percent that a share of flights at the record's level ahead reach;
// of normal errors. Of two heaps, the mark that half of them reach.
func (r Record) Mark(share float64) float64 {
	if r.shape == Heaps {
		return r.Level - heapsApart/2 + heapMargin
	}
	return r.Level - FlightSD*distuv.UnitNormal.Quantile(share)
}

// KnownWidth is the width of the 80 % range of the next flight for somebody who
// knows both variances and that the level is steady, and has to find the level:
// of generalised least squares, by contest.
func (s Structure) KnownWidth() float64 {
	weight := 0.0
	for left := s.Flights; left > 0; left -= s.PerContest {
		n := float64(min(left, s.PerContest))
		weight += n / (1 - s.ContestShare + n*s.ContestShare)
	}
	return 2 * distuv.UnitNormal.Quantile(0.9) * FlightSD * math.Sqrt(1+1/weight)
}
