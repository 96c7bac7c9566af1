package calibration

import "math"

// Tally counts what happened in seasons, by the name of what is measured.
type Tally map[string]Count

// Count is of how many something held, and the sum of what was measured and of
// its squares; for what only happens or does not, the sum is how often.
type Count struct {
	Of           int     `json:"of"`
	Sum, Squares float64 `json:",omitempty"`
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
func (t Tally) Measured(what string, value float64) {
	c := t[what]
	t[what] = Count{c.Of + 1, c.Sum + value, c.Squares + value*value}
}

// Add joins another tally.
func (t Tally) Add(o Tally) {
	for what, c := range o {
		old := t[what]
		t[what] = Count{old.Of + c.Of, old.Sum + c.Sum, old.Squares + c.Squares}
	}
}

// Mean is the mean value, or the share in which something happened.
func (c Count) Mean() float64 { return c.Sum / float64(c.Of) }

// Error is the standard error of the mean; of a share the binomial one.
func (c Count) Error() float64 {
	n := float64(c.Of)
	return math.Sqrt(max(0, c.Squares/n-c.Mean()*c.Mean()) / n)
}
