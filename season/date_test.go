package season_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/internal/testkit"
)

func TestParseDate(t *testing.T) {
	for text, ok := range map[string]bool{
		"2026-04-18": true, "0001-01-01": true, "9999-12-31": true, "1969-12-31": true,
		"2024-02-29": true,  // a leap year
		"2023-02-29": false, // none
		"2000-02-29": true,  // a century that is one
		"1900-02-29": false, // a century that is none
		"2026-04-31": false, "2026-13-01": false, "2026-00-10": false, "2026-01-00": false, "2026-01-32": false,
		"0000-01-01": false, "2026-4-18": false, "26-04-18": false, "2026/04/18": false, "2026-04-18 ": false,
		"2026-04-1x": false, "+026-04-18": false, "": false, "２０２６-04": false,
	} {
		date, got := season.ParseDate(text)
		assert.Equal(t, ok, got, text)
		if ok {
			assert.Equal(t, text, date.String())
		}
	}
}

// Days are counted from 1970-01-01, so that differences are days.
func TestDateIsACountOfDays(t *testing.T) {
	assert.Equal(t, season.Date(0), testkit.Day(t, "1970-01-01"))
	assert.Equal(t, season.Date(-1), testkit.Day(t, "1969-12-31"))
	assert.Equal(t, season.Date(365), testkit.Day(t, "1971-01-01"))
	for _, span := range []struct {
		from, to string
		days     int
	}{
		{"2024-02-28", "2024-03-01", 2}, // a leap year
		{"2023-02-28", "2023-03-01", 1},
		{"2024-01-01", "2025-01-01", 366},
		{"2000-01-01", "2001-01-01", 366},
		{"1900-01-01", "1901-01-01", 365},
		{"2026-03-28", "2026-03-30", 2}, // the clocks change in between
		{"2025-11-25", "2026-11-25", 365},
	} {
		assert.Equal(t, span.days, int(testkit.Day(t, span.to)-testkit.Day(t, span.from)), "%s to %s", span.from, span.to)
	}
}

// Every day of four years and of a century's turn follows the one before and
// reads back as it prints.
func TestDatesFollowEachOther(t *testing.T) {
	for _, span := range [][2]string{{"2023-01-01", "2027-12-31"}, {"1899-12-01", "1901-03-31"}, {"1969-12-01", "1970-02-01"}} {
		next := testkit.Day(t, span[0]).Time()
		for d := testkit.Day(t, span[0]); d <= testkit.Day(t, span[1]); d++ {
			require.Equal(t, next.Format(time.DateOnly), d.String())
			require.Equal(t, d, testkit.Day(t, d.String()))
			require.Equal(t, next.Year(), d.Year())
			next = next.AddDate(0, 0, 1)
		}
	}
}

func TestDateOf(t *testing.T) {
	date, ok := season.DateOf(2024, 2, 29)
	assert.True(t, ok)
	assert.Equal(t, "2024-02-29", date.String())
	for _, d := range [][3]int{{2023, 2, 29}, {2024, 0, 1}, {2024, 13, 1}, {2024, 4, 31}, {2024, 1, 0}, {2024, 1, -1}} {
		_, ok := season.DateOf(d[0], d[1], d[2])
		assert.False(t, ok, d)
	}
}

// Today is the day where the person is, not the day in Greenwich.
func TestDateInItsZone(t *testing.T) {
	east, west := time.FixedZone("east", 13*60*60), time.FixedZone("west", -10*60*60)
	assert.Equal(t, "2026-04-18", season.DateIn(time.Date(2026, 4, 18, 0, 30, 0, 0, east)).String())
	assert.Equal(t, "2026-04-18", season.DateIn(time.Date(2026, 4, 18, 23, 30, 0, 0, west)).String())
}

// A season is named by the year in which it begins.
func TestSeasonNames(t *testing.T) {
	for _, test := range []struct {
		start season.MonthDay
		date  string
		want  int
	}{
		{season.MonthDay{}, "2026-01-01", 2026}, // no season-start: the calendar year
		{season.MonthDay{}, "2026-12-31", 2026},
		{season.MonthDay{Month: 1, Day: 1}, "2026-01-01", 2026},
		{season.MonthDay{Month: 1, Day: 1}, "2025-12-31", 2025},
		{season.MonthDay{Month: 10, Day: 1}, "2026-09-30", 2025}, // a southern summer
		{season.MonthDay{Month: 10, Day: 1}, "2026-10-01", 2026},
		{season.MonthDay{Month: 10, Day: 1}, "2027-01-15", 2026},
		{season.MonthDay{Month: 3, Day: 15}, "2026-03-14", 2025},
		{season.MonthDay{Month: 3, Day: 15}, "2026-03-15", 2026},
		{season.MonthDay{Month: 3, Day: 15}, "2026-02-28", 2025},
		{season.MonthDay{Month: 3, Day: 15}, "2026-04-01", 2026},
		{season.MonthDay{Month: 3, Day: 1}, "2024-02-29", 2023}, // a leap day
		{season.MonthDay{Month: 12, Day: 31}, "2026-12-31", 2026},
		{season.MonthDay{Month: 12, Day: 31}, "2026-12-30", 2025},
	} {
		assert.Equal(t, test.want, test.start.Season(testkit.Day(t, test.date)), "%v %s", test.start, test.date)
	}
}

// A year is meant that a slip of a digit makes of it, else the nearest.
func TestYearMeant(t *testing.T) {
	for _, c := range []struct{ typed, meant int }{
		{2062, 2026}, {2052, 2025}, {2055, 2025}, {2016, 2026}, {2205, 2025}, {2024, 2025}, {2029, 2026}, {1999, 2025}, {2099, 2026},
	} {
		meant, found := season.YearMeant(c.typed, []int{2025, 2026})
		assert.True(t, found)
		assert.Equal(t, c.meant, meant, "%d", c.typed)
	}
	_, found := season.YearMeant(2026, nil)
	assert.False(t, found)
	assert.True(t, season.YearMistyped(2027, 2025))
	assert.False(t, season.YearMistyped(2025, 2025))
	assert.False(t, season.YearMistyped(2038, 2025))
}
