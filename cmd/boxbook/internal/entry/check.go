package entry

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/season"
	"boxbook/season/ledger"
)

// read gives one value as it is kept, or what is wrong with the way it is
// written: it can bring in no other word, comment or line.
func (f *Field) read(text string, l *season.Ledger) (answer, problem string) {
	text = strings.TrimSpace(text)
	if f.Read != nil {
		if text, problem = f.Read(text); problem != "" {
			return "", problem
		}
	}
	if f.Shape == Text {
		if _, ok := ledger.Words(quoted(text)); !ok {
			return "", fmt.Sprintf("%q is not one line of text", text)
		}
		return text, ""
	}
	words, ok := ledger.Words(text)
	switch {
	case !ok:
		return "", fmt.Sprintf("%q is not a part of one line: it has a comment, a line's end or quotes that do not close", text)
	case f.Shape == Word && (len(words) > 1 || strings.HasPrefix(text, `"`)):
		return "", fmt.Sprintf("%q is not one word", text)
	case f.Count > 0 && len(words) > f.Count:
		return "", fmt.Sprintf("%q is more than %d words such as %s", text, f.Count, f.Example)
	default:
		return text, f.begins(words, l)
	}
}

// begins refuses words that would begin another part of the line.
func (f *Field) begins(words []string, l *season.Ledger) string {
	for _, word := range words {
		if slices.Contains(f.Not, word) && !(f.Propose != nil && slices.Contains(f.Propose(l), word)) {
			return fmt.Sprintf("%q begins another part of the line", word)
		}
	}
	return ""
}

// check gives an answer as it is kept, or what is wrong with it.
func (t *Talk) check(st step, text string) (answer, problem string, err error) {
	if text == "" || text == none && st.optional() {
		if st.optional() {
			return none, "", nil
		}
		return "", "this is needed", nil
	}
	known, near := st.known(), ""
	if st.field.Shape == Word && known != nil {
		name, ok := choose(text, known)
		switch {
		case ok && (!st.field.Open || name == text):
			text = name
		case st.field.Read == nil:
			near = name
		}
	}
	if full := st.field.Full; full != nil {
		if text, err = full(st.scene, text); err != nil {
			return "", err.Error(), nil
		}
	}
	if text, problem = st.field.read(text, st.scene.Ledger); problem != "" {
		return "", problem, nil
	}
	if st.field.NoFlag { // no part of the ledger
		if !slices.Contains(known, text) {
			problem = fmt.Sprintf("%q is not one of %s", text, strings.Join(known, ", "))
		}
		return text, problem, nil
	}
	problem, err = t.refused(st, text)
	if slip := st.key + " " + text; problem == "" && err == nil && near != "" && !t.near[slip] {
		t.near[slip] = true
		problem = fmt.Sprintf("no %s is called %q; did you mean %q? (type it again if it is new)", st.field.Name, text, near)
	}
	return text, problem, err
}

// standIns is how many answers are tried for each question that is still to be
// asked, before an answer is refused.
const standIns = 4

// refused says why the ledger would not take an answer, "" where it would: the
// entry is read as it would be, with what was answered so far and with
// stand-ins for what is still to be asked. What is wrong with a stand-in in
// the answer's place, too, is not the answer's fault.
func (t *Talk) refused(st step, answer string) (problem string, err error) {
	least, err := t.leastErrors(func(other step) (string, bool) { return answer, other.key == st.key })
	if err != nil || len(least) == 0 {
		return "", err
	}
	without, err := t.leastErrors(func(other step) (string, bool) { return "", false }, st.key)
	if err != nil {
		return "", err
	}
	for _, message := range least {
		if !slices.Contains(without, message) {
			return message, nil
		}
	}
	return "", nil
}

// leastErrors reads the entry with several sets of stand-ins and gives the
// fewest errors. fixed gives the answer of a step before the draft does; those
// of the keys left out are as if they were still to be asked.
func (t *Talk) leastErrors(fixed func(step) (string, bool), leftOut ...string) (least []string, err error) {
	for n := range standIns {
		messages, err := t.errorsWith(func(st step) (string, bool) {
			if answer, ok := fixed(st); ok {
				return answer, true
			}
			if answer, ok := t.draft.holds(st); ok && !slices.Contains(leftOut, st.key) {
				return answer, true
			}
			return standIn(st, n), true
		})
		if err != nil || len(messages) == 0 {
			return nil, err
		}
		if n == 0 || len(messages) < len(least) {
			least = messages
		}
	}
	return least, nil
}

// standIn is an answer to a question that is still to be asked: none where
// that may be, else the n-th that the ledger is likely to take.
func standIn(st step, n int) string {
	known := st.known()
	switch {
	case st.line != nil:
		return st.line.Example
	case st.optional():
		return none
	case n == 0 && st.field.Default != nil && st.otherwise() != "":
		return st.otherwise()
	case n > 0 && n <= len(st.field.Others):
		return st.field.Others[n-1]
	case st.field.Open:
		return newName(st.field.Example, n)
	case len(known) > 0:
		return known[n%len(known)]
	case st.field.New:
		return newName(st.field.Example, n)
	default:
		return st.field.Example
	}
}

// newName is the n-th of names that begin with one, from 0.
func newName(name string, n int) string {
	if n == 0 {
		return name
	}
	return fmt.Sprintf("%s-%d", name, n)
}

// errorsWith are the errors of the ledger with the entry as the answers of
// visit make it.
func (t *Talk) errorsWith(visit func(step) (string, bool)) ([]string, error) {
	w := t.walk(visit)
	w.filling = true
	s, whole := w.through(t.kind, "", nil, nil)
	if w.err != nil || !whole {
		return []string{fmt.Sprint(w.err)}, nil
	}
	add, err := t.kind.Write(s)
	if err != nil {
		return []string{err.Error()}, nil
	}
	result, err := t.host.Read(append(w.adds, add)...)
	if err != nil {
		return nil, err
	}
	return errorTexts(result.Diagnostics), nil
}

// errorTexts says what is wrong, without where: the text is not in a file yet.
func errorTexts(list ledger.List) []string {
	var texts []string
	for _, d := range list {
		text := d.Message
		if d.Hint != "" {
			text += "; " + d.Hint
		}
		if d.Severity == ledger.Error {
			texts = append(texts, text)
		}
	}
	return texts
}

// choose checks an answer against what is known: an exact name, or the
// beginning of only one. Where it is neither, it gives the nearest name.
func choose(text string, known []string) (name string, ok bool) {
	if slices.Contains(known, text) {
		return text, true
	}
	var found []string
	for _, k := range known {
		if strings.HasPrefix(k, text) {
			found = append(found, k)
		}
	}
	if len(found) == 1 {
		return found[0], true
	}
	return ledger.Nearest(text, known), false
}
