package ledger

import (
	"strings"
	"testing"

	"boxbook/data"
	"boxbook/season"

	"github.com/stretchr/testify/require"
)

// TestFaultsOfFiguresNotFlownCountNowhere leaves out of a practice flight the faults of
// figures without a row, its own and its reviews'; a matter of safety stays.
func TestFaultsOfFiguresNotFlownCountNowhere(t *testing.T) {
	const head = "pilot ines\ncoach marek\nsequence plain-26\n  category intermediate\n  programme known\n  1 K 20\n  2 K 20\n"
	today, _ := season.ParseDate(casesToday)
	for _, test := range []struct {
		flight string
		counts []string
		said   int
	}{
		{"  1 8\n  fault 1 radius\n  fault 2 heading 30deg\nreview F by marek\n  fault 2 radius\n  fault 1 timing\n", []string{"radius", "timing"}, 2},
		{"  1 8\n  fault 2 heading 30deg\n", nil, 1},
		{"  1 8\n  fault - radius\n  fault 2 loose-article\nreview F by marek\n  fault 2 radius\n", []string{"radius", "loose-article"}, 2},
		{"  note \"all of it\"\n  fault 2 radius\n", []string{"radius"}, 0}, // no row at all: nobody knows
	} {
		text := head + "flight 2026-04-18 ines practice\n  sequence plain-26\n  panel A\n" + strings.ReplaceAll(test.flight, "review F", "review 2026-04-18/ines/practice")
		result, err := Load(Options{Files: Memory{"a.boxbook": text}, Main: "a.boxbook", Builtin: data.Builtin(), AsOf: today})
		require.NoError(t, err)
		var counts []string
		for _, fault := range result.Ledger.Flights[0].Faults {
			counts = append(counts, fault.Kind.Name)
		}
		require.Equal(t, test.counts, counts, test.flight)
		said := rendered(t, result.Diagnostics)
		require.Equal(t, test.said, strings.Count(said, "warning: figure 2 was not flown in 2026-04-18/ines/practice"), said)
		require.Zero(t, result.Diagnostics.Errors(), said)
	}
}
