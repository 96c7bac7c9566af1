package entry

import (
	"fmt"
	"strings"
)

// insertWord begins an answer that goes before the one that is offered.
const insertWord = "insert "

// inserts is what is inserted before the value that is offered; false where an answer
// is none such.
func (st step) inserts(text string) (string, bool) {
	if st.field.Each == "" {
		return text, false
	}
	rest, found := strings.CutPrefix(text, insertWord)
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
