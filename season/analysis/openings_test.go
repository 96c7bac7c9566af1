package analysis_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Two or more later counts that are off by one amount may be off by a first count of which
// two digits are swapped: it is said once, with the first of them in its year, else with
// the latest; beside what explains one count alone. Counts before which another agreed, or
// that agree again, tell nothing of it.
func TestFirstCountSwapped(t *testing.T) {
	const (
		opening = "in-hand 2024-12-31 bank 1240 EUR\n"
		march   = "in-hand 2025-03-31 bank 1450 EUR\n"
		june    = "in-hand 2025-06-30 bank 1480 EUR\n"
		autumn  = "in-hand 2026-06-30 bank 1400 EUR\n"
		moves   = "income 2025-02-01 gift 30 EUR\nincome 2025-05-01 gift 30 EUR\ncost 2026-01-05 rent 80 EUR for club by club\n"
		said    = "1240.00 for 1420.00"
	)
	for _, c := range []struct {
		name, lines string
		year        int
		want        []string
	}{
		{"two of a year", opening + march + june, 2025, []string{"2025-03-31 " + said}},
		{"the second of another year", opening + june + autumn, 2026, []string{"2026-06-30 " + said}},
		{"the first, when the second is known", opening + june + autumn, 2025, []string{"2025-06-30 " + said}},
		{"the latest of a year, all of which are off", opening + march + "in-hand 2026-02-01 bank 1400 EUR\n" + autumn, 2026, []string{"2026-06-30 " + said}},
		{"one alone", opening + march, 2025, []string{"2025-03-31 " + said}},
		{"its point", strings.Replace(opening, "1240", "124", 1) + "in-hand 2025-03-31 bank 1270 EUR\n", 2025, []string{"2025-03-31 124.00 for 1240.00"}},
		{"by another amount", opening + march + "in-hand 2025-06-30 bank 1470 EUR\n", 2025, nil},
		{"no two digits", strings.Replace(opening, "1240", "1245", 1) + march + june, 2025, nil},
		{"one before agreed", opening + "in-hand 2025-02-01 bank 1270 EUR\n" + march + june, 2025, nil},
		{"one after agrees", opening + march + "in-hand 2025-06-30 bank 1300 EUR\n", 2025, nil},
		{"another currency", strings.ReplaceAll(opening, "EUR", "CHF") + strings.Replace(opening, "1240", "1420", 1) + march + june, 2025, nil},
		{
			"an overdraft", "in-hand 2024-12-31 bank -120 EUR\nin-hand 2025-03-31 bank -180 EUR\nin-hand 2025-06-30 bank -150 EUR\n", 2025,
			[]string{"2025-03-31 -120.00 for -210.00"},
		},
		{
			"of two pots", opening + "in-hand 2024-12-31 till 35 EUR\n" + march + "in-hand 2025-03-31 till 35 EUR\n" + june + "in-hand 2025-06-30 till 35 EUR\n", 2025,
			[]string{"2025-03-31 " + said},
		},
		{
			"of a pot that was begun later", "in-hand 2024-12-31 bank 100 EUR\nin-hand 2025-02-10 bank 130 EUR\nin-hand 2025-02-10 till 35 EUR\n" +
				"in-hand 2025-03-31 bank 130 EUR\nin-hand 2025-03-31 till 53 EUR\nin-hand 2025-06-30 bank 160 EUR\nin-hand 2025-06-30 till 53 EUR\n", 2025,
			[]string{"2025-03-31 35.00 for 53.00"},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got []string
			for _, h := range yearOf(t, yearBook(t, c.lines+moves), c.year).InHand {
				for _, s := range h.Slips {
					if s.Opening {
						got = append(got, h.Date.String()+" "+s.Typed.Text()+" for "+s.MeantAmount.Text())
					} else {
						assert.Nil(t, s.Count, "a count that a later one repeats was not mistyped itself")
					}
				}
			}
			assert.Equal(t, c.want, got)
		})
	}
}
