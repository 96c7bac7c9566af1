package commands

import (
	"html"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// htmlPages are the pages of the demo.
var htmlPages = []string{
	"season ines", "flight 2026-09-12/ines/known", "families ines", "faults ines", "drills ines", "plan --pilot ines", "ready ines", "panel --season 2026", "year 2026",
	"forecast advanced-known-26 --pilot ines", "statement ines 2026", "flight 2026-09-12/ines/known --all",
}

// A row of a table says in html what it says in markdown, which the tests of
// rounding hold to the JSON.
func TestTablesSayTheSameInHTML(t *testing.T) {
	row := regexp.MustCompile(`(?s)<tr>(.*?)</tr>`)
	cell := regexp.MustCompile(`(?s)<(?:td|th)[^>]*>(.*?)</(?:td|th)>`)
	tag := regexp.MustCompile(`<[^>]*>`)
	compared := 0
	for _, name := range htmlPages {
		args := append(strings.Fields(name), "-f", "../../../../data/demo/longmere.boxbook")
		var want, got [][]string
		for _, table := range markdownTables(screenOf(t, 80, append(args, "--format", "markdown")...)) {
			for _, cells := range table {
				want = append(want, shortRow(cells))
			}
		}
		page := screenOf(t, 80, append(args, "--format", "html")...)
		for _, r := range row.FindAllStringSubmatch(page, -1) {
			var cells []string
			for _, c := range cell.FindAllStringSubmatch(r[1], -1) {
				cells = append(cells, strings.TrimSpace(html.UnescapeString(tag.ReplaceAllString(c[1], ""))))
			}
			got = append(got, shortRow(cells))
		}
		assert.Equal(t, want, got, name)
		compared += len(got)
		assert.Equal(t, page, screenOf(t, 80, append(args, "--format", "html")...), "%s: the same bytes twice", name)
	}
	assert.Greater(t, compared, 150)
}

// shortRow is a row without the empty cells at its end.
func shortRow(cells []string) []string {
	for len(cells) > 0 && cells[len(cells)-1] == "" {
		cells = cells[:len(cells)-1]
	}
	return cells
}

// A booklet of a long season stays small enough to be mailed.
func TestABookletOf25FlightsIsSmall(t *testing.T) {
	page := screenOf(t, 80, "booklet", "ines", "--since", "2025-01-01", "-f", "../../../../data/demo/longmere.boxbook", "-o", "-")
	flights := strings.Count(page, "<details>")
	assert.GreaterOrEqual(t, flights, 25)
	assert.Less(t, len(page)*25/flights, 400_000)
}
