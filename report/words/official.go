package words

import (
	"fmt"

	"boxbook/report"
	"boxbook/report/answers"
)

// ShownExplanations is how many explanations a page lists; JSON has all.
const ShownExplanations = 8

// OfficialSentence is the answer in one line.
func OfficialSentence(d answers.Flight) string {
	o := d.Official
	differs := d.Maximum.Known() && o.Maximum.Known() && o.Maximum.Float64() != d.Maximum.Float64()
	switch {
	case o.Agrees == nil:
		return "Cannot be told: a sheet is not to hand."
	case differs && *o.Agrees:
		return fmt.Sprintf("The printed maximum is %s, that of the sequence %s; the percents agree.", o.Maximum.Text(0), d.Maximum.Text(0))
	case differs:
		return fmt.Sprintf("The printed maximum is %s, that of the sequence %s, and the percents differ; is a K mistyped?", o.Maximum.Text(0), d.Maximum.Text(0))
	case *o.Agrees && d.Undecided:
		return "It is one end of the range that the undecided figure leaves open."
	case *o.Agrees:
		return "Yes: it agrees with the marks."
	case !o.Difference.Known():
		return "It is neither end of the range that the undecided figure leaves open."
	case len(o.Explanations) == 0 && o.JudgesAgree():
		return fmt.Sprintf("It differs from the marks as typed by %s, although the printed totals of the judges agree with the marks: from those the points are %s.",
			report.Signed(o.Difference, PointDecimals).String(), d.Points.Text(PointDecimals))
	case len(o.Explanations) == 0:
		return fmt.Sprintf("It differs from the marks as typed by %s, and no single slip explains it.", report.Signed(o.Difference, PointDecimals).String())
	default:
		return fmt.Sprintf("It differs from the marks as typed by %s. What would explain it, the most plausible first:", report.Signed(o.Difference, PointDecimals).String())
	}
}

// OfficialNotes are the explanations of a difference, as many as a page lists,
// and the judges whose printed total is not the marks'.
func OfficialNotes(o *answers.Official) []string {
	var notes []string
	for i, e := range o.Explanations {
		if i == ShownExplanations {
			notes = append(notes, fmt.Sprintf("and %d more, in --format json", len(o.Explanations)-i))
			break
		}
		notes = append(notes, e.Text)
	}
	for _, j := range o.Judges {
		if !j.Agrees && j.Own.Known() {
			notes = append(notes, fmt.Sprintf("judge %s: printed %s, the marks give %s", j.Judge, j.Points.Text(PointDecimals), j.Own.Text(PointDecimals)))
		}
	}
	return notes
}

// OfficialFoot says how much an explanation is worth, and what to do.
func OfficialFoot(o *answers.Official) string {
	text := ""
	if o.Fits > 0 {
		text = Counted(o.Fits, "mark", "marks") + " would fit, each alone. "
		if o.Explanations[0].Kind == answers.ExplainedByMarks {
			text = Counted(o.Fits, "pair of marks", "pairs of marks") + " would fit. "
		}
	}
	if o.Coarse && len(o.Explanations) > 0 {
		text += "Printed with fewer than two decimals, too coarsely to tell: chance alone often fits. "
	}
	return text + "Ask the contest's office at once; time limits for protests are short and set by the rules in force."
}
