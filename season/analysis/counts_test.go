package analysis_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
)

// What is off splits into what was off before and what is new; the ledger's figure is
// the cash book's; a day on which all pots were counted is sure, and what is new on such
// days adds up to what is off.
func TestCountsAddUp(t *testing.T) {
	for seed := range uint64(60) {
		random := rand.New(rand.NewPCG(seed, 7))
		var lines []string
		pots := []string{"bank", "cash-box", "till"}[:1+random.IntN(3)]
		for day := range 60 {
			date := yearDay(t, "2026-01-01") + season.Date(day)
			if random.IntN(3) == 0 {
				lines = append(lines, fmt.Sprintf("income %s prize %d EUR", date, 1+random.IntN(9)))
			}
			if random.IntN(5) == 0 {
				lines = append(lines, fmt.Sprintf("settle %s club ines %d EUR \"%d\"", date, 1+random.IntN(9), day))
			}
			all := random.IntN(12) == 0
			for _, pot := range pots {
				if all || random.IntN(15) == 0 {
					lines = append(lines, fmt.Sprintf("in-hand %s %s %d EUR", date, pot, random.IntN(400)))
				}
			}
		}
		l := yearBook(t, lines...)
		sum, sure := int64(0), true
		y := yearOf(t, l, 2026)
		for _, h := range y.InHand {
			c := h.Compared
			if c == nil {
				continue
			}
			assert.Equal(t, l.ClubHeld(c.Book.Currency, h.Date), c.Book.Minor)
			assert.Equal(t, c.Money.Minor-c.Book.Minor, c.Off().Minor)
			if len(c.Stale) > 0 {
				assert.Empty(t, h.Slips)
				continue
			}
			sum += c.New().Minor
			sure = assert.Equal(t, sum, c.Off().Minor, "%d: %s", seed, h.Date) && sure
		}
		require.True(t, sure)
	}
}
