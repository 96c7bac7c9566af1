package words

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/report/answers"
)

// FlightSentences answer a flight's page: the score, whether the official total
// agrees, and where most was lost.
func FlightSentences(d answers.Flight) []string {
	said := ScoreSaid(d)
	if text := mostLost(d); text != "" {
		said = append(said, text)
	}
	return said
}

// ScoreSaid is the score, and whether the official total agrees.
func ScoreSaid(d answers.Flight) []string {
	return slices.DeleteFunc([]string{ScoreSentence(d), officialSaid(d)}, func(text string) bool { return text == "" })
}

// ScoreSentence is the score with the place, and what it is to the season where
// that is not plain.
func ScoreSentence(d answers.Flight) string {
	place := ""
	if d.Place > 0 {
		place = ", " + placeSaid(d)
	}
	switch {
	case d.Void != "" && d.Marked:
		return fmt.Sprintf("Void (%s), so left out of every statistic; the marks alone: %s%s.", d.Void, pointsSaid(d), place)
	case d.Void != "":
		return fmt.Sprintf("Void (%s): left out of every statistic, and no mark of it is in the ledger.", d.Void)
	case d.Points.Known() || d.Range != nil:
		return sentence(pointsSaid(d) + place)
	case d.Official != nil && d.Record != nil && d.Record.Percent.Known():
		return fmt.Sprintf("%s%%: %s of %s points%s, the printed total alone; no mark is in the ledger.",
			d.Record.Percent.Text(PercentDecimals), d.Official.Points.Text(d.Official.Decimals), d.Official.Maximum.Text(0), place)
	case d.Official != nil:
		return fmt.Sprintf("%s points%s, the printed total alone; no mark is in the ledger.", d.Official.Points.Text(d.Official.Decimals), place)
	default:
		return sentence("No mark and no total of it is in the ledger" + place)
	}
}

// placeSaid is the place, with the number of flyers where it is known.
func placeSaid(d answers.Flight) string {
	if d.Of > 0 {
		return fmt.Sprintf("place %d of %d", d.Place, d.Of)
	}
	return fmt.Sprintf("place %d", d.Place)
}

// pointsSaid is the own score: percent, points, what penalties took.
func pointsSaid(d answers.Flight) string {
	if !d.Points.Known() {
		return fmt.Sprintf("Undecided: %s to %s of %s points, until a ruling is recorded with `boxbook log official --flight %s`", d.Range.Low.Text(PointDecimals), d.Range.High.Text(PointDecimals), d.Maximum.Text(0), d.Flight)
	}
	text := fmt.Sprintf("%s%%: %s of %s points", d.Percent.Text(PercentDecimals), d.Points.Text(PointDecimals), d.Maximum.Text(0))
	var taken []string
	for _, p := range d.Penalties {
		taken = append(taken, fmt.Sprintf("%s for %s", p.Points.Text(p.Decimals), p.Kind))
	}
	if len(taken) > 0 {
		text += ", after " + ListInWords(taken)
	}
	if len(d.Missing) > 0 {
		text += fmt.Sprintf(", without the %s of %s", PluralWord(len(d.Missing), "sheet", "sheets"), ListInWords(d.Missing))
	}
	return text
}

// sentence ends a text that says one thing.
func sentence(text string) string { return text + "." }

// officialSaid says whether the official total agrees; "" where nothing can be
// asked of it.
func officialSaid(d answers.Flight) string {
	switch {
	case d.Counts != answers.CountsVoid && d.Official != nil && d.Official.MayBePercent:
		return sentence(percentDoubted(d))
	case d.Counts == answers.CountsVoid || !d.Marked:
		return ""
	case d.Official != nil:
		return OfficialSentence(d)
	case d.Counts == answers.CountsContest:
		return "No official total is typed: this is calculated from the marks." + printedJudges(d)
	default:
		return ""
	}
}

// printedJudges says how the judges' printed totals lie to the marks where the flight's is
// not typed; "" where those are not either.
func printedJudges(d answers.Flight) string {
	printed := &answers.Official{Judges: d.PrintedJudges}
	apart := JudgesApart(printed)
	switch {
	case len(apart) > 0:
		return " " + Sentence(sentence(strings.Join(apart, "; "))) + " Compare with your paper sheets: your own typing is the likelier slip."
	case printed.JudgesAgree():
		return " The printed totals of the judges agree with them."
	}
	return ""
}

// mostLost says where most was lost, and to which fault as far as one is noted.
func mostLost(d answers.Flight) string {
	if d.Lost == nil || len(FigureRows(d.Lost)) == 0 {
		return dearestAlone(d)
	}
	if !AnyLost(d.Lost) {
		return "No points were lost."
	}
	top := FigureRows(d.Lost)[0]
	text := fmt.Sprintf("Most was lost on %s of the %s points lost", top.words("figure"), d.Lost.Total.Text(PointDecimals))
	if top.Part.Lost.Rat().Cmp(d.Lost.Total.Rat()) == 0 {
		text = fmt.Sprintf("The %s points lost all went on %s", d.Lost.Total.Text(PointDecimals), top.named("figure"))
	}
	if d.Undecided {
		text = "Of what is decided: " + lowerFirst(text)
	}
	there := faultsSaidOn(d, top.Key)
	dearest, found := dearestFault(d)
	switch {
	case len(d.Faults) == 0:
		text += "; no faults are noted for this flight"
	case len(there) == 0:
		text += ", with no fault noted there"
	default:
		text += "; noted there: " + ListInWords(there)
	}
	if found && fmt.Sprint(dearest.Figure) != top.Key {
		text += "; the costliest fault noted is " + dearestSaid(dearest)
	}
	return sentence(text)
}

// dearestAlone says the dearest fault of a flight that has no marks.
func dearestAlone(d answers.Flight) string {
	if f, found := dearestFault(d); found {
		return sentence("The costliest fault noted is " + dearestSaid(f))
	}
	return ""
}

func dearestSaid(f answers.Fault) string {
	return fmt.Sprintf("%s on figure %d, %s points", cmp.Or(f.Says, f.Kind), f.Figure, f.Points.Text(PointDecimals))
}

// faultsSaidOn are the kinds of the graded faults noted on a figure, each once.
func faultsSaidOn(d answers.Flight, figure string) []string {
	var said []string
	for _, f := range d.Faults {
		if f.Graded && fmt.Sprint(f.Figure) == figure {
			said = Once(said, cmp.Or(f.Says, f.Kind))
		}
	}
	return said
}

// dearestFault is the noted fault that takes most points, the first noted of
// equals.
func dearestFault(d answers.Flight) (answers.Fault, bool) {
	counted := slices.DeleteFunc(slices.Clone(d.Faults), func(f answers.Fault) bool {
		return !f.Counted || !f.Points.Known() || f.Points.Rat().Sign() <= 0
	})
	if len(counted) == 0 {
		return answers.Fault{}, false
	}
	return slices.MaxFunc(counted, func(a, b answers.Fault) int { return a.Points.Rat().Cmp(b.Points.Rat()) }), true
}

// The largest panels whose totals stand beneath its columns on a flight's page, where they
// are whole points: with decimals a total takes twice the room of a mark, and a sign behind
// marks takes room as well.
const (
	totalsBeneath       = 5
	totalsBeneathSigned = 4
)

// TotalsBeneath says that the last row of the sheet has the judges' totals: those
// of several judges, where all are known, none has a part of a point, and there is room.
// One judge's total is the flight's.
func TotalsBeneath(d answers.Flight) bool {
	most := totalsBeneath
	if anySign(d) {
		most = totalsBeneathSigned
	}
	whole := !slices.ContainsFunc(d.Judges, func(j answers.Judge) bool { return !j.Total.Known() || !j.Total.Rat().IsInt() })
	return whole && len(d.Judges) > 1 && len(d.Missing) == 0 && len(d.Panel) <= most && d.Raw.Known() && d.Lost != nil
}

// anySign reports whether a mark of a figure did not count as it stands.
func anySign(d answers.Flight) bool {
	return slices.ContainsFunc(d.Figures, func(f answers.Figure) bool {
		return slices.ContainsFunc(f.Cells, func(c answers.MarkCell) bool {
			return c.Counted == answers.FilledMark || c.Counted == answers.OverruledMark || c.Counted == answers.DroppedMark
		})
	})
}

// JudgesTotals are the totals of the judges' sheets in a line, where the sheet has
// no row of them; none of one judge.
func JudgesTotals(d answers.Flight) []string {
	if len(d.Judges)+len(d.Missing) < 2 || TotalsBeneath(d) {
		return nil
	}
	var totals []string
	for _, j := range d.Judges {
		total := OpenCell
		if j.Total.Known() {
			total = j.Total.Text(PointDecimals)
		}
		totals = append(totals, j.Name+" "+total)
	}
	for _, name := range d.Missing {
		totals = append(totals, name+" "+MissingCell)
	}
	return []string{"totals: " + strings.Join(totals, ", ")}
}

// FlightPageNotes are the notes of a flight's page: what must be known beside the
// score, then what pilot and coach wrote, then where the videos are.
func FlightPageNotes(d answers.Flight) []string {
	notes := append(append(scoreNeeds(d), d.Notes...), closesNotes(d)...)
	notes = append(notes, ReviewNotes(d)...)
	return append(notes, videoNotes(d)...)
}

// videoNotes say where a flight's videos are, and those of its reviews.
func videoNotes(d answers.Flight) []string {
	var notes []string
	for _, video := range d.Videos {
		notes = append(notes, FactVideo+": "+video)
	}
	for _, r := range d.Reviews {
		for _, video := range r.Videos {
			notes = append(notes, VideoOf(r)+": "+video)
		}
	}
	return notes
}

// MoreOfFlight says where the rest of a flight's numbers are.
func MoreOfFlight(d answers.Flight) string {
	return "Elements, families, judges: boxbook flight " + d.Flight + " --all"
}

// LossFaultHeading stands above the losses with the faults noted, or the faults
// alone.
func LossFaultHeading(d answers.Flight) string {
	switch {
	case d.Lost == nil:
		return FaultsHeading
	case len(d.Faults) == 0:
		return LostHeading
	default:
		return LostHeading + ", and the faults noted"
	}
}
