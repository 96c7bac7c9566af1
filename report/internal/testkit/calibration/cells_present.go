package calibration

import (
	"fmt"
	"math/rand/v2"
)

// What is measured of the present.
const (
	nextHeld    = "80 % range of the next flight holds"
	nextWidth   = "its width over that with known variances"
	falselyMet  = "gate met at a true half"
	falselyNot  = "gate not met at a true 90 %"
	foundMet    = "gate met at a true 85 %"
	levelAbsent = "no range at all"
)

const thresholdGate = "threshold"

// presentCell asks for the next flight's range and the threshold gate.
func presentCell(t Totals) Cell {
	name := t.Structure.String() + ", " + t.Path.Name
	if t.Shape != Normal {
		name += ", " + t.Shape.String()
	}
	c := Cell{Group: "present", Name: name, Limits: presentLimits(t)}
	c.One = func(r *rand.Rand, p Program, tally Tally) {
		made := t.Make(r)
		l := made.Book()
		if t.Shape == Heaps {
			tally.Saw(falselyMet, p.Ready(l, withThreshold(l, made.Mark(.5))).StateOf(thresholdGate) == "met")
			return
		}
		askNext(p.Season(l), t, made, tally)
		if t.Shape == Zeros {
			return
		}
		state := func(share float64) string {
			return p.Ready(l, withThreshold(l, made.Mark(share))).StateOf(thresholdGate)
		}
		tally.Saw(falselyMet, state(0.5) == "met")
		if t.Path.Rises {
			tally.Saw(falselyNot, state(0.9) == "not met")
		}
		if t.Path.Steady {
			tally.Saw(foundMet, state(0.85) == "met")
		}
	}
	return c
}

func askNext(a Season, t Totals, made Record, tally Tally) {
	if a.Level == nil || !a.Level.Next.Known() {
		tally.Saw(levelAbsent, true)
		tally.Saw(nextHeld, false)
		return
	}
	tally.Saw(levelAbsent, false)
	tally.Saw(nextHeld, a.Level.Next.Holds(made.Next))
	if t.Path.Steady && t.Shape == Normal {
		tally.Measured(nextWidth, a.Level.Next.Width()/t.KnownWidth())
	}
}

// steadyPower are the known prices of the gate at a true steady 85 %, by flights.
var steadyPower = map[int]float64{6: 0.42, 8: 0.52, 12: 0.59, 20: 0.73}

func presentLimits(t Totals) []Limit {
	if t.Shape == Heaps { // one level with chance about it is not what they are
		return []Limit{atMost(falselyMet, 0.12)}
	}
	contests := t.Contests()
	if contests < 4 {
		return threeContests(t)
	}
	limits := []Limit{atMost(levelAbsent, 0)}
	switch {
	case contests == 4:
	case t.Path.Steady && t.Shape == Normal:
		limits = append(limits, within(nextHeld, 0.77, 0.87), ratio(nextWidth, 1.2))
	default:
		limits = append(limits, atLeast(nextHeld, 0.76))
	}
	if t.Shape == Zeros {
		return limits
	}
	switch {
	case t.Path.Wanders:
		limits = append(limits, atMost(falselyMet, 0.12))
	case contests == 4:
		limits = append(limits, atMost(falselyMet, 0.07))
	default:
		limits = append(limits, atMost(falselyMet, 0.06))
	}
	if t.Path.Rises {
		limits = append(limits, atMost(falselyNot, 0))
	}
	if power := steadyPower[t.Flights]; power > 0 && t.Path.Steady && t.Shape == Normal && contests > 4 {
		limits = append(limits, atLeast(foundMet, power))
	}
	return limits
}

// threeContests cannot show a drift: the range holds 70 to 86 %, the gate is never met.
func threeContests(t Totals) []Limit {
	limits := []Limit{atMost(levelAbsent, 0)}
	if t.Path.Steady && t.Shape == Normal {
		limits = append(limits, within(nextHeld, 0.70, 0.86))
	}
	if t.Shape != Zeros {
		limits = append(limits, atMost(falselyMet, 0))
	}
	if t.Path.Steady && t.Shape == Normal {
		limits = append(limits, atMost(foundMet, 0))
	}
	return limits
}

// presentCells are all cells of the present.
func presentCells() []Cell {
	var list []Cell
	for _, s := range structures(presentFlights, []float64{0, 0.3, 0.5}) {
		for _, path := range []Path{Steady, Rise10, Rise20, StepUp, StepDown, Fall10, Fall20, Walk, Waves} {
			list = append(list, presentCell(Totals{Structure: s, Path: path}))
		}
		for _, shape := range []Shape{Heavy, Zeros, Heaps} {
			if shape == Heaps && s.ContestShare > 0 {
				continue // a contest's share would lift the lower heap over the mark
			}
			list = append(list, presentCell(Totals{Structure: s, Path: Steady, Shape: shape}))
		}
	}
	for _, n := range []int{6, 12, 20} {
		late := Structure{Flights: n, PerContest: 1, Late: true}
		for _, path := range []Path{Steady, Rise10, Fall10} {
			list = append(list, presentCell(Totals{Structure: late, Path: path}))
		}
	}
	return list
}

// presentFlights are the lengths of records with one, two and three flights a
// contest: three contests, four, five, and more.
var presentFlights = [][]int{{6, 8, 12, 20, 40}, {6, 8, 10, 12, 20, 40}, {9, 12, 15, 20, 40}}

// structures are records of one, two and three flights a contest, with the
// contest's shares of the variance where they can be seen.
func structures(flights [][]int, shares []float64) []Structure {
	var list []Structure
	for i, lengths := range flights {
		for _, n := range lengths {
			for _, share := range shares {
				if i > 0 || share == 0 {
					list = append(list, Structure{Flights: n, PerContest: i + 1, ContestShare: share})
				}
			}
		}
	}
	return list
}

// trend's words over whole flights.
const (
	trendCalled = "a trend is called"
	trendRight  = "the rise is called"
)

func trendCells() []Cell {
	var list []Cell
	for _, s := range structures([][]int{{8, 12, 20}, {8, 12, 20}, {8, 12, 20}}, []float64{0, 0.2, 0.5}) {
		list = append(list, trendCell(Totals{Structure: s, Path: Steady}, trendCalled, atMost(trendCalled, 0.06)))
	}
	for _, c := range []struct {
		flights     int
		rise, found float64
	}{{12, 3, 0.70}, {20, 3, 0.90}, {20, 2, 0.60}} {
		path := linear(fmt.Sprintf("rises by %.0f SD of a flight", c.rise), c.rise*FlightSD)
		list = append(list, trendCell(Totals{Structure: Structure{Flights: c.flights, PerContest: 1}, Path: path}, trendRight, atLeast(trendRight, c.found)))
	}
	return list
}

func trendCell(t Totals, what string, limit Limit) Cell {
	return Cell{
		Group: "trend", Name: t.Structure.String() + ", " + t.Path.Name, Limits: []Limit{limit},
		One: func(r *rand.Rand, p Program, tally Tally) {
			word := p.Season(t.Make(r).Book()).Trend
			tally.Saw(what, word.Firm() && (what == trendCalled || word.Word == "improving"))
		},
	}
}
