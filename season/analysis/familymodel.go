package analysis

import (
	"cmp"
	"slices"

	"boxbook/season"
	"boxbook/season/stats"
)

// familyModel is the model of the levels of families over flights: what a
// distinct figure scores against its flight is made of its families and of
// itself. Only decided figures that were not zeroed enter.
type familyModel struct {
	fit     *stats.ShareFit
	groups  []string // the model's parts
	flights []*season.Flight
	leftOut func(season.Figure) bool // may be nil
	figures []DistinctFigure
	means   []float64 // of the figures' gaps
	percent float64   // K-weighted, of the figures of all flights
}

// The model's grid, in percent points.
const (
	SpreadStep  = 1.0
	SpreadReach = stats.ShareSteps * SpreadStep // of the spread between families and between figures
	SpreadPrior = stats.SharePrior * SpreadStep // the scale of its prior
)

// newFamilyModel fits the model; nil where no figure has a family. Figures that are left
// out are those of no part of it.
func newFamilyModel(flights []*season.Flight, leftOut func(season.Figure) bool) *familyModel {
	m := &familyModel{flights: flights, leftOut: leftOut}
	cells := m.cells(flights)
	if len(m.figures) == 0 {
		return nil
	}
	pool, err := stats.PoolShares(cells, len(m.groups), false)
	if err != nil {
		return nil
	}
	pool.Step = SpreadStep
	if m.fit, err = stats.FitShares(pool.ShareData); err != nil {
		return nil
	}
	for i, times := range pool.Times {
		m.figures[i].Flights = int(times)
	}
	m.means = m.fit.UnitMeans()
	return m
}

// figureKey names a distinct figure.
type figureKey struct {
	sequence *season.Sequence
	number   int
}

// cells numbers figures, families and flights in the order in which they come.
func (m *familyModel) cells(flights []*season.Flight) []stats.ShareCell {
	flown := make([][]flownFigure, len(flights))
	for i, f := range flights {
		flown[i] = slices.DeleteFunc(decidedFigures(f), func(fig flownFigure) bool {
			return fig.zeroed || fig.figure.K == 0 || m.leftOut != nil && m.leftOut(fig.figure)
		})
	}
	m.groups = groupsFlown(flown)
	units := map[figureKey]*modelUnit{}
	var cells []stats.ShareCell
	var all weightedMean
	entered := 0
	for i, f := range flights {
		for _, fig := range flown[i] {
			weight := float64(fig.figure.K)
			all.add(fig.percent, weight)
			unit := m.unitOf(units, f.Sequence, fig)
			cells = append(cells, stats.ShareCell{Group: entered, Unit: unit.number, Value: fig.percent, Weight: weight, Shares: unit.shares})
		}
		if len(flown[i]) > 0 {
			entered++
		}
	}
	m.percent = all.mean()
	return cells
}

// modelUnit is a distinct figure's number, -1 for one without a family, and its K
// shares.
type modelUnit struct {
	number int
	shares []float64
}

// unitOf finds or makes the unit of a figure.
func (m *familyModel) unitOf(units map[figureKey]*modelUnit, sequence *season.Sequence, fig flownFigure) *modelUnit {
	key := figureKey{sequence, fig.number}
	if unit, ok := units[key]; ok {
		return unit
	}
	unit := &modelUnit{number: -1, shares: sharesOf(fig.figure, m.groups)}
	if unit.shares != nil {
		unit.number = len(m.figures)
		m.figures = append(m.figures, DistinctFigure{Sequence: sequence, Number: fig.number, Groups: groupsOf(fig.figure)})
	}
	units[key] = unit
	return unit
}

// groupsFlown are the groups of the figures that enter, in order.
func groupsFlown(flown [][]flownFigure) []string {
	return slices.DeleteFunc(slices.Clone(season.Groups), func(group string) bool {
		return !slices.ContainsFunc(flown, func(figures []flownFigure) bool {
			return slices.ContainsFunc(figures, func(fig flownFigure) bool { return figureHas(fig.figure, group) })
		})
	})
}

// groupsOf are the groups of a figure's elements that carry K.
func groupsOf(f season.Figure) []string {
	return slices.DeleteFunc(slices.Clone(season.Groups), func(group string) bool { return !figureHas(f, group) })
}

// sharesOf are a figure's K shares by family, of the groups given, nil for one
// without a family.
func sharesOf(f season.Figure, groups []string) []float64 {
	shares, total := make([]float64, len(groups)), 0.0
	for _, e := range f.Elements {
		if i := slices.Index(groups, e.Group); i >= 0 {
			k := float64(e.K) / float64(max(e.Parts, 1))
			shares[i], total = shares[i]+k, total+k
		}
	}
	if total == 0 {
		return nil
	}
	for i := range shares {
		shares[i] /= total
	}
	return shares
}

func (m *familyModel) spread() FamilySpread {
	s := FamilySpread{Known: true, Pooled: m.fit.Pooled, Tau2: m.fit.TauSquared, FigureTau2: m.fit.UnitSquared, Figures: len(m.figures)}
	s.TauHigh, s.FigureHigh = m.fit.SpreadHigh(SpreadConfidence)
	return s
}

// low are the figures that lie below the others by themselves: none where what a
// flight of a figure varies by is not known.
func (m *familyModel) low() []DistinctFigure {
	var low []DistinctFigure
	for i, figure := range m.figures {
		if !m.fit.Pooled || m.means[i] > -LowGap || figure.Flights < LowFlights {
			continue
		}
		if f, err := m.fit.OfUnit(i); err == nil {
			figure.Gap, figure.LowChance = m.means[i], f.Below(0)
			if figure.LowChance >= LowSure {
				figure.WithZero = figure.withZero(m.flights)
				low = append(low, figure)
			}
		}
	}
	slices.SortStableFunc(low, func(a, b DistinctFigure) int { return cmp.Compare(a.Gap, b.Gap) })
	return low
}

// withZero counts the flights whose grade of the figure has a judge's zero in it.
func (f DistinctFigure) withZero(flights []*season.Flight) int {
	n := 0
	for _, flight := range flights {
		at := slices.Index(flight.Flown(), f.Number-1)
		if flight.Sequence != f.Sequence || at < 0 {
			continue
		}
		marks, line := flight.Rows.Marks(f.Number-1), flight.Score().Lines[at]
		if line.Mean != nil && !season.Zeroed(marks, line) && season.ZeroStood(marks, line) {
			n++
		}
	}
	return n
}

// judge fills what the model says of a line.
func (m *familyModel) judge(l *FamilyLine, low []DistinctFigure) {
	at := slices.Index(m.groups, l.Group)
	if at < 0 {
		return
	}
	for _, figure := range m.figures {
		if slices.Contains(figure.Groups, l.Group) {
			l.Distinct = append(l.Distinct, figure)
		}
	}
	slices.SortFunc(l.Distinct, func(a, b DistinctFigure) int {
		return cmp.Or(cmp.Compare(a.Sequence.Handle, b.Sequence.Handle), cmp.Compare(a.Number, b.Number))
	})
	l.Different = different(l.Distinct)
	for i := range low {
		if l.WeakFigure == nil && slices.Contains(low[i].Groups, l.Group) {
			l.WeakFigure = &low[i]
		}
	}
	row := stats.ShareRow{Levels: []float64{1}, Parts: make([]float64, len(m.groups))}
	row.Parts[at] = 1
	level, err := m.fit.Of(row)
	gap, errGap := m.fit.Gap(at)
	if err != nil || errGap != nil {
		return
	}
	tail := (1 - FamilyConfidence) / 2
	l.Shrunken, l.Low, l.High = m.percent+level.Mean(), m.percent+level.Quantile(tail), m.percent+level.Quantile(1-tail)
	l.Gap, l.WeakChance = gap.Mean(), gap.Below(0)
	lies := l.WeakChance >= WeakSure && l.Gap <= -WeakGap
	l.Weak = lies && l.Different >= WeakFigures
	l.WeakOne = lies && l.Different == 1 && len(l.Distinct) > 1
}

// tellApart names the groups that a weak one cannot be told from: they may lie low too, by
// figures that have both, and its others do not; where it has no others, those of the other
// group do. Who loses marks on spins loses them on the line that every spin begins with.
func (m *familyModel) tellApart(l *FamilyLine, groups []FamilyLine) {
	for _, other := range groups {
		both := func(f season.Figure) bool { return figureHas(f, l.Group) && figureHas(f, other.Group) }
		switch {
		case other.Group == l.Group || !(other.WeakChance >= MayBeWeak),
			!slices.ContainsFunc(l.Distinct, other.flies), slices.EqualFunc(l.Distinct, other.Distinct, DistinctFigure.same):
			continue
		}
		apart := newFamilyModel(m.flights, both)
		own, known := apart.below(l.Group)
		others, othersKnown := apart.below(other.Group)
		told := known && own >= WeakApart || !known && othersKnown && others < WeakApart
		if !told {
			l.LowWith = append(l.LowWith, other.Group)
		}
	}
}

// flies reports whether a figure is one of a line's.
func (l *FamilyLine) flies(figure DistinctFigure) bool {
	return slices.ContainsFunc(l.Distinct, figure.same)
}

// below is the chance that a group lies below the others; not known of one that the model
// does not have.
func (m *familyModel) below(group string) (chance float64, known bool) {
	if m == nil || len(m.groups) < LeastFamilies {
		return 0, false
	}
	gap, known := m.gap(group)
	if !known {
		return 0, false
	}
	return gap.Below(0), true
}

// gap is how a group may lie against the others; ok is false for one that the
// model does not have.
func (m *familyModel) gap(group string) (gap stats.Mixture, ok bool) {
	at := slices.Index(m.groups, group)
	if at < 0 {
		return stats.Mixture{}, false
	}
	gap, err := m.fit.Gap(at)
	return gap, err == nil
}
