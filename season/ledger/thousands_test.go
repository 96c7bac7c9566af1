package ledger

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A number in groups is given without what sets them off where it has one reading.
func TestThousandsAdvice(t *testing.T) {
	const plain = "write no thousands separator"
	for typed, want := range map[string]string{
		"1.210,00": plain + ": 1210.00", "1,210.00": plain + ": 1210.00", "1'210": plain + ": 1210", "1.234.567": plain + ": 1234567",
		"12'345'678,5": plain + ": 12345678.5", "1.210.00": plain, "1,234.567": plain, "1.234,567.8": plain,
	} {
		assert.Equal(t, want, numberAdvice(typed).hint, typed)
		assert.False(t, numberAdvice(typed).certain, "a hint alone")
	}
}
