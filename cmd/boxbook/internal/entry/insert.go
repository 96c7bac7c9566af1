package entry

import (
	"fmt"
	"slices"
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
// is none such.
func (st step) inserts(text string) (string, bool) {
	if st.field.Each == "" {
		return text, false
	}
	rest, found := strings.CutPrefix(text, insertWord+" ")
	return strings.TrimSpace(rest), found
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

// moveUp takes the value that is offered out: those behind it are offered one place
// earlier. moved is false where nothing is offered.
func (t *Talk) moveUp(st step) (moved bool) {
	out := t.draft.Offered[st.key]
	if out == "" {
		t.term.say("  nothing stands here to be taken out")
		return false
	}
	for at, value := st.index, out; value != ""; at++ {
		value = t.draft.Offered[fmt.Sprintf("%s %d", st.group, at+2)]
		t.offerAgain(fmt.Sprintf("%s %d", st.group, at+1), value)
	}
	t.term.say("  taken out: %s", display.OneLine(out))
	return true
}

// isMove reports whether a text begins with a word that moves what was typed.
func isMove(text string) bool {
	word, _, _ := strings.Cut(strings.TrimSpace(text), " ")
	return word == insertWord || word == removeWord
}

// movesLines is the word of an answer that moves lines, and what stands behind it; false
// where an answer is none such.
func (st step) movesLines(text string) (word, rest string, is bool) {
	word, rest, _ = strings.Cut(text, " ")
	return word, strings.TrimSpace(rest), st.line != nil && isMove(text)
}

// moveRows moves the rows from one on: down, with that one to be asked for, or up over it.
// What was answered from there on is offered again, and what has no place any more is said.
func (t *Talk) moveRows(st step, word, named string) (moved bool, err error) {
	lines := st.field.lines(st.scene)
	at := st.index
	if named != "" {
		at = slices.IndexFunc(lines, func(l Line) bool { return strings.EqualFold(l.Key, named) })
	}
	switch {
	case at < 0 && isSheetLine(named):
		t.term.say("  there is no row %s here; %s", display.OneLine(named), rowsNamed(lines))
		return false, nil
	case at < 0:
		t.term.say("  %s and a row's number: %[1]s %s", word, st.line.Key)
		return false, nil
	case len(t.draft.Given[st.field.Name]) > 0:
		t.term.say("  the rows were given by --%s, and stay where they are", st.field.Name)
		return false, nil
	}
	rows := make([]string, len(lines))
	for i, line := range lines {
		key := st.group + " " + line.Key
		if rows[i] = t.draft.Answers[key]; rows[i] == "" {
			rows[i] = t.draft.Offered[key]
		}
	}
	gone := rows[at]
	if word == insertWord && slices.ContainsFunc(rows[at:], func(row string) bool { return row != "" }) {
		gone = rows[len(rows)-1]
		copy(rows[at+1:], rows[at:len(rows)-1])
		rows[at] = ""
	} else if word == removeWord && gone != "" {
		copy(rows[at:], rows[at+1:])
		rows[len(rows)-1] = ""
	} else {
		t.term.say("  nothing stands at %s", lineName(lines[at].Key))
		return false, nil
	}
	if from := slices.Index(t.draft.Asked, st.group+" "+lines[at].Key); from >= 0 {
		for len(t.draft.Asked) > from && err == nil {
			_, err = t.back()
		}
	}
	for i := at; i < len(rows); i++ {
		t.offerAgain(st.group+" "+lines[i].Key, rows[i])
	}
	switch {
	case gone == "" || gone == none:
	case word == removeWord:
		t.term.say("  taken out: %s", display.OneLine(gone))
	default:
		t.term.say("  no row is left for what stood at %s: %s", lineName(lines[len(lines)-1].Key), display.OneLine(gone))
	}
	if err == nil {
		err = t.draft.save()
	}
	return true, err
}

// rowsNamed says which rows there are.
func rowsNamed(lines []Line) string {
	return fmt.Sprintf("the rows are %s to %s", lines[0].Key, lines[len(lines)-1].Key)
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
