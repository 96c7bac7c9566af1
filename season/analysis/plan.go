package analysis

import (
	"cmp"
	"math"
	"math/big"
	"slices"

	"boxbook/season"
	"boxbook/season/analysis/code"
)

// Plan is where practice pays: at most three families, and beside them what is
// worth knowing. Sequence is the one whose K shares were taken, nil where nothing
// can be said. NotFlown are the families that the pilot does not fly, which are
// none of the places.
type Plan struct {
	Pilot    *season.Pilot
	Category string
	Sequence *season.Sequence
	Items    []PlanItem
	Flights  int
	Lack     Lack // what was lacking, where there are no items
	// Elsewhere is the category of the flights that would be enough, where these are
	// too few; "" where none are.
	Elsewhere string
	NotFlown  []NotFlownGroup
	// Unseen are the sequence's families that no flight of the plan has graded.
	Unseen []string
	// Bare are the numbers of the sequence's figures without a family, of which nothing
	// is planned; BareLost is the part, 0 to 1, that such figures have in the points lost
	// in the plan's flights, NaN where nothing was lost.
	Bare     []int
	BareLost float64
	Zeros    PlanZeros
	// Catalogue is that of the flights' sequences, and LeftOut counts the flights of the
	// category that are left out since they are of another.
	Catalogue string
	LeftOut   int
	// Folded are families that lie low only in figures of an item's family, by which they
	// would be ranked.
	Folded []PlanItem
	// Aside are the weak families that are none of the items, weakest first.
	Aside []PlanAside
	// LowElse are the sequence's figures that lie low by themselves and have the family of
	// none of the items, lowest first.
	LowElse []DistinctFigure
	// LowItems are those that have the family of an item, lowest first.
	LowItems []DistinctFigure
	// Drilled is the fault that comes back in spite of an open drill, DrilledBy what became
	// of that; nil where none does.
	Drilled   *RecurringKind
	DrilledBy DrillAnswer
	// Without are the faults that come back on which no drill is open.
	Without []RecurringKind
	Open    []OpenMatter
}

// PlanItem is one place where the next points are: a family's share of the
// sequence's K, 0 to 1, times how far it is to be expected below the pilot's other
// families. Gain and its interval are percent points of the sequence.
type PlanItem struct {
	FamilyLine
	Gain, GainLow, GainHigh float64
	Share                   float64
	// LowHere is the lowest of the sequence's figures that lie low by themselves and
	// have the family in them, nil where none does.
	LowHere *DistinctFigure
	// Rising says that the family improves already, firmly, over its last season, and
	// not by a zero in it alone.
	Rising bool
	// Recurring is what comes back most in the family, counted there; nil where
	// nothing does. Anywhere is the same kind over all families.
	Recurring, Anywhere *RecurringKind
	// Untold is the kind of which that cannot be told yet in the family, where nothing
	// comes back there; nil where there is none.
	Untold *RecurringKind
	Drill  *season.Drill // the latest drill on the group or on that fault
	Ended  season.Date   // of that drill, 0 while it is open
	// Apart says that the gain is told apart from the next item's: their
	// intervals overlap by no more than half.
	Apart bool
}

// PlanAside is a weak family that is none of a plan's items, and why.
type PlanAside struct {
	FamilyLine
	Share  float64
	Reason code.Reason
}

// PlanZeros are the figures zeroed over a plan's flights: how many in how many
// flights, and what they cost by flight, in points: K times the mean grade of the
// flight's other figures. NaN where a flight has no other figure to go by. Cost is the
// same in points over all these flights, Percent of each one's maximum on average, and
// Each the same over all the plan's flights. Of are the figures by sequence, the one that
// was zeroed most often first.
type PlanZeros struct {
	Figures, Flights int
	Points           float64
	Cost, Percent    float64
	Each             float64
	Of               []OftenZeroed
}

// OftenZeroed is a figure of a sequence that was zeroed so many times.
type OftenZeroed struct {
	Sequence *season.Sequence
	Number   int
	Times    int
}

const (
	// PlanConfidence is that of the interval of a gain.
	PlanConfidence = 0.90
	// PlanItems is how many recommendations a plan may make.
	PlanItems = 3
	// PlanLeastGain is the least gain that is one, in percent points.
	PlanLeastGain = 0.05
	// PlanLittleK is the share of a sequence's K that is little.
	PlanLittleK = 0.05
	// PlanFlights is how many contest flights with marks a plan needs.
	PlanFlights = 4
)

// PlanOf answers for a sequence, the latest known of the pilot's category where
// none is given, from the flights that say where the pilot is now. A selection
// has no say in them but for its last day and its category.
func PlanOf(l *season.Ledger, s season.Selection, sequence *season.Sequence) Plan {
	l = PresentAtEnd(l.KnownTo(s), s.Season)
	flights, bare := planFlightsOf(l, s, sequence)
	out := Plan{Pilot: s.Pilot, Flights: len(flights), Open: OpenMatters(l, s.Pilot), Zeros: zerosOf(flights)}
	if catalogue := catalogueOf(flights); catalogue != nil {
		all := presentOfAll(l, s.Pilot, planCategory(l, s), l.AsOf)
		out.Catalogue, out.LeftOut = *catalogue, len(all)-len(ofCatalogue(all, catalogue))
	}
	out.NotFlown = NotFlownOf(s.Pilot, func(string) bool { return true })
	if len(flights) > 0 {
		out.Category = flights[0].Category
	}
	families := Families{Pilot: s.Pilot, Category: out.Category}
	var anywhere, here Returning
	season.Together(func() {
		anywhere, here = comesBackIn(l, s.Pilot)
		out.Drilled, out.DrilledBy = Despite(l, anywhere.Back)
	}, func() {
		families.lines(flights, familySamples(flights))
		families.trends(familySamples(latestSeason(l, flights)))
		families.compare(flights)
	})
	out.Without = Without(anywhere.Back)
	switch {
	case len(flights) < PlanFlights:
		out.Lack = Lack{Reason: code.FewFlights, Flights: len(flights), Least: PlanFlights, Bare: bare}
		out.Elsewhere = planElsewhere(l, s.Pilot, planCategory(l, s))
		return out
	case families.Reason != "":
		out.Lack = Lack{Reason: families.Reason, Families: len(families.Groups), LeastFamilies: LeastFamilies}
		return out
	}
	if out.Sequence = sequence; sequence == nil {
		out.Sequence = nextSequence(l, flights)
	}
	out.Bare, out.BareLost = bareFigures(out.Sequence), bareLost(flights)
	out.choose(families)
	for i := range out.Items {
		out.Items[i].addPractice(l, s.Pilot, here, anywhere.Back)
	}
	return out
}

// NextSequence is the sequence that a plan is for where none is given; nil where no flight
// has marks.
func NextSequence(l *season.Ledger, p *season.Pilot) *season.Sequence {
	flights, _ := planFlights(l, season.Selection{Pilot: p})
	if len(flights) == 0 {
		return nil
	}
	return nextSequence(l, flights)
}

// planFlights are the flights of the series that says where a pilot is now, of the
// category asked for or the present one, that have marks; bare counts the others.
func planFlights(l *season.Ledger, s season.Selection) (flights []*season.Flight, bare int) {
	return planFlightsOf(l, s, nil)
}

// planFlightsOf are those of a sequence's catalogue, for nil of the latest flight's.
func planFlightsOf(l *season.Ledger, s season.Selection, sequence *season.Sequence) (flights []*season.Flight, bare int) {
	series := presentOfAll(l, s.Pilot, planCategory(l, s), l.AsOf)
	if sequence != nil {
		series = ofCatalogue(series, &sequence.Catalogue)
	} else {
		series = ofCatalogue(series, catalogueOf(series))
	}
	flights = gradedFlights(series)
	return flights, len(series) - len(flights)
}

// planCategory is the category that a plan is of: the one asked for, else the present
// one.
func planCategory(l *season.Ledger, s season.Selection) string {
	return cmp.Or(s.Category, PresentCategory(l, s.Pilot))
}

// planElsewhere is the category flown last, other than one that is too thin, whose
// flights with marks are enough for a plan; "" where no category's are.
func planElsewhere(l *season.Ledger, p *season.Pilot, thin string) string {
	tried := []string{thin, ""}
	for _, f := range slices.Backward(l.Select(season.Selection{Pilot: p})) {
		if slices.Contains(tried, f.Category) {
			continue
		}
		tried = append(tried, f.Category)
		if flights, _ := planFlights(l, season.Selection{Pilot: p, Category: f.Category}); len(flights) >= PlanFlights {
			return f.Category
		}
	}
	return ""
}

// PlanCategory is the category to ask a plan of, "" where the flights with marks of the
// present one are enough; enough is false where those of none are.
func PlanCategory(l *season.Ledger, p *season.Pilot) (category string, enough bool) {
	if flights, _ := planFlights(l, season.Selection{Pilot: p}); len(flights) >= PlanFlights {
		return "", true
	}
	category = planElsewhere(l, p, PresentCategory(l, p))
	return category, category != ""
}

// latestSeason are the flights of the season of the last one: a trend is told of a
// season.
func latestSeason(l *season.Ledger, flights []*season.Flight) []*season.Flight {
	if len(flights) == 0 {
		return nil
	}
	latest := l.SeasonStart.Season(flights[len(flights)-1].Date)
	return slices.DeleteFunc(slices.Clone(flights), func(f *season.Flight) bool { return l.SeasonStart.Season(f.Date) != latest })
}

// nextSequence is the sequence that is likeliest flown next: the latest known one
// of the flights' category, else the latest flown that is no unknown, which is
// spent once it was flown.
func nextSequence(l *season.Ledger, flights []*season.Flight) *season.Sequence {
	if known := latestKnown(l, flights); known != nil {
		return known
	}
	for _, f := range slices.Backward(flights) {
		if f.Programme != season.Unknown && f.Programme != season.FreeUnknown {
			return f.Sequence
		}
	}
	return flights[len(flights)-1].Sequence
}

// latestKnown is the known sequence of the flights' category that was flown last,
// or one that stands behind it in the ledger and that nobody has flown yet; of who has
// flown none, the one that others flew last; nil where there is none.
func latestKnown(l *season.Ledger, flights []*season.Flight) *season.Sequence {
	var known *season.Sequence
	for _, f := range flights {
		if f.Programme == season.Known {
			known = f.Sequence
		}
	}
	latest := flights[len(flights)-1]
	for _, q := range l.Sequences[slices.Index(l.Sequences, known)+1:] {
		flown := func(f *season.Flight) bool { return f.Sequence == q && f.Contested() } // later than today too
		fits := q.Programme == season.Known && q.Category == latest.Category && q.Catalogue == latest.Sequence.Catalogue
		if fits && !slices.ContainsFunc(l.Flights, flown) {
			known = q
		}
	}
	if known == nil {
		return knownOfOthers(l, latest)
	}
	return known
}

// knownOfOthers is the known sequence of a flight's category and catalogue that was flown
// last, by anybody: whoever has flown none there yet flies that next; nil where there is none.
func knownOfOthers(l *season.Ledger, latest *season.Flight) *season.Sequence {
	for _, f := range slices.Backward(l.Select(season.Selection{})) {
		if q := f.Sequence; q != nil && f.Contested() && q.Programme == season.Known && q.Category == latest.Category &&
			q.Catalogue == latest.Sequence.Catalogue && l.Past(f.Date) {
			return q
		}
	}
	return nil
}

// kShare is a group's part of a sequence's K, weighted lines included.
func kShare(seq *season.Sequence, group string) float64 {
	k := 0.0
	for _, figure := range seq.Figures {
		k += groupK(figure, group).float64()
	}
	if k == 0 {
		return 0
	}
	return k / float64(seq.K()+seq.Positioning+seq.Harmony)
}

// fold takes out the items that lie low only in the figures of another item, which may do so
// without them: what would be practised is that other one.
func (o *Plan) fold() {
	items := slices.Clone(o.Items)
	under := func(i, other PlanItem) bool {
		return slices.Contains(i.LowWith, other.Group) && !slices.Contains(other.LowWith, i.Group)
	}
	o.Items = slices.DeleteFunc(o.Items, func(i PlanItem) bool {
		folded := slices.ContainsFunc(items, func(other PlanItem) bool { return under(i, other) })
		if folded {
			o.Folded = append(o.Folded, i)
		}
		return folded
	})
}

// choose ranks the families by gain and keeps the first, and says of the weak ones
// why they are not among them.
func (o *Plan) choose(families Families) {
	for _, line := range families.Groups {
		o.add(families, line)
	}
	slices.SortStableFunc(o.Items, func(a, b PlanItem) int { return cmp.Compare(b.Gain, a.Gain) })
	o.fold()
	for i := range o.Items {
		o.Items[i].Apart = i+1 == len(o.Items) || apart(o.Items[i], o.Items[i+1])
	}
	o.Items = o.Items[:min(PlanItems, len(o.Items))]
	if len(o.Items) == 0 {
		o.Lack = Lack{Reason: code.NoGain, Flights: o.Flights, Families: o.flownHere(families)}
	}
	for _, f := range families.Low {
		of := func(i PlanItem) bool { return slices.Contains(f.Groups, i.Group) }
		switch {
		case f.Sequence != o.Sequence:
		case slices.ContainsFunc(o.Items, of):
			o.LowItems = append(o.LowItems, f)
		default:
			o.LowElse = append(o.LowElse, f)
		}
	}
	for _, line := range families.Groups {
		o.setAside(line)
	}
	slices.SortStableFunc(o.Aside, func(a, b PlanAside) int { return cmp.Compare(a.Gap, b.Gap) })
	for _, group := range season.Groups {
		flies, _ := o.Pilot.Flies(group)
		flown := slices.ContainsFunc(families.Groups, func(l FamilyLine) bool { return l.Group == group })
		if flies && !flown && sequenceHas(o.Sequence, group) {
			o.Unseen = append(o.Unseen, group)
		}
	}
}

// flownHere counts the sequence's families that were flown and that the pilot flies.
func (o *Plan) flownHere(families Families) int {
	n := 0
	for _, line := range families.Groups {
		if flies, _ := o.Pilot.Flies(line.Group); flies && kShare(o.Sequence, line.Group) > 0 {
			n++
		}
	}
	return n
}

// add makes an item of a family that the pilot flies and that promises a gain.
func (o *Plan) add(families Families, line FamilyLine) {
	flies, _ := o.Pilot.Flies(line.Group)
	item, ok := planItemOf(families.model, line, kShare(o.Sequence, line.Group))
	if !ok || !flies || item.Gain < PlanLeastGain {
		return
	}
	for i, f := range families.Low {
		if item.LowHere == nil && f.Sequence == o.Sequence && slices.Contains(f.Groups, line.Group) {
			item.LowHere = &families.Low[i]
		}
	}
	o.Items = append(o.Items, item)
}

// planItemOf works out the gain on a share of the K; ok is false for a family
// without a level.
func planItemOf(m *familyModel, line FamilyLine, share float64) (PlanItem, bool) {
	gap, ok := m.gap(line.Group)
	if !ok {
		return PlanItem{}, false
	}
	item := PlanItem{FamilyLine: line, Share: share, Gain: share * gap.Shortfall(), Rising: line.Trend.Word == Improving && len(line.Trend.HangsOn) == 0}
	tail := (1 - PlanConfidence) / 2
	item.GainHigh = share * math.Max(0, -gap.Quantile(tail))
	if line.WeakChance > 1-tail {
		item.GainLow = share * math.Max(0, -gap.Quantile(1-tail))
	}
	return item, true
}

// setAside keeps a weak family that the pilot flies and that is no item.
func (o *Plan) setAside(line FamilyLine) {
	flies, _ := o.Pilot.Flies(line.Group)
	if !flies || !line.Weak || slices.ContainsFunc(o.Items, func(i PlanItem) bool { return i.Group == line.Group }) {
		return
	}
	aside := PlanAside{FamilyLine: line, Share: kShare(o.Sequence, line.Group), Reason: code.SmallerGain}
	switch {
	case aside.Share == 0:
		aside.Reason = code.NotInSequence
	case aside.Share <= PlanLittleK:
		aside.Reason = code.LittleK
	}
	o.Aside = append(o.Aside, aside)
}

// apart reports whether two intervals overlap by no more than half of the
// shorter one.
func apart(a, b PlanItem) bool {
	overlap := min(a.GainHigh, b.GainHigh) - max(a.GainLow, b.GainLow)
	return overlap <= min(a.GainHigh-a.GainLow, b.GainHigh-b.GainLow)/2
}

// addPractice lays what comes back in the family, and the drill on it or on the
// family, beside the gain.
func (i *PlanItem) addPractice(l *season.Ledger, p *season.Pilot, here Returning, anywhere []RecurringKind) {
	kind := ""
	in := func(k RecurringKind) bool { return k.Group == i.Group }
	if at := slices.IndexFunc(here.Back, in); at >= 0 {
		i.Recurring, kind = &here.Back[at], here.Back[at].Kind.Name
		if all := slices.IndexFunc(anywhere, func(k RecurringKind) bool { return k.Kind == i.Recurring.Kind }); all >= 0 {
			i.Anywhere = &anywhere[all]
		}
	} else if at := slices.IndexFunc(here.Untold, in); at >= 0 {
		i.Untold, kind = &here.Untold[at], here.Untold[at].Kind.Name
	}
	i.Drill = drillOn(l, p, i.Group, kind)
	i.Ended = endedBy(l, i.Drill)
}

// bareLost is the part of the points lost in flights that figures without a family lost.
func bareLost(flights []*season.Flight) float64 {
	bare, all := new(big.Rat), new(big.Rat)
	for _, f := range flights {
		losses := LossesOf(f)
		all.Add(all, losses.Total)
		for _, lost := range losses.Figures {
			if !hasFamily(f.Sequence.Figures[lost.Number-1]) {
				bare.Add(bare, lost.Lost)
			}
		}
	}
	if all.Sign() == 0 {
		return math.NaN()
	}
	part, _ := bare.Quo(bare, all).Float64()
	return part
}

// kindIn is a kind of fault in a group.
type kindIn struct {
	kind  *season.FaultKind
	group string
}

// zerosOf counts the figures that were zeroed, and what they cost.
func zerosOf(flights []*season.Flight) PlanZeros {
	z := PlanZeros{}
	for _, f := range flights {
		figures, cost := zeroCost(f)
		if figures == 0 {
			continue
		}
		z.Figures, z.Flights, z.Cost = z.Figures+figures, z.Flights+1, z.Cost+cost
		z.Percent += percentOf(cost, f)
		z.count(f)
	}
	slices.SortStableFunc(z.Of, func(a, b OftenZeroed) int { return cmp.Compare(b.Times, a.Times) })
	if z.Flights > 0 {
		z.Points = z.Cost / float64(len(flights))
		z.Each = z.Percent / float64(len(flights))
		z.Percent /= float64(z.Flights)
	}
	return z
}

// count adds a flight's figures that were zeroed.
func (z *PlanZeros) count(f *season.Flight) {
	for _, fig := range decidedFigures(f) {
		if !fig.zeroed {
			continue
		}
		at := slices.IndexFunc(z.Of, func(o OftenZeroed) bool { return o.Sequence == f.Sequence && o.Number == fig.number })
		if at < 0 {
			at = len(z.Of)
			z.Of = append(z.Of, OftenZeroed{Sequence: f.Sequence, Number: fig.number})
		}
		z.Of[at].Times++
	}
}

// zeroCost counts a flight's figures that were zeroed, and what they cost in points: K
// times the mean grade of the flight's other figures, NaN where it has none.
func zeroCost(f *season.Flight) (figures int, cost float64) {
	var others weightedMean
	k := 0.0
	for _, fig := range decidedFigures(f) {
		if fig.zeroed {
			figures++
			k += float64(fig.figure.K)
		} else {
			others.add(fig.percent, float64(fig.figure.K))
		}
	}
	if figures == 0 {
		return 0, 0
	}
	return figures, k * others.mean() / 10
}

// percentOf are points of a flight in percent of its maximum.
func percentOf(points float64, f *season.Flight) float64 {
	return 100 * points / float64(f.Score().Maximum)
}

// ZerosCost is what a flight's zeros cost, in points and in percent of its maximum,
// against the mean grade of its other figures; false where there are none, or no other.
func ZerosCost(f *season.Flight) (points, percent float64, ok bool) {
	if !f.HasMarks() {
		return 0, 0, false
	}
	figures, cost := zeroCost(f)
	if figures == 0 || math.IsNaN(cost) {
		return 0, 0, false
	}
	return cost, percentOf(cost, f), true
}
