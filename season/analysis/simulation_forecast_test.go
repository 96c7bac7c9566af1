package analysis_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit/simulate"
	"boxbook/season/stats"
)

// The noise of the forecasts' pilots, in grades: assumptions. A flight's effect
// is a share of the figure's noise.
const (
	meanCost   = 2.5
	levelSD    = 0.4
	figureSD   = 0.8
	judgeSD    = 0.5
	panelSize  = 5
	neverFlown = 11 // the place of 9.10 among the groups
	normal80   = 1.2815515655446004
)

// forecastCell says how a cell's pilots fly: contestShare of the variance
// between flights is the contests'.
type forecastCell struct {
	flights, perContest int
	contestShare        float64
	flightRatio         float64 // SD between flights over that of a figure
	never               bool
}

func (c forecastCell) career(judges int) simulate.Career {
	between, never := c.flightRatio*figureSD, -1
	if c.never {
		never = neverFlown
	}
	return simulate.Career{
		Flights: c.flights, PerContest: c.perContest, MeanCost: meanCost, Never: never, Judges: judges,
		Noise: simulate.Noise{
			Levels: levelSD, Contest: between * math.Sqrt(c.contestShare), Flight: between * math.Sqrt(1-c.contestShare),
			Figure: figureSD, Judge: judgeSD,
		},
	}
}

func (c forecastCell) String() string {
	groups := "all flown"
	if c.never {
		groups = "one never"
	}
	return fmt.Sprintf("%2d flights, %d a contest, contest %2.0f %%, flight/figure %.1f, %s", c.flights, c.perContest, 100*c.contestShare, c.flightRatio, groups)
}

// forecastCells are the cells of the table; the short form has the extremes at
// eight flights.
func forecastCells() []forecastCell {
	var cells []forecastCell
	for _, perContest := range []int{1, 2, 3} {
		for _, flights := range []int{8, 12, 20} {
			for _, share := range []float64{0, 0.3} {
				for _, ratio := range []float64{0.1, 0.3, 1} {
					for _, never := range []bool{false, true} {
						c := forecastCell{flights, perContest, share, ratio, never}
						onlyLong := flights != 8 || perContest != 2 || ratio == 0.3
						same := perContest == 1 && share > 0 // one flight a contest: the two are one effect
						if (*longSimulation || !onlyLong) && !same {
							cells = append(cells, c)
						}
					}
				}
			}
		}
	}
	return cells
}

// forecastTally sums a cell's seasons: how often the range held the percent then
// flown, how often that made with the true variances did, and their widths.
type forecastTally struct {
	inside, insideTrue rate
	width, widthTrue   float64
}

func (t *forecastTally) merge(o forecastTally) {
	for _, r := range []struct{ into, from *rate }{{&t.inside, &o.inside}, {&t.insideTrue, &o.insideTrue}} {
		r.into.hits, r.into.n = r.into.hits+r.from.hits, r.into.n+r.from.n
	}
	t.width, t.widthTrue = t.width+o.width, t.widthTrue+o.widthTrue
}

// eachSeason runs the seasons of a cell on all cores, each season with its own
// source of chance, and merges in a fixed order.
func eachSeason(cell, n int, one func(r *rand.Rand, t *forecastTally)) forecastTally {
	tallies := make([]forecastTally, n)
	var wait sync.WaitGroup
	workers := runtime.GOMAXPROCS(0)
	for w := range workers {
		wait.Go(func() {
			for i := w; i < n; i += workers {
				one(rand.New(rand.NewPCG(simulateSeed+uint64(cell), uint64(i))), &tallies[i])
			}
		})
	}
	wait.Wait()
	var all forecastTally
	for _, t := range tallies {
		all.merge(t)
	}
	return all
}

// mixedOf is the forecast's model of a pilot's flights, made here anew: a value
// a line, its deduction, weighted by K over 15.
func mixedOf(flights []simulate.Flown, deductions func(simulate.Flown) []float64) (data stats.MixedData, contests int) {
	for i, f := range flights {
		values := deductions(f)
		for j, line := range f.Sequence.Lines() {
			data.Y, data.Weights = append(data.Y, values[j]), append(data.Weights, line.K/15)
			data.Shares = append(data.Shares, line.Shares)
			data.Inner, data.Outer = append(data.Inner, i), append(data.Outer, f.Contest)
		}
		contests = f.Contest + 1
	}
	if contests == len(flights) {
		data.Outer = nil
	}
	return data, contests
}

func nextOf(next *simulate.Sequence) stats.NewValue {
	v := stats.NewValue{Shares: make([]float64, len(next.Lines()[0].Shares))}
	k := 0.0
	for _, line := range next.Lines() {
		k += line.K
	}
	for _, line := range next.Lines() {
		part := line.K / k
		for j, share := range line.Shares {
			v.Shares[j] += part * share
		}
		v.ErrorWeight += part * part / (line.K / 15)
	}
	return v
}

// knownRange is the same prediction by one who knows the variances (slopes,
// contests, flights, figures): Henderson's equations, written out here.
func knownRange(d stats.MixedData, v stats.NewValue, n simulate.Noise) stats.Interval {
	slopes, outers, inners := len(v.Shares), 0, d.Inner[len(d.Inner)-1]+1
	square := func(x float64) float64 { return x * x }
	inner := square(n.Flight)
	if d.Outer != nil {
		outers = d.Outer[len(d.Outer)-1] + 1
	} else {
		inner += square(n.Contest)
	}
	size := 1 + slopes + outers + inners
	left, right := mat.NewSymDense(size, nil), mat.NewVecDense(size, nil)
	for i, y := range d.Y {
		row := make([]float64, size)
		row[0], row[1+slopes+outers+d.Inner[i]] = 1, 1
		copy(row[1:], d.Shares[i])
		if outers > 0 {
			row[1+slopes+d.Outer[i]] = 1
		}
		w := d.Weights[i] / square(n.Figure)
		left.SymRankOne(left, w, mat.NewVecDense(size, row))
		right.AddScaledVec(right, w*y, mat.NewVecDense(size, row))
	}
	for j := 1; j < size; j++ {
		variance := inner
		if j <= slopes {
			variance = square(n.Levels)
		} else if j <= slopes+outers {
			variance = square(n.Contest)
		}
		left.SetSym(j, j, left.At(j, j)+1/math.Max(variance, 1e-9))
	}
	var chol mat.Cholesky
	chol.Factorize(left)
	x := mat.NewVecDense(size, append([]float64{1}, append(v.Shares, make([]float64, outers+inners)...)...))
	var b, spread mat.VecDense
	_, _ = chol.SolveVecTo(&b, right), chol.SolveVecTo(&spread, x)
	variance := mat.Dot(x, &spread) + square(n.Contest) + square(n.Flight) + square(n.Figure)*v.ErrorWeight
	half := normal80 * math.Sqrt(variance)
	return stats.Interval{Low: mat.Dot(x, &b) - half, High: mat.Dot(x, &b) + half}
}

// forecastLimits are what the 80 % range must hold in every cell.
func forecastLimits(t *testing.T, what string, all forecastTally) {
	t.Helper()
	const least, most, wide = 0.77, 0.84, 1.2
	ratio := all.width / all.widthTrue
	t.Logf("%-72s in %s, known variances %s, width %.3f times", what, all.inside, all.insideTrue, ratio)
	require.GreaterOrEqual(t, all.inside.share(), least-slack(least, all.inside.n), what)
	require.LessOrEqual(t, all.inside.share(), most+slack(most, all.inside.n), what)
	require.LessOrEqual(t, ratio, wide, what)
	// The generator's own check: with the variances known the range is right.
	require.InDelta(t, 0.80, all.insideTrue.share(), 4*math.Sqrt(0.16/float64(all.insideTrue.n)), what)
}

// The 80 % range holds the percent then flown on a sequence not flown yet, by
// the pilot's true levels, in 77..84 % of 8,000 seasons a cell, and is at most
// 1.2 times as wide as that of one who knows the variances.
func TestSimulationForecast(t *testing.T) {
	n := 200
	if *longSimulation {
		n = 8000
	}
	for i, c := range forecastCells() {
		career := c.career(0)
		all := eachSeason(1000+i, n, func(r *rand.Rand, tally *forecastTally) {
			pilot, flights, next := career.Make(r)
			truth := next.MeanOf(pilot.Fly(r, next, pilot.ContestEffect(r)))
			data, contests := mixedOf(flights, func(f simulate.Flown) []float64 { return f.Deductions })
			model, err := stats.FitMixed(data)
			if err != nil {
				panic(err)
			}
			forecast, err := model.Forecast(nextOf(next), float64(max(1, contests-1)))
			if err != nil {
				panic(err)
			}
			got, err := forecast.Range(0.8)
			if err != nil {
				panic(err)
			}
			known := knownRange(data, nextOf(next), career.Noise)
			tally.inside.add(truth >= got.Low && truth <= got.High)
			tally.insideTrue.add(truth >= known.Low && truth <= known.High)
			tally.width, tally.widthTrue = got.High-got.Low, known.High-known.Low
		})
		forecastLimits(t, c.String(), all)
	}
}

// A sequence that gives K and no codes is predicted by what figures cost on
// average: many figures together cost what figures do, so the range of the whole
// holds as often without more. A figure alone hangs on its own group, and its
// range has the spread between groups too.
func TestSimulationForecastWithoutCodes(t *testing.T) {
	n := 400
	if *longSimulation {
		n = 8000
	}
	for i, c := range []forecastCell{{8, 2, 0.3, 0.3, false}, {12, 1, 0, 0.1, false}, {20, 2, 0.3, 0.3, false}, {20, 2, 0.3, 1, false}} {
		career := c.career(0)
		for k, one := range []bool{false, true} {
			all := eachSeason(3000+2*i+k, n, func(r *rand.Rand, tally *forecastTally) {
				pilot, flights, next := career.Make(r)
				deductions := pilot.Fly(r, next, pilot.ContestEffect(r))
				data, contests := mixedOf(flights, func(f simulate.Flown) []float64 { return f.Deductions })
				model, err := stats.FitMixed(data)
				if err != nil {
					panic(err)
				}
				value, truth := uncoded(next), next.MeanOf(deductions)
				if one {
					value, truth = uncodedFigure(next), deductions[0]
				}
				forecast, err := model.Forecast(value, float64(max(1, contests-1)))
				if err != nil {
					panic(err)
				}
				got, err := forecast.Range(0.8)
				if err != nil {
					panic(err)
				}
				tally.inside.add(truth >= got.Low && truth <= got.High)
			})
			t.Logf("%-72s in %s", fmt.Sprint(c, ", no codes, one figure ", one), all.inside)
			require.GreaterOrEqual(t, all.inside.share(), 0.77-slack(0.77, all.inside.n))
			require.LessOrEqual(t, all.inside.share(), 0.84+slack(0.84, all.inside.n))
		}
	}
}

// uncoded is nextOf where nothing is known but K, and which line is positioning.
func uncoded(s *simulate.Sequence) stats.NewValue {
	v, total := nextOf(s), 0.0
	for _, line := range s.Lines() {
		total += line.K
	}
	v.Shares = make([]float64, len(v.Shares))
	positioning := s.Lines()[len(s.Figures)]
	for j, share := range positioning.Shares {
		v.Shares[j] = positioning.K / total * share
	}
	return v
}

// uncodedFigure is the first figure alone, of which only K is known.
func uncodedFigure(s *simulate.Sequence) stats.NewValue {
	first := s.Lines()[0]
	return stats.NewValue{Shares: make([]float64, len(first.Shares)), ErrorWeight: 15 / first.K, Unknown: 1}
}

// modelSequence is a sequence as the program's model has it.
func modelSequence(s *simulate.Sequence) *season.Sequence {
	out := &season.Sequence{Handle: s.Handle, Category: "intermediate", Positioning: s.Positioning}
	for _, f := range s.Figures {
		figure := season.Figure{K: f.K()}
		for _, e := range f {
			figure.Elements = append(figure.Elements, season.Element{Code: e.Code, Group: season.GroupOf(e.Code), K: e.K, Parts: 1})
		}
		out.Figures = append(out.Figures, figure)
	}
	return out
}

// modelFlight is a flight of a model's sequence.
func modelFlight(pilot *season.Pilot, f simulate.Flown, sequence *season.Sequence, contest *season.Contest) *season.Flight {
	row := func(grades []int) season.Row {
		var marks []scoring.Mark
		for _, half := range grades {
			marks = append(marks, scoring.GradeOf(half))
		}
		return season.Row{Marks: marks}
	}
	out := &season.Flight{
		Name: fmt.Sprint("flight-", f.Day), Date: season.Date(20000 + f.Day), Pilot: pilot, Programme: season.Known, Label: 1,
		Contest: contest, Sequence: sequence, Category: "intermediate", Style: &season.RuleStyle{},
		Panel: []string{"A", "B", "C", "D", "E"},
	}
	last := len(f.Grades) - 1
	for _, grades := range f.Grades[:last] {
		out.Rows = append(out.Rows, row(grades))
	}
	positioning := row(f.Grades[last])
	out.Positioning = &positioning
	return out
}

// modelLedger is a ledger of flights, made without any text.
func modelLedger(flights []simulate.Flown) (*season.Ledger, *season.Pilot) {
	pilot, sequences := &season.Pilot{Handle: "ines"}, map[*simulate.Sequence]*season.Sequence{}
	l := &season.Ledger{Pilots: []*season.Pilot{pilot}, AsOf: 20000 + season.Date(flights[len(flights)-1].Day) + 1}
	for _, f := range flights {
		for len(l.Contests) <= f.Contest {
			l.Contests = append(l.Contests, &season.Contest{Handle: fmt.Sprint("contest-", len(l.Contests))})
		}
		if sequences[f.Sequence] == nil {
			sequences[f.Sequence] = modelSequence(f.Sequence)
		}
		l.Flights = append(l.Flights, modelFlight(pilot, f, sequences[f.Sequence], l.Contests[f.Contest]))
	}
	return l, pilot
}

// The same through judges' marks in half points, by Ledger.ForecastOf.
func TestSimulationForecastOfMarks(t *testing.T) {
	n := 100
	if *longSimulation {
		n = 2000
	}
	for i, c := range []forecastCell{{8, 2, 0, 0.1, false}, {8, 2, 0.3, 1, true}, {12, 2, 0.3, 0.3, false}, {20, 1, 0, 0.1, true}} {
		if i > 1 && !*longSimulation {
			continue
		}
		career := c.career(panelSize)
		all := eachSeason(2000+i, n, func(r *rand.Rand, tally *forecastTally) {
			pilot, flights, next := career.Make(r)
			then := pilot.Judge(r, pilot.Fly(r, next, pilot.ContestEffect(r)), panelSize)
			truth := 10 * next.MeanOf(simulate.MeanGrades(then))
			l, ines := modelLedger(flights)
			answer := analysis.ForecastOf(l, ines, modelSequence(next))
			if !answer.Told {
				panic(answer.Lack.Reason)
			}
			tally.inside.add(truth >= answer.Low && truth <= answer.High)
		})
		what := "by marks: " + c.String()
		t.Logf("%-72s in %s", what, all.inside)
		require.GreaterOrEqual(t, all.inside.share(), 0.77-slack(0.77, n), what)
		require.LessOrEqual(t, all.inside.share(), 0.84+slack(0.84, n), what)
	}
}
