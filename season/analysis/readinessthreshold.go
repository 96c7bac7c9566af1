package analysis

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"boxbook/report/display"
	"boxbook/season"
	"boxbook/season/stats"
)

// thresholdGate asks how sure it is that more than the wanted share of flights
// would reach the mark: the 90 % interval of that share, contests as clusters,
// over the whole window. The next flight is foreseen from the same mean, or,
// where a firm trend was called, from the line through the flights; neither
// that nor the interval of the plain count changes the state.
func (s *readinessState) thresholdGate(key season.PolicyKey) (Gate, bool) {
	mark, want := policyNumber(s.r.Policy, key.Key, 0, 60), policyNumber(s.r.Policy, "share", 0, 0.5)
	markWords := key.Values[0].String() + " %"
	clusters, above, n := s.clusters(mark)
	g := Gate{
		State:    GateOpen,
		Evidence: fmt.Sprintf("%d of %d results reached %s", above, n, markWords),
		Asked:    s.asked(setting{markWords + " or more", key.Key}, setting{"in at least " + percentWords(want) + " of flights", "share"}),
	}
	if count, err := stats.Wilson(above, n, gateShare); err == nil {
		g.Evidence += fmt.Sprintf(" (between %s and %s)", share(count.Low), share(count.High))
	}
	state, low, high, next, ok := ThresholdState(clusters, mark, want)
	if !ok {
		g.Evidence += "; " + s.whyNoForecast(clusters)
		g.Needs = "flights at three contests at the least"
		if len(clusters) >= 3 {
			g.Needs = "more flights"
		}
		return g, true
	}
	g.State = state
	longRun := "the long-run share " + between(low, high, want)
	switch trend := s.windowTrend(); trend.word {
	case Improving:
		g.Evidence += "; improving: " + trend.next(mark, markWords) + "; " + longRun + " over the whole window, from before the rise, and the gate goes by that"
	case Declining:
		g.Evidence += "; declining: " + trend.next(mark, markWords) + "; " + longRun + " over the whole window, from before the fall, and the gate goes by that"
		g.against = "declining: " + trend.next(mark, markWords)
	default:
		g.Evidence += fmt.Sprintf("; the next one does with about %s, %s", share(next), longRun)
	}
	if state != Met {
		against := fmt.Sprintf("the long-run share of flights at %s or more %s, and %s is asked", markWords, between(low, high, want), percentWords(want))
		g.against = strings.TrimSuffix(against+"; "+g.against, "; ")
	}
	switch state {
	case NotMet:
		g.Needs = fmt.Sprintf("a mean that leaves %s behind: the share above it is below %s", markWords, percentWords(want))
	case GateOpen:
		g.Needs = fmt.Sprintf("a long-run share surely above %s: more flights, or a mean further above %s", percentWords(want), markWords)
	}
	return g, true
}

// between says where a share lies, beside the one asked for; both ends may read
// alike.
func between(low, high, want float64) string {
	a, b := shareBeside(low, want), shareBeside(high, want)
	if a == b {
		return "is about " + a
	}
	return fmt.Sprintf("lies between %s and %s", a, b)
}

// shareBeside writes a probability as whole percent, and with as many decimals
// as it takes to stand on the right side of another; never as 0 or 100.
func shareBeside(p, want float64) string {
	below := func(percent float64) bool { return percent < 100*want-1e-9 }
	whole, _ := strconv.ParseFloat(strings.TrimSuffix(share(p), " %"), 64)
	for decimals := 1; decimals <= 3 && below(whole) != below(100*p); decimals++ {
		text := display.Fixed(100*p, decimals)
		if shown, _ := strconv.ParseFloat(text, 64); shown > 0 && shown < 100 && below(shown) == below(100*p) {
			return text + " %"
		}
	}
	return share(p)
}

// windowTrend is the trend of the gate's flights, and what is needed to follow
// a line through them to the as-of date.
type windowTrend struct {
	word           Word
	category       string
	on             season.Date
	days, percents []float64
}

// windowTrend judges the trend of the gate's flights. A firm one needs the test
// on flights and the one on contests; the line is for its size alone.
func (s *readinessState) windowTrend() windowTrend {
	t := windowTrend{on: s.l.AsOf, category: s.r.From}
	var points []TrendPoint
	for _, f := range s.flights {
		percent, _ := f.Record().Percent.Float64()
		points = append(points, trendPoint(f, percent, hasZero(f)))
		t.days, t.percents = append(t.days, float64(f.Date)), append(t.percents, percent)
	}
	t.word = FlightTrend(points).Word
	return t
}

// next says where the line through the flights leads on the as-of date, and
// how likely a flight of that day reaches a mark. It is not followed further
// than half its span, nor where it runs against the trend, which is judged
// within sequences.
func (t windowTrend) next(mark float64, markWords string) string {
	if !stats.WithinReach(t.days, float64(t.on)) {
		return fmt.Sprintf("%s is too long after the last flight to foresee the next one", t.on)
	}
	line, err := stats.Line(t.days, t.percents, nil)
	if err != nil {
		return "no line can be drawn to foresee the next one"
	}
	if (line.Coef[1] > 0) != (t.word == Improving) {
		return "so within each sequence, while the line through all of them goes the other way, and the next one is not foreseen"
	}
	seen, err := line.Predict([]float64{1, float64(t.on)}, 1, forecastSurety)
	if err != nil {
		return "no line can be drawn to foresee the next one"
	}
	span := seen.Interval.Clip(0, 100)
	said := fmt.Sprintf("by the line through them the next one, on %s, comes to %s %% (80 %% range %s to %s)",
		t.on, display.Fixed(clip(seen.Value, 0, 100), 1), display.Fixed(span.Low, 1), display.Fixed(span.High, 1))
	if p, err := seen.AtLeast(mark); err == nil {
		said += fmt.Sprintf(" and reaches %s with about %s", markWords, share(p))
	}
	if gap := t.longestGap(); gap > LongGap {
		said += fmt.Sprintf("; the line is drawn across a gap of %s days without a contest flight at %s", display.Fixed(gap, 0), t.category)
	}
	return said
}

// longestGap is the longest stretch between neighbouring flights, in days.
func (t windowTrend) longestGap() float64 {
	gap := 0.0
	for i := 1; i < len(t.days); i++ {
		gap = max(gap, t.days[i]-t.days[i-1])
	}
	return gap
}

func (s *readinessState) whyNoForecast(clusters [][]float64) string {
	if len(clusters) >= 3 {
		return "the same score each time, which allows no forecast"
	}
	return season.Counted(len(clusters), "contest is", "contests are") + " too few to tell"
}

// ThresholdState is the verdict of the threshold alone, on percents by
// contest: met where the 90 % interval of the long-run share of flights at or
// above the mark lies above the wanted share, not met where it lies below. It
// reports false where fewer than three contests, or equal scores, can say
// nothing. next is the probability that the next flight reaches the mark.
func ThresholdState(clusters [][]float64, mark, want float64) (state GateState, low, high, next float64, ok bool) {
	forecast, err := stats.NewForecast(clusters)
	if err != nil {
		return GateOpen, 0, 0, 0, false
	}
	interval, err := forecast.ShareAbove(mark, gateShare)
	if err != nil {
		return GateOpen, 0, 0, 0, false
	}
	next, err = forecast.AtLeast(mark)
	if err != nil {
		return GateOpen, 0, 0, 0, false
	}
	switch {
	case interval.Low >= want:
		state = Met
	case interval.High < want:
		state = NotMet
	default:
		state = GateOpen
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
	days := policyNumber(s.r.Policy, "window", 0, math.Inf(1))
	for _, c := range s.l.Contests {
		if slices.Contains(keys, c.Handle) || c.Last > s.l.AsOf || float64(s.l.AsOf-c.Last) > days {
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
