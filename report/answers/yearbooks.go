package answers

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"boxbook/season"
	"boxbook/season/analysis"
)

// ClubYear is the club's money in a year: its books, what it really had in hand,
// and its budget.
type ClubYear struct {
	// Name is the club's, absent where no pilot has one.
	Name string `json:"name,omitempty"`
	Books
	// Moved is the club's money in, less its money out; Exchanged what debts paid in
	// another currency brought or took. In each currency of either
	// moved = result - (claims - claims at the opening) + exchanged, and Claims is
	// what the club is owed less what it owes.
	Moved         []Sum  `json:"moved"`
	Exchanged     []Sum  `json:"exchanged"`
	ClaimsOpening []Sum  `json:"claimsOpening"`
	OwesOpening   []Sum  `json:"owesOpening,omitempty"` // what of it the club owed others, where it did
	Claims        []Sum  `json:"claims"`
	ClaimsChange  []Sum  `json:"claimsChange"` // Claims less ClaimsOpening
	Owed          []Owed `json:"owed"`
	OwedTotals    []Sum  `json:"owedTotals"`
	// Unpaid is what of it was billed as the club's income: a payment of exactly what was
	// open of a debt on its day paid that debt, a bill before others, one of all bills and
	// older debts that were left paid those, every other what was oldest, and a payment by
	// the club used up credit.
	Unpaid []Unpaid `json:"unpaid,omitempty"`
	// PaidUnbilled is what somebody paid the club in the year, who was never charged
	// anything in that currency up to its end; what came back is taken off.
	PaidUnbilled []PaidUnbilled `json:"paidUnbilled,omitempty"`
	// Owes is what the club owes others.
	Owes   []Sum    `json:"owes,omitempty"`
	InHand []InHand `json:"inHand"`
	// CountedBefore are the last counts before the year that were off, of currencies of
	// which no count of the year can be compared.
	CountedBefore []InHand `json:"countedBefore,omitempty"`
	// ByLedger is what should be in hand at the year's end, or on Asof before it.
	ByLedger []ByLedger `json:"byLedger,omitempty"`
	// Uncompared are currencies in which money moved and no count can be compared,
	// where another currency's can.
	Uncompared []string `json:"uncompared,omitempty"`
	// UncomparedSince is when those of them were counted last that were before the year.
	UncomparedSince []CountedLast `json:"uncomparedSince,omitempty"`
	Budget          []Budget      `json:"budget"`
	// IncomeBudgetTotals and CostBudgetTotals sum the budget, absent where there is
	// none of that side.
	IncomeBudgetTotals []Sum `json:"incomeBudgetTotals,omitempty"`
	CostBudgetTotals   []Sum `json:"costBudgetTotals,omitempty"`
	// BudgetResult is the budget's income less its costs, in the currencies that have both.
	BudgetResult []Sum `json:"budgetResult,omitempty"`
	// OwedInOne is what is owed to the club in the currency of the year's rates,
	// rounded once; absent where a currency of it has none.
	OwedInOne *Sum `json:"owedInOne,omitempty"`
	// Receipts are the numbers of the year's slips, absent where none has any.
	Receipts *Receipts `json:"receipts,omitempty"`
	// ReceiptSeries are numberings that begin with other signs, as 25-01, of which some
	// number is missing.
	ReceiptSeries []ReceiptSeries `json:"receiptSeries,omitempty"`
	// ReceiptsElsewhere are lines of other years that have a missing receipt.
	ReceiptsElsewhere []ReceiptElsewhere `json:"receiptsElsewhere,omitempty"`
	// ReceiptLines are the year's lines of the club that a slip belongs to, absent where
	// all name one, or fewer than half of them.
	ReceiptLines *ReceiptLines `json:"receiptLines,omitempty"`
}

// ReceiptSeries are the missing receipts of a numbering, each run by its ends as the
// numbering writes them.
type ReceiptSeries struct {
	Begins  string       `json:"begins"`
	Missing []ReceiptRun `json:"missing"`
}

// ReceiptRun is a run of receipts, both ends in it, and how many they are.
type ReceiptRun struct {
	From  string `json:"from"`
	To    string `json:"to"`
	Count int64  `json:"count"`
}

// MissingReceipts are the runs of receipts that no line has, a numbering each, as they are
// written; those that stand in another year are not among them where they are alone.
func (d ClubYear) MissingReceipts() [][]ReceiptRun {
	elsewhere := func(n string) bool {
		return slices.ContainsFunc(d.ReceiptsElsewhere, func(e ReceiptElsewhere) bool { return plainReceipt(e.Receipt) == plainReceipt(n) })
	}
	var all [][]ReceiptRun
	if d.Receipts != nil {
		var runs []ReceiptRun
		for _, run := range d.Receipts.Missing {
			from := run.From
			for _, e := range d.ReceiptsElsewhere {
				if n, err := strconv.ParseInt(e.Receipt, 10, 64); err == nil && n >= from && n <= run.To {
					runs = append(runs, runOf(from, n-1)...)
					from = n + 1
				}
			}
			runs = append(runs, runOf(from, run.To)...)
		}
		all = append(all, runs)
	}
	for _, s := range d.ReceiptSeries {
		all = append(all, slices.DeleteFunc(slices.Clone(s.Missing), func(run ReceiptRun) bool { return run.Count == 1 && elsewhere(run.From) }))
	}
	return slices.DeleteFunc(all, func(runs []ReceiptRun) bool { return len(runs) == 0 })
}

// runOf is a run of plain numbers, none where it has none.
func runOf(from, to int64) []ReceiptRun {
	if to < from {
		return nil
	}
	return []ReceiptRun{{strconv.FormatInt(from, 10), strconv.FormatInt(to, 10), to - from + 1}}
}

// plainReceipt is a number without zeros before it.
func plainReceipt(receipt string) string { return strings.TrimLeft(receipt, "0") }

// ReceiptLines are lines that a slip belongs to, and how many of them name none.
type ReceiptLines struct {
	Lines   int `json:"lines"`
	Without int `json:"without"`
}

// Receipts are the numbers of a year's slips: the smallest, the largest, how many
// different there are, and the runs between them that no line has.
type Receipts struct {
	First   int64       `json:"first"`
	Last    int64       `json:"last"`
	Numbers int         `json:"numbers"`
	Missing []NumberRun `json:"missing"`
}

// NumberRun is a run of whole numbers, both ends in it.
type NumberRun struct {
	From int64 `json:"from"`
	To   int64 `json:"to"`
}

// Owed is what a party owes the club. What it paid went to what was oldest, but
// for exact amounts (Unpaid): Since
// is the day of the oldest posting that is not paid up, and Kind, Contest and
// Remark are those of its line.
type Owed struct {
	Party    string `json:"party"`
	Name     string `json:"name,omitempty"`
	Currency string `json:"currency"`
	Amount   Amount `json:"amount"`
	Since    string `json:"since"`
	Days     int    `json:"days"` // since then, to the year's last day or Asof
	Kind     string `json:"kind,omitempty"`
	Contest  string `json:"contest,omitempty"`
	Remark   string `json:"remark,omitempty"`
	// Entry is the ledger's word of that line: a payment of the club is a debt where it
	// is more than what the club owed.
	Entry EntryWord `json:"entry"`
	// OldestAmount is what the oldest posting came to by itself, paid in part or not.
	OldestAmount Amount `json:"oldestAmount"`
	// OldestOpen is what of it is not paid.
	OldestOpen Amount `json:"oldestOpen"`
}

// Unpaid is what a party has not paid of a line that the club billed it.
type Unpaid struct {
	Party    string `json:"party"`
	Name     string `json:"name,omitempty"`
	Date     string `json:"date"`
	Kind     string `json:"kind"`
	Contest  string `json:"contest,omitempty"`
	Currency string `json:"currency"`
	Amount   Amount `json:"amount"`
	Remark   string `json:"remark,omitempty"`
}

// IsOldest reports whether a bill is the oldest item of what is owed.
func (u Unpaid) IsOldest(o Owed) bool {
	return o.Party == u.Party && o.Currency == u.Currency && o.Since == u.Date && o.Kind == u.Kind
}

// UnpaidByKind are the bills of a year that are not paid, by kind, then day.
func UnpaidByKind(d Year) []Unpaid {
	bills := slices.Clone(d.Club.Unpaid)
	slices.SortStableFunc(bills, func(a, b Unpaid) int {
		return cmp.Or(strings.Compare(a.Kind, b.Kind), strings.Compare(a.Date, b.Date))
	})
	return bills
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
	// Others is what costs of the kind were borne by others than the club, which is no part
	// of Actual; absent where there is nothing.
	Others *Amount `json:"others,omitempty"`
}

// BudgetInAll is what is budgeted on one side in a currency beside all that came in or
// was spent, of kinds without a budget too; false where nothing is budgeted.
func (d ClubYear) BudgetInAll(income bool, currency string) (all Budget, found bool) {
	actual, budgeted := d.CostTotals, d.CostBudgetTotals
	if income {
		actual, budgeted = d.IncomeTotals, d.IncomeBudgetTotals
	}
	sum, found := SumIn(budgeted, currency)
	came, any := SumIn(actual, currency)
	if !any {
		came = sum.Minus(sum)
	}
	return Budget{Currency: currency, Amount: sum, Actual: came, Income: income}, found
}

// Agreed is the year's result as the assembly agreed it. Own is the one
// that the ledger has now, Difference the agreed one less that.
type Agreed struct {
	Currency   string `json:"currency"`
	Amount     Amount `json:"amount"`
	Own        Amount `json:"own"`
	Difference Amount `json:"difference"`
	Remark     string `json:"remark,omitempty"`
}

// AgreedBefore is the result of the year before as the assembly agreed it, where the
// ledger has no money in that year from which one could be worked out.
type AgreedBefore struct {
	Year     int    `json:"year"`
	Currency string `json:"currency"`
	Amount   Amount `json:"amount"`
	Remark   string `json:"remark,omitempty"`
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

// PaidUnbilled is what a party paid, and nothing stands against.
type PaidUnbilled struct {
	Party string `json:"party"`
	Name  string `json:"name"`
	Sum
}

func clubYearOf(y analysis.YearSummary) ClubYear {
	d := ClubYear{
		Books: booksOf(y.Club), Budget: []Budget{}, Owed: []Owed{},
		Moved: []Sum{}, Exchanged: []Sum{}, ClaimsOpening: []Sum{}, Claims: []Sum{}, ClaimsChange: []Sum{},
	}
	for _, m := range y.Money {
		of := func(minor int64) Sum { return sumOf(season.Money{Minor: minor, Currency: m.Currency}) }
		d.Moved, d.Exchanged = append(d.Moved, of(m.Moved)), append(d.Exchanged, of(m.Exchanged))
		d.ClaimsOpening, d.Claims = append(d.ClaimsOpening, of(m.Opening)), append(d.Claims, of(m.Closing))
		d.ClaimsChange = append(d.ClaimsChange, of(m.Closing-m.Opening))
		if m.Owing != 0 {
			d.OwesOpening = append(d.OwesOpening, of(m.Owing))
		}
	}
	for _, o := range y.Owed {
		d.Owed = append(d.Owed, owedOf(o, min(y.AsOf, y.Last)))
	}
	for _, u := range y.Unpaid {
		d.Unpaid = append(d.Unpaid, unpaidOf(u))
	}
	for _, u := range y.PaidUnbilled {
		d.PaidUnbilled = append(d.PaidUnbilled, PaidUnbilled{u.Party.Name(), u.Party.FullName(), sumOf(u.Money)})
	}
	d.Result = sumsOf(y.Club.Result())
	d.InHand = inHandsOf(y.InHand)
	if len(y.CountedBefore) > 0 {
		d.CountedBefore = inHandsOf(y.CountedBefore)
	}
	d.ReceiptsElsewhere = receiptsElsewhere(y.ReceiptsElse)
	if len(y.Uncompared) > 0 {
		d.Uncompared = currencyCodes(y.Uncompared)
	}
	d.addReceipts(y)
	d.OwedTotals = append([]Sum{}, owedTotals(d.Owed)...)
	d.addOwes(y)
	for _, b := range y.Budget {
		line := Budget{Kind: b.Kind, Currency: b.Money.Currency.Code, Amount: AmountOf(b.Money), Actual: AmountOf(b.Actual), Income: b.Income, Remark: b.Remark}
		if b.Others.Minor != 0 {
			others := AmountOf(b.Others)
			line.Others = &others
		}
		d.Budget = append(d.Budget, line)
	}
	d.addBudgetTotals()
	return d
}

// addBudgetTotals sums the budget, income and costs apart.
func (d *ClubYear) addBudgetTotals() {
	for _, b := range d.Budget {
		totals := &d.CostBudgetTotals
		if b.Income {
			totals = &d.IncomeBudgetTotals
		}
		*totals = AddSum(*totals, Sum{Currency: b.Currency, Amount: b.Amount})
	}
	for _, in := range d.IncomeBudgetTotals {
		if out, found := SumIn(d.CostBudgetTotals, in.Currency); found {
			d.BudgetResult = append(d.BudgetResult, Sum{Currency: in.Currency, Amount: in.Amount.Minus(out)})
		}
	}
}

// addReceipts adds the numbers of the slips where there are any.
func (d *ClubYear) addReceipts(y analysis.YearSummary) {
	for _, s := range y.ReceiptSeries {
		series := ReceiptSeries{Begins: s.Begins}
		for _, run := range s.Missing {
			series.Missing = append(series.Missing, ReceiptRun{s.Name(run.From), s.Name(run.To), run.To - run.From + 1})
		}
		d.ReceiptSeries = append(d.ReceiptSeries, series)
	}
	if lines := y.ReceiptLines; lines.Without > 0 && 2*lines.Without <= lines.Lines {
		d.ReceiptLines = &ReceiptLines{lines.Lines, lines.Without}
	}
	r := y.Receipts
	if r.Numbers == 0 {
		return
	}
	d.Receipts = &Receipts{First: r.First, Last: r.Last, Numbers: r.Numbers, Missing: []NumberRun{}}
	for _, run := range r.Missing {
		d.Receipts.Missing = append(d.Receipts.Missing, NumberRun(run))
	}
}

// addOwes says what the club owes: what it is owed less its claims.
func (d *ClubYear) addOwes(y analysis.YearSummary) {
	for _, m := range y.Money {
		owes := season.Money{Minor: -m.Closing, Currency: m.Currency}
		for _, o := range y.Owed {
			if o.Money.Currency == m.Currency {
				owes.Minor += o.Money.Minor
			}
		}
		if owes.Minor != 0 {
			d.Owes = append(d.Owes, sumOf(owes))
		}
	}
}

// owedOf is what a party owes, with its age on a day.
func owedOf(o analysis.OwedClub, on season.Date) Owed {
	d := Owed{
		Party: o.Party.Name(), Name: o.Party.FullName(), Currency: o.Money.Currency.Code, Amount: AmountOf(o.Money), Since: o.Since.String(), Days: int(on - o.Since),
		Entry: EntryCost, OldestAmount: AmountOf(o.Oldest.Money), OldestOpen: AmountOf(o.Open),
	}
	if c := o.Oldest.Cost; c != nil {
		d.Kind, d.Remark = c.Kind, c.Remark
		if c.Contest != nil {
			d.Contest = c.Contest.Name
		}
	}
	if debt := o.Oldest.Debt; debt != nil {
		d.Entry, d.Remark = EntryOwed, debt.Remark
	}
	if paid := o.Oldest.Settlement; paid != nil {
		d.Entry, d.Remark = EntrySettle, paid.Remark
	}
	return d
}

func unpaidOf(u analysis.UnpaidBill) Unpaid {
	d := Unpaid{
		Party: u.Party.Name(), Name: u.Party.FullName(), Date: u.Cost.Date.String(), Kind: u.Cost.Kind,
		Currency: u.Money.Currency.Code, Amount: AmountOf(u.Money), Remark: u.Cost.Remark,
	}
	if u.Cost.Contest != nil {
		d.Contest = u.Cost.Contest.Name
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

// addAgreedBefore adds the results of a year before that has nothing else.
func (d *Year) addAgreedBefore(y analysis.YearSummary) {
	for _, a := range y.AgreedBefore {
		d.AgreedBefore = append(d.AgreedBefore, AgreedBefore{a.Year, a.Money.Currency.Code, AmountOf(a.Money), a.Remark})
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
