package answers

import (
	"boxbook/season"
	"boxbook/season/analysis"
)

// ClubYear is the club's money in a year: its books, what it really had in hand,
// and its budget.
type ClubYear struct {
	Books
	InHand []InHand `json:"inHand"`
	Budget []Budget `json:"budget"`
}

// InHand is what the club had in a pot on a day, as typed. Own is what the ledger
// says should have been there and Difference the amount less that; both are
// absent where the pot was counted for the first time.
type InHand struct {
	Date       string  `json:"date"`
	Pot        string  `json:"pot"`
	Currency   string  `json:"currency"`
	Amount     Amount  `json:"amount"`
	Own        *Amount `json:"own,omitempty"`
	Difference *Amount `json:"difference,omitempty"`
	Remark     string  `json:"remark,omitempty"`
}

// Budget is what the club meant to spend on a kind, or to take in, and what it
// did so far.
type Budget struct {
	Kind     string `json:"kind"`
	Currency string `json:"currency"`
	Amount   Amount `json:"amount"`
	Actual   Amount `json:"actual"`
	Income   bool   `json:"income,omitempty"`
	Remark   string `json:"remark,omitempty"`
}

// Agreed is the year's result as the assembly took note of it. Own is the one
// that the ledger has now, Difference the agreed one less that.
type Agreed struct {
	Currency   string `json:"currency"`
	Amount     Amount `json:"amount"`
	Own        Amount `json:"own"`
	Difference Amount `json:"difference"`
	Remark     string `json:"remark,omitempty"`
}

// Party is somebody's balances before the year and at its end, the club's too:
// over all parties each currency sums to zero.
type Party struct {
	Party   string           `json:"party"`
	Kind    season.PartyKind `json:"kind"`
	Name    string           `json:"name,omitempty"`
	Opening []Sum            `json:"opening"`
	Balance []Sum            `json:"balance"`
}

func clubYearOf(y analysis.YearSummary) ClubYear {
	d := ClubYear{Books: booksOf(y.Club), InHand: []InHand{}, Budget: []Budget{}}
	d.Result = sumsOf(y.Club.Result())
	for _, h := range y.InHand {
		line := InHand{Date: h.Date.String(), Pot: h.Pot, Currency: h.Money.Currency.Code, Amount: AmountOf(h.Money), Remark: h.Remark}
		if h.Own != nil {
			own, difference := AmountOf(*h.Own), less(h.Money, *h.Own)
			line.Own, line.Difference = &own, &difference
		}
		d.InHand = append(d.InHand, line)
	}
	for _, b := range y.Budget {
		d.Budget = append(d.Budget, Budget{
			Kind: b.Kind, Currency: b.Money.Currency.Code, Amount: AmountOf(b.Money), Actual: AmountOf(b.Actual), Income: b.Income, Remark: b.Remark,
		})
	}
	return d
}

// less is an amount less another of its currency.
func less(a, b season.Money) Amount {
	return AmountOf(season.Money{Minor: a.Minor - b.Minor, Currency: a.Currency})
}

// addAgreed adds the agreed result, and those in further currencies.
func (d *Year) addAgreed(y analysis.YearSummary) {
	for i, a := range y.Agreed {
		agreed := Agreed{a.Money.Currency.Code, AmountOf(a.Money), AmountOf(a.Own), less(a.Money, a.Own), a.Remark}
		if i == 0 {
			d.Agreed = &agreed
		} else {
			d.AgreedElse = append(d.AgreedElse, agreed)
		}
	}
}

// addParties lists the balances of everybody who has any.
func (d *Year) addParties() {
	d.Parties = []Party{}
	add := func(party string, kind season.PartyKind, name string, b Books) {
		if len(b.Accounts) > 0 {
			d.Parties = append(d.Parties, Party{party, kind, name, b.Opening, b.Balance})
		}
	}
	for _, p := range d.Pilots {
		add(p.Pilot, season.PilotParty, p.Name, p.Books)
	}
	for _, p := range d.Others {
		add(p.Party, p.Kind, p.Name, p.Books)
	}
	add(season.ClubName, season.ClubParty, "", d.Club.Books)
}
