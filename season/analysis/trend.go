package analysis

import (
	"math"
	"slices"

	"boxbook/season"
	"boxbook/season/stats"
)

// Word is the verdict on a trend: a code whose spelling is a contract.
type Word string

// The verdicts. None of them says "no change": few flights cannot show that.
const (
	TooFew     Word = "too few flights to tell"
	Improving  Word = "improving"
	Declining  Word = "declining"
	MayImprove Word = "may be improving"
	MayDecline Word = "may be declining"
	Flat       Word = "flat"
	CannotTell Word = "cannot tell"
)

// TrendReason says why a trend has no verdict, or a verdict without a change.
type TrendReason string

// The reasons, each a code whose spelling is a contract.
const (
	TrendFewFlights  TrendReason = "few-flights"         // fewer than LeastPoints can be compared
	TrendFewContests TrendReason = "few-contests"        // they are of fewer than LeastPoints contests
	TrendFewAlike    TrendReason = "few-of-one-sequence" // there are enough, but not of one sequence
	TrendOneDay      TrendReason = "one-day"             // all were flown on one day: no change over time
)

// The thresholds of a verdict.
const (
	LeastPoints     = 5    // no test can reach 5 % with fewer
	SmallChange     = 3.0  // percent points over the season: the least that is worth a coach's time
	FirmGroup       = 0.10 // chance, and false discovery rate, of a firm word on a group
	LongGap         = 150  // days without a flight: a winter
	FirmFlight      = 0.05 // chance of a firm word on whole flights, on both tests
	MayBe           = 0.20 // chance of a "may be"
	TrendConfidence = 0.90 // of the interval
	daysPerMonth    = 30
)

// TrendPoint is one flight's value in a trend. Only points of one stratum are
// compared with each other: one category and one sequence, or the unknowns of
// a category together. Contest tells flights of one event, which share judges
// and weather.
type TrendPoint struct {
	Day     float64 // days, from any start; points come in flight order
	Value   float64 // percent, or percent points against the rest of the flight
	Stratum string
	Contest string
	Zero    bool // a figure of the flight was zeroed
}

// Trend is what points in order of time can show. Where they are too few for a
// verdict it has no chance, change or interval: any direction is then as good as
// another, and no output may show one. What there is not is NaN.
type Trend struct {
	N     int     // points in strata of at least two
	S     int     // rising pairs less falling ones
	Tau   float64 // S over the largest it could be, ties allowed for: -1 to 1
	P     float64 // exact two-sided
	Least float64 // the smallest P that any values of so many points could give, 1 where nothing can be tested

	First, Last float64 // the values of the first and the last point, as flown
	EndsApart   bool    // those two are of different strata: nothing compares them
	Strata      int     // those with at least two points, which N counts

	Slope30   float64 // per 30 days; none where the points span less than two thirds of that
	Season    float64 // over the days the points span; like Low and High within what was observed
	Low, High float64 // of Season, at Confidence
	// SeasonCut, LowCut and HighCut say which of these were beyond what was observed.
	SeasonCut, LowCut, HighCut bool
	Confidence                 float64 // what the interval achieves
	HasSlope                   bool
	Span                       float64 // days
	LongestGap                 float64 // days between neighbouring points
	WithoutZero                float64 // Season without the points that have a zero
	HasZero                    bool
	// HangsOn are the days of the points with a zero, in order, where without them there
	// would be no verdict of a change this way; else none.
	HangsOn []float64
	// DesignEffect is by how much the variance of S was taken to be larger because
	// flights of one contest are alike, 1 where they are not. P, Least and the
	// interval allow for it.
	DesignEffect float64
	// Detectable is the change over the days that flights like these could have
	// shown, in the unit of the values.
	Detectable float64

	flat bool // the interval of the change, before it was kept within what was observed, is small

	Contests ContestTrend
	Word     Word
	Reason   TrendReason // "" where there is a verdict with its change
}

// ContestTrend is the second test of a whole flight, on contest means.
type ContestTrend struct {
	N    int
	S    int
	P    float64
	Word Word
}

// FlightTrend judges a trend of whole flights: the test on flights and the one
// on contest means must agree for a firm word, since flights of one contest
// are not independent.
func FlightTrend(points []TrendPoint) Trend {
	t := measure(points, 1)
	means := contestMeans(points)
	t.Contests = ContestTrend{P: math.NaN(), Word: TooFew}
	values, sizes := valuesOf(means)
	for _, n := range sizes {
		t.Contests.N += n
	}
	leastContest := 1.0
	if test, err := stats.MannKendall(values...); err == nil {
		t.Contests.S, t.Contests.P = test.S, test.P
		leastContest = stats.SmallestTrendP(sizes...)
	}
	if t.Contests.N >= LeastPoints && leastContest <= FirmFlight {
		t.Contests.Word = byChance(t.Contests.P, t.Contests.S)
	}
	if t.N < LeastPoints || t.Least > FirmFlight || t.Contests.Word == TooFew {
		return t.tooFew(t.Contests.N)
	}
	sameSign := t.S*t.Contests.S > 0
	firm := t.P <= FirmFlight && t.Contests.P <= FirmFlight && sameSign
	t.Word = t.verdict(firm, max(t.P, t.Contests.P) <= MayBe && sameSign)
	t.Detectable = detectable(split(points), means)
	if kept := withoutZeros(points); len(kept) < len(points) && t.moves() {
		t.hang(points, FlightTrend(kept).Word)
	}
	return t
}

// GroupTrends judges the trends of family groups, each against the rest of the
// same flight, together. What judges and weather of a contest do to all families
// alike falls out against the rest of the flight, what they do to one does not:
// so each test is widened by how alike flights of one contest are. A firm word
// also needs a Benjamini-Hochberg q of 10 % over the groups that can reach a
// verdict at all, and "may be" one of 20 %. The second list holds the q of each,
// NaN for a group that was left out.
func GroupTrends(groups [][]TrendPoint) ([]Trend, []float64) {
	trends, qs := make([]Trend, len(groups)), make([]float64, len(groups))
	var tested []int
	var ps []float64
	effects := designEffects(groups)
	season.SideBySide(len(groups), func(i int) { trends[i] = measure(groups[i], effects[i]) })
	for i := range groups {
		qs[i] = math.NaN()
		if trends[i].N >= LeastPoints && trends[i].Least <= FirmGroup {
			tested = append(tested, i)
			ps = append(ps, trends[i].P)
		}
	}
	if q, err := stats.BenjaminiHochberg(ps); err == nil {
		for k, i := range tested {
			qs[i] = q[k]
		}
	}
	for i := range trends {
		t := &trends[i]
		if !slices.Contains(tested, i) {
			*t = t.tooFew(LeastPoints) // contests are not asked for
			continue
		}
		t.Word = t.verdict(t.P <= FirmGroup && qs[i] <= FirmGroup, t.P <= MayBe && qs[i] <= MayBe)
		if kept := withoutZeros(groups[i]); len(kept) < len(groups[i]) && t.moves() {
			t.hang(groups[i], groupAlone(kept, effects[i]))
		}
	}
	return trends, qs
}

// tooFew leaves of a trend what so few points of so many contests can tell: how
// many there are.
func (t Trend) tooFew(contests int) Trend {
	few := untold(t.DesignEffect)
	few.N, few.Strata, few.S, few.Least, few.Span, few.LongestGap = t.N, t.Strata, t.S, t.Least, t.Span, t.LongestGap
	few.First, few.Last, few.EndsApart = t.First, t.Last, t.EndsApart
	few.Contests, few.Word = t.Contests, TooFew
	few.Contests.P = math.NaN()
	switch {
	case t.N < LeastPoints:
		few.Reason = TrendFewFlights
	case contests < LeastPoints:
		few.Reason = TrendFewContests
	default:
		few.Reason = TrendFewAlike
	}
	return few
}

// untold is a trend before anything is known of it.
func untold(designEffect float64) Trend {
	none := math.NaN()
	return Trend{
		Tau: none, P: none, Least: 1, Slope30: none, Season: none, Low: none, High: none, Confidence: none,
		WithoutZero: none, DesignEffect: designEffect, Reason: TrendOneDay, First: none, Last: none, Detectable: none,
	}
}

// verdict chooses the word: firm and soft say whether chance is ruled out well
// enough for each.
func (t Trend) verdict(firm, soft bool) Word {
	beyond := t.HasSlope && math.Abs(t.Season) > SmallChange && t.Season*float64(t.S) > 0
	switch {
	case firm && beyond && t.S > 0:
		return Improving
	case firm && beyond:
		return Declining
	case soft && beyond && t.S > 0:
		return MayImprove
	case soft && beyond:
		return MayDecline
	case t.flat:
		return Flat
	default:
		return CannotTell
	}
}

// byChance is the word of a test alone, without a size.
func byChance(p float64, s int) Word {
	switch {
	case p <= FirmFlight && s > 0:
		return Improving
	case p <= FirmFlight:
		return Declining
	case p <= MayBe && s > 0:
		return MayImprove
	case p <= MayBe:
		return MayDecline
	default:
		return CannotTell
	}
}

// measure runs the exact stratified Mann-Kendall test, and the Theil-Sen slope
// over the same pairs, both widened by a design effect.
func measure(points []TrendPoint, designEffect float64) Trend {
	t := untold(designEffect)
	t.flown(points)
	strata := split(points)
	values, sizes := valuesOf(strata)
	for _, n := range sizes {
		if n > 1 {
			t.N, t.Strata = t.N+n, t.Strata+1
		}
	}
	test, err := stats.ClusteredMannKendall(designEffect, values...)
	if err != nil {
		return t
	}
	t.S, t.Tau, t.P, t.Least = test.S, test.Tau, test.P, stats.SmallestClusteredTrendP(designEffect, sizes...)
	t.Span, t.LongestGap = spanOf(strata)
	slope, err := stats.ClusteredTheilSen(designEffect, TrendConfidence, strata...)
	if err != nil {
		return t
	}
	t.HasSlope, t.Reason = true, ""
	t.Season, t.Low, t.High = t.Span*slope.Slope, t.Span*slope.Interval.Low, t.Span*slope.Interval.High
	t.Confidence = slope.Confidence
	t.flat = t.Confidence >= TrendConfidence && t.Low >= -SmallChange && t.High <= SmallChange
	t.withoutZeros(points)
	t.withinObserved(points)
	return t
}

// valuesOf are the values of series, and how many each has.
func valuesOf(series []stats.Series) (values [][]float64, sizes []int) {
	for _, s := range series {
		values, sizes = append(values, s.Y), append(sizes, len(s.Y))
	}
	return values, sizes
}

// withoutZeros measures the slope again without the points that have a zero:
// ranks bear one lost figure, a reader wants to see what it did.
func (t *Trend) withoutZeros(points []TrendPoint) {
	kept := withoutZeros(points)
	if len(kept) == len(points) {
		return
	}
	if slope, err := stats.TheilSen(TrendConfidence, split(kept)...); err == nil {
		t.HasZero, t.WithoutZero = true, t.Span*slope.Slope
	}
}

// designEffects says for each group by how much its test of a trend is to be
// widened because flights of one contest are alike in it; the share of the
// variance that a contest makes is estimated over all groups together.
func designEffects(groups [][]TrendPoint) []float64 {
	effects := make([]float64, len(groups))
	clustered, shares := contestShares(groups)
	for i := range groups {
		effects[i] = 1
		if d, err := stats.TrendDesignEffect(clustered[i], shares[i]); err == nil {
			effects[i] = d
		}
	}
	return effects
}

// contestShares estimates for each group the share of the variance that a
// contest makes, over all groups together.
func contestShares(groups [][]TrendPoint) ([]stats.Clustered, []float64) {
	clustered := make([]stats.Clustered, len(groups))
	for i, points := range groups {
		clustered[i] = byContest(points)
	}
	shares, err := stats.ClusterShares(clustered)
	if err != nil {
		shares = make([]float64, len(groups))
	}
	return clustered, shares
}

// byContest numbers the points' strata and contests.
func byContest(points []TrendPoint) stats.Clustered {
	var c stats.Clustered
	strata, contests := map[string]int{}, map[string]int{}
	number := func(names map[string]int, name string) int {
		if _, ok := names[name]; !ok {
			names[name] = len(names)
		}
		return names[name]
	}
	for _, p := range points {
		c.X, c.Y = append(c.X, p.Day), append(c.Y, p.Value)
		c.Stratum, c.Cluster = append(c.Stratum, number(strata, p.Stratum)), append(c.Cluster, number(contests, p.Contest))
	}
	return c
}

// split sorts points into strata, in order of their first point.
func split(points []TrendPoint) []stats.Series {
	places := map[string]int{}
	var strata []stats.Series
	for _, p := range points {
		i, known := places[p.Stratum]
		if !known {
			i = len(strata)
			places[p.Stratum] = i
			strata = append(strata, stats.Series{})
		}
		strata[i].X = append(strata[i].X, p.Day)
		strata[i].Y = append(strata[i].Y, p.Value)
	}
	return strata
}

// spanOf gives the days between the first and the last point of strata that
// have pairs, and the longest stretch without a point.
func spanOf(strata []stats.Series) (span, gap float64) {
	var days []float64
	for _, s := range strata {
		if len(s.X) > 1 {
			days = append(days, s.X...)
		}
	}
	slices.Sort(days)
	for i := 1; i < len(days); i++ {
		gap = max(gap, days[i]-days[i-1])
	}
	if len(days) == 0 {
		return 0, 0
	}
	return days[len(days)-1] - days[0], gap
}
