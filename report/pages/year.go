package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/season/analysis"
)

// Year is the treasurer's page.
func Year(y analysis.YearSummary) report.Document { return yearDocument(answers.YearOf(y)) }
