package words

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/report/answers"
)

// aircraftFlown is one aircraft of a season's flights: how many had it, from which day
// to which.
type aircraftFlown struct {
	name        string
	flights     int
	first, last string
}

// aircraftOf are the aircraft of a season's flights, as far as they are known, in the
// order flown; among them those that name none, where these come before or after the
// others.
func aircraftOf(d answers.Season) []aircraftFlown {
	unnamed := slices.ContainsFunc(d.Aircraft, func(a answers.AircraftSum) bool { return a.Aircraft == "" })
	var flown []aircraftFlown
	for _, f := range d.Flights {
		if f.Aircraft == "" && !unnamed {
			continue
		}
		i := slices.IndexFunc(flown, func(a aircraftFlown) bool { return a.name == f.Aircraft })
		if i < 0 {
			i, flown = len(flown), append(flown, aircraftFlown{name: f.Aircraft, first: f.Date})
		}
		flown[i].flights, flown[i].last = flown[i].flights+1, f.Date
	}
	return flown
}

// noAircraft stands for the aircraft of flights that name none.
const noAircraft = "not named"

// aircraftOfFlights says in how many aircraft flights were flown that are compared, and how
// many of them name none; "" where there is nothing to say.
func aircraftOfFlights(named, unnamed int) string {
	switch {
	case unnamed > 0:
		return fmt.Sprintf("in %s aircraft and %s none", NumberWord(named), Counted(unnamed, "flight that names", "flights that name"))
	case named > 1:
		return "in " + NumberWord(named) + " aircraft"
	default:
		return ""
	}
}

// behind is a text with what stands before it, "" where there is none.
func behind(before, text string) string {
	if text == "" {
		return ""
	}
	return before + text
}

// AircraftChange says which flights had which aircraft and the mean of each, "" where all
// had the same.
func AircraftChange(d answers.Season) string {
	flown := aircraftOf(d)
	if len(flown) < 2 {
		return ""
	}
	said := make([]string, len(flown))
	for i, a := range flown {
		days := "on " + a.first
		if a.last != a.first {
			days = "from " + a.first + " to " + a.last
		}
		said[i] = fmt.Sprintf("%s (%s %s%s)", cmp.Or(a.name, noAircraft), Counted(a.flights, "flight", "flights"), days, aircraftMean(d, a.name))
	}
	text := "aircraft: " + strings.Join(said, "; ")
	if len(d.Aircraft) > 1 {
		text += othersMayDiffer
	}
	return text
}

// aircraftMean is the mean of the flights in an aircraft that enter the season's figures, in
// which categories where the season has several; "" where none does.
func aircraftMean(d answers.Season, aircraft string) string {
	i := slices.IndexFunc(d.Aircraft, func(a answers.AircraftSum) bool { return a.Aircraft == aircraft })
	if i < 0 || !d.Aircraft[i].Mean.Known() {
		return ""
	}
	a := d.Aircraft[i]
	text := fmt.Sprintf(", mean %s%% over %s", a.Mean.Text(PercentDecimals), Counted(a.Flights, "contest flight", "contest flights"))
	if len(d.Categories) > 1 {
		text += " " + AtCategory(ListInWords(a.Categories))
	}
	return text
}

// AircraftFlown names the aircraft of a season's flights, each with how many had it
// where they differ; the pilot's own where no flight has one.
func AircraftFlown(d answers.Season, own string) string {
	flown := aircraftOf(d)
	switch len(flown) {
	case 0:
		return own
	case 1:
		return flown[0].name
	}
	said := make([]string, len(flown))
	for i, a := range flown {
		said[i] = fmt.Sprintf("%s (%s)", cmp.Or(a.name, noAircraft), Counted(a.flights, "flight", "flights"))
	}
	return strings.Join(said, "; ")
}

// AircraftRemark is a flight's aircraft where the season's flights differ in it, ""
// where they do not.
func AircraftRemark(d answers.Season, f answers.Flight) string {
	if len(aircraftOf(d)) < 2 {
		return ""
	}
	return f.Aircraft
}
