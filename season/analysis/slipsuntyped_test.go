package analysis_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A debt of exactly what a count found is what may have been paid without a line, by the
// day of the count; not where it was paid since, nor beside a line typed twice, nor where a
// later count agrees.
func TestMayBeUntyped(t *testing.T) {
	dues := "cost 2026-01-05 dues 30.00 EUR each for ines tobias by club to club"
	for _, c := range []struct {
		name  string
		lines []string
		want  []string
	}{
		{"all that is owed", []string{dues, "settle 2026-02-01 ines club 30.00 EUR", "in-hand 2026-03-01 bank 160.00 EUR"}, []string{"tobias 30.00"}},
		{"of two", []string{dues, "in-hand 2026-03-01 bank 130.00 EUR"}, []string{"ines 30.00", "tobias 30.00"}},
		{
			"one debt of two",
			[]string{dues, "settle 2026-02-01 ines club 30.00 EUR", "cost 2026-02-02 towing 7.50 EUR for tobias by club", "in-hand 2026-03-01 bank 130.00 EUR"},
			[]string{"tobias 7.50 of 2026-02-02"},
		},
		{"what the club owes", []string{"cost 2026-02-01 hall 20.00 EUR for club by ines", "in-hand 2026-03-01 bank 80.00 EUR"}, []string{"ines 20.00 out"}},
		{"what a payment made", []string{"settle 2026-02-01 ines club 30.00 EUR", "in-hand 2026-03-01 bank 100.00 EUR"}, nil},
		{
			"another debt paid after the count",
			[]string{dues, "settle 2026-02-01 ines club 30.00 EUR", "cost 2026-02-02 entry 45.00 EUR for tobias by club", "in-hand 2026-03-01 bank 115.00 EUR", "settle 2026-03-05 tobias club 45.00 EUR"},
			[]string{"tobias 30.00 of 2026-01-05"},
		},
		{"owed after the count", []string{"in-hand 2026-03-01 bank 130.00 EUR", "cost 2026-03-05 dues 30.00 EUR for ines by club to club"}, nil},
		{"paid after the count", []string{dues, "settle 2026-02-01 ines club 30.00 EUR", "in-hand 2026-03-01 bank 160.00 EUR", "settle 2026-03-05 tobias club 30.00 EUR"}, nil},
		{
			"a line typed twice",
			[]string{dues, "settle 2026-02-01 ines club 30.00 EUR", "settle 2026-02-02 ines club 30.00 EUR", "in-hand 2026-03-01 bank 130.00 EUR"},
			nil,
		},
		{"a later count agrees", []string{dues, "in-hand 2026-03-01 bank 130.00 EUR", "in-hand 2026-04-01 bank 100.00 EUR"}, nil},
		{"another amount", []string{dues, "in-hand 2026-03-01 bank 131.00 EUR"}, nil},
		{"in another currency", []string{"cost 2026-01-05 dues 30.00 CHF for ines by club to club", "in-hand 2026-03-01 bank 130.00 EUR"}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			y := yearOf(t, yearBook(t, append([]string{"in-hand 2026-01-01 bank 100.00 EUR"}, c.lines...)...), 2026)
			var got []string
			for _, u := range y.InHand[1].Untyped {
				said := u.Party.Name() + " " + u.Money.Text()
				if u.Out {
					said += " out"
				}
				if u.Of != nil {
					said += " of " + u.Since.String()
				}
				got = append(got, said)
			}
			assert.Equal(t, c.want, got)
		})
	}
}

// Where a debt may have been paid without a line, no right payment is said to have moved
// twice, and no pair of slips is looked for; an amount with its point elsewhere still is.
func TestUntypedBeforeAmounts(t *testing.T) {
	lines := []string{
		"in-hand 2026-01-01 bank 100.00 EUR", "cost 2026-01-05 dues 30.00 EUR each for ines tobias by club to club",
		"settle 2026-02-01 ines club 30.00 EUR",
	}
	h := yearOf(t, yearBook(t, append(lines, "in-hand 2026-03-01 bank 160.00 EUR")...), 2026).InHand[1]
	require.Len(t, h.Untyped, 1)
	assert.Empty(t, h.Slips)
	assert.Nil(t, h.Pairs)
	h = yearOf(t, yearBook(t, append(lines, "settle 2026-02-02 tobias club 3.00 EUR", "in-hand 2026-03-01 bank 160.00 EUR")...), 2026).InHand[1]
	require.Len(t, h.Untyped, 1)
	require.Len(t, h.Slips, 1)
	assert.Equal(t, "3.00 for 30.00", fmt.Sprint(h.Slips[0].Typed.Text(), " for ", h.Slips[0].MeantAmount.Text()))
}
