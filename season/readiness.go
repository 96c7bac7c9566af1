package season

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"boxbook/season/stats"
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

// Gate is one question of a policy: its state, what it rests on, and what
// would change it ("" where nothing need).
type Gate struct {
	Name     string
	State    GateState
	Evidence string
	Needs    string
}

// Readiness is the answer to "is this pilot ready to move up": evidence for
// and against, never a permission. From is the category flown last, To the one
// asked about; To is "" where From is the last of its ladder or in none.
type Readiness struct {
	Pilot   *Pilot
	Ladder  *Ladder
	Policy  *Policy
	From    string
	To      string
	Floor   Category // the step To, for its floor
	AsOf    Date
	Gates   []Gate
	Verdict GateState
	Against []string
}

// readinessState is what the gates are worked out from.
type readinessState struct {
	l       *Ledger
	r       *Readiness
	flights []*Flight // contest flights at From in the window, with a record
	all     []*Flight // everything of the pilot, void apart
}

// gateKeys are the gates in their order, each with its function; keys that only
// set a gate's numbers are not among them.
var gateKeys = []struct {
	key  string
	gate func(*readinessState, PolicyKey) (Gate, bool)
}{
	{"flights", (*readinessState).flightsGate},
	{"threshold", (*readinessState).thresholdGate},
	{"figure-floor", (*readinessState).floorGate},
	{"zeros", (*readinessState).zerosGate},
	{"lows", (*readinessState).lowsGate},
	{"unknowns", (*readinessState).unknownsGate},
	{"new-families", (*readinessState).newFamiliesGate},
	{"forecast", (*readinessState).forecastGate},
	{"signoff", (*readinessState).signoffGate},
	{"safety", (*readinessState).safetyGate},
	{"current", (*readinessState).currentGate},
}

// ReadinessOf answers for a pilot by a policy. to and ladder may be "" and nil:
// the next step of the ladder of the latest contest flown.
func (l *Ledger) ReadinessOf(p *Pilot, policy *Policy, ladder *Ladder, to string) Readiness {
	r := Readiness{Pilot: p, Policy: policy, Ladder: ladder, To: to, AsOf: l.AsOf}
	s := readinessState{l: l, r: &r}
	for _, f := range l.Select(Selection{Pilot: p}) {
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
			gate.Name = g.key
			r.Gates = append(r.Gates, gate)
		}
	}
	r.decide()
	return r
}

// Key finds a setting of a policy.
func (p *Policy) Key(name string) (PolicyKey, bool) {
	for _, k := range p.Keys {
		if k.Key == name {
			return k, true
		}
	}
	return PolicyKey{}, false
}

// number is a setting's number at a place, or a default where the key is off
// or missing.
func (p *Policy) number(name string, at int, otherwise float64) float64 {
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
	for i, c := range s.r.Ladder.Categories {
		if c.Name == s.r.From && s.r.To == "" && i+1 < len(s.r.Ladder.Categories) {
			s.r.To = s.r.Ladder.Categories[i+1].Name
		}
	}
	s.r.Floor, _ = s.r.Ladder.Category(s.r.To)
}

// window keeps the contest flights at the present category that are recent
// enough.
func (s *readinessState) window() {
	days := s.r.Policy.number("window", 0, math.Inf(1))
	for _, f := range s.all {
		recent := float64(s.l.AsOf-f.Date) <= days
		if recent && f.Contested() && f.Category == s.r.From && s.r.From != "" && f.Record().Percent != nil {
			s.flights = append(s.flights, f)
		}
	}
}

// last gives the latest n flights of a list.
func last(flights []*Flight, n int) []*Flight { return flights[max(0, len(flights)-n):] }

func number(x float64, decimals int) string { return strconv.FormatFloat(x, 'f', decimals, 64) }

// share writes a probability as whole percent from 1 to 99: nothing is certain.
func share(p float64) string {
	return number(math.Min(99, math.Max(1, math.Round(100*p))), 0) + " %"
}

func stateOf(met bool) GateState {
	if met {
		return Met
	}
	return NotMet
}

func (s *readinessState) flightsGate(key PolicyKey) (Gate, bool) {
	want, have := int(s.r.Policy.number(key.Key, 0, 0)), len(s.flights)
	g := Gate{State: stateOf(have >= want), Evidence: fmt.Sprintf("%s at %s in the window", Counted(have, "contest flight", "contest flights"), orNone(s.r.From))}
	if have < want {
		g.Needs = fmt.Sprintf("%d more at this category", want-have)
	}
	return g, true
}

func orNone(category string) string {
	if category == "" {
		return "any category"
	}
	return category
}

// thresholdGate asks how sure it is that more than the wanted share of flights
// would reach the mark: the 90 % interval of that share, contests as clusters.
// The interval of the plain count and a trend stand beside it and change
// nothing.
func (s *readinessState) thresholdGate(key PolicyKey) (Gate, bool) {
	mark, want := s.r.Policy.number(key.Key, 0, 60), s.r.Policy.number("share", 0, 0.5)
	clusters, above, n := s.clusters(mark)
	g := Gate{State: GateOpen, Evidence: fmt.Sprintf("%d of %d results reached %s %%", above, n, key.Values[0].String())}
	if count, err := stats.Wilson(above, n, gateShare); err == nil {
		g.Evidence += fmt.Sprintf(" (between %s and %s)", share(count.Low), share(count.High))
	}
	state, low, high, next, ok := ThresholdState(clusters, mark, want)
	if !ok {
		g.Evidence += "; " + s.whyNoForecast(clusters)
		g.Needs = "flights at three contests at the least"
		if len(clusters) >= 3 {
			g.Needs = "more flights"
		}
		return g, true
	}
	g.State = state
	g.Evidence += fmt.Sprintf("; the next one does with about %s, the long-run share lies between %s and %s", share(next), share(low), share(high))
	g.Evidence += s.trendEvidence()
	switch state {
	case NotMet:
		g.Needs = fmt.Sprintf("a mean that leaves %s behind: the share above it is below %s", key.Values[0].String()+" %", share(want))
	case GateOpen:
		g.Needs = fmt.Sprintf("more flights, or a mean further from %s %%", key.Values[0].String())
	}
	return g, true
}

func (s *readinessState) whyNoForecast(clusters [][]float64) string {
	if len(clusters) >= 3 {
		return "the same score each time, which allows no forecast"
	}
	return Counted(len(clusters), "contest is", "contests are") + " too few to tell"
}

// ThresholdState is the verdict of the threshold alone, on percents by
// contest: met where the 90 % interval of the long-run share of flights at or
// above the mark lies above the wanted share, not met where it lies below. It
// reports false where fewer than three contests, or equal scores, can say
// nothing. next is the probability that the next flight reaches the mark.
func ThresholdState(clusters [][]float64, mark, want float64) (state GateState, low, high, next float64, ok bool) {
	forecast, err := stats.NewForecast(clusters)
	if err != nil {
		return GateOpen, 0, 0, 0, false
	}
	interval, err := forecast.ShareAbove(mark, gateShare)
	if err != nil {
		return GateOpen, 0, 0, 0, false
	}
	next, err = forecast.AtLeast(mark)
	if err != nil {
		return GateOpen, 0, 0, 0, false
	}
	switch {
	case interval.Low >= want:
		state = Met
	case interval.High < want:
		state = NotMet
	default:
		state = GateOpen
	}
	return state, interval.Low, interval.High, next, true
}

// clusters groups the window's percents by contest, and counts those at or
// above the mark. A contest known by its result alone is one value, where the
// pilot flew one category only and the result's percent is known.
func (s *readinessState) clusters(mark float64) (clusters [][]float64, above, n int) {
	var keys []string
	add := func(key string, percent float64) {
		i := slices.Index(keys, key)
		if i < 0 {
			i = len(keys)
			keys, clusters = append(keys, key), append(clusters, nil)
		}
		clusters[i] = append(clusters[i], percent)
		n++
		if percent >= mark {
			above++
		}
	}
	for _, f := range s.flights {
		percent, _ := f.Record().Percent.Float64()
		add(f.ContestKey(), percent)
	}
	if !s.oneCategory() {
		return clusters, above, n
	}
	days := s.r.Policy.number("window", 0, math.Inf(1))
	for _, c := range s.l.Contests {
		if slices.Contains(keys, c.Handle) || c.Last > s.l.AsOf || float64(s.l.AsOf-c.Last) > days {
			continue
		}
		line, ok := s.l.contestLine(Selection{Pilot: s.r.Pilot}, c, nil)
		if ok && line.Result.Percent != nil && !s.flew(c) {
			percent, _ := line.Result.Percent.Float64()
			add(c.Handle, percent)
		}
	}
	return clusters, above, n
}

// oneCategory reports whether the pilot's contest flights are all of one
// category, so that a result without a category belongs to it.
func (s *readinessState) oneCategory() bool {
	return !slices.ContainsFunc(s.all, func(f *Flight) bool { return f.Contested() && f.Category != s.r.From })
}

func (s *readinessState) flew(c *Contest) bool {
	return slices.ContainsFunc(s.all, func(f *Flight) bool { return f.Contest == c })
}

// floorGate asks for figures at or above a floor in the last flights.
func (s *readinessState) floorGate(key PolicyKey) (Gate, bool) {
	floor, want := s.r.Policy.number(key.Key, 0, 5), s.r.Policy.number("floor-share", 0, 0.95)
	flights := last(s.marked(), int(s.r.Policy.number("floor-flights", 0, 4)))
	total, good := 0, 0
	for _, f := range flights {
		for _, fig := range f.decidedFigures() {
			total++
			if fig.percent >= 10*floor-1e-9 {
				good++
			}
		}
	}
	if total == 0 {
		return Gate{State: GateOpen, Evidence: "no marks in the window", Needs: "flights with their marks"}, true
	}
	g := Gate{
		State:    stateOf(float64(good) >= want*float64(total)-1e-9),
		Evidence: fmt.Sprintf("%d of %d figures at %s or better in the last %s", good, total, key.Values[0].String(), Counted(len(flights), "flight", "flights")),
	}
	if g.State == NotMet {
		g.Needs = fmt.Sprintf("%d of %d at the least (%s)", int(math.Ceil(want*float64(total)-1e-9)), total, share(want))
	}
	return g, true
}

// marked are the window's flights that have marks.
func (s *readinessState) marked() []*Flight {
	return slices.DeleteFunc(slices.Clone(s.flights), func(f *Flight) bool { return !f.HasMarks() })
}

// decide draws the verdict from the gates, and lists what speaks against.
func (r *Readiness) decide() {
	r.Verdict = Ready
	if len(r.Gates) == 0 || r.To == "" {
		r.Verdict = GateOpen
	}
	for _, g := range r.Gates {
		switch {
		case g.State == NotMet:
			r.Verdict = NotYet
		case g.State == GateOpen && r.Verdict == Ready:
			r.Verdict = GateOpen
		}
		if g.State != Met {
			r.Against = append(r.Against, fmt.Sprintf("%s, %s: %s", g.Name, g.State, g.Evidence))
		}
	}
}
