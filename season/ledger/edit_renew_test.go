package ledger

import (
	"os"
	"path/filepath"
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
