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
	if d.Club != nil {
		doc := clubHome(*d.Club, d.Warnings, d.Drafts)
		doc.Data = d
		return doc
	}
	return report.Document{Title: words.HomeTitle(d), Data: d, Sections: []report.Section{
		{Blocks: []report.Block{tables.HomeFacts(d)}},
	}}
}

// clubHome is the first page of a treasurer: the result of the year, what is owed to the
// club, and the latest counts; warnings and drafts are the ledger's.
func clubHome(d answers.ClubHome, warnings int, drafts []answers.Draft) report.Document {
	return report.Document{Title: words.ClubHomeTitle(d), Sections: []report.Section{
		{Blocks: []report.Block{tables.ClubHomeFacts(d, warnings, drafts)}},
	}}
}
