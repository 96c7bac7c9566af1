package answers

import (
	"math/big"
	"slices"

	"boxbook/season"
	"boxbook/season/analysis"
)

// TheClub is the club's name among the parties.
const TheClub = season.ClubName

// ClubBook is everything that the treasurer's workbook shows: the club's year and
// the one before it, and the postings from which both are worked out. Nothing in it
// is about how anybody flies but the contests' results as printed.
type ClubBook struct {
	Year Year `json:"year"`
	// Journal are the postings up to the end of the year, and later ones of the
	// year's contests: those of the year first, by date.
	Journal []JournalRow `json:"journal"`
	// WithClub is what stands between each party and the club at the end of the year,
	// in the parties' order; above 0 is owed to the party.
	WithClub []PartySum `json:"withClub"`
	// Counts are the year's counts of what is in hand, as they are reckoned.
	Counts []CountReckoned `json:"counts"`
	// OwedInOne, ResultInOne and MovedInOne are what is owed to the club, its result
	// and the money that moved, in the currency of the year's rates, rounded once.
	OwedInOne   *Sum `json:"owedInOne,omitempty"`
	ResultInOne *Sum `json:"resultInOne,omitempty"`
	MovedInOne  *Sum `json:"movedInOne,omitempty"`
}

// JournalRow is a row of the exported money with the names of its parties and its
// contest, in the club's financial year. An income from outside came to ToName.
type JournalRow struct {
	ExportPosting
	FinancialYear int    `json:"financialYear"`
	FromName      string `json:"fromName,omitempty"`
	ToName        string `json:"toName,omitempty"`
	ContestName   string `json:"contestName,omitempty"`
}

// PartySum is an amount of a party.
type PartySum struct {
	Party    string `json:"party"`
	Currency string `json:"currency"`
	Amount   Amount `json:"amount"`
}

// CountReckoned is a count of a pot beside what the ledger says from the first count
// on, as the year's page and the cash book have it: Own = Before + Moved + Others, where
// Before was counted on Since, the first day that the currency was, Moved is the club's
// money after that day, and Others what pots begun since had. A pot that is counted for
// the first time has none of them, nor has one that is compared with other pots: All
// says that a line is of them together.
type CountReckoned struct {
	InHand
	All    bool    `json:"all,omitempty"`
	Since  string  `json:"since,omitempty"`
	Before *Amount `json:"before,omitempty"`
	Moved  *Amount `json:"moved,omitempty"`
	Others *Amount `json:"others,omitempty"`
}

// ClubBookOf asks all that the treasurer's workbook shows. The error is YearOf's.
func ClubBookOf(l *season.Ledger, year int) (ClubBook, error) {
	y, err := YearOf(l, year)
	if err != nil {
		return ClubBook{}, err
	}
	before, err := YearOf(l, year-1)
	if err != nil {
		return ClubBook{}, err
	}
	if !before.Quiet {
		y.Beside = &before
	}
	d := ClubBook{Year: y, Journal: journalOf(l, y)}
	d.WithClub, d.Counts = withClub(d.Journal, y), potCounts(l, y)
	rates := analysis.RatesOf(l, year)
	d.OwedInOne, d.ResultInOne, d.MovedInOne = y.Club.OwedInOne, inOne(rates, y.Club.Result), inOne(rates, y.Club.Moved)
	return d, nil
}

// journalOf lists the year's postings, then the others that its figures rest on.
func journalOf(l *season.Ledger, y Year) []JournalRow {
	names, contests := map[string]string{}, map[string]string{}
	for _, p := range l.Parties() {
		names[p.Name()] = p.FullName()
	}
	for _, c := range l.Contests {
		contests[c.Handle] = c.Name
	}
	rows, others := []JournalRow{}, []JournalRow{}
	for _, posting := range ExportMoneyOf(l, season.Selection{}) {
		day, _ := season.ParseDate(posting.Date) // as the export wrote it
		row := JournalRow{
			ExportPosting: posting, FinancialYear: l.YearOf(day), ContestName: contests[posting.Contest],
			FromName: names[posting.From], ToName: names[posting.To],
		}
		if posting.Entry == EntryIncome {
			row.ToName = names[posting.For]
		}
		switch {
		case row.FinancialYear == y.Year:
			rows = append(rows, row)
		case row.FinancialYear < y.Year || y.has(posting.Contest):
			others = append(others, row)
		}
	}
	return append(rows, others...)
}

// has reports whether a contest is of the year.
func (d Year) has(contest string) bool {
	return slices.ContainsFunc(d.Contests, func(c ContestYear) bool { return c.Contest == contest })
}

// Before reports whether a row is of a year, or of an earlier one.
func (r JournalRow) Before(year int) bool { return r.FinancialYear <= year }

// Moves reports whether a row changes balances: an income from outside does not.
func (r JournalRow) Moves() bool { return r.Entry != EntryIncome }

// withClub is what stands between each party and the club.
func withClub(rows []JournalRow, y Year) []PartySum {
	out := []PartySum{}
	for _, party := range y.Parties {
		for _, sum := range party.Balance {
			stands := PartySum{party.Party, sum.Currency, sum.Amount}
			stands.Amount.money.Minor = 0
			for _, row := range rows {
				if row.Moves() && row.Before(y.Year) && row.Currency == sum.Currency {
					stands.Amount.money.Minor += row.gaveClub(party.Party)
				}
			}
			out = append(out, stands)
		}
	}
	return out
}

// gaveClub is what a row has a party give the club, less what it had of it.
func (r JournalRow) gaveClub(party string) int64 {
	switch {
	case party == season.ClubName:
		return 0
	case r.From == party && r.To == season.ClubName:
		return r.Amount.money.Minor
	case r.From == season.ClubName && r.To == party:
		return -r.Amount.money.Minor
	default:
		return 0
	}
}

// potCounts are the year's counts of what is in hand, and how what should have
// been there is reckoned.
func potCounts(l *season.Ledger, y Year) []CountReckoned {
	out := []CountReckoned{}
	for _, count := range y.Club.InHand {
		line := CountReckoned{InHand: count}
		at := slices.IndexFunc(l.InHand, func(h *season.InHand) bool {
			return h.Date.String() == count.Date && h.Pot == count.Pot && h.Money.Currency == count.Amount.money.Currency
		})
		if line.Stands != nil && !line.Joined {
			line.reckon(l, l.InHand[at])
		}
		out = append(out, line)
		if count.Together != nil {
			all := CountReckoned{InHand: count, All: true}
			all.Amount, all.Remark = count.Together.Amount, ""
			all.reckon(l, l.InHand[at])
			out = append(out, all)
		}
	}
	return out
}

// reckon takes what the ledger says on the day of a count apart.
func (c *CountReckoned) reckon(l *season.Ledger, h *season.InHand) {
	of := func(minor int64) *Amount { return &Amount{season.Money{Minor: minor, Currency: h.Money.Currency}} }
	c.Own, c.Difference = &c.Stands.Ledger, &c.Stands.Difference
	pots := l.OpenedPots(h.Money.Currency)
	since, before := pots[0].Date, int64(0)
	for _, pot := range pots {
		if pot.Date == since {
			before += pot.Money.Minor
		}
	}
	moved := l.ClubMoved(h.Money.Currency, since, h.Date)
	c.Since, c.Before, c.Moved = since.String(), of(before), of(moved)
	c.Others = of(c.Own.money.Minor - before - moved)
}

// inOne converts sums at a year's rates, rounded once; nil where there is nothing
// to convert, or a rate is missing.
func inOne(rates []*season.Rate, sums []Sum) *Sum {
	if len(rates) == 0 || len(sums) == 0 {
		return nil
	}
	all, into := new(big.Rat), rates[0].To
	for _, s := range sums {
		price := analysis.Price(rates, s.Amount.money.Currency)
		if price == nil {
			return nil
		}
		all.Add(all, price.Mul(price, s.Amount.money.Rat()))
	}
	money, ok := season.RoundMoney(all, into)
	if !ok {
		return nil
	}
	sum := sumOf(money)
	return &sum
}
