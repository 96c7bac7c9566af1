package commands

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"boxbook/season/ledger"

	"github.com/stretchr/testify/require"
)

// Several who begin one ledger at once are all in it: whoever finds it begun by
// another goes on with that one, and nobody takes it away.
func TestSeveralBeginOneLedger(t *testing.T) {
	for range 20 {
		path := filepath.Join(t.TempDir(), "m.boxbook")
		var wait sync.WaitGroup
		codes, said := make([]int, 4), make([]strings.Builder, 4)
		for i := range codes {
			wait.Go(func() {
				s := &streams{in: strings.NewReader(""), out: &said[i], err: &said[i], now: demoDay, env: func(string) string { return "" }, version: "0", width: 80}
				codes[i] = run([]string{"log", "pilot", "--handle", fmt.Sprintf("p%d", i), "-f", path}, s)
			})
		}
		wait.Wait()
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		for i, code := range codes {
			require.Equal(t, exitDone, code, said[i].String())
			require.Contains(t, string(text), fmt.Sprintf("pilot p%d\n", i))
		}
	}
}

// A ledger that was begun in vain is taken away, but not what somebody else wrote
// into it meanwhile.
func TestLedgerBegunInVain(t *testing.T) {
	path := filepath.Join(t.TempDir(), "m.boxbook")
	require.NoError(t, ledger.Begin(path, ""))
	ledger.Withdraw(path)
	require.NoFileExists(t, path)
	require.NoError(t, ledger.Begin(path, "pilot ines\n"))
	ledger.Withdraw(path)
	requireFile(t, path, "pilot ines\n")
}
