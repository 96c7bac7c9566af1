package pages

import (
	"fmt"

	"boxbook/report"
	"boxbook/scoring"
	"boxbook/season"
)

// rulesSection says in plain words how the flight's rule style counts marks,
// and what of it came to bear on this flight.
func rulesSection(f *season.Flight) report.Section {
	style := f.Style
	name := style.Name
	if f.StyleDefault {
		name += " (nobody named one, so this is the default)"
	}
	items := []report.Note{
		{Text: hardZeroWords(style.Style)},
		{Text: halfWords(style.Style)},
		{Text: "a confirmed hard zero (CHZ) makes the figure 0 from every judge, one in a row is enough"},
		{Text: "a perception zero (PZ) and a grade of 0.0 are ordinary zeros in the mean"},
		{Text: fillWords(style.FillRounding)},
		{Text: dropWords(style.DropExtremes, len(f.Panel))},
		{Text: "points are K times the mean of the marks that count, summed, less penalties, never below 0; percent is of 10 times the sum of K, positioning and harmony included"},
	}
	return report.Section{Heading: "Rules", Blocks: []report.Block{
		&report.Paragraph{Text: fmt.Sprintf("Rule style %s:", name)},
		&report.Notes{Items: items},
		&report.Paragraph{Text: "The rules in force at the contest decide; a rule style only says how this book counts."},
	}}
}

func hardZeroWords(s scoring.Style) string {
	if s.HardZero == scoring.AsGiven {
		return "a hard zero (HZ) counts as a 0 on its own sheet, whatever the other judges saw"
	}
	return "a hard zero (HZ) from more than half of the judges who gave a mark makes the figure 0 from every judge; from fewer it is filled like AV"
}

func halfWords(s scoring.Style) string {
	switch {
	case s.HardZero == scoring.AsGiven:
		return "a hard zero from exactly half of the judges is counted as given, like any other"
	case s.Half == scoring.HalfZero:
		return "a hard zero from exactly half of them makes the figure 0"
	case s.Half == scoring.HalfFill:
		return "a hard zero from exactly half of them is filled"
	default:
		return "a hard zero from exactly half of them leaves the figure undecided until a `resolve` line records the chief judge's ruling"
	}
}

func fillWords(r scoring.FillRounding) string {
	text := "a mark that is not there (AV or -) is filled with the mean of the other marks of the row, "
	switch r {
	case scoring.ToTenth:
		return text + "rounded half up to 0.1"
	case scoring.ToHalf:
		return text + "rounded half up to 0.5"
	default:
		return text + "unrounded"
	}
}

func dropWords(drop bool, judges int) string {
	switch {
	case !drop:
		return "no mark is left out of the mean"
	case judges >= scoring.DropPanel:
		return fmt.Sprintf("one highest and one lowest mark of each line is left out of the mean, on this panel of %d; a judge's own total still counts all", judges)
	default:
		return fmt.Sprintf("one highest and one lowest mark of each line would be left out of the mean with %d judges or more; this panel has %d, so none is", scoring.DropPanel, judges)
	}
}
