package ledger

import (
	"slices"
	"strings"

	"boxbook/scoring"
	"boxbook/season"
)

// scan finds the plain flights of a piece.
func (p *plainPiece) scan(text string) {
	end := strings.LastIndexByte(text[:p.to], '\n') + 1 // a line without its end is not plain
	s := plainScanner{text: text[:max(end, 0)], marks: make([]scoring.Mark, 0, (p.to-p.from)/marksPerByte+mostJudges)}
	for pos := p.from; pos < len(s.text); {
		if strings.HasPrefix(s.text[pos:], flightStart[1:]) {
			if next, ok := s.flight(pos); ok {
				pos = next
				continue
			}
		}
		i := strings.Index(s.text[pos:], flightStart)
		if i < 0 {
			break
		}
		pos += i + 1
	}
	p.flights, p.marks, p.facts = s.flights, s.marks, s.facts
}

// marksPerByte is how many bytes of text a mark takes at the least in a ledger
// of many; more make the piece's marks grow.
const marksPerByte = 5

// mostJudges bounds the marks of a plain row.
const mostJudges = 64

// plainScanner reads flights from text as long as all is plain. Every line of the
// text has its end. Its functions take a place in the text and give the place
// behind what they read; not ok is whatever they do not know.
type plainScanner struct {
	text    string
	flights []plainFlight
	marks   []scoring.Mark
	facts   []plainFact
	day     string // the last date as typed, and as read
	date    season.Date
}

// flight reads a flight from its keyword to the next line that is none of its own.
func (s *plainScanner) flight(start int) (pos int, ok bool) {
	fl := plainFlight{start: int32(start), marks: int32(len(s.marks)), facts: int32(len(s.facts)), label: 1, lines: 1}
	if pos, ok = s.head(&fl, start+len(flightWord)); !ok {
		return 0, false
	}
	text := s.text
	for pos < len(text) {
		at := pos
		for text[at] == ' ' || text[at] == '\t' {
			at++
		}
		c := text[at]
		blank := c == '\n' || c == '\r' || c == '#'
		if at == pos && !blank {
			break // the next block
		}
		switch {
		case blank:
			pos, ok = s.lineEnd(at)
		case c >= '1' && c <= '9':
			pos, ok = s.figure(&fl, at)
		default:
			pos, ok = s.keyed(&fl, at)
		}
		if !ok {
			return 0, s.drop(&fl)
		}
		fl.lines++
	}
	if fl.figures == 0 || pos-start > maxLine {
		return 0, s.drop(&fl)
	}
	fl.end, fl.factsEnd = int32(pos), int32(len(s.facts))
	if n := len(s.flights); n == cap(s.flights) && n > 0 { // the rest will be like the first ones
		each := (pos-int(s.flights[0].start))/n + 1
		s.flights = slices.Grow(s.flights, (len(text)-pos)/each+64)
	}
	s.flights = append(s.flights, fl)
	return pos, true
}

// drop gives up what was read of a flight, and is never ok.
func (s *plainScanner) drop(fl *plainFlight) (ok bool) {
	s.marks, s.facts = s.marks[:fl.marks], s.facts[:fl.facts]
	return false
}

// head reads a flight's first line, behind its keyword.
func (s *plainScanner) head(fl *plainFlight, pos int) (int, bool) {
	const width = len("2026-05-17")
	pos = s.blanks(pos)
	if pos+width >= len(s.text) {
		return 0, false
	}
	if day := s.text[pos : pos+width]; day != s.day {
		date, ok := season.ParseDate(day)
		if !ok {
			return 0, false
		}
		s.day, s.date = day, date
	}
	fl.day, fl.date = word{int32(pos), int32(width)}, s.date
	pos, ok := s.between(pos + width)
	if ok {
		fl.pilot, pos, ok = s.handle(pos)
	}
	if ok {
		pos, ok = s.between(pos)
	}
	if !ok {
		return 0, false
	}
	end := pos
	for letter(s.text[end]) || s.text[end] == '-' {
		end++
	}
	if fl.programme, ok = programmeAt(s.text[pos:end]); !ok || !ends(s.text[end]) {
		return 0, false
	}
	pos = s.blanks(end)
	if c := s.text[pos]; c >= '1' && c <= '9' && pos > end {
		if fl.label, pos, ok = s.number(pos, mostLabel); !ok || !ends(s.text[pos]) {
			return 0, false
		}
		pos = s.blanks(pos)
	}
	return s.lineEnd(pos)
}

// programmeAt is a programme's place among all.
func programmeAt(word string) (uint8, bool) {
	for i, p := range season.Programmes {
		if word == string(p) {
			return uint8(i), true
		}
	}
	return 0, false
}

// number reads a number without a leading zero, up to the most.
func (s *plainScanner) number(pos, most int) (int16, int, bool) {
	n := 0
	for c := s.text[pos]; c >= '0' && c <= '9'; c = s.text[pos] {
		if n = 10*n + int(c-'0'); n > most {
			return 0, 0, false
		}
		pos++
	}
	return int16(n), pos, true
}

// blanks passes over white space within the line.
func (s *plainScanner) blanks(pos int) int {
	for s.text[pos] == ' ' || s.text[pos] == '\t' {
		pos++
	}
	return pos
}

// between passes over white space, of which there must be some.
func (s *plainScanner) between(pos int) (int, bool) {
	next := s.blanks(pos)
	return next, next > pos
}

func letter(c byte) bool { return c|0x20 >= 'a' && c|0x20 <= 'z' }

// ends reports whether a word ends before a byte.
func ends(c byte) bool { return c == ' ' || c == '\t' || c == '\n' || c == '\r' }

// handle reads a name of plain letters.
func (s *plainScanner) handle(pos int) (word, int, bool) {
	end := pos
	for c := s.text[end]; letter(c) || end > pos && (c >= '0' && c <= '9' || c == '-' || c == '_'); c = s.text[end] {
		end++
	}
	return word{int32(pos), int32(end - pos)}, end, end > pos && ends(s.text[end])
}

// lineEnd reads what may stand behind a line's last word and the blanks that follow
// it: a comment of plain characters, and the line's end.
func (s *plainScanner) lineEnd(pos int) (int, bool) {
	if s.text[pos] == '#' {
		for c := s.text[pos]; c >= 0x20 && c < 0x7f || c == '\t'; c = s.text[pos] {
			pos++
		}
	}
	if s.text[pos] == '\r' {
		pos++
	}
	return pos + 1, s.text[pos] == '\n'
}

// keyed reads a line that begins with one of the words of plain flights.
func (s *plainScanner) keyed(fl *plainFlight, pos int) (int, bool) {
	end := pos
	for letter(s.text[end]) {
		end++
	}
	key := s.text[pos:end]
	if !ends(s.text[end]) {
		return 0, false
	}
	ok := false
	pos = s.blanks(end)
	switch {
	case key == "contest" && fl.contest.length == 0:
		fl.contest, pos, ok = s.handle(pos)
	case key == "sequence" && fl.sequence.length == 0:
		fl.sequence, pos, ok = s.handle(pos)
	case key == "positioning" && !fl.positioning && !fl.harmony && fl.figures > 0:
		fl.positioning = true
		return s.row(fl, pos)
	case key == "harmony" && !fl.harmony && fl.figures > 0:
		fl.harmony = true
		return s.row(fl, pos)
	default:
		return s.fact(fl, key, pos)
	}
	if !ok {
		return 0, false
	}
	return s.lineEnd(s.blanks(pos))
}
