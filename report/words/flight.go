package words

import (
	"fmt"
	"strings"

	"boxbook/report/answers"
)

// The marks that stand behind a judge's mark, explained beneath the table.
const (
	FilledSign    = "*"
	OverruledSign = "^"
	DroppedSign   = "~"
	AloneSign     = "!"
)

// The headings of a flight's page.
const (
	ScoreHeading    = "Score"
	JudgesHeading   = "Judges"
	LostHeading     = "Where the points went"
	FaultsHeading   = "Faults"
	ReviewsHeading  = "Videos and reviews"
	RulesHeading    = "Rules"
	OfficialHeading = "Is the official total right?"
)

// The names of the weighted lines.
const (
	PositioningName = "positioning"
	HarmonyName     = "harmony"
)

// LineName names a line of a sheet: "figure 3", or a weighted line by its code.
func LineName(line string, figure int) string {
	if figure > 0 {
		return fmt.Sprintf("figure %d", figure)
	}
	return line
}

// FlownAgain stands for the label of a figure's further rows.
const FlownAgain = "again"

// MeanOfRows names the mean of a figure's rows.
func MeanOfRows(n int) string { return fmt.Sprintf("mean of %d", n) }

// RowName names one of a figure's rows, counted from 0: the first by the figure,
// the others by which time it was flown.
func RowName(figure string, row int) string {
	if row == 0 {
		return figure
	}
	return fmt.Sprintf("%s, row %d", figure, row+1)
}

// LinesSaid names lines of a sheet of which one thing is said: "figures 1, 2, 3 and
// positioning".
func LinesSaid(names []string) string {
	said, figures := make([]string, len(names)), 0
	for i, name := range names {
		number, is := strings.CutPrefix(name, "figure ")
		if strings.Contains(number, ",") { // a row of it
			return strings.Join(names, "; ")
		}
		if is {
			figures++
		}
		said[i] = number
	}
	if figures < 2 {
		return ListInWords(names)
	}
	return "figures " + ListInWords(said)
}

// FlightTitle says who flew what and when: "Ines Halloran, known, 2026-04-18".
func FlightTitle(d answers.Flight) string {
	title := fmt.Sprintf("%s, %s, %s", d.PilotName, programmeTitle(d.Programme), d.Date)
	if d.Label != 1 {
		title += fmt.Sprintf(", flight %d", d.Label)
	}
	if d.Counts == answers.CountsVoid {
		title += " (void: " + d.Void + ")"
	}
	return title
}

// programmeTitle is a programme where nothing beside it says that it is one: after a
// name, "unknown" alone would read as not known.
func programmeTitle(programme string) string {
	switch programme {
	case "known", "free", "unknown":
		return programme + " programme"
	}
	return programme
}

// FlightSubtitle says where the flight was flown, and by what rules.
func FlightSubtitle(d answers.Flight) string {
	var parts []string
	for _, part := range []string{d.ContestName, d.Category, d.Sequence, d.Aircraft} {
		if part != "" {
			parts = append(parts, part)
		}
	}
	if len(d.Figures) > 0 {
		rules := "rules " + d.Rules
		if d.RulesDefault {
			rules += " (default)"
		}
		parts = append(parts, rules)
	}
	return strings.Join(parts, " · ")
}
