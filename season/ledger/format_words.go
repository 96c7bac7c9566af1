package ledger

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/scoring"
)

// words are a line's words as they are to be written.
func (t *tidier) words(n int) []string {
	l := t.f.lines[n]
	marksFrom, decimals := t.holds(n)
	minus := decimals && t.f.mayBeBelowZero(n)
	words := make([]string, 0, l.last-l.first)
	tokens := t.f.tokens[l.first:l.last]
	for i, tok := range tokens {
		word := t.f.text[tok.start:tok.end]
		switch {
		case tok.quoted || i == 0 || words[i-1] == receiptWord: // a slip's number is as it is
		case marksFrom > 0 && i >= marksFrom:
			word = tidyMark(word)
		case decimals && i+1 < len(tokens) && doubtfulComma(digitsOf(word), t.f.text[tokens[i+1].start:tokens[i+1].end]):
			// a point would settle what only the person can
			word = tidyMinus(word, minus)
		case decimals:
			word = tidyDecimal(tidyMinus(word, minus))
		}
		words = append(words, word)
	}
	return words
}

// holds says from which word on a line has marks, 0 for one that has none, and
// whether its words may be decimals.
func (t *tidier) holds(n int) (marksFrom int, decimals bool) {
	b, key := t.owner[n], t.keyword(n)
	switch {
	case b == nil:
		return 0, false
	case int(b.head) == n:
		return 0, blockSpecs[b.kind].money
	case b.kind == "flight" && key == "sheet":
		return 2, false // the judge's name comes first
	case b.kind == "flight" && isRow(key):
		return 1, false
	default:
		return 0, slices.Contains(blockSpecs[b.kind].decimals, key)
	}
}

// tidyMark writes a mark's letters as capitals, and a grade's comma as a point.
func tidyMark(word string) string {
	if upper := strings.ToUpper(word); isMarkWord(upper) {
		return upper
	}
	return tidyDecimal(word)
}

func isMarkWord(word string) bool {
	_, ok := markWords[word]
	return ok
}

// tidyDecimal writes the comma of a number, or of a fault's amount, as a point.
// Any other word stays.
func tidyDecimal(word string) string {
	if !strings.Contains(word, ",") {
		return word
	}
	_, number := scoring.ParseDecimal(strings.TrimPrefix(word, "-"))
	_, amount := parseAmount(word)
	if !number && !amount {
		return word
	}
	return strings.ReplaceAll(word, ",", ".")
}

// mayBeBelowZero reports whether a line's amount may have the minus that pages print.
func (f *file) mayBeBelowZero(n int) bool {
	return slices.Contains(belowZeroLines, f.word(f.tokens[f.lines[n].first]))
}

// digitsOf is a number without the minus before it.
func digitsOf(word string) string {
	_, digits := minusCut(word)
	return digits
}

// tidyMinus writes the minus that pages print before a number as a hyphen, where one is
// read there.
func tidyMinus(word string, read bool) string {
	digits, printed := strings.CutPrefix(word, printedMinus)
	if _, number := scoring.ParseDecimal(digits); !read || !printed || !number {
		return word
	}
	return "-" + digits
}

// sameWords holds a tidied text against what was typed: line by line the same
// words, but for the case of marks, decimal commas and printed minuses, and the same comments
// and line endings, byte by byte.
func sameWords(name, before, after string) error {
	_, was := alone(name, before)
	_, is := alone(name, after)
	count := len(was.lines)
	if count == len(is.lines)+1 && was.blankEnd() {
		count-- // white space behind the last line's end is no line any more
	}
	if count != len(is.lines) || strings.HasPrefix(before, byteOrderMark) != strings.HasPrefix(after, byteOrderMark) {
		return &lossError{name, 1}
	}
	for n := range count {
		if !sameLine(was, is, n) {
			return &lossError{name, n + 1}
		}
	}
	return nil
}

// blankEnd reports whether a text ends in white space behind its last line's end.
func (f *file) blankEnd() bool {
	l := f.lines[len(f.lines)-1]
	return int(l.end) == len(f.text) && strings.Trim(f.text[l.start:l.end], " \t") == ""
}

func sameLine(was, is *file, n int) bool {
	a, b := was.lines[n], is.lines[n]
	same := was.text[was.commentStart(n):a.end] == is.text[is.commentStart(n):b.end] && was.ending(n) == is.ending(n)
	minus := a.first < a.last && was.mayBeBelowZero(n)
	return same && slices.EqualFunc(was.tokens[a.first:a.last], is.tokens[b.first:b.last], func(x, y token) bool {
		old, now := was.text[x.start:x.end], is.text[y.start:y.end]
		return old == now || (!x.quoted && (tidyDecimal(old) == now || tidyMinus(old, minus) == now || tidyDecimal(tidyMinus(old, minus)) == now || (strings.ToUpper(old) == now && isMarkWord(now))))
	})
}

// lossError says that an edit of the program would have changed what a person
// typed: a defect of the program, stopped before it does harm.
type lossError struct {
	name string
	line int
}

func (e *lossError) Error() string {
	return fmt.Sprintf("%s: line %d would not say what it said; this is a defect of boxbook, and nothing was changed", e.name, e.line)
}
