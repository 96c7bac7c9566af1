package season

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/scoring"
	"boxbook/season/stats"
)

// trendEvidence says where a firm trend of the gate's flights leads on the
// as-of date; it is "" where there is none. A firm trend needs the test on
// flights and the one on contests; the line is for its size alone.
func (s *readinessState) trendEvidence() string {
	var points []TrendPoint
	var days, percents []float64
	for _, f := range s.flights {
		percent, _ := f.Record().Percent.Float64()
		points = append(points, trendPoint(f, percent, f.hasZero()))
		days, percents = append(days, float64(f.Date)), append(percents, percent)
	}
	word := FlightTrend(points).Word
	if word != Improving && word != Declining {
		return ""
	}
	if !stats.WithinReach(days, float64(s.l.AsOf)) {
		return fmt.Sprintf("; %s, but %s is too long after the last flight to foresee", word, s.l.AsOf)
	}
	seen, ok := foreseen(days, percents, s.l.AsOf)
	if !ok {
		return ""
	}
	span := seen.Interval.Clip(0, 100)
	return fmt.Sprintf("; %s: a line through them stands at %s %% on %s (80 %% range %s to %s)",
		word, number(clip(seen.Value, 0, 100), 1), s.l.AsOf, number(span.Low, 1), number(span.High, 1))
}

// foreseen is a flight of that day by the least squares line through percents.
func foreseen(days, percents []float64, at Date) (stats.Prediction, bool) {
	line, err := stats.Line(days, percents, nil)
	if err != nil {
		return stats.Prediction{}, false
	}
	seen, err := line.Predict([]float64{1, float64(at)}, 1, forecastSurety)
	return seen, err == nil
}

// zeroFigures counts the figures of a flight that came to nothing: zeroed, or
// with a perception zero from any judge.
func (f *Flight) zeroFigures() (zeros, figures int) {
	score, flown := f.Score(), f.Flown()
	for i, index := range flown {
		figures++
		perception := slices.ContainsFunc(f.Rows[index].Marks, func(m scoring.Mark) bool { return m.Kind == scoring.PerceptionZero })
		if perception || zeroed(score.Lines[i]) {
			zeros++
		}
	}
	return zeros, figures
}

// zerosGate counts hard and perception zeros in the last flights, and says how
// likely one is in the next sequence: by figure and by flight, the worse one.
func (s *readinessState) zerosGate(key PolicyKey) (Gate, bool) {
	most, span := int(s.r.Policy.number(key.Key, 0, 0)), int(s.r.Policy.number(key.Key, 1, 4))
	marked := s.marked()
	flights := last(marked, span)
	if len(flights) == 0 {
		return Gate{State: GateOpen, Evidence: "no marks in the window", Needs: "flights with their marks"}, true
	}
	zeros := 0
	for _, f := range flights {
		n, _ := f.zeroFigures()
		zeros += n
	}
	g := Gate{
		State:    stateOf(zeros <= most),
		Evidence: fmt.Sprintf("%s in the last %s", Counted(zeros, "figure with a zero", "figures with a zero"), Counted(len(flights), "flight", "flights")),
	}
	seen := countZeros(marked)
	if risk, ok := seen.risk(); ok {
		g.Evidence += fmt.Sprintf("; one in the next sequence with about %s", share(risk))
	}
	if bound, ok := seen.bound(); ok {
		g.Evidence += fmt.Sprintf("; no zero in %s: at most %s of figures", Counted(seen.figures, "figure", "figures"), share(bound))
	}
	if g.State == NotMet {
		g.Needs = fmt.Sprintf("at most %d in the last %s", most, Counted(span, "flight", "flights"))
	}
	return g, true
}

// zeroCount is what flights show of zeros: how many of the figures and of the
// flights had one, and how many figures the last flight had.
type zeroCount struct{ zeros, figures, bad, flights, next int }

func countZeros(flights []*Flight) zeroCount {
	c := zeroCount{flights: len(flights)}
	for _, f := range flights {
		z, n := f.zeroFigures()
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

// noneSurety is the confidence of the bound on what was never seen.
const noneSurety = 0.95

// bound is the most that the share of figures with a zero can be where none was
// seen; false where one was.
func (c zeroCount) bound() (float64, bool) {
	if c.zeros > 0 {
		return 0, false
	}
	upper, err := stats.NoneUpper(c.figures, noneSurety)
	return upper, err == nil
}

func (s *readinessState) lowsGate(key PolicyKey) (Gate, bool) {
	most, span := int(s.r.Policy.number(key.Key, 0, 0)), int(s.r.Policy.number(key.Key, 1, 6))
	flights := last(s.flights, span)
	lows := 0
	for _, f := range flights {
		lows += f.lows()
	}
	if len(flights) == 0 {
		return Gate{State: GateOpen, Evidence: "no contest flight in the window", Needs: "contest flights"}, true
	}
	g := Gate{
		State:    stateOf(lows <= most),
		Evidence: fmt.Sprintf("%s in the last %s", Counted(lows, "low penalty", "low penalties"), Counted(len(flights), "flight", "flights")),
	}
	if g.State == NotMet {
		g.Needs = fmt.Sprintf("at most %d in the last %s", most, Counted(span, "flight", "flights"))
	}
	return g, true
}

func (f *Flight) lows() int {
	n := 0
	for _, p := range f.Penalties {
		if p.Kind == "low" {
			n++
		}
	}
	return n
}

// unknownsGate is asked only where the present category flies unknowns.
func (s *readinessState) unknownsGate(key PolicyKey) (Gate, bool) {
	if s.r.Ladder == nil {
		return Gate{}, false
	}
	if c, ok := s.r.Ladder.Category(s.r.From); !ok || !c.Unknowns {
		return Gate{}, false
	}
	want, have := int(s.r.Policy.number(key.Key, 0, 2)), 0
	for _, f := range s.flights {
		if f.Programme == Unknown || f.Programme == FreeUnknown {
			have++
		}
	}
	g := Gate{State: stateOf(have >= want), Evidence: Counted(have, "unknown flown", "unknowns flown")}
	if have < want {
		g.Needs = fmt.Sprintf("%d more", want-have)
	}
	return g, true
}

// newFamiliesGate asks for graded elements of every family that is new at the
// next step; practice counts.
func (s *readinessState) newFamiliesGate(key PolicyKey) (Gate, bool) {
	if s.r.To == "" {
		return Gate{State: GateOpen, Evidence: "no next category is known"}, true
	}
	if s.r.Floor.Name == "" {
		return Gate{State: GateOpen, Evidence: "the ladder has no step " + s.r.To + ", so that nothing is known of what is new there"}, true
	}
	if len(s.r.Floor.New) == 0 {
		return Gate{State: Met, Evidence: "no family is new at " + s.r.To}, true
	}
	want, level := int(s.r.Policy.number(key.Key, 0, 2)), s.r.Policy.number(key.Key, 1, 6)
	var said, missing []string
	for _, group := range s.r.Floor.New {
		n, mean := s.graded(group)
		if n == 0 {
			said = append(said, GroupTitle(group)+" never graded")
		} else {
			said = append(said, fmt.Sprintf("%s graded %s at %s", GroupTitle(group), times(n), number(mean, 1)))
		}
		if n < want || mean < level-1e-9 {
			missing = append(missing, group)
		}
	}
	g := Gate{State: stateOf(len(missing) == 0), Evidence: strings.Join(said, "; ")}
	if len(missing) > 0 {
		g.Needs = fmt.Sprintf("%s: %d graded elements each at %s on average, in practice too", titled(missing), want, number(level, 1))
	}
	return g, true
}

func times(n int) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	default:
		return fmt.Sprintf("%d times", n)
	}
}

// graded counts the graded elements of a group, and their mean grade.
func (s *readinessState) graded(group string) (int, float64) {
	n, sum := 0, 0.0
	for _, f := range s.all {
		if !f.HasMarks() || !f.Sequence.has(group) {
			continue
		}
		for _, fig := range f.decidedFigures() {
			for _, e := range fig.figure.Elements {
				if e.Group == group {
					n++
					sum += fig.percent / 10
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
// standard as well, so the gate is open at best.
func (s *readinessState) forecastGate(key PolicyKey) (Gate, bool) {
	want := s.r.Policy.number(key.Key, 0, 50)
	var worst *ForecastAnswer
	for _, seq := range s.l.Sequences {
		if seq.Category != s.r.To || s.r.To == "" || (seq.Programme != Known && seq.Programme != "") {
			continue
		}
		answer := s.l.ForecastOf(s.r.Pilot, seq)
		if answer.Told && (worst == nil || answer.Low < worst.Low) {
			worst = &answer
		}
	}
	if worst == nil {
		return Gate{State: GateOpen, Evidence: "no known sequence of " + orNone(s.r.To) + " can be forecast", Needs: "the sequence in the ledger, and flights to forecast from"}, true
	}
	g := Gate{State: stateOf(worst.Low >= want), Evidence: fmt.Sprintf("%s: %s %%, 80 %% range %s to %s", worst.Sequence.Handle, number(worst.Percent, 1), number(worst.Low, 1), number(worst.High, 1))}
	if len(worst.Unseen) > 0 {
		g.Evidence += "; " + UnseenWords(worst.Unseen)
	}
	switch {
	case g.State == NotMet:
		g.Needs = fmt.Sprintf("a lower end of %s %%", key.Values[0].String())
	case !s.hasFlown(s.r.To):
		g.State = GateOpen
		g.Evidence += "; " + s.r.To + " was never flown, and is judged by its own standard"
		g.Needs = "a contest flight at " + s.r.To
	}
	return g, true
}

func (s *readinessState) hasFlown(category string) bool {
	return slices.ContainsFunc(s.all, func(f *Flight) bool { return f.Contested() && f.Category == category })
}

// signoffGate asks for a coach's sign-off for the category, after the last low
// penalty.
func (s *readinessState) signoffGate(key PolicyKey) (Gate, bool) {
	if !key.Yes {
		return Gate{}, false
	}
	g := Gate{State: NotMet, Evidence: "no sign-off for " + orNone(s.r.To), Needs: "a `signoff` line by a coach"}
	var latest *Signoff
	for _, so := range s.l.Signoffs {
		if so.Pilot == s.r.Pilot && so.Category == s.r.To && so.Date <= s.l.AsOf && (latest == nil || so.Date >= latest.Date) {
			latest = so
		}
	}
	if latest == nil {
		return g, true
	}
	g.Evidence = fmt.Sprintf("signed off on %s by %s", latest.Date, latest.By.Name)
	for _, f := range s.all {
		if f.lows() > 0 && f.Date > latest.Date {
			g.Evidence += fmt.Sprintf(", before the low penalty of %s", f.Date)
			g.Needs = "a new sign-off after it"
			return g, true
		}
	}
	g.State, g.Needs = Met, ""
	return g, true
}

// safetyGate counts the open matters of safety.
func (s *readinessState) safetyGate(key PolicyKey) (Gate, bool) {
	most := int(s.r.Policy.number(key.Key, 0, 0))
	open := s.l.OpenMatters(s.r.Pilot)
	g := Gate{State: stateOf(len(open) <= most), Evidence: "no open matter noted"}
	if len(open) > 0 {
		g.Evidence = Counted(len(open), "open matter of safety", "open matters of safety")
	}
	for _, o := range open {
		g.Evidence += fmt.Sprintf("; %s since %s", o.Fault.Kind.Name, o.Flight.Date)
	}
	if g.State == NotMet {
		g.Needs = "a `closed` line, or a later sign-off"
	}
	return g, true
}

// currentGate counts the days since the last flight of any kind.
func (s *readinessState) currentGate(key PolicyKey) (Gate, bool) {
	most := int(s.r.Policy.number(key.Key, 0, 60))
	if len(s.all) == 0 {
		return Gate{State: NotMet, Evidence: "no flight in the ledger", Needs: "flying"}, true
	}
	days := int(s.l.AsOf - s.all[len(s.all)-1].Date)
	g := Gate{State: stateOf(days <= most), Evidence: fmt.Sprintf("%s since the last flight in the ledger", Counted(days, "day", "days"))}
	if g.State == NotMet {
		g.Needs = fmt.Sprintf("a flight within %d days, practice too", most)
	}
	return g, true
}
