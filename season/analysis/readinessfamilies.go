package analysis

import (
	"math"
	"slices"
	"strings"

	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis/code"
)

// newFamiliesGate asks for graded elements of every family that is new at a step
// up to the one asked for: so many at that mean, the latest without a zero,
// practice too, graded by somebody else than the pilot. A family that the pilot
// does not fly is asked for by nobody, and the step needs it: not met. It is not
// asked where no next step is known.
func (s *readinessState) newFamiliesGate(g *Gate) bool {
	groups := s.newGroups()
	switch {
	case s.r.To == "":
		return false
	case s.r.Floor.Name == "":
		g.open(code.NoStep)
		return true
	case len(groups) == 0:
		g.State = code.Met
		g.because(code.NoneNew)
		return true
	}
	g.State = code.Met
	elements := s.gradedElements(groups)
	for _, group := range groups {
		if flies, reason := s.r.Pilot.Flies(group); !flies {
			g.State = code.NotMet
			g.add(unflown(NotFlownGroup{group, reason}))
			continue
		}
		s.family(g, group, elements[group])
	}
	return true
}

// newGroups are the families new at any step up to the one asked for.
func (s *readinessState) newGroups() []string {
	var groups []string
	for i := 0; i <= s.r.step(s.r.To); i++ {
		for _, group := range s.r.Ladder.Categories[i].New {
			if !slices.Contains(groups, group) {
				groups = append(groups, group)
			}
		}
	}
	return groups
}

// family notes what was graded of one family, its elements, and what it takes more.
func (s *readinessState) family(g *Gate, group string, elements []gradedElement) {
	want, level := s.whole("new-families", 0), s.number("new-families", 1)
	have := gradesOf(elements)
	g.add(fact(code.Graded, group, float64(have.n)))
	if have.n > 0 {
		g.add(fact(code.ByPanel, group, float64(have.byPanel)))
		g.add(fact(code.MeanGrade, group, have.mean), have.latest.as(code.Latest, group), have.worst.as(code.Worst, group))
	}
	lately := have.zeroLately(len(elements))
	if lately {
		g.count(code.NoZeroIn, noZeroIn)
		g.add(fact(code.ZeroLately, group, math.NaN()))
	}
	if have.n < want || have.mean < level-1e-9 || lately {
		g.State = code.NotMet
		least, lowest := want-have.n, 0.0
		if lately {
			least, lowest = max(least, noZeroIn-have.clean), leastGrade
		}
		g.add(moreGraded(group, have, least, level, lowest)...)
	}
}

// as is an element as a fact of a family.
func (e gradedElement) as(what code.Fact, group string) Fact {
	f := dated(what, group, e.on)
	f.Number, f.Text = e.grade, e.by
	return f
}

// surplus is how far above the level asked for a need goes: few elements at a
// grade that can be flown, rather than one at a grade that hardly can.
const surplus = 2.0

// leastGrade is the lowest that is no zero.
const leastGrade = 0.5

// moreGraded is how many elements more of a family, at least so many, at which
// grade, not below the lowest that would do, bring it to the mean asked for, and
// the mean after them. Grades are halves.
func moreGraded(group string, have familyGrades, least int, level, lowest float64) []Fact {
	n, mean := have.n, have.mean
	best := math.Min(fullMarks, level+surplus)
	if best <= level && mean < level && n > 0 {
		return []Fact{fact(code.OutOfReach, group, math.NaN())}
	}
	for more := max(1, least); ; more++ {
		grade := (level*float64(n+more) - mean*float64(n)) / float64(more)
		grade = math.Max(lowest, math.Ceil(2*grade-1e-6)/2)
		if grade > best+1e-9 && grade > level+0.5 {
			continue
		}
		after := (mean*float64(n) + grade*float64(more)) / float64(n+more)
		return []Fact{fact(code.More, group, float64(more)), fact(code.MoreAt, group, grade), fact(code.MeanAfter, group, after)}
	}
}

// grader reports whether somebody on a panel may grade the pilot here: in a
// contest anybody else, in practice a coach.
func (s *readinessState) grader(f *season.Flight, judge string) bool {
	coach := slices.IndexFunc(s.l.Coaches, func(c *season.Coach) bool { return c.Handle == judge })
	switch p := s.r.Pilot; {
	case strings.EqualFold(judge, p.Handle), strings.EqualFold(judge, p.Name):
		return false
	case coach >= 0:
		return !isSelf(s.l.Coaches[coach], p)
	default:
		return f.Contested()
	}
}

// graders are the places on a flight's panel of those who may.
func (s *readinessState) graders(f *season.Flight) []int {
	var places []int
	for i, judge := range f.Panel {
		if s.grader(f, judge) {
			places = append(places, i)
		}
	}
	return places
}

// by is a row as if those at some places of its panel alone had graded it.
func (r flownRow) by(places []int) flownRow {
	if len(places) == len(r.flight.Panel) {
		return r
	}
	marks := make([]scoring.Mark, len(places))
	for i, place := range places {
		marks[i] = r.marks[place]
	}
	sheet := scoring.Sheet{Judges: len(places), Lines: []scoring.Line{{Kind: scoring.Figure, K: r.flight.Sequence.Figures[r.figure-1].K, Marks: marks}}}
	if r.flight.Style != nil {
		sheet.Style = r.flight.Style.Style
	}
	r.marks, r.line = marks, sheet.Score().Lines[0]
	return r
}

// gradedElement is an element of a family with the grade of its figure, NaN where
// the figure has none, and by whom: coaches in practice, "" for a contest's panel.
type gradedElement struct {
	grade float64
	zero  bool
	on    season.Date
	by    string
}

// gradedElements are the graded elements of groups, by group, each as often as its
// figure was flown, oldest first; every figure is scored once.
func (s *readinessState) gradedElements(groups []string) map[string][]gradedElement {
	found, asked := map[string][]gradedElement{}, map[*season.Sequence][]bool{}
	for _, f := range s.all {
		if !f.HasMarks() {
			continue
		}
		figures, known := asked[f.Sequence]
		if !known {
			figures = figuresWith(f.Sequence, groups)
			asked[f.Sequence] = figures
		}
		if figures == nil {
			continue
		}
		places := s.graders(f)
		if len(places) == 0 {
			continue
		}
		by := s.gradedBy(f, places)
		for _, row := range flownRowsOf(f, figures) {
			row = row.by(places)
			if !row.graded() && !row.zero() {
				continue
			}
			for _, e := range f.Sequence.Figures[row.figure-1].Elements {
				if slices.Contains(groups, e.Group) {
					found[e.Group] = append(found[e.Group], gradedElement{row.grade(), row.zero(), f.Date, by})
				}
			}
		}
	}
	return found
}

// figuresWith says of each figure of a sequence whether it has an element of one of
// the groups; nil where none has.
func figuresWith(s *season.Sequence, groups []string) []bool {
	var with []bool
	for i, figure := range s.Figures {
		if slices.ContainsFunc(figure.Elements, func(e season.Element) bool { return slices.Contains(groups, e.Group) }) {
			if with == nil {
				with = make([]bool, len(s.Figures))
			}
			with[i] = true
		}
	}
	return with
}

// gradedBy names those who graded a practice flight.
func (s *readinessState) gradedBy(f *season.Flight, places []int) string {
	if f.Contested() {
		return ""
	}
	names := make([]string, len(places))
	for i, place := range places {
		for _, c := range s.l.Coaches {
			if c.Handle == f.Panel[place] {
				names[i] = c.Name
			}
		}
	}
	return strings.Join(names, ", ")
}

// noZeroIn is how many of a family's latest elements must be without a zero
// [derived, a house choice].
const noZeroIn = 2

// familyGrades are a family's graded elements in short.
type familyGrades struct {
	n             int
	mean          float64
	latest, worst gradedElement
	clean         int // since the last zero
	byPanel       int // of the n, graded by a contest's panel
}

func gradesOf(elements []gradedElement) familyGrades {
	var out familyGrades
	sum := 0.0
	for _, e := range elements {
		out.clean++
		if e.zero {
			out.clean = 0
		}
		if math.IsNaN(e.grade) {
			continue
		}
		if out.n == 0 || e.grade < out.worst.grade {
			out.worst = e
		}
		if e.by == "" {
			out.byPanel++
		}
		out.n, sum, out.latest = out.n+1, sum+e.grade, e
	}
	if out.n > 0 {
		out.mean = sum / float64(out.n)
	}
	return out
}

// zeroLately reports whether one of the latest elements has a zero.
func (f familyGrades) zeroLately(elements int) bool { return f.clean < min(noZeroIn, elements) }
