package pages

import (
	"fmt"
	"strings"

	"boxbook/report"
	"boxbook/scoring"
	"boxbook/season"
)

// sheetNotes explain every mark that did not count as it stands.
func sheetNotes(f *season.Flight, d FlightData) *report.Notes {
	notes := &report.Notes{}
	used := map[markFlag]bool{}
	each := func(name string, line LineData, kind scoring.LineKind, figure int) {
		for _, flag := range line.flags {
			used[flag] = true
		}
		if text := rulingText(f, line, f.MarksOf(kind, figure)); text != "" {
			addNote(notes, "%s: %s", name, text)
		}
		if line.Remark != "" {
			addNote(notes, "%s: %s", name, line.Remark)
		}
	}
	for _, figure := range d.Figures {
		each(fmt.Sprintf("figure %d", figure.Number), figure.LineData, scoring.Figure, figure.Number)
	}
	if d.Positioning != nil {
		each("positioning", *d.Positioning, scoring.Positioning, 0)
	}
	if d.Harmony != nil {
		each("harmony", *d.Harmony, scoring.Harmony, 0)
	}
	notes.Items = append(signNotes(f, used), notes.Items...)
	return notes
}

// signNotes say what the signs behind marks mean, those on the page only.
func signNotes(f *season.Flight, used map[markFlag]bool) []report.Note {
	var notes []report.Note
	if used[filledMark] {
		notes = append(notes, report.Note{Mark: filledSign, Text: "filled with the mean of the other marks of the row, " + roundingText(f)})
	}
	if used[overruledMark] {
		notes = append(notes, report.Note{Mark: overruledSign, Text: "overruled: the figure is 0 from every judge"})
	}
	if used[droppedMark] {
		notes = append(notes, report.Note{Mark: droppedSign, Text: "highest or lowest of the row, left out of the mean"})
	}
	return notes
}

func roundingText(f *season.Flight) string {
	switch f.Style.FillRounding {
	case scoring.ToTenth:
		return "rounded to 0.1"
	case scoring.ToHalf:
		return "rounded to 0.5"
	default:
		return "filled marks unrounded"
	}
}

// rulingText says why a line counts as it does, "" where every mark stands.
func rulingText(f *season.Flight, line LineData, marks []scoring.Mark) string {
	vote := scoring.VoteOn(marks)
	zeros := fmt.Sprintf("hard zero from %d of the %s who gave a mark", vote.Hard, season.Counted(vote.Given, "judge", "judges"))
	switch scoring.Ruling(line.Ruling) {
	case scoring.Filled:
		return filledText(line, marks, vote, zeros, f.Style.HardZero == scoring.ByMajority)
	case scoring.Zeroed:
		switch {
		case vote.Confirmed:
			return "confirmed hard zero: 0 from every judge"
		case vote.Side == scoring.HalfOf:
			return zeros + ", exactly half: the rule style makes it 0"
		}
		return zeros + ", more than half: 0 from every judge"
	case scoring.Undecided:
		if vote.Side == scoring.Silent {
			return "no judge gave a mark: undecided, from 0 to full marks, until `resolve` records a ruling"
		}
		return zeros + ", exactly half: undecided until `resolve` records the chief judge's ruling"
	case scoring.Resolved:
		return resolvedText(line, zeros, vote)
	default:
		return ""
	}
}

// filledText says why marks were filled; overruled that hard zeros were, which
// do not count as given.
func filledText(line LineData, marks []scoring.Mark, vote scoring.Vote, zeros string, overruled bool) string {
	var reasons []string
	switch {
	case overruled && vote.Side == scoring.HalfOf:
		reasons = append(reasons, zeros+", exactly half, which the rule style fills")
	case overruled && vote.Hard > 0:
		reasons = append(reasons, zeros+", a minority")
	}
	for _, kind := range []struct {
		kind scoring.MarkKind
		text string
	}{{scoring.NotSeen, "not seen by %s"}, {scoring.Absent, "no mark on the sheet of %s"}} {
		n := 0
		for _, m := range marks {
			if m.Kind == kind.kind {
				n++
			}
		}
		if n > 0 {
			reasons = append(reasons, fmt.Sprintf(kind.text, season.Counted(n, "judge", "judges")))
		}
	}
	return fmt.Sprintf("%s: filled with %s", strings.Join(reasons, "; "), line.fill.Text(meanDecimals))
}

func resolvedText(line LineData, zeros string, vote scoring.Vote) string {
	reason := zeros + ", exactly half"
	if vote.Side == scoring.Silent {
		reason = "no judge gave a mark"
	}
	if line.Points.Known() && line.Points.Float64() == 0 && !line.fill.Known() {
		return reason + "; ruled a zero"
	}
	return fmt.Sprintf("%s; ruled to be filled, with %s", reason, line.fill.Text(meanDecimals))
}

// scoreNotes say what a person must know beside the numbers.
func scoreNotes(d FlightData) *report.Notes {
	notes := &report.Notes{}
	if d.Void != "" {
		addNote(notes, "void: %s; the flight enters no figure anywhere", d.Void)
	}
	if d.Undecided {
		addNote(notes, "undecided: the score is a range until a ruling is recorded; without an official total the flight enters no season figure")
	}
	if len(d.Missing) > 0 && d.Points.Known() {
		addNote(notes, "without the %s of %s the own total is that of the sheets to hand", pluralWord(len(d.Missing), "sheet", "sheets"), strings.Join(d.Missing, ", "))
	}
	if d.Record != nil && d.Record.Source == string(season.Printed) && d.Points.Known() {
		addNote(notes, "the record, which season and trend use, is the official total as typed")
	}
	for _, p := range d.Penalties {
		if p.Remark != "" {
			addNote(notes, "penalty, %s: %s", p.Kind, p.Remark)
		}
	}
	for _, note := range d.Notes {
		addNote(notes, "%s", note)
	}
	return notes
}
