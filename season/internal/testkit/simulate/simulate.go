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

// Flight is one flight of a season: its day, contest and sequence as numbers,
// and its value.
type Flight struct {
	Day      float64
	Contest  int
	Sequence int
	Value    float64
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

// Families says how a season by family is made, without any change but Rise: every
// flight has Figures[g] figures of family g, each with FigureSD about the
// pilot's level in percent points, and a family's value is its mean against
// that of the rest of the flight. ContestSD is what a contest adds to one family,
// SequenceSD how sequences differ for one family; with TwoSequences the second
// half of the season is flown on another sequence.
type Families struct {
	Figures      []int
	Flights      int
	PerContest   int
	FigureSD     float64
	ContestSD    float64
	SequenceSD   float64
	TwoSequences bool
	// Rise is how much the first family rises over the season, in standard
	// deviations of its value in a flight without contest effects.
	Rise float64
}

// Make draws the values by family.
func (f Families) Make(r *rand.Rand) [][]Flight {
	groups := make([][]Flight, len(f.Figures))
	all := 0
	for _, n := range f.Figures {
		all += n
	}
	for g := range groups {
		sd := f.FigureSD * math.Sqrt(1/float64(f.Figures[g])+1/float64(all-f.Figures[g]))
		level := []float64{f.SequenceSD * r.NormFloat64(), f.SequenceSD * r.NormFloat64()}
		flights := Season{Flights: f.Flights, PerContest: f.PerContest, SD: sd}.Make(r)
		rise := 0.0
		if g == 0 {
			rise = f.Rise * sd
		}
		effects := map[int]float64{}
		for i := range flights {
			fl := &flights[i]
			if _, ok := effects[fl.Contest]; !ok {
				effects[fl.Contest] = f.ContestSD * r.NormFloat64()
			}
			if f.TwoSequences && i >= len(flights)/2 {
				fl.Sequence = 1
			}
			fl.Value += effects[fl.Contest] + level[fl.Sequence] + rise*fl.Day/seasonDays
		}
		groups[g] = flights
	}
	return groups
}
