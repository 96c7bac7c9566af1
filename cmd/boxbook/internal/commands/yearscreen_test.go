package commands

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
)

// The treasurer's first page of the demo is one that is read: at most 60 lines of
// 80 columns, and no sentence with more than two people in it.
func TestFirstPageOfTheYear(t *testing.T) {
	const demo = "../../../../data/demo/longmere.boxbook"
	for _, year := range []string{"2025", "2026"} {
		text := screenOf(t, 80, "year", year, "-f", demo)
		lines := strings.Split(strings.TrimRight(text, "\n"), "\n")
		assert.LessOrEqual(t, len(lines), 60)
		for _, line := range lines {
			assert.LessOrEqual(t, utf8.RuneCountInString(line), 80, line)
		}
		first, _, _ := strings.Cut(text, "Owed to the club")
		for _, sentence := range strings.Split(strings.Join(strings.Fields(first), " "), ". ") {
			named := 0
			for _, name := range []string{"Ines Halloran", "Tobias Renn", "Yuki Lindqvist", "Marek Oduya", "Rolf, the rigger"} {
				named += strings.Count(sentence, name)
			}
			assert.LessOrEqual(t, named, 2, sentence)
		}
	}
}
