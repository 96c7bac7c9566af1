package pages

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/season"
)

// A programme of two sequences is seen on the season's page, and with all of it, in csv and
// in JSON of which each flight is.
func TestSeasonShowsSequences(t *testing.T) {
	l := faultBook(t, `
pilot ines
sequence old
  category sportsman
  programme known
  1 K 10
sequence new
  category sportsman
  programme known
  1 K 10
flight 2026-05-10 ines known
  sequence old
  official 70 of 100
flight 2026-06-10 ines known
  sequence new
  official 60 of 100
`)
	d := answers.SeasonOf(l, season.Selection{Pilot: l.Pilots[0], Season: 2026})
	const note = "- more than one sequence: known of old (1 flight) and new (1 flight)"
	brief, whole := textOf(t, Season(d, false)), textOf(t, Season(d, true))
	assert.Contains(t, brief, note)
	assert.NotRegexp(t, `programme.*sequence`, brief)
	assert.Contains(t, whole, note)
	assert.Regexp(t, `(?m)^date .* sequence$`, whole)
	assert.Regexp(t, `(?m)^2026-06-10 .* new$`, whole)
	csv := tables.SeasonData(d)
	at := len(csv.Columns) - 2
	assert.Equal(t, "sequence", csv.Columns[at].Key)
	assert.Equal(t, "old", csv.Rows[0][at].String())
	assert.Len(t, csv.Rows[0], len(csv.Columns))
	assert.Equal(t, []string{"old", "new"}, []string{d.Flights[0].Sequence, d.Flights[1].Sequence})
}
