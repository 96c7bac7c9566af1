package report

import (
	"bytes"
	"encoding/csv"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func csvOf(t *testing.T, d Document) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, WriteCSV(&out, d))
	return out.String()
}

// A document is its main table and nothing else, so that any program reads it.
func TestCSVIsOneTable(t *testing.T) {
	table := &Table{Title: "EUR", Columns: []Column{{Title: "who"}, {Title: "closing", Align: Right}}, Rows: [][]Cell{
		{Text("ines"), Num(Float(1.0/3), 2).Marked("*")}, {Text("=cmd"), Num(Float(-2), 2)}, {Text("short")},
	}, Footer: [][]Cell{{Text("all")}}}
	d := Document{Title: "Year", Subtitle: "club", Head: headed.Head, Sections: []Section{
		{Blocks: []Block{&Paragraph{Text: "Ines owes."}, &Facts{Items: []Fact{{Label: "rate", Value: Num(Float(1.04), 2)}}}, &Table{}}},
		{Heading: "Money", Blocks: []Block{table, &Notes{Items: []Note{{Mark: "*", Text: "as typed"}}}, &Table{Columns: []Column{{Title: "b"}}}}},
	}}
	const want = "who,closing\nines,0.333333333333\n'=cmd,-2\nshort,\n"
	require.Equal(t, want, csvOf(t, d), "the first that has columns")

	d.Caution = "The coach, who decides."
	rows, err := csv.NewReader(strings.NewReader(csvOf(t, d))).ReadAll()
	require.NoError(t, err, "as many cells in every row")
	require.Equal(t, [][]string{
		{"who", "closing", "caution"}, {"ines", "0.333333333333", d.Caution}, {"'=cmd", "-2", ""}, {"short", "", ""},
	}, rows)
	require.Len(t, table.Columns, 2, "the document stays as it was")
	require.Len(t, table.Rows[0], 2)

	d.Caution, d.Main = "", &Table{Columns: []Column{{Title: "own"}}, Rows: [][]Cell{{Text("choice")}}}
	require.Equal(t, "own\nchoice\n", csvOf(t, d))
}

// Without a table the facts are one, else the sentences.
func TestCSVWithoutATable(t *testing.T) {
	require.Empty(t, csvOf(t, Document{Title: "Nothing"}))
	said := []Block{&Paragraph{Text: "Plan"}, &Paragraph{Text: "Nothing."}}
	require.Equal(t, "text\nPlan\nNothing.\n", csvOf(t, Document{Sections: []Section{{Blocks: said}}}))
	facts := append(said, &Facts{Items: []Fact{{Label: "rate", Value: Num(Float(1.04), 2)}}})
	require.Equal(t, "label,value\nrate,1.04\n", csvOf(t, Document{Sections: []Section{{Blocks: facts}}}))
	require.Equal(t, "who,caution\n,decide\n", csvOf(t, Document{Caution: "decide", Main: &Table{Columns: []Column{{Title: "who"}}}}))
	require.Equal(t, "caution\ndecide\n", csvOf(t, Document{Caution: "decide"}))
}

// An amount of money has all the decimals of its currency for other programs too, as
// its JSON has; thousands are not set off.
func TestCSVHasAmountsInFull(t *testing.T) {
	table := &Table{Columns: []Column{{Title: "a"}, {Title: "b"}}, Rows: [][]Cell{
		{Num(Exact(big.NewRat(1110, 1)), 2).Grouped().InFull(), Num(Exact(big.NewRat(1110, 1)), 2)},
	}}
	require.Equal(t, "a,b\n1110.00,1110\n", csvOf(t, Document{Main: table}))
}
