package sheetimport

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/report/display"

	"boxbook/scoring"
	"boxbook/season"
)

// Line is a line of a score sheet: a figure of the sequence from 1, or a
// weighted line, whose Figure is 0.
type Line struct {
	Kind   scoring.LineKind
	Figure int
	K      int
}

// Name says the line in words: "figure 3", "positioning", "harmony".
func (l Line) Name() string { return season.Ruling{Line: l.Kind, Figure: l.Figure}.Name() }

// LinesOf lists the lines of a sequence as a flight's rows stand: the figures
// in order, then positioning, then harmony.
func LinesOf(seq *season.Sequence) []Line {
	lines := make([]Line, 0, len(seq.Figures)+2)
	for i, figure := range seq.Figures {
		lines = append(lines, Line{Kind: scoring.Figure, Figure: i + 1, K: figure.K})
	}
	if seq.Positioning > 0 {
		lines = append(lines, Line{Kind: scoring.Positioning, K: seq.Positioning})
	}
	if seq.Harmony > 0 {
		lines = append(lines, Line{Kind: scoring.Harmony, K: seq.Harmony})
	}
	return lines
}

// Options say what a sheet is expected to hold.
type Options struct {
	Sequence string   // its name, for messages
	Lines    []Line   // of the sequence, in order
	Panel    []string // the judges by their names in the ledger, in order; nil: they are taken from the sheet
	Partial  bool     // lines may be missing: practice
	Columns  Columns
	// Flight chooses rows where the sheet has a column "flight" with several.
	Flight string
	// ReadMark reads one word as a mark and says what is wrong with it, hint
	// being what to type, "" where there is nothing to say.
	ReadMark func(text string) (mark scoring.Mark, problem, hint string)
}

// Entry is one mark of the sheet; Read is false where it could not be read.
type Entry struct {
	Mark scoring.Mark
	Read bool
}

// String writes the mark as a ledger does, ? for one that could not be read.
func (e Entry) String() string {
	if !e.Read {
		return "?"
	}
	return e.Mark.String()
}

// Problem is something that keeps the sheet from being read whole. Cell is ""
// where no one cell is to blame; Hint is "" where there is nothing to add.
type Problem struct {
	Cell string
	Text string
	Hint string

	row, column int
}

// Note is something to know that keeps nothing from being read.
type Note struct {
	Cell string
	Text string
}

// Result is what was found. Rows are by line of Options.Lines, one Entry per
// judge of Panel; nil where the sheet has no row of that line. Without
// Problems every Entry is read, and every row is there but in practice. Of
// very many Problems the first hundred are kept, and More counts the others.
type Result struct {
	Panel    []string
	Rows     [][]Entry
	Problems []Problem
	More     int
	Notes    []Note
}

const (
	// mostProblems is how many problems are kept.
	mostProblems = 100
	// mostJudges is more than any panel has.
	mostJudges = 100
	// headingRows is how many rows are looked at for headings, and beneath
	// headings to tell a judge's column from another.
	headingRows = 50
	// widest is how many columns are looked at for judges by their headings.
	widest = 256
)

// Recognise finds the marks of one flight in a sheet. The same grid and options
// give the same result; cells are only read, never calculated.
func Recognise(g Grid, o Options) Result {
	s := &sheet{Grid: g, o: o, otherK: map[int]bool{}}
	s.out.Rows = make([][]Entry, len(o.Lines))
	found := false
	if o.Columns.Given() {
		found = s.layOutByColumns()
	} else {
		found = s.layOutByHeadings()
	}
	if found {
		if s.layout.long() {
			s.readLong()
		} else {
			s.readWide()
		}
		s.tellFormulas()
		s.account()
		s.checkRows()
	}
	slices.SortStableFunc(s.out.Problems, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.row, b.row), cmp.Compare(a.column, b.column))
	})
	return s.out
}

// sheet is one sheet on its way.
type sheet struct {
	Grid
	o         Options
	layout    layout
	out       Result
	formulas  []string     // cells of marks that formulas gave
	skipped   []string     // rows that are no line of the sheet
	otherK    map[int]bool // lines whose K was said to differ
	strangers []int        // columns of judges who are not on the panel
}

// layout says where things are. Columns that the sheet lacks are 0.
type layout struct {
	headings int // index of the row of headings, -1 where there is none
	first    int // index of the first row beneath them
	figure   int
	judges   []judgeColumn // wide
	judge    int           // long
	mark     int
	k        int
	flight   int
	left     []int // left out, as was said
}

func (l layout) long() bool { return l.mark > 0 }

// judgeColumn is a column of one judge's marks; name is "" where nobody is
// known by the heading.
type judgeColumn struct {
	column int
	name   string
}

// atEnd sorts a problem behind those of cells.
const atEnd = int(^uint(0) >> 1)

func (s *sheet) problem(column, row int, hint, format string, args ...any) {
	s.add(Problem{Cell: CellName(column, row), Text: fmt.Sprintf(format, args...), Hint: hint, row: row, column: column})
}

// problemOf is a problem of the sheet as a whole.
func (s *sheet) problemOf(hint, format string, args ...any) {
	s.add(Problem{Text: fmt.Sprintf(format, args...), Hint: hint, row: atEnd})
}

func (s *sheet) add(p Problem) {
	if len(s.out.Problems) == mostProblems {
		s.out.More++
		return
	}
	s.out.Problems = append(s.out.Problems, p)
}

func (s *sheet) note(cell, format string, args ...any) {
	s.out.Notes = append(s.out.Notes, Note{cell, fmt.Sprintf(format, args...)})
}

// width is the last column that holds anything.
func (s *sheet) width() int {
	width := 0
	for _, row := range s.Rows {
		if n := len(row.Cells); n > 0 {
			width = max(width, row.Cells[n-1].Column)
		}
	}
	return width
}

// index finds a line among those of the sequence.
func (s *sheet) index(line Line) int {
	return slices.IndexFunc(s.o.Lines, func(l Line) bool { return l.Kind == line.Kind && l.Figure == line.Figure })
}

// figures counts the figures of the sequence.
func (s *sheet) figures() int {
	n := 0
	for _, l := range s.o.Lines {
		if l.Kind == scoring.Figure {
			n++
		}
	}
	return n
}

// lineAt reads a row's cell of the figure column. Where that names a line that
// the sequence lacks, it says so and gives -1, as it does for anything else.
func (s *sheet) lineAt(row Row) int {
	cell := row.Cell(s.layout.figure)
	line, ok := lineOf(cell)
	if !ok {
		s.problem(s.layout.figure, row.Number, "", "%s is no figure, though marks stand beside it", described(cell))
		return -1
	}
	i := s.index(line)
	switch {
	case i >= 0:
		s.checkK(row, i)
	case line.Kind == scoring.Figure:
		s.problem(s.layout.figure, row.Number, "", "there is no figure %d: %s has %s", line.Figure, s.o.Sequence, display.Counted(s.figures(), "figure", "figures"))
	default:
		s.problem(s.layout.figure, row.Number, "", "%s has no %s line", s.o.Sequence, line.Name())
	}
	return i
}

// checkK compares the sheet's K with the ledger's: a difference says that
// another sequence is meant, or that a K was mistyped.
func (s *sheet) checkK(row Row, i int) {
	cell := row.Cell(s.layout.k)
	if s.layout.k == 0 || (cell.Kind != Text && cell.Kind != Number) {
		return
	}
	text := strings.TrimSuffix(cell.Text, ".0")
	if isDigits(text) && strings.TrimLeft(text, "0") != fmt.Sprint(s.o.Lines[i].K) && !s.otherK[i] {
		s.otherK[i] = true
		s.note(CellName(cell.Column, row.Number), "K %s on the sheet, K %d in %s", text, s.o.Lines[i].K, s.o.Sequence)
	}
}

// checkRows reports lines that the sheet lacks.
func (s *sheet) checkRows() {
	rows := 0
	for _, row := range s.out.Rows {
		if row != nil {
			rows++
		}
	}
	if rows == 0 {
		if len(s.out.Problems) == 0 {
			s.problemOf("", "the sheet has no row of marks")
		}
		return
	}
	for i, row := range s.out.Rows {
		if row == nil && !s.o.Partial {
			s.problemOf("", "%s has no row", s.o.Lines[i].Name())
		}
	}
}

// tellFormulas says which marks formulas gave.
func (s *sheet) tellFormulas() {
	if n := len(s.formulas); n > 0 {
		s.note(s.formulas[0], "%s: the stored value is taken, nothing is calculated (%s)", display.Counted(n, "formula", "formulas"), listed(s.formulas))
	}
	if n := len(s.skipped); n > 0 {
		s.note("", "not read: %s %s", display.Plural(n, "row", "rows"), listed(s.skipped))
	}
}

// listed lists the first dozen.
func listed(items []string) string {
	const most = 12
	if len(items) > most {
		return strings.Join(items[:most], ", ") + fmt.Sprintf(" and %d more", len(items)-most)
	}
	return strings.Join(items, ", ")
}

// quoted shows what a cell holds, shortened, nothing of it left raw.
func quoted(text string) string {
	const most = 40
	runes := []rune(text)
	if len(runes) > most {
		text = string(runes[:most]) + "…"
	}
	return fmt.Sprintf("%q", text)
}

// described says what a cell holds.
func described(c Cell) string {
	switch c.Kind {
	case Empty:
		return "an empty cell"
	case Unsolved:
		return "a formula without a stored value"
	case Date:
		return "the date " + c.Text
	default:
		return quoted(c.Text)
	}
}
