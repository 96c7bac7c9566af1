package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// officialSection says whether the official total is right, and what would
// explain it where it is not.
func officialSection(d answers.Flight) []report.Section {
	o := d.Official
	if o == nil || (o.Agrees == nil && len(o.Explanations) == 0) {
		return nil
	}
	section := report.Section{Heading: words.OfficialHeading}
	section.Blocks = append(section.Blocks, &report.Paragraph{Text: words.OfficialSentence(d)})
	if notes := words.OfficialNotes(o); len(notes) > 0 {
		section.Blocks = append(section.Blocks, tables.Notes(notes))
	}
	if o.Agrees != nil && !*o.Agrees {
		section.Blocks = append(section.Blocks, &report.Paragraph{Text: words.OfficialFoot(o)})
	}
	return []report.Section{section}
}
