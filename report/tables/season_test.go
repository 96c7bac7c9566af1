package tables

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
)

// The notes explain the columns that the table has: a median that no flight has is none.
func TestSeasonNotesOfItsColumns(t *testing.T) {
	d := answers.Season{Flights: []answers.SeasonLine{{Flight: "2026-05-16/ines/known", ToWinner: report.Int(-55)}}}
	assert.Equal(t, "to winner: points behind (-) or ahead (+), blank where not typed", SeasonNotes(d, false).Items[0].Text)
	d.Flights[0].ToMedian = report.Int(0)
	assert.Equal(t, "to winner, to median: points behind (-) or ahead (+), blank where not typed", SeasonNotes(d, false).Items[0].Text)
}
