package ledger

import (
	"slices"
	"strings"
)

// Reading is a ledger that was read, with where everything in it stands.
type Reading struct {
	*Result
	Sources []Source // every file as it was read, the main one first
	r       *reader
	files   map[string]*file // by name, the shipped ones apart
}

// Read is Load for an editor: what was read, and where it stands.
func Read(opts Options) (*Reading, error) {
	opts.carefully = true // where every word stands is asked
	r, err := loadWhole(opts)
	if err != nil {
		return nil, err
	}
	rd := &Reading{Result: r.result(), Sources: r.sources, r: r, files: map[string]*file{}}
	for _, f := range r.files {
		if !f.shipped {
			rd.files[f.name] = f
		}
	}
	return rd, nil
}

// Span is a stretch of a line: bytes from its beginning, a byte order mark apart.
// Lines count from 0.
type Span struct {
	File             string // as messages name it
	Line, Start, End int
}

// Word is a word of a line with what it stands for: a slot, "" for a word that
// stands as it is, or that the line cannot have.
type Word struct {
	Span
	Text   string // of quoted text the content
	Quoted bool
	Slot   Slot
	known  bool
}

// Line is a line and the block that it belongs to. Block is "" for a line of
// none, Key the first word, "" where there is none. Words has the first word too.
type Line struct {
	File    string
	Number  int
	Block   string
	Head    int // the block's first line
	Key     string
	Words   []Word
	IsHead  bool // it begins its block
	Comment int  // where a comment begins, the line's end where there is none
	End     int  // the line's length
	walk    walk // what may follow the last word
	broken  bool
}

// IsRow reports whether the line begins with a number: a figure's row.
func (l Line) IsRow() bool { return isNumber(l.Key) }

// word is a line's word as typed by its place, "" where there is none.
func (l Line) word(n int) string {
	if n >= len(l.Words) {
		return ""
	}
	return l.Words[n].Text
}

// Line gives a line of a file; false where the file or the line is not there.
func (rd *Reading) Line(name string, n int) (Line, bool) {
	f := rd.files[name]
	if f == nil || n < 0 || n >= len(f.lines) {
		return Line{}, false
	}
	return f.reads(int32(n)), true
}

// Lines counts the lines of a file.
func (rd *Reading) Lines(name string) int {
	if f := rd.files[name]; f != nil {
		return len(f.lines)
	}
	return 0
}

// begin is the word that begins a line, and whether it stands at column 0.
func (f *file) begin(n int32) (word string, outer bool) {
	l := f.lines[n]
	if l.first == l.last || f.tokens[l.first].quoted {
		return "", false
	}
	tok := f.tokens[l.first]
	return f.word(tok), tok.start == l.start
}

// headAbove finds the first line of the block that a line stands in.
func (f *file) headAbove(n int32) (kind string, head int32) {
	for ; n >= 0; n-- {
		word, outer := f.begin(n)
		if !outer {
			continue
		}
		if isBlock(word) {
			return word, n
		}
		if word == includeKey {
			return "", 0
		}
	}
	return "", 0
}

// reads says what the words of a line stand for.
func (f *file) reads(n int32) Line {
	l := f.lines[n]
	line := Line{File: f.name, Number: int(n), End: int(l.end - l.start), Comment: int(f.commentStart(int(n)) - l.start), broken: l.broken}
	word, outer := f.begin(n)
	line.Key = word
	if outer && (isBlock(word) || word == includeKey) {
		line.Block, line.Head, line.IsHead = word, int(n), true
	} else if kind, head := f.headAbove(n); kind != "" {
		line.Block, line.Head = kind, int(head)
	}
	line.walk = formNamed(line).walk()
	for i, tok := range f.tokens[l.first:l.last] {
		w := Word{
			Span: Span{f.name, int(n), int(tok.start - l.start), int(tok.end - l.start)}, Text: f.word(tok), Quoted: tok.quoted, known: true,
		}
		if i > 0 {
			last := i == int(l.last-l.first)-1
			if w.Slot, w.known = line.walk.take(w.Text, w.Quoted); !w.known && last && w.Quoted {
				w.known = true // a remark
			}
		}
		line.Words = append(line.Words, w)
	}
	return line
}

// isBlock reports whether a word begins a block.
func isBlock(word string) bool {
	_, known := blockSpecs[word]
	return known
}

// noForm is that of a line that the language does not know.
var noForm = &form{}

// formNamed is the form of a line.
func formNamed(l Line) *form {
	name := l.Block
	switch {
	case l.IsHead:
	case isNumber(l.Key):
		name += "/" + rowForm
	default:
		name += "/" + l.Key
	}
	if f := allForms()[name]; f != nil {
		return f
	}
	return noForm
}

// Body are the lines of the block that begins at a line, the first apart, blank
// ones and comments left out.
func (rd *Reading) Body(name string, head int) []Line {
	f := rd.files[name]
	if f == nil {
		return nil
	}
	var body []Line
	for n := int32(head) + 1; int(n) < len(f.lines); n++ {
		word, outer := f.begin(n)
		if outer && (isBlock(word) || word == includeKey) {
			break
		}
		if f.lines[n].first < f.lines[n].last && !outer {
			body = append(body, f.reads(n))
		}
	}
	return body
}

// Block is a block of a file, from its first line to its last that has a word.
type Block struct {
	Line
	Last int
}

// Name is what the words behind the block's keyword say, remarks apart.
func (b Block) Name() string {
	var words []string
	for _, w := range b.Words[1:] {
		if !w.Quoted {
			words = append(words, w.Text)
		}
	}
	return strings.Join(words, " ")
}

// Blocks lists the blocks of a file in order.
func (rd *Reading) Blocks(name string) []Block {
	f := rd.files[name]
	if f == nil {
		return nil
	}
	var blocks []Block
	for n := range f.lines {
		word, outer := f.begin(int32(n))
		switch {
		case outer && isBlock(word):
			blocks = append(blocks, Block{f.reads(int32(n)), n})
		case f.lines[n].first < f.lines[n].last && !outer && len(blocks) > 0:
			blocks[len(blocks)-1].Last = n
		}
	}
	return blocks
}

// Spot is a place in a line, for what may stand there.
type Spot struct {
	Line
	// Typed is what of a word stands before the place, Replaced the whole of it.
	Typed    string
	Replaced Span
	// Keywords may stand there as they are: of a block, a line or inside one.
	Keywords []string
	// Rows says that a figure's number may begin the line.
	Rows  bool
	Slots []Slot
	// Before are the line's words before that one.
	Before []Word
	// Close says that quoted text or a comment stands right behind, which a word must be
	// kept apart from.
	Close bool
}

// At says what may stand at a place of a file, in bytes from its line's
// beginning; false inside comments and quoted text.
func (rd *Reading) At(name string, n, column int) (Spot, bool) {
	f := rd.files[name]
	if f == nil || n < 0 || n > len(f.lines) {
		return Spot{}, false
	}
	if n == len(f.lines) { // the place behind the last line's end
		return Spot{Keywords: blockKinds, Replaced: Span{File: name, Line: n}}, column == 0
	}
	line := f.reads(int32(n))
	if column > line.End || line.Comment < line.End && column > line.Comment || line.unclosed(f, column) {
		return Spot{}, false
	}
	spot := Spot{Line: line, Replaced: Span{name, n, column, column}, Close: line.Comment < line.End && column == line.Comment}
	for _, w := range line.Words {
		switch {
		case w.End < column:
			spot.Before = append(spot.Before, w)
		case w.Start < column && w.Quoted:
			return Spot{}, false
		case w.Start == column && w.Quoted:
			spot.Close = true
		case w.Start <= column:
			spot.Replaced, spot.Typed = w.Span, f.lineText(int32(n))[w.Start:column]
		}
	}
	spot.offer(f)
	return spot, true
}

// lineText is a line as it stands.
func (f *file) lineText(n int32) string { return f.text[f.lines[n].start:f.lines[n].end] }

// unclosed reports whether a place of a line that could not be read is inside
// quotes.
func (l Line) unclosed(f *file, column int) bool {
	return l.broken && strings.Count(strings.ReplaceAll(f.lineText(int32(l.Number))[:column], `\"`, ""), `"`)%2 == 1
}

// offer fills in what may stand at the spot.
func (s *Spot) offer(f *file) {
	if len(s.Before) > 0 {
		s.walk = formNamed(s.Line).walk()
		for _, w := range s.Before[1:] {
			s.walk.take(w.Text, w.Quoted)
		}
		s.Slots, s.Keywords = s.walk.slots()
		return
	}
	if s.Replaced.Start == 0 {
		s.Keywords = blockKinds
		return
	}
	kind, head := f.headAbove(int32(s.Number) - 1)
	spec := blockSpecs[kind]
	s.Block, s.Head = kind, int(head)
	s.Rows = spec.rows
	s.Keywords = slices.DeleteFunc(slices.Clone(spec.keys), func(key string) bool {
		return !slices.Contains(spec.repeats, key) && f.hasLine(head, int32(s.Number), key)
	})
}

// hasLine reports whether a block has a line that begins with a word, apart from
// one.
func (f *file) hasLine(head, apart int32, key string) bool {
	for n := head + 1; int(n) < len(f.lines); n++ {
		word, outer := f.begin(n)
		if outer && isBlock(word) {
			return false
		}
		if n != apart && word == key {
			return true
		}
	}
	return false
}

// LineText is a line as it stands, without its end and a byte order mark; "" where
// there is none.
func (rd *Reading) LineText(name string, n int) string {
	f := rd.files[name]
	if f == nil || n < 0 || n >= len(f.lines) {
		return ""
	}
	return f.lineText(int32(n))
}

// Marked reports whether a file begins with a byte order mark.
func (rd *Reading) Marked(name string) bool {
	f := rd.files[name]
	return f != nil && strings.HasPrefix(f.text, byteOrderMark)
}
