package workbook

import (
	"fmt"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"
)

// page freezes the headings and makes the sheet printable: A4 landscape, as many
// pages wide as the sheet says, with the pilot, the season and the page's number.
func (b *book) page(s sheet, c *content) {
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
		OddHeader: "&L&B" + printed(c.title, 60) + "&B, " + printed(c.period, 80) + "&R" + s.name,
		OddFooter: "&L" + printed(c.head.Imprint(), 60) + legend + "&RPage &P of &N",
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

// properties describes the document, dated as of the chosen day.
func (b *book) properties(c *content) {
	dated := c.asOf.Time().Format(time.RFC3339)
	creator := strings.TrimSpace(c.head.Program + " " + c.head.Version)
	b.fail(b.file.SetDocProps(&excelize.DocProperties{
		Title: c.title + ", " + c.period, Subject: "Coach's workbook", Creator: creator, LastModifiedBy: creator,
		Created: dated, Modified: dated, Keywords: "aerobatics, flights, grades",
	}))
	b.fail(b.file.SetAppProps(&excelize.AppProperties{Application: "boxbook"}))
}
