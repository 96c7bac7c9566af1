package ledger

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data"
)

// loadMoney reads a ledger and says how long that took.
func loadMoney(t *testing.T, text string) (*Result, time.Duration) {
	t.Helper()
	start := cpuTime()
	result, err := Load(Options{Files: Memory{"test.boxbook": text}, Main: "test.boxbook", Builtin: data.Builtin(), AsOf: day(t, "2026-11-25")})
	require.NoError(t, err)
	return result, cpuTime() - start
}

// Thousands of pots are not held against each other, nor tens of thousands of lines
// with one slip's number.
func TestManyBooksIsQuick(t *testing.T) {
	const bound = 3 * time.Second // of 59 and 4 when each was held against each
	random := rand.New(rand.NewPCG(26, 11))
	pots, receipts := new(strings.Builder), new(strings.Builder)
	pots.WriteString("pilot ines\n")
	for i := range 6000 {
		name := make([]byte, 9)
		for at := range name {
			name[at] = byte('a' + random.IntN(26))
		}
		fmt.Fprintf(pots, "in-hand 2026-01-%02d %s 5.00 EUR\n", 1+i%28, name)
	}
	receipts.WriteString("pilot ines\n")
	for i := range 40_000 {
		fmt.Fprintf(receipts, "cost 2026-01-05 fuel %d.00 EUR for club by ines receipt 1\n", i+1)
	}
	for _, text := range []string{pots.String(), receipts.String()} {
		result, took := loadMoney(t, text)
		assert.Zero(t, result.Diagnostics.Errors())
		assert.Less(t, took, bound)
	}
}
