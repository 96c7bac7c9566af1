package words

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/season/analysis/code"
)

// gateSaid is what is said of a gate: what it rests on, what is asked, what would
// change it; against is what of the evidence speaks against, "" for all of it;
// brief, wants and lacks are the same in short, for the table and the headline;
// folded is how a met gate is told among others in one row, "" where it has a row
// of its own.
type gateSaid struct{ evidence, asked, needs, against, brief, wants, lacks, folded string }

// gateWords are the words of one gate.
type gateWords struct {
	gate, title string
	say         func(gateFacts) gateSaid
}

// gatesSaid has the gates that have words of their own, by the names that the
// analysis gives them, in the order in which people read them.
func gatesSaid() []gateWords {
	return []gateWords{
		{"signoff", "sign-off", saySignoff},
		{"flights", "flights", sayFlights},
		{"forecast", "forecast", sayForecastGate},
		{"new-families", "new families", sayNewFamilies},
		{"threshold", "level", sayLevel},
		{"figure-floor", "figures", sayFigures},
		{"zeros", "zeros", sayZeros},
		{"lows", "low penalties", sayLows},
		{"unknowns", "unknowns", sayUnknowns},
		{"steps", "no step skipped", saySteps},
		{"open-matters", "open matters", sayOpenMatters},
		{"current", "recency", sayRecency},
	}
}

// gateWordsOf finds a gate's words and its place among them; one without any is
// said by its name and by what it has and asks for.
func gateWordsOf(gate string) (words gateWords, place int) {
	all := gatesSaid()
	at := slices.IndexFunc(all, func(w gateWords) bool { return w.gate == gate })
	if at < 0 {
		return gateWords{gate, strings.ReplaceAll(gate, "-", " "), sayAnyGate}, len(all)
	}
	return all[at], at
}

// GateTitle is a gate's title for people.
func GateTitle(gate string) string {
	words, _ := gateWordsOf(gate)
	return words.title
}

// gateNames names the gates that are not met, with a word before them, then those
// that nobody can tell yet.
func gateNames(before string, notMet, untold []string) string {
	var said []string
	if len(notMet) > 0 {
		said = append(said, before+strings.Join(notMet, ", "))
	}
	if len(untold) > 0 {
		said = append(said, "cannot tell: "+strings.Join(untold, ", "))
	}
	return strings.Join(said, "; ")
}

// sayGate says a gate of an answer.
func sayGate(d answers.Ready, g answers.Gate) gateSaid {
	facts := gateFacts{Gate: g, ready: d}
	said := gateSaid{}
	if facts.because(code.Unset) {
		said = sayUnset(facts)
	} else {
		words, _ := gateWordsOf(g.Gate)
		said = words.say(facts)
	}
	said.brief = cmp.Or(said.brief, said.evidence)
	said.wants = cmp.Or(said.wants, said.asked)
	if g.State != code.Met {
		said.lacks = cmp.Or(said.lacks, GateTitle(g.Gate))
	}
	return said
}

// gateFacts is a gate with the answer that it stands in.
type gateFacts struct {
	answers.Gate
	ready answers.Ready
}

func (g gateFacts) because(why code.Reason) bool { return slices.Contains(g.Reasons, why) }

// fact is the first number of a kind, of a name where one is given; nothing is
// known of one that the gate does not have.
func (g gateFacts) fact(what code.Fact, name ...string) answers.Number {
	for _, f := range g.Numbers[what] {
		if len(name) == 0 || f.Name == name[0] {
			return f
		}
	}
	return answers.Number{}
}

// count is a number of things, 0 where the gate does not have it.
func (g gateFacts) count(what code.Fact, name ...string) int {
	return countOf(g.fact(what, name...).Number)
}

// countOf is a number of things, 0 where it is not known.
func countOf(n report.Number) int {
	if !n.Known() {
		return 0
	}
	return int(n.Float64())
}

// set is a number of a setting, typed how it was written.
func (g gateFacts) set(key string, at int) (number float64, typed string) {
	for _, s := range g.Settings {
		if s.Key == key && at < len(s.Values) {
			return s.Values[at].Float64(), s.Typed[at]
		}
	}
	return math.NaN(), ""
}

// setCount is a number of things that a setting asks for.
func (g gateFacts) setCount(key string, at int) int {
	n, _ := g.set(key, at)
	if math.IsNaN(n) {
		return 0
	}
	return int(n)
}

// asked says what a gate asks and who set it, the house or the ledger: the words
// of its settings, in their order.
func (g gateFacts) asked(parts ...string) string {
	origins := make([]string, len(parts))
	for i := range parts {
		origins[i] = " (set in the ledger)"
		if g.Settings[i].House {
			origins[i] = " (house default)"
		}
	}
	if len(slices.Compact(slices.Clone(origins))) == 1 {
		return strings.Join(parts, " ") + origins[0]
	}
	said := make([]string, len(parts))
	for i, part := range parts {
		said[i] = part + origins[i]
	}
	return strings.Join(said, " ")
}

// sayAnyGate says a gate that has no words of its own.
func sayAnyGate(g gateFacts) gateSaid {
	have, wants := "nothing counted", wantsOf(g)
	if f := g.fact(code.Have); f.Number.Known() {
		have = "have " + trimmed(f.Number)
	}
	said := gateSaid{evidence: have, asked: g.asked(wants...)}
	if g.State != code.Met {
		said.needs = have + ", needs " + strings.Join(wants, ", ")
	}
	return said
}

// sayUnset says that the policy lacks a number that the gate goes by.
func sayUnset(g gateFacts) gateSaid {
	var lacking []string
	for _, s := range g.Settings {
		if len(s.Values) == 0 {
			lacking = append(lacking, "`"+s.Key+"`")
		}
	}
	names := strings.Join(lacking, ", ")
	return gateSaid{
		evidence: "the policy has no number for " + names, asked: g.asked(wantsOf(g)...), needs: names + " in the policy",
	}
}

// wantsOf are the settings as typed, each by its key where there are several.
func wantsOf(g gateFacts) []string {
	wants := make([]string, len(g.Settings))
	for i, s := range g.Settings {
		wants[i] = cmp.Or(strings.Join(s.Typed, ", "), s.Key)
		if len(g.Settings) > 1 && len(s.Typed) > 0 {
			wants[i] = s.Key + " " + wants[i]
		}
	}
	return wants
}

// trimmed writes a number with the decimals that it has, six at the most.
func trimmed(n report.Number) string {
	text := n.Text(6)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// percentWords writes a share as percent with the decimals that it has.
func percentWords(share float64) string { return trimmed(report.Float(100*share)) + "%" }

// share writes a probability as whole percent from 1 to 99: nothing is certain.
func share(p float64) string {
	return report.Float(math.Min(99, math.Max(1, 100*p))).Text(0) + "%"
}

// beside writes a number with so many decimals, and with as many more as it takes
// to stand on the right side of a level.
func beside(number, level float64, least int) string {
	for decimals := least; decimals < 4; decimals++ {
		text := report.Float(number).Text(decimals)
		if (rounded(text) < level-1e-9) == (number < level-1e-9) {
			return text
		}
	}
	return report.Float(number).Text(4)
}

// shareBeside writes a probability as whole percent, and with as many decimals
// as it takes to stand on the right side of another; never as 0 or 100.
func shareBeside(p, want float64) string {
	below := func(percent float64) bool { return percent < 100*want-1e-9 }
	whole := rounded(report.Float(math.Min(99, math.Max(1, 100*p))).Text(0))
	for decimals := 1; decimals <= 3 && below(whole) != below(100*p); decimals++ {
		text := report.Float(100 * p).Text(decimals)
		if shown := rounded(text); shown > 0 && shown < 100 && below(shown) == below(100*p) {
			return text + "%"
		}
	}
	return share(p)
}

// rounded is what a number that was just written stands for.
func rounded(text string) float64 {
	value, _ := strconv.ParseFloat(text, 64)
	return value
}

// shareEnds are two shares as a range: "65 to 99%".
func shareEnds(low, high string) string { return strings.TrimSuffix(low, "%") + " to " + high }

// The shares below and above which a whole percent would be 0 or 100: nothing is
// certain, so that such an end of a range is left open.
const (
	leastShare = 0.005
	mostShare  = 1 - leastShare
)

// shares writes the ends of a share, each on its side of the one asked for; an end
// that would be 0 or 100% is none.
func shares(low, high report.Number, want float64) string {
	from, to := low.Float64(), high.Float64()
	a, b := shareBeside(from, want), shareBeside(to, want)
	switch {
	case from < leastShare && to > mostShare:
		return shareEnds(a, b)
	case from < leastShare && to >= leastShare:
		return "at most " + b
	case to > mostShare && from <= mostShare:
		return "at least " + a
	case a == b:
		return openShare(to, "about "+a)
	default:
		return shareEnds(a, b)
	}
}

// sharesOf says a share with its confidence: where one end alone is said, by as much more
// as what lies beyond the other end.
func sharesOf(span answers.Number, want float64) (said, confidence string) {
	sure := span.Confidence
	if span.Low.Float64() < leastShare != (span.High.Float64() > mostShare) {
		sure = report.Float((1 + sure.Float64()) / 2)
	}
	return shares(span.Low, span.High, want), AtConfidence(sure)
}

// openShare says of a chance that would be written as 1 or 99% and is less or more
// that it is; of others what is written.
func openShare(p float64, written string) string {
	switch {
	case p < leastShare:
		return "under 1%"
	case p > mostShare:
		return "over 99%"
	default:
		return written
	}
}
