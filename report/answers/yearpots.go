package answers

import (
	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// Slip is a line of the ledger that alone would explain why a pot had another
// amount: Twice where the same line stands before it, else it may never have come
// into the pot, or out of it. Moved is what it put into the club's pots; From and
// To are the parties of a settlement. Pot is that of a count, which moves nothing: two
// digits of it may be swapped.
type Slip struct {
	Date  string `json:"date"`
	Moved Amount `json:"moved"`
	Twice bool   `json:"twice"`
	Meant string `json:"meant,omitempty"` // the day that would explain it, of a line dated in another year
	// Typed is the amount as it stands in the line and MeantAmount what would explain it,
	// where two neighbouring digits of it may be swapped; Typed alone where ZeroOn is.
	Typed       *Amount `json:"typed,omitempty"`
	MeantAmount *Amount `json:"meantAmount,omitempty"`
	// FitsAgreed is a year whose agreed result says as well that the line is of Meant's, and
	// FitsReceipt a receipt of the line that is missing there.
	FitsAgreed  int    `json:"fitsAgreed,omitempty"`
	FitsReceipt string `json:"fitsReceipt,omitempty"`
	// Currency is the line's and MeantCurrency the one that would explain it: the other
	// one's count is off by the same amount, the opposite way, or nothing was owed in Currency
	// and something in MeantCurrency.
	Currency      string `json:"currency,omitempty"`
	MeantCurrency string `json:"meantCurrency,omitempty"`
	// Explains is what of the difference one of two explains, with Moved's sign.
	Explains *Amount `json:"explains,omitempty"`
	// Alike is of how many lines that are alike this is the first that would explain as much.
	Alike int `json:"alike,omitempty"`
	// Again says that the line's amount once more would explain it.
	Again bool `json:"again,omitempty"`
	// Turned says that its amount the other way round would.
	Turned bool `json:"turned,omitempty"`
	// Pointed says that MeantAmount has Typed's point elsewhere, no digits swapped.
	Pointed bool `json:"pointed,omitempty"`
	// ZeroOn is the day on which the pot had nothing, if what was counted there first came
	// from the other pots.
	ZeroOn string `json:"zeroOn,omitempty"`
	// PaidBy is who paid a bill of the club by the line, of which the club would explain it.
	PaidBy  string `json:"paidBy,omitempty"`
	Kind    string `json:"kind,omitempty"`
	Contest string `json:"contest,omitempty"`
	From    string `json:"from,omitempty"`
	To      string `json:"to,omitempty"`
	Pot     string `json:"pot,omitempty"`
	// Opening says that the count is the first of its pot, by which all later ones are off.
	Opening bool   `json:"opening,omitempty"`
	Remark  string `json:"remark,omitempty"`
	File    string `json:"file"`
	Line    int    `json:"line"`
}

// InHand is what the club had in a pot on a day, as typed.
type InHand struct {
	Date     string `json:"date"`
	Pot      string `json:"pot"`
	Currency string `json:"currency"`
	Amount   Amount `json:"amount"`
	Remark   string `json:"remark,omitempty"`
	Counted
}

// Counted is what the ledger makes of a count of a pot. Own is what it says should have
// been there, and in what the other pots of its currency had when they were counted, and
// Difference the amount less that. Both are absent where the pot was counted for the first
// time, and where it was counted without the others and a later count of the year is
// compared instead.
type Counted struct {
	Own        *Amount `json:"own,omitempty"`
	Difference *Amount `json:"difference,omitempty"`
	// Joined says that the pots of its currency are compared together on its day, since
	// lines of money name no pot. Together is how, with the last count of the day.
	Joined   bool      `json:"joined,omitempty"`
	Together *Together `json:"together,omitempty"`
	// Stands is how the pots of its currency stand to the ledger, with the last count of
	// the day; absent where that is the first.
	Stands *Stands `json:"stands,omitempty"`
	// WasIn is the currency in which the pot was counted before, on WasOn, where it was never
	// counted in that and in its own on one day: one of them may be mistyped.
	WasIn string `json:"wasIn,omitempty"`
	WasOn string `json:"wasOn,omitempty"`
	// AgreesLater is the day of a later count from which what is newly off is gone again: this
	// count is likelier wrong than a line before it, and of Explained only itself and lines
	// shortly before it are left, whose money may have moved after it.
	// Absent where a line before it, were it of another year, would explain both.
	AgreesLater string `json:"agreesLater,omitempty"`
	// Explained are the lines each of which alone would explain what is newly off: where
	// Stands has IfStill, if those pots still have what is said there.
	Explained []Slip `json:"explained,omitempty"`
	// ExplainedBoth are two lines that would explain it together, where none does alone and
	// no other two do. ExplainedByTwo has all such pairs.
	ExplainedBoth  []Slip     `json:"explainedBoth,omitempty"`
	ExplainedByTwo *SlipPairs `json:"explainedByTwo,omitempty"`
	// ByChance is how often one of the lines would explain a difference that is as round and
	// as near by its amount alone, where only that speaks for Explained.
	ByChance *SlipChance `json:"byChance,omitempty"`
	// Untyped are the debts of exactly what is newly off, which may have been paid without a
	// line: likelier than Explained, of which no more than the amount speaks for any.
	Untyped []Untyped `json:"untyped,omitempty"`
}

// Untyped is what a party owed the club when it had as much more than the ledger says, or
// what the club owed the party, where Out, when it had less. It is all that was open in the
// currency, else one debt: that with Kind or Entry.
type Untyped struct {
	Party   string    `json:"party"`
	Name    string    `json:"name,omitempty"`
	Amount  Amount    `json:"amount"`
	Out     bool      `json:"out,omitempty"`
	Since   string    `json:"since,omitempty"`
	Kind    string    `json:"kind,omitempty"`
	Contest string    `json:"contest,omitempty"`
	Entry   EntryWord `json:"entry,omitempty"`
}

func untypedOf(all []analysis.Untyped) []Untyped {
	var untyped []Untyped
	for _, u := range all {
		d := Untyped{Party: u.Party.Name(), Name: u.Party.FullName(), Amount: AmountOf(u.Money), Out: u.Out}
		if u.Since != 0 {
			d.Since = u.Since.String()
		}
		switch of := u.Of; {
		case of == nil:
		case of.Cost != nil:
			d.Entry, d.Kind = EntryCost, of.Cost.Kind
			if of.Cost.Contest != nil {
				d.Contest = of.Cost.Contest.Name
			}
		case of.Settlement != nil:
			d.Entry = EntrySettle
		default:
			d.Entry = EntryOwed
		}
		untyped = append(untyped, d)
	}
	return untyped
}

// SlipChance is how often chance alone would explain a difference, Reached of Of; of Tried
// lines.
type SlipChance struct {
	Tried   int64         `json:"tried"`
	Reached int64         `json:"reached"`
	Of      int64         `json:"of"`
	Share   report.Number `json:"share"`
}

func slipChanceOf(c *analysis.SlipChance) *SlipChance {
	if c == nil {
		return nil
	}
	return &SlipChance{c.Tried, c.Reached, c.Of, report.Exact(c.Share())}
}

// MostPairs is up to how many pairs of slips that fit are a clue.
const MostPairs = analysis.MostPairs

// TransferDays are how many days before a count a line may be whose money moved after it.
const TransferDays = analysis.TransferDays

// SlipPairs are the pairs of slips that together explain exactly what is newly off, where
// none does alone; More says that there are more than are a clue, and Pairs has none. Tried
// are the pairs that there are. Share is how often chance alone would explain a difference
// that is as round and as near so, at most: Reached of Of.
type SlipPairs struct {
	Pairs   [][2]Slip     `json:"pairs"`
	More    bool          `json:"more,omitempty"`
	Tried   int64         `json:"tried"`
	Reached int64         `json:"reached"`
	Of      int64         `json:"of"`
	Share   report.Number `json:"share"`
}

// slipPairsOf are those of a count, and the pair where there is one; nil where there is none.
func slipPairsOf(p *analysis.SlipPairs) (both []Slip, pairs *SlipPairs) {
	if p == nil {
		return nil, nil
	}
	pairs = &SlipPairs{Pairs: [][2]Slip{}, More: p.More, Tried: p.Tried, Reached: p.Reached, Of: p.Of, Share: report.Exact(p.Share())}
	for _, pair := range p.Pairs {
		pairs.Pairs = append(pairs.Pairs, [2]Slip{slipOf(pair[0]), slipOf(pair[1])})
	}
	if len(p.Pairs) == 1 {
		both = slipsOf(p.Pairs[0][:])
	}
	return both, pairs
}

// inHandsOf are counts with what would explain them.
func inHandsOf(all []analysis.InHandYear) []InHand {
	counts := []InHand{}
	for _, h := range all {
		counts = append(counts, InHand{h.Date.String(), h.Pot, h.Money.Currency.Code, AmountOf(h.Money), h.Remark, countedOf(h)})
	}
	return counts
}

func countedOf(h analysis.InHandYear) Counted {
	c := Counted{Joined: h.Joined, Together: togetherOf(h.Compared), Stands: StandsOf(h.Compared), ByChance: slipChanceOf(h.ByChance), Untyped: untypedOf(h.Untyped)}
	if h.Own != nil {
		own, difference := AmountOf(*h.Own), less(h.Money, *h.Own)
		c.Own, c.Difference = &own, &difference
	}
	c.WasIn, c.WasOn = wasIn(h)
	c.AgreesLater, c.Explained = explainedOf(h)
	c.ExplainedBoth, c.ExplainedByTwo = slipPairsOf(h.Pairs)
	return c
}

// wasIn is the currency in which the pot of a count was before, and the day; "" where that is
// no doubt.
func wasIn(h analysis.InHandYear) (currency, day string) {
	if h.Was == nil {
		return "", ""
	}
	return h.Was.Money.Currency.Code, h.Was.Date.String()
}

func slipsOf(all []analysis.Slip) []Slip {
	var slips []Slip
	for _, s := range all {
		slips = append(slips, slipOf(s))
	}
	return slips
}

// Stands is how what was counted in a currency stands to the ledger. Ledger is what that
// says from the first count on, as the cash book and ByLedger have it, and
// Difference what was counted less that. Of it Carried was off on Since already, the last
// day before on which what all pots had is known, and New came later. IfStill are the
// pots that were counted earlier, where money moved since: what is new may be in them.
type Stands struct {
	Ledger     Amount    `json:"ledger"`
	Difference Amount    `json:"difference"`
	Carried    Amount    `json:"carried"`
	New        Amount    `json:"new"`
	Since      string    `json:"since"`
	IfStill    []PotHeld `json:"ifStill,omitempty"`
}

// Unsure reports whether what is newly off may be in a pot that was not counted.
func (s Stands) Unsure() bool { return len(s.IfStill) > 0 && !s.New.IsNothing() }

// Together are the pots of a currency on a day, each as it was counted last. Own is what
// should have been in all of them by what they had when they were compared before,
// Difference the amount less that.
type Together struct {
	Pots       []PotHeld `json:"pots"`
	Currency   string    `json:"currency"`
	Amount     Amount    `json:"amount"`
	Own        Amount    `json:"own"`
	Difference Amount    `json:"difference"`
}

// PotHeld is what a pot had when it was counted.
type PotHeld struct {
	Pot    string `json:"pot"`
	Date   string `json:"date"`
	Amount Amount `json:"amount"`
}

// ByLedger is what the pots of a currency should have by the ledger on a day; Counted
// is when one of them was counted last.
type ByLedger struct {
	Currency string `json:"currency"`
	Amount   Amount `json:"amount"`
	Date     string `json:"date"`
	Counted  string `json:"counted"`
}

// CountedLast is when a currency was counted last.
type CountedLast struct {
	Currency string `json:"currency"`
	Date     string `json:"date"`
}

// countedLast is when the uncompared currencies of a year were counted last before it.
func countedLast(l *season.Ledger, y analysis.YearSummary) []CountedLast {
	var all []CountedLast
	for _, c := range y.Uncompared {
		last, counted := season.Date(0), false
		for _, h := range l.InHand {
			if h.Money.Currency == c && h.Date < y.First && (!counted || h.Date > last) {
				last, counted = h.Date, true
			}
		}
		if counted {
			all = append(all, CountedLast{c.Code, last.String()})
		}
	}
	return all
}

// togetherOf are the pots of a comparison, nil where there is one alone.
func togetherOf(t *season.Compared) *Together {
	if t == nil || len(t.Counts) < 2 {
		return nil
	}
	return &Together{Pots: potsHeld(t.Counts), Currency: t.Money.Currency.Code, Amount: AmountOf(t.Money), Own: AmountOf(t.Own()), Difference: AmountOf(t.New())}
}

func potsHeld(counts []*season.InHand) []PotHeld {
	pots := []PotHeld{}
	for _, h := range counts {
		pots = append(pots, PotHeld{h.Pot, h.Date.String(), AmountOf(h.Money)})
	}
	return pots
}

// StandsOf is how a comparison stands, nil where there is none.
func StandsOf(t *season.Compared) *Stands {
	if t == nil {
		return nil
	}
	d := &Stands{Ledger: AmountOf(t.Book), Difference: AmountOf(t.Off()), Carried: less(t.Off(), t.New()), New: AmountOf(t.New()), Since: t.After.String()}
	if len(t.Stale) > 0 {
		d.IfStill = potsHeld(t.Stale)
	}
	return d
}

// explainedOf is what would explain a count, and the day of a later one that agrees again.
func explainedOf(h analysis.InHandYear) (later string, slips []Slip) {
	if h.AgreesLater != 0 {
		later = h.AgreesLater.String()
	}
	return later, slipsOf(h.Slips)
}

func slipOf(s analysis.Slip) Slip {
	d := Slip{Date: s.Date.String(), Moved: AmountOf(s.Moved), Twice: s.Twice, Alike: s.Alike, Again: s.Again, Turned: s.Turned, Pointed: s.Pointed, File: s.At().File, Line: s.At().Line}
	if s.Meant != 0 {
		d.Meant = s.Meant.String()
	}
	if s.ZeroOn != 0 {
		typed := AmountOf(s.Typed)
		d.ZeroOn, d.Typed = s.ZeroOn.String(), &typed
	}
	d.FitsAgreed, d.FitsReceipt = s.FitsAgreed, s.FitsReceipt
	if s.MeantAmount.Minor != 0 {
		typed, meant := AmountOf(s.Typed), AmountOf(s.MeantAmount)
		d.Typed, d.MeantAmount = &typed, &meant
	}
	if s.MeantCurrency.Code != "" {
		d.Currency, d.MeantCurrency = s.Moved.Currency.Code, s.MeantCurrency.Code
	}
	if s.Explains.Minor != 0 {
		explains := AmountOf(s.Explains)
		d.Explains = &explains
	}
	if c := s.Cost; c != nil {
		if s.ByClub {
			d.PaidBy = c.By.FullName()
		}
		d.Kind, d.Remark = c.Kind, c.Remark
		if c.Contest != nil {
			d.Contest = c.Contest.Name
		}
		return d
	}
	if h := s.Count; h != nil {
		d.Pot, d.Opening, d.Remark = h.Pot, s.Opening, h.Remark
		return d
	}
	d.From, d.To, d.Remark = s.Settlement.From.FullName(), s.Settlement.To.FullName(), s.Settlement.Remark
	return d
}
