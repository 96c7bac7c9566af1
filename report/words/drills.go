package words

import (
	"fmt"

	"boxbook/report/answers"
	"boxbook/season"
	"boxbook/season/analysis"
)

// Whose says before a drill whose it is, where there are several pilots.
func Whose(d answers.Drills, drill answers.Drill) string {
	if !d.SeveralPilots() {
		return ""
	}
	return drill.Name + ": "
}

// NoDrill is what there is to say of no drill.
const NoDrill = "No drill is set."

// DrillSentences are every drill's verdict.
func DrillSentences(d answers.Drills) []string {
	if len(d.Drills) == 0 {
		return []string{NoDrill}
	}
	var said []string
	for _, drill := range d.Drills {
		said = append(said, Whose(d, drill)+DrillSentence(drill))
	}
	return said
}

// DrillSentence is one drill's verdict in plain counts.
func DrillSentence(d answers.Drill) string {
	head := fmt.Sprintf("%s, since %s: %s: ", Sentence(season.GroupTitle(d.Target)), d.Date, d.Word)
	if d.Group {
		return head + groupDrillText(d) + "."
	}
	return head + fmt.Sprintf("noted in %s, %s; %s.", sideWords(d.Before, "before"), sinceWords(d.After), drillChance(d))
}

// sideWords counts the flights of one side.
func sideWords(s answers.DrillSide, when string) string {
	return fmt.Sprintf("%d of %s %s", s.Seen, season.Counted(s.Flights, "flight", "flights"), when)
}

func sinceWords(s answers.DrillSide) string {
	if s.Flights == 0 {
		return "no flight looked at since"
	}
	return "in " + sideWords(s, "since")
}

// drillChance says what stands behind the word, or what it lacks.
func drillChance(d answers.Drill) string {
	switch analysis.DrillWord(d.Word) {
	case analysis.DrillTooFew:
		if min(d.Before.Flights, d.After.Flights) < analysis.DrillSideFlights {
			return fmt.Sprintf("at least %d flights looked at are needed on each side", analysis.DrillSideFlights)
		}
		return "no counts from so few flights could tell"
	case analysis.Worked, analysis.MayHaveWorked:
		return "chance alone gives this " + ChanceWords(d.P.Float64(), "once")
	}
	if d.P.Float64() <= analysis.DrillChance {
		return "the other faults got rarer as well, so that the drill has not been shown to matter"
	}
	return "a drill that did nothing gives this easily"
}

func groupDrillText(d answers.Drill) string {
	if d.Change == nil {
		needed := "at least three of each are needed"
		if d.Apart > 0 {
			needed += ", on sequences flown on both sides"
		}
		return fmt.Sprintf("%s before, %s since; %s",
			season.Counted(d.Before.Flights, "contest flight", "contest flights"), season.Counted(d.After.Flights, "contest flight", "contest flights"), needed)
	}
	return fmt.Sprintf("%s points against the rest of the flight (%s to %s, %s sure), %d flights before, %d since; %s",
		change(d.Change.Change), change(d.Change.Low), change(d.Change.High), Surety(d.Change.Confidence), d.Before.Flights, d.After.Flights, drillChance(d))
}

// WhyLeftOut says why flights are in neither window.
func WhyLeftOut(d answers.Drill) string {
	if d.Typed {
		return "because the drill was set on them"
	}
	return "the last before it, since no flight is named that prompted it"
}
