package ledger

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"boxbook/report/display"
)

// The limits of the language.
const (
	maxLine     = 64 << 10
	maxFile     = 256 << 20
	maxIncludes = 512
)

// file is one text, whole and unchanged, with its lines and tokens.
type file struct {
	name    string // as the person named it
	order   int    // among the files read
	shipped bool   // part of the program
	text    string
	lines   []line
	tokens  []token
	runs    []plainRun
	guesses *guesses // of the whole reading
}

// line is one line of a file. start and end are byte offsets, the end-of-line
// characters apart; first and last bound its tokens. Lines of plain flights are left
// out, so that number is its place in the file, from 0.
type line struct {
	start, end  int32
	first, last int32
	number      int32
	run         int32 // from 1: it stands for that run of plain flights
	broken      bool  // a lexical error was reported: nothing more is said of it
}

// number is a line's place in the file, from 1.
func (f *file) number(n int32) int { return int(f.lines[n].number) + 1 }

// token is a word or a quoted text, by byte offsets, quotes included.
type token struct {
	start, end int32
	line       int32
	quoted     bool
}

const byteOrderMark = "\ufeff"

// scan splits a text into lines and tokens and reports lexical errors. Plain
// flights are left as they are.
func (r *reader) scan(f *file) {
	pos := 0
	if strings.HasPrefix(f.text, byteOrderMark) {
		pos = len(byteOrderMark)
	}
	if !r.opts.carefully && !f.shipped && strings.Contains(f.text, flightWord) {
		r.plainLines(f, pos)
		return
	}
	f.room(len(f.text) - pos)
	r.scanLines(f, pos, len(f.text), 0)
}

// room makes room for the lines and tokens of so many bytes.
func (f *file) room(bytes int) {
	f.lines = make([]line, 0, bytes/24+8)
	f.tokens = make([]token, 0, bytes/6+8)
}

// scanLines splits a part of a text, of which number lines stand before it, into
// lines and tokens, and gives how many lines stand before what follows.
func (r *reader) scanLines(f *file, pos, to int, number int32) int32 {
	for pos < to {
		end, next := to, to
		if i := strings.IndexByte(f.text[pos:to], '\n'); i >= 0 {
			end, next = pos+i, pos+i+1
		}
		if end > pos && f.text[end-1] == '\r' {
			end--
		}
		f.lines = append(f.lines, line{start: int32(pos), end: int32(end), first: int32(len(f.tokens)), number: number})
		r.scanLine(f, len(f.lines)-1)
		f.lines[len(f.lines)-1].last = int32(len(f.tokens))
		pos = next
		number++
	}
	return number
}

// scanLine finds the tokens of one line.
func (r *reader) scanLine(f *file, n int) {
	l := &f.lines[n]
	if l.end-l.start > maxLine {
		r.lexical(f, n, l.start, l.start+1, lineTooLong, maxLine>>10)
		return
	}
	pos := l.start
	for {
		for pos < l.end && (f.text[pos] == ' ' || f.text[pos] == '\t') {
			pos++
		}
		if pos == l.end {
			return
		}
		switch f.text[pos] {
		case '#':
			if r.checkText(f, n, pos, l.end) {
				r.checkUnseen(f, n, pos, l.end)
			}
			return
		case '"':
			pos = r.scanQuoted(f, n, pos)
		default:
			pos = r.scanWord(f, n, pos)
		}
		if l.broken {
			return
		}
	}
}

// scanWord takes characters up to white space. A quote inside a word is an
// error, and so are characters that look like something the language has.
func (r *reader) scanWord(f *file, n int, start int32) int32 {
	l := &f.lines[n]
	pos, odd := start, false
	for pos < l.end {
		c := f.text[pos]
		if c == ' ' || c == '\t' {
			break
		}
		if c == '"' {
			r.lexical(f, n, start, pos+1, quoteInsideWord)
			if beginsBlank(f.text[pos+1 : l.end]) {
				r.list[len(r.list)-1].hinted("a text that ends here begins with a quote too")
			}
			return l.end
		}
		odd = odd || c < 0x20 || c >= 0x7f
		pos++
	}
	if odd && (!r.checkText(f, n, start, pos) || !r.checkWord(f, n, start, pos)) {
		return l.end
	}
	f.tokens = append(f.tokens, token{start: start, end: pos, line: int32(n)})
	return pos
}

// scanQuoted takes a quoted text that closes on its line.
func (r *reader) scanQuoted(f *file, n int, start int32) int32 {
	l := &f.lines[n]
	for pos := start + 1; pos < l.end; pos++ {
		switch f.text[pos] {
		case '\\':
			if pos+1 == l.end || (f.text[pos+1] != '"' && f.text[pos+1] != '\\') {
				_, size := utf8.DecodeRuneInString(f.text[min(pos+1, l.end):l.end])
				r.lexical(f, n, pos, pos+1+int32(size), badEscape)
				return l.end
			}
			pos++
		case '"':
			end := pos + 1
			if end < l.end && f.text[end] != ' ' && f.text[end] != '\t' {
				r.lexical(f, n, end, end+1, textAfterQuote)
				return l.end
			}
			if r.checkText(f, n, start, end) {
				r.checkUnseen(f, n, start, end)
				f.tokens = append(f.tokens, token{start: start, end: end, line: int32(n), quoted: true})
			}
			return end
		}
	}
	r.lexical(f, n, start, l.end, unclosedQuote)
	return l.end
}

// checkText reports bytes that are not UTF-8 and control characters.
func (r *reader) checkText(f *file, n int, start, end int32) bool {
	text := f.text[start:end]
	for i, c := range text {
		at := start + int32(i)
		switch {
		case c == utf8.RuneError && !strings.HasPrefix(text[i:], "\ufffd"):
			r.lexical(f, n, at, at+1, notUTF8, text[i])
			return false
		case (c < 0x20 && c != '\t') || (c >= 0x7f && c < 0xa0 && c != nextLine):
			r.lexical(f, n, at, at+int32(utf8.RuneLen(c)), controlCharacter, c)
			return false
		}
	}
	return true
}

// nextLine is NEL, which ends a line for some programs.
const nextLine = '\u0085'

// checkUnseen warns of the first such character in quoted text or a comment.
func (r *reader) checkUnseen(f *file, n int, start, end int32) {
	text := f.text[start:end]
	i := strings.IndexFunc(text, display.Unseen)
	if i < 0 {
		return
	}
	c, size := utf8.DecodeRuneInString(text[i:])
	at := start + int32(i)
	r.report(span{f, int32(n), at, at + int32(size)}, unseenInText, c)
}

// checkWord reports characters that only look like white space or quotes, and
// such as are not seen.
func (r *reader) checkWord(f *file, n int, start, end int32) bool {
	for i, c := range f.text[start:end] {
		at := start + int32(i)
		to := at + int32(utf8.RuneLen(c))
		if looksLikeQuote(c) && !setsOffThousands(f.text[start:end], i, c) {
			r.lexical(f, n, at, to, curlyQuote, c)
			return false
		}
		switch {
		case c == nextLine:
			r.lexical(f, n, at, to, controlCharacter, c)
			return false
		case looksLikeSpace(c):
			r.lexical(f, n, at, to, oddSpace, c)
			return false
		case display.Unseen(c):
			r.lexical(f, n, at, to, unseenCharacter, c)
			return false
		}
	}
	return true
}

// setsOffThousands reports a curly apostrophe in a word between a digit and three
// others, as in 1’200.00: the number's own reader says more of it.
func setsOffThousands(word string, at int, c rune) bool {
	digit := func(i int) bool { return i >= 0 && i < len(word) && word[i] >= '0' && word[i] <= '9' }
	to := at + utf8.RuneLen(c)
	return strings.ContainsRune(thousandsQuotes, c) && digit(at-1) && digit(to) && digit(to+1) && digit(to+2) && !digit(to+3)
}

const thousandsQuotes = "‘’"

// looksLikeQuote reports a character that people take for a quote.
func looksLikeQuote(c rune) bool { return strings.ContainsRune(curlyQuotes, c) }

const curlyQuotes = "“”„‟«»‘’‚"

// looksLikeSpace reports a character that people take for a space.
func looksLikeSpace(c rune) bool {
	switch c {
	case ' ', '\t':
		return false
	default:
		return unicode.IsSpace(c) || noWidth(c)
	}
}

// noWidth reports a space that takes no room.
func noWidth(c rune) bool { return c == '\u200b' || c == '\u2060' || c == '\ufeff' }

// lexical reports an error of the line's characters and gives the line up.
func (r *reader) lexical(f *file, n int, start, end int32, code Code, args ...any) {
	f.lines[n].broken = true
	s := span{f, int32(n), start, end}
	d := r.report(s, code, args...)
	d.Fixes = s.lexicalFixes(code)
	switch c, _ := utf8.DecodeRuneInString(f.text[start:end]); {
	case code == oddSpace && noWidth(c):
		d.Message, d.Hint = fmt.Sprintf("%U is a space that is not seen and takes no room", c), "delete it"
	case code == badEscape && s.isPath():
		d.Hint = "write / between folder and file"
	}
}

// plainWords are the words of a line whose characters could not be read, as
// they were meant.
func plainWords(text string) []string {
	return strings.FieldsFunc(text, func(c rune) bool {
		return c == ' ' || c == '\t' || c == '"' || looksLikeSpace(c) || looksLikeQuote(c)
	})
}
