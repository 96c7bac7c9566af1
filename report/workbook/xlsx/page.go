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

// Page freezes the headings and makes the sheet printable: A4 landscape, one
// page wide, with the pilot, the season and the page's number.
func (b *Book) Page(s Sheet, i Imprint) {
	f := b.file
	b.freeze(s)
	a4, wide, tall, landscape, fit := 9, 1, s.PagesTall, "landscape", true
	b.fail(f.SetSheetProps(s.Name, &excelize.SheetPropsOptions{FitToPage: &fit}))
	b.fail(f.SetPageLayout(s.Name, &excelize.PageLayoutOptions{
		Size: &a4, Orientation: &landscape, FitToWidth: &wide, FitToHeight: &tall,
	}))
	side, edge, inner := 0.4, 0.7, 0.3
	b.fail(f.SetPageMargins(s.Name, &excelize.PageLayoutMarginsOptions{
		Left: &side, Right: &side, Top: &edge, Bottom: &edge, Header: &inner, Footer: &inner,
	}))
	legend := ""
	if s.Legend != "" {
		legend = "\n" + Printed(s.Legend, 110)
	}
	b.fail(f.SetHeaderFooter(s.Name, &excelize.HeaderFooterOptions{
		OddHeader: "&L&B" + Printed(i.Title, 60) + "&B, " + Printed(i.Period, 80) + "&R" + s.Name,
		OddFooter: "&L" + Printed(i.Foot, 60) + legend + "&RPage &P of &N",
	}))
	last := len(b.grid.rows)
	b.fail(f.SetSheetDimension(s.Name, fmt.Sprintf("A1:%s%d", ColumnName(b.grid.widest), last)))
	if s.Unprinted {
		b.printArea(s.Name, Dollars(b.grid.widest+2, 1, 0, 0)) // an empty cell: without an area all would be printed
		return
	}
	if s.LastRow > 0 {
		last = s.LastRow
	}
	if end, ends := b.ends[s.Name]; ends {
		last = end
	}
	b.printArea(s.Name, fmt.Sprintf("$A$1:$%s$%d", ColumnName(s.LastColumn), last))
	if s.HeadRows > 0 {
		heads := fmt.Sprintf("%s!$1:$%d", QuotedSheet(s.Name), s.HeadRows)
		b.fail(f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", Scope: s.Name, RefersTo: heads}))
	}
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
