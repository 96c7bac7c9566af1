package sheetimport_test

import (
	"strings"
	"testing"

	"boxbook/season/sheetimport"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// officeSheets are sheets in the ways of contest offices, of the marks of whole
// or without its point, and what is said of them.
var officeSheets = []struct {
	name, sheet, columns string
	said                 string
}{
	{
		"turned round", "Juez|1|2|3|Pos|Total\nK|14|23|9|20|66\nA|7.5|av|8|8|\nB|8|7|8|7.5|495\nC|hz|6.5|-|8|", "",
		"note: column F, \"Total\", agrees with the marks: the total, of 1 of 3 judges",
	},
	{"turned round, rows given", "x|1|2|3|Pos\nA|7.5|av|8|8\nB|8|7|8|7.5\nC|hz|6.5|-|8", "figure=1,judges=2-4", ""},
	{
		"seats", "Übung|Richter 1|Richter 2|Richter 3\n1|7.5|8|hz\n2|av|7|6.5\n3|8|8|-\nPosition|8|7.5|8", "",
		"note: the seats are in the order of the panel: B A, C B, D C",
	},
	{
		"without their point", "fig|A|B|C\n1|75|80|hz\n2|av|70|65\n3|8|80|-\npos|80|75|80", "",
		"note: 8 marks lack the point: 65 is read as 6.5",
	},
	{
		"figures' columns of two headings, the number empty", "No.|Figure|A|B|C\n|half loop|av|7|6.5\n|loop|7.5|8|hz\n3||8|8|-\n|Positionierung|8|7.5|8", "",
		"note: not read: column A \"No.\"",
	},
	{
		"positioning by its K alone", "Č|Koef|A|B|C\n1|14|7.5|8|hz\n2|23|av|7|6.5\n3|9|8|8|-\nUmístění|20|8|7.5|7.5", "",
		"A5 note: \"Umístění\" is read as positioning, by its K of 20",
	},
	{
		"names in brackets, points beside", "fig|K|Ann Berg (A)|pts|Ben (B)|pts|Cy (C)|pts\n1|14|7.5|105|8|112|hz|0\n2|23|av||7|161|6.5|149.5\n3|9|8|72|8|72|-|\npos|20|8|160|7.5|150|8|160", "",
		"note: compared with the marks: columns D \"pts\", F \"pts\", H \"pts\"",
	},
	{"long, headings of another language", "Übung|Wer|Wert\n1|A|7,5\n1|B|8\n1|C|hz\n2|A|av\n2|B|7\n2|C|6,5\n3|A|8\n3|B|8\n3|C|-\npos|A|8\npos|B|7,5\npos|C|8", "", ""},
	{
		"rows and cells left out", "fig|A|B|C\nx|9|9|9\n1|7.5|8|hz\n2|av|7|6.5|late\n3|8|8|-\npos|8|7.5|8", "leave=2:2+E4",
		"note: left out, as was asked: 2:2\nnote: left out, as was asked: E4",
	},
	{
		"rows left out that read like a mark of the sheet", "fig|A|B|C\n1|7.5|8|hz\n2|av|7|6.5\n3|8|8|-\npos|8|7.5|8\n\nx|7.8|9|9", "leave=7:8",
		"note: left out, as was asked: 7:8",
	},
}

func TestOfficesSheets(t *testing.T) {
	for _, c := range officeSheets {
		t.Run(c.name, func(t *testing.T) {
			o := expected("A", "B", "C")
			o.Lines[0].Label, o.Lines[1].Label = "loop", "half loop"
			var err error
			o.Columns, err = sheetimport.ParseColumns(c.columns)
			require.NoError(t, err)
			r := sheetimport.Recognise(gridOf(c.sheet), o)
			want := whole
			if strings.Contains(c.sheet, "Umístění") {
				want = strings.Replace(whole, "8.0 7.5 8.0", "8.0 7.5 7.5", 1)
			}
			assert.Equal(t, want, rowsOf(r, o))
			assert.Equal(t, c.said, saidOf(r))
		})
	}
}

// A whole grade is itself beside half points without their point, and 05 is 0.5.
func TestGradesWithoutAPoint(t *testing.T) {
	for name, c := range map[string]struct{ sheet, rows, said string }{
		"few half points":    {"fig|A|B|C\n1|75|10|5\n2|7|8|7\n3|8|8|6\npos|8|100|8", "7.5 10.0 5.0|7.0 8.0 7.0|8.0 8.0 6.0|8.0 10.0 8.0", "note: 2 marks lack the point: 65 is read as 6.5"},
		"below one":          {"fig|A|B|C\n1|05|85|00\n2|7|8|7\n3|8|8|6\npos|8|8|8", "0.5 8.5 0.0|7.0 8.0 7.0|8.0 8.0 6.0|8.0 8.0 8.0", "note: 1 mark is 05: read as 0.5"},
		"below one, no such": {"fig|A|B|C\n1|05|8.5|00\n2|7|8|7\n3|8|8|6\npos|8|8|8", "0.5 8.5 0.0|7.0 8.0 7.0|8.0 8.0 6.0|8.0 8.0 8.0", "note: 1 mark is 05: read as 0.5"},
	} {
		t.Run(name, func(t *testing.T) {
			o := expected("A", "B", "C")
			r := sheetimport.Recognise(gridOf(c.sheet), o)
			require.Empty(t, r.Problems, saidOf(r))
			var rows []string
			for i, row := range append([]string{"A B C"}, strings.Split(c.rows, "|")...) {
				rows = append(rows, strings.TrimSpace([]string{"", "1 ", "2 ", "3 ", "positioning "}[i]+row))
			}
			assert.Equal(t, strings.Join(rows, "\n"), rowsOf(r, o))
			assert.Contains(t, saidOf(r), c.said)
		})
	}
}

// What has two readings is asked about once, and nothing is read in silence.
func TestOfficesSheetsAreAsked(t *testing.T) {
	const rest = "\n2|70|70|65\n3|80|80|75\npos|80|75|80"
	for _, c := range []struct{ name, sheet, said string }{
		{"a ten among tenths", "fig|A|B|C\n1|75|10|10" + rest, "C2 error: 10 among marks without their point (and 1 more such): 1.0 or 10.0?\nhint: type 1.0 or 10.0 in the sheet, as text"},
		{"a ten where 70 is 7.0", "fig|A|B|C\n1|75|10|8" + rest, "C2 error: 10 among marks without their point: 1.0 or 10.0?\nhint: type 1.0 or 10.0 in the sheet, as text"},
		{"a five among tenths", "fig|A|B|C\n1|75|5|90" + rest, "C2 error: 5 among marks without their point: 0.5 or 5.0?\nhint: type 0.5 or 5.0 in the sheet, as text"},
		{"some tenths among grades", "fig|A|B|C\n1|7.5|85|90\n2|7|7|6.5\n3|8|8|7.5\npos|8|7.5|8", "C2 error: 2 marks are above 10, where others have their point: C2, D2\nhint: type the point: 8.5 for 85"},
		{"not seen", "fig|A|B|C\n1|7.5|n.s.|9\n2|7|7|6.5\n3|8|8|7.5\npos|8|7.5|8", "C2 error: \"n.s.\" is not a mark: was the figure not seen, or is there no mark?\nhint: type AV where the judge did not see it, - where the sheet has no mark"},
		{"not seen, in full", "fig|A|B|C\n1|7.5|not seen|9\n2|7|7|6.5\n3|8|8|7.5\npos|8|7.5|8", "C2 error: \"not seen\" is not a mark: was the figure not seen, or is there no mark?\nhint: type AV where the judge did not see it, - where the sheet has no mark"},
		{"a total", "fig|K|A|B|C\n1|14|7.5|8|9\n2|23|7|7|6.5\n3|9|8|8|7.5\npos|20|8|7.5|8\nSumme||498|505|503", "D6 error: the total printed for B is 505, the marks come to 495\nhint: one mark or the total is mistyped; --columns leave=D6 leaves it unread"},
		{"a label of another figure", "fig|label|A|B|C\n1|loop|7.5|8|9\n2|half loop|7|7|6.5\n3|loop|8|8|7.5\npos||8|7.5|8", "B4 error: \"loop\" is the ledger's label of figure 1, beside the number of figure 3\nhint: one of them is mistyped; --columns leave=B4 leaves it unread"},
		{"a mean", "fig|K|A|B|C|Mittel\n1|14|7.5|8|9|8.17\n2|23|7|7|6.5|6.83\n3|9|8|8|7.5|7.53\npos|20|8|7.5|8|7.83", "F4 error: the mean printed is 7.53, the marks beside it come to 7.833\nhint: one of them is mistyped; --columns leave=F leaves it unread"},
		{"a mark beside its place", "fig|A||B|C\n1|7.5||8|9\n2||7|7|6.5\n3|8||8|7.5\npos|8||7.5|8", "B3 error: no mark here, but \"7\" beside it in C3, in a column that is nobody's\nhint: move it where it belongs"},
		{"a judge without marks", "fig|A|B|C\n1|7.5||9\n2|7||6.5\n3|8||7.5\npos|8||8", "C2 error: judge B has no mark in any of 4 rows\nhint: type - for marks that are not on the sheet"},
	} {
		t.Run(c.name, func(t *testing.T) {
			o := expected("A", "B", "C")
			o.Lines[0].Label, o.Lines[1].Label = "loop", "half loop"
			r := sheetimport.Recognise(gridOf(c.sheet), o)
			require.Len(t, r.Problems, 1)
			r.Notes = nil
			assert.Equal(t, c.said, saidOf(r))
		})
	}
}

// What a sheet hides is read, and said.
func TestHiddenIsSaid(t *testing.T) {
	g := gridOf("fig|A|B|C|mean\n1|7.5|8|hz\n2|av|7|6.5\n3|8|8|-\npos|8|7.5|8")
	g.HiddenRows, g.HiddenColumns = []int{3}, []sheetimport.Span{{From: 3, To: 3}, {From: 7, To: 16384}}
	o := expected("A", "B", "C")
	r := sheetimport.Recognise(g, o)
	assert.Equal(t, whole, rowsOf(r, o))
	assert.Equal(t, "note: hidden in the sheet: column C\nnote: hidden in the sheet: row 3\nnote: not read: column E \"mean\"", saidOf(r))
}

// A workbook may have a worksheet a judge; whoever is missing is named.
func TestWorksheetAJudge(t *testing.T) {
	judge := func(name, heads, marks string) sheetimport.Grid {
		lines := []string{"Judge:|" + heads, "fig|K|grade|remarks"}
		for i, mark := range strings.Fields(marks) {
			lines = append(lines, []string{"1|14|", "2|23|", "3|9|", "pos|20|"}[i]+mark)
		}
		g := gridOf(strings.Join(lines, "\n"))
		g.Name = name
		return g
	}
	a, b, c := judge("A", "", "7.5 av 8 8"), judge("Sheet 2", "B", "8 7 8 7.5"), judge("Sheet 3", "C", "hz 6.5 - 8")
	o := expected("A", "B", "C")
	r, ok := sheetimport.RecogniseBook([]sheetimport.Grid{a, b, c}, o)
	require.True(t, ok)
	assert.Empty(t, r.Problems)
	assert.Equal(t, whole, rowsOf(r, o))

	r, ok = sheetimport.RecogniseBook([]sheetimport.Grid{c, a}, o)
	require.True(t, ok)
	require.Len(t, r.Problems, 1)
	assert.Equal(t, "judge B of the panel has no worksheet", r.Problems[0].Text)

	r, ok = sheetimport.RecogniseBook([]sheetimport.Grid{a, b, c, judge("D", "D", "7 7 7 7")}, o)
	require.True(t, ok)
	assert.Equal(t, "D", r.Problems[0].Sheet, "marks of somebody who is not on the panel")

	totals := gridOf("Judge|Total\nB|495\nA|1")
	totals.Name = "Summary"
	r, ok = sheetimport.RecogniseBook([]sheetimport.Grid{a, b, c, totals}, o)
	require.True(t, ok)
	assert.Empty(t, r.Problems)
	assert.Contains(t, saidOf(r), `not read: worksheet "Summary", which has no judge's marks (rows 1 to 3); the totals of 1 judge in it agree with the marks`)

	flight := gridOf(wholeSheets["plain"])
	flight.Name = "Known"
	r, ok = sheetimport.RecogniseBook([]sheetimport.Grid{totals, flight}, o)
	require.True(t, ok, "one flight, and a worksheet without marks")
	assert.Empty(t, r.Problems)
	assert.Equal(t, whole, rowsOf(r, o))
	assert.Contains(t, saidOf(r), `not read: worksheet "Summary", which has no judge's marks (rows 1 to 3)`)

	_, ok = sheetimport.RecogniseBook([]sheetimport.Grid{gridOf(wholeSheets["plain"]), gridOf(wholeSheets["long"])}, o)
	assert.False(t, ok, "two whole sheets")
}

func TestPrintedTotal(t *testing.T) {
	g := gridOf("Final|1 160,50|=698.837209302326|70%")
	g.Name = "Known"
	for cell, want := range map[string]string{"B1": "1160.50", "C1": "698.837", "Known!B1": "1160.50"} {
		total, err := sheetimport.PrintedTotal([]sheetimport.Grid{g}, cell)
		require.NoError(t, err, cell)
		assert.Equal(t, want, total)
	}
	for cell, said := range map[string]string{
		"A1": `A1, "Final", is no total`, "D1": `D1, "70%", is no total`, "B9": "B9 is empty", "B": `"B" is not the name of a cell, such as I19`, "Total!B1": `there is no worksheet "Total"`,
	} {
		_, err := sheetimport.PrintedTotal([]sheetimport.Grid{g}, cell)
		assert.EqualError(t, err, said, cell)
	}
}

// A workbook may have a worksheet a programme, each a sheet of all judges.
func TestWorksheetAProgramme(t *testing.T) {
	known, unknown, summary := gridOf("Cup, known\nfig|K|A|B|C|mean\n1|14|7.5|8|hz\n2|23|av|7|6.5\n3|9|8|8|-\npos|20|8|7.5|8"), gridOf("fig|K|A|B|C\n1|12|7|8|8\n2|13|6|7|6.5\n3|9|8|8|7\n4|11|8|8|7\npos|20|8|7.5|8"), gridOf("Judge|Total\nB|495\nA|1")
	known.Name, unknown.Name, summary.Name = "Known", "Unknown", "Summary"
	names := func(panel ...string) (names []string) {
		o := expected(panel...)
		for _, g := range sheetimport.WholeSheets([]sheetimport.Grid{known, summary, unknown}, o) {
			names = append(names, g.Name)
		}
		return names
	}
	assert.Equal(t, []string{"Known", "Unknown"}, names("A", "B", "C"))
	assert.Equal(t, []string{"Known", "Unknown"}, names())
	judges := []sheetimport.Grid{gridOf("Judge:|A\nfig|K|grade|remarks|points\n1|14|7|good|98\n2|23|7|low|161\n3|9|8||72\npos|20|8||160"), gridOf("Judge:|B\nfig|K|grade|remarks|points\n1|14|7|good|98\n2|23|7|low|161\n3|9|8||72\npos|20|8||160")}
	for _, o := range []sheetimport.Options{expected(), expected("A", "B")} {
		assert.Empty(t, sheetimport.WholeSheets(judges, o))
	}
}
