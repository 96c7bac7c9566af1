package stats

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// reference reads a data set of testdata/reference, each of which names its
// source.
func reference(t *testing.T, name string, into any) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "reference", name+".json"))
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, into))
	var sourced struct{ Source string }
	require.NoError(t, json.Unmarshal(text, &sourced))
	require.NotEmpty(t, sourced.Source, "%s does not say where it is from", name)
}

// check is one number to be met within tol, absolute.
type check struct {
	name      string
	want, got float64
	tol       float64
}

func runChecks(t *testing.T, checks []check) {
	t.Helper()
	for _, c := range checks {
		// InDelta lets NaN pass for NaN; no check here expects one.
		require.Falsef(t, math.IsNaN(c.got), "%s is NaN", c.name)
		assert.InDelta(t, c.want, c.got, c.tol, c.name)
	}
}

// relative turns a relative tolerance into an absolute one.
func relative(want, tol float64) float64 { return math.Abs(want) * tol }

// tableOf builds a table from rows in which nil is a gap.
func tableOf(rows [][]*float64) Table {
	t := Table{Rows: len(rows)}
	for r, row := range rows {
		t.Columns = max(t.Columns, len(row))
		for c, v := range row {
			if v != nil {
				t.Cells = append(t.Cells, Cell{Row: r, Column: c, Value: *v})
			}
		}
	}
	return t
}

// fullTable builds a table without gaps.
func fullTable(rows [][]float64) Table {
	t := Table{Rows: len(rows)}
	for r, row := range rows {
		t.Columns = max(t.Columns, len(row))
		for c, v := range row {
			t.Cells = append(t.Cells, Cell{Row: r, Column: c, Value: v})
		}
	}
	return t
}

// twoWayTable is the 6 by 5 table with three gaps and a wild 4.0.
func twoWayTable(t *testing.T) Table {
	t.Helper()
	var data struct{ Rows [][]*float64 }
	reference(t, "two_way", &data)
	return tableOf(data.Rows)
}
