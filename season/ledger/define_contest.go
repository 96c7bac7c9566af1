package ledger

import (
	"cmp"
	"slices"
	"strings"

	"boxbook/report/display"

	"boxbook/scoring"
	"boxbook/season"
)

// panelLine is a panel as written.
type panelLine struct {
	judges, missing []string
	bad             bool // an error was reported
}

// contest reads `contest NAME DATE..DATE`.
func (r *reader) contest(b *block) {
	w := r.header(b)
	tok, handle, ok := w.handle("a contest's handle")
	c := &season.Contest{Handle: handle, Name: handle, At: place(b.f, b.head)}
	dated := false
	if ok {
		c.First, c.Last, dated = w.span()
	}
	w.end()
	r.broken[c] = !dated
	before := r.errors
	lines := r.body(b)
	if r.errors > before || b.unread() {
		// A panel or a cost may stand on a line that was not understood.
		r.panels[c] = &panelLine{bad: true}
		r.lostMoney = true
	}
	for _, line := range lines {
		r.contestLine(c, line)
	}
	if !ok {
		excuse(r, r.names.contests, b)
		return
	}
	if old := r.names.contests.items[handle]; !define(r, r.names.contests, b.f, tok, handle, c) && old != nil {
		r.panels[old.value] = &panelLine{bad: true} // either may be meant
	}
}

// span takes DATE..DATE, or one DATE for a contest of a day.
func (w *words) span() (first, last season.Date, ok bool) {
	tok, ok := w.word("a date or a span of dates (YYYY-MM-DD..YYYY-MM-DD)")
	if !ok {
		return 0, 0, false
	}
	from, _, two := strings.Cut(w.text(tok), "..")
	part := token{start: tok.start, end: tok.start + int32(len(from)), line: tok.line}
	if first, ok = w.dateText(tok, part); !ok {
		if better := otherSpan(from); better != "" {
			w.r.list[len(w.r.list)-1].advise(instead("write %s", better).unless(two))
		}
		return 0, 0, false
	}
	if two {
		part.start, part.end = part.end+int32(len("..")), tok.end
	}
	if last, ok = w.dateText(tok, part); !ok {
		return 0, 0, false
	}
	if last < first {
		w.fail(tok, spanReversed, w.text(tok))
		return 0, 0, false
	}
	return first, last, true
}

// otherSpan rewrites two dates with a dash between them.
func otherSpan(text string) string {
	for _, dash := range []string{"-", "–", "—", "/"} {
		n := len(season.Date(0).String())
		if len(text) == 2*n+len(dash) && text[n:n+len(dash)] == dash {
			_, ok1 := season.ParseDate(text[:n])
			_, ok2 := season.ParseDate(text[n+len(dash):])
			if ok1 && ok2 {
				return text[:n] + ".." + text[n+len(dash):]
			}
		}
	}
	return ""
}

func (r *reader) contestLine(c *season.Contest, line bodyLine) {
	switch line.name() {
	case "name":
		c.Name = cmp.Or(line.free(), c.Handle)
	case "site":
		c.Site = line.free()
	case "enter-by":
		c.EnterBy, _, _ = line.date()
		line.end()
	case "ladder":
		c.Ladder, _, _ = find(line.words, r.names.ladders, "a ladder")
		line.end()
	case "rules":
		if node, _, ok := find(line.words, r.names.styles, "a rule style"); ok {
			c.Style = node.style
		}
		line.end()
	case "panel":
		p := line.panel()
		c.Panel = p.judges
		r.panels[c] = &p
	case "result":
		line.result(c)
	case "cost":
		r.contestCost(c, line)
	case "duty":
		line.duty(c)
	case "note":
		c.Notes = append(c.Notes, line.free())
	}
}

// missingSheets separates the judges whose sheets are here from the others.
const missingSheets = "missing"

// panel reads the judges, and behind `missing` those whose sheets are not to
// hand.
func (l bodyLine) panel() panelLine {
	var p panelLine
	for l.peek() != "" {
		if l.peek() == missingSheets {
			if len(p.judges) == 0 {
				break
			}
			l.next()
			l.missingJudges(&p)
			break
		}
		if !l.judge(&p, &p.judges) {
			break
		}
	}
	if !l.failed && len(p.judges) == 0 {
		l.absent("a judge")
	}
	l.end()
	p.bad = l.failed
	return p
}

func (l bodyLine) missingJudges(p *panelLine) {
	if l.peek() == "" {
		l.absent("a judge")
		return
	}
	for l.peek() != "" && l.judge(p, &p.missing) {
	}
}

// judge takes one judge's name into a list.
func (l bodyLine) judge(p *panelLine, list *[]string) bool {
	tok, name, ok := l.handle("a judge")
	if !ok {
		return false
	}
	if slices.Contains(p.judges, name) || slices.Contains(p.missing, name) {
		l.fail(tok, nameListed, name)
		return false
	}
	*list = append(*list, name)
	return true
}

// result reads `result PILOT [P [of M]] [place N [of M]]`.
func (l bodyLine) result(c *season.Contest) {
	pilot, _, ok := find(l.words, l.r.names.pilots, "a pilot")
	if !ok {
		return
	}
	res := season.Result{Pilot: pilot}
	if next := l.peek(); next != "" && next != "place" {
		points, maximum, ok := l.points()
		if !ok {
			return
		}
		res.Points, res.Maximum = &points, maximum
	}
	if l.accept("place") {
		res.Rank, res.Of = l.rank()
	}
	res.Remark = l.end()
	if l.failed {
		return
	}
	if res.Points == nil && res.Rank == 0 {
		l.fail(l.key, nothingSaid, "the result").hinted("give the total, the place or both")
		return
	}
	if i := slices.IndexFunc(c.Results, func(o season.Result) bool { return o.Pilot == pilot }); i >= 0 {
		l.fail(l.key, nameListed, pilot.Handle)
		return
	}
	c.Results = append(c.Results, res)
}

func readsAsNumber(text string) bool {
	_, ok := scoring.ParseDecimal(text)
	return ok
}

// points reads `P [of M]`.
func (w *words) points() (scoring.Decimal, *scoring.Decimal, bool) {
	points, tok, ok := w.decimal("a total (540.49)")
	if text := w.f.word(tok); !ok && strings.HasSuffix(text, "%") {
		w.r.list[len(w.r.list)-1].advise(instead("write %s", strings.TrimSuffix(text, "%")+" of 100").unless(w.i < w.last && w.text(w.f.tokens[w.i]) == "of"))
	} else if a, b, found := strings.Cut(text, "/"); !ok && found && readsAsNumber(a) && readsAsNumber(b) {
		w.r.list[len(w.r.list)-1].advise(instead("write %s", a+" of "+b).unless(w.i < w.last && w.text(w.f.tokens[w.i]) == "of"))
	}
	if !ok || !w.accept("of") {
		return points, nil, ok && !w.percentToo(points.String(), "") && !w.maximumToo(points)
	}
	maximum, of, ok := w.decimal("the maximum")
	if !ok {
		return points, nil, false
	}
	if !maximum.Positive() {
		w.fail(of, badNumber, w.text(of), "a maximum above 0")
		return points, nil, false
	}
	if points.Cmp(maximum) > 0 {
		w.fail(tok, pointsAboveMax, w.text(tok), maximum)
		return points, nil, false
	}
	return points, &maximum, !w.percentToo(points.String(), maximum.String())
}

// maximumToo refuses a whole number behind a total that may be its maximum, without the of.
func (w *words) maximumToo(points scoring.Decimal) bool {
	if w.failed || w.i >= w.last {
		return false
	}
	text := w.peek()
	maximum, ok := scoring.ParseDecimal(text)
	if !ok || maximum.Places > 0 || points.Cmp(maximum) > 0 {
		return false
	}
	tok := w.next()
	w.fail(tok, extraWord, w.text(tok)).advise(instead("write %s", "of "+text).unless(w.i < w.last && !w.f.tokens[w.i].quoted))
	return true
}

// percentToo refuses a percent behind a total, and says what to write.
func (w *words) percentToo(points, maximum string) bool {
	if w.failed || w.i >= w.last {
		return false
	}
	percent, found := strings.CutSuffix(strings.Trim(w.peek(), "()"), "%")
	if !found || !readsAsNumber(percent) {
		return false
	}
	tok := w.next()
	total := points + " alone or " + points + " of MAXIMUM"
	if maximum != "" {
		total = points + " of " + maximum
	}
	w.fail(tok, extraWord, w.text(tok)).hinted("one of the two is enough: write %s, or the percent as %s of 100", total, percent)
	return true
}

// mostPilots bounds a place, and of how many it is.
const mostPilots = 10_000

// rank reads `N [of M]`.
func (w *words) rank() (rank, of int) {
	if text := w.peek(); strings.Contains(text, "/") {
		tok := w.next()
		if a, b, _ := strings.Cut(text, "/"); isNumber(a) && isNumber(b) {
			w.fail(tok, badNumber, text, "a place").advise(instead("write %s", a+" of "+b).unless(w.i < w.last && w.text(w.f.tokens[w.i]) == "of"))
		} else {
			w.fail(tok, badNumber, text, "a place")
		}
		return 0, 0
	}
	rank, tok, ok := w.integer("a place", 0, mostPilots)
	if !ok {
		return 0, 0
	}
	if next := w.peek(); isNumber(next) {
		w.fail(w.f.tokens[w.i], extraWord, next).hinted("write %d of %s", rank, next)
		return 0, 0
	}
	if rank == 0 {
		w.fail(tok, placeZero, rank)
		return 0, 0
	}
	if w.accept("of") {
		if of, _, ok = w.integer("the number of pilots", 0, mostPilots); !ok {
			return 0, 0
		}
		if rank > of {
			w.fail(tok, placeAboveOf, rank, of).hinted("%d of %d?", of, rank)
			return 0, 0
		}
	}
	return rank, of
}

// duty reads `duty ROLE WHO [SESSIONS]`.
func (l bodyLine) duty(c *season.Contest) {
	_, role, ok := l.handle("a duty (judge, scribe ...)")
	if !ok {
		return
	}
	before := len(l.r.list)
	who, tok, ok := l.party("a pilot, coach or person")
	if !ok {
		if said := l.r.list[before:]; len(said) == 1 && l.isParty(role) {
			said[0].hinted("the duty comes first, then the name")
		}
		return
	}
	if who.Club() {
		l.fail(tok, unknownName, anyParty, season.ClubName)
		return
	}
	d := season.Duty{Role: role, Who: who, Sessions: 1}
	if l.peek() != "" {
		if d.Sessions, _, ok = l.integer("a number of sessions", 1, 1000); !ok {
			return
		}
	}
	d.Remark = l.end()
	c.Duties = append(c.Duties, d)
}

// panelNamed says a panel as "2 judges (A B)".
func panelNamed(panel []string) string {
	if len(panel) == 0 {
		return judgeCount(0)
	}
	return judgeCount(len(panel)) + " (" + strings.Join(panel, " ") + ")"
}

// judgeCount says a number of judges in words.
func judgeCount(n int) string { return display.Counted(n, "judge", "judges") }
