package ledger

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"boxbook/data"
	"boxbook/season"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What hints on money propose: lines, another payer, another amount.
var (
	proposedLines  = regexp.MustCompile("`((?:settle|owed) \\d{4}[^`]*)`")
	proposedPayers = regexp.MustCompile(`^who owed \S+ \S+ \S+ then: (.*)$`)
	proposedAmount = regexp.MustCompile(`^(?:what is owed is|did you mean) (\d+\.\d\d(?: [A-Z]{3})?)(?:$|\?)`)
)

// proposals are the ways in which a hint would have a line written, each as the lines that
// it becomes.
func proposals(d *Diagnostic, line string) (all [][]string) {
	words := strings.Fields(line)
	if found := proposedLines.FindAllStringSubmatch(d.Hint, -1); found != nil {
		for _, p := range d.Whose() {
			var lines []string
			for _, f := range found {
				lines = append(lines, strings.Replace(f[1], "WHO", p.Name(), 1))
			}
			all = append(all, lines)
		}
		if len(d.Whose()) == 0 {
			all = append(all, []string{found[0][1]})
		}
	}
	if found := proposedPayers.FindStringSubmatch(d.Hint); found != nil {
		for _, name := range strings.Split(found[1], ", ") {
			all = append(all, []string{strings.Join(append([]string{words[0], words[1], name}, words[3:]...), " ")})
		}
	}
	if found := proposedAmount.FindStringSubmatch(d.Hint); found != nil {
		money := strings.Fields(found[1] + " " + words[5])
		all = append(all, []string{strings.Join(append(append(slices.Clone(words[:4]), money[:2]...), words[6:]...), " ")})
	}
	return all
}

// Whatever a hint proposes for a line of money is read, and clears what it speaks of.
func TestWhatHintsProposeForMoney(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	pick := func(of ...string) string { return of[rng.IntN(len(of))] }
	read := func(lines []string) (*season.Ledger, List) {
		today, _ := season.ParseDate("2026-12-31")
		r, err := Load(Options{Files: Memory{"a.boxbook": strings.Join(lines, "\n") + "\n"}, Main: "a.boxbook", Builtin: data.Builtin(), AsOf: today})
		require.NoError(t, err)
		return r.Ledger, r.Diagnostics
	}
	tried := map[Code]int{}
	for range 2000 {
		lines := []string{"pilot ines", "pilot tobias", "pilot yuki"}
		for range 2 + rng.IntN(5) {
			who := []string{"ines", "tobias", "yuki", "club"}
			rng.Shuffle(4, func(i, j int) { who[i], who[j] = who[j], who[i] })
			member := pick("ines", "tobias", "yuki")
			day := fmt.Sprintf("2026-%02d-%02d", 1+rng.IntN(12), 1+rng.IntN(28))
			of := pick("50.00", "20.00", "12.00", "21.00", "120.00") + " " + pick("EUR", "EUR", "EUR", "CHF")
			said := pick("", "", ` "ines"`, ` "tobias paid"`, ` "from Yuki"`)
			lines = append(lines, pick(
				"cost "+day+" entry "+of+" for "+member+" by club to club",
				"cost "+day+" entry "+of+" for "+member+" by club to club",
				"cost "+day+" entry "+of+" for "+member+" by "+pick("ines", "tobias", "yuki")+" to club",
				"cost "+day+" fuel "+of+" for "+who[0]+" by "+who[1],
				"owed "+day+" "+who[0]+" "+who[1]+" "+of,
				"settle "+day+" "+who[0]+" "+who[1]+" "+of,
				"settle "+day+" "+who[0]+" "+who[1]+" "+of+said,
				"income "+day+" entry "+of+said,
			))
		}
		before, found := read(lines)
		require.NoError(t, found.Err(), strings.Join(lines, "\n"))
		for i := range found {
			d := &found[i]
			for _, instead := range proposals(d, lines[d.Line-1]) {
				tried[d.Code]++
				says := fmt.Sprintf("%s\nline %d: %s\nhint: %s", strings.Join(lines, "\n"), d.Line, d.Message, d.Hint)
				after := slices.Concat(lines[:d.Line-1], instead[:1], lines[d.Line:], instead[1:])
				ledger, again := read(after)
				assert.NoError(t, again.Err(), says)
				for _, e := range again {
					assert.False(t, e.Line == d.Line || e.Line > len(lines), "%s\nstill: %s", says, e.Message)
				}
				if d.Code == billedAgain { // the money is where it was: only the charge is one
					for _, p := range before.Costs {
						if p.At.Line == d.Line && p.By != p.For[0] {
							assert.Equal(t, owes(before, p.For[0].Name(), p.By.Name()), owes(ledger, p.For[0].Name(), p.By.Name()), says)
						}
					}
				}
				if t.Failed() {
					return
				}
			}
		}
	}
	for _, code := range []Code{paidOtherWay, paidTooMuch, incomeFromDebtor, billedAgain, nothingOwed} {
		assert.Greater(t, tried[code], 5, code)
	}
}

// owes is what stands between two in all.
func owes(l *season.Ledger, debtor, creditor string) []season.Money {
	s := season.Standing{}
	for _, p := range season.Postings(l) {
		s.Post(p)
	}
	from, _ := l.PartyNamed(debtor)
	to, _ := l.PartyNamed(creditor)
	return s.Open(from, to)
}
