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

// Flights that are compared and had another aircraft, or none that is named, are said to
// have: with a trend over seasons, a change from one to the next, and a level.
func TestAircraftOfWhatIsCompared(t *testing.T) {
	long := &answers.LongTrend{Category: "sportsman", Since: "2024-01-01", First: "2025-04-12", Seasons: 3, Aircraft: 2, Trend: answers.Trend{
		Word: answers.Improving, N: 16, Season: report.Float(12), Low: report.Float(11), High: report.Float(14), Confidence: report.Float(.9), P: report.Float(.02),
		Contests: &answers.ContestTrend{N: 8, P: report.Float(.05)},
	}}
	d := answers.Season{Pilot: "tove", Longer: long}
	assert.Contains(t, words.LongerSentence(d), "Since 2025-04-12, over 8 contests at sportsman, in two aircraft: improving, ")
	assert.Equal(t, "improving since 2025-04-12 (chance alone: one span like this in 20), in two aircraft", words.PilotForm(answers.PilotLine{Longer: long}))
	long.Aircraft, long.Unnamed = 1, 8
	assert.Contains(t, words.LongerSentence(d), "at sportsman, in one aircraft and 8 flights that name none: improving, ")

	d = answers.Season{Season: 2026, Entered: 8, Mean: report.Float(75), Beside: &answers.Season{Season: 2025, Mean: report.Float(64)}, Change: &answers.SeasonChange{
		Before: 4, After: 4, Change: report.Float(11), Low: report.Float(9), High: report.Float(12), Confidence: report.Float(.91), Beyond: true, OtherAircraft: true,
	}}
	assert.Contains(t, words.SeasonSentences(d)[0], "on the sequences of both, in another aircraft, +11 percentage points")
	d.Change.Unnamed = true
	assert.Contains(t, words.SeasonSentences(d)[0], "on the sequences of both, one season naming no aircraft, +11 percentage points")
	d.Change.OtherAircraft, d.Change.Unnamed = false, false
	assert.Contains(t, words.SeasonSentences(d)[0], "on the sequences of both +11 percentage points")

	d.Level = answers.Level{Of: 16, Percent: report.Float(77), Low: report.Float(76), High: report.Float(78), Confidence: report.Float(.8), AsOf: "2026-08-01", Aircraft: 2}
	d.Level.Next = &answers.Range{Low: report.Float(75), High: report.Float(79)}
	said := words.SeasonSentences(d)
	assert.Contains(t, said[len(said)-1], " and the next flight between 75 and 79%. It goes by flights in two aircraft.")
	assert.Contains(t, words.LevelSentences(d.Level)[0], ", in two aircraft.")
	d.Level.Aircraft = 0
	assert.NotContains(t, words.LevelSentences(d.Level)[0], "aircraft")
	said = words.SeasonSentences(d)
	assert.NotContains(t, said[len(said)-1], "aircraft")

	d = answers.Season{Flights: []answers.SeasonLine{{Date: "2025-04-12"}, {Date: "2026-05-16", Aircraft: "monoplane"}}}
	d.Aircraft = []answers.AircraftSum{{Flights: 1, Mean: report.Float(64)}, {Aircraft: "monoplane", Flights: 1, Mean: report.Float(75)}}
	assert.Equal(t, "aircraft: not named (1 flight on 2025-04-12, mean 64.00% over 1 contest flight); monoplane (1 flight on 2026-05-16, mean 75.00% over 1 contest flight) (sequences, panels may vary)", words.AircraftChange(d))
}
