package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Home is the first page of a pilot: what stands open, how it goes, what comes up,
// and where to look next.
func Home(d answers.Home) report.Document {
	d = words.SayHome(d)
	return report.Document{Title: words.HomeTitle(d), Data: d, Sections: []report.Section{
		{Blocks: []report.Block{tables.HomeFacts(d)}},
	}}
}
