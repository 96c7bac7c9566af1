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
}

// headToken is a token of the block's first line: its keyword is 0.
func (b *block) headToken(i int32) token { return b.f.tokens[b.f.lines[b.head].first+i] }

// unread reports whether a line of the block, or a part of one, could not be
// read for its characters, which was reported: what is missing may stand there.
func (b *block) unread() bool {
	broken := func(n int32) bool { return b.f.lines[n].broken }
	return b.torn || broken(b.head) || slices.ContainsFunc(b.body, broken)
}

func isNumber(word string) bool {
	return word != "" && strings.Trim(word, "0123456789") == ""
}

// splitter walks the lines of a file and groups them into blocks.
type splitter struct {
	r   *reader
	f   *file
	cur *block
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
	s.cur, s.skip = &block{f: s.f, kind: kind, head: head}, false
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
		d := s.r.at(s.f, tok, bodyAtColumnOne, word)
		if word == "closed" {
			d.hinted("indent it, or write %s", closedLong)
			if l := s.f.lines[n]; l.first+1 == l.last {
				return // nothing follows: said once
			}
		} else {
			d.Fixes = []Fix{span{s.f, n, tok.start, tok.start}.fix(s.f.indent(s.cur))}
		}
		s.cur.body = append(s.cur.body, n)
	default:
		s.unknown(n, tok, word)
	}
}

// unknown takes a line at column 0 that begins no block. Where the word is
// near a keyword the lines beneath are read as that block.
func (s *splitter) unknown(n int32, tok token, word string) {
	d := s.r.at(s.f, tok, unknownBlock, word)
	guess := Nearest(word, blockKinds)
	d.didYouMean(word, blockKinds)
	d.meantAsComment()
	if guess != "" && guess != includeKey {
		s.begin(guess, n)
		return
	}
	s.r.lostFile = s.r.lostFile || guess == includeKey
	if l := s.f.lines[n]; l.first+1 < l.last {
		s.r.excused[s.f.word(s.f.tokens[l.first+1])] = true
	}
	s.cur, s.skip = nil, true
}

// inner takes an indented line.
func (s *splitter) inner(n int32, tok token) {
	word := s.f.word(tok)
	_, known := blockSpecs[word]
	switch {
	case (known || word == includeKey) && !tok.quoted && !s.belongs(word, n):
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
	default:
		s.cur.body = append(s.cur.body, n)
	}
}

// belongs reports whether an indented line that begins with a block's keyword
// is a line of the block above it, or of one that could not be read.
func (s *splitter) belongs(word string, n int32) bool {
	switch {
	case s.cur == nil:
		return s.skip && !s.dated(n) && slices.ContainsFunc(blockKinds, func(kind string) bool { return blockSpecs[kind].takes(word) })
	case blockSpecs[s.cur.kind].takes(word):
		return word != "closed" || !s.dated(n)
	case word == "closed" && !s.dated(n):
		return true // of no flight: the block above says so
	default: // a misspelt key: `flight 4` for the flights of a policy
		return blockSpecs[word].dated && !s.dated(n) && Nearest(word, blockSpecs[s.cur.kind].keys) != ""
	}
}

// dated reports whether a line's second word looks like a date.
func (s *splitter) dated(n int32) bool {
	l := s.f.lines[n]
	return l.first+1 < l.last && startsLikeDate(s.f.word(s.f.tokens[l.first+1]))
}

// strayed reports whether a line at column 0 that could begin a block is
// rather a line of the block above that lost its indent: it lacks what the
// block needs.
func (s *splitter) strayed(word string, n int32) bool {
	if s.cur == nil || !blockSpecs[s.cur.kind].takes(word) {
		return false
	}
	l := s.f.lines[n]
	args := s.f.tokens[l.first+1 : l.last]
	switch word {
	case "contest":
		return len(args) < 2 || !startsLikeDate(s.f.word(args[1]))
	case "cost", "signoff", "closed":
		return !s.dated(n)
	case "sequence":
		return !s.beneath(n, s.sequenceLine)
	case "rules":
		return s.taken(n) && !s.beneath(n, func(first string, _ []token) bool { return slices.Contains(styleSettings, first) })
	case "ladder":
		return s.taken(n) && !s.beneath(n, func(first string, rest []token) bool {
			return first == "category" && (s.cur.kind == "contest" || len(rest) > 1)
		})
	default:
		return false
	}
}

// taken reports whether the lines beneath line n, if there are any, belong to
// the block above it.
func (s *splitter) taken(n int32) bool {
	any, ours := false, false
	s.beneath(n, func(first string, _ []token) bool {
		any = true
		ours = ours || blockSpecs[s.cur.kind].takes(first)
		return false
	})
	return ours || !any
}

// sequenceLine reports whether a line can only be a sequence's.
func (s *splitter) sequenceLine(first string, rest []token) bool {
	if first == "programme" || first == "catalogue" || first == "total" {
		return true
	}
	if !isNumber(first) && first != "positioning" && first != "harmony" || len(rest) == 0 {
		return false
	}
	word := s.f.word(rest[0])
	return word == "K" || strings.Contains(word, ":")
}

// beneath reports whether any of the indented lines that follow line n is as
// asked for.
func (s *splitter) beneath(n int32, is func(first string, rest []token) bool) bool {
	for _, l := range s.f.lines[n+1:] {
		if l.first == l.last {
			continue
		}
		tok := s.f.tokens[l.first]
		if tok.start == l.start {
			return false
		}
		if is(s.f.word(tok), s.f.tokens[l.first+1:l.last]) {
			return true
		}
	}
	return false
}

func startsLikeDate(word string) bool {
	return len(word) >= 5 && isNumber(word[:4]) && strings.ContainsAny(word[4:5], "-./") || strings.Count(word, ".") == 2
}
