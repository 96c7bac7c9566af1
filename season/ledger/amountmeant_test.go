package ledger

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestAmountMeant takes a currency that is written otherwise, and nothing else, for it.
func TestAmountMeant(t *testing.T) {
	for typed, meant := range map[string]string{
		"95 eur": "95 EUR", "12,50 Eur": "12,50 EUR", "-5 chf": "-5 CHF", "95EUR": "95 EUR", "95 €": "95 EUR", "95€": "95 EUR",
		"95 EUR": "95 EUR", "95": "95", "95 $": "95 $", "95$": "95$", "for all": "for all", "95 eurs": "95 eurs", "": "", "95 eur more": "95 eur more",
	} {
		assert.Equal(t, meant, AmountMeant(typed), typed)
	}
}
