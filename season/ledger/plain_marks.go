package ledger

import (
	"math/bits"

	"boxbook/scoring"
)

// figure reads the row of a further figure; figures stand in their order, before
// the weighted lines.
func (s *plainScanner) figure(fl *plainFlight, pos int) (int, bool) {
	n, pos, ok := s.number(pos, maxFigures)
	if !ok || fl.positioning || fl.harmony || !fl.fly(int(n)) {
		return 0, false
	}
	if c := s.text[pos]; c != ' ' && c != '\t' {
		return 0, false
	}
	return s.row(fl, pos+1)
}

// fly counts a figure that has a row, and says whether it may come now; one before
// it may have been left out, as far as there is a bit for it.
func (fl *plainFlight) fly(n int) bool {
	const most = 64
	switch {
	case fl.flown == 0 && n == int(fl.figures)+1:
	case n > most || fl.figures >= most || fl.flown != 0 && n <= bits.Len64(fl.flown) || n <= int(fl.figures):
		return false
	case fl.flown == 0:
		fl.flown = 1<<fl.figures - 1 | 1<<(n-1)
	default:
		fl.flown |= 1 << (n - 1)
	}
	fl.figures++
	return true
}

// lastFigure is the number of the last figure that has a row.
func (fl *plainFlight) lastFigure() int {
	if fl.flown != 0 {
		return bits.Len64(fl.flown)
	}
	return int(fl.figures)
}

// row reads the marks of a row to the end of the line, and adds them to those of
// the piece. All rows of a flight have as many.
func (s *plainScanner) row(fl *plainFlight, pos int) (int, bool) {
	if cap(s.marks)-len(s.marks) < mostJudges {
		s.marks = append(make([]scoring.Mark, 0, 2*cap(s.marks)), s.marks...)
	}
	row := s.marks[len(s.marks) : len(s.marks)+mostJudges]
	text, n := s.text, 0
	for {
		c := text[pos]
		for c == ' ' || c == '\t' {
			pos++
			c = text[pos]
		}
		if c == '\n' || c == '\r' || c == '#' {
			break
		}
		if n == mostJudges {
			return 0, false
		}
		whole, next := c-'0', text[pos+1]
		switch {
		case whole <= 9 && (next == ' ' || next == '\n'): // 8
			row[n].Half = 2 * whole
			row[n].Kind = scoring.Grade
			pos++
		case whole <= 9 && next == '.' && (text[pos+2] == '5' || text[pos+2] == '0') && ends(text[pos+3]): // 7.5
			row[n].Half = 2*whole + text[pos+2]&1
			row[n].Kind = scoring.Grade
			pos += 3
		default:
			mark, length := plainMark(text[pos:])
			if length == 0 {
				return 0, false
			}
			row[n] = mark
			pos += length
		}
		n++
	}
	if n == 0 || fl.figures+b2u(fl.positioning)+b2u(fl.harmony) > 1 && n != int(fl.judges) {
		return 0, false
	}
	fl.judges = uint8(n)
	s.marks = s.marks[:len(s.marks)+n]
	return s.lineEnd(pos)
}

func b2u(b bool) uint8 {
	if b {
		return 1
	}
	return 0
}

// plainMark reads the mark that a text begins with, and gives its length, 0 where
// it is none of the common ones.
func plainMark(text string) (scoring.Mark, int) {
	length := 0
	for !ends(text[length]) {
		if length++; length > len("10.0") {
			return scoring.Mark{}, 0
		}
	}
	text = text[:length]
	if half, ok := fastGrade(text); ok {
		return scoring.GradeOf(half), length
	}
	if text == "10.0" {
		return scoring.GradeOf(scoring.TopGrade), length
	}
	kind, ok := markWords[text]
	if !ok {
		return scoring.Mark{}, 0
	}
	return scoring.Mark{Kind: kind}, length
}
