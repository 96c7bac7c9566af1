package workbook

import (
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

const (
	// mostBars is how many kinds of fault the chart shows.
	mostBars = 12
	// chartColumns is how many columns the chart takes, at the right of the tables.
	chartColumns = 7
	barsWidth    = 590 // in pixels
)

// faultsSheet is the page of the faults, with a chart of what is at stake, and
// that of the drills. No cell of it hangs on a mark: points at stake are as the
// coach noted them.
func faultsSheet(c *content) xlsx.Sheet { return faultsSheetOf(c, kindsOf(c.book.Faults)) }

func faultsSheetOf(c *content, kinds *kinds) xlsx.Sheet {
	faults, drills := faultsPage(c, kinds), drillsPage(c.book.Drills)
	return xlsx.Sheet{
		Name: words.FaultsSheet, PagesTall: c.pagesTall(1), FrozenRows: 1, HeadRows: 1, LastColumn: max(docColumns(faults, usualGrid), docColumns(drills, usualGrid)) + chartColumns,
		Legend: words.FaultsLegend,
		Fill: func(b *xlsx.Book) {
			w := newDocWriter(b, faults, 1, usualGrid)
			w.columns = max(w.columns, docColumns(drills, usualGrid))
			b.Width(w.columns+1, w.columns+chartColumns, docOther)
			w.pages.Columns = w.columns + chartColumns
			w.title(faults.Title, faults.Subtitle)
			for i, section := range faults.Sections {
				if i == kinds.section {
					w.kinds(section, kinds)
					continue
				}
				w.section(section)
			}
			w.room(sectionHead + w.documentTall(drills))
			w.heading(drills.Title, 16)
			w.document(drills)
			b.EndPrint()
			for _, section := range drillTests(c.book.Drills) {
				w.section(section)
			}
		},
	}
}

// kinds is the table of the kinds of fault, with what its chart draws.
type kinds struct {
	table   *report.Table
	section int // of the page, -1 where there is none
	labels  []string
	points  []float64
}

// kindsOf lays the table out; the chart draws its first rows that have any
// points.
func kindsOf(d answers.Faults) *kinds {
	k := &kinds{table: tables.KindTableForSheet(d), section: -1}
	for _, kind := range d.Kinds[:min(len(d.Kinds), mostBars)] {
		points := kind.Points.Float64()
		if !(points > 0) {
			break
		}
		k.labels, k.points = append(k.labels, words.KindLabel(kind)), append(k.points, points)
	}
	return k
}

// faultsPage is what is open, what comes back, every kind, the coach against the
// panels. It notes in which section the kinds stand.
func faultsPage(c *content, k *kinds) report.Document {
	d := c.book.Faults
	doc := report.Document{Title: c.titleOf(words.FaultsSheet), Subtitle: strings.Join(words.FaultsAnswers(d), " ")}
	add := func(heading string, blocks ...report.Block) {
		doc.Sections = append(doc.Sections, report.Section{Heading: heading, Blocks: blocks})
	}
	if len(d.Open) > 0 {
		add(words.OpenHeading, tables.OpenNotes(d.Open), &report.Paragraph{Text: words.OpenExplained})
	}
	if len(d.Recurring) > 0 {
		add(words.RecurringHeading, tables.RecurringNotes(d))
	}
	if len(d.Kinds) > 0 {
		k.section = len(doc.Sections)
		add(words.KindsHeading, k.table, tables.KindNotes(d, true, len(d.Kinds)))
	}
	if d.Calibration.N > 0 {
		add(words.CoachHeading, tables.CalibrationFacts(d.Calibration), tables.CalibrationNotes(d.Calibration))
	}
	return doc
}

// drillsPage is what became of the drills; the caution at its foot is the
// sheet's.
func drillsPage(d answers.Drills) report.Document {
	doc := report.Document{Title: words.AllDrills, Caution: words.PracticeCaution}
	said := report.Section{}
	for _, text := range words.DrillSentences(d) {
		said.Blocks = append(said.Blocks, &report.Paragraph{Text: text})
	}
	doc.Sections = append(doc.Sections, said)
	if len(d.Drills) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{tables.DrillTable(d), tables.DrillNotes(d)}})
	}
	return doc
}

// drillTests are what the verdicts on drills rest on, beneath what is printed.
func drillTests(d answers.Drills) []report.Section {
	if len(d.Drills) == 0 {
		return nil
	}
	return []report.Section{{Heading: words.TestsHeading, Blocks: []report.Block{tables.DrillTestTable(d), tables.DrillTestNotes(d)}}}
}

// kinds writes the table of the kinds, with the chart of it at the right.
func (w *docWriter) kinds(section report.Section, k *kinds) {
	row := w.row
	w.section(section)
	if len(k.points) > 0 {
		w.faultChart(k, row)
	}
}

// faultChart draws the points at stake of the first kinds.
func (w *docWriter) faultChart(k *kinds, row int) {
	d, bars := w.tables[k.table], len(k.points)
	points, labels := d.at[d.table.Column(tables.KindPoints)], w.columns+chartColumns+2
	first, last := d.head+1, d.head+bars
	sheet := xlsx.QuotedSheet(words.FaultsSheet) + "!"
	for i, label := range k.labels {
		w.b.Text(labels, first+i, label, xlsx.LookText.Working())
	}
	w.b.Fold(labels)
	w.b.Bars(xlsx.BarChart{
		Sheet: words.FaultsSheet, At: xlsx.At(w.columns+1, row), Title: words.FaultsChart,
		Name:   sheet + xlsx.Dollars(points, d.head, 0, 0),
		Labels: sheet + xlsx.Dollars(labels, first, labels, last),
		Values: sheet + xlsx.Dollars(points, first, points, last),
		Format: "0", Width: barsWidth, Height: 24*bars + 80, Words: k.labels, Numbers: k.points,
	})
}
