package ledger

import (
	"fmt"
	"io"
	"strings"

	"github.com/mattn/go-runewidth"
)

// MaxShown is how many diagnostics one run prints; the rest are counted.
const MaxShown = 100

// widestSource is how much of a source line is shown, in columns.
const widestSource = 160

// Render prints diagnostics for people: the one-line form, the source line
// with a caret under the span, the hint. At most MaxShown are printed and the
// rest counted.
func Render(w io.Writer, list List) error {
	var b strings.Builder
	for i, d := range list {
		if i == MaxShown {
			fmt.Fprintf(&b, "and %d more\n", len(list)-MaxShown)
			break
		}
		b.WriteString(printable(d.Error()))
		b.WriteByte('\n')
		b.WriteString(excerpt(d))
		if d.Hint != "" {
			fmt.Fprintf(&b, "    hint: %s\n", printable(d.Hint))
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// excerpt is the source line and the caret line beneath it. Carets count the
// columns a terminal uses, not bytes or characters, and tabs stay tabs, so
// that the caret stands under the word whatever the tab stops are.
func excerpt(d Diagnostic) string {
	runes := []rune(d.Source)
	if len(runes) == 0 {
		return ""
	}
	from := min(max(d.Column-1, 0), len(runes))
	to := min(from+max(d.Width, 1), len(runes))
	first := window(runes, from)
	last := first
	for width := 0; last < len(runes) && width <= widestSource; last++ {
		width += runewidth.RuneWidth(runes[last])
	}
	var source, carets strings.Builder
	for i := first; i < last; i++ {
		source.WriteRune(shown(runes[i]))
		if i < from {
			carets.WriteString(blank(runes[i]))
		}
	}
	width := 0
	for i := from; i < min(to, last); i++ {
		width += runewidth.RuneWidth(shown(runes[i]))
	}
	carets.WriteString(strings.Repeat("^", max(width, 1)))
	return "    " + strings.TrimRight(source.String(), " \t") + "\n    " + carets.String() + "\n"
}

// window is the first character shown, so that a fault far out on a long line
// is in view.
func window(runes []rune, from int) int {
	if from <= widestSource/2 {
		return 0
	}
	return from - widestSource/2
}

// blank is what stands in the caret line above nothing: a tab for a tab, else
// as many spaces as the character takes columns.
func blank(r rune) string {
	if r == '\t' {
		return "\t"
	}
	return strings.Repeat(" ", runewidth.RuneWidth(shown(r)))
}

// shown replaces what a terminal would obey instead of print.
func shown(r rune) rune {
	switch {
	case r == '\t':
		return r
	case r < 0x20 || (r >= 0x7f && r < 0xa0) || r == '\u2028' || r == '\u2029' || (r >= '\u202a' && r <= '\u202e') || (r >= '\u2066' && r <= '\u2069'):
		return '\ufffd'
	default:
		return r
	}
}

func printable(text string) string { return strings.Map(shown, text) }
