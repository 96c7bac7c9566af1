package ledger

import "boxbook/season"

// closing reads `closed DATE PILOT KIND [by COACH]`.
func (r *reader) closing(b *block) {
	r.body(b)
	c := &season.Closing{At: place(b.f, b.head)}
	w := r.header(b)
	var ok bool
	if c.Date, _, ok = w.date(); !ok {
		if n := len(r.list); n > 0 && r.list[n-1].Code == badDate && r.list[n-1].Hint == "" {
			r.list[n-1].hinted(closedForms)
		}
		return
	}
	if c.Pilot, _, ok = find(w, r.names.pilots, "a pilot"); !ok {
		return
	}
	if c.Kind, ok = w.safetyKind(c.At); !ok {
		return
	}
	if w.accept("by") {
		c.By, _, _ = find(w, r.names.coaches, "a coach")
	}
	c.Remark = w.end()
	if !w.failed {
		r.out.Closings = append(r.out.Closings, c)
	}
}

// closedForms says where each of the two forms stands.
const closedForms = "`closed KIND` is a line of the flight that put it right: indent it; by itself it is `closed DATE PILOT KIND`"

// safetyKind takes the kind that a line closes.
func (w *words) safetyKind(at season.Place) (*season.FaultKind, bool) {
	kind, tok, ok := find(w, w.r.names.kinds, "a safety fault")
	if !ok {
		return nil, false
	}
	if !kind.Safety {
		w.fail(tok, closedGrade, kind.Name)
		return nil, false
	}
	w.r.closings[at] = span{w.f, tok.line, tok.start, tok.end}
	return kind, true
}

// checkClosings warns of lines that close what is not open. A fault may stand on
// a line that could not be read: then nothing is said.
func (r *reader) checkClosings() {
	if r.errors > 0 {
		return
	}
	_, idle := season.Matters(r.out, nil, 0)
	for _, at := range idle {
		s := r.closings[at]
		r.report(s, closedIdle, s.f.text[s.start:s.end])
	}
}
