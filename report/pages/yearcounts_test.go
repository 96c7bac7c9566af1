package pages_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/report/answers"
	"boxbook/report/internal/testkit"
	"boxbook/report/words"
	"boxbook/season"
	"boxbook/season/ledger"
)

// A club's book in which 75.00 were given on 14 Sep, and 4.50 that the bank took stand
// nowhere.
const wellBook = `pilot ines
  name "Ines Halloran"
in-hand 2025-01-01 bank 100.00 EUR
cost 2025-01-10 printing 10.00 EUR for club receipt 1
cost 2025-02-10 tea 10.40 EUR for club receipt 2
income 2025-09-14 donation 75.00 EUR receipt 4
cost 2025-12-05 cups 23.90 EUR for club receipt 5
in-hand 2025-12-31 bank 126.20 EUR
`

func said2025(t *testing.T, pairs ...string) string {
	t.Helper()
	return strings.Join(strings.Fields(yearText(t, yearFirstPage(t, strings.NewReplacer(pairs...).Replace(wellBook), 2025))), " ")
}

// A line of another year whose year may be this one mistyped explains a count, swapped
// digits and a wrong one too; its receipt, which is not missing, says so as well, and the
// list of receipts where it is.
func TestMistypedYears(t *testing.T) {
	for _, year := range []string{"2052", "2026", "2024", "2035", "2125"} {
		text := said2025(t, "2025-09-14", year+"-09-14", "126.20", "130.70")
		assert.Contains(t, text, "The donation of 14 Sep "+year+" (book.boxbook, line 6) would explain it, if it was on 14 Sep 2025, not "+year+", as receipt 4 says too. Or a line is missing (a payment received, receipt 3): check the slips first.")
		assert.NotContains(t, text, "stands on a line", "it is said")
	}
	assert.NotContains(t, said2025(t, "2025-09-14", "2019-09-14", "126.20", "130.70"), "would explain")
	// as of the books' own numbering of the other year it is no slip
	text := said2025(t, "2025-09-14", "2026-09-14", "126.20 EUR\n", "126.20 EUR\ncost 2026-01-02 tea 1 EUR for club receipt 3\n")
	assert.NotContains(t, text, "stands on a line")
	assert.Contains(t, text, "receipts 3 and 4")
	book := testkit.Book(t, strings.ReplaceAll(wellBook, "2025-09-14", "2052-09-14"))
	d, err := answers.YearOf(book, 2025)
	require.NoError(t, err)
	assert.Contains(t, words.ReceiptsMissing(d, true), "no receipt 3; receipt 4 stands on a line of 14 Sep 2052 (book.boxbook, line 6)")
	s := statementsOf(t, book, 2025, "club")
	assert.Contains(t, words.StatementThought(s, s.Statements[0]), "Receipt 4 stands on a line of 14 Sep 2052 (book.boxbook, line 6).")
}

// The slip that is found among those of several counts is named first, whichever count it
// is of, and only the others are counted as not explained.
func TestWhatIsExplainedIsNamedFirst(t *testing.T) {
	book := `pilot ines
in-hand 2026-01-01 bank 1000.00 EUR
settle 2026-02-01 ines club 100.00 EUR
owed 2026-01-01 ines club 100.00 EUR
in-hand 2026-03-31 bank 1088.00 EUR
cost 2026-04-20 tug 40.00 EUR for club by club
in-hand 2026-06-30 bank 938.00 EUR
cost 2026-09-20 hall-hire 231.00 EUR for club by club
in-hand 2026-09-30 bank 725.00 EUR
cost 2026-11-10 trophy 25.00 EUR for club by club
in-hand 2026-11-20 bank 693.00 EUR
`
	year, _, cash := countedPages(t, book, 2026)
	hall := ": the hall hire of 20 Sep (book.boxbook, line 8) would explain it, if two digits are swapped, 231.00 for 213.00. "
	assert.Contains(t, year, "18.00 EUR more in the bank on 30 Sep (beside the 122.00 less of 30 Jun)"+hall+"12.00 EUR less in the bank on 31 Mar is not explained yet. Nor is that of 1 other count. Or a line is missing")
	assert.Contains(t, cash, "18.00 EUR more in the bank on 2026-09-30 (beside the 122.00 less of 2026-06-30)"+hall+"12.00 EUR less in the bank on 2026-03-31 is not explained yet. Nor is that of 1 other count.")

	// of one that is not explained beside two that are, the amount; of three that are, where
	lines := func(day string) string { return "cost 2026-" + day + "-20 hall-hire 231.00 EUR for club by club\n" }
	book = "pilot ines\nin-hand 2026-01-01 bank 1000.00 EUR\n" + lines("01") + "in-hand 2026-01-31 bank 787.00 EUR\n" + lines("02") + "in-hand 2026-02-28 bank 574.00 EUR\nin-hand 2026-03-31 bank 567.00 EUR\n"
	end := lines("04") + "in-hand 2026-04-30 bank 354.00 EUR\n"
	year, _, _ = countedPages(t, book+"in-hand 2026-05-31 bank 560.00 EUR\n", 2026)
	assert.Contains(t, year, "213.00. 7.00 EUR less in the bank on 31 Mar (beside the 36.00 more of 28 Feb) is not explained yet. Or")
	year, _, cash = countedPages(t, book+end+"in-hand 2026-05-31 bank 350.00 EUR\n", 2026)
	assert.Contains(t, year, "213.00. Lines would explain 1 other count as well; `boxbook statement club 2026` names them. 7.00 EUR less in the bank on 31 Mar (beside the 36.00 more of 28 Feb) is not explained yet. Or")
	assert.Contains(t, cash, "Lines would explain 1 other count as well; the notes below name them.")
	book = strings.Replace(book, "2026-03-31 bank 567.00", "2026-03-20 bank 570.00 EUR\nin-hand 2026-03-31 bank 567.00", 1)
	year, _, _ = countedPages(t, book+end+"in-hand 2026-05-31 bank 350.00 EUR\n", 2026)
	assert.Contains(t, year, "names them. What 2 other counts found is not explained yet. Or")
}

// countedPages are a year, the statements of its members and the cash book in one line each.
func countedPages(t *testing.T, book string, year int) (page, members, cash string) {
	t.Helper()
	page = strings.Join(strings.Fields(yearText(t, yearFirstPage(t, book, year))), " ")
	s := statementsOf(t, testkit.Book(t, book), year, "club")
	cash = words.StatementThought(s, s.Statements[0])
	s = statementsOf(t, testkit.Book(t, book), year)
	var said []string
	for _, one := range s.Statements {
		said = append(said, words.StatementThought(s, one))
	}
	return page, strings.Join(said, " "), cash
}

// A line in the wrong year explains the count before its own day as well as those behind,
// and is named in place of that count; the agreed result and a missing receipt speak for it.
func TestALineOfTheWrongYear(t *testing.T) {
	book := `pilot ines
in-hand 2025-01-01 bank 700 EUR
income 2025-03-01 gift 300 EUR
agreed 2025 300.00 EUR
cost 2025-08-20 insurance 172.00 EUR for club by club receipt 2
cost 2026-02-20 hall-hire 100.00 EUR for club by club receipt 1
in-hand 2026-06-30 bank 900 EUR
in-hand 2026-09-30 bank 728 EUR
in-hand 2026-11-20 bank 728 EUR
`
	year, _, cash := countedPages(t, book, 2026)
	line := "the insurance of 20 Aug 2025 (book.boxbook, line 5) would explain it, if it was on 20 Aug 2026, not 2025"
	assert.Contains(t, year, "172.00 EUR more in the bank on 30 Jun: "+line+", as the agreed result of 2025 says too. The bank agrees: 728.00 EUR on 20 Nov.")
	assert.Contains(t, cash, "172.00 EUR more in the bank on 2026-06-30: "+line+", as the agreed result of 2025 says too. ")
	assert.NotContains(t, year+cash, "likelier the slip")
	assert.NotContains(t, year+cash, "is missing")
	year, _, _ = countedPages(t, strings.Replace(book, "receipt 1", "receipt 1\ncost 2026-08-20 cups 5.00 EUR for club receipt 3\nincome 2026-08-20 gift 5.00 EUR", 1), 2026)
	assert.Contains(t, year, ", as receipt 2 and the agreed result of 2025 say too.")
	assert.NotContains(t, year, "stands on a line")

	year, _, _ = countedPages(t, strings.Replace(book, "agreed 2025 300.00 EUR\n", "\n", 1), 2026)
	assert.Contains(t, year, line+". ")
	_, _, cash = countedPages(t, strings.Replace(book, "agreed 2025 300", "agreed 2025 128", 1), 2026)
	assert.Contains(t, said(t, strings.Replace(book, "agreed 2025 300", "agreed 2025 128", 1)), "likelier the slip", "the line is as it was agreed")
	assert.NotContains(t, cash, "20 Aug 2026")

	// a count of the year before is off by it already
	book = strings.Replace(book, "in-hand 2026-06-30", "in-hand 2025-12-31 bank 1000 EUR\nin-hand 2026-06-30", 1)
	year, _, _ = countedPages(t, book, 2026)
	assert.Contains(t, year, "172.00 EUR less in the bank on 30 Sep (beside the 172.00 more of 30 Jun): "+line+", as the agreed result of 2025 says too. The bank agrees")
	year, _, cash = countedPages(t, strings.Replace(book, "in-hand 2026-11-20 bank 728 EUR\n", "", 1), 2026)
	assert.Contains(t, year, "The bank agrees: 728.00 EUR on 30 Sep. The 172.00 less since 30 Jun: "+line)
	assert.Contains(t, cash, "which agrees with the book. The 172.00 less since 30 Jun: "+line)
	year, _, _ = countedPages(t, book, 2025)
	assert.Contains(t, year, "172.00 more than the ledger's 828.00. The insurance of 20 Aug (book.boxbook, line 5) would explain it, if it was on 20 Aug 2026, not 2025, as the agreed result of 2025 says too.")
	assert.NotContains(t, year, "is missing")
}

// said lists what the cash book of 2026 says below of its counts.
func said(t *testing.T, book string) string {
	t.Helper()
	s := statementsOf(t, testkit.Book(t, book), 2026, "club")
	return strings.Join(words.CashExplained(s, s.Statements[0]), " ")
}

// A payment in whose currency nothing was owed, but in the count's, explains the count; who
// is asked for that money is told of it. One whose own currency was counted and agrees is as
// it says.
func TestAPaymentInTheWrongCurrency(t *testing.T) {
	book := `pilot finn
in-hand 2026-01-01 bank 1000.00 EUR
cost 2026-01-10 membership 120.00 EUR for finn by club to club
settle 2026-10-12 finn club 120.00 CHF "fee"
in-hand 2026-11-20 bank 1120.00 EUR
`
	line := "The payment from finn of 12 Oct (book.boxbook, line 4), noted in CHF, would explain it, if it was in EUR."
	caution := "As of 2026-11-25: please pay the club 120.00 EUR; the club owes you 120.00 CHF. A payment of 120.00 CHF on 2026-10-12 may have been in EUR; the club looks into it."
	year, finn, cash := countedPages(t, book, 2026)
	assert.Contains(t, year, line)
	assert.Contains(t, cash, line)
	assert.Contains(t, finn, caution)

	year, finn, _ = countedPages(t, strings.Replace(book, "\nsettle", "\nin-hand 2026-01-01 purse 0.00 CHF\nin-hand 2026-11-01 purse 120.00 CHF\nsettle", 1), 2026)
	assert.Contains(t, year, "Finn's open 120.00 may have been paid and not typed. Or a line")
	assert.NotContains(t, year, "noted in CHF")
	assert.NotContains(t, finn, "may have been", "that it is in CHF was counted")
	year, finn, _ = countedPages(t, book+"cost 2026-01-11 tug 120.00 CHF for finn by club\n", 2026)
	assert.NotContains(t, year, "noted in CHF", "it was owed in CHF")
	assert.NotContains(t, finn, "may have been")
	_, finn, _ = countedPages(t, book+"settle 2026-11-12 finn club 120.00 EUR\n", 2026)
	assert.NotContains(t, finn, "may have been", "nothing is asked for")
	_, finn, _ = countedPages(t, book+"cost 2026-10-13 tug 120.00 CHF for finn by club\n", 2026)
	assert.NotContains(t, finn, "may have been", "it was paid ahead")
	_, finn, _ = countedPages(t, strings.ReplaceAll(book, "finn by club to club", "finn by gita")+"person gita\n", 2026)
	assert.NotContains(t, finn, "may have been", "it was owed to another")
	_, finn, _ = countedPages(t, strings.NewReplacer("finn by club to club", "finn by gita", "finn club", "finn gita", "pilot", "person gita\npilot").Replace(book), 2026)
	assert.Contains(t, finn, "A payment of 120.00 CHF to gita on 2026-10-12 may have been in EUR; ask before paying.")
	assert.Contains(t, finn, "A payment of 120.00 CHF from finn on 2026-10-12 may have been in EUR; ask before paying.")

	// with another slip the payment explains a count too
	year, _, _ = countedPages(t, strings.Replace(book, "1120.00 EUR", "1113.00 EUR", 1)+"cost 2026-11-02 tea 12.50 EUR for club\ncost 2026-11-03 tea 7.00 EUR for club\n", 2026)
	assert.Contains(t, year, "The payment from finn of 12 Oct (book.boxbook, line 4), noted in CHF, would explain 120.00 of it, if it was in EUR, and the")
}

// Where lines are named, and where none is, a line may be missing.
func TestALineMayBeMissing(t *testing.T) {
	assert.Contains(t, said2025(t), "The donation of 14 Sep (book.boxbook, line 6) would explain it, if two digits are swapped, 75.00 for 70.50. Or a line is missing (a bank charge, receipt 3): check the slips first.")
	assert.Contains(t, said2025(t, "126.20", "126.30"), "No line of that amount explains it. A line may be missing (a bank charge, receipt 3): check the slips first.")
	assert.Contains(t, said2025(t, "receipt 4", "", "receipt 5", "", "126.20", "126.30"), "(a bank charge, a slip not typed)")
	assert.NotContains(t, said2025(t, "126.20", "130.70"), "may be missing", "it agrees")
}

// What is new since a count before is said with its direction.
func TestNewSinceACount(t *testing.T) {
	text := said2025(t, "income 2025", "in-hand 2025-06-30 bank 88.60 EUR\nincome 2025", "126.20", "135.20")
	assert.Contains(t, text, "had 135.20 EUR, 4.50 more than the ledger's 130.70, after 9.00 more on 30 Jun: 4.50 less since then. The 4.50 less since 30 Jun: the donation of 14 Sep (book.boxbook, line 7) would explain it")
}

// A line that stands twice explains a count with another one.
func TestTwoLinesExplainACount(t *testing.T) {
	twice := "settle 2025-03-01 ines club 30 EUR\nsettle 2025-03-03 ines club 30 EUR\nincome 2025"
	text := said2025(t, "income 2025", twice, "126.20", "156.20")
	assert.Contains(t, text, "The payment from Ines Halloran of 3 Mar (book.boxbook, line 7) may be in the ledger twice, 30.00, and the donation of 14 Sep (book.boxbook, line 8) would explain the rest, if two digits are swapped, 75.00 for 70.50.")
	assert.NotContains(t, said2025(t, "income 2025", twice, "126.20", "155.97"), "in the ledger twice")
}

// Two lines together are named with how many pairs were tried and how often chance alone
// makes one fit; several pairs are in the cash book, and more than three are no clue.
func TestPairsExplainACount(t *testing.T) {
	cups := "cost 2025-12-05 cups 23.90"
	twice := "cost 2025-11-03 repair 74.50 EUR for club\ncost 2025-11-05 repair 74.50 EUR for club\ncost 2025-11-09 rent 50.00 EUR for club\n" + cups
	book := strings.NewReplacer(cups, twice, "126.20", "56.20").Replace(wellBook)
	text := said2025(t, cups, twice, "126.20", "56.20")
	assert.Contains(t, text, "On 31 Dec the bank had 124.50 EUR more than the ledger says (56.20, not overdrawn by 68.30).")
	pair := "The repair of 5 Nov (book.boxbook, line 8) may be in the ledger twice, 74.50, and the rent of 9 Nov (book.boxbook, line 9) may never have left the bank, 50.00."
	assert.Contains(t, text, pair+" Of 15 pairs tried, chance alone makes one fit about one in 83 of the differences this near.")
	assert.Contains(t, text, "Or a line is missing (a payment received, receipt 3)")
	s := statementsOf(t, testkit.Book(t, book), 2025, "club")
	assert.Contains(t, words.StatementThought(s, s.Statements[0]), pair)
	assert.Equal(t, []string{"bank of 31 Dec, 124.50 EUR: the" + strings.TrimSuffix(pair[3:], ".")}, words.CashExplained(s, s.Statements[0]))

	var lines strings.Builder
	for i, amount := range []string{"1.00", "21.00", "2.00", "20.00", "3.00", "19.00", "4.00", "18.00"} {
		fmt.Fprintf(&lines, "cost 2025-11-%02d repair %s EUR for club\n", i+1, amount)
		switch i {
		case 5:
			book = strings.NewReplacer(cups, lines.String()+cups, "126.20", "86.70").Replace(wellBook)
			text = said2025(t, cups, lines.String()+cups, "126.20", "86.70")
			assert.Contains(t, text, "22.00 more than the ledger's 64.70. Any one of 3 pairs of slips would together explain it; `boxbook statement club 2025` names them. A weak clue: of ")
			s = statementsOf(t, testkit.Book(t, book), 2025, "club")
			said := words.CashExplained(s, s.Statements[0])
			require.Len(t, said, 1)
			assert.Contains(t, said[0], "the repair of 1 Nov (book.boxbook, line 7) may never have left the bank, 1.00, and the repair of 2 Nov (book.boxbook, line 8) may never have left the bank, 21.00; or the repair of 3 Nov")
		case 7:
			text = said2025(t, cups, lines.String()+cups, "126.20", "64.70")
			assert.Contains(t, text, "22.00 more than the ledger's 42.70. No line of that amount explains it; more than three pairs of slips would together, which is no clue. A line may be missing (")
		}
	}
}

// What a year left unexplained the next one says, until a count of it is compared.
func TestCountsOffBefore(t *testing.T) {
	const want = "The last count, of 31 Dec 2025, was 4.50 EUR less than the ledger says; `boxbook year 2025` says what may explain it."
	for _, more := range []string{"", "income 2026-02-01 donation 5 EUR\n"} {
		book := testkit.Book(t, wellBook+more)
		d, err := answers.YearOf(book, 2026)
		require.NoError(t, err)
		assert.Contains(t, words.YearThought(d), want)
		s := statementsOf(t, book, 2026, "club")
		assert.Contains(t, words.StatementThought(s, s.Statements[0]), want)
	}
	d, err := answers.YearOf(testkit.Book(t, wellBook+"in-hand 2026-03-01 bank 126.20 EUR\n"), 2026)
	require.NoError(t, err)
	assert.NotContains(t, words.YearThought(d), "The last count")
	d, err = answers.YearOf(testkit.Book(t, strings.ReplaceAll(wellBook, "126.20", "130.70")), 2026)
	require.NoError(t, err)
	assert.NotContains(t, words.YearThought(d), "The last count")
}

// In the cash book many lines are named below, by no command that shows it again.
func TestCashBookNamesItsOwnLines(t *testing.T) {
	s := statementsOf(t, testkit.Book(t, strings.NewReplacer("income 2025", "settle 2025-03-01 ines club 30 EUR\nincome 2025-04-01 prize 30 EUR\nincome 2025-05-01 raffle 30 EUR receipt 3\nincome 2025", "126.20", "190.70").Replace(wellBook)), 2025, "club")
	text := words.StatementThought(s, s.Statements[0])
	assert.Contains(t, text, "Any one of 3 lines of that amount would explain it; the notes below name them.")
	assert.NotContains(t, text, "boxbook statement")
}

// Warnings about a year's money stand on its pages, a line that may be typed twice first.
func TestWarningsOfAYear(t *testing.T) {
	twice := strings.ReplaceAll(wellBook, "income 2025", "settle 2025-03-01 ines club 30 EUR\nsettle 2025-03-03 ines club 30 EUR\nincome 2025")
	today, _ := season.DateOf(2026, 11, 25)
	result, err := ledger.Load(ledger.Options{Files: ledger.Memory{"book.boxbook": twice}, Main: "book.boxbook", Builtin: data.Builtin(), AsOf: today})
	require.NoError(t, err)
	for year, want := range map[int]string{
		2025: "2 warnings about the ledger: `boxbook check`; line 7 may be typed twice, 30.00; also of the money of 2025: line 6.",
		2026: "2 warnings about the ledger: `boxbook check`.", // a count was off
		2024: "",
	} {
		d, err := answers.YearOf(result.Ledger, year)
		require.NoError(t, err)
		d.Warned = answers.WarnedOf(result.Ledger, year, result.Diagnostics)
		if want == "" {
			assert.NotContains(t, words.YearThought(d), "warning")
			continue
		}
		assert.Contains(t, words.YearThought(d), want)
	}
}

// A budget that has a warning is named on the page of its year alone.
func TestWarningsOfABudget(t *testing.T) {
	today, _ := season.DateOf(2026, 11, 25)
	text := "pilot ines\ncost 2026-01-10 membership 120.00 EUR for ines by club to club\nsettle 2026-01-11 ines club 120.00 EUR\n" +
		"income 2025-03-01 raffle 20.00 EUR\nbudget 2026 membership 240.00 EUR\nbudget 2026 raffle 20.00 EUR income\n"
	result, err := ledger.Load(ledger.Options{Files: ledger.Memory{"book.boxbook": text}, Main: "book.boxbook", Builtin: data.Builtin(), AsOf: today})
	require.NoError(t, err)
	for year, want := range map[int]bool{2025: false, 2026: true} {
		d, err := answers.YearOf(result.Ledger, year)
		require.NoError(t, err)
		d.Warned = answers.WarnedOf(result.Ledger, year, result.Diagnostics)
		assert.Equal(t, want, strings.Contains(words.YearThought(d), "1 warning about the ledger: `boxbook check`; of the budget of 2026: line 5."), words.YearThought(d))
		assert.Equal(t, want, strings.Contains(words.YearThought(d), "warning"))
	}
}

// What is dated later than today is named where it is little.
func TestLaterLinesAreNamed(t *testing.T) {
	later := func(lines string) string {
		d, err := answers.YearOf(testkit.Book(t, wellBook+lines), 2026)
		require.NoError(t, err)
		return words.LaterMoney(d)
	}
	assert.Equal(t, "1 entry dated after 2026-11-25 is not counted: payment from Ines Halloran, 5.00 EUR, of 2052-02-01 (book.boxbook, line 9)", later("settle 2052-02-01 ines club 5 EUR\n"))
	assert.Equal(t, "2 entries dated after 2026-11-25 are not counted: older debt of the club, 5.00 EUR, of 2027-02-01 (book.boxbook, line 9); count of the bank, 7.00 EUR, of 2027-01-01 (book.boxbook, line 10)",
		later("owed 2027-02-01 club ines 5 EUR\nin-hand 2027-01-01 bank 7 EUR\n"))
	assert.Equal(t, "3 entries dated after 2026-11-25 are not counted", later("income 2027-02-01 tea 5 EUR\nincome 2027-02-02 tea 5 EUR\nincome 2027-02-03 tea 5 EUR\n"))
}

// The days of what is owed have one form, in a year that is not the calendar's too.
func TestDaysOfWhatIsOwed(t *testing.T) {
	text := yearText(t, yearPage(t, "year-start 10-01\npilot ines\ncost 2025-11-20 dues 20 EUR for ines by club to club\ncost 2026-01-15 entry 30 EUR for ines by club to club\n", 2025))
	assert.Regexp(t, `dues +ines +20\.00 +EUR +20 Nov 2025\n`, text)
	assert.Regexp(t, `entry +ines +30\.00 +EUR +15 Jan 2026\n`, text)
}

// A pair of lines of an earlier count has how often chance alone makes one fit as well.
func TestPairsOfAnEarlierCount(t *testing.T) {
	l := testkit.Book(t, twoPilots+"in-hand 2026-01-01 bank 1000 EUR\ncost 2026-03-01 repair 54.13 EUR for club\ncost 2026-04-01 rent 7.40 EUR for club\nin-hand 2026-06-30 bank 1000 EUR\nin-hand 2026-09-30 bank 1003 EUR\n")
	d, err := answers.YearOf(l, 2026)
	require.NoError(t, err)
	s := statementsOf(t, l, 2026, "club")
	const said = "may never have left the bank, 7.40. Of 12 pairs tried, chance alone makes one fit less than one in 1000 of the differences this near."
	assert.Contains(t, words.YearThought(d), said)
	assert.Contains(t, words.StatementThought(s, s.Statements[0]), said)
}

// Money on its way at the end of a year is no slip of the count, though a later count
// agrees: the line of exactly that amount is named.
func TestMoneyOnItsWay(t *testing.T) {
	book := wellBook + "cost 2026-01-03 bank-charge 12.00 EUR for club receipt 6\nin-hand 2026-03-31 bank 118.70 EUR\n"
	text := strings.Join(strings.Fields(yearText(t, yearFirstPage(t, strings.Replace(book, "126.20", "118.70", 1), 2025))), " ")
	assert.Contains(t, text, "The bank charge of 3 Jan 2026 (book.boxbook, line 9) would explain it, if it had left the bank by 31 Dec.")
	assert.NotContains(t, text, "likelier the slip")
	text = strings.Join(strings.Fields(yearText(t, yearFirstPage(t, strings.Replace(book, "126.20", "117.70", 1), 2025))), " ")
	assert.Contains(t, text, "likelier the slip", "no line of that amount")
}

// A receipt's number near those of its own year goes with them.
func TestReceiptsOfTheirOwnYear(t *testing.T) {
	book := "pilot ines\n  name \"Ines Halloran\"\n"
	for n := range 10 {
		book += fmt.Sprintf("cost 2024-0%d-10 tea %d.00 EUR for club receipt %d\n", 1+n%9, 3+n, 1+n)
		book += fmt.Sprintf("cost 2025-0%d-10 tea %d.50 EUR for club receipt %d\n", 1+n%9, 3+n, 1+n)
	}
	book += "cost 2024-11-11 cups 20.00 EUR for club receipt 12\ncost 2025-11-11 cups 21.00 EUR for club receipt 11\ncost 2025-12-11 cups 22.00 EUR for club receipt 13\n"
	text := strings.Join(strings.Fields(yearText(t, yearFirstPage(t, book, 2025))), " ")
	assert.Contains(t, text, "No receipt 12.")
}

// A number that no line has, beside the one line between its neighbours that has no
// number, may be that line's; with two such lines nothing is said of either.
func TestReceiptOfALineWithoutOne(t *testing.T) {
	book := "pilot ines\n  name \"Ines Halloran\"\n"
	for n, receipt := range []string{"receipt 25", "", "receipt 27", "receipt 28"} {
		book += fmt.Sprintf("cost 2025-06-%d hall-hire %d.00 EUR for club %s\n", 10+n, 40+n, receipt)
	}
	text := strings.Join(strings.Fields(yearText(t, yearFirstPage(t, book, 2025))), " ")
	assert.Contains(t, text, "Receipt 26 may be that of hall hire of 11 Jun (book.boxbook, line 4), which has none.")
	assert.NotContains(t, text, "No receipt 26")
	text = strings.Join(strings.Fields(yearText(t, yearFirstPage(t, book+"cost 2025-06-12 tea 3.00 EUR for club\n", 2025))), " ")
	assert.Contains(t, text, "No receipt 26.")
}
