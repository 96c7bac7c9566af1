package analysis

import (
	"cmp"
	"math"
	"math/big"
	"slices"

	"boxbook/season"
	"boxbook/season/stats"
)

// Recurring is which faults come back over a selection of flights. Practice
// counts; void flights do not.
type Recurring struct {
	Pilot  *season.Pilot
	Season int // 0 where the selection is no single season
	// Watched counts the flights looked at: with a fault line or a review.
	Watched int
	// Rows are the kinds by group, by points at stake, most first, then by
	// flights, count and name. Kinds are the same summed over the groups; their
	// Group is the one that all of the kind's rows have.
	Rows  []RecurringKind
	Kinds []RecurringKind
	// Open are the matters of safety still open, whatever was selected.
	Open []OpenMatter
	// Matters are those that the selected flights brought to light, oldest first,
	// open or closed.
	Matters []season.Matter
	// Back is what comes back most by [ComesBack], whatever was selected, the first
	// RecurringNamed kinds; Without are those of all that come back on which no
	// drill is open.
	Back, Without []RecurringKind
	// Untold are the kinds of which that cannot be told yet, by [ComesBackOrUntold].
	Untold []RecurringKind
	// Calibration is the coach's, against the judges.
	Calibration Calibration
}

// RecurringKind is one kind of fault, in one trend group or in all.
type RecurringKind struct {
	Kind *season.FaultKind
	// Group is where it was noted, "" where that cannot be told: for the
	// flight as a whole, or on a figure of several groups without a code.
	Group string
	// Flights counts the flights it was noted in, of the Exposed that could show
	// it (in the group, where there is one); Count the faults: Seen by a judge's
	// eye, and Felt.
	Flights, Exposed, Count, Seen, Felt int
	// Points are at stake, deduction x K as noted, of those that are known;
	// Unknown counts the seen faults whose points are not: without a sequence,
	// or without an amount where the kind needs one.
	Points  *big.Rat
	Unknown int
	Since   season.Date   // the first flight of any season with it
	Drill   *season.Drill // the latest one set on the kind or the group, nil where none is
	Ended   season.Date   // of that drill, 0 while it is open
	// BeforeDrill says that fewer than RecurringFlights reviewed since that drill could
	// show it: what comes back is counted in flights before it. It was noted in
	// SinceFlights of the SinceExposed since.
	BeforeDrill                bool
	SinceFlights, SinceExposed int
	// Contests are those of Flights and Exposed that were contest flights; of what
	// comes back.
	Contests stats.Tally
	// Beside is the latest open drill on a group in which some of it was noted, where
	// no drill is set on all of it; of a row over all groups.
	Beside *season.Drill
	// within says that only what was noted in the group counts, in flights that
	// could show it there.
	within bool
}

// RecurringNamed is how many kinds are named as what comes back.
const RecurringNamed = 3

// RecurringFlights is how many flights must have been looked at for a fault that
// comes back to be told from one that came once: as many as a drill asks for on
// each side.
const RecurringFlights = DrillSideFlights

// FaultsOf answers for the selected flights; the selection names a pilot.
func FaultsOf(l *season.Ledger, s season.Selection) Recurring {
	l = l.KnownTo(s)
	out := Recurring{Pilot: s.Pilot, Season: s.Season, Open: OpenMatters(l, s.Pilot)}
	var flights, matters []notedFlight // matters: of safety, and nothing else was noted there
	selected := map[*season.Flight]bool{}
	var differences compared
	for _, f := range l.Select(s) {
		if !f.Counts() || !f.Watched() {
			continue
		}
		noted := notedIn(f)
		selected[f] = true
		out.addFlight(noted)
		if !f.FiguresWatched() {
			matters = append(matters, noted)
			continue
		}
		flights = append(flights, noted)
		differences.calibrating(f)
	}
	out.Watched = len(flights) + len(matters)
	all, _ := season.AllMatters(l, s.Pilot, l.AsOf)
	out.Matters = slices.DeleteFunc(all, func(m season.Matter) bool { return !selected[m.Flight] })
	if !slices.ContainsFunc(flights, notedFlight.coached) {
		differences = compared{} // what pilots noted is no coach's eye
	}
	out.Calibration.of(differences)
	out.nameGroups()
	out.setDrills(l, s.Pilot)
	out.expose(flights, false)
	out.expose(matters, true)
	out.firstMet(l)
	for _, rows := range [][]RecurringKind{out.Rows, out.Kinds} {
		slices.SortStableFunc(rows, compareRecurring)
	}
	returning := ComesBackOrUntold(l, s.Pilot)
	back := returning.Back
	out.Back, out.Without, out.Untold = back[:min(RecurringNamed, len(back))], Without(back), returning.Untold
	return out
}

// setDrills finds the latest drill on each kind, or on its group.
func (t *Recurring) setDrills(l *season.Ledger, p *season.Pilot) {
	for _, rows := range [][]RecurringKind{t.Rows, t.Kinds} {
		for i := range rows {
			rows[i].Drill = drillOn(l, p, rows[i].Kind.Name, rows[i].Group)
			rows[i].Ended = endedBy(l, rows[i].Drill)
		}
	}
	for i := range t.Kinds {
		if t.Kinds[i].Drill == nil {
			t.Kinds[i].Beside = t.drillBeside(t.Kinds[i].Kind)
		}
	}
}

// drillBeside is the latest open drill on a group in which a kind was noted.
func (t *Recurring) drillBeside(kind *season.FaultKind) *season.Drill {
	var latest *season.Drill
	for _, row := range t.Rows {
		if row.Kind == kind && row.Drill != nil && row.Ended == 0 && (latest == nil || row.Drill.Date > latest.Date) {
			latest = row.Drill
		}
	}
	return latest
}

// expose counts the flights that could show each row; safety says that they show
// matters of safety alone.
func (t *Recurring) expose(flights []notedFlight, safety bool) {
	for _, f := range flights {
		for _, rows := range [][]RecurringKind{t.Rows, t.Kinds} {
			for i := range rows {
				if (!safety || rows[i].Kind.Safety) && f.shows(&rows[i]) {
					rows[i].Exposed++
				}
			}
		}
	}
}

// shows reports whether the flight could show a row: one within a group where it
// flew the group, or where the kind was noted there.
func (f notedFlight) shows(row *RecurringKind) bool {
	if !row.within {
		return f.CouldShow(row.Kind)
	}
	return row.Group == "" && f.CouldShow(row.Kind) || row.Group != "" && f.CouldShowIn(row.Group) || f.has(row)
}

// notedFlight is a flight with its faults as they count, the group that each was
// noted on and its points at stake.
type notedFlight struct {
	*season.Flight
	noted  []season.NotedFault
	groups []string
	points []*big.Rat
}

func notedIn(f *season.Flight) notedFlight {
	out := notedFlight{Flight: f, noted: f.Noted()}
	out.points = pointsAtStake(f, out.noted)
	for _, n := range out.noted {
		out.groups = append(out.groups, groupOf(f, n))
	}
	return out
}

// has reports whether the row's kind was noted in its group.
func (f notedFlight) has(row *RecurringKind) bool {
	for i, n := range f.noted {
		if n.Kind == row.Kind && f.groups[i] == row.Group {
			return true
		}
	}
	return false
}

// firstMet dates each row by the pilot's first flight with it, of any season. It
// reads the lines as they stand: what a fault comes to changes no date.
func (t *Recurring) firstMet(l *season.Ledger) {
	rows, kinds := map[kindIn][]*RecurringKind{}, map[*season.FaultKind][]*RecurringKind{}
	for i := range t.Rows {
		key := kindIn{t.Rows[i].Kind, t.Rows[i].Group}
		rows[key] = append(rows[key], &t.Rows[i])
	}
	for i := range t.Kinds {
		kinds[t.Kinds[i].Kind] = append(kinds[t.Kinds[i].Kind], &t.Kinds[i])
	}
	met := func(met []*RecurringKind, f *season.Flight) {
		for _, row := range met {
			row.Since = f.Date
		}
	}
	for _, f := range reviewedFlights(l, t.Pilot) {
		if len(rows)+len(kinds) == 0 {
			return
		}
		for _, fault := range f.Faults {
			met(kinds[fault.Kind], f)
			delete(kinds, fault.Kind)
			key := kindIn{fault.Kind, groupOfFault(f, fault.Kind, fault.Figure, fault.On)}
			met(rows[key], f)
			delete(rows, key)
		}
	}
}

// nameGroups gives a kind the group that all of its rows have.
func (t *Recurring) nameGroups() {
	for i := range t.Kinds {
		first := true
		for _, row := range t.Rows {
			switch {
			case row.Kind != t.Kinds[i].Kind:
			case first:
				t.Kinds[i].Group, first = row.Group, false
			case row.Group != t.Kinds[i].Group:
				t.Kinds[i].Group = ""
			}
		}
	}
}

// addFlight counts a flight's faults, by kind and group and by kind.
func (t *Recurring) addFlight(f notedFlight) {
	rows, kinds := map[int]bool{}, map[int]bool{} // met in this flight
	for i, n := range f.noted {
		at := rowOf(&t.Rows, n.Kind, f.groups[i])
		t.Rows[at].within = true
		t.Rows[at].add(f.Date, n, f.points[i], !rows[at])
		rows[at] = true
		at = rowOf(&t.Kinds, n.Kind, "")
		t.Kinds[at].add(f.Date, n, f.points[i], !kinds[at])
		kinds[at] = true
	}
}

// add counts a fault; first says that it is the first of its flight.
func (t *RecurringKind) add(day season.Date, n season.NotedFault, points *big.Rat, first bool) {
	if t.Flights == 0 {
		t.Since = day
	}
	if first {
		t.Flights++
	}
	t.Count += n.Times
	if n.Seen {
		t.Seen += n.Times
	} else {
		t.Felt += n.Times
	}
	if points == nil {
		t.Unknown++
		return
	}
	t.Points.Add(t.Points, points)
}

// rowOf finds or makes the row of a kind in a group.
func rowOf(rows *[]RecurringKind, kind *season.FaultKind, group string) int {
	at := slices.IndexFunc(*rows, func(r RecurringKind) bool { return r.Kind == kind && r.Group == group })
	if at < 0 {
		at = len(*rows)
		*rows = append(*rows, RecurringKind{Kind: kind, Group: group, Points: new(big.Rat)})
	}
	return at
}

// pointsAtStake gives deduction x K of each noted fault, the following figure
// included where the kind costs it the same: 0 for what no judge takes points
// for, nil where the K or the price is not known.
func pointsAtStake(f *season.Flight, noted []season.NotedFault) []*big.Rat {
	points := make([]*big.Rat, len(noted))
	for i, n := range noted {
		if !n.Graded() {
			points[i] = new(big.Rat)
			continue
		}
		if !n.Unpriced {
			points[i] = stake(f, n.Kind, n.Figure, n.Deduction)
		}
	}
	return points
}

// stake is deduction x K of a fault on a figure, nil where the K is not known.
func stake(f *season.Flight, kind *season.FaultKind, figure int, deduction *big.Rat) *big.Rat {
	k := f.FigureK(figure)
	if k == 0 {
		return nil
	}
	if kind.Next && f.Flew(figure+1) {
		k += f.FigureK(figure + 1)
	}
	return new(big.Rat).Mul(deduction, big.NewRat(int64(k), 1))
}

// FaultLine is one fault as typed, with the trend group that it was noted on and
// its points at stake by itself: 0 for what no judge takes points for, nil where
// the K or the price is not known.
type FaultLine struct {
	Group  string
	Points *big.Rat
}

// FaultLineOf says of one fault of a flight where it was noted and what it costs.
func FaultLineOf(f *season.Flight, fault season.Fault) FaultLine {
	line := FaultLine{Group: groupOfFault(f, fault.Kind, fault.Figure, fault.On)}
	deduction := fault.Deduction()
	switch {
	case fault.Felt || fault.Safety || fault.Figure == 0:
		line.Points = new(big.Rat)
	case deduction != nil:
		line.Points = stake(f, fault.Kind, fault.Figure, deduction)
	}
	return line
}

// groupOf gives the trend group of what a fault was noted on: of its code, or
// of the figure where all of the figure's elements, or all of those on which the
// kind can show, are of one.
func groupOf(f *season.Flight, n season.NotedFault) string {
	return groupOfFault(f, n.Kind, n.Figure, n.On)
}

// groupOfFault is the group of a fault as it stands, "" where it is of no one.
func groupOfFault(f *season.Flight, kind *season.FaultKind, figure int, on string) string {
	if figure == 0 {
		return ""
	}
	if f.FigureK(figure) == 0 {
		return season.GroupOf(on)
	}
	elements := f.Sequence.Figures[figure-1].Elements
	if on != "" {
		for _, e := range elements {
			if e.Code == on {
				return e.Group
			}
		}
		return ""
	}
	if group, one := oneGroup(elements, kind.In); one {
		return group
	}
	group, _ := oneGroup(elements, nil)
	return group
}

// oneGroup is the group of all elements, or of all those in some groups, where these
// are of one.
func oneGroup(elements []season.Element, in []string) (group string, one bool) {
	for _, e := range elements {
		switch {
		case len(in) > 0 && !slices.Contains(in, e.Group):
			continue
		case one && e.Group != group:
			return "", false
		}
		group, one = e.Group, true
	}
	return group, one
}

// compareRecurring puts what costs most first.
func compareRecurring(a, b RecurringKind) int {
	return cmp.Or(
		b.Points.Cmp(a.Points),
		cmp.Compare(b.Flights, a.Flights),
		cmp.Compare(b.Count, a.Count),
		cmp.Compare(a.Kind.Name, b.Kind.Name),
		cmp.Compare(slices.Index(season.Groups, a.Group), slices.Index(season.Groups, b.Group)),
	)
}

// OpenMatter is a matter of safety that was noted and not yet put right.
type OpenMatter = season.Matter

// OpenMatters lists the matters of safety that stand open on the ledger's AsOf,
// oldest first; of all pilots where none is given.
func OpenMatters(l *season.Ledger, p *season.Pilot) []OpenMatter {
	open, _ := season.Matters(l, p, l.AsOf)
	return open
}

// Calibration compares the grades that the noted faults should have cost with
// those that the judges gave, over all figures of contest flights with seen
// faults, in grades.
type Calibration struct {
	// Bias is the mean of expected minus given, nil where there is no figure:
	// above 0 the panels took more than the faults noted account for.
	Bias *big.Rat
	// Spread is the standard deviation (n - 1), NaN with fewer than two.
	Spread float64
	N      int
	// Zeroed counts the figures among them that the panel made 0 as a matter
	// of fact, which is no grade for faults, and Graded is the mean without them, nil
	// where there are none, or nothing else.
	Zeroed int
	Graded *big.Rat
}

// compared are expected minus given of figures, apart for those that the panel made 0.
type compared struct{ graded, zeroed []*big.Rat }

// calibrating adds expected minus given of a contest flight's figures: those
// whose faults all have a price and which the panel graded. In practice the
// grades are the coach's own.
func (c *compared) calibrating(f *season.Flight) {
	if !f.Contested() {
		return
	}
	for _, g := range f.ExpectedGrades() {
		if g.Given == nil || g.Unpriced {
			continue
		}
		difference := new(big.Rat).Sub(g.Expected, g.Given)
		if g.Zeroed {
			c.zeroed = append(c.zeroed, difference)
		} else {
			c.graded = append(c.graded, difference)
		}
	}
}

// coached reports whether a coach noted a fault of a contest flight, or reviewed it.
func (n notedFlight) coached() bool {
	return n.Contested() && (slices.ContainsFunc(n.Faults, func(fault season.Fault) bool { return fault.By != nil }) ||
		slices.ContainsFunc(n.Reviewed, func(r season.Review) bool { return r.By != nil }))
}

// of works out bias and spread.
func (c *Calibration) of(of compared) {
	differences := slices.Concat(of.graded, of.zeroed)
	c.N, c.Zeroed, c.Spread = len(differences), len(of.zeroed), math.NaN()
	if c.N == 0 {
		return
	}
	c.Bias = meanOf(differences)
	if c.Zeroed > 0 && len(of.graded) > 0 {
		c.Graded = meanOf(of.graded)
	}
	if c.N < 2 {
		return
	}
	squares := new(big.Rat)
	for _, d := range differences {
		gap := new(big.Rat).Sub(d, c.Bias)
		squares.Add(squares, gap.Mul(gap, gap))
	}
	variance, _ := squares.Mul(squares, big.NewRat(1, int64(c.N-1))).Float64()
	c.Spread = math.Sqrt(variance)
}

// meanOf is the mean of numbers, of which there is one at the least.
func meanOf(numbers []*big.Rat) *big.Rat {
	sum := new(big.Rat)
	for _, n := range numbers {
		sum.Add(sum, n)
	}
	return sum.Mul(sum, big.NewRat(1, int64(len(numbers))))
}
