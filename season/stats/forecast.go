package stats

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Forecast predicts a new value from values that come in clusters, several of
// one cluster being more alike than values of different ones.
type Forecast struct {
	// Clusters and N count clusters and values; DF is Clusters - 1.
	Clusters, N, DF int
	// Mean is the mean of the clusters' means; SD the standard deviation of a
	// single value of a new cluster; Effective the number of independent values
	// that would place the mean as well.
	Mean, SD, Effective float64
}

// NewForecast takes the values of each cluster. With C clusters of k values (n0
// of [OneWay] standing for k when sizes differ), BetweenMS and WithinMS of
// [OneWayComponents],
//
//	SD^2 = BetweenMS/k + WithinMS (1 - 1/k)
//	Effective = SD^2/(BetweenMS/(k C))
//
// and C-1 degrees of freedom everywhere. With one value in each cluster that is
// the plain standard deviation and Effective = C. If all cluster means are equal
// while values are not, Effective is N.
//
// It fails with ErrTooFew for fewer than three clusters, ErrNoSpread when all
// values are equal (no probability can be stated), ErrShape for an empty cluster
// and ErrRange for values out of range. Source: derived.
func NewForecast(clusters [][]float64) (Forecast, error) {
	if len(clusters) < 3 {
		return Forecast{}, tooFew(len(clusters), 3)
	}
	a, err := OneWayComponents(clusters)
	if err != nil {
		return Forecast{}, err
	}
	rounding := 0.0
	for _, c := range clusters {
		rounding = math.Max(rounding, 1e-12*maxAbs(c))
	}
	variance := a.BetweenMS/a.N0 + a.WithinMS*(1-1/a.N0)
	f := Forecast{Clusters: a.Groups, N: a.N, DF: a.Groups - 1, Mean: a.Mean, SD: math.Sqrt(variance)}
	if f.SD <= rounding {
		return Forecast{}, fmt.Errorf("%w: the same value each time", ErrNoSpread)
	}
	ofMean := a.BetweenMS / (a.N0 * float64(a.Groups))
	if math.Sqrt(ofMean) <= rounding {
		f.Effective = float64(f.N)
	} else {
		f.Effective = variance / ofMean
	}
	return f, nil
}

// AtLeast is the probability that a new value reaches the level,
//
//	P = T_{C-1}( (Mean - level)/(SD sqrt(1 + 1/Effective)) )
//
// T being Student's distribution function; within 0..1. It fails with ErrRange
// for a level out of range. Sources: derived; computed by R predict.lm.
func (f Forecast) AtLeast(level float64) (float64, error) {
	if err := f.check(level, 0.5); err != nil {
		return 0, err
	}
	return studentCDF((f.Mean-level)/f.sdOfNext(), f.DF), nil
}

// ShareAbove bounds the long-run share of values above the level. With
// q = (Mean - level)/SD and m = Effective, it finds the noncentralities d with
// P(T'_{C-1}(d) <= q sqrt m) = (1+c)/2 and (1-c)/2; the ends are Phi(d/sqrt m),
// within 0..1. Where q sqrt m or d lies beyond 37 the series for the noncentral t
// is out of digits, and d is put together from the quantiles of chi-square and
// of the normal, good to 1 %; the share is then next to 0 or 1 unless Effective
// is huge. It fails with ErrRange for a level out of range or a confidence
// outside 0..0.999999. Sources: derived; computed by R pt with ncp.
func (f Forecast) ShareAbove(level, confidence float64) (Interval, error) {
	if err := f.check(level, confidence); err != nil {
		return Interval{}, err
	}
	root := math.Sqrt(f.Effective)
	t := (f.Mean - level) / f.SD * root
	tail := (1 - confidence) / 2
	return Interval{
		Low:  normalCDF(noncentrality(t, f.DF, 1-tail) / root),
		High: normalCDF(noncentrality(t, f.DF, tail) / root),
	}, nil
}

func (f Forecast) sdOfNext() float64 { return f.SD * math.Sqrt(1+1/f.Effective) }

// check refuses a Forecast that NewForecast did not make, too.
func (f Forecast) check(level, confidence float64) error {
	if err := checkValues([]float64{f.Mean, level}); err != nil {
		return err
	}
	if err := checkPositive([]float64{f.SD, f.Effective}); err != nil {
		return err
	}
	if f.DF < 1 {
		return tooFew(f.DF, 1)
	}
	return checkConfidence(confidence)
}

// seriesReach is how large t and d may be for the series of the noncentral t.
const seriesReach = 37

// noncentrality is the d at which P(T'_df(d) <= t) = p; it falls in p.
func noncentrality(t float64, df int, p float64) float64 {
	if t < 0 {
		// gonum takes the wrong tail for negative t and large d; mirror instead.
		return -noncentrality(-t, df, 1-p)
	}
	chance := func(d float64) float64 {
		return distuv.NoncentralT{Nu: float64(df), Mu: d}.CDF(t)
	}
	if t > seriesReach || chance(seriesReach) > p {
		return farNoncentrality(t, df, p)
	}
	low, high := -10.0, float64(seriesReach)
	for range 100 {
		d := (low + high) / 2
		if chance(d) > p {
			low = d
		} else {
			high = d
		}
	}
	return (low + high) / 2
}

// farNoncentrality starts from the median of t sqrt(chi2/df) and adds the
// distances to the quantile that chi2 and the normal part have each alone, by
// squares.
func farNoncentrality(t float64, df int, p float64) float64 {
	root := func(p float64) float64 { return t * math.Sqrt(chiSquareQuantile(p, df)/float64(df)) }
	middle := root(.5)
	return middle + math.Copysign(math.Hypot(root(1-p)-middle, normalQuantile(p)), .5-p)
}
