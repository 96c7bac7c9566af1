package words

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
)

// Whose says before a drill whose it is, where there are several pilots.
func Whose(d answers.Drills, drill answers.Drill) string {
	if !d.SeveralPilots() {
		return ""
	}
	return drill.Name + ": "
}

// mostAnswers is how many sentences answer a page's question.
const mostAnswers = 3

// DrillAnswers are the sentences that answer whether the drills did anything, first of
// those of which something can be told, and what comes back without a drill; of how many
// drills the table alone has an answer stands behind the last of them.
func DrillAnswers(d answers.Drills) []string {
	said := drillSentences(d, toldFirst(d.Drills))
	without := ""
	if len(d.Without) > 0 {
		without = BackWithout(d.Without)
	}
	room := mostAnswers
	if without != "" {
		room--
	}
	if more := len(said) - room; more > 0 {
		said = said[:room]
		said[room-1] += fmt.Sprintf(" %s: in the table.", Counted(more, "more drill", "more drills"))
	}
	if without != "" {
		said = append(said, without)
	}
	return said
}

// DrillsInOrder are drills as they are read: those that are open first, the newest
// before older ones, of one day the firmest verdict.
func DrillsInOrder(drills []answers.Drill) []answers.Drill {
	firmest := []answers.DrillWord{answers.Worked, answers.MayHaveWorked, answers.DrillOpen, answers.DrillTooFew}
	ended := func(d answers.Drill) int { return min(len(d.Ended), 1) }
	return slices.SortedStableFunc(slices.Values(drills), func(a, b answers.Drill) int {
		return cmp.Or(ended(a)-ended(b), cmp.Compare(b.Date, a.Date), slices.Index(firmest, a.Word)-slices.Index(firmest, b.Word))
	})
}

// DrillSentences are every drill's verdict, in the order of DrillsInOrder.
func DrillSentences(d answers.Drills) []string { return drillSentences(d, DrillsInOrder(d.Drills)) }

func drillSentences(d answers.Drills, drills []answers.Drill) []string {
	if len(drills) == 0 {
		return []string{NoDrills(d)}
	}
	var said []string
	for _, drill := range drills {
		said = append(said, Whose(d, drill)+DrillSentence(drill, d.Limits))
	}
	return said
}

// toldFirst are drills with those in front of which something can be told, otherwise in the
// order of DrillsInOrder.
func toldFirst(drills []answers.Drill) []answers.Drill {
	untold := func(d answers.Drill) int {
		if d.Word.Told() {
			return 0
		}
		return 1
	}
	ordered := DrillsInOrder(drills)
	slices.SortStableFunc(ordered, func(a, b answers.Drill) int { return untold(a) - untold(b) })
	return ordered
}

// DrillSentence is one drill's verdict in plain counts. None says that the drill
// was the cause.
func DrillSentence(d answers.Drill, limits answers.DrillLimits) string {
	what := Sentence(GroupShort(d.Target))
	if !d.OnFamily() {
		what = fmt.Sprintf("Fault %q", cmp.Or(d.Says, d.Target))
	}
	return fmt.Sprintf("%s (drill of %s%s): %s; %s.", what, d.Date, drillSpan(d), DrillSaid(d, limits), drillCounts(d))
}

// DrillSaid is a drill's verdict in words.
func DrillSaid(d answers.Drill, limits answers.DrillLimits) string {
	switch {
	case d.Word == answers.Worked && d.OnFamily():
		return "rose against the rest of the flight, by more than the lowest family does by chance"
	case d.Word == answers.Worked:
		return "fell, and the other faults did not as much" + notedAgain(d)
	case d.Word == answers.MayHaveWorked:
		alone := ""
		if d.NothingBeside() {
			alone = "no other fault was noted to hold it against; "
		}
		return fmt.Sprintf("may have fallen (%sa drill that did nothing gives this about once in %s)%s", alone, NumberWord(limits.OnceIn), notedAgain(d))
	case d.Word == answers.DrillTooFew && !d.Over() && !d.Full && d.Before.Flights >= limits.Flights: // those since are yet to come
		return "too few flights to tell yet"
	case d.Word == answers.DrillTooFew:
		return "too few flights to tell"
	case d.Over(), d.Full: // no flight after its end counts, or none after so many
		return "cannot tell"
	default:
		return "cannot tell yet"
	}
}

// notedAgain says of what fell that it is there again, "" where it is not.
func notedAgain(d answers.Drill) string {
	if d.Again == 0 {
		return ""
	}
	return ", but is there again, " + InEachOfTheLast(d.Again)
}

// InEachOfTheLast counts flights on end.
func InEachOfTheLast(flights int) string {
	return fmt.Sprintf("in each of the last %d flights", flights)
}

// DrillShort is the same in a column.
func DrillShort(d answers.Drill, limits answers.DrillLimits) string {
	if d.Word == answers.MayHaveWorked && d.Again == 0 {
		return fmt.Sprintf("%s (chance 1 in %d)", DrillMoved(d), limits.OnceIn)
	}
	return DrillMoved(d)
}

// DrillMoved is what was seen, in as few words as a table for other programs has: no
// cause is claimed.
func DrillMoved(d answers.Drill) string {
	switch {
	case d.Word == answers.Worked && d.OnFamily():
		return "rose"
	case d.Again > 0 && d.Word == answers.Worked:
		return "fell, then there again"
	case d.Again > 0:
		return "may have fallen, then there again"
	case d.Word == answers.Worked:
		return "fell"
	case d.Word == answers.MayHaveWorked:
		return "may have fallen"
	default:
		return string(d.Word)
	}
}

// drillEnd says when a drill was ended, "" while it is open.
func drillEnd(ended string) string {
	if ended == "" {
		return ""
	}
	return ", ended " + ended
}

// drillSpan says up to when a drill counts, "" where it counts on.
func drillSpan(d answers.Drill) string {
	if d.UpTo == "" {
		return drillEnd(d.Ended)
	}
	return drillEnd(d.Ended) + ", counted up to the next one on it, of " + d.UpTo
}

// since says of which time after a drill its flights are.
func since(d answers.Drill) string {
	if d.UpTo != "" {
		return "up to " + d.UpTo
	}
	return "since"
}

// drillCounts counts both sides.
func drillCounts(d answers.Drill) string {
	if d.OnFamily() {
		return familyCounts(d)
	}
	before := fmt.Sprintf(", in %d of %d before", d.Before.Seen, d.Before.Flights)
	switch {
	case d.Before.Flights == 0 && d.LeftOutShown > 0:
		before = "; the flights before that could show it are those that it was set on, which are left out"
	case d.Before.Flights == 0:
		before = ", none before that could show it"
	}
	switch {
	case d.After.Flights == 0 && d.Before.Flights == 0:
		return "no reviewed flight that counts could show it, before or " + since(d)
	case d.After.Flights == 0:
		return "no reviewed flight " + since(d) + " could show it; noted " + strings.TrimPrefix(before, ", ")
	}
	if d.ByKind() {
		return fmt.Sprintf("since, noted in %s; before, in %s", byKind(d.After), byKind(d.Before))
	}
	flights := exposedFlights(d.After.Flights, shownIn(d)) + " " + since(d)
	if d.Later != nil {
		flights = fmt.Sprintf("the first %s, in %d of %d after those", flights, d.Later.Seen, d.Later.Flights)
	}
	return fmt.Sprintf("noted in %d of %s%s", d.After.Seen, flights, before)
}

// BeforeAndSince says a number before a drill and since it, in a cell.
func BeforeAndSince(before, since string) string {
	return before + " before, " + since + " since"
}

// shownIn are the groups that a drill's flights are counted by, where some had
// none of them.
func shownIn(d answers.Drill) []string {
	if d.Unexposed == 0 {
		return nil
	}
	return d.In
}

// exposedFlights counts flights that could show a fault, with the one group in
// which it shows.
func exposedFlights(n int, in []string) string {
	flights := Counted(n, "flight", "flights")
	if len(in) == 1 {
		flights += " with " + GroupName(in[0])
	}
	return flights
}

// familyCounts says how a family moved since its drill.
func familyCounts(d answers.Drill) string {
	flights := fmt.Sprintf("%s %s, %d before", Counted(d.After.Flights, "contest flight", "contest flights"), since(d), d.Before.Flights)
	if d.Later != nil {
		flights = "the first " + flights
	}
	if d.Change == nil {
		return flights
	}
	r := Range{d.Change.Low, d.Change.Change, d.Change.High, d.Change.Confidence}
	return fmt.Sprintf("%s percentage points (%s), %s", r.Change(), r.ChangesAt(), flights)
}

// DrillWhy says what a verdict lacks, "" where it lacks nothing.
func DrillWhy(d answers.Drill, limits answers.DrillLimits) string {
	switch d.Reason {
	case answers.DrillFewFlights:
		return fewSides(d, limits)
	case answers.DrillFewCounts:
		return "too few flights for any count to tell"
	case answers.DrillFewWays:
		return "too few contests to tell, whatever was noted"
	case answers.DrillOthersFell:
		return "the other faults became rarer too"
	case answers.DrillPicked:
		if d.Tests != nil && d.Tests.Fall.Known() && d.Tests.Fall.Float64() <= limits.Ranked.Float64() {
			return "it fell further than the worst one does by chance, but that it did so by more than the other faults is not clear"
		}
		return "whatever is worst moves this much by chance"
	case answers.DrillByChance:
		return likeThis(d)
	case answers.DrillPractice:
		return "practice flights alone show a fall, those of contests do not"
	case answers.DrillMixed:
		return "it may be the kind of flight: contest flights and practice flights, each by themselves, show no such fall"
	default:
		return ""
	}
}

func fewSides(d answers.Drill, limits answers.DrillLimits) string {
	if !d.OnFamily() {
		return fmt.Sprintf("at least %s flights that could show it are needed on each side", NumberWord(limits.Flights))
	}
	text := fmt.Sprintf("at least %s contest flights are needed on each side", NumberWord(limits.Flights))
	if d.Apart > 0 {
		text += ", on sequences flown on both"
	}
	return text
}

// byKind counts a side's contest flights and its practice flights.
func byKind(s answers.DrillSide) string {
	practice := answers.DrillCount{Seen: s.Seen - s.Contests.Seen, Flights: s.Flights - s.Contests.Flights}
	return kindOf(*s.Contests, "contest") + ", " + kindOf(practice, "practice")
}

func kindOf(c answers.DrillCount, kind string) string {
	if c.Flights == 0 {
		return "no reviewed " + kind + " flight that could show it"
	}
	return fmt.Sprintf("%d of %s", c.Seen, Counted(c.Flights, kind+" flight", kind+" flights"))
}

// easily is the chance from which a drill that did nothing gives as much easily.
const easily = 0.4

// likeThis says how often no effect gives as much, and what could show more.
func likeThis(d answers.Drill) string {
	text := "a drill that did nothing would easily look like this"
	if d.P.Float64() < easily {
		text = "a drill that did nothing would look like this " + ChanceWords(d.P.Float64(), "once")
	}
	if d.More > 0 && !d.Over() { // flights after its end do not count
		text += fmt.Sprintf("; %s without the fault could be enough to tell", Counted(d.More, "more flight", "more flights"))
	}
	return text
}

// NoDrills is said where there is none, or none of the season that was asked for.
func NoDrills(d answers.Drills) string {
	if d.Season == 0 {
		return "No drill is set."
	}
	return "No drill was set in " + SeasonChosen(d.Season) + "."
}

// DrillNoted names a drill in a note: whose it is and its target, with its day where
// another drill has both.
func DrillNoted(d answers.Drills, drill answers.Drill) string {
	text := Whose(d, drill) + GroupTitle(drill.Target)
	for _, other := range d.Drills {
		if other.Date != drill.Date && other.Pilot == drill.Pilot && other.Target == drill.Target {
			return text + " of " + drill.Date
		}
	}
	return text
}

// DrillDetails say what a drill's verdict lacks, what the drill is and when it was
// ended.
func DrillDetails(d answers.Drill, limits answers.DrillLimits) []string {
	var said []string
	if why := DrillWhy(d, limits); why != "" {
		said = append(said, why)
	}
	if d.Full && !d.Over() && d.Word != answers.Worked {
		said = append(said, "the flights since are as many as a verdict looks at: end the drill, or set it anew")
	}
	switch {
	case d.Text != "" && d.ByName != "":
		said = append(said, fmt.Sprintf("%q, %s", d.Text, d.ByName))
	case d.Text != "":
		said = append(said, fmt.Sprintf("%q", d.Text))
	}
	if d.EndedRemark != "" {
		said = append(said, fmt.Sprintf("ended %s: %q", d.Ended, d.EndedRemark))
	}
	return said
}

// DrillNotes say what no drill's counts have in them, and what they cannot tell.
func DrillNotes(d answers.Drills) []string {
	text := fmt.Sprintf("Not counted: the last %s flights before a drill, those of its day and those it names, because it was set for what they showed", NumberWord(d.Limits.LeftOut))
	for _, drill := range DrillsInOrder(d.Drills) {
		if drill.Unexposed > 0 {
			text += fmt.Sprintf("; for %s also %s %s", DrillNoted(d, drill), Counted(drill.Unexposed, "flight", "flights"), unexposed(drill))
		}
		if drill.Apart > 0 {
			text += fmt.Sprintf("; for %s also %s of a sequence flown on one side only", DrillNoted(d, drill), Counted(drill.Apart, "flight", "flights"))
		}
	}
	said := []string{text}
	if slices.ContainsFunc(d.Drills, answers.Drill.OnFamily) {
		said = append(said, "before, since, of a family: percentage points above (+) or below (-) the rest of the same flight, zeros included")
	}
	return append(said, NoCause)
}

// unexposed says what flights lacked to show a drill's target.
func unexposed(d answers.Drill) string {
	if len(d.In) == 1 {
		return "without " + GroupName(d.In[0])
	}
	return "that could not show it"
}

// NoCause is said beside every verdict on a drill.
const NoCause = "A fall after a drill does not prove that the drill caused it."

// DrillColumns explain the columns of the drills.
func DrillColumns(limits answers.DrillLimits) []string {
	return []string{
		fmt.Sprintf("before, since: flights in which the fault was noted, seen or felt, of the reviewed ones that could show it, at most %d within %d days; "+
			"for a family, mean percentage points against the rest of the flight, in contest flights of one sequence", limits.Window, limits.Days),
		ColumnOthers + ": kinds without a drill of their own meanwhile, noted per flight before it and since",
	}
}

// DrillTests explain the columns of the tests.
var DrillTests = []string{
	"p to t are chances: how often the numbers would look like this, or more so, had the drill done nothing",
	"p: of the flights that could show it, so few with it since (Fisher's exact test, one-sided); for a family, so large a rise (all exchanges of " +
		"flights before and since)",
	"z, fall: the flights before and since are exchanged in every way, and each time the fault that then stood as high before as this one did is looked " +
		"at, since a drill is set on what stands high; z: so much more of a fall than the other faults', fall: so far a fall",
	"faults: so small a share since of these faults together (Fisher's exact test); within: p with contest flights held against contest flights, and practice " +
		"against practice; t: z for a family's rise",
	ColumnRateRatio + ", from, to: faults per figure flown, of any family, since the drill divided by those before it, with the range",
}

// RateFrom is the title of the column that the ranges of the rates begin in.
func RateFrom(d answers.Drills) string {
	var confidences []report.Number
	for _, drill := range d.Drills {
		if drill.Rate != nil {
			confidences = append(confidences, drill.Rate.Confidence)
		}
	}
	return RangeFrom(confidences...)
}

// DrillLeftOut names the flights that a drill left out.
func DrillLeftOut(d answers.Drill) string {
	return "left out: " + cmp.Or(strings.Join(d.LeftOut, ", "), "none")
}

// FurtherFromDrills says where to go next, of the pilot where all drills are of
// one.
func FurtherFromDrills(d answers.Drills) string {
	if len(d.Drills) == 0 || d.SeveralPilots() {
		return MoreNumbers("drills")
	}
	return Further("drills", d.Drills[0].Pilot)
}
