package ledger

import (
	"slices"
	"strings"

	"boxbook/season"
)

// flightApart joins a date with the two words behind it where they are a flight's
// full name.
func (w *words) flightApart(date string) (whole string, last token) {
	if w.i+1 >= w.last {
		return "", token{}
	}
	last = w.f.tokens[w.i+1]
	whole = strings.Join([]string{date, w.text(w.f.tokens[w.i]), w.text(last)}, "/")
	if w.r.flightNamed(whole) == nil {
		return "", token{}
	}
	return whole, last
}

// flightNamed takes a flight's full name, DATE/PILOT/PROGRAMME or .../N.
func (w *words) flightNamed() (*season.Flight, token, bool) {
	tok, ok := w.word("a flight's full name (DATE/PILOT/PROGRAMME)")
	if !ok {
		return nil, tok, false
	}
	name := w.text(tok)
	parts := strings.Split(name, "/")
	if len(parts) < 3 || len(parts) > 4 {
		d := w.fail(tok, flightNameInPart, name)
		if whole, last := w.flightApart(name); whole != "" {
			d.adviseFor(span{w.f, tok.line, tok.start, last.end}, instead("write %s", whole))
			return nil, tok, false
		}
		d.didYouMean(name, w.r.names.flights.names())
		return nil, tok, false
	}
	if len(parts) == 4 && parts[3] == "1" {
		name = strings.TrimSuffix(name, "/1")
	}
	if flight := w.r.flightNamed(name); flight != nil {
		return flight, tok, true
	}
	for _, like := range flightLike(parts) {
		if w.r.excused[like] {
			w.failed = true
			return nil, tok, false
		}
	}
	flight, ok := lookUp(w, w.r.names.flights.registry(), tok, name)
	return flight, tok, ok
}

// review reads `review FLIGHT [by COACH]`; what it says joins its flight.
func (r *reader) review(b *block) {
	w := r.header(b)
	flight, _, ok := w.flightNamed()
	var review season.Review
	headed := w.accept("by")
	if headed {
		review.By, _, _ = find(w, r.names.coaches, "a coach")
	}
	w.end()
	lines := r.body(b)
	for _, line := range lines {
		switch {
		case line.name() != "by":
		case headed:
			r.at(line.f, line.key, keyTwice, "by", b.f.number(b.head))
		default:
			review.By, _, _ = find(line.words, r.names.coaches, "a coach")
			line.end()
		}
	}
	on := faultOn{lost: true}
	if ok {
		on = faultOn{flight.Sequence, r.broken[flight] || r.broken[flight.Sequence]}
	}
	faults, places := reviewLines(&review, lines, on)
	if ok {
		placeInVideo(faults, review.Videos, flight.Videos)
		for i, fault := range faults {
			r.addFault(flight, fault, places[i])
		}
		flight.Reviewed = append(flight.Reviewed, review)
	}
}

// reviewLines reads a review's notes into it, and gives its faults: by its
// coach, where a fault names nobody; and where each stands.
func reviewLines(review *season.Review, lines []bodyLine, on faultOn) (faults []season.Fault, places []placed) {
	for _, line := range lines {
		switch line.name() {
		case "fault":
			if fault, ok := line.fault(on); ok {
				if fault.By == nil {
					fault.By = review.By
				}
				faults, places = append(faults, fault), append(places, placed{line.f, line.key})
			}
		case "video":
			review.Videos = append(review.Videos, line.video())
		case "note":
			review.Notes = append(review.Notes, line.free())
		}
	}
	return faults, places
}

// placeInVideo says in which video the places of faults count: the first of the
// first list that has any.
func placeInVideo(faults []season.Fault, lists ...[]string) {
	videos := slices.Concat(lists...)
	if len(videos) == 0 {
		return
	}
	for i := range faults {
		if faults[i].At != nil {
			faults[i].Video = videos[0]
		}
	}
}

// drill reads `drill DATE PILOT TARGET "text"`.
func (r *reader) drill(b *block) {
	d := &season.Drill{At: place(b.f, b.head)}
	w := r.header(b)
	var ok bool
	var dated token
	if d.Date, dated, ok = w.date(); ok {
		r.notAhead(b.f, dated, d.Date)
		if d.Pilot, _, ok = find(w, r.names.pilots, "a pilot"); ok {
			d.Target, ok = w.drillTarget()
		}
	}
	d.Text = w.end()
	for _, line := range r.body(b) {
		switch line.name() {
		case "prompted-by":
			r.promptedBy(d, line, ok)
		case "by":
			d.By, _, _ = find(line.words, r.names.coaches, "a coach")
			line.end()
		case "ended":
			line.ended(d)
		case "note":
			d.Notes = append(d.Notes, line.free())
		}
	}
	if ok && !w.failed {
		r.out.Drills = append(r.out.Drills, d)
	}
}

// ended reads `ended DATE "remark"`.
func (l bodyLine) ended(d *season.Drill) {
	date, tok, ok := l.date()
	remark := l.end()
	switch {
	case !ok:
	case d.Date != 0 && date < d.Date:
		l.fail(tok, endedBefore, date, d.Date)
	default:
		d.Ended, d.EndedRemark = date, remark
		if d.Date <= l.r.opts.AsOf {
			l.r.notAhead(l.f, tok, date)
		}
	}
}

// drillTarget takes a fault kind or a group.
func (w *words) drillTarget() (string, bool) {
	tok, ok := w.word("a fault kind or a group")
	if !ok {
		return "", false
	}
	text := w.text(tok)
	if group := season.GroupOf(text); group != "" {
		return group, true
	}
	if e := w.r.names.kinds.named(text); e != nil {
		return e.value.Name, true
	}
	w.failed = true
	if !w.r.lostFile && !w.r.names.kinds.nameless && !w.r.excused[text] {
		known := append(append([]string{}, w.r.names.kinds.order...), season.Groups...)
		d := w.r.at(w.f, tok, unknownName, "fault kind or group", text)
		if d.didYouMean(text, known); Nearest(text, known) == "" {
			d.hinted("%s", w.kindsMeant(faultKindNoun, text))
		}
	}
	return "", false
}

func (r *reader) promptedBy(d *season.Drill, line bodyLine, headerRead bool) {
	flight, tok, ok := line.flightNamed()
	if !ok {
		return
	}
	line.end()
	switch {
	case headerRead && flight.Pilot != d.Pilot:
		r.at(line.f, tok, promptedElsewhere, line.text(tok))
	case headerRead && flight.Date > d.Date:
		r.at(line.f, tok, promptedLater, line.text(tok))
	default:
		d.Prompted = append(d.Prompted, flight)
	}
}

// signoff reads `signoff DATE PILOT CATEGORY by COACH`.
func (r *reader) signoff(b *block) {
	r.body(b)
	s := &season.Signoff{At: place(b.f, b.head)}
	w := r.header(b)
	var dated token
	var ok bool
	if s.Date, dated, ok = w.date(); !ok {
		return
	}
	r.notAhead(b.f, dated, s.Date)
	if s.Pilot, _, ok = find(w, r.names.pilots, "a pilot"); !ok {
		return
	}
	if w.peek() == "by" {
		w.absent("a category")
		return
	}
	if s.Category = w.categoryName(); s.Category == "" {
		return
	}
	if !w.accept("by") {
		w.absent("`by` and a coach")
		return
	}
	if s.By, _, ok = find(w, r.names.coaches, "a coach"); !ok {
		return
	}
	s.Remark = w.end()
	if !w.failed {
		r.out.Signoffs = append(r.out.Signoffs, s)
	}
}
