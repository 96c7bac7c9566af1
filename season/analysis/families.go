package analysis

import (
	"math"
	"math/big"
	"slices"
	"strings"

	"boxbook/season"
	"boxbook/season/analysis/code"
)

// Families is the answer to "which family is weak, and which moves": trend
// groups, each against the rest of the same flights.
type Families struct {
	Pilot    *season.Pilot
	Category string
	Flights  int // contest flights with grades that entered
	// Catalogues counts those of the flights' sequences, none named being one.
	Catalogues int
	// Uncoded are those of them of which no figure has a family, Bare the figures
	// without one in the others, in the order flown.
	Uncoded []*season.Flight
	Bare    []BareFigure
	Groups  []FamilyLine
	// Compared counts the groups that could reach a verdict on their trend.
	Compared int
	FamilySpread
	// Low are the figures that lie below the others by themselves, lowest first.
	Low []DistinctFigure
	// Reason says what was lacking where the levels are not compared.
	Reason code.Reason

	model *familyModel
}

// FamilySpread says how far families and figures differ: the mean of the variance
// in percent points squared, and the root that is not excluded. Known is false
// where the levels were not compared; Pooled says that figures were flown often
// enough to tell what one flight of a figure varies by.
type FamilySpread struct {
	Known, Pooled          bool
	Tau2, TauHigh          float64
	FigureTau2, FigureHigh float64
	Figures                int // distinct ones
}

// FamilyLine is one trend group. K is the K of the group's elements flown;
// Percent is K-weighted. Shrunken is the level of [FamilySpread]'s model, with a
// 90 % interval, NaN where there is none.
type FamilyLine struct {
	Group         string
	Figures       int
	Flights       int
	Contests      int
	K             *big.Rat
	Percent       float64
	Shrunken      float64
	Low, High     float64
	WithoutZeros  float64 // Percent without the figures that were zeroed
	Zeros         int
	VersusRest    float64 // mean over flights of group less the rest of the flight
	HasRest       bool
	Trend         Trend
	Q             float64  // of the trend, over the groups compared
	LostPerFlight *big.Rat // of the flights with families
	// First and Last are the group's own percent over the first and the last Ends
	// flights with it, a quarter of them each; NaN with fewer than two flights.
	First, Last float64
	Ends        int
	// LastGraded and EndsGraded are Last and Ends of the figures that were not zeroed.
	LastGraded float64
	EndsGraded int
	// Distinct are the figures that the level is of, and Different how many of them
	// differ in what is flown: one that stands in several sequences is one. Gap is the
	// level less that of the pilot's other groups, the mean of what it may be;
	// WeakChance that it lies below 0, NaN without a level.
	Distinct        []DistinctFigure
	Different       int
	Gap, WeakChance float64
	Weak            bool
	// WeakOne says that it lies as low as a weak one, but that all of it is one figure of
	// several sequences: the figure is weak.
	WeakOne bool
	// LowWith are the groups that one which lies as low as a weak one cannot be told from:
	// they may lie low too, and it does so by figures that have both.
	LowWith []string
	// WeakFigure is the lowest of the group's figures that lie low by themselves,
	// nil where none does.
	WeakFigure *DistinctFigure
	// Alike are the groups with the same distinct figures, which nothing can tell
	// from this one.
	Alike []string
}

// DistinctFigure is one figure of one sequence, however often it was flown. Gap is
// how it lies against the pilot's other figures, LowChance the chance that it lies
// below them. WithZero counts the flights in which the zero of a judge counted without
// zeroing it; of a figure that lies low.
type DistinctFigure struct {
	Sequence       *season.Sequence
	Number         int
	Flights        int
	WithZero       int
	Groups         []string
	Gap, LowChance float64
}

// The thresholds of a weak family and of a figure that lies low.
const (
	FamilyConfidence = 0.90 // of the interval about a family's level
	SpreadConfidence = 0.95 // of what is not excluded of a spread
	LeastFamilies    = 3    // that levels can be compared of
	WeakSure         = 0.92 // chance that a family lies below the others
	WeakGap          = 2.0  // percent points below the pilot's other families
	WeakFigures      = 2    // distinct ones: with one the figure is weak, and not the family
	MayBeWeak        = 0.60 // chance from which a family may be weaker
	WeakApart        = 0.65 // chance that a weak family lies below the others without the figures that it shares with one that may be weaker
	LowSure          = 0.95 // chance that a figure lies below the others
	LowGap           = 3.0  // percent points below the pilot's other figures
	LowFlights       = 3    // of that figure
	restFigures      = 3    // figures without the family that a flight needs for the comparison
	ownEnds          = 4    // the first and the last quarter of the flights
)

// FamiliesOf answers for the contest flights of one category: the selection's,
// else that of the latest flight.
func FamiliesOf(l *season.Ledger, s season.Selection) Families {
	flights := gradedFlights(l.Select(s))
	out := Families{Pilot: s.Pilot, Category: s.Category}
	if out.Category == "" && len(flights) > 0 {
		out.Category = flights[len(flights)-1].Category
	}
	flights = slices.DeleteFunc(flights, func(f *season.Flight) bool { return f.Category != out.Category })
	out.over(flights)
	return out
}

// over makes the answer of the flights.
func (o *Families) over(flights []*season.Flight) {
	samples := familySamples(flights)
	o.lines(flights, samples)
	o.trends(samples)
	o.compare(flights)
}

// lines are the groups flown, with their plain means.
func (o *Families) lines(flights []*season.Flight, samples []familySample) {
	o.Flights = len(flights)
	catalogues := map[string]bool{}
	for _, f := range flights {
		catalogues[f.Sequence.Catalogue] = true
	}
	o.Catalogues = len(catalogues)
	var coded []*season.Flight
	for _, f := range flights {
		if slices.ContainsFunc(f.Sequence.Figures, hasFamily) {
			coded = append(coded, f)
			o.addBare(f.Sequence)
		} else {
			o.Uncoded = append(o.Uncoded, f)
		}
	}
	lost := lostPerFlight(coded)
	for i, s := range samples {
		if s.figures == 0 {
			continue
		}
		line := FamilyLine{Group: season.Groups[i], Figures: s.figures, Flights: len(s.flights), K: s.k.rat(), LostPerFlight: lost[season.Groups[i]]}
		line.levels(s)
		o.Groups = append(o.Groups, line)
	}
}

// BareFigure is a figure that is of no family.
type BareFigure struct {
	Sequence *season.Sequence
	Number   int
}

// addBare adds a sequence's figures without a family, once.
func (o *Families) addBare(seq *season.Sequence) {
	if slices.ContainsFunc(o.Bare, func(b BareFigure) bool { return b.Sequence == seq }) {
		return
	}
	for _, number := range bareFigures(seq) {
		o.Bare = append(o.Bare, BareFigure{seq, number})
	}
}

// trends judges the groups' trends together, by the samples of the same flights or
// of some of them; a group that they lack has no trend.
func (o *Families) trends(samples []familySample) {
	points := make([][]TrendPoint, len(o.Groups))
	for i, line := range o.Groups {
		points[i] = samples[slices.Index(season.Groups, line.Group)].points
	}
	trends, qs := GroupTrends(points)
	for i := range o.Groups {
		o.Groups[i].Trend, o.Groups[i].Q = trends[i], qs[i]
		if trends[i].Word != TooFew {
			o.Compared++
		}
	}
}

// compare puts the families' and figures' levels beside each other.
func (o *Families) compare(flights []*season.Flight) {
	m := newFamilyModel(flights, nil)
	if m == nil || len(m.groups) < LeastFamilies {
		o.Reason = code.FewFamilies
		return
	}
	o.model, o.FamilySpread = m, m.spread()
	o.Low = m.low()
	for i := range o.Groups {
		m.judge(&o.Groups[i], o.Low)
	}
	for i := range o.Groups {
		o.Groups[i].Alike = alike(o.Groups, i)
		if o.Groups[i].Weak {
			m.tellApart(&o.Groups[i], o.Groups)
		}
	}
	for i := range o.Groups {
		o.Groups[i].Weak = o.Groups[i].Weak && len(o.Groups[i].LowWith) == 0
	}
}

// alike are the other groups of the same figures.
func alike(groups []FamilyLine, at int) []string {
	var names []string
	for i, other := range groups {
		if i != at && len(other.Distinct) > 0 && slices.EqualFunc(other.Distinct, groups[at].Distinct, DistinctFigure.same) {
			names = append(names, other.Group)
		}
	}
	return names
}

func (f DistinctFigure) same(other DistinctFigure) bool {
	return f.Sequence == other.Sequence && f.Number == other.Number
}

// different counts figures that differ in what is flown. The same catalogue numbers
// in several sequences are one figure, flown several times; where a figure is known
// by its family alone another may be another, and two of one sequence are two.
func different(figures []DistinctFigure) int {
	var flown []string
	ofSequence := map[*season.Sequence]int{}
	most := 0
	for _, f := range figures {
		ofSequence[f.Sequence]++
		most = max(most, ofSequence[f.Sequence])
		if codes, ok := f.codes(); !ok || !slices.Contains(flown, codes) {
			flown = append(flown, codes)
		}
	}
	return max(most, len(flown))
}

// codes are a figure's catalogue numbers; ok is false where it has not one for each
// of its elements.
func (f DistinctFigure) codes() (codes string, ok bool) {
	for _, element := range f.Sequence.Figures[f.Number-1].Elements {
		if strings.Count(element.Code, ".") < catalogueDots {
			return "", false
		}
		codes += element.Code + " "
	}
	return codes, true
}

// catalogueDots are those of the number of a figure or a rotation in the catalogue, at
// the least; that of a family has fewer.
const catalogueDots = 2

// levels are the plain means of a group.
func (l *FamilyLine) levels(s familySample) {
	var all, without weightedMean
	for i, p := range s.percents {
		all.add(p, s.weights[i])
		if s.zeroed[i] {
			l.Zeros++
		} else {
			without.add(p, s.weights[i])
		}
	}
	l.Percent = all.mean()
	none := math.NaN()
	l.Shrunken, l.Low, l.High, l.Gap, l.WeakChance = none, none, none, none, none
	l.First, l.Last, l.Ends = endsOf(s.owns)
	_, l.LastGraded, l.EndsGraded = endsOf(s.graded)
	l.WithoutZeros = l.Percent
	if l.Zeros > 0 && without.weight > 0 {
		l.WithoutZeros = without.mean()
	}
	if n := len(s.rests); n > 0 {
		l.HasRest = true
		for _, r := range s.rests {
			l.VersusRest += r / float64(n)
		}
	}
	var contests []string
	for _, f := range s.flights {
		if key := ContestKey(f); !slices.Contains(contests, key) {
			contests = append(contests, key)
		}
	}
	l.Contests = len(contests)
}
