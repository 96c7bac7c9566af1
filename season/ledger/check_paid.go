package ledger

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"boxbook/season"
)

// checkPayers warns of payments that were probably typed the wrong way round, or in a
// mistyped amount, by what was owed on their day. A remark says that one is right.
func (r *reader) checkPayers(postings []season.Posting) {
	lines := map[*season.Settlement]*moneyLine{}
	for _, line := range r.money {
		lines[line.settlement] = line
	}
	skip := func(s *season.Settlement) bool { return lines[s].repeats || r.explains(s.Remark) }
	for _, slip := range season.PayersSlips(postings, skip) {
		s, line := slip.Settlement, lines[slip.Settlement]
		owed := slip.Owed.Text() + " " + slip.Owed.Currency.Code
		if slip.WrongWay {
			d := r.at(line.f, line.head, paidOtherWay, s.From.Name(), s.To.Name(), s.To.Name(), s.From.Name(), owed)
			if s.Paid == s.Money {
				d.advise(hint(fmt.Sprintf("who pays comes first: `settle %s %s %s %s`; if it is right, say why in a remark", s.Date, s.To.Name(), s.From.Name(), owed)))
			}
			continue
		}
		r.at(line.f, line.head, paidTooMuch, s.From.Name(), s.To.Name(), owed, s.Money.Text(), howMistyped(slip.Owed.Minor, s.Money.Minor)).
			hinted(messages[paidTooMuch].hint, slip.Owed.Text())
	}
}

// howMistyped says what was made of an amount.
func howMistyped(meant, typed int64) string {
	switch typed {
	case 10 * meant:
		return "ten times that"
	case 100 * meant:
		return "a hundred times that"
	default:
		return "that with two digits swapped"
	}
}

// explains reports whether a remark says more than a kind of cost and a number.
func (r *reader) explains(remark string) bool {
	if remark == "" {
		return false
	}
	words := strings.FieldsFunc(strings.ToLower(remark), func(c rune) bool { return unicode.IsSpace(c) || strings.ContainsRune(",;:.()", c) })
	for _, word := range words {
		if strings.Trim(word, "0123456789-/") != "" && !r.isKind(word) {
			return true
		}
	}
	return false
}

// isKind reports whether a line about money has a kind called so.
func (r *reader) isKind(word string) bool {
	if r.kindsUsed == nil {
		r.kindsUsed = map[string]bool{}
		for _, line := range r.money {
			for _, form := range kindForms(strings.ToLower(line.kindName)) {
				r.kindsUsed[form] = true
			}
		}
	}
	return r.kindsUsed[word]
}

// checkRefunds warns of a cost below zero that the club has "paid" of a kind that it only
// ever billed to the same person: that says that money came back to the club, and who
// meant to give some back has turned its sign. A remark says that it is right.
func (r *reader) checkRefunds() {
	type of struct {
		kind  string
		party season.Party
	}
	billed, paid := map[of]bool{}, map[of]bool{}
	lines := slices.SortedStableFunc(slices.Values(r.money), func(a, b *moneyLine) int { return cmp.Compare(a.date, b.date) })
	for _, line := range lines {
		c := line.cost
		if c == nil || c.Income || !c.By.Club() {
			continue
		}
		if c.Money.Minor > 0 {
			said := paid
			if c.ToClub {
				said = billed
			}
			for _, p := range c.For {
				said[of{c.Kind, p}] = true
			}
			continue
		}
		if len(c.For) != 1 || c.ToClub || c.Money.Minor == 0 || r.explains(c.Remark) {
			continue
		}
		if who := c.For[0]; billed[of{c.Kind, who}] && !paid[of{c.Kind, who}] {
			back := c.Money
			back.Minor = -back.Minor
			sum := back.Text() + " " + back.Currency.Code
			r.at(line.f, line.head, refundOfBill, sum, c.Kind, who.Name(), who.Name()).hinted(messages[refundOfBill].hint,
				fmt.Sprintf("cost %s %s -%s for %s by club to club", line.date, c.Kind, sum, who.Name()),
				fmt.Sprintf("settle %s club %s %s", line.date, who.Name(), sum))
		}
	}
}

// openBill is a line that looks like a payment of what the club billed, with who had not
// paid such a bill on its day.
type openBill struct {
	line  *moneyLine
	money season.Money
	from  []billedParty
}

type billedParty struct {
	party season.Party
	bill  season.Posting
	side  season.Side
	count int // of postings on that day
}

// checkBillsPaid warns of an income, and of a cost that a member paid to the club at once,
// of exactly the kind and the amount that the club billed in the year and that stays
// unpaid: what is paid of a bill is a payment, else it counts twice. A remark that says
// more than the kind is another matter.
func (r *reader) checkBillsPaid(postings []season.Posting) {
	lines := r.likePayments()
	if len(lines) == 0 {
		return
	}
	type billOf struct {
		billKey
		party season.Party
	}
	accounts, billed, seen := season.NewAccounts(), map[billKey][]season.Party{}, map[billOf]bool{}
	found := make([]openBill, 0, len(lines))
	for _, line := range lines {
		for ; len(postings) > 0 && postings[0].Date <= line.date; postings = postings[1:] {
			p := postings[0]
			accounts.Post(p)
			if isBill(p) {
				if key := (billKey{p.Cost.Kind, p.Money}); !seen[billOf{key, p.Debtor}] {
					billed[key], seen[billOf{key, p.Debtor}] = append(billed[key], p.Debtor), true
				}
			}
		}
		c := line.cost
		for i, share := range c.Shares() {
			who := openBill{line: line, money: season.Money{Minor: share, Currency: c.Money.Currency}}
			of := billed[billKey{c.Kind, who.money}]
			for _, p := range of {
				if p != c.For[i] && !(c.Income && c.For[i].Club()) {
					continue
				}
				side := accounts.Between(p, season.Party{}, c.Money.Currency)
				if at := slices.IndexFunc(side.Open(share), func(b season.Posting) bool { return r.maybePays(c, b) }); at >= 0 && side.Owes() >= share {
					who.from = append(who.from, billedParty{p, side.Open(share)[at], side, side.Count()})
				}
			}
			found = append(found, who)
		}
	}
	for _, p := range postings {
		accounts.Post(p)
	}
	for _, bill := range found {
		bill.from = slices.DeleteFunc(bill.from, func(p billedParty) bool {
			least, more := p.side.LeastSince(p.count)
			return more && least < bill.money.Minor
		})
		if len(bill.from) > 0 {
			r.warnOfBill(bill)
		}
	}
}

// billKey is what bills have in common that one payment may be of.
type billKey struct {
	kind  string
	money season.Money
}

func isBill(p season.Posting) bool {
	return p.Cost != nil && p.Cost.ToClub && p.Creditor.Club() && p.Money.Minor > 0
}

// likePayments are the lines that may be payments of a bill, by date.
func (r *reader) likePayments() []*moneyLine {
	var lines []*moneyLine
	for _, line := range r.money {
		c := line.cost
		if c != nil && c.Money.Minor > 0 && !line.repeats && (c.Income || c.ToClub && !c.By.Club()) && !r.explains(c.Remark) {
			lines = append(lines, line)
		}
	}
	slices.SortStableFunc(lines, func(a, b *moneyLine) int { return int(a.date - b.date) })
	return lines
}

// maybePays reports whether a line may be a payment of a bill: it is of its year, and of no
// other contest.
func (r *reader) maybePays(c *season.Cost, bill season.Posting) bool {
	contests := c.Contest == nil || bill.Cost != nil && (bill.Cost.Contest == nil || bill.Cost.Contest == c.Contest)
	return isBill(bill) && bill.Cost.Kind == c.Kind && contests && r.out.YearOf(bill.Date) == r.out.YearOf(c.Date)
}

func (r *reader) warnOfBill(bill openBill) {
	line, money := bill.line, bill.money.Text()+" "+bill.money.Currency.Code
	first := bill.from[0]
	var d *Diagnostic
	if line.cost.Income {
		names := make([]string, len(bill.from))
		for i, p := range bill.from {
			names[i] = p.party.Name()
		}
		d = r.at(line.f, line.head, incomeFromDebtor, eachOf(names), bill.money.Text(), bill.money.Currency.Code, line.date)
	} else {
		d = r.at(line.f, line.head, billedAgain, first.party.Name(), money, line.cost.Kind, lineText(first.bill.Cost.At, line.f))
	}
	who := first.party.Name()
	if len(bill.from) > 1 {
		who = "WHO"
	}
	pays := fmt.Sprintf("what %s pays of it is `settle %s %s club %s`", strings.Replace(who, "WHO", "one of them", 1), line.date, who, money)
	if by := line.cost.By; !line.cost.Income && by != first.party { // who handed it over is owed it
		pays += fmt.Sprintf(", and what is then owed to %s `owed %s %s %s %s`", by.Name(), line.date, who, by.Name(), money)
	}
	d.advise(hint(pays + "; if it is something else, say so in a remark"))
	for _, p := range bill.from {
		d.ofWhom(append(d.Whose(), p.party))
	}
}

// eachOf names who did a thing, each one.
func eachOf(names []string) string {
	if len(names) == 1 {
		return names[0]
	}
	return someOf(names) + " each"
}

// someOf names some, and the first of many.
func someOf(names []string) string {
	switch n := len(names); {
	case n == 1:
		return names[0]
	case n > mostOwing:
		return fmt.Sprintf("%s and %d more", strings.Join(names[:mostOwing], ", "), n-mostOwing)
	default:
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
}
