package stats

import "math/rand/v2"

// changingPlaces are the units that change places between before and after, a
// bit an observation: Units are those that may, Before of them stand before, and
// Stays is the part of before that never moves.
type changingPlaces struct {
	Units  []uint64
	Before int
	Stays  uint64
}

// units are the clusters that lie on one side, those before first; one on both
// sides stays where it is.
func (n Notices) units() changingPlaces {
	var order []int
	masks := map[int]uint64{}
	for i := range len(n.Before) + len(n.After) {
		cluster := i
		if n.Cluster != nil {
			cluster = n.Cluster[i]
		}
		if masks[cluster] == 0 {
			order = append(order, cluster)
		}
		masks[cluster] |= 1 << i
	}
	before := lowBits(len(n.Before))
	var out changingPlaces
	for _, cluster := range order {
		switch mask := masks[cluster]; {
		case mask&before == mask:
			out.Units = append(out.Units, mask)
			out.Before++
		case mask&before == 0:
			out.Units = append(out.Units, mask)
		default:
			out.Stays |= mask & before
		}
	}
	return out
}

// each visits the arrangements with as many units before as there are, as the
// observations before: all of them if there are at most arrangementLimit, else
// that many, the observed one first and the others drawn with a fixed seed.
func (c changingPlaces) each(observed uint64, visit func(before uint64)) (arrangements int, exact bool) {
	if oneOf(len(c.Units), c.Before)*arrangementLimit >= 1 {
		c.every(0, c.Before, c.Stays, func(before uint64) {
			arrangements++
			visit(before)
		})
		return arrangements, true
	}
	visit(observed)
	c.drawn(arrangementLimit-1, visit)
	return arrangementLimit, false
}

// drawn visits arrangements drawn with a fixed seed. The smaller side is drawn.
func (c changingPlaces) drawn(times int, visit func(before uint64)) {
	units, drawn := c.Units, c.Before
	all := uint64(0)
	for _, u := range units {
		all |= u
	}
	fewerAfter := c.Before > len(units)-c.Before
	if fewerAfter {
		drawn = len(units) - c.Before
	}
	random := rand.NewPCG(1, 1)
	for range times {
		chosen, bits := uint64(0), uint64(0)
		for i := range drawn {
			if i%2 == 0 {
				bits = random.Uint64() // enough for two places among so few
			}
			at := i + int(bits>>32*uint64(len(units)-i)>>32)
			bits <<= 32
			units[i], units[at] = units[at], units[i]
			chosen |= units[i]
		}
		if fewerAfter {
			chosen = all &^ chosen
		}
		visit(c.Stays | chosen)
	}
}

// every chooses some of the units from one on.
func (c changingPlaces) every(from, choose int, before uint64, visit func(uint64)) {
	if choose == 0 {
		visit(before)
		return
	}
	for i := from; i <= len(c.Units)-choose; i++ {
		c.every(i+1, choose-1, before|c.Units[i], visit)
	}
}
