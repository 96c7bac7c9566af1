package answers

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// Year is a calendar year in JSON. Amounts are decimal strings with the
// decimals of their currency; a positive balance is owed to that person.
// Unproven lists currencies in which fewer payments might settle everything;
// Unpriced those of open balances that the year's rates leave out.
type Year struct {
	Year       int            `json:"year"`
	Pilots     []PilotYear    `json:"pilots"`
	Club       Books          `json:"club"`
	Contests   []ContestYear  `json:"contests"`
	Categories []CategoryYear `json:"categories"`
	Settle     []Payment      `json:"settle"`
	Unproven   []string       `json:"unproven,omitempty"`
	Rates      []ExchangeRate `json:"rates,omitempty"`
	Unpriced   []string       `json:"unpriced,omitempty"`

	Quiet bool   // nothing belongs to the year
	Loose int    // contest flights that name no contest
	Later int    // money lines after asof
	Asof  string // the day that stands for today
}

// PilotYear is one pilot's year. Places are counted by place, duties in
// sessions by role.
type PilotYear struct {
	Pilot    string         `json:"pilot"`
	Contests int            `json:"contests"`
	Flights  int            `json:"flights"`
	Practice int            `json:"practice"`
	Best     report.Number  `json:"best,omitzero"`
	Mean     report.Number  `json:"mean,omitzero"`
	Places   map[string]int `json:"places"`
	Duties   map[string]int `json:"duties"`
	Books

	Name string
}

// Books is one party's money. Costs are its share. Paid, Opening and
// Balance (the closing one) have an amount for every currency of Accounts,
// which show how one comes from the other.
type Books struct {
	Costs     []KindAmount `json:"costs"`
	Income    []KindAmount `json:"income"`
	Paid      []Amount     `json:"paid"`
	Opening   []Amount     `json:"opening"`
	Balance   []Amount     `json:"balance"`
	Accounts  []Account    `json:"accounts"`
	Converted *Converted   `json:"converted,omitempty"`
}

// KindAmount is an amount by the kind of a cost or an income.
type KindAmount struct {
	Kind     string `json:"kind"`
	Currency string `json:"currency"`
	Amount   string `json:"amount"`
}

// Amount is an amount of a currency.
type Amount struct {
	Currency string `json:"currency"`
	Amount   string `json:"amount"`
}

// Account is a balance over the year:
// closing = opening + paid + billed - share + settled + owed.
type Account struct {
	Currency string `json:"currency"`
	Opening  string `json:"opening"`
	Paid     string `json:"paid"`
	Billed   string `json:"billed"`
	Share    string `json:"share"`
	Settled  string `json:"settled"`
	Owed     string `json:"owed"`
	Movement string `json:"movement"`
	Closing  string `json:"closing"`
}

// Converted is a closing balance in the currency of the year's rates,
// rounded once; Without names the currencies that are not in it.
type Converted struct {
	Currency string   `json:"currency"`
	Amount   string   `json:"amount"`
	Without  []string `json:"without,omitempty"`
}

// ExchangeRate says that one From is Rate of To.
type ExchangeRate struct {
	From string `json:"from"`
	To   string `json:"to"`
	Rate string `json:"rate"`
}

// ContestYear is one contest with its results as typed.
type ContestYear struct {
	Contest string       `json:"contest"`
	Date    string       `json:"date"`
	Entries int          `json:"entries"`
	Flights int          `json:"flights"`
	Costs   []Amount     `json:"costs"`
	Results []ResultYear `json:"results"`

	Name string
}

// ResultYear is a contest's result of one pilot, as typed.
type ResultYear struct {
	Pilot   string        `json:"pilot"`
	Points  report.Number `json:"points,omitzero"`
	Maximum report.Number `json:"maximum,omitzero"`
	Place   int           `json:"place,omitempty"`
	Of      int           `json:"of,omitempty"`

	Name, Printed string // points as printed, with its maximum
}

// CategoryYear is one category; Category is absent for what has none.
type CategoryYear struct {
	Category string        `json:"category,omitempty"`
	Entries  int           `json:"entries"`
	Flights  int           `json:"flights"`
	Best     report.Number `json:"best,omitzero"`
	Mean     report.Number `json:"mean,omitzero"`
}

// Payment is money that one party should pay another to be even.
type Payment struct {
	From     string `json:"from"`
	To       string `json:"to"`
	Currency string `json:"currency"`
	Amount   string `json:"amount"`

	FromName, ToName string
}

// theClub is what the page calls the club.
const theClub = "the club"

func partyName(p season.Party) string {
	if p.Club() {
		return theClub
	}
	return p.FullName()
}

// YearOf collects the year's numbers.
func YearOf(y analysis.YearSummary) Year {
	d := Year{
		Year: y.Year, Pilots: []PilotYear{}, Club: booksOf(y.Club), Contests: []ContestYear{},
		Categories: []CategoryYear{}, Settle: []Payment{}, Unproven: currencyCodes(y.Unproven), Unpriced: currencyCodes(y.Unpriced),
		Quiet: y.Quiet, Loose: y.Loose, Later: y.Later, Asof: y.AsOf.String(),
	}
	for _, p := range y.Pilots {
		d.Pilots = append(d.Pilots, pilotYearOf(p))
	}
	for _, c := range y.Contests {
		d.Contests = append(d.Contests, contestYearOf(c))
	}
	for _, c := range y.Categories {
		d.Categories = append(d.Categories, CategoryYear{
			Category: c.Name, Entries: c.Entries, Flights: c.Flights, Best: report.Exact(c.Best), Mean: report.Exact(c.Mean),
		})
	}
	for _, p := range y.Payments {
		d.Settle = append(d.Settle, Payment{
			From: p.From.Name(), To: p.To.Name(), Currency: p.Money.Currency.Code, Amount: p.Money.Text(),
			FromName: partyName(p.From), ToName: partyName(p.To),
		})
	}
	for _, r := range y.Rates {
		d.Rates = append(d.Rates, ExchangeRate{From: r.From.Code, To: r.To.Code, Rate: r.Rate.String()})
	}
	return d
}

func currencyCodes(currencies []season.Currency) []string {
	var out []string
	for _, c := range currencies {
		out = append(out, c.Code)
	}
	return out
}

func pilotYearOf(p analysis.PilotYear) PilotYear {
	d := PilotYear{
		Pilot: p.Pilot.Handle, Contests: p.Contests, Flights: p.Flights, Practice: p.Practice,
		Best: report.Exact(p.Best), Mean: report.Exact(p.Mean), Places: map[string]int{}, Duties: map[string]int{},
		Books: booksOf(p.Books), Name: p.Pilot.Name,
	}
	for i, n := range p.Places {
		d.Places[fmt.Sprint(i+1)] = n
	}
	for _, duty := range p.Duties {
		d.Duties[duty.Role] = duty.Sessions
	}
	return d
}

func booksOf(b analysis.Books) Books {
	d := Books{
		Costs: kindAmounts(b.Costs), Income: kindAmounts(b.Income), Paid: []Amount{},
		Opening: []Amount{}, Balance: []Amount{}, Accounts: []Account{},
	}
	for _, a := range b.Accounts {
		text := func(minor int64) string { return season.Money{Minor: minor, Currency: a.Currency}.Text() }
		account := Account{
			Currency: a.Currency.Code, Opening: text(a.Opening), Paid: text(a.Paid), Billed: text(a.Billed), Share: text(a.Share),
			Settled: text(a.Settled), Owed: text(a.Owed), Movement: text(a.Movement()), Closing: text(a.Closing),
		}
		d.Accounts = append(d.Accounts, account)
		d.Paid = append(d.Paid, Amount{account.Currency, account.Paid})
		d.Opening = append(d.Opening, Amount{account.Currency, account.Opening})
		d.Balance = append(d.Balance, Amount{account.Currency, account.Closing})
	}
	if c := b.Converted; c != nil {
		amount := Amount{c.Currency.Code, report.Exact(c.Amount).Text(c.Currency.Decimals)}
		d.Converted = &Converted{amount.Currency, amount.Amount, currencyCodes(c.Without)}
	}
	return d
}

func kindAmounts(sums []analysis.KindMoney) []KindAmount {
	out := []KindAmount{}
	for _, s := range sums {
		out = append(out, KindAmount{s.Kind, s.Money.Currency.Code, s.Money.Text()})
	}
	return out
}

func contestYearOf(c analysis.ContestYear) ContestYear {
	d := ContestYear{
		Contest: c.Contest.Handle, Date: c.Contest.First.String(), Entries: c.Entries, Flights: c.Flights,
		Costs: []Amount{}, Results: []ResultYear{}, Name: c.Contest.Name,
	}
	for _, m := range c.Costs {
		d.Costs = append(d.Costs, Amount{m.Currency.Code, m.Text()})
	}
	for _, r := range c.Results {
		result := ResultYear{Pilot: r.Pilot.Handle, Place: r.Rank, Of: r.Of, Name: r.Pilot.Name}
		var printed []string
		if r.Points != nil {
			result.Points = report.Exact(r.Points.Rat())
			printed = append(printed, r.Points.String())
		}
		if r.Maximum != nil {
			result.Maximum = report.Exact(r.Maximum.Rat())
			printed = append(printed, r.Maximum.String())
		}
		result.Printed = strings.Join(printed, " of ")
		d.Results = append(d.Results, result)
	}
	return d
}

// yearHolder is a party with its books, as the tables list them.
type yearHolder struct {
	Name  string
	Books Books
}

// holders are the pilots, then the club.
func YearHolders(d Year) []yearHolder {
	var all []yearHolder
	for _, p := range d.Pilots {
		all = append(all, yearHolder{p.Name, p.Books})
	}
	return append(all, yearHolder{theClub, d.Club})
}

func AccountCurrencies(d Year) []string {
	var currencies []string
	for _, h := range YearHolders(d) {
		for _, a := range h.Books.Accounts {
			currencies = AddName(currencies, a.Currency)
		}
	}
	slices.Sort(currencies)
	return currencies
}

func (h yearHolder) Account(currency string) (Account, bool) {
	i := slices.IndexFunc(h.Books.Accounts, func(a Account) bool { return a.Currency == currency })
	if i < 0 {
		return Account{}, false
	}
	return h.Books.Accounts[i], true
}

// AmountSum adds decimal strings of one currency, exactly.
type AmountSum struct {
	Sum      big.Rat
	Decimals int
}

func (s *AmountSum) Add(text string) {
	value, decimals := ParseAmount(text)
	s.Sum.Add(&s.Sum, value)
	s.Decimals = decimals
}

// Text is the sum with the decimals of what was added.
func (s *AmountSum) Text() string { return report.Exact(&s.Sum).Text(s.Decimals) }

func PilotCosts(d Year) []KindAmount {
	var all []KindAmount
	for _, p := range d.Pilots {
		all = append(all, p.Costs...)
	}
	return all
}

func KindCurrencies(sums []KindAmount) []string {
	var currencies []string
	for _, s := range sums {
		currencies = AddName(currencies, s.Currency)
	}
	slices.Sort(currencies)
	return currencies
}

// KindsIn lists the kinds that have an amount in a currency.
func KindsIn(sums []KindAmount, currency string) []string {
	var kinds []string
	for _, s := range sums {
		if s.Currency == currency {
			kinds = AddName(kinds, s.Kind)
		}
	}
	slices.Sort(kinds)
	return kinds
}

// AmountOfKind finds the amount of a kind in a currency.
func AmountOfKind(sums []KindAmount, kind, currency string) (string, bool) {
	for _, s := range sums {
		if s.Kind == kind && s.Currency == currency {
			return s.Amount, true
		}
	}
	return "", false
}

func AddName(names []string, name string) []string {
	if slices.Contains(names, name) {
		return names
	}
	return append(names, name)
}

// ParseAmount reads a decimal string back; it is one of this package's own.
func ParseAmount(text string) (*big.Rat, int) {
	value, _ := new(big.Rat).SetString(text)
	_, fraction, _ := strings.Cut(text, ".")
	return value, len(fraction)
}
