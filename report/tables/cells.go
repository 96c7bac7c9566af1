package tables

import (
	"fmt"
	"slices"

	"boxbook/report"
	"boxbook/report/words"
)

// num shows a number with the decimals of points.
func num(n report.Number) report.Cell { return report.Num(n, words.PointDecimals) }

// CountCell shows a whole number.
func CountCell(n int) report.Cell { return report.Num(report.Int(int64(n)), 0) }

// Notes are notes without marks.
func Notes(texts []string) *report.Notes {
	notes := &report.Notes{}
	for _, text := range texts {
		notes.Items = append(notes.Items, report.Note{Text: text})
	}
	return notes
}

// AddNote adds a note without a mark.
func AddNote(notes *report.Notes, format string, args ...any) {
	notes.Items = append(notes.Items, report.Note{Text: fmt.Sprintf(format, args...)})
}

// AddFact adds a label and its value.
func AddFact(facts *report.Facts, label string, value report.Cell) {
	facts.Items = append(facts.Items, report.Fact{Label: label, Value: value})
}

// notesOf are notes without marks.
func notesOf(texts []string) *report.Notes {
	notes := &report.Notes{}
	for _, text := range texts {
		notes.Items = append(notes.Items, report.Note{Text: text})
	}
	return notes
}

// Filled is a table for people without the columns in which no row has anything; those
// that say what a row is about stay.
func Filled(t *report.Table) *report.Table {
	if len(t.Rows) == 0 {
		return t
	}
	filled := *t
	filled.Columns, filled.Rows, filled.Footer = nil, make([][]report.Cell, len(t.Rows)), make([][]report.Cell, len(t.Footer))
	for i, column := range t.Columns {
		has := func(row []report.Cell) bool { return i < len(row) && (row[i].String() != "" || row[i].Mark != "") }
		if i >= t.Key && !slices.ContainsFunc(t.Rows, has) && !slices.ContainsFunc(t.Footer, has) {
			continue
		}
		filled.Columns = append(filled.Columns, column)
		for _, part := range []struct{ from, to [][]report.Cell }{{t.Rows, filled.Rows}, {t.Footer, filled.Footer}} {
			for j, row := range part.from {
				if i < len(row) {
					part.to[j] = append(part.to[j], row[i])
				}
			}
		}
	}
	return &filled
}

// only is a table with the columns of these keys alone.
func only(t *report.Table, keys ...string) *report.Table {
	kept := *t
	kept.Columns, kept.Rows = nil, make([][]report.Cell, len(t.Rows))
	for i, column := range t.Columns {
		if !slices.Contains(keys, column.Key) {
			continue
		}
		kept.Columns = append(kept.Columns, column)
		for j, row := range t.Rows {
			kept.Rows[j] = append(kept.Rows[j], row[i])
		}
	}
	return &kept
}

// Whole is a table that leaves out no column at any width: what has no room goes on in
// another part, so that a page with all on it never shows less than the brief one.
func Whole(t *report.Table) *report.Table {
	whole := *t
	whole.Columns = slices.Clone(t.Columns)
	for i := range whole.Columns {
		whole.Columns[i].Drop = 0
	}
	return &whole
}
