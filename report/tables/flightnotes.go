package tables

import (
	"fmt"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// SheetNotes explain every mark that did not count as it stands; what holds for
// several lines is said once, of all of them.
func SheetNotes(d answers.Flight) *report.Notes {
	var texts []string
	lines := map[string][]string{} // that a text is of
	used := map[answers.Counting]bool{}
	each := func(name string, line answers.Line) {
		for _, cell := range line.Cells {
			used[cell.Counted] = true
		}
		for _, text := range []string{words.RulingText(*d.Style, line), line.Remark} {
			if text == "" {
				continue
			}
			if lines[text] == nil {
				texts = append(texts, text)
			}
			lines[text] = append(lines[text], name)
		}
	}
	for _, figure := range d.Figures {
		name := words.LineName("", figure.Number)
		for i, row := range figure.Rows {
			each(words.RowName(name, i), row)
		}
		if len(figure.Rows) == 0 {
			each(name, figure.Line)
		}
	}
	if d.Positioning != nil {
		each(words.PositioningName, *d.Positioning)
	}
	if d.Harmony != nil {
		each(words.HarmonyName, *d.Harmony)
	}
	plain := make([]string, len(texts))
	for i, text := range texts {
		plain[i] = fmt.Sprintf("%s: %s", words.LinesSaid(lines[text]), text)
	}
	return &report.Notes{Items: append(signNotes(*d.Style, used), Notes(plain).Items...)}
}

// signNotes say what the signs behind marks mean, those on the page only.
func signNotes(style answers.RuleStyle, used map[answers.Counting]bool) []report.Note {
	var notes []report.Note
	for _, sign := range []struct {
		counted    answers.Counting
		mark, text string
	}{
		{answers.FilledMark, words.FilledSign, words.FilledText(style)},
		{answers.OverruledMark, words.OverruledSign, words.OverruledText},
		{answers.DroppedMark, words.DroppedSign, words.DroppedText},
	} {
		if used[sign.counted] {
			notes = append(notes, report.Note{Mark: sign.mark, Text: sign.text})
		}
	}
	return notes
}
