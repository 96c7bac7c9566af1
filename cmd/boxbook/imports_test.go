package main

import (
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// mayImport is the direction of the house: what each package may import of it.
var mayImport = map[string][]string{
	"boxbook/report":             {},
	"boxbook/report/pages":       {"boxbook/report", "boxbook/season", "boxbook/scoring", "boxbook/season/ledger", "boxbook/season/stats"},
	"boxbook/report/workbook":    {"boxbook/report", "boxbook/report/pages", "boxbook/season", "boxbook/season/ledger", "boxbook/scoring", "boxbook/season/stats"},
	"boxbook/report/sheetfile":   {"boxbook/season", "boxbook/scoring", "boxbook/season/stats", "boxbook/season/sheetimport"},
	"boxbook/season":             {"boxbook/scoring", "boxbook/season/stats"},
	"boxbook/season/ledger":      {"boxbook/season", "boxbook/scoring", "boxbook/season/stats"},
	"boxbook/season/sheetimport": {"boxbook/season", "boxbook/scoring", "boxbook/season/stats"},
	"boxbook/season/stats":       {},
	"boxbook/scoring":            {},
	"boxbook/data":               {},
	// The table of entries: the command binds its flags, nothing of cobra or of
	// the pages is in it.
	"boxbook/cmd/boxbook/internal/entry": {"boxbook/season", "boxbook/season/ledger", "boxbook/scoring", "boxbook/season/stats"},
}

// TestImportDirection holds the direction in which packages lean on each
// other, indirectly too.
func TestImportDirection(t *testing.T) {
	for pkg, allowed := range mayImport {
		out, err := exec.Command("go", "list", "-deps", pkg).Output()
		require.NoError(t, err, pkg)
		for _, dep := range strings.Fields(string(out)) {
			if strings.HasPrefix(dep, "boxbook/") && dep != pkg {
				require.True(t, slices.Contains(allowed, dep), "%s imports %s", pkg, dep)
			}
		}
	}
}

// TestOnlyTheWorkbookImportsExcelize keeps spreadsheet files in one room.
func TestOnlyTheWorkbookImportsExcelize(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", "{{.ImportPath}}: {{join .Imports \" \"}}", "boxbook/...").Output()
	require.NoError(t, err)
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		pkg, imports, _ := strings.Cut(line, ": ")
		if strings.Contains(imports, "github.com/xuri/excelize") {
			require.Equal(t, "boxbook/report/workbook", pkg)
		}
	}
}

// TestTheTableOfEntriesKnowsNoCommand keeps cobra out of what is asked and
// written: the command binds its flags from the table.
func TestTheTableOfEntriesKnowsNoCommand(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", "boxbook/cmd/boxbook/internal/entry").Output()
	require.NoError(t, err)
	require.NotContains(t, string(out), "github.com/spf13/")
}
