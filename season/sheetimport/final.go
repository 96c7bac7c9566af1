package sheetimport

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"sync"

	"boxbook/report/display"
)

// tellFinal compares what a row called a total has for all judges together with the
// marks: its points, and the sum of K.
func (s *sheet) tellFinal() {
	if s.layout.long() || len(s.block.rows) == 0 {
		return
	}
	for i, row := range s.Rows {
		if s.another && i >= s.block.end {
			break
		}
		if s.block.has(i) || slices.Contains(s.beneath, row.Number) || !s.summing(row) {
			continue
		}
		called := s.totalled(row)
		if called {
			s.compareK(row)
		}
		for _, cell := range s.finalCells(row, called) {
			s.compareFinal(cell, row, called)
		}
		s.comparePercent(row)
	}
	s.takePenalties()
}

// sumWords call a row the sum of the marks, and netWords one with the penalties
// deducted.
var (
	sumWords = []string{
		"total", "totals", "totale", "totaal", "totalt", "toplam", "sum", "sums", "summe", "gesamt", "gesamtsumme", "gesamtpunkte", "suma", "summa",
		"somme", "somma", "celkem", "spolu", "razem", "összesen", "yhteensä",
	}
	netWords   = []string{"final", "net", "after", "less"}
	otherWords = append([]string{"maximum", "max", "mean", "average", "avg", "rank", "place"}, percentWords...)
	// resultWords call a row what may be the sum of the marks, less penalties or not.
	resultWords  = []string{"score", "points", "pts", "result", "raw", "gross", "net"}
	percentWords = []string{"percent", "percentage", "%", "prozent"}
)

// summing reports whether a row says that it sums up.
func (s *sheet) summing(row Row) bool {
	return s.totalled(row) || slices.ContainsFunc(row.Cells, func(c Cell) bool { return c.Kind == Text && saysTotal(c) })
}

// totalled reports whether a row is called a total, and not a percentage, a maximum
// or the penalties.
func (s *sheet) totalled(row Row) bool {
	return s.has(row, append(netWords[:1:1], sumWords...)) && !s.has(row, otherWords) && !penalized(row)
}

// has reports whether a text of a row has one of these words.
func (s *sheet) has(row Row, words []string) bool {
	return slices.ContainsFunc(row.Cells, func(c Cell) bool {
		return c.Kind == Text && slices.ContainsFunc(strings.Fields(folded(c.Text)), func(word string) bool { return slices.Contains(words, word) })
	})
}

// penalized reports whether a row has the penalties.
func penalized(row Row) bool {
	return slices.ContainsFunc(row.Cells, func(c Cell) bool {
		text := folded(c.Text)
		return c.Kind == Text && (strings.Contains(text, "penal") || strings.Contains(text, "pénal") || strings.Contains(text, "straf"))
	})
}

// pointsHeadings head a column whose total is that of the flight.
var pointsHeadings = []string{"points", "pts", "score", "total", "totals", "result"}

// finalCells are the cells of a row that hold a total of all judges: beneath their
// points, or where nothing heads those the row's only number besides the sum of K.
func (s *sheet) finalCells(row Row, called bool) []Cell {
	var cells, numbers []Cell
	for _, c := range row.Cells {
		if c = plainTotal(c); s.isJudges(c.Column) {
			c = row.Cell(c.Column)
		}
		if _, _, ok := number(c); !ok || strings.Contains(c.Text, "%") || s.isKTotal(c, row) || c.Column == s.layout.figure ||
			slices.Contains(s.layout.left, c.Column) && !s.isOfficial(c.Column, row.Number) {
			continue
		}
		numbers = append(numbers, c)
		w, derived := s.derived[c.Column]
		if derived && (w.name == pointsOfAll || w.name == pointsOfEach) || !derived && called && !s.reads(c.Column) && says(s.headingRow().Cell(c.Column), pointsHeadings) {
			cells = append(cells, c)
		}
	}
	if _, labelled := s.labelled(row); labelled && s.has(row, resultWords) && len(numbers) == 1 && !s.totals[row.Number] {
		return numbers
	}
	if len(cells) == 0 && called && len(numbers) == 1 && (!s.isJudges(numbers[0].Column) || len(s.layout.judges) > 1 && !s.totals[row.Number]) {
		return numbers
	}
	return cells
}

// besideTotal is what offices write behind a total: 990.00 pts, 990.00 / 1500, 990.00*.
var besideTotal = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)^(\d[\d .,'’\x{a0}]*?)\s*(?:\*+|pts?\.?|points?|punkte|pkt\.?|/\s*\d[\d .,'’\x{a0}]*)$`)
})

// plainTotal is a cell without what stands behind its total.
func plainTotal(c Cell) Cell {
	if c.Kind == Text {
		if parts := besideTotal().FindStringSubmatch(plain(c.Text)); parts != nil {
			c.Text = parts[1]
		}
	}
	return c
}

// compareFinal compares a total of all judges with the points of the marks, before
// penalties or less those that the sheet has. Where it differs, one that the sheet
// calls a total is an error; what is called final may have penalties in it, and beside
// another error it is no second one.
func (s *sheet) compareFinal(cell Cell, row Row, called bool) {
	typed, counted := s.finals(cell.Column)
	if len(typed)+len(counted) == 0 {
		return
	}
	value, decimals, _ := number(cell)
	name := s.cellName(cell.Column, row.Number)
	penalty := s.penalty(cell.Column)
	before := func(sum float64) bool { return math.Abs(value-sum) <= unitOf(decimals) }
	after := func(sum float64) bool { return before(sum - penalty) }
	if s.includesLeft(cell, append(typed, counted...), before, after) {
		s.compared[name] = true
		return
	}
	mayBe := func(lower, higher string) string { // a penalty makes a total lower than the marks
		if value < slices.Max(append(typed, counted...)) {
			return lower
		}
		return higher
	}
	official := s.isOfficial(cell.Column, row.Number)
	switch comesTo := s.finalsSaid(typed, counted); {
	case slices.ContainsFunc(append(typed, counted...), before), slices.ContainsFunc(append(typed, counted...), after):
		s.compared[name] = true
		less := penalty > 0 && !slices.ContainsFunc(append(typed, counted...), before)
		s.deducted[cell.Column] = s.deducted[cell.Column] || less
		when, hint := "", ""
		switch {
		case less:
			when = "after the penalties"
		case penalty > 0:
			when = "before the penalties"
		}
		if !official && (less || penalty == 0) { // before them it is never the official one
			hint = "; --official-from " + s.officialName(name) + " takes it as the official one"
		}
		s.out.Agreed = append(s.out.Agreed, "its total "+display.Fixed(value, min(decimals, mostDecimals))+led(" ", when))
		s.note(name, "the total %s agrees with the marks%s%s", cell.Text, led(", ", when), hint)
	case !called && (!s.has(row, resultWords) || s.has(row, otherWords) || penalized(row) || s.isPercent(value, decimals, 1)):
	case !called || official || s.lone || s.has(row, netWords) || len(s.out.Problems) > 0:
		s.compared[name] = true
		what := "the final total"
		if !called {
			what = s.called(row)
		}
		s.note(name, "%s is %s, the marks come to %s: %s", what, cell.Text, comesTo, mayBe("penalties may be in it", "more than the marks, which no penalty makes"))
	default:
		s.compared[name] = true
		s.problem(cell.Column, row.Number, "one mark or the total is mistyped"+mayBe(", or penalties are in it", "")+"; --official-from "+s.officialName(name)+" takes it as the official total, "+s.leaving(name)+" leaves it unread",
			"the total printed is %s, the marks come to %s", cell.Text, comesTo)
	}
}

// comparePercent compares the one number, besides the judges' and K, of a row that says that
// it is a percentage, or may be one, with that of the marks: before penalties or after
// those that the sheet has. Where only a row of percentages says so, a difference is told.
func (s *sheet) comparePercent(row Row) {
	says := s.has(row, percentWords)
	if !says && !s.has(row, resultWords) || penalized(row) {
		return
	}
	var numbers []Cell
	for _, c := range row.Cells {
		if _, _, ok := number(c); ok && !s.isJudges(c.Column) && !s.isKTotal(c, row) && c.Column != s.layout.figure && !slices.Contains(s.layout.left, c.Column) {
			numbers = append(numbers, c)
		}
	}
	if cell, labelled := s.labelled(row); labelled {
		numbers = []Cell{cell}
	}
	if len(numbers) != 1 || s.compared[s.cellName(numbers[0].Column, row.Number)] {
		return
	}
	cell := numbers[0]
	value, decimals, _ := number(cell)
	name, percent := s.cellName(cell.Column, row.Number), strings.TrimRight(cell.Text, " %")
	least := 1 // decimals: a whole number is soon a percentage
	if says {
		least = 0
	}
	score, ok := s.score()
	switch {
	case s.isPercent(value, decimals, least):
		s.compared[name] = true
		s.out.Agreed = append(s.out.Agreed, "its percentage "+display.Fixed(value, min(decimals, mostDecimals)))
		s.note(name, "the percentage %s agrees with the marks", percent)
	case says && ok && score.Decided() && value > 0 && value <= 100 && (s.o.Partial || len(s.without()) == 0):
		s.compared[name] = true
		s.note(name, "the percentage is %s, the marks come to %s%%", percent, display.FixedRat(score.Percent, max(decimals, 1)))
	}
}

// isPercent reports whether a number of at least so many decimals is what share of the
// maximum the marks come to, as typed or as counted, before penalties or after.
func (s *sheet) isPercent(value float64, decimals, least int) bool {
	score, ok := s.score()
	if !ok || score.Maximum == 0 || decimals < least || !s.o.Partial && len(s.without()) > 0 {
		return false
	}
	low, _ := score.Low.Float64()
	sums := []float64{low}
	if !score.Decided() {
		high, _ := score.High.Float64()
		sums = append(sums, high)
	}
	if sum, known := s.typedSum(); known {
		sums = append(sums, sum)
	}
	penalties := []float64{0}
	for _, w := range s.pointsColumns() {
		penalties = append(penalties, s.penalty(w))
	}
	for _, sum := range sums {
		for _, penalty := range penalties {
			if math.Abs(value-100*(sum-penalty)/float64(score.Maximum)) <= unitOf(decimals) {
				return true
			}
		}
	}
	return false
}

// pointsColumns are the columns of the points of all judges together.
func (s *sheet) pointsColumns() []int {
	var columns []int
	for column, w := range s.derived {
		if w.name == pointsOfAll || w.name == pointsOfEach {
			columns = append(columns, column)
		}
	}
	slices.Sort(columns)
	return columns
}

// led puts a separator before a text, where there is one.
func led(separator, text string) string {
	if text == "" {
		return ""
	}
	return separator + text
}

// includesLeft reports whether a total has the marks of judges in it who were left out: it
// agrees with the marks and theirs, and not with the marks alone, or sums a column up that
// has them.
func (s *sheet) includesLeft(cell Cell, own []float64, before, after func(sum float64) bool) bool {
	t := s.withLeft()
	if t == nil || slices.ContainsFunc(own, before) || slices.ContainsFunc(own, after) {
		return false
	}
	typed, counted := t.finals(cell.Column)
	all := append(typed, counted...)
	gross, net := slices.ContainsFunc(all, before), slices.ContainsFunc(all, after)
	if !gross && !net && !s.derived[cell.Column].left {
		return false
	}
	s.including = append(s.including, "total "+cell.Text)
	s.deducted[cell.Column] = s.deducted[cell.Column] || net && !gross
	return true
}

// officialName names a cell as --official-from takes it, as one word of a shell.
func (s *sheet) officialName(cell string) string {
	if s.o.inBook && s.Name != "" {
		return display.ShellWord(s.Name + "!" + cell)
	}
	return cell
}

// finals are what a total in a column may be: of the marks as typed, and as counted,
// both ends where a figure is not decided.
func (s *sheet) finals(column int) (typed, counted []float64) {
	score, ok := s.score()
	if !ok || !s.o.Partial && len(s.without()) > 0 {
		return nil, nil
	}
	times := 1.0
	if s.derived[column].name == pointsOfEach {
		times = float64(len(s.out.Panel))
	}
	if sum, known := s.typedSum(); known {
		typed = append(typed, sum*times)
	}
	low, _ := score.Low.Float64()
	counted = append(counted, low*times)
	if !score.Decided() {
		high, _ := score.High.Float64()
		counted = append(counted, high*times)
	}
	return typed, counted
}

// typedSum is the sum of K x the mean of the marks as typed, what has no number left
// out of the mean; false where a figure has none, or was flown several times.
func (s *sheet) typedSum() (sum float64, known bool) {
	for i, row := range s.out.Rows {
		if row == nil {
			continue
		}
		total, n := 0.0, 0
		for _, e := range row {
			if value, ok := e.counted(); ok {
				total, n = total+value, n+1
			}
		}
		if n == 0 || len(s.out.Again[i]) > 0 {
			return 0, false
		}
		sum += float64(s.o.Lines[i].K) * total / float64(n)
	}
	return sum, true
}

// finalsSaid says what the marks come to: once where both readings are alike.
func (s *sheet) finalsSaid(typed, counted []float64) string {
	said := shortNumber(counted[0])
	if len(counted) > 1 {
		said += " to " + shortNumber(counted[1])
	}
	if len(typed) > 0 && shortNumber(typed[0]) != said {
		said = shortNumber(typed[0]) + " as typed, " + said + " as counted"
	}
	return said
}

// penalty is what the rows of penalties have in a column.
func (s *sheet) penalty(column int) float64 {
	sum := 0.0
	for i, row := range s.Rows {
		if s.block.has(i) || !penalized(row) || s.totalled(row) {
			continue
		}
		if value, ok := deduction(row.Cell(column)); ok {
			sum += value
		}
	}
	return sum
}

// deduction is what a cell of a row of penalties takes off, with a minus or without.
func deduction(cell Cell) (float64, bool) {
	cell.Text = strings.TrimLeft(plain(cell.Text), "-−– ")
	value, _, ok := number(cell)
	return value, ok && !strings.Contains(cell.Text, "%")
}

// labelled is the number of a row that has nothing else but what it is called, in the cell
// beside it: whatever column that is, what stands above says nothing of it.
func (s *sheet) labelled(row Row) (Cell, bool) {
	var filled []Cell
	for _, c := range row.Cells {
		if c.Kind != Empty {
			filled = append(filled, plainTotal(c))
		}
	}
	if len(filled) != 2 || filled[0].Kind != Text || s.isNumber(filled[0]) || filled[1].Column != filled[0].Column+1 {
		return Cell{}, false
	}
	_, ok := deduction(filled[1])
	return filled[1], ok
}

// isKTotal reports whether a cell beneath the K is a sum of them: a whole number and, of a
// row that has nothing else, none that only points come to.
func (s *sheet) isKTotal(c Cell, row Row) bool {
	value, decimals, ok := number(c)
	if _, labelled := s.labelled(row); labelled && value > 2*s.sumOfK() {
		return false
	}
	return ok && s.layout.k > 0 && c.Column == s.layout.k && decimals == 0 && !strings.Contains(c.Text, "%")
}

// sumOfK is the sum of K of the sequence's lines.
func (s *sheet) sumOfK() (sum float64) {
	for _, line := range s.o.Lines {
		sum += float64(line.K)
	}
	return sum
}

// compareK compares the sum of K in a row called a total with that of the lines.
func (s *sheet) compareK(row Row) {
	cell := row.Cell(s.layout.k)
	value, _, _ := number(cell)
	if !s.isKTotal(cell, row) || slices.ContainsFunc(s.out.Again, func(rows [][]Entry) bool { return len(rows) > 0 }) {
		return
	}
	all, figures := 0, 0
	for i, line := range s.o.Lines {
		if s.out.Rows[i] == nil && s.o.Partial {
			continue
		}
		all += line.K
		if line.Figure > 0 {
			figures += line.K
		}
	}
	s.compared[s.cellName(cell.Column, row.Number)] = true
	if value == float64(all) || value == float64(figures) {
		s.out.Agreed = append(s.out.Agreed, "its K total "+shortNumber(value))
		return
	}
	said := display.Trimmed(float64(all), 0)
	if figures != all {
		said += ", without the weighted lines to " + display.Trimmed(float64(figures), 0)
	}
	s.problem(cell.Column, row.Number, "one of them is mistyped, or another sequence is meant; "+s.leaving(s.cellName(cell.Column, row.Number))+" leaves it unread",
		"the K total printed is %s, the K of %s come to %s", cell.Text, s.o.Sequence, said)
}
