package ledger

import (
	"slices"
	"strconv"
	"strings"
)

// bodyLine is an indented line of a block, its first word taken.
type bodyLine struct {
	*words
	key token
	num int // the number that begins a row, -1 for a key
	// torn says that the line below holds the rest of this one.
	torn bool
}

// name is the key as typed.
func (l bodyLine) name() string { return l.text(l.key) }

// body gives the block's lines, reports keys that the block does not have and
// keys that stand twice, and drops both. Where the lines from one on are another
// block's, whose first line is missing or misread, that is said once and they are
// dropped.
func (r *reader) body(b *block) []bodyLine {
	spec := blockSpecs[b.kind]
	if len(b.body) > 0 && len(spec.keys) == 0 {
		r.at(b.f, b.f.tokens[b.f.lines[b.body[0]].first], bodyNotAllowed, b.kind)
		return nil
	}
	seen := bodySeen{spec: spec, b: b, lines: r.room.bodyLines(len(b.body))}
	for i, n := range b.body {
		line := r.bodyLine(b.f, n)
		first, fits := seen.fits(line)
		if fits {
			seen.lines = append(seen.lines, line)
			continue
		}
		if d := r.misfit(b, line, first); seen.continues(line) {
			seen.lines[len(seen.lines)-1].torn = true
			d.hinted("put it at the end of the line above")
		} else if seen.othersFrom(r, i) {
			r.loseBlock(b, i, d)
			break
		}
	}
	r.dropGuesses(b, seen.stands)
	return seen.lines
}

// bodyLine is a line of a block's body, its first word taken.
func (r *reader) bodyLine(f *file, n int32) bodyLine {
	w := r.words(f, n)
	line := bodyLine{words: w, key: w.next(), num: -1}
	if word := line.name(); isNumber(word) {
		line.num = rowNumber(word)
	}
	return line
}

// misfit reports a line that the block cannot have, or not again; first is the
// one that stands there already.
func (r *reader) misfit(b *block, line bodyLine, first *bodyLine) *Diagnostic {
	word := line.name()
	switch {
	case first == nil:
		b.strays = append(b.strays, word)
		d := r.at(b.f, line.key, unknownKey, blockNoun(b.kind), word)
		switch key := keyMeant(word); {
		case key != "" && !blockSpecs[b.kind].takes(key):
			d.hinted("%s", belongsUnder(key))
		case !isKeyAnywhere(word):
			d.didYouMean(word, blockSpecs[b.kind].keys)
		}
		if _, head := blockSpecs[word]; head {
			d.Fixes = nil // a keyword in another place is no misspelt one
		}
		d.meantAsComment()
		if number, slip := rowSlip(word); blockSpecs[b.kind].rows && number != "" {
			d.advise(instead(slip, number))
		}
		b.guesses = append(b.guesses, len(r.list)-1)
		return d
	case first.name() != word:
		return r.at(b.f, line.key, keyTwiceAs, word, b.f.number(first.line), first.name())
	default:
		return r.at(b.f, line.key, keyTwice, word, b.f.number(first.line))
	}
}

// loseBlock gives up the lines of a block from one on, which are another's: what
// that defined is not asked for.
func (r *reader) loseBlock(b *block, from int, d *Diagnostic) {
	d.Fixes = nil
	d.hinted("from here on the lines look like another block's: is its first line missing?")
	var keys []string
	for _, n := range b.body[from:] {
		keys = append(keys, b.f.word(b.f.tokens[b.f.lines[n].first]))
	}
	b.body, b.torn = b.body[:from], true
	r.names.loseKind(func(kind string) bool {
		return !slices.ContainsFunc(keys, func(key string) bool { return !blockSpecs[kind].takes(key) })
	})
	r.lostMoney, r.lostLadder = true, true
}

// bodySeen is what of a block's lines was read.
type bodySeen struct {
	spec  blockSpec
	b     *block
	lines []bodyLine
}

// fits reports whether the block has a line like this, and may have it once more;
// else first is the one that it has already, nil where it has none such.
func (s bodySeen) fits(line bodyLine) (first *bodyLine, ok bool) {
	word := line.name()
	if line.key.quoted || !s.spec.takes(word) {
		return nil, false
	}
	if line.num >= 0 || slices.Contains(s.spec.repeats, word) {
		return nil, true
	}
	if i := slices.IndexFunc(s.lines, func(l bodyLine) bool { return l.num < 0 && sameKey(l.name()) == sameKey(word) }); i >= 0 {
		return &s.lines[i], false
	}
	return nil, true
}

// continues reports whether a line holds the rest of the row or sheet above it:
// it begins with a mark that is no figure's number.
func (s bodySeen) continues(line bodyLine) bool {
	if len(s.lines) == 0 || line.key.quoted {
		return false
	}
	above := s.lines[len(s.lines)-1]
	_, isMark := markWords[line.name()]
	_, isGrade := fastGrade(line.name())
	return s.b.kind == "flight" && (isMark || isGrade) && line.f.number(above.line) == line.f.number(line.line)-1 && (above.num >= 0 || above.name() == "sheet")
}

// rowSlip gives the number that a row's first word was meant to be, "" where it is
// nothing like one, and words for the slip.
func rowSlip(word string) (number, slip string) {
	number = strings.TrimRight(word, ".):,;")
	if number != word && isNumber(number) {
		return number, "the number stands alone: %s"
	}
	number = digits(word)
	if number != word && isNumber(number) && number[0] != '0' {
		return number, "a letter for a digit? %s"
	}
	return "", ""
}

// stands reports whether the block has a line with this key that it can have but
// once.
func (s bodySeen) stands(key string) bool {
	return !slices.Contains(s.spec.repeats, key) && slices.ContainsFunc(s.lines, func(l bodyLine) bool { return l.name() == key })
}

// othersFrom reports whether the lines from number i on, the first of which does
// not fit, are another block's: the next does not fit either, nor looks like a
// misspelt key of this one.
func (s bodySeen) othersFrom(r *reader, i int) bool {
	if i+1 >= len(s.b.body) {
		return false
	}
	misfits := 0
	for _, n := range s.b.body[i : i+2] {
		line := r.bodyLine(s.b.f, n)
		switch first, fits := s.fits(line); {
		case !fits && first == nil && !isKeyAnywhere(line.name()) && Nearest(line.name(), s.spec.keys) != "":
		case !fits, line.num >= 0 && s.hasRow(line.num):
			misfits++
		}
	}
	return misfits == 2
}

// isKeyAnywhere reports whether some block has a line that begins with this word:
// it is no misspelt one of another.
func isKeyAnywhere(word string) bool {
	for _, spec := range blockSpecs {
		if slices.Contains(spec.keys, word) {
			return true
		}
	}
	return false
}

// hasRow reports whether a row of this number was read.
func (s bodySeen) hasRow(num int) bool {
	return slices.ContainsFunc(s.lines, func(l bodyLine) bool { return l.num == num })
}

// dropGuesses takes back the edits that would make a misspelt key one that the
// block cannot have.
func (r *reader) dropGuesses(b *block, cannot func(key string) bool) {
	for _, i := range b.guesses {
		if fixes := r.list[i].Fixes; len(fixes) > 0 && cannot(fixes[0].Text) {
			r.list[i].Fixes = nil
		}
	}
}

// rowNumber reads a row's number; one too large for any sequence stays large.
func rowNumber(word string) int {
	n, err := strconv.Atoi(word)
	if err != nil || n > 1<<20 {
		return 1 << 20
	}
	return n
}

// free takes the quoted text that is the line's whole content, and the remark
// that may follow.
func (l bodyLine) free() string { return l.quotedLine("text in quotes") }

// quotedLine is free with other words for what is expected.
func (l bodyLine) quotedLine(want string) string {
	text, _, _ := l.quoted(want)
	l.end()
	return text
}

// video reads the path of a video.
func (l bodyLine) video() string {
	path, tok, ok := l.quoted("the path of a video in quotes")
	l.end()
	if ok {
		l.notBlank(path, tok)
	}
	return path
}

// notBlank warns of a path of nothing but spaces.
func (w *words) notBlank(path string, tok token) {
	if strings.TrimSpace(path) == "" {
		w.r.at(w.f, tok, emptyPath)
	}
}

// header gives the block's first line, its keyword taken.
func (r *reader) header(b *block) *words {
	w := r.words(b.f, b.head)
	w.next()
	return w
}

// blockNoun is a block as a sentence begins with it.
func blockNoun(kind string) string {
	switch kind {
	case "rules":
		return "a rule style"
	case "fault-kind":
		return "a fault kind"
	default:
		return "a " + kind
	}
}
