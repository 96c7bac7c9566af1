package season_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/season"
	"boxbook/season/internal/testkit"
)

// A judge's zero that was dropped as the lowest mark, or filled, is in no mean; a
// second one is.
func TestZeroStood(t *testing.T) {
	for marks, want := range map[string]map[string]bool{
		"PZ 7 6.5 7 6": {"drop-extremes": false, "panel-mean": true},
		"PZ PZ 7 7 6":  {"drop-extremes": true, "panel-mean": true},
		"HZ 7 7 7 6":   {"drop-extremes": false, "panel-mean": false},
		"7 7 7 7 6":    {"drop-extremes": false, "panel-mean": false},
	} {
		for rules, stood := range want {
			l := testkit.BookOf(t, "pilot ines\nsequence one\n  1 1.1.1.1:10\nflight 2026-05-01 ines known\n  sequence one\n  rules "+rules+"\n  panel A B C D E\n  1 "+marks+"\n")
			f := l.Flights[0]
			assert.Equal(t, stood, season.ZeroStood(f.Rows.Marks(0), f.FigureScore(0)), "%s: %s", rules, marks)
			assert.False(t, season.Zeroed(f.Rows.Marks(0), f.FigureScore(0)), "the panel gave a grade")
		}
	}
}
