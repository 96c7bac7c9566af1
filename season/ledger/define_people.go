package ledger

import (
	"cmp"
	"slices"

	"boxbook/season"
)

// readBlocks reads every block, those that others lean on first.
func (r *reader) readBlocks() {
	steps := []struct {
		kind string
		read func(*block)
	}{
		{"season-start", r.seasonStart},
		{"fault-kind", r.faultKind},
		{"ladder", r.ladder},
		{"rules", r.rules},
		{"policy", r.policy},
		{"pilot", r.pilot},
		{"coach", r.coach},
		{"sequence", r.sequence},
		{"contest", r.contest},
		{"flight", r.flight},
		{"review", r.review},
		{"drill", r.drill},
		{"signoff", r.signoff},
		{"cost", r.cost},
		{"income", r.income},
		{"settle", r.settle},
		{"owed", r.owed},
		{"rate", r.rate},
	}
	for _, step := range steps {
		for _, b := range r.blocks[step.kind] {
			step.read(b)
		}
		if step.kind == "rules" {
			r.resolveStyles()
		}
	}
	r.collect()
}

// collect hands what was defined over to the model.
func (r *reader) collect() {
	r.out.Pilots = r.names.pilots.list()
	r.out.Coaches = r.names.coaches.list()
	r.out.Sequences = r.names.sequences.list()
	r.out.Contests = r.names.contests.list()
	r.out.Ladders = r.names.ladders.list()
	r.out.FaultKinds = r.names.kinds.list()
	r.out.Policies = r.names.policies.list()
	for _, node := range r.names.styles.list() {
		r.out.Styles = append(r.out.Styles, node.style)
	}
	r.out.Flights = r.names.flights.list()
	slices.SortStableFunc(r.out.Flights, func(a, b *season.Flight) int { return int(a.Date) - int(b.Date) })
	r.checkSettlements()
}

// excuse silences later complaints about the name that a header with an error
// would have defined.
func (r *reader) excuse(b *block) {
	if l := b.f.lines[b.head]; l.first+1 < l.last {
		r.excused[b.f.word(b.f.tokens[l.first+1])] = true
	}
}

func (r *reader) pilot(b *block) {
	w := r.header(b)
	tok, handle, ok := w.handle("a pilot's handle")
	w.end()
	if ok && handle == "club" {
		r.at(b.f, tok, reservedClub)
		ok = false
	}
	p := &season.Pilot{Handle: handle, Name: handle, At: place(b.f, b.head)}
	for _, line := range r.body(b) {
		switch line.name() {
		case "name":
			p.Name = cmp.Or(line.free(), handle)
		case "club":
			p.Club = line.free()
		case "aircraft":
			p.Aircraft = line.free()
		case "note":
			p.Notes = append(p.Notes, line.free())
		}
	}
	if !ok {
		r.excuse(b)
		return
	}
	define(r, r.names.pilots, b.f, tok, handle, p)
}

func (r *reader) coach(b *block) {
	w := r.header(b)
	tok, handle, ok := w.handle("a coach's handle")
	w.end()
	c := &season.Coach{Handle: handle, Name: handle, At: place(b.f, b.head)}
	for _, line := range r.body(b) {
		switch line.name() {
		case "name":
			c.Name = cmp.Or(line.free(), handle)
		case "note":
			c.Notes = append(c.Notes, line.free())
		}
	}
	if !ok {
		r.excuse(b)
		return
	}
	define(r, r.names.coaches, b.f, tok, handle, c)
}

func (r *reader) seasonStart(b *block) {
	r.body(b)
	w := r.header(b)
	tok, ok := w.word("a day (MM-DD)")
	if !ok {
		return
	}
	text := w.text(tok)
	// 2023 is no leap year: a season cannot begin on a day that most years lack.
	date, ok := season.ParseDate("2023-" + text)
	if !ok {
		w.fail(tok, badMonthDay, text)
		return
	}
	w.end()
	if first := r.blocks["season-start"][0]; first != b {
		r.at(b.f, b.f.tokens[b.f.lines[b.head].first], definedTwice, "season-start", text, placeText(place(first.f, first.head)))
		return
	}
	_, month, day := date.Time().Date()
	r.out.SeasonStart = season.MonthDay{Month: int(month), Day: day}
}
