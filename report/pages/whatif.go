package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// WhatIf is the page of a changed score sheet; asked says that a target was asked
// about.
func WhatIf(d answers.WhatIf, asked bool) report.Document {
	doc := report.Document{Title: words.WhatIfPageTitle(d), Data: d}
	first := paragraphs(words.WhatIfSentences(d, asked))
	if len(d.Changes) > 0 {
		first = append(first, tables.WhatIfTable(d))
	}
	if notes := tables.WhatIfNotes(d); len(notes.Items) > 0 {
		first = append(first, notes)
	}
	doc.Sections = append(doc.Sections, report.Section{Blocks: first})
	if len(d.Lines) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Heading: words.WhatIfLinesHeading, Blocks: []report.Block{tables.WhatIfLines(d)}})
	}
	if r := d.Reach; r != nil && !r.Reached && r.Alone() > 0 {
		doc.Sections = append(doc.Sections, report.Section{Heading: words.ReachHeading, Blocks: []report.Block{tables.ReachTable(*r), tables.ReachNotes(*r)}})
	}
	return doc
}
