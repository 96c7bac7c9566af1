package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boxbook/data"
	"boxbook/season"
	"boxbook/season/ledger"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// beside are the numbers of a workbook that stand in no answer, by sheet and
// title, each with its reason; a title "*" is every title of the sheet. A date
// is the spreadsheet's serial and is held as the text that it shows.
var beside = map[string]string{
	"Flights/official printed to": "the last digit of the printed total, for the comparison's formula",
	"Flights/sheets missing":      "the length of the flight's list `missing`",
	"Flights/judges":              "the length of the flight's list `panel`",
	"Flights/winner's points":     "typed in the ledger; the distance to it is the JSON's toWinner",
	"Flights/field's median":      "typed in the ledger; the distance to it is the JSON's toMedian",
	"Season/line, first day":      "where the chart's line begins: the JSON has its slope, to which holdLines holds it",
	"Season/line, last day":       "where the chart's line ends",
	"Rules/every mark":            "the marks that a cell takes, for the list behind it",
	"Season/flights":              "how many flights a contest has",

	"Elements/K of the figure's elements":        "helper of a formula: a sum over the figure's rows",
	"Elements/elements of the figure":            "helper of a formula: a count of the figure's rows",
	"Elements/noted on the figure's elements":    "helper of a formula: a sum over the figure's rows",
	"Elements/first of its family in the figure": "helper of a formula: 1 or 0",
	"Elements/noted deduction":                   "0 where no fault is noted",
	"Elements/charged points":                    "0 where no fault is noted",
}

// answered are the numbers of one object of an answer, which is about what it
// names: a flight, a figure of it, a family, a judge ... All its names stand in
// the row of a cell that shows one of them.
type answered struct {
	names   []string
	numbers []float64
}

// book is a workbook beside the JSON of its commands.
type book struct {
	by      asking
	sheets  []sheet
	trees   map[string]map[string]any // by command; "flight NAME"
	objects []*answered
	all     []float64
	texts   string
	called  map[string][]string // handles by name
}

// naming are the fields that say what an object is about, the first of them that
// it has.
var naming = [][]string{
	{"flight"},
	{"group", "kind", "target", "judge", "code", "number", "figure"},
	{"contest"},
	{"from", "to"},
	{"pilot"},
	{"category"},
	{"name"},
}

// subjectOf gives the names of what an object is about.
func subjectOf(object map[string]any) []string {
	var names []string
	for _, fields := range naming {
		for _, field := range fields {
			switch name := object[field].(type) {
			case string:
				names = append(names, name)
			case float64:
				names = append(names, fmt.Sprintf("figure %v", name))
			}
		}
		if names != nil {
			return names
		}
	}
	return nil
}

// bookOf writes a workbook and asks the commands for the same selection.
func bookOf(t testing.TB, by asking, path string, year bool, selection ...string) book {
	t.Helper()
	b := book{by: by, trees: map[string]map[string]any{}, called: namesIn(t, path)}
	file := filepath.Join(t.TempDir(), "book.xlsx")
	args := append([]string{"workbook", "-f", path, "-o", file}, selection...)
	if year {
		args = append(args, "--year=2026")
		b.ask(t, "year", "year", "2026", "-f", path)
	}
	by(t, args...)
	b.sheets = sheetsOf(t, file)
	for _, command := range []string{"season", "families", "faults", "panel", "plan"} {
		b.ask(t, command, append([]string{command, "-f", path}, selection...)...)
	}
	for _, command := range []string{"drills", "ready"} {
		b.ask(t, command, append([]string{command, "-f", path}, selection[:2]...)...)
	}
	for _, flight := range b.list("season", "flights") {
		name := flight["flight"].(string)
		b.ask(t, "flight "+name, "flight", name, "-f", path)
	}
	slices.Sort(b.all)
	return b
}

// namesIn are the handles of pilots and contests by their names, which two
// contests of different years may share.
func namesIn(t testing.TB, path string) map[string][]string {
	t.Helper()
	today, _ := season.ParseDate("2026-11-25")
	result, err := ledger.Load(ledger.Options{Files: ledger.Disk{}, Main: path, Builtin: data.Builtin(), AsOf: today})
	require.NoError(t, err)
	require.NoError(t, result.Diagnostics.Err())
	called := map[string][]string{"the club": {"club"}}
	for _, p := range result.Ledger.Pilots {
		called[p.Name] = append(called[p.Name], p.Handle)
	}
	for _, c := range result.Ledger.Contests {
		called[c.Name] = append(called[c.Name], c.Handle)
	}
	return called
}

// ask keeps the answer of one command.
func (b *book) ask(t testing.TB, name string, args ...string) {
	t.Helper()
	var tree map[string]any
	require.NoError(t, json.Unmarshal([]byte(b.by(t, append(args, "--format", "json")...)), &tree), args)
	delete(tree, "boxbook")
	b.trees[name] = tree
	around := &answered{}
	if flight, ok := tree["flight"].(string); ok {
		around.names = []string{flight}
	}
	b.objects = append(b.objects, around)
	for _, item := range tree {
		b.walk(item, around)
	}
}

// walk takes down the numbers of a node: of an object that is about something
// among its own, of others among those of what is around them.
func (b *book) walk(node any, around *answered) {
	switch v := node.(type) {
	case float64:
		around.numbers, b.all = append(around.numbers, v), append(b.all, v)
	case string:
		b.texts += v + "\n"
		if number, err := strconv.ParseFloat(v, 64); err == nil { // money and marks
			b.walk(number, around)
		}
	case []any:
		for _, item := range v {
			b.walk(item, around)
		}
	case map[string]any:
		if names := subjectOf(v); names != nil {
			around = &answered{names: append(slices.Clone(around.names), names...)}
			b.objects = append(b.objects, around)
		}
		for _, item := range v {
			b.walk(item, around)
		}
	}
}

// list is a list of objects in the answer of a command.
func (b *book) list(command, field string) []map[string]any {
	var found []map[string]any
	list, _ := b.trees[command][field].([]any)
	for _, item := range list {
		found = append(found, item.(map[string]any))
	}
	return found
}

// about are the numbers of every object whose names all stand in the row of a
// cell or in its title; all there are where none is about it.
func (b *book) about(s sheet, row []sheetCell, c sheetCell) []float64 {
	texts := []string{s.title(c)}
	for _, other := range row {
		if s.title(other) == "figure" {
			texts = append(texts, "figure "+other.value)
		}
		if other.number {
			continue
		}
		first, _, _ := strings.Cut(other.value, " ")
		texts = slices.Concat(texts, []string{other.value, first}, b.called[other.value], strings.Split(other.value, " to "))
	}
	var numbers []float64
	for _, o := range b.objects {
		within := func(name string) bool { return slices.Contains(texts, name) }
		if len(o.names) > 0 && !slices.ContainsFunc(o.names, func(name string) bool { return !within(name) }) {
			numbers = append(numbers, o.numbers...)
		}
	}
	if numbers == nil {
		return b.all
	}
	return numbers
}

func knows(numbers []float64, v float64) bool {
	return slices.ContainsFunc(numbers, func(n float64) bool { return math.Abs(n-v) <= 1e-9*max(1, math.Abs(v)) })
}

// holdNumbers holds every numeric cell to be a formula, a number of the JSON, or
// one of those named beside; it gives how many were numbers of the JSON.
func (b *book) holdNumbers(t testing.TB) int {
	t.Helper()
	held := 0
	for _, s := range b.sheets {
		for _, row := range s.rows() {
			for _, c := range row {
				if !c.number || c.formula != "" || beside[s.name+"/"+s.title(c)] != "" {
					continue
				}
				if c.day {
					assert.Contains(t, b.texts, c.shown, "no such date in the JSON: %s", s.where(c))
					continue
				}
				held++
				assert.True(t, knows(b.about(s, row, c), c.float()), "no such number in the JSON of its row: %s", s.where(c))
			}
		}
	}
	return held
}

// column is a title of a table and the field of the JSON object of its row that
// says whether it is known, "slope30" or "trend.p". Where value is false the
// cell is made from the field, as a line's end is, and only its presence is held.
type column struct {
	title, field string
	value        bool
}

// holdTable holds the cells of a table to the objects of their rows: a cell is
// empty where the field is absent and shows it where it is there. It gives the
// number of cells with a value.
func (b *book) holdTable(t testing.TB, sheetName string, object func(map[string]sheetCell) map[string]any, titles []string, columns ...column) int {
	t.Helper()
	s := sheetNamed(t, b.sheets, sheetName)
	table, ok := s.table(titles...)
	if !ok {
		return 0
	}
	shown := 0
	for _, c := range columns {
		require.Contains(t, table.titles, c.title, "%s has no such column", sheetName)
	}
	for _, row := range table.rows {
		if row[titles[0]].value == "none" && len(row) == 1 {
			continue // the one row of an empty table
		}
		tree := object(row)
		require.NotNil(t, tree, "%s, row of %s is of nothing in the JSON", sheetName, row[titles[0]].value)
		for _, c := range columns {
			cell, want := row[c.title], fieldOf(tree, c.field)
			where := fmt.Sprintf("%s, %s of %s", sheetName, c.title, row[titles[0]].value)
			if want == nil {
				assert.Empty(t, cell.value, "%s is shown, the JSON has no %s", where, c.field)
				continue
			}
			shown++
			assert.True(t, cell.number, "%s is not shown, the JSON has %s %v", where, c.field, want)
			if c.value && cell.number {
				assert.InDelta(t, want, cell.float(), 1e-9*max(1, math.Abs(want.(float64))), where)
			}
		}
	}
	return shown
}

// fieldOf follows a path of fields; nil where it ends.
func fieldOf(tree map[string]any, path string) any {
	first, rest, more := strings.Cut(path, ".")
	if !more {
		return tree[first]
	}
	next, _ := tree[first].(map[string]any)
	return fieldOf(next, rest)
}

// row finds the object of a row in a list: the one whose field is the text under
// a title, its first word, or what follows its comma.
func (b *book) row(command, list, field, title string) func(map[string]sheetCell) map[string]any {
	return func(row map[string]sheetCell) map[string]any {
		first, _, _ := strings.Cut(row[title].value, " ")
		_, after, _ := strings.Cut(row[title].value, ", ")
		for _, object := range b.list(command, list) {
			if name := object[field]; name == row[title].value || name == first || name == after {
				return object
			}
		}
		return nil
	}
}

// flightOf finds the flight of a row.
func (b *book) flightOf(row map[string]sheetCell) map[string]any {
	return b.trees["flight "+row["flight"].value]
}

// drillOf finds the drill of a row.
func (b *book) drillOf(row map[string]sheetCell) map[string]any {
	for _, drill := range b.list("drills", "drills") {
		if drill["target"] == row["target"].value && drill["date"] == row["set"].value {
			return drill
		}
	}
	return nil
}

// moveOf finds the change of category of a row.
func (b *book) moveOf(row map[string]sheetCell) map[string]any {
	for _, move := range b.list("season", "moves") {
		if fmt.Sprintf("%v to %v", move["from"], move["to"]) == row["change of category"].value {
			return move
		}
	}
	return nil
}

// holdKnown holds the columns of what can be unknown: trends, tests, intervals,
// drawn-in percents, judges' habits, drills, distances.
func (b *book) holdKnown(t testing.TB) int {
	t.Helper()
	trend := b.row("season", "trends", "category", "trend of the category")
	tests := b.row("season", "trends", "category", "tests of the trend")
	family := b.row("families", "groups", "group", "family")
	shown := b.holdTable(t, "Season", trend, []string{"trend of the category"},
		column{"line, first day", "slope30", false}, column{"line, last day", "slope30", false}, // and see holdLines
		column{"points per 30 days", "slope30", true}, column{"change", "season", true},
		column{"from", "low", true}, column{"to", "high", true}, column{"sure", "confidence", true}, column{"without zeroed", "withoutZeros", true})
	shown += b.holdTable(t, "Season", tests, []string{"tests of the trend"},
		column{"flights compared", "n", true}, column{"p, on flights", "p", true},
		column{"contests", "contests.n", true},
		column{"p, on contests", "contests.p", true}, column{"tau, on flights", "tau", true})
	shown += b.holdTable(t, "Season", b.moveOf, []string{"change of category"},
		column{"contests before", "before", true}, column{"contests after", "after", true}, column{"change", "change", true},
		column{"from", "low", true}, column{"to", "high", true}, column{"sure", "confidence", true})
	shown += b.holdTable(t, "Families", family, []string{"family", "percent by flight"},
		column{"figures", "figures", true}, column{"K flown", "k", true}, column{"percent", "percent", true},
		column{"lost a flight", "lostPerFlight", true}, column{"shrunken percent", "shrunken", true},
		column{"90 % from", "low", true}, column{"to", "high", true})
	shown += b.holdTable(t, "Families", family, []string{"family", "flights compared"},
		column{"flights compared", "trend.n", true}, column{"against the rest", "versusRest", true},
		column{"change", "trend.season", true}, column{"from", "trend.low", true}, column{"to", "trend.high", true},
		column{"p", "trend.p", true}, column{"q", "q", true})
	shown += b.holdTable(t, "Panel", b.row("panel", "judges", "name", "judge"), []string{"judge", "leniency"},
		column{"leniency", "leniency", true}, column{"give or take", "se", true}, column{"scatter", "scatter", true},
		column{"grades", "n", true}, column{"flights", "flights", true})
	shown += b.holdTable(t, "Panel", b.row("panel", "flights", "flight", "flight"), []string{"flight", "scatter of a grade"},
		column{"scatter of a grade", "scatter", true}, column{"noise of the percent", "noise", true})
	shown += b.holdTable(t, "Faults and drills", b.drillOf, []string{"target", "set"},
		column{"p", "p", true}, column{"rate ratio", "rate.ratio", true})
	inSeason := b.row("season", "flights", "flight", "flight")
	shown += b.holdTable(t, "Flights", inSeason, []string{"date", "contest"},
		column{"record percent", "percent", true}, column{"to winner", "toWinner", true}, column{"to median", "toMedian", true},
		column{"panel noise, percent", "noise", true}, column{"place", "place", true}, column{"of", "of", true})
	shown += b.holdTable(t, "Flights", b.flightOf, []string{"date", "contest"},
		column{"raw", "raw", true}, column{"points", "points", true}, column{"max.", "maximum", true},
		column{"percent", "percent", true}, column{"official points", "official.points", true})
	shown += b.holdTable(t, "Season", inSeason, []string{"contest", "date"},
		column{"percent", "percent", true}, column{"panel noise", "noise", true}, column{"to winner", "toWinner", true},
		column{"to median", "toMedian", true}, column{"place", "place", true})
	shown += b.holdTable(t, "Grades", b.figureOf, []string{"flight", "date", "programme", "figure"},
		column{"K", "k", true}, column{"mean", "mean", true}, column{"points", "points", true}, column{"lost", "lost", true})
	return shown
}

// holdLines holds the lines that the chart draws to the slopes that the JSON has.
func (b *book) holdLines(t testing.TB) {
	t.Helper()
	s := sheetNamed(t, b.sheets, "Season")
	lines, _ := s.table("trend of the category")
	for _, row := range lines.rows {
		slope, ok := b.row("season", "trends", "category", "trend of the category")(row)["slope30"].(float64)
		if first, last := row["first day"], row["last day"]; ok {
			drawn := (row["line, last day"].float() - row["line, first day"].float()) / (last.float() - first.float()) * 30
			assert.InDelta(t, slope, drawn, 1e-9, row["trend of the category"].value)
		}
	}
}

// figureOf finds the row of a score sheet that a row of the sheet Grades shows.
func (b *book) figureOf(row map[string]sheetCell) map[string]any {
	flight := b.flightOf(row)
	if line, ok := flight[row["figure"].value].(map[string]any); ok { // positioning, harmony
		return line
	}
	figures, _ := flight["figures"].([]any)
	for _, item := range figures {
		if figure := item.(map[string]any); fmt.Sprint(figure["number"]) == row["figure"].value {
			return figure
		}
	}
	return nil
}

// TestWorkbookAgainstJSON holds the coach's workbook to the JSON of the commands
// that say the same, for the same choice: no number of its own, none that the
// JSON leaves out, none left out that the JSON has.
func TestWorkbookAgainstJSON(t *testing.T) {
	demo := "../../data/demo/longmere.boxbook"
	for _, c := range []struct {
		name        string
		path        string
		year        bool
		selection   []string
		held, known int // at the least
	}{
		{"demo", demo, true, []string{"--pilot", "ines"}, 1200, 750},
		{"demo, last year", demo, false, []string{"--pilot", "ines", "--season", "2025"}, 900, 600},
		{"demo, another pilot", demo, true, []string{"--pilot", "tobias"}, 500, 300},
		{"three flights", few(t, spread(2026, 3)), false, []string{"--pilot", "ines"}, 150, 130},
		{"one contest, five flights", few(t, together(5)), false, []string{"--pilot", "ines"}, 200, 200},
		{"one contest, two flights", few(t, together(2)), false, []string{"--pilot", "ines"}, 100, 110},
		{"several seasons, the last", few(t, spread(2024, 4)+spread(2025, 7)+spread(2026, 5)), false, []string{"--pilot", "ines"}, 300, 210},
		{"several seasons, the middle", few(t, spread(2024, 4)+spread(2025, 7)+spread(2026, 5)), false, []string{"--pilot", "ines", "--season", "2025"}, 400, 260},
		{"several seasons, all", few(t, spread(2024, 4)+spread(2025, 7)+spread(2026, 5)), false, []string{"--pilot", "ines", "--since", "2020-01-01"}, 800, 470},
		{"another category, one contest each", few(t, spread(2026, 1)+later(6, 1)), false, []string{"--pilot", "ines"}, 90, 70},
		{"another category, three contests", few(t, spread(2026, 3)+later(7, 3)), false, []string{"--pilot", "ines"}, 250, 200},
		{"official totals alone", few(t, totals(3, 6)), false, []string{"--pilot", "ines"}, 20, 28},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := bookOf(t, asIs, c.path, c.year, c.selection...)
			assert.GreaterOrEqual(t, b.holdNumbers(t), c.held)
			assert.GreaterOrEqual(t, b.holdKnown(t), c.known)
			b.holdLines(t)
		})
	}
}

// few writes a ledger of one pilot with these flights.
func few(t testing.TB, flights string) string {
	t.Helper()
	figures := "  programme known\n  1 5.2.1.1:17 9.1.1.1:6\n  2 7.4.1.1:10\n  3 1.2.1.1:8 9.1.2.4:10\n  4 8.5.2.1:10 9.4.4.2:5\n"
	text := "pilot ines\n  name \"Ines Halloran\"\nsequence known\n  category sportsman\n" + figures +
		"sequence next\n  category intermediate\n" + figures + flights
	path := filepath.Join(t.TempDir(), "few.boxbook")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

// spread are flights of a year, a month apart, each of a contest of its own, with
// a fault from the second on and a drill after it.
func spread(year, flights int) string {
	var b strings.Builder
	for i := range flights {
		fmt.Fprintf(&b, "contest c%d-%d %d-%02d-18..%d-%02d-19\n  panel A B C\n", year, i, year, i+3, year, i+3)
		fmt.Fprintf(&b, "flight %d-%02d-18 ines known\n  contest c%d-%d\n  sequence known\n", year, i+3, year, i)
		rows(&b, i)
		if i > 0 {
			fmt.Fprintf(&b, "  fault 2 radius 2x\n")
		}
	}
	fmt.Fprintf(&b, "drill %d-08-20 ines radius\n", year)
	return b.String()
}

// later are flights of the next category, a month apart.
func later(month, flights int) string {
	var b strings.Builder
	for i := range flights {
		fmt.Fprintf(&b, "contest later%d 2026-%02d-08..2026-%02d-09\n  panel A B C\n", i, month+i, month+i)
		fmt.Fprintf(&b, "flight 2026-%02d-08 ines known\n  contest later%d\n  sequence next\n", month+i, i)
		rows(&b, i+1)
	}
	return b.String()
}

// together are flights of one contest.
func together(flights int) string {
	var b strings.Builder
	b.WriteString("contest tarn 2026-04-01..2026-04-09\n  panel A B C\n")
	for i := range flights {
		fmt.Fprintf(&b, "flight 2026-04-%02d ines known\n  contest tarn\n  sequence known\n", i+1)
		rows(&b, i)
	}
	return b.String()
}

// rows are the marks of a flight, all others for each.
func rows(b *strings.Builder, i int) {
	grade := func(j, k int) string { return fmt.Sprintf("%g", 5+float64((3*i+5*j+7*k+i*i*j)%8)/2) }
	for figure := 1; figure <= 4; figure++ {
		second := grade(figure, 1)
		if figure == 2 && i == 1 {
			second = "HZ"
		}
		fmt.Fprintf(b, "  %d %s %s %s\n", figure, grade(figure, 0), second, grade(figure, 2))
	}
}

// totals are flights of which only the official total was typed, a month apart
// from a month on, each better than the last.
func totals(month, flights int) string {
	var b strings.Builder
	for i := range flights {
		fmt.Fprintf(&b, "contest c%d 2026-%02d-18..2026-%02d-19\n", i, month+i, month+i)
		fmt.Fprintf(&b, "flight 2026-%02d-18 ines known\n  contest c%d\n  sequence known\n  official %d.%d2 of 660\n", month+i, i, 400+7*i, i)
	}
	return b.String()
}
