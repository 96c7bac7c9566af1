package pages_test

import (
	"encoding/json"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
)

const clubBook = `
year-start 10-01
pilot ines
  name "Ines Halloran"
pilot yuki
  name "Yuki Lindqvist"
coach marek
  name "Marek Oduya"
person rolf
  name "Rolf, the rigger"
contest cup 2026-04-18
  duty judge marek
  duty caller rolf 3
  duty scribe ines 2
owed 2025-09-30 yuki rolf 5.00 EUR
cost 2025-10-15 rigging 90.00 EUR for club by rolf receipt 20
cost 2026-05-03 coaching 60.00 EUR for ines by marek
cost 2026-05-04 dinner 30.00 EUR for marek rolf by ines
cost 2026-09-30 membership 120.00 EUR for yuki to club
cost 2026-10-01 membership 125.00 EUR for yuki to club
in-hand 2025-10-01 bank 1500.00 EUR "statement 9"
in-hand 2026-09-30 bank 1625.00 EUR "statement 21"
agreed 2025 35.00 EUR "general assembly"
budget 2025 rigging 100.00 EUR
budget 2025 membership 240.00 EUR income "two of them"
`

// Coaches and persons are parties of a year as pilots and the club are; a year
// begins where the ledger says; in hand, budget and the agreed result stand beside
// what the ledger has.
func TestYearOfCoachesPersonsAndTheClub(t *testing.T) {
	doc := yearPage(t, clubBook, 2025)
	text := yearText(t, doc)
	assert.Contains(t, text, "Year 2025, 2025-10-01 to 2026-09-30\n\nBy the ledger the club is 30.00 EUR up, agreed as 35.00: ")
	for _, screen := range []string{`
who               caller  judge  scribe
───────────────────────────────────────
Ines Halloran                         2
Marek Oduya                   1
Rolf, the rigger       3
`, `
who               carried in  paid out  their share  carried out
────────────────────────────────────────────────────────────────
Ines Halloran           0.00     30.00        60.00       -30.00
Yuki Lindqvist         -5.00    120.00       120.00        -5.00
Marek Oduya             0.00     60.00        15.00       +45.00
Rolf, the rigger       +5.00     90.00        15.00       +80.00
the club                0.00      0.00        90.00       -90.00
────────────────────────────────────────────────────────────────
sum                     0.00    300.00       300.00         0.00
`, `
EUR, members' costs by kind
who               coaching  dinner  membership     sum
──────────────────────────────────────────────────────
Ines Halloran        60.00                       60.00
Yuki Lindqvist                          120.00  120.00
Marek Oduya                  15.00               15.00
Rolf, the rigger             15.00               15.00
──────────────────────────────────────────────────────
sum                  60.00   30.00      120.00  210.00
`, `
the club's result of 2025, as the assembly agreed it
currency  agreed  by the ledger  difference  remark
─────────────────────────────────────────────────────────────
EUR       +35.00         +30.00       +5.00  general assembly

in hand
date        pot   currency   counted  by the ledger  difference  remark
─────────────────────────────────────────────────────────────────────────────
2025-10-01  bank  EUR       1,500.00                             statement 9
2026-09-30  bank  EUR       1,625.00       1,620.00       +5.00  statement 21

the club's budget for 2025
kind        cost or income  currency  budget  actual  over (+), under (-)
─────────────────────────────────────────────────────────────────────────
rigging     cost            EUR       100.00   90.00               -10.00
membership  income          EUR       240.00  120.00              -120.00
`, "the club          Rolf, the rigger   90.00  EUR\n"} {
		assert.Contains(t, text, screen)
	}
}

// The same in JSON, under the names of the contract.
func TestYearBooksInJSON(t *testing.T) {
	d := yearPage(t, clubBook, 2025).Data.(answers.Year)
	sums := map[string]*big.Rat{}
	for _, p := range d.Parties {
		for _, s := range p.Balance {
			if sums[s.Currency] == nil {
				sums[s.Currency] = new(big.Rat)
			}
			sums[s.Currency].Add(sums[s.Currency], s.Amount.Number().Rat())
		}
	}
	require.Len(t, d.Parties, 5)
	require.Len(t, sums, 1)
	assert.Zero(t, sums["EUR"].Sign(), "the balances of all parties sum to zero")
	encoded, err := json.Marshal(map[string]any{
		"parties": d.Parties[2:], "inHand": d.Club.InHand, "budget": d.Club.Budget, "agreed": d.Agreed, "first": d.First, "last": d.Last,
	})
	require.NoError(t, err)
	assert.JSONEq(t, `{"first": "2025-10-01", "last": "2026-09-30",
		"parties": [
			{"party": "marek", "kind": "coach", "name": "Marek Oduya", "opening": [{"currency": "EUR", "amount": "0.00"}], "balance": [{"currency": "EUR", "amount": "45.00"}]},
			{"party": "rolf", "kind": "person", "name": "Rolf, the rigger", "opening": [{"currency": "EUR", "amount": "5.00"}], "balance": [{"currency": "EUR", "amount": "80.00"}]},
			{"party": "club", "kind": "club", "opening": [{"currency": "EUR", "amount": "0.00"}], "balance": [{"currency": "EUR", "amount": "-90.00"}]}],
		"inHand": [
			{"date": "2025-10-01", "pot": "bank", "currency": "EUR", "amount": "1500.00", "remark": "statement 9"},
			{"date": "2026-09-30", "pot": "bank", "currency": "EUR", "amount": "1625.00", "own": "1620.00", "difference": "5.00", "remark": "statement 21",
				"stands": {"ledger": "1620.00", "difference": "5.00", "carried": "0.00", "new": "5.00", "since": "2025-10-01"}}],
		"budget": [
			{"kind": "rigging", "currency": "EUR", "amount": "100.00", "actual": "90.00"},
			{"kind": "membership", "currency": "EUR", "amount": "240.00", "actual": "120.00", "income": true, "remark": "two of them"}],
		"agreed": {"currency": "EUR", "amount": "35.00", "own": "30.00", "difference": "5.00", "remark": "general assembly"}}`, string(encoded))
}

// A calendar year says no days, and a year in which nobody else had money
// or duties speaks of pilots.
func TestYearOfPilotsAlone(t *testing.T) {
	text := yearText(t, yearPage(t, "pilot ines\n  name \"Ines Halloran\"\ncost 2026-05-03 fuel 60.00 EUR for ines\n", 2026))
	assert.Contains(t, text, "Year 2026 so far, to 25 Nov\n\n")
	assert.Contains(t, text, "EUR, pilots' costs by kind\npilot")
	for _, title := range []string{"in hand", "budget", "agreed"} {
		assert.NotContains(t, text, title)
	}
}

// The sum of the budget stands beneath, and its result; a kind without one says so; what
// members bore of a kind that was budgeted is said to be none of the club's costs.
func TestBudgetInAll(t *testing.T) {
	book := "pilot ines\nbudget 2026 tea 20 EUR\nbudget 2026 aircraft 300 EUR\nbudget 2026 dues 350 EUR income\nincome 2026-01-05 dues 330 EUR\n" +
		"cost 2026-02-01 tea 25 EUR for club\ncost 2026-03-01 aircraft 150 EUR for ines by club\n"
	page := yearText(t, yearFirstPage(t, book, 2026))
	assert.Regexp(t, `(?m)^all +330\.00 +350\.00 +all +25\.00 +320\.00$`, page)
	assert.Contains(t, page, "\n- aircraft: borne by members, so that none of it is a cost of the club\n")
	page = yearText(t, yearPage(t, book, 2026))
	assert.Contains(t, page, "the budget comes to 30.00 EUR: income 350.00 less costs 320.00\n")
	assert.Contains(t, page, "aircraft: 150.00 EUR was borne by others, and what members bear is no cost of\n  the club\n")
	assert.Regexp(t, `(?m)^all +330\.00 +350\.00 +all +26\.00 +320\.00$`, yearText(t, yearFirstPage(t, book+"cost 2026-02-02 soap 1 EUR for club\n", 2026)))
	assert.Regexp(t, `(?m) soap +1\.00 +none$`, yearText(t, yearFirstPage(t, book+"cost 2026-02-02 soap 1 EUR for club\n", 2026)))
}

// The mark of the sum is that of what came in or was spent in all, of kinds without a
// budget too.
func TestBudgetInAllFollowsTheSum(t *testing.T) {
	book := "budget 2025 sponsorship 250.00 EUR income\nincome 2025-03-20 sponsorship 300.00 EUR\n"
	assert.Regexp(t, `(?m)^all +300\.00 +250\.00 \+ +all +0\.00$`, yearText(t, yearFirstPage(t, book, 2025)))
	assert.Regexp(t, `(?m)^all +340\.00 +250\.00 \+ +all +0\.00$`, yearText(t, yearFirstPage(t, book+"income 2025-12-05 donation 40.00 EUR\n", 2025)))
	spent := "budget 2025 tea 50.00 EUR\ncost 2025-02-01 tea 20.00 EUR for club\ncost 2025-02-02 soap 10.00 EUR for club\n"
	assert.Regexp(t, `(?m)^all +0\.00 +all +30\.00 +50\.00 -$`, yearText(t, yearFirstPage(t, spent, 2025)))
	assert.Regexp(t, `(?m)^all +0\.00 +all +50\.00 +50\.00$`, yearText(t, yearFirstPage(t, spent+"cost 2025-02-03 cups 20.00 EUR for club\n", 2025)))
}

// Numbers with a beginning are named as they are written, beside plain ones.
func TestReceiptsOfASeries(t *testing.T) {
	book := "cost 2026-02-01 tea 1 EUR for club receipt 7\ncost 2026-02-01 tea 2 EUR for club receipt 9\n" +
		"cost 2026-02-02 tea 3 EUR for club receipt K-08\ncost 2026-02-02 tea 4 EUR for club receipt K-09\ncost 2026-02-02 tea 5 EUR for club receipt K-12\ncost 2026-02-03 tea 6 EUR for club\n"
	assert.Contains(t, firstWords(t, book), "No receipt 8; no receipts K-10 and K-11.")
	assert.Contains(t, yearText(t, yearPage(t, "pilot ines\n"+book, 2026)), "- 1 of 6 lines of the club's costs and income has no receipt\n")
}

// What a contest over New Year costs on either side stands with the year in which it
// began, and both years say so.
func TestContestOverNewYear(t *testing.T) {
	book := "pilot ines\ncontest frost 2025-12-30..2026-01-02\n  name \"Frost Cup\"\n  cost 2025-12-30 entry 70 EUR for ines by club\n  cost 2026-01-02 lodging 155.55 EUR for ines\n"
	assert.Contains(t, yearText(t, yearFirstPage(t, book, 2025)), "- 155.55 EUR of Frost Cup is dated 2026, and in the money of that year\n")
	assert.Contains(t, yearText(t, yearFirstPage(t, book, 2026)), "- without 155.55 EUR for Frost Cup, which began in 2025 and stands there\n")
}
