package ledger

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/scoring"
	"boxbook/season"
)

// styleNode is a rule style as written: settings over another style.
type styleNode struct {
	style *season.RuleStyle
	like  *token
	f     *file
	name  token
	apply []func(*scoring.Style)
	// state of resolving: 0 not begun, 1 under way, 2 done
	state int
}

// ladder reads `ladder NAME` with its categories, lowest first.
func (r *reader) ladder(b *block) {
	w := r.header(b)
	tok, handle, ok := w.handle("a ladder's name")
	w.end()
	ladder := &season.Ladder{Name: handle, Shipped: b.f.shipped}
	before := r.errors
	lines := r.body(b)
	r.lostLadder = r.lostLadder || !ok || r.errors > before || b.unread()
	for _, line := range lines {
		if line.name() == "note" {
			line.free()
			continue
		}
		category, at, named := line.category()
		if !named {
			r.lostLadder = true
			continue
		}
		if _, twice := ladder.Category(category.Name); twice {
			r.at(b.f, at, nameListed, category.Name)
			continue
		}
		ladder.Categories = append(ladder.Categories, category)
	}
	if !ok {
		excuse(r, r.names.ladders, b)
		return
	}
	if len(b.body) == 0 && !b.unread() {
		r.at(b.f, b.headToken(0), nothingSaid, fmt.Sprintf("ladder %q", handle)).hinted("list its categories, lowest first")
	} else if len(ladder.Categories) == 0 && r.errors == before && !b.unread() {
		r.at(b.f, b.headToken(0), noCategories, handle)
	}
	define(r, r.names.ladders, b.f, tok, handle, ladder)
}

// category reads `category NAME [floor N(ft|m)] [unknowns] [new GROUP ...]`. A
// category whose name could be read exists, whatever else is wrong with it.
func (l bodyLine) category() (season.Category, token, bool) {
	at, name, ok := l.handle("a category's name")
	if !ok {
		return season.Category{}, at, false
	}
	c := season.Category{Name: name}
	if l.accept("floor") && !l.floor(&c) {
		return c, at, true
	}
	c.Unknowns = l.accept("unknowns")
	if l.accept("new") {
		if c.New, ok = l.groups(false, false); !ok {
			return c, at, true
		}
	}
	if word := l.peek(); word == "floor" || word == "unknowns" || word == "new" {
		l.fail(l.next(), tooLate, word, "floor, unknowns, new GROUP ...")
	}
	l.end()
	return c, at, true
}

func (l bodyLine) floor(c *season.Category) bool {
	tok, ok := l.word("a floor (1200ft)")
	if !ok {
		return false
	}
	number, unit, ok := parseFloor(l.text(tok))
	if !ok {
		l.noFloor(tok)
		return false
	}
	c.Floor, c.Unit = number, unit
	return true
}

// parseFloor reads 1200ft or 100m.
func parseFloor(text string) (number int, unit string, ok bool) {
	digits := strings.TrimRight(text, "abcdefghijklmnopqrstuvwxyz")
	unit = text[len(digits):]
	return rowNumber(digits), unit, isNumber(digits) && len(digits) <= 5 && (unit == "ft" || unit == "m")
}

// noFloor reports a word that is no floor, with what is if it is joined to the
// next word, or in small letters.
func (l bodyLine) noFloor(tok token) {
	text, next := l.text(tok), strings.ToLower(l.peek())
	d := l.fail(tok, badFloor, text)
	if small := strings.ToLower(text); isFloor(small) {
		d.advise(instead("write %s", small))
	} else if isFloor(text + next) {
		d.adviseFor(span{l.f, l.line, tok.start, l.f.tokens[l.i].end}, instead("write it without a space: %s", text+next))
	}
}

func isFloor(text string) bool {
	_, _, ok := parseFloor(text)
	return ok
}

// groups takes one group or more; once says that none may stand there twice,
// remarked that what is no group behind them is meant as a remark.
func (w *words) groups(once, remarked bool) ([]string, bool) {
	if !w.more() {
		w.missing("a group")
		return nil, false
	}
	var all []string
	for w.peek() != "" {
		tok := w.f.tokens[w.i]
		if word := w.peek(); remarked && len(all) > 0 && looksLikeText(word) && season.GroupOf(word) == "" {
			break
		}
		group, ok := w.group()
		if !ok {
			w.r.dropListed(all)
			return all, false
		}
		if once && slices.Contains(all, group) {
			w.fail(tok, nameListed, w.text(tok))
			return all, false
		}
		all = append(all, group)
	}
	if len(all) == 0 {
		w.absent("a group")
	}
	return all, len(all) > 0
}

// dropListed takes back the edit of the latest diagnostic where it would list a
// name twice.
func (r *reader) dropListed(names []string) {
	if d := &r.list[len(r.list)-1]; len(d.Fixes) > 0 && slices.Contains(names, d.Fixes[0].Text) {
		d.Fixes = nil
	}
}

// group takes a group key, or a number that names a group.
func (w *words) group() (string, bool) {
	tok, ok := w.word("a group")
	if !ok {
		return "", false
	}
	group := season.GroupOf(w.text(tok))
	if group == "" {
		w.fail(tok, badCode, w.text(tok)).didYouMean(w.text(tok), season.Groups)
	}
	return group, group != ""
}

// rules reads `rules NAME` and its settings; what they stand on is resolved
// once every style is known.
func (r *reader) rules(b *block) {
	w := r.header(b)
	tok, handle, ok := w.handle("a rule style's name")
	w.end()
	node := &styleNode{f: b.f, name: tok, style: &season.RuleStyle{Shipped: b.f.shipped, Style: scoring.Style{Name: handle}}}
	for _, line := range r.body(b) {
		r.styleLine(node, line)
	}
	if !ok {
		excuse(r, r.names.styles, b)
		return
	}
	if b.f.shipped {
		r.names.shipped[handle] = node
	}
	define(r, r.names.styles, b.f, tok, handle, node)
}

func (r *reader) styleLine(node *styleNode, line bodyLine) {
	var set func(*scoring.Style)
	switch line.name() {
	case "note":
		line.free()
		return
	case "like":
		if tok, ok := line.word("a rule style's name"); ok {
			node.like = &tok
		}
	case "hard-zero":
		set = option(line, scoring.HardZeroWords, func(s *scoring.Style, i int) { s.HardZero = scoring.HardZeroRule(i) })
	case "half":
		set = option(line, scoring.HalfWords, func(s *scoring.Style, i int) { s.Half = scoring.HalfRule(i) })
	case "fill-rounding":
		set = option(line, scoring.FillRoundingWords, func(s *scoring.Style, i int) { s.FillRounding = scoring.FillRounding(i) })
	case "drop-extremes":
		set = option(line, yesOrNo, func(s *scoring.Style, i int) { s.DropExtremes = i == 1 })
	}
	line.end()
	if set != nil {
		node.apply = append(node.apply, set)
	}
}

// yesOrNo are the words of a setting that is one or the other.
var yesOrNo = []string{"no", "yes"}

// option takes one of a few words and gives back what it sets.
func option(line bodyLine, known []string, set func(*scoring.Style, int)) func(*scoring.Style) {
	want := "a setting of " + line.name()
	tok, ok := line.word(want)
	if !ok {
		return nil
	}
	text := line.text(tok)
	i := slices.Index(known, strings.Replace(text, ",", ".", 1))
	if i < 0 {
		line.fail(tok, unknownChoice, text, want, strings.Join(known, ", ")).didYouMean(text, known)
		return nil
	}
	return func(s *scoring.Style) { set(s, i) }
}

// resolveStyles works out what each style is like.
func (r *reader) resolveStyles() {
	for _, name := range r.names.styles.order {
		r.resolveStyle(r.names.styles.items[name].value, nil)
	}
}

// resolveStyle fills a style from the one it is like, then its own settings.
func (r *reader) resolveStyle(node *styleNode, chain []string) {
	if node.state == 2 {
		return
	}
	node.state = 1
	if base := r.styleBase(node, chain); base != nil {
		name := node.style.Name
		node.style.Style = base.style.Style
		node.style.Name = name
	}
	for _, set := range node.apply {
		set(&node.style.Style)
	}
	node.state = 2
}

// styleBase gives the style that a style is like, resolved; nil for the
// shipped panel-mean, which stands on nothing.
func (r *reader) styleBase(node *styleNode, chain []string) *styleNode {
	like, at := season.DefaultStyle, node.name
	if node.like != nil {
		like, at = node.f.word(*node.like), *node.like
	}
	base := r.names.shipped[like]
	if base == nil || (like != node.style.Name && !node.style.Shipped) {
		found, ok := lookUp(r.words(node.f, at.line), r.names.styles, at, like)
		if !ok {
			return nil
		}
		base = found
	}
	switch {
	case base == node && node.like == nil:
		return nil
	case base.state == 1:
		r.at(node.f, at, likeCycle, node.style.Name, strings.Join(append(chain, node.style.Name), ", "))
		return nil
	}
	r.resolveStyle(base, append(chain, node.style.Name))
	return base
}
