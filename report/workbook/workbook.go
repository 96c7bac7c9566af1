// Package workbook writes the coach's workbook: a spreadsheet in which every
// mean, points, lost and percent is a formula that leads back to the marks, so
// that a coach can change a grade, type HZ or AV, and see what follows.
//
// It is made of answers alone: the value beside each formula is the answer's
// number, so that a reader that does not calculate shows what the program's pages
// show. What the package keeps is what the sheets say and where: their columns,
// each with a key by which formulas, charts and lines in cells name it, and the
// formulas, which say with functions that every spreadsheet program has had since
// 2010 what the rules make of marks; there are no macros, no links to other files
// and nothing volatile. Sentences come from package words, tables of the pages
// from package tables, and the file from package xlsx.
package workbook

import (
	"errors"
	"io"
	"strconv"
	"strings"
	"time"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// Options say what a workbook states besides its answers.
type Options struct {
	// Head says what was chosen, as of when and by which version: it is printed,
	// and dates the document.
	Head report.Head
	// Title heads the workbook; the pilot's name where it is empty.
	Title string
	// Progress is told how far the writing has come, as so many of a total; it may
	// be nil.
	Progress func(done, total int)
}

// The stages of the writing, and the percent at which each begins.
const (
	stageSheets  = 0
	stageRows    = 40
	stagePacking = 80
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

// ErrNoPilot says that the answers are about no pilot.
var ErrNoPilot = errors.New("a workbook is of one pilot, and none is chosen")

// Write writes the workbook of a pilot's answers as an xlsx file. The same
// answers and options give the same bytes. Nothing is written to w when it fails
// before the end.
func Write(w io.Writer, book answers.Book, o Options) error {
	if book.Pilot.Name == "" {
		return ErrNoPilot
	}
	return newContent(book, o).write(w)
}

// write writes the workbook of a content.
func (c *content) write(w io.Writer) error {
	return c.told.write(w, c.imprint(), []xlsx.Sheet{
		seasonSheet(c), remarksSheet(c), flightsSheet(c), gradesSheet(c), familiesSheet(c), faultsSheet(c), panelSheet(c), readySheet(c),
		elementsSheet(c), rulesSheet(c),
	})
}

// write writes sheets as a workbook, and tells of it.
func (s stages) write(w io.Writer, imprint xlsx.Imprint, sheets []xlsx.Sheet) error {
	b := xlsx.NewBook(func(done, total int) { s.at(stageRows, stagePacking, done, total) })
	defer b.Close()
	b.Nothing = words.NoRows
	for _, sh := range sheets {
		b.Add(sh)
	}
	for i, sh := range sheets {
		b.Turn(sh.Name)
		sh.Fill(b)
		b.Page(sh, imprint)
		s.at(stageSheets, stageRows, i+1, len(sheets))
	}
	b.Properties(imprint)
	return b.Write(w)
}

// imprint is what every printed page and the document's properties say.
func (c *content) imprint() xlsx.Imprint {
	asOf, _ := time.Parse(time.DateOnly, c.head.AsOf) // the first day there is where none was said
	return xlsx.Imprint{
		Title: c.title, Period: c.period, Foot: c.head.Imprint(), Program: c.head.Program,
		Creator: strings.TrimSpace(c.head.Program + " " + c.head.Version), Dated: asOf,
		Subject: words.WorkbookSubject, Keywords: words.WorkbookKeywords,
	}
}

// content is what the sheets show.
type content struct {
	book     answers.Book
	told     stages
	head     report.Head
	title    string
	period   string // what was chosen, the pilot apart
	flights  []flightRow
	grades   []gradeRow
	elements []elementRow
	seats    int // the widest panel, 1 at least
	styles   styleList
	contests map[string]string // what a contest is called in formulas, by its handle
}

func newContent(book answers.Book, o Options) *content {
	c := &content{
		book: book, told: o.Progress, head: o.Head, title: o.Title, period: o.Head.Words("pilot"), seats: 1,
		styles: newStyleList(book.Styles), contests: contestKeys(book),
	}
	if c.title == "" {
		c.title = book.Pilot.Name
	}
	c.flights = make([]flightRow, len(book.Flights))
	for i, flight := range book.Flights {
		c.flights[i] = newFlightRow(c, flight, book.Season.Flights[i])
		row := &c.flights[i]
		c.elements = append(c.elements, elementRows(row, len(c.grades)+1)...)
		c.grades = append(c.grades, gradeRows(row)...)
	}
	for _, g := range c.grades {
		c.seats = max(c.seats, len(g.Marks))
	}
	return c
}

// contestKeys gives every contest a name of its own that no formula can take
// for a number, a date or a pattern: its first day and its handle.
func contestKeys(book answers.Book) map[string]string {
	taken, keys := namesTaken{}, map[string]string{}
	add := func(handle, date string) {
		if _, known := keys[handle]; !known && handle != "" {
			keys[handle] = taken.add(date + "/" + handle)
		}
	}
	for _, c := range book.Season.Contests {
		add(c.Contest, c.Date)
	}
	for _, f := range book.Flights {
		add(f.Contest, f.ContestDate)
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

// titleOf says what a sheet is about.
func (c *content) titleOf(what string) string {
	return what + ", " + c.book.Pilot.Name + ", " + c.period
}

// fittedFlights is how many flights a season has at the most for which each sheet is
// fitted on so many pages; of more a page would be too small to read.
const fittedFlights = 24

// pagesTall is on how many printed pages a sheet is fitted, 0 for as many as it
// needs.
func (c *content) pagesTall(pages int) int {
	if len(c.flights) > fittedFlights {
		return 0
	}
	return pages
}
