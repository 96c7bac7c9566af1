package ledger_test

import (
	"fmt"
	"strings"
	"testing"

	"boxbook/report"
	"boxbook/season/ledger"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// odd are characters that programs disagree about: soft hyphen, joiners, private
// use, wide, combining, flags, emoji with and without a sign of their form.
var odd = []string{
	"a", "\u00ad", "\u200b", "a\u200c", "a\u200d", "\u2060", "\ufeff", "\ue000", "\U000f0001", "\u0600", "\u061c", "\u180e", "é", "e\u0301", "山", "ﾔ",
	"한", "\u1112\u1161", "👩‍✈️", "👍🏽", "🇬🇧", "❤", "❤\ufe0f", "1\ufe0f\u20e3", "☎", "…", "─", "½", "№", "الياس", "नमस्ते", "🏴\U000e0067\U000e007f",
}

// Carets stand where a table's next column stands: what a diagnostic counts as
// the width of a text is what a table leaves for it, and both show it alike.
func TestCaretsAndTablesAgree(t *testing.T) {
	for _, text := range odd {
		source := text + " x"
		var carets, table strings.Builder
		require.NoError(t, ledger.Render(&carets, ledger.List{{
			File: "t", Line: 1, Column: len([]rune(source)), Width: 1, Severity: ledger.Error, Message: "m", Source: source,
		}}))
		lines := strings.Split(carets.String(), "\n")
		require.NoError(t, report.WriteText(&table, report.Document{Sections: []report.Section{{Blocks: []report.Block{&report.Table{
			Columns: []report.Column{{Title: ""}, {Title: ""}},
			Rows:    [][]report.Cell{{report.Text(text), report.Text("x")}, {report.Text("1234567"), report.Text("x")}},
		}}}}}, report.TextOptions{}))
		row := strings.Split(table.String(), "\n")[0]
		shown, _, found := strings.Cut(lines[1], " x")
		require.True(t, found, "%+q", lines[1])
		inTable := strings.TrimRight(strings.TrimSuffix(row, "x"), " ")
		assert.Equal(t, inTable, strings.TrimSpace(shown), "%+q is shown alike", text)
		byCaret := strings.Index(lines[2], "^") - len("    ") - 1
		byTable := len("1234567") + 2 - strings.Count(strings.TrimPrefix(strings.TrimSuffix(row, "x"), inTable), " ")
		assert.Equal(t, byTable, byCaret, fmt.Sprintf("%+q", text))
	}
}
