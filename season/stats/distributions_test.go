package stats

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The two-sided points of the normal: NIST/SEMATECH e-Handbook of Statistical
// Methods, 1.3.6.7.1.
func TestHalfWidth(t *testing.T) {
	for confidence, want := range map[float64]float64{.80: 1.282, .90: 1.645, .95: 1.960, .99: 2.576} {
		assert.InDelta(t, want, HalfWidth(confidence), 5e-4)
	}
}
