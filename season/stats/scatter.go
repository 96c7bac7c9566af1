package stats

import (
	"fmt"
	"math"
)

// Scatter is how one column moves about the others.
type Scatter struct {
	// N counts the rows with a value in this column and in another; Mean and SD
	// are of the value less the mean of the row's other values. Interval bounds
	// the SD; it and SD are 0 when N < 2.
	N        int
	Mean, SD float64
	Interval Interval
}

// ColumnScatter compares each column with the mean of the others, row by row,
// over the rows where both exist. If all columns are equally steady the SD to
// expect is Sigma sqrt(C/(C-1)), Sigma that of [FitTwoWay]. The interval is
// [SDInterval] on N-1 degrees of freedom. The mean difference and the SD are
// given apart because their root mean square mixes level and scatter.
//
// It fails with ErrRange for a confidence outside 0..0.999999, and with ErrShape
// and ErrRange for a table that is none. [derived].
func ColumnScatter(t Table, confidence float64) ([]Scatter, error) {
	if err := checkConfidence(confidence); err != nil {
		return nil, err
	}
	if err := t.check(); err != nil {
		return nil, err
	}
	differences := make([][]float64, t.Columns)
	for _, cells := range t.byRow() {
		for _, i := range cells {
			others := 0.0
			for _, j := range cells {
				if j != i {
					others += t.Cells[j].Value / float64(len(cells)-1)
				}
			}
			if len(cells) > 1 {
				c := t.Cells[i].Column
				differences[c] = append(differences[c], t.Cells[i].Value-others)
			}
		}
	}
	result := make([]Scatter, t.Columns)
	for c, d := range differences {
		s := Scatter{N: len(d)}
		if len(d) > 0 {
			s.Mean = mean(d)
		}
		if len(d) > 1 {
			s.SD = math.Sqrt(sumSquares(d, s.Mean) / float64(len(d)-1))
			s.Interval, _ = SDInterval(s.SD, len(d)-1, confidence)
		}
		result[c] = s
	}
	return result, nil
}

// SDInterval bounds a standard deviation estimated with df degrees of freedom:
// sd sqrt(df/chi2), chi2 the quantiles (1+c)/2 and (1-c)/2. An sd of 0 gives
// 0..0. It fails with ErrTooFew for df < 1 and ErrRange for an sd below 0 or a
// confidence outside 0..0.999999. [derived].
func SDInterval(sd float64, df int, confidence float64) (Interval, error) {
	if err := checkConfidence(confidence); err != nil {
		return Interval{}, err
	}
	if df < 1 {
		return Interval{}, tooFew(df, 1)
	}
	if !(sd >= 0 && sd <= largest) {
		return Interval{}, fmt.Errorf("%w: standard deviation %g", ErrRange, sd)
	}
	f := float64(df)
	return Interval{
		Low:  sd * math.Sqrt(f/chiSquareQuantile((1+confidence)/2, df)),
		High: sd * math.Sqrt(f/chiSquareQuantile((1-confidence)/2, df)),
	}, nil
}
