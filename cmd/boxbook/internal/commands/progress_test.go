package commands

import (
	"bytes"
	"io"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// TestProgress tells a terminal of long work alone, and leaves no trace.
func TestProgress(t *testing.T) {
	clock := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	var out bytes.Buffer
	a := &app{streams: &streams{err: &out, errTerminal: true, now: func() time.Time { return clock }}}
	p := a.newProgress("writing book.xlsx")
	p.step(1, 10)
	require.Empty(t, out.String(), "quick work is not told of")
	clock = clock.Add(time.Second)
	p.step(5, 10)
	p.step(6, 10)
	require.Equal(t, "\rwriting book.xlsx   50%", out.String(), "and not for every step")
	p.end()
	require.Equal(t, "\rwriting book.xlsx   50%\r                       \r", out.String())

	out.Reset()
	a.errTerminal = false
	p = a.newProgress("writing book.xlsx")
	clock = clock.Add(time.Minute)
	p.step(5, 10)
	p.end()
	require.Empty(t, out.String(), "nothing in a pipe")
}

// Long commands tell a terminal on standard error how far they are, in percents
// that rise, and take the line away; standard output has none of it, and a pipe
// on standard error nothing either.
func TestLongCommandsTellTheirProgress(t *testing.T) {
	folder := t.TempDir()
	t.Chdir(folder)
	require.Equal(t, exitDone, run([]string{"demo"}, readmeStreams(io.Discard)))
	for _, args := range [][]string{
		{"workbook", "-f", "boxbook-demo/longmere.boxbook", "--pilot", "ines", "-o", filepath.Join(folder, "book.xlsx")},
		{"export", "-f", "boxbook-demo/longmere.boxbook", "-o", filepath.Join(folder, "marks.csv")},
	} {
		for _, terminal := range []bool{true, false} {
			clock := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
			var out, told bytes.Buffer
			s := readmeStreams(&out)
			s.err, s.errTerminal = &told, terminal
			s.now = func() time.Time { // slow work, a second from look to look
				clock = clock.Add(time.Second)
				return clock
			}
			require.Equal(t, exitDone, run(args, s))
			require.NotContains(t, out.String(), "%")
			if !terminal {
				require.Empty(t, told.String(), "nothing in a pipe")
				continue
			}
			percents := regexp.MustCompile(`(\d+)%`).FindAllStringSubmatch(told.String(), -1)
			require.Greater(t, len(percents), 5, args[0])
			last := 0
			for _, p := range percents {
				percent, err := strconv.Atoi(p[1])
				require.NoError(t, err)
				require.GreaterOrEqual(t, percent, last)
				last = percent
			}
			require.GreaterOrEqual(t, last, 85)
			require.LessOrEqual(t, last, 100)
			require.Regexp(t, `\r +\r$`, told.String(), "the line is taken away")
		}
	}
}

// The line keeps to the terminal: one that went on to the next line could not be
// taken away.
func TestProgressFitsTheTerminal(t *testing.T) {
	clock := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	var out bytes.Buffer
	a := &app{streams: &streams{err: &out, errTerminal: true, errWidth: 40, now: func() time.Time { return clock }}}
	p := a.newProgress("writing a-rather-long-file-name-for-a-workbook-2026.xlsx")
	clock = clock.Add(time.Second)
	p.step(1, 2)
	require.Equal(t, "\rwriting a-rather-long-file-name-…   50%", out.String())
	out.Reset()
	p.end()
	require.Equal(t, "\r"+strings.Repeat(" ", 39)+"\r", out.String())
}
