package words

import (
	"fmt"
	"math/big"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
)

// The words of the page that changes a score sheet.
const (
	WhatIfTitle        = "What if"
	WhatIfLinesHeading = "By figure"
	ReachHeading       = "What it takes"

	ColumnAfter = "after"
	ColumnMore  = "more"
	ColumnNow   = "now"
	ColumnAlone = "alone"
)

// WhatIfPageTitle says whose flight is changed.
func WhatIfPageTitle(d answers.WhatIf) string {
	return WhatIfTitle + ": " + FlightTitle(answers.Flight{PilotName: d.PilotName, Programme: d.Programme, Date: d.Date, Label: d.Label})
}

// WhatIfSentences say what the changes come to, and what a target takes.
func WhatIfSentences(d answers.WhatIf, asked bool) []string {
	var said []string
	if len(d.Changes) > 0 {
		said = append(said, changedSentence(d))
	}
	switch {
	case d.Reach != nil:
		said = append(said, reachedSentence(d))
		if place := placePerhaps(d.Reach); place != "" {
			said = append(said, "That is "+place+"% of the maximum; a place is asked about by --reach \"place "+place+"\".")
		}
	case asked:
		said = append(said, "Cannot tell what it takes: a figure is undecided.")
	}
	return said
}

func changedSentence(d answers.WhatIf) string {
	given := "If " + ListInWords(changesMade(d.Made)) + ": "
	switch {
	case d.After.Undecided:
		return given + "undecided, a figure has no value."
	case d.Before.Undecided:
		return given + fmt.Sprintf("%s points, %s%%; as it stands the flight is undecided.", d.After.Points.Text(PointDecimals), d.After.Percent.Text(PercentDecimals))
	case len(d.Lines) == 0 && d.Before.Penalty.Rat().Cmp(d.After.Penalty.Rat()) == 0:
		return given + fmt.Sprintf("nothing changes, %s points, %s%%.", d.After.Points.Text(PointDecimals), d.After.Percent.Text(PercentDecimals))
	}
	text := given + fmt.Sprintf("%s points instead of %s, %s%% instead of %s%%", d.After.Points.Text(PointDecimals), d.Before.Points.Text(PointDecimals),
		d.After.Percent.Text(PercentDecimals), d.Before.Percent.Text(PercentDecimals))
	return text + placeChanged(d) + "."
}

// changesMade says each change in words.
func changesMade(made []answers.WhatChange) []string {
	said := make([]string, len(made))
	for i, c := range made {
		said[i] = changeMade(c)
	}
	return said
}

func changeMade(c answers.WhatChange) string {
	switch c.Kind {
	case answers.ChangeNoZeros:
		return "hard and perception zeros are taken as not seen"
	case answers.ChangeNoPenalty:
		return "no penalty is taken"
	case answers.ChangeWithoutJudge:
		return "judge " + c.Judge + " is left out"
	}
	text := c.Line
	if c.Figure > 0 {
		text = fmt.Sprintf("figure %d", c.Figure)
	}
	if c.Graded {
		text += " is graded " + c.Mark
	} else {
		text += " is marked " + c.Mark
	}
	if c.Judge != "" {
		text += " by " + c.Judge
	}
	return text
}

// placeChanged ends a sentence with the place, where it is known.
func placeChanged(d answers.WhatIf) string {
	switch {
	case d.After.Place == 0:
		return ""
	case d.Before.Place == 0:
		return fmt.Sprintf(", place %d of %d", d.After.Place, d.After.Of)
	case d.After.Place == d.Before.Place:
		return fmt.Sprintf(", place %d of %d as before", d.After.Place, d.After.Of)
	default:
		return fmt.Sprintf(", place %d instead of %d of %d", d.After.Place, d.Before.Place, d.After.Of)
	}
}

// reachedSentence says what mean grade a total takes.
func reachedSentence(d answers.WhatIf) string {
	r := *d.Reach
	target := r.Percent.Text(PercentDecimals) + "%"
	if r.Winner {
		target = fmt.Sprintf("The best of the others, %s points (%s)", r.Points.Text(PointDecimals), target)
	}
	switch {
	case r.Place > 0:
		target = fmt.Sprintf("Place %d, %s points (%s)", r.Place, r.Points.Text(PointDecimals), target)
	case r.AsPoints:
		target = fmt.Sprintf("%s points (%s)", r.Points.Text(PointDecimals), target)
	case !r.Winner:
		target = trimmed(r.Percent) + "%"
	}
	switch {
	case r.Reached && r.Behind.Known():
		return fmt.Sprintf("%s: reached by the marks as typed, %s points; the official total, %s, is %s behind it%s.", target,
			d.After.Points.Text(PointDecimals), d.Official.Text(PointDecimals), r.Behind.Text(PointDecimals), inPlace(r.PlaceNow))
	case r.Reached && r.PlaceNow > 0 && r.PlaceNow < r.Place:
		return fmt.Sprintf("%s: place %d is ahead of that already.", target, r.PlaceNow)
	case r.Reached && len(d.Changes) > 0 && !typedReach(d):
		return target + ": reached with " + PluralWord(len(d.Changes), "this change", "these changes") + "."
	case r.Reached && (r.Winner || r.Place > 0):
		return target + ": reached by the marks as typed."
	case r.Reached && d.Official.Known():
		return fmt.Sprintf("%s: reached by the marks as typed; the official total is %s.", target, d.Official.Text(PointDecimals))
	case r.Reached:
		return target + ": reached."
	case !r.Mean.Known():
		return fmt.Sprintf("%s: out of reach, whatever the grades.", target)
	}
	if r.Winner {
		target += ","
	}
	text := fmt.Sprintf("%s takes a mean grade of %s in the figures, which now have %s", target, r.Mean.TextUp(MeanDecimals), r.Have.Text(MeanDecimals))
	switch alone := r.Alone(); alone {
	case 0:
		return text + "; no figure alone can do it."
	case 1:
		return text + "; one figure alone could do it."
	default:
		return text + fmt.Sprintf("; any one of %s could do it.", Counted(alone, "figure", "figures"))
	}
}

// typedReach reports whether the marks reach the target without the changes.
func typedReach(d answers.WhatIf) bool {
	return !d.Before.Undecided && d.Before.Points.Rat().Cmp(d.Reach.Points.Rat()) >= 0
}

// inPlace ends a sentence with a printed place, where it is known.
func inPlace(place int) string {
	if place == 0 {
		return ""
	}
	return fmt.Sprintf(", in place %d", place)
}

// WhatIfNotes say what a reader must know beside the numbers.
func WhatIfNotes(d answers.WhatIf) []string {
	var notes []string
	if d.LastContest != "" {
		notes = append(notes, "the latest flight is a practice one; the last contest flight is "+d.LastContest)
	}
	if len(d.Missing) > 0 {
		notes = append(notes, fmt.Sprintf("the %s of %s %s missing: points, percent and grades are without %s", PluralWord(len(d.Missing), "sheet", "sheets"), ListInWords(d.Missing),
			PluralWord(len(d.Missing), "is", "are"), PluralWord(len(d.Missing), "it", "them")))
	}
	if text := printedBeside(d); text != "" && len(d.Changes) > 0 {
		notes = append(notes, "before and after are calculated from the marks; "+text)
	}
	if text := reachedFrom(d); text != "" {
		notes = append(notes, text)
	}
	if d.OtherPanel {
		notes = append(notes, "no place: without a judge the others' totals would change too")
	} else if text := placeNote(d); text != "" && len(d.Changes) > 0 {
		notes = append(notes, text)
	}
	return notes
}

// reachedFrom says from which total a target is counted where the official one is another,
// and how far off it is from either, as a season's page has it; "" where that is said
// otherwise.
func reachedFrom(d answers.WhatIf) string {
	r := d.Reach
	if r == nil || r.Reached || len(d.Changes) > 0 || !d.Official.Known() {
		return ""
	}
	text := fmt.Sprintf("what it takes is counted from the marks, %s points; the official total is %s", d.After.Points.Text(PointDecimals), d.Official.Text(PointDecimals))
	if r.Behind.Known() {
		lacks := report.Exact(new(big.Rat).Sub(r.Points.Rat(), d.After.Points.Rat()))
		text += fmt.Sprintf(", and from that %s points are lacking instead of %s", r.Behind.Text(PointDecimals), lacks.Text(PointDecimals))
	}
	return text
}

// placeNote says what the place goes by, or why there is none.
func placeNote(d answers.WhatIf) string {
	switch {
	case d.After.Undecided:
		return ""
	case d.NoPlace == answers.NoPlaceNoField:
		return "no place: nobody else's total is typed"
	case d.NoPlace == answers.NoPlaceMaximum:
		return "no place: the totals of the others are not out of the maximum that the marks are"
	case d.NoPlace == answers.NoPlacePilots:
		return "no place: how many flew is not typed"
	case d.NoPlace == answers.NoPlacePart:
		return "no place: " + othersTyped(d)
	case d.After.Place == 0:
		return ""
	case d.ByPrinted > 0:
		return "place: among the totals of the others as typed, which stay as they are; " + othersTyped(d) + fmt.Sprintf(", and by the printed place, %d, none of the rest was ahead", d.ByPrinted)
	}
	return "place: among the totals of the others as typed, which stay as they are"
}

// othersTyped says how many totals of the others the ledger has.
func othersTyped(d answers.WhatIf) string {
	return fmt.Sprintf("of the %s %d %s typed", Counted(d.OthersFlown, "other's total", "others' totals"), d.OthersTyped, PluralWord(d.OthersTyped, "is", "are"))
}

// printedBeside says what was printed of the flight where the marks come to
// something else, "" where they do not.
func printedBeside(d answers.WhatIf) string {
	var printed []string
	if d.Official.Known() {
		printed = append(printed, "the official total is "+d.Official.Text(PointDecimals))
	}
	if d.PrintedPlace > 0 && !d.OtherPanel {
		printed = append(printed, fmt.Sprintf("the printed place is %d", d.PrintedPlace))
	}
	return strings.Join(printed, ", ")
}

// placePerhaps is a whole percentage so low that a place may be meant, "" else.
func placePerhaps(r *answers.WhatItTakes) string {
	if r.Winner || r.AsPoints || r.Place > 0 {
		return ""
	}
	if percent := r.Percent.Rat(); !percent.IsInt() || percent.Cmp(big.NewRat(mostPlaces, 1)) > 0 {
		return ""
	}
	return r.Percent.Text(0)
}

// ReachNotes explain the table of what a target takes.
func ReachNotes(r answers.WhatItTakes) []string {
	return []string{
		"alone: the least grade that would do if every judge gave it on that figure and all else stayed, penalties too; " + NoneSign + ": none would",
		"mean grade: each figure weighted by its K",
	}
}

// mostPlaces is how high a percentage may be meant for a place.
const mostPlaces = 30

// NoneSign stands where no grade would do.
const NoneSign = "-"

// WhatIfHelp says what the command does.
func WhatIfHelp() string {
	return `Show what a flight would have scored, calculated by the rules of its score
sheet: points, percent and, where the whole field is typed, place. The ledger
stays as it is. A CHANGE is one of

  4=7.5       figure 4: 7.5 from every judge; marks such as HZ or AV too
  4@BM=8      figure 4: 8 from the judge BM
  pos=8       positioning, harmony=8 harmony; pos@BM=8 from one judge
  no-zeros    hard and perception zeros taken as not seen
  without BM  the panel without the judge BM
  no-penalty  nothing taken off

Several are made in the order given. PILOT and SELECTOR are those of flight;
"last" if omitted. --reach 70 says what mean grade the figures need for 70%, and
how far each figure alone would have to go; --reach winner the same for the
total of the best of the others, --reach "place 3" for the one in that place,
and --reach 862.10, a number above 100, for so many points.`
}
