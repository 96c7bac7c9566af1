package pages

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report/answers"
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
