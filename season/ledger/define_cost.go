package ledger

import (
	"slices"

	"boxbook/season"
)

// Words of a cost that version 1 of the language brought.
const (
	eachWord = "each"
	allWord  = "all"
)

// costPeople reads whom a cost was for, who paid and whether it went to the
// club: WHO... [by WHO] [to club].
func (w *words) costPeople(c *season.Cost) bool {
	newer := c.Each || w.newerCost() && !w.plainCost()
	end := w.peopleEnd(newer)
	var ok bool
	switch {
	case c.Contest != nil && end == w.i+1 && w.peek() == allWord && w.r.pilotCalledAll() == nil:
		w.allOfContest(c)
	case newer:
		ok = w.shares(c, end)
	default:
		c.For, ok = w.parties(end)
	}
	if !ok && !c.All {
		return false
	}
	if p := w.r.pilotCalledAll(); c.Contest != nil && len(c.For) == 1 && p != nil && c.For[0].Pilot == p {
		w.r.at(w.f, w.f.tokens[end-1], allIsPilot)
	}
	if c.Each {
		c.Money.Minor *= int64(max(len(c.For), 1))
	}
	return w.payer(c)
}

// payer reads `[by WHO] [to club]`; who paid is the first of those it was for if
// it is left out.
func (w *words) payer(c *season.Cost) bool {
	var ok bool
	switch {
	case w.accept("by"):
		if c.By, _, ok = w.party("who paid"); !ok {
			return false
		}
	case c.All:
		w.r.payAll = append(w.r.payAll, c)
	default:
		c.By = c.For[0]
	}
	if w.accept("to") {
		if !w.accept(season.ClubName) {
			w.absent("`club`")
			return false
		}
		c.ToClub = true
	}
	return true
}

// newerCost reports whether what follows has a number or the word receipt, which
// a cost did not know before version 1.
func (w *words) newerCost() bool {
	return slices.ContainsFunc(w.f.tokens[w.i:w.last], func(tok token) bool {
		word := w.text(tok)
		return !tok.quoted && (word == receiptWord || startsAmount(word))
	})
}

// plainCost reports whether what follows can be read without what is newer: such
// a line keeps that reading, whatever people are called.
func (w *words) plainCost() bool {
	rest := w.f.tokens[w.i:w.last]
	if n := len(rest); n > 0 && rest[n-1].quoted {
		rest = rest[:n-1]
	}
	take := func(word string) bool {
		if len(rest) == 0 || rest[0].quoted || word != "" && w.text(rest[0]) != word {
			return false
		}
		rest = rest[1:]
		return true
	}
	someone := func() bool {
		if len(rest) == 0 || rest[0].quoted {
			return false
		}
		_, known := w.r.partyNamed(w.text(rest[0]))
		return known && take("")
	}
	for first := true; first || len(rest) > 0 && w.text(rest[0]) != "by" && w.text(rest[0]) != "to"; first = false {
		if !someone() {
			return false
		}
	}
	if take("by") && !someone() {
		return false
	}
	if take("to") && !take(season.ClubName) {
		return false
	}
	return len(rest) == 0
}

// peopleEnd is the token behind those a cost was for: the first by or to, and
// in a line of what is newer the first by, to or receipt that what it needs
// follows. The first word is a name in any case.
func (w *words) peopleEnd(newer bool) int32 {
	for i := w.i + 1; i < w.last; i++ {
		tok := w.f.tokens[i]
		word := w.text(tok)
		switch {
		case tok.quoted:
			return i
		case newer && w.needed(word, i+1), !newer && (word == "by" || word == "to"):
			return i
		}
	}
	return w.last
}

// needed reports whether a word ends a list of people and what it needs stands
// at i.
func (w *words) needed(word string, i int32) bool {
	if i >= w.last || w.f.tokens[i].quoted {
		return false
	}
	next := w.text(w.f.tokens[i])
	switch word {
	case "by":
		return season.IsHandle(next)
	case "to":
		return next == season.ClubName
	default:
		return word == receiptWord
	}
}

// parties takes those a cost was for, who share it equally.
func (w *words) parties(end int32) ([]season.Party, bool) {
	var all []season.Party
	lost := false
	for len(all) == 0 || w.more() && w.i < end {
		p, ok := w.sharer(&all, &lost)
		if !ok {
			return nil, false
		}
		all = append(all, p)
	}
	w.failed = w.failed || lost
	return all, !lost
}

// sharer takes one more of those a cost was for. An unknown name is reported and
// gone past: the others may be wrong, too.
func (w *words) sharer(all *[]season.Party, lost *bool) (season.Party, bool) {
	before := len(w.r.list)
	p, tok, ok := w.party("who it was for")
	if !ok && len(w.r.list) > before && w.r.list[before].Code == unknownName {
		switch w.text(tok) {
		case allWord:
			w.r.list[before].hinted("`for all` stands alone, in a contest")
		case receiptWord:
			w.r.list[before].hinted("the slip's number follows: receipt 17")
		}
		*lost, w.failed = true, false
		return season.Party{Pilot: &season.Pilot{Handle: w.text(tok)}}, true
	}
	if !ok {
		return p, false
	}
	if !*lost && !w.joins(*all, p, tok) { // behind an unknown name it may be none of the list
		return p, false
	}
	return p, true
}

// joins reports whether one more can share a cost, and says why not.
func (w *words) joins(all []season.Party, p season.Party, tok token) bool {
	for _, earlier := range all {
		switch {
		case earlier == p:
			w.fail(tok, nameListed, w.text(tok))
			return false
		case earlier.Club() || p.Club():
			w.fail(tok, pilotsOrClub)
			return false
		}
	}
	return true
}

// largestShare keeps sums of shares far from overflow.
const largestShare = 100_000

// shares takes those a cost was for, each with a number behind it or none.
func (w *words) shares(c *season.Cost, end int32) bool {
	lost := false
	for len(c.For) == 0 || w.more() && w.i < end {
		at := w.i
		p, ok := w.sharer(&c.For, &lost)
		if !ok {
			return false
		}
		name := w.f.tokens[at]
		if w.i < end && startsAmount(w.peek()) {
			if !w.share(c, p, name) {
				return false
			}
		} else if c.Weights != nil {
			w.fail(name, someShares, w.text(name))
			return false
		}
		c.For = append(c.For, p)
	}
	w.failed = w.failed || lost
	return !lost
}

// share takes the number behind a name.
func (w *words) share(c *season.Cost, p season.Party, name token) bool {
	n, tok, ok := w.integer("a whole number of shares", 1, largestShare)
	switch {
	case !ok:
		return false
	case p.Club():
		w.fail(tok, shareOfClub, w.text(name))
		return false
	case c.Each:
		w.fail(tok, eachAndShares)
		return false
	case c.Weights == nil && len(c.For) > 0:
		w.fail(tok, someShares, c.For[0].Name())
		return false
	}
	c.Weights = append(c.Weights, int64(n))
	return true
}

// allOfContest takes `all`: who that is, is known once flights are read.
func (w *words) allOfContest(c *season.Cost) {
	c.All = true
	w.r.forAll = append(w.r.forAll, forAll{c, w.f, w.next()})
}

// forAll is a cost for all of a contest.
type forAll struct {
	cost *season.Cost
	f    *file
	tok  token
}

// pilotCalledAll is a pilot whose handle is all: it means that pilot, then.
func (r *reader) pilotCalledAll() *season.Pilot {
	if e := r.names.pilots.items[allWord]; e != nil {
		return e.value
	}
	return nil
}

// readAll fills in who was at the contests of costs for all: every pilot with a
// flight or a result there, as pilots are defined.
func (r *reader) readAll() {
	for _, a := range r.forAll {
		for _, p := range r.out.Pilots {
			if r.wasAt(a.cost.Contest, p) {
				a.cost.For = append(a.cost.For, season.Party{Pilot: p})
			}
		}
		switch {
		case len(a.cost.For) > 0:
		case r.errors > 0: // who was there may stand on a line that could not be read
			a.cost.For = []season.Party{{}}
		default:
			r.at(a.f, a.tok, nobodyThere, a.cost.Contest.Handle)
			r.lostMoney, a.cost.For = true, []season.Party{{}}
		}
		if a.cost.Each {
			a.cost.Money.Minor *= int64(len(a.cost.For))
		}
	}
	for _, c := range r.payAll {
		c.By = c.For[0]
	}
}

func (r *reader) wasAt(c *season.Contest, p *season.Pilot) bool {
	return slices.ContainsFunc(c.Results, func(res season.Result) bool { return res.Pilot == p }) ||
		slices.ContainsFunc(r.out.Flights, func(f *season.Flight) bool { return f.Contest == c && f.Pilot == p })
}
