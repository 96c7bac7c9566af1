package entry

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/season"
)

// The year to agree is the latest that has money and is over, or ends today.
func TestYearToAgree(t *testing.T) {
	day := func(text string) season.Date {
		d, ok := season.ParseDate(text)
		assert.True(t, ok)
		return d
	}
	for _, c := range []struct {
		today  string
		start  season.MonthDay
		costs  []string
		settle string
		want   int
	}{
		{today: "2026-12-31", costs: []string{"2026-03-01"}, want: 2026},
		{today: "2026-12-30", costs: []string{"2026-03-01"}, want: 2025},
		{today: "2026-12-30", costs: []string{"2026-03-01", "2024-03-01"}, want: 2024},
		{today: "2027-03-01", costs: []string{"2027-02-01", "2026-03-01"}, want: 2026},
		{today: "2027-03-01", costs: []string{"2025-02-01"}, settle: "2026-02-01", want: 2026},
		{today: "2026-09-30", start: season.MonthDay{Month: 10, Day: 1}, costs: []string{"2026-03-01"}, want: 2025},
		{today: "2026-11-25", want: 2025},
	} {
		l := &season.Ledger{AsOf: day(c.today), YearStart: c.start}
		for _, date := range c.costs {
			l.Costs = append(l.Costs, &season.Cost{Date: day(date)})
		}
		if c.settle != "" {
			l.Settlements = append(l.Settlements, &season.Settlement{Date: day(c.settle)})
		}
		assert.Equal(t, c.want, yearToAgree(l), "%v", c)
	}
}
