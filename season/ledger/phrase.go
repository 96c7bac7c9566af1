package ledger

import "strings"

// Words cuts a text as a line of the ledger is cut; quoted words keep their
// quotes. It is not ok where the text is not a part of one line: where it has
// a line's end, a comment, quotes that do not close or characters that no line
// may have.
func Words(text string) (words []string, ok bool) {
	if strings.ContainsAny(text, "\r\n") {
		return nil, false
	}
	r := newReader(Options{})
	r.addLine("x " + text) // behind a key, as in a body
	f := r.files[0]
	l := f.lines[0]
	if l.broken || f.commentStart(0) != l.end {
		return nil, false
	}
	for _, tok := range f.tokens[l.first+1 : l.last] {
		words = append(words, f.text[tok.start:tok.end])
	}
	return words, true
}
