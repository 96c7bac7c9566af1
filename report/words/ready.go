package words

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/data"
	"boxbook/data/sources"
	"boxbook/report/answers"
	"boxbook/season/analysis/code"
)

// Headings of a readiness page.
const (
	GatesHeading   = "Gates"
	AgainstHeading = "Evidence against"
	SaidHeading    = "What was said last"
)

// MoreOfReady says where the rest stands.
func MoreOfReady(d answers.Ready) string {
	return "Every gate, and what would change it: boxbook " + commandLine([]string{"ready", d.Pilot}) + " --all"
}

// NoOpenMatters stands first where nothing is open.
const NoOpenMatters = "Open matters: none noted"

// ReadyExpired says beside the verdict what has run out, such as a medical: the
// gates are about flying alone.
func ReadyExpired(d answers.Ready) string {
	soon := slices.IndexFunc(d.Expires, func(e answers.Expiry) bool { return e.Days >= 0 })
	if soon < 0 {
		soon = len(d.Expires)
	}
	if soon == 0 {
		return ""
	}
	return "Expired: " + ExpiresWords(d.Expires[:soon]) + ". No gate looks at it."
}

// SayReady fills the sentences of an answer: what the gates rest on, ask and
// need, and what stands against.
func SayReady(d answers.Ready) answers.Ready {
	gates := make([]answers.Gate, len(d.Gates))
	d.Against = []string{}
	for i, g := range d.Gates {
		said := sayGate(d, g)
		g.Evidence, g.Asked, g.Needs = said.evidence, said.asked, said.needs
		g.Brief, g.Wants, g.Lacks = said.brief, said.wants, said.lacks
		gates[i] = g
		if g.SpeaksAgainst {
			d.Against = append(d.Against, fmt.Sprintf("%s, %s: %s", GateTitle(g.Gate), g.State, cmp.Or(said.against, said.evidence)))
		}
	}
	d.Gates = gates
	d.Against = append(d.Against, againstBeside(d)...)
	return d
}

// againstBeside is what speaks against and is no gate: earlier forecasts that held
// less often than they should, a panel that never saw the pilot.
func againstBeside(d answers.Ready) []string {
	said := againstPast(d)
	if slices.ContainsFunc(d.Gates, func(g answers.Gate) bool { return slices.Contains(g.Reasons, code.NeverFlown) }) {
		said = append(said, fmt.Sprintf("no contest panel has graded %s at %s", d.Name, d.To))
	}
	return said
}

// againstPast says that more flights came out below their forecasts than chance gives;
// what came out above is nothing against the pilot.
func againstPast(d answers.Ready) []string {
	if d.Past == nil || !d.Past.OftenBelow {
		return nil
	}
	return []string{fmt.Sprintf("%s came out below what was forecast, more than chance gives in one pilot of twenty (about %s expected)",
		ofSeveral(d.Past.Below, d.Past.Of, "flight", "flights"), d.Past.BelowExpected.Text(1))}
}

// AgainstLine is that in a line, "" where nothing is; that no panel has seen the
// pilot is in the headline.
func AgainstLine(d answers.Ready) string {
	var said []string
	for _, g := range d.Gates {
		if g.State == code.Met && g.SpeaksAgainst {
			said = append(said, cmp.Or(sayGate(d, g).against, g.Evidence))
		}
	}
	if said = append(said, againstPast(d)...); len(said) == 0 {
		return ""
	}
	return "Against: " + strings.Join(said, "; ") + "."
}

// ReadySubtitle says by whose values the page judges.
func ReadySubtitle(d answers.Ready) string {
	return fmt.Sprintf("policy %s; its values are in no rule book", d.Policy)
}

// ReadySentence is the headline: the verdict with what the policy does not ask,
// what is missing, what cannot be told, what is not judged, and on what condition
// a coach signed off.
func ReadySentence(d answers.Ready) string {
	var said []string
	if _, untold := lacksOf(d, code.CannotTell); d.Verdict != code.CannotTell || d.Last || d.From == "" || d.To == "" || len(untold) == 0 {
		said = append(said, readyVerdict(d)) // else what cannot be told says it
	}
	if lacks, _ := lacksOf(d, code.NotMet); len(lacks) > 0 && !d.Last {
		said = append(said, "Missing: "+strings.Join(lacks, "; ")+".")
	}
	if _, titles := lacksOf(d, code.CannotTell); len(titles) > 0 && !d.Last {
		said = append(said, "Cannot tell yet: "+strings.Join(titles, ", ")+".")
	}
	if len(d.Off) > 0 {
		var off []string
		for _, gate := range d.Off {
			off = append(off, GateTitle(gate))
		}
		said = append(said, "Not needed under this policy: "+strings.Join(off, ", ")+".")
	}
	if slices.ContainsFunc(d.Gates, func(g answers.Gate) bool { return !g.Counts }) {
		said = append(said, fmt.Sprintf("Left out of the verdict: the forecast, since no panel has graded %s at %s.", d.Name, d.To))
	}
	for _, so := range signoffsOf(d) {
		if so.Text != "" {
			said = append(said, "Signed off "+signedBy(so)+".")
		}
	}
	return strings.Join(said, " ")
}

// readyVerdict is the verdict, with the step that it is about.
func readyVerdict(d answers.Ready) string {
	verdict := Sentence(string(d.Verdict))
	switch {
	case d.From == "":
		verdict += ": no contest flight with a category in the window"
	case d.Last:
		verdict += ": " + d.From + " is the last category of ladder " + d.Ladder + ", there is no step above it"
	case d.To == "":
		verdict += ": no category above " + d.From + " is known; name one with --to"
	case d.Verdict == code.Ready:
		verdict = "By the ledger, ready for " + d.To + ": " + allMet(d)
	}
	return verdict + "."
}

// allMet says how many gates are met, where all are that count.
func allMet(d answers.Ready) string {
	n := 0
	for _, g := range d.Gates {
		if g.Counts {
			n++
		}
	}
	return fmt.Sprintf("all %d gates that count are met", n)
}

// lacksOf says what is missing of the gates that count and stand so, and what they
// are called.
func lacksOf(d answers.Ready, state code.GateState) (lacks, titles []string) {
	for _, g := range InOrder(d.Gates) {
		if g.Counts && g.State == state {
			lacks, titles = append(lacks, g.Lacks), append(titles, GateTitle(g.Gate))
		}
	}
	return lacks, titles
}

// signoffsOf are the sign-offs that count.
func signoffsOf(d answers.Ready) []answers.Number {
	for _, g := range d.Gates {
		if signed := g.Numbers[code.SignedOff]; len(signed) > 0 {
			return signed
		}
	}
	return nil
}

// InOrder has the gates as people read them: what is not met, what cannot be told,
// what is met, each in the order of their words.
func InOrder(gates []answers.Gate) []answers.Gate {
	states := []code.GateState{code.NotMet, code.CannotTell, code.Met}
	sorted := slices.Clone(gates)
	slices.SortStableFunc(sorted, func(a, b answers.Gate) int {
		_, first := gateWordsOf(a.Gate)
		_, second := gateWordsOf(b.Gate)
		return cmp.Or(cmp.Compare(slices.Index(states, a.State), slices.Index(states, b.State)), cmp.Compare(first, second))
	})
	return sorted
}

// Folded parts the gates into those that have a row of their own and what is said
// of the others, met gates with nothing to say.
func Folded(d answers.Ready) (rows []answers.Gate, folded []string) {
	for _, g := range InOrder(d.Gates) {
		if said := sayGate(d, g); g.State == code.Met && said.folded != "" {
			folded = append(folded, said.folded)
		} else {
			rows = append(rows, g)
		}
	}
	return rows, folded
}

// MoreMet counts the met gates that are told in one row.
func MoreMet(n int) string { return PluralWord(n, "one other", NumberWord(n)+" others") }

// WantsTitle is the title of what the gates ask: the house's defaults, or the
// policy's where the ledger sets any of them.
func WantsTitle(d answers.Ready) string {
	if allHouse(d.Gates...) {
		return "needed by house default"
	}
	return "needed"
}

// EvidenceTitle is the title of what the ledger has for the gates with what they
// need, and whose values those are.
func EvidenceTitle(d answers.Ready) string {
	title := ColumnInLedger + "; what is needed"
	if allHouse(d.Gates...) {
		title += " by house default"
	}
	return title
}

// GateBrief is what the ledger has for a gate, and what it needs.
func GateBrief(d answers.Ready, g answers.Gate) string {
	return g.Brief + "; needed: " + GateWants(d, g)
}

// GateWants is what a gate asks, with who set it where not all are the house's.
func GateWants(d answers.Ready, g answers.Gate) string {
	switch {
	case allHouse(d.Gates...):
		return g.Wants
	case allHouse(g):
		return g.Wants + " (house default)"
	default:
		return g.Wants + " (set in the ledger)"
	}
}

func allHouse(gates ...answers.Gate) bool {
	return !slices.ContainsFunc(gates, func(g answers.Gate) bool {
		return slices.ContainsFunc(g.Settings, func(s answers.Setting) bool { return !s.House })
	})
}

// SaidLines are somebody's latest words on the pilot, an item each with what they are;
// those of a sign-off that the headline has are not said again.
func SaidLines(d answers.Ready) []string {
	var lines []string
	own := slices.IndexFunc(d.Said, func(said answers.Said) bool { return said.By == d.Name && !said.Signoff })
	if own < 0 {
		own = len(d.Said)
	}
	for _, said := range slices.Concat(d.Said[:own], d.Noted, d.Said[own:]) {
		signed := func(so answers.Number) bool { return so.Name == said.By && so.On == said.Date && so.Text == said.Text }
		if !slices.ContainsFunc(signoffsOf(d), signed) {
			what := "Latest note of " + said.By
			switch {
			case said.Signoff:
				what = "Latest sign-off by " + said.By
			case said.By == d.Name: // a flight's own note, which names no author
				what = "Latest note on a flight"
			}
			lines = append(lines, what+", "+said.Date+": "+Quoted(said.Text))
		}
	}
	return lines
}

// NeedsHeading stands over what would change the gates.
func NeedsHeading(d answers.Ready) string {
	if d.To == "" {
		return "What would change a gate"
	}
	return "What would change it"
}

// FloorNote says how low the category asked about flies; "" where that is not
// known.
func FloorNote(d answers.Ready) string {
	if d.Floor == nil {
		return ""
	}
	ladder, origin := d.Ladder, shippedFloor(d.Ladder, d.To)
	if d.OwnLadder {
		ladder, origin = d.Ladder+", as this ledger has it", "a figure of its own"
	}
	return fmt.Sprintf("floor of %s in ladder %s: %d %s; %s, the rules in force decide", d.To, ladder, d.Floor.Height, d.Floor.Unit, origin)
}

// shippedFloor is where a shipped ladder has a category's floor from, by the mark of
// the value.
func shippedFloor(ladder, category string) string {
	values, err := sources.Values(data.Builtin())
	if err == nil && slices.ContainsFunc(values, func(v sources.Value) bool {
		return v.Block == "ladder "+ladder && strings.HasPrefix(v.Line, "category "+category+" floor ") && v.Mark.Word == sources.Published
	}) {
		return "figures from published pages of various years"
	}
	return "a figure from memory and seen in no source"
}

// GateLine is a gate's state, what it rests on and what it asks.
func GateLine(g answers.Gate) string { return string(g.State) + ": " + GateEvidence(g) }

// GateEvidence is what a gate rests on and what it asks.
func GateEvidence(g answers.Gate) string { return g.Evidence + "; needed: " + g.Asked }

// PolicySaid says for a head line by which policy the page judges.
func PolicySaid(d answers.Ready) string { return "judged by the policy " + d.Policy }

// LadderSaid says for a head line whose order of categories the page goes by.
func LadderSaid(d answers.Ready) string { return "categories as in the ladder " + d.Ladder }
