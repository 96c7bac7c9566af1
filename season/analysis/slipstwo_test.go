package analysis_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
)

// Two slips that together explain a count which none explains alone, of every kind of slip
// that there is; no more than three such pairs are kept.
func TestPairsOfSlips(t *testing.T) {
	with := func(lines ...string) []string {
		return append([]string{"cost 2026-03-01 repair 74.50 EUR for club", "cost 2026-03-03 repair 74.50 EUR for club"}, lines...)
	}
	for _, c := range []struct {
		name  string
		lines []string
		want  []string
	}{
		{"one alone does", with("in-hand 2026-06-01 bank 925.50 EUR"), nil},
		{"twice, and never", with("cost 2026-04-01 rent 50.00 EUR for club", "in-hand 2026-06-01 bank 925.50 EUR"), []string{"-74.50 twice line 7 + -50.00 line 8"}},
		{
			"of those with one that stands twice, not of all",
			with("cost 2026-04-01 rent 50.00 EUR for club", "cost 2026-04-02 tea 24.50 EUR for club", "cost 2026-04-03 cups 100.00 EUR for club", "in-hand 2026-06-01 bank 801.00 EUR"),
			[]string{"-74.50 twice line 7 + -50.00 line 8"},
		},
		{"both twice", with("cost 2026-03-04 tea 3.33 EUR for club", "cost 2026-03-05 tea 3.33 EUR for club", "in-hand 2026-06-01 bank 922.17 EUR"), []string{"-74.50 twice line 7 + -3.33 twice line 9"}},
		{"swapped digits, and never", []string{"cost 2026-03-01 repair 54.00 EUR for club", "cost 2026-04-01 rent 7.13 EUR for club", "in-hand 2026-06-01 bank 955.00 EUR"}, []string{"-9.00 54.00 for 45.00 line 6 + -7.13 line 7"}},
		{"another year, and never", []string{"cost 2025-03-01 repair 54.00 EUR for club", "cost 2026-04-01 rent 7.00 EUR for club", "in-hand 2026-06-01 bank 946.00 EUR"}, []string{"54.00 meant 2026-03-01 line 6 + -7.00 line 7"}},
		{
			"another year, whose count agreed",
			[]string{"in-hand 2024-12-31 bank 1054.00 EUR", "cost 2025-03-01 repair 54.00 EUR for club", "in-hand 2025-12-31 bank 1000.00 EUR", "cost 2026-04-01 rent 7.00 EUR for club", "in-hand 2026-06-01 bank 946.00 EUR"},
			nil,
		},
		{"the count's own digits, and never", []string{"cost 2026-04-01 rent 7.13 EUR for club", "in-hand 2026-06-01 bank 1900.00 EUR"}, nil},
		{"the count's own digits, and twice", with("in-hand 2026-06-01 bank 952.50 EUR"), []string{"-74.50 twice line 7 + -27.00 952.50 for 925.50 line 8"}},
		{
			"noted in another currency, and never",
			[]string{"in-hand 2026-01-01 bank 50.00 GBP", "cost 2026-02-05 repair 30.01 GBP for club", "in-hand 2026-06-01 bank 50.00 GBP", "cost 2026-02-07 tea 12.34 EUR for club", "in-hand 2026-06-01 bank 969.99 EUR"},
			[]string{"30.01 in EUR line 7 + -12.34 line 9"},
		},
		{
			"any one of lines that are alike, and never",
			[]string{
				"cost 2026-02-01 hangar 40.00 EUR for club receipt 1", "cost 2026-03-01 hangar 40.00 EUR for club receipt 2", "cost 2026-04-01 hangar 40.00 EUR for club receipt 3 \"April\"",
				"cost 2026-05-01 hangar 40.00 EUR for club receipt 4", "cost 2026-05-02 tea 12.30 EUR for club", "in-hand 2026-06-01 bank 880.00 EUR",
			},
			[]string{"-40.00 line 6 of 4 + -12.30 line 10"},
		},
		{
			"three pairs",
			[]string{"cost 2026-02-01 a 1.00 EUR for club", "cost 2026-02-02 b 21.00 EUR for club", "cost 2026-02-03 c 2.00 EUR for club", "cost 2026-02-04 d 20.00 EUR for club", "cost 2026-02-05 e 3.00 EUR for club", "cost 2026-02-06 f 19.00 EUR for club", "in-hand 2026-06-01 bank 956.00 EUR"},
			[]string{"-1.00 line 6 + -21.00 line 7", "-2.00 line 8 + -20.00 line 9", "-3.00 line 10 + -19.00 line 11"},
		},
		{
			"four pairs",
			[]string{
				"cost 2026-02-01 a 1.00 EUR for club", "cost 2026-02-02 b 21.00 EUR for club", "cost 2026-02-03 c 2.00 EUR for club", "cost 2026-02-04 d 20.00 EUR for club",
				"cost 2026-02-05 e 3.00 EUR for club", "cost 2026-02-06 f 19.00 EUR for club", "cost 2026-02-07 g 4.00 EUR for club", "cost 2026-02-08 h 18.00 EUR for club", "in-hand 2026-06-01 bank 934.00 EUR",
			},
			[]string{"more"},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			y := yearOf(t, yearBook(t, append([]string{"in-hand 2026-01-01 bank 1000.00 EUR"}, c.lines...)...), 2026)
			assert.Equal(t, c.want, pairsSaid(y.InHand[len(y.InHand)-1].Pairs))
		})
	}
}

func pairsSaid(p *analysis.SlipPairs) []string {
	if p == nil {
		return nil
	}
	if p.More {
		return []string{"more"}
	}
	var said []string
	for _, pair := range p.Pairs {
		var both []string
		for _, s := range pair {
			text := s.Explains.Text()
			if s.Twice {
				text += " twice"
			}
			if s.Meant != 0 {
				text += " meant " + s.Meant.String()
			}
			if s.MeantAmount.Minor != 0 {
				text += " " + s.Typed.Text() + " for " + s.MeantAmount.Text()
			}
			if s.MeantCurrency.Code != "" {
				text += " in " + s.MeantCurrency.Code
			}
			text += fmt.Sprintf(" line %d", s.At().Line)
			if s.Alike > 0 {
				text += fmt.Sprintf(" of %d", s.Alike)
			}
			both = append(both, text)
		}
		said = append(said, strings.Join(both, " + "))
	}
	return said
}

// The pairs that were tried, and how many of the differences as round and as near as many
// would explain, counted by hand.
func TestPairsTried(t *testing.T) {
	y := yearOf(t, yearBook(t,
		"in-hand 2026-01-01 bank 1000.00 EUR", "cost 2026-03-01 repair 74.50 EUR for club", "cost 2026-03-03 repair 74.50 EUR for club",
		"cost 2026-04-01 rent 50.00 EUR for club", "cost 2026-04-09 tea 12.30 EUR for club", "in-hand 2026-06-01 bank 913.20 EUR",
	), 2026)
	p := y.InHand[1].Pairs
	require.NotNil(t, p)
	assert.Equal(t, int64(9), p.Tried, "the second repair with the rent, the tea and three swaps of it, and four of the count")
	assert.Equal(t, "3 498", fmt.Sprint(p.Reached, " ", p.Of), "with -50.00, +9.00 and +18.00; of 0.50 to 124.50, either way")
}

// A difference that several pairs explain is one.
func TestDifferencesReachedOnce(t *testing.T) {
	lines := []string{"in-hand 2026-01-01 bank 1000.00 EUR"}
	for month := 2; month < 8; month++ {
		lines = append(lines, fmt.Sprintf("cost 2026-%02d-01 rent 11.00 EUR for club", month))
	}
	y := yearOf(t, yearBook(t, append(lines, "cost 2026-08-01 tea 22.22 EUR for club", "in-hand 2026-09-01 bank 933.78 EUR")...), 2026)
	p := y.InHand[1].Pairs
	require.NotNil(t, p)
	assert.Equal(t, []string{"-11.00 line 6 of 6 + -11.00 line 7 of 6"}, pairsSaid(p), "fifteen pairs of rents that are alike")
	assert.Equal(t, int64(15+2-3), p.Tried, "of rents, rents with digits swapped, tea and three swaps of the count; two of either rents; not two of the count")
	assert.Equal(t, "1 200", fmt.Sprint(p.Reached, " ", p.Of), "the 22.00 that all of them come to")
}

// Differences reached are counted as by going through all pairs.
func TestReachedBy(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 21))
	for range 2000 {
		minors, lines := make([]int64, random.IntN(12)), []int{}
		for i := range minors {
			minors[i] = random.Int64N(61) - 30
			lines = append(lines, random.IntN(5))
		}
		slices.Sort(minors)
		step, steps := []int64{1, 5, 10}[random.IntN(3)], 1+random.Int64N(30)
		want := map[int64]bool{}
		for i, x := range minors {
			for j, y := range minors {
				if sum := x + y; lines[i] != lines[j] && sum != 0 && sum%step == 0 && sum >= -steps*step && sum <= steps*step {
					want[sum] = true
				}
			}
		}
		require.Equal(t, int64(len(want)), analysis.ReachedBy(minors, lines, steps, step), "%v %v %d %d", minors, lines, steps, step)
	}
	far := []int64{1, 2}
	assert.Equal(t, int64(-1), analysis.ReachedBy(far, []int{1, 2}, 1<<25, 1), "too many to go through")
}

// Sums are counted as by going through all of them.
func TestSumsWithin(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 20))
	amounts := func() []int64 {
		all := make([]int64, random.IntN(9))
		for i := range all {
			all[i] = random.Int64N(21) - 10
		}
		slices.Sort(all)
		return all
	}
	for range 2000 {
		a, b := amounts(), amounts()
		low := random.Int64N(41) - 20
		high := low + random.Int64N(9)
		want := int64(0)
		for _, x := range a {
			for _, y := range b {
				if x+y >= low && x+y <= high {
					want++
				}
			}
		}
		require.Equal(t, want, analysis.SumsWithin(a, b, low, high), "%v %v %d to %d", a, b, low, high)
	}
}

// bookOfLines is a book of so many lines of one year whose only count is off by as much.
func bookOfLines(t testing.TB, lines int, largest, off int64) *season.Ledger {
	t.Helper()
	random := rand.New(rand.NewPCG(4, 19))
	var b strings.Builder
	total := int64(0)
	b.WriteString("in-hand 2026-01-01 bank 0.00 EUR\n")
	for i := range lines {
		minor := 100 + random.Int64N(largest)
		verb, whose := "income", ""
		if i%3 == 0 {
			verb, whose = "cost", " for club"
			total -= minor
		} else {
			total += minor
		}
		fmt.Fprintf(&b, "%s 2026-%02d-%02d rent %d.%02d EUR%s \"n%d\"\n", verb, 1+i*10/lines, 2+random.IntN(26), minor/100, minor%100, whose, i)
	}
	fmt.Fprintf(&b, "in-hand 2026-11-20 bank %d.%02d EUR\n", (total+off)/100, (total+off)%100)
	return yearBook(t, b.String())
}

func BenchmarkYearOfManyLines(b *testing.B) {
	for _, largest := range []int64{30_000, 90_000_000} {
		l := bookOfLines(b, 10_000, largest, 12_345)
		b.Run(fmt.Sprint(largest), func(b *testing.B) {
			for b.Loop() {
				y := yearOf(b, l, 2026)
				require.Len(b, y.InHand, 2)
			}
		})
	}
}
