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

// CompleteLine puts the words that a body line has behind its second one behind the
// second word of the block's line with the same first word: `official 540.49 of 800`
// makes `official 540.49` whole. Nothing else changes. The error is an *InvalidError
// where the text, or the line, is not of the language.
func CompleteLine(text string, to Target, line string) (string, error) {
	laid, f, b, err := to.open(text, line)
	if err != nil {
		return "", err
	}
	named := strings.Fields(laid)
	for _, n := range b.body {
		l := f.lines[n]
		if words := f.tokens[l.first:l.last]; len(words) > 1 && len(named) > valueWords && f.word(words[0]) == named[0] {
			at := words[1].end
			return f.text[:at] + " " + strings.Join(named[valueWords:], " ") + f.text[at:], nil
		}
	}
	return "", fmt.Errorf("%s %q has no line %q to complete", to.Kind, to.Name, named[0])
}

// valueWords are the key of a line and the one word behind it.
const valueWords = 2

// Complete changes one file of a ledger on disk, as Edit does, by an edit that adds
// lines and completes some: all others must stay as they are.
func Complete(opts Options, path string, edit func(text string) (string, error)) error {
	return write(opts, path, edit, func(before, after string) error {
		if n := lostLineBut(before, after, completed); n > 0 {
			return &lossError{path, n}
		}
		return nil
	})
}

// completed reports whether a line is another one that was given its `of`.
func completed(line, now string) bool {
	line, now = strings.TrimRight(line, "\r\n"), strings.TrimRight(now, "\r\n")
	more := len(now) - len(line)
	for at := len(line); more > 0 && at > 0; at-- {
		if strings.HasPrefix(now[at:], " of ") && now[:at] == line[:at] && now[at+more:] == line[at:] {
			return true
		}
	}
	return false
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
