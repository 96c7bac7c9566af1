package simulate

import (
	"fmt"
	"math"
	"math/rand/v2"
)

// Noise are standard deviations, in grades: of what the groups cost about their
// mean, of contests and flights on all figures alike, of a figure of K 15 (its
// variance goes with 1/K), and of a judge about the panel.
type Noise struct {
	Levels, Contest, Flight, Figure, Judge float64
}

const commonK = 15

// Pilot is what the elements of each group cost a pilot, in grades off ten.
type Pilot struct {
	Costs []float64
	Noise Noise
}

// NewPilot draws the pilot's true levels about a mean cost.
func NewPilot(r *rand.Rand, mean float64, noise Noise) *Pilot {
	p := &Pilot{Costs: make([]float64, levels), Noise: noise}
	for i := range p.Costs {
		p.Costs[i] = mean + noise.Levels*r.NormFloat64()
	}
	return p
}

// ContestEffect draws what a contest costs on every figure.
func (p *Pilot) ContestEffect(r *rand.Rand) float64 { return p.Noise.Contest * r.NormFloat64() }

// Fly gives the deductions of a flight, a line of the sequence each, at a
// contest with the given effect.
func (p *Pilot) Fly(r *rand.Rand, s *Sequence, contest float64) []float64 {
	day := contest + p.Noise.Flight*r.NormFloat64()
	var deductions []float64
	for _, line := range s.Lines() {
		d := day + p.Noise.Figure*math.Sqrt(commonK/line.K)*r.NormFloat64()
		for level, share := range line.Shares {
			d += share * p.Costs[level]
		}
		deductions = append(deductions, d)
	}
	return deductions
}

// Judge turns deductions into a panel's grades in half points, a row a line.
func (p *Pilot) Judge(r *rand.Rand, deductions []float64, judges int) [][]int {
	var rows [][]int
	for _, d := range deductions {
		row := make([]int, judges)
		for j := range row {
			grade := 10 - d + p.Noise.Judge*r.NormFloat64()
			row[j] = int(math.Round(2 * math.Min(10, math.Max(0, grade))))
		}
		rows = append(rows, row)
	}
	return rows
}

// MeanGrades are the means of rows of grades in half points.
func MeanGrades(rows [][]int) []float64 {
	means := make([]float64, len(rows))
	for i, row := range rows {
		sum := 0
		for _, half := range row {
			sum += half
		}
		means[i] = float64(sum) / float64(2*len(row))
	}
	return means
}

// Flown is one flight by figure: its day, contest and sequence, the deductions,
// and the grades where a panel gave them.
type Flown struct {
	Day, Contest int
	Sequence     *Sequence
	Deductions   []float64
	Grades       [][]int
}

// Career says how the flights behind a forecast are made: each third of them on
// the known sequence, a free one, and an unknown, each unknown another one. The
// group Never is in none of them and in the sequence that is forecast; -1 for
// none. With Judges above 0 a panel grades.
type Career struct {
	Flights, PerContest int
	MeanCost            float64
	Noise               Noise
	Never               int
	Judges              int
}

// sequenceFigures is how many figures a sequence of a career has.
const sequenceFigures = 10

// Make draws a pilot, the pilot's flights, and the sequence to be forecast.
func (c Career) Make(r *rand.Rand) (*Pilot, []Flown, *Sequence) {
	p := NewPilot(r, c.MeanCost, c.Noise)
	var first, second, never []int
	for group := range Groups {
		switch {
		case group == c.Never:
			never = []int{group}
		case group < 8:
			first = append(first, group)
		default:
			second = append(second, group)
		}
	}
	sequences := []*Sequence{Draw(r, "known", sequenceFigures, first, c.Never), Draw(r, "free", sequenceFigures, second, c.Never)}
	var flights []Flown
	effect := 0.0
	for i := range c.Flights {
		if i%c.PerContest == 0 {
			effect = p.ContestEffect(r)
		}
		f := Flown{Day: 21*(i/c.PerContest) + i%c.PerContest, Contest: i / c.PerContest}
		if f.Sequence = sequences[0]; i%3 == 1 {
			f.Sequence = sequences[1]
		} else if i%3 == 2 {
			f.Sequence = Draw(r, fmt.Sprint("unknown-", i), sequenceFigures, nil, c.Never)
		}
		f.Deductions = p.Fly(r, f.Sequence, effect)
		if c.Judges > 0 {
			f.Grades = p.Judge(r, f.Deductions, c.Judges)
		}
		flights = append(flights, f)
	}
	return p, flights, Draw(r, "next", sequenceFigures, never, -1)
}
