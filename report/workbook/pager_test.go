package workbook

import (
	"bytes"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"boxbook/report"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

var rowBreaks = regexp.MustCompile(`(?s)<rowBreaks .*?</rowBreaks>`)

// pageStarts are the rows at which a sheet says that a page begins; sheets count
// from 1.
func pageStarts(t *testing.T, raw []byte, sheet int) []int {
	t.Helper()
	var rows []int
	for _, m := range regexp.MustCompile(`<brk id="(\d+)"`).FindAllStringSubmatch(rowBreaks.FindString(part(t, raw, "xl/worksheets/sheet"+strconv.Itoa(sheet)+".xml")), -1) {
		row, err := strconv.Atoi(m[1])
		require.NoError(t, err)
		rows = append(rows, row+1)
	}
	return rows
}

// docFile writes a document as a workbook of one sheet.
func docFile(t *testing.T, doc report.Document) []byte {
	t.Helper()
	return sheetFile(t, docSheet("Doc", 0, usualGrid, doc, ""))
}

// sheetFile writes a workbook of one sheet.
func sheetFile(t *testing.T, s xlsx.Sheet) []byte {
	t.Helper()
	b := xlsx.NewBook(nil)
	defer b.Close()
	b.Add(s)
	b.Turn(s.Name)
	s.Fill(b)
	b.Page(s, xlsx.Imprint{})
	var out bytes.Buffer
	require.NoError(t, b.Write(&out))
	return out.Bytes()
}

// tableOf is a section with a table of so many rows.
func tableOf(heading string, rows int) report.Section {
	t := &report.Table{Columns: []report.Column{{Title: "who of " + heading}, {Title: "amount"}}}
	for i := range rows {
		t.Rows = append(t.Rows, []report.Cell{report.Text("row " + strconv.Itoa(i+1)), report.Text("x")})
	}
	return report.Section{Heading: heading, Blocks: []report.Block{t}}
}

// A table that fits on a page begins one, with its heading, where it would be
// split.
func TestTablesAreNotSplit(t *testing.T) {
	raw := docFile(t, report.Document{Title: "T", Sections: []report.Section{tableOf("first", 20), tableOf("second", 12)}})
	starts := pageStarts(t, raw, 1)
	require.Len(t, starts, 1)
	require.Equal(t, "second", open(t, raw).stored("Doc", "A"+strconv.Itoa(starts[0])))

	raw = docFile(t, report.Document{Title: "T", Sections: []report.Section{tableOf("first", 8), tableOf("second", 8)}})
	require.Empty(t, pageStarts(t, raw, 1), "both fit")
}

// A table that no page holds has its headings again on every page.
func TestLongTablesRepeatTheirHeadings(t *testing.T) {
	raw := docFile(t, report.Document{Title: "T", Sections: []report.Section{tableOf("long", 70)}})
	book := open(t, raw)
	starts := pageStarts(t, raw, 1)
	require.Len(t, starts, 2)
	for _, row := range starts {
		require.Equal(t, "who of long", book.stored("Doc", "A"+strconv.Itoa(row)))
		require.Contains(t, book.stored("Doc", "A"+strconv.Itoa(row+1)), "row ")
	}
}

// Facts stand together beneath their heading, and a heading never alone at the
// foot of a page.
func TestHeadingsMoveWithWhatTheyHead(t *testing.T) {
	facts := &report.Facts{Items: []report.Fact{{Label: "one", Value: report.Text("1")}, {Label: "two", Value: report.Text("2")}, {Label: "three", Value: report.Text("3")}}}
	for rows := 20; rows < 32; rows++ {
		raw := docFile(t, report.Document{Title: "T", Sections: []report.Section{tableOf("first", rows), {Heading: "Facts", Blocks: []report.Block{facts}}}})
		book := open(t, raw)
		for _, row := range pageStarts(t, raw, 1) {
			got := book.stored("Doc", "A"+strconv.Itoa(row))
			require.Contains(t, []string{"Facts", "first", "who of first"}, got, "%d rows", rows)
		}
	}
}

// No page of the demo's workbook splits a table of the season:
// pages begin at headings.
func TestDemoPagesBeginAtHeadings(t *testing.T) {
	l := load(t, demoLedger)
	for _, pilot := range []string{"ines", "tobias", "yuki"} {
		raw := written(t, l, of(t, l, pilot), asked{})
		book := open(t, raw)
		for sheet, headings := range map[string][]string{
			"Season":   {"Contests", "Flights that count", "What the trend rests on (" + words.WorkedOut + ")"},
			"Families": {"Trend against the rest of the same flights (" + words.WorkedOut + ")", "Percent by flight"},
		} {
			index, err := book.GetSheetIndex(sheet)
			require.NoError(t, err)
			for _, row := range pageStarts(t, raw, index+1) {
				at := row
				for at < row+2 && book.stored(sheet, "A"+strconv.Itoa(at)) == "" {
					at++ // a table with a title of its own has an empty row before it
				}
				require.Contains(t, headings, book.stored(sheet, "A"+strconv.Itoa(at)), "%s %s row %d", pilot, sheet, row)
			}
		}
	}
}

// Drills follow the faults on the page where there is room, and the caution
// stands once.
func TestDrillsFollowAndCautionOnce(t *testing.T) {
	l := load(t, demoLedger)
	raw := written(t, l, of(t, l, "tobias"), asked{})
	book := open(t, raw)
	index, err := book.GetSheetIndex(words.FaultsSheet)
	require.NoError(t, err)
	require.Empty(t, pageStarts(t, raw, index+1))
	rows, err := book.GetRows(words.FaultsSheet)
	require.NoError(t, err)
	found := 0
	for _, row := range rows {
		if len(row) > 0 && strings.Contains(row[0], cautionEnd) {
			require.Equal(t, words.PracticeCaution, row[0])
			found++
		}
	}
	require.Equal(t, 1, found)
}

// cautionEnd ends what every page that advises says at its foot.
const cautionEnd = "The rules in force, the aircraft's manual and licensed instruction come before anything here"

// Every sheet that advises has one caution, and no other sheet has any.
func TestEverySheetThatAdvisesHasItsCaution(t *testing.T) {
	for _, ledger := range []string{demoLedger, seasonLedger} {
		l := load(t, ledger)
		book := open(t, written(t, l, of(t, l, "ines"), asked{}))
		got := map[string]int{}
		for _, sheet := range book.GetSheetList() {
			rows, err := book.GetRows(sheet)
			require.NoError(t, err)
			for _, row := range rows {
				for _, cell := range row {
					if strings.Contains(cell, cautionEnd) {
						got[sheet]++
					}
				}
			}
		}
		require.Equal(t, map[string]int{words.SeasonSheet: 1, words.FaultsSheet: 1, words.ReadySheet: 1}, got)
	}
}
