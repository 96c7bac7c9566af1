package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestWrap(t *testing.T) {
	for _, test := range []struct {
		name, text string
		width      int
		want       []string
	}{
		{"nothing", "", 10, nil},
		{"spaces", "   ", 10, nil},
		{"fits", "one two", 7, []string{"one two"}},
		{"breaks", "one two", 6, []string{"one", "two"}},
		{"spaces run together", " one   two ", 20, []string{"one two"}},
		{"a long word stays whole", "see https://example.org/x now", 10, []string{"see", "https://example.org/x", "now"}},
		{"no-break space", "after 6\u00a0flights", 10, []string{"after", "6\u00a0flights"}},
		{"wide characters", "山田 花子 ab", 9, []string{"山田 花子", "ab"}},
		{"wide characters without spaces", "上達は基本から始まる", 8, []string{"上達は基", "本から始", "まる"}},
		{"punctuation stays", "上達は基、本から", 8, []string{"上達は", "基、本か", "ら"}},
		{"a word among wide characters", "上達はloopから", 8, []string{"上達は", "loopから"}},
		{"combining marks take no room", "e\u0301e\u0301e\u0301 e\u0301", 5, []string{"e\u0301e\u0301e\u0301 e\u0301"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			assert.Equal(t, test.want, wrap(test.text, test.width))
		})
	}
}

// A word that is wider than a line goes on in the next, behind a hyphen where it has
// one, and no character is lost.
func TestWrapWhole(t *testing.T) {
	for _, test := range []struct {
		text  string
		width int
		want  []string
	}{
		{"Ines Halloran", 9, []string{"Ines", "Halloran"}},
		{"Ines Halloran-Featherstone", 12, []string{"Ines", "Halloran-", "Featherstone"}},
		{"Halloran-Featherstone rest", 9, []string{"Halloran-", "Featherst", "one", "rest"}},
		{"Featherstonehaugh", 8, []string{"Feathers", "tonehaug", "h"}},
		{"-Featherstonehaugh", 8, []string{"-Feather", "stonehau", "gh"}},
		{"山", 1, []string{"山"}},
	} {
		assert.Equal(t, test.want, wrapWhole(test.text, test.width), test.text)
	}
}

func TestWrapLinesKeepsLineFeeds(t *testing.T) {
	assert.Equal(t, []string{"one", "two", "", "three"}, (&textWriter{prose: 5}).wrapLines("one two\n\nthree"))
}

func TestHang(t *testing.T) {
	link := "https://example.org/" + strings.Repeat("x", 10)
	for _, test := range []struct {
		name, head, text string
		want             []string
	}{
		{"beside", "rules", "as graded by most", []string{"rules  as graded by", "       most"}},
		{"nothing beside", "rules", "", []string{"rules"}},
		{"head too wide", "rules in force", "as graded", []string{"rules in force", "       as graded"}},
		{"a word too wide for beside", "rules", "https://a.example", []string{"rules", "  https://a.example"}},
		{"a word too wide for anything", "rules", link, []string{"rules", "  " + link}},
		{"a word that just has room", "rules", link[:20], []string{"rules", link[:20]}},
		{"a word too wide within", "rules", "as in https://a.example/b or by most", []string{"rules  as in", "https://a.example/b", "       or by most"}},
		{"a first word too wide", "rules", "https://a.example by most", []string{"rules", "  https://a.example", "       by most"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			assert.Equal(t, test.want, hang(test.head, test.text, 7, 20, untinted))
		})
	}
}
