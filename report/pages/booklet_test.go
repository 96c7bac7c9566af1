package pages

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

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

// A season of two categories, the lower one flown last, names the category of every number:
// home, season and booklet, whose heading and trends are the season's.
func TestNumbersOfSeveralCategories(t *testing.T) {
	lower := "sequence ladder-sp\n  category sportsman\n  1 K 10\n" + percentFlights("2026-09-01", "ladder-sp", 84, 83, 85, 86)
	l := faultBook(t, percentBook(60, 66, 61, 67, 62, 66, 61)+lower)
	s := season.Selection{Pilot: l.Pilots[0], Season: 2026}
	d := answers.SeasonOf(l, s)
	assert.Contains(t, words.SeasonSentences(d)[2], ", the last flight at intermediate: about ")
	h, err := answers.HomeOf(l, l.Pilots[0])
	require.NoError(t, err)
	home := oneLine(textOf(t, Home(h)))
	assert.Contains(t, home, "Ines Halloran, sportsman ")
	assert.Contains(t, home, " To advanced from intermediate, the highest flown in the last two years: not met: ")
	assert.Contains(t, home, "season mean 71.00% at sportsman and intermediate;")
	book := answers.BookOf(l, s, nil)
	page := oneLine(textOf(t, Booklet(book)))
	assert.Contains(t, page, "Intermediate and sportsman · 11 contest flights ")
	for _, said := range words.SeasonSentences(d) {
		assert.Contains(t, page, said)
	}
	assert.Equal(t, "Plan at intermediate", words.BookletPart(book, "Plan", "intermediate"))
	book.Season.Categories = []string{"intermediate"}
	assert.Equal(t, "Plan", words.BookletPart(book, "Plan", "intermediate"))
}
