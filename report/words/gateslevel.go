package words

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/report/answers"
	"boxbook/season/analysis/code"
)

// sayLevel says how many results reached the mark, what share of flights would at
// the present level, and how sure it is that this is the one asked for.
func sayLevel(g gateFacts) gateSaid {
	_, typed := g.set("threshold", 0)
	want, _ := g.set("share", 0)
	mark := typed + "%"
	said := gateSaid{
		evidence: ofSeveral(g.count(code.Have), g.count(code.Results), "result", "results") + " reached " + mark,
		asked:    g.asked(mark+" or more", "in at least "+percentWords(want)+" of flights"),
		brief:    ofSeveral(g.count(code.Have), g.count(code.Results), "flight", "flights") + " at " + mark + " or more",
		wants:    beyondChance(mark, want),
		lacks:    beyondChance(mark, want),
	}
	if g.count(code.Results) == 0 {
		said.evidence, said.brief = "no result that counts", "no flight that counts"
	}
	if aside := g.fact(code.Aside); aside.Number.Known() {
		only := ", " + CatalogueAlone(aside.Text, int(aside.Number.Float64()))
		said.evidence += only
		said.brief += only
	}
	if count := g.fact(code.ResultsShare); count.Low.Known() {
		reached, sure := sharesOf(count, want)
		said.evidence += fmt.Sprintf(" (by that count alone %s of flights, at %s)", reached, sure)
	}
	there := g.atTheCategoryAsked(mark, want)
	if span := g.fact(code.Share); span.Low.Known() {
		said.evidence += "; " + g.levelNow() + ": at that level " + g.shareNow(mark, want)
		if g.because(code.CountDiffers) {
			said.evidence += "; " + g.countDiffers(mark)
			said.brief += "; " + g.countDiffers(mark)
		}
		if g.because(code.TooLongAfter) {
			said.brief += fmt.Sprintf("; as of %s, too long ago to say for today", g.fact(code.LevelNow).On)
		}
		said.brief += g.levelDecides(want)
	} else {
		said.evidence += "; " + g.noLevel()
		said.brief += "; " + g.noLevel()
	}
	if aircraft := aircraftOfFlights(g.count(code.AircraftNamed), g.count(code.AircraftNone)); aircraft != "" {
		said.evidence += "; these flights were flown " + aircraft
		said.brief += "; flown " + aircraft
	}
	if there != "" {
		said.evidence += "; " + there
	}
	said.needs = g.levelNeeds(mark, want)
	switch {
	case g.because(code.AskedNotMet):
		said.against = there
	case g.because(code.OnlyIfSteady), g.because(code.ByTotals):
		said.against = strings.Join(slices.DeleteFunc([]string{g.onlyIfSteady(mark, want), g.byTotals(mark)}, func(text string) bool { return text == "" }), "; ")
	}
	return said
}

// levelDecides says in short why a level that is known does not meet the gate, whatever
// the count beside it: "" where it does, or where something else is said to decide.
func (g gateFacts) levelDecides(want float64) string {
	switch {
	case g.State == code.Met, g.because(code.AskedNotMet), g.because(code.CountDiffers):
		return ""
	case g.because(code.FewToBeMet):
		return "; too few for this gate: it takes " + g.enoughForLevel()
	}
	when := "now"
	if g.because(code.TooLongAfter) {
		when = "then"
	}
	reach, sure := sharesOf(g.fact(code.Share), want)
	return fmt.Sprintf("; at the level %s, %s%%, %s of flights do (at %s)", when, factRange(g.fact(code.LevelNow)).About(), reach, sure)
}

// enoughForLevel is how many flights and contests a level takes to meet the gate.
func (g gateFacts) enoughForLevel() string {
	contests := g.count(code.MetContests)
	return fmt.Sprintf("%d flights at %s contests, or %s contests", g.count(code.MetFlights), NumberWord(contests), NumberWord(contests+1))
}

// half is the share that is said by that word.
const half = 0.5

// beyondChance says what share of flights should reach a mark, and that a count
// which chance may have drawn will not do.
func beyondChance(mark string, want float64) string {
	share := percentWords(want)
	if want == half {
		share = "half"
	}
	return fmt.Sprintf("%s or more in at least %s of the flights, beyond chance", mark, share)
}

// levelNow is the level with its range, and what qualifies it.
func (g gateFacts) levelNow() string {
	level := g.fact(code.LevelNow)
	r := factRange(level)
	said := fmt.Sprintf("level now %s%% (%s%% at %s)", r.About(), r.Ends(), AtConfidence(r.Confidence))
	if g.because(code.TooLongAfter) {
		said = fmt.Sprintf("%s is too long after the last flight; level on %s %s%% (%s%% at %s)", g.ready.AsOf, level.On, r.About(), r.Ends(), AtConfidence(r.Confidence))
	}
	if g.because(code.SameScore) {
		said += " (" + sameScore + ")"
	}
	if g.because(code.NoDriftSeen) {
		holds := g.fact(code.RangeHolds)
		said += " (" + noDriftSeen(g.count(code.Contests), holds.Low, holds.High) + ")"
	}
	return said
}

// factRange is the range of a fact.
func factRange(f answers.Number) Range { return Range{f.Low, f.Number, f.High, f.Confidence} }

// shareNow is what share of flights reach a mark, how surely the one asked for,
// and the next flight.
func (g gateFacts) shareNow(mark string, want float64) string {
	next := "the next one"
	if g.because(code.TooLongAfter) {
		next = "a next one then"
	}
	reach, sure := sharesOf(g.fact(code.Share), want)
	return fmt.Sprintf("%s of flights reach %s (at %s); the chance that at least %s do is %s; the chance that %s does is about %s",
		reach, mark, sure, percentWords(want), g.sure(g.fact(code.Sure).Number.Float64()), next, share(g.fact(code.Next).Number.Float64()))
}

// sure writes the chance that decides a gate so that it stands on the right side
// of what decides it.
func (g gateFacts) sure(p float64) string {
	beyond := (1 - g.fact(code.Share).Confidence.Float64()) / 2
	text := shareBeside(p, beyond)
	if p > .5 {
		text = shareBeside(p, 1-beyond)
	}
	return openShare(p, text)
}

// atTheCategoryAsked says what was flown there, judged by itself; "" where
// nothing was.
func (g gateFacts) atTheCategoryAsked(mark string, want float64) string {
	results := g.fact(code.AskedResults)
	if !results.Number.Known() {
		return ""
	}
	said := fmt.Sprintf("at %s %d of %d reached %s", results.Name, g.count(code.AskedHave), g.count(code.AskedResults), mark)
	if sure := g.fact(code.AskedSure).Number; sure.Known() {
		reach, confidence := sharesOf(g.fact(code.AskedShare), want)
		return said + fmt.Sprintf(" (%s of flights there do, at %s; the chance that at least %s do is %s)", reach, confidence, percentWords(want), g.sure(sure.Float64()))
	}
	return said + ", too few flights to tell"
}

// countDiffers says that the count is not what the level lets expect.
func (g gateFacts) countDiffers(mark string) string {
	return fmt.Sprintf("by the level about %d of them would reach %s: they are not one level with chance about it",
		g.count(code.Expected), mark)
}

// onlyIfSteady says what a met gate leans on, "" where it would be met without it.
func (g gateFacts) onlyIfSteady(mark string, want float64) string {
	if !g.because(code.OnlyIfSteady) {
		return ""
	}
	return fmt.Sprintf("if the form is not steady, the chance that at least %s of flights reach %s is only %s: a fall that has just begun would look like this",
		percentWords(want), mark, share(g.fact(code.SureMoving).Number.Float64()))
}

// byTotals says how many results reach the mark by a printed total that their marks do not
// agree with, "" where none does.
func (g gateFacts) byTotals(mark string) string {
	if !g.because(code.ByTotals) {
		return ""
	}
	return fmt.Sprintf("%s with the marks; %s %s by the total alone",
		Counted(g.count(code.Disputed), "official total does not agree", "official totals do not agree"),
		Counted(g.count(code.ByTotalsAlone), "of these flights reaches", "of these flights reach"), mark)
}

// noLevel says why no level can be told.
func (g gateFacts) noLevel() string {
	if g.because(code.FewContests) {
		return Counted(g.count(code.Contests), "contest is", "contests are") + " too few to tell"
	}
	return Counted(g.count(code.Results), "flight is", "flights are") + " too few to tell"
}

// levelNeeds says what would change the gate.
func (g gateFacts) levelNeeds(mark string, want float64) string {
	switch {
	case g.State == code.Met:
		return ""
	case g.because(code.AskedNotMet):
		return fmt.Sprintf("flights at %s that reach %s", g.fact(code.AskedResults).Name, mark)
	case !g.fact(code.Share).Low.Known():
		return "at least " + NumberWord(g.count(code.LeastFlights)) + " flights at " + NumberWord(g.count(code.LeastContests)) + " contests"
	case g.because(code.CountDiffers):
		return fmt.Sprintf("more flights, until by their count alone it is clear whether %s of them reach %s", percentWords(want), mark)
	case g.because(code.FewToBeMet):
		return "a level as firm from " + g.enoughForLevel()
	case g.State == code.NotMet:
		present := "the present one"
		if g.because(code.TooLongAfter) {
			present = "that one"
		}
		return fmt.Sprintf("a higher level: at %s clearly fewer than %s of flights reach %s", present, percentWords(want), mark)
	}
	return fmt.Sprintf("a level from which %s of flights clearly reach %s: more flights, or a higher level", percentWords(want), mark)
}
