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

// By hand, from the rules [derived]:
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

const newerStory = `
pilot ines
pilot tobias
pilot yuki
contest tarn-open 2026-04-18..2026-04-19
  result yuki place 1 of 4
  result ines place 2 of 4
  cost  entry 10.01 EUR for all by marek receipt 17
  cost  dinner 7.00 EUR each for all by club
cost   2026-06-01 fuel 10.00 EUR for ines 2 tobias 1 by rolf receipt A-4 "a remark"
cost   2026-06-02 fuel -0.05 EUR for ines 1 tobias 1 yuki 2
cost   2026-07-01 membership 120.00 EUR each for ines tobias to club
settle 2026-12-02 tobias club 104.00 EUR for 100.00 CHF receipt 9
`

// By hand, from the rules [derived]:
//
//	entry 10.01 for ines and yuki, who have results, ines defined first: 5.01, 5.00
//	dinner 7.00 of each: club +14.00
//	fuel 10.00 two to one: 6.66 and 3.33, the cent left to ines: 6.67, 3.33
//	refund 0.05, one, one, two: 0.01, 0.01, 0.02, the cent left to ines; ines
//	     received it for the others: she owes 0.01 and 0.02
//	membership 240.00 for two, paid by ines: tobias owes her 120.00
//	settlement: the debt of 100.00 CHF
func TestKeepNewerLines(t *testing.T) {
	a := Keep(newerStory, 2026, "2026-12-31")
	assert.Equal(t, map[string]int64{
		"ines EUR": -501 - 700 - 667 - 3 + 12000, "yuki EUR": -500 - 700 + 2, "tobias EUR": -333 + 1 - 12000,
		"marek EUR": 1001, "rolf EUR": 1000, "club EUR": 1400, "tobias CHF": 10000, "club CHF": -10000,
	}, said(a.Closing))
	assert.Equal(t, map[string]int64{"club membership EUR": 24000}, said(a.Income))
	assert.Equal(t, map[string]int64{"tarn-open EUR": 1001 + 1400}, said(a.Contests))
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
