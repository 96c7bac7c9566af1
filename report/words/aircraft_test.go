package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// A change of aircraft within a season is said with the flights of each; where there is
// none, nothing is, and the flights' aircraft stands for the pilot's own of today.
func TestAircraftOfASeason(t *testing.T) {
	d := answers.Season{Flights: []answers.SeasonLine{
		{Date: "2026-04-18", Aircraft: "biplane, 200 hp"},
		{Date: "2026-05-02"},
		{Date: "2026-05-16", Aircraft: "monoplane, 300 hp"},
		{Date: "2026-05-17", Aircraft: "monoplane, 300 hp"},
	}}
	assert.Equal(t, "aircraft: biplane, 200 hp (1 flight on 2026-04-18); monoplane, 300 hp (2 flights from 2026-05-16 to 2026-05-17)", words.AircraftChange(d))
	assert.Equal(t, "biplane, 200 hp (1 flight); monoplane, 300 hp (2 flights)", words.AircraftFlown(d, "glider"))
	assert.Equal(t, "monoplane, 300 hp", words.AircraftRemark(d, answers.Flight{Aircraft: "monoplane, 300 hp"}))
	d.Aircraft = []answers.AircraftSum{{Aircraft: "biplane, 200 hp", Flights: 1, Mean: report.Float(61), Categories: []string{"sportsman"}}, {Aircraft: "monoplane, 300 hp", Flights: 2, Mean: report.Float(72.345), Categories: []string{"intermediate"}}}
	assert.Equal(t, "aircraft: biplane, 200 hp (1 flight on 2026-04-18, mean 61.00% over 1 contest flight); monoplane, 300 hp (2 flights from 2026-05-16 to 2026-05-17, mean 72.35% over 2 contest flights) (sequences, panels may vary)", words.AircraftChange(d))
	d.Categories = []string{"sportsman", "intermediate"}
	assert.Contains(t, words.AircraftChange(d), "mean 61.00% over 1 contest flight at sportsman)")
	d.Flights = d.Flights[:2]
	assert.Empty(t, words.AircraftChange(d))
	assert.Empty(t, words.AircraftRemark(d, answers.Flight{Aircraft: "biplane, 200 hp"}))
	assert.Equal(t, "biplane, 200 hp", words.AircraftFlown(d, "glider"))
	assert.Equal(t, "glider", words.AircraftFlown(answers.Season{}, "glider"))
}
