package calibration

import (
	"fmt"
	"math"
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
	otherWeaker   = "another family than the lower one called weaker"
	figuresNamed  = "a figure of the weaker family named"
	trendOfFamily = "a family's trend called where none is"
	riserFound    = "the rising family found"
)

// nothing is what sums of floats may differ by.
const nothing = 1e-9

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
				return g.WeakFigure != "" && sheaf.named(r, g.WeakFigure) >= -nothing
			}))
		},
	}
}

// named is the true strength of a figure that is named as SEQUENCE/NUMBER, about the
// means of the flights that had it: in these only it can be seen.
func (s *Sheaf) named(r *rand.Rand, name string) float64 {
	handle, number, _ := strings.Cut(name, "/")
	i, err := strconv.Atoi(number)
	at := slices.IndexFunc(s.Sequences, func(q *season.Sequence) bool { return q.Handle == handle })
	if err != nil || at < 0 || i < 1 || i > len(s.Sequences[at].Figures) {
		panic("no such figure: " + name)
	}
	q := s.Sequences[at]
	mean := 0.0
	for j, f := range q.Figures {
		mean += s.Figure(r, q, j) * float64(f.K) / float64(q.K())
	}
	return s.Figure(r, q, i-1) - mean
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

// drawWith draws a known of eleven figures in which a family stands in so many, by
// turns alone and with a roll, and in no other; it says which family.
func (s Sheets) drawWith(r *rand.Rand, figures int) (*season.Sequence, string) {
	family := pick(r, []string{"7", "8"})
	others := slices.DeleteFunc(slices.Clone(s.own()), func(g string) bool { return g == family })
	for {
		q := draw(r, "known-1", season.Known, 11-figures, others[:min(len(others), 11-figures)], others)
		if distinct(q, family) > 0 {
			continue
		}
		for i := range figures {
			f := figureOf(bases[family][(i+r.IntN(2))%len(bases[family])])
			if i%2 == 1 {
				f = figureOf(pick(r, bases[family][1:]), pick(r, rolls[pick(r, []string{"9.1", "hesitation"})]))
			}
			q.Figures = append(q.Figures, f)
		}
		return q, family
	}
}

// sharesItsFigures is a cell in which spins, each of which begins with a line, are so much
// lower, or lines, of which two begin a spin: the other family is to be let alone.
func sharesItsFigures(lower string, by, found float64) Cell {
	s := ordinary(12, 2, 0.3, Steady)
	s.Families, s.Figures = 0, 0
	return Cell{
		Group: "families", Name: fmt.Sprintf("%s %.1f grades lower, which share figures", lower, by),
		Limits: []Limit{atMost(otherWeaker, 0.02), atLeast(foundWeaker, found)},
		One: func(r *rand.Rand, p Program, t Tally) {
			known := s.drawSpins(r)
			pilot := s.NewPilot(r)
			pilot.Family[lower] -= by
			a := p.Families(s.Fly(r, pilot, known, nil).Book())
			t.Saw(otherWeaker, slices.ContainsFunc(a.Groups, func(g Family) bool { return g.Weak && g.Group != lower }))
			t.Saw(foundWeaker, slices.ContainsFunc(a.Groups, func(g Family) bool { return g.Weak && g.Group == lower }))
		},
	}
}

// drawSpins draws a known of eleven figures with two spins and three other lines, which
// little of a figure's K is of.
func (s Sheets) drawSpins(r *rand.Rand) *season.Sequence {
	for {
		q := draw(r, "known-1", season.Known, 8, []string{"spins", "spins"}, []string{"2", "5", "7", "8"})
		for _, roll := range []string{"9.1", "9.9", "hesitation"} {
			q.Figures = append(q.Figures, figureOf(pick(r, bases["1"]), pick(r, rolls[roll])))
		}
		if distinct(q, "1") == 5 {
			return q
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
	for _, n := range []Structure{{Flights: 6, PerContest: 1}, {Flights: 20, PerContest: 3, ContestShare: 0.5}} {
		s := ordinary(n.Flights, n.PerContest, n.ContestShare, Steady)
		list = append(list, noFamilyDiffers(s))
	}
	return append(
		list,
		aGradeLower(2, 0, 0.63, 0.79), aGradeLower(4, 0, 0.91, 0.91),
		aGradeLower(2, 0.4, 0.33, 0), aGradeLower(4, 0.4, 0.61, 0),
		sharesItsFigures("spins", 2.5, 0.22), sharesItsFigures("1", 1, 0.33),
	)
}

// familyTrend is a cell of all thirteen families.
func familyTrend(s Sheets, rises bool, limit Limit) Cell {
	s.Own, s.PerSequence = allFamilies, 13
	name := fmt.Sprintf("%s, %s, a contest adds %.1f", s.Structure, s.Programmes, s.ContestFamily)
	if rises {
		name += ", one rises by 3 SD"
	}
	return Cell{
		Group: "families' trend", Name: name, Limits: []Limit{limit},
		One: func(r *rand.Rand, p Program, t Tally) {
			known, riser, rise := s.Draw(r, "known-1", season.Known), "", 0.0
			if rises {
				riser = pick(r, allFamilies)
				rise = 3 * s.againstRestSD(known, riser)
			}
			sheaf := s.Fly(r, s.NewPilot(r), known, func(so *Sheaf, i int) map[string]float64 {
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
					list = append(list, familyTrend(s, false, atMost(trendOfFamily, 0.09)))
				}
			}
		}
	}
	for _, c := range []struct {
		flights, perContest int
		found               float64
	}{{12, 2, 0.30}, {20, 2, 0.65}, {20, 3, 0.65}} {
		s := ordinary(c.flights, c.perContest, 0.3, Steady)
		list = append(list, familyTrend(s, true, atLeast(riserFound, c.found)))
	}
	return list
}

// againstRestSD is the standard deviation, over flights, of a family's mean grade
// less the rest's, as a change of the family's own strength: a figure that it shares
// shows only its part.
func (s Sheets) againstRestSD(q *season.Sequence, family string) float64 {
	k, restK, squares, restSquares, shown := 0.0, 0.0, 0.0, 0.0, 0.0
	for _, f := range q.Figures {
		share := shares(f)[family]
		own := share * float64(f.K)
		if own == 0 {
			restK, restSquares = restK+float64(f.K), restSquares+float64(f.K*f.K)
		}
		k, squares, shown = k+own, squares+own*own, shown+own*share
	}
	variance := (&Sheaf{made: s}).errorVariance() * (squares/(k*k) + restSquares/(restK*restK))
	return math.Sqrt(variance) / (shown / k)
}
