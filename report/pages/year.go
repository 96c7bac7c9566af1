package pages

import (
	"fmt"
	"strings"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// YearData is a calendar year in JSON. Amounts are decimal strings with the
// decimals of their currency; a positive balance is owed to that person.
// Unproven lists currencies in which fewer payments might settle everything;
// Unpriced those of open balances that the year's rates leave out.
type YearData struct {
	Year       int                `json:"year"`
	Pilots     []PilotYearData    `json:"pilots"`
	Club       BooksData          `json:"club"`
	Contests   []ContestYearData  `json:"contests"`
	Categories []CategoryYearData `json:"categories"`
	Settle     []PaymentData      `json:"settle"`
	Unproven   []string           `json:"unproven,omitempty"`
	Rates      []ExchangeRateData `json:"rates,omitempty"`
	Unpriced   []string           `json:"unpriced,omitempty"`

	quiet bool   // nothing belongs to the year
	loose int    // contest flights that name no contest
	later int    // money lines after asof
	asof  string // the day that stands for today
}

// PilotYearData is one pilot's year. Places are counted by place, duties in
// sessions by role.
type PilotYearData struct {
	Pilot    string         `json:"pilot"`
	Contests int            `json:"contests"`
	Flights  int            `json:"flights"`
	Practice int            `json:"practice"`
	Best     report.Number  `json:"best,omitzero"`
	Mean     report.Number  `json:"mean,omitzero"`
	Places   map[string]int `json:"places"`
	Duties   map[string]int `json:"duties"`
	BooksData

	name string
}

// BooksData is one party's money. Costs are its share. Paid, Opening and
// Balance (the closing one) have an amount for every currency of Accounts,
// which show how one comes from the other.
type BooksData struct {
	Costs     []KindAmount   `json:"costs"`
	Income    []KindAmount   `json:"income"`
	Paid      []AmountData   `json:"paid"`
	Opening   []AmountData   `json:"opening"`
	Balance   []AmountData   `json:"balance"`
	Accounts  []AccountData  `json:"accounts"`
	Converted *ConvertedData `json:"converted,omitempty"`
}

// KindAmount is an amount by the kind of a cost or an income.
type KindAmount struct {
	Kind     string `json:"kind"`
	Currency string `json:"currency"`
	Amount   string `json:"amount"`
}

// AmountData is an amount of a currency.
type AmountData struct {
	Currency string `json:"currency"`
	Amount   string `json:"amount"`
}

// AccountData is a balance over the year:
// closing = opening + paid + billed - share + settled + owed.
type AccountData struct {
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

// ConvertedData is a closing balance in the currency of the year's rates,
// rounded once; Without names the currencies that are not in it.
type ConvertedData struct {
	Currency string   `json:"currency"`
	Amount   string   `json:"amount"`
	Without  []string `json:"without,omitempty"`
}

// ExchangeRateData says that one From is Rate of To.
type ExchangeRateData struct {
	From string `json:"from"`
	To   string `json:"to"`
	Rate string `json:"rate"`
}

// ContestYearData is one contest with its results as typed.
type ContestYearData struct {
	Contest string           `json:"contest"`
	Date    string           `json:"date"`
	Entries int              `json:"entries"`
	Flights int              `json:"flights"`
	Costs   []AmountData     `json:"costs"`
	Results []ResultYearData `json:"results"`

	name string
}

// ResultYearData is a contest's result of one pilot, as typed.
type ResultYearData struct {
	Pilot   string        `json:"pilot"`
	Points  report.Number `json:"points,omitzero"`
	Maximum report.Number `json:"maximum,omitzero"`
	Place   int           `json:"place,omitempty"`
	Of      int           `json:"of,omitempty"`

	name, printed string // points as printed, with its maximum
}

// CategoryYearData is one category; Category is absent for what has none.
type CategoryYearData struct {
	Category string        `json:"category,omitempty"`
	Entries  int           `json:"entries"`
	Flights  int           `json:"flights"`
	Best     report.Number `json:"best,omitzero"`
	Mean     report.Number `json:"mean,omitzero"`
}

// PaymentData is money that one party should pay another to be even.
type PaymentData struct {
	From     string `json:"from"`
	To       string `json:"to"`
	Currency string `json:"currency"`
	Amount   string `json:"amount"`

	fromName, toName string
}

// theClub is what the page calls the club.
const theClub = "the club"

func partyName(p season.Party) string {
	if p.Pilot == nil {
		return theClub
	}
	return p.Pilot.Name
}

// Year is the treasurer's page.
func Year(y analysis.YearSummary) report.Document { return yearDocument(yearData(y)) }

// yearData collects the year's numbers.
func yearData(y analysis.YearSummary) YearData {
	d := YearData{
		Year: y.Year, Pilots: []PilotYearData{}, Club: booksData(y.Club), Contests: []ContestYearData{},
		Categories: []CategoryYearData{}, Settle: []PaymentData{}, Unproven: currencyCodes(y.Unproven), Unpriced: currencyCodes(y.Unpriced),
		quiet: y.Quiet, loose: y.Loose, later: y.Later, asof: y.AsOf.String(),
	}
	for _, p := range y.Pilots {
		d.Pilots = append(d.Pilots, pilotYearData(p))
	}
	for _, c := range y.Contests {
		d.Contests = append(d.Contests, contestYearData(c))
	}
	for _, c := range y.Categories {
		d.Categories = append(d.Categories, CategoryYearData{
			Category: c.Name, Entries: c.Entries, Flights: c.Flights, Best: report.Exact(c.Best), Mean: report.Exact(c.Mean),
		})
	}
	for _, p := range y.Payments {
		d.Settle = append(d.Settle, PaymentData{
			From: p.From.Name(), To: p.To.Name(), Currency: p.Money.Currency.Code, Amount: p.Money.Text(),
			fromName: partyName(p.From), toName: partyName(p.To),
		})
	}
	for _, r := range y.Rates {
		d.Rates = append(d.Rates, ExchangeRateData{From: r.From.Code, To: r.To.Code, Rate: r.Rate.String()})
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

func pilotYearData(p analysis.PilotYear) PilotYearData {
	d := PilotYearData{
		Pilot: p.Pilot.Handle, Contests: p.Contests, Flights: p.Flights, Practice: p.Practice,
		Best: report.Exact(p.Best), Mean: report.Exact(p.Mean), Places: map[string]int{}, Duties: map[string]int{},
		BooksData: booksData(p.Books), name: p.Pilot.Name,
	}
	for i, n := range p.Places {
		d.Places[fmt.Sprint(i+1)] = n
	}
	for _, duty := range p.Duties {
		d.Duties[duty.Role] = duty.Sessions
	}
	return d
}

func booksData(b analysis.Books) BooksData {
	d := BooksData{
		Costs: kindAmounts(b.Costs), Income: kindAmounts(b.Income), Paid: []AmountData{},
		Opening: []AmountData{}, Balance: []AmountData{}, Accounts: []AccountData{},
	}
	for _, a := range b.Accounts {
		text := func(minor int64) string { return season.Money{Minor: minor, Currency: a.Currency}.Text() }
		account := AccountData{
			Currency: a.Currency.Code, Opening: text(a.Opening), Paid: text(a.Paid), Billed: text(a.Billed), Share: text(a.Share),
			Settled: text(a.Settled), Owed: text(a.Owed), Movement: text(a.Movement()), Closing: text(a.Closing),
		}
		d.Accounts = append(d.Accounts, account)
		d.Paid = append(d.Paid, AmountData{account.Currency, account.Paid})
		d.Opening = append(d.Opening, AmountData{account.Currency, account.Opening})
		d.Balance = append(d.Balance, AmountData{account.Currency, account.Closing})
	}
	if c := b.Converted; c != nil {
		amount := AmountData{c.Currency.Code, report.Exact(c.Amount).Text(c.Currency.Decimals)}
		d.Converted = &ConvertedData{amount.Currency, amount.Amount, currencyCodes(c.Without)}
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

func contestYearData(c analysis.ContestYear) ContestYearData {
	d := ContestYearData{
		Contest: c.Contest.Handle, Date: c.Contest.First.String(), Entries: c.Entries, Flights: c.Flights,
		Costs: []AmountData{}, Results: []ResultYearData{}, name: c.Contest.Name,
	}
	for _, m := range c.Costs {
		d.Costs = append(d.Costs, AmountData{m.Currency.Code, m.Text()})
	}
	for _, r := range c.Results {
		result := ResultYearData{Pilot: r.Pilot.Handle, Place: r.Rank, Of: r.Of, name: r.Pilot.Name}
		var printed []string
		if r.Points != nil {
			result.Points = report.Exact(r.Points.Rat())
			printed = append(printed, r.Points.String())
		}
		if r.Maximum != nil {
			result.Maximum = report.Exact(r.Maximum.Rat())
			printed = append(printed, r.Maximum.String())
		}
		result.printed = strings.Join(printed, " of ")
		d.Results = append(d.Results, result)
	}
	return d
}
