package ledger

import "boxbook/season"

// closing reads `closed DATE PILOT KIND [by COACH]`.
func (r *reader) closing(b *block) {
	r.body(b)
	c := &season.Closing{At: place(b.f, b.head)}
	w := r.header(b)
	var dated token
	var ok bool
	if c.Date, dated, ok = w.date(); !ok {
		if n := len(r.list); n > 0 && r.list[n-1].Code == badDate && r.list[n-1].Hint == "" {
			r.list[n-1].hinted("in a flight indent it; by itself it is %s", closedLong)
		}
		return
	}
	r.notAhead(b.f, dated, c.Date)
	if c.Pilot, _, ok = find(w, r.names.pilots, "a pilot"); !ok {
		return
	}
	if c.Kind, ok = w.safetyKind(); !ok {
		return
	}
	r.closings[c.At] = closingLine{b.f, b.headToken(0), c.Kind, c.Pilot, c.Date}
	if w.accept("by") {
		c.By, _, _ = find(w, r.names.coaches, "a coach")
	}
	c.Remark = w.end()
	if !w.failed {
		r.out.Closings = append(r.out.Closings, c)
	}
}

// The two forms of the line: by itself, and in the flight that put it right.
const (
	closedLong  = "`closed DATE PILOT KIND \"remark\"`"
	closedShort = "`closed KIND \"remark\"`"
)

// closingLine is a line that closes something, for a warning.
type closingLine struct {
	f     *file
	key   token
	kind  *season.FaultKind
	pilot *season.Pilot
	date  season.Date
}

// safetyKind takes the kind that a line closes.
func (w *words) safetyKind() (*season.FaultKind, bool) {
	kind, tok, ok := find(w, w.r.names.kinds, "a safety fault")
	if !ok {
		return nil, false
	}
	if !kind.Safety {
		w.fail(tok, closedGrade, kind.Name)
		return nil, false
	}
	return kind, true
}

// checkClosings warns of lines that close what is not open. A fault may stand on
// a line that could not be read: then nothing is said.
func (r *reader) checkClosings() {
	if r.errors > 0 || len(r.closings) == 0 {
		return
	}
	_, idle := season.Matters(r.out, nil, 0)
	for _, at := range idle {
		c := r.closings[at]
		r.at(c.f, c.key, closedIdle, c.kind.Name, c.pilot.Handle, c.date)
	}
}
