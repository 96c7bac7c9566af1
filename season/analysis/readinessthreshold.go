package analysis

import (
	"math"
	"slices"

	"boxbook/season"
	"boxbook/season/analysis/code"
	"boxbook/season/stats"
)

// leastContests is how many contests an interval of a share needs.
const leastContests = 3

// thresholdGate asks how sure it is that more than the wanted share of flights
// would reach the mark: the interval of that share, contests as clusters, over
// the whole window. The next flight is foretold from the same mean, or, where a
// firm trend was called, from the line through the flights; neither that nor the
// interval of the plain count changes the state.
func (s *readinessState) thresholdGate(g *Gate) bool {
	mark := s.number("threshold", 0)
	clusters, above, n := s.clusters(mark)
	g.count(code.Have, above)
	g.count(code.Results, n)
	g.count(code.Contests, len(clusters))
	if count, err := stats.Wilson(above, n, ShareConfidence); err == nil {
		g.add(Fact{Code: code.ResultsShare, Number: float64(above) / float64(n), Low: count.Low, High: count.High, Confidence: ShareConfidence})
	}
	state, low, high, next, ok := ThresholdState(clusters, mark, s.number("share", 0))
	switch {
	case ok:
		g.State = state
		g.add(Fact{Code: code.LongRun, Number: math.NaN(), Low: low, High: high, Confidence: ShareConfidence})
		s.nextFlight(g, mark, next)
	case len(clusters) < leastContests:
		g.open(code.FewContests)
		g.count(code.LeastContests, leastContests)
	default:
		g.open(code.SameScore)
	}
	return true
}

// nextFlight notes how likely the next flight reaches a mark: from the mean, or
// where a trend is firm, from the line. A decline speaks against.
func (s *readinessState) nextFlight(g *Gate, mark, next float64) {
	trend := s.windowTrend()
	switch trend.word {
	case Improving:
		g.because(code.Improving)
		trend.next(g, mark)
	case Declining:
		g.because(code.Declining)
		g.Against = true
		trend.next(g, mark)
	default:
		g.add(fact(code.NextReaches, "", next))
	}
}

// windowTrend is the trend of the gate's flights, and what is needed to follow
// a line through them to the as-of date.
type windowTrend struct {
	word           Word
	on             season.Date
	days, percents []float64
}

// windowTrend judges the trend of the gate's flights. A firm one needs the test
// on flights and the one on contests; the line is for its size alone.
func (s *readinessState) windowTrend() windowTrend {
	t := windowTrend{on: s.l.AsOf}
	var points []TrendPoint
	for _, f := range s.flights {
		percent, _ := f.Record().Percent.Float64()
		points = append(points, trendPoint(f, percent, hasZero(f)))
		t.days, t.percents = append(t.days, float64(f.Date)), append(t.percents, percent)
	}
	t.word = FlightTrend(points).Word
	return t
}

// next notes where the line through the flights leads on the as-of date, and
// how likely a flight of that day reaches a mark. It is not followed further
// than half its span, nor where it runs against the trend, which is judged
// within sequences.
func (t windowTrend) next(g *Gate, mark float64) {
	if !stats.WithinReach(t.days, float64(t.on)) {
		g.because(code.TooLongAfter)
		return
	}
	line, err := stats.Line(t.days, t.percents, nil)
	if err != nil {
		g.because(code.NoLine)
		return
	}
	if (line.Coef[1] > 0) != (t.word == Improving) {
		g.because(code.OtherWay)
		return
	}
	seen, err := line.Predict([]float64{1, float64(t.on)}, 1, ForecastConfidence)
	if err != nil {
		g.because(code.NoLine)
		return
	}
	span := seen.Interval.Clip(0, 100)
	g.add(Fact{Code: code.NextPercent, On: t.on, Number: clip(seen.Value, 0, 100), Low: span.Low, High: span.High, Confidence: ForecastConfidence})
	if p, err := seen.AtLeast(mark); err == nil {
		g.add(fact(code.NextReaches, "", p))
	}
	if gap := t.longestGap(); gap > LongGap {
		g.add(fact(code.Gap, "", gap))
	}
}

// longestGap is the longest stretch between neighbouring flights, in days.
func (t windowTrend) longestGap() float64 {
	gap := 0.0
	for i := 1; i < len(t.days); i++ {
		gap = max(gap, t.days[i]-t.days[i-1])
	}
	return gap
}

// ThresholdState is the verdict of the threshold alone, on percents by
// contest: met where the interval of the long-run share of flights at or
// above the mark lies above the wanted share, not met where it lies below. It
// reports false where fewer than three contests, or equal scores, can say
// nothing. next is the probability that the next flight reaches the mark.
func ThresholdState(clusters [][]float64, mark, want float64) (state code.GateState, low, high, next float64, ok bool) {
	forecast, err := stats.NewForecast(clusters)
	if err != nil {
		return code.CannotTell, 0, 0, 0, false
	}
	interval, err := forecast.ShareAbove(mark, ShareConfidence)
	if err != nil {
		return code.CannotTell, 0, 0, 0, false
	}
	next, err = forecast.AtLeast(mark)
	if err != nil {
		return code.CannotTell, 0, 0, 0, false
	}
	switch {
	case interval.Low >= want:
		state = code.Met
	case interval.High < want:
		state = code.NotMet
	default:
		state = code.CannotTell
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
		add(ContestKey(f), percent)
	}
	if !s.oneCategory() {
		return clusters, above, n
	}
	for _, c := range s.l.Contests {
		if slices.Contains(keys, c.Handle) || c.Last > s.l.AsOf || float64(s.l.AsOf-c.Last) > s.days() {
			continue
		}
		line, ok := contestLine(s.l, season.Selection{Pilot: s.r.Pilot}, c, nil)
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
	return !slices.ContainsFunc(s.all, func(f *season.Flight) bool { return f.Contested() && f.Category != s.r.From })
}

func (s *readinessState) flew(c *season.Contest) bool {
	return slices.ContainsFunc(s.all, func(f *season.Flight) bool { return f.Contest == c })
}
