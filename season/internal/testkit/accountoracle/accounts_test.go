package accountoracle

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
)

// said is amounts as plain numbers, those that are zero left out.
func said(a Amounts) map[string]int64 {
	out := map[string]int64{}
	for name, amount := range a {
		if amount.Sign() != 0 {
			out[name] = amount.Int64()
		}
	}
	return out
}

const story = `
pilot ines
  name "Ines Halloran"
contest tarn-open 2026-04-18..2026-04-19
  cost  entry 95.00 EUR for ines by club "with the block entry"
  cost  2026-03-01 fuel 10 CHF for yuki   # before the contest
cost   2025-06-01 lodging 100.00 EUR for ines tobias yuki by yuki
cost   2026-05-01 entry -15,01 EUR for ines tobias
cost   2026-05-02 membership 120.00 EUR for yuki by club to club
cost   2026-05-02 tea 100 JPY for ines tobias yuki by tobias
income 2026-03-01 sponsorship 300.00 EUR
income 2026-03-01 prize 5.000 BHD for yuki
settle 2026-12-01 ines club 95.00 EUR
owed   2026-01-01 tobias club 40.00 EUR
rate   2026 JPY 0.006 EUR
`

// By hand, from the rules (derived):
//
//	2025  100.00 among three: 33.34 to ines, the first, 33.33 each to the others;
//	      yuki paid: +33.34 +33.33 = +66.67, ines -33.34, tobias -33.33
//	2026  entry 95.00: club +95.00, ines -95.00, and back by the settlement
//	      refund -15.01 for two: -7.51 to ines, -7.50 to tobias; ines got it, so
//	      she owes tobias 7.50
//	      membership, billed: club +120.00, yuki -120.00
//	      tea, 100 JPY among three: 34, 33, 33; tobias +34 +33 = +67
//	      owed: club +40.00, tobias -40.00
func TestKeep(t *testing.T) {
	a := Keep(story, 2026, "2026-12-31")
	assert.Equal(t, map[string]int64{"ines EUR": -3334, "tobias EUR": -3333, "yuki EUR": 6667}, said(a.Opening))
	assert.Equal(t, map[string]int64{
		"ines EUR": -3334 - 750, "tobias EUR": -3333 + 750 - 4000, "yuki EUR": 6667 - 12000, "club EUR": 12000 + 4000,
		"ines JPY": -34, "tobias JPY": 67, "yuki JPY": -33,
	}, said(a.Closing))
	assert.Equal(t, map[string]int64{"club EUR": 9500, "yuki CHF": 1000, "ines EUR": -1501, "tobias JPY": 100}, said(a.Paid))
	assert.Equal(t, map[string]int64{
		"ines entry EUR": 9500 - 751, "tobias entry EUR": -750, "yuki membership EUR": 12000, "yuki fuel CHF": 1000,
		"ines tea JPY": 34, "tobias tea JPY": 33, "yuki tea JPY": 33,
	}, said(a.Costs))
	assert.Equal(t, map[string]int64{"club sponsorship EUR": 30000, "club membership EUR": 12000, "yuki prize BHD": 5000}, said(a.Income))
	assert.Equal(t, map[string]int64{"tarn-open EUR": 9500, "tarn-open CHF": 1000}, said(a.Contests))
	// ines: -40.84 EUR - 34 JPY x 0.006 = -41.044
	assert.Equal(t, "-41.044", a.Worth["ines"].FloatString(3))
	assert.Nil(t, Keep(story, 2025, "2026-12-31").Worth)
}

func TestFewestPayments(t *testing.T) {
	for _, c := range []struct {
		balances []int64
		want     int
	}{
		{nil, 0},
		{[]int64{5, -5}, 1},
		{[]int64{5, -5, 3, -3}, 2},
		{[]int64{5, -2, -3}, 2},
		{[]int64{4, 3, -5, -2}, 3},
		{[]int64{4, 3, -5, -2, 6, -6}, 4},
		{[]int64{1, 2, 3, -4, -1, -1}, 4}, // 1 with -1; 2 3 -4 -1 by three
	} {
		var balances []*big.Int
		for _, b := range c.balances {
			balances = append(balances, big.NewInt(b))
		}
		assert.Equal(t, c.want, FewestPayments(balances), c.balances)
	}
	assert.Panics(t, func() { FewestPayments(make([]*big.Int, 7)) })
}
