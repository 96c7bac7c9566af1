package tables

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
)

// A column in which no row has anything is left out, one that says what a row is about
// is not; the table itself stays as it is.
func TestFilledLeavesOutEmptyColumns(t *testing.T) {
	table := &report.Table{
		Key:     1,
		Columns: []report.Column{{Title: "date"}, {Title: "place"}, {Title: "to winner"}, {Title: "noise"}, {Title: "sum"}},
		Rows: [][]report.Cell{
			{report.Empty(), report.Text(""), report.Num(report.Number{}, 2), report.Num(report.Int(0), 1)},
			{report.Empty(), report.Empty(), report.Empty()},
		},
		Footer: [][]report.Cell{{report.Empty(), report.Empty(), report.Empty(), report.Empty(), report.Text("3")}},
	}
	filled := Filled(table)
	var titles []string
	for _, column := range filled.Columns {
		titles = append(titles, column.Title)
	}
	assert.Equal(t, []string{"date", "noise", "sum"}, titles)
	assert.Equal(t, "0.0", filled.Rows[0][1].String())
	assert.Equal(t, "3", filled.Footer[0][2].String())
	assert.Len(t, table.Columns, 5)
	none := &report.Table{Columns: table.Columns}
	assert.Same(t, none, Filled(none), "a table without rows keeps its head")
}
