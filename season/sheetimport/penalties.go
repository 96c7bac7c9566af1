package sheetimport

import (
	"slices"
	"strings"

	"boxbook/season"
)

// takePenalties takes the penalties that a total of the sheet has deducted, and names
// those that no total shows: either way nothing that was used is called unread.
func (s *sheet) takePenalties() {
	for i, row := range s.Rows {
		if s.another && i >= s.block.end {
			return
		}
		if s.block.has(i) || i <= s.layout.headings || slices.Contains(s.beneath, row.Number) || !penalized(row) || s.totalled(row) {
			continue
		}
		cell, value := s.printedPenalty(row)
		if value <= 0 {
			continue
		}
		name, called := s.cellName(cell.Column, row.Number), s.called(row)
		penalty, known := penaltyOf(row, value)
		if s.deducted[cell.Column] && !s.lone && s.derived[cell.Column].name != pointsOfEach {
			s.out.Penalties = append(s.out.Penalties, penalty)
			kind := ""
			if !known {
				kind = ", its kind not one of low, interruption, out and time"
			}
			s.note(name, "%s, %s, is taken as penalty %s%s", called, cell.Text, penalty, kind)
		} else {
			s.tellPenalty(name, called+", "+cell.Text, penalty)
		}
		s.compared[name] = true
		for _, c := range row.Cells {
			if c.Kind == Text && !s.isNumber(c) {
				s.compared[s.cellName(c.Column, row.Number)] = true
			}
		}
	}
}

// tellPenalty names a penalty that no total shows: one that the ledger has of the flight,
// be it of a kind that the sheet does not name, or what adds it.
func (s *sheet) tellPenalty(cell, printed, penalty string) {
	_, points, _ := strings.Cut(penalty, " ")
	for i, had := range s.o.Penalties {
		if _, its, _ := strings.Cut(had, " "); had == penalty || its == points && (strings.HasPrefix(had, "other ") || strings.HasPrefix(penalty, "other ")) {
			s.o.Penalties = slices.Delete(slices.Clone(s.o.Penalties), i, i+1)
			s.note(cell, "%s, is in the ledger already, as penalty %s", printed, had)
			return
		}
	}
	s.note(cell, "%s, is left out of the block, since no total shows that it was deducted once; to add it when the flight is written: boxbook log penalty --flight %s --penalty \"%s\"",
		printed, s.o.Flight, penalty)
}

// printedPenalty is the cell of a row of penalties that holds all judges' together: one
// that a total has deducted, else the row's only number.
func (s *sheet) printedPenalty(row Row) (Cell, float64) {
	if cell, labelled := s.labelled(row); labelled && (s.deducted[cell.Column] || !s.isJudges(cell.Column)) {
		value, _ := deduction(cell)
		return cell, value
	}
	var numbers []Cell
	for _, c := range row.Cells {
		if value, ok := deduction(c); ok && !s.isJudges(c.Column) && c.Column != s.layout.figure && c.Column != s.layout.k {
			if s.deducted[c.Column] {
				return c, value
			}
			numbers = append(numbers, c)
		}
	}
	if len(numbers) != 1 || s.hasMarks(row) {
		return Cell{}, 0
	}
	value, _ := deduction(numbers[0])
	return numbers[0], value
}

// penaltyOf is a penalty as a ledger writes it, its kind by the row's words; known is
// false where they name none.
func penaltyOf(row Row, value float64) (penalty string, known bool) {
	for _, c := range row.Cells {
		if c.Kind != Text {
			continue
		}
		for _, word := range strings.Fields(strings.Map(wordsOnly, folded(c.Text))) {
			if slices.Contains(season.PenaltyKinds, season.PenaltyKind(word)) {
				return word + " " + shortNumber(value), true
			}
		}
	}
	return "other " + shortNumber(value), false
}

// wordsOnly leaves a space for what stands around words.
func wordsOnly(r rune) rune {
	if strings.ContainsRune("()[],;/-–", r) {
		return ' '
	}
	return r
}
