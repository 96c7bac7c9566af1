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
	return fmt.Sprintf("%s, %s", d.Category, Counted(d.Flights, "contest flight", "contest flights"))
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

// lowFigures names the figures that lie low by themselves, and in how many of their
// flights that hangs on the zero of a judge.
func lowFigures(low []answers.LowFigure) string {
	texts := make([]string, len(low))
	for i, f := range low {
		zero := ""
		if f.WithZero > 0 {
			zero = fmt.Sprintf(", %s with the zero of a judge in it", NumberWord(f.WithZero))
		}
		texts[i] = fmt.Sprintf("%s (about %s percentage points, %s%s)", FigureTitle(f.Figure), report.Float(math.Abs(f.Gap.Float64())).Text(0), Counted(f.Flights, "flight", "flights"), zero)
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

// ReversedNote says why a family that lies lower against the rest than one that is weak
// is not called so, "" where none does.
func ReversedNote(d answers.Families) string {
	highest := math.Inf(-1)
	for _, g := range d.Groups {
		if g.Weak && g.VersusRest.Known() {
			highest = max(highest, g.VersusRest.Float64())
		}
	}
	var said []string
	for _, g := range d.Groups {
		if g.Weak || !g.VersusRest.Known() || g.VersusRest.Float64() > highest-leastReversal {
			continue
		}
		text := GroupTitle(g.Group) + ": lower against the rest than what is weak, but "
		switch {
		case !g.Low.Known():
			text += "too little was flown to judge its level"
		case g.Different == 1:
			text += "of one figure"
		default:
			text += fmt.Sprintf("of %d figures it may be anywhere from %s to %s%%", g.Different, g.Low.Text(0), g.High.Text(0))
		}
		if g.WithoutZeros.Known() {
			text += ", and a zero in it says nothing of its level"
		}
		said = append(said, text)
	}
	return strings.Join(said, "; ")
}

// leastReversal is by how many percentage points a family must lie lower for a reader to
// wonder.
const leastReversal = 0.1

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

// WithoutZeros says what families would be without their zeroed figures; "" where
// none has any.
func WithoutZeros(d answers.Families) string {
	var said []string
	for _, g := range d.Groups {
		if g.WithoutZeros.Known() {
			said = append(said, fmt.Sprintf("%s %s%%", GroupTitle(g.Group), g.WithoutZeros.Text(PercentDecimals)))
		}
	}
	if len(said) == 0 {
		return ""
	}
	return "without the figures that were zeroed, which count in vs rest too: " + strings.Join(said, "; ")
}

// FlightsWithoutFamilies names the flights that say nothing of families, and in the
// others the figures that do not; "" where all do.
func FlightsWithoutFamilies(d answers.Families) string {
	if len(d.Groups) == 0 {
		return ""
	}
	var said []string
	if n := len(d.LeftOut); n > 0 {
		said = append(said, fmt.Sprintf("not in the table: %s, since no figure of %s has a code", ListInWords(d.LeftOut), PluralWord(n, "it", "them")))
	}
	if n := min(len(d.Uncoded), mostNamed); n > 0 {
		titles := make([]string, n)
		for i, figure := range d.Uncoded[:n] {
			titles[i] = FigureTitle(figure)
		}
		said = append(said, "without a code, so in no family: "+andMore(titles, len(d.Uncoded)-n, "more figure", "more figures"))
	}
	return strings.Join(said, "; ")
}

// OneContest names the families that were flown at one contest only, where there are
// several; "" where none was.
func OneContest(d answers.Families) string {
	var once []string
	for _, g := range d.Groups {
		if g.Contests == 1 && d.Flights > 1 {
			once = append(once, GroupTitle(g.Group))
		}
	}
	if len(once) == 0 {
		return ""
	}
	return fmt.Sprintf("%s: flown at one contest only, so %s that contest's judges", strings.Join(once, "; "), PluralWord(len(once), "it reflects", "each reflects"))
}

// SpreadBetweenFamilies says how far the true levels of families and of figures lie
// apart.
func SpreadBetweenFamilies(d answers.Families) string {
	return fmt.Sprintf("spread between families: about %s percentage points, up to %s not ruled out; between figures of one family: about %s, up to %s (%s)",
		RootText(d.Tau2), d.TauHigh.Text(1), RootText(d.Tau2Figure), d.TauHighFigure.Text(1), Counted(d.Distinct, "distinct figure", "distinct figures"))
}

// NotPooled says that no figure can be named; "" where one could.
func NotPooled(d answers.Families) string {
	if d.Pooled || !d.Tau2.Known() {
		return ""
	}
	return "hardly any figure was flown twice, so none is named: how much one figure varies from flight to flight is not known"
}

// SameFigures says which families nothing can tell from each other; each is said
// once.
func SameFigures(d answers.Families) []string {
	var said []string
	done := map[string]bool{}
	for _, g := range d.Groups {
		if len(g.Alike) > 0 && !done[g.Group] {
			said = append(said, GroupTitle(g.Group)+": cannot be told apart from "+groupTitles(g.Alike)+", which is in the same figures")
		}
		for _, other := range g.Alike {
			done[other] = true
		}
	}
	return said
}

// WithinFigures says of a weak family and another one where all figures of one are half
// or more of the other's, each by the sequences that it is in: what is lost in them may be
// either's.
func WithinFigures(d answers.Families) []string {
	var said []string
	within := func(small, large answers.Group) bool {
		for _, figure := range small.Of {
			if !slices.Contains(large.Of, figure) {
				return false
			}
		}
		return len(small.Of) > 0 && len(small.Of) < len(large.Of) && 2*len(small.Of) >= len(large.Of)
	}
	for _, small := range d.Groups {
		for _, large := range d.Groups {
			if (small.Weak || large.Weak) && within(small, large) {
				said = append(said, fmt.Sprintf("%s: in %s of the %s of %s, and in no other; what is lost there may be either's",
					GroupTitle(small.Group), NumberWord(small.Different), distinctFigures(large), GroupTitle(large.Group)))
			}
		}
	}
	return said
}

// ZeroSign stands behind a percent that a zeroed figure is in.
const ZeroSign = "°"

// ConfidenceNote says how sure the ranges of the changes are, which so few flights
// choose; "" where there is no range.
func ConfidenceNote(d answers.Families) string {
	sure := changeConfidences(d)
	if len(sure) == 0 {
		return "no change is shown where there are too few flights for a verdict"
	}
	byValue := func(a, b report.Number) int { return cmp.Compare(a.Float64(), b.Float64()) }
	low, high := Confidence(slices.MinFunc(sure, byValue)), Confidence(slices.MaxFunc(sure, byValue))
	if low != high {
		low = shareEnds(low, high)
	}
	return "from, to: the exact range of the change, at the confidence nearest above " + Confidence(d.Limits.Confidence) + " that so few flights allow: " + low
}

// changeConfidences are those of the ranges of the changes, which so few flights
// choose.
func changeConfidences(d answers.Families) []report.Number {
	var sure []report.Number
	for _, g := range d.Groups {
		if g.Trend.Confidence.Known() {
			sure = append(sure, g.Trend.Confidence)
		}
	}
	return sure
}

// ChangesFrom is the title of the column that the ranges of the changes begin in.
func ChangesFrom(d answers.Families) string { return RangeFrom(changeConfidences(d)...) }

// GapNote says which changes are drawn across a winter; "" where none is.
func GapNote(d answers.Families) string {
	var names []string
	drawn, longest := 0, 0.0
	for _, g := range d.Groups {
		if !g.Trend.Season.Known() {
			continue
		}
		drawn++
		if LongGap(g.Trend, d.Limits.TrendLimits) {
			names = append(names, GroupTitle(g.Group))
			longest = max(longest, g.Trend.LongestGap.Float64())
		}
	}
	if len(names) == 0 {
		return ""
	}
	whose := "every change"
	if len(names) < drawn {
		whose = strings.Join(names, "; ") + ": the change"
	}
	return fmt.Sprintf("%s is drawn across a gap of up to %s days without a flight that can be compared", whose, report.Float(longest).Text(0))
}

// CutNote says of which families a change or an end of its range is cut to what was
// observed; "" where none is.
func CutNote(d answers.Families) string {
	var names []string
	shown := 0
	for _, g := range d.Groups {
		if !g.Trend.Season.Known() {
			continue
		}
		shown++
		if g.Trend.SeasonCut || g.Trend.LowCut || g.Trend.HighCut {
			names = append(names, GroupTitle(g.Group))
		}
	}
	switch len(names) {
	case 0:
		return ""
	case shown:
		names = []string{"every family"}
	}
	return "the change or an end of its range lay beyond what was observed, and is cut to that: " + strings.Join(names, "; ")
}
