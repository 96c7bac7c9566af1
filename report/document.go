// Package report holds one document model and the writers beside it: text for
// a terminal, JSON for programs.
//
// A Document carries the same result twice: Sections for people, made of
// tables, facts, paragraphs, notes and series, and Data for programs. The model
// knows neither widths nor colours nor file formats; a writer decides where
// things go. The package knows nothing of what the numbers mean.
package report

import "slices"

// Document is one report.
type Document struct {
	// Title and Subtitle stand at the head; either may be empty.
	Title    string
	Subtitle string
	// Head says what the document rests on.
	Head Head
	// Bare documents are rows for other programs and nothing else: they have no
	// head, and their Data may be a list.
	Bare bool
	// Sections are read by people, in this order.
	Sections []Section
	// Main is the table that WriteCSV writes; nil: the first of the sections.
	Main *Table
	// Paper is how the document lies on paper, for a writer that prints.
	Paper Paper
	// Data is what WriteJSON writes: a value encoding/json can marshal, whose
	// numbers are Numbers, so that they stay unrounded and may be unknown.
	Data any
	// Caution is what a document that advises cannot know and who decides; "" where
	// it does not advise. It belongs to the document and not to its sections or its
	// data, so that every writer writes it, once: at the foot, in CSV in a column of
	// its own, in JSON as the field "caution" of the data's object.
	Caution string
}

// Paper is how a document lies on paper.
type Paper string

// A document goes on over as many pages as it takes, is set small so that it stays
// on one, or is a form with room to write by hand.
const (
	Pages    Paper = ""
	OneSheet Paper = "sheet"
	Form     Paper = "form"
)

// Section is a heading with the blocks under it. An empty Heading is left out.
type Section struct {
	Heading string
	Blocks  []Block
	// Parts are the sections within it. Folded asks a writer that can to show the
	// heading alone until somebody opens it.
	Parts  []Section
	Folded bool
}

// flat are sections with their parts behind them, for writers that nest nothing.
func flat(sections []Section) []Section {
	var out []Section
	for _, s := range sections {
		out = append(append(out, s), flat(s.Parts)...)
	}
	return out
}

// Block is one piece of a section: *Table, *Facts, *Paragraph, *Notes,
// *Series, *Drawing or Picture. The set is closed, so that every writer can handle all of it.
type Block interface{ block() }

func (*Table) block()     {}
func (*Facts) block()     {}
func (*Paragraph) block() {}
func (*Notes) block()     {}
func (*Series) block()    {}

// Align says at which side of its column a cell stands; its heading and its
// footer stand at the same side.
type Align int

// The sides. Numbers belong right, so that their decimal points line up.
const (
	Left Align = iota
	Right
	Centre
)

// Column describes one column of a Table.
type Column struct {
	// Key names the column for whoever draws it or calculates with it, whatever its
	// title says; it may be empty.
	Key string
	// Title is the heading, written as typed.
	Title string
	Align Align
	// Flexible columns take the width of their content where there is room;
	// where there is not, their text (never their numbers nor their heading)
	// is shortened with an ellipsis, down to Min display columns.
	Flexible bool
	// Wrapped columns are like flexible ones, but their text goes on in further
	// lines of the row instead of being shortened.
	Wrapped bool
	Min     int
	// Breaks says that the heading goes on in further lines, by words, where the table
	// has no room for it in one: its column may be narrower than the heading. Where the
	// others find no room at all, theirs do so too.
	Breaks bool
	// Names says that the column says what a row is about to those right of it, up to
	// the next that does; it is repeated before them where a table has to be split.
	Names bool
	// Drop is the rank in which a column is left out of a table that does not
	// fit even when shortened: the highest first, of equals the rightmost; 0
	// is never left out.
	Drop int
	// Bars asks the text writer for a bar beside each of the column's numbers,
	// the greatest of them at full length, where the whole table has room for
	// them.
	Bars bool
}

// Table is a grid of cells.
type Table struct {
	// Title stands above the table; it may be empty.
	Title   string
	Columns []Column
	// Rows and Footer hold a cell a column; a row that is too short is filled
	// with empty cells, and cells beyond the last column are not shown. The
	// Footer (totals, means) is set off from the rows.
	Rows   [][]Cell
	Footer [][]Cell
	// Below has text that stands across the table beneath the row of the same place,
	// for people alone; it may be shorter than Rows, and "" is nothing.
	Below []string
	// Key is the number of leading columns that say what a row is about. They
	// are never left out, and repeated when a table has to be split.
	Key int
}

// Column finds a column by its key; it is -1 where the table has none of it.
func (t *Table) Column(key string) int {
	return slices.IndexFunc(t.Columns, func(c Column) bool { return c.Key == key })
}

// Facts is a list of labels with a value each.
type Facts struct {
	Items []Fact
}

// Fact is one label and its value.
type Fact struct {
	Label string
	Value Cell
}

// Paragraph is running text. A line feed in Text starts a new line; everything
// else is wrapped by the writer.
type Paragraph struct {
	Text string
	// Command says that it names a command for more, which is of use only to who
	// has the program.
	Command bool
}

// Notes is a list of short remarks.
type Notes struct {
	Items []Note
}

// Note is one remark. Mark (such as "*" or "a") ties it to the cells that carry
// the same mark; a note without one is an item of a plain list.
type Note struct {
	Mark string
	Text string
}

// Series is a small named run of values, oldest first.
type Series struct {
	Name   string
	Points []Point
	// Decimals is the number of decimals to which values are shown.
	Decimals int
}

// Point is one value of a Series. Label says where it stands (a date); a value
// not known leaves a gap.
type Point struct {
	Label string
	Value Number
}
