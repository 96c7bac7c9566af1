package pages

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/sheetfile"
	"boxbook/report/words"
	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/ledger"
	"boxbook/season/sheetimport"
)

// exportBook has every kind of mark, a figure of hints, one of nothing but K, a
// label that a spreadsheet would run, dropped marks, an open figure, a flight
// that is void and one without marks.
const exportBook = `
pilot ines
sequence six
  category     intermediate
  programme    free
  1            8.5.2.1:10 9.1.4.2:4  "half Cuban"
  2            K 14 2-rolling 9.4 9.2  "=1+1"
  3            K 9
  positioning  K 20
sequence two
  category     silver
  1            K 7
  harmony      K 10
contest tarn-open 2026-04-18..2026-04-19
  panel        A B C D E
rules cut
  like           panel-mean
  drop-extremes  yes
flight 2026-04-18 ines free
  contest      tarn-open
  sequence     six
  rules        cut
  1            8 7.5 HZ AV -
  2            CHZ 8 8 8 8
  3            PZ 8 7 6 5
  positioning  8 7.5 AV - 8
flight 2026-04-19 ines free
  contest      tarn-open
  sequence     six
  panel        A B missing C D E
  1            HZ 8
  2            7 7
  3            7 7
  positioning  8 8
  void         "cloud"
flight 2026-05-02 ines practice
  sequence     two
  panel        anna
  1            7
  harmony      8
flight 2026-06-01 ines free
  category     intermediate
  official     1890 of 2450
flight 2026-06-02 ines free
  sequence     six
  panel        A B
  1            HZ 8
  2            7 7
  3            7 7
  positioning  8 8
`

// [derived]: the two grades of figure 1 have the mean 7.75, which fills the other
// three; of those five the highest and the lowest are dropped. Figure 2 is zero
// from all, and the first two zeros are the dropped ones: the first of equals.
const exportCSV = `flight,date,pilot,contest,category,programme,figure,label,k,codes,groups,judge,mark,kind,used,points,void
2026-04-18/ines/free,2026-04-18,ines,tarn-open,intermediate,free,1,half Cuban,14,8.5.2.1 9.1.4.2,8 9.1,A,8.0,grade,,,FALSE
2026-04-18/ines/free,2026-04-18,ines,tarn-open,intermediate,free,1,half Cuban,14,8.5.2.1 9.1.4.2,8 9.1,B,7.5,grade,,,FALSE
2026-04-18/ines/free,2026-04-18,ines,tarn-open,intermediate,free,1,half Cuban,14,8.5.2.1 9.1.4.2,8 9.1,C,HZ,hard zero,7.75,108.5,FALSE
2026-04-18/ines/free,2026-04-18,ines,tarn-open,intermediate,free,1,half Cuban,14,8.5.2.1 9.1.4.2,8 9.1,D,AV,not seen,7.75,108.5,FALSE
2026-04-18/ines/free,2026-04-18,ines,tarn-open,intermediate,free,1,half Cuban,14,8.5.2.1 9.1.4.2,8 9.1,E,'-,no mark,7.75,108.5,FALSE
2026-04-18/ines/free,2026-04-18,ines,tarn-open,intermediate,free,2,'=1+1,14,2-rolling 9.4 9.2,2-rolling hesitation,A,CHZ,confirmed hard zero,0,0,FALSE
2026-04-18/ines/free,2026-04-18,ines,tarn-open,intermediate,free,2,'=1+1,14,2-rolling 9.4 9.2,2-rolling hesitation,B,8.0,grade,0,0,FALSE
`

func exported(t *testing.T, flights []*season.Flight) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, report.WriteCSV(&out, Export(words.ExportedTables[0], answers.ExportOf(flights, nil))))
	return out.String()
}

func TestExportCSV(t *testing.T) {
	l := faultBook(t, exportBook)
	text := exported(t, l.Flights)
	assert.True(t, strings.HasPrefix(text, exportCSV), text)
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	require.NoError(t, err)
	// [derived]: 4 lines x 5 judges, 4 x 2, 2 x 1, 4 x 2.
	require.Len(t, rows, 1+20+8+2+8)
	const used, void = 14, 16
	for _, row := range rows[1:] {
		assert.Equal(t, row[0] == "2026-04-19/ines/free", row[void] == "TRUE", row)
		open := row[0] == "2026-06-02/ines/free" && row[6] == "1"
		if row[void] == "TRUE" || open {
			assert.Empty(t, row[used]+row[used+1], "a void flight counts nowhere, an open figure not yet: %v", row)
		}
	}
	assert.Equal(t, strings.Split("2026-05-02/ines/practice,2026-05-02,ines,,silver,practice,harmony,,10,,,anna,8.0,grade,8,80,FALSE", ","), rows[30])
}

func TestExportJSON(t *testing.T) {
	l := faultBook(t, exportBook)
	encoded, err := json.Marshal(Export(words.ExportedTables[0], answers.ExportOf(l.Flights[2:3], nil)).Data)
	require.NoError(t, err)
	assert.JSONEq(t, `[
		{"flight": "2026-05-02/ines/practice", "date": "2026-05-02", "pilot": "ines", "category": "silver", "programme": "practice", "figure": 1,
		 "k": 7, "codes": [], "groups": [], "judge": "anna", "mark": "7.0", "kind": "grade", "used": 7, "points": 49, "void": false},
		{"flight": "2026-05-02/ines/practice", "date": "2026-05-02", "pilot": "ines", "category": "silver", "programme": "practice", "figure": "harmony",
		 "k": 10, "codes": [], "groups": [], "judge": "anna", "mark": "8.0", "kind": "grade", "used": 8, "points": 80, "void": false}]`, string(encoded))
	encoded, err = json.Marshal(Export(words.ExportedTables[0], answers.ExportOf(l.Flights[1:2], nil)).Data)
	require.NoError(t, err)
	assert.Contains(t, string(encoded), `"mark":"HZ","kind":"hard zero","used":null,"points":null,"void":true`)
	encoded, err = json.Marshal(Export(words.ExportedTables[0], answers.ExportOf(l.Flights[3:4], nil)).Data)
	require.NoError(t, err)
	assert.Equal(t, "[]", string(encoded), "no marks, no rows")
}

// The rows of a line have its points as their mean, dropped ones left out.
func TestExportedPointsAddUp(t *testing.T) {
	f := faultBook(t, exportBook).Flights[0]
	rows := answers.ExportOf([]*season.Flight{f}, nil)
	for i, line := range f.Score().Lines {
		sum, n := 0.0, 0
		for _, row := range rows[i*5 : i*5+5] {
			if row.Points.Known() {
				sum += row.Points.Float64()
				n++
			}
		}
		want, _ := line.Points.Float64()
		assert.InDelta(t, want, sum/float64(n), 1e-9)
	}
}

// sampleBooks are every ledger of the demo and of the samples.
func sampleBooks(t *testing.T) map[string]*season.Ledger {
	t.Helper()
	books := map[string]*season.Ledger{"export": faultBook(t, exportBook)}
	for _, pattern := range []string{"../../data/demo/*.boxbook", "../../testdata/ledgers/*.boxbook"} {
		paths, err := filepath.Glob(pattern)
		require.NoError(t, err)
		require.NotEmpty(t, paths)
		for _, path := range paths {
			result, err := ledger.Load(ledger.Options{Files: ledger.Disk{}, Main: path, Builtin: data.Builtin(), AsOf: season.Date(30000)})
			require.NoError(t, err)
			require.NoError(t, result.Diagnostics.Err(), path)
			books[path] = result.Ledger
		}
	}
	return books
}

// What was exported of a flight is imported as the same marks: alone, and out
// of the rows of all flights of the ledger.
func TestExportIsImportedBack(t *testing.T) {
	flights := 0
	for path, l := range sampleBooks(t) {
		all := exported(t, l.Flights)
		for _, f := range l.Flights {
			if !f.HasMarks() {
				continue
			}
			again := false
			for _, row := range f.Rows.All() {
				again = again || len(row.Again) > 0
			}
			if again {
				continue // an import takes a figure once, and says so
			}
			flights++
			importedBack(t, path, f, exported(t, []*season.Flight{f}))
			importedBack(t, path, f, all)
		}
	}
	assert.Greater(t, flights, 40)
}

func importedBack(t *testing.T, path string, f *season.Flight, text string) {
	t.Helper()
	g, err := sheetfile.Parse("marks.csv", "", []byte(text))
	require.NoError(t, err)
	lines := sheetimport.LinesOf(f.Sequence)
	o := sheetimport.Options{
		Sequence: f.Sequence.Handle, Lines: lines, Panel: f.Panel, Partial: f.Programme == season.Practice, Flight: f.Name,
		ReadMark: func(text string) (scoring.Mark, string, string) {
			marks, _, problem, hint := ledger.ReadMarks(text)
			require.Len(t, marks, 1)
			return marks[0], problem, hint
		},
	}
	found := sheetimport.Recognise(g, o)
	require.Empty(t, found.Problems, "%s of %s", f.Name, path)
	require.Equal(t, f.Panel, found.Panel)
	for i, line := range lines {
		want := f.MarksOf(line.Kind, line.Figure)
		require.Len(t, found.Rows[i], len(want), "%s of %s of %s", line.Name(), f.Name, path)
		for j, entry := range found.Rows[i] {
			require.Equal(t, sheetimport.Entry{Mark: want[j], Read: true}, entry)
		}
	}
}
