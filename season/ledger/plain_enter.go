package ledger

import (
	"slices"
	"strings"

	"boxbook/scoring"
	"boxbook/season"
)

// enterPlain looks up the names of all plain flights and makes the flights, side by
// side: what flights lean on is known by then, and nothing of it changes. Whether
// there is more to say of a flight stands in its piece's clean.
func (r *reader) enterPlain() {
	type work struct {
		f     *file
		piece *plainPiece
	}
	var todo []work
	bytes := 0
	for _, b := range r.blocks[flightWord] {
		if b.run != nil && (len(todo) == 0 || todo[len(todo)-1].piece != b.run.piece) {
			todo = append(todo, work{b.f, b.run.piece})
			bytes += b.run.piece.to - b.run.piece.from
		}
	}
	most := len(r.blocks[flightWord])
	for _, w := range todo {
		most += len(w.piece.flights)
	}
	pilots := r.names.pilots.list()
	r.names.flights.begin(pilots, most)
	season.Workers(r.workers(bytes), len(todo), func(i int) {
		e := plainEntry{
			r: r, f: todo[i].f, text: todo[i].f.text, piece: todo[i].piece,
			pilots: r.names.flights.pilots, contests: map[string]*plainContest{}, sequences: map[string]*plainSequence{}, panels: map[string][]string{},
		}
		e.enter()
	})
}

// plainEntry enters the flights of a piece.
type plainEntry struct {
	r         *reader
	f         *file
	text      string
	piece     *plainPiece
	pilots    map[*season.Pilot]int
	contests  map[string]*plainContest
	sequences map[string]*plainSequence
	panels    map[string][]string // of flights, by their words
	facts     plainFacts
	contest   *plainContest // the last one
	sequence  *plainSequence
	names     strings.Builder // room for names, which share pieces of text
	weighted  []season.Row    // room for rows of weighted lines
}

// plainContest is what a flight takes from its contest, or from being of none; nil
// where such flights are not plain.
type plainContest struct {
	name    string
	is      *season.Contest // nil: of none
	dated   bool
	panel   panelLine
	style   *season.RuleStyle
	unnamed bool // nobody named the style
}

// plainSequence is what a flight takes from its sequence.
type plainSequence struct {
	name   string
	is     *season.Sequence
	ladder *season.Ladder // of a contest that has none
}

func (e *plainEntry) enter() {
	p := e.piece
	p.entered, p.clean = make([]season.Flight, len(p.flights)), make([]bool, len(p.flights))
	for i := range p.flights {
		p.clean[i] = e.flight(&p.flights[i], &p.entered[i])
	}
}

// flight enters a flight, and reports whether the reader of lines would say
// nothing of it.
func (e *plainEntry) flight(plain *plainFlight, fl *season.Flight) bool {
	pilot := e.r.names.pilots.named(plain.pilot.of(e.text))
	if pilot == nil || !e.contestOf(plain) || !e.sequenceOf(plain) {
		return false
	}
	c, s := e.contest, e.sequence.is
	programme := season.Programmes[plain.programme]
	practice := programme == season.Practice
	panel := e.panel(plain)
	switch {
	case int(plain.judges) != len(panel.judges),
		s.Programme != "" && s.Programme != programme && !practice,
		c.dated && (plain.date < c.is.First || plain.date > c.is.Last),
		e.r.opts.AsOf != 0 && plain.date > e.r.opts.AsOf,
		plain.lastFigure() > len(s.Figures), int(plain.figures) < len(s.Figures) && !practice,
		plain.positioning && s.Positioning == 0, !plain.positioning && s.Positioning > 0 && !practice,
		plain.harmony && s.Harmony == 0, !plain.harmony && s.Harmony > 0 && !practice:
		return false
	}
	judges, rows := int(plain.judges), int(plain.figures)
	figures := rows
	if plain.positioning {
		rows++
	}
	if plain.harmony {
		rows++
	}
	marks := e.piece.marks[plain.marks:][: rows*judges : rows*judges]
	if figureOnly(marks[figures*judges:]) || !practice && len(s.Figures) >= leastAlike && sheetsEqual(marks, judges) {
		return false
	}
	plain.key = keyOf(plain.date, e.pilots[pilot.value], int(plain.programme), int(plain.label))
	fl.Name = e.nameOf(plain)
	fl.Date, fl.Pilot, fl.Programme, fl.Label = plain.date, pilot.value, programme, int(plain.label)
	fl.Contest, fl.Sequence, fl.Category, fl.Aircraft = c.is, s, s.Category, pilot.value.Aircraft
	fl.Style, fl.StyleDefault = c.style, c.unnamed
	if fl.Ladder = e.sequence.ladder; c.is != nil && c.is.Ladder != nil {
		fl.Ladder = c.is.Ladder
	}
	fl.Panel, fl.Missing = panel.judges, panel.missing
	fl.At = season.Place{File: e.f.name, Line: int(plain.at) + 1}
	fl.Rows = season.RowsInOnePiece(marks[:figures*judges:figures*judges], judges, len(s.Figures), plain.flown)
	turn := figures
	if plain.positioning {
		fl.Positioning = e.row(marks, judges, turn)
		turn++
	}
	if plain.harmony {
		fl.Harmony = e.row(marks, judges, turn)
	}
	return plain.facts == plain.factsEnd || e.factsOf(plain, fl)
}

// panel is the flight's own panel, else its contest's.
func (e *plainEntry) panel(plain *plainFlight) panelLine {
	if !plain.has(plainPanel) {
		return e.contest.panel
	}
	facts := e.piece.facts[plain.facts:plain.factsEnd]
	own := slices.IndexFunc(facts, func(f plainFact) bool { return f.key == plainPanel })
	return panelLine{judges: e.panelOf(facts[own])}
}

// row is the row of a weighted line.
func (e *plainEntry) row(marks []scoring.Mark, judges, turn int) *season.Row {
	const together = 256
	if len(e.weighted) == 0 {
		e.weighted = make([]season.Row, together)
	}
	row := &e.weighted[0]
	e.weighted = e.weighted[1:]
	row.Marks, row.Turn = marks[turn*judges:(turn+1)*judges:(turn+1)*judges], turn
	return row
}

// nameOf is the flight's name. Names share pieces of text.
func (e *plainEntry) nameOf(plain *plainFlight) string {
	const together = 1 << 14
	day, pilot, programme := plain.day.of(e.text), plain.pilot.of(e.text), string(season.Programmes[plain.programme])
	if plain.label != 1 {
		return flightName(plain.date, pilot, programme, int(plain.label))
	}
	need := len(day) + len(pilot) + len(programme) + 2
	if e.names.Cap()-e.names.Len() < need {
		e.names = strings.Builder{}
		e.names.Grow(max(together, need))
	}
	from := e.names.Len()
	e.names.WriteString(day)
	e.names.WriteByte('/')
	e.names.WriteString(pilot)
	e.names.WriteByte('/')
	e.names.WriteString(programme)
	return e.names.String()[from:]
}

// contestOf finds what the flight takes from its contest.
func (e *plainEntry) contestOf(plain *plainFlight) bool {
	name := plain.contest.of(e.text)
	if e.contest != nil && e.contest.name == name {
		return true
	}
	known, ok := e.contests[name]
	if !ok {
		known = e.r.plainContest(name)
		e.contests[name] = known
	}
	e.contest = known
	return known != nil
}

func (r *reader) plainContest(name string) *plainContest {
	c := &plainContest{name: name}
	if name != "" {
		found := r.names.contests.named(name)
		if found == nil {
			return nil
		}
		c.is, c.dated, c.style = found.value, !r.broken[found.value], found.value.Style
		panel := r.panels[found.value]
		if panel == nil || panel.bad {
			return nil
		}
		c.panel = *panel
	}
	if c.style == nil {
		c.unnamed = true
		if style := r.names.styles.items[season.DefaultStyle]; style != nil {
			c.style = style.value.style
		}
	}
	if c.style == nil {
		return nil
	}
	return c
}

// sequenceOf finds what the flight takes from its sequence.
func (e *plainEntry) sequenceOf(plain *plainFlight) bool {
	name := plain.sequence.of(e.text)
	if e.sequence != nil && e.sequence.name == name {
		return true
	}
	known, ok := e.sequences[name]
	if !ok {
		known = e.r.plainSequence(name)
		e.sequences[name] = known
	}
	e.sequence = known
	return known != nil
}

func (r *reader) plainSequence(name string) *plainSequence {
	found := r.names.sequences.named(name)
	if found == nil || r.broken[found.value] || found.value.Category == "" {
		return nil
	}
	return &plainSequence{name, found.value, r.firstLadder(found.value.Category)}
}

// figureOnly reports whether a mark is among those that a weighted line cannot
// have.
func figureOnly(marks []scoring.Mark) bool {
	for _, m := range marks {
		if m.FigureOnly() {
			return true
		}
	}
	return false
}

// sheetsEqual reports whether two judges gave the same marks on every row.
func sheetsEqual(marks []scoring.Mark, judges int) bool {
	for j := 1; j < judges; j++ {
		for i := range j {
			row := 0
			for row < len(marks) && marks[row+i] == marks[row+j] {
				row += judges
			}
			if row >= len(marks) {
				return true
			}
		}
	}
	return false
}

// plainFlights gives the plain flights of a run their names. Where there is more to
// say of one the reader of lines says it.
func (r *reader) plainFlights(b *block) {
	p := b.run.piece
	for i := b.run.from; i < b.run.to; i++ {
		if !p.clean[i] || r.names.flights.addAs(p.flights[i].key, &p.entered[i]) != nil {
			r.flight(r.unplain(b.f, &p.flights[i]))
		}
	}
}
