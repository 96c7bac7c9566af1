package sheetimport

import (
	"fmt"
	"strings"

	"boxbook/report/display"
)

// tellRows says which marks formulas gave, and which rows are no line's.
func (s *sheet) tellRows() {
	if n := len(s.formulas); n > 0 {
		s.note(s.formulas[0], "%s: the stored value is taken, nothing is calculated (%s)", display.Counted(n, "formula", "formulas"), listed(s.formulas))
	}
	var skipped []string
	for _, row := range s.skipped {
		if cell, labelled := s.labelled(row); !labelled || !s.compared[s.cellName(cell.Column, row.Number)] {
			skipped = append(skipped, fmt.Sprintf("%s %s", bare(s.rowName(row.Number)), s.called(row)))
		}
	}
	if n := len(skipped); n > 0 {
		s.note("", "not read: %s %s", s.rowsWord(n), listed(skipped))
	}
}

// listed lists the first dozen.
func listed(items []string) string {
	const most = 12
	if len(items) > most {
		return strings.Join(items[:most], ", ") + fmt.Sprintf(" and %d more", len(items)-most)
	}
	return strings.Join(items, ", ")
}

// mostShown is how many characters of a cell are shown at most.
const mostShown = 40

// quoted shows what a cell holds, shortened, nothing of it left raw.
func quoted(text string) string {
	runes := []rune(text)
	if len(runes) > mostShown {
		text = string(runes[:mostShown]) + "…"
	}
	return fmt.Sprintf("%q", text)
}

// described says what a cell holds.
func described(c Cell) string {
	switch c.Kind {
	case Empty:
		return "an empty cell"
	case Unsolved:
		return "a formula without a stored value"
	case Date:
		return "the date " + datePlain(c.Text)
	default:
		return quoted(c.Text)
	}
}

// datePlain shows the date of a cell; one that the file spells in its own way is
// quoted.
func datePlain(text string) string {
	if strings.Trim(text, "0123456789-.") != "" || len(text) > mostShown {
		return quoted(text)
	}
	return text
}
