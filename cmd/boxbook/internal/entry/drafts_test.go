package entry

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The drafts of a ledger are found by their names, those set aside last, also behind a
// number that is missing; those of another ledger, one that a conversation has apart and
// what is no kind of entry are not.
func TestDraftsBesideALedger(t *testing.T) {
	dir := t.TempDir()
	book := filepath.Join(dir, "season.boxbook")
	assert.Empty(t, Drafts(book))
	assert.Empty(t, Drafts(filepath.Join(dir, "none", "season.boxbook")))
	day := time.Date(2026, 6, 14, 12, 0, 0, 0, time.Local)
	for _, name := range []string{
		".season.boxbook.flight.draft", ".season.boxbook.cost.draft", ".season.boxbook.flight.draft.2", ".season.boxbook.flight.draft.3", ".season.boxbook.flight.draft.03", ".other.boxbook.flight.draft", ".season.boxbook.cake.draft",
		"season.boxbook.fault.draft",
	} {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte("{}"), 0o600))
		require.NoError(t, os.Chtimes(path, day, day))
	}
	require.NoError(t, os.Mkdir(filepath.Join(dir, ".season.boxbook.drill.draft"), 0o755))
	letGo, free := claim(filepath.Join(dir, ".season.boxbook.flight.draft.3"))
	require.True(t, free)
	defer letGo()
	left := Drafts(book)
	require.Len(t, left, 3)
	assert.Equal(t, "flight", left[0].Kind)
	assert.True(t, left[0].Typed.Equal(day))
	assert.Equal(t, "cost", left[1].Kind)
	assert.Equal(t, Left{Kind: "flight", Typed: left[2].Typed, Aside: true}, left[2])
}
