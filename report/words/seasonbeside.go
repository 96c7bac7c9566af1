package words

import (
	"fmt"
	"slices"
	"strconv"

	"boxbook/report/answers"
)

// ColumnSeason is the title of the column of seasons side by side.
const ColumnSeason = "season"

// BesideHeading names the season beside the page's.
func BesideHeading(d answers.Season) string {
	return fmt.Sprintf("Beside %s", SeasonChosen(d.Beside.Season))
}

// SeasonNumber is the year of a season.
func SeasonNumber(d answers.Season) string { return strconv.Itoa(d.Season) }

// LevelRangeTitle is the title of the column of the levels' ranges.
func LevelRangeTitle(d answers.Season) string {
	confidence := d.Level.Confidence
	if !confidence.Known() {
		confidence = d.Beside.Level.Confidence
	}
	if !confidence.Known() {
		return "range"
	}
	return Confidence(confidence) + " range"
}

// LevelRange is the range of a level, "" where there is none.
func LevelRange(l answers.Level) string {
	if !l.Percent.Known() {
		return ""
	}
	return LevelRangeOf(l).Ends()
}

// BesideNotes say what the numbers of two seasons are of.
func BesideNotes(d answers.Season) []string {
	notes := []string{"mean and best: of counted results, practice and void flights apart"}
	if level := levelDays(d); level != "" {
		notes = append(notes, level)
	}
	if d.Entered > 0 && d.Beside.Entered > 0 && !slices.Equal(d.Categories, d.Beside.Categories) {
		notes = append(notes, "not the same categories: each is judged by its own standard, so the means cannot be compared")
	}
	return notes
}

// levelDays say for which days the levels are, "" where there is none.
func levelDays(d answers.Season) string {
	var days []string
	for _, s := range []answers.Season{d, *d.Beside} {
		if s.Level.Percent.Known() {
			days = append(days, s.Level.On)
		}
	}
	if len(days) == 0 {
		return ""
	}
	return "level: where the pilot stood on " + ListInWords(days)
}
