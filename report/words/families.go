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

// FamiliesSubtitle says which flights the families are of, "" where there are
// none.
func FamiliesSubtitle(d answers.Families) string {
	if d.Category == "" {
		return ""
	}
	return fmt.Sprintf("%s, %s", d.Category, FamiliesFlights(d))
}

// FamiliesFlights counts the flights, and says where they are of several catalogues, of which
// a plan takes one.
func FamiliesFlights(d answers.Families) string {
	text := Counted(d.Flights, "contest flight", "contest flights")
	if d.Catalogues > 1 {
		text += ", on sequences of several catalogues; the plan is of one"
	}
	return text
}

// NoFamily is what has no family: not a family's name, so that no formula takes
// it for one.
const NoFamily = answers.NoFamily

// FamilyTitle says a family by key and in words. No formula can take it for a
// number, which "9.1" and "9.10" would be, the same.
func FamilyTitle(group string) string {
	name := GroupName(group)
	switch {
	case group == "":
		return NoFamily
	case name == "" || strings.HasPrefix(name, group):
		return name
	}
	return group + " " + name
}

// WeakSentence names the weak families and the figures that lie low by themselves,
// or says that none can be named.
func WeakSentence(d answers.Families) string {
	var weak []string
	for _, g := range d.Groups {
		if g.Weak {
			weak = append(weak, weakFamily(g))
		}
	}
	var parts []string
	if len(weak) > 0 {
		parts = append(parts, "Weaker than the pilot's other families in these "+Counted(d.Flights, "flight", "flights")+", ranges at "+AtConfidence(d.Limits.Confidence)+": "+strings.Join(weak, "; ")+".")
	}
	together := lowTogether(d.Groups)
	for _, text := range together {
		parts = append(parts, Sentence(text)+".")
	}
	if len(d.LowFigures) > 0 {
		parts = append(parts, lowFigures(d.LowFigures))
	}
	one := lowOneFigures(d)
	parts = append(parts, one...)
	switch {
	case len(d.Groups) == 0:
		return "No contest flight in this selection has a figure of any family; practice does not count here."
	case !d.Tau2.Known():
		return "The levels of the families cannot be compared: " + levelsLack(len(d.Groups), d.Limits.Families) + "."
	case len(parts) == 0 && d.Flights < d.Limits.Flights:
		parts = append(parts, lowestSoFar(d))
	case len(weak)+len(one)+len(together) == 0 && d.Flights < d.Limits.Flights:
		parts = append(parts, noneWeaker(d.Flights)+".")
	case len(weak)+len(one)+len(together) == 0:
		parts = append(parts, "No family lies below the others by more than chance in these "+Counted(d.Flights, "flight", "flights")+".")
	}
	if zeros := mostlyZeroed(d.Groups); zeros != "" {
		parts = append(parts, zeros)
	}
	return strings.Join(parts, " ")
}

// mostlyZeroed names the family of whose figures the largest part was zeroed, two or more:
// zeros say nothing of a level, so the level says nothing of them.
func mostlyZeroed(groups []answers.Group) string {
	var most answers.Group
	for _, g := range groups {
		if g.Zeros > 1 && g.Zeros*most.Figures >= most.Zeros*g.Figures && (most.Zeros == 0 || g.Zeros*most.Figures > most.Zeros*g.Figures) {
			most = g
		}
	}
	if most.Zeros == 0 {
		return ""
	}
	return fmt.Sprintf("Zeros stand apart, most in %s: %d of %s zeroed.", GroupTitle(most.Group), most.Zeros, Counted(most.Figures, "figure", "figures"))
}

// SaysLevels reports whether WeakSentence names levels of families, which are not the
// percents of the table.
func SaysLevels(d answers.Families) bool {
	return d.Tau2.Known() && slices.ContainsFunc(d.Groups, func(g answers.Group) bool { return g.Weak || g.WeakOne })
}

// LevelsBeside says why a level is not the percent of the table.
const LevelsBeside = "above the table: the level of a family, each figure once however often it was flown, without zeros and what chance explains; percent: of the marks as given"

// lowestSoFar says of few flights that they cannot tell which family is weaker, and
// which one is the lowest: a zero says nothing of skill, so without zeros, and where
// another one is the lowest with them, that one too.
func lowestSoFar(d answers.Families) string {
	skill := func(g answers.Group) report.Number {
		if g.WithoutZeros.Known() {
			return g.WithoutZeros
		}
		return g.Percent
	}
	lowest, flown := lowestBy(d.Groups, skill), lowestBy(d.Groups, func(g answers.Group) report.Number { return g.Percent })
	how := "as flown"
	if lowest.WithoutZeros.Known() || lowest.Group != flown.Group {
		how = "without zeros"
	}
	var alike []string // of the lowest, all that are shown as low
	for _, g := range d.Groups {
		if skill(g).Text(PercentDecimals) == skill(lowest).Text(PercentDecimals) {
			alike = append(alike, g.Group)
		}
	}
	text := fmt.Sprintf("%s; the lowest %s %s %s, %s%%", noneWeaker(d.Flights), how, PluralWord(len(alike), "is", "are"), groupTitles(alike), skill(lowest).Text(PercentDecimals))
	if lowest.Group != flown.Group && skill(flown).Text(PercentDecimals) != skill(lowest).Text(PercentDecimals) {
		text += fmt.Sprintf(", with them %s, %s%%", GroupTitle(flown.Group), flown.Percent.Text(PercentDecimals))
	}
	return text + "."
}

// noneWeaker says of few flights that they cannot tell which family is weaker.
func noneWeaker(flights int) string {
	return Sentence(Counted(flights, "flight", "flights")) + " cannot tell which family is weaker than the others"
}

// lowestBy is the first of the lowest groups.
func lowestBy(groups []answers.Group, of func(answers.Group) report.Number) answers.Group {
	return slices.MinFunc(groups, func(a, b answers.Group) int { return cmp.Compare(of(a).Float64(), of(b).Float64()) })
}

// weakFamily says a weak family with its level, and the figures where they are
// only two.
func weakFamily(g answers.Group) string {
	on := distinctFigures(g)
	if len(g.Of) <= 2 {
		on = FiguresTitle(g.Of)
	}
	r := FamilyRange(g, report.Number{})
	text := fmt.Sprintf("%s, about %s%% (%s, on %s)", GroupTitle(g.Group), r.About(), r.Ends(), on)
	if len(g.Alike) > 0 {
		text += ", which cannot be told apart from " + groupTitles(g.Alike)
	}
	return text
}

// lowTogether say of families that lie as low as weak ones that they do so by the figures
// that they share with others, each two of them once.
func lowTogether(groups []answers.Group) []string {
	var said []string
	done := map[string]bool{}
	for _, g := range groups {
		if len(g.LowWith) == 0 || done[g.Group] {
			continue
		}
		for _, other := range g.LowWith {
			done[other] = true
		}
		which := ""
		if !slices.ContainsFunc(groups, func(o answers.Group) bool { return o.Weak && slices.Contains(g.LowWith, o.Group) }) {
			which = "; they cannot be told apart"
		}
		figures := ""
		if shared := sharedFigures(groups, g); len(shared) > 0 && len(shared) <= mostShared {
			figures = " (" + FiguresTitle(shared) + ")"
		}
		said = append(said, GroupTitle(g.Group)+": low only in figures that have "+groupTitles(g.LowWith)+" too"+figures+which)
	}
	return said
}

// mostShared is how many figures that families share are named.
const mostShared = 3

// sharedFigures are the figures of a group that have one of those too that it lies low with.
func sharedFigures(groups []answers.Group, g answers.Group) []string {
	var shared []string
	for _, figure := range g.Of {
		if slices.ContainsFunc(groups, func(o answers.Group) bool {
			return slices.Contains(g.LowWith, o.Group) && slices.Contains(o.Of, figure)
		}) {
			shared = append(shared, figure)
		}
	}
	return shared
}

// distinctFigures counts the figures of a family, one known in several sequences once.
func distinctFigures(g answers.Group) string {
	return Counted(g.Different, "distinct figure", "distinct figures")
}

// lowOneFigures name the figures that several sequences have and that are all there is
// of a family: where it lies as low as one that is weak, that is said of the figure.
func lowOneFigures(d answers.Families) []string {
	var said []string
	for _, g := range d.Groups {
		if g.WeakOne {
			r := FamilyRange(g, d.Limits.Confidence)
			said = append(said, fmt.Sprintf("%s lies below the others: %s, about %s%% (%s); nothing else of the family was flown.",
				Sentence(onlyFigure(g.Of[0], g.Of)), GroupTitle(g.Group), r.About(), r.EndsAt()))
		}
	}
	return said
}

// LevelShown is a family's level, or its own percent where levels are not compared.
func LevelShown(g answers.Group) string {
	if !g.Shrunken.Known() {
		return g.Percent.Text(LevelDecimals)
	}
	return FamilyRange(g, report.Number{}).About()
}

// FamilyRange is the range of a family's level at a confidence.
func FamilyRange(g answers.Group, confidence report.Number) Range {
	return Range{g.Low, g.Shrunken, g.High, confidence}
}

func groupTitles(groups []string) string {
	titles := make([]string, len(groups))
	for i, group := range groups {
		titles[i] = GroupTitle(group)
	}
	return ListInWords(titles)
}

// lowFigures names the figures that lie low by themselves, with a gap that is not the plain
// difference on the page of each, and in how many of their flights that hangs on the zero of
// a judge.
func lowFigures(low []answers.LowFigure) string {
	texts := make([]string, len(low))
	for i, f := range low {
		zero := ""
		if f.WithZero > 0 {
			zero = fmt.Sprintf(", %s with the zero of a judge in it", NumberWord(f.WithZero))
		}
		texts[i] = fmt.Sprintf("%s (about %s percentage points beyond chance, %s%s)", FigureTitle(f.Figure), report.Float(math.Abs(f.Gap.Float64())).Text(0), Counted(f.Flights, "flight", "flights"), zero)
	}
	return "Below the pilot's other figures: " + strings.Join(texts, "; ") + "."
}

// FigureTitle says a distinct figure, written as SEQUENCE/NUMBER, in words.
func FigureTitle(figure string) string {
	sequence, number := cutFigure(figure)
	return "figure " + number + " of " + sequence
}

func cutFigure(figure string) (sequence, number string) {
	at := strings.LastIndex(figure, "/")
	return figure[:max(0, at)], figure[at+1:]
}

// FiguresTitle says distinct figures: "figures 3 and 7 of known-26" where they are
// of one sequence.
func FiguresTitle(figures []string) string {
	var titles, numbers []string
	first := ""
	one := len(figures) > 1
	for i, figure := range figures {
		sequence, number := cutFigure(figure)
		if i == 0 {
			first = sequence
		}
		one = one && sequence == first
		titles, numbers = append(titles, FigureTitle(figure)), append(numbers, number)
	}
	if one {
		return "figures " + ListInWords(numbers) + " of " + first
	}
	return ListInWords(titles)
}

// LevelVerdict says how a family's level lies, "" where there is none.
func LevelVerdict(g answers.Group) string {
	switch {
	case !g.Shrunken.Known():
		return ""
	case g.Weak:
		return Weak
	case g.Different == 1:
		return OneFigure
	default:
		return NotToldApart
	}
}

// levelsLack says why the levels of the families cannot be compared; a zeroed
// figure says nothing of a level.
func levelsLack(flown, least int) string {
	if flown >= least {
		return "fewer than " + NumberWord(least) + " families have a figure that was not zeroed"
	}
	return Counted(flown, "family was", "families were") + " flown; at least " + NumberWord(least) + " are needed"
}

// The words of the page of families that stand for themselves.
const (
	Weak         = "weak"        // a level below the others'
	NotToldApart = "cannot tell" // a level that is not
	OneFigure    = "one figure"  // that a level is of: nothing is said of the family

	ShrunkenExplained   = "adjusted: of distinct figures, each once however often it was flown, its part shared among its families, and moved by the share of the spread that chance explains: it may lie on either side of the percent; zeroed figures left out"
	VersusRestExplained = "vs rest, change: percentage points of the family against the rest of the same flight, so a contest's judges and weather cancel out; " +
		"change over the flights compared: only flights of one sequence with each other, or unknowns"
	VersusRestBrief  = "vs rest: percentage points above (+) or below (-) the rest of the same flights, so judges and weather cancel out, a zero in it does not; trend: against that rest"
	FiguresExplained = "figures: those flown; one with several families counts in each of them"
	AlikeExplained   = "within a family, flights of one contest scored alike: p, q and the ranges count them as fewer flights"
)

// FurtherFromFamilies says how to follow one family, the first that is weak, else the one
// farthest below the rest, and where to go next.
func FurtherFromFamilies(d answers.Families) string {
	if len(d.Groups) == 0 {
		return WherePracticePays(d.Pilot)
	}
	first := d.Groups[0]
	if known := slices.DeleteFunc(slices.Clone(d.Groups), func(g answers.Group) bool { return !g.VersusRest.Known() }); len(known) > 0 {
		first = lowestBy(known, func(g answers.Group) report.Number { return g.VersusRest })
	}
	if i := slices.IndexFunc(d.Groups, func(g answers.Group) bool { return g.Weak }); i >= 0 {
		first = d.Groups[i]
	}
	return fmt.Sprintf("One family over time: boxbook families %s %s\nWhere practice pays, over two years: boxbook %s\n%s", d.Pilot, first.Group,
		commandLine([]string{"plan", d.Pilot}), MoreNumbers("families", d.Pilot))
}

// ZeroSign stands behind a percent that a zeroed figure is in.
const ZeroSign = "°"
