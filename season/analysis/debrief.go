package analysis

import (
	"math/big"
	"slices"

	"boxbook/season"
)

// CostlyFault is a fault noted on a flight with the points that it takes: its
// deduction x K, of the figure after it too where its kind costs that one the same.
type CostlyFault struct {
	Fault  season.NotedFault
	Points *big.Rat
}

// DearestFaults are a flight's noted faults that take points, the dearest first,
// of equals in the order noted. What has no price is not among them.
func DearestFaults(f *season.Flight) []CostlyFault {
	var found []CostlyFault
	for _, c := range f.Charges() {
		points := new(big.Rat).Mul(c.Deduction, big.NewRat(int64(f.FigureK(c.Figure)), 1))
		if c.Carried {
			last := &found[len(found)-1]
			last.Points = points.Add(points, last.Points)
			continue
		}
		found = append(found, CostlyFault{c.Fault, points})
	}
	found = slices.DeleteFunc(found, func(c CostlyFault) bool { return c.Points.Sign() == 0 })
	slices.SortStableFunc(found, func(a, b CostlyFault) int { return b.Points.Cmp(a.Points) })
	return found
}
