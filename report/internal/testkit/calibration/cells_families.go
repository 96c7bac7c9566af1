package calibration

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"

	"boxbook/season"
)

// What is measured of families.
const (
	someWeaker    = "some family weaker where none is"
	wronglyNamed  = "a figure named that is not weak"
	foundWeaker   = "the weaker family found"
	figuresNamed  = "a figure of the weaker family named"
	trendOfFamily = "a family's trend called where none is"
	riserFound    = "the rising family found"
)

// noFamilyDiffers is a cell in which figures differ and no family does.
func noFamilyDiffers(s Sheets) Cell {
	s.Families = 0
	name := fmt.Sprintf("none differs: %s, %s, figures %.1f, judges %.1f", s.Structure, s.Programmes, s.Figures, s.Judge)
	return Cell{
		Group: "families", Name: name, Limits: []Limit{atMost(someWeaker, 0.10), atMost(wronglyNamed, 0.065)},
		One: func(r *rand.Rand, p Program, t Tally) {
			sheaf := s.Make(r)
			a := p.Families(sheaf.Book())
			t.Saw(someWeaker, slices.ContainsFunc(a.Groups, func(g Family) bool { return g.Weak }))
			t.Saw(wronglyNamed, slices.ContainsFunc(a.Groups, func(g Family) bool {
				return g.WeakFigure != "" && sheaf.named(r, g.WeakFigure) >= 0
			}))
		},
	}
}

// named is the true strength of a figure that is named as SEQUENCE/NUMBER.
func (s *Sheaf) named(r *rand.Rand, name string) float64 {
	handle, number, _ := strings.Cut(name, "/")
	i, err := strconv.Atoi(number)
	at := slices.IndexFunc(s.Sequences, func(q *season.Sequence) bool { return q.Handle == handle })
	if err != nil || at < 0 || i < 1 || i > len(s.Sequences[at].Figures) {
		panic("no such figure: " + name)
	}
	return s.Figure(r, s.Sequences[at], i-1)
}

// aGradeLower is a cell in which one family of so many distinct figures is a grade
// below the others, on one known flown twelve times.
func aGradeLower(figures int, figureSD, found, named float64) Cell {
	s := ordinary(12, 2, 0.3, Steady)
	s.Families, s.Figures = 0, figureSD
	c := Cell{
		Group: "families", Name: fmt.Sprintf("one a grade lower, %d figures, figures %.1f", figures, figureSD),
		Limits: []Limit{atLeast(foundWeaker, found)},
	}
	if named > 0 {
		c.Limits = append(c.Limits, atLeast(figuresNamed, named))
	}
	c.One = func(r *rand.Rand, p Program, t Tally) {
		known, family := s.drawWith(r, figures)
		pilot := s.NewPilot(r)
		pilot.Family[family]--
		a := p.Families(s.Fly(r, pilot, known, nil).Book())
		at := slices.IndexFunc(a.Groups, func(g Family) bool { return g.Group == family })
		t.Saw(foundWeaker, at >= 0 && a.Groups[at].Weak)
		t.Saw(figuresNamed, at >= 0 && (a.Groups[at].Weak || a.Groups[at].WeakFigure != ""))
	}
	return c
}

// drawWith draws a known in which a family stands in so many figures alone or as
// the larger part, and says which family.
func (s Sheets) drawWith(r *rand.Rand, figures int) (*season.Sequence, string) {
	for {
		q := s.Draw(r, "known-1", season.Known)
		for _, i := range r.Perm(len(s.own())) {
			family, large := s.own()[i], 0
			for _, f := range q.Figures {
				if shares(f)[family] >= 0.5 {
					large++
				}
			}
			if large == figures && distinct(q, family) == figures {
				return q, family
			}
		}
	}
}

func familyCells() []Cell {
	var list []Cell
	for _, programmes := range []Programmes{OneKnown, Mixed, TwoKnowns} {
		for _, figures := range []float64{0, 0.4, 0.8} {
			for _, judge := range []float64{0.5, 1} {
				s := ordinary(12, 2, 0.3, Steady)
				s.Programmes, s.Figures, s.Judge = programmes, figures, judge
				list = append(list, noFamilyDiffers(s))
			}
		}
	}
	for _, n := range []Structure{{6, 1, 0}, {20, 3, 0.5}} {
		s := ordinary(n.Flights, n.PerContest, n.ContestShare, Steady)
		list = append(list, noFamilyDiffers(s))
	}
	return append(
		list,
		aGradeLower(2, 0, 0.63, 0.79), aGradeLower(4, 0, 0.91, 0.91),
		aGradeLower(2, 0.4, 0.33, 0), aGradeLower(4, 0.4, 0.61, 0),
	)
}

// familyTrend is a cell of all thirteen families.
func familyTrend(s Sheets, rise float64, limit Limit) Cell {
	s.Own, s.PerSequence = allFamilies, 13
	name := fmt.Sprintf("%s, %s, a contest adds %.1f", s.Structure, s.Programmes, s.ContestFamily)
	if rise > 0 {
		name += fmt.Sprintf(", one rises by %.1f", rise)
	}
	return Cell{
		Group: "families' trend", Name: name, Limits: []Limit{limit},
		One: func(r *rand.Rand, p Program, t Tally) {
			riser := ""
			if rise > 0 {
				riser = pick(r, allFamilies)
			}
			sheaf := s.Fly(r, s.NewPilot(r), nil, func(so *Sheaf, i int) map[string]float64 {
				return map[string]float64{riser: rise * so.At[so.Slots[i].Contest]}
			})
			a := p.Families(sheaf.Book())
			t.Saw(trendOfFamily, slices.ContainsFunc(a.Groups, func(g Family) bool { return g.Group != riser && g.Trend.Firm() }))
			t.Saw(riserFound, slices.ContainsFunc(a.Groups, func(g Family) bool {
				return g.Group == riser && g.Trend.Firm() && g.Trend.Word == "improving"
			}))
		},
	}
}

func familyTrendCells() []Cell {
	var list []Cell
	for _, flights := range []int{12, 20} {
		for perContest := 1; perContest <= 3; perContest++ {
			for _, programmes := range []Programmes{OneKnown, TwoKnowns} {
				for _, contest := range []float64{0, 0.3} {
					s := ordinary(flights, perContest, 0.3, Steady)
					s.Programmes, s.ContestFamily = programmes, contest
					if perContest == 1 {
						s.ContestShare = 0
					}
					list = append(list, familyTrend(s, 0, atMost(trendOfFamily, 0.09)))
				}
			}
		}
	}
	for _, c := range []struct {
		flights, perContest int
		found               float64
	}{{12, 2, 0.30}, {20, 2, 0.65}, {20, 3, 0.65}} {
		s := ordinary(c.flights, c.perContest, 0.3, Steady)
		list = append(list, familyTrend(s, riseOfThree, atLeast(riserFound, c.found)))
	}
	return list
}

// riseOfThree is three standard deviations, over flights, of a family's grade
// less the rest's, in grades: of one figure of the half dozen errors that ordinary
// sheets have.
const riseOfThree = 1.75
