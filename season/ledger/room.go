package ledger

import "boxbook/scoring"

// room is what the reading of one flight needs and the next one takes over: a
// ledger has thousands of them, and most of a reading's time would go into
// allocation. Nothing in it outlives its flight, but for the marks.
type room struct {
	open  bool // a flight is being read
	walks []words
	spare []words // places for the words of other blocks' lines, which some keep
	lines []bodyLine
	rows  []bodyLine
	seen  map[rowKey]int32
	marks []scoring.Mark // what is left of a piece that rows are cut from
}

// enter makes room for a flight of so many lines.
func (m *room) enter(lines int) {
	m.open = true
	if cap(m.walks) < lines {
		m.walks = make([]words, 0, 2*lines)
	}
	m.walks = m.walks[:0]
}

// leave gives it back.
func (m *room) leave() { m.open = false }

// words is a place for the words of a line.
func (m *room) words() *words {
	if !m.open || len(m.walks) == cap(m.walks) {
		if len(m.spare) == 0 {
			m.spare = make([]words, spareWords)
		}
		w := &m.spare[0]
		m.spare = m.spare[1:]
		return w
	}
	m.walks = m.walks[:len(m.walks)+1]
	return &m.walks[len(m.walks)-1]
}

// spareWords is how many places for words are allocated at a time.
const spareWords = 32

// bodyLines is a place for so many lines.
func (m *room) bodyLines(lines int) []bodyLine {
	if !m.open {
		return make([]bodyLine, 0, lines)
	}
	if cap(m.lines) < lines {
		m.lines = make([]bodyLine, 0, 2*lines)
	}
	return m.lines[:0]
}

// mostSeen is how many rows a table may have held to be emptied for another flight:
// emptying takes as long as it is large.
const mostSeen = 64

// seenRows is an empty table of rows by what they are of.
func (m *room) seenRows() map[rowKey]int32 {
	if m.seen == nil || len(m.seen) > mostSeen {
		m.seen = map[rowKey]int32{}
	}
	clear(m.seen)
	return m.seen
}

// pieceOfMarks is how many marks are allocated at a time.
const pieceOfMarks = 1024

// row is a place for up to so many marks, the row's own from then on.
func (m *room) row(most int) []scoring.Mark {
	if len(m.marks) < most {
		m.marks = make([]scoring.Mark, max(most, pieceOfMarks))
	}
	row := m.marks[:0:most]
	m.marks = m.marks[most:]
	return row
}
