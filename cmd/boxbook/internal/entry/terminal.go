package entry

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"golang.org/x/term"
)

// ErrStopped says that the person stopped the conversation.
var ErrStopped = errors.New("stopped; nothing was written")

// Terminal asks a person at a terminal, a line at a time.
type Terminal struct {
	line    *term.Terminal
	keys    *keyReader
	restore func() error
	width   int // in columns
	// Commands gives a text with its commands to run as they may be pasted, nil as
	// they stand.
	Commands func(text string) string
}

// keyReader hands keys to the line editor, no more than a line at once: what
// was typed ahead is for the next question, behind the text that is pushed
// there as if it was typed. Ctrl-C ends the line as it stands, so that what was
// typed so far is not lost. A tab, which stands between pasted cells, is a space:
// the line editor would drop it and run the cells together.
type keyReader struct {
	in          io.Reader
	pushed      []byte
	ahead       []byte
	interrupted bool
	// selected says that a key which begins a word takes the place of what was
	// pushed.
	selected bool
}

const (
	keyCtrlC    = 3
	keyEnter    = '\r'
	keyLineFeed = '\n'
	keyClear    = 21 // Ctrl-U: clears the line
	keyErase    = 127
)

func (k *keyReader) Read(b []byte) (int, error) {
	if len(k.pushed) > 0 {
		n := copy(b, k.pushed)
		k.pushed = k.pushed[n:]
		return n, nil
	}
	if len(k.ahead) == 0 {
		n, err := k.in.Read(b)
		k.ahead = append(k.ahead, bytes.ReplaceAll(b[:n], []byte{'\t'}, []byte{' '})...)
		if n == 0 {
			return 0, err
		}
	}
	if first := k.ahead[0]; k.selected {
		k.selected = false
		if first > ' ' && first != keyErase {
			b[0] = keyClear
			return 1, nil
		}
	}
	if k.ahead[0] == keyCtrlC {
		k.interrupted = true
		b[0] = keyEnter
		return 1, nil
	}
	end := len(k.ahead)
	if at := slices.Index(k.ahead, keyCtrlC); at >= 0 {
		end = at
	}
	if at := slices.Index(k.ahead[:end], keyEnter); at >= 0 {
		end = at + 1
	}
	n := copy(b, k.ahead[:end])
	k.ahead = k.ahead[n:]
	if b[n-1] == keyEnter && len(k.ahead) > 0 && k.ahead[0] == keyLineFeed { // one line's end, not an empty answer
		k.ahead = k.ahead[1:]
	}
	return n, nil
}

// terminalPair is one terminal's two sides.
type terminalPair struct {
	io.Reader
	io.Writer
}

// NewTerminal takes the terminal over; Close gives it back.
func NewTerminal(in io.Reader, out io.Writer) (*Terminal, error) {
	p := &Terminal{keys: &keyReader{in: in}, restore: func() error { return nil }, width: 80}
	p.line = term.NewTerminal(terminalPair{p.keys, out}, "")
	if in, ok := in.(*os.File); ok && term.IsTerminal(int(in.Fd())) {
		state, err := term.MakeRaw(int(in.Fd()))
		if err != nil {
			return nil, &FileError{"read the terminal", err}
		}
		p.restore = func() error { return term.Restore(int(in.Fd()), state) }
		if width, height, err := term.GetSize(int(in.Fd())); err == nil && width > 0 {
			p.width = width
			_ = p.line.SetSize(width, height) //nolint:errcheck // a wrong width only wraps oddly
		}
	}
	return p, nil
}

// Close gives the terminal back.
func (p *Terminal) Close() error { return p.restore() }

// say prints a line of its own, or several: none is wider than the terminal where
// it can be broken between words.
func (p *Terminal) say(format string, args ...any) {
	for line := range strings.SplitSeq(fmt.Sprintf(format, args...), "\n") {
		line = p.commands(line)
		if strings.HasPrefix(strings.TrimSpace(line), "boxbook ") {
			fmt.Fprintln(p.line, line) // a command to be copied
			continue
		}
		fmt.Fprintln(p.line, strings.Join(broken(line, p.width), "\n"))
	}
}

func (p *Terminal) commands(text string) string {
	if p.Commands == nil {
		return text
	}
	return p.Commands(text)
}

// whole prints a line that stays in one piece however narrow the terminal is: a command
// to be copied.
func (p *Terminal) whole(line string) { fmt.Fprintln(p.line, p.commands(line)) }

// ask asks for one line like read. What a long question says beside what it asks for
// stands on a line before it, so that the answer has room.
func (p *Terminal) ask(prompt, typed string, selected bool) (string, error) {
	above, prompt := roomy(prompt, p.width)
	if above != "" {
		p.say("%s", above)
	}
	return p.read(prompt, typed, selected)
}

// read asks for one line. typed is put on the line beforehand, to be changed or
// accepted; where it is selected, typing replaces it. When the person stops, what was typed so far comes with
// ErrStopped.
func (p *Terminal) read(prompt, typed string, selected bool) (string, error) {
	p.line.SetPrompt(prompt)
	p.keys.selected = selected && typed != ""
	p.keys.pushed = append(p.keys.pushed, typed...)
	text, err := p.line.ReadLine()
	switch {
	case p.keys.interrupted:
		return text, ErrStopped
	case errors.Is(err, io.EOF):
		return "", ErrStopped
	case err != nil && !errors.Is(err, term.ErrPasteIndicator):
		return "", &FileError{"read the terminal", err}
	}
	return strings.TrimSpace(text), nil
}

// YesNo asks until the answer is yes or no; `?` says what they do. The error is
// ErrStopped where the person stops instead.
func (p *Terminal) YesNo(question, help string) (bool, error) {
	for {
		answer, err := p.ask(question+" (yes, no): ", "", false)
		if err != nil {
			return false, err
		}
		if yes, ok := yesNo(answer); ok {
			return yes, nil
		}
		if answer == "?" {
			p.say("  %s", help)
			continue
		}
		p.say("  %s", neitherYesNorNo(answer))
	}
}

// yesNo reads an answer to a question of yes or no; ok is false where it is
// neither.
func yesNo(text string) (yes, ok bool) {
	switch text = strings.ToLower(strings.TrimSpace(text)); text {
	case "1":
		return true, true
	case "0":
		return false, true
	default:
		return saidYesNo(text)
	}
}

// saidYesNo reads such an answer in words alone: where yes writes, a number is one typed
// a question too early.
func saidYesNo(text string) (yes, ok bool) {
	text = strings.ToLower(strings.TrimSpace(text))
	switch {
	case text == "":
		return false, false
	case strings.HasPrefix("yes", text), strings.HasPrefix("ok", text), text == "true":
		return true, true
	default:
		return false, strings.HasPrefix("no", text) || text == "false"
	}
}

// isYes reports whether a text is yes where no other answer may be one.
func isYes(text string) bool {
	return slices.Contains([]string{"yes", "y"}, strings.ToLower(strings.TrimSpace(text)))
}

// isNo reports whether a text is no where no other answer may be one.
func isNo(text string) bool {
	return slices.Contains([]string{"no", "n"}, strings.ToLower(strings.TrimSpace(text)))
}

// neitherYesNorNo says what is wrong with an unclear answer.
func neitherYesNorNo(text string) string { return fmt.Sprintf("%q is neither yes nor no", text) }
