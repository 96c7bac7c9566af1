package words

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/report/answers"
)

// MovingSentence names the families that move: their own marks first, then the
// comparison with the rest of the same flights.
func MovingSentence(d answers.Families) string {
	if len(d.Groups) == 0 {
		return "" // nothing was flown that could move
	}
	var firm, soft []string
	for _, g := range d.Groups {
		switch g.Trend.Word {
		case answers.Improving, answers.Declining:
			firm = append(firm, moved(g, d.Limits.TrendLimits))
		case answers.MayImprove, answers.MayDecline:
			soft = append(soft, moved(g, d.Limits.TrendLimits))
		}
	}
	var parts []string
	if len(firm) > 0 {
		parts = append(parts, Sentence(strings.Join(firm, "; "))+".")
	}
	if len(soft) > 0 {
		parts = append(parts, Sentence(strings.Join(soft, "; "))+"; "+chanceOfSet(d)+".")
	}
	if len(parts) == 0 {
		return unmoved(d)
	}
	if text := againstRiser(d); text != "" {
		parts = append(parts, text)
	}
	return strings.Join(parts, " ")
}

// moved says a family's own marks, then how it moved against the rest.
func moved(g answers.Group, limits answers.TrendLimits) string {
	over := "over all of them"
	if LongGap(g.Trend, limits) {
		over = "drawn on across a gap of " + g.Trend.LongestGap.Text(0) + " days"
	}
	against := fmt.Sprintf("%s against the rest of the same flights, %s percentage points %s%s", g.Trend.Word, TrendRange(g.Trend).Change(), over, notWithout(g.Trend, ", but "))
	if !g.First.Known() {
		return fmt.Sprintf("%s: %s against the rest of the same flights, %s percentage points%s", GroupTitle(g.Group), g.Trend.Word, TrendRange(g.Trend).Change(), notWithout(g.Trend, ", but "))
	}
	first, last := g.First.Text(0), g.Last.Text(0)
	up := g.Last.Float64() > g.First.Float64()
	rises := g.Trend.Season.Float64() > 0
	than := "more than the rest"
	if up != rises {
		than = "less than the rest"
	}
	switch {
	case first == last && rises:
		return fmt.Sprintf("%s stayed at %s%% while the rest fell: %s", GroupTitle(g.Group), last, against)
	case first == last:
		return fmt.Sprintf("%s stayed at %s%% while the rest rose: %s", GroupTitle(g.Group), last, against)
	case up:
		return fmt.Sprintf("%s rose from %s to %s%%, %s: %s", GroupTitle(g.Group), first, last, than, against)
	default:
		return fmt.Sprintf("%s fell from %s to %s%%, %s: %s", GroupTitle(g.Group), first, last, than, against)
	}
}

// chanceOfSet says how often chance gives a sentence that a family may be moving,
// of all that were looked at.
func chanceOfSet(d answers.Families) string {
	return fmt.Sprintf("with %s compared, chance alone gives one such sentence in %s", Counted(d.Compared, "family", "families"), OneIn(chanceOfAny(d), d.Limits.TrendLimits))
}

// chanceOfAny is the chance, from 0 to 1, of one such sentence.
func chanceOfAny(d answers.Families) float64 {
	q := 0.0
	for _, g := range d.Groups {
		if g.Trend.Word == answers.MayImprove || g.Trend.Word == answers.MayDecline {
			q = max(q, g.Q.Float64())
		}
	}
	return q
}

// FamilyTrend is a family's verdict for the table; of one that may be moving with how
// often chance alone gives such a verdict among so many families. Too few flights are
// said in short, and in full beneath.
func FamilyTrend(d answers.Families, word answers.TrendWord) string {
	switch word {
	case answers.TooFew:
		return tooFewShort
	case answers.MayImprove, answers.MayDecline:
		return withChance(word, chanceOfAny(d), d.Limits.TrendLimits)
	default:
		return string(word)
	}
}

// tooFewShort is the verdict of too few flights in a cell.
const tooFewShort = "too few"

// TooFewNote says that verdict in full, "" where no family has it.
func TooFewNote(d answers.Families) string {
	if !slices.ContainsFunc(d.Groups, func(g answers.Group) bool { return g.Trend.Word == answers.TooFew }) {
		return ""
	}
	return tooFewShort + ": " + string(answers.TooFew)
}

// againstRiser names the families that rise firmly where others fall against
// them, "" where none do.
func againstRiser(d answers.Families) string {
	var risers []string
	falls := false
	for _, g := range d.Groups {
		switch g.Trend.Word {
		case answers.Improving:
			risers = append(risers, GroupTitle(g.Group))
		case answers.Declining, answers.MayDecline:
			falls = true
		}
	}
	if len(risers) == 0 || !falls {
		return ""
	}
	return fmt.Sprintf("The rest includes %s, which clearly %s: a fall against the rest may be no more than that.", ListInWords(risers), PluralWord(len(risers), "rises", "rise"))
}

// unmoved is the sentence where no family moves beyond chance.
func unmoved(d answers.Families) string {
	tooFew, flat := 0, 0
	for _, g := range d.Groups {
		switch g.Trend.Word {
		case answers.TooFew:
			tooFew++
		case answers.Flat:
			flat++
		}
	}
	text := fmt.Sprintf("Flat against the rest, within %s percentage points either way: %s.", d.Limits.Change.Text(0), Counted(flat, "family", "families"))
	switch {
	case tooFew == len(d.Groups):
		return "Too few flights to tell the trend of any family."
	case flat == len(d.Groups)-tooFew:
		return text
	case flat > 0:
		return text + " No other family's trend stands out from chance."
	default:
		return "No family's trend stands out from chance."
	}
}

// FirmWord says what a verdict on a trend needs.
func FirmWord(d answers.Families) string {
	text := fmt.Sprintf("improving and declining need p and q of at most %s and a change of more than %s percentage points, %q at most %s",
		d.Limits.Chance.Text(2), d.Limits.Change.Text(0), "may be", d.Limits.MayBe.Text(2))
	if d.Compared > 0 {
		text += fmt.Sprintf("; q allows for the %s compared", PluralWord(d.Compared, "one family", fmt.Sprintf("%d families", d.Compared)))
	}
	return text
}

// NotLookedAt lists the families whose flights are too few for any verdict, which
// q does not allow for; "" where there are none.
func NotLookedAt(d answers.Families) string {
	var names []string
	for _, g := range d.Groups {
		if g.Trend.Word == answers.TooFew {
			names = append(names, GroupTitle(g.Group))
		}
	}
	if len(names) == 0 || d.Compared == 0 {
		return ""
	}
	return "not compared, too few comparable flights: " + strings.Join(names, "; ")
}

// OwnMarks says what the own percents at both ends are of.
const OwnMarks = "rose, fell, stayed: the family's own percent, the mean of the first quarter of the flights with it and of the last; against the rest, every flight counts"

// SaysOwnMarks reports whether a sentence names own percents.
func SaysOwnMarks(d answers.Families) bool {
	return slices.ContainsFunc(d.Groups, func(g answers.Group) bool {
		switch g.Trend.Word {
		case answers.Improving, answers.Declining, answers.MayImprove, answers.MayDecline:
			return g.First.Known()
		default:
			return false
		}
	})
}
