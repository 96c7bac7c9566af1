package words

import (
	"fmt"
	"strconv"

	"boxbook/report/answers"
	"boxbook/season/analysis/code"
)

// windowWords say which days the policy looks at.
func (g gateFacts) windowWords() string {
	if _, typed := g.set("window", 0); typed == "" {
		return "at any time"
	}
	return "in the last " + Counted(g.setCount("window", 0), "day", "days")
}

// inTheLast says over how many flights a gate looks.
func inTheLast(flights int) string {
	return "in the last " + Counted(flights, "flight", "flights")
}

func sayFlights(g gateFacts) gateSaid {
	want, have, from := g.setCount("flights", 0), g.count(code.Have), g.ready.From
	said := gateSaid{
		evidence: fmt.Sprintf("%s at %s in the window", Counted(have, "contest flight", "contest flights"), from),
		asked:    g.asked(strconv.Itoa(want), g.windowWords()),
	}
	if from == "" {
		said.evidence = "no contest flight with a category"
	}
	if g.because(code.Apart) {
		said.evidence += "; those at " + g.ready.To + " stand apart"
	}
	switch {
	case g.State == code.Met:
	case from == "":
		said.needs = Counted(want, "contest flight", "contest flights") + " at one category"
	default:
		said.needs = fmt.Sprintf("%d more at %s", want-have, from)
	}
	return said
}

func sayFigures(g gateFacts) gateSaid {
	_, floor := g.set("figure-floor", 0)
	want, _ := g.set("floor-share", 0)
	said := gateSaid{asked: g.asked(
		floor+" or better", "for "+percentWords(want)+" of the figures", inTheLast(g.setCount("floor-flights", 0)),
	)}
	switch {
	case g.because(code.LooksAtNone):
		said.evidence, said.needs = "the policy looks at no flight", "`floor-flights` of 1 at the least in the policy"
		return said
	case g.because(code.NoMarks):
		said.evidence, said.needs = "no marks in the window", "flights with their marks"
		return said
	}
	total := g.count(code.Figures)
	said.evidence = fmt.Sprintf("%d of %d figures at %s or better %s", g.count(code.Have), total, floor, inTheLast(g.count(code.Flights)))
	if g.State == code.NotMet {
		said.needs = fmt.Sprintf("%d of %d at the least", g.count(code.Want), total)
	}
	return said
}

// atMost says what a gate asks that allows so many in the last flights.
func (g gateFacts) atMost(key string) string {
	return fmt.Sprintf("at most %d %s", g.setCount(key, 0), inTheLast(g.setCount(key, 1)))
}

func sayZeros(g gateFacts) gateSaid {
	said := gateSaid{asked: g.asked(g.atMost("zeros"))}
	if g.because(code.NoMarks) {
		said.evidence, said.needs = "no marks in the window", "flights with their marks"
		return said
	}
	said.evidence = Counted(g.count(code.Have), "figure with a zero", "figures with a zero") + " " + inTheLast(g.count(code.Flights))
	if risk := g.fact(code.ZeroRisk).Number; risk.Known() {
		said.evidence += "; one in the next sequence with about " + share(risk.Float64())
	}
	if bound := g.fact(code.ZeroBound).Number; bound.Known() {
		said.evidence += fmt.Sprintf("; no zero in %s: at most %s of figures",
			Counted(g.count(code.ZeroFigures), "figure", "figures"), share(bound.Float64()))
	}
	if g.State == code.NotMet {
		said.needs = g.atMost("zeros")
	}
	return said
}

func sayLows(g gateFacts) gateSaid {
	said := gateSaid{asked: g.asked(g.atMost("lows"))}
	if g.because(code.NoFlight) {
		said.evidence, said.needs = "no contest flight in the window", "contest flights"
		return said
	}
	said.evidence = Counted(g.count(code.Have), "low penalty", "low penalties") + " " + inTheLast(g.count(code.Flights))
	if g.State == code.NotMet {
		said.needs = g.atMost("lows")
	}
	return said
}

func sayUnknowns(g gateFacts) gateSaid {
	want, have := g.setCount("unknowns", 0), g.count(code.Have)
	said := gateSaid{
		evidence: fmt.Sprintf("%s at %s in the window", Counted(have, "unknown flown", "unknowns flown"), g.ready.From),
		asked:    g.asked(strconv.Itoa(want), g.windowWords()),
	}
	if have < want {
		said.needs = fmt.Sprintf("%d more at %s", want-have, g.ready.From)
	}
	return said
}

func saySignoff(g gateFacts) gateSaid {
	said := gateSaid{asked: g.asked("one after the last low penalty")}
	signed := g.fact(code.SignedOff)
	if signed == (answers.Number{}) {
		said.evidence, said.needs = "no sign-off for "+g.ready.To, "a `signoff` line for "+g.ready.To+" by a coach"
		return said
	}
	said.evidence = fmt.Sprintf("signed off on %s by %s", signed.On, signed.Name)
	if low := g.fact(code.LowPenalty); low.On != "" {
		said.evidence += ", not after the low penalty of " + low.On
		said.needs = "a new sign-off after " + low.On
	}
	return said
}

func sayOpenMatters(g gateFacts) gateSaid {
	said := gateSaid{evidence: "no open matter noted", asked: g.asked(fmt.Sprintf("at most %d open", g.setCount("safety", 0)))}
	if open := g.count(code.Have); open > 0 {
		said.evidence = Counted(open, "open matter of safety", "open matters of safety")
	}
	for _, matter := range g.Numbers[code.OpenMatter] {
		said.evidence += fmt.Sprintf("; %s since %s", matter.Name, matter.On)
	}
	if g.State == code.NotMet {
		said.needs = "a `closed` line"
	}
	return said
}

func sayRecency(g gateFacts) gateSaid {
	most := g.setCount("current", 0)
	said := gateSaid{asked: g.asked("at most " + Counted(most, "day", "days"))}
	if g.because(code.NoFlight) {
		said.evidence, said.needs = "no flight in the ledger", "a flight, practice too"
		return said
	}
	said.evidence = Counted(g.count(code.Have), "day", "days") + " since the last flight in the ledger"
	if g.State == code.NotMet {
		said.needs = fmt.Sprintf("a flight within %d days, practice too", most)
	}
	return said
}
