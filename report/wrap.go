package report

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"boxbook/report/display"
)

// word is a piece of text that is kept on one line. A glued word follows the
// one before it without a space.
type word struct {
	text  string
	glued bool
}

// wrap breaks a printable text into lines of at most width display columns. A
// word that is wider than that stands on a line of its own, unbroken.
func wrap(text string, width int) []string {
	var lines []string
	line, used := "", 0
	for _, next := range words(text, width) {
		space := " "
		if next.glued || line == "" {
			space = ""
		}
		wide := display.Width(next.text)
		if line != "" && used+len(space)+wide > width {
			lines = append(lines, line)
			line, used, space = "", 0, ""
		}
		line += space + next.text
		used += len(space) + wide
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// wrapWhole is like wrap, and goes on in the next line within a word that is wider
// than a line: behind a hyphen or a slash where it has one there. Nothing is cut off.
func wrapWhole(text string, width int) []string {
	var lines []string
	for _, line := range wrap(text, width) {
		for display.Width(line) > width {
			begin := display.Cut(line, width)
			if at := strings.LastIndexAny(begin, "-/"); at > 0 {
				begin = begin[:at+1]
			}
			if begin == "" {
				break // not even one character has room
			}
			lines, line = append(lines, begin), line[len(begin):]
		}
		lines = append(lines, line)
	}
	return lines
}

// wrapLines is like wrap for a text that may hold line feeds, each of which
// starts a new line.
func (t *textWriter) wrapLines(text string) []string {
	var lines []string
	for line := range strings.SplitSeq(text, "\n") {
		wrapped := wrap(t.commands(printable(line)), t.prose)
		if len(wrapped) == 0 {
			wrapped = []string{""}
		}
		lines = append(lines, wrapped...)
	}
	return lines
}

// words splits a text at spaces (not at no-break spaces). Scripts of wide
// characters put no spaces between words and may be broken anywhere, which is
// done where such a run would not fit on a line.
func words(text string, width int) []word {
	var found []word
	for field := range strings.FieldsFuncSeq(text, breakable) {
		// No-break spaces may not end a line either.
		switch field = trimEnd(field); {
		case field == "":
		case display.Width(field) <= width:
			found = append(found, word{text: field})
		default:
			found = append(found, pieces(field)...)
		}
	}
	return found
}

// breakable reports whether r is a space at which a line may be broken.
func breakable(r rune) bool {
	return unicode.IsSpace(r) && r != '\u00A0' && r != '\u2007' && r != '\u202F'
}

// pieces splits a word at its wide characters. Punctuation stays with what
// stands before it, and a no-break space with what stands around it.
func pieces(field string) []word {
	var found []word
	slim, bound := false, false // what the cluster before was
	begun, at := 0, 0           // where the piece begins, and the cluster
	for _, cluster := range display.Clusters(field) {
		wide := display.Width(cluster) > 1
		first, _ := utf8.DecodeRuneInString(cluster)
		space := unicode.IsSpace(first)
		if at > 0 && !bound && !space && !unicode.IsPunct(first) && (!slim || wide) {
			found = append(found, word{text: field[begun:at], glued: begun > 0})
			begun = at
		}
		slim, bound, at = !wide, space, at+len(cluster)
	}
	return append(found, word{text: field[begun:], glued: begun > 0})
}

// hang lays out text beside head, with every line of it indented to the same
// column and handed to tint. A word that is too wide for what is left has a line of
// its own, indented less. Where head or the first word is too wide for that, the text
// goes beneath.
func hang(head, text string, indent, width int, tint func(string) string) []string {
	lines := wrap(text, width-indent)
	if len(lines) == 0 {
		return wrap(head, width)
	}
	beside := display.Width(head) < indent && display.Width(lines[0]) <= width-indent
	for i, line := range lines {
		lines[i] = strings.Repeat(" ", indentOf(line, indent, width)) + tint(line)
	}
	if !beside {
		return append(wrap(head, width), lines...)
	}
	lines[0] = head + lines[0][display.Width(head):]
	return lines
}

// indentOf is how far a line is indented: as far as all are, less where it has no room; a
// little where it has none at all, so that it is told from a label.
func indentOf(line string, indent, width int) int {
	wide := display.Width(line)
	switch less := min(gap, indent); {
	case wide <= width-indent:
		return indent
	case wide <= width-less, wide > width:
		return less
	default:
		return 0
	}
}
