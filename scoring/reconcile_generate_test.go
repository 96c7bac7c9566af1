package scoring

import (
	"math"
	"math/big"
	"math/rand/v2"
)

// reconcileMaker draws flights as contests have them, for the tests of the
// reconciliation.
type reconcileMaker struct{ *rand.Rand }

func newReconcileMaker(seed uint64) reconcileMaker {
	return reconcileMaker{rand.New(rand.NewPCG(seed, 20260418))}
}

// flight draws 6 to 15 figures marked by 1 to 7 judges. Half of the flights
// have positioning and a penalty, one in ten of these harmony as well.
func (m reconcileMaker) flight() Sheet {
	sheet := Sheet{Judges: 1 + m.IntN(7), Style: m.style()}
	leniency := make([]float64, sheet.Judges)
	for j := range leniency {
		leniency[j] = 0.4 * m.NormFloat64()
	}
	pilot := 6.8 + 0.7*m.NormFloat64()
	for range 6 + m.IntN(10) {
		sheet.Lines = append(sheet.Lines, m.line(Figure, m.figureK(), pilot, leniency))
	}
	if m.IntN(2) == 0 {
		return sheet
	}
	sheet.Lines = append(sheet.Lines, m.line(Positioning, 5*(1+m.IntN(8)), pilot, leniency))
	if m.IntN(10) == 0 {
		sheet.Lines = append(sheet.Lines, m.line(Harmony, 10, pilot, leniency))
	}
	for range 1 + m.IntN(6)/5 {
		sheet.Penalties = append(sheet.Penalties, Decimal{Units: []int64{10, 20, 30, 50, 70, 100, 150}[m.IntN(7)]})
	}
	return sheet
}

// figureK adds a base figure's K and up to three elements'.
func (m reconcileMaker) figureK() int {
	k := 3 + m.IntN(18)
	for range m.IntN(4) {
		k += 2 + m.IntN(11)
	}
	return k
}

func (m reconcileMaker) style() Style {
	switch m.IntN(10) {
	case 0:
		return Style{FillRounding: ToTenth}
	case 1:
		return Style{FillRounding: ToHalf}
	case 2, 3:
		return Style{DropExtremes: true}
	case 4, 5:
		return Style{HardZero: AsGiven}
	default:
		return Style{}
	}
}

// line draws one row: the figure goes as it goes, each judge sees it with a
// leniency and a scatter of the judge's own. One figure in twenty is a hard
// zero, which most of the panel see; one in forty a perception zero to some.
func (m reconcileMaker) line(kind LineKind, k int, pilot float64, leniency []float64) Line {
	line := Line{Kind: kind, K: k, Marks: make([]Mark, len(leniency))}
	flown := pilot + 1.1*m.NormFloat64()
	zero, seen := PerceptionZero, 0.0
	if kind == Figure {
		switch event := m.Float64(); {
		case event < 0.05:
			zero, seen = HardZero, 0.6
		case event < 0.075:
			zero, seen = PerceptionZero, 0.4
		}
	}
	for j := range line.Marks {
		half := int(math.Round(2 * (flown + leniency[j] + 0.5*m.NormFloat64())))
		line.Marks[j] = GradeOf(min(max(half, 0), TopGrade))
		switch event := m.Float64(); {
		case event < seen:
			line.Marks[j] = Mark{Kind: zero}
		case event > 0.985:
			line.Marks[j] = Mark{Kind: NotSeen}
		}
	}
	return line
}

// decidedFlight draws until every line has a value and some points are left.
func (m reconcileMaker) decidedFlight() (Sheet, Score) {
	for {
		sheet := m.flight()
		if score := sheet.Score(); score.Decided() && score.Points.Sign() > 0 {
			return sheet, score
		}
	}
}

// printedWith prints points with so many decimals, half away from zero.
func printedWith(points *big.Rat, places int) Decimal {
	printed, ok := ParseDecimal(points.FloatString(places))
	if !ok {
		panic("not a printable total: " + points.String())
	}
	return printed
}

// slip is one thing that the printed total has otherwise than the sheet: the
// points it gives and how to know it among the explanations.
type slip struct {
	class  string
	points *big.Rat
	is     func(Explanation) bool
}

// slipClass says what is disturbed.
type slipClass int

const (
	slipRules slipClass = iota
	slipPenalty
	slipMark
	slipJudge
	slipK
	slipRows
	slipAllRows
	slipTwoK
)

// drawSlip draws slips of a class until one changes the total, printed with so
// many decimals. plausible draws them as people make them, else all alternatives
// alike.
func (m reconcileMaker) drawSlip(class slipClass, plausible bool, places int) (Sheet, Score, slip, Decimal) {
	for {
		sheet, score := m.decidedFlight()
		for range 20 {
			var s slip
			switch class {
			case slipRules:
				s = m.rulesSlip(sheet, score)
			case slipPenalty:
				s = m.penaltySlip(score)
			case slipRows:
				s = m.rowsSlip(sheet, m.IntN(sheet.Judges))
			case slipAllRows:
				s = m.rowsSlip(sheet, wholePanel)
			case slipTwoK:
				s = m.twoKSlip(sheet)
			case slipMark:
				s = m.markSlip(sheet, plausible)
			case slipJudge:
				s = m.judgeSlip(sheet)
			default:
				s = m.kSlip(sheet, plausible)
			}
			if s.points == nil || s.points.Sign() <= 0 {
				continue
			}
			if printed := printedWith(s.points, places); printed.Units > 0 && !Agrees(score.Points, printed) {
				return sheet, score, s, printed
			}
		}
	}
}

// rulesSlip draws one of the settings. It is written from the list of the
// settings, not from the search.
func (m reconcileMaker) rulesSlip(sheet Sheet, score Score) slip {
	other := sheet
	without := func(kind LineKind) slip {
		other.Lines = nil
		for _, line := range sheet.Lines {
			if line.Kind != kind {
				other.Lines = append(other.Lines, line)
			}
		}
		return slip{"line left out", other.Score().Points, func(e Explanation) bool {
			return e.Kind == KindRules && len(e.Without) == 1 && e.Without[0] == kind
		}}
	}
	penalty := func(times *big.Rat) slip {
		whole := new(big.Rat).Mul(score.Penalty, times)
		points := new(big.Rat).Sub(score.Raw, whole)
		return slip{"penalty", points, func(e Explanation) bool {
			return e.Kind == KindRules && e.Penalty != nil && e.Penalty.Cmp(whole) == 0
		}}
	}
	style := func() slip {
		return slip{"style", other.Score().Points, func(e Explanation) bool {
			return e.Kind == KindRules && e.Style != nil && *e.Style == other.Style
		}}
	}
	switch m.IntN(10) {
	case 0:
		other.Style.FillRounding = (other.Style.FillRounding + 1) % 3
		return style()
	case 1:
		other.Style.FillRounding = (other.Style.FillRounding + 2) % 3
		return style()
	case 2:
		other.Style.HardZero = AsGiven - other.Style.HardZero
		return style()
	case 3:
		other.Style.DropExtremes = !other.Style.DropExtremes
		return style()
	case 4:
		return without(Positioning)
	case 5:
		return without(Harmony)
	case 6:
		return penalty(new(big.Rat))
	case 7:
		return penalty(big.NewRat(2, 1))
	case 8:
		return penalty(big.NewRat(int64(sheet.Judges), 1))
	default:
		return penalty(big.NewRat(1, int64(sheet.Judges)))
	}
}

// markSlip draws one cell and another mark for it.
func (m reconcileMaker) markSlip(sheet Sheet, plausible bool) slip {
	at, j := m.IntN(len(sheet.Lines)), m.IntN(sheet.Judges)
	line := sheet.Lines[at]
	was := line.Marks[j]
	would := m.anyMark(line.Kind)
	if plausible && was.Kind == Grade {
		would = m.misread(was, line.Kind)
	}
	other := sheet
	other.Lines = append([]Line(nil), sheet.Lines...)
	other.Lines[at].Marks = append([]Mark(nil), line.Marks...)
	other.Lines[at].Marks[j] = would
	number := 0
	if line.Kind == Figure {
		number = at + 1
	}
	return slip{"mark: " + stepClass(was, would), other.Score().Points, func(e Explanation) bool {
		if e.Kind != KindMark || e.Line != line.Kind || e.Figure != number {
			return false
		}
		for _, cell := range e.Cells {
			if cell == (CellChange{Judge: panelNames[j], Line: line.Kind, Figure: number, Was: was, Would: would}) {
				return true
			}
		}
		return false
	}}
}

func (m reconcileMaker) anyMark(kind LineKind) Mark {
	n := m.IntN(24)
	switch {
	case n <= TopGrade:
		return GradeOf(n)
	case n == 21 || kind != Figure:
		return Mark{Kind: NotSeen}
	case n == 22:
		return Mark{Kind: HardZero}
	default:
		return Mark{Kind: PerceptionZero}
	}
}

// misread draws a mark as a hurried hand or eye makes it: mostly half a point
// or one point out, now and then more, or a zero or a gap for the grade.
func (m reconcileMaker) misread(was Mark, kind LineKind) Mark {
	step := 1
	switch event := m.Float64(); {
	case event < 0.10:
		return m.anyMark(kind)
	case event < 0.20:
		if kind != Figure {
			return Mark{Kind: NotSeen}
		}
		return []Mark{{Kind: HardZero}, {Kind: NotSeen}, {Kind: NotSeen}, {Kind: PerceptionZero}}[m.IntN(4)]
	case event < 0.30:
		step = 3 + m.IntN(4)
	case event < 0.60:
		step = 2
	}
	if m.IntN(2) == 0 {
		step = -step
	}
	return GradeOf(min(max(int(was.Half)+step, 0), TopGrade))
}

// stepClass names the rows of the table.
func stepClass(was, would Mark) string {
	if was.Kind != Grade || would.Kind != Grade {
		return "HZ, PZ, AV"
	}
	switch step := int(would.Half) - int(was.Half); step {
	case 1, -1:
		return "half a point"
	case 2, -2:
		return "one point"
	case 3, -3, 4, -4:
		return "1.5 or 2 points"
	default:
		return "more"
	}
}

// judgeSlip leaves one sheet out.
func (m reconcileMaker) judgeSlip(sheet Sheet) slip {
	if sheet.Judges < 2 {
		return slip{}
	}
	j := m.IntN(sheet.Judges)
	other := Sheet{Judges: sheet.Judges - 1, Penalties: sheet.Penalties, Style: sheet.Style}
	for _, line := range sheet.Lines {
		var marks []Mark
		for k, mark := range line.Marks {
			if k != j {
				marks = append(marks, mark)
			}
		}
		line.Marks = marks
		other.Lines = append(other.Lines, line)
	}
	return slip{"judge", other.Score().Points, func(e Explanation) bool { return e.Kind == KindJudge && e.Judge == panelNames[j] }}
}

// kSlip draws another K for one figure: any from 1 to 99 or, plausibly, mostly
// one with a digit read wrongly, the digits changed over or one left out.
func (m reconcileMaker) kSlip(sheet Sheet, plausible bool) slip {
	figures := 0
	for figures < len(sheet.Lines) && sheet.Lines[figures].Kind == Figure {
		figures++
	}
	at := m.IntN(figures)
	k := sheet.Lines[at].K
	would := 1 + m.IntN(99)
	if plausible && m.IntN(10) > 0 {
		tens, ones := k/10, k%10
		switch m.IntN(5) {
		case 0:
			would = 10*ones + tens
		case 1:
			would = max(tens, ones)
		case 2:
			would = 10*m.IntN(10) + ones
		default:
			would = 10*tens + m.IntN(10)
		}
	}
	if would < 1 || would > 99 {
		return slip{}
	}
	other := sheet
	other.Lines = append([]Line(nil), sheet.Lines...)
	other.Lines[at].K = would
	return slip{"k", other.Score().Points, func(e Explanation) bool {
		return e.Kind == KindK && e.Line == Figure && e.Figure == at+1 && e.K == would
	}}
}

var panelNames = []string{"A", "B", "C", "D", "E", "F", "G", "H", "I", "J"}
