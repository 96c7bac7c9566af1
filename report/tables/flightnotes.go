package tables

import (
	"fmt"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/scoring"
	"boxbook/season"
)

// SheetNotes explain every mark that did not count as it stands.
func SheetNotes(f *season.Flight, d answers.Flight) *report.Notes {
	notes := &report.Notes{}
	used := map[answers.MarkFlag]bool{}
	each := func(name string, line answers.Line, kind scoring.LineKind, figure int) {
		for _, flag := range line.Flags {
			used[flag] = true
		}
		if text := words.RulingText(f, line, f.MarksOf(kind, figure)); text != "" {
			AddNote(notes, "%s: %s", name, text)
		}
		if line.Remark != "" {
			AddNote(notes, "%s: %s", name, line.Remark)
		}
	}
	for _, figure := range d.Figures {
		each(fmt.Sprintf("figure %d", figure.Number), figure.Line, scoring.Figure, figure.Number)
	}
	if d.Positioning != nil {
		each("positioning", *d.Positioning, scoring.Positioning, 0)
	}
	if d.Harmony != nil {
		each("harmony", *d.Harmony, scoring.Harmony, 0)
	}
	notes.Items = append(signNotes(f, used), notes.Items...)
	return notes
}

// signNotes say what the signs behind marks mean, those on the page only.
func signNotes(f *season.Flight, used map[answers.MarkFlag]bool) []report.Note {
	var notes []report.Note
	if used[answers.FilledMark] {
		notes = append(notes, report.Note{Mark: words.FilledSign, Text: "filled with the mean of the other marks of the row, " + words.RoundingText(f)})
	}
	if used[answers.OverruledMark] {
		notes = append(notes, report.Note{Mark: words.OverruledSign, Text: "overruled: the figure is 0 from every judge"})
	}
	if used[answers.DroppedMark] {
		notes = append(notes, report.Note{Mark: words.DroppedSign, Text: "highest or lowest of the row, left out of the mean"})
	}
	return notes
}

// ScoreNotes say what a person must know beside the numbers.
func ScoreNotes(d answers.Flight) *report.Notes {
	notes := &report.Notes{}
	if d.Void != "" {
		AddNote(notes, "void: %s; the flight enters no figure anywhere", d.Void)
	}
	if d.Undecided {
		AddNote(notes, "undecided: the score is a range until a ruling is recorded; without an official total the flight enters no season figure")
	}
	if len(d.Missing) > 0 && d.Points.Known() {
		AddNote(notes, "without the %s of %s the own total is that of the sheets to hand", words.PluralWord(len(d.Missing), "sheet", "sheets"), strings.Join(d.Missing, ", "))
	}
	if d.Record != nil && d.Record.Source == string(season.Printed) && d.Points.Known() {
		AddNote(notes, "the record, which season and trend use, is the official total as typed")
	}
	for _, p := range d.Penalties {
		if p.Remark != "" {
			AddNote(notes, "penalty, %s: %s", p.Kind, p.Remark)
		}
	}
	for _, note := range d.Notes {
		AddNote(notes, "%s", note)
	}
	return notes
}
