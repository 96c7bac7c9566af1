package commands

import (
	"fmt"
	"math"
	"strings"
	"testing"

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
	"Season/trend, at most":       "an edge of the line on its first day: the JSON has the change that it is turned by",
	"Season/at most, last day":    "and on its last",
	"Season/trend, at least":      "the other edge",
	"Season/at least, last day":   "and on its last day",
	"Rules/every mark":            "the marks that a cell takes, for the list behind it",
	"Season/flights":              "how many flights a contest has",

	"Elements/K of the figure's elements":        "helper of a formula: a sum over the figure's rows",
	"Elements/elements of the figure":            "helper of a formula: a count of the figure's rows",
	"Elements/noted on the figure's elements":    "helper of a formula: a sum over the figure's rows",
	"Elements/first of its family in the figure": "helper of a formula: 1 or 0",
	"Elements/noted deduction":                   "0 where no fault is noted",
	"Elements/charged points":                    "0 where no fault is noted",
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
	for i, c := range columns {
		columns[i].title = table.titleOf(c.title)
		require.NotEmpty(t, columns[i].title, "%s has no column %s", sheetName, c.title)
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
		column{"change in 30 days", "slope30", true}, column{"change", "season", true},
		column{"from", "low", true}, column{"to", "high", true}, column{"confidence", "confidence", true}, column{"without zeroed", "withoutZeros", true})
	shown += b.holdTable(t, "Season", tests, []string{"tests of the trend"},
		column{"flights compared", "n", true}, column{"p, on flights", "p", true},
		column{"contests", "contests.n", true},
		column{"p, on contests", "contests.p", true}, column{"tau, on flights", "tau", true})
	shown += b.holdTable(t, "Season", b.moveOf, []string{"change of category"},
		column{"contests before", "before", true}, column{"contests after", "after", true}, column{"change", "change", true},
		column{"from", "low", true}, column{"to", "high", true}, column{"confidence", "confidence", true})
	shown += b.holdTable(t, "Families", family, []string{"family", "percent by flight"},
		column{"figures", "figures", true}, column{"K flown", "k", true}, column{"percent", "percent", true},
		column{"lost per flight", "lostPerFlight", true}, column{"adjusted percent", "shrunken", true},
		column{"from", "low", true}, column{"to", "high", true})
	shown += b.holdTable(t, "Families", family, []string{"family", "flights compared"},
		column{"flights compared", "trend.n", true}, column{"against the rest", "versusRest", true},
		column{"change", "trend.season", true}, column{"from", "trend.low", true}, column{"to", "trend.high", true},
		column{"p", "trend.p", true}, column{"q", "q", true})
	shown += b.holdTable(t, "Panel", b.row("panel", "judges", "name", "judge"), []string{"judge", "leniency"},
		column{"leniency", "leniency", true}, column{"give or take", "se", true}, column{"scatter", "scatter", true},
		column{"grades", "n", true}, column{"flights", "flights", true})
	shown += b.holdTable(t, "Panel", b.row("panel", "flights", "flight", "flight"), []string{"flight", "scatter of a grade"},
		column{"scatter of a grade", "scatter", true}, column{"noise of the percent", "noise", true})
	shown += b.holdTable(t, "Faults and drills", b.drillOf, []string{"target", "rate ratio"},
		column{"p", "p", true}, column{"z", "tests.z", true}, column{"fall", "tests.fall", true}, column{"faults", "tests.faults", true},
		column{"rate ratio", "rate.ratio", true}, column{"from", "rate.low", true}, column{"to", "rate.high", true})
	inSeason := b.row("season", "flights", "flight", "flight")
	shown += b.holdTable(t, "Flights", inSeason, []string{"date", "contest"},
		column{"counted percent", "percent", true}, column{"to winner", "toWinner", true}, column{"to median", "toMedian", true},
		column{"panel noise, percent", "noise", true}, column{"place", "place", true}, column{"of", "of", true})
	shown += b.holdTable(t, "Flights", b.flightOf, []string{"date", "contest"},
		column{"raw", "raw", true}, column{"points", "points", true}, column{"maximum", "maximum", true},
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
	demo := "../../../../data/demo/longmere.boxbook"
	for _, c := range []struct {
		name        string
		path        string
		selection   []string
		held, known int // at the least
	}{
		{"demo", demo, []string{"--pilot", "ines"}, 1200, 750},
		{"demo, last year", demo, []string{"--pilot", "ines", "--season", "2025"}, 900, 600},
		{"demo, another pilot", demo, []string{"--pilot", "tobias"}, 500, 300},
		{"three flights", few(t, spread(2026, 3)), []string{"--pilot", "ines"}, 150, 130},
		{"one contest, five flights", few(t, together(5)), []string{"--pilot", "ines"}, 200, 200},
		{"one contest, two flights", few(t, together(2)), []string{"--pilot", "ines"}, 100, 110},
		{"several seasons, the last", few(t, spread(2024, 4)+spread(2025, 7)+spread(2026, 5)), []string{"--pilot", "ines"}, 300, 210},
		{"several seasons, the middle", few(t, spread(2024, 4)+spread(2025, 7)+spread(2026, 5)), []string{"--pilot", "ines", "--season", "2025"}, 400, 260},
		{"several seasons, all", few(t, spread(2024, 4)+spread(2025, 7)+spread(2026, 5)), []string{"--pilot", "ines", "--since", "2020-01-01"}, 800, 470},
		{"another category, one contest each", few(t, spread(2026, 1)+later(6, 1)), []string{"--pilot", "ines"}, 90, 70},
		{"another category, three contests", few(t, spread(2026, 3)+later(7, 3)), []string{"--pilot", "ines"}, 250, 200},
		{"official totals alone", few(t, totals(3, 6)), []string{"--pilot", "ines"}, 20, 28},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := bookOf(t, asIs, c.path, c.selection...)
			assert.GreaterOrEqual(t, b.holdNumbers(t), c.held)
			assert.GreaterOrEqual(t, b.holdKnown(t), c.known)
			b.holdLines(t)
		})
	}
}
