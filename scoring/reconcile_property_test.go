package scoring

import (
	"fmt"
	"math/big"
	"slices"
	"sort"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// allStyles are the settings that the searches meet.
func allStyles() []Style {
	var styles []Style
	for _, hard := range []HardZeroRule{ByMajority, AsGiven} {
		for _, half := range []HalfRule{HalfUndecided, HalfZero, HalfFill} {
			for _, fill := range []FillRounding{Unrounded, ToTenth, ToHalf} {
				for _, drop := range []bool{false, true} {
					styles = append(styles, Style{HardZero: hard, Half: half, FillRounding: fill, DropExtremes: drop})
				}
			}
		}
	}
	return styles
}

// smallFlight draws 3 or 4 lines of any marks at all, zeros and gaps among
// them far oftener than in life.
func (m reconcileMaker) smallFlight(style Style) Sheet {
	sheet := Sheet{Judges: 1 + m.IntN(6), Style: style}
	for i := range 3 + m.IntN(2) {
		line := Line{K: 2 + m.IntN(40), Decision: Decision(m.IntN(9) / 7), Marks: make([]Mark, sheet.Judges)}
		if i == 3 {
			line.Kind, line.Decision = Positioning, NoDecision
		}
		for j := range line.Marks {
			line.Marks[j] = GradeOf(m.IntN(TopGrade + 1))
			if m.IntN(6) == 0 && line.Kind == Figure {
				line.Marks[j] = Mark{Kind: MarkKind(1 + m.IntN(5))}
			}
		}
		sheet.Lines = append(sheet.Lines, line)
	}
	if m.IntN(3) == 0 {
		sheet.Penalties = []Decimal{{Units: int64(5 + m.IntN(60))}, {Units: int64(5 + m.IntN(60))}}[:1+m.IntN(2)]
	}
	return sheet
}

// nearby draws a printed total not far from the own one, with so many decimals.
func (m reconcileMaker) nearby(score Score, places int) Decimal {
	off := big.NewRat(int64(m.IntN(20001)-10000), 100)
	points := off.Add(off, score.Low)
	return printedWith(points.Abs(points), places)
}

// nearbyOrSlip draws such a total or, as often, one that a sheet left out or
// two half points lead to, which chance seldom hits.
func (m reconcileMaker) nearbyOrSlip(sheet Sheet, score Score, places int) Decimal {
	switch j := m.IntN(sheet.Judges); m.IntN(4) {
	case 0:
		if s := m.judgeSlip(sheet); s.points != nil {
			return printedWith(s.points, places)
		}
	case 1:
		sheet.Lines = append([]Line(nil), sheet.Lines...)
		for i := range 2 {
			marks := append([]Mark(nil), sheet.Lines[i].Marks...)
			if marks[j].Kind == Grade {
				marks[j].Half = max(marks[j].Half, 1) - 1
			}
			sheet.Lines[i].Marks = marks
		}
		return printedWith(sheet.Score().Points, places)
	}
	return m.nearby(score, places)
}

// TestLineUnits holds the quick arithmetic against the exact one.
func TestLineUnits(t *testing.T) {
	m := newReconcileMaker(11)
	for _, style := range allStyles() {
		for range 200 {
			for _, line := range m.smallFlight(style).Lines {
				exact := scoreLine(line, style).Points
				units, decided := lineUnits(line, style)
				require.Equal(t, exact != nil, decided, "%v %+v", line, style)
				if decided {
					require.Equal(t, inUnits(exact), units, "%v %+v", line, style)
				}
			}
		}
	}
}

// everySingle lists by plain trial what one mark, one K or one sheet left out
// would give, as words.
func everySingle(sheet Sheet, printed Decimal) []string {
	var out []string
	try := func(other Sheet, format string, args ...any) {
		if points := other.Score().Points; points != nil && Agrees(points, printed) {
			out = append(out, fmt.Sprintf(format, args...))
		}
	}
	copied := func() Sheet {
		other := sheet
		other.Lines = append([]Line(nil), sheet.Lines...)
		return other
	}
	for i, line := range sheet.Lines {
		for j := range line.Marks {
			for kind := Grade; kind <= NotSeen; kind++ {
				if kind == ConfirmedHardZero || (line.Kind != Figure && kind != Grade && kind != NotSeen) {
					continue
				}
				for half := range TopGrade + 1 {
					if kind != Grade && half > 0 {
						break
					}
					would := Mark{Kind: kind, Half: uint8(half)}
					if would == line.Marks[j] {
						continue
					}
					other := copied()
					other.Lines[i].Marks = append([]Mark(nil), line.Marks...)
					other.Lines[i].Marks[j] = would
					try(other, "mark %d %d %s", i, j, would)
				}
			}
		}
		for k := 1; k <= 99; k++ {
			other := copied()
			other.Lines[i].K = k
			if k != line.K {
				try(other, "k %d %d", i, k)
			}
		}
	}
	for j := range sheet.Judges {
		other := copied()
		other.Judges--
		for i, line := range sheet.Lines {
			other.Lines[i].Marks = append(append([]Mark(nil), line.Marks[:j]...), line.Marks[j+1:]...)
		}
		if other.Judges > 0 {
			try(other, "judge %d", j)
		}
	}
	sort.Strings(out)
	return out
}

// everyPair lists by plain trial the pairs of half points.
func everyPair(sheet Sheet, printed Decimal) []string {
	var out []string
	places := len(sheet.Lines) * sheet.Judges
	for a := range places {
		for b := a + 1; b < places; b++ {
			for _, steps := range [][2]int{{1, 1}, {1, -1}, {-1, 1}, {-1, -1}} {
				other := sheet
				other.Lines = append([]Line(nil), sheet.Lines...)
				words, possible := "pair", true
				for n, at := range []int{a, b} {
					i, j := at/sheet.Judges, at%sheet.Judges
					was := other.Lines[i].Marks[j]
					half := int(was.Half) + steps[n]
					possible = possible && was.Kind == Grade && half >= 0 && half <= TopGrade
					if possible {
						other.Lines[i].Marks = append([]Mark(nil), other.Lines[i].Marks...)
						other.Lines[i].Marks[j] = GradeOf(half)
						words += fmt.Sprintf(" %d %d %d", i, j, half)
					}
				}
				if possible && Agrees(other.Score().Points, printed) {
					out = append(out, words)
				}
			}
		}
	}
	sort.Strings(out)
	return out
}

// found puts the explanations, rules apart, into the same words.
func (r reader) found(t *testing.T, explanations []Explanation) (singles, pairs []string) {
	for _, e := range explanations {
		switch e.Kind {
		case KindMark:
			for _, c := range e.Cells {
				singles = append(singles, fmt.Sprintf("mark %d %d %s", r.line(t, c.Line, c.Figure), r.judge(t, c.Judge), c.Would))
			}
		case KindK:
			singles = append(singles, fmt.Sprintf("k %d %d", r.line(t, e.Line, e.Figure), e.K))
		case KindJudge:
			singles = append(singles, fmt.Sprintf("judge %d", r.judge(t, e.Judge)))
		case KindMarks:
			for _, pair := range pairsOf(e) {
				words := "pair"
				for _, c := range pair {
					words += fmt.Sprintf(" %d %d %d", r.line(t, c.Line, c.Figure), r.judge(t, c.Judge), c.Would.Half)
				}
				pairs = append(pairs, words)
			}
		}
	}
	sort.Strings(singles)
	sort.Strings(pairs)
	return singles, pairs
}

// TestReconcileFindsAll compares the searches with plain trial of everything:
// nothing left out, nothing said twice, nothing said that does not fit.
func TestReconcileFindsAll(t *testing.T) {
	t.Parallel()
	m := newReconcileMaker(12)
	met := map[ExplanationKind]int{}
	flights := 3 // of each style
	if raceDetector {
		flights = 1
	}
	for _, style := range allStyles() {
		for n := range flights {
			sheet := m.smallFlight(style)
			score := sheet.Score()
			if !score.Decided() {
				continue
			}
			printed := Printed{Points: m.nearbyOrSlip(sheet, score, n%3), Judges: panelNames[:sheet.Judges]}
			r := Reconcile(sheet, score, printed)
			if r.Agrees {
				require.Empty(t, r.Explanations)
				continue
			}
			requireTrue(t, sheet, printed, r)
			singles, pairs := reader{sheet, printed}.found(t, r.Explanations)
			require.Equal(t, everySingle(sheet, printed.Points), singles, "%+v %v", sheet, printed.Points)
			switch {
			case len(r.Explanations) == 0 || r.Explanations[0].Kind == KindMarks:
				require.Equal(t, everyPair(sheet, printed.Points), pairs, "%+v %v", sheet, printed.Points)
				require.Len(t, pairs, r.Fits)
			default:
				require.Empty(t, pairs)
			}
			for _, e := range r.Explanations {
				met[e.Kind]++
			}
		}
	}
	for _, kind := range []ExplanationKind{KindMark, KindJudge, KindK, KindMarks} {
		assert.GreaterOrEqual(t, met[kind], flights, kind)
	}
}

// TestReconcileUndecidedHoldsTrue: whatever is said of a flight with undecided lines
// gives the printed total, with the rulings that it names and no others.
func TestReconcileUndecidedHoldsTrue(t *testing.T) {
	m := newReconcileMaker(13)
	ruled, free := 0, 0
	for n := range 12000 {
		sheet := m.smallFlight(Style{})
		score := sheet.Score()
		if score.Decided() {
			continue
		}
		printed := Printed{Points: m.nearby(score, n%3), Judges: panelNames[:sheet.Judges]}
		s := m.markSlip(sheet, false)
		if s.points != nil { // the mark decides the sheet
			printed.Points = printedWith(s.points, n%3)
		}
		r := Reconcile(sheet, score, printed)
		require.True(t, r.Undecided)
		require.Nil(t, r.Difference)
		if r.Agrees {
			require.Empty(t, r.Explanations)
			require.True(t, Agrees(score.Low, printed.Points) || Agrees(score.High, printed.Points))
			continue
		}
		requireTrue(t, sheet, printed, r)
		if s.points != nil {
			require.True(t, slices.ContainsFunc(r.Explanations, s.is), "%+v %v", sheet, printed.Points)
		}
		for _, e := range r.Explanations {
			if e.Rulings == nil {
				free++
				continue
			}
			ruled++
			for i, ruling := range e.Rulings {
				if ruling != NoDecision {
					less := e
					less.Rulings = slices.Clone(e.Rulings)
					less.Rulings[i] = NoDecision
					require.Contains(t, reader{sheet, printed}.apply(t, less), (*big.Rat)(nil), "names a ruling too many: %s", brief(e))
				}
			}
		}
	}
	assert.Greater(t, ruled, 100)
	assert.Greater(t, free, 100)
}

// TestReconcileLeavesItsInput: nothing that is handed in is changed.
func TestReconcileLeavesItsInput(t *testing.T) {
	m := newReconcileMaker(14)
	for n := range 300 {
		sheet := m.smallFlight(allStyles()[n%36])
		score := sheet.Score()
		printed := Printed{Points: m.nearby(score, n%3), Judges: panelNames[:sheet.Judges], Numbers: []int{1, 2, 3, 4}}
		if n%4 == 0 {
			for range sheet.Judges {
				printed.JudgeTotals = append(printed.JudgeTotals, m.nearby(score, 1))
			}
		}
		before := fmt.Sprint(sheet, score, printed)
		first := Reconcile(sheet, score, printed)
		require.Equal(t, before, fmt.Sprint(sheet, score, printed))
		require.Equal(t, first, Reconcile(sheet, score, printed), "the same answer twice")
	}
}
