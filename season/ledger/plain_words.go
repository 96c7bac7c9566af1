package ledger

import (
	"slices"
	"strings"
	"unicode/utf8"

	"boxbook/report/display"
	"boxbook/scoring"
)

// fact keeps a line for when names are known: its words are plain, and its texts in
// quotes as they are.
func (s *plainScanner) fact(fl *plainFlight, key string, pos int) (int, bool) {
	n := slices.Index(plainKeys, key)
	if n < 0 || plainKey(n) < plainPenalty && fl.has(plainKey(n)) {
		return 0, false
	}
	fl.once |= 1 << n
	end, next, ok := s.wordsOfLine(pos)
	s.facts = append(s.facts, plainFact{plainKey(n), int32(pos), int32(end)})
	return next, ok
}

// has reports whether the flight has a line that may stand once.
func (fl *plainFlight) has(key plainKey) bool { return fl.once>>key&1 == 1 }

// wordsOfLine passes over the words of a line, to the blanks behind the last one,
// and over the line's end.
func (s *plainScanner) wordsOfLine(pos int) (end, next int, ok bool) {
	text := s.text
	for end = pos; ; {
		c := text[pos]
		for c == ' ' || c == '\t' {
			pos++
			c = text[pos]
		}
		switch c {
		case '\n', '\r', '#':
			next, ok = s.lineEnd(pos)
			return end, next, ok
		case '"':
			if pos, ok = s.quoted(pos); !ok {
				return 0, 0, false
			}
		default:
			for c > ' ' && c < 0x7f && c != '"' {
				pos++
				c = text[pos]
			}
			if !ends(c) {
				return 0, 0, false
			}
		}
		end = pos
	}
}

// quoted passes over a text in quotes that holds what it says: nothing is escaped,
// controls nothing, and can be seen.
func (s *plainScanner) quoted(pos int) (int, bool) {
	pos++
	end, ascii := pos, true
	c := s.text[end]
	for c >= ' ' && c != '"' && c != '\\' && c != 0x7f {
		ascii = ascii && c < utf8.RuneSelf
		end++
		c = s.text[end]
	}
	if c != '"' || !ends(s.text[end+1]) || !ascii && !isText(s.text[pos:end]) {
		return 0, false
	}
	return end + 1, true
}

// isText reports characters that control nothing and can be seen.
func isText(text string) bool {
	return utf8.ValidString(text) && !strings.ContainsFunc(text, func(c rune) bool { return c >= 0x7f && c < 0xa0 || display.Unseen(c) })
}

// factWords walks the words of a line.
type factWords struct {
	text   string // behind the word that comes
	word   string // "" at the end, and before a text in quotes
	quote  string
	quoted bool // the text in quotes comes
}

func wordsIn(text string) factWords {
	w := factWords{text: text}
	w.advance()
	return w
}

// advance passes over the word that comes.
func (w *factWords) advance() {
	text, start := w.text, 0
	for start < len(text) && (text[start] == ' ' || text[start] == '\t') {
		start++
	}
	if w.word, w.quoted = "", start < len(text) && text[start] == '"'; w.quoted {
		w.quote, w.text, _ = strings.Cut(text[start+1:], `"`)
		return
	}
	end := start
	for end < len(text) && text[end] != ' ' && text[end] != '\t' {
		end++
	}
	w.word, w.text = text[start:end], text[end:]
}

// next takes a word, "" at the end and before a text in quotes.
func (w *factWords) next() string {
	word := w.word
	if word != "" {
		w.advance()
	}
	return word
}

// accept takes the next word if it is this one.
func (w *factWords) accept(word string) bool {
	if w.word != word {
		return false
	}
	w.advance()
	return true
}

// ended reports whether nothing is left.
func (w *factWords) ended() bool { return w.word == "" && !w.quoted }

// remark takes the text in quotes that may close a line; not ok where anything else
// is left.
func (w *factWords) remark() (text string, ok bool) {
	if w.quoted {
		text = w.quote
		w.advance()
	}
	return text, w.ended()
}

// closing is remark where nobody keeps it.
func (w *factWords) closing() bool {
	_, ok := w.remark()
	return ok
}

// free takes the text in quotes that is the line's content.
func (w *factWords) free() (text string, ok bool) {
	if !w.quoted {
		return "", false
	}
	text = w.quote
	w.advance()
	return text, w.closing()
}

// number takes a whole number from 1, without a zero in front.
func (w *factWords) number(most int) (int, bool) {
	word := w.next()
	if !isNumber(word) || word[0] == '0' {
		return 0, false
	}
	n := rowNumber(word)
	return n, n <= most
}

// decimal takes a number that may have a point.
func (w *factWords) decimal() (scoring.Decimal, bool) { return scoring.ParseDecimal(w.next()) }
