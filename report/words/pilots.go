package words

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/season/analysis/code"
)

// PilotsTitle is the title of the page of all pilots.
const PilotsTitle = "Pilots"

// The columns of that page.
const (
	ColumnReview    = "to review"
	ColumnLastFlown = "last flown"
	ColumnForm      = "trend"
	ColumnNext      = "next flight"
	ColumnBack      = "comes back"
	ColumnOpenDrill = "drill"
	ColumnStep      = "not met to move up"
	ColumnOpen      = "open"
)

// NoPilots says that the ledger has none.
const NoPilots = "No pilot is in the ledger yet; `boxbook log pilot` adds one."

// SayPilots fills the gates' titles, and the caution where anybody's are shown.
func SayPilots(d answers.Pilots) answers.Pilots {
	lines := make([]answers.PilotLine, len(d.Pilots))
	for i, p := range d.Pilots {
		if p.To != "" {
			d.Caution = PilotsCaution
		}
		p.Titles, p.Form = []string{}, PilotForm(p)
		var notMet, untold []string
		for _, gate := range p.Missing {
			p.Titles = append(p.Titles, GateTitle(gate))
			if slices.Contains(p.Untold, gate) {
				untold = append(untold, GateTitle(gate))
			} else {
				notMet = append(notMet, GateTitle(gate))
			}
		}
		p.InTheWay = gateNames("", notMet, untold)
		lines[i] = p
	}
	d.Pilots = lines
	return d
}

// PilotsSentence says what of the page cannot wait, then which flights wait for a
// review, and who decides about a step where the page judges one.
func PilotsSentence(d answers.Pilots) string {
	var open, review []string
	for _, p := range d.Pilots {
		if p.Open > 0 {
			open = append(open, fmt.Sprintf("%s (%d)", p.Name, p.Open))
		}
		if p.Review > 0 {
			review = append(review, fmt.Sprintf("%s (%d)", p.Name, p.Review))
		}
	}
	text := "No open matter is noted. "
	if len(open) > 0 {
		text = "Open matters: " + ListInWords(open) + ". "
	}
	if len(review) == 0 {
		text += "No flight is waiting for a review."
	} else {
		text += "To review: " + ListInWords(review) + "."
	}
	if d.Warnings > 0 {
		text += " " + WarningsLine(d.Warnings) + "."
	}
	if len(d.Drafts) > 0 {
		text += " " + homeDraft + ": " + DraftWords(d.Drafts) + "."
	}
	if d.Caution != "" {
		text += " On moving up, " + whoDecides + "."
	}
	return text
}

// PilotsNext says what to type next.
func PilotsNext(d answers.Pilots) string {
	return fmt.Sprintf("One pilot: boxbook --pilot %s; $BOXBOOK_PILOT chooses one for good", d.Pilots[0].Pilot)
}

// PilotsNotes explain the columns that have something in them.
func PilotsNotes(d answers.Pilots) []string {
	notes := []string{
		fmt.Sprintf("to review: flights of %s with marks or a video that nobody has reviewed; open: open matters; flights: in contests, all categories, none void", lastDays(d.Limits.ReviewDays)),
		"comes back: flights with it, of those that could show it, since its drill",
	}
	if slices.ContainsFunc(d.Pilots, func(p answers.PilotLine) bool { return p.BeforeDrill }) {
		notes[len(notes)-1] += ";" + beforeDrill + ": " + unshownSince
	}
	if slices.ContainsFunc(d.Pilots, func(p answers.PilotLine) bool { return PilotForm(p) != "" }) {
		notes = slices.Insert(notes, 1, trendNote(d))
	}
	if slices.ContainsFunc(d.Pilots, func(p answers.PilotLine) bool { return len(p.Drills) > 0 }) {
		notes[1] += "; " + ColumnOpenDrill + ": open"
	}
	if said := levelNote(d); said != "" {
		notes = append(notes, said)
	}
	if said := pilotsResults(d); said != "" {
		notes = append(notes, said)
	}
	if said := PilotsToReview(d); said != "" {
		notes = append(notes, said)
	}
	return notes
}

// trendNote says of which season a trend is, and which page has one of several.
func trendNote(d answers.Pilots) string {
	text := "trend: of the latest season, with how often chance alone gives it"
	for _, p := range d.Pilots {
		if p.Longer != nil {
			return text + "; where that has too few contests, of the last " + NumberWord(p.Longer.Seasons) + " seasons: " + longerCommand(p.Pilot, *p.Longer)
		}
	}
	return text
}

// pilotsResults names the contest results without a flight that are later than any
// contest flight, "" where there are none.
func pilotsResults(d answers.Pilots) string {
	var said []string
	for _, p := range d.Pilots {
		if p.Result != nil {
			said = append(said, p.Pilot+", "+resultAlone(*p.Result))
		}
	}
	if len(said) == 0 {
		return ""
	}
	return "last contest, " + withoutFlight + ": " + strings.Join(said, "; ")
}

// mostToReview is how many flights are named of each pilot.
const mostToReview = 3

// PilotsToReview names the flights that wait for a review, the latest first, "" where
// none does.
func PilotsToReview(d answers.Pilots) string {
	var said []string
	for _, p := range d.Pilots {
		shown := p.ToReview[:min(len(p.ToReview), mostToReview)]
		if len(shown) == 0 {
			continue
		}
		text := strings.Join(shown, ", ")
		if more := len(p.ToReview) - len(shown); more > 0 {
			text += fmt.Sprintf(" and %d more", more)
		}
		said = append(said, text)
	}
	if len(said) == 0 {
		return ""
	}
	return "to review, the latest first: " + strings.Join(said, "; ")
}

// PilotForm is the trend's word, a change with how often chance alone gives it; of several
// seasons where the latest has too little flown.
func PilotForm(p answers.PilotLine) string {
	if p.Longer != nil {
		return longerWords(*p.Longer)
	}
	return formWords(p.Word, p.WordReason, p.Chance) + inAircraft(p.Aircraft)
}

// inAircraft says in how many aircraft a change was flown, "" in one.
func inAircraft(n int) string { return behind(", ", aircraftOfFlights(n, 0)) }

// formWords is a trend's word; where too little was flown to tell, of what.
func formWords(word answers.TrendWord, why answers.TrendReason, chance report.Number) string {
	switch {
	case word == answers.TooFew && why == answers.TrendFewContests:
		return "too few contests to tell"
	case word == answers.TooFew && why == answers.TrendFewAlike:
		return "too few flights of one sequence to tell"
	case !chance.Known():
		return string(word)
	}
	return withChance(word, chance.Float64(), answers.TrendLimits{})
}

// PilotLevel is where the pilot stands now, with the category where that is not the one
// flown last, and the day where that is too long ago to say for today; "" where it cannot
// be told.
func PilotLevel(p answers.PilotLine) string {
	if !p.Level.Percent.Known() {
		return ""
	}
	text := LevelRangeOf(p.Level).About() + "%"
	if p.Level.Category != p.Category {
		text += " " + AtCategory(p.Level.Category)
	}
	if qualified(p.Level, code.TooLongAfter) {
		text += ", " + p.Level.On
	}
	return text
}

// PilotNext is the range of the next flight, "" where there is none for today.
func PilotNext(p answers.PilotLine) string {
	if !p.Level.Percent.Known() || qualified(p.Level, code.TooLongAfter) {
		return ""
	}
	r := nextRange(p.Level)
	return r.Begin() + " to " + r.End() + "%"
}

// levelNote says what the levels are of, and the ranges of the next flight where there are
// any; "" where there is no level.
func levelNote(d answers.Pilots) string {
	columns, within, in, of := ColumnLevel, "", "of the row", "now"
	known := false
	for _, p := range d.Pilots {
		if !p.Level.Percent.Known() {
			continue
		}
		known = true
		if qualified(p.Level, code.TooLongAfter) {
			of = "now or on the day named"
		}
		if p.Level.Category != p.Category {
			in = "of the row, where another is named in that: the highest one flown in " + lastDays(p.Level.Limits.Days)
		}
		if PilotNext(p) != "" {
			columns = ColumnLevel + ", " + ColumnNext
			within = "; " + TimesOutOf(p.Level.Confidence) + " the next flight is in its range"
		}
	}
	if !known {
		return ""
	}
	return columns + ": in percent, " + of + ", in the category " + in + within
}

// PilotBack says what comes back most, or why nothing does.
func PilotBack(p answers.PilotLine, limits answers.PilotsLimits) string {
	switch {
	case p.Recurring == "" && p.Reviewed == 0:
		return "no flight reviewed in " + span(answers.RecurringDays)
	case p.Recurring == "" && p.Reviewed < limits.BackFlights:
		return Counted(p.Reviewed, "flight", "flights") + " reviewed, too few"
	case p.Recurring == "" && p.TooEarly != nil:
		return cmp.Or(p.TooEarly.Says, p.TooEarly.Kind) + ", " + seenSinceShort(*p.TooEarly)
	case p.Recurring == "":
		return "nothing"
	}
	text := fmt.Sprintf("%s, %d of %d", cmp.Or(p.Says, p.Recurring), p.Seen, p.Exposed)
	if p.BeforeDrill {
		text += beforeDrill
	}
	switch {
	case !p.Undrilled || len(p.Drills) == 0: // the column beside it says it
	case p.DrillEnded != "":
		text += ", its drill ended"
	default:
		text += ", no drill"
	}
	return text
}

// PilotStep says what keeps a pilot from the next category, and from which one that is
// where it is not the one flown last.
func PilotStep(p answers.PilotLine) string {
	to := p.To
	if p.From != p.Category {
		to = p.From + " to " + p.To
	}
	switch {
	case p.To == "":
		return ""
	case p.InTheWay == "":
		return to + ": nothing, by the ledger"
	default:
		return to + ": " + p.InTheWay
	}
}
