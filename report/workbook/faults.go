package workbook

import (
	"slices"

	"boxbook/report"
	"boxbook/report/words"
)

const (
	faultsName = "Faults and drills"
	// mostBars is how many kinds of fault the chart shows.
	mostBars = 12
)

// faultsSheet is the page of the faults, with a chart of what is at stake, and
// that of the drills. No cell of it hangs on a mark: points at stake are as the
// coach noted them.
func faultsSheet(c *content) sheet {
	faults, drills := c.docs.faults, c.docs.drills
	drills.Caution = words.PracticeCaution // of the sheet, at its foot
	return sheet{
		name: faultsName, frozenRows: 1, headRows: 1, lastColumn: max(docColumns(faults), docColumns(drills)),
		legend: "points at stake: as noted, whatever the panels gave; no cell here follows a mark",
		fill: func(b *book) {
			w := newDocWriter(b, faults, 1)
			w.columns = max(w.columns, docColumns(drills))
			w.pages.columns = w.columns
			w.title("Faults and drills, "+c.pilot.Name+", "+c.period, words.Sentence(faults.Subtitle)+".")
			for _, section := range faults.Sections {
				if section.Heading != kindsHeading {
					w.section(section)
					continue
				}
				bars := barsOf(section)
				w.room(lineHeight * float64(faultChartRows(bars)))
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
	sheet := quotedSheet(faultsName) + "!"
	chart := barChart{
		sheet: faultsName, at: w.b.at(1, row), title: "Points at stake over this selection, by kind and family",
		name:   sheet + dollars(d.at[points], d.head, 0, 0),
		labels: sheet + dollars(labels, first, labels, last),
		values: sheet + dollars(d.at[points], first, d.at[points], last),
		format: "0", width: 900, height: faultChartHeight(bars),
	}
	for i, row := range d.table.Rows[:bars] {
		label := row[0].String()
		if family := row[1].String(); family != "" {
			label += ", " + family
		}
		w.b.text(labels, first+i, label, lookText.working())
		chart.words, chart.numbers = append(chart.words, label), append(chart.numbers, numberOf(row[points]))
	}
	w.b.fold(labels)
	w.b.bars(chart)
}

// numberOf is a cell's number, NaN where it has none.
func numberOf(c report.Cell) float64 {
	number, _ := c.Number()
	return number.Float64()
}
