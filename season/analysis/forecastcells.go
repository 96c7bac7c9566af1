package analysis

import (
	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/stats"
)

// costCell is one figure of a flight that was decided, was not zeroed and has a
// family: what it cost off full marks, its K, its shares by family, which sum to 1,
// and the marks it rests on.
type costCell struct {
	number  int // of the figure
	cost, k float64
	shares  []float64
	marks   int
}

// costCells are a flight's.
func costCells(f *season.Flight) []costCell {
	return costsOf.Of(f, func() []costCell { return workCosts(f) })
}

var costsOf = season.NewQuestion[[]costCell]("costs")

func workCosts(f *season.Flight) []costCell {
	var cells []costCell
	score := f.Score()
	for i, index := range f.Flown() {
		line, figure := score.Lines[i], f.Sequence.Figures[index]
		shares := figureShares(figure)
		if line.Mean == nil || shares == nil || figure.K == 0 || season.Zeroed(f.Rows.Marks(index), line) {
			continue
		}
		mean, _ := line.Mean.Float64()
		cells = append(cells, costCell{index + 1, fullMarks - mean, float64(figure.K), shares, given(f.Rows.Marks(index))})
	}
	return cells
}

// given counts the marks that a judge gave.
func given(marks []scoring.Mark) int {
	n := 0
	for _, m := range marks {
		if m.Kind != scoring.NotSeen && m.Kind != scoring.Absent {
			n++
		}
	}
	return n
}

// figureShares are a figure's K shares by family, nil where it has none.
func figureShares(figure season.Figure) []float64 { return sharesOf(figure, season.Groups) }

// rounding is the variance that half points leave in one judge's grade, a twelfth
// of a half point squared.
const rounding = 0.5 * 0.5 / 12

// costPool is what flights say of figures: a part for each family that they or the
// sequence asked about have, and, behind them, one for each figure asked about that
// has none; a unit a distinct figure. A family that neither has changes nothing.
type costPool struct {
	*stats.SharePool
	units    map[*season.Sequence]sequenceUnits
	levels   []int // the units' sequences, by number
	families []int // their places in season.Groups
	parts    int
}

// sequenceUnits are the units of a sequence's figures, -1 for one that was not flown,
// and the sequence's number.
type sequenceUnits struct {
	level int
	of    []int
}

// gridStep is the width of the grid of standard deviations, in grades.
const gridStep = 0.1

// newCostPool pools the costs of flights, for what is asked of a sequence.
func newCostPool(flights []*season.Flight, seq *season.Sequence) (costPool, error) {
	p := costPool{units: map[*season.Sequence]sequenceUnits{}}
	cells, shares, marks := p.sightings(flights)
	p.families = familiesAmong(shares, seq)
	p.parts = len(p.families) + len(bareFigures(seq))
	for i, narrow := range shares {
		shares[i] = p.wide(narrow)
	}
	for i := range cells {
		cells[i].Shares = shares[cells[i].Unit]
	}
	var err error
	if p.SharePool, err = stats.PoolShares(cells, p.parts, true); err != nil {
		return p, err
	}
	p.Level, p.Step = p.levels, gridStep
	p.Variance = max(p.Variance, rounding*float64(len(cells))/float64(marks))
	return p, nil
}

// sightings are the cells of flights, their shares still to come, each unit's shares
// by family, and how many marks they rest on. It numbers the units and levels.
func (p *costPool) sightings(flights []*season.Flight) (cells []stats.ShareCell, shares [][]float64, marks int) {
	size := 0
	for _, f := range flights {
		size += len(costCells(f))
	}
	cells = make([]stats.ShareCell, 0, size)
	for group, f := range flights {
		costs := costCells(f)
		if len(costs) == 0 {
			continue
		}
		units := p.unitsOf(f.Sequence)
		for _, c := range costs {
			unit := &units.of[c.number-1]
			if *unit < 0 {
				*unit = len(shares)
				shares, p.levels = append(shares, c.shares), append(p.levels, units.level)
			}
			marks += c.marks
			cells = append(cells, stats.ShareCell{Group: group, Unit: *unit, Value: c.cost, Weight: c.k})
		}
	}
	return cells, shares, marks
}

// unitsOf are the units of a sequence's figures, which is a level of its own.
func (p *costPool) unitsOf(seq *season.Sequence) sequenceUnits {
	units, known := p.units[seq]
	if !known {
		units = sequenceUnits{level: len(p.units), of: make([]int, len(seq.Figures))}
		for i := range units.of {
			units.of[i] = -1
		}
		p.units[seq] = units
	}
	return units
}

// familiesAmong are the families that shares have, and a sequence's figures, as
// places in season.Groups.
func familiesAmong(shares [][]float64, seq *season.Sequence) []int {
	has := make([]bool, len(season.Groups))
	add := func(shares []float64) {
		for i, share := range shares {
			has[i] = has[i] || share != 0
		}
	}
	for _, row := range shares {
		add(row)
	}
	for _, figure := range seq.Figures {
		add(figureShares(figure))
	}
	var families []int
	for i, h := range has {
		if h {
			families = append(families, i)
		}
	}
	return families
}

// wide gives shares by family as those of the parts.
func (p costPool) wide(shares []float64) []float64 {
	wide := make([]float64, p.parts)
	for i, family := range p.families {
		if shares != nil {
			wide[i] = shares[family]
		}
	}
	return wide
}

// asked are the rows of figures of a sequence, by index: of all together, K as
// weights, and of each. A figure that was flown is its own unit, another one a new
// unit; one without a family has a part of its own.
func (p *costPool) asked(seq *season.Sequence, figures []int) (whole stats.ShareRow, alone []stats.ShareRow) {
	whole.Parts = make([]float64, p.parts)
	units := p.unitsOf(seq)
	bare, total := len(p.families), 0.0
	for _, i := range figures {
		total += float64(seq.Figures[i].K)
	}
	for _, i := range figures {
		shares := p.wide(figureShares(seq.Figures[i]))
		if !hasFamily(seq.Figures[i]) {
			shares[bare] = 1
			bare++
		}
		unit := units.of[i]
		if unit < 0 {
			unit = len(p.Z) + i
		}
		k := float64(seq.Figures[i].K) / total
		alone = append(alone, stats.ShareRow{Parts: shares, Units: []stats.UnitShare{{Unit: unit, Share: 1}}})
		for j, x := range shares {
			whole.Parts[j] += k * x
		}
		whole.Units = append(whole.Units, stats.UnitShare{Unit: unit, Share: k})
	}
	return whole, alone
}

func hasFamily(figure season.Figure) bool { return figureShares(figure) != nil }

// bareFigures are the numbers of a sequence's figures without a family.
func bareFigures(seq *season.Sequence) []int {
	var numbers []int
	for i, figure := range seq.Figures {
		if !hasFamily(figure) {
			numbers = append(numbers, i+1)
		}
	}
	return numbers
}
