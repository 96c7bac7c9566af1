package entry

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/report/display"
	"boxbook/season"
)

// How many proposals are shown at a prompt: the most, and those that are shown
// however narrow the terminal is.
const (
	proposed    = 7
	proposedMin = 2
)

// listed is a list's first names in brackets, as many as there is room for in
// columns; "" where there are none.
func listed(known []string, room int) string {
	if len(known) == 0 {
		return ""
	}
	n := 0
	for room -= len(known[0]); n < min(proposed, len(known)) && (n < proposedMin || room >= 0); room -= len(", ") + len(known[min(n, len(known)-1)]) {
		n++
	}
	text := " (" + strings.Join(known[:n], ", ")
	if len(known) > n {
		text += " ..."
	}
	return text + ")"
}

// roomToAnswer is what a prompt's list leaves of the line, in columns: for what
// Enter does, and for the answer.
const roomToAnswer = 40

// asks is what a step asks for.
func (st step) asks() string {
	switch {
	case st.line != nil:
		return st.line.Asks
	case st.field.Each != "":
		return fmt.Sprintf("%s %d", st.field.Each, st.index+1)
	default:
		return st.field.Asks
	}
}

// prompt is a step's question: what the ledger proposes or an example, and
// what Enter does, with room for an answer on the line.
func prompt(st step, width int) string {
	text, known, otherwise := st.asks(), st.known(), st.otherwise()
	switch {
	case st.index > 0 || st.line != nil || st.field.NoFlag: // said already
	case len(known) > 1 || len(known) == 1 && otherwise == "":
		text += listed(known, width-len(text)-len(otherwise)-roomToAnswer)
	case otherwise == "" && st.field.Each == "":
		text += st.suchAs()
	}
	switch {
	case otherwise != "" && st.optional():
		text += ", - for none [" + otherwise + "]"
	case otherwise != "":
		text += " [" + otherwise + "]"
	case st.optional() && st.index > 0 && st.field.Each == "" && st.line == nil:
		text += ", or Enter for no more"
	case st.optional():
		text += ", or Enter for " + cmp.Or(st.field.None, "none")
	}
	return text + ": "
}

// room is what a question leaves of the line for its answer, in columns; where it
// would be less, the question stands on two lines.
const room = 20

// roomy takes a question that is too long for its line apart: what stands above, and
// the last part, which is the prompt. above is "" where there is room. One that is wider
// than the terminal is broken between words.
func roomy(prompt string, width int) (above, rest string) {
	above, rest = lastPart(prompt, width)
	if display.Width(rest) <= width {
		return above, rest
	}
	parts := broken(rest, width-1)
	last := len(parts) - 1
	return strings.TrimPrefix(above+"\n"+strings.Join(parts[:last], "\n"), "\n"), parts[last] + " "
}

// lastPart is roomy for a question that has a last part: what Enter does.
func lastPart(prompt string, width int) (above, rest string) {
	if display.Width(prompt) <= width-room {
		return "", prompt
	}
	at := -1
	for _, part := range []string{", or Enter for", " [", ", - for none ["} {
		at = max(at, strings.LastIndex(prompt, part))
	}
	if at <= 0 {
		return "", prompt
	}
	return strings.TrimRight(prompt[:at]+",", " "), "  " + strings.TrimLeft(prompt[at:], ", ")
}

// wholeAtMost is how wide the words behind a colon may be, in columns, to stay together.
const wholeAtMost = 24

// broken is a line in parts that fit into columns, the later ones behind as much space
// as the first; a word that is longer stays whole, and so does what is to be typed: between
// backquotes, a command behind a colon, and at a line's end what is short.
func broken(line string, width int) []string {
	before, last := line, ""
	if at := strings.LastIndex(line, ": "); at >= 0 {
		typed := strings.TrimSpace(line[at+1:])
		if typed != "" && (display.Width(typed) <= wholeAtMost || strings.HasPrefix(typed, "boxbook ")) {
			before, last = line[:at+1], typed
		}
	}
	words := slices.DeleteFunc(append(unbroken(before), last), func(word string) bool { return word == "" })
	if display.Width(line) <= width || len(words) == 0 {
		return []string{line}
	}
	indent := line[:len(line)-len(strings.TrimLeft(line, " "))]
	parts, part := []string(nil), indent+words[0]
	for _, word := range words[1:] {
		if display.Width(part)+1+display.Width(word) > width {
			parts, part = append(parts, part), indent+word
			continue
		}
		part += " " + word
	}
	return append(parts, part)
}

// unbroken are a line's words; what stands between backquotes is one.
func unbroken(line string) []string {
	var words []string
	open := false
	for _, word := range strings.Fields(line) {
		if open {
			words[len(words)-1] += " " + word
		} else {
			words = append(words, word)
		}
		open = open != (strings.Count(word, "`")%2 == 1)
	}
	if open { // one that does not close keeps nothing together
		return strings.Fields(line)
	}
	return words
}

// explain says what may be answered to a question.
func (t *Talk) explain(st step) {
	t.term.say("  %s", st.field.Asks)
	if st.field.Help != "" {
		t.term.say("  %s", st.field.Help)
	}
	example := st.field.Example
	if st.line != nil {
		example = st.line.Example
	}
	if st.field.Each != "" {
		t.term.say("  one that was left out: %s 2 makes room at %s 2, %[1]s 2 K 12 \"humpty\" offers it there; at the %[2]s that is asked for, it is taken at once", insertWord, st.field.Each)
		t.term.say("  one too many: %s 2 takes %s 2 out", removeWord, st.field.Each)
	}
	switch {
	case st.line != nil && st.field.Keyed:
		t.term.say("  in marks that stand on the line %s 4 7.5 puts one at figure 4, %s 4 takes one out", insertWord, removeWord)
	case st.line != nil:
		t.term.say("  one row off: %s 4 makes room at row 4, %s 4 takes that row out", insertWord, removeWord)
	}
	if st.field.Adds != "" {
		t.term.say("  one short word; one that is new is asked about, and added")
	}
	if known := st.known(); len(known) > 0 && st.field.Coded {
		t.term.say("  there are:")
		for _, line := range t.titled(st.scene.Ledger, known) {
			t.term.say("    %s", line)
		}
	} else if len(known) > 0 {
		t.term.say("  there are: %s", strings.Join(known, ", "))
	} else if example != "" {
		t.term.say("  for example: %s", example)
	}
	if len(st.field.Codes) > 0 {
		t.term.say("  where the form has no number, the family instead, K 12 7:")
		for _, line := range t.titled(st.scene.Ledger, st.field.Codes) {
			t.term.say("    %s", line)
		}
	}
	if before := t.firstPlace(); st.field.Shape == Text && before != "" {
		t.term.say("  text that would go back stands in quotes: \"back %s\"", before)
	}
	t.term.say("  %s; Ctrl-C stops and keeps what was typed", t.explainBack(st))
}

// titled are codes with their names in words, a line each.
func (t *Talk) titled(l *season.Ledger, codes []string) []string {
	wide := 0
	for _, code := range codes {
		wide = max(wide, display.Width(code))
	}
	lines := make([]string, len(codes))
	for i, code := range codes {
		lines[i] = code
		if title := t.host.Title(l, code); title != "" {
			lines[i] += strings.Repeat(" ", wide-display.Width(code)+2) + title
		}
	}
	return lines
}
