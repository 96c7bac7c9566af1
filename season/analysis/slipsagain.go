package analysis

import (
	"math/big"
	"slices"
)

// SlipChance is how often an amount alone would explain a difference: of as many
// differences as are as round, and as near or within a hundred steps, Reached is how many
// the Tried lines do, those that are alike counted once.
type SlipChance struct {
	Tried       int64
	Reached, Of int64
}

// Share is Reached of Of.
func (c SlipChance) Share() *big.Rat { return big.NewRat(c.Reached, c.Of) }

// movedAgain says of the counts that nothing explains of which lines the amount once more
// does: the bank may have paid twice, or a second slip not be typed. Only the amount speaks
// for that, so it comes last of what one line may be.
func movedAgain(moved moneyMoved, counts []InHandYear) {
	for i := range counts {
		h := &counts[i]
		if h.Compared == nil || h.again != 0 || len(h.Slips) > 0 || h.Compared.New().Minor == 0 || h.Compared.Off().Minor == 0 {
			continue
		}
		found := h.Compared.New()
		s := slipSearch{moved: moved, missing: found, after: h.Compared.After, upTo: h.Date}
		for _, line := range moved.past(found.Currency) {
			if !s.within(line.Date) {
				continue
			}
			s.lines = append(s.lines, line)
			s.add(neverMoved, line.Moved.Minor, 0)
			if line.Moved.Minor == found.Minor {
				line.Again = true
				h.Slips = append(h.Slips, line)
			}
		}
		if len(h.Slips) > 0 {
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
		c.Tried++
		if m.minor%step == 0 && m.minor >= -near && m.minor <= near {
			reached = append(reached, m.minor)
		}
	}
	slices.Sort(reached)
	c.Reached = int64(len(slices.Compact(reached)))
	return c
}
