package answers

import (
	"boxbook/season"
	"boxbook/season/analysis"
)

// Books is one party's money. Costs are its share. Paid, Opening and
// Balance (the closing one) have an amount for every currency of Accounts,
// which show how one comes from the other. CostTotals and IncomeTotals sum Costs
// and Income up, with an amount for every currency of either; Result is income
// less costs, of the club alone.
type Books struct {
	Costs        []KindSum  `json:"costs"`
	Income       []KindSum  `json:"income"`
	CostTotals   []Sum      `json:"costTotals"`
	IncomeTotals []Sum      `json:"incomeTotals"`
	Result       []Sum      `json:"result,omitempty"`
	Paid         []Sum      `json:"paid"`
	Opening      []Sum      `json:"opening"`
	Balance      []Sum      `json:"balance"`
	Accounts     []Account  `json:"accounts"`
	Converted    *Converted `json:"converted,omitempty"`
}

// Account is a balance over the year:
// closing = opening + paid + billed - share + settled + owed.
type Account struct {
	Currency string `json:"currency"`
	Opening  Amount `json:"opening"`
	Paid     Amount `json:"paid"`
	Billed   Amount `json:"billed"`
	Share    Amount `json:"share"`
	Settled  Amount `json:"settled"`
	Owed     Amount `json:"owed"`
	Movement Amount `json:"movement"`
	Closing  Amount `json:"closing"`
}

// Converted is a closing balance in the currency of the year's rates,
// rounded once; Without names the currencies that are not in it. The amount is
// absent where it is larger than any that can be kept.
type Converted struct {
	Currency string   `json:"currency"`
	Amount   *Amount  `json:"amount,omitempty"`
	Without  []string `json:"without,omitempty"`
}

// ExchangeRate says that one From is Rate of To.
type ExchangeRate struct {
	From string `json:"from"`
	To   string `json:"to"`
	Rate string `json:"rate"`
}

// Payment is money that one party should pay another to be even. The names are
// absent for the club.
type Payment struct {
	From     string `json:"from"`
	FromName string `json:"fromName,omitempty"`
	To       string `json:"to"`
	ToName   string `json:"toName,omitempty"`
	Currency string `json:"currency"`
	Amount   Amount `json:"amount"`
}

// addMoney adds the year's accounts, costs, payments and rates.
func (d *Year) addMoney(y analysis.YearSummary) {
	d.Club, d.Totals, d.PilotCosts, d.Costs = clubYearOf(y), accountsOf(y.Totals), kindSums(y.PilotCosts), kindSums(y.Costs)
	d.addAgreed(y)
	d.addAgreedBefore(y)
	d.CostTotals = sumsOf(y.CostTotals)
	d.PilotCostTotals, d.SettleTotals = sumsOf(y.PilotCostTotals), sumsOf(y.PaymentTotals())
	d.Unproven, d.Unpriced, d.Settle = currencyCodes(y.Unproven), currencyCodes(y.Unpriced), []Payment{}
	d.Pooled, d.SettleIn = y.Settling.Fewest, y.Settling.In
	for _, left := range y.Left {
		d.SettleLeft = append(d.SettleLeft, sumOf(left))
	}
	for _, p := range y.Payments {
		d.Settle = append(d.Settle, paymentOf(p))
	}
	d.Rates = ratesOf(y)
}

// ratesOf are the rates of a year.
func ratesOf(y analysis.YearSummary) []ExchangeRate {
	var all []ExchangeRate
	for _, r := range y.Rates {
		all = append(all, ExchangeRate{From: r.From.Code, To: r.To.Code, Rate: r.Rate.String()})
	}
	return all
}

func paymentOf(p analysis.Payment) Payment {
	return Payment{
		From: p.From.Name(), FromName: p.From.FullName(), To: p.To.Name(), ToName: p.To.FullName(),
		Currency: p.Money.Currency.Code, Amount: AmountOf(p.Money),
	}
}

func booksOf(b analysis.Books) Books {
	d := Books{
		Costs: kindSums(b.Costs), Income: kindSums(b.Income), CostTotals: sumsOf(b.CostTotals), IncomeTotals: sumsOf(b.IncomeTotals),
		Paid: []Sum{}, Opening: []Sum{}, Balance: []Sum{}, Accounts: accountsOf(b.Accounts), Converted: convertedOf(b.Converted),
	}
	for _, a := range d.Accounts {
		d.Paid = append(d.Paid, Sum{a.Currency, a.Paid})
		d.Opening = append(d.Opening, Sum{a.Currency, a.Opening})
		d.Balance = append(d.Balance, Sum{a.Currency, a.Closing})
	}
	return d
}

func accountsOf(all []analysis.YearAccount) []Account {
	out := []Account{}
	for _, a := range all {
		of := func(minor int64) Amount { return AmountOf(season.Money{Minor: minor, Currency: a.Currency}) }
		out = append(out, Account{
			Currency: a.Currency.Code, Opening: of(a.Opening), Paid: of(a.Paid), Billed: of(a.Billed), Share: of(a.Share),
			Settled: of(a.Settled), Owed: of(a.Owed), Movement: of(a.Movement()), Closing: of(a.Closing),
		})
	}
	return out
}

func convertedOf(c *analysis.Converted) *Converted {
	if c == nil {
		return nil
	}
	d := &Converted{Currency: c.Currency.Code, Without: currencyCodes(c.Without)}
	if money, ok := season.RoundMoney(c.Amount, c.Currency); ok {
		amount := AmountOf(money)
		d.Amount = &amount
	}
	return d
}

func kindSums(sums []analysis.KindMoney) []KindSum {
	out := []KindSum{}
	for _, s := range sums {
		out = append(out, KindSum{s.Kind, s.Money.Currency.Code, AmountOf(s.Money)})
	}
	return out
}

// AccountIn is the account of a currency; false where there is none.
func (b Books) AccountIn(currency string) (Account, bool) {
	for _, a := range b.Accounts {
		if a.Currency == currency {
			return a, true
		}
	}
	return Account{}, false
}
