package words

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"boxbook/report"
	"boxbook/report/answers"
)

// FigureForecastsHeading stands over the grades of a forecast.
const FigureForecastsHeading = "By figure"

// SayForecast fills the sentence of an answer: why there is no forecast.
func SayForecast(d answers.Forecast) answers.Forecast {
	d.Why = ""
	if d.Lack != nil {
		d.Why = lack(*d.Lack).forecast(d.Days)
	}
	return d
}

// forecastCategories are those that the flights of a forecast are of: the present one,
// and that of the sequence if it was ever flown.
func forecastCategories(d answers.Forecast) []string {
	var of []string
	for _, category := range []string{d.Level.Category, d.Category} {
		if category != "" && !slices.Contains(of, category) && !(category == d.Category && d.NewCategory) {
			of = append(of, category)
		}
	}
	return of
}

// ForecastSubtitle says what a forecast is made from.
func ForecastSubtitle(d answers.Forecast) string {
	return fmt.Sprintf("from %s of %s", Counted(d.Flights, "contest flight", "contest flights"), lastDays(d.Days))
}

// ForecastSentence is the forecast, or why there is none; on which side past ones
// missed, and what a percent that was asked about takes.
func ForecastSentence(d answers.Forecast) string {
	if !d.Percent.Known() {
		from := ""
		if of := forecastCategories(d); len(of) > 0 {
			from = " from flights " + AtCategory(ListInWords(of))
		}
		said := "Cannot tell" + from + ": " + d.Why + "."
		if d.Reach != nil {
			said += fmt.Sprintf(" Nor can a chance of reaching %s%% be given.", trimmed(d.Reach.Percent))
		}
		return said
	}
	said := forecastNumbers(d)
	if leaning := leaning(d.Past); leaning != "" {
		said += " " + leaning
	}
	if d.Reach != nil {
		said += " " + reachSentence(d)
	}
	return said
}

// forecastNumbers are the percent and its range; in a category never flown, the
// percent with all that nobody has graded, and of the range what it does not allow for.
// Where the last flight with marks is too long ago they are of that day.
func forecastNumbers(d answers.Forecast) string {
	r := Range{d.Low, d.Percent, d.High, d.Confidence}
	within := fmt.Sprintf("%s between %s and %s%%", TimesOutOf(d.Confidence), r.Begin(), r.End())
	day, ago := "", ""
	if d.Stale {
		day, ago = "on "+d.On+", the last flight with marks", ": too long ago to say for "+d.Level.AsOf
	}
	switch {
	case !d.NewCategory && d.Stale:
		return fmt.Sprintf("%s, about %s%% if nothing was zeroed; %s%s.", Sentence(day), r.About(), within, ago)
	case !d.NewCategory:
		return fmt.Sprintf("About %s%% if nothing is zeroed; %s.", r.About(), within)
	case d.Stale:
		day = ", " + day
	}
	return fmt.Sprintf("%s%s: about %s%% if nothing is zeroed; but %s. %s, if %s is judged alike%s.",
		Sentence(byGradesAt(d.Level.Category)), day, r.About(), notKnownYet(d.Category, d.Unseen, d.Days, d.Groups), Sentence(within), d.Category, ago)
}

// byGradesAt says on which grades a forecast for a category never flown rests.
func byGradesAt(category string) string {
	return "by grades given at " + cmp.Or(category, "other categories")
}

// notKnownBefore says of a forecast for a category never flown what its range is not.
const notKnownBefore = "not known before the first flight there"

// notKnownYet says the same with the reasons: what nobody has graded, and what is not flown.
func notKnownYet(category string, unseen []string, days int, notFlown []string) string {
	text := notKnownBefore + ": no panel has graded the pilot at " + category
	if len(unseen) > 0 {
		text += ", nor " + shortTitles(unseen) + " in " + lastDays(days)
	}
	if len(notFlown) > 0 {
		text += "; not in this aircraft: " + shortTitles(notFlown)
	}
	return text
}

// leaning warns of forecasts that missed on one side alone.
func leaning(p answers.Past) string {
	misses, side, other, truth := p.Above, "above", "below", "low"
	switch p.Leaning {
	case answers.Above:
	case answers.Below:
		misses, side, other, truth = p.Below, "below", "above", "high"
	default:
		return ""
	}
	return fmt.Sprintf("It is probably too %s: of the last %s, %s came out %s their range and none %s.",
		truth, Counted(p.Of, "flight", "flights"), NumberWord(misses), side, other)
}

// reachSentence says how often flights like these come to a percent where nothing is
// zeroed, how many did as they were flown where that is otherwise, and with what grades;
// of a category never flown the grades alone, for no flight is like these.
func reachSentence(d answers.Forecast) string {
	r := *d.Reach
	if !r.Mean.Known() {
		return trimmed(r.Percent) + "%: out of reach, even with the best grades in the figures."
	}
	if d.NewCategory {
		return fmt.Sprintf("%s%% takes a mean grade of %s in the figures; nobody can say yet how often that would be reached.", trimmed(r.Percent), r.Mean.TextUp(2))
	}
	said := fmt.Sprintf("%s%% or more: about %s of flights like these if nothing is zeroed; it takes a mean grade of %s in the figures.",
		trimmed(r.Percent), share(r.Chance.Float64()), r.Mean.TextUp(2))
	if lost := spoiltBy(d); lost != "" && r.AsFlown != nil && r.AsFlown.Of > 0 {
		said += fmt.Sprintf(" With their %s, %s of the %s behind it came to it.", lost, noneOr(r.AsFlown.Flights), Counted(r.AsFlown.Of, "flight", "flights"))
	}
	return said
}

// spoiltBy names what a forecast leaves out of its flights, "" where they had none.
func spoiltBy(d answers.Forecast) string {
	var lost []string
	if d.Zeros.Figures > 0 {
		lost = append(lost, "zeros")
	}
	if d.Penalties.Flights > 0 {
		lost = append(lost, "penalties")
	}
	return ListInWords(lost)
}

// ForecastSentences say the forecast, and where the pilot stands now.
func ForecastSentences(d answers.Forecast) []string {
	said := []string{ForecastSentence(d)}
	of := ""
	if d.Level.Aside > 0 {
		of = " " + ofCatalogue(d.Level.Catalogue)
	}
	if level := levelBriefOf(d.Level, ", of any sequence"+of+" and with zeros and penalties"); level != "" {
		said = append(said, level)
	}
	return said
}

// ForecastNotes say what a reader must know beside a forecast.
func ForecastNotes(d answers.Forecast) []string {
	notes := widening(d)
	for _, text := range notFlownWords(d.NotFlown) {
		notes = append(notes, text+"; the forecast counts its figures as if they were flown")
	}
	if wide := wideFigures(d); len(wide) > 0 {
		notes = append(notes, PluralWord(len(wide), "the range of figure "+wide[0]+" is", "the ranges of figures "+ListInWords(wide)+" are")+" wider because of that")
	}
	if d.Percent.Known() {
		notes = append(notes, forecastBasis(d)...)
		notes = append(notes, apart(d)...)
	}
	if d.Past.Of > 0 {
		notes = append(notes, fmt.Sprintf("past forecasts: %d of %s inside the %s range forecast from the flights before, %d above it, %d below it",
			d.Past.Inside, Counted(d.Past.Of, "past flight", "past flights"), Confidence(d.Confidence), d.Past.Above, d.Past.Below))
	}
	return notes
}

// widening names what a forecast has nothing to go by for.
func widening(d answers.Forecast) []string {
	var notes []string
	late := slices.DeleteFunc(slices.Clone(d.Unseen), func(group string) bool { return slices.Contains(d.NeverFlown, group) })
	if len(d.NeverFlown) > 0 {
		notes = append(notes, "never flown: "+GroupTitles(d.NeverFlown))
	}
	if len(late) > 0 {
		notes = append(notes, UnseenWords(late, d.Days))
	}
	if len(d.Uncoded) > 0 {
		notes = append(notes, bareWords(d.Uncoded))
	}
	return notes
}

// wideFigures are the numbers of the figures with a wide range.
func wideFigures(d answers.Forecast) []string {
	var wide []string
	for _, f := range d.Figures {
		if f.Wide {
			wide = append(wide, strconv.Itoa(f.Number))
		}
	}
	return wide
}

// bareWords names figures that have no codes to go by.
func bareWords(numbers []int) string {
	texts := make([]string, len(numbers))
	for i, n := range numbers {
		texts[i] = strconv.Itoa(n)
	}
	return "without codes: " + PluralWord(len(numbers), "figure ", "figures ") + ListInWords(texts)
}

// forecastBasis says what is to be known of the flights behind a forecast.
func forecastBasis(d answers.Forecast) []string {
	var notes []string
	if d.SteadyOnly {
		notes = append(notes, noDriftSeen(d.Contests, d.Level.Limits.HoldsLow, d.Level.Limits.HoldsHigh))
	}
	if d.Same {
		notes = append(notes, sameScore)
	}
	return notes
}

// apart says what the percent has at its mean, and what it leaves out.
func apart(d answers.Forecast) []string {
	var notes []string
	for _, line := range d.Lines {
		if line.Flights == 0 {
			notes = append(notes, line.Line+" was never graded in these flights, and counts as the figures do")
		} else {
			notes = append(notes, fmt.Sprintf("%s, K %d, counts with %s%%, %s",
				line.Line, line.K, line.Percent.Text(1), plainMean(line.Flights)))
		}
	}
	zeros := fmt.Sprintf("zeros not included: %d of %s %s zeroed by the panel", d.Zeros.Figures, Counted(d.Zeros.Of, "figure", "figures"), PluralWord(d.Zeros.Figures, "was", "were"))
	if d.Zeros.Chance.Known() {
		zeros += "; at least one zeroed in about " + share(d.Zeros.Chance.Float64()) + " of flights like these"
	}
	if n := d.Zeros.Partly; n > 0 {
		zeros += fmt.Sprintf("; included: %s with a zero in a mean above 0, which the chance of a zero in `ready` counts too", Counted(n, "figure", "figures"))
	}
	penalties := fmt.Sprintf("penalties not included: %d of %s had one", d.Penalties.Flights, Counted(d.Penalties.Of, "flight", "flights"))
	if d.Penalties.Points.Known() {
		penalties += fmt.Sprintf(", %s points each on average", d.Penalties.Points.Text(1))
	}
	notes = append(notes, zeros, penalties)
	if n := len(d.LeftOut); n > 0 {
		notes = append(notes, fmt.Sprintf("not in the forecast: %s, since no figure of %s has a code; zeros and penalties of %s count",
			ListInWords(d.LeftOut), PluralWord(n, "it", "them"), PluralWord(n, "it", "them")))
	}
	return notes
}

// plainMean is what a weighted line counts with: what it was in the only flight that has
// one, else the mean of those that have.
func plainMean(flights int) string {
	if flights == 1 {
		return "as in the one flight that has it"
	}
	return fmt.Sprintf("the plain mean of %d flights", flights)
}

// UnseenWords says for which groups a forecast has nothing to go by, over so many
// days. They may have been flown before, or have official totals only.
func UnseenWords(groups []string, days int) string {
	return "not graded in a contest in " + lastDays(days) + ": " + GroupTitles(groups)
}

// ForecastHelp says what the command of that name does.
func ForecastHelp() string {
	return `Show what a pilot would score on a sequence, from what families and figures
cost in the contest flights of ` + lastDays(answers.ForecastDays) + ` and from where the pilot
stands now: percent with the range that holds it ` + TimesOutOf(report.Float(answers.ForecastConfidence)) + `,
the same by figure, and what was never flown; and how past forecasts did.
--reach says how often flights like these reach a percent, and what mean grade
that takes. --asof sets the day that it is made on.`
}

// ForecastSpan says what a forecast rests on, where another span is asked for.
func ForecastSpan() string {
	return "a forecast rests on all contest flights of the " + span(answers.ForecastDays) + " up to today, and --asof sets another day"
}
