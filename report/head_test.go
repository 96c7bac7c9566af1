package report

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"
)

var headed = Document{
	Title: "Season", Subtitle: "3 flights",
	Head: Head{
		Program: "boxbook", Version: "1.2", AsOf: "2026-11-25", Ledger: "my <book>.boxbook",
		Chosen: []Choice{{"pilot", "ines", "Ines Halloran"}, {"", nil, "all seasons"}, {"year", 2026, ""}, {"to", "=advanced", "to =advanced"}},
	},
	Sections: []Section{{Blocks: []Block{&Table{Columns: []Column{{Title: "a"}}, Rows: [][]Cell{{Text("b")}}}}}},
	Data:     struct{}{},
}

// Every writer but that of one table writes the head, a line for people and every
// choice for programs.
func TestEveryWriterWritesTheHead(t *testing.T) {
	var text, raw, csv, markdown bytes.Buffer
	require.NoError(t, WriteText(&text, headed, TextOptions{Width: 50}))
	require.Contains(t, text.String(), "Season\nInes Halloran, all seasons, to =advanced · boxbook\n1.2, as of 2026-11-25\n3 flights\n")
	require.NoError(t, WriteMarkdown(&markdown, headed))
	require.Contains(t, markdown.String(), "# Season\n\nInes Halloran, all seasons, to =advanced · boxbook 1.2, as of 2026-11-25\n\n3 flights\n")
	require.NoError(t, WriteCSV(&csv, headed))
	require.Equal(t, "a\nb\n", csv.String(), "a table and nothing else")
	require.NoError(t, WriteJSON(&raw, headed))
	require.Equal(t, `{
  "boxbook": {
    "version": "1.2",
    "asof": "2026-11-25",
    "ledger": "my <book>.boxbook",
    "selection": {
      "pilot": "ines",
      "year": 2026,
      "to": "=advanced"
    }
  }
}
`, raw.String())
}

// A list has no place for a head, which then must not be lost in silence.
func TestListHasNoHead(t *testing.T) {
	doc := headed
	doc.Data = []int{1}
	var out bytes.Buffer
	require.ErrorContains(t, WriteJSON(&out, doc), "no place for a field boxbook")
	require.Empty(t, out.String())
}
