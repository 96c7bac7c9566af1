package workbook

import (
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// yearCell is a cell of the sheet The year: a value, which a formula comes to where
// there is one.
type yearCell struct {
	value   xlsx.Value
	formula string
	look    xlsx.Look
	wide    bool // a text that goes on to the last column
}

// yearTable is a table of the sheet: a heading, titles of columns and rows.
type yearTable struct {
	heading string
	titles  []yearCell
	rows    [][]yearCell
	head    int // the row of the titles
}

// first is the first row of the body, next the row that comes behind the last.
func (t *yearTable) first() int { return t.head + 1 }

func (t *yearTable) next() int { return t.first() + len(t.rows) }

// yearPage is the sheet The year: where its tables stand is known before anything is
// written, so that its formulas can name its cells.
type yearPage struct {
	c      *club
	tables []*yearTable
	names  []namedRate
}

// The rows above the first table: title, what the page rests on, the answer, a
// space.
const (
	yearTitleRow  = 1
	yearNoteRow   = 2
	yearAnswerRow = 3
	yearFirstRow  = 5
)

// The widths of the sheet's columns.
const (
	yearFirst = 42
	yearLeast = 9 // columns
)

func newYearPage(c *club) *yearPage {
	p := &yearPage{c: c}
	p.result()
	p.owed()
	p.unpaid()
	p.counts()
	p.kinds(words.IncomeHeading, "income", true)
	p.kinds(words.CostsHeading, "costs", false)
	p.ratesTable()
	return p
}

// begin begins a table under the last one.
func (p *yearPage) begin(heading string, titles ...yearCell) *yearTable {
	t := &yearTable{heading: heading, titles: titles, head: yearFirstRow + 1}
	if n := len(p.tables); n > 0 {
		t.head = p.tables[n-1].next() + 2
	}
	p.tables = append(p.tables, t)
	return t
}

func (t *yearTable) add(cells ...yearCell) { t.rows = append(t.rows, cells) }

// title is the title of a column, which stands as its cells do.
func title(text string, like xlsx.Look) yearCell {
	return yearCell{value: xlsx.Text(text), look: like.Heading()}
}

// said is a text in a cell.
func said(text string) yearCell { return yearCell{value: xlsx.Text(text), look: xlsx.LookText} }

func centred(text string) yearCell {
	return yearCell{value: xlsx.Text(text), look: xlsx.LookCentred}
}

func dated(date string) yearCell { return yearCell{value: day(date), look: xlsx.LookDate} }

// amountCell is an amount as it was typed, or what a formula comes to.
func (p *yearPage) amountCell(currency string, v xlsx.Value, formula string) yearCell {
	cell := yearCell{value: v, look: p.c.moneyLook(currency)}
	if formula != "" {
		cell.formula, cell.look = p.c.rounded(formula, currency), cell.look.Live()
	}
	return cell
}

func (c yearCell) strong() yearCell {
	c.look = c.look.Strong()
	return c
}

// goesOn lets a text go on to the last column.
func (c yearCell) goesOn() yearCell {
	c.wide, c.look.Wrap = true, true
	return c
}

// empty is a cell without anything in it.
func empty() yearCell { return yearCell{look: xlsx.LookText} }

// sheet is the page as a sheet.
func (p *yearPage) sheet() xlsx.Sheet {
	return xlsx.Sheet{
		Name: words.TheYearSheet, FrozenRows: 1, HeadRows: 1, LastColumn: p.columns(), Legend: words.TheYearLegend,
		Fill: p.fill,
	}
}

func (p *yearPage) columns() int {
	most := yearLeast
	for _, t := range p.tables {
		columns := len(t.titles)
		if t.titles[columns-1].wide {
			columns++ // a remark needs more than an amount
		}
		most = max(most, columns)
	}
	return most
}

// other is how wide the columns but the first are.
func (p *yearPage) other() float64 { return p.c.amountWide + 0.5 }

// wide is how wide the page is from a column on.
func (p *yearPage) wide(from int) float64 {
	wide := p.other() * float64(p.columns()-max(from-1, 1))
	if from == 1 {
		wide += yearFirst
	}
	return wide
}

func (p *yearPage) fill(b *xlsx.Book) {
	last := p.columns()
	b.Width(1, 1, yearFirst)
	b.Width(2, last, p.other())
	prose := xlsx.Look{Align: "left", Wrap: true}
	b.TitleLine(yearTitleRow, last, p.wide(1), words.ClubYearTitle(p.c.title, p.c.Year), 16)
	b.Across(1, yearNoteRow, last, p.wide(1), words.TheYearNote, xlsx.Look{Align: "left", Wrap: true, Grey: true, Size: 9})
	b.Across(1, yearAnswerRow, last, p.wide(1), words.YearThought(p.c.Year), prose)
	pages := xlsx.NewPager(b, last, 1)
	for _, t := range p.tables {
		p.fillTable(b, t)
		pages.Keep(t.head-1, t.next()-1)
	}
	for _, n := range p.names {
		rate := xlsx.Placed{Sheet: words.TheYearSheet, Head: n.row - 1, Rows: 1, Columns: map[string]int{"rate": 2}}
		b.Name(n.name, rate, "rate")
	}
}

func (p *yearPage) fillTable(b *xlsx.Book, t *yearTable) {
	b.Text(1, t.head-1, t.heading, xlsx.Look{Bold: true, Size: 13, Align: "left"})
	b.Height(t.head-1, sectionHead)
	p.fillRow(b, t.head, t.titles)
	b.Heights(t.head, t.head, p.titleLines(t))
	for i, row := range t.rows {
		p.fillRow(b, t.first()+i, row)
	}
}

// titleLines is how many lines the titles take.
func (p *yearPage) titleLines(t *yearTable) int {
	lines := 1
	for _, cell := range t.titles[1:] {
		if !cell.wide {
			lines = max(lines, xlsx.TextLines(cell.value.Text, p.other()))
		}
	}
	return lines
}

func (p *yearPage) fillRow(b *xlsx.Book, row int, cells []yearCell) {
	lines := 1
	for i, cell := range cells {
		if i == 0 && len(cell.value.Text) > yearFirst {
			cell.look.Wrap = true
			lines = xlsx.TextLines(cell.value.Text, yearFirst)
		}
		if cell.formula != "" {
			b.Formula(i+1, row, b.Expand(cell.formula, xlsx.Placed{Name: words.TheYearSheet}, row), cell.value, cell.look)
		} else {
			b.Put(i+1, row, cell.value, cell.look)
		}
		if cell.wide {
			b.Merge(i+1, row, p.columns(), cell.look)
			lines = max(lines, xlsx.TextLines(cell.value.Text, p.wide(i+1)))
		}
	}
	if lines > 1 {
		b.Heights(row, row, lines)
	}
}

// amountIn is the amount of a currency among sums, nothing where there is none.
func amountIn(sums []answers.Sum, currency string) xlsx.Value {
	amount, ok := answers.SumIn(sums, currency)
	if !ok {
		return xlsx.Integer(0)
	}
	return amountValue(amount)
}

// years are the year and the one beside it.
func (p *yearPage) years() []answers.Year {
	all := []answers.Year{p.c.Year}
	if beside := p.c.Year.Beside; beside != nil {
		all = append(all, *beside)
	}
	return all
}
