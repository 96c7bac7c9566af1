package pages_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What explains a count is named beside others that do as well, on the year's page and in
// the cash book: the other way round, of another year, of the opening, with its point
// elsewhere, in the ledger twice, and as the content of another pot.
func TestWhichLineExplains(t *testing.T) {
	const people = "pilot ines\npilot tobias\n"
	for _, c := range []struct{ name, lines, want string }{
		{
			"content of another pot",
			"in-hand 2025-12-31 bank 1000.00 EUR\nincome 2026-03-01 gift 120.00 EUR\ncost 2026-04-01 hangar 90.00 EUR for club\nin-hand 2026-11-20 bank 430.00 EUR\nin-hand 2026-11-20 savings 600.00 EUR\n",
			"The 600.00 first counted in the savings (book.boxbook, line 7) would explain it, if moved there from the other pots: then add `in-hand 2025-12-31 savings 0.00 EUR`.",
		},
		{
			"as that line has it",
			"in-hand 2025-12-31 bank 1000.00 EUR\nin-hand 2025-12-31 savings 0.00 EUR\nin-hand 2026-11-20 bank 400.00 EUR\nin-hand 2026-11-20 savings 600.00 EUR\nincome 2026-03-01 gift 120.00 EUR\ncost 2026-04-01 hangar 120.00 EUR for club\n",
			"1,000.00 EUR should be in hand. On 2026-11-20 there was 400.00 EUR in the bank and 600.00 EUR in the savings, which together agree with the book.",
		},
		{
			"a payment turned round",
			"in-hand 2025-12-31 bank 1000.00 EUR\ncost 2026-01-15 membership 137.40 EUR each for ines tobias by club to club\nsettle 2026-02-01 ines club 137.40 EUR\nsettle 2026-03-01 club tobias 137.40 EUR\nin-hand 2026-11-20 bank 1274.80 EUR\n",
			"The payment to tobias of 1 Mar (book.boxbook, line 6) would explain it, if it was from tobias.",
		},
		{
			"a payment still to come",
			"in-hand 2025-12-31 bank 1000.00 EUR\ncost 2026-04-11 entry 95.00 EUR for ines by club receipt 5\nsettle 2027-05-13 ines club 95.00 EUR\nin-hand 2026-11-20 bank 1000.00 EUR\n",
			"The payment from ines of 13 May 2027 (book.boxbook, line 5) would explain it, if it was on 13 May 2026, not 2027, or the entry of 11 Apr (book.boxbook, line 4) may never have left the bank.",
		},
		{
			"the opening",
			"in-hand 2025-12-31 bank 1302.00 EUR\ncost 2026-01-15 hangar 137.40 EUR for club receipt 1\nincome 2026-03-01 gift 411.00 EUR\nin-hand 2026-11-20 bank 1305.60 EUR\n",
			"The first count of the bank of 31 Dec 2025 (book.boxbook, line 3) would explain it, if two digits are swapped, 1,302.00 for 1,032.00, or the gift of 1 Mar (book.boxbook, line 5) would explain it, if two digits are swapped, 411.00 for 141.00.",
		},
		{
			"its point elsewhere",
			"in-hand 2025-12-31 bank 1000.00 EUR\ncost 2026-01-15 hangar 37.00 EUR for club receipt 1\nincome 2026-03-01 gift 412.00 EUR\nin-hand 2026-11-20 bank 1042.00 EUR\n",
			"The hangar of 15 Jan (book.boxbook, line 4) would explain it, if its decimal point is elsewhere, 37.00 for 370.00. Of 2 lines tried, chance alone makes one fit",
		},
		{
			"a cost that was income",
			"in-hand 2025-12-31 bank 1000.00 EUR\ncost 2026-01-15 gift 37.00 EUR for club\nincome 2026-03-01 gift 412.00 EUR\nincome 2026-03-02 gift 60.00 EUR\nin-hand 2026-11-20 bank 1509.00 EUR\n",
			"The gift of 15 Jan (book.boxbook, line 4) would explain it, if it came in (an income, or a refund with its minus). Or a line",
		},
		{
			"many, and one of the year before",
			"in-hand 2025-12-31 bank 1000.00 EUR\ncost 2025-03-09 cups 5.00 EUR for club\nincome 2026-04-19 prize 5 EUR\nsettle 2026-04-20 ines club 5 EUR \"x\"\nincome 2026-04-21 tea 5 EUR\nin-hand 2026-11-20 bank 1010.00 EUR\n",
			"Any one of 3 lines of that amount would explain it, if it never moved, or the cups of 9 Mar 2025 (book.boxbook, line 4) would explain it, if it was on 9 Mar 2026, not 2025; ",
		},
		{
			"a debt that may have been paid without a line",
			"in-hand 2025-12-31 bank 1000.00 EUR\ncost 2026-03-01 membership 100.00 EUR for ines by club to club\ncost 2026-03-02 towing 37.50 EUR for tobias by club\nsettle 2026-03-05 ines club 100.00 EUR\nin-hand 2026-11-20 bank 1100.00 EUR\n",
			"Tobias's open 37.50 may have been paid and not typed, or the towing of 2 Mar (book.boxbook, line 5) may never have left the bank. Or a line",
		},
		{
			"one debt of several",
			"in-hand 2025-12-31 bank 1000.00 EUR\ncost 2026-03-01 membership 100.00 EUR for tobias by club to club\ncost 2026-03-02 dues 37.50 EUR for tobias by club to club\nin-hand 2026-11-20 bank 1037.50 EUR\n",
			"Tobias's dues of 2 Mar, 37.50, may have been paid and not typed. Or a line",
		},
		{
			"one of many debts",
			"pilot ada\nin-hand 2025-12-31 bank 1000.00 EUR\ncost 2026-03-01 membership 100.00 EUR each for ines tobias ada by club to club\nin-hand 2026-11-20 bank 1100.00 EUR\n",
			"ne of the three open debts of 100.00 to the club, the first ines's, may have been paid and not typed. Or a line",
		},
		{
			"a bill of the club that it may have paid itself",
			"in-hand 2025-12-31 bank 1000.00 EUR\ncost 2026-03-01 hall-hire 81.61 EUR for club by tobias\nin-hand 2026-11-20 bank 918.39 EUR\n",
			"The 81.61 that the club owes tobias may have been paid out and not typed, or the hall hire of 1 Mar (book.boxbook, line 4) would explain it, if the club paid it, and not tobias. Or a line",
		},
		{
			"the same amount either way",
			"pilot ada\nin-hand 2025-12-31 bank 1000.00 EUR\ncost 2026-03-01 entry 105.00 EUR each for ines tobias by club\ncost 2026-03-02 entry 105.00 EUR for ada by club\ncost 2026-03-02 entry 105.00 EUR for tobias by club\nsettle 2026-06-11 ines club 105.00 EUR\nsettle 2026-06-12 ada club 105.00 EUR\nin-hand 2026-11-20 bank 685.00 EUR\n",
			"may never have reached the bank, or the payment from ada of 12 Jun (book.boxbook, line 9) may never have reached the bank, or the entry of 2 Mar (book.boxbook, line 6) may have left the bank twice, or a second one is not typed, or the entry",
		},
		{
			"in the ledger twice",
			"in-hand 2025-12-31 bank 1000.00 EUR\ncost 2026-04-11 coaching 300.00 EUR for club receipt 5\ncost 2026-04-13 coaching 300.00 EUR for club\nin-hand 2026-11-20 bank 700.00 EUR\n",
			"The coaching of 13 Apr (book.boxbook, line 5) may be in the ledger twice. Or a line",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			year, _, cash := countedPages(t, people+c.lines, 2026)
			assert.Contains(t, cash, c.want)
			if c.name != "as that line has it" {
				assert.Contains(t, year, c.want)
			}
		})
	}
}

// What was counted in another currency than before is doubted before any figure, and is no
// money that agrees: the cash book says how much of it there is in what should be in hand.
func TestACountInAnotherCurrencyAgreesWithNothing(t *testing.T) {
	book := "pilot ines\nin-hand 2025-12-31 bank 1000.00 EUR\nin-hand 2025-12-31 francs 500.00 CHF\ncost 2026-04-01 fuel 55.20 EUR for club\n" +
		"in-hand 2026-11-20 bank 600.00 CHF\nin-hand 2026-11-20 francs 500.00 CHF\n"
	year, _, cash := countedPages(t, book, 2026)
	assert.Contains(t, year, "The bank had EUR on 31 Dec 2025, and CHF on 20 Nov: one of both may be mistyped. On 20 Nov there was 500.00 CHF in the francs and 600.00 CHF in the bank: what is in the bank taken as new money, which nothing checks; the rest agrees.")
	assert.NotContains(t, year, "as the ledger says")
	assert.Contains(t, cash, "The bank had EUR on 2025-12-31, and CHF on 2026-11-20: one of both may be mistyped. On 2026-11-20 there was 500.00 CHF in the francs and 600.00 CHF in the bank, what is in the bank taken as new money, which nothing checks; the rest agrees.")
	assert.Contains(t, cash, "1,100.00 CHF and 944.80 EUR should be in hand, with the 600.00 CHF of the bank in it.")
	assert.NotContains(t, cash, "agree with the book")
	year, _, cash = countedPages(t, book+"in-hand 2026-11-22 bank 600.00 CHF\nin-hand 2026-11-22 francs 500.00 CHF\n", 2026)
	assert.Contains(t, year, "500.00 CHF in the francs and 600.00 CHF in the bank: together as the ledger says.", "counted so twice")
	assert.NotContains(t, cash, "in it.")
	year, _, _ = countedPages(t, "pilot ines\nin-hand 2025-12-31 bank 1000.00 EUR\nin-hand 2026-10-20 bank 600.00 CHF\nincome 2026-11-01 gift 5.00 CHF\n", 2026)
	assert.Contains(t, year, "by the ledger 605.00 CHF on 25 Nov, with the 600.00 CHF of the bank in it.")
}

// A bill that is missing by its receipt comes before two slips of right lines; where more
// was found it does not.
func TestAMissingReceiptBeforeTwoSlips(t *testing.T) {
	book := "pilot ines\nin-hand 2025-12-31 bank 1000.00 EUR\nincome 2026-03-20 gift 40.00 EUR receipt 1\ncost 2026-03-01 fuel 35.00 EUR for club receipt 2\n" +
		"income 2026-04-01 prize 12.50 EUR receipt 5\ncost 2026-05-01 cups 61.20 EUR for club receipt 4\n"
	year, _, cash := countedPages(t, book+"in-hand 2026-11-20 bank 903.80 EUR\n", 2026)
	for _, said := range []string{year, cash} {
		assert.Contains(t, said, "A line may be missing (receipt 3): check the slips first. Or the gift of 20 Mar (book.boxbook, line 3) may never have reached the bank, 40.00, and the prize")
		assert.NotContains(t, said, "Or a line is missing")
	}
	assert.NotContains(t, year, "no receipt")
	year, _, _ = countedPages(t, book+"in-hand 2026-11-20 bank 1052.50 EUR\n", 2026)
	assert.Contains(t, year, "96.20 more than the ledger's 956.30. The fuel of 1 Mar (book.boxbook, line 4) may never have left the bank, 35.00, and the cups")
	assert.Contains(t, year, "Or a line is missing (a payment received, receipt 3): check the slips first.")
}
