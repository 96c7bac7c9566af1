package scoring

import (
	"slices"
	"strconv"
)

// judge names a column of the sheet, by its number where it has no name.
func (p Printed) judge(j int) string {
	if j < len(p.Judges) {
		return p.Judges[j]
	}
	return strconv.Itoa(j + 1)
}

// number gives the figure number of a line, 0 for a weighted one.
func (p Printed) number(lines []Line, at int) int {
	if lines[at].Kind != Figure {
		return 0
	}
	figures := 0
	for _, line := range lines[:at] {
		if line.Kind == Figure {
			figures++
		}
	}
	if figures < len(p.Numbers) {
		return p.Numbers[figures]
	}
	return figures + 1
}

// explanation names the lines and judges of a candidate.
func (c candidate) explanation(sheet Sheet, printed Printed) Explanation {
	e := Explanation{
		Kind: c.kind, Step: c.step, Last: c.last, K: c.k, Style: c.style, Setting: c.setting, Without: c.without,
		Penalty: c.penalty, Deducted: c.deducted, Part: c.part, Rulings: c.rulings, Contradicts: c.contradicts, OnSheets: c.onSheets, All: c.all, Unlikely: c.unlikely, AgainstSum: c.againstSum,
	}
	switch c.kind {
	case KindMark, KindMarks, KindK, KindSwappedK, KindRows, KindZero, KindFigure:
		e.Line, e.Figure = sheet.Lines[c.line].Kind, printed.number(sheet.Lines, c.line)
	case KindJudge:
		e.Judge = printed.judge(c.judge)
	}
	switch c.kind {
	case KindSwappedK:
		e.WasK, e.Second = sheet.Lines[c.line].K, printed.number(sheet.Lines, c.second)
	case KindK:
		e.WasK = sheet.Lines[c.line].K
	case KindPenalty:
		e.Extra = c.extra
		if !c.onSheets {
			e.PerJudge = penaltyPerJudge(c.extra, int64(sheet.Judges))
		}
	case KindTotal:
		e.Total, e.Mistyped, e.InField = c.total.own, c.total.mistyped, c.total.inField
	case KindMarks:
		e.SecondStep = stepOf(c.partner())
	}
	for _, cell := range c.cells {
		e.Cells = append(e.Cells, CellChange{
			Judge: printed.judge(cell.judge), Line: sheet.Lines[cell.line].Kind, Figure: printed.number(sheet.Lines, cell.line),
			Was: cell.was, Would: cell.would,
		})
	}
	return e
}

// same reports whether two explanations say the same, whatever each does to the
// judges' typed totals.
func (e Explanation) same(o Explanation) bool {
	return e.Kind == o.Kind && e.Line == o.Line && e.Figure == o.Figure && e.Judge == o.Judge && e.K == o.K &&
		e.Step == o.Step && e.Last == o.Last && e.SecondStep == o.SecondStep && e.sameRules(o) && e.Extra == o.Extra && e.Total == o.Total && e.All == o.All &&
		slices.Equal(e.Cells, o.Cells) && slices.Equal(e.Rulings, o.Rulings)
}

// sameRules reports whether two explanations change the same setting, leave out
// the same lines and count the same penalty in the same way.
func (e Explanation) sameRules(o Explanation) bool {
	sameStyle := e.Style == o.Style || e.Style != nil && o.Style != nil && *e.Style == *o.Style
	return sameStyle && slices.Equal(e.Without, o.Without) && e.Deducted == o.Deducted && e.Part == o.Part
}
