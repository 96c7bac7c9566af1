package stats

import (
	"fmt"
	"math"
	"slices"
)

// Polish is an additive fit of a table by medians: value = Overall + row +
// column + residual.
type Polish struct {
	Overall       float64
	Rows, Columns []float64
	// Residuals are in the order of the table's cells.
	Residuals []float64
	// Sweeps counts the rounds; Converged is false when the last allowed one
	// still changed the residuals by 1 % or more.
	Sweeps    int
	Converged bool
}

// polishSweeps and polishChange are the limits of R's medpolish.
const (
	polishSweeps = 10
	polishChange = 0.01
)

// MedianPolish sweeps medians out of rows and columns in turn until the sum of
// the residuals' sizes changes by less than 1 %, in at most ten rounds. Gaps are
// skipped. A wild value hardly moves the effects, so it shows in its residual.
//
// Every row and every column needs a value, else ErrTooFew; a table that is none
// gives ErrShape or ErrRange. Tukey 1977 [memory] [derived: r, medpolish]
// with na.rm=TRUE, whose order of steps it follows.
func MedianPolish(t Table) (Polish, error) {
	if err := t.check(); err != nil {
		return Polish{}, err
	}
	rows, columns := t.byRow(), t.byColumn()
	for _, line := range append(append([][]int{}, rows...), columns...) {
		if len(line) == 0 {
			return Polish{}, fmt.Errorf("%w: an empty row or column", ErrTooFew)
		}
	}
	if len(t.Cells) == 0 {
		return Polish{}, tooFew(0, 1)
	}
	p := Polish{
		Rows:      make([]float64, t.Rows),
		Columns:   make([]float64, t.Columns),
		Residuals: t.values(),
	}
	before := 0.0
	for p.Sweeps < polishSweeps && !p.Converged {
		p.Sweeps++
		p.sweep(rows, p.Rows)
		p.moveMedian(p.Columns)
		p.sweep(columns, p.Columns)
		p.moveMedian(p.Rows)
		after := 0.0
		for _, r := range p.Residuals {
			after += math.Abs(r)
		}
		p.Converged = after == 0 || math.Abs(after-before) < polishChange*after
		before = after
	}
	return p, nil
}

// sweep moves the median of each line's residuals into its effect.
func (p *Polish) sweep(lines [][]int, effects []float64) {
	var values []float64
	for k, cells := range lines {
		values = values[:0]
		for _, i := range cells {
			values = append(values, p.Residuals[i])
		}
		slices.Sort(values)
		m := medianSorted(values)
		effects[k] += m
		for _, i := range cells {
			p.Residuals[i] -= m
		}
	}
}

// moveMedian moves the median of the effects into the overall value.
func (p *Polish) moveMedian(effects []float64) {
	m := medianSorted(sorted(effects))
	p.Overall += m
	for k := range effects {
		effects[k] -= m
	}
}
