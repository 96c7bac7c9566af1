package calibration

import "math"

// Tally counts what happened in seasons, by the name of what is measured.
type Tally map[string]Count

// Count is of how many something was measured, as sums: of the values, of the
// weights that they are held against (1 for each where none is given), and of their
// squares and products. Of what only happens or does not, the sum is how often.
type Count struct {
	Of                                  int
	Sum, Weight                         float64
	Squares, Products, SquaresOfWeights float64
}

func (c Count) plus(o Count) Count {
	return Count{
		c.Of + o.Of, c.Sum + o.Sum, c.Weight + o.Weight,
		c.Squares + o.Squares, c.Products + o.Products, c.SquaresOfWeights + o.SquaresOfWeights,
	}
}

// Saw notes that something that could happen did, or did not.
func (t Tally) Saw(what string, happened bool) {
	value := 0.0
	if happened {
		value = 1
	}
	t.Measured(what, value)
}

// Measured notes a value.
func (t Tally) Measured(what string, value float64) { t.Part(what, value, 1) }

// Part notes a part of a whole; the mean is then that of all parts over all wholes.
func (t Tally) Part(what string, part, whole float64) {
	t[what] = t[what].plus(Count{1, part, whole, part * part, part * whole, whole * whole})
}

// Add joins another tally.
func (t Tally) Add(o Tally) {
	for what, c := range o {
		t[what] = t[what].plus(c)
	}
}

// Mean is the mean value, or the share in which something happened.
func (c Count) Mean() float64 { return c.Sum / c.Weight }

// Error is the standard error of the mean; of a share the binomial one.
func (c Count) Error() float64 {
	m := c.Mean()
	return math.Sqrt(max(0, c.Squares-2*m*c.Products+m*m*c.SquaresOfWeights)) / c.Weight
}
