package ledger

import (
	"slices"
	"strings"

	"boxbook/season"
)

// word is a token's text as typed; for a quoted one its content.
func (f *file) word(tok token) string {
	if !tok.quoted {
		return f.text[tok.start:tok.end]
	}
	text := f.text[tok.start+1 : tok.end-1]
	if strings.IndexByte(text, '\\') < 0 {
		return text
	}
	var b strings.Builder
	for i := 0; i < len(text); i++ {
		if text[i] == '\\' {
			i++
		}
		b.WriteByte(text[i])
	}
	return b.String()
}

// words walks the tokens of one line.
type words struct {
	r    *reader
	f    *file
	line int32
	i    int32 // next token
	last int32 // end of the tokens
	// failed says that something was reported: the rest of the line is given up.
	failed bool
	// spoilt says that something was reported that the rest of the line does not hang
	// on: it is read on, and fails at its end.
	spoilt  bool
	badFrom int      // the first diagnostic of marks that could not be read
	also    []string // words that may stand where a name stands
	ahead   []string // words that may still follow
}

func (r *reader) words(f *file, n int32) *words {
	l := f.lines[n]
	w := r.room.words()
	*w = words{r: r, f: f, line: n, i: l.first, last: l.last, failed: l.broken}
	return w
}

// more reports whether an unread token is left.
func (w *words) more() bool { return w.i < w.last && !w.failed }

// peek gives the next token's text, "" at the end or before quoted text.
func (w *words) peek() string {
	if !w.more() || w.f.tokens[w.i].quoted {
		return ""
	}
	return w.f.word(w.f.tokens[w.i])
}

// next takes the next token whatever it is.
func (w *words) next() token {
	tok := w.f.tokens[w.i]
	w.i++
	return tok
}

// nth is a token of the line, from 0, whatever was taken.
func (w *words) nth(i int32) token { return w.f.tokens[w.f.lines[w.line].first+i] }

// all are the words of the line, whatever was taken.
func (w *words) all() []string {
	var all []string
	for _, tok := range w.f.tokens[w.f.lines[w.line].first:w.last] {
		all = append(all, w.text(tok))
	}
	return all
}

// text is a token's text.
func (w *words) text(tok token) string { return w.f.word(tok) }

// fail reports at a token and gives the rest of the line up.
func (w *words) fail(tok token, code Code, args ...any) *Diagnostic {
	w.failed = true
	return w.r.at(w.f, tok, code, args...)
}

// accept takes the next token if it is this word.
func (w *words) accept(word string) bool {
	if w.peek() != word {
		return false
	}
	w.i++
	return true
}

// word takes the next token, which must not be quoted text; want says in words
// what is expected, for the message.
func (w *words) word(want string) (token, bool) {
	if w.failed {
		return token{}, false
	}
	if w.i >= w.last {
		w.missing(want)
		return token{}, false
	}
	tok := w.next()
	if tok.quoted {
		w.fail(tok, unexpected, w.text(tok), want)
		return token{}, false
	}
	return tok, true
}

// missing reports that the line ended too early, just after its last word.
func (w *words) missing(want string) *Diagnostic {
	last := w.f.tokens[w.i-1]
	w.failed = true
	return w.r.report(span{w.f, w.line, last.end, last.end}, missingWord, want, w.text(last))
}

// absent reports that something is missing where the next token stands; it says
// nothing on a line that was given up, where that may be what could not be read.
func (w *words) absent(want string) {
	switch {
	case w.failed:
	case w.i < w.last:
		tok := w.next()
		w.fail(tok, unexpected, w.text(tok), want)
	default:
		w.missing(want)
	}
}

// after is the place just behind a token, where something is missing.
func after(tok token) token { return token{start: tok.end, end: tok.end, line: tok.line} }

// quoted takes the next token, which must be quoted text.
func (w *words) quoted(want string) (string, token, bool) {
	if w.failed {
		return "", token{}, false
	}
	if w.i >= w.last {
		w.missing(want)
		return "", token{}, false
	}
	tok := w.next()
	if !tok.quoted {
		w.allQuoted(w.fail(tok, unexpected, w.text(tok), want), tok, "put it in quotes: %s")
		return "", token{}, false
	}
	return w.text(tok), tok, true
}

// Quote writes a text as the ledger quotes it.
func Quote(text string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(text) + `"`
}

// end takes the remark that may close any line and reports whatever is left
// over.
func (w *words) end() string {
	remark := w.lastRemark()
	w.failed = w.failed || w.spoilt
	return remark
}

// lastRemark takes the remark at a line's end, and reports what else is left.
func (w *words) lastRemark() string {
	if w.failed || w.i >= w.last {
		return ""
	}
	if tok := w.f.tokens[w.i]; tok.quoted && w.i+1 == w.last {
		w.i++
		return w.text(tok)
	}
	tok := w.next()
	if tok.quoted {
		after := w.next()
		d := w.fail(after, afterRemark, w.text(after))
		if w.text(after) == receiptWord && slices.Contains(w.ahead, receiptWord) {
			d.hinted("put it before the remark: %s", w.f.text[after.start:w.f.tokens[w.last-1].end]+" "+w.f.text[tok.start:tok.end])
		}
		return ""
	}
	d := w.fail(tok, extraWord, w.text(tok))
	if first, last, found := w.daysAround(tok); found {
		d.hinted("%s", spanIs+first+".."+last)
		return ""
	}
	if Nearest(w.text(tok), w.ahead) != "" {
		d.didYouMean(w.text(tok), w.ahead)
		return ""
	}
	rest := w.f.text[tok.start:w.f.tokens[w.last-1].end]
	if d.meantAsComment() || !looksLikeText(rest) {
		return ""
	}
	w.allQuoted(d, tok, "put a remark in quotes: %s")
	who := w.partyIn(w.f.tokens[w.i-1 : w.last])
	if !isSentence(rest) || who != "" {
		d.Fixes = nil
	}
	if first := strings.Fields(rest)[0]; (first == who || slices.Contains(turnsRound, first)) && who != "" && w.text(w.nth(0)) == "income" {
		d.hinted("what %s pays of a bill is a settle: settle DATE %s %s AMOUNT CUR; else %s", who, who, season.ClubName, d.Hint)
	}
	return ""
}

// partyIn is the first of some words of a line of money that is somebody's name, "" where
// none is.
func (w *words) partyIn(rest []token) string {
	if !slices.Contains(moneyVerbs, w.text(w.nth(0))) {
		return ""
	}
	for _, tok := range rest {
		if p, known := w.r.partyNamed(w.text(tok)); known && !p.Club() {
			return p.Name()
		}
	}
	return ""
}

// moneyVerbs begin a line on which money has somebody that it is of.
var moneyVerbs = []string{"cost", "income", "settle", "owed"}

// daysAround are the two dates between which a token stands, the last but one taken.
func (w *words) daysAround(tok token) (first, last string, found bool) {
	if w.i < 2 || w.i >= w.last {
		return "", "", false
	}
	return twoDates(w.text(w.f.tokens[w.i-2]) + w.text(tok)[:1] + w.text(w.f.tokens[w.i]))
}

// slashes begin a comment in other languages.
const slashes = "//"

// meantAsComment takes a word that begins as a comment does elsewhere.
func (d *Diagnostic) meantAsComment() bool {
	s := d.at
	if !strings.HasPrefix(s.f.text[s.start:s.end], slashes) {
		return false
	}
	s.end = s.start + int32(len(slashes))
	d.adviseFor(s, instead("a comment begins with #", "# "))
	return true
}

// particles are the words with which a part of a line begins.
var particles = []string{"at", "by", "each", "felt", "floor", "for", "in", "new", "of", "on", "place", "receipt", "seen", "to", "unknowns"}

// isSentence reports leftover words that can only be a remark: several, and none
// with which another part of a line begins.
func isSentence(rest string) bool {
	words := strings.Fields(rest)
	return len(words) > 1 && !slices.Contains(particles, words[0])
}

// plainly folds white space.
func plainly(text string) string { return strings.Join(strings.Fields(text), " ") }

// looksLikeText reports whether leftover words are a remark without quotes.
func looksLikeText(rest string) bool {
	letters := 0
	for _, r := range rest {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r > 0x7f {
			letters++
		}
	}
	return letters*2 > len([]rune(rest)) && letters > 2 && !strings.ContainsRune(rest, '"')
}
