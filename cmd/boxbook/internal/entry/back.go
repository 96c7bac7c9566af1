package entry

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/report/display"
)

// backWord goes to the answer before; with a place behind it, to the answer of that place.
const backWord = "back"

// place is an answer that can be gone back to, by the words that name it.
type place struct {
	kind  string // of the entry that is added on the way, "" for the one that was asked for
	field string
	line  string // the key of a line, or the number of a value; "" where there is one answer
}

// placeOfKey takes an answer's key apart: [new KIND HANDLE] FIELD [LINE].
func placeOfKey(key string) place {
	var p place
	words := strings.Fields(key)
	if words[0] == "new" && len(words) > 3 {
		p.kind, words = words[1], words[3:]
	}
	p.field = words[0]
	p.line = strings.Join(words[1:], " ")
	return p
}

// isCalled reports whether a text names the place: by its field, by its line, by both,
// each with the kind of entry before it. A line alone is of the marks where they are asked for.
func (p place) isCalled(text string, marks []string) bool {
	if p.kind != "" {
		if rest, ok := strings.CutPrefix(text, p.kind+" "); ok && (place{field: p.field, line: p.line}).isCalled(rest, nil) {
			return true
		}
	}
	switch {
	case strings.EqualFold(text, p.field), p.line != "" && strings.EqualFold(text, p.field+" "+p.line):
		return marks == nil || !isSheetLine(text) || p.ofMarks(marks)
	case p.line == "" || !strings.EqualFold(text, p.line):
		return false
	default:
		return marks == nil || p.ofMarks(marks)
	}
}

// ofMarks reports whether a place is one of the fields that have their lines.
func (p place) ofMarks(fields []string) bool {
	return p.kind == "" && slices.Contains(fields, p.field)
}

// isSheetLine reports whether a text is what a score sheet calls one of its lines.
func isSheetLine(text string) bool {
	return isNumber(text) || slices.Contains([]string{"N", "positioning", "harmony"}, text)
}

// marks are the names of the fields that have a line for each value, where one of them is
// asked for or was answered; nil where none was.
func (t *Talk) marks(st *step) []string {
	var names []string
	for _, f := range t.kind.Fields {
		if f.Lines != nil {
			names = append(names, f.Name)
		}
	}
	if st != nil && st.line != nil || slices.ContainsFunc(t.draft.Asked, func(key string) bool { return placeOfKey(key).ofMarks(names) }) {
		return names
	}
	return nil
}

// placed is where among the answers the latest one stands that a text names, -1 where
// there is none.
func (t *Talk) placed(text string, st *step) int {
	marks := t.marks(st)
	for at, key := range slices.Backward(t.draft.Asked) {
		if placeOfKey(key).isCalled(text, marks) {
			return at
		}
	}
	return -1
}

// goesBack is the place that an answer goes back to, "" for the answer before; goes is false
// where it is no such answer. Free text that begins with that word goes back where a place
// or a question of the entry is called so.
func (t *Talk) goesBack(st *step, answer string) (to string, goes bool) {
	if answer == backWord {
		return "", true
	}
	to, goes = strings.CutPrefix(answer, backWord+" ")
	if to = joined(strings.Fields(to)...); !goes || to == "" {
		return "", false
	}
	if st == nil || st.field.Shape != Text || isSheetLine(to) || t.placed(to, st) >= 0 {
		return to, true
	}
	return to, slices.ContainsFunc(t.kind.Fields, func(f Field) bool { return strings.EqualFold(to, f.Name) })
}

// goBack goes where an answer says, and reports whether there was anything to go to.
func (t *Talk) goBack(st *step, to string) (went bool, err error) {
	if to == "" {
		return t.back()
	}
	at := t.placed(to, st)
	if at < 0 {
		t.term.say("  %s", t.notPlaced(st, to))
		return false, nil
	}
	for len(t.draft.Asked) > at && err == nil {
		_, err = t.back()
	}
	return err == nil, err
}

// notPlaced says why nothing can be gone back to by a name.
func (t *Talk) notPlaced(st *step, to string) string {
	said := fmt.Sprintf("nothing was answered for %s yet", display.OneLine(to))
	if t.draft.Given.Has(to) {
		said = fmt.Sprintf("%s was given by --%[1]s", to)
	}
	if of := "figure " + to; isNumber(to) && t.placed(of, st) >= 0 {
		said += fmt.Sprintf("; `back %s` goes to that figure of the sequence", of)
	}
	if st != nil && st.field.Shape == Text {
		said += fmt.Sprintf(`; in quotes it is text: "back %s"`, to)
	}
	return said
}

// explainBack says how to go back from a question.
func (t *Talk) explainBack(st step) string {
	said := "back goes to the answer before"
	switch {
	case st.line != nil:
		if st.index > 0 {
			said += fmt.Sprintf(", back %s to that line", st.field.lines(st.scene)[st.index-1].Key)
		}
		if t.placed("figure 1", &st) >= 0 {
			said += ", back figure 2 to figure 2 of the sequence"
		}
	case len(t.draft.Asked) > 0:
		said += fmt.Sprintf(", back %s to that one", t.firstPlace())
	}
	return said
}

// firstPlace names the first answer that can be gone back to, "" where there is none.
func (t *Talk) firstPlace() string {
	if len(t.draft.Asked) == 0 {
		return ""
	}
	p := placeOfKey(t.draft.Asked[0])
	return joined(p.field, p.line)
}

// moves is what was typed behind the text that stood on the line, where it is to go back
// or to explain.
func (t *Talk) moves(st step, text, stood string) (behind string, is bool) {
	if behind, is = strings.CutPrefix(text, stood); stood == "" || !is {
		return "", false
	}
	if st.field.Shape != Text { // else it may be one more word of it
		behind = strings.TrimSpace(behind)
	}
	_, goes := t.goesBack(&st, behind)
	return behind, goes || behind == "?"
}

// quotedBack is free text as it stands on the line: in quotes where it would go back
// else.
func (t *Talk) quotedBack(st step, text string) string {
	if _, goes := t.goesBack(&st, text); st.field.Shape == Text && (goes || text == "?") {
		return `"` + text + `"`
	}
	return text
}
