package sheetimport_test

import (
	"slices"
	"strings"
	"testing"

	"boxbook/season"
	"boxbook/season/sheetimport"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// FuzzRecognise holds what is true of any sheet whatever: the same sheet gives
// the same result; without a problem every line has its row and every judge a
// mark that the ledger would take; a problem's cell is one of the sheet's
// columns and rows, or none; and nothing foreign is said raw.
func FuzzRecognise(f *testing.F) {
	for _, sheet := range wholeSheets {
		f.Add(sheet, "A B C", "", false)
	}
	for _, c := range sheetCases {
		f.Add(c.sheet, "A B C", "", true)
		f.Add(c.sheet, "", "figure=A,judges=B-D", true)
		f.Add(c.sheet, "", "figure=A,judge=B,mark=C", false)
	}
	f.Add("|A|B|C\n1|0|0|0", "A A B C", "", true)
	f.Add("A\nB\nA\nB\nA\nB\n|1|7\n|2|8", "A B", "", true) // the judges beside no figure
	f.Fuzz(func(t *testing.T, sheet, panel, columns string, partial bool) {
		judges := strings.Fields(panel)
		if slices.ContainsFunc(judges, func(name string) bool { return !season.IsHandle(name) }) {
			return // the panel is the ledger's, not foreign
		}
		o := expected(judges...)
		o.Partial = partial
		var err error
		if o.Columns, err = sheetimport.ParseColumns(columns); err != nil {
			return
		}
		g := gridOf(sheet)
		r := sheetimport.Recognise(g, o)
		require.Equal(t, r, sheetimport.Recognise(g, o))
		require.Len(t, r.Rows, len(o.Lines))
		checkWhole(t, r, o)
		for _, line := range strings.Split(saidOf(r), "\n") {
			assert.NotContains(t, line, "\x1b")
			assert.Less(t, len(line), 2000+2*len(panel)) // the panel's names are the ledger's, and whole in what can be typed
		}
	})
}

// checkWhole checks the rows: all of them where nothing is wrong.
func checkWhole(t *testing.T, r sheetimport.Result, o sheetimport.Options) {
	t.Helper()
	rows := 0
	for i, row := range r.Rows {
		line := o.Lines[i]
		if row == nil {
			require.True(t, len(r.Problems) > 0 || o.Partial, "%s has no row, and nothing was said", line.Name())
			continue
		}
		rows++
		require.Len(t, row, len(r.Panel))
		for _, entry := range row {
			require.True(t, entry.Read || len(r.Problems) > 0, "a mark was not read, and nothing was said")
			if entry.Read {
				_, problem, _ := readMark(entry.String())
				require.Empty(t, problem)
			}
		}
	}
	if len(r.Problems) == 0 {
		require.Positive(t, rows)
		require.NotEmpty(t, r.Panel)
		if o.Panel != nil {
			require.Equal(t, o.Panel, r.Panel)
		}
	}
}
