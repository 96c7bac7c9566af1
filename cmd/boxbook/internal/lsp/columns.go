package lsp

import (
	"unicode/utf8"

	"boxbook/season/ledger"
)

// units is how many UTF-16 units a character takes.
func units(c rune) int {
	if c > 0xffff {
		return 2
	}
	return 1
}

// toUnits counts the UTF-16 units of a line before a byte.
func toUnits(line string, at int) int {
	n := 0
	for i, c := range line {
		if i >= at {
			break
		}
		n += units(c)
	}
	return n
}

// toBytes is the byte of a line at so many UTF-16 units, the line's end where it
// is shorter; inside a character, that one's beginning.
func toBytes(line string, character int) int {
	n := 0
	for i, c := range line {
		if n += units(c); n > character {
			return i
		}
	}
	return len(line)
}

// ofRunes is the byte of a line behind so many characters.
func ofRunes(line string, count int) int {
	at := 0
	for ; count > 0 && at < len(line); count-- {
		_, size := utf8.DecodeRuneInString(line[at:])
		at += size
	}
	return at
}

// markUnits is what a byte order mark takes of a file's first line.
func markUnits(rd *ledger.Reading, name string, line int) int {
	if line == 0 && rd.Marked(name) {
		return 1
	}
	return 0
}

// place is a byte of a line as the protocol counts.
func place(rd *ledger.Reading, name string, line, at int) position {
	return position{line, toUnits(rd.LineText(name, line), at) + markUnits(rd, name, line)}
}

// byteAt is the byte of a line that a position names.
func byteAt(rd *ledger.Reading, name string, p position) int {
	return toBytes(rd.LineText(name, p.Line), max(0, p.Character-markUnits(rd, name, p.Line)))
}

// spanRange is a span as the protocol counts.
func spanRange(rd *ledger.Reading, s ledger.Span) rng {
	return rng{place(rd, s.File, s.Line, s.Start), place(rd, s.File, s.Line, s.End)}
}

// columnsRange is a stretch of a line in characters from 1, as diagnostics have it.
func columnsRange(rd *ledger.Reading, name string, line, column, end int) rng {
	text := rd.LineText(name, line-1)
	return rng{place(rd, name, line-1, ofRunes(text, column-1)), place(rd, name, line-1, ofRunes(text, end-1))}
}
