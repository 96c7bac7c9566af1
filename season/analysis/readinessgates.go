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
func (s *readinessState) zerosGate(key season.PolicyKey) (Gate, bool) {
	most, span := int(policyNumber(s.r.Policy, key.Key, 0, 0)), int(policyNumber(s.r.Policy, key.Key, 1, 4))
	marked := s.marked()
	flights := last(marked, span)
	asked := s.atMost(key.Key, most, span)
	if len(flights) == 0 {
		return Gate{State: GateOpen, Evidence: "no marks in the window", Asked: asked, Needs: "flights with their marks"}, true
	}
	zeros := 0
	for _, f := range flights {
		n, _ := zeroFigures(f)
		zeros += n
	}
	g := Gate{
		State:    stateOf(zeros <= most),
		Evidence: fmt.Sprintf("%s in the last %s", season.Counted(zeros, "figure with a zero", "figures with a zero"), season.Counted(len(flights), "flight", "flights")),
		Asked:    asked,
	}
	seen := countZeros(marked)
	if risk, ok := seen.risk(); ok {
		g.Evidence += fmt.Sprintf("; one in the next sequence with about %s", share(risk))
	}
	if bound, ok := seen.bound(); ok {
		g.Evidence += fmt.Sprintf("; no zero in %s: at most %s of figures", season.Counted(seen.figures, "figure", "figures"), share(bound))
	}
	if g.State == NotMet {
		g.Needs = fmt.Sprintf("at most %d in the last %s", most, season.Counted(span, "flight", "flights"))
	}
	return g, true
}

// atMost says what a gate asks that allows so many in the last flights.
func (s *readinessState) atMost(key string, most, span int) string {
	return s.asked(setting{fmt.Sprintf("at most %d in the last %s", most, season.Counted(span, "flight", "flights")), key})
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

func (s *readinessState) lowsGate(key season.PolicyKey) (Gate, bool) {
	most, span := int(policyNumber(s.r.Policy, key.Key, 0, 0)), int(policyNumber(s.r.Policy, key.Key, 1, 6))
	flights := last(s.flights, span)
	lows := 0
	for _, f := range flights {
		lows += lowsOf(f)
	}
	if len(flights) == 0 {
		return Gate{State: GateOpen, Evidence: "no contest flight in the window", Asked: s.atMost(key.Key, most, span), Needs: "contest flights"}, true
	}
	g := Gate{
		State:    stateOf(lows <= most),
		Evidence: fmt.Sprintf("%s in the last %s", season.Counted(lows, "low penalty", "low penalties"), season.Counted(len(flights), "flight", "flights")),
		Asked:    s.atMost(key.Key, most, span),
	}
	if g.State == NotMet {
		g.Needs = fmt.Sprintf("at most %d in the last %s", most, season.Counted(span, "flight", "flights"))
	}
	return g, true
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
func (s *readinessState) unknownsGate(key season.PolicyKey) (Gate, bool) {
	if s.r.Ladder == nil {
		return Gate{}, false
	}
	if c, ok := s.r.Ladder.Category(s.r.From); !ok || !c.Unknowns {
		return Gate{}, false
	}
	want, have := int(policyNumber(s.r.Policy, key.Key, 0, 2)), 0
	for _, f := range s.flights {
		if f.Programme == season.Unknown || f.Programme == season.FreeUnknown {
			have++
		}
	}
	g := Gate{
		State: stateOf(have >= want), Evidence: fmt.Sprintf("%s at %s in the window", season.Counted(have, "unknown flown", "unknowns flown"), s.r.From),
		Asked: s.asked(setting{strconv.Itoa(want), key.Key}, s.windowSetting()),
	}
	if have < want {
		g.Needs = fmt.Sprintf("%d more at %s", want-have, s.r.From)
	}
	return g, true
}

// newFamiliesGate asks for graded elements of every family that is new at the
// next step; practice counts. It is not asked where no next step is known.
func (s *readinessState) newFamiliesGate(key season.PolicyKey) (Gate, bool) {
	if s.r.To == "" {
		return Gate{}, false
	}
	want, level := int(policyNumber(s.r.Policy, key.Key, 0, 2)), policyNumber(s.r.Policy, key.Key, 1, 6)
	levelWords := key.Values[1].String()
	g := Gate{State: Met, Asked: s.asked(setting{season.Counted(want, "graded element", "graded elements") + " of each at " + levelWords + " on average", key.Key})}
	if s.r.Floor.Name == "" {
		g.State, g.Evidence = GateOpen, "the ladder has no step "+s.r.To+", so that nothing is known of what is new there"
		g.Needs = "a ladder that has " + s.r.To
		return g, true
	}
	if len(s.r.Floor.New) == 0 {
		g.Evidence = "no family is new at " + s.r.To
		return g, true
	}
	var said, missing, needs []string
	for _, group := range s.r.Floor.New {
		n, mean := s.graded(group)
		words := season.GroupTitle(group) + " never graded"
		if n > 0 {
			words = fmt.Sprintf("%s graded %s at %s", season.GroupTitle(group), times(n), beside(mean, level))
		}
		said = append(said, words)
		if n < want || mean < level-1e-9 {
			missing = append(missing, words)
			needs = append(needs, season.GroupTitle(group)+": "+moreGraded(n, mean, want, level, levelWords))
		}
	}
	g.State, g.Evidence, g.against = stateOf(len(missing) == 0), strings.Join(said, "; "), strings.Join(missing, "; ")
	if len(needs) > 0 {
		g.Needs = strings.Join(needs, "; ") + " (practice counts)"
	}
	return g, true
}

// beside writes a grade with one decimal, and with as many more as it takes to
// stand on the right side of a level.
func beside(grade, level float64) string {
	for decimals := 1; decimals < 4; decimals++ {
		text := display.Fixed(grade, decimals)
		shown, _ := strconv.ParseFloat(text, 64)
		if (shown < level-1e-9) == (grade < level-1e-9) {
			return text
		}
	}
	return display.Fixed(grade, 4)
}

// surplus is how far above the level asked for a need goes: few elements at a
// grade that can be flown, rather than one at a grade that hardly can.
const surplus = 2.0

// moreGraded says how many elements more, at which grade, bring n of that mean
// to the number and the mean asked for. Grades are halves.
func moreGraded(n int, mean float64, want int, level float64, levelWords string) string {
	best := math.Min(fullMarks, level+surplus)
	if best <= level && mean < level && n > 0 {
		return "the mean stays below " + levelWords + " whatever comes"
	}
	for more := max(1, want-n); ; more++ {
		grade := (level*float64(n+more) - mean*float64(n)) / float64(more)
		grade = math.Max(0, math.Ceil(2*grade-1e-6)/2)
		if grade > best+1e-9 && grade > level+0.5 {
			continue
		}
		after := (mean*float64(n) + grade*float64(more)) / float64(n+more)
		words := fmt.Sprintf("%d more at %s", more, display.Fixed(grade, 1))
		switch {
		case n == 0:
			return fmt.Sprintf("%d graded at %s", more, display.Fixed(grade, 1))
		case mean >= level-1e-9:
			return fmt.Sprintf("%s or better would make %d and keep the mean at %s", words, n+more, atLeast(after, level, levelWords))
		default:
			return fmt.Sprintf("%s would bring the mean to %s", words, atLeast(after, level, levelWords))
		}
	}
}

// atLeast says a mean that reaches a level, by the level alone.
func atLeast(mean, level float64, levelWords string) string {
	if mean > level+1e-6 {
		return levelWords + " or more"
	}
	return levelWords
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
		if !f.HasMarks() || !sequenceHas(f.Sequence, group) {
			continue
		}
		for _, fig := range decidedFigures(f) {
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
// standard as well, and a family that no contest flight had is a missing piece
// of evidence: with either the gate is open at best. It is not asked where no
// next step is known.
func (s *readinessState) forecastGate(key season.PolicyKey) (Gate, bool) {
	if s.r.To == "" {
		return Gate{}, false
	}
	want, wantWords := policyNumber(s.r.Policy, key.Key, 0, 50), key.Values[0].String()+" %"
	asked := s.asked(setting{"a lower end of " + wantWords, key.Key})
	g := Gate{Asked: asked}
	lack := func(evidence, need string) {
		g.Evidence += "; " + evidence
		g.against = strings.TrimPrefix(g.against+"; "+evidence, "; ")
		g.Needs = strings.TrimPrefix(g.Needs+"; and "+need, "; and ")
		if g.State == Met {
			g.State = GateOpen
		}
	}
	worst, why := s.worstForecast()
	switch {
	case worst == nil && why == "":
		g.State, g.Evidence = GateOpen, "no known sequence of "+s.r.To+" is in the ledger"
		g.against, g.Needs = g.Evidence, "the known sequence of "+s.r.To+" in the ledger"
	case worst == nil:
		g.State, g.Evidence = GateOpen, "no known sequence of "+s.r.To+" can be forecast: "+why
		g.against, g.Needs = g.Evidence, "flights with marks to forecast from"
	default:
		g.State = stateOf(worst.Low >= want)
		g.Evidence = fmt.Sprintf("%s: %s %%, 80 %% range %s to %s", worst.Sequence.Handle, display.Fixed(worst.Percent, 1), beside(worst.Low, want), display.Fixed(worst.High, 1))
		if g.State == NotMet {
			g.against, g.Needs = "the range begins at "+beside(worst.Low, want)+" %", "a lower end of "+wantWords
		}
		if len(worst.Unseen) > 0 {
			lack(UnseenWords(worst.Unseen), "contest flights with "+season.Titled(worst.Unseen))
		}
	}
	if !s.hasFlown(s.r.To) {
		lack(s.r.To+" was never flown in a contest, and is judged by its own standard",
			fmt.Sprintf("a contest flight at %s, after which the page asks for the step beyond unless it is given --to %s", s.r.To, s.r.To))
	}
	return g, true
}

// worstForecast is the forecast with the lowest end of the next category's
// known sequences, or why none of them can be forecast; "" where there is none.
func (s *readinessState) worstForecast() (worst *ForecastAnswer, why string) {
	for _, seq := range s.l.Sequences {
		if seq.Category != s.r.To || (seq.Programme != season.Known && seq.Programme != "") {
			continue
		}
		answer := ForecastOf(s.l, s.r.Pilot, seq)
		if !answer.Told {
			why = answer.Why
		} else if worst == nil || answer.Low < worst.Low {
			worst = &answer
		}
	}
	return worst, why
}

func (s *readinessState) hasFlown(category string) bool {
	return slices.ContainsFunc(s.all, func(f *season.Flight) bool { return f.Contested() && f.Category == category })
}

// signoffGate asks for a coach's sign-off for the category, after the day of the
// last low penalty, as a matter of safety asks for one after its day. It is not
// asked where no next step is known.
func (s *readinessState) signoffGate(key season.PolicyKey) (Gate, bool) {
	if !key.Yes || s.r.To == "" {
		return Gate{}, false
	}
	g := Gate{
		State: NotMet, Evidence: "no sign-off for " + s.r.To, Needs: "a `signoff` line for " + s.r.To + " by a coach",
		Asked: s.asked(setting{"one after the last low penalty", key.Key}),
	}
	var latest *season.Signoff
	for _, so := range s.l.Signoffs {
		if so.Pilot == s.r.Pilot && so.Category == s.r.To && so.Date <= s.l.AsOf && (latest == nil || so.Date >= latest.Date) {
			latest = so
		}
	}
	if latest == nil {
		return g, true
	}
	g.Evidence = fmt.Sprintf("signed off on %s by %s", latest.Date, latest.By.Name)
	for _, f := range slices.Backward(s.all) {
		if lowsOf(f) > 0 && f.Date >= latest.Date {
			g.Evidence += fmt.Sprintf(", not after the low penalty of %s", f.Date)
			g.Needs = fmt.Sprintf("a new sign-off after %s", f.Date)
			return g, true
		}
	}
	g.State, g.Needs = Met, ""
	return g, true
}

// openMattersGate counts the open matters of safety.
func (s *readinessState) openMattersGate(key season.PolicyKey) (Gate, bool) {
	most := int(policyNumber(s.r.Policy, key.Key, 0, 0))
	open := OpenMatters(s.l, s.r.Pilot)
	g := Gate{State: stateOf(len(open) <= most), Evidence: "no open matter noted", Asked: s.asked(setting{fmt.Sprintf("at most %d open", most), key.Key})}
	if len(open) > 0 {
		g.Evidence = season.Counted(len(open), "open matter of safety", "open matters of safety")
	}
	for _, o := range open {
		g.Evidence += fmt.Sprintf("; %s since %s", o.Fault.Kind.Name, o.Flight.Date)
	}
	if g.State == NotMet {
		g.Needs = "a `closed` line"
	}
	return g, true
}

// currentGate counts the days since the last flight of any kind.
func (s *readinessState) currentGate(key season.PolicyKey) (Gate, bool) {
	most := int(policyNumber(s.r.Policy, key.Key, 0, 60))
	asked := s.asked(setting{"at most " + season.Counted(most, "day", "days"), key.Key})
	if len(s.all) == 0 {
		return Gate{State: NotMet, Evidence: "no flight in the ledger", Asked: asked, Needs: "a flight, practice too"}, true
	}
	days := int(s.l.AsOf - s.all[len(s.all)-1].Date)
	g := Gate{State: stateOf(days <= most), Evidence: fmt.Sprintf("%s since the last flight in the ledger", season.Counted(days, "day", "days")), Asked: asked}
	if g.State == NotMet {
		g.Needs = fmt.Sprintf("a flight within %d days, practice too", most)
	}
	return g, true
}
