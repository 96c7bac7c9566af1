package analysis_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/ledger"
)

// yearBook reads a ledger of the given lines that must have no errors, as of
// 2026-11-25; the members of the club are in it already.
func yearBook(t testing.TB, lines ...string) *season.Ledger {
	t.Helper()
	members := "pilot ines\npilot tobias\npilot yuki\npilot mara\n"
	return loadYear(t, members+strings.Join(lines, "\n")+"\n")
}

// loadYear reads a ledger text that must have no errors, as of 2026-11-25.
func loadYear(t testing.TB, text string) *season.Ledger {
	t.Helper()
	result, err := ledger.Load(ledger.Options{
		Files: ledger.Memory{"year.boxbook": text}, Main: "year.boxbook", Builtin: data.Builtin(), AsOf: yearDay(t, "2026-11-25"),
	})
	require.NoError(t, err)
	require.NoError(t, result.Diagnostics.Err())
	return result.Ledger
}

func yearDay(t testing.TB, text string) season.Date {
	t.Helper()
	date, ok := season.ParseDate(text)
	require.True(t, ok, text)
	return date
}

func yearOf(t testing.TB, l *season.Ledger, year int) analysis.YearSummary {
	t.Helper()
	y, err := analysis.YearSettled(l, year, analysis.Settling{})
	require.NoError(t, err)
	require.Equal(t, year, y.Year)
	return y
}

// accountsOf says everybody's accounts: "ines EUR 0.00 +1.00 = 1.00".
func accountsOf(y analysis.YearSummary) []string {
	var out []string
	add := func(name string, b analysis.Books) {
		for _, a := range b.Accounts {
			text := func(minor int64) string { return season.Money{Minor: minor, Currency: a.Currency}.Text() }
			out = append(out, fmt.Sprintf("%s %s: %s, %s, %s", name, a.Currency.Code, text(a.Opening), text(a.Movement()), text(a.Closing)))
		}
	}
	for _, p := range y.Pilots {
		add(p.Pilot.Handle, p.Books)
	}
	add("club", y.Club)
	return out
}

// paymentsOf says who should pay whom.
func paymentsOf(y analysis.YearSummary) []string {
	var out []string
	for _, p := range y.Payments {
		out = append(out, fmt.Sprintf("%s pays %s %s %s", p.From.Name(), p.To.Name(), p.Money.Text(), p.Money.Currency.Code))
	}
	return out
}

func kindsOf(sums []analysis.KindMoney) []string {
	var out []string
	for _, s := range sums {
		out = append(out, fmt.Sprintf("%s %s %s", s.Kind, s.Money.Text(), s.Money.Currency.Code))
	}
	return out
}

func booksOf(t testing.TB, y analysis.YearSummary, handle string) analysis.Books {
	t.Helper()
	for _, p := range y.Pilots {
		if p.Pilot.Handle == handle {
			return p.Books
		}
	}
	require.Fail(t, "no such pilot in the year", handle)
	return analysis.Books{}
}

// Every worked example gives opening, movement and closing of each account;
// the arithmetic stands beside it (derived, by hand).
var yearExamples = []struct {
	name     string
	lines    []string
	year     int
	accounts []string
	payments []string
}{
	{
		"odd cents go to the first named",
		// 100.00 / 3 = 33.33, one cent left: 33.34 33.33 33.33; yuki paid 100.00
		[]string{"cost 2026-04-18 lodging 100.00 EUR for ines tobias yuki by yuki"},
		2026,
		[]string{"ines EUR: 0.00, -33.34, -33.34", "tobias EUR: 0.00, -33.33, -33.33", "yuki EUR: 0.00, 66.67, 66.67"},
		[]string{"ines pays yuki 33.34 EUR", "tobias pays yuki 33.33 EUR"},
	},
	{
		"odd cents one each to the first named, fewer cents than people",
		// 0.02 / 3 = 0.00, two cents left: 0.01 0.01 0.00
		[]string{"cost 2026-04-18 lodging 0.02 EUR for ines tobias yuki by yuki"},
		2026,
		[]string{"ines EUR: 0.00, -0.01, -0.01", "tobias EUR: 0.00, -0.01, -0.01", "yuki EUR: 0.00, 0.02, 0.02"},
		[]string{"ines pays yuki 0.01 EUR", "tobias pays yuki 0.01 EUR"},
	},
	{
		"a refund is a cost with a minus",
		// -15.01 / 2 = -7.50, one cent left: -7.51 -7.50; ines received 15.01, of
		// which 7.50 are tobias's
		[]string{"cost 2026-05-20 entry -15.01 EUR for ines tobias"},
		2026,
		[]string{"ines EUR: 0.00, -7.50, -7.50", "tobias EUR: 0.00, 7.50, 7.50"},
		[]string{"ines pays tobias 7.50 EUR"},
	},
	{
		"paid to the club: nobody owes anything",
		[]string{"cost 2026-01-10 membership 120.00 EUR for ines to club"},
		2026,
		[]string{"ines EUR: 0.00, 0.00, 0.00"},
		nil,
	},
	{
		"one pays the club for another",
		[]string{"cost 2026-01-10 membership 120.00 EUR for mara by tobias to club"},
		2026,
		[]string{"tobias EUR: 0.00, 120.00, 120.00", "mara EUR: 0.00, -120.00, -120.00"},
		[]string{"mara pays tobias 120.00 EUR"},
	},
	{
		"a bill of the club, half of it paid since",
		[]string{
			"cost 2026-01-10 membership 120.00 EUR for mara by club to club",
			"settle 2026-06-01 mara club 60.00 EUR",
		},
		2026,
		[]string{"mara EUR: 0.00, -60.00, -60.00", "club EUR: 0.00, 60.00, 60.00"},
		[]string{"mara pays club 60.00 EUR"},
	},
	{
		"income changes no balance",
		[]string{"income 2026-03-01 sponsorship 300.00 EUR", "income 2026-05-17 prize 50.00 EUR for yuki"},
		2026,
		nil, nil,
	},
	{
		"currencies side by side, with none, two and three decimals",
		// 1000 JPY / 3 = 333, one yen left: 334 333 333, tobias paid 1000: +667
		// 10.000 BHD / 3 = 3.333, 0.001 left: 3.334 3.333 3.333, ines paid: +6.666
		// 30.00 CHF for the club by mara
		[]string{
			"cost 2026-07-01 tea 1000 JPY for ines tobias yuki by tobias",
			"cost 2026-07-02 fuel 10.000 BHD for ines tobias yuki",
			"cost 2026-08-08 landing 30.00 CHF for club by mara",
		},
		2026,
		[]string{
			"ines BHD: 0.000, 6.666, 6.666", "ines JPY: 0, -334, -334",
			"tobias BHD: 0.000, -3.333, -3.333", "tobias JPY: 0, 667, 667",
			"yuki BHD: 0.000, -3.333, -3.333", "yuki JPY: 0, -333, -333",
			"mara CHF: 0.00, 30.00, 30.00", "club CHF: 0.00, -30.00, -30.00",
		},
		[]string{
			"tobias pays ines 3.333 BHD", "yuki pays ines 3.333 BHD", "club pays mara 30.00 CHF",
			"ines pays tobias 334 JPY", "yuki pays tobias 333 JPY",
		},
	},
	{
		"a debt before the year opens it, a settlement closes it",
		// -40.00 before; -95.00 by the entry the club paid, +100.00 settled
		[]string{
			`owed 2025-12-31 ines club 40.00 EUR "from the old book"`,
			"cost 2026-04-18 entry 95.00 EUR for ines by club",
			"settle 2026-11-01 ines club 100.00 EUR",
		},
		2026,
		[]string{"ines EUR: -40.00, 5.00, -35.00", "club EUR: 40.00, -5.00, 35.00"},
		[]string{"ines pays club 35.00 EUR"},
	},
	{
		"a debt entered in the year is the year's movement",
		[]string{"owed 2026-01-01 ines club 40.00 EUR"},
		2026,
		[]string{"ines EUR: 0.00, -40.00, -40.00", "club EUR: 0.00, 40.00, 40.00"},
		[]string{"ines pays club 40.00 EUR"},
	},
	{
		"a year without entries passes balances on, and later years do not count",
		[]string{"owed 2024-01-01 ines club 40.00 EUR", "settle 2026-01-01 ines club 40.00 EUR"},
		2025,
		[]string{"ines EUR: -40.00, 0.00, -40.00", "club EUR: 40.00, 0.00, 40.00"},
		[]string{"ines pays club 40.00 EUR"},
	},
	{
		"an account closed in an earlier year is gone",
		[]string{"owed 2024-01-01 ines club 40.00 EUR", "settle 2024-06-01 ines club 40.00 EUR"},
		2025,
		nil, nil,
	},
}

func TestYearExamples(t *testing.T) {
	for _, c := range yearExamples {
		t.Run(c.name, func(t *testing.T) {
			y := yearOf(t, yearBook(t, c.lines...), c.year)
			assert.Equal(t, c.accounts, accountsOf(y))
			assert.Equal(t, c.payments, paymentsOf(y))
			assert.Empty(t, y.Unproven)
		})
	}
}

// What an account's movement is made of, and the sums by kind [derived]:
//
//	ines    paid 61.40 + 120.00 - 15.00 = 166.40; her costs 95.00 + 61.40 +
//	        120.00 - 15.00 = 261.40; settled +95.00; old debt -40.00:
//	        166.40 - 261.40 + 95.00 - 40.00 = -40.00
//	mara    her costs 120.00, billed by the club: -120.00
//	club    paid 95.00, billed 120.00, its costs 80.00, settled -95.00, old debt
//	        +40.00: 95.00 + 120.00 - 80.00 - 95.00 + 40.00 = +80.00
//	tobias  paid 80.00 for the club: +80.00
//	sum     -40.00 - 120.00 + 80.00 + 80.00 = 0
func TestYearParts(t *testing.T) {
	y := yearOf(t, yearBook(t,
		"contest tarn-open 2026-04-18..2026-04-19",
		"  cost entry 95.00 EUR for ines by club",
		"  cost fuel 61.40 EUR for ines",
		"owed 2026-01-01 ines club 40.00 EUR",
		"cost 2026-01-10 membership 120.00 EUR for ines to club",
		"cost 2026-01-10 membership 120.00 EUR for mara by club to club",
		"cost 2026-02-01 hall-hire 80.00 EUR for club by tobias",
		"cost 2026-05-20 entry -15.00 EUR for ines",
		"income 2026-03-01 sponsorship 300.00 EUR",
		"income 2026-05-17 prize 50.00 EUR for yuki",
		"settle 2026-11-25 ines club 95.00 EUR",
		"settle 2026-11-26 ines club 7.00 EUR",
		"cost 2026-12-24 fuel 9.00 EUR for mara by club",
		"income 2026-12-24 prize 8.00 EUR",
		"owed 2026-12-24 tobias mara 6.00 EUR",
	), 2026)
	eur := season.Currency{Code: "EUR", Decimals: 2}
	ines, mara := booksOf(t, y, "ines"), booksOf(t, y, "mara")
	assert.Equal(t, []analysis.YearAccount{{Currency: eur, Paid: 16640, Share: 26140, Settled: 9500, Owed: -4000, Closing: -4000}}, ines.Accounts)
	assert.Equal(t, []analysis.YearAccount{{Currency: eur, Share: 12000, Closing: -12000}}, mara.Accounts)
	assert.Equal(t, []analysis.YearAccount{{Currency: eur, Paid: 9500, Billed: 12000, Share: 8000, Settled: -9500, Owed: 4000, Closing: 8000}}, y.Club.Accounts)
	assert.Equal(t, []string{"entry 80.00 EUR", "fuel 61.40 EUR", "membership 120.00 EUR"}, kindsOf(ines.Costs))
	assert.Equal(t, []string{"membership 120.00 EUR"}, kindsOf(mara.Costs))
	assert.Equal(t, []string{"hall-hire 80.00 EUR"}, kindsOf(y.Club.Costs))
	assert.Equal(t, []string{"membership 240.00 EUR", "sponsorship 300.00 EUR"}, kindsOf(y.Club.Income))
	assert.Equal(t, []string{"prize 50.00 EUR"}, kindsOf(booksOf(t, y, "yuki").Income))
	assert.Empty(t, booksOf(t, y, "yuki").Accounts, "a prize is in nobody's balance")
	assert.Equal(t, 4, y.Later, "what is dated after 2026-11-25 is counted nowhere")
}

// Rates [derived]: 1 CHF = 1.04 EUR, 1 JPY = 0.006 EUR.
//
//	ines   -10.01 CHF x 1.04 = -10.4104; -5 JPY x 0.006 = -0.03; together -10.4404 EUR
//	yuki   +10.01 CHF x 1.04 = +10.4104; +1.00 EUR = 11.4104 EUR; -2.000 BHD has no rate
func TestYearConverts(t *testing.T) {
	l := yearBook(t,
		"cost 2026-02-01 entry 10.01 CHF for ines by yuki",
		"cost 2026-02-01 tea 5 JPY for ines by tobias",
		"cost 2026-02-01 fuel 1.00 EUR for tobias by yuki",
		"cost 2026-02-01 fuel 2.000 BHD for yuki by tobias",
		"rate 2026 JPY 0.006 EUR",
		"rate 2026 CHF 1.04 EUR",
		"rate 2025 BHD 2.50 EUR",
	)
	y := yearOf(t, l, 2026)
	require.Len(t, y.Rates, 2)
	assert.Equal(t, "CHF", y.Rates[0].From.Code)
	ines, yuki := booksOf(t, y, "ines").Converted, booksOf(t, y, "yuki").Converted
	assert.Equal(t, "EUR", ines.Currency.Code)
	assert.Equal(t, "-10.4404", ines.Amount.FloatString(4))
	assert.Empty(t, ines.Without)
	assert.Equal(t, "11.4104", yuki.Amount.FloatString(4))
	assert.Equal(t, []season.Currency{{Code: "BHD", Decimals: 3}}, yuki.Without)
	assert.Equal(t, []season.Currency{{Code: "BHD", Decimals: 3}}, y.Unpriced)
	assert.Equal(t, "0", y.Club.Converted.Amount.RatString())
	assert.Equal(t, []string{
		"yuki pays tobias 2.000 BHD", "ines pays yuki 10.01 CHF", "tobias pays yuki 1.00 EUR", "ines pays tobias 5 JPY",
	}, paymentsOf(y), "payments stay in their currency")

	before := yearOf(t, l, 2024)
	assert.Nil(t, before.Club.Converted)
	assert.Empty(t, before.Unpriced)
}

func TestYearPlanted(t *testing.T) {
	// The check of the books must be able to fail: who is no pilot of the ledger
	// is outside of the pool.
	l := yearBook(t)
	stranger := &season.Pilot{Handle: "stranger"}
	l.Debts = append(l.Debts, &season.Debt{
		Date: yearDay(t, "2026-01-01"), From: season.Party{Pilot: stranger}, To: season.Party{}, Money: season.Money{Minor: 100, Currency: season.Currency{Code: "EUR", Decimals: 2}},
	})
	_, err := analysis.YearSettled(l, 2026, analysis.Settling{})
	assert.EqualError(t, err, "internal error in the accounts of 2026: balances in EUR do not sum to zero: opening 0, closing 100")
}

func TestLatestYear(t *testing.T) {
	assert.Zero(t, analysis.LatestYear(yearBook(t)))
	assert.Equal(t, 2024, analysis.LatestYear(yearBook(t, "income 2024-03-01 sponsorship 300.00 EUR")))
	assert.Equal(t, 2025, analysis.LatestYear(yearBook(t, "contest tarn-open 2025-12-31..2026-01-02")))
	assert.Equal(t, 2025, analysis.LatestYear(yearBook(t, "settle 2025-03-01 ines club 1 EUR", "cost 2026-11-26 fuel 1 EUR for ines")), "2026-11-26 is still to come")
	assert.Equal(t, 2026, analysis.LatestYear(yearBook(t, "owed 2026-11-25 ines club 1 EUR")))
	assert.Equal(t, 2023, analysis.LatestYear(yearBook(t,
		"flight 2023-05-01 ines free", "  official 60 of 100", "  category sportsman",
		"flight 2024-05-01 ines free", `  void "cloud"`, "  category sportsman")), "a void flight is in no figure")
}

func TestYearQuiet(t *testing.T) {
	y := yearOf(t, yearBook(t, "income 2024-03-01 sponsorship 300.00 EUR"), 2019)
	assert.True(t, y.Quiet)
	assert.Empty(t, y.Pilots)
	assert.Empty(t, y.Contests)
	assert.Empty(t, y.Payments)
	assert.False(t, yearOf(t, yearBook(t, "income 2024-03-01 sponsorship 300.00 EUR"), 2024).Quiet)
	assert.False(t, yearOf(t, yearBook(t, "contest tarn-open 2026-04-18"), 2026).Quiet)
}

// A bill is unpaid until a later payment of its amount; of what else is owed the
// latest debts are open, bills or not, and none of a party that owes nothing.
func TestUnpaidBills(t *testing.T) {
	people := "pilot ines\npilot tobias\npilot yuki\n"
	for _, c := range []struct {
		lines string
		want  []string
	}{
		{"cost 2026-01-17 membership 120.00 EUR each for ines tobias yuki by club to club\nsettle 2026-02-01 yuki club 120.00 EUR\n", []string{"ines membership 120.00", "tobias membership 120.00"}},
		{"owed 2025-01-01 ines club 4.00 EUR\ncost 2026-01-17 membership 120.00 EUR for ines by club to club\n", []string{"ines membership 120.00"}},
		// a payment of another debt's amount leaves the bill as it is
		{"cost 2026-01-17 membership 120.00 EUR for yuki by club to club\ncost 2026-06-06 entry 95.00 EUR for yuki by club\nsettle 2026-10-03 yuki club 95.00 EUR\n", []string{"yuki membership 120.00"}},
		// 120 + 60 - 70 = 110: the entry of 60 and 50 of the membership
		{"cost 2026-01-17 membership 120.00 EUR for ines by club to club\ncost 2026-06-06 entry 60.00 EUR for ines by club to club\nsettle 2026-10-03 ines club 70.00 EUR\n", []string{"ines membership 50.00", "ines entry 60.00"}},
		// paid in parts it is paid: what is owed later is of another debt
		{"cost 2026-01-10 membership 150.00 EUR for ines by club to club\nsettle 2026-02-01 ines club 100.00 EUR\nsettle 2026-03-01 ines club 50.00 EUR\ncost 2026-04-20 entry 95.00 EUR for ines by club\n", nil},
		{"cost 2026-01-10 membership 150.00 EUR for ines by club to club\nsettle 2026-02-01 ines club 100.00 EUR\nsettle 2026-03-01 ines club 50.00 EUR\ncost 2026-04-20 entry 195.00 EUR for ines by club\n", nil},
		{"owed 2026-01-01 ines club 40.00 EUR\ncost 2026-01-10 membership 150.00 EUR for ines by club to club\nsettle 2026-02-01 ines club 190.00 EUR\ncost 2026-05-01 fuel 60.00 EUR for ines by club\n", nil},
		{"cost 2026-01-10 membership 150.00 EUR for ines by club to club\nsettle 2026-02-01 ines club 100.00 EUR\ncost 2026-04-20 entry 95.00 EUR for ines by club\n", []string{"ines membership 50.00"}},
		// payments pay by their days, in whatever order they stand
		{"cost 2026-01-10 membership 60.00 EUR for ines by club to club\ncost 2026-02-01 entry 95.00 EUR for ines by club\ncost 2026-03-10 entry 60.00 EUR for ines by club to club\nsettle 2026-04-01 ines club 60.00 EUR\nsettle 2026-02-15 ines club 60.00 EUR\n", nil},
		// paid before it was billed is another matter's
		{"cost 2026-01-01 entry 120.00 EUR for ines by club\nsettle 2026-01-10 ines club 120.00 EUR\ncost 2026-01-17 membership 120.00 EUR for ines by club to club\n", []string{"ines membership 120.00"}},
		{"cost 2026-01-17 membership 120.00 EUR for ines by club to club\ncost 2026-02-01 hall 120.00 EUR for club by ines\n", nil},
		{"cost 2027-01-17 membership 120.00 EUR for ines by club to club\n", nil},
		{"cost 2026-01-17 membership 120.00 EUR for ines to club\n", nil},
	} {
		year, err := analysis.YearSettled(loadYear(t, people+c.lines), 2026, analysis.Settling{})
		require.NoError(t, err)
		var got []string
		for _, u := range year.Unpaid {
			got = append(got, u.Party.Name()+" "+u.Cost.Kind+" "+u.Money.Text())
		}
		assert.Equal(t, c.want, got, c.lines)
		for _, o := range year.Owed {
			sum := int64(0)
			for _, d := range o.Debts {
				sum += d.Money.Minor
			}
			assert.Equal(t, o.Money.Minor, sum, c.lines)
			assert.Equal(t, o.Debts[0].Posting.Date, o.Since, c.lines)
		}
	}
}
