package words

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
)

// TrendDecimals are the decimals of a change in percent points.
const TrendDecimals = 1

// change writes a change of percent points, signed.
func change(n report.Number) string { return report.Signed(n, TrendDecimals).String() }

// TrendSentence is the verdict as a plain sentence, the figures behind it.
func TrendSentence(d answers.Trend, limits answers.TrendLimits) string {
	over := "by the trend of these flights"
	r := TrendRange(d)
	interval := r.ChangesAt() + cutSaid(d)
	switch d.Word {
	case answers.TooFew:
		return tooFewForTrend(d, limits) + asFlown(d, limits) + "."
	case answers.Improving, answers.Declining:
		return fmt.Sprintf("%s: %s percentage points %s (%s)%s. Chance alone gives as much in %s.",
			Sentence(string(d.Word)), r.Change(), over, interval, cannotWithout(d), trendChance(d, limits))
	case answers.MayImprove, answers.MayDecline:
		if cannot := cannotWithout(d); cannot != "" {
			return fmt.Sprintf("%s: %s percentage points (%s)%s%s.",
				Sentence(string(d.Word)), r.Change(), interval, chanceInShort(d, limits), cannot)
		}
		return fmt.Sprintf("%s: %s percentage points %s (%s)%s.",
			Sentence(string(d.Word)), r.Change(), over, interval, butChance(d, limits))
	case answers.Flat:
		return fmt.Sprintf("Flat: %s percentage points %s, within %s either way (%s).", r.Change(), over,
			limits.Change.Text(0), interval)
	default:
		if d.Reason == answers.TrendOneDay {
			return "Cannot tell: all flights were on one day."
		}
		return fmt.Sprintf("Cannot tell: %s percentage points %s (%s)%s.%s", r.Changes(), over, AtConfidence(d.Confidence)+cutSaid(d), bothFit(d, limits), couldShow(d))
	}
}

// butChance says behind a range how often chance gives as much. Where the range, of each
// flight by itself, leaves 0 out and contest means do not, it says what each is of.
func butChance(d answers.Trend, limits answers.TrendLimits) string {
	chance := "chance alone gives as much in " + trendChance(d, limits)
	if flightsAlone(d) {
		return "; that is each flight by itself, but flights of one contest share judges and weather, and by contest means " + chance
	}
	return ", but " + chance
}

// flightsAlone reports whether a range leaves 0 out that contest means do not.
func flightsAlone(d answers.Trend) bool {
	return (d.Low.Float64() > 0 || d.High.Float64() < 0) && answers.ByContests(d)
}

// chanceInShort is butChance before something else that has to be said.
func chanceInShort(d answers.Trend, limits answers.TrendLimits) string {
	if flightsAlone(d) {
		return butChance(d, limits)
	}
	return "; chance alone: " + strings.TrimPrefix(trendChance(d, limits), "about ")
}

// cutSaid says which of a change and its ends were beyond what was observed, and are cut
// to it.
func cutSaid(d answers.Trend) string {
	low, high := TrendRange(d).changeEnds()
	var cut []string
	if d.SeasonCut {
		cut = append(cut, "the change")
	}
	switch {
	case d.LowCut && d.HighCut:
		cut = append(cut, "both ends")
	case d.LowCut:
		cut = append(cut, low)
	case d.HighCut:
		cut = append(cut, high)
	}
	if len(cut) == 0 {
		return ""
	}
	return ", " + ListInWords(cut) + " cut to what was observed"
}

// notWithout says behind a word such as ", but " that a verdict hangs on
// zeros, "" where it does not.
func notWithout(d answers.Trend, behind string) string {
	if len(d.HangsOnZeros) == 0 {
		return ""
	}
	return fmt.Sprintf("%swithout the %s with a zero on %s this could not be said", behind, PluralWord(len(d.HangsOnZeros), "flight", "flights"), ListInWords(d.HangsOnZeros))
}

// cannotWithout is the same of whole flights, whose zeros a note names.
func cannotWithout(d answers.Trend) string {
	if len(d.HangsOnZeros) == 0 {
		return ""
	}
	return "; without the " + PluralWord(len(d.HangsOnZeros), "zero", "zeros") + ": not so"
}

// TrendRange is the range of a trend's change.
func TrendRange(d answers.Trend) Range { return Range{d.Low, d.Season, d.High, d.Confidence} }

// tooFewForTrend says how many flights there are to judge a trend by, and what a
// verdict would need more of.
func tooFewForTrend(d answers.Trend, limits answers.TrendLimits) string {
	no := ": no trend can be judged"
	flights, each := Counted(d.N, "flight that can be compared", "flights that can be compared"), ""
	if d.Sequences > 1 {
		each = ", each only with those of its sequence"
	}
	switch {
	case d.N == 0:
		return "No two flights can be compared" + no
	case d.Reason == answers.TrendFewAlike:
		return flights + each + no + ", too few of them are of one sequence"
	case d.N >= limits.Flights && d.Contests != nil:
		return flights + " in " + Counted(d.Contests.N, "contest", "contests") + each + no +
			" with fewer than " + NumberWord(limits.Flights) + " contests"
	default:
		return flights + each + no + " with fewer than " + NumberWord(limits.Flights)
	}
}

// asFlown are the first and the last of flights that are nearly enough, which
// say nothing more than they are; of two sequences they would pass for a change.
func asFlown(d answers.Trend, limits answers.TrendLimits) string {
	if d.N < limits.Flights-1 || !d.First.Known() || d.EndsApart {
		return ""
	}
	return fmt.Sprintf(" (first %s%%, last %s%%, as flown)", d.First.Text(PercentDecimals), d.Last.Text(PercentDecimals))
}

// mostLikelyChange is the largest change of a pilot's percent in the time of a trend that
// is likely at all, in percentage points: a house choice.
const mostLikelyChange = 25

// mostChange is the largest that is worth a number: half of all there is.
const mostChange = 50

// couldShow says beside a verdict that cannot tell how large a change would have
// been seen.
func couldShow(d answers.Trend) string {
	if !d.Detectable.Known() {
		return ""
	}
	if d.Detectable.Float64() > mostChange {
		return " Flights like these could not have shown any likely change."
	}
	if d.Detectable.Float64() > mostLikelyChange {
		return fmt.Sprintf(" Flights like these show no likely change: only one of about %s percentage points would have stood out.", d.Detectable.Text(0))
	}
	return fmt.Sprintf(" Flights like these would have shown a change of about %s percentage points.", d.Detectable.Text(0))
}

// bothFit names what an interval leaves open; where it leaves one thing alone, that
// chance gives as much too often.
func bothFit(d answers.Trend, limits answers.TrendLimits) string {
	least := limits.Change.Float64()
	up, down := d.High.Float64() > least, d.Low.Float64() < -least
	switch {
	case d.Low.Float64() > least, d.High.Float64() < -least:
		return butChance(d, limits)
	case up && down:
		return "; improving, flat and declining all fit"
	case up:
		return "; flat and improving both fit"
	case down:
		return "; flat and declining both fit"
	default:
		return ""
	}
}

// LeastFlights says what the least flights that allow a verdict can show.
func LeastFlights(limits answers.TrendLimits) string {
	return fmt.Sprintf("with %d flights only a near-perfect run would show", limits.Flights)
}

// AcrossGap says that the trend is drawn across a gap.
func AcrossGap(d answers.Trend) string {
	return fmt.Sprintf("the trend is drawn across a gap of %s days without a flight that can be compared", d.LongestGap.Text(0))
}

// LongGap reports whether a change is drawn across a gap that must be said.
func LongGap(d answers.Trend, limits answers.TrendLimits) bool {
	return d.Season.Known() && d.LongestGap.Float64() > float64(limits.GapDays)
}

// trendChance says the larger chance of the tests.
func trendChance(d answers.Trend, limits answers.TrendLimits) string {
	return OneIn(answers.TrendChance(d).Float64(), limits)
}

// OneIn says a chance as [OneSeasonIn] does; of flights that are not of one season, in
// so many spans of days like theirs.
func OneIn(p float64, limits answers.TrendLimits) string {
	text := OneSeasonIn(p)
	if limits.Span {
		text = strings.Replace(text, "one season", "one span like this", 1)
	}
	return text
}

// LongerSentence is the trend over several seasons, from the first flight that it
// compares, with the command that shows it, "" where the season has its own.
func LongerSentence(d answers.Season) string {
	if d.Longer == nil {
		return ""
	}
	long := d.Longer.Trend
	limits := d.Limits.TrendLimits
	limits.Span = true
	word, said, _ := strings.Cut(TrendSentence(long, limits), ": ")
	until, gap := "", ""
	if d.Longer.Until != "" {
		until = " until " + d.Longer.Until
	}
	if LongGap(long, limits) {
		gap = ", with a gap of " + long.LongestGap.Text(0) + " days"
	}
	return fmt.Sprintf("Since %s%s, over %s %s%s%s: %s, %s: %s", d.Longer.First, until, Counted(long.Contests.N, "contest", "contests"),
		AtCategory(d.Longer.Category), behind(", ", aircraftOfFlights(d.Longer.Aircraft, d.Longer.Unnamed)), gap, strings.ToLower(word), strings.TrimSuffix(said, "."), longerCommand(d.Pilot, *d.Longer))
}

// longerCommand is the page of the flights that a trend over several seasons is of.
func longerCommand(pilot string, d answers.LongTrend) string {
	text := "boxbook season " + pilot + " --since " + d.Since
	if d.Until != "" {
		text += " --until " + d.Until
	}
	return text
}

// longerWords are the trend over several seasons, for a cell.
func longerWords(d answers.LongTrend) string {
	since := d.Trend.Word + answers.TrendWord(" since "+d.First)
	switch d.Trend.Word {
	case answers.Improving, answers.Declining, answers.MayImprove, answers.MayDecline:
		return withChance(since, answers.TrendChance(d.Trend).Float64(), answers.TrendLimits{Span: true}) +
			behind(", ", aircraftOfFlights(d.Aircraft, d.Unnamed))
	default:
		return string(since)
	}
}

// OneSeasonIn says a chance as natural frequency, in one of few round numbers: more
// figures would claim more than a chance is known to.
func OneSeasonIn(p float64) string {
	in, more := seasonsFor(p)
	if more {
		return fmt.Sprintf("less than one season in %d", in)
	}
	return "about one season in " + NumberWord(in)
}

// withChance is a verdict with how often chance alone gives it, for a cell.
func withChance(word answers.TrendWord, p float64, limits answers.TrendLimits) string {
	return fmt.Sprintf("%s (chance alone: %s)", word, strings.TrimPrefix(OneIn(p, limits), "about "))
}

// seasonsFor is in how many seasons chance gives something once, in one of few
// round numbers; more says that it is more than the largest of them.
func seasonsFor(p float64) (seasons int, more bool) {
	round := []int{5, 7, 10, 20, 50, 100}
	in := 1 / p
	if most := round[len(round)-1]; in > float64(most) {
		return most, true
	}
	away := func(n int) float64 { return math.Abs(float64(n) - in) }
	return slices.MinFunc(round, func(a, b int) int { return cmp.Compare(away(a), away(b)) }), false
}

// mostIn is the largest N of "one in N": beyond it the number says nothing more.
const mostIn = 1000

// ChanceWords turn a chance into "about once in N".
func ChanceWords(p float64, once string) string {
	if p < 1.0/mostIn {
		return fmt.Sprintf("less than %s in %d", once, mostIn)
	}
	return fmt.Sprintf("about %s in %s", once, NumberWord(int(math.Round(1/p))))
}

// Confidence writes a confidence as whole percent, never 100.
func Confidence(n report.Number) string { return WholeConfidence(n).Text(0) + "%" }

// WholeConfidence is a confidence in whole percent, never rounded up, at most 99.
func WholeConfidence(n report.Number) report.Number {
	return report.Float(math.Min(99, math.Floor(100*n.Float64()+1e-9)))
}

// TestText is what a test says: of how many, how far, by what chance.
func TestText(of string, s int, p report.Number) string {
	return fmt.Sprintf("%s, S %d, p %s", of, s, p.Chance())
}

// TestExplained says what S and p of a test are.
const TestExplained = "S: pairs of flights that can be compared, those that rose minus those that fell; p: how often chance alone gives as much; the slope is of these flights, " +
	"the drift of the two-year model of the level"

// TrendWithoutZeros is a season's change without the flights that had a zeroed figure.
func TrendWithoutZeros(d answers.Trend) string {
	text := report.Signed(d.WithoutZeros, TrendRange(d).Decimals()).String() + " percentage points over the season"
	if len(d.HangsOnZeros) > 0 {
		text += ", and the verdict would not stand; left out: " + ListInWords(d.HangsOnZeros)
	}
	return text
}

// TrendNotes say what a reader must know beside the verdict.
func TrendNotes(d answers.Trend, limits answers.TrendLimits) []string {
	var notes []string
	if d.N == limits.Flights && d.Word != answers.TooFew {
		notes = append(notes, LeastFlights(limits))
	}
	if LongGap(d, limits) {
		notes = append(notes, AcrossGap(d))
	}
	return notes
}
