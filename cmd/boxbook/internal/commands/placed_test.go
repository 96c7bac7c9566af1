package commands

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestSlipsInFlagsNameTheFlag says of which flag an error is; lines that no file has
// are not named.
func TestSlipsInFlagsNameTheFlag(t *testing.T) {
	dir, path := ledgerIn(t, springFlown)
	t.Chdir(dir)
	for want, args := range map[string][]string{
		"--kind: error: no fault kind is called \"wobble\"\n":                         {"fault", "--flight", "last", "--figure", "1", "--kind", "wobble"},
		"--figure: error: there is no figure 9":                                       {"fault", "--flight", "last", "--figure", "9", "--kind", "radius"},
		"--by: error: no coach is called \"bea\"\n":                                   {"review", "--flight", "last", "--by", "bea"},
		"--fault: error: \"5deg\": a radius fault":                                    {"review", "--flight", "last", "--fault", "1 radius", "--fault", "2 radius 5deg"},
		"--amount: error: \"95EUR\" is not an amount":                                 {"cost", "--contest", "spring", "--kind", "entry", "--amount", "95EUR", "--for", "ines"},
		"--date: error: there is no day 2026-02-30":                                   {"drill", "--date", "2026-02-30", "--pilot", "ines", "--target", "radius"},
		"--row: error: grade 8.7 is not a half point":                                 {"flight", "--date", "2026-04-19", "--pilot", "ines", "--programme", "known", "--sequence", "s", "--panel", "A", "--row", "8.7", "--row", "8"},
		"--handle: error: pilot \"ines\" is defined twice, first at book.boxbook:1\n": {"pilot", "--handle", "ines"},
		"error: figure 2 has no row of marks":                                         {"flight", "--date", "2026-04-19", "--pilot", "ines", "--programme", "known", "--sequence", "s", "--panel", "A", "--row", "8"},
	} {
		var said bytes.Buffer
		s := readmeStreams(nil)
		s.err = &said
		require.Equal(t, exitInvalid, run(append([]string{"log"}, args...), s), said.String())
		require.Contains(t, "\n"+said.String(), "\n"+want)
		require.NotRegexp(t, `(?m)^book\.boxbook:`, said.String())
	}
	require.Equal(t, springFlown, textOf(t, path))
}

func TestChangedLines(t *testing.T) {
	for _, c := range []struct {
		old, text           string
		first, behind, more int
	}{
		{"", "a\n", 1, 2, 1},
		{"a\n", "a\nb\nc\n", 2, 4, 2},
		{"a\nc\n", "a\nb\nc\n", 2, 3, 1},
		{"a\nb\nc\n", "a\nB\nc\n", 2, 3, 0},
		{"a\na\n", "a\na\na\n", 3, 4, 1},
	} {
		first, behind, more := changedLines(c.old, c.text)
		require.Equal(t, []int{c.first, c.behind, c.more}, []int{first, behind, more}, "%q %q", c.old, c.text)
	}
}
