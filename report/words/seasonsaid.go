package words

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"boxbook/report/answers"
	"boxbook/season/analysis/code"
)

// SeasonSentences say what happened in a season: the mean with the best
// flight, beside the season before, or that there is none; each category's trend;
// where the pilot stands now.
func SeasonSentences(d answers.Season) []string {
	var said []string
	if d.Mean.Known() {
		said = append(said, meanSentence(d))
	} else {
		said = append(said, NoRecord)
	}
	trends := TrendSentences(d)
	if longer := LongerSentence(d); longer != "" {
		trends = append(trends, longer)
	}
	if len(trends) > 0 {
		said = append(said, strings.Join(trends, " "))
	}
	return append(said, seasonLevel(d)...)
}

// seasonLevel is where the pilot stands now in a sentence, of which category where the season
// has several; none where nothing was flown that it could be made of.
func seasonLevel(d answers.Season) []string {
	of := ""
	if len(d.Categories) > 1 {
		of = " " + AtCategory(d.Level.Category)
	}
	level := levelBrief(d.Level, of)
	if level == "" {
		return nil
	}
	return []string{strings.TrimSpace(level + " " + levelElsewhere(d))}
}

// SeasonLevel is where the pilot stands now with all that qualifies it; empty where
// nothing was flown that it could be made of.
func SeasonLevel(d answers.Season) []string {
	said := LevelSentences(d.Level)
	if of := levelElsewhere(d); of != "" && len(said) > 0 {
		said = append(said, of)
	}
	return said
}

// levelElsewhere says that the level is of another category than the flights shown,
// "" where it is not.
func levelElsewhere(d answers.Season) string {
	if d.Entered == 0 || d.Level.Of == 0 || slices.Contains(d.Categories, d.Level.Category) {
		return ""
	}
	return fmt.Sprintf("That level is %s, the highest category flown in %s, and not of the flights here.", AtCategory(d.Level.Category), lastDays(d.Level.Limits.Days))
}

// meanSentence says the season's mean, with that of the season beside, whose best
// flights stand in a table of their own; else with the best flight.
func meanSentence(d answers.Season) string {
	text := fmt.Sprintf("Mean %s%% over %s", d.Mean.Text(PercentDecimals), Counted(d.Entered, "contest flight", "contest flights"))
	if len(d.Categories) > 1 {
		text += " " + AtCategory(ListInWords(d.Categories))
	}
	if d.Beside != nil && d.Beside.Mean.Known() {
		return text + meanBeside(d) + "."
	}
	for _, f := range d.Flights {
		if d.Best != d.Worst && f.Flight == d.Best {
			text += fmt.Sprintf(", best %s%% on %s", f.Percent.Text(PercentDecimals), f.Date)
		}
	}
	return text + "."
}

// meanBeside is the mean of the season beside; another category's is no measure.
func meanBeside(d answers.Season) string {
	other := fmt.Sprintf("; %d: %s%%", d.Beside.Season, d.Beside.Mean.Text(PercentDecimals))
	if !slices.Equal(d.Categories, d.Beside.Categories) {
		return other + " " + AtCategory(strings.Join(d.Beside.Categories, ", ")) + ", which cannot be compared"
	}
	if d.Change == nil || !d.Change.Change.Known() {
		return other + othersMayDiffer
	}
	said := other + "; on the sequences of both" + changeAircraft(*d.Change) + changeSaid(*d.Change)
	if !d.Change.Beyond {
		said += orderTells(d)
	}
	return said
}

// changeAircraft says between two seasons and their change that the aircraft was another,
// or that one of them names none.
func changeAircraft(c answers.SeasonChange) string {
	switch {
	case c.Unnamed && c.OtherAircraft:
		return ", one season naming no aircraft, "
	case c.OtherAircraft:
		return ", in another aircraft, "
	default:
		return " "
	}
}

// changeSaid says how far one season is from another, and whether chance gives as much.
func changeSaid(c answers.SeasonChange) string {
	r := Range{c.Low, c.Change, c.High, c.Confidence}
	text := fmt.Sprintf("%s percentage points between contest means (%s)", r.Change(), r.ChangesAt())
	switch {
	case c.Beyond:
		return text + ", more than chance gives"
	case c.Reason == answers.ChangeFewContests:
		return text + fmt.Sprintf(": cannot tell, since with %s against %d no difference, however large, could be told from chance by this comparison",
			Counted(c.After, "contest", "contests"), c.Before)
	default:
		return text + ", which chance alone may give"
	}
}

// orderTells says behind a change that could not be told that the trend said beside it,
// over both seasons, rests on more; "" where that has no verdict either.
func orderTells(d answers.Season) string {
	if d.Longer == nil || d.Longer.Trend.Word == answers.CannotTell || d.Beside.Season > d.Season || d.Beside.Season <= d.Season-d.Longer.Seasons {
		return ""
	}
	return fmt.Sprintf("; the trend since %s goes by the order of %s and tells more", d.Longer.First, Counted(d.Longer.Trend.Contests.N, "contest", "contests"))
}

// levelBrief says where the pilot stands now in a sentence, "" where nothing was
// flown that it could be made of; with the drift where that is strong.
func levelBrief(d answers.Level, of string) string { return levelBriefOf(d, of+ofOneCatalogue(d)) }

// levelBriefOf is the same where what it is of is said whole.
func levelBriefOf(d answers.Level, of string) string {
	if d.Of == 0 {
		return ""
	}
	if !d.Percent.Known() {
		return LevelSentences(d)[0]
	}
	r, next := LevelRangeOf(d), nextRange(d)
	about := r.About()
	within := fmt.Sprintf("%s it lies between %s and %s%%", TimesOutOf(d.Confidence), r.Begin(), r.End())
	if qualified(d, code.TooLongAfter) {
		return fmt.Sprintf("Level on %s, the last flight%s: about %s%%; %s. That is too long ago to say for %s.", d.On, of, about, within, d.AsOf) + levelAircraft(d)
	}
	return fmt.Sprintf("%s%s: about %s%%%s; %s, and the next flight between %s and %s%%.", levelWhen(d), of, about, strongDrift(d), within, next.Begin(), next.End()) + levelAircraft(d)
}

// levelAircraft says behind a level that its flights were flown in several aircraft.
func levelAircraft(d answers.Level) string {
	if said := aircraftOfFlights(d.Aircraft, d.Unnamed); said != "" {
		return " It goes by flights " + said + "."
	}
	return ""
}

// The drift that a level is said with: its size in percentage points, and the most that
// the chance of a steady form may be.
const (
	leastDrift = 1
	mostSteady = 0.05
)

// strongDrift ends a level with its drift where that is strong enough to matter, "" else.
func strongDrift(d answers.Level) string {
	weak := !d.Drift.Known() || !d.Steady.Known() || d.Steady.Float64() > mostSteady || math.Abs(d.Drift.Float64()) < leastDrift
	if weak || qualified(d, code.NoDriftSeen) || qualified(d, code.SameScore) {
		return ""
	}
	return fmt.Sprintf(", drifting by %s percentage points in %d days by the model of all sequences in %s", change(d.Drift), d.Limits.DriftDays, lastDays(d.Limits.Days))
}

// AheadLine names what comes up and what runs out, "" where nothing does.
func AheadLine(d answers.Season) string {
	var said []string
	for _, c := range d.Ahead {
		text := c.Name + " " + c.Date
		if entry := EntryWords(c); entry != "" {
			text += ", entry by " + entry
		}
		if sequence := SequenceWords(c); sequence != "" {
			text += ", sequence " + sequence
		}
		said = append(said, text)
	}
	if len(d.Expires) > 0 {
		said = append(said, ColumnExpires+": "+ExpiresWords(d.Expires))
	}
	if len(said) == 0 {
		return ""
	}
	return AheadHeading + ": " + strings.Join(said, "; ") + "."
}
