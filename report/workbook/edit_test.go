package workbook

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// edit is a change that a coach makes in the workbook, and the same change in
// the ledger.
type edit struct {
	name   string
	flight string
	figure string
	cells  map[string]string // heading on Grades: what is typed
	rules  string            // typed on Flights, where not empty
	was    string            // what stands in the ledger
	is     string
	ruling string
}

var edits = []edit{
	{
		name: "a grade", flight: "2026-04-18/ines/known", figure: "4", cells: map[string]string{"Judge 1": "3.5"},
		was: "  4            8.0  7.0  7.0\n", is: "  4 3.5 7.0 7.0\n", ruling: "",
	},
	{
		name: "a grade becomes a hard zero", flight: "2026-04-18/ines/known", figure: "4", cells: map[string]string{"Judge 1": "HZ"},
		was: "  4            8.0  7.0  7.0\n", is: "  4 HZ 7.0 7.0\n", ruling: "filled",
	},
	{
		name: "a second hard zero makes a majority", flight: "2026-04-18/ines/known", figure: "8", cells: map[string]string{"Judge 2": "hz"},
		was: "  8            6.5  5.0  HZ ", is: "  8 6.5 HZ HZ ", ruling: "zeroed",
	},
	{
		name: "a grade becomes AV", flight: "2026-08-08/ines/known", figure: "9", cells: map[string]string{"Judge 2": "A"},
		was: "  9            7.0  7.5  7.0  8.0\n", is: "  9 7.0 AV 7.0 8.0\n", ruling: "filled",
	},
	{
		name: "half the judges", flight: "2026-09-12/ines/known", figure: "2", cells: map[string]string{"Judge 1": "HZ", "Judge 2": "HZ"},
		was: "  2            9.0  7.5  8.0  8.0\n", is: "  2 HZ HZ 8.0 8.0\n", ruling: "undecided",
	},
	{
		name: "half the judges, ruled zero", flight: "2026-09-12/ines/known", figure: "2",
		cells: map[string]string{"Judge 1": "HZ", "Judge 2": "HZ", "resolve": "zero"},
		was:   "  2            9.0  7.5  8.0  8.0\n", is: "  2 HZ HZ 8.0 8.0\n  resolve 2 zero\n", ruling: "resolved",
	},
	{
		name: "a perception zero is confirmed hard, extremes dropped", flight: "2026-06-27/ines/known", figure: "1", cells: map[string]string{"Judge 3": "CHZ"},
		was: "  1            7.0  6.5  PZ   6.5  6.5 ", is: "  1 7.0 6.5 CHZ 6.5 6.5 ", ruling: "zeroed",
	},
	{
		name: "a hard zero among five, extremes dropped", flight: "2026-06-27/ines/known", figure: "4", cells: map[string]string{"Judge 2": "HZ", "Judge 5": "-"},
		was: "  4            6.5  7.0  6.5  7.0  7.5\n", is: "  4 6.5 HZ 6.5 7.0 -\n", ruling: "filled",
	},
	{
		name: "another rule style", flight: "2026-04-18/ines/known", figure: "8", rules: "as-graded",
		was: "flight 2026-04-18 ines known\n", is: "flight 2026-04-18 ines known\n  rules as-graded\n", ruling: "",
	},
}

// A change in the workbook gives what the same change in the ledger gives.
func TestEdits(t *testing.T) {
	source := read(t, seasonLedger)
	l := parse(t, source)
	raw := written(t, l, of(t, l, "ines"), asked{})
	for _, e := range edits {
		t.Run(e.name, func(t *testing.T) {
			t.Parallel()
			i := strings.Index(source, "flight "+strings.ReplaceAll(e.flight, "/", " ")+"\n")
			require.GreaterOrEqual(t, i, 0)
			changed := source[:i] + strings.Replace(source[i:], e.was, e.is, 1)
			require.NotEqual(t, source, changed)
			want := workbookOf(t, parse(t, changed), "ines")
			got := open(t, raw)

			c := newCalculator(t, got)
			row := figureRow(got, e.flight, e.figure)
			flight := got.rowOf("Flights", "flight", e.flight)
			before := got.under("Flights", "points", flight)
			for title, typed := range e.cells {
				c.set("Grades", got.cell("Grades", title, row), typed)
			}
			if e.rules != "" {
				c.set("Flights", got.cell("Flights", "rules", flight), e.rules)
			}
			c.settle("Grades", row)
			c.settle("Flights", flight)

			for _, title := range []string{"mean", "points", "lost", "ruling"} {
				requireAlike(t, want, got, "Grades", title, row)
			}
			require.Equal(t, e.ruling, got.under("Grades", "ruling", row))
			for _, title := range []string{"raw", "points", "percent", "official minus calculated", "official agrees", "counted percent", "remark"} {
				requireAlike(t, want, got, "Flights", title, flight)
			}
			require.NotEqual(t, before, got.under("Flights", "points", flight))
		})
	}
}

func requireAlike(t *testing.T, want, got opened, sheet, title string, row int) {
	t.Helper()
	a, b := want.under(sheet, title, row), got.under(sheet, title, row)
	require.True(t, alike(a, b), "%s %s: want %q, got %q", sheet, title, a, b)
}

// figureRow finds a flight's figure on Grades.
func figureRow(book opened, flight, figure string) int {
	row := book.rowOf("Grades", "flight", flight)
	for book.under("Grades", "figure", row) != figure {
		require.Equal(book.t, flight, book.under("Grades", "flight", row), "no figure "+strconv.Quote(figure))
		row++
	}
	return row
}
