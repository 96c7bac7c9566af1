package pages_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/internal/testkit"
	"boxbook/report/pages"
	"boxbook/report/words"
)

// yearPage is the whole page of a year of a ledger text, as of 2026-11-25.
func yearPage(t testing.TB, text string, year int) report.Document {
	t.Helper()
	d, err := answers.YearOf(testkit.Book(t, text), year)
	require.NoError(t, err)
	return pages.Year(d, true)
}

// yearFirstPage is the page as it is without --all.
func yearFirstPage(t testing.TB, text string, year int) report.Document {
	t.Helper()
	d, err := answers.YearOf(testkit.Book(t, text), year)
	require.NoError(t, err)
	return pages.Year(d, false)
}

func yearText(t testing.TB, doc report.Document) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, report.WriteText(&b, doc, report.TextOptions{Width: 80}))
	return b.String()
}

const yearScreen = `Year 2026 so far, to 25 Nov

By the ledger the club is 39.50 EUR up: its money rose by 5.00 and what it is
owed, less what it owes, by 34.50, from 40.00 to 74.50 (it is owed 155.00 and
owes 80.50). No count of 2026 can be compared, so nothing outside checks these
figures.

Owed to the club

who                EUR  since   days  oldest unpaid item
────────────────────────────────────────────────────────────────────
Yuki Lindqvist  120.00  10 Jan   319  membership 120.00
Ines Halloran    35.00  18 Apr   221  rest of Tarn Valley Open entry
────────────────────────────────────────────────────────────────────
all             155.00

Income and costs

income        2026  costs       2026
────────────────────────────────────
membership  120.00  hall hire  80.50
────────────────────────────────────
all         120.00  all        80.50

What each contest cost each pilot and the club, before income

day     contest           currency   Ines  Tobias  Yuki    all
──────────────────────────────────────────────────────────────
18 Apr  Tarn Valley Open  EUR       95.00                95.00
18 Apr  Tarn Valley Open  JPY         334     333   333  1,000

Who flew, who helped

who             contests  places  duties
──────────────────────────────────────────
Ines Halloran          1  2nd     scribe×2
Tobias Renn            0          scribe
Yuki Lindqvist         1  1st

Payments

pays            gets           amount  currency
───────────────────────────────────────────────
Yuki Lindqvist  Ines Halloran   1.000  BHD
Ines Halloran   the club        35.00  EUR
Yuki Lindqvist  Tobias Renn     80.00  EUR
Yuki Lindqvist  the club       120.00  EUR
the club        Tobias Renn     80.50  EUR
Ines Halloran   Tobias Renn       334  JPY
Yuki Lindqvist  Tobias Renn       333  JPY

- each settles with the club what is open between the two; the others settle
  among themselves with the fewest payments, along debts where as few do

Pilots

pilot           contests  flights   best   mean  1st  2nd  3rd
──────────────────────────────────────────────────────────────
Ines Halloran          1        2  70.00  67.83    0    1    0
Yuki Lindqvist         1        0                  1    0    0

- best and mean: percent over the contest flights; places: of contests' overall
  results
- besides the contest flights, 1 practice flight
- 1 contest flight names no contest and is in no count of contests

duties, in sessions
pilot          scribe
─────────────────────
Ines Halloran       2
Tobias Renn         1

Money

BHD, who is owed what
who             carried in  paid out  their share  carried out
──────────────────────────────────────────────────────────────
Ines Halloran        0.000     1.000        0.000       +1.000
Yuki Lindqvist       0.000     0.000        1.000       -1.000
──────────────────────────────────────────────────────────────
sum                  0.000     1.000        1.000        0.000

EUR, who is owed what
who             carried in  paid out  billed  their share  settled  carried out
───────────────────────────────────────────────────────────────────────────────
Ines Halloran       -40.00      0.00    0.00        95.00  +100.00       -35.00
Tobias Renn           0.00    240.50    0.00        80.00     0.00      +160.50
Yuki Lindqvist        0.00      0.00    0.00       200.00     0.00      -200.00
the club            +40.00     95.00  120.00        80.50  -100.00       +74.50
───────────────────────────────────────────────────────────────────────────────
sum                   0.00    335.50  120.00       455.50     0.00         0.00

JPY, who is owed what
who             carried in  paid out  their share  carried out
──────────────────────────────────────────────────────────────
Ines Halloran            0         0          334         -334
Tobias Renn              0     1,000          333         +667
Yuki Lindqvist           0         0          333         -333
──────────────────────────────────────────────────────────────
sum                      0     1,000        1,000            0

- a balance with + is owed to that person, one with - is owed by them; carried
  out = carried in + paid out + billed - their share + settled
- billed: by the club to those it was for; what they have paid of it is in
  settled

closing balances, converted at the rates of 2026
who                BHD      EUR   JPY  all in EUR
─────────────────────────────────────────────────
Ines Halloran   +1.000   -35.00  -334     -37.00*
Tobias Renn             +160.50  +667    +164.50
Yuki Lindqvist  -1.000  -200.00  -333    -202.00*
the club                 +74.50           +74.50

* without BHD, for which 2026 has no rate
- 1 JPY = 0.006 EUR; each sum is rounded once, so together they can be a last
  digit off zero

BHD, pilots' costs by kind
pilot            fuel    sum
────────────────────────────
Yuki Lindqvist  1.000  1.000

EUR, pilots' costs by kind
pilot           entry  lodging  membership     sum
──────────────────────────────────────────────────
Ines Halloran   95.00                        95.00
Tobias Renn              80.00               80.00
Yuki Lindqvist           80.00      120.00  200.00
──────────────────────────────────────────────────
sum             95.00   160.00      120.00  375.00

JPY, pilots' costs by kind
pilot             tea    sum
────────────────────────────
Ines Halloran     334    334
Tobias Renn       333    333
Yuki Lindqvist    333    333
────────────────────────────
sum             1,000  1,000

pilots' income, in nobody's balance
pilot           kind   amount  currency
───────────────────────────────────────
Yuki Lindqvist  prize    5.50  EUR

EUR, the club by kind
kind               income  costs
────────────────────────────────
hall hire                  80.50
membership         120.00
────────────────────────────────
sum                120.00  80.50
income less costs  +39.50

- 1 entry dated after 2026-11-25 is not counted: fuel, 61.40 EUR, of 2026-12-24
  (book.boxbook, line 33)

Entries and results

date        contest           entries  flights  costs EUR  costs JPY
────────────────────────────────────────────────────────────────────
2026-04-18  Tarn Valley Open        2        1      95.00      1,000

results as printed
contest           pilot                     result   place
──────────────────────────────────────────────────────────
Tarn Valley Open  Ines Halloran   1105.350 of 1600  2 of 9
Tarn Valley Open  Yuki Lindqvist                         1

- contests that began in 2026; entries: pilots with a flight or a result; costs:
  all that belong to the contest

Categories

category      entries  flights   best   mean
────────────────────────────────────────────
sportsman           0        1  70.00  70.00
intermediate        1        1  65.66  65.66
not known           1        0
`

const yearFirstScreen = `Year 2026 so far, to 25 Nov

By the ledger the club is 39.50 EUR up: its money rose by 5.00 and what it is
owed, less what it owes, by 34.50, from 40.00 to 74.50 (it is owed 155.00 and
owes 80.50). No count of 2026 can be compared, so nothing outside checks these
figures.

Owed to the club

who                EUR  since   days  oldest unpaid item
────────────────────────────────────────────────────────────────────
Yuki Lindqvist  120.00  10 Jan   319  membership 120.00
Ines Halloran    35.00  18 Apr   221  rest of Tarn Valley Open entry
────────────────────────────────────────────────────────────────────
all             155.00

Other payments left; what the club is owed is above
pays            gets             BHD    EUR  JPY
────────────────────────────────────────────────
Yuki Lindqvist  Ines Halloran  1.000
Yuki Lindqvist  Tobias Renn           80.00  333
the club        Tobias Renn           80.50
Ines Halloran   Tobias Renn                  334

Income and costs

income        2026  costs       2026
────────────────────────────────────
membership  120.00  hall hire  80.50
────────────────────────────────────
all         120.00  all        80.50

What each contest cost each pilot and the club, before income

day     contest           currency   Ines  Tobias  Yuki    all
──────────────────────────────────────────────────────────────
18 Apr  Tarn Valley Open  EUR       95.00                95.00
18 Apr  Tarn Valley Open  JPY         334     333   333  1,000

Who flew, who helped

who             contests  places  duties
──────────────────────────────────────────
Ines Halloran          1  2nd     scribe×2
Tobias Renn            0          scribe
Yuki Lindqvist         1  1st

- 1 entry dated after 2026-11-25 is not counted: fuel, 61.40 EUR, of 2026-12-24
  (book.boxbook, line 33)
- 1 contest flight names no contest and is in no count of contests

To mail: boxbook statement all 2026 -o mail/; all: boxbook year 2026 --all
`

func TestYearText(t *testing.T) {
	assert.Equal(t, yearScreen, yearText(t, yearPage(t, testkit.YearLedger, 2026)))
	assert.Equal(t, yearFirstScreen, yearText(t, yearFirstPage(t, testkit.YearLedger, 2026)))
}

// The year that is not over is said as such and as of its day; a pot that
// disagrees has the line that would explain it, or that none does, or how many.
func TestInHandSaid(t *testing.T) {
	before := "pilot ines\n  name \"Ines Halloran\"\nin-hand 2026-01-01 bank 100 EUR\n"
	for lines, want := range map[string]string{
		"income 2026-04-19 landing-fees 1185 EUR\nin-hand 2026-06-01 bank 100 EUR":                                                               "On 1 Jun the bank had 100.00 EUR, 1,185.00 less than the ledger's 1,285.00. The landing fees of 19 Apr (book.boxbook, line 4) may never have reached the bank.",
		"income 2026-04-19 landing-fees 5 EUR\nincome 2026-04-20 landing-fees 5 EUR\nin-hand 2026-06-01 bank 105 EUR":                            "On 1 Jun the bank had 105.00 EUR, 5.00 less than the ledger's 110.00. The landing fees of 20 Apr (book.boxbook, line 5) may be in the ledger twice.",
		"income 2026-04-19 prize 5 EUR\nsettle 2026-04-20 ines club 5 EUR \"x\"\nin-hand 2026-06-01 bank 105 EUR":                                "On 1 Jun the bank had 105.00 EUR, 5.00 less than the ledger's 110.00. The prize of 19 Apr (book.boxbook, line 4) may never have reached the bank, or the payment from Ines Halloran of 20 Apr (book.boxbook, line 5) may never have reached the bank.",
		"income 2026-04-19 prize 5 EUR\nsettle 2026-04-20 ines club 5 EUR \"x\"\nincome 2026-04-21 tea 5 EUR\nin-hand 2026-06-01 bank 110 EUR":   "5.00 less than the ledger's 115.00. Any one of 3 lines of that amount would explain it; `boxbook statement club 2026` names them.",
		"cost 2026-04-19 lunches 5 EUR for club\nin-hand 2026-06-01 bank 100 EUR":                                                                "On 1 Jun the bank had 100.00 EUR, 5.00 more than the ledger's 95.00. The lunches of 19 Apr (book.boxbook, line 4) may never have left the bank.",
		"settle 2026-04-19 club ines 5 EUR\nin-hand 2026-06-01 bank 100 EUR":                                                                     "On 1 Jun the bank had 100.00 EUR, 5.00 more than the ledger's 95.00. The payment to Ines Halloran of 19 Apr (book.boxbook, line 4) may never have left the bank.",
		"income 2026-04-19 prize 5 EUR\nin-hand 2026-06-01 bank 104 EUR":                                                                         "On 1 Jun the bank had 104.00 EUR, 1.00 less than the ledger's 105.00. No line of that amount explains it.",
		"income 2026-04-19 prize 320 EUR\nin-hand 2026-06-01 bank 330 EUR":                                                                       "The first count of the bank of 1 Jan (book.boxbook, line 3) would explain it, if its decimal point is elsewhere, 100.00 for 10.00, or the prize of 19 Apr (book.boxbook, line 4) would explain it, if two digits are swapped, 320.00 for 230.00.",
		"income 2026-04-19 prize 70.20 EUR\nincome 2026-04-20 tea 76.19 EUR\nin-hand 2026-06-01 bank 264.39 EUR":                                 "The count of the bank itself (book.boxbook, line 6) would explain it, if two digits are swapped, 264.39 for 246.39. Or a line is missing (a payment received, a slip not typed): check the slips first.",
		"in-hand 2026-01-01 till 10 EUR\nincome 2026-04-19 prize 158.39 EUR\nin-hand 2026-06-01 bank 258.39 EUR\nin-hand 2026-06-01 till 1 EUR":  "together 9.00 less than the ledger says. The count of the till itself (book.boxbook, line 7) would explain it, if its decimal point is elsewhere, 1.00 for 10.00, or the first count of the till of 1 Jan (book.boxbook, line 4) would explain it, if its decimal point is elsewhere, 10.00 for 1.00.",
		"in-hand 2026-01-01 till 12 EUR\nincome 2026-04-19 prize 158.39 EUR\nin-hand 2026-06-01 bank 258.39 EUR\nin-hand 2026-06-01 till 21 EUR": "together 9.00 more than the ledger says. The count of the till itself (book.boxbook, line 7) would explain it, if two digits are swapped, 21.00 for 12.00, or the first count of the till of 1 Jan (book.boxbook, line 4) would explain it, if two digits are swapped, 12.00 for 21.00.",
		"income 2026-04-19 prize 32 EUR\nin-hand 2026-06-01 bank 123 EUR":                                                                        "On 1 Jun the bank had 123.00 EUR, 9.00 less than the ledger's 132.00. The count of the bank itself (book.boxbook, line 5) would explain it, if two digits are swapped, 123.00 for 132.00, or the prize of 19 Apr (book.boxbook, line 4) would explain it, if two digits are swapped, 32.00 for 23.00.",
		"income 2026-04-19 prize 32 EUR\nincome 2026-04-19 tea 54 EUR\nin-hand 2026-06-01 bank 177 EUR":                                          "Any one of 2 lines would explain it, if two of its digits are swapped; `boxbook statement club 2026` names them.",
		"in-hand 2026-01-01 bank 50 GBP\nincome 2026-04-19 prize 5 EUR\nin-hand 2026-06-01 bank 100 EUR\nin-hand 2026-06-01 bank 55 GBP":         "The prize of 19 Apr (book.boxbook, line 5), noted in EUR, would explain it, if it was in GBP. On 1 Jun the bank had 55.00 GBP, 5.00 more than the ledger's 50.00. The prize of 19 Apr (book.boxbook, line 5), noted in EUR, would explain it, if it was in GBP.",
		"in-hand 2026-01-01 cash-box 10 EUR\nincome 2026-04-19 prize 5 EUR\nin-hand 2026-06-01 bank 100 EUR\nin-hand 2026-06-01 cash-box 13 EUR": "On 1 Jun there was 100.00 EUR in the bank and 13.00 EUR in the cash-box: together 2.00 less than the ledger says. No line of that amount explains it.",
		"in-hand 2026-01-01 cash-box 10 EUR\nin-hand 2026-06-01 bank 90 EUR\nin-hand 2026-06-01 cash-box 20 EUR":                                 "On 1 Jun there was 90.00 EUR in the bank and 20.00 EUR in the cash-box: together as the ledger says.",
	} {
		doc := yearFirstPage(t, before+lines+"\n", 2026)
		assert.Contains(t, doc.Sections[0].Blocks[0].(*report.Paragraph).Text, want)
	}
}

// What should be in hand now is said where it is not what the latest count found, all
// pots of a currency together.
func TestInHandNow(t *testing.T) {
	bank := "in-hand 2026-01-01 bank 100 EUR\nin-hand 2026-06-01 bank 100 EUR\n"
	assert.NotContains(t, firstWords(t, bank), "Not counted since", "it is what was counted")
	assert.Contains(t, firstWords(t, bank+"income 2026-07-01 prize 5 EUR\n"), "The bank agrees: 100.00 EUR on 1 Jun. Not counted since; by the ledger 105.00 on 25 Nov.")
	two := "in-hand 2026-01-01 cash-box 10 EUR\nin-hand 2026-06-01 cash-box 8 EUR\nincome 2026-07-01 prize 5 EUR\n"
	assert.Contains(t, firstWords(t, bank+two), "together 2.00 less than the ledger says. No line of that amount explains it. Not counted since; by the ledger 115.00 on 25 Nov.")
	assert.Contains(t, firstWords(t, "in-hand 2026-01-01 bank 100 EUR\nincome 2026-07-01 prize 5 EUR\n"), "nothing outside checks these figures. Not counted since; by the ledger 105.00 EUR on 25 Nov.")
}

// What a count found missing is said until a line or a later count explains it:
// the count after it starts from what was there and agrees.
func TestInHandOvertaken(t *testing.T) {
	before := "pilot ines\n  name \"Ines Halloran\"\nin-hand 2026-01-01 bank 100 EUR\nin-hand 2026-01-01 cash-box 10 EUR\n"
	for lines, want := range map[string]string{
		"in-hand 2026-06-01 bank 99 EUR\nin-hand 2026-07-01 bank 99 EUR":                                                                      "On 1 Jul there was 99.00 EUR in the bank and 10.00 EUR in the cash-box (counted on 1 Jan): together 1.00 less than the ledger says, all of which was already off on 1 Jun. Not counted since; by the ledger 110.00 on 25 Nov. 1.00 EUR less in the bank and the cash-box on 1 Jun is not explained yet.",
		"in-hand 2026-06-01 bank 102 EUR\nin-hand 2026-07-01 bank 102 EUR":                                                                    "2.00 EUR more in the bank and the cash-box on 1 Jun is not explained yet.",
		"in-hand 2026-06-01 bank 99 EUR\nin-hand 2026-07-01 bank 100 EUR":                                                                     "",
		"in-hand 2026-06-01 bank 99 EUR":                                                                                                      "",
		"income 2026-05-01 prize 1 EUR\nin-hand 2026-06-01 bank 100 EUR\nin-hand 2026-06-01 cash-box 10 EUR\nin-hand 2026-07-01 bank 100 EUR": "1.00 EUR less in the bank and the cash-box on 1 Jun: the prize of 1 May (book.boxbook, line 5) may never have reached the bank and the cash-box.",
		"in-hand 2026-05-01 bank 99 EUR\nin-hand 2026-06-01 bank 97 EUR\nin-hand 2026-07-01 bank 94 EUR\nin-hand 2026-08-01 bank 94 EUR":      "2.00 EUR less in the bank and the cash-box on 1 Jun (beside the 1.00 less of 1 May) is not explained yet. Nor is that of 1 other count.",
		"in-hand 2026-06-01 bank 90 EUR\nin-hand 2026-06-01 cash-box 13 EUR\nin-hand 2026-07-01 bank 90 EUR":                                  "7.00 EUR less in the bank and the cash-box on 1 Jun is not explained yet.",
	} {
		text := yearFirstPage(t, before+lines+"\n", 2026).Sections[0].Blocks[0].(*report.Paragraph).Text
		if want == "" {
			assert.NotContains(t, text, "not explained yet", lines)
			continue
		}
		assert.Contains(t, text, want)
		assert.LessOrEqual(t, strings.Count(text, "7.00 EUR missing"), 1)
	}
}

// A pot that was not counted on the day may have what is missing where money moved since
// it was: nothing is blamed for it, and a later count of all says whether anything was.
func TestInHandOfPotsCountedOnOtherDays(t *testing.T) {
	const ifStillThere = " If it has, the payment from Ines Halloran of 12 Mar (book.boxbook, line 5) may never have reached the bank and the cash-box."
	before := "pilot ines\n  name \"Ines Halloran\"\nin-hand 2026-01-01 bank 100 EUR\nin-hand 2026-01-01 cash-box 10 EUR\nsettle 2026-03-12 ines club 40 EUR\n"
	for lines, want := range map[string]string{
		"in-hand 2026-03-31 bank 100 EUR":                                     "On 31 Mar there was 100.00 EUR in the bank: 40.00 less than the ledger says, if the cash-box still has the 10.00 EUR counted on 1 Jan; count both on one day to tell." + ifStillThere + " Not counted since; by the ledger 150.00 on 25 Nov.",
		"in-hand 2026-03-31 bank 140 EUR":                                     "On 31 Mar there was 140.00 EUR in the bank and 10.00 EUR in the cash-box (counted on 1 Jan): together as the ledger says.",
		"in-hand 2026-03-31 bank 100 EUR\nin-hand 2026-04-02 cash-box 50 EUR": "On 2 Apr there was 100.00 EUR in the bank (counted on 31 Mar) and 50.00 EUR in the cash-box: together as the ledger says.",
		"in-hand 2026-03-31 bank 100 EUR\nin-hand 2026-04-30 bank 100 EUR":    "On 30 Apr there was 100.00 EUR in the bank: 40.00 less than the ledger says, if the cash-box still has the 10.00 EUR counted on 1 Jan; count both on one day to tell.",
		"in-hand 2026-03-31 bank 140 EUR\nin-hand 2026-04-30 bank 140 EUR\nincome 2026-05-02 prize 5 EUR\nin-hand 2026-05-31 bank 140 EUR": "5.00 less than the ledger says, if the cash-box",
		"in-hand 2026-01-01 till 1 EUR\nin-hand 2026-03-31 bank 100 EUR":                                                                   "if the cash-box still has the 10.00 EUR counted on 1 Jan and the till still has the 1.00 counted on 1 Jan; count all on one day to tell.",
		"in-hand 2026-03-31 bank 100 EUR\nin-hand 2026-06-30 bank 60 EUR\nin-hand 2026-06-30 cash-box 90 EUR":                              "On 30 Jun there was 60.00 EUR in the bank and 90.00 EUR in the cash-box: together as the ledger says.",
		// 140 + 5 of 150 on 1 Apr; 145 of 150 is all that was said before
		"in-hand 2026-04-01 bank 140 EUR\nin-hand 2026-04-01 cash-box 5 EUR\nincome 2026-05-01 prize 7 EUR\nin-hand 2026-06-01 bank 140 EUR": "On 1 Jun there was 140.00 EUR in the bank: 12.00 less than the ledger says, of which 5.00 was already off on 1 Apr, if the cash-box still has the 5.00 EUR counted on 1 Apr; count both on one day to tell. If it has, the 7.00 less since 1 Apr: the prize of 1 May (book.boxbook, line 8) may never have reached the bank and the cash-box. Not counted since; by the ledger 157.00 on 25 Nov. 5.00 EUR less in the bank and the cash-box on 1 Apr is not explained yet.",
	} {
		text := yearFirstPage(t, before+lines+"\n", 2026).Sections[0].Blocks[0].(*report.Paragraph).Text
		assert.Contains(t, text, want, lines)
		assert.NotRegexp(t, `\. (The|Of) [^.]*(\.[^ ][^.]*)*never have reached`, text, lines)
		assert.NotContains(t, text, "40.00 EUR missing", lines)
	}
}

// A pot counted alone, where money moved since the others were, is compared with the next
// count of them; one that no money moved after is known as it was found, the year after too.
func TestLoneCountsWaitForTheOthers(t *testing.T) {
	book := "pilot ines\nin-hand 2025-01-01 bank 100 EUR\nin-hand 2025-01-01 box 10 EUR\nincome 2025-06-01 prize 30 EUR\n" +
		"in-hand 2025-12-31 bank 120 EUR\nin-hand 2026-01-03 box 20 EUR\nincome 2026-02-01 prize 7 EUR\nin-hand 2026-10-01 box 5 EUR\nincome 2026-10-02 prize 3 EUR\nin-hand 2026-10-04 bank 145 EUR\n"
	assert.Contains(t, yearText(t, yearFirstPage(t, book, 2025)), "On 31 Dec there was 120.00 EUR in the bank and 20.00 EUR in\nthe box (counted on 3 Jan 2026): together as the ledger says.")
	all := yearText(t, yearPage(t, book, 2026))
	assert.NotContains(t, all, "125.00", "the box of October with the bank of a year ago: nobody counted it")
	assert.Regexp(t, `2026-10-01  box +EUR +5\.00\n2026-10-04  bank +EUR +145\.00\n2026-10-04  bank \+ box +EUR +150\.00 +150\.00 +0\.00\n`, all)
	d, err := answers.YearOf(testkit.Book(t, book), 2026)
	require.NoError(t, err)
	lone, last := d.Club.InHand[1], d.Club.InHand[2]
	assert.Nil(t, lone.Own)
	assert.Nil(t, lone.Stands)
	assert.True(t, lone.Joined)
	assert.Equal(t, "145.00 0.00", words.AmountSaid(*last.Own)+" "+words.AmountSaid(*last.Difference), "what the pots together say of one")
	s := statementsOf(t, testkit.Book(t, book), 2026, "club")
	assert.Contains(t, words.StatementThought(s, s.Statements[0]), "On 2026-10-04 there was 145.00 EUR in the bank and 5.00 EUR in the box (counted on 2026-10-01), which together agree with the book.")
}

// What the ledger says is what the cash book has, from the first count on; what was off
// before is said as that, and the line that would explain is of what is new.
func TestInHandSaysWhatWasOffBefore(t *testing.T) {
	bank := "pilot ines\n  name \"Ines Halloran\"\nin-hand 2026-01-01 bank 100 EUR\nin-hand 2026-04-01 bank 90 EUR\n"
	for lines, want := range map[string]string{
		"in-hand 2026-06-01 bank 90 EUR":                                "On 1 Jun the bank had 90.00 EUR, 10.00 less than the ledger's 100.00, all of which was already off on 1 Apr. 10.00 EUR less in the bank on 1 Apr is not explained yet.",
		"in-hand 2026-06-01 bank 83 EUR":                                "On 1 Jun the bank had 83.00 EUR, 17.00 less than the ledger's 100.00, of which 10.00 was already off on 1 Apr. No line explains the 7.00 less since 1 Apr.",
		"in-hand 2026-06-01 bank 93 EUR":                                "On 1 Jun the bank had 93.00 EUR, 7.00 less than the ledger's 100.00, after 10.00 less on 1 Apr: 3.00 more since then. No line explains the 3.00 more since 1 Apr.",
		"in-hand 2026-06-01 bank 102 EUR":                               "On 1 Jun the bank had 102.00 EUR, 2.00 more than the ledger's 100.00, after 10.00 less on 1 Apr: 12.00 more since then. No line explains the 12.00 more since 1 Apr.",
		"in-hand 2026-06-01 bank 100 EUR":                               "The bank agrees: 100.00 EUR on 1 Jun. 10.00 EUR less in the bank on 1 Apr is made up for by the count of 1 Jun, which agrees. Everybody is even.",
		"income 2026-05-01 prize 7 EUR\nin-hand 2026-06-01 bank 90 EUR": "On 1 Jun the bank had 90.00 EUR, 17.00 less than the ledger's 107.00, of which 10.00 was already off on 1 Apr. The 7.00 less since 1 Apr: the prize of 1 May (book.boxbook, line 5) may never have reached the bank.",
	} {
		text := yearFirstPage(t, bank+lines+"\n", 2026).Sections[0].Blocks[0].(*report.Paragraph).Text
		assert.Contains(t, text, want, lines)
	}
	two := "pilot ines\nin-hand 2026-01-01 bank 100 EUR\nin-hand 2026-01-01 till 5 EUR\nin-hand 2026-04-01 bank 90 EUR\nin-hand 2026-04-01 till 5 EUR\nin-hand 2026-06-01 bank 90 EUR\nin-hand 2026-06-01 till 5 EUR\n"
	d := statementsOf(t, testkit.Book(t, two), 2026, "club")
	assert.Equal(t, "On 2026-06-01 there was 90.00 EUR in the bank and 5.00 EUR in the till, together 10.00 less than the ledger says, all of which was already off on 2026-04-01. 10.00 EUR less in the bank and the till on 2026-04-01 is not explained yet. A line may be missing (a bank charge, a slip not typed): check the slips first. No money of the club moved in 2026. 105.00 EUR should be in hand.", words.StatementThought(d, d.Statements[0]))
	assert.Contains(t, yearText(t, yearPage(t, two, 2026)), "2026-06-01  bank + till  EUR         95.00         105.00      -10.00\n")
}

// The workbook's row of a count has what the ledger says from the first count on; its note
// has what of it was off before, and where what is off may be.
func TestCountNote(t *testing.T) {
	for lines, want := range map[string]string{
		"in-hand 2026-04-01 bank 90 EUR\nin-hand 2026-06-01 bank 90 EUR":                                                                 "on 2026-04-01 there was already 10.00 less than the ledger says",
		"in-hand 2026-04-01 bank 100 EUR":                                                                                                "",
		"in-hand 2026-01-01 till 5 EUR\nin-hand 2026-04-01 bank 90 EUR":                                                                  words.PotsExplained,
		"in-hand 2026-01-01 till 5 EUR\nincome 2026-03-01 prize 4 EUR\nin-hand 2026-04-01 bank 104 EUR":                                  words.PotsExplained, // nothing is off
		"in-hand 2026-01-01 till 5 EUR\nincome 2026-03-01 prize 4 EUR\nin-hand 2026-04-01 bank 100 EUR":                                  "what is off may be in the till (counted on 2026-01-01)",
		"in-hand 2026-01-01 till 5 EUR\nin-hand 2026-02-01 bank 101 EUR\nincome 2026-03-01 prize 4 EUR\nin-hand 2026-04-01 bank 100 EUR": "what is off may be in the till (counted on 2026-01-01); on 2026-02-01 there was already 1.00 more than the ledger says",
	} {
		d, err := answers.YearOf(testkit.Book(t, "pilot ines\nin-hand 2026-01-01 bank 100 EUR\n"+lines+"\n"), 2026)
		require.NoError(t, err)
		assert.Equal(t, want, words.CountNote(d.Club.InHand[len(d.Club.InHand)-1]), lines)
	}
}

// Where a later count agrees again, no line before the earlier one is accused: that count is
// the slip, with its swapped digits where they would explain it, or a line was on its way that
// the next count has. One that agrees only since
// a wrong one has no line to explain it either.
func TestCountsThatALaterOneShowsWrong(t *testing.T) {
	before := "pilot ines\nin-hand 2026-01-01 bank 1000 EUR\nincome 2026-02-01 donation 158.39 EUR\n"
	swapped := "in-hand 2026-06-30 bank 1518.39 EUR\nincome 2026-07-01 donation 50 EUR\n"
	again := "by the count of 1 Nov it is gone again, so that the count of 30 Jun is likelier the slip than a line before it"
	for lines, want := range map[string][]string{
		swapped + "in-hand 2026-11-01 bank 1208.39 EUR\n":                                                                                                  {"bank of 30 Jun, 360.00 EUR: count of the bank itself (book.boxbook, line 4) would explain it, if two digits are swapped, 1,518.39 for 1,158.39; " + again},
		"in-hand 2026-06-30 bank 1000 EUR\nincome 2026-07-01 prize 3 EUR\nin-hand 2026-11-01 bank 1161.39 EUR\n":                                           {"bank of 30 Jun, 158.39 EUR: " + again},
		"income 2026-06-29 prize 210 EUR\nin-hand 2026-06-30 bank 1158.39 EUR\nin-hand 2026-11-01 bank 1368.39 EUR\n":                                      {"bank of 30 Jun, 210.00 EUR: prize of 29 Jun (book.boxbook, line 4) may not have reached the bank yet by 30 Jun; by the count of 1 Nov it is gone again; else the count of 30 Jun is the slip"},
		"cost 2026-06-30 tea 21 EUR for club\nin-hand 2026-06-30 bank 1158.39 EUR\nin-hand 2026-11-01 bank 1137.39 EUR\n":                                  {"bank of 30 Jun, 21.00 EUR: tea of 30 Jun (book.boxbook, line 4) may not have left the bank yet by 30 Jun; by the count of 1 Nov it is gone again; else the count of 30 Jun is the slip"},
		"income 2026-06-22 prize 210 EUR\nin-hand 2026-06-30 bank 1158.39 EUR\nin-hand 2026-11-01 bank 1368.39 EUR\n":                                      {"bank of 30 Jun, 210.00 EUR: " + again},
		"income 2026-06-29 prize 210 EUR\nin-hand 2026-06-30 bank 1158.39 EUR\nin-hand 2026-07-31 bank 1158.39 EUR\nin-hand 2026-11-01 bank 1368.39 EUR\n": {"bank of 30 Jun, 210.00 EUR: " + again},
		"in-hand 2026-06-30 bank 1000 EUR\n": {"bank of 30 Jun, 158.39 EUR: donation of 1 Feb (book.boxbook, line 3) may never have reached the bank"},
		"in-hand 2026-06-30 bank 1000 EUR\nincome 2026-07-01 prize 158.39 EUR\nin-hand 2026-11-01 bank 1316.78 EUR\n": {"bank of 30 Jun, 158.39 EUR: " + again},
	} {
		ledger := testkit.Book(t, before+lines)
		d := statementsOf(t, ledger, 2026, "club")
		assert.Equal(t, want, words.CashExplained(d, d.Statements[0]), lines)
	}
	assert.Contains(t, yearText(t, yearPage(t, before+swapped+"in-hand 2026-11-01 bank 1208.39 EUR\n", 2026)), "1,518.39 for 1,158.39; by the count of 1 Nov")
}

// Four currencies and more have a row each: no table of the first page is split
// for them, and none is left nearly empty.
func TestFourCurrenciesAreRows(t *testing.T) {
	text := "pilot ines\n  name \"Ines Halloran\"\n"
	for _, currency := range []string{"EUR", "CHF", "GBP", "CZK", "PLN"} {
		text += "cost 2026-02-01 entry 1234.50 " + currency + " for ines by club\ncost 2026-02-02 fuel 10 " + currency + " for club\n"
	}
	page := yearText(t, yearFirstPage(t, text+"rate 2026 CHF 1.04 EUR\n", 2026))
	assert.Contains(t, page, "\nInes Halloran  1,234.50  CHF       1 Feb   297  entry 1,234.50\nInes Halloran  1,234.50  CZK       1 Feb   297  entry 1,234.50\n")
	whole := yearText(t, yearPage(t, text+"rate 2026 CHF 1.04 EUR\n", 2026))
	assert.Contains(t, whole, "who               amount  currency  all in EUR\n")
}

func TestYearOfNothing(t *testing.T) {
	for _, text := range []string{"", testkit.YearLedger} {
		assert.Equal(t, "Year 2019\n\nNothing in 2019.\n", yearText(t, yearPage(t, text, 2019)))
	}
}

// The first thing that the page says.
func TestYearThought(t *testing.T) {
	people := "pilot ines\n  name \"Ines Halloran\"\npilot tobias\n  name \"Tobias Renn\"\npilot yuki\npilot mara\npilot olan\n"
	for _, c := range []struct {
		text string
		year int
		want string
	}{
		{"contest tarn-open 2026-04-18", 2026, "No money was written down in 2026."},
		{"cost 2026-01-10 membership 120 EUR for ines to club", 2026, "By the ledger the club is 120.00 EUR up: its money rose by as much. Nobody owes the club anything. No count of 2026 can be compared, so nothing outside checks these figures. Everybody is even."},
		{
			"income 2025-01-10 grant 5 EUR\nincome 2025-01-11 grant 6 CHF\nagreed 2025 5 EUR\nagreed 2025 7 CHF", 2025,
			"By the ledger the club is 6.00 CHF up, agreed as 7.00: its money rose by as much. It is 5.00 EUR up, as agreed: its money rose by as much. Nobody owes the club anything. No count of 2025 can be compared, so nothing outside checks these figures. Everybody is even.",
		},
		{
			"income 2025-01-10 grant 5 EUR\ncost 2025-01-11 hall 5 EUR for club by club\nagreed 2025 3 EUR", 2025,
			"By the ledger the club is neither up nor down in EUR, agreed as 3.00. Nobody owes the club anything. Everybody is even.",
		},
		{
			"income 2026-01-10 grant 5 EUR\nagreed 2026 3 EUR", 2026, // what was agreed is the whole year's, and it is not over
			"By the ledger the club is 5.00 EUR up: its money rose by as much. Nobody owes the club anything. No count of 2026 can be compared, so nothing outside checks these figures. Everybody is even.",
		},
		{"owed 2026-01-01 ines club 40 EUR", 2026, "Ines Halloran owes the club 40.00 EUR."},
		{"owed 2025-01-01 ines club 40 EUR", 2026, "Nothing in 2026 yet (the latest year with an entry: boxbook year 2025); as before, Ines Halloran owes the club 40.00 EUR."},
		{"owed 2025-01-01 club tobias 40 JPY", 2025, "The club owes 40 JPY."},
		{
			"owed 2026-01-01 ines club 40 EUR\nowed 2026-01-01 tobias yuki 5 EUR\nowed 2026-01-01 tobias mara 1 CHF", 2026,
			"Ines Halloran owes the club 40.00 EUR.",
		},
		{
			"owed 2026-01-01 ines club 4 EUR\nowed 2026-01-01 tobias club 5 EUR\nowed 2026-01-01 yuki club 6 EUR\nowed 2026-01-01 mara club 7 EUR", 2026,
			// 4 + 5 + 6 + 7 = 22
			"Members owe the club 22.00 EUR.",
		},
		{
			"cost 2026-01-01 lodging 3 EUR for ines tobias yuki mara olan by club\nowed 2026-01-01 olan ines 1 JPY", 2026,
			"Members owe the club 3.00 EUR that it advanced. No count of 2026 can be compared, so nothing outside checks these figures. olan owes Ines Halloran 1 JPY.",
		},
	} {
		doc := yearPage(t, people+c.text, c.year)
		require.NotEmpty(t, doc.Sections)
		paragraph, ok := doc.Sections[0].Blocks[0].(*report.Paragraph)
		require.True(t, ok)
		assert.Equal(t, c.want, paragraph.Text)
	}
}

// Payments of two people of one name are two rows of the first page.
func TestYearPaymentsOfOneName(t *testing.T) {
	text := yearText(t, yearFirstPage(t, "pilot ines\npilot anna\n  name \"Anna Voss\"\npilot young\n  name \"Anna Voss\"\n"+
		"cost 2026-01-10 fuel 20.00 EUR for anna by ines\ncost 2026-01-11 fuel 7.00 EUR for young by ines\n", 2026))
	assert.Regexp(t, `Anna Voss +ines +20\.00\n`, text)
	assert.Regexp(t, `Anna Voss +ines +7\.00\n`, text)
}

// Whose membership is unpaid stands on the first page, also where something else
// is owed for longer.
func TestYearNamesUnpaidBills(t *testing.T) {
	text := yearText(t, yearFirstPage(t, "pilot ines\npilot tobias\nowed 2025-12-01 ines club 4.00 EUR \"hangar key\"\n"+
		"cost 2026-01-17 membership 120.00 EUR each for ines tobias by club to club\nsettle 2026-02-01 tobias club 120.00 EUR\n", 2026))
	assert.Regexp(t, `ines +124\.00 .*"hangar key"\n`, text)
	assert.Regexp(t, `Of\s+debts,\s+billed:\s+ines's\s+membership\s+120\.00\s+EUR\.`, text, "124.00 is owed")
	many := firstWords(t, "pilot yuki\n  name \"Yuki Lindqvist\"\nowed 2025-12-01 ines club 4.00 EUR \"hangar key\"\n"+
		"cost 2026-01-17 membership 120.00 EUR each for ines tobias yuki by club to club\n")
	assert.Contains(t, many, "Of what the club is owed, billed and not paid: 360.00 EUR, 3 charges to 3 members.")
	all := firstWords(t, "cost 2026-01-17 membership 120 EUR for ines by club to club\ncost 2026-09-12 entry 60 EUR for ines by club to club\n")
	assert.Contains(t, all, "Unpaid charges: Ines Halloran's membership 120.00 and entry 60.00 EUR.")
}
