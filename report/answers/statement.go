package answers

import (
	"slices"
	"strings"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/ledger"
)

// Statements are those of one party, of several, or the club's cash book, in JSON.
// How the payments were found is said as in Year.
type Statements struct {
	Year       int         `json:"year"`
	First      string      `json:"first"`
	Last       string      `json:"last"`
	Calendar   bool        `json:"calendar"`
	Running    bool        `json:"running,omitempty"`
	Statements []Statement `json:"statements"`
	Pooled     bool        `json:"pooled,omitempty"`
	SettleIn   string      `json:"settleIn,omitempty"`
	SettleLeft []Sum       `json:"settleLeft,omitempty"`
	Unproven   []string    `json:"unproven,omitempty"`
	Unpriced   []string    `json:"unpriced,omitempty"`
	// Rates are those at which payments are in one currency, of a statement in one.
	Rates []ExchangeRate `json:"rates,omitempty"`
	Asof  string         `json:"asof"`
	// Warned are the warnings of the ledger, as in a year, where several statements are asked
	// for.
	Warned *Warned `json:"warned,omitempty"`
}

// Statement is a party's financial year. Opening is what it carried in, Closing what
// it carries out: positive is owed to the party. Of the club they are what should
// be in hand. Settle are the payments that it pays or gets, Owed is what it owes
// the club.
type Statement struct {
	Party    string             `json:"party"`
	Kind     season.PartyKind   `json:"kind"`
	Name     string             `json:"name,omitempty"`
	Club     string             `json:"club,omitempty"` // the club's name
	Year     int                `json:"year"`
	Opening  []Sum              `json:"opening"`
	Postings []StatementPosting `json:"postings"`
	Closing  []Sum              `json:"closing"`
	Accounts []StatementAccount `json:"accounts"`
	Owed     []Owed             `json:"owed"`
	Settle   []Payment          `json:"settle"`
	Since    int                `json:"since,omitempty"` // lines with others after the year
	// CountedBefore, MissingReceipts and ReceiptsElsewhere are of the club's cash book, as
	// in a year; Warned as there.
	CountedBefore     []InHand           `json:"countedBefore,omitempty"`
	MissingReceipts   [][]ReceiptRun     `json:"missingReceipts,omitempty"`
	ReceiptsElsewhere []ReceiptElsewhere `json:"receiptsElsewhere,omitempty"`
	Warned            *Warned            `json:"warned,omitempty"`
	// Transfers are what of settlements of the year settled debts in a chain of which the
	// party is one; Netted what stands with others and comes to nothing in all, positive for
	// what the party is owed.
	Transfers []Transfer   `json:"transfers,omitempty"`
	Netted    []StandsWith `json:"netted,omitempty"`
	// Among is what stands with other members, positive for what the party is owed; Direct
	// says that the payments with them are just that.
	Among  []StandsWith `json:"among,omitempty"`
	Direct bool         `json:"direct,omitempty"`
	// Twice are the lines of a party that may be others, typed again.
	Twice []PostingTwice `json:"twice,omitempty"`
	// OneReceipt are lines with one receipt that cannot be of one slip, of which the party
	// has one at least.
	OneReceipt []OneReceipt `json:"oneReceipt,omitempty"`
	// InQuestion are payments in whose currency nothing was owed, with which may have been
	// paid what the party is asked for.
	InQuestion []PaymentInQuestion `json:"inQuestion,omitempty"`
}

// PaymentInQuestion is a payment that may have been in another currency than its own: in
// one of Owed, what who paid owed who was paid then.
type PaymentInQuestion struct {
	Date     string `json:"date"`
	From     string `json:"from"`
	To       string `json:"to"`
	FromName string `json:"fromName"` // "" for the club, as ToName
	ToName   string `json:"toName"`
	Currency string `json:"currency"`
	Amount   Amount `json:"amount"`
	Owed     []Sum  `json:"owed"`
	File     string `json:"file"`
	Line     int    `json:"line"`
}

// addInQuestion adds a party's payments that may have been in another currency.
func (d *Statement) addInQuestion(all []analysis.Unowed) {
	for _, u := range all {
		p := PaymentInQuestion{
			Date: u.Date.String(), From: u.From.Name(), To: u.To.Name(), FromName: u.From.FullName(), ToName: u.To.FullName(),
			Currency: u.Paid.Currency.Code, Amount: AmountOf(u.Paid), Owed: []Sum{}, File: u.At.File, Line: u.At.Line,
		}
		for _, m := range u.Open {
			p.Owed = append(p.Owed, sumOf(m))
		}
		d.InQuestion = append(d.InQuestion, p)
	}
}

// Transfer is what of a settlement between two members settled debts of others. Chain are
// the handles from who paid to whom was paid: each owed the next one as much.
type Transfer struct {
	Date       string   `json:"date"`
	Chain      []string `json:"chain"`
	ChainNames []string `json:"chainNames"`
	Currency   string   `json:"currency"`
	Amount     Amount   `json:"amount"`
	File       string   `json:"file"`
	Line       int      `json:"line"`
}

// StandsWith is what stands with another.
type StandsWith struct {
	Party    string `json:"party"`
	Name     string `json:"name"`
	Currency string `json:"currency"`
	Amount   Amount `json:"amount"`
}

func standsWith(all []analysis.Stands) (found []StandsWith) {
	for _, s := range all {
		found = append(found, StandsWith{s.With.Name(), s.With.FullName(), s.Money.Currency.Code, AmountOf(s.Money)})
	}
	return found
}

// addBetween adds what of a party's money with other members is on none of its lines.
func (d *Statement) addBetween(s analysis.Statement) {
	for _, t := range s.Transfers {
		paid := t.Settlement
		line := Transfer{Date: paid.Date.String(), Currency: t.Money.Currency.Code, Amount: AmountOf(t.Money), File: paid.At.File, Line: paid.At.Line}
		for _, p := range t.Parties() {
			line.Chain, line.ChainNames = append(line.Chain, p.Name()), append(line.ChainNames, p.FullName())
		}
		d.Transfers = append(d.Transfers, line)
	}
	d.Direct, d.Netted, d.Among = s.Direct, standsWith(s.Netted), standsWith(s.Among)
}

// OneReceipt are two lines with the same receipt, of other days or payers.
type OneReceipt struct {
	Receipt string       `json:"receipt"`
	Lines   [2]MoneyLine `json:"lines"`
}

// PostingTwice is a line of a statement and the one before it, of which it may be typed
// again: they say the same, receipt and remark among it, or with Partly the same of the
// party's share.
type PostingTwice struct {
	First  MoneyLine        `json:"first"`
	Again  StatementPosting `json:"again"`
	Partly bool             `json:"partly,omitempty"`
}

// FindTwice finds in the diagnostics of a reading which of a party's lines with others may
// be ones before them, typed again, and which have the receipt of another slip.
func (s *Statement) FindTwice(l *season.Ledger, found ledger.List) {
	of := map[season.Place]analysis.MoneyLine{}
	party, _ := l.PartyNamed(s.Party)
	for _, d := range found {
		repeats, other := ledger.RepeatsMoney(d), d.SameReceipt()
		if repeats {
			other = d.Repeats()
		}
		if other.Line == 0 {
			continue
		}
		if len(of) == 0 {
			analysis.EachMoneyLine(l, func(m analysis.MoneyLine) { of[m.At] = m })
		}
		at := season.Place{File: d.File, Line: d.Line}
		first, known := of[other]
		again, too := of[at]
		for _, p := range s.Postings {
			place := season.Place{File: p.File, Line: p.Line}
			switch {
			case !known || p.Alone || !d.IsAbout(party):
			case repeats && place == at:
				s.Twice = append(s.Twice, PostingTwice{moneyLineOf(first), p, len(d.Whose()) > 0})
			case !repeats && too && (place == at || place == other):
				s.addOneReceipt(OneReceipt{p.Receipt, [2]MoneyLine{moneyLineOf(first), moneyLineOf(again)}})
			}
		}
	}
}

// addOneReceipt adds two lines, once where the party has both.
func (s *Statement) addOneReceipt(r OneReceipt) {
	if !slices.ContainsFunc(s.OneReceipt, func(o OneReceipt) bool { return o.Lines == r.Lines }) {
		s.OneReceipt = append(s.OneReceipt, r)
	}
}

// StatementPosting is a line of the ledger as a party has it. Amount is the whole
// line's, Share what of it was for the party, Out what the party paid and In what
// it received; Change is what became of the balance, which is Running afterwards.
// A line that is Alone is about nobody else and changes no balance. Whom are the
// handles of the others. Paid is what was handed over where it was another currency.
//
// Of the club's cash book Currency and Amount are of the money that moved, Debt
// what a payment in another currency was for. A count of a pot has Pot and Counted; Found
// is the content of a pot that was counted for the first time after another.
type StatementPosting struct {
	Date        string    `json:"date"`
	Entry       EntryWord `json:"entry"`
	Contest     string    `json:"contest,omitempty"`
	ContestName string    `json:"contestName,omitempty"`
	Kind        string    `json:"kind,omitempty"`
	Whom        string    `json:"whom,omitempty"`
	WhomNames   []string  `json:"whomNames,omitempty"` // "" for the club
	ForWhom     bool      `json:"forWhom,omitempty"`   // the club paid it for them, to somebody outside
	Remark      string    `json:"remark,omitempty"`
	Receipt     string    `json:"receipt,omitempty"`
	Currency    string    `json:"currency"`
	Amount      Amount    `json:"amount"`
	Paid        *Sum      `json:"paid,omitempty"`
	Debt        *Sum      `json:"debt,omitempty"`
	Share       *Amount   `json:"share,omitempty"`
	In          *Amount   `json:"in,omitempty"`
	Out         *Amount   `json:"out,omitempty"`
	Change      Amount    `json:"change"`
	Running     Amount    `json:"running"`
	Billed      bool      `json:"billed,omitempty"` // the club's bill: no money has moved
	Unpaid      bool      `json:"unpaid,omitempty"` // the club is still owed something of it
	Open        *Amount   `json:"open,omitempty"`   // how much of the bill is
	ToClub      bool      `json:"toClub,omitempty"` // the club received it
	Alone       bool      `json:"alone,omitempty"`
	Pot         string    `json:"pot,omitempty"`
	Found       *Amount   `json:"found,omitempty"`
	Counted
	File string `json:"file"`
	Line int    `json:"line"`
}

// EntryInHand is the ledger's word for a count of a pot.
const EntryInHand EntryWord = "in-hand"

// StatementAccount is how a balance came about:
// closing = opening - share + out - in + owed, and of the club's cash
// closing = opening + in - out + found. Own and Income sum up the lines that are about
// nobody else. Since is the day of the first count that the cash goes by; without
// one it is what has moved since the ledger began.
type StatementAccount struct {
	Currency string  `json:"currency"`
	Opening  Amount  `json:"opening"`
	Share    *Amount `json:"share,omitempty"`
	Out      Amount  `json:"out"`
	In       Amount  `json:"in"`
	Owed     *Amount `json:"owed,omitempty"`
	Found    *Amount `json:"found,omitempty"`
	Closing  Amount  `json:"closing"`
	Own      *Amount `json:"own,omitempty"`
	Income   *Amount `json:"income,omitempty"`
	Since    string  `json:"since,omitempty"`
	// WithClub is how what the party owes the club came about, absent where nothing
	// ever stood between the two.
	WithClub *StandsWithClub `json:"withClub,omitempty"`
}

// StandsWithClub is what a party owes the club, below zero what the club owes it:
// closing = opening + charged - paidFor - paid + received + owed. Charged is what the
// club paid or billed for the party less Credited, what it gave back or credited, PaidFor
// what the party paid for the club, Paid and Received are settlements, Owed older debts.
type StandsWithClub struct {
	Opening  Amount  `json:"opening"`
	Charged  Amount  `json:"charged"`
	Credited *Amount `json:"credited,omitempty"`
	PaidFor  Amount  `json:"paidFor"`
	Paid     Amount  `json:"paid"`
	Received Amount  `json:"received"`
	Owed     Amount  `json:"owed"`
	Closing  Amount  `json:"closing"`
}

// IsClub reports whether it is the club's cash book.
func (s Statement) IsClub() bool { return s.Kind == season.ClubParty }

// StatementsOf are the statements of the parties named; where none is, of everybody
// but the club with a line in the year or an open balance. The errors are those of
// YearSettled.
func StatementsOf(l *season.Ledger, year int, how Settling, who ...season.Party) (Statements, error) {
	y, err := analysis.YearSettled(l, year, how)
	if err != nil {
		return Statements{}, err
	}
	if len(who) == 0 {
		who = analysis.Stated(l, y)
	}
	found, err := analysis.Statements(l, y, who)
	if err != nil {
		return Statements{}, err
	}
	d := Statements{
		Year: y.Year, First: y.First.String(), Last: y.Last.String(), Calendar: l.YearStart.Begin(year) == season.MonthDay{}.Begin(year),
		Running: y.AsOf >= y.First && y.AsOf < y.Last, Statements: []Statement{},
		Pooled: y.Settling.Fewest, SettleIn: y.Settling.In, Unproven: currencyCodes(y.Unproven), Unpriced: currencyCodes(y.Unpriced), Asof: y.AsOf.String(),
	}
	if d.SettleIn != "" {
		d.Rates = ratesOf(y)
	}
	for _, left := range y.Left {
		d.SettleLeft = append(d.SettleLeft, sumOf(left))
	}
	for _, s := range found {
		d.Statements = append(d.Statements, statementOf(l, y, s))
	}
	return d, nil
}

func statementOf(l *season.Ledger, y analysis.YearSummary, s analysis.Statement) Statement {
	d := Statement{
		Party: s.Party.Name(), Kind: s.Party.Kind(), Name: s.Party.FullName(), Year: y.Year, Since: s.Since,
		Club: l.ClubCalled(), Opening: []Sum{}, Closing: []Sum{}, Postings: []StatementPosting{}, Accounts: []StatementAccount{}, Owed: []Owed{}, Settle: []Payment{},
	}
	for _, o := range s.Owed {
		d.Owed = append(d.Owed, owedOf(o, min(y.AsOf, y.Last)))
	}
	for _, p := range s.Payments {
		d.Settle = append(d.Settle, paymentOf(p))
	}
	if s.Party.Club() {
		of := clubYearOf(y)
		d.CountedBefore, d.MissingReceipts, d.ReceiptsElsewhere = of.CountedBefore, of.MissingReceipts(), of.ReceiptsElsewhere
		d.addCash(analysis.CashBookOf(l, y))
	} else {
		d.addLines(s)
		d.addBetween(s)
		d.addInQuestion(s.InQuestion)
	}
	for _, a := range d.Accounts {
		d.Opening, d.Closing = append(d.Opening, Sum{a.Currency, a.Opening}), append(d.Closing, Sum{a.Currency, a.Closing})
	}
	return d
}

// addLines adds what a party has.
func (d *Statement) addLines(s analysis.Statement) {
	for _, line := range s.Lines {
		p := postingOf(line.Cost, line.Settlement, line.Debt)
		in := amountsIn(line.Amount.Currency)
		p.Date, p.Currency, p.Amount = line.Date.String(), line.Amount.Currency.Code, AmountOf(line.Amount)
		p.Share, p.In, p.Out = in.some(line.Share), in.some(line.In), in.some(line.Out)
		p.Change, p.Running, p.Alone = in.of(line.Change), in.of(line.Running), line.Alone()
		p.ToClub, p.Unpaid = line.Cost != nil && line.Cost.ToClub, line.Unpaid
		p.Open = in.some(line.Open)
		p.Billed = p.ToClub && line.Cost.By.Club()
		if paid := line.Settlement; paid != nil && paid.Paid.Currency != paid.Money.Currency {
			handed := sumOf(paid.Paid)
			p.Paid = &handed
		}
		p.with(line.With)
		d.Postings = append(d.Postings, p)
	}
	for _, a := range s.Accounts {
		in := amountsIn(a.Currency)
		share := in.of(a.Share)
		d.Accounts = append(d.Accounts, StatementAccount{
			Currency: a.Currency.Code, Opening: in.of(a.Opening), Share: &share, Out: in.of(a.Out), In: in.of(a.In),
			Owed: in.some(a.Owed), Closing: in.of(a.Closing), Own: in.some(a.Own), Income: in.some(a.Income), WithClub: withClubIn(s.Club, a.Currency),
		})
	}
}

// withClubIn is what stands with the club in a currency.
func withClubIn(all []analysis.StandsWithClub, c season.Currency) *StandsWithClub {
	for _, s := range all {
		if in := amountsIn(c); s.Currency == c {
			return &StandsWithClub{
				Opening: in.of(s.Opening), Charged: in.of(s.Charged), Credited: in.some(s.Credited), PaidFor: in.of(s.PaidFor), Paid: in.of(s.Paid),
				Received: in.of(s.Received), Owed: in.of(s.Owed), Closing: in.of(s.Closing),
			}
		}
	}
	return nil
}

// addCash adds the club's cash book.
func (d *Statement) addCash(b analysis.CashBook) {
	for _, line := range b.Lines {
		p := postingOf(line.Cost, line.Settlement, nil)
		in := amountsIn(line.Currency)
		p.Date, p.Currency, p.Amount = line.Date.String(), line.Currency.Code, in.of(line.In+line.Out)
		p.In, p.Out, p.Found = in.some(line.In), in.some(line.Out), in.some(line.Found)
		p.Change, p.Running = in.of(line.In-line.Out+line.Found), in.of(line.Running)
		p.ForWhom = line.Cost != nil && line.Cost.By.Club()
		if s := line.Settlement; s != nil && s.Paid.Currency != s.Money.Currency {
			debt := sumOf(s.Money)
			p.Debt = &debt
		}
		if line.Count != nil {
			p.count(*line.Count)
		}
		p.with(line.With)
		d.Postings = append(d.Postings, p)
	}
	for _, t := range b.Totals {
		in := amountsIn(t.Currency)
		a := StatementAccount{
			Currency: t.Currency.Code, Opening: in.of(t.Opening), Out: in.of(t.Out), In: in.of(t.In), Found: in.some(t.Found), Closing: in.of(t.Closing),
		}
		if t.Counted {
			a.Since = t.Since.String()
		}
		d.Accounts = append(d.Accounts, a)
	}
}

// postingOf has what the line of the ledger says; one of the three is set, none for
// a count.
func postingOf(c *season.Cost, s *season.Settlement, debt *season.Debt) StatementPosting {
	switch {
	case c != nil:
		p := StatementPosting{Entry: EntryCost, Kind: c.Kind, Remark: c.Remark, Receipt: c.Receipt, File: c.At.File, Line: c.At.Line}
		if c.Income {
			p.Entry = EntryIncome
		}
		if c.Contest != nil {
			p.Contest, p.ContestName = c.Contest.Handle, c.Contest.Name
		}
		return p
	case s != nil:
		return StatementPosting{Entry: EntrySettle, Remark: s.Remark, Receipt: s.Receipt, File: s.At.File, Line: s.At.Line}
	case debt != nil:
		return StatementPosting{Entry: EntryOwed, Remark: debt.Remark, File: debt.At.File, Line: debt.At.Line}
	default:
		return StatementPosting{Entry: EntryInHand}
	}
}

// count adds what was found in a pot.
func (p *StatementPosting) count(h analysis.InHandYear) {
	p.Pot, p.Amount, p.Remark, p.File, p.Line = h.Pot, AmountOf(h.Money), h.Remark, h.At.File, h.At.Line
	p.Counted = countedOf(h)
}

// with names the others of a line.
func (p *StatementPosting) with(others []season.Party) {
	var handles []string
	for _, o := range others {
		handles = append(handles, o.Name())
		p.WhomNames = append(p.WhomNames, o.FullName())
	}
	p.Whom = strings.Join(handles, " ")
}

// byLedgerOf is what the cash book has at the end of a year in the currencies that
// were counted, on the ledger's AsOf where that is earlier.
func byLedgerOf(l *season.Ledger, y analysis.YearSummary) []ByLedger {
	var all []ByLedger
	for _, t := range analysis.CashBookOf(l, y).Totals {
		counted := season.Date(0)
		for _, h := range y.InHand {
			if h.Money.Currency == t.Currency {
				counted = max(counted, h.Date)
			}
		}
		if t.Counted && counted != 0 {
			all = append(all, ByLedger{t.Currency.Code, amountsIn(t.Currency).of(t.Closing), min(y.AsOf, y.Last).String(), counted.String()})
		}
	}
	return all
}

// amountsIn makes amounts of a currency.
type amountsIn season.Currency

func (c amountsIn) of(minor int64) Amount {
	return AmountOf(season.Money{Minor: minor, Currency: season.Currency(c)})
}

// some is nil for nothing.
func (c amountsIn) some(minor int64) *Amount {
	if minor == 0 {
		return nil
	}
	amount := c.of(minor)
	return &amount
}
