package ledger

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestRenewLine replaces the one line that is said anew, and nothing beside it.
func TestRenewLine(t *testing.T) {
	to := Target{File: "book", Kind: "pilot", Name: "ines"}
	text := "pilot yuki\n  expires medical 2026-01-01\r\npilot ines\n  expires licence 2026-01-01\n  expires   medical 2026-02-01   # class 2\n  club \"K\""
	got, err := RenewLine(text, to, "expires medical 2027-02-01")
	require.NoError(t, err)
	require.Equal(t, "pilot yuki\n  expires medical 2026-01-01\r\npilot ines\n  expires licence 2026-01-01\n  expires   medical 2027-02-01   # class 2\n  club \"K\"", got)
	_, err = RenewLine(text, to, "expires parachute 2027-02-01")
	require.ErrorContains(t, err, `no line "expires parachute"`)
	to.Name = "zoe"
	_, err = RenewLine(text, to, "expires medical 2027-02-01")
	require.ErrorContains(t, err, `no pilot "zoe"`)
}

// TestRenewKeepsEveryOtherLine refuses an edit that changes more than a line.
func TestRenewKeepsEveryOtherLine(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.boxbook")
	text := "pilot ines\n\npilot yuki\n"
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	opts := Options{Files: Disk{}, Main: path}
	for _, now := range []string{"pilot ina\n\npilot yuk\n", "pilot ines\n", text + "pilot tobias\n"} {
		var loss *lossError
		require.ErrorAs(t, Renew(opts, path, func(string) (string, error) { return now, nil }), &loss)
	}
	require.NoError(t, Renew(opts, path, func(string) (string, error) { return "pilot ina\n\npilot yuki\n", nil }))
}

// TestCompleteLine puts words behind a number that stands there, and touches nothing else.
func TestCompleteLine(t *testing.T) {
	to := Target{File: "book", Kind: "flight", Name: "2024-09-01/ines/free"}
	text := "flight 2024-09-01 ines free\r\n  category intermediate\r\n  official  1890,25 \"as printed\"  # by post\r\n  place 3"
	got, err := CompleteLine(text, to, "official 1890.25 of 2450,5")
	require.NoError(t, err)
	require.Equal(t, "flight 2024-09-01 ines free\r\n  category intermediate\r\n  official  1890,25 of 2450.5 \"as printed\"  # by post\r\n  place 3", got)
	got, err = CompleteLine(got, to, "place 3 of 9")
	require.NoError(t, err)
	require.True(t, strings.HasSuffix(got, "\r\n  place 3 of 9"))
	require.Positive(t, lostLine(text, got))
	require.Zero(t, lostLineBut(text, got, completed))
	require.Zero(t, lostLineBut(text, got+"\r\n  field 1 2\r\n", completed))
	_, err = CompleteLine(text, to, "field 1 2")
	require.ErrorContains(t, err, `no line "field" to complete`)
}

// TestCompleteKeepsEveryOtherLine refuses an edit that does anything else to a line.
func TestCompleteKeepsEveryOtherLine(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.boxbook")
	text := "pilot ines\n\nflight 2024-09-01 ines free\n  category intermediate\n  official 1890.25\n"
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	opts := Options{Files: Disk{}, Main: path, Builtin: nil}
	for _, now := range []string{"official 1890.26 of 2450", "official 1890.2 of 2450", "official 189 of 2450", "place 1"} {
		var loss *lossError
		changed := strings.Replace(text, "official 1890.25", now, 1)
		require.ErrorAs(t, Complete(opts, path, func(string) (string, error) { return changed, nil }), &loss, now)
	}
	whole := strings.Replace(text, "1890.25", "1890.25 of 2450", 1)
	require.NoError(t, Complete(opts, path, func(string) (string, error) { return whole, nil }))
}
