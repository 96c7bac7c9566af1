package ledger

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/season"
)

// Append adds blocks at the end of a text, as they stand, with one blank line
// before them; money that follows money stands right beneath it. Nothing else
// changes: the blocks take the text's line endings, and a text that does not
// end its last line does not end it afterwards.
func Append(text, blocks string) string {
	added := trimmedLines(blocks)
	if len(added) == 0 {
		return text
	}
	end := lineEnding(text)
	block := strings.Join(added, end)
	if text == "" || text == byteOrderMark {
		return text + block + end
	}
	last, closed := lastLine(text)
	gap := end
	if strings.TrimSpace(last) == "" || (isMoney(last) && isMoney(added[0])) {
		gap = ""
	}
	if closed {
		return text + gap + block + end
	}
	return closeLine(text, end) + gap + block
}

// trimmedLines are the lines of a text without their ends, and without the
// blank ones before and after them.
func trimmedLines(text string) []string {
	lines := strings.Split(strings.TrimPrefix(text, byteOrderMark), "\n")
	for i, line := range lines {
		lines[i] = strings.TrimSuffix(line, "\r")
	}
	blank := func(line string) bool { return strings.Trim(line, " \t") == "" }
	for len(lines) > 0 && blank(lines[0]) {
		lines = lines[1:]
	}
	for len(lines) > 0 && blank(lines[len(lines)-1]) {
		lines = lines[:len(lines)-1]
	}
	return lines
}

// lastLine is a text's last line, and whether it is ended.
func lastLine(text string) (line string, closed bool) {
	body, closed := strings.CutSuffix(text, "\n")
	body = strings.TrimSuffix(body, "\r")
	return strings.TrimPrefix(body[strings.LastIndexByte(body, '\n')+1:], byteOrderMark), closed
}

// isMoney reports whether a line is one of the one-line blocks about money.
func isMoney(line string) bool {
	word, _, _ := strings.Cut(strings.ReplaceAll(line, "\t", " "), " ")
	return blockSpecs[word].money
}

// lineEnding is how the last ended line of a text ends.
func lineEnding(text string) string {
	if i := strings.LastIndexByte(text, '\n'); i > 0 && text[i-1] == '\r' {
		return "\r\n"
	}
	return "\n"
}

// closeLine ends the last line of a text that does not end it. A carriage
// return at the very end is half of a line's end already.
func closeLine(text, end string) string {
	if strings.HasSuffix(text, "\r") {
		return text + "\n"
	}
	return text + end
}

// Target is a block that lines are added to.
type Target struct {
	File string // for messages
	Kind string // the block's keyword
	Name string // its handle; a flight's or a review's is DATE/PILOT/PROGRAMME or .../N, a drill's DATE/PILOT/TARGET
}

// AddLines adds body lines to the first block of that kind and name: each
// beneath the last line with the same key, else at the block's end, of a flight its
// set-up and marks above the rest, indented as
// the block's lines are, its value in the column that tidy gives it. Nothing
// else changes. A line is one line of the block's body without its indent. The
// error is an *InvalidError where the text, or a new line, is not of the
// language.
func AddLines(text string, to Target, lines ...string) (string, error) {
	for _, line := range lines {
		var err error
		if text, err = to.add(text, line); err != nil {
			return "", err
		}
	}
	return text, nil
}

func (to Target) add(text, line string) (string, error) {
	laid, f, b, err := to.open(text, line)
	if err != nil {
		return "", err
	}
	return f.insert(f.place(b, laid), f.indent(b)+laid), nil
}

// open gives a body line as tidy writes it, and the block of a text that it is for.
func (to Target) open(text, line string) (laid string, f *file, b *block, err error) {
	if laid, err = to.lay(line); err != nil {
		return "", nil, nil, err
	}
	f, b, err = to.find(text)
	return laid, f, b, err
}

// find finds the block of a text.
func (to Target) find(text string) (*file, *block, error) {
	r, f := alone(to.File, text)
	if err := r.structure(); err != nil {
		return nil, nil, err
	}
	i := slices.IndexFunc(r.blocks[to.Kind], to.names)
	if i < 0 {
		return nil, nil, fmt.Errorf("%s has no %s %q", to.File, to.Kind, to.Name)
	}
	return f, r.blocks[to.Kind][i], nil
}

// HasLine reports whether the block of a text has a line with a key. The error is an
// *InvalidError where the text is not of the language.
func HasLine(text string, to Target, key string) (bool, error) {
	f, b, err := to.find(text)
	if err != nil {
		return false, err
	}
	return slices.ContainsFunc(b.body, func(n int32) bool { return f.word(f.tokens[f.lines[n].first]) == key }), nil
}

// lay gives a body line as tidy writes it, without its indent.
func (to Target) lay(line string) (string, error) {
	line = strings.Trim(line, " \t")
	if line == "" || line[0] == '#' || strings.ContainsAny(line, "\r\n") {
		return "", fmt.Errorf("%q is not one line of a %s", line, to.Kind)
	}
	block, err := Tidy(to.File, to.Kind+"\n"+bodyIndent+line)
	if err != nil {
		return "", err
	}
	_, laid, _ := strings.Cut(block, "\n")
	return strings.TrimPrefix(laid, bodyIndent), nil
}

// names reports whether a block is the one that is meant.
func (to Target) names(b *block) bool {
	l := b.f.lines[b.head]
	words := make([]string, 0, l.last-l.first)
	for _, tok := range b.f.tokens[l.first+1 : l.last] {
		words = append(words, b.f.word(tok))
	}
	switch {
	case len(words) == 0:
		return false
	case to.Kind == "drill":
		return to.namesDrill(words)
	case to.Kind != "flight":
		return strings.TrimSuffix(words[0], "/1") == strings.TrimSuffix(to.Name, "/1")
	case len(words) < 3:
		return false
	}
	name := strings.Join(words[:3], "/")
	if len(words) > 3 && isNumber(words[3]) && rowNumber(words[3]) != 1 {
		name += fmt.Sprintf("/%d", rowNumber(words[3]))
	}
	return name == strings.TrimSuffix(to.Name, "/1")
}

// namesDrill reports whether a drill's words name the one that is meant: its
// target may be typed by another code of the group, or by another name.
func (to Target) namesDrill(words []string) bool {
	named := strings.Split(to.Name, "/")
	return len(words) > 2 && len(named) == 3 && words[0] == named[0] && words[1] == named[1] && targetKey(words[2]) == targetKey(named[2])
}

// targetKey is a drill's target however it was typed.
func targetKey(word string) string {
	if word == driftKind {
		return bridgingKind
	}
	return cmp.Or(season.GroupOf(word), word)
}

// place is the line beneath which a new line of a block goes.
func (f *file) place(b *block, line string) int {
	key := strings.Fields(line)[0]
	at := b.head
	if n := len(b.body); n > 0 {
		at = b.body[n-1]
	}
	above := b.kind == "flight" && isSetupOrMarks(key)
	if above {
		at = b.head
	}
	for _, n := range b.body {
		if word := f.word(f.tokens[f.lines[n].first]); word == key || (isNumber(word) && isNumber(key)) || (above && isSetupOrMarks(word)) {
			at = n
		}
	}
	return f.pastComments(b, int(at))
}

// isSetupOrMarks reports whether a flight's line is one that its marks are read against,
// or one of marks: those stand above the rest.
func isSetupOrMarks(key string) bool {
	return isNumber(key) || slices.Contains(flightSetup, key) || slices.Contains([]string{"positioning", "harmony", "sheet"}, key)
}

// pastComments goes past the comment lines that carry on the comment of the
// line above them: those that stand further in than the block's lines.
func (f *file) pastComments(b *block, at int) int {
	indent := columns(f.indent(b))
	for n := at + 1; n < len(f.lines); n++ {
		l, start := f.lines[n], f.commentStart(n)
		if l.first < l.last || start == l.end || columns(f.text[l.start:start]) <= indent {
			break
		}
		at = n
	}
	return at
}

// indent is the white space before a block's last line that has any, that of
// tidy where none has.
func (f *file) indent(b *block) string {
	for _, n := range slices.Backward(b.body) {
		l := f.lines[n]
		if space := f.text[l.start:f.tokens[l.first].start]; space != "" {
			return space
		}
	}
	return bodyIndent
}

// insert puts a new line beneath line n.
func (f *file) insert(n int, line string) string {
	end, ending := int(f.lines[n].end), f.ending(n)
	if !strings.HasSuffix(ending, "\n") {
		return closeLine(f.text, lineEnding(f.text)) + line
	}
	at := end + len(ending)
	return f.text[:at] + line + ending + f.text[at:]
}

// lostLine gives the number, from 1, of the first line of a text that does not
// survive an edit byte by byte and in its order; 0 where all do. A last line
// that was not ended may be ended now.
func lostLine(before, after string) int {
	return lostLineBut(before, after, func(string, string) bool { return false })
}

// lostLineBut is lostLine for an edit in which a line may become what changed allows.
func lostLineBut(before, after string, changed func(line, now string) bool) int {
	after, marked := strings.CutPrefix(after, byteOrderMark)
	before, was := strings.CutPrefix(before, byteOrderMark)
	if was != marked {
		return 1
	}
	rest := strings.SplitAfter(after, "\n")
	lines := strings.SplitAfter(before, "\n")
	for i, line := range lines {
		open := i == len(lines)-1
		at := slices.IndexFunc(rest, func(now string) bool {
			return now == line || changed(line, now) || (open && (strings.TrimSuffix(now, "\n") == line || strings.TrimSuffix(now, "\r\n") == line))
		})
		switch {
		case at >= 0:
			rest = rest[at+1:]
		case !open || line != "": // what follows the last line's end is no line
			return i + 1
		}
	}
	return 0
}
