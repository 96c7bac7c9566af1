package words

import "fmt"

// The titles of the pages: each names its question. Whose it is, over what time
// and in which category stand in the head line beside it, and nowhere else.
const (
	SeasonTitle   = "Season"
	FamiliesTitle = "Families"
	FaultsTitle   = "Faults"
	DrillsTitle   = "Drills"
	PanelTitle    = "Panel"
)

// PlanTitle is the title of a plan for a sequence, "" where there is none.
func PlanTitle(sequence string) string {
	if sequence == "" {
		return "Plan"
	}
	return "Plan for " + sequence
}

// ForecastTitle is the title of a forecast of a sequence.
func ForecastTitle(sequence string) string { return "Forecast of " + sequence }

// ReadyTitle is the title of the readiness for a category, "" where there is
// none to go to.
func ReadyTitle(category string) string {
	if category == "" {
		return "Readiness"
	}
	return "Readiness for " + category
}

// YearTitle is the title of a financial year.
func YearTitle(year int) string { return fmt.Sprintf("Year %d", year) }
