package pages_test

import (
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
	"boxbook/report/internal/testkit"
	"boxbook/report/pages"
	"boxbook/report/words"
)

const twoPilots = "pilot ines\n  name \"Ines Halloran\"\npilot tobias\n  name \"Tobias Renn\"\n"

// firstWords is what the first page of 2026 says first.
func firstWords(t *testing.T, lines string) string {
	t.Helper()
	d := yearOf2026(t, lines)
	return words.YearThought(d)
}

// A currency that moved and that no count compares is said beside the comparison of
// the others; where none is compared at all, that is said instead.
func TestCurrencyThatNoCountCompares(t *testing.T) {
	bank := "in-hand 2026-01-01 bank 100 EUR\nin-hand 2026-06-01 bank 100 EUR\n"
	francs := "cost 2026-03-01 entry 110 CHF for ines by club\n"
	const said = "CHF is counted: what was paid from the EUR account for it is not in this comparison."
	assert.Contains(t, firstWords(t, bank+francs), "The bank agrees: 100.00 EUR on 1 Jun. No "+said)
	assert.Contains(t, firstWords(t, bank+francs+"in-hand 2026-06-01 cash-box 5 CHF\n"), "No CHF can be compared yet: what was paid from the EUR account")
	assert.Contains(t, firstWords(t, bank+francs+"in-hand 2025-12-31 cash-box 500 CHF\n"), "CHF was not counted since 31 Dec 2025: what was paid from the EUR account")
	assert.Contains(t, firstWords(t, "in-hand 2025-12-31 francs 500 CHF\n"+bank+"in-hand 2026-06-01 francs 5 EUR\n"), "The francs had CHF on 31 Dec 2025, and EUR on 1 Jun: one of both may be mistyped.")
	assert.NotContains(t, firstWords(t, "in-hand 2025-12-31 francs 500 CHF\n"+bank+"in-hand 2026-06-01 francs 5 EUR\nin-hand 2026-06-01 francs 5 CHF\n"), "mistyped")
	both := firstWords(t, bank+francs+"in-hand 2026-01-01 cash-box 300 CHF\nin-hand 2026-06-01 cash-box 190 CHF\n")
	assert.Contains(t, both, "The bank agrees: 100.00 EUR on 1 Jun. The cash-box agrees: 190.00 CHF.")
	assert.NotContains(t, both, "comparison")
	assert.NotContains(t, firstWords(t, bank+"cost 2026-03-01 entry 110 CHF for ines\n"), "comparison", "no money of the club")
	assert.NotContains(t, firstWords(t, francs), said)
	assert.NotContains(t, firstWords(t, bank+strings.Replace(francs, "2026", "2025", 1)), "comparison", "in another year")
	assert.Contains(t, firstWords(t, bank+francs+strings.ReplaceAll(francs, "CHF", "GBP")), "No CHF or GBP are counted: ")
}

// A loss and an overdraft are said in words, and a result is compared with the agreed one
// when both are losses.
func TestLossesAndOverdraftsInWords(t *testing.T) {
	bank := "in-hand 2025-12-31 bank -30 EUR\ncost 2025-02-01 rent 9 EUR for club by club\ncost 2026-02-01 rent 80 EUR for club by club\n"
	for lines, want := range map[string]string{
		"in-hand 2026-06-01 bank -110 EUR\n": "The bank agrees: overdrawn by 110.00 EUR on 1 Jun.",
		"in-hand 2026-06-01 bank -101 EUR\n": "On 1 Jun the bank had 9.00 EUR more than the ledger says (overdrawn by 101.00, not overdrawn by 110.00). The count of the bank itself (book.boxbook, line 8) would explain it, if two digits are swapped, -101.00 for -110.00.",
		"in-hand 2026-06-01 bank 101 EUR\n":  "On 1 Jun the bank had 211.00 EUR more than the ledger says (101.00, not overdrawn by 110.00).",
		"in-hand 2026-06-01 bank -30 EUR\n":  "The rent of 1 Feb (book.boxbook, line 7) may never have left the bank.",
		"in-hand 2025-12-31 till 5 EUR\nin-hand 2026-06-01 till 5 EUR\nin-hand 2026-06-01 bank -110 EUR\n": "On 1 Jun there was an overdraft of 110.00 EUR in the bank and 5.00 EUR in the till: together as the ledger says.",
		"in-hand 2025-12-31 till 5 EUR\nin-hand 2026-06-01 till 6 EUR\n":                                   "if the bank still has the overdraft of 30.00 EUR counted on 31 Dec 2025; count both on one day to tell",
	} {
		assert.Contains(t, firstWords(t, bank+lines), want, lines)
	}
	for agreed, want := range map[string]string{
		"-9 EUR \"assembly\"": "By the ledger the club is 9.00 EUR down, as agreed (assembly): its money fell by as much.",
		"−12 EUR":             "By the ledger the club is 9.00 EUR down, agreed as a loss of 12.00: its money fell by as much.",
		"12 EUR":              "By the ledger the club is 9.00 EUR down, agreed as 12.00: its money fell by as much.",
	} {
		d, err := answers.YearOf(testkit.Book(t, twoPilots+bank+"agreed 2025 "+agreed+"\n"), 2025)
		require.NoError(t, err)
		assert.Contains(t, words.YearThought(d), want, agreed)
	}
	l := testkit.Book(t, twoPilots+bank+"in-hand 2026-06-01 bank -101 EUR\n")
	text := everyFormat(t, pages.Statement(statementsOf(t, l, 2026, "club")))
	text = strings.Join(strings.Fields(text), " ")
	assert.Contains(t, text, "On 2026-06-01 there was an overdraft of 101.00 EUR in the bank, 9.00 more than the ledger says.")
	assert.Contains(t, text, "What is in hand should be overdrawn by 110.00 EUR.")
	assert.Contains(t, text, "overdrawn by 101.00, 9.00 more than")
	l = testkit.Book(t, "pilot ines\nin-hand 2025-12-31 bank 1000 EUR\nin-hand 2025-12-31 francs 100 CHF\ncost 2026-05-01 hangar 265.74 CHF for club by club\nincome 2026-06-01 gift 390.99 EUR\n")
	d := statementsOf(t, l, 2026, "club")
	assert.Contains(t, words.StatementThought(d, d.Statements[0]), "What is in hand should be 1,390.99 EUR and overdrawn by 165.74 CHF.")
	budget := yearOf2026(t, bank+"budget 2026 rent 80 EUR\nbudget 2026 gift 50 EUR income\n")
	assert.Equal(t, []string{"the budget comes to a loss of 30.00 EUR: income 50.00 less costs 80.00"}, words.BudgetNotes(budget))
}

// What was agreed is compared with the ledger where that has a result and the year is
// over; else it is said what it stands beside, and no difference.
func TestAgreedWithNothingToCompare(t *testing.T) {
	of := func(lines string, year int) (answers.Year, string) {
		d, err := answers.YearOf(testkit.Book(t, twoPilots+lines), year)
		require.NoError(t, err)
		return d, strings.Join(strings.Fields(yearText(t, pages.Year(d, true))), " ")
	}
	const gift = "income 2026-02-01 gift 30 EUR\n"
	const none = "the ledger has no income or costs of the club in EUR there."
	_, text := of(gift+"in-hand 2025-12-31 bank 100 EUR\nagreed 2025 45 EUR\n", 2025)
	assert.Contains(t, text, "The result of 2025 was agreed as 45.00 EUR; "+none)
	assert.Contains(t, text, "difference remark ─────────────────────────────────────────────────── EUR +45.00 in hand")
	_, text = of("owed 2025-12-30 ines club 10 EUR\nsettle 2025-12-31 ines club 10 EUR\nagreed 2025 -45 EUR \"assembly\"\n", 2025)
	assert.Contains(t, text, "The result of 2025 was agreed as a loss of 45.00 EUR (assembly); "+none)
	assert.NotContains(t, text, "neither up nor down")
	_, text = of("income 2025-02-01 gift 5 EUR\nagreed 2025 45 CHF\nagreed 2025 5 EUR\n", 2025)
	assert.Contains(t, text, "By the ledger the club is 5.00 EUR up, as agreed: ")
	assert.Contains(t, text, "The result of 2025 was agreed as 45.00 CHF; the ledger has no income or costs of the club in CHF there.")
	_, text = of("agreed 2025 45 EUR\n"+gift, 2025)
	assert.Contains(t, text, "Nothing in 2025. The result of 2025 was agreed as 45.00 EUR; "+none)
	_, text = of(gift+"agreed 2027 10 EUR\nbudget 2027 gift 40 EUR income\n", 2027)
	assert.Contains(t, text, "The result of 2027 stands as agreed, as 10.00 EUR, though the year has not begun.")
	assert.Contains(t, text, "as the assembly agreed it; the year has not begun currency agreed by the ledger difference remark ─────────────────────────────────────────────────── EUR +10.00 the club's budget for 2027; the year has not begun")
	assert.NotContains(t, text, "-40.00")
	_, text = of(gift+"agreed 2026 70 EUR\n", 2026)
	assert.Contains(t, text, "EUR +70.00 +30.00")
	assert.NotContains(t, text, "+40.00", "of a year that runs there is no difference yet")
	assert.NotContains(t, text, "agreed as")
	_, text = of("income 2025-02-01 gift 5 EUR\ncost 2025-02-02 rent 5 EUR for club by club\nagreed 2025 45 EUR\n", 2025)
	assert.Contains(t, text, "By the ledger the club is neither up nor down in EUR, agreed as 45.00.")
	assert.Contains(t, text, "EUR +45.00 0.00 +45.00")

	_, text = of("agreed 2025 681.60 EUR \"assembly\"\nagreed 2025 -7 CHF\n"+gift, 2026)
	assert.Contains(t, text, "By the ledger the club is 30.00 EUR up (2025: 681.60, as agreed, not calculated from lines): ")
	assert.Contains(t, text, "The result of 2025 in CHF was agreed as a loss of 7.00, not calculated from lines.")
	_, text = of("agreed 2025 45 EUR\nincome 2025-02-01 gift 30 EUR\n"+gift, 2026)
	assert.NotContains(t, text, "not calculated", "of a year with lines")

	// a year to come stands beside one that runs, which is not over
	d, _ := of(gift, 2027)
	before, _ := of(gift, 2026)
	d.Beside = &before
	assert.Equal(t, "Year 2027 · compared with 2026 so far", words.YearPageTitle(d))
}

// A first count by which all later ones are off is named as a possibility, in the year of
// the first of them and in later ones.
func TestFirstCountSwappedSaid(t *testing.T) {
	l := testkit.Book(t, twoPilots+"in-hand 2024-12-31 bank 1240 EUR\nin-hand 2025-06-30 bank 1420 EUR\nin-hand 2026-06-30 bank 1420 EUR\n")
	const said = "first count of the bank of 31 Dec 2024 (book.boxbook, line 5) would explain it, if two digits are swapped, 1,240.00 for 1,420.00"
	for year, want := range map[int]string{
		2025: "On 30 Jun the bank had 1,420.00 EUR, 180.00 more than the ledger's 1,240.00. The " + said + ".",
		2026: "On 30 Jun the bank had 1,420.00 EUR, 180.00 more than the ledger's 1,240.00, all of which was already off on 30 Jun 2025. The " + said + ".",
	} {
		d, err := answers.YearOf(l, year)
		require.NoError(t, err)
		assert.Contains(t, words.YearThought(d), want)
		statement := statementsOf(t, l, year, "club")
		assert.Equal(t, []string{"bank of 30 Jun, 180.00 EUR: " + said}, words.CashExplained(statement, statement.Statements[0]))
	}
}

// What came in and what is not received yet add up to the result, and what was owed
// at the start makes what is owed now come out.
func TestResultAddsUp(t *testing.T) {
	for lines, want := range map[string]string{
		// 300 - 80 = 220 up; 180 + 3 - 80 = 103 came; 220 - 103 = 117; owed 120 = 3 + 120 - 3
		"owed 2025-12-01 tobias club 3 EUR\nsettle 2026-01-31 tobias club 3 EUR\ncost 2026-02-01 membership 120 EUR for ines by club to club\nincome 2026-02-02 sponsorship 180 EUR\ncost 2026-02-03 hall-hire 80 EUR for club by club\n": "By the ledger the club is 220.00 EUR up: its money rose by 103.00 and what members owe it by 117.00, from 3.00 to 120.00.",
		// more came than the result: an older debt was paid
		"owed 2025-12-01 tobias club 30 EUR\nsettle 2026-01-31 tobias club 30 EUR\nincome 2026-02-02 sponsorship 80 EUR\n": "By the ledger the club is 80.00 EUR up: its money rose by 110.00, and what it is owed fell from 30.00 to nothing.",
		// two results
		"income 2026-02-02 sponsorship 80 EUR\nincome 2026-02-02 sponsorship 80 CHF\n": "By the ledger the club is 80.00 CHF up: its money rose by as much. It is 80.00 EUR up: its money rose by as much. Nobody owes the club anything.",
		// a cost that a member paid for the club
		"cost 2026-02-02 hall-hire 80 EUR for club by ines\n": "By the ledger the club is 80.00 EUR down: its money is as it was, and what it owes rose from nothing to 80.00.",
		// down, and less owed
		"owed 2025-12-01 tobias club 50 EUR\nsettle 2026-01-31 tobias club 30 EUR\ncost 2026-02-03 hall-hire 80 EUR for club by club\n": "By the ledger the club is 80.00 EUR down: its money fell by 50.00 and what members owe it by 30.00, from 50.00 to 20.00.",
		// what it is owed and owes at once
		"cost 2026-02-01 membership 120 EUR for ines by club to club\ncost 2026-02-02 hall-hire 80 EUR for club by tobias\nincome 2026-02-03 prize 5 EUR\n": "By the ledger the club is 45.00 EUR up: its money rose by 5.00, and what it is owed, less what it owes, rose from nothing to 40.00 (it is owed 120.00 and owes 80.00).",
		// at the start it owed something as well, which is paid by now
		"owed 2025-12-01 tobias club 50 EUR\nowed 2025-12-01 club ines 20 EUR\nsettle 2026-01-31 club ines 20 EUR\ncost 2026-02-03 hall-hire 80 EUR for club by club\n": "By the ledger the club is 80.00 EUR down: its money fell by 100.00, and what members owe it, net, rose by 20.00, from 30.00 to 50.00.",
		// a debt in one currency that was paid in another
		"owed 2025-12-01 tobias club 100 EUR\nsettle 2026-01-31 tobias club 104 CHF for 100 EUR\n": "In CHF the club's money rose by 104.00 (less 104.00 for debts paid in another currency). In EUR what it is owed fell from 100.00 to nothing (plus 100.00 for debts paid in another currency).",
		// all that went out is owed
		"cost 2026-02-01 entry 110 CHF for ines tobias by club\n": "Members owe the club 110.00 CHF that it advanced.",
		"cost 2026-02-01 entry 110 CHF for ines by club\n":        "Ines Halloran owes the club 110.00 CHF that it advanced.",
	} {
		assert.Contains(t, firstWords(t, lines), want)
	}
}

// Each debt to the club has a row in its currency, with its own day and its own
// oldest item; sums and the budget's are beneath.
func TestDebtsHaveTheirOwnDays(t *testing.T) {
	page := yearText(t, pages.Year(yearOf2026(t, `cost 2026-02-01 entry 75.00 EUR for tobias by club
settle 2026-02-02 tobias club 74.00 EUR
cost 2026-03-01 entry 110.00 CHF for tobias by club "the block entry"
rate 2026 CHF 1.04 EUR
cost 2026-03-01 lunches 50.00 EUR for club by club
cost 2026-03-01 rigging 60.00 EUR for club by club
budget 2026 lunches 40.00 EUR
budget 2026 rigging 60.00 EUR
budget 2026 hall-hire 100.00 EUR
cost 2026-03-05 engraving 5.00 EUR for club by club receipt 3
cost 2026-03-05 engraving 5.00 EUR for club by club receipt 9
`), false))
	for _, line := range []string{
		"Tobias Renn          1.00  1 Feb   297  rest of entry\n",
		"Tobias Renn  110.00        1 Mar   269  entry 110.00, \"the block entry\"\n",
		"together 115.40 EUR (1 CHF = 1.04)\n", // 110 * 1.04 + 1
		"Income and costs; costs over budget already (+)\n",
		"rigging     60.00   60.00\n", "lunches     50.00   40.00 +\n", "engraving   10.00    none\n", "hall hire          100.00\n",
		"all        120.00  200.00\n", "Tobias Renn owes it 110.00 CHF\nthat it advanced.",
		"No receipts 4 to 8.",
	} {
		assert.Contains(t, strings.ReplaceAll(page, "\nthe ledger: 4", " the ledger: 4"), line)
	}
}

// Names above what a contest cost are whole where they fit, else first names, else
// those of the ledger where two share one.
func TestNamesAboveCosts(t *testing.T) {
	contest := "contest tarn-open 2026-04-18\n  name \"Tarn Open\"\n  cost entry 40 EUR for ines\n  cost entry 40 EUR for tobias\n"
	titles := func(more string) string { return yearText(t, pages.Year(yearOf2026(t, more), false)) }
	assert.Contains(t, titles(contest), "currency  Ines Halloran  Tobias Renn    all\n")
	many := "pilot mara\n  name \"Mara van der Straaten\"\n" + contest + "  cost entry 40 EUR for mara\n"
	assert.Contains(t, titles(many), "currency   Ines  Tobias   Mara     all\n")
	assert.Contains(t, titles("pilot other\n  name \"Ines Ottilie van der Straaten\"\n"+contest+"  cost entry 40 EUR for other\n"), "currency   ines  Tobias  other     all\n")
}

// What a statement says of the debt to the club adds up to it.
func TestDebtToTheClubIsTakenApart(t *testing.T) {
	d := statementsOf(t, testkit.Book(t, twoPilots+`owed 2025-12-01 tobias club 3 EUR
settle 2026-01-31 tobias club 3 EUR
cost 2026-02-01 entry 70 EUR for tobias by club
cost 2026-02-02 entry 75 EUR for tobias by club
cost 2026-02-03 hall-hire 144 EUR for club by tobias
cost 2026-02-04 lodging 60 EUR for ines tobias by ines
`), 2026, "tobias", "ines")
	assert.Equal(t, []string{"the 1.00 EUR that you owe the club: 3.00 carried in and 145.00 that the club paid or billed for you, less 144.00 that you paid for the club and 3.00 that you paid to the club"}, words.WithClubSaid(d.Statements[0]))
	assert.Empty(t, words.WithClubSaid(d.Statements[1]), "nothing with the club")
	page := yearText(t, pages.Statement(d))
	for _, said := range []string{"Payments to settle up", "less your share, plus what you paid out\n"} {
		assert.Contains(t, page, said)
	}
	assert.NotContains(t, page, "netted", "what is to be paid is what stands between the two")
	d = statementsOf(t, testkit.Book(t, twoPilots+"cost 2026-02-01 entry 70 EUR for tobias by club\ncost 2026-02-02 entry -20 EUR for tobias by club\ncost 2026-02-03 hall-hire 144 EUR for club by tobias\nsettle 2026-02-04 club tobias 10 EUR\n"), 2026, "tobias")
	assert.Equal(t, []string{"the 84.00 EUR that the club owes you: 20.00 that the club gave back or credited to you and 144.00 that you paid for the club, less 70.00 that the club paid or billed for you and 10.00 that the club paid to you"}, words.WithClubSaid(d.Statements[0]))
	d = statementsOf(t, testkit.Book(t, twoPilots+"owed 2025-12-31 tobias club 300 EUR\ncost 2026-01-15 membership 100 EUR for tobias by club to club\ncost 2026-05-01 written-off -300 EUR for tobias by club to club\n"), 2026, "tobias")
	assert.Equal(t, []string{"the 100.00 EUR that you owe the club: 300.00 carried in and 100.00 that the club paid or billed for you, less 300.00 that the club gave back or credited to you"}, words.WithClubSaid(d.Statements[0]))
}

// Where debts among members were netted, it is said what stands with each: an amount that
// is on no line of the statement comes of these.
func TestWhatANettedPaymentComesOf(t *testing.T) {
	d := statementsOf(t, testkit.Book(t, twoPilots+`pilot zoe
  name "Zoe Alder"
cost 2026-02-01 lodging 60 EUR for ines tobias by ines
cost 2026-02-02 fuel 60 EUR for tobias zoe by tobias
cost 2026-02-03 hotel 20 EUR for ines by zoe
`), 2026)
	notes := map[string]string{}
	for _, s := range d.Statements {
		notes[s.Party] = strings.Join(words.StatementPayments(d, s), "; ")
	}
	const netted = "debts between members are netted into as few payments as possible: "
	assert.Equal(t, map[string]string{
		"ines": netted + "you are owed 30.00 EUR by Tobias Renn, and owe 20.00 EUR to Zoe Alder", "tobias": "",
		"zoe": netted + "you are owed 20.00 EUR by Ines Halloran, and owe 30.00 EUR to Tobias Renn",
	}, notes)
}

// On generated clubs the parts come to what stands with the club, which is what is
// owed to it where that is above nothing.
func TestPartsOfTheDebtAddUp(t *testing.T) {
	for _, text := range []string{testkit.YearLedger, testkit.CrowdLedger()} {
		d := statementsOf(t, testkit.Book(t, text), 2026)
		require.NotEmpty(t, d.Statements)
		compared := 0
		for _, s := range d.Statements {
			owed := map[string]string{}
			for _, o := range s.Owed {
				owed[o.Currency] = o.Amount.Text()
			}
			for _, a := range s.Accounts {
				w := a.WithClub
				if w == nil {
					assert.Empty(t, owed[a.Currency])
					continue
				}
				sum := new(big.Rat).Add(w.Opening.Number().Rat(), w.Charged.Number().Rat())
				sum.Sub(sum, w.PaidFor.Number().Rat()).Sub(sum, w.Paid.Number().Rat()).Add(sum, w.Received.Number().Rat()).Add(sum, w.Owed.Number().Rat())
				assert.Zero(t, sum.Cmp(w.Closing.Number().Rat()), s.Party)
				if sum.Sign() > 0 {
					assert.Equal(t, owed[a.Currency], w.Closing.Text())
				}
				compared++
			}
		}
		assert.Positive(t, compared)
	}
}

// yearOf2026 is the year of a ledger with two pilots.
func yearOf2026(t *testing.T, lines string) answers.Year {
	t.Helper()
	d, err := answers.YearOf(testkit.Book(t, twoPilots+lines), 2026)
	require.NoError(t, err)
	return d
}

// Who paid the club and was never charged anything is named; not who was, or has it back.
func TestPaidWithoutABill(t *testing.T) {
	const billed = "cost 2026-01-10 dues 20 EUR for ines by club to club\nsettle 2026-02-01 ines club 50 EUR\n"
	assert.NotContains(t, firstWords(t, billed), "Paid, but")
	for lines, want := range map[string]string{
		"settle 2026-02-01 tobias club 20 EUR\n":                                                                       "Paid, but nothing was ever billed against it: Tobias Renn 20.00 EUR.",
		"settle 2026-02-01 tobias club 20 EUR\nsettle 2026-03-01 club tobias 5 EUR\n":                                  "against it: Tobias Renn 15.00 EUR.",
		"settle 2026-02-01 tobias club 20 EUR\nsettle 2026-03-01 club tobias 20 EUR\n":                                 "",
		"settle 2025-02-01 tobias club 20 EUR\n":                                                                       "",
		"cost 2026-02-01 dues 20 EUR for tobias to club\n":                                                             "",
		"owed 2026-01-01 tobias club 20 EUR\nsettle 2026-02-01 tobias club 20 EUR\n":                                   "",
		"settle 2026-02-01 tobias club 20 EUR\nsettle 2026-02-01 yuki club 5 EUR\nsettle 2026-02-01 rolf club 6 EUR\n": "Tobias Renn 20.00 EUR, yuki 5.00 EUR and 1 more.",
	} {
		text := firstWords(t, "pilot yuki\nperson rolf\n"+billed+lines)
		if want == "" {
			assert.NotContains(t, text, "Paid, but", lines)
			continue
		}
		assert.Contains(t, text, want, lines)
	}
}

// Of the year beside its agreed result is said where it is another than the ledger's.
func TestAgreedOfTheYearBeside(t *testing.T) {
	for agreed, want := range map[string]string{"7": "the club is 30.00 EUR up (2025: 5.00, agreed as 7.00): ", "5": "the club is 30.00 EUR up (2025: 5.00): "} {
		l := testkit.Book(t, twoPilots+"income 2025-02-01 gift 5 EUR\nagreed 2025 "+agreed+" EUR\nincome 2026-02-01 gift 30 EUR\n")
		d, err := answers.YearOf(l, 2026)
		require.NoError(t, err)
		before, err := answers.YearOf(l, 2025)
		require.NoError(t, err)
		d.Beside = &before
		assert.Contains(t, words.YearThought(d), want)
	}
}

// A line shortly before a count may have been on its way that day; one of long before
// never came.
func TestLineOnItsWayToACount(t *testing.T) {
	for day, want := range map[string]string{
		"2026-06-29": "may not have reached the bank yet by 30 Jun.", "2026-05-02": "may never have reached the bank.",
	} {
		d, err := answers.YearOf(testkit.Book(t, twoPilots+"in-hand 2026-01-01 bank 100 EUR\nincome "+day+" gift 30 EUR\nin-hand 2026-06-30 bank 100 EUR\n"), 2026)
		require.NoError(t, err)
		assert.Contains(t, words.YearThought(d), want, day)
	}
}

// What comes back to the club of what it had paid is no cost that it paid.
func TestRefundInAStatement(t *testing.T) {
	l := testkit.Book(t, twoPilots+"cost 2026-05-01 entry 85 EUR for ines by club\ncost 2026-05-09 entry -85 EUR for ines by club\n")
	text := strings.Join(strings.Fields(everyFormat(t, pages.Statement(statementsOf(t, l, 2026, "ines")))), " ")
	assert.Contains(t, text, "paid by the club")
	assert.Contains(t, text, "paid back to the club")
}

// A marked sum in which kinds without a budget are says so.
func TestSumsBesideTheBudgetSayWhatTheyAreOf(t *testing.T) {
	const budgeted = "cost 2026-03-01 lunches 50.00 EUR for club by club\nbudget 2026 lunches 40.00 EUR\n"
	const bare, said = "Income and costs; costs over budget already (+)\n", "Income and costs; costs over budget already (+); all: budgeted or not\n"
	page := func(more string) string { return yearText(t, pages.Year(yearOf2026(t, budgeted+more), false)) }
	assert.Contains(t, page(""), bare)
	assert.Contains(t, page("cost 2026-03-02 rigging 9.00 EUR for club by club\n"), said)
	assert.Contains(t, page("cost 2026-03-02 rigging 9.00 CHF for club by club\n"), bare, "another currency")
	assert.Contains(t, page("income 2026-03-02 gift 9.00 EUR\n"), bare, "the other side")
}
