package season_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"boxbook/scoring"
	"boxbook/season"

	"github.com/stretchr/testify/require"
)

// forecastCell is one cell of the calibration of forecasts.
type forecastCell struct {
	flights      int
	contestShare float64 // of the variance between flights
	flightSD     float64 // in figure noise
	unseen       bool    // a group of the new sequence was never flown
}

// The truth behind the simulated pilots, in grades.
const (
	meanDeduction = 3.3
	groupSD       = 0.6
	figureSD      = 0.8
	judgeSD       = 0.5
)

// forecastPilot draws a pilot's flights on three sequences, and the percent
// then flown on a new one.
func forecastPilot(r *rand.Rand, c forecastCell) (*season.Ledger, *season.Pilot, *season.Sequence, float64) {
	betas := map[string]float64{}
	for _, g := range season.Groups {
		betas[g] = meanDeduction + groupSD*r.NormFloat64()
	}
	flown := season.Groups
	if c.unseen {
		flown = season.Groups[:len(season.Groups)-1]
	}
	pilot := &season.Pilot{Handle: "ines"}
	l := &season.Ledger{AsOf: 20000}
	var sequences []*season.Sequence
	for range 3 {
		sequences = append(sequences, drawSequence(r, flown, ""))
	}
	between := c.flightSD * figureSD
	contestSD, ownSD := between*math.Sqrt(c.contestShare), between*math.Sqrt(1-c.contestShare)
	contest, effect := (*season.Contest)(nil), 0.0
	for i := range c.flights {
		if i%2 == 0 || c.contestShare == 0 {
			contest, effect = &season.Contest{Handle: fmt.Sprint("contest-", i)}, contestSD*r.NormFloat64()
		}
		f := drawFlight(r, pilot, sequences[i%3], betas, effect+ownSD*r.NormFloat64())
		f.Contest, f.Date = contest, season.Date(19700+10*i)
		l.Flights = append(l.Flights, f)
	}
	must := ""
	if c.unseen {
		must = season.Groups[len(season.Groups)-1]
	}
	next := drawSequence(r, season.Groups[:len(season.Groups)-1], must)
	f := drawFlight(r, pilot, next, betas, contestSD*r.NormFloat64()+ownSD*r.NormFloat64())
	percent, _ := f.Score().Percent.Float64()
	return l, pilot, next, percent
}

func drawSequence(r *rand.Rand, groups []string, must string) *season.Sequence {
	s := &season.Sequence{Handle: "s"}
	for i := range 12 {
		n := 1 + r.IntN(3)
		figure := season.Figure{}
		for e := range n {
			group := groups[r.IntN(len(groups))]
			if must != "" && i == 0 && e == 0 {
				group = must
			}
			k := 4 + r.IntN(12)
			figure.Elements = append(figure.Elements, season.Element{Code: group, Group: group, K: k, Parts: 1})
			figure.K += k
		}
		s.Figures = append(s.Figures, figure)
	}
	return s
}

// drawFlight marks a flight by a panel of seven, in half points.
func drawFlight(r *rand.Rand, p *season.Pilot, s *season.Sequence, betas map[string]float64, effect float64) *season.Flight {
	f := &season.Flight{Pilot: p, Sequence: s, Programme: season.Known, Category: "a", Style: &season.RuleStyle{}}
	for range 7 {
		f.Panel = append(f.Panel, fmt.Sprint("J", len(f.Panel)))
	}
	for _, figure := range s.Figures {
		deduction := effect + figureSD*math.Sqrt(15/float64(figure.K))*r.NormFloat64()
		for _, e := range figure.Elements {
			deduction += betas[e.Group] * float64(e.K) / float64(figure.K)
		}
		row := season.Row{}
		for range f.Panel {
			half := math.Round(2 * (10 - deduction + judgeSD*r.NormFloat64()))
			row.Marks = append(row.Marks, scoring.GradeOf(int(min(20, max(0, half)))))
		}
		f.Rows = append(f.Rows, row)
	}
	return f
}

// forecastSeasons is how many pilots a cell has.
func forecastSeasons() int {
	if *longSimulation {
		return 400
	}
	return 12
}

// The 80 % range of a forecast holds the percent then flown in 77 to 84 % of
// cases, in every cell; each cell is allowed three standard errors of its own
// number of pilots, all cells together are held to one.
func TestSimulationForecast(t *testing.T) {
	cell, all := 600, rate{}
	n := forecastSeasons()
	for _, flights := range []int{8, 12, 20} {
		for _, share := range []float64{0, 0.3} {
			for _, sd := range []float64{0.1, 0.5, 1} {
				for _, unseen := range []bool{false, true} {
					cell++
					inside, width := forecastCellRate(randomness(cell), forecastCell{flights, share, sd, unseen}, n)
					what := fmt.Sprintf("%2d flights, contest share %2.0f %%, flight effect %.1f of a figure's noise, unseen %v", flights, 100*share, sd, unseen)
					t.Logf("%-84s %s, mean width %.1f", what, inside, width)
					allowed := 3 * math.Sqrt(0.8*0.2/float64(n))
					require.GreaterOrEqual(t, inside.share(), 0.77-allowed, what)
					require.LessOrEqual(t, inside.share(), 0.84+allowed, what)
					all.hits, all.n = all.hits+inside.hits, all.n+inside.n
				}
			}
		}
	}
	t.Logf("all cells: %s", all)
	allowed := math.Sqrt(0.8 * 0.2 / float64(all.n))
	require.InDelta(t, 0.805, all.share(), 0.035+allowed)
}

// forecastCellRate counts how often the range held the truth, and its mean
// width in percent.
func forecastCellRate(r *rand.Rand, c forecastCell, n int) (inside rate, width float64) {
	for range n {
		l, p, next, percent := forecastPilot(r, c)
		a := l.ForecastOf(p, next)
		inside.add(a.Told && percent >= a.Low && percent <= a.High)
		width += (a.High - a.Low) / float64(n)
	}
	return inside, width
}
