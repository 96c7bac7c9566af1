package pages

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
	"boxbook/season"
)

// A season ends with what is ahead: contests with their entry's last day and
// whether their sequence is typed, and what runs out; without either there is no
// such part.
func TestSeasonShowsWhatIsAhead(t *testing.T) {
	book := `
pilot ines
  expires medical 2026-12-20 "booked"
  expires parachute 2026-11-20
  expires licence 2028-01-01
coach marek
contest harbour-cup 2027-05-08..2027-05-09
  name "Harbour Cup"
  enter-by 2026-11-24
contest spring 2027-04-17
sequence known-27
  category sportsman
  1 7.4.1.1:10
`
	page := func(book string) (string, answers.Season) {
		l := faultBook(t, book)
		l.AsOf, _ = season.ParseDate("2026-11-25")
		d := answers.SeasonOf(l, season.Selection{Pilot: l.Pilots[0]})
		return textOf(t, Season(d, true)), d
	}
	text, d := page(book)
	assert.Contains(t, text, `
Ahead

date        contest             when  entry by
──────────────────────────────────────────────────────
2027-04-17  spring       in 143 days
2027-05-08  Harbour Cup  in 164 days  2026-11-24, over

expires within 60 days
what       expires           when  remark
─────────────────────────────────────────
parachute  2026-11-20  5 days ago
medical    2026-12-20  in 25 days  booked`)
	encoded, err := json.Marshal(map[string]any{"ahead": d.Ahead[1:], "expires": d.Expires[1:], "days": d.Limits.ExpiryDays})
	require.NoError(t, err)
	assert.JSONEq(t, `{"days": 60,
		"ahead": [{"contest": "harbour-cup", "name": "Harbour Cup", "date": "2027-05-08", "days": 164, "entryDay": "2026-11-24", "entryDays": -1}],
		"expires": [{"what": "medical", "date": "2026-12-20", "days": 25, "remark": "booked"}]}`, string(encoded))

	flown := "flight 2026-04-18 ines known\n  category sportsman\n  official 60 of 100\n"
	text, _ = page(book + flown)
	assert.Contains(t, text, "2027-04-17  spring       in 143 days                    known-27\n")
	text, _ = page(book + "flight 2026-04-18 ines known\n  category advanced\n  official 60 of 100\n")
	assert.Contains(t, text, "2027-04-17  spring       in 143 days                    not typed yet\n")

	l := faultBook(t, book+flown)
	for _, past := range []season.Selection{{Season: 2025}, {Contest: l.Contests[0]}} {
		past.Pilot = l.Pilots[0]
		assert.Empty(t, answers.SeasonOf(l, past).Ahead, "a page about the past")
	}
	then := season.Selection{Pilot: l.Pilots[0], Until: l.AsOf - 100}
	assert.Equal(t, 237, answers.SeasonOf(l, then).Ahead[0].Days, "from the day that is asked about")
	text, d = page("pilot ines\ncoach marek\n" + flown)
	assert.NotContains(t, text, "Ahead")
	assert.Empty(t, d.Ahead)
	assert.Empty(t, d.Expires)
}
