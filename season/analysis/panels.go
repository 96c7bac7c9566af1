package analysis

import (
	"math"
	"slices"

	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/stats"
)

// Panels is what a selection of flights says of its judges. Judges who never
// sat together, not even through a chain of panels, are in different parts and
// are not compared.
type Panels struct {
	Judges  []SeasonJudge
	Flags   []MarkFlag
	Flights []FlightPanel
	// Zeros are the marks that stand alone about a zero, which no other number here
	// takes in.
	Zeros []ZeroAlone
	// Parts says of each part whether any judge differs from the others by more
	// than chance.
	Parts []PanelPart
}

// SeasonJudge is one judge over the selection, relative to the part. Leniency
// is shrunken towards the part's mean by how much of the judges' spread is
// chance; Raw is as fitted. Grades counts the grades, Flights the flights. Apart
// says that the judge differs from the part by more than chance; Drawn that this is
// so only by the mean that others draw, far on the other side, which those have in Draws.
// Hidden says that the judge differs from the others by more than chance once those are left
// out who have Hides, far from all; Without is the leniency then, shrunken as well.
type SeasonJudge struct {
	JudgeCheck
	// At is where the name means this person: a contest's handle or a flight's
	// name for a seat, "" for a name that is one everywhere.
	At      string
	Part    int
	Raw     float64
	Grades  int
	Flights int
	Apart   bool
	Drawn   bool
	Draws   bool
	Hidden  bool
	Hides   bool
	Without float64
	// Flagged counts the lone grades, which are in no other number here. Times is the
	// judge's scatter over that of the others, 0 where it is not larger by more than
	// chance.
	Flagged int
	Times   float64
}

// PanelPart is a set of judges who can be compared. Between is the standard
// deviation of their levels, 0 where no judge differs from the panel by more
// than chance.
type PanelPart struct {
	Between, Scatter float64
}

// FlightPanel is one flight's panel check.
type FlightPanel struct {
	Flight *season.Flight
	Check  PanelCheck
}

// judgeKey is who a judge is over a season: a seat (one letter, or J and a
// number) means a person only within its contest, or within its flight where
// that names none.
type judgeKey struct{ name, at string }

func judgeOf(f *season.Flight, name string) judgeKey {
	switch {
	case !season.IsSeat(name):
		return judgeKey{name: name}
	case f.Contest != nil:
		return judgeKey{name, f.Contest.Handle}
	default:
		return judgeKey{name, f.Name}
	}
}

// PanelsOf looks at the contest flights of a selection: practice apart, void
// flights apart.
func PanelsOf(l *season.Ledger, s season.Selection) Panels {
	var out Panels
	var flights []*season.Flight
	for _, f := range l.Select(s) {
		if !f.Counts() || !f.Contested() || !f.HasMarks() {
			continue
		}
		flights = append(flights, f)
	}
	CheckPanels(flights)
	for _, f := range flights {
		out.Zeros = append(out.Zeros, zerosAlone(f)...)
		if check, ok := CheckPanel(f); ok {
			out.Flights = append(out.Flights, FlightPanel{f, check})
			out.Flags = append(out.Flags, check.Flags...)
		}
	}
	out.joinJudges(flights)
	return out
}

// ZeroAlone is a zero where most of the panel gave a grade, or a grade where most gave
// a zero.
type ZeroAlone struct {
	Flight *season.Flight
	Figure int
	Judge  string
	Mark   scoring.Mark
}

// zerosAlone lists a flight's marks that less than half of the judges who gave one
// share, as far as zeros go.
func zerosAlone(f *season.Flight) []ZeroAlone {
	var alone []ZeroAlone
	for i := range f.Rows.Len() {
		marks := f.Rows.Marks(i)
		zeros, given := 0, 0
		for _, m := range marks {
			if m.FigureOnly() {
				zeros++
			}
			if m.FigureOnly() || m.Kind == scoring.Grade {
				given++
			}
		}
		few := 2*zeros < given
		if zeros == 0 || zeros == given || 2*zeros == given {
			continue
		}
		for j, m := range marks {
			if m.FigureOnly() == few && (few || m.Kind == scoring.Grade) {
				alone = append(alone, ZeroAlone{f, i + 1, f.Panel[j], m})
			}
		}
	}
	return alone
}

// seasonTable is the grades of many flights: a row a figure flown, a column a
// judge. Flagged grades are left out.
type seasonTable struct {
	stats.Table
	judges  []judgeKey
	flights []map[*season.Flight]bool
}

func (o *Panels) seasonTable(flights []*season.Flight) seasonTable {
	var t seasonTable
	for _, f := range flights {
		table, cells := gradeTable(f)
		columns := make([]int, len(f.Panel))
		for j, name := range f.Panel {
			columns[j] = t.column(judgeOf(f, name))
			t.flights[columns[j]][f] = true
		}
		for i, cell := range table.Cells {
			if !o.flagged(f, cells[i]) {
				t.Cells = append(t.Cells, stats.Cell{Row: t.Rows + cell.Row, Column: columns[cells[i].judge], Value: cell.Value})
			}
		}
		t.Rows += table.Rows
	}
	t.Columns = len(t.judges)
	return t
}

func (t *seasonTable) column(judge judgeKey) int {
	if i := slices.Index(t.judges, judge); i >= 0 {
		return i
	}
	t.judges = append(t.judges, judge)
	t.flights = append(t.flights, map[*season.Flight]bool{})
	return len(t.judges) - 1
}

func (o *Panels) flagged(f *season.Flight, c gradeCell) bool {
	return slices.ContainsFunc(o.Flags, func(flag MarkFlag) bool {
		return flag.Flight == f && flag.Line == scoring.Figure && flag.Figure == c.figure && flag.Judge == f.Panel[c.judge]
	})
}

// joinJudges fits each connected part of the season's grades.
func (o *Panels) joinJudges(flights []*season.Flight) {
	t := o.seasonTable(flights)
	parts, err := t.Parts()
	if err != nil {
		return
	}
	var fits []fittedPart
	judges := 0
	for _, part := range parts {
		if fitted, ok := fitPart(part); ok {
			fits, judges = append(fits, fitted), judges+len(fitted.checks)
		}
	}
	for _, fitted := range fits {
		o.addPart(t, fitted, judges)
	}
}

// fittedPart is a part of the grades with its fit, each column's shrunken level and
// whether that is apart.
type fittedPart struct {
	stats.Part
	fit        stats.TwoWay
	components stats.Components
	checks     []JudgeCheck
	levels     []float64
	apart      []bool
}

// fitPart fits a part; false where it has too few judges or figures.
func fitPart(part stats.Part) (fittedPart, bool) {
	p := fittedPart{Part: part}
	if len(part.Columns) < PanelJudges || len(part.Rows) < PanelFigures {
		return p, false
	}
	var err error
	if p.fit, err = stats.FitTwoWay(part.Table); err != nil {
		return p, false
	}
	if p.components, err = stats.VarianceComponents(part.Table, p.fit); err != nil {
		return p, false
	}
	p.checks = judgeChecks(make([]string, len(part.Columns)), part.Table, p.fit)
	p.levels, _ = p.components.ShrinkColumns(p.fit)
	for i := range p.checks {
		p.apart = append(p.apart, p.apartAmong(i, 1))
	}
	return p, true
}

// farTimes is how many times as far another must lie on the other side to be what makes a
// judge apart: of two about as far nobody can say which of them draws the mean.
const farTimes = 1.5

// drawnBy are the columns, apart on the other side and far, on account of which alone a
// column is apart: the mean that it is held against is drawn to them. None where it is apart
// without them too, or where nothing is left to hold it against.
func (p fittedPart) drawnBy(column int) []int {
	var far []int
	for c, l := range p.levels {
		if level := p.levels[column]; p.apart[c] && l*level < 0 && math.Abs(l) >= farTimes*math.Abs(level) {
			far = append(far, c)
		}
	}
	if !p.apart[column] || len(far) == 0 {
		return nil
	}
	for _, without := range p.without(far) {
		if i := slices.Index(without.Columns, column); i >= 0 && !without.apart[i] {
			return far
		}
	}
	return nil
}

// without fits what is left of a part without some columns; that may fall into several
// parts, and those too small to be fitted are not among them.
func (p fittedPart) without(columns []int) []fittedPart {
	rest := stats.Table{Rows: p.Table.Rows, Columns: p.Table.Columns}
	for _, cell := range p.Table.Cells {
		if !slices.Contains(columns, cell.Column) {
			rest.Cells = append(rest.Cells, cell)
		}
	}
	parts, err := rest.Parts()
	if err != nil {
		return nil
	}
	var left []fittedPart
	for _, part := range parts {
		if fitted, ok := fitPart(part); ok {
			left = append(left, fitted)
		}
	}
	return left
}

// drawnAll are of each column the columns on account of which alone it is apart, by drawnBy
// and, where few on one side are held against many alike on the other, by minority. Whoever
// else is apart on the other side than those who draw is held against the rest without them
// too, so that of several alike none is named alone.
func (p fittedPart) drawnAll() [][]int {
	drawn := make([][]int, len(p.levels))
	if far := p.minority(); len(far) > 0 {
		return p.drawnWithout(far, drawn)
	}
	for i := range drawn {
		drawn[i] = p.drawnBy(i)
	}
	for _, side := range []float64{-1, 1} {
		var far []int
		for i, by := range drawn {
			if p.levels[i]*side < 0 {
				far = append(far, by...)
			}
		}
		slices.Sort(far)
		drawn = p.drawnWithout(slices.Compact(far), drawn)
	}
	return drawn
}

// drawnWithout adds to who is drawn those apart on the other side than some who are no longer
// apart once these are left out.
func (p fittedPart) drawnWithout(far []int, drawn [][]int) [][]int {
	if len(far) == 0 {
		return drawn
	}
	for _, without := range p.without(far) {
		for i, c := range without.Columns {
			if p.apart[c] && p.levels[c]*p.levels[far[0]] < 0 && !without.apart[i] {
				drawn[c] = far
			}
		}
	}
	return drawn
}

// minority are the columns on one side that have fewer grades than those who lie together on
// the other, where all the rest are alike without them: first those who are apart, then with
// them all of their side who have at most half of the grades that another has, too few to be
// apart. None where nobody on the other side is apart.
func (p fittedPart) minority() []int {
	most := slices.Max(p.components.ColumnCounts)
	for _, whole := range []bool{false, true} {
		for _, side := range []float64{-1, 1} {
			var far []int
			grades, apart := 0, false
			for c, l := range p.levels {
				if l*side > 0 && (p.apart[c] || whole && 2*p.components.ColumnCounts[c] <= most) {
					far, grades, apart = append(far, c), grades+p.components.ColumnCounts[c], apart || p.apart[c]
				}
			}
			if apart && grades < p.together(-side) && p.alikeWithout(far) {
				return far
			}
		}
	}
	return nil
}

// together counts the grades of those on one side who lie at least a third as far as its
// farthest who is apart; 0 where nobody there is.
func (p fittedPart) together(side float64) int {
	farthest := 0.0
	for c, l := range p.levels {
		if p.apart[c] {
			farthest = max(farthest, l*side)
		}
	}
	grades := 0
	for c, l := range p.levels {
		if farthest > 0 && 3*l*side >= farthest {
			grades += p.components.ColumnCounts[c]
		}
	}
	return grades
}

// alikeWithout says whether all who are left without some can be compared and none of them
// is apart, at the chance for one over all of them.
func (p fittedPart) alikeWithout(far []int) bool {
	left := p.without(far)
	if len(left) != 1 || len(left[0].Columns) != len(p.levels)-len(far) {
		return false
	}
	for i := range left[0].levels {
		if left[0].apartAmong(i, len(left[0].levels)) {
			return false
		}
	}
	return true
}

// farthest is the column that is apart and farTimes as far as every other; none where
// there is no such.
func (p fittedPart) farthest() []int {
	for c, l := range p.levels {
		near := func(i int) bool { return i != c && math.Abs(l) < farTimes*math.Abs(p.levels[i]) }
		if p.apart[c] && !slices.ContainsFunc(everybody(len(p.levels)), near) {
			return []int{c}
		}
	}
	return nil
}

// hiddenBy are the levels of the columns that are apart only once some are left out, with
// what they are apart by then. They are looked for only since those are far, so the chance
// holds for all of a fit that are looked at together.
func (p fittedPart) hiddenBy(far []int) map[int]float64 {
	hidden := map[int]float64{}
	if len(far) == 0 {
		return hidden
	}
	for _, without := range p.without(far) {
		looked := slices.DeleteFunc(slices.Clone(without.Columns), func(c int) bool { return p.apart[c] })
		for i, c := range without.Columns {
			if slices.Contains(looked, c) && without.apartAmong(i, len(looked)) {
				hidden[c] = without.levels[i]
			}
		}
	}
	return hidden
}

// chance is the chance at which a column is as far from the others.
func (p fittedPart) chance(column int) float64 {
	return stats.OwnError{SE: p.checks[column].SE, DF: p.fit.Own[column].DF}.P(p.levels[column])
}

// apartAmong reports whether a column is apart by more than chance, at the chance for one
// over so many that are looked at.
func (p fittedPart) apartAmong(column, looked int) bool {
	return p.components.Column > 0 && p.chance(column)*float64(looked) < JudgeChance
}

// JudgeChance is the chance at which a judge differs from the part by more than
// chance, of each judge: that of two standard errors where they rest on many grades.
const JudgeChance = 0.0455

// UnevenTimes is how many times the others' scatter a judge's must be to be worth a
// word, at a chance of FlagChance over all judges of all parts; beside one who scatters
// as much and is not named, none is.
const UnevenTimes = 1.5

// flaggedOf counts a judge's lone grades.
func (o *Panels) flaggedOf(judge judgeKey) int {
	n := 0
	for _, flag := range o.Flags {
		if judgeOf(flag.Flight, flag.Judge) == judge {
			n++
		}
	}
	return n
}

// addPart adds the judges of one part, as fitted and shrunken, of so many of all parts.
func (o *Panels) addPart(t seasonTable, part fittedPart, judges int) {
	uneven := part.fit.Uneven(part.Table, gradeRounding)
	o.Parts = append(o.Parts, PanelPart{Between: math.Sqrt(part.components.Column), Scatter: part.fit.Sigma})
	drawn := part.drawnAll()
	draw := slices.Concat(drawn...)
	far := draw
	if len(far) == 0 {
		far = part.farthest()
	}
	hidden := part.hiddenBy(far)
	for i, check := range part.checks {
		c := part.Columns[i]
		check.Name = t.judges[c].name
		judge := SeasonJudge{
			JudgeCheck: check, At: t.judges[c].at, Part: len(o.Parts), Raw: check.Leniency,
			Grades: part.components.ColumnCounts[i], Flights: len(t.flights[c]),
			Apart: part.apart[i], Drawn: len(drawn[i]) > 0, Flagged: o.flaggedOf(t.judges[c]),
		}
		judge.Leniency, judge.Draws = part.levels[i], slices.Contains(draw, i)
		judge.Without, judge.Hidden = hidden[i]
		judge.Hides = len(hidden) > 0 && slices.Contains(far, i)
		if uneven[i].Times >= UnevenTimes && uneven[i].P*float64(judges) <= FlagChance {
			judge.Times = uneven[i].Times
		}
		o.Judges = append(o.Judges, judge)
	}
	acquitAlike(o.Judges[len(o.Judges)-len(part.checks):])
}

// asMuch is the part of a judge's scatter from which on another scatters as much, to
// what readers can tell.
const asMuch = 0.95

// acquitAlike names no judge of a part as uneven beside whom another scatters as much
// without being named: chance alone tells these two apart.
func acquitAlike(judges []SeasonJudge) {
	most := 0.0
	for _, j := range judges {
		if j.Times == 0 {
			most = max(most, j.Scatter)
		}
	}
	for i := range judges {
		if judges[i].Scatter*asMuch <= most {
			judges[i].Times = 0
		}
	}
}
