package pages

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Two flights of a day can be told apart in each part of a table that is split; where each
// day has one, the date does that alone.
func TestFlightsOfADayInEachPart(t *testing.T) {
	book := `pilot ines
sequence intermediate-unknown-redbank
  category intermediate
  1 K 100
contest redbank 2026-06-27..2026-06-28
  name "Redbank Midsummer Trophy of All"
flight 2026-06-27 ines known
  contest redbank
  sequence intermediate-unknown-redbank
  official 650.25 of 1000
  place 2 of 3
  field 750 650.25 600
flight 2026-06-27 ines unknown
  contest redbank
  sequence intermediate-unknown-redbank
  official 680.25 of 1000
  place 3 of 3
  field 790 700 680.25
`
	second := func(book string) string {
		text := seasonText(t, book)
		text = text[strings.Index(text, "Flights\n"):]
		_, rest, found := strings.Cut(text, "\n\ndate ")
		require.True(t, found, text)
		_, rest, found = strings.Cut(rest, "\n\ndate ")
		require.True(t, found, text)
		return rest
	}
	text := second(book)
	assert.Contains(t, text, "2026-06-27  known")
	assert.Contains(t, text, "2026-06-27  unknown")
	text = second(strings.Replace(book, "flight 2026-06-27 ines unknown", "flight 2026-06-28 ines unknown", 1))
	assert.NotContains(t, text, "2026-06-27  known")
}
