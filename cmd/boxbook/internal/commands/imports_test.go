package commands

import (
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// mayImport is the direction of the house: what each package may import of it.
var mayImport = map[string][]string{
	"boxbook/data":                 {},
	"boxbook/data/sources":         {},
	"boxbook/report/display":       {},
	"boxbook/scoring":              {},
	"boxbook/season/stats":         {},
	"boxbook/season":               {"boxbook/report/display", "boxbook/scoring"},
	"boxbook/season/ledger":        {"boxbook/report/display", "boxbook/scoring", "boxbook/season"},
	"boxbook/season/sheetimport":   {"boxbook/report/display", "boxbook/scoring", "boxbook/season"},
	"boxbook/season/analysis":      {"boxbook/report/display", "boxbook/scoring", "boxbook/season", "boxbook/season/analysis/code", "boxbook/season/stats"},
	"boxbook/season/analysis/code": {},
	"boxbook/report":               {"boxbook/report/display"},
	"boxbook/report/answers":       upTo("boxbook/season/analysis", "boxbook/season/ledger", "boxbook/report"),
	"boxbook/report/words":         upTo("boxbook/data", "boxbook/season/analysis", "boxbook/season/ledger", "boxbook/report", "boxbook/report/answers"),
	"boxbook/report/tables":        upTo("boxbook/data", "boxbook/season/analysis", "boxbook/season/ledger", "boxbook/report", "boxbook/report/answers", "boxbook/report/words"),
	"boxbook/report/charts":        upTo("boxbook/data", "boxbook/season/analysis", "boxbook/season/ledger", "boxbook/report", "boxbook/report/answers", "boxbook/report/words"),
	"boxbook/report/pages":         upTo("boxbook/data", "boxbook/season/analysis", "boxbook/season/ledger", "boxbook/report", "boxbook/report/answers", "boxbook/report/words", "boxbook/report/charts", "boxbook/report/tables"),
	"boxbook/report/workbook":      upTo("boxbook/data", "boxbook/season/analysis", "boxbook/season/ledger", "boxbook/report", "boxbook/report/answers", "boxbook/report/words", "boxbook/report/tables", "boxbook/report/workbook/xlsx"),
	"boxbook/report/workbook/xlsx": {"boxbook/report/display"},
	"boxbook/report/sheetfile":     {"boxbook/report/display", "boxbook/scoring", "boxbook/season", "boxbook/season/sheetimport"},
	// The table of entries: the command binds its flags, nothing of cobra or of
	// the pages is in it.
	"boxbook/cmd/boxbook/internal/lsp":   upTo("boxbook/data", "boxbook/cmd/boxbook/internal/entry", "boxbook/season/analysis", "boxbook/season/ledger", "boxbook/report", "boxbook/report/answers", "boxbook/report/words"),
	"boxbook/cmd/boxbook/internal/entry": {"boxbook/report/display", "boxbook/scoring", "boxbook/season", "boxbook/season/ledger"},
}

// upTo are rooms with everything that an analysis leans on.
func upTo(rooms ...string) []string {
	return append(rooms, "boxbook/data/sources", "boxbook/report/display", "boxbook/scoring", "boxbook/season", "boxbook/season/analysis/code", "boxbook/season/stats")
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

// TestOnlyTheWorkbookImportsExcelize keeps the writing of spreadsheet files in
// one room.
func TestOnlyTheWorkbookImportsExcelize(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", "{{.ImportPath}}: {{join .Imports \" \"}}", "boxbook/...").Output()
	require.NoError(t, err)
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		pkg, imports, _ := strings.Cut(line, ": ")
		if strings.Contains(imports, "github.com/xuri/excelize") {
			require.Equal(t, "boxbook/report/workbook/xlsx", pkg)
		}
	}
}

// TestTheWorkbookReadsAnswersAlone holds the workbook to what was answered: it
// asks the ledger nothing, and reads no page back.
func TestTheWorkbookReadsAnswersAlone(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", "{{join .Imports \" \"}}", "boxbook/report/workbook").Output()
	require.NoError(t, err)
	allowed := []string{"boxbook/report", "boxbook/report/answers", "boxbook/report/display", "boxbook/report/tables", "boxbook/report/words", "boxbook/report/workbook/xlsx"}
	for _, pkg := range strings.Fields(string(out)) {
		if strings.HasPrefix(pkg, "boxbook/") {
			require.Contains(t, allowed, pkg)
		}
	}
}

// TestOneWidth leaves it to one package how wide a character is: carets beneath
// a line and the columns of tables and of a ledger stand in the same places.
func TestOneWidth(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", "{{.ImportPath}}: {{join .Imports \" \"}}", "boxbook/...").Output()
	require.NoError(t, err)
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		pkg, imports, _ := strings.Cut(line, ": ")
		if strings.Contains(imports, "go-runewidth") || strings.Contains(imports, "graphemes") {
			require.Equal(t, "boxbook/report/display", pkg)
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

// TestTheProgramLinksNoGenerator: what writes the manual pages is part of the
// program only where it is built to write them.
func TestTheProgramLinksNoGenerator(t *testing.T) {
	linked := func(tags string) string {
		out, err := exec.Command("go", "list", "-deps", "-tags", tags, "boxbook/cmd/boxbook").Output()
		require.NoError(t, err)
		return string(out)
	}
	for _, generator := range []string{"github.com/spf13/cobra/doc\n", "github.com/cpuguy83/go-md2man/"} {
		require.NotContains(t, linked(""), generator)
		require.Contains(t, linked("manual"), generator)
	}
}
