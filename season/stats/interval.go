package stats

import "math"

// Interval is a closed range of numbers.
type Interval struct {
	Low, High float64
}

// Clip cuts the interval down to low..high; an interval wholly outside becomes
// the nearer end twice.
func (i Interval) Clip(low, high float64) Interval {
	return Interval{
		Low:  math.Min(math.Max(i.Low, low), high),
		High: math.Max(math.Min(i.High, high), low),
	}
}
