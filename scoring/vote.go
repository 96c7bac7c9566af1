package scoring

// Side says on which side of half the judges of a row stand with their hard
// zeros.
type Side uint8

const (
	// Minority: fewer than half of the judges who gave a mark, none included.
	Minority Side = iota
	// HalfOf: exactly half of them.
	HalfOf
	// Majority: more than half of them.
	Majority
	// Silent: no judge gave a mark.
	Silent
)

// Vote is what the judges of a row saw of a hard zero, before any rule style.
// Given counts the judges who gave a mark, AV and "-" apart; Confirmed says that
// the chief judge confirmed a hard zero, which leaves nothing to count.
type Vote struct {
	Hard, Given int
	Side        Side
	Confirmed   bool
}

// VoteOn counts a row's hard zeros. Whatever speaks of a majority or of half of
// a panel asks it.
func VoteOn(marks []Mark) Vote {
	var v Vote
	for _, m := range marks {
		switch {
		case m.Kind == ConfirmedHardZero:
			v.Confirmed = true
		case m.Kind == HardZero:
			v.Hard++
		}
		if m.given() {
			v.Given++
		}
	}
	switch {
	case v.Given == 0:
		v.Side = Silent
	case 2*v.Hard > v.Given:
		v.Side = Majority
	case 2*v.Hard == v.Given:
		v.Side = HalfOf
	}
	return v
}
