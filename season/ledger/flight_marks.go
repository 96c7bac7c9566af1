package ledger

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/report/display"

	"boxbook/scoring"
	"boxbook/season"
)

// marks reads the rows, or the sheets.
func (fr *flightReader) marks() {
	fr.dropLines()
	rows, sheets := fr.markLines()
	if len(rows)+len(sheets) == 0 {
		return
	}
	if len(rows) > 0 && len(sheets) > 0 {
		second, what, before := sheets[0], "a sheet", "rows by figure"
		if row, sheet := rows[0], sheets[0]; row.f.number(row.line) > sheet.f.number(sheet.line) {
			second, what, before = rows[0], "a row", "sheets"
		}
		fr.at(second.f, second.key, rowsAndSheets, what, before)
		return
	}
	fr.needed()
	if len(sheets) > 0 {
		fr.readSheets(sheets)
		return
	}
	fr.readRows(rows)
}

// markLines are the lines with marks: by row, or by sheet.
func (fr *flightReader) markLines() (rows, sheets []bodyLine) {
	rows = fr.room.rows[:0]
	for _, line := range fr.lines {
		switch {
		case line.num >= 0, line.name() == "positioning", line.name() == "harmony":
			rows = append(rows, line)
		case line.name() == "sheet":
			sheets = append(sheets, line)
		}
	}
	fr.room.rows = rows
	return rows, sheets
}

// needed reports a flight that has marks and no panel or no sequence.
func (fr *flightReader) needed() {
	if fr.fl.Sequence == nil && !fr.lostSequence {
		fr.lostSequence = true
		fr.at(fr.b.f, fr.head, noSequence)
	}
	if len(fr.fl.Panel) == 0 && !fr.lostPanel {
		fr.lostPanel = true
		d := fr.at(fr.b.f, fr.head, noPanel)
		if c := fr.fl.Contest; c != nil {
			d.rooted(c, "")
		}
	}
}

// rowKey tells rows apart.
type rowKey int

// rowOf is the key of a row; num is -1 for a weighted line.
func rowOf(kind scoring.LineKind, num int) rowKey { return rowKey(num<<8 | int(kind)) }

// lineName says which line of a sheet is meant.
func lineName(kind scoring.LineKind, figure int) string {
	return season.Ruling{Line: kind, Figure: figure}.Name()
}

// kindOf tells a row's kind.
func kindOf(line bodyLine) scoring.LineKind {
	switch line.name() {
	case "positioning":
		return scoring.Positioning
	case "harmony":
		return scoring.Harmony
	default:
		return scoring.Figure
	}
}

// dropLines takes back the edits that would make a row of a line that the
// sequence lacks.
func (fr *flightReader) dropLines() {
	s := fr.fl.Sequence
	fr.dropGuesses(fr.b, func(key string) bool {
		return s != nil && (key == "positioning" && s.Positioning == 0 || key == "harmony" && s.Harmony == 0)
	})
}

// readRows reads one row a figure.
func (fr *flightReader) readRows(rows []bodyLine) {
	fl := fr.fl
	if fl.Sequence != nil {
		fr.rows = make([]season.Row, len(fl.Sequence.Figures))
	}
	seen, misplaced := fr.room.seenRows(), 0
	for turn, line := range rows {
		kind := kindOf(line)
		key := rowOf(kind, line.num)
		first, twice := seen[key]
		if twice && kind == scoring.Figure && fr.fl.Programme == season.Practice {
			fr.again(line, turn)
			continue
		}
		if twice {
			misplaced++
			marks, _, _, bad := line.marks()
			if bad {
				line.onlyOneReading(len(marks), 0)
				line.onlyFirst()
				continue
			}
			fr.at(line.f, line.key, rowDoubled, lineName(kind, line.num), display.Counted(len(marks), "mark", "marks"), line.f.number(first), judgeCount(len(fr.fl.Panel)))
			continue
		}
		seen[key] = line.line
		if !fr.hasLine(line, kind) {
			continue
		}
		marks, tokens, remark, bad := line.marks()
		fr.checkRow(line, kind, marks, tokens, bad)
		misplaced += fr.glued(marks)
		fr.keep(kind, line.num, season.Row{Marks: marks, Remark: remark, Turn: turn})
	}
	fl.Rows = season.RowsOf(fr.rows...)
	fr.missingRows(seen, misplaced)
}

// glued counts the rows that stand in one line with another; of one judge's marks
// that cannot be told.
func (fr *flightReader) glued(marks []scoring.Mark) int {
	if len(fr.fl.Panel) < 2 {
		return 0
	}
	return max(0, len(marks)/len(fr.fl.Panel)-1)
}

// again reads one more row of a figure that was flown several times.
func (fr *flightReader) again(line bodyLine, turn int) {
	marks, tokens, remark, bad := line.marks()
	fr.checkRow(line, scoring.Figure, marks, tokens, bad)
	if at := line.num - 1; at >= 0 && at < len(fr.rows) {
		row := &fr.rows[at]
		row.Again = append(row.Again, season.Row{Marks: marks, Remark: remark, Turn: turn})
	}
}

// keep puts a row where it belongs.
func (fr *flightReader) keep(kind scoring.LineKind, figure int, row season.Row) {
	switch {
	case kind == scoring.Positioning:
		fr.fl.Positioning = new(season.Row)
		*fr.fl.Positioning = row
	case kind == scoring.Harmony:
		fr.fl.Harmony = new(season.Row)
		*fr.fl.Harmony = row
	case figure >= 1 && figure <= len(fr.rows):
		fr.rows[figure-1] = row
	}
}

// hasLine reports a row of a figure or a line that the sequence lacks.
func (fr *flightReader) hasLine(line bodyLine, kind scoring.LineKind) bool {
	s := fr.fl.Sequence
	if s == nil || fr.lostSequence {
		return true
	}
	switch {
	case kind == scoring.Figure && (line.num < 1 || line.num > len(s.Figures)):
		fr.at(line.f, line.key, noSuchFigure, line.name(), fmt.Sprintf("sequence %q", s.Handle), display.Counted(len(s.Figures), "figure", "figures")).
			rooted(s, "")
		return false
	case kind == scoring.Positioning && s.Positioning == 0, kind == scoring.Harmony && s.Harmony == 0:
		fr.at(line.f, line.key, noSuchLine, fmt.Sprintf("sequence %q", s.Handle), line.name()).rooted(s, line.name())
		return false
	}
	return true
}

// checkRow reports a row of the wrong length and marks that its kind of line
// cannot have.
func (fr *flightReader) checkRow(line bodyLine, kind scoring.LineKind, marks []scoring.Mark, tokens []token, bad bool) {
	line.onlyOneReading(len(marks), len(fr.fl.Panel))
	if bad && !line.failed && (len(marks) != len(fr.fl.Panel) || line.noneRead(len(marks))) {
		line.onlyFirst()
		return
	}
	for i, m := range marks {
		if kind != scoring.Figure && m.FigureOnly() {
			fr.at(line.f, tokens[i], zeroOnWeighted, m, line.name())
		}
	}
	if fr.lostPanel || line.torn && len(marks) < len(fr.fl.Panel) || len(marks) == len(fr.fl.Panel) || (bad && line.f.lines[line.line].broken) || (bad && line.failed) {
		return
	}
	at := lengthPlace(after(line.key), tokens, len(fr.fl.Panel))
	d := fr.at(line.f, at, rowLength, lineName(kind, line.num), display.Counted(len(marks), "mark", "marks"), judgeCount(len(fr.fl.Panel)), strings.Join(fr.fl.Panel, " ")).
		rooted(fr.panel, fmt.Sprint(len(marks)))
	if fr.glued(marks) > 0 {
		d.hinted(twoLines)
	}
}

// lengthPlace is where a row or a sheet is too long or too short: its first
// mark too many, or the place behind its last one.
func lengthPlace(empty token, tokens []token, want int) token {
	switch {
	case len(tokens) > want:
		return tokens[want]
	case len(tokens) > 0:
		return after(tokens[len(tokens)-1])
	default:
		return empty
	}
}

// missingRows reports every line of the sequence that has no row; in practice
// only what was flown has one. As many as were misplaced, under another number or
// in one line with another, may be those.
func (fr *flightReader) missingRows(seen map[rowKey]int32, misplaced int) {
	s := fr.fl.Sequence
	if s == nil || fr.lostSequence || fr.strayKeys || fr.fl.Programme == season.Practice || fr.fl.Programme == "" {
		return
	}
	var missing []string
	for i := range s.Figures {
		if !has(seen, rowOf(scoring.Figure, i+1)) {
			missing = append(missing, lineName(scoring.Figure, i+1))
		}
	}
	if s.Positioning > 0 && !has(seen, rowOf(scoring.Positioning, -1)) {
		missing = append(missing, "positioning")
	}
	if s.Harmony > 0 && !has(seen, rowOf(scoring.Harmony, -1)) {
		missing = append(missing, "harmony")
	}
	if len(missing) > misplaced {
		verb := "has"
		if len(missing) > 1 {
			verb = "have"
		}
		panel := ""
		if judges := fr.fl.Panel; len(judges) > 0 {
			panel = fmt.Sprintf("; the panel has %s (%s)", judgeCount(len(judges)), strings.Join(judges, " "))
		}
		fr.at(fr.b.f, fr.head, rowMissing, strings.Join(missing, ", "), verb, panel).
			rooted(s, strings.Join(missing, ", "))
	}
}

func has[K comparable](seen map[K]int32, key K) bool {
	_, ok := seen[key]
	return ok
}

// readSheets reads one line a judge: figures in order, then positioning, then
// harmony, and turns them into rows.
func (fr *flightReader) readSheets(sheets []bodyLine) {
	fl := fr.fl
	columns := make([][]scoring.Mark, len(fl.Panel))
	first, stray := map[string]int32{}, fr.sheetsWithoutTheWord()
	for _, line := range sheets {
		tok, judge, ok := line.handle("a judge")
		if !ok {
			stray = true
			continue
		}
		if n, twice := first[judge]; twice {
			fr.at(line.f, tok, rowTwice, "judge "+judge, "sheet", line.f.number(n))
			stray = true
			continue
		}
		first[judge] = line.line
		marks, tokens, _, bad := line.marks()
		line.onlyOneReading(len(marks), fr.sheetLength())
		j := slices.Index(fl.Panel, judge)
		if j < 0 && !fr.lostPanel {
			fr.at(line.f, tok, sheetUnknown, judge, strings.Join(fl.Panel, " ")).rooted(fr.panel, judge).didYouMean(judge, fl.Panel)
			stray = true
			continue
		}
		fr.checkSheet(line, judge, marks, tokens, bad)
		if j >= 0 {
			columns[j] = marks
		}
	}
	if fr.lostPanel || fr.lostSequence || stray {
		return // a sheet under a wrong name is not missing besides
	}
	for _, judge := range fl.Panel {
		if !has(first, judge) {
			fr.at(fr.b.f, fr.head, sheetMissing, judge).hinted(messages[sheetMissing].hint, judge)
			return
		}
	}
	fr.turn(columns)
}

// sheetsWithoutTheWord reports whether lines begin with a judge where the word
// sheet should stand, and says so there.
func (fr *flightReader) sheetsWithoutTheWord() bool {
	found := false
	for _, i := range fr.b.guesses {
		d := &fr.list[i]
		if judge := d.at.f.text[d.at.start:d.at.end]; slices.Contains(fr.fl.Panel, judge) {
			d.advise(instead("write %s", "sheet "+judge))
			found = true
		}
	}
	return found
}

// sheetLength is how many marks a sheet has, 0 where that cannot be told.
func (fr *flightReader) sheetLength() int {
	if fr.lostSequence || fr.fl.Sequence == nil {
		return 0
	}
	return len(fr.sheetLines())
}

// sheetLines lists the lines of a sheet in order.
func (fr *flightReader) sheetLines() []scoring.LineKind {
	kinds := make([]scoring.LineKind, len(fr.fl.Sequence.Figures), len(fr.fl.Sequence.Figures)+2)
	if fr.fl.Sequence.Positioning > 0 {
		kinds = append(kinds, scoring.Positioning)
	}
	if fr.fl.Sequence.Harmony > 0 {
		kinds = append(kinds, scoring.Harmony)
	}
	return kinds
}

// checkSheet reports a sheet of the wrong length and marks that a weighted
// line cannot have.
func (fr *flightReader) checkSheet(line bodyLine, judge string, marks []scoring.Mark, tokens []token, bad bool) {
	if fr.lostSequence || (bad && line.f.lines[line.line].broken) || line.failed {
		return
	}
	kinds := fr.sheetLines()
	if bad && len(marks) != len(kinds) {
		line.onlyFirst()
		return
	}
	for i, m := range marks {
		if i < len(kinds) && kinds[i] != scoring.Figure && m.FigureOnly() {
			fr.at(line.f, tokens[i], zeroOnWeighted, m, lineName(kinds[i], 0))
		}
	}
	if len(marks) == len(kinds) || line.torn && len(marks) < len(kinds) {
		return
	}
	at := lengthPlace(after(line.nth(1)), tokens, len(kinds))
	want := display.Counted(len(fr.fl.Sequence.Figures), "figure", "figures")
	if extra := len(kinds) - len(fr.fl.Sequence.Figures); extra == 1 {
		want += " and " + lineName(kinds[len(kinds)-1], 0)
	} else if extra == 2 {
		want += ", positioning and harmony"
	}
	if len(kinds) > len(fr.fl.Sequence.Figures) {
		want += fmt.Sprintf(": %d marks are expected", len(kinds))
	}
	fr.at(line.f, at, sheetLength, judge, display.Counted(len(marks), "mark", "marks"), want).rooted(fr.fl.Sequence, fmt.Sprint(len(marks)))
}

// turn makes rows of the judges' columns.
func (fr *flightReader) turn(columns [][]scoring.Mark) {
	kinds := fr.sheetLines()
	fr.rows = make([]season.Row, len(fr.fl.Sequence.Figures))
	defer func() { fr.fl.Rows = season.RowsOf(fr.rows...) }()
	for i, kind := range kinds {
		row := season.Row{Marks: make([]scoring.Mark, len(columns))}
		for j, column := range columns {
			if i >= len(column) {
				return
			}
			row.Marks[j] = column[i]
		}
		fr.keep(kind, i+1, row)
	}
}
