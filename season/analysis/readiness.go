package analysis

import (
	"math"
	"slices"

	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis/code"
)

// ShareConfidence is that of a gate's intervals of shares.
const ShareConfidence = 0.90

// Gate is one question of a policy: its name, its state, the settings that it
// goes by, what it rests on, and what qualifies its state.
type Gate struct {
	Name     string
	State    code.GateState
	Settings []Setting
	Facts    []Fact
	Reasons  []code.Reason
	// Counts says that it has a part in the verdict; one that does not stands as
	// evidence.
	Counts bool
	// Against says that something of it speaks against: it is not met, or what it
	// rests on has two sides.
	Against bool
}

// Setting is a number or two of a policy, as typed, and whether the house set it.
// Without a value nothing is asked of it.
type Setting struct {
	Key    string
	Values []scoring.Decimal
	House  bool
}

// Fact is one thing that a gate rests on: what it is, of whom or what, and a
// number, a range or a day. What does not apply is NaN, 0 for a day or a figure,
// "" for a text.
type Fact struct {
	Code                          code.Fact
	Name                          string
	Text                          string // as a person typed it
	Figure                        int    // of a flight
	Number, Low, High, Confidence float64
	On                            season.Date
}

// fact is a number of something with a name, "" for none.
func fact(what code.Fact, name string, number float64) Fact {
	return Fact{Code: what, Name: name, Number: number, Low: math.NaN(), High: math.NaN(), Confidence: math.NaN()}
}

// figureFact is something of a figure of a flight.
func figureFact(what code.Fact, f *season.Flight, figure int) Fact {
	return Fact{Code: what, Name: f.Name, Figure: figure, Number: math.NaN(), Low: math.NaN(), High: math.NaN(), Confidence: math.NaN(), On: f.Date}
}

// unflown is a family that the pilot does not fly.
func unflown(n NotFlownGroup) Fact {
	f := fact(code.NotFlown, n.Group, math.NaN())
	f.Text = n.Reason
	return f
}

// dated is something with a name on a day.
func dated(what code.Fact, name string, on season.Date) Fact {
	f := fact(what, name, math.NaN())
	f.On = on
	return f
}

// add notes what a gate rests on.
func (g *Gate) add(facts ...Fact) { g.Facts = append(g.Facts, facts...) }

// count notes a number of things.
func (g *Gate) count(what code.Fact, n int) { g.add(fact(what, "", float64(n))) }

// because notes what qualifies a gate's state.
func (g *Gate) because(reasons ...code.Reason) { g.Reasons = append(g.Reasons, reasons...) }

// open is a gate that cannot be told, and why.
func (g *Gate) open(why code.Reason) {
	g.State = code.CannotTell
	g.because(why)
}

// Readiness is the answer to "is this pilot ready to move up": evidence for
// and against, never a permission. From is the present category, the highest
// flown in contests within the policy's window, "" where none was; To is the one
// asked about, "" where From is the last of its ladder or in none.
type Readiness struct {
	Pilot   *season.Pilot
	Ladder  *season.Ladder
	Policy  *season.Policy
	From    string
	To      string
	Floor   season.Category // the step To, for its floor
	AsOf    season.Date
	Gates   []Gate
	Off     []string     // gates that the policy does not ask for
	Missing []string     // gates that count and are not met
	Open    []OpenMatter // matters of safety, whatever the policy asks of them
	Said    []Said
	Noted   []Said // in reviews, by coaches whose latest words are of a sign-off
	Verdict code.GateState
}

// readinessState is what the gates are worked out from.
type readinessState struct {
	l        *season.Ledger
	r        *Readiness
	every    []*season.Flight // everything of the pilot, practice and void ones too
	all      []*season.Flight // void ones apart
	contests []*season.Flight // practice apart as well
	flights  []*season.Flight // contest flights at From in the window, with a record
	days     float64          // the policy's window; without one every day counts
	// statesOnly says that nobody reads more of a gate than its state.
	statesOnly bool
}

// ReadinessOf answers for a pilot by a policy. to and ladder may be "" and nil:
// the next step of the ladder of the latest contest flown.
func ReadinessOf(l *season.Ledger, p *season.Pilot, policy *season.Policy, ladder *season.Ladder, to string) Readiness {
	return newReadiness(l, p, policy, ladder, to).answer()
}

// GateStatesOf is ReadinessOf, for the next step, for whom the verdict and the
// gates' states are enough: what only qualifies them is left out where it is dear.
func GateStatesOf(l *season.Ledger, p *season.Pilot, policy *season.Policy) Readiness {
	s := newReadiness(l, p, policy, nil, "")
	s.statesOnly = true
	return s.answer()
}

// answer asks every gate. They are asked side by side: none leans on another.
func (s *readinessState) answer() Readiness {
	r := s.r
	s.window()
	gates, asked := make([]Gate, len(gateRows)), make([]bool, len(gateRows))
	season.SideBySide(len(gateRows), func(i int) { gates[i], asked[i] = s.gate(gateRows[i]) })
	for i, row := range gateRows {
		switch {
		case asked[i]:
			r.Gates = append(r.Gates, gates[i])
		case s.off(row):
			r.Off = append(r.Off, row.name)
		}
	}
	r.Open = OpenMatters(s.l, r.Pilot)
	r.Said, r.Noted = s.saidOf()
	r.decide()
	return *r
}

// StepsUp reports whether a category is a step above the pilot's present one, as
// far as the ladder knows them both, and which that is: the question of a move up
// has an answer only for those.
func StepsUp(l *season.Ledger, p *season.Pilot, policy *season.Policy, ladder *season.Ladder, to string) (from string, up bool) {
	r := newReadiness(l, p, policy, ladder, to).r
	at, asked := r.step(r.From), r.step(to)
	return r.From, to != r.From && (at < 0 || asked < 0 || asked > at)
}

// newReadiness finds where the pilot stands.
func newReadiness(l *season.Ledger, p *season.Pilot, policy *season.Policy, ladder *season.Ladder, to string) *readinessState {
	s := &readinessState{l: l, r: &Readiness{Pilot: p, Policy: policy, Ladder: ladder, To: to, AsOf: l.AsOf}}
	s.every, s.days = l.Select(season.Selection{Pilot: p}), s.windowDays()
	for _, f := range s.every {
		if f.Counts() {
			s.all = append(s.all, f)
		}
		if f.Counts() && f.Contested() {
			s.contests = append(s.contests, f)
		}
	}
	s.place()
	return s
}

// place finds where the pilot stands: the ladder of the latest contest flight,
// the highest of its categories that was flown in the window, the next step. In
// no category of the ladder, the latest flown is the present one.
func (s *readinessState) place() {
	flown := slices.DeleteFunc(slices.Clone(s.contests), func(f *season.Flight) bool { return f.Category == "" })
	if s.r.Ladder == nil && len(flown) > 0 {
		s.r.Ladder = flown[len(flown)-1].Ladder
	}
	s.r.From = highestFlown(slices.DeleteFunc(flown, func(f *season.Flight) bool { return !s.recent(f) }), s.r.Ladder)
	if s.r.Ladder == nil {
		return
	}
	steps := s.r.Ladder.Categories
	if at := s.r.step(s.r.From); at >= 0 && s.r.To == "" && at+1 < len(steps) {
		s.r.To = steps[at+1].Name
	}
	s.r.Floor, _ = s.r.Ladder.Category(s.r.To)
}

// step is where a category stands in the ladder, -1 where it does not.
func (r *Readiness) step(category string) int { return stepOf(r.Ladder, category) }

func (s *readinessState) recent(f *season.Flight) bool { return s.within(f.Date) }

// within reports whether a day lies in the policy's window.
func (s *readinessState) within(day season.Date) bool { return float64(s.l.AsOf-day) <= s.days }

// window keeps the contest flights at the present category that are recent
// enough.
func (s *readinessState) window() {
	for _, f := range s.contests {
		if s.recent(f) && f.Category == s.r.From && s.r.From != "" && f.HasPercent() {
			s.flights = append(s.flights, f)
		}
	}
}

// last gives the latest n flights of a list.
func last(flights []*season.Flight, n int) []*season.Flight { return flights[max(0, len(flights)-n):] }

func stateOf(met bool) code.GateState {
	if met {
		return code.Met
	}
	return code.NotMet
}

// decide draws the verdict from the gates that count, and says which speak
// against. With no step to move up to there is nothing to be ready for.
func (r *Readiness) decide() {
	r.Verdict = code.Ready
	for i := range r.Gates {
		g := &r.Gates[i]
		g.Against = g.Against || g.State != code.Met
		if !g.Counts || g.State == code.Met {
			continue
		}
		r.Missing = append(r.Missing, g.Name)
		if g.State == code.NotMet {
			r.Verdict = code.NotYet
		} else if r.Verdict == code.Ready {
			r.Verdict = code.CannotTell
		}
	}
	switch {
	case r.AtTop():
		r.Verdict, r.Missing = code.CannotTell, nil
	case r.Verdict == code.Ready && (len(r.Gates) == 0 || r.To == ""):
		r.Verdict = code.CannotTell
	}
}

// AtTop reports whether the present category is the last of the ladder: there is
// no step, and nothing is missing for one.
func (r *Readiness) AtTop() bool { return r.To == "" && r.step(r.From) >= 0 }
