package workbook

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/internal/testkit"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
	"boxbook/season"
)

// clubSheets are the sheets of the treasurer's workbook, in their order.
var clubSheets = []string{words.TheYearSheet, words.MembersSheet, words.JournalSheet, words.ClubContests, words.PaymentsSheet, words.DutiesSheet}

// clubFile writes the treasurer's workbook of a year.
func clubFile(t testing.TB, l *season.Ledger, year int) []byte {
	t.Helper()
	book, err := answers.ClubBookOf(l, year)
	require.NoError(t, err)
	chosen := []report.Choice{{Key: "year", Value: year, Words: words.YearChosen(year)}}
	var b bytes.Buffer
	require.NoError(t, WriteClub(&b, book, Options{Head: tables.Head("test", l.AsOf, "", chosen)}))
	return b.Bytes()
}

// clubLedgers are ledgers of clubs, and a year of each.
func clubLedgers(t testing.TB) map[string]struct {
	ledger *season.Ledger
	year   int
} {
	type book = struct {
		ledger *season.Ledger
		year   int
	}
	return map[string]book{
		"demo":              {load(t, demoLedger), 2026},
		"demo, year before": {load(t, demoLedger), 2025},
		"a year":            {testkit.Book(t, testkit.YearLedger), 2026},
		"awkward":           {load(t, awkwardLedger), 2026},
		"without a flight":  {testkit.Book(t, "pilot ines\n  name \"Ines\"\ncost 2026-01-10 membership 120 EUR for ines to club\n"), 2026},
		"nothing":           {testkit.Book(t, "pilot ines\n"), 2026},
		"a budget":          {testkit.Book(t, budgetLedger), 2026},
	}
}

// Every figure of the workbook is what its formula gives, calculated by another
// hand.
func TestClubFormulasGiveTheAnswers(t *testing.T) {
	for name, c := range clubLedgers(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			book := open(t, clubFile(t, c.ledger, c.year))
			require.Equal(t, clubSheets, book.GetSheetList())
			by := newCalculator(t, book)
			for sheet, cells := range by.order {
				for _, cell := range cells {
					by.requireValue(sheet, cell, book.stored(sheet, cell))
				}
			}
		})
	}
}

// underClub reads the cells of a sheet's rows under headings of row 1, until a row
// without the first.
func underClub(book opened, sheet string, titles ...string) [][]string {
	var rows [][]string
	for row := 2; ; row++ {
		var cells []string
		for _, title := range titles {
			cells = append(cells, book.under(sheet, title, row))
		}
		if cells[0] == "" {
			return rows
		}
		rows = append(rows, cells)
	}
}

// The members' rows are the accounts of the year's answer, and after the payments
// nothing is left.
func TestMembersAreTheAccounts(t *testing.T) {
	for name, c := range clubLedgers(t) {
		book := open(t, clubFile(t, c.ledger, c.year))
		year, err := answers.YearOf(c.ledger, c.year)
		require.NoError(t, err)
		var want [][]string
		add := func(name string, accounts []answers.Account) {
			for _, a := range accounts {
				row := []string{words.PartyName(name), a.Currency}
				for _, amount := range []answers.Amount{a.Opening, a.Paid, a.Billed, a.Share, a.Settled, a.Owed, a.Closing} {
					row = append(row, fmt.Sprint(amount.Number().Float64()))
				}
				want = append(want, append(row, "0"))
			}
		}
		for _, p := range year.Pilots {
			add(p.Name, p.Accounts)
		}
		for _, p := range year.Others {
			add(p.Name, p.Accounts)
		}
		add("", year.Club.Accounts)
		if len(want) == 0 {
			require.Equal(t, words.NoRows, book.stored(words.MembersSheet, "A2"))
			continue
		}
		got := underClub(book, words.MembersSheet, words.ColumnWho, words.ColumnCurrency, words.ColumnCarriedIn, words.ColumnPaidOut, words.ColumnBilled,
			words.ColumnTheirShare, words.ColumnSettled, words.ColumnOldDebts, words.ColumnCarriedOut, words.ColumnLeft)
		require.Equal(t, want, got[:len(want)], name)
	}
}

// A date is a day with the format of one, an amount a number, and a text from the
// ledger a text, whatever it looks like.
func TestClubCellsAreTyped(t *testing.T) {
	for name, c := range clubLedgers(t) {
		book := open(t, clubFile(t, c.ledger, c.year))
		for sheet, titles := range map[string][]string{words.JournalSheet: {words.ColumnDate, words.ColumnAmount}, words.ClubContests: {words.ColumnDate, words.ColumnCosts}} {
			for _, row := range underClub(book, sheet, titles...) {
				for i, cell := range row {
					if cell == words.NoRows || cell == "" {
						continue
					}
					_, err := strconv.ParseFloat(cell, 64)
					require.NoError(t, err, "%s %s %s", name, sheet, titles[i])
				}
			}
		}
		if len(underClub(book, words.JournalSheet, words.ColumnPosting)) == 0 {
			continue
		}
		id, err := book.GetCellStyle(words.JournalSheet, book.cell(words.JournalSheet, words.ColumnDate, 2))
		require.NoError(t, err)
		style, err := book.GetStyle(id)
		require.NoError(t, err)
		require.Equal(t, "yyyy-mm-dd", *style.CustomNumFmt)
	}
	book := open(t, clubFile(t, load(t, awkwardLedger), 2026))
	texts := map[string]bool{}
	for _, sheet := range book.GetSheetList() {
		rows, err := book.GetRows(sheet, excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		for i, row := range rows {
			for k, text := range row {
				cell := xlsx.At(k+1, i+1)
				formula, err := book.GetCellFormula(sheet, cell)
				require.NoError(t, err)
				if formula == "" && text != "" {
					kind, _ := book.GetCellType(sheet, cell)
					texts[text] = texts[text] || kind == excelize.CellTypeInlineString
				}
				require.NotContains(t, formula, "HYPERLINK")
				require.NotContains(t, formula, "cmd")
			}
		}
	}
	for _, text := range []string{"=1+1", "-2", "@Ines Again", "=cmd|' /C calc'!A0", `=HYPERLINK("http://a.example")`, "=A1", "007", "1e5", "true"} {
		require.True(t, texts[text], "%s is a text", text)
	}
}

// What is converted is a formula over the cell of the rate: with another rate it is
// another amount.
func TestConvertedFiguresFollowTheRate(t *testing.T) {
	book := open(t, clubFile(t, load(t, demoLedger), 2026))
	by := newCalculator(t, book)
	var rate string
	for _, name := range book.GetDefinedName() {
		if name.Name == "Rate_CHF" {
			rate = strings.ReplaceAll(strings.TrimPrefix(name.RefersTo, "'The year'!"), "$", "")
		}
	}
	rate, _, _ = strings.Cut(rate, ":")
	require.Equal(t, "1.04", book.stored(words.TheYearSheet, rate))
	converted := map[string]string{}
	for sheet, cells := range by.order {
		for _, cell := range cells {
			if strings.Contains(by.formulas[sheet][cell], "Rate_CHF") {
				converted[sheet+"!"+cell] = book.stored(sheet, cell)
			}
		}
	}
	require.GreaterOrEqual(t, len(converted), 6)
	require.NoError(t, book.SetCellFloat(words.TheYearSheet, rate, 2, -1, 64))
	followed := 0
	for place, was := range converted {
		sheet, cell, _ := strings.Cut(place, "!")
		if by.value(sheet, cell) != was {
			followed++
		}
	}
	require.GreaterOrEqual(t, followed, 5, "Rolf's and the result's have no CHF in them")
}

// The sheets name the club and the year at the head of each printed page and its
// number of how many at the foot, on A4, with headings that stay and filters.
func TestClubPages(t *testing.T) {
	raw := clubFile(t, load(t, demoLedger), 2026)
	require.Equal(t, raw, clubFile(t, load(t, demoLedger), 2026), "the same bytes")
	for i, sheet := range clubSheets {
		text := part(t, raw, fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1))
		require.Contains(t, text, "Kestrel Aero Club&amp;B, year 2026", sheet)
		require.Contains(t, text, "Page &amp;P of &amp;N", sheet)
		require.Contains(t, text, `paperSize="9"`, sheet)
		require.Contains(t, text, `state="frozen"`, sheet)
		require.Equal(t, sheet != words.TheYearSheet, strings.Contains(text, "<autoFilter"), sheet)
	}
	require.Contains(t, part(t, clubFile(t, load(t, awkwardLedger), 2026), "xl/worksheets/sheet1.xml"), "+Kestrel &amp;&amp; Co&amp;B, year 2026")
}

// Only the year's postings are printed; the older ones stand beneath them.
func TestJournalPrintsTheYear(t *testing.T) {
	book := open(t, clubFile(t, load(t, demoLedger), 2026))
	years := underClub(book, words.JournalSheet, words.ColumnYear)
	last := 0
	for i, year := range years {
		if year[0] == "2026" {
			last = i + 2
		}
	}
	require.Less(t, last, len(years)+1, "there are older ones")
	areas := 0
	for _, name := range book.GetDefinedName() {
		if name.Name == "_xlnm.Print_Area" && name.Scope == words.JournalSheet {
			require.Regexp(t, regexp.MustCompile(`\$`+strconv.Itoa(last)+`$`), name.RefersTo)
			areas++
		}
	}
	require.Equal(t, 1, areas)
}

// textsOf are all texts of a workbook's cells.
func textsOf(t testing.TB, book opened) string {
	t.Helper()
	var b strings.Builder
	for _, sheet := range book.GetSheetList() {
		rows, err := book.GetRows(sheet)
		require.NoError(t, err)
		for _, row := range rows {
			b.WriteString(strings.Join(row, "\n") + "\n")
		}
	}
	return b.String()
}

// The treasurer's workbook names no fault, no remark of a coach and no mark; the
// coach's no money.
func TestEachWorkbookKeepsToItsReader(t *testing.T) {
	l := load(t, demoLedger)
	year, err := answers.YearOf(l, 2026)
	require.NoError(t, err)
	club, coaching, money := textsOf(t, open(t, clubFile(t, l, 2026))), 0, 0
	for _, pilot := range l.Pilots {
		s := season.Selection{Pilot: pilot, Season: 2026}
		book := answers.BookOf(l, s, nil)
		coach := textsOf(t, open(t, written(t, l, s, asked{})))
		for _, f := range book.Flights {
			for _, fault := range f.Faults {
				for _, text := range []string{fault.Kind, fault.Remark} {
					if text != "" && text != "bank" { // a pot too
						require.False(t, strings.Contains(club, "\n"+text+"\n"), text)
						require.True(t, strings.Contains(coach, text), text)
						coaching++
					}
				}
			}
		}
		for _, currency := range []string{"EUR", "CHF"} {
			require.False(t, regexp.MustCompile(`\b`+currency+`\b`).MatchString(coach), pilot.Name)
		}
		for _, kind := range append(year.Costs, year.Club.Income...) {
			if kind.Kind == "entry" { // a word of contests too
				continue
			}
			require.False(t, strings.Contains(coach, "\n"+words.KindSaid(kind.Kind)+"\n"), "%s: %s", pilot.Name, kind.Kind)
			require.True(t, strings.Contains(club, "\n"+words.KindSaid(kind.Kind)+"\n"), kind.Kind)
			money++
		}
	}
	require.Greater(t, coaching, 10)
	require.Greater(t, money, 10)
}

// A payment to the club reads as income from who paid it to the club, one for another
// says for whom, and what the club billed and has not got yet goes to who owes it; what was handed
// over in another currency stands beside it.
func TestJournalReadsAsATreasurerDoes(t *testing.T) {
	l := testkit.Book(t, `pilot ines
  name "Ines Halloran"
pilot tobias
  name "Tobias Renn"
cost 2026-01-01 membership 1 EUR for ines to club
cost 2026-01-02 membership 2 EUR for ines by tobias to club
cost 2026-01-03 membership 3 EUR for ines by club to club
cost 2026-01-04 fuel 4 EUR for ines by tobias
cost 2026-01-05 hall-hire 5 EUR for club by ines
income 2026-01-06 prize 6 EUR
settle 2026-01-07 ines club 5.20 EUR for 5 CHF
owed 2026-01-08 tobias club 8 EUR
`)
	book := open(t, clubFile(t, l, 2026))
	got := underClub(book, words.JournalSheet, words.ColumnPosting, words.ColumnFrom, words.ColumnTo, words.ColumnClubIncome, words.ColumnPaidAmount, words.ColumnMoneyIn)
	require.Equal(t, [][]string{
		{"income", "Ines Halloran", "the club", "1", "1", ""},
		{"income", "Tobias Renn", "the club, for Ines Halloran", "2", "2", ""},
		{"billed", "the club", "Ines Halloran", "3", "3", ""}, // as export money has it, and the debt below,
		{"cost", "Tobias Renn", "Ines Halloran", "", "4", ""},
		{"cost", "Ines Halloran", "the club", "", "5", ""},
		{"income", "outside", "the club", "6", "6", ""},
		{"payment", "Ines Halloran", "the club", "", "5.2", "EUR"},
		{"older debt", "the club", "Tobias Renn", "", "8", ""}, // the club gave, he had it,
	}, got)
	for row, shown := range map[int]bool{2: false, 8: true} {
		style, err := book.GetCellStyle(words.JournalSheet, paidCell(t, book, row))
		require.NoError(t, err)
		look, err := book.GetStyle(style)
		require.NoError(t, err)
		require.NotNil(t, look.CustomNumFmt)
		require.Equal(t, shown, *look.CustomNumFmt != hidden)
	}
}

// paidCell is the cell of what was handed over in a row of the journal.
func paidCell(t *testing.T, book opened, row int) string {
	t.Helper()
	titles, err := book.GetRows(words.JournalSheet)
	require.NoError(t, err)
	for i, title := range titles[0] {
		if title == words.ColumnPaidAmount {
			return xlsx.At(i+1, row)
		}
	}
	t.Fatal("no such column")
	return ""
}

// What nobody has is blank, as on the page; what comes to nothing is 0.
func TestNothingIsBlank(t *testing.T) {
	plain := amountLook(2)
	require.Equal(t, `#,##0.00;-#,##0.00`, noneIsBlank(plain, false).Format)
	require.Equal(t, `#,##0.00;-#,##0.00;""`, noneIsBlank(plain, true).Format)
	book, err := answers.ClubBookOf(load(t, demoLedger), 2026)
	require.NoError(t, err)
	c := newClub(book, Options{})
	pilots, blank := c.sharing(), map[string]string{}
	for _, a := range c.contestAmounts(pilots) {
		for _, r := range c.contestCosts() {
			if a.none(r) {
				blank[r.Contest] += " " + a.title
				require.Zero(t, a.exact(r).Sign())
			}
		}
	}
	require.Equal(t, " club, others", blank["saltmarsh-trophy"], "Ines got all of hers back: 0")
	require.Equal(t, " Yuki Lindqvist", blank["longmere-spring"])
}

// budgetLedger has income of a kind without a budget.
const budgetLedger = "budget 2026 sponsorship 250.00 EUR income\nincome 2026-03-20 sponsorship 300.00 EUR\nincome 2026-09-05 donation 40.00 EUR\n"

// What came in of all kinds stands beside the sum of the budget, with what is over it.
func TestBudgetInAllFollowsTheSum(t *testing.T) {
	book := open(t, clubFile(t, testkit.Book(t, budgetLedger), 2026))
	rows, err := book.GetRows(words.TheYearSheet, excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	at := slices.IndexFunc(rows, func(row []string) bool { return len(row) > 0 && row[0] == words.RowAll })
	require.Positive(t, at)
	assert.Equal(t, []string{words.RowAll, "EUR", "340", "250", "90"}, rows[at])
}

// What is billed and not paid stands on the first sheet, as it does on the page of
// the year.
func TestTheYearHasWhatIsNotPaid(t *testing.T) {
	l := testkit.Book(t, `pilot ines
  name "Ines Halloran"
cost 2026-01-10 membership 75.00 EUR for ines by club to club
cost 2026-02-10 hangar 30.00 EUR for ines by club to club
settle 2026-03-01 ines club 74.00 EUR
`)
	text := textsOf(t, open(t, clubFile(t, l, 2026)))
	require.Contains(t, text, words.Sentence(words.UnpaidTitle))
	require.Contains(t, text, "hangar")
}

// The row of a count says what the page says: by the ledger from the first count on, also
// after a count that was wrong. A pot that is begun later is in it.
func TestCountsAreThePage(t *testing.T) {
	wrong := "pilot ines\nin-hand 2026-01-01 bank 1000 EUR\nincome 2026-02-01 donation 158.39 EUR\nin-hand 2026-06-30 bank 1518.39 EUR\nincome 2026-07-01 donation 50 EUR\n"
	for lines, want := range map[string]string{
		"in-hand 2026-11-01 bank 1208.39 EUR\n": "[2026-01-01 1000 208.39 0 1208.39 1208.39 0]",
		"in-hand 2026-06-30 till 5 EUR\nin-hand 2026-11-01 bank 1208.39 EUR\nin-hand 2026-11-01 till 4 EUR\n": "[2026-01-01 1000 208.39 5 1213.39 1212.39 -1]",
	} {
		ledger := testkit.Book(t, wrong+lines)
		book := open(t, clubFile(t, ledger, 2026))
		by := newCalculator(t, book)
		for _, cell := range by.order[words.TheYearSheet] {
			by.requireValue(words.TheYearSheet, cell, book.stored(words.TheYearSheet, cell))
		}
		rows, err := book.GetRows(words.TheYearSheet, excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		heads := slices.IndexFunc(rows, func(row []string) bool { return slices.Contains(row, words.ColumnShouldBe) })
		day := func(text string) string {
			d, err := strconv.ParseFloat(text, 64)
			require.NoError(t, err)
			at, err := excelize.ExcelDateToTime(d, false)
			require.NoError(t, err)
			return at.Format(time.DateOnly)
		}
		shown := ""
		for _, row := range rows[heads+1:] {
			if len(row) > 9 && day(row[6]) == "2026-11-01" && row[7] != "" {
				shown = fmt.Sprint(append([]string{day(row[2])}, slices.Concat(row[3:6], row[7:10])...))
			}
		}
		assert.Equal(t, want, shown)
		year, err := answers.YearOf(ledger, 2026)
		require.NoError(t, err)
		stands := year.Club.InHand[len(year.Club.InHand)-1].Stands
		assert.Contains(t, shown, stands.Ledger.Text()+" ")
	}
}
