package workbook

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// calculator works formulas out with the library's own calculation, which is
// no part of how their values are stored. The library does not follow chains
// of formulas well, so that each is worked out while all others are values.
type calculator struct {
	t        testing.TB
	book     opened
	formulas map[string]map[string]string // by sheet and cell
	order    map[string][]string
}

// newCalculator takes over a workbook: its formulas are values from now on.
func newCalculator(t testing.TB, book opened) *calculator {
	t.Helper()
	c := &calculator{t: t, book: book, formulas: map[string]map[string]string{}, order: book.formulas()}
	for sheet, cells := range c.order {
		c.formulas[sheet] = map[string]string{}
		for _, cell := range cells {
			formula, err := book.GetCellFormula(sheet, cell)
			require.NoError(t, err)
			c.formulas[sheet][cell] = formula
			c.set(sheet, cell, book.stored(sheet, cell))
		}
	}
	return c
}

// set puts a value in a cell: a number where it reads as one.
func (c *calculator) set(sheet, cell, v string) {
	c.t.Helper()
	if number, err := strconv.ParseFloat(v, 64); err == nil {
		require.NoError(c.t, c.book.SetCellFloat(sheet, cell, number, -1, 64))
		return
	}
	if v == "" {
		require.NoError(c.t, c.book.SetCellValue(sheet, cell, nil))
		return
	}
	require.NoError(c.t, c.book.SetCellStr(sheet, cell, v))
}

// value works a formula out from the values of all other cells, and leaves the
// cell as it was.
func (c *calculator) value(sheet, cell string) string {
	c.t.Helper()
	formula := c.formulas[sheet][cell]
	before := c.book.stored(sheet, cell)
	require.NoError(c.t, c.book.SetCellFormula(sheet, cell, formula))
	got, err := c.book.CalcCellValue(sheet, cell, excelize.Options{RawCellValue: true})
	require.NoError(c.t, err, "%s!%s %s", sheet, cell, formula)
	c.set(sheet, cell, before)
	return got
}

// beyond are formulas of the kind that the library does not calculate: it
// takes a sum over the comparison of a range for that of its first cell.
var beyond = regexp.MustCompile(`SUMPRODUCT\((--|COUNTIF)`)

// can reports whether the library calculates a cell's formula.
func (c *calculator) can(sheet, cell string) bool {
	return !beyond.MatchString(c.formulas[sheet][cell])
}

func (c *calculator) requireValue(sheet, cell, want string) {
	c.t.Helper()
	got := c.value(sheet, cell)
	require.True(c.t, alike(want, got), "%s!%s %s: want %q, got %q", sheet, cell, c.formulas[sheet][cell], want, got)
}

// alike compares numbers within 1e-9, texts exactly.
func alike(a, b string) bool {
	x, errX := strconv.ParseFloat(a, 64)
	y, errY := strconv.ParseFloat(b, 64)
	if errX == nil && errY == nil {
		return math.Abs(x-y) <= 1e-9*max(1, math.Abs(x))
	}
	return a == b
}

// settle works the formulas of one row out until none changes.
func (c *calculator) settle(sheet string, row int) {
	c.t.Helper()
	cells := slices.DeleteFunc(slices.Clone(c.order[sheet]), func(cell string) bool {
		_, r, err := excelize.CellNameToCoordinates(cell)
		return err != nil || r != row || !c.can(sheet, cell)
	})
	for range 10 {
		changed := false
		for _, cell := range cells {
			if got := c.value(sheet, cell); !alike(got, c.book.stored(sheet, cell)) {
				c.set(sheet, cell, got)
				changed = true
			}
		}
		if !changed {
			return
		}
	}
	require.Fail(c.t, "formulas do not settle", "%s row %d", sheet, row)
}
