package calibration

import (
	"fmt"
	"math/rand/v2"
	"strings"
)

// What is measured of drills.
const (
	saidWorked  = "said to have worked"
	saidMay     = "said to have worked, or that it may have"
	foundWorked = "found to have worked"
)

// The words of a drill.
const (
	worked    = "worked"
	mayHave   = "may have worked"
	drillMost = 0.06
	mayMost   = 0.114
	// mixedPrice is what it costs to hold practice against practice, at the most.
	mixedPrice = 0.05
)

func (s FaultSeason) String() string {
	parts := []string{s.Choice.String(), fmt.Sprintf("%d named", s.Named), fmt.Sprintf("%d before, %d after", s.Before, s.After)}
	if s.PerContest > 1 {
		parts = append(parts, fmt.Sprintf("%d a contest", s.PerContest))
	}
	if s.Left != 1 {
		parts = append(parts, fmt.Sprintf("all fall to %.1f", s.Left))
	}
	if s.Thorough > 0 {
		parts = append(parts, fmt.Sprintf("noted %.1f times as often later", s.Thorough))
	}
	if s.Kinds > 0 {
		parts = append(parts, fmt.Sprintf("%d kinds", s.Kinds))
	}
	if s.Target != "" {
		parts = append(parts, "on "+s.Target)
	}
	switch {
	case s.Flown > 0:
		parts = append(parts, fmt.Sprintf("some figures in %.1f of flights later", s.Flown))
	case s.Flown < 0:
		parts = append(parts, "some figures never flown later")
	}
	if s.Practice != [2]float64{} {
		parts = append(parts, fmt.Sprintf("%.1f practice before and %.1f after", s.Practice[0], s.Practice[1]))
	}
	if s.Nerves {
		parts = append(parts, "a fault of contests")
	}
	if s.From > 0 {
		parts = append(parts, fmt.Sprintf("from %.2g to %.2g", s.From, s.To))
	}
	return strings.Join(parts, ", ")
}

// wordOf asks for the drill's word; a drill that is not answered has none.
func wordOf(a Drills, target string) string {
	if len(a.Drills) != 1 || a.Drills[0].Target != target {
		panic("the drill on " + target + " is not answered")
	}
	return a.Drills[0].Word
}

func nullDrill(s FaultSeason, most float64) Cell {
	return Cell{
		Group: "drills", Name: "nothing worked: " + s.String(),
		Limits: []Limit{atMost(saidWorked, most), atMost(saidMay, min(mayMost, mayMost/drillMost*most))},
		One: func(r *rand.Rand, p Program, t Tally) {
			made := s.Make(r)
			word := wordOf(p.Drills(made.Ledger), made.Target)
			t.Saw(saidWorked, word == worked)
			t.Saw(saidMay, word == worked || word == mayHave)
		},
	}
}

func powerDrill(s FaultSeason, least float64) Cell {
	return Cell{
		Group: "drills", Name: "worked: " + s.String(), Limits: []Limit{atLeast(foundWorked, least)},
		One: func(r *rand.Rand, p Program, t Tally) {
			made := s.Make(r)
			t.Saw(foundWorked, wordOf(p.Drills(made.Ledger), made.Target) == worked)
		},
	}
}

func drillCells() []Cell {
	var list []Cell
	sizes := [][2]int{{10, 8}, {16, 12}, {20, 20}}
	turn := 0
	for _, choice := range []Choice{Scheduled, WorstOfFour, WorstOfAll} {
		for _, named := range []int{0, 1, 4} {
			for _, left := range []float64{1, 0.5, 0.3} {
				for _, per := range []int{1, 2} {
					size := sizes[turn%3]
					turn++
					list = append(list, nullDrill(FaultSeason{Before: size[0], After: size[1], PerContest: per, Choice: choice, Named: named, Left: left}, drillMost))
				}
			}
			turn++
		}
	}
	for _, choice := range []Choice{Scheduled, WorstOfFour, WorstOfAll} {
		for _, s := range []FaultSeason{
			{Before: 16, After: 12, Left: 1, Thorough: 1.6},
			{Before: 10, After: 8, Left: 1, Flown: 0.4},
			{Before: 20, After: 20, Left: 0.5, Flown: 0.4},
			{Before: 16, After: 12, Left: 0.5, Kinds: 5},
			{Before: 20, After: 20, Left: 1, Kinds: 5},
		} {
			s.PerContest, s.Choice, s.Named = 1, choice, 1
			list = append(list, nullDrill(s, drillMost))
		}
	}
	for _, left := range []float64{1, 0.3} {
		s := FaultSeason{Before: 16, After: 12, PerContest: 1, Left: left, Target: "spin-stop", From: 0.6, To: 0.6, Flown: -1}
		list = append(list, nullDrill(s, 0))
	}
	for _, practice := range [][2]float64{{0.3, 0.9}, {0.5, 0.8}, {0.4, 0.6}} {
		for _, size := range [][2]int{{16, 12}, {20, 20}} {
			s := FaultSeason{Before: size[0], After: size[1], PerContest: 1, Left: 1, Target: "axis", From: 0.9, To: 0.9, Practice: practice, Nerves: true}
			list = append(list, nullDrill(s, drillMost))
		}
	}
	return append(list, drillPowerCells()...)
}

func drillPowerCells() []Cell {
	var list []Cell
	for _, per := range []int{1, 2} {
		for _, c := range []struct {
			before, after   int
			from, to, least float64
		}{{10, 8, 0.7, 0.1, 0.50}, {16, 12, 0.6, 0.15, 0.50}, {20, 20, 0.6, 0.15, 0.84}} {
			s := FaultSeason{Before: c.before, After: c.after, PerContest: per, Left: 1, Target: "radius", From: c.from, To: c.to, Kinds: 12}
			list = append(list, powerDrill(s, c.least))
			if per == 1 {
				s.Practice = [2]float64{0.5, 0.5}
				list = append(list, powerDrill(s, c.least-mixedPrice))
			}
		}
	}
	return list
}

func familyDrillCells() []Cell {
	var list []Cell
	add := func(name string, d FamilyDrill, limit Limit) {
		list = append(list, Cell{
			Group: "family drills", Name: name, Limits: []Limit{limit},
			One: func(r *rand.Rand, p Program, t Tally) {
				l, target := d.Make(r)
				t.Saw(limit.What, wordOf(p.Drills(l), target) == worked)
			},
		})
	}
	for _, per := range []int{1, 2} {
		for _, programmes := range []Programmes{OneKnown, Mixed} {
			for _, contest := range []float64{0, 0.3} {
				for _, worst := range []bool{false, true} {
					d := familyDrillOf(14, 8, per, contest)
					d.Programmes, d.Worst = programmes, worst
					name := fmt.Sprintf("nothing worked: %d a contest, %s, a contest adds %.1f, on the worst of four %v", per, programmes, contest, worst)
					add(name, d, atMost(saidWorked, drillMost))
				}
			}
		}
	}
	for _, c := range []struct {
		before, after int
		least         float64
	}{{8, 6, 0.50}, {14, 8, 0.74}, {20, 12, 0.89}} {
		d := familyDrillOf(c.before, c.after, 1, 0)
		d.Gain = 1
		add(fmt.Sprintf("worked by a grade: %d before, %d after", c.before, c.after), d, atLeast(foundWorked, c.least))
	}
	return list
}

// familyDrillOf is a drill on one of families that stand nearly alike, so that it is
// chance that picks the worst.
func familyDrillOf(before, after, perContest int, contest float64) FamilyDrill {
	s := ordinary(0, perContest, 0, Steady)
	s.ContestFamily, s.Families, s.Figures = contest, 0.1, 0.1
	if perContest > 1 {
		s.ContestShare = 0.3
	}
	return FamilyDrill{Sheets: s, Before: before, After: after}
}
