package simulate

// restFigures is how many figures without a family a flight needs for a
// comparison.
const restFigures = 3

// Gap is a family's percent less that of the rest of the same flight, from the
// panel's grades: the family's figures weighted by the K of its elements there,
// the rest, all figures with no element of it, by their own K. It reports false
// where the flight has no such figure, or fewer than three others.
func (f Flown) Gap(group int) (float64, bool) {
	own, ownK, rest, restK, others := 0.0, 0.0, 0.0, 0.0, 0
	for i, grade := range MeanGrades(f.Grades[:len(f.Sequence.Figures)]) {
		k := 0
		for _, e := range f.Sequence.Figures[i] {
			if e.Group == group {
				k += e.K
			}
		}
		if k > 0 {
			own, ownK = own+10*grade*float64(k), ownK+float64(k)
			continue
		}
		all := float64(f.Sequence.Figures[i].K())
		rest, restK = rest+10*grade*all, restK+all
		others++
	}
	if ownK == 0 || others < restFigures {
		return 0, false
	}
	return own/ownK - rest/restK, true
}
