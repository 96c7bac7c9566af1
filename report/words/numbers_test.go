package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report/words"
)

// A fault kind's name may begin with any letter.
func TestSentence(t *testing.T) {
	for text, want := range map[string]string{"": "", "improving": "Improving", "öse": "Öse", "петля": "Петля", "9.1": "9.1", "宙": "宙"} {
		assert.Equal(t, want, words.Sentence(text))
	}
}

func TestCounted(t *testing.T) {
	for n, want := range map[int]string{0: "0 flights", 1: "1 flight", 2: "2 flights"} {
		assert.Equal(t, want, words.Counted(n, "flight", "flights"))
	}
}

func TestNumberWord(t *testing.T) {
	for n, want := range map[int]string{0: "no", 2: "two", 5: "five", 12: "twelve", 13: "13", -1: "-1"} {
		assert.Equal(t, want, words.NumberWord(n))
	}
}

func TestListInWords(t *testing.T) {
	assert.Empty(t, words.ListInWords(nil))
	assert.Equal(t, "a", words.ListInWords([]string{"a"}))
	assert.Equal(t, "a and b", words.ListInWords([]string{"a", "b"}))
	assert.Equal(t, "a, b and c", words.ListInWords([]string{"a", "b", "c"}))
}
