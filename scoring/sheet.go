package scoring

import "math/big"

// LineKind tells a flown figure from the weighted lines beneath the figures.
type LineKind uint8

const (
	// Figure is a figure of the sequence.
	Figure LineKind = iota
	// Positioning is the weighted line for the place in the box.
	Positioning
	// Harmony is the gliders' weighted line, scored like positioning.
	Harmony
)

// String is the kind's word in a ledger.
func (k LineKind) String() string {
	return [...]string{Figure: "figure", Positioning: "positioning", Harmony: "harmony"}[k]
}

// Decision is a chief judge's ruling on a line that the rule style leaves open.
type Decision uint8

const (
	// NoDecision: nothing was ruled.
	NoDecision Decision = iota
	// RuledZero: the line is 0.
	RuledZero
	// RuledFill: the hard zeros are filled.
	RuledFill
)

// Line is one row of a score sheet: a K factor and one mark per judge, in the
// panel's order. Again are the further rows of a figure that was flown several
// times, in practice alone: the line is then worth their mean.
type Line struct {
	Kind     LineKind
	K        int
	Marks    []Mark
	Decision Decision
	Again    [][]Mark
}

// Sheet is all that is needed to score one flight: the figures in order, then
// positioning, then harmony; every line has Judges marks. Penalties are points.
type Sheet struct {
	Judges    int
	Lines     []Line
	Penalties []Decimal
	Style     Style
}

// Maximum is 10 x the sum of all K, weighted lines included.
func (s Sheet) Maximum() int {
	sum := 0
	for _, line := range s.Lines {
		sum += line.K
	}
	return 10 * sum
}

func (s Sheet) penalty() *big.Rat {
	total := new(big.Rat)
	for _, p := range s.Penalties {
		total.Add(total, p.Rat())
	}
	return total
}
