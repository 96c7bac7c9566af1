package words

import (
	"fmt"
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/season/analysis/code"
)

// LevelDecimals are the decimals of a level in percent.
const LevelDecimals = 1

// sameScore says that every flight scored the same.
const sameScore = "the same score each time"

// LevelDays says how far back the flights lie that a level is made of.
func LevelDays() string { return lastDays(answers.LevelDays) }

// NoLevel says that nothing was flown that a level is made of.
func NoLevel(d answers.Level) string {
	return "No contest flight in " + lastDays(d.Limits.Days) + " has a percent."
}

// LevelSentences say where the pilot stands now, with what qualifies it; why it
// is not known where it is not. There are none where nothing was flown.
func LevelSentences(d answers.Level) []string {
	if d.Of == 0 {
		return nil
	}
	if !d.Percent.Known() {
		return []string{fmt.Sprintf("%s: cannot tell from %s; at least %s at %s are needed.", levelWhen(d), levelFrom(d),
			NumberWord(d.Limits.Flights)+PluralWord(d.Limits.Flights, " flight", " flights"), NumberWord(d.Limits.Contests)+PluralWord(d.Limits.Contests, " contest", " contests"))}
	}
	now, after := levelWhen(d), "The next flight"
	if qualified(d, code.TooLongAfter) {
		now = fmt.Sprintf("Level on %s, the last flight, too long before %s to say where the pilot stood that day", d.On, d.AsOf)
		after = "A next flight then"
	}
	r, next := LevelRangeOf(d), nextRange(d)
	said := []string{
		fmt.Sprintf("%s: %s%% (%s), from %s.", now, r.About(), r.EndsAt(), levelFrom(d)),
		fmt.Sprintf("%s: %s%% (%s).", after, next.Ends(), AtConfidence(d.Confidence)),
	}
	if qualified(d, code.NoDriftSeen) {
		said = append(said, Sentence(noDriftSeen(d.Contests, d.Limits.HoldsLow, d.Limits.HoldsHigh))+".")
	} else {
		said = append(said, fmt.Sprintf("Drift by this model of two years, which looks at flights of all sequences and begins by taking form as steady: %s percentage points in %d days; the chance that form is steady is %s.", change(d.Drift), d.Limits.DriftDays, share(d.Steady.Float64())))
	}
	if qualified(d, code.SameScore) {
		said = append(said, Sentence(sameScore)+".")
	}
	return said
}

// levelWhen says of which day a level is.
func levelWhen(d answers.Level) string {
	if d.Then != "" {
		return "Level on " + d.Then
	}
	return "Level now"
}

// LevelRangeOf is the range of a level.
func LevelRangeOf(d answers.Level) Range { return Range{d.Low, d.Percent, d.High, d.Confidence} }

// nextRange is that of the next flight.
func nextRange(d answers.Level) Range {
	return Range{Low: d.Next.Low, High: d.Next.High, Confidence: d.Confidence}
}

func qualified(d answers.Level, why code.Reason) bool { return slices.Contains(d.Qualified, why) }

// levelFrom says what a level rests on.
func levelFrom(d answers.Level) string {
	return fmt.Sprintf("%s at %s, %s%s, in %s", Counted(d.Of, "flight", "flights"), Counted(d.Contests, "contest", "contests"), CategoryWord(d.Category), ofOneCatalogue(d), lastDays(d.Limits.Days)) + behind(", ", aircraftOfFlights(d.Aircraft, d.Unnamed))
}

// ofOneCatalogue says that a level is of the flights on one catalogue's sequences, where
// others are left out; "" where none are.
func ofOneCatalogue(d answers.Level) string {
	if d.Aside == 0 {
		return ""
	}
	return ", " + CatalogueAlone(d.Catalogue, d.Aside)
}

// CatalogueAlone says that only sequences of a catalogue count, and how many flights on
// others do not.
func CatalogueAlone(catalogue string, aside int) string {
	return fmt.Sprintf("only on sequences %s (%s on others left out)", ofCatalogue(catalogue), Counted(aside, "flight", "flights"))
}

// ofCatalogue says which sequences are of a catalogue.
func ofCatalogue(catalogue string) string {
	if catalogue == "" {
		return "that name no catalogue"
	}
	return "of the catalogue " + catalogue
}

// noDriftSeen says what so few contests leave open.
func noDriftSeen(contests int, low, high report.Number) string {
	return fmt.Sprintf("%s contests cannot show a drift; the range holds %s to %s%% in simulation", NumberWord(contests),
		report.Float(100*low.Float64()).Text(0), report.Float(100*high.Float64()).Text(0))
}
