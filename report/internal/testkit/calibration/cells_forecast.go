package calibration

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"boxbook/season"
)

// What is measured of the forecast.
const (
	percentHeld    = "80 % range of the percent holds"
	percentWidth   = "its width over that with known variances"
	forecastAbsent = "no forecast at all"
	newFigureHeld  = "80 % range of a figure of a family never flown holds"
)

// knownWidthOf is in how many seasons of a cell the width with known variances is
// worked out: one in so many.
const knownWidthOf = 4

// neverFlown is the family that a record may lack.
const neverFlown = "9.9"

// forecastCell asks for a sequence not flown, or the one that was flown first, or
// for one with a family that was never flown.
type forecastCell struct {
	Sheets
	Flown, Never bool
	// Uncoded says that of the figures asked for K alone is in the ledger.
	Uncoded bool
}

func (f forecastCell) cell() Cell {
	name := fmt.Sprintf("%s, %s, %s, families %.1f, figures %.1f, judges %.1f", f.Structure, f.Programmes, f.Path.Name, f.Families, f.Figures, f.Judge)
	if f.Shape != Normal {
		name += ", " + f.Shape.String()
	}
	if f.Flown {
		name += ", asked for one that was flown"
	}
	if f.Never {
		name += ", a family never flown"
	}
	if f.Uncoded {
		name += ", asked by K alone"
	}
	return Cell{Group: "forecast", Name: name, Heavy: true, Limits: f.limits(), One: f.one}
}

func (f forecastCell) one(r *rand.Rand, p Program, t Tally) {
	record := f.Sheets
	if f.Never {
		record.Own = slices.DeleteFunc(slices.Clone(f.own()), func(g string) bool { return g == neverFlown })
	}
	sheaf := record.Make(r)
	asked := sheaf.Sequences[0]
	var further []*season.Sequence
	if !f.Flown {
		asked = f.Draw(r, "asked", season.Unknown)
		further = append(further, asked)
	}
	l := sheaf.Book(further...)
	marks := sheaf.Next(r, asked)
	truth := percentOf(asked, marks)
	if f.Uncoded {
		forgetCodes(asked)
	}
	a := p.Forecast(l, asked)
	t.Saw(forecastAbsent, !a.Known())
	t.Saw(percentHeld, a.Holds(truth))
	for i, figure := range asked.Figures {
		if f.Never && has(figure, neverFlown) {
			t.Saw(newFigureHeld, i < len(a.Figures) && a.Figures[i].Holds(meanGrade(marks[i])))
		}
	}
	if f.measuresWidth() && a.Known() && r.IntN(knownWidthOf) == 0 {
		t.Measured(percentWidth, a.Width()/sheaf.KnownWidth(asked))
	}
}

// forgetCodes leaves of every figure its K alone.
func forgetCodes(s *season.Sequence) {
	for i := range s.Figures {
		s.Figures[i].Elements = nil
	}
}

func (f forecastCell) measuresWidth() bool {
	return f.Path.Steady && f.Shape == Normal && !f.Never && !f.Uncoded
}

func (f forecastCell) limits() []Limit {
	limits := []Limit{atMost(forecastAbsent, 0)}
	if f.Never {
		limits = append(limits, within(newFigureHeld, 0.75, 0.87))
	}
	if !f.measuresWidth() {
		return append(limits, atLeast(percentHeld, 0.76))
	}
	limits = append(limits, within(percentHeld, 0.77, 0.87))
	switch {
	case f.Flown:
		return append(limits, ratio(percentWidth, 1.32))
	case f.Flights < 12:
		return append(limits, ratio(percentWidth, 1.25))
	}
	return append(limits, ratio(percentWidth, 1.2))
}

// ordinary is a record of sheets of five judges; what is flown of a figure varies by
// half a grade from flight to flight.
func ordinary(flights, perContest int, share float64, path Path) Sheets {
	return Sheets{
		Totals: Totals{Structure: Structure{Flights: flights, PerContest: perContest, ContestShare: share}, Path: path},
		Grades: Grades{Families: 0.3, Figures: 0.4, Scatter: 0.5, Judge: 0.5, Judges: 5},
	}
}

func forecastCells() []Cell {
	var list []Cell
	for i, n := range []struct{ flights, perContest int }{{8, 1}, {12, 2}, {20, 3}, {20, 1}} {
		for j, programmes := range []Programmes{OneKnown, Mixed, TwoKnowns} {
			for k, figures := range []float64{0, 0.4, 0.8} {
				for l, flown := range []bool{false, true} {
					s := ordinary(n.flights, n.perContest, 0, Steady)
					if n.perContest > 1 {
						s.ContestShare = []float64{0, 0.3, 0.5}[(i+j+k+l)%3]
					}
					s.Programmes, s.Figures = programmes, figures
					s.Families, s.Judge = []float64{0.3, 0.6, 0}[(i+j+k)%3], []float64{0.5, 1}[(i+j)%2]
					list = append(list, forecastCell{Sheets: s, Flown: flown}.cell())
				}
			}
		}
	}
	for _, n := range []struct{ flights, perContest int }{{8, 1}, {20, 2}} {
		for _, programmes := range []Programmes{OneKnown, Mixed} {
			for _, path := range []Path{Rise10, Rise20, Fall10, StepUp, StepDown, Walk, Waves} {
				s := ordinary(n.flights, n.perContest, 0, path)
				s.Programmes = programmes
				list = append(list, forecastCell{Sheets: s}.cell())
			}
			for _, shape := range []Shape{Heavy, Zeros} {
				s := ordinary(n.flights, n.perContest, 0, Steady)
				s.Programmes, s.Shape = programmes, shape
				list = append(list, forecastCell{Sheets: s}.cell())
			}
		}
	}
	for _, figures := range []float64{0, 0.4, 0.8} {
		s := ordinary(12, 1, 0, Steady)
		s.Programmes, s.Figures = Mixed, figures
		list = append(list, forecastCell{Sheets: s, Never: true}.cell(), forecastCell{Sheets: s, Uncoded: true}.cell())
	}
	return list
}
