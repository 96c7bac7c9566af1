package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// officialSection says whether the official total is right, and what would
// explain it; none where it is not typed or there is nothing to compare.
func officialSection(d answers.Flight) []report.Section {
	o := d.Official
	if o == nil || (o.Agrees == nil && len(o.Explanations) == 0) {
		return nil
	}
	said := &report.Paragraph{Text: words.OfficialSentence(d)}
	explained := explainedBelow(d, false)
	if explained == nil {
		return []report.Section{{Heading: words.OfficialHeading, Blocks: []report.Block{said}}}
	}
	explained[0].Blocks = append([]report.Block{said}, explained[0].Blocks...)
	return explained
}

// explainedSection is what would explain an official total that is not that of the
// marks, and what to do; none where there is nothing to explain.
func explainedSection(d answers.Flight) []report.Section { return explainedBelow(d, true) }

// explainedBelow is that; above says that the first explanation is given above the
// marks, else it is right above the section.
func explainedBelow(d answers.Flight, above bool) []report.Section {
	o := d.Official
	if o == nil {
		return nil
	}
	section := report.Section{Heading: words.OfficialHeading}
	if judges := words.JudgesApart(o); len(judges) > 0 {
		section.Blocks = append(section.Blocks, tables.Notes(judges))
	}
	if others := words.OtherExplanations(o, above); others != "" {
		section.Blocks = append(section.Blocks, &report.Paragraph{Text: others})
	}
	if notes := words.OfficialNotes(o); len(notes) > 0 {
		section.Blocks = append(section.Blocks, tables.Notes(notes))
	}
	if o.Agrees != nil && !*o.Agrees {
		section.Blocks = append(section.Blocks, &report.Paragraph{Text: words.OfficialFoot(o)})
	}
	if len(section.Blocks) == 0 {
		return nil
	}
	return []report.Section{section}
}
