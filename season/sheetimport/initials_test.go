package sheetimport_test

import (
	"strings"
	"testing"

	"boxbook/season/sheetimport"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// fullNames is a sheet whose heads name the judges of the panel in full, in another order.
const fullNames = `Fig|K|W. Engel|Tina Rusk|Judge P. Kovar
1|14|8.0|7.5|7.0
2|23|7.0|7.0|6.5
3|9|8.0|7.5|8.5
Pos|20|8.0|7.5|8.5`

// Full names are the judges whose initials the panel has, each in the seat of the own.
func TestJudgesByTheirInitials(t *testing.T) {
	o := expected("PK", "TR", "WE")
	o.PanelOf = "spring"
	want := "PK TR WE\n1 7.0 7.5 8.0\n2 6.5 7.0 7.0\n3 8.5 7.5 8.0\npositioning 8.5 7.5 8.0"
	for name, sheet := range map[string]string{
		"columns": fullNames,
		"rows": `Judge|1|2|3|Pos
W. Engel|8.0|7.0|8.0|8.0
Tina Rusk|7.5|7.0|7.5|7.5
P. Kovar|7.0|6.5|8.5|8.5`,
	} {
		r := sheetimport.Recognise(gridOf(sheet), o)
		require.Empty(t, r.Problems, name)
		assert.Equal(t, want, rowsOf(r, o), name)
		assert.Contains(t, saidOf(r), "the judges are found by their initials: W. Engel WE, Tina Rusk TR", name)
	}
	columns, err := sheetimport.ParseColumns("figure=A,judges=C-E")
	require.NoError(t, err)
	o.Columns = columns
	r := sheetimport.Recognise(gridOf(fullNames), o)
	require.Empty(t, r.Problems)
	assert.Equal(t, want, rowsOf(r, o), "given columns too")
}

// An initial joined to the surname is that judge, where exactly one is meant: by the
// initials, by the surname or by the same word; a word with a capital in it is none.
func TestJudgesByInitialAndSurnameInOneWord(t *testing.T) {
	joined := strings.NewReplacer("W. Engel", "WEngel", "Tina Rusk", "TRusk", "Judge P. Kovar", "PKovar").Replace(fullNames)
	rows := "\n1 7.0 7.5 8.0\n2 6.5 7.0 7.0\n3 8.5 7.5 8.0\npositioning 8.5 7.5 8.0"
	for _, panel := range [][]string{{"PK", "TR", "WE"}, {"Kovar", "Rusk", "Engel"}, {"PK", "Rusk", "W-Engel"}} {
		o := expected(panel...)
		o.PanelOf = "spring"
		r := sheetimport.Recognise(gridOf(joined), o)
		require.Empty(t, r.Problems, panel)
		assert.Equal(t, strings.Join(panel, " ")+rows, rowsOf(r, o))
	}
	o := expected("PKovar", "TRusk", "WEngel")
	o.PanelOf = "spring"
	r := sheetimport.Recognise(gridOf(strings.Replace(fullNames, "Tina Rusk", "T. Rusk", 1)), o)
	require.Empty(t, r.Problems)
	assert.Equal(t, "PKovar TRusk WEngel"+rows, rowsOf(r, o), "the panel's may be the joined ones")

	for _, c := range []struct{ panel, head string }{
		{"PK TR WE", "PaulKovar"},
		{"PK TR WE", "Pkovar"},
		{"PK TR WE", "PKOVAR"},
		{"PK TR WE", "PKo-Var"},
		{"PK TR WE", "RKovar"},
		{"PK TR WE PKovar", "PKovar"},
		{"PK TR Kovar", "PKovar"},
	} {
		o := expected(strings.Fields(c.panel)...)
		o.PanelOf = "spring"
		r := sheetimport.Recognise(gridOf(strings.Replace(joined, "PKovar", c.head, 1)), o)
		assert.NotEmpty(t, r.Problems, c)
	}
}

// Names that the panel's initials do not fit are never its judges in their order.
func TestOtherNamesAreAskedAbout(t *testing.T) {
	columns, err := sheetimport.ParseColumns("figure=A,judges=C-E")
	require.NoError(t, err)
	sheet := gridOf(strings.Replace(fullNames, "Tina Rusk", "Wim Endo", 1)) // WE twice
	o := expected("PK", "TR", "WE")
	o.PanelOf, o.Columns = "spring", columns
	r := sheetimport.Recognise(sheet, o)
	require.Len(t, r.Problems, 1)
	assert.Equal(t, "the heads name others than the panel (PK, TR, WE): W. Engel, Wim Endo, Judge P. Kovar", r.Problems[0].Text)
	assert.Equal(t, `name the judges in the order of these: --panel "NAME NAME NAME", or write the panel's names at the heads`, r.Problems[0].Hint)
	o.PanelOf = "" // the panel was given for this sheet, in the order of the columns
	r = sheetimport.Recognise(sheet, o)
	require.Empty(t, r.Problems)
	assert.Contains(t, saidOf(r), `the columns are in the order of --panel, which the heads do not name: C "W. Engel" PK, D "Wim Endo" TR`)
}

// Judges with a second row are one problem, with the rows to leave out.
func TestSecondRowsOfJudges(t *testing.T) {
	o := expected("PK", "TR", "WE")
	r := sheetimport.Recognise(gridOf(`Pilot|Judge|1|2|3|Pos
Jana|PK|8.0|7.0|8.0|8.0
Jana|TR|7.5|7.0|7.5|7.5
Jana|WE|7.0|6.5|8.5|8.5
Oskar|PK|7.0|6.0|8.0|8.0
Oskar|TR|6.5|7.0|6.5|7.5
Oskar|WE|7.0|6.5|7.5|8.5`), o)
	require.Len(t, r.Problems, 1)
	assert.Equal(t, "judge PK and 2 more judges have a second row, the first is 2: another flight?", r.Problems[0].Text)
	assert.Equal(t, "leave one out: --columns leave=5:7", r.Problems[0].Hint)
}

// Where judges have rows and nothing names them, the hint speaks of rows.
func TestHintOfRows(t *testing.T) {
	o := expected("PK", "TR", "WE")
	r := sheetimport.Recognise(gridOf("who|1|2|3|Pos\nW. Endo|8.0|7.0|8.0|8.0\nTom|7.5|7.0|7.5|7.5\nPia|7.0|6.5|8.5|8.5"), o)
	require.NotEmpty(t, r.Problems)
	assert.Contains(t, r.Problems[0].Hint, "--columns figure=1,judges=2-4")
}

// A mean that is wrong makes the points beside it wrong too: both are named.
func TestWrongMeanAndPoints(t *testing.T) {
	o := expected("PK", "TR", "WE")
	r := sheetimport.Recognise(gridOf(`Fig|K|PK|TR|WE|Mean|Points
1|14|8.0|7.5|7.0|7.50|105.00
2|23|7.0|7.0|7.0|6.00|138.00
3|9|8.0|7.5|8.5|8.00|72.00
Pos|20|8.0|7.5|8.5|8.00|160.00`), o)
	require.Len(t, r.Problems, 1)
	assert.Equal(t, "one of them is mistyped; --columns leave=F-G leaves them unread", r.Problems[0].Hint)
}
