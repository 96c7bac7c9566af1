package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// sheetOf is a table like a score sheet's: what names the rows is wrapped, and a few rows
// have a cell in the last columns alone.
func sheetOf(judges int) *Table {
	t := &Table{Key: 2, Columns: []Column{{Title: "fig", Align: Right}, {Title: "figure", Wrapped: true, Min: 10}}}
	row, total := []Cell{Empty(), Text("positioning")}, []Cell{Empty(), Text("less penalty, low"), Text("20.00")}
	for range judges {
		t.Columns = append(t.Columns, Column{Title: "judge A", Align: Right})
		row = append(row, Text("7.5"))
	}
	t.Rows, t.Footer = [][]Cell{row, total}, [][]Cell{total}
	return t
}

func TestNoWordOfALabelIsBroken(t *testing.T) {
	drawn := strings.Join(newGrid(sheetOf(5)).lines(60, 0, false), "\n")
	assert.Contains(t, drawn, "positioning")
	assert.NotContains(t, drawn, "positionin\n")
}

func TestAFurtherPartHasTheRowsThatHaveACellInIt(t *testing.T) {
	drawn := strings.Join(newGrid(sheetOf(14)).lines(60, 0, false), "\n")
	first, second, split := strings.Cut(drawn, "\n\n")
	assert.True(t, split)
	assert.Contains(t, first, "penalty")
	assert.NotContains(t, second, "penalty")
	assert.Contains(t, second, "positioning")
}

func TestAFurtherPartWithoutACellIsLeftOut(t *testing.T) {
	table := sheetOf(14)
	for _, row := range append(table.Rows, table.Footer...) {
		for i := 6; i < len(row); i++ {
			row[i] = Empty()
		}
	}
	assert.NotContains(t, strings.Join(newGrid(table).lines(60, 0, false), "\n"), "\n\n")
}
