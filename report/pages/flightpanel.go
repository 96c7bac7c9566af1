package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// panelSection shows the judges' totals, and what the grades say of the panel.
func panelSection(d answers.Flight) report.Section {
	section := report.Section{Heading: "Judges", Blocks: []report.Block{tables.JudgeTable(d)}}
	notes := &report.Notes{}
	if d.Noise.Known() {
		tables.AddNote(notes, "noise: another panel of this size would change the percent by about %s by chance, one standard deviation; a grade scatters by %s",
			d.Noise.Text(1), d.Scatter.Text(words.GradeDecimals))
		tables.AddNote(notes, "leniency: grades above (+) or below (-) this panel; one pilot's sheets cannot tell a lenient judge from one who likes this pilot's flying")
	}
	notes.Items = append(notes.Items, tables.FlagNotes(d.Flags).Items...)
	if d.Refit {
		tables.AddNote(notes, "leniency and scatter are worked out without the flagged grades; the score is not changed")
	}
	if len(notes.Items) > 0 {
		section.Blocks = append(section.Blocks, notes)
	}
	return section
}
