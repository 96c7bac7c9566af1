package words

import (
	"fmt"

	"boxbook/season"
)

// AllSeasons is what the head line says where no period was chosen.
const AllSeasons = "all seasons"

// SeasonChosen says a season that was chosen.
func SeasonChosen(year int) string { return fmt.Sprintf("season %d", year) }

// YearChosen says a calendar year that was chosen.
func YearChosen(year int) string { return fmt.Sprintf("year %d", year) }

// SinceChosen says the first day of a span that was chosen.
func SinceChosen(d season.Date) string { return "since " + d.String() }

// UntilChosen says the last day of a span that was chosen.
func UntilChosen(d season.Date) string { return "until " + d.String() }
