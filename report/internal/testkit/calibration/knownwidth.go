package calibration

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"boxbook/season"
)

// halfPoint is the variance that rounding to half a grade adds to a mark.
const halfPoint = 0.5 * 0.5 / 12

// KnownWidth is the width of KnownRange.
func (s *Sheaf) KnownWidth(asked *season.Sequence) float64 {
	low, high := s.KnownRange(asked)
	return high - low
}

// KnownRange is the 80 % range, in percent, of a sequence at the contest ahead for
// somebody who knows every variance and that the level is steady, and has the
// sheets: the best linear prediction with an unknown mean.
func (s *Sheaf) KnownRange(asked *season.Sequence) (low, high float64) {
	var all []graded
	var grades []float64
	for i, f := range s.Flights {
		for j, figure := range f.Sequence.Figures {
			if f.Marks[j] != nil {
				all = append(all, graded{i, f.Contest, j, f.Sequence, shares(figure)})
				grades = append(grades, meanGrade(f.Marks[j]))
			}
		}
	}
	n := len(all)
	v := mat.NewSymDense(n, nil)
	for i := range all {
		for j := i; j < n; j++ {
			v.SetSym(i, j, s.covariance(all[i], all[j]))
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(v) {
		panic("the covariance of a record is not positive definite")
	}
	ones, toAsked, y := mat.NewVecDense(n, nil), mat.NewVecDense(n, nil), mat.NewVecDense(n, grades)
	for i, g := range all {
		ones.SetVec(i, 1)
		toAsked.SetVec(i, s.toAsked(g, asked))
	}
	var a, b mat.VecDense
	if chol.SolveVecTo(&a, ones) != nil || chol.SolveVecTo(&b, toAsked) != nil {
		panic("the covariance of a record cannot be solved")
	}
	sum, lack := mat.Dot(ones, &a), 1-mat.Dot(ones, &b)
	mean := mat.Dot(&b, y) + lack*mat.Dot(&a, y)/sum
	half := distuv.UnitNormal.Quantile(0.9) * math.Sqrt(s.varianceOf(asked)-mat.Dot(toAsked, &b)+lack*lack/sum)
	return 10 * (mean - half), 10 * (mean + half)
}

// graded is one figure of one flight.
type graded struct {
	flight, contest, figure int
	sequence                *season.Sequence
	shares                  map[string]float64
}

func (s *Sheaf) errorVariance() float64 {
	g := s.made.Grades
	return g.Scatter*g.Scatter + (g.Judge*g.Judge+halfPoint)/float64(g.Judges)
}

func common(a, b map[string]float64) float64 {
	sum := 0.0
	for family, share := range a {
		sum += share * b[family]
	}
	return sum
}

// covariance of two grades, but for the mean that is not known.
func (s *Sheaf) covariance(a, b graded) float64 {
	g, flight := s.made.Grades, FlightSD*FlightSD/100
	same := common(a.shares, b.shares)
	sum := g.Families * g.Families * same
	if a.sequence == b.sequence && a.figure == b.figure {
		sum += g.Figures * g.Figures
	}
	if a.contest == b.contest {
		sum += flight*s.made.ContestShare + g.ContestFamily*g.ContestFamily*same
	}
	if a.flight == b.flight {
		sum += flight * (1 - s.made.ContestShare)
		if a.figure == b.figure {
			sum += s.errorVariance()
		}
	}
	return sum
}

// toAsked is the covariance of a grade with the asked sequence's mean grade.
func (s *Sheaf) toAsked(a graded, asked *season.Sequence) float64 {
	g, k := s.made.Grades, float64(asked.K())
	sum := 0.0
	for i, f := range asked.Figures {
		weight := float64(f.K) / k
		sum += weight * g.Families * g.Families * common(a.shares, shares(f))
		if a.sequence == asked && a.figure == i {
			sum += weight * g.Figures * g.Figures
		}
	}
	return sum
}

// varianceOf the asked sequence's mean grade at a contest ahead.
func (s *Sheaf) varianceOf(asked *season.Sequence) float64 {
	g, k := s.made.Grades, float64(asked.K())
	families, own := map[string]float64{}, 0.0
	for _, f := range asked.Figures {
		weight := float64(f.K) / k
		own += weight * weight * (g.Figures*g.Figures + s.errorVariance())
		for family, share := range shares(f) {
			families[family] += weight * share
		}
	}
	spread := g.Families*g.Families + g.ContestFamily*g.ContestFamily
	return FlightSD*FlightSD/100 + own + spread*common(families, families)
}
