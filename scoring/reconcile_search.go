package scoring

import (
	"math"
	"math/big"
)

// unitsPerPoint is the fine unit in which the searches add up: a millionth of
// a point, each line rounded down. Only where the rounding could matter is a
// candidate worked out again exactly. Whole numbers of this size hold any panel
// and any K that a form can print.
const unitsPerPoint = 1_000_000

// search is one decided sheet whose total is not the printed one.
type search struct {
	sheet   Sheet
	score   Score
	printed Printed
	target  target
	rulings []Decision // assumed to decide the sheet, nil where it decides itself
	open    Sheet      // the sheet before these rulings
	units   []int64    // the lines' points, in units
	total   int64      // their sum
	low     int64      // raw points from low to high may give the printed total
	high    int64
	margin  int64  // what rounding the lines down can cost at the most
	sheets  []bool // the judges whose marks are searched
	// ofTotals: the printed total is the mean of the judges' typed ones
	ofTotals bool
}

// newSearches gives the searches to run: one, or one for each end of a sheet
// with undecided lines. A line without any number cannot be filled and is at 0
// in both; where that alone gives the printed total there is no more to find.
func newSearches(sheet Sheet, score Score, printed Printed) []search {
	if score.Decided() {
		return []search{newSearch(sheet, score, printed)}
	}
	zero, fill := make([]Decision, len(sheet.Lines)), make([]Decision, len(sheet.Lines))
	differ := false
	for i, line := range score.Lines {
		if line.Points != nil {
			continue
		}
		zero[i], fill[i] = RuledZero, RuledZero
		if HasNumber(sheet.Lines[i].Marks, sheet.Style) {
			fill[i], differ = RuledFill, true
		}
	}
	ends := [][]Decision{zero}
	if differ {
		ends = append(ends, fill)
	}
	var searches []search
	for _, rulings := range ends {
		if s := ruledSearch(sheet, printed, rulings); !s.prints(s.score.Raw, s.score.Penalty) {
			searches = append(searches, s)
		}
	}
	return searches
}

func ruledSearch(sheet Sheet, printed Printed, rulings []Decision) search {
	ruled := withRulings(sheet, rulings)
	s := newSearch(ruled, ruled.Score(), printed)
	s.rulings, s.open = rulings, sheet
	return s
}

// withRulings gives a sheet with the rulings where there are any.
func withRulings(sheet Sheet, rulings []Decision) Sheet {
	lines := append([]Line(nil), sheet.Lines...)
	for i, ruling := range rulings {
		if ruling != NoDecision {
			lines[i].Decision = ruling
		}
	}
	sheet.Lines = lines
	return sheet
}

func newSearch(sheet Sheet, score Score, printed Printed) search {
	s := search{sheet: sheet, score: score, printed: printed, target: targetOf(score, printed), units: make([]int64, len(sheet.Lines))}
	for i, line := range sheet.Lines {
		s.units[i], _ = lineUnits(line, sheet.Style)
		s.total += s.units[i]
	}
	s.margin = int64(len(sheet.Lines)) + 2
	s.low, s.high = s.window(score.Maximum)
	s.sheets = make([]bool, sheet.Judges)
	differences := judgeDifferences(sheet, score.JudgeTotals, printed)
	s.ofTotals = !s.target.percent && ofTotals(score, printed)
	for j := range s.sheets {
		s.sheets[j] = differences == nil || !differences[j].Agrees
	}
	return s
}

// window gives the raw points out of a maximum, in units, that may print as the total
// once the penalty is deducted, widened by what rounding the lines down can cost.
func (s *search) window(maximum int) (low, high int64) {
	from, to := s.target.bounds(maximum)
	low, high = math.MinInt64/4, inUnits(to.Add(to, s.score.Penalty))+s.margin
	if from.Sign() > 0 { // else it may have been cut off at 0, however low
		low = inUnits(from.Add(from, s.score.Penalty)) - s.margin
	}
	return low, high
}

func inUnits(points *big.Rat) int64 {
	scaled := new(big.Int).Mul(points.Num(), big.NewInt(unitsPerPoint))
	scaled.Div(scaled, points.Denom())
	if !scaled.IsInt64() || scaled.Int64() > math.MaxInt64/4 {
		return math.MaxInt64 / 4
	}
	return scaled.Int64()
}

// mayFit reports whether raw points in units may give the printed total.
func (s *search) mayFit(raw int64) bool { return s.low <= raw && raw <= s.high }

// mustFit reports whether they do whatever the rounding took away.
func (s *search) mustFit(raw int64) bool {
	return s.low+2*s.margin < raw && raw < s.high-2*s.margin
}

// fitsWith reports whether the printed total comes out with other lines in the
// place of line i and those after it.
func (s *search) fitsWith(i int, lines ...Line) bool {
	raw, decided := s.unitsWith(i, lines...)
	if !decided {
		return false
	}
	if maximum := s.maximumWith(i, lines...); s.target.percent && maximum != s.score.Maximum {
		low, high := s.window(maximum)
		return low <= raw && raw <= high && s.target.gives(lessPenalty(s.rawWith(i, lines...), s.score.Penalty), maximum)
	}
	return s.mayFit(raw) && (s.mustFit(raw) || s.prints(s.rawWith(i, lines...), s.score.Penalty))
}

// maximumWith is the maximum with other lines from line i on.
func (s *search) maximumWith(i int, lines ...Line) int {
	maximum := s.score.Maximum
	for k, line := range lines {
		maximum += 10 * (line.K - s.sheet.Lines[i+k].K)
	}
	return maximum
}

// unitsWith gives the raw points, in units, with other lines from line i on, and
// whether these are decided.
func (s *search) unitsWith(i int, lines ...Line) (raw int64, decided bool) {
	raw = s.total
	for k, line := range lines {
		units, decided := lineUnits(line, s.sheet.Style)
		if !decided {
			return 0, false
		}
		raw += units - s.units[i+k]
	}
	return raw, true
}

// rawWith gives the exact raw points with other lines, all decided, from line i on.
func (s *search) rawWith(i int, lines ...Line) *big.Rat {
	raw := new(big.Rat).Set(s.score.Raw)
	for k, line := range lines {
		raw.Sub(raw, s.score.Lines[i+k].Points)
		raw.Add(raw, scoreLine(line, s.sheet.Style).Points)
	}
	return raw
}

// fitsSheet reports whether another sheet gives the printed total.
func (s *search) fitsSheet(sheet Sheet) bool {
	raw, decided := sheetUnits(sheet)
	if maximum := sheet.Maximum(); decided && s.target.percent && maximum != s.score.Maximum {
		return s.target.gives(sheet.Score().Points, maximum)
	}
	return decided && (s.mustFit(raw) || s.mayFit(raw) && s.target.gives(sheet.Score().Points, s.score.Maximum))
}

// sheetUnits gives a sheet's raw points in units, each line rounded down, and
// whether every line is decided.
func sheetUnits(sheet Sheet) (raw int64, decided bool) {
	for _, line := range sheet.Lines {
		units, decided := lineUnits(line, sheet.Style)
		if !decided {
			return 0, false
		}
		raw += units
	}
	return raw, true
}

// prints reports whether raw points less a penalty are printed as the total.
func (s *search) prints(raw, penalty *big.Rat) bool {
	return s.target.gives(lessPenalty(raw, penalty), s.score.Maximum)
}

// lineUnits gives a line's points in units, rounded down, and whether the line
// is decided: what scoreLine works out exactly.
func lineUnits(line Line, style Style) (int64, bool) {
	switch verdict(line, style) {
	case rowZero:
		return 0, true
	case rowOpen:
		return 0, false
	}
	sum, count, lowest, highest := int64(0), int64(0), int64(TopGrade), int64(0)
	for _, m := range line.Marks {
		if counts(m, style) {
			half := int64(m.Half)
			sum += half
			count++
			lowest, highest = min(lowest, half), max(highest, half)
		}
	}
	// Every value over one denominator of 2 x fillDen: a grade is half x fillDen,
	// a filled mark 2 x fillNum.
	fillNum, fillDen := sum, 2*count
	if steps := style.FillRounding.steps(); steps > 0 {
		fillNum, fillDen = (steps*sum+count)/(2*count), steps
	}
	used := int64(len(line.Marks))
	fills := used - count
	sum = sum*fillDen + fills*2*fillNum
	if style.DropExtremes && used >= DropPanel { // a mean, rounded or not, is never beyond the grades
		sum -= (lowest + highest) * fillDen
		used -= 2
	}
	return int64(line.K) * sum * unitsPerPoint / (2 * fillDen * used), true
}
