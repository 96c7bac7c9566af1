package analysis

import "boxbook/season"

// ForecastParts are the steps of a forecast that no answer has: the effect of the
// sequence asked about in grades, the flights' percents taken to it, and by how
// much what is uncertain of families and figures widens the variance.
func ForecastParts(l *season.Ledger, p *season.Pilot, seq *season.Sequence) (effect float64, percents []float64, widened float64, err error) {
	basis := forecastBasisOf(l, p, PresentCategory(l, p), seq.Category, &seq.Catalogue, l.AsOf)
	m, err := newForecastModel(basis.flights, seq, allFigures(seq), basis.on, false)
	if err != nil {
		return 0, nil, 0, err
	}
	next := m.next()
	for i, q := range m.present.Points {
		widened += q.Weight * (next.Scales[i]*next.Scales[i] - q.S2*(1+q.V))
	}
	return m.means[0], m.percents, widened, nil
}

// SumsWithin is how many sums of one of each of two sorted lists lie between two amounts.
var SumsWithin = sumsWithin

// ReachedBy is how many differences are a sum of two of sorted slips of two lines.
func ReachedBy(minors []int64, lines []int, steps, step int64) int64 {
	var slips []maybe
	for i := range minors {
		slips = append(slips, maybe{minor: minors[i], line: lines[i]})
	}
	return reachedBy(distinct(slips), distinct(slips), steps, step)
}
