package commands

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report/answers"
)

// The rate that is shown is one that the year lacks, to be copied.
func TestRateToCopy(t *testing.T) {
	for want, refused := range map[string]answers.NoRateInto{
		"rate 2025 GBP 1.04 EUR": {In: "EUR", Of: []string{"EUR", "GBP"}},
		"rate 2025 CHF 1.04 EUR": {In: "EUR"},
		"rate 2025 EUR 1.04 CHF": {In: "CHF"},
	} {
		err := noRateInto(2025, "year", refused)
		assert.Contains(t, err.(*usageError).hint, "a rate is a line such as: "+want)
	}
}
