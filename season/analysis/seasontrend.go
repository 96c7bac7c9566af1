package analysis

import (
	"slices"

	"boxbook/season"
	"boxbook/season/stats"
)

// CategoryTrend is the trend of a pilot's contest flights in one category: no
// trend is drawn across a change of category.
type CategoryTrend struct {
	Category string
	Trend    Trend
}

// Move is what a change of category did to the percent: the mean of the
// contest means after it, up to the next change, less that before, since the
// last. The interval rests on every way of
// dealing the contests out to the two sides.
type Move struct {
	From, To      string
	Before, After int // contests
	Change        float64
	Low, High     float64
	Confidence    float64
	Known         bool // false: too few contests on a side
}

// Trends judges the trend of each category in the lines, in the order in which
// the categories were first flown.
func (o Flights) Trends() []CategoryTrend {
	categories := o.categories()
	out := make([]CategoryTrend, len(categories))
	season.SideBySide(len(out), func(i int) { out[i] = CategoryTrend{categories[i], FlightTrend(o.points(categories[i]))} })
	return out
}

func (o Flights) categories() []string {
	var names []string
	for _, line := range o.Lines {
		if line.Enters() && !slices.Contains(names, line.Flight.Category) {
			names = append(names, line.Flight.Category)
		}
	}
	return names
}

// points are the percents of the record of one category's flights.
func (o Flights) points(category string) []TrendPoint {
	var points []TrendPoint
	for _, line := range o.Lines {
		if line.Enters() && line.Flight.Category == category {
			points = append(points, line.point())
		}
	}
	return points
}

// enteredAt are the flights of a category that enter.
func (o Flights) enteredAt(category string) []*season.Flight {
	var flights []*season.Flight
	for _, line := range o.Lines {
		if line.Enters() && line.Flight.Category == category {
			flights = append(flights, line.Flight)
		}
	}
	return flights
}

// point is the percent of a line's record in a trend.
func (line FlightLine) point() TrendPoint {
	percent, _ := line.Record.Percent.Float64()
	return trendPoint(line.Flight, percent, hasZero(line.Flight))
}

// hasZero reports whether any figure of the flight counts 0 as a matter of fact.
func hasZero(f *season.Flight) bool {
	return slices.ContainsFunc(decidedFigures(f), func(fig flownFigure) bool { return fig.zeroed })
}

// Moves compares each change of category, in the order flown: the run of
// contests up to it with the run that follows. A return to an earlier category is
// a change of its own.
func (o Flights) Moves() []Move {
	var moves []Move
	for i, runs := 1, o.runs(); i < len(runs); i++ {
		moves = append(moves, moveBetween(runs[i-1], runs[i]))
	}
	return moves
}

// categoryRun is what was flown in one category without another in between.
type categoryRun struct {
	category string
	points   []TrendPoint
}

// runs cuts the lines that enter wherever the category changes.
func (o Flights) runs() []categoryRun {
	var runs []categoryRun
	for _, line := range o.Lines {
		if !line.Enters() {
			continue
		}
		if n := len(runs); n == 0 || runs[n-1].category != line.Flight.Category {
			runs = append(runs, categoryRun{category: line.Flight.Category})
		}
		run := &runs[len(runs)-1]
		run.points = append(run.points, line.point())
	}
	return runs
}

// LeastMoveContests is how many contests a side of a move needs.
const LeastMoveContests = 2

func moveBetween(from, to categoryRun) Move {
	before, after := from.contestPercents(), to.contestPercents()
	s := Move{From: from.category, To: to.category, Before: len(before), After: len(after)}
	if len(before) < LeastMoveContests || len(after) < LeastMoveContests {
		return s
	}
	shift, err := stats.TwoSampleShift(after, before, TrendConfidence)
	if err != nil {
		return s
	}
	s.Known = true
	s.Change = average(after) - average(before)
	s.Low, s.High, s.Confidence = shift.Interval.Low, shift.Interval.High, shift.Confidence
	return s
}

// contestPercents are the means by contest of a run's percents, in order of
// time.
func (r categoryRun) contestPercents() []float64 {
	var keys []string
	var clusters [][]float64
	for _, p := range r.points {
		i := slices.Index(keys, p.Contest)
		if i < 0 {
			i = len(keys)
			keys, clusters = append(keys, p.Contest), append(clusters, nil)
		}
		clusters[i] = append(clusters[i], p.Value)
	}
	return clusterMeans(clusters)
}

func average(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v
	}
	return sum / float64(len(values))
}

func clusterMeans(clusters [][]float64) []float64 {
	means := make([]float64, len(clusters))
	for i, c := range clusters {
		means[i] = average(c)
	}
	return means
}

// CheckPanels checks the panels of the lines side by side.
func (o Flights) CheckPanels() {
	var flights []*season.Flight
	for _, line := range o.Lines {
		if line.Flight.Void == nil && line.Flight.HasMarks() {
			flights = append(flights, line.Flight)
		}
	}
	CheckPanels(flights)
}

// PanelNoise is the noise of each line's percent, nil where it is not known.
func (line FlightLine) PanelNoise() *float64 {
	if line.Flight.Void != nil || !line.Flight.HasMarks() {
		return nil
	}
	check, ok := CheckPanel(line.Flight)
	if !ok {
		return nil
	}
	return &check.Noise
}
