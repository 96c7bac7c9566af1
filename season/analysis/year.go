package analysis

import (
	"fmt"
	"math/big"
	"slices"

	"boxbook/season"
)

// YearSummary is the treasurer's answer to "how did a financial year of the club go": who
// flew what, the contests, the duties, the money, and who owes whom.
//
// A contest belongs to the year in which it begins, with all its flights,
// results and duties; a flight without a contest belongs to its own date.
// Money belongs to its own date. What is after the ledger's AsOf is left out:
// flights, results, duties and money.
type YearSummary struct {
	Year         int
	First        season.Date // its first and last day
	Last         season.Date
	AsOf         season.Date // the ledger's
	Pilots       []PilotYear // those with anything in the year or an open balance, as defined
	Others       []PartyYear // coaches who do not fly and persons, likewise
	Club         Books
	Money        []ClubMoney    // what became of the club's result, by currency
	Owed         []OwedClub     // to the club, by currency, then party
	Unpaid       []UnpaidBill   // what of it was billed, in the same order
	PaidUnbilled []PaidUnbilled // to the club in the year
	Totals       []YearAccount  // of everybody together, by currency
	Contests     []ContestYear  // by first day
	ContestSpans []ContestSpan  // contests whose costs are of two years, one of them this
	Categories   []CategoryYear // in the ladders' order, flights and results without one last
	// Payments settle the closing balances of each currency, found as Settling
	// says. Unproven lists the currencies in which fewer payments might do. Left
	// is what rounding the amounts of another currency leaves, by currency.
	Payments []Payment
	Settling Settling
	Unproven []season.Currency
	Left     []season.Money
	// PilotCosts are the costs of all pilots together, by kind, then currency;
	// PilotCostTotals by currency alone.
	PilotCosts      []KindMoney
	PilotCostTotals []season.Money
	// Costs and CostTotals are those of everybody but the club.
	Costs         []KindMoney
	CostTotals    []season.Money
	InHand        []InHandYear      // by day, then as typed
	CountedBefore []InHandYear      // what was off before the year, and no count of it tells of
	Uncompared    []season.Currency // of the club's money that moved, and no count can be compared
	Budget        []BudgetYear
	Receipts      Receipts
	ReceiptSeries []ReceiptSeries // those of which a number is missing
	ReceiptLines  ReceiptLines
	ReceiptsElse  []ReceiptElsewhere
	Agreed        []AgreedYear     // a currency each
	AgreedBefore  []*season.Agreed // of the year before, where it has no money
	// Rates are those given for the year, all into one currency. Unpriced are
	// the currencies of open closing balances that no rate converts.
	Rates    []*season.Rate
	Unpriced []season.Currency
	Quiet    bool // nothing in the ledger belongs to the year
	Loose    int  // contest flights that name no contest
	// Later counts the costs, incomes, settlements, debts and counts of what is in
	// hand that are left out, since they are dated after AsOf: up to the end of the
	// year, and in the year of AsOf of later ones too. LaterLines are they, where they are
	// few.
	Later      int
	LaterLines []MoneyLine
}

// PilotYear is one pilot's year. Contests counts those with a contest flight
// or a typed result of the pilot. Flights counts contest flights: practice is
// apart, void ones are not counted. Best and Mean are percents of the flights'
// records, nil where no flight has one. Places counts first, second and third
// places among the contests' typed results, never a single flight's place.
type PilotYear struct {
	Pilot      *season.Pilot
	Contests   int
	Flights    int
	Practice   int
	Best, Mean *big.Rat
	Places     [3]int
	Duties     []DutyYear // by role
	Books
}

// PartyYear is the year of a coach or a person.
type PartyYear struct {
	Party  season.Party
	Duties []DutyYear // by role
	Books
}

// DutyYear is a duty and in how many sessions it was done.
type DutyYear struct {
	Role     string
	Sessions int
}

// ContestYear is one contest. Entries are the pilots with a contest flight or
// a typed result. Costs are all that stand with the contest, whoever they were
// for, by currency; Income is the club's, what was paid or billed to it.
type ContestYear struct {
	Contest *season.Contest
	Entries int
	Flights int
	Results []season.Result // typed results, as they stand
	Costs   []season.Money
	Income  []season.Money
	// Shares are what each party bears of Costs, in the order of parties, the club
	// last.
	Shares []PartyMoney
}

// PartyMoney is what one party has to do with, by currency.
type PartyMoney struct {
	Party season.Party
	Money []season.Money
}

// CategoryYear is one category; Name is "" for what has none. A pilot who flew
// a contest in the category is one entry; a result without flights has no
// category.
type CategoryYear struct {
	Name       string
	Entries    int
	Flights    int
	Best, Mean *big.Rat
}

// YearSettled answers for a financial year, the calendar's where no other start is
// set, with payments that are found as how says. The error is for books that do not
// add up, which no ledger can bring about: it is a fault of the program.
func YearSettled(l *season.Ledger, year int, how Settling) (YearSummary, error) {
	books, err := keepBooks(l, year)
	if err != nil {
		return YearSummary{}, fmt.Errorf("internal error in the accounts of %d: %w", year, err)
	}
	flying := flyingOf(l, year)
	out := YearSummary{
		Year: year, First: l.YearStart.Begin(year), Last: l.YearStart.Begin(year+1) - 1, AsOf: l.AsOf, Club: books.of(season.Party{}), Contests: flying.contestYears(), Categories: flying.categoryYears(),
		Totals: books.totals(), PilotCosts: books.costsOf(isPilot), Costs: books.costsOf(isMember), Rates: books.rates, Unpriced: books.unpriced(), Loose: flying.loose(),
	}
	if later := moneyAfterAsOf(l, year); len(later) <= fewLater {
		out.Later, out.LaterLines = len(later), later
	} else {
		out.Later = len(later)
	}
	out.PilotCostTotals, out.CostTotals = kindTotals(out.PilotCosts, nil), kindTotals(out.Costs, nil)
	out.InHand, out.Budget, out.Agreed = inHandOf(l, year), budgetOf(l, year, out.Club), agreedOf(l, year)
	out.AgreedBefore = agreedWithoutMoney(l, year-1)
	out.CountedBefore = countedBefore(l, year, out.InHand)
	out.Uncompared, out.Receipts = uncompared(l, year, out.InHand), receiptsOf(l, year)
	out.ContestSpans = contestSpans(l, year)
	out.ReceiptSeries, out.ReceiptLines = receiptSeriesOf(l, year), receiptLinesOf(l, year)
	out.ReceiptsElse = receiptsElsewhere(l, year, out.Receipts, out.ReceiptSeries)
	fitReceipts(out.InHand, out.ReceiptsElse)
	out.Quiet = len(flying.flights)+len(out.Contests) == 0 && !hasMoney(l, year)
	for _, p := range l.Pilots {
		if pilot := flying.pilotYear(p, books.of(season.Party{Pilot: p})); !pilot.empty() {
			out.Pilots = append(out.Pilots, pilot)
		}
	}
	for _, p := range l.Parties() {
		other := PartyYear{Party: p, Duties: flying.duties(p), Books: books.of(p)}
		if p.Pilot == nil && !p.Club() && !other.empty() {
			out.Others = append(out.Others, other)
		}
	}
	out.Settling = how
	stands := standingOf(l, year)
	out.Money, out.Owed = clubMoney(l, year, moneyCurrencies(l)), owedClub(l, year, stands)
	out.Unpaid, out.PaidUnbilled = unpaidBills(out.Owed), paidUnbilled(l, year)
	return out, out.settle(books, stands)
}

// Owing are the payments that would settle what a party owes and is owed on the
// ledger's AsOf, as the treasurer's year has them.
func Owing(l *season.Ledger, who season.Party) ([]Payment, error) {
	year := LatestYear(l)
	books, err := keepBooks(l, year)
	if err != nil {
		return nil, fmt.Errorf("internal error in the accounts: %w", err)
	}
	var out YearSummary
	if err := out.settle(books, standingOf(l, year)); err != nil {
		return nil, err
	}
	return slices.DeleteFunc(out.Payments, func(p Payment) bool { return p.From != who && p.To != who }), nil
}

// PaymentTotals are the payments' sums, by currency.
func (y YearSummary) PaymentTotals() []season.Money {
	var sums []season.Money
	for _, p := range y.Payments {
		sums = addMoney(sums, p.Money)
	}
	return sums
}

func (p PilotYear) empty() bool {
	return p.Contests+p.Flights+p.Practice+len(p.Duties)+len(p.Costs)+len(p.Income)+len(p.Accounts) == 0
}

func (p PartyYear) empty() bool {
	return len(p.Duties)+len(p.Costs)+len(p.Income)+len(p.Accounts) == 0
}

// LatestYear is the latest financial year with anything that Year shows, up to
// the ledger's AsOf; 0 where there is none.
func LatestYear(l *season.Ledger) int {
	latest := 0
	note := func(d season.Date) {
		if l.Past(d) {
			latest = max(latest, l.YearOf(d))
		}
	}
	for _, f := range l.Select(season.Selection{}) {
		if f.Counts() {
			latest = max(latest, clubYear(l, f))
		}
	}
	for _, c := range l.Contests {
		note(c.First)
	}
	eachMoneyDate(l, note)
	return latest
}

// MoneyLine is a line of money: one of Cost, Settlement, Debt and Count is set.
type MoneyLine struct {
	Date       season.Date
	Money      season.Money
	Cost       *season.Cost
	Settlement *season.Settlement
	Debt       *season.Debt
	Count      *season.InHand
	At         season.Place
}

// Parties are those between whom the line is, nobody where it is about one alone.
func (m MoneyLine) Parties() []season.Party {
	var all []season.Party
	switch {
	case m.Cost != nil:
		all = append(slices.Clone(m.Cost.For), m.Cost.By)
		if m.Cost.ToClub {
			all = append(all, season.Party{})
		}
	case m.Settlement != nil:
		all = []season.Party{m.Settlement.From, m.Settlement.To}
	case m.Debt != nil:
		all = []season.Party{m.Debt.From, m.Debt.To}
	}
	if !slices.ContainsFunc(all, func(p season.Party) bool { return p != all[0] }) {
		return nil
	}
	return all
}

// Receipt is the line's, "" where it has none.
func (m MoneyLine) Receipt() string {
	switch {
	case m.Cost != nil:
		return m.Cost.Receipt
	case m.Settlement != nil:
		return m.Settlement.Receipt
	default:
		return ""
	}
}

// EachMoneyLine visits every cost, income, settlement and debt, and every count of what
// is in hand.
func EachMoneyLine(l *season.Ledger, visit func(MoneyLine)) {
	for _, c := range l.Costs {
		visit(MoneyLine{Date: c.Date, Money: c.Money, Cost: c, At: c.At})
	}
	for _, s := range l.Settlements {
		visit(MoneyLine{Date: s.Date, Money: s.Paid, Settlement: s, At: s.At})
	}
	for _, d := range l.Debts {
		visit(MoneyLine{Date: d.Date, Money: d.Money, Debt: d, At: d.At})
	}
	for _, h := range l.InHand {
		visit(MoneyLine{Date: h.Date, Money: h.Money, Count: h, At: h.At})
	}
}

// eachMoneyDate visits the date of every line of money.
func eachMoneyDate(l *season.Ledger, visit func(season.Date)) {
	EachMoneyLine(l, func(m MoneyLine) { visit(m.Date) })
}

// pastIn reports whether a day belongs to a year and is not after AsOf.
func pastIn(l *season.Ledger, year int, d season.Date) bool { return l.YearOf(d) == year && l.Past(d) }

func hasMoney(l *season.Ledger, year int) bool {
	found := false
	eachMoneyDate(l, func(d season.Date) { found = found || pastIn(l, year, d) })
	return found
}

// fewLater are as many lines after AsOf as are kept by themselves.
const fewLater = 2

// moneyAfterAsOf lists the lines up to the end of the year that are dated after
// AsOf; of the year of AsOf, of later years too.
func moneyAfterAsOf(l *season.Ledger, year int) []MoneyLine {
	var later []MoneyLine
	EachMoneyLine(l, func(m MoneyLine) {
		if (l.YearOf(m.Date) <= year || l.YearOf(l.AsOf) == year) && !l.Past(m.Date) {
			later = append(later, m)
		}
	})
	return later
}

// RatesOf are the rates given for a year, by the currency they convert.
func RatesOf(l *season.Ledger, year int) []*season.Rate {
	var rates []*season.Rate
	for _, r := range l.Rates {
		if r.Year == year {
			rates = append(rates, r)
		}
	}
	slices.SortStableFunc(rates, func(a, b *season.Rate) int { return compareCurrencies(a.From, b.From) })
	return rates
}
