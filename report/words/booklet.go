package words

import (
	"strings"

	"boxbook/report/answers"
)

// BookletSubtitle says what the booklet's season has in it, and in which categories: those of
// its flights, or where it has none the one that the level is of.
func BookletSubtitle(b answers.Book) string {
	text, categories := SeasonSubtitle(b.Season), b.Season.Categories
	if len(categories) == 0 && b.Season.Level.Category != "" {
		categories = []string{b.Season.Level.Category}
	}
	if len(categories) > 0 {
		text = Sentence(ListInWords(categories)) + " · " + text
	}
	return text
}

// BookletPart is the heading of a part that is of one category, which it names where the
// season's flights are of others too.
func BookletPart(b answers.Book, heading, category string) string {
	if category == "" || len(b.Season.Categories) == 0 || len(b.Season.Categories) == 1 && b.Season.Categories[0] == category {
		return heading
	}
	return heading + " " + AtCategory(category)
}

// BookletSentences are those that stand first: the season's mean and its trend, of each of
// several categories, the level now, a change of aircraft, what comes back, the next
// category; each of which there is something to say.
func BookletSentences(b answers.Book) []string {
	var said []string
	if b.Season.Mean.Known() {
		said = append(said, meanSentence(b.Season))
	}
	trends, longer := TrendSentences(b.Season), LongerSentence(b.Season)
	switch {
	case longer != "" && len(trends) < 2:
		trends = []string{longer}
	case longer != "":
		trends = append(trends, longer)
	}
	if len(trends) > 0 {
		said = append(said, strings.Join(trends, " "))
	}
	said = append(said, seasonLevel(b.Season)...)
	if change := AircraftChange(b.Season); change != "" {
		said = append(said, Sentence(change)+".")
	}
	said = append(said, FaultsSentences(b.Faults)[0])
	if b.Ready != nil {
		said = append(said, readyWith(*b.Ready))
	}
	return said
}

// readyWith is the headline of a readiness with the category that it is for.
func readyWith(d answers.Ready) string {
	if d.To == "" {
		return ReadySentence(d)
	}
	return ReadyTitle(d.To) + ": " + ReadySentence(d)
}

// BookletFlight is a flight's line in a booklet: date, contest or programme, what
// came of it.
func BookletFlight(d answers.Flight) string {
	text := d.Date + " · "
	if d.ContestName != "" {
		text += d.ContestName + ", "
	}
	text += ProgrammeNumbered(d.Programme, d.Label)
	switch {
	case d.Counts == answers.CountsVoid:
		return text + " · void"
	case d.Record != nil && d.Record.Percent.Known():
		return text + " · " + d.Record.Percent.Text(PercentDecimals) + "%"
	case d.Undecided:
		return text + " · open"
	default:
		return text
	}
}
