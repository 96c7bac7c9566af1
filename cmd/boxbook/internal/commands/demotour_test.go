package commands

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report"
	"boxbook/report/words"
)

// tourLines is the most that the tour may take at 80 columns.
const tourLines = 160

// TestDemoTour holds the tour to its length, and to the job that it shows: each
// command with how its page begins, one caution after those that advise.
func TestDemoTour(t *testing.T) {
	t.Chdir(t.TempDir())
	out := screenOf(t, 80, "demo")
	assert.LessOrEqual(t, strings.Count(out, "\n"), tourLines, out)
	for _, shown := range []string{
		"no errors, no warnings",                                   // the check
		"67.42%: 1699.10 of 2520 points",                           // a score
		"Best explanation: half a point lower on",                  // its reconciliation
		"Comes back most in the last two years, practice included", // what comes back, and costs
		"points per flight",                                        //
		"3 of 11  ",                                                // a drill before and after
		"pays most in",                                             // where practice pays
		"Not yet. Missing: a coach's sign-off",                     // readiness
		"By the ledger the club is ",                               // the club's money
		"wrote boxbook-demo/ines-2026.xlsx",                        // handed over
		"wrote boxbook-demo/ines-2026.html",                        //
		"more lines of this page]",                                 // excerpts say that they are
	} {
		assert.Contains(t, out, shown)
	}
	flat := strings.Join(strings.Fields(out), " ")
	assert.Equal(t, 1, strings.Count(flat, words.SeasonCaution))
	assert.Greater(t, strings.Index(flat, words.SeasonCaution), strings.Index(flat, "$ boxbook ready ines"))
	for _, line := range strings.Split(out, "\n") {
		if command, ok := strings.CutPrefix(line, "$ boxbook "); ok {
			require.Equal(t, exitDone, run(strings.Fields(command), readmeStreams(new(strings.Builder))), "the tour's commands are commands: %s", command)
		}
	}
}

// An excerpt ends where a paragraph does, never with a heading.
func TestExcerpt(t *testing.T) {
	const page = "Title\nhead\n\nFirst,\nof two.\n\nHeading\n\nrow 1\nrow 2\n"
	for most, want := range map[int]string{
		0: page, 10: page, 9: "Title\nhead\n\nFirst,\nof two.\n", 6: "Title\nhead\n\nFirst,\nof two.\n",
		4: "Title\nhead\n", 1: "Title\n",
	} {
		shown, left := excerpt(page, most)
		assert.Equal(t, want, shown, most)
		assert.Equal(t, strings.Count(page, "\n")-strings.Count(want, "\n"), left, most)
	}
}

// TestTourRunsWhenPasted pastes what the tour shows, its own commands and those that its
// pages suggest, from the folder that it was walked from.
func TestTourRunsWhenPasted(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.Mkdir("my clubs", 0o755))
	out, goOn, ok := strings.Cut(screenOf(t, 80, "demo", "my clubs/one"), "\ngo on in ")
	require.True(t, ok)
	var shown []string
	for _, line := range strings.Split(out, "\n") {
		report.RewriteToRun(strings.TrimPrefix(line, "$ "), func(command string) string {
			shown = append(shown, command)
			return command
		})
	}
	assert.Greater(t, len(shown), len(demoTour("")), "a page of the tour suggests a command")
	for _, command := range shown {
		if !strings.HasPrefix(command, "boxbook 1.0") { // a head's version is no command
			pasteOf(t, command)
		}
	}
	assert.NotContains(t, goOn, "-f '")
}
