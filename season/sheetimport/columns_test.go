package sheetimport_test

import (
	"strings"
	"testing"

	"boxbook/season/sheetimport"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestColumnsGiven(t *testing.T) {
	const bare = "|weight|first|second|third|strip\n1|14|7.5|8|hz|x\n2|23|av|7|6.5\n3|9|8|8|-\npositioning|20|8|7.5|8"
	const headed = "no.|weight|Judge C|Judge A|Judge B|Strip\n1|14|hz|7.5|8|C\n2|23|6.5|av|7\n3|9|-|8|8\npositioning|20|8|8|7.5"
	const long = "n|who|given\n1|A|7.5\n1|B|8\n1|C|hz\n2|A|av\n2|B|7\n2|C|6.5\n3|A|8\n3|B|8\n3|C|-\npositioning|A|8\npositioning|B|7.5\npositioning|C|8"
	const order = "note: no heading names the judges, so the columns are in the order of the panel: C A, D B, E C\n"
	const heads = "note: the columns are in the order of --panel, which the heads do not name: C \"first\" A, D \"second\" B, E \"third\" C\n"
	for _, c := range []struct{ name, sheet, columns, said string }{
		{"letters", bare, "figure=A,judges=C-E,leave=B+F", heads + `note: not read: columns B "weight", F "strip"`},
		{"letters one by one", bare, "figure=A,judges=C+D+E,leave=F+weight", heads + `note: not read: columns B "weight", F "strip"`},
		{"letters, the headings name the judges", headed, "figure=A,judges=C-E,leave=B+F", `note: not read: columns B "weight", F "Strip"`},
		{"headings", headed, "figure=no.,judges=Judge C-Judge B,leave=weight+Strip", `note: not read: columns B "weight", F "Strip"`},
		{"no row above", strings.SplitN(bare, "\n", 2)[1], "figure=A,judges=C-E,leave=B+F", order + `note: not read: columns B "14", F "x"`},
		{"long by letters", long, "figure=A,judge=B,mark=C", ""},
		{"long by headings", long, "figure=n,judge=who,mark=given", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			o := expected("A", "B", "C")
			var err error
			o.Columns, err = sheetimport.ParseColumns(c.columns)
			require.NoError(t, err)
			r := sheetimport.Recognise(gridOf(c.sheet), o)
			assert.Equal(t, whole, rowsOf(r, o))
			assert.Equal(t, c.said, saidOf(r))
		})
	}
}

func TestColumnsThatDoNotFit(t *testing.T) {
	const bare = "1|14|7.5|8|hz\n2|23|av|7|6.5"
	for columns, said := range map[string]string{
		"figure=A,judges=C-D":     "error: 2 columns of marks for a panel of 3 (A, B, C)",
		"figure=A,judges=C-Z":     `error: no column "C-Z": it is neither a heading nor letters from A to E`,
		"figure=Figur,judges=C-E": `error: no column "Figur": it is neither a heading nor letters from A to E`,
		"figure=D,judges=A-C":     "error: column D has no figure of known-26",
	} {
		o := expected("A", "B", "C")
		var err error
		o.Columns, err = sheetimport.ParseColumns(columns)
		require.NoError(t, err)
		assert.Equal(t, said, saidOf(sheetimport.Recognise(gridOf(bare), o)), columns)
	}
	o := expected()
	o.Columns, _ = sheetimport.ParseColumns("figure=A,judges=C-E")
	assert.Equal(t, "error: no heading names the judges\nhint: name them with --panel, in the order of the columns", saidOf(sheetimport.Recognise(gridOf(bare), o)))
}

// Headings that name some of the judges are not passed over for the panel's
// order, nor is one that could be either of two.
func TestHeadingsInDoubt(t *testing.T) {
	o := expected("A", "B", "C")
	o.Columns, _ = sheetimport.ParseColumns("figure=A,judges=B-D")
	assert.Equal(t, `C1 error: judge "X" is not on the panel (A, B, C)
hint: another panel is given with --panel
D1 error: an empty cell names no judge
error: judge B of the panel has no column
hint: where the sheet is not to hand: --panel "A C missing B"
error: judge C of the panel has no column
hint: where the sheet is not to hand: --panel "A B missing C"
error: figure 2 has no row
error: figure 3 has no row
error: positioning has no row`, saidOf(sheetimport.Recognise(gridOf("fig|A|X\n1|8|8|8"), o)))

	o = expected("Anna", "ANNA", "C")
	o.Partial = true
	r := sheetimport.Recognise(gridOf("fig|ANNA|anna|c\n1|8|7|6"), o)
	assert.Equal(t, "C1 error: judge \"anna\" is not on the panel (Anna, ANNA, C), of which Anna has no column\nhint: where the sheet is right: --panel \"ANNA C anna\"", saidOf(r))
}

// A row a figure is one flight's: a column of flights is not read there.
func TestFlightsBesideAWideSheet(t *testing.T) {
	o := expected("A", "B", "C")
	o.Partial = true
	o.Columns, _ = sheetimport.ParseColumns("figure=A,judges=B-D")
	assert.Equal(t, `note: not read: column E "flight"`, saidOf(sheetimport.Recognise(gridOf("fig|A|B|C|flight\n1|8|8|8|x"), o)))
	o.Columns = sheetimport.Columns{}
	assert.Equal(t, `note: not read: column E "flight"`, saidOf(sheetimport.Recognise(gridOf("fig|A|B|C|flight\n1|8|8|8|x"), o)))
}

func TestParseColumns(t *testing.T) {
	c, err := sheetimport.ParseColumns("figure=A, judges=C-E+G")
	require.NoError(t, err)
	assert.Equal(t, sheetimport.Columns{Figure: "A", Judges: []string{"C-E", "G"}}, c)
	assert.Equal(t, "figure=A,judges=C-E+G", c.String())
	c, err = sheetimport.ParseColumns("leave=F+Strip")
	require.NoError(t, err)
	assert.Equal(t, sheetimport.Columns{Leave: []string{"F", "Strip"}}, c)
	assert.False(t, c.Given())
	c, err = sheetimport.ParseColumns("")
	require.NoError(t, err)
	assert.False(t, c.Given())
	for text, said := range map[string]string{
		"A,C-E":                        `"A" is not NAME=COLUMN`,
		"figure=":                      `"figure=" is not NAME=COLUMN`,
		"figure=A,figure=B":            "figure is given twice",
		"figure=A,name=B":              `"name" is none of figure, k, judges, judge, mark, leave`,
		"figure=A":                     "says too little or too much",
		"judges=C-E":                   "says too little or too much",
		"figure=A,judge=B":             "says too little or too much",
		"figure=A,judges=C-E,mark=F":   "says too little or too much",
		"figure=A,judges=C-E,judge=FG": "says too little or too much",
		"leave=F,judges=C-E":           "says too little or too much",
		"figure=A,leave=B":             "says too little or too much",
	} {
		_, err := sheetimport.ParseColumns(text)
		assert.ErrorContains(t, err, said, text)
	}
}

func TestCellNames(t *testing.T) {
	for n, name := range map[int]string{1: "A", 26: "Z", 27: "AA", 52: "AZ", 702: "ZZ", 703: "AAA", 16384: "XFD"} {
		assert.Equal(t, name, sheetimport.ColumnName(n))
		back, ok := sheetimport.ColumnNumber(name)
		assert.True(t, ok)
		assert.Equal(t, n, back)
	}
	for _, name := range []string{"", "a", "XFE", "ZZZZZZZZZZZZZZZZ", "A1", "Ä"} {
		_, ok := sheetimport.ColumnNumber(name)
		assert.False(t, ok, name)
	}
	assert.Equal(t, "B7", sheetimport.CellName(2, 7))
}
