package xlsx

import (
	"fmt"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"
)

// Sheet is one page of the workbook. Tables are laid out before anything is
// written, so that a formula of any sheet can name the columns of every other.
type Sheet struct {
	Name   string
	Tables []Placed
	// frozenRows and frozenColumns stay in sight.
	FrozenRows, FrozenColumns int
	// headRows are repeated on every printed page, from the first on.
	HeadRows int
	// lastColumn is the last printed one, counted from 1.
	LastColumn int
	// LastRow is the last printed one, 0 for the last that there is.
	LastRow int
	// PagesTall is over how many printed pages the rows may go, 0 for as many as they
	// need.
	PagesTall int
	// Unprinted sheets stand outside what is printed.
	Unprinted bool
	// legend stands in the foot of every printed page.
	Legend string
	Fill   func(b *Book)
}

// Imprint is what printed pages and the document's properties say of the whole
// workbook.
type Imprint struct {
	Title, Period string // of every page's head
	Foot          string
	Program       string
	Creator       string
	Subject       string
	Keywords      string
	Dated         time.Time
}

// Page freezes the headings and makes the sheet printable: A4, one page wide, with the
// pilot, the season and the page's number. It lies across, but for a sheet of one page
// whose letters are larger upright.
func (b *Book) Page(s Sheet, i Imprint) {
	f := b.file
	b.freeze(s)
	last := b.lastPrinted(s)
	a4, wide, tall, lies, fit := 9, 1, s.PagesTall, "landscape", true
	title, period := 60, 80
	if s.PagesTall == 1 && !s.Unprinted && b.upright(s.LastColumn, last) {
		lies, title, period = "portrait", 40, 50
	}
	b.fail(f.SetSheetProps(s.Name, &excelize.SheetPropsOptions{FitToPage: &fit}))
	b.fail(f.SetPageLayout(s.Name, &excelize.PageLayoutOptions{
		Size: &a4, Orientation: &lies, FitToWidth: &wide, FitToHeight: &tall,
	}))
	side, top, bottom, head, foot := 0.4, 0.47, 0.55, 0.25, 0.2 // a line stands in the head, two in the foot
	b.fail(f.SetPageMargins(s.Name, &excelize.PageLayoutMarginsOptions{
		Left: &side, Right: &side, Top: &top, Bottom: &bottom, Header: &head, Footer: &foot,
	}))
	legend := ""
	if s.Legend != "" {
		legend = "\n" + Printed(s.Legend, 110)
	}
	b.fail(f.SetHeaderFooter(s.Name, &excelize.HeaderFooterOptions{
		OddHeader: "&L&B" + Printed(i.Title, title) + "&B, " + Printed(i.Period, period) + "&R" + s.Name,
		OddFooter: "&L" + Printed(i.Foot, 60) + legend + "&RPage &P of &N",
	}))
	b.fail(f.SetSheetDimension(s.Name, fmt.Sprintf("A1:%s%d", ColumnName(b.grid.widest), len(b.grid.rows))))
	if s.Unprinted {
		b.printArea(s.Name, Dollars(b.grid.widest+2, 1, 0, 0)) // an empty cell: without an area all would be printed
		return
	}
	b.printArea(s.Name, fmt.Sprintf("$A$1:$%s$%d", ColumnName(s.LastColumn), last))
	if s.HeadRows > 0 {
		heads := fmt.Sprintf("%s!$1:$%d", QuotedSheet(s.Name), s.HeadRows)
		b.fail(f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", Scope: s.Name, RefersTo: heads}))
	}
}

// lastPrinted is the last printed row of a sheet.
func (b *Book) lastPrinted(s Sheet) int {
	if end, ends := b.ends[s.Name]; ends {
		return end
	}
	if s.LastRow > 0 {
		return s.LastRow
	}
	return len(b.grid.rows)
}

// upright reports whether so many columns and rows are larger on one upright page than
// on one that lies across, by more than is worth a page to be turned for.
func (b *Book) upright(columns, rows int) bool {
	const worth = 1.05
	p := Pager{b: b, Columns: columns}
	wide, tall := p.wide(), p.tall(1, rows)
	return min(1, uprightWide/wide, uprightTall/tall) > worth*min(1, pageWide/wide, pageTall/tall)
}

// printArea says what of a sheet is printed.
func (b *Book) printArea(sheet, area string) {
	b.fail(b.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", Scope: sheet, RefersTo: QuotedSheet(sheet) + "!" + area}))
}

func (b *Book) freeze(s Sheet) {
	corner := fmt.Sprintf("%s%d", ColumnName(s.FrozenColumns+1), s.FrozenRows+1)
	pane := "bottomLeft"
	if s.FrozenColumns > 0 {
		pane = "bottomRight"
	}
	b.fail(b.file.SetPanes(s.Name, &excelize.Panes{
		Freeze: true, XSplit: s.FrozenColumns, YSplit: s.FrozenRows, TopLeftCell: corner, ActivePane: pane,
		Selection: []excelize.Selection{{SQRef: corner, ActiveCell: corner, Pane: pane}},
	}))
}

// Printed is a text inside a header or footer, where & begins a code and is
// doubled to stand for itself. It keeps to so many characters: all parts of a
// header may have 255 together.
func Printed(s string, most int) string {
	var b strings.Builder
	for _, r := range seenLines(s) {
		most--
		if r == '&' {
			b.WriteRune(r)
			most--
		}
		if most <= 0 {
			b.WriteString("…")
			break
		}
		b.WriteRune(r)
	}
	return b.String()
}

// Properties describes the document.
func (b *Book) Properties(i Imprint) {
	dated := i.Dated.Format(time.RFC3339)
	b.fail(b.file.SetDocProps(&excelize.DocProperties{
		Title: seenLines(i.Title + ", " + i.Period), Subject: seenLines(i.Subject), Creator: i.Creator, LastModifiedBy: i.Creator,
		Created: dated, Modified: dated, Keywords: i.Keywords,
	}))
	b.fail(b.file.SetAppProps(&excelize.AppProperties{Application: i.Program}))
}
