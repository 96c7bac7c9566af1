package analysis

import (
	"math"
	"math/big"
	"slices"

	"boxbook/season"
	"boxbook/season/analysis/code"
	"boxbook/season/stats"
)

// Families is the answer to "which family is weak, and which moves": trend
// groups, each against the rest of the same flights.
type Families struct {
	Pilot    *season.Pilot
	Category string
	Flights  int // contest flights with grades that entered
	Groups   []FamilyLine
	// Tau2 is the variance between the groups' true levels, in percent points
	// squared, 0 where the spread is what chance gives; TauHigh bounds its root
	// from above. Shrunk says that there was enough to tell; Reason says what was
	// lacking.
	Tau2, TauHigh float64
	Shrunk        bool
	Reason        FamiliesReason
	// Compared counts the groups that could reach a verdict on their trend.
	Compared int

	pooled float64 // variance of a figure's percent about its flight, one for all groups
}

// FamiliesReason says why the levels of families cannot be compared.
type FamiliesReason = code.Reason

// The reasons: fewer than LeastFamilies were flown, no family has two figures, a
// family's figures never differ against their flight.
const (
	FewFamilies  = code.FewFamilies
	NoTwoFigures = code.NoTwoFigures
	NoScatter    = code.NoScatter
)

// FamilyLine is one trend group. K is the K of the group's elements flown;
// Percent is K-weighted. Shrunken is Percent drawn towards the pilot's other
// groups, with a 90 % interval.
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
	Q             float64 // of the trend, over the groups compared
	LostPerFlight *big.Rat
	Weak          bool
	WeakQ         float64
}

// The thresholds of a weak family.
const (
	FamilyConfidence = 0.90 // of the interval about a family's level
	LeastFamilies    = 3    // that levels can be compared of
	WeakDiscovery    = 0.10
	WeakGap          = 2.0  // percent points below the pilot's other groups
	restFigures      = 3    // figures without the family that a flight needs for the comparison
	noVariance       = 1e-9 // percent points squared: far below what half a point of one judge makes
)

// flownFigure is one figure of a flight with its mean, for questions over time.
type flownFigure struct {
	figure  season.Figure
	number  int
	percent float64
	zeroed  bool
}

// FamiliesOf answers for the contest flights of one category: the selection's,
// else that of the latest flight.
func FamiliesOf(l *season.Ledger, s season.Selection) Families {
	flights := gradedFlights(l.Select(s))
	out := Families{Pilot: s.Pilot, Category: s.Category}
	if out.Category == "" && len(flights) > 0 {
		out.Category = flights[len(flights)-1].Category
	}
	flights = slices.DeleteFunc(flights, func(f *season.Flight) bool { return f.Category != out.Category })
	out.Flights = len(flights)
	out.lines(flights, familySamples(flights))
	return out
}

// familySamples are what the flights say of each of the Groups.
func familySamples(flights []*season.Flight) []familySample {
	samples := make([]familySample, len(season.Groups))
	for _, f := range flights {
		figures := decidedFigures(f)
		for i, group := range season.Groups {
			samples[i].add(f, figures, group)
		}
	}
	return samples
}

// gradedFlights keeps what enters questions about grades: contest flights with
// marks, not void, and decided or with an official total.
func gradedFlights(flights []*season.Flight) []*season.Flight {
	var kept []*season.Flight
	for _, f := range flights {
		if f.Counts() && f.Contested() && f.HasMarks() && f.Record().Percent != nil {
			kept = append(kept, f)
		}
	}
	return kept
}

// decidedFigures lists the flight's figures that have a mean.
func decidedFigures(f *season.Flight) []flownFigure {
	var figures []flownFigure
	score, flown := f.Score(), f.Flown()
	for i, index := range flown {
		line := score.Lines[i]
		if line.Mean == nil {
			continue
		}
		mean, _ := line.Mean.Float64()
		figures = append(figures, flownFigure{f.Sequence.Figures[index], index + 1, 10 * mean, season.Zeroed(f.Rows[index].Marks, line)})
	}
	return figures
}

// figureHas reports whether the figure has an element of a group.
func figureHas(f season.Figure, group string) bool {
	return slices.ContainsFunc(f.Elements, func(e season.Element) bool { return e.Group == group && e.K > 0 })
}

// sequenceHas reports whether a figure of the sequence has an element of a group.
func sequenceHas(s *season.Sequence, group string) bool {
	return slices.ContainsFunc(s.Figures, func(f season.Figure) bool { return figureHas(f, group) })
}

// groupK is the K of a figure's elements of a group.
func groupK(f season.Figure, group string) *big.Rat {
	k := new(big.Rat)
	for _, e := range f.Elements {
		if e.Group == group {
			k.Add(k, big.NewRat(int64(e.K), int64(e.Parts)))
		}
	}
	return k
}

// familySample is what one group's figures were, over the flights.
type familySample struct {
	figures  int
	flights  []*season.Flight
	k        *big.Rat
	percents []float64 // by figure
	gaps     []float64 // figure less its flight
	weights  []float64 // the group's K in the figure
	zeroed   []bool
	rests    []float64 // by flight: group less the rest
	points   []TrendPoint
	compared []*season.Flight // those of rests and points
}

// add takes one flight's figures of the group.
func (s *familySample) add(f *season.Flight, figures []flownFigure, group string) {
	var own, rest, all weightedMean
	restCount, zero := 0, false
	for _, fig := range figures {
		all.add(fig.percent, float64(fig.figure.K))
		if figureHas(fig.figure, group) {
			k, _ := groupK(fig.figure, group).Float64()
			own.add(fig.percent, k)
			zero = zero || fig.zeroed
		} else {
			rest.add(fig.percent, float64(fig.figure.K))
			restCount++
		}
	}
	if own.weight == 0 {
		return
	}
	s.flights = append(s.flights, f)
	for _, fig := range figures {
		if !figureHas(fig.figure, group) {
			continue
		}
		exact := groupK(fig.figure, group)
		k, _ := exact.Float64()
		if s.k == nil {
			s.k = new(big.Rat)
		}
		s.k.Add(s.k, exact)
		s.figures++
		s.percents = append(s.percents, fig.percent)
		s.gaps = append(s.gaps, fig.percent-all.mean())
		s.weights = append(s.weights, k)
		s.zeroed = append(s.zeroed, fig.zeroed)
	}
	if restCount >= restFigures {
		gap := own.mean() - rest.mean()
		s.rests = append(s.rests, gap)
		s.points = append(s.points, trendPoint(f, gap, zero))
		s.compared = append(s.compared, f)
	}
}

// weightedMean is a weighted mean under way.
type weightedMean struct{ sum, weight float64 }

func (m *weightedMean) add(value, weight float64) {
	m.sum += value * weight
	m.weight += weight
}

func (m *weightedMean) mean() float64 { return m.sum / m.weight }

// trendPoint is a flight's value in a trend.
func trendPoint(f *season.Flight, value float64, zero bool) TrendPoint {
	return TrendPoint{Day: float64(f.Date), Value: value, Stratum: Stratum(f), Contest: ContestKey(f), Zero: zero}
}

// Stratum names the flights that can be compared in a trend: one category and
// one sequence; the unknowns of a category together; without a sequence, the
// programme.
func Stratum(f *season.Flight) string {
	switch {
	case f.Programme == season.Unknown || f.Programme == season.FreeUnknown:
		return f.Category + " unknowns"
	case f.Sequence != nil:
		return f.Category + " " + f.Sequence.Handle
	default:
		return f.Category + " programme " + string(f.Programme)
	}
}

// ContestKey names the flight's contest; a flight without one is a contest by
// itself.
func ContestKey(f *season.Flight) string {
	if f.Contest != nil {
		return f.Contest.Handle
	}
	return f.Name
}

// lines makes the answer of the samples.
func (o *Families) lines(flights []*season.Flight, samples []familySample) {
	var kept []familySample
	lost := lostPerFlight(flights)
	for i, s := range samples {
		if s.figures == 0 {
			continue
		}
		line := FamilyLine{Group: season.Groups[i], Figures: s.figures, Flights: len(s.flights), K: s.k, LostPerFlight: lost[season.Groups[i]]}
		line.levels(s)
		o.Groups = append(o.Groups, line)
		kept = append(kept, s)
	}
	points := make([][]TrendPoint, len(kept))
	for i, s := range kept {
		points[i] = s.points
	}
	trends, qs := GroupTrends(points)
	for i := range o.Groups {
		o.Groups[i].Trend, o.Groups[i].Q = trends[i], qs[i]
		if trends[i].Word != TooFew {
			o.Compared++
		}
	}
	o.shrink(kept)
}

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
	l.Shrunken, l.Low, l.High = math.NaN(), math.NaN(), math.NaN()
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

// shrink draws the groups' levels towards each other by how much of their
// spread is chance: figures less their flight, K-weighted, one pooled variance
// for all groups.
func (o *Families) shrink(samples []familySample) {
	gaps := make([][]float64, len(samples))
	for i, s := range samples {
		gaps[i] = s.gaps
	}
	variance, df, err := stats.PooledVariance(gaps)
	switch {
	case len(samples) < LeastFamilies:
		o.Reason = FewFamilies
		return
	case err != nil:
		o.Reason = NoTwoFigures
		return
	case variance <= noVariance:
		o.Reason = NoScatter
		return
	}
	y, v := make([]float64, len(samples)), make([]float64, len(samples))
	for i, s := range samples {
		mean, effective, ok := stats.WeightedMean(s.gaps, s.weights)
		if !ok {
			return
		}
		y[i], v[i] = mean, variance/effective
	}
	shrunk, err := stats.Shrink(y, v)
	if err != nil {
		return
	}
	o.Tau2, o.Shrunk, o.pooled = shrunk.TauSquared, true, variance
	if profile, err := stats.QProfile(y, v, 0.95); err == nil {
		o.TauHigh = math.Sqrt(profile.High)
	}
	o.weakness(y, v, df, shrunk)
}

// weakness says which groups lie below the others by more than chance.
func (o *Families) weakness(y, v []float64, df int, shrunk stats.Shrinkage) {
	ps, err := stats.AgainstRest(y, v, df)
	if err != nil {
		return
	}
	qs, err := stats.BenjaminiHochberg(ps)
	if err != nil {
		return
	}
	for i := range o.Groups {
		line, item := &o.Groups[i], shrunk.Items[i]
		base := line.Percent - y[i]
		half := stats.HalfWidth(FamilyConfidence) * item.SE
		line.Shrunken, line.Low, line.High = base+item.Value, base+item.Value-half, base+item.Value+half
		line.WeakQ = qs[i]
		gap, ok := item.GapInterval(FamilyConfidence)
		line.Weak = ok && shrunk.TauSquared > 0 && gap.High < 0 && qs[i] <= WeakDiscovery && -item.Gap >= WeakGap
	}
}

// lostPerFlight is the points each group lost, by flight; 0 for a group that
// lost none.
func lostPerFlight(flights []*season.Flight) map[string]*big.Rat {
	lost := make(map[string]*big.Rat, len(season.Groups))
	for _, group := range season.Groups {
		lost[group] = new(big.Rat)
	}
	for _, f := range flights {
		for _, part := range LossesOf(f).Groups {
			if total, ok := lost[part.Group]; ok {
				total.Add(total, part.Lost)
			}
		}
	}
	for _, total := range lost {
		total.Mul(total, big.NewRat(1, int64(max(1, len(flights)))))
	}
	return lost
}
