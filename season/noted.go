package season

import (
	"cmp"
	"math/big"
	"slices"

	"boxbook/scoring"
)

// NotedFault is a fault of a flight as it counts. The same fault (kind, figure,
// element) noted by several observers counts once, the larger; lines of one
// observer add up, a line that repeats another one apart.
type NotedFault struct {
	Kind   *FaultKind
	Figure int    // 0 for the flight as a whole
	On     string // code as typed, "" for the figure
	// Seen says that a judge would see it; otherwise it was only felt.
	Seen bool
	// Times is how often: `3x` three times.
	Times int
	// Deduction is what it takes from the figure, 0 for what costs no grade;
	// Unpriced says that some of its price is not known.
	Deduction *big.Rat
	Unpriced  bool
	// Degrees is by how much it is off its angle, 0 for what is no fault of angle.
	Degrees *big.Rat
	// Lines are the indexes into the flight's Faults that make it up.
	Lines []int
}

// Graded reports whether the fault is one that a judge takes points for.
func (n NotedFault) Graded() bool { return n.Seen && n.Figure > 0 && !n.Kind.Safety }

// faultKey is what makes two lines the same fault.
type faultKey struct {
	kind   *FaultKind
	figure int
	on     string
}

// notedOf is asked of every flight for each drill.
var notedOf = NewQuestion[[]NotedFault]("noted")

// Noted lists the flight's faults as they count, in the order of their first
// lines. Nobody may change what it gives.
func (f *Flight) Noted() []NotedFault { return notedOf.Of(f, f.countFaults) }

func (f *Flight) countFaults() []NotedFault {
	keys, notes := f.notes(nil)
	var noted []NotedFault
	for _, key := range keys {
		for i := range notes[key] {
			notes[key][i].price(f)
		}
		noted = append(noted, slices.MaxFunc(notes[key], compareNotes))
	}
	return noted
}

// TimesNoted is how often the faults of a kind count: the Times of those that Noted
// lists, without the price of each.
func (f *Flight) TimesNoted(kind *FaultKind) int {
	first := slices.IndexFunc(f.Faults, func(fault Fault) bool { return fault.Kind == kind })
	if first < 0 {
		return 0
	}
	if !slices.ContainsFunc(f.Faults[first+1:], func(fault Fault) bool { return fault.Kind == kind }) {
		return f.Faults[first].times()
	}
	keys, notes := f.notes(kind)
	times := 0
	for _, key := range keys {
		if len(notes[key]) == 1 {
			times += notes[key][0].Times
			continue
		}
		for i := range notes[key] { // several observers: the larger one counts
			notes[key][i].price(f)
		}
		times += slices.MaxFunc(notes[key], compareNotes).Times
	}
	return times
}

// notes gathers the flight's faults, of one kind or of all for nil, in the order of
// their first lines: one an observer, what was felt apart, not priced.
func (f *Flight) notes(of *FaultKind) (keys []faultKey, notes map[faultKey][]NotedFault) {
	notes = map[faultKey][]NotedFault{}
	repeated := f.RepeatedFaults()
	for i, fault := range f.Faults {
		if _, again := repeated[i]; again || of != nil && fault.Kind != of {
			continue
		}
		key := faultKey{fault.Kind, fault.Figure, fault.On}
		if notes[key] == nil {
			keys = append(keys, key)
		}
		at := slices.IndexFunc(notes[key], func(n NotedFault) bool {
			first := f.Faults[n.Lines[0]]
			return first.By == fault.By && first.Felt == fault.Felt
		})
		if at < 0 {
			at = len(notes[key])
			notes[key] = append(notes[key], NotedFault{Kind: fault.Kind, Figure: fault.Figure, On: fault.On, Seen: !fault.Felt})
		}
		notes[key][at].Times += fault.times()
		notes[key][at].Lines = append(notes[key][at].Lines, i)
	}
	return keys, notes
}

// faultSaid is all that a line says of a fault: lines alike in it are one fault
// typed again.
type faultSaid struct {
	faultKey
	felt          bool
	unit          Unit
	value, second scoring.Decimal
	times         int
	at            Moment // -1 for none
	video         string
	by            *Coach
	remark        string
}

// said gives what the fault's line says, whatever way it is written in.
func (f Fault) said() faultSaid {
	said := faultSaid{
		faultKey: faultKey{f.Kind, f.Figure, f.On}, felt: f.Felt, unit: f.Amount.Unit, value: f.Amount.Value.Short(), second: f.Amount.Second.Short(),
		times: f.times(), at: -1, by: f.By, remark: f.Remark,
	}
	if f.At != nil {
		said.at, said.video = *f.At, f.Video
	}
	return said
}

// times is how often a line notes its fault: `3x` three times.
func (f *Fault) times() int { return max(f.Amount.Times, 1) }

// RepeatedFaults are the indexes of the flight's fault lines that say nothing but
// what an earlier one says, each with the index of that one: the same observer,
// fault, amount, place in the video and remark. They count with it, once.
func (f *Flight) RepeatedFaults() map[int]int {
	if len(f.Faults) > fewFaults {
		return f.repeatedOfMany()
	}
	var repeated map[int]int
	for i := range f.Faults {
		for earlier := range i {
			if f.Faults[i].repeats(&f.Faults[earlier]) {
				if repeated == nil {
					repeated = map[int]int{}
				}
				repeated[i] = earlier
				break
			}
		}
	}
	return repeated
}

// fewFaults are compared quicker each with each than by a table.
const fewFaults = 16

// repeats reports whether a fault says nothing but what another says.
func (fault *Fault) repeats(other *Fault) bool {
	return fault.Kind == other.Kind && fault.Figure == other.Figure && fault.said() == other.said()
}

// repeatedOfMany is RepeatedFaults of a long list.
func (f *Flight) repeatedOfMany() map[int]int {
	first, repeated := make(map[faultSaid]int, len(f.Faults)), map[int]int{}
	for i, fault := range f.Faults {
		said := fault.said()
		if earlier, there := first[said]; there {
			repeated[i] = earlier
			continue
		}
		first[said] = i
	}
	return repeated
}

// DoubledFaults are the indexes of the flight's fault lines that may be an earlier one
// typed again, each with the index of that one: the same observer, figure, kind and typed
// amount, and one of the two says nothing else. Both count. A figure flown several times
// may show a fault as often.
func (f *Flight) DoubledFaults() map[int]int {
	var doubled map[int]int
	if len(f.Faults) > fewFaults {
		return f.doubledOfMany()
	}
	for i := range f.Faults {
		for earlier := range i {
			if f.mayDouble(&f.Faults[i], &f.Faults[earlier]) {
				if doubled == nil {
					doubled = map[int]int{}
				}
				doubled[i] = earlier
				break
			}
		}
	}
	return doubled
}

// mayDouble reports whether two lines may note one fault.
func (f *Flight) mayDouble(fault, other *Fault) bool {
	if fault.Kind != other.Kind || fault.Figure != other.Figure || fault.Figure == 0 || !fault.bare() && !other.bare() {
		return false
	}
	a, b := fault.said(), other.said()
	typed := fault.Amount.Unit != NoUnit || fault.Amount.Times > 1
	return typed && a != b && a.amountAlone() == b.amountAlone() && (a.on == b.on || a.on == "" || b.on == "") && f.Times(fault.Figure) < 2
}

// bare reports whether a line says no more than fault and amount.
func (fault *Fault) bare() bool { return fault.Remark == "" && fault.At == nil }

// amountAlone is what a line says without code, remark and place.
func (said faultSaid) amountAlone() faultSaid {
	said.on, said.remark, said.video, said.at = "", "", "", -1
	return said
}

// doubledOfMany is DoubledFaults of a long list: each is held against the first, and the
// first bare one, of those like it.
func (f *Flight) doubledOfMany() map[int]int {
	type firsts struct{ any, bare int }
	first, doubled := make(map[faultSaid]firsts, len(f.Faults)), map[int]int{}
	for i := range f.Faults {
		fault := &f.Faults[i]
		key := fault.said().amountAlone()
		known, there := first[key]
		if !there {
			known = firsts{i, -1}
		} else if f.mayDouble(fault, &f.Faults[known.any]) {
			doubled[i] = known.any
		} else if known.bare >= 0 && f.mayDouble(fault, &f.Faults[known.bare]) {
			doubled[i] = known.bare
		}
		if known.bare < 0 && fault.bare() {
			known.bare = i
		}
		first[key] = known
	}
	return doubled
}

// price fills in what the lines of the fault, which is one of the flight's, come to.
func (n *NotedFault) price(f *Flight) {
	n.Deduction, n.Degrees = new(big.Rat), new(big.Rat)
	for _, line := range n.Lines {
		fault := f.Faults[line]
		if fault.Amount.Unit == Degrees {
			off := fault.Amount.Value.Rat()
			n.Degrees.Add(n.Degrees, off.Mul(off, big.NewRat(int64(fault.times()), 1)))
		}
		cost := fault.Deduction()
		if cost == nil {
			n.Unpriced = true
			continue
		}
		n.Deduction.Add(n.Deduction, cost)
		if n.Deduction.Cmp(fullGrade()) > 0 {
			n.Deduction = fullGrade()
		}
	}
}

// compareNotes orders two observers' notes of one fault: what is seen is more
// than what is felt, then what costs more, then what was noted more often.
func compareNotes(a, b NotedFault) int {
	switch {
	case a.Seen != b.Seen && a.Seen:
		return 1
	case a.Seen != b.Seen:
		return -1
	case a.Deduction.Cmp(b.Deduction) != 0:
		return a.Deduction.Cmp(b.Deduction)
	default:
		return cmp.Compare(a.Times, b.Times)
	}
}

// Charge is what a fault takes from one figure. Carried says that it was noted
// on the figure before, and its kind costs the next figure the same.
type Charge struct {
	Fault     NotedFault
	Figure    int
	Carried   bool
	Deduction *big.Rat
}

// Charges lists what the seen faults take from the flight's figures: faults
// noted for the flight as a whole, felt ones and matters of safety take
// nothing, and the figure after the last one cannot be charged.
func (f *Flight) Charges() []Charge {
	var charges []Charge
	for _, n := range f.Noted() {
		if !n.Graded() {
			continue
		}
		charges = append(charges, Charge{Fault: n, Figure: n.Figure, Deduction: n.Deduction})
		if n.Kind.Next && f.Flew(n.Figure+1) {
			charges = append(charges, Charge{Fault: n, Figure: n.Figure + 1, Carried: true, Deduction: n.Deduction})
		}
	}
	return charges
}

// ExpectedGrade is what a figure with seen faults should have been given, beside
// what the panel gave. Given is the panel's mean, nil where there is none.
// Unpriced says that some fault on it has no known price: the expected grade is
// then the most that it can be.
type ExpectedGrade struct {
	Figure   int
	Expected *big.Rat
	Given    *big.Rat
	Unpriced bool
	// Zeroed says that the panel made the figure 0 as a matter of fact, which
	// is no grade for faults.
	Zeroed bool
}

// ExpectedGrades lists the figures with seen faults in order. Expected is 10
// less their deductions, at least 0.0 [published: baea-major, 0.0], and
// 0.0 where angle faults of the figure add up to more than 45 degrees [published:
// baea-rules-1, 45 degrees; iac-2004, 45 degrees].
func (f *Flight) ExpectedGrades() []ExpectedGrade {
	var grades []ExpectedGrade
	off := map[int]*big.Rat{}
	for _, c := range f.Charges() {
		at := slices.IndexFunc(grades, func(g ExpectedGrade) bool { return g.Figure == c.Figure })
		if at < 0 {
			at = len(grades)
			grades = append(grades, ExpectedGrade{Figure: c.Figure, Expected: fullGrade()})
		}
		g := &grades[at]
		g.Unpriced = g.Unpriced || c.Fault.Unpriced
		g.Expected.Sub(g.Expected, c.Deduction)
		if off[c.Figure] == nil {
			off[c.Figure] = new(big.Rat)
		}
		if !c.Carried {
			off[c.Figure].Add(off[c.Figure], c.Fault.Degrees)
		}
		if g.Expected.Sign() < 0 || off[c.Figure].Cmp(big.NewRat(mostDegrees, 1)) > 0 {
			g.Expected.SetInt64(0)
		}
	}
	slices.SortFunc(grades, func(a, b ExpectedGrade) int { return cmp.Compare(a.Figure, b.Figure) })
	for i := range grades {
		if line, ok := f.figureScore(grades[i].Figure); ok {
			grades[i].Given, grades[i].Zeroed = line.Mean, Zeroed(f.Rows.Marks(grades[i].Figure-1), line)
		}
	}
	return grades
}

// Zeroed reports whether a figure counts 0 as a matter of fact, however the 0
// came: the panel or the chief judge made it so, or nothing but zeros was left
// to count and a hard or perception zero is among them. 0.0 from every judge is
// a grade and no matter of fact.
func Zeroed(marks []scoring.Mark, line scoring.LineScore) bool {
	if line.Mean == nil || line.Mean.Sign() != 0 {
		return false
	}
	return line.Ruling == scoring.Zeroed || line.Ruling == scoring.Resolved || slices.ContainsFunc(marks, ZeroMark)
}

// ZeroMark reports whether a mark is a zero as a matter of fact: hard, confirmed
// or of perception.
func ZeroMark(m scoring.Mark) bool {
	return m.Kind == scoring.HardZero || m.Kind == scoring.ConfirmedHardZero || m.Kind == scoring.PerceptionZero
}

// ZeroStood reports whether a hard or perception zero of any judge counted as
// 0 in the mean: under rules that fill the hard zeros of a minority, those did
// not, nor did one that was dropped as the lowest mark.
func ZeroStood(marks []scoring.Mark, line scoring.LineScore) bool {
	for i, m := range marks {
		if !ZeroMark(m) || i >= len(line.Cells) {
			continue
		}
		if c := line.Cells[i]; !c.Dropped && c.Used != nil && c.Used.Sign() == 0 {
			return true
		}
	}
	return false
}

// figureScore finds the score of a figure that has a row of marks.
func (f *Flight) figureScore(figure int) (scoring.LineScore, bool) {
	at := slices.Index(f.Flown(), figure-1)
	if at < 0 {
		return scoring.LineScore{}, false
	}
	return f.Score().Lines[at], true
}
