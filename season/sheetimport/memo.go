package sheetimport

import "boxbook/scoring"

// memo keeps what texts were read as. A sheet is looked at in several ways, and
// most of its cells hold the same few texts.
type memo struct {
	lines map[text]lineRead
	marks map[text]markRead
}

// text is a cell wherever it stands.
type text struct {
	kind Kind
	text string
}

type lineRead struct {
	line Line
	ok   bool
}

type markRead struct {
	mark          scoring.Mark
	problem, hint string
}

func newMemo() *memo { return &memo{lines: map[text]lineRead{}, marks: map[text]markRead{}} }

// lineOf reads a cell as the name of a line: by its label in the ledger, where
// one figure alone has it, or as lineOf does.
func (s *sheet) lineOf(c Cell) (Line, bool) {
	if c.Kind == Empty {
		return Line{}, false
	}
	key := text{c.Kind, c.Text}
	read, known := s.memo.lines[key]
	if !known {
		read.line, read.ok = s.lineRead(c)
		s.memo.lines[key] = read
	}
	return read.line, read.ok
}

// mark reads a cell as a mark, or says why it is none.
func (s *sheet) mark(c Cell) (mark scoring.Mark, problem, hint string) {
	if grade, ok := withoutPoint(c); ok && (s.tenths || beginsWithZero(c)) {
		return grade, "", ""
	}
	key := text{c.Kind, c.Text}
	read, known := s.memo.marks[key]
	if !known {
		read.mark, read.problem, read.hint = s.markRead(c)
		s.memo.marks[key] = read
	}
	return read.mark, read.problem, read.hint
}
