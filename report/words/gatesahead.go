package words

import (
	"fmt"
	"strings"

	"boxbook/report/answers"
	"boxbook/season/analysis/code"
)

// sayNewFamilies says what was graded of each family that is new at the next
// step, and what more of it would meet the gate.
func sayNewFamilies(g gateFacts) gateSaid {
	level, typed := g.set("new-families", 1)
	to := g.ready.To
	said := gateSaid{asked: g.asked(Counted(g.setCount("new-families", 0), "graded element", "graded elements") + " of each at " + typed + " on average")}
	switch {
	case g.because(code.NoStep):
		said.evidence, said.needs = "the ladder has no step "+to+", so that nothing is known of what is new there", "a ladder that has "+to
		return said
	case g.because(code.NoneNew):
		said.evidence = "no family is new at " + to
		return said
	}
	var evidence, missing, needs []string
	for _, graded := range g.Numbers[code.Graded] {
		title := GroupTitle(graded.Name)
		words := title + " never graded"
		if n := countOf(graded.Number); n > 0 {
			words = fmt.Sprintf("%s graded %s at %s", title, times(n), beside(g.fact(code.MeanGrade, graded.Name).Number.Float64(), level))
		}
		evidence = append(evidence, words)
		if need := g.moreGraded(graded.Name, level, typed); need != "" {
			missing, needs = append(missing, words), append(needs, title+": "+need)
		}
	}
	for _, n := range g.Numbers[code.NotFlown] {
		words := NotInThisAircraft(GroupTitle(n.Name), n.Text)
		evidence, missing = append(evidence, words), append(missing, words)
	}
	said.evidence, said.against = strings.Join(evidence, "; "), strings.Join(missing, "; ")
	if len(needs) > 0 {
		said.needs = strings.Join(needs, "; ") + " (practice counts)"
	}
	return said
}

// moreGraded says what a family needs to meet a level; "" where it needs nothing.
func (g gateFacts) moreGraded(group string, level float64, typed string) string {
	if g.fact(code.OutOfReach, group).Name != "" {
		return "the mean stays below " + typed + " whatever comes"
	}
	more, n := g.count(code.More, group), g.count(code.Graded, group)
	if more == 0 {
		return ""
	}
	grade := g.fact(code.MoreAt, group).Number.Text(1)
	reaches := typed
	if g.fact(code.MeanAfter, group).Number.Float64() > level+1e-6 {
		reaches += " or more"
	}
	switch {
	case n == 0:
		return fmt.Sprintf("%d graded at %s", more, grade)
	case g.fact(code.MeanGrade, group).Number.Float64() >= level-1e-9:
		return fmt.Sprintf("%d more at %s or better would make %d and keep the mean at %s", more, grade, n+more, reaches)
	default:
		return fmt.Sprintf("%d more at %s would bring the mean to %s", more, grade, reaches)
	}
}

// times says how often.
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

// sayForecastGate says the forecast on the next category's known sequence, or why
// there is none, and what is missing beside it.
func sayForecastGate(g gateFacts) gateSaid {
	want, typed := g.set("forecast", 0)
	lowerEnd, to := "a lower end of "+typed+" %", g.ready.To
	said := gateSaid{asked: g.asked(lowerEnd)}
	switch worst := g.fact(code.Forecast); {
	case g.because(code.NoKnown):
		said.evidence = "no known sequence of " + to + " is in the ledger"
		said.against, said.needs = said.evidence, "the known sequence of "+to+" in the ledger"
	case g.because(code.NoForecast):
		said.evidence = "no known sequence of " + to + " can be forecast: " + lackOf(g).forecast(g.count(code.OfLate))
		said.against, said.needs = said.evidence, "flights with marks to forecast from"
	default:
		low := beside(worst.Low.Float64(), want)
		said.evidence = fmt.Sprintf("%s: %s %%, %s range %s to %s", worst.Name, worst.Number.Text(1), Confidence(worst.Confidence), low, worst.High.Text(1))
		if g.State == code.NotMet {
			said.against, said.needs = "the range begins at "+low+" %", lowerEnd
		}
		if unseen := namesOf(g.Numbers[code.Unseen]); len(unseen) > 0 {
			said.lack(UnseenWords(unseen, g.count(code.OfLate)), "contest flights with "+GroupTitles(unseen))
		}
	}
	for _, n := range g.Numbers[code.NotFlown] {
		said.lack(NotInThisAircraft(GroupTitle(n.Name), n.Text), "")
	}
	if g.because(code.NeverFlown) {
		said.lack(to+" was never flown in a contest, and is judged by its own standard",
			fmt.Sprintf("a contest flight at %s, after which the page asks for the step beyond unless it is given --to %s", to, to))
	}
	return said
}

// lack adds what is missing, and what would bring it, "" where nothing would.
func (s *gateSaid) lack(evidence, need string) {
	s.evidence += "; " + evidence
	s.against = strings.TrimPrefix(s.against+"; "+evidence, "; ")
	if need == "" {
		return
	}
	s.needs = strings.TrimPrefix(s.needs+"; and "+need, "; and ")
}

// namesOf are the names that facts are of.
func namesOf(facts []answers.Number) []string {
	var names []string
	for _, f := range facts {
		names = append(names, f.Name)
	}
	return names
}

// lackOf is what a gate's forecast lacked.
func lackOf(g gateFacts) lack {
	d := answers.Lack{Flights: g.count(code.Flights), Contests: g.count(code.Contests), Least: g.count(code.LeastFlights), Uncoded: g.count(code.Uncoded)}
	for _, reason := range g.Reasons {
		if reason != code.NoForecast && reason != code.NeverFlown {
			d.Reason = reason
		}
	}
	return lack(d)
}
