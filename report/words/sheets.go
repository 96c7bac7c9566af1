package words

import (
	"boxbook/report/answers"
)

// The questions that the workbook's first page answers in words, and what it
// says where there is nothing to answer with.
const (
	VerdictTrend    = "Trend"
	VerdictFamilies = "Families"
	VerdictPlan     = "Next points"
	VerdictFaults   = "Faults"
	VerdictDrills   = "Drills"
	VerdictReady    = "Readiness"
	VerdictCaution  = "Caution"

	NoPercent = "No flight of this selection has a percent."
	NoPolicy  = "The ledger has no policy to ask."
)

// OpenNow says an open matter on a page of more than that.
func OpenNow(o answers.Open) string { return "Open: " + OpenMatter(o) }
