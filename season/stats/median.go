package stats

import (
	"math"
	"slices"
)

// madScale makes the median absolute deviation of normal values estimate their
// standard deviation: 1/Phi^-1(3/4) [derived].
const madScale = 1.4826022185056018

// Median is the middle of the sorted values, or the mean of the two middle ones
// when their number is even. ok is false for no values or values that are not
// finite (see the package comment). [derived].
func Median(x []float64) (median float64, ok bool) {
	if len(x) == 0 || checkValues(x) != nil {
		return 0, false
	}
	return medianSorted(sorted(x)), true
}

// MAD is the median of |x - median(x)|, unscaled. ok is false as in [Median].
// [derived].
func MAD(x []float64) (mad float64, ok bool) {
	m, ok := Median(x)
	if !ok {
		return 0, false
	}
	deviations := make([]float64, len(x))
	for i, v := range x {
		deviations[i] = math.Abs(v - m)
	}
	return Median(deviations)
}

func sorted(x []float64) []float64 {
	s := slices.Clone(x)
	slices.Sort(s)
	return s
}

// medianSorted wants at least one value.
func medianSorted(s []float64) float64 {
	n := len(s)
	if n%2 == 1 {
		return s[n/2]
	}
	return s[n/2-1]/2 + s[n/2]/2
}

// mean wants at least one value.
func mean(x []float64) float64 {
	total := 0.0
	for _, v := range x {
		total += v
	}
	return total / float64(len(x))
}

// sumSquares is the sum of squared deviations from a centre.
func sumSquares(x []float64, centre float64) float64 {
	total := 0.0
	for _, v := range x {
		total += (v - centre) * (v - centre)
	}
	return total
}

// maxAbs is the largest size among the values, 0 for none.
func maxAbs(x []float64) float64 {
	m := 0.0
	for _, v := range x {
		m = math.Max(m, math.Abs(v))
	}
	return m
}
