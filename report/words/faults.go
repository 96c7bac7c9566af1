package words

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
)

// FaultsAnswers are the sentences of FaultsSentences with the matters of safety that
// were noted, behind what is open.
func FaultsAnswers(d answers.Faults) []string {
	said := FaultsSentences(d)
	text := SafetySentence(d)
	switch {
	case text == "":
		return said
	case len(d.Open) > 0:
		return slices.Insert(said, 1, text)
	default:
		return slices.Insert(said, 0, text)
	}
}

// FaultsSentences answer what comes back: what is open first, then the kind that
// comes back most, then the next ones, then what cannot be told yet; at most four.
func FaultsSentences(d answers.Faults) []string {
	var said []string
	if len(d.Open) > 0 {
		said = append(said, Counted(len(d.Open), "matter is open and comes", "matters are open and come")+" before any grade.")
	}
	switch {
	case d.Reviewed == 0 && len(d.Recurring) == 0:
		return append(said, "No flight in this selection has been reviewed: none has a fault line or a `reviewed` line.")
	case len(d.Recurring) == 0:
		return append(said, nothingBack(d))
	}
	said = append(said, fmt.Sprintf("Comes back most in %s%s%s: %s, %s.", lastDays(d.Limits.Days), practiceIncluded, notInSeason(d), cmp.Or(d.Recurring[0].Says, d.Recurring[0].Kind), backWords(d.Recurring[0])))
	var next []string
	for _, k := range d.Recurring[1:] {
		next = append(next, cmp.Or(k.Says, k.Kind)+", "+backWords(k))
	}
	if len(next) > 0 {
		said = append(said, "Then "+strings.Join(next, "; ")+".")
	}
	if len(d.Untold) > 0 {
		said = append(said, untoldSentence(d.Untold))
	}
	return said
}

// BackSpan says of which flights what comes back is counted.
func BackSpan(d answers.Faults) string {
	return "In " + lastDays(d.Limits.Days) + practiceIncluded + notInSeason(d) + ":"
}

// notInSeason says that what comes back is not of the chosen season, "" where none is
// chosen.
func notInSeason(d answers.Faults) string {
	if d.Season == 0 {
		return ""
	}
	return ", not in " + SeasonChosen(d.Season) + " alone"
}

// KindsTitle stands over the rows of kinds: of which season they are, and in which
// order.
func KindsTitle(d answers.Faults) string {
	title := KindsHeading
	if d.Season != 0 {
		title += ", " + SeasonChosen(d.Season)
	}
	return title + ", most points first"
}

// SafetySentence names the matters of safety among the faults, which no points rank,
// and what became of each, those still open first; "" where there are none. A kind
// that is only open has its own section.
func SafetySentence(d answers.Faults) string {
	var open, closed []string
	for _, k := range d.Kinds {
		if !k.Safety || onlyOpen(d, k.Kind) {
			continue
		}
		text := cmp.Or(k.Says, k.Kind) + " (" + flightCounts(k) + ")"
		if became := kindMatters(d, k.Kind); became != "" {
			text += ", " + became
		}
		if isOpen(d, k.Kind) {
			open = append(open, text)
		} else {
			closed = append(closed, text)
		}
	}
	said := append(open, closed...)
	if len(said) == 0 {
		return ""
	}
	return sentence("Matters of safety noted, which cost no points: " + strings.TrimSuffix(strings.Join(said, "; "), "."))
}

// onlyOpen reports whether a kind is open, and no matter of it among those selected
// was closed.
func onlyOpen(d answers.Faults, kind string) bool {
	return isOpen(d, kind) && !slices.ContainsFunc(d.Matters, func(m answers.Matter) bool { return m.Kind == kind && m.Closed != nil })
}

// isOpen reports whether a matter of a kind stands open.
func isOpen(d answers.Faults, kind string) bool {
	return slices.ContainsFunc(d.Open, func(o answers.Open) bool { return o.Kind == kind })
}

// KindFamily is the family of a row of kinds in words, or on what else it was noted.
func KindFamily(k answers.FaultKind) string {
	if k.Group == "" {
		return "whole figure or flight"
	}
	return GroupShort(k.Group)
}

// KindDrill says since when a kind has a drill, and whether that was ended.
func KindDrill(k answers.FaultKind) string {
	if k.DrillEnded != "" {
		return k.Drill + ", ended"
	}
	return k.Drill
}

// nothingBack says that no fault has come back, and why that may be.
func nothingBack(d answers.Faults) string {
	if d.Reviewed < d.Limits.Flights {
		return Sentence(FewWatched(d)) + "."
	}
	if len(d.Untold) > 0 {
		return untoldSentence(d.Untold) + fmt.Sprintf(" Nothing else has come back in %s.", lastDays(d.Limits.Days))
	}
	return fmt.Sprintf("No flying fault has come back in %s: none was noted twice since its drill, in at least %s flights that could show it.", lastDays(d.Limits.Days), NumberWord(d.Limits.Flights))
}

// untoldSentence says of which kinds too few flights since their drill tell whether they
// come back.
func untoldSentence(kinds []answers.FaultKind) string {
	said := make([]string, len(kinds))
	for i, k := range kinds {
		said[i] = cmp.Or(k.Says, k.Kind) + ", " + seenSince(k)
	}
	return "Too few flights since the drill to tell whether it comes back: " + strings.Join(said, "; ") + "."
}

// seenSince counts a kind of which too few flights since its drill tell.
func seenSince(k answers.FaultKind) string {
	drill := "since its drill of " + k.Drill + drillEnd(k.DrillEnded)
	if k.ExposedSince == 0 {
		return "no reviewed flight " + drill + " could show it"
	}
	return fmt.Sprintf("noted in %d of %s %s", k.SeenSince, Counted(k.ExposedSince, "flight", "flights"), drill)
}

// seenSinceShort is the same in a cell.
func seenSinceShort(k answers.FaultKind) string {
	return fmt.Sprintf("%d of %d since its drill, too few to tell", k.SeenSince, k.ExposedSince)
}

// backWords say how often a kind comes back, what it costs, and its drill.
func backWords(k answers.FaultKind) string {
	text := backCounts(k)
	switch {
	case k.Points.Float64() > 0:
		text += ", " + atLeast(k, "about") + " " + aboutText(k.PerFlight) + " points per flight"
	case k.Points.Known() && k.Unknown == 0 && k.Seen > 0:
		text += ", no points as noted"
	}
	return text
}

// backCounts count the flights since a kind's drill, or all where it has none.
func backCounts(k answers.FaultKind) string {
	if k.Drill == "" {
		return flightCounts(k) + ", no drill on it" + drillBeside(k)
	}
	return flightCounts(k) + sinceItsDrill(k)
}

// drillBeside names the family whose drill is about some of a kind; "" where there is
// none.
func drillBeside(k answers.FaultKind) string {
	if k.DrillBeside == "" {
		return ""
	}
	return " but that on " + GroupShort(k.DrillBeside)
}

// sinceItsDrill says since when a kind's flights are counted, or that none since could
// show it; "" where it had no drill.
func sinceItsDrill(k answers.FaultKind) string {
	drill := " its drill of " + k.Drill + drillEnd(k.DrillEnded)
	switch {
	case k.Drill == "":
		return ""
	case k.BeforeDrill:
		return " before" + drill + " (none left out; " + unshown(k) + ")"
	default:
		return " since" + drill
	}
}

// What is said of a fault whose flights are all before its drill: in a cell, and in full.
const (
	beforeDrill  = " before its drill"
	unshownSince = "too few reviewed flights since could show it, of the sort (contest or practice) in which it was noted"
)

// BeforeDrillExplained says why the page of drills counts other flights before a drill; ""
// where none of what comes back is counted so.
func BeforeDrillExplained(d answers.Faults) string {
	if !slices.ContainsFunc(d.Recurring, func(k answers.FaultKind) bool { return k.BeforeDrill }) {
		return ""
	}
	return "before its drill: all flights; `boxbook drills` leaves out those for which it was set, and counts fewer"
}

// unshown says why a kind's flights are those before its drill.
func unshown(k answers.FaultKind) string {
	if k.ExposedSince == 0 {
		return "no reviewed flight since could show it yet"
	}
	why := "too few to go by"
	switch {
	case k.Alone == answers.ContestsAlone:
		why = "too few of them contest flights"
	case k.Alone == answers.PracticeAlone:
		why = "too few of them practice"
	case k.EnoughSince():
		why = "too few of them of the sort, contest or practice, in which it was noted"
	}
	return fmt.Sprintf("in %d of %s since, %s", k.SeenSince, Counted(k.ExposedSince, "flight", "flights"), why)
}

// flightCounts says in how many of the flights that could show it, by their sort where
// it was noted in one alone.
func flightCounts(k answers.FaultKind) string {
	if k.Alone == answers.Anywhere {
		return fmt.Sprintf("%d of %s", k.Flights, Counted(k.Exposed, "flight", "flights"))
	}
	alone, others := flightsBySort(k)
	return fmt.Sprintf("%d of %s, none of %s", k.Flights, alone, others)
}

// flightsBySort counts the flights that could show a kind which was noted in one sort alone,
// of that and of the other.
func flightsBySort(k answers.FaultKind) (alone, others string) {
	contests := Counted(k.Contests.Exposed, "contest flight", "contest flights")
	practice := Counted(k.Exposed-k.Contests.Exposed, "practice flight", "practice flights")
	if k.Alone == answers.PracticeAlone {
		return practice, contests
	}
	return contests, practice
}

// BackWithout says on every page alike what comes back most often without an open
// drill, and how much more does; "" where nothing does.
func BackWithout(kinds []answers.FaultKind) string {
	if len(kinds) == 0 {
		return ""
	}
	k := kinds[0]
	text := fmt.Sprintf("Comes back most often without an open drill: %s, %s%s", name(k), flightCounts(k)+beforeIts(k), withPractice(k)+drillElsewhere(k))
	if more := len(kinds) - 1; more > 0 {
		text += "; " + Counted(more, "other fault has", "other faults have") + " no open drill"
	}
	return text + "."
}

// beforeIts says of an ended drill since which nothing could show a kind that the flights
// counted are before it; "" of any other.
func beforeIts(k answers.FaultKind) string {
	if !k.BeforeDrill {
		return ""
	}
	return sinceItsDrill(k)
}

// BackDespite names what comes back most of what has an open drill, and whether that is
// told to have helped; "" where there is nothing.
func BackDespite(k *answers.FaultKind) string {
	if k == nil {
		return ""
	}
	text := "Comes back most often with its drill still open: " + name(*k) + ", " + backWords(*k)
	switch {
	case k.DrillAgain > 0:
		fell := "fell"
		if k.DrillWord == answers.MayHaveWorked {
			fell = "may have fallen"
		}
		text += "; it " + fell + ", but is there again, " + InEachOfTheLast(k.DrillAgain)
	case k.DrillWord != "" && !k.BeforeDrill && !k.DrillHelped():
		text += "; the drill is not told to have helped"
	}
	return text + "."
}

// drillElsewhere says the same behind a sentence of what has no drill.
func drillElsewhere(k answers.FaultKind) string {
	if k.DrillBeside == "" {
		return ""
	}
	return ", some of it in " + GroupShort(k.DrillBeside) + ", which have one"
}

// practiceIncluded says that practice counts.
const practiceIncluded = ", practice included"

// withPractice says behind a count of flights that practice is among them, where that
// does not say it.
func withPractice(k answers.FaultKind) string {
	if k.Alone != answers.Anywhere {
		return ""
	}
	return practiceIncluded
}

// name says a kind in words, and where all of it was noted: what could show it may
// be more than that.
func name(k answers.FaultKind) string {
	name := cmp.Or(k.Says, k.Kind)
	if k.Group != "" {
		name += " (noted in " + familyOrName(k.Group) + " alone)"
	}
	return name
}

// familyOrName says a family with its key, since its name may be that of some of its
// elements alone; one whose key is a word, by its name.
func familyOrName(group string) string {
	if strings.Trim(group, "0123456789.") == "" {
		return GroupName(group) + ", family " + group + ","
	}
	return GroupName(group)
}

// The words of the pages of faults that stand for themselves.
const (
	NoDrill              = "none" // of a kind on which no drill is set
	NoOneFamily          = "-"    // of a kind that was noted on no element
	NoOneFamilyExplained = "a dash for the family: noted of a whole figure or flight"
	OpenExplained        = "Not a matter of grades. Each stays open until a later flight has `closed KIND`, or the ledger `closed DATE PILOT KIND`."
	CalibrationExplained = "expected: 10 minus the seen faults; given: the panel's mean, in contest flights. Above 0 the judges took more than the noted faults account for, below 0 less; figures without a noted fault are left out. That is no verdict on either: what nobody noted lowers the given grade alone"
)

// KindColumns explain the columns of the kinds, all of them or those of the brief
// table.
func KindColumns(all bool) []string {
	said := []string{
		"flights: those with it, of the reviewed ones that could show it, practice too; what comes back is counted by kind, since its drill",
		"points: at stake, deduction x K as noted, not what the judges took off",
	}
	if all {
		said[0] += "; since: of any season"
		said = append(said, "seen, felt: how often noted as seen, or as felt, a cause that no judge marks down; a fault noted by two people counts once, at the larger amount")
	}
	return said
}

// UnknownPoints says of how many faults the points are not known.
func UnknownPoints(n int) string {
	return fmt.Sprintf("not known, or a lower limit: for %s the K or the amount is not in the ledger", Counted(n, "fault", "faults"))
}

// FewWatched says that the flights reviewed are too few.
func FewWatched(d answers.Faults) string {
	return "only " + flightsWatched(d.Reviewed) + ": too few to tell a fault that comes back from a single one"
}

// CalibrationZeroed says how many figures no sum of faults explains, and the mean
// without them.
func CalibrationZeroed(c answers.Calibration) string {
	text := Counted(c.Zeroed, "of the figures was", "of the figures were") + " made 0 as a matter of fact, which no sum of faults explains"
	if c.Graded.Known() {
		text += ": without " + PluralWord(c.Zeroed, "it", "them") + " the mean is " + report.Signed(c.Graded, MeanDecimals).String()
	}
	return text
}

// closings is how many commands that close what is open a page names.
const closings = 3

// ClosedBy are the commands that close what is open, one a pilot and kind.
func ClosedBy(open []answers.Open) string {
	var said []string
	for _, o := range open {
		_, rest, _ := strings.Cut(o.Flight, "/")
		pilot, _, _ := strings.Cut(rest, "/")
		command := "Closed by: boxbook " + commandLine([]string{"log closed --pilot", pilot, "--kind", o.Kind})
		if !slices.Contains(said, command) {
			said = append(said, command)
		}
	}
	return strings.Join(said[:min(closings, len(said))], "\n")
}

// OpenMatter says an open matter, where it was noted and with what remark.
func OpenMatter(o answers.Open) string {
	text := cmp.Or(o.Says, o.Kind) + ", " + o.Flight
	if o.Remark != "" {
		text += ": " + o.Remark
	}
	return text
}

// RecurringKind says a fault that comes back, and its drill.
func RecurringKind(k answers.FaultKind) string {
	text := name(k) + ": " + backWords(k)
	if k.DrillText != "" {
		text += fmt.Sprintf("; %q", k.DrillText)
	}
	return text
}

// CoachSentence says how the coach's expected grades lie against the judges', with the
// figures that were made 0 and without them.
func CoachSentence(c answers.Calibration) string {
	text := fmt.Sprintf("%s: expected grades lie %s the given ones, over %s of contest flights on which a fault was noted", CoachHeading, lieBy(c.Bias), Counted(c.N, "figure", "figures"))
	switch {
	case c.Zeroed == c.N:
		text += ", made 0 as a matter of fact, which no sum of faults explains"
	case c.Zeroed > 0:
		text += fmt.Sprintf("; %s without the %s made 0 as a matter of fact", lieBy(c.Graded), NumberWord(c.Zeroed))
	}
	return text + ". That is no verdict on either: what nobody noted lowers the given grade alone."
}

// lieBy is by how much grades lie above or below others.
func lieBy(bias report.Number) string {
	if bias.Float64() < 0 {
		return report.Float(-bias.Float64()).Text(MeanDecimals) + " below"
	}
	return bias.Text(MeanDecimals) + " above"
}

// MoreKinds says that rows of kinds were left out.
func MoreKinds(n int) string { return Counted(n, "more row", "more rows") + " with --all" }

func flightsWatched(n int) string { return Counted(n, "flight reviewed", "flights reviewed") }

// atLeast is the word before a number of points: some may not be known.
func atLeast(k answers.FaultKind, word string) string {
	if k.Unknown > 0 {
		return "at least"
	}
	return word
}

// aboutText is a number to be read as about so many: whole, one decimal below
// ten.
func aboutText(n report.Number) string {
	if n.Float64() < 9.5 {
		return n.Text(1)
	}
	return n.Text(0)
}

// KindLabel names a row of the table of kinds.
func KindLabel(k answers.FaultKind) string {
	if k.Group == "" {
		return k.Kind
	}
	return k.Kind + ", " + k.Group
}
