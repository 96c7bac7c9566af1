package ledger

import "strings"

// Tidy lays a ledger text out. It changes white space, the letter case of
// marks, decimal commas and the minus that pages print, and nothing else: every token, comment, blank line,
// line ending and byte order mark stays, each on its line. Tidying twice is
// tidying once. name is the file's name in messages.
//
// The text is read for itself, without what it includes. Where its characters
// or the order of its lines and blocks are wrong, nothing can be laid out and
// the error is an *InvalidError; a wrong mark or an unknown name is no
// hindrance. A text that would grow over the language's limit is a
// *TooLargeError.
func Tidy(name, text string) (string, error) {
	r, f := alone(name, text)
	if err := r.structure(); err != nil {
		return "", err
	}
	t := newTidier(r, f)
	for _, s := range t.stretches() {
		t.stretch(s)
	}
	tidied := t.text()
	if len(tidied) > maxFile {
		return "", &TooLargeError{name}
	}
	// A ledger may be the only copy of a season: what was just laid out is read
	// again and held against what was typed.
	return tidied, sameWords(name, text, tidied)
}

// alone reads one file for itself: whatever it includes is taken as there.
func alone(name, text string) (*reader, *file) {
	r := newReader(Options{Files: elsewhere{}, carefully: true})
	r.root, r.open = "/", []string{"/ledger"}
	r.located[elsewherePath] = name
	r.addFile(name, text, false)
	return r, r.files[0]
}

// elsewhere stands for all included files: they are there, and read already.
type elsewhere struct{ Memory }

const elsewherePath = "/elsewhere"

func (elsewhere) Locate(string) (string, error) { return elsewherePath, nil }

// structure reports what is wrong with characters, lines and blocks, whatever
// the words in them mean.
func (r *reader) structure() error {
	for _, blocks := range r.blocks {
		for _, b := range blocks {
			r.body(b)
		}
	}
	return sortList(r.list).Err()
}

// tidier lays one file out, line by line.
type tidier struct {
	f     *file
	owner []*block // of each line; nil for blank lines, comments and includes
	lines []laidLine
}

// laidLine is a line on its way. Columns count what a terminal uses, from 0.
type laidLine struct {
	content string // what stands before the comment, laid out
	comment string // from its # to the line's end, as typed
	lead    string // white space before a comment that has its line to itself
	column  int    // where the # stands
}

func newTidier(r *reader, f *file) *tidier {
	t := &tidier{f: f, owner: make([]*block, len(f.lines)), lines: make([]laidLine, len(f.lines))}
	for _, blocks := range r.blocks {
		for _, b := range blocks {
			t.owner[b.head] = b
			for _, n := range b.body {
				t.owner[n] = b
			}
		}
	}
	for n := range f.lines {
		start, at := f.lines[n].start, f.commentStart(n)
		t.lines[n] = laidLine{comment: f.text[at:f.lines[n].end], column: columns(f.text[start:at])}
		if f.lines[n].first == f.lines[n].last {
			t.lines[n].lead = f.text[start:at]
		}
	}
	return t
}

// commentStart is where a line's comment begins, the line's end where there is
// none.
func (f *file) commentStart(n int) int32 {
	l := f.lines[n]
	from := l.start
	if l.first < l.last {
		from = f.tokens[l.last-1].end
	}
	return l.end - int32(len(strings.TrimLeft(f.text[from:l.end], " \t")))
}

// stretch is a number of lines that are aligned with one another: a block and
// whatever follows it up to the next one, or a run of one-line blocks.
type stretch struct{ from, to int }

func (t *tidier) stretches() []stretch {
	var all []stretch
	from := 0
	for n := 1; n <= len(t.lines); n++ {
		if n == len(t.lines) || (t.begins(n) && !t.joins(n)) {
			all = append(all, stretch{from, n})
			from = n
		}
	}
	return all
}

// begins reports whether a line starts at column 0 with a keyword.
func (t *tidier) begins(n int) bool {
	l := t.f.lines[n]
	return l.first < l.last && t.f.tokens[l.first].start == l.start
}

// joins reports whether a line continues the run of the line above it: money,
// or includes.
func (t *tidier) joins(n int) bool {
	if !t.begins(n - 1) {
		return false
	}
	word, above := t.keyword(n), t.keyword(n-1)
	return (blockSpecs[word].money && blockSpecs[above].money) ||
		(word == includeKey && above == includeKey)
}

// keyword is a line's first word.
func (t *tidier) keyword(n int) string { return t.f.word(t.f.tokens[t.f.lines[n].first]) }

// widestMoney is the longest keyword of lines about money that others are
// aligned with; a longer one sticks out.
const widestMoney = len("income")

// stretch lays out the lines that are aligned with one another.
func (t *tidier) stretch(s stretch) {
	wide := 0
	for n := s.from; n < s.to; n++ {
		if !t.begins(n) {
			continue
		}
		if word := t.keyword(n); columns(word) <= widestMoney {
			wide = max(wide, columns(word))
		}
	}
	for n := s.from; n < s.to; n++ {
		if t.begins(n) {
			words := t.words(n)
			t.lines[n].content = strings.TrimRight(padded(words[0], wide, 0)+" "+strings.Join(words[1:], " "), " ")
		}
	}
	if b := t.owner[s.from]; b != nil {
		t.body(b)
	}
	t.comments(s)
}

// bodyIndent is where the lines of a block begin.
const bodyIndent = "  "

// body lays out the indented lines of a block: every key in one column, every
// value in the next.
func (t *tidier) body(b *block) {
	rows := make([]tidyRow, len(b.body))
	column := blockSpecs[b.kind].column
	for i, n := range b.body {
		rows[i] = t.row(b, int(n))
		if room := columns(rows[i].key) + 2; rows[i].sheet && room <= widestCell {
			column = max(column, room)
		}
	}
	values := grids[b.kind].lay(rows)
	for i, n := range b.body {
		content := bodyIndent + rows[i].key
		if values[i] != "" {
			content = bodyIndent + padded(rows[i].key, column, 1) + values[i]
		}
		t.lines[n].content = content
	}
}

// text puts the lines together again, with the ends they had.
func (t *tidier) text() string {
	f := t.f
	if len(f.lines) == 0 {
		return f.text
	}
	var b strings.Builder
	b.Grow(len(f.text) + len(f.text)/8)
	b.WriteString(f.text[:f.lines[0].start])
	for n := range f.lines {
		b.WriteString(t.render(n))
		b.WriteString(f.ending(n))
	}
	return b.String()
}

// ending is the characters that end a line, "" where the file ends without.
func (f *file) ending(n int) string {
	if n+1 == len(f.lines) {
		return f.text[f.lines[n].end:]
	}
	return f.text[f.lines[n].end:f.lines[n+1].start]
}

// render is a line as laid out. One that alignment would make longer than a
// line may be is left as it stands.
func (t *tidier) render(n int) string {
	line := t.lines[n]
	text := line.content
	switch {
	case line.comment == "":
	case line.content == "":
		text = line.lead + line.comment
	default:
		text = padded(line.content, line.column, 0) + line.comment
	}
	if len(text) > maxLine {
		return t.f.text[t.f.lines[n].start:t.f.lines[n].end]
	}
	return text
}
