package commands

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// twoFlewLast has two pilots who flew on the latest day.
const twoFlewLast = "pilot ines\npilot milo\ncoach marek\n\nsequence s\n  category sportsman\n  programme known\n  1 K 10\n  2 K 12\n\ncontest spring 2026-04-18..2026-04-19\n  panel A B\n\n" +
	"flight 2026-04-18 ines known\n  contest spring\n  sequence s\n  1 8 8\n  2 7 6.5\n\nflight 2026-04-18 milo known\n  contest spring\n  sequence s\n  1 7 8\n  2 HZ 6.5\n"

// said runs a command on a ledger, away from a terminal.
func said(t *testing.T, dir string, env map[string]string, args ...string) (code int, out, err string) {
	t.Helper()
	t.Chdir(dir)
	var stdout, stderr bytes.Buffer
	s := readmeStreams(&stdout)
	s.err = &stderr
	s.env = func(name string) string { return env[name] }
	code = run(args, s)
	return code, stdout.String(), stderr.String()
}

// TestWhoseLastFlightIsSaid says on standard error whose flight was taken, where the pilots
// of the latest day are several and none was chosen.
func TestWhoseLastFlightIsSaid(t *testing.T) {
	dir, _ := ledgerIn(t, twoFlewLast)
	const whose = "last is the flight of milo; ines flew on 2026-04-18 too (--pilot ines)\n"
	for _, args := range [][]string{{"flight"}, {"flight", "last"}, {"debrief"}, {"whatif", "last", "1=7"}, {"flight", "--format", "json"}, {"export", "last"}, {"export", "flights", "last", "--format", "json"}} {
		code, out, err := said(t, dir, nil, args...)
		require.Equal(t, exitDone, code, err)
		require.Equal(t, whose, err, args)
		require.Contains(t, out, "milo")
	}
	for _, args := range [][]string{{"flight", "ines"}, {"flight", "--pilot", "ines"}, {"whatif", "ines", "no-zeros"}, {"flight", "2026-04-18/ines"}, {"export", "ines", "last"}, {"export"}} {
		code, out, err := said(t, dir, nil, args...)
		require.Equal(t, exitDone, code, err)
		require.Empty(t, err, args)
		require.Contains(t, out, "ines")
	}
	_, _, err := said(t, dir, map[string]string{"BOXBOOK_PILOT": "ines"}, "flight")
	require.Empty(t, err)
	later, _ := ledgerIn(t, twoFlewLast+"\nflight 2026-04-19 ines free\n  category sportsman\n  note \"one pilot\"\n")
	_, _, err = said(t, later, nil, "flight")
	require.Empty(t, err)
}

// TestNothingIsWrittenOfALastFlightThatMayBeAnothers refuses `last` for what is written,
// where several pilots flew on the latest day, and names their flights.
func TestNothingIsWrittenOfALastFlightThatMayBeAnothers(t *testing.T) {
	dir, path := ledgerIn(t, twoFlewLast)
	const several = "several pilots flew on 2026-04-18, the latest day; the flight's name says which: 2026-04-18/ines/known, 2026-04-18/milo/known"
	for _, args := range [][]string{
		{"fault", "--figure", "1", "--kind", "radius"},
		{"review", "--by", "marek", "--fault", "1 radius"},
		{"note", "--note", "gusty"},
		{"official", "--official", "100"},
		{"video", "--video", "a.mp4"},
		{"penalty", "--penalty", "low 10"},
	} {
		code, _, err := said(t, dir, nil, append([]string{"log"}, append(args, "--flight", "last")...)...)
		require.Equal(t, exitUsage, code, err)
		require.Contains(t, err, several)
	}
	require.Equal(t, twoFlewLast, textOf(t, path))

	k := startTalk(t, dir, "log", "note")
	k.answer("the flight", "last")
	k.expect(several)
	k.answer("the flight", "2026-04-18/ines")
	k.expect("taken as 2026-04-18/ines/known")
	k.key("\x03")
	k.exit()

	code, _, err := said(t, dir, map[string]string{"BOXBOOK_PILOT": "ines"}, "log", "note", "--flight", "last", "--note", "gusty")
	require.Equal(t, exitDone, code, err)
	require.Less(t, strings.Index(textOf(t, path), "gusty"), strings.Index(textOf(t, path), "flight 2026-04-18 milo"))
}
