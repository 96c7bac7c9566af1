package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// HomeFacts are what a pilot should know first.
func HomeFacts(d answers.Home) *report.Facts {
	facts := &report.Facts{}
	for _, line := range words.HomeLines(d) {
		value := report.Text(line.Text)
		if line.Bad {
			value = value.Toned(report.Bad)
		}
		AddFact(facts, line.Label, value)
	}
	return facts
}
