package answers_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
	"boxbook/season"
)

// An amount is a decimal string with all the currency's places, and the number
// that is shown for it has as many.
func TestAmount(t *testing.T) {
	for _, test := range []struct {
		minor  int64
		places int
		want   string
	}{
		{-3500, 2, "-35.00"},
		{5, 2, "0.05"},
		{-5, 3, "-0.005"},
		{0, 3, "0.000"},
		{667, 0, "667"},
	} {
		amount := answers.AmountOf(season.Money{Minor: test.minor, Currency: season.Currency{Code: "EUR", Decimals: test.places}})
		encoded, err := json.Marshal(answers.Sum{Currency: "EUR", Amount: amount})
		require.NoError(t, err)
		assert.Equal(t, `{"currency":"EUR","amount":"`+test.want+`"}`, string(encoded))
		assert.Equal(t, test.want, amount.Number().Text(amount.Places()))
		assert.Equal(t, test.minor == 0, amount.IsNothing())
	}
}
