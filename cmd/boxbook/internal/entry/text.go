package entry

import (
	"slices"
	"strings"

	"boxbook/season/ledger"
)

// blockText joins words to lines of the ledger language.
type blockText struct{ b strings.Builder }

func (t *blockText) line(words ...string) *blockText {
	t.b.WriteString(joined(words...) + "\n")
	return t
}

// body adds an indented line where there is anything to say.
func (t *blockText) body(key string, values ...string) *blockText {
	if said := joined(values...); said != "" {
		t.b.WriteString("  " + key + " " + said + "\n")
	}
	return t
}

// each adds an indented line for each value that says anything.
func (t *blockText) each(key string, values []string) *blockText {
	for _, value := range values {
		t.body(key, value)
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

// joined puts words one behind the other, those left out apart.
func joined(words ...string) string {
	return strings.Join(slices.DeleteFunc(slices.Clone(words), func(w string) bool { return w == "" }), " ")
}

// quoted writes free text as the ledger does, "" for none.
func quoted(text string) string {
	if text == "" {
		return ""
	}
	return ledger.Quote(text)
}

// unquoted is free text without the pair of quotes that a person typed around all of
// it; quotes around words of it stay.
func unquoted(text string) string {
	within, begins := strings.CutPrefix(text, `"`)
	within, ends := strings.CutSuffix(within, `"`)
	if !begins || !ends || strings.Contains(within, `"`) {
		return text
	}
	return strings.TrimSpace(within)
}

// plain is an answer without the quotes that a person typed around all of a free text.
func (st step) plain(text string) string {
	if st.field.Shape != Text {
		return text
	}
	return unquoted(text)
}

// allQuoted quotes each text.
func allQuoted(texts []string) []string {
	quotes := make([]string, len(texts))
	for i, text := range texts {
		quotes[i] = quoted(text)
	}
	return quotes
}
