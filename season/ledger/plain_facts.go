package ledger

import (
	"slices"
	"strings"

	"boxbook/scoring"
	"boxbook/season"
)

// plainFact is a line of a plain flight that holds neither marks nor a name of what
// they are read against: what stands behind its first word, up to a comment.
type plainFact struct {
	key        plainKey
	start, end int32
}

// plainKey is the first word of such a line.
type plainKey uint8

// The lines that a plain flight may have, each of the first ones once.
const (
	plainAircraft plainKey = iota
	plainPanel
	plainOfficial
	plainPlace
	plainReviewed
	plainPenalty
	plainFault
	plainVideo
	plainNote
)

var plainKeys = []string{"aircraft", "panel", "official", "place", "reviewed", "penalty", "fault", "video", "note"}

// plainFacts are the lists that a flight's lines make, in room that is used again.
type plainFacts struct {
	penalties     []season.Penalty
	faults        []season.Fault
	reviews       []season.Review
	videos, notes []string
}

// factsOf reads the lines of a flight that is entered but for them, its own panel
// apart, which was read before. Not ok is any that the reader of lines has to see.
func (e *plainEntry) factsOf(plain *plainFlight, fl *season.Flight) bool {
	all := &e.facts
	*all = plainFacts{all.penalties[:0], all.faults[:0], all.reviews[:0], all.videos[:0], all.notes[:0]}
	for _, fact := range e.piece.facts[plain.facts:plain.factsEnd] {
		w := wordsIn(e.text[fact.start:fact.end])
		if !e.fact(fact.key, &w, fl) {
			return false
		}
	}
	placeInVideo(all.faults, all.videos)
	fl.Penalties, fl.Faults, fl.Reviewed = list(all.penalties), list(all.faults), list(all.reviews)
	fl.Videos, fl.Notes = list(all.videos), list(all.notes)
	return len(fl.RepeatedFaults()) == 0 && len(fl.DoubledFaults()) == 0
}

// list is a list of its own, nil where it is empty.
func list[T any](of []T) []T { return append([]T(nil), of...) }

func (e *plainEntry) fact(key plainKey, w *factWords, fl *season.Flight) (ok bool) {
	all := &e.facts
	switch key {
	case plainAircraft:
		var aircraft string
		if aircraft, ok = w.free(); aircraft != "" {
			fl.Aircraft = aircraft
		}
	case plainPanel:
		return true
	case plainOfficial:
		fl.Official, ok = e.official(w, fl)
	case plainPlace:
		if fl.Rank, ok = w.number(mostPilots); ok && w.accept("of") {
			fl.Of, ok = w.number(mostPilots)
			ok = ok && fl.Rank <= fl.Of
		}
		ok = ok && w.closing()
	case plainReviewed:
		var review season.Review
		review.By, ok = e.by(w)
		all.reviews = append(all.reviews, review)
		ok = ok && w.closing()
	case plainPenalty:
		var p season.Penalty
		p, ok = penalty(w)
		all.penalties = append(all.penalties, p)
	case plainFault:
		var f season.Fault
		ok = e.fault(w, &f, fl.Sequence)
		all.faults = append(all.faults, f)
	case plainVideo:
		var video string
		video, ok = w.free()
		ok = ok && strings.TrimSpace(video) != "" // of a blank one there is more to say
		all.videos = append(all.videos, video)
	case plainNote:
		var note string
		note, ok = w.free()
		all.notes = append(all.notes, note)
	}
	return ok
}

// penalty takes the reason and the points of a penalty.
func penalty(w *factWords) (p season.Penalty, ok bool) {
	i := slices.Index(season.PenaltyKinds, season.PenaltyKind(w.next()))
	if i < 0 {
		return p, false
	}
	p.Kind = season.PenaltyKinds[i]
	if p.Points, ok = w.decimal(); ok {
		p.Remark, ok = w.remark()
	}
	return p, ok
}

// official takes the printed total.
func (e *plainEntry) official(w *factWords, fl *season.Flight) (*season.Official, bool) {
	o := &season.Official{}
	var ok bool
	if o.Points, ok = w.decimal(); !ok || fl.Programme == season.Practice {
		return nil, false
	}
	maximum := scoring.Decimal{Units: int64(fl.Sequence.Maximum())}
	if w.accept("of") {
		own := maximum
		if maximum, ok = w.decimal(); !ok || maximum.Cmp(own) != 0 {
			return nil, false // another maximum may have to be warned of
		}
		o.Typed = true
	}
	if o.Maximum = &maximum; !maximum.Positive() || o.Points.Cmp(maximum) > 0 || o.Points.Cmp(scoring.Decimal{Units: 100}) <= 0 {
		return nil, false // at most 100 may be a percent
	}
	return o, w.closing()
}

// by takes the coach who may be named.
func (e *plainEntry) by(w *factWords) (*season.Coach, bool) {
	if !w.accept("by") {
		return nil, true
	}
	coach := e.r.names.coaches.named(w.next())
	if coach == nil {
		return nil, false
	}
	return coach.value, true
}

// fault takes what was seen or felt, its parts in their order.
func (e *plainEntry) fault(w *factWords, f *season.Fault, s *season.Sequence) bool {
	f.Amount.Times = 1
	if !w.accept("-") {
		var ok bool
		if f.Figure, ok = w.number(len(s.Figures)); !ok {
			return false
		}
	}
	kind := e.r.names.kinds.named(w.next())
	if kind == nil || e.r.broken[kind.value] {
		return false
	}
	f.Kind, f.Felt, f.Safety = kind.value, kind.value.Felt, kind.value.Safety
	if !fits(f, s) {
		return false
	}
	for n := 0; n < 2 && startsAmount(w.word); n++ {
		if amount, ok := parseAmount(w.next()); !ok || beyondHalfTurn(amount) || addAmount(f, amount, false) != "" {
			return false
		}
	}
	if w.accept("on") {
		if f.On = w.next(); f.Figure == 0 || !hasCode(s.Figures[f.Figure-1], f.On) {
			return false
		}
	}
	if w.accept("felt") {
		f.Felt = true
	} else {
		w.accept("seen")
	}
	if w.accept("at") {
		at, ok := parseMoment(w.next())
		if !ok {
			return false
		}
		f.At = &at
	}
	var ok bool
	if f.By, ok = e.by(w); ok {
		f.Remark, ok = w.remark()
	}
	return ok
}

// plainFaultPlace is where a fault of a plain flight stands, by its number among them.
func (r *reader) plainFaultPlace(fl *season.Flight, n int) season.Place {
	if r.plainFlightOf == nil {
		r.plainFlightOf = map[*season.Flight]plainAt{}
		for _, b := range r.blocks[flightWord] {
			for i := 0; b.run != nil && i < len(b.run.piece.entered); i++ {
				r.plainFlightOf[&b.run.piece.entered[i]] = plainAt{b.f, b.run.piece, i}
			}
		}
	}
	at := r.plainFlightOf[fl]
	plain := &at.piece.flights[at.nth]
	for _, fact := range at.piece.facts[plain.facts:plain.factsEnd] {
		if fact.key != plainFault {
			continue
		}
		if n == 0 {
			return season.Place{File: at.f.name, Line: int(plain.at) + 1 + strings.Count(at.f.text[plain.start:fact.start], "\n")}
		}
		n--
	}
	return fl.At
}

// plainAt is a plain flight in its file.
type plainAt struct {
	f     *file
	piece *plainPiece
	nth   int
}

// panelOf takes the judges of a flight's own panel; nil where it is not plain.
func (e *plainEntry) panelOf(fact plainFact) []string {
	text := e.text[fact.start:fact.end]
	if judges, ok := e.panels[text]; ok {
		return judges
	}
	var judges []string
	for w := wordsIn(text); !w.ended(); {
		word := w.next()
		if word == missingSheets || !season.IsHandle(word) || slices.Contains(judges, word) {
			judges = nil
			break
		}
		judges = append(judges, word)
	}
	e.panels[text] = judges
	return judges
}
