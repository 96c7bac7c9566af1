package workbook

import (
	"slices"

	"boxbook/report"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

const (
	faultsName = "Faults and drills"
	// mostBars is how many kinds of fault the chart shows.
	mostBars = 12
)

// faultsSheet is the page of the faults, with a chart of what is at stake, and
// that of the drills. No cell of it hangs on a mark: points at stake are as the
// coach noted them.
func faultsSheet(c *content) xlsx.Sheet {
	faults, drills := c.docs.faults, c.docs.drills
	drills.Caution = words.PracticeCaution // of the sheet, at its foot
	return xlsx.Sheet{
		Name: faultsName, FrozenRows: 1, HeadRows: 1, LastColumn: max(docColumns(faults), docColumns(drills)),
		Legend: "points at stake: as noted, whatever the panels gave; no cell here follows a mark",
		Fill: func(b *xlsx.Book) {
			w := newDocWriter(b, faults, 1)
			w.columns = max(w.columns, docColumns(drills))
			w.pages.Columns = w.columns
			w.title("Faults and drills, "+c.pilot.Name+", "+c.period, words.Sentence(faults.Subtitle)+".")
			for _, section := range faults.Sections {
				if section.Heading != kindsHeading {
					w.section(section)
					continue
				}
				bars := barsOf(section)
				w.room(xlsx.LineHeight * float64(faultChartRows(bars)))
				chartRow := w.row
				w.row += faultChartRows(bars)
				w.section(section)
				w.faultChart(section.Heading, chartRow, bars)
			}
			w.room(sectionHead + w.documentTall(drills))
			w.heading("Drills, all seasons", 16)
			w.document(drills)
		},
	}
}

// kindsHeading is the section whose table the chart draws.
const kindsHeading = "Faults by kind and family"

// pointsColumn finds the points at stake in the table of kinds.
func pointsColumn(t *report.Table) int {
	return slices.IndexFunc(t.Columns, func(c report.Column) bool { return c.Title == "points" })
}

// barsOf is how many rows of the section's table the chart draws: the first
// ones that have any points.
func barsOf(section report.Section) int {
	t, ok := section.Blocks[0].(*report.Table)
	if !ok {
		return 0
	}
	n, points := 0, pointsColumn(t)
	for n < min(len(t.Rows), mostBars) && numberOf(t.Rows[n][points]) > 0 {
		n++
	}
	return n
}

// The heights of the chart, in pixels and in rows of the sheet.
func faultChartHeight(bars int) int { return 24*bars + 80 }

func faultChartRows(bars int) int {
	if bars == 0 {
		return 0
	}
	return faultChartHeight(bars)/20 + 2
}

// faultChart draws the points at stake of the first kinds.
func (w *docWriter) faultChart(name string, row, bars int) {
	if bars == 0 {
		return
	}
	d := w.tables[name]
	points, labels := pointsColumn(d.table), w.columns+2
	first, last := d.head+1, d.head+bars
	sheet := xlsx.QuotedSheet(faultsName) + "!"
	chart := xlsx.BarChart{
		Sheet: faultsName, At: w.b.At(1, row), Title: "Points at stake over this selection, by kind and family",
		Name:   sheet + xlsx.Dollars(d.at[points], d.head, 0, 0),
		Labels: sheet + xlsx.Dollars(labels, first, labels, last),
		Values: sheet + xlsx.Dollars(d.at[points], first, d.at[points], last),
		Format: "0", Width: 900, Height: faultChartHeight(bars),
	}
	for i, row := range d.table.Rows[:bars] {
		label := row[0].String()
		if family := row[1].String(); family != "" {
			label += ", " + family
		}
		w.b.Text(labels, first+i, label, xlsx.LookText.Working())
		chart.Words, chart.Numbers = append(chart.Words, label), append(chart.Numbers, numberOf(row[points]))
	}
	w.b.Fold(labels)
	w.b.Bars(chart)
}

// numberOf is a cell's number, NaN where it has none.
func numberOf(c report.Cell) float64 {
	number, _ := c.Number()
	return number.Float64()
}
