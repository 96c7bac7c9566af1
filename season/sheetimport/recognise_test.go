package sheetimport_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/ledger"
	"boxbook/season/sheetimport"

	"github.com/stretchr/testify/assert"
)

// gridOf lays cells out that stand with bars between them, a line a row. A cell
// is text, but for =8.5 (a formula's stored value), = (a formula without one),
// @2026-05-08 (a date), ?TRUE (a truth value) and !#N/A (an error).
func gridOf(text string) sheetimport.Grid {
	var g sheetimport.Grid
	for i, line := range strings.Split(text, "\n") {
		row := sheetimport.Row{Number: i + 1}
		for column, value := range strings.Split(line, "|") {
			if value = strings.TrimSpace(value); value != "" {
				row.Cells = append(row.Cells, cellOf(column+1, value))
			}
		}
		if row.Cells != nil {
			g.Rows = append(g.Rows, row)
		}
	}
	return g
}

func cellOf(column int, value string) sheetimport.Cell {
	cell := sheetimport.Cell{Column: column, Kind: sheetimport.Text, Text: value}
	kinds := map[byte]sheetimport.Kind{'=': sheetimport.Number, '@': sheetimport.Date, '?': sheetimport.Truth, '!': sheetimport.Failure}
	if kind, ok := kinds[value[0]]; ok {
		cell.Kind, cell.Text, cell.Formula = kind, value[1:], value[0] == '='
		if value == "=" {
			cell.Kind = sheetimport.Unsolved
		}
	}
	return cell
}

// readMark reads marks as the ledger does.
func readMark(text string) (scoring.Mark, string, string) {
	marks, _, problem, hint := ledger.ReadMarks(text)
	if problem == "" && len(marks) != 1 {
		problem = "not one mark"
	}
	if problem != "" {
		return scoring.Mark{}, problem, hint
	}
	return marks[0], "", ""
}

// expected is a sequence of three figures with positioning, and a panel of
// three.
func expected(panel ...string) sheetimport.Options {
	return sheetimport.Options{
		Sequence: "known-26", Panel: panel, ReadMark: readMark, Flight: "2026-04-18/ines/known",
		Lines: sheetimport.LinesOf(&season.Sequence{Figures: []season.Figure{{K: 14}, {K: 23}, {K: 9}}, Positioning: 20}),
	}
}

// rowsOf is a result as text: the judges, then a row a line of the sheet.
func rowsOf(r sheetimport.Result, o sheetimport.Options) string {
	lines := []string{strings.Join(r.Panel, " ")}
	for i, row := range r.Rows {
		name := strings.TrimPrefix(o.Lines[i].Name(), "figure ")
		for _, entry := range row {
			name += " " + entry.String()
		}
		lines = append(lines, name)
	}
	return strings.Join(lines, "\n")
}

// saidOf is what a result says, a line each.
func saidOf(r sheetimport.Result) string {
	var lines []string
	for _, n := range r.Notes {
		lines = append(lines, strings.TrimSpace(n.Cell+" note: "+n.Text))
	}
	for _, p := range r.Problems {
		lines = append(lines, strings.TrimSpace(p.Cell+" error: "+p.Text))
		if p.Hint != "" {
			lines = append(lines, "hint: "+p.Hint)
		}
	}
	return strings.Join(lines, "\n")
}

// A judge's name may have its accents as marks of their own, as some systems
// write them, and as a ledger takes them.
func TestJudgeWithMarks(t *testing.T) {
	o := expected()
	r := sheetimport.Recognise(gridOf("fig|Jose\u0301|B\n1|7|8\n2|7|8\n3|7|8\npos|7|8"), o)
	assert.Equal(t, []string{"Jose\u0301", "B"}, r.Panel)
	assert.Empty(t, r.Problems)
}

// whole is the sheet that most cases spell in some way.
const whole = `A B C
1 7.5 8.0 HZ
2 AV 7.0 6.5
3 8.0 8.0 -
positioning 8.0 7.5 8.0`

var wholeSheets = map[string]string{
	"plain": `
fig|A|B|C
1|7.5|8|hz
2|av|7|6,5
3|8|8|-
positioning|8|7.5|8`,
	"headings in words, figures in words, another order": `
Tarn Valley Open
Figure No.|Judge C|Judge A|judge b
Positioning|8|8|7.5
Fig. 2|6.5|A|7
figure 1|HZ|7.5|8

#3|'-|8|8`,
	"the figures' column has no heading": `
|A|B|C
1|7.5|8|hz
2|av|7|6.5
3|8|8|-
pos.|8|7.5|8`,
	"long": `
judge|mark|figure
B|8|1
A|7.5|1
C|hz|1
A|AV|2
B|7|2
c|6.5|2
A|8|3
B|8|3
C|-|3
A|8|Positioning
B|7.5|Positioning
C|8|Positioning`,
	"a second page": `
fig|A|B|C
1|7.5|8|hz
2|av|7|6.5
fig|A|B|C
3|8|8|-

positioning|8|7.5|8
|||
Signed by the chief judge`,
}

// besideWhole is what is said of them.
var besideWhole = map[string]string{
	"headings in words, figures in words, another order": `note: not read: titles, and what stands outside the table: A2 "Tarn Valley Open"`,
	"a second page": `note: not read: titles, and what stands outside the table: A10 "Signed by the chief judge"`,
}

func TestWholeSheets(t *testing.T) {
	for name, sheet := range wholeSheets {
		t.Run(name, func(t *testing.T) {
			o := expected("A", "B", "C")
			r := sheetimport.Recognise(gridOf(sheet), o)
			assert.Equal(t, whole, rowsOf(r, o))
			assert.Empty(t, r.Problems)
			assert.Equal(t, besideWhole[name], saidOf(r))
		})
	}
}

// Where neither a flag nor a contest names the judges, the sheet does.
func TestJudgesOfTheSheet(t *testing.T) {
	o := expected()
	r := sheetimport.Recognise(gridOf(wholeSheets["plain"]), o)
	assert.Equal(t, whole, rowsOf(r, o))
	assert.Equal(t, "note: the judges are those of the sheet: A B C", saidOf(r))

	r = sheetimport.Recognise(gridOf(wholeSheets["long"]), o)
	assert.Equal(t, []string{"B", "A", "C"}, r.Panel, "in the order in which they come")
	assert.Empty(t, r.Problems)

	const seats = "fig|K|Judge 1|2|Anna|mean|notes\n1|14|7.5|8|hz|7.75|late\n2|23|av|7|6.5|6.75\n3|9|8|8|-|8\npositioning|20|8|7.5|8|7.83"
	r = sheetimport.Recognise(gridOf(seats), o)
	assert.Equal(t, strings.Replace(whole, "A B C", "J1 J2 Anna", 1), rowsOf(r, o))
	assert.Equal(t, "note: the judges are those of the sheet: J1 J2 Anna\nnote: not read: columns F \"mean\", G \"notes\"", saidOf(r))
}

// sheetCase is a sheet with something wrong, or something to know, and what is
// said after the rows.
type sheetCase struct {
	name, sheet, said string
}

var sheetCases = []sheetCase{
	{"a grade that is none", "fig|A|B|C\n1|7.5|8.7|8", "C2 error: grade 8.7 is not a half point (0, 0.5 ... 10)"},
	{"a slip", "fig|A|B|C\n1|7.5|85|8", "C2 error: grade 85 is above 10\nhint: 8.5?"},
	{"several words", "fig|A|B|C\n1|8 7|8#|\"8\"", `B2 error: "8 7" is not a mark: a grade 0 to 10, HZ, CHZ, PZ, AV or -
C2 error: "8#" is not a mark: a grade 0 to 10, HZ, CHZ, PZ, AV or -
D2 error: "\"8\"" is not a mark: a grade 0 to 10, HZ, CHZ, PZ, AV or -`},
	{"nothing", "fig|A|B|C\n1|7.5||8", "C2 error: no mark\nhint: type - for a mark that is not on the sheet"},
	{"what is neither text nor number", "fig|A|B|C\n1|?TRUE|!#N/A|=", `B2 error: "TRUE" is not a mark: a grade 0 to 10, HZ, CHZ, PZ, AV or -
C2 error: "#N/A" is not a mark: a grade 0 to 10, HZ, CHZ, PZ, AV or -
D2 error: a formula without a stored value; nothing is calculated here
hint: save the file in a spreadsheet program, or type the mark`},
	{"dates", "fig|A|B|C\n1|@2026-05-08|@2026-08-05|08.05.2026\n2|8. Mai|5-Aug|@8.5\n3|12/31/2026|@2026-03-04|8.5.", `B2 error: a date, 2026-05-08, where a mark is expected
hint: was it 8.5? format the cells as text and type the marks again
C2 error: a date, 2026-08-05, where a mark is expected
hint: was it 8.5? format the cells as text and type the marks again
D2 error: a date, "08.05.2026", where a mark is expected
hint: was it 8.5? format the cells as text and type the marks again
B3 error: a date, "8. Mai", where a mark is expected
hint: was it 8.5? format the cells as text and type the marks again
C3 error: a date, "5-Aug", where a mark is expected
hint: was it 8.5? format the cells as text and type the marks again
D3 error: a date, 8.5, where a mark is expected
hint: was it 8.5? format the cells as text and type the marks again
B4 error: a date, "12/31/2026", where a mark is expected
C4 error: a date, 2026-03-04, where a mark is expected
D4 error: a date, "8.5.", where a mark is expected
hint: was it 8.5? format the cells as text and type the marks again`},
	{"a zero on a weighted line", "fig|A|B|C\npositioning|HZ|8|PZ", `B2 error: HZ is not allowed in the positioning line, which takes grades, AV or -
D2 error: PZ is not allowed in the positioning line, which takes grades, AV or -`},
	{"formulas", "fig|A|B|C\n1|=7.5|8|=8", "B2 note: 2 formulas: the stored value is taken, nothing is calculated (B2, D2)"},
	{"a figure too many", "fig|A|B|C\n1|8|8|8\n4|8|8|8", "A3 error: there is no figure 4: known-26 has 3 figures"},
	{"a line too many", "fig|A|B|C\n1|8|8|8\nharmony|8|8|8", "A3 error: known-26 has no harmony line"},
	{"a row twice", "fig|A|B|C\n1|8|8|8\n1|7|7|7", "note: figure 1 has 2 rows: flown so many times"},
	{"a row twice, beneath free rows", "fig|A|B|C\n1|8|8|8\n\n1|7|7|7", "A4 error: figure 1 has a second row, the first is row 2"},
	{"marks beside no figure", "fig|A|B|C\n1|8|8|8\n|7|7|7\nwarm-up|7|7|7\n@2026-01-02|7|7|7", `A3 error: an empty cell is not a figure, though there are marks beside it
A4 error: "warm-up" is not a figure, though there are marks beside it
A5 error: the date 2026-01-02 is not a figure, though there are marks beside it`},
	{"totals", "fig|A|B|C\n1|8|8|8\nTotal:|40|40|40", `note: not read: row 3 "Total:"`},
	{"another K", "fig|K|A|B|C\n1|13|8|8|8\n2|23|8|8|8", "B2 error: figure 1 has K 13 on the sheet, K 14 in known-26\nhint: correct the sheet or the sequence; --columns leave=B reads past the sheet's K"},
	{"a judge too few", "fig|A|C\n1|8|8", "error: judge B of the panel has no column\nhint: where the sheet is not to hand: --panel \"A C missing B\""},
	{"a judge too many", "fig|A|B|C|Dora\n1|8|8|8|8", "E1 error: judge \"Dora\" is not on the panel (A, B, C)\nhint: --columns leave=E leaves it unread where it is no judge's; another panel is given with --panel"},
	{"a judge twice", "fig|A|B|Judge A|C\n1|8|8|8|8", "D1 error: judge A has a second column, the first is B\nhint: leave one out: --columns leave=D"},
	{"columns that are no judge's", "fig|label|A|B|C|mean|remarks\n1|loop|8|8|8|8.0|high", `note: not read: columns B "label", F "mean", G "remarks"`},
	{"headings alone", "fig|A|B|C", "error: the sheet has no row of marks"},
	{"no heading", "1|8|8|8", `error: no row of headings: none names a column of figures and judges of the panel (A, B, C)
hint: give the columns: --columns figure=A,judges=B-D`},
	{"headings of others", "fig|X|Y\n1|8|8", `A1 error: these headings name no judge of the panel (A, B, C)
hint: give the columns: --columns figure=COLUMN,judges=COLUMN-COLUMN`},
	{"nothing at all", "", `error: no row of headings: none names a column of figures and judges of the panel (A, B, C)
hint: give the columns: --columns figure=COLUMN,judges=COLUMN-COLUMN`},
	{"long, a judge of another panel", "figure|judge|mark\n1|A|8\n1|B|8\n1|C|8\n1|Dora|8\n2|Dora|8", "B5 error: judge \"Dora\" is not on the panel (A, B, C)\nhint: another panel is given with --panel"},
	{"long, a mark twice", "figure|judge|mark\n1|A|8\n1|B|8\n1|C|8\n1|A|7", "C5 error: figure 1 has a second mark from judge A, the first is in row 2"},
	{"long, a mark missing", "figure|judge|mark\n1|A|8\n1|B|8\n1|C|8\n2|A|8\n2|C|8", "error: figure 2 has no mark from judge B"},
	{"long, a judge without a mark", "figure|judge|mark\n1|A|8\n1|C|8", "error: judge B of the panel has no mark\nhint: where the sheet is not to hand: --panel \"A C missing B\""},
	{"long, another figure, no judge, no mark", "figure|judge|mark\n9|A|8\n1||8\n1|B|\n1|A|8\n1|C|8", `A2 error: there is no figure 9: known-26 has 3 figures
B3 error: an empty cell names no judge
C4 error: no mark
hint: type - for a mark that is not on the sheet`},
	{"long, another flight", "flight|figure|judge|mark\nx|1|A|8\ny|1|A|8", "A1 error: the sheet has several flights: \"x\", \"y\"\nhint: the rows are chosen by --date, --pilot and --programme"},
}

func TestWhatIsSaid(t *testing.T) {
	for _, c := range sheetCases {
		t.Run(c.name, func(t *testing.T) {
			o := expected("A", "B", "C")
			o.Partial = true
			o.Lines = o.Lines[:3:3]
			if strings.Contains(c.sheet, "positioning") {
				o.Lines = expected().Lines
			}
			assert.Equal(t, c.said, saidOf(sheetimport.Recognise(gridOf(c.sheet), o)))
		})
	}
}

// A contest flight has every figure and every weighted line; in practice lines
// may be missing.
func TestLinesThatAreMissing(t *testing.T) {
	o := expected("A", "B", "C")
	r := sheetimport.Recognise(gridOf("fig|A|B|C\n1|8|8|8\n3|8|8|8"), o)
	assert.Equal(t, "A B C\n1 8.0 8.0 8.0\n2\n3 8.0 8.0 8.0\npositioning", rowsOf(r, o))
	assert.Equal(t, "error: figure 2 has no row\nerror: positioning has no row", saidOf(r))
	o.Partial = true
	r = sheetimport.Recognise(gridOf("fig|A|B|C\n1|8|8|8\n3|8|8|8"), o)
	assert.Equal(t, "A B C\n1 8.0 8.0 8.0\n2\n3 8.0 8.0 8.0\npositioning", rowsOf(r, o))
	assert.Empty(t, saidOf(r))
}

func TestMergedCells(t *testing.T) {
	o := expected("A", "B", "C")
	g := gridOf("Tarn Valley\nfig|A|B|C\n1|8||8\n2|8|8|8\n\n3|8|8|8\npositioning|8|8|8")
	g.Merged = []sheetimport.Area{{Left: 1, Top: 1, Right: 4, Bottom: 1}, {Left: 2, Top: 3, Right: 3, Bottom: 3}, {Left: 2, Top: 4, Right: 2, Bottom: 5}}
	r := sheetimport.Recognise(g, o)
	assert.Equal(t, "A B C\n1 8.0 ? 8.0\n2 8.0 8.0 8.0\n3 8.0 8.0 8.0\npositioning 8.0 8.0 8.0", rowsOf(r, o))
	assert.Equal(t, "note: not read: titles, and what stands outside the table: A1 \"Tarn Valley\"\nC3 error: part of the merged cells B3:C3: a mark belongs to one judge and one figure", saidOf(r))
}

// Several flights of one export: the flags' flight is taken.
func TestOneFlightOfSeveral(t *testing.T) {
	o := expected("A", "B", "C")
	var b strings.Builder
	b.WriteString("flight|figure|judge|mark\n")
	for _, flight := range []string{"2026-04-17/ines/known", "2026-04-18/ines/known"} {
		for _, line := range []string{"1", "2", "3", "positioning"} {
			for i, judge := range []string{"A", "B", "C"} {
				fmt.Fprintf(&b, "%s|%s|%s|%c\n", flight, line, judge, flight[9]+byte(i)-4)
			}
		}
	}
	r := sheetimport.Recognise(gridOf(b.String()), o)
	assert.Equal(t, "A B C\n1 4.0 5.0 6.0\n2 4.0 5.0 6.0\n3 4.0 5.0 6.0\npositioning 4.0 5.0 6.0", rowsOf(r, o))
	assert.Empty(t, saidOf(r))
}

// Of very many problems a hundred are kept.
func TestVeryManyProblems(t *testing.T) {
	o := expected("A", "B", "C")
	var b strings.Builder
	b.WriteString("fig|A|B|C\n1|8|8|8\n")
	for n := range 5000 {
		b.WriteString("x" + strconv.Itoa(n) + "|8|8|8\n")
	}
	r := sheetimport.Recognise(gridOf(b.String()), o)
	assert.Len(t, r.Problems, 100)
	assert.Equal(t, 5000+3-100, r.More)
}
