package ledger

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// block is a line at column 0 and the indented lines beneath it.
type block struct {
	f    *file
	kind string
	head int32
	body []int32
	// torn says that a line of the block could not even be told from others: what
	// seems to be missing may have stood there.
	torn bool
	// strays are the words that begin lines and are none of the block's keys.
	strays []string
	// guesses are where the reader's list has them.
	guesses []int
	run     *plainRun // it stands for plain flights
}

// headToken is a token of the block's first line: its keyword is 0.
func (b *block) headToken(i int32) token { return b.f.tokens[b.f.lines[b.head].first+i] }

// says reports whether a word stands in the block's first line.
func (b *block) says(word string) bool {
	l := b.f.lines[b.head]
	return slices.ContainsFunc(b.f.tokens[l.first:l.last], func(tok token) bool { return !tok.quoted && b.f.word(tok) == word })
}

// unread reports whether a line of the block, or a part of one, could not be
// read for its characters, which was reported: what is missing may stand there.
func (b *block) unread() bool {
	broken := func(n int32) bool { return b.f.lines[n].broken }
	return b.torn || broken(b.head) || slices.ContainsFunc(b.body, broken)
}

func isNumber(word string) bool {
	for i := range len(word) {
		if word[i] < '0' || word[i] > '9' {
			return false
		}
	}
	return word != ""
}

// splitter walks the lines of a file and groups them into blocks.
type splitter struct {
	r   *reader
	f   *file
	cur *block
	// before is the block above cur: a line that strayed into it begins cur, and
	// what follows is still before's.
	before *block
	// skip says that indented lines belong to something already reported.
	skip bool
	// begun says that a block began that is none of the file's head.
	begun bool
}

// split groups the lines of a file into blocks and follows its includes.
func (r *reader) split(f *file) {
	s := &splitter{r: r, f: f}
	for n := range f.lines {
		l := f.lines[n]
		if l.run > 0 {
			s.run(int32(n))
			continue
		}
		if l.first == l.last {
			s.wordless(l)
			continue
		}
		if tok := f.tokens[l.first]; tok.start == l.start {
			s.outer(int32(n), tok)
		} else {
			s.inner(int32(n), tok)
		}
	}
}

// wordless takes a line of which no word could be read. One that begins with what
// only looks like white space belongs to the block above, and a comment to
// nothing; else it was the head of a block.
func (s *splitter) wordless(l line) {
	if !l.broken || l.start == l.end {
		return
	}
	text := s.f.text[l.start:l.end]
	first, _ := utf8.DecodeRuneInString(text)
	switch {
	case strings.HasPrefix(strings.TrimLeft(text, " \t"), "#"):
	case first == ' ' || first == '\t' || looksLikeSpace(first):
		if s.cur != nil {
			s.cur = s.r.careful(s.cur)
			s.cur.torn = true
		}
	default:
		s.cur, s.skip = nil, true
		s.r.excuseWords(plainWords(text))
		s.r.lostMoney, s.r.lostLadder = true, true
	}
}

// begin opens a block.
func (s *splitter) begin(kind string, head int32) {
	if kind == includeKey {
		s.cur, s.skip = nil, false
		if !s.f.lines[head].broken {
			s.r.include(s.f, head)
		} else {
			s.r.lostFile = true
		}
		return
	}
	switch isHead := slices.Contains(headKinds, kind); {
	case !isHead:
		s.begun = true
	case s.begun && !s.f.lines[head].broken && s.f.tokens[s.f.lines[head].first].start == s.f.lines[head].start:
		s.r.at(s.f, s.f.tokens[s.f.lines[head].first], headLate, kind)
	}
	s.before, s.cur, s.skip = s.cur, &block{f: s.f, kind: kind, head: head}, false
	s.r.blocks[kind] = append(s.r.blocks[kind], s.cur)
}

// outer takes a line that starts at column 0.
func (s *splitter) outer(n int32, tok token) {
	word := s.f.word(tok)
	_, known := blockSpecs[word]
	switch {
	case !tok.quoted && (known || word == includeKey) && !s.strayed(word, n):
		s.begin(word, n)
	case s.cur != nil && blockSpecs[s.cur.kind].takes(word):
		s.cur = s.r.careful(s.cur)
		d := s.r.at(s.f, tok, bodyAtColumnOne, word)
		if word == "closed" {
			d.hinted("indent it, or write %s", closedLong)
			if l := s.f.lines[n]; l.first+1 == l.last {
				return // nothing follows: said once
			}
		} else {
			d.Fixes = []Fix{span{s.f, n, tok.start, tok.start}.fix(s.f.indent(s.cur))}
		}
		s.add(n)
	default:
		s.unknown(n, tok, word)
	}
}

// inner takes an indented line.
func (s *splitter) inner(n int32, tok token) {
	word := s.f.word(tok)
	_, known := blockSpecs[word]
	switch {
	case (known || word == includeKey) && !tok.quoted && !s.belongs(word, n) && !s.strayedIn(word, n):
		d := s.r.at(s.f, tok, blockIndented, word)
		if word == "closed" && s.cur != nil && s.cur.kind == "flight" {
			d.hinted("start at column 0, or write %s", closedShort)
		} else if !s.begun || !slices.Contains(headKinds, word) {
			d.Fixes = []Fix{span{s.f, n, s.f.lines[n].start, tok.start}.fix("")}
		}
		s.begin(word, n)
	case s.skip:
	case s.cur == nil:
		s.r.at(s.f, tok, lineOutside)
		s.skip = true
	case s.resumes(word, n):
		s.resume(n)
	default:
		s.add(n)
	}
}
