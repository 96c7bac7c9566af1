package simulate

import (
	"math/rand/v2"
	"slices"
)

// Groups are the thirteen families of figures and of rolling elements that a
// trend is drawn for.
var Groups = []string{"1", "2", "2-rolling", "3", "5", "6", "7", "8", "9.1", "hesitation", "9.9", "9.10", "spins"}

// The weighted line of a sequence costs a level of its own, behind the groups'.
const (
	positioningLevel = 13
	levels           = 14
)

// Element is a part of a figure: a code of the open catalogue, its K, and its
// place in Groups.
type Element struct {
	Code  string
	K     int
	Group int
}

// SequenceFigure is a figure as a list of its elements.
type SequenceFigure []Element

// K is the figure's.
func (f SequenceFigure) K() int {
	sum := 0
	for _, e := range f {
		sum += e.K
	}
	return sum
}

// Has reports whether an element of the group is in the figure.
func (f SequenceFigure) Has(group int) bool {
	return slices.ContainsFunc(f, func(e Element) bool { return e.Group == group })
}

// Sequence is a list of figures, and a weighted line of the K Positioning.
type Sequence struct {
	Handle      string
	Figures     []SequenceFigure
	Positioning int
}

// Has reports whether the group is in the sequence.
func (s *Sequence) Has(group int) bool {
	return slices.ContainsFunc(s.Figures, func(f SequenceFigure) bool { return f.Has(group) })
}

// Line is a figure or the weighted line, as its K and each level's part of it.
type Line struct {
	K      float64
	Shares []float64
}

// Lines lists the figures and, last, the weighted line.
func (s *Sequence) Lines() []Line {
	var lines []Line
	for _, f := range s.Figures {
		line := Line{float64(f.K()), make([]float64, levels)}
		for _, e := range f {
			line.Shares[e.Group] += float64(e.K) / line.K
		}
		lines = append(lines, line)
	}
	last := Line{float64(s.Positioning), make([]float64, levels)}
	last.Shares[positioningLevel] = 1
	return append(lines, last)
}

// stock are the figures that sequences are drawn from; their K are invented but
// of the usual size, and a code has one K throughout.
var stock = figureStock()

func figureStock() []SequenceFigure {
	up45, level, down45, spinLine := Element{"1.2.1.1", 8, 0}, Element{"1.1.1.1", 2, 0}, Element{"1.2.2.1", 9, 0}, Element{"1.2.6.3", 8, 0}
	turn180, turn270, turn360 := Element{"2.2.1.1", 4, 1}, Element{"2.3.1.1", 5, 1}, Element{"2.4.1.1", 6, 1}
	rolling180, rolling90 := Element{"2.2.3.1", 22, 2}, Element{"2.1.3.1", 14, 2}
	triangle, wedge := Element{"3.2.1.1", 11, 3}, Element{"3.4.1.1", 15, 3}
	stall, slide := Element{"5.2.1.1", 17, 4}, Element{"6.2.1.1", 15, 5}
	loop, halfLoop, square, diamond := Element{"7.4.1.1", 10, 6}, Element{"7.2.2.1", 6, 6}, Element{"7.4.3.1", 14, 6}, Element{"7.4.4.1", 15, 6}
	cuban, humpty, reverse := Element{"8.5.2.1", 10, 7}, Element{"8.4.1.1", 13, 7}, Element{"8.5.1.1", 11, 7}
	roll, half, quarter := Element{"9.1.3.4", 8, 8}, Element{"9.1.3.2", 4, 8}, Element{"9.1.1.1", 6, 8}
	two, four, eight := Element{"9.2.3.4", 9, 9}, Element{"9.4.3.4", 11, 9}, Element{"9.8.3.4", 14, 9}
	flick, negative := Element{"9.9.3.4", 11, 10}, Element{"9.10.3.4", 13, 11}
	spin, longSpin := Element{"9.11.1.4", 5, 12}, Element{"9.11.1.6", 7, 12}
	return []SequenceFigure{
		{up45},
		{up45, two},
		{up45, flick},
		{down45, half},
		{level, roll},
		{level, four},
		{level, eight},
		{level, flick},
		{level, negative},
		{turn180},
		{turn270},
		{turn360},
		{rolling180},
		{rolling90},
		{triangle},
		{wedge, half},
		{stall},
		{stall, quarter},
		{stall, two},
		{slide},
		{slide, quarter},
		{loop},
		{loop, roll},
		{loop, four},
		{halfLoop, half},
		{square},
		{diamond},
		{halfLoop, negative},
		{cuban, half},
		{cuban, two},
		{humpty},
		{humpty, quarter},
		{humpty, flick},
		{reverse, half},
		{reverse, four},
		{spinLine, spin},
		{spinLine, longSpin},
		{spinLine, spin, quarter},
	}
}

// Draw makes a sequence of figures at random, all different, that has every
// group of must and not the group without (-1 for none).
func Draw(r *rand.Rand, handle string, figures int, must []int, without int) *Sequence {
	open := slices.DeleteFunc(slices.Clone(stock), func(f SequenceFigure) bool { return f.Has(without) })
	r.Shuffle(len(open), func(i, j int) { open[i], open[j] = open[j], open[i] })
	s := &Sequence{Handle: handle, Positioning: 10}
	take := func(i int) {
		s.Figures = append(s.Figures, open[i])
		open = slices.Delete(open, i, i+1)
	}
	for _, group := range must {
		if !s.Has(group) {
			take(slices.IndexFunc(open, func(f SequenceFigure) bool { return f.Has(group) }))
		}
	}
	for len(s.Figures) < figures {
		take(0)
	}
	r.Shuffle(len(s.Figures), func(i, j int) { s.Figures[i], s.Figures[j] = s.Figures[j], s.Figures[i] })
	return s
}
