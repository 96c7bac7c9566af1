package answers

import (
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"boxbook/report/internal/testkit"
	"boxbook/season"
	"boxbook/season/testkit/longledger"
)

// allocations counts what is allocated in doing something.
func allocations(do func()) float64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	do()
	runtime.ReadMemStats(&after)
	return float64(after.Mallocs - before.Mallocs)
}

// The bounds on what home and a row of pilots allocate for each flight in the
// ledger. With every flight scored for the new families it was 350.
const (
	mostForPilots = 100
	mostForHome   = 120
)

// Home and the table of pilots look at a few figures of most flights: a count of
// allocations says whether something scores them all again.
func TestHomeAndPilotsScoreWhatTheyShow(t *testing.T) {
	text := longledger.Text(longledger.Ten(2))
	l := testkit.Book(t, text)
	for _, f := range l.Flights {
		require.NotZero(t, f.Rows.Len())
	}
	flights := float64(len(l.Flights))
	require.Less(t, allocations(func() { PilotsOf(l) })/flights, float64(mostForPilots))

	l = testkit.Book(t, text)
	count := allocations(func() {
		_, err := HomeOf(l, l.Pilots[0])
		require.NoError(t, err)
	})
	require.Less(t, count/float64(len(l.Select(season.Selection{Pilot: l.Pilots[0]}))), float64(mostForHome))
}
