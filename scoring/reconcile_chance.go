package scoring

import (
	"math/big"
	"slices"
)

// chances measures, for each class among the explanations, how often chance
// alone would be explained by it.
func (s *search) chances(explanations []Explanation) []Chance {
	var out []Chance
	printable := s.printable()
	for _, e := range explanations {
		if !slices.ContainsFunc(out, func(c Chance) bool { return c.Kind == e.Kind }) {
			r := reach{search: s, printable: printable, totals: map[int64]bool{}}
			r.addAll(e.Kind)
			out = append(out, Chance{Kind: e.Kind, Reached: int64(len(r.totals)), Of: printable.count()})
		}
	}
	return out
}

// printable are the totals, in units of the last decimal typed, that could be
// printed: from 0 to the maximum, no farther from the own one than the printed
// one is, and not such as agree with the own one, the units from ownLow to
// ownHigh.
type printable struct {
	low, high, ownLow, ownHigh int64
}

func (s *search) printable() printable {
	scale := pow10(s.printed.Points.Places)
	value, maximum := s.target.value(s.score.Points, s.score.Maximum), s.score.Maximum
	if s.target.percent {
		maximum = 100
	}
	gap := new(big.Rat).Sub(s.printed.Points.Rat(), value)
	gap.Abs(gap)
	downTo, upTo := new(big.Rat).Sub(gap, value), new(big.Rat).Add(gap, value)
	own := printedUnits(value, s.printed.Points.Places)
	return printable{
		low:    max(0, -floorUnits(downTo, scale)), // downTo is negative: the first total not below
		high:   min(int64(maximum)*scale, floorUnits(upTo, scale)),
		ownLow: own[0], ownHigh: own[len(own)-1],
	}
}

func (p printable) holds(units int64) bool {
	return p.low <= units && units <= p.high && (units < p.ownLow || units > p.ownHigh)
}

func (p printable) count() int64 {
	own := min(p.high, p.ownHigh) - max(p.low, p.ownLow) + 1
	return p.high - p.low + 1 - max(own, 0)
}

// floorUnits gives the last printed total that is not above the points.
func floorUnits(points *big.Rat, scale int64) int64 {
	scaled := new(big.Rat).Mul(points, big.NewRat(scale, 1))
	return new(big.Int).Div(scaled.Num(), scaled.Denom()).Int64()
}

// printedUnits gives the totals, one or at half a unit two, that points may be
// printed as.
func printedUnits(points *big.Rat, places int) []int64 {
	var out []int64
	floor := floorUnits(points, pow10(places))
	for units := floor; units <= floor+1; units++ {
		if Agrees(points, Decimal{Units: units, Places: places}) {
			out = append(out, units)
		}
	}
	return out
}

// reach gathers the printable totals that candidates of one class give.
type reach struct {
	*search
	printable printable
	totals    map[int64]bool
}

func (r *reach) addAll(kind ExplanationKind) {
	switch kind {
	case KindPenalty:
		r.addPenalties()
	case KindRules:
		r.addRules()
	case KindZero, KindFigure:
		r.eachZeroed(kind, r.addLine)
	case KindTotal:
		r.addTotals()
	case KindMark:
		r.eachMark(func(i, _ int, line Line) { r.addLines(i, line) })
	case KindJudge:
		for j := range r.sheet.Judges {
			r.addSheet(withoutJudge(r.sheet, j))
		}
	case KindK:
		r.eachK(r.addLine)
	case KindSwappedK:
		r.eachSwappedK(func(i int, lines []Line) { r.addLines(i, lines...) })
	case KindRows:
		r.addRows()
	case KindMarks:
		r.addPairs()
	}
}

// addUnits puts in the totals that raw points out of a maximum may be printed as. Where
// rounding the lines down could matter, the exact points decide.
func (r *reach) addUnits(raw int64, maximum int, exact func() *big.Rat) {
	points := raw - inUnits(r.score.Penalty)
	low, high := r.roughUnits(points-r.margin, maximum), r.roughUnits(points+r.margin, maximum)
	if low == high {
		r.add(low)
		return
	}
	for units := low; units <= high; units++ {
		if r.printable.holds(units) && !r.totals[units] {
			r.addExact(lessPenalty(exact(), r.score.Penalty), maximum)
			return
		}
	}
}

// roughUnits gives points in units of the search, out of a maximum, rounded half up, as
// printed.
func (r *reach) roughUnits(points int64, maximum int) int64 {
	scale := pow10(r.printed.Points.Places)
	switch {
	case points <= 0:
		return 0
	case r.target.percent && maximum > 0:
		percent := r.target.value(big.NewRat(points, unitsPerPoint), maximum)
		return floorUnits(percent.Add(percent, big.NewRat(1, 2*scale)), scale)
	}
	whole, rest := points/unitsPerPoint, points%unitsPerPoint
	return whole*scale + (2*rest*scale+unitsPerPoint)/(2*unitsPerPoint)
}

func (r *reach) add(units int64) {
	if r.printable.holds(units) {
		r.totals[units] = true
	}
}

func (r *reach) addExact(points *big.Rat, maximum int) {
	for _, units := range printedUnits(r.target.value(points, maximum), r.printed.Points.Places) {
		r.add(units)
	}
}

func (r *reach) addLines(i int, lines ...Line) {
	if raw, decided := r.unitsWith(i, lines...); decided {
		r.addUnits(raw, r.maximumWith(i, lines...), func() *big.Rat { return r.rawWith(i, lines...) })
	}
}

func (r *reach) addLine(i int, line Line) { r.addLines(i, line) }

func (r *reach) addSheet(sheet Sheet) {
	if raw, decided := sheetUnits(sheet); decided {
		r.addUnits(raw, sheet.Maximum(), func() *big.Rat { return sheet.Score().Raw })
	}
}

func (r *reach) addPenalties() {
	points := new(big.Rat).Sub(r.score.Points, big.NewRat(penaltyStep, 1))
	for ; points.Sign() >= 0; points.Sub(points, big.NewRat(penaltyStep, 1)) {
		r.addExact(points, r.score.Maximum)
	}
}

func (r *reach) addTotals() {
	for _, t := range r.ownTotals() {
		t.eachSlip(func(units int64, _ Mistyped) { r.add(units) })
	}
}

func (r *reach) addRules() {
	for _, c := range styleChanges(r.sheet.Style) {
		sheet := r.sheet
		sheet.Style = *c.style
		r.addSheet(sheet)
	}
	for _, c := range linesLeftOut(r.sheet) {
		r.addSheet(withoutLines(r.sheet, c.without))
	}
	for _, c := range penaltyChanges(r.sheet) {
		r.addExact(lessPenalty(r.score.Raw, c.penalty), r.score.Maximum)
	}
}

func (r *reach) addRows() {
	for _, i := range neighbours(r.sheet) {
		var all []cellChange
		for _, swap := range r.swapsOf(i) {
			all = append(all, swap...)
			if r.sheets[swap[0].judge] {
				r.addLines(i, r.swapped(i, swap)...)
			}
		}
		r.addLines(i, r.swapped(i, all)...)
	}
}

func (r *reach) addPairs() {
	steps := r.halfSteps()
	for a := range steps {
		for b := range steps {
			if first, second := &steps[a], &steps[b]; first.line < second.line {
				r.addUnits(r.total+first.change+second.change, r.score.Maximum, func() *big.Rat { return r.rawOfPair(first, second) })
			}
		}
	}
	for i, line := range r.sheet.Lines {
		r.eachPairOf(i, func(judges, steps []int) { r.addLines(i, steppedLine(line, judges, steps)) })
	}
}
