package analysis

import (
	"gonum.org/v1/gonum/mat"

	"boxbook/season"
	"boxbook/season/stats"
)

// forecastModel is a sequence as flights of other sequences foretell it: each
// flight's percent taken to the sequence by what the families and figures of both
// cost, and where those percents stand on a day. Weighted lines are apart.
type forecastModel struct {
	pool    costPool
	fit     *stats.ShareFit
	present *stats.Present
	// means, in grades, and covariance, in percent points, are of the asked rows: the
	// sequence, its figures where they were asked for, and the flights, of which
	// equal ones share a row; flightRow is each flight's.
	means      []float64
	covariance *mat.SymDense
	flightRow  []int
	percents   []float64 // of the flights, taken to the sequence
}

// newForecastModel fits flights that have costs, as of a day. Figures are those
// asked about, by index; alone, where each alone will be asked for too.
func newForecastModel(flights []*season.Flight, seq *season.Sequence, figures []int, day season.Date, alone bool) (*forecastModel, error) {
	m := &forecastModel{}
	var err error
	if m.pool, err = newCostPool(flights, seq); err != nil {
		return nil, err
	}
	if m.fit, err = stats.FitShares(m.pool.ShareData); err != nil {
		return nil, err
	}
	whole, each := m.pool.asked(seq, figures)
	rows := []stats.ShareRow{whole}
	if alone {
		rows = append(rows, each...)
	}
	if err = m.ask(flights, rows); err != nil {
		return nil, err
	}
	for i, row := range m.flightRow {
		m.percents = append(m.percents, 100-fullMarks*(m.pool.Means[i]+m.means[0]-m.means[row]))
	}
	m.present, err = stats.NewPresent(presentSeries(flights, m.percents, day))
	return m, err
}

// ask asks the fit for rows, and for the flights behind them.
func (m *forecastModel) ask(flights []*season.Flight, rows []stats.ShareRow) error {
	places := map[string]int{}
	for i, f := range flights {
		key := sameCells(f)
		if _, known := places[key]; !known {
			places[key] = len(rows)
			rows = append(rows, m.pool.Rows[i])
		}
		m.flightRow = append(m.flightRow, places[key])
	}
	var err error
	if m.means, m.covariance, err = m.fit.Ask(rows); err != nil {
		return err
	}
	m.covariance.ScaleSym(fullMarks*fullMarks, m.covariance)
	return nil
}

// sameCells names the figures that a flight's costs are of.
func sameCells(f *season.Flight) string {
	key := []byte(f.Sequence.Handle + "\n")
	for _, c := range costCells(f) {
		key = append(key, byte(c.number), byte(c.number>>8))
	}
	return string(key)
}

// next is the percent of a flight of the sequence to come.
func (m *forecastModel) next() stats.StudentMixture {
	return m.present.NextOf(m.covariance, 0, m.flightRow, 0)
}

// figure is the percent of one figure of the sequence alone, by its index.
func (m *forecastModel) figure(i int) stats.StudentMixture {
	mixture := m.present.NextOf(m.covariance, 1+i, m.flightRow, fullMarks*fullMarks*m.chance())
	for j := range mixture.Centres {
		mixture.Centres[j] += fullMarks * (m.means[0] - m.means[1+i])
	}
	return mixture
}

// chance is the variance of a figure alone beyond that of a flight: of what a
// figure's cost varies by, a flight's mean has the sum of its squared weights
// already.
func (m *forecastModel) chance() float64 {
	if !m.fit.Pooled {
		return 0
	}
	squares := 0.0
	for _, row := range m.pool.Rows {
		for _, u := range row.Units {
			squares += u.Share * u.Share
		}
	}
	return m.pool.Variance * (1 - squares/float64(len(m.pool.Rows)))
}
