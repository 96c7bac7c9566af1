package workbook

import (
	"fmt"
	"slices"

	"boxbook/season"
)

const seasonName = "Season"

// Rows of the page: the verdicts in words come first, and what they cannot
// know; the facts and the chart stand between them and the tables.
const (
	verdictRow = 4
	factsRow   = 12
	tablesRow  = 28
)

// seasonSheet is the page to read first: the season in words, facts, the chart,
// the contests, the flights that count, what the trend rests on.
func seasonSheet(c *content) sheet {
	contests, enteredColumns := sized(contestColumns(c)), sized(enteredColumns)
	entered, rows := c.contested(), c.contestRows()
	first := place("Contests", seasonName, tablesRow+1, len(rows), contests)
	second := place("Entered", seasonName, first.last()+3, len(entered), enteredColumns)
	trends := place("Trends", seasonName, second.last()+3, len(c.trends), trendColumns)
	return sheet{
		name: seasonName, tables: []placed{first, second, trends}, frozenRows: 2, headRows: 2, lastColumn: len(seasonWidths),
		fill: func(b *book) {
			widths(b, contests)
			b.heights(1, trends.head, 1)
			b.titleLine(1, len(seasonWidths), totalWidth(seasonWidths), c.title, 18)
			b.across(1, 2, len(seasonWidths), totalWidth(seasonWidths), c.subtitle(), look{grey: true, align: "left", wrap: true})
			fillVerdicts(b, c.verdicts())
			fillFacts(b, c, c.facts())
			b.text(1, tablesRow, "Contests", look{bold: true, size: 13, align: "left"})
			fillTable(b, first, contests, rows)
			b.text(1, second.head-1, "Flights that count", look{bold: true, size: 13, align: "left"})
			fillTable(b, second, enteredColumns, entered)
			dressDifference(b, second)
			seasonChart(b, c, second, trends, entered)
			end := fillTrends(b, c, trends)
			pages := newPager(b, len(seasonWidths), 2)
			pages.keep(tablesRow, first.last())
			pages.keep(second.head-1, second.last())
			pages.keep(trends.head-1, end)
		},
	}
}

// fillVerdicts writes the season in words, each line as high as it needs.
func fillVerdicts(b *book, verdicts []verdict) {
	for i, v := range verdicts {
		row := verdictRow + i
		b.text(1, row, v.label, look{bold: true, align: "left"})
		b.across(2, row, len(seasonWidths), totalWidth(seasonWidths[1:]), v.words, look{align: "left", wrap: true})
	}
}

// fillTrends writes what the sentence on the trend rests on, and the notes of
// the page. It gives the last row.
func fillTrends(b *book, c *content, trends placed) int {
	b.text(1, trends.head-1, "What the trend rests on ("+statNote+")", look{bold: true, size: 13, align: "left"})
	columns := sized(trendColumns)
	fillTable(b, trends, columns, c.trends)
	for row := trends.head; row <= trends.last(); row++ {
		// The verdict is long and the last: it has the rest of the page's width.
		b.merge(trends.columns["word"], row, len(seasonWidths), lookOf(row == trends.head, trendColumns[len(trendColumns)-1].look))
	}
	tests := place("Tests", seasonName, trends.last()+2, len(c.trends), testColumns)
	fillTable(b, tests, sized(testColumns), c.trends)
	end := tests.last()
	if moves := c.season.Moves(); len(moves) > 0 {
		p := place("Moves", seasonName, end+2, len(moves), moveColumns)
		fillTable(b, p, sized(moveColumns), moves)
		end = p.last()
	}
	for i, note := range seasonNotes {
		b.text(1, end+2+i, note, lookNote)
		b.heights(end+2+i, end+2+i, 1)
	}
	return end + 1 + len(seasonNotes)
}

var seasonNotes = []string{
	"The lines in words at the head and all italic numbers are worked out by boxbook and do not follow a changed mark; tinted cells do.",
	"Panel noise: how much another panel of this size would change the percent by chance, one standard deviation. To winner, to median: own points less theirs, where the field is known.",
	"Percent is that of the record: the official total where one was typed, else the sum of the marks. Practice and void flights enter no figure on this page.",
	"Points and percents lead back to the marks on the sheet Grades, or to a printed total on the sheet Flights. The sheet Rules explains the marks.",
}

// subtitle says whose flights these are, which, and as of when.
func (c *content) subtitle() string {
	words := c.period
	if c.title != c.pilot.Name {
		words = c.pilot.Name + ", " + words
	}
	for _, more := range []string{c.pilot.Club, c.pilot.Aircraft} {
		if more != "" {
			words += " · " + more
		}
	}
	if c.asOf != 0 {
		words += " · as of " + c.asOf.String()
	}
	return words
}

// contested lists the flights that count, also those whose percent waits for a
// ruling: it can be typed on Grades, and the row then fills.
func (c *content) contested() []flightRow {
	var rows []flightRow
	for _, f := range c.flights {
		if f.counts() == countsYes {
			rows = append(rows, f)
		}
	}
	return rows
}

// entered counts the flights that enter the season's figures.
func (c *content) entered() int {
	n := 0
	for _, f := range c.flights {
		if f.line.Enters() {
			n++
		}
	}
	return n
}

// seasonWidths are the widths of the page's columns, which its tables share.
var seasonWidths = []float64{30, 12, 14, 12.5, 11, 9, 9.5, 7.5, 7.5, 12.5, 10.5, 10.5, 8, 10, 10}

// totalWidth is how wide columns are together.
func totalWidth(widths []float64) float64 {
	sum := 0.0
	for _, w := range widths {
		sum += w
	}
	return sum
}

// sized gives a table's columns the page's widths; those beyond are folded.
func sized[R any](columns []column[R]) []column[R] {
	columns = slices.Clone(columns)
	for i := range columns {
		if i < len(seasonWidths) {
			columns[i].width = seasonWidths[i]
			continue
		}
		columns[i].width, columns[i].folded = 11, true
	}
	return columns
}

// pageFact is a line of the page's facts.
type pageFact struct {
	label   string
	depth   int // how far the label stands in, under the one it belongs to
	formula string
	value   value
	look    look
	name    func(flightRow) string // what a name comes to with a flight; nil where it is none
}

// factsTo is the last column of a fact's value, beside the chart.
const factsTo = 4

// fillFacts writes the facts and gives each a formula over the sheet Flights.
// Another flight may become the best by an edit, so that a row of names is as
// high as the longest of them needs.
func fillFacts(b *book, c *content, facts []pageFact) {
	width := totalWidth(seasonWidths[1:factsTo])
	for i, f := range facts {
		row := factsRow + i
		b.text(1, row, f.label, look{align: "left", indent: f.depth})
		b.formula(2, row, b.expand(f.formula, placed{}, row), f.value, f.look)
		lines := 1
		for _, flight := range c.contested() {
			if f.name != nil {
				lines = max(lines, textLines(f.name(flight), width))
			}
		}
		b.merge(2, row, factsTo, f.look)
		b.heights(row, row, lines)
	}
}

// facts are the season in a few lines.
func (c *content) facts() []pageFact {
	number := look{format: "0", align: "left", bold: true}
	percent := look{format: "0.00", align: "left", bold: true}
	words := look{align: "left", bold: true, wrap: true}
	count := func(label, what string) pageFact {
		return pageFact{label, 0, `COUNTIFS({Flights.counts},"` + what + `")`, integer(c.countOf(what)), number, nil}
	}
	compared := func(label, word string) pageFact {
		return pageFact{label, 2, `COUNTIFS({Flights.counts},"yes",{Flights.agrees},"` + word + `")`, integer(c.agreeing(word)), number, nil}
	}
	official := `COUNTIFS({Flights.counts},"yes",{Flights.source},"official")`
	agree, differ := compared("that agrees with the marks", "yes"), compared("that does not agree", "no")
	flight := func(f flightRow) string { return f.line.Flight.Name }
	contest := func(f flightRow) string { return contestName(f.line.Flight.Contest) }
	best, worst := c.extreme(c.season.Best), c.extreme(c.season.Worst)
	return []pageFact{
		count("contest flights", countsYes),
		{"with a percent", 1, `COUNT({Flights.entered})`, integer(c.entered()), number, nil},
		{"with an official total", 1, official, integer(c.officialTotals()), number, nil},
		agree,
		differ,
		{"that cannot be compared", 2, official + "-" + agree.formula + "-" + differ.formula, integer(c.officialTotals() - c.agreeing("yes") - c.agreeing("no")), number, nil},
		count("practice flights", countsPractice),
		count("void flights", countsVoid),
		{"best, percent", 0, extremeFormula("MAX", ""), best.percent, percent, nil},
		{"best, flight", 0, extremeFormula("MAX", "flight"), best.flight, words, flight},
		{"best, contest", 0, extremeFormula("MAX", "contest"), best.contest, words, contest},
		{"worst, percent", 0, extremeFormula("MIN", ""), worst.percent, percent, nil},
		{"worst, flight", 0, extremeFormula("MIN", "flight"), worst.flight, words, flight},
		{"worst, contest", 0, extremeFormula("MIN", "contest"), worst.contest, words, contest},
	}
}

// extremeFormula finds the highest or the lowest percent that counts, or what
// stands in another column beside it; of equals the first.
func extremeFormula(function, key string) string {
	found := function + "({Flights.entered})"
	if key != "" {
		found = "INDEX({Flights." + key + "},MATCH(" + found + `,{Flights.entered},0))&""`
	}
	return `IF(COUNT({Flights.entered})=0,"",` + found + ")"
}

// extremeFlight is the best or the worst flight in the page's words.
type extremeFlight struct{ percent, flight, contest value }

func (c *content) extreme(index int) extremeFlight {
	if index < 0 {
		return extremeFlight{}
	}
	line := c.season.Lines[index]
	return extremeFlight{
		exact(line.Record.Percent), text(line.Flight.Name), text(contestName(line.Flight.Contest)),
	}
}

func (c *content) countOf(what string) int {
	n := 0
	for _, f := range c.flights {
		if f.counts() == what {
			n++
		}
	}
	return n
}

func (c *content) officialTotals() int {
	n := 0
	for _, f := range c.flights {
		if f.counts() == countsYes && f.line.Record.Source == season.Printed {
			n++
		}
	}
	return n
}

// agreeing counts the flights whose official total agrees or does not; one
// without marks, with a sheet missing, or out of another maximum, is neither.
func (c *content) agreeing(word string) int {
	n := 0
	for _, f := range c.flights {
		if f.counts() == countsYes && agrees(f).text == word {
			n++
		}
	}
	return n
}

// fromFlights looks a column of Flights up by the flight's name; text and
// empty cells stay what they are.
func fromFlights(key string) string {
	cell := fmt.Sprintf("INDEX({Flights.%s},MATCH({key},{Flights.flight},0))", key)
	return "IF(" + cell + `="","",` + cell + ")"
}

// enteredColumns stand under those of the contests: the widths are shared.
var enteredColumns = []column[flightRow]{
	{key: "contest", title: "contest", look: lookWrap.live(), formula: fromFlights("contest"), value: func(f flightRow) value {
		return text(contestName(f.line.Flight.Contest))
	}},
	{key: "date", title: "date", look: lookDate.live(), formula: fromFlights("date"), value: func(f flightRow) value { return day(f.line.Flight.Date) }},
	{key: "category", title: "category", look: lookWrap.live(), formula: fromFlights("category"), value: func(f flightRow) value { return text(f.line.Flight.Category) }},
	{key: "programme", title: "programme", look: lookText.live(), formula: fromFlights("programme"), value: func(f flightRow) value { return text(string(f.line.Flight.Programme)) }},
	{key: "points", title: "points", look: lookTwo.live(), formula: fromFlights("record-points"), value: func(f flightRow) value { return exact(f.line.Record.Points) }},
	{key: "of-points", title: "out of", look: lookInteger.live(), formula: fromFlights("record-maximum"), value: func(f flightRow) value { return exact(f.line.Record.Maximum) }},
	{
		key: "percent", title: "percent", look: lookTwo.live().strong(),
		formula: fromFlights("record"),
		value:   func(f flightRow) value { return exact(f.line.Record.Percent) },
	},
	{key: "place", title: "place", look: lookPlace.live(), formula: fromFlights("place"), value: func(f flightRow) value { return whole(f.line.Flight.Rank) }},
	{key: "of", title: "of", look: lookPlace.live(), formula: fromFlights("of"), value: func(f flightRow) value { return whole(f.line.Flight.Of) }},
	{key: "source", title: "record from", look: lookCentred.live(), formula: fromFlights("source"), value: func(f flightRow) value { return text(string(f.line.Record.Source)) }},
	{key: "difference", title: "official less own", look: lookGap.live(), formula: fromFlights("difference"), value: difference},
	{key: "own", title: "own percent", look: lookTwo.live(), formula: fromFlights("percent"), value: func(f flightRow) value { return exact(f.score.Percent) }},
	{key: "noise", title: "panel noise", look: lookTwo.stat(), value: func(f flightRow) value { return f.noise() }},
	{key: "to-winner", title: "to winner", look: lookGap.live(), formula: fromFlights("to-winner"), value: func(f flightRow) value { return exact(f.line.ToWinner) }},
	{key: "to-median", title: "to median", look: lookGap.live(), formula: fromFlights("to-median"), value: func(f flightRow) value { return exact(f.line.ToMedian) }},
	{key: "agrees", title: "official agrees", look: lookText.working(), formula: fromFlights("agrees"), value: agrees},
	{key: "key", title: "flight", look: lookText.working(), value: func(f flightRow) value { return text(f.line.Flight.Name) }},
	{
		// A flight without a percent is a gap in the chart, where an empty text
		// would be drawn as zero.
		key: "drawn", title: "percent in the chart", look: lookTwo.working(), formula: `IF(ISNUMBER({percent}),{percent},NA())`,
		value: func(f flightRow) value {
			if f.line.Record.Percent == nil {
				return notAvailable
			}
			return exact(f.line.Record.Percent)
		},
	},
	noiseEnd("upper", "percent and noise", "+", 1),
	noiseEnd("lower", "percent less noise", "-", -1),
}

// noiseEnd is one end of a flight's panel noise. The chart draws both without
// marks: some programs make an axis as long as the marks ask, and cut the bars.
func noiseEnd(key, title, sign string, direction float64) column[flightRow] {
	return column[flightRow]{
		key: key, title: title, look: lookTwo.working(), formula: `IF(ISNUMBER({percent}),{percent}` + sign + `N({noise}),NA())`,
		value: func(f flightRow) value {
			if f.line.Record.Percent == nil {
				return notAvailable
			}
			return float(exact(f.line.Record.Percent).number + direction*f.noise().number)
		},
	}
}
