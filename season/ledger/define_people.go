package ledger

import (
	"cmp"

	"boxbook/season"
)

// pilot reads `pilot HANDLE`.
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
		excuse(r, r.names.pilots, b)
		return
	}
	define(r, r.names.pilots, b.f, tok, handle, p)
}

// coach reads `coach HANDLE`.
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
		excuse(r, r.names.coaches, b)
		return
	}
	define(r, r.names.coaches, b.f, tok, handle, c)
}
