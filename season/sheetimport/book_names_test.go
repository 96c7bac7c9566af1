package sheetimport_test

import (
	"fmt"
	"testing"

	"boxbook/season/sheetimport"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// bookOf is a workbook with a worksheet a judge, of the marks of whole.
func bookOf(names [3]string, above string, heads [3]string) []sheetimport.Grid {
	marks := [3][4]string{{"7.5", "av", "8", "8"}, {"8", "7", "8", "7.5"}, {"hz", "6.5", "-", "8"}}
	var grids []sheetimport.Grid
	for i, m := range marks {
		g := gridOf(fmt.Sprintf("%s%s\nfig|K|grade\n1|14|%s\n2|23|%s\n3|9|%s\npos|20|%s", above, heads[i], m[0], m[1], m[2], m[3]))
		g.Name = names[i]
		grids = append(grids, g)
	}
	return grids
}

// Judges of worksheets are found as those of columns are: by full names whose initials are
// the panel's, and by the numbers of their seats.
func TestWorksheetsOfFullNamesAndSeats(t *testing.T) {
	none := [3]string{}
	for _, c := range []struct {
		name  string
		grids []sheetimport.Grid
		said  string
	}{
		{"full names", bookOf([3]string{"Anna Kessel", "Bruno Marsh", "Carla Tarn"}, "", none), "note: the judges are found by their initials: Anna Kessel AK, Bruno Marsh BM, Carla Tarn CT"},
		{"full names above the tables", bookOf([3]string{"Sheet1", "Sheet2", "Sheet3"}, "Judge|", [3]string{"Anna Kessel", "B. Marsh", "Carla Tarn"}), "note: the judges are found by their initials: Anna Kessel AK, B. Marsh BM, Carla Tarn CT"},
		{"seats", bookOf([3]string{"Judge 1", "Judge 2", "Judge 3"}, "", none), "note: judges as the panel of tarn: AK BM CT; --panel gives another order"},
		{"seats above the tables", bookOf([3]string{"Sheet1", "Sheet2", "Sheet3"}, "Judge|", [3]string{"1", "2", "3"}), "note: judges as the panel of tarn: AK BM CT; --panel gives another order"},
	} {
		t.Run(c.name, func(t *testing.T) {
			o := expected("AK", "BM", "CT")
			o.PanelOf = "tarn"
			r, ok := sheetimport.RecogniseBook(c.grids, o)
			require.True(t, ok)
			assert.Empty(t, r.Problems, saidOf(r))
			assert.Equal(t, "AK BM CT\n1 7.5 8.0 HZ\n2 AV 7.0 6.5\n3 8.0 8.0 -\npositioning 8.0 7.5 8.0", rowsOf(r, o))
			assert.Contains(t, saidOf(r), c.said)
		})
	}
	for name, names := range map[string][3]string{
		"worksheets by number": {"Sheet1", "Sheet2", "Sheet3"},
		"flights by number":    {"Flight 1", "Flight 2", "Flight 3"},
		"two of the same":      {"Anna Kessel", "Arno Kahn", "Carla Tarn"},
	} {
		_, ok := sheetimport.RecogniseBook(bookOf(names, "", none), expected("AK", "BM", "CT"))
		assert.False(t, ok, name)
	}
}

// On worksheets a judge with the pilots beside each other the column of the one who was
// asked for is read; the hint of one that is not known names nobody's column.
func TestPilotsBesideEachOtherOnAJudgesWorksheet(t *testing.T) {
	var grids []sheetimport.Grid
	for _, judge := range []string{"A", "B", "C"} {
		g := gridOf("fig|K|Mirko Tell|Jan Moser|Jana Moser\n1|14|6|7|8\n2|23|6|7|8\n3|9|6|7|8\npos|20|6|7|8")
		g.Name = judge
		grids = append(grids, g)
	}
	o := expected("A", "B", "C")
	o.Pilot, o.Pilots = "jan", pilotsKnown
	r, ok := sheetimport.RecogniseBook(grids, o)
	require.True(t, ok)
	assert.Empty(t, r.Problems, saidOf(r))
	assert.Equal(t, "A B C\n1 7.0 7.0 7.0\n2 7.0 7.0 7.0\n3 7.0 7.0 7.0\npositioning 7.0 7.0 7.0", rowsOf(r, o))
	assert.Contains(t, saidOf(r), `worksheet "A": not read: columns C "Mirko Tell", E "Jana Moser"`)

	o.Pilot = "kit"
	r, _ = sheetimport.RecogniseBook(grids, o)
	assert.Contains(t, saidOf(r), "give the one that is meant: --columns figure=A,judges=COLUMN")
	o.Columns = sheetimport.Columns{Figure: "A", Judges: []string{"D"}, Leave: []string{"C", "E"}}
	r, _ = sheetimport.RecogniseBook(grids, o)
	assert.Empty(t, r.Problems, saidOf(r))
}

// Hidden worksheets that were not read are named.
func TestHiddenWorksheetsBeside(t *testing.T) {
	g := gridOf(wholeSheets["plain"])
	g.Beside = []string{"calc"}
	assert.Contains(t, saidOf(sheetimport.Recognise(g, expected("A", "B", "C"))), `note: not read: hidden worksheet "calc"`)
}
