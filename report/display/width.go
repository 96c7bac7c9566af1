package display

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/clipperhouse/uax29/v2/graphemes"
	"github.com/mattn/go-runewidth"
)

// Replacement stands for a character that must not reach a terminal.
const Replacement = '\uFFFD'

// narrow measures text the same way in every locale, so that the same text
// gives the same bytes everywhere: characters of ambiguous width count one. The
// library stays at its version 0.0.25: earlier ones take a flag for one column,
// later ones fill two megabytes of tables before the first width.
var narrow = &runewidth.Condition{EastAsianWidth: false, StrictEmojiNeutral: true}

// Width returns how many columns of a terminal a text takes. It goes by grapheme
// cluster: a combining accent takes none, a family emoji two.
func Width(text string) int {
	if isPlain(text) {
		return len(text)
	}
	return narrow.StringWidth(text)
}

// Cut cuts a text at a grapheme boundary so that it fits into width columns.
func Cut(text string, width int) string { return narrow.Truncate(text, width, "") }

// Clusters splits a text at its grapheme boundaries, into what a reader sees as
// characters.
func Clusters(text string) []string {
	var found []string
	for each := graphemes.FromString(text); each.Next(); {
		found = append(found, each.Value())
	}
	return found
}

// Escape writes what a text does not show and yet obeys so that it is seen,
// as \u202e: characters that end a line for some programs, and those that turn
// the direction of writing.
func Escape(text string) string {
	if !strings.ContainsFunc(text, Unseen) {
		return text
	}
	var b strings.Builder
	for _, r := range text {
		if Unseen(r) {
			fmt.Fprintf(&b, "\\u%04x", r)
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}

// Unseen reports what a text does not show and yet obeys: a character that ends a
// line for some programs or turns the direction of writing.
func Unseen(r rune) bool {
	if r < utf8.RuneSelf {
		return false
	}
	return r == '\u0085' || r == '\u2028' || r == '\u2029' || unicode.Is(unicode.Bidi_Control, r)
}

// Rune is a character as it may be shown on one line: white space of every kind
// but the no-break spaces is a space, what could move a terminal's cursor,
// change its state or reorder the text around it is Replacement, and what is
// invisible is -1, which strings.Map leaves out.
func Rune(r rune) rune {
	switch {
	case ' ' <= r && r <= '~':
		return r
	case r == '\u0085' || r == '\u2028' || r == '\u2029' || '\t' <= r && r <= '\r':
		return ' '
	case unicode.In(r, unicode.Cc, unicode.Co), // escapes and the like; private use, of no agreed width
		unicode.Is(unicode.Noncharacter_Code_Point, r), // no text at all
		'\u202A' <= r && r <= '\u202E',                 // overrides of the writing direction
		'\u2066' <= r && r <= '\u2069':                 // and isolates
		return Replacement
	case unicode.Is(unicode.Cf, r) && !shapesText(r):
		return -1 // invisible, and terminals disagree on its width
	}
	return r
}

// shapesText reports whether a format character is part of what is seen: the
// joiners of words and emoji, and the Arabic signs that stand before a number.
// Tag characters are not: a whole text can be hidden in them.
func shapesText(r rune) bool {
	return r == '\u200C' || r == '\u200D' || unicode.Is(unicode.Prepended_Concatenation_Mark, r)
}

// OneLine makes a text from outside fit to be shown on one line, wherever that
// is: white space of every kind but the no-break spaces becomes a space, what is
// not seen and yet ends lines or turns text is written as an escape, and nothing
// that is left can move a terminal's cursor, change its state, reorder the text
// around it or hide.
func OneLine(text string) string {
	if isPlain(text) {
		return strings.TrimRight(text, " ")
	}
	text = strings.ToValidUTF8(text, string(Replacement))
	text = strings.ReplaceAll(text, "\r\n", "\n")
	return strings.TrimRightFunc(strings.Map(Rune, Escape(text)), unicode.IsSpace)
}

// isPlain reports whether a text has nothing but the printable characters of ASCII.
func isPlain(text string) bool {
	for i := range len(text) {
		if text[i] < ' ' || text[i] > '~' {
			return false
		}
	}
	return true
}

// Seen reports whether a character is shown as itself.
func Seen(r rune) bool { return !Unseen(r) && Rune(r) == r }
