package analysis_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season/analysis"
)

// tobias owes the club 1.00 and yuki 99.00, whom the club owes nothing: with the
// club he settles the 1.00. One pool makes him pay the club what yuki owes it.
var trueDebts = []string{
	"owed 2026-01-10 tobias club 1.00 EUR",
	"owed 2026-01-10 tobias yuki 99.00 EUR",
	"owed 2026-01-10 yuki club 99.00 EUR",
}

func TestPaymentsNameTrueDebts(t *testing.T) {
	l := yearBook(t, trueDebts...)
	assert.Equal(t, []string{"tobias pays yuki 99.00 EUR", "tobias pays club 1.00 EUR", "yuki pays club 99.00 EUR"}, paymentsOf(yearOf(t, l, 2026)))
	pooled, err := analysis.YearSettled(l, 2026, analysis.Settling{Fewest: true})
	require.NoError(t, err)
	assert.Equal(t, []string{"tobias pays club 100.00 EUR"}, paymentsOf(pooled))
}

// At 1.04, by hand [derived]: ines owes the club 1.01 + 0.03 x 1.04 = 1.0412,
// so 1.04, and tobias 0.01 x 1.04 = 0.0104, so 0.01. Among the others mara is
// owed 0.04 x 1.04 = 0.0416, so 0.04; yuki and ines owe half of it each, 0.0208,
// so 0.02. The JPY have no rate.
func TestPaymentsInOneCurrency(t *testing.T) {
	l := yearBook(t, "owed 2026-01-10 ines club 1.01 EUR", "owed 2026-01-10 ines club 0.03 CHF", "owed 2026-01-11 tobias club 0.01 CHF",
		"owed 2026-01-10 yuki mara 0.02 CHF", "owed 2026-01-10 ines mara 0.02 CHF", "owed 2026-01-10 yuki club 5 JPY", "rate 2026 CHF 1.04 EUR")
	y, err := analysis.YearSettled(l, 2026, analysis.Settling{In: "EUR"})
	require.NoError(t, err)
	assert.Equal(t, []string{
		"ines pays mara 0.02 EUR", "ines pays club 1.04 EUR", "tobias pays club 0.01 EUR", "yuki pays mara 0.02 EUR", "yuki pays club 5 JPY",
	}, paymentsOf(y))
	assert.Empty(t, y.Left)
}

// Three owe mara 0.01 CHF at 1.50 each, 0.015 EUR, rounded 0.02 each; she is owed
// 0.045, rounded 0.05: a cent is left, and one of the three need not pay it.
func TestPaymentsBearWhatConversionLeaves(t *testing.T) {
	l := yearBook(t, "owed 2026-01-10 ines mara 0.01 CHF", "owed 2026-01-10 tobias mara 0.01 CHF", "owed 2026-01-10 yuki mara 0.01 CHF", "rate 2026 CHF 1.5 EUR")
	y, err := analysis.YearSettled(l, 2026, analysis.Settling{In: "EUR"})
	require.NoError(t, err)
	require.Len(t, y.Left, 1)
	assert.Equal(t, "0.01", y.Left[0].Text())
	total := int64(0)
	for _, p := range y.Payments {
		assert.Equal(t, "mara", p.To.Name())
		total += p.Money.Minor
	}
	assert.Equal(t, int64(5), total)
}

func TestPaymentsInACurrencyWithoutRates(t *testing.T) {
	for _, c := range []struct{ rate, in, into string }{
		{"", "EUR", ""},
		{"rate 2026 CHF 1.04 EUR", "USD", "EUR"},
	} {
		_, err := analysis.YearSettled(yearBook(t, c.rate), 2026, analysis.Settling{In: c.in})
		assert.Equal(t, analysis.NoRateInto{Year: 2026, In: c.in, Into: c.into}, err)
	}
}

// What a party paid went to what was oldest.
func TestOwedToTheClubSince(t *testing.T) {
	y := yearOf(t, yearBook(t,
		"cost 2026-02-01 membership 120.00 EUR for ines by club to club", "cost 2026-03-01 entry 60.00 EUR for ines by club", "settle 2026-04-01 ines club 130.00 EUR",
		"cost 2026-05-01 lunch -5.00 EUR for club by tobias"), 2026)
	require.Len(t, y.Owed, 2)
	assert.Equal(t, "ines 50.00 2026-03-01 entry", y.Owed[0].Party.Name()+" "+y.Owed[0].Money.Text()+" "+y.Owed[0].Since.String()+" "+y.Owed[0].Oldest.Cost.Kind)
	assert.Equal(t, "tobias 5.00 2026-05-01", y.Owed[1].Party.Name()+" "+y.Owed[1].Money.Text()+" "+y.Owed[1].Since.String())
}

// What is open says which currencies lack a rate.
func TestCurrenciesThatLackARate(t *testing.T) {
	_, err := analysis.YearSettled(yearBook(t, "cost 2026-02-01 entry 5 GBP for ines by club", "cost 2026-02-01 tea 5 CHF for ines by ines"), 2026, analysis.Settling{In: "EUR"})
	assert.Equal(t, analysis.NoRateInto{Year: 2026, In: "EUR", Of: []string{"GBP"}}, err)
}
