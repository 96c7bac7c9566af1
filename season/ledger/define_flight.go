package ledger

import (
	"slices"
	"strconv"
	"strings"

	"boxbook/scoring"
	"boxbook/season"
)

// flightReader reads one flight block.
type flightReader struct {
	*reader
	b      *block
	fl     *season.Flight
	lines  []bodyLine
	head   token // the block's keyword, where missing things are reported
	before int   // errors before the block was read: what hangs on one of its own is not said
	panel  *panelLine
	rows   []season.Row // by figure
	// lost says that sequence, contest or panel could not be told and that this
	// was reported: what leans on them is not checked.
	lostSequence, lostPanel bool
	lostCategory            bool
	// strayKeys says that a line was not understood: what seems to be missing may
	// be what it was meant to be.
	strayKeys bool
}

// flight reads `flight DATE PILOT PROGRAMME [N]`.
func (r *reader) flight(b *block) {
	if b.run != nil {
		r.plainFlights(b)
		return
	}
	fr := &flightReader{
		reader: r, b: b, fl: &season.Flight{At: place(b.f, b.head), Label: 1}, head: b.headToken(0), before: r.errors,
	}
	ok := fr.header()
	if !ok && fr.b.says(string(season.Practice)) {
		fr.fl.Programme = season.Practice // rows may repeat, whatever else is wrong
	}
	keys := r.errors
	r.room.enter(len(b.body))
	defer r.room.leave()
	fr.lines = r.body(b)
	fr.strayKeys = r.errors > keys || b.torn
	fr.setup()
	fr.loseStrays()
	fr.marks()
	fr.facts()
	r.broken[fr.fl] = fr.faulty()
	if !ok {
		fr.excuseName()
		return
	}
	fr.finish()
	fr.enter()
}

func (fr *flightReader) header() bool {
	w := fr.reader.header(fr.b)
	date, dated, ok := w.date()
	if !ok && !w.badDay(dated) {
		return false
	}
	fr.fl.Date = date
	pilot, _, ok := find(w, fr.names.pilots, "a pilot")
	if !ok {
		return false
	}
	fr.fl.Pilot = pilot
	word, _, ok := w.choice("a programme", programmeWords(true))
	if !ok {
		return false
	}
	fr.fl.Programme = season.Programme(word)
	if w.peek() != "" {
		if fr.fl.Label, _, ok = w.integer("a number to tell flights of one day apart", 1, mostLabel); !ok {
			return false
		}
	}
	w.end()
	return !w.failed
}

// mostLabel is the highest number that tells flights of a day apart.
const mostLabel = 1000

// excuseName silences complaints about the name that a header with an error
// would have given the flight.
func (fr *flightReader) excuseName() {
	l := fr.b.f.lines[fr.b.head]
	var parts []string
	for _, tok := range fr.b.f.tokens[l.first+1 : l.last] {
		if !tok.quoted {
			parts = append(parts, fr.b.f.word(tok))
		}
	}
	if l.broken {
		parts = plainWords(fr.b.f.text[l.start:l.end])[1:]
	}
	fr.excuseFlight(parts)
}

// flightName is DATE/PILOT/PROGRAMME, with the label where it is not 1.
func flightName(date season.Date, pilot, programme string, label int) string {
	name := date.String() + "/" + pilot + "/" + programme
	if label != 1 {
		name += "/" + strconv.Itoa(label)
	}
	return name
}

// enter gives the flight its name.
func (fr *flightReader) enter() {
	fl := fr.fl
	fl.Name = flightName(fl.Date, fl.Pilot.Handle, string(fl.Programme), fl.Label)
	old := fr.names.flights.add(fl)
	if old != nil {
		fr.at(fr.b.f, fr.b.headToken(1), flightTwice, fl.Name, placeText(old.At)).
			hinted(messages[flightTwice].hint, "flight "+strings.ReplaceAll(fr.freeName(), "/", " "))
	}
}

// freeName is the flight's name with the first number, from 2, that no flight
// has yet.
func (fr *flightReader) freeName() string {
	for label := 2; ; label++ {
		like := season.Flight{Date: fr.fl.Date, Pilot: fr.fl.Pilot, Programme: fr.fl.Programme, Label: label}
		if fr.names.flights.like(&like) == nil {
			return flightName(like.Date, like.Pilot.Handle, string(like.Programme), label)
		}
	}
}

// setup reads what marks are read against.
func (fr *flightReader) setup() {
	fl := fr.fl
	for _, line := range fr.lines {
		switch line.name() {
		case "contest":
			var ok bool
			fl.Contest, _, ok = find(line.words, fr.names.contests, "a contest")
			fr.lostPanel = fr.lostPanel || !ok
			line.end()
		case "sequence":
			var ok bool
			fl.Sequence, _, ok = find(line.words, fr.names.sequences, "a sequence")
			fr.lostSequence = !ok || fr.broken[fl.Sequence]
			line.end()
		case "category":
			fl.Category = line.categoryName()
			fr.lostCategory = fl.Category == ""
			line.end()
		case "aircraft":
			fl.Aircraft = line.free()
		case "rules":
			if node, _, ok := find(line.words, fr.names.styles, "a rule style"); ok {
				fl.Style = node.style
			}
			line.end()
		case "ladder":
			fl.Ladder, _, _ = find(line.words, fr.names.ladders, "a ladder")
			line.end()
		case "panel":
			p := line.panel()
			fr.panel, fr.lostPanel = &p, p.bad
		}
	}
	fr.inherit()
}

// loseStrays takes for lost what a line that was not understood may have said.
func (fr *flightReader) loseStrays() {
	if fr.b.torn {
		fr.lostSequence, fr.lostPanel, fr.lostCategory = true, true, true
	}
	for _, word := range fr.b.strays {
		switch Nearest(word, blockSpecs[fr.b.kind].keys) {
		case "contest", "panel":
			fr.lostPanel = true
		case "sequence":
			fr.lostSequence = true
		case "category":
			fr.lostCategory = true
		case "":
			fr.lostSequence = fr.lostSequence || fr.fl.Sequence == nil
			fr.lostPanel = fr.lostPanel || len(fr.fl.Panel) == 0
			fr.lostCategory = fr.lostCategory || fr.fl.Category == ""
		}
	}
}

// inherit takes from contest, sequence and pilot what the flight does not say.
func (fr *flightReader) inherit() {
	fl := fr.fl
	if c := fl.Contest; c != nil {
		if fr.panel == nil {
			fr.panel = fr.panels[c]
			fr.lostPanel = fr.lostPanel || (fr.panel != nil && fr.panel.bad)
		}
		if fl.Style == nil {
			fl.Style = c.Style
		}
		if fl.Ladder == nil {
			fl.Ladder = c.Ladder
		}
	} else if fr.panel != nil && !fr.panel.bad {
		fr.lostPanel = false
	}
	if fr.panel != nil {
		fl.Panel, fl.Missing = fr.panel.judges, fr.panel.missing
	}
	if fl.Style == nil {
		fl.StyleDefault = true
		if e := fr.names.styles.items[season.DefaultStyle]; e != nil {
			fl.Style = e.value.style
		}
	}
	if fl.Sequence != nil && fl.Category == "" {
		fl.Category = fl.Sequence.Category
	}
	if fl.Aircraft == "" && fl.Pilot != nil {
		fl.Aircraft = fl.Pilot.Aircraft
	}
	if fl.Ladder == nil {
		fl.Ladder = fr.firstLadder(fl.Category)
	}
}

// firstLadder is the first ladder that has a category, the shipped ones before
// a ledger's own.
func (r *reader) firstLadder(category string) *season.Ladder {
	for _, name := range r.names.ladders.order {
		ladder := r.names.ladders.items[name].value
		if _, ok := ladder.Category(category); ok {
			return ladder
		}
	}
	return nil
}

// faulty reports whether an error was reported in the flight's block.
func (fr *flightReader) faulty() bool { return fr.errors > fr.before || fr.b.unread() }

// finish checks the flight as a whole.
func (fr *flightReader) finish() {
	fl := fr.fl
	dateTok, programmeTok := fr.b.headToken(1), fr.b.headToken(3)
	if s := fl.Sequence; s != nil && s.Programme != "" && s.Programme != fl.Programme && fl.Programme != season.Practice {
		fr.at(fr.b.f, programmeTok, otherProgramme, fl.Programme, s.Handle, s.Programme)
	}
	if c := fl.Contest; c != nil && !fr.broken[c] && (fl.Date < c.First || fl.Date > c.Last) {
		fr.at(fr.b.f, dateTok, outsideContest, fl.Date, c.Handle, spanText(c))
	}
	fr.notAhead(fr.b.f, dateTok, fl.Date)
	if fl.Category == "" && !fr.lostSequence && !fr.lostCategory && !fr.saysNothing() {
		fr.at(fr.b.f, fr.head, noCategory)
	}
	if fr.faulty() {
		return
	}
	if !fr.strayKeys && fr.saysNothing() {
		fr.at(fr.b.f, fr.head, emptyFlight)
	}
	if o := fl.Official; o != nil && o.Maximum == nil && fl.Void == nil && fl.Programme != season.Practice && !fr.lostSequence {
		line, _ := fr.lineNamed("official")
		fr.at(line.f, line.key, noMaximum, o.Points)
	}
	if fr.fl.Style == nil || fr.lostPanel || fr.lostSequence {
		return // what the marks come to cannot be told
	}
	fr.checkRulings()
	fr.checkField()
	fr.checkMaximum()
	fr.checkPercent()
	fr.checkAlike()
}

// spanText is a contest's days as typed.
func spanText(c *season.Contest) string {
	if c.Last == c.First {
		return c.First.String()
	}
	return c.First.String() + ".." + c.Last.String()
}

// saysNothing reports a flight without anything that happened.
func (fr *flightReader) saysNothing() bool {
	says := []string{"positioning", "harmony", "sheet", "official", "place", "fault", "reviewed", "void", "video", "note"}
	return !slices.ContainsFunc(fr.lines, func(l bodyLine) bool { return l.num >= 0 || slices.Contains(says, l.name()) })
}

// checkRulings warns of a ruling where the rule style decides by itself.
func (fr *flightReader) checkRulings() {
	for _, line := range fr.lines {
		if line.name() != "resolve" {
			continue
		}
		i := slices.IndexFunc(fr.fl.Rulings, func(ru season.Ruling) bool { return ru.At == line.f.number(line.line)-1 })
		if i < 0 {
			continue
		}
		ruling := fr.fl.Rulings[i]
		marks := fr.fl.MarksOf(ruling.Line, ruling.Figure)
		undecided := marks != nil && scoring.Open(marks, fr.fl.Style.Style)
		switch {
		case !undecided:
			fr.at(line.f, line.key, resolveIdle, ruling.Name())
		case ruling.Decision == scoring.RuledFill && !scoring.HasNumber(marks, fr.fl.Style.Style):
			fr.at(line.f, line.nth(2), resolveNoFill, ruling.Name())
		}
	}
}

// leastAlike is how many lines two sheets must have to be no chance where they
// are equal in all marks.
const leastAlike = 5

// checkAlike warns of two sheets of one flight that are equal in all marks: one of
// them was typed twice.
func (fr *flightReader) checkAlike() {
	if fr.fl.Rows.Len() < leastAlike || fr.fl.Programme == season.Practice {
		return
	}
	for j := range fr.fl.Panel {
		for i := range j {
			if fr.alike(i, j) {
				at := fr.sheetOf(j)
				fr.at(fr.b.f, at, sheetsAlike, fr.fl.Panel[i], fr.fl.Panel[j])
				return
			}
		}
	}
}

// alike reports whether two judges gave the same marks on every line.
func (fr *flightReader) alike(i, j int) bool {
	same := func(row *season.Row) bool {
		return row == nil || max(i, j) < len(row.Marks) && row.Marks[i] == row.Marks[j]
	}
	for _, row := range fr.fl.Rows.All() {
		if len(row.Marks) == 0 || !same(&row) {
			return false
		}
	}
	return same(fr.fl.Positioning) && same(fr.fl.Harmony)
}

// sheetOf is where a judge's sheet begins: its line, or the flight where the marks
// are given by figure.
func (fr *flightReader) sheetOf(judge int) token {
	for _, line := range fr.lines {
		if line.name() == "sheet" && line.text(line.nth(1)) == fr.fl.Panel[judge] {
			return line.nth(1)
		}
	}
	return fr.head
}
