package answers

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/season"
)

// ExportPosting is what one line of money moves between two parties. From gave it:
// who paid a cost or billed it, who paid a settlement, who is owed an older debt. To
// had it: whom the share of a cost is for, who was paid, who owes the debt. A party's
// balance in a currency is the sum of what it gave less the sum of what it had.
// Income from outside changes no balance and has neither. Number is the same in
// the rows of one line. For is all that the line is for, with the numbers of
// their shares where they were typed; ToClub says that the club received it.
type ExportPosting struct {
	Date     string    `json:"date"`
	Number   int       `json:"number"`
	Entry    EntryWord `json:"entry"`
	From     string    `json:"from,omitempty"`
	To       string    `json:"to,omitempty"`
	Amount   Amount    `json:"amount"`
	Currency string    `json:"currency"`
	// Paid and PaidCurrency are what was handed over for a debt in another currency.
	Paid         *Amount `json:"paid,omitempty"`
	PaidCurrency string  `json:"paidIn,omitempty"`
	Kind         string  `json:"kind,omitempty"`
	Contest      string  `json:"contest,omitempty"`
	For          string  `json:"for,omitempty"`
	ToClub       bool    `json:"toClub"`
	Receipt      string  `json:"receipt,omitempty"`
	Remark       string  `json:"remark,omitempty"`
	File         string  `json:"file"`
	Line         int     `json:"line"`
}

// EntryWord is the ledger's word for a line of money.
type EntryWord string

// The lines of money that move something between parties, or into a party.
const (
	EntryCost   EntryWord = "cost"
	EntryIncome EntryWord = "income"
	EntrySettle EntryWord = "settle"
	EntryOwed   EntryWord = "owed"
)

// ExportMoneyOf are the lines of money up to the ledger's AsOf, by date; on one
// day costs, incomes and debts come before settlements. Of the selection the span
// of days, the contest and the pilot count, the pilot as one of the two parties or
// as whom the line is for.
func ExportMoneyOf(l *season.Ledger, s season.Selection) []ExportPosting {
	all := slices.Concat(debtPostings(l), costPostings(l), settlePostings(l))
	slices.SortStableFunc(all, func(a, b []ExportPosting) int { return cmp.Compare(a[0].Date, b[0].Date) })
	rows, number := []ExportPosting{}, 0
	for _, entry := range all {
		number++
		for _, row := range entry {
			row.Number = number
			if row.wanted(s) {
				rows = append(rows, row)
			}
		}
	}
	return rows
}

// wanted reports whether a row is of the selection.
func (p ExportPosting) wanted(s season.Selection) bool {
	switch {
	case s.Since != 0 && p.Date < s.Since.String(), s.Until != 0 && p.Date > s.Until.String(): // dates sort as texts
		return false
	case s.Contest != nil && p.Contest != s.Contest.Handle:
		return false
	default:
		return s.Pilot == nil || slices.Contains([]string{p.From, p.To}, s.Pilot.Handle) || p.Entry == EntryIncome && p.For == s.Pilot.Handle
	}
}

func debtPostings(l *season.Ledger) (all [][]ExportPosting) {
	for _, d := range l.Debts {
		if l.Past(d.Date) {
			all = append(all, []ExportPosting{posting(EntryOwed, d.Date, d.Money, d.At).of(d.To, d.From).noted("", d.Remark)})
		}
	}
	return all
}

func settlePostings(l *season.Ledger) (all [][]ExportPosting) {
	for _, s := range l.Settlements {
		if l.Past(s.Date) {
			row := posting(EntrySettle, s.Date, s.Money, s.At).of(s.From, s.To).noted(s.Receipt, s.Remark)
			if s.Paid.Currency != s.Money.Currency {
				paid := AmountOf(s.Paid)
				row.Paid, row.PaidCurrency = &paid, s.Paid.Currency.Code
			}
			all = append(all, []ExportPosting{row})
		}
	}
	return all
}

func costPostings(l *season.Ledger) (all [][]ExportPosting) {
	for _, c := range l.Costs {
		if !l.Past(c.Date) {
			continue
		}
		row := posting(EntryCost, c.Date, c.Money, c.At).noted(c.Receipt, c.Remark)
		row.Kind, row.For, row.ToClub = c.Kind, forWhom(c), c.ToClub
		if c.Contest != nil {
			row.Contest = c.Contest.Handle
		}
		if c.Income {
			row.Entry = EntryIncome
			all = append(all, []ExportPosting{row})
			continue
		}
		var rows []ExportPosting
		for i, share := range c.Shares() {
			row.Amount = AmountOf(season.Money{Minor: share, Currency: c.Money.Currency})
			rows = append(rows, row.of(c.By, c.For[i]))
		}
		all = append(all, rows)
	}
	return all
}

func posting(word EntryWord, day season.Date, money season.Money, at season.Place) ExportPosting {
	return ExportPosting{
		Date: day.String(), Entry: word, Amount: AmountOf(money), Currency: money.Currency.Code, File: at.File, Line: at.Line,
	}
}

func (p ExportPosting) of(from, to season.Party) ExportPosting {
	p.From, p.To = from.Name(), to.Name()
	return p
}

func (p ExportPosting) noted(receipt, remark string) ExportPosting {
	p.Receipt, p.Remark = receipt, remark
	return p
}

// forWhom names all that a cost or an income is for.
func forWhom(c *season.Cost) string {
	var names []string
	for i, party := range c.For {
		name := party.Name()
		if c.Weights != nil {
			name = fmt.Sprint(name, " ", c.Weights[i])
		}
		names = append(names, name)
	}
	return strings.Join(names, " ")
}
