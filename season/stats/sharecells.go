package stats

import "fmt"

// ShareCell is one sighting: of a Unit, in a Group, both numbered from 0, with a
// weight in the group. Shares are the unit's parts. A Unit below 0 counts in its
// group's mean alone.
type ShareCell struct {
	Group, Unit   int
	Value, Weight float64
	Shares        []float64
}

// SharePool is what cells come to: the data of [FitShares] but for Level and
// Step, and each group's weighted means over its cells, of the value and, with the
// unit's shares in it, as a row to be asked.
type SharePool struct {
	ShareData
	Means []float64
	Rows  []ShareRow
}

// PoolShares compares each cell with its group's weighted mean. Z is a unit's mean
// difference, Variance the pooled variance of the differences within units, on DF
// = sightings - units. Centred also takes the group's mean shares from the unit's.
// A unit's shares are those of its cells, which are all alike.
//
// It fails with ErrTooFew without a cell of a unit, ErrShape where units or groups
// are not numbered without a gap or shares differ in number, ErrRange for values
// that are not finite or weights not above 0. With no unit seen twice DF and
// Variance are 0. [derived].
func PoolShares(cells []ShareCell, parts int, centred bool) (*SharePool, error) {
	groups, units, err := checkCells(cells, parts)
	if err != nil {
		return nil, err
	}
	p := &SharePool{Means: make([]float64, groups), Rows: make([]ShareRow, groups)}
	if err := p.groupMeans(cells, parts); err != nil {
		return nil, err
	}
	p.Z, p.Times, p.Shares = make([]float64, units), make([]float64, units), rowsOf(units, parts)
	for _, c := range cells {
		if c.Unit >= 0 {
			p.Z[c.Unit] += c.Value - p.Means[c.Group]
			p.Times[c.Unit]++
			addScaled(p.Shares[c.Unit], c.Shares, 1)
			if centred {
				addScaled(p.Shares[c.Unit], p.Rows[c.Group].Parts, -1)
			}
		}
	}
	for i, times := range p.Times {
		if times == 0 {
			return nil, fmt.Errorf("%w: unit %d has no cell", ErrShape, i)
		}
		p.Z[i] /= times
		for j := range p.Shares[i] {
			p.Shares[i][j] /= times
		}
	}
	p.within(cells)
	return p, nil
}

func checkCells(cells []ShareCell, parts int) (groups, units int, err error) {
	for _, c := range cells {
		if c.Group < 0 || c.Group > largestCount || c.Unit > largestCount {
			return 0, 0, fmt.Errorf("%w: group %d, unit %d", ErrShape, c.Group, c.Unit)
		}
		if c.Unit >= 0 && len(c.Shares) != parts {
			return 0, 0, fmt.Errorf("%w: %d shares of %d parts", ErrShape, len(c.Shares), parts)
		}
		if err := checkValues([]float64{c.Value}, c.Shares); err != nil {
			return 0, 0, err
		}
		if err := checkPositive([]float64{c.Weight}); err != nil {
			return 0, 0, err
		}
		groups, units = max(groups, c.Group+1), max(units, c.Unit+1)
	}
	if units == 0 {
		return 0, 0, tooFew(0, 1)
	}
	return groups, units, nil
}

// rowsOf are so many rows of nothing yet, in one piece of memory.
func rowsOf(rows, columns int) [][]float64 {
	all, list := make([]float64, rows*columns), make([][]float64, rows)
	for i := range list {
		list[i] = all[i*columns : (i+1)*columns : (i+1)*columns]
	}
	return list
}

// groupMeans fills Means and Rows.
func (p *SharePool) groupMeans(cells []ShareCell, parts int) error {
	weights, units := make([]float64, len(p.Means)), make([]int, len(p.Means))
	for _, c := range cells {
		weights[c.Group] += c.Weight
		if c.Unit >= 0 {
			units[c.Group]++
		}
	}
	room := make([]UnitShare, len(cells))
	for i, row := range rowsOf(len(p.Rows), parts) {
		if weights[i] == 0 {
			return fmt.Errorf("%w: group %d has no cell", ErrShape, i)
		}
		p.Rows[i].Parts = row
		p.Rows[i].Units, room = room[:0:units[i]], room[units[i]:]
	}
	for _, c := range cells {
		share, row := c.Weight/weights[c.Group], &p.Rows[c.Group]
		p.Means[c.Group] += share * c.Value
		if c.Unit >= 0 {
			addScaled(row.Parts, c.Shares, share)
			row.Units = append(row.Units, UnitShare{c.Unit, share})
		}
	}
	return nil
}

// within pools the variance of the differences about their units.
func (p *SharePool) within(cells []ShareCell) {
	squares := 0.0
	for _, c := range cells {
		if c.Unit >= 0 {
			off := c.Value - p.Means[c.Group] - p.Z[c.Unit]
			squares += off * off
			p.DF++
		}
	}
	if p.DF -= len(p.Z); p.DF > 0 {
		p.Variance = squares / float64(p.DF)
	}
}
