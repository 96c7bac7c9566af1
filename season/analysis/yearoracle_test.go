package analysis_test

import (
	"cmp"
	"flag"
	"fmt"
	"maps"
	"math/big"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit/accountoracle"
)

var (
	oracleYears = flag.Int("oracle-years", 300, "how many generated years to compare with the oracle")
	yearSeed    = flag.Uint64("oracle-year-seed", 20261231, "seed of the generated years")
)

// moneyWriter writes ledgers about money at random.
type moneyWriter struct {
	*rand.Rand
	pilots []string
	others []string // a coach and a person
	all    bool     // in a contest that somebody was at
	b      strings.Builder
}

func (w *moneyWriter) oneOf(words ...string) string { return words[w.IntN(len(words))] }

func (w *moneyWriter) date() string {
	return fmt.Sprintf("%d-%02d-%02d", 2024+w.IntN(4), 1+w.IntN(12), 1+w.IntN(28))
}

// amount is often so small that it does not divide, and often the same as
// another, so that groups of people are even by themselves.
func (w *moneyWriter) amount() string {
	n := w.IntN(40)
	if w.IntN(4) == 0 {
		n = w.IntN(2_000_000)
	}
	switch w.IntN(6) {
	case 0:
		return fmt.Sprintf("%d JPY", n)
	case 1:
		return fmt.Sprintf("%d.%03d BHD", n/1000, n%1000)
	case 2:
		return fmt.Sprintf("%d,%02d CHF", n/100, n%100)
	case 3:
		return fmt.Sprintf("%d EUR", n)
	case 4:
		return fmt.Sprintf("%d.%d EUR", n/10, n%10)
	default:
		return fmt.Sprintf("%d.%02d EUR", n/100, n%100)
	}
}

func (w *moneyWriter) people() []string { return slices.Concat(w.pilots, w.others) }

func (w *moneyWriter) party() string { return w.oneOf(append([]string{"club"}, w.people()...)...) }

// some are one or more people, in any order and with numbers of shares now and
// then, all who were at the contest, or the club; each says that the amount is
// of each of them.
func (w *moneyWriter) some(each bool) string {
	switch {
	case w.IntN(6) == 0:
		return "club"
	case w.all && w.IntN(4) == 0:
		return "all"
	}
	people, shared := w.people(), !each && w.IntN(4) == 0
	var names []string
	for _, i := range w.Perm(len(people))[:1+w.IntN(len(people))] {
		name := people[i]
		if shared {
			name += fmt.Sprint(" ", 1+w.IntN(5))
		}
		names = append(names, name)
	}
	return strings.Join(names, " ")
}

// cost is what follows `cost [DATE]`.
func (w *moneyWriter) cost() string {
	text := w.oneOf("entry", "fuel", "lodging", "othership") + " "
	if w.IntN(6) == 0 {
		text += "-"
	}
	each := w.IntN(6) == 0
	text += w.amount()
	if each {
		text += " each"
	}
	text += " for " + w.some(each)
	if w.IntN(2) == 0 {
		text += " by " + w.party()
	}
	if w.IntN(5) == 0 {
		text += " to club"
	}
	if w.IntN(8) == 0 {
		text += fmt.Sprint(" receipt ", w.oneOf("17", "A-4"))
	}
	if w.IntN(8) == 0 {
		text += ` "a remark"`
	}
	return text
}

func (w *moneyWriter) line() {
	switch w.IntN(8) {
	case 0:
		fmt.Fprintf(&w.b, "income %s prize %s%s\n", w.date(), w.amount(), w.oneOf("", " for "+w.pilots[0]))
	case 1:
		w.transfer("owed")
	case 2:
		w.transfer("settle")
	default:
		fmt.Fprintf(&w.b, "cost %s %s\n", w.date(), w.cost())
	}
}

func (w *moneyWriter) transfer(verb string) {
	from, to := w.party(), w.party()
	if from != to {
		amount := w.amount()
		if paid := w.oneOf("1 USD for ", "2.50 USD for "); verb == "settle" && w.IntN(3) == 0 {
			amount = paid + amount
		}
		fmt.Fprintf(&w.b, "%s %s %s %s %s\n", verb, w.date(), from, to, amount)
	}
}

func (w *moneyWriter) contest(name string) {
	begins := w.date()
	fmt.Fprintf(&w.b, "contest %s %s\n", name, begins)
	for _, i := range w.Perm(len(w.pilots))[:w.IntN(len(w.pilots)+1)] {
		fmt.Fprintf(&w.b, "  result %s place %d of 9\n", w.pilots[i], 1+w.IntN(9))
		w.all = true
	}
	defer func() { w.all = false }()
	for range w.IntN(5) {
		date := w.oneOf("", w.date()+" ")
		fmt.Fprintf(&w.b, "  cost %s%s\n", date, w.cost())
	}
}

// ledger writes a ledger of up to four pilots, a coach, a person and the club.
func (w *moneyWriter) ledger() string {
	w.pilots = []string{"ines", "tobias", "yuki", "mara"}[:1+w.IntN(4)]
	for _, p := range w.pilots {
		fmt.Fprintf(&w.b, "pilot %s\n", p)
	}
	w.others = []string{"marek", "rolf"}[:min(w.IntN(3), 5-len(w.pilots))]
	for i, p := range w.others {
		fmt.Fprintf(&w.b, "%s %s\n", []string{"coach", "person"}[i], p)
	}
	for i := range w.IntN(3) {
		w.contest(fmt.Sprintf("contest-%d", i))
	}
	for range w.IntN(30) {
		w.line()
	}
	for _, from := range []string{"CHF", "JPY", "BHD"} {
		if w.IntN(3) == 0 {
			fmt.Fprintf(&w.b, "rate 2026 %s %d.%03d EUR\n", from, w.IntN(3), 1+w.IntN(999))
		}
	}
	return w.b.String()
}

// Every amount of a year is exactly the oracle's, which is written from the
// same rules and shares no code with it; the payments settle everything and
// are as few as the oracle finds by trying; a year opens as the one before
// closed.
func TestYearEqualsOracle(t *testing.T) {
	t.Logf("seed %d, %d years", *yearSeed, *oracleYears)
	random := rand.New(rand.NewPCG(*yearSeed, 0))
	met := map[string]int{}
	for i := range *oracleYears {
		text := (&moneyWriter{Rand: random}).ledger()
		if !t.Run(fmt.Sprint(i), func(t *testing.T) { compareYear(t, text, met) }) {
			t.Fatalf("the ledger:\n%s", text)
		}
	}
	for _, what := range []string{"both", "exchanged", "four payments", "a group by itself", "four currencies", "billed", "refund", "opening", "others", "for all", "each", "shares", "settled in another currency", "converted", "unpriced", "odd cents", "contest costs"} {
		assert.GreaterOrEqual(t, met[what], *oracleYears/50, "how often the years met: %s", what)
	}
}

func compareYear(t *testing.T, text string, met map[string]int) {
	l := loadYear(t, text)
	previous := yearOf(t, l, 2025)
	y, want := yearOf(t, l, 2026), accountoracle.Keep(text, 2026, "2026-11-25")
	got := amountsOf(y)
	for _, c := range []struct {
		name      string
		got, want accountoracle.Amounts
	}{
		{"opening", got.Opening, want.Opening},
		{"closing", got.Closing, want.Closing},
		{"paid", got.Paid, want.Paid},
		{"costs", got.Costs, want.Costs},
		{"income", got.Income, want.Income},
		{"closing of 2025", amountsOf(previous).Closing, want.Opening},
	} {
		require.Equal(t, without0(c.want), without0(c.got), c.name)
	}
	for name, amount := range want.Contests {
		if slices.ContainsFunc(y.Contests, func(c analysis.ContestYear) bool { return strings.HasPrefix(name, c.Contest.Handle+" ") }) {
			// As text: costs that come to nothing are 0, however that was summed.
			require.Equal(t, amount.String(), got.Contests[name].String(), name)
			met["contest costs"]++
		}
	}
	for name, worth := range want.Worth {
		require.Equal(t, worth.RatString(), worthOf(y, name), name)
	}
	require.Equal(t, want.Worth == nil, y.Club.Converted == nil)
	compareClubMoney(t, y, want, met)
	comparePooled(t, l, y, met)
	comparePayments(t, y, want, met)
	compareTotals(t, y, want)
	noteYear(met, y, text)
}

// compareTotals holds every total to the sum of the oracle's amounts.
func compareTotals(t *testing.T, y analysis.YearSummary, want accountoracle.Accounts) {
	sum := func(all accountoracle.Amounts, match func(name []string) bool) *big.Int {
		total := new(big.Int)
		for name, amount := range all {
			if match(strings.Fields(name)) {
				total.Add(total, amount)
			}
		}
		return total
	}
	pilot := func(name string) bool {
		return slices.ContainsFunc(y.Pilots, func(p analysis.PilotYear) bool { return p.Pilot.Handle == name })
	}
	for _, total := range y.Totals {
		require.Zero(t, total.Opening, total.Currency.Code)
		require.Zero(t, total.Closing, total.Currency.Code)
		paid := sum(want.Paid, func(name []string) bool { return name[1] == total.Currency.Code })
		require.Equal(t, paid.String(), fmt.Sprint(total.Paid), total.Currency.Code)
	}
	for _, total := range y.PilotCostTotals {
		costs := sum(want.Costs, func(name []string) bool { return pilot(name[0]) && name[2] == total.Currency.Code })
		require.Equal(t, costs.String(), fmt.Sprint(total.Minor), total.Currency.Code)
	}
	for _, kind := range y.PilotCosts {
		costs := sum(want.Costs, func(name []string) bool {
			return pilot(name[0]) && name[1] == kind.Kind && name[2] == kind.Money.Currency.Code
		})
		require.Equal(t, costs.String(), fmt.Sprint(kind.Money.Minor), kind.Kind)
	}
	for name, books := range allBooks(y) {
		require.Len(t, books.IncomeTotals, len(books.CostTotals))
		for i, left := range books.Result() {
			own := func(fields []string) bool { return fields[0] == name && fields[2] == left.Currency.Code }
			costs, income := sum(want.Costs, own), sum(want.Income, own)
			require.Equal(t, costs.String(), fmt.Sprint(books.CostTotals[i].Minor), name)
			require.Equal(t, income.String(), fmt.Sprint(books.IncomeTotals[i].Minor), name)
			require.Equal(t, income.Sub(income, costs).String(), fmt.Sprint(left.Minor), name)
		}
	}
}

// without0 is amounts in words, those that are zero left out: what is not there
// is zero.
func without0(a accountoracle.Amounts) map[string]string {
	out := map[string]string{}
	for name, amount := range a {
		if amount.Sign() != 0 {
			out[name] = amount.String()
		}
	}
	return out
}

// amountsOf names the amounts of a year as the oracle does.
func amountsOf(y analysis.YearSummary) accountoracle.Accounts {
	out := accountoracle.Accounts{
		Opening: accountoracle.Amounts{}, Closing: accountoracle.Amounts{}, Paid: accountoracle.Amounts{},
		Costs: accountoracle.Amounts{}, Income: accountoracle.Amounts{}, Contests: accountoracle.Amounts{},
	}
	for name, books := range allBooks(y) {
		for _, a := range books.Accounts {
			account := name + " " + a.Currency.Code
			out.Opening[account], out.Closing[account], out.Paid[account] = big.NewInt(a.Opening), big.NewInt(a.Closing), big.NewInt(a.Paid)
		}
		for _, k := range books.Costs {
			out.Costs[name+" "+k.Kind+" "+k.Money.Currency.Code] = big.NewInt(k.Money.Minor)
		}
		for _, k := range books.Income {
			out.Income[name+" "+k.Kind+" "+k.Money.Currency.Code] = big.NewInt(k.Money.Minor)
		}
	}
	for _, c := range y.Contests {
		for _, m := range c.Costs {
			out.Contests[c.Contest.Handle+" "+m.Currency.Code] = big.NewInt(m.Minor)
		}
	}
	return out
}

func allBooks(y analysis.YearSummary) map[string]analysis.Books {
	books := map[string]analysis.Books{"club": y.Club}
	for _, p := range y.Pilots {
		books[p.Pilot.Handle] = p.Books
	}
	for _, p := range y.Others {
		books[p.Party.Name()] = p.Books
	}
	return books
}

// worthOf is a party's converted balance; who is not on the page has nothing.
func worthOf(y analysis.YearSummary, name string) string {
	books, there := allBooks(y)[name]
	if !there {
		return "0"
	}
	return books.Converted.Amount.RatString()
}

// comparePayments holds the payments to what stands between each and the club,
// and among the others to the fewest that the oracle finds.
func comparePayments(t *testing.T, y analysis.YearSummary, want accountoracle.Accounts, met map[string]int) {
	toClub, among := accountoracle.Amounts{}, map[string][]analysis.Payment{}
	for _, p := range y.Payments {
		unit := p.Money.Currency.Code
		switch {
		case p.To.Club():
			require.NotContains(t, toClub, p.From.Name()+" "+unit, "one payment settles it")
			toClub[p.From.Name()+" "+unit] = big.NewInt(-p.Money.Minor)
		case p.From.Club():
			require.NotContains(t, toClub, p.To.Name()+" "+unit, "one payment settles it")
			toClub[p.To.Name()+" "+unit] = big.NewInt(p.Money.Minor)
		default:
			among[unit] = append(among[unit], p)
		}
	}
	stands := without0(want.WithClub)
	maps.DeleteFunc(stands, func(name, _ string) bool { return strings.HasPrefix(name, "club ") })
	require.Equal(t, stands, without0(toClub), "with the club each settles what stands between the two")
	for _, total := range y.Totals {
		unit := total.Currency.Code
		var open []int64
		left := map[string]int64{}
		for name, amount := range want.Among {
			if who, ok := strings.CutSuffix(name, " "+unit); ok && amount.Sign() != 0 {
				open, left[who] = append(open, amount.Int64()), amount.Int64()
			}
		}
		require.Len(t, among[unit], accountoracle.FewestPayments(openBalances(open)), unit)
		for _, p := range among[unit] {
			left[p.From.Name()] += p.Money.Minor
			left[p.To.Name()] -= p.Money.Minor
		}
		for who, minor := range left {
			require.Zero(t, minor, who)
		}
		if len(among[unit]) > 1 && len(stands) > 1 {
			met["both"]++
		}
	}
	require.Empty(t, y.Unproven)
}

// compareClubMoney holds what became of the result to the oracle's amounts, and
// each currency to the identity.
func compareClubMoney(t *testing.T, y analysis.YearSummary, want accountoracle.Accounts, met map[string]int) {
	moved := accountoracle.Amounts{}
	for _, m := range y.Money {
		require.Equal(t, m.Moved, m.Result-(m.Closing-m.Opening)+m.Exchanged, m.Currency.Code)
		closing := want.WithClub["club "+m.Currency.Code]
		require.Equal(t, fmt.Sprint(m.Closing), fmt.Sprint(cmp.Or(closing, new(big.Int))), m.Currency.Code)
		moved[m.Currency.Code] = big.NewInt(m.Moved)
		if m.Exchanged != 0 {
			met["exchanged"]++
		}
	}
	require.Equal(t, without0(want.Moved), without0(moved))
	owed := accountoracle.Amounts{}
	for _, o := range y.Owed {
		owed[o.Party.Name()+" "+o.Money.Currency.Code] = big.NewInt(-o.Money.Minor)
		require.NotZero(t, o.Since)
	}
	owing := without0(want.WithClub)
	maps.DeleteFunc(owing, func(name, minor string) bool { return strings.HasPrefix(name, "club ") || minor[0] != '-' })
	require.Equal(t, owing, without0(owed))
}

// comparePooled holds the fewest payments of one pool to the oracle's number.
func comparePooled(t *testing.T, l *season.Ledger, y analysis.YearSummary, met map[string]int) {
	pooled, err := analysis.YearSettled(l, y.Year, analysis.Settling{Fewest: true})
	require.NoError(t, err)
	balances := map[season.Currency][]season.Change{}
	add := func(p season.Party, b analysis.Books) {
		for _, a := range b.Accounts {
			balances[a.Currency] = append(balances[a.Currency], season.Change{Party: p, Minor: a.Closing})
		}
	}
	add(season.Party{}, y.Club)
	for _, p := range y.Pilots {
		add(season.Party{Pilot: p.Pilot}, p.Books)
	}
	for _, p := range y.Others {
		add(p.Party, p.Books)
	}
	payments := map[season.Currency][]analysis.Payment{}
	for _, p := range pooled.Payments {
		payments[p.Money.Currency] = append(payments[p.Money.Currency], p)
	}
	for currency, changes := range balances {
		requireSettled(t, changes, payments[currency])
		var minor []int64
		for _, c := range changes {
			minor = append(minor, c.Minor)
		}
		open := openBalances(minor)
		require.Len(t, payments[currency], accountoracle.FewestPayments(open), currency.Code)
		if len(payments[currency]) > 3 {
			met["four payments"]++
		}
		if len(open) > 0 && len(payments[currency]) < len(open)-1 {
			met["a group by itself"]++
		}
	}
	if len(balances) > 3 {
		met["four currencies"]++
	}
	require.Empty(t, pooled.Unproven)
}

// sharesLine is a cost with numbers of shares.
var sharesLine = regexp.MustCompile(` for [a-z]+ \d`)

// noteYear notes what a year has met.
func noteYear(met map[string]int, y analysis.YearSummary, text string) {
	seen := map[string]bool{
		"refund": strings.Contains(text, " -"), "converted": y.Club.Converted != nil, "unpriced": len(y.Unpriced) > 0,
		"others": len(y.Others) > 0, "for all": strings.Contains(text, " for all"), "each": strings.Contains(text, " each for "),
		"shares": sharesLine.MatchString(text), "settled in another currency": strings.Contains(text, " USD for "),
	}
	for _, b := range allBooks(y) {
		for _, a := range b.Accounts {
			seen["billed"] = seen["billed"] || a.Billed != 0
			seen["opening"] = seen["opening"] || a.Opening != 0
			seen["odd cents"] = seen["odd cents"] || a.Share%10 != 0
		}
	}
	for what, yes := range seen {
		if yes {
			met[what]++
		}
	}
}
