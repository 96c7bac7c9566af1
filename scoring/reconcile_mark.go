package scoring

import "slices"

// figureMarks and weightedMarks are what a mark may be misread as: every
// grade, and the marks that are not grades where the line can have them.
var (
	weightedMarks = func() (marks []Mark) {
		for half := range TopGrade + 1 {
			marks = append(marks, GradeOf(half))
		}
		return append(marks, Mark{Kind: NotSeen})
	}()
	figureMarks = append(weightedMarks[:len(weightedMarks):len(weightedMarks)], Mark{Kind: HardZero}, Mark{Kind: PerceptionZero})
)

// oneMark finds every single mark that, misread, gives the printed total,
// grouped by line and step, those apart that go against the judges' typed totals. A row is worked out with the full rule style: a
// hard zero changes all of it.
func (s *search) oneMark() []candidate {
	cells := len(s.sheet.Lines) * s.sheet.Judges
	fitting, against := make([][]Mark, cells), make([][]Mark, cells)
	s.eachMark(func(i, j int, line Line) {
		if s.fitsWith(i, line) {
			put, at := fitting, i*s.sheet.Judges+j
			change := cellChange{line: i, judge: j, was: s.sheet.Lines[i].Marks[j], would: line.Marks[j]}
			if s.contradicts(candidate{kind: KindMark, line: i, cells: []cellChange{change}}) {
				put = against
			}
			put[at] = append(put[at], line.Marks[j])
		}
	})
	found := slices.Concat(s.grouped(fitting), s.grouped(against))
	for i := range found {
		found[i].unlikely = !slices.ContainsFunc(found[i].cells, s.plausible)
	}
	return s.settle(found)
}

// grouped are the marks that fit, of each cell, as one candidate for each line and step.
func (s *search) grouped(fitting [][]Mark) []candidate {
	var groups markGroups
	for i, line := range s.sheet.Lines {
		for j, m := range line.Marks {
			groups.add(i, j, m, fitting[i*s.sheet.Judges+j])
		}
	}
	return groups.found
}

// farGrades is how far from every other judge's grade, in half points, a grade
// is unlikely: two grades or more beyond their highest or lowest, as far as one that
// is flagged on the panel's page [common practice].
const farGrades = 4

// plausible reports whether a mark would be no grade or one that is not far from
// the other judges' grades in its row; two of them at least have to say so.
func (s *search) plausible(cell cellChange) bool {
	if cell.would.Kind != Grade {
		return true
	}
	lowest, highest, others := TopGrade, 0, 0
	for j, m := range s.sheet.Lines[cell.line].Marks {
		if j != cell.judge && m.Kind == Grade {
			lowest, highest, others = min(lowest, int(m.Half)), max(highest, int(m.Half)), others+1
		}
	}
	would := int(cell.would.Half)
	return others < 2 || lowest-farGrades < would && would < highest+farGrades
}

// eachMark goes through every line with each mark that is searched misread in
// every way. The line's marks are the next one's too: they are not kept.
func (s *search) eachMark(try func(i, j int, line Line)) {
	scratch := make([]Mark, s.sheet.Judges)
	for i, line := range s.sheet.Lines {
		marks := figureMarks
		if line.Kind != Figure {
			marks = weightedMarks
		}
		was := line.Marks
		line.Marks = scratch
		copy(scratch, was)
		for j, m := range was {
			for _, would := range marks {
				if scratch[j] = would; would != m && s.sheets[j] {
					try(i, j, line)
				}
			}
			scratch[j] = m
		}
	}
}

// markGroups gathers fitting marks into one candidate for each line and step.
type markGroups struct {
	keys  []markKey
	found []candidate
}

// markKey tells the groups: the steps between grades, from the nearest to the
// farthest, or what stands in the place of what.
type markKey struct {
	line, step, last int
	was              MarkKind
	would            string
}

// add puts in the marks that fit in one cell. Grades next to each other go
// together: beyond a dropped extreme any grade comes to the same, and a coarse
// total cannot tell them. So do marks that count alike, as HZ and AV of a
// minority do, or PZ and 0.0.
func (g *markGroups) add(line, judge int, was Mark, fitting []Mark) {
	runs, others := gradeRuns(fitting)
	for _, run := range runs {
		key := markKey{line: line, was: was.Kind}
		switch first, last := run[0], run[len(run)-1]; {
		case was.Kind != Grade:
			key.would = first.String() + last.String()
		case first.Half < was.Half: // downwards from the mark, with PZ at the end
			key.step, key.last = int(last.Half)-int(was.Half), int(first.Half)-int(was.Half)
			if first.Half == 0 && holds(others, PerceptionZero) {
				run, others = append(run, Mark{Kind: PerceptionZero}), without(others, PerceptionZero)
			}
		default:
			key.step, key.last = int(first.Half)-int(was.Half), int(last.Half)-int(was.Half)
		}
		g.put(key, judge, was, run)
	}
	if len(others) > 0 {
		g.put(markKey{line: line, was: was.Kind, would: keyOf(others)}, judge, was, others)
	}
}

// gradeRuns parts fitting marks into runs of neighbouring grades and others. A
// 0.0 that only a zero goes with is put to the others.
func gradeRuns(fitting []Mark) (runs [][]Mark, others []Mark) {
	var run []Mark
	for _, m := range fitting {
		if m.Kind != Grade {
			others = append(others, m)
			continue
		}
		if n := len(run); n > 0 && run[n-1].Half+1 != m.Half {
			runs, run = append(runs, run), nil
		}
		run = append(run, m)
	}
	if len(run) > 0 {
		runs = append(runs, run)
	}
	if len(runs) > 0 && len(runs[0]) == 1 && runs[0][0].Half == 0 && len(others) > 0 {
		return runs[1:], append(others, runs[0][0])
	}
	return runs, others
}

func (g *markGroups) put(key markKey, judge int, was Mark, would []Mark) {
	at := 0
	for at < len(g.keys) && g.keys[at] != key {
		at++
	}
	if at == len(g.keys) {
		g.keys = append(g.keys, key)
		g.found = append(g.found, candidate{
			kind: KindMark, size: sizeOfMark(was, would[0]), line: key.line, step: key.step, last: key.last,
		})
	}
	c := &g.found[at]
	for _, w := range would {
		c.cells = append(c.cells, cellChange{line: key.line, judge: judge, was: was, would: w})
		c.size = min(c.size, sizeOfMark(was, w))
	}
}

func holds(marks []Mark, kind MarkKind) bool {
	for _, m := range marks {
		if m.Kind == kind {
			return true
		}
	}
	return false
}

func without(marks []Mark, kind MarkKind) []Mark {
	var out []Mark
	for _, m := range marks {
		if m.Kind != kind {
			out = append(out, m)
		}
	}
	return out
}

// keyOf tells lists of marks apart.
func keyOf(marks []Mark) string {
	key := ""
	for _, m := range marks {
		key += m.String() + " "
	}
	return key
}
