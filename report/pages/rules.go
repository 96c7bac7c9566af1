package pages

import (
	"fmt"

	"boxbook/report"
	"boxbook/report/words"
	"boxbook/season"
)

// rulesSection says in plain words how the flight's rule style counts marks,
// and what of it came to bear on this flight.
func rulesSection(f *season.Flight) report.Section {
	style := f.Style
	name := style.Name
	if f.StyleDefault {
		name += " (nobody named one, so this is the default)"
	}
	items := []report.Note{
		{Text: words.HardZeroWords(style.Style)},
		{Text: words.HalfWords(style.Style)},
		{Text: "a confirmed hard zero (CHZ) makes the figure 0 from every judge, one in a row is enough"},
		{Text: "a perception zero (PZ) and a grade of 0.0 are ordinary zeros in the mean"},
		{Text: words.FillWords(style.FillRounding)},
		{Text: words.DropWords(style.DropExtremes, len(f.Panel))},
		{Text: "points are K times the mean of the marks that count, summed, less penalties, never below 0; percent is of 10 times the sum of K, positioning and harmony included"},
	}
	return report.Section{Heading: "Rules", Blocks: []report.Block{
		&report.Paragraph{Text: fmt.Sprintf("Rule style %s:", name)},
		&report.Notes{Items: items},
		&report.Paragraph{Text: "The rules in force at the contest decide; a rule style only says how this book counts."},
	}}
}
