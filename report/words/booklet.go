package words

import (
	"strings"

	"boxbook/report/answers"
)

// BookletSubtitle says what the booklet's season has in it.
func BookletSubtitle(b answers.Book) string {
	text := SeasonSubtitle(b.Season)
	if b.Season.Level.Category != "" {
		text = Sentence(b.Season.Level.Category) + " · " + text
	}
	return text
}

// BookletSentences are those that stand first: the season's mean and its trend, the level
// now, a change of aircraft, what comes back, the next category; each of which there is
// something to say.
func BookletSentences(b answers.Book) []string {
	var said []string
	if b.Season.Mean.Known() {
		said = append(said, meanSentence(b.Season))
	}
	if longer := LongerSentence(b.Season); longer != "" {
		said = append(said, longer)
	} else if trends := TrendSentences(b.Season); len(trends) > 0 {
		said = append(said, trends[len(trends)-1])
	}
	if level := levelBrief(b.Season.Level, ""); level != "" {
		said = append(said, strings.TrimSpace(level+" "+levelElsewhere(b.Season)))
	}
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
