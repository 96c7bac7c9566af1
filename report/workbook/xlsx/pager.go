package xlsx

// Pager follows where printed pages end, so that a table that fits on a page is
// not split, and a heading stands with what it heads. Programs differ in how much
// they put on a page; it reckons with the least.
type Pager struct {
	b *Book
	// columns is how many are printed, headRows how many rows are repeated.
	Columns, headRows int
	// Fitted says that all is printed on one page: none begins within.
	Fitted bool
	start  int // the first row of the page
}

// What a page of A4 has inside its margins, in points, lying across and upright.
const (
	pageWide    = 784
	pageTall    = 515
	uprightWide = 537
	uprightTall = 762
)

// LeastRows is how many rows of a table that no page holds stand beneath its
// heading at the least.
const LeastRows = 12

// NewPager follows the pages of the sheet being written.
func NewPager(b *Book, columns, headRows int) *Pager {
	return &Pager{b: b, Columns: columns, headRows: headRows, start: 1}
}

// capacity is how high the rows of a page can be together, in points, before
// the page is made narrow enough: then more of them fit.
func (p *Pager) capacity() float64 { return pageTall * max(1, p.wide()/pageWide) }

// wide is how wide the columns are together, in points.
func (p *Pager) wide() float64 {
	const usual = 8.43
	wide := 0.0
	for i := range p.Columns {
		c := *p.b.grid.column(i + 1)
		if c.folded {
			continue
		}
		if c.width == 0 {
			c.width = usual
		}
		wide += 0.75 * (7*c.width + 5) // 7 pixels a digit, and 5 between columns
	}
	return wide
}

// tall is how high rows are together.
func (p *Pager) tall(from, to int) float64 {
	sum := 0.0
	for row := from; row <= to; row++ {
		height := p.b.grid.row(row).height
		if height == 0 {
			height = LineHeight
		}
		sum += height
	}
	return sum
}

// repeated is how high the rows are that every page but the first begins with.
func (p *Pager) repeated() float64 { return p.tall(1, p.headRows) }

// used is how much of the page the rows before this one take. Running text may
// take more than there is: the program then ends the page where it likes, and
// what comes next and stays together begins a page.
func (p *Pager) used(row int) float64 {
	used := p.tall(p.start, row-1)
	if p.start > p.headRows {
		used += p.repeated()
	}
	return used
}

// Fits reports whether so many points fit on the page from a row on.
func (p *Pager) Fits(row int, points float64) bool { return p.used(row)+points <= p.capacity() }

// OnePage reports whether so many points fit on a page of their own.
func (p *Pager) OnePage(points float64) bool { return p.repeated()+points <= p.capacity() }

// Begin begins a page at a row, unless it begins there.
func (p *Pager) Begin(row int) {
	if p.Fitted || row == p.start || row <= p.headRows+1 {
		return
	}
	p.start = row
	p.b.fail(p.b.file.InsertPageBreak(p.b.sheet, At(1, row)))
}

// Keep begins a page at what would not fit: rows with their heading. Of what no
// page holds, some rows stand with the heading.
func (p *Pager) Keep(from, to int) {
	if !p.OnePage(p.tall(from, to)) {
		to = min(to, from+1+LeastRows)
	}
	if !p.Fits(from, p.tall(from, to)) {
		p.Begin(from)
	}
}
