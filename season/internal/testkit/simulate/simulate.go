// Package simulate makes seasons whose truth is known, to see what the verdicts
// of package season say of them. It is written apart from the code that it
// tests and imports nothing of the house: days, contests, strata and values
// come out, and the test turns them into what the code under test reads. The
// sizes of noise are assumptions, not contest data.
package simulate

import (
	"math"
	"math/rand/v2"
)

// Flight is one flight of a season: its day and contest as numbers, and its value.
type Flight struct {
	Day     float64
	Contest int
	Value   float64
}

// Season says how a season of whole flights is made: Flights in contests of
// PerContest, ContestShare of the variance of a single flight (which is SD^2)
// being common to a contest, and a Rise over the season in the unit of SD.
type Season struct {
	Flights      int
	PerContest   int
	ContestShare float64
	SD           float64
	Rise         float64
	Mean         float64
}

// seasonDays is how long a season lasts.
const seasonDays = 160

// Make draws one season. Contests are spread over the season, flights of one
// contest lie a day apart.
func (s Season) Make(r *rand.Rand) []Flight {
	contests := (s.Flights + s.PerContest - 1) / s.PerContest
	between, within := s.SD*math.Sqrt(s.ContestShare), s.SD*math.Sqrt(1-s.ContestShare)
	var flights []Flight
	for c := range contests {
		day := float64(c) * seasonDays / float64(max(1, contests-1))
		effect := between * r.NormFloat64()
		for f := 0; f < s.PerContest && len(flights) < s.Flights; f++ {
			at := day + float64(f)
			value := s.Mean + s.Rise*s.SD*(at/seasonDays) + effect + within*r.NormFloat64()
			flights = append(flights, Flight{Day: at, Contest: c, Value: value})
		}
	}
	return flights
}
