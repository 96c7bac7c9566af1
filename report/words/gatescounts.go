package words

import (
	"fmt"
	"strconv"
	"strings"

	"boxbook/report/answers"
	"boxbook/season/analysis/code"
)

// windowWords say which days the policy looks at.
func (g gateFacts) windowWords() string {
	if _, typed := g.set("window", 0); typed == "" {
		return "at any time"
	}
	return "in " + theLast(g.setCount("window", 0), "day", "days")
}

// windowBrief is windowWords in short.
func (g gateFacts) windowBrief() string {
	if _, typed := g.set("window", 0); typed == "" {
		return g.windowWords()
	}
	return "in " + Counted(g.setCount("window", 0), "day", "days")
}

// inTheLast says over how many flights a gate looks.
func inTheLast(flights int) string {
	return "in " + theLast(flights, "flight", "flights")
}

// found says over how many flights a gate that asks for the last so many could
// look; where these are fewer, both counts, apart: they are no rate.
func (g gateFacts) found(span int) string {
	if g.because(code.AtPresent) {
		return inTheLast(g.count(code.Flights)) + " " + AtCategory(g.ready.From)
	}
	if k := g.count(code.Flights); k < span {
		return fmt.Sprintf("in the %s %s, of %d needed", Counted(k, "flight", "flights"), g.howFlown(), span)
	}
	if len(g.Numbers[code.Bare]) > 0 {
		return inTheLast(span) + " with marks"
	}
	return inTheLast(span)
}

// foundBrief is found beside what is needed, which says of how many flights.
func (g gateFacts) foundBrief(span int) string {
	k := g.count(code.Flights)
	if k >= span || g.because(code.AtPresent) {
		return g.found(span)
	}
	return fmt.Sprintf("in the %d %s", k, g.howFlown())
}

// howFlown says of fewer flights than a gate looks at what they have before others.
func (g gateFacts) howFlown() string {
	if len(g.Numbers[code.Bare]) > 0 {
		return "with marks"
	}
	return "flown"
}

// notSeen says what a gate would have had to look at: flights without marks among
// the last, figures that are not decided; "" where it saw all.
func (g gateFacts) notSeen() string {
	text := ""
	if bare := namesOf(g.Numbers[code.Bare]); len(bare) > 0 {
		text += "; no marks of " + ListInWords(bare)
	}
	if g.because(code.NotDecided) {
		text += "; figures without a decided grade could change it"
	}
	return text
}

// unseen says what would show more to a gate that looks at the last so many.
func (g gateFacts) unseen(span int) string {
	var needs []string
	if k := g.count(code.Flights); k < span {
		needs = append(needs, Counted(span-k, "more contest flight", "more contest flights")+" with marks")
	}
	if bare := namesOf(g.Numbers[code.Bare]); len(bare) > 0 {
		needs = append(needs, "the marks of "+ListInWords(bare))
	}
	if g.because(code.NotDecided) {
		needs = append(needs, "the ruling on what is not decided")
	}
	return strings.Join(needs, ", ")
}

func sayFlights(g gateFacts) gateSaid {
	want, have, from := g.setCount("flights", 0), g.count(code.Have), g.ready.From
	said := gateSaid{
		evidence: fmt.Sprintf("%s at %s in the window", Counted(have, "contest flight", "contest flights"), from),
		asked:    g.asked(strconv.Itoa(want), g.windowWords()),
		brief:    fmt.Sprintf("%d at %s", have, from),
		wants:    fmt.Sprintf("%d %s", want, g.windowBrief()),
		folded:   fmt.Sprintf("%s at %s", Counted(have, "contest flight", "contest flights"), from),
	}
	if from == "" {
		said.evidence = "no contest flight with a category in the window"
		said.brief = "none with a category"
	}
	switch {
	case g.State == code.Met:
	case from == "":
		said.needs = Counted(want, "contest flight", "contest flights") + " at one category"
		said.lacks = said.needs
	default:
		said.needs = fmt.Sprintf("%d more at %s", want-have, from)
		said.lacks = fmt.Sprintf("%s at %s", Counted(want-have, "more contest flight", "more contest flights"), from)
	}
	return said
}

func sayFigures(g gateFacts) gateSaid {
	level, floor := g.set("figure-floor", 0)
	want, _ := g.set("floor-share", 0)
	span := g.setCount("floor-flights", 0)
	said := gateSaid{
		asked: g.asked(floor+" or better", "for "+percentWords(want)+" of the figures", inTheLast(span)),
		wants: fmt.Sprintf("%s at %s or better in %s", percentWords(want), floor, Counted(span, "flight", "flights")),
		lacks: fmt.Sprintf("%s of figures at %s or better %s", percentWords(want), floor, inTheLast(span)),
	}
	switch {
	case g.because(code.LooksAtNone):
		said.evidence, said.needs = "the policy counts no flight", "`floor-flights` of at least 1 in the policy"
		return said
	case g.because(code.NoMarks):
		said.evidence, said.needs = "no marks of a contest flight", "contest flights with their marks"
		return said
	}
	have, total := g.count(code.Have), g.count(code.Figures)
	below := figuresOf(g.Numbers[code.BelowFloor], func(same []answers.Number) string { return ": " + beside(same[0].Number.Float64(), level, 1) })
	said.evidence = fmt.Sprintf("%s at %s or better %s", ofSeveral(have, total, "figure", "figures"), floor, g.found(span)) + after(strings.Join(saidOf(below), "; ")) + g.notSeen()
	said.brief = fmt.Sprintf("%s at %s or better", ofSeveral(have, total, "figure", "figures"), floor) + g.short(span) + after(someOf(below, total-have)) + g.notSeen()
	said.needs = g.unseen(span)
	if g.State == code.NotMet {
		said.needs = fmt.Sprintf("contest flights with figures at %s or better, until %s of those %s are", floor, percentWords(want), inTheLast(span))
	}
	return said
}

// after adds something behind a semicolon, nothing where there is none.
func after(text string) string {
	if text == "" {
		return ""
	}
	return "; " + text
}

// short says that a gate found fewer flights than it looks at.
func (g gateFacts) short(span int) string {
	if g.count(code.Flights) < span || g.because(code.AtPresent) {
		return ", " + g.foundBrief(span)
	}
	return ""
}

// someOf lists the figures of the first few flights, and counts those of the others:
// so many there are in all.
func someOf(flights []flightFigures, all int) string {
	const few = 2
	said := flights[:min(few, len(flights))]
	for _, f := range said {
		all -= f.figures
	}
	text := strings.Join(saidOf(said), "; ")
	if len(flights) > few {
		text += "; and " + Counted(all, "more figure", "more figures")
	}
	return text
}

// flightFigures are figures of one flight in words, and how many they are.
type flightFigures struct {
	said    string
	figures int
}

func saidOf(flights []flightFigures) []string {
	said := make([]string, len(flights))
	for i, f := range flights {
		said[i] = f.said
	}
	return said
}

// figuresOf names figures by flight: "FLIGHT figure 2: 4.3, figure 3: 4.0", an
// item a flight; say adds what is known of the facts of one figure.
func figuresOf(facts []answers.Number, say func([]answers.Number) string) []flightFigures {
	var flights []flightFigures
	for i := 0; i < len(facts); {
		end := i + 1
		for end < len(facts) && facts[end].Name == facts[i].Name && facts[end].Figure == facts[i].Figure {
			end++
		}
		said := fmt.Sprintf("figure %d", facts[i].Figure) + say(facts[i:end])
		if i > 0 && facts[i-1].Name == facts[i].Name {
			last := &flights[len(flights)-1]
			last.said, last.figures = last.said+", "+said, last.figures+1
		} else {
			flights = append(flights, flightFigures{facts[i].Name + " " + said, 1})
		}
		i = end
	}
	return flights
}

// atMost says what a gate asks that allows so many in the last flights.
func (g gateFacts) atMost(key string) string {
	return atMostOf(g.setCount(key, 0)) + " " + inTheLast(g.setCount(key, 1))
}

// atMostOf is the most that a gate allows, "none" for 0.
func atMostOf(n int) string {
	if n == 0 {
		return "none"
	}
	return fmt.Sprintf("at most %d", n)
}

// atMostBrief is atMost in short.
func (g gateFacts) atMostBrief(key string) string {
	return fmt.Sprintf("%s in %s", atMostOf(g.setCount(key, 0)), Counted(g.setCount(key, 1), "flight", "flights"))
}

// without says what is missing where so many of something are too many.
func (g gateFacts) without(key, one, many string) string {
	flights := theLast(g.setCount(key, 1), "flight", "flights")
	if most := g.setCount(key, 0); most > 0 {
		return flights + " with at most " + Counted(most, one, many)
	}
	return flights + " without a " + one
}

func sayZeros(g gateFacts) gateSaid {
	span, have := g.setCount("zeros", 1), g.count(code.Have)
	said := gateSaid{
		asked: g.asked(g.atMost("zeros")), wants: g.atMostBrief("zeros"), lacks: g.without("zeros", "zero", "zeros"),
	}
	if g.because(code.NoMarks) {
		said.evidence, said.needs = "no marks of a contest flight", "contest flights with their marks"
		return said
	}
	zeros := figuresOf(g.Numbers[code.ZeroAt], func(same []answers.Number) string { return " (" + strings.Join(textsOf(same), ", ") + ")" })
	said.evidence = Counted(have, "figure with a zero", "figures with a zero") + " " + g.found(span) + after(strings.Join(saidOf(zeros), "; ")) + g.notSeen()
	said.brief = noneOr(have)
	if have > 0 {
		said.brief = Counted(have, "figure", "figures") + " with any judge's zero"
	}
	said.brief += " " + g.foundBrief(span) + after(someOf(zeros, have)) + g.notSeen()
	if risk := g.fact(code.ZeroRisk).Number; risk.Known() {
		if g.tooFewForChance() {
			said.evidence += "; too few flights to tell the chance of one in the next sequence"
		} else {
			said.evidence += "; chance of one that counts in the next sequence: about " + share(risk.Float64())
		}
		said.brief += g.zeroChance(risk.Float64())
	}
	if bound := g.fact(code.ZeroBound).Number; bound.Known() {
		said.evidence += fmt.Sprintf("; none counted in %s, up to %s of figures not ruled out",
			Counted(g.count(code.ZeroFigures), "figure", "figures"), share(bound.Float64()))
	}
	if waived := g.count(code.ZerosWaived); waived > 0 {
		said.evidence += fmt.Sprintf("; %s had a judge's zero that did not count", Counted(waived, "figure", "figures"))
	}
	said.needs = g.unseen(span)
	if g.State == code.NotMet {
		said.needs = g.atMost("zeros")
	}
	return said
}

// zeroChance says how likely a zero is in the next flight; where none was seen, how
// many of the figures may yet have one, since few flights say little. Where the rules
// overruled a judge's zero it says that only those that count are meant: the gate asks
// for any judge's.
func (g gateFacts) zeroChance(risk float64) string {
	if g.tooFewForChance() {
		return "; too few flights to tell the chance of one in the next"
	}
	one, basis := "one in the next flight", g.zeroBasis()
	switch {
	case g.count(code.Have) > 0:
		one = "one that counts in the next flight"
	case g.count(code.ZerosWaived) > 0:
		one = "one that counts in the next"
	}
	if bound := g.fact(code.ZeroBound).Number; bound.Known() {
		none := "none in " + flightsAt(g.fact(code.ZerosOf)) + ","
		if g.count(code.ZerosWaived) > 0 {
			none = g.zerosApart() + ";"
		}
		basis = fmt.Sprintf("%s up to %s of figures possible", none, share(bound.Float64()))
	}
	said := "; chance of " + one + ": " + share(risk)
	if basis != "" {
		said += " (" + basis + ")"
	}
	return said
}

// zerosApart counts the figures with a zero that counts apart from those with one that
// does not.
func (g gateFacts) zerosApart() string {
	seen, waived := g.count(code.ZerosSeen), g.count(code.ZerosWaived)
	counts := "no figure"
	if seen > 0 {
		counts = Counted(seen, "figure", "figures")
	}
	return fmt.Sprintf("in %s %s had one, %d had one that does not", flightsAt(g.fact(code.ZerosOf)), counts, waived)
}

// tooFewForChance reports whether too few flights were counted for zeros.
func (g gateFacts) tooFewForChance() bool {
	of := g.fact(code.ZerosOf).Number
	return of.Known() && countOf(of) < g.count(code.LeastFlights)
}

// flightsAt counts flights, of a category where they are of one alone.
func flightsAt(of answers.Number) string {
	said := Counted(countOf(of.Number), "flight", "flights")
	if of.Name != "" {
		said += " " + AtCategory(of.Name)
	}
	return said
}

// zeroBasis says what the chance of a zero rests on.
func (g gateFacts) zeroBasis() string {
	zeros, of := g.fact(code.ZerosSeen), g.fact(code.ZerosOf)
	if !zeros.Number.Known() || !of.Number.Known() {
		return ""
	}
	if countOf(of.Number) == 0 {
		return "from no flight"
	}
	text := fmt.Sprintf("%s with one in %s, allowing for so few", Counted(countOf(zeros.Number), "figure", "figures"), flightsAt(of))
	if g.count(code.ZerosWaived) > 0 {
		text = g.zerosApart()
	}
	if whole := g.fact(code.ZerosWhole).Number; whole.Known() && whole.Float64() < zeros.Number.Float64() {
		text += fmt.Sprintf("; %s came to 0, and a forecast counts only such", noneOr(countOf(whole)))
	}
	return text
}

// noneOr is a count, "none" for 0.
func noneOr(n int) string {
	if n == 0 {
		return "none"
	}
	return strconv.Itoa(n)
}

// textsOf are the texts of facts.
func textsOf(facts []answers.Number) []string {
	texts := make([]string, len(facts))
	for i, f := range facts {
		texts[i] = f.Text
	}
	return texts
}

func sayLows(g gateFacts) gateSaid {
	span, have := g.setCount("lows", 1), g.count(code.Have)
	said := gateSaid{
		evidence: Counted(have, "low penalty", "low penalties") + " " + g.found(span),
		asked:    g.asked(g.atMost("lows")),
		wants:    g.atMostBrief("lows"),
		lacks:    g.without("lows", "low penalty", "low penalties"),
		folded:   fmt.Sprintf("%s %s %s", NumberWord(have), PluralWord(have, "low penalty", "low penalties"), inTheLast(span)),
	}
	said.brief = fmt.Sprintf("%s %s", noneOr(have), g.foundBrief(span))
	if g.count(code.Flights) == 0 {
		said.brief = "no contest flight flown"
		said.evidence = fmt.Sprintf("%s, of %d needed", said.brief, span)
	}
	if flights := namesOf(g.Numbers[code.LowPenalty]); len(flights) > 0 {
		said.evidence += ": " + strings.Join(flights, ", ")
		said.brief += ": " + strings.Join(flights, ", ")
	}
	switch {
	case g.State == code.NotMet:
		said.needs = Counted(g.count(code.More), "more contest flight", "more contest flights") + " without one"
	case g.State == code.CannotTell:
		said.needs = Counted(span-g.count(code.Flights), "more contest flight", "more contest flights")
	}
	return said
}

func sayUnknowns(g gateFacts) gateSaid {
	want, have := g.setCount("unknowns", 0), g.count(code.Have)
	said := gateSaid{
		evidence: fmt.Sprintf("%s at %s in the window", Counted(have, "unknown flown", "unknowns flown"), g.ready.From),
		asked:    g.asked(strconv.Itoa(want), g.windowWords()),
		brief:    fmt.Sprintf("%d at %s", have, g.ready.From),
		wants:    fmt.Sprintf("%d %s", want, g.windowBrief()),
		folded:   Counted(have, "unknown", "unknowns") + " flown",
	}
	if have < want {
		said.needs = fmt.Sprintf("%d more at %s", want-have, g.ready.From)
		said.lacks = fmt.Sprintf("%s at %s", Counted(want-have, "more unknown", "more unknowns"), g.ready.From)
	}
	return said
}

func sayOpenMatters(g gateFacts) gateSaid {
	said := gateSaid{evidence: "no open matter noted", asked: g.asked(atMostOf(g.setCount("safety", 0)) + " open"), wants: atMostOf(g.setCount("safety", 0)), folded: "no open matter noted"}
	if open := g.count(code.Have); open > 0 {
		said.evidence, said.folded = Counted(open, "open matter of safety", "open matters of safety"), ""
	}
	for _, matter := range g.Numbers[code.OpenMatter] {
		said.evidence += fmt.Sprintf("; %s since %s", matter.Name, matter.On)
	}
	if g.State == code.NotMet {
		said.needs = "a `closed` line"
		said.lacks = "an end to " + Counted(g.count(code.Have), "open matter", "open matters")
	}
	return said
}

func sayRecency(g gateFacts) gateSaid {
	most := g.setCount("current", 0)
	limit := Counted(most, "day", "days")
	said := gateSaid{asked: g.asked("at most " + limit), wants: "at most " + limit, lacks: "a flight within " + limit}
	if g.because(code.NoFlight) {
		said.evidence, said.needs = "no flight in the ledger", "a flight, practice too"
		return said
	}
	said.evidence = Counted(g.count(code.Have), "day", "days") + " since the last flight in the ledger"
	said.folded = fmt.Sprintf("last flown %s ago", Counted(g.count(code.Have), "day", "days"))
	if g.fact(code.LastVoid).Number.Known() {
		said.evidence += ", a void one"
		said.folded += ", a void flight"
	}
	said.brief = said.folded
	if g.State == code.NotMet {
		said.needs = "a flight within " + limit + ", practice too"
	}
	return said
}
