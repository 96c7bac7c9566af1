package pages

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season"
)

// A booklet says that an official total is not that of the marks, and tells several
// flights of a day and programme apart.
func TestBookletSaysWhatDiffers(t *testing.T) {
	const sheet = "  sequence s\n  panel A B\n  1 7 7.5\n  2 8 8\n"
	l := faultBook(t, "pilot ines\nsequence s\n  1 K 10\n  2 K 12\nflight 2026-04-18 ines free\n"+sheet+"  official 168.5\nflight 2026-04-18 ines free 2\n"+sheet+"  official 163.5\n")
	page := oneLine(textOf(t, Booklet(answers.BookOf(l, season.Selection{Pilot: l.Pilots[0], Season: 2026}, nil))))
	assert.Contains(t, page, "The official total, 163.5 (74.32%, which the season counts), is 5.00 less than the marks as typed come to")
	assert.NotContains(t, page, "The official total, 168.5")
	assert.Contains(t, page, "2026-04-18 · free 2 · 74.32%")
	assert.Contains(t, page, "2026-04-18 · free · 76.59%")
	assert.Contains(t, page, "Mean 75.45% over 2 contest flights")
}

// The season before stands beside the booklet's, in the words and with the numbers of the
// season's own page; beside a part of a season there is none.
func TestBookletHasTheSeasonBefore(t *testing.T) {
	l := faultBook(t, percentBook(70, 71, 69, 72, 70, 71)+percentFlights("2025-02-01", "known-26", 60, 62, 61, 60, 62, 61))
	s := season.Selection{Pilot: l.Pilots[0], Season: 2026}
	d := answers.SeasonBeside(l, s, 2025)
	said := words.SeasonSentences(d)[0]
	assert.Contains(t, said, "; 2025: 61.00%; on the sequences of both ")
	book := answers.BookOf(l, s, nil)
	assert.Equal(t, d, book.Season)
	page := oneLine(textOf(t, Booklet(book)))
	assert.Contains(t, page, said)
	assert.Contains(t, page, "2025 intermediate 6 61.00 62.00")
	s.Since = l.Flights[0].Date
	assert.Nil(t, answers.BookOf(l, s, nil).Season.Beside)
}
