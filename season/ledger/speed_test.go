package ledger

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"boxbook/data"
	"boxbook/season"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The ledger of a long career: thirty seasons of five contests, five flights
// each, twelve figures before five judges.
const (
	longSeasons  = 30
	longContests = 5
	longFlights  = 5
	longFigures  = 12
)

// longLedger writes that ledger; the same each time.
func longLedger() string {
	var b strings.Builder
	b.WriteString("pilot ines\n  name  \"Ines Halloran\"\n  club  \"Kestrel Aero Club\"\n\ncoach marek\n  name  \"Marek Oduya\"\n")
	programmes := []string{"known", "free", "unknown", "free-unknown", "final"}
	for s := range longSeasons {
		year := 1997 + s
		longSequence(&b, year)
		for c := range longContests {
			month := 4 + c
			fmt.Fprintf(&b, "\ncontest c%d-%d %d-%02d-10..%d-%02d-14\n  name   \"Contest %d\"\n  ladder us\n  rules  panel-mean\n  panel  AK BM CT DW RS\n", year, c, year, month, year, month, c)
			fmt.Fprintf(&b, "  cost   entry 95.00 EUR for ines by club\n  duty   scribe ines 2\n")
			for f := range longFlights {
				longFlight(&b, year, month, c, f, programmes[f])
			}
		}
	}
	return b.String()
}

func longSequence(b *strings.Builder, year int) {
	fmt.Fprintf(b, "\nsequence s%d\n  category     intermediate\n", year)
	for figure := 1; figure <= longFigures; figure++ {
		fmt.Fprintf(b, "  %-12d 8.5.2.%d:10 9.1.4.%d:4   \"half Cuban\"   # as on the form\n", figure, figure, figure)
	}
	b.WriteString("  positioning  K 10\n")
}

func longFlight(b *strings.Builder, year, month, c, f int, programme string) {
	fmt.Fprintf(b, "\nflight %d-%02d-%d ines %s\n  contest      c%d-%d\n  sequence     s%d\n", year, month, 10+f, programme, year, c, year)
	for row := range longFigures + 1 {
		name := "positioning"
		if row < longFigures {
			name = fmt.Sprint(row + 1)
		}
		fmt.Fprintf(b, "  %-12s", name)
		for judge := range 5 {
			half := 12 + (7*row+5*judge+3*f+c+year)%6
			if nth := longFlights*c + f; row == 0 && judge < 2 { // no two flights of a season alike
				half = 12 + []int{nth % 6, nth / 6}[judge]
			}
			fmt.Fprintf(b, " %d.%d", half/2, half%2*5)
		}
		b.WriteString("\n")
	}
	fmt.Fprintf(b, "  penalty      low 20\n  place        3 of 9\n  fault        2 roll-stop 10deg on 9.1.4.2 seen by marek \"late\"\n  reviewed     by marek\n")
}

// loadLong reads the long ledger once.
func loadLong(t testing.TB, text string, today season.Date) *Result {
	t.Helper()
	result, err := Load(Options{Files: Memory{"test.boxbook": text}, Main: "test.boxbook", Builtin: data.Builtin(), AsOf: today})
	require.NoError(t, err)
	return result
}

// A ledger of thirty seasons is read in an instant. The bound is loose, for slow
// machines; the time itself, the processor's, the best of several, is in the log.
func TestLongLedgerIsReadQuickly(t *testing.T) {
	if raceDetector {
		t.Skip("the race detector slows reading down")
	}
	text, today := longLedger(), day(t, "2026-11-25")
	result := loadLong(t, text, today)
	require.Empty(t, rendered(t, result.Diagnostics))
	require.Len(t, result.Ledger.Flights, longSeasons*longContests*longFlights)
	require.Len(t, result.Ledger.Contests, longSeasons*longContests)
	const bound = 250 * time.Millisecond
	best := time.Hour
	for i := 0; i < 5 || (best >= bound && i < 20); i++ {
		start := cpuTime()
		loadLong(t, text, today)
		best = min(best, cpuTime()-start)
	}
	t.Logf("%d flights, %d lines, %d KiB: %s", len(result.Ledger.Flights), strings.Count(text, "\n"), len(text)>>10, best)
	assert.Less(t, best, bound)
}

func BenchmarkLoad(b *testing.B) {
	text, today := longLedger(), day(b, "2026-11-25")
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		loadLong(b, text, today)
	}
}

// mostAllocations bounds what a reading allocates for each line of a long ledger:
// a count, which no busy machine changes. It was 4.6 with words, lines and
// marks of each row allocated one by one.
const mostAllocations = 1.7

func TestReadingAllocatesLittleForALine(t *testing.T) {
	text, today := longLedger(), day(t, "2026-11-25")
	loadLong(t, text, today)
	count := testing.AllocsPerRun(2, func() { loadLong(t, text, today) })
	perLine := count / float64(strings.Count(text, "\n"))
	t.Logf("%.0f allocations, %.2f a line", count, perLine)
	assert.Less(t, perLine, mostAllocations)
}

// mostForARow bounds what reading and scoring an archive allocates for each row of
// a figure: a count. The shipped rules and the flights that are not plain, one in
// forty, are in it; plain ones take no allocation of their own.
const mostForARow = 0.12

func TestArchiveAllocatesLittleForARow(t *testing.T) {
	text, today := archiveText(t, 2_000_000), day(t, "2026-11-25")
	rows := 0
	count := testing.AllocsPerRun(1, func() {
		rows = 0
		for _, f := range loadLong(t, text, today).Ledger.Flights {
			rows += f.Rows.Len()
			require.True(t, f.Total().Decided())
		}
	})
	t.Logf("%d rows, %.3f allocations each", rows, count/float64(rows))
	assert.Less(t, count/float64(rows), mostForARow)
}
