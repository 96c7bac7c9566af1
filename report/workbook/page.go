package workbook

import (
	"fmt"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"
)

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

// imprint is what printed pages and the document's properties say of the whole
// workbook.
type imprint struct {
	title, period string // of every page's head
	foot          string
	program       string
	creator       string
	subject       string
	keywords      string
	dated         time.Time
}

// page freezes the headings and makes the sheet printable: A4 landscape, as many
// pages wide as the sheet says, with the pilot, the season and the page's number.
func (b *book) page(s sheet, i imprint) {
	f := b.file
	b.freeze(s)
	a4, wide, tall, landscape, fit := 9, max(1, s.pagesWide), 0, "landscape", true
	b.fail(f.SetSheetProps(s.name, &excelize.SheetPropsOptions{FitToPage: &fit}))
	b.fail(f.SetPageLayout(s.name, &excelize.PageLayoutOptions{
		Size: &a4, Orientation: &landscape, FitToWidth: &wide, FitToHeight: &tall,
	}))
	side, edge, inner := 0.4, 0.7, 0.3
	b.fail(f.SetPageMargins(s.name, &excelize.PageLayoutMarginsOptions{
		Left: &side, Right: &side, Top: &edge, Bottom: &edge, Header: &inner, Footer: &inner,
	}))
	legend := ""
	if s.legend != "" {
		legend = "\n" + printed(s.legend, 110)
	}
	b.fail(f.SetHeaderFooter(s.name, &excelize.HeaderFooterOptions{
		OddHeader: "&L&B" + printed(i.title, 60) + "&B, " + printed(i.period, 80) + "&R" + s.name,
		OddFooter: "&L" + printed(i.foot, 60) + legend + "&RPage &P of &N",
	}))
	last := len(b.grid.rows)
	b.fail(f.SetSheetDimension(s.name, fmt.Sprintf("A1:%s%d", columnName(b.grid.widest), last)))
	b.fail(f.SetDefinedName(&excelize.DefinedName{
		Name: "_xlnm.Print_Area", Scope: s.name,
		RefersTo: fmt.Sprintf("%s!$A$1:$%s$%d", quotedSheet(s.name), columnName(s.lastColumn), last),
	}))
	if s.headRows > 0 {
		heads := fmt.Sprintf("%s!$1:$%d", quotedSheet(s.name), s.headRows)
		if s.headColumns > 0 {
			heads = fmt.Sprintf("%s!$A:$%s,%s", quotedSheet(s.name), columnName(s.headColumns), heads)
		}
		b.fail(f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", Scope: s.name, RefersTo: heads}))
	}
}

func (b *book) freeze(s sheet) {
	corner := fmt.Sprintf("%s%d", columnName(s.frozenColumns+1), s.frozenRows+1)
	pane := "bottomLeft"
	if s.frozenColumns > 0 {
		pane = "bottomRight"
	}
	b.fail(b.file.SetPanes(s.name, &excelize.Panes{
		Freeze: true, XSplit: s.frozenColumns, YSplit: s.frozenRows, TopLeftCell: corner, ActivePane: pane,
		Selection: []excelize.Selection{{SQRef: corner, ActiveCell: corner, Pane: pane}},
	}))
}

// printed is a text inside a header or footer, where & begins a code and is
// doubled to stand for itself. It keeps to so many characters: all parts of a
// header may have 255 together.
func printed(s string, most int) string {
	var b strings.Builder
	for _, r := range s {
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

// properties describes the document.
func (b *book) properties(i imprint) {
	dated := i.dated.Format(time.RFC3339)
	b.fail(b.file.SetDocProps(&excelize.DocProperties{
		Title: i.title + ", " + i.period, Subject: i.subject, Creator: i.creator, LastModifiedBy: i.creator,
		Created: dated, Modified: dated, Keywords: i.keywords,
	}))
	b.fail(b.file.SetAppProps(&excelize.AppProperties{Application: i.program}))
}
