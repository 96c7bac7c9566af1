package ledger

import (
	"cmp"
	"slices"
	"strings"
	"unicode/utf8"
)

// Fix is an edit of one line: the characters from Column up to EndColumn, that
// one not among them, give way to Text. Where both are one, Text goes between
// two characters. Columns count characters from 1, as a diagnostic's do.
type Fix struct {
	Line      int
	Column    int
	EndColumn int
	Text      string
}

// advice is what to do about a diagnostic. The hint on the screen and the edit
// are made from one text, so that they cannot say two things.
type advice struct {
	hint    string
	text    string // takes the place of the words at fault
	certain bool   // there is one reading, and text is it
}

// hint is advice that leaves the edit to the person: there are several
// readings, or none that a program could write.
func hint(words string) advice { return advice{hint: words} }

// instead is advice with one reading: text takes the place of the words at fault.
// In form %s stands for it, if the hint shows it at all.
func instead(form, text string) advice {
	return advice{hint: strings.Replace(form, "%s", text, 1), text: text, certain: true}
}

// unless makes the edit a mere hint where another reading is as likely.
func (a advice) unless(other bool) advice {
	a.certain = a.certain && !other
	return a
}

// or is the advice itself, another one where it says nothing.
func (a advice) or(other advice) advice {
	if a.hint == "" {
		return other
	}
	return a
}

// below is advice on a number for one with a minus before it.
func (a advice) below(minus string) advice {
	if a.text != "" {
		a.hint = strings.Replace(a.hint, a.text, minus+a.text, 1)
		a.text = minus + a.text
	}
	return a
}

// advise sets a diagnostic's hint and the edit of its span.
func (d *Diagnostic) advise(a advice) { d.adviseFor(d.at, a) }

// adviseFor sets a diagnostic's hint and the edit, of a span other than its own.
func (d *Diagnostic) adviseFor(s span, a advice) {
	d.Hint, d.Fixes = a.hint, nil
	if a.certain {
		d.Fixes = []Fix{s.fix(a.text)}
	}
}

// Places is how many places the edits are of: those of the diagnostics alike in its
// file are made with its own.
func (d Diagnostic) Places() int {
	n := min(1, len(d.Fixes))
	for _, other := range d.Alike() {
		if other.order == d.order && n > 0 {
			n += min(1, len(other.Fixes))
		}
	}
	return n
}

// fix is the edit that puts a text in the place of a span.
func (s span) fix(text string) Fix {
	start := s.f.lines[s.line].start
	column := utf8.RuneCountInString(s.f.text[start:s.start]) + 1
	return Fix{
		Line: s.f.number(s.line), Column: column,
		EndColumn: column + utf8.RuneCountInString(s.f.text[s.start:s.end]), Text: text,
	}
}

// to is the span from the start of one token to the end of the line's last.
func (w *words) to(tok token) span {
	return span{w.f, tok.line, tok.start, w.f.tokens[w.last-1].end}
}

// allQuoted makes a text of the rest of a line. Where quotes stand in the rest
// already, where they should have been cannot be told.
func (w *words) allQuoted(d *Diagnostic, tok token, form string) {
	s := w.to(tok)
	rest := s.f.text[s.start:s.end]
	a := instead(form, Quote(plainly(strings.Trim(rest, "'"))))
	d.adviseFor(s, a.unless(strings.ContainsAny(rest, `"'`)))
}

// ApplyFixes gives a text with the edits of diagnostics made, and which of them
// were: those of one diagnostic are made all or not at all, and not where they
// touch what an earlier one has changed. Every other character stays as it is.
func ApplyFixes(text string, list List) (string, List) {
	var made List
	var edits []Fix
	for _, d := range list {
		if len(d.Fixes) > 0 && !slices.ContainsFunc(d.Fixes, func(f Fix) bool { return f.meets(edits) }) {
			made, edits = append(made, d), append(edits, d.Fixes...)
		}
	}
	slices.SortFunc(edits, func(a, b Fix) int { return cmp.Or(cmp.Compare(b.Line, a.Line), cmp.Compare(b.Column, a.Column)) })
	rest, mark := strings.CutPrefix(text, byteOrderMark)
	lines := strings.SplitAfter(rest, "\n")
	for _, f := range edits {
		if f.Line <= len(lines) {
			lines[f.Line-1] = f.apply(lines[f.Line-1])
		}
	}
	if text = strings.Join(lines, ""); mark {
		text = byteOrderMark + text
	}
	return text, made
}

// meets reports whether an edit touches one of others.
func (f Fix) meets(others []Fix) bool {
	return slices.ContainsFunc(others, func(o Fix) bool {
		return o.Line == f.Line && o.Column <= f.EndColumn && f.Column <= o.EndColumn
	})
}

// apply makes the edit in its line.
func (f Fix) apply(line string) string {
	from := runeOffset(line, f.Column-1)
	to := from + runeOffset(line[from:], f.EndColumn-f.Column)
	return line[:from] + f.Text + line[to:]
}

// runeOffset is where the nth character of a text begins, from 0, in bytes.
func runeOffset(text string, n int) int {
	at := 0
	for ; n > 0 && at < len(text); n-- {
		_, size := utf8.DecodeRuneInString(text[at:])
		at += size
	}
	return at
}
