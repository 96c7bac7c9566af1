package words

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
)

// GradeDecimals are the decimals of leniency, scatter and fitted grades.
const GradeDecimals = 2

// NoiseExplained is what a column of noise says.
const NoiseExplained = "noise: by how many percentage points another panel of as many judges would change the percent by chance, one standard deviation; fewer judges, more noise"

// SayPanel completes an answer on judges with their names: a seat is named with
// where it was, "A at kestrel".
func SayPanel(d answers.Panel) answers.Panel {
	d.Judges = slices.Clone(d.Judges)
	for i, j := range d.Judges {
		d.Judges[i].Name = j.Judge
		if j.At != "" {
			d.Judges[i].Name += " at " + j.At
		}
	}
	return d
}

// PanelThought is the page in one sentence: of those who stand apart the farthest
// first, after them those of whom one flight says so; then who is so only by the mean
// that these draw, or once they are left out.
func PanelThought(d answers.Panel) string {
	if len(d.Parts) == 0 {
		return fmt.Sprintf("Too few judges or figures to say anything about a panel: at least %s judges and %s figures are needed.",
			NumberWord(d.JudgesNeeded), NumberWord(d.FiguresNeeded))
	}
	var said, drawn []string
	once := !slices.ContainsFunc(d.Judges, func(j answers.PanelJudge) bool { return j.Apart && !j.Drawn && j.Flights > 1 })
	for i := range d.Parts {
		apart := slices.DeleteFunc(slices.Clone(d.Judges), func(j answers.PanelJudge) bool { return j.Part != i+1 || !j.Apart })
		slices.SortStableFunc(apart, func(a, b answers.PanelJudge) int {
			return cmp.Or(cmp.Compare(min(b.Flights, 2), min(a.Flights, 2)), cmp.Compare(math.Abs(b.Leniency.Float64()), math.Abs(a.Leniency.Float64())))
		})
		var names []string
		for _, j := range apart {
			more := ""
			if j.Flights == 1 && !once {
				more = ", from one flight"
			}
			if !j.Drawn {
				names = append(names, leniencyOf(j, more))
			}
		}
		if len(names) > 0 {
			said = append(said, strings.Join(names, ", "))
		}
		of := slices.DeleteFunc(slices.Clone(d.Judges), func(j answers.PanelJudge) bool { return j.Part != i+1 })
		for _, text := range []string{drawsMean(apart), hiddenSaid(of)} {
			if text != "" {
				drawn = append(drawn, text)
			}
		}
	}
	if len(said) == 0 {
		return "No judge differs from the panel by more than chance."
	}
	from := ""
	if once {
		from = ", from one flight each"
	}
	return "Judges above or below the panel by more than chance" + from + ": " + strings.Join(append([]string{strings.Join(said, "; ") + "."}, drawn...), " ")
}

// leniencyOf is a judge with the leniency, and what is to be said behind it.
func leniencyOf(j answers.PanelJudge, more string) string {
	return fmt.Sprintf("%s (%s%s)", j.Name, report.Signed(j.Leniency, GradeDecimals), more)
}

// drawsMean says of those of a part who stand apart, in the order in which they are said,
// who is so only by the mean that others draw, "" where nobody is.
func drawsMean(apart []answers.PanelJudge) string {
	var far, near []string
	for _, j := range apart {
		if j.Drawn {
			near = append(near, j.Name)
		}
		if j.Draws {
			far = append(far, j.Name)
		}
	}
	if len(near) == 0 || len(far) == 0 {
		return ""
	}
	names := ListInWords(far)
	return fmt.Sprintf("%s %s the mean of all: held against the others without %s, %s %s not differ by more than chance.",
		names, PluralWord(len(far), "draws", "draw"), names, ListInWords(near), PluralWord(len(near), "does", "do"))
}

// hiddenSaid says who of a part stands apart too once those far from all are left out, ""
// where nobody does.
func hiddenSaid(judges []answers.PanelJudge) string {
	var far, hidden []string
	for _, j := range judges {
		if j.Hides {
			far = append(far, j.Name)
		}
		if j.Hidden {
			hidden = append(hidden, fmt.Sprintf("%s (%s)", j.Name, report.Signed(j.Without, GradeDecimals)))
		}
	}
	if len(hidden) == 0 {
		return ""
	}
	return fmt.Sprintf("Once %s %s left out, %s %s apart from the others too.",
		ListInWords(far), PluralWord(len(far), "is", "are"), ListInWords(hidden), PluralWord(len(hidden), "stands", "stand"))
}

// unevenSentence names the judges whose grades scatter more than the others' by more
// than chance, "" where none do.
func unevenSentence(d answers.Panel) string {
	var names []string
	var uneven answers.PanelJudge
	for _, j := range d.Judges {
		if j.TimesOthers.Known() {
			names = append(names, j.Name)
			uneven = j
		}
	}
	switch len(names) {
	case 0:
		return ""
	case 1:
		return fmt.Sprintf("%s is less consistent than the others by more than chance: the grades scatter by %s, %s.", names[0], uneven.Scatter.Text(GradeDecimals), othersScatter(d, uneven))
	default:
		return ListInWords(names) + " are less consistent than the others by more than chance: their grades scatter more."
	}
}

// othersScatter says by how much the judges scatter who sat with one.
func othersScatter(d answers.Panel, of answers.PanelJudge) string {
	var low, high report.Number
	for _, j := range d.Judges {
		if j.Part != of.Part || j.Judge == of.Judge && j.At == of.At || !j.Scatter.Known() {
			continue
		}
		if !low.Known() || j.Scatter.Float64() < low.Float64() {
			low = j.Scatter
		}
		if !high.Known() || j.Scatter.Float64() > high.Float64() {
			high = j.Scatter
		}
	}
	least, most := low.Text(GradeDecimals), high.Text(GradeDecimals)
	if least == most {
		return "the others' by " + most
	}
	return fmt.Sprintf("the others' by %s to %s", least, most)
}

// whoseLone says of lone grades, three and more, whose most of them are, "" where they
// are of several.
func whoseLone(d answers.Panel) string {
	const few = 3
	for _, j := range d.Judges {
		switch {
		case len(d.Flags) < few || 2*j.Flagged <= len(d.Flags):
		case j.Flagged == len(d.Flags):
			return ", all of " + j.Name
		default:
			return fmt.Sprintf(", %d of them of %s", j.Flagged, j.Name)
		}
	}
	return ""
}

// PanelSentences say who grades apart from the panel and who less evenly than the
// others, then how many grades stand alone and whose most are.
func PanelSentences(d answers.Panel) []string {
	said := []string{PanelThought(d)}
	if uneven := unevenSentence(d); uneven != "" {
		said = append(said, uneven)
	}
	const left = " in a minority about a zero (the numbers leave out HZ)"
	switch n := len(d.Flags); {
	case n > 0 && len(d.Zeros) > 0:
		said = append(said, Counted(n, "grade stands", "grades stand")+" apart"+whoseLone(d)+", and "+Counted(len(d.Zeros), "mark", "marks")+left+": "+sheetFirst+".")
	case n > 0:
		said = append(said, Counted(n, "grade stands", "grades stand")+" apart from the rest of the panel and the judge's own habit"+whoseLone(d)+": "+sheetFirst+".")
	case len(d.Zeros) > 0:
		said = append(said, Counted(len(d.Zeros), "mark stands", "marks stand")+left+": "+sheetFirst+".")
	}
	return said
}

// ZerosAlone name the marks that stand alone about a zero, a note each.
func ZerosAlone(d answers.Panel) []string {
	var named []string
	for _, z := range d.Zeros {
		named = append(named, fmt.Sprintf("in a minority about a zero: %s's %s on figure %d of %s", z.Judge, z.Mark, z.Figure, z.Flight))
	}
	return named
}

// PartHeading is the heading of one part of the judges, counted from 1, out of
// so many.
func PartHeading(part, of int) string {
	if of > 1 {
		return fmt.Sprintf("Judges who can be compared, part %d of %d", part, of)
	}
	return JudgesHeading
}

// The other headings of the page of judges.
const (
	LoneGradesHeading   = "Lone grades"
	PanelFlightsHeading = "Flights"
)

// sheetFirst is what to do about a lone grade, in order: a judge is never asked past
// the chief judge.
const sheetFirst = "compare with the paper sheet first, then ask through the chief judge"

const oneSheetOnly = "one pilot's sheets cannot tell a lenient judge from one who likes this pilot's flying"

// ownScatter says what the give or take of a leniency is by.
const ownScatter = "give or take: one standard error of leniency, by the judge's own scatter"

const (
	scatterExplained = "scatter: the standard deviation about the others, in grades; it does not say who is right; judges: in the order in which they first sat"
	seatsExplained   = "; a seat, A say, is a person within its contest alone"
	partsExplained   = "judges in different parts never sat on one panel, directly or through others, and are not compared"
)

// LoneExpected is what a column of expected grades says.
const LoneExpected = ColumnOthersSay + ": by the others' grades of the figure and this judge's own leniency"

// loneLeftOut says why a judge has fewer grades than figures.
const loneLeftOut = "lone grades are left out of their judges' rows: of leniency, scatter and grades"

// PanelNotes say what the numbers of the judges mean.
func PanelNotes(d answers.Panel) []string {
	notes := []string{
		"leniency: grades above (+) or below (-) the judges compared with, moved towards 0 by the share of the spread that chance explains, positioning left out; " + oneSheetOnly,
		scatterExplained,
		NoiseExplained,
		ownScatter,
	}
	if len(d.Flags) > 0 {
		notes = append(notes, LoneExpected, loneLeftOut)
	}
	notes = append(notes, partsSaid(d)...)
	return notes
}

// partsSaid says why there are several parts, and what a seat is: by their names judges
// would be compared.
func partsSaid(d answers.Panel) []string {
	if len(d.Parts) < 2 {
		return nil
	}
	if slices.ContainsFunc(d.Judges, func(j answers.PanelJudge) bool { return j.At != "" }) {
		return []string{partsExplained + seatsExplained}
	}
	return []string{partsExplained}
}

// PanelNotesBrief say what the numbers of the judges mean, not how they were
// reached.
func PanelNotesBrief(d answers.Panel) []string {
	notes := []string{
		"leniency: grades above (+) or below (-) the judges compared with, adjusted for chance, positioning left out; " + oneSheetOnly,
		scatterExplained,
	}
	if len(d.Flags) > 0 {
		notes = append(notes, LoneExpected)
	}
	notes = append(notes, partsSaid(d)...)
	return notes
}

// LoneNotes say what to do about lone grades that stand in a table: each in a sentence
// where there is one, the same words once where there are several.
func LoneNotes(flags []answers.Flag) []string {
	if len(flags) == 1 {
		return FlagNotes(flags)
	}
	var notes []string
	for _, f := range flags {
		if f.HardZeros > 0 {
			notes = append(notes, fmt.Sprintf("judge %s gave %s on figure %d of %s, where %s: one more may be meant, which is typed HZ", f.Judge, f.Mark, f.Figure, f.Flight, othersZeroed(f)))
		}
	}
	return append(notes, "each is far from what the rest of the panel and the judge's own habit suggest: "+sheetFirst)
}

// FlagNotes say what to do about lone grades; the score is never changed.
func FlagNotes(flags []answers.Flag) []string {
	var notes []string
	for _, f := range flags {
		if f.HardZeros > 0 {
			notes = append(notes, fmt.Sprintf("judge %s gave %s on figure %d, where %s: one more may be meant, which is typed HZ; %s", f.Judge, f.Mark, f.Figure, othersZeroed(f), sheetFirst))
			continue
		}
		notes = append(notes, fmt.Sprintf("judge %s gave %s on figure %d; the rest of the panel and %s's own habit suggest about %s: %s",
			f.Judge, f.Mark, f.Figure, f.Judge, f.Fitted.Text(1), sheetFirst))
	}
	return notes
}

// othersZeroed counts those who gave a figure a hard zero.
func othersZeroed(f answers.Flag) string {
	return Counted(f.HardZeros, "judge gave", "judges gave") + " a hard zero"
}

// AloneNotes say what the rest suggests for each lone grade.
func AloneNotes(flags []answers.Flag) []string {
	var notes []string
	for _, f := range flags {
		if f.HardZeros > 0 {
			notes = append(notes, fmt.Sprintf("%s by %s on figure %d, where %s", f.Mark, f.Judge, f.Figure, othersZeroed(f)))
			continue
		}
		notes = append(notes, fmt.Sprintf("%s by %s stands alone on figure %d, where about %s was expected", f.Mark, f.Judge, f.Figure, f.Fitted.Text(1)))
	}
	return notes
}

// FlightPanelNotes say what one flight's grades say of its panel.
func FlightPanelNotes(d answers.Flight) []string {
	var notes []string
	if d.Noise.Known() {
		notes = append(notes,
			fmt.Sprintf("noise: another panel of this size would change the percent by about %s percentage points by chance, one standard deviation; a grade scatters by %s",
				d.Noise.Text(1), d.Scatter.Text(GradeDecimals)),
			"leniency: grades above (+) or below (-) this panel; "+oneSheetOnly)
	}
	notes = append(notes, FlagNotes(d.Flags)...)
	if d.Refit {
		notes = append(notes, "leniency and scatter leave the flagged grades out; the score is not changed")
	}
	return notes
}
