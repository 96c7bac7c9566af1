package workbook

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"boxbook/report"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis"
)

// requireSame holds formulas' stored values to what the library's own
// calculation makes of them.
func requireSame(t testing.TB, book opened, sheet string, cells ...string) {
	t.Helper()
	c := newCalculator(t, book)
	for _, cell := range cells {
		if c.can(sheet, cell) {
			c.requireValue(sheet, cell, book.stored(sheet, cell))
		}
	}
}

// A calculation by another hand leaves every stored value as it is.
func TestStoredIsWhatFormulasGive(t *testing.T) {
	for _, w := range everyWorkbook {
		t.Run(w.path+" "+w.pilot, func(t *testing.T) {
			t.Parallel()
			book := workbookOf(t, load(t, w.path), w.pilot)
			c := newCalculator(t, book)
			calculated, left := 0, 0
			for sheet, cells := range c.order {
				for i, cell := range cells {
					if !c.can(sheet, cell) {
						left++
						continue
					}
					if sheet == words.ElementsSheet && i%11 != 0 {
						continue // rows alike, all of them compared by .ci/workbook.py
					}
					c.requireValue(sheet, cell, book.stored(sheet, cell))
					calculated++
				}
			}
			require.Greater(t, calculated, 10*left)
		})
	}
}

// Every row of Grades stores what package scoring gives.
func TestGradesAreScorings(t *testing.T) {
	for _, w := range everyWorkbook {
		l := load(t, w.path)
		book := workbookOf(t, l, w.pilot)
		row := 2
		for _, f := range l.Select(of(t, l, w.pilot)) {
			if f.Void != nil || !f.HasMarks() {
				continue
			}
			sheet, score := f.Sheet(), f.Score()
			for i, line := range score.Lines {
				where := f.Name + " row " + strconv.Itoa(i+1)
				require.Equal(t, f.Name, book.under("Grades", "flight", row))
				require.Equal(t, strconv.Itoa(sheet.Lines[i].K), book.under("Grades", "K", row), where)
				requireNumber(t, line.Mean, book.under("Grades", "mean", row), where)
				requireNumber(t, line.Points, book.under("Grades", "points", row), where)
				requireNumber(t, line.Lost, book.under("Grades", "lost", row), where)
				require.Equal(t, string(line.Ruling), book.under("Grades", "ruling", row), where)
				requireMarks(t, book, row, sheet.Lines[i].Marks)
				row++
			}
		}
		require.Empty(t, book.under("Grades", "points", row))
		if w.path != tourLedger {
			require.Greater(t, row, 10)
		}
	}
}

// requireMarks compares a row's seats with the ledger's marks; those that the
// panel lacks are empty.
func requireMarks(t *testing.T, book opened, row int, marks []scoring.Mark) {
	t.Helper()
	first := book.column("Grades", 1, "Judge 1")
	last := book.column("Grades", 1, "resolve")
	for c := first; c < last; c++ {
		got := book.stored("Grades", xlsx.ColumnName(c)+strconv.Itoa(row))
		if c-first >= len(marks) {
			require.Empty(t, got)
			continue
		}
		m := marks[c-first]
		if m.Kind != scoring.Grade {
			require.Equal(t, m.String(), got)
			continue
		}
		value, err := strconv.ParseFloat(got, 64)
		require.NoError(t, err)
		require.Equal(t, float64(m.Half)/2, value)
	}
}

// Every row of Flights stores what packages season and scoring give.
func TestFlightsAreSeasons(t *testing.T) {
	for _, w := range everyWorkbook {
		l := load(t, w.path)
		book := workbookOf(t, l, w.pilot)
		answer := analysis.SeasonOf(l, of(t, l, w.pilot))
		require.NotEmpty(t, answer.Lines)
		for i, line := range answer.Lines {
			row, f := i+2, line.Flight
			score := f.Score()
			if f.Void != nil {
				score = scoring.Score{}
			}
			require.Equal(t, f.Name, book.under("Flights", "flight", row))
			requireNumber(t, score.Raw, book.under("Flights", "raw", row), f.Name)
			requireNumber(t, score.Points, book.under("Flights", "points", row), f.Name)
			requireNumber(t, score.Percent, book.under("Flights", "percent", row), f.Name)
			requireNumber(t, line.Record.Percent, book.under("Flights", "counted percent", row), f.Name)
			requireNumber(t, line.Record.Points, book.under("Flights", "counted points", row), f.Name)
			requireNumber(t, line.Record.Maximum, book.under("Flights", "counted maximum", row), f.Name)
			require.Equal(t, string(line.Record.Source), book.under("Flights", "result from", row), f.Name)
			if f.Official != nil && f.Void == nil {
				requireNumber(t, f.Official.Percent(), book.under("Flights", "official percent", row), f.Name)
			}
		}
	}
}

// A void flight is listed with its reason and has no rows of marks; an
// undecided one has no points, and says why.
func TestVoidAndUndecided(t *testing.T) {
	book := workbookOf(t, load(t, seasonLedger), "tobias")
	row := book.rowOf("Flights", "flight", "2026-06-07/tobias/free")
	require.Equal(t, "void", book.under("Flights", "counts", row))
	require.Equal(t, "void: cloud on the forty-five, called down after figure 7", book.under("Flights", "remark", row))
	require.Empty(t, book.under("Flights", "counted percent", row))
	require.Equal(t, "0", book.under("Flights", "rows", row))

	book = workbookOf(t, load(t, checkLedger), "checker")
	row = book.rowOf("Flights", "flight", "2026-03-07/checker/known")
	require.Equal(t, "undecided rows: 1", book.under("Flights", "remark", row))
	for _, title := range []string{"raw", "points", "percent", "counted percent", "result from"} {
		require.Empty(t, book.under("Flights", title, row), title)
	}
	require.Equal(t, "undecided", book.under("Grades", "ruling", book.rowOf("Grades", "flight", "2026-03-07/checker/known")))
}

// Check values of the trade's arithmetic: [derived] from the stated rules.
func TestCheckValues(t *testing.T) {
	book := workbookOf(t, load(t, checkLedger), "checker")
	for flight, want := range map[string]string{
		"2026-03-01": "721.33", "2026-03-02": "691.33", "2026-03-03": "598.08", "2026-03-04": "721.93", "2026-03-05": "724.33",
		"2026-03-08": "0.00", "2026-03-09": "75.00", "2026-03-10": "37.50", "2026-03-11": "46.67", "2026-03-12": "540.49",
		"2026-03-13": "539.15",
	} {
		row := book.rowOf("Flights", "flight", flight+"/checker/known")
		value, err := strconv.ParseFloat(book.under("Flights", "points", row), 64)
		require.NoError(t, err)
		require.Equal(t, want, strconv.FormatFloat(value, 'f', 2, 64), flight)
	}
	// An official 540.5 agrees with 540.4917, 540.4 does not [derived].
	for flight, want := range map[string]string{"2026-03-14": "yes", "2026-03-15": "no", "2026-03-12": "yes", "2026-03-06": "no", "2026-03-01": ""} {
		row := book.rowOf("Flights", "flight", flight+"/checker/known")
		require.Equal(t, want, book.under("Flights", "official agrees", row), flight)
	}
	// K 185 in all [published: daec-silver, figures], so 1850 is the maximum; the
	// points are [derived].
	book = workbookOf(t, load(t, gliderLedger), "mara")
	require.Equal(t, "1850", book.under("Flights", "maximum", 2))
	require.Equal(t, "1292.5", book.under("Flights", "points", 2))
}

// The season's page tells what SeasonOf tells.
func TestSeasonPage(t *testing.T) {
	l := load(t, seasonLedger)
	answer := analysis.SeasonOf(l, of(t, l, "ines"))
	book := workbookOf(t, l, "ines")
	facts := map[string]string{}
	for row := factsRow; book.stored("Season", "A"+strconv.Itoa(row)) != ""; row++ {
		facts[book.stored("Season", "A"+strconv.Itoa(row))] = book.stored("Season", "B"+strconv.Itoa(row))
	}
	require.Equal(t, "8", facts["contest flights"])
	require.Equal(t, "7", facts["with an official total"])
	require.Equal(t, "6", facts["that agrees with the marks"])
	require.Equal(t, "0", facts["that does not agree"])
	require.Equal(t, "1", facts["that cannot be compared"], "a sheet is missing")
	require.Equal(t, answer.Lines[answer.Best].Flight.Name, facts["best, flight"])
	require.Equal(t, answer.Lines[answer.Worst].Flight.Name, facts["worst, flight"])
	requireNumber(t, answer.Lines[answer.Best].Record.Percent, facts["best, percent"])
	requireNumber(t, answer.Lines[answer.Worst].Record.Percent, facts["worst, percent"])

	head := tablesRow + 1
	at := func(title string, row int) string {
		return book.stored("Season", xlsx.ColumnName(book.column("Season", head, title))+strconv.Itoa(row))
	}
	for i, c := range answer.Contests {
		row := head + 1 + i
		require.Equal(t, c.Contest.Name, at("contest", row))
		if c.Result.Source == season.Printed {
			requireNumber(t, c.Result.Points, at("printed result", row))
			requireNumber(t, c.Result.Percent, at("percent", row))
		}
		requireNumber(t, c.Sum.Points, at("sum of flights", row))
		requireNumber(t, c.Sum.Percent, at("percent of the sum", row))
	}
}

var formulaType = regexp.MustCompile(`<c r="[A-Z]+[0-9]+"[^>]*>(?:<f>[^<]*</f>)<v>([^<]*)</v></c>`)

// A number that a formula gives is stored as one: without the mark of a text.
func TestNumbersAreStoredAsNumbers(t *testing.T) {
	l := load(t, seasonLedger)
	raw := written(t, l, of(t, l, "ines"), asked{})
	numbers := 0
	for i := range 10 {
		for _, m := range formulaType.FindAllStringSubmatch(part(t, raw, "xl/worksheets/sheet"+strconv.Itoa(i+1)+".xml"), -1) {
			if strings.Contains(m[0], ` t="str"`) {
				_, err := strconv.ParseFloat(m[1], 64)
				require.Error(t, err, m[0])
				continue
			}
			_, err := strconv.ParseFloat(m[1], 64)
			require.NoError(t, err, m[0])
			numbers++
		}
	}
	require.Greater(t, numbers, 1000)
}

// The chart draws the cells of the season's page, dates as numbers, with the
// values stored beside.
func TestChart(t *testing.T) {
	l := load(t, seasonLedger)
	raw := written(t, l, of(t, l, "ines"), asked{})
	chart := part(t, raw, "xl/charts/chart1.xml")
	require.Contains(t, chart, `<xVal><numRef><f>Season!$B$`)
	require.NotContains(t, chart, "strCache")
	require.Equal(t, 8, strings.Count(chart, `<ptCount val="8">`), "dates, percents, noise above and below, and twice the ends of the noise by date")
	names := strings.Count(chart, `<showSerName val="1">`)
	require.Positive(t, names)
	require.Equal(t, 2+names, strings.Count(chart, `<delete val="1"></delete></legendEntry>`), "the ends of the noise and the contests' names are not in the legend")
	require.Equal(t, 2, strings.Count(chart, "<min "))
	require.Equal(t, 1, strings.Count(chart, "<max "), "the dates' axis alone has a highest value: an edit moves a percent")
	require.Contains(t, chart, "season 2026")
}

// seasonRow finds a flight that counts on the season's page.
func seasonRow(book opened, flight string) (row, head int) {
	for row := 1; row < 200; row++ {
		if book.stored("Season", "A"+strconv.Itoa(row)) == "Flights that count" {
			head = row + 1
		}
		if head > 0 && book.stored("Season", xlsx.ColumnName(book.column("Season", head, "flight"))+strconv.Itoa(row)) == flight {
			return row, head
		}
	}
	require.Fail(book.t, "no row", flight)
	return 0, 0
}

// A flight that waits for a ruling has its row and its point, which the ruling
// fills.
func TestUndecidedFlightsAreListed(t *testing.T) {
	l := load(t, checkLedger)
	raw := written(t, l, of(t, l, "checker"), asked{})
	book := open(t, raw)
	name := "2026-03-07/checker/known"
	row, head := seasonRow(book, name)
	at := func(title string) string {
		return xlsx.ColumnName(book.column("Season", head, title)) + strconv.Itoa(row)
	}
	require.Empty(t, book.stored("Season", at("percent")))
	require.Equal(t, "#N/A", book.stored("Season", at("percent in the chart")), "a gap, where a text would be drawn as zero")
	require.Contains(t, part(t, raw, "xl/worksheets/sheet1.xml"), `t="e"><f>IF(ISNUMBER(G`)

	chart := part(t, raw, "xl/charts/chart1.xml")
	points := 0
	for _, f := range l.Select(of(t, l, "checker")) {
		if f.Counts() && f.Contested() {
			points++
		}
	}
	require.Contains(t, chart, `<ptCount val="`+strconv.Itoa(points)+`">`)
	column := xlsx.ColumnName(book.column("Season", head, "percent in the chart"))
	require.Contains(t, chart, "Season!$"+column+"$"+strconv.Itoa(head+1)+":$"+column+"$"+strconv.Itoa(head+points))

	c := newCalculator(t, book)
	grade := book.rowOf("Grades", "flight", name)
	c.set("Grades", book.cell("Grades", "resolve", grade), "fill")
	c.settle("Grades", grade)
	c.settle("Flights", book.rowOf("Flights", "flight", name))
	c.settle("Season", row)
	require.Equal(t, "75", book.stored("Season", at("percent"))) // derived: 7 and 8 are left
	require.Equal(t, "75", book.stored("Season", at("percent in the chart")))
}

// A season in which every flight waits for a ruling has a chart all the same.
func TestEveryFlightUndecided(t *testing.T) {
	l := parse(t, "pilot ann\n  name \"Ann\"\n\nsequence s\n  category intermediate\n  programme known\n  1 7.4.1.1:10\n\n"+
		"contest c 2026-05-01\n  name \"Cup\"\n  ladder us\n  rules panel-mean\n  panel A B\n\nflight 2026-05-01 ann known\n  contest c\n  sequence s\n  1 HZ 7\n")
	raw := written(t, l, of(t, l, "ann"), asked{})
	chart := part(t, raw, "xl/charts/chart1.xml")
	require.Contains(t, chart, `<numCache><formatCode>0.00</formatCode><ptCount val="1"></ptCount></numCache>`)
	row, _ := seasonRow(open(t, raw), "2026-05-01/ann/known")
	require.Positive(t, row)
}

// twoCategories is a contest flown in two categories, another with a result
// printed for the whole.
const twoCategories = `pilot ann
  name "Ann"
sequence sp
  category sportsman
  programme known
  1 7.4.1.1:10
sequence im
  category intermediate
  programme known
  1 7.4.1.1:20
contest one 2026-04-01..2026-04-02
  name "One"
  ladder us
  rules panel-mean
  panel A B
contest two 2026-05-01..2026-05-02
  name "Two"
  ladder us
  rules panel-mean
  panel A B
  result ann 200 of 300 place 2 of 5
flight 2026-04-01 ann known
  contest one
  sequence sp
  1 8 7
flight 2026-04-02 ann known
  contest one
  sequence im
  1 6 7
flight 2026-05-01 ann known
  contest two
  sequence sp
  1 8 8
flight 2026-05-02 ann known
  contest two
  sequence im
  1 5 5
`

// A contest flown in two categories has a row for each; what was printed for
// the whole has one of its own.
func TestContestInTwoCategories(t *testing.T) {
	book := workbookOf(t, parse(t, twoCategories), "ann")
	head := tablesRow + 1
	at := func(title string, row int) string {
		return book.stored("Season", xlsx.ColumnName(book.column("Season", head, title))+strconv.Itoa(head+1+row))
	}
	for row, want := range [][]string{
		// contest, category, flights, sum, its percent, printed result: [derived]
		{"One", "sportsman", "1", "75", "75", ""},
		{"One", "intermediate", "1", "130", "65", ""},
		{"Two", "sportsman", "1", "80", "80", ""},
		{"Two", "intermediate", "1", "100", "50", ""},
		{"Two", "sportsman, intermediate", "2", "180", "60", "200"},
	} {
		for i, title := range []string{"contest", "category", "flights", "sum of flights", "percent of the sum", "printed result"} {
			require.Equal(t, want[i], at(title, row), "row %d, %s", row, title)
		}
	}
	require.Equal(t, "2", at("place", 4))
	for sheet, cells := range book.formulas() {
		requireSame(t, book, sheet, cells...)
	}
}

// Numbers that boxbook works out are italic on the pages of panel and faults,
// as the sheet Rules says.
func TestWorkedOutNumbersAreItalic(t *testing.T) {
	l := load(t, demoLedger)
	book := open(t, written(t, l, of(t, l, "ines"), asked{}))
	for _, sheet := range []string{"Panel", words.FaultsSheet} {
		rows, err := book.GetRows(sheet)
		require.NoError(t, err)
		numbers := 0
		for i, row := range rows {
			for k := range row {
				cell := xlsx.ColumnName(k+1) + strconv.Itoa(i+1)
				if _, err := strconv.ParseFloat(book.stored(sheet, cell), 64); err != nil {
					continue
				}
				if kind, _ := book.GetCellType(sheet, cell); kind == excelize.CellTypeInlineString {
					continue // a family's number is a name
				}
				id, err := book.GetCellStyle(sheet, cell)
				require.NoError(t, err)
				style, err := book.GetStyle(id)
				require.NoError(t, err)
				require.True(t, style.Font.Italic, "%s!%s", sheet, cell)
				numbers++
			}
		}
		require.Greater(t, numbers, 20, sheet)
	}
}

// A number that may change its sign with an edit has the format of both, and its
// mark on either.
func TestNumberFormats(t *testing.T) {
	seven := report.Int(7)
	for want, cell := range map[string]report.Cell{
		"0":                         report.Num(seven, 0),
		"0.00":                      report.Num(seven, 2),
		"+0.0;-0.0;0.0":             report.Signed(report.Int(-7), 1),
		`0.00"°";-0.00"°"`:          report.Num(seven, 2).Marked("°"),
		`+0.00"*";-0.00"*";0.00"*"`: report.Signed(seven, 2).Marked("*"),
		"0.0;0.0;0.0":               report.Signed(report.Float(-.04), 1),
		"+0.00;-0.00;0.00":          report.Signed(report.Float(-.04), 2),
		`0"*";0"*";0"*"`:            report.Num(report.Float(-.4), 0).Marked("*"),
	} {
		require.Equal(t, want, numberFormat(cell))
	}
}

// What rounds to 0 in a signed column is shown as 0, as on the page: -0 would be a fall.
func TestWhatRoundsToZeroHasNoSign(t *testing.T) {
	change := ranged(statColumn("change", words.ColumnChange, signedOne, func(r familyRow) report.Number { return r.Trend.Season }), familyChange)
	rest := statColumn("rest", words.ColumnAgainstTheRest, signedOne, func(r familyRow) report.Number { return r.VersusRest })
	row := func(change, rest float64) (r familyRow) {
		r.Trend.Season, r.Trend.Low, r.Trend.High = report.Float(change), report.Float(-12), report.Float(12)
		r.VersusRest = report.Float(rest)
		return r
	}
	for numbers, want := range map[[2]float64][2]string{
		{-.3, -.04}:  {"0;0;0", "0.0;0.0;0.0"},
		{.3, .04}:    {"0;0;0", "0.0;0.0;0.0"},
		{-.6, -.06}:  {"+0;-0;0", signedOne},
		{-7.3, -.34}: {"+0;-0;0", signedOne},
	} {
		r := row(numbers[0], numbers[1])
		require.Equal(t, want, [2]string{change.LookOf(r).Format, rest.LookOf(r).Format}, numbers)
		require.InDelta(t, numbers[0], change.Value(r).Number, 1e-12, "the cell keeps the whole number")
	}
}
