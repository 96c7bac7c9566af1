package words

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
)

// The words of a debrief and of its empty form.
const (
	AgendaHeading = "To talk about"
	NotesHeading  = "Notes"

	ColumnMarks       = "marks"
	ColumnFaultsNoted = "faults noted"

	FormTitle     = "Debrief, to fill in"
	FormPilot     = "pilot"
	FormSequence  = "sequence"
	FormDate      = "date, time"
	FormWatchedBy = "reviewed by"
	FormWind      = "wind"

	ColumnVideoAt = "video at"
	ColumnSaw     = "what was seen"
)

// The lines to write on.
const (
	FormLong  = "____________________________"
	FormShort = "______"
)

// DebriefTitle says whose flight is talked over.
func DebriefTitle(d answers.Debrief) string { return "Debrief: " + FlightTitle(d.Flight) }

// AgendaTitle heads the points to talk about and says their order where it shows.
func AgendaTitle(talk []answers.TalkPoint) string {
	faults := 0
	for _, p := range talk {
		if p.About == answers.TalkFault {
			faults++
		}
	}
	if faults < 2 || talk[0].About != answers.TalkFault {
		return AgendaHeading
	}
	return AgendaHeading + ", costliest noted fault first"
}

// SayDebrief fills the sentences of an answer.
func SayDebrief(d answers.Debrief) answers.Debrief {
	d.Flight = SayFlight(d.Flight)
	d.Agenda = make([]string, len(d.Talk))
	for i, p := range d.Talk {
		d.Agenda[i] = talkPoint(d, p)
	}
	return d
}

// talkPoint says a point to talk about, with what is in the ledger on it.
func talkPoint(d answers.Debrief, p answers.TalkPoint) string {
	switch p.About {
	case answers.TalkLow:
		text := fmt.Sprintf("flown too low: penalty of %s points", p.Points.Text(PointDecimals))
		if remark := d.Penalties[p.At].Remark; remark != "" {
			text += fmt.Sprintf("; noted: %q", remark)
		}
		return text
	case answers.TalkZero:
		return zeroSaid(d, p)
	case answers.TalkOpen:
		return LineName("", p.Figure) + ": " + RulingText(*d.Style, d.Figures[p.At].Line)
	case answers.TalkFault:
		return fmt.Sprintf("%s: %s, %s", LineName("", p.Figure), cmp.Or(p.Says, p.Kind), deductionSaid(d, p))
	case answers.TalkLoss:
		text := fmt.Sprintf("%s: %s points lost, the largest loss", LineName("", p.Figure), p.Points.Text(PointDecimals))
		if d.Flight.Undecided {
			text += " of what is decided"
		}
		return text
	case answers.TalkBack:
		k := d.Recurring[p.At]
		return "what comes back" + backOn(d) + ": " + name(k) + ", " + backCounts(k)
	case answers.TalkSomeZero:
		return someZeroSaid(d, d.Figures[p.At])
	case answers.TalkGrade:
		flag := d.Flags[p.At]
		if flag.HardZeros > 0 {
			return fmt.Sprintf("%s: %s from %s, where %s", LineName("", p.Figure), flag.Mark, flag.Judge, othersZeroed(flag))
		}
		return fmt.Sprintf("%s: %s from %s alone, where about %s was expected", LineName("", p.Figure), flag.Mark, flag.Judge, flag.Fitted.Text(GradeDecimals))
	default:
		if len(d.Official.Explanations) == 0 {
			return fmt.Sprintf("official minus calculated is %s: compare the marks with your paper sheets first", report.Signed(d.Official.LessShown, PointDecimals))
		}
		return OfficialDiffers(d.Flight.Flight, d.Official.LessShown)
	}
}

// someZeroSaid says which judges gave a figure a hard zero that does not make it 0.
func someZeroSaid(d answers.Debrief, figure answers.Figure) string {
	var judges []string
	for i, cell := range figure.Cells {
		if (cell.Kind == answers.HardZero || cell.Kind == answers.ConfirmedHardZero) && i < len(d.Panel) {
			judges = append(judges, d.Panel[i])
		}
	}
	return fmt.Sprintf("%s: hard zero from %s, %d of the %s who gave a mark; compare with the paper",
		LineName("", figure.Number), ListInWords(judges), figure.Vote.HardZeros, Counted(figure.Vote.Given, "judge", "judges"))
}

// deductionSaid says what a fault takes by its deduction, beside what the panel took
// from the figure for everything, in whole points: the table has them all.
func deductionSaid(d answers.Debrief, p answers.TalkPoint) string {
	points := p.Points.Text(0)
	for _, r := range d.Rows {
		if p.Figure > 0 && r.Figure == p.Figure && r.Lost.Known() {
			return fmt.Sprintf("noted %s points, lost %s", points, r.Lost.Text(0))
		}
	}
	return "noted " + points + " points"
}

// zeroSaid says what a zero cost and what the marks say of it; why it was given
// only where somebody noted it.
func zeroSaid(d answers.Debrief, p answers.TalkPoint) string {
	line := d.Figures[p.At].Line
	text := fmt.Sprintf("%s: all %s points lost; %s", LineName("", p.Figure), p.Points.Text(PointDecimals), cmp.Or(RulingText(*d.Style, line), zeroMarks(line)))
	if line.Remark != "" {
		return text + fmt.Sprintf("; noted: %q", line.Remark)
	}
	if line.Ruling == answers.RulingResolved && line.DecisionRemark != "" {
		return text // which has it
	}
	for _, f := range d.Faults {
		if f.Figure == p.Figure {
			return text + "; noted: " + cmp.Or(f.Says, f.Kind)
		}
	}
	return text + "; the reason is not in the ledger"
}

// zeroMarks says which marks make a figure 0 where no rule overruled any: hard
// zeros, zeros of perception, or 0.0, which is a grade.
func zeroMarks(line answers.Line) string {
	hard := marksOfKind(line, answers.HardZero) + marksOfKind(line, answers.ConfirmedHardZero)
	perception, graded := marksOfKind(line, answers.PerceptionZero), marksOfKind(line, answers.Grade)
	judges := PluralWord(len(line.Cells), "the only judge", "every judge")
	switch {
	case hard == 0 && perception == 0:
		return "graded 0.0 by " + judges + ", which is not a hard zero"
	case hard == 0 && graded == 0:
		return "perception zero from " + judges
	case perception == 0 && graded == 0:
		return "hard zero from " + judges
	default:
		return "0 from " + judges + ", not all of them the same kind of zero"
	}
}

// ScoreLine is a flight's score in a line, with what is to be known of it.
func ScoreLine(d answers.Flight) string {
	said := []string{scoreSaid(d)}
	if d.Place > 0 {
		place := fmt.Sprintf("place %d", d.Place)
		if d.Of > 0 {
			place += fmt.Sprintf(" of %d", d.Of)
		}
		said = append(said, place)
	}
	for _, p := range d.Penalties {
		said = append(said, PenaltyName(p.Kind)+" "+p.Points.Text(p.Decimals))
	}
	if o := d.Official; o != nil && o.Agrees != nil && !*o.Agrees {
		said = append(said, "official "+o.Points.Text(o.Decimals))
	}
	if d.Void != "" {
		said = append(said, "void: "+d.Void)
	}
	return strings.Join(said, "; ")
}

func scoreSaid(d answers.Flight) string {
	switch {
	case d.Points.Known():
		return fmt.Sprintf("%s%%, %s of %s points", d.Percent.Text(PercentDecimals), d.Points.Text(PointDecimals), d.Maximum.Text(0))
	case d.Range != nil:
		return fmt.Sprintf("undecided, from %s to %s of %s points", d.Range.Low.Text(PointDecimals), d.Range.High.Text(PointDecimals), d.Maximum.Text(0))
	case d.Official != nil:
		return fmt.Sprintf("%s points, the printed total alone", d.Official.Points.Text(d.Official.Decimals))
	default:
		return "no marks"
	}
}

// NothingToTalk says that nothing in the ledger is a point to talk about; of a flight
// without marks and faults, that nothing can be said.
func NothingToTalk(d answers.Debrief) string {
	if !d.Marked && len(d.Faults) == 0 {
		return "No mark and no fault of this flight is in the ledger: there is nothing to go by."
	}
	return nothingToTalk
}

const nothingToTalk = "No figure scored 0 or is undecided, no penalty was for flying too low, no noted fault costs points, none comes back, no grade stands alone, no total is disputed, and no figure is known to have lost points."

// FaultSaid says a fault in the row of its figure: what, how much, where in the
// video, who noted it, and the remark.
func FaultSaid(f answers.Fault) string {
	text := f.Kind
	for _, part := range []string{f.Amount, f.On} {
		if part != "" {
			text += " " + part
		}
	}
	if !f.Seen {
		text += ", " + FeltCell
	}
	var by []string
	for _, part := range []string{f.By, f.At} {
		if part != "" {
			by = append(by, part)
		}
	}
	if len(by) > 0 {
		text += " (" + strings.Join(by, " ") + ")"
	}
	if f.Remark != "" {
		text += ": " + f.Remark
	}
	return text
}

// DebriefRowName names a row that is no figure's.
func DebriefRowName(r answers.DebriefRow) string {
	if r.Line == answers.WholeFlight {
		return "whole flight"
	}
	return cmp.Or(r.Label, r.Line)
}

// DebriefNotes are the notes of pilot and coach, then where the videos are.
func DebriefNotes(d answers.Flight) []string {
	notes := append(matterNotes(d), append(slices.Clone(d.Notes), closesNotes(d)...)...)
	if len(d.Faults) == 0 {
		notes = append(notes, ReviewNotes(d)...)
	} else {
		notes = append(notes, reviewsNoted(d)...)
	}
	return append(notes, videoNotes(d)...)
}

// DebriefExplained says what the two grades are.
const DebriefExplained = "given: the panel's mean; expected: 10 minus the seen faults, at least 0.0"

// DebriefHelp says what the command does.
func DebriefHelp() string {
	return `Show one sheet for coach and pilot to talk a flight over: what is open, the
score in one line, one row per figure with its marks, the grade that its faults
should have left and the faults as noted, the notes, what comes back and its
drill, and ` + NumberWord(answers.TalkPoints) + ` points to talk about: first figures that scored 0 or wait
for a ruling, then the noted faults that cost most, what comes back, hard zeros
of some judges, a lone grade, a disputed total, and the largest loss where none
of these is of that figure. All of it is in the ledger.

PILOT and SELECTOR are those of flight; "last" if omitted. --blank prints the
same sequence as an empty form, to fill in at the box.`
}

// DebriefSubtitle says where the flight was flown, and what.
func DebriefSubtitle(d answers.Flight) string {
	return strings.Join(slices.DeleteFunc([]string{d.ContestName, d.Category, d.Sequence}, func(s string) bool { return s == "" }), " · ")
}

// DebriefSentences answer first: the score, and whether the official total agrees.
func DebriefSentences(d answers.Flight) []string {
	said := []string{ScoreSentence(d)}
	if text := officialAgreesSaid(d); text != "" {
		said = append(said, text)
	}
	return said
}

// officialAgreesSaid is whether the official total agrees, without what would
// explain that it does not.
func officialAgreesSaid(d answers.Flight) string {
	if d.Official == nil || officialSaid(d) == "" {
		return ""
	}
	if agrees := d.Official.Agrees; agrees != nil && *agrees && !maximaDiffer(d) && !d.Undecided {
		return sentence(totalAgrees + officialRounded(d)) // in one line with the score
	}
	return sentence(officialAgrees(d))
}

// backOn says that what comes back is of the day that the page is of, where that is not
// the flight's time.
func backOn(d answers.Debrief) string {
	if d.RecurringOn == "" {
		return ""
	}
	return " now"
}

// SetSentence says which drills were set on the flight's day; "" for none.
func SetSentence(d answers.Debrief) string {
	var said []string
	for _, drill := range d.Set {
		text := GroupsShort([]string{drill.Target})
		if drill.Text != "" {
			text += fmt.Sprintf(" (%q)", drill.Text)
		}
		said = append(said, text)
	}
	if len(said) == 0 {
		return ""
	}
	return sentence(PluralWord(len(said), "Drill", "Drills") + " set on this day: " + strings.Join(said, "; "))
}

// BackSentence says what comes back, each with its drill; "" for nothing, and where
// the points to talk about have it all.
func BackSentence(d answers.Debrief) string {
	talked := 0
	for _, p := range d.Talk {
		if p.About == answers.TalkBack {
			talked++
		}
	}
	if talked == len(d.Recurring) {
		return ""
	}
	said := make([]string, len(d.Recurring))
	for i, k := range d.Recurring {
		said[i] = name(k) + ", " + backCounts(k)
		if k.DrillText != "" {
			said[i] += fmt.Sprintf(" (%q)", k.DrillText)
		}
	}
	if drilled := slices.ContainsFunc(d.Recurring, func(k answers.FaultKind) bool { return k.Drill != "" }); len(said) > 1 && !drilled {
		for i, k := range d.Recurring[1:] {
			said[i+1] = fmt.Sprintf("%s, %d", name(k), k.Flights)
			if k.Alone != answers.Anywhere {
				alone, _ := flightsBySort(k)
				said[i+1] = fmt.Sprintf("%s, %d of %s", name(k), k.Flights, alone)
			} else if k.Exposed != d.Recurring[0].Exposed {
				said[i+1] += fmt.Sprintf(" of %d", k.Exposed)
			}
		}
		said[0] = name(d.Recurring[0]) + ", " + flightCounts(d.Recurring[0])
		if len(d.Drills) == 0 {
			said = append(said, "no drill on any")
		}
	}
	if len(d.Drills) > 0 {
		said = append(said, PluralWord(len(d.Drills), "open drill: ", "open drills: ")+GroupsShort(d.Drills))
	}
	return sentence("Comes back" + backOn(d) + ": " + strings.Join(said, "; "))
}
