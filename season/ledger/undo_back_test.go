package ledger

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestPutBack holds that what was taken back comes again byte by byte, in the order in
// which it was made, and can be taken back again.
func TestPutBack(t *testing.T) {
	texts := []string{"# the first\n", "pilot ines\r\n", "", "\xff no text \x00", "pilot ines\npilot yuki"}
	path := newBook(t, texts[0])
	require.EqualError(t, putBack(path), "nothing to put back: no change that boxbook took back in "+path+" is kept")
	for _, text := range texts[1:] {
		require.Empty(t, changed(t, path, path, text))
	}
	for range 2 {
		for i := len(texts) - 2; i >= 0; i-- {
			require.NoError(t, takeBack(path))
			requireFile(t, path, texts[i])
		}
		for _, text := range texts[1:] {
			require.NoError(t, putBack(path))
			requireFile(t, path, text)
		}
		require.ErrorContains(t, putBack(path), "nothing to put back")
	}
}

// TestPutBackRefusesAnotherText holds that nothing is put back into a ledger that was
// changed since, by boxbook or another program, and that what is kept outlives it.
func TestPutBackRefusesAnotherText(t *testing.T) {
	path := newBook(t, "# the first\n")
	require.Empty(t, changed(t, path, path, "# the first\n# more\n"))
	require.NoError(t, takeBack(path))
	require.Empty(t, changed(t, path, path, "# the first\n# other\n"))
	refused := path + ` has changed since "rewrite" of 2026-04-18 12:00 was taken back; nothing was put back`
	require.EqualError(t, putBack(path), refused)
	require.NoError(t, os.WriteFile(path, []byte("# by hand\n"), 0o644))
	require.EqualError(t, putBack(path), refused)
	requireFile(t, path, "# by hand\n")
	require.NoError(t, os.WriteFile(path, []byte("# the first\n# other\n"), 0o644))
	require.NoError(t, takeBack(path))
	require.NoError(t, putBack(path))
	requireFile(t, path, "# the first\n# other\n")
	require.NoError(t, takeBack(path))
	require.NoError(t, os.WriteFile(path, []byte("# the first\n# other\n"), 0o644)) // typed again
	require.EqualError(t, putBack(path), refused)
}

// TestPutBackOfSeveralFiles puts both files of a command back, or none.
func TestPutBackOfSeveralFiles(t *testing.T) {
	main, part := pair(t, pairHead, "coach marek\n")
	both(t, main, part)
	require.NoError(t, takeBack(main))
	require.NoError(t, os.WriteFile(part, []byte("coach dana\n"), 0o644))
	require.ErrorContains(t, putBack(main), "nothing was put back")
	requireFile(t, main, pairHead)
	require.NoError(t, os.WriteFile(part, []byte("coach marek\n"), 0o644))
	require.NoError(t, putBack(main))
	requireFile(t, main, pairHead+"# main\n")
	requireFile(t, part, "coach marek\n# part\n")
}
