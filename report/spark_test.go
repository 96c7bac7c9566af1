package report

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func floats(values ...float64) []Number {
	numbers := make([]Number, len(values))
	for i, value := range values {
		numbers[i] = Float(value)
	}
	return numbers
}

func TestSparkline(t *testing.T) {
	nan := math.NaN()
	for _, test := range []struct {
		name   string
		values []Number
		want   string
	}{
		{"nothing", nil, ""},
		{"every level", floats(0, 1, 2, 3, 4, 5, 6, 7), "▁▂▃▄▅▆▇█"},
		{"down", floats(70.5, 61, 42), "█▆▁"},
		{"negative", floats(-2, -1, -2), "▁█▁"},
		{"all equal", floats(5, 5, 5), "▄▄▄"},
		{"one", floats(5), "▄"},
		{"gaps", floats(nan, 1, nan, 2, nan), "·▁·█·"},
		{"gaps only", floats(nan, nan), "··"},
		{"a span beyond a float", floats(-math.MaxFloat64, 0, math.MaxFloat64), "▁▅█"},
		{"a span too small to halve", floats(0, math.SmallestNonzeroFloat64), "▄▄"},
	} {
		t.Run(test.name, func(t *testing.T) {
			assert.Equal(t, test.want, Sparkline(test.values))
		})
	}
}
