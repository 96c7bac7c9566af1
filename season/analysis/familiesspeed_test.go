package analysis_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/ledger"
)

// demoLedger is the demo's, with its last known day as today.
func demoLedger(b *testing.B) *season.Ledger {
	b.Helper()
	main := filepath.Join("..", "..", "data", "demo", "longmere.boxbook")
	if _, err := os.Stat(main); err != nil {
		b.Fatal(err)
	}
	today, _ := season.ParseDate("2026-11-25")
	result, err := ledger.Load(ledger.Options{Files: ledger.Disk{}, Main: main, Builtin: data.Builtin(), AsOf: today})
	require.NoError(b, err)
	return result.Ledger
}

// The families of a season and the plan of a pilot of the demo.
func BenchmarkFamiliesAndPlan(b *testing.B) {
	l := demoLedger(b)
	s := season.Selection{Pilot: l.PilotNamed("ines"), Season: 2026}
	b.Run("families", func(b *testing.B) {
		for b.Loop() {
			analysis.FamiliesOf(l, s)
		}
	})
	b.Run("plan", func(b *testing.B) {
		for b.Loop() {
			analysis.PlanOf(l, s, nil)
		}
	})
}
