package ledger

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/scoring"
)

// markWords are the marks that are no grades, in capitals. A is how some
// sheets write AV.
var markWords = map[string]scoring.MarkKind{
	"HZ": scoring.HardZero, "CHZ": scoring.ConfirmedHardZero, "PZ": scoring.PerceptionZero,
	"AV": scoring.NotSeen, "A": scoring.NotSeen, "-": scoring.Absent,
}

// mark takes one mark.
func (w *words) mark() (scoring.Mark, token, bool) {
	tok, ok := w.word("a mark")
	if !ok {
		return scoring.Mark{}, tok, false
	}
	mark, ok := w.markText(tok, w.text(tok))
	return mark, tok, ok
}

func (w *words) markText(tok token, text string) (scoring.Mark, bool) {
	if half, ok := fastGrade(text); ok {
		return scoring.GradeOf(half), true
	}
	if kind, ok := markWords[strings.ToUpper(text)]; ok {
		return scoring.Mark{Kind: kind}, true
	}
	grade, ok := scoring.ParseDecimal(text)
	if !ok {
		w.badMark(tok, text)
		return scoring.Mark{}, false
	}
	unit := int64(1)
	for range grade.Places {
		unit *= 10
	}
	switch {
	case grade.Units > 10*unit:
		w.fail(tok, gradeHigh, text).advise(highAdvice(text))
		return scoring.Mark{}, false
	case 2*grade.Units%unit != 0:
		w.fail(tok, gradeStep, text)
		return scoring.Mark{}, false
	case grade.Places == 0 && grade.Units == 5: // else read as 5 before
		w.r.at(w.f, tok, gradeZero, text)
	}
	return scoring.GradeOf(int(2 * grade.Units / unit)), true
}

// lineOf is a line of a file, by which what is said of it can be folded.
type lineOf struct {
	f    *file
	line int32
}

// badMark reports a word that is no mark. Marks with commas between them are one
// slip; in "7, 5" the two words may be one grade.
func (w *words) badMark(tok token, text string) {
	next := w.peek()
	d := w.fail(tok, badMark, text)
	number := strings.TrimRight(text, ",;")
	switch a := markAdvice(text); {
	case d.meantAsComment():
	case strings.EqualFold(text, "H") && (strings.EqualFold(next, "Z") || strings.EqualFold(w.wordBefore(), "Z")):
		d.hinted("a hard zero is HZ in one word; or are they two marks?")
	case halfAdvice(text, w.markBefore()).hint != "":
		d.advise(halfAdvice(text, w.markBefore()))
	case pointEnds(text) && next != "" && next[0] >= '0' && next[0] <= '9':
		d.advise(partedAdvice(number, strings.TrimRight(next, ".,;")))
	case strings.EqualFold(text, "not") && strings.EqualFold(strings.TrimRight(next, ",;"), "seen"):
		d.hinted(unseenIsAV)
	case a.hint == markSpace && (next == "0" || next == "5"):
		d.hinted("which is meant: %s, or %s and %s?", number+"."+next, number, next)
	case a.hint == markSpace:
		d.advise(a)
		d.rooted(lineOf{w.f, w.line}, markSpace)
	default:
		d.advise(a)
	}
}

// wordBefore is the word in front of the one that was read last, "" at a line's begin.
func (w *words) wordBefore() string {
	if at := w.i - 2; at >= 0 && w.f.tokens[at].line == w.line {
		return w.f.word(w.f.tokens[at])
	}
	return ""
}

// markBefore is the word before the one that was read last, "" where the line's first
// word is.
func (w *words) markBefore() string {
	if at := w.i - 2; at > w.f.lines[w.line].first {
		return w.wordBefore()
	}
	return ""
}

// pointEnds reports whether a number ends with its point: the decimal may stand behind.
func pointEnds(text string) bool {
	number, found := strings.CutSuffix(text, ".")
	return found && isNumber(number)
}

// partedAdvice is on a number that ends with its point, before another one.
func partedAdvice(number, next string) advice {
	whole := strings.TrimSuffix(number, ".")
	if readsAsMark(number + next) {
		return hint(fmt.Sprintf("which is meant: %s, or %s and %s?", number+next, whole, next))
	}
	return hint("write " + whole)
}

// halfAdvice is on a word that may be what is left of a decimal: .5 and 1/2 behind 7,
// or 7/10, where the 10 may be what the mark is out of.
func halfAdvice(text, before string) advice {
	half := strings.TrimLeft(text, ".,")
	switch whole, ten, found := strings.Cut(text, "/"); {
	case text == "½" || text == "1/2":
		half = "5"
	case found && ten == "10" && readsAsMark(whole):
		return hint(fmt.Sprintf("which is meant: %s, or %s and 10?", whole, whole))
	case half == text || half != "5" && half != "0":
		return advice{}
	}
	if isNumber(before) && readsAsMark(before+"."+half) {
		return hint(fmt.Sprintf("which is meant: %[1]s.%[2]s, or %[1]s and 0.%[2]s?", before, half))
	}
	return instead("write %s", "0."+half).unless(text != "½")
}

// onlyOneReading takes back the edits of a line's marks after which it has the number
// of marks that is wanted only by one of several readings, or has not: 7/8 is two
// marks where one is left out, and 75 may be two.
func (w *words) onlyOneReading(marks, want int) {
	if w.badFrom >= len(w.r.list) {
		return
	}
	said, after := w.r.list[w.badFrom:], marks
	for _, d := range said {
		after += d.addedWords()
	}
	for i := range said {
		d := &said[i]
		switch {
		case d.Code != badMark && d.Code != gradeHigh:
		case d.addedWords() != 0 && (after != want || marks == want),
			d.Code == gradeHigh && marks < want,
			marks != want && w.halvedBehind(d):
			d.Fixes = nil
		}
	}
}

// addedWords is how many words more the edits of a diagnostic make.
func (d *Diagnostic) addedWords() int {
	n := 0
	for _, f := range d.Fixes {
		n += len(strings.Fields(f.Text)) - 1
	}
	return n
}

// halvedBehind reports whether the word behind a mark with a comma may be its decimal.
func (w *words) halvedBehind(d *Diagnostic) bool {
	rest := strings.Fields(d.at.f.text[d.at.end:d.at.f.lines[d.at.line].end])
	if len(rest) == 0 {
		return false
	}
	next := strings.TrimRight(rest[0], ",;")
	return strings.ContainsAny(d.at.f.text[d.at.end-1:d.at.end], ",;") && (next == "0" || next == "5")
}

// markSpace says how marks are told apart.
const markSpace = "put only white space between marks"

// readsAsMark reports whether a text is a mark.
func readsAsMark(text string) bool {
	if _, ok := markWords[text]; ok {
		return true
	}
	if half, ok := fastGrade(text); ok {
		return half <= 2*10
	}
	grade, ok := scoring.ParseDecimal(text)
	return ok && grade.Places == 1 && grade.Units <= 100 && grade.Units%5 == 0
}

// fastGrade reads the common forms: 8, 7.5, 7,5 and 10.
func fastGrade(text string) (half int, ok bool) {
	switch {
	case len(text) == 1 && text[0] >= '0' && text[0] <= '9':
		return 2 * int(text[0]-'0'), true
	case len(text) == 3 && text[0] >= '0' && text[0] <= '9' && (text[1] == '.' || text[1] == ',') && (text[2] == '0' || text[2] == '5'):
		return 2*int(text[0]-'0') + int(text[2]-'0')/5, true
	default:
		return 20, text == "10"
	}
}

// highAdvice reads 85 as 8.5.
func highAdvice(text string) advice {
	digits := strings.NewReplacer("O", "0", "o", "0").Replace(text)
	if len(digits) == 2 && isNumber(digits) && (digits[1] == '0' || digits[1] == '5') {
		return instead("%s?", fmt.Sprintf("%c.%c", digits[0], digits[1]))
	}
	return advice{}
}

// unseenIsAV says what is written for a figure that the judge did not see.
const unseenIsAV = "a figure that the judge did not see is AV"

// markAdvice names the slip in a mark that cannot be read.
func markAdvice(text string) advice {
	if whole, found := strings.CutSuffix(text, "½"); found && (whole == "" || readsAsMark(whole+".5")) {
		return instead("write %s", max(whole, "0")+".5")
	}
	switch text {
	case "–", "—", "−", "--":
		return instead("type a plain %s for a mark that is not on the sheet", "-")
	case "O", "o":
		return instead("a letter for a digit? %s", "0")
	case "H", "h":
		return instead("a hard zero is %s", "HZ")
	case "?", "??":
		return hint("a mark that cannot be read is -, filled and said; AV only where the judge did not see the figure")
	case "NS", "ns", "N/O", "n/o", "x", "X":
		return hint(unseenIsAV)
	}
	switch strings.ToLower(strings.TrimRight(text, ".,;")) {
	case "average", "avg", "ave", "unseen":
		return hint("did you mean AV? " + unseenIsAV)
	}
	if number := strings.TrimRight(text, ",;"); number != text {
		if _, ok := scoring.ParseDecimal(number); ok {
			return instead(markSpace, number)
		}
	}
	a := pointAdvice(text).or(gluedAdvice(text)).or(highAdvice(text)).or(numberAdvice(text))
	if a.hint == markSpace {
		return a
	}
	if a.text != "" && !readsAsMark(a.text) {
		return advice{}
	}
	return a
}

// pointAdvice reads 7. and .5 and 7..5.
func pointAdvice(text string) advice {
	grade := strings.TrimSuffix(strings.NewReplacer("..", ".", ",,", ".").Replace(text), ".")
	if strings.HasPrefix(grade, ".") {
		grade = "0" + grade
	}
	if grade == text || !readsAsMark(grade) {
		return advice{}
	}
	return instead("write %s", grade)
}

// gluedAdvice takes 7.5/7.0 apart.
func gluedAdvice(text string) advice {
	parts := strings.FieldsFunc(text, func(c rune) bool { return strings.ContainsRune("/;|", c) })
	if len(parts) < 2 || slices.ContainsFunc(parts, func(part string) bool { return !readsAsMark(part) }) {
		return advice{}
	}
	return instead(markSpace, strings.Join(parts, " "))
}

// marks takes the rest of a line as marks, and a remark. bad says that one of
// them could not be read; how many there are is then still known.
func (w *words) marks() (marks []scoring.Mark, tokens []token, remark string, bad bool) {
	if w.badFrom = len(w.r.list); w.failed {
		return nil, nil, "", true
	}
	first, read := w.i, 0
	marks = w.r.room.row(w.markWordsLeft())
	for w.i < w.last && !w.f.tokens[w.i].quoted {
		before := len(w.r.list)
		mark, _, ok := w.mark()
		if !ok && !bad {
			w.badFrom = before
			w.remarkUnquoted(&w.r.list[before], read)
		}
		if ok {
			read++
		}
		if !ok {
			bad, w.failed = true, false
		}
		marks = append(marks, mark)
	}
	tokens = w.f.tokens[first:w.i:w.i]
	return marks, tokens, w.end(), bad || w.failed
}

// remarkUnquoted takes the rest of a row, from the word at fault, for a remark: it
// is text, and marks stand before it.
func (w *words) remarkUnquoted(d *Diagnostic, read int) {
	tok := w.f.tokens[w.i-1]
	rest := w.f.text[tok.start:w.f.tokens[w.last-1].end]
	if read > 0 && d.Hint == "" && isSentence(rest) && looksLikeText(rest) && !strings.ContainsAny(rest, "0123456789") {
		w.allQuoted(d, tok, "put a remark in quotes: %s")
	}
}

// markWordsLeft is how many words that are not quoted follow.
func (w *words) markWordsLeft() int {
	n := w.i
	for n < w.last && !w.f.tokens[n].quoted {
		n++
	}
	return int(n - w.i)
}

// onlyFirst takes back all but the first of what was said of a line's marks: they
// are too many or too few as well, so that something else stands there.
func (w *words) onlyFirst() {
	if w.badFrom+1 < len(w.r.list) {
		w.r.errors -= w.r.list[w.badFrom+1:].Errors()
		w.r.list = w.r.list[:w.badFrom+1]
	}
}

// noneRead reports whether none of several marks is anything like one: the line
// is no row of marks.
func (w *words) noneRead(marks int) bool {
	said := w.r.list[min(w.badFrom, len(w.r.list)):]
	return marks > 1 && len(said) == marks &&
		!slices.ContainsFunc(said, func(d Diagnostic) bool { return d.Code != badMark || d.Hint != "" })
}

// ReadMarks reads marks as they stand in a row, 8 7.5 hz -, and says of the
// first one that is none what is wrong with it; hint is what to type, "" where
// there is nothing to say. Quoted text at the end is the row's remark.
func ReadMarks(text string) (marks []scoring.Mark, remark, problem, hint string) {
	r := newReader(Options{})
	r.addLine(text)
	marks, _, remark, _ = r.words(r.files[0], 0).marks()
	if len(r.list) > 0 {
		problem, hint = r.list[0].Message, r.list[0].Hint
	}
	return marks, remark, problem, hint
}

// addLine scans one line as a file of its own.
func (r *reader) addLine(text string) {
	f := &file{name: "line", text: strings.NewReplacer("\n", " ", "\r", " ").Replace(text) + "\n"}
	r.files = append(r.files, f)
	r.scanLines(f, 0, len(f.text), 0)
}
