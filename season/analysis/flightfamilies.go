package analysis

import (
	"math/big"
	"slices"

	"boxbook/season"
)

// FlightFamily is one trend group in one flight: the K of its elements in decided
// figures, and the percent of the top grade, weighed by it. Group is "" for
// elements of no group.
type FlightFamily struct {
	Group   string
	K       *big.Rat
	Percent *big.Rat
}

// FlightFamilies are the groups of a flight's decided figures that weigh
// anything, in the order in which they were flown.
func FlightFamilies(f *season.Flight) []FlightFamily {
	var families []FlightFamily
	add := func(e season.Element, mean *big.Rat) {
		if e.K == 0 {
			return
		}
		i := slices.IndexFunc(families, func(o FlightFamily) bool { return o.Group == e.Group })
		if i < 0 {
			i = len(families)
			families = append(families, FlightFamily{e.Group, new(big.Rat), new(big.Rat)})
		}
		families[i].K.Add(families[i].K, e.ShareK())
		families[i].Percent.Add(families[i].Percent, new(big.Rat).Mul(e.ShareK(), mean))
	}
	score := f.Score()
	for i, index := range f.Flown() {
		if mean := score.Lines[i].Mean; mean != nil {
			for _, e := range f.Sequence.Figures[index].Elements {
				add(e, mean)
			}
		}
	}
	for _, family := range families {
		family.Percent.Mul(family.Percent.Quo(family.Percent, family.K), big.NewRat(10, 1))
	}
	return families
}
