package sheetimport_test

import (
	"strings"
	"testing"

	"boxbook/season/sheetimport"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// pilotsKnown are pilots whose names are much alike.
var pilotsKnown = []sheetimport.Pilot{{Handle: "mirko", Name: "Mirko Tell"}, {Handle: "jan", Name: "Jan Moser"}, {Handle: "jana", Name: "Jana Moser"}, {Handle: "kit", Name: "kit"}}

// tableOf is the sheet of one pilot beneath a title, with the grade of every mark.
func tableOf(title, grade string) string {
	m := "|" + grade + "|" + grade + "|" + grade
	return title + "\nFig|A|B|C\n1" + m + "\n2" + m + "\n3" + m + "\npos" + m
}

// columnOf are the rows of one pilot behind a column of pilots.
func columnOf(pilot, grade string) string {
	m := "|" + grade + "|" + grade + "|" + grade
	return pilot + "|1" + m + "\n" + pilot + "|2" + m + "\n|3" + m + "\n|pos" + m
}

// judgesOf are the rows of one pilot with a row a judge.
func judgesOf(pilot, grade string) string {
	m := strings.Repeat("|"+grade, 4)
	return pilot + "|A" + m + "\n" + pilot + "|B" + m + "\n" + pilot + "|C" + m
}

func TestTheRowsOfThePilotWhoWasAskedFor(t *testing.T) {
	stacked := tableOf("Pilot:|Mirko Tell", "6") + "\n\n" + tableOf("Pilot:|Jan Moser", "7") + "\n\n" + tableOf("Pilot:|Jana Moser", "8")
	column := "Pilot|Fig|A|B|C\n" + columnOf("Mirko Tell", "6") + "\n" + columnOf("Moser, Jan", "7") + "\n" + columnOf("Jana Moser", "8")
	judges := "Pilot|Judge|1|2|3|Pos\n" + judgesOf("Mirko Tell", "6") + "\n" + judgesOf("Jan Moser", "7") + "\n" + judgesOf("Jana Moser", "8")
	titled := tableOf("Cup - Pilote: Mirko Tell", "6")
	for _, c := range []struct{ name, sheet, pilot, columns, grade, said string }{
		{"tables beneath each other", stacked, "jan", "", "7.0", "note: the rows of jan are read; not read: those of 2 other pilots: 1:6 \"Mirko Tell\", 15:20 \"Jana Moser\""},
		{"a column of pilots", column, "jan", "", "7.0", "note: the rows of jan are read; not read: those of 2 other pilots: 2:5 \"Mirko Tell\", 10:13 \"Jana Moser\""},
		{"a row a judge of each", judges, "jana", "", "8.0", "note: the rows of jana are read; not read: those of 2 other pilots: 2:4 \"Mirko Tell\", 5:7 \"Jan Moser\""},
		{"bare names above the tables", tableOf("Mirko Tell", "6") + "\n\n" + tableOf("Jan Moser", "7"), "jan", "", "7.0", "note: the rows of jan are read; not read: those of 1 other pilot: 1:6 \"Mirko Tell\""},
		{"none of them", stacked, "kit", "", "", "B1 error: the sheet has the rows of 3 pilots, and none of them is called kit: 1:6 \"Mirko Tell\", 8:13 \"Jan Moser\", 15:20 \"Jana Moser\""},
		{"another's sheet", titled, "jan", "", "6.0", "A1 error: \"Mirko Tell\" is that of the pilot mirko, and the marks were asked for as those of jan\nhint: where they are those of mirko: --pilot mirko; where A1 does not say whose they are: --columns leave=A1"},
		{"another's sheet, said to be right", titled, "jan", "leave=A1", "6.0", "note: left out, as was asked: A1"},
		{"another's rows, left by hand", stacked, "jan", "leave=8:20", "6.0", "B1 error: \"Mirko Tell\" is that of the pilot mirko"},
		{"a stranger's sheet", tableOf("Pilot: Olga Stern", "6"), "jan", "", "6.0", "A1 note: the pilot is called \"Olga Stern\" here, and jan is \"Jan Moser\" in the ledger"},
		{"a pilot's own sheet", titled, "mirko", "", "6.0", "note: not read: titles, and what stands outside the table: A1 \"Cup - Pilote: Mirko Tell\""},
		{"a shorter name", tableOf("Pilot: J. Moser", "6"), "jan", "", "6.0", "note: not read: titles, and what stands outside the table: A1 \"Pilot: J. Moser\""},
		{"who watched the sky", tableOf("Safety pilot: Mirko Tell", "6"), "jan", "", "6.0", "note: not read: titles, and what stands outside the table: A1 \"Safety pilot: Mirko Tell\""},
		{"what the pilot thinks of it", "Fig|A|B|C|Pilot\n1|6|6|6|7\n2|6|6|6|8\n3|6|6|6|7\npos|6|6|6|8", "jan", "", "6.0", "E1 error: column E, \"Pilot\", is neither a judge's column nor a known one, and no column is skipped"},
		{"nobody asked for", titled, "", "", "6.0", "note: not read: titles, and what stands outside the table: A1 \"Cup - Pilote: Mirko Tell\""},
	} {
		t.Run(c.name, func(t *testing.T) {
			o := expected("A", "B", "C")
			o.Pilot, o.Pilots = c.pilot, pilotsKnown
			var err error
			o.Columns, err = sheetimport.ParseColumns(c.columns)
			require.NoError(t, err)
			r := sheetimport.Recognise(gridOf(c.sheet), o)
			want := "\n1\n2\n3\npositioning"
			if c.grade != "" {
				m := " " + c.grade + " " + c.grade + " " + c.grade
				want = "A B C\n1" + m + "\n2" + m + "\n3" + m + "\npositioning" + m
			}
			assert.Equal(t, want, rowsOf(r, o), saidOf(r))
			assert.Contains(t, saidOf(r), c.said)
			assert.Equal(t, strings.Contains(c.said, "error:"), len(r.Problems) > 0, saidOf(r))
		})
	}
}

// Of worksheets that are a flight's each the one that is called as the pilot is read; the
// name of another pilot's is a problem until it is left out.
func TestTheWorksheetOfThePilot(t *testing.T) {
	o := expected("A", "B", "C")
	o.Pilot, o.Pilots = "jan", pilotsKnown
	var grids []sheetimport.Grid
	for _, name := range []string{"Mirko Tell", "Jan Moser", "Jana Moser"} {
		g := gridOf(strings.TrimPrefix(tableOf("", "7"), "\n"))
		g.Name = name
		grids = append(grids, g)
	}
	g, ok := sheetimport.SheetOf(sheetimport.WholeSheets(grids, o), o)
	assert.True(t, ok)
	assert.Equal(t, "Jan Moser", g.Name)
	assert.Empty(t, sheetimport.Recognise(g, o).Problems)
	r := sheetimport.Recognise(grids[2], o)
	assert.Contains(t, saidOf(r), "error: \"Jana Moser\" is that of the pilot jana, and the marks were asked for as those of jan\nhint: where they are those of jana: --pilot jana; where the worksheet's name does not say whose they are: --columns \"leave=Jana Moser\"")
	o.Columns.Leave = []string{"Jana Moser"}
	assert.Empty(t, sheetimport.Recognise(grids[2], o).Problems)
}
