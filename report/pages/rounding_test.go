package pages

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"boxbook/report"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// halfBook is a ledger whose numbers lie half way: every flight comes to a mean
// grade of 6.625, 66.25%, and the family that is new at the next step was
// graded 6.25 in practice.
func halfBook() string {
	var b strings.Builder
	b.WriteString("pilot ines\n  name \"Ines Halloran\"\n")
	for _, name := range []string{"one 5.2.1.1:10", "two 7.4.1.1:10"} {
		handle, code, _ := strings.Cut(name, " ")
		fmt.Fprintf(&b, "sequence %s\n  category sportsman\n  programme known\n  1 %s\n", handle, code)
	}
	b.WriteString("sequence flick\n  category sportsman\n  1 9.9.3.4:11\n")
	b.WriteString("sequence next\n  category intermediate\n  programme known\n  1 5.2.1.1:10\n")
	for month := 4; month < 10; month++ {
		fmt.Fprintf(&b, "flight 2026-%02d-18 ines known\n  sequence one\n  panel A B C D\n  1 6.5 6.5 6.5 7\n", month)
	}
	b.WriteString("coach marek\ncoach anna\nflight 2026-10-18 ines practice\n  sequence flick\n  panel marek anna\n  1 6 6.5\n")
	return b.String()
}

// What lies half way is rounded away from zero on every page, in sentences as in
// tables: 6.25 is 6.3 and 66.25 is 66.3.
func TestHalvesAreRoundedOneWay(t *testing.T) {
	l := faultBook(t, halfBook())
	other := regexp.MustCompile(`\b66\.2\b|\b6\.2\b|\b6\.62\b|\b3\.37\b`)
	seen := map[string]int{}
	for _, p := range everyPage(t, l) {
		for _, write := range []func(*strings.Builder, report.Document) error{
			func(b *strings.Builder, d report.Document) error {
				return report.WriteText(b, d, report.TextOptions{Width: 140})
			},
			func(b *strings.Builder, d report.Document) error { return report.WriteMarkdown(b, d) },
			func(b *strings.Builder, d report.Document) error { return report.WriteJSON(b, d) },
		} {
			var b strings.Builder
			require.NoError(t, write(&b, p.doc))
			assert.NotRegexp(t, other, b.String(), p.name)
			for _, want := range []string{"66.3", "6.3", "6.63", "66.25"} {
				seen[want] += strings.Count(b.String(), want)
			}
		}
	}
	for _, want := range []string{"66.3", "6.3", "6.63", "66.25"} {
		assert.Positive(t, seen[want], want)
	}
	text, _ := readyPage(t, halfBook(), "")
	assert.Contains(t, text, "positive flick rolls (family 9.9) graded once, mean 6.3")
}
