package calibration

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"boxbook/season"
)

// part is an element as it can be flown: its code, its K, its family.
type part struct {
	code string
	k    int
}

// bases are what a figure can be built on, by family; K are invented, of the
// usual size.
var bases = map[string][]part{
	"1":         {{"1.1.1.1", 2}, {"1.2.1.1", 8}, {"1.2.2.1", 9}},
	"2":         {{"2.2.1.1", 4}, {"2.3.1.1", 5}, {"2.4.1.1", 6}},
	"2-rolling": {{"2.1.3.1", 14}, {"2.2.3.1", 22}},
	"3":         {{"3.2.1.1", 11}, {"3.4.1.1", 15}},
	"5":         {{"5.2.1.1", 17}},
	"6":         {{"6.2.1.1", 15}},
	"7":         {{"7.4.1.1", 10}, {"7.2.2.1", 6}, {"7.4.3.1", 14}, {"7.4.4.1", 15}},
	"8":         {{"8.5.2.1", 10}, {"8.4.1.1", 13}, {"8.5.1.1", 11}},
}

// rolls are what can be put on a base.
var rolls = map[string][]part{
	"9.1":        {{"9.1.3.4", 8}, {"9.1.3.2", 4}, {"9.1.1.1", 6}},
	"hesitation": {{"9.2.3.4", 9}, {"9.4.3.4", 11}, {"9.8.3.4", 14}},
	"9.9":        {{"9.9.3.4", 11}},
	"9.10":       {{"9.10.3.4", 13}},
	"spins":      {{"9.11.1.4", 5}, {"9.11.1.6", 7}},
}

// carries are the bases that a roll is put on; a spin has its own.
var carries = []string{"1", "1", "5", "7", "8", "8"}

// clubFamilies are what an ordinary aeroplane is flown through; allFamilies are
// all thirteen.
var (
	clubFamilies = []string{"1", "2", "5", "7", "8", "9.1", "hesitation", "9.9", "spins"}
	allFamilies  = season.Groups
)

func pick[T any](r *rand.Rand, list []T) T { return list[r.IntN(len(list))] }

func elementOf(p part) season.Element {
	return season.Element{Code: p.code, Group: season.GroupOf(p.code), K: p.k, Parts: 1}
}

func figureOf(parts ...part) season.Figure {
	var f season.Figure
	for _, p := range parts {
		f.K += p.k
		f.Elements = append(f.Elements, elementOf(p))
	}
	return f
}

// figureWith draws a figure that has the family. A roll stands on a base; a base
// of two families in three has a roll on it, where those rolls are flown.
func figureWith(r *rand.Rand, family string, families []string) season.Figure {
	if family == "spins" {
		return figureOf(part{"1.2.6.3", 8}, pick(r, rolls["spins"]))
	}
	if roll, ok := rolls[family]; ok {
		return figureOf(pick(r, bases[pick(r, carries)]), pick(r, roll))
	}
	base := pick(r, bases[family])
	on := pick(r, []string{"9.1", "hesitation", "9.9"})
	if slices.Contains(carries, family) && slices.Contains(families, on) && r.Float64() < 0.4 {
		return figureOf(base, pick(r, rolls[on]))
	}
	return figureOf(base)
}

// draw makes a sequence: first a figure for each family of must, then of any of
// the families, shuffled, no two of the same elements.
func draw(r *rand.Rand, handle string, programme season.Programme, figures int, must, families []string) *season.Sequence {
	s := &season.Sequence{Handle: handle, Category: Category, Programme: programme}
	seen := map[string]bool{}
	for len(s.Figures) < figures {
		family := pick(r, families)
		if len(s.Figures) < len(must) {
			family = must[len(s.Figures)]
		}
		f := figureWith(r, family, families)
		if key := fmt.Sprint(f); !seen[key] || r.Float64() < 0.05 {
			seen[key] = true
			s.Figures = append(s.Figures, f)
		}
	}
	r.Shuffle(len(s.Figures), func(i, j int) { s.Figures[i], s.Figures[j] = s.Figures[j], s.Figures[i] })
	return s
}

// shares are the parts of a figure's K by family.
func shares(f season.Figure) map[string]float64 {
	out := map[string]float64{}
	for _, e := range f.Elements {
		out[e.Group] += float64(e.K) / float64(f.K)
	}
	return out
}

// has reports whether a figure has an element of the family.
func has(f season.Figure, family string) bool {
	return slices.ContainsFunc(f.Elements, func(e season.Element) bool { return e.Group == family })
}

// distinct counts the figures of a sequence that have the family.
func distinct(s *season.Sequence, family string) int {
	n := 0
	for _, f := range s.Figures {
		if has(f, family) {
			n++
		}
	}
	return n
}
