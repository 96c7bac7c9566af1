package ledger

import (
	"fmt"
	"strconv"
	"strings"

	"boxbook/report/display"
	"boxbook/season"
)

// kFactor is what the number behind a K is called.
const kFactor = "a K factor"

// The limits of a K factor.
const (
	maxFigureK  = 200
	maxElementK = 200
	maxFigures  = 200
)

// codeKey is a catalogue number among sequences that share a catalogue word.
type codeKey struct{ catalogue, code string }

// codeUse is the first K seen for a code.
type codeUse struct {
	k  int
	at season.Place
}

// sequence reads `sequence NAME` with its figures and their K.
func (r *reader) sequence(b *block) {
	before := r.errors
	w := r.header(b)
	tok, handle, ok := w.handle("a sequence's handle")
	w.end()
	s := &season.Sequence{Handle: handle, At: place(b.f, b.head)}
	lines := r.body(b)
	r.sequenceKeys(s, lines)
	r.sequenceFigures(b, s, lines)
	whole := func() bool { return r.errors == before && !b.unread() }
	if len(s.Figures) == 0 && whole() {
		r.at(b.f, b.headToken(0), noFigures, handle)
	}
	r.checkTotal(s, lines, whole())
	r.broken[s] = !whole()
	if !ok {
		excuse(r, r.names.sequences, b)
		return
	}
	define(r, r.names.sequences, b.f, tok, handle, s)
}

// sequenceKeys reads everything but the figures and the total.
func (r *reader) sequenceKeys(s *season.Sequence, lines []bodyLine) {
	for _, line := range lines {
		switch line.name() {
		case "category":
			s.Category = line.categoryName()
			line.end()
		case "programme":
			word, _, _ := line.choice("a programme", programmeWords(false))
			s.Programme = season.Programme(word)
			line.end()
		case "catalogue":
			_, s.Catalogue, _ = line.handle("a catalogue word")
			line.end()
		case "positioning":
			s.Positioning = line.weighted()
		case "harmony":
			s.Harmony = line.weighted()
		case "note":
			s.Notes = append(s.Notes, line.free())
		}
	}
}

// programmeWords lists the programmes, practice only where it may stand.
func programmeWords(practice bool) []string {
	words := make([]string, 0, len(season.Programmes))
	for _, p := range season.Programmes {
		if practice || p != season.Practice {
			words = append(words, string(p))
		}
	}
	return words
}

// categoryName takes a category and warns where no ladder has it.
func (w *words) categoryName() string {
	tok, name, ok := w.handle("a category")
	if !ok {
		return ""
	}
	var known []string
	for _, ladder := range w.r.names.ladders.list() {
		if _, found := ladder.Category(name); found {
			return name
		}
		for _, c := range ladder.Categories {
			known = append(known, c.Name)
		}
	}
	if !w.r.lostFile && !w.r.lostLadder {
		w.r.at(w.f, tok, unknownLadderC, name).didYouMean(name, known)
	}
	return name
}

// weighted reads `K n` of a positioning or harmony line.
func (l bodyLine) weighted() int {
	if !l.accept("K") {
		if tok, ok := l.word("K and a number"); ok {
			l.needsK(tok, "20")
		}
		return 0
	}
	k, _, _ := l.integer(kFactor, 1, maxFigureK)
	l.end()
	return k
}

// needsK reports a line that gives its K without the letter, or something else.
func (l bodyLine) needsK(tok token, example string) {
	text := l.text(tok)
	typed := strings.TrimRight(strings.TrimLeft(text, "Kk=:"), "Kk")
	if typed == "" {
		typed = l.peek()
	}
	k := "K " + numberOr(typed, example)
	d := l.fail(tok, unexpected, text, "K and a number")
	d.advise(instead("write `"+l.name()+" %s`", k).unless(!isNumber(strings.Trim(text, "Kk=:"))))
}

// numberOr is a word that is a number, else the example.
func numberOr(word, example string) string {
	if isNumber(word) {
		return word
	}
	return example
}

// sequenceFigures reads the numbered rows, which must count up from 1. A gap is
// said once, and not where a row could not be read.
func (r *reader) sequenceFigures(b *block, s *season.Sequence, lines []bodyLine) {
	next, rows := 1, 0
	for _, line := range lines {
		if line.num >= 0 {
			rows++
		}
	}
	s.Figures = make([]season.Figure, 0, min(rows, maxFigures))
	first := make(map[int]int32, rows) // the line of each number
	for _, line := range lines {
		if line.num < 0 {
			continue
		}
		at, twice := first[line.num]
		if !twice {
			first[line.num] = line.line
		}
		switch {
		case twice:
			line.fail(line.key, figureTwice, line.num, line.f.number(at))
			continue
		case line.num == next && line.num > maxFigures:
			line.fail(line.key, outOfRange, line.name(), "1", fmt.Sprint(maxFigures))
			next++
			continue
		case line.name()[0] == '0', line.num > next && !b.torn:
			line.fail(line.key, figureOrder, line.name(), next)
		}
		if line.num > maxFigures {
			continue
		}
		next = max(next, line.num+1)
		before := len(r.list)
		figure := line.figure(line.num)
		if len(r.list) == before && !b.unread() {
			r.compareK(s, line, figure)
		}
		s.Figures = append(s.Figures, figure)
	}
}

// figure reads a row: code:K for each element, or K and hints; then its label.
func (l bodyLine) figure(number int) season.Figure {
	if l.accept("K") {
		return l.figureByK()
	}
	figure := season.Figure{Elements: make([]season.Element, 0, l.last-l.i)}
	var bare *token
	for l.more() && !l.f.tokens[l.i].quoted {
		tok := l.next()
		code, k, hasK := strings.Cut(l.text(tok), ":")
		if !hasK && isNumber(code) && l.bareK(tok, bare) {
			return figure
		}
		if !hasK && bare == nil {
			bare = &tok
		}
		if !hasK && l.looseK(tok, bare) {
			return figure
		}
		element, ok := l.element(tok, code)
		if !ok {
			return figure
		}
		if hasK {
			if element.K, ok = l.elementK(tok, k); !ok {
				return figure
			}
		}
		figure.Elements = append(figure.Elements, element)
		figure.K += element.K
	}
	l.checkFigure(number, &figure, bare)
	figure.Label = l.end()
	return figure
}

// bareK reports a K that lost what says that it is one: `15` for K 15 where it
// stands alone, or `8.5.2.1 12` for 8.5.2.1:12. A number that may be a family's is
// left alone.
func (l bodyLine) bareK(tok token, bare *token) bool {
	number := l.text(tok)
	switch {
	case bare != nil && bare.end < tok.start && strings.TrimSpace(l.f.text[bare.end:tok.start]) == "" && strings.Contains(l.text(*bare), "."):
		d := l.fail(*bare, someK, l.text(*bare))
		d.adviseFor(span{l.f, l.line, bare.start, tok.end}, instead("write %s", l.text(*bare)+":"+number))
	case season.GroupOf(number) == "" && tok == l.nth(1) && !l.more():
		l.fail(tok, unexpected, number, "CODE:K or `K 14`").advise(instead("write %s", "K "+number))
	case season.GroupOf(number) == "" && tok == l.nth(1) && l.f.tokens[l.i].quoted:
		l.fail(tok, unexpected, number, "CODE:K or `K 14`").advise(instead("write %s", "K "+number))
	default:
		return false
	}
	return true
}

// looseK reports a K that stands by its code in another way than behind a colon:
// `7.4.1.1 K10`, `7.4.1.1=10` or `7.4.1.1/10` for 7.4.1.1:10.
func (l bodyLine) looseK(tok token, bare *token) bool {
	text := l.text(tok)
	if bare != nil && bare.end < tok.start && strings.TrimSpace(l.f.text[bare.end:tok.start]) == "" && isCodeOf(l.text(*bare)) {
		if k, found := strings.CutPrefix(strings.ToUpper(text), "K"); found && isNumber(k) {
			d := l.fail(*bare, someK, l.text(*bare))
			d.adviseFor(span{l.f, l.line, bare.start, tok.end}, instead("write %s", l.text(*bare)+":"+k))
			return true
		}
	}
	for _, sign := range []string{"=", "/"} {
		if code, k, found := strings.Cut(text, sign); found && isCodeOf(code) && isNumber(k) {
			l.fail(tok, badCode, text).advise(instead("write %s", code+":"+k))
			return true
		}
	}
	return false
}

// checkFigure reports a figure whose K cannot be told.
func (l bodyLine) checkFigure(number int, figure *season.Figure, bare *token) {
	switch {
	case l.failed:
	case len(figure.Elements) == 0:
		l.fail(after(l.key), figureNoK, number)
	case bare != nil:
		l.fail(*bare, someK, l.text(*bare))
	case figure.K < 1 || figure.K > maxFigureK:
		l.fail(l.key, figureK, number, figure.K)
	}
}

// element reads a code or a group.
func (l bodyLine) element(tok token, code string) (season.Element, bool) {
	group := season.GroupOf(code)
	if group != "" {
		return season.Element{Code: code, Group: group, Parts: 1}, true
	}
	if _, isCode := season.CodeParts(code); !isCode {
		d := l.fail(tok, badCode, code)
		at := span{l.f, l.line, tok.start, tok.start + int32(len(code))}
		switch {
		case code == "k":
			d.adviseFor(at, instead("write a capital %s", "K"))
		case isCodeOf(digits(code)):
			d.adviseFor(at, instead("a letter for a digit? %s", digits(code)))
		case strings.HasPrefix(l.text(tok), "K:"):
			d.hinted("no colon behind K: `K 14`")
		case Nearest(code, season.Groups) != "":
			d.didYouMeanAt(at, code, season.Groups)
		case len(code) > 1 && code[0] == 'K' && isNumber(code[1:]):
			d.adviseFor(at, instead("put a space after K: %s", "K "+code[1:]))
		case tok == l.f.tokens[l.last-1] && familyNamed(code) != "":
			d.hinted("%s; as a label it stands in quotes: %s", familyNamed(code), Quote(code))
		case looksLikeText(l.f.text[tok.start:l.f.tokens[l.last-1].end]):
			l.allQuoted(d, tok, "put the label in quotes: %s")
		case strings.Contains(code, ","):
			points := strings.ReplaceAll(code, ",", ".")
			_, isCode := season.CodeParts(points)
			d.adviseFor(at, instead("a catalogue number has points: %s", points).unless(!isCode))
		}
		return season.Element{}, false
	}
	if unknown, nearest := season.NearestCode(code); nearest != "" {
		at := token{start: tok.start, end: tok.start + int32(len(code)), line: tok.line}
		l.r.at(l.f, at, impossibleCode, code, unknown, nearest)
	}
	return season.Element{Code: code, Group: group, Parts: 1}, true
}

// digits has digits for the letters that look like them.
func digits(text string) string {
	return strings.NewReplacer("O", "0", "o", "0", "l", "1", "I", "1").Replace(text)
}

func isCodeOf(text string) bool {
	_, isCode := season.CodeParts(text)
	return isCode && strings.Count(text, ".") >= leastPoints
}

func (l bodyLine) elementK(tok token, text string) (int, bool) {
	if next := l.peek(); text == "" && isNumber(next) {
		at := span{l.f, l.line, tok.start, l.f.tokens[l.i].end}
		l.fail(tok, unexpected, l.text(tok), "CODE:K or `K 14`").adviseFor(at, instead("no space behind the colon: %s", l.text(tok)+next))
		return 0, false
	}
	if !isNumber(text) {
		at := span{l.f, l.line, tok.end - int32(len(text)), tok.end}
		advice := numberAdvice(text).or(wholeAdvice(text))
		l.fail(tok, badNumber, text, kFactor).adviseFor(at, advice.unless(!isNumber(advice.text)))
		return 0, false
	}
	k := rowNumber(text)
	if k > maxElementK {
		l.fail(tok, outOfRange, text, "0", fmt.Sprint(maxElementK))
		return 0, false
	}
	return k, true
}

// figureByK reads the rest of `K n HINT ...`: the hints share K equally.
func (l bodyLine) figureByK() season.Figure {
	k, _, ok := l.integer(kFactor, 1, maxFigureK)
	figure := season.Figure{K: k}
	for ok && l.peek() != "" {
		tok := l.next()
		code := l.text(tok)
		if strings.Contains(code, ":") {
			l.fail(tok, bothK, code)
			return figure
		}
		element, known := l.element(tok, code)
		if !known {
			return figure
		}
		figure.Elements = append(figure.Elements, element)
	}
	for i := range figure.Elements {
		figure.Elements[i].K, figure.Elements[i].Parts = k, len(figure.Elements)
	}
	figure.Hinted = len(figure.Elements) > 0
	figure.Label = l.end()
	return figure
}

// leastPoints is how many points tell a catalogue number from the number of a
// family, whose figures have many a K.
const leastPoints = 2

// compareK warns where a code has another K than it had before among the
// sequences of its catalogue word.
func (r *reader) compareK(s *season.Sequence, line bodyLine, figure season.Figure) {
	for i, element := range figure.Elements {
		if element.Parts != 1 || strings.Count(element.Code, ".") < leastPoints || line.text(line.nth(1)) == "K" {
			continue
		}
		key := codeKey{s.Catalogue, element.Code}
		use, seen := r.codeK[key]
		if !seen {
			r.codeK[key] = codeUse{element.K, place(line.f, line.line)}
			continue
		}
		if use.k != element.K {
			r.at(line.f, line.nth(1+int32(i)), kDiffers, element.Code, element.K, use.k, placeText(use.at))
		}
	}
}

// checkTotal reads `total K n` and compares it with the sums of a sequence
// that was read whole.
func (r *reader) checkTotal(s *season.Sequence, lines []bodyLine, whole bool) {
	for _, line := range lines {
		if line.name() != "total" {
			continue
		}
		if !line.accept("K") {
			if tok, ok := line.word("K and a number"); ok {
				line.needsK(tok, "60")
			}
			return
		}
		said := len(r.list)
		total, tok, ok := line.integer(kFactor, 1, maxFigures*maxFigureK)
		figures := s.K()
		all := figures + s.Positioning + s.Harmony
		switch {
		case !ok && whole && len(r.list) > said:
			if a := pointInTotal(line.text(tok), figures, all); a.certain {
				r.list[said].advise(a)
			}
		case ok && whole && total != figures && total != all:
			r.at(line.f, tok, totalMismatch, total, figures, all).advise(zeroInTotal(s, total, figures, all).or(hint(amissK(s, total, figures, all))))
		case ok:
			s.Total = total
		}
		line.end()
	}
}

// pointInTotal takes a point out of a total that is a sum of K without it: 4.6 is 46.
func pointInTotal(text string, figures, all int) advice {
	if total := strings.NewReplacer(".", "", ",", "").Replace(text); total == strconv.Itoa(figures) || total == strconv.Itoa(all) {
		return instead("a whole number: %s", total)
	}
	return advice{}
}

// fewFigures are so few that a total of ten times their K may be that of the figures still
// to be typed as well.
const fewFigures = 5

// zeroInTotal takes a total that is ten times a sum of K, as the maximum is, or a tenth of one
// for that sum.
func zeroInTotal(s *season.Sequence, total, figures, all int) advice {
	for _, sum := range []int{figures, all} {
		switch {
		case total == 10*sum:
			return instead("the K come to %s, and ten times that is the maximum", strconv.Itoa(sum)).unless(len(s.Figures) < fewFigures)
		case 10*total == sum:
			return instead("a zero left out? %s", strconv.Itoa(sum))
		}
	}
	return advice{}
}

// amissK says by how much the K of the figures, or of all lines, differs from a printed
// total: what is missing may be a figure. A K whose two digits, changed over, make the
// total right is the likeliest slip.
func amissK(s *season.Sequence, total, figures, all int) string {
	if said := turnedK(s, total, figures, all); said != "" {
		return said
	}
	const lack, much = "a figure left out, or a mistyped K?", "a figure typed twice, or a mistyped K?"
	switch {
	case total > all && all > figures:
		return fmt.Sprintf("%d are missing, or %d if it is the figures' alone: %s", total-all, total-figures, lack)
	case total > all:
		return fmt.Sprintf("%d %s missing: %s", total-all, display.Plural(total-all, "is", "are"), lack)
	case total < figures && all > figures:
		return fmt.Sprintf("%d too many, or %d if it is of all lines: %s", figures-total, all-total, much)
	case total < figures:
		return fmt.Sprintf("%d too many: %s", figures-total, much)
	default:
		return messages[totalMismatch].hint
	}
}

// turnedK names the figure with a K whose two digits, changed over, give a total; "" where
// there is none, or several.
func turnedK(s *season.Sequence, total, figures, all int) string {
	said := ""
	for i, figure := range s.Figures {
		typed := []int{figure.K}
		if len(figure.Elements) > 0 && !figure.Hinted {
			typed = typed[:0]
			for _, element := range figure.Elements {
				typed = append(typed, element.K)
			}
		}
		for _, k := range typed {
			turned := k%10*10 + k/10
			more := turned - k
			if k < 10 || k > 99 || more == 0 || figures+more != total && all+more != total {
				continue
			}
			if said != "" {
				return ""
			}
			said = fmt.Sprintf("figure %d with K %d instead of %d would give it: digits changed over?", i+1, turned, k)
		}
	}
	return said
}
