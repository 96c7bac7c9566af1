package scoring

import "math/big"

// perPoint is into how many parts a Tally divides a point. A row of up to twelve
// marks that count comes to a whole number of them: the mean is of half points, and
// 27720 is the least common multiple of 1 to 12.
const perPoint = 2 * 27720

// mostTallied is the largest panel whose rows come to whole parts.
const mostTallied = 12

// Tally adds up what the lines of a sheet come to, in whole numbers: the points of
// Score without its parts, for who asks of a hundred thousand sheets.
type Tally struct {
	style Style
	parts int64 // of a point
	k     int
	other bool // a line asks for more than whole numbers say
	open  bool // a line is not decided
}

// TallyOf begins a tally under a rule style.
func TallyOf(style Style) Tally { return Tally{style: style} }

// Add adds a line.
func (t *Tally) Add(line Line) {
	if len(line.Again) > 0 {
		t.other = true
	}
	t.AddRow(line.K, line.Marks, line.Decision)
}

// AddRow adds a line that has one row of marks.
func (t *Tally) AddRow(k int, marks []Mark, decision Decision) {
	t.k += k
	if len(marks) > mostTallied {
		t.other = true
		return
	}
	if halves, ok := plainSum(marks); ok && !(t.style.DropExtremes && len(marks) >= DropPanel) {
		t.parts += int64(k*halves) * partsOfHalf[len(marks)]
		return
	}
	t.addOther(Line{K: k, Marks: marks, Decision: decision})
}

// partsOfHalf is a half point of one mark, by how many marks count.
var partsOfHalf = func() (table [mostTallied + 1]int64) {
	for n := 1; n <= mostTallied; n++ {
		table[n] = perPoint / 2 / int64(n)
	}
	return table
}()

// plainSum is the sum of half points of a row where every mark is a grade.
func plainSum(marks []Mark) (sum int, ok bool) {
	kinds := Grade
	for _, m := range marks {
		kinds |= m.Kind
		sum += int(m.Half)
	}
	return sum, kinds == Grade && len(marks) > 0
}

// addOther adds a line on which a mark may be filled, dropped or overruled.
func (t *Tally) addOther(line Line) {
	switch verdict(line, t.style) {
	case rowOpen:
		t.open = true
	case rowZero:
	default:
		t.addFilled(line)
	}
}

// addFilled adds a line whose marks count as they stand or as they are filled.
func (t *Tally) addFilled(line Line) {
	sum, numbers, least, most := 0, 0, TopGrade, 0
	for _, m := range line.Marks {
		if !counts(m, t.style) {
			continue
		}
		half := int(m.Half)
		sum, numbers, least, most = sum+half, numbers+1, min(least, half), max(most, half)
	}
	filled := len(line.Marks) - numbers
	dropped := t.style.DropExtremes && len(line.Marks) >= DropPanel
	switch {
	case numbers == 0, filled > 0 && (dropped || t.style.FillRounding != Unrounded):
		t.other = true
	case dropped:
		t.parts += int64(line.K*(sum-least-most)) * partsOfHalf[numbers-2]
	default: // what is filled with the mean leaves the mean as it is
		t.parts += int64(line.K*sum) * partsOfHalf[numbers]
	}
}

// Total is what a sheet comes to without its parts.
type Total struct {
	exact   *big.Rat // nil where parts say it
	parts   int64
	maximum int
	decided bool
}

// Decided reports whether every line has a value.
func (t Total) Decided() bool { return t.decided }

// Maximum is 10 x the sum of K.
func (t Total) Maximum() int { return t.maximum }

// Points are exact, nil while a line is not decided.
func (t Total) Points() *big.Rat {
	if !t.decided || t.exact != nil {
		return t.exact
	}
	return big.NewRat(t.parts, perPoint)
}

// Percent is 100 x points / maximum, nil while a line is not decided or where there is
// no maximum.
func (t Total) Percent() *big.Rat {
	if !t.decided {
		return nil
	}
	return percentOf(t.Points(), t.maximum)
}

// Less takes whole points off, as a penalty does.
func (t *Tally) Less(penalty Decimal) {
	if penalty.Places > 0 || penalty.Units > mostWhole/perPoint {
		t.other = true
		return
	}
	t.parts -= penalty.Units * perPoint
}

// Total is what was added up, penalties off and never below 0; it reports false
// where that takes more than whole numbers, and Sheet.Score must be asked.
func (t *Tally) Total() (Total, bool) {
	return Total{parts: max(t.parts, 0), maximum: 10 * t.k, decided: !t.open}, !t.other
}

// Total is what the score comes to.
func (s Score) Total() Total {
	return Total{exact: s.Points, maximum: s.Maximum, decided: s.Decided()}
}
