package stats

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// The reasons why a question has no answer. Functions wrap them with the
// detail; test with errors.Is.
var (
	// ErrTooFew: not enough values for the method to say anything.
	ErrTooFew = errors.New("too few values")
	// ErrShape: slices of different lengths, an index outside the table, two
	// values in one cell.
	ErrShape = errors.New("shapes do not match")
	// ErrRange: a value that is not finite, is too large, or lies outside the
	// range the parameter allows.
	ErrRange = errors.New("value out of range")
	// ErrNoSpread: all values equal where the method divides by their spread.
	ErrNoSpread = errors.New("values do not differ")
	// ErrSingular: the columns of a regression depend on each other.
	ErrSingular = errors.New("columns depend on each other")
	// ErrDisconnected: rows and columns of a table fall into parts that share no
	// value; see [Table.Parts].
	ErrDisconnected = errors.New("table falls into unconnected parts")
)

// largest is the largest size of a value: its square times a weight of the same
// size, summed, is still finite.
const largest = 1e75

// largestConfidence is the highest confidence an interval may ask for; beyond
// it the quantiles lose their digits.
const largestConfidence = 0.999999

// largestCount is the largest count a table, a trial or an exact test may hold.
const largestCount = 1_000_000

// checkValues refuses values that are not finite or too large to square.
func checkValues(lists ...[]float64) error {
	for _, list := range lists {
		for _, x := range list {
			if !(math.Abs(x) <= largest) {
				return fmt.Errorf("%w: %g", ErrRange, x)
			}
		}
	}
	return nil
}

// checkPositive refuses weights and variances that are not clearly above 0.
func checkPositive(list []float64) error {
	for _, x := range list {
		if !(x >= 1/largest && x <= largest) {
			return fmt.Errorf("%w: %g is not a positive number", ErrRange, x)
		}
	}
	return nil
}

// checkCounts refuses counts below 0 or beyond what the exact tests add up.
func checkCounts(counts ...int) error {
	for _, n := range counts {
		if n < 0 || n > largestCount {
			return fmt.Errorf("%w: count %d", ErrRange, n)
		}
	}
	return nil
}

func checkConfidence(c float64) error {
	if !(c > 0 && c <= largestConfidence) {
		return fmt.Errorf("%w: confidence %g", ErrRange, c)
	}
	return nil
}

func checkSameLength(a, b int) error {
	if a != b {
		return fmt.Errorf("%w: %d and %d values", ErrShape, a, b)
	}
	return nil
}

func tooFew(have, need int) error {
	return fmt.Errorf("%w: %d, at least %d needed", ErrTooFew, have, need)
}

// solved tells whether a solver gave an answer: a [mat.Condition] that is finite
// is gonum's remark on an ill-conditioned system that it has nevertheless solved.
func solved(err error) bool {
	var condition mat.Condition
	if errors.As(err, &condition) {
		return !math.IsInf(float64(condition), 0)
	}
	return err == nil
}
