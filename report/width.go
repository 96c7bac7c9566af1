package report

import (
	"os"
	"strings"
	"unicode"

	"boxbook/report/display"

	"golang.org/x/term"
)

// The widths of output, in display columns.
const (
	narrowest    = 40  // nothing is laid out narrower
	widest       = 200 // a wider terminal is not filled: rows become hard to follow
	defaultWidth = 80  // where there is no terminal to ask
	proseWidth   = 100 // running text is not wrapped wider
)

const ellipsis = "…"

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

// Shorten cuts a text at a grapheme boundary so that it fits into width
// columns, with an ellipsis for what is gone.
func Shorten(text string, width int) string {
	switch {
	case display.Width(text) <= width:
		return text
	case width < 1:
		return ""
	}
	return trimEnd(display.Cut(text, width-1)) + ellipsis
}

// trimEnd removes white space at the end.
func trimEnd(text string) string { return strings.TrimRightFunc(text, unicode.IsSpace) }

// printable is a text that may be shown on one line.
func printable(text string) string { return display.OneLine(text) }
