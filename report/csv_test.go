package report

import (
	"bytes"
	"encoding/csv"
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

// One table and nothing else is the table; anything more says of every row what
// it is about, sentences included.
func TestCSVNamesSections(t *testing.T) {
	table := &Table{Title: "EUR", Columns: []Column{{Title: "who"}, {Title: "closing", Align: Right}}, Rows: [][]Cell{
		{Text("ines"), Num(Float(1.0/3), 2).Marked("*")}, {Text("=cmd"), Num(Float(-2), 2)}, {Text("short")},
	}}
	require.Equal(t, "who,closing\nines,1\n", csvOf(t, Document{Title: "Marks", Sections: []Section{{Blocks: []Block{
		&Table{Columns: table.Columns, Rows: [][]Cell{{Text("ines"), Num(Int(1), 0)}}},
	}}}}))

	got := csvOf(t, Document{Title: "Year", Subtitle: "club", Sections: []Section{
		{Blocks: []Block{&Paragraph{Text: "Ines owes."}}},
		{Heading: "Money", Blocks: []Block{
			table, &Notes{Items: []Note{{Mark: "*", Text: "as typed"}, {Text: "a +, b"}}},
			&Facts{Items: []Fact{{Label: "rate", Value: Num(Float(1.04), 2)}}}, &Facts{},
			&Series{Name: "percent", Points: []Point{{Label: "a", Value: Float(1)}}},
		}},
	}})
	require.Equal(t, strings.Join([]string{
		"section,text", ",Year", ",club", "",
		"section,text", ",Ines owes.", "",
		"section,who,closing,marks", "Money: EUR,ines,0.3333333333333333,closing *", "Money: EUR,'=cmd,-2,", "Money: EUR,short,,", "",
		"section,text", "Money,*: as typed", `Money,"a +, b"`, "",
		"section,label,value", "Money,rate,1.04", "",
	}, "\n"), got)
	for _, part := range strings.Split(got, "\n\n") {
		_, err := csv.NewReader(strings.NewReader(part)).ReadAll()
		require.NoError(t, err, "as many cells in every row")
	}
}

func TestCSVOfNothing(t *testing.T) {
	require.Empty(t, csvOf(t, Document{}))
	require.Equal(t, "text\nPlan\nNothing.\n", csvOf(t, Document{Sections: []Section{{Blocks: []Block{&Paragraph{Text: "Plan"}, &Paragraph{Text: "Nothing."}}}}}))
}
