package ledger

import (
	"fmt"
	"strings"
)

// RenewLine puts a body line of a block in the place of the one with the same
// first two words, which names what is said anew: `expires medical`. A comment
// behind it stays, and nothing else changes. The error is an *InvalidError where
// the text, or the line, is not of the language.
func RenewLine(text string, to Target, line string) (string, error) {
	laid, f, b, err := to.open(text, line)
	if err != nil {
		return "", err
	}
	named := strings.Fields(line)
	for _, n := range b.body {
		l := f.lines[n]
		if words := f.tokens[l.first:l.last]; len(words) > 1 && len(named) > 1 && f.word(words[0]) == named[0] && f.word(words[1]) == named[1] {
			return f.text[:words[0].start] + laid + f.text[words[len(words)-1].end:], nil
		}
	}
	return "", fmt.Errorf("%s %q has no line %q", to.Kind, to.Name, strings.Join(named[:min(2, len(named))], " "))
}

// Renew changes one file of a ledger on disk, as Edit does, by an edit in which
// one line takes the place of another: all others must stay as they are.
func Renew(opts Options, path string, edit func(text string) (string, error)) error {
	return write(opts, path, edit, func(before, after string) error {
		old, now := strings.SplitAfter(before, "\n"), strings.SplitAfter(after, "\n")
		changed := 0
		for n := range old {
			if n >= len(now) || old[n] != now[n] {
				changed++
			}
			if changed > 1 || len(old) != len(now) {
				return &lossError{path, n + 1}
			}
		}
		return nil
	})
}
