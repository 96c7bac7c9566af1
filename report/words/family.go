package words

import (
	"fmt"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
)

// The words of the page that follows one family or figure.
const (
	OwnHeading          = "Own grades"
	FamilyDrillsHeading = "Drills on it"
)

// FamilyPageTitle names what is followed.
func FamilyPageTitle(d answers.Family) string {
	switch {
	case d.Figure == 0:
		return Sentence(GroupTitle(d.Key))
	case d.Label == "":
		return d.Key
	default:
		return d.Key + ", " + d.Label
	}
}

// FamilySentence says the latest grades, and the best ever.
func FamilySentence(d answers.Family) string {
	if len(d.Flights) == 0 {
		return "Not graded in any flight in this selection." + bestEver(d)
	}
	last := d.Flights[len(d.Flights)-1]
	of := "latest of " + Counted(len(d.Flights), "flight", "flights")
	if len(d.Flights) == 1 {
		of = "only flight"
	}
	said := fmt.Sprintf("%s%% in the %s, %s on %s.", last.Percent.Text(PercentDecimals), of, last.Programme, last.Date)
	return said + bestEver(d)
}

// bestEver is the best in front of judges, of any season.
func bestEver(d answers.Family) string {
	if !d.Best.Known() {
		return ""
	}
	return fmt.Sprintf(" Best in front of judges: %s%%, %s.", d.Best.Text(PercentDecimals), d.BestFlight)
}

// VersusRestSentence compares with the rest of the same flights, without those in
// which a figure was zeroed where there are others.
func VersusRestSentence(d answers.Family) string {
	if d.Compared == 0 {
		return "Against the rest of the same flights: nothing to compare with."
	}
	size, over, zeros := d.VersusRest, d.Compared, ""
	switch {
	case d.VersusRestWithoutZeros.Known():
		size, over = d.VersusRestWithoutZeros, d.Compared-d.ZeroFlights
		zeros = fmt.Sprintf(", without the %s with a zero (with %s %s)",
			Counted(d.ZeroFlights, "flight", "flights"), PluralWord(d.ZeroFlights, "it", "them"), aboveOrBelow(d.VersusRest, ""))
	case d.ZeroFlights > 0:
		zeros = PluralWord(d.ZeroFlights, ", with a zero in it", ", with a zero in each")
	}
	return fmt.Sprintf("Over all the flights here, on average %s the rest of the same flights, over %s in front of judges%s. Of one season: boxbook families %s",
		aboveOrBelow(size, "percentage points "), Counted(over, "flight", "flights"), zeros, d.Pilot)
}

// aboveOrBelow says a difference by its side, with its unit.
func aboveOrBelow(size report.Number, unit string) string {
	side := "above"
	if size.Float64() < 0 {
		side = "below"
	}
	return strings.TrimPrefix(size.Text(1), "-") + " " + unit + side
}

// FamilyZero explains the sign behind a number that a zero is in.
func FamilyZero(d answers.Family) string {
	own := "the family"
	if d.Figure > 0 {
		own = "it"
	}
	return fmt.Sprintf("a figure was zeroed, of %s or, in %s alone, of the rest", own, ColumnVsRest)
}

// FamilyGrades are the grades of a flight's figures: of one figure its marks,
// else each figure's mean.
func FamilyGrades(d answers.Family, f answers.FamilyFlight) string {
	if d.Figure > 0 {
		return strings.Join(f.Figures[0].Marks, " ")
	}
	said := make([]string, len(f.Figures))
	for i, figure := range f.Figures {
		said[i] = fmt.Sprintf("%d: %s", figure.Number, figure.Mean.Text(MeanDecimals))
	}
	return strings.Join(said, ", ")
}

// FamilyFaults are the faults noted on a flight's figures, each kind with how
// often where that is more than once.
func FamilyFaults(f answers.FamilyFlight) string {
	times := map[string]int{}
	var kinds []string
	for _, fault := range f.Faults {
		kinds = Once(kinds, fault.Kind)
		times[fault.Kind] += fault.Times
	}
	for i, kind := range kinds {
		if times[kind] > 1 {
			kinds[i] = fmt.Sprintf("%dx %s", times[kind], kind)
		}
	}
	return strings.Join(kinds, ", ")
}

// FamilyGradesTitle is the title of the column of grades.
func FamilyGradesTitle(d answers.Family) string {
	if d.Figure > 0 {
		return ColumnMarks
	}
	return "figure: " + ColumnGrade
}

// FamilyNotes explain the table.
func FamilyNotes(d answers.Family) []string {
	return []string{
		"percent: weighted by the K of its elements; vs rest: that minus the percent of the flight's other figures",
	}
}

// FamilyDrill is a drill with what became of it.
func FamilyDrill(d answers.Drill, limits answers.DrillLimits) string {
	text := DrillSentence(d, limits)
	if d.Text != "" {
		text += fmt.Sprintf(" %q", d.Text)
	}
	return text
}

// FurtherFromFamily says where the flights are that a page left out, so many, and
// where to go next.
func FurtherFromFamily(d answers.Family, left int) string {
	if left == 0 {
		return WherePracticePays(d.Pilot)
	}
	return fmt.Sprintf("%s: boxbook families %s %s --all\n%s", Counted(left, "earlier flight", "earlier flights"), d.Pilot, d.Key, WherePracticePays(d.Pilot))
}
