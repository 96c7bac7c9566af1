package ledger_test

import (
	"testing"

	"boxbook/season/ledger"

	"github.com/stretchr/testify/assert"
)

func TestWords(t *testing.T) {
	for text, want := range map[string][]string{
		"":                          nil,
		"  95.00\tEUR ":             {"95.00", "EUR"},
		`8.5.2.1:10 "half # Cuban"`: {"8.5.2.1:10", `"half # Cuban"`},
		`"a \" quote" b`:            {`"a \" quote"`, "b"},
		"a#b":                       {"a#b"},
	} {
		words, ok := ledger.Words(text)
		assert.True(t, ok, text)
		assert.Equal(t, want, words, text)
	}
	for _, text := range []string{"a # b", "# b", `"a`, "a\nb", "a\rb", "a\x00b", "a\u0085b", `a "b" c"`} {
		_, ok := ledger.Words(text)
		assert.False(t, ok, text)
	}
}
