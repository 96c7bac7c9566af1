package workbook

import (
	"fmt"
	"io"
	"maps"
	"math/big"
	"slices"
	"strings"
	"time"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// WriteClub writes the treasurer's workbook of a club's year as an xlsx file: every
// figure of its sheets is a formula over the postings of one of them, with the
// answer's number as its value. The same answers and options give the same bytes.
// Nothing is written to w when it fails before the end.
func WriteClub(w io.Writer, book answers.ClubBook, o Options) error {
	c := newClub(book, o)
	return stages(o.Progress).write(w, c.imprint(o.Head), []xlsx.Sheet{
		newYearPage(c).sheet(), membersSheet(c), journalSheet(c), clubContestsSheet(c), paymentsSheet(c), dutiesSheet(c),
	})
}

// club is what the sheets of the treasurer's workbook show.
type club struct {
	answers.ClubBook
	title, period string
	asOf          string
	// What parties, kinds and contests are called in formulas: names of their own,
	// that no formula can take for a number, a date or a pattern.
	parties, kinds, contests map[string]string
	places                   map[string]int    // the decimals of each currency
	rates                    map[string]string // the name of the cell of each currency's rate
	amountWide               float64           // how wide a column of amounts is
	postingWide              float64           // how wide one of postings' own amounts is
}

func newClub(book answers.ClubBook, o Options) *club {
	c := &club{
		ClubBook: book, title: o.Title, period: o.Head.Words(), asOf: o.Head.AsOf,
		parties: map[string]string{}, kinds: map[string]string{}, contests: map[string]string{}, places: map[string]int{},
		rates: ratesByName(book.Year),
	}
	if c.title == "" {
		c.title = words.ClubTitle(book.Year.Club.Name)
	}
	name := func(names map[string]string, taken namesTaken, what, of string) {
		if _, known := names[what]; !known && what != "" {
			names[what] = taken.add(what + "/" + of)
		}
	}
	parties, kinds, contests := namesTaken{}, namesTaken{}, namesTaken{}
	name(c.parties, parties, answers.TheClub, "party")
	for _, p := range book.Year.Parties {
		name(c.parties, parties, p.Party, "party")
	}
	for _, r := range book.Journal {
		name(c.parties, parties, r.From, "party")
		name(c.parties, parties, r.To, "party")
		name(c.kinds, kinds, r.Kind, "kind")
		name(c.contests, contests, r.Contest, "contest")
	}
	for _, b := range book.Year.Club.Budget {
		name(c.kinds, kinds, b.Kind, "kind")
	}
	for _, contest := range book.Year.Contests {
		name(c.contests, contests, contest.Contest, "contest")
	}
	c.takePlaces()
	c.amountWide, c.postingWide = c.widest()
	return c
}

// How wide a column of amounts is where none is longer: of sums, and of what a posting
// has by itself.
const (
	usualAmount  = 12
	usualPosting = 10.4
)

// widest is how wide the longest amount is: of sums, of which none of the sheets is longer
// than all that moved in its currency together, and of one posting.
func (c *club) widest() (sum, posting float64) {
	sums, one := map[string]*big.Rat{}, 0
	for _, r := range c.Journal {
		if sums[r.Currency] == nil {
			sums[r.Currency] = new(big.Rat)
		}
		sums[r.Currency].Add(sums[r.Currency], exactly(r.Amount.Size()))
		one = max(one, c.letters(exactly(r.Amount.Size()), r.Currency))
		if r.Paid != nil {
			one = max(one, c.letters(exactly(r.Paid.Size()), r.PaidCurrency))
		}
	}
	all := 0
	for currency, sum := range sums {
		all = max(all, c.letters(sum, currency))
	}
	const wide = 1.15 // a bold digit is wider
	return max(usualAmount, wide*float64(all)), max(usualPosting, wide*float64(one))
}

// letters is how many an amount has: a sign, digits, their groups, a point.
func (c *club) letters(amount *big.Rat, currency string) int {
	whole := len(new(big.Int).Quo(amount.Num(), amount.Denom()).String())
	return 1 + whole + (whole-1)/3 + 1 + c.places[currency]
}

// takePlaces takes down the decimals of each currency.
func (c *club) takePlaces() {
	for _, r := range c.Journal {
		c.places[r.Currency] = r.Amount.Places()
		if r.Paid != nil {
			c.places[r.PaidCurrency] = r.Paid.Places()
		}
	}
	for _, h := range c.Counts {
		c.places[h.Currency] = h.Amount.Places()
	}
	for _, b := range c.Year.Club.Budget {
		c.places[b.Currency] = b.Amount.Places()
	}
	if in := c.Year.Club.Converted; in != nil && in.Amount != nil {
		c.places[in.Currency] = in.Amount.Places()
	}
	if in := c.ResultInOne; in != nil {
		c.places[in.Currency] = in.Amount.Places()
	}
}

// imprint is what every printed page and the document's properties say.
func (c *club) imprint(head report.Head) xlsx.Imprint {
	asOf, _ := time.Parse(time.DateOnly, head.AsOf) // the first day there is where none was said
	return xlsx.Imprint{
		Title: c.title, Period: c.period, Foot: head.Imprint(), Program: head.Program,
		Creator: strings.TrimSpace(head.Program + " " + head.Version), Dated: asOf,
		Subject: words.ClubBookSubject, Keywords: words.ClubBookKeywords,
	}
}

// condition is one of a sum's: what a column of the journal must be.
type condition struct{ column, is string }

// where is a column that must equal a text or a comparison, as one of it.
func where(column, is string) condition { return condition{column, xlsx.Quoted(is)} }

// inYear and upTo choose the postings of a financial year, and those until its end.
func inYear(year int) condition { return condition{"year", fmt.Sprint(year)} }

func upTo(year int) condition { return where("year", fmt.Sprintf("<=%d", year)) }

// journalSum adds up a column of the journal where all conditions hold.
func journalSum(column string, all ...condition) string {
	var b strings.Builder
	fmt.Fprintf(&b, "SUMIFS({Journal.%s}", column)
	for _, c := range all {
		fmt.Fprintf(&b, ",{Journal.%s},%s", c.column, c.is)
	}
	return b.String() + ")"
}

// between is what one party gave less what it had, of another where that is named;
// further conditions hold for both.
func (c *club) between(party, other string, all ...condition) string {
	gave, had := []condition{where("from-key", c.parties[party])}, []condition{where("to-key", c.parties[party])}
	if other != "" {
		gave, had = append(gave, where("to-key", c.parties[other])), append(had, where("from-key", c.parties[other]))
	}
	return journalSum("amount", append(gave, all...)...) + "-" + journalSum("amount", append(had, all...)...)
}

// rounded keeps the sums of decimals to a currency's smallest unit.
func (c *club) rounded(formula, currency string) string {
	return fmt.Sprintf("ROUND(%s,%d)", formula, c.places[currency])
}

// moneyLook is the look of an amount of a currency.
func (c *club) moneyLook(currency string) xlsx.Look { return amountLook(c.places[currency]) }

// amountLook shows an amount with its thousands apart.
func amountLook(places int) xlsx.Look {
	plain := "#,##0"
	if places > 0 {
		plain += "." + strings.Repeat("0", places)
	}
	return xlsx.Look{Format: fmt.Sprintf(`%[1]s;-%[1]s`, plain), Align: "right", Line: true}
}

// noneIsBlank shows nothing for an amount that nobody has, as the page does; one that
// comes to nothing is 0.
func noneIsBlank(look xlsx.Look, none bool) xlsx.Look {
	if none {
		look.Format += `;""`
	}
	return look
}

// amountValue is an amount in a cell.
func amountValue(a answers.Amount) xlsx.Value { return number(a.Number()) }

// exactly is an amount as an exact number.
func exactly(a answers.Amount) *big.Rat {
	r, _ := new(big.Rat).SetString(a.Text()) // as it was written
	return r
}

// less is an amount less another, in a cell.
func less(a, b answers.Amount) xlsx.Value {
	return xlsx.Exact(new(big.Rat).Sub(exactly(a), exactly(b)))
}

// inRates adds cells of several currencies up at the rates of the year, each of
// them times its rate; a currency without one is left out.
func (c *club) inRates(into string, cells map[string]string) string {
	var parts []string
	for _, currency := range slices.Sorted(maps.Keys(cells)) {
		switch rate := c.rates[currency]; {
		case currency == into:
			parts = append(parts, cells[currency])
		case rate != "":
			parts = append(parts, cells[currency]+"*"+rate)
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return c.rounded(strings.Join(parts, "+"), into)
}

// ruled draws the line beneath a row of sums, from a column to another.
func ruled(b *xlsx.Book, row, from, to int) {
	for column := from; column <= to; column++ {
		b.Put(column, row, xlsx.Value{}, xlsx.LookText)
	}
}

// named is a party's name.
func named(name string) string { return words.PartyName(name) }
