package entry

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"boxbook/report/display"
)

// The words that move what was typed: one place down, with room for what was left out, and
// up, over what was one too many.
const (
	insertWord = "insert"
	removeWord = "remove"
)

// inserts is what is inserted before the value that is offered; false where an answer
// is none such, or names another place, or makes room alone.
func (st step) inserts(text string) (string, bool) {
	rest, found := strings.CutPrefix(text, insertWord+" ")
	if st.field.Each == "" || !found {
		return text, false
	}
	rest = strings.TrimSpace(rest)
	if number, behind, _ := strings.Cut(rest, " "); number == fmt.Sprint(st.index+1) {
		rest = strings.TrimSpace(behind)
	}
	first, _, _ := strings.Cut(rest, " ")
	return rest, rest != "" && !isNumber(first)
}

// moveDown makes room for a value: the one that is offered and those behind it, which
// were taken back, are offered one place later.
func (t *Talk) moveDown(st step, offered string) {
	for at := st.index; offered != ""; at++ {
		next := fmt.Sprintf("%s %d", st.group, at+2)
		after := t.draft.Offered[next]
		t.draft.Offered[next] = offered
		offered = after
	}
}

// isMove reports whether a text begins with a word that moves what was typed.
func isMove(text string) bool {
	word, _, _ := strings.Cut(strings.TrimSpace(text), " ")
	return word == insertWord || word == removeWord
}

// movesLines is the word of an answer that moves lines, or values that have numbers, and
// what stands behind it; false where an answer is none such.
func (st step) movesLines(text string) (word, rest string, is bool) {
	word, rest, _ = strings.Cut(text, " ")
	return word, strings.TrimSpace(rest), (st.line != nil || st.field.Each != "") && isMove(text)
}

// places are the lines of a sheet, or the numbers of the values so far and the next, with
// what was answered or is offered there.
func (t *Talk) places(st step) (names, rows []string) {
	if st.line != nil {
		for _, line := range st.field.lines(st.scene) {
			names = append(names, line.Key)
		}
	} else {
		for n := range t.lastValue(st) + 1 {
			names = append(names, fmt.Sprint(n+1))
		}
	}
	for _, name := range names {
		key := st.group + " " + name
		rows = append(rows, cmp.Or(t.draft.Answers[key], t.draft.Offered[key]))
	}
	return names, rows
}

// lastValue is how many values of a list there are, those that are offered again and the
// place that is asked for counted, where there are some behind it.
func (t *Talk) lastValue(st step) int {
	last := st.index
	for _, typed := range []map[string]string{t.draft.Answers, t.draft.Offered} {
		for key, text := range typed {
			number, of := strings.CutPrefix(key, st.group+" ")
			if n, err := strconv.Atoi(number); of && err == nil && text != "" && text != none {
				last = max(last, n)
			}
		}
	}
	return last
}

// hasBehind reports whether values stand behind the one that is asked for, which would be
// lost where the list ended here.
func (t *Talk) hasBehind(st step) bool { return st.field.Each != "" && t.lastValue(st) > st.index+1 }

// moveRows moves the rows from one on, or a sequence's figures: down, with that one to be
// asked for, or up over it. What was answered from there on is offered again, rulings follow
// their figures, and what has no place any more is said.
func (t *Talk) moveRows(st step, word, rest string) (moved bool, err error) {
	names, rows := t.places(st)
	at, typed := st.index, ""
	if rest != "" {
		var named string
		named, typed, _ = strings.Cut(rest, " ")
		at = slices.IndexFunc(names, func(name string) bool { return strings.EqualFold(name, named) })
	}
	if refused := st.staysThere(word, rest, names, at); refused != "" {
		t.term.say("  %s", refused)
		return false, nil
	}
	gone := rows[at]
	if word == insertWord && slices.ContainsFunc(rows[at:], func(row string) bool { return row != "" }) {
		gone = rows[len(rows)-1]
		copy(rows[at+1:], rows[at:len(rows)-1])
		rows[at] = strings.TrimSpace(typed)
	} else if word == removeWord && slices.ContainsFunc(rows[at:], func(row string) bool { return row != "" }) {
		copy(rows[at:], rows[at+1:])
		rows[len(rows)-1] = ""
	} else {
		t.term.say("  nothing stands at %s", lineName(names[at]))
		return false, nil
	}
	if from := slices.Index(t.draft.Asked, st.group+" "+names[at]); from >= 0 {
		for len(t.draft.Asked) > from && err == nil {
			_, err = t.back()
		}
	}
	for i := at; i < len(rows); i++ {
		t.offerAgain(st.group+" "+names[i], rows[i])
	}
	switch {
	case gone == "" && word == removeWord:
		t.term.say("  the empty place is taken out")
	case gone == "" || gone == none:
	case word == removeWord:
		t.term.say("  taken out: %s", display.OneLine(gone))
	default:
		t.term.say("  no row is left for what stood at %s: %s", lineName(names[len(names)-1]), display.OneLine(gone))
	}
	if st.line != nil {
		t.moveRulings(word, names, at)
	}
	if err == nil {
		err = t.draft.save()
	}
	return true, err
}

// staysThere says why nothing is moved at a place, "" where something may be.
func (st step) staysThere(word, rest string, names []string, at int) string {
	what, example := "row", names[min(st.index, len(names)-1)]
	if st.line == nil {
		what = st.field.Each
	}
	named, typed, _ := strings.Cut(rest, " ")
	switch {
	case at < 0 && st.line == nil && isNumber(named) && len(names) == 1:
		return fmt.Sprintf("there is no %s %s yet", what, named)
	case at < 0 && st.line == nil && isNumber(named):
		return fmt.Sprintf("there is no %s %s yet; %s", what, named, placesNamed(what, names[:len(names)-1]))
	case at < 0 && isSheetLine(named) && st.line != nil:
		return fmt.Sprintf("there is no row %s here; %s", display.OneLine(named), placesNamed(what, names))
	case at < 0, word == removeWord && typed != "":
		return fmt.Sprintf("%s and a %s's number: %[1]s %[3]s", word, what, example)
	default:
		return st.givenByFlag()
	}
}

// givenByFlag says that values were given by a flag, "" where they were not.
func (st step) givenByFlag() string {
	if len(st.scene.Given[st.field.Name]) == 0 {
		return ""
	}
	return fmt.Sprintf("the %ss were given by --%s, and stay where they are", cmp.Or(st.field.Each, "row"), st.field.Name)
}

// placesNamed says which rows or figures there are.
func placesNamed(what string, names []string) string {
	if len(names) == 1 {
		return fmt.Sprintf("the only %s is %s", what, names[0])
	}
	return fmt.Sprintf("the %ss are %s to %s", what, names[0], names[len(names)-1])
}

// rulingField is the field of an entry whose answers name lines of a sheet.
const rulingField = "resolve"

// moveRulings has rulings follow the rows that were moved from one on, and says so; one
// whose row has no place any more goes with it. They are asked again, or a flag's held against
// the rows again; a flag's that was not held against them yet stays as it is.
func (t *Talk) moveRulings(word string, names []string, at int) {
	given := t.draft.Given[rulingField]
	var left []string
	for n := 1; ; n++ {
		key := fmt.Sprintf("%s %d", rulingField, n)
		answer, held := t.draft.Answers[key]
		ruling := cmp.Or(answer, t.draft.Offered[key])
		untried := !held && n <= len(given)
		switch {
		case untried:
			ruling = given[n-1]
		case ruling == "" || ruling == none:
			t.forget(rulingField)
			t.offerRulings(left)
			return
		}
		if !untried {
			ruling = t.movedRuling(ruling, word, names, at)
		}
		if ruling != "" {
			left = append(left, ruling)
		}
	}
}

// offerRulings has rulings stand on their lines, or in the place of a flag's.
func (t *Talk) offerRulings(left []string) {
	_, flagged := t.draft.Given[rulingField]
	delete(t.draft.Given, rulingField)
	if flagged && len(left) > 0 {
		t.draft.Given[rulingField] = left
	}
	ofRuling := func(key string) bool { return strings.HasPrefix(key, rulingField+" ") }
	maps.DeleteFunc(t.wrong, func(key string, _ bool) bool { return ofRuling(key) })
	maps.DeleteFunc(t.draft.Offered, func(key, _ string) bool { return ofRuling(key) })
	for n, ruling := range left {
		if !flagged {
			t.offerAgain(fmt.Sprintf("%s %d", rulingField, n+1), ruling)
		}
	}
}

// movedRuling is a ruling with the number that its figure has now, "" where it has none.
func (t *Talk) movedRuling(ruling, word string, names []string, at int) string {
	key, rest, _ := strings.Cut(strings.TrimSpace(ruling), " ")
	from := slices.Index(names, key)
	to := from + 1
	if word == removeWord {
		to = from - 1
	}
	switch {
	case from < at: // or no line's
		return ruling
	case word == removeWord && from == at, to >= len(names):
		t.term.say("  the ruling on %s went with its marks: %s", lineName(key), display.OneLine(ruling))
		return ""
	default:
		ruling = joined(names[to], rest)
		t.term.say("  the ruling on %s follows its marks: %s", lineName(key), display.OneLine(ruling))
		return ruling
	}
}

// moveMarks moves the marks of a judge's sheet from one on, in the line that stands: down,
// with others before it, or up over it. What has no place any more is said. "" where
// nothing was moved.
func (t *Talk) moveMarks(st step, line, word, rest string) (moved string, err error) {
	keys := rowKeys(st.scene.sequence())
	key, marks, _ := strings.Cut(rest, " ")
	at := slices.IndexFunc(keys, func(k string) bool { return strings.EqualFold(k, key) })
	remark := ""
	if quote := strings.IndexByte(line, '"'); quote >= 0 {
		line, remark = line[:quote], line[quote:]
	}
	words := strings.Fields(line)
	switch {
	case at < 0 && isSheetLine(key):
		t.term.say("  there is no row %s here; %s", key, placesNamed("row", keys))
		return "", nil
	case at < 0 && word == insertWord:
		t.term.say("  %s, a figure's number and the mark: %[1]s 1 7.5", word)
		return "", nil
	case at < 0:
		t.term.say("  %s and a figure's number: %[1]s 1", word)
		return "", nil
	case at >= len(words):
		t.term.say("  nothing stands at %s", lineName(key))
		return "", nil
	case word == removeWord:
		t.term.say("  taken out: %s", words[at])
		return joined(append(slices.Delete(words, at, at+1), remark)...), nil
	case strings.TrimSpace(marks) == "":
		if marks, err = t.besides(st, joined(line, remark), "the mark of "+lineName(keys[at])+": "); err != nil {
			return "", err
		}
		if len(strings.Fields(marks)) != 1 || isMove(marks) {
			t.term.say("  one mark is asked for, such as 7.5; nothing was moved")
			return "", nil
		}
	}
	words = slices.Insert(words, at, strings.Fields(marks)...)
	if more := words[min(len(words), len(keys)):]; len(more) > 0 {
		t.term.say("  no place is left at the end for: %s", joined(more...))
	}
	return joined(append(words[:min(len(words), len(keys))], remark)...), nil
}
