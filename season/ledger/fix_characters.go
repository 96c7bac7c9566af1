package ledger

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// This file fixes lines whose characters could not be read.

// lexicalFixes are the edits that fix a lexical error at bytes start to end of
// a line, none where there is more than one reading.
func (s span) lexicalFixes(code Code) []Fix {
	l := s.f.lines[s.line]
	before, rest := s.f.text[l.start:s.start], s.f.text[s.start:l.end]
	switch code {
	case controlCharacter:
		return s.controlFix(before, rest)
	case oddSpace:
		return s.spaceFixes(rest)
	case unseenCharacter:
		return s.unseenFixes(rest)
	case curlyQuote:
		return s.quoteFixes(before, rest)
	case badEscape:
		if s.isPath() {
			return []Fix{span{s.f, s.line, s.start, s.start + 1}.fix("/")}
		}
		if c := s.f.text[s.end-1]; s.end < l.end && c != 'n' && c != 't' {
			return []Fix{s.insert(s.start, `\`)}
		}
	case textAfterQuote:
		if rest[0] == '#' || rest[0] == '"' {
			return []Fix{s.insert(s.start, " ")}
		}
	case quoteInsideWord:
		if word := s.f.text[s.start : s.end-1]; strings.Contains(s.f.text[s.end:l.end], `"`) && s.isText(before+word) {
			return []Fix{s.insert(s.end-1, " ")}
		}
	case unclosedQuote:
		return s.closeFix(rest)
	}
	return nil
}

// isPath reports whether the line names a file.
func (s span) isPath() bool {
	l := s.f.lines[s.line]
	word, _, _ := strings.Cut(s.f.text[l.start:l.end], " ")
	return word == includeKey || word == "part-of"
}

// insert is the edit that puts a text in at a byte of the line.
func (s span) insert(at int32, text string) Fix {
	return span{s.f, s.line, at, at}.fix(text)
}

// each makes an edit of every character of a text that is as asked for, in the
// word in which the span begins.
func (s span) each(text string, is func(rune) bool, instead string) []Fix {
	var fixes []Fix
	for i, c := range text {
		if c == ' ' || c == '\t' || c == '"' {
			break
		}
		if is(c) {
			at := s.start + int32(i)
			fixes = append(fixes, span{s.f, s.line, at, at + int32(utf8.RuneLen(c))}.fix(instead))
		}
	}
	return fixes
}

// escapeCharacter begins what a terminal obeys; how much of what follows belongs
// to it cannot be told.
const escapeCharacter = '\x1b'

// controlFix deletes a control character. One that may stand for white space or
// a line's end is deleted only where white space stands beside it.
func (s span) controlFix(before, rest string) []Fix {
	c, size := utf8.DecodeRuneInString(rest)
	separates := c == nextLine || unicode.IsSpace(c)
	beside := before == "" || endsBlank(before) || beginsBlank(rest[size:])
	if c == escapeCharacter || separates && !beside {
		return nil
	}
	return []Fix{s.fix("")}
}

func beginsBlank(text string) bool { return text == "" || text[0] == ' ' || text[0] == '\t' }

func endsBlank(text string) bool {
	return strings.HasSuffix(text, " ") || strings.HasSuffix(text, "\t")
}

// spaceFixes makes plain spaces of what only looks like them, and deletes what has no
// width.
func (s span) spaceFixes(rest string) []Fix {
	if c, _ := utf8.DecodeRuneInString(rest); noWidth(c) {
		return s.each(rest, noWidth, "")
	}
	return s.each(rest, func(c rune) bool { return looksLikeSpace(c) && !noWidth(c) }, " ")
}

// unseenFixes deletes what turns the direction of writing. A character that
// ends the line for other programs may stand for a line's end.
func (s span) unseenFixes(rest string) []Fix {
	turns := func(c rune) bool { return unicode.Is(unicode.Bidi_Control, c) }
	if c, _ := utf8.DecodeRuneInString(rest); !turns(c) {
		return nil
	}
	return s.each(rest, turns, "")
}

// closers are the quotes that close what another one opens, whatever the
// country.
var closers = map[rune]string{
	'“': "”“", '”': "”“", '„': "”“", '‟': "”“", '«': "»", '»': "«", '‘': "’‘", '’': "’‘", '‚': "’‘",
}

// isText reports whether quoted text may follow what stands before it on its
// line: a keyword that takes text, or words behind any other one.
func (s span) isText(before string) bool {
	words := strings.Fields(before)
	if len(words) == 0 {
		return false
	}
	return (len(words) == 1) == slices.Contains(textKeys, words[0])
}

// quoteFixes makes straight quotes of the curly ones around a text.
func (s span) quoteFixes(before, rest string) []Fix {
	open, size := utf8.DecodeRuneInString(rest)
	if !endsBlank(before) || !s.isText(before) {
		return nil
	}
	text := rest[size:]
	for i, c := range text {
		_, width := utf8.DecodeRuneInString(text[i:]) // a byte that is no UTF-8 is one
		behind := text[i+width:]
		if c == '"' || strings.ContainsRune(closers[open], c) {
			if !beginsBlank(behind) {
				continue
			}
			at := s.start + int32(size+i)
			closing := span{s.f, s.line, at, at + int32(width)}
			if c == '"' {
				return []Fix{s.fix(`"`)}
			}
			return []Fix{s.fix(`"`), closing.fix(`"`)}
		}
	}
	return nil
}

// closeFix closes a quoted text: with a straight quote for the curly one at the
// line's end, else with one behind it. Where a comment may begin in between,
// or another quote stands in it, the end cannot be told.
func (s span) closeFix(rest string) []Fix {
	text := strings.TrimRight(rest, " \t")
	if strings.ContainsAny(text[1:], `"#\`) {
		return nil
	}
	end := s.start + int32(len(text))
	last, size := utf8.DecodeLastRuneInString(text)
	if strings.ContainsRune("”“", last) {
		return []Fix{span{s.f, s.line, end - int32(size), end}.fix(`"`)}
	}
	if slices.ContainsFunc([]rune(text), looksLikeQuote) {
		return nil
	}
	return []Fix{s.insert(end, `"`)}
}
