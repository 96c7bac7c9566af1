package commands

import (
	"bytes"
	"encoding/json"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The states of a gate and the verdicts, as the contract words them.
const (
	gateMet, gateNotMet, gateCannotTell          = "met", "not met", "cannot tell"
	verdictReady, verdictNotYet, verdictNotKnown = "ready", "not yet", "cannot tell"
)

// lieGateWords are the words by which a headline may name a gate: its key, its
// name on the screen, or what is missing for it.
var lieGateWords = map[string]string{
	"signoff": "sign-off|signoff", "flights": "flights|flight", "forecast": "forecast|score at",
	"new-families": "new families|new-families|graded elements|graded element|not in this aircraft",
	"threshold":    "level|threshold|of the flights, beyond chance", "figure-floor": "figures|figure-floor", "zeros": "zeros|zero",
	"lows": "low penalties|low penalty|lows", "unknowns": "unknowns|unknown", "steps": "no step skipped|steps|skips|skipped",
	"open-matters": "open matters|open matter|open safety matters|open-matters", "current": "recency|current|since the last flight|a flight within",
}

// lieGate is a gate as the JSON has it.
type lieGate struct {
	Gate, State, Evidence, Needs string
	Counts                       *bool
}

func (g lieGate) counts() bool { return g.Counts == nil || *g.Counts }

// lieAnswer is what the command says: its JSON, and its page for people.
type lieAnswer struct {
	From, To, Policy, Ladder, Verdict, Caution string
	Off, Missing, Against                      []string
	Said                                       []struct{ Date, By, Text string }
	Gates                                      []lieGate

	code      int
	page      string
	complaint string
}

// TestReadyLies holds `ready` against ledgers that try to talk it round, written
// from its contract alone.
func TestReadyLies(t *testing.T) { holdCases(t, "lies-*.txt") }

// TestReadyReadings are lies that rest on a reading of the contract, which
// stands beside each.
func TestReadyReadings(t *testing.T) { holdCases(t, "readings.txt") }

// TestReadyHonest are ledgers that must be ready, so that nothing is refused for
// caution's sake alone.
func TestReadyHonest(t *testing.T) { holdCases(t, "honest.txt") }

func holdCases(t *testing.T, pattern string) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(readyCases, pattern))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	seen := map[string]bool{}
	for _, file := range files {
		for _, c := range readCases(t, file) {
			require.False(t, seen[c.name], "two cases are called %s", c.name)
			seen[c.name] = true
			t.Run(c.name, c.hold)
		}
	}
}

// hold asks the command and compares its answer with what the contract says.
func (c lieCase) hold(t *testing.T) {
	text := c.book.text(t)
	code, _, complaint := onBook(text, "check", "--asof", "2026-12-31")
	require.Equal(t, exitDone, code, "the ledger has errors: %s", complaint)
	a := c.answer(t, text)
	t.Run("verdict", func(t *testing.T) { c.holdVerdict(t, a) })
	if a.code == exitDone && a.To != "" {
		t.Run("whole", a.holdWhole)
	}
	for _, line := range c.want {
		t.Run(line, func(t *testing.T) { a.hold(t, line) })
	}
}

// answer runs the command twice: for its JSON and for its page.
func (c lieCase) answer(t *testing.T, text string) (a lieAnswer) {
	t.Helper()
	code, raw, complaint := onBook(text, append(slices.Clone(c.ask), "--format", "json")...)
	if code == exitDone {
		require.NoError(t, json.Unmarshal([]byte(raw), &a))
	}
	a.code, a.complaint = code, complaint
	_, a.page, _ = onBook(text, c.ask...)
	return a
}

// onBook runs a command on a ledger that comes in on standard input.
func onBook(text string, args ...string) (code int, out, complaint string) {
	var stdout, stderr bytes.Buffer
	s := &streams{
		in: strings.NewReader(text), out: &stdout, err: &stderr, env: func(string) string { return "" }, width: 140,
		now: demoDay,
	}
	code = run(append(slices.Clone(args), "-f", "-"), s)
	return code, stdout.String(), stderr.String()
}

// holdVerdict holds the verdict; "refused" is wrong usage, "not ready" any verdict
// but ready, a refusal too.
func (c lieCase) holdVerdict(t *testing.T, a lieAnswer) {
	t.Helper()
	switch c.verdict {
	case "refused":
		assert.Equal(t, exitUsage, a.code, "verdict %s", a.Verdict)
	case "not ready":
		assert.NotEqual(t, verdictReady, a.Verdict)
		assert.LessOrEqual(t, a.code, exitUsage, a.complaint)
	default:
		assert.Equal(t, exitDone, a.code, a.complaint)
		assert.Contains(t, strings.Split(c.verdict, "|"), a.Verdict, "%+v", a.Gates)
	}
}

// holdWhole holds what is so of every answer: the verdict follows from the
// gates that count, what is missing are those not met; the
// headline names the verdict, what is missing and what is switched off; and the
// caution stands.
func (a lieAnswer) holdWhole(t *testing.T) {
	verdict, missing := verdictReady, []string{}
	for _, g := range a.Gates {
		if !g.counts() || g.State == gateMet {
			continue
		}
		missing = append(missing, g.Gate)
		if g.State == gateNotMet {
			verdict = verdictNotYet
		} else if assert.Equal(t, gateCannotTell, g.State, g.Gate); verdict == verdictReady {
			verdict = verdictNotKnown
		}
	}
	assert.NotEmpty(t, a.Gates)
	assert.Equal(t, verdict, a.Verdict)
	assert.ElementsMatch(t, missing, a.Missing, "missing")
	assert.Contains(t, a.Caution, "instructor")
	assert.Contains(t, inOneLine(a.page), inOneLine(a.Caution))
	assert.NotRegexp(t, safeWord, a.page)
	holdWords(t, "the headline", a.texts()["head"], asQuoted(a.Verdict))
	for _, gate := range slices.Concat(a.Missing, a.Off) {
		holdWords(t, "the headline", a.texts()["head"], asQuoted(lieGateWords[gate]))
	}
}

func asQuoted(words string) string { return `"` + words + `"` }

func inOneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

var (
	quotedWords = regexp.MustCompile(`"([^"]+)"`)
	pageBody    = regexp.MustCompile(`(?m)^(Gates$|gate  )`)
)

// hold holds one line of what a case wants: "KEY: VALUE", where KEY is `from`,
// `to`, `policy`, `ladder`; `off`, `missing`, `on` (not off), `known` (not
// missing) with names of gates; `against`, `said`, `page`, `head` (the page above
// its gates) or `error` with "words" that stand there; or a gate, with its state and "words"
// of its evidence. A "|" parts what may stand instead.
func (a lieAnswer) hold(t *testing.T, line string) {
	t.Helper()
	key, value, found := strings.Cut(line, ":")
	require.True(t, found, line)
	value = strings.TrimSpace(value)
	plain := map[string]string{"from": a.From, "to": a.To, "policy": a.Policy, "ladder": a.Ladder}
	names := map[string][]string{"off": a.Off, "missing": a.Missing, "on": a.Off, "known": a.Missing}
	if have, isPlain := plain[key]; isPlain {
		assert.Equal(t, value, have, key)
	} else if have, isNames := names[key]; isNames {
		for _, name := range strings.Fields(value) {
			want := key == "off" || key == "missing"
			assert.Equal(t, want, slices.Contains(have, name), "%s: %v", line, have)
		}
	} else if where, isText := a.texts()[key]; isText {
		holdWords(t, key, where, value)
	} else {
		a.holdGate(t, key, value)
	}
}

// texts are the parts of an answer that are searched for words.
func (a lieAnswer) texts() map[string]string {
	head := a.page
	if place := pageBody.FindStringIndex(head); place != nil {
		head = head[:place[0]]
	}
	var said []string
	for _, s := range a.Said {
		said = append(said, s.Date+" "+s.By+" "+s.Text)
	}
	return map[string]string{
		"against": strings.Join(a.Against, "\n"), "said": strings.Join(said, "\n"), "page": a.page, "head": head,
		"error": a.complaint,
	}
}

// holdWords holds that each of the quoted words, or one of those parted by "|",
// stands in a text, in any case of letters.
func holdWords(t *testing.T, where, text, quoted string) {
	t.Helper()
	have := strings.ToLower(inOneLine(text))
	for _, words := range quotedWords.FindAllStringSubmatch(quoted, -1) {
		stands := slices.ContainsFunc(strings.Split(words[1], "|"), func(one string) bool {
			return standsIn(have, strings.ToLower(one))
		})
		assert.True(t, stands, "%s lacks %q: %s", where, words[1], have)
	}
}

// standsIn says whether whole words stand in a text.
func standsIn(text, words string) bool {
	return regexp.MustCompile(`(^|[^\pL\d])` + regexp.QuoteMeta(words) + `($|[^\pL\d])`).MatchString(text)
}

// holdGate holds a gate's state ("not counted" is one that only stands there as
// evidence, "not asked" one that may be gone) and the words of its evidence.
func (a lieAnswer) holdGate(t *testing.T, gate, want string) {
	t.Helper()
	states, _, _ := strings.Cut(want, `"`)
	place := slices.IndexFunc(a.Gates, func(g lieGate) bool { return g.Gate == gate })
	if place < 0 {
		assert.Contains(t, states, "not asked", "no gate is called %s", gate)
		return
	}
	g := a.Gates[place]
	state := g.State
	if !g.counts() {
		assert.Equal(t, gateCannotTell, g.State)
		state = "not counted"
	}
	assert.Contains(t, strings.Split(strings.TrimSpace(states), "|"), state, "%s: %s", gate, g.Evidence)
	holdWords(t, gate, g.Evidence+"\n"+g.Needs, want[len(states):])
}
