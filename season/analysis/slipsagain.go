package analysis

import (
	"math/big"
	"slices"
)

// SlipChance is how often an amount alone would explain a difference: of as many
// differences as are as round, and as near or within a hundred steps, Reached is how many
// the Tried lines do.
type SlipChance struct {
	Tried       int64
	Reached, Of int64
}

// Share is Reached of Of.
func (c SlipChance) Share() *big.Rat { return big.NewRat(c.Reached, c.Of) }

// byAmountAlone says of the counts that nothing explains which lines would by their amount:
// once more, where the bank may have paid twice, or a second slip not be typed; the other
// way round, unless two of the amount, of which neither moved, are likelier; or with its
// point one or two places elsewhere. No more than the amount speaks for those, so they come
// last of what one line may be; none moved twice where a debt of as much is open.
func byAmountAlone(moved moneyMoved, counts []InHandYear) {
	for i := range counts {
		h := &counts[i]
		if !h.newlyOff() || len(h.Slips) > 0 {
			continue
		}
		found := h.Compared.New()
		s := slipSearch{moved: moved, missing: found, after: h.Compared.After, upTo: h.Date}
		var turned, pointed []Slip
		for _, line := range moved.past(found.Currency) {
			if !s.within(line.Date) {
				continue
			}
			s.lines = append(s.lines, line)
			s.add(neverMoved, line.Moved.Minor, 0)
			if line.Moved.Minor == found.Minor && len(h.Untyped) == 0 {
				again := line
				again.Again = true
				h.Slips = append(h.Slips, again)
			}
			s.add(otherWay, -2*line.Moved.Minor, 0)
			if -2*line.Moved.Minor == found.Minor {
				turn := line
				turn.Turned = true
				turned = append(turned, turn)
			}
			typed := line.typed()
			for _, meant := range typed.PointMoved() {
				minor := line.Moved.Minor / typed.Minor * (meant.Minor - typed.Minor)
				s.add(otherPoint, minor, meant.Minor)
				if minor == found.Minor {
					point := line
					point.Typed, point.MeantAmount, point.Pointed = typed, meant, true
					pointed = append(pointed, point)
				}
			}
		}
		if len(turned) > 1 {
			turned = nil
		}
		if h.Slips = append(append(h.Slips, turned...), pointed...); len(h.Slips) > 0 {
			chance := s.alone()
			h.ByChance = &chance
		}
	}
}

// alone is how often one of the slips explains a difference by its amount.
func (s *slipSearch) alone() SlipChance {
	s.joinAlike()
	step := roundTo(s.missing.Minor)
	near := max(s.missing.Minor, -s.missing.Minor, nearSteps*step)
	c := SlipChance{Of: 2 * (near / step)}
	var reached []int64
	for _, m := range s.all {
		if m.second {
			continue
		}
		if m.kind == neverMoved {
			c.Tried += int64(m.lines) // each line has one
		}
		if m.minor%step == 0 && m.minor >= -near && m.minor <= near {
			reached = append(reached, m.minor)
		}
	}
	slices.Sort(reached)
	c.Reached = int64(len(slices.Compact(reached)))
	return c
}
