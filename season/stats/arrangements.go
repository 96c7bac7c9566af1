package stats

import (
	"math"
	"math/rand/v2"
)

// arrangementLimit is how many arrangements of before and after are enumerated,
// and how many are taken where there are more.
const arrangementLimit = 20_000

// wordBits is how many observations before and after fit a word.
const wordBits = 64

// block is a set of units that change places among each other, a bit an
// observation; as many of them stand before as at first.
type block struct {
	units  []uint64
	before int
}

// arrangements are all ways to label observations as before and after: within
// each block units change places, and stays is the part of before that never
// moves.
type arrangements struct {
	blocks []block
	stays  uint64
}

// each visits the arrangements, as the observations before: all of them if there
// are at most arrangementLimit, else that many, the observed one first and the
// others drawn with a fixed seed.
func (a arrangements) each(observed uint64, visit func(before uint64)) (count int, exact bool) {
	if _, exact := a.number(); exact {
		every(a.blocks, a.stays, func(before uint64) {
			count++
			visit(before)
		})
		return count, true
	}
	visit(observed)
	for some := range a.draws(arrangementLimit - 1) {
		for _, before := range some {
			visit(before)
		}
	}
	return arrangementLimit, false
}

// drawnAtOnce is how many arrangements are drawn ahead of the one who looks at them.
const drawnAtOnce = 1_000

// draws draws so many arrangements, beside who takes them, a part at a time; a part
// holds until the next is taken.
func (a arrangements) draws(number int) <-chan []uint64 {
	parts := make(chan []uint64)
	go func() {
		defer close(parts)
		random := rand.NewPCG(1, 1)
		room := make([]uint64, 2*drawnAtOnce)
		for done, at := 0, 0; done < number; done, at = done+drawnAtOnce, (at+drawnAtOnce)%len(room) {
			part := room[at:][:min(drawnAtOnce, number-done)]
			for i := range part {
				part[i] = a.drawn(random)
			}
			parts <- part
		}
	}()
	return parts
}

// drawn is one arrangement at random.
func (a arrangements) drawn(random *rand.PCG) uint64 {
	before := a.stays
	for _, b := range a.blocks {
		before |= b.drawn(random)
	}
	return before
}

// number is how many arrangements each visits, and whether they are all there are.
func (a arrangements) number() (count int, exact bool) {
	p := a.least()
	if p*arrangementLimit >= 1 {
		return int(math.Round(1 / p)), true
	}
	return arrangementLimit, false
}

// least is one of how many arrangements there are.
func (a arrangements) least() float64 {
	p := 1.0
	for _, b := range a.blocks {
		p *= oneOf(len(b.units), b.before)
	}
	return p
}

// every visits all combinations of the blocks' choices.
func every(blocks []block, before uint64, visit func(uint64)) {
	if len(blocks) == 0 {
		visit(before)
		return
	}
	choices(blocks[0].units, blocks[0].before, before, func(with uint64) { every(blocks[1:], with, visit) })
}

// choices visits the choices of some units, each added to what is before.
func choices(units []uint64, some int, before uint64, visit func(uint64)) {
	if some == 0 {
		visit(before)
		return
	}
	for i := 0; i <= len(units)-some; i++ {
		choices(units[i+1:], some-1, before|units[i], visit)
	}
}

// drawn chooses units for before at random: the smaller side is drawn.
func (b block) drawn(random *rand.PCG) uint64 {
	units, some := b.units, min(b.before, len(b.units)-b.before)
	chosen, digits := uint64(0), uint64(0)
	for i := range some {
		if i%2 == 0 {
			digits = random.Uint64() // enough for two places among so few
		}
		at := i + int(digits>>32*uint64(len(units)-i)>>32)
		digits <<= 32
		units[i], units[at] = units[at], units[i]
		chosen |= units[i]
	}
	if some == b.before {
		return chosen
	}
	rest := uint64(0)
	for _, u := range units[some:] {
		rest |= u
	}
	return rest
}

func lowBits(n int) uint64 {
	if n >= wordBits {
		return 1<<wordBits - 1
	}
	return 1<<n - 1
}

func bitOf(set bool, i int) uint64 {
	if set {
		return 1 << i
	}
	return 0
}
