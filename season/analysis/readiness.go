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
// number, a range or a day. What does not apply is NaN, 0 for a day.
type Fact struct {
	Code                          code.Fact
	Name                          string
	Number, Low, High, Confidence float64
	On                            season.Date
}

// fact is a number of something with a name, "" for none.
func fact(what code.Fact, name string, number float64) Fact {
	return Fact{Code: what, Name: name, Number: number, Low: math.NaN(), High: math.NaN(), Confidence: math.NaN()}
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
// and against, never a permission. From is the category flown last, To the one
// asked about; To is "" where From is the last of its ladder or in none. Where
// the category flown last is the one asked about, From is the one below it that
// was flown.
type Readiness struct {
	Pilot   *season.Pilot
	Ladder  *season.Ladder
	Policy  *season.Policy
	From    string
	To      string
	Floor   season.Category // the step To, for its floor
	AsOf    season.Date
	Gates   []Gate
	Verdict code.GateState
}

// readinessState is what the gates are worked out from.
type readinessState struct {
	l       *season.Ledger
	r       *Readiness
	flights []*season.Flight // contest flights at From in the window, with a record
	all     []*season.Flight // everything of the pilot, void apart
	stepped bool             // From is below the category flown last
}

// windowKey is the policy's key for the days that count; off, all do.
const windowKey = "window"

// gateRow is one gate: the policy's key that asks for it, its name, the keys
// whose numbers it goes by, and its function, which reports false where there is
// nothing to ask.
type gateRow struct {
	key, name string
	numbers   []string
	ask       func(*readinessState, *Gate) bool
}

// gateRows are the gates in their order. Their numbers are the policy's, and the
// shipped policy's where a ledger leaves them out; what they say is put into
// words in report/words. A gate is named after its key, one apart: the key
// "safety" says which matters must not be open, and the gate no more than that
// none is.
var gateRows = []gateRow{
	{"flights", "flights", []string{"flights", windowKey}, (*readinessState).flightsGate},
	{"threshold", "threshold", []string{"threshold", "share"}, (*readinessState).thresholdGate},
	{"figure-floor", "figure-floor", []string{"figure-floor", "floor-share", "floor-flights"}, (*readinessState).floorGate},
	{"zeros", "zeros", []string{"zeros"}, (*readinessState).zerosGate},
	{"lows", "lows", []string{"lows"}, (*readinessState).lowsGate},
	{"unknowns", "unknowns", []string{"unknowns", windowKey}, (*readinessState).unknownsGate},
	{"new-families", "new-families", []string{"new-families"}, (*readinessState).newFamiliesGate},
	{"forecast", "forecast", []string{"forecast"}, (*readinessState).forecastGate},
	{"signoff", "signoff", nil, (*readinessState).signoffGate},
	{"safety", "open-matters", []string{"safety"}, (*readinessState).openMattersGate},
	{"current", "current", []string{"current"}, (*readinessState).currentGate},
}

// ReadinessOf answers for a pilot by a policy. to and ladder may be "" and nil:
// the next step of the ladder of the latest contest flown.
func ReadinessOf(l *season.Ledger, p *season.Pilot, policy *season.Policy, ladder *season.Ladder, to string) Readiness {
	r := Readiness{Pilot: p, Policy: policy, Ladder: ladder, To: to, AsOf: l.AsOf}
	s := readinessState{l: l, r: &r}
	for _, f := range l.Select(season.Selection{Pilot: p}) {
		if f.Counts() {
			s.all = append(s.all, f)
		}
	}
	s.place()
	s.window()
	for _, row := range gateRows {
		if g, asked := s.gate(row); asked {
			r.Gates = append(r.Gates, g)
		}
	}
	r.decide()
	return r
}

// gate asks one gate; false where the policy or the ladder does not ask for it. A
// policy without one of its numbers leaves it open: there is none but the policy's.
func (s *readinessState) gate(row gateRow) (Gate, bool) {
	key, ok := s.r.Policy.Key(row.key)
	if !ok || key.Off {
		return Gate{}, false
	}
	g := Gate{Name: row.name, Settings: s.settings(row)}
	if slices.ContainsFunc(row.numbers, func(key string) bool { return key != windowKey && math.IsNaN(s.number(key, 0)) }) {
		g.open(code.Unset)
		return g, true
	}
	asked := row.ask(s, &g)
	return g, asked
}

// settings are what a gate goes by: its numbers, or its key alone.
func (s *readinessState) settings(row gateRow) []Setting {
	var settings []Setting
	for _, name := range row.numbers {
		key, ok := s.r.Policy.Key(name)
		setting := Setting{Key: name, Values: key.Values, House: !ok || key.Off || key.House}
		if name == windowKey && key.Off {
			setting.Values = nil
		}
		settings = append(settings, setting)
	}
	if len(settings) == 0 {
		key, _ := s.r.Policy.Key(row.key)
		settings = append(settings, Setting{Key: row.key, House: key.House})
	}
	return settings
}

// number is a setting's number at a place, NaN where the policy has none.
func (s *readinessState) number(name string, at int) float64 {
	key, _ := s.r.Policy.Key(name)
	if at >= len(key.Values) {
		return math.NaN()
	}
	value, _ := key.Values[at].Rat().Float64()
	return value
}

// whole is number of a key that counts things; 0 where the policy has none.
func (s *readinessState) whole(name string, at int) int {
	if n := s.number(name, at); !math.IsNaN(n) {
		return int(n)
	}
	return 0
}

// days are the policy's window; without one every day counts.
func (s *readinessState) days() float64 {
	if key, ok := s.r.Policy.Key(windowKey); ok && !key.Off {
		return s.number(windowKey, 0)
	}
	return math.Inf(1)
}

// place finds where the pilot stands: category, ladder, next step.
func (s *readinessState) place() {
	for _, f := range slices.Backward(s.all) {
		if f.Contested() && f.Category != "" {
			s.r.From = f.Category
			if s.r.Ladder == nil {
				s.r.Ladder = f.Ladder
			}
			break
		}
	}
	if s.r.Ladder == nil {
		return
	}
	steps := s.r.Ladder.Categories
	at := slices.IndexFunc(steps, func(c season.Category) bool { return c.Name == s.r.From })
	switch {
	case at >= 0 && s.r.To == "" && at+1 < len(steps):
		s.r.To = steps[at+1].Name
	case at >= 0 && s.r.To == s.r.From:
		s.stepBelow(steps[:at])
	}
	s.r.Floor, _ = s.r.Ladder.Category(s.r.To)
}

// stepBelow goes back to the nearest step below the category asked about that
// was flown in the window: a first contest flight there does not empty the
// record of the step that it came from.
func (s *readinessState) stepBelow(below []season.Category) {
	for _, step := range slices.Backward(below) {
		if slices.ContainsFunc(s.all, func(f *season.Flight) bool { return f.Contested() && f.Category == step.Name && s.recent(f) }) {
			s.r.From, s.stepped = step.Name, true
			return
		}
	}
}

func (s *readinessState) recent(f *season.Flight) bool {
	return float64(s.l.AsOf-f.Date) <= s.days()
}

// window keeps the contest flights at the present category that are recent
// enough.
func (s *readinessState) window() {
	for _, f := range s.all {
		if s.recent(f) && f.Contested() && f.Category == s.r.From && s.r.From != "" && f.Record().Percent != nil {
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

func (s *readinessState) flightsGate(g *Gate) bool {
	want, have := s.whole("flights", 0), len(s.flights)
	g.State = stateOf(have >= want)
	g.count(code.Have, have)
	if s.stepped {
		g.because(code.Apart)
	}
	return true
}

// floorGate asks for figures at or above a floor in the last flights.
func (s *readinessState) floorGate(g *Gate) bool {
	floor, want, span := s.number("figure-floor", 0), s.number("floor-share", 0), s.whole("floor-flights", 0)
	flights := last(s.marked(), span)
	total, good := 0, 0
	for _, f := range flights {
		for _, fig := range decidedFigures(f) {
			total++
			if fig.percent >= 10*floor-1e-9 {
				good++
			}
		}
	}
	switch {
	case span == 0:
		g.open(code.LooksAtNone)
	case total == 0:
		g.open(code.NoMarks)
	default:
		g.State = stateOf(float64(good) >= want*float64(total)-1e-9)
		g.count(code.Have, good)
		g.count(code.Want, int(math.Ceil(want*float64(total)-1e-9)))
		g.count(code.Figures, total)
		g.count(code.Flights, len(flights))
	}
	return true
}

// marked are the window's flights that have marks.
func (s *readinessState) marked() []*season.Flight {
	return slices.DeleteFunc(slices.Clone(s.flights), func(f *season.Flight) bool { return !f.HasMarks() })
}

// decide draws the verdict from the gates, and says which speak against. With
// no step to move up to there is nothing to be ready for.
func (r *Readiness) decide() {
	r.Verdict = code.Ready
	for i := range r.Gates {
		g := &r.Gates[i]
		switch {
		case g.State == code.NotMet:
			r.Verdict = code.NotYet
		case g.State == code.CannotTell && r.Verdict == code.Ready:
			r.Verdict = code.CannotTell
		}
		g.Against = g.Against || g.State != code.Met
	}
	if len(r.Gates) == 0 || r.To == "" {
		r.Verdict = code.CannotTell
	}
}
