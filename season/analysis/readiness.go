package analysis

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"boxbook/report/display"
	"boxbook/season"
)

// GateState is how a gate of a policy stands.
type GateState string

// The states of a gate, and of the verdict.
const (
	Met       GateState = "met"
	NotMet    GateState = "not met"
	GateOpen  GateState = "cannot tell"
	Ready     GateState = "ready"
	NotYet    GateState = "not yet"
	gateShare           = 0.90 // of the interval of the share of flights above the mark
)

// Gate is one question of a policy: its name for programs and its title for
// people, its state, what it rests on, what the policy asks and who set it, and
// what would change it ("" where nothing need).
type Gate struct {
	Name     string
	Title    string
	State    GateState
	Evidence string
	Asked    string
	Needs    string

	against string // of the evidence, what speaks against; "" for all of it
}

// Readiness is the answer to "is this pilot ready to move up": evidence for
// and against, never a permission. From is the category flown last, To the one
// asked about; To is "" where From is the last of its ladder or in none. Where
// the category flown last is the one asked about, From is the one below it that
// was flown. Against lists what speaks against: of every gate that is not met,
// and of one that is met where its evidence has two sides.
type Readiness struct {
	Pilot   *season.Pilot
	Ladder  *season.Ladder
	Policy  *season.Policy
	From    string
	To      string
	Floor   season.Category // the step To, for its floor
	AsOf    season.Date
	Gates   []Gate
	Verdict GateState
	Against []string
}

// readinessState is what the gates are worked out from.
type readinessState struct {
	l       *season.Ledger
	r       *Readiness
	flights []*season.Flight // contest flights at From in the window, with a record
	all     []*season.Flight // everything of the pilot, void apart
	stepped bool             // From is below the category flown last
}

// gateKeys are the gates in their order: the policy's key, the gate's name and
// title, its function; keys that only set a gate's numbers are not among them.
// A gate is named after its key, one apart: the key "safety" says which matters
// must not be open, and the gate no more than that none is.
var gateKeys = []struct {
	key, name, title string
	gate             func(*readinessState, season.PolicyKey) (Gate, bool)
}{
	{"flights", "flights", "flights", (*readinessState).flightsGate},
	{"threshold", "threshold", "level", (*readinessState).thresholdGate},
	{"figure-floor", "figure-floor", "figures", (*readinessState).floorGate},
	{"zeros", "zeros", "zeros", (*readinessState).zerosGate},
	{"lows", "lows", "low penalties", (*readinessState).lowsGate},
	{"unknowns", "unknowns", "unknowns", (*readinessState).unknownsGate},
	{"new-families", "new-families", "new families", (*readinessState).newFamiliesGate},
	{"forecast", "forecast", "forecast", (*readinessState).forecastGate},
	{"signoff", "signoff", "sign-off", (*readinessState).signoffGate},
	{"safety", "open-matters", "open matters", (*readinessState).openMattersGate},
	{"current", "current", "recency", (*readinessState).currentGate},
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
	for _, g := range gateKeys {
		key, ok := policy.Key(g.key)
		if !ok || key.Off {
			continue
		}
		if gate, asked := g.gate(&s, key); asked {
			gate.Name, gate.Title = g.name, g.title
			r.Gates = append(r.Gates, gate)
		}
	}
	r.decide()
	return r
}

// policyNumber is a setting's number at a place, or a default where the key is off
// or missing.
func policyNumber(p *season.Policy, name string, at int, otherwise float64) float64 {
	key, ok := p.Key(name)
	if !ok || key.Off || at >= len(key.Values) {
		return otherwise
	}
	value, _ := key.Values[at].Rat().Float64()
	return value
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
	return float64(s.l.AsOf-f.Date) <= policyNumber(s.r.Policy, "window", 0, math.Inf(1))
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

// share writes a probability as whole percent from 1 to 99: nothing is certain.
func share(p float64) string {
	return display.Fixed(math.Min(99, math.Max(1, 100*p)), 0) + " %"
}

func stateOf(met bool) GateState {
	if met {
		return Met
	}
	return NotMet
}

// setting is one number that a gate asks, in words, and the key that sets it.
type setting struct{ words, key string }

// asked says what a gate asks and who set it: the house, or the ledger.
func (s *readinessState) asked(settings ...setting) string {
	words, origins := make([]string, len(settings)), make([]string, len(settings))
	for i, one := range settings {
		origins[i] = " (house default)"
		if key, ok := s.r.Policy.Key(one.key); ok && !key.Off && !key.House {
			origins[i] = " (set in the ledger)"
		}
		words[i] = one.words
	}
	if len(slices.Compact(slices.Clone(origins))) == 1 {
		return strings.Join(words, " ") + origins[0]
	}
	for i := range words {
		words[i] += origins[i]
	}
	return strings.Join(words, " ")
}

// windowSetting says which days the policy looks at.
func (s *readinessState) windowSetting() setting {
	days := policyNumber(s.r.Policy, "window", 0, math.Inf(1))
	if math.IsInf(days, 1) {
		return setting{"at any time", "window"}
	}
	return setting{"in the last " + season.Counted(int(days), "day", "days"), "window"}
}

// percentWords writes a share as percent with the decimals that it has.
func percentWords(share float64) string {
	return display.Trimmed(100*share, 6) + " %"
}

func (s *readinessState) flightsGate(key season.PolicyKey) (Gate, bool) {
	want, have := int(policyNumber(s.r.Policy, key.Key, 0, 0)), len(s.flights)
	g := Gate{
		State:    stateOf(have >= want),
		Evidence: fmt.Sprintf("%s at %s in the window", season.Counted(have, "contest flight", "contest flights"), s.r.From),
		Asked:    s.asked(setting{strconv.Itoa(want), key.Key}, s.windowSetting()),
	}
	if s.r.From == "" {
		g.Evidence = "no contest flight with a category"
	}
	if s.stepped {
		g.Evidence += "; those at " + s.r.To + " stand apart"
	}
	switch {
	case have >= want:
	case s.r.From == "":
		g.Needs = season.Counted(want, "contest flight", "contest flights") + " at one category"
	default:
		g.Needs = fmt.Sprintf("%d more at %s", want-have, s.r.From)
	}
	return g, true
}

// floorGate asks for figures at or above a floor in the last flights.
func (s *readinessState) floorGate(key season.PolicyKey) (Gate, bool) {
	floor, want := policyNumber(s.r.Policy, key.Key, 0, 5), policyNumber(s.r.Policy, "floor-share", 0, 0.95)
	span := int(policyNumber(s.r.Policy, "floor-flights", 0, 4))
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
	asked := s.asked(
		setting{key.Values[0].String() + " or better", key.Key},
		setting{"for " + percentWords(want) + " of the figures", "floor-share"},
		setting{"in the last " + season.Counted(span, "flight", "flights"), "floor-flights"},
	)
	if span == 0 {
		return Gate{State: GateOpen, Evidence: "the policy looks at no flight", Asked: asked, Needs: "`floor-flights` of 1 at the least in the policy"}, true
	}
	if total == 0 {
		return Gate{State: GateOpen, Evidence: "no marks in the window", Asked: asked, Needs: "flights with their marks"}, true
	}
	g := Gate{
		State:    stateOf(float64(good) >= want*float64(total)-1e-9),
		Evidence: fmt.Sprintf("%d of %d figures at %s or better in the last %s", good, total, key.Values[0].String(), season.Counted(len(flights), "flight", "flights")),
		Asked:    asked,
	}
	if g.State == NotMet {
		g.Needs = fmt.Sprintf("%d of %d at the least", int(math.Ceil(want*float64(total)-1e-9)), total)
	}
	return g, true
}

// marked are the window's flights that have marks.
func (s *readinessState) marked() []*season.Flight {
	return slices.DeleteFunc(slices.Clone(s.flights), func(f *season.Flight) bool { return !f.HasMarks() })
}

// decide draws the verdict from the gates, and lists what speaks against. With
// no step to move up to there is nothing to be ready for.
func (r *Readiness) decide() {
	r.Verdict = Ready
	for _, g := range r.Gates {
		switch {
		case g.State == NotMet:
			r.Verdict = NotYet
		case g.State == GateOpen && r.Verdict == Ready:
			r.Verdict = GateOpen
		}
		against := g.against
		if against == "" && g.State != Met {
			against = g.Evidence
		}
		if against != "" {
			r.Against = append(r.Against, fmt.Sprintf("%s, %s: %s", g.Title, g.State, against))
		}
	}
	if len(r.Gates) == 0 || r.To == "" {
		r.Verdict = GateOpen
	}
}
