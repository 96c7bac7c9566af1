package scoring

import (
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// row reads a line as a ledger has it: "8 7.5 HZ AV".
func row(t *testing.T, kind LineKind, k int, text string) Line {
	t.Helper()
	line := Line{Kind: kind, K: k}
	for _, word := range strings.Fields(text) {
		line.Marks = append(line.Marks, markOf(t, word))
	}
	return line
}

func markOf(t *testing.T, word string) Mark {
	t.Helper()
	for kind, symbol := range symbols {
		if symbol == word {
			return Mark{Kind: MarkKind(kind)}
		}
	}
	d, ok := ParseDecimal(word)
	require.True(t, ok, word)
	half := new(big.Rat).Mul(d.Rat(), big.NewRat(2, 1))
	require.True(t, half.IsInt(), word)
	return GradeOf(int(half.Num().Int64()))
}

func decimalOf(t *testing.T, text string) Decimal {
	t.Helper()
	d, ok := ParseDecimal(text)
	require.True(t, ok, text)
	return d
}

// reader finds the lines and judges that explanations name.
type reader struct {
	sheet   Sheet
	printed Printed
}

func (r reader) line(t *testing.T, kind LineKind, figure int) int {
	t.Helper()
	at := 0
	for i, line := range r.sheet.Lines {
		number := 0
		if line.Kind == Figure {
			number = at + 1
			if r.printed.Numbers != nil {
				number = r.printed.Numbers[at]
			}
			at++
		}
		if line.Kind == kind && number == figure {
			return i
		}
	}
	require.Fail(t, "no such line", "%v %d", kind, figure)
	return -1
}

func (r reader) judge(t *testing.T, name string) int {
	t.Helper()
	for j, n := range r.printed.Judges {
		if n == name {
			return j
		}
	}
	require.Fail(t, "no such judge", name)
	return -1
}

// changed gives the sheet with some marks as an explanation has them. It holds
// against the sheet what the explanation says was there.
func (r reader) changed(t *testing.T, sheet Sheet, cells ...CellChange) Sheet {
	t.Helper()
	sheet.Lines = append([]Line(nil), sheet.Lines...)
	for _, cell := range cells {
		i, j := r.line(t, cell.Line, cell.Figure), r.judge(t, cell.Judge)
		marks := append([]Mark(nil), sheet.Lines[i].Marks...)
		require.Equal(t, r.sheet.Lines[i].Marks[j], cell.Was)
		require.NotEqual(t, cell.Was, cell.Would)
		marks[j] = cell.Would
		sheet.Lines[i].Marks = marks
	}
	return sheet
}

// pairs gives the pairs of cells that an explanation of kind marks stands for.
func pairsOf(e Explanation) [][2]CellChange {
	lines := map[CellChange]bool{}
	for _, cell := range e.Cells {
		lines[CellChange{Line: cell.Line, Figure: cell.Figure}] = true
	}
	var out [][2]CellChange
	for a, first := range e.Cells {
		for _, second := range e.Cells[a+1:] {
			oneLine := first.Line == second.Line && first.Figure == second.Figure
			if oneLine == (len(lines) == 1) {
				out = append(out, [2]CellChange{first, second})
			}
		}
	}
	return out
}

// apply does what an explanation says, in every way that it stands for, by its
// exported fields alone, and gives the points.
func (r reader) apply(t *testing.T, e Explanation) []*big.Rat {
	t.Helper()
	sheet := r.sheet
	sheet.Lines = append([]Line(nil), sheet.Lines...)
	for i, ruling := range e.Rulings {
		if ruling != NoDecision {
			sheet.Lines[i].Decision = ruling
		}
	}
	switch e.Kind {
	case KindMark, KindZero:
		var out []*big.Rat
		for _, cell := range e.Cells {
			out = append(out, r.changed(t, sheet, cell).Score().Points)
		}
		return out
	case KindMarks:
		var out []*big.Rat
		for _, pair := range pairsOf(e) {
			out = append(out, r.changed(t, sheet, pair[0], pair[1]).Score().Points)
		}
		return out
	case KindPenalty:
		points := sheet.Score().Points
		if points != nil {
			points = lessPenalty(points, big.NewRat(e.Extra, 1))
		}
		return []*big.Rat{points}
	case KindRows:
		if e.All {
			return []*big.Rat{r.changed(t, sheet, e.Cells...).Score().Points}
		}
		var out []*big.Rat
		for k := 0; k < len(e.Cells); k += 2 {
			out = append(out, r.changed(t, sheet, e.Cells[k], e.Cells[k+1]).Score().Points)
		}
		return out
	case KindFigure:
		at := r.line(t, e.Line, e.Figure)
		sheet.Lines = append(sheet.Lines[:at], sheet.Lines[at+1:]...)
	case KindK:
		sheet.Lines[r.line(t, e.Line, e.Figure)].K = e.K
	case KindSwappedK:
		first, second := r.line(t, e.Line, e.Figure), r.line(t, e.Line, e.Second)
		require.Equal(t, [2]int{e.WasK, e.K}, [2]int{sheet.Lines[first].K, sheet.Lines[second].K})
		sheet.Lines[first].K, sheet.Lines[second].K = e.K, e.WasK
	case KindJudge:
		j := r.judge(t, e.Judge)
		for i, line := range sheet.Lines {
			sheet.Lines[i].Marks = append(append([]Mark(nil), line.Marks[:j]...), line.Marks[j+1:]...)
		}
		sheet.Judges--
	case KindTotal:
		return []*big.Rat{mistyped(t, sheet, e, r.printed)}
	case KindRules:
		return []*big.Rat{applyRules(sheet, e)}
	}
	return []*big.Rat{sheet.Score().Points}
}

func applyRules(sheet Sheet, e Explanation) *big.Rat {
	if e.Style != nil {
		sheet.Style = *e.Style
	}
	var lines []Line
	for _, line := range sheet.Lines {
		left := false
		for _, kind := range e.Without {
			left = left || line.Kind == kind
		}
		if !left {
			lines = append(lines, line)
		}
	}
	sheet.Lines = lines
	score := sheet.Score()
	if e.Penalty == nil || score.Raw == nil {
		return score.Points
	}
	points := new(big.Rat).Sub(score.Raw, e.Penalty)
	if points.Sign() < 0 {
		return new(big.Rat)
	}
	return points
}

// requireTrue holds every explanation to its word: it gives the printed total.
func requireTrue(t *testing.T, sheet Sheet, printed Printed, r Reconciliation) {
	t.Helper()
	for _, e := range r.Explanations {
		if e.Kind == KindSheet {
			continue
		}
		ways := reader{sheet, printed}.apply(t, e)
		require.NotEmpty(t, ways, brief(e))
		for _, points := range ways {
			require.NotNil(t, points, brief(e))
			require.True(t, Agrees(points, printed.Points), "%s: gives %s", brief(e), points.FloatString(6))
		}
	}
}
