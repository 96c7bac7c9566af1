package commands

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// startLate are the libraries that only what starts later may lean on.
var startLate = []string{"github.com/xuri/excelize/v2", "github.com/creachadair/jrpc2", "net/http", "expvar"}

// TestEarlyLeansOnNothingLate holds what runs early to what starts quickly.
func TestEarlyLeansOnNothingLate(t *testing.T) {
	deps := func(pkg string) []string {
		out, err := exec.Command("go", "list", "-deps", pkg).Output()
		require.NoError(t, err)
		return strings.Fields(string(out))
	}
	for _, late := range startLate {
		assert.NotContains(t, deps("boxbook/cmd/boxbook/internal/early"), late)
		assert.Contains(t, deps("boxbook/cmd/boxbook"), late)
	}
}

// TestMostCommandsRunBeforeLibrariesStart asks the program itself: the runtime
// tells what has started (GODEBUG, inittrace; package runtime). The order is the
// language's (The Go Programming Language Specification, "Program initialization").
func TestMostCommandsRunBeforeLibrariesStart(t *testing.T) {
	dir := t.TempDir()
	program := filepath.Join(dir, "boxbook.exe")
	built, err := exec.Command("go", "build", "-o", program, "boxbook/cmd/boxbook").CombinedOutput()
	require.NoError(t, err, string(built))
	demo := absolute(t, "../../../../data/demo/"+demoLedger)
	for line, late := range map[string]bool{
		"version": false, "": false, "check": false, "flight last --pilot ines": false, "season ines --format html": false,
		"booklet ines -o book.html": false, "__complete flight ": false, "help": false, "nosuch": false, "import --help": false,
		"workbook ines -o ines.xlsx": true, "workbook --club -o club.xlsx": true, "lsp --syntax vim": true,
		"demo": true,
	} {
		cmd := exec.Command(program, strings.Fields(line)...)
		cmd.Dir = dir
		cmd.Env = append(os.Environ(), "GODEBUG=inittrace=1", "BOXBOOK_LEDGER="+demo)
		var said bytes.Buffer
		cmd.Stderr = &said
		if err := cmd.Run(); line != "nosuch" {
			require.NoError(t, err, "%s\n%s", line, said.String())
		}
		require.Contains(t, said.String(), "init boxbook/season/ledger @", line)
		for _, lib := range startLate {
			assert.Equal(t, late, strings.Contains(said.String(), "init "+lib+" @"), "%q starts %s", line, lib)
		}
	}
	for _, book := range []string{"ines.xlsx", "club.xlsx", "book.html", "boxbook-demo/ines-2026.xlsx"} {
		require.FileExists(t, filepath.Join(dir, book))
	}
}
