package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"boxbook/season/ledger"

	"golang.org/x/term"
)

// errInterrupted says that the person stopped the conversation.
var errInterrupted = errors.New("stopped; nothing was written")

// prompter asks a person at a terminal, a line at a time.
type prompter struct {
	line    *term.Terminal
	keys    *keyReader
	restore func() error
}

// keyReader hands keys to the line editor. Ctrl-C ends the line as it stands,
// so that what was typed so far is not lost; pushed text is as if typed.
type keyReader struct {
	in          io.Reader
	pushed      []byte
	interrupted bool
}

const (
	keyCtrlC = 3
	keyEnter = '\r'
)

func (k *keyReader) Read(b []byte) (int, error) {
	if len(k.pushed) > 0 {
		n := copy(b, k.pushed)
		k.pushed = k.pushed[n:]
		return n, nil
	}
	n, err := k.in.Read(b)
	if at := slices.Index(b[:n], keyCtrlC); at >= 0 {
		k.interrupted = true
		b[at] = keyEnter
		return at + 1, nil
	}
	return n, err
}

// terminalPair is one terminal's two sides.
type terminalPair struct {
	io.Reader
	io.Writer
}

// newPrompter takes the terminal over; close gives it back.
func newPrompter(s *streams) (*prompter, error) {
	p := &prompter{keys: &keyReader{in: s.in}, restore: func() error { return nil }}
	p.line = term.NewTerminal(terminalPair{p.keys, s.out}, "")
	if in, ok := s.in.(*os.File); ok && term.IsTerminal(int(in.Fd())) {
		state, err := term.MakeRaw(int(in.Fd()))
		if err != nil {
			return nil, &fileError{"read the terminal", err}
		}
		p.restore = func() error { return term.Restore(int(in.Fd()), state) }
		if width, height, err := term.GetSize(int(in.Fd())); err == nil && width > 0 {
			_ = p.line.SetSize(width, height) //nolint:errcheck // a wrong width only wraps oddly
		}
	}
	return p, nil
}

func (p *prompter) close() error { return p.restore() }

// say prints a line of its own.
func (p *prompter) say(format string, args ...any) {
	fmt.Fprintf(p.line, format+"\n", args...)
}

// read asks for one line. typed is put on the line beforehand, to be changed or
// accepted. When the person stops, what was typed so far comes with
// errInterrupted.
func (p *prompter) read(prompt, typed string) (string, error) {
	p.line.SetPrompt(prompt)
	p.keys.pushed = append(p.keys.pushed, typed...)
	text, err := p.line.ReadLine()
	switch {
	case p.keys.interrupted:
		return text, errInterrupted
	case errors.Is(err, io.EOF):
		return "", errInterrupted
	case err != nil && !errors.Is(err, term.ErrPasteIndicator):
		return "", &fileError{"read the terminal", err}
	}
	return strings.TrimSpace(text), nil
}

// yesNo reads an answer to a question of yes or no, in one way for flags and
// answers; ok is false where it is neither.
func yesNo(text string) (yes, ok bool) {
	text = strings.ToLower(strings.TrimSpace(text))
	switch {
	case text == "":
		return false, false
	case strings.HasPrefix("yes", text), strings.HasPrefix("ok", text), text == "true", text == "1":
		return true, true
	default:
		return false, strings.HasPrefix("no", text) || text == "false" || text == "0"
	}
}

// neitherYesNorNo says what is wrong with an unclear answer.
func neitherYesNorNo(text string) string { return fmt.Sprintf("%q is neither yes nor no", text) }

// checkYesNo gives an answer of yes or no as it is kept.
func checkYesNo(text string) (answer, problem string) {
	yes, ok := yesNo(text)
	switch {
	case !ok:
		return "", neitherYesNorNo(text)
	case yes:
		return "yes", ""
	default:
		return "no", ""
	}
}

// proposed is how many proposals are shown at a prompt.
const proposed = 6

// listed is a question with the first of what is known.
func listed(what string, known []string) string {
	if len(known) == 0 {
		return what
	}
	shown := known[:min(proposed, len(known))]
	text := what + " (" + strings.Join(shown, ", ")
	if len(known) > len(shown) {
		text += " ..."
	}
	return text + ")"
}

// choose checks an answer against what is known: an exact name, or the
// beginning of only one.
func choose(text string, known []string) (string, bool) {
	if slices.Contains(known, text) {
		return text, true
	}
	var found []string
	for _, k := range known {
		if strings.HasPrefix(k, text) {
			found = append(found, k)
		}
	}
	if len(found) == 1 {
		return found[0], true
	}
	return ledger.Nearest(text, known), false
}
