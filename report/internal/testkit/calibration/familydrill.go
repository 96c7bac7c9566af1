package calibration

import (
	"math/rand/v2"

	"boxbook/season"
)

// FamilyDrill is a record of sheets with a drill on a family.
type FamilyDrill struct {
	Sheets
	// Before and After are the flights on each side, those that gave rise to the
	// drill apart.
	Before, After int
	Worst         bool    // on the family that stood worst in the latest four; else on any
	Gain          float64 // grades, since the drill
}

// leastRest is how many figures without a family a flight must have, so that they
// are the rest that the family is held against.
const leastRest = 3

// AgainstRest is a family's mean grade in a flight less that of all figures without
// it; false where too few are left, or the family was not flown.
func AgainstRest(f Flown, family string) (float64, bool) {
	own, ownK, rest, restK, others := 0.0, 0.0, 0.0, 0.0, 0
	for i, figure := range f.Sequence.Figures {
		if f.Marks[i] == nil {
			continue
		}
		mean := meanGrade(f.Marks[i])
		if k := shares(figure)[family] * float64(figure.K); k > 0 {
			own, ownK = own+k*mean, ownK+k
			continue
		}
		rest, restK, others = rest+float64(figure.K)*mean, restK+float64(figure.K), others+1
	}
	if ownK == 0 || others < leastRest {
		return 0, false
	}
	return own/ownK - rest/restK, true
}

func meanGrade(halves []int) float64 {
	sum := 0
	for _, half := range halves {
		sum += half
	}
	return float64(sum) / float64(2*len(halves))
}

// Make draws the record and its ledger with the drill.
func (d FamilyDrill) Make(r *rand.Rand) (*season.Ledger, string) {
	before, target := d.Before+prompting, ""
	d.Flights = before + d.After
	sheaf := d.Fly(r, d.NewPilot(r), nil, func(so *Sheaf, flight int) map[string]float64 {
		if flight == before {
			target = d.target(r, so.Flights)
		}
		return map[string]float64{target: d.Gain}
	})
	l := sheaf.Book()
	l.Drills = []*season.Drill{{Date: season.Date(sheaf.Flights[before-1].Day + 1), Pilot: l.Pilots[0], Target: target}}
	return l, target
}

func (d FamilyDrill) target(r *rand.Rand, flown []Flown) string {
	var can []string
	for _, family := range d.own() {
		if _, ok := AgainstRest(flown[len(flown)-1], family); ok {
			can = append(can, family)
		}
	}
	if !d.Worst {
		return pick(r, can)
	}
	worst, lowest := "", 0.0
	for _, family := range can {
		sum := 0.0
		for _, f := range flown[len(flown)-prompting:] {
			v, _ := AgainstRest(f, family)
			sum += v
		}
		if worst == "" || sum < lowest {
			worst, lowest = family, sum
		}
	}
	return worst
}
