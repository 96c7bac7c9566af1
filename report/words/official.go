package words

import (
	"fmt"
	"math"
	"math/big"
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
)

// ShownExplanations is how many explanations a page lists; JSON has all.
const ShownExplanations = 5

// OfficialSentence says in one line whether the official total agrees with the
// marks, with what would explain best that it does not.
func OfficialSentence(d answers.Flight) string {
	text := officialSentence(d)
	if supposing, ok := Supposing(d); ok {
		text += " If the maximum alone is a slip, " + lowerFirst(officialSentence(supposing))
	}
	return text
}

func officialSentence(d answers.Flight) string {
	o := d.Official
	text := officialAgrees(d)
	switch {
	case o.Agrees != nil && *o.Agrees || len(o.Explanations) == 0:
		return sentence(text)
	case o.Agrees == nil:
		return sentence(text + ": " + o.Explanations[0].Text)
	case (o.FromJudge || o.OfTotals) && o.Explanations[0].Contradicts:
		return sentence(text)
	case o.Explanations[0].Unlikely:
		return sentence(text+". No likely slip explains it: "+o.Explanations[0].Text) + elseAddedUp(o)
	case o.Explanations[0].Contradicts:
		return sentence(text + ". Nothing explains the judges' printed totals too: " + o.Explanations[0].Text)
	default:
		return sentence(text+". "+bestOf(d)+": "+o.Explanations[0].Text) + betterClue(o) + elseAddedUp(o)
	}
}

// inSheet says that all of a difference lies in the sheet of the judge whose printed total is
// not the marks'.
func inSheet(o *answers.Official) string {
	j := judgesOff(o)[0]
	difference, way := new(big.Rat).Sub(j.Points.Rat(), j.Own.Rat()), "more"
	if difference.Sign() < 0 {
		way = "less"
	}
	return fmt.Sprintf("all of it in the sheet of judge %s, whose printed total is %s %s than its marks",
		j.Judge, report.Exact(difference.Abs(difference)).Text(PointDecimals), way)
}

// elseAddedUp says what else a printed total that is not a sheet's marks may be; "" where
// the difference does not lie in one sheet.
func elseAddedUp(o *answers.Official) string {
	if !o.FromJudge {
		return ""
	}
	return " If its marks are as on the paper, the sheet was added up wrongly."
}

// betterClue names an explanation of a kind that chance alone gives less often than
// that of the first, " " before it; "" where there is none. The first stands first
// because such slips are the more plausible ones.
func betterClue(o *answers.Official) string {
	if e, found := rarest(o); found {
		return " " + sentence("The better clue, which chance alone gives less often: "+e.Text)
	}
	return ""
}

// rarerBy is how many times rarer by chance a better clue is than the first explanation.
const rarerBy = 2

// rarest is an explanation of the kind that chance alone gives least often, where the
// first is of one that it gives clearly more often; a total that the field has is no
// chance.
func rarest(o *answers.Official) (answers.Explanation, bool) {
	share := map[string]float64{}
	for _, c := range o.Chances {
		share[c.Kind] = c.Share.Float64()
	}
	first, best := o.Explanations[0], o.Explanations[0]
	for _, e := range o.Explanations[1:] {
		if known, ok := share[e.Kind]; ok && fits(o, e) && !e.Unlikely && known < share[best.Kind] {
			best = e
		}
	}
	told := best.Kind != first.Kind && rarerBy*share[best.Kind] <= share[first.Kind]
	return best, told && !first.InField && !o.Coarse && share[best.Kind] < oftenFits
}

// contradicted reports whether all explanations of a kind go against the judges' totals
// that were typed and others do not.
func contradicted(o *answers.Official, kind string) bool {
	of := func(fit bool) bool {
		return slices.ContainsFunc(o.Explanations, func(e answers.Explanation) bool { return e.Kind == kind && fits(o, e) == fit })
	}
	return of(false) && !of(true)
}

// againstSum reports whether the printed sum of K goes against all explanations of a kind.
func againstSum(o *answers.Official, kind string) bool {
	of := func(against bool) bool {
		return slices.ContainsFunc(o.Explanations, func(e answers.Explanation) bool { return e.Kind == kind && (e.AgainstSum && e.Unlikely) == against })
	}
	return of(true) && !of(false)
}

// fits reports whether an explanation gives the judges' totals that were typed, or none
// does.
func fits(o *answers.Official, e answers.Explanation) bool {
	return !e.Contradicts || o.Explanations[0].Contradicts
}

// bestOf introduces the first explanation, which is the best where no other fits as
// well and chance alone seldom does.
func bestOf(d answers.Flight) string {
	o := d.Official
	switch {
	case o.Alike() > 1:
	case oftenByChance(o):
		return "A weak clue, since chance alone often fits"
	case betterClue(o) != "":
		return "A plausible slip"
	default:
		return "Best explanation"
	}
	text := Counted(o.Alike(), "explanation fits", "explanations fit") + " equally well"
	if fits := marksFit(o); fits != "" && ofMarks(o.Explanations[0]) {
		text = fits
	}
	if o.Explanations[0].BroughtBack(d.Alone()) != "" {
		text += "; the first to look at"
	}
	return text
}

// oftenFits is from which share of the totals on chance alone fits often.
const oftenFits = 0.2

// oftenByChance reports whether chance alone often explains a total as the first
// explanation does, or the total is printed too coarsely to tell.
func oftenByChance(o *answers.Official) bool {
	return o.Coarse || slices.ContainsFunc(o.Chances, func(c answers.Chance) bool {
		return c.Kind == o.Explanations[0].Kind && c.Share.Float64() >= oftenFits
	})
}

// OtherExplanations introduces the explanations behind the first, "" where there is
// none; above says that the first is given above the marks.
func OtherExplanations(o *answers.Official, above bool) string {
	if o.Supposed != nil {
		if others := OtherExplanations(o.Supposed, above); others != "" {
			return "If the maximum alone is a slip: " + lowerFirst(others)
		}
		return ""
	}
	rest := behindThose(o)
	if len(rest) == 0 {
		return ""
	}
	others := PluralWord(len(rest), "other that fits", "others that fit")
	if !slices.ContainsFunc(rest, func(e answers.Explanation) bool { return fits(o, e) }) {
		others += " the total alone"
	}
	switch {
	case above && len(rest) < len(o.Explanations)-1:
		return "The first explanation and the better clue are given above the marks; the " + others + ":"
	case above:
		return "The first explanation is given above the marks; the " + others + ":"
	}
	return "The " + others + ":"
}

// behindThose are the explanations that no sentence has: behind the first, without one
// that is named beside it as the better clue.
func behindThose(o *answers.Official) []answers.Explanation {
	if (o.FromJudge || o.OfTotals) && len(o.Explanations) > 0 && o.Explanations[0].Contradicts {
		return o.Explanations
	}
	if len(o.Explanations) < 2 {
		return nil
	}
	rest := slices.Clone(o.Explanations[1:])
	first := o.Explanations[0]
	if better, found := rarest(o); found && !first.Unlikely && !first.Contradicts {
		at := slices.IndexFunc(rest, func(e answers.Explanation) bool { return e.Kind == better.Kind && e.Text == better.Text })
		rest = slices.Delete(rest, at, at+1)
	}
	return rest
}

// totalAgrees is said of an official total, with or without what it agrees with.
const totalAgrees = "The official total agrees"

// maximaDiffer reports whether the printed maximum is another than the sequence's.
func maximaDiffer(d answers.Flight) bool {
	printed := d.Official.Maximum
	return d.Maximum.Known() && printed.Known() && printed.Float64() != d.Maximum.Float64()
}

// officialAgrees says whether the official total agrees.
func officialAgrees(d answers.Flight) string {
	o := d.Official
	differs := maximaDiffer(d)
	switch {
	case o.MayBePercent:
		return percentDoubted(d)
	case o.Agrees == nil:
		return "Cannot tell whether the official total agrees without every sheet"
	case o.PercentLess.Known() && *o.Agrees:
		return "The official percent agrees with the marks"
	case o.PercentLess.Known():
		return percentApart(d)
	case differs && *o.Agrees:
		return Sentence(maximaSaid(o.Maximum, d.Maximum)) + "; the percents agree"
	case differs:
		return Sentence(maximaDifferSaid(o.Maximum, d.Maximum)) + ": a K may be mistyped"
	case *o.Agrees && d.Undecided:
		return "The official total is one end of the range that the undecided figure leaves open"
	case *o.Agrees:
		return totalAgrees + " with the marks" + officialRounded(d)
	case !o.Difference.Known():
		return "The official total is neither end of the range that the undecided figure leaves open"
	case o.FromJudge && (len(o.Explanations) == 0 || o.Explanations[0].Contradicts):
		return officialApart(d) + ", " + inSheet(o) + ": a mark is typed wrongly, or the sheet was added up wrongly"
	case o.FromJudge:
		return officialApart(d) + ", " + inSheet(o)
	case saysTotals(o):
		return officialApart(d) + ": it is " + ofTotals(d)
	case len(o.Explanations) == 0 && roundingCouldLeave(d):
		return officialApart(d) + "; a rounding of each figure's points, or decimals cut off, can leave as much"
	case len(o.Explanations) == 0 && o.JudgesAgree():
		return fmt.Sprintf("%s, although the printed totals of the judges agree with the marks: by the rules these come to %s", officialApart(d), d.Points.Text(PointDecimals))
	case len(o.Explanations) == 0:
		return officialApart(d) + ", and no single slip explains it"
	default:
		return officialApart(d)
	}
}

// saysTotals reports whether it is said that the official total is the judges' printed ones'.
// Less a penalty that is not in the ledger it is by chance too, where something else explains it.
func saysTotals(o *answers.Official) bool {
	unexplained := len(o.Explanations) == 0 || o.Explanations[0].Contradicts
	return o.OfTotals && (unexplained || o.JudgesAgree() && o.OfTotalsLess == 0)
}

// ofTotals says that the official total is that of the judges' printed totals and how these
// come to another one than the marks.
func ofTotals(d answers.Flight) string {
	said, less := "the mean of the judges' printed totals", ""
	if len(d.Penalties) > 0 {
		less = ", less the " + PluralWord(len(d.Penalties), "penalty", "penalties")
	}
	if points := d.Official.OfTotalsLess; points > 0 {
		lead := ", less"
		if less != "" {
			lead = less + " and"
		}
		less = fmt.Sprintf("%s a penalty of %d that is not in the ledger", lead, points)
	}
	if !d.Official.JudgesAgree() {
		return said + ", which are not those of the marks" + less
	}
	unfilled, rounded := false, false
	for _, j := range d.Official.Judges {
		as := j.Own.Rat()
		if j.Typed.Known() && apartBy(j.Points, j.Typed) < apartBy(j.Points, j.Own) {
			unfilled, as = true, j.Typed.Rat()
		}
		rounded = rounded || j.Points.Rat().Cmp(as) != 0
	}
	switch {
	case unfilled && rounded:
		said += ", which are rounded and count marks as they stand on the sheets, neither filled nor zeroed"
	case unfilled:
		said += ", which count marks as they stand on the sheets, neither filled nor zeroed"
	default:
		said += ", which are rounded"
	}
	return said + less
}

// apartBy is by how much two numbers differ.
func apartBy(a, b report.Number) float64 { return math.Abs(a.Float64() - b.Float64()) }

// percentDoubted says that an official total, typed as points, may be a percent.
func percentDoubted(d answers.Flight) string {
	o := d.Official
	total := o.Points.Text(o.Decimals)
	return fmt.Sprintf("The official total, %s, may be a percent: as points it is %s%% of %s, which the season counts; if it is one, write `official %s of 100`",
		total, o.Percent.Text(PercentDecimals), o.Maximum.Text(0), total)
}

// percentApart says how far an official percent is from that of the marks, in points too.
func percentApart(d answers.Flight) string {
	o := d.Official
	way, counts, none := "more", "", ""
	if o.PercentLess.Rat().Sign() < 0 {
		way = "less"
	}
	if d.Record != nil && d.Record.Source == answers.FromOfficial {
		counts = ", which the season counts,"
	}
	if len(o.Explanations) == 0 {
		none = ", and no single slip explains it"
	}
	size := func(n report.Number) report.Number { return report.Exact(new(big.Rat).Abs(n.Rat())) }
	return fmt.Sprintf("The official percent, %s%s is %s percentage points %s than the marks as typed come to: %s points, give or take %s by its rounding%s",
		printedText(d), counts, size(o.PercentLess).Text(PercentDecimals), way, size(o.PointsLess).Text(PointDecimals), o.PointsWithin.Text(PointDecimals), none)
}

// roundingCouldLeave reports whether an official total of two or more decimals is as
// near as half a unit of its last decimal for each line of the sheet, and one more
// for decimals cut off the sum.
func roundingCouldLeave(d answers.Flight) bool {
	lines := len(d.Figures)
	for _, line := range []*answers.Line{d.Positioning, d.Harmony} {
		if line != nil {
			lines++
		}
	}
	unit := math.Pow10(-d.Official.Decimals)
	return d.Official.Decimals >= 2 && math.Abs(d.Official.Difference.Float64()) <= unit*float64(lines+1)/2
}

// officialRounded names the percent of an official total that agrees and yet is shown
// as another than that of the marks, for one was rounded before it was divided.
func officialRounded(d answers.Flight) string {
	if d.Record == nil || d.Record.Source != answers.FromOfficial || d.Record.Percent.Text(PercentDecimals) == d.Percent.Text(PercentDecimals) {
		return ""
	}
	return fmt.Sprintf("; its points make %s%%, which the season counts", d.Record.Percent.Text(PercentDecimals))
}

// officialApart says how far the official total is from the marks, and what it is
// to the season.
func officialApart(d answers.Flight) string {
	difference := d.Official.Difference
	if d.Official.LessShown.Known() {
		difference = d.Official.LessShown
	}
	return totalApart(d, difference.Rat())
}

// OfficialDisagrees says that an official total is not that of the marks and how far
// it is from it, without what would explain it; "" where it agrees or cannot be
// compared.
func OfficialDisagrees(d answers.Flight) string {
	o := d.Official
	if o == nil || o.Agrees == nil || *o.Agrees || !d.Points.Known() {
		return ""
	}
	if d.Maximum.Known() && o.Maximum.Known() && o.Maximum.Float64() != d.Maximum.Float64() {
		return sentence(officialAgrees(d))
	}
	if o.LessShown.Known() {
		return sentence(totalApart(d, o.LessShown.Rat()))
	}
	return sentence(totalApart(d, new(big.Rat).Sub(o.Points.Rat(), d.Points.Rat())))
}

func totalApart(d answers.Flight, difference *big.Rat) string {
	o := d.Official
	way, counts := "more", ""
	if difference.Sign() < 0 {
		way = "less"
	}
	if d.Record != nil && d.Record.Source == answers.FromOfficial && d.Record.Percent.Known() {
		counts = fmt.Sprintf(" (%s%%, which the season counts)", d.Record.Percent.Text(PercentDecimals))
	}
	size, come := report.Exact(new(big.Rat).Abs(difference)), "marks as typed come to"
	if saysTotals(o) && o.JudgesAgree() { // the sheets may have come to it as they were typed
		come = "marks come to by the rules"
	}
	return fmt.Sprintf("The official total, %s%s, is %s %s than the %s", o.Points.Text(o.Decimals), counts, size.Text(PointDecimals), way, come)
}

// OfficialNotes are the explanations of a difference behind the best, which the
// sentence has, as many as a page lists.
func OfficialNotes(o *answers.Official) []string {
	if o.Supposed != nil {
		return OfficialNotes(o.Supposed)
	}
	var notes []string
	rest := behindThose(o)
	shown := max(0, ShownExplanations-(len(o.Explanations)-len(rest)))
	for i, e := range rest {
		switch {
		case i == shown:
			notes = append(notes, fmt.Sprintf("and %d more, in --format json", len(rest)-i))
		case i < shown:
			notes = append(notes, e.Text)
		}
	}
	return notes
}

// JudgesApart are the judges whose printed total is not the marks': what is known, before
// what would explain it.
func JudgesApart(o *answers.Official) []string {
	var notes []string
	for _, j := range judgesOff(o) {
		notes = append(notes, fmt.Sprintf("the printed total of judge %s is %s, the marks give %s", j.Judge, j.Points.Text(PointDecimals), judgeGives(j)))
	}
	if said := judgesExchanged(o); said != "" {
		notes = append(notes, said)
	}
	return notes
}

// judgesOff are the judges whose printed total is not what their marks give.
func judgesOff(o *answers.Official) []answers.OfficialJudge {
	return slices.DeleteFunc(slices.Clone(o.Judges), func(j answers.OfficialJudge) bool { return j.Agrees || !j.Own.Known() })
}

// judgesExchanged says that the printed totals which are apart are those that the marks of
// the same judges give, in another order; "" where they are not.
func judgesExchanged(o *answers.Official) string {
	var judges, printed, given []string
	for _, j := range judgesOff(o) {
		judges = append(judges, j.Judge)
		printed, given = append(printed, j.Points.Text(PointDecimals)), append(given, j.Own.Text(PointDecimals))
	}
	slices.Sort(printed)
	slices.Sort(given)
	if len(judges) < 2 || !slices.Equal(printed, given) {
		return ""
	}
	return fmt.Sprintf("the printed totals of %s are each other's: their marks stand in each other's columns, or the totals in another order than the panel", ListInWords(judges))
}

// judgeGives says what a judge's marks come to, in both readings where they differ.
func judgeGives(j answers.OfficialJudge) string {
	own := j.Own.Text(PointDecimals)
	if !j.Typed.Known() {
		return own
	}
	return fmt.Sprintf("%s as typed, %s as counted", j.Typed.Text(PointDecimals), own)
}

// OfficialFoot says how much an explanation is worth, and what to do.
func OfficialFoot(o *answers.Official) string {
	explained := o
	if o.Supposed != nil {
		explained = o.Supposed
	}
	fit := ""
	if said := explained.Alike() > 1 && ofMarks(explained.Explanations[0]); !said { // with the first explanation
		if fit = marksFit(explained); fit != "" {
			fit += ". "
		}
	}
	first, then := compareFirst(o), "Then ask"
	if first == "" {
		then = "Ask"
	}
	return fit + coincidenceText(explained) + first + askTheOffice(o, then)
}

// compareFirst says what to look at before anybody is asked: the marks, which the
// printed totals of the judges may have cleared; or the penalty or the K that is in
// question. "" where nothing that was typed is.
func compareFirst(o *answers.Official) string {
	switch {
	case len(o.Explanations) > 0 && o.Explanations[0].Kind == answers.ExplainedByPenalty:
		return "First compare the penalties with your paper sheets. "
	case len(o.Explanations) > 0 && o.Explanations[0].Kind == answers.ExplainedByK && !o.Explanations[0].Unlikely:
		return "First compare each K of the sequence with the printed result, then these marks with your paper sheets: your own typing is the likelier slip. "
	case o.Supposed != nil:
		return "First compare the maximum, and each K of the sequence, with the printed result, then these marks with your paper sheets: your own typing is the likelier slip. "
	case saysTotals(o) && o.OfTotalsLess > 0 && o.JudgesAgree():
		return "First compare the penalties with your paper sheets. "
	case saysTotals(o) && o.OfTotalsLess > 0:
		return "First compare the penalties, then these marks, with your paper sheets: your own typing is the likelier slip. "
	case o.JudgesAgree() && saysTotals(o):
		return ""
	case o.JudgesAgree():
		return "The printed totals of the judges confirm the marks as typed: look at the sum, the penalties and the total as you typed it. "
	default:
		return "First compare these marks with your paper sheets: your own typing is the likelier slip. "
	}
}

// askTheOffice says what to ask for, as long as a protest may be in time and after.
func askTheOffice(o *answers.Official, ask string) string {
	if o.Days == nil || *o.Days <= answers.ProtestDays {
		return ask + " the contest's office at once; time limits for protests are short and set by the rules in force."
	}
	return fmt.Sprintf("%s the contest's office; after %d days the time limits for protests, set by the rules in force, have probably passed.", ask, *o.Days)
}

// ofMarks reports whether an explanation is a misread mark or two.
func ofMarks(e answers.Explanation) bool {
	return e.Kind == answers.ExplainedByMark || e.Kind == answers.ExplainedByMarks
}

// marksFit says how many marks, or pairs of marks, would fit, "" for none.
func marksFit(o *answers.Official) string {
	switch {
	case o.Fits == 0:
		return ""
	case o.Explanations[0].Kind == answers.ExplainedByMarks:
		return Counted(o.Fits, "pair of marks", "pairs of marks") + " would fit"
	case o.Fits == 1:
		return "1 mark would fit"
	default:
		return Counted(o.Fits, "mark", "marks") + " would fit, each alone"
	}
}

// coincidenceText says how often chance alone would be explained so, as it was
// measured on the sheet; nothing where nothing is explained.
func coincidenceText(o *answers.Official) string {
	if len(o.Explanations) == 0 {
		return ""
	}
	var shares []string
	would, often := "would explain ", true
	for _, c := range o.Chances {
		if contradicted(o, c.Kind) || againstSum(o, c.Kind) {
			continue
		}
		shares = append(shares, classSaid(o, c.Kind)+" "+would+shareOfTotals(c.Share.Float64()))
		would, often = "", often && c.Share.Float64() >= oftenFits
	}
	text := ""
	if o.Coarse {
		text = "Printed too coarsely to tell; chance alone often fits. "
	}
	if len(shares) == 0 {
		return text
	}
	text += "By chance alone " + ListInWords(shares) + " of the wrong totals that are this near: "
	switch {
	case !often:
		return text + "the rarer, the better the clue. "
	case len(shares) == 1:
		return text + "a weak clue. "
	default:
		return text + "weak clues. "
	}
}

// classSaid is a kind of explanations as what would be found; where all that do so are of
// the penalties, not a rule.
func classSaid(o *answers.Official, kind string) string {
	isRule := func(e answers.Explanation) bool { return e.Kind == kind && e.Deducted == "" }
	if kind == answers.ExplainedByRules && !slices.ContainsFunc(o.Explanations, isRule) {
		return "a rule or a penalty counted otherwise"
	}
	return classesSaid[kind]
}

// classesSaid are the kinds of explanations as what would be found.
var classesSaid = map[string]string{
	answers.ExplainedByPenalty: "a penalty",
	answers.ExplainedByRules:   "another rule",
	answers.ExplainedByZero:    "a confirmed zero",
	answers.ExplainedByTotal:   "a mistyped total",
	answers.ExplainedByMark:    "a single misread mark",
	answers.ExplainedByJudge:   "a sheet left out",
	answers.ExplainedByFigure:  "a figure left out",
	answers.ExplainedByK:       "another K",
	answers.ExplainedBySwapK:   "two K swapped",
	answers.ExplainedByRows:    "swapped rows",
	answers.ExplainedByMarks:   "two misread marks",
}

// shareOfTotals is a share as "about one in 50", "about seven in ten" or "nearly all".
func shareOfTotals(share float64) string {
	switch {
	case share >= 0.95:
		return "nearly all"
	case share >= 0.35:
		return "about " + NumberWord(int(math.Round(10*share))) + " in ten"
	default:
		return ChanceWords(share, "one")
	}
}
