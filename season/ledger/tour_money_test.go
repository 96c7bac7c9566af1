package ledger

import (
	"fmt"
	"strings"
	"testing"

	"boxbook/season"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTourDrills(t *testing.T) {
	l := tour(t)
	require.Len(t, l.Drills, 2)
	drill := l.Drills[0]
	assert.Equal(t, "2026-05-03", drill.Date.String())
	assert.Equal(t, l.PilotNamed("ines"), drill.Pilot)
	assert.Equal(t, "radius", drill.Target)
	assert.Equal(t, "four loops a leg, the quarters counted aloud", drill.Text)
	assert.Equal(t, []string{"2026-04-18/ines/known", "2026-04-19/ines/unknown"}, named(drill.Prompted, func(f *season.Flight) string { return f.Name }))
	assert.Same(t, flightOf(t, l, "2026-04-18/ines/known"), drill.Prompted[0])
	assert.Equal(t, l.Coaches[0], drill.By)
	assert.Equal(t, "spins", l.Drills[1].Target)
	assert.Empty(t, l.Drills[1].Prompted)
	assert.Nil(t, l.Drills[1].By)
}

func TestTourSignoff(t *testing.T) {
	l := tour(t)
	require.Len(t, l.Signoffs, 1)
	s := l.Signoffs[0]
	assert.Equal(t, []any{"2026-09-12", l.PilotNamed("ines"), "advanced", l.Coaches[0], "spins and inverted recoveries flown dual"},
		[]any{s.Date.String(), s.Pilot, s.Category, s.By, s.Remark})
}

// costText is a cost in words, its shares included.
func costText(c *season.Cost) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s %s %s %s for", c.Date, c.Kind, c.Money.Text(), c.Money.Currency.Code)
	for _, p := range c.For {
		b.WriteString(" " + p.Name())
	}
	if !c.Income {
		fmt.Fprintf(&b, " by %s shares %v", c.By.Name(), c.Shares())
	}
	if c.ToClub {
		b.WriteString(" to club")
	}
	if c.Income {
		b.WriteString(" income")
	}
	if c.Contest != nil {
		b.WriteString(" at " + c.Contest.Handle)
	}
	return b.String()
}

func TestTourCosts(t *testing.T) {
	l := tour(t)
	assert.Equal(t, []string{
		"2026-04-18 entry 95.00 EUR for ines by club shares [9500] at tarn-open",
		"2026-04-18 fuel 61.40 EUR for ines by ines shares [6140] at tarn-open",
		"2026-05-16 entry 90.00 EUR for tobias yuki by club shares [4500 4500] at lakes-finals",
		"2026-01-10 membership 120.00 EUR for ines by ines shares [12000] to club",
		"2026-01-10 membership 120.00 EUR for mara by club shares [12000] to club",
		"2026-02-01 hall-hire 30.00 EUR for club by tobias shares [3000]",
		"2026-04-18 lodging 180.00 EUR for ines tobias yuki by yuki shares [6000 6000 6000]",
		"2026-05-20 entry -15.00 EUR for tobias by tobias shares [-1500]",
		"2026-08-08 landing 30.00 CHF for mara by mara shares [3000]",
		"2026-03-01 sponsorship 300.00 EUR for club income",
		"2026-05-17 prize 50.00 EUR for yuki income",
	}, named(l.Costs, costText))
	assert.Equal(t, "paid with the block entry", l.Costs[0].Remark)
	assert.Equal(t, "local paper", l.Costs[9].Remark)
}

func TestTourDebts(t *testing.T) {
	l := tour(t)
	ines, euro := season.Party{Pilot: l.PilotNamed("ines")}, season.Currency{Code: "EUR", Decimals: 2}
	require.Len(t, l.Settlements, 1)
	settled := *l.Settlements[0]
	settled.At = season.Place{}
	assert.Equal(t, season.Settlement{Date: day(t, "2026-11-20"), From: ines, To: season.Party{}, Money: season.Money{Minor: 9500, Currency: euro}, Paid: season.Money{Minor: 9500, Currency: euro}}, settled)
	require.Len(t, l.Debts, 1)
	owed := *l.Debts[0]
	owed.At = season.Place{}
	assert.Equal(t, season.Debt{
		Date: day(t, "2026-01-01"), From: ines, To: season.Party{}, Money: season.Money{Minor: 4000, Currency: euro}, Remark: "from the old book",
	}, owed)
	require.Len(t, l.Rates, 1)
	rate := l.Rates[0]
	assert.Equal(t, []any{2026, "CHF", "1.04", "EUR"}, []any{rate.Year, rate.From.Code, rate.Rate.String(), rate.To.Code})
}

// [derived], cent by cent: ines owed the club 40 and 95 for the entry and 60 to
// yuki, and paid 95; and so on. All balances of a currency sum to zero.
func TestTourBalances(t *testing.T) {
	l := tour(t)
	balances := season.Balances{}
	for _, m := range season.Movements(l) {
		balances.Apply(m)
	}
	got := map[string]int64{}
	for account, minor := range balances {
		if minor != 0 {
			got[account.Party.Name()+" "+account.Currency.Code] = minor
		}
	}
	assert.Equal(t, map[string]int64{
		"ines EUR":   -4000 - 9500 - 6000 + 9500,
		"tobias EUR": -4500 - 6000 + 3000,
		"yuki EUR":   -4500 + 12000,
		"mara EUR":   -12000,
		"club EUR":   4000 + 9500 - 9500 + 9000 + 12000 - 3000,
	}, got)
}
