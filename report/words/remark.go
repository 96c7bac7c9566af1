package words

import (
	"fmt"
	"strings"

	"boxbook/report/answers"
)

// FlightRemark says what a reader has to know of a flight besides its numbers, ""
// where there is nothing.
func FlightRemark(f answers.Flight) string {
	var parts []string
	if f.Counts == answers.CountsVoid {
		parts = append(parts, "void: "+f.Void)
	}
	if len(f.Missing) > 0 {
		parts = append(parts, "sheet missing: "+strings.Join(f.Missing, " "))
	}
	for _, p := range f.Penalties {
		parts = append(parts, penaltyRemark(p))
	}
	parts = append(parts, decisionRemarks(f)...)
	if o := f.Official; o != nil {
		switch {
		case !f.Marked:
			parts = append(parts, "the printed total alone")
		case o.MaximumTyped && o.Maximum.Float64() != f.Maximum.Float64():
			parts = append(parts, "printed out of another maximum: compare the percents")
		}
	}
	if f.Marked && f.Programme != answers.Practice && f.RulesDefault {
		parts = append(parts, "rules by default")
	}
	return strings.Join(parts, "; ")
}

// decisionRemarks are what was noted of the chief judge's rulings, each with its line.
func decisionRemarks(f answers.Flight) []string {
	var said []string
	add := func(name string, line *answers.Line) {
		if line != nil && line.DecisionRemark != "" {
			ruled := "a zero"
			if line.Decision != answers.RuledZero {
				ruled = "to be filled"
			}
			said = append(said, fmt.Sprintf("%s ruled %s (%s)", name, ruled, line.DecisionRemark))
		}
	}
	for _, figure := range f.Figures {
		add(LineName("", figure.Number), &figure.Line)
	}
	add(PositioningName, f.Positioning)
	add(HarmonyName, f.Harmony)
	return said
}

func penaltyRemark(p answers.Penalty) string {
	text := p.Kind + " " + p.Points.Text(p.Decimals)
	if p.Remark != "" {
		text += " (" + p.Remark + ")"
	}
	return text
}

// UndecidedRows says how many rows of marks have no points.
func UndecidedRows(n int) string { return fmt.Sprintf("%s%d", UndecidedRowsBefore, n) }

// UndecidedRowsBefore stands before the number of undecided rows.
const UndecidedRowsBefore = "undecided rows: "
