package analysis

import (
	"math/big"
	"slices"

	"boxbook/scoring"
	"boxbook/season"
)

// Change makes another score sheet of a flight's.
type Change func(scoring.Sheet) scoring.Sheet

// WhatIf is a flight's score before and after changes of its sheet, and what a
// target takes after them. Others are the totals of the others in the flight that
// are typed; the places are 0 where these are not all, and not ByPrinted: where the
// printed place tells that those who are not typed were not ahead, a total that is no
// less than the record has a place too.
type WhatIf struct {
	Sheet, Changed          scoring.Sheet
	Before, After           scoring.Score
	PlaceBefore, PlaceAfter int
	Others                  []*big.Rat
	ByPrinted               bool
}

// WhatIfOf scores the flight's sheet as it is and with the changes. The flight has
// marks. Another panel would have judged the others as well, so that no place
// follows from its marks.
func WhatIfOf(f *season.Flight, changes []Change) WhatIf {
	w := WhatIf{Sheet: f.Sheet(), Before: f.Score(), Others: OthersIn(f)}
	w.Changed = w.Sheet
	for _, change := range changes {
		w.Changed = change(w.Changed)
	}
	w.After = w.Changed.Score()
	w.ByPrinted = aheadTyped(f, w.Others)
	w.PlaceBefore = w.placeOf(f, w.Before.Points)
	if w.Changed.Judges == w.Sheet.Judges {
		w.PlaceAfter = w.placeOf(f, w.After.Points)
	}
	return w
}

// placeOf is the place of a total in the flight, 0 where it is not known.
func (w WhatIf) placeOf(f *season.Flight, points *big.Rat) int {
	whole := len(w.Others)+1 == f.Of
	above := w.ByPrinted && points != nil && points.Cmp(f.RecordPoints()) >= 0
	if !whole && !above {
		return 0
	}
	return placeAmong(w.Others, points)
}

// aheadTyped reports whether a part of the others is typed, and all who were ahead by
// the printed place are in it.
func aheadTyped(f *season.Flight, others []*big.Rat) bool {
	return len(others) > 0 && len(others)+1 < f.Of && f.Rank > 0 && placeAmong(others, f.RecordPoints()) == f.Rank
}

// OthersIn are the typed totals of the others in a flight, ascending; nil where
// there are none, or they are not out of the maximum that the marks are.
func OthersIn(f *season.Flight) []*big.Rat {
	field, ok := FieldOf(f)
	record := f.Record()
	if !ok || record.Maximum == nil || record.Maximum.Cmp(big.NewRat(int64(f.Maximum()), 1)) != 0 {
		return nil
	}
	own := slices.IndexFunc(field.Totals, func(total *big.Rat) bool { return total.Cmp(record.Points) == 0 })
	return slices.Delete(slices.Clone(field.Totals), own, own+1)
}

// placeAmong is one more than the others with more points; 0 where the points are
// not known.
func placeAmong(others []*big.Rat, points *big.Rat) int {
	if points == nil {
		return 0
	}
	place := 1
	for _, total := range others {
		if total.Cmp(points) > 0 {
			place++
		}
	}
	return place
}

// Goal is a total to be reached: a percent of the maximum, points, or where both are
// nil the total of the one of the others that holds a place, the best where Place
// is 0.
type Goal struct {
	Percent, Points *big.Rat
	Place           int
}

// AmongOthers reports whether the goal is a total of one of the others.
func (g Goal) AmongOthers() bool { return g.Percent == nil && g.Points == nil }

// PointsOf are the points of the goal out of a maximum, others being the totals of
// the others, ascending: a total of no points is enough for the last place.
func (g Goal) PointsOf(maximum *big.Rat, others []*big.Rat) *big.Rat {
	points := new(big.Rat)
	switch {
	case g.Points != nil:
		return points.Set(g.Points)
	case g.Percent != nil:
		return points.Mul(g.Percent, maximum).Mul(points, big.NewRat(1, 100))
	}
	if at := len(others) - max(g.Place, 1); at >= 0 {
		points.Set(others[at])
	}
	return points
}

// Target is what a total takes of a sheet. Have is the figures' mean grade, each
// weighed by its K; Mean what it must be at the least, nil where no grades of the
// figures come to the total. Figures are those of the sheet, in order.
type Target struct {
	Points     *big.Rat
	Have, Mean *big.Rat
	Figures    []FigureTarget
}

// FigureTarget is how far one figure alone would have to go: Half is the least
// grade in half points that would do from every judge, nil where none does.
type FigureTarget struct {
	Number int
	Have   *big.Rat
	Half   *int
}

// Target is what the changed sheet would have to have for a total of points, its
// weighted lines and penalties as they are; false where it is undecided.
func (w WhatIf) Target(f *season.Flight, points *big.Rat) (Target, bool) {
	if !w.After.Decided() {
		return Target{}, false
	}
	t := Target{Points: points}
	figures, k := new(big.Rat), 0
	for i, line := range w.Changed.Lines {
		if line.Kind == scoring.Figure {
			figures.Add(figures, w.After.Lines[i].Points)
			k += line.K
			t.Figures = append(t.Figures, FigureTarget{f.Flown()[i] + 1, w.After.Lines[i].Mean, leastAlone(w.Changed, i, points)})
		}
	}
	if k == 0 {
		return t, true
	}
	// points = figures + other lines - penalty, so that the figures must come to
	// points + penalty - other lines.
	needed := new(big.Rat).Add(points, w.After.Penalty)
	needed.Sub(needed, new(big.Rat).Sub(w.After.Raw, figures))
	per := big.NewRat(1, int64(k))
	t.Have = figures.Mul(figures, per)
	if needed.Mul(needed, per); needed.Cmp(big.NewRat(scoring.TopGrade, 2)) <= 0 {
		t.Mean = maxRat(needed, new(big.Rat))
	}
	return t, true
}

// leastAlone is the least grade, in half points, that takes the sheet to a total
// when every judge gives it on one line; nil where none does.
func leastAlone(sheet scoring.Sheet, line int, points *big.Rat) *int {
	for half := range scoring.TopGrade + 1 {
		if sheet.WithMark(line, scoring.EveryJudge, scoring.GradeOf(half)).Score().Points.Cmp(points) >= 0 {
			return &half
		}
	}
	return nil
}

func maxRat(a, b *big.Rat) *big.Rat {
	if a.Cmp(b) < 0 {
		return b
	}
	return a
}
