package commands

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"boxbook/cmd/boxbook/internal/entry"

	"github.com/creack/pty"
	"github.com/stretchr/testify/require"
)

// tableLedger knows the names that the table's examples lean on, and has a
// flight of the examples' name, which waits for a ruling.
const tableLedger = `pilot ines

pilot tobias

coach marek

sequence known-26
  category intermediate
  programme known
  1 8.5.2.1:10 9.1.4.2:4
  2 K 66

contest tarn-open 2026-04-18..2026-04-19
  panel C D

flight 2026-04-18 ines known
  contest tarn-open
  sequence known-26
  1 8 HZ
  2 7 7.5
  note "the first of the season"

flight 2026-04-18 ines practice
  sequence known-26
  aircraft "the club's old one"
  note "two loops"

drill 2026-05-03 ines line-angle "against the horizon"

rate 2026 GBP 1.17 EUR
`

// answerer talks with one kind of entry at a pseudo-terminal and answers by
// the table's examples.
type answerer struct {
	t     *testing.T
	kind  *entry.Kind
	sheet bool // marks by sheet
	lean  bool // what has a default and can be left out is left out
	// step changes what is typed at a question; nil: nothing. What it gives
	// back of the answer's own line is typed in place of it.
	step func(n int, question, answer string) string
	dir  string // "" for a new one

	asked map[string]string
	said  string
	added string
	code  int
	text  string // of the ledger afterwards
}

var (
	lineQuestion  = regexp.MustCompile(`^( ?\d+|   )  K \d+|^sheet [A-Z], `)
	exampleOfLine = regexp.MustCompile(`for example: (.*)`)
)

// run holds the whole conversation, in its own folder.
func (a *answerer) run(args ...string) {
	a.t.Helper()
	if a.dir == "" {
		a.dir = a.t.TempDir()
		require.NoError(a.t, os.WriteFile(filepath.Join(a.dir, "book.boxbook"), []byte(tableLedger), 0o644))
	}
	path := filepath.Join(a.dir, "book.boxbook")
	ptmx, tty, err := pty.Open()
	require.NoError(a.t, err)
	defer ptmx.Close()
	require.NoError(a.t, pty.Setsize(tty, &pty.Winsize{Rows: 50, Cols: 250}))
	s := readmeStreams(nil)
	s.in, s.out, s.err, s.interactive, s.terminal = tty, tty, tty, true, true
	code := make(chan int, 1)
	go func() {
		code <- run(append([]string{"log", a.kind.Name, "-f", path, "--asof", "2026-12-31"}, args...), s)
		_ = tty.Close()
	}()
	if a.asked == nil {
		a.asked = map[string]string{}
	}
	a.talk(ptmx)
	a.code, a.text = <-code, textOf(a.t, path)
	if a.step == nil {
		require.Equal(a.t, exitDone, a.code, a.said)
		a.added = addedTo(a.t, tableLedger, a.text) + "\n" + a.said[strings.LastIndex(a.said, "added "):]
	}
}

// talk answers every question until boxbook ends.
func (a *answerer) talk(ptmx *os.File) {
	a.t.Helper()
	heard := make(chan string)
	go func() {
		defer close(heard)
		b := make([]byte, 1<<16)
		for {
			n, err := ptmx.Read(b)
			heard <- string(b[:n])
			if err != nil {
				return
			}
		}
	}()
	stopped, awaited := false, ""
	for seen, answers := 0, 0; ; {
		select {
		case text, more := <-heard:
			if !more {
				return
			}
			a.said += plainScreen(text)
		case <-time.After(10 * time.Second):
			require.FailNow(a.t, "no question that is known", a.said)
		}
		fresh := a.said[seen:]
		if at := strings.LastIndex(fresh, awaited); at < 0 || awaited != "" && !strings.Contains(fresh[at:], "\n") {
			continue // what was typed ahead is still being read
		}
		question := fresh[strings.LastIndex(fresh, "\n")+1:]
		if stopped || !strings.HasSuffix(question, ": ") {
			continue
		}
		if answer, ok := a.answer(fresh, question); ok {
			seen = len(a.said)
			answers++
			require.Less(a.t, answers, 100, a.said)
			keys := answer + "\r"
			if a.step != nil {
				keys = a.step(answers, question, keys)
			}
			awaited = ""
			if strings.HasPrefix(keys, "back") || strings.HasPrefix(keys, "?\r") && keys != "?\r" {
				awaited = question
			}
			stopped = strings.HasSuffix(keys, "\x03")
			_, err := ptmx.WriteString(keys)
			require.NoError(a.t, err)
		}
	}
}

// answer is what is typed at a question; ok is false where the question is not
// whole yet.
func (a *answerer) answer(fresh, question string) (string, bool) {
	if strings.HasPrefix(question, "write it?") || strings.HasPrefix(question, "continue with it?") {
		return "yes", true
	}
	if lineQuestion.MatchString(question) {
		if found := exampleOfLine.FindStringSubmatch(fresh); found != nil {
			a.asked[map[bool]string{true: "sheet", false: "row"}[strings.HasPrefix(question, "sheet")]] = found[1]
			return found[1], true
		}
		return "?", true
	}
	at := a.field(question)
	if at == nil {
		return "", false
	}
	return a.reply(*at, question), true
}

// field is the field that a question asks for, nil where the kind has none such.
func (a *answerer) field(question string) *entry.Field {
	var at *entry.Field
	for _, f := range a.kind.Fields {
		if strings.HasPrefix(question, f.Asks) || f.Each != "" && strings.HasPrefix(question, f.Each+" ") {
			if at == nil || len(f.Asks) > len(at.Asks) {
				at = &f
			}
		}
	}
	return at
}

func (a *answerer) reply(f entry.Field, question string) string {
	_, again := a.asked[f.Name]
	optional := strings.Contains(question, "for none") || strings.Contains(question, "for no more")
	switch {
	case again && f.Repeat:
		return ""
	case again:
		require.Failf(a.t, "asked twice", "%s\n%s", f.Name, a.said)
	case f.NoFlag:
		return map[bool]string{true: "sheet"}[a.sheet]
	case a.lean && optional && strings.HasSuffix(question, "]: "):
		return "-"
	}
	a.asked[f.Name] = f.Example
	return f.Example
}

// addedTo gives the lines that a text has beyond another.
func addedTo(t *testing.T, before, after string) string {
	t.Helper()
	old := map[string]int{}
	for _, line := range strings.Split(before, "\n") {
		old[line]++
	}
	var added []string
	for _, line := range strings.Split(after, "\n") {
		if old[line]--; old[line] < 0 {
			added = append(added, line)
		}
	}
	require.NotEmpty(t, added)
	return strings.Join(added, "\n")
}

// says reports whether an added text holds a field's value. What is answered by
// yes is written as the field is called; the rows of a figure that was flown
// several times stand on lines of their own.
func says(added string, f entry.Field, value string) bool {
	if value == "yes" {
		value = strings.ReplaceAll(f.Name, "-", " ")
	}
	plain := func(text string) string {
		return " " + strings.ToLower(strings.Join(strings.Fields(strings.NewReplacer(`"`, " ", "/", " ").Replace(text)), " ")) + " "
	}
	for _, part := range strings.Split(value, " / ") {
		if !strings.Contains(plain(added), plain(part)) {
			return false
		}
	}
	return true
}

// TestEveryFlagReachesTheLedger gives each flag of each kind alone at a
// pseudo-terminal: it is not asked again, and it is in the ledger.
func TestEveryFlagReachesTheLedger(t *testing.T) {
	flags := 0
	for _, kind := range entry.Kinds() {
		for _, f := range kind.Fields {
			if f.NoFlag {
				continue
			}
			if flags++; flags%3 > 0 && !raceDetector {
				continue // the slower run has them all
			}
			t.Run(kind.Name+"/"+f.Name, func(t *testing.T) {
				a := &answerer{t: t, kind: &kind}
				a.run("--"+f.Name, f.Example)
				require.True(t, says(a.added, f, f.Example), "%s\n%s", a.added, a.said)
				if f.Lines == nil {
					require.NotContains(t, a.asked, f.Name)
				}
			})
		}
	}
}

// TestEveryAnswerReachesTheLedger answers each question of each kind at a
// pseudo-terminal: it is in the ledger, and there is no field that is never
// asked for.
func TestEveryAnswerReachesTheLedger(t *testing.T) {
	for _, kind := range entry.Kinds() {
		t.Run(kind.Name, func(t *testing.T) {
			asked := map[string]bool{}
			for _, a := range []answerer{{}, {sheet: true}, {lean: true}} {
				a.t, a.kind = t, &kind
				a.run()
				for name, value := range a.asked {
					asked[name] = true
					require.True(t, says(a.added, kind.Field(name), value), "%s %q\n%s\n%s", name, value, a.added, a.said)
				}
			}
			for _, f := range kind.Fields {
				require.Equal(t, !f.FlagOnly, asked[f.Name] || f.NoFlag, "%s is asked for", f.Name)
			}
		})
	}
}

// TestEveryQuestionIsExplained answers ? to each question of each kind first: it is
// explained with what the ledger proposes or an example of its own, and asked again.
func TestEveryQuestionIsExplained(t *testing.T) {
	const end = "back goes to the answer before"
	for _, kind := range entry.Kinds() {
		t.Run(kind.Name, func(t *testing.T) {
			for _, sheet := range []bool{false, true} {
				if sheet && kind.Name != "flight" {
					continue
				}
				a := answerer{t: t, kind: &kind, sheet: sheet}
				asked := 0
				a.step = func(_ int, question, keys string) string {
					switch {
					case keys == "?\r":
						asked++
						return keys
					case strings.HasPrefix(question, "write it?"), lineQuestion.MatchString(question):
						return keys
					}
					asked++
					return "?\r" + keys
				}
				a.run()
				require.Equal(t, exitDone, a.code, a.said)
				parts := strings.Split(a.said, end)
				require.Len(t, parts[1:], asked, a.said)
				for _, part := range parts[:asked] {
					require.Regexp(t, `(for example: \S|there are:)`, part)
				}
			}
		})
	}
	examples := map[string]string{} // a remark on a fault is not one on a cost
	for _, kind := range entry.Kinds() {
		for _, f := range kind.Fields {
			if f.Name == "remark" {
				require.NotContains(t, examples, f.Example, kind.Name)
				examples[f.Example] = kind.Name
			}
		}
	}
}

// TestEveryDraftIsGoneOnWith stops the conversation of each kind at each of its
// questions: the draft takes it up there, and the ledger comes out as if
// nothing had happened.
func TestEveryDraftIsGoneOnWith(t *testing.T) {
	for _, kind := range entry.Kinds() {
		t.Run(kind.Name, func(t *testing.T) {
			whole := answerer{t: t, kind: &kind}
			whole.run()
			a := answerer{t: t, kind: &kind}
			stops := 0
			a.step = func(_ int, question, keys string) string {
				switch {
				case strings.HasPrefix(question, "continue with it?"):
					return "\r"
				case keys == "?\r" || strings.HasPrefix(question, "write it?"):
					return keys
				}
				return keys + "\x03" // stops at the next question, the line of which is empty
			}
			for a.code = exitInterrupted; a.code == exitInterrupted; stops++ {
				require.Less(t, stops, 60, a.said)
				a.run()
			}
			require.Equal(t, exitDone, a.code, a.said)
			require.Greater(t, stops, 2, "it was stopped on the way")
			require.Equal(t, whole.text, a.text, a.said)
			require.Empty(t, draftsIn(t, a.dir))
		})
	}
}

// TestBackGoesToTheAnswerBefore says back at each question of each kind and
// then accepts what stands on the line: the ledger comes out the same.
func TestBackGoesToTheAnswerBefore(t *testing.T) {
	for _, kind := range entry.Kinds() {
		t.Run(kind.Name, func(t *testing.T) {
			whole := answerer{t: t, kind: &kind}
			whole.run()
			a := answerer{t: t, kind: &kind}
			first, backs := "", 0
			a.step = func(_ int, question, keys string) string {
				if first == "" {
					first = question
				}
				if question == first || keys == "?\r" {
					return keys
				}
				backs++
				return "back\r\r" + keys
			}
			a.run()
			require.Equal(t, exitDone, a.code, a.said)
			require.Positive(t, backs)
			require.Equal(t, whole.text, a.text, a.said)
		})
	}
}
