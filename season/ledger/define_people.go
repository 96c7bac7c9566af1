package ledger

import (
	"cmp"
	"slices"

	"boxbook/season"
)

// pilot reads `pilot HANDLE`.
func (r *reader) pilot(b *block) {
	w := r.header(b)
	tok, handle, ok := w.handle("a pilot's handle")
	w.end()
	if ok && handle == "club" {
		r.at(b.f, tok, reservedClub, b.kind)
		ok = false
	}
	p := &season.Pilot{Handle: handle, Name: handle, At: place(b.f, b.head)}
	for _, line := range r.body(b) {
		switch line.name() {
		case "name":
			p.Name = cmp.Or(line.free(), handle)
		case "club":
			p.Club = line.free()
		case "expires":
			line.expires(p)
		case "not-flown":
			line.notFlown(p)
		case "aircraft":
			p.Aircraft = line.free()
		case "note":
			p.Notes = append(p.Notes, line.free())
		}
	}
	if !ok {
		excuse(r, r.names.pilots, b)
		return
	}
	define(r, r.names.pilots, b.f, tok, handle, p)
}

// expires reads `expires WHAT DATE`.
func (l bodyLine) expires(p *season.Pilot) {
	tok, what, ok := l.handle("what expires")
	if !ok {
		return
	}
	e := season.Expiry{What: what, At: place(l.f, l.line)}
	e.Date, _, ok = l.date()
	e.Remark = l.end()
	if slices.ContainsFunc(p.Expires, func(o season.Expiry) bool { return o.What == what }) {
		l.fail(tok, nameListed, what)
		return
	}
	if ok {
		p.Expires = append(p.Expires, e)
	}
}

// notFlown reads `not-flown GROUP ... "reason"`.
func (l bodyLine) notFlown(p *season.Pilot) {
	groups, ok := l.groups(true, true)
	n := season.NotFlown{Groups: groups, Reason: l.end(), At: place(l.f, l.line)}
	if ok {
		p.NotFlown = append(p.NotFlown, n)
	}
}

// coach reads `coach HANDLE`.
func (r *reader) coach(b *block) {
	w := r.header(b)
	tok, handle, ok := w.handle("a coach's handle")
	w.end()
	c := &season.Coach{Handle: handle, At: place(b.f, b.head)}
	c.Name, c.Notes = r.nameAndNotes(b, handle)
	if !ok {
		excuse(r, r.names.coaches, b)
		return
	}
	define(r, r.names.coaches, b.f, tok, handle, c)
}

// person reads `person HANDLE`: whoever flies or coaches is one already.
func (r *reader) person(b *block) {
	w := r.header(b)
	tok, handle, ok := w.handle("a person's handle")
	w.end()
	if ok {
		ok = !r.taken(b.f, tok, handle)
	}
	p := &season.Person{Handle: handle, At: place(b.f, b.head)}
	p.Name, p.Notes = r.nameAndNotes(b, handle)
	if !ok {
		excuse(r, r.names.persons, b)
		return
	}
	define(r, r.names.persons, b.f, tok, handle, p)
}

// nameAndNotes reads the body of somebody of whom a ledger has no more: the name
// is the handle where none is given.
func (r *reader) nameAndNotes(b *block, handle string) (name string, notes []string) {
	name = handle
	for _, line := range r.body(b) {
		switch line.name() {
		case "name":
			name = cmp.Or(line.free(), handle)
		case "note":
			notes = append(notes, line.free())
		}
	}
	return name, notes
}

// taken reports a person's handle that a pilot, a coach or the club has.
func (r *reader) taken(f *file, tok token, handle string) bool {
	switch pilot, coach := r.names.pilots.items[handle], r.names.coaches.items[handle]; {
	case handle == "club":
		r.at(f, tok, reservedClub, "person")
	case pilot != nil:
		r.at(f, tok, handleTaken, handle, "pilot", placeText(pilot.at))
	case coach != nil:
		r.at(f, tok, handleTaken, handle, "coach", placeText(coach.at))
	default:
		return false
	}
	return true
}
