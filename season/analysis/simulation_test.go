package analysis_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit/simulate"
)

// longSimulation runs as many seasons a cell as the claims are made for; the
// short form, of the ordinary test run, allows for its own chance by three
// standard errors.
var longSimulation = flag.Bool("simulate", false, "run the long form of the simulations")

const (
	longSeasons  = 4000
	shortSeasons = 400
	simulateSeed = 20261125
)

func seasons() int {
	if *longSimulation {
		return longSeasons
	}
	return shortSeasons
}

// inLong adds to the cells of the short form those that only the long one has.
func inLong[T any](cells []T, more ...T) []T {
	if *longSimulation {
		return append(cells, more...)
	}
	return cells
}

func randomness(cell int) *rand.Rand { return rand.New(rand.NewPCG(simulateSeed, uint64(cell))) }

// rate counts how often something happened.
type rate struct{ hits, n int }

func (r *rate) add(hit bool) {
	r.n++
	if hit {
		r.hits++
	}
}

func (r rate) share() float64 { return float64(r.hits) / float64(r.n) }

func (r rate) error() float64 { return math.Sqrt(r.share() * (1 - r.share()) / float64(r.n)) }

func (r rate) String() string {
	return fmt.Sprintf("%5.1f %% (+- %.1f)", 100*r.share(), 100*r.error())
}

// slack is three standard errors of a share of the limit's size, in the short
// form alone: the long form is held to the limit itself.
func slack(limit float64, n int) float64 {
	if *longSimulation {
		return 0
	}
	return 3 * math.Sqrt(limit*(1-limit)/float64(n))
}

func atMost(t *testing.T, what string, r rate, limit float64) {
	t.Helper()
	t.Logf("%-64s %s, at most %.0f %%", what, r, 100*limit)
	require.LessOrEqual(t, r.share(), limit+slack(limit, r.n), what)
}

func atLeast(t *testing.T, what string, r rate, limit float64) {
	t.Helper()
	t.Logf("%-64s %s, at least %.0f %%", what, r, 100*limit)
	require.GreaterOrEqual(t, r.share(), limit-slack(limit, r.n), what)
}

// points turns flights into what a trend is judged on.
func points(flights []simulate.Flight) []analysis.TrendPoint {
	list := make([]analysis.TrendPoint, len(flights))
	for i, f := range flights {
		list[i] = analysis.TrendPoint{Day: f.Day, Value: f.Value, Stratum: fmt.Sprint("sequence ", f.Sequence), Contest: fmt.Sprint("contest ", f.Contest)}
	}
	return list
}

func firm(word analysis.Word) bool { return word == analysis.Improving || word == analysis.Declining }

// flightSD is the standard deviation of a single flight, in percent points.
const flightSD = 3.0

// Without any trend a firm word comes in at most 6 % of seasons; the wrong
// method, least squares on single flights, is shown to fail the same table.
func TestSimulationNoTrend(t *testing.T) {
	cell := 0
	for _, perContest := range []int{1, 2, 3} {
		for _, share := range []float64{0, 0.2, 0.5} {
			for _, flights := range inLong([]int{12}, 20, 8) {
				cell++
				r, ours, wrong := randomness(cell), rate{}, rate{}
				for range seasons() {
					made := simulate.Season{Flights: flights, PerContest: perContest, ContestShare: share, SD: flightSD, Mean: 65}.Make(r)
					ours.add(firm(analysis.FlightTrend(points(made)).Word))
					wrong.add(leastSquaresCallsTrend(made))
				}
				what := fmt.Sprintf("no trend, %d flights, %d a contest, contest share %.0f %%", flights, perContest, 100*share)
				atMost(t, what, ours, 0.06)
				t.Logf("%-64s %s", "  least squares on single flights", wrong)
				if perContest == 3 && share == 0.5 && flights > 8 {
					require.Greater(t, wrong.share(), 0.06+slack(0.06, wrong.n), "the wrong method must fail this cell")
				}
			}
		}
	}
}

// leastSquaresCallsTrend is the deliberately wrong method: the t-test of a
// straight line through single flights, at 5 %.
func leastSquaresCallsTrend(flights []simulate.Flight) bool {
	n, sx, sy, sxx, sxy, syy := float64(len(flights)), 0.0, 0.0, 0.0, 0.0, 0.0
	for _, f := range flights {
		sx, sy = sx+f.Day, sy+f.Value
		sxx, sxy, syy = sxx+f.Day*f.Day, sxy+f.Day*f.Value, syy+f.Value*f.Value
	}
	vx, vxy, vy := sxx-sx*sx/n, sxy-sx*sy/n, syy-sy*sy/n
	slope := vxy / vx
	s2 := (vy - slope*vxy) / (n - 2)
	tt := math.Abs(slope) / math.Sqrt(s2/vx)
	return 2*distuv.StudentsT{Mu: 0, Sigma: 1, Nu: n - 2}.Survival(tt) <= 0.05
}

// A rise is found often enough that silence is no way to pass.
func TestSimulationPowerOfTrend(t *testing.T) {
	for i, c := range []struct {
		flights     int
		rise, least float64
	}{{12, 3, 0.70}, {20, 3, 0.90}, {20, 2, 0.60}} {
		r, found := randomness(100+i), rate{}
		for range seasons() {
			made := simulate.Season{Flights: c.flights, PerContest: 1, SD: flightSD, Rise: c.rise, Mean: 65}.Make(r)
			found.add(analysis.FlightTrend(points(made)).Word == analysis.Improving)
		}
		atLeast(t, fmt.Sprintf("a rise of %.0f SD over %d flights is called", c.rise, c.flights), found, c.least)
	}
}

// familyFigures is how many figures of each of thirteen families a sequence of
// twelve figures has: many have lines and rolls, few a flick or a tailslide.
// The standard deviation of one figure, 10 percent points, is an assumption.
var familyFigures = []int{4, 1, 1, 1, 1, 1, 3, 2, 4, 2, 1, 1, 1}

// familyShape is how many flights there are, how many of them at a contest, and
// the standard deviation of a figure in percent points.
type familyShape struct {
	flights, perContest int
	figureSD            float64
}

// Thirteen families without any change: a false call in at most 11 % of
// seasons, 12 % where contest effects and a change of sequence come together.
// 0.3 and 0.7 grade are 3 and 7 percent points.
func TestSimulationFamilies(t *testing.T) {
	cell := 200
	shapes := inLong([]familyShape{{12, 2, 10}},
		familyShape{12, 1, 10}, familyShape{12, 3, 10}, familyShape{20, 1, 10}, familyShape{20, 2, 10}, familyShape{20, 3, 10},
		familyShape{12, 2, 6}, familyShape{20, 3, 6})
	for _, shape := range shapes {
		for _, contestSD := range []float64{0, 3} {
			for _, two := range []bool{false, true} {
				cell++
				r, called := randomness(cell), rate{}
				for range seasons() {
					called.add(anyFirm(familySeason(r, shape, contestSD, two, 0)))
				}
				limit := 0.11
				if contestSD > 0 && two {
					limit = 0.12
				}
				atMost(t, fmt.Sprintf("13 families, %d flights, %d a contest, figure SD %.0f, contest effect %.1f grade, another sequence %v",
					shape.flights, shape.perContest, shape.figureSD, contestSD/10, two), called, limit)
			}
		}
	}
}

// A family that rises by 3 standard deviations of its value in a flight is
// called, so that silence about families is no way to pass either. The shares
// asked for are this project's own.
func TestSimulationPowerOfFamilies(t *testing.T) {
	for i, c := range []struct {
		shape familyShape
		least float64
	}{{familyShape{12, 2, 10}, 0.30}, {familyShape{20, 2, 10}, 0.65}, {familyShape{20, 3, 10}, 0.65}} {
		r, found := randomness(250+i), rate{}
		for range seasons() {
			trends := familySeason(r, c.shape, 0, false, 3)
			found.add(trends[0].Word == analysis.Improving)
		}
		atLeast(t, fmt.Sprintf("one of 13 families rises by 3 SD, %d flights, %d a contest", c.shape.flights, c.shape.perContest), found, c.least)
	}
}

// familySeason makes a season by family, in which the first rises by so many
// standard deviations of its value, and judges the trends.
func familySeason(r *rand.Rand, shape familyShape, contestSD float64, two bool, rise float64) []analysis.Trend {
	made := simulate.Families{
		Figures: familyFigures, Flights: shape.flights, PerContest: shape.perContest,
		FigureSD: shape.figureSD, ContestSD: contestSD, SequenceSD: 7, TwoSequences: two, Rise: rise,
	}.Make(r)
	groups := make([][]analysis.TrendPoint, len(made))
	for g := range made {
		groups[g] = points(made[g])
	}
	trends, _ := analysis.GroupTrends(groups)
	return trends
}

// anyFirm reports whether any trend is called.
func anyFirm(trends []analysis.Trend) bool {
	return slices.ContainsFunc(trends, func(t analysis.Trend) bool { return firm(t.Word) })
}

// faultLedger makes a ledger of flights with faults and one drill, without any
// text: the way the drills command reads it.
func faultLedger(before, after [][]bool, target int, prompted int, named bool) *season.Ledger {
	l := &season.Ledger{AsOf: 1 << 20}
	pilot := &season.Pilot{Handle: "ines"}
	kinds := make([]*season.FaultKind, len(before[0]))
	for k := range kinds {
		kinds[k] = &season.FaultKind{Name: fmt.Sprint("kind-", k), Plain: &scoring.Decimal{Units: 1}}
	}
	add := func(day int, seen []bool) *season.Flight {
		f := &season.Flight{Name: fmt.Sprint("flight-", day), Date: season.Date(day), Pilot: pilot, Programme: season.Known, Reviewed: []season.Review{{}}}
		for k, s := range seen {
			if s {
				f.Faults = append(f.Faults, season.Fault{Figure: k + 1, Kind: kinds[k], Amount: season.Amount{Times: 1}})
			}
		}
		l.Flights = append(l.Flights, f)
		return f
	}
	day := 10000
	for _, seen := range before {
		day += 7
		add(day, seen)
	}
	drill := &season.Drill{Date: season.Date(day + 1), Pilot: pilot, Target: kinds[target].Name}
	if named {
		drill.Prompted = l.Flights[len(l.Flights)-prompted:]
	}
	l.Drills = []*season.Drill{drill}
	for _, seen := range after {
		day += 7
		add(day, seen)
	}
	return l
}

// A drill set on the worst of twelve faults, nothing having changed, "worked"
// in at most 6 %, with the flights that prompted it named or not.
func TestSimulationDrillNothingChanged(t *testing.T) {
	type kind struct {
		chance        float64
		before, after int
	}
	cell := 300
	for _, c := range inLong([]kind{{0.4, 12, 8}}, kind{0.2, 10, 10}, kind{0.2, 20, 10}, kind{0.6, 10, 10}, kind{0.6, 20, 10}, kind{0.8, 10, 10}, kind{0.8, 20, 10}) {
		chance := slices.Repeat([]float64{c.chance}, 12)
		for _, named := range []bool{true, false} {
			r, worked := randomness(cell), rate{}
			cell++
			for range seasons() {
				before, after := simulate.Faults(r, c.before, chance), simulate.Faults(r, c.after, chance)
				target := simulate.Worst(before, 4)
				answers := analysis.DrillsOf(faultLedger(before, after, target, 4, named), season.Selection{})
				worked.add(answers[0].Word == analysis.Worked)
			}
			atMost(t, fmt.Sprintf("a drill on the worst of 12 faults, each in %.0f %% of flights, %d before, %d after, prompting flights named %v",
				100*c.chance, c.before, c.after, named), worked, 0.06)
		}
	}
}

// A fault that falls from .7 to .1 of flights, 10 before and 8 after, is found
// in at least 65 %.
func TestSimulationDrillThatWorked(t *testing.T) {
	r, worked := randomness(330), rate{}
	steady := []float64{0.7, 0.4, 0.4, 0.4, 0.4}
	better := []float64{0.1, 0.4, 0.4, 0.4, 0.4}
	for range seasons() {
		before, after := simulate.Faults(r, 11, steady), simulate.Faults(r, 8, better)
		answers := analysis.DrillsOf(faultLedger(before, after, 0, 1, true), season.Selection{})
		require.Equal(t, 10, answers[0].Before.Flights)
		worked.add(answers[0].Word == analysis.Worked)
	}
	atLeast(t, "a fault from .7 to .1 of flights, 10 before and 8 after", worked, 0.65)
}

// A drill on the worst of thirteen families by its last four flights, nothing
// having changed, "worked" in at most 6 %: with one sequence all season, with
// another one since the drill, and with contests that touch a family alone. One
// that lifts its family by 1.5 standard deviations of a flight is found.
func TestSimulationDrillOnFamily(t *testing.T) {
	type kind struct {
		perContest int
		contestSD  float64
		two        bool
	}
	cell := 340
	for _, c := range inLong([]kind{{2, 3, false}, {2, 3, true}}, kind{1, 0, false}, kind{1, 0, true}, kind{2, 0, false}, kind{3, 0, false}, kind{3, 3, false}, kind{3, 3, true}) {
		r, worked := randomness(cell), rate{}
		cell++
		for range seasons() {
			worked.add(familyDrill(r, c.perContest, c.contestSD, c.two, 0) == analysis.Worked)
		}
		atMost(t, fmt.Sprintf("a drill on the worst of 13 families, %d a contest, contest effect %.1f grade, another sequence %v", c.perContest, c.contestSD/10, c.two), worked, 0.06)
	}
	r, worked := randomness(cell), rate{}
	for range seasons() {
		worked.add(familyDrill(r, 1, 0, false, 1.5) == analysis.Worked)
	}
	atLeast(t, "a drill that lifts its family by 1.5 SD, 6 before and 8 after", worked, 0.65)
}

// familyDrill makes 18 flights and judges a drill set after the tenth on the
// family that was worst against the rest in the four before it, as
// Ledger.DrillsOf does, from values in place of grades. With two sequences every
// other flight since the drill is on a new one.
func familyDrill(r *rand.Rand, perContest int, contestSD float64, two bool, lift float64) analysis.DrillWord {
	made := simulate.Families{Figures: familyFigures, Flights: 18, PerContest: perContest, FigureSD: 10, ContestSD: contestSD}.Make(r)
	groups := make([][]analysis.TrendPoint, len(made))
	worst, lowest := 0, math.Inf(1)
	for g := range made {
		shift := 7 * r.NormFloat64()
		sd := 10 * math.Sqrt(1/float64(familyFigures[g])+1/float64(23-familyFigures[g]))
		groups[g] = points(made[g])
		sum := 0.0
		for i := range groups[g] {
			if two && i >= 10 && i%2 == 0 {
				groups[g][i].Value += shift
				groups[g][i].Stratum = "another"
			}
			if i >= 6 && i < 10 {
				sum += groups[g][i].Value / sd
			}
		}
		if sum < lowest {
			worst, lowest = g, sum
		}
	}
	before, since := make([]bool, 18), make([]bool, 18)
	sd := 10 * math.Sqrt(1/float64(familyFigures[worst])+1/float64(23-familyFigures[worst]))
	for i := range since {
		before[i], since[i] = i < 6, i >= 10
		if since[i] {
			groups[worst][i].Value += lift * sd
		}
	}
	return analysis.JudgeGroupDrill(groups, worst, before, since).Word
}
