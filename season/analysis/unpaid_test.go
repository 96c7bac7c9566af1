package analysis_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season/analysis"
)

// openOf says what a party's debts to the club are made of: day, kind and amount.
func openOf(y analysis.YearSummary) []string {
	var said []string
	for _, o := range y.Owed {
		for _, d := range o.Debts {
			what := "payment"
			switch p := d.Posting; {
			case p.Cost != nil:
				what = p.Cost.Kind
			case p.Debt != nil:
				what = "older"
			}
			said = append(said, fmt.Sprintf("%s %s %s %s", o.Party.Name(), d.Posting.Date.String()[len("2026-"):], what, d.Money.Text()))
		}
	}
	return said
}

// What is paid goes to what is of its amount, else to what is oldest; what the club pays
// out is for what was laid out or paid too much, and takes nothing from bills.
func TestOpenDebts(t *testing.T) {
	member := "cost 2026-01-10 membership 120.00 EUR for ines by club to club"
	for _, c := range []struct {
		name  string
		lines []string
		want  []string
	}{
		{"an outlay repaid", []string{member, "cost 2026-07-18 barbecue 98.35 EUR for club by ines receipt 28", "settle 2026-07-25 club ines 98.35 EUR receipt 28"}, []string{"ines 01-10 membership 120.00"}},
		{"a share, and an outlay repaid", []string{"cost 2026-01-10 fuel 120.00 EUR for ines by club", "cost 2026-07-18 barbecue 98.35 EUR for club by ines", "settle 2026-07-25 club ines 98.35 EUR"}, []string{"ines 01-10 fuel 120.00"}},
		{"more than the bill", []string{member, "cost 2026-07-18 barbecue 130.00 EUR for club by ines", "settle 2026-07-25 club ines 130.00 EUR"}, []string{"ines 01-10 membership 120.00"}},
		{"repaid in part", []string{member, "cost 2026-07-18 barbecue 130.00 EUR for club by ines", "settle 2026-07-25 club ines 98.35 EUR"}, []string{"ines 01-10 membership 88.35"}},
		{"repaid more", []string{member, "cost 2026-07-18 barbecue 98.35 EUR for club by ines", "settle 2026-07-25 club ines 130.00 EUR"}, []string{"ines 01-10 membership 120.00", "ines 07-25 payment 31.65"}},
		{"not repaid", []string{member, "cost 2026-07-18 barbecue 98.35 EUR for club by ines"}, []string{"ines 01-10 membership 21.65"}},
		{"an advance", []string{"settle 2026-02-01 club ines 50 EUR"}, []string{"ines 02-01 payment 50.00"}},
		{"paid twice and given back", []string{member, "settle 2026-02-01 ines club 120 EUR", "settle 2026-02-02 ines club 120 EUR", "settle 2026-03-01 club ines 120 EUR", "cost 2026-04-01 fuel 7 EUR for ines by club"}, []string{"ines 04-01 fuel 7.00"}},
		{"a part paid and given back", []string{member, "settle 2026-02-01 ines club 70 EUR", "settle 2026-03-01 club ines 70 EUR"}, []string{"ines 01-10 membership 120.00"}},
		{"a refund", []string{member, "settle 2026-01-20 ines club 70 EUR", "cost 2026-03-12 fuel 33.33 EUR for ines by club", "cost 2026-04-25 entry 85 EUR for ines by club", "cost 2026-05-28 entry -85 EUR for ines by club", "cost 2026-11-05 dinner 37.20 EUR for ines by club"}, []string{"ines 01-10 membership 50.00", "ines 03-12 fuel 33.33", "ines 11-05 dinner 37.20"}},
		{"an older debt and a share", []string{"owed 2026-01-01 ines club 35 EUR", "cost 2026-03-12 fuel 33.33 EUR for ines by club", "settle 2026-05-30 ines club 33.33 EUR"}, []string{"ines 01-01 older 35.00"}},
		{"enough for the older debt", []string{"owed 2026-01-01 ines club 40 EUR", "cost 2026-04-18 entry 95 EUR for ines by club", "settle 2026-11-20 ines club 95 EUR", "cost 2026-11-22 tow 35 EUR for ines by club to club"}, []string{"ines 04-18 entry 40.00", "ines 11-22 tow 35.00"}}, // as version 1 answers
		{"enough for it, once billed", []string{"owed 2026-01-01 ines club 85 EUR", member, "settle 2026-01-22 ines club 120 EUR", "cost 2026-04-10 entry 95 EUR for ines by club", "settle 2026-05-03 ines club 95 EUR"}, []string{"ines 01-01 older 85.00"}},
		{"two older debts", []string{"owed 2026-01-01 ines club 40 EUR", "owed 2026-01-01 ines club 95 EUR", "settle 2026-05-03 ines club 95 EUR"}, []string{"ines 01-01 older 40.00"}},
		{"and a bill", []string{"owed 2026-01-01 ines club 35 EUR", member, "cost 2026-03-12 fuel 33.33 EUR for ines by club", "cost 2026-03-20 tug 12 EUR for ines by club", "settle 2026-05-30 ines club 33.33 EUR"}, []string{"ines 01-01 older 35.00", "ines 01-10 membership 120.00", "ines 03-20 tug 12.00"}},
		{"a bill and an older debt at once", []string{"owed 2026-01-01 ines club 35 EUR", member, "settle 2026-02-01 ines club 155 EUR", "cost 2026-03-12 fuel 33.33 EUR for ines by club"}, []string{"ines 03-12 fuel 33.33"}},
		{"two bills at once, beside a share", []string{"cost 2026-01-05 fuel 33.33 EUR for ines by club", member, "cost 2026-01-11 locker 40 EUR for ines by club to club", "settle 2026-02-01 ines club 160 EUR"}, []string{"ines 01-05 fuel 33.33"}},
		{"another amount", []string{"owed 2026-01-01 ines club 35 EUR", "cost 2026-03-12 fuel 33.33 EUR for ines by club", "settle 2026-05-30 ines club 30 EUR"}, []string{"ines 01-01 older 5.00", "ines 03-12 fuel 33.33"}},
		{"a bill before a share", []string{"cost 2026-01-01 fuel 120 EUR for ines by club", member, "settle 2026-05-30 ines club 120 EUR"}, []string{"ines 01-01 fuel 120.00"}},
		{"paid too much and a part given back", []string{member, "settle 2026-02-01 ines club 120 EUR", "settle 2026-02-02 ines club 120 EUR", "cost 2026-03-01 fuel 90.28 EUR for ines by club", "settle 2026-04-01 club ines 29.72 EUR", "cost 2026-05-01 membership 130 EUR for ines by club to club"}, []string{"ines 05-01 membership 130.00"}},
		{"a part of what was too much", []string{member, "settle 2026-02-01 ines club 70 EUR", "settle 2026-02-15 ines club 70 EUR", "settle 2026-04-15 club ines 15 EUR", "cost 2026-05-01 tow 30 EUR for ines by club to club"}, []string{"ines 05-01 tow 25.00"}},
		{"more than what was too much", []string{member, "settle 2026-02-01 ines club 140 EUR", "settle 2026-04-15 club ines 35 EUR", "cost 2026-05-01 tow 30 EUR for ines by club to club"}, []string{"ines 04-15 payment 15.00", "ines 05-01 tow 30.00"}},
		{"an advance, what it was for, and the rest", []string{member, "settle 2026-02-01 club ines 50 EUR", "cost 2026-02-10 tea 32 EUR for club by ines", "settle 2026-02-11 ines club 18 EUR"}, []string{"ines 01-10 membership 120.00"}},
		{"an advance given back", []string{member, "settle 2026-02-01 club ines 50 EUR", "settle 2026-02-11 ines club 50 EUR"}, []string{"ines 01-10 membership 120.00"}},
		{"a payment and what follows it", []string{"cost 2026-01-01 fuel 60 EUR for ines by club", "settle 2026-02-01 ines club 30 EUR", member, "cost 2026-03-01 tow 30 EUR for ines by club"}, []string{"ines 01-01 fuel 30.00", "ines 01-10 membership 120.00", "ines 03-01 tow 30.00"}},
		{"a refund of what was paid", []string{member, "cost 2026-02-01 entry 95 EUR for ines by club", "settle 2026-02-10 ines club 95 EUR", "cost 2026-03-01 entry -95 EUR for ines by club", "settle 2026-03-10 club ines 40 EUR"}, []string{"ines 01-10 membership 65.00"}},
		{"a negative outlay", []string{"cost 2026-05-01 lunch -5.00 EUR for club by ines"}, []string{"ines 05-01 lunch 5.00"}},
	} {
		assert.Equal(t, c.want, openOf(yearOf(t, yearBook(t, c.lines...), 2026)), c.name)
	}
}

// What was entered with a later date changes nothing of what an earlier payment paid:
// not a bill, and not another debt of the payment's amount.
func TestLaterLinesKeepWhatWasPaid(t *testing.T) {
	before := []string{"owed 2026-01-01 ines club 85 EUR", "cost 2026-03-20 fuel 70.84 EUR for ines by club", "settle 2026-04-02 ines club 70.84 EUR"}
	want := []string{"ines 01-01 older 85.00"}
	assert.Equal(t, want, openOf(yearOf(t, yearBook(t, before...), 2026)))
	for later, open := range map[string]string{
		"cost 2026-08-30 tow 35 EUR for ines by club to club":    "ines 08-30 tow 35.00",
		"cost 2026-08-30 tow 70.84 EUR for ines by club to club": "ines 08-30 tow 70.84",
		"cost 2026-08-30 fuel 70.84 EUR for ines by club":        "ines 08-30 fuel 70.84",
	} {
		assert.Equal(t, append(slices.Clone(want), open), openOf(yearOf(t, yearBook(t, append(slices.Clone(before), later)...), 2026)), later)
	}
}

// randomLines are the lines of a party and the club until September.
func randomLines(random *rand.Rand) []string {
	amounts := []int{5, 5, 7, 12, 12, 30}
	var lines []string
	for range 2 + random.IntN(14) {
		day, amount := fmt.Sprintf("2026-%02d-%02d", 1+random.IntN(9), 1+random.IntN(28)), amounts[random.IntN(len(amounts))]
		form := []string{
			"cost %s membership %d EUR for ines by club to club", "cost %s fuel %d EUR for ines by club", "cost %s fuel -%d EUR for ines by club", "cost %s tea %d EUR for club by ines",
			"settle %s ines club %d EUR", "settle %s ines club %d EUR", "settle %s club ines %d EUR", "owed %s ines club %d EUR", "owed %s club ines %d EUR", "cost %s tea -%d EUR for club by ines",
		}[random.IntN(10)]
		lines = append(lines, fmt.Sprintf(form, day, amount))
	}
	return lines
}

// A later bill stands beside what was open before it, whatever its amount.
func TestLaterBillStandsBeside(t *testing.T) {
	for seed := range uint64(300) {
		random := rand.New(rand.NewPCG(seed, 4))
		lines := randomLines(random)
		before := openOf(yearOf(t, yearBook(t, lines...), 2026))
		if len(before) == 0 {
			continue
		}
		bill := []int{5, 7, 12, 30, 31}[random.IntN(5)]
		after := openOf(yearOf(t, yearBook(t, append(slices.Clone(lines), fmt.Sprintf("cost 2026-10-05 tow %d EUR for ines by club to club", bill))...), 2026))
		require.Equal(t, append(before, fmt.Sprintf("ines 10-05 tow %d.00", bill)), after, "%v", lines)
	}
}

// What is open adds up to what is owed, is of lines that make a debt, none twice, and
// none with more than it came to.
func TestOpenDebtsAddUp(t *testing.T) {
	for seed := range uint64(300) {
		lines := randomLines(rand.New(rand.NewPCG(seed, 3)))
		y := yearOf(t, yearBook(t, lines...), 2026)
		for _, o := range y.Owed {
			sum, seen := int64(0), map[any]bool{}
			for _, d := range o.Debts {
				require.Positive(t, d.Money.Minor)
				require.LessOrEqual(t, d.Money.Minor, max(d.Posting.Money.Minor, -d.Posting.Money.Minor))
				require.False(t, seen[d.Posting], "%v", lines)
				sum, seen[d.Posting] = sum+d.Money.Minor, true
			}
			require.Equal(t, o.Money.Minor, sum, "%v", lines)
		}
	}
}
