package analysis

import (
	"math"
	"slices"

	"boxbook/season"
	"boxbook/season/analysis/code"
	"boxbook/season/stats"
)

// zeroFigures counts the figures of a flight that came to nothing as a matter
// of fact, or in which a hard or perception zero of any judge stood.
func zeroFigures(f *season.Flight) (zeros, figures int) {
	score, flown := f.Score(), f.Flown()
	for i, index := range flown {
		figures++
		marks, line := f.Rows[index].Marks, score.Lines[i]
		if season.Zeroed(marks, line) || season.ZeroStood(marks, line) {
			zeros++
		}
	}
	return zeros, figures
}

// zerosGate counts hard and perception zeros in the last flights, and says how
// likely one is in the next sequence: by figure and by flight, the worse one.
func (s *readinessState) zerosGate(g *Gate) bool {
	most, span := s.whole("zeros", 0), s.whole("zeros", 1)
	marked := s.marked()
	flights := last(marked, span)
	if len(flights) == 0 {
		g.open(code.NoMarks)
		return true
	}
	zeros := 0
	for _, f := range flights {
		n, _ := zeroFigures(f)
		zeros += n
	}
	g.State = stateOf(zeros <= most)
	g.count(code.Have, zeros)
	g.count(code.Flights, len(flights))
	seen := countZeros(marked)
	if risk, ok := seen.risk(); ok {
		g.add(fact(code.ZeroRisk, "", risk))
	}
	if bound, ok := seen.bound(); ok {
		f := fact(code.ZeroBound, "", bound)
		f.Confidence = noneConfidence
		g.add(f)
		g.count(code.ZeroFigures, seen.figures)
	}
	return true
}

// zeroCount is what flights show of zeros: how many of the figures and of the
// flights had one, and how many figures the last flight had.
type zeroCount struct{ zeros, figures, bad, flights, next int }

func countZeros(flights []*season.Flight) zeroCount {
	c := zeroCount{flights: len(flights)}
	for _, f := range flights {
		z, n := zeroFigures(f)
		c.zeros, c.figures, c.next = c.zeros+z, c.figures+n, n
		if z > 0 {
			c.bad++
		}
	}
	return c
}

// risk is the probability of at least one zero in a sequence as long as the
// last one. Zeros cluster, so it is worked out by figure and by flight, and the
// more pessimistic is given.
func (c zeroCount) risk() (float64, bool) {
	byFigure, err1 := stats.AtLeastOne(c.zeros, c.figures, c.next, stats.Jeffreys)
	byFlight, err2 := stats.AtLeastOne(c.bad, c.flights, 1, stats.Jeffreys)
	if err1 != nil || err2 != nil {
		return 0, false
	}
	return max(byFigure, byFlight), true
}

// noneConfidence is that of the bound on what was never seen.
const noneConfidence = 0.95

// bound is the most that the share of figures with a zero can be where none was
// seen; false where one was.
func (c zeroCount) bound() (float64, bool) {
	if c.zeros > 0 {
		return 0, false
	}
	upper, err := stats.NoneUpper(c.figures, noneConfidence)
	return upper, err == nil
}

func (s *readinessState) lowsGate(g *Gate) bool {
	most, span := s.whole("lows", 0), s.whole("lows", 1)
	flights := last(s.flights, span)
	if len(flights) == 0 {
		g.open(code.NoFlight)
		return true
	}
	lows := 0
	for _, f := range flights {
		lows += lowsOf(f)
	}
	g.State = stateOf(lows <= most)
	g.count(code.Have, lows)
	g.count(code.Flights, len(flights))
	return true
}

func lowsOf(f *season.Flight) int {
	n := 0
	for _, p := range f.Penalties {
		if p.Kind == "low" {
			n++
		}
	}
	return n
}

// unknownsGate is asked only where the present category flies unknowns.
func (s *readinessState) unknownsGate(g *Gate) bool {
	if s.r.Ladder == nil {
		return false
	}
	if c, ok := s.r.Ladder.Category(s.r.From); !ok || !c.Unknowns {
		return false
	}
	want, have := s.whole("unknowns", 0), 0
	for _, f := range s.flights {
		if f.Programme == season.Unknown || f.Programme == season.FreeUnknown {
			have++
		}
	}
	g.State = stateOf(have >= want)
	g.count(code.Have, have)
	return true
}

// newFamiliesGate asks for graded elements of every family that is new at the
// next step; practice counts. A family that the pilot does not fly is asked for by
// nobody, and the step needs it: not met. It is not asked where no next step is
// known.
func (s *readinessState) newFamiliesGate(g *Gate) bool {
	switch {
	case s.r.To == "":
		return false
	case s.r.Floor.Name == "":
		g.open(code.NoStep)
		return true
	case len(s.r.Floor.New) == 0:
		g.State = code.Met
		g.because(code.NoneNew)
		return true
	}
	want, level := s.whole("new-families", 0), s.number("new-families", 1)
	g.State = code.Met
	for _, group := range s.r.Floor.New {
		if flies, reason := s.r.Pilot.Flies(group); !flies {
			g.State = code.NotMet
			g.add(unflown(NotFlownGroup{group, reason}))
			continue
		}
		n, mean := s.graded(group)
		g.add(fact(code.Graded, group, float64(n)))
		if n > 0 {
			g.add(fact(code.MeanGrade, group, mean))
		}
		if n < want || mean < level-1e-9 {
			g.State = code.NotMet
			g.add(moreGraded(group, n, mean, want, level)...)
		}
	}
	return true
}

// surplus is how far above the level asked for a need goes: few elements at a
// grade that can be flown, rather than one at a grade that hardly can.
const surplus = 2.0

// moreGraded is how many elements more of a family, at which grade, bring n of
// that mean to the number and the mean asked for, and the mean after them. Grades
// are halves.
func moreGraded(group string, n int, mean float64, want int, level float64) []Fact {
	best := math.Min(fullMarks, level+surplus)
	if best <= level && mean < level && n > 0 {
		return []Fact{fact(code.OutOfReach, group, math.NaN())}
	}
	for more := max(1, want-n); ; more++ {
		grade := (level*float64(n+more) - mean*float64(n)) / float64(more)
		grade = math.Max(0, math.Ceil(2*grade-1e-6)/2)
		if grade > best+1e-9 && grade > level+0.5 {
			continue
		}
		after := (mean*float64(n) + grade*float64(more)) / float64(n+more)
		return []Fact{fact(code.More, group, float64(more)), fact(code.MoreAt, group, grade), fact(code.MeanAfter, group, after)}
	}
}

// graded counts the graded elements of a group, each as often as its figure was
// flown, and their mean grade.
func (s *readinessState) graded(group string) (int, float64) {
	n, sum := 0, 0.0
	for _, f := range s.all {
		if !f.HasMarks() || !sequenceHas(f.Sequence, group) {
			continue
		}
		for _, fig := range decidedFigures(f) {
			times := f.Times(fig.number)
			for _, e := range fig.figure.Elements {
				if e.Group == group {
					n += times
					sum += float64(times) * fig.percent / 10
				}
			}
		}
	}
	if n == 0 {
		return 0, 0
	}
	return n, sum / float64(n)
}

// forecastGate looks at the next category's known sequence: of several, the
// one with the lowest end. In a category never flown the judging is another
// standard as well, and a family that no contest flight had is a missing piece
// of evidence: with either the gate is open at best. It is not asked where no
// next step is known.
func (s *readinessState) forecastGate(g *Gate) bool {
	if s.r.To == "" {
		return false
	}
	worst, lack, known := s.worstForecast()
	switch {
	case !known:
		g.open(code.NoKnown)
	case worst == nil:
		g.open(code.NoForecast)
		g.lacks(lack)
	default:
		g.State = stateOf(worst.Low >= s.number("forecast", 0))
		g.add(Fact{Code: code.Forecast, Name: worst.Sequence.Handle, Number: worst.Percent, Low: worst.Low, High: worst.High, Confidence: ForecastConfidence})
		g.unseen(worst.Unseen)
		g.unflown(worst.NotFlown)
	}
	if !s.hasFlown(s.r.To) {
		g.because(code.NeverFlown)
		g.incomplete()
	}
	return true
}

// incomplete opens a gate that would be met, were no evidence missing.
func (g *Gate) incomplete() {
	if g.State == code.Met {
		g.State = code.CannotTell
	}
}

// unseen notes the families that no contest flight had.
func (g *Gate) unseen(groups []string) {
	if len(groups) == 0 {
		return
	}
	for _, group := range groups {
		g.add(fact(code.Unseen, group, math.NaN()))
	}
	g.count(code.OfLate, ForecastDays)
	g.incomplete()
}

// unflown notes the families that the pilot does not fly: what flights without
// them show is no evidence for a sequence that has them.
func (g *Gate) unflown(groups []NotFlownGroup) {
	for _, n := range groups {
		g.add(unflown(n))
		g.incomplete()
	}
}

// lacks notes why nothing could be forecast.
func (g *Gate) lacks(lack Lack) {
	g.because(lack.Reason)
	g.count(code.Flights, lack.Flights)
	g.count(code.Contests, lack.Contests)
	g.count(code.LeastFlights, lack.Least)
	g.count(code.Uncoded, lack.Uncoded)
	g.count(code.OfLate, ForecastDays)
}

// worstForecast is the forecast with the lowest end of the next category's
// known sequences, or what the last of them lacks where none can be forecast;
// known says that there is one.
func (s *readinessState) worstForecast() (worst *ForecastAnswer, lack Lack, known bool) {
	for _, seq := range s.l.Sequences {
		if seq.Category != s.r.To || (seq.Programme != season.Known && seq.Programme != "") {
			continue
		}
		known = true
		answer := ForecastOf(s.l, s.r.Pilot, seq)
		if !answer.Told {
			lack = answer.Lack
		} else if worst == nil || answer.Low < worst.Low {
			worst = &answer
		}
	}
	return worst, lack, known
}

func (s *readinessState) hasFlown(category string) bool {
	return slices.ContainsFunc(s.all, func(f *season.Flight) bool { return f.Contested() && f.Category == category })
}

// signoffGate asks for a coach's sign-off for the category, after the day of the
// last low penalty. It closes no matter of safety. It is not
// asked where no next step is known.
func (s *readinessState) signoffGate(g *Gate) bool {
	if key, _ := s.r.Policy.Key("signoff"); !key.Yes || s.r.To == "" {
		return false
	}
	g.State = code.NotMet
	latest := s.latestSignoff()
	if latest == nil {
		return true
	}
	g.add(dated(code.SignedOff, latest.By.Name, latest.Date))
	for _, f := range slices.Backward(s.all) {
		if lowsOf(f) > 0 && f.Date >= latest.Date {
			g.add(dated(code.LowPenalty, "", f.Date))
			return true
		}
	}
	g.State = code.Met
	return true
}

// latestSignoff is the pilot's latest sign-off for the category asked about, nil
// where there is none.
func (s *readinessState) latestSignoff() *season.Signoff {
	var latest *season.Signoff
	for _, so := range s.l.Signoffs {
		if so.Pilot == s.r.Pilot && so.Category == s.r.To && so.Date <= s.l.AsOf && (latest == nil || so.Date >= latest.Date) {
			latest = so
		}
	}
	return latest
}

// openMattersGate counts the open matters of safety.
func (s *readinessState) openMattersGate(g *Gate) bool {
	open := OpenMatters(s.l, s.r.Pilot)
	g.State = stateOf(len(open) <= s.whole("safety", 0))
	g.count(code.Have, len(open))
	for _, o := range open {
		g.add(dated(code.OpenMatter, o.Fault.Kind.Name, o.Flight.Date))
	}
	return true
}

// currentGate counts the days since the last flight of any kind.
func (s *readinessState) currentGate(g *Gate) bool {
	if len(s.all) == 0 {
		g.State = code.NotMet
		g.because(code.NoFlight)
		return true
	}
	days := int(s.l.AsOf - s.all[len(s.all)-1].Date)
	g.State = stateOf(days <= s.whole("current", 0))
	g.count(code.Have, days)
	return true
}
