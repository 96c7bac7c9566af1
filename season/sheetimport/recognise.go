package sheetimport

import (
	"cmp"
	"fmt"
	"slices"

	"boxbook/scoring"
	"boxbook/season"
)

// Line is a line of a score sheet: a figure of the sequence from 1, or a
// weighted line, whose Figure is 0.
type Line struct {
	Kind   scoring.LineKind
	Figure int
	K      int
	Label  string // of a figure, "" where the ledger has none
}

// Name says the line in words: "figure 3", "positioning", "harmony".
func (l Line) Name() string { return season.Ruling{Line: l.Kind, Figure: l.Figure}.Name() }

// LinesOf lists the lines of a sequence as a flight's rows stand: the figures
// in order, then positioning, then harmony.
func LinesOf(seq *season.Sequence) []Line {
	lines := make([]Line, 0, len(seq.Figures)+2)
	for i, figure := range seq.Figures {
		lines = append(lines, Line{Kind: scoring.Figure, Figure: i + 1, K: figure.K, Label: figure.Label})
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
	// PanelOf is what Panel is taken from, a contest say; "" where it was given for this
	// sheet. Seats by number follow its order either way.
	PanelOf string
	// Known are those whom the ledger knows otherwise: where nobody gives a panel, a word
	// for a mean, say, that is the name of one of them is that judge's.
	Known   []string
	Partial bool // lines may be missing: practice
	Columns Columns
	// Flight chooses rows where the sheet has a column "flight" with several.
	Flight string
	// Pilot is the handle of the one among Pilots whose marks are asked for: where the
	// sheet names several, his rows are read. "" asks nobody.
	Pilot  string
	Pilots []Pilot
	// Penalties are those that the ledger has of the flight already, as it writes them.
	Penalties []string
	// Official is the cell of the printed total that is taken besides, with its
	// worksheet or without, "" for none.
	Official string
	// Style is the rule style by which totals are compared with the marks.
	Style scoring.Style
	// ReadMark reads one word as a mark and says what is wrong with it, hint
	// being what to type, "" where there is nothing to say.
	ReadMark func(text string) (mark scoring.Mark, problem, hint string)

	inBook bool // one of several worksheets
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
	Sheet string // the worksheet's name, "" in a file of plain text
	Cell  string
	Text  string
	Hint  string

	row, column int
	ofSeveral   bool // pilots, of whom none was asked for
}

// Note is something to know that keeps nothing from being read.
type Note struct {
	Sheet string
	Cell  string
	Text  string
}

// Result is what was found. Rows are by line of Options.Lines, one Entry per
// judge of Panel; nil where the sheet has no row of that line. Again are the
// further rows of lines that were flown several times, in practice. Without
// Problems every Entry is read, and every row is there but in practice. Of
// very many Problems the first hundred are kept, and More counts the others.
type Result struct {
	Panel    []string
	Rows     [][]Entry
	Again    [][][]Entry
	Problems []Problem
	More     int
	Notes    []Note
	// Penalties are those that the sheet prints and a total of it has deducted, as a
	// ledger writes them: "low 20".
	Penalties []string
	// Agreed names the totals of all judges together that agree with the marks:
	// "its total 566.98", "its K total 95".
	Agreed []string
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
	g, notes, problem := ofPilot(g, o)
	if problem != nil && problem.ofSeveral {
		return Result{Rows: make([][]Entry, len(o.Lines)), Again: make([][][]Entry, len(o.Lines)), Problems: []Problem{*problem}}
	}
	r := recognise(g, o)
	r.Notes = slices.Concat(notes, r.Notes)
	if problem != nil {
		r.Problems = slices.Insert(r.Problems, 0, *problem)
	}
	return r
}

// recognise finds the marks of the one pilot whose rows are left.
func recognise(g Grid, o Options) Result {
	g, initials := byInitials(g, o.Panel)
	s := find(g, o)
	if len(initials) > 0 {
		s.note("", "the judges are found by their initials: %s", listed(initials))
	}
	r := s.finish()
	if o.Panel == nil || s.seats || r.anyRead() {
		return r
	}
	return r.ofAnotherPanel(g, o)
}

// recogniser looks for one layout, and reports whether the sheet has it.
type recogniser func(*sheet) bool

// recognisers are the layouts that are known, the plainest first: by headings,
// then by what the columns hold.
func recognisers() [][]recogniser {
	return [][]recogniser{
		{(*sheet).longByHeadings, (*sheet).wideByHeadings},
		{(*sheet).longByContents, (*sheet).wideByContents},
	}
}

// find lays a sheet out: as it stands, or turned round where more of the
// sequence's lines are found that way.
func find(g Grid, o Options) *sheet {
	if o.Columns.Given() {
		s := newSheet(g, o, isDigits(o.Columns.Figure))
		s.found = s.layOutByColumns()
		return s
	}
	sheets := []*sheet{newSheet(g, o, false), newSheet(g, o, true)}
	sheets[1].memo = sheets[0].memo
	for _, group := range recognisers() {
		var found []*sheet
		for _, s := range sheets {
			fits := func(try recogniser) bool {
				s.layout, s.seats = layout{}, false
				return try(s)
			}
			if slices.ContainsFunc(group, fits) {
				found = append(found, s)
			}
		}
		if len(found) > 0 {
			return chosen(found, sheets)
		}
	}
	sheets[0].layout = layout{}
	sheets[0].noHeadings()
	return sheets[0]
}

// newSheet is a sheet on its way, without what is left out.
func newSheet(g Grid, o Options, turned bool) *sheet {
	s := &sheet{
		o: o, leave: o.Columns.Leave, isTurned: turned, memo: newMemo(), labels: labelsOf(o.Lines), otherK: map[int]bool{}, derived: map[int]working{}, skippedRows: map[int]bool{},
		doubtful: map[string]bool{}, complained: map[int]bool{}, besides: map[int]bool{},
		compared: map[string]bool{}, totals: map[int]bool{}, deducted: map[int]bool{},
	}
	s.Grid = g
	s.out.Rows = make([][]Entry, len(o.Lines))
	s.out.Again = make([][][]Entry, len(o.Lines))
	s.tellText()
	s.tellHidden()
	s.leaveAreas()
	if turned {
		s.Grid = s.Grid.turned()
	}
	return s
}

// lines counts the lines of the sequence that the figures' column has.
func (s *sheet) lines() int {
	seen := map[int]bool{}
	for _, row := range s.Rows[min(s.layout.first, len(s.Rows)):] {
		if line := s.lineNamed(row); line >= 0 {
			seen[line] = true
		}
	}
	return len(seen)
}

// settle finds what the layout is read with.
func (s *sheet) settle() {
	if _, missing := (columnFinder{s.width(), s.headingRow(), s.isTurned}).spans(s.o.Columns.Leave); missing != "" {
		s.noColumn(missing)
		return
	}
	s.found = true
	if s.layout.long() {
		s.found = s.setJudges(nil)
		return
	}
	if s.o.Panel == nil {
		s.doubtJudges()
	}
	s.found = !s.seats || s.takeSeats()
	s.found = s.found && s.setJudges(s.layout.judges)
}

// finish reads what was found, and accounts for the rest.
func (s *sheet) finish() Result {
	if s.found {
		s.findNames()
		s.kByContents()
		if s.layout.long() {
			s.readLong()
		} else {
			s.readWide()
		}
		s.tellTwice()
		s.tellK()
		s.tellJudges()
		s.account()
		s.checkRows()
		s.tellRows()
	}
	slices.SortStableFunc(s.out.Problems, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.row, b.row), cmp.Compare(a.column, b.column))
	})
	return s.out
}

// sheet is one sheet on its way.
type sheet struct {
	Grid
	o           Options
	leave       []string // what was given to be left out, areas too
	isTurned    bool
	found       bool
	layout      layout
	guess       int             // the column that names most lines, 0 where it was not looked for
	memo        *memo           // what texts were read as
	labels      map[string]Line // the lines by their labels
	block       block
	out         Result
	tenths      bool            // grades lack their point
	formulas    []string        // cells of marks that formulas gave
	skipped     []Row           // rows that are no line of the sheet
	skippedRows map[int]bool    // the same, by number
	beneath     []int           // rows of another table
	breaks      []int           // by row, how many free rows and rows of no line stand above
	twice       []doubled       // lines with a second row
	saidMissing bool            // a missing line was named with another's second row
	openRow     bool            // a row that nothing names may be the missing line
	otherK      map[int]bool    // lines whose K was said to differ
	wrongK      []wrongK        // K that differs
	strangers   []int           // columns of judges who are not on the panel, and those asked about
	absentees   []string        // judges of the panel who have no column
	lone        bool            // the sheet of one judge alone
	seats       bool            // the headings number the judges' seats
	eitherWay   bool            // it may be meant turned round as well, which is asked
	empty       []int           // columns of judges without a mark
	besides     map[int]bool    // columns of remarks beside the table
	derived     map[int]working // columns that were worked out of the marks
	doubtful    map[string]bool // cells that were asked about already
	compared    map[string]bool // cells of totals that were compared with the marks
	deducted    map[int]bool    // columns of which a total has the penalties deducted
	another     bool            // another flight stands beneath
	totals      map[int]bool    // rows whose totals of judges were compared
	complained  map[int]bool    // rows of which a mark was not read
	joined      *sheet          // with the judges who were left out, nil until it is asked
	left        []judgeColumn   // of that one: those judges
	including   []string        // printed totals that include them
}

// layout says where things are. Columns that the sheet lacks are 0.
type layout struct {
	headings int // index of the row of headings, -1 where there is none
	first    int // index of the first row beneath them
	figure   int
	names    []int         // columns that name the lines too
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
	s.complained[row] = true
	cell := s.cellName(column, row)
	if s.isTurned {
		column, row = row, column
	}
	s.add(Problem{Sheet: s.Name, Cell: cell, Text: fmt.Sprintf(format, args...), Hint: hint, row: row, column: column})
}

// problemOf is a problem of the sheet as a whole.
func (s *sheet) problemOf(hint, format string, args ...any) {
	s.add(Problem{Sheet: s.Name, Text: fmt.Sprintf(format, args...), Hint: hint, row: atEnd})
}

func (s *sheet) add(p Problem) {
	if len(s.out.Problems) == mostProblems {
		s.out.More++
		return
	}
	s.out.Problems = append(s.out.Problems, p)
}

func (s *sheet) note(cell, format string, args ...any) {
	s.out.Notes = append(s.out.Notes, Note{Sheet: s.Name, Cell: cell, Text: fmt.Sprintf(format, args...)})
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

// headingRow is the row of headings, an empty one where there is none.
func (s *sheet) headingRow() Row {
	if s.layout.headings < 0 || s.layout.headings >= len(s.Rows) {
		return Row{}
	}
	return s.Rows[s.layout.headings]
}
