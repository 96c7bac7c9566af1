package analysis

import (
	"math"

	"boxbook/season/stats"
)

// gradeRounding is the standard deviation that rounding to half points gives a grade.
var gradeRounding = 0.5 / math.Sqrt(12)

// ownError is the standard error of a judge's leniency by the judge's own scatter. A
// few grades that agree to the half point do not make it smaller than their rounding,
// and lone grades that were left out make it larger.
func ownError(fit stats.TwoWay, judge int) float64 {
	se := fit.Own[judge].SE
	if fit.Sigma == 0 {
		return se
	}
	unit := fit.ColumnSE[judge] / fit.Sigma // of a grade that scatters by 1
	scatter := max(se/unit, gradeRounding)
	return scatter * unit * leftOutFactor(scatter, max(FlagGap, flagMADs*fit.Sigma))
}

// leftOutFactor is by how much the standard error of a mean grows where values beyond
// a cut are left out: a value a little within the cut moves the mean far, one beyond it
// not at all. For a normal value with the scatter s within the cut c
//
//	P/(P - 2 z phi(z)),  P = 2 Phi(z) - 1,  z = c/sigma,  s^2 = sigma^2 (1 - 2 z phi(z)/P)
//
// (the variance of a skipped mean). z is kept at 1 and more, beyond which s tells
// little of sigma.
func leftOutFactor(scatter, cut float64) float64 {
	within := func(z float64) (share, edge float64) {
		return math.Erf(z / math.Sqrt2), 2 * z * math.Exp(-z*z/2) / math.Sqrt(2*math.Pi)
	}
	low, high := 1.0, max(1, cut/scatter)
	const halvings = 40
	for range halvings {
		z := (low + high) / 2
		share, edge := within(z)
		if cut/z*math.Sqrt(1-edge/share) > scatter {
			low = z
		} else {
			high = z
		}
	}
	share, edge := within(low)
	return share / (share - edge)
}
