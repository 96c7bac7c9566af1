package words

import (
	"cmp"
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
	said := gateSaid{
		asked: g.asked(Counted(g.setCount("new-families", 0), "graded element", "graded elements") + " of each at " + typed + " on average"),
		wants: fmt.Sprintf("%d of each, mean %s or more", g.setCount("new-families", 0), typed),
	}
	switch {
	case g.because(code.NoStep):
		said.evidence, said.needs = "the ladder has no step "+to+", so what is new there is not known", "a ladder that has "+to
		said.brief, said.lacks = "what is new at "+to+" is not known", "what is new at "+to
		return said
	case g.because(code.NoneNew):
		said.evidence, said.folded = "no family is new up to "+to, "no new family"
		return said
	}
	var evidence, missing, needs, brief, lacks []string
	for _, n := range g.Numbers[code.NotFlown] {
		title := GroupTitle(n.Name)
		missing = append(missing, NotInThisAircraft(title, n.Text))
		brief = append(brief, GroupShort(n.Name)+": not met, "+notInThisAircraft(n.Text))
		lacks = append(lacks, title+", not in this aircraft"+noUsePractising)
	}
	evidence = append(evidence, missing...)
	for _, graded := range g.Numbers[code.Graded] {
		title, words := GroupTitle(graded.Name), g.gradedWords(graded, level)
		evidence, brief = append(evidence, words), append(brief, g.gradedBrief(graded))
		if need := g.moreGraded(graded.Name, level, typed); need != "" {
			missing, needs = append(missing, words), append(needs, title+": "+need)
			lacks = append(lacks, g.familyLacks(graded.Name))
		}
	}
	said.evidence, said.against = strings.Join(evidence, "; "), strings.Join(missing, "; ")
	said.brief, said.lacks = strings.Join(brief, "; "), strings.Join(lacks, "; ")
	if len(needs) > 0 {
		said.needs = strings.Join(needs, "; ") + " (practice in front of a coach counts)"
	}
	return said
}

// noUsePractising stands behind what an aircraft does not fly.
const noUsePractising = ", so practice cannot help"

// gradedWords say what was graded of a family: how often, the mean, the latest and
// the worst.
func (g gateFacts) gradedWords(graded answers.Number, level float64) string {
	title := GroupTitle(graded.Name)
	words := title + " never graded by a panel or a coach"
	if n := countOf(graded.Number); n > 0 {
		latest, worst := g.fact(code.Latest, graded.Name), g.fact(code.Worst, graded.Name)
		words = fmt.Sprintf("%s graded %s, mean %s, latest %s on %s%s, worst %s", title, times(n),
			beside(g.fact(code.MeanGrade, graded.Name).Number.Float64(), level, 1), latest.Number.Text(1), latest.On, byWhom(latest), worst.Number.Text(1))
	}
	if g.fact(code.ZeroLately, graded.Name).Name != "" {
		words += fmt.Sprintf(", a zero among the last %s", NumberWord(g.count(code.NoZeroIn)))
	}
	return words
}

// byWhom names who graded, "" for a contest's panel.
func byWhom(n answers.Number) string {
	if n.Text == "" {
		return ""
	}
	return " by " + n.Text
}

// gradedBrief is gradedWords in short, with whether the family is met.
func (g gateFacts) gradedBrief(graded answers.Number) string {
	title, n := GroupShort(graded.Name), countOf(graded.Number)
	if n == 0 {
		return title + ": not met, none graded"
	}
	state := code.Met
	if g.count(code.More, graded.Name) > 0 || g.fact(code.OutOfReach, graded.Name).Name != "" {
		state = code.NotMet
	}
	level, _ := g.set("new-families", 1)
	mean := beside(g.fact(code.MeanGrade, graded.Name).Number.Float64(), level, 1)
	words := fmt.Sprintf("%s: %s, %d graded%s, mean %s, latest %s, worst %s", title, state, n, g.coachAlone(graded.Name), mean, g.fact(code.Latest, graded.Name).Number.Text(1), g.fact(code.Worst, graded.Name).Number.Text(1))
	if g.fact(code.ZeroLately, graded.Name).Name != "" {
		words += ", a zero lately"
	}
	return words
}

// coachAlone says that no contest panel is among those who graded a family.
func (g gateFacts) coachAlone(group string) string {
	if g.count(code.ByPanel, group) > 0 {
		return ""
	}
	return " by the coach alone"
}

// familyLacks says what is missing of a family.
func (g gateFacts) familyLacks(group string) string {
	more := g.count(code.More, group)
	if more == 0 {
		return GroupTitle(group) + " out of reach"
	}
	mean := g.fact(code.MeanGrade, group).Number
	if want, typed := g.set("new-families", 1); g.count(code.Graded, group) >= g.setCount("new-families", 0) && mean.Known() && mean.Float64() < want-1e-9 {
		return fmt.Sprintf("graded elements of %s with a mean of %s, now %s", GroupTitle(group), typed, beside(mean.Float64(), want, 1))
	}
	elements := Counted(more, "graded element", "graded elements")
	if g.count(code.Graded, group) > 0 {
		elements = Counted(more, "more graded element", "more graded elements")
	}
	text := fmt.Sprintf("%s of %s", elements, GroupTitle(group))
	if g.fact(code.ZeroLately, group).Name != "" {
		text += " without a zero, at " + g.fact(code.MoreAt, group).Number.Text(1) + " or better"
	}
	return text
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
		if g.fact(code.ZeroLately, group).Name != "" {
			return fmt.Sprintf("%d more without a zero, at %s or better", more, grade)
		}
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
	lowerEnd, to := "a lower end of "+typed+"%", g.ready.To
	said := gateSaid{asked: g.asked(lowerEnd), wants: "from " + typed + "% up", lacks: "a forecast for " + to + " that begins at " + typed + "%"}
	switch worst := g.fact(code.Forecast); {
	case g.because(code.NoKnown):
		said.evidence = "no known sequence of " + to + " is in the ledger"
		said.against, said.needs = said.evidence, "the known sequence of "+to+" in the ledger"
	case g.because(code.NoForecast):
		said.evidence = "no known sequence of " + to + " can be forecast: " + lackOf(g).forecast(g.count(code.OfLate))
		said.against, said.needs = said.evidence, "flights with marks to forecast from"
	default:
		r := factRange(worst)
		low := beside(worst.Low.Float64(), want, r.Decimals())
		said.evidence = fmt.Sprintf("%s: %s%% (%s to %s%% at %s)", g.forecastOn(), r.About(), low, r.End(), AtConfidence(worst.Confidence))
		said.brief = said.evidence
		if g.because(code.NeverFlown) {
			said.evidence = fmt.Sprintf("%s: %s; %s about %s%% (%s to %s%% at %s)",
				g.forecastOn(), notKnownBefore, byGradesAt(g.ready.From), r.About(), low, r.End(), AtConfidence(worst.Confidence))
		}
		if g.State == code.NotMet {
			said.against, said.needs = "the range on "+worst.Name+" begins at "+low+"%", lowerEnd
		}
		if unseen := namesOf(g.Numbers[code.Unseen]); len(unseen) > 0 {
			said.lack(UnseenWords(unseen, g.count(code.OfLate)), "contest flights with "+GroupTitles(unseen))
		}
		if bare := wholeNumbers(g.Numbers[code.BareFigure]); len(bare) > 0 {
			said.lack(bareWords(bare), "the codes of "+PluralWord(len(bare), "that figure", "those figures"))
		}
	}
	for _, n := range g.Numbers[code.NotFlown] {
		said.lack(NotInThisAircraft(GroupTitle(n.Name), n.Text), "")
	}
	if why := g.fromElsewhere(); g.because(code.NeverFlown) {
		said.brief = g.forecastMissing(cmp.Or(said.brief, said.evidence))
		said.lack(why, "")
		if said.needs != "" {
			said.needs += " (it counts only once a panel at " + to + " has graded the pilot)"
		}
	}
	return said
}

// forecastOn names the sequence that a forecast is of, and which it is where the
// category has several.
func (g gateFacts) forecastOn() string {
	name := g.fact(code.Forecast).Name
	if n := g.count(code.KnownOnes); n > 1 {
		return fmt.Sprintf("%s, the lowest of %s known sequences", name, NumberWord(n))
	}
	return name
}

// forecastMissing says in short, in the words of the forecast's page, why a forecast for a
// category never flown is no evidence yet, instead of a range that would read as one.
func (g gateFacts) forecastMissing(brief string) string {
	worst := g.fact(code.Forecast)
	if !worst.Number.Known() {
		return brief
	}
	return worst.Name + ": " + notKnownYet(g.ready.To, namesOf(g.Numbers[code.Unseen]), g.count(code.OfLate), namesOf(g.Numbers[code.NotFlown]))
}

// shortTitles lists groups in words without their keys, of which none was flown.
func shortTitles(groups []string) string {
	titles := make([]string, len(groups))
	for i, group := range groups {
		titles[i] = GroupShort(group)
	}
	return AnyInWords(titles)
}

// fromElsewhere says that nobody has graded the pilot at the category asked about,
// and on which grades a forecast for it rests.
func (g gateFacts) fromElsewhere() string {
	return fmt.Sprintf("from grades at %s, since no panel at %s has graded the pilot", cmp.Or(g.ready.From, "other categories"), g.ready.To)
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

// wholeNumbers are the numbers of facts that count.
func wholeNumbers(facts []answers.Number) []int {
	var numbers []int
	for _, f := range facts {
		numbers = append(numbers, int(f.Number.Float64()))
	}
	return numbers
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

// saySteps says which steps of the ladder would be skipped.
func saySteps(g gateFacts) gateSaid {
	from, to := g.ready.From, g.ready.To
	said := gateSaid{asked: g.asked("the next step"), wants: "the next step", folded: "no step skipped"}
	skipped := namesOf(g.Numbers[code.Skipped])
	switch {
	case g.because(code.NoStep):
		said.evidence = "no ladder is known that has " + to
		if ladder := g.ready.Ladder; ladder != "" {
			said.evidence = fmt.Sprintf("ladder %s does not say how %s follows on %s", ladder, to, cmp.Or(from, "what was flown"))
		}
		said.needs = "a ladder that has the steps up to " + to
		said.lacks = said.needs
	case len(skipped) > 0:
		said.evidence = "skips " + ListInWords(skipped)
		said.needs = "--to " + skipped[0]
		said.lacks = ListInWords(skipped) + ", skipped on the way"
	case g.State != code.Met:
		said.evidence = to + " is no step above " + from
		said.lacks = "a step above " + from
	default:
		said.evidence = to + " is the next step"
	}
	return said
}
