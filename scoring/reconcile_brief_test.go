package scoring

import (
	"fmt"
	"strings"
)

// brief says an explanation in its codes and numbers: what is changed, in half
// points for grades, and on whose sheets.
func brief(e Explanation) string {
	said := map[ExplanationKind]func(Explanation) string{
		KindMark: briefMark, KindMarks: briefMarks, KindRules: briefRules,
		KindK: func(e Explanation) string {
			return fmt.Sprintf("%s %d for %d", briefLine(e.Line, e.Figure), e.K, e.WasK)
		},
		KindSwappedK: func(e Explanation) string {
			return fmt.Sprintf("%d %d, %d and %d", e.Figure, e.Second, e.K, e.WasK)
		},
		KindZero: func(e Explanation) string {
			return fmt.Sprintf("%s %s", briefLine(e.Line, e.Figure), briefJudges(e.Cells))
		},
		KindFigure: func(e Explanation) string { return briefLine(e.Line, e.Figure) },
		KindPenalty: func(e Explanation) string {
			return fmt.Sprintf("%d, %d each", e.Extra, e.PerJudge)
		},
		KindTotal: func(e Explanation) string { return fmt.Sprintf("%s %s, in field %v", e.Total, e.Mistyped, e.InField) },
		KindRows:  briefRows,
		KindJudge: func(e Explanation) string { return e.Judge },
		KindSheet: func(Explanation) string { return "" },
	}[e.Kind](e)
	said = strings.TrimSpace(string(e.Kind) + " " + said)
	if e.Rulings != nil {
		said += fmt.Sprintf(" ruled %d", e.Rulings)
	}
	return said
}

func briefLine(kind LineKind, figure int) string {
	if kind != Figure {
		return kind.String()
	}
	return fmt.Sprint(figure)
}

// briefMark is "4 +1 A B C", or "5 AV for 8.0 A" where a mark is no grade.
func briefMark(e Explanation) string {
	step := fmt.Sprintf("%+d", e.Step)
	switch {
	case e.Step == 0:
		step = fmt.Sprintf("%s for %s", e.Cells[0].Would, e.Cells[0].Was)
	case e.Step != e.Last:
		step += fmt.Sprintf("..%+d", e.Last)
	}
	return fmt.Sprintf("%s %s %s", briefLine(e.Line, e.Figure), step, briefJudges(e.Cells))
}

// briefMarks is "1 +1 A B C and 3 -1 A B C", or "1 +1 +1 A B" in one line.
func briefMarks(e Explanation) string {
	var here, there []CellChange
	for _, cell := range e.Cells {
		if cell.Line == e.Line && cell.Figure == e.Figure {
			here = append(here, cell)
		} else {
			there = append(there, cell)
		}
	}
	first := fmt.Sprintf("%s %+d", briefLine(e.Line, e.Figure), e.Step)
	if there == nil {
		return fmt.Sprintf("%s %+d %s", first, e.SecondStep, briefJudges(here))
	}
	return fmt.Sprintf("%s %s and %s %+d %s", first, briefJudges(here), briefLine(there[0].Line, there[0].Figure), e.SecondStep, briefJudges(there))
}

// briefRows is "2 3 A C", any one of these sheets, or "2 3 all".
func briefRows(e Explanation) string {
	whose := briefJudges(e.Cells)
	if e.All {
		whose = "all"
	}
	return fmt.Sprintf("%d %d %s", e.Figure, e.Cells[1].Figure, whose)
}

func briefJudges(cells []CellChange) string {
	var judges []string
	for i, cell := range cells {
		if i == 0 || cells[i-1].Judge != cell.Judge {
			judges = append(judges, cell.Judge)
		}
	}
	return strings.Join(judges, " ")
}

// briefRules is a setting and its number, lines left out, or how a penalty was
// counted.
func briefRules(e Explanation) string {
	switch {
	case e.Style != nil:
		values := map[Setting]any{
			SettingHardZero: e.Style.HardZero, SettingHalf: e.Style.Half,
			SettingFillRounding: e.Style.FillRounding, SettingDropExtremes: e.Style.DropExtremes,
		}
		return fmt.Sprintf("%s %v", e.Setting, values[e.Setting])
	case e.Without != nil:
		return fmt.Sprintf("without %v", e.Without)
	case e.Penalty != nil:
		return fmt.Sprintf("penalty %d %s, in all %s", e.Part, e.Deducted, e.Penalty.FloatString(2))
	default:
		return ""
	}
}

func briefs(r Reconciliation) []string {
	var out []string
	for _, e := range r.Explanations {
		out = append(out, brief(e))
	}
	return out
}
