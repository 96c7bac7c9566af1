package analysis

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"boxbook/season"
)

// ReceiptSeries are the numbers behind one beginning, as 25- of 25-01, that a year's
// slips have. Digits is how many each is written with, 0 where they are not filled up
// with zeros.
type ReceiptSeries struct {
	Begins string
	Digits int
	Receipts
}

// Name is a number as the series writes it.
func (s ReceiptSeries) Name(n int64) string { return fmt.Sprintf("%s%0*d", s.Begins, s.Digits, n) }

// fewestOfSeries is how many numbers make a numbering of one's own.
const fewestOfSeries = 3

// receiptSeriesOf are those of a year of which some number is missing, by their
// beginning: three numbers and more, and as many as are missing, since other people's
// numbers stand far apart. Plain numbers are no series.
func receiptSeriesOf(l *season.Ledger, year int) []ReceiptSeries {
	found := map[string]*ReceiptSeries{}
	numbers := map[string][]int64{}
	for _, receipt := range receiptsIn(l, year) {
		begins, n, ok := numberOf(receipt)
		if begins == "" || !ok {
			continue
		}
		if found[begins] == nil {
			found[begins] = &ReceiptSeries{Begins: begins}
		}
		if digits := receipt[len(begins):]; digits[0] == '0' {
			found[begins].Digits = len(digits)
		}
		numbers[begins] = append(numbers[begins], n)
	}
	var all []ReceiptSeries
	for begins, s := range found {
		s.Receipts = numbered(numbers[begins])
		missing := s.Last - s.First + 1 - int64(s.Numbers)
		if s.Numbers >= fewestOfSeries && missing > 0 && missing <= int64(s.Numbers) {
			all = append(all, *s)
		}
	}
	slices.SortFunc(all, func(a, b ReceiptSeries) int { return cmp.Compare(a.Begins, b.Begins) })
	return all
}

// receiptsIn are the receipts of a year's lines as typed.
func receiptsIn(l *season.Ledger, year int) []string {
	var all []string
	add := func(d season.Date, receipt string) {
		if receipt != "" && pastIn(l, year, d) {
			all = append(all, receipt)
		}
	}
	for _, c := range l.Costs {
		add(c.Date, c.Receipt)
	}
	for _, s := range l.Settlements {
		add(s.Date, s.Receipt)
	}
	return all
}

// ReceiptElsewhere is a line of another year with a receipt that is missing in this one,
// and of which that other year may have been typed for this; or, Unnumbered, the one line
// without a receipt that lies between the lines of the numbers before and after.
type ReceiptElsewhere struct {
	Receipt string
	MoneyLine
	Unnumbered bool
}

// receiptsElsewhere lists them by date. A line whose number goes with the others of its
// own year is left out: a club may begin with 1 every year.
func receiptsElsewhere(l *season.Ledger, year int, plain Receipts, series []ReceiptSeries) []ReceiptElsewhere {
	if len(plain.Missing)+len(series) == 0 {
		return nil
	}
	missing := func(receipt string) bool {
		begins, n, ok := numberOf(receipt)
		has := func(r Receipts) bool {
			return slices.ContainsFunc(r.Missing, func(run NumberRun) bool { return run.From <= n && n <= run.To })
		}
		return ok && (begins == "" && has(plain) || slices.ContainsFunc(series, func(s ReceiptSeries) bool { return s.Begins == begins && has(s.Receipts) }))
	}
	var found []ReceiptElsewhere
	EachMoneyLine(l, func(m MoneyLine) {
		receipt := m.Receipt()
		other := l.YearOf(m.Date)
		if other == year || !missing(receipt) || !season.YearMistyped(other, year) || l.YearOf(m.Date.InYear(m.Date.Year()+year-other)) != year {
			return
		}
		if !l.Past(m.Date) || !goesWithOthers(l, m, receipt) {
			found = append(found, ReceiptElsewhere{Receipt: receipt, MoneyLine: m})
		}
	})
	slips := slipsOf(l, year)
	for _, run := range plain.Missing {
		named := func(e ReceiptElsewhere) bool { return e.Receipt == strconv.FormatInt(run.From, 10) }
		if run.From != run.To || slices.ContainsFunc(found, named) {
			continue
		}
		if m, ok := unnumberedBetween(slips, run.From); ok {
			found = append(found, ReceiptElsewhere{strconv.FormatInt(run.From, 10), m, true})
		}
	}
	slices.SortStableFunc(found, func(a, b ReceiptElsewhere) int { return cmp.Compare(a.Date, b.Date) })
	return found
}

// fitReceipts says of the lines that explain counts, were they of another year, whose receipt
// is missing there.
func fitReceipts(counts []InHandYear, elsewhere []ReceiptElsewhere) {
	for _, h := range counts {
		for i := range h.Slips {
			s := &h.Slips[i]
			for _, e := range elsewhere {
				if s.Meant != 0 && !e.Unnumbered && e.At == s.At() {
					s.FitsReceipt = e.Receipt
				}
			}
		}
	}
}

// unnumberedBetween is the only line of slips without a receipt that lies between those of
// the numbers before and after one; false where there is none, or several.
func unnumberedBetween(slips []*season.Cost, missing int64) (MoneyLine, bool) {
	var before, after season.Date
	var without []*season.Cost
	for _, c := range slips {
		switch begins, n, ok := numberOf(c.Receipt); {
		case c.Receipt == "":
			without = append(without, c)
		case !ok || begins != "":
		case n == missing-1:
			before = c.Date
		case n == missing+1:
			after = c.Date
		}
	}
	if before == 0 || after == 0 {
		return MoneyLine{}, false
	}
	without = slices.DeleteFunc(without, func(c *season.Cost) bool { return c.Date < before || c.Date > after })
	if len(without) != 1 {
		return MoneyLine{}, false
	}
	c := without[0]
	return MoneyLine{Date: c.Date, Money: c.Money, Cost: c, At: c.At}, true
}

// receiptsBeside is how far from its own year's other receipts one still goes with them.
const receiptsBeside = 10

// goesWithOthers reports whether a receipt's number is among those of its own year's other
// lines, or near them.
func goesWithOthers(l *season.Ledger, m MoneyLine, receipt string) bool {
	begins, n, _ := numberOf(receipt)
	first, last, any := int64(0), int64(0), false
	EachMoneyLine(l, func(o MoneyLine) {
		b, k, ok := numberOf(o.Receipt())
		if !ok || b != begins || o.At == m.At || l.YearOf(o.Date) != l.YearOf(m.Date) {
			return
		}
		if !any {
			first, last, any = k, k, true
		}
		first, last = min(first, k), max(last, k)
	})
	return any && n >= first-receiptsBeside && n <= last+receiptsBeside
}

// numberOf takes a receipt apart: what it begins with, and its number.
func numberOf(receipt string) (begins string, n int64, ok bool) {
	begins = strings.TrimRight(receipt, "0123456789")
	n, err := strconv.ParseInt(receipt[len(begins):], 10, 64)
	return begins, n, err == nil
}

// ReceiptLines are the year's lines of the club that a slip belongs to, what it spent and
// paid for others and what it received from outside, and how many of them name none.
type ReceiptLines struct{ Lines, Without int }

func receiptLinesOf(l *season.Ledger, year int) ReceiptLines {
	var r ReceiptLines
	for _, c := range slipsOf(l, year) {
		r.Lines++
		if c.Receipt == "" {
			r.Without++
		}
	}
	return r
}

// slipsOf are the lines that these are of.
func slipsOf(l *season.Ledger, year int) []*season.Cost {
	var slips []*season.Cost
	for _, c := range l.Costs {
		ofClub := c.By.Club() && !c.Income || slices.ContainsFunc(c.For, season.Party.Club)
		if ofClub && !c.ToClub && pastIn(l, year, c.Date) {
			slips = append(slips, c)
		}
	}
	return slips
}
