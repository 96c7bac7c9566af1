package words

import (
	"fmt"
	"math"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
)

// GradeDecimals are the decimals of leniency, scatter and fitted grades.
const GradeDecimals = 2

// NoiseExplained is what a column of noise says.
const NoiseExplained = "noise: how much another panel of this size would change the percent by chance, one standard deviation"

// PanelThought is the page in one sentence.
func PanelThought(d answers.Panel) string {
	if len(d.Parts) == 0 {
		return "Too few judges or figures to say anything about a panel: at least two judges and four figures are needed."
	}
	var said []string
	for i, part := range d.Parts {
		if part.Between == 0 {
			continue
		}
		var names []string
		for _, j := range d.Judges {
			if j.Part == i+1 && math.Abs(j.Leniency.Float64()) > 2*j.SE.Float64() {
				names = append(names, fmt.Sprintf("%s (%s)", j.Name, report.Signed(j.Leniency, GradeDecimals).String()))
			}
		}
		if len(names) > 0 {
			said = append(said, strings.Join(names, ", "))
		}
	}
	if len(said) == 0 {
		return "No judge differs from the panel by more than chance."
	}
	return "Grades above or below the panel by more than chance: " + strings.Join(said, "; ") + "."
}

// JudgesHeading heads the judges of one part, counted from 1.
func JudgesHeading(d answers.Panel, part int) string {
	if len(d.Parts) < 2 {
		return "Judges"
	}
	return fmt.Sprintf("Judges who can be compared, part %d of %d", part, len(d.Parts))
}
