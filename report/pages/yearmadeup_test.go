package pages_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A count that was off and that a later one makes up for is said in one line, with the later
// one; where there are many, how many more.
func TestMadeUpForIsSaid(t *testing.T) {
	book := `pilot ines
in-hand 2026-01-01 bank 1000.00 EUR
in-hand 2026-03-31 bank 988.00 EUR
in-hand 2026-06-30 bank 1000.00 EUR
`
	const first = "12.00 EUR less in the bank on 31 Mar is made up for by the count of 30 Jun, which agrees."
	year, _, _ := countedPages(t, book, 2026)
	assert.Contains(t, year, "The bank agrees: 1,000.00 EUR on 30 Jun. "+first)
	year, _, _ = countedPages(t, book+"in-hand 2026-07-31 bank 1003.50 EUR\nin-hand 2026-08-31 bank 1000.00 EUR\n", 2026)
	assert.Contains(t, year, first+" 3.50 EUR more in the bank on 31 Jul is made up for by the count of 31 Aug, which agrees.")
	year, _, _ = countedPages(t, book+"in-hand 2026-07-31 bank 1003.50 EUR\nin-hand 2026-08-31 bank 1000.00 EUR\nin-hand 2026-09-10 bank 1001.00 EUR\nin-hand 2026-09-20 bank 1002.00 EUR\nin-hand 2026-09-30 bank 1000.00 EUR\n", 2026)
	assert.Contains(t, year, "which agrees. So is what 2 other counts found.")
	// what was off before is off still
	year, _, _ = countedPages(t, book+"in-hand 2026-07-31 bank 995.00 EUR\nin-hand 2026-08-31 bank 1010.00 EUR\nin-hand 2026-09-30 bank 995.00 EUR\n", 2026)
	assert.Contains(t, year, "15.00 EUR more in the bank on 31 Aug is made up for by the count of 30 Sep.")
	year, _, _ = countedPages(t, "pilot ines\nin-hand 2026-01-01 bank 1000.00 EUR\nin-hand 2026-06-30 bank 1000.00 EUR\n", 2026)
	assert.NotContains(t, year, "made up")
}

// The amount of a line once more explains a count that nothing else does, with how often an
// amount alone would; what is likelier comes in its place.
func TestALineOnceMore(t *testing.T) {
	book := `pilot ines
in-hand 2026-01-01 bank 1000.00 EUR
cost 2026-02-05 hall-hire 78.37 EUR for club receipt 1
cost 2026-03-05 tea 12.30 EUR for club receipt 2
income 2026-03-09 gift 50.01 EUR receipt 3
in-hand 2026-06-30 bank 880.97 EUR
`
	year, _, cash := countedPages(t, book, 2026)
	said := "The hall hire of 5 Feb (book.boxbook, line 3) may have left the bank twice, or a second one is not typed. Of 3 lines tried, chance alone makes one fit less than one in 1000 of the differences this near."
	assert.Contains(t, year, said)
	assert.Contains(t, cash, said)
	year, _, _ = countedPages(t, book[:len(book)-len("880.97 EUR\n")]+"1009.35 EUR\n", 2026)
	assert.Contains(t, year, "The gift of 9 Mar (book.boxbook, line 5) may have reached the bank twice")
	// the same line twice is likelier, and so is another that never moved
	year, _, _ = countedPages(t, book+"income 2026-03-10 gift 78.37 EUR\n", 2026)
	assert.NotContains(t, year, "twice")
}

// Lines that are alike are one explanation, however many there are.
func TestAlikeLinesAreOne(t *testing.T) {
	lines := ""
	for _, month := range []string{"01", "02", "03", "04", "05", "06", "07", "08", "09", "10", "11"} {
		lines += "cost 2026-" + month + "-05 hangar 40.00 EUR for club receipt " + month + "\n"
	}
	book := "pilot ines\nin-hand 2026-01-01 bank 1000.00 EUR\n" + lines + "cost 2026-04-09 tea 12.37 EUR for club\n"
	year, _, _ := countedPages(t, book+"in-hand 2026-11-20 bank 600.00 EUR\n", 2026)
	assert.Contains(t, year, "One of the eleven lines of 40.00 for hangar, the first of 5 Jan (book.boxbook, line 3), may never have left the bank, 40.00, and the tea of 9 Apr (book.boxbook, line 14) may never have left the bank, 12.37. Of")
	year, _, _ = countedPages(t, book+"in-hand 2026-11-20 bank 627.63 EUR\n", 2026)
	assert.Contains(t, year, "Two of the eleven lines of 40.00 for hangar, the first of 5 Jan (book.boxbook, line 3), may never have left the bank, 40.00 each. ")
}
