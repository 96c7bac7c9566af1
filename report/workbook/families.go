package workbook

import (
	"math"
	"slices"
	"strconv"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

const familiesName = "Families"

// statNote marks what no formula can give.
const statNote = "worked out by boxbook, does not follow a changed mark"

// familyRow is a trend group of the category flown last.
type familyRow struct {
	line     analysis.FamilyLine
	shrunk   bool
	category string
}

func (c *content) familyRows() []familyRow {
	rows := make([]familyRow, len(c.families.Groups))
	for i, line := range c.families.Groups {
		rows[i] = familyRow{line, c.families.Shrunk, c.families.Category}
	}
	return rows
}

// Sums over Elements of the family's elements in flights that count.
const (
	ofFamily  = `{Elements.group},{family},{Elements.counted},{category}`
	lookOne   = "0.0"
	lookThree = "0.000"
)

func statColumn(key, title string, format string, of func(analysis.FamilyLine) float64) column[familyRow] {
	return column[familyRow]{
		key: key, title: title, width: 12.5, look: look{format: format, align: "right", line: true}.stat(),
		value: func(r familyRow) value { return float(of(r.line)) },
	}
}

const signedOne = "+0.0;-0.0;0.0"

// familyColumns are the table of the families' levels: what follows the marks
// first, then what statistics say. Its working columns stand beyond those of
// the table by flight, which can have all families.
var familyColumns = slices.Concat(familyLevels, familyShrunk, []column[familyRow]{
	blank[familyRow]("unused-1"), blank[familyRow]("unused-2"), blank[familyRow]("unused-3"), blank[familyRow]("unused-4"), blank[familyRow]("unused-5"),
}, familyWorking)

var familyLevels = []column[familyRow]{
	{key: "family", title: "family", width: 36, look: lookText, value: func(r familyRow) value { return text(familyTitle(r.line.Group)) }},
	{key: "run", title: "percent by flight", width: 19, look: lookText, value: func(familyRow) value { return value{} }},
	{
		key: "figures", title: "figures", width: 12.5, look: lookInteger.live(), formula: `SUMIFS({Elements.first},` + ofFamily + `)`,
		value: func(r familyRow) value { return integer(r.line.Figures) },
	},
	{
		key: "k", title: "K flown", width: 12.5, look: lookInteger.live(), formula: `SUMIFS({Elements.k},` + ofFamily + `)`,
		value: func(r familyRow) value { return exact(r.line.K) },
	},
	{
		key: "percent", title: "percent", width: 12.5, look: lookTwo.live().strong(),
		formula: `IF({k}>0,10*SUMIFS({Elements.k-mean},` + ofFamily + `)/{k},"")`,
		value:   func(r familyRow) value { return float(r.line.Percent) },
	},
	{
		key: "lost", title: "lost a flight", width: 12.5, look: lookTwo.live(),
		formula: `IF(COUNTIFS({Flights.counted},{category})=0,"",SUMIFS({Elements.lost},` + ofFamily + `)/COUNTIFS({Flights.counted},{category}))`,
		value:   func(r familyRow) value { return exact(r.line.LostPerFlight) },
	},
}

var familyShrunk = []column[familyRow]{
	statColumn("shrunken", "shrunken percent", lookOne, func(l analysis.FamilyLine) float64 { return l.Shrunken }),
	statColumn("low", "90 % from", lookOne, func(l analysis.FamilyLine) float64 { return l.Low }),
	statColumn("high", "to", lookOne, func(l analysis.FamilyLine) float64 { return l.High }),
	{key: "verdict", title: "level", width: 15, look: lookText.stat().indented(), value: func(r familyRow) value {
		switch {
		case !r.shrunk:
			return value{}
		case r.line.Weak:
			return text("weak")
		default:
			return text("not told apart")
		}
	}},
}

// familyTrend are the table of the families' trends.
var familyTrend = []column[familyRow]{
	{key: "family", title: "family", width: 36, look: lookText, value: func(r familyRow) value { return text(familyTitle(r.line.Group)) }},
	{key: "flights", title: "flights compared", width: 19, look: lookInteger.stat(), value: func(r familyRow) value { return integer(r.line.Trend.N) }},
	statColumn("rest", "against the rest", signedOne, func(l analysis.FamilyLine) float64 {
		if !l.HasRest {
			return math.NaN()
		}
		return l.VersusRest
	}),
	statColumn("change", "change", signedOne, func(l analysis.FamilyLine) float64 { return l.Trend.Season }),
	statColumn("change-low", "from", signedOne, func(l analysis.FamilyLine) float64 { return l.Trend.Low }),
	statColumn("change-high", "to", signedOne, func(l analysis.FamilyLine) float64 { return l.Trend.High }),
	statColumn("p", "p", lookThree, func(l analysis.FamilyLine) float64 { return l.Trend.P }),
	statColumn("q", "q", lookThree, func(l analysis.FamilyLine) float64 { return l.Q }),
	{key: "word", title: "trend", width: 20, look: lookText.stat().indented(), value: func(r familyRow) value { return text(string(r.line.Trend.Word)) }},
}

// familyWorking are the category, for formulas, and the two sides of the
// chart's intervals.
var familyWorking = foldedAway([]column[familyRow]{
	{key: "category", title: "category", look: lookText, value: func(r familyRow) value { return text(r.category) }},
	{key: "above", title: "interval above", look: lookTwo, formula: `N({high})-N({shrunken})`, value: func(r familyRow) value {
		return float(zeroIfNaN(r.line.High) - zeroIfNaN(r.line.Shrunken))
	}},
	{key: "below", title: "interval below", look: lookTwo, formula: `N({shrunken})-N({low})`, value: func(r familyRow) value {
		return float(zeroIfNaN(r.line.Shrunken) - zeroIfNaN(r.line.Low))
	}},
})

func zeroIfNaN(x float64) float64 {
	if math.IsNaN(x) {
		return 0
	}
	return x
}

// mostRuns is how many of the last flights the table by flight shows.
const mostRuns = 60

// countedFlights are the flights that enter the families, the last ones where
// they are many.
func (c *content) countedFlights() []flightRow {
	var rows []flightRow
	for _, f := range c.flights {
		if f.counted() != "" && f.counted() == c.families.Category {
			rows = append(rows, f)
		}
	}
	return rows[max(0, len(rows)-mostRuns):]
}

// runColumns are the percents of the families by flight, a column a family. A
// family that a flight does not have is an empty cell, so that the line in a
// cell has a gap.
func (c *content) runColumns() []column[flightRow] {
	columns := []column[flightRow]{
		{key: "flight", title: "flight", look: lookWrap, value: func(f flightRow) value { return text(f.line.Flight.Name) }},
		{key: "contest", title: "contest", look: lookWrap, value: func(f flightRow) value { return text(contestName(f.line.Flight.Contest)) }},
	}
	for i, line := range c.families.Groups {
		columns = append(columns, c.runColumn(i, familyTitle(line.Group)))
	}
	for i := range columns {
		columns[i].width = familyColumns[min(i, len(familyColumns)-1)].width
	}
	return columns
}

func (c *content) runColumn(i int, title string) column[flightRow] {
	sum := func(key string) string {
		return `SUMIFS({Elements.` + key + `},{Elements.flight},{flight},{Elements.group},` + quoted(title) + `,{Elements.counted},` + quoted(c.families.Category) + `)`
	}
	return column[flightRow]{
		key: "run-" + strconv.Itoa(i), title: title, look: lookTwo.live(),
		formulaOf: func(f flightRow) string {
			if !c.runOf(f, title).numeric {
				return ""
			}
			return "IF(" + sum("k") + "=0,NA(),10*" + sum("k-mean") + "/" + sum("k") + ")"
		},
		value: func(f flightRow) value { return c.runOf(f, title) },
	}
}

// runKey is a family in a flight.
type runKey struct {
	flight *season.Flight
	title  string
}

// weigh adds up each family of each flight, once for all cells.
func (c *content) weigh() {
	c.runs = map[runKey]*weighed{}
	for _, e := range c.elements {
		if e.counted == "" || e.k.Sign() == 0 {
			continue
		}
		key := runKey{e.flight, e.group}
		if c.runs[key] == nil {
			c.runs[key] = &weighed{}
		}
		c.runs[key].add(e)
	}
}

func (c *content) runOf(f flightRow, title string) value {
	run := c.runs[runKey{f.line.Flight, title}]
	if run == nil {
		return value{}
	}
	return run.percent()
}

// familyHead is the row of the families' headings, under title and sentences.
const familyHead = 8

func familiesSheet(c *content) sheet {
	rows, runs := c.familyRows(), c.countedFlights()
	levels := place(familiesName, familiesName, familyHead, len(rows), familyColumns)
	trends := place("Movement", familiesName, levels.last()+6+(24*len(rows)+80)/20, len(rows), familyTrend)
	byFlight := place("Runs", familiesName, trends.last()+3, len(runs), c.runColumns())
	return sheet{
		name: familiesName, tables: []placed{levels, trends, byFlight}, frozenRows: 1, frozenColumns: 1, headRows: 1,
		lastColumn: max(levels.columns["verdict"], len(byFlight.columns)), legend: "italic: " + statNote,
		fill: func(b *book) {
			w := &docWriter{b: b, row: 1, columns: levels.columns["verdict"], tables: map[string]docTable{}}
			w.pages = newPager(b, max(levels.columns["verdict"], len(byFlight.columns)), 1)
			fillFamilies(w, c, levels, trends, rows)
			fillRuns(b, c, levels, byFlight, rows, runs)
			w.pages.keep(levels.last()+2, trends.head-3) // the chart
			w.pages.keep(trends.head-1, trends.last())
			w.pages.keep(byFlight.head-1, byFlight.last())
			w.row = byFlight.last() + 2
			w.familyNotes(c.docs.families)
		},
	}
}

// fillFamilies writes the sentences, the levels with their chart, the trends.
func fillFamilies(w *docWriter, c *content, levels, trends placed, rows []familyRow) {
	b, doc := w.b, c.docs.families
	widths(b, familyColumns)
	w.title(doc.Title, doc.Subtitle)
	w.row = 4
	for _, block := range doc.Sections[0].Blocks {
		if paragraph, ok := block.(*report.Paragraph); ok {
			w.text(paragraph.Text, look{align: "left", wrap: true, bold: true})
		}
	}
	band := look{grey: true, italic: true, align: "left"}
	b.text(levels.columns["figures"], levels.head-1, "follow the marks", band)
	b.text(levels.columns["shrunken"], levels.head-1, statNote, band)
	fillTable(b, levels, familyColumns, rows)
	familyChart(b, c, levels, rows)
	b.text(1, trends.head-1, "Trend against the rest of the same flights ("+statNote+")", look{bold: true, size: 13, align: "left"})
	fillTable(b, trends, familyTrend, rows)
}

// familyNotes explain the columns.
func (w *docWriter) familyNotes(doc report.Document) {
	for _, section := range doc.Sections[1:] {
		for _, block := range section.Blocks {
			if notes, ok := block.(*report.Notes); ok {
				w.notes(unmarked(notes))
			}
		}
	}
}

// fillRuns writes the percents by flight, and draws each family's in its cell.
func fillRuns(b *book, c *content, p, r placed, rows []familyRow, runs []flightRow) {
	heading := "Percent by flight"
	if len(runs) == mostRuns {
		heading += ", the last " + strconv.Itoa(mostRuns)
	}
	b.text(1, r.head-1, heading, look{bold: true, size: 13, align: "left"})
	fillTable(b, r, c.runColumns(), runs)
	if len(rows) == 0 || len(runs) == 0 {
		return
	}
	for i := range rows {
		key := "run-" + strconv.Itoa(i)
		b.sparks[familiesName] = append(b.sparks[familiesName], sparkline{
			at: b.at(p.columns["run"], p.first()+i), area: familiesName + "!" + r.area(key, key),
		})
	}
}

// unmarked leaves out the signs that only the screen's cells bear.
func unmarked(notes *report.Notes) *report.Notes {
	out := &report.Notes{}
	for _, n := range notes.Items {
		out.Items = append(out.Items, report.Note{Text: n.Text})
	}
	return out
}
