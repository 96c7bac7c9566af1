package analysis

import (
	"cmp"
	"math"
	"slices"

	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis/code"
)

// flownRow is one flying of a figure that has a row of marks.
type flownRow struct {
	flight *season.Flight
	figure int
	turn   int // its place among the rows
	marks  []scoring.Mark
	line   scoring.LineScore
}

// flownRows are a flight's figures, each as often as it was flown, in the order of
// their rows.
func flownRows(f *season.Flight) []flownRow {
	flown, score := f.Flown(), f.Score()
	rows := make([]flownRow, 0, len(flown))
	for i, index := range flown {
		rows = addFlown(rows, f, index, score.Lines[i])
	}
	return inTurn(rows)
}

// flownRowsOf are the flight's rows of the figures that are asked for, by index, which
// alone are scored.
func flownRowsOf(f *season.Flight, asked []bool) []flownRow {
	var rows []flownRow
	for index := range f.Rows.Len() {
		if asked[index] && f.Rows.Has(index) {
			rows = addFlown(rows, f, index, f.FigureScore(index))
		}
	}
	return inTurn(rows)
}

// addFlown adds every flying of a figure.
func addFlown(rows []flownRow, f *season.Flight, index int, line scoring.LineScore) []flownRow {
	row := f.Rows.At(index)
	if len(line.Rows) == 0 {
		return append(rows, flownRow{f, index + 1, row.Turn, row.Marks, line})
	}
	for j, flown := range append([]season.Row{row}, row.Again...) {
		rows = append(rows, flownRow{f, index + 1, flown.Turn, flown.Marks, line.Rows[j]})
	}
	return rows
}

func inTurn(rows []flownRow) []flownRow {
	slices.SortStableFunc(rows, func(a, b flownRow) int { return cmp.Compare(a.turn, b.turn) })
	return rows
}

// zero reports whether any judge gave a hard or perception zero, whatever the
// rules made of it.
func (r flownRow) zero() bool { return slices.ContainsFunc(r.marks, season.ZeroMark) }

// zeroed reports whether the figure came to nothing as a matter of fact, or a
// zero of any judge is in its mean.
func (r flownRow) zeroed() bool {
	return r.cameTo0() || season.ZeroStood(r.marks, r.line)
}

// cameTo0 reports whether the figure came to nothing as a matter of fact: such
// figures are what levels and forecasts leave out.
func (r flownRow) cameTo0() bool { return season.Zeroed(r.marks, r.line) }

// graded reports whether the figure has a grade.
func (r flownRow) graded() bool { return r.line.Mean != nil }

// grade is the figure's mean; NaN where it has none.
func (r flownRow) grade() float64 {
	if r.line.Mean == nil {
		return math.NaN()
	}
	grade, _ := r.line.Mean.Float64()
	return grade
}

// zeroBy names the zeros of a figure, one a judge.
func (r flownRow) zeroBy() []Fact {
	var facts []Fact
	for j, mark := range r.marks {
		if season.ZeroMark(mark) && j < len(r.flight.Panel) {
			f := figureFact(code.ZeroAt, r.flight, r.figure)
			f.Text = r.flight.Panel[j]
			facts = append(facts, f)
		}
	}
	return facts
}

// hasGrades reports whether the marks of a flight say anything of any figure.
func hasGrades(f *season.Flight) bool {
	return f.HasMarks() && slices.ContainsFunc(flownRows(f), func(r flownRow) bool { return r.graded() || r.zero() })
}

// lately is what a gate looks at that asks for the last so many contest flights:
// the last with marks, and those without any among them or after them.
type lately struct {
	flights, bare []*season.Flight
	span          int
}

func (s *readinessState) lately(span int) lately { return latelyOf(s.contests, span) }

// atPresent is the same of the flights at the present category alone, where others are
// among the last; false where they are not, or none is at that one.
func (s *readinessState) atPresent(look lately) (lately, bool) {
	other := func(f *season.Flight) bool { return f.Category != s.r.From }
	if !slices.ContainsFunc(look.flights, other) {
		return lately{}, false
	}
	own := latelyOf(slices.DeleteFunc(slices.Clone(s.contests), other), look.span)
	own.bare = nil // which speak of what is not broken yet
	return own, len(own.flights) > 0
}

func latelyOf(contests []*season.Flight, span int) lately {
	look := lately{span: span}
	for _, f := range slices.Backward(contests) {
		if len(look.flights) == span {
			break
		}
		if hasGrades(f) {
			look.flights = append(look.flights, f)
		} else {
			look.bare = append(look.bare, f)
		}
	}
	if len(look.flights) > 0 && len(look.flights) < span {
		oldest := look.flights[len(look.flights)-1].Date
		look.bare = slices.DeleteFunc(look.bare, func(f *season.Flight) bool { return f.Date < oldest })
	}
	slices.Reverse(look.flights)
	slices.Reverse(look.bare)
	return look
}

// rows are all figures that the gate looks at.
func (look lately) rows() []flownRow {
	var rows []flownRow
	for _, f := range look.flights {
		rows = append(rows, flownRows(f)...)
	}
	return rows
}

// lookedAt notes how many flights a gate found, and opens one that would be met
// where they are fewer than it asks for, or others may say otherwise.
func (g *Gate) lookedAt(look lately) {
	g.count(code.Flights, len(look.flights))
	if len(look.flights) < look.span {
		g.because(code.FewerFlights)
		g.incomplete()
	}
	for _, f := range look.bare {
		g.add(dated(code.Bare, f.Name, f.Date))
		g.incomplete()
	}
}

// incomplete opens a gate that would be met, were no evidence missing.
func (g *Gate) incomplete() {
	if g.State == code.Met {
		g.State = code.CannotTell
	}
}

// atMost is the state of a count of what must not be more than so many, where
// open of them are not decided.
func atMost(have, open, most int) code.GateState {
	switch {
	case have > most:
		return code.NotMet
	case have+open > most:
		return code.CannotTell
	default:
		return code.Met
	}
}

func (s *readinessState) flightsGate(g *Gate) bool {
	want, have := s.whole("flights", 0), len(s.flights)
	g.State = stateOf(have >= want)
	g.count(code.Have, have)
	return true
}

// floorCount is what the figures of some flights are to a floor: at or above it, not
// decided, of so many, and those below.
type floorCount struct {
	good, open, figures int
	below               []Fact
}

func (look lately) floorCount(floor float64) floorCount {
	var c floorCount
	for _, row := range look.rows() {
		c.figures++
		switch grade := row.grade(); {
		case !row.graded():
			c.open++
		case grade >= floor-1e-9:
			c.good++
		default:
			fact := figureFact(code.BelowFloor, row.flight, row.figure)
			fact.Number = grade
			c.below = append(c.below, fact)
		}
	}
	return c
}

// wanted is how many of the figures a share of them is.
func (c floorCount) wanted(share float64) int { return int(math.Ceil(share*float64(c.figures) - 1e-9)) }

// fails reports whether the share is missed, whatever is not decided.
func (c floorCount) fails(share float64) bool { return c.good+c.open < c.wanted(share) }

// floorGate asks for figures at or above a floor in the last flights of any category,
// and in the last at the present one: an easier category outweighs none of them.
func (s *readinessState) floorGate(g *Gate) bool {
	floor, want := s.number("figure-floor", 0), s.number("floor-share", 0)
	look := s.lately(s.whole("floor-flights", 0))
	count := look.floorCount(floor)
	if own, ok := s.atPresent(look); ok && !count.fails(want) {
		if there := own.floorCount(floor); there.fails(want) {
			look, count = own, there
			g.because(code.AtPresent)
		}
	}
	switch {
	case look.span == 0:
		g.open(code.LooksAtNone)
		return true
	case count.figures == 0:
		g.open(code.NoMarks)
		return true
	case count.fails(want):
		g.State = code.NotMet
	case count.good < count.wanted(want):
		g.open(code.NotDecided)
	default:
		g.State = code.Met
	}
	g.count(code.Have, count.good)
	g.count(code.Want, count.wanted(want))
	g.count(code.Figures, count.figures)
	g.add(count.below...)
	g.lookedAt(look)
	return true
}

// lowsGate counts low penalties in the last contest flights and in every other
// flight since the oldest of them, practice and void ones too.
func (s *readinessState) lowsGate(g *Gate) bool {
	most, span := s.whole("lows", 0), s.whole("lows", 1)
	flights := last(s.contests, span)
	lows, found := s.lowsSince(flights)
	for _, f := range found {
		g.add(dated(code.LowPenalty, f.Name, f.Date))
	}
	g.State = stateOf(lows <= most)
	g.count(code.Have, lows)
	if lows > most {
		g.count(code.More, s.cleanFlights(most, span))
	}
	g.lookedAt(lately{flights: flights, span: span})
	return true
}

// lowsSince counts the low penalties of contest flights, the last ones, and of every
// other flight since the oldest of them; found are the flights that have one.
func (s *readinessState) lowsSince(flights []*season.Flight) (lows int, found []*season.Flight) {
	for _, f := range s.every {
		if slices.Contains(flights, f) || !(f.Counts() && f.Contested()) && (len(flights) == 0 || f.Date >= flights[0].Date) {
			if n := lowsOf(f); n > 0 {
				lows, found = lows+n, append(found, f)
			}
		}
	}
	return lows, found
}

// cleanFlights is the least number of further contest flights without a low penalty
// after which the last span of them have no more than most.
func (s *readinessState) cleanFlights(most, span int) int {
	for n := 1; n < span; n++ {
		if kept := last(s.contests, span-n); len(kept) > 0 {
			if lows, _ := s.lowsSince(kept); lows <= most {
				return n
			}
		}
	}
	return span
}

func lowsOf(f *season.Flight) int {
	n := 0
	for _, p := range f.Penalties {
		if p.Kind == "low" {
			n++
		}
	}
	return n
}

// unknownsGate is asked only where the present category flies unknowns.
func (s *readinessState) unknownsGate(g *Gate) bool {
	if s.r.Ladder == nil {
		return false
	}
	if c, ok := s.r.Ladder.Category(s.r.From); !ok || !c.Unknowns {
		return false
	}
	want, have := s.whole("unknowns", 0), 0
	for _, f := range s.flights {
		if f.Programme == season.Unknown || f.Programme == season.FreeUnknown {
			have++
		}
	}
	g.State = stateOf(have >= want)
	g.count(code.Have, have)
	return true
}

// openMattersGate counts the open matters of safety.
func (s *readinessState) openMattersGate(g *Gate) bool {
	open := OpenMatters(s.l, s.r.Pilot)
	g.State = stateOf(len(open) <= s.whole("safety", 0))
	g.count(code.Have, len(open))
	for _, o := range open {
		g.add(dated(code.OpenMatter, o.Fault.Kind.Name, o.Flight.Date))
	}
	return true
}

// currentGate counts the days since the last flight of any kind.
func (s *readinessState) currentGate(g *Gate) bool {
	if len(s.every) == 0 {
		g.State = code.NotMet
		g.because(code.NoFlight)
		return true
	}
	last := s.every[len(s.every)-1]
	if !last.Counts() {
		g.count(code.LastVoid, 1)
	}
	days := int(s.l.AsOf - last.Date)
	g.State = stateOf(days <= s.whole("current", 0))
	g.count(code.Have, days)
	return true
}
