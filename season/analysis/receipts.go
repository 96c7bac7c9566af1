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
		begins := strings.TrimRight(receipt, "0123456789")
		digits := receipt[len(begins):]
		n, err := strconv.ParseInt(digits, 10, 64)
		if begins == "" || err != nil {
			continue
		}
		if found[begins] == nil {
			found[begins] = &ReceiptSeries{Begins: begins}
		}
		if digits[0] == '0' {
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

// ReceiptLines are the year's lines of the club that a slip belongs to, what it spent and
// paid for others and what it received from outside, and how many of them name none.
type ReceiptLines struct{ Lines, Without int }

func receiptLinesOf(l *season.Ledger, year int) ReceiptLines {
	var r ReceiptLines
	for _, c := range l.Costs {
		ofClub := c.By.Club() && !c.Income || slices.ContainsFunc(c.For, season.Party.Club)
		if !ofClub || c.ToClub || !pastIn(l, year, c.Date) {
			continue
		}
		r.Lines++
		if c.Receipt == "" {
			r.Without++
		}
	}
	return r
}
