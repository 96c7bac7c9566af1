package commands

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// fits are the reading pages with the most lines that each may take on the demo at
// 80 columns without --all; PILOT stands for each of its pilots.
var fits = []struct {
	page string
	most int
}{
	{"season PILOT", 45},
	{"families PILOT", 45},
	{"plan PILOT", 45},
	{"faults PILOT", 45},
	{"drills PILOT", 45},
	{"ready PILOT", 45},
	{"forecast PILOT intermediate-known-26", 45},
	{"forecast PILOT advanced-known-26", 45},
	{"pilots", 45},
	{"--pilot PILOT", 20},
	{"panel", 45},
	{"panel --pilot PILOT", 45},
	{"families PILOT 7", 45},
	{"families PILOT 9.1", 45},
	{"families PILOT spins", 45},
}

// method is what a page without --all leaves out: tests, what draws a number
// towards others, effects of a design.
var method = regexp.MustCompile(`(?i)\bp 0\.|\b[pqS]  |\bshrunk|design effect|\btest on\b|permutation|Fisher`)

// TestWholePagesLeaveNothingOut holds every page with --all to its promise, on a narrow
// terminal too.
func TestWholePagesLeaveNothingOut(t *testing.T) {
	for _, page := range []string{
		"season ines", "season yuki", "families ines", "families ines 7", "faults ines", "drills ines", "panel ines", "plan ines", "ready ines",
		"forecast intermediate-known-26 --pilot ines", "flight 2026-09-12/ines/known", "flight 2026-09-12/yuki", "year 2026", "year 2025",
	} {
		args := append(strings.Fields(page), "--all", "-f", "../../../../data/demo/longmere.boxbook")
		assert.NotContains(t, screenOf(t, 80, args...), "not shown at this width", page)
	}
}

// TestHeadingsAreWhole holds every page to headings that go on in a further line where
// their column is narrow.
func TestHeadingsAreWhole(t *testing.T) {
	cut := regexp.MustCompile(`\n\n(?:.*\S.*\n)?.*….*\n(?:.*\S.*\n)?─{20,}\n`)
	for _, width := range []int{60, 80, 140} {
		for _, page := range allPages {
			var out strings.Builder
			s := readmeStreams(&out)
			s.width = width
			run(strings.Fields(strings.ReplaceAll(page, "PILOT", "ines")+" -f ../../../../data/demo/longmere.boxbook --asof 2026-10-01"), s)
			assert.Empty(t, cut.FindString(out.String()), "%q at %d", page, width)
		}
	}
}

// TestPagesFit holds every reading page of the demo to its lines, and to words
// without a test.
func TestPagesFit(t *testing.T) {
	for _, pilot := range []string{"ines", "tobias", "yuki"} {
		for _, fit := range fits {
			args := append(strings.Fields(strings.ReplaceAll(fit.page, "PILOT", pilot)), "-f", "../../../../data/demo/longmere.boxbook")
			out := screenOf(t, 80, args...)
			assert.LessOrEqual(t, strings.Count(out, "\n"), fit.most, "%v:\n%s", args, out)
			assert.NotRegexp(t, method, out, args)
		}
	}
}
