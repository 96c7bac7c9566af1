package calibration

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"boxbook/season"
)

// What is measured of the plan.
const (
	bestFirst  = "where most can be gained stands first"
	bestAmong  = "it is among the three"
	gainCaught = "gain caught, of the best possible"
)

const planItems = 3

// trueGains are what lies below the others in each family of a sequence, times its
// part of the sequence's K.
func trueGains(p *Pilot, q *season.Sequence) map[string]float64 {
	part, n := map[string]float64{}, 0
	for _, f := range q.Figures {
		for family, share := range shares(f) {
			part[family] += share * float64(f.K) / float64(q.K())
		}
	}
	var families []string
	sum := 0.0
	for _, family := range season.Groups {
		if part[family] > 0 {
			families = append(families, family)
			sum, n = sum+p.Family[family], n+1
		}
	}
	gains := map[string]float64{}
	for _, family := range families {
		others := (sum - p.Family[family]) / float64(n-1)
		gains[family] = part[family] * max(0, others-p.Family[family])
	}
	return gains
}

// byGain lists families, the largest gain first.
func byGain(gains map[string]float64) []string {
	list := slices.DeleteFunc(slices.Clone(season.Groups), func(f string) bool { return gains[f] == 0 })
	slices.SortStableFunc(list, func(a, b string) int {
		switch {
		case gains[a] > gains[b]:
			return -1
		case gains[a] < gains[b]:
			return 1
		}
		return 0
	})
	return list
}

func planCell(s Sheets) Cell {
	name := fmt.Sprintf("%s, %s, %s, families %.1f, figures %.1f", s.Structure, s.Programmes, s.Path.Name, s.Families, s.Figures)
	return Cell{
		Group: "plan", Name: name,
		Limits: []Limit{atLeast(bestFirst, 0.40), atLeast(bestAmong, 0.74), {What: gainCaught, Least: 0.75, Most: 1, Part: true}},
		One: func(r *rand.Rand, p Program, t Tally) {
			sheaf := s.Make(r)
			gains := trueGains(sheaf.Pilot, sheaf.planned())
			best := byGain(gains)
			var items []string
			for _, item := range p.Plan(sheaf.Book()).Items {
				items = append(items, item.Group)
			}
			items = items[:min(planItems, len(items))]
			t.Saw(bestFirst, len(items) > 0 && items[0] == best[0])
			t.Saw(bestAmong, slices.Contains(items, best[0]))
			t.Part(gainCaught, sumOf(gains, items), sumOf(gains, best[:min(planItems, len(best))]))
		},
	}
}

// planned is the latest known, which a plan is for where nothing is asked.
func (s *Sheaf) planned() *season.Sequence {
	latest := s.Sequences[0]
	for _, q := range s.Sequences {
		if q.Programme == season.Known {
			latest = q
		}
	}
	return latest
}

func sumOf(gains map[string]float64, families []string) float64 {
	sum := 0.0
	for _, family := range families {
		sum += gains[family]
	}
	return sum
}

func planCells() []Cell {
	var list []Cell
	for _, families := range []float64{0.3, 0.6} {
		for _, figures := range []float64{0, 0.4} {
			for _, kind := range []struct {
				structure  Structure
				programmes Programmes
				path       Path
			}{
				{Structure{Flights: 12, PerContest: 1}, OneKnown, Steady},
				{Structure{Flights: 12, PerContest: 2, ContestShare: 0.3}, Mixed, Steady},
				{Structure{Flights: 20, PerContest: 2, ContestShare: 0.3}, Mixed, Rise10},
				{Structure{Flights: 20, PerContest: 3, ContestShare: 0.5}, TwoKnowns, Steady},
				{Structure{Flights: 8, PerContest: 1}, Mixed, Steady},
			} {
				s := Sheets{
					Totals: Totals{Structure: kind.structure, Path: kind.path}, Programmes: kind.programmes,
					Grades: Grades{Families: families, Figures: figures, Scatter: 0.5, Judge: 0.5, Judges: 5},
				}
				list = append(list, planCell(s))
			}
		}
	}
	return list
}
