package ledger

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// torn gives every text that comes of one slip in a ledger: a line left out, a
// line that lost its indent, a line twice, a word left out, a word cut short.
func torn(text string, each func(slip, torn string)) {
	all := strings.SplitAfter(text, "\n")
	for i, line := range all {
		said, _, _ := strings.Cut(line, "#")
		if strings.TrimSpace(said) == "" {
			continue
		}
		put := func(slip, instead string) {
			each(slip, strings.Join(all[:i], "")+instead+strings.Join(all[i+1:], ""))
		}
		put("left out: "+line, "")
		put("at column 0: "+line, strings.TrimLeft(line, " \t"))
		put("twice: "+line, line+line)
		for _, span := range regexp.MustCompile(`[^ \n]+`).FindAllStringIndex(said, -1) {
			word := line[span[0]:span[1]]
			put("without "+word+": "+line, line[:span[0]]+line[span[1]:])
			put("cut short "+word+": "+line, line[:span[1]-1]+line[span[1]:])
		}
	}
}

// Whatever single slip is made in a ledger, reading it ends, and what is said
// stands where it is said to be, on a screen that does no harm.
func TestTornLedger(t *testing.T) {
	raw, err := os.ReadFile(ledgersFolder + "language-tour.boxbook")
	require.NoError(t, err)
	coach, err := os.ReadFile(ledgersFolder + "coach/marek.boxbook")
	require.NoError(t, err)
	every, all, slips, wrong := 1, 0, 0, 0
	if raceDetector {
		every = 11 // slowly, but some of them
	}
	torn(string(raw), func(slip, text string) {
		if all++; all%every != 0 {
			return
		}
		files := Memory{"test.boxbook": text, "coach/marek.boxbook": string(coach)}
		require.NotPanics(t, func() {
			list := readFiles(t, files).Diagnostics
			checkPlaces(t, files, list)
			checkScreen(t, rendered(t, list))
			slips++
			if len(list) > 0 {
				wrong++
			}
		}, slip)
	})
	t.Logf("%d slips, %d of them noticed", slips, wrong)
	require.Greater(t, all, 2500)
	require.Greater(t, 2*wrong, slips, "most slips are noticed")
}
