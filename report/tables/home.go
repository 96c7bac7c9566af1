package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// HomeFacts are what a pilot should know first.
func HomeFacts(d answers.Home) *report.Facts {
	return homeFacts(words.HomeLines(d))
}

// ClubHomeFacts are what a treasurer should know first.
func ClubHomeFacts(d answers.ClubHome, warnings int, drafts []answers.Draft) *report.Facts {
	return homeFacts(words.ClubHomeLines(d, warnings, drafts))
}

func homeFacts(lines []words.HomeLine) *report.Facts {
	facts := &report.Facts{}
	for _, line := range lines {
		value := report.Text(line.Text)
		if line.Bad {
			value = value.Toned(report.Bad)
		}
		AddFact(facts, line.Label, value)
	}
	return facts
}
