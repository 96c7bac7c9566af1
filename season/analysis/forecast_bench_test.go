package analysis_test

import (
	"math/rand/v2"
	"testing"

	"boxbook/season/analysis"
	"boxbook/season/internal/testkit/simulate"
)

// Two busy seasons, half of the flights on unknowns: a forecast with its record of
// twenty.
func BenchmarkForecastWithRecord(b *testing.B) {
	career := simulate.Career{
		Flights: 50, PerContest: 5, MeanCost: 2.5, Never: -1, Judges: 5,
		Noise: simulate.Noise{Levels: .4, Contest: .2, Flight: .3, Figure: .8, Judge: .5},
	}
	_, flights, drawn := career.Make(rand.New(rand.NewPCG(simulateSeed, 1)))
	l, pilot := modelLedger(flights)
	next := modelSequence(drawn)
	for b.Loop() {
		if !analysis.ForecastOf(l, pilot, next).Told || analysis.ForecastRecord(l, pilot, next.Category, nil).Of == 0 {
			b.Fatal("nothing was told")
		}
	}
}
