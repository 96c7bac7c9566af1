package ledger

import (
	"os"
	"path/filepath"
	"testing"

	"boxbook/data"
	"boxbook/season"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// version1 is the ledger that has every line that version 1 of the language
// brought, read as the given one of its files.
func version1(t *testing.T, file string) *Result {
	t.Helper()
	result, err := Load(Options{Files: Disk{}, Main: ledgersFolder + file, Builtin: data.Builtin(), AsOf: day(t, casesToday)})
	require.NoError(t, err)
	require.Empty(t, rendered(t, result.Diagnostics))
	return result
}

// Derived in the ledger's own head: balances on the day of asking, with the club
// alone too, the year's result as agreed, and the pots as counted.
func TestVersion1Ledger(t *testing.T) {
	l := version1(t, "version-1.boxbook").Ledger
	euro := season.Currency{Code: "EUR", Decimals: 2}
	standing, club := season.Standing{}, season.Party{}
	for _, p := range season.Postings(l) {
		require.True(t, l.Past(p.Date))
		standing.Post(p)
	}
	balances := map[string]int64{}
	for _, p := range l.Parties() {
		for _, other := range l.Parties() {
			balances[p.Name()] += standing.Owes(other, p, euro)
			assert.Zero(t, standing.Owes(other, p, season.Currency{Code: "CHF", Decimals: 2}))
		}
	}
	assert.Equal(t, map[string]int64{
		"ines": -6500, "tobias": -32000, "yuki": -24500, "mara": -24500, "rolf": 0, "marek": 0, "club": 87500,
	}, balances)
	with := func(handle string) int64 {
		p, ok := l.PartyNamed(handle)
		require.True(t, ok)
		return standing.Owes(club, p, euro)
	}
	assert.Equal(t, []int64{-12500, -26000}, []int64{with("ines"), with("tobias")})
	assert.Equal(t, int64(55000), l.ClubResult(2025, euro))
	require.Len(t, l.InHand, 4)
	for _, h := range l.InHand[2:] {
		own, ok := l.OwnInHand(h)
		require.True(t, ok)
		assert.Equal(t, h.Money, own, h.Pot)
	}
}

// A coach's own file is read as part of the whole ledger.
func TestVersion1LedgerByTheCoachsFile(t *testing.T) {
	whole, part := version1(t, "version-1.boxbook"), version1(t, "coach/version-1-marek.boxbook")
	assert.Equal(t, whole.Paths, part.Paths)
	assert.Equal(t, whole.Main, part.Main)
	assert.Equal(t, len(whole.Ledger.Flights), len(part.Ledger.Flights))
	_, sources, err := LoadSources(Options{Files: Disk{}, Main: ledgersFolder + "coach/version-1-marek.boxbook", Builtin: data.Builtin()})
	require.NoError(t, err)
	require.Len(t, sources, 2)
	assert.Contains(t, sources[0].Text, "include \"coach/version-1-marek.boxbook\"")
	assert.Contains(t, sources[1].Text, "part-of \"../version-1.boxbook\"")
}

// A command that is given a coach's own file writes into it, and what it writes
// is checked against the whole ledger.
func TestEditOfTheCoachsFile(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "whole.boxbook"), []byte("include \"marek.boxbook\"\npilot ines\n"), 0o600))
	part := filepath.Join(dir, "marek.boxbook")
	require.NoError(t, os.WriteFile(part, []byte("part-of \"whole.boxbook\"\ncoach marek\n"), 0o600))
	opts := Options{Files: Disk{}, Main: part, Builtin: data.Builtin()}
	add := func(block string) error {
		return Edit(opts, part, func(text string) (string, error) { return Append(text, block), nil })
	}
	require.NoError(t, add("drill 2026-05-03 ines radius\n  by marek\n"))
	var invalid *InvalidError
	require.ErrorAs(t, add("drill 2026-05-03 tobias radius\n"), &invalid)
	assert.Contains(t, invalid.List[0].Message, `no pilot is called "tobias"`)
	text, err := os.ReadFile(part)
	require.NoError(t, err)
	assert.Equal(t, "part-of \"whole.boxbook\"\ncoach marek\n\ndrill 2026-05-03 ines radius\n  by marek\n", string(text))
}

// Where the ledger cannot be read whole, the file's own errors are said too.
func TestPartWithoutItsWhole(t *testing.T) {
	files := Memory{"marek.boxbook": "part-of \"whole.boxbook\"\ncoach marek\n  nmae \"x\"\n"}
	result, err := Load(Options{Files: files, Main: "marek.boxbook", Builtin: data.Builtin()})
	require.NoError(t, err)
	require.Len(t, result.Diagnostics, 2)
	assert.Equal(t, []string{"marek.boxbook"}, result.Paths)
}
