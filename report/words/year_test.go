package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season"
)

func euros(minor int64) answers.Amount {
	return answers.AmountOf(season.Money{Minor: minor, Currency: season.Currency{Code: "EUR", Decimals: 2}})
}

// The oldest of a debt that is paid in part says what of it is open; one that is not
// has its own amount alone.
func TestOldestItemSaysWhatIsOpen(t *testing.T) {
	o := answers.Owed{Currency: "EUR", Kind: "membership", Amount: euros(100), OldestAmount: euros(7500), OldestOpen: euros(100)}
	assert.Equal(t, "rest of membership", words.OwedFor(o))
	o.Amount = euros(600)
	assert.Equal(t, "rest of membership 1.00", words.OwedFor(o))
	o.Amount, o.OldestOpen = euros(8000), euros(7500)
	assert.Equal(t, "membership 75.00", words.OwedFor(o))
	o.Kind, o.Entry = "", answers.EntrySettle
	assert.Equal(t, "payment by the club 75.00", words.OwedFor(o), "an older debt is what the ledger has as owed")
}

// Early in a year nothing is under its budget yet; what is over it already is.
func TestBudgetIsJudgedWhenTheYearIsOver(t *testing.T) {
	under, over := answers.Budget{Amount: euros(10000), Actual: euros(100)}, answers.Budget{Amount: euros(100), Actual: euros(101)}
	running := answers.Year{Running: true}
	assert.Empty(t, words.OverMark(running, under))
	assert.Equal(t, " +", words.OverMark(running, over))
	assert.Equal(t, " -", words.OverMark(answers.Year{}, under))
	over.Income = true
	early := answers.Year{Asof: "2025-12-31", First: "2026-01-01"}
	assert.Empty(t, words.OverMark(early, answers.Budget{Amount: euros(100), Actual: euros(0)}), "before its first day")
	assert.Empty(t, words.OverMark(running, over), "more income than the budget is no warning")
	assert.Equal(t, " +", words.OverMark(answers.Year{}, over))
}

// What is owed is converted wherever a part of it has another currency than the
// year's rates convert into, whoever else the club owes.
func TestOwedIsConvertedWhereverItCanBe(t *testing.T) {
	francs := answers.AmountOf(season.Money{Minor: 3000, Currency: season.Currency{Code: "CHF", Decimals: 2}})
	d := answers.Year{Rates: []answers.ExchangeRate{{From: "CHF", Rate: "1.04", To: "EUR"}}}
	d.Club.OwedTotals = []answers.Sum{{Currency: "CHF", Amount: francs}}
	d.Club.OwedInOne = &answers.Sum{Currency: "EUR", Amount: euros(3120)}
	d.Club.Owes = []answers.Sum{{Currency: "EUR", Amount: euros(500)}}
	assert.Equal(t, "that is 31.20 EUR (1 CHF = 1.04)", words.ConvertedOwed(d))
	d.Club.OwedTotals[0] = answers.Sum{Currency: "EUR", Amount: euros(100)}
	assert.Empty(t, words.ConvertedOwed(d), "all of it is in that currency")
}

// People read a kind's hyphens as spaces.
func TestKindSaid(t *testing.T) {
	assert.Equal(t, "hall hire", words.KindSaid("hall-hire"))
	assert.Equal(t, "Harbour Cup block entry", words.BillName("Harbour Cup", "block-entry"))
	assert.Equal(t, "x-", words.KindSaid("x-"))
}

// A boundary judge is called one where there is room; practice counts besides what
// was flown at contests.
func TestRolesAndPractice(t *testing.T) {
	assert.Equal(t, "boundary judge", words.RoleTitle("boundary"))
	assert.Equal(t, "scribe", words.RoleTitle("scribe"))
	assert.Equal(t, "besides the contest flights, 1 practice flight", words.BesidePractice(1))
}
