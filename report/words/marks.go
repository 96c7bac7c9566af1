package words

import (
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
)

// markPhrase is "half a point higher on figure 4 from A, C or D" or "HZ instead of
// 7.0 on figure 4 from B"; alone is the judge whose grade stands alone, "" for none.
func markPhrase(e answers.Explanation, alone string) string {
	judges, was := judgesOf(e.Cells), e.Cells[0].Was
	var would []answers.CellChange
	for _, cell := range e.Cells {
		if cell.Was != was {
			was = "the grade"
		}
		if cell.Judge == e.Cells[0].Judge {
			would = append(would, cell)
		}
	}
	name := LineName(e.Line, e.Figure)
	if e.Step == 0 {
		return marksText(would) + " instead of " + was + " on " + name + " from " + AnyInWords(judges)
	}
	text := stepsText(e.Step, e.Last, would) + " on " + name + " from " + loneFirst(e, judges, alone)
	if len(judges) == 1 {
		text += " (" + marksText(would) + " instead of " + was + ")"
	}
	return text
}

// loneFirst is "A, C or D", or where one of them has a lone grade "C, whose 4.0 stands
// alone, or from A or D".
func loneFirst(e answers.Explanation, judges []string, alone string) string {
	at := slices.IndexFunc(e.Cells, func(cell answers.CellChange) bool { return cell.Judge == alone })
	if alone == "" || at < 0 {
		return AnyInWords(judges)
	}
	text := alone + ", whose " + e.Cells[at].Was + " stands alone"
	var others []string
	for _, judge := range judges {
		if judge != alone {
			others = append(others, judge)
		}
	}
	if len(others) == 0 {
		return text
	}
	return text + ", or from " + AnyInWords(others)
}

// marksText lists what a mark would be, a run of grades as "5.0 to 6.5" and one
// that ends at the lowest or the highest grade as "5.0 or lower".
func marksText(cells []answers.CellChange) string {
	var grades []answers.CellChange
	for _, cell := range cells {
		if cell.WouldGrade.Known() {
			grades = append(grades, cell)
		}
	}
	if len(grades) < 2 {
		return AnyInWords(wouldOf(cells))
	}
	lowest, highest := grades[0], grades[len(grades)-1]
	switch {
	case isLowest(lowest): // a perception zero is said with it
		return highest.Would + " or lower"
	case isHighest(highest):
		return lowest.Would + " or higher"
	default:
		return lowest.Would + " to " + highest.Would
	}
}

func wouldOf(cells []answers.CellChange) []string {
	texts := make([]string, len(cells))
	for i, cell := range cells {
		texts[i] = cell.Would
	}
	return texts
}

// isLowest and isHighest report whether no grade is below, or above, that of the
// mark.
func isLowest(cell answers.CellChange) bool { return cell.WouldGrade.Float64() == 0 }

func isHighest(cell answers.CellChange) bool {
	return cell.WouldGrade.Float64() == answers.HighestGrade
}

// stepsText is "one point lower", "at least one point lower" or "1 to 2.5
// points lower".
func stepsText(step, last int, would []answers.CellChange) string {
	if step == last {
		return stepText(step)
	}
	for _, cell := range would {
		if isLowest(cell) || isHighest(cell) {
			return "at least " + stepText(step)
		}
	}
	return halvesText(step) + " to " + stepText(last)
}

// stepText is "half a point higher" or "1.5 points lower".
func stepText(step int) string {
	direction := "higher"
	if step < 0 {
		direction = "lower"
	}
	switch step {
	case 1, -1:
		return "half a point " + direction
	case 2, -2:
		return "one point " + direction
	default:
		return halvesText(step) + " points " + direction
	}
}

// halvesText is the size of a step of half points, in points: "2" or "1.5".
func halvesText(step int) string {
	return shortest(report.Float(float64(max(step, -step))/2), 1)
}

// pairPhrase says which two marks move by half a point.
func pairPhrase(e answers.Explanation) string {
	name, step, second := LineName(e.Line, e.Figure), stepText(e.Step), stepText(e.SecondStep)
	here, there := splitByLine(e)
	judges := judgesOf(here)
	switch {
	case len(there) > 0:
		return step + " on " + name + " from " + AnyInWords(judges) + " and " + second + " on " +
			LineName(there[0].Line, there[0].Figure) + " from " + AnyInWords(judgesOf(there)) + " together give"
	case len(here) > 2:
		return step + " on " + name + " from any two of " + ListInWords(judges) + " gives"
	case e.Step == e.SecondStep:
		return step + " on " + name + " from both " + ListInWords(judges) + " gives"
	default:
		return step + " from " + here[0].Judge + " and " + second + " from " + here[1].Judge + " on " + name + " give"
	}
}

// splitByLine parts the marks of the explanation's own line from those of the
// second line.
func splitByLine(e answers.Explanation) (here, there []answers.CellChange) {
	for _, cell := range e.Cells {
		if cell.Line == e.Line && cell.Figure == e.Figure {
			here = append(here, cell)
		} else {
			there = append(there, cell)
		}
	}
	return here, there
}

// judgesOf names the judges of marks, each once.
func judgesOf(cells []answers.CellChange) []string {
	var judges []string
	for _, cell := range cells {
		if n := len(judges); n == 0 || judges[n-1] != cell.Judge {
			judges = append(judges, cell.Judge)
		}
	}
	return judges
}
