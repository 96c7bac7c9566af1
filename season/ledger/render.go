package ledger

import (
	"fmt"
	"io"
	"strings"
	"unicode"

	"boxbook/report/display"
)

// MaxShown is how many diagnostics one run prints; the rest are counted.
const MaxShown = 100

const (
	// widestSource is how much of a source line is shown, in columns, and
	// longestSource in characters: some take no column.
	widestSource  = 160
	longestSource = 400
	// longestText is how much of a message is shown, in characters: it quotes
	// words that may be as long as a line.
	longestText = 300
)

// Render prints diagnostics for people: the one-line form, the source line
// with a caret under the span, the hint. At most MaxShown are printed and the
// rest counted; many days ahead are one line.
func Render(w io.Writer, list List) error {
	var b strings.Builder
	list = foldAhead(list)
	for _, d := range MostPressing(list, MaxShown) {
		b.WriteString(bounded(d.Error()))
		b.WriteByte('\n')
		b.WriteString(excerpt(d))
		if d.Hint != "" {
			fmt.Fprintf(&b, "    hint: %s\n", bounded(d.Hint))
		}
	}
	if rest := len(list) - MaxShown; rest > 0 {
		fmt.Fprintf(&b, "and %d more\n", rest)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// MostPressing is what is shown of a list: all of it, or where it is longer than
// most the errors before the warnings, in their order.
func MostPressing(list List, most int) List {
	if len(list) <= most {
		return list
	}
	shown := make(List, 0, most)
	for _, severity := range []Severity{Error, Warning} {
		for _, d := range list {
			if d.Severity == severity && len(shown) < most {
				shown = append(shown, d)
			}
		}
	}
	return sortList(shown)
}

// bounded makes a text harmless, and shortens one that quotes a very long word.
func bounded(text string) string {
	runes := []rune(text)
	if len(runes) > longestText {
		text = string(runes[:longestText-1]) + "…"
	}
	return strings.Map(shown, display.Escape(text))
}

// symbol is what a reader sees as one character: its runes as printed, how many
// runes of the source they are, and the columns they take.
type symbol struct {
	text  string
	runes int
	width int
}

// symbols cuts a line into what a reader sees as characters. A byte that is no
// UTF-8 is one by itself: cut from its own bytes it could join the one before.
func symbols(line string) []symbol {
	var all []symbol
	for _, raw := range display.Clusters(string([]rune(line))) {
		text := strings.Map(shown, display.Escape(raw))
		all = append(all, symbol{text, len([]rune(raw)), display.Width(text)})
	}
	return all
}

// excerpt is the source line and the caret line beneath it. Carets count the
// columns a terminal uses, not bytes or characters, and tabs stay tabs, so
// that the caret stands under the word whatever the tab stops are.
func excerpt(d Diagnostic) string {
	near, column := nearby(d.Source, d.Column-1)
	all := symbols(near)
	if len(all) == 0 {
		return ""
	}
	from, to := spanOf(all, column, max(d.Width, 1))
	first := windowStart(all, from)
	var source, carets strings.Builder
	width, runes, marked := 0, 0, 0
	for i := first; i < len(all); i++ {
		s := all[i]
		if width+s.width > widestSource || runes+s.runes > longestSource {
			break
		}
		width, runes = width+s.width, runes+s.runes
		source.WriteString(s.text)
		switch {
		case i < from && s.text == "\t":
			carets.WriteByte('\t')
		case i < from:
			carets.WriteString(strings.Repeat(" ", s.width))
		case i < to:
			marked += s.width
		}
	}
	carets.WriteString(strings.Repeat("^", max(marked, 1)))
	return "    " + strings.TrimRight(source.String(), " \t") + "\n    " + carets.String() + "\n"
}

// nearby is the part of a line that an excerpt can show, twice as much to either
// side of a rune as is shown at most, and where the rune is in it: a line may be
// as long as a file.
func nearby(line string, rune0 int) (part string, at int) {
	if len(line) <= longestSource {
		return line, rune0
	}
	start, end, n := 0, len(line), 0
	for i := range line {
		switch n {
		case rune0 - 2*longestSource:
			start, at = i, 2*longestSource
		case rune0 + 2*longestSource:
			end = i
		}
		n++
	}
	if start == 0 {
		at = rune0
	}
	return line[start:end], at
}

// spanOf turns a span of runes into one of symbols; trailing blanks of the line
// are not part of it.
func spanOf(all []symbol, rune0, runes int) (from, to int) {
	at := 0
	from, to = len(all), len(all)
	for i, s := range all {
		if from == len(all) && at+s.runes > rune0 {
			from = i
		}
		if at >= rune0+runes {
			to = i
			break
		}
		at += s.runes
	}
	for to > from+1 && strings.TrimSpace(all[to-1].text) == "" {
		to--
	}
	return from, to
}

// windowStart is the first symbol shown, so that a fault far out on a long line
// is in view.
func windowStart(all []symbol, from int) int {
	width, runes := 0, 0
	for i := from - 1; i >= 0; i-- {
		width, runes = width+all[i].width, runes+all[i].runes
		if width > widestSource/2 || runes > longestSource/2 {
			return i + 1
		}
	}
	return 0
}

// shown is a character as it is printed: as in every report, but that tabs stay
// tabs and what would end a line is seen to be there.
func shown(r rune) rune {
	switch {
	case r == '\t':
		return r
	case unicode.IsControl(r):
		return display.Replacement
	default:
		return display.Rune(r)
	}
}
