package analysis_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
)

// BenchmarkDrill is a drill with as many flights on each side as it looks at,
// and six other kinds noted in them: it should take about 3 ms.
func BenchmarkDrill(b *testing.B) {
	before, since := strings.Repeat("rpa rh p rsl rht a ", 4), strings.Repeat("ph a p sl ht r ", 4)
	l := testkit.BookOf(b, drillHead+watched("2025-01-03", before)+prompting+radiusDrill+watched("2025-07-04", since))
	for b.Loop() {
		answers := analysis.DrillsOf(l, season.Selection{Pilot: l.Pilots[0]})
		require.Equal(b, 24, answers[0].After.Flights)
	}
}
