package stats

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// What stands here is asked by no command: other methods are checked against it.

// Fit is a least squares fit of n observations on p columns.
type Fit struct {
	// Coef are the p coefficients.
	Coef []float64
	// RSS is the weighted sum of squared residuals, the weights scaled to mean
	// 1; DF is n - p; Sigma is sqrt(RSS/DF).
	RSS, Sigma float64
	DF         int

	// root is p by p with root root' = (X'WX)^-1.
	root *mat.Dense
	// weightScale is what a weight is multiplied with to have mean 1.
	weightScale float64
}

// Prediction is a new observation predicted by a fit.
type Prediction struct {
	// Value is the expected observation, SE the standard deviation of the
	// observation about it, Interval the range it will fall in.
	Value, SE float64
	Interval  Interval
}

// dependent is how small a pivot of the scaled triangular factor may be before
// the columns count as dependent.
const dependent = 1e-13

// LeastSquares minimises sum w (y - Xb)^2 by a QR factorisation of sqrt(W)X with
// its columns scaled to length 1; Sigma^2 = RSS/(n-p).
//
// x has n rows of p columns (include a column of ones for an intercept), y has n
// values, w has n weights above 0 or is nil for equal ones. Only the ratios of
// the weights matter: they are scaled to mean 1 first.
//
// It fails with ErrTooFew unless n > p, ErrSingular when the columns depend on
// each other, ErrShape for ragged or different lengths or p = 0, ErrRange for
// numbers out of range.
//
// [derived]; its values [published: nist-strd, Norris; nist-strd, NoInt1,
// NoInt2; nist-strd, Longley; nist-strd, Wampler1, Wampler3], the weighted ones
// [derived: r, lm].
func LeastSquares(x [][]float64, y, w []float64) (*Fit, error) {
	if err := checkDesign(x, y, w); err != nil {
		return nil, err
	}
	n, p := len(x), len(x[0])
	f := &Fit{DF: n - p, weightScale: 1}
	if w != nil {
		f.weightScale = 1 / mean(w)
	}
	design := mat.NewDense(n, p, nil)
	target := mat.NewVecDense(n, nil)
	for i, row := range x {
		r := math.Sqrt(f.weight(w, i))
		target.SetVec(i, r*y[i])
		for j, v := range row {
			design.Set(i, j, r*v)
		}
	}
	if err := f.solve(design, target); err != nil {
		return nil, err
	}
	f.finish(x, y, w)
	return f, checkValues(f.Coef, []float64{f.Sigma})
}

// Line is [LeastSquares] of y on a constant and x: Coef[0] is the intercept,
// Coef[1] the slope. It needs three points, and fails with ErrSingular when all
// x are equal.
func Line(x, y, w []float64) (*Fit, error) {
	rows := make([][]float64, len(x))
	for i, v := range x {
		rows[i] = []float64{1, v}
	}
	return LeastSquares(rows, y, w)
}

// Predict predicts an observation at x0 (p values) of weight w0, on the scale of
// the weights the fit was given; without weights 1 is an ordinary observation.
//
//	var = s^2 (1/w0 + x0'(X'WX)^-1 x0),  t with n - p degrees of freedom
//
// It fails with ErrShape for an x0 of another length and ErrRange for numbers or
// a confidence out of range. [derived: r, lm; statsmodels,
// WLS].
func (f *Fit) Predict(x0 []float64, w0, confidence float64) (Prediction, error) {
	if err := checkConfidence(confidence); err != nil {
		return Prediction{}, err
	}
	if err := checkSameLength(len(x0), len(f.Coef)); err != nil {
		return Prediction{}, err
	}
	if err := errors.Join(checkValues(x0), checkPositive([]float64{w0})); err != nil {
		return Prediction{}, err
	}
	value := f.at(x0)
	se := f.Sigma * math.Sqrt(1/(w0*f.weightScale)+f.spread(x0))
	half := studentCritical(confidence, f.DF) * se
	p := Prediction{Value: value, SE: se, Interval: Interval{value - half, value + half}}
	return p, checkValues([]float64{p.Value, p.SE, p.Interval.Low, p.Interval.High})
}

func checkDesign(x [][]float64, y, w []float64) error {
	if err := checkSameLength(len(x), len(y)); err != nil {
		return err
	}
	if w != nil {
		if err := checkSameLength(len(x), len(w)); err != nil {
			return err
		}
	}
	if len(x) == 0 {
		return tooFew(0, 1)
	}
	p := len(x[0])
	if p == 0 {
		return fmt.Errorf("%w: no columns", ErrShape)
	}
	for _, row := range x {
		if err := checkSameLength(len(row), p); err != nil {
			return err
		}
	}
	if len(x) <= p {
		return tooFew(len(x), p+1)
	}
	return errors.Join(checkValues(x...), checkValues(y), checkPositive(w))
}

func (f *Fit) weight(w []float64, i int) float64 {
	if w == nil {
		return 1
	}
	return w[i] * f.weightScale
}

// solve finds the coefficients and the root of (X'WX)^-1. Columns of length 1
// make the size of the triangular factor's pivots tell dependence.
func (f *Fit) solve(design *mat.Dense, target *mat.VecDense) error {
	n, p := design.Dims()
	length := make([]float64, p)
	for j := range p {
		length[j] = mat.Norm(design.ColView(j), 2)
		if !(length[j] >= 1/largest) {
			return fmt.Errorf("%w: column %d is zero", ErrSingular, j)
		}
		for i := range n {
			design.Set(i, j, design.At(i, j)/length[j])
		}
	}
	var qr mat.QR
	qr.Factorize(design)
	upper, err := pivots(&qr, p)
	if err != nil {
		return err
	}
	var solution mat.VecDense
	if err := qr.SolveVecTo(&solution, false, target); !solved(err) {
		return fmt.Errorf("%w: %v", ErrSingular, err)
	}
	var inverse mat.TriDense
	if err := inverse.InverseTri(upper); !solved(err) {
		return fmt.Errorf("%w: %v", ErrSingular, err)
	}
	f.root = mat.NewDense(p, p, nil)
	f.Coef = make([]float64, p)
	for i := range p {
		f.Coef[i] = solution.AtVec(i) / length[i]
		for j := i; j < p; j++ {
			f.root.Set(i, j, inverse.At(i, j)/length[i])
		}
	}
	return nil
}

// pivots extracts the triangular factor and refuses one with a vanishing pivot.
func pivots(qr *mat.QR, p int) (*mat.TriDense, error) {
	var r mat.Dense
	qr.RTo(&r)
	upper := mat.NewTriDense(p, mat.Upper, nil)
	for i := range p {
		if math.Abs(r.At(i, i)) < dependent {
			return nil, fmt.Errorf("%w: column %d follows from those before it", ErrSingular, i)
		}
		for j := i; j < p; j++ {
			upper.SetTri(i, j, r.At(i, j))
		}
	}
	return upper, nil
}

// finish works out the spread about the fit.
func (f *Fit) finish(x [][]float64, y, w []float64) {
	for i, row := range x {
		r := y[i] - f.at(row)
		f.RSS += f.weight(w, i) * r * r
	}
	f.Sigma = math.Sqrt(f.RSS / float64(f.DF))
}

// at is the expected observation at x0.
func (f *Fit) at(x0 []float64) float64 {
	value := 0.0
	for j, b := range f.Coef {
		value += b * x0[j]
	}
	return value
}

// spread is x0'(X'WX)^-1 x0.
func (f *Fit) spread(x0 []float64) float64 {
	var v mat.VecDense
	v.MulVec(f.root.T(), mat.NewVecDense(len(x0), x0))
	return mat.Dot(&v, &v)
}
