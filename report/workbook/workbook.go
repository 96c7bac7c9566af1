// Package workbook writes the coach's workbook: a spreadsheet in which every
// mean, points, lost and percent is a formula that leads back to the marks, so
// that a coach can change a grade, type HZ or AV, and see what follows. It is
// the only package that knows the spreadsheet library.
//
// Formulas use only functions that every spreadsheet program has had since
// 2010; there are no macros, no links to other files and nothing volatile.
// Beside each formula stands its value as packages season and scoring give it,
// so that a reader that does not calculate shows the same numbers.
package workbook

import (
	"errors"
	"io"
	"strconv"
	"strings"
	"sync"

	"github.com/xuri/excelize/v2"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/tables"
	"boxbook/season"
	"boxbook/season/analysis"
)

// Options say what a workbook states besides the ledger's own facts.
type Options struct {
	// AsOf stands for today: it is printed, and it dates the document. Where it
	// is zero the ledger's own AsOf is taken.
	AsOf season.Date
	// Title heads the workbook; the pilot's name where it is empty.
	Title string
	// Version is the program's, for the foot of the page; it may be empty.
	Version string
	// Year adds the treasurer's sheet of a calendar year; nil adds none.
	Year *answers.Year
	// Progress is told how far the writing has come, as so many of a total; it may
	// be nil.
	Progress func(done, total int)
}

// The stages of the writing, and the percent at which each begins.
const (
	stageAnswers = 0
	stageSheets  = 30
	stageRows    = 55
	stagePacking = 85
	allStages    = 100
)

// stages tells of the work stage by stage.
type stages func(done, total int)

// at says that so many of a stage's parts are through.
func (s stages) at(stage, next, done, total int) {
	if s != nil && total > 0 {
		s(stage*total+(next-stage)*done, allStages*total)
	}
}

// ErrNoPilot says that a selection names no pilot.
var ErrNoPilot = errors.New("a workbook is of one pilot, and none is chosen")

// Write writes the workbook of the selected flights as an xlsx file. The
// selection names a pilot, and usually one season. The same ledger, selection
// and options give the same bytes. Nothing is written to w when it fails
// before the end.
func Write(w io.Writer, l *season.Ledger, s season.Selection, o Options) error {
	if s.Pilot == nil {
		return ErrNoPilot
	}
	if o.AsOf == 0 {
		o.AsOf = l.AsOf
	}
	return newContent(l, s, o).write(w)
}

// write writes the workbook of a content.
func (c *content) write(w io.Writer) error {
	b := newBook(c.told)
	defer b.file.Close()
	sheets := []sheet{
		seasonSheet(c), flightsSheet(c), gradesSheet(c), familiesSheet(c), faultsSheet(c), panelSheet(c), readySheet(c),
	}
	if c.year != nil {
		sheets = append(sheets, accountsSheet(c))
	}
	sheets = append(sheets, elementsSheet(c), rulesSheet(c))
	for _, sh := range sheets {
		b.add(sh)
	}
	for i, sh := range sheets {
		b.turn(sh.name)
		sh.fill(b)
		b.page(sh, c)
		c.told.at(stageSheets, stageRows, i+1, len(sheets))
	}
	b.properties(c)
	return b.write(w)
}

// sheet is one page of the workbook. Tables are laid out before anything is
// written, so that a formula of any sheet can name the columns of every other.
type sheet struct {
	name   string
	tables []placed
	// frozenRows and frozenColumns stay in sight.
	frozenRows, frozenColumns int
	// headRows are repeated on every printed page, from the first on.
	headRows int
	// lastColumn is the last printed one, counted from 1.
	lastColumn int
	// pagesWide is over how many printed pages the columns may go, 0 for one; the
	// first headColumns are then repeated on each.
	pagesWide, headColumns int
	// legend stands in the foot of every printed page.
	legend string
	fill   func(b *book)
}

// content is what the sheets show.
type content struct {
	options season.Selection
	told    stages
	asOf    season.Date
	head    report.Head
	title   string
	period  string // what was chosen, the pilot apart
	pilot   *season.Pilot
	flights []flightRow
	grades  []gradeRow
	seats   int // the widest panel, 1 at least
	styles  styleList
	season  analysis.Flights
	contest map[*season.Contest]string // what a contest is called in formulas

	elements  []elementRow
	runs      map[runKey]*weighed
	families  analysis.Families
	recurring analysis.Recurring
	trends    []trendRow
	docs      documents
	year      *report.Document // nil where it was not asked for
}

func newContent(l *season.Ledger, s season.Selection, o Options) *content {
	c := &content{
		options: s, told: o.Progress, asOf: o.AsOf, title: o.Title, pilot: s.Pilot, head: tables.Head(o.Version, o.AsOf, "", tables.PeriodChoices(s)),
		season: analysis.SeasonOf(l, s), styles: newStyleList(l), contest: contestKeys(l), seats: 1,
	}
	c.period = c.head.Words("pilot")
	if c.title == "" {
		c.title = s.Pilot.Name
	}
	var asked sync.WaitGroup
	asked.Go(func() { c.ask(l, o.Year) })
	for i, line := range c.season.Lines {
		c.told.at(stageAnswers, stageSheets, i, len(c.season.Lines))
		row := newFlightRow(c, line)
		c.flights = append(c.flights, row)
		c.elements = append(c.elements, elementRows(row, len(c.grades)+1)...)
		c.grades = append(c.grades, gradeRows(row)...)
	}
	for _, g := range c.grades {
		c.seats = max(c.seats, len(g.line.Marks))
	}
	c.weigh()
	asked.Wait()
	return c
}

// ask gets the answers of the program's commands. It touches nothing that the
// rows of flights and marks are made in, and is done beside them.
func (c *content) ask(l *season.Ledger, year *answers.Year) {
	c.families, c.recurring, c.trends = analysis.FamiliesOf(l, c.options), analysis.FaultsOf(l, c.options), trendRows(c.season)
	c.docs = newDocuments(l, c)
	if year != nil {
		doc := pages.Year(*year)
		c.year = &doc
	}
}

// contestKeys gives every contest a name of its own that no formula can take
// for a number, a date or a pattern: its first day and its handle.
func contestKeys(l *season.Ledger) map[*season.Contest]string {
	taken := namesTaken{}
	keys := map[*season.Contest]string{}
	for _, c := range l.Contests {
		keys[c] = taken.add(c.First.String() + "/" + c.Handle)
	}
	return keys
}

// namesTaken keeps names apart as formulas compare them: without regard to
// capitals.
type namesTaken map[string]bool

// add gives the name, or the name with a number where it is taken.
func (t namesTaken) add(name string) string {
	free := name
	for n := 2; t[strings.ToLower(free)]; n++ {
		free = name + " (" + strconv.Itoa(n) + ")"
	}
	t[strings.ToLower(free)] = true
	return free
}

// epoch is 1970-01-01 as a spreadsheet counts days.
const epoch = 25569

// serial is a date as a spreadsheet counts it: days.
// Dates before March 1900 have none that every program agrees on.
func serial(d season.Date) (int, bool) {
	n := int(d) + epoch
	return n, n > 60
}

// columnNames are the letters of the columns that sheets have.
var columnNames = func() (names [100]string) {
	for i := range names {
		names[i] = lettersOf(i)
	}
	return names
}()

// columnName gives the letters of a column counted from 1.
func columnName(column int) string {
	if column < len(columnNames) {
		return columnNames[column]
	}
	return lettersOf(column)
}

func lettersOf(column int) string {
	name, _ := excelize.ColumnNumberToName(column) // fails only beyond 16384 columns
	return name
}
