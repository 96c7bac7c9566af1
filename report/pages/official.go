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
	section := report.Section{Heading: "Is the official total right?"}
	section.Blocks = append(section.Blocks, &report.Paragraph{Text: words.OfficialSentence(d)})
	notes := &report.Notes{}
	for i, e := range o.Explanations {
		if i == words.ShownExplanations {
			tables.AddNote(notes, "and %d more, in --format json", len(o.Explanations)-i)
			break
		}
		tables.AddNote(notes, "%s", e.Text)
	}
	for _, j := range o.Judges {
		if !j.Agrees && j.Own.Known() {
			tables.AddNote(notes, "judge %s: printed %s, the marks give %s", j.Judge, j.Points.Text(words.PointDecimals), j.Own.Text(words.PointDecimals))
		}
	}
	if len(notes.Items) > 0 {
		section.Blocks = append(section.Blocks, notes)
	}
	if o.Agrees != nil && !*o.Agrees {
		section.Blocks = append(section.Blocks, &report.Paragraph{Text: words.OfficialFoot(o)})
	}
	return []report.Section{section}
}
