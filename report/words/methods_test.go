package words_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// TestMethodsFollow holds the page on methods to the thresholds in force.
func TestMethodsFollow(t *testing.T) {
	m := answers.MethodsOf()
	said, err := words.MethodsPage(data.Methods, m)
	require.NoError(t, err)
	assert.Contains(t, said, "both tests at 5% (a family: 10%")
	assert.Contains(t, said, "at 20%; chance alone gives that in one season of five")
	assert.Contains(t, said, "in one flight of 20")
	assert.NotContains(t, said, "{{")
	for _, line := range strings.Split(said, "\n") {
		assert.LessOrEqual(t, len(line), 80, line)
	}

	m.Firm, m.MayBe, m.DrillLeftOut, m.FlagGap = report.Float(0.01), report.Float(0.25), 7, report.Float(2.5)
	said, err = words.MethodsPage(data.Methods, m)
	require.NoError(t, err)
	assert.Contains(t, said, "both tests at 1% (a family: 10%")
	assert.Contains(t, said, "at 25%; chance alone gives that in one season of four")
	assert.Contains(t, said, "the last seven reviewed flights before it")
	assert.Contains(t, said, "when it lies 2.5 grades or more from")

	_, err = words.MethodsPage("{{.Nothing}}", m)
	assert.Error(t, err)
}
