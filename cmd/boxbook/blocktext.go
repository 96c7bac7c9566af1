package main

import (
	"slices"
	"strings"

	"boxbook/season/ledger"
)

// blockText joins words to lines of the ledger language.
type blockText struct{ b strings.Builder }

func (t *blockText) line(words ...string) *blockText {
	words = slices.DeleteFunc(words, func(w string) bool { return w == "" })
	t.b.WriteString(strings.Join(words, " ") + "\n")
	return t
}

// body adds an indented line where there is anything to say.
func (t *blockText) body(key string, values ...string) *blockText {
	values = slices.DeleteFunc(values, func(w string) bool { return w == "" })
	if len(values) > 0 {
		t.b.WriteString("  " + key + " " + strings.Join(values, " ") + "\n")
	}
	return t
}

// tidied gives the block in the layout of `tidy`; text that is not of the
// language stays as it is, and the check of the whole ledger says what is wrong.
func (t *blockText) tidied() string {
	text := t.b.String()
	if tidy, err := ledger.Tidy("", text); err == nil {
		return tidy
	}
	return text
}

// quoted writes free text as the ledger does, "" for none.
func quoted(text string) string {
	if text == "" {
		return ""
	}
	return ledger.Quote(text)
}
