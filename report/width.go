package report

import (
	"os"
	"strings"
	"unicode"

	"github.com/clipperhouse/uax29/v2/graphemes"
	"github.com/mattn/go-runewidth"
	"golang.org/x/term"
)

// The widths of output, in display columns.
const (
	narrowest    = 40  // nothing is laid out narrower
	widest       = 200 // a wider terminal is not filled: rows become hard to follow
	defaultWidth = 80  // where there is no terminal to ask
	proseWidth   = 100 // running text is not wrapped wider
)

// replacement stands for a character that must not reach a terminal.
const replacement = '\uFFFD'

const ellipsis = "…"

// narrow measures text the same way in every locale, so that the same document
// gives the same bytes everywhere: characters of ambiguous width count one.
var narrow = &runewidth.Condition{EastAsianWidth: false, StrictEmojiNeutral: true}

// TerminalWidth returns how many display columns to fill on f: the terminal's
// width, at least 40 and at most 200; 80 where f is not a terminal (or nil).
func TerminalWidth(f *os.File) int {
	if f == nil {
		return defaultWidth
	}
	columns, _, err := term.GetSize(int(f.Fd()))
	if err != nil {
		return defaultWidth
	}
	return widthToFill(columns)
}

// TerminalHeight returns how many lines a terminal has; 0 where f is none.
func TerminalHeight(f *os.File) int {
	if f == nil {
		return 0
	}
	_, lines, err := term.GetSize(int(f.Fd()))
	if err != nil {
		return 0
	}
	return max(0, lines)
}

// widthToFill bounds what a terminal says of its width. Some say 0 until they
// have been drawn for the first time.
func widthToFill(columns int) int {
	if columns <= 0 {
		return defaultWidth
	}
	return min(max(columns, narrowest), widest)
}

// displayWidth returns how many columns of a terminal a text takes. It goes by
// grapheme cluster: a combining accent takes none, a family emoji two.
func displayWidth(text string) int { return narrow.StringWidth(text) }

// Shorten cuts a text at a grapheme boundary so that it fits into width
// columns, with an ellipsis for what is gone.
func Shorten(text string, width int) string {
	switch {
	case displayWidth(text) <= width:
		return text
	case width < 1:
		return ""
	}
	return trimEnd(narrow.Truncate(text, width-1, "")) + ellipsis
}

// clusters splits a text at its grapheme boundaries.
func clusters(text string) []string {
	var found []string
	for each := graphemes.FromString(text); each.Next(); {
		found = append(found, each.Value())
	}
	return found
}

// trimEnd removes white space at the end.
func trimEnd(text string) string { return strings.TrimRightFunc(text, unicode.IsSpace) }

// printable makes a text fit to be shown on one line: white space of every kind
// but the no-break spaces becomes a space, and nothing that is left can move a
// terminal's cursor, change its state or reorder the text around it.
func printable(text string) string {
	text = strings.ToValidUTF8(text, string(replacement))
	text = strings.ReplaceAll(text, "\r\n", "\n")
	return trimEnd(strings.Map(printableRune, text))
}

func printableRune(r rune) rune {
	switch {
	case r == '\u0085' || r == '\u2028' || r == '\u2029' || '\t' <= r && r <= '\r':
		return ' '
	case unicode.In(r, unicode.Cc, unicode.Co), // escapes and the like; private use, of no agreed width
		'\u202A' <= r && r <= '\u202E', // overrides of the writing direction
		'\u2066' <= r && r <= '\u2069': // and isolates
		return replacement
	case unicode.Is(unicode.Cf, r) && !shapesText(r):
		return -1 // invisible, and terminals disagree on its width
	}
	return r
}

// shapesText reports whether a format character is part of what is seen: the
// joiners of words and emoji, the tags that the flag of Scotland is made of,
// and the Arabic signs that stand before a number.
func shapesText(r rune) bool {
	return r == '\u200C' || r == '\u200D' || 0xE0020 <= r && r <= 0xE007F ||
		unicode.Is(unicode.Prepended_Concatenation_Mark, r)
}
