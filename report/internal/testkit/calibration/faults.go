package calibration

import (
	"math"
	"math/rand/v2"
	"slices"

	"boxbook/season"
)

// Choice is how a drill's target is chosen.
type Choice int

// Set beforehand on what is truly most frequent, whatever the flights showed (where
// figures come to be flown less often, of what those show); on what was seen most in
// the last four flights; on what was seen most of all flights before.
const (
	Scheduled Choice = iota
	WorstOfFour
	WorstOfAll
)

func (c Choice) String() string {
	return [...]string{"scheduled", "on the worst of four", "on the worst of all"}[c]
}

// prompting is how many flights before a drill give rise to it.
const prompting = 4

// faultKinds are the kinds that simulated pilots show, each with the figure of
// faultSequence in which it shows.
var faultKinds = []struct {
	name   string
	figure int
	family string // that the figure must have been flown with; "" for any
}{
	{"radius", 1, ""},
	{"line-length", 1, ""},
	{"line-angle", 4, ""},
	{"heading", 1, ""},
	{"pitch", 4, ""},
	{"axis", 4, ""},
	{"timing", 2, ""},
	{"roll-rate", 5, "9.1"},
	{"roll-stop", 5, "9.1"},
	{"roll-angle", 5, "9.1"},
	{"turn-rate", 3, "2"},
	{"bank", 3, "2"},
	{"flick-start", 6, "9.9"},
	{"spin-stop", 7, "spins"},
}

// FaultSeason says how flights with faults come about around a drill.
type FaultSeason struct {
	// Before are the flights before the drill that may be compared, those that gave
	// rise to it apart; After are those since.
	Before, After int
	PerContest    int
	Choice        Choice
	Named         int // how many of the latest flights the drill names
	// Left is to what part of its chance each fault falls after the drill.
	Left float64
	// Thorough is by how much more often whatever was there is noted after the drill.
	Thorough float64
	// Target is the kind that the drill is on, "" for whatever the choice gives. Its
	// chance is From before and To after the drill, where From is above 0.
	Target   string
	From, To float64
	// Flown is how often the figure of a kind that needs one is flown after the
	// drill; before, always. 0 stands for always, below 0 for never.
	Flown float64
	// Kinds is how many kinds there are, 0: all.
	Kinds int
	// Practice is which part of the flights, before and after, are practice; Nerves
	// says that the target shows there a tenth as often as in contests.
	Practice [2]float64
	Nerves   bool
}

// atEase is how often a fault of contests shows in practice, of how often there.
const atEase = 0.1

// contestMood is by how much a contest moves the chances of all faults, in log
// odds.
const contestMood = 0.4

// FaultBook is a ledger of faults, with a drill.
type FaultBook struct {
	Ledger *season.Ledger
	Target string
	// Chances are those of each kind before and after, while it can show.
	Chances [][2]float64
}

func (s FaultSeason) kinds() int {
	if s.Kinds == 0 {
		return len(faultKinds)
	}
	return s.Kinds
}

// chances draws each kind's own rate, from one flight in twenty to seven in ten.
func (s FaultSeason) chances(r *rand.Rand) [][2]float64 {
	list := make([][2]float64, s.kinds())
	for i := range list {
		u := r.Float64()
		rate := 0.05 + 0.65*u*u
		list[i] = [2]float64{rate, rate * s.Left}
		if faultKinds[i].name == s.Target && s.From > 0 {
			list[i] = [2]float64{s.From, s.To}
		}
	}
	return list
}

// Make draws one season with its drill.
func (s FaultSeason) Make(r *rand.Rand) FaultBook {
	before := s.Before + prompting
	n := before + s.After
	days := make([]int, n)
	day := firstDay
	for i := range days {
		if i%s.PerContest == 0 {
			day += 5 + r.IntN(9)
		}
		days[i] = day
	}
	b := newBook(day + 20)
	out := FaultBook{Ledger: b.Ledger, Chances: s.chances(r)}
	sequences := map[string]*season.Sequence{}
	mood := 0.0
	for i, day := range days {
		if i%s.PerContest == 0 {
			mood = contestMood * r.NormFloat64()
		}
		f := b.flight(day, s.programme(r, i >= before))
		if s.PerContest > 1 {
			f.Contest = b.contest(i/s.PerContest, day, nil)
		}
		f.Sequence = s.sequence(r, b, sequences, i >= before)
		f.Reviewed = []season.Review{{}}
		s.note(r, f, out.Chances, i >= before, mood)
	}
	out.Target = s.target(r, b.Flights[:before], out.Chances)
	drill := &season.Drill{Date: season.Date(days[before-1] + 1), Pilot: b.pilot, Target: out.Target}
	if s.Named > 0 {
		drill.Prompted = s.named(b.Flights[:before], out.Target)
	}
	b.Drills = []*season.Drill{drill}
	return out
}

// programme is that of a flight, contest or practice.
func (s FaultSeason) programme(r *rand.Rand, after bool) season.Programme {
	part := s.Practice[0]
	if after {
		part = s.Practice[1]
	}
	if part > 0 && r.Float64() < part {
		return season.Practice
	}
	return season.Known
}

// sequence gives the flight's sequence: after the drill without the figures of
// some families, as often as those are not flown.
func (s FaultSeason) sequence(r *rand.Rand, b *book, met map[string]*season.Sequence, after bool) *season.Sequence {
	without, handle := map[string]bool{}, "known"
	for _, family := range []string{"9.1", "2", "9.9", "spins"} {
		if after && s.Flown != 0 && r.Float64() >= s.Flown {
			without[family] = true
			handle += "-" + family[len(family)-1:]
		}
	}
	if met[handle] == nil {
		met[handle] = faultSequence(handle, without)
		b.Sequences = append(b.Sequences, met[handle])
	}
	return met[handle]
}

// faultSequence has a figure for each kind, in the places that faultKinds names;
// a family left out has a plain line in its place.
func faultSequence(handle string, without map[string]bool) *season.Sequence {
	s := &season.Sequence{Handle: handle, Category: Category, Programme: season.Known}
	add := func(f season.Figure, family string) {
		if without[family] {
			f = figureOf(part{"1.1.1.1", 2})
		}
		s.Figures = append(s.Figures, f)
	}
	add(figureOf(part{"7.4.1.1", 10}), "")
	add(figureOf(part{"5.2.1.1", 17}), "")
	add(figureOf(part{"2.3.1.1", 5}), "2")
	add(figureOf(part{"8.4.1.1", 13}), "")
	add(figureOf(part{"1.2.1.1", 8}, part{"9.1.3.4", 8}), "9.1")
	add(figureOf(part{"1.1.1.1", 2}, part{"9.9.3.4", 11}), "9.9")
	add(figureOf(part{"1.2.6.3", 8}, part{"9.11.1.4", 5}), "spins")
	return s
}

// note notes what shows in a flight.
func (s FaultSeason) note(r *rand.Rand, f *season.Flight, chances [][2]float64, after bool, mood float64) {
	for i, chance := range chances {
		kind := faultKinds[i]
		c := chance[0]
		if after {
			c = min(0.97, chance[1]*max(1, s.Thorough))
		}
		if s.Nerves && !f.Contested() && kind.name == s.Target {
			c *= atEase
		}
		if mood != 0 && c > 0 && s.PerContest > 1 {
			c = 1 / (1 + math.Exp(-math.Log(c/(1-c))-mood))
		}
		shows := kind.family == "" || has(f.Sequence.Figures[kind.figure-1], kind.family)
		if r.Float64() < c && shows {
			noted := kindNamed(kind.name)
			f.Faults = append(f.Faults, season.Fault{Figure: kind.figure, Kind: noted, Felt: noted.Felt, Amount: season.Amount{Times: 1}})
		}
	}
}

func kindNamed(name string) *season.FaultKind {
	kinds := shipped().FaultKinds
	return kinds[slices.IndexFunc(kinds, func(k *season.FaultKind) bool { return k.Name == name })]
}

// seenIn counts in how many flights a kind was noted.
func seenIn(flights []*season.Flight, name string) int {
	n := 0
	for _, f := range flights {
		if shows(f, name) {
			n++
		}
	}
	return n
}

func shows(f *season.Flight, name string) bool {
	return slices.ContainsFunc(f.Faults, func(fault season.Fault) bool { return fault.Kind.Name == name })
}

// target chooses the drill's target among the kinds; equals by lot.
func (s FaultSeason) target(r *rand.Rand, before []*season.Flight, chances [][2]float64) string {
	if s.Target != "" {
		return s.Target
	}
	if s.Choice == Scheduled {
		return s.frequent(chances)
	}
	if s.Choice == WorstOfFour {
		before = before[len(before)-prompting:]
	}
	worst, most := "", -1
	for _, i := range r.Perm(s.kinds()) {
		if seen := seenIn(before, faultKinds[i].name); seen > most {
			worst, most = faultKinds[i].name, seen
		}
	}
	return worst
}

func (s FaultSeason) frequent(chances [][2]float64) string {
	most := -1
	for i, c := range chances {
		if s.Flown != 0 && faultKinds[i].family == "" {
			continue
		}
		if most < 0 || c[0] > chances[most][0] {
			most = i
		}
	}
	return faultKinds[most].name
}

// named are the flights that the drill names: the latest in which the target was
// noted where it names one, else the latest.
func (s FaultSeason) named(before []*season.Flight, target string) []*season.Flight {
	if s.Named > 1 {
		return before[len(before)-s.Named:]
	}
	for i := len(before) - 1; i >= 0; i-- {
		if shows(before[i], target) {
			return before[i : i+1]
		}
	}
	return before[len(before)-1:]
}
