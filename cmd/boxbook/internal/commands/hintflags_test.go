package commands

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestAHintNamesTheFlag says what to type where flags were, and where a target stands in a
// pilot's place.
func TestAHintNamesTheFlag(t *testing.T) {
	dir, _ := ledgerIn(t, springFlown)
	code, said := typed(t, dir, "log", "practice", "--date", "2026-04-25", "--sequence", "s", "--row", "8", "--row", "7")
	require.Equal(t, exitInvalid, code, said)
	require.Contains(t, said, `hint: add --panel "A B C", the judges in the order of the marks`)

	code, said = typed(t, dir, "drills", "line-length")
	require.Equal(t, exitUsage, code)
	require.Contains(t, said, `no pilot is called "line-length"`)
	require.Contains(t, said, "line-length is what a drill is on: boxbook drills shows the drills on everything")
	_, said = typed(t, dir, "faults", "radius")
	require.Contains(t, said, "radius is a kind of fault: boxbook faults shows all of them")
}

// TestALongAnswerIsBroken breaks what is said with a command in it into lines of 80 columns,
// the command whole.
func TestALongAnswerIsBroken(t *testing.T) {
	dir, path := ledgerIn(t, springFlown)
	k := startTalk(t, dir, "log", "cost", "-f", path, "--date", "2026-04-25", "--kind", "fuel", "--amount", "7 EUR")
	k.answer("the contest", "")
	k.answer("who it was for", "ines")
	k.answer("who paid", "nobody")
	k.expect("adds")
	k.expect("who paid")
	for _, line := range strings.Split(k.everything(), "\n") {
		if !strings.Contains(line, "`boxbook log person -f "+path+"`") {
			require.LessOrEqual(t, len([]rune(strings.TrimRight(line, " "))), 80, line)
		}
	}
}
