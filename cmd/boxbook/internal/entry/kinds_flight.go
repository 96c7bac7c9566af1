package entry

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"boxbook/scoring"
	"boxbook/season"
)

// none is the answer that a question does not apply.
const none = "-"

const flightLong = `Add a flight. At a terminal it asks for date, pilot, contest, programme,
sequence and panel, proposes what the ledger has, and adds what it lacks on the
way; then it takes the marks, by figure or by sheet as on paper, one row at a
time, such as "8 7.5 hz 8 8", or "8 75 hz 8 8" for the same. A wrong answer is
refused at once; "back" returns to the answer before, "back 3" to that row,
"insert 3" makes room for a row that was left out, "?" explains. It ends with
the score and asks before it writes. Ctrl-C loses nothing: the draft is offered
next time. By flags, --programme is that of --sequence if omitted.`

func flightKind() Kind {
	return Kind{
		Name: "flight", Short: "add a contest flight from its score sheets", Long: flightLong, Walks: true,
		Fields: flightFields(), Conflict: oneWayOfMarks, Write: writeFlight,
	}
}

const practiceLong = `Add a practice flight. It asks as for a contest flight, without a contest; a
figure that was not flown is skipped (Enter), and one that was flown several
times has its marks one after the other, with a slash between them: "7.5 / 8.0".`

// practiceKind is a flight without a contest, graded by a coach or not at all.
func practiceKind() Kind {
	k := flightKind()
	k.Name, k.Short = "practice", "add a practice flight"
	k.Fixed = Answers{"programme": {string(season.Practice)}}
	k.Fields = slices.DeleteFunc(k.Fields, func(f Field) bool { return f.Name == "contest" || f.Name == "programme" })
	k.Long = practiceLong
	k.field("panel").NeededIf, k.field("panel").Help = givenMarks, "none where nobody graded it"
	note := k.field("note")
	note.NeededIf, note.Intro = onlyFlown, onlyFlownSaid
	for _, name := range append([]string{"penalty"}, officialLines...) {
		k.field(name).FlagOnly = true // a contest's
	}
	row := k.field("row")
	row.Example, row.Help = "8 hz"+AnotherTime+"7.5 8", "flown several times: 7.5"+AnotherTime+"8.0; "+row.Help
	return k
}

// AnotherTime stands between the marks of a figure that was flown several times
// in a practice flight.
const AnotherTime = " / "

// timesFlown are the rows of one answer: one, or in practice as many as the
// figure was flown.
func (s Scene) timesFlown(row string) []string {
	if s.One("programme") != string(season.Practice) {
		return []string{row}
	}
	return strings.Split(row, strings.TrimSpace(AnotherTime))
}

// givenMarks reports whether flags gave marks, which need judges.
func givenMarks(s Scene) bool { return len(s.Given["row"])+len(s.Given["sheet"]) > 0 }

// onlyFlown reports whether nothing so far says more of a practice flight than that it was flown.
func onlyFlown(s Scene) bool {
	return !slices.ContainsFunc([]string{"row", "sheet", "video", "official", "place"}, s.Has)
}

func onlyFlownSaid(s Scene) string {
	if !onlyFlown(s) {
		return ""
	}
	return "  without marks and video, a note says what was flown"
}

func oneWayOfMarks(given Answers) string {
	if len(given["row"]) > 0 && len(given["sheet"]) > 0 {
		return "--row and --sheet are two ways to give the same marks: use one"
	}
	return ""
}

func flightFields() []Field {
	pilot := pilotField()
	pilot.Adds, pilot.Sure, pilot.Only = "pilot", true, onlyFlyer
	contest := contestField("the contest")
	contest.Optional, contest.Adds, contest.Default = true, "contest", contestOfTheDay
	return slices.Concat([]Field{
		dateField(), pilot, contest,
		{
			Name: "programme", Asks: "the programme", Example: "known", Propose: Programmes,
			Default: programmeOfSequence, Implied: impliedProgramme, ImpliedBy: "sequence",
		},
		{
			Name: "number", Asks: "a number, to tell flights of one day apart", Example: "2", Optional: true, New: true,
			When: nameTaken, NeededIf: nameTaken, Intro: numberSaid, Free: freeNumber,
		},
		{
			Name: "sequence", Asks: "the sequence", Example: "known-26", Optional: true, Adds: "sequence",
			Propose: latest(Sequences), First: ofProgramme, Default: onlySequence,
		},
		{
			Name: "category", Asks: "the flight's category", Example: "intermediate", Optional: true, Help: "where the sequence does not say it",
			Propose: Categories, When: func(s Scene) bool { return s.sequence() == nil },
		},
		{
			Name: "aircraft", Asks: "the aircraft", Example: "single-seat biplane, 180 hp", Shape: Text, Optional: true, None: "the pilot's own",
			Help: "the pilot's own if omitted; at a terminal asked for where the last flight was in another", When: flewAnother, Default: lastAircraft,
		},
		{
			Name: "panel", Asks: "the judges, in the order of the marks", Example: "A B", Shape: Words, List: true,
			Help: "the contest's panel if omitted, at a question that of its last flight; behind `missing` those whose sheets are not to hand",
			When: hasSequence, Default: latestPanel, Under: contestPanel, Optional: true, NeededIf: hasSequence, Intro: latestPanelSaid, Never: numberedJudges,
			Doubt: func(s Scene, panel string) string {
				return cmp.Or(notJudges(s, panel), nearlyJudges(s, panel), otherNumber(s, panel))
			},
		},
	}, marksFields(), resultFields())
}

// marksTyped says in short what may be typed for a mark.
const marksTyped = "marks: 7.5 or 75, HZ, CHZ, PZ, AV not seen, - none"

// marksFields are the two ways in which the paper lies.
func marksFields() []Field {
	return []Field{
		{
			Name: "layout", Asks: "marks by figure or by sheet", NoFlag: true,
			Propose: func(*season.Ledger) []string { return []string{"figure", "sheet"} },
			Default: func(Scene) string { return "figure" },
			When:    func(s Scene) bool { return isGraded(s) && !givenMarks(s) },
		},
		{
			Name: "row", Asks: "a figure's marks, in order, positioning and harmony last", Example: "8 hz", Shape: Words, Repeat: true,
			Lines: rowLines, Read: withTenths, Quotes: true, Intro: func(s Scene) string { return "judges: " + strings.Join(s.judges(), " ") + "; " + marksTyped },
			Help: "a mark a judge: 8, 7.5 or 75, hz, pz, av, or - for nothing on the sheet; boxbook help marks",
			When: func(s Scene) bool {
				return isGraded(s) && len(s.Given["sheet"]) == 0 && (len(s.Given["row"]) > 0 || s.One("layout") != "sheet")
			},
		},
		{
			Name: "sheet", Asks: "a judge and the marks of the sheet", Example: "A 8 7.5", Shape: Words, Repeat: true,
			Lines: sheetLines, Keyed: true, Under: func(s Scene) string { return sequenceText(s.sequence()) }, Read: withTenths, Quotes: true,
			Intro: func(Scene) string { return marksTyped },
			Help:  "a mark a line of the sequence: 8, 7.5 or 75, hz, pz, av, or - for nothing on the sheet; boxbook help marks",
			When: func(s Scene) bool {
				return isGraded(s) && (len(s.Given["sheet"]) > 0 || s.One("layout") == "sheet")
			},
		},
	}
}

// resultFields are what stands beneath the marks.
func resultFields() []Field {
	return []Field{
		penaltyField(),
		{
			Name: rulingField, Asks: "a ruling of the chief judge", Example: "1 zero", Shape: Words, Quotes: true, Optional: true, Repeat: true,
			Help: "a figure's number, then zero or fill, where half the judges gave a hard zero", When: hasHalfZero, Intro: undecidedSaid, Shown: rulingShown,
			Under: func(s Scene) string { return strings.Join(halfZeros(s), "\n") }, Leans: "the marks have",
		},
		{
			Name: "official", Asks: "the official total, as printed", Example: "540.49 of 800", Others: []string{"54.05 of 100"}, Shape: Words, Quotes: true, Optional: true, Read: officialOf,
			Help: "points: the total alone, or followed by `of` and the maximum; the place is a question of its own",
		},
		{
			Name: "judge-totals", Asks: "the judges' totals, as printed (typed or counted)", Example: "596.0 568.17", Shape: Words, Optional: true,
			Help:  "in the panel's order, penalties not yet deducted; either will do: the sum of the judge's marks as typed, or as counted, averages filled in and zeroed figures 0",
			Under: func(s Scene) string { return joined(s.judges()...) }, Slip: notTheirs, Free: aTotalEach,
			When: func(s Scene) bool { return hasSequence(s) && s.Has("official") },
		},
		{Name: "place", Asks: "the place", Example: "3 of 9", Shape: Words, Optional: true, Read: placeOf, Doubt: notAPlace},
		{
			Name: "field", Asks: "the field's totals", Example: "612.25 577.00 540.49", Shape: Words, Optional: true,
			Help: "all pilots' totals if to hand, else some",
		},
		videoField(),
		noteField(),
	}
}

func penaltyField() Field {
	return Field{
		Name: "penalty", Asks: "a penalty", Example: "low 20", Shape: Words, Quotes: true, Optional: true, Repeat: true,
		Help: "low, interruption, out, time or other, and its points",
	}
}

func noteField() Field {
	return Field{Name: "note", Asks: "a note", Example: "18 kt across the box", Shape: Text, Optional: true, Repeat: true}
}

// fewestPoints is more than any field has pilots, and less than any flight's maximum.
const fewestPoints = 50

// officialOf refuses a place, such as 2 of 4, where points are meant.
func officialOf(text string) (answer, problem string) {
	words := strings.Fields(text)
	if len(words) == 3 && words[1] == "of" {
		rank, errRank := strconv.Atoi(words[0])
		of, errOf := strconv.Atoi(words[2])
		if errRank == nil && errOf == nil && rank <= of && of <= fewestPoints {
			return "", fmt.Sprintf("%s is a place, which is a question of its own; here the points are meant, such as 540.49 of 800", text)
		}
	}
	return text, ""
}

// lastFlight is the pilot's latest flight, nil where there is none.
func lastFlight(s Scene) *season.Flight {
	pilot := s.Ledger.PilotNamed(s.One("pilot"))
	if pilot == nil {
		return nil
	}
	flights := s.Ledger.Select(season.Selection{Pilot: pilot})
	if len(flights) == 0 {
		return nil
	}
	return flights[len(flights)-1]
}

// lastAircraft is what the pilot's latest flight was in, "" where there is none.
func lastAircraft(s Scene) string {
	if last := lastFlight(s); last != nil {
		return last.Aircraft
	}
	return ""
}

// flewAnother reports whether the pilot's latest flight was in another aircraft than the
// pilot's own.
func flewAnother(s Scene) bool {
	last := lastAircraft(s)
	return last != "" && last != s.Ledger.PilotNamed(s.One("pilot")).Aircraft
}

// withTenths takes marks as tired fingers type them: 75 for 7.5, 05 for 0.5.
func withTenths(text string) (answer, problem string) {
	marks, remark := text, ""
	if at := strings.IndexByte(text, '"'); at >= 0 {
		marks, remark = text[:at], text[at:]
	}
	words := withoutCommas(strings.Fields(strings.ReplaceAll(marks, "/", AnotherTime)))
	if problem = pointInDoubt(words); problem != "" {
		return "", problem
	}
	for i, word := range words {
		if grade, ok := scoring.WithoutPoint(word); ok {
			words[i] = strings.TrimSuffix(grade.String(), ".0")
		}
	}
	return joined(append(words, remark)...), ""
}

// withoutCommas takes "8, 7.5, hz" for "8 7.5 hz", where each mark but the last has its
// comma. Two words may be one mark, 7, 5 for 7.5: of those the ledger's reader asks.
func withoutCommas(words []string) []string {
	const fewest = 3
	if last := len(words) - 1; len(words) < fewest || slices.ContainsFunc(words[:last], func(word string) bool {
		return !strings.HasSuffix(word, ",") && word != "/"
	}) {
		return words
	}
	for i := range words {
		words[i] = strings.TrimSuffix(words[i], ",")
	}
	return words
}

// placeGlued is a place with "of" and no space before or behind it: 4of10, 4of 10, 4/10.
var placeGlued = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^([0-9]+) *(?:/|[oO][fF]) *([0-9]+)$`) })

// placeOf takes "3/9" and "3of9" for "3 of 9".
func placeOf(text string) (answer, problem string) {
	return placeGlued().ReplaceAllString(strings.Join(strings.Fields(text), " "), "$1 of $2"), ""
}

// without is the scene as if a field had no answer.
func (s Scene) without(name string) Answers {
	left := Answers{}
	for key, values := range s.Answers {
		if key != name {
			left[key] = values
		}
	}
	return left
}

func (s Scene) sequence() *season.Sequence { return s.Ledger.SequenceNamed(s.One("sequence")) }

// programmeOfSequence is the programme of a sequence that is named already.
func programmeOfSequence(s Scene) string {
	if q := s.sequence(); q != nil {
		return string(q.Programme)
	}
	return ""
}

// impliedProgramme is that of the sequence. Of one that the ledger does not know
// it is any: the ledger then complains of the sequence.
func impliedProgramme(s Scene) string {
	if !hasSequence(s) {
		return string(season.Known)
	}
	return programmeOfSequence(s)
}

func hasSequence(s Scene) bool { return s.sequence() != nil }

// isGraded reports whether there are figures, and judges to give marks for them.
func isGraded(s Scene) bool { return hasSequence(s) && len(s.judges()) > 0 }

// contestOfTheDay is the latest contest that the flight's date falls into.
func contestOfTheDay(s Scene) string {
	date, _ := season.ParseDate(s.One("date"))
	for _, contest := range slices.Backward(s.Ledger.Contests) {
		if date >= contest.First && date <= contest.Last {
			return contest.Handle
		}
	}
	return ""
}

// onlySequence is the one sequence of the flight's programme, "" where there
// are more.
func onlySequence(s Scene) string {
	fitting := ""
	for _, q := range s.Ledger.Sequences {
		if programme := s.One("programme"); string(q.Programme) != programme && programme != string(season.Practice) {
			continue
		}
		if fitting != "" {
			return ""
		}
		fitting = q.Handle
	}
	return fitting
}

// ofProgramme reports whether a sequence is of the programme that is flown.
func ofProgramme(s Scene, sequence string) bool {
	q := s.Ledger.SequenceNamed(sequence)
	return q != nil && string(q.Programme) == s.One("programme")
}

func contestPanel(s Scene) string {
	if c := s.Ledger.ContestNamed(s.One("contest")); c != nil {
		return strings.Join(c.Panel, " ")
	}
	return ""
}

// latestPanel is the panel to propose: that of the contest's last flight,
// since a slip in the contest's own is mended there first; else the contest's.
func latestPanel(s Scene) string {
	if f := s.otherPanel(); f != nil {
		return PanelOf(f)
	}
	return contestPanel(s)
}

// latestPanelSaid says whose panel is proposed, where it is not the contest's.
func latestPanelSaid(s Scene) string {
	f := s.otherPanel()
	if f == nil {
		return ""
	}
	return fmt.Sprintf("  proposed is the panel of %s; the contest has %s", f.Name, cmp.Or(contestPanel(s), "none"))
}

// otherPanel is the contest's last flight, where it had a panel other
// than the contest's; nil where it had not. A sheet that is missing makes none.
func (s Scene) otherPanel() *season.Flight {
	c := s.Ledger.ContestNamed(s.One("contest"))
	if c == nil {
		return nil
	}
	for _, f := range slices.Backward(s.Ledger.Flights) {
		switch {
		case f.Contest != c || len(f.Panel) == 0:
			continue
		case len(f.Missing) > 0 && sameJudges(c.Panel, slices.Concat(f.Panel, f.Missing)), slices.Equal(c.Panel, f.Panel):
			return nil
		default:
			return f
		}
	}
	return nil
}

// sameJudges reports whether two panels have the same judges, in whatever order.
func sameJudges(one, other []string) bool {
	return slices.Equal(slices.Sorted(slices.Values(one)), slices.Sorted(slices.Values(other)))
}

// PanelOf is a flight's panel as it is typed.
func PanelOf(f *season.Flight) string {
	judges := f.Panel
	if len(f.Missing) > 0 {
		judges = slices.Concat(f.Panel, []string{missingJudges}, f.Missing)
	}
	return strings.Join(judges, " ")
}

// missingJudges stands in a panel before those whose sheets are not to hand.
const missingJudges = "missing"

// judges are those of the panel whose sheets are to hand.
func (s Scene) judges() []string {
	before, _, _ := strings.Cut(" "+s.One("panel")+" ", " "+missingJudges+" ")
	return strings.Fields(before)
}

// FlightName is a flight's name in the ledger.
func FlightName(v Answers) string {
	name := v.One("date") + "/" + v.One("pilot") + "/" + v.One("programme")
	if label := v.One("number"); label != "" && label != "1" {
		name += "/" + label
	}
	return name
}

// taken reports whether the ledger has a flight of exactly that name.
func taken(l *season.Ledger, name string) bool {
	return slices.ContainsFunc(l.Flights, func(f *season.Flight) bool { return f.Name == name })
}

func nameTaken(s Scene) bool { return taken(s.Ledger, FlightName(s.without("number"))) }

// numberSaid says that a flight of the name is there. Enter takes no number: it would
// write the same flight a second time where it was forgotten that it is there.
func numberSaid(s Scene) string {
	return fmt.Sprintf("  %s is there already; %s makes this another flight of that day", FlightName(s.without("number")), freeNumber(s))
}

// freeNumber is the first number, from 2, that no flight of the name has.
func freeNumber(s Scene) string {
	for n := 2; ; n++ {
		if name := fmt.Sprintf("%s/%d", FlightName(s.without("number")), n); !taken(s.Ledger, name) {
			return fmt.Sprint(n)
		}
	}
}

// AsAnother gives a flight's answers as another flight of its day, and its number.
func AsAnother(l *season.Ledger, v Answers) (other Answers, number string) {
	s := Scene{Answers: v, Ledger: l}
	number = freeNumber(s)
	other = s.without("number")
	other["number"] = []string{number}
	return other, number
}

func writeFlight(s Scene) (Addition, error) {
	seq := s.sequence()
	if seq == nil && len(s.Answers["row"]) > 0 {
		return Addition{}, s.host.Unknown("sequence", s.One("sequence"), Sequences(s.Ledger))
	}
	add := Addition{Block: FlightBlock(s.Ledger, s.Answers), Said: "flight " + FlightName(s.Answers)}
	if len(s.Answers["row"])+len(s.Answers["sheet"]) > 0 { // the marks stand in the score
		add.Brief = FlightBlock(s.Ledger, Scene{Answers: s.without("row")}.without("sheet"))
	}
	return add, nil
}

// FlightBlock writes a flight in the ledger language. Its sequence says which
// line each row belongs to; rows beyond its lines are written as further
// figures, for the check to refuse. The contest's own panel is not typed again.
func FlightBlock(l *season.Ledger, v Answers) string {
	s := Scene{Answers: v, Ledger: l}
	label := s.One("number")
	if label == "1" {
		label = ""
	}
	var t blockText
	t.line("flight", s.One("date"), s.One("pilot"), s.One("programme"), label)
	t.body("contest", s.One("contest")).body("sequence", s.One("sequence")).body("category", s.One("category"))
	t.body("aircraft", quoted(s.One("aircraft")))
	if panel := strings.Join(strings.Fields(s.One("panel")), " "); panel != contestPanel(s) {
		t.body("panel", panel)
	}
	keys := rowKeys(s.sequence())
	s.Answers = s.asRows(keys)
	for i, row := range s.Answers["row"] {
		key := fmt.Sprint(i + 1)
		if i < len(keys) {
			key = keys[i]
		}
		for _, marks := range s.timesFlown(row) {
			if !s.notGraded(marks) {
				t.body(key, strings.TrimSpace(marks)) // none for a figure that was not flown, in practice
			}
		}
	}
	t.each("sheet", s.Answers["sheet"]).each("penalty", s.Answers["penalty"]).each("resolve", s.Answers["resolve"])
	for _, key := range []string{"official", "judge-totals", "place", "field"} {
		t.body(key, s.One(key))
	}
	t.each("video", allQuoted(s.Answers["video"]))
	return t.each("note", allQuoted(s.Answers["note"])).tidied()
}
