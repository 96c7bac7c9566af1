package words

import (
	"strconv"

	"boxbook/report"
	"boxbook/report/answers"
)

// The names of the workbook's sheets.
const (
	SeasonSheet   = "Season"
	RemarksSheet  = "Remarks"
	FlightsSheet  = "Flights"
	GradesSheet   = "Grades"
	FamiliesSheet = "Families"
	FaultsSheet   = "Faults and drills"
	PanelSheet    = "Panel"
	ReadySheet    = "Readiness"
	ElementsSheet = "Elements"
	RulesSheet    = "Rules"
)

// What a row of the sheet Remarks is where it is no fault.
const (
	RemarkReview = "review"
	RemarkNote   = "note"
)

// What the workbook's document properties say of it.
const (
	WorkbookSubject  = "Coach's workbook"
	WorkbookKeywords = "aerobatics, flights, grades"
)

// The questions that the workbook's first page answers in words, and what it
// says where there is nothing to answer with.
const (
	VerdictTrend    = "Trend"
	VerdictLevel    = "Level"
	VerdictFamilies = "Families"
	VerdictPlan     = "Plan"
	VerdictFaults   = "Faults"
	VerdictDrills   = "Drills"
	VerdictReady    = "Readiness"
	VerdictCaution  = "Caution"

	NoRecord = "No contest flight of this selection has a counted result."
	NoPolicy = "The ledger has no policy to ask."
)

// The facts of the workbook's first page.
const (
	FactContestFlights  = "contest flights"
	FactWithPercent     = "with a percent"
	FactWithOfficial    = "with an official total"
	FactAgrees          = "that agrees with the marks"
	FactDiffers         = "that does not agree"
	FactNotCompared     = "that cannot be compared"
	FactPracticeFlights = "practice flights"
	FactVoidFlights     = "void flights"
	FactMeanPercent     = "mean, percent"
	FactBestPercent     = "best, percent"
	FactBestFlight      = "best, flight"
	FactBestContest     = "best, contest"
	FactWorstPercent    = "worst, percent"
	FactWorstFlight     = "worst, flight"
	FactWorstContest    = "worst, contest"
)

// Headings that stand on sheets alone. WorkedOut says of a table or of numbers
// that no formula can give them.
const (
	WorkedOut       = "calculated by boxbook, does not follow a changed mark"
	FollowMarks     = "follow the marks"
	EnteredHeading  = "Flights that count"
	TrendBasis      = "What the trend rests on (" + WorkedOut + ")"
	VersusRestSheet = VersusRest + " (" + WorkedOut + ")"
	ByFlightHeading = "Percent by flight"
	AllDrills       = DrillsTitle + ", all seasons"
	EveryMark       = "every mark"
	SettingsHeading = "settings"
	MarksHeading    = "marks"
	WorkbookHeading = "this workbook"
)

// LastFlights says under a heading that only so many of the flights are there.
func LastFlights(heading string, n int) string { return heading + ", the last " + strconv.Itoa(n) }

// The legends at the foot of printed pages.
const (
	MarkLegend     = "shaded: low, high · HZ hard zero · CHZ confirmed · PZ perception zero · AV not seen · - nothing on the sheet"
	RemarksLegend  = "costs, expected: by the faults as noted; given: the mean of the marks; at: the place in the video"
	FamiliesLegend = "italic: " + WorkedOut
	FaultsLegend   = "points at stake: as noted, whatever the panels gave; no cell here follows a mark"
	PanelLegend    = "leniency, scatter, noise and lone grades: " + WorkedOut
	ReadyLegend    = "gates: " + WorkedOut
	ElementsLegend = "lost: the points of noted faults first, the rest of the figure's loss shared by K"
)

// SeasonSheetNotes explain the workbook's first page.
func SeasonSheetNotes() []string {
	return []string{
		"The sentences at the top and all italic numbers are calculated by boxbook and do not follow a changed mark; tinted cells do.",
		"Panel noise: how much another panel of this size would change the percent by chance, one standard deviation. To winner, to median: own points minus theirs, where the field is known.",
		"Percent is that of the counted result: the official total where one was typed, else the sum of the marks. Practice and void flights are left out of every statistic on this page.",
		"Points and percents lead back to the marks on the sheet " + GradesSheet + ", or to a printed total on the sheet " + FlightsSheet + ". The sheet " + RulesSheet + " explains the marks.",
	}
}

// What the charts are called, and what they say to a reader who does not see
// them.
const (
	SeasonChartWords = "Percent of the maximum of each flight that counts, by date, with the panel noise of each and the trend where one is claimed, between the most and the least that it may be"
	NoChart          = "No contest flight in this selection, so there is no chart."
	FaultsChart      = "Points at stake over this selection, by kind and family"
)

// SeasonChart is the title of the percents by date.
func SeasonChart(period string) string {
	return "Percent of the maximum, " + period + "; bars: panel noise either way"
}

// FamiliesChart is the title of the families' levels, whose axis begins at a
// number.
func FamiliesChart(d answers.Families, begins int) string {
	title := "Percent of the families"
	if d.Tau2.Known() {
		title = "Level of the families, percent, with " + Confidence(d.Limits.Confidence) + " intervals"
	}
	return title + " (the axis begins at " + strconv.Itoa(begins) + ")"
}

// OpenNow says an open matter on a page of more than that.
func OpenNow(o answers.Open) string { return "Open: " + OpenMatter(o) }

// TrendOf names the trend of a category in a chart's legend.
func TrendOf(category string) string { return "trend, " + category }

// TrendSaid is the verdict on a trend beneath its numbers, in a sentence: a word alone
// reads as a heading there.
func TrendSaid(d answers.Trend) string {
	switch word := d.Word; word {
	case answers.TooFew:
		return "There are " + formWords(word, d.Reason, report.Number{}) + "."
	case answers.CannotTell:
		return "These flights cannot tell whether form moves."
	case answers.MayImprove, answers.MayDecline:
		return "Form " + string(word) + "."
	default:
		return "Form is " + string(word) + "."
	}
}

// MoveOf names a change of category.
func MoveOf(m answers.Move) string { return m.From + " to " + m.To }

// NoRows stands in a table of the workbook that has none.
const NoRows = "none"

// What a program says where something is typed that a cell does not take.
const (
	NotKnown     = "not known"
	NotAMark     = "not a mark"
	MarkAsked    = "A grade from 0 to 10 in half points, or HZ, CHZ, PZ, AV or -."
	StyleAsked   = "One of the styles of the sheet " + RulesSheet + "."
	CountsAsked  = "yes, practice or void."
	ResolveAsked = "zero or fill, or nothing where the chief judge ruled nothing."
	HardAsked    = "majority or as-given."
	HalfAsked    = "undecided, zero or fill."
	RoundAsked   = "none, to 0.1 or to 0.5."
	DropAsked    = "yes or no."
)
