package workbook

import (
	"slices"
	"strconv"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// familyRow is a trend group of the category flown last.
type familyRow struct {
	answers.Group
	category string
}

func (c *content) familyRows() []familyRow {
	d := c.book.Families
	rows := make([]familyRow, len(d.Groups))
	for i, group := range d.Groups {
		rows[i] = familyRow{group, d.Category}
	}
	return rows
}

// Sums over Elements of the family's elements in flights that count.
const (
	ofFamily   = `{Elements.group},{family},{Elements.counted},{category}`
	lookOne    = "0.0"
	lookChance = `[<0.0005]"< 0.001";0.000` // as report.Number.Chance
)

func statColumn(key, title string, format string, of func(familyRow) report.Number) xlsx.Column[familyRow] {
	return zeroBare(xlsx.Column[familyRow]{
		Key: key, Title: title, Width: 12.5, Look: xlsx.Look{Format: format, Align: "right", Line: true}.Stat(),
		Value: func(r familyRow) xlsx.Value { return number(of(r)) },
	})
}

const signedOne = "+0.0;-0.0;0.0"

// familyColumns are the table of the families' levels: what follows the marks
// first, then what statistics say. Its working columns stand beyond those of
// the table by flight, which can have all families.
func familyColumns(d answers.Families) []xlsx.Column[familyRow] {
	return slices.Concat(familyLevels(), familyShrunk(d), []xlsx.Column[familyRow]{
		xlsx.Blank[familyRow]("unused-1"), xlsx.Blank[familyRow]("unused-2"), xlsx.Blank[familyRow]("unused-3"), xlsx.Blank[familyRow]("unused-4"),
	}, familyWorking())
}

func familyLevels() []xlsx.Column[familyRow] {
	return []xlsx.Column[familyRow]{
		{Key: "family", Title: words.ColumnFamily, Width: 36, Look: xlsx.LookText, Value: func(r familyRow) xlsx.Value { return xlsx.Text(words.FamilyTitle(r.Group.Group)) }},
		{Key: "run", Title: words.ColumnPercentByFlight, Width: 19, Look: xlsx.LookText, Value: func(familyRow) xlsx.Value { return xlsx.Value{} }},
		{
			Key: "figures", Title: words.ColumnFigures, Width: 12.5, Look: xlsx.LookInteger.Live(), Formula: `SUMIFS({Elements.first},` + ofFamily + `)`,
			Value: func(r familyRow) xlsx.Value { return xlsx.Integer(r.Figures) },
		},
		{
			Key: "k", Title: words.ColumnKFlown, Width: 12.5, Look: xlsx.LookInteger.Live(), Formula: `SUMIFS({Elements.k},` + ofFamily + `)`,
			Value: func(r familyRow) xlsx.Value { return number(r.K) },
		},
		{
			Key: "percent", Title: words.ColumnPercent, Width: 12.5, Look: xlsx.LookTwo.Live().Strong(),
			Formula: `IF({k}>0,10*SUMIFS({Elements.k-mean},` + ofFamily + `)/{k},"")`,
			Value:   func(r familyRow) xlsx.Value { return number(r.Percent) },
		},
		{
			Key: "lost", Title: words.ColumnLostAFlight, Width: 12.5, Look: xlsx.LookTwo.Live(),
			Formula: `IF(COUNTIFS({Flights.counted},{category})=0,"",SUMIFS({Elements.lost},` + ofFamily + `)/COUNTIFS({Flights.counted},{category}))`,
			Value:   func(r familyRow) xlsx.Value { return number(r.LostPerFlight) },
		},
	}
}

// familyShrunk are the levels drawn towards each other, with their intervals.
func familyShrunk(d answers.Families) []xlsx.Column[familyRow] {
	return []xlsx.Column[familyRow]{
		ranged(statColumn("shrunken", words.ColumnShrunkenPercent, lookOne, func(r familyRow) report.Number { return r.Shrunken }), familyLevel),
		ranged(statColumn("low", words.RangeFrom(d.Limits.Confidence), lookOne, func(r familyRow) report.Number { return r.Low }), familyLevel),
		ranged(statColumn("high", words.ColumnTo, lookOne, func(r familyRow) report.Number { return r.High }), familyLevel),
		{Key: "distinct", Title: words.ColumnDistinct, Width: 12.5, Look: xlsx.LookInteger.Stat(), Value: func(r familyRow) xlsx.Value { return xlsx.Integer(r.Different) }},
		{Key: "verdict", Title: words.ColumnLevel, Width: 15, Look: xlsx.LookText.Stat().Indented(), Value: func(r familyRow) xlsx.Value {
			return xlsx.Text(words.LevelVerdict(r.Group))
		}},
	}
}

// familyTrend are the table of the families' trends.
func familyTrend(d answers.Families) []xlsx.Column[familyRow] {
	return []xlsx.Column[familyRow]{
		{Key: "family", Title: words.ColumnFamily, Width: 36, Look: xlsx.LookText, Value: func(r familyRow) xlsx.Value { return xlsx.Text(words.FamilyTitle(r.Group.Group)) }},
		{Key: "flights", Title: words.ColumnFlightsCompared, Width: 19, Look: xlsx.LookInteger.Stat(), Value: func(r familyRow) xlsx.Value { return xlsx.Integer(r.Trend.N) }},
		statColumn("rest", words.ColumnAgainstTheRest, signedOne, func(r familyRow) report.Number { return r.VersusRest }),
		ranged(statColumn("change", words.ColumnChange, signedOne, func(r familyRow) report.Number { return r.Trend.Season }), familyChange),
		ranged(statColumn("change-low", words.ChangesFrom(d), signedOne, func(r familyRow) report.Number { return r.Trend.Low }), familyChange),
		ranged(statColumn("change-high", words.ColumnTo, signedOne, func(r familyRow) report.Number { return r.Trend.High }), familyChange),
		statColumn("p", words.ColumnP, lookChance, func(r familyRow) report.Number { return r.Trend.P }),
		statColumn("q", words.ColumnQ, lookChance, func(r familyRow) report.Number { return r.Q }),
		{Key: "word", Title: words.ColumnTrend, Width: 20, Look: xlsx.LookText.Stat().Indented(), Value: func(r familyRow) xlsx.Value { return xlsx.Text(string(r.Trend.Word)) }},
	}
}

// familyWorking are the category, for formulas, and the two sides of the
// chart's intervals.
func familyWorking() []xlsx.Column[familyRow] {
	return xlsx.FoldedAway([]xlsx.Column[familyRow]{
		{Key: "category", Title: words.ColumnCategory, Look: xlsx.LookText, Value: func(r familyRow) xlsx.Value { return xlsx.Text(r.category) }},
		{Key: "above", Title: words.ColumnIntervalAbove, Look: xlsx.LookTwo, Formula: `N({high})-N({shrunken})`, Value: func(r familyRow) xlsx.Value {
			return xlsx.Float(orZero(r.High) - orZero(r.Shrunken))
		}},
		{Key: "below", Title: words.ColumnIntervalBelow, Look: xlsx.LookTwo, Formula: `N({shrunken})-N({low})`, Value: func(r familyRow) xlsx.Value {
			return xlsx.Float(orZero(r.Shrunken) - orZero(r.Low))
		}},
	})
}

// orZero is a number, 0 where it is not known.
func orZero(n report.Number) float64 {
	if !n.Known() {
		return 0
	}
	return n.Float64()
}

// mostRuns is how many of the last flights the table by flight shows.
const mostRuns = 60

// countedFlights are the flights that enter the families, the last ones where
// they are many.
func (c *content) countedFlights() []flightRow {
	var rows []flightRow
	for _, f := range c.flights {
		if f.counted() != "" && f.counted() == c.book.Families.Category {
			rows = append(rows, f)
		}
	}
	return rows[max(0, len(rows)-mostRuns):]
}

// runColumns are the percents of the families by flight, a column a family. A
// family that a flight does not have is an empty cell, so that the line in a
// cell has a gap.
func (c *content) runColumns() []xlsx.Column[flightRow] {
	columns := []xlsx.Column[flightRow]{
		{Key: "flight", Title: words.ColumnFlight, Look: xlsx.LookWrap, Value: func(f flightRow) xlsx.Value { return xlsx.Text(f.Flight.Flight) }},
		{Key: "contest", Title: words.ColumnContest, Look: xlsx.LookWrap, Value: func(f flightRow) xlsx.Value { return xlsx.Text(f.ContestName) }},
	}
	for i, group := range c.book.Families.Groups {
		columns = append(columns, c.runColumn(i, group.Group))
	}
	above := familyColumns(c.book.Families)
	for i := range columns {
		columns[i].Width = above[min(i, len(above)-1)].Width
	}
	return columns
}

func (c *content) runColumn(i int, group string) xlsx.Column[flightRow] {
	title := words.FamilyTitle(group)
	sum := func(key string) string {
		return `SUMIFS({Elements.` + key + `},{Elements.flight},{flight},{Elements.group},` + xlsx.Quoted(title) + `,{Elements.counted},` + xlsx.Quoted(c.book.Families.Category) + `)`
	}
	return xlsx.Column[flightRow]{
		Key: "run-" + strconv.Itoa(i), Title: title, Look: xlsx.LookTwo.Live(),
		FormulaOf: func(f flightRow) string {
			if !runOf(f, group).Numeric {
				return ""
			}
			return "IF(" + sum("k") + "=0,NA(),10*" + sum("k-mean") + "/" + sum("k") + ")"
		},
		Value: func(f flightRow) xlsx.Value { return runOf(f, group) },
	}
}

// runOf is the percent of a family in a flight, nothing where it has none of it.
func runOf(f flightRow, group string) xlsx.Value {
	for _, family := range f.Families {
		if family.Group == group {
			return number(family.Percent)
		}
	}
	return xlsx.Value{}
}

// familyHead is the row of the families' headings, under title and sentences.
const familyHead = 8

func familiesSheet(c *content) xlsx.Sheet {
	rows, runs := c.familyRows(), c.countedFlights()
	levels := xlsx.Place("Families", words.FamiliesSheet, familyHead, len(rows), familyColumns(c.book.Families))
	trends := xlsx.Place("Movement", words.FamiliesSheet, levels.Last()+6+(24*len(rows)+80)/20, len(rows), familyTrend(c.book.Families))
	byFlight := xlsx.Place("Runs", words.FamiliesSheet, trends.Last()+3, len(runs), c.runColumns())
	return xlsx.Sheet{
		Name: words.FamiliesSheet, PagesTall: c.pagesTall(1), Tables: []xlsx.Placed{levels, trends, byFlight}, FrozenRows: 1, FrozenColumns: 1, HeadRows: 1,
		LastColumn: max(levels.Columns["verdict"], len(byFlight.Columns)), Legend: words.FamiliesLegend,
		Fill: func(b *xlsx.Book) {
			w := &docWriter{b: b, row: 1, columns: levels.Columns["verdict"]}
			w.pages = xlsx.NewPager(b, max(levels.Columns["verdict"], len(byFlight.Columns)), 1)
			w.pages.Fitted = c.pagesTall(1) == 1
			fillFamilies(w, c, levels, trends, rows)
			fillRuns(b, c, levels, byFlight, rows, runs)
			w.pages.Keep(levels.Last()+2, trends.Head-3) // the chart
			w.pages.Keep(trends.Head-1, trends.Last())
			w.pages.Keep(byFlight.Head-1, byFlight.Last())
			w.row = byFlight.Last() + 2
			w.familyNotes(c.book.Families)
		},
	}
}

// fillFamilies writes the sentences, the levels with their chart, the trends.
func fillFamilies(w *docWriter, c *content, levels, trends xlsx.Placed, rows []familyRow) {
	b, d := w.b, c.book.Families
	columns := familyColumns(d)
	xlsx.Widths(b, columns)
	w.title(c.titleOf(words.FamiliesSheet), words.FamiliesSubtitle(d))
	w.row = 4
	for _, text := range []string{words.WeakSentence(d), words.MovingSentence(d)} {
		w.text(text, xlsx.Look{Align: "left", Wrap: true, Bold: true})
	}
	band := xlsx.Look{Grey: true, Italic: true, Align: "left"}
	b.Text(levels.Columns["figures"], levels.Head-1, words.FollowMarks, band)
	b.Text(levels.Columns["shrunken"], levels.Head-1, words.WorkedOut, band)
	xlsx.FillTable(b, levels, columns, rows)
	familyChart(b, c, levels, rows)
	b.Text(1, trends.Head-1, words.VersusRestSheet, xlsx.Look{Bold: true, Size: 13, Align: "left"})
	xlsx.FillTable(b, trends, familyTrend(d), rows)
}

// familyNotes explain the columns, without the signs that only the screen's cells
// bear.
func (w *docWriter) familyNotes(d answers.Families) {
	if len(d.Groups) == 0 {
		return
	}
	w.notes(unmarked(tables.LevelNotes(d)))
	w.notes(unmarked(tables.GroupTrendNotes(d)))
}

// fillRuns writes the percents by flight, and draws each family's in its cell.
func fillRuns(b *xlsx.Book, c *content, p, r xlsx.Placed, rows []familyRow, runs []flightRow) {
	heading := words.ByFlightHeading
	if len(runs) == mostRuns {
		heading = words.LastFlights(heading, mostRuns)
	}
	b.Text(1, r.Head-1, heading, xlsx.Look{Bold: true, Size: 13, Align: "left"})
	xlsx.FillTable(b, r, c.runColumns(), runs)
	if len(rows) == 0 || len(runs) == 0 {
		return
	}
	for i := range rows {
		key := "run-" + strconv.Itoa(i)
		b.Spark(words.FamiliesSheet, xlsx.At(p.Columns["run"], p.First()+i), words.FamiliesSheet+"!"+r.Area(key, key))
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
