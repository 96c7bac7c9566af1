package words

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/season/analysis/code"
)

// HomeTitle is whose home page it is, and in which category the pilot flies.
func HomeTitle(d answers.Home) string {
	if d.Category == "" {
		return d.Name
	}
	return d.Name + ", " + d.Category
}

// SayHome fills the sentences of an answer: what the gates lack, and what to look
// at next.
func SayHome(d answers.Home) answers.Home {
	if d.Step != nil {
		step := *d.Step
		said := SayReady(answers.Ready{Pilot: d.Pilot, Name: d.Name, From: step.From, To: step.To, Gates: step.Gates})
		step.Gates = said.Gates
		d.Step, d.Caution = &step, HomeCaution
	}
	d.Next, d.NextWhy = homeNext(d)
	return d
}

// homeNext is the one command to look at next, and what it shows: what is open
// before any score, a score in doubt before what to practise.
func homeNext(d answers.Home) (command, why string) {
	switch {
	case len(d.Open) > 0:
		return "boxbook faults " + d.Pilot, "what is open, and what closes it"
	case d.Last == nil:
		return "boxbook log flight", "add a contest flight"
	case d.Last.Undecided:
		return "boxbook flight " + d.Last.Flight, "what waits for a ruling"
	case d.Last.Official == answers.OfficialDiffers:
		return "boxbook flight " + d.Last.Flight, "the official total beside the marks"
	case len(d.Last.Differs) > 0:
		return "boxbook flight " + d.Last.Differs[0].Flight, "the official total beside the marks"
	case !d.Planned && d.Last.Marked:
		return "boxbook flight " + d.Pilot, "where the points of the last flight went"
	case !d.Planned:
		return "boxbook season " + d.Pilot, "how the season goes"
	default:
		return planCommand(d.Pilot, d.PlanCategory), "where practice pays"
	}
}

// HomeLine is one line of a home page; Bad marks what cannot wait.
type HomeLine struct {
	Label, Text string
	Bad         bool
}

// The labels of a home page that are always the same.
const (
	homeOpen    = "Open matters"
	homeLast    = "Last contest"
	homeBack    = "Comes back"
	homeFlown   = "Last flown"
	homeAhead   = "Next contest"
	homeExpires = "Expires"
	homeMoney   = "Money"
	homeDraft   = "Draft"
	homeThen    = "Next"
)

// homeNamed is how many things of a kind a home page names before it counts.
const homeNamed = 2

// HomeLines are what a pilot should know first, in the order of a home page.
func HomeLines(d answers.Home) []HomeLine {
	lines := []HomeLine{{homeOpen, homeOpenWords(d), len(d.Open) > 0}, {homeLast, homeLatest(d), false}}
	for i, s := range d.Seasons {
		lines = append(lines, HomeLine{Label: Sentence(SeasonChosen(s.Season)), Text: seasonSumWords(d, s, i > 0)})
	}
	lines = append(lines, HomeLine{Label: homeBack, Text: homeBackWords(d)})
	if d.Step != nil {
		lines = append(lines, HomeLine{Label: "To " + d.Step.To, Text: stepFrom(d) + stepWords(d) + "; " + whoDecides})
	}
	if d.LastFlown != "" {
		lines = append(lines, HomeLine{Label: homeFlown, Text: homeFlownWords(d)})
	}
	lines = append(lines, HomeLine{Label: homeAhead, Text: homeAheadWords(d.Contests)})
	if len(d.Expires) > 0 {
		lines = append(lines, HomeLine{homeExpires, ExpiresWords(d.Expires), d.Expires[0].Days < 0})
	}
	lines = append(lines, HomeLine{Label: homeMoney, Text: owesWords(d)})
	if len(d.Drafts) > 0 {
		lines = append(lines, HomeLine{Label: homeDraft, Text: DraftWords(d.Drafts)})
	}
	return append(lines, HomeLine{Label: homeThen, Text: d.Next + ": " + d.NextWhy})
}

// DraftWords say which entries were begun and not written, and how each is gone on with;
// of those that were set aside the first kind is named.
func DraftWords(drafts []answers.Draft) string {
	var waiting, aside, alike []string
	for _, d := range drafts {
		switch {
		case !d.Aside:
			waiting = append(waiting, fmt.Sprintf("%s, not written, last typed %s: `boxbook log %s` goes on with it", draftSaid(d), d.Typed, d.Kind))
		case len(alike) == 0 || d.Kind == alike[0]:
			alike = append(alike, d.Kind)
			aside = []string{fmt.Sprintf("%s, set aside: `boxbook log %s` names it", draftSaid(d), d.Kind)}
		}
	}
	if n := len(alike); n > 1 {
		aside[0] = fmt.Sprintf("%s, %d set aside: `boxbook log %[1]s` names the last", alike[0], n)
	}
	named := append(waiting[:min(len(waiting), homeNamed)], aside...)
	return andMore(named, len(drafts)-min(len(waiting), homeNamed)-len(alike), "more draft", "more drafts")
}

// draftSaid is a draft's kind, and what was typed of whose it is.
func draftSaid(d answers.Draft) string {
	switch {
	case d.Flight != "":
		return d.Kind + " of " + d.Flight
	case d.Pilot != "" && d.Date != "":
		return d.Kind + " of " + d.Pilot + " on " + d.Date
	case d.Pilot+d.Date != "":
		return d.Kind + " of " + d.Pilot + d.Date
	default:
		return d.Kind
	}
}

// WarningsLine says that the ledger has warnings, such as a flight that stands in
// it twice and counts twice on every page.
func WarningsLine(warnings int) string {
	return Counted(warnings, "warning", "warnings") + " about the ledger: boxbook check"
}

func homeOpenWords(d answers.Home) string {
	said := "none noted"
	if len(d.Open) > 0 {
		said = andMore([]string{OpenMatter(d.Open[0])}, len(d.Open)-1, "more matter", "more matters")
	}
	if len(d.Waits) > 0 {
		said += fmt.Sprintf("; without a result until a ruling: `boxbook flight %s`", d.Waits[0])
		if more := len(d.Waits) - 1; more > 0 {
			said += ", " + Counted(more, "more flight", "more flights")
		}
	}
	if d.Warnings > 0 {
		said += "; " + WarningsLine(d.Warnings)
	}
	return said
}

// andMore joins what is named and counts the rest.
func andMore(named []string, more int, one, many string) string {
	text := strings.Join(named, "; ")
	if more > 0 {
		text += "; " + Counted(more, one, many)
	}
	return text
}

// homeLatest is the latest contest flight, behind the result without a flight that is
// later.
func homeLatest(d answers.Home) string {
	switch {
	case d.Last == nil && d.Result == nil:
		return "none yet"
	case d.Result == nil:
		return homeLastWords(d)
	case d.Last == nil:
		return resultAlone(*d.Result) + "; " + withoutFlight
	default:
		return resultAlone(*d.Result) + "; " + withoutFlight + "; the last contest flight: " + homeLastWords(d)
	}
}

// withoutFlight says of a result that the ledger has no flight of it.
const withoutFlight = "a result without a flight"

// resultAlone is a result of which no flight is in the ledger.
func resultAlone(r answers.LastResult) string {
	said := []string{r.Name, r.Date}
	if r.Percent.Known() {
		said = slices.Insert(said, 0, r.Percent.Text(PercentDecimals)+"%")
	}
	if r.Place > 0 {
		said = append(said, "place "+placeWords(r.Place, r.Of))
	}
	return strings.Join(said, ", ")
}

func homeLastWords(d answers.Home) string {
	f := d.Last
	said := []string{"no score"}
	switch {
	case f.Percent.Known():
		said[0] = f.Percent.Text(PercentDecimals) + "%"
	case f.Undecided:
		said[0] = "undecided until a ruling is recorded"
	}
	if f.Contest != "" {
		said = append(said, fmt.Sprintf("%s (%s)", f.Contest, f.Programme))
	} else {
		said = append(said, programmeTitle(f.Programme))
	}
	said = append(said, f.Date)
	if f.Place > 0 {
		said = append(said, "place "+placeWords(f.Place, f.Of))
	}
	parts := []string{strings.Join(said, ", ")}
	if beside := besideLast(f, meanOf(d)); beside != "" {
		parts = append(parts, beside)
	}
	parts = append(parts, officialWords(f))
	if len(f.Differs) > 0 {
		other := f.Differs[0]
		said := other.Flight + ": " + officialWords(&answers.LastFlight{OfficialBeside: other})
		parts = append(parts, andMore([]string{said}, len(f.Differs)-1, "more flight differs", "more flights differ"))
	}
	return strings.Join(parts, "; ")
}

// placeWords say "2 of 6", or "2" where it is not known of how many.
func placeWords(place, of int) string {
	if of == 0 {
		return fmt.Sprint(place)
	}
	return fmt.Sprintf("%d of %d", place, of)
}

// meanOf names the categories that the mean of the latest season is of, "" where that is the
// last flight's alone.
func meanOf(d answers.Home) string {
	if len(d.Seasons) == 0 || len(d.Seasons[0].Categories) < 2 {
		return ""
	}
	return " " + AtCategory(ListInWords(d.Seasons[0].Categories))
}

// besideLast holds the last flight against the one before and its season's mean, with the
// categories which that is of.
func besideLast(f *answers.LastFlight, of string) string {
	var said []string
	if f.Before.Known() {
		text := "the flight before " + f.Before.Text(PercentDecimals) + "%"
		if f.BeforeCategory != "" {
			text += " at " + f.BeforeCategory
		}
		said = append(said, text)
	}
	if f.SeasonMean.Known() {
		said = append(said, "season mean "+f.SeasonMean.Text(PercentDecimals)+"%"+of)
	}
	return strings.Join(said, ", ")
}

// officialWords say whether the official total is in doubt.
func officialWords(f *answers.LastFlight) string {
	if f.OfficialWhy == answers.OfficialPercent {
		return "official total may be a percent, typed as points"
	}
	switch f.Official {
	case answers.OfficialAgrees:
		switch {
		case f.OfficialWhy == answers.OfficialMaximum && isPercent(f.OfficialMaximum):
			return "official percent agrees with the marks"
		case f.OfficialWhy == answers.OfficialMaximum:
			return maximaSaid(f.OfficialMaximum, f.Maximum) + "; the percents agree"
		}
		return "official total agrees with the marks"
	case answers.OfficialDiffers:
		if f.OfficialWhy == answers.OfficialMaximum {
			return maximaDifferSaid(f.OfficialMaximum, f.Maximum)
		}
		return "official minus calculated is " + report.Signed(f.DifferenceShown, PointDecimals).String()
	case answers.OfficialUnproven:
		if !f.Percent.Known() && !f.Undecided {
			return "official total typed, without its maximum"
		}
		switch f.OfficialWhy {
		case answers.OfficialOneEnd:
			return "official total is one end of the range until a ruling is recorded"
		case answers.OfficialNeitherEnd:
			return "official total is neither end of the range until a ruling is recorded"
		}
		return "official total typed, marks missing"
	default:
		return "no official total typed"
	}
}

// othersMayDiffer stands behind the mean of an earlier season.
const othersMayDiffer = " (sequences, panels may vary)"

// seasonSumWords are a season in a line, the latest with its trend; of an earlier one
// they say that it need not be of the same sequences and panels.
func seasonSumWords(d answers.Home, s answers.SeasonSum, earlier bool) string {
	if s.Flights == 0 {
		return "no contest flight with a counted result"
	}
	text := Counted(s.Flights, "flight", "flights")
	if len(s.Categories) > 1 || len(s.Categories) == 1 && s.Categories[0] != d.Category {
		text += " at " + ListInWords(s.Categories)
	}
	text += fmt.Sprintf(", mean %s%%, best %s%%", s.Mean.Text(PercentDecimals), s.Best.Text(PercentDecimals))
	switch {
	case earlier:
		text += othersMayDiffer
	case d.Longer != nil && d.Longer.Trend.Word != answers.CannotTell && s.Season == d.Trended:
		text += "; " + longerWords(*d.Longer) + ": " + longerCommand(d.Pilot, *d.Longer)
	case d.Word != "" && d.Word != answers.TooFew && s.Season == d.Trended:
		text += "; "
		if len(s.Categories) > 1 {
			text += AtCategory(s.Categories[0]) + " "
		}
		text += formWords(d.Word, d.WordReason, d.Chance) + inAircraft(d.Aircraft)
	}
	return text
}

func homeBackWords(d answers.Home) string {
	switch {
	case len(d.Recurring) == 0 && d.Reviewed == 0:
		return fmt.Sprintf("no flight reviewed in the last %d days", d.Limits.Days)
	case len(d.Recurring) == 0 && len(d.Untold) > 0:
		k := d.Untold[0]
		return andMore([]string{"too few flights to tell: " + cmp.Or(k.Says, k.Kind) + ", " + seenSince(k)}, len(d.Untold)-1, "more", "more")
	case len(d.Recurring) == 0:
		return "nothing noted often enough to tell"
	}
	k := d.Recurring[0]
	text := cmp.Or(k.Says, k.Kind) + ", " + flightCounts(k) + sinceItsDrill(k)
	if k.Alone == answers.Anywhere {
		text += ", practice too"
	}
	none, drills, still := "no open drill", "", false
	if len(d.Drills) > 0 {
		drills, still = openDrillsWords(d, k)
		drills, none = "; "+drills, "none"
	}
	more := len(d.Without)
	this := more > 0 && d.Without[0].Kind == k.Kind && d.Without[0].Group == k.Group
	switch {
	case more == 0:
		return text + drills
	case this && more == 1:
		return text + "; no open drill for this" + othersOpen(drills)
	case still:
		return text + drills + fmt.Sprintf("; %d without", more)
	case this:
		return text + "; no open drill for this or " + Counted(more-1, "other", "others") + othersOpen(drills)
	default:
		return text + drills + "; " + none + " for " + Counted(more, "other that comes back", "others that come back")
	}
}

// othersOpen names the open drills behind something that none of them is on.
func othersOpen(drills string) string {
	for _, lead := range []string{"; open drill: ", "; drills: "} {
		drills = strings.Replace(drills, lead, "; open: ", 1)
	}
	return drills
}

// openDrillsWords name the open drills, behind one in spite of which something comes back in
// how many flights since it was set; still says that something does beside what is named.
func openDrillsWords(d answers.Home, named answers.FaultKind) (text string, still bool) {
	k := d.Drilled
	still = k != nil && (k.Kind != named.Kind || k.Group != named.Group)
	said, counted := []string{}, false
	for _, target := range d.Drills {
		drill := GroupShort(target)
		if still && target == k.Kind {
			drill += " (" + stillWords(k) + ")"
			counted = true
		}
		said = append(said, drill)
	}
	if k != nil && !still && k.DrillAgain > 0 && slices.Contains(d.Drills, k.Kind) {
		said[slices.Index(d.Drills, k.Kind)] += " (" + stillWords(k) + ")"
	}
	text = PluralWord(len(said), "open drill: ", "drills: ") + strings.Join(said, ", ")
	if still && !counted { // by the drill on its family
		text += " (" + k.Kind + " " + stillWords(k) + ")"
	}
	return text, still
}

// stillWords count what comes back in spite of its drill: what fell, by the flights in which
// it is there again.
func stillWords(k *answers.FaultKind) string {
	if k.DrillAgain > 0 {
		return "again " + InEachOfTheLast(k.DrillAgain)
	}
	return fmt.Sprintf("still %d of %d", k.Flights, k.Exposed)
}

// stepFrom says before what keeps a pilot from the next category from which one that is, ""
// where it is the one flown last.
func stepFrom(d answers.Home) string {
	if d.Step.From == d.Category {
		return ""
	}
	return "from " + d.Step.From + ", the highest flown in " + lastDays(d.Limits.Days) + ": "
}

// stepWords say what keeps a pilot from the next category: what little is missing
// in words, more by the names of the gates.
func stepWords(d answers.Home) string {
	if d.Step.Verdict == code.Ready {
		return fmt.Sprintf("ready by the ledger; `boxbook ready %s` says what a ledger cannot", d.Pilot)
	}
	var lacks, notMet, untold []string
	for _, g := range InOrder(d.Step.Gates) {
		lacks = append(lacks, g.Lacks)
		if g.State == code.NotMet {
			notMet = append(notMet, GateTitle(g.Gate))
		} else {
			untold = append(untold, GateTitle(g.Gate))
		}
	}
	if len(lacks) <= homeNamed {
		return string(d.Step.Verdict) + ": " + strings.ReplaceAll(strings.Join(lacks, "; "), noUsePractising, "")
	}
	return gateNames("not met: ", notMet, untold)
}

func homeFlownWords(d answers.Home) string {
	text := d.LastFlown + ", " + d.Programme
	if d.LastVoid {
		text += " (void)"
	}
	if d.DaysSince != nil {
		text += ", " + InDays(-*d.DaysSince)
	}
	return text
}

func homeAheadWords(contests []answers.ContestAhead) string {
	if len(contests) == 0 {
		return "none in the ledger"
	}
	c := contests[0]
	said := []string{fmt.Sprintf("%s, %s, %s", c.Name, c.Date, InDays(c.Days))}
	if entry := EntryWords(c); entry != "" {
		said = append(said, "entry by "+entry)
	}
	switch sequence := SequenceWords(c); {
	case c.Sequence != "":
		said = append(said, "latest known sequence "+sequence)
	case sequence != "":
		said = append(said, "sequence "+sequence)
	}
	return andMore(said, len(contests)-1, "more contest", "more contests")
}

// ExpiresWords say what runs out, the first ones by name.
func ExpiresWords(expires []answers.Expiry) string {
	var said []string
	for _, e := range expires[:min(homeNamed, len(expires))] {
		said = append(said, fmt.Sprintf("%s %s, %s", e.What, e.Date, InDays(e.Days)))
	}
	return andMore(said, len(expires)-len(said), "more", "more")
}

// owesWords say what the pilot owes and is owed.
func owesWords(d answers.Home) string {
	var owes, owed []string
	for _, p := range d.Owes {
		if p.From == d.Pilot {
			owes = append(owes, fmt.Sprintf("%s %s %s", PartyName(p.ToName), AmountSaid(p.Amount), p.Currency))
		} else {
			owed = append(owed, fmt.Sprintf("%s %s by %s", AmountSaid(p.Amount), p.Currency, PartyName(p.FromName)))
		}
	}
	var said []string
	if len(owes) > 0 {
		said = append(said, "owes "+commaMore(owes))
	}
	if len(owed) > 0 {
		said = append(said, "is owed "+commaMore(owed))
	}
	if len(said) == 0 {
		return "owes nothing and is owed nothing"
	}
	return strings.Join(append(said, "all: boxbook year"), "; ")
}

// commaMore names the first few and counts the rest.
func commaMore(items []string) string {
	if more := len(items) - homeNamed; more > 0 {
		items = append(items[:homeNamed:homeNamed], fmt.Sprintf("%d more", more))
	}
	return strings.Join(items, ", ")
}
