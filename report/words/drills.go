package words

import (
	"fmt"
	"strings"

	"boxbook/report/answers"
)

// Whose says before a drill whose it is, where there are several pilots.
func Whose(d answers.Drills, drill answers.Drill) string {
	if !d.SeveralPilots() {
		return ""
	}
	return drill.Name + ": "
}

// DrillSentences are every drill's verdict.
func DrillSentences(d answers.Drills) []string {
	if len(d.Drills) == 0 {
		return []string{NoDrills}
	}
	var said []string
	for _, drill := range d.Drills {
		said = append(said, Whose(d, drill)+DrillSentence(drill, d.Limits))
	}
	return said
}

// DrillSentence is one drill's verdict in plain counts.
func DrillSentence(d answers.Drill, limits answers.DrillLimits) string {
	head := fmt.Sprintf("%s, since %s%s: %s: ", Sentence(GroupTitle(d.Target)), d.Date, drillEnd(d.Ended), d.Word)
	if d.OnFamily() {
		return head + groupDrillText(d, limits) + "."
	}
	return head + fmt.Sprintf("noted in %s, %s; %s.", sideWords(d.Before, "before"), sinceWords(d.After), drillChance(d, limits))
}

// drillEnd says when a drill was ended, "" while it is open.
func drillEnd(ended string) string {
	if ended == "" {
		return ""
	}
	return ", ended " + ended
}

// sideWords counts the flights of one side.
func sideWords(s answers.DrillSide, when string) string {
	return fmt.Sprintf("%d of %s %s", s.Seen, Counted(s.Flights, "flight", "flights"), when)
}

func sinceWords(s answers.DrillSide) string {
	if s.Flights == 0 {
		return "no flight looked at since"
	}
	return "in " + sideWords(s, "since")
}

// drillChance says what stands behind the word, or what it lacks.
func drillChance(d answers.Drill, limits answers.DrillLimits) string {
	switch d.Reason {
	case answers.DrillFewFlights:
		return fmt.Sprintf("at least %d flights looked at are needed on each side", limits.Flights)
	case answers.DrillFewCounts:
		return "no counts from so few flights could tell"
	case answers.DrillOthersFell:
		return "the other faults got rarer as well, so that the drill has not been shown to matter"
	case answers.DrillByChance:
		return "a drill that did nothing gives this easily"
	default:
		return "chance alone gives this " + ChanceWords(d.P.Float64(), "once")
	}
}

// groupDrillText says how a family moved since its drill.
func groupDrillText(d answers.Drill, limits answers.DrillLimits) string {
	if d.Change == nil {
		needed := "at least " + NumberWord(limits.Flights) + " of each are needed"
		if d.Apart > 0 {
			needed += ", on sequences flown on both sides"
		}
		return fmt.Sprintf("%s before, %s since; %s",
			Counted(d.Before.Flights, "contest flight", "contest flights"), Counted(d.After.Flights, "contest flight", "contest flights"), needed)
	}
	return fmt.Sprintf("%s points against the rest of the flight (%s to %s, %s sure), %d flights before, %d since; %s",
		change(d.Change.Change), change(d.Change.Low), change(d.Change.High), Confidence(d.Change.Confidence), d.Before.Flights, d.After.Flights, drillChance(d, limits))
}

// NoDrills is said where there is none.
const NoDrills = "No drill is set."

// DrillColumns explain the columns of the drills.
var DrillColumns = []string{
	"before, since: flights in which the fault was noted, seen or felt, of the flights looked at (with a fault line or reviewed); " +
		"for a family, mean percent points against the rest of the flight, comparing flights of one sequence",
	"others: other, undrilled faults per flight before and since; where everything got rarer, a drill has not been shown to matter",
}

// DrillDetails say what a drill left out, what is not compared, and what it is.
func DrillDetails(d answers.Drill) []string {
	var said []string
	if len(d.Prompted) > 0 {
		said = append(said, fmt.Sprintf("left out of before, %s: %s", whyLeftOut(d), strings.Join(d.Prompted, ", ")))
	}
	if d.Apart > 0 {
		said = append(said, Counted(d.Apart, "flight", "flights")+" not compared, because the sequence was flown on one side of the drill only")
	}
	if d.Text != "" {
		said = append(said, d.Text)
	}
	if d.EndedRemark != "" {
		said = append(said, "ended "+d.Ended+": "+d.EndedRemark)
	}
	return said
}

// whyLeftOut says why flights are in neither window.
func whyLeftOut(d answers.Drill) string {
	if d.Typed {
		return "because the drill was set on them"
	}
	return "the last before it, since no flight is named that prompted it"
}
