package workbook

import (
	"fmt"
	"slices"

	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// Rows of the page: the verdicts in words come first, and what they cannot
// know; the facts and the chart stand between them and the tables.
const (
	verdictRow = 4
	factsRow   = 13
	tablesRow  = 29
)

// seasonSheet is the page to read first: the season in words, facts, the chart,
// the contests, the flights that count, what the trend rests on.
func seasonSheet(c *content) xlsx.Sheet {
	contests, columns := sized(contestColumns(c)), sized(enteredColumns())
	entered, rows := c.contested(), c.contestRows()
	first := xlsx.Place("Contests", words.SeasonSheet, tablesRow+1, len(rows), contests)
	second := xlsx.Place("Entered", words.SeasonSheet, first.Last()+3, len(entered), columns)
	trends := xlsx.Place("Trends", words.SeasonSheet, second.Last()+3, len(c.book.Season.Trends), trendColumns())
	return xlsx.Sheet{
		Name: words.SeasonSheet, Tables: []xlsx.Placed{first, second, trends}, FrozenRows: 2, PagesTall: c.pagesTall(1), HeadRows: 2, LastColumn: len(seasonWidths),
		Fill: func(b *xlsx.Book) {
			xlsx.Widths(b, contests)
			b.Heights(1, trends.Head, 1)
			b.TitleLine(1, len(seasonWidths), totalWidth(seasonWidths), c.title, 18)
			b.Across(1, 2, len(seasonWidths), totalWidth(seasonWidths), c.subtitle(), xlsx.Look{Grey: true, Align: "left", Wrap: true})
			fillVerdicts(b, c.verdicts())
			fillFacts(b, c, c.facts())
			b.Text(1, tablesRow, words.ContestsHeading, xlsx.Look{Bold: true, Size: 13, Align: "left"})
			xlsx.FillTable(b, first, contests, rows)
			b.Text(1, second.Head-1, words.EnteredHeading, xlsx.Look{Bold: true, Size: 13, Align: "left"})
			xlsx.FillTable(b, second, columns, entered)
			dressDifference(b, second)
			seasonChart(b, c, second, trends, entered)
			end := fillTrends(b, c, trends)
			pages := xlsx.NewPager(b, len(seasonWidths), 2)
			pages.Fitted = c.pagesTall(1) == 1
			pages.Keep(tablesRow, first.Last())
			pages.Keep(second.Head-1, second.Last())
			pages.Keep(trends.Head-1, end)
		},
	}
}

// fillVerdicts writes the season in words, each line as high as it needs.
func fillVerdicts(b *xlsx.Book, verdicts []verdict) {
	for i, v := range verdicts {
		row := verdictRow + i
		b.Text(1, row, v.label, xlsx.Look{Bold: true, Align: "left"})
		b.Across(2, row, len(seasonWidths), totalWidth(seasonWidths[1:]), v.words, xlsx.Look{Align: "left", Wrap: true})
	}
}

// fillTrends writes what the sentence on the trend rests on, and the notes of
// the page. It gives the last row.
func fillTrends(b *xlsx.Book, c *content, trends xlsx.Placed) int {
	b.Text(1, trends.Head-1, words.TrendBasis, xlsx.Look{Bold: true, Size: 13, Align: "left"})
	columns := sized(trendColumns())
	xlsx.FillTable(b, trends, columns, c.trendRows())
	for row := trends.Head; row <= trends.Last(); row++ {
		// The verdict is long and the last: it has the rest of the page's width.
		b.Merge(trends.Columns["word"], row, len(seasonWidths), xlsx.LookOf(row == trends.Head, trendColumns()[len(trendColumns())-1].Look))
	}
	tests := xlsx.Place("Tests", words.SeasonSheet, trends.Last()+2, len(c.book.Season.Trends), testColumns())
	xlsx.FillTable(b, tests, sized(testColumns()), c.trendRows())
	end := tests.Last()
	if moves := c.book.Season.Moves; len(moves) > 0 {
		p := xlsx.Place("Moves", words.SeasonSheet, end+2, len(moves), moveColumns())
		xlsx.FillTable(b, p, sized(moveColumns()), moves)
		end = p.Last()
	}
	notes := words.SeasonSheetNotes()
	for i, note := range notes {
		b.Text(1, end+2+i, note, xlsx.LookNote)
		b.Heights(end+2+i, end+2+i, 1)
	}
	return end + 1 + len(notes)
}

// subtitle says whose flights these are, which, and as of when.
func (c *content) subtitle() string {
	said, pilot := c.period, c.book.Pilot
	if c.title != pilot.Name {
		said = pilot.Name + ", " + said
	}
	for _, more := range []string{pilot.Club, words.AircraftFlown(c.book.Season, pilot.Aircraft)} {
		if more != "" {
			said += " · " + more
		}
	}
	if c.head.AsOf != "" {
		said += " · as of " + c.head.AsOf
	}
	return said
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
		if f.line.Enters {
			n++
		}
	}
	return n
}

// seasonWidths are the widths of the page's columns, which its tables share.
var seasonWidths = []float64{28, 12, 14, 12.5, 11, 11, 9.5, 7.5, 7.5, 12.5, 10.5, 10.5, 8, 10, 10}

// totalWidth is how wide columns are together.
func totalWidth(widths []float64) float64 {
	sum := 0.0
	for _, w := range widths {
		sum += w
	}
	return sum
}

// sized gives a table's columns the page's widths; those beyond are folded.
func sized[R any](columns []xlsx.Column[R]) []xlsx.Column[R] {
	columns = slices.Clone(columns)
	for i := range columns {
		if i < len(seasonWidths) {
			columns[i].Width = seasonWidths[i]
			continue
		}
		columns[i].Width, columns[i].Folded = 11, true
	}
	return columns
}

// pageFact is a line of the page's facts.
type pageFact struct {
	label   string
	depth   int // how far the label stands in, under the one it belongs to
	formula string
	value   xlsx.Value
	look    xlsx.Look
	name    func(flightRow) string // what a name comes to with a flight; nil where it is none
}

// factsTo is the last column of a fact's value, beside the chart.
const factsTo = 4

// fillFacts writes the facts and gives each a formula over the sheet Flights.
// Another flight may become the best by an edit, so that a row of names is as
// high as the longest of them needs.
func fillFacts(b *xlsx.Book, c *content, facts []pageFact) {
	width := totalWidth(seasonWidths[1:factsTo])
	for i, f := range facts {
		row := factsRow + i
		b.Text(1, row, f.label, xlsx.Look{Align: "left", Indent: f.depth})
		b.Formula(2, row, b.Expand(f.formula, xlsx.Placed{}, row), f.value, f.look)
		lines := 1
		for _, flight := range c.contested() {
			if f.name != nil {
				lines = max(lines, xlsx.TextLines(f.name(flight), width))
			}
		}
		b.Merge(2, row, factsTo, f.look)
		b.Heights(row, row, lines)
	}
}

// facts are the season in a few lines.
func (c *content) facts() []pageFact {
	whole := xlsx.Look{Format: "0", Align: "left", Bold: true}
	percent := xlsx.Look{Format: "0.00", Align: "left", Bold: true}
	name := xlsx.Look{Align: "left", Bold: true, Wrap: true}
	count := func(label, what string) pageFact {
		return pageFact{label, 0, `COUNTIFS({Flights.counts},"` + what + `")`, xlsx.Integer(c.countOf(what)), whole, nil}
	}
	compared := func(label, word string) pageFact {
		return pageFact{label, 2, `COUNTIFS({Flights.counts},"yes",{Flights.agrees},"` + word + `")`, xlsx.Integer(c.agreeing(word)), whole, nil}
	}
	official := `COUNTIFS({Flights.counts},"yes",{Flights.source},"official")`
	agree, differ := compared(words.FactAgrees, "yes"), compared(words.FactDiffers, "no")
	flight := func(f flightRow) string { return f.Flight.Flight }
	contest := func(f flightRow) string { return f.ContestName }
	best, worst := c.extreme(c.book.Season.Best), c.extreme(c.book.Season.Worst)
	return []pageFact{
		count(words.FactContestFlights, countsYes),
		{words.FactWithPercent, 1, `COUNT({Flights.entered})`, xlsx.Integer(c.entered()), whole, nil},
		{words.FactWithOfficial, 1, official, xlsx.Integer(c.officialTotals()), whole, nil},
		agree,
		differ,
		{words.FactNotCompared, 2, official + "-" + agree.formula + "-" + differ.formula, xlsx.Integer(c.officialTotals() - c.agreeing("yes") - c.agreeing("no")), whole, nil},
		count(words.FactPracticeFlights, countsPractice),
		count(words.FactVoidFlights, countsVoid),
		{words.FactMeanPercent, 0, `IF(COUNT({Flights.entered})=0,"",SUM({Flights.entered})/COUNT({Flights.entered}))`, number(c.book.Season.Mean), percent, nil},
		{words.FactBestPercent, 0, extremeFormula("MAX", ""), best.percent, percent, nil},
		{words.FactBestFlight, 0, extremeFormula("MAX", "flight"), best.flight, name, flight},
		{words.FactBestContest, 0, extremeFormula("MAX", "contest"), best.contest, name, contest},
		{words.FactWorstPercent, 0, extremeFormula("MIN", ""), worst.percent, percent, nil},
		{words.FactWorstFlight, 0, extremeFormula("MIN", "flight"), worst.flight, name, flight},
		{words.FactWorstContest, 0, extremeFormula("MIN", "contest"), worst.contest, name, contest},
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
type extremeFlight struct{ percent, flight, contest xlsx.Value }

func (c *content) extreme(flight string) extremeFlight {
	for _, f := range c.flights {
		if flight != "" && f.Flight.Flight == flight {
			return extremeFlight{number(f.line.Percent), xlsx.Text(flight), xlsx.Text(f.ContestName)}
		}
	}
	return extremeFlight{}
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
		if f.counts() == countsYes && f.line.Source == answers.FromOfficial {
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
		if f.counts() == countsYes && agrees(f).Text == word {
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
func enteredColumns() []xlsx.Column[flightRow] {
	return []xlsx.Column[flightRow]{
		{Key: "contest", Title: words.ColumnContest, Look: xlsx.LookWrap.Live(), Formula: fromFlights("contest"), Value: func(f flightRow) xlsx.Value {
			return xlsx.Text(f.ContestName)
		}},
		{Key: "date", Title: words.ColumnDate, Look: xlsx.LookDate.Live(), Formula: fromFlights("date"), Value: func(f flightRow) xlsx.Value { return day(f.Date) }},
		{Key: "category", Title: words.ColumnCategory, Look: xlsx.LookWrap.Live(), Formula: fromFlights("category"), Value: func(f flightRow) xlsx.Value { return xlsx.Text(f.Category) }},
		{Key: "programme", Title: words.ColumnProgramme, Look: xlsx.LookText.Live(), Formula: fromFlights("programme"), Value: func(f flightRow) xlsx.Value { return xlsx.Text(f.Programme) }},
		{Key: "points", Title: words.ColumnPoints, Look: xlsx.LookTwo.Live(), Formula: fromFlights("record-points"), Value: func(f flightRow) xlsx.Value { return number(f.line.Points) }},
		{Key: "of-points", Title: words.ColumnOutOf, Look: xlsx.LookInteger.Live(), Formula: fromFlights("record-maximum"), Value: func(f flightRow) xlsx.Value { return number(f.line.Maximum) }},
		{
			Key: "percent", Title: words.ColumnPercent, Look: xlsx.LookTwo.Live().Strong(),
			Formula: fromFlights("record"),
			Value:   func(f flightRow) xlsx.Value { return number(f.line.Percent) },
		},
		{Key: "place", Title: words.ColumnPlace, Look: xlsx.LookPlace.Live(), Formula: fromFlights("place"), Value: func(f flightRow) xlsx.Value { return xlsx.Whole(f.Place) }},
		{Key: "of", Title: words.ColumnOf, Look: xlsx.LookPlace.Live(), Formula: fromFlights("of"), Value: func(f flightRow) xlsx.Value { return xlsx.Whole(f.Of) }},
		{Key: "source", Title: words.ColumnRecordFrom, Look: xlsx.LookCentred.Live(), Formula: fromFlights("source"), Value: func(f flightRow) xlsx.Value { return xlsx.Text(f.line.Source) }},
		{Key: "difference", Title: words.ColumnOfficialLessOwn, Look: xlsx.LookGap.Live(), Formula: fromFlights("difference"), Value: difference},
		{Key: "own", Title: words.ColumnOwnPercent, Look: xlsx.LookTwo.Live(), Formula: fromFlights("percent"), Value: func(f flightRow) xlsx.Value { return number(f.Percent) }},
		{Key: "noise", Title: words.ColumnPanelNoise, Look: xlsx.LookTwo.Stat(), Value: func(f flightRow) xlsx.Value { return number(f.line.Noise) }},
		{Key: "to-winner", Title: words.ColumnToWinner, Look: xlsx.LookGap.Live(), Formula: fromFlights("to-winner"), Value: func(f flightRow) xlsx.Value { return number(f.line.ToWinner) }},
		{Key: "to-median", Title: words.ColumnToMedian, Look: xlsx.LookGap.Live(), Formula: fromFlights("to-median"), Value: func(f flightRow) xlsx.Value { return number(f.line.ToMedian) }},
		{Key: "agrees", Title: words.ColumnOfficialAgrees, Look: xlsx.LookText.Working(), Formula: fromFlights("agrees"), Value: agrees},
		{Key: "key", Title: words.ColumnFlight, Look: xlsx.LookText.Working(), Value: func(f flightRow) xlsx.Value { return xlsx.Text(f.Flight.Flight) }},
		{
			// A flight without a percent is a gap in the chart, where an empty text
			// would be drawn as zero.
			Key: "drawn", Title: words.ColumnPercentInTheChart, Look: xlsx.LookTwo.Working(), Formula: `IF(ISNUMBER({percent}),{percent},NA())`,
			Value: func(f flightRow) xlsx.Value {
				if !f.line.Percent.Known() {
					return xlsx.NotAvailable
				}
				return number(f.line.Percent)
			},
		},
		noiseEnd("upper", words.ColumnPercentAndNoise, "+", 1),
		noiseEnd("lower", words.ColumnPercentLessNoise, "-", -1),
	}
}

// noiseEnd is one end of a flight's panel noise. The chart draws both without
// marks: some programs make an axis as long as the marks ask, and cut the bars.
func noiseEnd(key, title, sign string, direction float64) xlsx.Column[flightRow] {
	return xlsx.Column[flightRow]{
		Key: key, Title: title, Look: xlsx.LookTwo.Working(), Formula: `IF(ISNUMBER({percent}),{percent}` + sign + `N({noise}),NA())`,
		Value: func(f flightRow) xlsx.Value {
			if !f.line.Percent.Known() {
				return xlsx.NotAvailable
			}
			return xlsx.Float(f.line.Percent.Float64() + direction*orZero(f.line.Noise))
		},
	}
}
