package answers

import (
	"cmp"
	"slices"
	"strings"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/ledger"
)

// MoneyLine is a line of money by itself. From and To are the parties of a payment or of
// an older debt, "" for the club; Pot is that of a count.
type MoneyLine struct {
	Date     string    `json:"date"`
	Entry    EntryWord `json:"entry"`
	Kind     string    `json:"kind,omitempty"`
	Contest  string    `json:"contest,omitempty"`
	From     string    `json:"from,omitempty"`
	To       string    `json:"to,omitempty"`
	Pot      string    `json:"pot,omitempty"`
	Currency string    `json:"currency"`
	Amount   Amount    `json:"amount"`
	File     string    `json:"file"`
	Line     int       `json:"line"`
}

func moneyLineOf(m analysis.MoneyLine) MoneyLine {
	d := MoneyLine{Date: m.Date.String(), Currency: m.Money.Currency.Code, Amount: AmountOf(m.Money), File: m.At.File, Line: m.At.Line}
	switch {
	case m.Cost != nil:
		if d.Entry, d.Kind = EntryCost, m.Cost.Kind; m.Cost.Income {
			d.Entry = EntryIncome
		}
		if m.Cost.Contest != nil {
			d.Contest = m.Cost.Contest.Name
		}
	case m.Settlement != nil:
		d.Entry, d.From, d.To = EntrySettle, m.Settlement.From.FullName(), m.Settlement.To.FullName()
	case m.Debt != nil:
		d.Entry, d.From, d.To = EntryOwed, m.Debt.From.FullName(), m.Debt.To.FullName()
	default:
		d.Entry, d.Pot = EntryInHand, m.Count.Pot
	}
	return d
}

// ReceiptElsewhere is a line of another year that has a receipt which is missing in this
// one: its year may be mistyped. Unnumbered is instead the only line without a receipt
// between those of the numbers before and after. They are in the order of their numbers.
type ReceiptElsewhere struct {
	Receipt    string `json:"receipt"`
	Unnumbered bool   `json:"unnumbered,omitempty"`
	MoneyLine
}

func receiptsElsewhere(all []analysis.ReceiptElsewhere) []ReceiptElsewhere {
	var found []ReceiptElsewhere
	for _, e := range all {
		found = append(found, ReceiptElsewhere{e.Receipt, e.Unnumbered, moneyLineOf(e.MoneyLine)})
	}
	slices.SortStableFunc(found, func(a, b ReceiptElsewhere) int {
		return cmp.Or(cmp.Compare(len(plainReceipt(a.Receipt)), len(plainReceipt(b.Receipt))), strings.Compare(a.Receipt, b.Receipt))
	})
	return found
}

// Warned are the warnings of a ledger: how many there are, and the lines of money of a
// year that have one. Pages are whose statements have one of these lines; Budgets those of
// the year that have one.
type Warned struct {
	Warnings int            `json:"warnings"`
	Lines    []WarnedLine   `json:"lines"`
	Pages    []WarnedPage   `json:"pages,omitempty"`
	Budgets  []WarnedBudget `json:"budgets,omitempty"`
}

// WarnedBudget is a budget with the message of its warning.
type WarnedBudget struct {
	Kind     string `json:"kind"`
	Currency string `json:"currency"`
	Amount   Amount `json:"amount"`
	File     string `json:"file"`
	Line     int    `json:"line"`
	Message  string `json:"message"`
}

// WarnedPage is a party whose statement has a line that is in question; Receipt is that
// of two lines.
type WarnedPage struct {
	Party   string    `json:"party"`
	Name    string    `json:"name"`
	Why     LineDoubt `json:"why"`
	Receipt string    `json:"receipt,omitempty"`
}

// LineDoubt is why a line of money is in question.
type LineDoubt string

// A line may be another one, typed twice; nothing was owed of what it pays; it goes to who
// owed as much; a bill may be paid by one that is no payment; its receipt is that of another
// slip; or it has another warning.
const (
	DoubtTwice   LineDoubt = "typed-twice"
	DoubtNotOwed LineDoubt = "nothing-owed"
	DoubtWay     LineDoubt = "payment-other-way"
	DoubtPaid    LineDoubt = "bill-may-be-paid"
	DoubtReceipt LineDoubt = "one-receipt"
	DoubtOther   LineDoubt = "warning"
)

// WarnedLine is a line of money with the message of its warning; Twice says that it may
// be another one typed twice.
type WarnedLine struct {
	MoneyLine
	Twice   bool   `json:"twice,omitempty"`
	Message string `json:"message"`
}

// WarnedOf finds the warnings of a reading about the money of a year; nil where it has
// none at all.
func WarnedOf(l *season.Ledger, year int, found ledger.List) *Warned {
	if found.Warnings() == 0 {
		return nil
	}
	d := &Warned{Warnings: found.Warnings(), Lines: []WarnedLine{}}
	of := map[season.Place]analysis.MoneyLine{}
	analysis.EachMoneyLine(l, func(m analysis.MoneyLine) {
		if l.YearOf(m.Date) == year && l.Past(m.Date) {
			of[m.At] = m
		}
	})
	for _, g := range found {
		at := season.Place{File: g.File, Line: g.Line}
		d.addBudget(l, year, at, g)
		if m, known := of[at]; known && g.Severity == ledger.Warning && !slices.ContainsFunc(d.Lines, func(w WarnedLine) bool { return w.File == g.File && w.Line == g.Line }) {
			d.Lines = append(d.Lines, WarnedLine{MoneyLine: moneyLineOf(m), Twice: ledger.RepeatsMoney(g), Message: g.Message})
		}
		for _, place := range []season.Place{g.Repeats(), g.SameReceipt(), at} {
			if m, known := of[place]; known && g.Severity == ledger.Warning && !ledger.PaysBill(g) {
				d.addPages(m, g)
			}
		}
		if _, known := of[at]; known && ledger.PaysBill(g) {
			for _, p := range g.Whose() {
				d.addPage(p, WarnedPage{Why: DoubtPaid})
			}
		}
	}
	return d
}

// addBudget adds the budget of a year at a place of which a diagnostic warns, once.
func (d *Warned) addBudget(l *season.Ledger, year int, at season.Place, g ledger.Diagnostic) {
	i := slices.IndexFunc(l.Budgets, func(b *season.Budget) bool { return b.At == at && b.Year == year })
	if i < 0 || g.Severity != ledger.Warning || slices.ContainsFunc(d.Budgets, func(w WarnedBudget) bool { return w.File == at.File && w.Line == at.Line }) {
		return
	}
	b := l.Budgets[i]
	d.Budgets = append(d.Budgets, WarnedBudget{b.Kind, b.Money.Currency.Code, AmountOf(b.Money), at.File, at.Line, g.Message})
}

// addPages adds those whose statements have a line of which a diagnostic warns, each once
// for a reason.
func (d *Warned) addPages(m analysis.MoneyLine, g ledger.Diagnostic) {
	page := WarnedPage{Why: DoubtOther}
	switch {
	case ledger.RepeatsMoney(g):
		page.Why = DoubtTwice
	case ledger.PaysNothingOwed(g):
		page.Why = DoubtNotOwed
	case ledger.PaysOtherWay(g):
		page.Why = DoubtWay
	case g.SameReceipt().Line > 0:
		page.Why, page.Receipt = DoubtReceipt, m.Receipt()
	}
	for _, p := range m.Parties() {
		if g.IsAbout(p) {
			d.addPage(p, page)
		}
	}
}

func (d *Warned) addPage(p season.Party, page WarnedPage) {
	page.Party, page.Name = p.Name(), p.FullName()
	if !p.Club() && !slices.Contains(d.Pages, page) {
		d.Pages = append(d.Pages, page)
	}
}

// PagesOf are those of some statements.
func (d *Warned) PagesOf(statements []Statement) []WarnedPage {
	if d == nil {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(d.Pages), func(p WarnedPage) bool {
		return !slices.ContainsFunc(statements, func(s Statement) bool { return s.Party == p.Party })
	})
}
