package analysis

import (
	"cmp"
	"math"
	"slices"

	"boxbook/season"
	"boxbook/season/analysis/code"
	"boxbook/season/stats"
)

// PlanItem is one place where the next points are: raising a family from its
// present level to the pilot's own best quarter on it. Gain and its
// interval are percent points of the next sequence.
type PlanItem struct {
	Group           string
	Gain, Low, High float64
	Level, Best     float64 // percent, shrunken
	Share           float64 // of the next sequence's K, 0..1
	LostPerFlight   float64 // points
	Figures         int
	Recurring       *RecurringKind // the fault that costs most there, nil where none was noted
	Drill           *season.Drill  // the latest drill on the group or on that fault
	Ended           season.Date    // of that drill, 0 while it is open
	// Apart says that the gain is told apart from the next item's: their
	// intervals overlap by no more than half.
	Apart bool
}

// Plan is at most three places to look for points. Next is the sequence whose
// K shares were taken: the latest flown that can come back, nil where nothing
// can be said. NotFlown are the families that the pilot does not fly, which are
// none of the places.
type Plan struct {
	Pilot    *season.Pilot
	Category string
	Next     *season.Sequence
	Items    []PlanItem
	Flights  int
	Lack     Lack // what was lacking, where there are no items
	NotFlown []NotFlownGroup
	Open     []OpenMatter // whatever was selected
}

const (
	// PlanConfidence is that of the interval of a gain.
	PlanConfidence = 0.90
	// PlanItems is how many recommendations a plan may make.
	PlanItems = 3
	// planFlights is how many contest flights a plan needs: with fewer a best
	// quarter is one good day.
	planFlights = 4
	// quartileVariance is the variance of an upper quartile in variances of one
	// value divided by their number: p(1-p)/f^2 of the normal (derived).
	quartileVariance = 1.857
	bestQuarter      = 0.75
)

// rise is how far a family's best quarter lies above its level.
type rise struct {
	line  FamilyLine
	share float64
	value float64
	noise float64 // variance of value
}

// PlanOf answers for the contest flights of one category, the one flown last
// where the selection names none.
func PlanOf(l *season.Ledger, s season.Selection) Plan {
	families := FamiliesOf(l, s)
	l = l.KnownTo(s)
	out := Plan{Pilot: s.Pilot, Category: families.Category, Flights: families.Flights}
	out.Open = OpenMatters(l, s.Pilot)
	out.NotFlown = NotFlownOf(s.Pilot, func(string) bool { return true })
	chosen := s
	chosen.Category = families.Category
	flights := gradedFlights(l.Select(chosen))
	if len(flights) < planFlights {
		out.Lack = Lack{Reason: code.FewFlights, Flights: len(flights), Least: planFlights, Bare: bareFlights(l, chosen)}
		return out
	}
	if !families.Shrunk {
		out.Lack = Lack{Reason: families.Reason, Families: len(families.Groups), LeastFamilies: LeastFamilies}
		return out
	}
	out.Next = nextSequence(flights)
	var figures []flownFigure
	for _, f := range flights {
		figures = append(figures, decidedFigures(f)...)
	}
	var rises []rise
	for _, line := range families.Groups {
		if r, ok := riseOf(line, figures, out.Next, families.pooled); ok {
			rises = append(rises, r)
		}
	}
	out.Items = slices.DeleteFunc(planItemsOf(rises), func(i PlanItem) bool { flies, _ := s.Pilot.Flies(i.Group); return !flies })
	if len(out.Items) == 0 {
		out.Lack = Lack{Reason: code.NoRise}
	}
	out.rank()
	recurring := FaultsOf(l, chosen)
	for i := range out.Items {
		out.Items[i].addPractice(l, recurring, s.Pilot)
	}
	return out
}

// bareFlights counts the contest flights that have a total and no marks.
func bareFlights(l *season.Ledger, s season.Selection) int {
	bare := 0
	for _, f := range l.Select(s) {
		if f.Counts() && f.Contested() && !f.HasMarks() && f.Record().Percent != nil {
			bare++
		}
	}
	return bare
}

// nextSequence is the sequence that is likeliest flown next: the latest that can
// come back. An unknown is spent once it was flown; it stands in only where
// nothing else was.
func nextSequence(flights []*season.Flight) *season.Sequence {
	for _, f := range slices.Backward(flights) {
		if f.Programme != season.Unknown && f.Programme != season.FreeUnknown {
			return f.Sequence
		}
	}
	return flights[len(flights)-1].Sequence
}

// riseOf measures one family: its upper quartile over its percent. A family that
// the next sequence lacks has no gain there, and still says how much a quartile
// owes to chance.
func riseOf(line FamilyLine, figures []flownFigure, next *season.Sequence, variance float64) (rise, bool) {
	share := kShare(next, line.Group)
	var percents []float64
	for _, fig := range figures {
		if figureHas(fig.figure, line.Group) {
			percents = append(percents, fig.percent)
		}
	}
	upper, ok := stats.Quantile(percents, bestQuarter)
	if !ok || math.IsNaN(line.Shrunken) {
		return rise{}, false
	}
	return rise{line, share, max(0, upper-line.Percent), quartileVariance * variance / float64(len(percents))}, true
}

// kShare is a group's part of a sequence's K, weighted lines included.
func kShare(seq *season.Sequence, group string) float64 {
	k := 0.0
	for _, figure := range seq.Figures {
		part, _ := groupK(figure, group).Float64()
		k += part
	}
	return k / float64(seq.K()+seq.Positioning+seq.Harmony)
}

// planItemsOf draws the rises towards each other by how much of their spread
// is chance, and turns them into gains.
func planItemsOf(rises []rise) []PlanItem {
	y, v := make([]float64, len(rises)), make([]float64, len(rises))
	for i, r := range rises {
		y[i], v[i] = r.value, r.noise
	}
	shrunk, err := stats.Shrink(y, v)
	if err != nil {
		return nil
	}
	var items []PlanItem
	for i, r := range rises {
		drawn := shrunk.Items[i]
		item := PlanItem{Group: r.line.Group, Level: r.line.Shrunken, Share: r.share, Figures: r.line.Figures}
		item.Best = math.Min(100, item.Level+max(0, drawn.Value))
		item.Gain = r.share * (item.Best - item.Level)
		half := r.share * stats.HalfWidth(PlanConfidence) * drawn.SE
		item.Low, item.High = max(0, item.Gain-half), item.Gain+half
		item.LostPerFlight, _ = r.line.LostPerFlight.Float64()
		if item.Gain > 0 {
			items = append(items, item)
		}
	}
	return items
}

// rank sorts by gain, says what is told apart, and keeps the first three.
func (o *Plan) rank() {
	slices.SortStableFunc(o.Items, func(a, b PlanItem) int { return cmp.Compare(b.Gain, a.Gain) })
	for i := range o.Items {
		o.Items[i].Apart = i+1 == len(o.Items) || apart(o.Items[i], o.Items[i+1])
	}
	o.Items = o.Items[:min(PlanItems, len(o.Items))]
}

// apart reports whether two intervals overlap by no more than half of the
// shorter one.
func apart(a, b PlanItem) bool {
	overlap := min(a.High, b.High) - max(a.Low, b.Low)
	return overlap <= min(a.High-a.Low, b.High-b.Low)/2
}

// addPractice lays the costliest fault noted in the family, and the drill on
// it or on the family, beside the gain.
func (i *PlanItem) addPractice(l *season.Ledger, recurring Recurring, p *season.Pilot) {
	kind := ""
	for at := range recurring.Rows {
		if row := &recurring.Rows[at]; row.Group == i.Group && !row.Kind.Safety {
			i.Recurring, kind = row, row.Kind.Name
			break
		}
	}
	i.Drill = drillOn(l, p, i.Group, kind)
	i.Ended = endedBy(l, i.Drill)
}
