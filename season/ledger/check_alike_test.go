package ledger

import (
	"fmt"
	"runtime"
	"strings"
	"testing"

	"boxbook/data"
	"boxbook/season"

	"github.com/stretchr/testify/assert"
)

// A short sheet, or one of nearly the same mark throughout, may well come twice.
func TestAlikeNeedsEnoughMarks(t *testing.T) {
	assert.Equal(t, []int{20, 4}, []int{AlikeMarks, alikeDifferent})
	assert.Contains(t, strings.Join(strings.Fields(data.Kinds), " "), "fewer than twenty marks, or fewer than four different ones")
	const head = "pilot ines\nsequence four\n  category intermediate\n  programme known\n  1 K 10\n  2 K 12\n  3 K 14\n  4 K 9\n"
	flights := func(panel string, rows ...string) string {
		return "flight 2026-04-18 ines known\n  sequence four\n  panel " + panel + "\n  " + strings.Join(rows, "\n  ") + "\n" +
			"flight 2026-05-16 ines known\n  sequence four\n  panel " + panel + "\n  " + strings.Join(rows, "\n  ") + "\n"
	}
	today, _ := season.ParseDate(casesToday)
	said := func(text string) bool {
		result, err := Load(Options{Files: Memory{"a.boxbook": head + text}, Main: "a.boxbook", Builtin: data.Builtin(), AsOf: today})
		assert.NoError(t, err)
		return strings.Contains(rendered(t, result.Diagnostics), "exactly the marks")
	}
	assert.True(t, said(flights("A B C D E", "1 8 7.5 8 7 7.5", "2 7 HZ 7 6.5 7", "3 7 8 7.5 7 7", "4 6 6.5 6.5 6 7")))
	assert.True(t, said(flights("A B C D E", "1 7 7 7 7 7", "2 7 7 7 7 7", "3 7 7 7 7 8", "4 7 7 7 6.5 6")), "four different ones")
	assert.False(t, said(flights("A B C D", "1 8 7.5 8 7", "2 7 HZ 7 6.5", "3 7 8 7.5 7", "4 6 6.5 6.5 6")), "sixteen marks")
	assert.False(t, said(flights("A B C D E", "1 7 7 7 7 7", "2 7 7 7 7 7", "3 7 7 7 7 7", "4 7 7 7 6.5 6")), "three different ones")
}

// Pilots are compared side by side: what is said, and in which order, does not lean on how
// many processors do it.
func TestAlikeIsTheSameOnEveryNumberOfProcessors(t *testing.T) {
	const (
		head = "sequence four\n  category intermediate\n  programme known\n  1 K 10\n  2 K 12\n  3 K 14\n  4 K 9\n  5 K 9\n  6 K 9\n  7 K 9\n  8 K 9\n"
		rows = "  1 8 7.5 8 7 7.5\n  2 7 HZ 7 6.5 7\n  3 7 8 7.5 7 7\n  4 6 6.5 6.5 6 7\n  5 8 8 8 7 7\n  6 7 8 9 7 7\n  7 6 6 6 7 7\n"
	)
	var text strings.Builder
	for _, name := range []string{"ines", "bo", "cai", "dov", "eli"} {
		fmt.Fprintf(&text, "pilot %s\n", name)
	}
	text.WriteString(head)
	for month, last := range []string{"8 7 7 7 6 6", "8 7 7 7 6 6", "8 7 7 7.5 6 6"} {
		for _, name := range []string{"dov", "ines", "eli", "bo", "cai"} {
			fmt.Fprintf(&text, "flight 2026-0%d-18 %s known\n  sequence four\n  panel A B C D E\n%s  %s\n", month+4, name, rows, last)
		}
	}
	today, _ := season.ParseDate(casesToday)
	before := runtime.GOMAXPROCS(0)
	t.Cleanup(func() { runtime.GOMAXPROCS(before) })
	var want string
	for _, processors := range []int{1, 2, 3, 4, 7, 100} {
		runtime.GOMAXPROCS(processors)
		result, err := Load(Options{Files: Memory{"a.boxbook": text.String()}, Main: "a.boxbook", Builtin: data.Builtin(), AsOf: today})
		assert.NoError(t, err)
		got := rendered(t, result.Diagnostics)
		if want == "" {
			want = got
			assert.Equal(t, 5, strings.Count(want, "has exactly the marks"), want)
			assert.Equal(t, 5, strings.Count(want, "all but 1 of the 40 marks"), want)
		}
		assert.Equal(t, want, got, "%d processors", processors)
	}
}
