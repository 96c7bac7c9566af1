package words

import (
	"fmt"
	"strings"

	"boxbook/report/answers"
	"boxbook/season"
)

// The marks that stand behind a judge's mark, explained beneath the table.
const (
	FilledSign    = "*"
	OverruledSign = "^"
	DroppedSign   = "~"
)

func FlightTitle(f *season.Flight, d answers.Flight) string {
	title := fmt.Sprintf("%s, %s, %s", f.Pilot.Name, f.Programme, d.Date)
	if f.Label != 1 {
		title += fmt.Sprintf(", flight %d", f.Label)
	}
	if f.Void != nil {
		title += " (void: " + d.Void + ")"
	}
	return title
}

// FlightSubtitle says where the flight was flown, and by what rules.
func FlightSubtitle(f *season.Flight, d answers.Flight) string {
	var parts []string
	if f.Contest != nil {
		parts = append(parts, f.Contest.Name)
	}
	for _, part := range []string{d.Category, d.Sequence, f.Aircraft} {
		if part != "" {
			parts = append(parts, part)
		}
	}
	if len(d.Figures) > 0 {
		rules := "rules " + d.Rules
		if f.StyleDefault {
			rules += " (default)"
		}
		parts = append(parts, rules)
	}
	return strings.Join(parts, " · ")
}
