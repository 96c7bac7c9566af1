package ledger

import (
	"strings"
	"testing"

	"boxbook/data"
	"boxbook/season"

	"github.com/stretchr/testify/assert"
)

// By how much the K differ from a printed total is said of either total that may be meant,
// and a K whose digits were changed over is named.
func TestWhatIsAmissWithATotalK(t *testing.T) {
	today, _ := season.ParseDate(casesToday)
	for text, want := range map[string]string{
		"  1 K 20\n  2 K 61\n  3 K 19\n  positioning K 12\n  total K 67\n": "figure 2 with K 16 instead of 61 would give it: digits changed over?",
		"  1 K 20\n  2 K 61\n  3 K 19\n  positioning K 12\n  total K 55\n": "figure 2 with K 16 instead of 61 would give it: digits changed over?",
		"  1 K 20\n  2 K 18\n  3 K 19\n  positioning K 12\n  total K 54\n": "3 too many, or 15 if it is of all lines: a figure typed twice, or a mistyped K?",
		"  1 K 20\n  2 K 18\n  3 K 19\n  total K 54\n":                     "3 too many: a figure typed twice, or a mistyped K?",
		"  1 K 21\n  2 K 21\n  3 K 19\n  total K 52\n":                     "9 too many: a figure typed twice, or a mistyped K?", // either of two
	} {
		result, err := Load(Options{Files: Memory{"a.boxbook": "sequence s\n  category sportsman\n  programme known\n" + text}, Main: "a.boxbook", Builtin: data.Builtin(), AsOf: today})
		assert.NoError(t, err)
		said := rendered(t, result.Diagnostics)
		assert.Contains(t, strings.Join(strings.Fields(said), " "), "hint: "+want, text)
	}
}
